package layout_test

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/texttest"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

var write = flag.Bool("write", false, "write testdata/held.txt, to be read before it is kept")

// heldJobs are what a rowing club has to cut.
func heldJobs(t *testing.T) map[string]layout.Job {
	along, either := stock.GrainParallel, stock.GrainAny
	scrap := sheets("9 x 14", 2, stock.GrainAlongHeight)
	scrap.Offcut, scrap.Trim = true, units.Inch/8
	dear := sheets("19 x 25", 3, stock.GrainAlongWidth)
	dear.Price, dear.Trim = usd(420), units.Inch/4
	cheap := sheets("12 x 12", 4, stock.GrainUnknown)
	cheap.Price = usd(130)
	several := keepsakeJob(t, 5)
	several.Cutter = layout.Cutter{LongestCut: 24 * units.Inch, Kerf: units.Inch / 16, Stack: units.Inch / 2}
	several.Materials[3].Caliper = units.Inch / 64
	several.Materials[1].Sheets = append(several.Materials[1].Sheets, scrap)
	short := wraps(t, []int{9, 2}, sheets("12 x 17", 2, stock.GrainAlongHeight))
	short.Materials = append(short.Materials, layout.Material{Name: "tin", Sheets: []layout.SheetKind{sheets("5 x 7", 1, 0), sheets("8 x 7", 1, 0)}})
	short.Pieces = []layout.LoosePiece{{Name: "plate", Material: "tin", Size: inches("3 x 4"), Quantity: 11, Grain: either}}
	large := hand(layout.Material{Sheets: []layout.SheetKind{dear, cheap, scrap}, Cutter: layout.Cutter{LongestCut: 15 * units.Inch}},
		piece("16 x 22", 2, along, layout.QuarterTurn), piece("26 x 3", 1, either, layout.QuarterTurn), piece("4 x 5", 7, either, layout.HalfTurn), piece("3 x 11", 4, along, layout.NoTurn))
	quarter := wraps(t, []int{7}, sheets("13 1/4 x 8 1/4", layout.Unlimited, stock.GrainAlongHeight))
	quarter.Except = append(quarter.Except, "cloth")
	s := keepsakeSpec()
	s.Fittings, s.Covering.Sheets, s.SpineCovering = nil, nil, stock.Stock{Name: "cloth"}
	quarter.Folios[0].Plan = build(t, s)
	none := big(240, 24, 2) // of two materials, of which there is no sheet
	for k := range none.Materials[0].Sheets {
		none.Materials[0].Sheets[k].Count = 0
	}
	none.Materials = append(none.Materials, none.Materials[0])
	none.Materials[1].Name = "card"
	for i := range 9 {
		none.Pieces[2*i].Material = "card"
	}
	beside := wraps(t, []int{2, 1}, sheets("40 x 26", 2, stock.GrainAlongHeight))
	for i, p := range big(48, 48, 1).Pieces {
		p.Name, p.Material = fmt.Sprint("label ", i+1), "marbled paper"
		beside.Pieces = append(beside.Pieces, p)
	}
	many := wraps(t, slices.Repeat([]int{1}, 24), sheets("40 x 26", layout.Unlimited, stock.GrainAlongHeight))
	many.Pieces = beside.Pieces
	return map[string]layout.Job{
		"a label of each kind":        big(300, 300, 1), // whose order of cutting takes more work than its budget
		"many folios":                 many,             // more than a search for savings gets through
		"none at hand":                none,
		"wraps beside labels":         beside,
		"folios of several materials": several,
		"too few sheets":              short,
		"too large":                   large,
		"priced, and offcuts":         hand(layout.Material{Sheets: []layout.SheetKind{dear, cheap, scrap}, Caliper: units.Inch / 32}, piece("4 x 5", 9, either, layout.HalfTurn), piece("3 x 11", 6, along, layout.QuarterTurn), piece("2 1/16 x 3", 13, either, layout.QuarterTurn)),
		"wraps of two folios":         wraps(t, []int{6, 3}, sheets("12 x 17", 9, stock.GrainUnknown)),
		"covers in quarter style":     quarter,
		"labels":                      big(60, 12, 2),
	}
}

// A recorder is a budget that notes what is reported of a search, and a context that
// counts how often it is asked whether it has ended.
type recorder struct {
	context.Context
	dst   *strings.Builder
	asked int
}

func (r *recorder) Err() error { r.asked++; return r.Context.Err() }

func (r *recorder) budget(steps int64) layout.Budget {
	last := ""
	return layout.Budget{Steps: steps, Report: func(p layout.Progress) {
		best, ok := p.Best()
		text := fmt.Sprintf(" %.4f %s %d/%d %t", 100*p.Share(), p.Material(), best, p.Bound(), ok)
		if text != last {
			r.dst.WriteString(text + ";")
		}
		last = text
	}}
}

