package folio

import (
	"boardwrap.example/folio/boards"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A folding is how a row lies when it is shut. The boards that lie are counted
// from the left, those that stand left out; fold k joins the ones k and k+1.
type folding struct {
	n     int                        // boards that lie
	main  int                        // the one that stays on the table
	board [boards.MaxBoards]int8     // where each is in the row
	rank  [boards.MaxBoards]int8     // its layer, counted from the table
	turns [boards.MaxBoards - 1]int8 // the folds in the order in which they are made
	below [boards.MaxBoards]meets    // of each, all that it lies over, in a row of more than two
	near  [boards.MaxBoards]meets    // of each, what lies on it somewhere with nothing between
	kind  [boards.MaxBoards - 1]score.Fold
}

// meets is a set of boards that lie, or of folds.
type meets uint16

func (m meets) has(k int) bool { return m>>k&1 > 0 }

// up reports whether a board that lies has its inside up.
func (f *folding) up(k int) bool { return (k-f.main)%2 == 0 }

// inRow returns the place in the row of a board that lies.
func (f *folding) inRow(k int) int { return int(f.board[k]) }

// between returns the joints on both sides of a fold; of a soft one they are the
// same.
//
//go:noinline
func (f *folding) between(fold int) (left, right int) {
	return f.inRow(fold), f.inRow(fold+1) - 1
}

// lies returns the place among the boards that lie of one in the row.
func (f *folding) lies(board int) int {
	for k := range f.n {
		if f.inRow(k) == board {
			return k
		}
	}
	return -1
}

// A why says what keeps a row from shutting.
type why uint8

const (
	shuts   why = iota
	noTurns     // no layer order to which single turns over the board on the table lead
	notOver     // a board does not come to lie over the one asked for
	notMain     // the board asked for cannot stay on the table
)

// A refusal says why a row does not shut, and where.
type refusal struct {
	why   why
	folds []int // noTurns: that block each other, where no layer order is flat at all
	board int   // in the row: notOver
}

// lay lists the boards that lie.
func (f *folding) lay(s *shape) {
	for i := range s.Boards {
		if !s.stands(i) {
			f.board[f.n] = int8(i)
			f.n++
		}
	}
	for k := range f.n - 1 {
		f.kind[k] = s.folds[f.inRow(k)]
	}
}

// A flat is the row as a strip: how wide each board that lies is, and how far each
// fold lies beyond the boards on its left and right.
type flat struct {
	n    int
	wide [boards.MaxBoards]units.Length
	out  [boards.MaxBoards - 1][2]units.Length
}

// past returns how far the folds at both ends of a board lie beyond it.
func (f *flat) past(k int) (left, right units.Length) {
	if k > 0 {
		left = f.out[k-1][1]
	}
	if k < f.n-1 {
		right = f.out[k][0]
	}
	return left, right
}

// panels returns the panels of the strip: from fold to fold, or from fold to edge.
// Where a row is longer than a strip may be, all are smaller alike, as far as a panel
// may be: it is refused for its width.
func (f *flat) panels() []units.Length {
	out := make([]units.Length, f.n)
	var sum units.Length
	for k := range out {
		left, right := f.past(k)
		out[k] = left + f.wide[k] + right
		sum += out[k]
	}
	for k := 0; k < f.n && sum > units.Longest; k++ {
		smaller, _ := out[k].Scale(1, 4*boards.MaxBoards, units.Up)
		out[k] = max(units.Shortest, smaller)
	}
	return out
}

// fold works out how the row shuts.
func (s *shape) fold(row *flat) (folding, refusal) {
	f, ok := s.oneTurn()
	if ok {
		return f, refusal{}
	}
	return s.foldStrip(f, row)
}

// oneTurn works out how a row of two boards that lie shuts, and reports whether it is
// one.
func (s *shape) oneTurn() (folding, bool) {
	var f folding
	f.lay(s)
	if f.n == 2 && f.kind[0] == score.Valley && s.Boards[f.inRow(0)].Over == boards.MainPanel && s.Boards[f.inRow(1)].Over == boards.MainPanel {
		// One turn, of the left over the right unless asked otherwise.
		if f.main = 1; s.index(s.Main) == f.inRow(0) && s.Main != boards.MainPanel {
			f.main = 0
		}
		f.rank[1-f.main] = 1
		f.near[f.main] = 1 << (1 - f.main)
		return f, true
	}
	return f, false
}

// foldStrip asks package score.
func (s *shape) foldStrip(f folding, row *flat) (folding, refusal) {
	strip, err := score.NewStrip(row.panels(), f.kind[:f.n-1]...)
	if err == nil {
		_, err = strip.Fold()
	}
	if err != nil {
		var blocked []int
		if u, ok := err.(*score.Unfoldable); ok {
			blocked = u.Scores()
		}
		return f, refusal{why: noTurns, folds: blocked}
	}
	t := turner{row: s, flat: row, f: f, strip: strip, unmet: -1}
	for _, main := range t.mains() {
		t.f.main, t.seen = main, map[string]bool{}
		if t.from(nil, 0) {
			return t.f, refusal{}
		}
	}
	switch {
	case t.unmet >= 0:
		return f, refusal{why: notOver, board: t.unmet}
	case s.Main != boards.MainPanel:
		return f, refusal{why: notMain}
	}
	return f, refusal{why: noTurns}
}

// A turner looks for turns that shut a row.
type turner struct {
	row   *shape
	flat  *flat
	f     folding
	strip score.Strip
	seen  map[string]bool // states that lead nowhere; only looked up
	unmet int             // a board that some way to shut leaves not over the one asked for, or −1
}

// mains returns the boards that may stay on the table, the first choice first.
func (t *turner) mains() []int {
	if t.row.Main != boards.MainPanel {
		return []int{t.f.lies(t.row.index(t.row.Main))}
	}
	var out []int
	for k := range t.f.n {
		at := 0
		for at < len(out) && t.flat.wide[out[at]] > t.flat.wide[k] {
			at++
		}
		out = append(out[:at], append([]int{k}, out[at:]...)...)
	}
	return out
}

// order returns the folds in the order in which they are tried: those nearest to
// the board on the table first, on the left before the right.
func (t *turner) order() []int {
	out := make([]int, 0, t.f.n-1)
	for d := range t.f.n {
		if k := t.f.main - 1 - d; k >= 0 {
			out = append(out, k)
		}
		if k := t.f.main + d; k < t.f.n-1 {
			out = append(out, k)
		}
	}
	return out
}

// from looks for the turns that are left to make after some. The part without
// the board on the table turns, over what lies there.
func (t *turner) from(made []score.Turn, done meets) bool {
	for _, k := range t.order() {
		if done.has(k) {
			continue
		}
		turn := score.Turn{Score: k, Part: score.Beyond}
		if k < t.f.main {
			turn.Part = score.Before
		}
		turns := append(made[:len(made):len(made)], turn)
		f, err := t.strip.FoldBy(nil, turns...)
		if err != nil || !overOnly(f) {
			continue
		}
		done := done | 1<<k
		state := key(f, done)
		if t.seen[state] {
			continue
		}
		t.seen[state] = true
		if len(turns) == t.f.n-1 {
			if t.lands(f) {
				for i, made := range turns {
					t.f.turns[i] = int8(made.Score)
				}
				return true
			}
			continue
		}
		if t.from(turns, done) {
			return true
		}
	}
	return false
}

// overOnly reports whether the last turn went over what lay on the table, with
// one fold.
func overOnly(f score.Folding) bool {
	var last score.Made
	for m := range f.Made() {
		last = m
	}
	return last.Turn.Way == score.Towards && len(last.Scores) == 1
}

// key tells states of the table apart.
func key(f score.Folding, done meets) string {
	k := []byte{byte(done), byte(done >> 8)}
	for _, p := range f.Order() {
		k = append(k, byte(p))
	}
	return string(k)
}

// lands notes what lies on what, and reports whether that is as asked for.
func (t *turner) lands(f score.Folding) bool {
	over := func(a, b int) bool {
		is, overlap := f.Over(a, b)
		return overlap && is != f.TurnedOver()
	}
	for i := range t.row.Boards {
		want := t.row.Boards[i].Over
		if want == boards.MainPanel {
			continue
		}
		if !over(t.f.lies(i), t.f.lies(t.row.index(want))) {
			t.unmet = i
			return false
		}
	}
	for at, k := range f.Order() {
		if f.TurnedOver() {
			at = t.f.n - 1 - at
		}
		t.f.rank[k] = int8(at)
	}
	for k := range t.f.n {
		for o := range t.f.n {
			if over(k, o) {
				t.f.below[k] |= 1 << o
			}
		}
	}
	for stack := range f.Stacks() {
		layers := stack.Panels
		for i := range len(layers) - 1 {
			low, high := layers[i], layers[i+1]
			if f.TurnedOver() {
				low, high = high, low
			}
			// Where but a hinge lies over a board nothing meets.
			if t.covers(f, low, stack) && t.covers(f, high, stack) {
				t.f.near[low] |= 1 << high
			}
		}
	}
	return true
}

// covers reports whether a board itself, without its hinges, covers a part of a
// stack that lies over one of its hinges or all of it.
func (t *turner) covers(f score.Folding, k int, stack score.Stack) bool {
	from, to := f.Span(k)
	left, right := t.flat.past(k)
	if !f.FaceUp(k) {
		left, right = right, left
	}
	return max(from+left, stack.From) < min(to-right, stack.To)
}

// A turn is one fold of a row as hands make it: the board that turns with all
// beyond it, the one that it comes to lie over, and the next one beyond it that is
// still to be turned, −1 where there is none: held upright it lies on nothing on the
// way, so that nothing counts there.
type turn struct{ fold, board, over, held int }

// inOrder returns the turns in their order, with boards counted among those that
// lie.
func (f *folding) inOrder() []turn {
	out := make([]turn, 0, f.n-1)
	var made [boards.MaxBoards]bool
	// What is joined to a board in a direction, by folds that are made: the last of it.
	joined := func(from, by int) int {
		for k := min(from, from+by); k >= 0 && made[k]; k += by {
			from += by
		}
		return from
	}
	for _, fold := range f.turns[:f.n-1] {
		k, by := int(fold), -1
		t := turn{fold: k, board: k, over: k + 1}
		if k >= f.main {
			t.board, t.over, by = k+1, k, 1
		}
		if t.held = joined(t.board, by) + by; t.held == f.n {
			t.held = -1
		}
		// What is folded on to the one that it turns about already, and whether
		// that lies now as it does in the end.
		first, last := t.over, joined(t.over, -by)
		over := false
		for j := min(t.over, f.main); j < max(t.over, f.main); j++ {
			over = over != !made[j]
		}
		for o := min(first, last); o <= max(first, last); o++ {
			on := f.below[t.board].has(o) || f.below[o].has(t.board)
			if on && (f.rank[o] > f.rank[t.over]) != over {
				t.over = o
			}
		}
		made[k] = true
		out = append(out, t)
	}
	return out
}
