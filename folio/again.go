package folio

import (
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// Again is [Build] of another Spec, sooner where p holds the same folded
// fittings: what was worked out for them is used again. The plan is the same as
// that of Build. On a nil plan it is Build.
func (p *Plan) Again(s Spec) (*Plan, error) { return build(s, p) }

// known returns the design of a folded fitting in an earlier plan, at the same
// place in the Spec, if it was made from the same kind, paper and ruler.
func (b *builder) known(index int, kind pocket.Kind, paper pocket.Paper, r units.Ruler) *pocket.Design {
	if b.before == nil {
		return nil
	}
	for i := range b.before.fitted {
		if f := &b.before.fitted[i]; f.index == index && f.design != nil {
			if f.paper == paper && f.design.Ruler() == r && f.design.Kind() == kind {
				return f.design
			}
			return nil
		}
	}
	return nil
}
