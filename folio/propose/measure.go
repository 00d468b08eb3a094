package propose

import (
	"cmp"
	"slices"
	"strings"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// measure builds the case larger than any, and takes from it what a cover and a
// spine are larger than what they leave.
func (s *searcher) measure() error {
	s.leaves = leavesOf(s.bare.WithDefaults())
	p, spec, err := s.roomyCase()
	if err != nil {
		return err
	}
	var bad check.List
	t, ok := p.TightestOf(closing.BetweenCovers, true)
	over, shuts := p.Overall(true)
	if !ok || !shuts {
		bad.Impossible("hinge", folio.WarnOpen, "hinges with which the covers do not come to lie parallel", "a hinge that closes")
		return bad.Err()
	}
	if w, ok := unwise(p); ok {
		bad.Impossible(w.Path, CaseUnwise, w.Text, "a case without that warning")
		return bad.Err()
	}
	if _, ok := p.Stock(s.stock); !ok {
		bad.Malformed("stocks", check.Missing, "no stock "+check.Quote(s.stock), "a stock "+check.Quote(s.stock)+", that of the fittings, among the stocks of the case")
		return bad.Err()
	}
	lie := len(s.leaves)
	s.leaves = slices.DeleteFunc(s.leaves, func(l leaf) bool {
		_, room, ok := p.Over(l.role, true)
		return !ok || room >= units.Longest // its inside looks out when the folio is shut
	})
	table, _ := p.Panel(boards.MainPanel, false)
	s.narrowest = s.ruler.Step()
	if fixed := func(l leaf) bool { return l.rule == boards.WidthFixed }; !slices.ContainsFunc(s.leaves, func(l leaf) bool { return !fixed(l) }) {
		for i := range s.leaves {
			s.narrowest = max(s.narrowest, s.leaves[i].board(0, s.ruler))
		}
	}
	for i := range s.leaves {
		l := &s.leaves[i]
		board, _ := p.Board(l.role)
		panel, _ := p.Panel(l.role, false)
		size := panel.Grow(-s.clear).Size()
		l.inset = units.Size{W: board.Size().W - size.W, H: spec.Cover.H - size.H}
		if panel == table {
			s.main, s.trial = i, i
		}
	}
	if err := s.loosen(spec); err != nil {
		return err
	}
	for i := range s.leaves {
		s.extra = max(s.extra, s.leaves[i].inset.H+2*s.margin)
		s.more = max(s.more, s.leaves[i].more.H)
	}
	spine := s.ample()
	s.slack = spine - t.Room().Length()
	if u, ok := p.TightestOf(closing.UnderFlap, true); ok && s.layered {
		s.slacker = spec.Closing.UnderFlap - u.Room().Length()
	}
	return s.outside(spec, over, lie)
}

// thickest is how thick the limits allow the closed folio to be.
func (s *searcher) thickest() units.Length {
	most := s.thickOf(s.ample(), s.roomy)
	if s.anyCover {
		return most
	}
	most = min(most, cmp.Or(s.request.Limits.Thickness, most))
	if in := s.request.Limits.Into; in.Depth > 0 {
		most = min(most, in.Depth-2*in.Padding)
	}
	return most
}

// tolerated are the warnings that follow from the paper at hand, say what was
// put on a ruler or that a small thing has small corners. Every other one rules a
// folio out.
var tolerated = [...]check.Code{pocket.NarrowEdge, folio.WarnRuler, folio.WarnMargin, folio.WarnQuarter, folio.WarnPanels}

// CaseUnwise marks a case of which every folio would be warned of; how to do without the
// warning is advice.
const CaseUnwise check.Code = "case-unwise"

// unwise returns the first warning of a plan that rules it out.
func unwise(p *folio.Plan) (check.Warning, bool) {
	for w := range p.Warnings() {
		if !slices.Contains(tolerated[:], w.Code) {
			return w, true
		}
	}
	return check.Warning{}, false
}

// roomyCase builds the case with a cover and spines larger than any.
func (s *searcher) roomyCase() (*folio.Plan, folio.Spec, error) {
	spec := s.bare
	s.soft = true
	boards := spec.Row.Boards
	if len(boards) == 0 {
		boards = spec.Form.Row().Boards
	}
	for _, b := range boards {
		s.soft = s.soft && !b.Role.Spine()
	}
	for s.roomy, s.layered = 2*units.Metre, len(s.leaves) > 2; ; {
		if s.ruler.Valid() {
			spec.Cover = units.Size{W: s.ample(), H: s.ample()}
			s.deepen(&spec, s.ample(), s.ample())
		}
		p, err := s.build(spec)
		bad, is := err.(*check.Error)
		if !is {
			return p, spec, err
		}
		_, flat := bad.Find("closing.underflap", check.Conflict)
		_, long := bad.Find("", check.TooLarge)
		var own check.List // what has a width of its own that is less than is tried here
		for v := range bad.All() {
			if v.Bound == check.AtLeast && v.Limit >= s.roomy {
				own.Malformed(v.Path, check.Conflict, v.Got+" of its own", "no width, but one that follows from what goes in")
			}
			if strings.HasSuffix(v.Path, ".rule") && s.followsRoom(spec, v) {
				own.Malformed(v.Path, check.Conflict, v.Got+" by its rule", "no rule, but a width that follows from what goes in")
			}
		}
		switch {
		case flat && s.layered && s.full.Closing.UnderFlap == 0:
			s.layered = false
			spec.Closing.UnderFlap = 0
		case long && s.roomy > units.Metre/4:
			s.roomy = s.roomy.Half(units.Down)
		case own.Len() > 0:
			return nil, spec, own.Err()
		default:
			return nil, spec, err
		}
	}
}

// followsRoom reports whether a case with a little less room would be told otherwise
// what is wrong.
func (s *searcher) followsRoom(spec folio.Spec, v check.Violation) bool {
	less := s.ample() - s.ruler.Step()
	s.deepen(&spec, less, less)
	_, err := s.build(spec)
	return err == nil || !strings.Contains(err.Error(), v.Want)
}

// outside takes from a roomy case, of which so many boards lie, how thick it is
// beyond its spines, and how much wider and higher than its cover.
func (s *searcher) outside(spec folio.Spec, over folio.Overall, lie int) error {
	spine := s.ample()
	thick := func(spine, under, less units.Length) (folio.Overall, error) {
		other := spec
		other.Cover = other.Cover.Plus(-less, -less)
		s.deepen(&other, spine, under)
		p, err := s.build(other)
		if err != nil {
			return folio.Overall{}, err
		}
		o, _ := p.Overall(true)
		return o, nil
	}
	// How much less thick something is goes into what was taken off a whole number of
	// times, but for roundings.
	times := func(less, off units.Length) units.Length { return (less + off.Half(units.Down)) / off }
	s.closed = over.Size().Plus(-spec.Cover.W, -spec.Cover.H)
	s.bySpine, s.follows = 1, true
	if lie > 2 || s.narrowest > s.ruler.Step() {
		half := s.ruler.Up(spine.Half(units.Up))
		low, err := thick(half, spine, half)
		if err != nil {
			return err
		}
		s.bySpine = times(over.Thickness().Length()-low.Thickness().Length(), spine-half)
		s.follows = low.Size() == spec.Cover.Plus(-half, -half).Plus(s.closed.W, s.closed.H)
		if s.layered {
			if low, err = thick(spine, half, 0); err != nil {
				return err
			}
			s.byUnder = times(over.Thickness().Length()-low.Thickness().Length(), spine-half)
		}
	}
	s.thick = over.Thickness().Length() - s.bySpine*spine - s.byUnder*spec.Closing.UnderFlap
	return nil
}
