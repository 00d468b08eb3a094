package folio_test

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// uncovered returns how far the liner of a plan ends from the outer edges of its boards,
// where that is furthest: at the sides, and at head and tail.
func uncovered(p *folio.Plan) (sides, ends units.Length) {
	var row, liner units.Rect
	for b := range p.Boards() {
		row = row.Union(b.Rect())
	}
	var all []folio.Piece
	for piece := range p.Pieces() {
		all = append(all, piece)
	}
	for at := range p.Placed() {
		if i, _ := at.Piece(); all[i].Role() == stock.LinerPiece {
			liner = liner.Union(at.Rect())
		}
	}
	return max(liner.Min.X-row.Min.X, row.Max.X-liner.Max.X), max(liner.Min.Y-row.Min.Y, row.Max.Y-liner.Max.Y)
}

// bared says where a piece of the liner of a folio as made keeps less than the inset off
// an edge of the boards it lies on, which has covering round it at the row's ends.
func bared(p *folio.Plan, covering units.Length) (all []string) {
	boards, pieces, inset := slices.Collect(p.Boards()), slices.Collect(p.Pieces()), p.Spec().Lining.Inset
	for at := range p.Placed() {
		i, _ := at.Piece()
		if pieces[i].Role() != stock.LinerPiece {
			continue
		}
		var under []folio.Board
		for _, b := range boards {
			if !b.Rect().Intersect(at.Rect()).Empty() {
				under = append(under, b)
			}
		}
		left, right := under[0].Rect().Min.X, under[len(under)-1].Rect().Max.X
		if left == boards[0].Rect().Min.X {
			left -= covering
		}
		if right == boards[len(boards)-1].Rect().Max.X {
			right += covering
		}
		if l, r := at.Rect().Min.X-left, right-at.Rect().Max.X; l < inset || r < inset {
			all = append(all, fmt.Sprintf("the %s keeps %v and %v off the edges", pieces[i].Name(), l, r))
		}
	}
	return all
}

// With a margin that leaves no lap in the cover as planned, or in one whose gaps come out as
// wide as expected, a folio is refused. With a little more than both need it builds: by the
// covering that lies round the edges of what is measured, and what the liner's ruler rounds off
// on a side.
func TestLinersLapAsExpected(t *testing.T) {
	r := rand.New(rand.NewPCG(uint64(proptest.Seed()), 29))
	um := func(low, high int) units.Length { return units.Length(low+r.IntN(high-low)) * units.Micrometre }
	tried, sides := 0, 0
	for trial := range proptest.Cases(400) {
		form, lining := [...]boards.Form{boards.SpineBoard, boards.SoftSpine, boards.ForeEdgeFlap, boards.DoubleSpineGate, boards.OwnRow}[trial%5], rule.LiningRule(r.IntN(3))
		if form == boards.OwnRow {
			lining = rule.LiningRuns
		}
		s := folio.Spec{
			Form: form, Cover: units.Size{W: um(90_000, 200_000), H: um(90_000, 200_000)}, Spine: rule.Spine{Width: um(15_000, 30_000)},
			Board: stock.Stock{Caliper: um(1000, 3000)}, Covering: stock.Stock{Caliper: um(50, 300)}, Liner: stock.Stock{Caliper: um(50, 200)},
			Rulers: all(everyNanometre), Margin: rule.Margin{Ideal: 40 * mm, Least: mm, Tolerated: mm},
			Mitre: rule.Mitre{Rule: rule.MitreOneAndHalfCalipers}, Lining: rule.Lining{Inset: um(500, 5000), Rule: lining},
		}
		if form == boards.SoftSpine || form == boards.OwnRow {
			s.Spine = rule.Spine{Contents: um(4000, 10_000)}
		}
		if form == boards.OwnRow {
			s.Row = boards.FourPanelZ.Row()
			s.Row.Boards[r.IntN(4)].Width = um(60_000, 90_000)
		}
		s.Rulers.Liner = []units.Ruler{everyNanometre, units.WholeMillimetres, units.Sixteenths}[r.IntN(3)]
		if r.IntN(2) > 0 {
			s.Placing = um(1, 1500)
		}
		p, err := folio.Build(s)
		if err != nil {
			t.Fatalf("trial %d: %v", trial, err)
		}
		w, h := p.AsMade()
		made, err := p.Refit(refit.Measured{Width: w.Length(), Height: h.Length()})
		if err != nil {
			t.Fatalf("trial %d: %v", trial, err)
		}
		for _, why := range bared(made, s.Covering.Caliper) {
			t.Errorf("trial %d: %s\n%+v", trial, why, s)
		}
		round := s.Board.Caliper + s.Covering.Caliper // the board's edge
		var need units.Length
		most := ""
		for _, q := range []*folio.Plan{p, made} {
			var longer units.Length
			if q == made {
				for range p.Gaps() {
					longer += s.Placing
				}
			}
			atSides, atEnds := uncovered(q)
			if n := round + atSides + longer.Half(units.Up) + nm; n > need {
				need, most = n, "sides"
			}
			if n := round + atEnds + nm; n > need {
				need, most = n, "ends"
			}
		}
		if most == "sides" {
			sides++
		}
		tried++
		s.Margin.Ideal = need + s.Covering.Caliper + s.Rulers.Liner.Step().Half(units.Up)
		if err := builds(s); err != nil {
			t.Errorf("trial %d: a margin of %v for the %s: %v\n%+v", trial, s.Margin.Ideal, most, err, s)
		}
		s.Margin.Ideal = need - nm
		if _, ok := refusal(s, "lining.inset", folio.LapNone); !ok {
			t.Errorf("trial %d: a margin of %v, less than the %v for the %s, does: %v\n%+v", trial, s.Margin.Ideal, need, most, builds(s), s)
		}
	}
	if sides < tried/4 || sides > tried*9/10 {
		t.Errorf("of %d, %d need most at the sides", tried, sides)
	}
}

