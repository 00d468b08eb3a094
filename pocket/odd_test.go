package pocket_test

import (
	"errors"
	"strings"
	"testing"

	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// What has no middle on a nanometre lies half a nanometre nearer to the left or to
// the head, and is made.
func TestOddNanometres(t *testing.T) {
	paper := pocket.Paper{Caliper: mm / 4, TwoSided: true}
	// A half panel of 6 mm at each side, and an ease of 2.000001 mm in the middle.
	d, err := pocket.Gusset{Content: sized(50*mm, 80*mm), Ease: pocket.Ease{W: 2*mm + nm, H: 2 * mm}}.Design(paper, units.TenthMillimetres)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range d.Spots() {
		// The width needed goes up to a tenth, 64.1, so the clear width is 52.1, and
		// 50.099999 are free.
		if r := p.Rect(); r.Min.X != 7*mm || r.Max.X != 57*mm+mm/10-nm {
			t.Errorf("the content lies from %d to %d", r.Min.X, r.Max.X)
		}
	}
	// A notch of 10.000001 mm in a strip 94 mm high begins at 41.9999995 mm, and half
	// of it is 5.0000005, which is as round as it can be.
	d, err = pocket.FoldedStrip{Content: sized(50*mm, 80*mm), Ease: loose, Notch: pocket.ThumbNotch{Width: 10*mm + nm, Depth: 6 * mm}}.Design(paper, units.TenthMillimetres)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range d.Pieces() {
		for _, c := range p.Blank().Draft().CutOuts {
			if c.Area.Min.Y != 41999999 || c.Area.Max.Y != 52*mm || c.Radius != 5*mm {
				t.Errorf("the notch lies from %d to %d, its corners %d round", c.Area.Min.Y, c.Area.Max.Y, c.Radius)
			}
		}
	}
}

// A strip of 251 mm alone: of its hem, no more than an eighth of it, 31.375, 31 mm
// are on the ruler; a flap 3 mm narrower than the base and a front of two thirds of
// it are 2 2/3 bases less 3 mm, so that a base is 3/8 of 223 mm, 83.6, to the nearest
// millimetre. The hem is what is left.
func TestStripAloneIsDivided(t *testing.T) {
	d, err := pocket.FoldedStrip{Strip: units.Size{W: 251 * mm, H: 100 * mm}}.Design(pocket.Paper{Caliper: mm / 4, TwoSided: true}, units.WholeMillimetres)
	if err != nil {
		t.Fatal(err)
	}
	want := []units.Length{81 * mm, 84 * mm, 56 * mm, 30 * mm}
	i := 0
	for _, p := range d.Panels() {
		if w := p.Blank().Size().W; i >= len(want) || w != want[i] {
			t.Errorf("%s is %v wide", p.Name(), w)
		}
		i++
	}
	if i != len(want) {
		t.Errorf("%d panels", i)
	}
}

// All of a card of 80.3 mm goes in with 2 mm of ease where the front is 83 mm deep,
// on a ruler of millimetres, and glued at a foot of 6.
func TestAllOfItGoesIn(t *testing.T) {
	d, err := pocket.Slip{Content: sized(50*mm, 80300*um), Ease: loose, Depth: all, Place: units.Size{W: 100 * mm, H: 100 * mm}}.Design(pocket.Paper{Caliper: mm / 4}, units.WholeMillimetres)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range d.Pieces() {
		if h := p.Height().Length(); h != 89*mm {
			t.Errorf("the front is %v high", h)
		}
	}
}

// The notch in a panel glued at one end, by an odd number of nanometres, lies in
// its middle as nearly as can be.
func TestNotchBesideOddGlue(t *testing.T) {
	a := pocket.FoldedAccordion{Content: sized(50*mm, 80*mm), Ease: loose, Panels: 4, Glue: 6*mm + nm, Notch: pocket.ThumbNotch{Width: 20 * mm, Depth: 10 * mm}}
	r, err := units.NewRuler(nm, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	d, err := a.Design(pocket.Paper{Caliper: mm / 4, TwoSided: true}, r)
	if err != nil {
		t.Fatal(err)
	}
	met := 0
	for _, p := range d.Pieces() {
		for _, n := range p.Blank().Draft().Notches {
			// Panels of 58.000001 mm.
			if from := units.Length(met) * (58*mm + nm); n.Middle != from+29*mm {
				t.Errorf("notch %d lies at %d, %d from its panel", met, n.Middle, n.Middle-from)
			}
			met++
		}
	}
	if met != 4 {
		t.Errorf("%d notches", met)
	}
	// The foot is folded up with its panel, and turned over left to right with it.
	var first, under pocket.Panel
	fronts := 0
	for i, p := range d.Panels() {
		if i == 0 { // it lies as it was cut, its end glued at the left
			first = p
		}
		if p.Name() == "panel" {
			under = p
			continue
		}
		fronts++
		from, to := 19*mm, 39*mm
		if d.Up(under) != d.Up(first) {
			from, to = 58*mm+nm-to, 58*mm+nm-from
		}
		low, high := units.Longest, units.Length(0)
		for a := range d.Outline(p).Edges() {
			if x := a.X - p.Closed().Min.X; x > 0 && x < 58*mm+nm {
				low, high = min(low, x), max(high, x)
			}
		}
		if low != from || high != to {
			t.Errorf("the notch of front %d lies from %d to %d; want %d to %d", fronts, low, high, from, to)
		}
	}
	if fronts != 4 {
		t.Errorf("%d fronts", fronts)
	}
}

// A tab that nobody asked for is no deeper than the panel that it is glued to, where
// the panels are narrow; a strip at hand is used up, or refused.
func TestTabOfNarrowPanels(t *testing.T) {
	for w := 6 * mm; w <= 14*mm; w += mm {
		k := pocket.FoldedAccordion{Panel: units.Size{W: w, H: 60 * mm}, Ease: pocket.Ease{W: mm, H: mm}, Glue: 2 * mm, Panels: 3}
		d, err := k.Design(pocket.Paper{Caliper: mm / 5}, units.WholeMillimetres)
		if err != nil {
			t.Errorf("panels of %v: %v", w, err)
			continue
		}
		if tab := d.Open().W - 3*w; tab <= 0 || tab > w {
			t.Errorf("a tab of %v on a panel of %v", tab, w)
		}
		k.Panel, k.Strip = units.Size{}, units.Size{W: 4 * w, H: 100 * mm}
		if d, err := k.Design(pocket.Paper{Caliper: mm / 5}, units.WholeMillimetres); err == nil && d.Open().W <= k.Strip.W-3*mm {
			t.Errorf("of a strip of %v only %v are used", k.Strip.W, d.Open().W)
		}
	}
}

// A paper known by its weight has the bulk of 110 lb index, 200 g/m² and 0.0091 in
// (US Government Paper Specification Standards No. 11, 1999), so 1.1557 nm for every
// mg/m², to the nearest.
func TestCaliperByGrammage(t *testing.T) {
	for grammage, want := range map[units.Grammage]units.Length{
		100_001: 115571, // 115571.1557
		100_004: 115575, // 115574.6228
	} {
		d, err := pocket.Slip{Content: sized(50*mm, 80*mm)}.Design(pocket.Paper{Grammage: grammage}, units.WholeMillimetres)
		if err != nil {
			t.Fatal(err)
		}
		if got := d.Paper().Caliper; got != want {
			t.Errorf("%d mg/m²: %d nm, want %d", grammage, got, want)
		}
	}
}

// The advice to a strip that is too short is the least that does on its ruler.
func TestLeastStrip(t *testing.T) {
	tried := 0
	for k := range units.Length(40) {
		s := pocket.FoldedStrip{Strip: units.Size{W: mm + k*370*um, H: 100 * mm}}
		design := func(w units.Length) error {
			s.Strip.W = w
			_, err := s.Design(pocket.Paper{Caliper: mm / 4, TwoSided: true}, units.WholeMillimetres)
			return err
		}
		var bad *check.Error
		if !errors.As(design(s.Strip.W), &bad) {
			continue
		}
		v, ok := bad.Find("strip.w", check.TooSmall)
		if !ok {
			continue
		}
		tried++
		if v.Limit%mm != 0 || design(v.Limit) != nil {
			t.Errorf("%d: %v does not do", k, v.Limit)
		}
		if less := v.Limit - mm; less > mm+k*370*um && design(less) == nil {
			t.Errorf("%d: %v is not the least, %v does", k, v.Limit, less)
		}
	}
	if tried < 10 {
		t.Errorf("%d strips were too short", tried)
	}
}

// Half panels up to the longest length stand in.
func TestStandInAtItsBounds(t *testing.T) {
	if s, ok := pocket.StandIn(units.Longest, 0, units.Nearest); !ok || s != units.Longest {
		t.Errorf("%v, %v", s, ok)
	}
	if _, ok := pocket.StandIn(units.Longest+nm, 0, units.Nearest); ok {
		t.Error("half panels of more than 10 m")
	}
}

// A strip off a roll is in one piece, whichever side of the sheet has no limit.
func TestStripOffARoll(t *testing.T) {
	for _, c := range []struct {
		sheet  units.Size
		joined bool
	}{{units.Size{W: 300 * mm, H: 300 * mm}, true}, {units.Size{W: 300 * mm}, false}, {units.Size{H: 300 * mm}, false}, {units.Size{}, false}} {
		d, err := pocket.FoldedAccordion{Content: sized(50*mm, 80*mm), Panels: 12}.Design(pocket.Paper{Caliper: mm / 5, Sheet: c.sheet}, units.WholeMillimetres)
		if err != nil {
			t.Errorf("%v: %v", c.sheet, err)
			continue
		}
		joints := 0
		for range d.Splices() {
			joints++
		}
		if (joints > 0) != c.joined {
			t.Errorf("off %v: %d joints", c.sheet, joints)
		}
	}
}

// What is mounted on a leaf that is an odd nanometre higher lies half of that nearer to the
// head, and the margin that is told to come out is the larger.
func TestOddLeaves(t *testing.T) {
	d := design(t, pocket.Concertina{Content: sized(50*mm, 80*mm), Leaves: 1, Leaf: units.Size{W: 90 * mm, H: 90*mm + nm}}, pocket.Paper{Caliper: mm / 4}, units.WholeMillimetres)
	mounted := 0
	for s := range d.Steps() {
		for _, a := range s.Do {
			if f, ok := a.(work.Fix); ok && f.What.Kind == work.Content {
				if mounted++; f.At.Y != 5*mm {
					t.Errorf("mounted %d from the head", f.At.Y)
				}
			}
		}
	}
	if mounted == 0 {
		t.Error("nothing is mounted")
	}
	// 50.000001 and two margins of 3.3 mm are 56.600001, so the leaf is 57 wide, and
	// 6.999999 are left for both.
	d = design(t, pocket.Flap{Content: sized(50*mm+nm, 804*mm/10), Margin: 33 * mm / 10}, pocket.Paper{Caliper: mm / 4}, units.WholeMillimetres)
	told := 0
	for w := range d.Warnings() {
		if w.Code == pocket.MovedToRuler {
			if told++; w.Want != 35*mm/10 {
				t.Errorf("%v, so %d", w, w.Want)
			}
		}
	}
	if told == 0 {
		t.Error("it is not told that the margin moves")
	}
}

// A figure that is said to be too much is no less than it is, one that would do is no less
// than what does, and the thinnest paper has a caliper above nothing.
func TestTooMuchInInches(t *testing.T) {
	fine, err := units.NewRuler(nm, units.InchFraction)
	if err != nil {
		t.Fatal(err)
	}
	for n := range units.Length(60) {
		d := design(t, pocket.Slip{Content: sized(76*mm, 101*mm)}, pocket.Paper{Caliper: mm / 4}, fine)
		var at pocket.Spot
		for _, at = range d.Spots() {
			break
		}
		over := (1 + n*1161) * nm
		got := at.Capacity().Size.W + over
		err := d.Accepts(sized(got, 50*mm))
		if err == nil {
			t.Fatalf("%d more goes in", over)
		}
		text := err.Error()
		_, much, _ := strings.Cut(text, "(")
		much, would, _ := strings.Cut(much, " too much); a clear width of ")
		would, _, _ = strings.Cut(would, " would do")
		if m := units.MustParse(much); m < over || m > over+units.Thou/10 {
			t.Errorf("%d too much is told as %s", over, much)
		}
		if w := units.MustParse(would); w < at.Clear().W+over || w > at.Clear().W+over+units.Thou/10 {
			t.Errorf("a clear width of %d and %d more: told %s", at.Clear().W, over, would)
		}
	}
	_, err = pocket.Slip{Content: sized(76*mm, 101*mm)}.Design(pocket.Paper{Grammage: 1}, units.Sixteenths)
	if err == nil || !strings.Contains(err.Error(), "which a paper 0.0004 in thick has") {
		t.Error(err)
	}
}
