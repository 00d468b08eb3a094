package layout

import (
	"cmp"
	"iter"
	"slices"

	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/cutorder"
	"boardwrap.example/internal/inorder"
	"boardwrap.example/internal/packing"
	"boardwrap.example/units"
	"boardwrap.example/units/money"
)

// Laid is the layout of one material.
type Laid struct {
	index    int
	material Material
	assumed  stock.SheetGrain
	sheets   []LaidSheet
	used     []int // by index of Material.Sheets
	bought   int
	bound    int
	proved   bool
	cost     money.Amount
	areas    Areas
	offcuts  []Left
	short    []Lacking

	of                                                          *Layout
	cutting                                                     []cutorder.Step // the steps, but for those that take sheets
	stack                                                       int             // sheets under the blade at once
	cuts, leastCuts, settings, leastSettings, turns, leastTurns int
}

// Areas sums up where the area of the sheets in use went: Sheets = Pieces +
// Offcuts + Waste. Trim and kerf are waste.
type Areas struct{ sheets, pieces, offcuts, waste units.Area }

// Sheets is the area of the sheets in use.
func (a Areas) Sheets() units.Area { return a.sheets }

// Pieces is the area of the pieces.
func (a Areas) Pieces() units.Area { return a.pieces }

// Offcuts is the area of the leftovers worth keeping.
func (a Areas) Offcuts() units.Area { return a.offcuts }

// Waste is the rest.
func (a Areas) Waste() units.Area { return a.waste }

// newLaid puts an engine's answer into the words of the trade.
func newLaid(l *Layout, index int, s *solved, number int, o *cutorder.Order) Laid {
	m := Laid{index: index, material: s.material, assumed: s.assumed, used: make([]int, len(s.material.Sheets)),
		bought: s.result.Ordinary, bound: s.result.Bound, proved: s.result.Proved}
	d := newDealer(s.problem, l.wants)
	for k, n := range s.result.Used {
		m.used[s.kinds[k].index] += n
	}
	m.cost.Minor = s.result.Cost
	for _, k := range s.material.Sheets {
		if k.Price.Currency != (money.Currency{}) {
			m.cost.Currency = k.Price.Currency
			break
		}
	}
	m.sheets = make([]LaidSheet, 0, len(o.Sheets))
	for i, sh := range o.Sheets {
		sheet := newSheet(s.problem, sh, number+i, d)
		m.sheets = append(m.sheets, sheet)
		var pieces, offcuts units.Area
		for k := range sh.Nodes {
			switch n := &sh.Nodes[k]; n.Use {
			case packing.Piece:
				pieces = pieces.Plus(length(n.W).By(length(n.H)))
			case packing.Offcut:
				size := units.Size{W: length(n.W), H: length(n.H)}
				offcuts = offcuts.Plus(size.Area())
				m.offcuts = append(m.offcuts, newLeft(sheet, size))
			case packing.Waste, packing.CutX, packing.CutY:
			}
		}
		m.areas.pieces, m.areas.offcuts = m.areas.pieces.Plus(pieces.Times(int64(sheet.times))), m.areas.offcuts.Plus(offcuts.Times(int64(sheet.times)))
		m.areas.sheets = m.areas.sheets.Plus(sheet.kind.Size.Area().Times(int64(sheet.times)))
	}
	m.of = l
	m.orderly(l, o)
	m.areas.waste = m.areas.sheets.Minus(m.areas.pieces).Minus(m.areas.offcuts)
	// Those that compare equal are equal: of one size, of one sheet.
	inorder.Sort(m.offcuts, func(a, b Left) int {
		if c := b.size.Area().Compare(a.size.Area()); c != 0 {
			return c
		}
		return cmp.Or(cmp.Compare(b.size.W, a.size.W), cmp.Compare(a.sheet, b.sheet))
	})
	for _, sh := range s.result.Short {
		if len(o.Sheets) == 0 { // what lies on sheets that are only counted comes first
			d.deal(nil, sh.Item, s.Items[sh.Item].Copies-sh.Copies)
		}
		for _, p := range d.deal(nil, sh.Item, sh.Copies) {
			m.short = append(m.short, Lacking{l.wants[p.want], p.copies, sh.Fits || s.fits(s.Items[sh.Item])})
		}
	}
	return m
}

// Name is the name of the material.
func (m Laid) Name() string { return m.material.Name }

// Sheets walks the sheets to cut.
func (m Laid) Sheets() iter.Seq[LaidSheet] { return slices.Values(m.sheets) }

// Used walks the kinds of sheet in the order of Material.Sheets with how many
// of each are used.
func (m Laid) Used() iter.Seq2[SheetKind, int] {
	return func(yield func(SheetKind, int) bool) {
		for i, n := range m.used {
			if !yield(m.material.Sheets[i], n) {
				return
			}
		}
	}
}

// Bought is the number of sheets used that are not offcuts at hand.
func (m Laid) Bought() int { return m.bought }

// FromOffcuts is the number of offcuts at hand that are used.
func (m Laid) FromOffcuts() int {
	n := 0
	for i, used := range m.used {
		if m.material.Sheets[i].Offcut {
			n += used
		}
	}
	return n
}

// Bound is the proven lower bound: no layout in edge-to-edge cuts that places
// as many pieces takes fewer bought sheets.
func (m Laid) Bound() int { return m.bound }

// Proved reports whether Bought is proved the fewest, and no layout places more
// pieces.
func (m Laid) Proved() bool { return m.proved }

// Assumed returns the direction in which sheets of unknown grain are taken to
// run, and whether that mattered.
func (m Laid) Assumed() (g stock.SheetGrain, ok bool) {
	return m.assumed, m.assumed != stock.GrainUnknown
}

// Areas returns where the area of the sheets went.
func (m Laid) Areas() Areas { return m.areas }

// Price is the price of all sheets used, whole.
func (m Laid) Price() money.Amount { return m.cost }

// Offcuts walks the leftovers worth keeping, largest first.
func (m Laid) Offcuts() iter.Seq[Left] { return slices.Values(m.offcuts) }

// Short walks the pieces that have no place.
func (m Laid) Short() iter.Seq[Lacking] { return slices.Values(m.short) }

// Lacking is a piece of which some copies have no place.
type Lacking struct {
	piece  Wanted
	copies int
	fits   bool
}

// Piece is the piece.
func (l Lacking) Piece() Wanted { return l.piece }

// Copies is how many have no place.
func (l Lacking) Copies() int { return l.copies }

// Fits reports whether the piece fits some kind of sheet, of which there are
// just too few.
func (l Lacking) Fits() bool { return l.fits }

// Left is a leftover worth keeping.
type Left struct {
	size  units.Size // as its sheet lies
	grain stock.SheetGrain
	sheet int
	times int
	turn  bool
}

func newLeft(s LaidSheet, size units.Size) Left {
	return Left{size, s.kind.Grain, s.number, s.times, s.turned}
}

// Size is the size as the sheet lay when it was cut.
func (l Left) Size() units.Size { return l.size }

// Sheet is the number of the sheet that it comes from.
func (l Left) Sheet() int { return l.sheet }

// Count is how many there are: one for each sheet that is cut alike.
func (l Left) Count() int { return l.times }

// Kind returns the leftover as an offcut for another job, listed the way its
// sheet was, with the grain of that sheet and without a price.
func (l Left) Kind() SheetKind {
	size := l.size
	if l.turn {
		size = size.Turned()
	}
	return SheetKind{Size: size, Grain: l.grain, Count: l.times, Offcut: true}
}
