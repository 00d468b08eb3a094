package stick_test

import (
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stick"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/foliotest"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

const mm = units.Millimetre

// build builds a folio that can be made.
func build(t *testing.T, s folio.Spec) *folio.Plan {
	t.Helper()
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// tapes returns the lengths of tape by width, and checks that terms add up.
func tapes(t *testing.T, n stick.Needs) map[units.Length]units.Length {
	t.Helper()
	out := map[units.Length]units.Length{}
	last := units.Longest
	for tape := range n.Tapes() {
		var sum units.Length
		type piece struct {
			part   string
			length units.Length
		}
		met := map[piece]bool{}
		for term := range tape.Length().Terms() {
			sum += units.Length(term.Count) * term.Length
			if p := (piece{term.Label, term.Length}); met[p] {
				t.Errorf("two terms for %v", p)
			} else {
				met[p] = true
			}
		}
		if sum != tape.Length().Length() || tape.Width() >= last {
			t.Errorf("tape %v: terms make %v of %v", tape.Width(), sum, tape.Length())
		}
		last = tape.Width()
		out[tape.Width()] = sum
	}
	return out
}

// glued returns the area glued for a kind of part, and how many parts of it
// there are.
func glued(n stick.Needs, k work.PartKind) (mm2 float64, parts int) {
	for g := range n.Glued() {
		if g.Part().Kind == k {
			mm2, parts = mm2+g.Area().SquareMillimetres(), parts+1
		}
	}
	return mm2, parts
}

// By hand, with tape of 6 mm and then with glue.
func TestNeedsByHand(t *testing.T) {
	s := foliotest.Weighed()
	s.Closing.Adhesive.TapeWidth = 6 * mm
	s.Fittings = append(s.Fittings, folio.Fitting{
		Name: "frame", Panel: boards.LeftCover, Kind: folio.Frame{Picture: pocket.Content{Size: units.Size{W: 60 * mm, H: 90 * mm}}, Lap: 3 * mm, Rail: 12 * mm, FoamWidth: 6 * mm, Ease: mm},
	})
	p := build(t, s)
	n := stick.Of(p)
	// Mat 90 x 130: 2 × 130 + 2 × (90 − 12) = 416. Its picture 80 x 120: 2 ×
	// 120 + 2 × 68 = 376. The badge 20 x 20: 2 × 20 + 2 × 8 = 56.
	if got := tapes(t, n); len(got) != 1 || got[6*mm] != 848*mm {
		t.Errorf("tape %v", got)
	}
	// Two strips along the sides of a frame of 54 + 24 by 84 + 24, and one between
	// them: they leave at least 61, and lie 2 from its edges: (78 - 61) / 2 - 6 = 2.5,
	// down, so that there are 78 - 2 x (2 + 6) = 62 between them.
	foam := map[units.Size]int{}
	for f := range n.Foam() {
		if foam[f.Size()] > 0 {
			t.Errorf("two entries for foam of %v", f.Size())
		}
		foam[f.Size()] += f.Quantity()
		if f.Part().Kind != work.PartFitting || f.Part().Name != "frame" {
			t.Errorf("foam for %v", f.Part())
		}
	}
	if len(foam) != 2 || foam[units.Size{W: 6 * mm, H: 108 * mm}] != 2 || foam[units.Size{W: 62 * mm, H: 6 * mm}] != 1 {
		t.Errorf("foam %v", foam)
	}
	// Wrap 258 x 180 less its corners, liner 222 x 144.
	leg := p.Wrap().Corners()[0].Leg().Length().Millimetres()
	want := 258*180 - 2*leg*leg + 222*144
	if got := n.Glue().SquareMillimetres(); math.Abs(got-want) > 1e-3 {
		t.Errorf("glue over %v mm², want %v", got, want)
	}
	s.Closing.Adhesive.Glue = true
	n = stick.Of(build(t, s))
	if got := tapes(t, n); len(got) != 0 {
		t.Errorf("tape where glue was asked for: %v", got)
	}
	want += 90*130 + 80*120 + 20*20
	if got := n.Glue().SquareMillimetres(); math.Abs(got-want) > 1e-3 {
		t.Errorf("glue over %v mm², want %v", got, want)
	}
}

// Only what is glued takes tape. A slip's front is 69 mm wide, clear 57 for a
// card of 53.98 mm with 3 mm of ease, and 63 mm high: it is stuck down along both
// sides, 57 mm above the foot, and along the foot, 6 mm wide each. Tape of 12 mm
// goes nowhere there.
func TestASlipTakesTapeWhereItIsGlued(t *testing.T) {
	s := foliotest.Weighed()
	s.Closing.Adhesive.TapeWidth = 12 * mm
	s.Fittings = []folio.Fitting{{Name: "slip", Kind: folio.Folded{Kind: pocket.Slip{Content: pocket.IDCard().Turned(), Glue: 6 * mm}}}}
	if got := tapes(t, stick.Of(build(t, s))); len(got) != 1 || got[6*mm] != (2*57+69)*mm {
		t.Errorf("tape %v, want 183 mm of 6 mm", got)
	}
}

// Glued edges of two widths of tape and more have it along all four of their edges:
// two sides of 16 x 57 mm, 2 × 57 + 2 × 4 each, and the foot of a front of 57 + 32
// mm, 2 × 89 + 2 × 4. It is one slip, with terms of its own: a second slip, with
// another name, adds as much.
func TestBroadEdgesAreTapedAround(t *testing.T) {
	s := foliotest.Weighed()
	s.Closing.Adhesive.TapeWidth = 6 * mm
	slip := folio.Fitting{Name: "slip", Kind: folio.Folded{Kind: pocket.Slip{Content: pocket.IDCard().Turned(), Glue: 16 * mm}}}
	s.Fittings = []folio.Fitting{slip}
	if got := tapes(t, stick.Of(build(t, s))); len(got) != 1 || got[6*mm] != (2*122+186)*mm {
		t.Errorf("tape %v, want 430 mm of 6 mm", got)
	}
	other := slip
	other.Name, other.Panel = "other slip", boards.LeftCover
	s.Fittings = append(s.Fittings, other)
	parts := map[string]units.Length{}
	for tape := range stick.Of(build(t, s)).Tapes() {
		for term := range tape.Length().Terms() {
			parts[term.Label] += units.Length(term.Count) * term.Length
		}
	}
	if len(parts) != 2 || parts["slip"] != 430*mm || parts["other slip"] != 430*mm {
		t.Errorf("tape %v, want 430 mm for each slip", parts)
	}
}

// A flap's leaf is not taped shut: its tab is, 10 mm of 80 mm or so, and what it
// carries.
func TestAFlapIsTapedByItsTab(t *testing.T) {
	s := foliotest.Weighed()
	s.Closing.Adhesive.TapeWidth = 6 * mm
	s.Fittings = []folio.Fitting{{Name: "flap", Kind: folio.Folded{Kind: pocket.Flap{Leaf: units.Size{W: 80 * mm, H: 100 * mm}}}}}
	// One length along the middle of a tab less than two widths deep.
	if got := tapes(t, stick.Of(build(t, s))); len(got) != 1 || got[6*mm] != 80*mm {
		t.Errorf("tape %v, want 80 mm", got)
	}
}

// Once the cover is made and measured, its covering is pasted: what is glued is the
// liner, of the size that it was refitted to. What is taped is as it was.
func TestACoverThatWasMeasuredIsPastedAlready(t *testing.T) {
	p := build(t, foliotest.Weighed())
	made, err := p.Refit(refit.Measured{Width: p.OpenWidth().Length() + mm, Height: p.OpenHeight().Length()})
	if err != nil {
		t.Fatal(err)
	}
	n := stick.Of(made)
	var liner units.Size
	for piece := range made.Pieces() {
		if piece.Role() == stock.LinerPiece {
			liner = piece.Size()
		}
	}
	if got, parts := glued(n, work.PartLiner); parts != 1 || n.Glue() != liner.Area() || got == 0 {
		t.Errorf("glue over %v, the liner is %v", n.Glue(), liner)
	}
	if diff := cmp.Diff(tapes(t, stick.Of(p)), tapes(t, n)); diff != "" {
		t.Error(diff)
	}
}

// An edge strip is pasted all over, with the liner: in a Z with a gap of 1 mm, boards of 2 mm
// and both inset and lap of 3 mm it is 1 + 2 x 8 mm wide; each of the two runs of the liner
// is 6 mm less than its two boards of 100 mm and the gap between them.
func TestEdgeStripsArePasted(t *testing.T) {
	p := build(t, folio.Spec{
		Form: boards.FourPanelZ, Cover: units.Size{W: 100 * mm, H: 150 * mm}, Spine: rule.Spine{Contents: 5 * mm}, Board: stock.Stock{Caliper: 2 * mm},
		Rulers: rule.Rulers{Main: units.WholeMillimetres}, Lining: rule.Lining{Rule: rule.LiningRuns},
	})
	wide := 17 * mm
	for g := range p.Gaps() {
		if g.Width() > mm {
			wide += 2*100*mm + g.Width() - 6*mm
		}
	}
	if got, _ := glued(stick.Of(p), work.PartLiner); got != (units.Size{W: wide, H: 144 * mm}).Area().SquareMillimetres() {
		t.Errorf("glue over %v mm², want %v wide", got, wide)
	}
}

// A fitting may be called what parts of the case are called: its glue is its own.
func TestNamesOfTheCase(t *testing.T) {
	plain := foliotest.Weighed()
	plain.Closing.Adhesive.Glue = true
	named := plain
	named.Fittings = append([]folio.Fitting(nil), plain.Fittings...)
	named.Fittings[0].Name, named.Fittings[1].Name = "liner", "wrap"
	a, b := stick.Of(build(t, plain)), stick.Of(build(t, named))
	if a.Glue() != b.Glue() {
		t.Errorf("glue over %v, with other names %v", a.Glue(), b.Glue())
	}
	for _, k := range []work.PartKind{work.PartWrap, work.PartLiner, work.PartFitting} {
		one, n := glued(a, k)
		two, m := glued(b, k)
		if one != two || n != m || one == 0 {
			t.Errorf("%v: %v mm² of %d parts, with other names %v of %d", k, one, n, two, m)
		}
	}
}

// In quarter style every piece of the covering is pasted once.
func TestQuarterStyleIsPastedOnce(t *testing.T) {
	s := foliotest.Weighed()
	s.Quarter.Rule = rule.QuarterAlways
	p := build(t, s)
	want := 0.0
	for q := range p.Pieces() {
		if r := q.Role(); r == stock.CoveringPiece || r == stock.StripPiece {
			want += q.Area().SquareMillimetres() * float64(q.Quantity())
		}
	}
	if got, n := glued(stick.Of(p), work.PartWrap); math.Abs(got-want) > 1e-3 || want == 0 || n != 1 {
		t.Errorf("pasted over %v mm² in %d entries, the pieces have %v", got, n, want)
	}
}

// Glued edges 12 mm wide of a slip, two of 57 mm and one of 57 + 24 mm, and tape of
// every width beside the two that change how they are stuck: theirs and half of it.
func TestTapeByWidth(t *testing.T) {
	for _, c := range []struct {
		edge, tape, wide units.Length
		want             []units.Term
	}{
		{12 * mm, 12*mm + 1, 12 * mm, []units.Term{units.N(2, "slip", 57*mm), units.N(1, "slip", 81*mm)}},
		{12 * mm, 12 * mm, 12 * mm, []units.Term{units.N(2, "slip", 57*mm), units.N(1, "slip", 81*mm)}},
		{12 * mm, 6*mm + 1, 6*mm + 1, []units.Term{units.N(2, "slip", 57*mm), units.N(1, "slip", 81*mm)}},
		{12 * mm, 6 * mm, 6 * mm, []units.Term{units.N(4, "slip", 57*mm), units.N(2, "slip", 81*mm)}},
		{12 * mm, 5 * mm, 5 * mm, []units.Term{units.N(4, "slip", 57*mm), units.N(6, "slip", 2*mm), units.N(2, "slip", 81*mm)}},
		{12*mm + 1, 6 * mm, 6 * mm, []units.Term{units.N(4, "slip", 57*mm), units.N(6, "slip", 1), units.N(2, "slip", 81*mm+2)}},
	} {
		s := foliotest.Weighed()
		s.Closing.Adhesive.TapeWidth = c.tape
		s.Fittings = []folio.Fitting{{Name: "slip", Kind: folio.Folded{Kind: pocket.Slip{Content: pocket.IDCard().Turned(), Glue: c.edge}}}}
		n := 0
		for tape := range stick.Of(build(t, s)).Tapes() {
			n++
			if got := slices.Collect(tape.Length().Terms()); tape.Width() != c.wide || !slices.Equal(got, c.want) {
				t.Errorf("edges of %v, tape of %v: %v of %v", c.edge, c.tape, tape.Length(), tape.Width())
			}
		}
		if n != 1 {
			t.Errorf("edges of %v, tape of %v: %d widths", c.edge, c.tape, n)
		}
	}
}

// Tape along all four edges of 20 x 20 mm is all of one width, however short the two
// lengths between the others are.
func TestTapeKeepsItsWidth(t *testing.T) {
	for wide, want := range map[units.Length]units.Length{
		4 * mm: (2*20 + 2*12) * mm, 8 * mm: (2*20 + 2*4) * mm, 10*mm - 1: (2*20)*mm + 4, 10*mm + 1: 20 * mm, 20 * mm: 20 * mm,
	} {
		s := foliotest.Weighed()
		s.Closing.Adhesive.TapeWidth = wide
		s.Fittings = s.Fittings[1:]
		if got := tapes(t, stick.Of(build(t, s))); len(got) != 1 || got[wide] != want {
			t.Errorf("tape of %v: %v, want %v", wide, got, want)
		}
	}
}

// The widest tape comes first, though a narrower one is stuck on before: the glued
// edges of a slip are 6 mm wide, the badge takes the tape of 8 mm.
func TestTheWidestTapeFirst(t *testing.T) {
	s := foliotest.Weighed()
	s.Closing.Adhesive.TapeWidth = 8 * mm
	s.Fittings[0] = folio.Fitting{Name: "slip", Kind: folio.Folded{Kind: pocket.Slip{Content: pocket.IDCard().Turned(), Glue: 6 * mm}}}
	// The badge: 2 × 20 + 2 × 4.
	if got := tapes(t, stick.Of(build(t, s))); len(got) != 2 || got[6*mm] != 183*mm || got[8*mm] != 48*mm {
		t.Errorf("tape %v", got)
	}
}

// What is folded is glued to itself, though tape holds it to the board: two side
// gussets with two tabs each, 6 mm wide, as half a panel is, and as high as the
// front, 57 mm of a card of 85.6.
func TestGussetsAreGlued(t *testing.T) {
	s := foliotest.Weighed()
	s.Fittings = []folio.Fitting{{Name: "slip", Kind: folio.Folded{Kind: pocket.Gusset{Content: pocket.IDCard().Turned()}}}}
	if got, n := glued(stick.Of(build(t, s)), work.PartFitting); n != 1 || got != 2*2*6*57 {
		t.Errorf("glue over %v mm² in %d entries, want 1368 in one", got, n)
	}
}
