package main

import (
	"context"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"

	"boardwrap.example/folio/cost"
	"boardwrap.example/folio/layout"
	"boardwrap.example/units"
	"boardwrap.example/units/money"
)

// columns is the width of a plain terminal.
const columns = 80

// unbroken finds the spaces inside a length or an amount of money.
var unbroken = regexp.MustCompile(`(\d) (\d+/\d+|in\b|mm\b|USD\b|x )`)

// A printer writes a layout for the bench and keeps the first error.
type printer struct {
	out  io.Writer
	laid *layout.Layout
	job  layout.Job
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
	for range 3 {
		text = unbroken.ReplaceAllString(text, "$1\u00a0$2")
	}
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

func (p *printer) head(title string, gap bool) {
	if gap {
		p.line("")
	}
	p.line("%s", strings.ToUpper(title))
}

func (p *printer) size(s units.Size) string {
	n := p.laid.Notation()
	return strings.TrimSuffix(n.Text(s.W), " in") + " x " + n.Text(s.H)
}

// wanted lists the folios and then the pieces of each.
func (p *printer) wanted() {
	for _, f := range p.job.Folios {
		spec := f.Plan.Spec()
		p.line("  %3d x %-6s %s, cover %s", max(f.Copies, 0), f.Name, spec.Title, p.size(spec.Cover))
	}
	name := ""
	for w := range p.laid.Pieces() {
		of := "by hand"
		if i, ok := w.Folio(); ok {
			of = p.job.Folios[i].Name
		}
		if of != name {
			name = of
			p.line("  %s", name)
		}
		p.line("    %3d  %-14s %-10s %-22s %s", w.Quantity(), w.Name(), w.Part(), p.size(w.Size()), w.Material())
	}
}

func (p *printer) sheets() {
	p.head("Sheets", true)
	for m := range p.laid.Materials() {
		proof := fmt.Sprintf("never fewer than %d", m.Bound())
		if m.Proved() {
			proof = "proved fewest"
		}
		a := m.Areas()
		p.line("  %-14s %2d to buy (%s), %.1f %% waste", m.Name(), m.Bought(), proof, 100*a.Waste().Quotient(a.Sheets()))
		for k, n := range m.Used() {
			if n > 0 {
				what := "sheet"
				if k.Offcut {
					what = "offcut"
				}
				p.line("    %3d  %-6s  %s", n, what, p.size(k.Size))
			}
		}
	}
	for w := range p.laid.Warnings() {
		p.para("  ", "    ", "Note: "+w.Text+".")
	}
}

func (p *printer) left() {
	p.head("Offcuts left, largest first", true)
	for m := range p.laid.Materials() {
		// Equal ones off different sheets are counted together.
		text, last, n := "", units.Size{}, 0
		add := func() {
			if n > 0 {
				if text != "" {
					text += ", "
				}
				text += fmt.Sprintf("%d of %s", n, p.size(last))
			}
			n = 0
		}
		for o := range m.Offcuts() {
			if o.Size() != last {
				add()
				last = o.Size()
			}
			n += o.Count()
		}
		add()
		if text == "" {
			text = "none"
		}
		p.para("  ", "      ", m.Name()+": "+text)
	}
}

// cuts prints the order of work with a sketch of each sheet where it is taken.
func (p *printer) cuts() {
	p.head("Order of cutting", true)
	settings, leastSettings := p.laid.Settings()
	turns, leastTurns := p.laid.Turns()
	cuts, leastCuts := p.laid.Cuts()
	p.para("  ", "  ", fmt.Sprintf("The fence is set %s, the parts are turned %s and cut %s; no order takes fewer than %d, %d and %d.",
		counted(settings, "time"), counted(turns, "time"), counted(cuts, "time"), leastSettings, leastTurns, leastCuts))
	var cares []string
	material := ""
	for s := range p.laid.Steps() {
		if s.Material() != material {
			material = s.Material()
			p.line("  %s", material)
		}
		if c := s.Care(); c != "" && !slices.Contains(cares, c) {
			cares = append(cares, c)
		}
		p.para(fmt.Sprintf("%6d. ", s.Number()), "        ", s.Text(units.Format{}))
		if s.Takes() {
			for n := range s.Sheets() {
				for drawn := range p.laid.Sheets() {
					if drawn.Number() == n {
						p.drawing(drawn)
					}
				}
			}
		}
	}
	for _, c := range cares {
		p.line("")
		p.para("  ", "    ", c)
	}
}

// drawing sketches a sheet with its pieces; every character stands for a part
// of an inch.
func (p *printer) drawing(s layout.LaidSheet) {
	const wide = 40
	size := s.Size()
	scale := wide / max(size.W.Inches(), size.H.Inches())
	high := int(size.H.Inches() * scale / 2.1)
	across := int(size.W.Inches() * scale)
	x := func(l units.Length) int { return int(l.Inches()*scale*float64(across)/(size.W.Inches()*scale) + 0.5) }
	y := func(l units.Length) int { return int(l.Inches()/size.H.Inches()*float64(high) + 0.5) }
	grid := make([][]byte, high+1)
	for i := range grid {
		grid[i] = []byte(strings.Repeat(" ", across+1))
	}
	box := func(r units.Rect, level, upright byte) {
		x0, x1, y0, y1 := x(r.Min.X), x(r.Max.X), y(r.Min.Y), y(r.Max.Y)
		for i := x0; i <= x1; i++ {
			grid[y0][i], grid[y1][i] = level, level
		}
		for j := y0; j <= y1; j++ {
			grid[j][x0], grid[j][x1] = upright, upright
		}
	}
	box(units.RectAt(units.Point{}, size), '.', '.')
	for place := range s.Places() {
		box(place.Rect(), '-', '|')
	}
	for place := range s.Places() {
		r := place.Rect()
		x0, x1, y0, y1 := x(r.Min.X), x(r.Max.X), y(r.Min.Y), y(r.Max.Y)
		for _, c := range [][2]int{{x0, y0}, {x1, y0}, {x0, y1}, {x1, y1}} {
			grid[c[1]][c[0]] = '+'
		}
		for w := range place.Pieces() {
			name := w.Name()
			if len(name) > x1-x0-1 {
				name = name[:max(x1-x0-1, 0)]
			}
			if mid := (y0 + y1) / 2; y1-y0 > 1 {
				copy(grid[mid][(x0+x1+1-len(name))/2:], name)
			}
			break
		}
	}
	for _, row := range grid {
		p.line("        %s", strings.TrimRight(string(row), " "))
	}
}

// basis is what the club knows about money.
func basis() cost.Basis {
	usd, _ := money.CurrencyOf("USD")
	return cost.Basis{
		Supplies: []cost.Supply{
			{Name: "paste", Price: money.Amount{Minor: 640, Currency: usd}, Contents: 250, Measure: "g", Amounts: []int64{14, 17}},
			{Name: "double-sided tape", Price: money.Amount{Minor: 380, Currency: usd}, Contents: 10_000, Measure: "mm", Amounts: []int64{700, 800}},
		},
		Minutes: []int{25, 28},
		Rate:    money.Amount{Minor: 900, Currency: usd},
		Fee:     money.Amount{Minor: 4500, Currency: usd},
		Margin:  3000,
		RoundTo: 50,
	}
}

func (p *printer) costs(ctx context.Context, budget layout.Budget) error {
	on := basis()
	costs, err := cost.Of(p.laid, on)
	if err != nil {
		return err
	}
	p.head("Costs of the batch", true)
	for ch := range costs.Charges() {
		p.para("  ", "      ", ch.String())
	}
	p.line("  total %s", costs.Total())
	if costs.Loose().Minor > 0 {
		p.para("  ", "      ", "of this the pieces by hand take "+costs.Loose().String())
	}
	p.head("Cost and price of one", true)
	for f := range costs.Folios() {
		alone, err := layout.Lay(ctx, p.job.One(f.Index()), budget)
		if err != nil {
			return err
		}
		on := on
		on.Fee = money.Amount{}
		single, err := cost.Of(alone, on)
		if err != nil {
			return err
		}
		p.para("  ", "      ", fmt.Sprintf("%s: %s; made alone from new sheets, without the fee, %s.",
			f.Name(), f.Each(), single.Total()))
		p.para("      ", "      ", fmt.Sprintf("%s; %d.%02d %% of it is margin.", f.Price(), f.Margin()/100, f.Margin()%100))
	}
	if n, ok := costs.BreakEven(); ok {
		p.para("  ", "      ", fmt.Sprintf("The fee has come in when %d are made and sold.", n))
	}
	if n, ok := costs.Recovers(); ok {
		p.para("  ", "      ", fmt.Sprintf("All that the batch costs has come in when %d of it are sold.", n))
	}
	return nil
}

func (p *printer) more(ctx context.Context, budget layout.Budget) error {
	p.head("One more, and how many", true)
	for i, f := range p.job.Folios {
		d, err := layout.OneMore(ctx, p.job, i, budget)
		if err != nil {
			return err
		}
		p.para("  ", "      ", fmt.Sprintf("One more %s folio takes %s to buy, %s.%s", f.Name, counted(d.Bought(), "more sheet"), d.Price(), doubt(d.Certain())))
		y, err := layout.HowMany(ctx, p.job, i, budget)
		if err != nil {
			return err
		}
		text := fmt.Sprintf("With the rest of the table as it is, the cupboard yields %s", counted(y.Copies(), f.Name+" folio"))
		switch {
		case y.Unlimited():
			text = "The cupboard sets no limit to " + f.Name + " folios"
		case y.Most():
			text += "; one more is proved to lack " + y.Limit()
		default:
			text += "; for one more no layout was found, for lack of " + y.Limit()
		}
		p.para("  ", "      ", text+".")
	}
	p.head("What would save a sheet", true)
	savings, whole, err := layout.Savings(ctx, p.job, layout.Tolerance{
		Width: units.Inch / 4, Height: units.Inch / 4, Margin: true, Panels: true, Quarter: true,
	}, budget)
	if err != nil {
		return err
	}
	for _, s := range savings {
		var changes []string
		for c, w := range s.Adjustments() {
			text := c.String()
			if w.Label() != "" {
				text += " (" + w.String() + ")"
			}
			changes = append(changes, text)
		}
		text := p.job.Folios[s.Folio()].Name + ", " + strings.Join(changes, " and ")
		text += fmt.Sprintf(": %s fewer, %s saved", counted(s.Sheets(), "sheet"), s.Price())
		for name, n := range s.Materials() {
			if n > 0 {
				text += fmt.Sprintf("; %d less of %s", n, name)
			} else {
				text += fmt.Sprintf("; %d more of %s", -n, name)
			}
		}
		p.para("  ", "      ", text+"."+doubt(s.Certain()))
	}
	if len(savings) == 0 {
		p.line("  nothing within the tolerance")
	}
	if !whole {
		p.line("  The search was cut short; there may be more.")
	}
	return nil
}

// counted is a number of things, one or many.
func counted(n int, what string) string {
	if n != 1 {
		what += "s"
	}
	return fmt.Sprintf("%d %s", n, what)
}

func doubt(certain bool) string {
	if certain {
		return ""
	}
	return " A longer search may find better."
}
