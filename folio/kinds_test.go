package folio_test

import (
	"context"
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/folio/weigh"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// borrowed embeds a kind, and so has the methods of one without being one.
type borrowed struct{ folio.Kind }

// tellsOf gathers what a plan tells about its fittings.
func tellsOf(p *folio.Plan) (heights []folio.Height, pieces []string, weights []weigh.Entry, steps []string) {
	for h := range p.Heights(true) {
		heights = append(heights, h)
	}
	for q := range p.Pieces() {
		pieces = append(pieces, q.Name()+" "+q.Part()+" "+q.Stock()+" "+q.Size().W.String())
	}
	for w := range partsOf(p, weigh.Options{Filled: true, Estimate: true}) {
		weights = append(weights, w)
	}
	for s := range p.Steps() {
		steps = append(steps, s.Text(units.Format{}))
	}
	return
}

// A kind given by a pointer is taken as the value it points to, and what its
// owner writes there afterwards changes nothing.
func TestKindsByPointer(t *testing.T) {
	const mm = units.Millimetre
	mat := folio.Mat{Picture: content(units.Size{W: 40 * mm, H: 60 * mm})}
	frame := folio.Frame{Picture: pocket.Content{Size: units.Size{W: 40 * mm, H: 60 * mm}, Thickness: mm / 4}}
	medal := folio.Ornament{Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: 2 * mm, Mass: 50 * units.Gram}
	slip := folio.Folded{Kind: pocket.Slip{Content: pocket.IDCard()}}
	for _, c := range []struct {
		name           string
		value, pointer folio.Kind
		change         func()
	}{
		{"mat", mat, &mat, func() { mat = folio.Mat{Size: units.Size{W: mm, H: mm}} }},
		{"frame", frame, &frame, func() { frame.Rail, frame.Picture.Size.W = 30*mm, 9*mm }},
		{"ornament", medal, &medal, func() { medal = folio.Ornament{} }},
		{"slip", slip, &slip, func() { slip.Kind = nil }},
	} {
		build := func(k folio.Kind) *folio.Plan {
			p, err := folio.Build(folio.Spec{
				Cover: units.Size{W: 120 * mm, H: 170 * mm}, Spine: rule.Spine{Width: 25 * mm},
				Rulers: rule.Rulers{Main: units.WholeMillimetres}, Fittings: []folio.Fitting{{Name: "x", Kind: k}},
			})
			if err != nil {
				t.Fatalf("%s: %v", c.name, err)
			}
			return p
		}
		value, pointer := build(c.value), build(c.pointer)
		same := func(what string, a, b *folio.Plan) {
			t.Helper()
			ah, ap, aw, as := tellsOf(a)
			bh, bp, bw, bs := tellsOf(b)
			if !slices.Equal(ah, bh) || !slices.Equal(ap, bp) || !slices.Equal(aw, bw) || !slices.Equal(as, bs) {
				t.Errorf("%s: %s makes another plan", c.name, what)
			}
		}
		same("a pointer", value, pointer)
		c.change()
		same("what its owner wrote later", value, pointer)
		if pointer.Spec().Fittings[0].Kind != c.value {
			t.Errorf("%s: the plan's Spec says %#v", c.name, pointer.Spec().Fittings[0].Kind)
		}
		w, h := pointer.AsMade()
		again, err := pointer.Refit(refit.Measured{Width: w.Length(), Height: h.Length()})
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		for f := range again.Fittings() {
			if f.Kind() != c.value {
				t.Errorf("%s: refitted it is %#v", c.name, f.Kind())
			}
		}
	}
}

// What is none of the kinds is one violation, and nothing panics.
func TestWhatIsNoKind(t *testing.T) {
	for name, c := range map[string]struct {
		kind folio.Kind
		code check.Code
	}{
		"nothing":             {nil, check.Missing},
		"a nil mat":           {(*folio.Mat)(nil), check.Unknown},
		"a nil frame":         {(*folio.Frame)(nil), check.Unknown},
		"a nil ornament":      {(*folio.Ornament)(nil), check.Unknown},
		"a nil folded":        {(*folio.Folded)(nil), check.Unknown},
		"a borrowed mat":      {borrowed{folio.Mat{Size: units.Size{W: units.Inch, H: units.Inch}}}, check.Unknown},
		"borrowed from none":  {borrowed{}, check.Unknown},
		"a pointer to such":   {&borrowed{}, check.Unknown},
		"borrowed and folded": {borrowed{folio.Folded{}}, check.Unknown},
	} {
		s := good()
		s.Fittings = []folio.Fitting{{Name: "x", Kind: c.kind}}
		_, err := folio.Build(s)
		bad, ok := err.(*check.Error)
		if !ok || bad.Len() != 1 || !refusedWith(err, "fittings[0].kind", c.code) {
			t.Errorf("%s: %v", name, err)
		}
		if _, err := fit.Smallest(context.Background(), s, fit.Budget{}); err == nil {
			t.Errorf("%s: a smallest folio was found", name)
		}
		// Nor where nothing has a name, so that each is called after its kind, nor where
		// something else is wrong that a fitting is looked up for by what it is called.
		s.Fittings = []folio.Fitting{{Kind: folio.Mat{Size: units.Size{W: units.Inch, H: units.Inch}}}, {Kind: c.kind}, {Kind: c.kind}}
		s.Covering.Sheets = []stock.Sheet{{Size: units.Size{W: units.Inch, H: units.Inch}}}
		_, err = folio.Build(s)
		if !refusedWith(err, "fittings[1].kind", c.code) || !refusedWith(err, "fittings[2].kind", c.code) || !refusedWith(err, "covering.sheets", folio.SheetSmall) {
			t.Errorf("%s, unnamed: %v", name, err)
		}
		if got := fit.Misfits(s, err); len(got) != 0 {
			t.Errorf("%s, unnamed, is no misfit: %v", name, got)
		}
		if got := s.Label(1); got != "" {
			t.Errorf("%s, unnamed, is called %q", name, got)
		}
	}
}

// What is glued down is the paper, not the footprint with contents standing out
// of it. On a cover of 120 x 170 mm the liner begins 3 mm in: a slip for an
// ID-1 card that stands upright is 63 mm high with 2/3 of 85.6 mm and a glued
// foot of 6 mm, so at the tail of the panel it starts at 170 − 3 − 63 = 104 mm.
func TestWhereThePaperLies(t *testing.T) {
	const mm = units.Millimetre
	p, err := folio.Build(folio.Spec{
		Cover: units.Size{W: 120 * mm, H: 170 * mm}, Spine: rule.Spine{Width: 25 * mm},
		Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Fittings: []folio.Fitting{{
			Name: "pocket", Kind: folio.Folded{Kind: pocket.Slip{Content: pocket.IDCard().Turned()}},
			Place: place.Place{Along: place.Tail},
		}},
	})
	if err != nil {
		t.Fatal(err)
	}
	panel, _ := p.Panel(boards.RightCover, false)
	n := 0
	for q := range p.Placed() {
		if i, ok := q.Fitting(); !ok || i != 0 {
			continue
		}
		n++
		if q.Rect().Size().H != 63*mm || q.Rect().Max.Y != panel.Max.Y {
			t.Errorf("the front lies at %v, the panel ends at %v", q.Rect(), panel.Max.Y)
		}
		if at, ok := q.Panel(); !ok || at != 0 {
			t.Errorf("it is panel %d, %v", at, ok)
		}
	}
	if n != 1 {
		t.Errorf("%d papers", n)
	}
	for f := range p.Fittings() {
		for _, s := range f.Spots() {
			// The card stands with its foot on the glued foot.
			if c, ok := s.Content(); !ok || c != pocket.IDCard().Turned() || s.Lies().Max.Y != panel.Max.Y-6*mm || s.Lies().Size() != c.Size {
				t.Errorf("%v lies at %v", c, s.Lies())
			}
			if mouth, ok := s.Mouth(); !ok || mouth != score.Head {
				t.Errorf("its mouth is at the %v, %v", mouth, ok)
			}
		}
	}
}

// A mat that a strip carries is its own material, with its own weight.
func TestMatInAStrip(t *testing.T) {
	const mm = units.Millimetre
	spec := func(mat string, caliper units.Length) folio.Spec {
		return folio.Spec{
			Cover: units.Size{W: 120 * mm, H: 170 * mm}, Spine: rule.Spine{Width: 25 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
			Stocks: []stock.Stock{{Name: "grey board", Caliper: 3 * mm / 2, Grammage: 960 * units.GramPerSquareMetre}},
			Fittings: []folio.Fitting{{Name: "strip", Kind: folio.Folded{
				Kind:     pocket.FoldedStrip{Strip: units.Size{W: 240 * mm, H: 100 * mm}, Mat: pocket.Mat{Size: units.Size{W: 50 * mm, H: 80 * mm}, Caliper: caliper}},
				MatStock: mat,
			}}},
		}
	}
	p, err := folio.Build(spec("grey board", 0))
	if err != nil {
		t.Fatal(err)
	}
	for part := range partsOf(p, weigh.Options{}) {
		// 50 x 80 mm of 960 g/m² are 3.84 g.
		if part.Name() == "mat" && (part.Stock() != "grey board" || part.Mass() != 3840*units.Milligram || part.Certainty() != weigh.Known) {
			t.Errorf("%+v", part)
		}
	}
	high := func(p *folio.Plan) (most units.Length) {
		for f := range p.Fittings() {
			most = max(most, f.Height(false))
		}
		return most
	}
	if p.Spec().Fittings[0].Kind.(folio.Folded).MatStock != "grey board" {
		t.Error("the Spec has lost the stock of the mat")
	}
	p2, err := folio.Build(spec("", 3*mm/2))
	if err != nil {
		t.Fatal(err)
	}
	if high(p) != high(p2) {
		t.Errorf("a mat of 1.5 mm makes it %v high, and %v by its stock", high(p2), high(p))
	}
	for part := range partsOf(p2, weigh.Options{}) {
		if part.Name() == "mat" && (part.Stock() == "card" || part.Certainty() != weigh.Unknown) {
			t.Errorf("a mat of another caliper than any stock: %+v", part)
		}
	}
	if _, err := folio.Build(spec("grey board", mm)); !refusedWith(err, "fittings[0].kind.matstock", check.Conflict) {
		t.Errorf("a mat of 1 mm from a board of 1.5 mm: %v", err)
	}
	if _, err := folio.Build(spec("slate", 0)); !refusedWith(err, "fittings[0].kind.matstock", check.Unknown) {
		t.Errorf("a mat from nothing: %v", err)
	}
}

// A corner pocket is a triangle with two turned edges: of the square with a side
// of leg and turned edge, half of the leg's square and the square where the
// turned edges would meet are cut off.
func TestCornerWeighsAsATriangle(t *testing.T) {
	const mm = units.Millimetre
	p, err := folio.Build(folio.Spec{
		Cover: units.Size{W: 120 * mm, H: 170 * mm}, Spine: rule.Spine{Width: 25 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Fittings: []folio.Fitting{{Name: "corners", Kind: folio.Folded{Kind: pocket.Corners{Content: pocket.IDCard(), Leg: 20 * mm, Turn: 6 * mm}}}},
	})
	if err != nil {
		t.Fatal(err)
	}
	for f := range p.Fittings() {
		for _, q := range f.Pieces() {
			// 20 x 20 / 2 + 2 x 20 x 6 mm², less the ears that would stand past the
			// slant: half of 6 x 6 mm² at each end.
			want := (20 * mm).By(20 * mm / 2).Plus((40 * mm).By(6 * mm)).Minus((6 * mm).By(6 * mm))
			if got := q.Area(); got != want {
				t.Errorf("a corner has %v, want %v", got, want)
			}
			// Its outline is what is cut: as large, and within the square.
			if o := q.Outline(); o.Area(units.Nearest) != want || !o.Bounds().In(units.RectAt(units.Point{}, q.Size())) {
				t.Errorf("its outline has %v in %v", o.Area(units.Nearest), o.Bounds())
			}
		}
	}
}

// lent embeds a kind of package pocket without being one.
type lent struct{ pocket.Kind }

// What is folded may be given by a pointer too, and is kept as a value; anything
// else is one violation at its own field.
func TestFoldedKindsByPointer(t *testing.T) {
	slip := pocket.Slip{Content: pocket.IDCard()}
	s := arranged(folio.Fitting{Name: "x", Kind: folio.Folded{Kind: &slip}})
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	want, err := folio.Build(arranged(folio.Fitting{Name: "x", Kind: folio.Folded{Kind: slip}}))
	if err != nil {
		t.Fatal(err)
	}
	before := slip
	slip.Content.Size.W = 20 * mm
	_, a, _, _ := tellsOf(p)
	_, b, _, _ := tellsOf(want)
	if !slices.Equal(a, b) || p.Spec().Fittings[0].Kind != (folio.Folded{Kind: before}) {
		t.Errorf("a pointer makes another plan: %v, want %v", a, b)
	}
	w, h := p.AsMade()
	again, err := p.Refit(refit.Measured{Width: w.Length(), Height: h.Length()})
	if err != nil {
		t.Fatal(err)
	}
	if again.Spec().Fittings[0].Kind != (folio.Folded{Kind: before}) {
		t.Error("refitted it is what its owner wrote later")
	}
	for name, c := range map[string]struct {
		kind pocket.Kind
		code check.Code
	}{
		"nothing": {nil, check.Missing}, "a nil slip": {(*pocket.Slip)(nil), check.Unknown},
		"lent": {lent{slip}, check.Unknown}, "lent of nothing": {lent{}, check.Unknown}, "a pointer to such": {&lent{}, check.Unknown},
	} {
		for _, fitting := range []string{"", "x"} {
			_, err := folio.Build(arranged(folio.Fitting{Name: fitting, Kind: folio.Folded{Kind: c.kind}}))
			bad, ok := err.(*check.Error)
			if !ok || bad.Len() != 1 || !refusedWith(err, "fittings[0].kind.kind", c.code) {
				t.Errorf("%s: %v", name, err)
			}
			if (folio.Folded{Kind: c.kind}).String() == "" {
				t.Errorf("%s: has no name", name)
			}
		}
	}
}

// A paper with one good side is cut so that its good side is what one sees: folds
// that meet face to face bring the back out, so that a strip is cut with its
// wrong side up, and a pocket front that nothing turns with its right side up.
func TestTheGoodSideShows(t *testing.T) {
	card := pocket.IDCard()
	for _, c := range []struct {
		name, shows string
		kind        pocket.Kind
		cut         work.PaperSide
		both        bool
	}{
		{"slip", "front", pocket.Slip{Content: card}, work.RightSide, false},
		{"folded slip", "front", pocket.Slip{Content: card, Build: pocket.FoldedFoot}, work.WrongSide, true},
		{"strip", "flap", pocket.FoldedStrip{Content: card}, work.WrongSide, true},
		{"flap", "leaf", pocket.Flap{Content: card}, work.RightSide, true},
	} {
		for _, wrong := range []bool{false, true} {
			s := arranged(folio.Fitting{Name: c.name, Kind: folio.Folded{Kind: c.kind}, Stock: "printed", WrongSide: wrong})
			s.Stocks = append(s.Stocks, stock.Stock{Name: "printed", Caliper: mm / 5, TwoSided: wrong})
			p, err := folio.Build(s)
			if err != nil {
				t.Fatalf("%s: %v", c.name, err)
			}
			// A flap has two sides that are seen, one after the other.
			if got := warned(p, pocket.WrongSideShows); got != (!wrong && c.both) {
				t.Errorf("%s: warned %v that the wrong side shows", c.name, got)
			}
			cut, shown := c.cut, work.RightSide
			if wrong {
				cut, shown = cut.Other(), shown.Other()
			}
			for f := range p.Fittings() {
				for _, q := range f.Pieces() {
					if q.Up() != cut {
						t.Errorf("%s, wrong side wanted %v: cut with the %v up, want the %v", c.name, wrong, q.Up(), cut)
					}
				}
				d, _ := f.Design()
				var panels []string
				for _, q := range d.Panels() {
					panels = append(panels, q.Name())
				}
				seen := false
				for q := range f.Placed() {
					if i, ok := q.Panel(); ok && panels[i] == c.shows {
						seen = true
						if q.Up() != shown {
							t.Errorf("%s, wrong side wanted %v: the %s shows its %v", c.name, wrong, c.shows, q.Up())
						}
					}
				}
				if !seen {
					t.Errorf("%s: no %s among %v", c.name, c.shows, panels)
				}
			}
		}
	}
}

// A fitting may be called as a part of the case is called: every piece is cut as
// often as it is needed, and no more.
func TestFittingsNamedAsTheCase(t *testing.T) {
	for _, quarter := range []rule.QuarterRule{rule.QuarterNever, rule.QuarterAlways} {
		for _, lining := range []rule.LiningRule{rule.LiningOnePiece, rule.LiningPanels} {
			s := arranged(
				folio.Fitting{Name: "case", Kind: folio.Mat{Size: units.Size{W: 30 * mm, H: 30 * mm}}, Place: place.Place{Along: place.Head}},
				folio.Fitting{Name: "liner", Kind: folio.Folded{Kind: pocket.Slip{Content: pocket.IDCard()}}, Place: place.Place{Along: place.Tail}},
				folio.Fitting{Name: "wrap", Panel: boards.LeftCover, Kind: folio.Frame{Picture: content(units.Size{W: 40 * mm, H: 40 * mm})}},
			)
			s.Quarter.Rule, s.Lining.Rule = quarter, lining
			p, err := folio.Build(s)
			if err != nil {
				t.Fatal(err)
			}
			cut := map[int]int{}
			for step := range p.Steps() {
				for _, a := range step.Do {
					if c, ok := a.(work.Cut); ok {
						cut[c.What.Index] += c.Count
					}
				}
			}
			i := 0
			for q := range p.Pieces() {
				if cut[i] != q.Quantity() {
					t.Errorf("%v, %v: %d x %s of %s are needed, and %d cut", quarter, lining, q.Quantity(), q.Name(), q.Part(), cut[i])
				}
				i++
			}
		}
	}
}
