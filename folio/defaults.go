package folio

import "slices"

// WithDefaults returns the Spec with every default filled in that does not
// depend on other fields, so that a front end can show them; [units.None] stays
// where it was given. It is a deep copy: nothing that is done to it changes s, or
// the other way round. It does not check anything; [Build] does, and makes the
// same of the Spec as of the filled one.
func (s Spec) WithDefaults() Spec {
	s.own()
	s.fill()
	for i := range s.Fittings {
		if kind, ok := plain(s.Fittings[i].Kind); ok {
			if d, has := kind.(defaulter); has {
				kind = d.withUsual(s.Rulers)
			}
			s.Fittings[i].Kind = kind
		}
	}
	if s.SpineCovering.Empty() {
		s.SpineCovering = s.Covering
		s.SpineCovering.Sheets = slices.Clone(s.Covering.Sheets)
	}
	return s
}
