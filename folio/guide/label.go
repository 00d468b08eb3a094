package guide

import (
	"cmp"
	"slices"
	"strconv"

	"boardwrap.example/internal/inorder"
	"boardwrap.example/units"
)

// A want is a text that is wanted at a region of the figure.
type want struct {
	s      string
	region units.Rect
	within []units.Point // a convex outline that it must lie in; nil for the region
	of     ref
	rank   int           // of the region by its area, while places are found
	starts []units.Point // where a leader may begin, once they are looked for
	below  bool          // without room in the region it stands below the figure
}

// name asks for a text in a region, or on a leader from it.
//
//go:noinline
func (f *figure) name(s string, region units.Rect, of ref) {
	if s = short(s); s != "" {
		f.wants = append(f.wants, want{s: s, region: region, of: of})
	}
}

// nameIn asks for a text in a convex outline.
func (f *figure) nameIn(s string, outline []units.Point, of ref) {
	if s = short(s); s != "" {
		f.wants = append(f.wants, want{s: s, region: boundsOf(outline), within: outline, of: of})
	}
}

// settle finds a place for every text that was asked for: in its region, where
// it touches nothing and lies in no smaller region; else in the margin at the
// right on a leader; else, where even that cannot be, in the notes.
func (f *figure) settle() {
	f.number()
	order := make([]int, len(f.wants))
	for i := range order {
		order[i] = i
	}
	byArea := func(a, b int) int {
		return f.wants[a].region.Size().Area().Compare(f.wants[b].region.Size().Area())
	}
	inorder.Sort(order, byArea)
	for n, i := range order {
		if f.wants[i].rank = n; n > 0 && byArea(order[n-1], i) == 0 {
			f.wants[i].rank = f.wants[order[n-1]].rank
		}
	}
	var out []int
	var there figure
	for _, i := range order {
		switch w := &f.wants[i]; {
		case f.inside(i, &there):
		case w.below:
			f.caption(w)
		case f.pen.widest > 0 && f.width(w.s) > f.pen.widest:
			if w.s = f.pen.keyOf(w.s, w.of); !f.inside(i, &there) {
				out = append(out, i)
			}
		default:
			out = append(out, i)
		}
	}
	f.callOut(out)
}

// keyOf returns the letter of a name, the next one for a new name.
func (p pen) keyOf(name string, of ref) string {
	i := slices.IndexFunc(*p.keys, func(k letterKey) bool { return k.name == name && k.of == of })
	if i < 0 {
		i = len(*p.keys)
		l := letter(i)
		if i >= len(alphabet) {
			l += strconv.Itoa(i / len(alphabet))
		}
		*p.keys = append(*p.keys, letterKey{l, name, of})
	}
	return (*p.keys)[i].letter
}

// caption writes a text below the figure.
func (f *figure) caption(w *want) {
	f.write(text{s: w.s, at: units.Point{X: middleOf(w.region).X, Y: f.all.Max.Y + f.pen.em(rise+400)}, of: w.of})
}

// shares are where in a region a text is tried, in sixteenths of the room
// round it.
var shares = [...]int64{8, 4, 12, 2, 14, 6, 10, 0, 16}

// inside puts a text into its region if it finds a place there, and leaves in the other
// figure what it looked at.
func (f *figure) inside(i int, there *figure) bool {
	w := &f.wants[i]
	wide := f.width(w.s)
	first := true
	for _, upright := range [...]bool{false, true} {
		gap := f.pen.em(250)
		if upright {
			gap = f.pen.em(150)
		}
		t := text{s: w.s, width: wide, upright: upright, of: w.of}
		box := t.box(f.pen)
		size := units.Size{W: box.Max.X - box.Min.X + 2*gap, H: box.Max.Y - box.Min.Y + 2*gap}
		room := units.Size{W: w.region.Max.X - w.region.Min.X - size.W, H: w.region.Max.Y - w.region.Min.Y - size.H}
		if room.W < 0 || room.H < 0 {
			continue
		}
		if first {
			f.part(w.region, there)
			first = false
		}
		var xs, ys [len(shares)]units.Length
		for n, share := range shares {
			xs[n], _ = room.W.Scale(share, 16, units.Down)
			ys[n], _ = room.H.Scale(share, 16, units.Down)
		}
		for _, y := range ys {
			for _, x := range xs {
				place := units.RectAt(w.region.Min.Plus(units.Point{X: x, Y: y}), size)
				if !w.holds(place) || !f.own(i, place) || !there.free(place) {
					continue
				}
				t.at = units.Point{X: place.Min.X + gap - box.Min.X, Y: place.Min.Y + gap - box.Min.Y}
				f.write(t)
				return true
			}
		}
	}
	return false
}

