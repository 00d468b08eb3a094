// Keepsake works out a folio for a rowing crew at the end of its season: a
// member's card in a folded strip with a print on its flap on the left, a framed
// print of the boat on the right, the club's badge on the front. It prints what
// a maker needs at the bench: pieces, where the boards lie, the order of work.
// The fittings are as large as the covers allow: one design serves them all. With
// -holds it proposes a folio for what is to go in instead, says why it is so, and
// prints its plan.
//
//	go run ./examples/keepsake                          # in inches
//	go run ./examples/keepsake -mm                      # the metric twin
//	go run ./examples/keepsake -measured "13 1/4 x 8"
//	go run ./examples/keepsake -cover "5 x 7" -spine "3/4" -board 3/32 -all
//	go run ./examples/keepsake -holds "6 photo 10 x 15 cm, 1 ID-1 card, 1 note"
//	go run ./examples/keepsake -out folio.html          # a hand-out for the bench
//	go run ./examples/keepsake -svg pictures            # its pictures by themselves
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"

	"boardwrap.example/folio"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

func main() {
	if err := run(os.Args[1:], os.Stdout); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return
		}
		fmt.Fprintln(os.Stderr, "keepsake:", err)
		os.Exit(1)
	}
}

// alone refuses a flag that only says how another one is answered, where that other
// one is not given: it would be passed over in silence.
func alone(set *flag.FlagSet, holds, hand bool) (err error) {
	set.Visit(func(f *flag.Flag) {
		switch f.Name {
		case "form", "best":
			if !holds {
				err = fmt.Errorf("-%s: want it together with -holds", f.Name)
			}
		case "paper", "both":
			if !hand {
				err = fmt.Errorf("-%s: want it together with -out, -svg or -templates", f.Name)
			}
		}
	})
	return err
}

func run(args []string, out io.Writer) error {
	set := flag.NewFlagSet("keepsake", flag.ContinueOnError)
	set.SetOutput(out)
	metric := set.Bool("mm", false, "the metric twin: bare numbers are millimetres")
	title := set.String("title", "", "what the folio is called")
	cover := set.String("cover", "", "width x height of one cover board (default 6 x 8 in, or 152 x 204 mm)")
	spine := set.String("spine", "", "width of the spine board (default 5/8 in, or 16 mm)")
	board := set.String("board", "", "caliper of the board (default 0.08 in, or 2 mm)")
	sheet := set.String("sheet", "", "sheet of decorated paper at hand (default 18 x 24 in, or 500 x 700 mm)")
	liner := set.String("liner-sheet", "", "sheet of plain paper at hand (default 17 x 11 in, or 420 x 297 mm)")
	quarter := set.Bool("quarter", false, "cover in quarter style: a spine strip, and side papers that lap it")
	measured := set.String("measured", "", "width x height of the open cover as it came out")
	workings := set.Bool("workings", false, "print the working of every size too")
	all := set.Bool("all", false, "print everything: workings, and the score lines of each piece")
	var what holder
	what.flags(set)
	var hand handout
	hand.flags(set)
	if err := set.Parse(args); err != nil {
		return err
	}
	if set.NArg() > 0 {
		return fmt.Errorf("%q is left over: sizes with spaces need quotes", set.Arg(0))
	}
	if err := alone(set, what.wanted(), hand.wanted()); err != nil {
		return err
	}

	unit, spec := units.Inch, inches()
	if *metric {
		unit, spec = units.Millimetre, millimetres()
	}
	in := input{unit: unit}
	in.size("cover", *cover, &spec.Cover)
	in.length("spine", *spine, &spec.Spine.Width)
	if *board != "" {
		// The mass follows the caliper: it is only known for the usual board.
		spec.Board.Grammage = 0
	}
	in.length("board", *board, &spec.Board.Caliper)
	in.size("sheet", *sheet, &spec.Covering.Sheets[0].Size)
	in.size("liner-sheet", *liner, &spec.Liner.Sheets[0].Size)
	if *quarter {
		spec.Quarter.Rule = rule.QuarterAlways
	}
	if *title != "" {
		spec.Title = *title
	}
	var made refit.Measured
	var size units.Size
	in.size("measured", *measured, &size)
	made.Width, made.Height = size.W, size.H
	if err := errors.Join(in.errs...); err != nil {
		return err
	}

	p := printer{out: out, withWorkings: *workings || *all, withScores: *all}
	var plan *folio.Plan
	var left []fit.Misfit
	var err error
	if what.wanted() {
		if spec, err = what.propose(spec, *cover != "", *spine != "", &p); err == nil {
			plan, err = folio.Build(spec)
		}
	} else {
		plan, left, err = fit.Without(furnish(spec))
	}
	if err == nil && *measured != "" {
		plan, err = plan.Refit(made)
	}
	var bad *check.Error
	if errors.As(err, &bad) {
		return fmt.Errorf("this folio cannot be made: %w", err)
	}
	if err != nil {
		return err
	}
	if hand.wanted() {
		return hand.write(plan, left, out)
	}
	p.plan = plan
	p.all(left)
	return p.err
}

// An input reads the flags and gathers what is wrong with them.
type input struct {
	unit units.Length
	errs []error
}

func (in *input) length(name, text string, to *units.Length) {
	if text == "" {
		return
	}
	l, err := units.ParseIn(text, in.unit)
	if err != nil {
		in.errs = append(in.errs, fmt.Errorf("-%s: %w", name, err))
		return
	}
	*to = l
}

func (in *input) size(name, text string, to *units.Size) {
	if text == "" {
		return
	}
	s, err := units.ParseSizeIn(text, in.unit)
	if err != nil {
		in.errs = append(in.errs, fmt.Errorf("-%s: %w", name, err))
		return
	}
	*to = s
}
