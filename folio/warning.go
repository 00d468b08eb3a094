package folio

import (
	"iter"
	"strconv"
	"strings"
	"unicode/utf8"

	"boardwrap.example/units/check"
)

// Warnings walks what can be made but is unwise.
func (p *Plan) Warnings() iter.Seq[check.Warning] { return p.warned }

// warned walks the warnings of the plan, those of a design where its fitting was
// worked out.
func (p *Plan) warned(yield func(check.Warning) bool) {
	told := 0
	for i := range p.fitted {
		f := &p.fitted[i]
		if !f.folded() {
			continue
		}
		for ; told < int(f.warned); told++ {
			if !yield(p.naming(p.warnings[told])) {
				return
			}
		}
		for w := range f.design.Warnings() {
			path := fittingPath(f.index) + ".kind.kind"
			if w.Path != "" {
				path += "." + w.Path
			}
			if w.Path = path; !yield(p.naming(w)) {
				return
			}
		}
	}
	for ; told < len(p.warnings); told++ {
		if !yield(p.naming(p.warnings[told])) {
			return
		}
	}
}

// naming begins a warning about a fitting with the fitting's name, as its user called it,
// where it does not say it: many are read without their paths.
func (p *Plan) naming(w check.Warning) check.Warning {
	at, _, _ := strings.Cut(strings.TrimPrefix(w.Path, "fittings["), "]")
	n, err := strconv.Atoi(at)
	if err != nil { // a path of the case
		return w
	}
	if name := p.fitted[n].Label(); !says(w.Text, name) {
		w.Text = name + ": " + w.Text
	}
	return w
}

// says reports whether a text has a name in it, and not only its letters in a longer
// word: beside it is neither a letter of ASCII nor any character beyond that.
func says(text, name string) bool {
	goesOn := func(c byte) bool { return c >= utf8.RuneSelf || c|0x20 >= 'a' && c|0x20 <= 'z' }
	for at := 0; ; at++ {
		next := strings.Index(text[at:], name)
		if next < 0 {
			return false
		}
		at += next
		if end := at + len(name); (at == 0 || !goesOn(text[at-1])) && (end == len(text) || !goesOn(text[end])) {
			return true
		}
	}
}
