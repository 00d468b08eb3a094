package folio_test

import (
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// workingsOf are the lengths of the workings of a plan with a label.
func workingsOf(p *folio.Plan, label string) (all []units.Length) {
	for w := range p.Workings() {
		if w.Label() == label {
			all = append(all, w.Length())
		}
	}
	return all
}

// How large the picture of a mat or a frame by relation may be is told with a working that
// comes to what it is: of the panel, 114 x 164 mm, less twice a margin of 10 mm, less twice the
// reveal of 3; or less twice the rails of 20 and with two laps of 3.
func TestPicturesByRelationAreTold(t *testing.T) {
	print := pocket.Content{Name: "print", Thickness: mm / 4}
	for label, c := range map[string]struct {
		kind folio.Kind
		want units.Size
	}{
		"picture ": {folio.Mat{Picture: print, Reveal: 3 * mm}, units.Size{W: 88 * mm, H: 138 * mm}},
		"picture":  {folio.Frame{Picture: print, Lap: 3 * mm, Rail: 20 * mm}, units.Size{W: 60 * mm, H: 110 * mm}},
	} {
		s := plainCase()
		s.Fittings = []folio.Fitting{{Kind: c.kind, Size: place.Filling(place.OfPanel, 10*mm)}}
		p := mustBuild(t, s)
		label = strings.TrimSpace(label)
		if w, h := workingsOf(p, label+" width"), workingsOf(p, label+" height"); len(w) != 1 || len(h) != 1 || w[0] != c.want.W || h[0] != c.want.H {
			t.Errorf("%v: workings of %v and %v, want %v", c.kind, w, h, c.want)
		}
		for f := range p.Fittings() {
			for _, spot := range f.Spots() {
				if made, _ := spot.Content(); made.Size != c.want {
					t.Errorf("%v for %v, want %v", c.kind, made.Size, c.want)
				}
			}
			if _, frame := c.kind.(folio.Frame); frame {
				for _, axis := range []string{"width", "height"} {
					left, made := workingsOf(p, "opening "+axis+" that the rails leave"), workingsOf(p, "frame opening "+axis)
					if len(left) != 1 || len(made) != 1 || left[0] != made[0] {
						t.Errorf("rails leave %v of %s, and the opening is %v", left, axis, made)
					}
				}
			}
		}
	}
}

// A mat without a picture has its proportions exactly where every length is a graduation: of
// 94 x 144 mm it takes 94 x 141, as 2 to 3, or 72 x 144, as 1 to 2.
func TestBareMatInProportion(t *testing.T) {
	for as, want := range map[place.Proportions]units.Size{{W: 2, H: 3}: {W: 94 * mm, H: 141 * mm}, {W: 1, H: 2}: {W: 72 * mm, H: 144 * mm}} {
		s := plainCase()
		s.Rulers.Fitting = everyNanometre
		size := place.Filling(place.OfPanel, 10*mm)
		size.Proportions = as
		s.Fittings = []folio.Fitting{{Kind: folio.Mat{}, Size: size}}
		for f := range mustBuild(t, s).Fittings() {
			if got := f.Rect().Size(); got != want {
				t.Errorf("%v: a mat of %v, want %v", as, got, want)
			}
		}
	}
}

// A lap that leaves no opening does not hide that the picture's edge would show with what lap
// there can be; and where no millimetre of ease is less than both laps, nor any lap greater,
// less ease is asked for as exactly as it takes.
func TestEaseOfSmallPictures(t *testing.T) {
	s := plainCase()
	framed(&s, func(fr *folio.Frame) { fr.Picture.Size.W, fr.Lap, fr.Ease, fr.Rail = 10*mm, 8*mm, 12*mm, 40*mm })
	if _, lap := refusal(s, "fittings[0].kind.lap", folio.TooWide); !lap {
		t.Errorf("a lap of 8 mm on a picture of 10: %v", builds(s))
	}
	if v, ease := refusal(s, "fittings[0].kind.ease", folio.TooWide); !ease || v.Limit != 8*mm {
		t.Errorf("an ease of 12 mm with a lap of 4.5 at most: %v", builds(s))
	}
	s = plainCase()
	framed(&s, func(fr *folio.Frame) {
		fr.Picture.Size.W, fr.Lap, fr.Ease = 1800*units.Micrometre, 400*units.Micrometre, mm
	})
	if v, ease := refusal(s, "fittings[0].kind.ease", folio.TooWide); !ease || v.Limit != 800*units.Micrometre-nm {
		t.Errorf("an ease of 1 mm with a lap of 0.4: %v", builds(s))
	}
}

// Strips that must lie off the ruler at the sides of a frame, lest the picture's edge show, do not
// make the far one lie off it: with laps of 2.7 mm and an ease of 5 the opening is 54 x 74 mm, the
// frame 78 x 98; at the sides the strips end (78 − 65) / 2 mm from its edge, at the far end
// 12 − 2.7, on the ruler 9.
func TestFarStripOnTheRuler(t *testing.T) {
	s := plainCase()
	framed(&s, func(fr *folio.Frame) { fr.Lap, fr.Ease = 2700*units.Micrometre, 5*mm })
	p := mustBuild(t, s)
	side, far := workingsOf(p, "side strip from the frame's edge"), workingsOf(p, "far strip from the frame's edge")
	if len(side) != 1 || len(far) != 1 || side[0] != mm/2 || far[0] != 3*mm {
		t.Errorf("strips of 6 mm begin %v and %v from the edge, want 0.5 and 3 mm", side, far)
	}
}

// Of sheets that leave as much in all the one is taken that leaves more at the ends, in whichever
// order they are told: side papers that cover 99 mm of a row 170 high, with 14 or 10 mm there.
func TestOrderOfSheetsOfSidePapers(t *testing.T) {
	a := stock.Sheet{Size: units.Size{W: 113 * mm, H: 190 * mm}, Grain: stock.GrainAlongHeight}
	b := stock.Sheet{Size: units.Size{W: 109 * mm, H: 194 * mm}, Grain: stock.GrainAlongHeight}
	for _, sheets := range [][]stock.Sheet{{a, b}, {b, a}} {
		s := plainCase()
		s.Quarter, s.SpineCovering = rule.Quarter{Rule: rule.QuarterAlways, Reach: 24 * mm, Lap: 3 * mm}, stock.Stock{Name: "cloth", Caliper: mm / 5}
		s.Covering.Sheets = sheets
		w := mustBuild(t, s).Wrap()
		if ends, along := w.Across().Smaller(), w.Along().Smaller(); ends != 14*mm || along != 10*mm {
			t.Errorf("%v: margins of %v at the ends, %v at head and tail", sheets, ends, along)
		}
	}
}

// A small cover has narrower margins whichever of its sides is the small one.
func TestMarginsOfANarrowCover(t *testing.T) {
	low, narrow := metric(), metric()
	low.Cover.H = 37 * mm
	narrow.Cover, narrow.Spine.Width, narrow.Hinge.Width = units.Size{W: 10 * mm, H: 170 * mm}, 5*mm, 6*mm
	a, b := mustBuild(t, low).Wrap().Across().Smaller(), mustBuild(t, narrow).Wrap().Across().Smaller()
	if usual := mustBuild(t, metric()).Wrap().Across().Smaller(); a != b || a >= usual {
		t.Errorf("margins of %v and %v, usually %v", a, b, usual)
	}
}

// A row whose spine has a width of its own has no other spine to be told of.
func TestNoSpineIsWorkedOutForNothing(t *testing.T) {
	s := plainCase()
	s.Form, s.Row, s.Spine = boards.OwnRow, boards.SpineBoard.Row(), rule.Spine{}
	s.Row.Boards[1].Rule, s.Row.Boards[1].Width = boards.WidthFixed, 20*mm
	p := mustBuild(t, s)
	if all := workingsOf(p, "spine width"); len(all) > 1 || len(all) == 1 && all[0] != 20*mm {
		t.Errorf("spines of %v", all)
	}
}

// What an open cover too long, or a block too thin for its spine board, is refused for would do.
func TestWhatWouldDoForTooLongARow(t *testing.T) {
	// 0.02 mm and two boards are half a millimetre less than nothing.
	s := plainCase()
	s.Board.Caliper, s.Spine = mm/5, rule.Spine{Contents: mm / 50, Rule: rule.SpineBlockAndBoardsLess}
	if v, ok := refusal(s, "spine.contents", check.TooSmall); !ok || v.Limit != 110*units.Micrometre {
		t.Errorf("%v", builds(s))
	}
	// No board is as wide as the cover, so that no smaller one would do.
	s = plainCase()
	s.Form, s.Spine, s.Row = boards.OwnRow, rule.Spine{}, boards.ThreePanels.Row()
	s.Cover.W = 9 * units.Metre
	s.Spine.Contents = 5 * mm
	for i := range s.Row.Boards {
		if s.Row.Boards[i].Role.Spine() {
			continue
		}
		s.Row.Boards[i].Rule, s.Row.Boards[i].Width = boards.WidthFixed, 4*units.Metre
	}
	if v, ok := refusal(s, "cover.w", check.TooLarge); !ok || v.Bound != check.NoBound {
		t.Errorf("%v", builds(s))
	}
	// Coverings that leave a length to the cover, or less than one on the ruler.
	for step, limit := range map[units.Length]units.Length{nm: units.Shortest, 7 * units.Micrometre: 0} {
		s = plainCase()
		s.Covering.Caliper, s.Cover.H = 5*units.Metre-units.Shortest/2, 21*units.Micrometre
		s.Rulers.Board, _ = units.NewRuler(step, units.MetricDecimal)
		v, ok := refusal(s, "cover.h", check.TooLarge)
		if !ok || v.Limit != limit || (limit == 0) != (v.Bound == check.NoBound) {
			t.Errorf("on a ruler of %v: %v", step, builds(s))
		}
	}
	// With the smallest boards, of 0.01 mm, and no covering at all the row is as long as can be, so
	// that the covering alone is not to blame.
	s = plainCase()
	s.Placing = (units.Longest - 37*mm - 2*units.Shortest) / 2
	if _, ok := refusal(s, "covering.caliper", check.TooLarge); ok {
		t.Errorf("%v", builds(s))
	}
	if _, ok := refusal(s, "placing", check.TooLarge); !ok {
		t.Errorf("%v", builds(s))
	}
}

// A stiffener goes into a soft spine only, and where the gap leaves something beside what it keeps
// off the covers.
func TestStiffenerGoesIntoASoftSpine(t *testing.T) {
	for form := boards.Form(0); form.Known(); form++ {
		s := plainCase()
		s.Form, s.Hinge, s.Spine = form, rule.Hinge{}, rule.Spine{Contents: 10 * mm, Stiffener: "card"}
		if form == boards.OwnRow {
			s.Row = boards.ThreePanels.Row()
		}
		if _, ok := refusal(s, "spine.stiffener", check.Conflict); ok == (form == boards.SoftSpine) {
			t.Errorf("%v: %v", form, builds(s))
		}
	}
	// The gap goes round the contents, two boards of 2 mm and two liners of 0.1: 4.7, 9.2 and 10.2
	// mm, 5, 10 and 15 on the ruler, on which it keeps 5 mm off either cover.
	s := plainCase()
	s.Form, s.Hinge = boards.SoftSpine, rule.Hinge{}
	s.Rulers.Gap, _ = units.NewRuler(5*mm, units.MetricDecimal)
	for contents, refused := range map[units.Length]bool{mm / 2: true, 5 * mm: true, 6 * mm: false} {
		s.Spine = rule.Spine{Contents: contents, Stiffener: "card"}
		v, ok := refusal(s, "spine.stiffener", folio.TooNarrow)
		if ok != refused || ok && (!strings.HasPrefix(v.Got, "0 mm between") || v.Nature != check.Impossible) {
			t.Errorf("contents of %v: %v", contents, builds(s))
		}
	}
}

// What would have to be taken off less, or added, for a side by relation to be there at all: of
// another fitting on the left cover, so wide. The least is a step of the ruler, 1 mm, or what
// rails of 12 mm leave it of.
func TestWhatWouldDoForASideThatIsNot(t *testing.T) {
	um := units.Micrometre
	mat, print := folio.Mat{Size: units.Size{H: 20 * mm}}, pocket.Content{Name: "print", Size: units.Size{H: 40 * mm}}
	rel := func(r place.Relation) place.Relation {
		r.Of, r.Fitting = place.OfFitting, "small"
		return r
	}
	for name, c := range map[string]struct {
		wide  units.Length
		kind  folio.Kind
		w     place.Relation
		ruler units.Ruler
		path  string
		limit units.Length
		want  string
	}{
		"a third of it":            {mm / 2, mat, place.Relation{Shares: 3}, 0, ".size.w.more", 2500 * um, "at least 2.5 mm"},
		"twice a margin of it":     {mm / 2, mat, place.Relation{Margin: mm}, 0, ".size.w.more", 2500 * um, "at least 2.5 mm"},
		"a third of it, and less":  {mm / 2, mat, place.Relation{Shares: 3, Less: mm / 10}, 0, ".size.w", 0, "at least 3.1 mm, or nothing is left for the it"},
		"no more than is given":    {10 * mm, mat, place.Relation{Less: 9500 * um}, 0, ".size.w.less", 9 * mm, "at most 9 mm"},
		"no more, every nanometre": {10 * mm, mat, place.Relation{Less: 9995 * um}, everyNanometre, ".size.w.less", 9990 * um, "at most 9.99 mm"},
		"more than is given":       {10 * mm, mat, place.Relation{Margin: 4800 * um}, 0, ".size.w.margin", 4500 * um, "at most 4.5 mm"},
		"a reveal of all":          {30 * um, folio.Mat{Picture: print, Reveal: 20 * um}, place.Relation{}, everyNanometre, ".kind.reveal", 10 * um, "at most 0.01 mm"},
		"a reveal of more than is": {20 * um, folio.Mat{Picture: print, Reveal: 20 * um}, place.Relation{}, everyNanometre, ".size.w.more", 30 * um, "at least 0.03 mm"},
	} {
		s := plainCase()
		c.w = rel(c.w)
		if c.ruler != 0 {
			s.Rulers.Fitting = c.ruler
		} else if c.wide%mm != 0 {
			s.Rulers.Fitting = units.WholeMillimetres
		}
		small := folio.Fitting{Name: "small", Panel: boards.LeftCover, Kind: folio.Ornament{Size: units.Size{W: c.wide, H: 20 * mm}, Thickness: mm}}
		s.Fittings = []folio.Fitting{small, {Name: "it", Kind: c.kind, Size: place.Sizing{W: c.w}}}
		v, ok := refusal(s, "fittings[1]"+c.path, folio.TooWide)
		if !ok || v.Limit != c.limit || !strings.HasPrefix(v.Want, c.want) {
			t.Errorf("%s: %+v: %v", name, v, builds(s))
		}
		if v.Bound == check.NoBound && !strings.HasPrefix(v.Got, "0.5 mm of ") {
			t.Errorf("%s: got %s", name, v.Got)
		}
	}
	// On a mat 20 mm wide there is no room for rails of 12, whatever is taken off less.
	s := plainCase()
	framed(&s, func(fr *folio.Frame) { fr.Picture.Size.W = 0 })
	s.Fittings[0].StandsOn, s.Fittings[0].Size.W = "mat", place.Relation{Of: place.OfGround, Less: 20 * mm}
	ground := folio.Fitting{Name: "mat", Kind: folio.Mat{Size: units.Size{W: 20 * mm, H: 120 * mm}}}
	s.Fittings = []folio.Fitting{ground, s.Fittings[0]}
	v, ok := refusal(s, "fittings[1].size.w", folio.TooWide)
	if !ok || v.Got != "20 mm where it lies" || v.Want != "at least 25 mm, or nothing is left for the frame" {
		t.Errorf("%+v: %v", v, builds(s))
	}
	// Proportions that make a side longer than any.
	for _, c := range []struct {
		w, h place.Relation
		p    place.Proportions
	}{{place.By(place.OfPanel), place.Relation{}, place.Proportions{W: 1, H: 1000}}, {place.Relation{}, place.By(place.OfPanel), place.Proportions{W: 1000, H: 1}}} {
		s := plainCase()
		s.Fittings = []folio.Fitting{{Kind: folio.Mat{}, Size: place.Sizing{W: c.w, H: c.h, Proportions: c.p}}}
		said := "1 to 1000, which makes "
		if c.p.H == 1 {
			said = "1000 to 1, which makes "
		}
		if v, ok := refusal(s, "fittings[0].size.proportions", check.OutOfRange); !ok || !strings.HasPrefix(v.Got, said) {
			t.Errorf("%v: %v", c.p, builds(s))
		}
	}
}

// The box round the closed plain case is as high as its boards of 170 mm with the covering of
// 0.2 round both edges, and less wide than high: a cover of 120 mm, its hinge and its spine.
func TestOverallSize(t *testing.T) {
	o, ok := mustBuild(t, plainCase()).Overall(false)
	if size := o.Size(); !ok || size.H != 170400*units.Micrometre || size.W != o.Width().Length() || size.H != o.Height().Length() || size.W < 120*mm || size.W > 140*mm {
		t.Errorf("%v by %v, %v", o.Width(), o.Height(), size)
	}
}

// A spine strip is glued to both covers, a side paper to one; and a sheet too small for what a
// fitting is made of is told with the fitting's name.
func TestWhoseItIs(t *testing.T) {
	s := plainCase()
	s.Quarter.Rule = rule.QuarterAlways
	var on [][2]int
	for w := range mustBuild(t, s).Wrap().Pieces() {
		first, last := w.Boards()
		on = append(on, [2]int{first, last})
	}
	if want := [][2]int{{0, 2}, {0, 0}, {2, 2}}; !slices.Equal(on, want) {
		t.Errorf("on boards %v, want %v", on, want)
	}
	s = plainCase()
	s.Stocks[0].Sheets = sheetOf(20*mm, 20*mm)
	s.Fittings = []folio.Fitting{{Name: "pass", Stock: "card", Kind: folio.Folded{Kind: pocket.Slip{Content: pocket.IDCard()}}}}
	if v, ok := refusal(s, "stocks[0].sheets", folio.SheetSmall); !ok || v.Of != "pass" {
		t.Errorf("of %q: %v", v.Of, builds(s))
	}
}
