//go:build !race

package folio_test

import (
	"math"
	"runtime"
	"strconv"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/units"
)

// The race detector makes allocations of its own, so they are counted without it.

// Ceilings: 10 allocations for the whole keepsake, 7 for its case, 12 for a refit,
// which works the fittings out again, and 101 for the order of work, most of them
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
	// Half of what it took when each part of a plan had its own.
	if n := bytesPerRun(200, build); n > 16_560 {
		t.Errorf("the keepsake takes %d bytes, want at most 16,560", n)
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
	if n := testing.AllocsPerRun(100, steps); n > 101 {
		t.Errorf("the steps take %v allocations, want at most 101", n)
	}
}

// bytesPerRun returns how much memory a function takes: the least of five averages, as
// the runtime takes some of its own now and then.
func bytesPerRun(runs int, f func()) uint64 {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	f()
	least := uint64(math.MaxUint64)
	for range 5 {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		for range runs {
			f()
		}
		runtime.ReadMemStats(&after)
		least = min(least, (after.TotalAlloc-before.TotalAlloc)/uint64(runs))
	}
	return least
}

// What is put by for a case of any form and style is room enough: its lists and workings
// take no further allocation while they are filled.
func TestAllocationsOfCases(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*folio.Spec)
		most   float64
	}{
		{"a cover", func(*folio.Spec) {}, 7},
		{"in quarter style", func(s *folio.Spec) { s.Quarter.Rule = rule.QuarterAlways }, 14},
		{"lined in panels", func(s *folio.Spec) { s.Lining.Rule = rule.LiningPanels }, 13},
		{"both", func(s *folio.Spec) { s.Quarter.Rule, s.Lining.Rule = rule.QuarterAlways, rule.LiningPanels }, 20},
		{"a gate", func(s *folio.Spec) { s.Form = boards.DoubleSpineGate }, 151},
		{"a gate in quarter style", func(s *folio.Spec) { s.Form, s.Quarter.Rule = boards.DoubleSpineGate, rule.QuarterAlways }, 161},
		{"a gate lined in panels", func(s *folio.Spec) { s.Form, s.Lining.Rule = boards.DoubleSpineGate, rule.LiningPanels }, 160},
		{"a gate of both", func(s *folio.Spec) {
			s.Form, s.Quarter.Rule, s.Lining.Rule = boards.DoubleSpineGate, rule.QuarterAlways, rule.LiningPanels
		}, 170},
		{"eight mats", func(s *folio.Spec) { s.Fittings = mats(8) }, 14},
		{"forty mats", func(s *folio.Spec) { s.Fittings = mats(40) }, 14},
	} {
		s := plainCase()
		c.change(&s)
		n := testing.AllocsPerRun(20, func() {
			if _, err := folio.Build(s); err != nil {
				t.Fatal(err)
			}
		})
		if n > c.most {
			t.Errorf("%s takes %v allocations, want at most %v", c.name, n, c.most)
		}
	}
}

// mats are small mats in rows of five on the main panel.
func mats(n int) (all []folio.Fitting) {
	for i := range n {
		f := mat(15*mm, 12*mm)
		f.Name = strconv.Itoa(i)
		f.Place = place.Place{Across: place.Left, Along: place.Head, Offset: units.Point{X: units.Length(i%5) * 20 * mm, Y: units.Length(i/5) * 20 * mm}}
		all = append(all, f)
	}
	return all
}
