package main

import (
	"fmt"
	"io"
	"regexp"
	"strings"
	"unicode/utf8"

	"boardwrap.example/folio"
	"boardwrap.example/folio/fit"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

// columns is what goes across an upright A4 sheet at fifteen characters an inch.
const columns = 112

// unbroken finds the spaces inside a length.
var unbroken = regexp.MustCompile(`(\d) (\d+/\d+|in\b|mm\b|x\b)`)

// A printer writes a plan for the bench and keeps the first error.
type printer struct {
	out  io.Writer
	plan *folio.Plan
	// What is left out of the print unless it is asked for.
	withWorkings, withScores bool
	err                      error
}

func (p *printer) line(format string, args ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintf(p.out, format+"\n", args...)
	}
}

// para writes text in lines of at most so many columns, all but the first indented.
func (p *printer) para(first, rest, text string) {
	line, fresh := first, true
	// A number, its fraction and its unit stay on one line.
	text = unbroken.ReplaceAllString(text, "$1\u00a0$2")
	text = unbroken.ReplaceAllString(text, "$1\u00a0$2")
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == '\n' }) {
		word = strings.ReplaceAll(word, "\u00a0", " ")
		if !fresh && len(line)+1+len(word) > columns {
			p.line("%s", line)
			line, fresh = rest, true
		}
		if !fresh {
			line += " "
		}
		line += word
		fresh = false
	}
	p.line("%s", line)
}

func (p *printer) head(title string) {
	p.line("")
	p.line("%s", strings.ToUpper(title))
}

func (p *printer) size(s units.Size) string {
	return units.Format{Ruler: p.plan.Notation().Exact()}.Size(s)
}

// upTo is a length that follows from calipers, rounded up to what can be read off a
// ruler.
func (p *printer) upTo(l units.Length) string {
	ruler := units.SixtyFourths
	if p.plan.Notation() == units.MetricDecimal {
		ruler = units.TenthMillimetres
	}
	return p.plan.Notation().Text(ruler.Up(l))
}

// all prints the plan; left names the fittings that it had no room for.
func (p *printer) all(left []fit.Misfit) {
	spec := p.plan.Spec()
	p.para("", "", spec.Title)
	p.para("", "", fmt.Sprintf("%s; cover %s, open %s", spec.Form,
		p.size(spec.Cover), p.size(units.Size{W: p.plan.OpenWidth().Length(), H: p.plan.OpenHeight().Length()})))
	if m, ok := p.plan.Measured(); ok {
		p.para("", "", "refitted to the cover as measured, "+p.size(units.Size{W: m.Width, H: m.Height}))
	}
	p.warnings(left)
	p.pieces()
	p.placement()
	if p.withWorkings {
		p.workings()
	}
	p.steps()
}

func (p *printer) warnings(left []fit.Misfit) {
	var all []string
	for w := range p.plan.Warnings() {
		all = append(all, w.Text)
	}
	for _, l := range left {
		all = append(all, "left out, as it does not go in: the "+l.String())
	}
	if len(all) == 0 {
		return
	}
	p.head("Take care")
	for _, text := range all {
		p.para("  ", "    ", text)
	}
}

func (p *printer) pieces() {
	p.head("Pieces (width x height)")
	wide := 28
	for piece := range p.plan.Pieces() {
		wide = max(wide, utf8.RuneCountInString(piece.Name()))
	}
	for piece := range p.plan.Pieces() {
		p.line("  %2d  %-*s %-23s %s", piece.Quantity(), wide, piece.Name(), p.size(piece.Size()), piece.Stock())
		if !p.withScores {
			continue
		}
		if blank, ok := piece.Blank(); ok {
			for _, l := range blank.Lines() {
				p.line("        score, %s fold, %s at %s", l.Fold, l.Axis, p.plan.Notation().Text(l.At))
			}
		}
	}
}

func (p *printer) placement() {
	w, n := p.plan.Wrap(), p.plan.Notation()
	p.head("Boards on the wrap, " + p.size(w.Size()))
	for b := range p.plan.Boards() {
		at, _ := p.plan.OnWrap(b.Role())
		p.line("  %-12s from left %-11s to %-11s from head %-9s to %s", b.Name(),
			n.Text(at.Min.X), n.Text(at.Max.X), n.Text(at.Min.Y), n.Text(at.Max.Y))
	}
}

func (p *printer) workings() {
	p.head("Workings")
	for w := range p.plan.Workings() {
		p.para("  ", "      ", w.String())
	}
}

func (p *printer) steps() {
	p.head("Order of work")
	var cares []work.Care
	sided := false
	for s := range p.plan.Steps() {
		sided = sided || s.Sided()
		note := ""
		for _, c := range s.Care() {
			note += " [" + c.String() + "]"
			known := false
			for _, k := range cares {
				known = known || k == c
			}
			if !known {
				cares = append(cares, c)
			}
		}
		p.para(fmt.Sprintf("%4d. ", s.Number), "      ", s.Text(units.Format{})+note)
	}
	p.line("")
	if sided {
		p.para("  ", "      ", work.Sides)
	}
	for _, c := range cares {
		p.para("  ["+c.String()+"] ", "      ", c.Text())
	}
}
