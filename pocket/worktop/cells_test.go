package worktop_test

import (
	"fmt"
	"maps"
	"slices"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket/work"
	"boardwrap.example/pocket/worktop"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// side is how long and high a cell is: sheets are looked at cell by cell, as squared
// paper. It is on no ruler.
const side = 2 * 1_000_003 * units.Nanometre

// A cell is a square of a copy of a piece: what the tests' own table consists of.
type cell struct{ piece, copy, x, y int }

// lying is where a cell lies, in cells of the table, where its right and its tail
// point, and in which part of the heap it is.
type lying struct {
	at, right, tail [2]int
	part            int
}

func (l lying) up() score.Side {
	if l.right[0]*l.tail[1]-l.right[1]*l.tail[0] < 0 {
		return score.Back
	}
	return score.Face
}

// A lot is cells that hang together, and what lies where, from the lowest up.
type lot struct {
	cells map[cell]lying
	heaps map[[2]int][]cell
}

func newLot() lot { return lot{map[cell]lying{}, map[[2]int][]cell{}} }

// sheets of squared paper: so many cells wide and high, with scores at some of them.
type squared struct {
	w, h           int
	upright, level []int
	copies         int
	gone           [4]int // what is cut out: from and to, in cells; nothing if empty
}

func (s squared) has(x, y int) bool {
	return x < s.gone[0] || x >= s.gone[2] || y < s.gone[1] || y >= s.gone[3]
}

func (s squared) blank() score.Blank {
	d := score.Draft{Size: units.Size{W: units.Length(s.w) * side, H: units.Length(s.h) * side}}
	for _, x := range s.upright {
		d.Lines = append(d.Lines, score.Line{Axis: score.Upright, At: units.Length(x) * side})
	}
	for _, y := range s.level {
		d.Lines = append(d.Lines, score.Line{Axis: score.Level, At: units.Length(y) * side})
	}
	if s.gone[0] < s.gone[2] {
		d.CutOuts = []score.CutOut{{Area: units.Rect{Min: units.Point{X: units.Length(s.gone[0]) * side, Y: units.Length(s.gone[1]) * side}, Max: units.Point{X: units.Length(s.gone[2]) * side, Y: units.Length(s.gone[3]) * side}}}}
	}
	b, err := score.NewBlank(d)
	if err != nil {
		panic(err)
	}
	return b
}

// panel returns which cells a panel is, from and to, with what package work says of
// panels.
func (s squared) panel(n int) (x, y, toX, toY int, ok bool) {
	lines, most := s.upright, s.w
	if len(lines) == 0 {
		lines, most = s.level, s.h
	}
	if n == work.All {
		return 0, 0, s.w, s.h, true
	}
	ends := append(slices.Sorted(slices.Values(lines)), most)
	if n < 0 || n >= len(ends) || len(ends) == 1 {
		return 0, 0, s.w, s.h, false
	}
	from := 0
	if n > 0 {
		from = ends[n-1]
	}
	if len(s.upright) > 0 {
		return from, 0, ends[n], s.h, true
	}
	return 0, from, s.w, ends[n], true
}

func floor(l units.Length) int {
	n := l / side
	if l < 0 && l%side != 0 {
		n--
	}
	return int(n)
}

// read looks at a heap cell by cell: through each cell's middle.
func read(pieces []squared, h worktop.Heap) lot {
	l := newLot()
	for i, p := range h.Stretches() {
		piece, copy := p.Piece()
		edge, _ := p.Outline()
		for x := range pieces[piece].w {
			for y := range pieces[piece].h {
				middle := units.Point{X: units.Length(x)*side + side/2, Y: units.Length(y)*side + side/2}
				if !edge.Contains(middle) {
					continue
				}
				at := p.Lies().Point(middle)
				right, tail := p.Lies().Way(score.Right), p.Lies().Way(score.Tail)
				is := lying{[2]int{floor(at.X), floor(at.Y)}, [2]int{int(right.X), int(right.Y)}, [2]int{int(tail.X), int(tail.Y)}, i}
				c := cell{piece, copy, x, y}
				l.cells[c] = is
				l.heaps[is.at] = append(l.heaps[is.at], c)
			}
		}
	}
	return l
}

// differ says where two lots lie unlike.
func (l lot) differ(o lot) string {
	if len(l.cells) != len(o.cells) {
		return fmt.Sprintf("%d cells; want %d", len(l.cells), len(o.cells))
	}
	for c, is := range l.cells {
		was := o.cells[c]
		was.part = is.part
		if is != was {
			return fmt.Sprintf("%v lies %v; want %v", c, is, was)
		}
	}
	for at, list := range l.heaps {
		if !slices.Equal(list, o.heaps[at]) {
			return fmt.Sprintf("at %v lie %v; want %v", at, list, o.heaps[at])
		}
	}
	return ""
}

// A glued pair hangs together.
type glued struct{ a, b cell }

func (c cell) of() [2]int { return [2]int{c.piece, c.copy} }

// fold is what a fold does to squared paper: what lies beyond the line turns, and
// what is glued to it, whole. It is not ok where the line is no line of paper that
// lies flat, or where something would be torn.
func (l lot) fold(of [2]int, a work.FoldAt, k int, bonds []glued) (out lot, ok bool) {
	beyond := func(c cell) bool {
		beside := c.y
		if a.Axis == score.Level {
			beside = c.x
		}
		if at := units.Length(beside) * side; a.To > 0 && (at < a.From || at >= a.To) {
			return false
		}
		switch a.Moves {
		case score.Left:
			return c.x < k
		case score.Right:
			return c.x >= k
		case score.Head:
			return c.y < k
		}
		return c.y >= k
	}
	moves := map[cell]bool{}
	lines, folded := map[[3]int]bool{}, false
	for c, is := range l.cells {
		if c.of() != of {
			continue
		}
		moves[c] = beyond(c)
		next := cell{c.piece, c.copy, c.x + 1, c.y}
		if a.Axis == score.Level {
			next = cell{c.piece, c.copy, c.x, c.y + 1}
		}
		other := cell{c.piece, c.copy, c.x + 1 - (next.x - c.x), c.y + 1 - (next.y - c.y)}
		if _, ok := l.cells[other]; ok && beyond(c) != beyond(other) {
			return lot{}, false // torn at an end of the line
		}
		if to, is2 := l.cells[next]; is2 && beyond(c) != beyond(next) {
			d := [2]int{to.at[0] - is.at[0], to.at[1] - is.at[1]}
			way := is.right
			if a.Axis == score.Level {
				way = is.tail
			}
			if to.right != is.right || to.tail != is.tail || d != way {
				folded = true
				continue
			}
			line := [3]int{0, max(is.at[0], to.at[0]), 0}
			if d[0] == 0 {
				line = [3]int{1, 0, max(is.at[1], to.at[1])}
			}
			lines[line] = true
		}
	}
	if folded || len(lines) != 1 {
		return lot{}, false
	}
	if !l.take(moves, of, bonds) {
		return lot{}, false
	}
	var line [3]int
	for line = range lines {
	}
	out = newLot()
	turned := map[[2]int][]cell{}
	for at, list := range l.heaps {
		for _, c := range list {
			is := l.cells[c]
			if moves[c] {
				d := line[0]
				to := at
				to[d] = 2*line[d+1] - 1 - at[d]
				is.at = to
				is.right[d], is.tail[d] = -is.right[d], -is.tail[d]
				turned[to] = append([]cell{c}, turned[to]...)
			} else {
				out.heaps[at] = append(out.heaps[at], c)
			}
			out.cells[c] = is
		}
	}
	for at, list := range turned {
		if a.Way == work.Towards {
			out.heaps[at] = append(out.heaps[at], list...)
		} else {
			out.heaps[at] = append(list, out.heaps[at]...)
		}
	}
	return out, true
}

// take adds to what moves what is glued to it, whole, and returns false where
// something would be torn.
func (l lot) take(moves map[cell]bool, of [2]int, bonds []glued) bool {
	whole := map[[2]int]bool{}
	for again := true; again; {
		again = false
		for _, b := range bonds {
			for _, p := range [][2]cell{{b.a, b.b}, {b.b, b.a}} {
				if moves[p[0]] && !moves[p[1]] {
					if p[1].of() == of || whole[p[1].of()] {
						return false
					}
					whole[p[1].of()], again = true, true
					for c := range l.cells {
						if c.of() == p[1].of() {
							moves[c] = true
						}
					}
				}
			}
		}
	}
	return true
}

// over is the lot turned over, left to right, where it lies.
func (l lot) over() lot {
	least, most := 1<<30, -1<<30
	for at := range l.heaps {
		least, most = min(least, at[0]), max(most, at[0])
	}
	out := newLot()
	for at, list := range l.heaps {
		to := [2]int{least + most - at[0], at[1]}
		out.heaps[to] = slices.Clone(list)
		slices.Reverse(out.heaps[to])
		for _, c := range list {
			is := l.cells[c]
			is.at, is.right[0], is.tail[0] = to, -is.right[0], -is.tail[0]
			out.cells[c] = is
		}
	}
	return out
}

// box is the cells round some of a lot.
func (l lot) box(of func(cell) bool) (least, most [2]int, ok bool) {
	least, most = [2]int{1 << 30, 1 << 30}, [2]int{-1 << 30, -1 << 30}
	for c, is := range l.cells {
		if of(c) {
			ok = true
			for d := range 2 {
				least[d], most[d] = min(least[d], is.at[d]), max(most[d], is.at[d]+1)
			}
		}
	}
	return least, most, ok
}

// flat reports whether a panel of a copy lies flat, or all of it is meant.
func (l lot) flat(s squared, of [2]int, n int) bool {
	x, y, toX, toY, ok := s.panel(n)
	if !ok || n == work.All {
		return ok
	}
	if !s.has(x, y) || !s.has(toX-1, y) || !s.has(x, toY-1) || !s.has(toX-1, toY-1) {
		return false
	}
	first := l.cells[cell{of[0], of[1], x, y}]
	for c, is := range l.cells {
		if c.of() == of && c.x >= x && c.x < toX && c.y >= y && c.y < toY {
			a, b := c.x-x, c.y-y
			at := [2]int{first.at[0] + a*first.right[0] + b*first.tail[0], first.at[1] + a*first.right[1] + b*first.tail[1]}
			ok = ok && is.right == first.right && is.tail == first.tail && is.at == at
		}
	}
	return ok
}

// laid says what is wrong with a lot that was laid on another one: each must lie as
// it was, the upper one moved as a whole, so far from the edges as asked, with the
// side up that was asked, and right on what it was laid on.
func laid(a work.Fix, pieces []squared, turned map[cell]bool, top, base, got lot) string {
	if len(got.cells) != len(top.cells)+len(base.cells) {
		return "something is lost"
	}
	lead := func(c cell) bool {
		x, y, toX, toY, _ := pieces[a.What.Index].panel(a.Panel)
		return c.of() == [2]int{a.What.Index, max(a.What.Copy, 0)} && c.x >= x && c.x < toX && c.y >= y && c.y < toY
	}
	under := func(c cell) bool {
		x, y, toX, toY, _ := pieces[a.On.Index].panel(a.On.Panel)
		return c.of() == [2]int{a.On.Index, max(a.On.Copy, 0)} && c.x >= x && c.x < toX && c.y >= y && c.y < toY
	}
	flipped := false
	for c, is := range top.cells {
		if !lead(c) {
			continue
		}
		flipped = is.up() != got.cells[c].up()
		if (a.Panel != work.All || !turned[c]) && got.cells[c].up() != a.Up {
			return fmt.Sprintf("%v lies with its %v up", c, got.cells[c].up())
		}
	}
	for c, was := range base.cells {
		is := got.cells[c]
		if is.part = was.part; is != was {
			return fmt.Sprintf("%v has moved", c)
		}
	}
	var move [2]int
	first := true
	for c, was := range top.cells {
		at, right, tail := was.at, was.right, was.tail
		// Turned over left to right, then by quarters clockwise, in halves of cells.
		p := [3][2]int{{2*at[0] + 1, 2*at[1] + 1}, right, tail}
		for i := range p {
			if flipped {
				p[i][0] = -p[i][0]
			}
			for range a.Quarters {
				p[i] = [2]int{-p[i][1], p[i][0]}
			}
		}
		is := got.cells[c]
		if is.right != p[1] || is.tail != p[2] {
			return fmt.Sprintf("%v is turned to %v, %v; want %v, %v", c, is.right, is.tail, p[1], p[2])
		}
		by := [2]int{2*is.at[0] + 1 - p[0][0], 2*is.at[1] + 1 - p[0][1]}
		if !first && by != move {
			return "it does not lie as it was"
		}
		move, first = by, false
	}
	least, most, _ := got.box(lead)
	from, to, _ := got.box(under)
	for d, ask := range [2]struct {
		end bool
		by  units.Length
	}{{a.At.Across == score.Right, a.At.X}, {a.At.Along == score.Tail, a.At.Y}} {
		far := least[d] - from[d]
		if ask.end {
			far = to[d] - most[d]
		}
		if units.Length(far)*side != ask.by {
			return fmt.Sprintf("it lies %d cells from the edge; want %v", far, ask.by)
		}
	}
	return stacked(a, flipped, under, top, base, got)
}

// stacked says what is wrong with the order in which a lot lies on another one: both
// as they were, the upper one right on the panel, or on top of all.
func stacked(a work.Fix, flipped bool, under func(cell) bool, top, base, got lot) string {
	for at, list := range got.heaps {
		var olds, news []cell
		place, lowest := -1, -1
		for i, c := range list {
			if _, old := base.cells[c]; old {
				olds = append(olds, c)
				if under(c) {
					place = i
				}
			} else {
				if news = append(news, c); lowest < 0 {
					lowest = i
				}
			}
		}
		if !slices.Equal(olds, base.heaps[at]) {
			return fmt.Sprintf("at %v the order below has changed: %v", at, olds)
		}
		if len(news) > 0 {
			was := slices.Clone(top.heaps[top.cells[news[0]].at])
			if flipped {
				slices.Reverse(was)
			}
			if !slices.Equal(news, was) {
				return fmt.Sprintf("at %v the order of what was laid has changed: %v", at, news)
			}
			if place >= 0 && a.On.Panel != work.All && lowest != place+1 && !base.woven(under) {
				return fmt.Sprintf("at %v it lies on %v", at, list[:lowest])
			}
			if a.On.Panel == work.All && lowest != len(olds) {
				return fmt.Sprintf("at %v something lies on it", at)
			}
		}
	}
	return ""
}

// woven reports whether something lies on one of some cells and under another: then
// nothing can lie right on both.
func (l lot) woven(of func(cell) bool) bool {
	on, below := map[int]bool{}, map[int]bool{}
	for _, list := range l.heaps {
		for i, c := range list {
			for _, d := range list[:i] {
				if of(d) && !of(c) {
					on[l.cells[c].part] = true
				}
				if of(c) && !of(d) {
					below[l.cells[d].part] = true
				}
			}
		}
	}
	for part := range on {
		if below[part] {
			return true
		}
	}
	return false
}

// An order is what is done to some pieces, by numbers that are made to fit.
type order struct {
	pieces []squared
	acts   [][]int
}

func orders() gopter.Gen {
	piece := gopter.CombineGens(gen.IntRange(2, 5), gen.IntRange(2, 4), gen.IntRange(0, 4), gen.IntRange(0, 3), gen.IntRange(1, 2), gen.Bool(), gen.IntRange(0, 7), gen.IntRange(1, 3))
	act := proptest.List(10, 10, gen.IntRange(0, 59))
	return proptest.Map(gopter.CombineGens(proptest.List(2, 3, piece), proptest.List(1, 14, act)), func(v []any) order {
		var o order
		for _, p := range v[0].([][]any) {
			s := squared{w: p[0].(int), h: p[1].(int), copies: p[4].(int)}
			if x := p[2].(int); x > 0 && x < s.w {
				s.upright = append(s.upright, x)
				if p[5].(bool) && x > 1 {
					s.upright = append(s.upright, x-1) // not in their order along the sheet
				}
			}
			if y := p[3].(int); y > 0 && y < s.h {
				s.level = append(s.level, y)
			}
			// A row or a column is cut out, from a line on to an edge.
			switch x, y := min(p[7].(int), s.w-1), min(p[7].(int), s.h-1); p[6].(int) {
			case 1:
				s.gone = [4]int{x, min(1, s.h-1), s.w, min(1, s.h-1) + 1}
			case 2:
				s.gone = [4]int{0, min(1, s.h-1), x, min(1, s.h-1) + 1}
			case 3:
				s.gone = [4]int{min(1, s.w-1), y, min(1, s.w-1) + 1, s.h}
			case 4:
				s.gone = [4]int{min(1, s.w-1), 0, min(1, s.w-1) + 1, y}
			}
			o.pieces = append(o.pieces, s)
		}
		o.acts = v[1].([][]int)
		return o
	})
}

// run follows an order on the table and on squared paper, and says where they
// part. It counts what was met.
func (o order) run(met map[string]int) string {
	var list []worktop.Workpiece
	for _, p := range o.pieces {
		list = append(list, worktop.Workpiece{Blank: p.blank(), Quantity: p.copies})
	}
	bench := worktop.New(list)
	var bonds []glued
	turned := map[cell]bool{} // by a fold
	for _, n := range o.acts {
		piece := n[1] % len(o.pieces)
		of := [2]int{piece, n[2] % o.pieces[piece].copies}
		s := o.pieces[piece]
		was := read(o.pieces, bench.Heap(of[0], of[1]))
		what := work.Object{Kind: work.Piece, Index: of[0], Copy: of[1]}
		want, name := was, ""
		switch n[0] % 5 {
		case 0, 1:
			a, k := o.foldAt(what, n)
			folded, ok := was.fold(of, a, k, bonds)
			if !ok {
				continue
			}
			want, name = folded, "folded"
			if n[7]%9 == 0 {
				a.Open, want, name = true, was, "creased"
			}
			if a.To > 0 {
				met["folded beside what is cut out"]++
			}
			if bad := turning(o.pieces, bench, a, n, was, folded); bad != "" {
				return bad
			}
			if !bench.Do(a) {
				return fmt.Sprintf("%+v cannot be followed", a)
			}
			for c, is := range want.cells {
				turned[c] = turned[c] || is.up() != was.cells[c].up()
			}
		case 2:
			want, name = was.over(), "turned over"
			if n[3]%5 == 0 {
				what.Kind, want, name = work.Content, was, "something else turned over"
			}
			if !bench.Do(work.TurnOver{What: what}) {
				return "it cannot be turned over"
			}
		default:
			onto := n[3] % len(o.pieces)
			base := [2]int{onto, n[4] % o.pieces[onto].copies}
			ground := read(o.pieces, bench.Heap(base[0], base[1]))
			if _, one := ground.cells[cell{of[0], of[1], 0, 0}]; one {
				continue
			}
			a := work.Fix{What: what, Panel: n[5]%4 - 1, On: work.Base{Kind: work.OnPiece, Index: base[0], Copy: base[1], Panel: n[6]%4 - 1}, Quarters: n[7] % 4, Up: score.Side(n[8] % 2),
				At: work.At{X: units.Length(n[8]%5-1) * side, Y: units.Length(n[9]%5-1) * side, Across: score.Left, Along: score.Tail}}
			if n[9]%2 == 0 {
				a.At.Across, a.At.Along = score.Right, score.Head
			}
			if !was.flat(s, of, a.Panel) || !ground.flat(o.pieces[onto], base, a.On.Panel) {
				continue // there is no such panel, or it is folded itself
			}
			more, ok, clear := o.fix(bench, a, n, turned, was, ground)
			if ok != "" {
				return ok
			}
			if met["laid"]++; !clear {
				return ""
			}
			bonds = append(bonds, more...)
			if bad := cuts(o.pieces, bench.Heap(of[0], of[1]), n); bad != "" {
				return bad
			}
			continue
		}
		met[name]++
		h := bench.Heap(of[0], of[1])
		if bad := read(o.pieces, h).differ(want); bad != "" {
			return name + ": " + bad
		}
		if bad := cuts(o.pieces, h, n); bad != "" {
			return bad
		}
	}
	return ""
}

func (o order) foldAt(what work.Object, n []int) (work.FoldAt, int) {
	s := o.pieces[what.Index]
	a := work.FoldAt{What: what, Axis: score.Upright, Moves: []score.Edge{score.Left, score.Right}[n[4]%2], Way: work.Way(n[5] % 2), Flat: true}
	k := 1 + n[6]%(s.w-1)
	if len(s.upright) > 0 && n[6]%3 > 0 {
		k = s.upright[n[6]%len(s.upright)]
	}
	if n[3]%2 == 1 {
		a.Axis, a.Moves, k = score.Level, []score.Edge{score.Head, score.Tail}[n[4]%2], 1+n[6]%(s.h-1)
	}
	if g := s.gone; g[0] < g[2] { // beside what is cut out
		from, to, most := g[1], g[3], s.h
		if a.Axis == score.Level {
			from, to, most = g[0], g[2], s.w
		}
		if n[8]%2 == 1 {
			from, to = 0, from
		} else {
			from, to = to, most
		}
		a.From, a.To = units.Length(from)*side, units.Length(to)*side
		k = map[score.Edge]int{score.Left: g[2], score.Right: g[0], score.Head: g[3], score.Tail: g[1]}[a.Moves]
	}
	a.At = units.Length(k) * side
	return a, k
}

// fix lays one heap on another and returns what is glued then: at the middle of each
// area what is laid to what lies nearest of what it is laid on. It is not clear where
// glue reaches beyond the panel that is told.
func (o order) fix(bench *worktop.Bench, a work.Fix, n []int, turned map[cell]bool, top, ground lot) (bonds []glued, bad string, clear bool) {
	x, y, toX, toY, _ := o.pieces[a.What.Index].panel(a.Panel)
	var at []cell
	for i := range 1 + n[3]%2 {
		c := cell{a.What.Index, a.What.Copy, x + (n[1]+i)%(toX-x), y + n[2]%(toY-y)}
		if !o.pieces[a.What.Index].has(c.x, c.y) {
			continue
		}
		at = append(at, c)
		a.Areas = append(a.Areas, units.RectAt(units.Point{X: units.Length(c.x) * side, Y: units.Length(c.y) * side}, units.Size{W: side, H: side}))
	}
	if other := a; n[4]%3 == 0 { // what is no piece, or is laid on none, moves nothing
		other.What.Kind = work.Content
		wrong := a
		wrong.On.Kind = work.OnBoard
		if !bench.Do(other, wrong) || read(o.pieces, bench.Heap(a.What.Index, a.What.Copy)).differ(top) != "" {
			return nil, "what is no piece was laid down, or what is laid on none", false
		}
	}
	if !bench.Do(a) {
		return nil, fmt.Sprintf("%+v cannot be followed", a), false
	}
	got := read(o.pieces, bench.Heap(a.What.Index, a.What.Copy))
	if bad := got.differ(read(o.pieces, bench.Heap(a.On.Index, a.On.Copy))); bad != "" {
		return nil, "the two do not hang together: " + bad, false
	}
	if bad := laid(a, o.pieces, turned, top, ground, got); bad != "" {
		return nil, fmt.Sprintf("%+v: %s", a, bad), false
	}
	x, y, toX, toY, _ = o.pieces[a.On.Index].panel(a.On.Panel)
	for _, c := range at {
		here := got.heaps[got.cells[c].at]
		for i := slices.Index(here, c) - 1; i >= 0; i-- {
			q := here[i]
			if q.of() != [2]int{a.On.Index, a.On.Copy} {
				continue
			}
			if q.x < x || q.x >= toX || q.y < y || q.y >= toY {
				return nil, "", false
			}
			bonds = append(bonds, glued{c, q})
			break
		}
	}
	return bonds, "", len(at) > 0
}

// turning says where what a fold would turn is not what it turns.
func turning(pieces []squared, bench *worktop.Bench, a work.FoldAt, n []int, was, folded lot) string {
	h, turns, ok := bench.Turning(a.What.Copy, a)
	if !ok || len(turns) != 1 {
		return fmt.Sprintf("it is not known what %+v turns", a)
	}
	now := read(pieces, h)
	if bad := now.differ(was); bad != "" {
		return "what would be folded has moved: " + bad
	}
	if bad := cuts(pieces, h, n); bad != "" {
		return bad
	}
	for c, is := range now.cells {
		if turns[0][is.part] != (folded.cells[c].up() != was.cells[c].up()) {
			return fmt.Sprintf("%v would turn: %t", c, turns[0][is.part])
		}
	}
	return ""
}

// cuts says what is wrong with the sections through a row and a column of cells,
// held to the cells that they go through.
func cuts(pieces []squared, h worktop.Heap, n []int) string {
	l := read(pieces, h)
	at := slices.SortedFunc(maps.Keys(l.heaps), func(a, b [2]int) int { return slices.Compare(a[:], b[:]) })
	through := at[n[9]%len(at)]
	for axis := range 2 {
		d, e := axis, 1-axis // along the section, across it
		from, to := map[int]int{}, map[int]int{}
		for i := range h.Stretches() {
			least, most, ok := l.box(func(c cell) bool { return l.cells[c].part == i })
			if ok && least[e] <= through[e] && through[e] < most[e] {
				from[i], to[i] = least[d], most[d]
			}
		}
		// From the head or left edge of a row of cells up to the next one it is cut.
		p := units.Point{X: units.Length(through[0]) * side, Y: units.Length(through[1]) * side}
		list := h.Section(score.Axis(axis), p)
		if len(list) != len(from) {
			return fmt.Sprintf("%d parts are cut; want %d", len(list), len(from))
		}
		levels := make(map[int]int, len(list))
		for i, c := range list {
			a, b := c.Ends()
			if a != units.Length(from[c.Stretch()])*side || b != units.Length(to[c.Stretch()])*side {
				return fmt.Sprintf("part %d is cut from %v to %v", c.Stretch(), a, b)
			}
			if i > 0 && c.Stretch() <= list[i-1].Stretch() {
				return "the lowest is not told first"
			}
			levels[c.Stretch()] = c.Level()
		}
		if bad := level(h, from, to, levels); bad != "" {
			return bad
		}
		for _, c := range list {
			for _, o := range list {
				if bad := l.joined(h, c, o, d); bad != "" {
					return bad
				}
			}
		}
	}
	return ""
}

// level says where a level is not the least that is possible: a flat row of parts of
// a piece lies over the highest of all that any of them lies on.
func level(h worktop.Heap, from, to, got map[int]int) string {
	parts := slices.Sorted(maps.Keys(from))
	lies := map[int]worktop.Stretch{}
	for i, p := range h.Stretches() {
		lies[i] = p
	}
	row := map[int]int{} // which row a part is of
	for _, i := range parts {
		row[i] = i
	}
	for range parts {
		for _, i := range parts {
			for _, k := range parts {
				a, b := lies[i], lies[k]
				n, copy := a.Piece()
				m, other := b.Piece()
				if n == m && copy == other && a.Lies() == b.Lies() && (from[i] == to[k] || from[k] == to[i]) {
					row[i] = min(row[i], row[k])
				}
			}
		}
	}
	var of func(r, deep int) int
	of = func(r, deep int) int {
		high := 0
		if deep > len(parts) {
			return 1 << 20 // two rows that lie on each other
		}
		for _, i := range parts {
			for _, k := range parts {
				if row[i] == r && k < i && from[i] < to[k] && from[k] < to[i] {
					high = max(high, of(row[k], deep+1)+1)
				}
			}
		}
		return high
	}
	for _, i := range parts {
		if want := of(row[i], 0); want < 1<<20 && got[i] != want {
			return fmt.Sprintf("part %d is drawn on level %d; want %d", i, got[i], want)
		}
	}
	return ""
}

// joined says where it is told wrongly whether a cut goes on in another one, and
// whether by a fold: it does where two cells that are neighbours on the sheet lie in
// the two parts, and their common edge runs across the section.
func (l lot) joined(h worktop.Heap, c, o worktop.Crossing, d int) string {
	from, to := c.Ends()
	ends := map[units.Length]bool{}
	flat := false
	for a, is := range l.cells {
		if is.part != c.Stretch() {
			continue
		}
		for _, step := range [4][2]int{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
			b, ok := l.cells[cell{a.piece, a.copy, a.x + step[0], a.y + step[1]}]
			if !ok || b.part != o.Stretch() || b.part == c.Stretch() {
				continue
			}
			// Where the common edge lies, from the middle of the cell.
			way := [2]int{is.right[0]*step[0] + is.tail[0]*step[1], is.right[1]*step[0] + is.tail[1]*step[1]}
			if way[d] == 0 {
				continue
			}
			at := units.Length(2*is.at[d]+1+way[d]) * side / 2
			if at == from || at == to {
				ends[at] = true
				flat = flat || b.right == is.right && b.tail == is.tail && b.at[d] == is.at[d]+way[d]
			}
		}
	}
	at, ok := h.End(c, o.Stretch(), score.Axis(d))
	if ok != (len(ends) > 0) || ok && !ends[at] || !ok && at != 0 {
		return fmt.Sprintf("part %d goes on in %d at %v, %t; want %v", c.Stretch(), o.Stretch(), at, ok, ends)
	}
	if len(ends) > 1 {
		return ""
	}
	x, y := o.Ends()
	want := ok && (at == x || at == y) && !flat
	if at, ok := h.Fold(c, o, score.Axis(d)); ok != want || ok && !ends[at] || !ok && flat && at != 0 {
		return fmt.Sprintf("parts %d and %d are joined at %v, %t; want %t", c.Stretch(), o.Stretch(), at, ok, want)
	}
	return ""
}

// What is done on the table is done beside it on squared paper, cell by cell, by what
// folding, turning over, laying and gluing mean: the two must lie alike after each.
func TestLiesAsSquaredPaper(t *testing.T) {
	met := map[string]int{}
	proptest.Run(t, 1200, func(p *gopter.Properties) {
		p.Property("pieces lie as squared paper does", prop.ForAll(func(o order) string { return o.run(met) }, orders()))
	})
	for _, name := range []string{"folded", "creased", "folded beside what is cut out", "turned over", "something else turned over", "laid"} {
		if met[name] < proptest.Cases(30) {
			t.Errorf("%s %d times", name, met[name])
		}
	}
}
