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
	for _, text := range []string{`4-1/2"`, "4½″", `1' 2 1/2"`, "11.43cm", "4½"} {
		l, err := units.Parse(text)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(text, "is", l)
	}
	// Output:
	// 4-1/2" is 114.3 mm
	// 4½″ is 114.3 mm
	// 1' 2 1/2" is 368.3 mm
	// 11.43cm is 114.3 mm
	// units: cannot read "4½" at byte 3: a unit must stand here: in, ", ft, ', mm, cm, m, µm, nm, pt, thou or mil
}

// A form has a field for the unit and one for the number.
func ExampleParseIn() {
	l, err := units.ParseIn("6 1/4", units.Inch)
	fmt.Println(l, err)
	// Output: 158.75 mm <nil>
}

// A front end marks the place of a slip.
func ExampleParseError() {
	_, err := units.Parse("4⁄½ in")
	var slip *units.ParseError
	if errors.As(err, &slip) {
		fmt.Println(slip.Input[:slip.Offset], "|", slip.Input[slip.Offset:])
		fmt.Println(slip.Problem)
	}
	// Output:
	// 4⁄ | ½ in
	// a fraction needs a whole number below the line
}

// A number that was computed elsewhere comes in through a constructor.
func ExampleInches() {
	l, err := units.Inches(4.5)
	fmt.Println(l, err)
	// Output: 114.3 mm <nil>
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
	l := units.MustParse("10 5/16 in")
	fmt.Println(units.Format{Ruler: units.Sixteenths}.Text(l))
	fmt.Println(units.Format{Ruler: units.Eighths}.Text(l))
	fmt.Println(units.Format{Ruler: units.Thousandths, Typographic: true}.Text(l))
	fmt.Println(units.Format{}.Text(l))
	// Output:
	// 10 5/16 in
	// ~10 3/8 in
	// ≈10.313″
	// 261.9375 mm
}

func ExampleSum() {
	open := 10*units.Inch + 3*units.Inch/8
	w := units.Sum("liner width", units.Sixteenths, units.Down,
		units.T("open width", open), units.N(-2, "inset", units.Inch/8))
	fmt.Println(w)
	for term := range w.Terms() {
		fmt.Println(term.Count, term.Label, term.Length)
	}
	// Output:
	// liner width 10 1/8 in = open width 10 3/8 in - 2 x inset 1/8 in
	// 1 open width 263.525 mm
	// -2 inset 3.175 mm
}

// A sheet of 65 lb cover, 12 inches square.
func ExampleBasisWeight() {
	g := units.BasisWeight(65*units.Pound, units.Cover.Size())
	sheet := units.Size{W: units.Foot, H: units.Foot}
	fmt.Println(g)
	fmt.Printf("%.1f g\n", g.Mass(sheet.Area()).Grams())
	// Output:
	// 175.767 g/m²
	// 16.3 g
}
