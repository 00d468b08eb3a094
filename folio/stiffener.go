package folio

import (
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A stiffener is the strip that keeps a soft spine flat: it is glued to the
// wrap in the middle of the gap, between the covers.
type stiffener struct {
	piece  int
	margin units.Length // from the strip to the board at either side
}

// stiffen works out the stiffener of a soft spine. It keeps off either cover by
// the board's caliper, so that the wrap can bend there (common practice, no
// published source), put on the ruler of the gap.
func (b *builder) stiffen() {
	s, p := b.spec, b.plan
	name := s.Spine.Stiffener
	if name == "" {
		return
	}
	if len(b.plan.shape.Boards) != 2 {
		b.bad.Malformed("spine.stiffener", check.Conflict, check.Quote(name)+" with the form "+s.Form.String(), "nothing, or the form "+boards.SoftSpine.String())
		return
	}
	paper := b.stock(name)
	if paper == nil {
		b.bad.Malformed("spine.stiffener", check.Unknown, check.Quote(name), "the name of one of the stocks")
		return
	}
	if len(p.gaps) == 0 {
		return // said already
	}
	r, gap := s.Rulers.Gap, p.gaps[0].planned.Length()
	margin := r.Up(s.Board.Caliper)
	width := b.exactly("spine stiffener", units.T("hinge gap", gap), units.N(-2, "board caliper, up", margin))
	if width.Length() < units.Shortest {
		b.bad.Impossible("spine.stiffener", TooNarrow, b.notation().Text(max(width.Length(), 0))+" between the hinges of a gap of "+b.notation().Text(gap), "nothing: so narrow a back needs none")
		return
	}
	p.stiff = &stiffener{margin: margin, piece: b.piece(&Piece{
		name: "spine stiffener", part: "case", role: stock.StiffenerPiece, stock: paper.Name, caliper: paper.Caliper,
		width: width, height: p.boards[0].height, quantity: 1,
	})}
}

// stiffAt returns where the stiffener lies on the row.
func (p *Plan) stiffAt() units.Rect {
	gap := p.gaps[0].rect
	size := p.pieces[p.stiff.piece].Size()
	at := units.Point{X: gap.Min.X + (gap.Size().W - size.W).Half(units.Down), Y: gap.Min.Y}
	return units.RectAt(at, size)
}
