package money_test

import (
	"testing"

	"boardwrap.example/internal/fuzztest"
	"boardwrap.example/units/check"
	"boardwrap.example/units/money"
)

// everything is each function and type of the package.
func everything() []any {
	return []any{
		money.CurrencyOf, money.Parse, money.Amount{}, money.Currency{},
		func(path string, m money.Amount, common money.Currency) error {
			var bad check.List
			money.Check(&bad, path, m, &common)
			return bad.Err()
		},
		fuzztest.Except{Name: "Check", Because: "called with a list of ours"},
	}
}

// FuzzEverything calls every function and method with any values at all.
func FuzzEverything(f *testing.F) { fuzztest.Everything(f, 1500, everything()...) }

// Nothing that the package exports is left out of that.
func TestEverythingIsCalled(t *testing.T) { fuzztest.Complete(t, ".", everything()...) }
