package guide

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"boardwrap.example/folio"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/word"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

// HandOut returns what a maker takes to the bench: the finished folio, what to
// buy, what to cut, what to do in which order with a box to tick for each step,
// and the working of every size. A nil plan, and one that nothing was built of,
// has a hand-out that says so.
func HandOut(p *folio.Plan, o PrintOptions) *Document {
	if !drawable(p) {
		return &Document{title: "No folio", paper: o.Paper, sections: []Section{{Title: "No folio", Blocks: []Element{Para("There is no plan to print.")}}}}
	}
	h := newHander(p, o)
	h.cover()
	h.care()
	h.buy()
	h.pieces()
	if o.Layout != nil {
		h.cutting(o.Layout)
	}
	h.steps()
	h.workings()
	return h.doc
}

// cover is the first page.
func (h *hander) cover() {
	p := h.plan
	rows := [][]string{
		{"Form", h.spec.Form.String()},
	}
	for b := range p.Boards() {
		rows = append(rows, []string{capital(b.Name()) + " board", h.size(b.Size())})
	}
	open := units.Size{W: p.OpenWidth().Length(), H: p.OpenHeight().Length()}
	if m, ok := p.Measured(); ok {
		rows = append(rows, []string{"Open, as measured", h.size(units.Size{W: m.Width, H: m.Height})})
	} else {
		rows = append(rows, []string{"Open, before covering", h.size(open)})
	}
	if c, ok := p.Overall(true); ok {
		size := units.Size{W: h.up(c.Size().W), H: h.up(c.Size().H)}
		rows = append(rows, []string{"Closed, filled, at most", h.exact.Size(size) + ", " + h.exact.Text(h.up(c.Thickness().Length())) + " thick"})
	}
	if held := h.held(); len(held) > 0 {
		rows = append(rows, []string{"Holds", strings.Join(held, "; ")})
	}
	s := Section{Title: h.doc.title}
	s.add(Table{Rows: rows}, h.finished())
	h.doc.sections = append(h.doc.sections, s)
}

// held tells what the folio is made to hold, in the order of the fittings.
func (h *hander) held() []string {
	var names []string
	counts := map[string]int{}
	for f := range h.plan.Fittings() {
		for l := range f.Loads() {
			if !l.Held() {
				continue
			}
			if counts[l.Name()] == 0 {
				names = append(names, l.Name())
			}
			counts[l.Name()] += l.Count()
		}
	}
	for i, name := range names {
		names[i] = strconv.Itoa(counts[name]) + " x " + cmp.Or(name, "content")
	}
	return names
}

// finished shows the folio open and closed, both on the first page.
func (h *hander) finished() Figures {
	o := h.draw
	o.Fit.H = 75 * units.Millimetre
	var f Figures
	pic, ok := Inside(h.plan, o)
	f = f.add(pic, ok, "Open, seen from inside")
	o.Fit.H = 45 * units.Millimetre
	pic, ok = Closed(h.plan, o)
	return f.add(pic, ok, "Closed, seen from the head")
}

// care lists what to heed: what is unwise in the plan, and the cautions of the
// steps.
func (h *hander) care() {
	var warnings Texts
	for w := range h.plan.Warnings() {
		warnings = append(warnings, capital(w.Text)+".")
	}
	for _, n := range h.o.Notes {
		warnings = append(warnings, n)
	}
	if slices.ContainsFunc(h.all, work.Step.Sided) {
		warnings = append(warnings, work.Sides)
	}
	var cautions Table
	for _, c := range h.cautions {
		cautions.Rows = append(cautions.Rows, cautionRow(c.Text()))
	}
	var blocks []Element
	if len(warnings) > 0 {
		blocks = append(blocks, warnings)
	}
	// Whatever is made, something is cut.
	h.section("Before you begin", true, append(blocks, cautions, Scale{})...)
}

// pieces lists everything that is cut, and draws what is more than a rectangle.
func (h *hander) pieces() {
	t := Table{Head: []string{"Piece", "Material", "How many", "Width x height"}, Figures: 2, Boxes: true}
	done := Table{Head: t.Head, Figures: 2}
	var shapes Figures
	var either []string
	wrapped := false
	i := 0
	for p := range h.plan.Pieces() {
		name := fullName(p.Name(), p.Part())
		if p.Grain() == stock.GrainAny && !grainless(p.Role()) {
			if name != p.Name() { // no second comma in a list
				either = append(either, p.Name()+" of "+word.The(p.Part()))
			} else {
				either = append(either, name)
			}
		}
		row := []string{name, p.Stock(), strconv.Itoa(p.Quantity()), h.size(p.Size())}
		if h.plan.Made(p.Role()) {
			done.Rows = append(done.Rows, row)
		} else {
			t.Rows = append(t.Rows, row)
		}
		if p.Role() == stock.CoveringPiece || p.Role() == stock.StripPiece {
			if !wrapped {
				pic, ok := Wrap(h.plan, h.draw)
				shapes = shapes.add(pic, ok, "The boards on the wrap")
			}
			wrapped = true
		} else if shaped(p) {
			pic, ok := piecePicture(h.plan, p, i, cutOf(slices.Values(h.all), i), h.draw)
			shapes = shapes.add(pic, ok, capital(name)+", "+h.size(p.Size()))
		}
		i++
	}
	for f := range h.plan.Fittings() {
		pic, ok := stripPicture(h.plan, slices.Values(h.all), f.Index(), h.draw)
		shapes = shapes.add(pic, ok, capital(f.Label())+", folded, in section")
		pic, ok = accordionPicture(h.plan, slices.Values(h.all), f.Index(), h.draw)
		shapes = shapes.add(pic, ok, capital(f.Label())+", opened")
	}
	grain := "The grain runs along the height of each piece, parallel to the spine."
	if len(either) > 0 {
		grain = "The grain runs along the height of each piece, parallel to the spine; either way in the " + listed(either) + "."
	}
	var blocks []Element
	if len(done.Rows) > 0 {
		blocks = append(blocks, Para("Made already, as the cover has been measured:"), done)
		var changes Texts
		for c := range h.plan.Changes() {
			changes = append(changes, capital(c.String())+".")
		}
		if len(changes) > 0 {
			blocks = append(blocks, Para("By what it measures this has changed:"), changes)
		}
		blocks = append(blocks, Para("To cut now:"))
	}
	blocks = append(blocks, t, Para(grain))
	if len(shapes) > 0 {
		blocks = append(blocks, shapes)
	}
	h.section("What to cut", false, blocks...)
}

// shaped reports whether a piece is more than a rectangle.
func shaped(p folio.Piece) bool {
	if _, ok := p.Blank(); ok {
		return true
	}
	for range p.Openings() {
		return true
	}
	return false
}

// workings is the appendix.
func (h *hander) workings() {
	var list Texts
	for w := range h.plan.Workings() {
		list = append(list, string(w.AppendLine(nil, h.exact.Typographic)))
	}
	blocks := []Element{Para("How every size came about. Each is computed exactly and put on the ruler once; ~ stands before what is rounded here.")}
	if h.exact.Typographic {
		blocks[0] = Para("How every size came about. Each is computed exactly and put on the ruler once; ≈ stands before what is rounded here.")
	}
	if t, ok := h.plan.Tightest(true); ok {
		list = append(list, "at the tightest place, filled: "+t.String())
	}
	h.section("Workings", true, append(blocks, list)...)
}
