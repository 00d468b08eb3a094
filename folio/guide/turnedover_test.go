package guide_test

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A piece that is scored on its back is drawn turned over left to right with all that
// is cut out of it, and its figures count from the edge that the step names; so does
// that of a hole in the outside of a board.
func TestTurnedOver(t *testing.T) {
	scores, cuts, holes := 0, 0, 0
	for _, s := range slices.Concat(samples(), everyForm(), wide()) {
		unit := "in"
		if s.plan.Notation() == units.MetricDecimal {
			unit = "mm"
		}
		var pieces []folio.Piece
		for piece := range s.plan.Pieces() {
			pieces = append(pieces, piece)
		}
		var before []work.Action
		for st := range s.plan.Steps() {
			r, bad := s.look(0)(fmt.Sprintf("step %d", st.Number))
			if bad != "" {
				t.Fatal(bad)
			}
			says := func(l units.Length) bool {
				return slices.ContainsFunc(r.dimensions(unit), func(m measuredText) bool {
					return within(m.value, nanos(l)) && slices.ContainsFunc(m.could, func(d int64) bool { return within(d, m.value) })
				}) || strings.Contains(r.desc, "not every place is written") || slices.ContainsFunc(r.texts, func(x readText) bool { return x.s == "not every place is written" })
			}
			for _, a := range st.Do {
				switch a := a.(type) {
				case work.Sink:
					if holes++; !says(a.Middle.X) {
						t.Errorf("%s, step %d: no figure for %v", s.name, st.Number, a.Middle.X)
					}
				case work.ScoreAt:
					if a.On != score.Back {
						continue
					}
					if scores++; a.Line.Axis == score.Upright && !says(a.Line.At) {
						t.Errorf("%s, step %d: no figure for %v from the right edge", s.name, st.Number, a.Line.At)
					}
					for _, b := range before {
						if open, ok := b.(work.Open); ok && open.What.Index == a.What.Index {
							cuts++
							if !cutOnBack(r, a.What.Index, pieces[a.What.Index].Size(), open.Area) {
								t.Errorf("%s, step %d: %v is not cut out of the piece turned over", s.name, st.Number, open.Area)
							}
						}
					}
				}
			}
			before = append(before, st.Do...)
		}
	}
	if scores < 5 || cuts == 0 || holes < 2 {
		t.Errorf("%d scores on backs, %d areas cut out before, %d holes: too few", scores, cuts, holes)
	}
}

// cutOnBack reports whether an area of the face is missing, mirrored, where a piece
// lies on which lines are scored on the back.
func cutOnBack(r *reading, piece int, size units.Size, area units.Rect) bool {
	area.Min.X, area.Max.X = size.W-area.Max.X, size.W-area.Min.X
	lines := r.of(strconv.Itoa(piece), "", "", "")
	for _, l := range lines {
		at, _ := round([]readLine{l})
		if !within(at.x1-at.x0, nanos(size.W)) || !within(at.y1-at.y0, nanos(size.H)) {
			continue
		}
		inside := func(m readLine) bool {
			b, _ := round([]readLine{m})
			return m.kind == "score" && !m.legend && at.x0 <= b.x0 && b.x1 <= at.x1 && at.y0 <= b.y0 && b.y1 <= at.y1
		}
		if slices.ContainsFunc(lines, inside) {
			return hasBox(lines, boxOfRect(area, at.x0, at.y0), "there") || lacks(l, boxOfRect(area, at.x0, at.y0), at)
		}
	}
	return false
}

// lacks reports whether an outline goes round an area at a corner of its box: by the
// area's corner that lies within, and past the one at the box's corner.
func lacks(l readLine, area, in box) bool {
	has := func(x, y int64) bool {
		return slices.ContainsFunc(l.pts, func(p point) bool { return within(p.x, x) && within(p.y, y) })
	}
	inner, outer := 0, 0
	for _, x := range [...]int64{area.x0, area.x1} {
		for _, y := range [...]int64{area.y0, area.y1} {
			level, upright := within(y, in.y0) || within(y, in.y1), within(x, in.x0) || within(x, in.x1)
			switch {
			case level && upright && !has(x, y):
				outer++
			case !level && !upright && has(x, y):
				inner++
			}
		}
	}
	return inner == 1 && outer == 1
}

// A picture calls a board what the steps call it: with two spines there is a first one.
func TestBoardsAreCalledAsInSteps(t *testing.T) {
	told := 0
	for _, s := range everyForm() {
		names := map[string]bool{}
		for b := range s.plan.Boards() {
			names[b.Name()] = true
		}
		r, bad := s.look(0)("inside")
		if bad != "" {
			t.Fatal(bad)
		}
		for _, x := range r.texts {
			if strings.HasSuffix(x.s, "spine") && !strings.HasPrefix(x.s, "no room") {
				if told++; !names[x.s] {
					t.Errorf("%s: %q is none of the boards %v", s.name, x.s, names)
				}
			}
		}
	}
	if told < 5 {
		t.Errorf("only %d spines are called anything", told)
	}
}
