package folio

import (
	"boardwrap.example/internal/quote"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A record is what a fitting tells about itself, worked out once by its kind:
// everyone else reads it. Rectangles are relative to the footprint while the
// kind works, and on the row once the fitting sits there.
type record struct {
	empty, full units.Length // greatest height, without adhesive
	layers      []Layer
	spots       []Spot
	loads       []Load
	surfaces    []Surface
	lain        []lain
	carrier     units.Rect    // what others are put on; empty: the whole footprint
	design      pocket.Design // of what is folded; else the zero Design
}

// A store holds the lists of all records one behind the other, so that a plan
// with many fittings takes few allocations.
type store struct {
	layers   []Layer
	spots    []Spot
	loads    []Load
	surfaces []Surface
	lain     []lain
}

// few4 has room for what up to four fittings usually tell, one of them a label or an
// ornament that holds nothing, kept together to take one allocation.
type few4 struct {
	layers   [12]Layer
	spots    [3]Spot
	loads    [3]Load
	surfaces [7]Surface
	lain     [9]lain
}

// isFew reports whether so many fittings fill the room for a few: with fewer most of it
// would lie idle.
func isFew(fittings int) bool { return fittings == 3 || fittings == 4 }

func (f *few4) store() store {
	return store{f.layers[:0], f.spots[:0], f.loads[:0], f.surfaces[:0], f.lain[:0]}
}

// newStore makes room for what so many fittings usually tell.
func newStore(fittings int) store {
	if isFew(fittings) {
		return new(few4).store()
	}
	return store{
		make([]Layer, 0, 3*fittings), make([]Spot, 0, fittings), make([]Load, 0, fittings),
		make([]Surface, 0, 2*fittings), make([]lain, 0, 3*fittings),
	}
}

// blank returns an empty record that writes into the store as long as there is
// room.
func (s *store) blank() record {
	return record{
		layers: rest(s.layers), spots: rest(s.spots), loads: rest(s.loads),
		surfaces: rest(s.surfaces), lain: rest(s.lain),
	}
}

// keep takes up the room that a record wrote into.
func (s *store) keep(r *record) {
	s.layers, r.layers = kept(s.layers, r.layers)
	s.spots, r.spots = kept(s.spots, r.spots)
	s.loads, r.loads = kept(s.loads, r.loads)
	s.surfaces, r.surfaces = kept(s.surfaces, r.surfaces)
	s.lain, r.lain = kept(s.lain, r.lain)
}

// rest returns what is free behind a list.
func rest[T any](all []T) []T { return all[len(all):] }

// kept returns the list with what was written behind it, and what was written,
// so that nothing can be appended to it. What did not go into the room behind
// the list lies elsewhere by then.
func kept[T any](all, part []T) (longer, only []T) {
	if n := len(all) + len(part); n <= cap(all) {
		all = all[:n]
	}
	return all, part[:len(part):len(part)]
}

// turnedOver turns everything over left to right within a footprint so wide: so
// lies at the outside, seen from inside, what its kind works out as one sees the
// fitting itself.
func (r *record) turnedOver(width units.Length) {
	for i := range r.layers {
		r.layers[i].rect = overIn(r.layers[i].rect, width)
	}
	for i := range r.spots {
		s := &r.spots[i]
		s.rect, s.lies, s.wayIn, s.seen = overIn(s.rect, width), overIn(s.lies, width), overIn(s.wayIn, width), overIn(s.seen, width)
		switch s.mouth {
		case score.Left:
			s.mouth = score.Right
		case score.Right:
			s.mouth = score.Left
		}
	}
	for i := range r.surfaces {
		r.surfaces[i].rect = overIn(r.surfaces[i].rect, width)
	}
	for i := range r.lain {
		r.lain[i].rect = overIn(r.lain[i].rect, width)
	}
	r.carrier = overIn(r.carrier, width)
}

// overIn returns a rectangle turned over left to right within so much width; an
// empty one stays as it is.
func overIn(r units.Rect, width units.Length) units.Rect {
	if !r.Empty() {
		r.Min.X, r.Max.X = width-r.Max.X, width-r.Min.X
	}
	return r
}

// moved puts everything where the footprint's corner is.
func (r *record) moved(by units.Point) {
	for i := range r.layers {
		r.layers[i].rect = r.layers[i].rect.Moved(by)
	}
	for i := range r.spots {
		s := &r.spots[i]
		s.rect, s.lies, s.wayIn = s.rect.Moved(by), s.lies.Moved(by), s.wayIn.Moved(by)
		if !s.seen.Empty() {
			s.seen = s.seen.Moved(by)
		}
	}
	for i := range r.surfaces {
		r.surfaces[i].rect = r.surfaces[i].rect.Moved(by)
	}
	for i := range r.lain {
		r.lain[i].rect = r.lain[i].rect.Moved(by)
	}
	r.carrier = r.carrier.Moved(by)
}

// A Layer is what one part of a fitting adds to the height over a rectangle.
// Heights of layers that lie over one place add up. A film of adhesive that
// holds the part down is counted in.
type Layer struct {
	name   string
	rect   units.Rect
	height units.Length
	held   bool
	spread bool // it may lie on several boards
}

// Name says what it is, as in "mat", "rail" or "contents".
func (l Layer) Name() string { return l.name }

// Rect returns where it lies on the row. Tabs of a guard on a spine may reach over gaps, in
// which they add nothing.
func (l Layer) Rect() units.Rect { return l.rect }

// Height returns how much it adds there, with the fitting empty or with what
// it holds; 0 for nothing.
func (l Layer) Height(full bool) units.Length {
	if l.held && !full {
		return 0
	}
	return l.height
}

// Held reports whether it belongs to what the fitting holds, so that an empty
// one lacks it.
func (l Layer) Held() bool { return l.held }

// A Spot is where a content goes: on a mat, in a frame, in a pocket.
type Spot struct {
	rect, lies   units.Rect
	wayIn        units.Rect
	seen         units.Rect // where a content is to be seen from above; empty for one in a pocket
	clear, least units.Size
	capacity     pocket.Capacity
	content      pocket.Content
	index        int32
	mouth        score.Edge
	mounted      bool
	corners      bool
	hidden       bool
}

// Index returns which of the fitting's spots it is, from 0.
func (s Spot) Index() int { return int(s.index) }

// Rect returns where the largest content that goes in lies, on the row.
func (s Spot) Rect() units.Rect { return s.rect }

// Clear returns the clear width and height there, ease included.
func (s Spot) Clear() units.Size { return s.clear }

// Capacity returns the largest that goes there, ease taken off, how thick all of
// it may be together, and for how many the spot was designed. A thickness of
// [units.Longest] means that only the closing of the folio sets a limit.
func (s Spot) Capacity() pocket.Capacity { return s.capacity }

// Least returns the smallest content that stays there: a picture in a frame
// must cover the opening wherever it slides. It is zero where any does.
func (s Spot) Least() units.Size { return s.least }

// Content returns what the spot was designed for, and whether anything was
// given; how many of it is the Count of its capacity.
func (s Spot) Content() (pocket.Content, bool) {
	return s.content, s.content != pocket.Content{}
}

// contentName is what a content is called in a sentence.
func contentName(c pocket.Content) string {
	if c.Name == "" {
		return "content"
	}
	return quote.Clip(c.Name, quote.Most)
}

// Lies returns where the content it was designed for lies, on the row; where
// none was given, it is Rect. What is on leaves that stand on a spine lies there with all of
// them turned to the right.
func (s Spot) Lies() units.Rect { return s.lies }

// Mouth returns the edge from which a content is slipped in, and false where it
// is mounted: laid on from above and stuck down, or held by its corners.
func (s Spot) Mouth() (score.Edge, bool) { return s.mouth, !s.mounted }

// WayIn returns the part of the row at the mouth, outside the fitting's paper or
// over what of it does not cover the content, that must stay free for a
// content to be slipped in and gripped; for a mounted content it is Rect.
func (s Spot) WayIn() units.Rect { return s.wayIn }

// Hidden reports whether something of the fitting lies over the spot when the
// fitting is closed.
func (s Spot) Hidden() bool { return s.hidden }

// ByCorners reports whether the corners of what lies there go under something that
// holds them.
func (s Spot) ByCorners() bool { return s.corners }

// A Load is what a fitting weighs besides its pieces: an ornament, what it
// holds.
type Load struct {
	name    string
	mass    units.Mass
	content pocket.Content
	count   int32
	held    bool
}

// Name says what it is.
func (l Load) Name() string { return l.name }

// Mass returns what one weighs, 0 for unknown.
func (l Load) Mass() units.Mass { return l.mass }

// Content returns the size and the thickness of one, of which a weight can be
// estimated; it is zero for what is not held.
func (l Load) Content() pocket.Content { return l.content }

// Count returns how many there are, at least 1.
func (l Load) Count() int { return int(l.count) }

// Held reports whether it is only there when the fitting is full.
func (l Load) Held() bool { return l.held }

// A Surface is a part of a fitting on which another one may stand.
type Surface struct {
	name   string
	rect   units.Rect
	height units.Length
	piece  int32
	panel  int16
	behind bool // contents lie over it where it can be seen
}

// Name says what it is, as in "flap".
func (s Surface) Name() string { return s.name }

// Rect returns where it lies on the row when the fitting is closed.
func (s Surface) Rect() units.Rect { return s.rect }

// Height returns how high it lies at its highest, empty, without adhesive.
func (s Surface) Height() units.Length { return s.height }

// Piece returns the place in [Plan.Pieces] of what it is part of, −1 for what is
// not cut.
func (s Surface) Piece() int { return int(s.piece) }

// Panel returns which panel of a folded fitting's design it is, −1 for the whole
// of its piece.
func (s Surface) Panel() int { return int(s.panel) }
