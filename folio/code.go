package folio

import (
	"iter"
	"strconv"

	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Codes of violations, besides those of package check.
const (
	TooWide      check.Code = "too-wide"      // does not go into the width there is; where nothing would, what would do is advice
	TooTall      check.Code = "too-tall"      // does not go into the height there is; where nothing would, what would do is advice
	TooNarrow    check.Code = "too-narrow"    // leaves less width than something needs
	TooThin      check.Code = "too-thin"      // leaves less thickness than something needs; of a stock by its name that is advice
	GapNarrow    check.Code = "gap-narrow"    // the hinge cannot close; of a measured cover a warning
	NeverShuts   check.Code = "never-shuts"   // a row of boards does not fold shut; where no one joint, folded the other way, would do, what would do is advice
	NeverCloses  check.Code = "never-closes"  // no gap would let the hinge close
	SheetSmall   check.Code = "sheet-small"   // no sheet at hand takes the piece; of pieces that lie on the sheets of one material, or of strips joined one way or another, one is told, and when it has its sheet the next; of a case that does not close, or of a liner that laps nothing, once it does
	MeasuredFar  check.Code = "measured-far"  // another cover than the one planned must have been measured
	MarginSmall  check.Code = "margin-small"  // a cover as measured leaves less turn-in than is tolerated; a warning
	LapNone      check.Code = "lap-none"      // the liner does not reach over the turn-in; where no inset does, what would do is advice
	TurnInsMeet  check.Code = "turn-ins-meet" // two opposite turn-ins meet; which cover to make instead is advice
	MitreClose   check.Code = "mitre-close"   // the mitre leaves the corner of the board bare
	MitresMeet   check.Code = "mitres-meet"   // mitres are longer than the paper they are cut off; which cover to make instead is advice
	LinerNone    check.Code = "liner-none"    // nothing is left inside the inset; of boards too narrow for any, advice
	OffPanel     check.Code = "off-panel"     // reaches beyond what it sits on; of magnets advice
	Overlaps     check.Code = "overlaps"      // lies over another fitting; where no place beside it is free that is advice
	TurnInNarrow check.Code = "turn-in-none"  // nothing is left to turn in; of sheets advice
)

// Codes of what is wrong with a size by relation.
const (
	Circular  check.Code = "circular"   // sizes follow from each other in a circle
	NoPrint   check.Code = "no-print"   // no usual print is small enough
	RoomSmall check.Code = "room-small" // the relation leaves less than is needed; where none would do, what would do is advice
)

// Codes of warnings.
const (
	WarnRuler     check.Code = "moved-to-ruler" // a given size is no graduation of its ruler, or one with it is put on that and makes it another
	WarnMargin    check.Code = "margin-least"   // the turn-in is below the usual least
	WarnQuarter   check.Code = "quarter-needed" // covered in two materials because no sheet takes the wrap
	WarnHingeEnds check.Code = "hinge-ends"     // a published gap that closes at head and tail under pressure only, as turn-ins lie in it
	WarnPanels    check.Code = "hinge-unlined"  // lined board by board, or in runs of boards without edge strips, hinges show
	WarnStrained  check.Code = "liner-strained" // a liner in one piece is too short round edges whose outsides come together, or a gap there too narrow for what goes down both edges
	WarnMeasured  check.Code = "measured-off"   // the cover came out far from the plan, or a hinge wider than side papers lap its strip
)

//go:noinline
func count(n int) string { return strconv.Itoa(n) }

func sizeText(n units.Notation, s units.Size) string { return n.Text(s.W) + " x " + n.Text(s.H) }

// ordinal tells copies of a piece apart, and things of one name, counted from 0.
func ordinal(copy int) string {
	words := [...]string{"first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth"}
	if copy < len(words) {
		return words[copy]
	}
	n := copy + 1
	end := "th"
	if n%100/10 != 1 && n%10 >= 1 && n%10 <= 3 {
		end = [...]string{"st", "nd", "rd"}[n%10-1]
	}
	return count(n) + end
}

func walk[T any](list []T) iter.Seq[T] {
	return func(yield func(T) bool) {
		for _, v := range list {
			if !yield(v) {
				return
			}
		}
	}
}

// walk2 walks a list with the index of each.
func walk2[T any](list []T) iter.Seq2[int, T] {
	return func(yield func(int, T) bool) {
		for i, v := range list {
			if !yield(i, v) {
				return
			}
		}
	}
}
