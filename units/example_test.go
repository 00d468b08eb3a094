package units_test

import (
	"errors"
	"fmt"

	"boardwrap.example/units"
)

// The cover of a rowing crew's log, measured and rounded on the maker's own
// ruler.
func Example() {
	cover := units.MustParseSize("6 x 8 in")
	inset := units.Inch / 8
	liner := cover.Grow(-inset)

	fmt.Println(units.Format{Ruler: units.Sixteenths}.Size(liner))
	fmt.Println(units.Format{Ruler: units.HalfMillimetres}.Size(liner))
	fmt.Println(liner) // exact, always

	// Output:
	// 5 3/4 x 7 3/4 in
	// ~146 x ~197 mm
	// 146.05 x 196.85 mm
}

// Lengths are counted as durations are: multiply to make one, divide to count.
func ExampleLength() {
	board := 2 * units.Millimetre
	stack := 7 * board
	fmt.Println(stack, "is", int64(stack/board), "boards")
	// Output: 14 mm is 7 boards
}

func ExampleParse() {
	for _, text := range []string{`5-3/4"`, "5¾″", `1' 2 1/2"`, "14.05cm", "5¾"} {
		l, err := units.Parse(text)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(text, "is", l)
	}
	// Output:
	// 5-3/4" is 146.05 mm
	// 5¾″ is 146.05 mm
	// 1' 2 1/2" is 368.3 mm
	// 14.05cm is 140.5 mm
	// units: cannot read "5¾" at byte 3: a unit must stand here: in, ", ft, ', mm, cm, m, µm, nm, pt, thou or mil
}

// A form has a field for the unit and one for the number.
func ExampleParseIn() {
	l, err := units.ParseIn("7 3/4", units.Inch)
	fmt.Println(l, err)
	// Output: 196.85 mm <nil>
}

// A front end marks the place of a slip.
func ExampleParseError() {
	_, err := units.Parse("5⁄½ in")
	var slip *units.ParseError
	if errors.As(err, &slip) {
		fmt.Println(slip.Input[:slip.Offset], "|", slip.Input[slip.Offset:])
		fmt.Println(slip.Problem)
	}
	// Output:
	// 5⁄ | ½ in
	// a fraction needs a whole number below the line
}

// A number that was computed elsewhere comes in through a constructor.
func ExampleInches() {
	l, err := units.Inches(5.75)
	fmt.Println(l, err)
	// Output: 146.05 mm <nil>
}

func ExampleRuler_Round() {
	gap := units.MustParse("3.3 mm")
	r := units.ThirtySeconds.Round(gap, units.Up)
	fmt.Println(units.ThirtySeconds.Text(r.To), r.Exact(), r.Residue())
	// Output: 5/32 in false 0.66875 mm
}

// Four equal panels of an A4 sheet, folded on whole millimetres.
func ExampleRuler_Split() {
	parts, err := units.WholeMillimetres.Split(297*units.Millimetre, 4)
	fmt.Println(parts, err)
	// Output: [74 mm 75 mm 74 mm 74 mm] <nil>
}

func ExampleFormat() {
	l := units.MustParse("12 13/16 in")
	fmt.Println(units.Format{Ruler: units.Sixteenths}.Text(l))
	fmt.Println(units.Format{Ruler: units.Eighths}.Text(l))
	fmt.Println(units.Format{Ruler: units.Thousandths, Typographic: true}.Text(l))
	fmt.Println(units.Format{}.Text(l))
	// Output:
	// 12 13/16 in
	// ~12 7/8 in
	// ≈12.813″
	// 325.4375 mm
}

func ExampleSum() {
	open := 12*units.Inch + 7*units.Inch/8
	w := units.Sum("liner width", units.Sixteenths, units.Down,
		units.T("open width", open), units.N(-2, "inset", units.Inch/8))
	fmt.Println(w)
	for term := range w.Terms() {
		fmt.Println(term.Count, term.Label, term.Length)
	}
	// Output:
	// liner width 12 5/8 in = open width 12 7/8 in - 2 x inset 1/8 in
	// 1 open width 327.025 mm
	// -2 inset 3.175 mm
}

// A sheet of 65 lb cover, 12 x 18 inches.
func ExampleBasisWeight() {
	g := units.BasisWeight(65*units.Pound, units.Cover.Size())
	sheet := units.Size{W: 12 * units.Inch, H: 18 * units.Inch}
	fmt.Println(g)
	fmt.Printf("%.1f g\n", g.Mass(sheet.Area()).Grams())
	// Output:
	// 175.767 g/m²
	// 24.5 g
}
