package folio

import "boardwrap.example/units"

// An Ornament is a flat shape with a thickness: a label, a medal, a button. It
// sits inside or on the outside of a cover and is not cut from sheet.
type Ornament struct {
	Size      units.Size // of the least rectangle around it
	Thickness units.Length
	// Mass is what it weighs; 0 means unknown.
	Mass units.Mass
}

// String returns "ornament".
func (Ornament) String() string { return "ornament" }

func (o Ornament) fit(f *fitter) bool {
	size := f.size(".size", o.Size)
	if !f.allowance(".thickness", o.Thickness) || !size {
		return false
	}
	f.footprint, f.empty, f.full = o.Size, o.Thickness, o.Thickness
	return true
}
