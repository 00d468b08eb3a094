package tie_test

import (
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/tie"
	"boardwrap.example/internal/foliotest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// lengths are those of a band and of a ribbon.
func lengths(t *testing.T, p *folio.Plan, b tie.Band, r tie.Ribbon) [2]units.Length {
	t.Helper()
	band, err := b.Round(p)
	if err != nil {
		t.Fatal(err)
	}
	ribbon, err := r.Round(p)
	if err != nil {
		t.Fatal(err)
	}
	return [2]units.Length{band.Length().Length(), ribbon.Length().Length()}
}

// exact builds a folio whose main ruler shows every nanometre, so that nothing hides in
// the rounding.
func exact(t *testing.T, s folio.Spec) *folio.Plan {
	t.Helper()
	s.Rulers.Main = 1
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// What is said to be usual is what 0 takes: 1 in of lap and 8 in of tail in inches, 25 mm
// and 200 mm else; none is none to the nanometre, and one is one.
func TestWhatIsUsual(t *testing.T) {
	inches, err := folio.Build(folio.Spec{Cover: units.MustParseSize("4 x 6 in"), Spine: rule.Spine{Width: units.Inch}})
	if err != nil {
		t.Fatal(err)
	}
	metric := exact(t, foliotest.Weighed())
	for _, c := range []struct {
		plan      *folio.Plan
		lap, tail units.Length
	}{{inches, units.Inch, 8 * units.Inch}, {metric, 25 * mm, 200 * mm}} {
		usual := lengths(t, c.plan, tie.Band{}, tie.Ribbon{})
		none := lengths(t, c.plan, tie.Band{Lap: units.None}, tie.Ribbon{Tail: units.None})
		if usual != [2]units.Length{none[0] + c.lap, none[1] + 2*c.tail} {
			t.Errorf("usual %v, none %v", usual, none)
		}
	}
	// 2 × (104.2 + 21.3) = 251, and of the band four times 0.1 of its covering.
	none := lengths(t, metric, tie.Band{Lap: units.None}, tie.Ribbon{Tail: units.None})
	if o, _ := metric.Overall(true); none[1] != 2*(o.Width().Length()+o.Thickness().Length()) || none[0] != none[1]+4*mm/10 {
		t.Errorf("none %v round %v", none, o)
	}
	if one := lengths(t, metric, tie.Band{Lap: 1}, tie.Ribbon{Tail: 1}); one != [2]units.Length{none[0] + 1, none[1] + 2} {
		t.Errorf("a nanometre %v, none %v", one, none)
	}
}

// What a pocket on the outside holds is tied in: 3 mm more of it is 6 mm more of a girth.
func TestWhatIsOutsideIsTiedIn(t *testing.T) {
	outside := func(thick units.Length) *folio.Plan {
		s := foliotest.Weighed()
		held := pocket.Content{Name: "tag", Size: units.Size{W: 60 * mm, H: 40 * mm}, Thickness: thick}
		s.Fittings = []folio.Fitting{{Name: "pocket", Outside: true, Panel: boards.LeftCover, Kind: folio.Folded{Kind: pocket.Slip{Content: held}}, Stock: "card 300"}}
		return exact(t, s)
	}
	thin, thick := outside(4*mm), outside(7*mm)
	for _, along := range []bool{false, true} {
		a, b := lengths(t, thin, tie.Band{Along: along}, tie.Ribbon{Along: along}), lengths(t, thick, tie.Band{Along: along}, tie.Ribbon{Along: along})
		if b != [2]units.Length{a[0] + 6*mm, a[1] + 6*mm} {
			t.Errorf("along %v: %v round 4 mm, %v round 7 mm", along, a, b)
		}
	}
}

// A third of a folio 150.3 mm high is 50.1 mm, on a ruler of that a graduation; on one a
// nanometre coarser it is less than one, which is said.
func TestBreadthSaysWhereItIsFrom(t *testing.T) {
	odd := foliotest.Weighed()
	odd.Cover.H = 1501 * mm / 10
	p := exact(t, odd)
	for step, want := range map[units.Length]string{
		501 * mm / 10:   "band breadth 50.1 mm = overall height 150.3 mm / 3",
		501*mm/10 + 1:   "band breadth 50.100001 mm = one graduation ",
		1001 * mm / 100: "band breadth 50.05 mm = overall height 150.3 mm / 3 = ",
	} {
		s := p.Spec()
		ruler, err := units.NewRuler(step, units.MetricDecimal)
		if err != nil {
			t.Fatal(err)
		}
		s.Rulers.Main = ruler
		coarse, err := folio.Build(s)
		if err != nil {
			t.Fatal(err)
		}
		strap, err := tie.Band{}.Round(coarse)
		if got := strap.Breadth().String(); err != nil || !strings.HasPrefix(got, want) {
			t.Errorf("on %v: %s, %v; want %s", step, got, err, want)
		}
	}
}
