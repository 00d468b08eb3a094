package propose

import (
	"boardwrap.example/folio"
	"boardwrap.example/folio/rule"
	"boardwrap.example/units"
)

// Where the liner's ruler is no part of that of the boards, or its sheets decide
// whether it is one piece or one for each board, what may be covered of a board
// depends on how wide the cover and the spine are. The search then counts with the
// most that may be, tries the covers up to the one that surely does, and takes from a
// built case what there is. Where that would be too many, it counts with the least
// that may be, and nothing is proved.

// loose reports whether what may be covered of a board follows cover and spine.
func (s *searcher) loose() bool { return s.phases > 0 }

// mostPhases bounds how many spines are tried for what they leave of the boards, and
// how many covers each way; leastStep is how fine a ruler of the boards may be for that.
const (
	mostPhases = 16
	leastStep  = units.Millimetre / 20
)

// loosen finds out in a roomy case by how much more or less than there may be covered
// of a board elsewhere.
func (s *searcher) loosen(spec folio.Spec) error {
	filled := s.full.WithDefaults()
	liner, step := filled.Rulers.Liner.Step(), s.ruler.Step()
	if s.soft || s.layered { // then gaps grow with what lies between the boards
		step = gcd(step, filled.Rulers.Gap.Step())
	}
	rules := []rule.LiningRule{filled.Lining.Rule}
	if rules[0] == rule.LiningAuto && len(s.full.Liner.Sheets) > 0 {
		rules = []rule.LiningRule{rule.LiningOnePiece, rule.LiningPanels} // a run has the edges of both
	}
	even := step%liner == 0
	if even && len(rules) == 1 {
		return nil
	}
	if !even {
		spec.Rulers.Liner = units.Ruler(units.Nanometre) // on which the inset is what is asked for
	}
	for n, r := range rules {
		spec.Lining.Rule = r
		p, err := s.build(spec)
		if err != nil {
			return err
		}
		for i, size := range s.panelsOf(p) {
			l := &s.leaves[i]
			board, _ := p.Board(l.role)
			inset := board.Size().Plus(-size.W, -size.H)
			low, high := inset, inset
			if n > 0 {
				low, high = l.inset.Min(inset), l.inset.Max(inset)
			}
			l.inset, l.more = low, high.Plus(-low.W, -low.H)
		}
	}
	s.phases = 1
	if !even {
		s.phases = int(min(liner/gcd(liner, step), mostPhases+1))
	}
	follows := false
	s.rough = s.layered || s.phases > mostPhases || step < leastStep
	for i := range s.leaves {
		l := &s.leaves[i]
		if !even { // at either edge half of what is cut off, less than a step, is rounded up
			l.inset, l.more = l.inset.Plus(-2, -2), l.more.Plus(liner+1, liner+1)
		}
		follows = follows || l.more != units.Size{}
		if s.rough {
			l.inset, l.more = l.inset.Plus(l.more.W, l.more.H), units.Size{}
		}
	}
	if s.rough = s.rough && follows; s.rough || !follows {
		s.phases = 0
	}
	return nil
}

func gcd(a, b units.Length) units.Length {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// panelsOf are what may be covered of each board in a case that is built.
func (s *searcher) panelsOf(p *folio.Plan) []units.Size {
	out := make([]units.Size, len(s.leaves))
	for i := range s.leaves {
		panel, _ := p.Panel(s.leaves[i].role, false)
		out[i] = panel.Grow(-s.clear).Size()
	}
	return out
}

// goOn reports whether each part of a layout goes on its board with its margins, and
// whether it does but for the widths.
func (s *searcher) goOn(parts []*shape, panels []units.Size) (all, high bool) {
	all, high = true, true
	for i, part := range parts {
		if part != nil {
			all = all && part.w+2*s.margin <= panels[i].W
			high = high && part.h+2*s.margin <= panels[i].H
		}
	}
	return all && high, high
}
