package guide

import (
	"slices"
	"strconv"

	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/stick"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
)

// buy lists what to have at hand: sheets, adhesive, what is bought ready made.
func (h *hander) buy() {
	var blocks []Element
	if h.o.Layout != nil {
		blocks = append(blocks, laidSheets(h.o.Layout, h.exact, h.copies(h.o.Layout))...)
		if t := h.sheets(func(stock string) bool { _, ok := h.o.Layout.Material(stock); return !ok }); len(t.Rows) > 0 {
			besides := "Besides, not laid out:"
			if len(blocks) == 0 {
				besides = "Sheets, not laid out:"
			}
			blocks = append(blocks, Para(besides), t)
		}
	} else {
		blocks = append(blocks, Para("Sheets, at most: as many as it takes if each piece is cut from one of its own. Laid out together they may take fewer."),
			h.sheets(func(string) bool { return true }))
	}
	if t := h.adhesive(); len(t.Rows) > 0 {
		blocks = append(blocks, t)
	}
	if t := h.bought(); len(t.Rows) > 0 {
		blocks = append(blocks, t)
	}
	h.section("What to buy", false, blocks...)
}

// copies says for what the sheets of a layout are.
func (h *hander) copies(l *layout.Layout) string {
	job := l.Job()
	if len(job.Folios) == 1 && len(job.Pieces) == 0 && job.Folios[0].Copies == 1 {
		return "Sheets for one folio:"
	}
	return "Sheets for everything that is laid out with this folio:"
}

// sheets lists the sheets that the pieces would be cut from one by one, of the
// materials that are asked for.
func (h *hander) sheets(of func(stock string) bool) Table {
	type need struct {
		stock string
		size  units.Size
	}
	var order []need
	counts, pieces := map[need]int{}, map[need][]string{}
	for p := range h.plan.Pieces() {
		if !of(p.Stock()) || h.plan.Made(p.Role()) {
			continue
		}
		n := need{p.Stock(), p.Source().Size}
		if p.Source().Turned {
			n.size = n.size.Turned()
		}
		if counts[n] == 0 {
			order = append(order, n)
		}
		counts[n] += p.Quantity()
		if !slices.Contains(pieces[n], p.Name()) {
			pieces[n] = append(pieces[n], p.Name())
		}
	}
	t := Table{Head: []string{"Material", "For", "How many", "Sheet"}, Figures: 2, Boxes: true}
	for _, n := range order {
		row := []string{h.stock(n.stock), listed(pieces[n]), "", "any size that holds it"}
		if !n.size.Empty() {
			row[2], row[3] = strconv.Itoa(counts[n]), h.size(n.size)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// stock names a material with what is known of it.
func (h *hander) stock(name string) string {
	s, ok := h.plan.Stock(name)
	if !ok {
		return name
	}
	if s.Caliper != 0 {
		name += ", " + h.thin(s.Caliper).Text(s.Caliper) + " thick"
	}
	if s.Grammage != 0 {
		name += ", " + s.Grammage.String()
	}
	return name
}

// thin is the format for a caliper: decimals of an inch, hundredths of a
// millimetre.
func (h *hander) thin(l units.Length) units.Format {
	f := h.exact
	if f.Ruler.Notation() == units.MetricDecimal {
		f.Ruler = hundredths()
	} else if f.Ruler = units.InchDecimal.Exact(); f.Second != 0 { // not twice in millimetres
		f = figures{f}.onFine(l).bare
	}
	switch {
	case f.Second == 0:
	case f.Second.Notation() == units.MetricDecimal:
		f.Second = hundredths()
	default:
		f.Second = units.Thousandths
	}
	return f
}

// adhesive lists what holds it together. Waste is not counted.
func (h *hander) adhesive() Table {
	t := Table{Head: []string{"Adhesive, without waste", "How much"}, Figures: 1, Boxes: true}
	needs := stick.Of(h.plan)
	for tape := range needs.Tapes() {
		t.Rows = append(t.Rows, []string{"double-sided tape " + h.length(tape.Width()) + " wide", h.length(h.up(tape.Length().Length()))})
	}
	for foam := range needs.Foam() {
		t.Rows = append(t.Rows, []string{"self-adhesive foam for the " + foam.Part().Name, strconv.Itoa(foam.Quantity()) + " x " + h.size(foam.Size())})
	}
	var parts []string
	var glue units.Area
	for g := range needs.Glued() {
		parts, glue = append(parts, g.Part().Name), glue.Plus(g.Area())
	}
	if parts != nil {
		t.Rows = append(t.Rows, []string{"glue for " + listed(parts), areaText(glue, h.exact)})
	}
	return t
}

// areaText writes an area, rounded up.
func areaText(a units.Area, f units.Format) string {
	cm := whole(a, units.Centimetre) + " cm²"
	in := whole(a, units.Inch) + " sq in"
	metric := f.Ruler.Notation() == units.MetricDecimal
	switch {
	case f.Second != 0 && metric:
		return cm + " (" + in + ")"
	case f.Second != 0:
		return in + " (" + cm + ")"
	case metric:
		return cm
	}
	return in
}

// whole returns an area as a whole number of squares of a side, rounded up.
func whole(a units.Area, side units.Length) string {
	n := int(a.Quotient(side.By(side)))
	for side.By(side).Times(int64(n)).Compare(a) < 0 {
		n++
	}
	return strconv.Itoa(n)
}

// bought lists what is neither sheet nor adhesive: ornaments and magnets.
func (h *hander) bought() Table {
	t := Table{Head: []string{"Ready made", "How many"}, Figures: 1, Boxes: true}
	for f := range h.plan.Fittings() {
		for l := range f.Loads() {
			if !l.Held() {
				name := l.Name()
				if f.Name() != "" && f.Name() != name {
					name += ", " + f.Name()
				}
				t.Rows = append(t.Rows, []string{name, strconv.Itoa(l.Count())})
			}
		}
	}
	if m, ok := h.plan.Magnets(); ok {
		n := 0
		for range m.Places() {
			n++
		}
		t.Rows = append(t.Rows, []string{"flat round magnet, " + h.length(h.spec.Magnets.Diameter) + " across, " + h.length(h.spec.Magnets.Thickness) + " thick", strconv.Itoa(n)})
	}
	return t
}

// laidSheets lists the sheets of a layout.
func laidSheets(l *layout.Layout, f units.Format, what string) []Element {
	t := Table{Head: []string{"Material", "How many", "Sheet"}, Figures: 2, Boxes: true}
	var notes Texts
	for m := range l.Materials() {
		for k, n := range m.Used() {
			name := m.Name()
			if k.Offcut {
				name += ", offcuts at hand"
			}
			if n > 0 {
				t.Rows = append(t.Rows, []string{name, strconv.Itoa(n), f.Size(k.Size)})
			}
		}
		if m.Bought() == 0 {
			continue
		}
		proof := "no layout takes fewer than " + strconv.Itoa(m.Bound())
		if m.Proved() {
			proof = "no layout takes fewer"
		}
		notes = append(notes, capital(m.Name())+": "+plural(m.Bought(), "sheet")+" to buy; "+proof+".")
	}
	for w := range l.Warnings() {
		notes = append(notes, capital(w.Text)+".")
	}
	var blocks []Element
	if len(t.Rows) > 0 {
		blocks = append(blocks, Para(what), t)
	}
	if len(notes) > 0 {
		blocks = append(blocks, notes)
	}
	return blocks
}

// grainless reports whether what a piece is cut from has no grain.
func grainless(r stock.PieceRole) bool { return r == stock.FoamPiece || r == stock.FilmPiece }
