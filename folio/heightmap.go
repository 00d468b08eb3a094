package folio

import (
	"cmp"
	"iter"
	"slices"

	"boardwrap.example/folio/boards"
	"boardwrap.example/internal/inorder"
	"boardwrap.example/units"
)

// A Height says how far something stands up at a place of the open folio: a
// part of a fitting with its own height, film of adhesive included, the block, or
// a turn-in under the liner. Where several lie over one place, their heights add.
type Height struct {
	fitting int
	panel   boards.Role
	outside bool
	rect    units.Rect
	height  units.Length
}

// Fitting returns the place of its fitting in [Plan.Fittings], −1 and false for
// the block and for turn-ins.
func (h Height) Fitting() (index int, ok bool) { return max(h.fitting, ofBlock), h.fitting >= 0 }

// TurnIn reports whether it is covering that was turned in: an edge strip on a board, or
// a turn-in of the wrap, as the rectangle round it, so that at a mitred corner two count
// over the whole of their square.
func (h Height) TurnIn() bool { return h.fitting == ofTurnIns }

// Panel returns the board on which it stands.
func (h Height) Panel() boards.Role { return h.panel }

// Outside reports whether it stands on the outside of that board.
func (h Height) Outside() bool { return h.outside }

// Rect returns where it lies on the row as it lies open, as [Fitted.Rect].
func (h Height) Rect() units.Rect { return h.rect }

// Height returns how much it adds there; it is above 0.
func (h Height) Height() units.Length { return h.height }

// Heights walks the height map of the open folio: the turn-ins and edge strips under the
// liner, board by board; the block if full; the layers of each fitting, foam, contents
// if full, and adhesive. The order is that of the fittings. A mat
// laid over something uneven is taken to follow it, so that at every place the
// heights add.
func (p *Plan) Heights(full bool) iter.Seq[Height] {
	return func(yield func(Height) bool) { p.heights(full, yield) }
}

func (p *Plan) heights(full bool, yield func(Height) bool) {
	if !p.turned(yield) {
		return
	}
	if full {
		if r, ok := p.blockRect(); ok && !yield(Height{fitting: ofBlock, panel: p.shape.Main, rect: r, height: p.spec.Block.Thickness}) {
			return
		}
	}
	for i := range p.fitted {
		f := &p.fitted[i]
		for k := range f.layers {
			l := &f.layers[k]
			h := Height{i, f.panel, f.outside, l.rect, l.Height(full)}
			switch {
			case h.height <= 0 || h.rect.Empty():
			case l.spread:
				if !p.spread(h, yield) {
					return
				}
			case !yield(h):
				return
			}
		}
	}
}

// spread walks a height on each of the boards that it lies on, and not over the gaps
// between them, down into which it is rubbed.
func (p *Plan) spread(h Height, yield func(Height) bool) bool {
	lies := h.rect
	for i := range p.boards {
		on := &p.boards[i].rect
		h.panel, h.rect.Min.X, h.rect.Max.X = p.boards[i].role, max(lies.Min.X, on.Min.X), min(lies.Max.X, on.Max.X)
		if !h.rect.Empty() && !yield(h) {
			return false
		}
	}
	return true
}

// blockRect is where the block lies on the main panel: set back from its hinge
// and a square within its other edges.
func (p *Plan) blockRect() (units.Rect, bool) {
	b := p.spec.Block
	if !b.Given() || b.Thickness <= 0 {
		return units.Rect{}, false
	}
	i := p.index(boards.MainPanel)
	at := units.Point{X: p.boards[i].rect.Min.X - b.Setback, Y: b.Square}
	return units.RectAt(at, b.Page), true
}

// A cell is a part of the height map in the coordinates of a meeting.
type cell struct {
	rect    units.Rect
	height  units.Length
	fitting int
}

// greatest returns the greatest sum of heights over one place, and the place:
// where everything that makes up the sum lies. Without cells both are zero. Of
// several places it is the leftmost, and of those the one nearest to the head.
//
// The plane is swept from left to right; a tree over the distinct heights of
// the head edges keeps the sum at each of them along the sweep line and the greatest of
// them. It is exact, in n log n steps.
func greatest(cells []cell) (units.Length, units.Rect) {
	var most units.Length
	var at units.Point
	if len(cells) <= few {
		most, at = greatestOfFew(cells)
	} else {
		most, at = sweep(cells)
	}
	if most <= 0 {
		return 0, units.Rect{}
	}
	var place units.Rect
	for _, c := range cells {
		if c.over(at) {
			if place.Empty() {
				place = c.rect
			} else {
				place = place.Intersect(c.rect)
			}
		}
	}
	return most, place
}

