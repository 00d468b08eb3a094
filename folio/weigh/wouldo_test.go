package weigh_test

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/weigh"
	"boardwrap.example/internal/mendtest"
	"boardwrap.example/units"
)

// Options are spoilt: paths lead to their fields, and what violations say would
// do does.
func TestWhatWouldDoDoes(t *testing.T) {
	plan, err := folio.Build(folio.Spec{Cover: units.MustParseSize("4 x 6 in"), Spine: rule.Spine{Width: units.Inch}})
	if err != nil {
		t.Fatal(err)
	}
	weighed := func(o weigh.Options) error {
		_, err := weigh.Of(plan, o)
		return err
	}
	sound := weigh.Options{Copies: 3, Density: 1400, Block: 20 * units.Gram, Filled: true}
	if err := weighed(sound); err != nil {
		t.Fatal(err)
	}
	mendtest.Many(t, 1000, 1, mendtest.AdviceOf(t, ".", "../../units/check"), func(tally *mendtest.Tally, from int64) {
		o := mendtest.Spoil(sound, from)
		mendtest.Value(tally, o, weighed(o), nil, weighed)
	})
}
