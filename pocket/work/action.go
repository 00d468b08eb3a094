package work

import (
	"iter"
	"slices"

	"boardwrap.example/score"
	"boardwrap.example/units"
)

// An Action is one of the types of this package that say what is done. They
// are plain data.
type Action interface {
	care() cautions
	append(*writer)
}

// FindGrain finds the grain of materials and marks it.
type FindGrain struct {
	// Stocks are the names of the materials.
	Stocks []string
	// Across are the pieces whose grain runs along their width, Either those in
	// which it may run either way; in all others it runs along the height.
	Across, Either []Object
}

// Cut cuts pieces to size out of a sheet.
type Cut struct {
	What Object // the pieces
	// Count is how many, at least 1.
	Count int
	Size  units.Size // of each, as it lies with its grain as told
	From  Source     // what it is cut from
	Grain Grain      // along which side of the piece the grain runs
	// Upright says that the pattern must stand upright in the piece.
	Upright bool
	// Up is the side of the material that is the drawing's face.
	Up PaperSide
}

// Open cuts an area out: a window, or waste where folds meet.
type Open struct {
	What Object     // the piece
	Area units.Rect // what comes out, on the drawing
	// Radius rounds the corners.
	Radius units.Length
}

// NotchOut takes a notch out of an edge.
type NotchOut struct {
	What  Object      // the piece
	Notch score.Notch // the notch on the drawing
}

// Trim is a straight cut that takes a corner off: a mitre, a slant, an ear. It
// runs from From to To, and what lies on the corner's side of it is waste.
type Trim struct {
	What     Object       // the piece
	Corner   score.Corner // which corner of the drawing comes off
	From, To units.Point  // where the cut begins and ends, on the drawing
}

// Draw draws a line from edge to edge of a piece or a board to lay something by.
type Draw struct {
	On   Base       // what is drawn on
	Axis score.Axis // which way the line runs
	// At counts from the left edge (Upright) or from the head edge (Level).
	At units.Length
}

// MarkPlace marks lightly where something will lie: the corners of its place.
type MarkPlace struct {
	What Object // what will lie there
	On   Base   // what it will lie on
	At   At     // where on it
	// Size is the size of the place.
	Size units.Size
}

// ScoreAt scores a line.
type ScoreAt struct {
	What Object // the piece
	// Line is the line on the drawing, with the fold as seen from the face.
	Line score.Line
	// On is the side of the drawing that is scored.
	On score.Side
	// Light says that the material also folds along a line that is only marked.
	Light bool
}

// FoldAt folds a piece at a line, with whatever is folded or glued on to it
// already. The part that does not turn stays as it lies.
type FoldAt struct {
	What Object // the piece
	// Axis and At say the line on the drawing, From and To where it does not
	// run from edge to edge.
	Axis     score.Axis
	At       units.Length
	From, To units.Length
	// Moves is the edge of the drawing towards which the part lies that turns;
	// the other part stays where it is.
	Moves score.Edge
	// Way says which way it turns as the piece lies: up over the rest, or down
	// under it.
	Way Way
	// Open lays it open again: it is only creased.
	Open bool
	// Flat says that it is folded flat on to the rest; otherwise it stands up
	// at a right angle.
	Flat bool
}

// TurnOver turns a piece over, left to right.
type TurnOver struct {
	What Object // what is turned
	// Again says that it has been turned over before, and lies as it was cut
	// afterwards.
	Again bool
}

// Lay lays a thing in its place without adhesive, to see that it goes.
type Lay struct {
	What Object // what is laid
	On   Base   // what it is laid on
	At   At     // where on it
	// Size is the size of the object as it lies.
	Size units.Size
}

// Put puts a thing in its place, where it stays without adhesive.
type Put struct {
	What Object // what is put down
	On   Base   // what it is put on
	At   At     // where on it
	// Size is the size of the object as it lies.
	Size units.Size
}

// Sink bores a round hole into a board for a magnet.
type Sink struct {
	What Object // the board's piece
	// Outside says that it is sunk from the outside.
	Outside bool
	// Middle is measured from the board's upper left corner, seen from the
	// inside.
	Middle          units.Point
	Diameter, Depth units.Length // of the hole
}

// TryPair holds two magnets to each other before they are glued in: they must
// draw each other.
type TryPair struct {
	One, Other Object // the two, as they meet when the folio is closed
}

// Fix sticks a thing in its place. A piece lies as the actions before have left
// it: face up as it was cut, folded and turned over as told since. What lies
// under it is the base, with all that is fixed to that already.
type Fix struct {
	What Object // what is stuck down
	// Panel is the panel of a folded piece whose edges are measured, counted as
	// in [Base]; [All] means the object as it lies, folded: the rectangle that
	// it covers.
	Panel int
	On    Base // what it is stuck to
	At    At   // where on it what is measured lies
	// Quarters is by how many quarter turns clockwise the piece is turned, as
	// it lies, 0 to 3; what is measured, and Size, are those of the turned
	// piece.
	Quarters int
	// Up is the side of the drawing that lies up at the measured panel; for the
	// thing as it lies that of the part that no fold has turned.
	Up score.Side
	By Adhesive // what it is stuck with
	// Areas are what takes the adhesive, measured on the drawing, on the side
	// towards the base; none means all that lies on it. Flat is the size of the
	// drawing, 0 where it is not known.
	Areas []units.Rect
	Flat  units.Size
	// Marked says that its place was marked before.
	Marked bool
	// Lines says that there are lines to lay it by, drawn before.
	Lines bool
	// Size is the size of what is measured, as it lies.
	Size units.Size
}

