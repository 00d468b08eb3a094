package worktop_test

import (
	"testing"

	"boardwrap.example/pocket/work"
	"boardwrap.example/pocket/worktop"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// However a card is turned and laid, two points of a line on it lie on the line that
// the lie says, and an edge lies where a point moves that goes towards it.
func TestLinesAndEdgesFollowPoints(t *testing.T) {
	seen := map[worktop.Lie]bool{}
	for quarters := range 4 {
		for _, up := range []score.Side{score.Face, score.Back} {
			bench := worktop.New([]worktop.Workpiece{{Blank: sheetOf(t, size(101, 67)), Quantity: 1}, {Blank: sheetOf(t, size(41, 23)), Quantity: 1}})
			fix := work.Fix{What: thing(1), Panel: work.All, On: on(0, work.All), Quarters: quarters, Up: up, Size: size(41, 23),
				At: work.At{X: 7 * mm, Y: 3 * mm, Across: score.Left, Along: score.Head}}
			if quarters%2 == 1 {
				fix.Size = size(23, 41)
			}
			if !bench.Do(fix) {
				t.Fatal("it cannot be followed")
			}
			for _, p := range bench.Heap(0, 0).Stretches() {
				piece, _ := p.Piece()
				lies := p.Lies()
				if piece == 1 && lies.Up() != up {
					t.Errorf("%d quarters: %v is up", quarters, lies.Up())
				}
				seen[lies] = true
				for _, axis := range []score.Axis{score.Upright, score.Level} {
					on, at := lies.Line(axis, 5*mm)
					for _, far := range []units.Length{2 * mm, 11 * mm} {
						q := units.Point{X: 5 * mm, Y: far}
						if axis == score.Level {
							q = units.Point{X: far, Y: 5 * mm}
						}
						if q = lies.Point(q); on == score.Upright && q.X != at || on == score.Level && q.Y != at {
							t.Errorf("%d quarters, %v up: a line lies %v at %v, a point of it at %v", quarters, up, on, at, q)
						}
					}
				}
				from := units.Point{X: 9 * mm, Y: 4 * mm}
				for edge, to := range map[score.Edge]units.Point{score.Head: {X: from.X, Y: from.Y - 1}, score.Tail: {X: from.X, Y: from.Y + 1}, score.Left: {X: from.X - 1, Y: from.Y}, score.Right: {X: from.X + 1, Y: from.Y}} {
					a, b := lies.Point(from), lies.Point(to)
					if got := lies.Way(edge); got != (units.Point{X: b.X - a.X, Y: b.Y - a.Y}) {
						t.Errorf("%d quarters, %v up: %v lies in the direction of %v", quarters, up, edge, got)
					}
				}
			}
		}
	}
	if len(seen) < 9 {
		t.Errorf("%d ways to lie", len(seen))
	}
}

// A panel of a sheet with level scores lies between those, also the last, and a number
// that no panel has is the whole sheet.
func TestPanelsAlongLevelScores(t *testing.T) {
	sheet, err := score.NewBlank(score.Draft{Size: size(60, 100), Lines: []score.Line{{Axis: score.Level, At: 30 * mm}, {Axis: score.Level, At: 70 * mm}}})
	if err != nil {
		t.Fatal(err)
	}
	for panel, top := range map[int]units.Length{0: 0, 1: 30, 2: 70, 3: 0, -7: 0, work.All: 0} {
		bench := worktop.New([]worktop.Workpiece{{Blank: sheet, Quantity: 1}, {Blank: sheetOf(t, size(20, 10)), Quantity: 1}})
		if !bench.Do(work.Fix{What: thing(1), Panel: work.All, On: on(0, panel), Size: size(20, 10), At: work.At{X: 4 * mm, Y: 6 * mm, Across: score.Left, Along: score.Head}}) {
			continue // it is said that this cannot be followed
		}
		lies(t, bench.Heap(0, 0), lain{0, rect(0, 0, 60, 100), score.Face}, lain{1, rect(4, top+6, 20, 10), score.Face})
	}
}
