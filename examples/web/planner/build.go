package planner

import (
	"boardwrap.example/folio"
	"boardwrap.example/folio/wire"
	"boardwrap.example/units"
)

// notation is how lengths are written about the document of a Spec.
func (d *Desk) notation(text string) units.Notation {
	if d.asked != text {
		s, _, _, _ := wire.ReadMade([]byte(text)) // nothing is said of a length where there is no Spec
		return notation(s)
	}
	return d.written
}

func notation(s folio.Spec) units.Notation {
	if s.Rulers.Main == 0 {
		return units.InchFraction
	}
	return s.Rulers.Main.Notation()
}

// Build works out the plan of a document, refitted if that holds the cover as
// measured, or takes the last one.
func (d *Desk) Build(text string) (*folio.Plan, error) {
	if d.asked != text || d.plan == nil && d.err == nil {
		d.asked, d.plan, d.err = "", nil, nil // and so they stay where making it ends in a panic
		d.plan, d.written, d.err = built(text)
		d.asked = text
	}
	return d.plan, d.err
}

func built(text string) (*folio.Plan, units.Notation, error) {
	s, m, made, err := wire.ReadMade([]byte(text))
	n := notation(s)
	if err != nil {
		return nil, n, err
	}
	p, err := folio.Build(s)
	if err == nil && made {
		p, err = p.Refit(m)
	}
	return p, n, err
}