// What is laid out holds; how it is laid out and cut, what is said of it, how far the
// searches say that they are, and how much work they took, is as it was read.
func TestLayoutsAreHeld(t *testing.T) {
	var dst strings.Builder
	jobs := heldJobs(t)
	names := make([]string, 0, len(jobs))
	for name := range jobs {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		job := jobs[name]
		for _, steps := range [...]int64{1, 60_000, 600_000, 9_000_000} {
			if steps > 600_000 && name != "none at hand" || steps > 1 && name == "a label of each kind" {
				continue
			}
			r := &recorder{Context: t.Context(), dst: &dst}
			fmt.Fprintf(&dst, "%s, %d steps:", name, steps)
			l, err := layout.Lay(r, job, r.budget(steps))
			fmt.Fprintf(&dst, " asked %d times\n", r.asked)
			if l == nil {
				t.Fatal(name, err)
			}
			mustHold(t, job, l)
			tell(&dst, l, err, steps >= 600_000)
		}
		if len(job.Folios) == 0 {
			continue
		}
		for i := range min(2, len(job.Folios)) {
			r := &recorder{Context: t.Context(), dst: &dst}
			fmt.Fprintf(&dst, "%s, copies of %d:", name, i)
			y, err := layout.HowMany(r, job, i, r.budget(1))
			fmt.Fprintf(&dst, " asked %d times: %+v, %v\n", r.asked, y, err)
			fmt.Fprintf(&dst, "%s, one more of %d:", name, i)
			d, err := layout.OneMore(r, job, i, r.budget(1))
			fmt.Fprintf(&dst, " asked %d times: %+v, %v\n", r.asked, d, err)
		}
		r := &recorder{Context: t.Context(), dst: &dst}
		fmt.Fprintf(&dst, "%s, savings:", name)
		list, whole, err := layout.Savings(r, job, layout.Tolerance{Width: 5 * units.Inch, Height: units.Inch / 4, Margin: true, Panels: true, Quarter: true}, r.budget(1))
		fmt.Fprintf(&dst, " asked %d times: whole %t, %v\n", r.asked, whole, err)
		for i, text := range said(list) {
			fmt.Fprintf(&dst, "\tof folio %d, %s, %v:", list[i].Folio(), text, list[i].Price())
			for m, n := range list[i].Materials() {
				fmt.Fprintf(&dst, " %s %d", m, n)
			}
			dst.WriteString("\n")
		}
	}
	texttest.Kept(t, "testdata/held.txt", dst.String(), *write)
}

// tell writes down what is laid out, and how it is cut.
func tell(dst *strings.Builder, l *layout.Layout, err error, whole bool) {
	var bad *check.Error
	if errors.As(err, &bad) {
		for v := range bad.All() {
			fmt.Fprintf(dst, "\t%v %v\n", v.Error(), v.Limit)
		}
	}
	settings, leastSettings := l.Settings()
	turns, leastTurns := l.Turns()
	cuts, leastCuts := l.Cuts()
	fmt.Fprintf(dst, "\t%d steps, %d bought of %d, proved %t, complete %t, stopped %t; settings %d of %d, turns %d of %d, cuts %d of %d\n",
		l.Work(), l.Bought(), l.Bound(), l.Proved(), l.Complete(), l.Stopped(), settings, leastSettings, turns, leastTurns, cuts, leastCuts)
	for m := range l.Materials() {
		grain, assumed := m.Assumed()
		fmt.Fprintf(dst, "\t%s: %d bought of %d, %d offcuts, %v, grain %v %t\n", m.Name(), m.Bought(), m.Bound(), m.FromOffcuts(), m.Price(), grain, assumed)
		for s := range m.Short() {
			fmt.Fprintf(dst, "\t\tno place for %d of %s, which fits: %t\n", s.Copies(), s.Piece().Path(), s.Fits())
		}
		if !whole {
			continue
		}
		for o := range m.Offcuts() {
			fmt.Fprintf(dst, "\t\t%d x %v of sheet %d\n", o.Count(), o.Kind(), o.Sheet())
		}
	}
	for w := range l.Warnings() {
		fmt.Fprintf(dst, "\t%v: %s\n", w.Path, w.Text)
	}
	if whole {
		for s := range l.Steps() {
			fmt.Fprintf(dst, "\t%d. %s\n", s.Number(), s.Text(units.Format{}))
		}
		fmt.Fprintf(dst, "\tleft: %+v\n", l.Left())
	}
}

// A length and a style change together although not all of the length does. Seven
// wraps of 12 1/4 x 8 1/4 in take a sheet of 13 1/4 x 8 1/4 in each. With covers 2
// 13/16 in narrower the wraps are 6 5/8 in wide, two a sheet; with covers 3 15/16 in
// narrower 4 3/8 in, three a sheet, and so three sheets in all. In quarter style, which
// covers that are narrower by 4 in or more have no room for, two papers a folio of 1
// 7/8 in, seven a sheet, take two.
func TestSavingsOfALengthAndAStyle(t *testing.T) {
	job := heldJobs(t)["covers in quarter style"]
	list, whole, err := layout.Savings(t.Context(), job, layout.Tolerance{Width: 5 * units.Inch, Quarter: true}, layout.Budget{})
	if err != nil || !whole {
		t.Fatal(whole, err)
	}
	want := []string{
		"narrower covers (cover width 1 11/16 in = as it is 4 1/2 in - 2 13/16 in): 3, certain",
		"narrower covers (cover width 9/16 in = as it is 4 1/2 in - 3 15/16 in): 4, certain",
		"narrower covers (cover width 15/16 in = as it is 4 1/2 in - 3 9/16 in) and quarter style: 5, certain",
	}
	if !slices.Equal(said(list), want) {
		t.Errorf("%q", said(list))
	}
	s := job.Folios[0].Plan.Spec()
	s.Cover.W, s.Quarter.Rule = units.Inch/2, rule.QuarterAlways
	if _, err := folio.Build(s); err == nil {
		t.Error("covers 4 in narrower have room for quarter style")
	}
}
