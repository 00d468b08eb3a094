package fit_test

import (
	"context"
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/internal/mendtest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Each limit of the package is taken at it, and refused above it.
func TestLimits(t *testing.T) {
	spec := folio.Spec{Cover: units.MustParseSize("6 x 8 in"), Spine: rule.Spine{Width: units.Inch}}
	plan, err := folio.Build(spec)
	if err != nil {
		t.Fatal(err)
	}
	tooMany := func(err error) error { // what there is no room for is another matter
		if refusedWith(err, "contents", check.TooMany) {
			return err
		}
		return nil
	}
	card := pocket.Content{Size: units.Size{W: units.Inch, H: units.Inch}}
	mendtest.Limits(t, map[string]mendtest.Limit{
		"MostCovers": {At: fit.MostCovers, Path: "covers", Code: check.TooMany, Try: func(n int64) error {
			_, err := fit.FamilyOf(context.Background(), spec, slices.Repeat([]units.Size{spec.Cover}, int(n))...)
			return err
		}},
		"MostContents of All": {At: fit.MostContents, Path: "contents", Code: check.TooMany, Also: tooMany, Try: func(n int64) error {
			_, err := fit.Of(plan).All(context.Background(), fit.Budget{}, slices.Repeat([]pocket.Content{card}, int(n))...)
			return err
		}},
		"MostContents of Smallest": {At: fit.MostContents, Path: "contents", Code: check.TooMany, Also: tooMany, Try: func(n int64) error {
			_, err := fit.Smallest(context.Background(), spec, fit.Budget{Steps: 1000}, slices.Repeat([]pocket.Content{card}, int(n))...)
			return err
		}},
	})
}
