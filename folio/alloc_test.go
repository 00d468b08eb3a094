//go:build !race

package folio_test

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/refit"
	"boardwrap.example/units"
)

// The race detector makes allocations of its own, so they are counted without it.

// Ceilings: 10 allocations for the whole keepsake, 7 for its case, 12 for a refit,
// which works the fittings out again, and 103 for the order of work, most of them
// for the actions.
func TestAllocations(t *testing.T) {
	s := keepsake()
	build := func() {
		if _, err := folio.Build(s); err != nil {
			t.Fatal(err)
		}
	}
	if n := testing.AllocsPerRun(100, build); n > 10 {
		t.Errorf("the keepsake takes %v allocations, want at most 10", n)
	}
	s.Fittings = nil
	if n := testing.AllocsPerRun(100, build); n > 7 {
		t.Errorf("its case takes %v allocations, want at most 7", n)
	}
	p := mustPlan(keepsake())
	m := refit.Measured{Width: units.MustParse("10 3/8 in"), Height: units.MustParse("6 1/4 in")}
	refit := func() {
		if _, err := p.Refit(m); err != nil {
			t.Fatal(err)
		}
	}
	if n := testing.AllocsPerRun(100, refit); n > 12 {
		t.Errorf("a refit takes %v allocations, want at most 12", n)
	}
	steps := func() {
		for range p.Steps() {
		}
	}
	if n := testing.AllocsPerRun(100, steps); n > 103 {
		t.Errorf("the steps take %v allocations, want at most 103", n)
	}
}
