package folio

import (
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A CutLine is a straight cut across a piece, in the piece's own coordinates. It is
// plain data.
type CutLine struct {
	From units.Point // where it begins, on an edge at the head or the tail
	To   units.Point // where it ends, on an edge at a side
}

// A CornerCut is one mitre: the 45° cut that takes a triangle off a corner of
// the wrap. It crosses the extended edges of the board at Reach from the
// board's corner. Folded over an edge of height Edge, board and covering
// together, the two turn-ins leave no board bare exactly when Reach is at
// least Edge, and overlap along the diagonal by Overlap, which is √2 times what
// Reach has over Edge (derived).
type CornerCut struct {
	corner score.Corner
	all    *mitring
	size   units.Size // of what it is cut off
}

// A mitring is what the four mitres of a wrap have in common.
type mitring struct {
	left, right, head, tail units.Length // margins
	diagonal, reach         units.Length // before and after it was put on the ruler
	edge                    units.Length
	ruler                   units.Ruler
	legs                    [4]units.Length
}

// allCorners are the corners of a wrap in one piece, a bit each.
const allCorners = 1<<score.HeadLeft | 1<<score.HeadRight | 1<<score.TailRight | 1<<score.TailLeft

// mitredAt returns the corners of a piece that turns in at the sides given.
func mitredAt(left, right bool) uint8 {
	var at uint8
	if left {
		at = 1<<score.HeadLeft | 1<<score.TailLeft
	}
	if right {
		at |= 1<<score.HeadRight | 1<<score.TailRight
	}
	return at
}

// margins returns the margins that meet at a corner.
func (m *mitring) margins(c score.Corner) (x, y units.Term) {
	x, y = units.T("left margin", m.left), units.T("head margin", m.head)
	if c == score.HeadRight || c == score.TailRight {
		x = units.T("right margin", m.right)
	}
	if c == score.TailLeft || c == score.TailRight {
		y = units.T("tail margin", m.tail)
	}
	return x, y
}

// leg works out a leg in a ledger. It is what is measured, so it is put on the
// ruler, downwards: the cut then passes the corner no nearer than the rule says.
func (m *mitring) leg(c score.Corner, g *units.Ledger) units.Working {
	x, y := m.margins(c)
	return g.Sum("mitre leg", m.ruler, units.Down, x, y, units.N(-1, "mitre reach", m.reach))
}

// past returns how far from the board's corner a cut crosses its edge lines.
func (m *mitring) past(c score.Corner) units.Length {
	x, y := m.margins(c)
	return x.Length + y.Length - m.legs[c]
}

func (c CornerCut) mitres() *mitring {
	if c.all == nil {
		return &mitring{}
	}
	return c.all
}

// Corner returns which corner is cut.
func (c CornerCut) Corner() score.Corner { return c.corner }

// Cut returns where the cut runs on the piece, or on the whole wrap.
func (c CornerCut) Cut() CutLine {
	l := c.mitres().legs[c.corner&3]
	cut := CutLine{units.Point{X: l}, units.Point{Y: l}}
	if c.corner == score.HeadRight || c.corner == score.TailRight {
		cut.From.X, cut.To.X = c.size.W-l, c.size.W
	}
	if c.corner == score.TailLeft || c.corner == score.TailRight {
		cut.From.Y, cut.To.Y = c.size.H, c.size.H-l
	}
	return cut
}

// Leg returns how far from the wrap's corner the cut meets each edge, rounded
// down on the ruler, with its working.
func (c CornerCut) Leg() units.Working {
	var g units.Ledger
	return c.mitres().leg(c.corner, &g)
}

// Reach returns how far from the board's corner the cut crosses the extended
// edges of the board, with its working: √2 times the distance, rounded up on the
// ruler, or more where the leg was put on the ruler.
func (c CornerCut) Reach() units.Working {
	m := c.mitres()
	if m.past(c.corner&3) == m.reach {
		return units.Sum("mitre reach", m.ruler, units.Up, units.T(diagonalTerm, m.diagonal))
	}
	x, y := m.margins(c.corner)
	var g units.Ledger
	return exactly(&g, "mitre reach as cut", m.ruler.Notation(), x, y, units.N(-1, "mitre leg", m.legs[c.corner&3]))
}

const diagonalTerm = "diagonal of a square on the mitre distance"

// Edge returns what the turn-ins must go round before they lie on the board:
// the calipers of board and covering.
func (c CornerCut) Edge() units.Length { return c.mitres().edge }

// Overlap returns by how much the turn-ins overlap along the diagonal, rounded
// down to the nanometre.
func (c CornerCut) Overlap() units.Length {
	m := c.mitres()
	over := max(m.past(c.corner&3)-m.edge, 0)
	return units.Diagonal(over, over, units.Down)
}
