package folio_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A faceOf is one side of a board.
type faceOf struct {
	role    boards.Role
	outside bool
}

// A solid is a box on the row, in millimetres: x along it, y from the head, z from
// the wrong side of the covering.
type solid struct {
	role                   boards.Role
	x0, x1, y0, y1, z0, z1 float64
	thing                  bool // what stands there belongs to a fitting
}

// coverings says again, from the pieces of the wrap, what lies on the outside of
// each board.
func coverings(p *folio.Plan) map[faceOf][]slab {
	out := map[faceOf][]slab{}
	wrap, spec := p.Wrap(), p.Spec()
	near := wrap.Across().Near().Length()
	for piece := range wrap.Pieces() {
		c := spec.Covering.Caliper
		if piece.Strip() {
			c = spec.SpineCovering.Caliper
		}
		from := (piece.X() - near).Millimetres()
		to := from + piece.Piece().Size().W.Millimetres()
		for b := range p.Boards() {
			s := slabOf(b.Rect(), c)
			s.x0, s.x1 = max(s.x0, from), min(s.x1, to)
			if s.x0 < s.x1 {
				out[faceOf{b.Role(), true}] = append(out[faceOf{b.Role(), true}], s)
			}
		}
	}
	return out
}

// lines returns the edges of slabs in one direction, in order.
func lines(all []slab, of func(slab) (float64, float64)) []float64 {
	var out []float64
	for _, s := range all {
		a, b := of(s)
		out = append(out, a, b)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// A patch is a part of a face with one height all over.
type patch struct {
	x0, x1, y0, y1 float64
	height         units.Length
	thing          bool
}

// grid cuts a face along every edge of what lies on it. things is how many of the
// slabs, at the end of the list, belong to fittings.
func grid(all []slab, things int) []patch {
	xs := lines(all, func(s slab) (float64, float64) { return s.x0, s.x1 })
	ys := lines(all, func(s slab) (float64, float64) { return s.y0, s.y1 })
	var out []patch
	for i := 1; i < len(xs); i++ {
		for j := 1; j < len(ys); j++ {
			if xs[i]-xs[i-1] < 1e-7 || ys[j]-ys[j-1] < 1e-7 {
				continue
			}
			c := patch{x0: xs[i-1], x1: xs[i], y0: ys[j-1], y1: ys[j]}
			for k, s := range all {
				if s.over((c.x0+c.x1)/2, (c.y0+c.y1)/2) {
					c.height += s.height
					c.thing = c.thing || k >= len(all)-things && s.height > 0
				}
			}
			out = append(out, c)
		}
	}
	return out
}

// A model is a folio as boxes: what lies on each face in millimetres on the row.
type model struct {
	row    closedRow
	shut   shutting
	faces  map[faceOf][]slab
	things map[faceOf]int
}

// modelOf takes boards, wrap and creases from a plan, and what fittings add from
// slabs whose x is counted from the left edge of their board.
func modelOf(p *folio.Plan, fittings map[faceOf][]slab) model {
	m := model{row: rowOf(p), faces: coverings(p), things: map[faceOf]int{}}
	c, _ := p.Closed()
	m.shut = m.row.shutBy(c.Bend(), c.Crease().Millimetres())
	for role, turned := range turnedIn(p) {
		m.faces[faceOf{role, false}] = turned
	}
	for b := range p.Boards() {
		f := faceOf{b.Role(), false}
		m.faces[f] = append(m.faces[f], slabOf(b.Rect(), 0)) // the bare liner
	}
	for f, list := range fittings {
		x := m.row.boards[f.role][0]
		for _, s := range list {
			s.x0, s.x1 = s.x0+x, s.x1+x
			m.faces[f] = append(m.faces[f], s)
			m.things[f]++
		}
	}
	return m
}

// laid is a solid in the closed folio: all hinges turn by right angles, so it is a
// box again, with x along the covers and z across them.
func (m model) laid(s solid) solid {
	const e = 1e-7 // a crease may lie at a board's edge
	a, b := m.shut.place(s.x0+e, s.z0), m.shut.place(s.x1-e, s.z1)
	s.x0, s.x1, s.z0, s.z1 = min(a.X, b.X), max(a.X, b.X), min(a.Y, b.Y), max(a.Y, b.Y)
	return s
}

// solids returns everything in the closed folio, and the boards with their liners
// by themselves.
func (m model) solids() (things, solids []solid) {
	r := m.row
	for role, b := range r.boards {
		s := solid{role: role, x0: b[0], x1: b[1], y0: -1e6, y1: 1e6, z1: r.t + r.l}
		switch role {
		case boards.LeftCover, boards.LeftDoor:
			s.x0 -= r.c
		case boards.Flap, boards.RightDoor:
			s.x1 += r.c
		}
		solids = append(solids, m.laid(s))
	}
	for f, list := range m.faces {
		for _, c := range grid(list, m.things[f]) {
			h := c.height.Millimetres()
			s := solid{role: f.role, x0: c.x0, x1: c.x1, y0: c.y0, y1: c.y1, z0: r.t + r.l, z1: r.t + r.l + h, thing: c.thing}
			if f.outside {
				s.z0, s.z1 = -h, 0
			}
			things = append(things, m.laid(s))
		}
	}
	return things, solids
}

// over reports whether two solids lie over each other, seen from above.
func (s solid) over(o solid) bool {
	const e = 3e-6
	return s.x0+e < o.x1 && o.x0+e < s.x1 && s.y0+e < o.y1 && o.y0+e < s.y1
}

// apart returns how far two solids that lie over each other are apart across the
// covers; negative, how far one must be moved to clear the other.
func (s solid) apart(o solid) float64 { return max(s.z0-o.z1, o.z0-s.z1) }

// lefts measures what is left at each meeting, infinite where there is none, with the
// turn-ins that are straight across from a spine or without.
func (m model) lefts(turned bool) map[closing.Meeting]float64 {
	out := map[closing.Meeting]float64{}
	for k := closing.BetweenCovers; k <= closing.AtForeEdge; k++ {
		out[k] = math.Inf(1)
	}
	least := func(k closing.Meeting, by float64) { out[k] = min(out[k], by) }
	main := boards.RightCover
	if _, ok := m.row.boards[boards.Back]; ok {
		main = boards.Back
	}
	_, flap := m.row.boards[boards.Flap]
	var between, under []slab
	room, underFlap := m.rooms(main)
	for f, list := range m.faces {
		for _, s := range list {
			z := m.row.t
			if f.outside {
				z = 0
			}
			a, b := m.shut.place(s.x0+1e-7, z).X, m.shut.place(s.x1-1e-7, z).X
			s.x0, s.x1 = min(a, b), max(a, b)
			switch {
			case f.role == boards.Spine1 || f.role == boards.Spine2:
			case f.outside && f.role == boards.LeftCover && flap, !f.outside && f.role == boards.Flap:
				if edge := m.shut.place(m.row.boards[boards.Flap][1]+m.row.c, m.row.t).X; s.x0 < edge {
					s.x0 = edge
				}
				if s.x0 < s.x1 {
					under = append(under, s)
				}
			case !f.outside:
				between = append(between, s)
			}
		}
	}
	highest := func(list []slab) float64 {
		most := units.Length(0)
		for _, c := range grid(list, 0) {
			most = max(most, c.height)
		}
		return most.Millimetres()
	}
	least(closing.BetweenCovers, room-highest(between))
	if flap {
		least(closing.UnderFlap, underFlap-highest(under))
	}
	m.beside(turned, least)
	return out
}

// beside measures what stands on spines against the covers and what they carry,
// and the fore edge of a front cover against the spine of a flap.
func (m model) beside(turned bool, least func(closing.Meeting, float64)) {
	things, solids := m.solids()
	spine := func(r boards.Role) bool { return r == boards.Spine1 || r == boards.Spine2 }
	neighbours := func(s, o solid) bool {
		switch s.role {
		case boards.Spine1:
			return o.role == boards.LeftCover || o.role == boards.RightCover || o.role == boards.LeftDoor || o.role == boards.Back
		}
		return true
	}
	for _, s := range things {
		if !spine(s.role) || !s.thing {
			continue
		}
		for _, o := range append(things, solids...) {
			if !spine(o.role) && neighbours(s, o) && s.over(o) {
				least(closing.BesideSpine, s.apart(o))
			}
		}
		m.across(s, append(things, solids...), turned, least)
	}
	_, flap := m.row.boards[boards.Flap]
	for _, o := range solids {
		if !flap || o.role != boards.LeftCover {
			continue
		}
		for _, s := range append(things, solids...) {
			if s.role == boards.Spine2 && !s.thing {
				least(closing.AtForeEdge, max(s.x0-o.x1, o.x0-s.x1))
			}
		}
	}
}

// across measures what stands on a spine against what it comes to lie against straight
// across: the other spine, or a board that is not of its own fold nor within it, whose
// turn-ins count or not: where two lie over each other at a mitre, the library takes the
// thicker one.
func (m model) across(s solid, all []solid, turned bool, least func(closing.Meeting, float64)) {
	const e = 3e-6
	fold := map[boards.Role][]boards.Role{
		boards.Spine1: {boards.Spine1, boards.LeftCover, boards.RightCover, boards.LeftDoor, boards.Back},
		boards.Spine2: {boards.Spine2, boards.LeftCover, boards.RightCover, boards.Flap, boards.RightDoor, boards.Back},
	}
	mid := (m.row.boards[s.role][0] + m.row.boards[s.role][1]) / 2
	right := (s.x0+s.x1)/2 > m.shut.place(mid, m.row.t/2).X
	for _, o := range all {
		if slices.Contains(fold[s.role], o.role) {
			continue
		}
		if o.y0 == -1e6 && (o.role == boards.Spine1 || o.role == boards.Spine2) { // a fold reaches from board to board
			o.z0, o.z1 = math.Inf(1), math.Inf(-1)
			for _, role := range fold[o.role][1:] {
				if b, ok := m.row.boards[role]; ok && (role != boards.LeftCover || o.role == boards.Spine1) {
					z := m.shut.place((b[0]+b[1])/2, 0).Y
					o.z0, o.z1 = min(o.z0, z), max(o.z1, z)
				}
			}
		}
		if o.y0 != -1e6 && !o.thing && !turned && !(o.role == boards.Spine1 || o.role == boards.Spine2) {
			continue
		}
		ahead, behind := o.x0-s.x1, o.x1 <= s.x0+e
		if !right {
			ahead, behind = s.x0-o.x1, o.x0+e >= s.x1
		}
		if !behind && s.z0+e < o.z1 && o.z0+e < s.z1 && s.y0+e < o.y1 && o.y0+e < s.y1 {
			least(closing.BesideSpine, ahead)
		}
	}
}

// rooms measures the distances between bare faces: liner to liner, and from the
// wrong side of the front cover's covering to the liner of a flap.
func (m model) rooms(main boards.Role) (between, under float64) {
	at := func(r boards.Role, z float64) float64 {
		b := m.row.boards[r]
		return m.shut.place((b[0]+b[1])/2, z).Y
	}
	top := m.row.t + m.row.l
	front := boards.LeftCover
	if main == boards.Back {
		front = boards.LeftDoor
	}
	between = at(front, top) - at(main, top)
	if _, ok := m.row.boards[boards.Flap]; ok {
		under = at(boards.Flap, top) - at(boards.LeftCover, 0)
	}
	return between, under
}

// piled is a random folio with stacks on covers and on spines, inside and outside,
// thick covering, and its spine and the room under its flap about as wide as it
// takes.
func piled(r *rand.Rand, form boards.Form) (folio.Spec, map[faceOf][]slab, bool) {
	um := func(low, high int) units.Length { return units.Length(low+r.IntN(high-low)) * units.Micrometre }
	s := folio.Spec{
		Form: form, Cover: units.Size{W: 96 * mm, H: 76 * mm}, Spine: rule.Spine{Width: 90 * mm},
		Board: stock.Stock{Caliper: um(1500, 2500)}, Covering: stock.Stock{Name: "paper", Caliper: um(100, 1100)}, Liner: stock.Stock{Caliper: um(50, 400)},
		Lining: rule.Lining{Inset: 3 * mm}, Rulers: rule.Rulers{Main: units.TenthMillimetres},
		Hinge: rule.Hinge{Width: um(5200, 6500), Crease: rule.CreasePlace(r.IntN(5))},
		Mitre: rule.Mitre{Distance: 4 * mm}, Margin: rule.Margin{Ideal: um(13_000, 22_000), Least: 10 * mm, Tolerated: 8 * mm},
		Closing: closing.Allowance{Ease: units.None, Adhesive: closing.AdhesiveFilm{Caliper: um(1, 200)}},
	}
	if r.IntN(2) == 0 {
		s.Quarter = rule.Quarter{Rule: rule.QuarterAlways, Reach: um(8000, 30_000), Lap: um(2000, 6000)}
		s.SpineCovering = stock.Stock{Name: "cloth", Caliper: um(100, 1100)}
	}
	// As narrow as the way it bends allows, so that it adds little room.
	switch s.Hinge.Crease {
	case rule.CreaseAtOffset:
		s.Hinge.Offset = um(0, 1200)
		s.Hinge.Width += s.Hinge.Offset
	case rule.CreaseMidGap:
		s.Hinge.Width += um(5100, 6000)
	case rule.CreaseTwo, rule.CreaseRound:
		s.Hinge.Width += 3 * mm
	}
	switch form {
	case boards.SoftSpine:
		s.Spine = rule.Spine{Contents: mm}
		s.Hinge.Width, s.Hinge.Offset = 100*mm, 0
		s.Hinge.Crease = rule.CreaseTwo + rule.CreasePlace(r.IntN(2))
	case boards.ForeEdgeFlap:
		s.FlapWidth, s.Closing.UnderFlap = um(30_000, 96_000), 40*mm
	case boards.DoubleSpineGate:
		s.DoorGap = um(500, 3000)
	}
	s = withThings(r, s)
	p, err := folio.Build(s)
	if err != nil {
		return s, nil, false
	}
	things := map[faceOf][]slab{}
	for f := range p.Fittings() {
		b, _ := p.Board(f.Panel())
		x := b.Rect().Min.X.Millimetres()
		for _, add := range slabs(p, f, true, stock.DefaultCard(p.Notation()).Caliper, s.Closing.Adhesive.Caliper) {
			add.x0, add.x1 = add.x0-x, add.x1-x
			at := faceOf{f.Panel(), f.Outside()}
			things[at] = append(things[at], add)
		}
	}
	// As wide as the most that lies between, or up to 2 mm less or more.
	about := um(-2000, 2000)
	if t, ok := p.TightestOf(closing.BetweenCovers, true); ok && form == boards.SoftSpine {
		less := about - t.Left().Length()
		if s.Hinge.Crease == rule.CreaseRound {
			less, _ = less.Scale(11, 7, units.Up) // half of a circle
		}
		s.Hinge.Width += units.TenthMillimetres.Up(less)
	} else if ok {
		s.Spine.Width = max(s.Spine.Width+units.TenthMillimetres.Up(about-t.Left().Length()), 11*mm)
	}
	if t, ok := p.TightestOf(closing.UnderFlap, true); ok {
		s.Closing.UnderFlap = max(0, s.Closing.UnderFlap+units.TenthMillimetres.Up(um(-2000, 2000)-t.Left().Length()))
	}
	return s, things, true
}

// withThings puts fittings on the panels of a folio, as many as go there.
func withThings(r *rand.Rand, s folio.Spec) folio.Spec {
	aligns := [...]place.Align{place.Middle, place.Left, place.Right}
	levels := [...]place.Align{place.Middle, place.Head, place.Tail}
	roles := s.Form.Roles()
	for i := range 2 + r.IntN(8) {
		role := roles[r.IntN(len(roles))]
		f := folio.Fitting{
			Name: string(rune('a' + i)), Kind: anyFitting(r), Panel: role, Outside: r.IntN(4) == 0,
			Place: place.Place{Across: aligns[r.IntN(3)], Along: levels[r.IntN(3)]},
		}
		if k, ok := f.Kind.(folio.Ornament); ok {
			k.Thickness *= 12
			f.Kind = k
		}
		if role == boards.Spine1 || role == boards.Spine2 {
			// Narrow enough for any spine, and where that leaves its left edge.
			f.Place.Across = place.Left
			f.Kind = folio.Ornament{
				Size:      units.Size{W: units.Length(2+r.IntN(4)) * mm, H: units.Length(4+r.IntN(40)) * mm},
				Thickness: units.Length(100+r.IntN(12_000)) * units.Micrometre,
			}
		}
		if n := len(s.Fittings); n > 0 && r.IntN(3) == 0 {
			on := s.Fittings[r.IntN(n)]
			f.StandsOn, f.Panel, f.Outside, f.Place = on.Name, boards.MainPanel, false, place.Place{}
		}
		with := s
		with.Fittings = append(slices.Clip(s.Fittings), f)
		if _, err := folio.Build(with); err == nil {
			s = with
		}
	}
	return s
}

// Whether and how closely a folio closes, against boxes: every face is cut into a
// grid along the edges of all that lies there, the row is folded about its
// creases, and what is left between the boxes is measured. Nothing is shared
// with the library but what was asked of it and where it laid boards, pieces of
// the wrap and creases.
func closingByGrid(t *testing.T, cases int) {
	r := rand.New(rand.NewPCG(uint64(proptest.Seed()), 1))
	var closed, not, skipped, quarter, crease int
	tightest := map[closing.Meeting]int{}
	for trial := range cases {
		form := boards.Form(trial % 4)
		s, things, ok := piled(r, form)
		if !ok {
			skipped++
			continue
		}
		p, err := folio.Build(s)
		anchor := p
		if err != nil {
			var bad *check.Error
			if errors.As(err, &bad); bad == nil {
				t.Fatal(err)
			}
			if _, ok := bad.Find("", folio.NotClosing); !ok {
				skipped++
				continue
			}
			bare := s
			bare.Fittings = nil
			if anchor, err = folio.Build(bare); err != nil {
				skipped++ // not even the empty case closes
				continue
			}
		}
		m := modelOf(anchor, things)
		want, least := m.lefts(false), m.lefts(true)
		tolerance := 2e-5
		if c, _ := anchor.Closed(); c.Bend() == rule.CreaseRound {
			tolerance = 2e-3 // folded in 400 creases
		}
		closes, near := true, false
		for _, left := range want {
			closes, near = closes && left >= 0, near || math.Abs(left) < tolerance
		}
		if near {
			skipped++
			continue
		}
		if p == nil {
			if closes {
				t.Fatalf("trial %d, %v: refused, but by the grid %v is left: %v", trial, form, want, err)
			}
			not++
			continue
		}
		if p.Wrap().Quarter() {
			quarter++
		}
		got := true
		for k, left := range want {
			tight, ok := p.TightestOf(k, true)
			if ok != !math.IsInf(left, 1) && ok != !math.IsInf(least[k], 1) {
				t.Fatalf("trial %d, %v: %v: there is one: %v, by the grid %v", trial, form, k, ok, left)
			}
			if !ok {
				continue
			}
			got = got && tight.Closes()
			if got := tight.Left().Length().Millimetres(); (got > left+tolerance || got < least[k]-tolerance) && (left >= 0 || k != closing.BesideSpine) {
				t.Fatalf("trial %d, %v: %v: %v, by the grid %.6f mm left", trial, form, k, tight, left)
			}
		}
		all, _ := p.Tightest(true)
		tightest[all.Meeting()]++
		if got != closes {
			t.Fatalf("trial %d, %v: closes %v, by the grid %v", trial, form, got, want)
		}
		if !got {
			// It only does with another crease, and says so.
			if crease++; !warned(p, folio.WarnCrease) {
				t.Fatalf("trial %d, %v: taken without a warning though %v", trial, form, all)
			}
			continue
		}
		closed++
	}
	t.Logf("%d close, %d do not, %d with another crease, %d in quarter style, %d left out; tightest %v", closed, not, crease, quarter, skipped, tightest)
	if closed < cases/4 || not < cases/10 || quarter < cases/8 || crease < cases/40 || skipped > cases/4 ||
		tightest[closing.UnderFlap] < cases/50 || tightest[closing.BesideSpine] < cases/50 {
		t.Error("a lopsided sample")
	}
}

func TestClosingByGrid(t *testing.T) { closingByGrid(t, proptest.Cases(300)) }
