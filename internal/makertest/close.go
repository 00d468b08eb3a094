package makertest

import (
	"errors"
	"fmt"
	"slices"

	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

// A lying board covers a stretch across, counted from the left edge of the row with
// the boards that will stand left out, as far as can be said of one that has turned
// without knowing where in its gaps it is creased.
type lying struct {
	board    int
	from, to units.Length
	unsure   units.Length // how far off that may be, either way
}

// by returns how far a board at least and at most lies over another.
func (l lying) by(o lying) (least, most units.Length) {
	lap, off := min(l.to, o.to)-max(l.from, o.from), l.unsure+o.unsure
	return lap - off, lap + off
}

// close closes the folio: every board but one turns once, over the one that
// lies there already, and none through another.
func (t *table) close(c work.Close) error {
	if err := t.findRow(); err != nil {
		return err
	}
	if t.closed {
		return errors.New("the folio is closed twice")
	}
	for _, b := range t.bonds {
		if b.wet {
			return fmt.Errorf("the folio is closed while %s is wet", b.a.of)
		}
	}
	for _, p := range t.row.papers {
		if err := t.shut(p); err != nil {
			return fmt.Errorf("the folio is closed while %w", err)
		}
	}
	n := len(t.job.Row)
	turned := make([]bool, n)
	upright := make([]bool, n)
	for _, w := range c.Turns {
		if w.Board < 0 || w.Board >= n || w.Over < -1 || w.Over >= n || w.Over == w.Board {
			return fmt.Errorf("board %d turns over board %d", w.Board, w.Over)
		}
		if turned[w.Board] {
			return fmt.Errorf("board %d turns twice", w.Board)
		}
		turned[w.Board], upright[w.Board] = true, w.Over == -1
	}
	base := slices.Index(turned, false)
	if base < 0 || slices.Contains(turned[base+1:], false) {
		return errors.New("not just one board stays on the table")
	}
	sides, err := t.turns(c.Turns, base, upright)
	if err != nil {
		return err
	}
	if err := t.linersTurn(); err != nil {
		return err
	}
	if c.Doors != sides {
		return fmt.Errorf("two doors that meet: said %t, are %t", c.Doors, sides)
	}
	if c.Ajar != t.job.Ajar {
		return fmt.Errorf("hinges that stop short: said %t, planned %t", c.Ajar, t.job.Ajar)
	}
	if c.Left != t.job.Left {
		return fmt.Errorf("%v are said to be left; planned %v", c.Left, t.job.Left)
	}
	t.closed = true
	t.note("close %v", c.Turns)
	return nil
}

// turns turns the boards one after the other, each with all that lies beyond it, and
// reports whether two of them come to lie on the one that stays on the table.
func (t *table) turns(turns []work.Turned, base int, upright []bool) (bool, error) {
	var stack []lying // from the table up
	var at units.Length
	for i := range t.job.Row {
		if i > 0 {
			at += t.gap(i - 1).Size().W
		}
		if !upright[i] {
			w := t.boardAt(i).Size().W
			stack = append(stack, lying{board: i, from: at, to: at + w})
			at += w
		}
	}
	stood, done, turnedOver := map[int]bool{}, map[int]bool{}, make([]bool, len(t.job.Row))
	direct := 0
	for _, w := range turns {
		step := 1
		if w.Board > base {
			step = -1
		}
		if upright[w.Board] {
			if stood[w.Board+step] || stood[w.Board-step] {
				return false, fmt.Errorf("board %d stands beside another that does", w.Board)
			}
			if w.Held != -1 {
				return false, fmt.Errorf("board %d is held while board %d stands up, and nothing turns", w.Held, w.Board)
			}
			stood[w.Board] = true
			continue
		}
		// It turns about the foot of a board that stands, or the middle of a gap.
		gap := func(board int) units.Length { return t.gap(min(board, board+step)).Size().W }
		hinge, apart := w.Board+step, gap(w.Board)
		twice := apart // the way from the other board's edge to there and back
		if upright[hinge] {
			if !stood[hinge] {
				return false, fmt.Errorf("board %d turns before board %d", w.Board, hinge)
			}
			twice, apart = 2*gap(hinge), apart+gap(hinge)
			hinge += step
		}
		held := w.Board - step
		for held >= 0 && held < len(t.job.Row) && (upright[held] || done[held]) {
			held -= step
		}
		switch is := held >= 0 && held < len(t.job.Row); {
		case is && w.Held != held:
			return false, fmt.Errorf("board %d is let down on what lies there while board %d turns", held, w.Board)
		case !is && w.Held != -1:
			return false, fmt.Errorf("board %d is held while board %d turns, and turns no more", w.Held, w.Board)
		}
		var tops []int
		var err error
		if stack, tops, err = over(stack, w.Board, hinge, step, apart, twice); err != nil {
			return false, err
		}
		if !slices.Contains(tops, w.Over) {
			return false, fmt.Errorf("board %d comes to lie over board %d, not %d", w.Board, tops[0], w.Over)
		}
		if w.Over == base {
			direct++
		}
		done[w.Board] = true
		for i := w.Board; i >= 0 && i < len(t.job.Row); i -= step {
			turnedOver[i] = !turnedOver[i]
		}
	}
	for i := range t.job.Row {
		if i != base && !upright[i] && !done[i] {
			return false, fmt.Errorf("board %d does not turn", i)
		}
	}
	t.outsides = outsidesMeet(stack, turnedOver, upright)
	return direct == 2, nil
}

// outsidesMeet returns the gaps at folds whose boards lie with their outsides to each
// other: the lower one turned over, so that its outside is up.
func outsidesMeet(stack []lying, over, upright []bool) []int {
	var gaps []int
	height := func(board int) int { return slices.IndexFunc(stack, func(l lying) bool { return l.board == board }) }
	for left := range upright {
		right := left + 1
		if right < len(upright) && upright[right] {
			right++
		}
		if right >= len(upright) || upright[left] {
			continue
		}
		lower := left
		if height(right) < height(left) {
			lower = right
		}
		for gap := left; gap < right && over[lower]; gap++ {
			gaps = append(gaps, gap)
		}
	}
	return gaps
}

// linersTurn objects where a liner lies flat over a gap and has to go round the edges
// of the boards, further than the gap is wide, as they turn; and where it has been worked
// down for nothing.
func (t *table) linersTurn() error {
	around := units.Longest
	for _, p := range t.job.Pieces {
		if p.Role == Covering || p.Role == Strip {
			around = min(around, 2*p.Caliper)
		}
	}
	around += 2 * t.job.Pieces[t.job.Row[0].Piece].Caliper
	for _, p := range t.row.papers {
		if p.plan == nil || p.plan.Role != Liner && p.plan.Role != Edging {
			continue
		}
		for _, g := range t.gapsUnder(p) {
			out, deep := slices.Contains(t.outsides, g), slices.Contains(p.deep, g)
			laid := t.job.Row[g+1].Laid.Min.X - t.job.Row[g].Laid.Max.X
			switch {
			case out && !deep && laid < around:
				return fmt.Errorf("%s holds the boards open at gap %d of %v: round their edges it takes %v", p, g, laid, around)
			case deep && !out:
				return fmt.Errorf("%s is worked to the bottom of gap %d, where insides come together", p, g)
			}
		}
	}
	return nil
}

// over turns a board and all beyond it half a turn about its hinge with another
// board, from which it is so far apart, over what lies there, and returns how they lie
// then and what the board comes to lie over: the first surely, unless it is −1, those that
// lie higher perhaps.
func over(stack []lying, board, hinge, step int, apart, twice units.Length) ([]lying, []int, error) {
	at := func(b int) int { return slices.IndexFunc(stack, func(l lying) bool { return l.board == b }) }
	if at(board) < 0 || at(hinge) < 0 {
		return nil, nil, fmt.Errorf("board %d or board %d does not lie", board, hinge)
	}
	a, b := stack[at(board)], stack[at(hinge)]
	var line units.Length // twice as far across as it turns about
	switch {
	case a.to+apart == b.from:
		line = 2*b.from - twice
	case a.from == b.to+apart:
		line = 2*b.to + twice
	default:
		return nil, nil, fmt.Errorf("board %d does not lie flat beside board %d", board, hinge)
	}
	// As made, boards are off by a little, and the gaps take that up.
	const little = units.Millimetre
	beyond := func(l lying) bool { return (l.board-board)*step <= 0 }
	var stays, turned []lying
	for i, l := range stack {
		if !beyond(l) {
			stays = append(stays, l)
			continue
		}
		for _, o := range stack[i+1:] {
			if least, _ := l.by(o); !beyond(o) && least > little {
				return nil, nil, fmt.Errorf("board %d lies over board %d, which turns", o.board, l.board)
			}
		}
		turned = append(turned, lying{l.board, line - l.to, line - l.from, l.unsure + apart})
	}
	slices.Reverse(turned)
	tops := []int{-1}
	for _, l := range turned {
		if l.board != board {
			continue
		}
		for _, o := range stays {
			switch least, most := l.by(o); {
			case least > little:
				tops = append(tops[:0], o.board)
			case most > 0:
				tops = append(tops, o.board)
			}
		}
	}
	return append(stays, turned...), tops, nil
}
