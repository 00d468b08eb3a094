package folio

import (
	"iter"
	"slices"

	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A MagnetPlace is where one magnet is sunk: its middle on the row as it lies
// open, and from which side.
type MagnetPlace struct {
	panel   boards.Role
	outside bool
	middle  units.Point
	pair    int
}

// Panel returns the board that the magnet is sunk into.
func (m MagnetPlace) Panel() boards.Role { return m.panel }

// Outside reports whether it is sunk from the board's outside.
func (m MagnetPlace) Outside() bool { return m.outside }

// Middle returns its middle on the row, seen from inside.
func (m MagnetPlace) Middle() units.Point { return m.middle }

// Pair returns which pair it belongs to, counted from 0 at the head; both magnets
// of a pair have the same.
func (m MagnetPlace) Pair() int { return m.pair }

// A Fastening is where magnets go.
type Fastening struct {
	magnets closing.Magnets
	places  []MagnetPlace
	apart   units.Working
}

// Places walks the places, pair by pair from the head.
func (f Fastening) Places() iter.Seq[MagnetPlace] { return walk(f.places) }

// Apart returns what lies between the magnets of a pair when the folio is closed,
// where it is most: a row may close at both ends, over spines of two widths.
func (f Fastening) Apart() units.Working { return f.apart }

// Magnets returns where the magnets go and whether there are any.
func (p *Plan) Magnets() (Fastening, bool) {
	if p.fastening == nil {
		return Fastening{}, false
	}
	return *p.fastening, true
}

// magnets works out where the magnets go. They are spread evenly along the
// height, each pair meeting when the folio is closed.
func (b *builder) magnets() {
	p, bad := b.plan, &b.bad
	m := b.spec.Magnets
	if !m.Given() {
		return
	}
	s, ok := p.hinged()
	if !ok {
		bad.Under("", p.Shuts())
		return
	}
	n, spec := p.Notation(), &p.spec
	if m.Thickness > spec.Board.Caliper {
		bad.Long("magnets.thickness", check.TooLarge, n, m.Thickness, spec.Board.Caliper, "to be sunk in the board")
	}
	// Evenly spread, the outer ones stand half a share from head and tail.
	share, _ := p.boards[0].height.Length().Scale(1, int64(m.Pairs), units.Down)
	if share < m.Diameter {
		bad.Long("magnets.diameter", check.TooLarge, n, m.Diameter, share, "for so many pairs one below the other")
	}

	f := Fastening{magnets: m}
	at := func(board, under int, x units.Length) {
		// The mate lies where the magnet comes to lie when closed.
		place := units.Rect{Min: units.Point{X: x}, Max: units.Point{X: x}}
		mate := p.onto(p.onto(place, board, false), under, true).Min.X
		role, on := p.boards[p.folded.inRow(board)].role, p.boards[p.folded.inRow(under)].role
		half := m.Diameter.Half(units.Up)
		for _, side := range [...]struct {
			role boards.Role
			x    units.Length
		}{{role, x}, {on, mate}} {
			i := p.index(side.role)
			if low, high := p.boards[i].rect.Min.X, p.boards[i].rect.Min.X+p.panelWidth(i); side.x-half < low || side.x+half > high {
				bad.Add(check.Violation{Path: "magnets.diameter", Code: OffPanel, Nature: check.Impossible,
					Got:  n.Text(m.Diameter) + " across, " + n.Text(m.Inset) + " from the edge",
					Want: "magnets that lie within the " + side.role.String() + ", which is " + n.Text(p.panelWidth(i)) + " wide"})
			}
		}
		for k := range m.Pairs {
			y, _ := p.boards[0].height.Length().Scale(int64(2*k+1), int64(2*m.Pairs), units.Nearest)
			if r := spec.Rulers.Main; share >= m.Diameter+r.Step() { // so that none is moved over an edge or on to another
				y = r.Nearest(y)
			}
			pair := len(f.places) / 2
			f.places = append(f.places,
				MagnetPlace{role, p.folded.up(board), units.Point{X: x, Y: y}, pair},
				MagnetPlace{on, !p.folded.up(under), units.Point{X: mate, Y: y}, pair})
		}
	}
	from := m.Inset + m.Diameter.Half(units.Up)
	closers := p.folded.closers()
	if len(closers) == 0 {
		bad.Impossible("magnets", OffPanel, "no board at an end of the row that closes over another one with nothing over itself",
			"no magnets, or a row that ends in such a board")
		return
	}
	for _, pair := range closers {
		edge := p.boards[p.folded.inRow(pair.high)].rect.Min.X + from
		if pair.high > 0 {
			edge = p.boards[p.folded.inRow(pair.high)].rect.Max.X - from
		}
		at(pair.high, pair.low, edge)
	}
	f.apart = s.magnetsApart()
	p.fastening = &f
	b.warnApart()
}

// warnApart warns of magnets that hold little.
func (b *builder) warnApart() {
	n, m := b.notation(), b.spec.Magnets
	f := b.plan.fastening
	if d := f.apart.Length(); d > m.Thickness {
		text := "the magnets of a pair stay " + n.Bound(d, units.Up) + " apart, more than they are thick, and hold little there (common practice, no published source)"
		if !f.places[1].outside { // else a flap it is
			text += "; a flap brings them nearer"
		}
		b.warn(check.Warning{Path: "magnets.thickness", Code: WarnMagnets, Got: d, Want: m.Thickness, Text: text})
	}
}

// closers returns the boards at the ends of the row that close the folio, each with
// the highest that it comes to lie on: none where others lie over both ends.
func (f *folding) closers() []layer {
	var out []layer
	for _, k := range [...]int{0, f.n - 1} {
		if k == f.main || f.near[k] != 0 {
			continue
		}
		on := -1
		for low := range f.n {
			if f.near[low].has(k) && (on < 0 || f.rank[low] > f.rank[on]) {
				on = low
			}
		}
		if on >= 0 { // else only hinges lie under it
			out = append(out, layer{on, k})
		}
	}
	return out
}

// magnetsApart returns how far the magnets of a pair stay apart at most.
func (s *shut) magnetsApart() (most units.Working) {
	for i, pair := range s.p.folded.closers() {
		if apart := s.apart(pair); i == 0 || apart.Length() > most.Length() {
			most = apart
		}
	}
	return most
}

// apart returns how far the magnets stay apart where a board closes over another one.
func (s *shut) apart(pair layer) units.Working {
	p, f := s.p, &s.p.folded
	spec := &p.spec
	var g units.Ledger
	m := meet{kind: faces(f.up(pair.low), !f.up(pair.high)), low: pair.low, high: pair.high}
	room := s.roomOf(&m)
	switch m.kind {
	case closing.UnderFlap:
		return exactly(&g, "between the magnets", p.Notation(), units.T("room under the flap", room),
			units.T("liner caliper", spec.Liner.Caliper), units.T("covering caliper", spec.Covering.Caliper))
	case closing.BetweenOutsides:
		return exactly(&g, "between the magnets", p.Notation(), units.T("room between the outsides", room), units.N(2, "covering caliper", spec.Covering.Caliper))
	}
	return exactly(&g, "between the magnets", p.Notation(), units.T("room between the covers", room), units.N(2, "liner caliper", spec.Liner.Caliper))
}

// magnetsAsMade moves the magnets with the boards that they are sunk in.
func (b *builder) magnetsAsMade() {
	p := b.plan
	if b.planned.fastening == nil {
		return
	}
	f := *b.planned.fastening
	f.places = slices.Clone(f.places)
	for k := range f.places {
		m := &f.places[k]
		from, to := b.planned.boards[p.index(m.panel)].rect.Min, p.boards[p.index(m.panel)].rect.Min
		m.middle = m.middle.Plus(units.Point{X: to.X - from.X, Y: to.Y - from.Y})
	}
	if s, ok := p.hinged(); ok {
		f.apart = s.magnetsApart()
	}
	p.fastening = &f
	b.warnApart()
}
