package folio

import (
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Mat is a backing a little larger than the picture on it; what shows round
// the picture is the reveal. Give the picture, or the mat's own Size when it
// carries none.
type Mat struct {
	Picture pocket.Content
	// Reveal shows on each side of the picture; 0 means 1/8 in (common
	// practice, no published source), [None] nothing.
	Reveal units.Length
	// Size is that of a mat without a picture.
	Size units.Size
}

// String returns "mat".
func (Mat) String() string { return "mat" }

func (m Mat) fit(f *fitter) bool {
	bad := &f.b.bad
	before := bad.Len()
	reveal := orDefault(m.Reveal, units.Inch/8)
	bare := m.Picture == pocket.Content{}
	switch {
	case bare:
		f.size(".size", m.Size)
	case m.Size != units.Size{}:
		bad.Malformed(f.at(".size"), check.Conflict, "a size and a picture", "the picture, or the size of a mat without one")
	default:
		f.content(".picture", m.Picture)
	}
	f.allowance(".reveal", reveal)
	if bad.Len() > before {
		return false
	}
	var w, h units.Working
	if bare {
		w = f.sum("mat width", units.Up, units.T("as given", m.Size.W))
		h = f.sum("mat height", units.Up, units.T("as given", m.Size.H))
	} else {
		w = f.sum("mat width", units.Up, units.T("picture", m.Picture.Size.W), units.N(2, "reveal", reveal))
		h = f.sum("mat height", units.Up, units.T("picture", m.Picture.Size.H), units.N(2, "reveal", reveal))
	}
	f.footprint = units.Size{W: w.Length(), H: h.Length()}
	f.empty = f.stock.Caliper
	f.full = f.empty
	if !bare {
		f.full += m.Picture.Thickness
		at := Place{}.within(units.RectAt(units.Point{}, f.footprint), m.Picture.Size, 1)
		f.holdings = append(f.holdings, Holding{Content: m.Picture, Room: m.Picture.Size, Rect: at})
	}
	f.piece(Piece{name: "mat", width: w, height: h, quantity: 1})
	return true
}
