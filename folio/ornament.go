package folio

import (
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// An Ornament is a flat shape with a thickness: a label, a medal, a button. It
// sits inside or on the outside of a cover and is not cut from sheet.
type Ornament struct {
	Size units.Size // of the least rectangle around it; both sides above 0
	// Thickness is how far it stands up; 0 stands for something so thin that it
	// is not counted.
	Thickness units.Length
	// Mass is what it weighs, up to [MostMass]; 0 means unknown.
	Mass units.Mass
}

// MostMass is the most that an ornament, a block or a packing may weigh.
const MostMass = 100 * units.Kilogram

// String returns "ornament".
func (Ornament) String() string { return "ornament" }

func (o Ornament) fit(f *fitter) bool {
	before := f.b.bad.Len()
	f.size(".kind.size", o.Size)
	if o.Thickness == units.None {
		f.b.bad.Malformed(f.at(".kind.thickness"), check.Negative, "none", "0 or a length up to "+f.b.bad.Longest())
	} else {
		f.allowance(".kind.thickness", o.Thickness)
	}
	switch {
	case o.Mass < 0:
		f.b.bad.Malformed(f.at(".kind.mass"), check.Negative, o.Mass.String(), "0 for unknown, or up to "+MostMass.String())
	case o.Mass > MostMass:
		f.b.bad.Malformed(f.at(".kind.mass"), check.OutOfRange, o.Mass.String(), "0 for unknown, or up to "+MostMass.String())
	}
	if f.b.bad.Len() > before {
		return false
	}
	f.footprint, f.empty, f.full = o.Size, o.Thickness, o.Thickness
	f.wide = side{field: ".kind.size.w", given: o.Size.W, exact: true}
	f.tall = side{field: ".kind.size.h", given: o.Size.H, exact: true}
	whole := units.RectAt(units.Point{}, o.Size)
	f.layers = append(f.layers, Layer{name: "ornament", rect: whole, height: o.Thickness + f.film()})
	f.loads = append(f.loads, Load{name: "ornament", mass: o.Mass, count: 1})
	f.surfaces = append(f.surfaces, Surface{name: "ornament", rect: whole, height: o.Thickness, piece: -1, panel: -1})
	return true
}

// filling gives the ornament the size that is wanted.
func (o Ornament) filling(f *fitter) (Kind, bool) {
	return o, f.anyPicture() && f.fill(".kind.size", "ornament", &o.Size, f.want.size())
}

// work fixes the ornament in its place.
func (Ornament) work(o *order, f *Fitted) {
	t := work.Object{Kind: work.Bought, Index: o.part.Index, Name: f.Label()}
	o.fix(f, t, f.rect, o.adhesive(), o.sticky(f.rect.Size()), 0)
}
