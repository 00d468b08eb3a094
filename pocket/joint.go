package pocket

import (
	"slices"

	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// tab is the depth of a glue tab at the end of a strip: 1/2 in or 10 mm, as of
// a joint (Korger, Handbook of Type and Lettering).
func (m *maker) tab(given units.Length) units.Length { return m.or(given, in/2, 10*mm) }

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

// A long strip is cut from one sheet if that is long enough, otherwise joined
// from several.
type longStrip struct {
	name       string
	quantity   int
	total      units.Working // its whole length
	breadth    units.Working
	lines      []score.Line // upright, in rising order, from edge to edge
	hide       []hiding     // in rising order
	tab        units.Length // of a joint
	foot       units.Length // turned up along the tail, before the other folds; cut off below tabs
	edges      []score.Tab  // tabs at the left and right end of the whole strip
	endCut     units.Length // width of the right end tab, where there is a foot
	notches    []score.Notch
	glue       []score.Glue // on the whole strip, each on one panel
	sheetBound units.Length // a strip at hand that must do; 0: the paper's sheet
}

// long makes the pieces of a long strip and returns the first one and the
// joints.
func (m *maker) long(s longStrip) (first int, joints []Joint) {
	first = len(m.d.pieces)
	total := s.total.Length()
	sheet, fits := m.d.paper.longestSheet(s.breadth.Length())
	if !fits {
		m.fits(s.name, units.Size{W: min(total, s.breadth.Length()), H: s.breadth.Length()})
		return first, nil
	}
	if s.sheetBound > 0 {
		sheet = s.sheetBound
	}
	var cutAt []hiding
	var from units.Length
	for i := 0; from+sheet < total; {
		best := -1
		for ; i < len(s.hide) && s.hide[i].at+s.tab <= from+sheet; i++ {
			if s.hide[i].at > from && s.hide[i].at < total {
				best = i
			}
		}
		if best < 0 {
			// The least sheet reaches from here to the next fold and its tab.
			least := total - from
			for _, h := range s.hide {
				if h.at > from {
					least = min(least, h.at+s.tab-from)
					break
				}
			}
			m.Short("paper.sheet.w", check.TooSmall, m.n, sheet, m.r.Up(least), "to join the "+s.name+" at a fold, by "+m.text(s.breadth.Length()))
			return first, nil
		}
		cutAt = append(cutAt, s.hide[best])
		from = s.hide[best].at
	}
	from = 0
	for i := 0; i <= len(cutAt); i++ {
		to, end := total, total
		if i < len(cutAt) {
			to = cutAt[i].at
			end = to + s.tab
			joints = append(joints, Joint{cutAt[i].fold, to, s.tab})
		}
		m.stripPart(s, i, len(cutAt), from, to, end)
		from = to
	}
	return first, joints
}

// stripPart adds the part of a long strip between two places, with a tab from
// to to end.
func (m *maker) stripPart(s longStrip, i, joints int, from, to, end units.Length) {
	var d score.Drawing
	tall := s.breadth.Length()
	cut := end - to
	if i == joints {
		cut = s.endCut
	}
	if s.foot > 0 {
		d.Lines = append(d.Lines, score.Line{Axis: score.Level, At: tall - s.foot, To: end - from - cut, Fold: score.Valley})
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
	for _, t := range s.edges {
		if t.Edge == score.Left && i == 0 || t.Edge == score.Right && i == joints {
			d.Tabs = append(d.Tabs, t)
		}
	}
	if i < joints {
		d.Tabs = append(d.Tabs, score.Tab{Edge: score.Right, Depth: s.tab, To: tall - s.foot})
	}
	if s.foot > 0 && cut > 0 {
		d.CutOuts = append(d.CutOuts, score.CutOut{Area: rect(end-from-cut, tall-s.foot, cut, s.foot)})
	}
	for _, n := range s.notches {
		if n.Middle > from && n.Middle < to {
			n.Middle -= from
			d.Notches = append(d.Notches, n)
		}
	}
	for _, g := range s.glue {
		if g.Area.Min.X >= from && g.Area.Max.X <= to {
			g.Area = g.Area.Moved(units.Point{X: -from})
			d.Glue = append(d.Glue, g)
		}
	}
	name, width := s.name, s.total
	if joints > 0 {
		for at := range m.d.pieces {
			if p := &m.d.pieces[at]; p.Quantity > 0 && p.Width.Label() == s.name+" strip" && p.Width.Length() == end-from && sameDrawing(p.Blank.Drawing(), d) {
				p.Quantity += s.quantity
				return
			}
		}
		name += ", strip " + itoa(i+1)
		width = m.exact(s.name+" strip", units.T("panels", to-from), units.T("joint tab", end-to))
	}
	m.piece(name, s.quantity, width, s.breadth, d)
}

// sameDrawing reports whether a blank's drawing is the one that d makes; the
// blank has the ends of its lines and tabs filled in.
func sameDrawing(blank, d score.Drawing) bool {
	return slices.EqualFunc(blank.Lines, d.Lines, func(a, b score.Line) bool {
		return a.Axis == b.Axis && a.At == b.At && a.From == b.From && a.Fold == b.Fold
	}) && slices.Equal(blank.CutOuts, d.CutOuts) && slices.Equal(blank.Glue, d.Glue) && slices.Equal(blank.Notches, d.Notches) &&
		slices.EqualFunc(blank.Tabs, d.Tabs, func(a, b score.Tab) bool { return a.Edge == b.Edge && a.Depth == b.Depth })
}

// tellJoints tells how strips are joined.
func tellJoints(d *Design, t *teller, what string) {
	if len(d.joints) == 0 {
		return
	}
	t.say("Join the strips of ").say(what).say(" by their tabs of ").len(d.joints[0].Tab).say(": the joint lies at fold ")
	for i, j := range d.joints {
		if i > 0 {
			t.say(", ")
		}
		t.count(j.Fold)
	}
	t.say(", which hides it.").done(Glue)
}
