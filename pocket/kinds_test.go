package pocket_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

func TestKinds(t *testing.T) {
	var names []string
	for k := range pocket.Kinds() {
		names = append(names, k.Name())
	}
	if len(names) != 9 || len(slices.Compact(slices.Sorted(slices.Values(names)))) != 9 {
		t.Errorf("kinds %v; want nine with names of their own", names)
	}
	var zero pocket.Design
	for range zero.Steps() {
		t.Error("the zero design has a step")
	}
	for range zero.Heights(true) {
		t.Error("the zero design has a height")
	}
	if zero.Accepts(pocket.IDCard()) == nil {
		t.Error("the zero design takes a card")
	}
}

// Corners alone hold what goes in by its corners, and are told so by the order of work; leaves
// on a guard alone have parts between them that are no panels.
func TestWhatHolds(t *testing.T) {
	photo := pocket.Content{Name: "photo", Size: units.Size{W: 4 * in, H: 3 * in}}
	for _, c := range []struct {
		k                pocket.Kind
		corners, guarded bool
	}{
		{pocket.Slip{Content: photo}, false, false},
		{pocket.Corners{Content: photo}, true, false},
		{pocket.Flap{Content: photo}, false, false}, // stuck down on it
		{pocket.Gusset{Content: photo}, false, false},
		{pocket.FoldedStrip{Content: photo}, false, false},
		{pocket.FoldedAccordion{Content: photo}, false, false},
		{pocket.Concertina{Content: photo}, false, true},
	} {
		d := design(t, c.k, pocket.Paper{}, 0)
		for i, s := range d.Spots() {
			if s.ByCorners() != c.corners {
				t.Errorf("%s: place %d holds by corners: %t", c.k.Name(), i, s.ByCorners())
			}
		}
		if d.Guarded() != c.guarded {
			t.Errorf("%s: on a guard: %t", c.k.Name(), d.Guarded())
		}
		for s := range d.Steps() {
			for _, a := range s.Do {
				if in, ok := a.(work.Insert); ok && in.Corners != c.corners {
					t.Errorf("%s: %s", c.k.Name(), s.Text(units.Format{}))
				}
			}
		}
	}
}

// The paper's defaults: index 110, and the same bulk where one is given.
func TestPaperDefaults(t *testing.T) {
	for _, c := range []struct{ give, want pocket.Paper }{
		// US Government Paper Specification Standards No. 11, 1999
		{pocket.Paper{}, pocket.Paper{Name: "paper", Caliper: 231140, Grammage: 200 * units.GramPerSquareMetre, TwoSided: true}},
		{pocket.Paper{Caliper: 462280}, pocket.Paper{Name: "paper", Caliper: 462280, Grammage: 400 * units.GramPerSquareMetre}},
		{pocket.Paper{Grammage: 100 * units.GramPerSquareMetre}, pocket.Paper{Name: "paper", Caliper: 115570, Grammage: 100 * units.GramPerSquareMetre}},
		{pocket.Paper{Name: "ingres", Caliper: 300000, Grammage: 120000}, pocket.Paper{Name: "ingres", Caliper: 300000, Grammage: 120000}},
	} {
		if got := design(t, pocket.Slip{Content: pocket.IDCard()}, c.give, 0).Paper(); got != c.want {
			t.Errorf("%+v becomes %+v; want %+v", c.give, got, c.want)
		}
	}
}

