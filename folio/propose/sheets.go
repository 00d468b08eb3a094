package propose

import (
	"slices"

	"boardwrap.example/folio"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/stock"
	"boardwrap.example/score"
)

// layoutSteps is the budget of a layout.
const layoutSteps = 100_000

// outOfSheets lays the pieces out on the sheets at hand, and says why they do
// not do. Where nothing is made of what is at hand, that is no limit.
func (s *searcher) outOfSheets(f *found, p *folio.Plan) (Reason, bool) {
	if len(s.request.Limits.Materials) == 0 {
		return Reason{}, false
	}
	why, bad := s.layOut(f, p)
	return why, bad && why.Cause != NoSheets
}

// layOut counts the sheets that a folio takes, of the materials of which any are
// at hand.
func (s *searcher) layOut(f *found, p *folio.Plan) (Reason, bool) {
	job := layout.Job{Folios: []layout.Folio{{Plan: p, Copies: 1}}, Ruler: p.Spec().Rulers.Main, Materials: s.materials(p)}
	for _, m := range layout.MaterialsOf(p) {
		if !slices.ContainsFunc(job.Materials, func(h layout.Material) bool { return h.Name == m.Name }) {
			job.Except = append(job.Except, m.Name)
		}
	}
	if len(job.Materials) == 0 {
		return ofAll(Reason{Cause: NoSheets}), true
	}
	s.spend(layoutSteps)
	laid, err := layout.Lay(s.until, job, layout.Budget{Steps: layoutSteps})
	if err != nil {
		return ofAll(Reason{Cause: OverSheets, Detail: first(err)}), true
	}
	f.sheets, f.counted = laid.Bought(), true
	return Reason{}, false
}

// materials lists the materials of a plan of which sheets are at hand.
func (s *searcher) materials(p *folio.Plan) []layout.Material {
	var out []layout.Material
	for _, m := range layout.MaterialsOf(p) {
		if k := slices.IndexFunc(s.request.Limits.Materials, func(h layout.Material) bool { return h.Name == m.Name }); k >= 0 {
			m = s.request.Limits.Materials[k]
		}
		if len(m.Sheets) > 0 {
			out = append(out, m)
		}
	}
	return out
}

// soundMaterials checks the materials at hand by laying nothing out on them.
func soundMaterials(until score.Stopper, r *Request) error {
	if len(r.Limits.Materials) == 0 {
		return nil
	}
	job := layout.Job{Materials: r.Limits.Materials}
	if ruler := r.Case.WithDefaults().Rulers.Board; ruler.Valid() { // else that is said of the case
		job.Ruler = ruler
	}
	_, err := layout.Lay(until, job, layout.Budget{Steps: 1})
	return err
}

// sheetsAtHand gives a material of the case without sheets those that are at
// hand, so that its sizes keep to them.
func (s *searcher) sheetsAtHand() {
	filled := s.full.WithDefaults()
	give := func(name string, k *stock.Stock) {
		for _, m := range s.request.Limits.Materials {
			if m.Name != name || len(k.Sheets) > 0 || len(m.Sheets) > stock.MaxSheets {
				continue
			}
			for _, sheet := range m.Sheets {
				k.Sheets = append(k.Sheets, stock.Sheet{Size: sheet.Size, Grain: sheet.Grain})
			}
		}
	}
	give(filled.Board.Name, &s.full.Board)
	give(filled.Covering.Name, &s.full.Covering)
	give(filled.Liner.Name, &s.full.Liner)
	if !s.full.SpineCovering.Empty() { // else it is the covering
		give(filled.SpineCovering.Name, &s.full.SpineCovering)
	}
	for i := range s.full.Stocks {
		give(s.full.Stocks[i].Name, &s.full.Stocks[i])
	}
}

// anySheets reports whether sheets of anything that the case knows are at hand.
func (s *searcher) anySheets() bool {
	c := s.full.WithDefaults()
	all := append([]stock.Stock{c.Board, c.Covering, c.SpineCovering, c.Liner}, c.Stocks...)
	return slices.ContainsFunc(all, func(k stock.Stock) bool {
		return len(k.Sheets) > 0 || slices.ContainsFunc(s.request.Limits.Materials, func(m layout.Material) bool { return m.Name == k.Name })
	})
}
