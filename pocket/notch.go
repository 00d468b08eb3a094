package pocket

import (
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A ThumbNotch is a half-round thumb notch in the middle of a pocket's mouth, so
// that contents can be gripped. With [units.None] in both fields there is none.
type ThumbNotch struct {
	// Width is along the mouth; 0 is 3/4 in or 20 mm (common practice, no
	// published source), or half the mouth, or two thirds of the content's width,
	// where that is less.
	Width units.Length
	// Depth is into the pocket, at most half as deep, and in a gusset run not into what
	// is glued at the foot; 0 is 3/8 in or 10 mm (common practice, no published source),
	// or the most there is where that is less.
	Depth units.Length
}

// none reports whether there is explicitly no notch.
func (n ThumbNotch) none() bool { return n.Width == units.None || n.Depth == units.None }

// checkNotch checks the fields by themselves, and reports whether there is a notch to
// be cut.
func (m *maker) checkNotch(n ThumbNotch) bool {
	if n.none() {
		if n != (ThumbNotch{units.None, units.None}) {
			m.Malformed("notch", check.Conflict, "a notch of "+m.text(n.Width)+" x "+m.text(n.Depth), "none for both, or for neither")
		}
		return false
	}
	w := m.optional("notch.width", n.Width)
	return m.optional("notch.depth", n.Depth) && w
}

// notch adds a thumb notch to a drawing, on an edge whose mouth runs from from
// for so long; into is how deep the pocket is, foot how far up from its foot
// there is glue or a gusset.
func (m *maker) notch(n ThumbNotch, d *score.Draft, edge score.Edge, from, mouth, into, foot units.Length) {
	if !m.checkNotch(n) {
		return
	}
	w := m.or(n.Width, 3*in/4, 20*mm)
	h := m.or(n.Depth, 3*in/8, 10*mm)
	deepest, what := into.Half(units.Down), ", half the depth of the pocket"
	if above := into - foot; above < deepest { // what is cut away takes no glue
		deepest, what = max(0, above), ", above the glue and the gusset at the foot"
	}
	halfMouth := m.r.Down(mouth.Half(units.Down))
	if n.Width == 0 {
		if w = min(w, halfMouth); m.d.content.Size.W > 0 { // or nothing holds the corners of what has much ease
			w = min(w, m.r.Down(2*third(m.d.content.Size.W)))
		}
	} else {
		m.atMost("notch.width", w, mouth, ", the width of the clear mouth")
	}
	if n.Depth == 0 {
		h = min(h, m.r.Down(deepest))
	} else {
		m.atMost("notch.depth", h, deepest, what)
	}
	if w < units.Shortest || h < units.Shortest || m.Len() > 0 {
		return
	}
	d.Notches = append(d.Notches, score.Notch{Edge: edge, Middle: from + mouth.Half(units.Down), Width: w, Depth: h, Round: true})
}
