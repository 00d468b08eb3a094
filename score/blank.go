package score

import (
	"cmp"
	"iter"
	"slices"

	"boardwrap.example/internal/inorder"
	"boardwrap.example/units"
)

// A Blank is a cut sheet with its score lines, cut-outs, notches, glue areas
// and tabs, checked by [NewBlank]. Blanks cannot be changed.
type Blank struct {
	_ [0]func() // blanks are compared by Equal
	d *Draft    // nil of the zero Blank
}

// draft returns what the blank was made from, which nobody may change.
func (b Blank) draft() *Draft {
	if b.d == nil {
		return &Draft{}
	}
	return b.d
}

// NewBlank checks a draft and returns the blank. The error lists everything
// that is wrong: a line off the sheet or on another one, a cut-out, notch, slant,
// glue area or tab that reaches beyond the edges, cuts that share an area, cuts
// that leave no paper or more than one piece of it, glue twice in one place or
// where there is no paper. Partial lines come back with From and To filled in.
func NewBlank(d Draft) (Blank, error) {
	own := d.own() // what the caller keeps of d may lie on its stack
	if err := checkDrawing(own); err != nil {
		return Blank{}, err
	}
	return Blank{d: own}, nil
}

// StripBlank returns the blank of a strip whose scores run along an axis from
// edge to edge: with Upright scores the strip is the width of the blank and
// across its height, with Level scores the other way round.
func StripBlank(s Strip, axis Axis, across units.Length) (Blank, error) {
	d := Draft{Size: units.Size{W: s.Length(), H: across}}
	if axis == Level {
		d.Size = d.Size.Turned()
	}
	for _, sc := range s.Scores() {
		d.Lines = append(d.Lines, Line{Axis: axis, At: sc.At, Fold: sc.Fold})
	}
	return NewBlank(d)
}

// Equal reports whether two blanks were made from the same draft.
func (b Blank) Equal(c Blank) bool {
	p, q := b.draft(), c.draft()
	return p.Size == q.Size && slices.Equal(p.Lines, q.Lines) && slices.Equal(p.CutOuts, q.CutOuts) && slices.Equal(p.Notches, q.Notches) &&
		slices.Equal(p.Slants, q.Slants) && slices.Equal(p.Glue, q.Glue) && slices.Equal(p.Tabs, q.Tabs)
}

// Size returns the size of the sheet that the blank is cut from.
func (b Blank) Size() units.Size { return b.draft().Size }

// Draft returns a copy of what the blank was made from.
func (b Blank) Draft() Draft { return b.draft().clone() }

// Lines walks the score lines in the order given.
func (b Blank) Lines() iter.Seq2[int, Line] { return slices.All(b.draft().Lines) }

// CutOuts walks the cut-outs in the order given.
func (b Blank) CutOuts() iter.Seq2[int, CutOut] { return slices.All(b.draft().CutOuts) }

// Notches walks the notches in the order given.
func (b Blank) Notches() iter.Seq2[int, Notch] { return slices.All(b.draft().Notches) }

// Slants walks the slants in the order given.
func (b Blank) Slants() iter.Seq2[int, Slant] { return slices.All(b.draft().Slants) }

// Outline returns the edge of the blank as it is cut and the openings within it:
// its size less notches, slants, tapers of tabs, and cut-outs. Cut-outs that reach
// the edge are part of the outline, and those that touch make one opening. A
// quarter of a round stands there as twelve chords with their corners on it, to
// the nanometre, so that paper is shown for up to 1/460 of its radius where the
// round is cut. It is worked out anew at each call.
func (b Blank) Outline() (edge units.Polygon, openings []units.Polygon) {
	all := cuts(b.draft(), func(cutList, int) bool { return true })
	pieces, openings := outline(b.draft().Size, shapes(b.draft(), all))
	if len(pieces) == 0 { // the zero Blank
		return units.Polygon{}, nil
	}
	return pieces[0], openings
}

