package answers

import (
	"errors"
	"slices"

	"boardwrap.example/examples/web/planner"
	"boardwrap.example/folio"
	"boardwrap.example/folio/cost"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/wire"
	"boardwrap.example/units/check"
)

// handout answers with the hand-out of a folio; the second text is its form:
// html, which is the usual one, markdown or plain. The third is a batch, on whose
// sheets the folio is laid out; without one it is laid out alone, on the sheets
// that its Spec says are at hand.
func handout(d *planner.Desk, texts [3]string) ([]byte, error) {
	p, err := d.Build(texts[0])
	if err != nil {
		return nil, err
	}
	batch := wire.Batch{}
	if texts[2] != "" {
		if batch, err = wire.ReadBatch([]byte(texts[2])); err != nil {
			return nil, err
		}
	}
	o, err := printed(p, batch)
	if err != nil {
		return nil, err
	}
	o.Format.Typographic = texts[1] == "" || texts[1] == "html"
	return document("handout", guide.HandOut(p, o), texts[1])
}

// printed lays a plan out on the sheets of a batch, among as many copies of it as
// are in that, one at least, and says what has no place.
func printed(p *folio.Plan, b wire.Batch) (guide.PrintOptions, error) {
	var o guide.PrintOptions
	copies := 0
	for _, f := range b.Folios {
		copies += max(f.Copies, 0)
	}
	job := layout.Job{Folios: []layout.Folio{{Plan: p, Copies: max(copies, 1)}}, Materials: b.Materials, Except: b.Except, Cutter: b.Cutter, Keep: b.Keep}
	job, without := job.Stocked()
	job.Except = append(job.Except, without...)
	if !slices.ContainsFunc(job.Materials, func(m layout.Material) bool { return len(m.Sheets) > 0 }) {
		return o, nil // no sheets at hand: the hand-out says what each piece would be cut from
	}
	l, err := layout.Lay(nil, job, layout.Budget{Steps: searchSteps})
	if l == nil {
		return o, under("batch", err)
	}
	if lacking, ok := errors.AsType[*check.Error](err); ok {
		for v := range lacking.All() {
			o.Notes = append(o.Notes, "Not everything has a place on the sheets: "+v.Error()+".")
		}
	}
	o.Layout = l
	return o, nil
}

// templates answers with what is easier traced than measured, at full size.
func templates(d *planner.Desk, texts [3]string) ([]byte, error) {
	p, err := d.Build(texts[0])
	if err != nil {
		return nil, err
	}
	return document("templates", guide.Templates(p, guide.PrintOptions{}), texts[1])
}

// lists answers with a list of a batch: what to buy, which is the usual one, how to
// cut the sheets up, or the prices. The third text is the form.
func lists(_ *planner.Desk, texts [3]string) ([]byte, error) {
	b, err := wire.ReadBatch([]byte(texts[0]))
	if err != nil {
		return nil, err
	}
	job, _, err := jobOf(b)
	if err != nil {
		return nil, err
	}
	l, err := layout.Lay(nil, job, layout.Budget{Steps: searchSteps})
	if err != nil {
		return nil, under("batch", err)
	}
	var doc *guide.Document
	switch texts[1] {
	case "", "buy":
		doc = guide.ShoppingList(l, guide.PrintOptions{})
	case "cut":
		doc = guide.CuttingBook(l, guide.PrintOptions{})
	case "prices":
		c, err := cost.Of(l, b.Costs)
		if err != nil {
			return nil, under("batch.costs", err)
		}
		doc = guide.PriceList(c, guide.PrintOptions{})
	default:
		return nil, errors.New("a list is buy, cut or prices")
	}
	return document("list", doc, texts[2])
}

// document writes a document in a form.
func document(name string, doc *guide.Document, form string) ([]byte, error) {
	var text []byte
	switch form {
	case "", "html":
		text = doc.AppendHTML(nil)
	case "markdown":
		text = doc.AppendMarkdown(nil)
	case "plain":
		text = doc.AppendPlain(nil)
	default:
		return nil, errors.New("a document is html, markdown or plain")
	}
	return wire.AppendAnswer(nil, map[string]any{"title": doc.Title(), name: string(text)})
}
