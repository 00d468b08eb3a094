package folio

import (
	"iter"

	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/units"
)

// A Stacked is one of the things that stand at the tightest place.
type Stacked struct {
	fitting int
	name    string
	height  units.Length
}

// Fitting returns its place in [Plan.Fittings], −1 and false for the block, the
// turn-ins and the contents of the Spec.
func (t Stacked) Fitting() (index int, ok bool) { return max(t.fitting, ofBlock), t.fitting >= 0 }

// Name returns what it is called.
func (t Stacked) Name() string { return t.name }

// Height returns how much it adds at the place.
func (t Stacked) Height() units.Length { return t.height }

// A Tight is the tightest place of a closed folio: where what stands on facing
// panels, added up, leaves the least of the room.
type Tight struct {
	meeting           closing.Meeting
	panel             boards.Role
	place             units.Rect
	things            []Stacked
	stack, room, left units.Working
	do                units.Working
	ease              units.Length
	edge, at          string // at a fore edge: which, and what stands there
}

// Meeting returns which faces meet there.
func (t Tight) Meeting() closing.Meeting { return t.meeting }

// Place returns the rectangle where all the things lie over each other, on the
// row as it lies open, seen on the board that is returned with it: what sits
// on the facing panel is mirrored on to it. It is empty where nothing lies
// between.
func (t Tight) Place() (units.Rect, boards.Role) { return t.place, t.panel }

// Things walks what lies there, in the order of the fittings.
func (t Tight) Things() iter.Seq[Stacked] { return walk(t.things) }

// Stack returns the sum of their heights, one term a thing.
func (t Tight) Stack() units.Working { return t.stack }

// Room returns the clear distance between the faces.
func (t Tight) Room() units.Working { return t.room }

// Left returns what the stack leaves of the room; negative, it is how much too
// thick the stack is.
func (t Tight) Left() units.Working { return t.left }

// Closes reports whether the stack goes into the room.
func (t Tight) Closes() bool { return t.left.Length() >= 0 }

// Eased reports whether it leaves the ease of Spec.Closing. Where nothing lies but
// the block and the case itself, which published rules go round, none is asked
// for.
func (t Tight) Eased() bool { return t.left.Length() >= t.ease }

// WouldDo returns the narrowest spine board that would leave the room with the
// ease, rounded up on the ruler of boards: the gap for a soft spine, on its
// ruler, and the second spine under a flap. Beside what stands in the middle of a spine
// board it is the one from which on every wider one does, on whatever side the ruler of
// fittings leaves less. It answers for this place alone; at the back of a spine board,
// against what lies straight across from it, and at the edge from which what stands there
// is laid, no width helps, and it is the one that there is.
func (t Tight) WouldDo() units.Working { return t.do }

// String returns one sentence with the numbers.
func (t Tight) String() string {
	n := t.room.Rounded().Ruler.Notation()
	var dst []byte
	if t.meeting == closing.AtForeEdge {
		dst = append(dst, "the "+t.edge+" "...)
		if t.Closes() {
			dst = append(dst, n.Bound(t.left.Length(), units.Down)...)
			return string(append(dst, " from the "+t.at...))
		}
		dst = append(dst, n.Bound(-t.left.Length(), units.Up)...)
		return string(append(dst, " too far out, in the "+t.at...))
	}
	if len(t.things) == 0 {
		dst = append(dst, "nothing"...)
	}
	for i, th := range t.things {
		switch {
		case i > 0 && i == len(t.things)-1:
			dst = append(dst, " and "...)
		case i > 0:
			dst = append(dst, ", "...)
		}
		dst = append(dst, th.name...)
		dst = append(dst, ' ')
		dst = n.Append(dst, th.height, false)
	}
	if len(t.things) > 1 {
		dst = append(dst, ", together "...)
		dst = n.Append(dst, t.stack.Length(), false)
		dst = append(dst, ',')
	}
	dst = append(dst, " in a room of "...)
	dst = append(dst, n.Bound(t.room.Length(), units.Down)...)
	dst = append(dst, ' ')
	dst = append(dst, t.meeting.String()...)
	if t.Closes() {
		dst = append(dst, ": "...)
		dst = append(dst, n.Bound(t.left.Length(), units.Down)...)
		return string(append(dst, " left"...))
	}
	dst = append(dst, ": "...)
	dst = append(dst, n.Bound(-t.left.Length(), units.Up)...)
	return string(append(dst, " too thick"...))
}

// Tightest returns the tightest place of the folio closed as its Spec says,
// full or empty, and whether it shuts at all. Contents that the Spec gives by
// thickness alone count where they are thicker than the fittings.
func (p *Plan) Tightest(full bool) (Tight, bool) {
	s, ok := p.hinged()
	if !ok {
		return Tight{}, false
	}
	h := s.tightest(full)
	return s.tight(&h), true
}

