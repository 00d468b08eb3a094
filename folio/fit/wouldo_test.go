package fit_test

import (
	"context"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/internal/mendtest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// What is searched for is spoilt: paths lead to its fields, and what violations
// say would do does.
func TestWhatWouldDoDoes(t *testing.T) {
	type asked struct{ Contents []pocket.Content }
	plan, err := folio.Build(folio.Spec{Cover: units.MustParseSize("6 x 8 in"), Spine: rule.Spine{Width: units.Inch}, Fittings: []folio.Fitting{{Kind: folio.Mat{Picture: pocket.Content{Size: units.MustParseSize("4 x 6 in")}}}}})
	if err != nil {
		t.Fatal(err)
	}
	held := func(a asked) error {
		_, err := fit.Of(plan).All(context.Background(), fit.Budget{}, a.Contents...)
		return err
	}
	sound := asked{Contents: []pocket.Content{{Name: "print", Size: units.MustParseSize("3 1/2 x 5 in"), Thickness: units.Inch / 100}}}
	if err := held(sound); err != nil {
		t.Fatal(err)
	}
	mendtest.Many(t, 500, 1, mendtest.AdviceOf(t, ".", "..", "../../units/check"), func(tally *mendtest.Tally, from int64) {
		a := mendtest.Spoil(sound, from)
		mendtest.Value(tally, a, held(a), nil, held)
	})
}

// Searches for the smallest and the largest folio are spoilt: paths lead to fields of
// the Spec, or to what else was asked, and what violations say would do does.
func TestWhatWouldDoOfSearches(t *testing.T) {
	type asked struct {
		folio.Spec
		Contents    []pocket.Content
		Proportions units.Size
	}
	for name, search := range map[string]func(a asked) error{
		"smallest": func(a asked) error {
			_, err := fit.Smallest(context.Background(), a.Spec, fit.Budget{Steps: 2000}, a.Contents...)
			return err
		},
		"largest": func(a asked) error {
			_, err := fit.Largest(context.Background(), a.Spec, a.Proportions)
			return err
		},
	} {
		t.Run(name, func(t *testing.T) {
			sound := asked{Spec: keepsake(), Contents: []pocket.Content{{Name: "print", Size: units.MustParseSize("3 1/2 x 5 in"), Thickness: units.Inch / 100}}, Proportions: units.MustParseSize("6 x 8 in")}
			if name == "largest" { // what the sheets leave no room for is a matter of the sheets
				sound.Fittings = sound.Fittings[3:]
			}
			if err := search(sound); err != nil {
				t.Fatal(err)
			}
			mendtest.Many(t, 300, 1, mendtest.AdviceOf(t, ".", "..", "../../pocket", "../../units/check"), func(tally *mendtest.Tally, from int64) {
				a := mendtest.Spoil(sound, from)
				offers := []any{a.Spec.WithDefaults().Liner.Name}
				var names mendtest.Names
				for _, f := range a.Fittings {
					offers, names = append(offers, f.Name), append(names, f.Name)
				}
				offers = append(offers, names)
				mendtest.Value(tally, a, search(a), offers, search)
			})
		})
	}
}
