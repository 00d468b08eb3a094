package folio_test

import (
	"errors"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A picture of 80 x 120 mm with lap 3, rail 12, foam 6 wide, ease 2: opening 74
// x 114, outside 98 x 138, by hand for a mouth at each side. Wherever the
// picture slides in its room it covers the window, and no strip shows in it.
func TestFrameAtEachMouth(t *testing.T) {
	type box = [4]units.Length // left, head, right, tail, in mm
	for mouth, want := range map[score.Edge][3]box{
		score.Head:  {{2, 0, 8, 138}, {90, 0, 96, 138}, {8, 129, 90, 135}},
		score.Tail:  {{2, 0, 8, 138}, {90, 0, 96, 138}, {8, 3, 90, 9}},
		score.Left:  {{0, 2, 98, 8}, {0, 130, 98, 136}, {89, 8, 95, 130}},
		score.Right: {{0, 2, 98, 8}, {0, 130, 98, 136}, {3, 8, 9, 130}},
	} {
		plan, err := folio.Build(folio.Spec{
			Cover: units.Size{W: 150 * mm, H: 200 * mm}, Spine: rule.Spine{Width: 20 * mm},
			Rulers: rule.Rulers{Main: units.WholeMillimetres},
			Stocks: []stock.Stock{{Name: "film", Caliper: mm / 10}},
			Fittings: []folio.Fitting{{
				Place: place.Place{Across: place.Left, Along: place.Head},
				Kind: folio.Frame{
					Picture: content(units.Size{W: 80 * mm, H: 120 * mm}), Mouth: mouth, Film: "film",
					Lap: 3 * mm, Rail: 12 * mm, Foam: 2 * mm, FoamWidth: 6 * mm, Ease: 2 * mm,
				},
			}},
		})
		if err != nil {
			t.Fatal(mouth, err)
		}
		sizes := map[string]units.Size{}
		var window units.Rect
		for p := range plan.Pieces() {
			sizes[p.Name()] = p.Size()
			for o := range p.Openings() {
				window = o
			}
		}
		if sizes["frame"] != (units.Size{W: 98 * mm, H: 138 * mm}) || window.Size() != (units.Size{W: 74 * mm, H: 114 * mm}) ||
			sizes["window film"] != (units.Size{W: 80 * mm, H: 120 * mm}) {
			t.Errorf("%v: %v, window %v", mouth, sizes, window)
		}
		side, far := units.Size{W: 6 * mm, H: 138 * mm}, units.Size{W: 82 * mm, H: 6 * mm}
		if mouth == score.Left || mouth == score.Right {
			side, far = units.Size{W: 98 * mm, H: 6 * mm}, units.Size{W: 6 * mm, H: 122 * mm}
		}
		if sizes["side foam strip"] != side || sizes["far foam strip"] != far {
			t.Errorf("%v: strips %v and %v, want %v and %v", mouth, sizes["side foam strip"], sizes["far foam strip"], side, far)
		}
		// The film takes adhesive all round the window, and none in it.
		var glued units.Area
		film := units.RectAt(units.Point{}, sizes["window film"])
		for s := range plan.Steps() {
			for _, a := range s.Do {
				if fix, ok := a.(work.Fix); ok && fix.What.Name == "window film" {
					for _, area := range fix.Areas {
						glued = glued.Plus(area.Size().Area())
						if !area.In(film) || area.Overlaps(film.Grow(-3*mm)) {
							t.Errorf("%v: adhesive at %v on a film of %v", mouth, area, film.Size())
						}
					}
				}
			}
		}
		if want := film.Size().Area().Minus(window.Size().Area()); glued != want {
			t.Errorf("%v: the film takes adhesive on %v, want %v", mouth, glued, want)
		}
		for f := range plan.Fittings() {
			at := f.Rect().Min
			window := window.Moved(at)
			i := 0
			for s := range foamOf(f) {
				w := want[i]
				r := units.Rect{Min: units.Point{X: w[0] * mm, Y: w[1] * mm}, Max: units.Point{X: w[2] * mm, Y: w[3] * mm}}.Moved(at)
				if s != r {
					t.Errorf("%v: strip %d at %v, want %v", mouth, i, s, r)
				}
				if s.Overlaps(window) {
					t.Errorf("%v: strip %d shows in the window", mouth, i)
				}
				i++
			}
			if i != 3 {
				t.Errorf("%d strips", i)
			}
			for _, h := range f.Spots() {
				spare := h.Clear().Plus(-80*mm, -120*mm)
				for _, x := range []units.Length{0, spare.W} {
					for _, y := range []units.Length{0, spare.H} {
						pic := units.RectAt(h.Rect().Min.Plus(units.Point{X: x, Y: y}), units.Size{W: 80 * mm, H: 120 * mm})
						if !window.In(pic) {
							t.Errorf("%v: a picture at %v leaves part of the window %v bare", mouth, pic, window)
						}
						for s := range foamOf(f) {
							if s.Overlaps(pic) {
								t.Errorf("%v: a picture at %v lies on a strip", mouth, pic)
							}
						}
					}
				}
			}
		}
	}
}

// On a ruler of 8 mm a picture of 12 mm shows in an opening of 8, in a frame of 48 with rails of 20.
// With its ease 13 mm are free between the side strips, of which those of the far strip are on the
// ruler that go in there.
func TestFarStripOfANarrowFrame(t *testing.T) {
	coarse, err := units.NewRuler(8*mm, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	s := plainCase()
	s.Rulers.Fitting = coarse
	s.Fittings = []folio.Fitting{{Kind: folio.Frame{Picture: content(units.Size{W: 12 * mm, H: 60 * mm}), Lap: 2 * mm, Rail: 20 * mm, FoamWidth: 4 * mm, Ease: mm}}}
	for f := range mustBuild(t, s).Fittings() {
		strips := slices.Collect(foamOf(f))
		a, b, far := strips[0], strips[1], strips[2]
		if f.Rect().Size().W != 48*mm || b.Min.X-a.Max.X != 13*mm || far.Size().W != 8*mm || far.Min.X < a.Max.X || far.Max.X > b.Min.X {
			t.Errorf("strips at %v in a frame of %v", strips, f.Rect())
		}
	}
}

// A picture of 60 mm with an ease of 1.5 mm and a nanometre has strips of 5.75 mm beside it half
// a nanometre less than 4 mm from the edges of a frame of 81 mm: not so far on whole millimetres, and
// at 3 mm it would bare an opening of 57 mm where it is pushed to one of them.
func TestPictureBetweenItsStrips(t *testing.T) {
	s := plainCase()
	s.Fittings = []folio.Fitting{{Kind: folio.Frame{Picture: content(units.Size{W: 60 * mm, H: 80 * mm}), Lap: 3 * mm / 2, Rail: 12 * mm, FoamWidth: 23 * mm / 4, Ease: 3*mm/2 + 1}}}
	for f := range mustBuild(t, s).Fittings() {
		strips := slices.Collect(foamOf(f))
		from, to := strips[0].Max.X-f.Rect().Min.X, strips[1].Min.X-f.Rect().Min.X
		if f.Rect().Size().W != 81*mm || to-from < 123*mm/2+1 || to-60*mm > 12*mm || from+60*mm < 69*mm {
			t.Errorf("strips from %v to %v in a frame of %v", from, to, f.Rect())
		}
	}
}

// A frame by relation whose rails leave no opening is told narrower rails only where those lie over
// the foam: by hand (6 + 1)/2 + 5.9 mm, 10 on whole millimetres, which a bar of 19 mm has not. One
// With an ease of a nanometre more, 10 mm do no longer where the foam is 6.5 mm wide. One
// that is larger than its bar is told to take off more only where rails of 9.6 mm leave a
// millimetre of it, 21 and not 20 of them. Whatever is told does.
func TestRailsOfAFrameOnABar(t *testing.T) {
	for _, c := range []struct {
		bar, less, ease units.Length
		rail, foam      units.Length
		path            string
	}{
		{bar: 19 * mm, rail: 12 * mm, foam: 59 * mm / 10, path: "fittings[1].size.w"},
		{bar: 21 * mm, rail: 12 * mm, foam: 65 * mm / 10, ease: nm, path: "fittings[1].size.w"},
		{bar: 23 * mm, rail: 12 * mm, foam: 59 * mm / 10, path: "fittings[1].kind.rail"},
		{bar: 20 * mm, less: 10 * mm, rail: 96 * mm / 10, foam: 5 * mm, path: "fittings[1].size.w"},
		{bar: 21 * mm, less: 10 * mm, rail: 96 * mm / 10, foam: 5 * mm, path: "fittings[1].size.w.less"},
	} {
		s := plainCase()
		of := place.Relation{Of: place.OfGround}
		s.Fittings = []folio.Fitting{{Name: "bar", Kind: folio.Mat{Size: units.Size{W: c.bar, H: 120 * mm}}},
			{StandsOn: "bar", Size: place.Sizing{W: of, H: of}, Kind: folio.Frame{Picture: content(units.Size{}), Lap: 3 * mm, Rail: c.rail, FoamWidth: c.foam, Ease: mm + c.ease}}}
		if c.less > 0 {
			s.Fittings[1].Size.W = place.Relation{Of: place.OfPanel, Less: c.less}
		}
		v := only(builds(s))
		if v.Path != c.path {
			t.Errorf("%+v: %v", c, builds(s))
		}
		switch v.Path {
		case "fittings[1].kind.rail":
			fr := s.Fittings[1].Kind.(folio.Frame)
			fr.Rail = v.Limit
			s.Fittings[1].Kind = fr
		case "fittings[1].size.w.less":
			s.Fittings[1].Size.W.Less = v.Limit
		default:
			continue
		}
		if err := builds(s); err != nil {
			t.Errorf("%v, and then %v", v, err)
		}
	}
}

// What hands set at a frame is what the ruler shows, of any picture: the strips at the
// sides lie equally far from the frame's edges, with room between them for the picture
// and its ease; the far strip leaves the picture its lap there and at the mouth; wherever
// the picture is pushed to it covers the window; no strip reaches over the frame; and no
// strip could lie a step further in.
func TestStripsOfAFrame(t *testing.T) {
	r := rand.New(rand.NewSource(8))
	onRuler := 0
	for range 400 {
		ruler := []units.Ruler{units.Eighths, units.Sixteenths, units.ThirtySeconds, units.WholeMillimetres, units.HalfMillimetres}[r.Intn(5)]
		step := ruler.Step()
		steps := func(least, most units.Length) units.Length {
			return ruler.Up(least + units.Length(r.Int63n(int64(most-least))))
		}
		fr := folio.Frame{
			Picture: content(units.Size{W: 40*mm + units.Length(r.Int63n(int64(40*mm))), H: 40*mm + units.Length(r.Int63n(int64(60*mm)))}),
			Mouth:   []score.Edge{score.Head, score.Tail, score.Left, score.Right}[r.Intn(4)],
			Lap:     steps(mm/4, 5*mm), Rail: steps(14*mm, 20*mm), FoamWidth: steps(3*mm, 5*mm),
		}
		fr.Ease = 1 + units.Length(r.Int63n(int64(min(2*fr.Lap, 2*mm)-1)))
		odd := r.Intn(4) == 0 // a strip, taken as it is, that is no graduation
		if odd {
			fr.FoamWidth++
		}
		p, err := folio.Build(folio.Spec{
			Cover: units.Size{W: 200 * mm, H: 250 * mm}, Spine: rule.Spine{Width: 30 * mm}, Rulers: rule.Rulers{Main: ruler}, Fittings: []folio.Fitting{{Kind: fr}},
		})
		if err != nil {
			t.Fatal(err)
		}
		var window units.Rect
		for pc := range p.Pieces() {
			for o := range pc.Openings() {
				window = o
			}
		}
		for f := range p.Fittings() {
			var strips []units.Rect // as with the mouth at the head, from the frame's corner
			turn := func(r units.Rect) units.Rect {
				r = r.Moved(units.Point{X: -f.Rect().Min.X, Y: -f.Rect().Min.Y})
				size := f.Rect().Size()
				switch fr.Mouth {
				case score.Tail:
					r.Min.Y, r.Max.Y = size.H-r.Max.Y, size.H-r.Min.Y
				case score.Right:
					r.Min.X, r.Max.X = size.W-r.Max.X, size.W-r.Min.X
				}
				if fr.Mouth == score.Left || fr.Mouth == score.Right {
					r.Min.X, r.Min.Y, r.Max.X, r.Max.Y = r.Min.Y, r.Min.X, r.Max.Y, r.Max.X
				}
				return r
			}
			for s := range foamOf(f) {
				strips = append(strips, turn(s))
			}
			frame, window, pic := turn(f.Rect()), turn(window.Moved(f.Rect().Min)), fr.Picture.Size
			if fr.Mouth == score.Left || fr.Mouth == score.Right {
				pic.W, pic.H = pic.H, pic.W
			}
			a, b, far := strips[0], strips[1], strips[2]
			left, right, below := a.Min.X, frame.Max.X-b.Max.X, frame.Max.Y-far.Max.Y
			ease := b.Min.X - a.Max.X - pic.W
			if left != right && left+1 != right || left < 0 || below < 0 || ease < fr.Ease || far.Overlaps(a) || far.Overlaps(b) {
				t.Fatalf("%v, %+v: strips at %v in a frame of %v", ruler, fr, strips, frame)
			}
			if window.Min.X < b.Min.X-pic.W || window.Max.X > a.Max.X+pic.W || window.Max.Y > far.Min.Y || window.Min.Y < far.Min.Y-pic.H {
				t.Fatalf("%v, %+v: strips at %v bare the window %v", ruler, fr, strips, window)
			}
			fits := b.Min.X - a.Max.X - fr.Ease - pic.W // what it has more than its ease
			if ruler.Has(left) && fits >= 2*step {
				t.Fatalf("%v, %+v: %v more than asked for between the strips", ruler, fr, fits)
			}
			// Off the ruler only where a step outwards would let the picture bare the window.
			if out := ruler.Down(left); out != left && ease+2*(left-out) < pic.W-window.Size().W {
				t.Fatalf("%v, %+v: side strips %v from the edges", ruler, fr, left)
			}
			if lap := min(window.Min.Y-(far.Min.Y-pic.H), far.Min.Y-window.Max.Y); lap < fr.Lap || !odd && !ruler.Has(below) {
				t.Fatalf("%v, %+v: a lap of %v, the far strip %v from the edge", ruler, fr, lap, below)
			}
			for _, s := range []units.Length{far.Size().W, a.Size().H} {
				if !ruler.Has(s) {
					t.Fatalf("%v, %+v: a strip %v long", ruler, fr, s)
				}
			}
			if ruler.Has(left) && ruler.Has(below) {
				onRuler++
			}
		}
		for s := range p.Steps() {
			if said := s.Text(units.Format{}) + s.Text(units.Format{Ruler: ruler.Notation().Exact()}); ruler.Notation() != units.MetricDecimal && strings.Contains(said, "mm") {
				t.Fatalf("a plan in inches says: %s", said)
			}
		}
	}
	if onRuler < 200 {
		t.Errorf("only %d of 400 frames are on the ruler", onRuler)
	}
}

// A picture that is thicker than the usual foam is framed on the next one that is sold:
// 1/8 in after 1/16 in, 3 mm after 2 mm. What is thicker than that is refused, and a
// foam that is given stays.
func TestFoamTakesThePicture(t *testing.T) {
	for _, c := range []struct {
		ruler       units.Ruler
		thick, foam units.Length
		given       units.Length
		refused     bool
	}{
		{ruler: units.WholeMillimetres, thick: 2 * mm, foam: 2 * mm},
		{ruler: units.WholeMillimetres, thick: 2*mm + 1, foam: 3 * mm},
		{ruler: units.WholeMillimetres, thick: 3 * mm, foam: 3 * mm},
		{ruler: units.WholeMillimetres, thick: 3*mm + 1, refused: true},
		{ruler: units.WholeMillimetres, thick: 2*mm + 1, given: 2 * mm, refused: true},
		{ruler: units.WholeMillimetres, thick: 5 * mm, given: 5 * mm, foam: 5 * mm},
		{ruler: units.Sixteenths, thick: units.Inch / 16, foam: units.Inch / 16},
		{ruler: units.Sixteenths, thick: units.Inch/16 + 1, foam: units.Inch / 8},
		{ruler: units.Sixteenths, thick: units.Inch/8 + 1, refused: true},
	} {
		p, err := folio.Build(folio.Spec{
			Cover: units.Size{W: 8 * units.Inch, H: 10 * units.Inch}, Spine: rule.Spine{Width: units.Inch},
			Rulers:   rule.Rulers{Main: c.ruler},
			Fittings: []folio.Fitting{{Kind: folio.Frame{Picture: pocket.Content{Name: "medal", Size: units.Size{W: 3 * units.Inch, H: 3 * units.Inch}, Thickness: c.thick}, Foam: c.given}}},
		})
		var bad *check.Error
		if c.refused {
			if !errors.As(err, &bad) {
				t.Errorf("%+v is built", c)
			} else if _, is := bad.Find("fittings[0].kind.foam", folio.TooThin); !is {
				t.Errorf("%+v: %v", c, err)
			}
			continue
		}
		if err != nil {
			t.Errorf("%+v: %v", c, err)
			continue
		}
		strips := 0
		for piece := range p.Pieces() {
			if piece.Role() == stock.FoamPiece {
				strips += piece.Quantity()
				// Two frames on two foams are cut from two materials, told apart by name.
				if usual := c.foam == 2*mm || c.foam == units.Inch/16; (piece.Stock() == "foam") != usual || !usual && !strings.HasSuffix(piece.Stock(), " thick") {
					t.Errorf("%+v: cut from %q", c, piece.Stock())
				}
				if piece.Caliper() != c.foam {
					t.Errorf("%+v: %s is %v thick", c, piece.Name(), piece.Caliper())
				}
			}
		}
		if strips != 3 {
			t.Errorf("%+v: %d strips of foam", c, strips)
		}
	}
}

// One mistake about the foam is told once, where it is made, and not what would follow from
// it; doing what is told leads to a frame that the thing goes into.
func TestFoamOfAStock(t *testing.T) {
	frame := func(caliper, foam units.Length, name string) folio.Spec {
		return folio.Spec{
			Cover: units.Size{W: 152 * mm, H: 204 * mm}, Spine: rule.Spine{Width: 30 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
			Stocks: []stock.Stock{{Name: "thick foam", Caliper: caliper}},
			Fittings: []folio.Fitting{{Kind: folio.Frame{Foam: foam, FoamStock: name,
				Picture: pocket.Content{Name: "plate", Size: units.Size{W: 90 * mm, H: 130 * mm}, Thickness: 9 * mm}}}},
		}
	}
	for _, c := range []struct {
		about         string
		caliper, foam units.Length
		stock         string
		want          string // all that is said; empty means that it is built
	}{
		{"no caliper", 0, 0, "thick foam", "stocks[0].caliper: not-positive: got 0 mm; want a length from 0.01 mm to 10 m"},
		{"a caliper below 0", -mm, 0, "thick foam", "stocks[0].caliper: not-positive: got -1 mm; want a length from 0.01 mm to 10 m"},
		{"far too thick", 20_000 * mm, 0, "thick foam", "stocks[0].caliper: out-of-range: got 20000 mm; want a length from 0.01 mm to 10 m"},
		{"of another name", 9 * mm, 0, "foam", `fittings[0].kind.foamstock ("frame"): unknown: got "foam"; want the name of one of the stocks`},
		{"of another name, and a thickness", 9 * mm, 40 * mm, "felt", `fittings[0].kind.foamstock ("frame"): unknown: got "felt"; want the name of one of the stocks`},
		{"of two thicknesses, the one enough", 3 * mm, 40 * mm, "thick foam", `fittings[0].kind.foam ("frame"): conflict: got 40 mm of "thick foam"; want nothing, or its caliper of 3 mm`},
		{"of two thicknesses", 3 * mm, 2 * mm, "thick foam", `fittings[0].kind.foam ("frame"): conflict: got 2 mm of "thick foam"; want nothing, or its caliper of 3 mm`},
		{"too thin", 3 * mm, 0, "thick foam", `fittings[0].kind.foamstock ("frame"): too-thin: got "thick foam" of 3 mm; want a stock of at least 9 mm for the picture, or none and foam as thick`},
		{"such a stock", 9 * mm, 0, "thick foam", ""},
		{"none and foam as thick", 3 * mm, 9 * mm, "", ""},
		{"none", 3 * mm, 0, "", `fittings[0].kind.foam ("frame"): too-thin: got 3 mm; want at least 9 mm for the picture`},
	} {
		said := ""
		if _, err := folio.Build(frame(c.caliper, c.foam, c.stock)); err != nil {
			said = err.Error()
		}
		if said != c.want {
			t.Errorf("%s: %s\nwant %s", c.about, said, c.want)
		}
	}
}

// A side of a picture that leaves just a step of an opening is not told beside one that
// leaves none: 7 mm with laps of 3 mm, where the other side is too small for any lap.
func TestOneSideOfAnOpening(t *testing.T) {
	for _, tall := range []bool{false, true} {
		for over := range units.Length(2) {
			s := plainCase()
			framed(&s, func(fr *folio.Frame) {
				fr.Picture.Size = units.Size{W: 7*mm + over, H: mm}
				if tall {
					fr.Picture.Size = units.Size{W: mm, H: 7*mm + over}
				}
			})
			var bad *check.Error
			if !errors.As(builds(s), &bad) {
				t.Fatal(tall, over)
			}
			for v := range bad.All() {
				if narrow := strings.HasSuffix(v.Path, ".w"); narrow != tall || v.Code != folio.TooNarrow {
					t.Errorf("tall %v, %v: %v", tall, over, bad)
				}
			}
		}
	}
}
