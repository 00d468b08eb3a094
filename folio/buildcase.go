package folio

import (
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// row works out the boards and the gaps between them and reports whether they
// make a row.
func (b *builder) row() bool {
	s, p := &b.spec, b.plan
	r := s.Rulers
	t := s.Board.Caliper

	coverW, coverH := b.coverSize()
	if coverW.Length() <= 0 {
		b.bad.Short("block.setback", TooNarrow, b.notation(), coverW.Rounded().From, units.Shortest, "of board's width left")
		return false
	}
	roles := s.Form.Roles()
	p.boards = make([]Board, 0, len(roles))
	for _, role := range roles {
		p.boards = append(p.boards, Board{role: role, width: coverW, height: coverH})
	}
	var spine units.Working
	if s.Form != SoftSpine {
		terms := s.spineTerms()
		spine = b.sum("spine width", r.Board, units.Up, used(terms[:])...)
		if spine.Length() < units.Shortest {
			b.bad.Short("spine.width", check.TooSmall, b.notation(), spine.Rounded().From, units.Shortest, "")
			return false
		}
	}
	for i := range p.boards {
		bd := &p.boards[i]
		switch bd.role {
		case Spine1:
			bd.width = spine
		case Spine2:
			bd.width = spine
			if s.Form == ForeEdgeFlap {
				// The flap closes over the front cover, so its spine goes
				// round that cover, its covering and the flap's own liner as
				// well.
				bd.width = b.sum("second spine width", r.Board, units.Up,
					units.T("spine", spine.Length()), units.T("front board caliper", t), units.T("covering caliper", s.Covering.Caliper),
					units.T("liner caliper", s.Liner.Caliper), units.T("under the flap", s.Closing.UnderFlap))
			}
		case Flap:
			if s.FlapWidth != 0 {
				bd.width = b.sum("flap width", r.Board, units.Up, units.T("as given", s.FlapWidth))
			} else {
				bd.width = b.share("flap width", 2, r.Board, units.Down, units.T("cover width", coverW.Length()))
			}
		case LeftDoor, RightDoor:
			bd.width = b.share("door width", 2, r.Board, units.Down,
				units.T("back width", coverW.Length()), units.N(-1, "gap between the doors", s.DoorGap))
		}
		if bd.width.Length() < units.Shortest {
			b.bad.Short(bd.path(), check.TooSmall, b.notation(), bd.width.Rounded().From, units.Shortest, "of board's width")
			return false
		}
	}
	b.hinges()

	var x units.Length
	for i := range p.boards {
		p.boards[i].x = x
		x += p.boards[i].width.Length()
		if i < len(p.gaps) {
			p.gaps[i].x = x
			x += p.gaps[i].width.Length()
		}
	}
	if x > units.Longest {
		b.bad.Long("cover.w", check.TooLarge, b.notation(), x, units.Longest, "of open width")
		return false
	}
	for i := range p.boards {
		bd := p.boards[i]
		name := "cover board"
		switch {
		case bd.role.narrow():
			name = "spine board"
		case bd.role == Back:
			name = "back board"
		case bd.role == LeftDoor || bd.role == RightDoor:
			name = "door board"
		case bd.role == Flap:
			name = "flap board"
		}
		b.board(name, bd)
	}
	return true
}

// path is the field that decides a board's width.
func (b Board) path() string {
	switch b.role {
	case Spine1, Spine2:
		return "spine.width"
	case Flap:
		return "flapwidth"
	case LeftDoor, RightDoor:
		return "doorgap"
	}
	return "cover.w"
}

// board adds the piece of a board, or one more of an equal one.
func (b *builder) board(name string, bd Board) {
	for i := range b.plan.pieces {
		p := &b.plan.pieces[i]
		if p.name == name && p.width.Length() == bd.width.Length() {
			p.quantity++
			return
		}
	}
	b.piece(Piece{name: name, part: "case", stock: b.spec.Board.Name, width: bd.width, height: bd.height, quantity: 1})
}

// used cuts off the unused terms at the end of a fixed list.
func used(terms []units.Term) []units.Term {
	for len(terms) > 0 && terms[len(terms)-1] == (units.Term{}) {
		terms = terms[:len(terms)-1]
	}
	return terms
}

func (b *builder) share(label string, n int, r units.Ruler, d units.Direction, terms ...units.Term) units.Working {
	w := b.ledger.Share(label, n, r, d, terms...)
	b.plan.workings = append(b.plan.workings, w)
	return w
}

func (b *builder) coverSize() (w, h units.Working) {
	s := &b.spec
	r := s.Rulers.Board
	if s.Block.given() {
		return b.sum("cover width", r, units.Up, units.T("page", s.Block.Page.W), units.T("square", s.Block.Square), units.N(-1, "setback", s.Block.Setback)),
			b.sum("cover height", r, units.Up, units.T("page", s.Block.Page.H), units.N(2, "square", s.Block.Square))
	}
	return b.sum("cover width", r, units.Up, units.T("as given", s.Cover.W)),
		b.sum("cover height", r, units.Up, units.T("as given", s.Cover.H))
}

// hinges works out the gaps and checks that each closes.
func (b *builder) hinges() {
	s, p := &b.spec, b.plan
	t, liner := s.Board.Caliper, s.Liner.Caliper
	terms := s.Hinge.Rule.terms(t, liner, s.contents(), s.Hinge.Width)
	// The liner lies on the side to which the boards fold, so it counts into
	// their caliper; not so when it keeps off the hinge by a caliper or more
	// and the boards do not lean over each other (derived).
	thick, what := t+liner, "for board and liner"
	if s.Lining.Rule == LiningPanels && s.Lining.Inset >= t && s.Hinge.Angle <= 90 {
		thick, what = t, "for the boards"
	}
	width := b.sum("hinge gap", s.Rulers.Gap, units.Up, used(terms[:])...)
	g := width.Length()
	offset := s.Hinge.Offset
	if s.Hinge.Crease == CreaseAtOffset && offset > g {
		b.bad.Long("hinge.offset", check.TooLarge, b.notation(), offset, g, "the gap itself")
		return
	}
	least, closes := LeastGap(thick, s.Hinge.Angle, s.Hinge.Crease, min(offset, g-offset))
	if s.Form == SoftSpine && closes {
		least += s.contents()
	}
	switch {
	case !closes:
		b.bad.Impossible("hinge.angle", NeverCloses, count(s.Hinge.Angle)+" degrees about one crease", "an angle below 180, or CreaseTwo or CreaseRound")
	case g < least:
		b.bad.Short(b.spec.gapPath(), GapNarrow, b.notation(), g, s.Rulers.Gap.Up(least), what+" to close to "+count(s.Hinge.Angle)+" degrees, creased "+s.Hinge.Crease.String())
	}
	p.gaps = make([]Gap, len(p.boards)-1)
	for i := range p.gaps {
		p.gaps[i] = Gap{left: p.boards[i].role, right: p.boards[i+1].role, width: width, least: least, angle: s.Hinge.Angle}
	}
}

func (s Spec) gapPath() string {
	if s.Hinge.Rule == HingeFixed {
		return "hinge.width"
	}
	return "hinge.rule"
}

// open adds up the row.
func (b *builder) open() {
	s, p := &b.spec, b.plan
	var buf [10]units.Term
	terms := buf[:0]
	for i := range p.boards {
		terms = merge(terms, units.T(p.boards[i].role.String(), p.boards[i].width.Length()))
		if i < len(p.gaps) {
			terms = merge(terms, units.T("hinge gap", p.gaps[i].width.Length()))
		}
	}
	// The row is exact: boards and gaps are on their rulers already.
	p.openW = b.sum("open width", b.exact(), units.Nearest, terms...)
	p.openH = b.sum("open height", b.exact(), units.Nearest, units.T("cover height", p.boards[0].height.Length()))
	b.nomW, b.nomH = p.openW, p.openH
	c := s.Covering.Caliper
	p.madeW = b.sum("open width as made, estimate", b.exact(), units.Nearest, units.T("open width", p.openW.Length()),
		units.N(2, "covering caliper", c), units.N(len(p.gaps), "placing", s.Placing))
	p.madeH = b.sum("open height as made, estimate", b.exact(), units.Nearest, units.T("open height", p.openH.Length()),
		units.N(2, "covering caliper", c))
	p.panels = make([]panel, len(p.boards))
	p.insetH = s.Lining.Inset
	for i := range p.boards {
		p.panels[i] = panel{p.boards[i].x, p.boards[i].width.Length(), s.Lining.Inset, s.Lining.Inset}
	}
}

// merge appends a term, or counts an equal one once more.
func merge(terms []units.Term, t units.Term) []units.Term {
	for i := range terms {
		if terms[i].Label == t.Label && terms[i].Length == t.Length {
			terms[i].Count += t.Count
			return terms
		}
	}
	return append(terms, t)
}

func (b *builder) openWidth() units.Length  { return b.nomW.Length() }
func (b *builder) openHeight() units.Length { return b.nomH.Length() }

func (b *builder) openSize() units.Size {
	return units.Size{W: b.openWidth(), H: b.openHeight()}
}

// cover works out the wrap, in one piece or in quarter style.
func (b *builder) cover() {
	s := &b.spec
	switch s.Quarter.Rule {
	case QuarterAlways:
		b.quarter()
		return
	case QuarterNever, QuarterWhenNeeded:
	}
	open := b.openSize()
	sheet, found := s.Margin.best(open, s.Covering, s.Grain)
	if !found && len(s.Covering.Sheets) > 0 {
		if s.Quarter.Rule == QuarterWhenNeeded {
			n := b.notation()
			need := open.Grow(s.Margin.Tolerated)
			b.warn(check.Warning{Path: "covering.sheets", Code: WarnQuarter,
				Text: "no sheet takes a wrap of " + sizeText(n, need) + ", so the case is covered in quarter style"})
			b.quarter()
			return
		}
		b.noSheet("covering.sheets", s.Covering, open.Grow(s.Margin.Tolerated), "the wrap", ", or quarter style")
		return
	}
	w := &b.plan.wrap
	w.sheet, w.onSheet = sheet, found
	w.w = b.axis("wrap width", "left margin", "right margin", "open width", open.W, sheet.size.W)
	w.h = b.axis("wrap height", "head margin", "tail margin", "open height", open.H, sheet.size.H)
	b.mitres()
	p := b.piece(Piece{
		name: "wrap", part: "wrap", stock: s.Covering.Name, quantity: 1,
		width: w.w.blank, height: w.h.blank, cuts: w.corners[:],
	})
	w.pieces = []WrapPiece{{piece: p}}
}

func (b *builder) noSheet(path string, s Stock, need units.Size, what, else_ string) {
	n := b.notation()
	var best units.Size
	var missing units.Length
	s.lies(b.spec.Grain, func(l lie) bool {
		short := max(need.W-l.size.W, need.H-l.size.H)
		if best == (units.Size{}) || short < missing {
			best, missing = l.size, short
		}
		return true
	})
	got := "no sheet whose grain lies right"
	if best != (units.Size{}) {
		got = "at most " + sizeText(n, best)
	}
	b.bad.Add(check.Violation{Path: path, Code: SheetSmall, Fault: check.Impossible, Got: got,
		Want: "a sheet of at least " + sizeText(n, need) + " for " + what + else_, By: max(missing, 0)})
}

// axis lays the boards on the wrap along one direction: the blank first, then
// the margins that it leaves.
func (b *builder) axis(label, nearLabel, farLabel, openLabel string, open, sheet units.Length) Axis {
	s := &b.spec
	r := s.Rulers.Wrap
	total, limit := s.Margin.total(open, sheet, r)
	a := Axis{open: open, sheet: sheet, limit: limit}
	if limit == LimitSheet {
		a.blank = b.sum(label, b.exact(), units.Nearest, units.T("sheet", sheet))
	} else {
		a.blank = b.sum(label, r, units.Up, units.T(openLabel, open), units.N(2, "ideal margin", s.Margin.Ideal))
	}
	blank := units.T(label, a.blank.Length())
	on, d := s.Margin.split(total, r)
	if on == 0 {
		on = b.exact()
	}
	a.near = b.share(nearLabel, 2, on, d, blank, units.N(-1, openLabel, open))
	a.far = b.sum(farLabel, b.exact(), units.Nearest, blank, units.N(-1, openLabel, open), units.N(-1, nearLabel, a.near.Length()))
	if m := a.Smaller(); m < s.Margin.Least {
		n := b.notation()
		b.warn(check.Warning{Path: "margin.least", Code: WarnMargin, Got: m, Want: s.Margin.Least,
			Text: "the " + nearLabel + " is " + n.Text(m) + ", less than the usual least of " + n.Text(s.Margin.Least)})
	}
	return a
}

// turnIns checks what is turned in, after the liner is known: that it goes
// round the edge, that the liner laps it and that opposite ones do not meet. A
// cover that came out larger than planned has turned in that much less.
func (b *builder) turnIns() {
	s, p := &b.spec, b.plan
	t := s.Board.Caliper
	across, along := s.Covering.Caliper, s.Covering.Caliper
	if p.wrap.quarter {
		along = max(along, s.SpineCovering.Caliper) // the strips turn in at head and tail
	}
	first, last := p.panels[0], p.panels[len(p.panels)-1]
	p.lapW = b.lap("turn-in lap at the sides", "measured.width", p.wrap.w.Smaller(), p.openW.Length()-b.openWidth(),
		t, across, max(first.left, last.right), b.openWidth())
	p.lapH = b.lap("turn-in lap at head and tail", "measured.height", p.wrap.h.Smaller(), p.openH.Length()-b.openHeight(),
		t, along, p.insetH, b.openHeight())
}

// lap works out how far the liner lies over a turn-in. The inset is that of the
// liner as rounded.
func (b *builder) lap(label, measured string, margin, more, t, c, inset, open units.Length) units.Working {
	s, n := &b.spec, b.notation()
	grown := more.Half(units.Up)
	terms := [5]units.Term{units.T("margin", margin), units.N(-1, "board caliper", t),
		units.N(-1, "covering caliper", c), units.N(-1, "liner's inset", inset)}
	if more != 0 {
		terms[4] = units.N(-1, "half of what the cover measures more", grown)
	}
	w := b.sum(label, b.exact(), units.Nearest, used(terms[:])...)
	turned := margin - grown
	inside := turned - t - c
	switch {
	case more != 0 && turned < s.Margin.Tolerated:
		b.bad.Add(check.Violation{Path: measured, Code: MarginSmall, Fault: check.Impossible,
			Got:   "a cover that leaves " + n.Text(turned) + " of the wrap to turn in",
			Want:  "one that leaves " + n.Text(s.Margin.Tolerated) + ", or a new wrap",
			Bound: check.AtLeast, Limit: s.Margin.Tolerated, By: s.Margin.Tolerated - turned})
	case inside <= 0:
		b.bad.Short("margin.ideal", TurnInNarrow, n, turned, t+c+units.Shortest, "to go round the board's edge")
	case w.Length() <= 0:
		b.bad.Add(check.Violation{Path: "lining.inset", Code: LapNone, Fault: check.Impossible,
			Got:   n.Text(inset) + " as rounded, with a turn-in that ends " + n.Text(inside) + " from the edge",
			Want:  "an inset of less than " + n.Text(inside) + ", so that the liner laps the turn-in, or a wider margin",
			Bound: check.AtMost, Limit: inside - units.Nanometre, By: inset - inside + units.Nanometre})
	}
	if 2*inside >= open {
		b.bad.Long("margin.ideal", TurnInsMeet, n, turned, open.Half(units.Down)+t+c-1, "or opposite turn-ins meet")
	}
	return w
}

// mitres works out the four corner cuts. The reach along the board's extended
// edges, √2 times the distance, is what is rounded, upwards: the cut then meets
// both edges of the wrap on the ruler when the margins do.
func (b *builder) mitres() {
	s, p := &b.spec, b.plan
	distance := b.mitreDistance()
	d := distance.Length()
	edge := s.Board.Caliper + s.Covering.Caliper
	reach := b.sum("mitre reach", s.Rulers.Wrap, units.Up, units.T("diagonal of a square on the mitre distance", units.Diagonal(d, d, units.Up)))
	if exact := reach.Rounded().From; exact < edge {
		// d ≥ edge/√2, rounded up: the diagonal of a square with half the
		// edge for its side.
		half := edge.Half(units.Up)
		b.bad.Short(b.spec.mitrePath(), MitreClose, b.notation(), d, units.Diagonal(half, half, units.Up), "from the board's corner, or bare board shows")
	}
	r := reach.Length()
	over := units.Diagonal(r-edge, r-edge, units.Down)
	if r < edge {
		over = 0
	}
	size := p.wrap.Size()
	for c := HeadLeft; c <= TailLeft; c++ {
		mx, my := p.wrap.w.near, p.wrap.h.near
		right, tail := c == HeadRight || c == TailRight, c == TailRight || c == TailLeft
		xLabel, yLabel := "left margin", "head margin"
		if right {
			mx, xLabel = p.wrap.w.far, "right margin"
		}
		if tail {
			my, yLabel = p.wrap.h.far, "tail margin"
		}
		leg := b.ledger.Sum("mitre leg", b.exact(), units.Nearest, units.T(xLabel, mx.Length()), units.T(yLabel, my.Length()), units.N(-1, "mitre reach", r))
		if c == HeadLeft || leg.Length() != p.wrap.corners[0].leg.Length() {
			p.workings = append(p.workings, leg)
		}
		l := leg.Length()
		if l <= 0 {
			b.bad.Long(b.spec.mitrePath(), check.TooLarge, b.notation(), r, mx.Length()+my.Length(), "of reach, or there is nothing to cut")
		}
		cut := Cut{units.Point{X: l}, units.Point{Y: l}}
		if right {
			cut.From.X, cut.To.X = size.W-l, size.W
		}
		if tail {
			cut.From.Y, cut.To.Y = size.H, size.H-l
		}
		p.wrap.corners[c] = CornerCut{corner: c, cut: cut, leg: leg, reach: reach, edge: edge, overlap: over}
	}
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
