package wire

import (
	"boardwrap.example/folio"
	"boardwrap.example/units"
)

// spec reads a Spec, which is as in its own document also in what is written for
// drawing.
func (d *decoder) spec(n *node, to *folio.Spec) {
	mm := d.mm
	d.mm = false
	d.readFolioSpec(n, to)
	d.mm = mm
}

// spec writes a Spec, also within what goes out for drawing, as its own document
// has it, so that it can be read again.
func (e *encoder) spec(s *folio.Spec) {
	mm, all, m := e.mm, e.all, e.mask
	e.mm, e.all, e.mask = false, false, nil
	writeObject(e, s, (*encoder).writeFolioSpec)
	e.mm, e.all, e.mask = mm, all, m
}

// working writes how a size came about.
func (e *encoder) working(w *units.Working) {
	was := &e.shown[spread(w.Length())>>59]
	if e.mask == nil && was.working != nil && was.working.Equal(*w) {
		e.out = append(e.out, e.out[was.from:was.to]...)
		return
	}
	from, m := len(e.out), e.mask
	terms := e.terms[:0]
	for t := range w.Terms() {
		terms = append(terms, term{t.Count, t.Label, t.Length})
	}
	e.terms = terms
	v := working{w.Label(), w.Length(), w.Rounded().From, w.Shares(), terms, workingLine{*w}}
	e.writeWorking(&v)
	if m == nil {
		*was = shown{w, from, len(e.out)}
	}
}
