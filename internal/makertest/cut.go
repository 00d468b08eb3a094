package makertest

import (
	"errors"
	"fmt"
	"slices"

	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

func (t *table) stock(name string) *Stock {
	for i := range t.job.Stocks {
		if t.job.Stocks[i].Name == name {
			return &t.job.Stocks[i]
		}
	}
	return nil
}

func (t *table) findGrain(g work.FindGrain) error {
	if len(g.Stocks) == 0 {
		return errors.New("the grain of nothing")
	}
	if len(t.papers) > 0 {
		return errors.New("the grain is found when something has been cut already")
	}
	for i, s := range g.Stocks {
		if t.stock(s) == nil || slices.Contains(g.Stocks[:i], s) {
			return fmt.Errorf("the grain of %q, which is not at hand or said twice", s)
		}
	}
	for _, list := range [...]struct {
		said  []work.Object
		grain work.Grain
	}{{g.Across, work.GrainAlongWidth}, {g.Either, work.GrainEither}} {
		var said, are []int
		for i, p := range t.job.Pieces {
			if p.Grain == list.grain && slices.Contains(g.Stocks, p.Stock) {
				are = append(are, i)
			}
		}
		for _, w := range list.said {
			said = append(said, w.Index)
		}
		slices.Sort(said)
		if !slices.Equal(are, said) {
			return fmt.Errorf("the grain runs %v in %v; said of %v", list.grain, are, said)
		}
	}
	t.grain = g.Stocks
	t.note("grain")
	return nil
}

func (t *table) cut(c work.Cut) error {
	w := c.What
	if w.Kind != work.Piece || w.Index < 0 || w.Index >= len(t.job.Pieces) {
		return fmt.Errorf("%s is not to be cut", label(w))
	}
	plan := &t.job.Pieces[w.Index]
	made := 0
	for _, p := range t.papers {
		if p.kind != work.Piece {
			continue
		}
		if p.index == w.Index {
			made++
		} else if w.Name != "" && p.cutFor == t.step.For && p.cutAs == w.Name {
			return fmt.Errorf("%s is called as piece %d of the %s is", label(w), p.index, t.step.For.Name)
		}
	}
	switch {
	case w.Copy != work.All && w.Copy != made:
		return fmt.Errorf("%s: copy %d comes next", label(w), made)
	case c.Count < 1 || made+c.Count > plan.Quantity:
		return fmt.Errorf("%s: %d more than the %d there are; %d are wanted", label(w), c.Count, made, plan.Quantity)
	case w.Copy == work.All && c.Count != plan.Quantity:
		return fmt.Errorf("%s: %d for all of %d", label(w), c.Count, plan.Quantity)
	case c.Size != plan.Size:
		return fmt.Errorf("%s is cut %v; planned %v", label(w), c.Size, plan.Size)
	case c.Up != plan.Up || c.Grain != plan.Grain || c.Upright != plan.Upright:
		return fmt.Errorf("%s lies another way than planned", label(w))
	case plan.Inside && !t.refitted:
		return fmt.Errorf("%s is for the inside, and the cover has not been measured", label(w))
	}
	if err := t.takes(c, plan); err != nil {
		return fmt.Errorf("%s: %w", label(w), err)
	}
	for range c.Count {
		t.note("cut %d %d", w.Index, made)
		p := newPaper(work.Piece, w.Index, made, c.Size)
		p.plan, p.name, p.caliper = plan, plan.Name, plan.Caliper
		p.cutFor, p.cutAs = t.step.For, w.Name
		t.papers = append(t.papers, p)
		made++
	}
	return nil
}

// takes objects where a sheet does not take a piece as it lies.
func (t *table) takes(c work.Cut, plan *Piece) error {
	s := t.stock(c.From.Stock)
	switch {
	case s == nil || c.From.Stock != plan.Stock:
		return fmt.Errorf("cut from %q; planned %q", c.From.Stock, plan.Stock)
	case c.Grain != work.GrainEither && !slices.Contains(t.grain, s.Name):
		return fmt.Errorf("the grain of %q has not been found", s.Name)
	case len(s.Sheets) == 0:
		largest := s.Largest
		if c.From.Turned {
			largest = units.Size{W: largest.H, H: largest.W}
		}
		if c.From.Index != -1 || c.From.Turned && largest == (units.Size{}) || c.From.Size != largest {
			return fmt.Errorf("from sheet %d of %q, %v; at hand is %v", c.From.Index, s.Name, c.From.Size, largest)
		}
		if largest.W > 0 && c.Size.W > largest.W || largest.H > 0 && c.Size.H > largest.H {
			return fmt.Errorf("%v does not go into the sheet of %v", c.Size, largest)
		}
		return nil
	case c.From.Index < 0 || c.From.Index >= len(s.Sheets):
		return fmt.Errorf("%q has no sheet %d", s.Name, c.From.Index)
	}
	sheet := s.Sheets[c.From.Index]
	size, grain := sheet.Size, sheet.Grain
	if c.From.Turned {
		size = units.Size{W: size.H, H: size.W}
		switch grain {
		case work.GrainAlongHeight:
			grain = work.GrainAlongWidth
		case work.GrainAlongWidth:
			grain = work.GrainAlongHeight
		}
	}
	switch {
	case c.From.Size != size:
		return fmt.Errorf("the sheet lies %v; said %v", size, c.From.Size)
	case c.Size.W > size.W || c.Size.H > size.H:
		return fmt.Errorf("%v does not go into the sheet of %v", c.Size, size)
	case c.Grain != work.GrainEither && grain != work.GrainEither && grain != c.Grain:
		return fmt.Errorf("the grain of the sheet runs %v; wanted %v", grain, c.Grain)
	case c.From.Turned && c.Upright:
		return errors.New("the sheet is turned, and the pattern must stand upright")
	}
	return nil
}

// take cuts an area away, which must lie free.
func (t *table) take(p *paper, waste region) error {
	if p.plan == nil {
		return fmt.Errorf("%s is not cut", p)
	}
	if waste.and(p.whole()).empty() {
		return fmt.Errorf("%s: there is nothing to cut away", p)
	}
	for _, f := range p.facets {
		gone := f.lies.region(f.area.and(waste))
		if len(gone) == 0 {
			continue
		}
		for _, g := range p.body.stack {
			if g != f && g.shape.overlaps(gone) {
				return fmt.Errorf("%s is cut where it lies on %s", p, g.of)
			}
		}
	}
	for _, f := range p.facets {
		f.cut(f.area.minus(waste))
	}
	t.note("take %s %v", p, waste)
	return nil
}

func (t *table) open(p *paper, o work.Open) error {
	c := score.CutOut{Area: o.Area, Radius: o.Radius}
	if p.plan == nil || !slices.Contains(p.plan.Openings, c) {
		return fmt.Errorf("%s has no opening %v planned", p, o.Area)
	}
	if slices.Contains(p.opened, c) {
		return fmt.Errorf("%s: the opening %v is cut twice", p, o.Area)
	}
	p.opened = append(p.opened, c)
	return t.take(p, rectRegion(o.Area))
}

// notchArea returns the rectangle round a notch.
func notchArea(n score.Notch, s units.Size) units.Rect {
	from := n.Middle - n.Width/2
	r := units.Rect{Min: units.Point{X: from}, Max: units.Point{X: from + n.Width, Y: n.Depth}}
	switch n.Edge {
	case score.Tail:
		r.Min.Y, r.Max.Y = s.H-n.Depth, s.H
	case score.Left, score.Right:
		r = units.Rect{Min: units.Point{Y: from}, Max: units.Point{X: n.Depth, Y: from + n.Width}}
		if n.Edge == score.Right {
			r.Min.X, r.Max.X = s.W-n.Depth, s.W
		}
	}
	return r
}

func (t *table) notch(p *paper, n work.NotchOut) error {
	if p.plan == nil || !slices.Contains(p.plan.Notches, n.Notch) {
		return fmt.Errorf("%s has no such notch planned: %v", p, n.Notch)
	}
	if slices.Contains(p.notched, n.Notch) {
		return fmt.Errorf("%s is notched twice at one place", p)
	}
	p.notched = append(p.notched, n.Notch)
	return t.take(p, rectRegion(notchArea(n.Notch, p.size)))
}

// trim takes off what lies on the corner's side of a cut: between the cut and
// the two edges of the piece that meet in the corner.
func (t *table) trim(p *paper, c work.Trim) error {
	a, b := vecOf(c.From), vecOf(c.To)
	size := vec{float64(p.size.W), float64(p.size.H)}
	lo, hi := vec{min(a.x, b.x), min(a.y, b.y)}, vec{max(a.x, b.x), max(a.y, b.y)}
	var corner vec
	within := box{vec{}, size}
	switch c.Corner {
	case score.HeadLeft:
		within.max = hi
	case score.HeadRight:
		corner = vec{size.x, 0}
		within.min.x, within.max.y = lo.x, hi.y
	case score.TailRight:
		corner, within.min = size, lo
	case score.TailLeft:
		corner = vec{0, size.y}
		within.max.x, within.min.y = hi.x, lo.y
	default:
		return fmt.Errorf("%s has no corner %d", p, c.Corner)
	}
	for _, v := range [...]vec{a, b} {
		if v.x < 0 || v.y < 0 || v.x > size.x || v.y > size.y {
			return fmt.Errorf("%s is trimmed beyond its edges", p)
		}
		if inside(p.whole(), v) {
			return fmt.Errorf("%s: the cut ends in the middle of it", p)
		}
	}
	if cross(a, b, corner) == 0 {
		return fmt.Errorf("%s: the cut takes off no corner", p)
	}
	if cross(a, b, corner) < 0 {
		a, b = b, a
	}
	bounds := poly{within.min, {within.max.x, within.min.y}, within.max, {within.min.x, within.max.y}}
	waste := bounds.clip(a, b)
	if len(waste) == 0 {
		return fmt.Errorf("%s: the cut takes nothing off", p)
	}
	if p.plan == nil || !(region{waste}).and(p.plan.outline()).empty() {
		return fmt.Errorf("%s is trimmed into what is to stay", p)
	}
	p.trimmed = append(p.trimmed, c.Corner)
	p.trimmedTo = append(p.trimmedTo, waste)
	return t.take(p, region{waste})
}

// inside reports whether a point lies in a region with paper all round it.
func inside(r region, v vec) bool {
	const d = 500 // half a micrometre
	round := region{{{v.x - d, v.y - d}, {v.x + d, v.y - d}, {v.x + d, v.y + d}, {v.x - d, v.y + d}}}
	return round.minus(r).area() < 1
}

// outline returns the planned outline.
func (p *Piece) outline() region {
	if len(p.Outline) > 0 {
		return polygon(p.Outline)
	}
	return rectRegion(units.RectAt(units.Point{}, p.Size))
}

// final returns what is planned to be left of a piece.
func (p *Piece) final() region {
	r := p.outline()
	for _, o := range p.Openings {
		r = r.minus(rectRegion(o.Area))
	}
	for _, n := range p.Notches {
		r = r.minus(rectRegion(notchArea(n, p.Size)))
	}
	return r
}
