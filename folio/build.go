package folio

import (
	"slices"

	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/word"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Build works out the plan of a folio. The error is an *[check.Error] that
// lists every violation of the Spec at once, with field paths, codes and what
// would do; the plan is then nil. Build never panics, whatever the Spec holds.
func Build(s Spec) (*Plan, error) { return build(&s, nil) }

// A builder works out one plan.
type builder struct {
	spec    *Spec // with defaults; that of the plan
	plan    *Plan
	planned *Plan // the plan that is refitted, nil while it is built
	before  *Plan // whose folded fittings may be used again, or nil
	bad     check.List
	fitter  *fitter // of the fitting that is being worked out
	// What is known of the fittings' sizes apart from their places; nil where
	// none is given by relation.
	footings []footing
	fixed    bool // no fitting has a size by relation or an even place
	records  store
	ledger   units.Ledger
	spine    units.Length   // as wide as the Spec says, 0 where all joints are soft
	margin   rule.Margin    // as it is given, and from the wrap on with the ideal on the ruler
	nomW     *units.Working // nominal, whatever was measured
	nomH     *units.Working
	besides  int     // pairs looked at for places that are free, see mostBeside
	cramped  cramped // what a smaller clearance would leave room for
	// How far the liner of a row whose gaps are as wide as expected begins from
	// its edge.
	expected units.Length
}

func build(s *Spec, last *Plan) (*Plan, error) {
	p := roomFor(s)
	p.spec, p.spineGiven = *s, !s.SpineCovering.Empty()
	b := newBuilder(len(s.Fittings))
	b.spec, b.plan, b.before = &p.spec, p, last
	b.prepare()

	// Materials and rules first: what is malformed there makes every size
	// that rests on it meaningless.
	sound := b.checkMaterials()
	if !b.soundAt("rulers", b.spec.Rulers.Check()) {
		sound, b.spec.Rulers.Fitting = false, b.notation().Fine() // by which fittings are checked all the same
	}
	sound = b.soundAt("hinge", b.spec.Hinge.Check(b.notation())) && sound
	sound = b.soundAt("margin", b.spec.Margin.Check(b.notation())) && sound
	sound = b.soundAt("mitre", b.spec.Mitre.Check(b.notation())) && sound
	sound = b.soundAt("quarter", b.spec.Quarter.Check(b.notation())) && sound
	sound = b.soundAt("lining", b.spec.Lining.Check(b.notation())) && sound
	sound = b.checkRow() && sound
	sound = b.checkClosing() && sound
	sound = b.soundAt("magnets", b.spec.Magnets.Check(b.notation())) && sound
	if !b.spec.Turning.Known() {
		b.bad.Malformed("turning", check.Unknown, count(int(b.spec.Turning)), word.OneOf[rule.Turning]())
	}
	if b.spec.Groove > pocket.GrooveInside {
		b.bad.Malformed("groove", check.Unknown, count(int(b.spec.Groove)), "outside or inside")
		sound = false
	}
	before := b.bad.Len()
	b.spec.checkCover(&p.shape, &b.bad)
	if !sound || b.bad.Len() > before {
		// The fittings are still checked as far as they stand by themselves.
		for i := range b.spec.Fittings[:min(len(b.spec.Fittings), MaxFittings)] {
			b.fitOne(i)
		}
		return nil, b.bad.Err()
	}

	if b.row() {
		b.open()
		b.stiffen()
		b.cover()
		if b.made() {
			p.ofCase = made{int32(len(p.pieces)), int32(len(p.workings)), int32(len(p.warnings))}
			b.fill()
		}
		if b.bad.Len() == 0 {
			b.closes()
			b.magnets()
		}
	}
	if err := b.bad.Err(); err != nil {
		return nil, err
	}
	return p, nil
}

// newBuilder returns a builder that can work fittings out, if there are any.
func newBuilder(fittings int) *builder {
	if fittings == 0 {
		return new(builder)
	}
	both := new(struct {
		builder builder
		fitter  fitter
	})
	both.builder.fitter = &both.fitter
	return &both.builder
}

// fill works out what lies inside the case, as planned or as measured.
func (b *builder) fill() {
	before := b.bad.Len()
	b.line()
	if len(b.plan.wrap.parts) > 0 {
		b.turnIns(b.bad.Len() == before)
	}
	b.fittings()
}

// few3 is a plan with room for the parts of a case with up to three boards, kept
// together to take one allocation.
type few3 struct {
	Plan
	boards [3]Board
	gaps   [2]Gap
	liner  [1]lined
	parts  [1]wrapPart
}

// roomFor returns an empty plan, with room for its case if that has few boards.
func roomFor(s *Spec) *Plan {
	if max(len(s.Row.Boards), len(ofForm[min(s.Form, boards.OwnRow)].Boards)) > 3 {
		return new(Plan)
	}
	few := new(few3)
	p := &few.Plan
	p.boards, p.gaps, p.liner, p.wrap.parts = few.boards[:0], few.gaps[:0], few.liner[:0], few.parts[:0]
	return p
}

// prepare fills the Spec of the plan in and makes room for what is worked out.
func (b *builder) prepare() {
	p, s := b.plan, b.spec
	s.own()
	b.margin = s.Margin
	p.shape = s.fill()
	if !p.spineGiven {
		s.SpineCovering = s.Covering
	}
	b.bad.In(s.Rulers.Main.Notation())
	for i, l := range s.nones() {
		if *l == units.None {
			*l = 0
			p.nones |= 1 << i
		}
	}
	// What a case takes by its form and style, and what fittings usually take.
	fittings, boards := min(len(s.Fittings), MaxFittings), max(len(p.shape.Boards), 2)
	workings, pieces, terms := 18+boards, boards+1, 38+3*boards
	if s.Quarter.Rule == rule.QuarterAlways {
		workings, pieces, terms = workings+2+boards, pieces+boards-1, terms+3+3*boards
	}
	if s.Lining.Rule == rule.LiningPanels {
		workings, pieces, terms = workings+boards, pieces+boards-1, terms+2*boards
	}
	if boards > cap(p.boards) {
		p.boards, p.gaps = make([]Board, 0, boards), make([]Gap, 0, max(boards-1, 0))
	}
	workings, pieces, terms = workings+4*fittings-fittings/4, pieces+fittings+fittings/4, terms+termsOfOne*fittings
	if room := (*ofFew)(nil); isFew(fittings) && workings <= len(room.workings) && pieces <= len(room.pieces) && terms <= len(room.terms) {
		room = new(ofFew)
		p.workings, p.pieces, p.fitted = room.workings[:0], room.pieces[:0], room.fitted[:0]
		b.ledger.Within(room.terms[:0])
		b.records = room.records.store()
		return
	}
	p.workings, p.pieces = make([]units.Working, 0, workings), make([]Piece, 0, pieces)
	b.ledger.Reserve(terms)
}

// ofFew has room for what becomes of a case with up to three boards, covered and lined
// in one piece, with three or four fittings, kept together to take one allocation.
type ofFew struct {
	workings [36]units.Working
	terms    [66]units.Term
	pieces   [9]Piece
	fitted   [4]Fitted
	records  few4
}

// termsOfOne is how many terms the workings of a fitting usually have.
const termsOfOne = 4

func (b *builder) notation() units.Notation { return b.spec.Rulers.Main.Notation() }

// exact is the ruler for sums of what is on its ruler already.
func (b *builder) exact() units.Ruler { return b.notation().Exact() }

func (b *builder) warn(w check.Warning) {
	if b.plan.warnings == nil {
		b.plan.warnings = make([]check.Warning, 0, 2)
	}
	b.plan.warnings = append(b.plan.warnings, w)
}

// sum computes a working and notes it in the plan.
func (b *builder) sum(label string, r units.Ruler, d units.Direction, terms ...units.Term) *units.Working {
	w := b.blank()
	b.ledger.Put(w, label, 1, r, d, terms...)
	return w
}

// exactly notes the working of a sum that no ruler rounds.
func (b *builder) exactly(label string, terms ...units.Term) *units.Working {
	return b.sum(label, b.exact(), units.Nearest, terms...)
}

// exactly returns the working of a sum that no ruler rounds.
func exactly(g *units.Ledger, label string, n units.Notation, terms ...units.Term) units.Working {
	return g.Sum(label, n.Exact(), units.Nearest, terms...)
}

// note notes a working in the plan, where everything that has to do with it
// finds it.
func (b *builder) note(w units.Working) *units.Working {
	kept := b.blank()
	*kept = w
	return kept
}

// blank returns a place for the next working of the plan.
func (b *builder) blank() *units.Working {
	p := b.plan
	n := len(p.workings)
	if n < cap(p.workings) {
		p.workings = p.workings[:n+1]
	} else {
		p.workings = append(p.workings, units.Working{})
	}
	return &p.workings[n]
}

// lengthOf returns what a working comes to, 0 for none.
//
//go:noinline
func lengthOf(w *units.Working) units.Length {
	if w == nil {
		return 0
	}
	return w.Length()
}

// of returns what a working says, the zero Working for none.
func of(w *units.Working) units.Working {
	if w == nil {
		return units.Working{}
	}
	return *w
}

// piece adds a piece, finds the sheet that takes it and returns its place.
func (b *builder) piece(p *Piece) int { return b.pieceFor(p, p.Size(), b.stock(p.stock)) }

// pieceFor adds a piece that must come out of a sheet of its material even if it
// grows to the size given.
func (b *builder) pieceFor(piece *Piece, need units.Size, of *stock.Stock) int {
	b.plan.pieces = append(b.plan.pieces, *piece)
	at := len(b.plan.pieces) - 1
	p := &b.plan.pieces[at]
	if p.grain = b.spec.Grain; p.across {
		p.grain = stock.GrainAny
	}
	if of != nil {
		p.oneWay, p.caliper = of.OneWay, of.Caliper
		if p.sheet.size.Empty() && len(of.Sheets) > 0 {
			p.sheet = b.fromSheet(p, need, of)
		}
	}
	return at
}

// soundAt lists what is wrong at a path, and reports whether nothing is.
func (b *builder) soundAt(path string, err error) bool {
	b.bad.Under(path, err)
	return err == nil
}

// fromSheet returns the smallest of the stock's sheets that takes a piece.
func (b *builder) fromSheet(p *Piece, need units.Size, s *stock.Stock) lie {
	best, ok := holds(s, need, p.grain)
	// Where the size of a sheet is wrong, that is said.
	if !ok && !slices.ContainsFunc(s.Sheets, func(s stock.Sheet) bool { return !check.InBounds(s.Size.W) || !check.InBounds(s.Size.H) }) {
		n := b.notation()
		b.bad.Add(check.Violation{
			Path: b.sheetsPath(p.stock), Code: SheetSmall, Fault: check.Impossible,
			Got:  "no sheet of " + check.Quote(s.Name) + " that takes the " + p.name,
			Want: "a sheet of at least " + n.BoundSize(need, units.Up) + ", grain along the height",
		})
	}
	return best
}

// sheetsPath is where the sheets of a stock are given.
func (b *builder) sheetsPath(name string) string {
	s := b.spec
	for i := range s.Stocks {
		if s.Stocks[i].Name == name {
			return check.Index("stocks", i) + ".sheets"
		}
	}
	switch name {
	case s.Board.Name:
		return "board.sheets"
	case s.Covering.Name:
		return "covering.sheets"
	case s.SpineCovering.Name:
		return b.spinePath() + ".sheets"
	}
	return "liner.sheets"
}

func sizeText(n units.Notation, s units.Size) string { return n.Text(s.W) + " x " + n.Text(s.H) }

// spinePath is where the material of the spine strips is given.
func (b *builder) spinePath() string {
	if b.plan.spineGiven {
		return "spinecovering"
	}
	return "covering"
}

func (b *builder) stock(name string) *stock.Stock { return b.spec.stock(name) }

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

func (b *builder) hasPanel(r boards.Role) bool {
	if r == boards.MainPanel {
		return true
	}
	return b.plan.shape.index(r) >= 0
}

// panelNames lists the panels that the row has.
func (b *builder) panelNames() string {
	text := "one of " + boards.MainPanel.String()
	for i := range b.plan.shape.Boards {
		text += ", " + b.plan.shape.role(i).String()
	}
	return text
}

func (b *builder) checkMaterials() bool {
	s, ok := b.spec, true
	all := [...]struct {
		path  string
		stock *stock.Stock
	}{{"board", &s.Board}, {"covering", &s.Covering}, {"liner", &s.Liner}, {"spinecovering", &s.SpineCovering}}
	inCase := all[:]
	if !b.plan.spineGiven {
		inCase = all[:3]
	}
	for i, c := range inCase {
		ok = b.soundAt(c.path, c.stock.Check(b.notation())) && ok
		for _, d := range inCase[:i] {
			if d.stock.Name == c.stock.Name && !d.stock.Same(c.stock) {
				b.bad.Malformed(c.path+".name", check.Conflict, "the name "+check.Quote(c.stock.Name)+" of another material, "+d.path, "a name of its own")
				ok = false
			}
		}
	}
	if len(s.Stocks) > MaxStocks {
		b.bad.Malformed("stocks", check.TooMany, count(len(s.Stocks)), "at most "+count(MaxStocks))
		return false
	}
	for i := range s.Stocks {
		path := func(field string) string { return check.Index("stocks", i) + field }
		if err := s.Stocks[i].Check(b.notation()); err != nil { // else the path is not put together
			ok = b.soundAt(path(""), err)
		}
		if s.Stocks[i].Name == "" {
			b.bad.Malformed(path(".name"), check.Missing, "no name", "a name for fittings to use")
			ok = false
		}
		for _, c := range inCase {
			if c.stock.Name == s.Stocks[i].Name && !c.stock.Same(&s.Stocks[i]) {
				b.bad.Malformed(path(".name"), check.Conflict, "the name "+check.Quote(c.stock.Name)+" of another material, "+c.path, "a name of its own")
				ok = false
			}
		}
		if name := s.Stocks[i].Name; name != "" && s.stock(name) != &s.Stocks[i] {
			b.bad.Malformed(path(".name"), check.Conflict, "the name "+check.Quote(name)+" again", "a name of its own")
			ok = false
		}
	}
	return ok
}
