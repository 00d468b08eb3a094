package propose_test

import (
	"context"
	"errors"
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/propose"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A case keeps the sheets that it was given, whatever is at hand besides, and takes those
// at hand where it has none and they are no more than a stock may have.
func TestSheetsAtHand(t *testing.T) {
	own := []stock.Sheet{{Size: units.MustParseSize("600 x 500 mm")}}
	for _, c := range []struct {
		name  string
		own   []stock.Sheet
		kinds int
		want  int
	}{
		{"none of its own", nil, 2, 2},
		{"its own", own, 2, 1},
		{"as many as there may be", nil, stock.MaxSheets, stock.MaxSheets},
		{"more than there may be", nil, stock.MaxSheets + 1, 0},
	} {
		r := propose.Request{Things: []propose.Thing{{Content: pocket.IDCard()}}, Case: metric(), Without: but(propose.Slip)}
		r.Case.Board.Sheets = c.own
		r.Limits.Materials = []layout.Material{{Name: "board"}}
		for k := range c.kinds {
			r.Limits.Materials[0].Sheets = append(r.Limits.Materials[0].Sheets, layout.SheetKind{Size: units.Size{W: 400*mm + units.Length(k)*mm/10, H: 500 * mm}, Count: 1})
		}
		a, err := propose.Folios(t.Context(), r, propose.Budget{Steps: 100_000})
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if p, ok := a.Of(propose.Smallest); !ok || len(p.Spec().Board.Sheets) != c.want {
			t.Errorf("%s: %d sheets of board, %v, want %d", c.name, len(p.Spec().Board.Sheets), ok, c.want)
		}
		if p, _ := a.Of(propose.FewestSheets); p.Plan() == nil {
			t.Errorf("%s: no sheets are counted", c.name)
		} else if n, counted := p.Sheets(); n != 1 || !counted {
			t.Errorf("%s: %d sheets, counted %v", c.name, n, counted)
		}
	}
}

// Sheets at hand of whatever a folio is made of are counted, the cloth of its spine
// among them, and go into its Spec; of what it is not made of none can be.
func TestSheetsOfEachMaterial(t *testing.T) {
	r := propose.Request{Things: []propose.Thing{{Content: pocket.IDCard()}}, Case: metric(), Without: but(propose.Slip)}
	r.Case.Quarter.Rule, r.Case.SpineCovering = rule.QuarterAlways, stock.Stock{Name: "cloth", Caliper: mm / 4}
	filled := r.Case.WithDefaults()
	for name, sheets := range map[string]func(folio.Spec) []stock.Sheet{
		filled.Board.Name:    func(s folio.Spec) []stock.Sheet { return s.Board.Sheets },
		filled.Covering.Name: func(s folio.Spec) []stock.Sheet { return s.Covering.Sheets },
		filled.Liner.Name:    func(s folio.Spec) []stock.Sheet { return s.Liner.Sheets },
		"cloth":              func(s folio.Spec) []stock.Sheet { return s.SpineCovering.Sheets },
		"plain card":         func(s folio.Spec) []stock.Sheet { return s.Stocks[0].Sheets },
		"velvet":             nil,
	} {
		r.Limits.Materials = []layout.Material{{Name: name, Sheets: []layout.SheetKind{{Size: units.MustParseSize("500 x 700 mm"), Count: 3}}}}
		a := asked(t, r)
		p, ok := a.Of(propose.FewestSheets)
		n, counted := p.Sheets()
		if ok != (sheets != nil) || ok && (n != 1 || !counted || len(sheets(p.Spec())) != 1) {
			t.Errorf("%s: %d sheets, counted %v, there is one %v", name, n, counted, ok)
		}
		for l := range a.Unmet() {
			if why := slices.Collect(l.Why()); l.Aim() != propose.AllInView && (l.Aim() != propose.FewestSheets || !l.Complete() || len(why) != 1 || why[0].Cause != propose.NoSheets) {
				t.Errorf("%s: no folio of the %v, complete %v: %+v", name, l.Aim(), l.Complete(), why)
			}
		}
	}
}

// Sheets of what the case knows and nothing is made of are none that could be counted.
func TestSheetsOfWhatIsNotUsed(t *testing.T) {
	r := propose.Request{Things: []propose.Thing{{Content: pocket.IDCard()}}, Case: metric(), Without: but(propose.Slip)}
	r.Case.Stocks = []stock.Stock{{Name: "velvet", Caliper: mm, Sheets: []stock.Sheet{{Size: units.MustParseSize("500 x 700 mm")}}}}
	a := asked(t, r)
	if p, ok := a.Of(propose.FewestSheets); ok {
		t.Errorf("a cover of %v takes the fewest", p.Cover())
	}
	for l := range a.Unmet() {
		if why := slices.Collect(l.Why()); l.Aim() == propose.FewestSheets && (len(why) != 1 || why[0].Cause != propose.NoSheets) {
			t.Errorf("%+v", why)
		}
	}
	if p, ok := a.Of(propose.Smallest); !ok {
		t.Error("no smallest")
	} else if _, counted := p.Sheets(); counted {
		t.Error("its sheets are counted")
	}
}

// What is wrong with a material at hand is said of it, once, and not of the case that is
// to take its sheets.
func TestUnsoundMaterialIsSaidOnce(t *testing.T) {
	filled := metric().WithDefaults()
	for _, name := range []string{filled.Board.Name, filled.Covering.Name, filled.Liner.Name, "card"} {
		r := propose.Request{Things: []propose.Thing{{Content: pocket.IDCard()}}, Case: metric(), Stock: "card"}
		r.Case.Stocks = []stock.Stock{{Name: "card", Caliper: mm / 4}}
		r.Limits.Materials = []layout.Material{{Name: name, Sheets: []layout.SheetKind{{Size: units.Size{W: -1, H: 500 * mm}, Count: 1}}}}
		_, err := propose.Folios(context.Background(), r, propose.Budget{Steps: 1000})
		var bad *check.Error
		if !errors.As(err, &bad) || bad.Len() != 1 {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if _, ok := bad.Find("limits.materials[0].sheets[0].size.w", ""); !ok {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Of two forms that come to the same folio the first is proposed.
func TestFirstOfEqualForms(t *testing.T) {
	r := propose.Request{Things: []propose.Thing{{Content: pocket.IDCard()}}, Case: metric(), Without: but(propose.Slip)}
	r.Forms = []propose.Form{{Form: boards.SpineBoard}, {Row: boards.SpineBoard.Row()}}
	a := asked(t, r)
	some := 0
	for p := range a.All() {
		some++
		if _, index := p.Form(); index != 0 {
			t.Errorf("%v: form %d", p.Aim(), index)
		}
	}
	if some == 0 {
		t.Error("nothing is proposed")
	}
}

// However the sides of a size are spaced, it is read as the same.
func TestSpacesAroundX(t *testing.T) {
	want, err := propose.ParseThings("2 photo 10 x 15 cm")
	if err != nil {
		t.Fatal(err)
	}
	for _, size := range []string{"10x15cm", "10 x15 cm", "10x 15 cm", "10x  15cm", "10  x  15 cm", "10×15 cm", "10 ×  15cm"} {
		if got, err := propose.ParseThings("2 photo " + size); err != nil || len(got) != 1 || got[0] != want[0] {
			t.Errorf("%q: %+v, %v", size, got, err)
		}
	}
}
