package packing

// Result is a layout of all pieces that could be placed. It holds no reference
// to the [Problem].
type Result struct {
	// Sheets are the patterns in use, in the order of Stock, each with how
	// often it is cut.
	Sheets []Sheet
	// Used is the number of sheets by index of Stock.
	Used []int
	// Ordinary is the number of sheets used of stock not marked First.
	Ordinary int
	// Cost is the cost of all sheets used.
	Cost int64
	// Bound is a proven lower bound on Ordinary for any layout that places no
	// fewer pieces than this one.
	Bound int
	// Proved says that Ordinary is the fewest possible: it equals Bound, and
	// no layout places more pieces.
	Proved bool
	// Proof is why no fewer sheets than Bound will do; nil if Bound is 0.
	// NoMore is why no more pieces can be placed; nil if none of those that fit
	// is short, or if that is not proved.
	Proof, NoMore *Proof
	// Short lists, by rising item index, the pieces without a place.
	Short []Short
	// Areas are over all sheets used:
	// Stock = Pieces + Offcuts + Waste (waste includes trim and kerf).
	Areas Areas
	// Steps is the work that was done.
	Steps int64
	// Stopped says that the Stopper ended the search.
	Stopped bool
}

// Areas sums up where the area of the sheets in use went.
type Areas struct {
	Stock, Pieces, Offcuts, Waste Area
}

// Short says how many copies of an item have no place.
type Short struct {
	Item, Copies int
	// Fits is false if no stock kind of which there is a sheet, however many
	// more there were, could hold the item; then NeedW × NeedH is the least
	// sheet, without trim, to hold it (turned, if Turned is set, when that is
	// the smaller change to some sheet).
	Fits         bool
	NeedW, NeedH int64
	Turned       bool
}

// Sheet is a pattern: one sheet of stock with the cuts to make.
type Sheet struct {
	// Stock is an index into Problem.Stock.
	Stock int
	// Times is how many sheets are cut like this.
	Times int
	// Nodes is the tree of cuts; Nodes[0] is the whole sheet, and every part
	// stands behind the part that it is cut from.
	Nodes []Node
}

// Use says what becomes of a part.
type Use uint8

// The uses of a part.
const (
	Waste  Use = iota // thrown away
	Offcut            // a leftover worth keeping
	Piece             // one of the items
	CutX              // cut at x = At, along y, in a left and a right part
	CutY              // cut at y = At, along x, in a lower and an upper part
)

// Node is a part of a sheet, x and y counted from the sheet's lower left
// corner.
type Node struct {
	X, Y, W, H int64
	Use        Use
	// Turned says that a Piece lies turned: its item's H along x.
	Turned bool
	// Item is the index of the item of a Piece, else -1.
	Item int
	// At is the place of the cut of a CutX or CutY, counted from the part's
	// own left or lower edge: the first part is At long. What the cut takes
	// away follows, and the second part is the rest.
	At int64
	// A and B are the indices of the first and second part of a cut; -1 where
	// nothing is left of a part (the cut ran along or off its edge).
	A, B int
}