// tight writes a pinch down.
func (s *shut) tight(h *pinch) Tight {
	p := s.p
	spec := &p.spec
	n := p.Notation()
	t := Tight{meeting: h.meeting, panel: h.panel, place: h.place, ease: h.ease(spec.Closing.Ease)}
	var g units.Ledger
	g.Reserve(16 + len(h.cells))
	var buf [4 * boards.MaxBoards]units.Term
	switch h.meeting {
	case closing.UnderFlap:
		t.room = exactly(&g, "room under the flap", n, s.roomTerms(buf[:0], &h.meet)...)
	case closing.BetweenOutsides:
		t.room = exactly(&g, "room between the outsides", n, s.roomTerms(buf[:0], &h.meet)...)
	case closing.AtForeEdge:
		t.room = exactly(&g, "room at the fore edge", n, s.edgeTerms(buf[:0], h)...)
		t.edge, t.at = s.edgeNames(h)
	case closing.BesideSpine:
		if h.against != "" {
			where := "room across from the "
			if p.fitted[h.stands].outside == p.valley(p.foldAt(h.spine)) {
				where = "room at the back of the "
			}
			t.room = exactly(&g, where+p.called(h.spine), n, units.T("from there to the "+h.against, h.room))
			break
		}
		t.room = exactly(&g, "room beside the "+p.called(h.spine), n, units.T("from the "+h.panel.String()+" to "+p.fitted[h.stands].Label(), h.room))
	default:
		t.room = exactly(&g, "room between the covers", n, s.roomTerms(buf[:0], &h.meet)...)
	}
	if h.contents {
		t.things = []Stacked{{-1, "contents", h.stack}}
	}
	for i := range h.cells {
		if c := &h.cells[i]; !h.place.Empty() && c.over(h.place.Min) {
			t.add(p, c)
		}
	}
	terms := buf[:0]
	for _, th := range t.things {
		terms = append(terms, units.T(th.name, th.height))
	}
	if len(terms) == 0 {
		terms = append(terms, units.T("nothing", 0))
	}
	t.stack = exactly(&g, "stack", n, terms...)
	t.left = exactly(&g, "room left", n, units.T("room", t.room.Length()), units.N(-1, "stack", t.stack.Length()))
	t.do = s.wouldDo(&g, h)
	return t
}

// edgeTerms appends what the room at a fore edge adds up.
func (s *shut) edgeTerms(terms []units.Term, h *pinch) []units.Term {
	p, f := s.p, &s.p.folded
	near := h.fold + h.side // the board of the fold on the way from the one inside
	name := func(k int) string {
		switch role := p.boards[f.inRow(k)].role; {
		case k == f.main:
			return "main panel"
		case role == boards.LeftCover:
			return "front cover"
		default:
			return role.String()
		}
	}
	past := "past it to the fold"
	left, right := f.between(h.fold)
	if left != right {
		past = "past it to the " + p.boards[right].name
	}
	terms = append(terms, units.T(name(near), p.panelWidth(f.inRow(near))), units.T(past, s.outOf(h.fold, h.side, units.Down)))
	switch {
	case !p.valley(h.fold):
	case left != right:
		terms = append(terms, units.N(-1, "board caliper", p.spec.Board.Caliper), units.N(-1, "liner caliper", p.spec.Liner.Caliper))
	default:
		terms = append(terms, units.N(-1, "liner caliper", p.spec.Liner.Caliper))
	}
	terms = append(terms, units.N(-1, name(h.edge), p.panelWidth(f.inRow(h.edge))), units.N(-1, "covering caliper", p.spec.Covering.Caliper))
	if rest := h.room - total(terms); rest > 0 {
		terms = append(terms, units.T("further in", rest))
	} else if rest < 0 {
		terms = append(terms, units.N(-1, "further out", -rest))
	}
	return terms
}

// edgeNames names an edge inside a fold and what stands there.
func (s *shut) edgeNames(h *pinch) (edge, at string) {
	p, f := s.p, &s.p.folded
	edge = "edge of the " + p.boards[f.inRow(h.edge)].role.String()
	if p.boards[f.inRow(h.edge)].role == boards.LeftCover {
		edge = "fore edge of the front cover"
	}
	if left, right := f.between(h.fold); left != right {
		return edge, p.boards[right].name + " board"
	}
	return edge, "fold"
}

// add adds a cell to the things, in the order of the fittings.
func (t *Tight) add(p *Plan, c *cell) {
	for i := range t.things {
		if t.things[i].fitting == c.fitting {
			t.things[i].height += c.height
			return
		}
	}
	name := "block"
	switch {
	case c.fitting == ofTurnIns:
		name = "turn-ins"
	case c.fitting >= 0:
		name = p.fitted[c.fitting].Label()
	}
	at := len(t.things)
	for at > 0 && t.things[at-1].fitting > c.fitting {
		at--
	}
	t.things = append(t.things, Stacked{})
	copy(t.things[at+1:], t.things[at:])
	t.things[at] = Stacked{c.fitting, name, c.height}
}

// where is the sentence of a tight place with where it is.
func (t Tight) where(p *Plan) string {
	text := t.String()
	if t.place.Empty() {
		return text
	}
	n := p.Notation()
	i := p.index(t.panel)
	x := p.boards[i].rect.Min.X
	of := " of the " + p.called(t.panel)
	if t.meeting == closing.UnderFlap || t.meeting == closing.BetweenOutsides {
		of += ", which lies beneath" // neither of the two that meet there
	}
	// What is on a board that is folded over this one may reach beyond it.
	stretch := func(low, high units.Length, edge string) string {
		switch {
		case high < 0:
			return n.Text(-high) + " to " + n.Text(-low) + " beyond the " + edge + " edge"
		case low < 0:
			return n.Text(-low) + " beyond the " + edge + " edge to " + n.Text(high) + " from it"
		}
		return n.Text(low) + " to " + n.Text(high) + " from the " + edge
	}
	return text + ", at " + stretch(t.place.Min.X-x, t.place.Max.X-x, "left") + " and " +
		stretch(t.place.Min.Y, t.place.Max.Y, "head") + of
}
