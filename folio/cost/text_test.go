package cost_test

import (
	"errors"
	"testing"

	"boardwrap.example/folio/cost"
	"boardwrap.example/units"
)

func TestSheetRuleText(t *testing.T) {
	for v, want := range map[cost.SheetRule]string{cost.WholeSheets: "whole sheets", cost.LessOffcuts: "less offcuts"} {
		text, err := v.MarshalText()
		appended, errA := v.AppendText([]byte("pay "))
		var back cost.SheetRule
		if errB := back.UnmarshalText(text); err != nil || errA != nil || errB != nil || back != v || string(text) != want || v.String() != want || string(appended) != "pay "+want {
			t.Errorf("%d is %q, %q", v, text, appended)
		}
	}
	var r cost.SheetRule
	if err := r.UnmarshalText([]byte("half")); !errors.Is(err, units.ErrSyntax) {
		t.Error(err)
	}
	if _, err := cost.SheetRule(2).MarshalText(); !errors.Is(err, units.ErrUnknown) {
		t.Error(err)
	}
}
