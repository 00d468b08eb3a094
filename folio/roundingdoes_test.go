package folio_test

import (
	"errors"
	"fmt"
	"slices"
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

// mends obeys all that is said of a Spec, which must be said with a length that would do,
// until nothing is wrong.
func mends(t *testing.T, what string, s folio.Spec) (refused bool) {
	t.Helper()
	var bad *check.Error
	if !errors.As(builds(s), &bad) {
		return false
	}
	for v := range bad.All() {
		if v.Bound == check.NoBound {
			t.Errorf("%s: %v", what, v)
		}
	}
	again, ok := obeyed(s, bad)
	if err := builds(again); !ok || err != nil {
		t.Errorf("%s: %v; and then %v", what, bad, err)
	}
	return true
}

// What is too large where its offset moves it is told a size that goes in there, or, where
// what the offset leaves is too little for a picture in its border, one with less of an
// offset: with what is said it is mended, on the ruler or off it.
func TestOffsetThatLeavesLittle(t *testing.T) {
	kinds := map[string]folio.Kind{
		"mat": folio.Mat{}, "mat round a picture": folio.Mat{Picture: pocket.Content{Name: "print"}, Reveal: 5 * mm},
		"mat with a reveal off the ruler": folio.Mat{Picture: pocket.Content{Name: "print"}, Reveal: 3300 * units.Micrometre},
		"frame":                           folio.Frame{Rail: 14210 * units.Micrometre},
	}
	refused := 0
	for _, ruler := range []units.Ruler{units.WholeMillimetres, units.Sixteenths, units.SixtyFourths} {
		step := ruler.Step()
		for name, kind := range kinds {
			s := unruledCase(1)
			s.Rulers.Fitting, s.Liner.Caliper = ruler, mm/10
			panel, _ := mustBuild(t, s).Panel(boards.RightCover, false)
			border := map[string]units.Length{"mat round a picture": 10 * mm, "mat with a reveal off the ruler": 6600 * units.Micrometre, "frame": 28420 * units.Micrometre}[name]
			for n := range units.Length(20) {
				for _, align := range []place.Align{place.Left, place.Middle} {
					leaves := border + step*n/5
					offset := panel.Size().W - leaves
					if align == place.Middle {
						offset = -offset / 2
					}
					s.Fittings = []folio.Fitting{{Kind: kind, Panel: boards.RightCover, Size: place.Sizing{W: place.Relation{Of: place.OfPanel, More: 50 * mm}, H: place.By(place.OfPanel)},
						Place: place.Place{Across: align, Offset: units.Point{X: offset}}}}
					if mends(t, fmt.Sprintf("a %s on %v, with %v beside its offset", name, ruler, leaves), s) {
						refused++
					}
				}
			}
		}
	}
	if refused < 400 {
		t.Errorf("only %d are refused", refused)
	}
}

// What is folded from sheet is told how much less to take off the side that a relation
// gives it: so much does, whatever it holds and by whatever it is measured.
func TestRoomThatADesignLacks(t *testing.T) {
	refused := 0
	for _, ruler := range []units.Ruler{units.WholeMillimetres, units.Sixteenths, units.SixtyFourths, everyNanometre} {
		for n := range units.Length(12) {
			holds := content(units.Size{W: 60*mm + n*83_219, H: 50*mm + n*61_031})
			for name, k := range map[string]pocket.Kind{"concertina": pocket.Concertina{Content: holds, Leaves: 3, Fold: 9*mm + n*71_011}, "concertina with a land": pocket.Concertina{Content: holds, Leaves: 3, Land: 7*mm + n*53_003, Margin: 3*mm + 7919*n},
				"slip": pocket.Slip{Content: holds}, "folded strip": pocket.FoldedStrip{Content: holds}, "corners": pocket.Corners{Content: holds}} {
				for _, tall := range []bool{false, true} {
					s := unruledCase(int(n % 6))
					s.Rulers.Fitting, s.Cover = ruler, units.Size{W: 180*mm + n, H: 220*mm + n}
					f := folio.Fitting{Stock: "card", Kind: folio.Folded{Kind: k}, Size: place.Sizing{W: place.Relation{Of: place.OfPanel, Less: 150 * mm}}}
					if tall {
						f.Size.W, f.Size.H = place.Relation{}, place.Relation{Of: place.OfPanel, Less: 190 * mm}
					}
					s.Fittings = []folio.Fitting{f}
					if mends(t, fmt.Sprintf("a %s for %v on %v", name, holds.Size, ruler), s) {
						refused++
					}
					// Larger than the panel, too.
					f.Size = place.Sizing{W: place.Relation{Of: place.OfPanel, More: 20 * mm}}
					s.Fittings = []folio.Fitting{f}
					if mends(t, fmt.Sprintf("a wide %s for %v on %v", name, holds.Size, ruler), s) {
						refused++
					}
				}
			}
		}
	}
	if refused < 100 {
		t.Errorf("only %d are refused", refused)
	}
}

// A liner in one piece that is worked to the bottom of gaps, down the one edge and up the
// other, is cut two board calipers wider for each, and lies inside its inset at both ends:
// a step of its ruler wider it would not.
func TestLinerDownTheEdgesStaysInside(t *testing.T) {
	for n := range units.Length(24) {
		for _, ruler := range []units.Ruler{units.WholeMillimetres, units.Sixteenths, units.SixtyFourths} {
			s := toAndFro(4)
			s.Lining.Rule, s.Rulers.Board, s.Rulers.Liner = rule.LiningOnePiece, everyNanometre, ruler
			s.Cover.W += n * 104_729
			s.Board.Caliper += n * 7919
			p := mustBuild(t, s)
			down := units.Length(0)
			var wide []units.Length
			for g := range p.Gaps() {
				wide = append(wide, g.Width())
			}
			for i, g := range wide {
				if i%2 > 0 && g < 2*(s.Board.Caliper+s.Covering.Caliper) {
					down += 2 * s.Board.Caliper
				}
			}
			most := p.OpenWidth().Length() + down - 2*s.Lining.Inset
			for l := range p.Liner() {
				if spare := most - l.Size().W; spare < 0 || spare >= ruler.Step() {
					t.Errorf("on %v a liner of %v, %v of it down edges, in %v", ruler, l.Size().W, down, p.OpenWidth())
				}
			}
			if down == 0 {
				t.Fatal("nothing goes down an edge")
			}
		}
	}
}

// An inset that the liner's ruler moves is told as the greatest that the liner has
// anywhere, to the nanometre: from the covering at the row's ends, and from the boards' edges.
func TestGreatestInsetIsTold(t *testing.T) {
	odd := map[rule.LiningRule]int{}
	for n := range 24 {
		for _, lining := range []rule.LiningRule{rule.LiningAuto, rule.LiningPanels} {
			s := unruledCase(n)
			s.Rulers.Liner, s.Lining.Rule = units.SixtyFourths, lining
			p := mustBuild(t, s)
			var row units.Rect
			for b := range p.Boards() {
				row = row.Union(b.Rect())
			}
			// Where the covering lies round the ends.
			side, end := (p.OpenWidth().Length()-row.Size().W)/2, (p.OpenHeight().Length()-row.Size().H)/2
			greatest := units.Length(0)
			_, liners := lain(p)
			for _, l := range liners {
				on := row
				for b := range p.Boards() {
					if lining == rule.LiningPanels && b.Rect().Overlaps(l) {
						on = b.Rect()
					}
				}
				if on.Min.X == row.Min.X {
					on.Min.X -= side
				}
				if on.Max.X == row.Max.X {
					on.Max.X += side
				}
				on.Min.Y, on.Max.Y = on.Min.Y-end, on.Max.Y+end
				left, right := l.Min.X-on.Min.X, on.Max.X-l.Max.X
				head, tail := l.Min.Y-on.Min.Y, on.Max.Y-l.Max.Y
				if greatest = max(greatest, left, right, head, tail); max(left, right) == greatest && left != right || max(head, tail) == greatest && head != tail {
					odd[lining]++
				}
			}
			for w := range p.Warnings() {
				if w.Path != "lining.inset" || w.Code != folio.WarnRuler {
					continue
				}
				if w.Want != greatest {
					t.Errorf("an inset of %v is told as %v, and is up to %v", s.Lining.Inset, w.Want, greatest)
				}
			}
		}
	}
	if len(odd) < 2 {
		t.Errorf("insets that are not alike: %v", odd)
	}
}

// In inches, of four decimals, an inset of an odd half is told once, not as one that goes up
// to itself.
func TestInsetIsToldOnce(t *testing.T) {
	told := 0
	for n := range 12 {
		s := unruledCase(n)
		s.Rulers = all(everyNanometre)
		s.Rulers.Main, s.Rulers.Fitting = units.Sixteenths, everyNanometre
		p := mustBuild(t, s)
		// As wide, beyond the last step of the liner's ruler, as high.
		s.Cover.H += (p.OpenWidth().Length()-p.OpenHeight().Length())%(units.Inch/64) + units.Inch/64
		s.Rulers.Liner = units.SixtyFourths
		for w := range mustBuild(t, s).Warnings() {
			if w.Path != "lining.inset" || w.Code != folio.WarnRuler {
				continue
			}
			told++
			if all := figures(t, w.Text); len(all) != 3 {
				t.Errorf("%s", w.Text)
			}
		}
	}
	if told == 0 {
		t.Error("no inset is told")
	}
}

// The far strip of a frame leaves the picture its lap at both ends, where a nanometre
// decides on it, too: of an odd number of nanometres the rails at mouth and far end are not
// alike. The lap and the rail are told as the greatest that there are.
func TestFarStripJustLapped(t *testing.T) {
	const step, open = units.Inch / 64, 90 * units.Inch / 64
	odd := 0
	for n := range units.Length(40) {
		rail, foam, lap := 12*mm+n*33_331, 5*mm+n*19_937, 2*mm+n*8_111
		along := units.SixtyFourths.Up(open + 2*rail)
		if n%2 > 0 { // of the rails that are greater by half a nanometre a graduation leaves the lap
			foam += ((along - open).Half(units.Up) - lap - foam) % step
		}
		at := units.SixtyFourths.Down((along - open).Half(units.Down) - lap - foam)
		even := (along - open).Half(units.Up) - at - foam - lap // that the picture is larger than its laps, with a lap at the mouth just as large
		for _, more := range []units.Length{0, even - 1, even, even + 1} {
			if more < 0 || more >= step {
				continue
			}
			for _, mouth := range []score.Edge{score.Head, score.Tail, score.Left, score.Right} {
				const rest = step - 2 // beside the mouth, where the opening lies in the middle
				beside := lap + units.Length(rest).Half(units.Up)
				pic := units.Size{W: open + 2*lap + rest, H: open + 2*lap + more}
				if mouth == score.Left || mouth == score.Right {
					pic.W, pic.H = pic.H, pic.W
				}
				fr := folio.Frame{Picture: content(pic), Mouth: mouth, Lap: lap, Rail: rail, FoamWidth: foam, Ease: mm}
				s := plainCase()
				s.Rulers.Fitting = units.SixtyFourths
				s.Fittings = []folio.Fitting{{Kind: fr}}
				p := mustBuild(t, s)
				window, _, frame := opening(p)
				f := fittedFirst(p)
				far := slices.Collect(foamOf(f))[2].Moved(units.Point{X: -f.Rect().Min.X, Y: -f.Rect().Min.Y})
				var from, to, edge units.Length // of the window from the far end of the frame, and the strip's edge
				switch mouth {
				case score.Head:
					from, to, edge = frame.H-window.Max.Y, frame.H-window.Min.Y, frame.H-far.Min.Y
				case score.Tail:
					from, to, edge = window.Min.Y, window.Max.Y, far.Max.Y
				case score.Left:
					from, to, edge = frame.W-window.Max.X, frame.W-window.Min.X, frame.W-far.Min.X
				case score.Right:
					from, to, edge = window.Min.X, window.Max.X, far.Max.X
				}
				inner, outer := from-edge, edge+open+2*lap+more-to
				if min(inner, outer) < lap {
					t.Errorf("mouth at the %v: laps of %v and %v, for %v", mouth, inner, outer, lap)
				}
				if (along-open)%2 != 0 {
					odd++
				}
				told := map[string]units.Length{}
				for w := range p.Warnings() {
					told[w.Path] = w.Want
				}
				if got, want := told["fittings[0].kind.lap"], max(inner, outer, beside); got != want && (got != 0 || want != lap) {
					t.Errorf("mouth at the %v: a lap told as %v is %v", mouth, got, want)
				}
				if got, want := told["fittings[0].kind.rail"], max(from, along-to); got != want && (got != 0 || want != rail) {
					t.Errorf("mouth at the %v: a rail told as %v is %v", mouth, got, want)
				}
			}
		}
	}
	if odd == 0 {
		t.Error("all rails are alike")
	}
}

// A frame that leaves no opening of a bar is told rails that do, with a lap off the ruler
// too: they cover the foam beside a picture whose opening that lap makes narrower.
func TestRailsForALapOffTheRuler(t *testing.T) {
	told := 0
	for n := range units.Length(60) {
		s := plainCase()
		of := place.Relation{Of: place.OfGround}
		s.Fittings = []folio.Fitting{{Name: "bar", Kind: folio.Mat{Size: units.Size{W: 14*mm + n%15*mm, H: 120 * mm}}},
			{StandsOn: "bar", Size: place.Sizing{W: of, H: of}, Kind: folio.Frame{Picture: content(units.Size{}), Lap: 2100*units.Micrometre + n/15*mm/5, Rail: 40 * mm, FoamWidth: 59*mm/10 - n%7, Ease: mm}}}
		v, ok := refusal(s, "fittings[1].kind.rail", folio.TooWide)
		if !ok {
			continue
		}
		told++
		fr := s.Fittings[1].Kind.(folio.Frame)
		fr.Rail = v.Limit
		s.Fittings[1].Kind = fr
		if err := builds(s); err != nil {
			t.Errorf("a bar of %v, a lap of %v: rails of %v would do: %v", s.Fittings[0].Kind, fr.Lap, v.Limit, err)
		}
	}
	if told < 20 {
		t.Errorf("only %d were told narrower rails", told)
	}
}

// Foam of a stock that is too thin is told in inches how thick it must be, and not less.
func TestThicknessOfFoamInInches(t *testing.T) {
	for n := range units.Length(20) {
		s := plainCase()
		s.Rulers = rule.Rulers{Main: units.Sixteenths}
		s.Stocks = append(s.Stocks, stock.Stock{Name: "felt", Caliper: mm})
		plate := pocket.Content{Name: "plate", Size: units.Size{W: 60 * mm, H: 80 * mm}, Thickness: 2*mm + n*311}
		s.Fittings = []folio.Fitting{{Kind: folio.Frame{Picture: plate, FoamStock: "felt"}}}
		v, ok := refusal(s, "fittings[0].kind.foamstock", folio.TooThin)
		for _, least := range asks(t, v.Want) {
			if ok = ok && least >= plate.Thickness; least-plate.Thickness > units.Thou/10 {
				t.Errorf("for %v: %s", plate.Thickness, v.Want)
			}
		}
		if !ok {
			t.Errorf("for %v: %v", plate.Thickness, builds(s))
		}
	}
}

// The tabs that a warning names end on the board, wherever the guard stands: a step of the ruler longer
// they would reach over its hinges.
func TestTabsThatEndOnTheSpine(t *testing.T) {
	named := 0
	for n := range units.Length(30) {
		s := onNarrowSpine(60*mm, pocket.Concertina{Leaves: 2, Tab: 25 * mm})
		at := place.Place{Across: place.Right, Offset: units.Point{X: 9*mm + n*311_009}}
		s.Fittings[0].Place = at
		k := s.Fittings[0].Kind.(folio.Folded).Kind.(pocket.Concertina)
		for w := range mustBuild(t, s).Warnings() {
			if w.Code != folio.WarnTabs || w.Want == 0 {
				continue
			}
			named++
			for tab, over := range map[units.Length]bool{w.Want: false, w.Want + mm: true} {
				k.Tab = tab
				s.Fittings = []folio.Fitting{{Name: "log", Panel: boards.Spine1, Place: at, Kind: folio.Folded{Kind: k}}}
				if warnedOf(mustBuild(t, s), folio.WarnTabs, "") != over {
					t.Errorf("%v from the hinge, tabs of %v reach over it: %v", at.Offset.X, tab, !over)
				}
			}
			break
		}
	}
	if named < 20 {
		t.Errorf("only %d times tabs were named", named)
	}
}

// An inset that leaves no liner is told the greatest that does, also where a sheet takes no
// more than that: with a step more there is none.
func TestInsetForASheet(t *testing.T) {
	for n := range 24 {
		s := unruledCase(n)
		s.Rulers.Liner = units.WholeMillimetres
		s.Placing = 300*units.Micrometre + 40*units.Micrometre*units.Length(n)
		s.Covering.Caliper = mm/10 + mm/20*units.Length(n%9)
		if n%2 > 0 { // wider than high, or else
			s.Cover.H = 3 * s.Cover.W
		}
		w, h := mustBuild(t, s).AsMade()
		s.Lining.Inset = 300 * mm
		v, ok := refusal(s, "lining.inset", folio.LinerNone)
		if !ok {
			t.Fatal(builds(s))
		}
		down := func(l units.Length) units.Length { return s.Rulers.Liner.Down(l - 2*v.Limit) }
		s.Liner.Sheets = sheetOf(down(w.Length()), down(h.Length()))
		if with, _ := refusal(s, "lining.inset", folio.LinerNone); with.Limit != v.Limit {
			t.Errorf("%d: of sheets of %v an inset of %v would do, without %v: %v", n, s.Liner.Sheets[0].Size, with.Limit, v.Limit, builds(s))
		}
		for more, none := range map[units.Length]bool{0: false, mm / 2: true} {
			s.Lining.Inset = v.Limit + more
			if _, ok := refusal(s, "lining.inset", folio.LinerNone); ok != none {
				t.Errorf("%d: %v more than the inset that would do leaves none: %v", n, more, ok)
			}
		}
	}
}

// A piece of the liner lies in the middle of its run, of an odd number of nanometres nearer
// to the left, and at an end of the row the covering round it takes nothing from the panel
// at the other end. With gaps that may come out wider the panels leave free what the liner
// then leaves, no more.
func TestRunsOfTheLinerLieInTheMiddle(t *testing.T) {
	odd := [3]int{}
	for n := range units.Length(24) {
		s := toAndFro(6)
		s.Lining.Rule, s.Rulers.Board, s.Rulers.Gap, s.Rulers.Liner = rule.LiningRuns, everyNanometre, everyNanometre, units.SixtyFourths
		s.Cover.W += n * 104_729
		s.Lining.Inset += n * 7919
		for _, placing := range []units.Length{0, 300*units.Micrometre + n*9973} {
			s.Placing = placing
			p := mustBuild(t, s)
			all := slices.Collect(p.Boards())
			_, liners := lain(p)
			if len(liners) != 3 {
				t.Fatalf("%d pieces", len(liners))
			}
			for i, l := range liners {
				left, right := all[2*i].Rect(), all[2*i+1].Rect()
				run := right.Max.X - left.Min.X
				free := func(run units.Length) units.Length { return run - s.Rulers.Liner.Down(run-2*s.Lining.Inset) }
				atL, atR := l.Min.X-left.Min.X, right.Max.X-l.Max.X
				if alone := free(run); alone%2 != 0 {
					odd[i]++
					if i > 0 && atL > alone/2 || i == 1 && atR > alone/2+1 || i < 2 && atR > alone/2+1 {
						t.Errorf("piece %d leaves %v and %v free of %v", i, atL, atR, run)
					}
				}
				if placing == 0 {
					continue
				}
				from, _ := p.Panel(all[2*i].Role(), false)
				to, _ := p.Panel(all[2*i+1].Role(), false)
				then, outer := free(run+placing), free(run+placing+s.Covering.Caliper)
				switch { // at an end of the row the inset keeps to the covering's edge
				case i == 0 && outer-s.Lining.Inset >= then.Half(units.Up):
					if inner := right.Max.X - to.Max.X; inner != max(atR, then.Half(units.Up)) {
						t.Errorf("the left panel leaves %v free inside the row, of %v", inner, then)
					}
				case i == 2 && outer-s.Lining.Inset >= then/2:
					if inner := from.Min.X - left.Min.X; inner != max(atL, then/2) {
						t.Errorf("the right panel leaves %v free inside the row, of %v", inner, then)
					}
				case i == 1:
					taken := from.Min.X - left.Min.X + right.Max.X - to.Max.X
					if taken != max(then, atL+atR) && taken != max(then, atL+atR)+(atL+atR)%2 {
						t.Errorf("panels leave %v free of %v, the liner %v, and with a wider gap %v", taken, run, atL+atR, then)
					}
				}
			}
		}
	}
	for i, n := range odd {
		if n == 0 {
			t.Errorf("piece %d leaves no odd number of nanometres free", i)
		}
	}
}

// A guard that is larger, closed, than twice the side that a relation gives its leaf is told
// how much more to take off it: that does, a step of the ruler less does not, with lands that
// are no graduation.
func TestGuardLargerThanItsLeaf(t *testing.T) {
	for n := range units.Length(12) {
		s := unruledCase(int(n))
		s.Cover, s.Margin.Ideal = units.Size{W: 110*mm + n*83_219, H: 200 * mm}, 15*mm
		k := folio.Folded{Kind: pocket.Concertina{Leaves: 3, Leaf: units.Size{H: 50 * mm}, Land: 25*mm + n*71_011, Fold: 5 * mm}}
		with := func(less units.Length) folio.Spec {
			s.Fittings = []folio.Fitting{{Stock: "card", Kind: k, Size: place.Sizing{W: place.Relation{Of: place.OfPanel, Less: less}}}}
			return s
		}
		v, ok := refusal(with(52*mm), "fittings[0].size.w.less", folio.TooWide)
		if !ok {
			t.Errorf("%d: %v", n, builds(with(52*mm)))
			continue
		}
		if err := builds(with(v.Limit)); err != nil {
			t.Errorf("%d: %v less would do: %v", n, v.Limit, err)
		}
		if builds(with(v.Limit-mm)) == nil {
			t.Errorf("%d: %v less than %v less does too", n, mm, v.Limit)
		}
	}
}
