package makertest

import (
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
	for _, p := range slices.Clone(home.papers) {
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

// closeLeaf folds again what has been laid open.
func (t *table) closeLeaf(p *paper, c *crease) error {
	f := &folding{p: p, do: *c.kept, line: c.line}
	if f.do.Way == work.Away {
		return fmt.Errorf("%s closes at %v under what it lies on", p, c.line.At)
	}
	if err := f.find(); err != nil {
		return err
	}
	if err := f.carry(t); err != nil {
		return err
	}
	f.turn(t)
	return nil
}

// standWalls stands up what lies between two folds, the nearer to what stays
// first.
func (t *table) standWalls(p *paper, walls []*crease) error {
	slices.SortFunc(walls, func(a, b *crease) int {
		d := int(a.line.At - b.line.At)
		if a.kept.Moves == score.Left || a.kept.Moves == score.Head {
			d = -d
		}
		return d
	})
	if len(walls)%2 != 0 {
		return fmt.Errorf("%s stands up at %v without an end", p, walls[0].line.At)
	}
	for ; len(walls) > 0; walls = walls[2:] {
		near := &folding{p: p, do: *walls[0].kept, line: walls[0].line}
		far := &folding{p: p, do: *walls[1].kept, line: walls[1].line}
		for _, f := range [...]*folding{near, far} {
			f.do.Flat = true
			if err := f.find(); err != nil {
				return err
			}
			if err := f.carry(t); err != nil {
				return err
			}
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
