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

// So do leaders whose figures alone would run into it, how wide they are at the sides, and
// how far apart the first and the last of several come to stand; where all have room they
// run no further than they must.
func TestFiguresOnLeadersHaveRoom(t *testing.T) {
	mm := units.Millimetre
	for _, side := range []score.Edge{score.Head, score.Tail, score.Left, score.Right} {
		for _, aside := range []bool{false, true} {
			for k, in := range []bool{false, true} {
				f := newFigure(trueScale())
				l := lane{f, side, 0}
				mark := func(along, away units.Length) {
					at := l.at(along, away)
					f.rect(outline, nothing, units.Rect{Min: at, Max: at.Plus(units.Point{X: 1, Y: 1})})
				}
				mark(0, 0)
				// Three figures 30 mm wide whose middles come to stand 10 mm apart, or 40.
				at, room := []units.Length{20 * mm, 30 * mm, 40 * mm}, []units.Length{6 * mm, 6 * mm, 6 * mm}
				outers := []outer{{from: 20 * mm, width: 30 * mm}, {from: 30 * mm, width: 8 * mm}, {from: 40 * mm, width: 8 * mm}}
				deep := 30 * mm
				if l.level() && !aside {
					deep = f.pen.em(rise + drop)
				}
				end := 18*mm + f.pen.em(leaderSlant+2*leaderGap) + deep
				off := []units.Length{mm, -mm}[k] // just beyond the end, just within it
				for _, where := range [][2]units.Length{{30 * mm, end + off}, {17*mm - off, 25 * mm}, {43*mm + off, 25 * mm}} {
					f.lines = f.lines[:1]
					f.all = f.lines[0].box
					mark(where[0], where[1])
					far := where[1]
					if got := l.past(18*mm, outers, at, room, aside); in != (got > far) || !in && got != 18*mm {
						t.Errorf("%v, aside %t: with something %v along and %v away leaders run %v", side, aside, where[0], where[1], got)
					}
				}
				// What lies beside the straight part, up to a quarter of the text's size beyond
				// its end, is not in the way, to the hair.
				begin := 18*mm + f.pen.em(1000)/4
				for off := units.Length(-2); off <= 2; off++ {
					f.lines = f.lines[:1]
					f.all = f.lines[0].box
					point := l.at(30*mm, begin+off)
					f.rect(outline, nothing, units.Rect{Min: point, Max: point})
					if got := l.past(18*mm, outers, at, room, aside); (got > 18*mm) != (off >= 0) {
						t.Errorf("%v, aside %t: with something %d nm beyond that leaders run %v", side, aside, off, got)
					}
				}
			}
		}
	}
}

// A figure stands on its line where it leaves three tenths of the size of the text free at
// either end, and on a leader where it does not: to the hair, for a distance as for the whole
// of a side.
func TestFiguresOnTheirLines(t *testing.T) {
	for _, side := range []score.Edge{score.Head, score.Tail, score.Left, score.Right} {
		for off := units.Length(-1); off <= 0; off++ {
			f := newFigure(trueScale())
			f.rect(outline, nothing, units.Rect{Max: units.Point{X: units.Metre, Y: units.Metre}})
			const words = "width, planned 250"
			long := f.width(words) + f.pen.em(600) + off
			before := len(f.lines)
			f.span(side, 7*units.Millimetre, 7*units.Millimetre+long, words)
			if on := len(f.lines) == before+3; on != (off == 0) {
				t.Errorf("words in %v, %d nm off: on the line %t", side, off, on)
			}
			// They stand in the middle, as a leader begins there.
			middle, foot := 7*units.Millimetre+long/2, f.texts[0].at
			if off < 0 {
				foot = f.lines[before+3].pts[0]
			}
			if foot.X != middle && foot.Y != middle {
				t.Errorf("words in %v, %d nm off, are told of at %v; the middle is %v", side, off, foot, middle)
			}
		}
	}
	on := map[bool]int{}
	for long := 5 * units.Millimetre; long < 15*units.Millimetre; long += 10 * units.Micrometre {
		f := newFigure(trueScale())
		f.rect(outline, nothing, units.Rect{Max: units.Point{X: units.Metre, Y: units.Metre}})
		before := len(f.lines)
		f.chain(score.Head, []units.Length{0, long})
		is := len(f.lines) == before+3
		on[is]++
		if is != (long >= f.width(f.texts[0].s)+f.pen.em(600)) {
			t.Errorf("%q in %v: on the line %t", f.texts[0].s, long, is)
		}
	}
	if on[true] < 100 || on[false] < 100 {
		t.Errorf("on their lines %v", on)
	}
}

// The first of the corners that are cut off is dimensioned, and that it stands for all is
// said.
func TestCornersAlike(t *testing.T) {
	mm := units.Millimetre
	cuts := [][2]units.Point{{{X: 75 * mm}, {X: 80 * mm, Y: 8 * mm}}, {{X: 5 * mm}, {Y: 8 * mm}}, {{X: 80 * mm, Y: 52 * mm}, {X: 75 * mm, Y: 60 * mm}}}
	for n := 2; n <= len(cuts); n++ {
		f := newFigure(trueScale())
		f.legs(cuts[:n])
		if !slices.Contains(f.says, "all corners alike") {
			t.Errorf("%d corners are not said to be alike", n)
		}
		for leg, upright := range map[string]bool{"5": false, "8": true} {
			if told := slices.ContainsFunc(f.texts, func(t text) bool { return t.s == leg && t.upright == upright }); !told {
				t.Errorf("%d corners: no leg of %s mm, upright %t, among %v", n, leg, upright, f.texts)
			}
		}
	}
}
