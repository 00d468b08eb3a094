package folio_test

import (
	"math"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// all are rulers of one kind for every role.
func all(r units.Ruler) rule.Rulers {
	return rule.Rulers{Main: r, Board: r, Gap: r, Wrap: r, Liner: r, Fitting: r}
}

// A side paper covers four fifths of its board, a lap and a margin; a strip goes over
// its zone and two fifths: neither is below that, nor a nanometre above for each
// fifth. A reach that is given is put up on the ruler.
func TestQuarterToTheNanometre(t *testing.T) {
	for k := range units.Length(5) {
		s := unruledCase(int(k))
		s.Rulers, s.Quarter = all(everyNanometre), rule.Quarter{Rule: rule.QuarterAlways, Lap: 3*mm + k}
		s.Cover.W = 120*mm + k
		p := mustBuild(t, s)
		for w := range p.Wrap().Pieces() {
			got, want, most := 5*w.Piece().Size().W, 4*s.Cover.W+5*(s.Quarter.Lap+s.Margin.Ideal), 5*nm
			if w.Strip() {
				want, most = 5*(s.Spine.Width+2*s.Hinge.Width)+2*s.Cover.W, 10*nm
			}
			if got < want || got >= want+most {
				t.Errorf("five of the %s of a board of %v are %d, exactly %d", w.Piece().Name(), s.Cover.W, got, want)
			}
		}
		s.Quarter.Reach, s.Rulers.Wrap = 20*mm+1+k*mm/5, units.WholeMillimetres
		for w := range mustBuild(t, s).Wrap().Pieces() {
			over := w.Piece().Size().W - s.Spine.Width - 2*s.Hinge.Width // on both boards
			if w.Strip() && (over < 2*21*mm || over >= 2*21*mm+mm) {
				t.Errorf("a reach of %v on whole millimetres goes %v over the boards", s.Quarter.Reach, over)
			}
		}
	}
}

// A sheet of a strip must leave what is tolerated at head and at tail: an odd
// nanometre is no help.
func TestQuarterWithAnOddRest(t *testing.T) {
	for more := -nm; more < 2; more++ {
		s := unruledCase(0)
		s.Rulers, s.Quarter.Rule = all(everyNanometre), rule.QuarterAlways
		s.SpineCovering = stock.Stock{Name: "cloth", Caliper: s.Covering.Caliper, Sheets: sheetOf(110*mm, s.Cover.H+2*s.Margin.Tolerated+more)}
		if _, refused := refusal(s, "spinecovering.sheets", folio.SheetSmall); refused != (more < 0) {
			t.Errorf("%d more than what is tolerated at both ends: refused %v", more, refused)
		}
	}
}

// Both margins together leave 12.2 mm and 6.05 each are tolerated: on whole
// millimetres one of both would always be less, so they stay as they are.
func TestMarginsBetweenGraduations(t *testing.T) {
	s := plainCase()
	s.Margin = rule.Margin{Ideal: 25 * mm, Least: 605 * mm / 100, Tolerated: 605 * mm / 100}
	open := openOf(s)
	s.Covering.Sheets = sheetOf(open.W+122*mm/10, open.H+122*mm/10)
	s = s.WithDefaults()
	for _, main := range []units.Ruler{units.WholeMillimetres, units.Sixteenths} {
		s.Rulers.Main = main
		w := mustBuild(t, s).Wrap()
		for _, a := range []folio.Extent{w.Across(), w.Along()} {
			if near, far := a.Near(), a.Far().Length(); near.Length() != 61*mm/10 || far != near.Length() || strings.Contains(near.String(), "mm") != (main == units.WholeMillimetres) {
				t.Errorf("margins of %v and %v", near, far)
			}
		}
	}
}

// What an odd rest has over on a sheet goes to the right and to the tail.
func TestMarginsOfAnOddRest(t *testing.T) {
	s := plainCase()
	s.Margin.Tolerated = 12*mm + 1
	s.Margin.Least = s.Margin.Tolerated
	open := openOf(s)
	s.Covering.Sheets = sheetOf(open.W+24*mm+3, open.H+24*mm+3)
	w := mustBuild(t, s).Wrap()
	for _, a := range []folio.Extent{w.Across(), w.Along()} {
		if near, far := a.Near().Length(), a.Far().Length(); near != 12*mm+1 || far != 12*mm+2 {
			t.Errorf("margins of %d and %d", near, far)
		}
	}
}

// In proportion a mat is as large as its room lets it be: of 1 to 3 in a height of
// 3k + 1 it is k wide and 3k high, though there is a nanometre more of width, and on a
// ruler likewise.
func TestProportionsToTheNanometre(t *testing.T) {
	for _, step := range []units.Ruler{everyNanometre, units.WholeMillimetres} {
		for over := range units.Length(3) {
			s := plainCase()
			s.Rulers.Fitting = step
			panel, _ := mustBuild(t, s).Panel(boards.RightCover, false)
			by, size := panel.Size(), units.Size{W: 31 * step.Step(), H: (90 + over) * step.Step()}
			size.W, size.H = size.W+20*mm, size.H+60*mm
			s.Fittings = []folio.Fitting{{Kind: folio.Mat{}, Size: place.Sizing{Proportions: place.Proportions{W: 1, H: 3},
				W: place.Relation{Of: place.OfPanel, Less: by.W - size.W}, H: place.Relation{Of: place.OfPanel, Less: by.H - size.H}}}}
			for f := range mustBuild(t, s).Fittings() {
				got := f.Rect().Size()
				if want := size.H / 3 / step.Step() * step.Step(); got.W != want || got.H != 3*want {
					t.Errorf("1 to 3 within %v on steps of %v: %v", size, step.Step(), got)
				}
			}
		}
	}
}

// An ease of twice the lap or more would let a picture's edge show. On a ruler on
// which twice the lap is nothing, the lap is put up: 1 mm for an ease of 0.8 mm and for
// one of 2 mm less a nanometre, 2 mm for one of 2 mm.
func TestLapForAnEase(t *testing.T) {
	for ease, want := range map[units.Length]units.Length{8 * mm / 10: mm, 2*mm - 1: mm, 2 * mm: 2 * mm} {
		s := plainCase()
		s.Fittings = []folio.Fitting{{Kind: folio.Frame{Picture: content(units.Size{W: 60 * mm, H: 80 * mm}), Lap: 3 * mm / 10, Ease: ease}}}
		if v, ok := refusal(s, "fittings[0].kind.lap", folio.TooNarrow); !ok || v.Limit != want {
			t.Errorf("an ease of %v: %v, want at least %v: %v", ease, ok, want, builds(s))
		}
	}
}

// A mitre's cut stays on its half of the paper across: by hand, with margins of 8 mm
// at the sides, of m at head and tail, and a reach of r, it begins 8 mm + m − r from the
// corner, which is on the left half of W + 16 mm as long as m − r is at most W/2.
func TestMitresStayOnTheirHalves(t *testing.T) {
	for n := range units.Length(4) {
		s := unruledCase(0)
		s.Rulers = all(everyNanometre)
		s.Cover, s.Spine.Width = units.Size{W: 41*mm + n, H: 290 * mm}, 25*mm+n/2
		p := mustBuild(t, s)
		w, reach := p.OpenWidth().Length(), p.Wrap().Corners()[0].Reach().Length()
		s.Covering.Sheets = sheetOf(w+16*mm, 900*mm)
		for more := -2 * nm; more <= 2; more++ {
			s.Margin = rule.Margin{Ideal: w/2 + reach + more, Least: 7 * mm, Tolerated: 7 * mm}
			_, refused := refusal(s, "margin.ideal", folio.MitresMeet)
			if crosses := 2*(s.Margin.Ideal-reach) > w; refused != crosses {
				t.Errorf("a margin of %d, a reach of %d and a row %d wide: refused %v", s.Margin.Ideal, reach, w, refused)
			}
		}
		// And on the upper half of H + 16 mm likewise, in a low and wide cover.
		s.Cover, s.Margin = units.Size{W: 290 * mm, H: 91*mm + n}, rule.Margin{Ideal: 20 * mm, Least: 7 * mm, Tolerated: 7 * mm}
		s.Covering.Sheets = nil
		w = openOf(s).W
		s.Covering.Sheets = sheetOf(w+400*mm, s.Cover.H+16*mm)
		for more := -2 * nm; more <= 2; more++ {
			s.Margin = rule.Margin{Ideal: s.Cover.H/2 + reach + more, Least: 7 * mm, Tolerated: 7 * mm}
			_, refused := refusal(s, "margin.ideal", folio.MitresMeet)
			if crosses := 2*(s.Margin.Ideal-reach) > s.Cover.H; refused != crosses {
				t.Errorf("a margin of %d, a reach of %d and a row %d high: refused %v", s.Margin.Ideal, reach, s.Cover.H, refused)
			}
		}
	}
}

// Of two margins that the ruler of the wrap leaves unlike it is the wider one whose mitres
// meet: of 25 and 25.6 mm at the sides the right one, where half the height of the boards
// with the reach is less than that.
func TestMitresOfUnlikeMargins(t *testing.T) {
	s := flat()
	s.Rulers, s.Mitre.Distance = rule.Rulers{Main: units.TenthMillimetres, Wrap: units.WholeMillimetres}, 5*mm
	s.Cover.W, s.Margin.Ideal = 1002*mm/10, 25*mm
	w := mustBuild(t, s).Wrap()
	reach, far := w.Corners()[0].Reach().Length(), w.Across().Far().Length()
	if far != 256*mm/10 || w.Across().Near().Length() != 25*mm {
		t.Fatalf("margins of %v and %v", w.Across().Near(), w.Across().Far())
	}
	met := map[bool]int{}
	for s.Cover.H = 34 * mm; s.Cover.H < 36*mm; s.Cover.H += mm / 5 {
		_, refused := refusal(s, "margin.ideal", folio.MitresMeet)
		if met[refused]++; refused != (far > s.Cover.H/2+reach) {
			t.Errorf("%v high, a reach of %v: refused %v", s.Cover.H, reach, refused)
		}
	}
	if met[true] == 0 || met[false] == 0 {
		t.Error(met)
	}
}

// What two turn-ins have over an edge lies over each other along the diagonal: as much
// as its root of two, down to the nanometre.
func TestOverlapOfMitres(t *testing.T) {
	for n := range 12 {
		for _, c := range mustBuild(t, unruledCase(n)).Wrap().Corners() {
			over, got := c.Reach().Length()-c.Edge(), c.Overlap()
			if twice := over.By(over).Times(2); got.By(got).Compare(twice) > 0 || (got+1).By(got+1).Compare(twice) <= 0 {
				t.Errorf("%d over the edge overlap by %d", over, got)
			}
		}
	}
}

// Refitted, the liner is told to lie over a turn-in by no more than it does at either
// end, with what is odd at the right; and what covers the whole row, or a zone of it,
// lies in its middle.
func TestLapsAsMeasured(t *testing.T) {
	for _, style := range []rule.QuarterRule{rule.QuarterNever, rule.QuarterAlways} {
		for _, by := range []units.Length{-400_007, -400_006, -5, -4, -3, -2, -1, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11} {
			s := unruledCase(0)
			s.Rulers.Liner, s.Quarter.Rule, s.Margin.Ideal = everyNanometre, style, 25*mm
			p := mustBuild(t, s)
			q, err := p.Refit(measuredBy(p, 2*s.Covering.Caliper+by, max(by, 0)))
			if err != nil {
				t.Fatal(err)
			}
			depth := map[bool]units.Length{} // at the left or not
			for in := range q.TurnIns() {
				if in.Edge() > 1 {
					depth[in.Edge() == 2] = in.Depth()
				}
			}
			last, _ := q.Board(boards.RightCover)
			row := units.Rect{Max: last.Rect().Max}
			var names []string
			for pc := range q.Pieces() {
				names = append(names, pc.Name())
			}
			left, right, told := units.Length(0), units.Length(0), units.Length(0)
			for x := range q.Placed() {
				at := x.Rect()
				switch i, _ := x.Piece(); names[i] {
				case "liner":
					left, right = depth[true]-at.Min.X, depth[false]-(row.Max.X-at.Max.X)
				case "wrap":
					if bad := halves("wrap", at, row); bad != "" {
						t.Errorf("%d more: %s", by, bad)
					}
				case "spine strip":
					l, _ := q.Board(boards.LeftCover)
					r, _ := q.Board(boards.RightCover)
					if bad := halves("strip", at, units.Rect{Min: units.Point{X: l.Rect().Max.X}, Max: units.Point{X: r.Rect().Min.X, Y: row.Max.Y}}); bad != "" {
						t.Errorf("%d more: %s", by, bad)
					}
				}
			}
			sides, _ := q.TurnInLap()
			if told = sides.Length(); told > min(left, right) || told < min(left, right)-1 {
				t.Errorf("%v, %d more: a lap of %v is told, at the left it is %v and at the right %v", style, by, told, left, right)
			}
		}
	}
}

// A folded piece is never less than its blank, rounds and all.
func TestAreaOfRoundsIsNotLess(t *testing.T) {
	round := 0
	for n := range 6 {
		s := unruledCase(n)
		notch := pocket.ThumbNotch{Width: 20*mm + units.Length(2*n), Depth: 10*mm + units.Length(n)}
		s.Fittings = []folio.Fitting{{Stock: "card", Kind: folio.Folded{Kind: pocket.Slip{Content: pocket.IDCard().Turned(), Notch: notch}}}}
		for pc := range mustBuild(t, s).Pieces() {
			if blank, ok := pc.Blank(); ok {
				if blank.Area(units.Down) != blank.Area(units.Up) {
					round++
				}
				if pc.Area().Compare(blank.Area(units.Up)) < 0 {
					t.Errorf("the %s of %v has %v", pc.Name(), blank.Area(units.Up), pc.Area())
				}
			}
		}
	}
	if round == 0 {
		t.Error("nothing is round")
	}
}

// A magnet that is an odd number of nanometres across is laid about the middle of its
// hole, with the odd one at the right and at the tail.
func TestMagnetsAboutTheirHoles(t *testing.T) {
	for n := range units.Length(2) {
		s := unruledCase(0)
		flapped(&s)
		s.Magnets.Diameter += n
		var holes []units.Point
		laid := 0
		for step := range mustBuild(t, s).Steps() {
			for _, a := range step.Do {
				switch a := a.(type) {
				case work.Sink:
					holes = append(holes, a.Middle)
				case work.Fix:
					if a.What.Kind != work.Magnet {
						continue
					}
					if laid == len(holes) {
						t.Fatal("more magnets than holes")
					}
					for _, off := range []units.Length{2*(a.At.X-holes[laid].X) + s.Magnets.Diameter, 2*(a.At.Y-holes[laid].Y) + s.Magnets.Diameter} {
						if off != n {
							t.Errorf("a magnet of %v lies at %v, %v; its hole's middle is at %v", s.Magnets.Diameter, a.At.X, a.At.Y, holes[laid])
						}
					}
					laid++
				}
			}
		}
		if laid != 4 {
			t.Errorf("%d magnets are laid", laid)
		}
	}
}

// By hand: the covers of a soft spine, of 2 mm with a liner of 0.1 and a turn-in of 0.2,
// take 4.6 mm between two creases; a nanometre that is left over is no room for both.
func TestCreasesOfASoftSpine(t *testing.T) {
	for n := range units.Length(4) {
		s := plainCase()
		s.Form, s.Spine, s.Rulers.Gap = boards.SoftSpine, rule.Spine{Contents: 5 * mm}, everyNanometre
		s.Hinge = rule.Hinge{Width: 20*mm + n, Crease: rule.CreaseTwo}
		p := mustBuild(t, s)
		most := (s.Hinge.Width - 4600*units.Micrometre) / 2
		if _, err := p.ClosedAt(most); err != nil {
			t.Errorf("a gap of %v creased at %v: %v", s.Hinge.Width, most, err)
		}
		_, err := p.ClosedAt(most + 1)
		if !refusedWith(err, "crease", check.TooLarge) {
			t.Errorf("a gap of %v creased at %v: %v", s.Hinge.Width, most+1, err)
		}
	}
}

// Two foam strips go beside a picture only if both do: by hand, rails of 12 mm that lap
// it by 3 leave 17 mm − 1 nm with an ease of 1 mm + 1 nm, in which there are not twice
// 8.5 mm.
func TestFoamOnBothSides(t *testing.T) {
	for more := range units.Length(2) {
		for _, foam := range []units.Length{17*mm/2 - 1, 17 * mm / 2} {
			s := unruledCase(0)
			s.Rulers = all(everyNanometre)
			s.Fittings = []folio.Fitting{{Kind: folio.Frame{Picture: content(units.Size{W: 60 * mm, H: 80 * mm}), Lap: 3 * mm, Rail: 12 * mm, FoamWidth: foam, Ease: mm + more}}}
			goes := 2*foam <= 17*mm-more
			v, refused := refusal(s, "fittings[0].kind.rail", folio.TooNarrow)
			if refused == goes || refused && v.Limit != 12*mm+1 {
				t.Errorf("two strips of %v and an ease of %v: refused %v", foam, mm+more, v)
			}
		}
	}
}

// The room that is told for a print is no more than there is: 100.5 mm, less 12 at
// either side, are 76.5 mm, 76 on the ruler.
func TestRoomForAPrint(t *testing.T) {
	s := plainCase()
	size := place.Filling(place.OfPanel, 0)
	size.W.Less, size.H.Less = s.Cover.W-100*mm, s.Cover.H-60*mm
	size.Picture = place.PictureUsual
	s.Rulers.Fitting = units.WholeMillimetres
	s.Fittings = []folio.Fitting{{Kind: folio.Mat{Picture: pocket.Content{Name: "print"}, Reveal: 8600 * units.Micrometre}, Size: size}}
	v, ok := refusal(s, "fittings[0].size.picture", folio.NoPrint)
	if p := mustBuild(t, plainCase()); ok {
		panel, _ := p.Panel(boards.RightCover, false)
		w, h := panel.Size().W-20*mm-17200*units.Micrometre, panel.Size().H-110*mm-17200*units.Micrometre
		want := units.MetricDecimal.Text(w/mm*mm) + " x " + units.MetricDecimal.Text(h/mm*mm)
		if !strings.Contains(v.Got, want) {
			t.Errorf("%q, want room for %s", v.Got, want)
		}
	} else {
		t.Errorf("%v", builds(s))
	}
}

// A flap's gap by HingeLeast is the least that takes what stands at the fore edge of
// the front cover: board, liner, turn-in and the covering of that edge, N in all. Two
// creases reach g/√2 there, which is N or more if g² is 2 N² or more.
func TestLeastGapToTheNanometre(t *testing.T) {
	for n := range 12 {
		s := unruledCase(n)
		s.Rulers = all(everyNanometre)
		flapped(&s)
		s.Hinge = rule.Hinge{Rule: rule.HingeLeast, Crease: rule.CreaseTwo}
		s.Closing.UnderFlap = mm
		p := mustBuild(t, s)
		need := s.Board.Caliper + s.Liner.Caliper + 2*s.Covering.Caliper
		twice := need.By(need).Times(2)
		most := units.Length(0)
		for g := range p.Gaps() {
			most = max(most, g.Width())
		}
		if most.By(most).Compare(twice) < 0 || (most-1).By(most-1).Compare(twice) >= 0 {
			t.Errorf("%d: a gap of %d for %d", n, most, need)
		}
		if tight, ok := p.TightestOf(closing.AtForeEdge, true); !ok || tight.Left().Length() < 0 || tight.Left().Length() > 1 {
			t.Errorf("%d: %v", n, tight)
		}
	}
}

// Beside a second spine the front cover's edge comes between the two boards of its
// fold. By hand, with hinges that add k each, a thing that begins a from the spine's
// edge has S + k − board − liner − a − its width below the front cover, less a turn-in,
// or a − S − k less a covering above it: what is told is no more, nor less by a nanometre for each
// hinge.
func TestRoomAtTheFrontCoversEdge(t *testing.T) {
	for n := range 40 {
		s := unruledCase(n)
		s.Rulers = all(everyNanometre)
		s.Form, s.Closing.UnderFlap = boards.ForeEdgeFlap, 26*mm
		s.Closing.Adhesive.Caliper = units.None
		s.Hinge = rule.Hinge{Crease: rule.CreaseTwo, Width: 9*mm + 7919*units.Length(n)}
		k := math.Sqrt2 / 2 * float64(s.Hinge.Width)
		if n%2 > 0 {
			s.Hinge.Crease, k = rule.CreaseRound, 2/math.Pi*float64(s.Hinge.Width)
		}
		spine, base := float64(s.Spine.Width), float64(s.Board.Caliper+s.Liner.Caliper)
		stands := folio.Ornament{Size: units.Size{W: 6*mm + 1, H: 40 * mm}, Thickness: 8*mm + 1}
		for above, a := range map[bool]units.Length{false: 14*mm + 1, true: s.Spine.Width + units.Length(k) + 5*mm} {
			s.Fittings = []folio.Fitting{{Name: "badge", Panel: boards.Spine2, Kind: stands, Place: place.Place{Across: place.Left, Offset: units.Point{X: a}}}}
			p, err := folio.Build(s)
			if err != nil {
				t.Fatal(err)
			}
			on, _ := p.Board(boards.Spine2)
			for f := range p.Fittings() {
				a = f.Rect().Min.X - on.Rect().Min.X
			}
			below := func(what string, got units.Length, exact float64) {
				if d := exact - float64(got); d < -1e-4 || d > 3 {
					t.Errorf("%d: %s is %d, exactly %.4f", n, what, got, exact)
				}
			}
			section, _ := p.Section()
			for slab := range section {
				if d := k - float64(slab.Rect().Min.X); slab.Board() == 2 && (d < -1e-4 || d > 1) {
					t.Errorf("%d: the right cover lies from %d, exactly %.4f", n, slab.Rect().Min.X, k)
				}
				if slab.Board() == 3 { // the second spine stands from the crease up
					if d := k - float64(slab.Rect().Min.Y); d < -1e-4 || d > 1 {
						t.Errorf("%d: the second spine stands from %d, exactly %.4f", n, slab.Rect().Min.Y, k)
					}
				}
			}
			exact := spine + k - base - float64(a+stands.Size.W) - float64(s.Covering.Caliper)
			if above {
				exact = float64(a) - spine - k - float64(s.Covering.Caliper)
			}
			tight, ok := p.TightestOf(closing.BesideSpine, false)
			if !ok {
				t.Fatalf("%d: nothing is beside the spine", n)
			}
			below("the room beside the spine", tight.Room().Length(), exact)
			for over, room := range p.Beside(boards.LeftCover, false) {
				if first, _ := p.Board(boards.LeftCover); !above && over.Overlaps(first.Rect()) {
					below("room over the front cover", room, exact+float64(s.Covering.Caliper)) // its turn-in counts as filled
				}
			}
		}
	}
}

// A frame by relation is no larger than its relation says, with rails off the ruler,
// and not a step smaller.
func TestFramesKeepToTheirRoom(t *testing.T) {
	for n := range units.Length(12) {
		s := plainCase()
		by := place.Relation{Of: place.OfPanel, Less: 30 * mm}
		s.Fittings = []folio.Fitting{{Kind: folio.Frame{Picture: pocket.Content{Name: "print"}, Rail: 11*mm + n*mm/12, Lap: 3*mm + n*mm/7}, Size: place.Sizing{W: by, H: by}}}
		p := mustBuild(t, s)
		panel, _ := p.Panel(boards.RightCover, false)
		for f := range p.Fittings() {
			most := units.Size{W: (panel.Size().W - 30*mm) / mm * mm, H: (panel.Size().H - 30*mm) / mm * mm}
			if got := f.Rect().Size(); !got.FitsIn(most) || !most.Plus(-mm, -mm).FitsIn(got) {
				t.Errorf("rails of %v: a frame of %v for %v", 11*mm+n*mm/12, got, most)
			}
		}
	}
}

// Creased in the middle of a gap of an odd number of nanometres, a folio has no more
// room than its gaps add, and reaches no less far than half of one.
func TestMidGapToTheNanometre(t *testing.T) {
	for n := range units.Length(4) {
		s := unruledCase(0)
		s.Rulers, s.Hinge = all(everyNanometre), rule.Hinge{Width: 6*mm + n, Crease: rule.CreaseMidGap}
		c := mustClosed(t, mustBuild(t, s))
		room, wide := s.Spine.Width+s.Hinge.Width-2*s.Board.Caliper-2*s.Liner.Caliper, 2*(s.Cover.W+2*s.Covering.Caliper)+s.Hinge.Width
		if got := c.Room().Length(); got > room || got < room-1 {
			t.Errorf("a gap of %v: a room of %v, exactly %v", s.Hinge.Width, got, room)
		}
		if got := 2 * c.Width().Length(); got < wide || got > wide+1 {
			t.Errorf("a gap of %v: twice the width is %v, exactly %v", s.Hinge.Width, got, wide)
		}
	}
}

// Two strips leave the paper of a cover between them more than its lap: by hand, twice
// the reach is at most the board and a lap, less the shortest length on either side.
func TestReachOfTwoStrips(t *testing.T) {
	for n := range units.Length(2) {
		for more := -nm; more < 2; more++ {
			s := unruledCase(0)
			s.Rulers, s.Form, s.FlapWidth = all(everyNanometre), boards.ForeEdgeFlap, 110*mm
			s.Cover.W = 120*mm + n
			s.Quarter = rule.Quarter{Rule: rule.QuarterAlways, Lap: 3 * mm, Reach: (s.Cover.W+3*mm)/2 - units.Shortest + more}
			_, refused := refusal(s, "quarter.reach", folio.TooWide)
			if leaves := s.Cover.W + s.Quarter.Lap - 2*s.Quarter.Reach; refused != (leaves < 2*units.Shortest) {
				t.Errorf("a cover of %v, a reach of %v: refused %v", s.Cover.W, s.Quarter.Reach, refused)
			}
		}
	}
}

// Half of what is left is a nanometre's half short of the usual least, which no way of
// sharing it keeps: it is put down on the ruler like any other.
func TestMarginsJustShort(t *testing.T) {
	s := plainCase()
	s.Margin = rule.Margin{Ideal: 25 * mm, Least: 8*mm + mm/2, Tolerated: 6 * mm}
	open := openOf(s)
	s.Covering.Sheets = sheetOf(open.W+17*mm-1, open.H+17*mm-1)
	w := mustBuild(t, s).Wrap()
	for _, a := range []folio.Extent{w.Across(), w.Along()} {
		if near, far := a.Near().Length(), a.Far().Length(); near != 8*mm || far != 9*mm-1 {
			t.Errorf("margins of %v and %v", near, far)
		}
	}
}

// The gap that would do at a fore edge does, and at most two nanometres less, by as
// many hinges, do not.
func TestGapThatWouldDo(t *testing.T) {
	for n := range 24 {
		s := unruledCase(n)
		s.Rulers = all(everyNanometre)
		flapped(&s)
		s.Magnets, s.Covering.Caliper = closing.Magnets{}, mm+1
		s.Hinge = rule.Hinge{Width: 45*mm/10 + 7919*units.Length(n), Crease: rule.CreaseTwo}
		if n%2 > 0 {
			s.Hinge.Width, s.Hinge.Crease = s.Hinge.Width+mm/2, rule.CreaseRound
		}
		tight, ok := mustBuild(t, s).TightestOf(closing.AtForeEdge, true)
		if !ok || tight.Closes() {
			t.Fatalf("%d: a gap of %v closes: %v", n, s.Hinge.Width, tight)
		}
		would := tight.WouldDo().Length()
		for less, does := range map[units.Length]bool{0: true, 4: false} {
			s.Hinge.Width = would - less
			if again, _ := mustBuild(t, s).TightestOf(closing.AtForeEdge, true); again.Closes() != does {
				t.Errorf("%d: %d less than the gap of %d that would do closes: %v: %v", n, less, would, !does, again)
			}
		}
	}
}
