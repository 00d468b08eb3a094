package folio

import (
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Folded is a fitting folded from sheet: any kind of package pocket, from the
// slip pocket to the accordion. It is designed in the fitting's stock and on
// the ruler of fittings, and sits on the panel with its closed footprint.
type Folded struct {
	Kind pocket.Kind
}

// String returns the name of the kind.
func (d Folded) String() string {
	if d.Kind == nil {
		return "folded fitting"
	}
	return d.Kind.Name()
}

func (d Folded) fit(f *fitter) bool {
	if d.Kind == nil {
		f.b.bad.Malformed(f.at(".kind"), check.Missing, "no kind", "one of the kinds of package pocket")
		return false
	}
	paper := pocket.Paper{Caliper: f.stock.Caliper, Grammage: f.stock.Grammage, Sheet: f.largestSheet()}
	design, err := d.Kind.Design(paper, f.ruler())
	if err != nil {
		f.b.bad.Under(f.at(""), err)
		return false
	}
	f.design = &design
	f.footprint = design.Closed()
	f.empty, f.full = design.Thickness(false), design.Thickness(true)
	for w := range design.Workings() {
		f.b.plan.workings = append(f.b.plan.workings, w)
	}
	for w := range design.Warnings() {
		if w.Path == "" {
			w.Path = f.at("")
		} else {
			w.Path = f.at(".") + w.Path
		}
		f.b.warn(w)
	}
	for p := range design.Pieces() {
		axis, folds := p.Grain()
		f.piece(Piece{
			across: folds && axis == score.Level,
			name:   p.Name, quantity: p.Quantity, width: p.Width, height: p.Height,
			blank: &p.Blank,
		})
	}
	for p := range design.Places() {
		f.holdings = append(f.holdings, Holding{
			Content: pocket.Content{Size: p.Capacity.Size, Thickness: p.Capacity.Thickness},
			Room:    p.Clear, Rect: p.Rect,
		})
	}
	// What stands on a folded fitting stands on its flap where it has one.
	if flap, ok := design.Carrier(); ok {
		f.surfaces = append(f.surfaces, flap.Closed)
	}
	return true
}

// largestSheet returns the sheet with the longest side, none for a stock that
// can be had in any size.
func (f *fitter) largestSheet() units.Size {
	var largest units.Size
	f.stock.lies(GrainAny, func(l lie) bool {
		if max(l.size.W, l.size.H) > max(largest.W, largest.H) {
			largest = l.size
		}
		return true
	})
	return largest
}
