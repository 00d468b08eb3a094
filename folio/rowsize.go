package folio

import (
	"math"

	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A sizing works out what the joints of a row need so that it shuts with the
// calipers of its boards, coverings and liners: how wide the gaps are and how far
// each fold spans. Boards that lie and folds are counted as in a folding. Where a
// board lies when the folio is shut, X counts from the left edge of the one on the
// table, to the right as seen from above.
type sizing struct {
	s     *Spec
	row   *shape
	f     *folding
	spine units.Length                          // as the Spec says, 0 where all joints are soft
	wide  [boards.MaxBoards]units.Length        // of the boards that lie
	gap   [boards.MaxBoards - 1]units.Length    // of each joint, as laid
	clear [boards.MaxBoards - 1]units.Length    // of each joint at a spine board, the least gap that clears what lies inside, or 0
	out   [boards.MaxBoards - 1][2]units.Length // of each fold: from the board's edge on its left, and on its right, to the fold
	in    [boards.MaxBoards - 1]units.Length    // of each fold: what the two hinges of a spine board add to the span
	span  [boards.MaxBoards - 1]units.Length    // of each fold: from one wrong side of the covering to the other
	asks  [boards.MaxBoards - 1]units.Length    // of each soft fold: the least span
	lacks [boards.MaxBoards]units.Length        // the width that a spine board would have to have, where less is given
	x     [boards.MaxBoards][2]units.Length     // from where to where a board lies
	at    [boards.MaxBoards - 1]units.Length    // where a fold lies
}

// right reports whether a fold lies at the right end of what it joins.
func (z *sizing) right(fold int) bool { return z.f.up(fold) }

// joints returns the joints on both sides of a fold; of a soft one they are the
// same.
func (z *sizing) joints(fold int) [2]int {
	left, right := z.f.between(fold)
	return [2]int{left, right}
}

// foldAt returns the fold that a joint belongs to.
func (z *sizing) foldAt(joint int) int {
	for k := range z.f.n - 1 {
		if joints := z.joints(k); joints[0] == joint || joints[1] == joint {
			return k
		}
	}
	return -1
}

// beyond returns how far a fold lies beyond the board on one side of it: of a soft
// joint that bends in a half circle, as far as that reaches.
func (z *sizing) beyond(fold, side int) units.Length {
	joint := z.joints(fold)[side]
	if !z.round(joint) {
		return z.out[fold][side]
	}
	return max(z.out[fold][side], portion(z.gap[joint], 1/math.Pi, units.Up))
}

// round reports whether a joint is soft and bends in a half circle.
func (z *sizing) round(joint int) bool {
	return z.row.soft(joint) && z.row.hinge(joint).Crease == rule.CreaseRound
}

// lay works out where boards and folds lie, from the board on the table outwards.
func (z *sizing) lay() {
	f := z.f
	z.x[f.main] = [2]units.Length{0, z.wide[f.main]}
	next := func(fold, from, to, side int) {
		if z.right(fold) {
			z.at[fold] = z.x[from][1] + z.beyond(fold, side)
			end := z.at[fold] - z.beyond(fold, 1-side)
			z.x[to] = [2]units.Length{end - z.wide[to], end}
			return
		}
		z.at[fold] = z.x[from][0] - z.beyond(fold, side)
		end := z.at[fold] + z.beyond(fold, 1-side)
		z.x[to] = [2]units.Length{end, end + z.wide[to]}
	}
	for k := f.main; k < f.n-1; k++ {
		next(k, k, k+1, 0)
	}
	for k := f.main - 1; k >= 0; k-- {
		next(k, k+1, k, 1)
	}
}

// A clearing is an edge or a fold of a board that lies between the two of a fold
// and must clear what stands there.
type clearing struct {
	fold, side int          // what is in the way, and the side of it whose gap makes room
	board      int          // that lies between
	short      units.Length // by how much it does not clear; negative, what is left
}

// clearings walks everything that lies inside a fold, after lay.
func (z *sizing) clearings(yield func(clearing)) {
	f := z.f
	for k := range f.n - 1 {
		for c := range f.n {
			if !z.within(c, k) {
				continue
			}
			side := 1
			if c < k {
				side = 0
			}
			yield(clearing{k, side, c, z.reach(c, z.right(k)) - z.free(k)})
		}
	}
}

// within reports whether a board lies between the two of a fold.
func (z *sizing) within(board, fold int) bool {
	r := &z.f.rank
	return r[board] > min(r[fold], r[fold+1]) && r[board] < max(r[fold], r[fold+1]) && z.meets(board, fold) && z.meets(board, fold+1)
}

func (z *sizing) meets(a, b int) bool { return z.f.below[a].has(b) || z.f.below[b].has(a) }

// reach returns how far a board that lies comes to one side, with the covering at
// its edge, or what stands at its fold there.
func (z *sizing) reach(board int, right bool) units.Length {
	if k := z.foldOf(board, right); k >= 0 {
		if right {
			return z.at[k] + z.outside(k)
		}
		return z.outside(k) - z.at[k]
	}
	if right {
		return z.x[board][1] + z.s.Covering.Caliper
	}
	return z.s.Covering.Caliper - z.x[board][0]
}

// foldOf returns the fold at one side of a board that lies, −1 at an edge of the row.
func (z *sizing) foldOf(board int, right bool) int {
	for _, k := range [...]int{board - 1, board} {
		if k >= 0 && k < z.f.n-1 && z.right(k) == right {
			return k
		}
	}
	return -1
}

// free returns how far to its side the space inside a fold goes.
func (z *sizing) free(fold int) units.Length {
	if z.right(fold) {
		return z.at[fold] - z.inside(fold)
	}
	return -z.at[fold] - z.inside(fold)
}

// inside returns what stands at a fold on the side that it closes, from the wrong
// side of the covering: spine board, liner and a turn-in, or with outsides
// together the covering.
func (z *sizing) inside(fold int) units.Length {
	left, right := z.f.between(fold)
	switch {
	case z.f.kind[fold] == score.Mountain:
		return z.s.overEdge(z.s.Quarter.Rule != rule.QuarterNever)
	case left == right:
		return z.s.Liner.Caliper + z.s.Covering.Caliper
	}
	return z.s.Board.Caliper + z.s.Liner.Caliper + z.s.Covering.Caliper
}

// outside is what stands at a fold on its other side.
func (z *sizing) outside(fold int) units.Length {
	left, right := z.f.between(fold)
	switch {
	case z.f.kind[fold] == score.Valley:
		return z.s.overEdge(z.s.Quarter.Rule != rule.QuarterNever)
	case left == right:
		return z.s.Liner.Caliper + z.s.Covering.Caliper
	}
	return z.s.Board.Caliper + z.s.Liner.Caliper + z.s.Covering.Caliper
}

// rises returns how much higher one board lies than another at the least, from wrong
// side to wrong side of the covering.
func (z *sizing) rises(from, to int) units.Length {
	sign := 1
	if from > to {
		from, to, sign = to, from, -1
	}
	var sum units.Length
	falls := false
	for k := from; k < to; k++ {
		if z.up(k, sign) > 0 {
			sum += z.span[k]
		} else {
			sum -= z.span[k]
			falls = true
		}
	}
	if falls {
		sum -= z.unlike(from, to, sign)
	}
	return sum
}

// up returns 1 for a fold at which a way rises that goes to the right, or with a sign of
// −1 to the left, and −1 for one at which it falls.
func (z *sizing) up(fold, sign int) int {
	if z.f.rank[fold+1] < z.f.rank[fold] {
		return -sign
	}
	return sign
}

// unlike returns what the folds at which a way falls may span more than is counted: their
// gaps may come out wider, and what a bend makes of a gap is put down to a nanometre.
// Hinges that are bent alike, and that it passes once up and once down, take nothing from
// each other.
func (z *sizing) unlike(from, to, sign int) (more units.Length) {
	begin, end := z.joints(from)[0], z.joints(to - 1)[1]
	for joint := begin; joint <= end; joint++ {
		net, first := 0, true
		for other := begin; other <= end; other++ {
			if !z.alike(joint, other) {
				continue
			}
			first = first && other >= joint // each kind is counted once
			net += z.up(z.foldAt(other), sign)
		}
		if first && net < 0 {
			more -= times(z.spares(joint), net)
		}
	}
	return more
}

// alike reports whether two hinges are bent alike, so that the bend makes the same of
// both gaps.
func (z *sizing) alike(a, b int) bool {
	return z.gap[a] == z.gap[b] && z.row.hinge(a).Crease == z.row.hinge(b).Crease && z.row.soft(a) == z.row.soft(b)
}

// spares returns how much more than is counted the bend of a joint may make of its gap.
//
//go:noinline
func (z *sizing) spares(joint int) units.Length {
	if z.gap[joint] == 0 {
		return 0
	}
	h := z.row.hinge(joint)
	b := bent{bend: h.Crease, soft: z.row.soft(joint), mid: h.Crease == rule.CreaseMidGap, gap: z.gap[joint], wide: z.gap[joint] + z.s.Placing}
	if b.soft {
		return b.span(units.Up) - b.span(units.Down)
	}
	b.x, _ = creased(h, b.gap)
	return b.in(units.Up) - b.in(units.Down)
}

// A layer is what lies between the wrong sides of the coverings of two boards of
// which one lies on the other.
type layer struct{ low, high int }

// layers walks the pairs of boards of which one lies on the other somewhere.
func (f *folding) layers(yield func(layer) bool) {
	for high := range f.n {
		for low := range f.n {
			if f.near[low].has(high) && !yield(layer{low, high}) {
				return
			}
		}
	}
}

// takes returns the terms of what a layer takes: nothing but its own sheets with
// faces that are not both insides, and what the contents ask for with two
// insides, which are added up by themselves.
func (z *sizing) takes(l layer) (terms [5]units.Term, insides bool) {
	s := z.s
	lowIn, highIn := z.f.up(l.low), !z.f.up(l.high)
	covering := units.T("covering caliper", s.Covering.Caliper)
	if s.Quarter.Rule != rule.QuarterNever {
		covering = units.T("covering where one laps the other", s.overEdge(true))
	}
	under := units.T("under the flap", s.Closing.UnderFlap)
	switch {
	case lowIn && highIn:
		return terms, true
	case !lowIn && !highIn:
		covering.Count = 2
		return [5]units.Term{covering, units.T("between the outsides", s.Closing.UnderFlap)}, false
	}
	board, turned := units.T("board caliper", s.Board.Caliper), units.T("turn-ins", s.turnIns(1))
	if z.row.role(z.f.inRow(l.low)) == boards.LeftCover || z.row.role(z.f.inRow(l.high)) == boards.LeftCover {
		board.Label = "front board caliper"
	}
	if z.row.role(z.f.inRow(l.high)) == boards.Flap {
		turned.Label = "turn-ins of the flap"
	}
	return [5]units.Term{board, covering, units.T("liner caliper", s.Liner.Caliper), turned, under}, false
}

// plain is what a layer of two insides takes: the spine board as the Spec says, or
// what it asks for where all joints are soft.
func (z *sizing) plain() units.Length {
	if z.spine != 0 {
		return z.spine
	}
	return 2*(z.s.Board.Caliper+z.s.Liner.Caliper) + z.s.filled()
}

// need adds up what a layer takes.
func (z *sizing) need(l layer) units.Length {
	terms, insides := z.takes(l)
	if insides {
		return z.plain()
	}
	return total(terms[:])
}

// hem returns the fold at the end of a board that lies inside another one, where it
// has one there, and which of its two boards are the lower and the upper.
func (z *sizing) hem(board, fold int) (low, high int, ok bool) {
	for _, k := range [...]int{board - 1, board} {
		if k >= 0 && k < z.f.n-1 && z.right(k) == z.right(fold) {
			if z.f.rank[k] < z.f.rank[k+1] {
				return k, k + 1, true
			}
			return k + 1, k, true
		}
	}
	return board, board, false
}
