package pocket_test

import (
	"slices"
	"strings"
	"testing"

	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

func stepsOf(d pocket.Design) []work.Step { return slices.Collect(d.Steps()) }

// What is glued down is the paper, wherever the contents stand out: a slip
// pocket for a card of 54 x 85.6 mm is 63 mm high, in a footprint of 92.
func TestPapersLieWhereTheyAreGlued(t *testing.T) {
	d := design(t, pocket.Slip{Content: pocket.IDCard().Turned()}, pocket.Paper{}, units.WholeMillimetres)
	for _, s := range stepsOf(d) {
		for _, a := range s.Do {
			fix, ok := a.(work.Fix)
			if !ok {
				continue
			}
			r := fix.At.Rect(fix.Size, d.Closed())
			if want := units.RectAt(units.Point{Y: 29 * mm}, units.Size{W: d.Closed().W, H: 63 * mm}); d.Closed().H != 92*mm || r != want || fix.Size != piece(t, d, "pocket front").Blank().Size() {
				t.Errorf("the front is glued at %v of %v; want %v", r, d.Closed(), want)
			}
		}
	}
	// Four corners, each in its own place and by its own quarter turn.
	d = design(t, pocket.Corners{Place: units.MustParseSize("100 x 150 mm"), Leg: 30 * mm}, pocket.Paper{}, units.WholeMillimetres)
	at := map[units.Point]int{}
	for _, s := range stepsOf(d) {
		for _, a := range s.Do {
			if fix, ok := a.(work.Fix); ok {
				at[fix.At.Rect(fix.Size, d.Closed()).Min] = fix.Quarters
			}
		}
	}
	// Its square corner lies at the tail and the left on the drawing; turned
	// clockwise it comes to the head, then to the right, then to the tail.
	want := map[units.Point]int{{Y: 120 * mm}: 0, {}: 1, {X: 70 * mm}: 2, {X: 70 * mm, Y: 120 * mm}: 3}
	if len(at) != 4 {
		t.Fatalf("%d corners are glued", len(at))
	}
	for p, q := range want {
		if got, ok := at[p]; !ok || got != q {
			t.Errorf("at %v turned %d quarters, %v; want %d", p, got, ok, q)
		}
	}
}

// A strip is glued down by its base, which lies where it lies when the strip is closed,
// also under a flap that reaches 4 mm beyond it, to either side.
func TestStripsAreGluedByTheirBase(t *testing.T) {
	for right, x := range map[bool]units.Length{false: 0, true: 4 * mm} {
		d := design(t, pocket.FoldedStrip{Flap: 64 * mm, Base: 60 * mm, Front: 40 * mm, Hem: 20 * mm, Overhang: 4 * mm,
			Strip: units.Size{W: 184 * mm, H: 120 * mm}, OpensRight: right}, pocket.Paper{}, units.WholeMillimetres)
		n := 0
		for _, s := range stepsOf(d) {
			for _, a := range s.Do {
				fix, ok := a.(work.Fix)
				if !ok || fix.On.Kind != work.Under {
					continue
				}
				n++
				want := units.RectAt(units.Point{X: x}, units.Size{W: 60 * mm, H: 120 * mm})
				if r := fix.At.Rect(fix.Size, d.Closed()); r != want || d.Closed() != (units.Size{W: 64 * mm, H: 120 * mm}) {
					t.Errorf("opens right %t: glued at %v of %v, want %v", right, r, d.Closed(), want)
				}
			}
		}
		if n != 1 {
			t.Errorf("opens right %t: it is glued down %d times", right, n)
		}
	}
}

// Nothing is folded, cut or scored after it is stuck to the support, but a flap
// that is closed over its own fold; marks and dry laying come before glue.
func TestOrderOfHands(t *testing.T) {
	for _, k := range workbench() {
		d := design(t, k, pocket.Paper{}, units.WholeMillimetres)
		stuck, marked := map[[2]int]bool{}, map[[2]int]bool{}
		creased := map[units.Length]bool{} // and laid open, to close over what is put in
		for _, s := range stepsOf(d) {
			for _, a := range s.Do {
				key := func(t work.Object) [2]int { return [2]int{t.Index, t.Copy} }
				switch a := a.(type) {
				case work.MarkPlace:
					marked[key(a.What)] = true
				case work.Fix:
					if a.On.Kind == work.Under {
						if !marked[key(a.What)] {
							t.Errorf("%s: step %d: the place of %s is not marked before", k.Name(), s.Number, a.What.Name)
						}
						stuck[key(a.What)] = true
					}
				case work.ScoreAt:
					if stuck[key(a.What)] {
						t.Errorf("%s: step %d scores what is stuck", k.Name(), s.Number)
					}
				case work.FoldAt:
					if creased[a.At] = creased[a.At] || a.Open; stuck[key(a.What)] && !creased[a.At] {
						t.Errorf("%s: step %d folds what is stuck", k.Name(), s.Number)
					}
				}
			}
		}
	}
}

// With one good side, valley folds bring the wrong one out: to see it, fold a
// sheet of paper that is coloured on one side.
func TestWrongSideShows(t *testing.T) {
	card, one := pocket.IDCard(), pocket.Paper{Caliper: 200 * units.Micrometre}
	for _, c := range []struct {
		kind  pocket.Kind
		shows []string // with the right side up; none: no warning
	}{
		{pocket.Slip{Content: card}, nil},
		{pocket.Corners{Content: card}, nil},
		{pocket.Slip{Content: card, Build: pocket.FoldedFoot}, []string{"pocket front"}},
		{pocket.Gusset{Content: card}, []string{"pocket front"}},
		{pocket.Gusset{Content: card, At: pocket.FootGusset}, []string{"pocket front"}},
		{pocket.FoldedStrip{Content: card}, []string{"pocket front", "flap when closed"}},
		{pocket.FoldedAccordion{Content: card, Panels: 3}, []string{"pocket fronts", "first panel when closed"}},
		{pocket.FoldedAccordion{Content: card, Panels: 4}, []string{"pocket fronts"}},
		{pocket.GussetRun{Content: card, Pockets: 3}, nil},
		{pocket.Pleat{Content: card}, nil},
		{pocket.Flap{Content: card}, []string{"leaf when opened"}},
		{pocket.Concertina{Content: card}, []string{"leaves when turned"}},
	} {
		text := func(p pocket.Paper) string {
			for w := range design(t, c.kind, p, units.WholeMillimetres).Warnings() {
				if w.Code == pocket.WrongSideShows {
					return w.Text
				}
			}
			return ""
		}
		got := text(one)
		if (got != "") != (len(c.shows) > 0) {
			t.Errorf("%s: warned %q", c.kind.Name(), got)
		}
		for _, s := range c.shows {
			if !strings.Contains(got, s) {
				t.Errorf("%s: %q does not name the %s", c.kind.Name(), got, s)
			}
		}
		turned := one
		turned.Up = work.WrongSide
		if over := text(turned); over == got || got == "" && over == "" {
			t.Errorf("%s: cut the other way round it says %q as well", c.kind.Name(), over)
		}
		two := one
		two.TwoSided = true
		if got := text(two); got != "" {
			t.Errorf("%s: two-sided paper is warned of: %s", c.kind.Name(), got)
		}
		for _, s := range stepsOf(design(t, c.kind, turned, units.WholeMillimetres)) {
			for _, a := range s.Do {
				if cut, ok := a.(work.Cut); ok && cut.Up != work.WrongSide {
					t.Errorf("%s: no step says which side is up", c.kind.Name())
				}
			}
		}
	}
}

// The side that lies up is as package score folds the pieces: turned over as
// often as there are folds between.
func TestSidesAsFolded(t *testing.T) {
	for _, k := range workbench() {
		d := design(t, k, pocket.Paper{}, units.WholeMillimetres)
		levels := d.Levels()
		i := 0
		for _, p := range d.Panels() {
			if levels[i] < 0 || levels[i] > 4*d.Pockets()+8 {
				t.Errorf("%s: the %s lies on %d layers", k.Name(), p.Name(), levels[i])
			}
			i++
		}
	}
	// By hand: a strip with flap, base, front and hem, folded hem first.
	d := design(t, pocket.FoldedStrip{Content: pocket.IDCard()}, pocket.Paper{}, units.WholeMillimetres)
	for i, want := range []struct {
		name  string
		side  score.Side
		level int
	}{{"flap", score.Back, 3}, {"base", score.Face, 0}, {"pocket front", score.Back, 2}, {"hem", score.Face, 1}} {
		p, _ := d.Panel(want.name)
		if got := d.Levels()[i]; p.Side() != want.side || got != want.level || (d.Up(p) == work.WrongSide) != (want.side == score.Back) {
			t.Errorf("the %s lies %v up on %d layers; want %v, %d", want.name, p.Side(), got, want.side, want.level)
		}
	}
}

// An accordion of six panels from sheets of two is joined at folds 2 and 4:
// each strip's foot is glued at both its ends, so that no pocket is open there,
// and no place lies on glue.
func TestAccordionJointsAreShut(t *testing.T) {
	k := pocket.FoldedAccordion{Content: pocket.Content{Size: units.MustParseSize("4 x 6 in")}, Panels: 6}
	d := design(t, k, pocket.Paper{Sheet: units.MustParseSize("12 x 12 in")}, units.Sixteenths)
	var folds []int
	for j := range d.Splices() {
		folds = append(folds, j.Fold())
	}
	if !slices.Equal(folds, []int{2, 4}) {
		t.Fatalf("joined at folds %v", folds)
	}
	panel, _ := d.Panel("panel")
	foot, _ := d.Panel("foot")
	for _, p := range d.Pieces() {
		var ends [2]bool
		for _, g := range p.Blank().Glue() {
			if g.Area.Size() != (units.Size{W: in / 4, H: foot.Size().H}) || g.Side != score.Face {
				t.Errorf("%s: glue on %v", p.Name(), g.Area)
			}
			ends[0] = ends[0] || g.Area.Min.X == 0
			ends[1] = ends[1] || g.Area.Max.X == 2*panel.Size().W
		}
		if !ends[0] || !ends[1] {
			t.Errorf("%s: the foot is glued at its ends: %v", p.Name(), ends)
		}
	}
	i := 0
	for _, p := range d.Spots() {
		// Panels 1, 3 and 5 begin a strip, at the left of the drawing, the others
		// end one. The last panel lies face down over the tab, and so does every
		// second one before it.
		left := i%2 == 0
		if faceDown := (6-i)%2 == 1; faceDown {
			left = !left
		}
		glued := units.RectAt(units.Point{}, units.Size{W: in / 4, H: d.Closed().H})
		if !left {
			glued = glued.Moved(units.Point{X: d.Closed().W - in/4})
		}
		if p.Rect().Overlaps(glued) {
			t.Errorf("the place of panel %d, %v, lies on the glue at %v", i+1, p.Rect(), glued)
		}
		i++
	}
	// The folds that close over two fronts and two cards need two scores.
	card := design(t, pocket.FoldedAccordion{Content: pocket.IDCard(), Panels: 4}, pocket.Paper{}, units.WholeMillimetres)
	stack := 2*card.Paper().Caliper + 2*pocket.IDCard().Thickness
	found := false
	for w := range card.Warnings() {
		found = found || w.Code == pocket.NeedsTwoScores && w.Want >= stack
	}
	if !found {
		t.Errorf("folds round %v are not warned of", stack)
	}
}

// A run's leaves are held by glue that exists: the end tabs, and a stretch of
// the half panels, which open so much less: with w and g a right triangle of
// (2w − g), g and h.
func TestGussetRunIsHeld(t *testing.T) {
	d := design(t, pocket.GussetRun{Place: units.MustParseSize("120 x 90 mm"), Pockets: 3, Half: 13 * mm, Glue: 1 * mm}, pocket.Paper{}, units.WholeMillimetres)
	// 25² = 1² + h²: h = √624 = 24.979991… mm.
	if got := d.Opening(); got != 24979991 {
		t.Errorf("opens to %v; want √624 mm", got)
	}
	if _, err := d.StandIn(25 * mm); err == nil {
		t.Error("opens further than its glue lets it")
	}
	for i := range 2 { // every leaf but the back one, at both sides and the foot
		n := 0
		for _, g := range piece(t, d, "leaf").Blank().Glue() {
			if g.Side == score.Back {
				n++
			}
		}
		if n != 3 {
			t.Errorf("leaf %d is glued at %d places", i, n)
		}
	}
	// Lands keep the pockets apart, empty or full, and the spine takes fewer.
	thick := func(pockets int, land units.Length) units.Length {
		return design(t, pocket.GussetRun{Content: pocket.IDCard(), Pockets: pockets, Land: land}, pocket.Paper{}, units.WholeMillimetres).Thickness(false)
	}
	c := units.Length(231140)
	if a, b := thick(4, 10*mm), thick(4, 30*mm); b-a != 3*20*mm || a != 3*10*mm+c*(2+2+8) {
		t.Errorf("lands of 10 and 30 mm between 4 pockets: %v and %v thick", a, b)
	}
	if a, b := thick(2, c), thick(2, c+1); a != c+c*(2+2+4) || b-a != 1 {
		t.Errorf("a land as wide as the paper is thick, and a nanometre more, between 2 pockets: %v and %v thick", a, b)
	}
	most := func(land units.Length) int {
		return design(t, pocket.GussetRun{Content: pocket.IDCard(), Land: land, Spine: 30 * mm}, pocket.Paper{}, units.WholeMillimetres).Pockets()
	}
	if most(0) <= most(8*mm) || most(8*mm) != 4 {
		t.Errorf("a spine of 30 mm takes %d pockets without lands, %d with lands of 8 mm", most(0), most(8*mm))
	}
}

// Tabs are glued by the side that meets what they are glued to.
func TestTabsAreGluedOnTheRightSide(t *testing.T) {
	for n := 1; n <= 4; n++ {
		for _, k := range []pocket.Kind{
			pocket.Concertina{Content: pocket.IDCard(), Leaves: n}, pocket.FoldedAccordion{Content: pocket.IDCard(), Panels: n},
		} {
			d := design(t, k, pocket.Paper{}, units.WholeMillimetres)
			for _, p := range d.Pieces() {
				for _, tab := range p.Blank().Tabs() {
					// It lies on the support face up: the first fold of the guard
					// and the last one of the accordion are valleys over it.
					if tab.Side != score.Back {
						t.Errorf("%s of %d: the %s's tab is glued by its %v", k.Name(), n, p.Name(), tab.Side)
					}
				}
			}
		}
	}
}

// Turned under, the edges of a corner do not stand past its slant.
func TestCornersHaveNoEars(t *testing.T) {
	d := design(t, pocket.Corners{Place: units.MustParseSize("100 x 150 mm"), Leg: 30 * mm, Turn: 6 * mm}, pocket.Paper{}, units.WholeMillimetres)
	edge, _ := piece(t, d, "corner").Blank().Outline()
	// The slant runs from (6, 0) to (36, 30): what lies under the triangle has
	// y ≥ x − 6.
	for _, p := range edge.Corners() {
		switch {
		case p.X < 6*mm: // turned under at x = 6
			p.X = 12*mm - p.X
		case p.Y > 30*mm: // turned under at y = 30
			p.Y = 60*mm - p.Y
		}
		if p.Y < p.X-6*mm {
			t.Errorf("turned under, the edge stands out at %v", p)
		}
	}
}

// Both half panels of a foot gusset are held at the sides: one by the front,
// one at the back.
func TestFootGussetIsHeld(t *testing.T) {
	d := design(t, pocket.Gusset{Content: pocket.IDCard(), At: pocket.FootGusset, Half: 8 * mm}, pocket.Paper{}, units.WholeMillimetres)
	p := piece(t, d, "back and front")
	back, _ := d.Panel("back")
	foot := back.Size().H
	n := 0
	for _, g := range p.Blank().Glue() {
		if g.Area.Min.Y == foot && g.Area.Max.Y == foot+8*mm && g.Side == score.Face {
			n++ // the half panel beside the back, which lies on it
		}
	}
	if n != 2 {
		t.Errorf("the half panel at the back is glued at %d sides", n)
	}
}

// A place off the ruler takes what goes into it: a card of 85.6 x 53.98 mm with
// 3.175 mm of ease and two glued edges of 1/4 in needs 101.475 mm.
func TestPlacesOffTheRuler(t *testing.T) {
	card := pocket.IDCard()
	for _, k := range []pocket.Kind{
		pocket.Slip{Content: card, Place: units.MustParseSize("102 x 61 mm")},
		pocket.Slip{Content: card, Place: units.Size{W: 101475 * units.Micrometre, H: 60330 * units.Micrometre}},
		pocket.Corners{Content: card, Place: units.MustParseSize("89 x 58 mm")},
		pocket.FoldedAccordion{Content: card, Panel: units.MustParseSize("96 x 54 mm"), Panels: 3},
		pocket.Pleat{Content: card, Place: units.MustParseSize("102 x 120 mm")},
		pocket.Gusset{Content: card, Place: units.Size{W: 85600*units.Micrometre + in/8 + in/2, H: 70 * mm}},
	} {
		d, err := k.Design(pocket.Paper{}, units.Sixteenths)
		if err != nil {
			t.Errorf("%s: %v", k.Name(), err)
			continue
		}
		if err := d.Accepts(card); err != nil {
			t.Errorf("%s: %v", k.Name(), err)
		}
	}
	k := pocket.Slip{Content: card, Place: units.Size{W: 101475*units.Micrometre - 1, H: 61 * mm}}
	if _, ok := violations(t, k, pocket.Paper{}, units.Sixteenths).Find("place.w", check.TooSmall); !ok {
		t.Error("a nanometre less takes it too")
	}
}

// A gusset says how far it opens as its foot lets it.
func TestGussetOpensAsItsFoot(t *testing.T) {
	for _, r := range []units.Ruler{units.Eighths, units.WholeMillimetres} {
		d := design(t, pocket.Gusset{Content: pocket.IDCard()}, pocket.Paper{}, r)
		sheet := piece(t, d, "back and front").Blank()
		var at []units.Length
		for _, l := range sheet.Lines() {
			at = append(at, l.At)
		}
		slices.Sort(at)
		foot := at[2] - at[0]
		if d.Opening() > foot || d.Opening() > 2*d.Gusset() {
			t.Errorf("says it opens to %v with a foot of %v and half panels of %v", d.Opening(), foot, d.Gusset())
		}
	}
}

// Standing on a spine a guard takes no more of it than its folds, and its tabs
// lie on either side.
func TestConcertinaOnItsSpine(t *testing.T) {
	d := design(t, pocket.Concertina{Content: pocket.IDCard(), Leaves: 4, Land: mm, OnSpine: true, Spine: 8 * mm}, pocket.Paper{Caliper: 300 * units.Micrometre}, units.WholeMillimetres)
	if d.Closed().W > 8*mm {
		t.Errorf("takes %v of a spine of 8 mm", d.Closed().W)
	}
	// The left tab, which is marked, ends where the folds begin; the right one lies
	// beside the eight layers that stand up and the three lands between them.
	left, right := units.RectAt(units.Point{X: -10 * mm}, units.Size{W: 10 * mm, H: 60 * mm}), units.RectAt(units.Point{X: 8*300*units.Micrometre + 3*mm}, units.Size{W: 10 * mm, H: 60 * mm})
	if tab, folds := d.Tabs(); tab != 10*mm || folds != right.Min.X {
		t.Errorf("tabs of %v, with %v between them; want %v", tab, folds, right.Min.X)
	}
	fixed, stood := false, false
	for _, s := range stepsOf(d) {
		for _, a := range s.Do {
			switch a := a.(type) {
			case work.Fix:
				if a.On.Kind == work.Under {
					fixed = a.At.Rect(a.Size, d.Closed()) == left && slices.Equal(a.Areas, []units.Rect{units.RectAt(units.Point{}, left.Size())})
				}
			case work.Stick:
				stood = a.Standing && fixed && a.To.Kind == work.Under && a.Area.Size() == right.Size()
			}
		}
	}
	if !fixed || !stood {
		t.Errorf("the left tab in its place: %t; then the right one, beside folds that stand: %t", fixed, stood)
	}
	k := pocket.Concertina{Content: pocket.IDCard(), Leaves: 4, OnSpine: true, Spine: 3 * mm}
	if v, ok := violations(t, k, pocket.Paper{}, units.WholeMillimetres).Find("spine", check.TooSmall); !ok || v.Limit < 4*760*units.Micrometre {
		t.Errorf("four cards on a spine of 3 mm: %v", v)
	}
}
