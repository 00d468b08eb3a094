package folio_test

import (
	"fmt"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/mendtest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Each limit of the package is taken at it, and refused above it.
func TestLimits(t *testing.T) {
	with := func(change func(s *folio.Spec, n int64)) func(n int64) error {
		return func(n int64) error {
			s := good()
			change(&s, n)
			_, err := folio.Build(s)
			return err
		}
	}
	mendtest.Limits(t, map[string]mendtest.Limit{
		"MaxSheets": {At: stock.MaxSheets, Path: "covering.sheets", Code: check.TooMany, Try: with(func(s *folio.Spec, n int64) {
			for range n {
				s.Covering.Sheets = append(s.Covering.Sheets, stock.Sheet{Size: units.MustParseSize("20 x 30 in")})
			}
		})},
		"MaxStocks": {At: folio.MaxStocks, Path: "stocks", Code: check.TooMany, Try: with(func(s *folio.Spec, n int64) {
			for i := range n {
				s.Stocks = append(s.Stocks, stock.Stock{Name: fmt.Sprint("card ", i), Caliper: mm / 4})
			}
		})},
		"MaxFittings": {At: folio.MaxFittings, Path: "fittings", Code: check.TooMany, Try: with(func(s *folio.Spec, n int64) {
			for i := range n {
				s.Fittings = append(s.Fittings, folio.Fitting{Kind: folio.Ornament{Size: units.Size{W: mm, H: mm}},
					Place: place.Place{Across: place.Left, Along: place.Head, Offset: units.Point{X: units.Length(i%16) * 2 * mm, Y: units.Length(i/16) * 2 * mm}}})
			}
		})},
		"MaxProportion": {At: place.MaxProportion, Path: "fittings[0].size.proportions.w", Code: check.TooMany, Try: with(func(s *folio.Spec, n int64) {
			s.Fittings = []folio.Fitting{{Kind: folio.Mat{}, Size: place.Sizing{W: place.By(place.OfPanel), Proportions: place.Proportions{W: int(n), H: 900}}}}
		})},
		"MaxShares": {At: place.MaxShares, Path: "fittings[0].size.w.shares", Code: check.TooMany, Try: with(func(s *folio.Spec, n int64) {
			s.Cover = units.Size{W: 4 * units.Metre, H: 4 * units.Metre}
			s.Fittings = []folio.Fitting{{Kind: folio.Mat{}, Size: place.Sizing{W: place.Relation{Of: place.OfPanel, Shares: int(n)}, H: place.By(place.OfPanel)}}}
		})},
		"MaxPockets": {At: folio.MaxPockets, Path: "fittings", Code: check.TooMany, Try: with(func(s *folio.Spec, n int64) {
			s.Cover = units.Size{W: 4 * units.Metre, H: 4 * units.Metre}
			for i := 0; n > 0; i++ {
				k := pocket.Pleat{Content: pocket.Content{Size: units.Size{W: 20 * mm, H: 20 * mm}}, Pleats: int(min(n, 400)), Visible: mm, Fold: mm}
				s.Fittings = append(s.Fittings, folio.Fitting{Kind: folio.Folded{Kind: k}, Place: place.Place{Across: place.Left, Along: place.Head, Offset: units.Point{X: units.Length(i) * 90 * mm}}})
				n -= 400
			}
		})},
		"MostMass": {At: int64(folio.MostMass), Path: "fittings[0].kind.mass", Code: check.OutOfRange, Try: with(func(s *folio.Spec, n int64) {
			s.Fittings = []folio.Fitting{{Kind: folio.Ornament{Size: units.Size{W: mm, H: mm}, Mass: units.Mass(n)}}}
		})},
		"mostGrammage": {At: 10_000 * int64(units.GramPerSquareMetre), Path: "covering.grammage", Code: check.OutOfRange, Try: with(func(s *folio.Spec, n int64) {
			s.Covering.Grammage = units.Grammage(n)
		})},
		"mostPairs": {At: 100, Path: "magnets.pairs", Code: check.OutOfRange, Try: with(func(s *folio.Spec, n int64) {
			s.Cover = units.Size{W: 9 * units.Metre / 4, H: 9 * units.Metre}
			s.Magnets = closing.Magnets{Pairs: int(n), Diameter: 3 * mm, Thickness: mm}
		})},
		"units.Longest": {At: int64(units.Longest), Path: "cover.h", Code: check.OutOfRange, Try: with(func(s *folio.Spec, n int64) {
			s.Cover.H = units.Length(n)
		}), Also: func(err error) error { // the wrap round it is too long then
			if refusedWith(err, "cover.h", check.OutOfRange) {
				return err
			}
			return nil
		}},
	})
}
