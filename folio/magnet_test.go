package folio_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// lyingIn returns where a board lies, seen from the one on the table, and whether its
// outside is below.
func (r *atRest) lyingIn(main, board int) (o oblong, outsideBelow bool) {
	ends := r.row.boards[r.roles[board]]
	o = r.seenFrom(main, board, oblong{low: vec{X: ends[0]}, high: vec{X: ends[1], Y: r.row.t}})
	outer := r.seenFrom(main, board, oblong{low: vec{X: ends[0]}, high: vec{X: ends[1]}})
	return o, math.Abs(outer.low.Y-o.low.Y) < math.Abs(outer.low.Y-o.high.Y)
}

// under returns the highest of the boards under one, −1 for none, and whether any lies
// over it.
func (r *atRest) under(main, board int) (below int, covered bool) {
	const touch = 1e-4
	below = -1
	here, _ := r.lyingIn(main, board)
	var top float64
	for i, role := range r.roles {
		o, _ := r.lyingIn(main, i)
		switch {
		case i == board || role.Spine() || o.low.X > here.high.X-touch || o.high.X < here.low.X+touch:
		case o.low.Y > here.low.Y:
			covered = true
		case below < 0 || o.low.Y > top:
			below, top = i, o.low.Y
		}
	}
	return below, covered
}

// gate is a row with a narrow flap at either side of the board on the table, whose
// spine boards are not as wide as each other.
func gate(some func(low, high units.Length) units.Length) folio.Spec {
	valley := boards.Joint{Fold: score.Valley}
	return folio.Spec{
		Cover: units.Size{W: some(100*mm, 140*mm), H: 140 * mm}, Spine: rule.Spine{Contents: 3 * mm}, Rulers: rule.Rulers{Main: everyNanometre},
		Board: stock.Stock{Caliper: some(mm, 3*mm)}, Covering: stock.Stock{Caliper: some(mm/10, mm/2)}, Liner: stock.Stock{Caliper: some(mm/10, mm/2)},
		Hinge: rule.Hinge{Rule: rule.HingeLeast, Crease: [...]rule.CreasePlace{rule.CreaseAtEdge, rule.CreaseTwo}[some(0, 2)]}, Mitre: rule.Mitre{Distance: 5 * mm},
		Row: boards.Row{Main: boards.Panel2, Joints: []boards.Joint{valley, valley, valley, valley}, Boards: []boards.Board{
			{Role: boards.Panel1, Width: some(40*mm, 48*mm)}, {Role: boards.Spine1, Width: some(14*mm, 30*mm)},
			{Role: boards.Panel2}, {Role: boards.Spine2, Width: some(14*mm, 30*mm)}, {Role: boards.Panel3, Width: some(40*mm, 48*mm)},
		}},
	}
}