// Part returns the outline of what of the blank lies in a rectangle on it, as a
// panel between its lines does, from the corner of the rectangle, and the openings
// that lie within it; one that reaches its edge is a recess of the outline. Where
// cuts part it, it is the largest part. Points where a slant or a round meets the
// rectangle's edge are rounded to the nanometre. It is the zero Polygon where no
// paper is in the rectangle, or part of it does not lie on the blank.
func (b Blank) Part(r units.Rect) (edge units.Polygon, openings []units.Polygon) {
	if r.Empty() || !r.In(units.RectAt(units.Point{}, b.draft().Size)) {
		return units.Polygon{}, nil
	}
	var inside []units.Polygon
	for _, c := range cuts(b.draft(), func(cutList, int) bool { return true }) {
		if !c.box.Overlaps(r) {
			continue
		}
		if q := within(c.shape(b.draft()), r); !q.Empty() {
			inside = append(inside, q)
		}
	}
	pieces, openings := outline(r.Size(), inside)
	var most units.Area
	for _, p := range pieces {
		if a := p.DoubleArea(); edge.Empty() || a.Compare(most) > 0 {
			edge, most = p, a
		}
	}
	return edge, slices.DeleteFunc(openings, func(o units.Polygon) bool {
		for _, c := range o.Corners() {
			return !edge.Contains(c)
		}
		return true
	})
}

// Area returns how much paper the blank is: its size less all that is cut off
// and out of it. Where nothing is round it is exact but for half a square
// nanometre, rounded in direction d. A round counts as a true one, and as π has
// no end, Down is then never above the area and Up never below it, and no
// direction is off by more than 200 nm².
func (b Blank) Area(d units.Direction) units.Area {
	twice := b.draft().Size.Area().Times(2)
	var rounds units.Area // squares about the quarter rounds, of which π/4 counts
	for _, n := range b.draft().Notches {
		if n.Round { // half of an oval of the width by twice the depth
			rounds = rounds.Plus(n.Width.By(n.Depth))
		} else {
			twice = twice.Minus(n.Width.By(n.Depth).Times(2))
		}
	}
	for _, t := range b.draft().Slants {
		twice = twice.Minus(t.Along.By(t.Down))
	}
	for _, t := range b.draft().Tabs {
		twice = twice.Minus(t.Taper.By(t.Depth).Times(2))
	}
	for _, c := range b.draft().CutOuts {
		corners := c.Radius.By(c.Radius).Times(4)
		twice = twice.Minus(c.Area.Size().Area().Minus(corners).Times(2))
		rounds = rounds.Plus(corners)
	}
	// π/4 lies between quarterPi and the next number above it.
	var less units.Area
	if d == units.Up {
		less, _ = rounds.Scale(quarterPi, piUnit, units.Down)
	} else if rounds.Sign() > 0 {
		less, _ = rounds.Scale(quarterPi+1, piUnit, units.Up)
	}
	area, _ := twice.Minus(less.Times(2)).Scale(1, 2, d)
	return area
}

// quarterPi is π/4 times piUnit, rounded down.
const (
	quarterPi = 785_398_163_397_448_309
	piUnit    = 1_000_000_000_000_000_000
)

// Glue walks the glue areas in the order given.
func (b Blank) Glue() iter.Seq2[int, Glue] { return slices.All(b.draft().Glue) }

// Tabs walks the tabs in the order given.
func (b Blank) Tabs() iter.Seq2[int, Tab] { return slices.All(b.draft().Tabs) }

// Strip returns the blank as a strip: its lines along the axis that run from
// edge to edge, in rising order. Partial lines do not fold the whole strip and
// are left out.
func (b Blank) Strip(axis Axis) (Strip, error) {
	length, across := b.draft().Size.W, b.draft().Size.H
	if axis == Level {
		length, across = across, length
	}
	var lines []Line
	for _, l := range b.draft().Lines {
		if l.Axis == axis && l.From == 0 && l.To == across {
			lines = append(lines, l)
		}
	}
	inorder.Sort(lines, func(a, b Line) int { return cmp.Compare(a.At, b.At) })
	at := make([]units.Length, len(lines))
	folds := make([]Fold, len(lines))
	for i, l := range lines {
		at[i], folds[i] = l.At, l.Fold
	}
	return ScoredStrip(length, at, folds...)
}

// Whole reports whether a line of the blank runs from edge to edge.
func (b Blank) Whole(l Line) bool {
	return l.From == 0 && l.To == acrossOf(b.draft().Size, l.Axis)
}
