package folio_test

import (
	"slices"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A slabbed row is three boards that lie, with two spine boards between, hinged at
// their edges: all that its shutting depends on, in plain numbers.
type slabbed struct {
	wide                   [3]units.Length // of what lies
	gap                    [4]units.Length
	valley                 [2]bool
	board, liner, covering units.Length

	asked bool // for the third board over the first
}

// shuts tries every board on the table and every order of turns: whichever turns goes
// over what lies there, and nothing may run into anything. It reports whether the row
// folds at all, and whether it does so with the thickness of its sheets.
func (r slabbed) shuts() (flat, thick bool) {
	if r.asked {
		return r.turned(1, [2]int{0, 1}) // the third over the first
	}
	for main := range 3 {
		for _, turns := range [][2]int{{0, 1}, {1, 0}} {
			f, t := r.turned(main, turns)
			flat, thick = flat || f, thick || t
		}
	}
	return flat, thick
}

// turned turns two folds in order. A board lies at from, with its wrong side at a
// height, and fold k at a place.
func (r slabbed) turned(main int, turns [2]int) (flat, thick bool) {
	up := func(k int) bool { return (k-main)%2 == 0 }
	order := []int{main}
	for _, k := range turns {
		if k < main {
			order = append(order, k)
		} else {
			order = append(order, k+1)
		}
	}
	// The outer of two folds on one side may be made first; what turns then lies on
	// its neighbour and is turned over with it.
	if d := turns[0] - main; main != 1 && (d == 1 || d == -2) {
		order = []int{main, order[1], 1}
	}
	rank := func(k int) int { return slices.Index(order, k) }
	for k := range 2 { // insides come together where the one with its inside up is lower
		if low := rank(k) < rank(k+1); (up(k) == low) != r.valley[k] {
			return false, false
		}
	}
	var from [3]units.Length
	var at [2]units.Length
	place := func(k, a, b int, ga, gb units.Length) {
		if up(k) { // at the right of a
			at[k] = from[a] + r.wide[a] + ga
			from[b] = at[k] - gb - r.wide[b]
		} else {
			at[k] = from[a] - ga
			from[b] = at[k] + gb
		}
	}
	for k := main; k < 2; k++ {
		place(k, k, k+1, r.gap[2*k], r.gap[2*k+1])
	}
	for k := main - 1; k >= 0; k-- {
		place(k, k+1, k, r.gap[2*k+1], r.gap[2*k])
	}
	flat, thick = true, true
	for k := range 2 { // the third board, where it lies between the two of a fold
		c := 2 - 2*k
		if rank(c) < min(rank(k), rank(k+1)) || rank(c) > max(rank(k), rank(k+1)) {
			continue
		}
		reach := from[c] + r.wide[c] - at[k]
		if !up(k) {
			reach = at[k] - from[c]
		}
		flat = flat && reach <= 0
		stands := r.covering
		if r.valley[k] {
			stands = r.board + r.liner + r.covering // with a turn-in
		}
		thick = thick && reach+r.covering+stands <= 0
	}
	return flat, flat && thick
}

// A row is taken where trying every order of turns shuts it, and refused where none
// does; its gaps are the least with which it does.
func TestRowsByBruteForce(t *testing.T) {
	built, refused, cleared := 0, 0, 0
	wide := within(40*mm, 120*mm)
	proptest.Run(t, 600, func(p *gopter.Properties) {
		p.Property("what is taken shuts, what is refused does not, and no gap can be less", prop.ForAll(func(a, b, c, board, paper units.Length, left, right, even bool) string {
			if even {
				b = a
			}
			fold := func(v bool) score.Fold {
				if v {
					return score.Valley
				}
				return score.Mountain
			}
			least := rule.Hinge{Rule: rule.HingeLeast}
			s := folio.Spec{
				Cover: units.Size{W: a, H: 120 * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.TenthMillimetres},
				Board: stock.Stock{Caliper: board}, Covering: stock.Stock{Caliper: paper}, Liner: stock.Stock{Caliper: paper}, Hinge: least,
				Row: boards.Row{
					Boards: []boards.Board{{Role: boards.Panel1}, {Role: boards.Spine1}, {Role: boards.Panel2, Width: b}, {Role: boards.Spine2}, {Role: boards.Panel3, Width: c}},
					Joints: []boards.Joint{{Fold: fold(left)}, {Fold: fold(left)}, {Fold: fold(right)}, {Fold: fold(right)}},
				},
			}
			asked := left && right && a+c > b+20*mm // else the two may lie side by side
			if asked {
				s.Row.Main, s.Row.Boards[4].Over = boards.Panel2, boards.Panel1
			}
			plan, err := folio.Build(s)
			r := slabbed{valley: [2]bool{left, right}, board: board, liner: paper, covering: paper, asked: asked}
			up := units.TenthMillimetres.Up
			r.wide = [3]units.Length{up(a), up(b), up(c)}
			turns := func(valley bool) units.Length { // least gap about a crease at the spine board's edge
				if valley {
					return board + 2*paper
				}
				return paper
			}
			for i := range r.gap {
				r.gap[i] = up(turns(r.valley[i/2]))
			}
			if err != nil {
				if bad, ok := err.(*check.Error); !ok || bad.Len() != 1 {
					return err.Error()
				}
				refused++
				if flat, _ := r.shuts(); flat {
					return "it shuts: " + err.Error()
				}
				return ""
			}
			built++
			i := 0
			for g := range plan.Gaps() {
				r.gap[i] = g.Width()
				i++
			}
			if _, thick := r.shuts(); !thick {
				return "it does not shut"
			}
			for i := range r.gap {
				less := r
				less.gap[i] -= units.TenthMillimetres.Step()
				if less.gap[i] < turns(r.valley[i/2]) {
					continue
				}
				cleared++
				if _, thick := less.shuts(); thick {
					return "a gap one step less shuts as well"
				}
			}
			return ""
		}, wide, wide, wide, within(mm, 3*mm), within(mm/20, mm/3), gen.Bool(), gen.Bool(), gen.Bool()))
	})
	if built < proptest.Cases(200) || refused < proptest.Cases(20) || cleared < proptest.Cases(20) {
		t.Errorf("%d built, %d refused, %d gaps wider than turning takes", built, refused, cleared)
	}
}
