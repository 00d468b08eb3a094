package layout

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/cutorder"
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

// A step that cuts parts of many sheets names thirteen of them or of their rows, and of
// more the first thirteen.
func TestSheetsAreNamed(t *testing.T) {
	for want, numbers := range map[string][]int{
		"sheet 4": {4}, "sheets 1 and 2": {1, 2}, "sheets 1 to 3": {2, 1, 3}, "sheets 1, 3 to 5 and 9": {1, 3, 4, 5, 9}, "sheets 2 to 4, 7, 8 and 10": {2, 3, 4, 7, 8, 10},
		"sheets 1, 3, 5, 7, 9, 11, 13, 15, 17, 19, 21, 23 and 25":         {1, 3, 5, 7, 9, 11, 13, 15, 17, 19, 21, 23, 25},
		"sheets 1, 3, 5, 7, 9, 11, 13, 15, 17, 19, 21, 23, 25 and others": {1, 3, 5, 7, 9, 11, 13, 15, 17, 19, 21, 23, 25, 27},
	} {
		s := Step{m: &Laid{}, take: -1}
		for i, n := range numbers {
			s.m.sheets, s.refs = append(s.m.sheets, Sheet{number: n}), append(s.refs, cutorder.Ref{Sheet: i})
		}
		if got := (&writer{s: s}).sheets(); got != want {
			t.Errorf("%v: %q, want %q", numbers, got, want)
		}
	}
}
