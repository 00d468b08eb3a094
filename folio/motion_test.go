package folio_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/internal/planetest"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

// A turning is one board turned about the crease of one joint, everything beyond
// it carried along.
type turning struct {
	joint int
	by    float64 // radians
	held  int     // the joint about which what is beyond stays upright meanwhile, −1 where there is none
}

// turnings reads the last check of a plan's order of work: which board is turned,
// and by which joint, the one on its side towards the board that stays.
func turnings(t *testing.T, p *folio.Plan) (main int, turns []turning) {
	t.Helper()
	var last work.Close
	for s := range p.Steps() {
		for _, a := range s.Do {
			if c, ok := a.(work.Close); ok {
				last = c
			}
		}
	}
	n := 0
	for range p.Boards() {
		n++
	}
	turned := make([]bool, n)
	for _, u := range last.Turns {
		if turned[u.Board] {
			t.Fatalf("board %d is turned twice", u.Board)
		}
		turned[u.Board] = true
	}
	main = -1
	for i, done := range turned {
		if !done && main >= 0 {
			t.Fatalf("boards %d and %d are never turned", main, i)
		}
		if !done {
			main = i
		}
	}
	for _, u := range last.Turns {
		// A quarter of a turn up on to a spine, and another one from it; half a
		// turn where there is no spine.
		joint, by := u.Board, math.Pi
		if u.Board > main {
			joint--
		}
		if g := roles(p)[joint]; g.Spine() || roles(p)[joint+1].Spine() {
			by = math.Pi / 2
		}
		held := -1
		switch list := roles(p); {
		case u.Upright == "":
		case u.Held < main && list[u.Held+1].Spine():
			held = u.Held + 1
		case u.Held < main:
			held = u.Held
		case list[u.Held-1].Spine():
			held = u.Held - 2
		default:
			held = u.Held - 1
		}
		turns = append(turns, turning{joint, by, held})
	}
	return main, turns
}

func roles(p *folio.Plan) []boards.Role {
	var out []boards.Role
	for b := range p.Boards() {
		out = append(out, b.Role())
	}
	return out
}

// turned is the row with each joint turned by an angle.
func turned(p *folio.Plan, main int, angles []float64) shutting {
	r, list := rowOf(p), roles(p)
	c, _ := p.Closed()
	x := c.Crease().Millimetres()
	var s shutting
	for j := main - 1; j >= 0; j-- {
		left, right := r.boards[list[j]][1], r.boards[list[j+1]][0]
		if list[j+1].Spine() { // the crease is counted from the spine board
			s.left = creases(s.left, right, left, c.Bend(), x, angles[j], false)
		} else if list[j].Spine() {
			s.left = creases(s.left, left, right, c.Bend(), x, angles[j], true)
		} else {
			s.left = creases(s.left, right, left, c.Bend(), x, angles[j], false)
		}
	}
	for j := main; j < len(angles); j++ {
		left, right := r.boards[list[j]][1], r.boards[list[j+1]][0]
		if list[j+1].Spine() {
			s.right = creases(s.right, right, left, c.Bend(), x, angles[j], true)
		} else {
			s.right = creases(s.right, left, right, c.Bend(), x, angles[j], false)
		}
	}
	return s
}

// sections are the boards of a plan as rectangles on the row, in cross-section at
// head or tail: covering, board, turn-in and liner.
func sections(p *folio.Plan, less float64) [][]vec {
	r, list := rowOf(p), roles(p)
	thick := r.t + r.c + r.l
	if p.LiningStyle() == rule.LiningPanels {
		thick -= r.l // which keeps off the hinges
	}
	var out [][]vec
	for i, role := range list {
		a, z := r.boards[role][0]+less, r.boards[role][1]-less
		if i == 0 {
			a -= r.c
		}
		if i == len(list)-1 {
			z += r.c
		}
		out = append(out, []vec{{X: a, Y: -r.c + less}, {X: z, Y: -r.c + less}, {X: z, Y: thick - less}, {X: a, Y: thick - less}})
	}
	return out
}

