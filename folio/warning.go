package folio

import (
	"iter"

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
			if !yield(p.warnings[told]) {
				return
			}
		}
		for w := range f.design.Warnings() {
			path := fittingPath(f.index) + ".kind.kind"
			if w.Path != "" {
				path += "." + w.Path
			}
			if w.Path = path; !yield(w) {
				return
			}
		}
	}
	for ; told < len(p.warnings); told++ {
		if !yield(p.warnings[told]) {
			return
		}
	}
}
