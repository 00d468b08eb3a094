package layout

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
)

// A length may shrink by so many steps of the ruler as its tolerance has, up to 256;
// beyond that, however much it may, by 256, and there is a folio for it.
func TestMostLengths(t *testing.T) {
	mm := units.Millimetre
	plan, err := folio.Build(folio.Spec{Cover: units.Size{W: 500 * mm, H: 700 * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}})
	if err != nil {
		t.Fatal(err)
	}
	for may, steps := range map[units.Length]int16{
		-mm: 0, 0: 0, mm - 1: 0, mm: 1, (mostLengths - 1) * mm: mostLengths - 1,
		mostLengths * mm: mostLengths, (mostLengths + 1) * mm: mostLengths, 10 * mostLengths * mm: mostLengths, 1<<63 - 1: mostLengths,
	} {
		a, ok := newAlterer(plan, Tolerance{Width: may, Height: may})
		if !ok {
			t.Fatal("it cannot be built again")
		}
		if a.most[Narrower] != steps || a.most[Lower] != steps {
			t.Errorf("%v: %d and %d steps", may, a.most[Narrower], a.most[Lower])
		}
		if p := a.build(a.most); p == nil || p.Spec().Cover != (units.Size{W: 500*mm - units.Length(steps)*mm, H: 700*mm - units.Length(steps)*mm}) {
			t.Errorf("%v: it cannot be built, or is another one", may)
		}
	}
}

// The pieces of a material are the same only if they are as many, of the same sizes, as
// often, with the same grain.
func TestSameWants(t *testing.T) {
	size := units.Size{W: 3, H: 5}
	list := []Wanted{{size: size, quantity: 2, grain: stock.GrainAny}, {size: size, quantity: 2, grain: stock.GrainAny}, {size: size.Turned(), quantity: 2, grain: stock.GrainAny},
		{size: size, quantity: 3, grain: stock.GrainAny}, {size: size, quantity: 2, grain: stock.GrainParallel}}
	for i := range list {
		if got := sameWants(list, []int{i}, list, []int{0}); got != (i < 2) || got != sameWants(list, []int{0}, list, []int{i}) {
			t.Errorf("%+v is the same as %+v: %v", list[i], list[0], got)
		}
	}
	if sameWants(list, []int{0, 1}, list, []int{0}) || sameWants(list, []int{0}, list, []int{0, 1}) || !sameWants(list, []int{0, 4}, list, []int{1, 4}) {
		t.Error("one is two")
	}
}
