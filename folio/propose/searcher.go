package propose

import (
	"cmp"
	"slices"

	"boardwrap.example/folio"
	"boardwrap.example/folio/stock"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A searcher carries the search.
type searcher struct {
	*meter
	share     int64 // of the budget, for one aim
	steps     int64 // that were taken for all aims
	request   Request
	full      folio.Spec // the case, with its sheets
	bare      folio.Spec // without those of boards, covering and liner
	stock     string     // of the fittings
	notation  units.Notation
	ruler     units.Ruler // of boards
	fitting   units.Ruler
	clear     units.Length // the case's clearance
	margin    units.Length
	between   units.Length
	grip      units.Length
	ease      units.Length
	leaves    []leaf       // that carry fittings, left to right
	main      int          // the one that stays on the table
	trial     int          // the one on which ways are tried
	soft      bool         // no board of the row stands
	layered   bool         // something lies over an outside
	roomy     units.Length // a cover and a spine larger than what anyone folds
	meets     bool         // there was a cover on which the turn-ins or their mitres meet
	least     units.Size   // no smaller cover is tried; set where all that are just large enough are such
	narrowest units.Length // of a cover, whatever lies on it: the widest board where none is as wide as the cover
	extra     units.Length // of a cover's height, beyond what lies on it, at the least
	more      units.Length // by how much that is more on some covers
	phases    int          // how many spines in a row leave all that any leaves of the boards; 0 where all leave the same
	rough     bool         // it is counted with the least that is left of the boards
	slack     units.Length // a spine is so much wider than the room it leaves
	slacker   units.Length // likewise of the room under what lies over an outside
	thick     units.Length // of the closed folio, beyond the spines
	bySpine   units.Length // how often the spine counts in that
	byUnder   units.Length // how often the room under what lies over an outside does
	closed    units.Size   // of the closed folio, beyond the cover
	follows   bool         // whether it is so much more whatever the cover
	smallest  units.Size   // the proved smallest cover, zero where there is none
	anyCover  bool         // the limits do not count, for once
	first     *found       // the smallest that was found
	last      *folio.Plan  // whose designs are used again
	all       [][]option   // of each thing
	spare     [][]option   // of each thing, those that a plainer one made needless
	out       []RuledOut
}

// plainCard is what fittings are made of where the request does not say.
const plainCard = "plain card"

func newSearcher(until score.Stopper, r Request, b Budget) *searcher {
	s := &searcher{meter: &meter{until: until, left: b.Steps}, share: b.Steps / aims, request: r, full: owned(r.Case), stock: r.Stock}
	s.request.Things = slices.Clone(r.Things)
	if s.stock == "" {
		s.stock = plainCard
		has := func(k stock.Stock) bool { return k.Name == plainCard }
		if c := &s.full; !slices.ContainsFunc(c.Stocks, has) && !slices.ContainsFunc([]stock.Stock{c.Board, c.Covering, c.SpineCovering, c.Liner}, has) {
			rulers := s.full.Rulers
			rulers.Fill()
			card := stock.DefaultCard(rulers.Main.Notation())
			card.Name, card.TwoSided = plainCard, true
			s.full.Stocks = append(s.full.Stocks, card)
		}
	}
	s.sheetsAtHand()
	s.bare = s.full
	for _, k := range [...]*stock.Stock{&s.bare.Board, &s.bare.Covering, &s.bare.SpineCovering, &s.bare.Liner} {
		k.Sheets = nil
	}
	filled := s.full.WithDefaults()
	s.notation = filled.Rulers.Main.Notation()
	s.ruler, s.fitting = filled.Rulers.Board, filled.Rulers.Fitting
	s.clear = filled.Clearance
	s.margin, s.between = orUsual(r.Taste.Margin, s.notation), orUsual(r.Taste.Between, s.notation)
	s.margin, s.between = s.fitting.Up(s.margin), s.fitting.Up(s.between)
	s.grip = s.fitting.Up(s.notation.Choose(units.Inch/4, 6*units.Millimetre))
	s.ease = max(filled.Closing.Ease, 0)
	s.all, s.spare = make([][]option, len(r.Things)), make([][]option, len(r.Things))
	return s
}

// owned returns a copy of a Spec with lists of its own.
func owned(s folio.Spec) folio.Spec {
	s.Fittings, s.Stocks = slices.Clip(slices.Clone(s.Fittings)), slices.Clone(s.Stocks) // what is appended to the fittings is nobody else's
	own := func(k *stock.Stock) { k.Sheets = slices.Clone(k.Sheets) }
	own(&s.Board)
	own(&s.Covering)
	own(&s.SpineCovering)
	own(&s.Liner)
	for i := range s.Stocks {
		own(&s.Stocks[i])
	}
	return s
}

// build builds a trial plan, with what was worked out before.
func (s *searcher) build(spec folio.Spec) (*folio.Plan, error) {
	s.spend(StepsOfFitting * (1 + len(spec.Fittings)))
	p, err := s.last.Again(spec)
	if err == nil && (s.last == nil || len(spec.Fittings) > len(s.bare.Fittings)) {
		s.last = p
	}
	return p, err
}

// spineFor returns the narrowest spine for a stack between the covers, and
// stackFor the thickest stack for a spine.
func (s *searcher) spineFor(stack units.Length) units.Length {
	return s.ruler.Up(max(stack+s.ease+s.slack, units.Shortest))
}

func (s *searcher) stackFor(spine units.Length) units.Length { return spine - s.slack - s.ease }

// ample is a side of a cover and a spine larger than any, on their ruler.
func (s *searcher) ample() units.Length { return s.ruler.Up(s.roomy) }

// mostCover returns the largest cover within the limits that do not depend on
// what lies on it.
func (s *searcher) mostCover() units.Size {
	most := units.Size{W: s.roomy, H: s.roomy}
	if s.anyCover {
		return most
	}
	c := s.request.Limits.Cover
	most = most.Min(units.Size{W: cmp.Or(c.W, most.W), H: cmp.Or(c.H, most.H)})
	if in := s.request.Limits.Into; s.follows && (in.Size != units.Size{}) {
		long := max(in.Size.W, in.Size.H) - 2*in.Padding
		most = most.Min(units.Size{W: long - s.closed.W, H: long - s.closed.H})
	}
	return most
}
