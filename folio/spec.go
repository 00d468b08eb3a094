package folio

import (
	"slices"

	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// A Spec says what folio is wanted. The zero value of every field but Cover
// and Spine means its documented default. Lengths must lie between
// [units.Shortest] and [units.Longest].
type Spec struct {
	// Title names the folio in print. It may be empty.
	Title string

	// Form is the row of boards; the default is cover, spine, cover.
	Form boards.Form
	// Cover is the size of one cover board, in [boards.DoubleSpineGate] that of the
	// back. Leave it zero to have it worked out from Block.
	Cover units.Size
	// Block is what the cover is built around when Cover is zero.
	Block boards.Block
	// Spine is the spine board. A row whose spine boards all have widths of their own
	// needs none; with one they must leave as much room as it asks for.
	Spine rule.Spine
	// FlapWidth is the width of the flap of [boards.ForeEdgeFlap]; 0 means half the
	// cover's width (common practice, no published source).
	FlapWidth units.Length
	// DoorGap is left between the two doors of [boards.DoubleSpineGate] where they
	// meet; 0 means 1/16 in, or 2 mm where plans are metric (common practice, no
	// published source), [units.None] nothing.
	DoorGap units.Length

	// Board, Covering and Liner are the materials of the case. A caliper
	// of 0 means that of [stock.DefaultBoard], [stock.DefaultCovering] and [stock.DefaultLiner].
	// Stocks of one name must be one material: alike in all that is said of them.
	Board, Covering, Liner stock.Stock
	// SpineCovering covers the spine in quarter style; left empty, it is the
	// Covering.
	SpineCovering stock.Stock
	// Stocks are further materials that fittings name, each with a name and a caliper:
	// no default is filled in.
	Stocks []stock.Stock

	Hinge   rule.Hinge   // the gaps between the boards
	Margin  rule.Margin  // how much wrap turns in
	Mitre   rule.Mitre   // how near to the board's corner the wrap is cut
	Turning rule.Turning // which edges are turned in first
	Quarter rule.Quarter // covering in two materials
	Lining  rule.Lining  // the liner

	// Grain is the direction of the grain in board, wrap, liner and fittings.
	// The default is parallel to the spine, because paper swells most across
	// the grain (Roberts & Etherington, Bookbinding and the Conservation of
	// Books, 1982, "grain").
	Grain stock.GrainRule
	// Groove is the side of a fold that is scored in folded fittings. Books
	// differ; the zero value is the outside.
	Groove pocket.Groove
	// Placing is how far a board is expected to be laid out of place at each
	// gap. It widens the as-made estimate, and what is planned leaves the room for it;
	// the default is 0.
	Placing units.Length

	Rulers rule.Rulers // what each size is rounded on

	// Clearance is kept between a fitting and the edges of its panel; the
	// default is 0, as the panel already ends at the liner's inset.
	Clearance units.Length
	// Fittings are what the panels carry.
	Fittings []Fitting
	// Closing is how the folio closes over them.
	Closing closing.Allowance
	// Magnets hold it shut; the zero value is none.
	Magnets closing.Magnets

	// Row is a row of boards of your own; giving it alone chooses the form
	// [boards.OwnRow].
	Row boards.Row
}

// filled returns l, or the default for 0. [units.None] stays what it is, so that
// filling in twice is the same as once.
func filled(l, standard units.Length) units.Length {
	if l == 0 {
		return standard
	}
	return l
}

// given returns l, and 0 for [units.None].
func given(l units.Length) units.Length {
	if l == units.None {
		return 0
	}
	return l
}

// orDefault returns l, the default for 0, and 0 for [units.None].
func orDefault(l, standard units.Length) units.Length {
	return given(filled(l, standard))
}

// fill fills in the defaults, but for the covering of the spine where none is
// given, and returns the row.
func (s *Spec) fill() shape {
	s.Rulers.Fill()
	n := s.Rulers.Main.Notation()
	board, covering, liner := stock.DefaultBoard(n), stock.DefaultCovering(n), stock.DefaultLiner(n)
	s.Board.Fill(&board)
	s.Covering.Fill(&covering)
	s.Liner.Fill(&liner)
	if !s.SpineCovering.Empty() {
		s.SpineCovering.Fill(&covering)
	}
	row := s.fillRow()
	s.Margin.Fill(n)
	s.Mitre.Fill()
	s.Quarter.Fill(n)
	s.Lining.Fill(n)
	s.Block.Fill(n)
	s.Closing.Fill(n)
	s.Magnets.Fill(n)
	if row.ruled(boards.WidthShared) > 0 {
		s.DoorGap = filled(s.DoorGap, n.Choose(units.Inch/16, 2*units.Millimetre))
	}
	return row
}

// own makes the lists of the Spec its own: what a caller keeps of them changes
// nothing any more. Sheets are kept together.
func (s *Spec) own() {
	s.Fittings = slices.Clone(s.Fittings)
	s.Row.Boards, s.Row.Joints = slices.Clone(s.Row.Boards), slices.Clone(s.Row.Joints)
	s.Stocks = slices.Clone(s.Stocks)
	ofCase := [...]*stock.Stock{&s.Board, &s.Covering, &s.SpineCovering, &s.Liner}
	n := 0
	for _, k := range ofCase {
		n += len(k.Sheets)
	}
	for i := range s.Stocks {
		n += len(s.Stocks[i].Sheets)
	}
	if n == 0 {
		return
	}
	all := make([]stock.Sheet, 0, n)
	for _, k := range ofCase {
		all = ownSheets(all, k)
	}
	for i := range s.Stocks {
		all = ownSheets(all, &s.Stocks[i])
	}
}

// ownSheets copies the sheets of a stock behind others, which there is room for.
func ownSheets(all []stock.Sheet, k *stock.Stock) []stock.Sheet {
	if from := len(all); len(k.Sheets) > 0 {
		all = append(all, k.Sheets...)
		k.Sheets = all[from:len(all):len(all)]
	}
	return all
}

// nones returns the fields that may say explicitly none.
func (s *Spec) nones() [5]*units.Length {
	return [...]*units.Length{&s.Block.Square, &s.DoorGap, &s.Closing.Ease, &s.Closing.Adhesive.Caliper, &s.Lining.Lap}
}

// stock finds a material by name, nil for none that there is; empty is the card,
// the default one unless the Spec has one of that name. Nobody writes to what it
// returns.
func (s *Spec) stock(name string) *stock.Stock {
	if name == "" {
		name = cardInches.Name
	}
	for i := range s.Stocks {
		if s.Stocks[i].Name == name {
			return &s.Stocks[i]
		}
	}
	switch card := s.card(); name {
	case s.Board.Name:
		return &s.Board
	case s.Covering.Name:
		return &s.Covering
	case s.SpineCovering.Name:
		return &s.SpineCovering
	case s.Liner.Name:
		return &s.Liner
	case card.Name:
		return card
	}
	return nil
}

var cardInches, cardMetric = stock.DefaultCard(units.InchFraction), stock.DefaultCard(units.MetricDecimal)

// card returns the default card.
func (s *Spec) card() *stock.Stock {
	if s.Rulers.Main.Notation() == units.MetricDecimal {
		return &cardMetric
	}
	return &cardInches
}
