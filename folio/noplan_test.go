package folio_test

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/stick"
	"boardwrap.example/folio/tie"
	"boardwrap.example/pocket"
)

// What is asked of no plan at all is refused with one error, or there is nothing.
func TestNoPlan(t *testing.T) {
	var none *folio.Plan
	for what, ask := range map[string]func() error{
		"a refit":  func() error { _, err := none.Refit(refit.Measured{}); return err },
		"shutting": none.Shuts,
		"a band":   func() error { _, err := tie.Band{}.Round(none); return err },
		"a ribbon": func() error { _, err := tie.Ribbon{}.Round(none); return err },
	} {
		if err := ask(); err == nil || err.Error() != "plan: missing: got no plan; want a plan made by folio.Build" {
			t.Errorf("%s: %v", what, err)
		}
	}
	for range stick.Of(none).Tapes() {
		t.Error("tape")
	}
	if _, err := fit.Of(none).All(t.Context(), fit.Budget{}, pocket.IDCard()); !refusedWith(err, "contents", fit.NotHeld) {
		t.Errorf("a card: %v", err)
	}
}
