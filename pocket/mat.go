package pocket

import (
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Mat is a backing a little larger than its picture, laid on a flap. The
// zero Mat is none.
type Mat struct {
	Size units.Size // the width and height of the mat, above 0 where there is one
	// Caliper is its thickness; 0 is the MatCaliper of the paper.
	Caliper units.Length
}

// matMargin is what shows of a flap round a mat at least.
func (m *maker) matMargin(given units.Length) units.Length {
	if given == units.None {
		return 0
	}
	return m.margin(given)
}

// shows warns where another length shows of a leaf round what it carries than is given
// off the ruler: half of what it is larger at most.
func (m *maker) shows(margin, larger units.Length) {
	m.comesTo("margin", "a margin of ", margin, larger.Half(units.Up))
}

func (m *maker) checkMat(mat Mat) {
	if mat == (Mat{}) {
		return
	}
	m.Size("mat.size", mat.Size)
	if mat.Caliper != 0 {
		m.Length("mat.caliper", mat.Caliper)
	}
}

// carry makes the panel that carries mats known, and lays the mat on it if
// there is one.
func (m *maker) carry(panel int, margin units.Length, mat Mat) {
	m.d.carrier, m.d.margin = int16(panel)+1, margin
	if mat == (Mat{}) || m.Len() > 0 {
		return
	}
	on, err := Design{d: m.d}.Carry(mat.Size)
	if err != nil {
		m.Under("mat", err)
		return
	}
	caliper := mat.Caliper
	if caliper == 0 {
		caliper = m.d.paper.MatCaliper
	}
	if caliper == 0 {
		caliper = m.d.paper.Caliper
	}
	w := m.exact("mat width", units.T("mat", mat.Size.W))
	h := m.exact("mat height", units.T("mat", mat.Size.H))
	m.pieceOf(MatStock, caliper, "mat", 1, w, h, score.Draft{})
	m.d.matAt = on
	m.d.stack = append(m.d.stack, sheet{rect: on, thick: caliper})
}

// Carry returns where a mat of the given size lies on the flap, in its middle,
// as a place of the closed footprint. The error says which side is too large
// for the flap with the margin round it.
func (d Design) Carry(mat units.Size) (units.Rect, error) {
	w := d.of()
	var l check.List
	if w.carrier == 0 {
		l.Impossible("size", check.TooLarge, units.Format{}.Size(mat), "nothing: this carries no mat")
		return units.Rect{}, l.Err()
	}
	if !l.Size("size", mat) {
		return units.Rect{}, l.Err()
	}
	p := w.panels[w.carrier-1]
	n := w.ruler.Notation()
	on := p.closed.Size()
	least := "on the " + p.name + " with a margin of " + n.Text(w.margin) + " a side"
	if most := on.W - 2*w.margin; mat.W > most {
		l.Long("size.w", check.TooLarge, n, mat.W, most, least)
	}
	if most := on.H - 2*w.margin; mat.H > most {
		l.Long("size.h", check.TooLarge, n, mat.H, most, least)
	}
	if err := l.Err(); err != nil {
		return units.Rect{}, err
	}
	return rect(p.closed.Min.X+(on.W-mat.W).Half(units.Down), p.closed.Min.Y+(on.H-mat.H).Half(units.Down), mat.W, mat.H), nil
}
