package folio

import "boardwrap.example/pocket"

// Again is [Build] of another Spec, sooner where p holds the same folded
// fittings: what was worked out for them is used again. The plan is the same as
// that of Build. On a nil plan it is Build.
func (p *Plan) Again(s Spec) (*Plan, error) { return build(&s, p) }

// known returns the design of a folded fitting in an earlier plan, at the same
// place in the Spec, if it was made of the same kind, in the same paper with the
// same side to be seen, and on the same ruler; the zero Design if there is none.
func (b *builder) known(f *fitter, kind pocket.Kind, paper pocket.Paper) pocket.Design {
	if b.footings != nil {
		if d := b.footings[f.index].design; asked(d, kind, paper) { // worked out for one before it, in this plan
			return d
		}
	}
	if b.before == nil {
		return pocket.Design{}
	}
	for i := range b.before.fitted {
		if o := &b.before.fitted[i]; o.index == f.index && asked(o.design, kind, paper) && o.design.Ruler() == f.ruler() && o.wrong == f.given.WrongSide {
			return o.design
		}
	}
	return pocket.Design{}
}

// asked reports whether a design is of a kind, in a paper as it was asked for; the
// zero Design is not.
func asked(d pocket.Design, kind pocket.Kind, paper pocket.Paper) bool {
	paper = paper.WithDefaults()
	paper.Up = d.Paper().Up
	return d.Kind() != nil && d.Kind() == kind && d.Paper() == paper
}
