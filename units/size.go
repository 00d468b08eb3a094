package units

// A Size is a width and a height: how wide and how tall a piece lies before
// the maker. Width is across, height is along the spine where there is one.
// Sizes are comparable; arithmetic is not checked for overflow, which cannot
// occur within the bounds of a plan.
type Size struct {
	W Length // across; 0 and less is an empty size
	H Length // along the spine, from head to tail; 0 and less is an empty size
}

// Area returns the area of the size, in full; with one side negative it is
// negative.
//
//go:noinline
func (s Size) Area() Area { return s.W.By(s.H) }

// Turned returns the size after a quarter turn.
func (s Size) Turned() Size { return Size{s.H, s.W} }

// Grow returns the size with d more on each of its four sides; a negative d
// makes it smaller, and the result may then be empty or negative.
func (s Size) Grow(d Length) Size { return Size{s.W + 2*d, s.H + 2*d} }

// Plus returns the size with w more width and h more height.
func (s Size) Plus(w, h Length) Size { return Size{s.W + w, s.H + h} }

// FitsIn reports whether s goes into t as it lies; equal sides fit. It compares
// the sides as they are, empty sizes included.
func (s Size) FitsIn(t Size) bool { return s.W <= t.W && s.H <= t.H }

// FitsTurned reports whether s goes into t as it lies or after a quarter
// turn.
func (s Size) FitsTurned(t Size) bool { return s.FitsIn(t) || s.Turned().FitsIn(t) }

// Empty reports whether the size has no area.
func (s Size) Empty() bool { return s.W <= 0 || s.H <= 0 }

// Max returns the greater of the two widths by the greater of the two
// heights: the least size that both go into.
func (s Size) Max(t Size) Size { return Size{max(s.W, t.W), max(s.H, t.H)} }

// Min returns the smaller of the two widths by the smaller of the two
// heights: the greatest size that goes into both.
func (s Size) Min(t Size) Size { return Size{min(s.W, t.W), min(s.H, t.H)} }

// String returns both sides exactly, as in "146.05 x 196.85 mm".
func (s Size) String() string { return Format{}.Size(s) }

// A Point is a place: X to the right of the left edge and Y below the head
// (top) edge of whatever is measured.
type Point struct {
	X Length // to the right of the left edge; 0 is on it
	Y Length // below the head edge; 0 is on it
}

// String returns the place in millimetres, exactly: "(12.5, 30) mm".
func (p Point) String() string {
	dst := p.append(make([]byte, 0, 48))
	return string(append(dst, " mm"...))
}

func (p Point) append(dst []byte) []byte {
	dst = Format{Bare: true}.Append(append(dst, '('), p.X)
	dst = Format{Bare: true}.Append(append(dst, ", "...), p.Y)
	return append(dst, ')')
}

// Plus returns p moved by q.
func (p Point) Plus(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// A Rect is an upright rectangle that holds the points from Min up to but not
// including Max, as image.Rectangle does. It is empty when it has no area: Min
// is not above and to the left of Max. Empty rectangles need not be equal to
// each other under ==.
type Rect struct {
	Min Point // the upper left corner
	Max Point // the lower right corner, just outside
}

// RectAt returns the rectangle of size s whose upper left corner is p; it is
// empty if s is.
func RectAt(p Point, s Size) Rect { return Rect{p, Point{p.X + s.W, p.Y + s.H}} }

// Size returns the width and height of r; those of an empty r may be negative.
func (r Rect) Size() Size { return Size{r.Max.X - r.Min.X, r.Max.Y - r.Min.Y} }

// Empty reports whether r has no area.
func (r Rect) Empty() bool { return r.Min.X >= r.Max.X || r.Min.Y >= r.Max.Y }

// Moved returns r moved by p; an empty one stays empty.
func (r Rect) Moved(p Point) Rect { return Rect{r.Min.Plus(p), r.Max.Plus(p)} }

// Grow returns r with d more on each side; a negative d makes it smaller. A
// result that would be negative is empty at r's middle, to the nanometre.
func (r Rect) Grow(d Length) Rect {
	r.Min.X, r.Max.X = growSpan(r.Min.X, r.Max.X, d)
	r.Min.Y, r.Max.Y = growSpan(r.Min.Y, r.Max.Y, d)
	return r
}

func growSpan(low, high, d Length) (Length, Length) {
	low, high = low-d, high+d
	if low > high {
		low = high + (low-high)/2
		high = low
	}
	return low, high
}

// In reports whether all of r lies in s. An empty r lies in every rectangle,
// and nothing but an empty one lies in an empty s.
func (r Rect) In(s Rect) bool {
	return r.Empty() || s.Min.X <= r.Min.X && r.Max.X <= s.Max.X && s.Min.Y <= r.Min.Y && r.Max.Y <= s.Max.Y
}

// Overlaps reports whether r and s share an area; touching edges do not, nor
// does an empty rectangle with anything.
func (r Rect) Overlaps(s Rect) bool { return !r.Intersect(s).Empty() }

// Intersect returns what r and s share, or the zero Rect if that has no area.
func (r Rect) Intersect(s Rect) Rect {
	out := Rect{
		Point{max(r.Min.X, s.Min.X), max(r.Min.Y, s.Min.Y)},
		Point{min(r.Max.X, s.Max.X), min(r.Max.Y, s.Max.Y)},
	}
	if out.Empty() {
		return Rect{}
	}
	return out
}

// Union returns the least rectangle that holds both; an empty one adds nothing,
// and two empty ones give an empty one.
func (r Rect) Union(s Rect) Rect {
	switch {
	case r.Empty():
		return s
	case s.Empty():
		return r
	}
	return Rect{
		Point{min(r.Min.X, s.Min.X), min(r.Min.Y, s.Min.Y)},
		Point{max(r.Max.X, s.Max.X), max(r.Max.Y, s.Max.Y)},
	}
}
