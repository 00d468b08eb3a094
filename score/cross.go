package score

import (
	"iter"
	"strconv"

	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A CrossFolded is a sheet folded flat along one axis and then, as the stack that it
// is by then, along the other: an accordion whose foot is turned up before its
// panels are folded to and fro. It is seen as a [Folding] is. Sheets cannot be
// changed.
type CrossFolded struct {
	first, second Folding
	axis          Axis
}

// MaxParcels is how many parts a sheet that is folded along both axes may have:
// the panels of one strip times those of the other.
const MaxParcels = 20_000

// FoldAcross returns the sheet whose score lines along axis are folded first,
// as first says, and whose lines along the other axis are folded through the
// stack as second says. With axis Level the first strip runs from head to tail
// and the second from left to right. The error is a sheet of more than
// [MaxParcels] parts, or an unknown axis.
func FoldAcross(axis Axis, first, second Folding) (CrossFolded, error) {
	var list check.List
	if axis > Level {
		list.Malformed("axis", check.Unknown, strconv.Itoa(int(axis)), "upright or level")
	}
	if n := first.strip.Len() * second.strip.Len(); n > MaxParcels {
		list.Malformed("panels", check.TooMany, strconv.Itoa(first.strip.Len())+" by "+strconv.Itoa(second.strip.Len()), "at most "+strconv.Itoa(MaxParcels)+" parts")
	}
	if err := list.Err(); err != nil {
		return CrossFolded{}, err
	}
	return CrossFolded{first, second, axis}, nil
}

// Equal reports whether two sheets lie the same way: see [Folding.Equal].
func (s CrossFolded) Equal(t CrossFolded) bool {
	return s.axis == t.axis && s.first.Equal(t.first) && s.second.Equal(t.second)
}

// First returns the folding that was made first.
func (s CrossFolded) First() Folding { return s.first }

// Second returns the folding that was made through the stack.
func (s CrossFolded) Second() Folding { return s.second }

// size puts a measure along the first strip and one along the second together.
func (s CrossFolded) size(first, second units.Length) units.Size {
	if s.axis == Level {
		return units.Size{W: second, H: first}
	}
	return units.Size{W: first, H: second}
}

// Size returns the size that the folded sheet covers.
func (s CrossFolded) Size() units.Size { return s.size(s.first.Width(), s.second.Width()) }

// MostLayers returns the number of layers where there are most.
func (s CrossFolded) MostLayers() int { return s.first.MostLayers() * s.second.MostLayers() }

// Thickness returns most layers x caliper, a caliper beyond 0 to 10 m being
// brought into it.
func (s CrossFolded) Thickness(caliper units.Length) units.Length {
	return times(s.MostLayers(), caliper.Clamp(0, units.Longest))
}

// A CrossPanel is a part of a sheet between its scores: a panel of the first strip
// and one of the second. It is plain data.
type CrossPanel struct {
	First  int // the panel of the strip that was folded first
	Second int // the panel of the other strip
}

// At returns the layers at a place from the bottom to the top. The place is
// measured from the left and the upper edge of the folded sheet.
func (s CrossFolded) At(p units.Point) []CrossPanel {
	a, b := p.X, p.Y
	if s.axis == Level {
		a, b = b, a
	}
	inner := s.first.At(a)
	var out []CrossPanel
	for _, q := range s.second.At(b) {
		for i := range inner {
			if !s.second.FaceUp(q) { // the stack lies upside down
				i = len(inner) - 1 - i
			}
			out = append(out, CrossPanel{inner[i], q})
		}
	}
	return out
}

// A Patch is a part of the folded sheet in which the number of layers does not
// change. It is plain data.
type Patch struct {
	Area   units.Rect // from the left and the upper edge of the folded sheet
	Layers int        // in it, everywhere
}

// Patches walks the folded sheet, for each stack of the second folding those
// of the first.
func (s CrossFolded) Patches() iter.Seq[Patch] {
	return func(yield func(Patch) bool) {
		first, _ := s.first.Profile(0)
		second, _ := s.second.Profile(0)
		for _, b := range second {
			for _, a := range first {
				low, size := s.size(a.From, b.From), s.size(a.To-a.From, b.To-b.From)
				if !yield(Patch{units.RectAt(units.Point{X: low.W, Y: low.H}, size), a.Layers * b.Layers}) {
					return
				}
			}
		}
	}
}

// Draft returns the flat sheet with its score lines. The lines of the first
// folding run from edge to edge. Those of the second run panel by panel: where
// the stack lies face down the same fold is of the other kind.
func (s CrossFolded) Draft() Draft {
	a, b := s.first.Strip(), s.second.Strip()
	d := Draft{Size: s.size(a.Length(), b.Length())}
	for i, sc := range a.Scores() {
		if !s.first.Flat(i) {
			d.Lines = append(d.Lines, Line{Axis: s.axis, At: sc.At, To: b.Length(), Fold: sc.Fold})
		}
	}
	across := Level
	if s.axis == Level {
		across = Upright
	}
	for i, sc := range b.Scores() {
		if s.second.Flat(i) {
			continue
		}
		for p := range a.Panels() {
			kind := sc.Fold
			if !s.first.FaceUp(p) {
				kind = kind.Other()
			}
			from, to := a.edges[p], a.edges[p+1]
			if n := len(d.Lines); p > 0 && d.Lines[n-1].Fold == kind { // the fold between was left flat
				d.Lines[n-1].To = to
				continue
			}
			d.Lines = append(d.Lines, Line{Axis: across, At: sc.At, From: from, To: to, Fold: kind})
		}
	}
	return d
}
