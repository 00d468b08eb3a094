package cost_test

import (
	"testing"

	"boardwrap.example/folio/cost"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/mendtest"
	"boardwrap.example/units/money"
)

// A sound basis is spoilt: paths lead to its fields, and what its violations say
// would do does.
func TestWhatWouldDoDoes(t *testing.T) {
	kind := sheets("12 x 12", 40, stock.GrainAlongHeight)
	kind.Price = usd(150)
	l := lay(t, wraps(t, []int{4, 6}, kind))
	sound := cost.Basis{
		Supplies: []cost.Supply{{Name: "glue", Price: usd(900), Contents: 1000, Measure: "g", Amounts: []int64{12}}},
		Minutes:  []int{90, 75}, Rate: usd(2000), Fee: usd(3000), Margin: 4000, RoundTo: 100, Prices: []money.Amount{usd(4500), usd(4000)},
	}
	again := func(b cost.Basis) error {
		_, err := cost.Of(l, b)
		return err
	}
	if err := again(sound); err != nil {
		t.Fatal(err)
	}
	mendtest.Many(t, 1000, 1, mendtest.AdviceOf(t, ".", "../../units/check", "../../units/money"), func(tally *mendtest.Tally, from int64) {
		b := mendtest.Spoil(sound, from)
		mendtest.Value(tally, b, again(b), []any{usd(0).Currency}, again)
	})
}
