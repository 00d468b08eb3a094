package main

import (
	"cmp"
	"fmt"
	"io"
	"iter"
	"regexp"
	"slices"
	"strings"

	"boardwrap.example/folio"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// columns is the width of a plain terminal.
const columns = 80

// unbroken finds the spaces inside a length.
var unbroken = regexp.MustCompile(`(\d) (\d+/\d+|in\b|mm\b)`)

// A printer writes a plan for the bench and keeps the first error.
type printer struct {
	out  io.Writer
	plan *folio.Plan
	err  error
}

func (p *printer) line(format string, args ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintf(p.out, format+"\n", args...)
	}
}

// para writes text in lines of at most 80 columns, all but the first indented.
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
	n := p.plan.Notation()
	return n.Text(s.W) + " x " + n.Text(s.H)
}

func (p *printer) all() {
	spec := p.plan.Spec()
	p.para("", "", spec.Title)
	p.para("", "", fmt.Sprintf("%s; cover %s, open %s", spec.Form,
		p.size(spec.Cover), p.size(units.Size{W: p.plan.OpenWidth().Length(), H: p.plan.OpenHeight().Length()})))
	if m, ok := p.plan.Measured(); ok {
		p.para("", "", "refitted to the cover as measured, "+p.size(units.Size{W: m.Width, H: m.Height}))
	}
	p.warnings()
	p.pieces()
	p.placement()
	p.mitres()
	p.workings()
	p.steps()
}

func (p *printer) warnings() {
	first := true
	for w := range p.plan.Warnings() {
		if first {
			p.head("Take care")
			first = false
		}
		p.para("  ", "    ", w.Text+" ("+string(w.Code)+")")
	}
}

func (p *printer) pieces() {
	p.head("Pieces (width x height, grain along the height)")
	part, n := "", p.plan.Notation()
	for piece := range p.plan.Pieces() {
		if piece.Part() != part {
			part = piece.Part()
			p.line("  %s", part)
		}
		p.line("    %2d  %-24s %-23s %s", piece.Quantity(), piece.Name(), p.size(piece.Size()), piece.Stock())
		for c := range piece.CornerCuts() {
			cut := c.Cut()
			p.line("        mitre %-10s  from (%s, %s) to (%s, %s)", c.Corner(), n.Text(cut.From.X), n.Text(cut.From.Y), n.Text(cut.To.X), n.Text(cut.To.Y))
		}
		for o := range piece.Openings() {
			p.line("        window %s", p.size(o.Size()))
		}
		if blank, ok := piece.Blank(); ok {
			p.scores(blank)
		}
	}
}

// scores lists the score lines of a blank from its edges inwards.
func (p *printer) scores(blank score.Blank) {
	lines := slices.SortedFunc(values(blank.Lines()), func(a, b score.Line) int {
		return cmp.Or(cmp.Compare(a.Axis, b.Axis), cmp.Compare(a.At, b.At))
	})
	for _, l := range lines {
		from := "left"
		if l.Axis == score.Level {
			from = "head"
		}
		p.line("        score %s from the %s, %s fold", p.plan.Notation().Text(l.At), from, l.Fold)
	}
}

func (p *printer) placement() {
	w := p.plan.Wrap()
	p.head("Boards on the wrap, " + p.size(w.Size()))
	n := p.plan.Notation()
	p.para("  ", "      ", fmt.Sprintf("Margins: left %s, right %s (limit: %s); head %s, tail %s (limit: %s)",
		n.Text(w.Across().Near().Length()), n.Text(w.Across().Far().Length()), w.Across().LimitedBy(),
		n.Text(w.Along().Near().Length()), n.Text(w.Along().Far().Length()), w.Along().LimitedBy()))
	for b := range p.plan.Boards() {
		at, _ := p.plan.OnWrap(b.Role())
		p.line("  %-14s left %-10s right %-10s head %-9s tail %s", b.Role(),
			n.Text(at.Min.X), n.Text(at.Max.X), n.Text(at.Min.Y), n.Text(at.Max.Y))
	}
	p.drawing()
}

// drawing sketches the wrap with its boards, a column of text for a share of
// its width.
func (p *printer) drawing() {
	const wide = 64
	size := p.plan.Wrap().Size()
	high := int(float64(wide) * size.H.Inches() / size.W.Inches() / 2.1)
	x := func(l units.Length) int { return int(l.Inches() / size.W.Inches() * (wide - 1)) }
	y := func(l units.Length) int { return int(l.Inches() / size.H.Inches() * float64(high-1)) }
	grid := make([][]byte, high)
	for i := range grid {
		grid[i] = []byte(strings.Repeat(" ", wide))
	}
	box := func(r units.Rect, corner, level, upright byte) {
		x0, x1, y0, y1 := x(r.Min.X), x(r.Max.X), y(r.Min.Y), y(r.Max.Y)
		for i := x0; i <= x1; i++ {
			grid[y0][i], grid[y1][i] = level, level
		}
		for j := y0; j <= y1; j++ {
			grid[j][x0], grid[j][x1] = upright, upright
		}
		for _, c := range [][2]int{{x0, y0}, {x1, y0}, {x0, y1}, {x1, y1}} {
			grid[c[1]][c[0]] = corner
		}
	}
	box(units.RectAt(units.Point{}, size), '.', '.', '.')
	for b := range p.plan.Boards() {
		at, _ := p.plan.OnWrap(b.Role())
		box(at, '+', '-', '|')
		name := b.Role().String()
		x0, x1, mid := x(at.Min.X), x(at.Max.X), (y(at.Min.Y)+y(at.Max.Y))/2
		if len(name) < x1-x0-1 {
			copy(grid[mid][(x0+x1+1-len(name))/2:], name)
		}
	}
	p.line("")
	for _, row := range grid {
		p.line("  %s", strings.TrimRight(string(row), " "))
	}
}

func (p *printer) mitres() {
	p.head("Mitres, at 45 degrees")
	n := p.plan.Notation()
	c := p.plan.Wrap().Corners()[0]
	over := units.Format{Ruler: units.Thousandths}
	if n == units.MetricDecimal {
		over.Ruler = units.TenthMillimetres
	}
	p.para("  ", "  ", fmt.Sprintf("Reach %s along the board's extended edges covers an edge of %s with an overlap of %s.",
		n.Text(c.Reach().Length()), n.Text(c.Edge()), over.Text(c.Overlap())))
}

func (p *printer) workings() {
	p.head("Workings")
	for w := range p.plan.Workings() {
		p.para("  ", "      ", w.String())
	}
}

func (p *printer) steps() {
	p.head("Order of work")
	cares := []string{}
	for s := range p.plan.Steps(units.Format{}) {
		note := ""
		for i, c := range cares {
			if c == s.Care {
				note = fmt.Sprintf(" [%c]", 'A'+i)
			}
		}
		if s.Care != "" && note == "" {
			cares = append(cares, s.Care)
			note = fmt.Sprintf(" [%c]", 'A'+len(cares)-1)
		}
		p.para(fmt.Sprintf("%4d. ", s.Number), "      ", s.Text+note)
	}
	p.line("")
	for i, c := range cares {
		p.para(fmt.Sprintf("  [%c] ", 'A'+i), "      ", c)
	}
}

func values[K, V any](seq iter.Seq2[K, V]) iter.Seq[V] {
	return func(yield func(V) bool) {
		for _, v := range seq {
			if !yield(v) {
				return
			}
		}
	}
}
