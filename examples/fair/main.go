// Fair lays out a table full of folios for a rowing club's regatta day: two
// sizes, from the sheets and offcuts that the boathouse cupboard holds. It
// prints what to cut from which sheet, in the order of the cuts, what it costs,
// what to ask for, and which small changes would save sheets.
//
//	go run ./examples/fair                      # 16 small and 8 large folios
//	go run ./examples/fair -small 20 -large 10
//	go run ./examples/fair -cuts=false          # without the order of cutting
//	go run ./examples/fair -stack "1/8 in"      # at a cutter that takes stacks
//	go run ./examples/fair -out table.html      # the cutting book and the lists to print
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
	"boardwrap.example/units/money"
)

func main() {
	if err := run(os.Args[1:], os.Stdout, terminal()); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return
		}
		fmt.Fprintln(os.Stderr, "fair:", err)
		os.Exit(1)
	}
}

func run(args []string, out, progress io.Writer) error {
	set := flag.NewFlagSet("fair", flag.ContinueOnError)
	set.SetOutput(out)
	small := set.Int("small", 16, "how many small folios")
	large := set.Int("large", 8, "how many large folios")
	cuts := set.Bool("cuts", true, "print the order of cutting")
	thick := set.String("stack", "", "thickest stack that the cutter takes, as in \"1/8 in\" (none: sheet by sheet)")
	file := set.String("out", "", "write the shopping list, the cutting book and the price list to this `file`: .html, .md or .txt")
	steps := set.Int64("steps", 0, "budget of each search in steps (0: the default)")
	if err := set.Parse(args); err != nil {
		return err
	}
	if *steps < 0 {
		return fmt.Errorf("-steps is %d; want 0 or more", *steps)
	}
	if set.NArg() > 0 {
		return fmt.Errorf("%q is left over", set.Arg(0))
	}
	stack := units.Length(0)
	if *thick != "" {
		var err error
		if stack, err = units.Parse(*thick); err != nil {
			return fmt.Errorf("-stack: %w", err)
		}
	}
	job, err := table(*small, *large, stack)
	if err != nil {
		return fmt.Errorf("a folio cannot be made: %w", err)
	}
	ctx, budget := context.Background(), layout.Budget{Steps: *steps, Report: reporter(progress)}
	laid, err := layout.Lay(ctx, job, budget)
	if laid == nil {
		return err
	}
	if *file != "" {
		if err != nil {
			return fmt.Errorf("not everything can be cut: %w", err)
		}
		return bind(laid, *file, out)
	}
	p := printer{out: out, laid: laid, job: job}
	p.head("What is wanted", false)
	p.wanted()
	p.sheets()
	if err != nil {
		// What can be cut is printed; what lacks is said below it.
		var bad *check.Error
		if errors.As(err, &bad) {
			p.head("What lacks", true)
			for v := range bad.All() {
				p.para("  ", "    ", v.Error())
			}
		}
	}
	p.left()
	if *cuts {
		p.cuts()
	}
	if err != nil {
		return errors.Join(errors.New("not everything can be cut"), p.err)
	}
	if err := p.costs(ctx, budget); err != nil {
		return err
	}
	if err := p.more(ctx, budget); err != nil {
		return err
	}
	return p.err
}

// copies says that none are meant where none are asked for.
func copies(n int) int {
	if n == 0 {
		return layout.NoCopies
	}
	return n
}

// club is the crew's folio: two mats inside, 1/8 in wider than the photograph on
// each side. Beside a mat 5/16 in of the cover is left, above and below it 1/2 in.
func club(title, photo string) folio.Spec {
	mat := units.MustParseSize(photo).Grow(units.Inch / 8)
	return folio.Spec{
		Title: title,
		Cover: mat.Plus(5*units.Inch/8, units.Inch),
		Spine: rule.Spine{Width: 3 * units.Inch / 4},
		Board: stock.Stock{Name: "chipboard", Caliper: units.Inch / 16},
		Covering: stock.Stock{Name: "marbled paper", Sheets: []stock.Sheet{
			{Size: units.MustParseSize("16 x 20 in"), Grain: stock.GrainAlongHeight},
		}},
		Liner:  stock.Stock{Name: "cream paper"},
		Stocks: []stock.Stock{{Name: "navy card", Caliper: 12 * units.Thou, TwoSided: true}},
		Fittings: []folio.Fitting{
			{Name: "left mat", Panel: boards.LeftCover, Stock: "navy card", Kind: folio.Mat{Size: mat}},
			{Name: "right mat", Panel: boards.RightCover, Stock: "navy card", Kind: folio.Mat{Size: mat}},
		},
	}
}

// table is the whole batch and what the cupboard holds, cut in stacks up to a
// thickness.
func table(small, large int, stack units.Length) (layout.Job, error) {
	a, errA := folio.Build(club("Eastwater regatta, small", "3 1/2 x 5 in"))
	b, errB := folio.Build(club("Eastwater regatta, large", "4 x 6 in"))
	if err := errors.Join(errA, errB); err != nil {
		return layout.Job{}, err
	}
	usd, _ := money.CurrencyOf("USD")
	price := func(cents int64) money.Amount { return money.Amount{Minor: cents, Currency: usd} }
	sheet := func(size string, grain stock.SheetGrain, n int, cents int64) layout.SheetKind {
		return layout.SheetKind{Size: units.MustParseSize(size), Grain: grain, Count: n, Price: price(cents)}
	}
	offcut := func(size string, grain stock.SheetGrain, n int) layout.SheetKind {
		return layout.SheetKind{Size: units.MustParseSize(size), Grain: grain, Count: n, Offcut: true}
	}
	const along, across = stock.GrainAlongHeight, stock.GrainAlongWidth
	job := layout.Job{
		Folios: []layout.Folio{{Name: "small", Plan: a, Copies: copies(small)}, {Name: "large", Plan: b, Copies: copies(large)}},
		Pieces: []layout.LoosePiece{{Name: "price card", Material: "navy card", Size: units.MustParseSize("2 x 3 in"), Quantity: 6, Grain: stock.GrainAny}},
		Materials: []layout.Material{
			{Name: "chipboard", Sheets: []layout.SheetKind{sheet("20 x 26 in", along, layout.Unlimited, 185), offcut("9 1/2 x 13 in", along, 3)}},
			{Name: "marbled paper", Sheets: []layout.SheetKind{sheet("16 x 20 in", along, 20, 240), offcut("12 x 8 in", along, 3)}},
			{Name: "cream paper", Sheets: []layout.SheetKind{sheet("8 1/2 x 11 in", along, 10, 9), sheet("19 x 25 in", stock.GrainUnknown, layout.Unlimited, 60)}},
			{Name: "navy card", Sheets: []layout.SheetKind{sheet("12 x 18 in", along, layout.Unlimited, 110), offcut("6 x 11 1/2 in", along, 4)}},
		},
		Cutter: layout.Cutter{LongestCut: 24 * units.Inch, Stack: stack},
	}
	// How thick each is stands in the plans.
	for _, named := range layout.MaterialsOf(a, b) {
		for i := range job.Materials {
			if m := &job.Materials[i]; m.Name == named.Name {
				m.Caliper = named.Caliper
			}
		}
	}
	return job, nil
}
