package guide

import (
	"strconv"

	"boardwrap.example/units"
)

// appendScale appends a drawing of the two bars, with a mark at every 10 mm and
// every 1/4 in.
func appendScale(dst []byte) []byte {
	dst = append(dst, `<svg width="106mm" height="24mm" viewBox="-1 0 106 24" role="img" aria-label="A bar of 100 millimetres and a bar of 4 inches">`...)
	dst = appendBars(dst)
	return append(dst, "</svg>"...)
}

// appendBars appends the bars with their left ends at 0, 24 mm high together.
func appendBars(dst []byte) []byte {
	dst = appendBar(dst, 3, 10, 10*units.Millimetre, "100 mm", 5)
	return appendBar(dst, 14, 16, units.Inch/4, "4 in", 4)
}

// appendBar appends a bar with its head at y mm, in so many steps; every so
// many-th mark is longer.
func appendBar(dst []byte, y int64, steps int, step units.Length, name string, long int) []byte {
	whole, _ := step.Times(int64(steps))
	dst = append(dst, `<path fill="none" stroke="currentColor" stroke-width="0.25" d="M0 `...)
	dst = strconv.AppendInt(dst, y, 10)
	dst = append(dst, 'H')
	dst = appendMillimetres(dst, whole)
	for i := range steps + 1 {
		at, _ := step.Times(int64(i))
		dst = append(dst, 'M')
		dst = appendMillimetres(dst, at)
		dst = append(dst, ' ')
		dst = strconv.AppendInt(dst, y, 10)
		if i%long == 0 {
			dst = append(dst, "v3.5"...)
		} else {
			dst = append(dst, "v2"...)
		}
	}
	dst = append(dst, `"/><text stroke="none" fill="currentColor" font-family="sans-serif" font-size="3" text-anchor="end" x="`...)
	dst = appendMillimetres(dst, whole)
	dst = append(dst, `" y="`...)
	dst = strconv.AppendInt(dst, y+7, 10)
	dst = append(dst, `">`...)
	dst = append(dst, name...)
	return append(dst, "</text>"...)
}

// appendMillimetres appends a length as a number of millimetres, exactly.
func appendMillimetres(dst []byte, l units.Length) []byte {
	return units.Format{Bare: true}.Append(dst, l)
}
