package guide_test

import (
	"bytes"
	"testing"

	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/guide"
	"boardwrap.example/units"
)

// Documents tell lengths with their units, whether bare ones are asked for or not.
func TestBareIsNotHeeded(t *testing.T) {
	p := build(t, crewSpec())
	s := crewSpec()
	s.Fittings = nil
	family, err := fit.FamilyOf(t.Context(), s, units.MustParseSize("6 x 8 in"), units.MustParseSize("2 x 1000 in"))
	if err != nil {
		t.Fatal(err)
	}
	l, _ := regatta(t)
	for name, write := range map[string]func(guide.PrintOptions) *guide.Document{
		"hand-out":      func(o guide.PrintOptions) *guide.Document { return guide.HandOut(p, o) },
		"templates":     func(o guide.PrintOptions) *guide.Document { return guide.Templates(p, o) },
		"family":        func(o guide.PrintOptions) *guide.Document { return guide.FamilySheet(family, o) },
		"cutting book":  func(o guide.PrintOptions) *guide.Document { return guide.CuttingBook(l, o) },
		"shopping list": func(o guide.PrintOptions) *guide.Document { return guide.ShoppingList(l, o) },
	} {
		for _, f := range []units.Format{{}, {Ruler: units.TenthMillimetres}} {
			bare := f
			bare.Bare = true
			if a, b := write(guide.PrintOptions{Format: f}), write(guide.PrintOptions{Format: bare}); !bytes.Equal(a.AppendHTML(nil), b.AppendHTML(nil)) {
				t.Errorf("%s, %+v: lengths are bare where they are asked for bare", name, f)
			}
		}
	}
}
