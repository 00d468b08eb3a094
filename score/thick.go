package score

import (
	"iter"
	"slices"
	"strconv"

	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// TooLong is for a strip that becomes longer than 10 m with what its folds go
// round; what of that to make thinner is advice.
const TooLong check.Code = "too-long"

// A ThickScore is a score as it is made in a strip whose folds go round
// something. It is plain data.
type ThickScore struct {
	At      units.Length // from the left end of the strip as it is made
	Fold    Fold         // seen from the face
	Degrees int          // that it is folded by: 180, or 90 for each of two
	Of      int          // the score of the folded strip that it stands for
}

// A Thick is a strip as it has to be made so that its folds have room: where a
// fold goes round so much that one score will not do, two stand in place of it,
// and the paper between them is added to the strip. The panels keep their
// widths. A Thick cannot be changed.
type Thick struct {
	panels  []units.Length // where each panel begins
	ends    []units.Length // and where it ends
	scores  []ThickScore
	working units.Working
}

// Thick returns the strip as it has to be made of the caliper given to go round
// its own layers and enclosures. It asks [Folding.Around] of every fold that was
// made and puts two scores, so far apart as that says on the ruler, where that
// says so. Scores that were left flat stay where they are, with no fold. The
// error lists what is wrong with the caliper, the ruler and the enclosures, or a
// strip that becomes longer than 10 m.
//
// What the fold goes round is counted in the strip as it was folded, without
// what is added.
func (f Folding) Thick(caliper units.Length, r units.Ruler, inserts ...Enclosure) (Thick, error) {
	around, err := f.Around(caliper, r, inserts...)
	if err != nil {
		return Thick{}, err
	}
	t := Thick{}
	terms := []units.Term{units.T("strip", f.strip.Length())}
	var added units.Length
	for p := range f.strip.Len() {
		t.panels = append(t.panels, f.strip.edges[p]+added)
		t.ends = append(t.ends, f.strip.edges[p+1]+added)
		if p == len(f.strip.folds) || f.Flat(p) {
			continue
		}
		at, fold := f.strip.edges[p+1]+added, f.strip.folds[p]
		i, _ := slices.BinarySearchFunc(around, p, func(a Around, s int) int { return a.Score - s })
		if a := around[i]; a.Double {
			apart := a.Apart.Length()
			t.scores = append(t.scores, ThickScore{at, fold, 90, p}, ThickScore{at + apart, fold, 90, p})
			terms = append(terms, units.T("round fold "+strconv.Itoa(p+1), apart))
			added += apart
			continue
		}
		t.scores = append(t.scores, ThickScore{at, fold, 180, p})
	}
	if length := f.strip.Length() + added; length > units.Longest {
		var list check.List
		list.Impossible("", TooLong, r.Notation().Text(length)+" with what the folds take up", "at most "+r.Notation().Bound(units.Longest, units.Down)+" in all")
		return Thick{}, list.Err()
	}
	t.working = units.Sum("strip as made", r.Notation().Exact(), units.Nearest, terms...)
	return t, nil
}

// Equal reports whether two strips are made alike.
func (t Thick) Equal(u Thick) bool {
	return slices.Equal(t.panels, u.panels) && slices.Equal(t.ends, u.ends) && slices.Equal(t.scores, u.scores) && t.working.Equal(u.working)
}

// Length returns the length of the strip as it is made.
func (t Thick) Length() units.Length { return t.working.Length() }

// Working returns the working of [Thick.Length]: the strip and what each fold
// of two scores takes up.
func (t Thick) Working() units.Working { return t.working }

// Scores walks the scores from left to right.
func (t Thick) Scores() iter.Seq2[int, ThickScore] { return slices.All(t.scores) }

// Panel returns where a panel of the folded strip lies on the strip as it is
// made, 0 and 0 if there is no such panel.
func (t Thick) Panel(i int) (from, to units.Length) {
	if i < 0 || i >= len(t.panels) {
		return 0, 0
	}
	return t.panels[i], t.ends[i]
}

// Draft returns the strip as it is made, across wide, with its score lines
// from edge to edge along an axis, as [StripBlank] lays it.
func (t Thick) Draft(axis Axis, across units.Length) Draft {
	d := Draft{Size: units.Size{W: t.Length(), H: across}}
	if axis == Level {
		d.Size = d.Size.Turned()
	}
	for _, s := range t.scores {
		d.Lines = append(d.Lines, Line{Axis: axis, At: s.At, Fold: s.Fold})
	}
	return d
}
