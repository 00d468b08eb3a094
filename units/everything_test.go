package units_test

import (
	"testing"

	"boardwrap.example/internal/fuzztest"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// everything is each function and type of units and check. What is named Must
// panics by its name and is left out.
var everything = []any{
	units.Parse, units.ParseIn, units.ParseSize, units.ParseSizeIn, units.ParseArea, units.ParseMass, units.ParseGrammage, units.ParseRuler,
	units.Of[int64], units.Of[float64], units.Of[uint8], units.Inches[float64], units.Millimetres[int64], units.Fraction[int64],
	units.NewRuler, units.NewPolygon, units.Diagonal, units.BasisWeight, units.RectAt, units.T, units.N,
	units.Sum, func(label string, n int, r units.Ruler, d units.Direction, terms []units.Term) units.Working {
		return new(units.Ledger).Share(label, n, r, d, terms...)
	},
	fuzztest.Except{Name: "MustParse", Because: "panics by its name"}, fuzztest.Except{Name: "MustParseSize", Because: "panics by its name"},
	func(a, b units.Length) units.Area { return a.By(b) },
	units.Length(0), units.Ruler(0), units.Size{}, units.Point{}, units.Rect{}, units.Polygon{}, units.Mass(0), units.Grammage(0), units.BasicSize(0),
	units.Direction(0), units.Notation(0), units.Format{}, units.Term{}, units.Rounded{}, units.Working{}, units.Area{}, units.ParseError{},
	check.Index, check.InBounds, check.Quote, check.Clip, check.Violation{}, check.Warning{}, check.Nature(0), check.Bound(0),
	func(vs []check.Violation, path string, l units.Length, s units.Size, n units.Notation) error {
		var list check.List
		for _, v := range vs {
			list.Add(v)
		}
		list.Length(path, l)
		list.Allowance(path, l)
		list.Size(path, s)
		list.Short(path, check.TooSmall, n, l, s.W, path)
		list.Long(path, check.TooLarge, n, l, s.H, path)
		list.Under(path, list.Err())
		return list.Err()
	},
}

// FuzzEverything calls every function and method with any values at all.
func FuzzEverything(f *testing.F) { fuzztest.Everything(f, 600, everything...) }

// Nothing that the package exports is left out of that.
func TestEverythingIsCalled(t *testing.T) { fuzztest.Complete(t, ".", everything...) }
