package folio

import (
	"iter"
	"slices"

	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/rule"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
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
// ruler, and the second spine under a flap. It answers for this place alone; at the
// back of a spine board, and against what lies straight across from it, no width helps,
// and it is the one that there is.
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

// within returns the part of a rectangle on the board on the table where two boards
// lie over each other, as far as their covered edges reach, and no further than the
// backs of their folds.
func (s *shut) within(r units.Rect, m *meet) units.Rect {
	p, f := s.p, &s.p.folded
	for _, k := range [...]int{m.low, m.high} {
		board := p.onto(p.boards[f.inRow(k)].rect, k, false)
		low, high := board.Min.X-p.spec.Covering.Caliper, board.Max.X+p.spec.Covering.Caliper
		for _, fold := range [...]int{k - 1, k} {
			if fold < 0 || fold >= f.n-1 {
				continue
			}
			// The fold lies beyond whichever of its boards is nearer to the table.
			near, side := fold, 0
			if fold < f.main {
				near, side = fold+1, 1
			}
			at := p.onto(p.boards[f.inRow(near)].rect, near, false)
			expected := s.expected(fold)
			out := expected.outOf(fold, side, units.Up) + p.spec.Covering.Caliper
			if f.up(fold) {
				high = at.Max.X + out
			} else {
				low = at.Min.X - out
			}
		}
		r.Min.X, r.Max.X = max(r.Min.X, low), min(r.Max.X, high)
	}
	return r
}

// expected returns the hinges with gaps as wide as they may come out, so that a
// cover as it is expected closes too.
func (s *shut) expected(fold int) shut {
	out := *s
	left, right := s.p.folded.between(fold)
	for _, i := range [...]int{left, right} {
		out.j[i].wide = max(s.j[i].wide, s.p.gaps[i].planned.Length()+s.p.spec.Placing)
	}
	return out
}

// A pinch is a tightest place before it is written down.
type pinch struct {
	meeting     closing.Meeting
	panel       boards.Role
	spine       boards.Role // beside which there is
	stands      int         // this fitting
	against     string      // what that comes to lie against straight across
	meet        meet
	fold, side  int // at a fore edge
	edge        int // of this board that lies
	stack, room units.Length
	place       units.Rect
	cells       []cell
	contents    bool // the contents of the Spec, without a place
}

func (h *pinch) left() units.Length { return h.room - h.stack }

// ease is what is to be left there: the ease given, or nothing where only the
// block and the case itself lie, which is what published spine rules go round.
func (h *pinch) ease(given units.Length) units.Length {
	if h.meeting == closing.BesideSpine {
		return given
	}
	for _, c := range h.cells {
		if c.fitting >= 0 {
			return given
		}
	}
	return 0
}

// pinched returns the tightest place of faces that meet.
func (s *shut) pinched(m *meet, full bool) pinch {
	p, f := s.p, &s.p.folded
	out := pinch{meeting: m.kind, panel: p.shape.Main, room: s.roomOf(m), meet: *m}
	board := f.main
	if f.up(m.low) {
		board, out.panel = m.low, p.boards[f.inRow(m.low)].role
	}
	var buf [32]cell
	cells := buf[:0]
	add := func(h Height) bool {
		k := f.lies(p.index(h.panel))
		if !m.has(f, k, h.outside) {
			return true
		}
		r := p.onto(h.rect, k, false)
		if !m.joined {
			r = s.within(r, m)
		}
		if !r.Empty() {
			cells = append(cells, cell{p.onto(r, board, true), h.height, h.fitting})
		}
		return true
	}
	p.heights(full, add)
	for k := range f.n {
		if m.has(f, k, true) {
			p.lapped(p.boards[f.inRow(k)].role, add)
		}
	}
	if !s.bare {
		out.cells = slices.Clone(cells)
	}
	out.stack, out.place = greatest(cells)
	return out
}

// tightest finds the tightest of all meetings.
func (s *shut) tightest(full bool) pinch {
	var few [3]pinch
	all := s.withContents(few[:0], full)
	out := all[0]
	for _, h := range all[1:] {
		if h.left() < out.left() {
			out = h
		}
	}
	return out
}

// worst finds the meeting, full, that lacks the most of what is to be left there.
func (s *shut) worst() pinch {
	var few [3]pinch
	all, ease := s.withContents(few[:0], true), s.p.spec.Closing.Ease
	out := all[0]
	for _, h := range all[1:] {
		if h.left()-h.ease(ease) < out.left()-out.ease(ease) {
			out = h
		}
	}
	return out
}

// withContents is pinches, with the contents of the Spec between the covers too where
// they are thicker than what the plan holds there. They include the ease, but that does
// not.
func (s *shut) withContents(all []pinch, full bool) []pinch {
	all = s.pinches(all, full)
	if c := s.p.spec.Spine.Contents; full && c > all[0].stack {
		all = append(all, all[0])
		h := &all[0]
		h.stack, h.place, h.cells, h.contents = c, units.Rect{}, nil, true
	}
	return all
}

// pinches appends the tightest place of each meeting: that of the board on the
// table first, then the others with the edges inside folds, then beside a spine, one
// for each thing that stands there.
func (s *shut) pinches(all []pinch, full bool) []pinch {
	p := s.p
	var buf [4]meet
	meetings := s.meetings(buf[:0])
	base := s.base(meetings)
	all = append(all, s.pinched(base, full))
	for i := range meetings {
		if m := &meetings[i]; m != base {
			all = append(all, s.pinched(m, full))
		}
	}
	all = s.foreEdges(all)
	var few [12]Height // with the turn-ins of two spines
	standing := few[:0]
	p.heights(full, func(h Height) bool {
		if k := p.foldAt(h.panel); k >= 0 && h.outside != p.valley(k) {
			standing = append(standing, h)
		}
		return true
	})
	for _, h := range stacked(standing) {
		if b, ok := s.beside(h, full); ok {
			all = append(all, b)
		}
	}
	return s.across(s.across(all, true, full), false, full)
}

// foldAt returns the fold that a spine board stands in, −1 of all others.
func (p *Plan) foldAt(r boards.Role) int {
	if !r.Spine() {
		return -1
	}
	if i := p.index(r); i > 0 {
		return p.folded.lies(i - 1)
	}
	return -1
}

// valley reports whether a fold brings insides together.
func (p *Plan) valley(fold int) bool { return p.folded.kind[fold] == score.Valley }

// foreEdges appends what lies between the edges of boards and the folds that they
// lie in: the boards of the fold reach further, and a spine board stands there with
// its liner and turn-ins.
func (s *shut) foreEdges(all []pinch) []pinch {
	p, f := s.p, &s.p.folded
	if f.n == 2 {
		return all
	}
	z := s.lies(units.Down)
	z.clearings(func(c clearing) {
		h := pinch{meeting: closing.AtForeEdge, panel: p.boards[f.inRow(c.board)].role, room: -c.short, fold: c.fold, side: c.side, edge: c.board}
		if left, right := f.between(c.fold); left != right && p.valley(c.fold) {
			h.panel = p.boards[right].role
			h.room += p.spec.Covering.Caliper // turn-ins are counted where they are
			p.turned(func(t Height) bool {
				if t.panel == h.panel {
					h.cells = append(h.cells, cell{t.rect, t.height, t.fitting})
				}
				return true
			})
		}
		h.stack, h.place = greatest(h.cells)
		all = append(all, h)
	})
	return all
}

// beside checks something that stands on a spine board against the covers at
// both sides of it and what they carry, and reports whether it reaches as far.
//
// Closed, the spine board stands across the covers. Measured along a cover from
// the wrong side of the covering on the spine, what stands on the spine takes
// from the liner up, board + liner to board + liner + its height; a cover
// begins where its hinge ends. Where both overlap, what the cover carries must
// be lower than the way from its liner to the thing on the spine.
func (s *shut) beside(h Height, full bool) (pinch, bool) {
	p, f := s.p, &s.p.folded
	i, fold := p.index(h.panel), p.foldAt(h.panel)
	inside := !h.outside
	base := p.face(inside)
	reach := base + h.height
	var found pinch
	ok := false
	left, right := s.joints(fold)
	x, w := p.boards[i].rect.Min.X, p.panelWidth(i)
	ways := [2]units.Length{h.rect.Min.X - x + left.in(units.Down) - base, x + w - h.rect.Max.X + right.in(units.Down) - base}
	for side, board := range [...]int{i - 1, i + 1} {
		out := s.outOf(fold, side, units.Down)
		if reach <= out {
			continue
		}
		b := pinch{meeting: closing.BesideSpine, panel: p.boards[board].role, spine: h.panel, stands: h.fitting, room: ways[side]}
		b.cells = s.inTheWay(h, board, out, reach, full)
		b.stack, b.place = greatest(b.cells)
		if !ok || b.left() < found.left() {
			found, ok = b, true
		}
	}
	z := s.lies(units.Down)
	low, way, hinge := fold, ways[0], left
	if f.rank[fold+1] < f.rank[fold] {
		low, way, hinge = fold+1, ways[1], right
	}
	more := hinge.in(units.Up) - hinge.in(units.Down) // of the way, at the most
	z.clearings(func(c clearing) {
		// An edge comes between, or a fold, with what its boards carry: from the lower
		// board of the fold up, it begins after the room between the two.
		lower, upper, hem := z.hem(c.board, fold)
		if c.fold != fold || reach <= z.inside(fold)-c.short {
			return
		}
		up, over := s.passage(low, lower), s.passage(low, upper)
		below, above := s.atForeEdge(h, lower, z, reach, full)
		if hem {
			_, above = s.atForeEdge(h, upper, z, reach, full)
		}
		free := up.length(units.Down) - base - p.face(!f.up(lower)) - below
		top := over.length(units.Up) - base + p.face(f.up(upper)) + above
		b := pinch{meeting: closing.BesideSpine, panel: p.boards[f.inRow(lower)].role, spine: h.panel, stands: h.fitting,
			room: max(free-way-more-h.rect.Size().W, way-top)}
		if !ok || b.left() < found.left() {
			found, ok = b, true
		}
	})
	return found, ok
}

// inTheWay returns what a board beside a spine board carries where something on the
// spine board reaches over it.
func (s *shut) inTheWay(h Height, board int, out, reach units.Length, full bool) []cell {
	p := s.p
	x, w := p.boards[board].rect.Min.X, p.panelWidth(board)
	before := board < p.index(h.panel)
	var cells []cell
	p.heights(full, func(o Height) bool {
		if o.outside != h.outside || o.panel != p.boards[board].role || o.rect.Max.Y <= h.rect.Min.Y || h.rect.Max.Y <= o.rect.Min.Y {
			return true
		}
		from := out + o.rect.Min.X - x
		if before {
			from = out + x + w - o.rect.Max.X
		}
		if from < reach {
			c := cell{o.rect, o.height, o.fitting}
			// Only the part in the way counts.
			c.rect.Min.Y, c.rect.Max.Y = max(o.rect.Min.Y, h.rect.Min.Y), min(o.rect.Max.Y, h.rect.Max.Y)
			if before {
				c.rect.Min.X = max(c.rect.Min.X, x+w+out-reach)
			} else {
				c.rect.Max.X = min(c.rect.Max.X, x-out+reach)
			}
			cells = append(cells, c)
		}
		return true
	})
	return cells
}

// atForeEdge returns how high a board that lies inside a fold stands up below and
// above where something on the spine board reaches over it.
func (s *shut) atForeEdge(h Height, board int, z *sizing, reach units.Length, full bool) (below, above units.Length) {
	p, f := s.p, &s.p.folded
	fold := p.foldAt(h.panel)
	role, rect := p.boards[f.inRow(board)].role, p.boards[f.inRow(board)].rect
	edge, atLeft := z.edgeAt(fold, board)
	var low, high []cell
	add := func(o Height) bool {
		from := edge + o.rect.Min.X - rect.Min.X
		if !atLeft {
			from = edge + rect.Max.X - o.rect.Max.X
		}
		if o.panel != role || o.rect.Max.Y <= h.rect.Min.Y || h.rect.Max.Y <= o.rect.Min.Y || from >= reach {
			return true
		}
		c := cell{o.rect, o.height, o.fitting}
		c.rect.Min.Y, c.rect.Max.Y = max(o.rect.Min.Y, h.rect.Min.Y), min(o.rect.Max.Y, h.rect.Max.Y)
		if atLeft {
			c.rect.Max.X = min(c.rect.Max.X, rect.Min.X-edge+reach)
		} else {
			c.rect.Min.X = max(c.rect.Min.X, rect.Max.X+edge-reach)
		}
		if o.outside == f.up(board) {
			low = append(low, c)
		} else {
			high = append(high, c)
		}
		return true
	}
	p.heights(full, add)
	p.lapped(role, add)
	below, _ = greatest(low)
	above, _ = greatest(high)
	return below, above
}

// edgeAt returns how far the edge of a board inside a fold lies from it, and whether
// it is the left one in the row.
func (z *sizing) edgeAt(fold, board int) (edge units.Length, atLeft bool) {
	if z.right(fold) {
		return z.at[fold] - z.x[board][1], !z.f.up(board)
	}
	return z.x[board][0] - z.at[fold], z.f.up(board)
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
			t.room = exactly(&g, where+h.spine.String(), n, units.T("from there to the "+h.against, h.room))
			break
		}
		t.room = exactly(&g, "room beside the "+h.spine.String(), n, units.T("from the "+h.panel.String()+" to "+p.fitted[h.stands].Label(), h.room))
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

// wouldDo works out the spine board, or the gap, that would do.
func (s *shut) wouldDo(g *units.Ledger, h *pinch) units.Working {
	p := s.p
	spec := &p.spec
	more := [...]units.Term{units.T("stack", h.stack), units.T("ease", spec.Closing.Ease), units.N(-1, "room", h.room)}
	switch h.meeting {
	case closing.AtForeEdge:
		joint := s.roomy(h)
		b := s.j[joint]
		return g.Sum("gap that would do", spec.Rulers.Gap, units.Up, units.T("gap", b.gap), units.T("what it lacks, by the way it bends", b.wider(p.shape.hinge(joint), h.stack-h.room)))
	case closing.BesideSpine:
		if h.against != "" {
			return g.Sum("as wide a "+h.spine.String(), spec.Rulers.Board, units.Up, units.T(h.spine.String(), p.width(h.spine)))
		}
		// What stands in the middle of a spine gains half of what is added.
		return g.Sum(h.spine.String()+" that would do", spec.Rulers.Board, units.Up, units.T(h.spine.String(), p.width(h.spine)),
			units.N(2, "stack", h.stack), units.N(2, "ease", spec.Closing.Ease), units.N(-2, "room", h.room))
	}
	joint, spine := s.decides(&h.meet)
	if spine >= 0 {
		name := p.boards[spine].name
		return g.Sum(name+" that would do", spec.Rulers.Board, units.Up, units.T(name, p.panelWidth(spine)), more[0], more[1], more[2])
	}
	if s.j[joint].bend == rule.CreaseRound {
		around := h.stack + spec.Closing.Ease + 2*spec.Board.Caliper + 2*spec.Liner.Caliper
		return g.Sum("gap that would do", spec.Rulers.Gap, units.Up, units.T("half of the girth of a round back", roundBack(around)))
	}
	return g.Sum("gap that would do", spec.Rulers.Gap, units.Up, units.T("gap", s.j[joint].gap), more[0], more[1], more[2])
}

// roomy returns the joint whose gap makes room at a fore edge.
func (s *shut) roomy(h *pinch) int {
	left, right := s.p.folded.between(h.fold)
	if h.side == 1 {
		return right
	}
	return left
}

// decides returns the joint, or the spine board, of the fold that makes room where
// faces meet: of those that the way from one to the other rises at, the one in which
// the most lies. A joint of its own has no spine board, −1.
func (s *shut) decides(m *meet) (joint, spine int) {
	f := &s.p.folded
	fold, most := min(m.low, m.high), int8(0)
	for k := min(m.low, m.high); k < max(m.low, m.high); k++ {
		inside := f.rank[k+1] - f.rank[k]
		if m.high < m.low {
			inside = -inside
		}
		if inside > most {
			fold, most = k, inside
		}
	}
	left, right := f.between(fold)
	if left == right {
		return left, -1
	}
	return left, right
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
		past = "past it to the " + p.boards[right].role.String()
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
		return edge, p.boards[right].role.String() + " board"
	}
	return edge, "fold"
}

