package pocket

import (
	"slices"

	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// jointTab is the tab of a joint; by default it is no deeper than the panel
// that it is glued to.
func (m *maker) jointTab(given, panel units.Length) units.Length {
	if given == 0 {
		return min(m.tab(0), panel)
	}
	return given
}

// A hiding is a fold at which two strips may be joined.
type hiding struct {
	fold int // counted from 1
	at   units.Length
}

// A longStrip is cut from one sheet if that is long enough, otherwise joined
// from several.
type longStrip struct {
	name       string
	quantity   int
	total      *units.Working // its whole length
	breadth    *units.Working
	lines      []score.Line // upright, in rising order, from edge to edge
	folds      []crease     // in the order in which they are made
	hide       []hiding     // in rising order
	tab        units.Length // of a joint
	foot       units.Length // turned up along the tail, before the other folds; cut off below tabs
	footGlue   units.Length // of the foot, at both ends of every strip
	edges      []score.Tab  // tabs at the left and right end of the whole strip
	endCut     units.Length // width of the right end tab, where there is a foot
	notches    []score.Notch
	sheetBound units.Length // a strip at hand that must do; 0: the paper's sheet
	over       bool         // it lies turned over
}

// A link is one of the strips of a chain that are joined into a longer one: a
// copy of a piece that begins so far from the beginning of the whole, without
// the tab that reaches under it.
type link struct {
	piece, copy int
	from        units.Length
}

// joints returns where a long strip is joined, each joint as far along as the
// sheet allows, and whether it can be.
func (m *maker) joints(s longStrip) ([]hiding, bool) {
	total := s.total.Length()
	sheet, fits := m.d.paper.longestSheet(s.breadth.Length())
	if !fits {
		return nil, false
	}
	if s.sheetBound > 0 {
		sheet = s.sheetBound
	}
	var cutAt []hiding
	var from units.Length
	for i := 0; from+sheet < total; {
		best := -1
		for ; i < len(s.hide) && s.hide[i].at+s.tab <= from+sheet; i++ {
			best = i
		}
		if best < 0 {
			return nil, false
		}
		cutAt = append(cutAt, s.hide[best])
		from = s.hide[best].at
	}
	return cutAt, true
}

// cannotJoin says what sheet it would take to join a strip: one that reaches
// from each fold to the next and its tab.
func (m *maker) cannotJoin(s longStrip) {
	total, breadth := s.total.Length(), s.breadth.Length()
	sheet, fits := m.d.paper.longestSheet(breadth)
	if !fits {
		m.fits(s.name, units.Size{W: min(total, breadth), H: breadth})
		return
	}
	var least, from units.Length
	for _, h := range s.hide {
		least = max(least, h.at+s.tab-from)
		from = h.at
	}
	least = m.r.Up(min(total, max(least, total-from)))
	path := "paper.sheet.w"
	if h := m.d.paper.Sheet.H; h > 0 && h < breadth { // it lies along the other side
		path = "paper.sheet.h"
	}
	m.Short(path, check.TooSmall, m.n, sheet, least, "to join the "+s.name+" at a fold, by "+m.text(breadth))
}

// long makes the pieces of a long strip and returns the joints.
func (m *maker) long(s longStrip) (joints []Splice) {
	cutAt, ok := m.joints(s)
	if !ok {
		m.cannotJoin(s)
		return nil
	}
	total := s.total.Length()
	chains := make([][]link, s.quantity)
	var from units.Length
	for i := 0; i <= len(cutAt); i++ {
		to, end := total, total
		if i < len(cutAt) {
			to = cutAt[i].at
			end = to + s.tab
			joints = append(joints, Splice{cutAt[i].fold, to, s.tab})
		}
		piece, copy := m.stripPart(s, i, len(cutAt), from, to, end)
		for q := range chains {
			chains[q] = append(chains[q], link{piece, copy + q, from})
		}
		from = to
	}
	m.d.chains = append(m.d.chains, chains...)
	return joints
}

// stripPart adds the part of a long strip between two places, with a tab from
// to to end. It returns the piece and its first copy.
func (m *maker) stripPart(s longStrip, i, joints int, from, to, end units.Length) (piece, copy int) {
	cut := end - to
	if i == joints {
		cut = s.endCut
	}
	d := m.stripDrawing(s, from, end, cut)
	tall := s.breadth.Length()
	for _, t := range s.edges {
		if t.Edge == score.Left && i == 0 || t.Edge == score.Right && i == joints {
			d.Tabs = append(d.Tabs, t)
		}
	}
	if i < joints {
		d.Tabs = append(d.Tabs, score.Tab{Edge: score.Right, Depth: s.tab, To: tall - s.foot})
	}
	if s.foot > 0 {
		d.CutOuts = append(d.CutOuts, score.CutOut{Area: rect(end-from-cut, tall-s.foot, cut, s.foot)})
	}
	for _, n := range s.notches {
		if n.Middle > from && n.Middle < to {
			n.Middle -= from
			d.Notches = append(d.Notches, n)
		}
	}
	name, width := s.name, s.total
	if joints > 0 {
		for at := range m.d.pieces {
			if p := &m.d.pieces[at]; p.width.Label() == s.name+" strip" && p.width.Length() == end-from && sameDrawing(p.blank.Draft(), d) {
				p.quantity += s.quantity
				return at, p.quantity - s.quantity
			}
		}
		name += " strip " + letters(m.kinds(s))
		width = m.exact(s.name+" strip", units.T("panels", to-from), units.T("joint tab", end-to))
	}
	at := m.piece(name, s.quantity, width, s.breadth, d)
	p := &m.d.pieces[at]
	p.over = s.over
	if s.foot > 0 {
		p.folds = append(p.folds, crease{axis: score.Level, at: tall - s.foot, to: end - from - cut, moves: score.Tail})
	}
	for _, f := range s.folds {
		if f.at > from && f.at < end {
			f.at -= from
			p.folds = append(p.folds, f)
		}
	}
	return at, 0
}

// kinds counts the different parts that a long strip has so far.
func (m *maker) kinds(s longStrip) (n int) {
	for i := range m.d.pieces {
		if m.d.pieces[i].width.Label() == s.name+" strip" {
			n++
		}
	}
	return n
}

// letters numbers from 0 in letters, which no size after them can be taken for:
// A to Z, then AA. A number after a name would read as part of the size.
func letters(n int) string {
	last := string(rune('A' + n%26))
	if n < 26 {
		return last
	}
	return letters(n/26-1) + last
}

// stripDrawing draws the lines of a part of a long strip, and the glue of its
// foot. Where there is a foot, none is left below the tab at the right end, cut
// wide.
func (m *maker) stripDrawing(s longStrip, from, end, cut units.Length) (d score.Draft) {
	tall := s.breadth.Length()
	if s.foot > 0 {
		d.Lines = append(d.Lines, score.Line{Axis: score.Level, At: tall - s.foot, To: end - from - cut, Fold: score.Valley})
		d.Glue = append(d.Glue, score.Glue{Area: rect(0, tall-s.foot, s.footGlue, s.foot)},
			score.Glue{Area: rect(end-from-cut-s.footGlue, tall-s.foot, s.footGlue, s.foot)})
	}
	for _, l := range s.lines {
		if l.At <= from || l.At >= end {
			continue
		}
		l.At -= from
		if s.foot > 0 {
			// The foot lies face down on the panel by then, so that its part
			// of the line is of the other kind. Below a tab there is none.
			l.To = tall - s.foot
			if l.At < end-from-cut {
				d.Lines = append(d.Lines, l)
				l.From, l.To, l.Fold = l.To, tall, l.Fold.Other()
			}
		}
		d.Lines = append(d.Lines, l)
	}
	return d
}

// sameDrawing reports whether a blank's drawing is the one that d makes; the
// blank has the ends of its lines and tabs filled in.
func sameDrawing(blank, d score.Draft) bool {
	return slices.EqualFunc(blank.Lines, d.Lines, func(a, b score.Line) bool {
		return a.Axis == b.Axis && a.At == b.At && a.From == b.From && a.Fold == b.Fold
	}) && slices.Equal(blank.CutOuts, d.CutOuts) && slices.Equal(blank.Glue, d.Glue) && slices.Equal(blank.Notches, d.Notches) &&
		slices.EqualFunc(blank.Tabs, d.Tabs, func(a, b score.Tab) bool { return a.Edge == b.Edge && a.Depth == b.Depth && a.Side == b.Side })
}

// join joins the strips of a chain, flat: each one is laid on the tab of the
// one before.
func (o *order) join(chain []link) {
	for i := 1; i < len(chain); i++ {
		a, b := chain[i-1], chain[i]
		x := b.from - a.from
		size := o.d.pieces[b.piece].blank.Size()
		tab := o.d.pieces[a.piece].blank.Size().W - x
		_, area := tabsOf(o.d.pieces[a.piece].blank)
		size.H = area.Size().H // a foot is turned up by then
		o.fix(whole(work.Fix{What: o.one(b.piece, b.copy), On: o.on(a.piece, a.copy), At: at(x, 0),
			Areas: []units.Rect{rect(0, 0, tab, area.Size().H)}, Size: size}))
	}
	if len(chain) > 1 {
		o.dry("the joints", o.links(chain)...)
	}
}

// links returns the things of a chain.
func (o *order) links(chain []link) []work.Object {
	var all []work.Object
	for _, l := range chain {
		all = append(all, o.one(l.piece, l.copy))
	}
	return all
}

// foldChain makes the folds of a joined strip along an axis, from its last strip
// back where last says so, a step for each strip.
func (o *order) foldChain(chain []link, axis score.Axis, last bool) {
	var creases, folds []work.Action // what is only creased comes first, while all lies flat
	var ends []int                   // of the folds of each strip
	for i := range chain {
		l := chain[i]
		if last {
			l = chain[len(chain)-1-i]
		}
		for _, f := range o.d.pieces[l.piece].folds {
			switch {
			case f.axis != axis:
			case f.end == creased:
				creases = append(creases, f.action(o.one(l.piece, l.copy)))
			default:
				folds = append(folds, f.action(o.one(l.piece, l.copy)))
			}
		}
		ends = append(ends, len(folds))
	}
	from := 0
	for i, end := range ends {
		do := folds[from:end]
		if i == 0 {
			do = append(creases, do...)
		}
		o.do(work.TaskFold, do...)
		from = end
	}
}

// creaseChain creases all folds of a joined strip, and leaves it lying flat.
func (o *order) creaseChain(chain []link) {
	var actions []work.Action
	for _, l := range chain {
		for _, f := range o.d.pieces[l.piece].folds {
			// It still lies face up, and its part beyond the fold turns the
			// other way than when it is turned over.
			crease := f.action(o.one(l.piece, l.copy))
			crease.Open, crease.Flat = true, true
			if crease.Way = work.Towards; o.kindAt(l.piece, f) == score.Mountain {
				crease.Way = work.Away
			}
			actions = append(actions, crease)
		}
	}
	o.do(work.TaskFold, actions...)
}

// kindAt returns the kind of a fold, as seen from the face.
func (o *order) kindAt(piece int, f crease) score.Fold {
	for _, l := range o.d.pieces[piece].blank.Lines() {
		if l.Axis == f.axis && l.At == f.at {
			return l.Fold
		}
	}
	return score.Valley
}

// foldBetween makes the folds of a joined strip between two places of the
// whole.
func (o *order) foldBetween(chain []link, from, to units.Length) {
	var actions []work.Action
	for _, l := range chain {
		for _, f := range o.d.pieces[l.piece].folds {
			if at := l.from + f.at; from <= at && at <= to {
				actions = append(actions, f.action(o.one(l.piece, l.copy)))
			}
		}
	}
	o.do(work.TaskFold, actions...)
}

// panelAt returns the panel of a chain that begins at a place of the whole
// strip.
func (o *order) panelAt(chain []link, x units.Length, name string) work.Base {
	var l link
	for _, next := range chain {
		if next.from <= x {
			l = next
		}
	}
	b := o.on(l.piece, l.copy)
	b.Panel, b.Name = 0, name
	for _, line := range o.d.pieces[l.piece].blank.Lines() {
		if line.At <= x-l.from {
			b.Panel++
		}
	}
	return b
}
