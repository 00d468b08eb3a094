package folio

import "boardwrap.example/units"

// A Box is the inside of a box for the closed folio, with its padding.
type Box struct{ width, height, depth units.Working }

// Width returns the inside width, Height the inside height and Depth the inside
// depth, each rounded up on Rulers.Main.
func (b Box) Width() units.Working { return b.width }

// Height returns the inside height.
func (b Box) Height() units.Working { return b.height }

// Depth returns the inside depth.
func (b Box) Depth() units.Working { return b.depth }

// Box returns the inside of a box that goes round the closed and filled folio
// with padding on all six sides, and whether the folio shuts. A padding of 0
// means 1/2 in (common practice, no published source), [units.None] a close fit.
func (p *Plan) Box(padding units.Length) (Box, bool) {
	o, ok := p.Overall(true)
	if !ok {
		return Box{}, false
	}
	padding = min(max(orDefault(padding, units.Inch/2), 0), units.Longest)
	var g units.Ledger
	side := func(label string, of units.Working) units.Working {
		return g.Sum("box, inside "+label, p.spec.Rulers.Main, units.Up, units.T(of.Label(), of.Length()), units.N(2, "padding", padding))
	}
	return Box{side("width", o.width), side("height", o.height), side("depth", o.thickness)}, true
}
