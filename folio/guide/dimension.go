package guide

import (
	"slices"

	"boardwrap.example/score"
	"boardwrap.example/units"
)

// Distances of dimensions from what they measure, in thousandths of the text
// size.
const (
	extensionGap   = 250  // where an extension line begins
	chainAt        = 1700 // the dimension line
	chainBeyond    = 300  // how far extension lines run past it
	leaderStraight = 1350 // over a dimension line: clear of the figures that stand on it
	leaderSlant    = 900  // and from there to the outer figures
	leaderGap      = 200  // between a leader and its figure
	runningAt      = 900  // where extension lines of running dimensions turn
)

// A lane is the strip beside a figure in which dimensions of one side lie. It
// maps places along the edge and away from it into the drawing.
type lane struct {
	f    *figure
	side score.Edge
	base units.Length
}

func (f *figure) lane(side score.Edge) lane {
	switch side {
	case score.Head:
		return lane{f, side, f.body.Min.Y}
	case score.Tail:
		return lane{f, side, f.body.Max.Y}
	case score.Left:
		return lane{f, side, f.body.Min.X}
	}
	return lane{f, side, f.body.Max.X}
}

// level reports whether the lane runs from left to right.
func (l lane) level() bool { return l.side == score.Head || l.side == score.Tail }

// at returns a place of the lane.
//
//go:noinline
func (l lane) at(along, away units.Length) units.Point {
	switch l.side {
	case score.Head:
		return units.Point{X: along, Y: l.base - away}
	case score.Tail:
		return units.Point{X: along, Y: l.base + away}
	case score.Left:
		return units.Point{X: l.base - away, Y: along}
	}
	return units.Point{X: l.base + away, Y: along}
}

// beyond returns how far a rectangle reaches into the lane.
func (l lane) beyond(r units.Rect) units.Length {
	switch l.side {
	case score.Head:
		return l.base - r.Min.Y
	case score.Tail:
		return r.Max.Y - l.base
	case score.Left:
		return l.base - r.Min.X
	}
	return r.Max.X - l.base
}

// An outer is a figure on a leader beside a dimension.
type outer struct {
	from  units.Length // where its leader begins, along the lane
	s     string
	width units.Length
	to    units.Length // where its middle comes to stand
}

// chain dimensions the distances between places that follow each other, along
// an edge of what is drawn.
func (f *figure) chain(side score.Edge, at []units.Length) {
	if len(at) < 2 {
		return
	}
	f.measures = true
	l := f.lane(side)
	p := f.pen
	var outers []outer
	dim := p.em(chainAt)
	if f.swung != (units.Rect{}) {
		dim += max(l.beyond(f.swung), 0)
	}
	for _, x := range at {
		f.aid(l.at(x, p.em(extensionGap)), l.at(x, dim+p.em(chainBeyond)))
	}
	f.aid(l.at(at[0], dim), l.at(at[len(at)-1], dim))
	many := len(at) > mostDrawn
	said := map[string]bool{} // of many, only looked up
	for i := 1; i < len(at); i++ {
		a, b := at[i-1], at[i]
		long := b - a
		l.ends(a, b, dim)
		s := f.long(long)
		if f.spare == [2]units.Length{a, b} {
			s = f.toSpare(long)
		}
		w := f.width(s)
		mid := a + long.Half(units.Down)
		if long >= w+p.em(600) {
			on := dim + p.em(leaderGap+drop)
			if l.side == score.Tail || l.side == score.Right { // above the line, read from below or from the right
				on = dim - p.em(leaderGap+drop)
			}
			f.write(text{s: s, at: l.at(mid, on), upright: !l.level(), width: w, of: nothing})
			continue
		}
		if many && said[s] {
			continue // as wide as one before it
		}
		if len(outers) == mostDrawn {
			f.say("not every distance is written")
			continue
		}
		said[s] = true
		outers = append(outers, outer{from: mid, s: s, width: w})
	}
	if many {
		f.say("equal distances are written once")
	}
	l.leaders(outers, dim, dim+p.em(leaderStraight))
}

// running dimensions how far places lie from the first of them, or from the last,
// along the tail edge or the right edge of what is drawn.
func (f *figure) running(side score.Edge, at []units.Length, fromLast bool) {
	if len(at) < 3 {
		return
	}
	f.measures = true
	l := f.lane(side)
	p := f.pen
	turn := p.em(runningAt)
	origin, end := 0, len(at)-1
	if fromLast {
		origin, end = end, origin
	}
	f.aid(l.at(at[origin], p.em(extensionGap)), l.at(at[origin], turn-p.mm(700)))
	f.dot(l.at(at[origin], turn), true)
	outers := make([]outer, 0, min(len(at), mostDrawn+1))
	every := (len(at) + mostDrawn - 1) / mostDrawn
	if every > 1 {
		f.say("not every place is written")
	}
	for i, x := range at {
		if i == origin || i%every != 0 && i != end {
			continue
		}
		s := f.long((x - at[origin]).Abs())
		outers = append(outers, outer{from: x, s: s, width: f.width(s)})
	}
	l.leaders(outers, p.em(extensionGap), turn)
}

