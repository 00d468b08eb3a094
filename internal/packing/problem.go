package packing

// Limits on a [Problem]; beyond them [Solve] returns [Faults].
const (
	// MaxSide is the greatest length of any side, trim, kerf or cut.
	MaxSide int64 = 1 << 40
	// MaxPieces is the greatest number of pieces, all copies counted.
	MaxPieces = 500_000
	// MaxKinds is the greatest number of item kinds and of stock kinds.
	MaxKinds = 10_000
	// MaxCost is the greatest cost of one sheet.
	MaxCost int64 = 1 << 40
	// MaxExact is the number of pieces up to which the search is exhaustive,
	// whatever the pieces. Up to 20 it is where they can be put together in few
	// ways and all sheets are alike, up to 16 on any.
	MaxExact = 12
)

// Unlimited as [Stock.Count] says that there are as many as needed.
const Unlimited = -1

// Item is a kind of piece to be cut: W along x and H along y.
type Item struct {
	W, H   int64
	Copies int
	// Turn allows a quarter turn. A half turn changes no rectangle, so a piece
	// that may turn by halves only has Turn false.
	Turn bool
}

// Stock is a kind of sheet. The direction of grain or pattern is that of the
// axes: for a sheet whose grain runs the other way swap W and H, and read x
// and y of its layout swapped.
type Stock struct {
	W, H int64
	// Count is how many there are, or Unlimited.
	Count int
	// Cost of one sheet, not negative.
	Cost int64
	// First marks what is to be used up before other stock: offcuts.
	First bool
	// Trim is taken off each of the four edges before (or, where the longest
	// cut forbids that, between) the other cuts. A trimming cut's kerf lies in
	// the trim.
	Trim int64
}

// Problem is what is to be cut, from what, and how.
type Problem struct {
	Items []Item
	Stock []Stock
	// Kerf is what each cut takes away; 0 for a blade. A cut nearer than Kerf
	// to the edge of a part runs off that edge.
	Kerf int64
	// LongestCut is the longest possible cut; 0 for no limit.
	LongestCut int64
	// KeepShort and KeepLong are the least short and long side of a leftover
	// that is worth keeping as an offcut. Zero keeps every leftover.
	KeepShort, KeepLong int64
}

// Budget bounds the work of [Solve].
type Budget struct {
	// Steps of work; 0 means DefaultSteps, and less than LeastSteps means that.
	// Where pieces may turn, as many again may go into the same pieces as they
	// lie, so that a turn never does harm. A complete layout is always made,
	// even if it takes more: no more than twice all that and 200 for each piece,
	// kind of piece and kind of stock.
	Steps int64
	// Count asks for how many sheets there are of each kind alone: Sheets and Areas
	// of the Result stay empty. The search is the same.
	Count bool
	// Report, if set, is called now and then in the course of the run, and for
	// the last time when it ends.
	Report func(Progress)
}

// Progress is how far a run is.
type Progress struct {
	// Steps done of Of; a run may end before all are done.
	Steps, Of int64
	// Best is the number of ordinary sheets of the best layout so far, −1
	// before there is one, and Bound the proven lower bound.
	Best, Bound int
}

// LeastSteps is the smallest budget.
const LeastSteps int64 = 20_000

// DefaultSteps is the budget of the zero [Budget]: in the order of a second.
const DefaultSteps int64 = 100_000_000