// few is the number of cells up to which trying every corner is faster than
// the sweep, as long as not most of them lie over each other.
const few = 48

func (c *cell) over(p units.Point) bool {
	return c.rect.Min.X <= p.X && p.X < c.rect.Max.X && c.rect.Min.Y <= p.Y && p.Y < c.rect.Max.Y
}

// greatestOfFew tries the places where a greatest sum must begin: the left
// edge of one cell that lies there and the head edge of one. Elsewhere as much lies
// over a place further to the left, or nearer to the head. No place along an edge has
// more than all that the edge meets, which is often less than was found already.
func greatestOfFew(cells []cell) (most units.Length, at units.Point) {
	var buf [few]int
	for i := len(cells) - 1; i >= 0; i-- { // turn-ins, with the least, come first
		left, there := &cells[i].rect, buf[:0] // what the left edge meets
		var all units.Length
		for k := range cells {
			if r := &cells[k].rect; r.Min.X <= left.Min.X && left.Min.X < r.Max.X && r.Min.Y < left.Max.Y && left.Min.Y < r.Max.Y {
				there = append(there, k)
				all += cells[k].height
			}
		}
		if all < most || all == most && left.Min.X > at.X {
			continue
		}
		for n, j := range there {
			p := units.Point{X: left.Min.X, Y: cells[j].rect.Min.Y}
			if p.Y < left.Min.Y || n > 0 && p.Y == cells[there[n-1]].rect.Min.Y { // as of parts side by side
				continue
			}
			var sum units.Length
			for _, k := range there {
				if r := &cells[k].rect; r.Min.Y <= p.Y && p.Y < r.Max.Y {
					sum += cells[k].height
				}
			}
			if sum > most || sum == most && most > 0 && (p.X < at.X || p.X == at.X && p.Y < at.Y) {
				most, at = sum, p
			}
		}
	}
	return most, at
}

// sweep is the sweep over any number of cells.
func sweep(cells []cell) (most units.Length, at units.Point) {
	ys := make([]units.Length, 0, len(cells)) // where a greatest sum may begin
	events := make([]event, 0, 2*len(cells))
	for i := range cells {
		r := cells[i].rect
		ys = append(ys, r.Min.Y)
		events = append(events, event{r.Min.X, i, true}, event{r.Max.X, i, false})
	}
	inorder.Sort(ys, cmp.Compare)
	ys = slices.Compact(ys)
	inorder.Sort(events, func(a, b event) int { return cmp.Compare(a.x, b.x) })
	t := newTree(len(ys))
	for i, e := range events {
		c := &cells[e.cell]
		low, _ := slices.BinarySearch(ys, c.rect.Min.Y)
		high, _ := slices.BinarySearch(ys, c.rect.Max.Y)
		h := c.height
		if !e.begins {
			h = -h
		}
		t.add(1, 0, t.n, low, high, h)
		// What else begins or ends at this place is added first.
		if i+1 < len(events) && events[i+1].x == e.x || t.most[1] <= most {
			continue
		}
		most = t.most[1]
		at = units.Point{X: e.x, Y: ys[t.first()]}
	}
	return most, at
}

type event struct {
	x      units.Length
	cell   int
	begins bool
}

// A tree keeps sums over a row of n places and the greatest of them. Node k
// has the children 2k and 2k + 1; most counts what was added to the node and
// below it.
type tree struct {
	n          int
	most, here []units.Length
}

func newTree(n int) *tree {
	size := 2
	for size < 2*n {
		size *= 2
	}
	buf := make([]units.Length, 2*size)
	return &tree{n, buf[:size], buf[size:]}
}

// add adds h to the places from low up to but not including high.
func (t *tree) add(k, from, to, low, high int, h units.Length) {
	if high <= from || to <= low {
		return
	}
	if low <= from && to <= high {
		t.most[k] += h
		t.here[k] += h
		return
	}
	mid := (from + to) / 2
	t.add(2*k, from, mid, low, high, h)
	t.add(2*k+1, mid, to, low, high, h)
	t.most[k] = t.here[k] + max(t.most[2*k], t.most[2*k+1])
}

// first returns the first place with the greatest sum.
func (t *tree) first() int {
	k, from, to := 1, 0, t.n
	for to-from > 1 {
		mid := (from + to) / 2
		if t.most[2*k] >= t.most[2*k+1] {
			k, to = 2*k, mid
		} else {
			k, from = 2*k+1, mid
		}
	}
	return from
}
