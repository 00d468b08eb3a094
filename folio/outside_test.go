package folio_test

import (
	"math"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/foliotest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// By hand: a closed folio 100 + 4 + 0.2 wide (a gap of 2 calipers, creased at
// the spine), 150 + 0.2 high, 20 + 0.2 thick, with a badge of 1 mm and its film
// of 0.1 mm outside.
func TestOutsideByHand(t *testing.T) {
	p, err := folio.Build(foliotest.Weighed())
	if err != nil {
		t.Fatal(err)
	}
	o, ok := p.Overall(true)
	if !ok {
		t.Fatal("does not shut")
	}
	const tenth = mm / 10
	if o.Width().Length() != 1042*tenth || o.Height().Length() != 1502*tenth || o.Thickness().Length() != 213*tenth {
		t.Errorf("overall %v x %v x %v", o.Width().Length(), o.Height().Length(), o.Thickness().Length())
	}
	for _, w := range []units.Working{o.Width(), o.Height(), o.Thickness()} {
		if bad := addUp(w); bad != "" {
			t.Error(bad)
		}
	}
}

// Outside fittings count for the box and not for the room; a flap's step makes
// the folio uneven.
func TestOutsideOfAFlap(t *testing.T) {
	s := thin(20 * mm)
	s.Form, s.FlapWidth = boards.ForeEdgeFlap, 40*mm
	s.Hinge.Width += mm / 10 // for the turn-ins of the second spine
	badge := folio.Ornament{Size: units.Size{W: 10 * mm, H: 10 * mm}, Thickness: 9 * mm / 10}
	s.Fittings = []folio.Fitting{
		{Kind: badge, Panel: boards.RightCover, Outside: true},
		{Kind: badge, Panel: boards.Flap, Outside: true},
		{Kind: badge, Panel: boards.LeftCover, Outside: true, Place: place.Place{Across: place.Right}},
	}
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	c, _ := p.Closed()
	o, _ := p.Overall(true)
	if got := o.Thickness().Length() - c.Thickness().Length(); got != 2*mm {
		t.Errorf("two badges of 1 mm, film and all, add %v", got)
	}
	// On the flap's side: the flap's liner, board and covering, on the room of two
	// turn-ins (its spine is exact), and the badge on it; below, a badge.
	want := s.Liner.Caliper + s.Board.Caliper + 3*s.Covering.Caliper + 2*mm
	if o.Uneven() != want {
		t.Errorf("uneven by %v, want %v", o.Uneven(), want)
	}
	// In quarter style, from the thin strip at the cover's spine to the flap's thick paper:
	// what the flap's spine spans more than the covers', and what the paper is thicker.
	s.Quarter, s.SpineCovering = rule.Quarter{Rule: rule.QuarterAlways}, stock.Stock{Name: "cloth", Caliper: s.Covering.Caliper / 2}
	p = mustBuild(t, s)
	first, _ := p.Board(boards.Spine1)
	second, _ := p.Board(boards.Spine2)
	want = second.Size().W - first.Size().W + s.Covering.Caliper/2 + 2*mm
	if o, _ := p.Overall(true); o.Uneven() != want {
		t.Errorf("in quarter style, uneven by %v, want %v", o.Uneven(), want)
	}
}

// Magnets of a pair come to lie on each other: folded about the creases, their
// middles agree.
func TestMagnetsMeet(t *testing.T) {
	for _, form := range []boards.Form{boards.SpineBoard, boards.SoftSpine, boards.ForeEdgeFlap, boards.DoubleSpineGate} {
		s := thin(6 * mm)
		s.Form = form
		s.Hinge.Width += mm / 10 // for the turn-ins of a second spine
		if form == boards.SoftSpine {
			s.Spine, s.Hinge = rule.Spine{Contents: 4 * mm}, rule.Hinge{}
		}
		s.Magnets = closing.Magnets{Diameter: 8 * mm, Thickness: mm, Pairs: 3, Inset: 5 * mm}
		p, err := folio.Build(s)
		if err != nil {
			t.Fatalf("%v: %v", form, err)
		}
		f, ok := p.Magnets()
		if !ok {
			t.Fatalf("%v: no magnets", form)
		}
		row := rowOf(p)
		c, _ := p.Closed()
		shut := row.shutBy(c.Bend(), c.Crease().Millimetres())
		pairs := map[int][]folio.MagnetPlace{}
		for place := range f.Places() {
			pairs[place.Pair()] = append(pairs[place.Pair()], place)
			b := row.boards[place.Panel()]
			if x := place.Middle().X.Millimetres(); x-4 < b[0] || x+4 > b[1] {
				t.Errorf("%v: a magnet leaves the %v", form, place.Panel())
			}
		}
		want := 3
		if form == boards.DoubleSpineGate {
			want = 6
		}
		if len(pairs) != want {
			t.Errorf("%v: %d pairs, want %d", form, len(pairs), want)
		}
		for _, pair := range pairs {
			if len(pair) != 2 || pair[0].Middle().Y != pair[1].Middle().Y {
				t.Fatalf("%v: a pair %v", form, pair)
			}
			var at [2]vec
			for i, place := range pair {
				z := row.t
				if place.Outside() {
					z = 0
				}
				at[i] = shut.place(place.Middle().X.Millimetres(), z)
			}
			if math.Abs(at[0].X-at[1].X) > 1e-5 {
				t.Errorf("%v: the magnets lie %v mm beside each other", form, at[0].X-at[1].X)
			}
			if apart := math.Abs(at[0].Y - at[1].Y); math.Abs(apart-f.Apart().Length().Millimetres()) > 1e-5 {
				t.Errorf("%v: they are %v mm apart, not %v", form, apart, f.Apart())
			}
		}
		warnings := 0
		for w := range p.Warnings() {
			if w.Code == folio.WarnMagnets {
				warnings++
			}
		}
		if far := f.Apart().Length() > mm; far != (warnings > 0) {
			t.Errorf("%v: apart %v, %d warnings", form, f.Apart().Length(), warnings)
		}
		if bad := addUp(f.Apart()); bad != "" {
			t.Error(bad)
		}
	}
}

func TestMagnetsRefused(t *testing.T) {
	for _, c := range []struct {
		magnets closing.Magnets
		path    string
		code    check.Code
	}{
		{closing.Magnets{Thickness: mm}, "magnets.diameter", check.NotPositive},
		{closing.Magnets{Diameter: 8 * mm, Thickness: 2*mm + 1}, "magnets.thickness", check.TooLarge},
		{closing.Magnets{Diameter: 8 * mm, Thickness: mm, Pairs: 101}, "magnets.pairs", check.OutOfRange},
		{closing.Magnets{Diameter: 8 * mm, Thickness: mm, Pairs: 18}, "magnets.diameter", check.TooLarge},
		{closing.Magnets{Diameter: 8 * mm, Thickness: mm, Inset: 95 * mm}, "magnets.diameter", folio.OffPanel},
		{closing.Magnets{Diameter: 8 * mm, Thickness: mm, Inset: -5}, "magnets.inset", check.Negative},
	} {
		s := thin(6 * mm)
		s.Magnets = c.magnets
		if _, err := folio.Build(s); !refusedWith(err, c.path, c.code) {
			t.Errorf("%+v: %v", c.magnets, err)
		}
	}
}

// What stands on a part of something at the outside lies on it as it does inside, seen from
// there: places are named as they are seen from inside, where everything is left for right.
func TestStandingOutside(t *testing.T) {
	card := pocket.IDCard()
	for _, right := range []bool{false, true} {
		for across, over := range map[place.Align]place.Align{place.Left: place.Right, place.Middle: place.Middle, place.Right: place.Left} {
			var in [2]units.Length // from the base's edge to the badge's, as one sees it
			for i, outside := range []bool{false, true} {
				s := plainCase()
				s.Spine.Width = 40 * mm
				at := place.Place{Across: across}
				if outside {
					at.Across = over
				}
				s.Fittings = []folio.Fitting{
					{Name: "strip", Outside: outside, Kind: folio.Folded{Kind: pocket.FoldedStrip{Content: card, OpensRight: right, Flap: 30 * mm}}},
					{Name: "badge", StandsOn: "strip", Place: at, Kind: folio.Ornament{Size: units.Size{W: 12 * mm, H: 12 * mm}, Thickness: mm}},
				}
				p := mustBuild(t, s)
				var base, badge units.Rect
				for f := range p.Fittings() {
					if f.Name() == "strip" {
						base = f.Rect()
					} else {
						badge = f.Rect()
					}
				}
				if in[i] = badge.Min.X - base.Min.X; outside {
					in[i] = base.Max.X - badge.Max.X
				}
			}
			if in[0] != in[1] {
				t.Errorf("%v, opens right %t: %v in at the inside, %v at the outside", across, right, in[0], in[1])
			}
		}
	}
}