// holds reports whether a place lies in the outline of what is named.
func (w *want) holds(place units.Rect) bool {
	if w.within == nil {
		return true
	}
	in := sheetlet{pts: w.within}
	for _, c := range corners(place) {
		if !in.hides(c) {
			return false
		}
	}
	return true
}

// own reports whether a place lies in no region within that of want i.
func (f *figure) own(i int, place units.Rect) bool {
	for k := range f.wants {
		w := &f.wants[k]
		if w.rank < f.wants[i].rank && touches(w.region, place) {
			return false
		}
	}
	return true
}

// most keeps of what is to be called out as many as go beside the figure, and at
// least a dozen; the others go to the notes.
func (f *figure) most(list []int) []int {
	step := f.pen.em(rise + drop + 350)
	n := max(12, int(f.all.Size().H/step)+1)
	if n >= len(list) {
		return list
	}
	for _, i := range list[n:] {
		f.notes = append(f.notes, f.wants[i].s)
	}
	return list[:n]
}

// callDown puts texts below the figure that a leader from the margin at the right would
// have to cross all of it for, and returns the others. The last of them stands highest,
// so that no leader runs through a text.
func (f *figure) callDown(list []int) (rest []int) {
	p := f.pen
	near := middleOf(f.body).X
	inorder.Sort(list, func(a, b int) int { return cmp.Compare(f.anchors(b)[0].X, f.anchors(a)[0].X) })
	row := f.all.Max.Y + p.em(1200)
	for _, i := range list {
		w, from := &f.wants[i], f.anchors(i)[0]
		to := units.Point{X: from.X, Y: row + p.em(rise)}
		t := text{s: w.s, at: to.Plus(units.Point{X: p.em(300)}), anchor: atStart, width: f.width(w.s), of: w.of}
		if from.X >= near || !f.free(grown(t.box(p), p.em(100))) || !f.clear(leader{from, to}, p.em(150)) {
			rest = append(rest, i)
			continue
		}
		f.lead(leader{from, to})
		f.write(t)
		row += p.em(rise + drop + 350)
	}
	return rest
}

// callOut puts texts into the margin at the right, on leaders.
func (f *figure) callOut(list []int) {
	p := f.pen
	if f.flat {
		list = f.callDown(list)
	}
	list = f.most(list)
	anchor := make(map[int]units.Point, len(list)) // only looked up
	for _, i := range list {
		anchor[i] = f.anchors(i)[0]
	}
	inorder.Sort(list, func(a, b int) int {
		return cmp.Compare(anchor[a].Y, anchor[b].Y)
	})
	at, room := make([]units.Length, len(list)), make([]units.Length, len(list))
	for k, i := range list {
		at[k], room[k] = anchor[i].Y, p.em(rise+drop+350)
	}
	spread(at, room)
	column := f.all.Max.X + p.em(1600)
	lead := func(k int) leader { return leader{anchor[list[k]], units.Point{X: column, Y: at[k]}} }
	// Leaders that cross change their ends, and are shorter for it: it comes to an end.
	for again := true; again; {
		again = false
		for k := range list {
			for l := range k {
				if lead(k).meets(lead(l)) && lead(k)[0] != lead(l)[0] {
					list[k], list[l], again = list[l], list[k], true
				}
			}
		}
	}
	indent, half, round, pad, reach := p.em(300), p.em((rise-drop)/2), p.em(100), p.em(150), p.mm(700)
	put := func(i int, y units.Length, strict bool) bool {
		w := &f.wants[i]
		to := units.Point{X: column, Y: y}
		t := text{s: w.s, at: units.Point{X: column + indent, Y: y + half}, anchor: atStart, width: f.width(w.s), of: w.of}
		if !f.free(grown(t.box(p), round)) {
			return false
		}
		for _, from := range f.anchors(i) {
			if l := (leader{from, to}); f.clear(l, pad) && !(strict && f.tangles(l, reach)) {
				f.lead(l)
				f.write(t)
				return true
			}
		}
		return false
	}
	order := make([]int, len(list))
	for k := range order {
		order[k] = k
	}
	// Each at its own height; what others' leaders bar from it may have room above or
	// below them. Returns which has none, unless its leader may cross another.
	try := func(strict bool) int {
		var left []int
		for _, k := range order {
			if !put(list[k], at[k], true) {
				left = append(left, k)
			}
		}
		for _, k := range left {
			placed := false
			for _, strictly := range [...]bool{true, false} {
				for n := int64(0); n <= mostRows && !placed && (strictly || !strict); n++ {
					by := p.em(n * (rise + drop + 350))
					placed = put(list[k], at[k]+by, strictly) || put(list[k], at[k]-by, strictly)
				}
			}
			if !placed && strict {
				return k
			}
			if !placed {
				f.notes = append(f.notes, f.wants[list[k]].s)
			}
		}
		return none
	}
	// What finds no room is the first to choose it the next time.
	for range min(3, len(list)) {
		was := *f
		k := try(true)
		if k == none {
			return
		}
		*f = was
		n := slices.Index(order, k)
		copy(order[1:n+1], order[:n])
		order[0] = k
	}
	try(false)
}