// Turned about its creases, any row has its magnets in the boards at its ends that no
// other lies over, each with its mate in the highest under that, rims as far from the
// edge as asked for, face to face, as far apart as is told at most, and evenly spread.
// Where one would not lie within its board, or there is no such board, they are refused.
func TestMagnetsOfRows(t *testing.T) {
	random := rand.New(rand.NewPCG(uint64(proptest.Seed()), 1))
	some := func(low, high units.Length) units.Length { return low + units.Length(random.Int64N(int64(high-low))) }
	var met [3]int // by how many edges they hold
	refused := 0
	for i := range proptest.Cases(400) {
		s, ok := gate(some), true
		if i%4 > 0 {
			s, ok = crowdedRow(random)
			s.Fittings = nil
		}
		bare, err := folio.Build(s)
		if !ok || err != nil {
			continue
		}
		m := closing.Magnets{Diameter: some(4*mm, 9*mm), Thickness: s.Board.Caliper / 2, Pairs: 1 + random.IntN(3), Inset: some(mm, 40*mm)}
		s.Magnets = m
		p, err := folio.Build(s)
		main, _ := turnings(t, bare)
		r := restOf(t, bare)
		type pair struct{ high, low int }
		var want []pair
		within, apart := true, 0.0
		for _, k := range []int{0, len(r.roles) - 1} {
			low, covered := r.under(main, k)
			if k == main || covered || low < 0 {
				continue
			}
			ends := r.row.boards[r.roles[k]]
			rim := [2]float64{ends[0] + m.Inset.Millimetres(), ends[0] + (m.Inset + m.Diameter).Millimetres()}
			if k > 0 {
				rim = [2]float64{ends[1] - (m.Inset + m.Diameter).Millimetres(), ends[1] - m.Inset.Millimetres()}
			}
			here, _ := r.lyingIn(main, k)
			on, _ := r.lyingIn(main, low)
			there := r.seenFrom(main, k, oblong{low: vec{X: rim[0]}, high: vec{X: rim[1]}})
			want = append(want, pair{k, low})
			within = within && rim[0] >= ends[0] && rim[1] <= ends[1] && there.low.X >= on.low.X && there.high.X <= on.high.X
			apart = max(apart, here.low.Y-on.high.Y)
		}
		if len(want) == 0 || !within {
			path := "magnets.diameter"
			if len(want) == 0 { // no smaller ones hold anything either
				path = "magnets"
			}
			if refused++; !refusedWith(err, path, folio.OffPanel) {
				t.Errorf("%v: magnets hold %v: %v", r.roles, want, err)
			}
			continue
		}
		if err != nil {
			t.Errorf("%v: no magnets hold %v: %v", r.roles, want, err)
			continue
		}
		met[len(want)]++
		f, _ := p.Magnets()
		if got := f.Apart().Length().Millimetres(); math.Abs(got-apart) > 5e-3 { // a round hinge is worked out in short straight parts
			t.Errorf("%v: %v apart by what is told, %v mm turned", want, f.Apart(), apart)
		}
		k := 0
		var mate float64 // where the first of a pair lies
		for place := range f.Places() {
			if k == 2*m.Pairs*len(want) {
				t.Errorf("%v: more than %d magnets", want, k)
				break
			}
			w := want[k/2/m.Pairs]
			board := [2]int{w.high, w.low}[k%2]
			_, outsideBelow := r.lyingIn(main, board)
			if place.Pair() != k/2 || place.Panel() != r.roles[board] || place.Outside() != (outsideBelow == (k%2 == 0)) {
				t.Errorf("%v: magnet %d of pair %d is in the %v, outside %v", want, k, place.Pair(), place.Panel(), place.Outside())
			}
			x, ends := place.Middle().X.Millimetres(), r.row.boards[r.roles[board]]
			off := x - ends[0]
			if w.high > 0 {
				off = ends[1] - x
			}
			if k%2 == 0 && math.Abs(off-(m.Inset+m.Diameter/2).Millimetres()) > 1e-5 {
				t.Errorf("a magnet %v across has its middle %v mm from the edge; inset %v", m.Diameter, off, m.Inset)
			}
			at := r.seenFrom(main, board, oblong{low: vec{X: x}, high: vec{X: x}}).low.X
			if k%2 == 1 && math.Abs(at-mate) > 1e-3 {
				t.Errorf("%v: the magnets of a pair lie %v mm beside each other", want, at-mate)
			}
			mate = at
			// Half a share from the head, and a share from each to the next.
			if y, h := place.Middle().Y.Millimetres(), p.OpenHeight().Length().Millimetres(); math.Abs(y-h/float64(m.Pairs)*(float64(k/2%m.Pairs)+0.5)) > 1e-5 {
				t.Errorf("magnet %d of %d pairs is %v mm from the head of %v", k, m.Pairs, y, h)
			}
			k++
		}
		if k != 2*m.Pairs*len(want) {
			t.Errorf("%v: %d magnets", want, k)
		}
	}
	if met[1] < proptest.Cases(20) || met[2] < proptest.Cases(20) || refused < proptest.Cases(10) {
		t.Errorf("tried too few: %v by edges, %d refused", met, refused)
	}
}

// Measured with a spine that came out wider or narrower, the covers are as much further
// apart or nearer where they close, and so are the magnets in them. They stay where they are in
// their boards, and the plan that was made before says what it said.
func TestMagnetsAsMade(t *testing.T) {
	s := thin(6 * mm)
	s.Magnets = closing.Magnets{Diameter: 8 * mm, Thickness: mm, Pairs: 2}
	p := mustBuild(t, s)
	if _, ok := mustBuild(t, thin(6*mm)).Magnets(); ok {
		t.Error("there are magnets that nobody asked for")
	}
	planned, _ := p.Magnets()
	inBoards := func(p *folio.Plan) (all []units.Point) {
		f, _ := p.Magnets()
		for m := range f.Places() {
			b, _ := p.Board(m.Panel())
			all = append(all, units.Point{X: m.Middle().X - b.Rect().Min.X, Y: m.Middle().Y - b.Rect().Min.Y})
		}
		return all
	}
	before := inBoards(p)
	for _, by := range []units.Length{mm / 2, -mm / 2} {
		var panels []units.Length
		for b := range p.Boards() {
			panels = append(panels, b.Size().W)
		}
		panels[1] += by
		q, err := p.Refit(refit.Measured{Width: p.OpenWidth().Length() + by, Height: p.OpenHeight().Length(), Panels: panels})
		if err != nil {
			t.Fatal(err)
		}
		if made, _ := q.Magnets(); made.Apart().Length() != planned.Apart().Length()+by {
			t.Errorf("a spine %v wider: the magnets are %v apart, planned %v", by, made.Apart().Length(), planned.Apart().Length())
		}
		if made, now := inBoards(q), inBoards(p); !slices.Equal(made, before) || !slices.Equal(now, before) {
			t.Errorf("a spine %v wider: in their boards the magnets lie at %v, planned at %v, which is now %v", by, made, before, now)
		}
	}
}

// Where the magnets of a pair hold little the way out that is told is not taken already:
// those of a flap are as near as a flap brings them.
func TestFlapForMagnets(t *testing.T) {
	for _, form := range []boards.Form{boards.SpineBoard, boards.ForeEdgeFlap} {
		s, flap := plainCase(), form == boards.SpineBoard
		s.Form, s.Magnets = form, closing.Magnets{Diameter: 8 * mm, Thickness: mm / 2, Pairs: 1}
		warned := false
		for w := range mustBuild(t, s).Warnings() {
			if w.Code == folio.WarnMagnets {
				warned = true
				if strings.Contains(w.Text, "a flap brings them nearer") != flap {
					t.Errorf("%v: %s", form, w.Text)
				}
			}
		}
		if !warned {
			t.Errorf("%v: no warning", form)
		}
	}
}
