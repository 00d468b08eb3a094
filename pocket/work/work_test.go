package work_test

import (
	"encoding"
	"errors"
	"slices"
	"testing"

	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A word is an enumeration that writes and reads itself.
type word[E any] interface {
	*E
	encoding.TextUnmarshaler
}

// reads checks that every value up to the last one is written as its String and
// read back, that no two are alike, and that nothing else is taken.
func reads[E interface {
	~uint8
	encoding.TextMarshaler
	String() string
}, P word[E]](t *testing.T, last E) {
	t.Helper()
	seen := map[string]bool{}
	for v := E(0); v <= last; v++ {
		text, err := v.MarshalText()
		var back E
		if err != nil || string(text) != v.String() || P(&back).UnmarshalText(text) != nil || back != v || seen[string(text)] {
			t.Errorf("%T %d: %q, %v, read back as %d", v, v, text, err, back)
		}
		seen[string(text)] = true
	}
	if _, err := (last + 1).MarshalText(); !errors.Is(err, units.ErrUnknown) {
		t.Errorf("%T %d is written: %v", last, last+1, err)
	}
	if err := P(&last).UnmarshalText([]byte("no such word")); !errors.Is(err, units.ErrSyntax) {
		t.Errorf("%T reads nonsense: %v", last, err)
	}
}

func TestWords(t *testing.T) {
	reads(t, work.TaskCheck)
	reads(t, work.PartMagnets)
	reads(t, work.CareMagnet)
	reads(t, work.Magnet)
	reads(t, work.Under)
	reads(t, work.GrainAlongWidth)
	reads(t, work.WrongSide)
	reads(t, work.SelfSticky)
	reads(t, work.TailLeft)
	reads(t, work.Away)
}

// Whatever is cut, glued or held together by magnets carries its caution, alone
// or among other actions.
func TestCareCannotBeLost(t *testing.T) {
	for _, c := range []struct {
		do   work.Action
		want []work.Care
	}{
		{work.Cut{}, []work.Care{work.CareBlade}},
		{work.Open{}, []work.Care{work.CareBlade}},
		{work.NotchOut{}, []work.Care{work.CareBlade}},
		{work.Trim{}, []work.Care{work.CareBlade}},
		{work.Sink{}, []work.Care{work.CareBlade}},
		{work.TurnIn{}, []work.Care{work.CareGlue}},
		{work.Fix{By: work.Glue}, []work.Care{work.CareGlue}},
		{work.Fix{By: work.Tape}, nil},
		{work.Fix{By: work.Glue, What: work.Thing{Kind: work.Magnet}}, []work.Care{work.CareGlue, work.CareMagnet}},
		{work.Stick{By: work.Glue}, []work.Care{work.CareGlue}},
		{work.TryPair{}, []work.Care{work.CareMagnet}},
		{work.FoldAt{}, nil},
	} {
		for _, do := range [][]work.Action{{c.do}, {work.Dry{What: "it"}, c.do}, {c.do, work.Measure{}}, {c.do, c.do}} {
			if got := (work.Step{Do: do}).Care(); !slices.Equal(got, c.want) {
				t.Errorf("%T among %d: %v, want %v", c.do, len(do), got, c.want)
			}
		}
	}
	for c := range work.CareMagnet + 1 {
		if c.Text() == "" {
			t.Errorf("%v says nothing", c)
		}
	}
}

// A place is measured from an edge of the base to the same edge of the thing.
func TestAt(t *testing.T) {
	const mm = units.Millimetre
	thing, base := units.Size{W: 30 * mm, H: 20 * mm}, units.Size{W: 100 * mm, H: 80 * mm}
	for _, c := range []struct {
		at   work.At
		x, y units.Length // of the thing's upper left corner
	}{
		{work.At{Across: score.Left, X: 5 * mm, Along: score.Head, Y: 7 * mm}, 5 * mm, 7 * mm},
		{work.At{Across: score.Right, X: 5 * mm, Along: score.Head, Y: 7 * mm}, 65 * mm, 7 * mm},
		{work.At{Across: score.Left, X: -5 * mm, Along: score.Tail, Y: 7 * mm}, -5 * mm, 53 * mm},
	} {
		if got := c.at.Rect(thing, base); got.Min != (units.Point{X: c.x, Y: c.y}) || got.Size() != thing {
			t.Errorf("%+v lies at %v", c.at, got)
		}
	}
}

// What a person reads, action by action.
func TestSentences(t *testing.T) {
	const mm = units.Millimetre
	f := units.Format{Ruler: units.WholeMillimetres}
	mat := work.Thing{Name: "mat"}
	left := work.Base{Kind: work.OnBoard, Name: "left cover", Panel: work.All}
	at := work.At{Across: score.Left, X: 3 * mm, Along: score.Head, Y: 5 * mm}
	size := units.Size{W: 30 * mm, H: 40 * mm}
	tape := []units.Rect{
		units.RectAt(units.Point{}, units.Size{W: 30 * mm, H: 6 * mm}),
		units.RectAt(units.Point{Y: 34 * mm}, units.Size{W: 30 * mm, H: 6 * mm}),
		units.RectAt(units.Point{Y: 6 * mm}, units.Size{W: 6 * mm, H: 28 * mm}),
		units.RectAt(units.Point{X: 24 * mm, Y: 6 * mm}, units.Size{W: 6 * mm, H: 28 * mm}),
	}
	mitre := func(c work.Corner) work.Trim {
		return work.Trim{What: work.Thing{Name: "wrap"}, Corner: c, From: units.Point{X: 12 * mm}, To: units.Point{Y: 12 * mm}}
	}
	for _, c := range []struct {
		do   []work.Action
		want string
	}{
		{[]work.Action{work.Cut{What: mat, Count: 1, Size: size, From: work.Sheet{Stock: "card", Index: 2, Size: units.Size{W: 297 * mm, H: 210 * mm}, Turned: true}, Grain: work.GrainAlongHeight, Up: work.WrongSide}},
			"From a sheet of card, 297 x 210 mm as it lies after a quarter turn, cut the mat 30 x 40 mm, grain along the height, wrong side up."},
		{[]work.Action{work.Cut{What: mat, Count: 2, Size: size, From: work.Sheet{Stock: "card", Index: -1}, Upright: true}},
			"From card cut 2 x mat 30 x 40 mm, the pattern upright."},
		{[]work.Action{work.MarkPlace{What: mat, On: left, At: at, Size: size}, work.Lay{What: mat, On: left, At: at, Size: size}},
			"Mark lightly on the inside of the left cover the place of the mat, 30 x 40 mm: 3 mm from the left edge and 5 mm from the head edge of the board. Lay it there dry, to see that it goes."},
		{[]work.Action{work.Fix{What: mat, On: left, At: at, Size: size, By: work.Tape, Areas: tape, Marked: true}},
			"Tape the mat on the inside of the left cover, in its marked place; double-sided tape 6 mm wide along all four edges."},
		{[]work.Action{work.Fix{What: mat, On: work.Base{Kind: work.OnOutside, Name: "flap"}, At: work.At{Across: score.Right, X: -2 * mm, Along: score.Tail}, Quarters: 1, Up: score.Back}},
			"Glue the mat, turned 1 quarter clockwise, its back up, on the outside of the flap: 2 mm beyond the right edge and on the tail edge of the board, left as seen from inside."},
		{[]work.Action{mitre(work.HeadLeft), mitre(work.HeadRight), mitre(work.TailRight), mitre(work.TailLeft)},
			"Cut all four corners off the wrap at 45 degrees, through the points 12 mm from the corner along both edges."},
		{[]work.Action{mitre(work.HeadLeft), mitre(work.TailLeft)},
			"Cut the head left and tail left corners off the wrap at 45 degrees, through the points 12 mm from the corner along both edges."},
		{[]work.Action{work.Close{Turns: []work.Turned{{Board: 1, Over: -1, Name: "spine"}, {Board: 0, Over: 2, Name: "left cover", On: "right cover"}}, Left: 2 * mm}},
			"Close the folio: stand the spine up, then turn the left cover over the right cover. It must close without force on the hinges, with 2 mm to spare at the tightest place."},
	} {
		if got := (work.Step{Do: c.do}).Text(f); got != c.want {
			t.Errorf("got  %s\nwant %s", got, c.want)
		}
	}
}
