package guide

import (
	"slices"
	"strconv"

	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/stick"
	"boardwrap.example/units"
)

// CuttingBook returns how the sheets of a layout are cut up: what is wanted, the
// sheets, each drawn where it is taken in hand, every cut in order with a box to
// tick, and what is left.
func CuttingBook(l *layout.Layout, o PrintOptions) *Document {
	b := newBatch(l, o, "Cutting book")
	if l == nil {
		return b.doc
	}
	b.wanted()
	b.section("Sheets", false, laidSheets(l, b.f, "From the sheets and offcuts at hand, and those to buy:")...)
	b.lacks()
	b.section("Cutting", true, cuttingBlocks(l, b.f, o.Paper)...)
	b.offcuts()
	return b.doc
}

// ShoppingList returns what to buy for a layout: the sheets, with their prices
// where they are known, and the adhesive that all copies take, without waste.
func ShoppingList(l *layout.Layout, o PrintOptions) *Document {
	b := newBatch(l, o, "Shopping list")
	if l == nil {
		return b.doc
	}
	t := Table{Head: []string{"Material", "How many", "Sheet"}, Figures: 2, Boxes: true}
	priced := false
	for m := range l.Materials() {
		priced = priced || m.Price().Minor > 0
	}
	if priced {
		t.Head, t.Figures = append(t.Head, "Price of one", "Together"), 4
	}
	for m := range l.Materials() {
		for k, n := range m.Used() {
			if n == 0 || k.Offcut {
				continue
			}
			row := []string{m.Name(), strconv.Itoa(n), b.f.Size(k.Size)}
			if priced {
				sum, err := k.Price.Times(int64(n))
				if err != nil || sum.Minor == 0 {
					row = append(row, "", "")
				} else {
					row = append(row, k.Price.String(), sum.String())
				}
			}
			t.Rows = append(t.Rows, row)
		}
	}
	b.add(t)
	if t := b.adhesive(); len(t.Rows) > 0 {
		b.add(t)
	}
	return b.doc
}

// adhesive lists what sticks all copies together: tape by width, glue by area.
func (b *batch) adhesive() Table {
	type tape struct{ width, length units.Length }
	var tapes []tape
	var glue units.Area
	for _, f := range b.l.Job().Folios {
		if f.Copies <= 0 {
			continue
		}
		copies := int64(f.Copies)
		needs := stick.Of(f.Plan)
		glue = glue.Plus(needs.Glue().Times(copies))
		for t := range needs.Tapes() {
			i := slices.IndexFunc(tapes, func(k tape) bool { return k.width == t.Width() })
			if i < 0 {
				i = len(tapes)
				tapes = append(tapes, tape{width: t.Width()})
			}
			n, _ := t.Length().Length().Times(copies)
			tapes[i].length += n
		}
	}
	t := Table{Head: []string{"Adhesive, without waste", "How much"}, Figures: 1, Boxes: true}
	for _, k := range tapes {
		t.Rows = append(t.Rows, []string{"double-sided tape " + b.f.Text(k.width) + " wide", b.f.Text(wholeSteps(k.length, b.f))})
	}
	if glue.Sign() > 0 {
		t.Rows = append(t.Rows, []string{"glue", areaText(glue, b.f)})
	}
	return t
}

// wholeSteps rounds a length up to whole inches or centimetres.
func wholeSteps(l units.Length, f units.Format) units.Length {
	step := units.Inch
	if f.Ruler.Notation() == units.MetricDecimal {
		step = units.Centimetre
	}
	n := l / step
	if n*step < l {
		n++
	}
	return n * step
}

// A batch puts the documents of a layout together.
type batch struct {
	doc *Document
	l   *layout.Layout
	f   units.Format
}

func newBatch(l *layout.Layout, o PrintOptions, title string) *batch {
	b := &batch{doc: &Document{title: title, paper: o.Paper}, l: l, f: o.Format}
	b.f.Bare = false
	b.doc.sections = []Section{{Title: title}}
	if l == nil {
		b.add(Para("There is no layout to print."))
		return b
	}
	if b.f.Ruler == 0 {
		b.f.Ruler = l.Notation().Exact()
	}
	return b
}

// add adds to the first section.
func (b *batch) add(blocks ...Element) { b.doc.sections[0].add(blocks...) }

func (b *batch) section(title string, page bool, blocks ...Element) {
	b.doc.sections = append(b.doc.sections, Section{Title: title, Page: page, Blocks: blocks})
}

// wanted lists the folios and the pieces of each.
func (b *batch) wanted() {
	folios := b.l.Job().Folios
	name := func(i int) string {
		if n := folios[i].Name; n != "" {
			return n
		}
		if t := folios[i].Plan.Spec().Title; t != "" {
			return t
		}
		return "folio " + strconv.Itoa(i+1)
	}
	t := Table{Head: []string{"Piece", "For", "Material", "How many", "Width x height"}, Figures: 2}
	for w := range b.l.Pieces() {
		of := "by hand"
		if i, ok := w.Folio(); ok {
			of = name(i)
		}
		t.Rows = append(t.Rows, []string{fullName(w.Name(), w.Part()), of, w.Material(), strconv.Itoa(w.Quantity()), b.f.Size(w.Size())})
	}
	b.add(t)
}

// lacks says what could not be laid.
func (b *batch) lacks() {
	var list Texts
	for m := range b.l.Materials() {
		for s := range m.Short() {
			w := s.Piece()
			list = append(list, plural(s.Copies(), w.Name())+", "+b.f.Size(w.Size())+", of "+m.Name())
		}
	}
	if len(list) > 0 {
		b.section("What lacks a sheet", false, list)
	}
}

// offcuts lists what is left, the largest first.
func (b *batch) offcuts() {
	t := Table{Head: []string{"Offcut of", "How many", "Size"}, Figures: 2}
	for m := range b.l.Materials() {
		var last units.Size
		n := 0
		put := func() {
			if n > 0 {
				t.Rows = append(t.Rows, []string{m.Name(), strconv.Itoa(n), b.f.Size(last)})
			}
			n = 0
		}
		for o := range m.Offcuts() {
			if o.Size() != last {
				put()
				last = o.Size()
			}
			n += o.Count()
		}
		put()
	}
	if len(t.Rows) > 0 {
		b.section("Offcuts to keep", false, t)
	}
}

// cuttingBlocks tells how the sheets are cut up, material by material.
func cuttingBlocks(l *layout.Layout, f units.Format, paper PaperSize) []Element {
	if f.Ruler == 0 {
		f.Ruler = l.Notation().Exact()
	}
	draw := pictured(f, paper)
	var cautions Table
	var known []string
	var blocks []Element
	list := Checklist{}
	put := func() {
		if len(list.Ticks) > 0 {
			blocks = append(blocks, list)
		}
	}
	for s := range l.Steps() {
		if s.Material() != list.Part {
			put()
			list = Checklist{Part: s.Material()}
		}
		t := Tick{Number: s.Number(), Text: s.Text(f)}
		if c := s.Care(); c != "" {
			row := cautionRow(c)
			if !slices.Contains(known, c) {
				known = append(known, c)
				cautions.Rows = append(cautions.Rows, row)
			}
			t.Cautions = []string{lower(row[0])}
		}
		if s.Takes() {
			for n := range s.Sheets() {
				if pic, ok := Sheet(l, n, draw); ok {
					t.Figure = &Figure{Picture: pic}
				}
			}
		}
		list.Ticks = append(list.Ticks, t)
	}
	put()
	if len(cautions.Rows) > 0 {
		blocks = append([]Element{cautions}, blocks...)
	}
	return blocks
}