// roundBack returns half the circle over a width, rounded up.
func roundBack(across units.Length) units.Length { return portion(across, halfPi, units.Up) }

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

// closes checks that the folio closes over what it holds. Where the sum of
// everything at its thickest would do, nothing has to be laid over each
// other.
func (b *builder) closes() {
	p := b.plan
	s, ok := p.hinged()
	if !ok {
		if p.measured != nil && p.gapsNarrower() {
			b.warn(check.Warning{Path: "measured.width", Code: WarnOpen,
				Text: "a gap came out so narrow that the covers do not come to lie parallel; whether the folio closes over its contents is not worked out"})
			return
		}
		b.warn(check.Warning{Path: "hinge.angle", Code: WarnOpen,
			Text: "the hinges turn by " + count(b.spec.Hinge.Angle) + " degrees, so the covers do not come to lie parallel; whether the folio closes over its contents is not worked out"})
		return
	}
	n := b.notation()
	if p.shape.ruled(boards.WidthShared) > 0 {
		free := p.width(boards.MainPanel)
		for i := range p.boards {
			if p.shape.rule(i) == boards.WidthShared {
				free -= p.panelWidth(i)
			}
		}
		if need := 2 * b.spec.Covering.Caliper; free < need {
			b.warn(check.Warning{Path: "doorgap", Code: WarnDoors, Got: free, Want: need,
				Text: "the doors leave " + n.Text(free) + " between their boards, and their covered edges take " + n.Text(need)})
		}
	}
	b.hooks(&s)
	if s.surely() {
		return
	}
	h := s.worst()
	if h.left() >= 0 {
		b.passes(&s)
	}
	if h.left() >= h.ease(b.spec.Closing.Ease) {
		return
	}
	alone := h.ease(units.Millimetre) == 0 && h.meeting == closing.BetweenCovers
	t := s.tight(&h)
	if h.left() >= 0 {
		b.warn(check.Warning{Path: b.closingPath(&s, &h), Code: WarnEase, Got: h.left(), Want: b.spec.Closing.Ease,
			Text: t.where(p) + ", nearer than the ease of " + n.Text(b.spec.Closing.Ease)})
		return
	}
	// The least crease that gives the room, if one does.
	if far, ok := p.furthest(); ok && h.meeting == closing.BetweenCovers && far.roomOf(&h.meet) >= h.stack && far.roomOf(&h.meet) > h.room {
		text := "with the crease as planned there is no room: " + t.where(p)
		joint, spine := s.decides(&h.meet)
		if spine < 0 {
			text += "; a flat back, creased at the covers' edges, has it"
		} else {
			text += "; creased at least " + n.Text((h.stack - far.roomOf(&h.meet) + 2*far.j[joint].x).Half(units.Up)) + " from the spine board's edge it closes"
		}
		b.warn(check.Warning{Path: p.hingePath(joint) + ".crease", Code: WarnCrease, Got: h.room, Want: h.stack, Text: text})
		return
	}
	if nearest := s.nearest(); h.meeting == closing.AtForeEdge && nearest.clearsAt(&h) {
		b.warn(check.Warning{Path: p.hingePath(s.roomy(&h)) + ".crease", Code: WarnCrease, Got: h.room, Want: h.stack,
			Text: "with the crease as planned " + t.String() + "; creased at the edges of the spine boards it closes"})
		return
	}
	if alone && b.spec.Spine.Width == 0 && p.shape.spined() {
		b.warn(check.Warning{Path: "spine.rule", Code: WarnSpine, Got: h.room, Want: h.stack,
			Text: "the rule " + b.spec.Spine.Rule.String() + " leaves less room than the contents take: " + t.where(p)})
		return
	}
	if p.measured != nil {
		b.closesAsMade(&h, t)
		return
	}
	b.doesNotClose(&h, t)
}

