package folio

import (
	"slices"

	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A builder works out one plan.
type builder struct {
	spec    *Spec // with defaults; that of the plan
	plan    *Plan
	planned *Plan // the plan that is refitted, nil while it is built
	before  *Plan // whose folded fittings may be used again, or nil
	bad     check.List
	small   *smallSheet // the last of those told of, nil for none
	fitter  *fitter     // of the fitting that is being worked out
	// What is known of the fittings' sizes apart from their places; nil where
	// none is given by relation.
	footings []footing
	fixed    bool  // no fitting has a size by relation or an even place
	besides  int32 // pairs looked at for places that are free, see mostBeside
	records  store
	ledger   units.Ledger
	spine    units.Length   // as wide as the Spec says, 0 where all joints are soft
	margin   rule.Margin    // as it is given, and from the wrap on with the ideal on the ruler
	nomW     *units.Working // nominal, whatever was measured
	nomH     *units.Working
	cramped  cramped // what a smaller clearance would leave room for
	// How far the liner of a row whose gaps are as wide as expected begins from
	// its edge.
	expected units.Length
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

//go:noinline
func (b *builder) notation() units.Notation { return b.spec.Rulers.Main.Notation() }

// exact is the ruler for sums of what is on its ruler already.
func (b *builder) exact() units.Ruler { return b.notation().Exact() }

//go:noinline
func (b *builder) warn(w check.Warning) {
	if b.plan.warnings == nil {
		b.plan.warnings = make([]check.Warning, 0, 2)
	}
	b.plan.warnings = append(b.plan.warnings, w)
}

// soundAt lists what is wrong at a path, and reports whether nothing is.
func (b *builder) soundAt(path string, err error) bool {
	b.bad.Under(path, err)
	return err == nil
}

// sum computes a working and notes it in the plan.
func (b *builder) sum(label string, r units.Ruler, d units.Direction, terms ...units.Term) *units.Working {
	w := b.blank()
	b.ledger.Put(w, label, 1, r, d, terms...)
	return w
}

func (b *builder) share(label string, n int, r units.Ruler, d units.Direction, terms ...units.Term) *units.Working {
	w := b.blank()
	b.ledger.Put(w, label, n, r, d, terms...)
	return w
}

// exactly notes the working of a sum that no ruler rounds.
func (b *builder) exactly(label string, terms ...units.Term) *units.Working {
	return b.sum(label, b.exact(), units.Nearest, terms...)
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

// moved warns of a given size that is put on the ruler.
func (b *builder) moved(path string, w *units.Working) {
	r := w.Rounded()
	b.comesTo(path, w.Label(), "", r.Ruler, r.From, r.To, r.To)
}

// comesTo warns of a given length that is no graduation of a ruler where it is put on
// that, or what is cut with it is, which is named then and makes it another: the least
// and the greatest that it comes to in the folio. Half of what is cut may lie between.
//
//go:noinline
func (b *builder) comesTo(path, what, cut string, r units.Ruler, given, least, greatest units.Length) {
	if greatest == given || r.Has(given) {
		return
	}
	n := b.notation()
	to := n.Text(least)
	if least < greatest {
		to += ", or up to " + n.Text(greatest)
	}
	why := ", as the ruler has"
	if cut != "" {
		why = ", with the " + cut + " on the ruler, which has"
	}
	b.warn(check.Warning{Path: path, Code: WarnRuler, Got: given, Want: greatest,
		Text: "the " + what + " of " + n.Text(given) + " is moved to " + to + why + " steps of " + n.Text(r.Step())})
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

// fromSheet returns the smallest of the stock's sheets that takes a piece.
func (b *builder) fromSheet(p *Piece, need units.Size, s *stock.Stock) lie {
	best, ok := holds(s, need, p.grain)
	// Where the size of a sheet is wrong, that is said.
	if !ok && !slices.ContainsFunc(s.Sheets, func(s stock.Sheet) bool { return !check.InBounds(s.Size.W) || !check.InBounds(s.Size.H) }) {
		n := b.notation()
		of := ""
		if p.fitting > 0 {
			of = p.part
		}
		b.tooSmall(b.sheetsPath(p.stock), of, "no sheet of "+check.Quote(s.Name)+" that takes the "+p.name, "a sheet of at least "+n.BoundSize(need, units.Up)+", grain along the height")
	}
	return best
}

// A smallSheet is a sheet at hand that is too small, which other things that are wrong may
// be to blame for.
type smallSheet struct {
	_                   [0]func() // none are compared
	path, of, got, want string    // of the violation
	before              *smallSheet
}

func (b *builder) tooSmall(path, of, got, want string) {
	b.small = &smallSheet{path: path, of: of, got: got, want: want, before: b.small}
}

// wrong is all that is wrong. Which sheets the case takes is told once it shuts over what
// it holds, and of its liner once that laps the turn-ins: it is another size till then.
func (b *builder) wrong() error {
	b.tell(b.small, b.bad.Has(NotClosing), b.bad.Has(LapNone))
	return b.bad.Err()
}

// tell tells of small sheets in their order, for a case that is open over what it holds or
// not, with a liner that bares its turn-ins or not.
func (b *builder) tell(s *smallSheet, open, bare bool) {
	if s == nil {
		return
	}
	b.tell(s.before, open, bare)
	if s.of != "" || !open && (s.path != "liner.sheets" || !bare) {
		b.bad.Add(check.Violation{Path: s.path, Code: SheetSmall, Nature: check.Impossible, Of: s.of, Got: s.got, Want: s.want})
	}
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

// spinePath is where the material of the spine strips is given.
func (b *builder) spinePath() string {
	if b.plan.spineGiven {
		return "spinecovering"
	}
	return "covering"
}

func (b *builder) stock(name string) *stock.Stock { return b.spec.stock(name) }

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

func (b *builder) openWidth() units.Length  { return b.nomW.Length() }
func (b *builder) openHeight() units.Length { return b.nomH.Length() }

func (b *builder) openSize() units.Size {
	return units.Size{W: b.openWidth(), H: b.openHeight()}
}
