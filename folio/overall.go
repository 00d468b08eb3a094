package folio

import "boardwrap.example/units"

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
	// What stands on each outer face: the bottom, the top, the flap on top of
	// it, and the backs of the spines.
	var bottom, top, flap, left, right []cell
	p.heights(full, func(h Height) bool {
		if !h.outside {
			return true
		}
		add := cell{h.rect, h.height, h.fitting}
		switch h.panel {
		case p.spec.Form.main():
			bottom = append(bottom, add)
		case Flap:
			flap = append(flap, add)
		case Spine1:
			left = append(left, add)
		case Spine2:
			right = append(right, add)
		default:
			top = append(top, add)
		}
		return true
	})
	most := func(cells []cell) units.Length {
		h, _ := greatest(cells)
		return h
	}
	var g units.Ledger
	exact := p.Notation().Exact()
	onTop, under := most(top), most(bottom)
	uneven := onTop
	if p.spec.Form == ForeEdgeFlap {
		// The flap lies higher than the cover by its own board, covering and
		// liner and the room under it. The cover shows beside it unless the
		// flap is as wide.
		step := s.flapRoom() + p.spec.Liner.Caliper + p.spec.Board.Caliper + p.spec.Covering.Caliper
		onFlap := most(flap)
		uneven = onFlap
		if p.width(Flap) < p.width(LeftCover) {
			uneven += step
		}
		onTop = max(onFlap, onTop-step)
	}
	o := Overall{uneven: uneven + under}
	o.thickness = g.Sum("overall thickness", exact, units.Nearest, units.T("closed thickness", c.thickness.Length()),
		units.T("on the outside of the "+p.spec.Form.main().String(), under), units.T("on the other outside", onTop))
	o.width = g.Sum("overall width", exact, units.Nearest, units.T("closed width", c.width.Length()),
		units.T("on the back of the spine", most(left)), units.T("on the back of the second spine", most(right)))
	o.height = g.Sum("overall height", exact, units.Nearest, units.T("closed height", c.height.Length()))
	return o, true
}
