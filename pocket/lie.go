package pocket

import (
	"cmp"
	"slices"

	"boardwrap.example/internal/inorder"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A folding is the work of package score on the pieces of a design.
type folding struct{ bad check.List }

// Levels returns how many layers of paper lie under each panel when the pocket
// is closed, where most do, in the order of [Design.Panels]. The order of the
// layers is as package score folds the pieces, which is worked out anew at each
// call.
func (d Design) Levels() []int {
	levels, _ := d.of().levels()
	return levels
}

func (d *design) levels() ([]int, error) {
	var s folding
	levels := make([]int, len(d.panels))
	type key struct{ chain, piece int }
	lies := map[key]lie{}
	for i, p := range d.panels {
		folds := d.pieces[p.piece].folds
		k := key{p.chain, p.piece}
		if p.chain > 0 {
			k.piece = 0
		}
		l, ok := lies[k]
		switch {
		case ok:
		case p.fixed || len(folds) == 0:
			levels[i] = p.lift
			continue
		case p.chain > 0:
			l = s.foldChain(d, d.chains[p.chain-1])
		default:
			l = s.fold(d.pieces[p.piece].blank, folds[0].axis, folds)
		}
		if s.bad.Len() > 0 {
			return levels, s.bad.Err()
		}
		lies[k] = l
		levels[i] = p.lift + l.under(p.number)
		if p.crossed {
			// Each panel of the strip lies with its pocket's front on it, or
			// under it, over the tab and those that follow.
			levels[i] = 2*l.under(p.number) - 1
			if over := l.side(p.number) == score.Face; over == p.front {
				levels[i]++
			}
		}
	}
	return levels, nil
}

// A lie is how the panels of a piece along one axis lie when it is closed: how
// package score folds them.
type lie struct {
	folded score.Folding
	over   bool  // upside down: the part with the first panel was turned
	panel  []int // of score's strip, for each of the piece's; walls have −1
	level  []int // of score's panels: layers under each, where most are
}

// manyPanels is from where on a strip is folded at once and not fold by fold,
// which takes time in the cube of its panels. It must then fold in one way
// only, as to and fro.
const manyPanels = 48

// fold folds the lines of a blank along an axis, each of which has its crease.
// Those that are only creased lie flat; the panel between two folds of a right
// angle is a wall and takes no part. Blanks whose lines do not fold as told are reported.
func (s *folding) fold(b score.Blank, axis score.Axis, folds []crease) lie {
	var lines []score.Line
	for _, line := range b.Lines() {
		if line.Axis == axis {
			lines = append(lines, line)
		}
	}
	inorder.Sort(lines, func(a, b score.Line) int { return cmp.Compare(a.At, b.At) })
	end := b.Size().W
	if axis == score.Level {
		end = b.Size().H
	}
	panels := make([]units.Length, 0, len(lines)+1)
	var from units.Length
	for _, line := range lines {
		panels = append(panels, line.At-from)
		from = line.At
	}
	var along []crease
	for _, f := range folds {
		if f.axis == axis {
			along = append(along, f)
		}
	}
	return s.foldStrip(append(panels, end-from), lines, along, false)
}

// foldStrip is fold for a strip with the given panels and the lines between
// them, which lies turned over at first or not.
func (s *folding) foldStrip(panels []units.Length, lines []score.Line, folds []crease, over bool) (l lie) {
	l.over = over
	ends := make([]end, len(lines)) // how each lies in use
	at := func(f crease) int {
		i, _ := slices.BinarySearchFunc(lines, f.at, func(line score.Line, at units.Length) int { return cmp.Compare(line.At, at) })
		return i
	}
	for _, f := range folds {
		ends[at(f)] = f.end
	}
	var widths []units.Length
	var kinds []score.Fold
	number := make([]int, len(lines)) // score's number of each line, −1 for one that it does not have
	n, wide := 0, panels[0]
	l.panel = append(l.panel, 0)
	for i, line := range lines {
		switch {
		case ends[i] == creased: // it lies flat: both sides of it are one
			number[i] = -1
			wide += panels[i+1]
		case i > 0 && ends[i].wall() && ends[i-1].wall() && number[i-1] >= 0:
			// The wall before this line: both quarter turns make one fold.
			l.panel[i], number[i] = -1, -1
			wide = panels[i+1]
		default:
			widths, kinds = append(widths, wide), append(kinds, line.Fold)
			number[i] = n
			n++
			wide = panels[i+1]
		}
		l.panel = append(l.panel, n)
	}
	strip, err := score.NewStrip(append(widths, wide), kinds...)
	if err != nil {
		s.bad.Under("strip", err)
		return lie{}
	}
	var steps []score.Turn
	for _, f := range folds {
		i := at(f)
		if number[i] < 0 {
			continue
		}
		steps = append(steps, score.Turn{Score: number[i]})
		if f.moves == score.Left || f.moves == score.Head {
			l.over = !l.over
		}
	}
	if strip.Len() > manyPanels && len(steps) == strip.Len()-1 {
		l.folded, err = strip.Fold()
	} else {
		l.folded, err = strip.FoldBy(nil, steps...)
	}
	s.bad.Under("strip", err)
	l.level = make([]int, strip.Len())
	for stack := range l.folded.Stacks() {
		for at, p := range stack.Panels {
			if l.over {
				at = len(stack.Panels) - 1 - at
			}
			l.level[p] = max(l.level[p], at)
		}
	}
	return l
}

// side returns which side of the drawing lies up at a panel of the piece.
func (l lie) side(panel int) score.Side {
	if l.panel[panel] < 0 || l.folded.FaceUp(l.panel[panel]) != l.over {
		return score.Face
	}
	return score.Back
}

// under returns how many layers lie under a panel of the piece.
func (l lie) under(panel int) int {
	if l.panel[panel] < 0 {
		return 0
	}
	return l.level[l.panel[panel]]
}

// foldChain folds a strip that may be joined of several, as one.
func (s *folding) foldChain(d *design, chain []link) lie {
	var lines []score.Line
	var folds []crease
	for _, l := range chain {
		p := d.pieces[l.piece]
		var own []score.Line
		for _, line := range p.blank.Lines() {
			if line.Axis == score.Upright && line.From == 0 {
				line.At += l.from
				own = append(own, line)
			}
		}
		inorder.Sort(own, func(a, b score.Line) int { return cmp.Compare(a.At, b.At) })
		lines = append(lines, own...)
		var along []crease
		for _, f := range p.folds {
			if f.axis == score.Upright {
				f.at += l.from
				along = append(along, f)
			}
		}
		folds = append(folds, along...)
	}
	panels := make([]units.Length, 0, len(lines)+1)
	var from units.Length
	for _, line := range lines {
		panels = append(panels, line.At-from)
		from = line.At
	}
	last := chain[len(chain)-1]
	end := last.from + d.pieces[last.piece].blank.Size().W
	return s.foldStrip(append(panels, end-from), lines, folds, d.pieces[chain[0].piece].over)
}
