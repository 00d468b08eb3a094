package folio

import "boardwrap.example/pocket"

// Again is [Build] of another Spec, sooner where p holds the same folded
// fittings: what was worked out for them is used again. The plan is the same as
// that of Build. On a nil plan it is Build.
func (p *Plan) Again(s Spec) (*Plan, error) { return build(s, p) }

// known returns the design of a folded fitting in an earlier plan, at the same
// place in the Spec, if it was made of the same kind, in the same paper with the
// same side to be seen, and on the same ruler; nil if there is none.
func (b *builder) known(f *fitter, kind pocket.Kind, paper pocket.Paper) *designed {
	if b.footings != nil {
		at := &b.footings[f.index] // worked out for one before it, in this plan
		if at.design != nil && at.design.Kind() == kind && at.design.paper == paper {
			return at.design
		}
	}
	if b.before == nil {
		return nil
	}
	for i := range b.before.fitted {
		o := &b.before.fitted[i]
		if o.index != f.index || o.design == nil {
			continue
		}
		if o.design.paper == paper && o.design.Ruler() == f.ruler() && o.design.Kind() == kind && o.wrong == f.given.WrongSide {
			return o.design
		}
		return nil
	}
	return nil
}