// Stick glues a part of a folded piece to what it lies on or under.
type Stick struct {
	What Object // the piece
	// Area is what takes the adhesive, measured on the drawing, and Side the
	// side of the drawing that it is on.
	Area units.Rect
	Side score.Side
	Flat units.Size // of the drawing; 0 where it is not known
	By   Adhesive   // what it is stuck with
	// To is what it is stuck to.
	To Base
	// Standing says that the folds of the piece stand up from there, so that the part lies
	// beside all that their layers take.
	Standing bool
}

// TurnIn glues an edge of a covering and turns it in over the boards.
type TurnIn struct {
	What Object     // the covering
	Edge score.Edge // the edge of its drawing
	// Depth is how much is turned in, from the outer edge of the boards.
	Depth units.Length
}

// Tuck tucks the covering in at corners with a bone folder before the edges
// beside them are turned in.
type Tuck struct {
	What    Object         // the covering
	Corners []score.Corner // the corners of its drawing
}

// Rub rubs a piece down into hinge gaps, in the step that glues or tapes it.
type Rub struct {
	What Object // the piece
	// Gaps are the gaps' places in the row, from 0 at the left.
	Gaps []int
	// Deep are those of them at which outsides come together, so that it must
	// go round the edges of the boards and reach the bottom: with the outsides folded
	// together, from the left to the right.
	Deep []int
}

// Dry lets dry what was glued in the steps that its own step comes after.
type Dry struct {
	// What is what that is called in a sentence, with its article: "the case", "the liner".
	What string
	// Weight says that it is under a weight.
	Weight bool
	// Apart says that waste sheets lie between what could stick together.
	Apart bool
}

// Measure measures the open cover.
type Measure struct {
	// Planned is the size of the boards with their gaps, Expected the estimate
	// of what it measures covered.
	Planned, Expected units.Size
}

// Refit derives the inside again from the cover as measured.
type Refit struct {
	// Done says that it has been done, with Size as measured.
	Done bool
	Size units.Size
}

// Insert puts a content into its place.
type Insert struct {
	What Object // the content
	// Count is how many of it go in together, one on another; 0 is 1.
	Count int
	// Into is the fitting that takes it, or the panel's name for the block.
	Into Part
	// From is the edge over which it goes in.
	From score.Edge
	// Corners says that its corners go under corner pockets, one after the
	// other.
	Corners bool
	// On and At say where it lies then, and Size how large it is as it lies.
	On   Base
	At   At
	Size units.Size
}

// Turned says in which order boards turn when the folio is closed.
type Turned struct {
	// Board is the board's place in the row, and Over the one it comes to lie
	// over; −1 where it stands upright.
	Board, Over int
	Name, On    string // what the two are called
	// Held is the next board beyond it that is still to be turned, which is held
	// upright meanwhile with all beyond it, and Upright what it is called; −1 and
	// nothing where there is no such board.
	Held    int
	Upright string
}

// Close closes the folio and looks whether it does so without force.
type Close struct {
	Turns []Turned // what turns, one after the other
	// Left is the room that is left at the tightest place with the hinges creased as
	// planned; below 0 it is how much too tight that is, and the plan has a warning.
	Left units.Length
	// Ajar says that the hinges do not turn far enough for the covers to lie
	// parallel: what is left is not known, and the plan has a warning.
	Ajar bool
	// Doors says that two doors must meet without overlapping.
	Doors bool
}

// actions lists a zero value of each action. Nothing changes it.
var actions = [...]Action{
	FindGrain{}, Cut{}, Open{}, NotchOut{}, Trim{}, Draw{}, MarkPlace{}, ScoreAt{}, FoldAt{}, TurnOver{}, Lay{}, Put{}, Sink{}, TryPair{}, Fix{}, Stick{}, TurnIn{}, Tuck{}, Rub{}, Dry{}, Measure{}, Refit{}, Insert{}, Close{},
}

// Actions walks a zero value of each action there is, in a fixed order.
func Actions() iter.Seq[Action] { return slices.Values(actions[:]) }

func (FindGrain) care() cautions { return 0 }
func (Cut) care() cautions       { return 1 << CareBlade }
func (Open) care() cautions      { return 1 << CareBlade }
func (NotchOut) care() cautions  { return 1 << CareBlade }
func (Trim) care() cautions      { return 1 << CareBlade }
func (Draw) care() cautions      { return 0 }
func (MarkPlace) care() cautions { return 0 }
func (ScoreAt) care() cautions   { return 0 }
func (FoldAt) care() cautions    { return 0 }
func (TurnOver) care() cautions  { return 0 }
func (Lay) care() cautions       { return 0 }
func (Put) care() cautions       { return 0 }
func (Sink) care() cautions      { return 1 << CareBlade }
func (TryPair) care() cautions   { return 1 << CareMagnet }
func (f Fix) care() cautions {
	if f.What.Kind == Magnet {
		return f.By.care() | 1<<CareMagnet
	}
	return f.By.care()
}

func (s Stick) care() cautions { return s.By.care() }
func (TurnIn) care() cautions  { return 1 << CareGlue }
func (Tuck) care() cautions    { return 0 }
func (Rub) care() cautions     { return 0 }
func (Dry) care() cautions     { return 0 }
func (Measure) care() cautions { return 0 }
func (Refit) care() cautions   { return 0 }
func (Insert) care() cautions  { return 0 }
func (Close) care() cautions   { return 0 }

func (a Adhesive) care() cautions {
	if a == Glue {
		return 1 << CareGlue
	}
	return 0
}
