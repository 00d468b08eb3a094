package folio

import (
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/rule"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A recrease gathers other creases than planned, in the gaps as planned, with which a
// folio closes, of one fold after another.
type recrease struct {
	b       *builder
	planned shut
	way     shut // with the creases as told
	far     shut // as far out as they may lie
	turns   bool // the hinges turn so far
	out     [boards.MaxBoards - 1]units.Length
	why     [boards.MaxBoards - 1]*pinch // of each fold, the place for which it is bent otherwise
	spine   *pinch                       // of a spine by a published rule
}

// tooTight says of each place where a folio does not close as planned how it closes all
// the same, or why that is not refused; else it is, for the worst place for which there is
// no such way, or the worst of all where no one way is one for each.
func (b *builder) tooTight() {
	c := recrease{b: b}
	c.planned, _ = b.plan.hinged()
	c.planned.singly = true
	c.way = c.planned
	c.far, c.turns = b.plan.furthest(false)
	all := c.planned.withContents(nil, true)
	var none *pinch
	for i := range all {
		if h := &all[i]; h.left() < 0 && !c.makesRoom(h) && !c.published(h) && (none == nil || h.left() < none.left()) {
			none = h
		}
	}
	if none == nil && c.closes() {
		for k := range c.why {
			c.tell(k)
		}
		if h := c.spine; h != nil {
			t := c.planned.tight(h)
			b.warn(check.Warning{Path: "spine.rule", Code: WarnSpine, Got: h.room, Want: h.stack,
				Text: "the rule " + b.spec.Spine.Rule.String() + " leaves less room than the contents take: " + t.where(b.plan)})
		}
		return
	}
	if none == nil {
		none = &all[worst(all, 0)]
	}
	if t := c.planned.tight(none); b.plan.measured != nil {
		over, further := -none.left(), ""
		if c.turns && none.meeting == closing.BetweenCovers {
			if least := -c.far.leaves(none); least < over {
				over, further = least, ", with hinges creased further out"
			}
		}
		b.closesAsMade(none, t, over, further)
	} else {
		b.doesNotClose(none, t)
	}
}

// closes reports whether the folio closes as told, with more of it where what is done for
// one place takes room from another.
func (c *recrease) closes() bool {
	for range 2 * boards.MaxBoards {
		all := c.way.withContents(nil, true)
		for len(all) > 0 && (all[0].left() >= 0 || c.published(&all[0])) {
			all = all[1:]
		}
		if len(all) == 0 {
			_, hooks := c.way.hook()
			return !hooks
		}
		if !c.makesRoom(&all[0]) {
			return false
		}
	}
	return false
}

// published reports whether nothing but what a published spine rule goes round lies at a
// place, and the spine has its width by that, which is told.
func (c *recrease) published(h *pinch) bool {
	if h.fitted() || h.meeting != closing.BetweenCovers || c.b.spec.Spine.Width != 0 || !c.b.plan.shape.spined() {
		return false
	}
	if c.spine == nil {
		c.spine = h
	}
	return true
}

// makesRoom looks for creases that leave a place room: between covers first those of the
// fold that decides. Under a flap and between outsides none are looked for: how much room
// is left there the Spec says by itself, in Closing.UnderFlap, so that no rule of a hinge or
// a spine is what leaves too little, and more of that is told to do.
func (c *recrease) makesRoom(h *pinch) bool {
	near := h.meeting == closing.AtForeEdge
	switch {
	case c.way.leaves(h) >= 0:
		return true
	case near:
	case h.meeting != closing.BetweenCovers || !c.turns:
		return false
	default:
		joint, _ := c.planned.decides(&h.meet)
		if c.bends(h, 1<<c.b.plan.folded.lies(joint), near) {
			return true
		}
	}
	return c.bends(h, 1<<(c.b.plan.folded.n-1)-1, near)
}

// bends bends some folds otherwise, if that leaves a place room: as little further out
// from their spine boards as does, or as little nearer.
func (c *recrease) bends(h *pinch, folds uint, near bool) bool {
	u := c.way
	c.bend(&u, folds, units.Millimetre, near)
	per := u.leaves(h)
	most := c.bend(&u, folds, 0, near)
	left := u.leaves(h)
	per -= left // for each millimetre further out
	var x units.Length
	switch {
	case near && left < 0, !near && left < 0 && per <= 0:
		return false
	case near && per < 0:
		x, _ = left.Scale(-int64(units.Millimetre), int64(per), units.Down)
		x = min(x, most)
	case left < 0:
		x, _ = left.Scale(-int64(units.Millimetre), int64(per), units.Up)
	}
	for k := range c.out {
		if folds>>k&1 != 0 && !near {
			x = max(x, c.out[k])
		}
	}
	if x > most {
		return false
	}
	c.bend(&u, folds, x, near)
	c.way = u
	for k := range c.out {
		if folds>>k&1 != 0 && (near || c.why[k] == nil || x > c.out[k]) {
			c.out[k], c.why[k] = x, h
		}
	}
	return true
}

// bend bends the hinges of the folds so far out, and returns how far out they may be.
func (c *recrease) bend(s *shut, folds uint, x units.Length, near bool) units.Length {
	may := units.Longest
	for k := range s.p.folded.n - 1 {
		left, right := s.p.folded.between(k)
		for _, joint := range [...]int{left, right} {
			b, most := &s.j[joint], &c.far.j[joint]
			switch {
			case folds>>k&1 == 0:
			case !b.soft:
				may = min(may, most.x)
				b.bend, b.mid, b.x = rule.CreaseAtOffset, false, x
			case !near:
				*b = *most
			}
		}
	}
	return may
}

// tell says what is to be done at a fold.
func (c *recrease) tell(fold int) {
	h, p, n := c.why[fold], c.b.plan, c.b.notation()
	if h == nil {
		return
	}
	left, right := p.folded.between(fold)
	near := h.meeting == closing.AtForeEdge
	t := c.planned.tight(h)
	what, how := t.String(), "creased at most "+n.Bound(c.out[fold], units.Down)
	switch {
	case near && left == right:
		return
	case !near:
		what, how = "there is no room: "+t.where(p), "creased at least "+n.Bound(c.out[fold], units.Up)
	}
	if how += " from the edges of the " + p.boards[right].name + " board, it closes"; left == right {
		how = "a flat back, creased at the covers' edges, has it"
	}
	c.b.warn(check.Warning{Path: p.hingePath(left) + ".crease", Code: WarnCrease, Got: h.room, Want: h.stack,
		Text: "with the crease as planned " + what + "; in the same gap, " + how})
}
