package propose_test

import (
	"context"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/propose"
	"boardwrap.example/internal/proptest"
)

// Six prints, a card and a note go into every form and into rows as data, and what
// is proposed is sound. Boards more than two make no smallest folio larger.
func TestEveryRow(t *testing.T) {
	var two folio.Spec
	for i, c := range rowsOfAll() {
		if !proptest.Whole && i%3 != 0 {
			continue // in a whole run
		}
		r := propose.Request{Things: usualThings(t), Case: c}
		r.Case.Rulers = metric().Rulers
		a, err := propose.Folios(context.Background(), r, propose.Budget{Steps: 4_000_000})
		if err != nil {
			t.Errorf("row %d, %v: %v", i, c.Form, err)
			continue
		}
		for _, aim := range []propose.Aim{propose.Smallest, propose.Thinnest, propose.AllInView} {
			p, ok := a.Of(aim)
			if !ok {
				for l := range a.Unmet() {
					for why := range l.Why() {
						t.Errorf("row %d, %v: no %v: %s", i, c.Form, l.Aim(), why.Text(a.Notation()))
					}
				}
				continue
			}
			if bad := sound(r, p) + crafted(p); bad != "" {
				t.Errorf("row %d, %v, %v: %s", i, c.Form, aim, bad)
			}
			switch small := p.Spec(); {
			case aim != propose.Smallest:
			case i == 0:
				two = small
			case small.Cover.Area().Compare(two.Cover.Area()) > 0 && i != 3 && i != 4:
				t.Errorf("row %d, %v: a cover of %v, and %v does with two boards", i, c.Form, small.Cover, two.Cover)
			}
		}
	}
}
