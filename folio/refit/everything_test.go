package refit_test

import (
	"testing"

	"boardwrap.example/folio/refit"
	"boardwrap.example/internal/fuzztest"
)

// everything is each function and type of the package.
func everything() []any {
	return []any{refit.Measured{}, refit.Changed(0)}
}

// FuzzEverything calls every function and method with any values at all.
func FuzzEverything(f *testing.F) { fuzztest.Everything(f, 1500, everything()...) }

// Nothing that the package exports is left out of that.
func TestEverythingIsCalled(t *testing.T) { fuzztest.Complete(t, ".", everything()...) }
