package makertest

import (
	"cmp"
	"fmt"
	"slices"

	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// use lays everything as it lies in use: what has been folded flat and laid
// open again is closed, and what stands at a right angle between two folds is a
// wall, over which the part beyond lies as it does over one fold.
func (t *table) use(home *body) error {
	t.leaves = nil
	for _, p := range slices.Clone(home.papers) {
		if t.liesAsWanted(p, home) {
			continue
		}
		var walls []*crease
		var closed []score.Line
		for _, c := range slices.Clone(p.creases) {
			switch {
			case c.kept == nil || !c.real() || slices.Contains(closed, c.line):
			case c.kept.Flat:
				closed = append(closed, c.line)
				if err := t.closeLeaf(p, c); err != nil {
					return err
				}
			case !slices.ContainsFunc(walls, func(d *crease) bool { return d.line == c.line }):
				walls = append(walls, c)
			}
		}
		if err := t.standWalls(p, walls); err != nil {
			return err
		}
	}
	return nil
}

// liesAsWanted reports whether a paper lies as planned already.
func (t *table) liesAsWanted(p *paper, home *body) bool {
	return !slices.ContainsFunc(t.job.Want, func(w Placed) bool {
		return p.kind == work.Piece && w.Piece == p.index && w.Copy == p.copy && t.compareOne(w, home) != nil
	})
}

// closeLeaf folds again what has been laid open.
func (t *table) closeLeaf(p *paper, c *crease) error {
	f, err := t.inUse(p, c)
	if err == nil {
		f.turn(t)
	}
	return err
}

// inUse returns the fold of what has been laid open, as it is made in use: the
// part turns that is not stuck down, to the side that its fold asks for.
func (t *table) inUse(p *paper, c *crease) (*folding, error) {
	f := &folding{p: p, do: *c.kept, line: c.line}
	f.do.Flat, f.do.Open = true, false
	f.do.Way = work.Towards
	if (c.a.lies.up() == score.Face) != (c.fold == score.Valley) {
		f.do.Way = work.Away
	}
	for again := true; ; again = false {
		if err := f.find(); err != nil {
			return nil, err
		}
		err := f.carry(t)
		if err == nil && (f.do.Way == work.Away) != t.outside(p) {
			return nil, fmt.Errorf("%s closes at %v under what it lies on", p, c.line.At)
		}
		if err == nil || !again {
			return f, err
		}
		f.do.Moves = opposite(f.do.Moves)
	}
}

// standWalls stands up what lies between two folds.
func (t *table) standWalls(p *paper, walls []*crease) error {
	if len(walls)%2 != 0 {
		return fmt.Errorf("%s stands up at %v without an end", p, walls[0].line.At)
	}
	slices.SortFunc(walls, func(a, b *crease) int { return cmp.Compare(a.line.At, b.line.At) })
	for ; len(walls) > 0; walls = walls[2:] {
		// With a flat fold between them, what is between stands on what goes on
		// beyond it, and lies down on it in use.
		if slices.ContainsFunc(p.creases, func(c *crease) bool {
			return c.kept == nil && c.line.Axis == walls[0].line.Axis && walls[0].line.At < c.line.At && c.line.At < walls[1].line.At
		}) {
			continue
		}
		near, err := t.inUse(p, walls[0])
		if err != nil {
			return err
		}
		far, err := t.inUse(p, walls[1])
		if err != nil {
			return err
		}
		if len(near.moves) < len(far.moves) {
			near, far = far, near
		}
		far.turn(t)
		back := asDrawn.moved(units.Point{X: near.at - far.at})
		if far.axis == score.Level {
			back = asDrawn.moved(units.Point{Y: near.at - far.at})
		}
		for c := range far.moves {
			c.put(c.lies.then(back))
		}
		for c := range near.moves {
			if !far.moves[c] {
				c.stands = true
			}
		}
	}
	return nil
}
