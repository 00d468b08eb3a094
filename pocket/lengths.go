package pocket

import "boardwrap.example/units"

// times returns n lengths; inside the bounds of a plan it cannot overflow.
//
//go:noinline
func times(n int, l units.Length) units.Length {
	p, _ := l.Times(int64(n))
	return p
}

// third returns a third of a length, rounded down to a nanometre.
func third(l units.Length) units.Length {
	t, _ := l.Scale(1, 3, units.Down)
	return t
}

// rect returns a rectangle by its left, head, width and height.
func rect(x, y, w, h units.Length) units.Rect {
	return units.RectAt(units.Point{X: x, Y: y}, units.Size{W: w, H: h})
}

func mirrored(r units.Rect, w units.Length) units.Rect {
	r.Min.X, r.Max.X = w-r.Max.X, w-r.Min.X
	return r
}
