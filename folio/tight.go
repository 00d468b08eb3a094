package folio

import (
	"iter"
	"math"

	"boardwrap.example/internal/word"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Meeting is a pair of faces that come to lie on each other when the folio is
// closed.
type Meeting uint8

// Meetings.
const (
	// BetweenCovers is the left cover, or both doors, on the right cover or
	// the back.
	BetweenCovers Meeting = iota
	// UnderFlap is the flap on the outside of the front cover.
	UnderFlap
	// BesideSpine is what stands on a spine board, against the covers at its
	// side and what they carry.
	BesideSpine
	// AtForeEdge is the fore edge of the front cover against the second spine
	// board of a fore-edge flap.
	AtForeEdge
)

var meetings = word.List{What: "meeting", Words: []string{BetweenCovers: "between the covers", UnderFlap: "under the flap", BesideSpine: "beside the spine", AtForeEdge: "at the fore edge"}}

// String returns it in words.
func (m Meeting) String() string { return meetings.String(uint8(m)) }

// AppendText appends the text of [Meeting.String]. The error matches
// units.ErrUnknown.
func (m Meeting) AppendText(dst []byte) ([]byte, error) { return meetings.Append(dst, uint8(m)) }

// MarshalText returns the text of [Meeting.String], with the error of
// [Meeting.AppendText].
func (m Meeting) MarshalText() ([]byte, error) { return meetings.Marshal(uint8(m)) }

// UnmarshalText reads what [Meeting.String] writes. The error matches
// units.ErrSyntax.
func (m *Meeting) UnmarshalText(text []byte) error { return word.Unmarshal(meetings, m, text) }

// A Thing is something that stands at the tightest place.
type Thing struct {
	fitting int
	name    string
	height  units.Length
}

// Fitting returns its place in [Plan.Fittings], −1 and false for the block, the
// turn-ins and the contents of the Spec.
func (t Thing) Fitting() (int, bool) { return max(t.fitting, ofBlock), t.fitting >= 0 }

// Name returns what it is called.
func (t Thing) Name() string { return t.name }

// Height returns how much it adds at the place.
func (t Thing) Height() units.Length { return t.height }

// A Tight is the tightest place of a closed folio: where what stands on facing
// panels, added up, leaves the least of the room.
type Tight struct {
	meeting           Meeting
	panel             Role
	place             units.Rect
	things            []Thing
	stack, room, left units.Working
	do                units.Working
	ease              units.Length
}

// Meeting returns which faces meet there.
func (t Tight) Meeting() Meeting { return t.meeting }

// Place returns the rectangle where all the things lie over each other, on the
// row as it lies open, seen on the board that is returned with it: what sits
// on the facing panel is mirrored on to it. It is empty where nothing lies
// between.
func (t Tight) Place() (units.Rect, Role) { return t.place, t.panel }

// Things walks what lies there, in the order of the fittings.
func (t Tight) Things() iter.Seq[Thing] { return walk(t.things) }

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
// ruler, and the second spine under a flap. It answers for this place alone.
func (t Tight) WouldDo() units.Working { return t.do }

// String returns one sentence with the numbers.
func (t Tight) String() string {
	n := t.room.Rounded().Ruler.Notation()
	var dst []byte
	if t.meeting == AtForeEdge {
		dst = append(dst, "the fore edge of the front cover "...)
		if t.Closes() {
			dst = n.Append(dst, t.left.Length(), false)
			return string(append(dst, " from the second spine board"...))
		}
		dst = n.Append(dst, -t.left.Length(), false)
		return string(append(dst, " too far out, in the second spine board"...))
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
	dst = n.Append(dst, t.room.Length(), false)
	dst = append(dst, ' ')
	dst = append(dst, t.meeting.String()...)
	if t.Closes() {
		dst = append(dst, ": "...)
		dst = n.Append(dst, t.left.Length(), false)
		return string(append(dst, " left"...))
	}
	dst = append(dst, ": "...)
	dst = n.Append(dst, -t.left.Length(), false)
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
	return s.tight(s.tightest(full)), true
}

// underFlap returns the part of a rectangle, mirrored on to the main panel,
// where the flap and the front cover lie over each other: as far as the flap's
// covered edge reaches, and no further than the back of the spine.
func (s shut) underFlap(r units.Rect) units.Rect {
	p := s.p
	flap, main := p.index(Flap), p.index(MainPanel)
	board := units.Rect{Min: units.Point{X: p.boards[flap].rect.Min.X}, Max: units.Point{X: p.boards[flap].rect.Min.X + p.panelWidth(flap)}}
	covering := p.spec.Covering.Caliper
	edge := p.mirrored(board, Flap).Min.X - covering
	if expected := p.gaps[0].planned.Length() + p.spec.Placing; expected > s.wide {
		s.wide = expected // so that a cover as it is expected closes too
	}
	back := p.boards[main].rect.Min.X - s.out(units.Up) - covering
	r.Min.X = max(r.Min.X, edge, back)
	return r
}

// A pinch is a tightest place before it is written down.
type pinch struct {
	meeting     Meeting
	panel       Role
	spine       Role // beside which there is
	stands      int  // this fitting
	stack, room units.Length
	place       units.Rect
	cells       []cell
	contents    bool // the contents of the Spec, without a place
}

func (h pinch) left() units.Length { return h.room - h.stack }

// ease is what is to be left there: the ease given, or nothing where only the
// block and the case itself lie, which is what published spine rules go round.
func (h pinch) ease(given units.Length) units.Length {
	if h.meeting == BesideSpine {
		return given
	}
	for _, c := range h.cells {
		if c.fitting >= 0 {
			return given
		}
	}
	return 0
}

// between returns the tightest place between the covers, of what the plan
// holds.
func (s shut) between(full bool) pinch {
	p := s.p
	var buf [16]cell
	cells := buf[:0]
	p.heights(full, func(h Height) bool {
		if p.facing(h.panel, h.outside) == facesMain {
			cells = append(cells, cell{p.mirrored(h.rect, h.panel), h.height, h.fitting})
		}
		return true
	})
	out := pinch{meeting: BetweenCovers, panel: p.spec.Form.main(), room: s.room(), cells: cells}
	out.stack, out.place = greatest(cells)
	return out
}

// tightest finds the tightest of all meetings.
func (s shut) tightest(full bool) pinch {
	all := s.withContents(full)
	out := all[0]
	for _, h := range all[1:] {
		if h.left() < out.left() {
			out = h
		}
	}
	return out
}

// worst finds the meeting, full, that lacks the most of what is to be left there.
func (s shut) worst() pinch {
	all, ease := s.withContents(true), s.p.spec.Closing.Ease
	out := all[0]
	for _, h := range all[1:] {
		if h.left()-h.ease(ease) < out.left()-out.ease(ease) {
			out = h
		}
	}
	return out
}

// withContents is pinches, with the contents of the Spec between the covers where
// they are thicker than what the plan holds there.
func (s shut) withContents(full bool) []pinch {
	all := s.pinches(full)
	if c := s.p.spec.Spine.Contents; full && c > all[0].stack {
		h := &all[0]
		h.stack, h.place, h.cells, h.contents = c, units.Rect{}, nil, true
	}
	return all
}

// pinches returns the tightest place of each meeting: between the covers first,
// then under the flap and at the fore edge, then beside a spine, one for each
// thing that stands there.
func (s shut) pinches(full bool) []pinch {
	p := s.p
	all := append(make([]pinch, 0, 3), s.between(full))
	var under []cell
	var standing []Height
	p.heights(full, func(h Height) bool {
		switch p.facing(h.panel, h.outside) {
		case facesFlap:
			if r := s.underFlap(p.mirrored(h.rect, h.panel)); !r.Empty() {
				under = append(under, cell{r, h.height, h.fitting})
			}
		case facesSpine:
			standing = append(standing, h)
		}
		return true
	})
	if p.spec.Form == ForeEdgeFlap {
		p.lapped(LeftCover, func(h Height) bool {
			if r := s.underFlap(p.mirrored(h.rect, h.panel)); !r.Empty() {
				under = append(under, cell{r, h.height, h.fitting})
			}
			return true
		})
		h := pinch{meeting: UnderFlap, panel: p.spec.Form.main(), room: s.flapRoom(), cells: under}
		h.stack, h.place = greatest(under)
		all = append(all, h, s.foreEdge())
	}
	for _, h := range stacked(standing) {
		if b, ok := s.beside(h, full); ok {
			all = append(all, b)
		}
	}
	return all
}

// foreEdge is what lies between the fore edge of the front cover and the second
// spine board: the main panel reaches as much further as its hinge does, and the
// spine board stands there with its liner and turn-ins.
func (s shut) foreEdge() pinch {
	p := s.p
	spec := &p.spec
	h := pinch{meeting: AtForeEdge, panel: Spine2,
		room: p.width(RightCover) + s.out(units.Down) - spec.Board.Caliper - spec.Liner.Caliper - p.width(LeftCover) - spec.Covering.Caliper}
	p.turned(func(t Height) bool {
		if t.panel == Spine2 {
			h.cells = append(h.cells, cell{t.rect, t.height, t.fitting})
		}
		return true
	})
	h.stack, h.place = greatest(h.cells)
	return h
}

type facing uint8

const (
	facesNothing facing = iota
	facesMain
	facesFlap
	facesSpine
)

// facing says what a face of a board meets when the folio is closed.
func (p *Plan) facing(r Role, outside bool) facing {
	switch {
	case outside && r == LeftCover && p.spec.Form == ForeEdgeFlap:
		return facesFlap
	case outside:
		return facesNothing
	case r.Spine():
		return facesSpine
	case r == Flap:
		return facesFlap
	}
	return facesMain
}

// mirrored returns a rectangle on a board where it lies on the main panel when
// the folio is closed: mirrored about the middle of the spine between them.
func (p *Plan) mirrored(r units.Rect, role Role) units.Rect {
	spine := Spine1
	switch role {
	case p.spec.Form.main():
		return r
	case Flap, RightDoor:
		spine = Spine2
	}
	var sum units.Length
	if i := p.index(spine); i >= 0 {
		sum = 2*p.boards[i].rect.Min.X + p.panelWidth(i)
	} else {
		sum = p.boards[0].rect.Min.X + p.panelWidth(0) + p.boards[1].rect.Min.X
	}
	r.Min.X, r.Max.X = sum-r.Max.X, sum-r.Min.X
	return r
}

// beside checks something that stands on a spine board against the covers at
// both sides of it and what they carry, and reports whether it reaches as far.
//
// Closed, the spine board stands across the covers. Measured along a cover from
// the wrong side of the covering on the spine, what stands on the spine takes
// from the liner up, board + liner to board + liner + its height; a cover
// begins where its hinge ends. Where both overlap, what the cover carries must
// be lower than the way from its liner to the thing on the spine.
func (s shut) beside(h Height, full bool) (pinch, bool) {
	p := s.p
	i := p.index(h.panel)
	if i < 1 || i+1 >= len(p.boards) {
		return pinch{}, false
	}
	base := p.spec.Board.Caliper + p.spec.Liner.Caliper
	reach := base + h.height
	in, out := s.in(units.Down), s.out(units.Down)
	var found pinch
	ok := false
	// side is the clear way to the liner of one cover, and the cells of that
	// cover as far as they lie in the way.
	side := func(board int, room units.Length) {
		if reach <= out {
			return
		}
		x, w := p.boards[board].rect.Min.X, p.panelWidth(board)
		var cells []cell
		p.heights(full, func(o Height) bool {
			if o.outside || o.panel != p.boards[board].role || o.rect.Max.Y <= h.rect.Min.Y || h.rect.Max.Y <= o.rect.Min.Y {
				return true
			}
			from := out + o.rect.Min.X - x
			if board < i {
				from = out + x + w - o.rect.Max.X
			}
			if from < reach {
				c := cell{o.rect, o.height, o.fitting}
				// Only the part in the way counts.
				c.rect.Min.Y, c.rect.Max.Y = max(o.rect.Min.Y, h.rect.Min.Y), min(o.rect.Max.Y, h.rect.Max.Y)
				if board < i {
					c.rect.Min.X = max(c.rect.Min.X, x+w+out-reach)
				} else {
					c.rect.Max.X = min(c.rect.Max.X, x-out+reach)
				}
				cells = append(cells, c)
			}
			return true
		})
		b := pinch{meeting: BesideSpine, panel: p.boards[board].role, spine: h.panel, stands: h.fitting, room: room, cells: cells}
		b.stack, b.place = greatest(cells)
		if !ok || b.left() < found.left() {
			found, ok = b, true
		}
	}
	x, w := p.boards[i].rect.Min.X, p.panelWidth(i)
	left := h.rect.Min.X - x + in - base
	right := x + w - h.rect.Max.X + in - base
	side(i-1, left)
	side(i+1, right)
	if h.panel == Spine2 && p.spec.Form == ForeEdgeFlap && reach > out-p.spec.Covering.Caliper {
		// The fore edge of the front cover comes between, with what it
		// carries: from the main panel up, its liner begins after the room
		// between the covers.
		slab := p.spec.Board.Caliper + p.spec.Liner.Caliper + p.outer()
		below, above := s.atForeEdge(h, reach, full)
		low := s.room() - below
		high := s.room() + slab + above
		// The main panel lies left of the second spine.
		free := max(low-left-h.rect.Size().W, left-high)
		b := pinch{meeting: BesideSpine, panel: LeftCover, spine: h.panel, stands: h.fitting, room: free}
		if !ok || b.left() < found.left() {
			found, ok = b, true
		}
	}
	return found, ok
}

// atForeEdge returns how high the front cover stands up inside and outside
// where something on the second spine reaches over it.
func (s shut) atForeEdge(h Height, reach units.Length, full bool) (inside, outside units.Length) {
	p := s.p
	i := p.index(LeftCover)
	x, out := p.boards[i].rect.Min.X, s.out(units.Down)
	var in, on []cell
	add := func(o Height) bool {
		if o.panel != LeftCover || o.rect.Max.Y <= h.rect.Min.Y || h.rect.Max.Y <= o.rect.Min.Y || out+o.rect.Min.X-x >= reach {
			return true
		}
		c := cell{o.rect, o.height, o.fitting}
		c.rect.Min.Y, c.rect.Max.Y = max(o.rect.Min.Y, h.rect.Min.Y), min(o.rect.Max.Y, h.rect.Max.Y)
		c.rect.Max.X = min(c.rect.Max.X, x-out+reach)
		if o.outside {
			on = append(on, c)
		} else {
			in = append(in, c)
		}
		return true
	}
	p.heights(full, add)
	p.lapped(LeftCover, add)
	inside, _ = greatest(in)
	outside, _ = greatest(on)
	return inside, outside
}

// tight writes a pinch down.
func (s shut) tight(h pinch) Tight {
	p := s.p
	spec := &p.spec
	exact := p.Notation().Exact()
	t := Tight{meeting: h.meeting, panel: h.panel, place: h.place, ease: h.ease(spec.Closing.Ease)}
	var g units.Ledger
	closed := s.closedIn(&g)
	switch h.meeting {
	case UnderFlap:
		t.room = closed.under
	case AtForeEdge:
		t.room = g.Sum("room at the fore edge", exact, units.Nearest, units.T("main panel", p.width(RightCover)), units.T("past it to the second spine", s.out(units.Down)),
			units.N(-1, "board caliper", spec.Board.Caliper), units.N(-1, "liner caliper", spec.Liner.Caliper),
			units.N(-1, "front cover", p.width(LeftCover)), units.N(-1, "covering caliper", spec.Covering.Caliper))
	case BesideSpine:
		t.room = g.Sum("room beside the "+h.spine.String(), exact, units.Nearest, units.T("from the "+h.panel.String()+" to "+p.fitted[h.stands].Label(), h.room))
	default:
		t.room = closed.between
	}
	if h.contents {
		t.things = []Thing{{-1, "contents", h.stack}}
	}
	for i := range h.cells {
		if c := &h.cells[i]; !h.place.Empty() && c.over(h.place.Min) {
			t.add(p, c)
		}
	}
	var buf [8]units.Term
	terms := buf[:0]
	for _, th := range t.things {
		terms = append(terms, units.T(th.name, th.height))
	}
	if len(terms) == 0 {
		terms = append(terms, units.T("nothing", 0))
	}
	t.stack = g.Sum("stack", exact, units.Nearest, terms...)
	t.left = g.Sum("room left", exact, units.Nearest, units.T("room", t.room.Length()), units.N(-1, "stack", t.stack.Length()))
	more := [...]units.Term{units.T("stack", h.stack), units.T("ease", spec.Closing.Ease), units.N(-1, "room", h.room)}
	switch {
	case h.meeting == AtForeEdge:
		t.do = g.Sum("gap that would do", spec.Rulers.Gap, units.Up, units.T("gap", s.gap), units.T("what it lacks, by the way it bends", s.wider(h.stack-h.room)))
	case h.meeting == BetweenCovers && s.soft() && s.bend == CreaseRound:
		around := h.stack + spec.Closing.Ease + 2*spec.Board.Caliper + 2*spec.Liner.Caliper
		t.do = g.Sum("gap that would do", spec.Rulers.Gap, units.Up, units.T("half of the girth of a round back", roundBack(around)))
	case h.meeting == BetweenCovers && s.soft():
		t.do = g.Sum("gap that would do", spec.Rulers.Gap, units.Up, units.T("gap", s.gap), more[0], more[1], more[2])
	case h.meeting == UnderFlap:
		t.do = g.Sum("second spine that would do", spec.Rulers.Board, units.Up, units.T("second spine", p.width(Spine2)), more[0], more[1], more[2])
	case h.meeting == BesideSpine:
		// What stands in the middle of a spine gains half of what is added.
		t.do = g.Sum(h.spine.String()+" that would do", spec.Rulers.Board, units.Up, units.T(h.spine.String(), p.width(h.spine)),
			units.N(2, "stack", h.stack), units.N(2, "ease", spec.Closing.Ease), units.N(-2, "room", h.room))
	default:
		t.do = g.Sum("spine that would do", spec.Rulers.Board, units.Up, units.T("spine", p.width(Spine1)), more[0], more[1], more[2])
	}
	return t
}

// wider returns how much wider a gap must be for its hinge to reach so much
// further past the board.
func (s shut) wider(by units.Length) units.Length {
	switch {
	case s.bend == CreaseTwo:
		return portion(by, math.Sqrt2, units.Up)
	case s.bend == CreaseRound:
		return portion(by, halfPi, units.Up)
	case s.p.spec.Hinge.Crease == CreaseMidGap:
		return 2 * by
	}
	return by
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
	t.things = append(t.things, Thing{})
	copy(t.things[at+1:], t.things[at:])
	t.things[at] = Thing{c.fitting, name, c.height}
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
	if form := b.spec.Form; form == DoubleSpineGate {
		free := p.width(Back) - p.width(LeftDoor) - p.width(RightDoor)
		if need := 2 * b.spec.Covering.Caliper; free < need {
			b.warn(check.Warning{Path: "doorgap", Code: WarnDoors, Got: free, Want: need,
				Text: "the doors leave " + n.Text(free) + " between their boards, and their covered edges take " + n.Text(need)})
		}
	}
	if s.surely() {
		return
	}
	h := s.worst()
	if h.left() >= h.ease(b.spec.Closing.Ease) {
		return
	}
	alone := h.ease(units.Millimetre) == 0 && h.meeting == BetweenCovers
	t := s.tight(h)
	if h.left() >= 0 {
		b.warn(check.Warning{Path: b.closingPath(h), Code: WarnEase, Got: h.left(), Want: b.spec.Closing.Ease,
			Text: t.where(p) + ", nearer than the ease of " + n.Text(b.spec.Closing.Ease)})
		return
	}
	// The least crease that gives the room, if one does.
	if far, ok := p.furthest(); ok && h.meeting == BetweenCovers && far.room() >= h.stack && far.room() > s.room() {
		text := "with the crease as planned there is no room: " + t.where(p)
		if s.soft() {
			text += "; a flat back, creased at the covers' edges, has it"
		} else {
			text += "; creased at least " + n.Text((h.stack - far.room() + 2*far.x).Half(units.Up)) + " from the spine board's edge it closes"
		}
		b.warn(check.Warning{Path: "hinge.crease", Code: WarnCrease, Got: s.room(), Want: h.stack, Text: text})
		return
	}
	if near := (shut{p: p, bend: CreaseAtOffset, gap: s.gap, wide: s.wide}); h.meeting == AtForeEdge && near.foreEdge().left() >= 0 {
		b.warn(check.Warning{Path: "hinge.crease", Code: WarnCrease, Got: h.room, Want: h.stack,
			Text: "with the crease as planned " + t.String() + "; creased at the edges of the spine boards it closes"})
		return
	}
	if alone && b.spec.Spine.Width == 0 && !s.soft() {
		b.warn(check.Warning{Path: "spine.rule", Code: WarnSpine, Got: h.room, Want: h.stack,
			Text: "the rule " + b.spec.Spine.Rule.String() + " leaves less room than the contents take: " + t.where(p)})
		return
	}
	if p.measured != nil {
		b.closesAsMade(h, t)
		return
	}
	path, limit := b.closingPath(h), t.do.Length()
	v := check.Violation{Path: path, Code: NotClosing, Fault: check.Impossible, Got: t.where(p), Bound: check.AtLeast, By: -h.left()}
	switch {
	case h.meeting == BesideSpine:
		v.Bound = check.NoBound
		v.Want = "something lower or narrower on the " + h.spine.String() + ", or a " + h.spine.String() + " of at least " + n.Bound(limit, units.Up)
	case h.meeting == UnderFlap:
		limit = b.spec.Rulers.Board.Up(b.spec.Closing.UnderFlap + h.stack + b.spec.Closing.Ease - h.room)
		v.Want = "at least " + n.Bound(limit, units.Up) + ", which makes the second spine " + n.Text(t.do.Length())
	case path == "spine.contents" && s.soft():
		limit = b.spec.Rulers.Gap.Up(h.stack + b.spec.Closing.Ease - b.spec.under())
		v.Want = "at least " + n.Bound(limit, units.Up) + ", which makes the gap " + n.Text(t.do.Length())
	case path == "spine.contents":
		limit += b.spec.goesRound() - p.width(Spine1)
		v.Want = "at least " + n.Bound(limit, units.Up) + ", which makes the spine " + n.Text(t.do.Length())
	case s.soft(), h.meeting == AtForeEdge:
		v.Want = "a gap of at least " + n.Bound(limit, units.Up)
	default:
		v.Want = "a spine of at least " + n.Bound(limit, units.Up)
	}
	if isRule(path) {
		v.Bound, v.Want = check.NoBound, instead(path)+" of at least "+n.Bound(limit, units.Up)+", or a rule that gives as much"
	}
	if v.Limit = limit; v.Bound == check.NoBound {
		v.Limit, v.By = 0, 0
	}
	b.bad.Add(v)
}

// closesAsMade says what does not go between covers as they are made: a fitting,
// which is inside and can be changed, or else it is warned about.
func (b *builder) closesAsMade(h pinch, t Tight) {
	n := b.notation()
	tallest, most := -1, -units.Longest
	if h.meeting == BesideSpine {
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
	return text + ", at " + n.Text(t.place.Min.X-x) + " to " + n.Text(t.place.Max.X-x) + " from the left and " +
		n.Text(t.place.Min.Y) + " to " + n.Text(t.place.Max.Y) + " from the head of the " + t.panel.String()
}

// closingPath is the field that decides on the room of a meeting.
func (b *builder) closingPath(h pinch) string {
	switch {
	case h.meeting == UnderFlap:
		return "closing.underflap"
	case h.meeting == BesideSpine:
		return "fittings"
	case h.meeting == AtForeEdge:
		return b.spec.gapPath()
	case b.spec.Form == SoftSpine && b.spec.Hinge.Rule != HingeRoundContents:
		return b.spec.gapPath()
	case b.spec.Form == SoftSpine, b.spec.Spine.Width == 0:
		return "spine.contents"
	}
	return "spine.width"
}

// surely reports whether everything at its thickest, all of it in one place,
// leaves the ease. Fittings that stand on a spine, and a flap, take a closer
// look.
func (s shut) surely() bool {
	p := s.p
	if p.spec.Form == ForeEdgeFlap {
		return false
	}
	film := p.spec.Closing.Adhesive.Caliper
	between := p.spec.Block.Thickness
	for i := range p.fitted {
		f := &p.fitted[i]
		switch p.facing(f.panel, f.fitting.Outside) {
		case facesMain:
			// A mat and its picture are both stuck down.
			between += f.full + 2*film
		case facesSpine:
			return false
		}
	}
	// At most two turn-ins of each material lie over one place of a board.
	turned := 4 * p.spec.Covering.Caliper
	if p.wrap.quarter {
		turned += 4 * p.spec.SpineCovering.Caliper
	}
	return max(between+turned, p.spec.Spine.Contents)+p.spec.Closing.Ease <= s.room()
}
