package folio

import (
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Measured is the cover as it really came out, covered and lying open. A made
// cover measures more than its boards and gaps: the covering goes round its
// edges, and no board is laid quite in its place.
type Measured struct {
	// Width and Height are those of the open cover.
	Width, Height units.Length
	// Panels are the widths of the boards as made, left to right, one for
	// each. Leave the list empty to keep the widths of the plan.
	Panels []units.Length
}

// Refit derives every inside piece again from the cover as measured. Boards and
// wrap stay as they are. What no longer fits is an error that says by how much;
// it is an *[check.Error] with paths of the Spec or of Measured ("measured.width").
// The plan itself is not changed. Refitting with the nominal size of the plan
// gives the same plan.
func (p *Plan) Refit(m Measured) (*Plan, error) {
	m.Panels = append([]units.Length(nil), m.Panels...)
	return build(p.given, &m)
}

// Measured returns what the plan was refitted to, and whether it was.
func (p *Plan) Measured() (Measured, bool) {
	if p.measured == nil {
		return Measured{}, false
	}
	m := *p.measured
	m.Panels = append([]units.Length(nil), m.Panels...)
	return m, true
}

// measure checks the measured cover and lays the boards where they must lie to
// give its width: any difference from the plan is shared out among the gaps.
func (b *builder) measure(m *Measured) {
	p := b.plan
	n := b.notation()
	before := b.bad.Len()
	b.bad.Length("measured.width", m.Width)
	b.bad.Length("measured.height", m.Height)
	if len(m.Panels) != 0 && len(m.Panels) != len(p.boards) {
		b.bad.Malformed("measured.panels", check.OutOfRange, count(len(m.Panels))+" widths", "none, or one for each of the "+count(len(p.boards))+" boards")
	} else {
		for i, w := range m.Panels {
			b.bad.Length(check.Index("measured.panels", i), w)
		}
	}
	if b.bad.Len() > before {
		return
	}
	p.measured = m
	p.openW = b.sum("open width", b.exact(), units.Nearest, units.T("as measured", m.Width))
	p.openH = b.sum("open height", b.exact(), units.Nearest, units.T("as measured", m.Height))

	var boards units.Length
	for i := range p.boards {
		boards += p.panelWidth(i)
	}
	gaps := m.Width - boards
	var least units.Length
	for _, g := range p.gaps {
		least += g.least
	}
	if gaps < least {
		b.bad.Short("measured.width", check.TooSmall, n, m.Width, boards+least, "so that the hinges can close")
		return
	}
	var nominal units.Length
	for _, g := range p.gaps {
		nominal += g.width.Length()
	}
	// What the gaps differ by is shared equally, the rest going to the last.
	extra := gaps - nominal
	share := extra.Half(units.Down)
	if len(p.gaps) > 0 {
		share, _ = extra.Scale(1, int64(len(p.gaps)), units.Down)
	}
	var x units.Length
	for i := range p.boards {
		p.panels[i].x = x
		x += p.panelWidth(i)
		if i == len(p.gaps) {
			break
		}
		g := p.gaps[i].width.Length() + share
		if i == len(p.gaps)-1 {
			g += extra - times(share, len(p.gaps))
		}
		if g < p.gaps[i].least {
			b.bad.Short("measured.width", GapNarrow, n, g, p.gaps[i].least, "in the gap right of the "+p.boards[i].role.String())
		}
		x += g
	}
	// A cover that is off by more than a margin's least is another cover.
	if d := (m.Height - b.openHeight()).Abs(); d > b.spec.Lining.Inset {
		b.warn(check.Warning{Path: "measured.height", Code: WarnMeasured, Got: m.Height, Want: b.openHeight(),
			Text: "the cover measures " + n.Text(m.Height) + " instead of " + n.Text(b.openHeight()) + "; measure again before cutting"})
	}
	if d := (m.Width - b.openWidth()).Abs(); d > times(b.spec.Lining.Inset, len(p.boards)) {
		b.warn(check.Warning{Path: "measured.width", Code: WarnMeasured, Got: m.Width, Want: b.openWidth(),
			Text: "the cover measures " + n.Text(m.Width) + " instead of " + n.Text(b.openWidth()) + "; measure again before cutting"})
	}
}

// times returns n·l; the bounds of a plan keep it in range.
func times(l units.Length, n int) units.Length {
	product, _ := l.Times(int64(n))
	return product
}
