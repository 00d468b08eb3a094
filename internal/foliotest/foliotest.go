// Package foliotest holds what the tests of several rooms build and ask of a folio.
package foliotest

import (
	"slices"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/makertest"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

// Weighed is a folio of which everything is known: boards of 1000 g/m², papers
// of 100 g/m² and no thickness to speak of, a card of 300 g/m².
func Weighed() folio.Spec {
	const mm, g = units.Millimetre, units.GramPerSquareMetre
	return folio.Spec{
		Cover: units.Size{W: 100 * mm, H: 150 * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Board: stock.Stock{Caliper: 2 * mm, Grammage: 1000 * g}, Covering: stock.Stock{Caliper: mm / 10, Grammage: 100 * g},
		Liner: stock.Stock{Caliper: mm / 10, Grammage: 100 * g}, Lining: rule.Lining{Inset: 3 * mm},
		Margin: rule.Margin{Ideal: 15 * mm}, Stocks: []stock.Stock{{Name: "card 300", Caliper: mm / 3, Grammage: 300 * g}},
		Fittings: []folio.Fitting{
			{Name: "mat", Kind: folio.Mat{Picture: pocket.Content{Name: "card", Size: units.Size{W: 80 * mm, H: 120 * mm}, Thickness: mm / 2}, Reveal: 5 * mm}, Stock: "card 300"},
			{Name: "badge", Outside: true, Panel: boards.LeftCover, Kind: folio.Ornament{Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: mm, Mass: 3 * units.Gram}},
		},
	}
}

// MakerStock is what a maker finds of a material of a plan.
func MakerStock(p *folio.Plan, name string) makertest.Stock {
	s, ok := p.Stock(name)
	out := makertest.Stock{Name: name, Caliper: s.Caliper, TwoSided: s.TwoSided || !ok, OneWay: s.OneWay}
	for _, sheet := range s.Sheets {
		grain := work.GrainEither
		switch sheet.Grain {
		case stock.GrainAlongHeight:
			grain = work.GrainAlongHeight
		case stock.GrainAlongWidth:
			grain = work.GrainAlongWidth
		}
		out.Sheets = append(out.Sheets, makertest.Sheet{Size: sheet.Size, Grain: grain})
	}
	return out
}

// Standing says where the leaves of a guard on a spine lie when they are turned
// to the right, and the guard with its tabs, strip by strip: the pieces of the job from
// one on, with the corner of the guard's footprint at a place; and how much its folds take
// as they stand.
func Standing(k pocket.Concertina, d pocket.Design, j *makertest.Job, first int, at units.Point) {
	lines := j.Pieces[first].Lines
	land := max(k.Land, 0)
	if more := k.Content.Thickness*units.Length(max(k.Count, 1)) - 2*d.Paper().Caliper; k.Land == 0 && more > 0 {
		land = max(d.Ruler().Up(more), units.Shortest) // as its documentation says
	}
	tab, fold := lines[0].At, lines[1].At-lines[0].At
	// Where a place of the whole strip comes to lie: on a fold there and back, and on
	// by each land.
	folded := func(x units.Length) units.Length {
		i := min(max(0, x-tab)/(2*fold+land), units.Length(d.Pockets()-1))
		rest := x - tab - i*(2*fold+land)
		switch {
		case rest <= fold:
			return i*land + rest
		case rest <= 2*fold:
			return i*land + 2*fold - rest
		}
		return i*land + rest - 2*fold
	}
	froms := []units.Length{0}
	for joint := range d.Splices() {
		froms = append(froms, joint.At())
	}
	var strips []makertest.Placed
	for _, p := range d.Panels() {
		piece := first + p.Piece()
		size := j.Pieces[piece].Size
		if p.Name() == "leaf" {
			i := units.Length(p.Copy())
			j.Want = append(j.Want, makertest.Placed{Piece: piece, Copy: p.Copy(), Panel: work.All, Rect: units.RectAt(at.Plus(units.Point{X: i * land}), size)})
			continue
		}
		w := makertest.Placed{Piece: piece, Copy: p.Copy(), Panel: work.All}
		if slices.ContainsFunc(strips, func(s makertest.Placed) bool { return s.Piece == w.Piece && s.Copy == w.Copy }) {
			continue
		}
		from := froms[len(strips)]
		left, right := folded(from), folded(from+size.W)
		left, right = min(left, right), max(left, right)
		for _, l := range j.Pieces[piece].Lines {
			left, right = min(left, folded(from+l.At)), max(right, folded(from+l.At))
		}
		w.Rect = units.Rect{Min: units.Point{X: left}, Max: units.Point{X: right, Y: size.H}}.Moved(at)
		strips = append(strips, w)
	}
	j.Want = append(j.Want, strips...)
	// Two layers a fold, and one a joint.
	j.Pieces[strips[len(strips)-1].Piece].Stands = d.Paper().Caliper * units.Length(2*d.Pockets()+len(froms)-1)
}
