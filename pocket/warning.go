package pocket

import (
	"iter"

	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Warnings walks what can be made but is unwise.
func (d Design) Warnings() iter.Seq[check.Warning] {
	w := d.of()
	return func(yield func(check.Warning) bool) { w.warned(d.up, yield) }
}

// warned walks the warnings of a design whose paper lies with one side up.
func (d *design) warned(up work.PaperSide, yield func(check.Warning) bool) {
	for i := range d.warnings {
		if !yield(d.warnings[i].warning(d.ruler.Notation())) {
			return
		}
	}
	if side := d.wrongSide(up); side != "" {
		yield(check.Warning{Code: WrongSideShows, Text: side})
	}
}

// An unwise is a warning whose sentence is only written when somebody wants to read
// it: many designs are made of which only the sizes are asked.
type unwise struct {
	path      string
	code      check.Code
	got, want units.Length
	text      [3]string
	lengths   [2]units.Length // one after each of the first parts of the text; 0 for none
}

func (u *unwise) warning(n units.Notation) check.Warning {
	w := check.Warning{Path: u.path, Code: u.code, Got: u.got, Want: u.want}
	for i, part := range u.text {
		w.Text += part
		if i < len(u.lengths) && u.lengths[i] != 0 {
			w.Text += n.Text(u.lengths[i])
		}
	}
	return w
}
