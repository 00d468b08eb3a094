package makertest

import (
	"fmt"
	"slices"

	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// full returns a line with its ends filled in.
func full(l score.Line, s units.Size) score.Line {
	if l.To == 0 {
		if l.To = s.H; l.Axis == score.Level {
			l.To = s.W
		}
	}
	return l
}

func (t *table) score(p *paper, s work.ScoreAt) error {
	line := full(s.Line, p.size)
	switch {
	case p.planned(func(l Line) bool { return l.Line == line }) == nil:
		return fmt.Errorf("%s has no such line planned: %v", p, s.Line)
	case slices.ContainsFunc(p.scored, func(o scored) bool { return o.line == line }):
		return fmt.Errorf("%s is scored twice at %v", p, line.At)
	case len(p.facets) > 1 || len(p.folded) > 0:
		return fmt.Errorf("%s is scored after it has been folded", p)
	case s.On > score.Back:
		return fmt.Errorf("%s has no side %d", p, s.On)
	}
	if p.stuck(t, func(r region) bool { return crosses(r, line) }) || p.fixed {
		return fmt.Errorf("%s is scored after it has been stuck down", p)
	}
	// Groove or bead inside the fold: either will do, but one for all.
	inside := (s.On == score.Face) == (line.Fold == score.Valley)
	for _, q := range t.papers {
		for _, o := range q.scored {
			if inside != ((o.on == score.Face) == (o.line.Fold == score.Valley)) {
				return fmt.Errorf("%s is scored on the %v, others on the other side of their folds", p, s.On)
			}
		}
	}
	if t.job.Groove != GrooveEither && inside != (t.job.Groove == GrooveInside) {
		return fmt.Errorf("%s is scored on the %v", p, s.On)
	}
	p.scored = append(p.scored, scored{line, s.On})
	t.note("score %s %v", p, line)
	return nil
}

// planned returns the first planned line that will do.
func (p *paper) planned(will func(Line) bool) *Line {
	if p.plan == nil {
		return nil
	}
	for i, l := range p.plan.Lines {
		l.Line = full(l.Line, p.size)
		if will(l) {
			return &p.plan.Lines[i]
		}
	}
	return nil
}

// stuck reports whether a bond of the paper lies as asked on its drawing.
func (p *paper) stuck(t *table, so func(region) bool) bool {
	return slices.ContainsFunc(t.bonds, func(b *bond) bool {
		return b.a.of == p && so(b.onA) || b.b.of == p && so(b.onB)
	})
}

// beyondLine returns what of a region lies beyond a line towards an edge, and
// within its ends.
func beyondLine(r region, l score.Line, to score.Edge) region {
	at, from, end := float64(l.At), float64(l.From), float64(l.To)
	const far = 1e11
	var b box
	switch {
	case l.Axis == score.Upright && to == score.Left:
		b = box{vec{-far, from}, vec{at, end}}
	case l.Axis == score.Upright && to == score.Right:
		b = box{vec{at, from}, vec{far, end}}
	case l.Axis == score.Level && to == score.Head:
		b = box{vec{from, -far}, vec{end, at}}
	case l.Axis == score.Level && to == score.Tail:
		b = box{vec{from, at}, vec{end, far}}
	default:
		return nil
	}
	return r.and(region{{b.min, {b.max.x, b.min.y}, b.max, {b.min.x, b.max.y}}})
}

// crosses reports whether a region lies on both sides of a line.
func crosses(r region, l score.Line) bool {
	near, far := score.Left, score.Right
	if l.Axis == score.Level {
		near, far = score.Head, score.Tail
	}
	return !beyondLine(r, l, near).empty() && !beyondLine(r, l, far).empty()
}

// A folding is one fold being made.
type folding struct {
	p      *paper
	do     work.FoldAt
	line   score.Line // on the drawing, its fold not known
	axis   score.Axis // on the table
	at     units.Length
	split  []*facet          // that the line runs through
	moves  map[*facet]bool   // facets that turn as a whole
	halves map[*facet]region // what of the split ones turns
}

func (t *table) fold(p *paper, a work.FoldAt) error {
	f := &folding{p: p, do: a, line: full(score.Line{Axis: a.Axis, At: a.At, From: a.From, To: a.To}, p.size)}
	upright := a.Moves == score.Left || a.Moves == score.Right
	switch {
	case a.Axis > score.Level || a.Moves > score.Right || a.Way > work.Away || upright != (a.Axis == score.Upright):
		return fmt.Errorf("%s: no such fold", p)
	case p.planned(func(l Line) bool { return f.along(l.Line) }) == nil:
		return fmt.Errorf("%s has no such line planned: %v at %v", p, a.Axis, a.At)
	case t.wet(p, any_):
		return fmt.Errorf("%s is folded while its glue is wet", p)
	case a.Way == work.Away && (p.body.row || p.body.under):
		return fmt.Errorf("%s is folded under what it is stuck down on", p)
	}
	if p.standing(f.line) {
		return t.layDown(f)
	}
	if err := f.find(); err != nil {
		return err
	}
	if err := f.carry(t); err != nil {
		return err
	}
	if err := f.free(); err != nil {
		return err
	}
	if err := f.kinds(t); err != nil {
		return err
	}
	if a.Open {
		t.note("crease %s %v %v", p, f.axis, f.at)
		return nil
	}
	f.turn(t)
	return nil
}

// along reports whether the fold follows a planned line: it has its place, and
// they share a stretch.
func (f *folding) along(l score.Line) bool {
	return l.Axis == f.line.Axis && l.At == f.line.At && max(l.From, f.line.From) < min(l.To, f.line.To)
}

// find finds what the line runs through and what turns.
func (f *folding) find() error {
	f.moves, f.halves = map[*facet]bool{}, map[*facet]region{}
	to := f.do.Moves
	set := false
	for _, c := range f.p.facets {
		part := beyondLine(c.area, f.line, to)
		switch {
		case part.empty():
		case c.area.minus(part).empty():
			f.moves[c] = true
		default:
			if c.stands || c.flap {
				return fmt.Errorf("%s is folded where it does not lie flat", f.p)
			}
			axis, at := c.lies.line(f.line.Axis, f.line.At)
			if set && (axis != f.axis || at != f.at) {
				return fmt.Errorf("%s is folded at one line through parts that do not lie on each other", f.p)
			}
			set, f.axis, f.at = true, axis, at
			f.split = append(f.split, c)
			f.halves[c] = part
		}
	}
	if !set {
		return fmt.Errorf("%s has no paper on both sides of %v", f.p, f.do.At)
	}
	// A part that hangs together with the rest beside the line does not turn.
	for _, c := range f.split {
		beside := c.area.minus(f.halves[c])
		for _, d := range [...]units.Length{-1000, 1000} {
			l := f.line
			l.From, l.To = l.From+d, l.To+d
			if !beyondLine(beside, l, to).empty() {
				return fmt.Errorf("%s is folded between %v and %v only, and hangs together beside that", f.p, f.line.From, f.line.To)
			}
		}
	}
	return nil
}

// carry finds what is taken along: all that is stuck to what turns. It must
// not be stuck to what stays.
func (f *folding) carry(t *table) error {
	side := func(c *facet, on region) (turns, stays bool) {
		if half, ok := f.halves[c]; ok {
			turns = on.overlaps(half)
			return turns, !turns || !on.minus(half).empty()
		}
		return f.moves[c], !f.moves[c]
	}
	for again := true; again; {
		again = false
		for _, b := range t.bonds {
			if b.a.of.body != f.p.body {
				continue
			}
			at, as := side(b.a, b.onA)
			bt, bs := side(b.b, b.onB)
			if at && as || bt && bs {
				return fmt.Errorf("%s is folded through what is stuck together", f.p)
			}
			if at == bt {
				continue
			}
			// One of the two turns: the other goes along, unless the fold itself
			// holds it back.
			other := b.a
			if at {
				other = b.b
			}
			if other.of == f.p {
				return fmt.Errorf("%s is folded where it is stuck down", f.p)
			}
			if other.of.board >= 0 || other.of == t.under || other.of.body.row && other.of.plan != nil && other.of.plan.Role != Fitting {
				return fmt.Errorf("%s is folded where it is stuck to %s", f.p, other.of)
			}
			for _, c := range other.of.facets {
				if !f.moves[c] {
					f.moves[c], again = true, true
				}
			}
		}
	}
	return nil
}

// free objects where something lies in the way: across the line, on the inside
// of the fold.
func (f *folding) free() error {
	stack := f.p.body.stack
	first, last := len(stack), -1
	for i, c := range stack {
		if _, ok := f.halves[c]; ok {
			first, last = min(first, i), max(last, i)
		}
	}
	line := score.Line{Axis: f.axis, At: f.at, From: -1e12, To: 1e12}
	// Only where the paper itself is folded can something lie in the way.
	var hinge region
	for c, half := range f.halves {
		hinge = append(hinge, c.lies.region(half)...)
		hinge = append(hinge, c.lies.region(c.area.minus(half))...)
	}
	for i, c := range stack {
		if _, ok := f.halves[c]; ok || c.stands {
			continue
		}
		inner := f.do.Way == work.Towards && i > first || f.do.Way == work.Away && i < last
		if inner && crosses(c.shape.and(hinge), line) {
			return fmt.Errorf("%s is folded at %v with %s across the fold", f.p, f.do.At, c.of)
		}
	}
	return nil
}

// kinds objects where a part would fold the other way than planned or scored.
func (f *folding) kinds(t *table) error {
	for _, c := range f.split {
		fold := score.Valley
		if (c.lies.up() == score.Face) != (f.do.Way == work.Towards) {
			fold = score.Mountain
		}
		from, to := extent(c.area, f.line)
		covered := false
		for i := range f.p.plan.Lines {
			l := f.p.plan.Lines[i]
			l.Line = full(l.Line, f.p.size)
			if !f.along(l.Line) || max(l.From, from) >= min(l.To, to) {
				continue
			}
			covered = covered || l.From <= from && to <= l.To
			if l.Fold != fold {
				return fmt.Errorf("%s is folded as a %v at %v; planned a %v", f.p, fold, l.At, l.Fold)
			}
			isScored := slices.ContainsFunc(f.p.scored, func(s scored) bool { return s.line == l.Line })
			if !isScored && (l.Scored || t.job.ThickPaper > 0 && f.p.caliper > t.job.ThickPaper) {
				return fmt.Errorf("%s is folded at %v without a score", f.p, l.At)
			}
			if slices.Contains(f.p.folded, l.Line) && !f.do.Open {
				continue
			}
			f.p.folded = append(f.p.folded, l.Line)
		}
		if !covered {
			return fmt.Errorf("%s is folded at %v where no fold is planned", f.p, f.do.At)
		}
	}
	return nil
}

// extent returns from where to where a region lies along a line.
func extent(r region, l score.Line) (from, to units.Length) {
	at := float64(l.At)
	const d = 1000
	strip := score.Line{Axis: l.Axis, At: l.At - d, From: l.From, To: l.To}
	near := score.Right
	if l.Axis == score.Level {
		near = score.Tail
	}
	r = beyondLine(r, strip, near)
	if l.Axis == score.Upright {
		r = r.clip(vec{at + d, 0}, vec{at + d, 1})
	} else {
		r = r.clip(vec{1, at + d}, vec{0, at + d})
	}
	b := r.rect()
	if l.Axis == score.Upright {
		return b.Min.Y, b.Max.Y
	}
	return b.Min.X, b.Max.X
}

// turn makes the fold.
func (f *folding) turn(t *table) {
	body := f.p.body
	over := mirrored(f.axis, f.at)
	var stay, moved []*facet
	for _, c := range body.stack {
		half, split := f.halves[c]
		switch {
		case split:
			part := &facet{of: f.p}
			part.area = half
			part.put(c.lies.then(over))
			c.cut(c.area.minus(half))
			part.stands = !f.do.Flat
			if part.stands {
				f.p.upright = append(f.p.upright, standing{f.line, part})
			}
			f.p.facets = append(f.p.facets, part)
			f.p.creases = append(f.p.creases, crease{c, part, f.line})
			f.rebind(t, c, part)
			stay, moved = append(stay, c), append(moved, part)
		case f.moves[c]:
			c.put(c.lies.then(over))
			if !f.do.Flat && !c.stands {
				c.stands = true
				f.p.upright = append(f.p.upright, standing{f.line, c})
			}
			moved = append(moved, c)
		default:
			stay = append(stay, c)
		}
	}
	slices.Reverse(moved)
	if f.do.Way == work.Towards {
		body.stack = append(stay, moved...)
	} else {
		body.stack = append(moved, stay...)
	}
	t.note("fold %s %v %v", f.p, over, f.do.Flat)
}

// rebind gives the bonds and creases of a facet that has been split to the part
// they are on.
func (f *folding) rebind(t *table, whole, part *facet) {
	for _, b := range t.bonds {
		if b.a == whole && b.onA.overlaps(part.area) {
			b.a = part
		}
		if b.b == whole && b.onB.overlaps(part.area) {
			b.b = part
		}
	}
	var more []crease
	for i, c := range f.p.creases {
		for k, end := range [...]*facet{c.a, c.b} {
			if end != whole || !touches(part.area, c.line) {
				continue
			}
			next := c
			if k == 0 {
				next.a = part
			} else {
				next.b = part
			}
			if touches(whole.area, c.line) {
				more = append(more, next)
			} else {
				f.p.creases[i] = next
			}
		}
	}
	f.p.creases = append(f.p.creases, more...)
}

// touches reports whether a region reaches a line.
func touches(r region, l score.Line) bool {
	from, to := extent(r, l)
	return from < to
}

// A crease is a fold between two facets.
type crease struct {
	a, b *facet
	line score.Line
}

// A standing facet stands at a right angle over a line.
type standing struct {
	line  score.Line
	facet *facet
}

// standing reports whether a part stands over a line.
func (p *paper) standing(l score.Line) bool {
	return slices.ContainsFunc(p.upright, func(s standing) bool { return s.line == l })
}

// layDown folds flat what stands. Its place in the layers has been given when it
// was stood up.
func (t *table) layDown(f *folding) error {
	if !f.do.Flat {
		return fmt.Errorf("%s stands up at %v already", f.p, f.line.At)
	}
	for _, s := range f.p.upright {
		if s.line == f.line {
			s.facet.stands = false
		}
	}
	t.note("lay down %s %v", f.p, f.line)
	f.p.upright = slices.DeleteFunc(f.p.upright, func(s standing) bool { return s.line == f.line })
	return nil
}

func (t *table) turnOver(p *paper) error {
	if p.body.row || p.body.under {
		return fmt.Errorf("%s is stuck down and cannot be turned over", p)
	}
	r := shapeOf(p.facets).rect()
	move := pose{a: -1, d: 1, x: r.Min.X + r.Max.X}
	p.body.move(move)
	t.note("over %s", p)
	return nil
}