// ends draws the ends of a dimension line: arrowheads, or dots where it is short.
func (l lane) ends(from, to, dim units.Length) {
	if to-from >= 5*l.f.pen.mm(arrowLength)/2 {
		l.arrow(from, dim, -1)
		l.arrow(to, dim, 1)
		return
	}
	l.f.dot(l.at(from, dim), false)
	l.f.dot(l.at(to, dim), false)
}

// arrow draws an arrowhead at the dimension line that points along the lane.
func (l lane) arrow(at, away units.Length, way units.Length) {
	if l.level() {
		l.f.arrow(l.at(at, away), way, 0)
	} else {
		l.f.arrow(l.at(at, away), 0, way)
	}
}

// leaders draws the outer figures of a lane: leaders run straight out, then
// slant to where the figures have room beside each other.
func (l lane) leaders(outers []outer, from, straight units.Length) {
	if len(outers) == 0 {
		return
	}
	f, p := l.f, l.f.pen
	high := p.em(rise + drop)
	var sum units.Length
	for _, o := range outers {
		sum += o.width + p.em(500)
	}
	size := f.body.Size()
	aside := l.level() && sum > size.W+p.em(4000) // too many beside each other: read from the right
	room := make([]units.Length, len(outers))
	at := make([]units.Length, len(outers))
	for i, o := range outers {
		at[i], room[i] = o.from, high+p.em(250)
		if l.level() && !aside {
			room[i] = o.width + p.em(500)
		}
	}
	spread(at, room)
	straight = l.past(straight, outers, at, room, aside)
	slant := straight + p.em(leaderSlant)
	out := slant + p.em(leaderGap)
	middle := p.em((rise - drop) / 2)
	for i := range outers {
		o := &outers[i]
		o.to = at[i]
		f.aid(l.at(o.from, from), l.at(o.from, straight), l.at(o.to, slant))
		t := text{s: o.s, width: o.width, of: nothing}
		switch {
		case aside && l.side == score.Head:
			t.upright, t.anchor, t.at = true, atStart, l.at(o.to+middle, out)
		case aside:
			t.upright, t.anchor, t.at = true, atEnd, l.at(o.to+middle, out)
		case l.side == score.Head:
			t.at = l.at(o.to, out+p.em(drop))
		case l.side == score.Tail:
			t.at = l.at(o.to, out+p.em(rises(o.s)))
		case l.side == score.Left:
			t.anchor, t.at = atEnd, l.at(o.to+middle, out)
		default:
			t.anchor, t.at = atStart, l.at(o.to+middle, out)
		}
		f.write(t)
	}
}

// past returns how far the leaders must run straight on so that slants and
// figures touch nothing of the lanes at the other sides.
func (l lane) past(straight units.Length, outers []outer, at, room []units.Length, aside bool) units.Length {
	f, p := l.f, l.f.pen
	deep := p.em(rise + drop)
	if !l.level() || aside {
		for _, o := range outers {
			deep = max(deep, o.width)
		}
	}
	n := len(at) - 1 // all are in order
	first, last := min(at[0]-room[0].Half(units.Up), outers[0].from), max(at[n]+room[n].Half(units.Up), outers[n].from)
	a, b := l.at(first, straight+p.em(250)), l.at(last, straight+p.em(leaderSlant+2*leaderGap)+deep)
	if f.free(spanned(a, b)) {
		return straight
	}
	return max(straight, l.beyond(f.all)+p.em(500))
}

// spread moves middles, in their order, as little as need be, so that what
// stands round them has room. It pools neighbours that would overlap and moves
// each pool to the mean of what its members want.
func spread(middles, room []units.Length) {
	type pool struct {
		first, n  int
		start     units.Length // where its room begins
		want, all units.Length // the sum of the members' wishes for start, and its room
	}
	pools := make([]pool, 0, len(middles))
	for i, m := range middles {
		next := pool{first: i, n: 1, want: m - room[i].Half(units.Down), all: room[i]}
		next.start = next.want
		for len(pools) > 0 {
			last := pools[len(pools)-1]
			if last.start+last.all <= next.start {
				break
			}
			// A member wishes the pool's start where its own room lies rightly.
			shift, _ := last.all.Times(int64(next.n))
			next = pool{first: last.first, n: last.n + next.n, want: last.want + next.want - shift, all: last.all + next.all}
			next.start, _ = next.want.Scale(1, int64(next.n), units.Down)
			pools = pools[:len(pools)-1]
		}
		pools = append(pools, next)
	}
	for _, q := range pools {
		at := q.start
		for i := q.first; i < q.first+q.n; i++ {
			middles[i] = at + room[i].Half(units.Down)
			at += room[i]
		}
	}
}

// say notes a sentence for the legend, once.
//
//go:noinline
func (f *figure) say(s string) {
	if !slices.Contains(f.says, s) {
		f.says = append(f.says, s)
	}
}

// long writes the true length of a distance in the figure.
func (f *figure) long(l units.Length) string {
	return f.pen.write.text(f.isTrue(l))
}

// toSpare is long for what is to spare, which is never told as more than there is.
func (f *figure) toSpare(l units.Length) string {
	l = f.isTrue(l)
	return string(f.pen.write.onFine(l).bare.AppendAtMost(nil, l))
}

// isTrue returns the true length of a distance in the figure.
func (f *figure) isTrue(l units.Length) units.Length {
	l, _ = l.Scale(1, f.times, units.Nearest)
	return l
}
