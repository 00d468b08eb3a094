package fit_test

import (
	"context"
	"math/rand/v2"
	"slices"
	"strconv"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// small is a random folio of a few centimetres, on whole millimetres, about so wide
// and high, with ornaments on its panels and its spines.
func small(r *rand.Rand, w, h int) folio.Spec {
	forms := []boards.Form{boards.SpineBoard, boards.SpineBoard, boards.SoftSpine, boards.DoubleSpineGate, boards.ForeEdgeFlap,
		boards.SoftGate, boards.ThreePanels, boards.TwoFlaps, boards.FourPanelZ}
	s := folio.Spec{
		Form: forms[r.IntN(len(forms))], Cover: units.Size{W: units.Length(w+r.IntN(w/2)) * mm, H: units.Length(h+r.IntN(h/2)) * mm},
		Spine:  rule.Spine{Width: units.Length(14+r.IntN(5)) * mm},
		Rulers: rule.Rulers{Main: units.WholeMillimetres}, Board: stock.Stock{Caliper: mm}, Covering: stock.Stock{Caliper: mm / 4}, Liner: stock.Stock{Caliper: mm / 8},
		Margin: rule.Margin{Ideal: 7 * mm, Least: 6 * mm, Tolerated: 6 * mm}, Lining: rule.Lining{Inset: 2 * mm}, Hinge: rule.Hinge{Width: 2 * mm},
	}
	switch s.Form {
	case boards.SoftSpine:
		s.Hinge = rule.Hinge{}
		s.Spine = rule.Spine{Contents: units.Length(8+r.IntN(5)) * mm}
	case boards.FourPanelZ:
		s.Hinge = rule.Hinge{}
		s.Spine = rule.Spine{Contents: units.Length(4+r.IntN(5)) * mm}
	case boards.SoftGate:
		s.Hinge = rule.Hinge{}
		s.Spine = rule.Spine{Contents: units.Length(4+r.IntN(5)) * mm}
		s.Cover.W *= 2
		s.DoorGap = mm
	case boards.DoubleSpineGate:
		s.Cover.W *= 2
		s.DoorGap = mm
	case boards.TwoFlaps, boards.ThreePanels:
		s.Hinge = rule.Hinge{Rule: rule.HingeLeast}
		s.Closing.UnderFlap = units.Length(2+r.IntN(6)) * mm
	case boards.ForeEdgeFlap:
		s.Closing.UnderFlap = units.Length(2+r.IntN(6)) * mm
	}
	roles := s.Form.Roles()
	for i := range r.IntN(6) {
		f := folio.Fitting{
			Panel: roles[r.IntN(len(roles))], Name: strconv.Itoa(i), Outside: r.IntN(5) == 0,
			Kind:  folio.Ornament{Size: units.Size{W: units.Length(3+r.IntN(14)) * mm, H: units.Length(3+r.IntN(12)) * mm}, Thickness: units.Length(300+r.IntN(4000)) * units.Micrometre},
			Place: place.Place{Across: place.Left, Along: place.Head, Offset: units.Point{X: units.Length(r.IntN(24)) * mm, Y: units.Length(r.IntN(18)) * mm}},
		}
		if r.IntN(4) == 0 && !f.Outside { // nothing that is tried is so small that it goes on it
			f.Kind = folio.Mat{Picture: pocket.Content{Size: units.Size{W: 3 * mm, H: 3 * mm}, Thickness: units.Length(r.IntN(4000)) * units.Micrometre}}
		}
		if f.Panel.Spine() {
			f.Kind = folio.Ornament{Size: units.Size{W: units.Length(2+r.IntN(6)) * mm, H: units.Length(3+r.IntN(12)) * mm}, Thickness: units.Length(500+r.IntN(9000)) * units.Micrometre}
			if r.IntN(4) == 0 {
				f.Kind = folio.Mat{Picture: pocket.Content{Size: units.Size{W: 3 * mm, H: 3 * mm}, Thickness: units.Length(500+r.IntN(9000)) * units.Micrometre}}
			}
			f.Place.Offset.X = units.Length(r.IntN(4)) * mm
		}
		with := s
		with.Fittings = append(slices.Clip(s.Fittings), f)
		if p, err := folio.Build(with); err == nil && eased(p) {
			s = with
		}
	}
	return s
}

// eased reports whether a plan closes with its ease wherever anything meets.
func eased(p *folio.Plan) bool {
	for m := closing.BetweenCovers; m <= closing.BetweenOutsides; m++ {
		if t, ok := p.TightestOf(m, true); ok && !t.Eased() {
			return false
		}
	}
	return true
}

// trial is a content that goes into a small folio or just does not.
func trial(r *rand.Rand) pocket.Content {
	return pocket.Content{
		Size:      units.Size{W: units.Length(4+r.IntN(13)) * mm, H: units.Length(4+r.IntN(11)) * mm},
		Thickness: units.Length(300+r.IntN(8000)) * units.Micrometre,
	}
}

// offRuler is a content that is a little smaller, now and then.
func offRuler(r *rand.Rand, c pocket.Content) pocket.Content {
	if r.IntN(2) == 0 {
		c.Size = c.Size.Plus(-units.Length(r.IntN(999_999)), -units.Length(r.IntN(999_999)))
	}
	return c
}

// mat is the size of a mat for a picture, with 3 mm all round or up to the next
// millimetre, and how far in the middle of it the picture lies.
func mat(picture units.Size) (units.Size, units.Point) {
	m := picture.Grow(3 * mm)
	m = units.Size{W: units.WholeMillimetres.Up(m.W), H: units.WholeMillimetres.Up(m.H)}
	return m, units.Point{X: (m.W - picture.W) / 2, Y: (m.H - picture.H) / 2}
}

// laid is the mat of one's own for a way in which a content lies on a panel.
func laid(p *folio.Plan, w fit.Berth) folio.Fitting {
	area, _ := p.Panel(w.Room().Panel(), false)
	_, in := mat(w.Content().Size)
	return matted(w.Content(), w.Room().Panel(), units.Point{X: w.Rect().Min.X - in.X - area.Min.X, Y: w.Rect().Min.Y - in.Y - area.Min.Y})
}

// matted is the mat of one's own with a content, at a place of a panel.
func matted(c pocket.Content, panel boards.Role, at units.Point) folio.Fitting {
	return folio.Fitting{Panel: panel, Kind: folio.Mat{Picture: c}, Place: place.Place{Across: place.Left, Along: place.Head, Offset: at}}
}

// places lists every place on the panel, millimetre by millimetre, at which a mat
// with the content builds and the folio closes with its ease.
func places(s folio.Spec, p *folio.Plan, c pocket.Content, panel boards.Role, one bool) []units.Point {
	var out []units.Point
	area, _ := p.Panel(panel, false)
	for _, c := range []pocket.Content{c, c.Turned()} {
		mat, _ := mat(c.Size)
		for x := units.Length(0); x+mat.W <= area.Size().W; x += mm {
			for y := units.Length(0); y+mat.H <= area.Size().H; y += mm {
				with := s
				with.Fittings = append(slices.Clip(s.Fittings), matted(c, panel, units.Point{X: x, Y: y}))
				if q, err := folio.Build(with); err == nil && eased(q) {
					if out = append(out, units.Point{X: x, Y: y}); one {
						return out
					}
				}
			}
		}
	}
	return out
}

// A place is found exactly where there is one: building the folio with a mat at
// every millimetre is the judge, over all forms, beside what lies there, what
// faces it and what stands on the spines.
func placesByGrid(t *testing.T, cases int) {
	r := rand.New(rand.NewPCG(uint64(proptest.Seed()), 10))
	found, not := 0, 0
	for trials := range cases {
		s := small(r, 30, 24)
		p, err := folio.Build(s)
		if err != nil {
			t.Fatal(err)
		}
		c := offRuler(r, trial(r))
		survey := fit.Of(p)
		for b := range p.Boards() {
			if b.Role().Spine() {
				continue
			}
			want := len(places(s, p, c, b.Role(), true)) > 0
			got := false
			for i, room := range survey.Rooms() {
				if room.Kind() != fit.OnPanel || room.Panel() != b.Role() {
					continue
				}
				way, ok := survey.Takes(i, c)
				if got = ok; !ok {
					continue
				}
				// Its place does.
				with := s
				with.Fittings = append(slices.Clip(s.Fittings), laid(p, way))
				if q, err := folio.Build(with); err != nil || !eased(q) {
					t.Fatalf("trial %d, %v on the %v at %v: %v\n%+v", trials, c, b.Role(), way.Rect(), err, s)
				}
			}
			// Between the millimetres there may be a place too, never the other way
			// round.
			if want && !got {
				t.Fatalf("trial %d, %v: there is a place for %v on the %v: %v, taken %v\n%+v", trials, s.Form, c, b.Role(), places(s, p, c, b.Role(), true), got, s)
			}
			if got {
				found++
			} else {
				not++
			}
		}
	}
	t.Logf("%d places found, %d not", found, not)
	if found < cases/2 || not < cases/4 {
		t.Errorf("lopsided: %d found, %d not", found, not)
	}
}

func TestEveryPlaceByGrid(t *testing.T) { placesByGrid(t, proptest.Cases(80)) }

// Two contents find their rooms together exactly when laying both at every
// millimetre of two panels builds a folio that closes with its ease.
func pairsByGrid(t *testing.T, cases int) {
	held, not, apart := 0, 0, 0
	for trials := range cases {
		r := rand.New(rand.NewPCG(uint64(proptest.Seed()), uint64(trials)))
		s := small(r, 22, 20)
		for s.Form != boards.SpineBoard && s.Form != boards.SoftSpine && s.Form != boards.ForeEdgeFlap { // more panels take too long here
			s = small(r, 22, 20)
		}
		p, err := folio.Build(s)
		if err != nil {
			t.Fatal(err)
		}
		one, two := offRuler(r, trial(r)), offRuler(r, trial(r))
		panels := []boards.Role{boards.LeftCover, boards.RightCover}
		if s.Form == boards.ForeEdgeFlap {
			panels = append(panels, boards.Flap)
		}
		alone := true // each by itself
		want := false
		for i, a := range panels {
			for j, b := range panels {
				if i == j || want || len(places(s, p, two, b, true)) == 0 { // which the other makes no better
					continue
				}
				for _, turned := range []bool{false, true} {
					c := one
					if turned {
						c = one.Turned()
					}
					for _, at := range places(s, p, c, a, false) {
						with := s
						with.Fittings = append(slices.Clip(s.Fittings), matted(c, a, at))
						q, err := folio.Build(with)
						if err != nil || !eased(q) {
							continue // a place of the turned one
						}
						if want = len(places(with, q, two, b, true)) > 0; want {
							break
						}
					}
					if want {
						break
					}
				}
			}
		}
		ways, err := fit.Of(p).All(context.Background(), fit.Budget{}, one, two)
		for _, c := range []pocket.Content{one, two} {
			_, err := fit.Of(p).All(context.Background(), fit.Budget{}, c)
			alone = alone && err == nil
		}
		if err == nil {
			with := s
			for _, w := range ways {
				with.Fittings = append(slices.Clip(with.Fittings), laid(p, w))
			}
			if q, err := folio.Build(with); err != nil || !eased(q) {
				t.Fatalf("trial %d: %v and %v at %v and %v: %v\n%+v", trials, one, two, ways[0].Rect(), ways[1].Rect(), err, s)
			}
			held++
			continue
		}
		if !refusedWith(err, "contents", fit.NotHeld) {
			t.Fatal(err)
		}
		if want {
			t.Fatalf("trial %d, %v: %v and %v do find places: %v\n%+v", trials, s.Form, one, two, err, s)
		}
		if not++; alone {
			apart++
		}
	}
	t.Logf("%d held, %d not, %d of them though each alone is", held, not, apart)
	if cases >= 20 && (held < cases/4 || not < cases/4 || apart < cases/20) { // fewer say nothing
		t.Errorf("lopsided: %d held, %d not, %d of them though each alone is", held, not, apart)
	}
}

func TestPairsByGrid(t *testing.T) { pairsByGrid(t, proptest.Cases(100)) }

// The smallest folio for two contents, and what else is in it, is the one that
// trying every cover, every spine and every place on a coarse ruler finds.
func smallestByExhaustion(t *testing.T, cases int) {
	r := rand.New(rand.NewPCG(uint64(proptest.Seed()), 10))
	ruler, err := units.NewRuler(2*mm, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	tried := 0
	for trials := range cases {
		s := folio.Spec{
			Rulers: rule.Rulers{Main: units.WholeMillimetres, Board: ruler}, Board: stock.Stock{Caliper: mm}, Covering: stock.Stock{Caliper: mm / 4}, Liner: stock.Stock{Caliper: mm / 8},
			Margin: rule.Margin{Ideal: 7 * mm, Least: 6 * mm, Tolerated: 6 * mm}, Lining: rule.Lining{Inset: 2 * mm}, Hinge: rule.Hinge{Width: 2 * mm},
		}
		if r.IntN(2) == 0 {
			s.Fittings = []folio.Fitting{{Name: "medal", Panel: boards.LeftCover, Place: place.Place{Across: place.Right, Along: place.Head},
				Kind: folio.Ornament{Size: units.Size{W: units.Length(3+r.IntN(6)) * mm, H: units.Length(3+r.IntN(6)) * mm}, Thickness: units.Length(1+r.IntN(4)) * mm}}}
		}
		one, two := trial(r), trial(r)
		with := func(w, h, spine int) folio.Spec {
			out := s
			out.Cover = units.Size{W: 2 * mm * units.Length(w), H: 2 * mm * units.Length(h)}
			out.Spine.Width = 2 * mm * units.Length(spine)
			return out
		}
		// Both find places in a cover with a spine, one on each panel.
		goes := func(s folio.Spec) bool {
			p, err := folio.Build(s)
			if err != nil || !eased(p) {
				return false
			}
			for _, panels := range [][2]boards.Role{{boards.LeftCover, boards.RightCover}, {boards.RightCover, boards.LeftCover}} {
				if len(places(s, p, two, panels[1], true)) == 0 { // which the other makes no better
					continue
				}
				for _, c := range []pocket.Content{one, one.Turned()} {
					for _, at := range places(s, p, c, panels[0], false) {
						laid := s
						laid.Fittings = append(slices.Clip(s.Fittings), matted(c, panels[0], at))
						if q, err := folio.Build(laid); err == nil && eased(q) && len(places(laid, q, two, panels[1], true)) > 0 {
							return true
						}
					}
				}
			}
			return false
		}
		least, err := fit.Smallest(context.Background(), s, fit.Budget{}, one, two)
		if err != nil || !least.Complete() {
			t.Fatalf("trial %d: %v, complete %v", trials, err, least.Complete())
		}
		const roomy = 40
		bestW, bestH := 0, 0
		for w := 1; w <= 26; w++ {
			for h := 1; h <= 26; h++ {
				if bestW > 0 && (w*h > bestW*bestH || w*h == bestW*bestH && w >= bestW) {
					continue
				}
				if goes(with(w, h, roomy)) {
					bestW, bestH = w, h
				}
			}
		}
		if bestW == 0 {
			continue
		}
		spine := 1
		for !goes(with(bestW, bestH, spine)) {
			spine++
		}
		want := with(bestW, bestH, spine)
		if got := least.Plan().Spec(); got.Cover != want.Cover || got.Spine.Width != want.Spine.Width {
			t.Fatalf("trial %d, %v and %v: cover %v, spine %v; by trying everything %v and %v\n%+v", trials, one, two,
				got.Cover, got.Spine.Width, want.Cover, want.Spine.Width, s.Fittings)
		}
		tried++
	}
	if tried < cases*3/4 {
		t.Errorf("only %d trials came to anything", tried)
	}
}

func TestSmallestForContentsByExhaustion(t *testing.T) {
	smallestByExhaustion(t, proptest.Cases(14))
}

// Beside what stands up on the spine there is less room, and the less where turn-ins
// lie on the panel there: a mat as large as the panel takes a picture as thick as building
// says, to a tenth of a millimetre, on either side.
func TestBesideTheSpineByGrid(t *testing.T) {
	const high = 20
	s := folio.Spec{
		Cover: units.Size{W: 26 * mm, H: (high + 4) * mm}, Spine: rule.Spine{Width: 18 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Board: stock.Stock{Caliper: mm}, Covering: stock.Stock{Caliper: mm / 4}, Liner: stock.Stock{Caliper: mm / 8},
		Margin: rule.Margin{Ideal: 7 * mm, Least: 6 * mm, Tolerated: 6 * mm}, Lining: rule.Lining{Inset: 2 * mm}, Hinge: rule.Hinge{Width: 2 * mm},
	}
	label := folio.Fitting{Panel: boards.Spine1, Kind: folio.Ornament{Size: units.Size{W: 8 * mm, H: high * mm}, Thickness: 12 * mm}}
	picture := folio.Fitting{Panel: boards.Spine1, Kind: folio.Mat{Picture: pocket.Content{Size: units.Size{W: 7 * mm, H: 14 * mm}, Thickness: 12 * mm}}}
	coin := folio.Fitting{Panel: boards.LeftCover, Outside: true, Kind: folio.Ornament{Size: units.Size{W: 8 * mm, H: high * mm}, Thickness: mm}, Place: place.Place{Across: place.Right}}
	for name, all := range map[string][]folio.Fitting{"a label": {label}, "a picture": {picture}, "a coin outside": {label, coin}} {
		with := s
		with.Fittings = all
		p, err := folio.Build(with)
		if err != nil || !eased(p) {
			t.Fatal(name, err)
		}
		survey := fit.Of(p)
		for i, room := range survey.Rooms() {
			if room.Kind() != fit.OnPanel {
				continue
			}
			taken, not := 0, 0
			for thick := units.Length(0); thick < 6*mm; thick += mm / 10 {
				c := pocket.Content{Size: units.Size{W: 16 * mm, H: (high - 6) * mm}, Thickness: thick}
				want := len(places(with, p, c, room.Panel(), true)) > 0
				if _, got := survey.Takes(i, c); got != want {
					t.Errorf("%s: %v on the %v: taken %t, a place %t", name, thick, room.Panel(), got, want)
				}
				if want {
					taken++
				} else {
					not++
				}
			}
			if taken == 0 || not == 0 {
				t.Errorf("%s: on the %v %d are taken, %d not", name, room.Panel(), taken, not)
			}
		}
	}
}
