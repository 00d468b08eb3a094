package guide

import (
	"slices"
	"testing"

	"boardwrap.example/score"
	"boardwrap.example/units"
)

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
