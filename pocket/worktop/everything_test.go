package worktop_test

import (
	"testing"

	"boardwrap.example/internal/fuzztest"
	"boardwrap.example/pocket/work"
	"boardwrap.example/pocket/worktop"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// everything is each function and type of the package.
func everything() []any {
	cross, _ := score.NewBlank(score.Draft{Size: units.Size{W: 30 * mm, H: 20 * mm}, CutOuts: []score.CutOut{{Area: units.RectAt(units.Point{}, units.Size{W: 5 * mm, H: 5 * mm})}}})
	all := []any{
		worktop.New, worktop.AsDrawn, worktop.Lie{}, worktop.Stretch{}, worktop.Heap{}, worktop.Crossing{}, worktop.Workpiece{},
		func(list []work.FoldAt, copies int, index int) worktop.Heap {
			t := worktop.New([]worktop.Workpiece{{Blank: cross, Quantity: copies}, {Blank: cross}, {}})
			for _, a := range list {
				t.Do(a)
			}
			return t.Heap(index, 0)
		},
		func(a work.Fix, b work.Stick, c work.TurnOver, d work.FoldAt) []worktop.Stretch {
			t := worktop.New([]worktop.Workpiece{{Blank: cross, Quantity: 3}, {Blank: cross}, {}})
			t.Do(a, b, c, d, a)
			return t.Panel(a.On.Index, a.On.Copy, a.On.Panel)
		},
	}
	return all
}

// FuzzEverything calls every function and method with any values at all.
func FuzzEverything(f *testing.F) { fuzztest.Everything(f, 1500, everything()...) }

// Nothing that the package exports is left out of that.
func TestEverythingIsCalled(t *testing.T) { fuzztest.Complete(t, ".", everything()...) }
