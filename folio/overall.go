package folio

import (
	"boardwrap.example/folio/boards"
	"boardwrap.example/units"
)

// Overall is the least box round the closed folio, with what sits on the
// outside of its covers and its spine: what a band, a box and an envelope go
// round. It is exact.
type Overall struct {
	width, height, thickness units.Working
	uneven                   units.Length
}

// Width returns the width with its working.
func (o Overall) Width() units.Working { return o.width }

// Height returns the height, from head to tail.
func (o Overall) Height() units.Working { return o.height }

// Thickness returns the thickness.
func (o Overall) Thickness() units.Working { return o.thickness }

// Size returns width and height.
func (o Overall) Size() units.Size {
	return units.Size{W: o.width.Length(), H: o.height.Length()}
}

// Uneven returns by how much the thickness varies over the closed folio: what
// stands on the outside of the covers, and the step at a flap's edge.
func (o Overall) Uneven() units.Length { return o.uneven }

// Overall returns the outside of the closed folio, with everything held by
// fittings on its outside if full, and whether it shuts.
func (p *Plan) Overall(full bool) (Overall, bool) {
	s, ok := p.hinged()
	if !ok {
		return Overall{}, false
	}
	c := s.closed()
	f := &p.folded
	// What stands on the lower face of the board on the table, on the upper faces of
	// all others, and on the backs of the spines at either end.
	var cells [boards.MaxBoards][]cell
	var left, right []cell
	p.heights(full, func(h Height) bool {
		add := cell{h.rect, h.height, h.fitting}
		k, fold := f.lies(p.index(h.panel)), p.foldAt(h.panel)
		switch {
		case fold >= 0 && h.outside == p.valley(fold):
			if f.up(fold) {
				right = append(right, add)
			} else {
				left = append(left, add)
			}
		case k == f.main && h.outside, k >= 0 && k != f.main && h.outside != f.up(k):
			cells[k] = append(cells[k], add)
		}
		return true
	})
	most := func(cells []cell) units.Length {
		h, _ := greatest(cells)
		return h
	}
	var g units.Ledger
	n := p.Notation()
	// What lies lower than the top stands out by as much less. It shows beside what
	// lies higher unless that is as wide.
	below, top := most(cells[f.main]), s.top()
	onTop, uneven := most(cells[top]), most(cells[top])
	for k := range f.n {
		if k == f.main || k == top {
			continue
		}
		step := s.step(k, top)
		onTop = max(onTop, most(cells[k])-step)
		switch {
		case f.near[k] == 0 && step > 0:
			uneven = max(uneven, most(cells[k]), most(cells[top])+step)
		case f.near[k] == 0:
			uneven = max(uneven, most(cells[k]))
		case f.near[k].has(top) && p.panelWidth(f.inRow(top)) < p.panelWidth(f.inRow(k)):
			uneven = max(uneven, most(cells[top])+step)
		}
	}
	o := Overall{uneven: uneven + below}
	o.thickness = exactly(&g, "overall thickness", n, units.T("closed thickness", c.thickness.Length()),
		units.T("on the outside of the "+p.shape.Main.String(), below), units.T("on the other outside", onTop))
	o.width = exactly(&g, "overall width", n, units.T("closed width", c.width.Length()),
		units.T("on backs of spines at the left", most(left)), units.T("on backs of spines at the right", most(right)))
	o.height = exactly(&g, "overall height", n, units.T("closed height", c.height.Length()))
	return o, true
}

// step returns how much lower the upper face of one board lies than that of another.
func (s *shut) step(board, top int) units.Length {
	p, f := s.p, &s.p.folded
	up := s.passage(board, top)
	face := func(k int) units.Length {
		if f.near[k] == 0 && !f.up(k) {
			return p.spec.Covering.Caliper
		}
		return p.face(f.up(k))
	}
	return up.length(units.Down) + face(top) - face(board)
}