// nearest returns the hinges creased at the edges of the spine boards.
func (s *shut) nearest() shut {
	out := *s
	for i := range s.p.gaps {
		if !s.j[i].soft {
			out.j[i].bend, out.j[i].x = rule.CreaseAtOffset, 0
		}
	}
	return out
}

// clearsAt reports whether the edge at a fore edge clears what stands there.
func (s *shut) clearsAt(h *pinch) bool {
	for _, o := range s.foreEdges(nil) {
		if o.fold == h.fold && o.edge == h.edge {
			return o.left() >= 0
		}
	}
	return false
}

// doesNotClose says that a folio does not close, and what would do.
func (b *builder) doesNotClose(h *pinch, t Tight) {
	p, n := b.plan, b.notation()
	s, _ := p.hinged()
	path, limit := b.closingPath(&s, h), t.do.Length()
	v := check.Violation{Path: path, Code: NotClosing, Fault: check.Impossible, Got: t.where(p), Bound: check.AtLeast, By: -h.left()}
	spine := -1
	if h.meeting != closing.BesideSpine && h.meeting != closing.AtForeEdge {
		_, spine = s.decides(&h.meet)
	}
	switch {
	case h.against != "":
		v.Bound = check.NoBound
		v.Want = "something there that is lower by " + n.Text(-h.left()) + " than " + p.fitted[h.stands].Label()
	case h.meeting == closing.BesideSpine:
		v.Bound = check.NoBound
		v.Want = "something lower or narrower on the " + h.spine.String() + ", or a " + h.spine.String() + " of at least " + n.Bound(limit, units.Up)
	case path == "closing.underflap":
		limit = b.spec.Rulers.Board.Up(b.spec.Closing.UnderFlap + h.stack + b.spec.Closing.Ease - h.room)
		what := "gap"
		if spine >= 0 {
			what = p.boards[spine].name
		}
		v.Want = "at least " + n.Bound(limit, units.Up) + ", which makes the " + what + " " + n.Text(t.do.Length())
	case path == "spine.contents" && spine < 0:
		limit = b.spec.Rulers.Gap.Up(h.stack + b.spec.Closing.Ease - b.spec.under())
		v.Want = "at least " + n.Bound(limit, units.Up) + ", which makes the gap " + n.Text(t.do.Length())
	case path == "spine.contents":
		limit += b.spec.goesRound() - p.panelWidth(spine)
		v.Want = "at least " + n.Bound(limit, units.Up) + ", which makes the spine " + n.Text(t.do.Length())
	case path == "spine.width" && spine < 0: // as wide as the spine boards ask for
		limit = b.spec.Rulers.Board.Up(b.spine + h.stack + b.spec.Closing.Ease - h.room)
		v.Want = "a spine of at least " + n.Bound(limit, units.Up) + ", which makes the gap " + n.Text(t.do.Length())
	case spine < 0:
		v.Want = "a gap of at least " + n.Bound(limit, units.Up)
	case path == "spine.width":
		// The board that decides may go round more than the spine by itself.
		limit += b.spine - p.panelWidth(spine)
		v.Want = "a spine of at least " + n.Bound(limit, units.Up)
	default:
		v.Want = "a spine of at least " + n.Bound(limit, units.Up)
	}
	switch {
	case v.Bound != check.NoBound && limit > units.Longest:
		v.Bound, v.Want = check.NoBound, "thinner things there: not even "+n.Bound(units.Longest, units.Down)+" would do"
	case isRule(path):
		v.Bound, v.Want = check.NoBound, instead(path)+" of at least "+n.Bound(limit, units.Up)+", or a rule that gives as much"
	}
	if v.Limit = limit; v.Bound == check.NoBound {
		v.Limit, v.By = 0, 0
	}
	b.bad.Add(v)
}

