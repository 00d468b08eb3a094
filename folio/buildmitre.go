package folio

import (
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// mitres works out the four corner cuts. The reach along the board's extended
// edges, √2 times the distance, is what is rounded, upwards. The paper at the
// left and at the right is as wide as given, which no cut may leave.
func (b *builder) mitres(left, right units.Length) {
	s, p := &b.spec, b.plan
	distance := b.mitreDistance()
	d := distance.Length()
	edge := s.Board.Caliper + s.Covering.Caliper
	reach := b.sum("mitre reach", s.Rulers.Wrap, units.Up, units.T("diagonal of a square on the mitre distance", units.Diagonal(d, d, units.Up)))
	if exact := reach.Rounded().From; exact < edge {
		// d ≥ edge/√2, rounded up: the diagonal of a square with half the
		// edge for its side.
		half := edge.Half(units.Up)
		b.short(b.spec.mitrePath(), MitreClose, d, units.Diagonal(half, half, units.Up), "from the board's corner, or bare board shows")
	}
	for c := work.HeadLeft; c <= work.TailLeft; c++ {
		p.wrap.corners[c] = b.mitre(c, reach, edge)
	}
	b.checkMitres(reach.Length(), left, right)
}

// mitre works out one corner cut. The leg is what is measured, so it is put on
// the ruler, downwards: the cut then passes the corner no nearer than the rule
// says.
func (b *builder) mitre(c work.Corner, reach units.Working, edge units.Length) CornerCut {
	p := b.plan
	x, y := units.T("left margin", p.wrap.w.near.Length()), units.T("head margin", p.wrap.h.near.Length())
	right, tail := c == work.HeadRight || c == work.TailRight, c == work.TailRight || c == work.TailLeft
	if right {
		x = units.T("right margin", p.wrap.w.far.Length())
	}
	if tail {
		y = units.T("tail margin", p.wrap.h.far.Length())
	}
	leg := b.ledger.Sum("mitre leg", b.spec.Rulers.Wrap, units.Down, x, y, units.N(-1, "mitre reach", reach.Length()))
	if c == work.HeadLeft || leg.Length() != p.wrap.corners[0].leg.Length() {
		p.workings = append(p.workings, leg)
	}
	l := leg.Length()
	if !leg.Rounded().Exact() {
		reach = b.ledger.Sum("mitre reach as cut", b.exact(), units.Nearest, x, y, units.N(-1, "mitre leg", l))
	}
	cut := Cut{units.Point{X: l}, units.Point{Y: l}}
	size := p.wrap.Size()
	if right {
		cut.From.X, cut.To.X = size.W-l, size.W
	}
	if tail {
		cut.From.Y, cut.To.Y = size.H, size.H-l
	}
	over := max(reach.Length()-edge, 0)
	return CornerCut{corner: c, cut: cut, leg: leg, reach: reach, edge: edge, overlap: units.Diagonal(over, over, units.Down)}
}

// checkMitres checks that there is something to cut off, and that the cuts meet
// the edges of the paper they belong to, each on its own half of the height.
func (b *builder) checkMitres(reach, left, right units.Length) {
	s, w := &b.spec, &b.plan.wrap
	sides, ends := w.w.Smaller(), w.h.Smaller()
	r := s.Rulers.Wrap
	least := w.corners[0].leg.Length()
	for _, c := range w.corners {
		least = min(least, c.leg.Length())
	}
	if least <= 0 {
		// The reach must leave a step of the ruler; d ≤ reach/√2.
		half := (r.Down(sides+ends) - r.Step()).Half(units.Down)
		b.long(s.mitrePath(), check.TooLarge, b.plan.wrap.corners[0].reach.Length(), max(units.Diagonal(half, half, units.Down), 0),
			"from the board's corner, or there is nothing to cut")
		return
	}
	// A leg of both margins less the reach stays on its half of the height when
	// the margin at the side is at most half the boards' height and the reach;
	// and likewise on the paper when the margin at head or tail is at most what
	// the paper covers of the boards and the reach (derived).
	wide, high := max(w.w.near.Length(), w.w.far.Length()), max(w.h.near.Length(), w.h.far.Length())
	mostWide := b.openHeight().Half(units.Down) + reach
	mostHigh := min(left-w.w.near.Length(), right-w.w.far.Length()) + reach
	if wide <= mostWide && high <= mostHigh {
		return
	}
	limit, got := units.Longest, s.Margin.Ideal
	if wide > mostWide {
		limit = mostWide - (r.Up(b.openWidth()) - b.openWidth())
	}
	what := "or the mitres leave the wrap"
	if high > mostHigh {
		limit = min(limit, mostHigh-(r.Up(b.openHeight())-b.openHeight()))
		if w.quarter {
			what = "or the mitres leave the side papers, or less reach of the spine strip"
		}
	}
	b.long("margin.ideal", MitresMeet, got, r.Down(limit), what)
}

// mitreDistance is the rule's distance from the board's corner to the cut.
func (b *builder) mitreDistance() units.Working {
	t, label := b.spec.Board.Caliper, "mitre distance"
	switch b.spec.Mitre.Rule {
	case MitreOneCaliper:
		return b.sum(label, b.exact(), units.Up, units.T("board caliper", t))
	case MitreEighth:
		return b.sum(label, b.exact(), units.Up, units.T("as published", units.Inch/8))
	case MitreFixed:
		return b.sum(label, b.exact(), units.Up, units.T("as given", b.spec.Mitre.Distance))
	}
	return b.share(label, 2, b.exact(), units.Up, units.N(3, "board caliper", t))
}

func (s Spec) mitrePath() string {
	if s.Mitre.Rule == MitreFixed {
		return "mitre.distance"
	}
	return "mitre.rule"
}
