package folio_test

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

// Where two fittings of one kind lie in a folio, no sentence of the order of work calls
// a piece of the one as it calls a piece of the other: who reads a step knows which is in
// hand.
func TestEqualFittingsAreToldApartInSentences(t *testing.T) {
	content := pocket.Content{Name: "print", Size: units.Size{W: 50 * mm, H: 70 * mm}, Thickness: mm / 4}
	kinds := []folio.Kind{folio.Mat{Picture: content}, folio.Frame{Picture: content, Film: "film"}}
	for k := range pocket.Kinds() {
		kinds = append(kinds, folio.Folded{Kind: pocket.Holding(k, func(c *pocket.Content) { *c = content })})
	}
	for _, kind := range kinds {
		for _, names := range [][2]string{{"", ""}, {"oars", "notices"}, {"crew", "crew of eight"}} {
			s := folio.Spec{Cover: units.Size{W: 260 * mm, H: 300 * mm}, Spine: rule.Spine{Width: 60 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}}
			s.Stocks = append(s.Stocks, plainCase().Stocks[0])
			s.Stocks[0].Name, s.Stocks[0].Caliper = "film", mm/10
			for i, panel := range []boards.Role{boards.LeftCover, boards.RightCover} {
				s.Fittings = append(s.Fittings, folio.Fitting{Name: names[i], Panel: panel, Kind: kind, Place: place.Place{Across: place.Left, Along: place.Head}})
			}
			p := mustBuild(t, s)
			of := map[int]int{} // a piece's fitting
			i := 0
			for piece := range p.Pieces() {
				if f, ok := piece.Fitting(); ok {
					of[i] = f + 1
				}
				i++
			}
			called := map[string]int{} // whose pieces are called so
			see := func(o work.Object) {
				if o.Kind != work.Piece || of[o.Index] == 0 || o.Name == "" {
					return
				}
				if f := called[o.Name]; f != 0 && f != of[o.Index] {
					t.Errorf("%v, %q: both have a piece called %q", kind, names, o.Name)
				}
				called[o.Name] = of[o.Index]
			}
			for step := range p.Steps() {
				for _, a := range step.Do {
					switch a := a.(type) {
					case work.Cut:
						see(a.What)
					case work.Open:
						see(a.What)
					case work.MarkPlace:
						see(a.What)
					case work.Lay:
						see(a.What)
					case work.Fix:
						see(a.What)
						if a.On.Kind == work.OnPiece {
							see(work.Object{Index: a.On.Index, Name: a.On.Name})
						}
					case work.TurnOver:
						see(a.What)
					case work.ScoreAt:
						see(a.What)
					case work.FoldAt:
						see(a.What)
					case work.Stick:
						see(a.What)
					}
				}
			}
			if len(called) < 2 {
				t.Errorf("%v, %q: only %d pieces are named", kind, names, len(called))
			}
		}
	}
}