// A flap is hinged at each of the four edges; it opens away from it.
func TestFlapHinges(t *testing.T) {
	leaf := units.Size{W: 4 * in, H: 6 * in}
	for _, c := range []struct {
		hinge    score.Edge
		blank    units.Size
		axis     score.Axis
		tab, end units.Length // of the two scores
		leafAt   units.Point
	}{
		{score.Head, units.Size{W: 4 * in, H: 27 * in / 4}, score.Level, in / 2, 3 * in / 4, units.Point{Y: 3 * in / 4}},
		{score.Tail, units.Size{W: 4 * in, H: 27 * in / 4}, score.Level, 25 * in / 4, 6 * in, units.Point{}},
		{score.Left, units.Size{W: 19 * in / 4, H: 6 * in}, score.Upright, in / 2, 3 * in / 4, units.Point{X: 3 * in / 4}},
		{score.Right, units.Size{W: 19 * in / 4, H: 6 * in}, score.Upright, 17 * in / 4, 4 * in, units.Point{}},
	} {
		d := design(t, pocket.Flap{Leaf: leaf, Hinge: c.hinge, Over: 6 * mm}, pocket.Paper{}, units.Eighths)
		b := piece(t, d, "leaf").Blank()
		if b.Size() != c.blank || d.Closed() != leaf || d.Open() != c.blank {
			t.Errorf("%v: blank %v, closed %v, open %v; want %v, %v", c.hinge, b.Size(), d.Closed(), d.Open(), c.blank, leaf)
		}
		var at []units.Length
		for _, l := range b.Lines() {
			if l.Axis != c.axis || l.Fold != score.Mountain {
				t.Errorf("%v: score %+v", c.hinge, l)
			}
			at = append(at, l.At)
		}
		if !slices.Equal(at, []units.Length{c.tab, c.end}) {
			t.Errorf("%v: scores at %v; want %v and %v", c.hinge, at, c.tab, c.end)
		}
		p, _ := d.Panel("leaf")
		if p.Blank() != units.RectAt(c.leafAt, leaf) {
			t.Errorf("%v: the leaf lies at %v", c.hinge, p.Blank())
		}
		for _, tab := range b.Tabs() {
			if tab.Edge != c.hinge || tab.Depth != in/2 {
				t.Errorf("%v: tab %+v", c.hinge, tab)
			}
		}
	}
}

// Only a flap that closes over more than two calipers gets a spine; the
// thickness is that of what lies there.
func TestFlapSpine(t *testing.T) {
	paper := pocket.Paper{Caliper: 250 * units.Micrometre}
	leaf := units.Size{W: 100 * mm, H: 150 * mm}
	for _, c := range []struct {
		over, spine units.Length
	}{{0, 0}, {500 * units.Micrometre, 0}, {501 * units.Micrometre, 1 * mm}, {3 * mm, 3 * mm}} {
		d := design(t, pocket.Flap{Leaf: leaf, Over: c.over}, paper, units.WholeMillimetres)
		p, ok := d.Panel("spine")
		if got := p.Blank().Size().H; ok != (c.spine > 0) || got != c.spine {
			t.Errorf("over %v: a spine of %v; want %v", c.over, got, c.spine)
		}
		if got := d.Thickness(false); got != 2*paper.Caliper {
			t.Errorf("over %v: %v thick; want leaf and tab", c.over, got)
		}
		for w := range d.Warnings() { // one score does for no more, and the spine is wide enough
			if w.Code == pocket.NeedsTwoScores {
				t.Errorf("over %v: %v", c.over, w)
			}
		}
	}
	mat := pocket.Mat{Size: units.Size{W: 90 * mm, H: 140 * mm}, Caliper: 1 * mm} // reaches over the tab
	d := design(t, pocket.Flap{Leaf: leaf, Mat: mat}, paper, units.WholeMillimetres)
	if got, want := d.Thickness(false), 2*paper.Caliper+mat.Caliper; got != want {
		t.Errorf("with a mat %v thick; want tab, leaf and mat: %v", got, want)
	}
	if p := piece(t, d, "mat"); p.StockKind() != pocket.MatStock || p.Caliper() != mat.Caliper || p.Blank().Size() != mat.Size {
		t.Errorf("the mat is %+v", p)
	}
}

