package guide

import (
	"slices"
	"testing"

	"boardwrap.example/pocket/worktop"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A line on a piece whose corners are cut off runs from edge to edge, as far as the slants
// leave it: 10 mm from the side of a corner that goes by 20 mm along and 40 mm down it begins
// 20 mm down. One along an edge or beyond is none; one that has ends of its own keeps them.
func TestLinesEndAtSlants(t *testing.T) {
	mm := units.Millimetre
	b, err := score.NewBlank(score.Draft{Size: units.Size{W: 100 * mm, H: 80 * mm}, Slants: []score.Slant{
		{Corner: score.HeadLeft, Along: 20 * mm, Down: 40 * mm}, {Corner: score.TailRight, Along: 60 * mm, Down: 30 * mm}}})
	if err != nil {
		t.Fatal(err)
	}
	p := partsOf(worktop.New([]worktop.Workpiece{{Blank: b, Quantity: 1}}).Heap(0, 0))[0]
	for _, c := range []struct {
		axis            score.Axis
		at, first, last units.Length
		from, to        units.Length
	}{
		{score.Upright, 10, 0, 0, 20, 80}, {score.Upright, 20, 0, 0, 0, 80}, {score.Upright, 40, 0, 0, 0, 80}, {score.Upright, 60, 0, 0, 0, 70},
		{score.Upright, 98, 0, 0, 0, 51}, {score.Level, 10, 0, 0, 15, 100}, {score.Level, 70, 0, 0, 0, 60}, {score.Level, 50, 0, 0, 0, 100},
		{score.Upright, 10, 5, 30, 20, 30}, {score.Upright, 60, 60, 80, 60, 70}, {score.Level, 10, 40, 90, 40, 90},
		{score.Upright, 0, 0, 0, 0, 0}, {score.Upright, 100, 0, 0, 0, 0}, {score.Level, 0, 0, 0, 0, 0}, {score.Level, 80, 0, 0, 0, 0}, {score.Upright, 120, 0, 0, 0, 0}, {score.Upright, 10, 2, 20, 0, 0},
	} {
		edge, _ := p.Outline()
		from, to, ok := lineWithin(edge, edge.Bounds(), c.axis, c.at*mm, c.first*mm, c.last*mm)
		want := [2]units.Point{{X: c.at * mm, Y: c.from * mm}, {X: c.at * mm, Y: c.to * mm}}
		if c.axis == score.Level {
			want = [2]units.Point{{X: c.from * mm, Y: c.at * mm}, {X: c.to * mm, Y: c.at * mm}}
		}
		if there := c.from != c.to; ok != there || there && [2]units.Point{from, to} != want {
			t.Errorf("%v, %d mm, ends %d, %d: from %v to %v, %t; want %v", c.axis, c.at, c.first, c.last, from, to, ok, want)
		}
	}
}

// In section with its face up, a strip that was creased and laid open again bends upwards
// at a valley fold and downwards at a mountain fold, until it slants that way already;
// of one that is folded to and fro every other panel lies level, the first if it is not
// what turned. Each panel is as long as it is, by a triangle of 3, 4 and 5.
func TestOpenedAtItsFolds(t *testing.T) {
	mm := units.Millimetre
	for n := range 1 << 5 {
		var folds []score.Fold
		ends := []units.Length{0}
		for k := range 4 {
			folds = append(folds, []score.Fold{score.Valley, score.Mountain}[n>>k&1])
			ends = append(ends, ends[k]+units.Length(5*(k+2))*mm)
		}
		ends = append(ends, ends[4]+5*mm)
		turnsFirst := n>>4 > 0
		f := newFigure(trueScale())
		f.bent(ofPiece(0), ends, folds, turnsFirst)
		if len(f.lines) != 5 {
			t.Fatalf("%d panels of 5", len(f.lines))
		}
		var slopes []int
		for k, l := range f.lines {
			a, b := l.pts[0], l.pts[1]
			long := ends[k+1] - ends[k]
			x, up := b.X-a.X, a.Y-b.Y // Y runs down
			if k > 0 && a != f.lines[k-1].pts[1] {
				t.Errorf("panel %d does not begin where the one before it ends", k)
			}
			switch {
			case up == 0 && x == long:
				slopes = append(slopes, 0)
			case up.Abs() == long/5*3 && x == long/5*4:
				slopes = append(slopes, int(up/up.Abs()))
			default:
				t.Errorf("panel %d is %v across and %v up; it is %v long", k, x, up, long)
				slopes = append(slopes, 0)
			}
		}
		if turnsFirst == (slopes[0] == 0) || turnsFirst && slopes[1] != 0 {
			t.Errorf("folds %v, turned first %t: %v", folds, turnsFirst, slopes)
		}
		for k, fold := range folds {
			bend, most := slopes[k+1]-slopes[k], slopes[k] == 1
			if fold == score.Mountain {
				bend, most = -bend, slopes[k] == -1
			}
			if bend != 1 && !(most && bend == 0) {
				t.Errorf("folds %v, turned first %t: %v bends wrong at %d", folds, turnsFirst, slopes, k)
			}
		}
		if fro := slices.Equal(folds, []score.Fold{score.Valley, score.Mountain, score.Valley, score.Mountain}); fro && !turnsFirst && !slices.Equal(slopes, []int{0, 1, 0, 1, 0}) {
			t.Errorf("to and fro: %v", slopes)
		}
	}
}