// meets moves the boards as the order of work says, and returns whether two of
// them ever overlap.
func meets(t *testing.T, p *folio.Plan, samples int, less float64) bool {
	t.Helper()
	main, turns := turnings(t, p)
	parts := sections(p, less)
	angles := make([]float64, len(parts)-1)
	placed := make([][]vec, len(parts))
	for _, turn := range turns {
		for k := 1; k <= samples; k++ {
			angles[turn.joint] = turn.by * float64(k) / float64(samples)
			s := turned(p, main, angles)
			for i, part := range parts {
				// The covering at the hinges bends with them.
				var at []vec
				for _, v := range part {
					at = append(at, s.along(i, parts, v))
				}
				placed[i] = at
			}
			for i := range placed {
				for j := range i {
					if planetest.Overlap(placed[i], placed[j]) {
						return true
					}
				}
			}
		}
	}
	return false
}

// along places a corner of board i as a part of that board, even if its covering
// reaches past a crease at the board's edge.
func (s shutting) along(i int, parts [][]vec, v vec) vec { return s.board(i, parts)(v) }

// board returns how board i moves.
func (s shutting) board(i int, parts [][]vec) func(vec) vec {
	mid := (parts[i][0].X + parts[i][1].X) / 2
	a, b := s.place(mid, 0), s.place(mid, 1)
	up := vec{X: b.X - a.X, Y: b.Y - a.Y}
	right := vec{X: up.Y, Y: -up.X}
	return func(v vec) vec {
		d := v.X - mid
		return vec{X: a.X + right.X*d + up.X*v.Y, Y: a.Y + right.Y*d + up.Y*v.Y}
	}
}

// The folio is shut as its last step says, board by board about the creases, and
// no board ever runs into another one, with covering, turn-ins and liner, for
// every form and every way to bend the hinges. With gaps a little too narrow some
// do.
func TestClosingByMotion(t *testing.T) {
	r := rand.New(rand.NewPCG(uint64(proptest.Seed()), 2))
	const samples = 45
	tried := map[boards.Form]int{}
	met := 0
	for trial := range proptest.Cases(100) {
		form := boards.Form(trial % 4)
		bends := []rule.CreasePlace{rule.CreaseAtEdge, rule.CreaseMidGap, rule.CreaseAtOffset, rule.CreaseTwo, rule.CreaseRound}
		if form == boards.SoftSpine {
			bends = bends[3:]
		}
		s := randomRow(r, form, bends[trial/4%len(bends)])
		if form == boards.ForeEdgeFlap {
			s.FlapWidth = s.Cover.W / units.Length(1+r.IntN(3))
		}
		p, err := folio.Build(s)
		if err != nil {
			t.Fatal(err)
		}
		// As narrow as it may be, and then narrower than that.
		var least units.Length
		for g := range p.Gaps() {
			least = max(least, g.Least())
		}
		tight := s
		if tight.Hinge.Width = least; form == boards.ForeEdgeFlap {
			tight.Hinge.Width = max(s.Hinge.Width*9/10, least)
		}
		q, err := folio.Build(tight)
		if err == nil && !warned(q, folio.WarnCrease) {
			p = q
		}
		if warned(p, folio.WarnCrease) {
			continue
		}
		if meets(t, p, samples, 2e-3) {
			t.Fatalf("trial %d, %v, %v: boards meet on the way: gap %v, least %v, board %v, covering %v, liner %v", trial, form, s.Hinge.Crease,
				tight.Hinge.Width, least, s.Board.Caliper, s.Covering.Caliper, s.Liner.Caliper)
		}
		tried[form]++
		// Thicker boards in the very same row.
		row := rowOf(p)
		if thick := row.t + row.l + row.c; p.LiningStyle() != rule.LiningPanels && q == p && tight.Hinge.Width == least {
			if meets(t, p, samples, -0.05*thick) {
				met++
			}
		}
	}
	for form := boards.SpineBoard; form <= boards.DoubleSpineGate; form++ {
		if tried[form] < proptest.Cases(100)/6 {
			t.Errorf("%v: only %d shut", form, tried[form])
		}
	}
	t.Logf("%v shut, %d meet when they are thicker", tried, met)
	if met < proptest.Cases(100)/3 {
		t.Errorf("only %d meet when they are thicker", met)
	}
}
