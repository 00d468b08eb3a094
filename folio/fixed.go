package folio

import "boardwrap.example/folio/place"

// Fixed returns the Spec of the plan, as [Plan.Spec] does, with the sizes that
// were worked out in place of those by relation: it builds the same folio, and no
// longer follows its cover. What a refit worked out is fixed as refitted.
func (p *Plan) Fixed() Spec {
	s := p.Spec()
	for i := range p.fitted {
		f := &p.fitted[i]
		s.Fittings[f.index].Kind, s.Fittings[f.index].Size = f.kind, place.Sizing{}
	}
	return s
}
