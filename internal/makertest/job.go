package makertest

import (
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A Job is everything that a maker is given, and what is to come out. It is
// plain data, filled from a plan by its tests.
type Job struct {
	Stocks []Stock
	// Pieces are in the order by which steps name them.
	Pieces []Piece
	// Others are the things that are not cut.
	Others []Other
	// Row are the boards of the open case from left to right; none for a pocket
	// by itself.
	Row []Board
	// Cover is the cover in the row from outer edge to outer edge, when it has
	// been covered; empty means the outer edges of the boards.
	Cover units.Rect
	// Closed is the footprint of a pocket by itself, which lies on the work's
	// base Under.
	Closed units.Size
	// Empty and Full are how thick a pocket by itself is when it is closed, where it is
	// thickest, empty and with what is put in; 0 asks for nothing.
	Empty, Full units.Length
	// Upright says that what lies flat at the end stands up in use, so that the pocket is
	// as thick as the widest part of it.
	Upright bool
	// Around is how far the base reaches beyond the footprint, for what does so
	// too.
	Around units.Length
	// Want is what lies where at the end, as many as the test cares to name,
	// at least one for every copy of every piece.
	Want []Placed
	// Covering are the fittings that the plan warns lie over what there is to be seen,
	// or over a thumb notch.
	Covering []int
	// Tabbed are the fittings that the plan warns have tabs which reach over hinges.
	Tabbed []int
	// WrongSides are the pieces of which a wrong side of one-sided paper may
	// show, because the plan warns of it.
	WrongSides []int
	// Strained are the pieces of which a fold may turn round more than it can take, or
	// that may fill a gap down its edges, because the plan warns of it.
	Strained []int
	// Unlined says that the plan warns of bare board and of the wrong side of the
	// covering at the hinges.
	Unlined bool
	// Bare says that edges of boards may be bare where outsides come together, as the
	// plan was asked for that, and Lap how far what covers them lies under the liner at
	// least.
	Bare bool
	Lap  units.Length
	// Planned, Expected and Measured are the open cover by the plan, as it is
	// expected, and as measured; Measured is zero where it was not.
	Planned, Expected, Measured units.Size
	// Left is the room that is left when the folio is closed.
	Left units.Length
	// Ajar says that the plan warns of hinges that do not turn far enough for the
	// covers to lie parallel.
	Ajar bool
	// ThickPaper is the caliper above which every fold must be scored; 0 means
	// only where the plan scores it.
	ThickPaper units.Length
	// GrainFound are the stocks whose grain has been found before.
	GrainFound []string
	// Groove is the side of the fold on which scores are made.
	Groove Groove
	Steps  []work.Step
}

// A Groove is the side of a fold on which the score is made.
type Groove uint8

// Sides. GrooveEither asks only for one side throughout.
const (
	GrooveEither Groove = iota
	GrooveInside
	GrooveOutside
)

// A Stock is a material with the sheets at hand; without any, all sizes can be
// had.
type Stock struct {
	Name     string
	Caliper  units.Length
	TwoSided bool
	OneWay   bool // its pattern has an up and a down
	Sheets   []Sheet
	// Largest is the largest sheet where none are listed, as it lies; a side of
	// 0 is no limit.
	Largest units.Size
}

// A Sheet is a sheet of a stock as it is listed, pattern upright.
type Sheet struct {
	Size  units.Size
	Grain work.Grain // GrainEither where it is not known
}

// A Role is what a piece is for.
type Role uint8

// Roles.
const (
	Fitting Role = iota
	BoardRole
	Covering
	Strip // of the covering in quarter style
	Liner
	Edging // a strip round the edges of boards whose outsides come together
)

// A Piece is what is to be cut, by its drawing.
type Piece struct {
	Name     string
	Role     Role
	Quantity int
	Size     units.Size
	// Outline is the piece as trimmed, without openings and notches; none
	// means the rectangle of its size.
	Outline []units.Point
	Stock   string
	Caliper units.Length
	Up      work.PaperSide // the side of the material that is the drawing's face
	Grain   work.Grain
	Upright bool
	Lines   []Line
	// Stands is how much the folds of a strip take that stand up between its tabs in
	// use: by so much further to the right lies the tab at its right end.
	Stands units.Length
	// Panels are what Placed counts.
	Panels   []units.Rect
	Openings []score.CutOut
	Notches  []score.Notch
	// Glue are the areas that take glue; none asks for nothing.
	Glue []score.Glue
	// Fitting is the place of the fitting it belongs to.
	Fitting int
	// Inside says that it is not to be cut before the cover has been measured.
	Inside bool
}

// A Line is a fold of a piece. Scored says that the plan scores it.
type Line struct {
	score.Line
	Scored bool
}

// An Other is something that is not cut: a content, a block, a magnet or an
// ornament.
type Other struct {
	Kind        work.ObjectKind
	Index, Copy int
	Size        units.Size
	Thickness   units.Length
	// Place is where it lies at the end, in the row or in the footprint; if that
	// is larger than it is, somewhere within.
	Place   units.Rect
	Outside bool
	// Room is where it may lie in its place besides, as it slides; empty means nowhere.
	Room units.Rect
	// Open are the edges besides the one over which it is put in that do not hold
	// it, by the plan.
	Open []score.Edge
	// Way is what must stay free for it to be put in; empty asks for nothing.
	Way units.Rect
}

// A Board is a board of the row: which copy of which piece it is, where it is
// laid, and where it is when the cover has been measured.
type Board struct {
	Piece, Copy int
	Laid, Made  units.Rect
}

// A Placed is where a panel of a piece, or with [work.All] the piece, lies at
// the end: as a rectangle in the row or in the footprint, or as a polygon where
// it has one. For a covering it is the whole flat piece, turn-ins laid out.
type Placed struct {
	Piece, Copy, Panel int
	Rect               units.Rect
	Polygon            []units.Point
	Outside            bool
	// Up is the side of the drawing that lies up, seen from inside.
	Up score.Side
}
