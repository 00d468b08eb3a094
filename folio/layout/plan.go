package layout

import (
	"slices"

	"boardwrap.example/folio"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// What the package knows of plans stands in this file and, for changes to them,
// in change.go.

// MaterialsOf lists the materials that the pieces of plans are still to be cut from, in
// the order in which they come up, with the sheets that their Specs name:
// unlimited, without a price. The caliper is the greatest that a Spec says or
// assumes, though Lay refuses two under one name: measure it before anything is
// cut in a stack. A material without
// sheets in its Spec is listed without sheets; give it some, or name it in
// Job.Except. Nil plans are passed over.
func MaterialsOf(plans ...*folio.Plan) []Material {
	var out []Material
	for _, p := range plans {
		if p == nil {
			continue
		}
		for piece := range p.Pieces() {
			if p.Made(piece.Role()) {
				continue
			}
			at := slices.IndexFunc(out, func(m Material) bool { return m.Name == piece.Stock() })
			if at < 0 {
				at = len(out)
				out = append(out, Material{Name: piece.Stock()})
			}
			of := stockOf(p, piece)
			out[at].Caliper = max(out[at].Caliper, of.Caliper)
			for _, s := range of.Sheets {
				k := SheetKind{Size: s.Size, Grain: s.Grain, Count: Unlimited}
				if !slices.Contains(out[at].Sheets, k) {
					out[at].Sheets = append(out[at].Sheets, k)
				}
			}
		}
	}
	return out
}

// Stocked returns the job with the sheets that the Specs of its plans name, of the
// materials that it neither lists nor excepts. Lacking are those of which there are no
// sheets: [Lay] refuses them until Job.Except names them.
func (j Job) Stocked() (stocked Job, lacking []string) {
	j = j.clone()
	plans := make([]*folio.Plan, len(j.Folios))
	for i, f := range j.Folios {
		plans[i] = f.Plan
	}
	for _, m := range MaterialsOf(plans...) {
		switch {
		case slices.ContainsFunc(j.Materials, func(g Material) bool { return g.Name == m.Name }) || slices.Contains(j.Except, m.Name):
		case len(m.Sheets) == 0:
			lacking = append(lacking, m.Name)
		default:
			j.Materials = append(j.Materials, m)
		}
	}
	return j, lacking
}

// stockOf returns what is known of the material of a piece.
func stockOf(p *folio.Plan, piece folio.Piece) stock.Stock {
	of, known := p.Stock(piece.Stock())
	if !known {
		of.Caliper = piece.Caliper() // foam, or a mat
	}
	return of
}

// wantedOf tells the pieces that are to be cut for one copy of a plan.
func wantedOf(p *folio.Plan, path string, found func(Wanted)) {
	k := 0
	for piece := range p.Pieces() {
		w := Wanted{name: piece.Name(), part: piece.Part(), material: piece.Stock(), path: check.Index(path+".pieces", k), piece: k,
			size: piece.Size(), grain: piece.Grain(), quantity: piece.Quantity()}
		if piece.OneWay() {
			w.turn = NoTurn
		}
		if !p.Made(piece.Role()) {
			found(w)
		}
		k++
	}
}

// notation is that of the ruler, of the first plan, or millimetres.
func (j Job) notation() units.Notation {
	if j.Ruler != 0 && j.Ruler.Valid() {
		return j.Ruler.Notation()
	}
	for _, f := range j.Folios {
		if f.Plan != nil {
			return f.Plan.Notation()
		}
	}
	return units.MetricDecimal
}