// closesAsMade says what does not go between covers as they are made: a fitting,
// which is inside and can be changed, or else it is warned about.
func (b *builder) closesAsMade(h *pinch, t Tight) {
	n := b.notation()
	tallest, most := -1, -units.Longest
	if h.meeting == closing.BesideSpine {
		tallest = h.stands
	}
	for _, c := range h.cells {
		if c.fitting >= 0 && c.over(h.place.Min) && c.height > most {
			tallest, most = c.fitting, c.height
		}
	}
	if tallest < 0 {
		b.warn(check.Warning{Path: "measured", Code: NotClosing, Got: h.room, Want: h.stack,
			Text: "the cover as measured does not close without force: " + t.where(b.plan)})
		return
	}
	f := &b.plan.fitted[tallest]
	b.bad.Add(check.Violation{Path: fittingPath(f.index), Code: NotClosing, Fault: check.Impossible, Got: t.where(b.plan),
		Want: "something there that is lower by " + n.Text(-h.left()) + " than " + f.Label()})
}

// gapsNarrower reports whether a gap came out narrower than planned.
func (p *Plan) gapsNarrower() bool {
	for i := range p.gaps {
		if p.gaps[i].Width() < p.gaps[i].planned.Length() {
			return true
		}
	}
	return false
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
	of := " from the head of the " + t.panel.String()
	if t.meeting == closing.UnderFlap || t.meeting == closing.BetweenOutsides {
		of += ", which lies beneath" // neither of the two that meet there
	}
	return text + ", at " + n.Text(t.place.Min.X-x) + " to " + n.Text(t.place.Max.X-x) + " from the left and " +
		n.Text(t.place.Min.Y) + " to " + n.Text(t.place.Max.Y) + of
}

