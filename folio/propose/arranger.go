package propose

import (
	"boardwrap.example/folio/place"
	"boardwrap.example/units"
)

// A laid is a fitting where it lies on its cover.
type laid struct {
	leaf int
	nth  int // of those laid on its board
	kind int
	at   units.Point // from the corner of what may be covered of the panel
	by   [2]inLine   // how that follows, across and along
}

// An inLine says how the place of a fitting follows on one axis.
type inLine struct {
	how   following
	of    int // the fitting it lies in line with, as they were laid on their board
	align place.Align
	off   units.Length // from there
}

// A following is what the place of a fitting follows from.
type following uint8

const (
	fromMiddle following = iota // of its board, a length away
	evenly                      // its board, with others
	inLineWith                  // another fitting
)

// bulk is how thick all that lies in a shape is together.
func bulk(s *shape, opts []option) units.Length {
	if s.cut == noCut {
		return opts[s.kind].box.bulk
	}
	return bulk(s.a, opts) + bulk(s.b, opts)
}

// An arranger lays one board out.
type arranger struct {
	s    *searcher
	opts []option
	leaf int
	all  []laid
}

// put lays a shape with its corner at a place.
func (a *arranger) put(s *shape, at units.Point) {
	if s.cut == noCut {
		a.all = append(a.all, laid{leaf: a.leaf, nth: len(a.all), kind: s.kind, at: at})
		return
	}
	first, second := a.ordered(s)
	middle := func(spare units.Length, far bool) units.Length {
		switch {
		case a.s.request.Taste.Order == Centred:
			return a.s.middle(spare)
		case far:
			return spare
		}
		return 0
	}
	if s.cut == upright {
		a.put(first, at.Plus(units.Point{Y: middle(s.h-first.h, false)}))
		a.put(second, at.Plus(units.Point{X: s.w - second.w, Y: middle(s.h-second.h, false)}))
		return
	}
	spineRight := a.s.leaves[a.leaf].toSpine() > 0
	a.put(first, at.Plus(units.Point{X: middle(s.w-first.w, spineRight)}))
	a.put(second, at.Plus(units.Point{X: middle(s.w-second.w, spineRight), Y: s.h - second.h}))
}

// ordered returns the two parts of a shape, the thicker one nearer to the spine, or
// to the tail.
func (a *arranger) ordered(s *shape) (first, second *shape) {
	spine := a.s.leaves[a.leaf].toSpine()
	one, other := bulk(s.a, a.opts), bulk(s.b, a.opts)
	if a.s.request.Taste.Anyhow || one == other || s.cut == upright && spine == 0 {
		return s.a, s.b
	}
	if thickFirst := s.cut == upright && spine < 0; (one > other) != thickFirst {
		return s.b, s.a
	}
	return s.a, s.b
}

// middle returns where something lies in the middle that leaves so much free.
func (s *searcher) middle(spare units.Length) units.Length {
	return s.fitting.Down(spare.Half(units.Down))
}

// inRow is how things lie to the largest in their row, which lies across or along
// the board.
func (t *Taste) inRow(tall bool, toSpine int) place.Align {
	switch {
	case t.Order == Centred:
		return place.Middle
	case tall:
		return place.Head
	case toSpine > 0:
		return place.Right
	}
	return place.Left
}

// axis is the place of an axis in laid.by.
func axis(tall bool) int {
	if tall {
		return 1
	}
	return 0
}

// coordinate returns the one of a point on an axis.
func coordinate(p *units.Point, tall bool) *units.Length {
	if tall {
		return &p.Y
	}
	return &p.X
}
