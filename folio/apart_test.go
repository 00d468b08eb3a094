package folio_test

import (
	"reflect"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
)

// spoil changes whatever can be reached from a value through its slices, and
// counts the slices.
func spoil(v reflect.Value) (slices int) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			slices += spoil(v.Field(i))
		}
	case reflect.Slice:
		slices = 1
		for i := range v.Len() {
			slices += spoil(v.Index(i))
			v.Index(i).SetZero()
		}
		v.Set(v.Slice(0, 0))
	}
	return slices
}

// What a caller keeps cannot change a plan: neither the Spec it was built from,
// nor the one it tells, nor what was measured; and no two Specs share a list.
func TestPlanIsApart(t *testing.T) {
	sheets := []stock.Sheet{{Size: units.MustParseSize("12 x 12 in")}}
	s := withStrip(folio.Fitting{Name: "a", Kind: folio.Mat{Size: units.MustParseSize("1 x 1 in")}})
	s.Board.Sheets, s.Covering.Sheets, s.Liner.Sheets = sheets, sheets, sheets
	s.Stocks = append(s.Stocks, stock.Stock{Name: "another", Caliper: mm, Sheets: sheets})
	for name, spine := range map[string]stock.Stock{"of its own": {Name: "cloth", Caliper: mm / 4, Sheets: sheets}, "the covering": {}} {
		s := s.WithDefaults() // a deep copy, which is tried at once
		s.SpineCovering = spine
		s.SpineCovering.Sheets = append([]stock.Sheet(nil), spine.Sheets...)
		p := mustBuild(t, s)
		before := told(p)
		if n := spoil(reflect.ValueOf(&s).Elem()); n < 7 {
			t.Fatalf("only %d lists in a Spec", n)
		}
		for range 2 {
			out := p.Spec()
			spoil(reflect.ValueOf(&out).Elem())
		}
		again := mustBuild(t, p.Spec())
		if told(p) != before || told(again) != before {
			t.Errorf("spine covering %s: a kept Spec changes the plan", name)
		}
		w, h := p.AsMade()
		m := refit.Measured{Width: w.Length(), Height: h.Length()}
		for b := range p.Boards() {
			m.Panels = append(m.Panels, b.Size().W)
		}
		q, err := p.Refit(m)
		if err != nil {
			t.Fatal(err)
		}
		refitted := told(q)
		spoil(reflect.ValueOf(&m).Elem())
		out, _ := q.Measured()
		spoil(reflect.ValueOf(&out).Elem())
		if kept, _ := q.Measured(); len(kept.Panels) != 3 || kept.Panels[0] == 0 || told(q) != refitted || told(p) != before {
			t.Errorf("spine covering %s: a kept measure changes the plan", name)
		}
	}
	if len(sheets) != 1 || sheets[0].Size.W != 12*units.Inch {
		t.Error("the caller's own list was changed")
	}
	full := s.WithDefaults()
	spoil(reflect.ValueOf(&full).Elem())
	if len(s.Covering.Sheets) != 1 || s.Covering.Sheets[0].Size.W != 12*units.Inch || s.Stocks[len(s.Stocks)-1].Name != "another" {
		t.Error("a Spec with its defaults shares lists with the one without")
	}
}
