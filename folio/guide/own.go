package guide

import "slices"

func (b Para) own() Element    { return b }
func (l Texts) own() Element   { return slices.Clone(l) }
func (f Figures) own() Element { return slices.Clone(f) }
func (w Drawing) own() Element { return w }
func (s Scale) own() Element   { return s }

func (b Table) own() Element {
	b.Head, b.Rows = slices.Clone(b.Head), slices.Clone(b.Rows)
	for i, row := range b.Rows {
		b.Rows[i] = slices.Clone(row)
	}
	return b
}

func (c Checklist) own() Element {
	c.Ticks = slices.Clone(c.Ticks)
	for i := range c.Ticks {
		t := &c.Ticks[i]
		t.Cautions, t.Notes, t.Fill = slices.Clone(t.Cautions), slices.Clone(t.Notes), slices.Clone(t.Fill)
		if t.Figure != nil {
			f := *t.Figure
			t.Figure = &f
		}
	}
	return c
}
