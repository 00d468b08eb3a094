package folio

import (
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Block is what a cover is built around: a sewn block, a stack of cards, a
// pad. It takes the place of Spec.Cover.
type Block struct {
	// Page is the width and height of one leaf.
	Page units.Size
	// Thickness is that of the whole block; the spine is worked out from it
	// unless Spine says otherwise.
	Thickness units.Length
	// Square is how far the cover stands past the block at head, tail and
	// fore edge. 0 means 1/8 in (common practice, no published source), or 3 mm
	// where plans are metric (University of Brighton, Hard Cover for
	// Multi-section), [units.None] flush.
	Square units.Length
	// Setback is how far the board starts from the block's back, to leave room
	// for the joint: 5 mm in the Brighton worksheet, where the board is 2 mm
	// narrower than the page. The default is 0.
	Setback units.Length
}

func (b *Block) fill(n units.Notation) {
	if !b.given() {
		return
	}
	b.Square = filled(b.Square, usual(n, units.Inch/8, 3*units.Millimetre))
}

func (b Block) given() bool { return b.Page != units.Size{} }

// A SpineRule is a published rule for the width of the spine board.
type SpineRule uint8

// Spine rules.
const (
	// SpineDefault is SpineContents.
	SpineDefault SpineRule = iota
	// SpineContents is contents + 2 × (board + liner): with the crease at the
	// spine board's edge the covers then close over the contents (derived).
	// Under a block lie the turn-ins as well, up to two of them on each other at
	// the corners of each cover; less than those it never goes round.
	SpineContents
	// SpineBlockAndBoards is block + 2 × board (A. W. Johnson, A Joint
	// Venture, Skin Deep 15, 2003; University of Brighton, Hard Cover for
	// Multi-section: block plus both boards).
	SpineBlockAndBoards
	// SpineBlockAndBoardsLess is block + 2 × board − 0.5 mm (Dingword, How to
	// calculate the hard cover size for a book block, 2012).
	SpineBlockAndBoardsLess
	// SpineBlock is the thickness of the block alone, for covers that lie
	// beside the spine.
	SpineBlock
	spineEnd
)

// String returns the rule in words.
func (r SpineRule) String() string {
	switch r {
	case SpineDefault:
		return "default"
	case SpineContents:
		return "contents + 2 x (board + liner)"
	case SpineBlockAndBoards:
		return "block + 2 x board"
	case SpineBlockAndBoardsLess:
		return "block + 2 x board - 0.5 mm"
	case SpineBlock:
		return "block"
	}
	return "no such rule"
}

// A Spine says how wide the spine board is: by Width, or by a rule from the
// thickness of what the folio holds. A soft spine takes no Width.
type Spine struct {
	// Width is that of the spine board; 0 has it worked out by the rule.
	Width units.Length
	// Contents is the thickness of what lies between the covers; 0 means
	// Block.Thickness.
	Contents units.Length
	// Rule says how the width follows from the contents; it goes without Width.
	Rule SpineRule
	// Stiffener names the stock of a strip that keeps a soft spine flat; empty
	// means none. Only [SoftSpine] takes one.
	Stiffener string
}

// contents returns the thickness that the spine goes round.
func (s Spec) contents() units.Length {
	if s.Spine.Contents != 0 {
		return s.Spine.Contents
	}
	return s.Block.Thickness
}

// checkCover checks cover, block and spine as far as they can be wrong by
// themselves.
func (s Spec) checkCover(bad *check.List) {
	row := s.shape()
	spined := row.spined()
	if s.Form >= formEnd {
		bad.Malformed("form", check.Unknown, count(int(s.Form)), oneOf(formEnd))
	}
	switch {
	case s.Cover != units.Size{}:
		bad.Size("cover", s.Cover)
		if s.Block.given() {
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
	case s.Block.given():
		bad.Size("block.page", s.Block.Page)
		bad.Allowance("block.square", s.Block.Square)
		bad.Allowance("block.setback", s.Block.Setback)
	default:
		bad.Malformed("cover", check.Missing, "no size", "the size of a cover board, or of the block to build around")
	}
	if s.Block.given() && bad.Allowance("block.thickness", s.Block.Thickness) && s.Block.Thickness != 0 {
		bad.Length("block.thickness", s.Block.Thickness)
	}
	bad.Allowance("spine.contents", s.Spine.Contents)
	switch {
	case s.Spine.Rule >= spineEnd:
		bad.Malformed("spine.rule", check.Unknown, count(int(s.Spine.Rule)), oneOf(spineEnd))
	case !spined && s.Spine.Width != 0:
		bad.Malformed("spine.width", check.Conflict, bad.Text(s.Spine.Width)+" with a soft spine", "no width, or a form with a spine board")
	case !spined && s.Spine.Rule != SpineDefault:
		bad.Malformed("spine.rule", check.Conflict, "the rule "+s.Spine.Rule.String()+" with a soft spine", "no rule, or a form with a spine board")
	case !spined:
	case s.Spine.Width != 0 && s.Spine.Rule != SpineDefault:
		bad.Malformed("spine.width", check.Conflict, bad.Text(s.Spine.Width)+" with the rule "+s.Spine.Rule.String(), "a width or a rule, not both")
	case s.Spine.Width != 0:
		bad.Length("spine.width", s.Spine.Width)
	case s.contents() == 0:
		bad.Malformed("spine", check.Missing, "neither width nor contents", "the width of the spine board, or the thickness it goes round")
	}
	if s.FlapWidth != 0 {
		if row.ruled(WidthHalf) == 0 {
			bad.Malformed("flapwidth", check.Conflict, bad.Text(s.FlapWidth)+" with the form "+s.Form.String(), "no flap, or the form "+ForeEdgeFlap.String())
		}
		bad.Length("flapwidth", s.FlapWidth)
	}
	if s.DoorGap != 0 && row.ruled(WidthShared) == 0 {
		bad.Malformed("doorgap", check.Conflict, bad.Text(s.DoorGap)+" with the form "+s.Form.String(), "no door gap, or the form "+DoubleSpineGate.String())
	} else {
		bad.Allowance("doorgap", s.DoorGap)
	}
	bad.Allowance("placing", s.Placing)
	bad.Allowance("clearance", s.Clearance)
	if s.Grain > GrainAny {
		bad.Malformed("grain", check.Unknown, count(int(s.Grain)), oneOf(GrainAny+1))
	}
}

// spineTerms returns the terms of the spine board's width.
func (s Spec) spineTerms() [4]units.Term {
	t, c := s.Board.Caliper, s.contents()
	if s.Spine.Width != 0 {
		return [4]units.Term{units.T("spine as given", s.Spine.Width)}
	}
	boards := units.N(2, "board caliper", t)
	switch s.Spine.Rule {
	case SpineBlockAndBoards:
		return [4]units.Term{units.T("block", c), boards}
	case SpineBlockAndBoardsLess:
		return [4]units.Term{units.T("block", c), boards, units.N(-1, "allowance", units.Millimetre/2)}
	case SpineBlock:
		return [4]units.Term{units.T("block", c)}
	}
	f := s.filling()
	return [4]units.Term{f[0], boards, units.N(2, "liner caliper", s.Liner.Caliper), f[1]}
}
