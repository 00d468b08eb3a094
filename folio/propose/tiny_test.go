package propose_test

import (
	"context"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/propose"
	"boardwrap.example/units"
)

// What is smaller than a case with turn-ins of a given width can be gets a case whose turn-ins and mitres do not
// meet: two steps lower it cannot be made. A step more may be there, as what the turn-ins
// get on the ruler hangs on the spine too.
func TestTinyThingsGetACase(t *testing.T) {
	smaller := 0
	for _, c := range []struct {
		ruler units.Ruler
		size  string
	}{
		{units.WholeMillimetres, "5 x 5 mm"}, {units.WholeMillimetres, "3 x 14 mm"}, {units.WholeMillimetres, "10 x 10 mm"},
		{units.Sixteenths, "3/8 x 3/8 in"}, {units.Sixteenths, "3/16 x 5/8 in"},
	} {
		things, err := propose.ParseThings("1 token " + c.size)
		if err != nil {
			t.Fatal(err)
		}
		r := propose.Request{Things: things}
		r.Case.Rulers.Main = c.ruler
		r.Case.Margin.Ideal = c.ruler.Notation().Choose(units.Inch, 25*units.Millimetre)
		answer, err := propose.Folios(context.Background(), r, propose.Budget{})
		if err != nil {
			t.Fatal(err)
		}
		p, ok := answer.Of(propose.Smallest)
		if !ok {
			for l := range answer.Unmet() {
				for why := range l.Why() {
					t.Errorf("a token of %s: %v: %s", c.size, l.Aim(), why.Text(answer.Notation()))
				}
			}
			continue
		}
		spec := p.Spec()
		plan, err := folio.Build(spec)
		if err != nil {
			t.Errorf("a token of %s: %v", c.size, err)
			continue
		}
		if _, err := fit.Of(plan).InFittings(context.Background(), fit.Budget{}, things[0].Content); err != nil {
			t.Errorf("a token of %s: the folio of %v does not hold it: %v", c.size, spec.Cover, err)
		}
		spec.Cover.H -= 2 * c.ruler.Step()
		if _, err := folio.Build(spec); err == nil {
			t.Errorf("a token of %s: %v does too", c.size, spec.Cover)
		}
		// Left to themselves the turn-ins keep no cover larger than what it holds does.
		r.Case.Margin.Ideal = 0
		answer, err = propose.Folios(context.Background(), r, propose.Budget{})
		if err != nil {
			t.Fatal(err)
		}
		less, ok := answer.Of(propose.Smallest)
		if !ok || !less.Complete() || less.Cover().Area().Compare(p.Cover().Area()) > 0 {
			t.Errorf("a token of %s: found %v, complete %v, of %v, and %v with turn-ins of a given width", c.size, ok, less.Complete(), less.Cover(), p.Cover())
		} else if less.Cover().Area() != p.Cover().Area() {
			smaller++
		}
	}
	if smaller < 4 {
		t.Errorf("only %d of 5 are smaller so", smaller)
	}
}
