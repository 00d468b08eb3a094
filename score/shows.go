package score

import (
	"iter"

	"boardwrap.example/units"
)

// A Shown is a stretch of the folded strip on which one side of one panel is
// seen. It is plain data.
type Shown struct {
	From, To units.Length // from the left edge of the folded strip, seen from above
	Panel    int          // the panel that is seen
	Side     Side         // the side of it that is seen
}

// Top returns what is seen from above, from left to right.
func (f Folding) Top() []Shown { return f.shown(true) }

// Bottom returns what is seen from below, in the same left to right order as
// seen from above.
func (f Folding) Bottom() []Shown { return f.shown(false) }

func (f *Folding) shown(top bool) []Shown {
	var out []Shown
	f.walk(func(from, to units.Length, panels []int) bool {
		p := panels[0]
		if top {
			p = panels[len(panels)-1]
		}
		if n := len(out); n > 0 && out[n-1].Panel == p {
			out[n-1].To = to
			return true
		}
		out = append(out, Shown{from, to, p, sideSeen(f.up[p], top)})
		return true
	})
	return out
}

// sideSeen returns the side that a panel shows to one who looks from above or
// from below.
func sideSeen(faceUp, above bool) Side {
	if faceUp == above {
		return Face
	}
	return Back
}

// TopShows returns over how much of its width the folded strip shows a side
// from above: 0 if that side is not seen there at all, the whole [Folding.Width]
// if no other is.
func (f Folding) TopShows(s Side) units.Length { return width(f.Top(), s) }

// BottomShows is [Folding.TopShows] for the view from below.
func (f Folding) BottomShows(s Side) units.Length { return width(f.Bottom(), s) }

func width(seen []Shown, s Side) units.Length {
	var sum units.Length
	for _, v := range seen {
		if v.Side == s {
			sum += v.To - v.From
		}
	}
	return sum
}

// A FoldedPanel is where a panel lies in the folded strip. It is plain data.
type FoldedPanel struct {
	Panel    int          // counted from 0 from the left end of the flat strip
	From, To units.Length // its edges, from the left edge of the folded strip
	// Layer is its place in the stack, counted from 0 at the bottom over all
	// panels: of two panels that overlap the one with the higher number lies
	// over the other. See [Folding.At] for the layers in one place.
	Layer  int
	FaceUp bool // whether its face looks up; its left end is then on the left
}

// Panels walks where the panels lie, in the order of the flat strip.
func (f Folding) Panels() iter.Seq2[int, FoldedPanel] {
	return func(yield func(int, FoldedPanel) bool) {
		for p := range f.order {
			from, to := f.Span(p)
			if !yield(p, FoldedPanel{p, from, to, f.rank[p], f.up[p]}) {
				return
			}
		}
	}
}

// FaceUp reports whether a part of the sheet lies with its face up; false if
// there is no such part.
func (s CrossFolded) FaceUp(l CrossPanel) bool {
	if l.First < 0 || l.First >= len(s.first.up) || l.Second < 0 || l.Second >= len(s.second.up) {
		return false
	}
	return s.first.up[l.First] == s.second.up[l.Second]
}

// TopShows returns how much of the folded sheet's area shows a side of the
// paper from above: none if that side is not seen there at all.
func (s CrossFolded) TopShows(side Side) units.Area { return s.shows(side, true) }

// BottomShows is [CrossFolded.TopShows] for the view from below.
func (s CrossFolded) BottomShows(side Side) units.Area { return s.shows(side, false) }

// shows adds up what is seen: of a stack that lies face up its top, of one that
// lies face down its bottom, looked at from above.
func (s CrossFolded) shows(side Side, above bool) units.Area {
	second := s.second.shown(above)
	return s.first.TopShows(side).By(width(second, Face)).Plus(s.first.BottomShows(side).By(width(second, Back)))
}
