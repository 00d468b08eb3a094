package wire_test

import (
	"encoding/json"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/folio/wire"
	"boardwrap.example/units"
)

// A summary says of the example of the documents what its plan's document says, and
// closed is left out where a folio does not shut.
func TestAppendSummary(t *testing.T) {
	spec, err := wire.ReadSpec(v1(t)["rowing-crew.json"])
	if err != nil {
		t.Fatal(err)
	}
	p, err := folio.Build(spec)
	if err != nil {
		t.Fatal(err)
	}
	var short struct {
		Summary struct {
			Title  string
			Pieces []struct {
				Name, Width, Height string
				Quantity            int
				Working             []string
			}
			Fittings []struct {
				X, Y   float64
				Pieces []int
			}
			Closed *struct{ Thickness string }
		}
	}
	if err := json.Unmarshal(wire.AppendSummary(nil, p), &short); err != nil {
		t.Fatal(err)
	}
	i, s := 0, short.Summary
	for q := range p.Pieces() {
		// One size a piece, exact in the notation of the plan.
		if got := s.Pieces[i]; got.Name != q.Name() || got.Quantity != q.Quantity() || got.Width+" x "+got.Height != p.Notation().Text(q.Size().W)+" x "+p.Notation().Text(q.Size().H) || got.Working[0] != q.Width().String() || got.Working[1] != q.Height().String() {
			t.Errorf("%+v is %s", got, q.Name())
		}
		i++
	}
	for f := range p.Fittings() {
		got := s.Fittings[f.Index()]
		if got.X != f.Rect().Min.X.Millimetres() || got.Y != f.Rect().Min.Y.Millimetres() || len(got.Pieces) == 0 {
			t.Errorf("%+v is %s", got, f.Label())
		}
	}
	if len(s.Pieces) != i || s.Title != spec.Title || s.Closed == nil {
		t.Errorf("%+v", s)
	}
}

// Calipers add up to four decimals and more, and no ruler shows them: a closed folio is
// told up to what one does, and never smaller than it is.
func TestClosedIsToldAtMost(t *testing.T) {
	for main, step := range map[units.Ruler]units.Length{units.Sixteenths: units.Inch / 64, units.WholeMillimetres: units.Millimetre / 10, units.Thousandths: units.Thou} {
		p, err := folio.Build(folio.Spec{Cover: units.MustParseSize("6 x 8 in"), Spine: rule.Spine{Width: units.MustParse("5/8 in")}, Board: stock.Stock{Caliper: units.MustParse("0.0587 in")}, Rulers: rule.Rulers{Main: main}})
		if err != nil {
			t.Fatal(err)
		}
		var short struct {
			Summary struct{ Closed map[string]string }
		}
		if err := json.Unmarshal(wire.AppendSummary(nil, p), &short); err != nil {
			t.Fatal(err)
		}
		c, _ := p.Closed()
		told := short.Summary.Closed
		for name, is := range map[string]units.Length{"width": c.Width().Length(), "height": c.Height().Length(), "thickness": c.Thickness().Length()} {
			if got, err := units.Parse(told[name]); err != nil || got < is || got >= is+step || strings.Contains(told[name], "~") {
				t.Errorf("%s of %v told as %q, %v", name, is, told[name], err)
			}
		}
	}
}