// What a size at hand takes is what a pocket designed for that needs.
func TestSizeAtHandAndBack(t *testing.T) {
	place := units.Size{W: 5 * in, H: 7 * in}
	strip := units.Size{W: 17 * in, H: 6 * in}
	for _, k := range []pocket.Kind{
		pocket.Slip{Place: place}, pocket.Slip{Place: place, Build: pocket.FoldedFoot}, pocket.Corners{Place: place},
		pocket.Gusset{Place: place}, pocket.Gusset{Place: place, At: pocket.FootGusset}, pocket.GussetRun{Place: place},
		pocket.FoldedAccordion{Panel: place}, pocket.FoldedAccordion{Strip: strip}, pocket.Pleat{Place: place},
		pocket.FoldedStrip{Strip: strip}, pocket.Concertina{Leaf: place}, pocket.Flap{Leaf: place},
	} {
		d := design(t, k, pocket.Paper{}, units.Sixteenths)
		var most pocket.Capacity
		for _, p := range d.Spots() {
			most = p.Capacity()
			break
		}
		content := pocket.Content{Name: "most", Size: most.Size, Thickness: min(most.Thickness, 1*mm)}
		var back pocket.Kind
		switch k := k.(type) {
		case pocket.Slip:
			k.Content = content
			back = k
		case pocket.Corners:
			k.Content = content
			back = k
		case pocket.Gusset:
			k.Content = content
			back = k
		case pocket.GussetRun:
			k.Content = content
			back = k
		case pocket.FoldedAccordion:
			k.Content = content
			back = k
		case pocket.Pleat:
			k.Content, k.Visible = content, 1*in
			back = k
		case pocket.FoldedStrip:
			k.Content = content
			k.Base, _ = panelWidth(d, "base")
			back = k
		case pocket.Concertina:
			k.Content = content
			back = k
		case pocket.Flap:
			k.Content = content
			back = k
		}
		if _, err := back.Design(pocket.Paper{}, units.Sixteenths); err != nil {
			t.Errorf("%+v takes %v, but is refused for it: %v", k, content, err)
		}
		if err := d.Accepts(content); err != nil {
			t.Errorf("%+v does not take %v: %v", k, content, err)
		}
	}
}

func panelWidth(d pocket.Design, name string) (units.Length, bool) {
	p, ok := d.Panel(name)
	return p.Size().W, ok
}

// A refusal says which dimension fails, by how much, and what would do.
func TestRefusalSaysWhatWouldDo(t *testing.T) {
	d := design(t, pocket.Slip{Content: pocket.IDCard()}, pocket.Paper{}, units.Sixteenths)
	wide, _ := pocket.UsualContent("note card 3 x 5 in")
	err := d.Accepts(wide.Content)
	var list *check.Error
	if !errors.As(err, &list) {
		t.Fatalf("a 5 in card: %v; want a refusal", err)
	}
	v, ok := list.Find("size.w", check.TooLarge)
	if !ok || v.By != 5*in-27*in/8 {
		t.Fatalf("refused with %v; want a width 1 5/8 in too much", err)
	}
	for _, part := range []string{"at most 3 3/8 in", "1 5/8 in too much", "a clear width of 5 1/8 in would do"} {
		if !strings.Contains(v.Want, part) {
			t.Errorf("%q does not say %q", v.Want, part)
		}
	}
	if d.HowMany(wide.Content) != 0 || d.HowMany(pocket.IDCard()) != 1 {
		t.Error("HowMany does not agree with Accepts")
	}
	if d.AcceptsMany(pocket.IDCard(), 2) == nil {
		t.Error("two cards go into a pocket for 1 mm")
	}
	// A thousand of what is not counted as thick, and no more.
	thin := pocket.IDCard()
	thin.Thickness = 0
	if most, more := d.AcceptsMany(thin, 1000), d.AcceptsMany(thin, 1001); most != nil || more == nil {
		t.Errorf("a thousand: %v; one more: %v", most, more)
	}
	// What is a nanometre thick makes it as much thicker.
	thin.Thickness = 1
	if d = design(t, pocket.Slip{Content: thin}, pocket.Paper{}, units.WholeMillimetres); d.Thickness(true)-d.Thickness(false) != 1 {
		t.Errorf("full %v, empty %v", d.Thickness(true), d.Thickness(false))
	}
}

