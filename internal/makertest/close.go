package makertest

import (
	"errors"
	"fmt"
	"slices"

	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

// A lying board covers a stretch of the board that stays on the table, from
// its left edge.
type lying struct {
	board    int
	from, to units.Length
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
	if c.Doors != sides {
		return fmt.Errorf("two doors that meet: said %t, are %t", c.Doors, sides)
	}
	if c.Left != t.job.Left {
		return fmt.Errorf("%v are said to be left; planned %v", c.Left, t.job.Left)
	}
	t.closed = true
	t.note("close %v", c.Turns)
	return nil
}

// turns turns the boards one after the other, and reports whether two of them
// meet over the one on the table.
func (t *table) turns(turns []work.Turned, base int, upright []bool) (bool, error) {
	width := t.boardAt(base).Size().W
	stack := []lying{{base, 0, width}}
	stood := map[int]bool{}
	direct := 0
	for _, w := range turns {
		step := 1
		if w.Board > base {
			step = -1
		}
		// All between it and the board on the table must have turned before.
		inner := stack[0]
		stands := false
		for k := w.Board + step; k != base; k += step {
			at := slices.IndexFunc(stack, func(l lying) bool { return l.board == k })
			if at < 0 && !stood[k] {
				return false, fmt.Errorf("board %d turns before board %d", w.Board, k)
			}
			if k == w.Board+step {
				stands = stood[k]
			}
			if at >= 0 && k == w.Board+step {
				inner = stack[at]
			}
		}
		if upright[w.Board] {
			if stands {
				return false, fmt.Errorf("boards %d and %d both stand", w.Board, w.Board+step)
			}
			stood[w.Board] = true
			continue
		}
		wide := t.boardAt(w.Board).Size().W
		l := lying{w.Board, inner.from, inner.from + wide}
		if w.Board > base {
			l = lying{w.Board, inner.to - wide, inner.to}
		}
		top := -1
		for _, o := range stack {
			if min(l.to, o.to)-max(l.from, o.from) > 0 {
				top = o.board
			}
		}
		if top != w.Over {
			return false, fmt.Errorf("board %d comes to lie over board %d, not %d", w.Board, top, w.Over)
		}
		if top == base {
			direct++
		}
		stack = append(stack, l)
	}
	return direct == 2, nil
}
