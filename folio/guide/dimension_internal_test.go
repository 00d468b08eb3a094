package guide

import (
	"slices"
	"testing"

	"boardwrap.example/score"
	"boardwrap.example/units"
)

// Leaders that would run into something drawn 20 mm further out run on until they are
// past it, by less than the height of a line of text, at whichever side.
func TestLeadersRunPastWhatIsThere(t *testing.T) {
	mm := units.Millimetre
	for _, side := range []score.Edge{score.Head, score.Tail, score.Left, score.Right} {
		f := newFigure(trueScale())
		f.rect(outline, nothing, units.Rect{Min: units.Point{X: 40 * mm, Y: 40 * mm}, Max: units.Point{X: 100 * mm, Y: 100 * mm}})
		l := lane{f, side, 60 * mm}
		if side == score.Tail || side == score.Right {
			l.base = 80 * mm
		}
		at, room := []units.Length{70 * mm}, []units.Length{5 * mm}
		got := l.past(18*mm, []outer{{from: 70 * mm, width: 4 * mm}}, at, room, false)
		if got <= 20*mm || got >= 20*mm+f.pen.mm(textSize) {
			t.Errorf("at the %v leaders run on for %v", side, got)
		}
	}
}

// Where several corners are cut off alike one of them is dimensioned, and that it stands for
// all is said; of one corner alone it is not.
func TestCornersAlike(t *testing.T) {
	mm := units.Millimetre
	cuts := [][2]units.Point{{{X: 75 * mm}, {X: 80 * mm, Y: 8 * mm}}, {{X: 5 * mm}, {Y: 8 * mm}}, {{X: 80 * mm, Y: 52 * mm}, {X: 75 * mm, Y: 60 * mm}}}
	for n := 1; n <= len(cuts); n++ {
		f := newFigure(trueScale())
		f.legs(cuts[:n], units.Size{W: 80 * mm, H: 60 * mm})
		if said := slices.Contains(f.says, "all corners alike"); said != (n > 1) {
			t.Errorf("%d corners: said to be alike %t", n, said)
		}
		for leg, upright := range map[string]bool{"5": false, "8": true} {
			if told := slices.ContainsFunc(f.texts, func(t text) bool { return t.s == leg && t.upright == upright }); !told {
				t.Errorf("%d corners: no leg of %s mm, upright %t, among %v", n, leg, upright, f.texts)
			}
		}
	}
}
