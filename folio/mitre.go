package folio

import (
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A MitreRule is a published distance, measured at right angles, from the
// board's corner to the 45° cut across the wrap's corner, in terms of the
// board's caliper t.
type MitreRule uint8

// Mitre rules.
const (
	MitreDefault            MitreRule = iota // MitreOneAndHalfCalipers
	MitreOneCaliper                          // t (S. J. Vaughn, Printing and Bookbinding for Schools, 1912)
	MitreOneAndHalfCalipers                  // 1.5 t: 3 mm on 2 mm board (University of Brighton, corner-cutter jig)
	MitreEighth                              // 1/8 in (J. H. Adams, 1908)
	MitreFixed                               // the distance given in Mitre.Distance
	mitreEnd
)

// String returns the rule in words.
func (r MitreRule) String() string {
	switch r {
	case MitreDefault:
		return "default"
	case MitreOneCaliper:
		return "1 caliper"
	case MitreOneAndHalfCalipers:
		return "1.5 calipers"
	case MitreEighth:
		return "1/8 in"
	case MitreFixed:
		return "fixed"
	}
	return "no such rule"
}

// A Mitre says how near to the board's corner the wrap's corner is cut off.
type Mitre struct {
	Rule     MitreRule
	Distance units.Length // with MitreFixed; setting it alone chooses MitreFixed
}

func (m Mitre) withDefaults() Mitre {
	if m.Rule == MitreDefault {
		m.Rule = MitreOneAndHalfCalipers
		if m.Distance != 0 {
			m.Rule = MitreFixed
		}
	}
	return m
}

func (m Mitre) check(bad *check.List) bool {
	before := bad.Len()
	switch {
	case m.Rule >= mitreEnd:
		bad.Malformed("mitre.rule", check.Unknown, count(int(m.Rule)), "one of the MitreRule constants")
	case m.Rule == MitreFixed:
		bad.Length("mitre.distance", m.Distance)
	case m.Distance != 0:
		bad.Malformed("mitre.distance", check.Conflict, m.Distance.String()+" with the rule "+m.Rule.String(), "no distance, or the rule MitreFixed")
	}
	return bad.Len() == before
}

// A Cut is a straight cut across a piece, in the piece's own coordinates.
type Cut struct{ From, To units.Point }

// A CornerCut is one mitre: the 45° cut that takes a triangle off a corner of
// the wrap. It crosses the extended edges of the board at Reach from the
// board's corner. Folded over an edge of height Edge, board and covering
// together, the two turn-ins leave no board bare exactly when Reach is at
// least Edge, and overlap along the diagonal by Overlap, which is √2 times what
// Reach has over Edge (derived).
type CornerCut struct {
	corner  work.Corner
	cut     Cut
	leg     units.Working
	reach   units.Working
	edge    units.Length
	overlap units.Length
}

// Corner returns which corner is cut.
func (c CornerCut) Corner() work.Corner { return c.corner }

// Cut returns where the cut runs on the wrap.
func (c CornerCut) Cut() Cut { return c.cut }

// Leg returns how far from the wrap's corner the cut meets each edge, rounded
// down on the ruler, with its working.
func (c CornerCut) Leg() units.Working { return c.leg }

// Reach returns how far from the board's corner the cut crosses the extended
// edges of the board, with its working: √2 times the distance, rounded up on the
// ruler, or more where the leg was put on the ruler.
func (c CornerCut) Reach() units.Working { return c.reach }

// Edge returns what the turn-ins must go round before they lie on the board:
// the calipers of board and covering.
func (c CornerCut) Edge() units.Length { return c.edge }

// Overlap returns by how much the turn-ins overlap along the diagonal, rounded
// down to the nanometre.
func (c CornerCut) Overlap() units.Length { return c.overlap }
