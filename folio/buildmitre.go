package folio

import (
	"boardwrap.example/folio/rule"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// mitres works out the four corner cuts. The reach along the board's extended
// edges, √2 times the distance, is what is rounded, upwards. The narrower of the papers
// at the left and at the right is as wide as given, which no cut may leave.
func (b *builder) mitres(paper units.Length) {
	s, p := b.spec, b.plan
	distance := b.mitreDistance()
	d := distance.Length()
	edge := s.Board.Caliper + s.Covering.Caliper
	reach := b.sum("mitre reach", s.Rulers.Wrap, units.Up, units.T(diagonalTerm, units.Diagonal(d, d, units.Up)))
	if exact := reach.Rounded().From; exact < edge {
		// The reach, put up, is the edge if d > (edge − 1 nm)/√2, which is half the
		// diagonal of a square of that.
		less := edge - units.Nanometre
		short(&b.bad, s.mitrePath(), MitreClose, b.notation(), d, units.Diagonal(less, less, units.Down).Half(units.Down)+units.Nanometre, "from the board's corner, or bare board shows")
	}
	m := &p.wrap.mitres
	*m = mitring{
		left: p.wrap.w.near.Length(), right: p.wrap.w.far.Length(), head: p.wrap.h.near.Length(), tail: p.wrap.h.far.Length(),
		diagonal: reach.Rounded().From, reach: reach.Length(), edge: edge, ruler: s.Rulers.Wrap,
	}
	for c := score.HeadLeft; c <= score.TailLeft; c++ {
		x, y := m.margins(c)
		m.legs[c] = m.ruler.Down(x.Length + y.Length - m.reach)
		if c == score.HeadLeft || m.legs[c] != m.legs[score.HeadLeft] {
			b.note(m.leg(c, &b.ledger))
		}
	}
	b.checkMitres(paper)
}

// checkMitres checks that there is something to cut off, and that the cuts meet
// the edges of the paper they belong to, each on its own half of the height.
func (b *builder) checkMitres(paper units.Length) {
	s, w := b.spec, &b.plan.wrap
	sides, ends := w.w.Smaller(), w.h.Smaller()
	r := s.Rulers.Wrap
	m := &w.mitres
	reach := m.reach
	if min(m.legs[0], m.legs[1], m.legs[2], m.legs[3]) <= 0 {
		// The reach must leave a step of the ruler; d ≤ reach/√2.
		side := max(r.Down(sides+ends)-r.Step(), 0)
		most := units.Diagonal(side, side, units.Down).Half(units.Down)
		if most < units.Shortest {
			b.bad.Impossible(s.mitrePath(), check.TooLarge, b.notation().Text(reach)+" of reach", "wider margins, or there is nothing to cut")
			return
		}
		long(&b.bad, s.mitrePath(), check.TooLarge, b.notation(), max(s.Mitre.Distance, most+1), most, "from the board's corner, or there is nothing to cut")
		return
	}
	// A leg of both margins less the reach stays on its half of the height when
	// the margin at the side is at most half the boards' height and the reach;
	// and likewise on the paper when the margin at head or tail is at most what
	// the paper covers of the boards and the reach (derived).
	wide, high := max(w.w.near.Length(), w.w.far.Length()), max(w.h.near.Length(), w.h.far.Length())
	mostWide := b.openHeight().Half(units.Down) + reach
	mostHigh := paper - wide + reach
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
	if limit = r.Down(limit); limit < units.Shortest {
		b.bad.Impossible("cover", MitresMeet, sizeText(b.notation(), b.openSize())+" of open cover", "a larger cover, "+what)
		return
	}
	b.bad.Long("margin.ideal", MitresMeet, b.notation(), got, limit, what)
}

// mitreDistance is the rule's distance from the board's corner to the cut.
func (b *builder) mitreDistance() *units.Working {
	t, label := b.spec.Board.Caliper, "mitre distance"
	switch b.spec.Mitre.Rule {
	case rule.MitreOneCaliper:
		return b.exactly(label, units.T("board caliper", t))
	case rule.MitreEighth:
		return b.exactly(label, units.T("as published", units.Inch/8))
	case rule.MitreFixed:
		return b.exactly(label, units.T("as given", b.spec.Mitre.Distance))
	}
	return b.share(label, 2, b.exact(), units.Up, units.N(3, "board caliper", t))
}

func (s *Spec) mitrePath() string {
	if s.Mitre.Rule == rule.MitreFixed {
		return "mitre.distance"
	}
	return "mitre.rule"
}
