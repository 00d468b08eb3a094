package guide

import (
	"slices"
	"strings"

	"boardwrap.example/folio"
	"boardwrap.example/folio/layout"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

// PrintOptions say how a document is printed. The zero PrintOptions write
// lengths as the plan does, for whatever paper there is.
type PrintOptions struct {
	// Format is how lengths are written; a zero Ruler is the plan's own
	// notation, and Second adds another. Bare is not heeded.
	Format units.Format
	// Paper is what it is printed on.
	Paper PaperSize
	// Layout is how the pieces are laid on sheets; with it the hand-out tells how
	// many sheets to buy and how to cut them up. It may be nil, and may hold
	// other folios besides.
	Layout *layout.Layout
	// Notes are more to heed in a hand-out, each a sentence: what was left out,
	// say.
	Notes []string
}

// A hander puts a hand-out together.
type hander struct {
	doc      *Document
	plan     *folio.Plan
	spec     folio.Spec
	o        PrintOptions
	exact    units.Format // of sizes that are cut or laid
	draw     Options
	all      []work.Step
	cautions []work.Care
}

func newHander(p *folio.Plan, o PrintOptions) *hander {
	o.Format.Bare = false
	h := &hander{plan: p, spec: p.Spec(), o: o, exact: o.Format}
	if o.Format.Ruler == 0 {
		h.exact.Ruler = p.Notation().Exact()
	}
	h.draw = pictured(h.exact, o.Paper)
	title := clean(h.spec.Title)
	if strings.TrimSpace(title) == "" {
		title = "A folio"
	}
	h.doc = &Document{title: title, paper: o.Paper}
	for s := range p.Steps() {
		h.all = append(h.all, s)
		for _, c := range s.Care() {
			if !slices.Contains(h.cautions, c) {
				h.cautions = append(h.cautions, c)
			}
		}
	}
	return h
}

// pictured returns how pictures are drawn for a page: within its margins, two below
// each other.
func pictured(f units.Format, paper PaperSize) Options {
	return Options{Format: f, Fit: units.Size{W: paper.Size().W - 2*margin, H: 110 * units.Millimetre}}
}

// section adds a section, if it says anything.
func (h *hander) section(title string, page bool, b ...Element) {
	if len(b) > 0 {
		h.doc.sections = append(h.doc.sections, Section{Title: title, Page: page, Blocks: b})
	}
}

func (h *hander) length(l units.Length) string { return h.exact.Text(l) }
func (h *hander) size(s units.Size) string     { return h.exact.Size(s) }

// up rounds a length up on the plan's main ruler.
func (h *hander) up(l units.Length) units.Length {
	return h.spec.Rulers.Main.Round(l, units.Up).To
}

// cautionRow parts a caution at its first word.
func cautionRow(text string) []string {
	name, rest, _ := strings.Cut(text, ": ")
	return []string{name, capital(rest)}
}
