package folio

import (
	"math"

	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Closed is the folio shut: its covers parallel, every hinge creased in the
// same way. All sizes are exact, to the nanometre; room is rounded down and
// outside sizes up where a bend makes them irrational.
//
// With a spine board S, a board caliper t, a liner and a covering, and a single
// crease at x from the spine board's edge in a gap g, turned by 90° (derived):
//
//	room between the liners  S + 2x − 2t − 2 × liner
//	outside thickness        S + 2x + 2 × covering
//	closed width             cover + (g − x) + 2 × covering
//	closed height            cover + 2 × covering
//
// In quarter style the strip's covering counts at the back of a spine, and both
// coverings at the faces and at head and tail, where one laps the other.
// Turn-ins lie under the liners and take from the room as what is fitted there
// does, see [Plan.Heights].
//
// With two creases, at both edges of the gap, the gap lies aslant: it adds
// g/√2 to the thickness instead of x and g/√2 to the width instead of g − x. A
// round bend adds 2g/π to each.
//
// Two covers with a soft spine turn by 180°. With two creases, each at x from
// its cover's edge, the back is flat: g − 2x takes the place of S + 2x, and the
// closed width is cover + x + 2 × covering. A round back is a half circle: 2g/π
// takes that place, and g/π that of x in the width.
type Closed struct {
	bend   Crease
	crease units.Length
	between,
	under,
	thickness, width, height units.Working
	flap bool
}

// Bend returns how the hinges bend; a single crease anywhere is
// [CreaseAtOffset].
func (c Closed) Bend() Crease { return c.bend }

// Crease returns how far the crease lies from the edge of the spine board, or
// of the cover beside a soft spine; it is 0 for a round bend.
func (c Closed) Crease() units.Length { return c.crease }

// Room returns the clear distance between the liners of the covers, or of back
// and doors. It may be negative.
func (c Closed) Room() units.Working { return c.between }

// UnderFlap returns the clear distance between the outside of the front cover
// and the liner of the flap, and whether there is a flap.
func (c Closed) UnderFlap() (units.Working, bool) { return c.under, c.flap }

// Thickness returns the thickness over the covering, without what sits on the
// outside of the covers.
func (c Closed) Thickness() units.Working { return c.thickness }

// Width returns the width over the covering.
func (c Closed) Width() units.Working { return c.width }

// Height returns the height over the covering.
func (c Closed) Height() units.Working { return c.height }

// Size returns width and height.
func (c Closed) Size() units.Size {
	return units.Size{W: c.width.Length(), H: c.height.Length()}
}

// A shut is the way in which the hinges of a plan are bent when it is shut.
type shut struct {
	p    *Plan
	bend Crease
	x    units.Length
	gap  units.Length // the narrowest one decides on room, the widest on width
	wide units.Length
}

// in returns what one hinge adds to the thickness beyond the spine board.
func (s shut) in(d units.Direction) units.Length {
	gap := s.gap
	if d == units.Up {
		gap = s.wide
	}
	switch s.bend {
	case CreaseTwo:
		return portion(gap, math.Sqrt2/2, d)
	case CreaseRound:
		return portion(gap, 2/math.Pi, d)
	}
	return s.x
}

// out returns what one hinge adds to the width beyond the cover board.
func (s shut) out(d units.Direction) units.Length {
	gap := s.gap
	if d == units.Up {
		gap = s.wide
	}
	switch {
	case s.soft() && s.bend == CreaseRound:
		return portion(gap, 1/math.Pi, d)
	case s.soft():
		return s.x
	case s.bend == CreaseTwo || s.bend == CreaseRound:
		return s.in(d)
	}
	return gap - s.x
}

const halfPi = math.Pi / 2

func portion(l units.Length, f float64, d units.Direction) units.Length {
	part, _ := l.Scale(scaled(f), trig, d)
	return part
}

func (s shut) soft() bool { return s.p.spec.Form == SoftSpine }

// span returns the distance between the wrong sides of the covering on the two
// covers.
func (s shut) span(d units.Direction) units.Length {
	gap := s.gap
	if d == units.Up {
		gap = s.wide
	}
	switch {
	case s.soft() && s.bend == CreaseRound:
		return portion(gap, 2/math.Pi, d)
	case s.soft():
		return gap - 2*s.x
	}
	return s.p.width(Spine1) + 2*s.in(d)
}

// room returns the clear distance between the liners.
func (s shut) room() units.Length {
	return s.span(units.Down) - 2*s.p.spec.Board.Caliper - 2*s.p.spec.Liner.Caliper
}

// flapRoom returns the clear distance between front cover and flap. Both hinges
// are creased alike, so it does not depend on how.
func (s shut) flapRoom() units.Length {
	spec := &s.p.spec
	return s.p.width(Spine2) - s.p.width(Spine1) - spec.Board.Caliper - spec.Liner.Caliper - s.p.outer()
}

// width returns the width of a board, measured if it was.
func (p *Plan) width(r Role) units.Length {
	if i := p.index(r); i >= 0 {
		return p.panelWidth(i)
	}
	return 0
}

// gapRange returns the narrowest and the widest gap. One that came out wider
// than planned adds no room, as what is measured is the whole cover and not the
// gap.
func (p *Plan) gapRange() (least, most units.Length) {
	for i := range p.gaps {
		g := p.gaps[i].Width()
		if tight := min(g, p.gaps[i].planned.Length()); i == 0 || tight < least {
			least = tight
		}
		most = max(most, g)
	}
	return least, most
}

// hinged returns how the Spec bends the hinges, and whether they turn far
// enough for the covers to lie parallel.
func (p *Plan) hinged() (shut, bool) {
	least, most := p.gapRange()
	s := shut{p: p, bend: p.spec.Hinge.Crease, gap: least, wide: most}
	angle := 90
	if s.soft() {
		angle = 180
	}
	offset := p.spec.Hinge.Offset
	need, ok := LeastGap(s.leaning(), angle, s.bend, min(offset, least-offset))
	switch s.bend {
	case CreaseAtOffset:
		s.x = offset
	case CreaseMidGap:
		s.x = least.Half(units.Down)
	}
	if s.bend == CreaseAtEdge || s.bend == CreaseMidGap {
		s.bend = CreaseAtOffset
	}
	return s, ok && least >= need
}

// leaning is what of a board leans into a hinge: at head and tail with the
// turn-ins, which a published gap does not count.
func (s shut) leaning() units.Length {
	thick := s.p.spec.thick()
	if s.p.spec.Hinge.Rule == HingeFixed {
		thick += s.p.spec.atHinge(s.p.wrap.quarter)
	}
	return thick
}

// furthest returns the hinges bent as they leave the most room that a single
// crease up to mid-gap can, and whether they turn that far at all. Beyond it
// the boards would meet: with a gap of less than 2t the crease must stay
// within g − t of the spine board. A soft spine leaves the most room with a
// flat back creased at the covers' edges.
func (p *Plan) furthest() (shut, bool) {
	least, most := p.gapRange()
	s := shut{p: p, bend: CreaseAtOffset, gap: least, wide: most}
	thick, turned := s.leaning(), p.spec.thick()+p.spec.atHinge(p.wrap.quarter)
	if s.soft() {
		s.bend = CreaseTwo
		return s, least >= 2*thick
	}
	s.x = max(0, min(least.Half(units.Down), least-turned))
	return s, least >= thick
}

// Closed returns the folio shut with its hinges creased as Spec.Hinge says, and
// whether it shuts: false where a gap is too narrow for the covers to lie
// parallel, as with an angle below 90°, or 180° for a soft spine.
func (p *Plan) Closed() (Closed, bool) {
	s, ok := p.hinged()
	if !ok {
		return Closed{}, false
	}
	return s.closed(), true
}

// ClosedRange returns the folio shut in the two ways between which a hand-made
// hinge lies: creased at the spine board's edge, which leaves the least room,
// and as far from it as mid-gap or the boards allow, which leaves the most. For
// a soft spine they are a round back and a flat one. It reports false where the
// hinges do not turn that far.
func (p *Plan) ClosedRange() (least, most Closed, ok bool) {
	far, ok := p.furthest()
	if !ok {
		return Closed{}, Closed{}, false
	}
	near := far
	if near.soft() {
		near.bend = CreaseRound
	}
	near.x = 0
	return near.closed(), far.closed(), true
}

// ClosedAt returns the folio shut with each hinge creased once, at the given
// distance from the edge of the spine board; with a soft spine, creased twice,
// at that distance from each cover. The error is a *[check.Error]: the crease
// must lie between 0 and mid-gap, and so that the boards do not meet.
func (p *Plan) ClosedAt(crease units.Length) (Closed, error) {
	var bad check.List
	if !bad.Allowance("crease", crease) {
		return Closed{}, bad.Err()
	}
	s, ok := p.furthest()
	limit := s.x
	thick := p.spec.thick() + p.spec.atHinge(p.wrap.quarter)
	if s.soft() {
		limit = (s.gap - 2*thick).Half(units.Down)
	}
	switch {
	case !ok:
		short(&bad, p.spec.gapPath(), GapNarrow, p.Notation(), s.gap, thick, "for the covers to lie parallel")
	case crease > limit:
		bad.Long("crease", check.TooLarge, p.Notation(), crease, limit, "from the board's edge")
	}
	if err := bad.Err(); err != nil {
		return Closed{}, err
	}
	s.x = crease
	return s.closed(), nil
}

// closed writes the sizes down with their workings.
func (s shut) closed() Closed {
	var g units.Ledger
	return s.closedIn(&g)
}

// closedIn keeps the terms of the workings in a ledger of the caller's.
func (s shut) closedIn(g *units.Ledger) Closed {
	p := s.p
	spec := &p.spec
	exact := p.Notation().Exact()
	boards := units.N(-2, "board caliper", spec.Board.Caliper)
	liners := units.N(-2, "liner caliper", spec.Liner.Caliper)
	covers := p.overFaces()
	c := Closed{bend: s.bend, crease: s.x, flap: spec.Form == ForeEdgeFlap}

	across := func(d units.Direction, spine units.Term) []units.Term {
		switch {
		case s.soft() && s.bend == CreaseRound:
			return []units.Term{units.T("width of the round back", s.span(d))}
		case s.soft():
			return []units.Term{units.T("gap", s.gapOf(d)), units.N(-2, "crease", s.x)}
		case s.bend == CreaseTwo:
			return []units.Term{spine, units.N(2, "gap aslant", s.in(d))}
		case s.bend == CreaseRound:
			return []units.Term{spine, units.N(2, "radius of the bend", s.in(d))}
		}
		return []units.Term{spine, units.N(2, "crease", s.x)}
	}
	spine := units.T("spine", p.width(Spine1))
	c.between = g.Sum("room between the covers", exact, units.Nearest, append(across(units.Down, spine), boards, liners)...)
	outer := spine
	if c.flap {
		outer = units.T("second spine", p.width(Spine2))
		c.under = g.Sum("room under the flap", exact, units.Nearest, outer, units.N(-1, "spine", p.width(Spine1)),
			units.N(-1, "board caliper", spec.Board.Caliper), units.N(-1, "covering caliper", p.outer()),
			units.N(-1, "liner caliper", spec.Liner.Caliper))
	}
	c.thickness = g.Sum("closed thickness", exact, units.Nearest, append(across(units.Up, outer), covers)...)

	sides := p.atSides(spec.Form == ForeEdgeFlap || spec.Form == DoubleSpineGate)
	hinges, cover := 1, units.T("cover", max(p.width(LeftCover), p.width(RightCover)))
	switch spec.Form {
	case ForeEdgeFlap:
		hinges, cover = 2, units.T("cover", p.width(RightCover))
	case DoubleSpineGate:
		hinges, cover = 2, units.T("back", p.width(Back))
	}
	along := s.out(units.Up)
	if f := p.width(Flap); f > cover.Length+along {
		hinges, cover = 1, units.T("flap", f) // it stands past the spine
		sides = p.atSides(false)
	}
	terms := []units.Term{cover}
	switch {
	case s.soft() && s.bend == CreaseRound:
		terms = append(terms, units.T("depth of the round back", along))
	case s.soft():
		terms = append(terms, units.T("crease", along))
	case s.bend == CreaseTwo:
		terms = append(terms, units.N(hinges, "gap aslant", along))
	case s.bend == CreaseRound:
		terms = append(terms, units.N(hinges, "radius of the bend", along))
	default:
		terms = append(terms, units.N(hinges, "gap", s.wide), units.N(-hinges, "crease", s.x))
	}
	c.width = g.Sum("closed width", exact, units.Nearest, append(terms, used(sides[:])...)...)
	height := "cover height"
	if p.row().H != p.boards[0].height.Length() {
		height = "cover height as measured"
	}
	c.height = g.Sum("closed height", exact, units.Nearest, units.T(height, p.row().H), covers)
	return c
}

func (s shut) gapOf(d units.Direction) units.Length {
	if d == units.Up {
		return s.wide
	}
	return s.gap
}

// overFaces is what the covering adds to both faces, and to head and tail, of the
// closed folio: in quarter style where a side paper laps a strip.
func (p *Plan) overFaces() units.Term {
	if p.wrap.quarter {
		return units.N(2, "covering where one laps the other", p.spec.overEdge(true))
	}
	return units.N(2, "covering caliper", p.spec.Covering.Caliper)
}

// atSides is what the covering adds to the width: a strip goes round the back of
// each spine, side papers go round fore edges.
func (p *Plan) atSides(backs bool) [2]units.Term {
	switch {
	case !p.wrap.quarter:
		return [2]units.Term{units.N(2, "covering caliper", p.spec.Covering.Caliper)}
	case backs:
		return [2]units.Term{units.N(2, "spine covering caliper", p.spec.SpineCovering.Caliper)}
	}
	return [2]units.Term{units.T("spine covering caliper", p.spec.SpineCovering.Caliper), units.T("covering caliper", p.spec.Covering.Caliper)}
}

// SpineFor returns the narrowest spine board on the ruler that leaves room for
// contents of the given thickness between two covers whose hinges crease at the
// given distance from it, rounded up: contents + 2 × (board + liner) − 2 ×
// crease. With the crease at the board's edge and no liner it is Johnson's rule
// (A. W. Johnson, A Joint Venture, Skin Deep 15, 2003: block plus both
// boards). Contents include the ease.
func SpineFor(contents, board, liner, crease units.Length, r units.Ruler) units.Working {
	return units.Sum("spine", r, units.Up, units.T("contents", contents), units.N(2, "board caliper", board),
		units.N(2, "liner caliper", liner), units.N(-2, "crease", crease))
}

// ContentsFor returns the thickness of what goes between two covers with the
// given spine board, rounded down on the ruler; it is what [SpineFor] turns
// round.
func ContentsFor(spine, board, liner, crease units.Length, r units.Ruler) units.Working {
	return units.Sum("contents", r, units.Down, units.T("spine", spine), units.N(-2, "board caliper", board),
		units.N(-2, "liner caliper", liner), units.N(2, "crease", crease))
}
