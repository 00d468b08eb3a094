package folio

import (
	"math"

	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/internal/quote"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A passing is two lumps side by side, of which the one turns past the other while
// its board is folded over and meets it on the way. The near one, nearer to the fold,
// lies on the board that turns.
//
// Or what stands on a spine board, as that turns up, meets the edge of what lies over
// the board beside it and reaches over its place: the same seen from the side, with
// what is across and what is up changed for each other, and the spine board for the one
// that turns.
//
// A corner of what turns moves on a circle about the crease. Seen from the crease,
// with q the far edge of the near one, a how deep it reaches, y the near edge of the
// other and d how deep its top lies, the corner comes down to that top at a distance
// of √(q² + a² − d²), and of √(q² + a²) where the top lies above the crease: there it
// must not be past y (derived). Where a hinge bends in two creases or in a round, all of
// it alike at any time, the crease next to the board moves out and up as that comes down.
type passing struct {
	near, far  *lump
	q, a, y, d units.Length
	arm        arm
	board      bool // the near one is a board or a fold itself
	spine      bool // it stands on a spine board
}

// An arm is what carries the crease next to a board that turns, where that is not the
// only one: so long a part of the hinge, flat or bent round. It turns by half of what the
// board does, a right angle or, at a soft joint, two.
type arm struct {
	length       units.Length
	round, twice bool
}

// Where the crease moves, samples is how many places of a turn are looked at: between two
// of them a corner that is 100 mm away strays from its way by 0.002 mm. That is done for
// mostSampled pairs; others are taken to turn about the board's edge, and what may be too
// much to ask of them is said too. mostPassings are told one by one.
const (
	samples      = 128
	mostSampled  = 2000
	mostPassings = 20
)

// meets reports whether the corner comes past the other's edge.
func (g *passing) meets() bool {
	if may := g.may(); !may || g.arm.length == 0 {
		return may
	}
	right := math.Pi / 2
	if g.arm.twice {
		right = math.Pi
	}
	q, a, y, d := float64(g.q), float64(g.a), float64(g.y), float64(g.d)
	endOut, endUp := g.arm.at(right, 0)
	past, below := q-y, a-d // of the other's edge, its top
	for i := 1; i < samples; i++ {
		open := right * float64(i) / samples
		sin, cos := math.Sincos(open)
		out, up := g.arm.at(right, open)
		wasPast, wasBelow := past, below
		past, below = q*cos+a*sin+out-endOut-y, a*cos-q*sin-up+endUp-d
		// On the way from one place to the next it may come round the edge, or not.
		if past > 0 && (below > 0 || wasBelow > 0 && past*wasBelow > wasPast*below) {
			return true
		}
	}
	return false
}

// reach returns the square of how far a corner that is so far out comes about a crease
// that does not move.
func (g *passing) reach(q units.Length) units.Area {
	d := max(0, g.d)
	return q.By(q).Plus(g.a.By(g.a)).Minus(d.By(d))
}

// may reports whether they might meet however the crease moves. The board comes from
// above and from further in than about its edge alone; but the two creases of a soft joint
// lower a thing that is much higher than it is far from them a little, for which it counts
// as a third of its height.
func (g *passing) may() bool {
	return g.a > max(0, g.d) && g.y >= 0 && g.reach(g.about()).Compare(g.y.By(g.y)) > 0
}

// about returns how far out the corner is, as may counts it.
func (g *passing) about() units.Length {
	if g.arm.twice {
		return max(g.q, portion(g.a, 1.0/3, units.Up))
	}
	return g.q
}

// at returns where an arm ends, out and up from where it begins, with the board still
// open by an angle out of all that it turns, in nanometres and parts of one.
func (a arm) at(all, open float64) (out, up float64) {
	along := float64(a.length)
	if half := (all - open) / 2; a.round {
		along *= math.Sin(half) / half
	}
	sin, cos := math.Sincos((all + open) / 2)
	return along * cos, along * sin
}

// least returns the least length for which enough holds, of those up to most.
func least(most units.Length, enough func(units.Length) bool) units.Length {
	var low units.Length
	high := most
	for low < high {
		if mid := low + (high - low).Half(units.Down); enough(mid) {
			high = mid
		} else {
			low = mid + 1
		}
	}
	return high
}

// told returns which of the two is told to move: the far one if it is a fitting, but beside
// what stands on a spine, which alone moves that way.
func (g *passing) told() *lump {
	if g.far.of < 0 || g.spine && g.near.of >= 0 {
		return g.near
	}
	return g.far
}

// further returns how much further apart they would pass each other, when the one is
// moved that is told of.
func (g *passing) further() units.Length {
	return least(g.q+g.a-g.y, func(l units.Length) bool {
		moved := *g
		if g.told() == g.far {
			moved.y += l
		} else {
			moved.q -= l
		}
		return !moved.meets()
	})
}

// lower returns how much lower the near one would have to be, or the far one; where
// both stand on boards that lie, whichever. It is 0 where neither can be: turn-ins,
// boards and folds are as they are.
func (g *passing) lower() (by units.Length, which string) {
	low := [2]bool{g.near.stands(), g.far.stands() && !g.spine}
	switch {
	case low[0] && low[1]:
		which = "either of them"
	case low[0] && g.far.stands():
		which = "the first of them"
	case low[0]:
		which = g.near.called()
	case low[1]:
		which = g.far.called()
	default:
		return
	}
	return least(g.a-g.d, func(l units.Length) bool {
		near, far := *g, *g
		near.a -= l
		far.d += l
		return !(low[0] && near.meets()) && !(low[1] && far.meets())
	}), which
}

// A swing is a fold as it is made: the boards that turn with it and those that lie
// still, of each only what lies as it does in the end. Or it is what stands on the
// spine board of a fold, which turns past what lies on one side of it.
type swing struct {
	spine        bool
	moves, still meets
	crease       [2]units.Length // next to what turns, in the end, across and up
	right, below bool            // the board lies to the right of it, and turned over from below
	arm          arm
}

// swings returns the folds in the order in which they are made, and the spine boards
// on which something stands.
func (s *shut) swings(z *sizing, spines meets) []swing {
	f := &s.p.folded
	out := make([]swing, 0, f.n-1)
	var made [boards.MaxBoards - 1]bool
	joined := func(from, by int) meets {
		m := meets(1 << from)
		for k := from; ; k += by {
			fold := min(k, k+by)
			if fold < 0 || fold >= f.n-1 || !made[fold] {
				return m
			}
			m |= 1 << (k + by)
		}
	}
	for _, turned := range f.turns[:f.n-1] {
		k := int(turned)
		sides := [2]meets{joined(k, -1), joined(k+1, 1)}
		which := 0 // of the two boards turns
		if k >= f.main {
			which = 1
		}
		w := swing{moves: sides[which], still: sides[1-which]}
		w.hinge(s, z, k, which)
		out = append(out, w)
		for side := range 2 {
			if spines.has(k) {
				w := swing{spine: true, moves: 3 << k, still: sides[side]}
				w.hinge(s, z, k, side)
				out = append(out, w)
			}
		}
		made[k] = true
	}
	return out
}

// hinge says how the boards on the two sides of a hinge of a fold turn against each
// other: the hinge at the board on one side of the fold.
func (w *swing) hinge(s *shut, z *sizing, fold, side int) {
	f := &s.p.folded
	board := fold + side
	joint, far := f.between(fold)
	if side == 1 {
		joint = far
	}
	w.crease = [2]units.Length{z.at[fold], s.level(board)}
	w.right, w.below = z.right(fold), f.rank[board] < f.rank[2*fold+1-board]
	switch b := s.j[joint]; {
	case b.soft && b.bend != rule.CreaseRound:
		w.arm = arm{length: b.span(units.Down), twice: true}
	case b.bend == rule.CreaseTwo || b.bend == rule.CreaseRound:
		w.arm = arm{b.gap, b.bend == rule.CreaseRound, b.soft}
		switch {
		case !w.spine && w.right:
			w.crease[0] = z.x[board][1]
		case !w.spine:
			w.crease[0] = z.x[board][0]
		default: // the crease next to the spine board
			end := 1
			if w.below {
				end = 0
			}
			w.crease[1] = s.upright(fold)[end]
		}
	}
}

// passings returns, of all that stands on boards or is an edge of one, what meets
// something as it turns past it: the worst for each thing that it meets.
func (s *shut) passings() []passing {
	p, f := s.p, &s.p.folded
	z := s.lies()
	lumps := s.standing(z, s.lumps(z, 0), true)
	own := 2*f.n - 1 // boards and folds
	on := make([]meets, len(lumps))
	var spines meets
	for i := range lumps {
		switch k := f.lies(p.index(lumps[i].panel)); {
		case i < f.n:
			on[i] = 1 << i
		case i < own:
			on[i] = 3 << (i - f.n)
		case k >= 0:
			on[i] = 1 << k
		default:
			fold := p.foldAt(lumps[i].panel)
			on[i] = 3 << fold
			spines |= 1 << fold
		}
	}
	var out []passing
	var still []int
	var moves []passing
	sampled := 0
	for _, w := range s.swings(z, spines) {
		still, moves = still[:0], moves[:0]
		for i := range lumps {
			switch l := &lumps[i]; {
			case on[i]&^w.still == 0:
				still = append(still, i)
			case w.spine && (i < own || on[i] != w.moves):
			case on[i]&^w.moves == 0:
				if g := w.turned(l); g.a > 0 {
					g.board = i < own
					moves = append(moves, g)
				}
			}
		}
		for _, i := range still {
			var worst passing
			along, deep := w.seen(&lumps[i])
			y, d := along[0], deep[0]
			for j := range moves {
				m := &moves[j]
				if y < m.q || y > m.about()+m.a || i < own && m.board || apart(lumps[i].y, m.near.y) {
					continue
				}
				g := *m
				g.far, g.y, g.d = &lumps[i], y, d
				if !g.may() || worst.near != nil && g.reach(g.q).Compare(worst.reach(worst.q)) <= 0 {
					continue
				}
				if g.arm.length > 0 {
					if sampled++; sampled > mostSampled {
						g.arm = arm{}
					}
				}
				if g.meets() {
					worst = g
				}
			}
			if worst.near != nil {
				out = append(out, worst)
			}
		}
	}
	return out
}

// turned puts a lump that turns down as it is seen from the crease.
func (w *swing) turned(near *lump) passing {
	along, deep := w.seen(near)
	return passing{near: near, arm: w.arm, spine: w.spine, q: along[1], a: deep[1]}
}

// seen returns where a lump begins and ends as it is seen from the crease: along what
// turns, and deep.
func (w *swing) seen(l *lump) (along, deep [2]units.Length) {
	along, deep = [2]units.Length{l.x[0] - w.crease[0], l.x[1] - w.crease[0]}, [2]units.Length{l.z[0] - w.crease[1], l.z[1] - w.crease[1]}
	if w.right {
		along = [2]units.Length{-along[1], -along[0]}
	}
	if !w.below {
		deep = [2]units.Length{-deep[1], -deep[0]}
	}
	if w.spine {
		return deep, along
	}
	return along, deep
}

// passes warns of what meets on the way, in a folio that closes. Of a thing that is here
// higher than there, as over a turn-in, more than one place may meet the same: it is told of
// the one that asks for the most, and how much lower all of them are to be.
func (b *builder) passes(s *shut) {
	if len(b.plan.fitted) == 0 {
		return
	}
	type worst struct {
		g              *passing
		further, lower units.Length
		which          string
	}
	n := b.notation()
	told := map[[2]string]int{}
	var all [mostPassings]worst
	list := s.passings()
	for i := range list {
		g := &list[i]
		names := [2]string{g.near.called(), g.far.called()}
		at, known := told[names]
		if !known {
			at = len(told)
			told[names] = at
		}
		if at >= mostPassings {
			continue
		}
		w := &all[at]
		if by := g.further(); w.g == nil || by > w.further {
			w.g, w.further = g, by
		}
		if by, which := g.lower(); by > w.lower {
			w.lower, w.which = by, which
		}
	}
	for i := range min(len(told), mostPassings) {
		w := &all[i]
		g := w.g
		touches, comes := " touches ", "it comes"
		if g.near.of == ofTurnIns {
			touches, comes = " touch ", "they come"
		}
		apart := g.y - g.q
		would := apart + w.further
		text := "as the boards are folded over, " + g.near.called() + touches + g.far.called() + ", beside which " + comes + " to lie: " +
			n.Bound(apart, units.Down) + " between them is too little, " + n.Bound(would, units.Up) + " would do"
		if w.which != "" {
			text += ", or " + w.which + " lower by " + n.Bound(w.lower, units.Up)
		}
		b.warn(check.Warning{Path: b.passingPath(g), Code: WarnPassing, Got: apart, Want: would, Text: text})
	}
	if more := len(told) - mostPassings; more > 0 {
		b.warn(check.Warning{Path: "fittings", Code: WarnPassing, Text: "as the boards are folded over, " + count(more) + " more things touch what they come to lie beside"})
	}
}

// passingPath is where it is said how far apart the two lie: by the place of the one that
// is told to move; else by the block, else by how wide boards are.
func (b *builder) passingPath(g *passing) string {
	switch told := g.told(); {
	case told.of >= 0:
		return fittingPath(told.of) + ".place"
	case max(g.near.of, g.far.of) == ofBlock:
		return "block"
	case b.spec.Row.Given():
		at := g.far.panel
		if at == boards.MainPanel { // a fold has no board of its own
			at = g.near.panel
		}
		return check.Index("row.boards", b.plan.index(at)) + ".width"
	}
	if b.plan.shape.ruled(boards.WidthShared) > 0 {
		return "doorgap"
	}
	return "cover.w"
}

// called is how a lump is called in a sentence.
func (l *lump) called() string {
	switch l.of {
	case ofTurnIns:
		return "the turn-ins on the " + l.name
	case ofBoard, ofBlock:
		return "the " + l.name
	}
	return quote.Clip(l.name, quote.Most)
}
