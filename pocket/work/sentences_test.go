package work_test

import (
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

const mm = units.Millimetre

func size(w, h units.Length) units.Size { return units.Size{W: w * mm, H: h * mm} }
func area(x, y, w, h units.Length) units.Rect {
	return units.RectAt(units.Point{X: x * mm, Y: y * mm}, size(w, h))
}
func at(across score.Edge, x units.Length, along score.Edge, y units.Length) work.At {
	return work.At{Across: across, X: x * mm, Along: along, Y: y * mm}
}

type sentence struct {
	do   []work.Action
	want string
}

// sentences has what a person reads, with every field of every action given and
// not given, and with neighbours that are told in one sentence and that are not.
func sentences() []sentence {
	do := func(a ...work.Action) []work.Action { return a }
	card, note, strip := work.Object{Name: "card"}, work.Object{Name: "note", Index: 1}, work.Object{Name: "strip"}
	each := work.Object{Name: "corner", Copy: work.All}
	photo := work.Object{Kind: work.Content, Name: "photograph", Copy: work.All}
	sheet := work.Source{Stock: "kraft", Size: size(297, 210)}
	any := work.Source{Stock: "kraft", Index: -1}
	left := work.Base{Kind: work.OnBoard, Name: "left cover", Panel: work.All}
	row := work.Base{Kind: work.OnRow}
	under := work.Base{Kind: work.Under}
	onStrip := work.Base{Name: "strip"}
	home := at(score.Left, 3, score.Head, 5)
	upright, level := score.Line{Axis: score.Upright, Fold: score.Valley}, score.Line{Axis: score.Level, Fold: score.Mountain}
	line := func(l score.Line, at, from, to units.Length) score.Line {
		l.At, l.From, l.To = at*mm, from*mm, to*mm
		return l
	}
	fold := func(at units.Length, moves score.Edge, way work.Way, open, flat bool) work.FoldAt {
		f := work.FoldAt{What: strip, At: at * mm, Moves: moves, Way: way, Open: open, Flat: flat}
		if moves == score.Head || moves == score.Tail {
			f.Axis = score.Level
		}
		return f
	}
	mitre := func(c score.Corner) work.Trim {
		return work.Trim{What: card, Corner: c, From: units.Point{X: 12 * mm}, To: units.Point{Y: 12 * mm}}
	}
	pocket := work.Part{Kind: work.PartFitting, Name: "slip pocket"}
	return []sentence{
		{do(work.FindGrain{Stocks: []string{"board"}}),
			"Find the grain of board and mark it: in every piece it runs along the height, parallel to the spine."},
		{do(work.FindGrain{Stocks: []string{"board", "kraft", "liner"}, Across: []work.Object{card, note}}),
			"Find the grain of board, kraft and liner and mark it: it runs along the height of the pieces, parallel to the spine, but along the width of the card and the note."},
		{do(work.FindGrain{Stocks: []string{"board", "kraft"}, Either: []work.Object{card, note, strip}}),
			"Find the grain of board and kraft and mark it: it runs along the height of the pieces, parallel to the spine; it may run either way in the card, the note and the strip."},
		{do(work.FindGrain{Stocks: []string{"kraft"}, Across: []work.Object{card}, Either: []work.Object{note}}),
			"Find the grain of kraft and mark it: it runs along the height of the pieces, parallel to the spine, but along the width of the card; it may run either way in the note."},
		{do(work.Cut{What: card, Count: 1, Size: size(30, 40), From: sheet}, work.Cut{What: note, Count: 3, Size: size(20, 10), From: sheet}),
			"From a sheet of kraft, 297 x 210 mm, cut the card 30 x 40 mm and 3 x note 20 x 10 mm."},
		{do(work.Cut{What: card, Count: 1, Size: size(30, 40), From: any}, work.Cut{What: note, Count: 1, Size: size(20, 10), From: any}, work.Cut{What: strip, Count: 2, Size: size(5, 6), From: any}),
			"From kraft cut the card 30 x 40 mm, the note 20 x 10 mm and 2 x strip 5 x 6 mm."},
		{do(work.Cut{What: card, Count: 1, Size: size(30, 40), From: any, Grain: work.GrainAlongWidth}, work.Cut{What: note, Count: 1, Size: size(20, 10), From: any}),
			"From kraft cut the card 30 x 40 mm, grain along the width. From kraft cut the note 20 x 10 mm."},
		{do(work.Cut{What: card, Count: 1, Size: size(30, 40), From: any}, work.Cut{What: note, Count: 1, Size: size(20, 10), From: sheet}),
			"From kraft cut the card 30 x 40 mm. From a sheet of kraft, 297 x 210 mm, cut the note 20 x 10 mm."},
		{do(work.Cut{What: card, Count: 1, Size: size(30, 40), From: any, Upright: true}, work.Cut{What: note, Count: 1, Size: size(20, 10), From: any}),
			"From kraft cut the card 30 x 40 mm, the pattern upright. From kraft cut the note 20 x 10 mm."},
		{do(work.Cut{What: card, Count: 1, Size: size(30, 40), From: any, Up: work.WrongSide}, work.Cut{What: note, Count: 1, Size: size(20, 10), From: any}),
			"From kraft cut the card 30 x 40 mm, wrong side up. From kraft cut the note 20 x 10 mm."},
		{do(work.Cut{What: card, Count: 1, Size: size(30, 40), From: work.Source{Stock: "card", Index: 2, Size: size(297, 210), Turned: true}, Grain: work.GrainAlongHeight, Up: work.WrongSide}),
			"From a sheet of card, 297 x 210 mm as it lies after a quarter turn, cut the card 30 x 40 mm, grain along the height, wrong side up."},
		{do(work.MarkPlace{What: card, On: left, At: home, Size: size(30, 40)}, work.Lay{What: card, On: left, At: home, Size: size(30, 40)}),
			"Mark lightly on the inside of the left cover the place of the card, 30 x 40 mm: 3 mm from the left edge and 5 mm from the head edge of the board. Lay it there dry, to see that it goes."},
		{do(work.Fix{What: card, On: work.Base{Kind: work.OnOutside, Name: "flap"}, At: at(score.Right, -2, score.Tail, 0), Quarters: 1, Up: score.Back}),
			"Glue the card, turned a quarter clockwise, on the outside of the flap: 2 mm beyond the left edge and on the tail edge of the board as you look at its outside."},
		{do(mitre(score.HeadLeft), mitre(score.HeadRight), mitre(score.TailRight), mitre(score.TailLeft)),
			"Cut all four corners off the card at 45 degrees, through the points 12 mm from the corner along both edges."},
		{do(mitre(score.HeadLeft), mitre(score.TailLeft)),
			"Cut the head left and tail left corners off the card at 45 degrees, through the points 12 mm from the corner along both edges."},
		{do(work.Close{Turns: []work.Turned{{Board: 1, Over: -1, Name: "spine"}, {Board: 0, Over: 2, Name: "left cover", On: "right cover"}}, Left: 2 * mm}),
			"Close the folio: stand the spine up, then turn the left cover over the right cover. It must close without force on the hinges, with 2 mm to spare at the tightest place."},
		{do(work.Open{What: card, Area: area(0, 0, 10, 20)}),
			"Cut out of the card 10 x 20 mm at the head left corner."},
		{do(work.Open{What: each, Area: area(0, 4, 10, 20), Radius: 2 * mm}),
			"Cut out of each corner 10 x 20 mm at the left edge, 4 mm from the head, corners rounded to 2 mm."},
		{do(work.Open{What: card, Area: area(4, 0, 10, 20)}, work.Open{What: card, Area: area(4, 6, 10, 20)}),
			"Cut out of the card 10 x 20 mm at the head edge, 4 mm from the left. Cut out of the card 10 x 20 mm, 4 mm from the left and 6 mm from the head edge."},
		{do(work.NotchOut{What: card, Notch: score.Notch{Edge: score.Head, Middle: 20 * mm, Width: 12 * mm, Depth: 6 * mm, Round: true}}),
			"Cut a half-round notch 12 mm wide and 6 mm deep into the head edge of the card, its middle 20 mm from the left edge."},
		{do(work.NotchOut{What: card, Notch: score.Notch{Edge: score.Left, Middle: 20 * mm, Width: 12 * mm, Depth: 6 * mm}}, work.NotchOut{What: card, Notch: score.Notch{Edge: score.Left, Middle: 50 * mm, Width: 12 * mm, Depth: 6 * mm}}),
			"Cut square notches 12 mm wide and 6 mm deep into the left edge of the card, their middles 20 mm and 50 mm from the head edge."},
		{do(work.NotchOut{What: card, Notch: score.Notch{Edge: score.Right, Middle: 20 * mm, Width: 12 * mm, Depth: 6 * mm}}, work.NotchOut{What: card, Notch: score.Notch{Edge: score.Tail, Middle: 20 * mm, Width: 12 * mm, Depth: 6 * mm}}),
			"Cut a square notch 12 mm wide and 6 mm deep into the right edge of the card, its middle 20 mm from the head edge. Cut a square notch 12 mm wide and 6 mm deep into the tail edge of the card, its middle 20 mm from the left edge."},
		{do(work.Trim{What: card, Corner: score.HeadRight, From: units.Point{X: 80 * mm}, To: units.Point{X: 90 * mm, Y: 4 * mm}}),
			"Cut the head right corner off the card, straight from 10 mm along the level edge to 4 mm along the upright edge."},
		{do(work.Trim{What: card, Corner: score.HeadLeft, From: units.Point{X: 4 * mm}, To: units.Point{Y: 4 * mm}}, work.Trim{What: card, Corner: score.TailLeft, From: units.Point{X: 5 * mm, Y: 40 * mm}, To: units.Point{Y: 35 * mm}}),
			"Cut the head left corner off the card at 45 degrees, through the points 4 mm from the corner along both edges. Cut the tail left corner off the card at 45 degrees, through the points 5 mm from the corner along both edges."},
		{do(work.Draw{On: onStrip, Axis: score.Level, At: 15 * mm}, work.Draw{On: onStrip, Axis: score.Upright, At: 20 * mm}, work.Draw{On: onStrip, Axis: score.Upright, At: 120 * mm}, work.Draw{On: onStrip, Axis: score.Level, At: 165 * mm}),
			"On the strip draw lines to lay by: from the head edge 15 mm and 165 mm; from the left edge 20 mm and 120 mm."},
		{do(work.Draw{On: onStrip, Axis: score.Upright, At: 20 * mm}, work.Draw{On: row, Axis: score.Upright, At: 30 * mm}),
			"On the strip draw lines to lay by: from the left edge 20 mm. On the inside of the open case draw lines to lay by: from the left edge 30 mm."},
		{do(work.MarkPlace{What: card, On: row, At: at(score.Left, 0, score.Head, 0), Size: size(30, 40)}),
			"Mark lightly on the inside of the open case the place of the card, 30 x 40 mm: on the left and head edges of the cover."},
		{do(work.MarkPlace{What: card, On: left, At: home, Size: size(30, 40)}, work.Lay{What: note, On: left, At: home, Size: size(30, 40)}),
			"Mark lightly on the inside of the left cover the place of the card, 30 x 40 mm: 3 mm from the left edge and 5 mm from the head edge of the board. Lay the note dry on the inside of the left cover, to see that it goes: 3 mm from the left edge and 5 mm from the head edge of the board."},
		{do(work.Lay{What: each, On: under, At: at(score.Right, 4, score.Tail, 0), Size: size(30, 40)}),
			"Lay each corner dry on the support, to see that it goes: 4 mm from the right edge and on the tail edge of the place."},
		{do(work.Put{What: card, On: onStrip, At: at(score.Left, -4, score.Tail, 6), Size: size(30, 40)}),
			"Put the card on the strip, 4 mm beyond the left edge and 6 mm from the tail edge of it."},
		{do(work.ScoreAt{What: strip, Line: line(upright, 30, 0, 0)}),
			"Score the face of the strip: 30 mm from the left edge for a valley fold."},
		{do(work.ScoreAt{What: strip, Line: line(upright, 30, 0, 0), On: score.Back, Light: true}, work.ScoreAt{What: strip, Line: line(upright, 50, 0, 0), On: score.Back, Light: true}),
			"Score the back of the strip: 30 mm and 50 mm from the edge at the right for valley folds, as seen from the face. Paper this light also folds along a line that is only marked, with a bone folder and with the grain."},
		{do(work.ScoreAt{What: strip, Line: line(upright, 30, 0, 0), Light: true}, work.ScoreAt{What: strip, Line: line(upright, 50, 0, 0), On: score.Back, Light: true}),
			"Score the face of the strip: 30 mm from the left edge for a valley fold. Paper this light also folds along a line that is only marked, with a bone folder and with the grain. Score the back of the strip: 50 mm from the edge at the right for a valley fold, as seen from the face."},
		{do(work.ScoreAt{What: strip, Line: line(level, 30, 0, 0)}, work.ScoreAt{What: strip, Line: line(upright, 50, 0, 0)}, work.ScoreAt{What: strip, Line: line(level, 60, 0, 0)}),
			"Score the face of the strip: 50 mm from the left edge for a valley fold; 30 mm and 60 mm from the head edge for mountain folds."},
		{do(work.ScoreAt{What: strip, Line: line(level, 30, 5, 45)}, work.ScoreAt{What: strip, Line: line(level, 60, 0, 0)}),
			"Score the face of the strip: 30 mm from the head edge, from 5 mm to 45 mm from the left edge, for a mountain fold; 60 mm from the head edge for a mountain fold."},
		{do(work.ScoreAt{What: strip, Line: line(level, 30, 5, 45), On: score.Back}),
			"Score the back of the strip: 30 mm from the head edge, from 5 mm to 45 mm from the edge at the right, for a mountain fold, as seen from the face."},
		{do(work.ScoreAt{What: strip, Line: line(upright, 30, 5, 45)}, work.ScoreAt{What: card, Line: line(upright, 30, 5, 45)}),
			"Score the face of the strip: 30 mm from the left edge, from 5 mm to 45 mm from the head edge, for a valley fold. Score the face of the card: 30 mm from the left edge, from 5 mm to 45 mm from the head edge, for a valley fold."},
		{do(fold(30, score.Left, work.Towards, false, true)),
			"Fold the strip at the score 30 mm from the left edge: the part with its left edge up towards you, flat over the rest."},
		{do(fold(30, score.Right, work.Away, false, true)),
			"Fold the strip at the score 30 mm from the left edge: the part with its right edge away from you, flat under the rest."},
		{do(fold(30, score.Head, work.Towards, false, false)),
			"Fold the strip at the score 30 mm from the head edge: the part with its head edge towards you, until it stands at a right angle."},
		{do(fold(30, score.Tail, work.Away, false, false), fold(50, score.Tail, work.Away, false, false)),
			"Fold the strip at the scores 30 mm and 50 mm from the head edge, in this order: the part with its tail edge away from you, until it stands at a right angle each time: what lies between the scores stands as a wall, and what lies beyond it lies flat again."},
		{do(fold(30, score.Left, work.Towards, false, true), fold(50, score.Right, work.Towards, false, true)),
			"Fold the strip at the score 30 mm from the left edge: the part with its left edge up towards you, flat over the rest. Fold the strip at the score 50 mm from the left edge: the part with its right edge up towards you, flat over the rest."},
		{do(fold(30, score.Left, work.Towards, true, true)),
			"Crease the strip and lay it open again, folding it at the score 30 mm from the left edge: the part with its left edge up towards you, flat over the rest."},
		{do(fold(30, score.Left, work.Towards, true, true), fold(60, score.Left, work.Away, true, true), fold(50, score.Left, work.Towards, true, true)),
			"Crease the strip and lay it open again each time, folding it at the scores 30 mm and 50 mm from the left edge: the part with its left edge up towards you, flat over the rest; then at the score 60 mm from the left edge: the part with its left edge away from you, flat under the rest."},
		{do(fold(30, score.Left, work.Towards, true, true), fold(60, score.Left, work.Towards, false, true)),
			"Crease the strip and lay it open again, folding it at the score 30 mm from the left edge: the part with its left edge up towards you, flat over the rest. Fold the strip at the score 60 mm from the left edge: the part with its left edge up towards you, flat over the rest."},
		{do(work.TurnOver{What: strip}),
			"Turn the strip over, left to right; the left edge lies at the right from now on."},
		{do(work.TurnOver{What: strip}, work.Dry{What: "the strip"}, work.TurnOver{What: strip, Again: true}),
			"Turn the strip over, left to right. Let the strip dry. Turn the strip back over, left to right."},
		{do(work.TurnOver{What: strip, Again: true}),
			"Turn the strip back over, left to right."},
		{do(work.Sink{What: card, Middle: units.Point{X: 20 * mm, Y: 30 * mm}, Diameter: 8 * mm, Depth: 2 * mm}),
			"Bore a hole 8 mm across and 2 mm deep into the inside of the card, its middle 20 mm from its left edge as you look at that side and 30 mm from its head edge."},
		// The hole is as wide and as deep as the magnet, off the ruler of whole millimetres:
		// one of "~8 mm" does not take it.
		{do(work.Sink{What: card, Middle: units.Point{X: 20 * mm, Y: 30 * mm}, Diameter: 83 * mm / 10, Depth: 3 * mm / 2}),
			"Bore a hole 8.3 mm across and 1.5 mm deep into the inside of the card, its middle 20 mm from its left edge as you look at that side and 30 mm from its head edge."},
		{do(work.Sink{What: card, Outside: true, Middle: units.Point{X: 20 * mm, Y: 30 * mm}, Diameter: 8 * mm, Depth: 2 * mm}),
			"Bore a hole 8 mm across and 2 mm deep into the outside of the card, its middle 20 mm from its right edge as you look at that side and 30 mm from its head edge."},
		{do(work.TryPair{One: work.Object{Kind: work.Magnet, Name: "first magnet"}, Other: work.Object{Kind: work.Magnet, Name: "second magnet"}}),
			"Hold the first magnet to the second magnet as they will meet: they must draw each other, not push. Mark on each the face that meets the other."},
		{do(work.Fix{What: work.Object{Kind: work.Magnet, Name: "first magnet"}, On: left, At: home, Size: size(6, 6)}),
			"Glue the first magnet into its hole in the inside of the left cover, its marked face out: 3 mm from the left edge and 5 mm from the head edge of the board."},
		{do(work.Fix{What: card, On: left, At: home, Size: size(30, 40)}),
			"Glue the card on the inside of the left cover: 3 mm from the left edge and 5 mm from the head edge of the board."},
		{do(work.Fix{What: card, On: left, At: home, Size: size(30, 40), Quarters: 3, By: work.Tape}),
			"Tape the card, turned a quarter anticlockwise, on the inside of the left cover: 3 mm from the left edge and 5 mm from the head edge of the board."},
		{do(work.Fix{What: card, On: onStrip, At: home, Size: size(30, 40), Up: score.Back, By: work.Tape, Areas: []units.Rect{area(0, 0, 30, 6)}}),
			"Tape the card, back up, on the strip: 3 mm from the left edge and 5 mm from the head edge of it; double-sided tape underneath, only on 30 x 6 mm at the head left corner, measured on the flat piece."},
		// What is as long as the piece is told by the edge that it runs along.
		{do(work.Fix{What: card, On: onStrip, At: home, Size: size(30, 40), By: work.Tape, Flat: size(30, 50), Areas: []units.Rect{area(0, 0, 30, 6), area(0, 44, 30, 6), area(0, 40, 30, 4)}}),
			"Tape the card on the strip: 3 mm from the left edge and 5 mm from the head edge of it; double-sided tape underneath, only on 6 mm along the whole head edge; 6 mm along the whole tail edge; and 4 mm wide from edge to edge, 40 mm from the head, measured on the flat piece."},
		{do(work.Fix{What: card, On: onStrip, At: home, Size: size(30, 40), Flat: size(30, 50), Areas: []units.Rect{area(24, 0, 6, 9), area(24, 41, 6, 9), area(0, 41, 6, 9), area(24, 20, 6, 9), area(8, 41, 6, 9)}}),
			"Glue the card on the strip: 3 mm from the left edge and 5 mm from the head edge of it; glue underneath, only on 6 x 9 mm at the head right corner; 6 x 9 mm at the tail right corner; 6 x 9 mm at the tail left corner; 6 x 9 mm at the right edge, 20 mm from the head; and 6 x 9 mm at the tail edge, 8 mm from the left, measured on the flat piece."},
		{do(work.Stick{What: strip, Flat: size(60, 40), Area: area(0, 0, 6, 40), To: under}, work.Stick{What: strip, Flat: size(60, 40), Area: area(54, 0, 6, 40), To: under}, work.Stick{What: strip, Flat: size(60, 40), Area: area(20, 0, 6, 40), To: under}, work.Stick{What: strip, Flat: size(60, 40), Area: area(0, 0, 60, 40), To: under}),
			"Stick the face of the strip to the support, with glue on 6 mm along the whole left edge; 6 mm along the whole right edge; 6 mm wide from edge to edge, 20 mm from the left; and all of it, measured on the flat piece."},
		{do(work.Stick{What: strip, Flat: size(60, 40), Area: area(54, 0, 6, 40), Side: score.Back, By: work.Tape, To: left, Standing: true}),
			"Stand the folds of the strip up, pressed together, and stick the back of it to the inside of the left cover, with double-sided tape on 6 mm along the whole right edge, measured on the flat piece."},
		{do(work.Fix{What: card, On: left, At: home, Size: size(30, 40), Up: score.Back, By: work.SelfSticky, Areas: []units.Rect{area(0, 0, 30, 6), area(0, 6, 6, 34)}}),
			"Stick the card on the inside of the left cover: 3 mm from the left edge and 5 mm from the head edge of the board."},
		{do(work.Fix{What: card, On: left, At: home, Size: size(30, 40), Areas: []units.Rect{area(0, 0, 30, 40)}}),
			"Glue the card on the inside of the left cover: 3 mm from the left edge and 5 mm from the head edge of the board."},
		{do(work.Fix{What: card, On: left, At: home, Size: size(30, 40), Areas: []units.Rect{area(0, 0, 30, 6), area(24, 6, 6, 34)}}),
			"Glue the card on the inside of the left cover: 3 mm from the left edge and 5 mm from the head edge of the board; glue underneath, only on 30 x 6 mm at the head left corner; and 6 x 34 mm, 24 mm from the left and 6 mm from the head edge, measured on the flat piece."},
		{do(work.Fix{What: card, On: onStrip, At: at(score.Left, 20, score.Head, 15), Lines: true}, work.Fix{What: note, On: onStrip, At: at(score.Left, 120, score.Head, 15), Lines: true}, work.Fix{What: strip, On: onStrip, At: at(score.Left, 220, score.Head, 15)}),
			"Glue on the strip, each on its lines: the card 20 mm from the left edge and the note 120 mm from the left edge; 15 mm from the head edge. Glue the strip on the strip: 220 mm from the left edge and 15 mm from the head edge of it."},
		{do(work.Fix{What: card, On: onStrip, At: at(score.Left, 20, score.Head, 15), Lines: true}, work.Fix{What: note, On: onStrip, At: at(score.Left, 120, score.Head, 16), Lines: true}),
			"Glue on the strip, each on its lines: the card 20 mm from the left edge; 15 mm from the head edge. Glue on the strip, each on its lines: the note 120 mm from the left edge; 16 mm from the head edge."},
		{do(work.Fix{What: card, On: onStrip, At: at(score.Left, 20, score.Head, 15), Lines: true}, work.Fix{What: note, On: row, At: at(score.Left, 120, score.Head, 15), Lines: true}),
			"Glue on the strip, each on its lines: the card 20 mm from the left edge; 15 mm from the head edge. Glue on the inside of the open case, each on its lines: the note 120 mm from the left edge; 15 mm from the head edge."},
		{do(work.Fix{What: card, On: onStrip, At: at(score.Left, 20, score.Head, 15), Lines: true}, work.Fix{What: note, On: onStrip, By: work.Tape, At: at(score.Left, 120, score.Head, 15), Lines: true}),
			"Glue on the strip, each on its lines: the card 20 mm from the left edge; 15 mm from the head edge. Tape on the strip, each on its lines: the note 120 mm from the left edge; 15 mm from the head edge."},
		{do(work.Fix{What: card, On: onStrip, At: at(score.Left, -20, score.Head, 15), Lines: true, Size: size(30, 40)}, work.Fix{What: note, On: onStrip, At: at(score.Left, 12, score.Head, 15), Lines: true}),
			"Glue on the strip, each on its lines: the card with its right edge 10 mm from the left edge and the note 12 mm from the left edge; 15 mm from the head edge."},
		{do(work.Stick{What: strip, Area: area(0, 0, 6, 40), To: under}, work.Stick{What: strip, Area: area(24, 5, 6, 35), To: under}),
			"Stick the face of the strip to the support, with glue on 6 x 40 mm at the head left corner; and 6 x 35 mm, 24 mm from the left and 5 mm from the head edge, measured on the flat piece."},
		{do(work.Stick{What: strip, Area: area(0, 0, 6, 40), Side: score.Back, By: work.Tape, To: onStrip}, work.Stick{What: strip, Area: area(0, 0, 6, 40), By: work.Tape, To: onStrip}),
			"Stick the back of the strip to itself, with double-sided tape on 6 x 40 mm at the head left corner, measured on the flat piece. Stick the face of the strip to itself, with double-sided tape on 6 x 40 mm at the head left corner, measured on the flat piece."},
		{do(work.TurnIn{What: card, Edge: score.Head, Depth: 15 * mm}, work.TurnIn{What: card, Edge: score.Tail, Depth: 16 * mm}),
			"Glue and turn in the card over the boards: 15 mm at the head and 16 mm at the tail."},
		{do(work.TurnIn{What: card, Edge: score.Left, Depth: 15 * mm}, work.TurnIn{What: note, Edge: score.Right, Depth: 15 * mm}),
			"Glue and turn in the card over the boards: 15 mm at the left. Glue and turn in the note over the boards: 15 mm at the right."},
		{do(work.Tuck{What: card, Corners: []score.Corner{score.HeadLeft}}),
			"Tuck the head left corner of the card in with a bone folder."},
		{do(work.Tuck{What: card, Corners: []score.Corner{score.HeadLeft, score.HeadRight, score.TailRight}}),
			"Tuck the head left, head right and tail right corners of the card in with a bone folder."},
		{do(work.Rub{What: card, Gaps: []int{0}}),
			"Rub the card down into the hinge."},
		{do(work.Rub{What: card, Gaps: []int{0, 1}}),
			"Rub the card down into the hinges."},
		{do(work.Rub{What: card, Gaps: []int{0, 1, 2}, Deep: []int{1}}),
			"Rub the card down into the hinges. At hinge 2 from the left fold the outsides together and work it while wet round both edges, down on to the covering between them, before you rub down what lies beyond, or it holds the boards open."},
		{do(work.Rub{What: card, Gaps: []int{1}, Deep: []int{1}}),
			"At hinge 2 from the left fold the outsides together and work the card while wet round both edges, down on to the covering between them, before you rub down what lies beyond, or it holds the boards open."},
		{do(work.Dry{What: "the case"}),
			"Let the case dry."},
		{do(work.Dry{What: "the liner", Weight: true, Apart: true}),
			"Let the liner dry under a weight, with waste sheets between what could stick together."},
		{do(work.Measure{Planned: size(300, 200), Expected: size(301, 201)}),
			"Measure the open cover: planned 300 x 200 mm, expected as made about 301 x 201 mm."},
		{do(work.Measure{Planned: size(300, 200), Expected: units.Size{W: 301*mm + mm/30, H: 201*mm - mm/30}}),
			"Measure the open cover: planned 300 x 200 mm, expected as made about 301 x 201 mm."},
		{do(work.Measure{Planned: size(300, 200), Expected: units.Size{W: 301*mm + 6*mm/10, H: 201*mm + 4*mm/10}}),
			"Measure the open cover: planned 300 x 200 mm, expected as made about 302 x 201 mm."},
		{do(work.Refit{}),
			"If it measures anything but what was planned, refit the plan to what it measures before cutting anything for the inside."},
		{do(work.Refit{Done: true, Size: size(301, 201)}),
			"The case is made: the steps before this one are done. What follows is refitted to the cover as measured, 301 x 201 mm."},
		{do(work.Insert{What: photo, Into: pocket, From: score.Head}),
			"Slip the photograph into the slip pocket from the head."},
		{do(work.Insert{What: photo, Count: 3, Into: pocket, From: score.Left}),
			"Slip 3 x photograph into the slip pocket from the left."},
		{do(work.Insert{What: photo, Into: pocket, From: score.Head}, work.Insert{What: photo, Into: pocket, From: score.Head}),
			"Slip the photograph into each of the 2 pockets of the slip pocket from the head."},
		{do(work.Insert{What: photo, Into: pocket, From: score.Head}, work.Insert{What: photo, Into: pocket, From: score.Right}),
			"Slip the photograph into the slip pocket from the head. Slip the photograph into the slip pocket from the right."},
		{do(work.Insert{What: photo, Into: work.Part{Name: "corners"}, Corners: true}),
			"Slip the photograph under the corners, one corner after the other."},
		{do(work.Close{Turns: []work.Turned{{Board: 2, Over: 0, Name: "flap", On: "left cover"}}, Left: 3 * mm, Doors: true}),
			"Close the folio: turn the flap over the left cover. It must close without force on the hinges, with 3 mm to spare at the tightest place, and the doors must meet without overlapping."},
		{do(work.Close{Left: 0}),
			"Close the folio. It must close without force on the hinges, with 0 mm to spare at the tightest place."},
		// What does not close as planned has nothing to spare.
		{do(work.Close{Left: -2 * mm}),
			"Close the folio. Creased as planned it is 2 mm too tight at the tightest place: see the plan's warning, and do not force the hinges."},
		// A third of a millimetre is not nothing on a ruler of whole ones, and no more helps.
		{do(work.Close{Left: -mm / 3}),
			"Close the folio. Creased as planned it is ~0.4 mm too tight at the tightest place: see the plan's warning, and do not force the hinges."},
		{do(work.Close{Left: -7 * mm / 3}),
			"Close the folio. Creased as planned it is ~3 mm too tight at the tightest place: see the plan's warning, and do not force the hinges."},
		// Whose hinges do not turn so far has nothing that is known.
		{do(work.Close{Turns: []work.Turned{{Board: 1, Over: -1, Name: "spine"}, {Board: 0, Over: 2, Name: "left cover", On: "right cover"}}, Ajar: true}),
			"Close the folio as far as it goes without force: stand the spine up, then turn the left cover over the right cover. The covers do not come to lie parallel: see the plan's warning."},
		// What a number or a letter tells apart takes no article, and no number runs
		// into a size.
		{do(work.Cut{What: work.Object{Name: "strip 4"}, Count: 1, Size: size(5, 6), From: any}, work.Cut{What: work.Object{Name: "strip 1"}, Count: 3, Size: size(8, 6), From: any}, work.Cut{What: work.Object{Name: "strip B"}, Count: 1, Size: size(7, 6), From: any}),
			"From kraft cut strip 4, 5 x 6 mm, 3 x strip 1, 8 x 6 mm and strip B 7 x 6 mm."},
		{do(work.Fix{What: work.Object{Name: "corner 2"}, On: work.Base{Name: "fold 2 of the guard"}, At: at(score.Left, 0, score.Head, 0), Quarters: 2}),
			"Glue corner 2, turned half round, on fold 2 of the guard: on the left and head edges of it."},
		{do(work.Fix{What: work.Object{Name: "first tab of strip A2"}, On: work.Base{Name: "strip A1"}, At: at(score.Left, 0, score.Head, 0)}),
			"Glue the first tab of strip A2 on strip A1: on the left and head edges of it."},
		// On a piece that was turned over "the right edge" could be the one that was cut as
		// it or the one that lies there now.
		{do(work.TurnOver{What: strip}, work.Fix{What: card, On: onStrip, At: at(score.Right, 3, score.Head, 5), By: work.SelfSticky}, work.TurnOver{What: strip, Again: true}, work.Fix{What: card, On: onStrip, At: at(score.Right, 3, score.Head, 5), By: work.SelfSticky}),
			"Turn the strip over, left to right. Stick the card on the strip: 3 mm from the edge at the right and 5 mm from the head edge of it. Turn the strip back over, left to right. Stick the card on the strip: 3 mm from the right edge and 5 mm from the head edge of it."},
		{do(work.Fix{What: card, On: onStrip, At: at(score.Left, 0, score.Head, 0), By: work.SelfSticky}, work.TurnOver{What: strip, Again: true}),
			"Stick the card on the strip: on the edge at the left and on the head edge of it. Turn the strip back over, left to right."},
		{do(work.TurnOver{What: note}, work.Fix{What: card, On: onStrip, At: at(score.Right, 3, score.Head, 5), By: work.SelfSticky}, work.TurnOver{What: strip}),
			"Turn the note over, left to right; the left edge lies at the right from now on. Stick the card on the strip: 3 mm from the right edge and 5 mm from the head edge of it. Turn the strip over, left to right; the left edge lies at the right from now on."},
		// The side that is called the back is the good one of a covering, and said of what
		// goes on the outside it would be taken for the wrong one.
		{do(work.Fix{What: card, On: work.Base{Kind: work.OnOutside, Name: "flap"}, At: at(score.Left, 3, score.Head, 5), Up: score.Back}),
			"Glue the card on the outside of the flap: 3 mm from the right edge and 5 mm from the head edge of the board as you look at its outside."},
	}
}
