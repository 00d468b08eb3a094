package score_test

import (
	"context"
	"errors"
	"math"
	"slices"
	"testing"

	"boardwrap.example/internal/proptest"
	"boardwrap.example/score"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/prop"
)

// TestBlockedFoldsCollide turns the paper in a plane, as thin segments a hair
// apart, and looks whether one meets another on the way up: a turn must be
// blocked exactly if one does. On the way down from upright nothing new can
// happen: it is the way up of the folded state, backwards.
func TestBlockedFoldsCollide(t *testing.T) {
	blocked, free := 0, 0
	properties(t, func(p *gopter.Properties) {
		p.Property("a turn is blocked exactly if the paper collides", prop.ForAll(
			func(d draft, turns []score.Turn) string {
				fault := ""
				before, err := d.strip().FoldBy(context.Background())
				if err != nil {
					return err.Error()
				}
				carryOut(d.strip(), turns, func(f score.Folding, err error) bool {
					var b *score.Blocked
					collides := false
					switch {
					case errors.As(err, &b) && b.Code == score.InTheWay:
						blocked++
						collides = true
					case err == nil:
						free++
						made := slices.Collect(f.Made())
						b = &score.Blocked{Turn: made[len(made)-1].Turn}
					default:
						return true // blocked for another reason, with nothing turned
					}
					if got := swing(before, b.Turn.Score, b.Turn.Way == score.Towards); got != collides {
						fault = b.Turn.String()
						return false
					}
					if err == nil {
						before = f
					}
					return true
				})
				return fault
			},
			drafts(7, smallWidths(3)), turnsOf(6)))
	})
	t.Logf("%d blocked, %d free", blocked, free)
	if blocked < proptest.Cases(500) || free < proptest.Cases(1000) {
		t.Errorf("too few: %d blocked, %d free", blocked, free)
	}
}

type point struct{ x, y float64 }

type segment struct{ a, b point }

// swing turns the part beyond a score from flat to upright and reports whether
// it meets what stays.
func swing(f score.Folding, s int, up bool) bool {
	const hair = 1e-4 // of a millimetre, between two layers
	n := f.Strip().Len()
	height := make([]float64, n)
	for at, p := range f.Order() {
		height[p] = float64(at) * hair
		if !up { // seen from below it turns up too
			height[p] = -height[p]
		}
	}
	ends := func(p int) (from, to float64) {
		a, b := f.Span(p)
		return a.Millimetres(), b.Millimetres()
	}
	place := func(score int) float64 {
		from, to := ends(score)
		if f.FaceUp(score) {
			return to
		}
		return from
	}
	x := place(s)
	rightOf := func(score int) int {
		if from, _ := ends(score); from == x {
			return score
		}
		return score + 1
	}
	// What is folded along is what lies on the fold with a score there.
	moving := make([]bool, n)
	turning := false
	pivot := math.Inf(-1)
	right := false
	for p := range n {
		if c := p - 1; p > 0 && f.Flat(c) && place(c) == x && (c == s || height[rightOf(c)] > height[rightOf(s)]) {
			if !turning && !slices.Contains(moving, true) {
				right = rightOf(c) == p
			}
			turning = !turning
		}
		moving[p] = turning
		if from, to := ends(p); turning && from <= x && x <= to {
			pivot = max(pivot, height[p])
		}
	}
	const trim = 1e-9
	panel := func(p int) segment {
		from, to := ends(p)
		return segment{point{from + trim, height[p]}, point{to - trim, height[p]}}
	}
	for angle := 1e-6; angle < math.Pi/2; angle *= 1.15 {
		sin, cos := math.Sincos(angle)
		if !right {
			sin = -sin
		}
		turned := func(p point) point {
			dx, dy := p.x-x, p.y-pivot
			return point{x + dx*cos - dy*sin, pivot + dx*sin + dy*cos}
		}
		for p := range n {
			if !moving[p] {
				continue
			}
			m := panel(p)
			m = segment{turned(m.a), turned(m.b)}
			for q := range n {
				if !moving[q] && meet(m, panel(q)) {
					return true
				}
			}
		}
	}
	return false
}

func meet(s, t segment) bool {
	side := func(s segment, p point) bool {
		return (s.b.x-s.a.x)*(p.y-s.a.y)-(s.b.y-s.a.y)*(p.x-s.a.x) > 0
	}
	return side(s, t.a) != side(s, t.b) && side(t, s.a) != side(t, s.b)
}
