package pocket_test

import (
	"errors"
	"strings"
	"testing"
	"unicode"

	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A kind comes back as it was given, with no default filled in.
func TestKindAsGiven(t *testing.T) {
	card := pocket.IDCard()
	for _, k := range []pocket.Kind{
		pocket.Slip{Content: card}, pocket.GussetRun{Content: card, Spine: 20 * mm}, pocket.FoldedAccordion{Content: card, Spine: 20 * mm},
		pocket.Concertina{Content: card, Spine: 20 * mm}, pocket.Pleat{Content: card},
	} {
		d := design(t, k, pocket.Paper{}, units.WholeMillimetres)
		if d.Kind() != k {
			t.Errorf("%+v comes back as %+v", k, d.Kind())
		}
		if d.Ruler() != units.WholeMillimetres {
			t.Errorf("%s: ruler %v", k.Name(), d.Ruler())
		}
	}
}

// Gusset strips are joined at outer folds, where a leaf hides the joint; both
// side strips alike.
func TestGussetRunJoints(t *testing.T) {
	k := pocket.GussetRun{Content: pocket.IDCard(), Half: 20 * mm, Tab: 12 * mm, Pockets: 12}
	for _, land := range []units.Length{0, 2 * mm} {
		k.Land = land
		d := design(t, k, pocket.Paper{Sheet: units.Size{W: 200 * mm, H: 200 * mm}}, units.WholeMillimetres)
		sum, joints := units.Length(0), 0
		for _, p := range d.Pieces() {
			if strings.HasPrefix(p.Name(), "side gusset run") {
				if p.Quantity()%2 != 0 {
					t.Errorf("%s: %d of them for two sides", p.Name(), p.Quantity())
				}
				sum += units.Length(p.Quantity()) * p.Blank().Size().W
			}
			if p.Blank().Size().W > 200*mm {
				t.Errorf("%s is %v wide", p.Name(), p.Blank().Size().W)
			}
			// Cut lists write the size behind the name: "strip 1 8 3/4 in" is cut too long.
			if name := p.Name(); unicode.IsDigit(rune(name[len(name)-1])) {
				t.Errorf("%q would run into its size", name)
			}
		}
		for j := range d.Splices() {
			joints++
			sum -= 2 * j.Tab()
			// An outer fold stands whole pockets from the start.
			if over := j.At() - 12*mm; over%(40*mm+land) != 0 || over <= 0 {
				t.Errorf("land %v: a joint at %v is at no outer fold", land, j.At())
			}
		}
		want := 2 * (24*20*mm + 11*land + 24*mm)
		if joints < 2 || sum != want {
			t.Errorf("land %v: %d joints, strips of %v without their tabs; want %v", land, joints, sum, want)
		}
		said := false
		for s := range d.Steps() {
			for _, a := range s.Do {
				fix, ok := a.(work.Fix)
				said = said || ok && fix.On.Kind == work.OnPiece && strings.Contains(fix.What.Name, "gusset run strip ")
			}
		}
		if !said {
			t.Error("no step joins the strips")
		}
	}
	// Joined strips are folded one after the other, each in a step of its own.
	d, err := pocket.FoldedAccordion{Content: pocket.IDCard(), Panels: 8}.Design(pocket.Paper{Sheet: units.Size{W: 300 * mm, H: 300 * mm}}, units.WholeMillimetres)
	if err != nil {
		t.Fatal(err)
	}
	folded := map[string]bool{}
	for s := range d.Steps() {
		in := ""
		for _, a := range s.Do {
			fold, ok := a.(work.FoldAt)
			if ok && in != "" && in != fold.What.Name {
				t.Errorf("step %d folds %s and %s", s.Number, in, fold.What.Name)
			}
			if ok {
				in = fold.What.Name
				folded[in] = true
			}
		}
	}
	if len(folded) < 3 {
		t.Errorf("%d strips are folded", len(folded))
	}
	k.Half, k.Tab, k.JointTab = 8*mm, 8*mm, 10*mm // half panels too narrow to hide a tab of 10 mm
	v, ok := violations(t, k, pocket.Paper{Sheet: units.Size{W: 200 * mm, H: 200 * mm}}, units.WholeMillimetres).Find("jointtab", check.TooLarge)
	if !ok || v.Limit != 8*mm {
		t.Errorf("a joint tab wider than a half panel: %v", v)
	}
}

func TestStripNotch(t *testing.T) {
	k := pocket.FoldedStrip{Content: pocket.IDCard(), Notch: pocket.ThumbNotch{Width: 20 * mm, Depth: 10 * mm}}
	d := design(t, k, pocket.Paper{}, units.WholeMillimetres)
	b := piece(t, d, "strip").Blank()
	n := 0
	for _, c := range b.CutOuts() {
		n++
		// It lies on the fold between front and hem, half on either.
		hem, _ := d.Panel("hem")
		if c.Area.Size() != (units.Size{W: 20 * mm, H: 20 * mm}) || c.Area.Min.X+10*mm != hem.Blank().Min.X || c.Radius != 10*mm {
			t.Errorf("the notch is %+v at a hem from %v", c, hem.Blank().Min.X)
		}
	}
	if n != 1 {
		t.Errorf("%d notches", n)
	}
	for _, bad := range []struct {
		notch pocket.ThumbNotch
		path  string
	}{
		{pocket.ThumbNotch{Width: 20 * mm}, "notch.depth"}, {pocket.ThumbNotch{Depth: 5 * mm}, "notch.width"},
		{pocket.ThumbNotch{Width: 300 * mm, Depth: 5 * mm}, "notch.width"}, {pocket.ThumbNotch{Width: 20 * mm, Depth: 60 * mm}, "notch.depth"},
		{pocket.ThumbNotch{Width: 20 * mm, Depth: units.None}, "notch"},
	} {
		k.Notch = bad.notch
		if _, ok := violations(t, k, pocket.Paper{}, units.WholeMillimetres).Find(bad.path, ""); !ok {
			t.Errorf("%+v is not refused at %s", bad.notch, bad.path)
		}
	}
}

// A thumb notch shrinks to half the mouth and half the depth by default; none
// on request.
func TestThumbNotch(t *testing.T) {
	small := pocket.Content{Name: "ticket", Size: units.Size{W: 20 * mm, H: 20 * mm}}
	for _, c := range []struct {
		content      pocket.Content
		notch        pocket.ThumbNotch
		width, depth units.Length
	}{
		{pocket.IDCard(), pocket.ThumbNotch{}, 20 * mm, 10 * mm},
		{small, pocket.ThumbNotch{}, 11 * mm, 6 * mm},                                                                  // mouth 23, depth 13
		{pocket.Content{Name: "stub", Size: units.Size{W: 21 * mm, H: 21 * mm}}, pocket.ThumbNotch{}, 12 * mm, 7 * mm}, // mouth 24, depth 14
		{pocket.IDCard(), pocket.ThumbNotch{Width: 30 * mm, Depth: 8 * mm}, 30 * mm, 8 * mm},
		{pocket.IDCard(), pocket.ThumbNotch{Width: units.None, Depth: units.None}, 0, 0},
	} {
		d := design(t, pocket.Slip{Content: c.content, Notch: c.notch}, pocket.Paper{}, units.WholeMillimetres)
		var w, h units.Length
		for _, n := range piece(t, d, "pocket front").Blank().Notches() {
			w, h = n.Width, n.Depth
			if n.Edge != score.Head || n.Middle != d.Closed().W.Half(units.Down) || !n.Round {
				t.Errorf("notch %+v", n)
			}
		}
		if w != c.width || h != c.depth {
			t.Errorf("%s: notch %v x %v; want %v x %v", c.content.Name, w, h, c.width, c.depth)
		}
	}
}

// How far the content stands out, or what share of it the pocket covers.
func TestDepth(t *testing.T) {
	note := pocket.Content{Name: "note", Size: units.Size{W: 74 * mm, H: 105 * mm}}
	for _, c := range []struct {
		slip  pocket.Slip
		depth units.Length
	}{
		{pocket.Slip{}, 70 * mm},                                     // 2/3 of 105
		{pocket.Slip{StandOut: 20 * mm}, 85 * mm},                    // 105 − 20
		{pocket.Slip{Depth: pocket.Share{Part: 1, Of: 2}}, 52 * mm},  // 52.5, down
		{pocket.Slip{Depth: pocket.Share{Part: 1, Of: 1}}, 111 * mm}, // 105 + 6
		{pocket.Slip{StandOut: 20*mm + mm/2, Count: 2}, 84 * mm},     // down
		{pocket.Slip{StandOut: 20 * mm, Place: units.Size{W: 90 * mm, H: 130 * mm}}, 85 * mm},
	} {
		c.slip.Content = note
		d := design(t, c.slip, pocket.Paper{}, units.WholeMillimetres)
		front, _ := d.Panel("front")
		if got := front.Size().H - 6*mm; got != c.depth {
			t.Errorf("%+v: %v deep; want %v", c.slip, got, c.depth)
		}
		for _, p := range d.Spots() {
			// The content's foot stands on the pocket's, its head within the footprint.
			if p.Rect().Min.Y < 0 || p.Rect().Max.Y != d.Closed().H-6*mm {
				t.Errorf("%+v: the place is %v", c.slip, p.Rect())
			}
		}
	}
}

// Thick contents get the thick ease, their thickness on top of it, and a
// warning; a gusset takes them without one.
func TestThickContents(t *testing.T) {
	deck := pocket.Content{Name: "cards", Size: units.Size{W: 60 * mm, H: 90 * mm}, Thickness: 300 * units.Micrometre}
	warned := func(d pocket.Design) bool {
		for w := range d.Warnings() {
			if w.Code == pocket.TooThick {
				return true
			}
		}
		return false
	}
	thin := design(t, pocket.Slip{Content: deck, Count: 3}, pocket.Paper{}, 0)
	thick := design(t, pocket.Slip{Content: deck, Count: 10}, pocket.Paper{}, 0)
	if got, want := clearOf(thin), 63*mm; got != want || warned(thin) {
		t.Errorf("0.9 mm: clear %v, warned %v; want %v", got, warned(thin), want)
	}
	if got, want := clearOf(thick), 75*mm; got != want || !warned(thick) {
		t.Errorf("3 mm: clear %v, warned %v; want %v", got, warned(thick), want)
	}
	// An ease below the thickness would strangle the content: the tube of the
	// two walls has to go round it.
	tight := design(t, pocket.Slip{Content: deck, Count: 3, Ease: pocket.Ease{W: mm / 2}}, pocket.Paper{}, 0)
	if got, want := clearOf(tight), 60*mm+900*units.Micrometre; got != want {
		t.Errorf("0.9 mm with an ease of 0.5: clear %v; want %v", got, want)
	}
	// And it takes nothing thicker than its ease.
	one := design(t, pocket.Slip{Content: deck, Ease: pocket.Ease{W: mm / 2}}, pocket.Paper{}, 0)
	for _, p := range one.Spots() {
		if p.Capacity().Thickness != mm/2 {
			t.Errorf("with an ease of 0.5 mm it takes %v", p.Capacity().Thickness)
		}
	}
	gusset := design(t, pocket.Gusset{Content: deck, Count: 10}, pocket.Paper{}, 0)
	if warned(gusset) || gusset.Gusset() < 6*mm/2 {
		t.Errorf("the gusset of %v warns: %v", gusset.Gusset(), warned(gusset))
	}
	if got := gusset.HowMany(deck); got != 20 { // 3 mm and 3 mm of play
		t.Errorf("the gusset takes %d; want 20", got)
	}
	for _, n := range []units.Notation{units.InchFraction, units.InchDecimal} {
		if pocket.ThickEase(n) != (pocket.Ease{W: in / 2, H: in / 2}) || pocket.EnvelopeEase(n) != (pocket.Ease{W: in / 8, H: in / 4}) {
			t.Errorf("%v: an ease is not as published", n)
		}
	}
	// The metric twins of 1/8, 1/4 and 1/2 in, as everywhere.
	if n := units.MetricDecimal; pocket.ThickEase(n) != (pocket.Ease{W: 12 * mm, H: 12 * mm}) || pocket.EnvelopeEase(n) != (pocket.Ease{W: 3 * mm, H: 6 * mm}) {
		t.Error("the metric ease is another")
	}
}

func clearOf(d pocket.Design) units.Length {
	for _, p := range d.Spots() {
		return p.Clear().W
	}
	return 0
}

// A flap that turns round more than two calipers wants two scores.
func TestStripSpineWarning(t *testing.T) {
	note := pocket.Content{Name: "note", Size: units.Size{W: 74 * mm, H: 105 * mm}}
	card := pocket.IDCard()
	paper := pocket.Paper{Caliper: 250 * units.Micrometre}
	for _, c := range []struct {
		kind pocket.FoldedStrip
		want units.Length // what would be wise; 0: no warning
	}{
		{pocket.FoldedStrip{Content: note}, 0},
		{pocket.FoldedStrip{Content: card}, 2 * mm}, // 0.76 + 2 x 0.25, up
		{pocket.FoldedStrip{Content: card, OwnSpine: true}, 0},
		{pocket.FoldedStrip{Content: card, Spine: 1 * mm}, 2 * mm},
	} {
		d := design(t, c.kind, paper, units.WholeMillimetres)
		var got units.Length
		for w := range d.Warnings() {
			if w.Code == pocket.NeedsTwoScores && w.Path == "spine" {
				got = w.Want
			}
		}
		if got != c.want {
			t.Errorf("%+v: a spine of %v is wished for; want %v", c.kind, got, c.want)
		}
	}
}

// The grain runs along the folds; light paper is told apart from heavy.
func TestGrainAndLightPaper(t *testing.T) {
	card := pocket.IDCard()
	for _, c := range []struct {
		kind  pocket.Kind
		piece string
		want  score.Axis
		folds bool
	}{
		{pocket.FoldedStrip{Content: card}, "strip", score.Upright, true},
		{pocket.Slip{Content: card, Build: pocket.FoldedFoot}, "pocket", score.Level, true},
		{pocket.Slip{Content: card}, "pocket front", 0, false},
		{pocket.Pleat{Content: card}, "pleats", score.Level, true},
		{pocket.FoldedAccordion{Content: card, Panels: 12}, "accordion", score.Upright, true},
	} {
		d := design(t, c.kind, pocket.Paper{}, 0)
		if got, folds := piece(t, d, c.piece).Grain(); folds != c.folds || folds && got != c.want {
			t.Errorf("%s: grain %v, %v; want %v", c.kind.Name(), got, folds, c.want)
		}
	}
	for grams, light := range map[units.Grammage]bool{80: true, 120: true, 160: true, 170: false, 200: false, 300: false} {
		d := design(t, pocket.FoldedStrip{Content: card}, pocket.Paper{Grammage: grams * units.GramPerSquareMetre}, 0)
		said := false
		for s := range d.Steps() {
			said = said || s.Task == work.TaskScore && strings.Contains(s.Text(units.Format{}), "light")
		}
		if said != light {
			t.Errorf("%d g/m²: said to be light: %v", grams, said)
		}
	}
}

// A mat is laid where there is a flap and nowhere else.
func TestCarry(t *testing.T) {
	slip := design(t, pocket.Slip{Content: pocket.IDCard()}, pocket.Paper{}, 0)
	var none *check.Error
	if _, err := slip.Carry(units.Size{W: mm, H: mm}); !errors.As(err, &none) {
		t.Error("a slip pocket carries a mat")
	} else if _, ok := none.Find("size", check.TooLarge); !ok {
		t.Error(none)
	}
	if _, ok := slip.Carrier(); ok {
		t.Error("a slip pocket has a panel for mats")
	}
	flap := design(t, pocket.Flap{Leaf: units.Size{W: 4 * in, H: 6 * in}}, pocket.Paper{}, units.Eighths)
	on, err := flap.Carry(units.Size{W: 15 * in / 4, H: 23 * in / 4})
	if want := (units.Point{X: in / 8, Y: in / 8}); err != nil || on.Min != want {
		t.Errorf("the mat lies at %v, %v", on, err)
	}
	for path, size := range map[string]units.Size{"size.w": {W: -nm, H: in}, "size.h": {W: in}} {
		if _, err := flap.Carry(size); !errors.As(err, &none) {
			t.Errorf("a mat of %v is carried", size)
		} else if _, ok := none.Find(path, check.NotPositive); !ok || none.Len() != 1 {
			t.Error(none)
		}
	}
	_, err = flap.Carry(units.Size{W: 31 * in / 8, H: 6 * in})
	var list *check.Error
	if !errors.As(err, &list) || list.Len() != 2 {
		t.Fatalf("a mat too large both ways: %v", err)
	}
	if v, _ := list.Find("size.h", check.TooLarge); v.By != in/4 || v.Limit != 23*in/4 {
		t.Errorf("too high by %v, at most %v", v.By, v.Limit)
	}
	if v, _ := list.Find("size.w", check.TooLarge); v.By != in/8 || v.Limit != 15*in/4 {
		t.Errorf("too wide by %v, at most %v", v.By, v.Limit)
	}
}

// A hem is glued all over, but for its half of a notch, whichever way the strip opens.
func TestHemIsGluedRoundItsNotch(t *testing.T) {
	for _, right := range []bool{false, true} {
		k := pocket.FoldedStrip{Content: sized(90*mm, 130*mm), Hem: 30 * mm, OpensRight: right, Notch: pocket.ThumbNotch{Width: 25 * mm, Depth: 11 * mm}}
		d := design(t, k, pocket.Paper{}, units.WholeMillimetres)
		blank := piece(t, d, "strip").Blank()
		hem, _ := d.Panel("hem")
		var hole units.Rect
		for _, c := range blank.CutOuts() {
			hole = c.Area
		}
		half := hole.Intersect(hem.Blank())
		if half.Size() != (units.Size{W: 11 * mm, H: 25 * mm}) {
			t.Errorf("opens right %t: the notch takes %v of the hem", right, half)
		}
		glued := map[units.Point]bool{} // by square millimetres
		for _, g := range blank.Glue() {
			r := g.Area
			if g.Side != score.Face || !r.In(hem.Blank()) {
				continue
			}
			for x := r.Min.X; x < r.Max.X; x += mm {
				for y := r.Min.Y; y < r.Max.Y; y += mm {
					p := units.Point{X: x, Y: y}
					if square := units.RectAt(p, units.Size{W: mm, H: mm}); glued[p] || square.Overlaps(hole) || !square.In(r) {
						t.Fatalf("opens right %t: glue at %v twice, or in the notch, or of a part of a millimetre", right, p)
					}
					glued[p] = true
				}
			}
		}
		size := hem.Blank().Size()
		if want := int(size.W/mm*(size.H/mm)) - 11*25; len(glued) != want {
			t.Errorf("opens right %t: %d mm² of the hem are glued, want %d", right, len(glued), want)
		}
	}
}

// A mat is as thick as it says, or as the paper's mats are, or as the paper; so much thicker
// is the flap where it lies.
func TestMatsAreAsThickAsTheySay(t *testing.T) {
	for _, c := range []struct{ own, usual, want units.Length }{
		{0, 0, mm / 4}, {0, mm, mm}, {mm / 2, 0, mm / 2}, {mm / 2, mm, mm / 2}, {nm * 10_000, mm, nm * 10_000},
	} {
		k := pocket.Flap{Mat: pocket.Mat{Size: units.Size{W: 60 * mm, H: 80 * mm}, Caliper: c.own}, Tab: 10 * mm}
		d := design(t, k, pocket.Paper{Caliper: mm / 4, MatCaliper: c.usual}, units.WholeMillimetres)
		if got := piece(t, d, "mat").Caliper(); got != c.want {
			t.Errorf("%v of its own, %v of the paper's: %v thick; want %v", c.own, c.usual, got, c.want)
		}
		if got, want := d.Thickness(false), 2*mm/4+c.want; got != want { // on the tab under the leaf
			t.Errorf("%v of its own, %v of the paper's: the flap is %v thick; want %v", c.own, c.usual, got, want)
		}
	}
}

// By default a joint's tab is no deeper than the fold that hides it.
func TestConcertinaJoints(t *testing.T) {
	k := pocket.Concertina{Content: pocket.IDCard(), Leaves: 40}
	d := design(t, k, pocket.Paper{Sheet: units.Size{W: 200 * mm, H: 200 * mm}}, units.WholeMillimetres)
	joints := 0
	for j := range d.Splices() {
		joints++
		if j.Tab() > 9*mm/2 {
			t.Errorf("a tab of %v in a fold of 4.5 mm", j.Tab())
		}
	}
	if joints == 0 {
		t.Error("40 leaves on a sheet of 200 mm need no joint")
	}
	k.JointTab = 10 * mm
	if _, ok := violations(t, k, pocket.Paper{Sheet: units.Size{W: 200 * mm, H: 200 * mm}}, units.WholeMillimetres).Find("jointtab", check.TooLarge); !ok {
		t.Error("a tab of 10 mm in a fold of 4.5 mm is not refused")
	}
}

// Every pocket of an accordion has its notch, on whichever strip it lies.
func TestAccordionNotches(t *testing.T) {
	k := pocket.FoldedAccordion{Panel: units.Size{W: 100 * mm, H: 80 * mm}, Panels: 7, Notch: pocket.ThumbNotch{Width: 20 * mm}}
	d := design(t, k, pocket.Paper{Sheet: units.Size{W: 350 * mm, H: 300 * mm}}, units.WholeMillimetres)
	notches := 0
	for _, p := range d.Pieces() {
		for _, n := range p.Blank().Notches() {
			notches += p.Quantity()
			if n.Edge != score.Tail || n.Middle%(100*mm) != 50*mm || n.Width != 20*mm || n.Depth != 10*mm {
				t.Errorf("%s: notch %+v", p.Name(), n)
			}
		}
	}
	if notches != 7 {
		t.Errorf("%d notches for 7 pockets", notches)
	}
	k.Notch = pocket.ThumbNotch{Width: units.None, Depth: units.None}
	for _, p := range design(t, k, pocket.Paper{}, 0).Pieces() {
		for range p.Blank().Notches() {
			t.Error("a notch although there is to be none")
		}
	}
}