// A leader is a line from its dot at what is named to the name.
type leader [2]units.Point

// meets reports whether two leaders have a point in common.
func (l leader) meets(m leader) bool {
	return crosses(l[0], l[1], boundsOf(m[:])) && turn(l[0], l[1], m[0])*turn(l[0], l[1], m[1]) <= 0 && turn(m[0], m[1], l[0])*turn(m[0], m[1], l[1]) <= 0
}

// lead draws a leader.
func (f *figure) lead(l leader) {
	f.aid(l[:]...)
	f.dot(l[0], false)
	f.leaders = append(f.leaders, l)
}

// tangles reports whether a leader crosses one that is drawn, or runs through its dot,
// or that one through its own: what is within reach of its middle.
func (f *figure) tangles(l leader, reach units.Length) bool {
	near := grown(boundsOf(l[:]), reach)
	dot := func(l leader) units.Rect { return grown(units.Rect{Min: l[0], Max: l[0]}, reach) }
	return slices.ContainsFunc(f.leaders, func(m leader) bool {
		return touches(near, boundsOf(m[:])) && (l.meets(m) || crosses(l[0], l[1], dot(m)) || crosses(m[0], m[1], dot(l)))
	})
}

// mostRows is how many rows above and below its own a name outside is tried in.
const mostRows = 8

// anchors are points where a leader may begin: in the region, else on its edge.
func (f *figure) anchors(i int) []units.Point {
	w := &f.wants[i]
	if w.starts != nil {
		return w.starts
	}
	r := w.region
	list := make([]units.Point, 0, 55)
	for _, across := range [...]int64{14, 8, 2, 15, 1} {
		for _, down := range [...]int64{8, 4, 12, 2, 14, 1, 15} {
			x, _ := (r.Max.X - r.Min.X).Scale(across, 16, units.Down)
			y, _ := (r.Max.Y - r.Min.Y).Scale(down, 16, units.Down)
			q := r.Min.Plus(units.Point{X: x, Y: y})
			if f.own(i, units.Rect{Min: q, Max: q}) {
				list = append(list, q)
			}
		}
	}
	// Else on its edge.
	for _, share := range [...]int64{8, 5, 11, 3, 13} {
		x, _ := (r.Max.X - r.Min.X).Scale(share, 16, units.Down)
		y, _ := (r.Max.Y - r.Min.Y).Scale(share, 16, units.Down)
		list = append(list, units.Point{X: r.Max.X, Y: r.Min.Y + y}, units.Point{X: r.Min.X + x, Y: r.Min.Y},
			units.Point{X: r.Min.X + x, Y: r.Max.Y}, units.Point{X: r.Min.X, Y: r.Min.Y + y})
	}
	w.starts = list
	return list
}
