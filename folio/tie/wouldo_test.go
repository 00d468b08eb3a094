package tie_test

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/tie"
	"boardwrap.example/internal/mendtest"
	"boardwrap.example/units"
)

// Bands and ribbons are spoilt: paths lead to their fields, and what violations
// say would do does.
func TestWhatWouldDoDoes(t *testing.T) {
	plan, err := folio.Build(folio.Spec{Cover: units.MustParseSize("4 x 6 in"), Spine: rule.Spine{Width: units.Inch}})
	if err != nil {
		t.Fatal(err)
	}
	banded := func(b tie.Band) error {
		_, err := b.Round(plan)
		return err
	}
	tied := func(r tie.Ribbon) error {
		_, err := r.Round(plan)
		return err
	}
	band, ribbon := tie.Band{Breadth: 2 * units.Inch, Lap: units.Inch, Caliper: units.Inch / 100}, tie.Ribbon{Tail: 8 * units.Inch}
	if banded(band) != nil || tied(ribbon) != nil {
		t.Fatal(banded(band), tied(ribbon))
	}
	mendtest.Many(t, 1000, 1, mendtest.AdviceOf(t, ".", "../../units/check"), func(tally *mendtest.Tally, from int64) {
		b, r := mendtest.Spoil(band, from), mendtest.Spoil(ribbon, from)
		mendtest.Value(tally, b, banded(b), nil, banded)
		mendtest.Value(tally, r, tied(r), nil, tied)
	})
}
