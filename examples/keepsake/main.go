// Keepsake works out a folio for a rowing crew at the end of its season: a
// member's card and a photograph in a folded strip on the left, a framed
// photograph on the right, the club's badge on the front. It prints everything
// a maker needs at the bench: pieces, placement, mitres, workings and the
// order of work.
//
//	go run ./examples/keepsake                          # in inches
//	go run ./examples/keepsake -mm                      # the metric twin
//	go run ./examples/keepsake -measured "10 3/8 x 6 1/4"
//	go run ./examples/keepsake -cover "5 x 7" -spine "1 1/4" -board 3/32
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"

	"boardwrap.example/folio"
	"boardwrap.example/pocket"
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

func run(args []string, out io.Writer) error {
	set := flag.NewFlagSet("keepsake", flag.ContinueOnError)
	set.SetOutput(out)
	metric := set.Bool("mm", false, "the metric twin: bare numbers are millimetres")
	cover := set.String("cover", "", "width x height of one cover board (default 4 1/2 x 6 1/4 in, or 114 x 159 mm)")
	spine := set.String("spine", "", "width of the spine board (default 1 in, or 25 mm)")
	board := set.String("board", "", "caliper of the board (default 1/16 in, or 1.5 mm)")
	measured := set.String("measured", "", "width x height of the open cover as it came out")
	sheet := set.String("sheet", "", "sheet of decorated paper at hand (default 12 x 12 in, or 305 x 305 mm)")
	if err := set.Parse(args); err != nil {
		return err
	}
	if set.NArg() > 0 {
		return fmt.Errorf("%q is left over: sizes with spaces need quotes", set.Arg(0))
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
	var made folio.Measured
	var size units.Size
	in.size("measured", *measured, &size)
	made.Width, made.Height = size.W, size.H
	if err := errors.Join(in.errs...); err != nil {
		return err
	}

	plan, err := folio.Build(spec)
	if err == nil && *measured != "" {
		plan, err = plan.Refit(made)
	}
	var bad *check.Error
	if errors.As(err, &bad) {
		return fmt.Errorf("this folio cannot be made: %w", bad)
	}
	if err != nil {
		return err
	}
	p := printer{out: out, plan: plan}
	p.all()
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

// inches is the crew's folio as it was thought of.
func inches() folio.Spec {
	photo, _ := pocket.UsualContent("photo 3.5 x 5 in")
	return folio.Spec{
		Title: "Eastwater Rowing Club, the women's eight, spring to autumn",
		Cover: units.MustParseSize("4 1/2 x 6 1/4 in"),
		Spine: folio.Spine{Width: units.Inch},
		Board: folio.Stock{Name: "chipboard", Caliper: units.Inch / 16},
		Covering: folio.Stock{Name: "decorated paper", Sheets: []folio.Sheet{
			{Size: units.MustParseSize("12 x 12 in")},
		}},
		Liner: folio.Stock{Name: "plain paper", Sheets: []folio.Sheet{
			{Size: units.MustParseSize("8 1/2 x 11 in")},
		}},
		Stocks: []folio.Stock{{
			Name: "river-blue card", Caliper: 12 * units.Thou, TwoSided: true,
			Sheets: []folio.Sheet{{Size: units.MustParseSize("12 x 12 in")}},
		}},
		Fittings: []folio.Fitting{
			{
				Name: "strip", Panel: folio.LeftCover, Stock: "river-blue card",
				Kind: folio.Folded{Kind: pocket.FoldedStrip{
					Strip:   units.MustParseSize("12 x 6 in"),
					Scores:  [4]units.Length{units.MustParse("3 7/8 in"), units.MustParse("7 7/8 in"), units.MustParse("10 1/2 in")},
					Content: pocket.IDCard().Turned(),
				}},
			},
			{
				Name: "mat", StandsOn: "strip",
				Kind: folio.Mat{Size: units.MustParseSize("3 1/2 x 5 3/4 in")},
			},
			{
				Name: "frame", Panel: folio.RightCover, Stock: "river-blue card",
				Kind: folio.Frame{Picture: photo.Content},
			},
			{
				Name: "badge", Panel: folio.LeftCover, Outside: true,
				Kind: folio.Ornament{Size: units.MustParseSize("1 x 1 in"), Thickness: units.Inch / 32},
			},
		},
	}
}

// millimetres is the same folio for a maker with a metric ruler.
func millimetres() folio.Spec {
	const mm = units.Millimetre
	photo, _ := pocket.UsualContent("photo 89 x 127 mm")
	s := inches()
	s.Rulers.Main = units.WholeMillimetres
	s.Cover = units.Size{W: 114 * mm, H: 159 * mm}
	s.Spine.Width = 25 * mm
	s.Board.Caliper = 3 * mm / 2
	s.Covering.Caliper = 160 * units.Micrometre
	s.Covering.Sheets = []folio.Sheet{{Size: units.Size{W: 305 * mm, H: 305 * mm}}}
	s.Liner.Caliper = 160 * units.Micrometre
	s.Liner.Sheets = []folio.Sheet{{Size: units.Size{W: 297 * mm, H: 210 * mm}}, {Size: units.Size{W: 210 * mm, H: 297 * mm}}}
	s.Margin = folio.Margin{Ideal: 25 * mm, Least: 13 * mm, Tolerated: 6 * mm}
	s.Lining.Inset = 3 * mm
	s.Stocks[0].Caliper = 300 * units.Micrometre
	s.Stocks[0].Sheets = []folio.Sheet{{Size: units.Size{W: 305 * mm, H: 305 * mm}}}
	s.Fittings[0].Kind = folio.Folded{Kind: pocket.FoldedStrip{
		Strip:   units.Size{W: 305 * mm, H: 152 * mm},
		Scores:  [4]units.Length{98 * mm, 200 * mm, 267 * mm},
		Content: pocket.IDCard().Turned(),
	}}
	s.Fittings[1].Kind = folio.Mat{Size: units.Size{W: 89 * mm, H: 146 * mm}}
	s.Fittings[2].Kind = folio.Frame{Picture: photo.Content, Lap: 3 * mm, Rail: 12 * mm, Foam: 2 * mm, FoamWidth: 6 * mm, Ease: 2 * mm}
	s.Fittings[3].Kind = folio.Ornament{Size: units.Size{W: 25 * mm, H: 25 * mm}, Thickness: mm}
	return s
}
