package weigh_test

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/weigh"
	"boardwrap.example/internal/mendtest"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Each limit of the package is taken at it, and refused above it.
func TestLimits(t *testing.T) {
	plan, err := folio.Build(folio.Spec{Cover: units.MustParseSize("4 x 6 in"), Spine: rule.Spine{Width: units.Inch}})
	if err != nil {
		t.Fatal(err)
	}
	try := func(change func(o *weigh.Options, n int64)) func(n int64) error {
		return func(n int64) error {
			var o weigh.Options
			change(&o, n)
			_, err := weigh.Of(plan, o)
			return err
		}
	}
	mendtest.Limits(t, map[string]mendtest.Limit{
		"MostCopies":     {At: weigh.MostCopies, Path: "copies", Code: check.TooMany, Try: try(func(o *weigh.Options, n int64) { o.Copies = int(n) })},
		"MostDensity":    {At: weigh.MostDensity, Path: "density", Code: check.OutOfRange, Try: try(func(o *weigh.Options, n int64) { o.Density = n })},
		"folio.MostMass": {At: int64(folio.MostMass), Path: "block", Code: check.OutOfRange, Try: try(func(o *weigh.Options, n int64) { o.Block = units.Mass(n) })},
	})
}
