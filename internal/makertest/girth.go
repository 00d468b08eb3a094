package makertest

import (
	"math"
	"slices"

	"boardwrap.example/score"
	"boardwrap.example/units"
)

// tight returns how much the walls that a content lies between are too short to go
// round it: what is so wide and so thick takes a tube twice as long as both together,
// cut across the way in (derived). Where the walls do not join on either side there is
// no tube, and nothing is too short.
func (t *table) tight(b *body, upper, lower *facet, spot region, from score.Edge, thick units.Length) units.Length {
	r := spot.and(upper.shape).rect()
	s := section{t: t, line: score.Line{Axis: score.Level, At: r.Min.Y + r.Size().H/2, From: -1e12, To: 1e12}}
	wide, middle := spot.rect().Size().W, r.Min.X+r.Size().W/2
	if from == score.Left || from == score.Right {
		s.line.Axis, s.line.At = score.Upright, r.Min.X+r.Size().W/2
		wide, middle = spot.rect().Size().H, r.Min.Y+r.Size().H/2
	}
	s.cut(b, upper, lower, middle)
	left, right := s.way(-1), s.way(1)
	if left < 0 || right < 0 {
		return 0
	}
	return max(0, 2*(wide+thick)-left-right)
}

// A section is a cut across a body: places along its walls, and what leads from one
// to another.
type section struct {
	t      *table
	line   score.Line
	places []along // the first two are those over and under the middle of the content
	joins  []lead
}

// along is a place on a wall.
type along struct {
	on *facet
	at units.Length
}

// A lead goes from a place on one wall to the place on another that it is stuck to
// or folded from, and costs what it takes to go through that.
type lead struct {
	from, to int
	cost     units.Length
}

// place returns the number of a place.
func (s *section) place(on *facet, at units.Length) int {
	p := along{on, at}
	if i := slices.Index(s.places, p); i >= 0 {
		return i
	}
	s.places = append(s.places, p)
	return len(s.places) - 1
}

// join joins two walls at a place.
func (s *section) join(a, b *facet, at units.Length, through bool) {
	i, k := s.place(a, at), s.place(b, at)
	cost := func(f *facet) units.Length {
		if !through || f == s.places[0].on || f == s.places[1].on {
			return 0
		}
		return f.of.caliper
	}
	s.joins = append(s.joins, lead{i, k, cost(b)}, lead{k, i, cost(a)})
}

// cut finds the places where walls are joined.
func (s *section) cut(b *body, upper, lower *facet, middle units.Length) {
	s.place(upper, middle)
	s.place(lower, middle)
	for _, d := range s.t.bonds {
		if d.a.of.body != b || d.a.stands || d.b.stands {
			continue
		}
		if from, to := extent(d.at(), s.line); from < to {
			s.join(d.a, d.b, from, true)
			s.join(d.a, d.b, to, true)
			if from < middle && middle < to { // all of it is stuck there
				s.join(d.a, d.b, middle, true)
			}
		}
	}
	const d = 1000 // nanometres to either side
	strip := units.Rect{Min: units.Point{X: s.line.From, Y: s.line.At - d}, Max: units.Point{X: s.line.To, Y: s.line.At + d}}
	if s.line.Axis == score.Upright {
		strip = units.Rect{Min: units.Point{X: s.line.At - d, Y: s.line.From}, Max: units.Point{X: s.line.At + d, Y: s.line.To}}
	}
	for _, p := range b.papers {
		for _, c := range p.creases {
			axis, at := c.a.lies.line(c.line.Axis, c.line.At)
			if axis != s.line.Axis && !c.a.stands && !c.b.stands && c.real() && c.within(rectRegion(strip)) {
				s.join(c.a, c.b, at, false)
			}
		}
	}
}

// way returns how far it is along the walls from over the middle to under it on one
// side, −1 where there is no way.
func (s *section) way(side int) units.Length {
	middle := s.places[0].at
	here := func(p along) bool { return side < 0 && p.at <= middle || side > 0 && p.at >= middle }
	far := make([]units.Length, len(s.places))
	for i := range far {
		far[i] = math.MaxInt64
	}
	far[0] = 0
	done := make([]bool, len(far))
	for {
		i := -1
		for k := range far {
			if !done[k] && far[k] < math.MaxInt64 && (i < 0 || far[k] < far[i]) {
				i = k
			}
		}
		if i < 0 {
			return -1
		}
		if i == 1 {
			return far[1]
		}
		done[i] = true
		for k, p := range s.places {
			if p.on == s.places[i].on && here(p) {
				far[k] = min(far[k], far[i]+(p.at-s.places[i].at).Abs())
			}
		}
		for _, j := range s.joins {
			if j.from == i && here(s.places[j.to]) {
				far[j.to] = min(far[j.to], far[i]+j.cost)
			}
		}
	}
}
