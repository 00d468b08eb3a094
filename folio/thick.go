package folio

import (
	"boardwrap.example/folio/rule"
	"boardwrap.example/units"
)

// thick is what of a board leans into a hinge on the concave side. The liner lies
// there, so it counts into the board's caliper; not so when it keeps off the hinge
// by a caliper or more and the boards do not lean over each other (derived).
func (s *Spec) thick(h rule.Hinge) units.Length {
	if t := s.Board.Caliper; s.Lining.Rule == rule.LiningPanels && s.Lining.Inset >= t && h.Angle <= 90 {
		return t
	}
	return s.Board.Caliper + s.Liner.Caliper
}
