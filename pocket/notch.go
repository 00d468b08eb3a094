package pocket

import (
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Notch is a half-round thumb notch in the middle of a pocket's mouth, so
// that contents can be gripped. A zero Width or Depth is 3/4 x 3/8 in or 20 x
// 10 mm (common practice, no published source), or half the mouth and half
// the depth of the pocket where that is less.
type Notch struct {
	Width, Depth units.Length
	None         bool // no notch; Width and Depth must then be 0
}

// notch adds a thumb notch to a drawing, on an edge whose mouth runs from from
// for so long; into is how deep the pocket is. It returns the notch that was
// made; a width of 0 means none.
func (m *maker) notch(n Notch, d *score.Drawing, edge score.Edge, from, mouth, into units.Length) Notch {
	if !m.allowance("notch.width", n.Width) || !m.allowance("notch.depth", n.Depth) {
		return Notch{None: true}
	}
	if n.None {
		if n.Width != 0 || n.Depth != 0 {
			m.Malformed("notch", check.Conflict, "no notch of "+m.text(n.Width)+" x "+m.text(n.Depth), "one of the two")
		}
		return n
	}
	w := m.or(n.Width, 3*in/4, 20*mm)
	h := m.or(n.Depth, 3*in/8, 10*mm)
	halfMouth, halfDepth := m.r.Down(mouth.Half(units.Down)), m.r.Down(into.Half(units.Down))
	if n.Width == 0 {
		w = min(w, halfMouth)
	} else {
		m.atMost("notch.width", w, mouth, "the clear mouth")
	}
	if n.Depth == 0 {
		h = min(h, halfDepth)
	} else {
		m.atMost("notch.depth", h, halfDepth, "half the depth of the pocket")
	}
	if w < units.Shortest || h < units.Shortest || m.Len() > 0 {
		return Notch{None: true}
	}
	d.Notches = append(d.Notches, score.Notch{Edge: edge, Middle: from + mouth.Half(units.Down), Width: w, Depth: h, Round: true})
	return Notch{Width: w, Depth: h}
}
