package folio_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"
)

// An oblong is a rectangle in the cross-section of a shut row, with where it begins and
// ends along the spine.
type oblong struct {
	low, high vec
	y         [2]units.Length
}

// atRest is a row as it lies in the end, turned about its creases.
type atRest struct {
	p     *folio.Plan
	row   closedRow
	roles []boards.Role
	moved []func(vec) vec // each board's way there
}

func restOf(t *testing.T, p *folio.Plan) atRest {
	t.Helper()
	main, turns := turnings(t, p)
	parts := sections(p, 0)
	angles := make([]float64, len(parts)-1)
	for _, turn := range turns {
		angles[turn.joint] = turn.by
	}
	s := rowTurned(p, main, angles)
	r := atRest{p: p, row: rowOf(p), roles: roles(p)}
	for i := range parts {
		r.moved = append(r.moved, s.board(i, parts))
	}
	return r
}

// seenFrom returns an oblong on a board in the coordinates of another one.
func (r *atRest) seenFrom(other, board int, b oblong) oblong {
	o, e := r.moved[other](vec{}), r.moved[other](vec{X: 1})
	right := vec{X: e.X - o.X, Y: e.Y - o.Y}
	local := func(v vec) vec {
		v = r.moved[board](v)
		dx, dy := v.X-o.X, v.Y-o.Y
		return vec{X: dx*right.X + dy*right.Y, Y: dy*right.X - dx*right.Y}
	}
	b.low, b.high = extent([]vec{local(b.low), local(b.high)})
	return b
}

// slab is a board with liner and covering, with so much more at its hinges, and beyond its
// free edges.
func (r *atRest) slab(i int, hinges func(units.Length) float64, free float64) oblong {
	ends := r.row.boards[r.roles[i]]
	past := [2]float64{free, free}
	k := 0
	for g := range r.p.Gaps() {
		if side := i - k; side == 0 || side == 1 { // the gap on its right, on its left
			past[1-side] = hinges(g.Width())
		}
		k++
	}
	return oblong{vec{X: ends[0] - past[0], Y: -r.row.c}, vec{X: ends[1] + past[1], Y: r.row.t + r.row.l}, [2]units.Length{0, r.p.OpenHeight().Length()}}
}

// standing are the things on a board: each by itself and, where two lie over each other,
// the upper one on the lower. Stiff ones lie on what is highest under them.
func (r *atRest) standing(i int, stiff bool) (all []oblong) {
	type lying struct {
		folio.Height
		top units.Length
	}
	var on []lying
	for h := range r.p.Heights(true) {
		if h.Panel() != r.roles[i] {
			continue
		}
		put := func(rect units.Rect, from units.Length) {
			base, top := r.row.t+r.row.l+from.Millimetres(), r.row.t+r.row.l+(from+h.Height()).Millimetres()
			if h.Outside() {
				base, top = -r.row.c-(from+h.Height()).Millimetres(), -r.row.c-from.Millimetres()
			}
			all = append(all, oblong{vec{X: rect.Min.X.Millimetres(), Y: base}, vec{X: rect.Max.X.Millimetres(), Y: top}, [2]units.Length{rect.Min.Y, rect.Max.Y}})
		}
		var under units.Length
		for _, o := range on {
			if part := o.Rect().Intersect(h.Rect()); o.Outside() == h.Outside() && !part.Empty() {
				put(part, o.top)
				under = max(under, o.top)
			}
		}
		if !stiff {
			under = 0
		}
		put(h.Rect(), under)
		on = append(on, lying{h, under + h.Height()})
	}
	return all
}

