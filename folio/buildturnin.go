package folio

import (
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

func (b *builder) noSheet(path string, s stock.Stock, need units.Size, what, else_ string) {
	n := b.notation()
	var best units.Size
	var missing units.Length
	lies(&s, b.spec.Grain, func(l lie) bool {
		short := max(need.W-l.size.W, need.H-l.size.H)
		if best == (units.Size{}) || short < missing {
			best, missing = l.size, short
		}
		return true
	})
	got := "at most " + sizeText(n, best)
	if best == (units.Size{}) {
		got, what = "no sheet whose grain lies right", what+", grain along the height"
	}
	b.tooSmall(path, "", got, "a sheet of at least "+n.BoundSize(need, units.Up)+" for "+what+else_)
}

// axis lays the boards on the wrap along one direction: the blank first, then
// the margins that it leaves.
func (b *builder) axis(label, nearLabel, farLabel, openLabel string, open, sheet units.Length) Extent {
	s := b.spec
	r := s.Rulers.Wrap
	total, limit := marginTotal(b.margin, open, sheet, r)
	a := Extent{open: open, limit: limit}
	if limit == rule.LimitSheet {
		a.blank = b.exactly(label, units.T("sheet", sheet))
	} else {
		a.blank = b.sum(label, r, units.Up, units.T(openLabel, open), units.N(2, "ideal margin", b.margin.Ideal))
	}
	blank := units.T(label, a.blank.Length())
	on, d := marginSplit(b.margin, total, r)
	if on == 0 {
		on = b.exact()
	}
	a.near = b.share(nearLabel, 2, on, d, blank, units.N(-1, openLabel, open))
	a.far = b.exactly(farLabel, blank, units.N(-1, openLabel, open), units.N(-1, nearLabel, a.near.Length()))
	if m := a.Smaller(); m < s.Margin.Least {
		n := b.notation()
		b.warn(check.Warning{Path: "margin.least", Code: WarnMargin, Got: m, Want: s.Margin.Least,
			Text: "the " + nearLabel + " is " + n.Text(m) + ", less than the usual least of " + n.Text(s.Margin.Least)})
	}
	return a
}

// turnIns checks what is turned in, after the liner is known: that it goes
// round the edge, that the liner laps it and that opposite ones do not meet. Of a
// wrap in one piece a row that came out longer than planned has turned in that much
// less. Without a liner there is nothing to lap.
func (b *builder) turnIns(lined bool) {
	s, p := b.spec, b.plan
	row := p.row()
	rest := units.RectAt(units.Point{}, row).Grow(-s.Lining.Inset)
	for i, l := range p.liner {
		if i == 0 {
			rest = l.rect
		}
		rest = rest.Union(l.rect)
	}
	across := lap{label: "turn-in lap at the sides", path: "measured.width", axis: &p.wrap.w, caliper: s.Covering.Caliper, edge: min(p.edge.left, p.edge.right),
		inset: max(rest.Min.X, row.W-rest.Max.X), open: b.openWidth(), more: row.W - b.openWidth()}
	along := lap{label: "turn-in lap at head and tail", path: "measured.height", axis: &p.wrap.h, caliper: p.edgeAlong(), edge: p.edge.ends,
		inset: max(rest.Min.Y, row.H-rest.Max.Y), open: b.openHeight(), more: row.H - b.openHeight()}
	if p.wrap.quarter {
		across.more = 0 // a side paper keeps its place on its board
	}
	p.lapW, p.lapH = b.note(b.lap(across)), b.note(b.lap(along))
	if p.measured == nil {
		// It must still lap with the gaps as wide as they are expected.
		across.more = times(s.Placing, len(p.gaps))
		across.inset = max(across.inset, b.expected)
	}
	if p.measured != nil {
		b.warnLap(across)
		b.warnLap(along)
	} else {
		b.checkTurnIns(across, along)
	}
	if lined {
		b.checkLaps(across, along)
	}
}

// A lap is how a liner lies over two opposite turn-ins.
type lap struct {
	label   string
	path    string // of what was measured
	axis    *Extent
	caliper units.Length // of the covering there
	edge    units.Length // of the covering past the boards, as measured
	inset   units.Length // from the boards' edge to the liner's
	open    units.Length // as planned
	more    units.Length // how much longer the row came out
}

// turned is what is left to turn in, at the smaller margin.
func (l lap) turned() units.Length { return l.axis.Smaller() - l.more.Half(units.Up) }

// lap works out how far the liner lies over a turn-in.
func (b *builder) lap(l lap) units.Working {
	terms := [5]units.Term{units.T("margin", l.axis.Smaller()), units.N(-1, "board caliper", b.spec.Board.Caliper),
		units.N(-1, "covering caliper", l.caliper), units.N(-1, "from the boards' edge to the liner's", l.inset)}
	if l.more != 0 {
		terms[4] = units.N(-1, "half of what the row is longer", l.more.Half(units.Up))
	}
	return exactly(&b.ledger, l.label, b.notation(), used(terms[:])...)
}

// warnLap warns of a turn-in that came out smaller than is tolerated: what is
// made is a fact.
func (b *builder) warnLap(l lap) {
	least, turned, n := b.spec.Margin.Tolerated, l.turned(), b.notation()
	if turned < least && l.more > 0 {
		b.warn(check.Warning{Path: l.path, Code: MarginSmall, Got: turned, Want: least,
			Text: "a cover of this size leaves " + n.Bound(turned, units.Down) + " of the wrap to turn in, less than the tolerated " + n.Text(least)})
	}
}

// checkTurnIns checks that the turn-ins go round the boards' edges and do not
// meet inside.
func (b *builder) checkTurnIns(laps ...lap) {
	s, n, r := b.spec, b.notation(), b.spec.Rulers.Wrap
	var least units.Length // of the ideal margin
	most := units.Longest
	for _, l := range laps {
		edge, in := s.Board.Caliper+l.caliper, l.turned()
		switch {
		case in <= edge && l.axis.limit == rule.LimitSheet:
			b.bad.Impossible("covering.sheets", TurnInNarrow, "a sheet that leaves "+n.Bound(in, units.Down)+" to turn in", "a larger sheet: more than "+n.Bound(edge, units.Up)+" goes round the board's edge")
		case in <= edge:
			least = max(least, edge+units.Shortest+l.more.Half(units.Up))
		case l.axis.near.Length()+l.axis.far.Length()-2*edge >= l.open:
			// What does not come out on the ruler is at the far side.
			slack := r.Up(l.open) - l.open
			most = min(most, r.Down((l.open-slack-1).Half(units.Down)+edge))
		}
	}
	if least > 0 {
		b.bad.Short("margin.ideal", TurnInNarrow, n, s.Margin.Ideal, least, "to go round the board's edge")
	}
	switch {
	case most == units.Longest:
	case most < units.Shortest:
		b.bad.Impossible("cover", TurnInsMeet, sizeText(n, b.openSize())+" of open cover", "a larger cover, or opposite turn-ins meet")
	default:
		b.bad.Long("margin.ideal", TurnInsMeet, n, s.Margin.Ideal, most, "or opposite turn-ins meet")
	}
}

// checkLaps checks that the liner reaches over the turn-ins.
func (b *builder) checkLaps(laps ...lap) {
	s, n := b.spec, b.notation()
	most, short := units.Longest, -units.Nanometre
	var got, inside units.Length
	for _, l := range laps {
		in := l.turned() - s.Board.Caliper - l.caliper
		if in <= 0 {
			continue // told as a turn-in
		}
		// Rounded down on its ruler, the liner's edge lies up to half a step
		// further in than its inset.
		would := in + l.edge - s.Rulers.Liner.Step().Half(units.Up) - 1
		if most = min(most, would); l.inset-in > short {
			short, got, inside = l.inset-in, l.inset, in
		}
	}
	if short < 0 {
		return
	}
	v := check.Violation{Path: "lining.inset", Code: LapNone, Nature: check.Impossible,
		Got:  n.Text(got) + " as rounded, with a turn-in that ends " + n.Text(inside) + " from the edge",
		Want: "a wider margin, so that the liner laps the turn-in"}
	if most >= units.Shortest && most < s.Lining.Inset {
		v.Want = "at most " + n.Bound(most, units.Down) + ", so that the liner laps the turn-in, or a wider margin"
		v.Bound, v.Limit, v.By = check.AtMost, most, s.Lining.Inset-most
	}
	b.bad.Add(v)
}