// A liner whose inset bares the turn-ins is offered the widest inset that laps them, down to
// the least length that a plan may have; where the turn-ins end nearer to the edge than that,
// nothing but a wider margin does. With what is offered it builds.
func TestInsetThatLaps(t *testing.T) {
	least := units.Longest
	offered, not := 0, 0
	for more := -6 * nm; more <= 6*nm; more++ {
		s := plainCase()
		s.Rulers, s.Lining = all(everyNanometre), rule.Lining{Inset: 3 * mm}
		s.Margin = rule.Margin{Ideal: 2200*units.Micrometre + units.Shortest + more, Least: mm, Tolerated: mm}
		s.Mitre = rule.Mitre{Distance: 16 * mm / 10}
		v, ok := refusal(s, "lining.inset", folio.LapNone)
		if !ok {
			t.Fatalf("%v more: %v", more, builds(s))
		}
		s.Lining.Inset = units.Shortest
		_, bare := refusal(s, "lining.inset", folio.LapNone)
		if v.Bound == check.NoBound {
			not++
			if !bare && more > 2*nm {
				t.Errorf("%v more: an inset of %v laps, and is not offered", more, s.Lining.Inset)
			}
			continue
		}
		offered++
		least = min(least, v.Limit)
		s.Lining.Inset = v.Limit
		if _, bare := refusal(s, "lining.inset", folio.LapNone); bare || v.Bound != check.AtMost {
			t.Errorf("%v more: with %v: %v", more, v.Limit, builds(s))
		}
	}
	if least != units.Shortest || offered == 0 || not == 0 {
		t.Errorf("%d times an inset is offered, the least of %v; %d times none", offered, least, not)
	}
}

// Which sheet the liner takes is told once it laps the turn-ins, of which one that no sheet takes
// is as far from the boards' edges as it would be.
func TestLinerOfNoSheetBaresTurnIns(t *testing.T) {
	for inset, code := range map[units.Length]check.Code{22*mm + mm/2: folio.SheetSmall, 23 * mm: folio.LapNone} {
		s := plainCase()
		s.Lining, s.Liner.Sheets = rule.Lining{Rule: rule.LiningOnePiece, Inset: inset}, sheetOf(100*mm, 100*mm)
		var bad *check.Error
		if errors.As(builds(s), &bad); bad.Len() != 1 || !refusedWith(bad, map[check.Code]string{folio.SheetSmall: "liner.sheets", folio.LapNone: "lining.inset"}[code], code) {
			t.Errorf("%v inside: %v", inset, bad)
		}
	}
}

// Of two turn-ins that a liner bares the one is told that it bares more of: those at head and
// tail, where cloth of 1 mm takes 0.8 more at the edge than the paper of 0.2 at the sides.
func TestTheBarerTurnInIsTold(t *testing.T) {
	s := plainCase()
	s.Quarter, s.SpineCovering = rule.Quarter{Rule: rule.QuarterAlways}, stock.Stock{Name: "cloth", Caliper: mm}
	s.Lining.Inset = 24 * mm
	v, ok := refusal(s, "lining.inset", folio.LapNone)
	if !ok || v.Got != "24 mm as rounded, with a turn-in that ends 22 mm from the edge" {
		t.Errorf("%v", builds(s))
	}
	// Turned: a sheet leaves 14 mm at the sides, and 25 are at head and tail.
	s = plainCase()
	s.Covering.Sheets = []stock.Sheet{{Size: units.Size{W: 305 * mm, H: 900 * mm}, Grain: stock.GrainAlongHeight}}
	s.Lining.Inset = 24 * mm
	if v, ok = refusal(s, "lining.inset", folio.LapNone); !ok || v.Got != "24 mm as rounded, with a turn-in that ends 11.8 mm from the edge" {
		t.Errorf("%v", builds(s))
	}
}

// Where the ruler has no margin so narrow that the turn-ins of a low cover do not meet, a larger
// cover is asked for.
func TestTurnInsOfALowCover(t *testing.T) {
	s := plainCase()
	s.Cover.H, s.Lining.Inset = 4*mm, mm
	s.Rulers.Wrap, _ = units.NewRuler(5*mm, units.MetricDecimal)
	if v, ok := refusal(s, "cover", folio.TurnInsMeet); !ok || v.Bound != check.NoBound {
		t.Errorf("%v", builds(s))
	}
}
