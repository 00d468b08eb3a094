package folio_test

import (
	"errors"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/edgetest"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// plainCase is a case whose every size is easily worked out by hand: board t =
// 2 mm, covering c = 0.2 mm, liner 0.1 mm; covers of 120 x 170 mm, a spine of
// 25 mm and two gaps of 6 mm, so 277 x 170 mm open; margins of 25 mm, 13 mm the
// usual least, 6 mm tolerated; an inset of 3 mm.
func plainCase() folio.Spec {
	s := metric()
	s.Stocks = []stock.Stock{{Name: "card", Caliper: mm / 4}}
	s.Board.Caliper, s.Covering.Caliper, s.Liner.Caliper = 2*mm, mm/5, mm/10
	s.Hinge.Width = 6 * mm
	s.Margin = rule.Margin{Ideal: 25 * mm, Least: 13 * mm, Tolerated: 6 * mm}
	s.Lining.Inset = 3 * mm
	return s
}

// An edge is the least change at which something is refused or warned about: at
// fine it is not, at wrong it is.
type edge struct {
	name        string
	path        string
	code        check.Code
	fine, wrong units.Length
	set         func(*folio.Spec, units.Length)
}

const nm = units.Nanometre

var everyNanometre, _ = units.NewRuler(nm, units.MetricDecimal)
var evenNanometres, _ = units.NewRuler(2*nm, units.MetricDecimal)

func hinge(c rule.CreasePlace, angle int) func(*folio.Spec, units.Length) {
	return func(s *folio.Spec, v units.Length) {
		s.Hinge, s.Rulers.Gap = rule.Hinge{Width: v, Crease: c, Angle: angle}, everyNanometre
	}
}

func sheetOf(w, h units.Length) []stock.Sheet {
	return []stock.Sheet{{Size: units.Size{W: w, H: h}}}
}

// stood is an ornament on the right cover so thick.
func stood(s *folio.Spec, v units.Length) {
	s.Fittings = []folio.Fitting{{Name: "badge", Kind: folio.Ornament{Size: units.Size{W: 30 * mm, H: 30 * mm}, Thickness: v}}}
}

func flapped(s *folio.Spec) {
	s.Form = boards.ForeEdgeFlap
	s.Magnets = closing.Magnets{Diameter: 6 * mm, Thickness: mm, Pairs: 2, Inset: 5 * mm}
}

// Every edge is worked out by hand from the sizes of plainCase.
func edges() []edge {
	return []edge{
		// What is turned in goes round the board's edge and the covering on it: t + c.
		// Boards that may lie 2 mm off at either gap take half of that.
		{"nothing to turn in of a row as wide as expected", "margin.ideal", folio.TurnInNarrow, 4200*units.Micrometre + nm, 4200 * units.Micrometre, func(s *folio.Spec, v units.Length) {
			s.Margin, s.Rulers.Wrap, s.Placing = rule.Margin{Ideal: v}, everyNanometre, 2*mm
		}},
		{"nothing to turn in", "margin.ideal", folio.TurnInNarrow, 2200*units.Micrometre + nm, 2200 * units.Micrometre, func(s *folio.Spec, v units.Length) {
			s.Margin, s.Rulers.Wrap = rule.Margin{Ideal: v}, everyNanometre
		}},
		// 4.4 mm beside a row of 277 is left to turn in at both ends together.
		{"sheet that leaves nothing to turn in", "covering.sheets", folio.TurnInNarrow, 281400*units.Micrometre + 2*nm, 281400 * units.Micrometre, func(s *folio.Spec, v units.Length) {
			s.Margin.Least, s.Margin.Tolerated, s.Rulers.Wrap = 2*mm, 2*mm, everyNanometre
			s.Covering.Sheets = []stock.Sheet{{Size: units.Size{W: v, H: 220 * mm}, Grain: stock.GrainAlongHeight}}
		}},
		// From head and tail it reaches m − 2.2 mm; the halves of 170 mm meet at 87.2.
		{"turn-ins meet", "margin.ideal", folio.TurnInsMeet, 87200*units.Micrometre - nm, 87200 * units.Micrometre, func(s *folio.Spec, v units.Length) {
			s.Margin.Ideal, s.Rulers.Board, s.Rulers.Wrap = v, everyNanometre, everyNanometre
		}},
		// Of 174.4 mm at head and tail together, 87 of them at the head, 4.4 go round edges.
		{"turn-ins of unequal margins meet", "margin.ideal", folio.TurnInsMeet, 344400*units.Micrometre - nm, 344400 * units.Micrometre, func(s *folio.Spec, v units.Length) {
			s.Margin.Ideal = 95 * mm
			s.Covering.Sheets = []stock.Sheet{{Size: units.Size{W: 327 * mm, H: v}, Grain: stock.GrainAlongHeight}}
		}},
		// Legs of 2m − r, two of them on an edge of 170 mm + 2m: m is at most 85 mm + r,
		// and r is 3 mm times the root of 2, 4.24264068... mm.
		{"mitres meet", "margin.ideal", folio.MitresMeet, 89242641, 89242642, func(s *folio.Spec, v units.Length) {
			s.Margin.Ideal, s.Rulers.Wrap, s.Mitre.Distance = v, everyNanometre, 3*mm
		}},
		// At head and tail legs meet in the middle of a wrap 277 mm wide and its margins, also
		// where a sheet leaves at the sides just what does not meet: m is at most 138.5 mm + r.
		{"mitres meet at head and tail", "margin.ideal", folio.MitresMeet, 142742641, 142742642, func(s *folio.Spec, v units.Length) {
			s.Margin.Ideal, s.Rulers.Wrap, s.Mitre.Distance = v, everyNanometre, 3*mm
			s.Covering.Sheets = []stock.Sheet{{Size: units.Size{W: 277*mm + 2*89242641*nm, H: 900 * mm}, Grain: stock.GrainAlongHeight}}
		}},
		// Strips that reach 110 mm leave side papers 10 mm of the covers, and the lap of 3.
		{"mitres leave the side papers", "margin.ideal", folio.MitresMeet, 17242641, 17242642, func(s *folio.Spec, v units.Length) {
			s.Margin.Ideal, s.Rulers.Wrap, s.Mitre.Distance = v, everyNanometre, 3*mm
			s.Quarter = rule.Quarter{Rule: rule.QuarterAlways, Reach: 110 * mm, Lap: 3 * mm}
		}},
		// 2.2 mm over the root of 2 is 1.55563491... mm.
		{"bare corner", "mitre.distance", folio.MitreClose, 1555635, 1555634, func(s *folio.Spec, v units.Length) {
			s.Mitre.Distance, s.Rulers.Wrap = v, everyNanometre
		}},
		// Margins of 7 and 6.4 mm at the sides, 8 and 8.6 at head and tail: legs of 14.4 mm less
		// the reach at the head right are the first of which no millimetre is left.
		{"nothing to mitre at one corner", "mitre.distance", check.TooLarge, 9192388, 9192389, func(s *folio.Spec, v units.Length) {
			s.Margin.Tolerated, s.Mitre.Distance = 6300*units.Micrometre, v
			s.Covering.Sheets = []stock.Sheet{{Size: units.Size{W: 290400 * units.Micrometre, H: 186600 * units.Micrometre}, Grain: stock.GrainAlongHeight}}
		}},
		// Margins of 8 and 8.6 mm at the sides, 7 and 6.4 at head and tail: at the tail left.
		{"nothing to mitre at the tail left", "mitre.distance", check.TooLarge, 9192388, 9192389, func(s *folio.Spec, v units.Length) {
			s.Margin.Tolerated, s.Mitre.Distance = 6300*units.Micrometre, v
			s.Covering.Sheets = []stock.Sheet{{Size: units.Size{W: 293600 * units.Micrometre, H: 183400 * units.Micrometre}, Grain: stock.GrainAlongHeight}}
		}},
		// A ruler that puts the cut further out is nothing to rely on.
		{"bare corner on whole millimetres", "mitre.distance", folio.MitreClose, 1555635, 1555634, func(s *folio.Spec, v units.Length) { s.Mitre.Distance = v }},
		// Nothing is cut off where the reach is as long as both margins, 50 mm.
		{"nothing to mitre", "mitre.distance", check.TooLarge, 35355338, 35355339, func(s *folio.Spec, v units.Length) {
			s.Mitre.Distance, s.Rulers.Wrap = v, everyNanometre
		}},
		// A step of the ruler, 1 mm, of 170 must be left.
		{"no liner", "lining.inset", folio.LinerNone, 84500 * units.Micrometre, 84500*units.Micrometre + nm, func(s *folio.Spec, v units.Length) { s.Lining.Inset = v }},
		// The turn-in ends 25 − 2.2 mm from the edge.
		{"liner short of the turn-in", "lining.inset", folio.LapNone, 22800*units.Micrometre - nm, 22800 * units.Micrometre, func(s *folio.Spec, v units.Length) {
			s.Lining.Inset, s.Rulers.Liner = v, everyNanometre
		}},
		// Board, liner and the turn-ins at head and tail, 2.3 mm, turn in the gap: at
		// a board's edge by its sine, at mid-gap by twice the tangent of the half,
		// about two creases by twice the sine of the half, round by the arc.
		{"hinge at the edge", "hinge.width", folio.GapNarrow, 2300 * units.Micrometre, 2300*units.Micrometre - nm, hinge(rule.CreaseAtEdge, 90)},
		{"hinge of 30 degrees", "hinge.width", folio.GapNarrow, 1150 * units.Micrometre, 1150*units.Micrometre - nm, hinge(rule.CreaseAtEdge, 30)},
		{"hinge at mid-gap", "hinge.width", folio.GapNarrow, 4600 * units.Micrometre, 4600*units.Micrometre - nm, hinge(rule.CreaseMidGap, 90)},
		{"hinge of two creases", "hinge.width", folio.GapNarrow, 4600 * units.Micrometre, 4600*units.Micrometre - nm, hinge(rule.CreaseTwo, 180)},
		{"round hinge", "hinge.width", folio.GapNarrow, 3612832, 3612831, hinge(rule.CreaseRound, 90)},
		{"crease beyond the gap", "hinge.offset", check.TooLarge, 6 * mm, 6*mm + nm, func(s *folio.Spec, v units.Length) {
			s.Hinge.Crease, s.Hinge.Offset = rule.CreaseAtOffset, v
		}},
		{"one crease never closes", "hinge.angle", folio.NeverCloses, 179, 180, func(s *folio.Spec, v units.Length) { s.Hinge.Angle = int(v) }},
		{"angle", "hinge.angle", check.OutOfRange, 180, 181, func(s *folio.Spec, v units.Length) { s.Hinge.Angle = int(v) }},
		{"no angle", "hinge.angle", check.OutOfRange, 1, -1, func(s *folio.Spec, v units.Length) { s.Hinge.Angle = int(v) }},
		// Wrap and margins: 277 + 2 × 6 by 170 + 2 × 6.
		{"no sheet so wide", "covering.sheets", folio.SheetSmall, 289 * mm, 289*mm - nm, func(s *folio.Spec, v units.Length) { s.Covering.Sheets = sheetOf(v, 200*mm) }},
		{"no sheet so high", "covering.sheets", folio.SheetSmall, 182 * mm, 182*mm - nm, func(s *folio.Spec, v units.Length) { s.Covering.Sheets = sheetOf(900*mm, v) }},
		{"narrow margin at the sides", "margin.least", folio.WarnMargin, 303 * mm, 303*mm - nm, func(s *folio.Spec, v units.Length) { s.Covering.Sheets = sheetOf(v, 220*mm) }},
		{"narrow margin at head and tail", "margin.least", folio.WarnMargin, 196 * mm, 196*mm - nm, func(s *folio.Spec, v units.Length) { s.Covering.Sheets = sheetOf(900*mm, v) }},
		{"quarter style needed", "covering.sheets", folio.WarnQuarter, 289 * mm, 289*mm - nm, func(s *folio.Spec, v units.Length) {
			s.Covering.Sheets, s.Quarter.Rule = sheetOf(v, 200*mm), rule.QuarterWhenNeeded
		}},
		// Side papers cover 120 − 24 + 3 mm; a strip 37 mm and twice 24.
		{"narrow margin at the ends of side papers", "margin.least", folio.WarnMargin, 112 * mm, 112*mm - nm, func(s *folio.Spec, v units.Length) {
			s.Quarter, s.SpineCovering = rule.Quarter{Rule: rule.QuarterAlways, Reach: 24 * mm, Lap: 3 * mm}, stock.Stock{Name: "cloth", Caliper: mm / 5}
			s.Covering.Sheets = []stock.Sheet{{Size: units.Size{W: v, H: 300 * mm}, Grain: stock.GrainAlongHeight}}
		}},
		{"no sheet for a strip", "spinecovering.sheets", folio.SheetSmall, 85 * mm, 85*mm - nm, func(s *folio.Spec, v units.Length) {
			s.Quarter = rule.Quarter{Rule: rule.QuarterAlways, Reach: 24 * mm, Lap: 3 * mm}
			s.SpineCovering = stock.Stock{Name: "cloth", Caliper: mm / 5, Sheets: []stock.Sheet{{Size: units.Size{W: v, H: 300 * mm}, Grain: stock.GrainAlongHeight}}}
		}},
		// With half a millimetre less than two boards of 0.2 mm and the block.
		{"a block too thin for a spine board", "spine.contents", check.TooSmall, 110 * units.Micrometre, 110*units.Micrometre - nm, func(s *folio.Spec, v units.Length) {
			s.Board.Caliper, s.Rulers.Board = mm/5, everyNanometre
			s.Spine = rule.Spine{Contents: v, Rule: rule.SpineBlockAndBoardsLess}
		}},
		// A length, 0.01 mm, of a cover of 120 must be left.
		{"strip that leaves no side paper", "quarter.reach", folio.TooWide, 119990 * units.Micrometre, 119990*units.Micrometre + nm, func(s *folio.Spec, v units.Length) {
			s.Quarter = rule.Quarter{Rule: rule.QuarterAlways, Reach: v}
		}},
		// Round the edges of two boards with their coverings, 2 x 2.2 mm.
		{"liner round outsides", "lining.rule", folio.WarnStrained, 4400 * units.Micrometre, 4400*units.Micrometre - nm, func(s *folio.Spec, v units.Length) {
			s.Form, s.Row, s.Spine, s.Hinge = boards.OwnRow, boards.FourPanelZ.Row(), rule.Spine{Contents: 10 * mm}, rule.Hinge{}
			s.Row.Joints[1].Hinge, s.Rulers.Gap, s.Lining.Rule = rule.Hinge{Rule: rule.HingeFixed, Width: v}, everyNanometre, rule.LiningOnePiece
		}},
		// The row as made is 277.4 x 170.4 mm; less two insets and rounded down, 271 x 164.
		{"no sheet for the liner, wide", "liner.sheets", folio.SheetSmall, 271 * mm, 271*mm - nm, func(s *folio.Spec, v units.Length) {
			s.Liner.Sheets, s.Lining.Rule = sheetOf(v, 170*mm), rule.LiningOnePiece
		}},
		{"no sheet for the liner, high", "liner.sheets", folio.SheetSmall, 164 * mm, 164*mm - nm, func(s *folio.Spec, v units.Length) {
			s.Liner.Sheets, s.Lining.Rule = sheetOf(900*mm, v), rule.LiningOnePiece
		}},
		{"lined board by board", "lining.rule", folio.WarnPanels, 271 * mm, 271*mm - nm, func(s *folio.Spec, v units.Length) { s.Liner.Sheets = sheetOf(v, 170*mm) }},
		{"no sheet for a board", "board.sheets", folio.SheetSmall, 120 * mm, 120*mm - nm, func(s *folio.Spec, v units.Length) { s.Board.Sheets = sheetOf(v, 170*mm) }},
		{"moved to the ruler, width", "cover.w", folio.WarnRuler, 120 * mm, 120*mm + nm, func(s *folio.Spec, v units.Length) { s.Cover.W = v }},
		{"moved to the ruler, height", "cover.h", folio.WarnRuler, 170 * mm, 170*mm - nm, func(s *folio.Spec, v units.Length) { s.Cover.H = v }},
		{"margins in order", "margin.least", check.TooLarge, 25 * mm, 25*mm + nm, func(s *folio.Spec, v units.Length) { s.Margin.Least = v }},
		{"margins in order, tolerated", "margin.tolerated", check.TooLarge, 13 * mm, 13*mm + nm, func(s *folio.Spec, v units.Length) { s.Margin.Tolerated = v }},
		{"thickness of a block", "block.thickness", check.OutOfRange, units.Shortest, units.Shortest - nm, func(s *folio.Spec, v units.Length) {
			s.Block = boards.Block{Page: s.Cover, Thickness: v}
			s.Cover = units.Size{}
		}},
		{"thickness of a block, below nothing", "block.thickness", check.Negative, 0, -2 * nm, func(s *folio.Spec, v units.Length) {
			s.Block = boards.Block{Page: s.Cover, Thickness: v}
			s.Cover = units.Size{}
		}},
		// A page of 120 mm with its square of 3 is set back until nothing is left.
		{"set back", "block.setback", folio.TooNarrow, 122 * mm, 123 * mm, func(s *folio.Spec, v units.Length) {
			s.Block = boards.Block{Page: s.Cover, Square: 3 * mm, Setback: v}
			s.Cover = units.Size{}
		}},
		// Doors of 1 mm each are left of a back of 120 mm.
		{"doors", "doorgap", check.TooSmall, 118 * mm, 118*mm + nm, func(s *folio.Spec, v units.Length) { s.Form, s.DoorGap = boards.DoubleSpineGate, v }},
		// Their covered edges take 2 c. A door is half of what is left, rounded down.
		{"doors touch", "doorgap", folio.WarnDoors, 400 * units.Micrometre, 400*units.Micrometre - 2*nm, func(s *folio.Spec, v units.Length) {
			s.Form, s.DoorGap, s.Rulers.Board = boards.DoubleSpineGate, v, everyNanometre
		}},
		{"magnets thicker than the board", "magnets.thickness", check.TooLarge, 2 * mm, 2*mm + nm, func(s *folio.Spec, v units.Length) { flapped(s); s.Magnets.Thickness = v }},
		{"magnets larger than their share", "magnets.diameter", check.TooLarge, 85 * mm, 85*mm + nm, func(s *folio.Spec, v units.Length) { flapped(s); s.Magnets.Diameter = v }},
		// The flap is half as wide as the cover, 60 mm.
		{"magnets off the flap", "magnets.diameter", folio.OffPanel, 54 * mm, 54*mm + nm, func(s *folio.Spec, v units.Length) { flapped(s); s.Magnets.Inset = v }},
		{"pairs of magnets, fewer than none", "magnets.pairs", check.OutOfRange, 0, -1, func(s *folio.Spec, v units.Length) { flapped(s); s.Magnets.Pairs = int(v) }},
		// Covers that turn about the spine board's edges leave its width less two
		// boards and two liners: 25 − 4 − 0.2 = 20.8 mm, 1 mm of it ease; a tape of
		// 0.1 mm holds what stands there. Creased in the middle of the gaps, 3 mm from
		// the spine board, they leave 6 mm more.
		{"little ease", "spine.width", folio.WarnEase, 19700 * units.Micrometre, 19700*units.Micrometre + nm, stood},
		{"crease too near", "hinge.crease", folio.WarnCrease, 20700 * units.Micrometre, 20700*units.Micrometre + nm, stood},
		{"does not close", "spine.width", folio.NotClosing, 26700 * units.Micrometre, 26700*units.Micrometre + nm, stood},
		// Side by side, 10.9 mm high with its tape each, and 20.8 mm of room: the bar's
		// corner, 6 + 3 + 3 = 12 mm from the crease and 13 mm below it when shut, turns
		// on a circle, and is 13 mm out where it comes 12 mm below, to the top of the
		// badge: 12² + 13² = 13² + 12².
		{"touches in passing", "fittings[1].place", folio.WarnPassing, 4 * mm, 4*mm - nm, func(s *folio.Spec, v units.Length) {
			s.Fittings = []folio.Fitting{
				{Name: "bar", Panel: boards.LeftCover, Kind: folio.Ornament{Size: units.Size{W: 3 * mm, H: 30 * mm}, Thickness: 10*mm + 800*units.Micrometre}, Place: place.Place{Across: place.Right}},
				{Name: "badge", Kind: folio.Ornament{Size: units.Size{W: 30 * mm, H: 30 * mm}, Thickness: 10*mm + 800*units.Micrometre}, Place: place.Place{Across: place.Left, Offset: units.Point{X: v}}},
			}
		}},
		// The rule adds two boards to the contents and no liners: of 14 mm, on the
		// ruler, 4 are boards and 0.2 liners. The gaps leave no room for another crease.
		{"rule that forgets the liners", "spine.rule", folio.WarnSpine, 9800 * units.Micrometre, 9800*units.Micrometre + nm, func(s *folio.Spec, v units.Length) {
			s.Spine = rule.Spine{Contents: v, Rule: rule.SpineBlockAndBoards}
			s.Hinge.Width, s.Rulers.Gap, s.Closing.Ease = 2300*units.Micrometre, everyNanometre, units.None
		}},
		// A published gap of 3 mm takes a board of 2, a liner of 0.1 and 0.9 of turn-in.
		{"published gap", "hinge.rule", folio.WarnHingeEnds, 900 * units.Micrometre, 900*units.Micrometre + nm, func(s *folio.Spec, v units.Length) {
			s.Hinge, s.Covering.Caliper = rule.Hinge{Rule: rule.HingeNarrowGroove}, v
		}},
		// A gap that lets them turn by 89 degrees: 2.3 mm times its sine is 2.29965 mm.
		{"covers that do not lie parallel", "hinge.angle", folio.WarnOpen, 2300 * units.Micrometre, 2300*units.Micrometre - nm, hinge(rule.CreaseAtEdge, 89)},
		// What lies under the flap has 1 mm over the turn-ins of the flap, two of 0.2 mm
		// on each other at its corners; between the magnets lie its liner too, of 0.1,
		// and the covering of the cover, of 0.2.
		{"magnets far apart", "magnets.thickness", folio.WarnMagnets, 1700 * units.Micrometre, 1700*units.Micrometre - nm, func(s *folio.Spec, v units.Length) {
			flapped(s)
			s.Magnets.Thickness, s.Closing.UnderFlap, s.Rulers.Board = v, mm, everyNanometre
		}},
		{"width of a cover", "cover.w", check.NotPositive, units.Shortest, 0, func(s *folio.Spec, v units.Length) { s.Cover.W = v }},
		{"no spine", "spine", check.Missing, 25 * mm, 0, func(s *folio.Spec, v units.Length) { s.Spine = rule.Spine{Width: v} }},
		{"boards of a row", "row.boards", check.TooMany, 9, 10, func(s *folio.Spec, v units.Length) { s.Row.Boards = make([]boards.Board, v) }},
		{"joints of a row", "row.joints", check.Conflict, 2, 1, func(s *folio.Spec, v units.Length) {
			s.Row = boards.SpineBoard.Row()
			s.Row.Joints = s.Row.Joints[:v]
		}},
		{"grammage below nothing", "covering.grammage", check.OutOfRange, 0, -1, func(s *folio.Spec, v units.Length) { s.Covering.Grammage = units.Grammage(v) }},
		{"name of a mouth", "fittings[0].kind.mouth", check.Unknown, 3, 4, func(s *folio.Spec, v units.Length) {
			s.Fittings = []folio.Fitting{{Kind: folio.Frame{Picture: content(units.Size{W: 40 * mm, H: 60 * mm}), Mouth: score.Edge(v)}}}
		}},
	}
}

// mat is a mat so large in the middle of the right cover.
func mat(w, h units.Length) folio.Fitting {
	return folio.Fitting{Name: "mat", Kind: folio.Mat{Size: units.Size{W: w, H: h}}}
}

// framed is a frame for a picture of 60 x 80 mm with laps of 3 mm, an ease of 2,
// rails of 12, and foam 2 mm thick and 6 wide.
func framed(s *folio.Spec, change func(*folio.Frame)) {
	fr := folio.Frame{Picture: pocket.Content{Name: "print", Size: units.Size{W: 60 * mm, H: 80 * mm}, Thickness: mm / 4},
		Lap: 3 * mm, Rail: 12 * mm, Foam: 2 * mm, FoamWidth: 6 * mm, Ease: 2 * mm}
	change(&fr)
	s.Fittings = append(s.Fittings, folio.Fitting{Name: "frame", Kind: fr})
}

// lipOf is how far below the head of its back the front of a pocket begins.
func lipOf(s folio.Spec, f folio.Fitting) (lip units.Length) {
	s.Fittings = []folio.Fitting{f}
	for f := range mustPlan(s).Fittings() {
		d, _ := f.Design()
		for _, p := range d.Panels() {
			switch p.Name() {
			case "front":
				lip += p.Closed().Min.Y
			case "back":
				lip -= p.Closed().Min.Y
			}
		}
	}
	return lip
}

// wideOf is how wide a fitting comes out on the right cover of the plain case.
func wideOf(f folio.Fitting) (wide units.Length) {
	s := plainCase()
	s.Fittings = []folio.Fitting{f}
	for f := range mustPlan(s).Fittings() {
		wide = f.Rect().Size().W
	}
	return wide
}

// blankOf is the size of the first piece of a fitting.
func blankOf(f folio.Fitting) units.Size {
	s := plainCase()
	s.Fittings = []folio.Fitting{f}
	for p := range mustPlan(s).Pieces() {
		if _, fitted := p.Fitting(); fitted {
			return p.Size()
		}
	}
	return units.Size{}
}

// leastPrint is the margin round a mat that leaves room for the least print with
// 3 mm round it, on whole millimetres.
func leastPrint() (margin units.Length) {
	for c := range pocket.Prints(units.MetricDecimal) {
		w, h := units.WholeMillimetres.Up(c.Size.W), units.WholeMillimetres.Up(c.Size.H)
		margin = max(margin, min(114*mm-6*mm-w, 164*mm-6*mm-h)/2)
	}
	return margin
}

// fittingEdges are those of what stands on the right cover, which has 114 x 164 mm
// of liner.
func fittingEdges() []edge {
	put := func(list ...folio.Fitting) func(*folio.Spec) {
		return func(s *folio.Spec) { s.Fittings = append(s.Fittings, list...) }
	}
	moved := func(x, y units.Length) func(*folio.Spec) {
		f := mat(60*mm, 60*mm)
		f.Place.Offset = units.Point{X: x, Y: y}
		return put(f)
	}
	frame := func(change func(*folio.Frame, units.Length)) func(*folio.Spec, units.Length) {
		return func(s *folio.Spec, v units.Length) { framed(s, func(fr *folio.Frame) { change(fr, v) }) }
	}
	beside := func(first, second units.Length, across bool) func(*folio.Spec) {
		a, b := mat(40*mm, 40*mm), mat(40*mm, 40*mm)
		a.Name, b.Name = "a", "b"
		a.Place, b.Place = place.Place{Across: place.Left}, place.Place{Across: place.Left}
		a.Place.Offset.X, b.Place.Offset.X = first, second
		if !across {
			a.Place, b.Place = place.Place{Along: place.Head}, place.Place{Along: place.Head}
			a.Place.Offset.Y, b.Place.Offset.Y = first, second
		}
		return put(a, b)
	}
	// Of a spine from 126 to 151 mm the guard's folds, of four layers, take 1 mm from 137 mm on.
	guard := func(tab units.Length) folio.Fitting {
		return folio.Fitting{Name: "guard", Panel: boards.Spine1, Stock: "card", Place: place.Place{Across: place.Left, Offset: units.Point{X: 8 * mm}},
			Kind: folio.Folded{Kind: pocket.Concertina{Leaf: units.Size{W: 60 * mm, H: 90 * mm}, Leaves: 2, Tab: tab, OnSpine: true}}}
	}
	atHinge := mat(40*mm, 40*mm)
	atHinge.Place.Across = place.Left // from 160 mm on
	tall := folio.Fitting{Name: "slip", Stock: "card", Kind: folio.Folded{Kind: pocket.Slip{Content: pocket.IDCard().Turned()}}}
	return []edge{
		{"too wide", "fittings[0].kind.size.w", folio.TooWide, 114 * mm, 114*mm + nm, func(s *folio.Spec, v units.Length) { put(mat(v, mm))(s) }},
		{"too high", "fittings[0].kind.size.h", folio.TooTall, 164 * mm, 164*mm + nm, func(s *folio.Spec, v units.Length) { put(mat(mm, v))(s) }},
		{"too wide with a clearance", "fittings[0].kind.size.w", folio.TooWide, 7 * mm, 7*mm + nm, func(s *folio.Spec, v units.Length) { put(mat(100*mm, mm))(s); s.Clearance = v }},
		// (114 − 60) / 2 and (164 − 60) / 2 to each side of the middle.
		{"off to the right", "fittings[0].place.offset.x", folio.OffPanel, 27 * mm, 27*mm + nm, func(s *folio.Spec, v units.Length) { moved(v, 0)(s) }},
		{"off to the left", "fittings[0].place.offset.x", folio.OffPanel, -27 * mm, -27*mm - nm, func(s *folio.Spec, v units.Length) { moved(v, 0)(s) }},
		{"off at the tail", "fittings[0].place.offset.y", folio.OffPanel, 52 * mm, 52*mm + nm, func(s *folio.Spec, v units.Length) { moved(0, v)(s) }},
		{"off at the head", "fittings[0].place.offset.y", folio.OffPanel, -52 * mm, -52*mm - nm, func(s *folio.Spec, v units.Length) { moved(0, v)(s) }},
		{"over the one at the left", "fittings[1].place", folio.Overlaps, 40 * mm, 40*mm - nm, func(s *folio.Spec, v units.Length) { beside(0, v, true)(s) }},
		{"over the one at the right", "fittings[1].place", folio.Overlaps, 40 * mm, 40*mm - nm, func(s *folio.Spec, v units.Length) { beside(v, 0, true)(s) }},
		{"over the one above", "fittings[1].place", folio.Overlaps, 40 * mm, 40*mm - nm, func(s *folio.Spec, v units.Length) { beside(0, v, false)(s) }},
		{"over the one below", "fittings[1].place", folio.Overlaps, 40 * mm, 40*mm - nm, func(s *folio.Spec, v units.Length) { beside(v, 0, false)(s) }},
		{"tabs over a hinge", "fittings[0].kind.kind.tab", folio.WarnTabs, 11 * mm, 11*mm + nm, func(s *folio.Spec, v units.Length) { put(guard(v))(s) }},
		{"tabs over a fitting", "fittings[1].kind.kind.tab", folio.Overlaps, 22 * mm, 22*mm + nm, func(s *folio.Spec, v units.Length) { put(atHinge, guard(v))(s) }},
		{"over tabs", "fittings[1].place", folio.Overlaps, 22 * mm, 22*mm + nm, func(s *folio.Spec, v units.Length) { put(guard(v), atHinge)(s) }},
		// A hinge of 2.3 mm leaves 0.2 mm beside board and liner. Left of the folds are 11 mm, of
		// which the last 2.1 mm stand behind the cover.
		{"tabs in a narrow hinge", "fittings[0].kind.kind.tab", folio.GapNarrow, 8900 * units.Micrometre, 8900*units.Micrometre + nm, func(s *folio.Spec, v units.Length) {
			s.Hinge.Width, s.Rulers.Gap = 2300*units.Micrometre, everyNanometre
			put(guard(v))(s)
		}},
		// Board, liner, card and its tape.
		{"a hinge for tabs", "fittings[0].kind.kind.tab", folio.GapNarrow, 2450 * units.Micrometre, 2450*units.Micrometre - nm, func(s *folio.Spec, v units.Length) {
			s.Hinge.Width, s.Rulers.Gap = v, everyNanometre
			put(guard(10 * mm))(s)
		}},
		// The left tab lies on the last 46 mm of its cover, which come to lie over a badge that is
		// 39 mm from its hinge, beside the right tab: of the 19.7 mm they take 0.35 mm.
		{"little ease over a tab", "spine.width", folio.WarnEase, 19350 * units.Micrometre, 19350*units.Micrometre + nm, func(s *folio.Spec, v units.Length) {
			log := guard(mm)
			log.Place.Offset.X, log.Kind = 5*mm, folio.Folded{Kind: pocket.Concertina{Leaf: units.Size{W: 20 * mm, H: 90 * mm}, Leaves: 2, Tab: 60 * mm, OnSpine: true}}
			stood(s, v)
			s.Fittings[0].Kind = folio.Ornament{Size: units.Size{W: 5 * mm, H: 30 * mm}, Thickness: v}
			s.Fittings[0].Place = place.Place{Across: place.Left, Offset: units.Point{X: 36 * mm}}
			put(log)(s)
		}},
		{"tabs off the cover", "fittings[0].kind.kind.tab", folio.OffPanel, 134 * mm, 134*mm + nm, func(s *folio.Spec, v units.Length) { put(guard(v))(s) }},
		// As wide as what it stands on.
		{"wider than what it stands on", "fittings[1].kind.size.w", folio.TooWide, 60 * mm, 60*mm + nm, func(s *folio.Spec, v units.Length) {
			on := mat(v, 10*mm)
			on.Name, on.StandsOn = "on", "mat"
			put(mat(60*mm, 60*mm), on)(s)
		}},
		// A picture with reveals of 3 mm.
		{"picture too wide", "fittings[0].kind.picture.size.w", folio.TooWide, 108 * mm, 108*mm + nm, func(s *folio.Spec, v units.Length) {
			put(folio.Fitting{Kind: folio.Mat{Picture: content(units.Size{W: v, H: 60 * mm}), Reveal: 3 * mm}})(s)
		}},
		// 114 − 2 × 56.5 leaves a step of the ruler.
		{"nothing left by relation", "fittings[0].size.w.margin", folio.TooWide, 56500 * units.Micrometre, 56500*units.Micrometre + nm, func(s *folio.Spec, v units.Length) {
			put(folio.Fitting{Kind: folio.Mat{}, Size: place.Filling(place.OfPanel, v)})(s)
		}},
		{"nothing left by relation, every nanometre", "fittings[0].size.w.margin", folio.TooWide, 56995 * units.Micrometre, 56995*units.Micrometre + nm, func(s *folio.Spec, v units.Length) {
			put(folio.Fitting{Kind: folio.Mat{}, Size: place.Filling(place.OfPanel, v)})(s)
			s.Rulers.Fitting = everyNanometre
		}},
		{"nothing left of shares", "fittings[0].size.w.less", folio.TooWide, 111 * mm, 111*mm + nm, func(s *folio.Spec, v units.Length) {
			put(folio.Fitting{Kind: folio.Mat{}, Size: place.Sizing{
				W: place.Relation{Of: place.OfPanel, Shares: 3, Less: v}, H: place.Relation{Of: place.OfPanel},
			}})(s)
		}},
		{"nothing left between gaps", "fittings[0].size.w.gap", folio.TooWide, 55500 * units.Micrometre, 55500*units.Micrometre + nm, func(s *folio.Spec, v units.Length) {
			put(folio.Fitting{Kind: folio.Mat{}, Size: place.Sizing{
				W: place.Relation{Of: place.OfPanel, Shares: 3, Gap: v}, H: place.Relation{Of: place.OfPanel},
			}})(s)
		}},
		{"no room for three", "fittings[0].place.across", folio.TooWide, 38 * mm, 38*mm + nm, func(s *folio.Spec, v units.Length) {
			for range 3 {
				f := mat(v, mm)
				f.Name, f.Place.Across = "", place.Even
				put(f)(s)
			}
		}},
		{"no height for four", "fittings[0].place.along", folio.TooTall, 41 * mm, 41*mm + nm, func(s *folio.Spec, v units.Length) {
			for range 4 {
				f := mat(mm, v)
				f.Name, f.Place.Along = "", place.Even
				put(f)(s)
			}
		}},
		{"shares", "fittings[0].size.w.shares", check.TooMany, 256, 257, func(s *folio.Spec, v units.Length) {
			put(folio.Fitting{Kind: folio.Mat{}, Size: place.Sizing{W: place.Relation{Of: place.OfPanel, Shares: int(v)}}})(s)
		}},
		{"fewer shares than none", "fittings[0].size.w.shares", check.Negative, 0, -1, func(s *folio.Spec, v units.Length) {
			put(folio.Fitting{Kind: folio.Mat{}, Size: place.Sizing{W: place.Relation{Of: place.OfPanel, Shares: int(v)}}})(s)
		}},
		// Of a picture 1 mm high no lap leaves an opening: the picture is too low for
		// twice the lap and a step of the ruler, 7 mm. A little higher, a lap of 0.01
		// mm would.
		{"picture too low for an opening", "fittings[0].kind.picture.size.h", folio.TooNarrow, 1020 * units.Micrometre, 1020*units.Micrometre - nm, frame(func(fr *folio.Frame, v units.Length) { fr.Picture.Size.H = v })},
		{"picture too narrow for an opening", "fittings[0].kind.picture.size.w", folio.TooNarrow, 1020 * units.Micrometre, 1020*units.Micrometre - nm, frame(func(fr *folio.Frame, v units.Length) { fr.Picture.Size.W = v })},
		// By the height of another one, 150 mm, on a panel of 113.4: on the ruler 113.
		{"too wide by another's height", "fittings[1].size.w.less", folio.TooWide, 36*mm + nm, 36 * mm, func(s *folio.Spec, v units.Length) {
			s.Lining.Inset, s.Rulers.Liner = 3300*units.Micrometre, everyNanometre
			high := mat(10*mm, 150*mm)
			high.Panel = boards.LeftCover
			put(high, folio.Fitting{Kind: folio.Mat{Size: units.Size{H: mm}}, Size: place.Sizing{W: place.Relation{Of: place.OfFitting, Fitting: "mat", Turned: true, Less: v}}})(s)
		}},
		// A blank of a slip for an upright card, as it is cut without sheets at hand.
		{"no sheet for a slip", "stocks[0].sheets", folio.SheetSmall, blankOf(tall).W, blankOf(tall).W - nm, func(s *folio.Spec, v units.Length) {
			s.Stocks = []stock.Stock{{Name: "card", Caliper: mm / 4, Sheets: []stock.Sheet{{Size: units.Size{W: v, H: blankOf(tall).H}}, {Size: units.Size{W: 9 * mm, H: 30 * mm}}}}}
			put(tall)(s)
		}},
		{"no sheet so high for a slip", "stocks[0].sheets", folio.SheetSmall, blankOf(tall).H, blankOf(tall).H - nm, func(s *folio.Spec, v units.Length) {
			s.Stocks = []stock.Stock{{Name: "card", Caliper: mm / 4, Sheets: []stock.Sheet{{Size: units.Size{W: blankOf(tall).W, H: v}}}}}
			put(tall)(s)
		}},
		{"nothing left beside one gap", "fittings[0].size.w.gap", folio.TooWide, 112 * mm, 112*mm + nm, func(s *folio.Spec, v units.Length) {
			put(folio.Fitting{Kind: folio.Mat{}, Size: place.Sizing{
				W: place.Relation{Of: place.OfPanel, Shares: 2, Gap: v}, H: place.Relation{Of: place.OfPanel},
			}})(s)
		}},
		// The edge of a picture pushed to one side must stay under the lap there: the
		// ease is less than both laps.
		{"edge shows in the window", "fittings[0].kind.ease", folio.TooWide, 6*mm - nm, 6 * mm, frame(func(fr *folio.Frame, v units.Length) { fr.Ease = v })},
		{"edge shows in the window, off the ruler", "fittings[0].kind.ease", folio.TooWide, 6*mm - nm, 6 * mm, func(s *folio.Spec, v units.Length) {
			framed(s, func(fr *folio.Frame) { fr.Ease, fr.Rail = v, 20*mm })
			s.Rulers.Fitting = everyNanometre
		}},
		{"foam too thin", "fittings[0].kind.foam", folio.TooThin, 2 * mm, 2*mm + nm, frame(func(fr *folio.Frame, v units.Length) { fr.Picture.Thickness = v })},
		// A step of the ruler of 60 mm must be left.
		{"no opening", "fittings[0].kind.lap", folio.TooWide, 29500 * units.Micrometre, 29500*units.Micrometre + nm, frame(func(fr *folio.Frame, v units.Length) { fr.Lap, fr.Rail = v, 50*mm })},
		// Lap, half the ease and a strip.
		{"strip beyond the rail", "fittings[0].kind.rail", folio.TooNarrow, 10 * mm, 10*mm - nm, func(s *folio.Spec, v units.Length) {
			framed(s, func(fr *folio.Frame) { fr.Rail = v })
			s.Rulers.Fitting = everyNanometre
		}},
		// Rails of 12 mm.
		{"over the window", "fittings[1].place", folio.NothingUnder, 12 * mm, 12*mm + nm, func(s *folio.Spec, v units.Length) {
			framed(s, func(*folio.Frame) {})
			put(medal(v, "frame", 0, 40*mm))(s)
		}},
		// A picture of 60 mm in the middle of a mat of 80: 10 mm beside it.
		{"over the picture", "fittings[1].place", folio.WarnCovered, 10 * mm, 10*mm + nm, func(s *folio.Spec, v units.Length) {
			put(folio.Fitting{Name: "mat", Kind: folio.Mat{Picture: content(units.Size{W: 60 * mm, H: 60 * mm}), Reveal: 10 * mm}}, medal(v, "mat", 0, 40*mm))(s)
		}},
		// The back of a slip folded at its foot is higher than its front by the lip.
		{"over the mouth", "fittings[1].place", folio.MouthShut, 0, -nm, func(s *folio.Spec, v units.Length) {
			slip := folio.Fitting{Name: "slip", Kind: folio.Folded{Kind: pocket.Slip{Content: pocket.IDCard(), Build: pocket.FoldedFoot}}}
			put(slip, medal(20*mm, "slip", 40*mm, lipOf(*s, slip)+v))(s)
		}},
		// As wide as it comes out without a relation.
		{"no room for a card", "fittings[0].size.w.less", folio.RoomSmall, 114*mm - wideOf(tall), 114*mm - wideOf(tall) + nm, func(s *folio.Spec, v units.Length) {
			byRelation := tall
			byRelation.Size.W = place.Relation{Of: place.OfPanel, Less: v}
			put(byRelation)(s)
		}},
		// The least print with reveals of 3 mm.
		{"no print so small", "fittings[0].size.picture", folio.NoPrint, leastPrint(), leastPrint() + nm, func(s *folio.Spec, v units.Length) {
			size := place.Filling(place.OfPanel, v)
			size.Picture = place.PictureUsual
			put(folio.Fitting{Kind: folio.Mat{Picture: pocket.Content{Name: "print"}, Reveal: 3 * mm}, Size: size})(s)
		}},
		// The frame is 54 + 24 by 74 + 24 mm. At the tail it leaves 66 mm above it, of
		// which 6 are for a grip.
		{"no grip", "fittings[0]", folio.WarnMouth, 60 * mm, 60*mm + nm, func(s *folio.Spec, v units.Length) {
			framed(s, func(*folio.Frame) {})
			s.Fittings[0].Place.Along = place.Tail
			m := mat(40*mm, v)
			m.Place.Along = place.Head
			put(m)(s)
		}},
	}
}

// edgeLimits are what would do where it is not the edge itself, and why.
var edgeLimits = map[string]units.Length{
	"nothing to turn in":                              2210 * units.Micrometre, // what is turned in is a length: 0.01 mm at least
	"nothing to turn in of a row as wide as expected": 4210 * units.Micrometre, // likewise
	"liner short of the turn-in":                      22799998,                // half a step of the ruler is kept, rounded up
	"turn-ins of unequal margins meet":                87 * mm,                 // of the ideal margin, on the ruler
	"set back":                                        122990 * units.Micrometre,
	"does not close":                                  33 * mm, // 25 + 26.800001 + the ease of 1 − 20.8, on the ruler
	"too wide with a clearance":                       99 * mm, // of the mat, on the ruler
	"edge shows in the window":                        5 * mm,  // the next less on the ruler
	"picture too low for an opening":                  7 * mm,
	"picture too narrow for an opening":               7 * mm,
	"too wide by another's height":                    37 * mm,
	"a hinge for tabs":                                8900 * units.Micrometre, // of the tabs
	"foam too thin":                                   2*mm + nm,               // of the foam: as thick as the picture
}

// edgeWarned is what was got and what is wanted, of what is warned about.
var edgeWarned = map[string][2]units.Length{
	"narrow margin at the sides":               {12 * mm, 13 * mm},
	"narrow margin at head and tail":           {12 * mm, 13 * mm},
	"quarter style needed":                     {},
	"lined board by board":                     {},
	"liner round outsides":                     {4400*units.Micrometre - nm, 4400 * units.Micrometre},
	"moved to the ruler, width":                {120*mm + nm, 121 * mm},
	"moved to the ruler, height":               {170*mm - nm, 170 * mm},
	"doors touch":                              {400*units.Micrometre - 2*nm, 400 * units.Micrometre},
	"little ease":                              {mm - nm, mm},
	"touches in passing":                       {mm - nm, mm},
	"crease too near":                          {20800 * units.Micrometre, 20800*units.Micrometre + nm},
	"rule that forgets the liners":             {9800 * units.Micrometre, 9800*units.Micrometre + nm},
	"published gap":                            {3 * mm, 3*mm + nm},
	"covers that do not lie parallel":          {},
	"magnets far apart":                        {1700 * units.Micrometre, 1700*units.Micrometre - nm},
	"over the picture":                         {},
	"no grip":                                  {0, 6 * mm},
	"tabs over a hinge":                        {11*mm + nm, 11 * mm},
	"little ease over a tab":                   {mm - nm, mm},
	"narrow margin at the ends of side papers": {12 * mm, 13 * mm},
}

// beside are those at which a little less change is refused for another reason.
var beside = map[string]bool{
	"width of a cover": true, "nothing to turn in": true, "nothing to turn in of a row as wide as expected": true, "sheet that leaves nothing to turn in": true, "mitres meet": true, "no liner": true, "one crease never closes": true, "angle": true, "set back": true, "strip that leaves no side paper": true, "mitres meet at head and tail": true,
	"magnets larger than their share": true, "boards of a row": true, "shares": true, "fewer shares than none": true,
	"picture too low for an opening": true, "picture too narrow for an opening": true,
}

// sharedEdges are all edges, of plainCase changed by their values.
func sharedEdges() []edgetest.Edge {
	var out []edgetest.Edge
	for _, e := range append(edges(), fittingEdges()...) {
		warned := edgeWarned[e.name]
		out = append(out, edgetest.Edge{
			Name: e.name, Path: e.path, Code: e.code, Fine: e.fine, Wrong: e.wrong, Would: edgeLimits[e.name], Got: warned[0], Want: warned[1], Also: beside[e.name],
			Try: edgetest.Built(func(v units.Length) (*folio.Plan, error) {
				s := plainCase()
				e.set(&s, v)
				return folio.Build(s)
			}),
		})
	}
	return out
}

// Refused and warned about is what has to be, from the least that is wrong on;
// what would do is the greatest or the least that does; and it is said in words
// that were read before they were kept.
func TestEdges(t *testing.T) { edgetest.Run(t, sharedEdges()) }

// natureOf is the nature of what a code is said of in this package: too much or too little is
// made by what goes with it, like all that only a folio says.
func natureOf(c check.Code) check.Nature {
	switch c {
	case check.NotPositive, check.Negative, check.OutOfRange, check.Unknown, check.Missing, check.Conflict, check.TooMany:
		return check.Malformed
	}
	return check.Impossible
}

// What cannot be made is told from what cannot be written.
func TestNatureOfEdges(t *testing.T) {
	for _, e := range append(edges(), fittingEdges()...) {
		s := plainCase()
		e.set(&s, e.wrong)
		if v, ok := refusal(s, e.path, e.code); ok && v.Nature != natureOf(e.code) {
			t.Errorf("%s: %v is %v", e.name, v, v.Nature)
		}
	}
}

// What no length decides is held elsewhere: TestRelationsRefused, TestNeverShuts,
// TestEdgesOfMeasured.
func TestEveryCodeHasAnEdge(t *testing.T) {
	edgetest.EveryCode(t, sharedEdges(), 48, folio.Circular, folio.NeverShuts, folio.MeasuredFar, folio.MarginSmall, folio.WarnMeasured)
}

// What comes out smaller or larger than planned is taken, from a point on warned
// about, and from another one refused. As made, the plain case is 277.4 x
// 170.4 mm, the covering at its edges included; a place may be 2 mm off without a
// word, and 6 mm off at all; the width has two, its gaps.
func TestEdgesOfMeasured(t *testing.T) {
	um := units.Micrometre
	p := mustBuild(t, plainCase())
	small := plainCase()
	small.Margin = rule.Margin{Ideal: 10 * mm, Least: 9 * mm, Tolerated: 9 * mm}
	narrow := mustBuild(t, small)
	inches := plainCase()
	inches.Rulers = rule.Rulers{Main: units.Sixteenths}
	inches.Cover, inches.Spine.Width, inches.Hinge.Width = units.Size{W: 5 * units.Inch, H: 7 * units.Inch}, units.Inch, units.Inch/4
	q := mustBuild(t, inches)
	for name, e := range map[string]struct {
		plan        *folio.Plan
		path        string
		code        check.Code
		fine, wrong refit.Measured
	}{
		"far too narrow": {p, "measured.width", folio.MeasuredFar, refit.Measured{Width: 265 * mm, Height: 170 * mm}, refit.Measured{Width: 265*mm - nm, Height: 170 * mm}},
		"far too wide":   {p, "measured.width", folio.MeasuredFar, refit.Measured{Width: 289400 * um, Height: 170 * mm}, refit.Measured{Width: 289400*um + nm, Height: 170 * mm}},
		"far too low":    {p, "measured.height", folio.MeasuredFar, refit.Measured{Width: 277 * mm, Height: 164 * mm}, refit.Measured{Width: 277 * mm, Height: 164*mm - nm}},
		"far too high":   {p, "measured.height", folio.MeasuredFar, refit.Measured{Width: 277 * mm, Height: 176400 * um}, refit.Measured{Width: 277 * mm, Height: 176400*um + nm}},
		"too narrow":     {p, "measured.width", folio.WarnMeasured, refit.Measured{Width: 273 * mm, Height: 170 * mm}, refit.Measured{Width: 273*mm - nm, Height: 170 * mm}},
		"too wide":       {p, "measured.width", folio.WarnMeasured, refit.Measured{Width: 281400 * um, Height: 170 * mm}, refit.Measured{Width: 281400*um + nm, Height: 170 * mm}},
		"too low":        {p, "measured.height", folio.WarnMeasured, refit.Measured{Width: 277 * mm, Height: 168 * mm}, refit.Measured{Width: 277 * mm, Height: 168*mm - nm}},
		"too high":       {p, "measured.height", folio.WarnMeasured, refit.Measured{Width: 277 * mm, Height: 172400 * um}, refit.Measured{Width: 277 * mm, Height: 172400*um + nm}},
		// Each gap has lost 3.7 mm and is 2.3 wide, as its hinge needs.
		"gaps too narrow": {p, "measured.width", folio.GapNarrow, refit.Measured{Width: 269600 * um, Height: 170 * mm}, refit.Measured{Width: 269600*um - 2*nm, Height: 170 * mm}},
		// A row 2 mm longer takes 1 mm of each margin.
		"little turned in, wide": {narrow, "measured.width", folio.MarginSmall, refit.Measured{Width: 279400 * um, Height: 170 * mm}, refit.Measured{Width: 279400*um + nm, Height: 170 * mm}},
		"little turned in, high": {narrow, "measured.height", folio.MarginSmall, refit.Measured{Width: 277 * mm, Height: 172400 * um}, refit.Measured{Width: 277 * mm, Height: 172400*um + nm}},
		// A cover that measures 120.2 mm has its covering at the fore edge.
		"a panel too narrow": {p, "measured.panels[0]", folio.MeasuredFar,
			refit.Measured{Width: 277 * mm, Height: 170 * mm, Panels: []units.Length{114 * mm, 25 * mm, 120 * mm}},
			refit.Measured{Width: 277 * mm, Height: 170 * mm, Panels: []units.Length{114*mm - nm, 25 * mm, 120 * mm}}},
		"a panel too wide": {p, "measured.panels[2]", folio.MeasuredFar,
			refit.Measured{Width: 277 * mm, Height: 170 * mm, Panels: []units.Length{120 * mm, 25 * mm, 126200 * um}},
			refit.Measured{Width: 277 * mm, Height: 170 * mm, Panels: []units.Length{120 * mm, 25 * mm, 126200*um + nm}}},
		"not all panels": {p, "measured.panels", check.OutOfRange,
			refit.Measured{Width: 277 * mm, Height: 170 * mm, Panels: []units.Length{120 * mm, 25 * mm, 120 * mm}},
			refit.Measured{Width: 277 * mm, Height: 170 * mm, Panels: []units.Length{120 * mm, 25 * mm}}},
		// In inches a place may be 1/16 in off without a word, and 1/4 in at all.
		"too narrow in inches": {q, "measured.width", folio.WarnMeasured,
			refit.Measured{Width: 91 * units.Inch / 8, Height: 7 * units.Inch}, refit.Measured{Width: 91*units.Inch/8 - nm, Height: 7 * units.Inch}},
		"too low in inches": {q, "measured.height", folio.WarnMeasured,
			refit.Measured{Width: 23 * units.Inch / 2, Height: 111 * units.Inch / 16}, refit.Measured{Width: 23 * units.Inch / 2, Height: 111*units.Inch/16 - nm}},
		"far too low in inches": {q, "measured.height", folio.MeasuredFar,
			refit.Measured{Width: 23 * units.Inch / 2, Height: 27 * units.Inch / 4}, refit.Measured{Width: 23 * units.Inch / 2, Height: 27*units.Inch/4 - nm}},
		"the spine too wide": {p, "measured.panels[1]", folio.WarnMeasured,
			refit.Measured{Width: 277 * mm, Height: 170 * mm, Panels: []units.Length{120 * mm, 27 * mm, 120 * mm}},
			refit.Measured{Width: 277 * mm, Height: 170 * mm, Panels: []units.Length{120 * mm, 27*mm + nm, 120 * mm}}},
	} {
		for want, m := range map[bool]refit.Measured{false: e.fine, true: e.wrong} {
			q, err := e.plan.Refit(m)
			if got := edgetest.Said(q, err, e.path, e.code); got != want {
				t.Errorf("%s, %v: %s at %s is %v, want %v: %v", name, m, e.code, e.path, got, want, err)
			}
		}
	}
}

// What a spine board that came out narrower has no room for is refused at the
// fitting, and by how much. Of 24 mm, 4 are boards, 0.2 liners, and 0.1 the tape; the
// gaps leave no room for another crease.
func TestEdgeOfClosingAsMade(t *testing.T) {
	s := plainCase()
	s.Hinge.Width, s.Rulers.Gap, s.Closing.Ease = 2300*units.Micrometre, everyNanometre, units.None
	stood(&s, 19700*units.Micrometre)
	p := mustBuild(t, s)
	for _, less := range []units.Length{0, nm} {
		spine := 24*mm - less
		_, err := p.Refit(refit.Measured{Width: 240*mm + spine + 4600*units.Micrometre, Height: 170 * mm, Panels: []units.Length{120 * mm, spine, 120 * mm}})
		var bad *check.Error
		if errors.As(err, &bad) != (less > 0) {
			t.Errorf("a spine of %v: %v", spine, err)
		}
		if bad == nil {
			continue
		}
		if v, ok := bad.Find("fittings[0]", folio.NotClosing); !ok || v.Want != "something there that is lower by 0.000001 mm than badge" {
			t.Errorf("a spine of %v: %v", spine, err)
		}
	}
}

// A panel at an end that measures more than its board has that much of the covering
// at its edge, up to its caliper; the board is as wide as it was.
func TestCoveringInPanelsMeasured(t *testing.T) {
	um := units.Micrometre
	p := mustBuild(t, plainCase())
	for _, c := range []struct{ left, right units.Length }{{0, 200 * um}, {200 * um, 0}, {100 * um, 200 * um}, {0, 0}} {
		q, err := p.Refit(refit.Measured{Width: 277*mm + c.left + c.right, Height: 170 * mm, Panels: []units.Length{120*mm + c.left, 25 * mm, 120*mm + c.right}})
		if err != nil {
			t.Fatal(err)
		}
		for b := range q.Boards() {
			if got, want := b.Rect().Size().W, map[bool]units.Length{true: 25 * mm, false: 120 * mm}[b.Role().Spine()]; got != want {
				t.Errorf("%v more: the %v is %v wide, want %v", c, b.Role(), got, want)
			}
		}
		for g := range q.Gaps() {
			if g.Width() != 6*mm {
				t.Errorf("%v more: a gap is %v wide, want 6 mm", c, g.Width())
			}
		}
	}
}
