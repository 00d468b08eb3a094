package makertest

import (
	"fmt"
	"slices"

	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// boardsOf returns the boards that are stuck to a covering.
func (t *table) boardsOf(p *paper) []*paper {
	var all []*paper
	for _, b := range t.bonds {
		other := b.a.of
		if other == p {
			other = b.b.of
		} else if b.b.of != p {
			continue
		}
		if other.plan != nil && other.plan.Role == BoardRole && !slices.Contains(all, other) {
			all = append(all, other)
		}
	}
	return all
}

// outer returns the line along the outer edges of boards at one side.
func outer(boards []*paper, e score.Edge) units.Length {
	var r units.Rect
	for _, b := range boards {
		r = r.Union(b.facets[0].shape.rect())
	}
	switch e {
	case score.Head:
		return r.Min.Y
	case score.Tail:
		return r.Max.Y
	case score.Left:
		return r.Min.X
	}
	return r.Max.X
}

// beyond returns the half plane beyond a line towards an edge.
func beyondEdge(e score.Edge, at units.Length) score.Line {
	l := score.Line{Axis: score.Level, At: at, From: -1e12, To: 1e12}
	if e == score.Left || e == score.Right {
		l.Axis = score.Upright
	}
	return l
}

// further returns a place so much further out beyond an edge.
func further(e score.Edge, at, by units.Length) units.Length {
	if e == score.Head || e == score.Left {
		return at - by
	}
	return at + by
}

// opposite returns the edge across from an edge.
func opposite(e score.Edge) score.Edge {
	return [...]score.Edge{score.Tail, score.Head, score.Right, score.Left}[e&3]
}

// edgesOf returns the two edges that meet in a corner.
func edgesOf(c score.Corner) (level, upright score.Edge) {
	return [...]score.Edge{score.Head, score.Head, score.Tail, score.Tail}[c&3],
		[...]score.Edge{score.Left, score.Right, score.Right, score.Left}[c&3]
}

// turnIn folds what of a covering lies beyond the boards over their edges.
func (t *table) turnIn(p *paper, a work.TurnIn) error {
	if p.plan == nil || p.plan.Role != Covering && p.plan.Role != Strip || a.Edge > score.Right {
		return fmt.Errorf("%s is no covering that is turned in", p)
	}
	boards := t.boardsOf(p)
	if len(boards) == 0 {
		return fmt.Errorf("%s is turned in before boards lie on it", p)
	}
	if t.wet(p, func(b *bond) bool { return !b.turned }) {
		return fmt.Errorf("%s is turned in while its glue is wet", p)
	}
	flat := p.facets[0]
	e := flat.lies.edge(a.Edge)
	line := outer(boards, e)
	thick := units.Length(0)
	for _, b := range boards {
		thick = max(thick, b.caliper)
	}
	beyond := beyondLine(flat.shape, beyondEdge(e, line), e)
	if beyond.empty() {
		return fmt.Errorf("%s has nothing left to turn in at the %v", p, a.Edge)
	}
	if deep := outward1(beyond.rect(), e, line); deep != a.Depth {
		return fmt.Errorf("%s reaches %v beyond the boards at the %v; said %v", p, deep, a.Edge, a.Depth)
	}
	if a.Depth <= thick {
		return fmt.Errorf("%s does not go round the edge of a board of %v at the %v", p, thick, a.Edge)
	}
	if err := t.cornersReady(p, a.Edge); err != nil {
		return err
	}
	over := beyondLine(beyond, beyondEdge(e, further(e, line, thick)), e)
	p.turned = append(p.turned, a.Edge)
	t.edge(boards, e, beyond.minus(over))

	flap := &facet{of: p, flap: true, area: flat.lies.undone().region(over)}
	axis := beyondEdge(e, line).Axis
	move := mirrored(axis, line)
	if axis == score.Upright {
		move.x = further(e, move.x, thick)
	} else {
		move.y = further(e, move.y, thick)
	}
	flap.put(flat.lies.then(move))
	flat.cut(flat.area.minus(flat.lies.undone().region(beyond)))
	p.facets = append(p.facets, flap)
	p.body.stack = append(p.body.stack, flap)
	t.note("turn in %s %v", p, a.Edge)
	return t.land(flap)
}

// outward1 returns how far a rectangle reaches beyond a line towards an edge.
func outward1(r units.Rect, e score.Edge, line units.Length) units.Length {
	switch e {
	case score.Head:
		return line - r.Min.Y
	case score.Tail:
		return r.Max.Y - line
	case score.Left:
		return line - r.Min.X
	}
	return r.Max.X - line
}

// cornersReady objects where the edge beside has been turned in and the corner
// between has not been mitred and tucked in.
func (t *table) cornersReady(p *paper, e score.Edge) error {
	for _, c := range [...]score.Corner{score.HeadLeft, score.HeadRight, score.TailRight, score.TailLeft} {
		level, upright := edgesOf(c)
		beside := level
		switch e {
		case level:
			beside = upright
		case upright:
		default:
			continue
		}
		if !slices.Contains(p.turned, beside) {
			continue
		}
		if !slices.Contains(p.trimmed, c) {
			return fmt.Errorf("%s is not mitred at the %v", p, c)
		}
		if !slices.Contains(p.tucked, c) {
			return fmt.Errorf("%s is not tucked in at the %v", p, c)
		}
	}
	return nil
}

// edge notes what of the covering stands against the edges of boards.
func (t *table) edge(boards []*paper, e score.Edge, against region) {
	for _, b := range boards {
		f := b.facets[0]
		on := f.lies.undone().region(against)
		b.edges[e] = append(b.edges[e], on...)
	}
}

// land sticks a turned edge to what it lies on: boards and coverings only.
func (t *table) land(flap *facet) error {
	left := flap.shape
	landed := false
	for _, f := range flap.of.body.beyond(flap, false) {
		meets := left.and(f.shape)
		if meets.empty() || f.stands {
			continue
		}
		if f.of.plan == nil || f.of.plan.Role == Liner || f.of.plan.Role == Fitting {
			return fmt.Errorf("%s is turned in over %s", flap.of, f.of)
		}
		left = left.minus(f.shape)
		landed = true
		t.bind(flap, f, meets, work.Glue, false)
		t.bonds[len(t.bonds)-1].turned = true
	}
	if !landed {
		return fmt.Errorf("%s is turned in over nothing", flap.of)
	}
	return nil
}

// tuck tucks a covering in at corners: what of the edge that has been turned in
// stands beyond the other edge goes against the edge of the board.
func (t *table) tuck(p *paper, a work.Tuck) error {
	boards := t.boardsOf(p)
	if len(boards) == 0 || len(a.Corners) == 0 {
		return fmt.Errorf("%s has nothing to tuck in", p)
	}
	for _, c := range a.Corners {
		level, upright := edgesOf(c)
		done := [...]bool{slices.Contains(p.turned, level), slices.Contains(p.turned, upright)}
		switch {
		case c > score.TailLeft || slices.Contains(p.tucked, c):
			return fmt.Errorf("%s is tucked in twice at the %v", p, c)
		case done[0] == done[1]:
			return fmt.Errorf("%s is tucked in at the %v, where not just one edge has been turned in", p, c)
		case !slices.Contains(p.trimmed, c):
			return fmt.Errorf("%s is tucked in at the %v, which is not mitred", p, c)
		}
		other := upright
		if done[1] {
			other = level
		}
		e := p.facets[0].lies.edge(other)
		line := outer(boards, e)
		for _, f := range p.facets {
			if ear := beyondLine(f.shape, beyondEdge(e, line), e); f.flap && len(ear) > 0 {
				f.cut(f.area.minus(f.lies.undone().region(ear)))
			}
		}
		p.tucked = append(p.tucked, c)
		t.note("tuck %s %v", p, c)
	}
	return nil
}

// gap returns the gap between board i and the next, in the body of the row.
func (t *table) gap(i int) units.Rect {
	a, b := t.boardAt(i), t.boardAt(i+1)
	return units.Rect{Min: units.Point{X: a.Max.X, Y: a.Min.Y}, Max: units.Point{X: b.Min.X, Y: a.Max.Y}}
}

// gapsUnder returns the gaps that a paper lies across.
func (t *table) gapsUnder(p *paper) []int {
	var all []int
	for i := range len(t.job.Row) - 1 {
		if shapeOf(p.facets).overlaps(rectRegion(t.gap(i))) {
			all = append(all, i)
		}
	}
	return all
}

// gapsStuck returns the gaps over which a piece of a fitting is stuck to the case, by the
// bonds that count.
func (t *table) gapsStuck(p *paper, count func(*bond) bool) []int {
	var all []int
	for i := range len(t.job.Row) - 1 {
		if slices.ContainsFunc(t.bonds, func(b *bond) bool {
			f, other := b.a, b.b
			if f.of != p {
				f, other = other, f
			}
			toCase := f.of == p && other.of.plan != nil && other.of.plan.Role != Fitting
			return toCase && count(b) && f.inUse(b.at().rect()).Overlaps(t.gap(i))
		}) {
			all = append(all, i)
		}
	}
	return all
}

// rubbedIn objects where a piece of a fitting lies stuck over a gap and has not been rubbed
// down into it.
func (t *table) rubbedIn(p *paper) error {
	if p.plan == nil || p.plan.Role != Fitting || !p.plan.Inside || !slices.Contains(t.job.Tabbed, p.plan.Fitting) {
		return nil // outside the covering lies over the gaps
	}
	for _, g := range t.gapsStuck(p, always) {
		if !slices.Contains(p.into, g) {
			return fmt.Errorf("%s is stuck over gap %d and has not been rubbed down into it", p, g)
		}
	}
	return nil
}

// dry lets dry what has been glued in the steps that this one rests on.
func (t *table) dry(d work.Dry) error {
	dried := false
	t.note("dry")
	for _, b := range t.bonds {
		if !b.wet || b.step != t.step.Number && !t.now.before[b.step] {
			continue
		}
		if b.joins(BoardRole, Covering, Strip) && !d.Weight {
			return fmt.Errorf("%s dries on %s without a weight", b.a.of, b.b.of)
		}
		for _, p := range [...]*paper{b.a.of, b.b.of} {
			if p.plan != nil && (p.plan.Role == Liner || p.plan.Role == Edging) && !p.rubbed && len(t.gapsUnder(p)) > 0 {
				return fmt.Errorf("%s dries before it has been rubbed down into the hinges", p)
			}
			if err := t.rubbedIn(p); err != nil {
				return err
			}
		}
		b.wet, dried = false, true
	}
	if !dried {
		return fmt.Errorf("nothing is wet of what this step rests on")
	}
	return nil
}

// measure measures the open cover. From then on its boards lie as measured.
func (t *table) measure(m work.Measure) error {
	if err := t.findRow(); err != nil {
		return err
	}
	var laid units.Rect
	for _, b := range t.job.Row {
		laid = laid.Union(b.Laid)
	}
	switch {
	case t.measured:
		return fmt.Errorf("the cover is measured twice")
	case laid.Size() != m.Planned || t.job.Planned != m.Planned || t.job.Expected != m.Expected:
		return fmt.Errorf("measured against %v and %v; the boards lie %v, expected %v", m.Planned, m.Expected, laid.Size(), t.job.Expected)
	}
	for _, b := range t.bonds {
		if b.wet && b.a.of.body == t.row {
			return fmt.Errorf("the cover is measured while it is wet")
		}
	}
	for _, p := range t.row.papers {
		if p.plan != nil && p.plan.Role == Strip && !p.rubbed && len(t.gapsUnder(p)) > 0 {
			return fmt.Errorf("%s has not been rubbed down into the hinges", p)
		}
	}
	if err := t.edgesCovered(); err != nil {
		return err
	}
	if err := t.coveringsLie(); err != nil {
		return err
	}
	t.measured = true
	t.note("measure")
	for _, b := range t.job.Row {
		p := t.find(work.Piece, b.Piece, b.Copy)
		f := p.facets[0]
		by := units.Point{X: b.Made.Min.X - b.Laid.Min.X, Y: b.Made.Min.Y - b.Laid.Min.Y}
		for _, h := range p.holes {
			if h.magnet != nil {
				h.magnet.facets[0].put(h.magnet.facets[0].lies.moved(by))
			}
		}
		f.area = rectRegion(units.RectAt(units.Point{}, b.Made.Size()))
		f.put(asDrawn.moved(b.Made.Min.Plus(t.rowAt)))
	}
	return nil
}

// edgesCovered objects where an outer edge of a board is bare: the covering must
// stand against all of it, up to the board's thickness.
func (t *table) edgesCovered() error {
	for i, b := range t.job.Row {
		p := t.find(work.Piece, b.Piece, b.Copy)
		edges := []score.Edge{score.Head, score.Tail}
		if i == 0 {
			edges = append(edges, score.Left)
		}
		if i == len(t.job.Row)-1 {
			edges = append(edges, score.Right)
		}
		for _, e := range edges {
			r := units.RectAt(units.Point{}, p.size)
			switch e {
			case score.Head:
				r.Min.Y, r.Max.Y = -p.caliper, 0
			case score.Tail:
				r.Min.Y, r.Max.Y = r.Max.Y, r.Max.Y+p.caliper
			case score.Left:
				r.Min.X, r.Max.X = -p.caliper, 0
			case score.Right:
				r.Min.X, r.Max.X = r.Max.X, r.Max.X+p.caliper
			}
			if !rectRegion(r).minus(p.edges[e]).empty() {
				return fmt.Errorf("%s is bare at the %v", p, e)
			}
		}
	}
	return nil
}

func (t *table) refit(r work.Refit) error {
	switch {
	case !t.measured:
		return fmt.Errorf("refitted before the cover has been measured")
	case t.refitted:
		return fmt.Errorf("refitted twice")
	case r.Done != (t.job.Measured != units.Size{}) || r.Size != t.job.Measured:
		return fmt.Errorf("refitted to %v; measured %v", r.Size, t.job.Measured)
	}
	t.refitted = true
	t.note("refit")
	return nil
}

// coveringsLie compares what covers the boards with the plan. What has been
// turned in is laid out flat again.
func (t *table) coveringsLie() error {
	for _, w := range t.job.Want {
		p := t.find(work.Piece, w.Piece, w.Copy)
		if p == nil || p.plan.Role != Covering && p.plan.Role != Strip {
			continue
		}
		lies := p.facets[0].lies.moved(units.Point{X: -t.rowAt.X, Y: -t.rowAt.Y})
		if r := lies.rect(units.RectAt(units.Point{}, p.size)); r != w.Rect {
			return fmt.Errorf("%s lies at %v in the row; planned %v", p, r, w.Rect)
		}
		if lies.up() != w.Up {
			return fmt.Errorf("%s lies with its %v up; planned the %v", p, lies.up(), w.Up)
		}
		if !p.trimmedTo.same(rectRegion(units.RectAt(units.Point{}, p.size)).minus(p.plan.outline())) {
			return fmt.Errorf("%s is not cut to its outline", p)
		}
	}
	return nil
}