// closingPath is the field that decides on the room of a meeting.
func (b *builder) closingPath(s *shut, h *pinch) string {
	p := b.plan
	switch h.meeting {
	case closing.BesideSpine:
		return "fittings"
	case closing.AtForeEdge:
		return p.gapPath(s.roomy(h))
	}
	joint, spine := s.decides(&h.meet)
	published := p.shape.hinge(joint).Rule
	switch {
	case spine >= 0 && p.shape.rule(spine) == boards.WidthFixed:
		return check.Index("row.boards", spine) + ".width"
	case spine < 0 && published != rule.HingeRoundContents && published != rule.HingeLeast:
		return p.gapPath(joint)
	case h.meeting != closing.BetweenCovers:
		return "closing.underflap"
	case !p.shape.spined(), b.spec.Spine.Width == 0:
		return "spine.contents"
	}
	return "spine.width"
}

// surely reports whether everything at its thickest, all of it in one place,
// leaves the ease. Fittings that stand on a spine, and a flap, take a closer
// look.
func (s *shut) surely() bool {
	p, f := s.p, &s.p.folded
	var buf [4]meet
	all := s.meetings(buf[:0])
	if len(all) > 1 {
		return false
	}
	film := p.spec.Closing.Adhesive.Caliper
	between := p.spec.Block.Thickness
	for i := range p.fitted {
		fit := &p.fitted[i]
		switch {
		case fit.panel.Spine():
			if fit.outside != p.valley(p.foldAt(fit.panel)) {
				return false
			}
		case all[0].has(f, f.lies(p.index(fit.panel)), fit.outside):
			// A mat and its picture are both stuck down.
			between += fit.full + 2*film
		}
	}
	// At most two turn-ins of each material lie over one place of a board.
	turned := 4 * p.spec.Covering.Caliper
	if p.wrap.quarter {
		turned += 4 * p.spec.SpineCovering.Caliper
	}
	return max(between+turned, p.spec.Spine.Contents)+p.spec.Closing.Ease <= s.roomOf(&all[0])
}
