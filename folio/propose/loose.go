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
// built case what there is.

// loose reports whether what may be covered of a board follows cover and spine.
func (s *searcher) loose() bool { return s.phases > 0 }

// mostPhases bounds how many spines are tried for what they leave of the boards.
const mostPhases = 32

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
		rules = []rule.LiningRule{rule.LiningOnePiece, rule.LiningPanels}
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
				low, high = l.inset.Min(inset), l.inset.Plus(l.more.W, l.more.H).Max(inset)
			}
			l.inset, l.more = low, high.Plus(-low.W, -low.H)
		}
	}
	if s.phases = 1; even {
		for i := range s.leaves {
			if s.leaves[i].more != (units.Size{}) {
				return nil
			}
		}
		s.phases = 0
		return nil
	}
	for i := range s.leaves {
		// At either edge half of what is cut off is rounded up.
		s.leaves[i].more = s.leaves[i].more.Plus(liner+2, liner+2)
		s.leaves[i].inset = s.leaves[i].inset.Plus(-2, -2)
	}
	s.phases = int(min(liner/gcd(liner, step), mostPhases+1))
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

// mostSpines bounds how many spines are tried one after the other from the narrowest
// that a layout may need.
const mostSpines = 64

// verifyLoose is verify where what may be covered follows cover and spine: it tries
// the spines one after the other.
func (s *searcher) verifyLoose(opts []option, c *candidate, most units.Length) (f *found, why Reason, sure bool) {
	step := s.ruler.Step()
	f = &found{opts: opts, cover: c.cover, spine: s.spineFor(c.least)}
	last := s.spineFor(c.most) + units.Length(s.phases+8)*step
	leap := s.layered || (last-f.spine)/step > mostSpines // to the spine for what lies there
	why = Reason{Cause: CannotBe, Thing: -1, Detail: "what is left of the boards inside the liner's edge does not take it"}
	for narrow := 0; f.spine <= last; f.spine += step { // narrow counts spines with which it does not go on the boards
		if f.thick = s.thickOf(f.spine, f.under); f.thick > most {
			return nil, Reason{Cause: OverThick, Thing: -1, Thick: f.thick, ThanThick: most}, false
		}
		spec := s.full
		spec.Cover = c.cover
		s.deepen(&spec, f.spine, f.under)
		p, err := s.build(spec)
		if err != nil {
			return nil, Reason{Cause: CannotBe, Thing: -1, Detail: first(err)}, false
		}
		panels := s.panelsOf(p)
		all, high := s.goOn(c.parts, panels)
		if !high {
			return nil, why, true // whatever the spine
		}
		if !all {
			if narrow++; narrow == min(s.phases, mostPhases) {
				return nil, why, s.phases <= mostPhases && !s.layered && s.linedAlike(spec, p, most)
			}
			continue
		}
		spec.Fittings, f.held = s.bare.Fittings, nil
		s.furnish(f, &spec, s.arrange(opts, c, panels), panels)
		if leap {
			leap = false
			if s.leap(f, spec) {
				f.spine -= step // and try with that
				continue
			}
		}
		small, ok := false, false
		if why, small, ok = s.check(f, spec); ok {
			return f, why, true
		}
		if small || why.Cause != CannotBe && why.Cause != Unwise || s.over() {
			return nil, why, small && f.spine <= s.spineFor(c.least) && f.under == 0
		}
		if f.under > 0 {
			f.under += step
		}
	}
	return nil, why, false
}

// linedAlike reports whether the case is lined in the same way with the widest spine
// that counts.
func (s *searcher) linedAlike(spec folio.Spec, p *folio.Plan, most units.Length) bool {
	if len(s.full.Liner.Sheets) == 0 {
		return true
	}
	s.deepen(&spec, min(s.spineWithin(most), s.ruler.Up(s.roomy)), 0)
	wide, err := s.build(spec)
	return err == nil && wide.LiningStyle() == p.LiningStyle()
}

// leap takes for a folio the spine that what lies in it takes, and the room under
// what lies over an outside, where they are more.
func (s *searcher) leap(f *found, spec folio.Spec) (more bool) {
	sheets := &s.bare
	spec.Board, spec.Covering, spec.SpineCovering, spec.Liner = sheets.Board, sheets.Covering, sheets.SpineCovering, sheets.Liner
	for k := range min(s.phases, mostPhases) {
		need := *f
		s.deepen(&spec, s.ruler.Up(s.roomy)+units.Length(k)*s.ruler.Step(), s.roomy)
		if _, ok := s.deepFor(&need, spec); !ok {
			continue // it does not go on the boards with that spine
		}
		more = need.spine > f.spine || need.under > f.under
		f.spine, f.under = max(f.spine, need.spine), max(f.under, need.under)
		break
	}
	return more
}