// Given a sheet and a spine: as many pockets as the spine takes, as wide as
// the sheet lets them be. 2n layers of 0.25 mm, a tab and n times 1 mm make
// 1.5 n + 0.25 mm: eight go into 12.5 mm; (700 − 10) / 8 = 86.25 is 86 mm.
func TestPocketsForSpineAndSheet(t *testing.T) {
	k := pocket.FoldedAccordion{Strip: units.Size{W: 700 * mm, H: 150 * mm}, Spine: 12*mm + mm/2}
	d := design(t, k, pocket.Paper{Caliper: 250 * units.Micrometre}, units.WholeMillimetres)
	w, _ := panelWidth(d, "panel")
	if d.Pockets() != 8 || w != 86*mm {
		t.Errorf("%d pockets of %v; want 8 of 86 mm", d.Pockets(), w)
	}
	if d.Thickness(true) != 12*mm+mm/4 {
		t.Errorf("%v thick when full; want 12.25 mm", d.Thickness(true))
	}
}

// The turned-up foot lies face to face on the panels, so that at every
// crossing three of the four creases are of one kind (Maekawa's theorem).
func TestFootCreases(t *testing.T) {
	d := design(t, pocket.FoldedAccordion{Content: pocket.IDCard(), Panels: 5}, pocket.Paper{}, units.WholeMillimetres)
	b := piece(t, d, "accordion").Blank()
	at := map[units.Length][]score.Fold{}
	for _, l := range b.Lines() {
		if l.Axis == score.Upright {
			at[l.At] = append(at[l.At], l.Fold)
		}
	}
	if len(at) != 5 {
		t.Fatalf("%d upright scores; want 5", len(at))
	}
	for x, folds := range at {
		if len(folds) == 2 && folds[0] == folds[1] {
			t.Errorf("at %v both parts are %v", x, folds[0])
		}
		if last := x == 5*b.Size().W/5; len(folds) != 2 && last {
			t.Errorf("at %v the score has %d parts", x, len(folds))
		}
	}
}

func TestGussetOpens(t *testing.T) {
	d := design(t, pocket.Gusset{Content: pocket.IDCard(), Half: 20 * mm}, pocket.Paper{}, units.WholeMillimetres)
	if s, err := d.StandIn(24 * mm); err != nil || s != 16*mm {
		t.Errorf("opened to 24 mm the fold stands %v in, %v; want 16 mm", s, err)
	}
	_, err := d.StandIn(41 * mm)
	var list *check.Error
	if !errors.As(err, &list) {
		t.Fatalf("opens to 41 mm: %v", err)
	}
	if v, ok := list.Find("opening", check.TooLarge); !ok || v.Limit != 40*mm || v.By != 1*mm || !strings.Contains(v.Want, "21 mm") {
		t.Errorf("refused with %v", v)
	}
	flap := design(t, pocket.Flap{Leaf: units.Size{W: in, H: in}}, pocket.Paper{}, 0)
	if _, err := flap.StandIn(0); err == nil {
		t.Error("a flap has a gusset")
	}
}

