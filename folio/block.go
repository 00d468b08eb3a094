package folio

import (
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/word"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// contents returns the thickness that the spine goes round.
func (s *Spec) contents() units.Length {
	if s.Spine.Contents != 0 {
		return s.Spine.Contents
	}
	return s.Block.Thickness
}

// filling is what a spine board or a soft spine goes round besides the boards and
// the liners: the contents, with the turn-ins under them where it is known that
// they lie on those, and no less than the turn-ins alone.
func (s *Spec) filling() [2]units.Term {
	c, turned := s.contents(), s.turnIns(2)
	switch {
	case s.Block.Given() && s.Block.Thickness > 0:
		return [2]units.Term{units.T("contents", c), units.T("turn-ins under the block", turned)}
	case c < turned:
		return [2]units.Term{units.T("turn-ins on each other", turned)}
	}
	return [2]units.Term{units.T("contents", c)}
}

// goesRound is what a spine by a rule is wider than the contents by which the rule
// is given, less the fixed rest.
func (s *Spec) goesRound() units.Length {
	f := s.filling()
	if s.Spine.Rule > rule.SpineContents || f[1].Length > 0 {
		return s.contents()
	}
	return f[0].Length
}

// under is what lies under a block.
func (s *Spec) under() units.Length { return s.filling()[1].Length }

// filled adds up the filling.
func (s *Spec) filled() units.Length {
	f := s.filling()
	return f[0].Length + f[1].Length
}

// checkCover checks cover, block and spine as far as they can be wrong by
// themselves in a row.
func (s *Spec) checkCover(row *shape, bad *check.List) {
	spined := row.spined()
	if !s.Form.Known() {
		bad.Malformed("form", check.Unknown, count(int(s.Form)), word.OneOf[boards.Form]())
	}
	switch {
	case s.Cover != units.Size{}:
		bad.Size("cover", s.Cover)
		if s.Block.Given() {
			bad.Malformed("block.page", check.Conflict, "a cover and a block", "the cover's size or the block's, not both")
			break
		}
		without := func(path string, l units.Length, want string) {
			if l != 0 {
				bad.Malformed(path, check.Conflict, bad.Text(l)+" with a cover of its own size", want+", or a block to build around")
			}
		}
		without("block.setback", s.Block.Setback, "no setback")
		without("block.square", s.Block.Square, "no square")
		without("block.thickness", s.Block.Thickness, "nothing here, but spine.contents for what it holds")
	case s.Block.Given():
		bad.Size("block.page", s.Block.Page)
		bad.Allowance("block.square", s.Block.Square)
		bad.Allowance("block.setback", s.Block.Setback)
	default:
		bad.Malformed("cover", check.Missing, "no size", "the size of a cover board, or of the block to build around")
	}
	if s.Block.Given() && bad.Allowance("block.thickness", s.Block.Thickness) && s.Block.Thickness != 0 {
		bad.Length("block.thickness", s.Block.Thickness)
	}
	bad.Allowance("spine.contents", s.Spine.Contents)
	switch {
	case !s.Spine.Rule.Known():
		bad.Malformed("spine.rule", check.Unknown, count(int(s.Spine.Rule)), word.OneOf[rule.SpineRule]())
	case !spined && s.Spine.Width != 0:
		bad.Malformed("spine.width", check.Conflict, bad.Text(s.Spine.Width)+" with a soft spine", "no width, or a form with a spine board")
	case !spined && s.Spine.Rule != rule.SpineDefault:
		bad.Malformed("spine.rule", check.Conflict, "the rule "+s.Spine.Rule.String()+" with a soft spine", "no rule, or a form with a spine board")
	case !spined:
	case s.Spine.Width != 0 && s.Spine.Rule != rule.SpineDefault:
		bad.Malformed("spine.width", check.Conflict, bad.Text(s.Spine.Width)+" with the rule "+s.Spine.Rule.String(), "a width or a rule, not both")
	case s.Spine.Width != 0:
		bad.Length("spine.width", s.Spine.Width)
	case s.contents() == 0 && row.ruled(boards.WidthAround) > 0:
		bad.Malformed("spine", check.Missing, "neither width nor contents", "the width of the spine board, or the thickness it goes round")
	}
	if s.FlapWidth != 0 {
		if row.ruled(boards.WidthHalf) == 0 && s.Form.Known() {
			bad.Malformed("flapwidth", check.Conflict, bad.Text(s.FlapWidth)+" with the form "+s.Form.String(), "no flap, or the form "+boards.ForeEdgeFlap.String())
		} else {
			bad.Length("flapwidth", s.FlapWidth)
		}
	}
	if s.DoorGap != 0 && row.ruled(boards.WidthShared) == 0 && s.Form.Known() {
		bad.Malformed("doorgap", check.Conflict, bad.Text(s.DoorGap)+" with the form "+s.Form.String(), "no door gap, or the form "+boards.DoubleSpineGate.String())
	} else {
		bad.Allowance("doorgap", s.DoorGap)
	}
	bad.Allowance("placing", s.Placing)
	bad.Allowance("clearance", s.Clearance)
	if !s.Grain.Known() {
		bad.Malformed("grain", check.Unknown, count(int(s.Grain)), word.OneOf[stock.GrainRule]())
	}
}

// spineTerms returns the terms of the spine board's width.
func (s *Spec) spineTerms() [4]units.Term {
	t, c := s.Board.Caliper, s.contents()
	if s.Spine.Width != 0 {
		return [4]units.Term{units.T("spine as given", s.Spine.Width)}
	}
	boards := units.N(2, "board caliper", t)
	switch s.Spine.Rule {
	case rule.SpineBlockAndBoards:
		return [4]units.Term{units.T("block", c), boards}
	case rule.SpineBlockAndBoardsLess:
		return [4]units.Term{units.T("block", c), boards, units.N(-1, "allowance", units.Millimetre/2)}
	case rule.SpineBlock:
		return [4]units.Term{units.T("block", c)}
	}
	f := s.filling()
	return [4]units.Term{f[0], boards, units.N(2, "liner caliper", s.Liner.Caliper), f[1]}
}
