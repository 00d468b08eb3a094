package folio_test

import (
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A reveal that would do is a length, no less than the shortest: round a picture that is
// narrower than its room by twice that, it is 0.01 mm, and by a nanometre less none is.
func TestRevealOfTheShortest(t *testing.T) {
	for less, does := range map[units.Length]bool{2 * units.Shortest: true, 2*units.Shortest + 1: true, 2*units.Shortest - 1: false} {
		s := unruledCase(0)
		s.Rulers = all(everyNanometre)
		room, _ := mustBuild(t, s).Panel(boards.RightCover, false)
		s.Fittings = []folio.Fitting{{Kind: folio.Mat{Picture: content(units.Size{W: room.Size().W - less, H: 30 * mm}), Reveal: 60 * mm}}}
		v, ok := refusal(s, "fittings[0].kind.reveal", folio.TooWide)
		if ok != does || ok && v.Limit != units.Shortest {
			t.Errorf("a picture %v narrower than its room: a reveal would do %v, of %v: %v", less, ok, v.Limit, builds(s))
		}
	}
}

// The reach of a strip is put up on the ruler, and stays on its board: on whole
// millimetres a board of 120.4 mm takes no more than 120, likewise one of 120.7, and
// one of 120 mm a shortest length less.
func TestReachOnTheRuler(t *testing.T) {
	for wide, most := range map[units.Length]units.Length{1204 * mm / 10: 120 * mm, 1207 * mm / 10: 120 * mm, 120 * mm: 120*mm - units.Shortest} {
		s := plainCase()
		s.Rulers.Board, s.Rulers.Wrap, s.Cover.W = everyNanometre, units.WholeMillimetres, wide
		s.Quarter = rule.Quarter{Rule: rule.QuarterAlways, Reach: 130 * mm}
		if v, ok := refusal(s, "quarter.reach", folio.TooWide); !ok || v.Limit != most {
			t.Errorf("a board of %v: a reach of at most %v, want %v", wide, v.Limit, most)
		}
	}
}

// A second spine that is given too narrow is told so, with what would do, whatever
// covering and board are: on whole millimetres too, where what it goes round is no
// number of those.
func TestSecondSpineTooNarrow(t *testing.T) {
	for n := range units.Length(60) {
		s := plainCase()
		s.Row = boards.ForeEdgeFlap.Row()
		s.Row.Boards[3].Width = 9*mm + 1
		s.Covering.Caliper, s.Board.Caliper = (10+n*17)*units.Micrometre, 2*mm+n*7919
		v, ok := refusal(s, "row.boards[3].width", check.TooSmall)
		if !ok {
			t.Errorf("a covering of %v, a board of %v: %v", s.Covering.Caliper, s.Board.Caliper, builds(s))
			continue
		}
		for less, does := range map[units.Length]bool{0: true, mm: false} {
			s.Row.Boards[3].Width = v.Limit - less
			if _, refused := refusal(s, "row.boards[3].width", check.TooSmall); refused == does {
				t.Errorf("a covering of %v, a board of %v: %v less than what would do does %v", s.Covering.Caliper, s.Board.Caliper, less, !refused)
			}
		}
	}
}

// What is turned in past a board's edge, with the gaps as wide as they may come out, is
// no less than the shortest length: twice what would do is board and covering, that
// length and what the row may be longer, put up.
func TestTurnInWithWiderGaps(t *testing.T) {
	for more := range units.Length(4) {
		s := plainCase()
		s.Rulers, s.Placing = all(everyNanometre), mm/2+more
		s.Form, s.Spine, s.Hinge = boards.SoftSpine, rule.Spine{Contents: 9 * mm}, rule.Hinge{}
		s.Margin = rule.Margin{Ideal: 2 * mm}
		v, ok := refusal(s, "margin.ideal", folio.TurnInNarrow)
		twice := 2*(s.Board.Caliper+s.Covering.Caliper+units.Shortest) + s.Placing
		if over := 2*v.Limit - twice; !ok || over < 0 || over > 1 {
			t.Errorf("placed %v off, at least %v would do, half of %v", s.Placing, v.Limit, twice)
		}
	}
}

// Margins of 6.3 mm that no graduation keeps leave 12.6 mm to a cut, of which 12 are on
// the ruler and one is what is left: a reach of 11 mm, which a distance of 11 mm over the
// root of 2, 7.7781745... mm, has. Of 13.2 mm in all 7 are at the left and at the head, as
// less than 6.1 is not tolerated, and the cut at the tail right has 12.4; of 13.8 mm 6 are
// there, and the cut at the head left has 12. Of 6 mm, 3 a side,
// steps of 8 mm leave nothing at all.
func TestMitreBetweenGraduations(t *testing.T) {
	eights, err := units.NewRuler(8*mm, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		on                         units.Ruler
		tolerated, total, distance units.Length
		bound                      check.Bound
	}{
		{units.WholeMillimetres, 625 * mm / 100, 126 * mm / 10, 20 * mm, check.AtMost},
		{units.WholeMillimetres, 6 * mm, 138 * mm / 10, 84 * mm / 10, check.AtMost},
		{units.WholeMillimetres, 61 * mm / 10, 132 * mm / 10, 84 * mm / 10, check.AtMost},
		{eights, 3 * mm, 6 * mm, 2 * mm, check.NoBound},
	} {
		s := plainCase()
		s.Margin = rule.Margin{Ideal: 25 * mm, Least: c.tolerated, Tolerated: c.tolerated}
		open := openOf(s)
		s.Covering.Sheets = sheetOf(open.W+c.total, open.H+c.total)
		s.Mitre.Distance, s.Rulers.Wrap = c.distance, c.on
		v, ok := refusal(s, "mitre.distance", check.TooLarge)
		if !ok || v.Bound != c.bound || c.bound == check.AtMost && v.Limit != 7_778_174 || c.bound == check.NoBound && !strings.HasPrefix(v.Want, "wider margins") {
			t.Errorf("%v: at most %d would do, want 7778174: %v", c.total, v.Limit, builds(s))
		}
	}
}

// The margin that keeps the mitres of a narrow row on their halves does, on a ruler on
// which its height does not come out, and a graduation more does not.
func TestMitresOfANarrowRow(t *testing.T) {
	for k := range units.Length(10) {
		s := plainCase()
		s.Rulers.Board = units.TenthMillimetres
		s.Cover, s.Margin.Ideal = units.Size{W: 40 * mm, H: 250*mm + k*mm/10}, 110*mm
		v, ok := refusal(s, "margin.ideal", folio.MitresMeet)
		if !ok {
			t.Errorf("%v high: %v", s.Cover.H, builds(s))
			continue
		}
		for more, does := range map[units.Length]bool{0: true, mm: false} {
			s.Margin.Ideal = v.Limit + more
			if _, refused := refusal(s, "margin.ideal", folio.MitresMeet); refused == does {
				t.Errorf("%v high: %v more than what would do, %v, does: %v", s.Cover.H, more, v.Limit, !refused)
			}
		}
	}
}

// A closed gate whose left door comes to lie higher than before is no thinner: up to
// where both doors lie equally high, but for a part of a nanometre of two creases at the
// right, and beyond.
func TestThicknessOfAGate(t *testing.T) {
	for n := range units.Length(12) {
		s := unruledCase(0)
		s.Rulers, s.Row = all(everyNanometre), boards.DoubleSpineGate.Row()
		width := 9*mm + 7919*n
		aslant := units.Length(float64(width) / math.Sqrt2)
		was := units.Length(0)
		for _, by := range []units.Length{-mm, -1, 0, 1, 2} {
			for i := range s.Row.Joints {
				s.Row.Joints[i].Hinge = rule.Hinge{Width: width, Crease: rule.CreaseTwo}
				if i < 2 {
					s.Row.Joints[i].Hinge = rule.Hinge{Width: 2 * width, Crease: rule.CreaseAtOffset, Offset: aslant + by}
				}
			}
			now := mustClosed(t, mustBuild(t, s)).Thickness().Length()
			if now < was {
				t.Errorf("gaps of %v, creased at %v: %v thick, before it was %v", width, aslant+by, now, was)
			}
			was = now
		}
	}
}

// onABar is a mat by relation on a bar that is so high.
func onABar(high units.Length) folio.Spec {
	s := plainCase()
	by := place.Relation{Of: place.OfPanel, Less: 100 * mm}
	s.Fittings = []folio.Fitting{
		{Name: "bar", Kind: folio.Ornament{Size: units.Size{W: 60 * mm, H: high}, Thickness: mm}},
		{Name: "top", StandsOn: "bar", Kind: folio.Mat{}, Size: place.Sizing{W: by, H: by}},
	}
	return s
}

// On whole millimetres nothing goes on a bar 0.4 mm high: no relation mends that by
// taking more off.
func TestNothingGoesOnARest(t *testing.T) {
	s := onABar(4 * mm / 10)
	var told []check.Violation
	for v := range violations(t, edge{name: "on a rest"}, s) {
		told = append(told, v)
	}
	if !slices.ContainsFunc(told, func(v check.Violation) bool {
		return v.Path == "fittings[1].size.h" && v.Bound == check.NoBound
	}) {
		t.Errorf("%v", told)
	}
}

// The lap that leaves an opening in a usual print does: twice it and a step of the ruler,
// 1/64 in, are no more than the print, of an odd number of nanometres or not.
func TestLapOfAUsualPrint(t *testing.T) {
	refused := 0
	for lap := 36*mm + 1; lap < 52*mm; lap += mm {
		by := place.Relation{Of: place.OfPanel, Less: 2 * mm}
		s := unruledCase(0)
		s.Rulers.Fitting = units.SixtyFourths
		frame := folio.Frame{Picture: pocket.Content{Name: "print", Thickness: mm / 5}, Rail: 48 * mm, Lap: lap}
		s.Fittings = []folio.Fitting{{Size: place.Sizing{W: by, H: by, Picture: place.PictureUsual}, Kind: frame}}
		v, ok := refusal(s, "fittings[0].kind.lap", folio.TooWide)
		if !ok {
			continue
		}
		refused++
		frame.Lap = v.Limit
		s.Fittings[0].Kind = frame
		if _, again := refusal(s, "fittings[0].kind.lap", folio.TooWide); again {
			t.Errorf("a lap of %v does not do for %v: %v", v.Limit, lap, builds(s))
		}
	}
	if refused == 0 {
		t.Error("no lap was too wide")
	}
}

// A relation that comes to more than 10 m, 393.70078... in, is told to keep to what is
// no more.
func TestLongestRelation(t *testing.T) {
	s := unruledCase(0)
	s.Rulers = rule.Rulers{Main: units.Sixteenths}
	s.Fittings = []folio.Fitting{{Kind: folio.Mat{}, Size: place.Sizing{W: place.Relation{Of: place.OfPanel, More: units.Longest}, H: place.Relation{Of: place.OfPanel}}}}
	if v, ok := refusal(s, "fittings[0].size.w.more", check.TooLarge); !ok || v.Want != "at most 393.7007 in" {
		t.Errorf("%v", builds(s))
	}
}

// Flaps whose gaps are as wide as what turns in them shut, with room under the flap or
// none, whatever they are measured by: bent round, a gap is never put down below what it
// goes past, and what two gaps add that are not alike is never less than was counted.
func TestRoundGapsOfTwoFlaps(t *testing.T) {
	um, _ := units.NewRuler(units.Micrometre, units.MetricDecimal)
	for n := range units.Length(24) {
		for _, ruler := range []units.Ruler{everyNanometre, um, units.TenthMillimetres} {
			for _, form := range []boards.Form{boards.TwoFlaps, boards.ForeEdgeFlap} {
				for _, crease := range []rule.CreasePlace{rule.CreaseRound, rule.CreaseTwo} {
					s := unruledCase(int(n % 12))
					s.Rulers, s.Form, s.Hinge = all(ruler), form, rule.Hinge{Rule: rule.HingeLeast, Crease: crease}
					s.Closing.UnderFlap = mm * (n % 2)
					s.Spine.Width += 7919 * n
					if err := builds(s); err != nil {
						t.Errorf("%v by %v, %v, a spine of %v: %v", form, ruler, crease, s.Spine.Width, err)
					}
				}
			}
		}
	}
}

// A thing on the second spine, seen from the table: it has what rises to the front
// cover, S and two gaps of one kind, less what it begins past the crease, one gap of
// another kind. What is told is no more than that, whatever parts of a nanometre the
// gaps add, and less by no more than one for each of the three.
func TestRoomBesideUnlikeGaps(t *testing.T) {
	const root, round = math.Sqrt2 / 2, 2 / math.Pi
	for n := range 60 {
		s := unruledCase(n)
		s.Rulers, s.Row = all(everyNanometre), boards.ForeEdgeFlap.Row()
		s.Closing = closing.Allowance{UnderFlap: 26 * mm, Adhesive: closing.AdhesiveFilm{Caliper: units.None}}
		first := rule.Hinge{Crease: rule.CreaseTwo, Width: 9*mm + 7919*units.Length(n)}
		second := rule.Hinge{Crease: rule.CreaseRound, Width: 11*mm + 7907*units.Length(n)}
		k, own := root*float64(first.Width), round*float64(second.Width)
		if n%2 > 0 {
			first, second, k, own = second, first, own, k
		}
		for i, h := range []rule.Hinge{first, first, second, second} {
			s.Row.Joints[i].Hinge = h
		}
		base, wide := s.Board.Caliper+s.Liner.Caliper, 6*mm+1
		stands := folio.Ornament{Size: units.Size{W: wide, H: 40 * mm}, Thickness: 8*mm + 1}
		for above, from := range map[bool]units.Length{false: 12*mm + 1, true: s.Spine.Width + 2*units.Length(k) - units.Length(own) + 5*mm} {
			s.Fittings = []folio.Fitting{{Name: "badge", Panel: boards.Spine2, Kind: stands, Place: place.Place{Across: place.Left, Offset: units.Point{X: from}}}}
			p := mustBuild(t, s)
			on, _ := p.Board(boards.Spine2)
			for f := range p.Fittings() {
				from = f.Rect().Min.X - on.Rect().Min.X
			}
			exact := float64(s.Spine.Width) + 2*k - own - float64(base+from+wide+s.Covering.Caliper)
			if above {
				exact = float64(from) + own - float64(s.Spine.Width) - 2*k - float64(s.Covering.Caliper)
			}
			below := func(what string, got units.Length, exact float64) {
				if d := exact - float64(got); d < -1e-4 || d > 3 {
					t.Errorf("%d: %s is %d, exactly %.4f", n, what, got, exact)
				}
			}
			if tight, ok := p.TightestOf(closing.BesideSpine, false); !ok {
				t.Errorf("%d: nothing is beside the spine", n)
			} else {
				below("the room beside the spine", tight.Room().Length(), exact)
			}
			left, _ := p.Board(boards.LeftCover)
			for over, room := range p.Beside(boards.LeftCover, false) {
				if above || !over.Overlaps(left.Rect()) {
					continue
				}
				below("room over the front cover", room, exact+float64(s.Covering.Caliper))
				// The cover ends where the other one does, and the thing reaches over its
				// edge by what it is thick less how far the fold lies beyond that.
				reach := float64(base+stands.Thickness) - own
				if d := float64(over.Max.X-left.Rect().Min.X) - reach; d < -1e-4 || d > 2 {
					t.Errorf("%d: what is over the front cover reaches %d, exactly %.4f", n, over.Max.X-left.Rect().Min.X, reach)
				}
			}
		}
	}
}

// A thing on a spine that begins above a flap, which is folded in between the covers: over
// the inside of the flap is what the thing begins past its crease, a gap aslant and more,
// less how high the flap lies, the spine and two such gaps less the half circle of its own.
// What is told is no more than that, and less by no more than a nanometre for each.
func TestRoomOverAFlapUnderAThing(t *testing.T) {
	for n := range 60 {
		s := unruledCase(n)
		s.Rulers, s.Closing = all(everyNanometre), closing.Allowance{Adhesive: closing.AdhesiveFilm{Caliper: units.None}}
		s.Spine.Width += 30 * mm
		aslant := rule.Hinge{Crease: rule.CreaseTwo, Width: 9*mm + 7919*units.Length(n)}
		round := rule.Hinge{Crease: rule.CreaseRound, Width: 58*mm + 7907*units.Length(n)}
		s.Row = boards.Row{
			Boards: []boards.Board{{Role: boards.LeftCover}, {Role: boards.Spine1}, {Role: boards.RightCover}, {Role: boards.Panel1, Width: 100*mm + 1}},
			Joints: []boards.Joint{{Hinge: aslant}, {Hinge: aslant}, {Hinge: round}}, Main: boards.LeftCover,
		}
		s.Fittings = []folio.Fitting{{Name: "badge", Panel: boards.Spine1, Kind: folio.Ornament{Size: units.Size{W: 3*mm + 1, H: 40 * mm}, Thickness: 50*mm + 1},
			Place: place.Place{Across: place.Right, Offset: units.Point{X: 2*mm + 1}}}}
		p := mustBuild(t, s)
		on, _ := p.Board(boards.Spine1)
		var from units.Length
		for f := range p.Fittings() {
			from = f.Rect().Min.X - on.Rect().Min.X
		}
		gap := float64(aslant.Width) / math.Sqrt2
		exact := float64(from-s.Board.Caliper-s.Liner.Caliper-on.Size().W) - gap + float64(round.Width)*2/math.Pi
		told := 0
		for _, room := range p.Beside(boards.Panel1, false) {
			told++
			if d := exact - float64(room); d < -1e-4 || d > 4 {
				t.Errorf("%d: over the flap are %d, exactly %.4f", n, room, exact)
			}
		}
		if told == 0 {
			t.Errorf("%d: nothing is over the flap", n)
		}
	}
}

// Two doors that lie equally high lie side by side over the back, and face each other's
// place; where their spines and creases add up to the same but for parts of a nanometre of
// a gap aslant, they do not.
func TestDoorsEquallyHigh(t *testing.T) {
	for n := range units.Length(24) {
		width := 9*mm + 7919*n
		aslant := units.Length(float64(width) / math.Sqrt2) // and a part
		for more := units.Length(-1); more < 4; more++ {
			s := unruledCase(0)
			s.Rulers, s.Row = all(everyNanometre), boards.DoubleSpineGate.Row()
			two, one := rule.Hinge{Width: width, Crease: rule.CreaseTwo}, rule.Hinge{Width: 2 * width, Crease: rule.CreaseAtOffset, Offset: aslant}
			even := rule.Hinge{Width: 2 * width, Crease: rule.CreaseAtOffset, Offset: aslant - mm}
			for i := range s.Row.Joints {
				s.Row.Joints[i].Hinge = []rule.Hinge{two, two, one, one}[i]
			}
			s.Row.Boards[1].Width, s.Row.Boards[3].Width = 30*mm, 30*mm+more
			for range 2 {
				p := mustBuild(t, s)
				if r, together := p.Facing(units.Rect{}, boards.LeftDoor, boards.RightDoor); together {
					t.Errorf("a gap of %v aslant and a crease at %v, a spine wider by %d: side by side at %v", width, aslant, more, r)
				}
				s = inMirror(s)
			}
			s.Row.Joints[0].Hinge, s.Row.Joints[1].Hinge = even, even
			s.Row.Boards[1].Width += 2 * mm
			if _, together := mustBuild(t, s).Facing(units.Rect{}, boards.LeftDoor, boards.RightDoor); together != (more == 0) {
				t.Errorf("creases at %v and at %v, spines that make up for that and %d: side by side %v", aslant-mm, aslant, more, together)
			}
		}
	}
}

// The edge that lies in a round fold beside a spine has the room there that is left of 2/π
// of its gap, which is told as no more than it is.
func TestRoomInARoundFold(t *testing.T) {
	for n := range units.Length(20) {
		s := unruledCase(int(n % 12))
		s.Rulers, s.Closing = all(everyNanometre), closing.Allowance{Ease: units.None, UnderFlap: 26 * mm}
		s.Row = boards.ForeEdgeFlap.Row()
		wide := 14*mm + 7907*n
		for i := 2; i < 4; i++ {
			s.Row.Joints[i].Hinge = rule.Hinge{Width: wide, Crease: rule.CreaseRound}
		}
		tight, ok := mustBuild(t, s).TightestOf(closing.AtForeEdge, false)
		exact := float64(wide)*2/math.Pi - float64(s.Board.Caliper+s.Liner.Caliper+s.Covering.Caliper)
		if d := exact - float64(tight.Room().Length()); !ok || d < -1e-4 || d > 1 {
			t.Errorf("%d: a gap of %v leaves %d at the fore edge, exactly %.4f", n, wide, tight.Room().Length(), exact)
		}
	}
}

// The spine board that would do is put up on its ruler. What is laid from the flap's edge of its
// panel comes as much further past the front cover as that is wider, so that the one that is
// named does, and one a step narrower does not; what is laid from the other edge stays as far
// from the cover, however wide it is.
func TestSpineBesideOnItsRuler(t *testing.T) {
	for n := range 12 {
		for _, across := range []place.Align{place.Left, place.Right} {
			build := func(under units.Length) (tight folio.Tight, wide units.Length) {
				s := unruledCase(n)
				s.Rulers.Board, s.Form, s.Closing.UnderFlap = units.WholeMillimetres, boards.ForeEdgeFlap, under
				s.Fittings = []folio.Fitting{{Name: "badge", Panel: boards.Spine2, Kind: folio.Ornament{Size: units.Size{W: 6*mm + 1, H: 40 * mm}, Thickness: 8*mm + 1},
					Place: place.Place{Across: across, Offset: units.Point{X: 9*mm + 99_991*units.Length(n)}}}}
				p := mustBuild(t, s)
				on, _ := p.Board(boards.Spine2)
				tight, ok := p.TightestOf(closing.BesideSpine, false)
				if !ok {
					t.Fatalf("%d: nothing is beside the spine", n)
				}
				return tight, on.Size().W
			}
			tight, wide := build(19 * mm)
			would := tight.WouldDo().Length()
			if across == place.Left {
				if other, _ := build(30 * mm); would != wide || other.Room().Length() != tight.Room().Length() {
					t.Errorf("%d: a spine of %v would do, of %v; with a wider one %v", n, would, wide, other)
				}
				continue
			}
			if would%mm != 0 {
				t.Errorf("%d: a spine of %v would do", n, would)
			}
			for _, less := range []units.Length{0, mm} {
				if there, on := build(19*mm + would - wide - less); on != would-less || there.Eased() != (less == 0) {
					t.Errorf("%d: of %v a spine of %v would do, of %v: %v", n, wide, would, on, there)
				}
			}
		}
	}
}

// Where no sheet takes a strip from a fold to the next, one as high as the largest that
// there is would do, if it is so much wider: as high, told in inches, is no lower.
func TestWiderSheetForAStrip(t *testing.T) {
	for _, high := range []units.Length{95*mm + 1, 96*mm + 1, 97*mm + 1, 98*mm + 1, 99*mm + 1, 100*mm + 1} {
		s := unruledCase(0)
		s.Rulers.Main, s.Rulers.Fitting = units.Sixteenths, units.SixtyFourths
		s.Stocks[0].Sheets = sheetOf(60*mm, high)
		s.Fittings = []folio.Fitting{{Stock: "card", Kind: folio.Folded{Kind: pocket.FoldedAccordion{Content: pocket.IDCard(), Panels: 5}}}}
		v, ok := refusal(s, "stocks[0].sheets", folio.SheetSmall)
		if !ok || !strings.Contains(v.Want, "to join the accordion") {
			t.Fatalf("%v high: %v", high, builds(s))
		}
		sides := asks(t, v.Want)
		if len(sides) != 2 || sides[0] <= 60*mm || sides[1] < high || sides[1] >= high+units.Inch/10_000 || strings.Count(v.Want, "at least") != 1 {
			t.Errorf("%v high: %q", high, v.Want)
		}
	}
}

// A bar 1.4 mm high takes a mat of a whole millimetre: what the relation takes off is
// told, and taking it off does.
func TestOneStepGoesOnABar(t *testing.T) {
	s := onABar(14 * mm / 10)
	v, ok := refusal(s, "fittings[1].size.h.less", folio.TooTall)
	if !ok {
		t.Fatal(builds(s))
	}
	s.Fittings[1].Size.H.Less = v.Limit
	for f := range mustBuild(t, s).Fittings() {
		if f.Name() == "top" && f.Rect().Size().H != mm {
			t.Errorf("taken off %v, it is %v high", v.Limit, f.Rect().Size().H)
		}
	}
}

// A cover that measures too little is told what was planned, and one that measures too
// much that with its covering of 0.2 mm at both edges.
func TestWhatWasPlannedIsTold(t *testing.T) {
	p := mustBuild(t, plainCase())
	for got, want := range map[units.Length]units.Length{168*mm - 1: 170 * mm, 1724*mm/10 + 1: 1704 * mm / 10} {
		q, err := p.Refit(refit.Measured{Width: 277 * mm, Height: got})
		if err != nil {
			t.Fatal(err)
		}
		told := false
		for w := range q.Warnings() {
			if w.Code == folio.WarnMeasured && w.Path == "measured.height" {
				if told = true; w.Got != got || w.Want != want {
					t.Errorf("%v measured: %v instead of %v, want %v", got, w.Got, w.Want, want)
				}
			}
		}
		if !told {
			t.Errorf("%v measured: no warning", got)
		}
	}
}

// A corner cut that no plan made has no lengths.
func TestCornerCutOfNoPlan(t *testing.T) {
	var c folio.CornerCut
	if c.Leg().Length() != 0 || c.Reach().Length() != 0 || c.Overlap() != 0 || c.Edge() != 0 {
		t.Errorf("a leg of %v, a reach of %v, an overlap of %v, an edge of %v", c.Leg(), c.Reach(), c.Overlap(), c.Edge())
	}
}

// What is longer than 10 m when it is open is told the greatest width of a cover, caliper
// of a covering and placing of boards that would do, in numbers that are no greater: what is
// told does, and so does the limit, and a nanometre more does not. 10 m are 393.70078… in.
func TestTooLongIsToldOnTheRightSide(t *testing.T) {
	row := folio.Spec{Form: boards.OwnRow, Row: boards.Row{
		Boards: []boards.Board{{Role: boards.LeftCover}, {Role: boards.Spine1}, {Role: boards.RightCover}, {Role: boards.Panel1}},
		Joints: []boards.Joint{{}, {}, {Fold: score.Mountain}},
	}}
	exact, err := units.NewRuler(1, units.InchFraction)
	if err != nil {
		t.Fatal(err)
	}
	number := regexp.MustCompile(`[0-9.]+ in`)
	for _, c := range []struct {
		spec  folio.Spec
		path  string
		field func(*folio.Spec) *units.Length
	}{
		{folio.Spec{}, "cover.w", func(s *folio.Spec) *units.Length { return &s.Cover.W }},
		{row, "cover.w", func(s *folio.Spec) *units.Length { return &s.Cover.W }},
		{folio.Spec{}, "cover.h", func(s *folio.Spec) *units.Length { return &s.Cover.H }},
		{folio.Spec{}, "covering.caliper", func(s *folio.Spec) *units.Length { return &s.Covering.Caliper }},
		{folio.Spec{}, "placing", func(s *folio.Spec) *units.Length { return &s.Placing }},
		{row, "placing", func(s *folio.Spec) *units.Length { return &s.Placing }},
	} {
		for k := range units.Length(6) {
			s := c.spec
			s.Cover, s.Spine.Width, s.Rulers = units.Size{W: 200 * mm, H: 200*mm + k}, 20*mm+k%3, all(exact)
			s.Rulers.Main = units.Sixteenths
			*c.field(&s) = 9_999_999*units.Micrometre + k
			v, ok := refusal(s, c.path, check.TooLarge)
			if !ok || v.Nature != check.Impossible || v.Bound != check.AtMost || v.By != *c.field(&s)-v.Limit {
				t.Errorf("%s: %+v: %v", c.path, v, builds(s))
				continue
			}
			for i, text := range number.FindAllString(v.Want, -1) {
				told, err := units.Parse(text)
				limit := v.Limit
				if i > 0 { // of it
					limit = units.Longest
				}
				if err != nil || told > limit || told < limit-units.Thou/10 {
					t.Errorf("%s: %q, the limit is %v", c.path, v.Want, limit)
				}
				if i == 0 {
					*c.field(&s) = told
					if again, still := refusal(s, c.path, check.TooLarge); still {
						t.Errorf("%s: with %v it is refused again: %v", c.path, told, again)
					}
				}
			}
			for more, refused := range map[units.Length]bool{0: false, 1: true} {
				*c.field(&s) = v.Limit + more
				if again, still := refusal(s, "", check.TooLarge); still != refused { // then of the cover
					t.Errorf("%s: with %v refused %v: %v", c.path, v.Limit+more, still, again)
				}
			}
		}
	}
}

// A thing so thick that no spine is wide enough for it is told that not even 10 m would do,
// 393.70078… in, in a number that is not longer.
func TestNotEvenTheLongestSpine(t *testing.T) {
	s := plainCase()
	s.Rulers.Main = units.Sixteenths
	s.Fittings = []folio.Fitting{{Name: "oar", Kind: folio.Ornament{Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: 9_999_999 * units.Micrometre}}}
	v, ok := refusal(s, "spine.width", folio.NotClosing)
	if !ok || v.Bound != check.NoBound || v.Want != "thinner things there: not even 393.7007 in would do" {
		t.Errorf("%v: %v", v, builds(s))
	}
}

// Where no cover by itself would do, 10 m are told, no longer than they are; and of a
// covering that is too thick whatever the cover, or of boards too far out of place, the
// most that the smallest cover takes.
func TestTooLongWhateverTheCover(t *testing.T) {
	number := regexp.MustCompile(`[0-9.]+ in`)
	for path, s := range map[string]folio.Spec{
		"block.page.w": {Block: boards.Block{Page: units.Size{W: 9 * units.Metre, H: 200 * mm}, Thickness: 20 * mm}},
		"cover.w":      {Cover: units.Size{W: 200 * mm, H: 200 * mm}, Spine: rule.Spine{Width: 20 * mm}, Hinge: rule.Hinge{Width: 6 * units.Metre}},
	} {
		v, ok := refusal(s, path, check.TooLarge)
		numbers := number.FindAllString(v.Want, -1)
		if !ok || v.Nature != check.Impossible || len(numbers) != 1 || strings.Contains(v.Want, "no smaller cover would do") != (path == "cover.w") {
			t.Errorf("%s: %v", path, builds(s))
			continue
		}
		if told, err := units.Parse(numbers[0]); err != nil || told > units.Longest || told <= units.Longest-units.Thou/10 {
			t.Errorf("%s: %q", path, v.Want)
		}
	}
	exact, err := units.NewRuler(1, units.InchFraction)
	if err != nil {
		t.Fatal(err)
	}
	row := boards.Row{Boards: []boards.Board{{Role: boards.LeftCover}, {Role: boards.Spine1}, {Role: boards.RightCover}, {Role: boards.Panel1}}, Joints: []boards.Joint{{}, {}, {Fold: score.Mountain}}}
	for path, field := range map[string]func(*folio.Spec) *units.Length{
		"covering.caliper": func(s *folio.Spec) *units.Length { return &s.Covering.Caliper }, "placing": func(s *folio.Spec) *units.Length { return &s.Placing },
	} {
		for k := range units.Length(4) {
			s := folio.Spec{Cover: units.Size{W: 9 * units.Metre, H: 200 * mm}, Spine: rule.Spine{Width: 20*mm + k}, Rulers: all(exact)}
			if path == "placing" { // of three boards in as many gaps
				s.Row = row
			}
			*field(&s) = 9 * units.Metre
			v, ok := refusal(s, path, check.TooLarge)
			if !ok {
				t.Fatal(builds(s))
			}
			s.Cover.W = units.Shortest
			for more, refused := range map[units.Length]bool{0: false, 1: true} {
				*field(&s) = v.Limit + more
				_, still := refusal(s, path, check.TooLarge)
				if path == "placing" { // else it is the covering that is too thick
					_, still = refusal(s, "", check.TooLarge)
				}
				if still != refused {
					t.Errorf("%s: %v with the smallest cover: refused %v: %v", path, *field(&s), still, builds(s))
				}
			}
		}
	}
}

// Of a ground that is as wide as the least there can be, a step of the ruler, nothing
// may be taken off.
func TestNothingIsTakenOffTheLeast(t *testing.T) {
	s := metric()
	s.Fittings = []folio.Fitting{
		{Name: "bar", Kind: folio.Mat{Size: units.Size{W: mm, H: 20 * mm}}},
		{Name: "top", StandsOn: "bar", Kind: folio.Mat{Size: units.Size{H: 10 * mm}}, Size: place.Sizing{W: place.Relation{Of: place.OfGround, Less: 5 * mm}}},
	}
	v, ok := refusal(s, "fittings[1].size.w.less", folio.TooWide)
	if !ok || v.Bound != check.AtMost || v.Limit != 0 {
		t.Fatalf("%+v: %v", v, builds(s))
	}
	s.Fittings[1].Size.W.Less = v.Limit
	mustBuild(t, s)
}
