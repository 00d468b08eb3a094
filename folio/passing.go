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
// A corner of what turns moves on a circle about the crease. Seen from the crease,
// with q the far edge of the near one, a how deep it reaches, y the near edge of the
// other and d how deep its top lies, the corner comes down to that top at a distance
// of √(q² + a² − d²), and of √(q² + a²) where the top lies above the crease: there it
// must not be past y (derived). Where a hinge bends in two creases or in a round, all of
// it alike at any time, the crease next to the board moves out and up as that comes down.
type passing struct {
	near, far  *lump
	q, a, y, d units.Length
	most       units.Length // how far the corner can come, whatever lies there
	arm        arm
	board      bool // the near one is a board or a fold itself
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
	switch {
	case g.a <= 0 || g.a <= g.d || g.y < 0:
		return false
	case g.arm.length == 0:
		return g.reach(g.q).Compare(g.y.By(g.y)) > 0
	}
	right := math.Pi / 2
	if g.arm.twice {
		right = math.Pi
	}
	end := g.arm.at(right, 0)
	for i := 1; i < samples; i++ {
		open := right * float64(i) / samples
		sin, cos := math.Sincos(open)
		now := g.arm.at(right, open)
		x := portion(g.q, cos, units.Down) + portion(g.a, sin, units.Down) + now.X - end.X
		deep := portion(g.a, cos, units.Down) - portion(g.q, sin, units.Down) - now.Y + end.Y
		if x > g.y && deep > g.d {
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
	if g.a <= 0 || g.a <= g.d || g.y < 0 {
		return false
	}
	return g.reach(g.about()).Compare(g.y.By(g.y)) > 0
}

// about returns how far out the corner is, as may counts it.
func (g *passing) about() units.Length {
	if g.arm.twice {
		return max(g.q, portion(g.a, 1.0/3, units.Up))
	}
	return g.q
}

// at returns where an arm ends, out and up from where it begins, with the board still
// open by an angle out of all that it turns.
func (a arm) at(all, open float64) units.Point {
	along := 1.0
	if half := (all - open) / 2; a.round {
		along = math.Sin(half) / half
	}
	sin, cos := math.Sincos((all + open) / 2)
	return units.Point{X: portion(a.length, along*cos, units.Down), Y: portion(a.length, along*sin, units.Down)}
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

// further returns how much further apart they would pass each other.
func (g *passing) further() units.Length {
	return least(g.q+g.a-g.y, func(l units.Length) bool {
		far := *g
		far.y += l
		return !far.meets()
	})
}

// lower returns how much lower one of them, whichever, would have to be.
func (g *passing) lower() units.Length {
	return least(g.a-g.d, func(l units.Length) bool {
		near, far := *g, *g
		near.a -= l
		far.d += l
		return !near.meets() && !far.meets()
	})
}

// A swing is a fold as it is made: the boards that turn with it and those that lie
// still, of each only what lies as it does in the end.
type swing struct {
	board        int // that turns about the fold
	moves, still meets
	crease, up   units.Length // next to the board, in the end, across and up
	right, below bool         // the board lies to the right of it; it turned over from below
	arm          arm
}

// swings returns the folds in the order in which they are made.
func (s *shut) swings(z *sizing) []swing {
	f := &s.p.folded
	out := make([]swing, 0, f.n-1)
	var made [boards.MaxBoards]bool
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
		w := swing{board: k, moves: joined(k, -1), still: joined(k+1, 1)}
		joint, far := f.between(k)
		if k >= f.main {
			w.board, w.moves, w.still, joint = k+1, joined(k+1, 1), joined(k, -1), far
		}
		way := s.passage(f.main, w.board)
		w.up, w.crease = way.length(units.Down), z.at[k]
		w.right, w.below = z.right(k), f.rank[w.board] < f.rank[2*k+1-w.board]
		switch b := s.j[joint]; {
		case b.soft && b.bend != rule.CreaseRound:
			w.arm = arm{length: b.span(units.Down), twice: true}
		case b.bend == rule.CreaseTwo || b.bend == rule.CreaseRound:
			w.arm = arm{b.across(units.Down), b.bend == rule.CreaseRound, b.soft}
			if w.crease = z.x[w.board][0]; w.right {
				w.crease = z.x[w.board][1]
			}
		}
		made[k] = true
		out = append(out, w)
	}
	return out
}

// passings returns, of all that stands on boards or is an edge of one, what meets
// something as it turns past it: the worst for each thing that it meets.
func (s *shut) passings() []passing {
	p, f := s.p, &s.p.folded
	z := s.lies(units.Down)
	lumps := s.standing(z, s.lumps(z, 0), true)
	own := 2*f.n - 1 // boards and folds
	on := make([]meets, len(lumps))
	for i := range lumps {
		switch k := f.lies(p.index(lumps[i].panel)); {
		case i < f.n:
			on[i] = 1 << i
		case i < own:
			on[i] = 3 << (i - f.n)
		case k >= 0:
			on[i] = 1 << k
		default:
			on[i] = 3 << p.foldAt(lumps[i].panel)
		}
	}
	var out []passing
	var still []int
	var moves []passing
	sampled := 0
	for _, w := range s.swings(z) {
		still, moves = still[:0], moves[:0]
		for i := range lumps {
			switch l := &lumps[i]; {
			case on[i]&^w.still == 0:
				still = append(still, i)
			case on[i]&^w.moves == 0:
				if g := w.turned(l); g.a > 0 {
					g.board = i < own
					moves = append(moves, g)
				}
			}
		}
		for _, i := range still {
			var worst passing
			y, d := w.lying(&lumps[i])
			for j := range moves {
				m := &moves[j]
				if y < m.q || y > m.most || i < own && m.board || apart(lumps[i].y, m.near.y) {
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
	g := passing{near: near, arm: w.arm, q: near.x[1] - w.crease, a: w.up - near.z[0]}
	if w.right {
		g.q = w.crease - near.x[0]
	}
	if w.below {
		g.a = near.z[1] - w.up
	}
	g.most = units.Diagonal(g.about(), g.a, units.Up)
	return g
}

// lying returns where a lump that lies still begins, as it is seen from the crease, and
// how deep its top lies.
func (w *swing) lying(far *lump) (y, d units.Length) {
	y, d = far.x[0]-w.crease, w.up-far.z[1]
	if w.right {
		y = w.crease - far.x[1]
	}
	if w.below {
		d = far.z[0] - w.up
	}
	return y, d
}

// passes warns of what meets on the way, in a folio that closes.
func (b *builder) passes(s *shut) {
	if len(b.plan.fitted) == 0 {
		return
	}
	n := b.notation()
	told, more := map[[2]string]bool{}, 0
	for _, g := range s.passings() {
		names := [2]string{g.near.name, g.far.name}
		if told[names] {
			continue
		}
		if told[names] = true; len(told) > mostPassings {
			more++
			continue
		}
		path := "block"
		if g.near.of >= 0 {
			path = check.Index("fittings", g.near.of) + ".place"
		}
		if g.far.of >= 0 {
			path = check.Index("fittings", g.far.of) + ".place"
		}
		apart := g.y - g.q
		b.warn(check.Warning{Path: path, Code: WarnPassing, Got: apart, Want: apart + g.further(),
			Text: "as the boards are folded over, " + g.near.called() + " touches " + g.far.called() + ", beside which it comes to lie: " + n.Text(apart) + " between them is too little, " +
				n.Bound(apart+g.further(), units.Up) + " would do, or either of them lower by " + n.Bound(g.lower(), units.Up)})
	}
	if more > 0 {
		b.warn(check.Warning{Path: "fittings", Code: WarnPassing, Text: "as the boards are folded over, " + count(more) + " more things touch what they come to lie beside"})
	}
}

// called is how a lump is called in a sentence.
func (l *lump) called() string {
	if l.of == ofBoard {
		return "the " + l.name
	}
	return quote.Clip(l.name, quote.Most)
}
