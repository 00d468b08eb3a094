package pocket

import (
	"slices"
	"strconv"

	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Codes of this package's own violations and warnings.
const (
	// DoesNotFold marks a size with which a strip cannot fold as told.
	DoesNotFold check.Code = "does-not-fold"
	// TooThick marks contents that are thicker than their pocket likes.
	TooThick check.Code = "too-thick"
	// NeedsTwoScores marks a fold round a stack that one score cannot take.
	NeedsTwoScores check.Code = "needs-two-scores"
	// Unusual marks a size that print advises against.
	Unusual check.Code = "unusual"
	// NarrowEdge marks an edge turned under that leaves little to glue.
	NarrowEdge check.Code = "narrow-edge"
	// MovedToRuler marks a given length that a size on the ruler makes another.
	MovedToRuler check.Code = "moved-to-ruler"
	// NoGrip marks contents that cannot be gripped.
	NoGrip check.Code = "no-grip"
	// TooLong is for a piece or a closed pocket of more than 10 m; which of the
	// lengths that make it up to change is advice.
	TooLong check.Code = "too-long"
	// NoCorner is for contents that no corner reaches over; which of them to
	// change is advice.
	NoCorner check.Code = "no-corner"
)

// maxCount bounds how many things one place is designed for, and how many
// pockets an accordion has.
const (
	maxCount   = 1000
	maxPockets = 500
)

// A maker works a design out: it collects violations, workings and parts.
type maker struct {
	check.List
	defaults
	ledger units.Ledger
	d      *design
	trial  bool     // only sizes and heights are asked for
	folds  []crease // room for those of the one piece
	small  struct {
		what string     // pieces that the sheet does not take
		need units.Size // what takes them
	}
}

// newMaker returns a maker for a kind of one piece with a few panels. It is so short
// that the compiler copies it into its callers, on whose stack the maker then lies.
func newMaker(k Kind, p Paper, r units.Ruler) *maker {
	m := new(maker)
	m.begin(k, p, r, false)
	return m
}

// newLarge is [newMaker] for a kind with more of all, which is expected once it is
// known.
func newLarge(k Kind, p Paper, r units.Ruler) *maker {
	m := new(maker)
	m.begin(k, p, r, true)
	return m
}

func (m *maker) begin(k Kind, p Paper, r units.Ruler, large bool) {
	m.defaults = defaultsOn(r)
	m.In(m.n)
	if !r.Valid() {
		m.Malformed("ruler", check.Unknown, strconv.FormatInt(int64(r), 10), "one of the rulers of package units")
	}
	p.check(&m.List)
	p = p.WithDefaults()
	if p.Caliper < units.Shortest && m.Len() == 0 { // a grammage without weight
		m.Malformed("paper.grammage", check.OutOfRange, p.Grammage.String(), "at least "+thinnestGrammage.String()+", which a paper "+m.n.Bound(units.Shortest, units.Up)+" thick has, or its caliper")
	}
	m.ledger.Reserve(11)
	if large {
		m.d = &design{kind: k, paper: p, ruler: m.r, workings: make([]units.Working, 0, 6), seen: make([]seen, 0, 4)}
		return
	}
	room := new(few)
	m.d = &room.design
	m.d.kind, m.d.paper, m.d.ruler = k, p, m.r
	m.d.workings, m.d.pieces, m.d.panels = room.workings[:0], room.pieces[:0], room.panels[:0]
	m.d.places, m.d.stack, m.d.seen = room.places[:0], room.stack[:0], room.seen[:0]
	m.d.warnings, m.folds = room.warnings[:0], room.folds[:0]
}

// few is a design with room for what a kind of one piece is worked out to, kept
// together to take one allocation.
type few struct {
	design
	workings [5]units.Working
	pieces   [1]Piece
	panels   [4]Panel
	places   [1]Spot
	stack    [5]sheet
	seen     [4]seen
	warnings [1]unwise
	folds    [4]crease
}

// expect makes room for more pieces, panels and layers than a few.
func (m *maker) expect(pieces, panels, layers int) {
	m.d.pieces, m.d.panels, m.d.stack = slices.Grow(m.d.pieces, pieces), slices.Grow(m.d.panels, panels), slices.Grow(m.d.stack, layers)
}

// newTrial is [newLarge] for a design of which only the sizes and the heights
// are asked.
func newTrial(k Kind, p Paper, r units.Ruler) *maker {
	m := newLarge(k, p, r)
	m.trial = true
	return m
}

// text writes a length exactly.
//
//go:noinline
func (m *maker) text(l units.Length) string { return m.n.Text(l) }

// sum computes a size and keeps its working.
func (m *maker) sum(label string, d units.Direction, terms ...units.Term) *units.Working {
	return m.note(label, 1, m.r, d, present(terms)...)
}

// note computes a working of the design.
func (m *maker) note(label string, shares int, r units.Ruler, d units.Direction, terms ...units.Term) *units.Working {
	m.d.workings = append(m.d.workings, units.Working{})
	w := &m.d.workings[len(m.d.workings)-1]
	m.ledger.Put(w, label, shares, r, d, terms...)
	return w
}

// present leaves out what a design does not have: a spine, walls that take
// nothing away. The first term always stays.
//
//go:noinline
func present(terms []units.Term) []units.Term {
	kept := terms[:min(1, len(terms))]
	for _, t := range terms[len(kept):] {
		if t.Length != 0 && t.Count != 0 {
			kept = append(kept, t)
		}
	}
	return kept
}

// exact computes a sum that is not rounded.
func (m *maker) exact(label string, terms ...units.Term) *units.Working {
	return m.note(label, 1, m.n.Exact(), units.Nearest, present(terms)...)
}

// total is a sum as it is, whatever the ruler.
func (m *maker) total(label string, terms ...units.Term) *units.Working {
	w := m.ledger.Sum(label, m.n.Exact(), units.Nearest, terms...)
	return &w
}

// need computes the least that a content takes: up on the ruler where the
// design makes it so large, and exactly where something at hand must be so
// large.
func (m *maker) need(atHand bool, label string, terms ...units.Term) units.Length {
	if atHand {
		return m.exact(label, terms...).Length()
	}
	return m.sum(label, units.Up, terms...).Length()
}

// share computes a share of a sum and keeps its working.
func (m *maker) share(label string, s Share, d units.Direction, terms ...units.Term) *units.Working {
	terms = present(terms)
	if s.Part != 1 {
		scaled := make([]units.Term, len(terms))
		for i, t := range terms {
			scaled[i] = t
			scaled[i].Count *= s.Part
		}
		terms = scaled
	}
	return m.note(label, s.Of, m.r, d, terms...)
}

// comesTo warns of a given length that is no graduation of the ruler where a size with
// it, which is put on that, makes it another, which is at most so much.
//
//go:noinline
func (m *maker) comesTo(path, what string, given, made units.Length) {
	if made != given && !m.r.Has(given) {
		m.warn(unwise{path: path, code: MovedToRuler, got: given, want: made, lengths: [2]units.Length{given, made},
			text: [3]string{what, " is moved to ", ", so that the piece is on the ruler"}})
	}
}

//go:noinline
func (m *maker) warn(w unwise) { m.d.warnings = append(m.d.warnings, w) }

// room checks that a size that was computed leaves something; if not, it says
// how much larger the field at path has to be.
func (m *maker) room(path string, field, left units.Length, what string) {
	if left < units.Shortest {
		m.Short(path, check.TooSmall, m.n, field, m.r.Up(field+units.Shortest-left), what)
	}
}

// atMost checks that got is no more than limit.
//
//go:noinline
func (m *maker) atMost(path string, got, limit units.Length, what string) bool {
	if got <= limit {
		return true
	}
	m.Long(path, check.TooLarge, m.n, got, limit, what)
	return false
}

// atLeast checks that got is no less than limit.
func (m *maker) atLeast(path string, got, limit units.Length, what string) bool {
	if got >= limit {
		return true
	}
	m.Short(path, check.TooSmall, m.n, got, limit, what)
	return false
}

// piece makes a blank and adds it. Without a sheet that takes it the error
// says so.
//
//go:noinline
func (m *maker) piece(name string, quantity int, w, h *units.Working, d score.Draft) int {
	return m.pieceOf(PaperStock, m.d.paper.Caliper, name, quantity, w, h, d)
}

func (m *maker) pieceOf(stock StockKind, caliper units.Length, name string, quantity int, w, h *units.Working, d score.Draft) int {
	d.Size = units.Size{W: w.Length(), H: h.Length()}
	p := Piece{name: name, stock: stock, quantity: quantity, width: w, height: h, caliper: caliper}
	m.d.pieces = append(m.d.pieces, p)
	at := len(m.d.pieces) - 1
	if d.Size.W > units.Longest || d.Size.H > units.Longest {
		m.Impossible("", TooLong, "a "+name+" of "+m.text(max(d.Size.W, d.Size.H))+" in all", "at most "+m.n.Bound(units.Longest, units.Down))
		return at
	}
	if stock == PaperStock {
		m.fits(name, d.Size)
	}
	if m.Len() > 0 {
		return at
	}
	blank, err := score.NewBlank(d)
	if err != nil {
		m.notDrawn(name, err)
		return at
	}
	m.d.pieces[at].blank = blank
	return at
}

// notDrawn reports a piece that cannot be drawn, for which no single field is to
// blame.
func (m *maker) notDrawn(name string, err error) {
	var l check.List
	l.Under(name, err)
	list, _ := l.Err().(*check.Error)
	for v := range list.All() {
		m.Impossible("", v.Code, v.Path+": "+v.Got, v.Want)
	}
}

// allowance checks a length that may be 0, for its default, but is not smaller
// than what can be made.
func (m *maker) allowance(path string, l units.Length) bool {
	if 0 < l && l < units.Shortest {
		m.Malformed(path, check.OutOfRange, m.text(l), "0 or a length from "+m.n.Bound(units.Shortest, units.Up)+" to "+m.longest())
		return false
	}
	return m.Allowance(path, l)
}

// longest writes the greatest length of a plan in the plan's notation.
//
//go:noinline
func (m *maker) longest() string {
	if m.n == units.MetricDecimal {
		return "10 m"
	}
	return m.n.Bound(units.Longest, units.Down)
}

// optional is allowance for a length that may explicitly be none.
func (m *maker) optional(path string, l units.Length) bool {
	return l == units.None || m.allowance(path, l)
}

// fits checks that the largest sheet takes a piece. One violation says which
// sheet would take all those that it does not, and what it takes as it is.
func (m *maker) fits(name string, s units.Size) {
	at := m.d.paper.Sheet
	if longest, ok := m.d.paper.longestSheet(min(s.W, s.H)); ok && longest >= max(s.W, s.H) {
		return
	}
	if m.small.what == "" { // of a side without end, what does not go in is larger than the other both ways
		m.small.need = units.Size{W: min(at.W, at.H), H: max(at.W, at.H)}
	}
	m.small.need = units.Size{W: max(m.small.need.W, min(s.W, s.H)), H: max(m.small.need.H, max(s.W, s.H))}
	if m.small.what != "" {
		m.small.what += " and the "
	}
	m.small.what += name
}

// Len counts the violations, that of the sheet among them, which is added last.
//
//go:noinline
func (m *maker) Len() int {
	n := m.List.Len()
	if m.small.what != "" {
		n++
	}
	return n
}

// sheet adds the violation of a sheet that is too small.
func (m *maker) sheet() {
	if m.small.what != "" {
		m.Impossible("paper.sheet", check.TooSmall, units.Format{}.Size(m.d.paper.Sheet),
			"a sheet of at least "+m.n.BoundSize(m.small.need, units.Up)+" for the "+m.small.what)
	}
}

// panel adds a panel with its number along the folds of its piece. What it
// returns is good until the next one is added.
//
//go:noinline
func (m *maker) panel(name string, piece, number int, blank, closed units.Rect) *Panel {
	m.d.panels = append(m.d.panels, Panel{name: name, piece: piece, blank: blank, closed: closed, number: number})
	return &m.d.panels[len(m.d.panels)-1]
}

// lay puts layers of the paper into the closed stack.
//
//go:noinline
func (m *maker) lay(r units.Rect, layers int) {
	if !r.Empty() {
		m.d.stack = append(m.d.stack, sheet{rect: r, layers: int32(layers)})
	}
}

// fill puts contents so thick into the closed stack.
//
//go:noinline
func (m *maker) fill(r units.Rect, thick units.Length) {
	if thick > 0 {
		m.d.stack = append(m.d.stack, sheet{rect: r, thick: thick, held: true})
	}
}

// mirror turns everything in the closed footprint left to right.
func (m *maker) mirror() {
	w := m.d.closed.W
	for i := range m.d.panels {
		m.d.panels[i].closed = mirrored(m.d.panels[i].closed, w)
	}
	for i := range m.d.places {
		p := &m.d.places[i]
		p.rect = mirrored(p.rect, w)
		p.mouth = score.Left + score.Right - p.mouth // from the other side
	}
	for i := range m.d.stack {
		m.d.stack[i].rect = mirrored(m.d.stack[i].rect, w)
	}
}

// finish closes the design.
func (m *maker) finish() (Design, error) {
	if side := max(m.d.closed.W, m.d.closed.H); side > units.Longest {
		m.Impossible("", TooLong, m.text(side)+" when closed", "at most "+m.n.Bound(units.Longest, units.Down))
	}
	m.sheet()
	if err := m.Err(); err != nil {
		return Design{}, err
	}
	for i := range m.d.panels {
		m.d.panels[i].side = m.d.sideUp(&m.d.panels[i])
	}
	d := m.d
	d.seen = d.kind.seen(d.panels, d.seen)
	d.open = d.open.Max(d.closed) // of most nothing opens
	d.empty = greatest(d.stack, d.paper.Caliper, false)
	d.full = greatest(d.stack, d.paper.Caliper, true)
	return Design{d: d, up: d.paper.Up}, nil
}