// Four corners round a print leave its middle free and hold each corner.
func TestCorners(t *testing.T) {
	print4x6, _ := pocket.UsualContent("photo 4 x 6 in")
	for n, at := range map[int][]bool{4: {true, true, true, true}, 2: {false, false, true, true}, 1: {false, false, true, false}} {
		d := design(t, pocket.Corners{Content: print4x6.Content, Corners: n, Leg: in}, pocket.Paper{}, units.Sixteenths)
		c := d.Closed()
		for i, p := range []units.Point{{X: in / 2, Y: in / 2}, {X: c.W - in/2, Y: in / 2}, {X: in / 2, Y: c.H - in/2}, {X: c.W - in/2, Y: c.H - in/2}} {
			if got := layersAt(d, p) > 0; got != at[i] {
				t.Errorf("%d corners: paper at corner %d: %v; want %v", n, i, got, at[i])
			}
		}
		if got := layersAt(d, units.Point{X: c.W.Half(units.Down), Y: c.H.Half(units.Down)}); got != 0 {
			t.Errorf("%d corners: %d layers in the middle", n, got)
		}
		p := piece(t, d, "corner")
		if slant := p.Blank().Draft().Slants[0]; p.Quantity() != n || slant != (score.Slant{Corner: score.HeadRight, Along: in, Down: in}) {
			t.Errorf("%d corners: %d pieces with the slant %v", n, p.Quantity(), slant)
		}
	}
}

// A corner has its triangle and a turned edge along either outer side, one on
// the other in the angle.
func TestCornerLayers(t *testing.T) {
	d := design(t, pocket.Corners{Place: units.Size{W: 100 * mm, H: 150 * mm}, Leg: 30 * mm, Turn: 6 * mm}, pocket.Paper{}, units.WholeMillimetres)
	for _, side := range []struct {
		x, y func(units.Length) units.Length
	}{
		{near, near}, {far(100 * mm), near}, {near, far(150 * mm)}, {far(100 * mm), far(150 * mm)},
	} {
		for _, c := range []struct {
			x, y units.Length
			want int
		}{{3, 3, 3}, {3, 15, 2}, {15, 3, 2}, {15, 15, 1}, {35, 3, 0}, {3, 35, 0}} {
			if got := layersAt(d, units.Point{X: side.x(c.x * mm), Y: side.y(c.y * mm)}); got != c.want {
				t.Errorf("%v, %v mm from the angle: %d layers; want %d", c.x, c.y, got, c.want)
			}
		}
	}
}

func near(l units.Length) units.Length { return l }

func far(side units.Length) func(units.Length) units.Length {
	return func(l units.Length) units.Length { return side - l }
}

// On a panel the guard lies with its leaves turned to the right: over the last
// fold the right tab, both its layers and those of the fold before, as far as
// they reach, and all leaves. On a spine it takes folds and lands across:
// 2n c + (n − 1)s.
func TestConcertinaLayers(t *testing.T) {
	paper := pocket.Paper{Caliper: 250 * units.Micrometre}
	leaf := units.Size{W: 100 * mm, H: 150 * mm}
	for n := 1; n <= 6; n++ {
		k := pocket.Concertina{Leaf: leaf, Leaves: n, Fold: 4 * mm, Land: 2 * mm}
		d := design(t, k, paper, units.WholeMillimetres)
		last := 10*mm + units.Length(n-1)*2*mm // the last fold
		for x, want := range map[units.Length]int{
			5 * mm:        1,                   // the left tab
			last + 1*mm:   1 + n + 2*min(n, 2), // folds of 4 mm every 2 mm
			last + 3*mm:   1 + n + 2,           // the last one alone
			last + 7*mm:   1 + n,               // the right tab under the leaves
			last + 50*mm:  n,                   // the leaves
			last + 101*mm: 0,                   // beyond the last one
		} {
			if got := layersAt(d, units.Point{X: x, Y: mm}); got != want {
				t.Errorf("%d leaves, at %v: %d layers; want %d", n, x, got, want)
			}
		}
		if got, want := piece(t, d, "guard").Blank().Size().W, units.Length(8*n)*mm+units.Length(n-1)*2*mm+20*mm; got != want {
			t.Errorf("%d leaves: a guard %v long; want 2fn + (n − 1)s + 2a = %v", n, got, want)
		}
		// Under the first leaf lie all others, the tab and its own fold, and over the last
		// fold as many others as reach there: by a nanometre one more.
		for more, reach := range map[units.Length]int{0: 2, nm: 3} {
			k.Fold = 4*mm + more
			if got, want := design(t, k, paper, units.WholeMillimetres).Levels()[0], 3+n-1+2*min(n-1, reach); got != want {
				t.Errorf("%d leaves on folds of %v: %d layers lie under the first; want %d", n, k.Fold, got, want)
			}
		}
		k.Fold, k.OnSpine = 4*mm, true
		d = design(t, k, paper, units.WholeMillimetres)
		c := paper.Caliper
		want := max(units.Length(2*n)*c+units.Length(n-1)*2*mm, units.Length(3*n)*c)
		if got := d.Closed(); got != (units.Size{W: want, H: leaf.H}) || d.Thickness(true) != leaf.W {
			t.Errorf("%d leaves take %v of a spine and stand up %v; want %v across", n, got, d.Thickness(true), want)
		}
	}
}

