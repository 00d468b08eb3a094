package folio_test

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// Where a relation leaves nothing, what would do leaves the least that can be made: round a
// picture or an opening of a step of the ruler the reveals of a mat or the rails of a frame,
// on the ruler or not. With that the folio builds, of a margin, of what is taken off and of
// the gap between shares; a step of the ruler more is too much.
func TestLeastByRelation(t *testing.T) {
	kinds := map[string]folio.Kind{
		"mat": folio.Mat{}, "mat round a picture": folio.Mat{Picture: pocket.Content{Name: "print"}, Reveal: 3300 * units.Micrometre}, "badge": folio.Ornament{Thickness: mm},
		"frame": folio.Frame{}, "frame on the ruler": folio.Frame{Rail: 16 * mm}, "frame beside the ruler": folio.Frame{Rail: 14210 * units.Micrometre},
	}
	for _, ruler := range []units.Ruler{units.WholeMillimetres, units.TenthMillimetres, units.Sixteenths, everyNanometre} {
		for name, kind := range kinds {
			for shares := range 4 {
				for _, tall := range []bool{false, true} {
					for field, set := range map[string]func(*place.Relation) *units.Length{
						"margin": func(r *place.Relation) *units.Length { return &r.Margin },
						"less":   func(r *place.Relation) *units.Length { return &r.Less },
						"gap":    func(r *place.Relation) *units.Length { return &r.Gap },
					} {
						if field == "gap" && shares < 2 {
							continue
						}
						s, side := plainCase(), place.Relation{Of: place.OfPanel, Shares: shares}
						s.Rulers = rule.Rulers{Main: ruler}
						s.Cover = units.Size{W: 180 * mm, H: 240 * mm}
						with := func(l units.Length) folio.Spec {
							*set(&side) = l
							f := folio.Fitting{Kind: kind, Panel: boards.RightCover, Size: place.Sizing{W: side, H: place.Relation{Of: place.OfPanel}}}
							if tall {
								f.Size.W, f.Size.H = f.Size.H, side
							}
							s.Fittings = []folio.Fitting{f}
							return s
						}
						path, code := "fittings[0].size.w."+field, folio.TooWide
						if tall {
							path, code = "fittings[0].size.h."+field, folio.TooTall
						}
						v, ok := refusal(with(300*mm), path, code)
						if !ok {
							t.Errorf("%s, %s on %v: %v", name, path, ruler, builds(with(300*mm)))
							continue
						}
						if err := builds(with(v.Limit)); err != nil {
							t.Errorf("%s, %s on %v, %d shares: with %v, which would do, %v", name, path, ruler, shares, v.Limit, err)
						}
						if err := builds(with(v.Limit + ruler.Step())); err == nil {
							t.Errorf("%s, %s on %v, %d shares: with more than %v, which would do, it builds", name, path, ruler, shares, v.Limit)
						}
					}
				}
			}
		}
	}
}
