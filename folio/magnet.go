package folio

import (
	"iter"

	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// CareMagnet is the caution that goes with magnets.
const CareMagnet = "Magnets: small strong magnets are dangerous when swallowed (16 CFR 1262) and must not come loose: sink them in the board, cover them with wrap or liner, and keep them from children and from anyone with a pacemaker. If one is swallowed, get medical help at once. Local rules come first."

// Magnets are pairs of flat round magnets sunk in the boards, which hold the
// folio shut: at the fore edges of both covers; in a flap and the cover that it
// closes over; in both doors and the back beneath.
type Magnets struct {
	Diameter, Thickness units.Length
	// Pairs is how many pairs hold an edge; 0 means 2.
	Pairs int
	// Inset is how far a magnet's rim lies from the board's edge; 0 means 1/4
	// in (common practice, no published source).
	Inset units.Length
}

// A MagnetPlace is where one magnet is sunk: its middle on the row as it lies
// open, and from which side.
type MagnetPlace struct {
	Panel   Role
	Outside bool
	Middle  units.Point
	Pair    int // counted from 0; both magnets of a pair have the same
}

// A Fastening is where magnets go.
type Fastening struct {
	magnets  Magnets
	places   []MagnetPlace
	apart    units.Working
	warnings []check.Warning
	plan     *Plan
}

// Places walks the places, pair by pair from the head.
func (f Fastening) Places() iter.Seq[MagnetPlace] { return walk(f.places) }

// Apart returns what lies between the magnets of a pair when the folio is
// closed.
func (f Fastening) Apart() units.Working { return f.apart }

// Warnings walks what is unwise.
func (f Fastening) Warnings() iter.Seq[check.Warning] { return walk(f.warnings) }

// Care returns [CareMagnet]: a guide that tells of magnets carries it.
func (f Fastening) Care() string { return CareMagnet }

// Steps walks the steps for sinking the magnets, to be done when the boards are
// cut and before they are covered. They are numbered from 1.
func (f Fastening) Steps(format units.Format) iter.Seq[Step] {
	return func(yield func(Step) bool) {
		t := teller{p: f.plan, f: format, yield: yield}
		r := f.plan.spec.Rulers.Main
		for _, place := range f.places {
			i := f.plan.index(place.Panel)
			side := "inside"
			if place.Outside {
				side = "outside"
			}
			t.say("Sink a magnet ").len(r, f.magnets.Diameter).say(" across from the ").say(side).say(" of the ").say(place.Panel.String()).
				say(", its middle ").len(r, place.Middle.X-f.plan.panels[i].x).say(" from the board's left edge as the inside lies before you and ").
				len(r, place.Middle.Y).say(" from the head; a hole ").len(r, f.magnets.Thickness).say(" deep.")
			t.done(TaskPrepare, "case", CareMagnet+" "+CareBlade)
		}
		t.say("Before the glue sets, try each pair: both magnets must draw each other, not push.")
		t.done(TaskCheck, "case", CareMagnet)
	}
}

// Fasten returns where the magnets go. They are spread evenly along the height,
// each pair meeting when the folio is closed. The error is a *[check.Error]:
// for magnets thicker than the board, too large for the panel or for each
// other, or a folio that does not shut.
func (p *Plan) Fasten(m Magnets) (Fastening, error) {
	var bad check.List
	bad.Length("magnets.diameter", m.Diameter)
	bad.Length("magnets.thickness", m.Thickness)
	bad.Allowance("magnets.inset", m.Inset)
	if m.Pairs < 0 || m.Pairs > 100 {
		bad.Malformed("magnets.pairs", check.OutOfRange, count(m.Pairs), "0 for the default of 2, or up to 100")
	}
	s, ok := p.hinged()
	if !ok {
		p.overallOr(&bad)
	}
	if err := bad.Err(); err != nil {
		return Fastening{}, err
	}
	if m.Pairs == 0 {
		m.Pairs = 2
	}
	m.Inset = orDefault(m.Inset, units.Inch/4)
	n, spec := p.Notation(), &p.spec
	if m.Thickness > spec.Board.Caliper {
		bad.Long("magnets.thickness", check.TooLarge, n, m.Thickness, spec.Board.Caliper, "to be sunk in the board")
	}
	// Evenly spread, the outer ones stand half a share from head and tail.
	share, _ := p.boards[0].height.Length().Scale(1, int64(m.Pairs), units.Down)
	if share < m.Diameter {
		bad.Long("magnets.diameter", check.TooLarge, n, m.Diameter, share, "for so many pairs one below the other")
	}

	f := Fastening{magnets: m, plan: p}
	var between units.Working
	at := func(role, on Role, outside bool, x units.Length) {
		// The mate lies where the magnet comes to lie when closed.
		mate := p.mirrored(units.Rect{Min: units.Point{X: x}, Max: units.Point{X: x}}, role).Min.X
		if on == LeftCover && role == Flap {
			mate = p.mirrored(units.Rect{Min: units.Point{X: mate}, Max: units.Point{X: mate}}, LeftCover).Min.X
		}
		half := m.Diameter.Half(units.Up)
		for _, side := range [...]struct {
			role Role
			x    units.Length
		}{{role, x}, {on, mate}} {
			i := p.index(side.role)
			if low, high := p.panels[i].x, p.panels[i].x+p.panelWidth(i); side.x-half < low || side.x+half > high {
				bad.Add(check.Violation{Path: "magnets.diameter", Code: OffPanel, Fault: check.Impossible,
					Got:  n.Text(m.Diameter) + " across, " + n.Text(m.Inset) + " from the edge",
					Want: "magnets that lie within the " + side.role.String() + ", which is " + n.Text(p.panelWidth(i)) + " wide"})
			}
		}
		for k := range m.Pairs {
			y, _ := p.boards[0].height.Length().Scale(int64(2*k+1), int64(2*m.Pairs), units.Nearest)
			pair := len(f.places) / 2
			f.places = append(f.places,
				MagnetPlace{role, false, units.Point{X: x, Y: y}, pair},
				MagnetPlace{on, outside, units.Point{X: mate, Y: y}, pair})
		}
	}
	from := m.Inset + m.Diameter.Half(units.Up)
	far := func(r Role) units.Length { i := p.index(r); return p.panels[i].x + p.panelWidth(i) - from }
	near := func(r Role) units.Length { return p.panels[p.index(r)].x + from }
	exact := n.Exact()
	liner, covering := spec.Liner.Caliper, spec.Covering.Caliper
	closed := s.closed()
	switch spec.Form {
	case ForeEdgeFlap:
		at(Flap, LeftCover, true, far(Flap))
		between = units.Sum("between the magnets", exact, units.Nearest, units.T("room under the flap", closed.under.Length()),
			units.T("liner caliper", liner), units.T("covering caliper", covering))
	case DoubleSpineGate:
		at(LeftDoor, Back, false, near(LeftDoor))
		at(RightDoor, Back, false, far(RightDoor))
	default:
		at(LeftCover, RightCover, false, near(LeftCover))
	}
	if spec.Form != ForeEdgeFlap {
		between = units.Sum("between the magnets", exact, units.Nearest, units.T("room between the covers", closed.between.Length()), units.N(2, "liner caliper", liner))
	}
	f.apart = between
	if err := bad.Err(); err != nil {
		return Fastening{}, err
	}
	if d := between.Length(); d > m.Thickness {
		f.warnings = append(f.warnings, check.Warning{Path: "magnets.thickness", Code: WarnMagnets, Got: d, Want: m.Thickness,
			Text: "the magnets of a pair stay " + n.Text(d) + " apart, more than they are thick, and hold little there (common practice, no published source); a flap brings them nearer"})
	}
	return f, nil
}