// room returns how thick a thing may be before it runs into anything: at least, with
// whatever may be in the way, and at most, with what is for certain.
func (r *atRest) room(f *folio.Fitted) (least, most float64) {
	i, rect := slices.Index(r.roles, f.Panel()), f.Rect()
	base := r.row.t + r.row.l
	if f.Outside() {
		base = r.row.c
	}
	free := func(at oblong, touch float64) float64 {
		if f.Outside() {
			at.low.Y, at.high.Y = -at.high.Y, -at.low.Y
		}
		if at.high.X <= rect.Min.X.Millimetres()+touch || at.low.X >= rect.Max.X.Millimetres()-touch || at.y[1] <= rect.Min.Y || at.y[0] >= rect.Max.Y || at.high.Y <= base+1e-5 {
			return math.Inf(1)
		}
		return at.low.Y - base
	}
	const touch = 2e-3 // which a round bend in many small ones strays less than
	least, most = math.Inf(1), math.Inf(1)
	hinge := func(gap units.Length) float64 { return (gap + r.p.Spec().Placing).Millimetres() + r.row.c }
	none := func(units.Length) float64 { return 0 }
	spine := f.Panel().Spine()
	for o, role := range r.roles {
		if o == i {
			continue
		}
		for _, b := range r.standing(o, false) {
			most = min(most, free(r.seenFrom(i, o, b), touch))
		}
		for _, b := range r.standing(o, true) {
			least = min(least, free(r.seenFrom(i, o, b), -touch))
		}
		if spine || !role.Spine() { // whose ends stand where hinges bend
			most = min(most, free(r.seenFrom(i, o, r.slab(o, none, r.row.c)), touch))
		}
		more, past := hinge, r.row.c
		switch next := max(o-i, i-o) == 1 || max(o-i, i-o) == 2 && r.roles[(o+i)/2].Spine(); {
		case next && spine: // what stands there lies beside it, as far as it goes
			more = none
		case next: // of two that nothing but their fold keeps together everything meets
			past = 1000
			more = func(units.Length) float64 { return past }
		}
		if role.Spine() {
			more = none
		}
		least = min(least, free(r.seenFrom(i, o, r.slab(o, more, past)), -touch))
	}
	for j := range len(r.roles) - 1 { // the sheets in soft joints, somewhere past their boards
		if r.roles[j].Spine() || r.roles[j+1].Spine() || i == j || i == j+1 {
			continue
		}
		a, b := r.slab(j, hinge, 0), r.slab(j+1, hinge, 0)
		a.low.X, b.high.X = r.row.boards[r.roles[j]][1], r.row.boards[r.roles[j+1]][0]
		a, b = r.seenFrom(i, j, a), r.seenFrom(i, j+1, b)
		low, high := extent([]vec{a.low, a.high, b.low, b.high})
		sheets := r.row.c + r.row.l
		least = min(least, free(oblong{vec{X: low.X - sheets, Y: low.Y - sheets}, vec{X: high.X + sheets, Y: high.Y + sheets}, a.y}, -touch))
	}
	return least, most
}

// A thing of a row, on a board or a spine board, on either side, may be as thick as it is
// before it runs into something where the row lies shut, turned about its creases as rigid
// boards by a model that knows nothing of rooms and meetings: with 5 µm less the row closes
// over it, with 5 µm more it does not.
func TestRoomsByTurning(t *testing.T) {
	const near, cap = 5 * units.Micrometre, 60 * mm
	rng := rand.New(rand.NewPCG(uint64(proptest.Seed()), 31))
	var closed, refused, sharp [4]int // on boards, at their backs, on spine boards, at their backs
	for trial := range proptest.Cases(2400) {
		s, ok := crowdedRow(rng)
		if !ok || len(s.Fittings) == 0 {
			continue
		}
		i := rng.IntN(len(s.Fittings))
		with := func(thick units.Length) (*folio.Plan, bool) {
			o := s.Fittings[i].Kind.(folio.Ornament)
			o.Thickness = thick
			again := s
			again.Fittings = slices.Clone(s.Fittings)
			again.Fittings[i].Kind = o
			p, err := folio.Build(again)
			if err != nil {
				return nil, false
			}
			tight, ok := p.Tightest(true)
			return p, ok && tight.Closes()
		}
		p, ok := with(units.Shortest)
		if !ok {
			continue
		}
		var f folio.Fitted
		for o := range p.Fittings() {
			if o.Index() == i {
				f = o
			}
		}
		bare := true // it lies on the board itself, and nothing on it
		for h := range p.Heights(true) {
			at, of := h.Fitting()
			bare = bare && (of && at == i || h.Panel() != f.Panel() || h.Outside() != f.Outside() || !h.Rect().Overlaps(f.Rect()))
		}
		if !bare {
			continue
		}
		r := restOf(t, p)
		least, most := r.room(&f)
		at := 0
		if f.Panel().Spine() {
			at += 2
		}
		if f.Outside() {
			at++
		}
		length := func(f float64) units.Length {
			return units.Length(min(f, cap.Millimetres())*1000) * units.Micrometre
		}
		if thick := length(least) - near; thick >= units.Shortest {
			if _, ok := with(thick); !ok {
				t.Errorf("trial %d: it does not close over %v on the %v, where there are %.4f mm: %+v, %+v", trial, thick, f.Panel(), least, s.Row, s.Fittings)
			}
			closed[at]++
		}
		if most < cap.Millimetres() {
			if thick := max(units.Shortest, length(most)+near); thick < cap {
				if _, ok := with(thick); ok {
					t.Errorf("trial %d: it closes over %v on the %v, where there are %.4f mm: %+v, %+v", trial, thick, f.Panel(), most, s.Row, s.Fittings)
				}
				refused[at]++
				if most-least < 1e-9 {
					sharp[at]++
				}
			}
		}
	}
	t.Log(closed, refused, sharp)
	for at, few := range [4]int{80, 15, 10, 0} {
		if few = proptest.Cases(few); closed[at] < 2*few || refused[at] < few || sharp[at] < few/2 {
			t.Errorf("%d: %d closed, %d did not, %d at the very place", at, closed[at], refused[at], sharp[at])
		}
	}
}
