package tie_test

import (
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/tie"
	"boardwrap.example/internal/mendtest"
	"boardwrap.example/internal/proptest"
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
	var tally mendtest.Tally
	proptest.Run(t, 1000, func(p *gopter.Properties) {
		p.Property("a spoilt band and a spoilt ribbon", prop.ForAll(func(from int64) bool {
			b, r := mendtest.Spoil(band, from), mendtest.Spoil(ribbon, from)
			mendtest.Value(&tally, b, banded(b), nil, banded)
			mendtest.Value(&tally, r, tied(r), nil, tied)
			return true
		}, gen.Int64()))
	})
	tally.Check(t, 1, mendtest.AdviceOf(t, ".", "../../units/check")...)
}
