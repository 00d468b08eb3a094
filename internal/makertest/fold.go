package makertest

import (
	"fmt"
	"slices"

	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

func (t *table) score(p *paper, s work.ScoreAt) error {
	line := full(s.Line, p.size)
	switch {
	case p.planned(func(l Line) bool { return l.Line == line }) == nil:
		return fmt.Errorf("%s has no such line planned: %v", p, s.Line)
	case slices.ContainsFunc(p.scored, func(o scored) bool { return o.line == line }):
		return fmt.Errorf("%s is scored twice at %v", p, line.At)
	case len(p.facets) > 1 || len(p.folded) > 0:
		return fmt.Errorf("%s is scored after it has been folded", p)
	case s.On != p.facets[0].lies.up():
		return fmt.Errorf("%s is scored on the %v of its drawing, and lies with the other side up", p, s.On)
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

// A folding is one fold being made.
type folding struct {
	p     *paper
	do    work.FoldAt
	line  score.Line // on the drawing, its fold not known
	axis  score.Axis // on the table
	at    units.Length
	hinge []*crease       // that are folded
	moves map[*facet]bool // what turns
}

func (t *table) fold(p *paper, a work.FoldAt) error {
	f := &folding{p: p, do: a, line: full(score.Line{Axis: a.Axis, At: a.At, From: a.From, To: a.To}, p.size)}
	upright := a.Moves == score.Left || a.Moves == score.Right
	switch {
	case a.Axis > score.Level || a.Moves > score.Right || a.Way > work.Away || upright != (a.Axis == score.Upright):
		return fmt.Errorf("%s: no such fold", p)
	case p.planned(func(l Line) bool { return f.along(l.Line) }) == nil:
		return fmt.Errorf("%s has no such line planned: %v at %v", p, a.Axis, a.At)
	case t.wet(p, always):
		return fmt.Errorf("%s is folded while its glue is wet", p)
	case a.Way == work.Away && (p.body.row || p.body.under):
		return fmt.Errorf("%s is folded under what it is stuck down on", p)
	}
	if t.outside(p) { // seen with the folio turned over
		f.do.Way = a.Way ^ 1
	}
	if err := f.split(t); err != nil {
		return err
	}
	if err := f.find(); err != nil {
		return err
	}
	if err := f.kinds(t); err != nil {
		return err
	}
	if err := f.carry(t); err != nil {
		return err
	}
	if err := f.free(t); err != nil {
		return err
	}
	if err := f.roundStack(t); err != nil {
		return err
	}
	if a.Open {
		for _, c := range f.hinge {
			c.kept = &a
		}
		t.note("crease %s %v %v", p, f.axis, f.at)
		return nil
	}
	if err := f.creased(); err != nil {
		return err
	}
	if p.upright != nil {
		return f.stand(t)
	}
	f.turn(t)
	return nil
}

// creased objects where a fold is made flat that was only bent to a right angle before it
// was laid open again: it springs back. One that was pressed flat may stand up all the same,
// as the folds at the lands of a gusset run do (common practice, no published source).
func (f *folding) creased() error {
	for _, c := range f.hinge {
		if c.kept != nil && f.do.Flat && !c.kept.Flat {
			return fmt.Errorf("%s is folded flat at %v, where it was creased to a right angle", f.p, f.line.At)
		}
		c.kept = nil
	}
	return nil
}

// roundStack objects where a part that was laid open closes over more than its fold
// goes round: a wall is as wide as what lies between, and one score takes about two
// calipers (common practice, no published source).
func (f *folding) roundStack(t *table) error {
	if b := f.p.body; !b.row && !b.under || f.do.Open || f.hinge[0].kept == nil || slices.Contains(t.job.Strained, f.p.index) || !f.do.Flat && f.p.upright == nil {
		return nil
	}
	low, room := f.hinge[0], 2*f.p.caliper
	if first := f.p.upright; first != nil {
		room = (first.line.At - f.line.At).Abs()
		if len(first.moves) > len(f.moves) {
			low = first.hinge[0]
		}
	}
	base := low.a
	if f.moves[base] || f.p.upright != nil && f.p.upright.moves[base] {
		base = low.b
	}
	var stay []*facet
	for _, c := range f.p.body.stack {
		if !f.moves[c] && (f.p.upright == nil || !f.p.upright.moves[c]) {
			stay = append(stay, c)
		}
	}
	if t.outside(f.p) {
		slices.Reverse(stay)
	}
	at := slices.Index(stay, base)
	if at < 0 {
		return nil
	}
	z := heights(stay)
	under := z[at] + f.p.caliper
	for i, c := range stay[at+1:] {
		if c.fitting() == base.fitting() && c.shape.overlaps(base.shape) && z[at+1+i]+c.of.caliper-under > room {
			return fmt.Errorf("%s closes at %v round %v; there is room for %v", f.p, f.line.At, z[at+1+i]+c.of.caliper-under, room)
		}
	}
	return nil
}

// along reports whether the fold follows a planned line: it has its place, and
// they share a stretch.
func (f *folding) along(l score.Line) bool {
	return l.Axis == f.line.Axis && l.At == f.line.At && max(l.From, f.line.From) < min(l.To, f.line.To)
}

// split parts the facets that the line runs through. A part that hangs
// together with the rest beside the line cannot turn.
func (f *folding) split(t *table) error {
	for _, c := range slices.Clone(f.p.facets) {
		half := beyondLine(c.area, f.line, f.do.Moves)
		if half.empty() || c.area.minus(half).empty() {
			continue
		}
		if c.stands && f.p.upright == nil || c.flap {
			return fmt.Errorf("%s is folded where it does not lie flat", f.p)
		}
		rest := c.area.minus(half)
		for _, d := range [...]units.Length{-1000, 1000} {
			l := f.line
			l.From, l.To = l.From+d, l.To+d
			if !beyondLine(rest, l, f.do.Moves).empty() {
				return fmt.Errorf("%s is folded between %v and %v only, and hangs together beside that", f.p, f.line.From, f.line.To)
			}
		}
		for _, b := range t.bonds {
			if b.a == c && b.onA.overlaps(half) && b.onA.overlaps(rest) || b.b == c && b.onB.overlaps(half) && b.onB.overlaps(rest) {
				return fmt.Errorf("%s is folded through what is stuck together", f.p)
			}
		}
		part := &facet{of: f.p, area: half, turned: c.turned}
		part.put(c.lies)
		c.cut(rest)
		f.p.facets = append(f.p.facets, part)
		at := slices.Index(f.p.body.stack, c)
		f.p.body.stack = slices.Insert(f.p.body.stack, at+1, part)
		f.rebind(t, c, part)
		f.p.creases = append(f.p.creases, &crease{a: c, b: part, line: f.line})
		for _, c := range f.p.creases {
			c.measure()
		}
	}
	return nil
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
	for _, c := range slices.Clone(f.p.creases) {
		for k, end := range [...]*facet{c.a, c.b} {
			if end != whole || !touches(part.area, c.line) {
				continue
			}
			next := *c
			if k == 0 {
				next.a = part
			} else {
				next.b = part
			}
			f.p.creases = append(f.p.creases, &next)
		}
	}
	f.p.creases = slices.DeleteFunc(f.p.creases, func(c *crease) bool { return !touches(c.a.area, c.line) || !touches(c.b.area, c.line) })
}

// find finds the creases that are folded, which must lie on each other, and
// what turns.
func (f *folding) find() error {
	f.moves = map[*facet]bool{}
	for _, c := range f.p.facets {
		if !beyondLine(c.area, f.line, f.do.Moves).empty() {
			f.moves[c] = true
		}
	}
	for _, c := range f.p.creases {
		if !f.along(c.line) || !c.real() || f.moves[c.a] == f.moves[c.b] {
			continue
		}
		if c.a.lies != c.b.lies || (c.a.stands || c.b.stands) && f.p.upright == nil {
			return fmt.Errorf("%s is folded at %v already", f.p, f.line.At)
		}
		axis, at := c.a.lies.line(f.line.Axis, f.line.At)
		if len(f.hinge) > 0 && (axis != f.axis || at != f.at) {
			return fmt.Errorf("%s is folded at one line through parts that do not lie on each other", f.p)
		}
		f.axis, f.at = axis, at
		f.hinge = append(f.hinge, c)
	}
	if len(f.hinge) == 0 {
		return fmt.Errorf("%s has no paper on both sides of %v", f.p, f.do.At)
	}
	return nil
}

// carry finds what is taken along: all that is stuck to what turns. It must
// not be stuck to what stays.
func (f *folding) carry(t *table) error {
	for again := true; again; {
		again = false
		for _, b := range t.bonds {
			if b.a.of.body != f.p.body || f.moves[b.a] == f.moves[b.b] {
				continue
			}
			other := b.a
			if f.moves[b.a] {
				other = b.b
			}
			if other.of == f.p {
				return fmt.Errorf("%s is folded where it is stuck down", f.p)
			}
			if other.of.board >= 0 || other.of == t.under || other.of.plan != nil && other.of.plan.Role != Fitting {
				return fmt.Errorf("%s is folded where it is stuck to %s", f.p, other.of)
			}
			f.moves[other], again = true, true
		}
		// Another piece turns with all its parts but those that this fold
		// leaves behind, which none of another piece is.
		for _, q := range f.p.body.papers {
			if q == f.p || !slices.ContainsFunc(q.facets, func(c *facet) bool { return f.moves[c] }) {
				continue
			}
			for _, c := range q.facets {
				if !f.moves[c] {
					f.moves[c], again = true, true
				}
			}
		}
	}
	return nil
}

// free objects where something lies in the way: across the line, on the inside
// of the fold. For a crease that is laid open again a loose part is lifted.
func (f *folding) free(t *table) error {
	loose := func(c *facet) bool {
		return f.do.Open && !slices.ContainsFunc(t.bonds, func(b *bond) bool { return b.a == c || b.b == c })
	}
	stack := f.p.body.stack
	at := map[*facet]bool{}
	var hinge region
	for _, c := range f.hinge {
		at[c.a], at[c.b] = true, true
		hinge = append(append(hinge, c.a.shape...), c.b.shape...)
	}
	first, last := len(stack), -1
	for i, c := range stack {
		if at[c] {
			first, last = min(first, i), max(last, i)
		}
	}
	line := score.Line{Axis: f.axis, At: f.at, From: -1e12, To: 1e12}
	for i, c := range stack {
		inner := f.do.Way == work.Towards && i > first || f.do.Way == work.Away && i < last
		if inner && !at[c] && !c.stands && !loose(c) && crosses(c.shape.and(hinge), line) && !t.lifted(c, f.hinge[0].a) {
			return fmt.Errorf("%s is folded at %v with %s across the fold", f.p, f.do.At, c.of)
		}
	}
	return nil
}

// kinds objects where a part would fold the other way than planned or scored.
func (f *folding) kinds(t *table) error {
	for _, c := range f.hinge {
		fold := score.Valley
		// What hangs at a right angle by now has been turned only half way.
		up := (c.a.lies.up() == score.Face) != (f.p.upright != nil)
		if up != (f.do.Way == work.Towards) {
			fold = score.Mountain
		}
		c.fold = fold
		from, to := c.from, c.to
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
			if !slices.Contains(f.p.folded, l.Line) {
				f.p.folded = append(f.p.folded, l.Line)
			}
		}
		if !covered {
			return fmt.Errorf("%s is folded at %v where no fold is planned", f.p, f.do.At)
		}
	}
	return nil
}

// turn makes the fold.
func (f *folding) turn(t *table) {
	body := f.p.body
	over := mirrored(f.axis, f.at)
	var stay, moved []*facet
	for _, c := range body.stack {
		if !f.moves[c] {
			stay = append(stay, c)
			continue
		}
		c.put(c.lies.then(over))
		c.turned = true
		if !f.do.Flat {
			c.stands = true
		}
		moved = append(moved, c)
	}
	slices.Reverse(moved)
	stay, leaves := f.aside(t, stay)
	if f.do.Way == work.Towards {
		body.stack = slices.Concat(stay, moved, leaves)
	} else {
		body.stack = slices.Concat(leaves, moved, stay)
	}
	if !f.do.Flat {
		f.p.upright = f
	}
	t.note("fold %s %v %v", f.p, over, f.do.Flat)
}

// aside tells leaves of other fittings that lie open over the work from the rest:
// they are lifted meanwhile.
func (f *folding) aside(t *table, stay []*facet) (rest, leaves []*facet) {
	hinge := f.hinge[0].a
	for _, c := range stay {
		if c.fitting() != hinge.fitting() && t.lifted(c, hinge) && t.sameSide(f.p.body, c, hinge) {
			leaves = append(leaves, c)
		} else {
			rest = append(rest, c)
		}
	}
	return rest, leaves
}

// stand makes the second of two folds at right angles. Between them stands a
// wall; what lies beyond it has been turned over once, and lies flat again,
// beginning at the nearer fold.
func (f *folding) stand(t *table) error {
	first := f.p.upright
	if first.do.Way != f.do.Way || first.do.Moves != f.do.Moves || first.axis != f.axis || f.do.Flat {
		return fmt.Errorf("%s stands up at %v, and the fold at %v does not lay it down", f.p, first.line.At, f.line.At)
	}
	beyond, wall := f.moves, first.moves
	_, at := f.hinge[0].a.lies.line(f.line.Axis, f.line.At)
	shift := first.at - at
	if len(first.moves) < len(f.moves) {
		beyond, wall = first.moves, f.moves
		shift = f.at - first.at
	}
	by := asDrawn.moved(units.Point{X: shift})
	if f.axis == score.Level {
		by = asDrawn.moved(units.Point{Y: shift})
	}
	for c := range wall {
		if c.stands = !beyond[c]; !c.stands {
			c.put(c.lies.then(by))
		}
	}
	for c := range beyond {
		if !wall[c] {
			return fmt.Errorf("%s stands up at %v, and the fold at %v does not lay it down", f.p, first.line.At, f.line.At)
		}
	}
	f.p.upright = nil
	t.note("stand %s %v", f.p, by)
	return nil
}

func (t *table) turnOver(p *paper, again bool) error {
	if p.body.row || p.body.under {
		return fmt.Errorf("%s is stuck down and cannot be turned over", p)
	}
	lead := p.facets[0] // of what no fold has turned
	if i := slices.IndexFunc(p.facets, func(f *facet) bool { return !f.turned }); i >= 0 {
		lead = p.facets[i]
	}
	if again != lead.lies.over() {
		return fmt.Errorf("%s is turned over: said again %t, lies with its %v up", p, again, lead.lies.up())
	}
	r := shapeOf(p.body.stack).rect()
	move := pose{a: -1, d: 1, x: r.Min.X + r.Max.X}
	p.body.move(move)
	t.note("over %v", move)
	return nil
}
