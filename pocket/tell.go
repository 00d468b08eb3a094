package pocket

import (
	"slices"

	"boardwrap.example/score"
	"boardwrap.example/units"
)

// cutPiece tells the cutting of a piece.
func cutPiece(t *teller, p Piece) {
	t.say("Cut the ").say(p.Name).say(" ").size(p.Blank.Size())
	if p.Quantity > 1 {
		t.say(", ").count(p.Quantity).say(" times")
	}
	t.say(".").done(Cut)
}

// firstGlue returns the size of a piece's first glue area.
func firstGlue(p Piece) (units.Size, bool) {
	for _, g := range p.Blank.Glue() {
		return g.Area.Size(), true
	}
	return units.Size{}, false
}

// cutNotches tells the thumb notches of a piece, which are alike.
func cutNotches(t *teller, p Piece) {
	var at []units.Length
	var one score.Notch
	for _, n := range p.Blank.Notches() {
		at, one = append(at, n.Middle), n
	}
	switch len(at) {
	case 0:
		return
	case 1:
		t.say("Cut a half-round thumb notch ").len(one.Width).say(" wide and ").len(one.Depth).say(" deep into the ").
			say(one.Edge.String()).say(" edge, its middle at ").len(at[0]).say(".").done(Cut)
	default:
		t.say("Cut half-round thumb notches ").len(one.Width).say(" wide and ").len(one.Depth).say(" deep into the ").
			say(one.Edge.String()).say(" edge, their middles at ").list(at).say(".").done(Cut)
	}
}

// tellLight adds to a step of scoring that light paper can do without.
func tellLight(d *Design, t *teller) {
	if !score.Advise(d.paper.Grammage, score.GrainWith, score.Heavy{}).Score {
		t.say(" Paper this light also folds along a line that is only marked, with a bone folder and with the grain.")
	}
}

// tellScores tells the score lines of a piece, upright ones from the left,
// level ones from the head.
func tellScores(d *Design, t *teller, p Piece) {
	for _, axis := range [...]score.Axis{score.Upright, score.Level} {
		var at []units.Length
		for _, l := range p.Blank.Lines() {
			if l.Axis == axis {
				at = append(at, l.At)
			}
		}
		at = slices.Compact(at) // a line in two parts is scored in one go
		if len(at) == 0 {
			continue
		}
		from := "the left edge"
		if axis == score.Level {
			from = "the head"
		}
		t.say("Score the ").say(p.Name).say(" at ").list(at).say(" from ").say(from).say(".")
		tellLight(d, t)
		t.done(Score)
	}
}
