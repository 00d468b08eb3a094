package folio_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A pile is a row of boards that lie, with a spine board between each two, hinged at
// its edges, and the order in which its folds are made: a slabbed row of any length.
type pile struct {
	wide                   []units.Length // of what lies
	gap                    []units.Length // two a fold
	valley                 []bool
	board, liner, covering units.Length
	main                   int
	folds                  []int // in their order
}

// layers turns fold after fold: what lies beyond goes over everything, what was
// highest of it lowest. It returns the boards from the table up.
func (r pile) layers() []int {
	all := make([]int, len(r.wide))
	for i := range all {
		all[i] = i
	}
	for _, k := range r.folds {
		beyond := func(b int) bool { return b > k == (k >= r.main) }
		var stay, turn []int
		for _, b := range all {
			if beyond(b) {
				turn = append(turn, b)
			} else {
				stay = append(stay, b)
			}
		}
		slices.Reverse(turn)
		all = append(stay, turn...)
	}
	return all
}

// shuts reports whether nothing runs into a fold: where a board lies between the two
// of a fold, it and what stands at its own fold on that side end before what stands
// in the other, or it lies all beyond it.
func (r pile) shuts() (bool, string) {
	order := r.layers()
	rank := func(b int) int { return slices.Index(order, b) }
	up := func(b int) bool { return (b-r.main)%2 == 0 } // its inside
	n := len(r.wide)
	from, at := make([]units.Length, n), make([]units.Length, n-1)
	place := func(k, a, b int, ga, gb units.Length) {
		if up(k) { // the fold is at the right of both
			at[k] = from[a] + r.wide[a] + ga
			from[b] = at[k] - gb - r.wide[b]
		} else {
			at[k] = from[a] - ga
			from[b] = at[k] + gb
		}
	}
	for k := r.main; k < n-1; k++ {
		place(k, k, k+1, r.gap[2*k], r.gap[2*k+1])
	}
	for k := r.main - 1; k >= 0; k-- {
		place(k, k+1, k, r.gap[2*k+1], r.gap[2*k])
	}
	thick := r.board + r.liner + r.covering // a spine board on its inner side, with a turn-in
	for k := range n - 1 {
		if low := rank(k) < rank(k+1); (up(k) == low) != r.valley[k] {
			return false, fmt.Sprintf("fold %d is of the other kind", k)
		}
		in, out := thick, r.covering
		if !r.valley[k] {
			in, out = out, in
		}
		for c := range n {
			if rank(c) <= min(rank(k), rank(k+1)) || rank(c) >= max(rank(k), rank(k+1)) {
				continue
			}
			// Along the row away from what the fold holds.
			side := func(x units.Length) units.Length {
				if up(k) {
					return x - at[k]
				}
				return at[k] - x
			}
			near, far := side(from[c]), side(from[c]+r.wide[c])
			near, far = min(near, far)-r.covering, max(near, far)+r.covering
			for _, m := range []int{c - 1, c} { // its own fold on that side
				if m >= 0 && m < n-1 && up(m) == up(k) {
					far = side(at[m]) + r.covering
					if !r.valley[m] {
						far = side(at[m]) + thick
					}
				}
			}
			if far+in > 0 && near < out {
				return false, fmt.Sprintf("board %d runs into fold %d by %v", c, k, far+in)
			}
		}
	}
	return true, ""
}

// pileOf is a random row of four or five boards that lie.
func pileOf(rng *rand.Rand, lying int) (folio.Spec, pile) {
	um := func(low, high int) units.Length { return units.Length(low+rng.IntN(high-low)) * units.Micrometre }
	paper := um(50, 330)
	r := pile{board: um(1000, 3000), liner: paper, covering: paper}
	s := folio.Spec{
		Cover: units.Size{W: um(40_000, 120_000), H: 120 * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.TenthMillimetres},
		Board: stock.Stock{Caliper: r.board}, Covering: stock.Stock{Caliper: paper}, Liner: stock.Stock{Caliper: paper}, Hinge: rule.Hinge{Rule: rule.HingeLeast},
	}
	spines := []boards.Role{boards.Spine1, boards.Spine2, boards.Spine3, boards.Spine4}
	for k := range lying {
		if k > 0 {
			valley := rng.IntN(3) > 0
			r.valley = append(r.valley, valley)
			j := boards.Joint{Fold: score.Mountain}
			if valley {
				j.Fold = score.Valley
			}
			s.Row.Boards = append(s.Row.Boards, boards.Board{Role: spines[k-1]})
			s.Row.Joints = append(s.Row.Joints, j, j)
		}
		b := boards.Board{Role: boards.Panel1 + boards.Role(k), Width: um(40_000, 120_000)}
		if rng.IntN(3) == 0 {
			b.Width = s.Cover.W
		}
		r.wide = append(r.wide, units.TenthMillimetres.Up(b.Width))
		s.Row.Boards = append(s.Row.Boards, b)
	}
	return s, r
}

// Rows of four and five boards that lie: folded in the order of the last step, the
// gaps are such that nothing runs into a fold, and none could be a step of the ruler
// less.
func TestLongRowsByBruteForce(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 2))
	built, cleared := map[int]int{}, map[int]int{}
	for trial := range proptest.Cases(1000) {
		lying := 4 + trial%2
		s, r := pileOf(rng, lying)
		plan, err := folio.Build(s)
		if err != nil {
			continue // which others judge
		}
		built[lying]++
		main, turns := turnings(t, plan)
		r.main = main / 2
		for _, turn := range turns {
			if k := turn.joint / 2; !slices.Contains(r.folds, k) {
				r.folds = append(r.folds, k)
			}
		}
		for g := range plan.Gaps() {
			r.gap = append(r.gap, g.Width())
		}
		if ok, why := r.shuts(); !ok {
			t.Fatalf("trial %d: %s\n%+v", trial, why, r)
		}
		for i := range r.gap {
			turning := r.covering
			if r.valley[i/2] {
				turning = r.board + r.liner + r.covering
			}
			less := r
			less.gap = slices.Clone(r.gap)
			if less.gap[i] -= units.TenthMillimetres.Step(); less.gap[i] < turning {
				continue
			}
			cleared[lying]++
			if ok, _ := less.shuts(); ok {
				t.Fatalf("trial %d: gap %d of %v, and one step less shuts as well\n%+v", trial, i, r.gap[i], r)
			}
		}
	}
	t.Logf("%v built, %v gaps wider than turning takes", built, cleared)
	for lying := 4; lying <= 5; lying++ {
		if built[lying] < proptest.Cases(100) || cleared[lying] < proptest.Cases(20) {
			t.Errorf("of %d boards: %d built, %d gaps wider than turning takes", lying, built[lying], cleared[lying])
		}
	}
}
