package folio_test

import (
	"cmp"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// arranged is a folio of 120 x 170 mm with fittings on its right cover.
func arranged(f ...folio.Fitting) folio.Spec {
	return folio.Spec{
		Cover: units.Size{W: 120 * mm, H: 170 * mm}, Spine: rule.Spine{Width: 40 * mm},
		Rulers: rule.Rulers{Main: units.WholeMillimetres}, Fittings: f,
		Stocks: []stock.Stock{{Name: "film", Caliper: mm / 10}},
	}
}

// medal is a round thing so wide.
func medal(w units.Length, on string, x, y units.Length) folio.Fitting {
	return folio.Fitting{Name: "medal", StandsOn: on, Kind: folio.Ornament{Size: units.Size{W: w, H: w}, Thickness: mm},
		Place: place.Place{Across: place.Left, Along: place.Head, Offset: units.Point{X: x, Y: y}}}
}

// What no hands can do, or what shuts up what it stands on, is refused: each
// with the name of both.
func TestArrangementsThatCannotBe(t *testing.T) {
	card := pocket.IDCard() // 85.6 x 54 mm
	slip := folio.Fitting{Name: "slip", Kind: folio.Folded{Kind: pocket.Slip{Content: card}}}
	folded := folio.Fitting{Name: "slip", Kind: folio.Folded{Kind: pocket.Slip{Content: card, Build: pocket.FoldedFoot}}}
	frame := folio.Frame{Picture: pocket.Content{Size: units.Size{W: 60 * mm, H: 80 * mm}, Thickness: mm / 4}}
	window := folio.Fitting{Name: "window", Kind: frame}
	frame.Film = "film"
	glazed := folio.Fitting{Name: "window", Kind: frame}
	corners := folio.Fitting{Name: "corners", Kind: folio.Folded{Kind: pocket.Corners{Content: card}}}
	strip := folio.Fitting{Name: "strip", Kind: folio.Folded{Kind: pocket.FoldedStrip{Content: card}}}
	for name, c := range map[string]struct {
		fittings []folio.Fitting
		code     check.Code // "" for an arrangement that is all right
	}{
		"on a slip's front":                {[]folio.Fitting{slip, medal(20*mm, "slip", 10*mm, 10*mm)}, ""},
		"over a slip's mouth":              {[]folio.Fitting{slip, {Name: "mat", StandsOn: "slip", Kind: folio.Mat{Size: units.Size{W: 80 * mm, H: 50 * mm}}}}, folio.TooTall},
		"beside a slip's front":            {[]folio.Fitting{slip, medal(20*mm, "slip", 10*mm, -15*mm)}, folio.OffPanel},
		"on a folded slip's front":         {[]folio.Fitting{folded, medal(20*mm, "slip", 10*mm, 25*mm)}, ""},
		"on the back, where the card goes": {[]folio.Fitting{folded, medal(10*mm, "slip", 40*mm, 2*mm)}, folio.MouthShut},
		"over a folded slip's mouth":       {[]folio.Fitting{folded, medal(20*mm, "slip", 40*mm, 10*mm)}, folio.MouthShut},
		"on a rail":                        {[]folio.Fitting{window, medal(9*mm, "window", mm, 60*mm)}, ""},
		"over the open window":             {[]folio.Fitting{window, medal(20*mm, "window", 30*mm, 40*mm)}, folio.NothingUnder},
		"over the window's edge":           {[]folio.Fitting{window, medal(20*mm, "window", mm, 40*mm)}, folio.NothingUnder},
		"over the whole window":            {[]folio.Fitting{window, {Name: "lid", StandsOn: "window", Kind: folio.Mat{Size: units.Size{W: 70 * mm, H: 90 * mm}}}}, folio.NothingUnder},
		"on the film":                      {[]folio.Fitting{glazed, medal(20*mm, "window", 30*mm, 40*mm)}, ""},
		"on corners":                       {[]folio.Fitting{corners, medal(9*mm, "corners", 0, 0)}, folio.NothingUnder},
		"on a strip's flap":                {[]folio.Fitting{strip, medal(20*mm, "strip", 10*mm, 10*mm)}, ""},
	} {
		_, err := folio.Build(arranged(c.fittings...))
		var bad *check.Error
		switch {
		case c.code == "" && err != nil:
			t.Errorf("%s: %v", name, err)
		case c.code == "":
		case !errors.As(err, &bad):
			t.Errorf("%s: was taken", name)
		default:
			v, ok := bad.Find("", c.code)
			if !ok || v.Of != c.fittings[1].Name || !strings.Contains(v.Got+v.Want, c.fittings[0].Name) && c.code == folio.NothingUnder {
				t.Errorf("%s: want %s, of %q over %q: %v", name, c.code, c.fittings[1].Name, c.fittings[0].Name, err)
			}
		}
	}
}

// What stands over a picture that is to be seen, on a mat, on a leaf or through a
// window, is warned about; beside it, or on a mat without one, it is not.
func TestPicturesCovered(t *testing.T) {
	print := pocket.Content{Name: "print", Size: units.Size{W: 60 * mm, H: 80 * mm}, Thickness: mm / 4}
	mat := folio.Fitting{Name: "mat", Kind: folio.Mat{Picture: print, Reveal: 15 * mm}}
	bare := folio.Fitting{Name: "mat", Kind: folio.Mat{Size: units.Size{W: 90 * mm, H: 110 * mm}}}
	glazed := folio.Fitting{Name: "window", Kind: folio.Frame{Picture: print, Film: "film"}}
	guard := folio.Fitting{Name: "guard", Kind: folio.Folded{Kind: pocket.Concertina{Content: print, Leaves: 2, Margin: 15 * mm}}}
	flap := folio.Fitting{Name: "strip", Kind: folio.Folded{Kind: pocket.FoldedStrip{Content: print}}}
	for name, c := range map[string]struct {
		fittings []folio.Fitting
		covered  bool
	}{
		"on the print":         {[]folio.Fitting{mat, medal(20*mm, "mat", 30*mm, 30*mm)}, true},
		"on its edge":          {[]folio.Fitting{mat, medal(20*mm, "mat", 0, 30*mm)}, true},
		"on the reveal":        {[]folio.Fitting{mat, medal(10*mm, "mat", 2*mm, 30*mm)}, false},
		"on a mat without one": {[]folio.Fitting{bare, medal(20*mm, "mat", 30*mm, 30*mm)}, false},
		"on the film":          {[]folio.Fitting{glazed, medal(20*mm, "window", 30*mm, 40*mm)}, true},
		// The leaves begin at the fold; the print's middle is that of the leaf.
		"on a leaf's print":   {[]folio.Fitting{guard, medal(20*mm, "guard", 40*mm, 40*mm)}, true},
		"beside it on a leaf": {[]folio.Fitting{guard, medal(10*mm, "guard", 40*mm, 2*mm)}, false},
		"on a closed flap":    {[]folio.Fitting{flap, medal(20*mm, "strip", 10*mm, 30*mm)}, false},
		"on a rail":           {[]folio.Fitting{glazed, medal(9*mm, "window", mm, 60*mm)}, false},
	} {
		p, err := folio.Build(arranged(c.fittings...))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		found := false
		for w := range p.Warnings() {
			if w.Code == folio.WarnCovered {
				found = true
				if w.Path != "fittings[1].place" || !strings.Contains(w.Text, "medal") || !strings.Contains(w.Text, "print") {
					t.Errorf("%s: %v", name, w)
				}
			}
		}
		if found != c.covered {
			t.Errorf("%s: warned %v", name, found)
		}
	}
}

// A thumb notch is in the middle of its pocket, between two marks of the ruler where that is
// an odd number of nanometres wider: what reaches over any of it on the one side or the other
// is told of, and what ends before it is not.
func TestThumbNotchCovered(t *testing.T) {
	for odd := range units.Length(4) {
		card := pocket.IDCard()
		card.Size.W += odd
		s := arranged(folio.Fitting{Name: "slip", Kind: folio.Folded{Kind: pocket.Slip{Content: card, Build: pocket.FoldedFoot}}})
		s.Rulers = all(everyNanometre)
		var front units.Rect
		var notch units.Length
		p := mustBuild(t, s)
		for f := range p.Fittings() {
			for on := range f.Surfaces() {
				front = on.Rect().Moved(units.Point{X: -f.Rect().Min.X, Y: -f.Rect().Min.Y})
			}
		}
		for piece := range p.Pieces() {
			if b, ok := piece.Blank(); ok {
				for _, n := range b.Notches() {
					notch = n.Width
				}
			}
		}
		if notch == 0 {
			t.Fatal("there is no notch")
		}
		const wide = 10 * mm
		for side := range 2 {
			for over := units.Length(-1); over < 3; over++ {
				// Twice what it reaches over the notch, of which twice the end is a whole number.
				twice := 2 * over
				x := front.Min.X + (front.Size().W-notch)/2 - wide + over
				if side == 1 {
					x = front.Max.X - (front.Size().W-notch)/2 - over
				}
				twice -= (front.Size().W - notch) % 2
				s.Fittings = append(s.Fittings[:1:1], medal(wide, "slip", x, front.Min.Y))
				told := false
				for w := range mustBuild(t, s).Warnings() {
					told = told || w.Code == folio.WarnCovered && strings.Contains(w.Text, "thumb notch")
				}
				if told != (twice > 0) {
					t.Errorf("a front of %d, a notch of %d: over it by half of %d on side %d told %v", front.Size().W, notch, twice, side, told)
				}
			}
		}
	}
}

// What carries and what contents lie over follows the layers as they are folded:
// a medal stands on the front of a gusset pocket, over its halves and tabs, and
// not on its back, where the contents stand out.
func TestStandsOnTheHighestLayer(t *testing.T) {
	card := pocket.IDCard()
	for _, at := range []pocket.GussetAt{pocket.SideGussets, pocket.FootGusset} {
		g := folio.Fitting{Name: "pocket", Kind: folio.Folded{Kind: pocket.Gusset{Content: card, At: at}}}
		bare, err := folio.Build(arranged(g))
		if err != nil {
			t.Fatal(err)
		}
		var front, back units.Rect
		for f := range bare.Fittings() {
			d, _ := f.Design()
			for _, p := range d.Panels() {
				switch p.Name() {
				case "front":
					front = p.Closed()
				case "back":
					back = p.Closed()
				}
			}
		}
		if _, err := folio.Build(arranged(g, medal(10*mm, "pocket", 10*mm, front.Min.Y+5*mm))); err != nil {
			t.Errorf("%v, on the front: %v", at, err)
		}
		lip := front.Min.Y - back.Min.Y
		if _, err := folio.Build(arranged(g, medal(lip+2*mm, "pocket", 30*mm, 0))); !refusedWith(err, "fittings[1].place", folio.MouthShut) {
			t.Errorf("%v, over the mouth: %v", at, err)
		}
	}
}

// Where one part of what is folded ends over another there is a step: nothing stands
// half on the one and half on the other.
func TestNothingStandsOnAStep(t *testing.T) {
	card := pocket.Content{Name: "card", Size: units.Size{W: 80 * mm, H: 50 * mm}, Thickness: mm / 2}
	steps := map[string]int{}
	for _, kind := range []pocket.Kind{
		pocket.Slip{Content: card, Build: pocket.FoldedFoot}, pocket.Gusset{Content: card}, pocket.GussetRun{Content: card},
		pocket.FoldedAccordion{Content: card}, pocket.Concertina{Content: card}, pocket.Pleat{Content: card},
	} {
		holder := folio.Fitting{Name: "holder", Kind: folio.Folded{Kind: kind}}
		s := arranged(holder)
		s.Cover = units.Size{W: 250 * mm, H: 300 * mm}
		var parts []folio.Surface // the highest last
		for f := range mustBuild(t, s).Fittings() {
			parts = slices.Collect(f.Surfaces())
		}
		var all units.Rect
		for _, p := range parts {
			all = all.Union(p.Rect())
		}
		for i, low := range parts {
			for _, high := range parts[i+1:] {
				r, whole := high.Rect(), units.Size{W: 4 * mm, H: 4 * mm}
				in := r.Min.Plus(units.Point{X: r.Size().W / 3, Y: r.Size().H / 3})
				for _, edge := range []units.Point{{X: in.X, Y: r.Min.Y}, {X: in.X, Y: r.Max.Y}, {X: r.Min.X, Y: in.Y}, {X: r.Max.X, Y: in.Y}} {
					at := units.RectAt(edge.Plus(units.Point{X: -2 * mm, Y: -2 * mm}), whole)
					if !at.In(low.Rect()) || slices.ContainsFunc(parts[i+1:], func(p folio.Surface) bool { return at.In(p.Rect()) }) {
						continue
					}
					steps[kind.Name()]++
					s.Fittings = []folio.Fitting{holder, medal(4*mm, "holder", at.Min.X-all.Min.X, at.Min.Y-all.Min.Y)}
					if _, err := folio.Build(s); !refusedWith(err, "fittings[1].place", folio.NothingUnder) && !refusedWith(err, "fittings[1].place", folio.MouthShut) {
						t.Errorf("%s, on the %s and on the %s: %v", kind.Name(), low.Name(), high.Name(), err)
					}
				}
			}
		}
	}
	if len(steps) < 3 {
		t.Errorf("only %v have steps", steps)
	}
}

// The cards of pleats go in behind the next visible part nearer the foot, and stand out
// over the one before it: only the last of them has nothing over it. Cards no higher than
// a pleat is deep stand out over none.
func TestStandsOnTheLastPleat(t *testing.T) {
	for _, pleats := range []int{2, 3, 4} {
		for _, deep := range []units.Length{0, pocket.IDCard().Size.H} {
			holder := folio.Fitting{Name: "pleats", Kind: folio.Folded{Kind: pocket.Pleat{Content: pocket.IDCard(), Pleats: pleats, Visible: deep}}}
			s := arranged(holder)
			s.Cover.H = 300 * mm
			var parts []units.Rect
			for f := range mustBuild(t, s).Fittings() {
				d, _ := f.Design()
				for _, p := range d.Panels() {
					if strings.HasPrefix(p.Name(), "visible part") {
						parts = append(parts, p.Closed())
					}
				}
			}
			if len(parts) != pleats {
				t.Fatalf("%d pleats have %d visible parts", pleats, len(parts))
			}
			slices.SortFunc(parts, func(a, b units.Rect) int { return cmp.Compare(a.Min.Y, b.Min.Y) })
			for i, part := range parts {
				s.Fittings = []folio.Fitting{holder, medal(4*mm, "pleats", 20*mm, part.Min.Y-parts[0].Min.Y+mm)}
				_, err := folio.Build(s)
				if free := deep > 0 || i == pleats-1; free && err != nil || !free && !refusedWith(err, "fittings[1].place", folio.MouthShut) {
					t.Errorf("%d pleats %v deep, on visible part %d from the head: %v", pleats, deep, i+1, err)
				}
			}
		}
	}
}

// A mouth that a neighbour or the hinge leaves no room before is warned about,
// and only then.
func TestMouthsInTheWay(t *testing.T) {
	at := func(f folio.Fitting, x, y units.Length) folio.Fitting {
		f.Place = place.Place{Across: place.Left, Along: place.Head, Offset: units.Point{X: x, Y: y}}
		return f
	}
	slip := folio.Fitting{Name: "slip", Kind: folio.Folded{Kind: pocket.Slip{Content: pocket.IDCard(), Depth: pocket.Share{Part: 1, Of: 1}}}}
	frame := func(mouth score.Edge) folio.Fitting {
		return folio.Fitting{Name: "frame", Kind: folio.Frame{Picture: pocket.Content{Size: units.Size{W: 40 * mm, H: 50 * mm}, Thickness: mm / 4}, Mouth: mouth}}
	}
	label := folio.Fitting{Name: "label", Kind: folio.Ornament{Size: units.Size{W: 90 * mm, H: 10 * mm}, Thickness: mm}}
	left := func(f folio.Fitting) folio.Fitting { f.Panel = boards.LeftCover; return f }
	for name, c := range map[string]struct {
		fittings []folio.Fitting
		says     string // "" for no warning
	}{
		"free":                        {[]folio.Fitting{at(slip, 0, 60*mm), at(label, 0, 0)}, ""},
		"a label 6 mm above":          {[]folio.Fitting{at(slip, 0, 60*mm), at(label, 0, 44*mm)}, ""},
		"a label right above":         {[]folio.Fitting{at(slip, 0, 60*mm), at(label, 0, 50*mm)}, "label"},
		"a label below":               {[]folio.Fitting{at(slip, 0, 0), at(label, 0, 70*mm)}, ""},
		"a label on the other cover":  {[]folio.Fitting{at(slip, 0, 60*mm), left(at(label, 0, 50*mm))}, ""},
		"at the head edge":            {[]folio.Fitting{at(slip, 0, 0)}, ""},
		"into the hinge":              {[]folio.Fitting{at(frame(score.Left), 0, 0)}, "hinge"},
		"a grip from the hinge":       {[]folio.Fitting{at(frame(score.Left), 6*mm, 0)}, ""},
		"to the fore edge":            {[]folio.Fitting{at(frame(score.Right), 55*mm, 0)}, ""},
		"left cover, to the hinge":    {[]folio.Fitting{left(at(frame(score.Right), 55*mm, 0))}, "hinge"},
		"left cover, to the fore":     {[]folio.Fitting{left(at(frame(score.Left), 0, 0))}, ""},
		"beside what it does not use": {[]folio.Fitting{at(frame(score.Tail), 0, 0), at(label, 0, 70*mm)}, "label"},
	} {
		p, err := folio.Build(arranged(c.fittings...))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		got := ""
		for w := range p.Warnings() {
			if w.Code == folio.WarnMouth {
				got += w.Text
			}
		}
		if (got == "") != (c.says == "") || !strings.Contains(got, c.says) {
			t.Errorf("%s: %q", name, got)
		}
	}
}

// To grip what goes in takes 6 mm: so far from a mouth the hinge, or a neighbour, is not in
// the way, and a nanometre nearer it is, on whichever side; what lies beside the way in is not.
func TestMouthsByANanometre(t *testing.T) {
	frame := func(mouth score.Edge, panel boards.Role, at place.Place) folio.Fitting {
		return folio.Fitting{Name: "frame", Panel: panel, Place: at,
			Kind: folio.Frame{Picture: pocket.Content{Size: units.Size{W: 40 * mm, H: 50 * mm}, Thickness: mm / 4}, Mouth: mouth}}
	}
	warns := func(f ...folio.Fitting) string {
		s := arranged(f...)
		s.Rulers = all(everyNanometre)
		got := ""
		for w := range mustBuild(t, s).Warnings() {
			if w.Code == folio.WarnMouth {
				got += w.Text
			}
		}
		return got
	}
	const grip = 6 * mm
	from := func(across place.Align, x units.Length) place.Place {
		return place.Place{Across: across, Along: place.Middle, Offset: units.Point{X: x}}
	}
	for less := range units.Length(2) {
		for name, f := range map[string]folio.Fitting{
			"right cover": frame(score.Left, boards.RightCover, from(place.Left, grip-less)),
			"left cover":  frame(score.Right, boards.LeftCover, from(place.Right, grip-less)),
		} {
			if got := warns(f); strings.Contains(got, "hinge") != (less > 0) {
				t.Errorf("%s, %v less than a grip from the hinge: %q", name, less, got)
			}
		}
		// Covers that a soft joint joins have it beside them, and no board between.
		for name, f := range map[string]folio.Fitting{
			"right cover": frame(score.Left, boards.RightCover, from(place.Left, grip-less)),
			"left cover":  frame(score.Right, boards.LeftCover, from(place.Right, grip-less)),
		} {
			s := arranged(f)
			s.Rulers, s.Form, s.Spine, s.Hinge = all(everyNanometre), boards.SoftSpine, rule.Spine{Contents: 8 * mm}, rule.Hinge{}
			if got := mustBuild(t, s); warnedOf(got, folio.WarnMouth, "fittings[0]") != (less > 0) {
				t.Errorf("%s at a soft joint, %v less than a grip from it", name, less)
			}
		}
		// A tag at each side of a frame in the middle, so far away, and in the way of what goes in
		// or just beside that.
		tag := units.Size{W: 5 * mm, H: 5 * mm}
		for beside := range units.Length(2) {
			for mouth := score.Head; mouth <= score.Right; mouth++ {
				s := arranged(frame(mouth, boards.RightCover, place.Place{}))
				s.Rulers = all(everyNanometre)
				var at, in units.Rect
				p := mustBuild(t, s)
				panel, _ := p.Panel(boards.RightCover, false)
				for f := range p.Fittings() {
					at = f.Rect().Moved(units.Point{X: -panel.Min.X, Y: -panel.Min.Y})
					for _, spot := range f.Spots() {
						in = spot.Rect().Moved(units.Point{X: -panel.Min.X, Y: -panel.Min.Y})
					}
				}
				corner := map[score.Edge]units.Point{
					score.Head:  {X: in.Max.X - 1 + beside, Y: at.Min.Y - grip + less - tag.H},
					score.Tail:  {X: in.Min.X - tag.W + 1 - beside, Y: at.Max.Y + grip - less},
					score.Left:  {X: at.Min.X - grip + less - tag.W, Y: in.Max.Y - 1 + beside},
					score.Right: {X: at.Max.X + grip - less, Y: in.Min.Y - tag.H + 1 - beside},
				}[mouth]
				got := warns(frame(mouth, boards.RightCover, place.Place{}),
					folio.Fitting{Name: "tag", Kind: folio.Ornament{Size: tag, Thickness: mm}, Place: place.Place{Across: place.Left, Along: place.Head, Offset: corner}})
				if strings.Contains(got, "tag") != (less > 0 && beside == 0) {
					t.Errorf("towards the %v, %v less than a grip, beside %v: %q", mouth, less, beside > 0, got)
				}
			}
		}
	}
}

// No size rounds to nothing, whatever the ruler: every piece of what builds has
// a width and a height.
func TestNoSizeOfNothing(t *testing.T) {
	half, err := units.NewRuler(units.Inch/2, units.InchFraction)
	if err != nil {
		t.Fatal(err)
	}
	ten, err := units.NewRuler(10*mm, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	built := 0
	for _, r := range []units.Ruler{units.Eighths, half, ten, units.WholeMillimetres, units.Sixteenths} {
		for _, foam := range []units.Length{0, mm / 2, 3 * mm, 5 * mm} {
			for _, pic := range []units.Size{pocket.IDCard().Size, {W: 12 * mm, H: 12 * mm}, {W: 31 * mm, H: 14 * mm}} {
				for _, film := range []string{"", "film"} {
					s := arranged(folio.Fitting{Name: "window", Kind: folio.Frame{Picture: content(pic), FoamWidth: foam, Film: film, FoamStock: "foam"}})
					s.Cover = units.Size{W: 200 * mm, H: 200 * mm}
					s.Stocks = append(s.Stocks, stock.Stock{Name: "foam", Caliper: 2 * mm})
					s.Rulers.Fitting = r
					p, err := folio.Build(s)
					if err != nil {
						continue
					}
					built++
					for q := range p.Pieces() {
						if q.Size().Empty() {
							t.Errorf("on %v: %s %v", r, q.Name(), q.Size())
						}
						if given := foam; given > 0 && q.Role() == stock.FoamPiece && min(q.Size().W, q.Size().H) != given {
							t.Errorf("on %v: a foam strip of %v, given %v", r, q.Size(), given)
						}
					}
				}
			}
		}
	}
	if built < 40 {
		t.Errorf("only %d were built", built)
	}
}

// A mass has bounds, and none is no length: each is said as it was given.
func TestBoundsOfFittings(t *testing.T) {
	size := units.Size{W: 20 * mm, H: 20 * mm}
	pic := content(units.Size{W: 40 * mm, H: 60 * mm})
	for name, c := range map[string]struct {
		kind folio.Kind
		path string
		code check.Code
		got  string
	}{
		"a negative mass":    {folio.Ornament{Size: size, Mass: -units.Gram}, "fittings[0].kind.mass", check.Negative, "-1 g"},
		"the greatest mass":  {folio.Ornament{Size: size, Mass: math.MaxInt64}, "fittings[0].kind.mass", check.OutOfRange, "9223372036854.775807 g"},
		"no strip of foam":   {folio.Frame{Picture: pic, FoamWidth: units.None}, "fittings[0].kind.foamwidth", check.NotPositive, "none"},
		"no foam":            {folio.Frame{Picture: pic, Foam: units.None}, "fittings[0].kind.foam", check.NotPositive, "none"},
		"no rail":            {folio.Frame{Picture: pic, Rail: units.None}, "fittings[0].kind.rail", check.NotPositive, "none"},
		"a thickness of -2":  {folio.Ornament{Size: size, Thickness: -2}, "fittings[0].kind.thickness", check.Negative, "-0.000002 mm"},
		"foam of two minds":  {folio.Frame{Picture: pic, FoamStock: "film", Foam: mm}, "fittings[0].kind.foam", check.Conflict, `1 mm of "film"`},
		"a reveal below 0":   {folio.Mat{Picture: pic, Reveal: -5}, "fittings[0].kind.reveal", check.Negative, "-0.000005 mm"},
		"a frame of nothing": {folio.Frame{}, "fittings[0].kind.picture.size.w", check.NotPositive, "0 mm"},
	} {
		_, err := folio.Build(arranged(folio.Fitting{Name: "x", Kind: c.kind}))
		var bad *check.Error
		if !errors.As(err, &bad) {
			t.Errorf("%s: was taken", name)
			continue
		}
		if v, ok := bad.Find(c.path, c.code); !ok || v.Got != c.got {
			t.Errorf("%s: want %s at %s, got %q: %v", name, c.code, c.path, c.got, err)
		}
	}
	if _, err := folio.Build(arranged(folio.Fitting{Kind: folio.Ornament{Size: size, Mass: folio.MostMass}})); err != nil {
		t.Errorf("the most that is allowed: %v", err)
	}
	if _, err := folio.Build(arranged(folio.Fitting{Kind: folio.Mat{Picture: pic, Reveal: units.None}})); err != nil {
		t.Errorf("a mat flush with its picture: %v", err)
	}
}

// A metric plan has metric defaults, those of common practice: reveal 3 mm, lap
// 3, rail 12, foam 2 x 6, ease 2.
func TestMetricDefaults(t *testing.T) {
	pic := content(units.Size{W: 40 * mm, H: 60 * mm})
	sizes := func(k folio.Kind, r units.Ruler) map[string]units.Size {
		s := arranged(folio.Fitting{Name: "x", Kind: k})
		s.Rulers.Main = r
		p, err := folio.Build(s)
		if err != nil {
			t.Fatal(err)
		}
		out := map[string]units.Size{}
		for f := range p.Fittings() {
			for _, q := range f.Pieces() {
				out[q.Name()] = q.Size()
				for o := range q.Openings() {
					out["window"] = o.Size()
				}
			}
			out["height"] = units.Size{W: f.Height(false)}
		}
		return out
	}
	if got := sizes(folio.Mat{Picture: pic}, units.WholeMillimetres)["mat"]; got != (units.Size{W: 46 * mm, H: 66 * mm}) {
		t.Errorf("a mat of %v", got)
	}
	got := sizes(folio.Frame{Picture: pic}, units.WholeMillimetres)
	card := stock.DefaultCard(units.MetricDecimal).Caliper
	for name, want := range map[string]units.Size{
		"window":          {W: 34 * mm, H: 54 * mm},
		"frame":           {W: 58 * mm, H: 78 * mm},
		"side foam strip": {W: 6 * mm, H: 78 * mm},
		"far foam strip":  {W: 42 * mm, H: 6 * mm},
		"height":          {W: card + 2*mm},
	} {
		if got[name] != want {
			t.Errorf("%s of %v, want %v", name, got[name], want)
		}
	}
	in := units.Inch
	pic = content(units.Size{W: 2 * in, H: 3 * in})
	if got := sizes(folio.Mat{Picture: pic}, units.Sixteenths)["mat"]; got != (units.Size{W: 9 * in / 4, H: 13 * in / 4}) {
		t.Errorf("a mat of %v", got)
	}
	if got := sizes(folio.Frame{Picture: pic}, units.Sixteenths)["side foam strip"]; got.W != in/4 {
		t.Errorf("a strip of %v", got)
	}
}
