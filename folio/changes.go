package folio

import (
	"iter"
	"slices"

	"boardwrap.example/folio/refit"
	"boardwrap.example/internal/word"
	"boardwrap.example/units"
)

// A Change is one thing that a refit changed, from what to what.
type Change struct {
	what     refit.Changed
	index    int
	name     string
	notation units.Notation
	from, to units.Rect
}

// What says what the change is about.
func (c Change) What() refit.Changed { return c.what }

// Index returns which it is: the place in the row of a board, or of the gap right
// of it; of a piece of the liner the place in the row of the first board it lines, −1
// for all; the place in [Plan.Pieces] of the refitted plan of an edge strip or a piece of a
// fitting, −1 for one that is no longer wanted; the place in [Plan.Fittings] of a fitting.
func (c Change) Index() int { return c.index }

// Name returns what it is called.
func (c Change) Name() string { return c.name }

// From returns where it lay on the row as planned, a piece of the liner as large as it is
// cut; empty for a piece that was not planned. Of a piece of a fitting, which has no place of its own, and of an edge strip,
// which is cut wider than it lies, the rectangle begins at 0.
func (c Change) From() units.Rect { return c.from }

// To returns where it lies now, as From; empty for a piece that is no longer
// wanted.
func (c Change) To() units.Rect { return c.to }

// String says what changed, as in "liner: 248.2 mm x 150 mm instead of 247 mm x
// 150 mm" or "place of the frame: 184.3 mm from the left and 4 mm from the head instead
// of 183 mm and 4 mm", lengths in the notation of the plan, places on the row.
func (c Change) String() string {
	n := c.notation
	was, is := c.from.Size(), c.to.Size()
	name := c.name
	if c.what == refit.ChangedFitting { // its piece may be called the same
		name = "place of " + word.The(name)
	}
	dst := append([]byte(name), ": "...)
	size := func(s units.Size) {
		dst = append(dst, sizeText(n, s)...)
	}
	switch {
	case c.to.Empty():
		dst = append(dst, "none instead of "...)
		size(was)
		return string(dst)
	case c.from.Empty():
		size(is)
		return string(append(dst, " instead of none"...))
	case was != is:
		size(is)
		dst = append(dst, " instead of "...)
		size(was)
		if c.from.Min != c.to.Min {
			dst = append(dst, ", "...)
		}
	}
	if from, to := c.from.Min, c.to.Min; from != to {
		dst = append(dst, n.Text(to.X)+" from the left and "+n.Text(to.Y)+" from the head instead of "+n.Text(from.X)+" and "+n.Text(from.Y)...)
	}
	return string(dst)
}

// Changes walks what a refit changed against the plan as built: boards and gaps
// as they came out, then what is to be made otherwise inside. A plan that was
// not refitted, or to its nominal size, has none.
func (p *Plan) Changes() iter.Seq[Change] {
	return func(yield func(Change) bool) {
		q := p.planned
		if q == nil {
			return
		}
		n := p.Notation()
		see := func(what refit.Changed, index int, name string, from, to units.Rect) bool {
			return from == to || yield(Change{what, index, name, n, from, to})
		}
		for i := range p.boards {
			if !see(refit.ChangedBoard, i, p.boards[i].name, q.boards[i].rect, p.boards[i].rect) {
				return
			}
		}
		for i := range p.gaps {
			if !see(refit.ChangedGap, i, "gap right of the "+p.boards[i].name, q.gaps[i].rect, p.gaps[i].rect) {
				return
			}
		}
		_ = p.edgingChanges(q, see) && p.linerChanges(q, see) && p.pieceChanges(q, see) && p.fittingChanges(q, see)
	}
}

// edgingChanges compares edge strips, as they are cut, by where they begin and end.
func (p *Plan) edgingChanges(q *Plan, see func(refit.Changed, int, string, units.Rect, units.Rect) bool) bool {
	cut := func(p *Plan, l lined) units.Rect { return units.RectAt(units.Point{}, p.pieces[l.piece].Size()) }
	for _, l := range q.edgings {
		index, to := -1, units.Rect{}
		for _, now := range p.edgings {
			if now.first == l.first && now.last == l.last {
				index, to = int(now.piece), cut(p, now)
			}
		}
		if !see(refit.ChangedPiece, index, q.pieces[l.piece].name, cut(q, l), to) {
			return false
		}
	}
	for _, l := range p.edgings {
		known := slices.ContainsFunc(q.edgings, func(was lined) bool { return was.first == l.first && was.last == l.last })
		if !known && !see(refit.ChangedPiece, int(l.piece), p.pieces[l.piece].name, units.Rect{}, cut(p, l)) {
			return false
		}
	}
	return true
}

// linerChanges compares the pieces of the liner by what they line.
func (p *Plan) linerChanges(q *Plan, see func(refit.Changed, int, string, units.Rect, units.Rect) bool) bool {
	for _, l := range q.liner {
		if !see(refit.ChangedLiner, q.linedBoard(l), q.pieces[l.piece].name, q.asCut(l), p.linerAs(l)) {
			return false
		}
	}
	for _, l := range p.liner {
		if from := q.linerAs(l); from.Empty() && !see(refit.ChangedLiner, p.linedBoard(l), p.pieces[l.piece].name, from, p.asCut(l)) {
			return false
		}
	}
	return true
}

// linerAs returns where the liner lies that lines the same boards as a piece of another
// plan's, if there is one.
//
//go:noinline
func (p *Plan) linerAs(other lined) units.Rect {
	for _, l := range p.liner {
		if l.first == other.first && l.last == other.last {
			return p.asCut(l)
		}
	}
	return units.Rect{}
}

// asCut returns a piece of the liner where it begins, as wide as it is cut.
func (p *Plan) asCut(l lined) units.Rect {
	return units.RectAt(l.rect.Min, p.pieces[l.piece].Size())
}

// linedBoard returns the first board that a piece of the liner lines, −1 for all.
func (p *Plan) linedBoard(l lined) int {
	if int(l.last-l.first) == len(p.gaps) {
		return -1
	}
	return int(l.first)
}

// pieceChanges compares the pieces of each fitting in their order. One whose size
// follows its panel may take more pieces than planned, or fewer.
func (p *Plan) pieceChanges(q *Plan, see func(refit.Changed, int, string, units.Rect, units.Rect) bool) bool {
	for i := range p.fitted {
		f, was := &p.fitted[i], &q.fitted[i]
		now, before := f.pieces(), was.pieces()
		for k := range max(len(now), len(before)) {
			var from, to units.Rect
			index, name := -1, ""
			if k < len(before) {
				from, name = units.RectAt(units.Point{}, before[k].Size()), before[k].name
			}
			if k < len(now) {
				to, name, index = units.RectAt(units.Point{}, now[k].Size()), now[k].name, int(f.first)+k
			}
			if !see(refit.ChangedPiece, index, name, from, to) {
				return false
			}
		}
	}
	return true
}

func (p *Plan) fittingChanges(q *Plan, see func(refit.Changed, int, string, units.Rect, units.Rect) bool) bool {
	for i := range p.fitted {
		if !see(refit.ChangedFitting, i, p.fitted[i].Label(), q.fitted[i].rect, p.fitted[i].rect) {
			return false
		}
	}
	return true
}
