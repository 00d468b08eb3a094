package fit_test

import (
	"context"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/internal/mendtest"
	"boardwrap.example/internal/proptest"
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
	var tally mendtest.Tally
	proptest.Run(t, 500, func(p *gopter.Properties) {
		p.Property("spoilt contents are held", prop.ForAll(func(from int64) bool {
			a := mendtest.Spoil(sound, from)
			mendtest.Value(&tally, a, held(a), nil, held)
			return true
		}, gen.Int64()))
	})
	tally.Check(t, 1, mendtest.AdviceOf(t, ".", "..", "../../units/check")...)
}
