package post

import (
	"boardwrap.example/folio"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Box is the inside of a box for the closed folio, with its padding.
type Box struct{ width, height, depth units.Working }

// Width returns the inside width, rounded up on Rulers.Main.
func (b Box) Width() units.Working { return b.width }

// Height returns the inside height, rounded up on Rulers.Main.
func (b Box) Height() units.Working { return b.height }

// Depth returns the inside depth, rounded up on Rulers.Main.
func (b Box) Depth() units.Working { return b.depth }

// BoxFor returns the inside of a box that goes round the closed and filled folio
// with padding on all six sides. A padding of 0 means 1/2 in, or 12 mm where
// plans are metric (common practice, no published source), [units.None] a close
// fit. The error is a *[check.Error]: of the padding, of a folio that does not shut,
// or of a plan that is nil.
func BoxFor(p *folio.Plan, padding units.Length) (Box, error) {
	var bad check.List
	if p == nil {
		noPlan(&bad)
		return Box{}, bad.Err()
	}
	switch {
	case padding == units.None:
		padding = 0
	case padding == 0 && p.Notation() == units.MetricDecimal:
		padding = 12 * units.Millimetre
	case padding == 0:
		padding = units.Inch / 2
	default:
		bad.In(p.Notation())
		bad.Allowance("padding", padding)
	}
	bad.Under("", p.Shuts())
	if err := bad.Err(); err != nil {
		return Box{}, err
	}
	o, _ := p.Overall(true)
	ruler := p.Spec().Rulers.Main
	var g units.Ledger
	side := func(label string, of units.Working) units.Working {
		return g.Sum("box, inside "+label, ruler, units.Up, units.T(of.Label(), of.Length()), units.N(2, "padding", padding))
	}
	return Box{side("width", o.Width()), side("height", o.Height()), side("depth", o.Thickness())}, nil
}
