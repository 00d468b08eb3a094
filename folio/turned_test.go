package folio_test

import (
	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/units"
)

// turnedIn says again, from the margins, what the wrap adds to the inside of each
// board: what of a piece stands past the boards' edge, less what goes round that
// edge, lies on the board from its edge inwards.
func turnedIn(p *folio.Plan) map[boards.Role][]slab {
	out := map[boards.Role][]slab{}
	spec := p.Spec()
	wrap := p.Wrap()
	near := wrap.Across()
	left, head := near.Near().Length(), wrap.Along().Near().Length()
	tail := wrap.Along().Far().Length()
	row := units.Size{W: p.OpenWidth().Length(), H: p.OpenHeight().Length()}
	for piece := range wrap.Pieces() {
		c := spec.Covering.Caliper
		if piece.Strip() {
			c = spec.SpineCovering.Caliper
		}
		round := spec.Board.Caliper + c
		from := piece.X() - left
		to := from + piece.Piece().Size().W
		var flaps []slab
		add := func(x0, x1, y0, y1 units.Length) {
			flaps = append(flaps, slabOf(units.Rect{Min: units.Point{X: max(x0, 0), Y: y0}, Max: units.Point{X: min(x1, row.W), Y: y1}}, c))
		}
		if deep := head - round; deep > 0 {
			add(from, to, 0, deep)
		}
		if deep := tail - round; deep > 0 {
			add(from, to, row.H-deep, row.H)
		}
		if deep := -from - round; deep > 0 {
			add(0, deep, 0, row.H)
		}
		if deep := to - row.W - round; deep > 0 {
			add(row.W-deep, row.W, 0, row.H)
		}
		for b := range p.Boards() {
			x0, x1 := b.Rect().Min.X.Millimetres(), b.Rect().Max.X.Millimetres()
			for _, f := range flaps {
				f.x0, f.x1 = max(f.x0, x0), min(f.x1, x1)
				if f.x0 < f.x1 {
					out[b.Role()] = append(out[b.Role()], f)
				}
			}
		}
	}
	return out
}