// Side gussets end where the foot's fold stands up, so that neither lies in
// the other's way.
func TestGussetFoot(t *testing.T) {
	d := design(t, pocket.Gusset{Content: pocket.IDCard(), Count: 10, Opening: 12 * mm, Half: 8 * mm}, pocket.Paper{}, units.WholeMillimetres)
	front, _ := d.Panel("front")
	side := piece(t, d, "side gusset").Blank().Size()
	if side.H != front.Size().H-6*mm || side.W != 4*8*mm {
		t.Errorf("side gussets %v beside a front %v; want 6 mm less high, 32 mm wide, no tab deeper than a half panel", side, front.Size())
	}
	c := d.Closed()
	for y, want := range map[units.Length]int{1 * mm: 4, 5 * mm: 4, 7 * mm: 6} { // from the foot, at the left edge
		if got := layersAt(d, units.Point{X: mm, Y: c.H - y}); got != want {
			t.Errorf("%v above the foot: %d layers; want %d", y, got, want)
		}
	}
	// What two calipers take needs no gusset at the foot.
	thin := design(t, pocket.Gusset{Content: pocket.IDCard(), Opening: 800 * units.Micrometre}, pocket.Paper{Caliper: 400 * units.Micrometre}, 0)
	lines := 0
	for range piece(t, thin, "back and front").Blank().Lines() {
		lines++
	}
	if lines != 1 {
		t.Errorf("a thin pocket has %d scores at its foot; want one", lines)
	}
}

// The end tab lies at the last fold, at the left, on the base.
func TestAccordionTabSide(t *testing.T) {
	for n := 1; n <= 6; n++ {
		d := design(t, pocket.FoldedAccordion{Panel: units.Size{W: 80 * mm, H: 100 * mm}, Panels: n}, pocket.Paper{}, units.WholeMillimetres)
		left, right := layersAt(d, units.Point{X: 5 * mm, Y: 5 * mm}), layersAt(d, units.Point{X: 75 * mm, Y: 5 * mm})
		if left != n+1 || right != n {
			t.Errorf("%d panels: %d layers at the left, %d at the right; want %d and %d", n, left, right, n+1, n)
		}
		// Its back is glued, so that the pockets are seen when it is drawn out.
		for _, tab := range piece(t, d, "accordion").Blank().Tabs() {
			if tab.Side != score.Back {
				t.Errorf("%d panels: the tab is glued by its %v", n, tab.Side)
			}
		}
	}
}

// A leaf narrower than the usual tab lies on a tab as wide as it is, if none is asked for.
func TestTabUnderANarrowLeaf(t *testing.T) {
	for _, hinge := range []score.Edge{score.Left, score.Head} {
		f := pocket.Flap{Leaf: units.Size{W: 5 * mm, H: 60 * mm}, Hinge: hinge}
		if hinge == score.Head {
			f.Leaf = f.Leaf.Turned()
		}
		tab, ok := design(t, f, pocket.Paper{}, units.WholeMillimetres).Panel("tab")
		if size := tab.Closed().Size(); !ok || size != f.Leaf {
			t.Errorf("%v: under a leaf of %v a tab of %v", hinge, f.Leaf, size)
		}
	}
}
