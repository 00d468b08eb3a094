package folio_test

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// crowdedRow is a row by chance, in zigzag or rolled up, with things on boards and on
// spine boards, on either side. Every length is a whole number of tenths, or where a bend
// decides on a spine board's width an even number of nanometres, so that halves fall on the
// ruler and are the same from either end.
func crowdedRow(r *rand.Rand) (s folio.Spec, ok bool) {
	length := func(low, high units.Length) units.Length {
		const tenth = 100 * units.Micrometre
		return (low + units.Length(r.Int64N(int64(high-low)))) / tenth * tenth
	}
	cover, gaps := length(60*mm, 120*mm), [...]units.Ruler{everyNanometre, everyNanometre, units.TenthMillimetres, units.SixtyFourths}[r.IntN(4)]
	s = folio.Spec{
		Cover: units.Size{W: cover, H: 140 * mm}, Rulers: rule.Rulers{Main: everyNanometre, Board: evenNanometres, Gap: gaps},
		Board: stock.Stock{Caliper: length(mm, 3*mm)}, Covering: stock.Stock{Caliper: length(mm/10, mm/2)}, Liner: stock.Stock{Caliper: length(mm/10, mm/2)},
		Closing: closing.Allowance{Ease: units.None, Adhesive: closing.AdhesiveFilm{Caliper: units.None}},
		Hinge:   rule.Hinge{Rule: rule.HingeLeast}, Mitre: rule.Mitre{Distance: 5 * mm},
	}
	hinges := [...]rule.Hinge{{}, {Rule: rule.HingeLeast}, {Rule: rule.HingeLeast, Crease: rule.CreaseTwo}, {Rule: rule.HingeLeast, Crease: rule.CreaseRound},
		{Rule: rule.HingeLeast, Crease: rule.CreaseMidGap}, {Width: length(6*mm, 14*mm)}}
	lying := 2 + r.IntN(3)
	var sides []boards.Role
	main, rolled := r.IntN(lying), r.IntN(2) == 0
	if !rolled {
		main = []int{0, lying - 1}[r.IntN(2)] // the other boards of a zigzag lie on both sides of one in the middle
	}
	for k := range lying {
		if k > 0 {
			j := boards.Joint{Hinge: hinges[r.IntN(len(hinges))]}
			if !rolled {
				j.Fold = score.Fold((k + 1 + main*lying) % 2) // a valley at the board on the table
			}
			if s.Row.Joints = append(s.Row.Joints, j); r.IntN(4) > 0 {
				spine := [...]boards.Role{boards.Spine1, boards.Spine2, boards.Spine3}[k-1]
				b := boards.Board{Role: spine, Width: length(14*mm, 40*mm)}
				if r.IntN(2) == 0 {
					b.Width, s.Spine.Contents = 0, 3*mm
				}
				if r.IntN(2) == 0 { // the hinges on both sides of a spine need not be alike
					j.Hinge = hinges[r.IntN(len(hinges))]
				}
				s.Row.Boards, s.Row.Joints = append(s.Row.Boards, b), append(s.Row.Joints, j)
				sides = append(sides, spine, spine)
			}
		}
		b := boards.Board{Role: boards.Panel1 + boards.Role(k)}
		switch out := max(k-main, main-k); {
		case rolled && out > 0: // the further out the sooner it is turned, inside the others
			b.Width = length(50*mm, cover) / units.Length(1<<min(out-1, 1)) / 1000 * 1000
		case r.IntN(3) > 0:
			b.Width = length(40*mm, cover)
		}
		s.Row.Boards, sides = append(s.Row.Boards, b), append(sides, b.Role)
	}
	s.Row.Main = boards.Panel1 + boards.Role(main)
	if main > 0 && main < lying-1 {
		// Of the two beside the one on the table it is said which lies over the other.
		over := [2]boards.Role{s.Row.Main - 1, s.Row.Main + 1}
		if r.IntN(2) == 0 {
			slices.Reverse(over[:])
		}
		i := slices.IndexFunc(s.Row.Boards, func(b boards.Board) bool { return b.Role == over[0] })
		s.Row.Boards[i].Over = over[1]
	}
	if _, err := folio.Build(s); err != nil {
		return s, false
	}
	for i := range 1 + r.IntN(5) {
		panel := sides[r.IntN(len(sides))]
		size := units.Size{W: length(8*mm, 40*mm), H: length(20*mm, 60*mm)}
		if panel.Spine() {
			size.W = length(2*mm, 9*mm)
		}
		f := folio.Fitting{
			Name: string(rune('a' + i)), Panel: panel, Outside: r.IntN(3) == 0, Kind: folio.Ornament{Size: size, Thickness: length(mm/5, 5*mm)},
			Place: place.Place{Across: [...]place.Align{place.Middle, place.Left, place.Right}[r.IntN(3)], Along: place.Middle, Offset: units.Point{X: length(0, 3*mm)}},
		}
		with := s
		with.Fittings = append(slices.Clip(s.Fittings), f)
		_, err := folio.Build(with)
		if bad, _ := err.(*check.Error); bad == nil || closesNot(bad) {
			s = with
		}
	}
	return s, true
}

// closesNot reports whether all that is wrong is that the row does not close.
func closesNot(err *check.Error) bool {
	for v := range err.All() {
		if v.Code != folio.NotClosing {
			return false
		}
	}
	return true
}

// inMirror is a row as it is seen in a mirror: from right to left.
func inMirror(s folio.Spec) folio.Spec {
	s.Row.Boards, s.Row.Joints, s.Fittings = slices.Clone(s.Row.Boards), slices.Clone(s.Row.Joints), slices.Clone(s.Fittings)
	slices.Reverse(s.Row.Boards)
	slices.Reverse(s.Row.Joints)
	for i := range s.Fittings {
		p := &s.Fittings[i].Place
		switch p.Across { // from an edge an offset counts inwards
		case place.Middle:
			p.Offset.X *= -1
		case place.Left:
			p.Across = place.Right
		case place.Right:
			p.Across = place.Left
		}
	}
	return s
}

// facts is what is said of a row and is the same in a mirror, with how high each of
// its boards lies in the end: of two as near, the left one turns first.
func facts(s folio.Spec) (all []string, piled string) {
	say := func(format string, args ...any) { all = append(all, fmt.Sprintf(format, args...)) }
	p, err := folio.Build(s)
	row := s.Row.Boards
	atAnEnd := s.Row.Main == row[0].Role || s.Row.Main == row[len(row)-1].Role
	var bad *check.Error
	if errors.As(err, &bad) {
		if !atAnEnd {
			return nil, "" // in one order or the other
		}
		for v := range bad.All() {
			say("refused: %v by %v, %v %v", v.Code, v.By, v.Bound, v.Limit)
		}
		slices.Sort(all)
		return all, ""
	}
	var roles []boards.Role
	for b := range p.Boards() {
		roles = append(roles, b.Role())
		say("%v: %v", b.Role(), b.Size())
	}
	for g := range p.Gaps() {
		a, b := g.Between()
		say("gap between %v and %v: %v", min(a, b), max(a, b), g.Width())
	}
	c, _ := p.Closed()
	say("closed: %v x %v, %v thick", c.Width().Length(), c.Height().Length(), c.Thickness().Length())
	if atAnEnd {
		say("room %v", c.Room().Length()) // else that of the left one is told
	}
	section, _ := p.Section()
	heights := map[boards.Role]units.Length{}
	for slab := range section {
		if r := roles[slab.Board()]; !slab.Upright() {
			heights[r] = slab.Rect().Min.Y
		}
	}
	for r := boards.Panel1; r <= boards.Panel9; r++ {
		piled += fmt.Sprintf("%v ", heights[r])
	}
	facing := map[[2]boards.Role]bool{}
	for _, full := range []bool{false, true} {
		for m := closing.Meeting(0); m <= closing.BesideSpine; m++ {
			if tight, ok := p.TightestOf(m, full); ok {
				say("%v: %v left, closes %v, would do %v", m, tight.Left().Length(), tight.Closes(), tight.WouldDo().Length())
				for term := range tight.Room().Terms() {
					if term.Label == "" {
						say("%v: %v, in which a term has no name", m, tight.Room())
					}
				}
			}
		}
		for _, r := range roles {
			board, _ := p.Board(r)
			panel, _ := p.Panel(r, false)
			on := func(part, in units.Rect) string {
				if part.Empty() || part.Intersect(in) != part {
					return fmt.Sprintf("%v, which is not on it", part)
				}
				return part.Size().String()
			}
			for part, room := range p.Beside(r, full) {
				say("beside the %v: %s, %v", r, on(part, board.Rect()), room)
			}
			for o := range p.Overheads(r, full) {
				faces := o.Facing()
				slices.Sort(faces)
				say("over the %v: %s, %v, %v", r, on(o.Part(), panel), faces, o.Room())
				for _, face := range faces {
					facing[[2]boards.Role{r, face}] = true
				}
			}
		}
	}
	for pair := range facing {
		if !facing[[2]boards.Role{pair[1], pair[0]}] || pair[0] == pair[1] {
			say("%v faces %v, which does not face it", pair[0], pair[1])
		}
	}
	for f := range p.Fittings() {
		rect, role := f.Rect(), f.Panel()
		say("headroom at %s: %v", f.Label(), p.Headroom(rect, role, f.Index()))
	}
	for w := range p.Warnings() {
		say("warned: %v, got %v", w.Code, w.Got)
	}
	slices.Sort(all)
	return all, piled
}

// In a mirror a row is the same row: what turns to the left turns to the right. Whatever
// is said of room, gaps and meetings is said of both, unless the boards lie in another
// order, where it is the left one of two that turns first.
func TestRowsInAMirror(t *testing.T) {
	r := rand.New(rand.NewPCG(uint64(proptest.Seed()), 26))
	built, refused, other := 0, 0, 0
	for i := range proptest.Cases(1600) {
		s, ok := crowdedRow(r)
		if !ok {
			continue
		}
		got, piled := facts(inMirror(s))
		want, was := facts(s)
		switch {
		case want == nil || got == nil || piled != was && piled != "" && was != "":
			other++
			continue
		case piled == "":
			refused++
		default:
			built++
		}
		if i := slices.IndexFunc(want, func(s string) bool { return strings.Contains(s, "which ") }); i >= 0 {
			t.Errorf("row %d: %s: %+v", i, want[i], s.Row)
		}
		if d := cmp.Diff(want, got); d != "" {
			t.Errorf("row %d: %+v\n%s", i, s.Row, d)
		}
	}
	if built < proptest.Cases(400) || refused < proptest.Cases(120) || other > proptest.Cases(60) {
		t.Errorf("%d built, %d refused, %d in another order", built, refused, other)
	}
}

// A row of four whose round joint bends so far out, for what comes to lie in it, that a gap
// that had been widened before may be less again.
func rolledBack(k units.Length) folio.Spec {
	by := func(crease rule.CreasePlace, offset units.Length) boards.Joint {
		return boards.Joint{Hinge: rule.Hinge{Rule: rule.HingeLeast, Crease: crease, Offset: offset}}
	}
	mid, round, off := by(rule.CreaseMidGap, 0), by(rule.CreaseRound, 0), by(rule.CreaseAtOffset, 365*units.Micrometre)
	return folio.Spec{
		Cover: units.Size{W: 82_166 * units.Micrometre, H: 126 * mm}, Spine: rule.Spine{Width: 165*mm/10 + k*7919}, Rulers: rule.Rulers{Main: everyNanometre, Gap: units.TenthMillimetres},
		Board: stock.Stock{Caliper: 1885 * units.Micrometre}, Covering: stock.Stock{Caliper: 305 * units.Micrometre}, Liner: stock.Stock{Caliper: 75 * units.Micrometre},
		Closing: closing.Allowance{Ease: units.None, UnderFlap: 789 * units.Micrometre}, Mitre: rule.Mitre{Distance: 5 * mm},
		Row: boards.Row{
			Boards: []boards.Board{{Role: boards.Panel1}, {Role: boards.Spine1}, {Role: boards.Panel2}, {Role: boards.Panel3}, {Role: boards.Spine3}, {Role: boards.Panel4, Width: 88_215*units.Micrometre + k*104_729}},
			Joints: []boards.Joint{mid, mid, round, off, off},
		},
	}
}

// The least gap with which a row shuts is that: given as a width it leaves the row as it
// is, and with four nanometres less, or a step of its ruler, the row does not shut. Left out is a soft joint that
// insides meet at: its gap leaves room for turn-ins that may lie beside each other.
func TestLeastGapsOfRows(t *testing.T) {
	r := rand.New(rand.NewPCG(uint64(proptest.Seed()), 20))
	tried := map[rule.CreasePlace]int{}
	for range proptest.Cases(1000) {
		if s, ok := crowdedRow(r); ok {
			leastGaps(t, s, tried)
		}
	}
	for crease, n := range tried {
		if n < proptest.Cases(40) {
			t.Errorf("%d gaps creased %v", n, crease)
		}
	}
	again := map[rule.CreasePlace]int{}
	for k := range units.Length(5) {
		leastGaps(t, rolledBack(k), again)
	}
	if again[rule.CreaseMidGap] < 10 || again[rule.CreaseAtOffset] < 10 {
		t.Errorf("of gaps that had been wider before: %v", again)
	}
}

func leastGaps(t *testing.T, s folio.Spec, tried map[rule.CreasePlace]int) {
	s.Fittings = nil
	p, err := folio.Build(s)
	if err != nil {
		return
	}
	i := -1
	for g := range p.Gaps() {
		i++
		left, right := g.Between()
		h, fold := s.Row.Joints[i].Hinge, s.Row.Joints[i].Fold
		if h == (rule.Hinge{}) {
			h = s.Hinge
		}
		if h.Rule != rule.HingeLeast || !left.Spine() && !right.Spine() && fold == score.Valley {
			continue
		}
		tried[h.Crease]++
		with := func(less units.Length) (*folio.Plan, error) {
			again := s
			again.Row.Joints = slices.Clone(s.Row.Joints)
			again.Row.Joints[i].Hinge = rule.Hinge{Width: g.Width() - less, Crease: h.Crease, Offset: h.Offset}
			return folio.Build(again)
		}
		if q, err := with(0); err != nil || samePieces(p, q) != "" {
			t.Errorf("%+v: joint %d of %v as given: %v", s.Row, i, g.Width(), err)
		}
		less := max(4, s.Rulers.Gap.Step())
		if g.Width() == less {
			continue // no gap is not a width
		}
		if q, err := with(less); err == nil {
			if tight, ok := q.Tightest(false); ok && tight.Closes() {
				t.Errorf("%+v: with less than %v at joint %d it shuts too", s.Row, g.Width(), i)
			}
		}
	}
}

// Headroom is what there is: a thing as thick as that goes there, and the row closes
// over it, with its ease; with four nanometres more it does not.
func TestHeadroomOfRows(t *testing.T) {
	r := rand.New(rand.NewPCG(uint64(proptest.Seed()), 20))
	tried := 0
	for range proptest.Cases(1500) {
		s, ok := crowdedRow(r)
		if r.IntN(2) == 0 {
			s.Closing.Ease = mm / 2
		}
		if r.IntN(4) == 0 { // what counts is what a full one holds
			s = matted(s, true)
			s.Closing.UnderFlap += 2 * mm
		}
		p, err := folio.Build(s)
		if !ok || err != nil {
			continue
		}
		// What lies there leaves the ease, and so does the case where it alone lies.
		if tight, ok := p.Tightest(true); !ok || tight.Left().Length() < max(0, s.Closing.Ease) {
			continue
		}
		role := s.Row.Boards[2*r.IntN((len(s.Row.Boards)+1)/2)].Role
		panel, ok := p.Panel(role, false)
		size := units.Size{W: units.Length(3+r.IntN(20)) * mm, H: 20 * mm}
		if !ok || role.Spine() || !size.FitsIn(panel.Size()) {
			continue
		}
		at := units.Point{X: units.Length(r.Int64N(int64(panel.Size().W-size.W) + 1)), Y: units.Length(r.Int64N(int64(panel.Size().H-size.H) + 1))}
		for part := range p.Beside(role, true) { // where something on a spine board is in the way
			at = units.Point{X: part.Min.X - panel.Min.X, Y: part.Min.Y - panel.Min.Y}
			at.X, at.Y = at.X.Clamp(0, panel.Size().W-size.W), at.Y.Clamp(0, panel.Size().H-size.H)
		}
		if headroomIs(t, s, p, role, at, size) {
			tried++
		}
	}
	// A badge at the back of the innermost fold stands across from what lies on the board
	// over it, whose own folds have nothing: found among thousands by chance.
	h := rule.Hinge{Rule: rule.HingeLeast}
	s := folio.Spec{
		Cover: units.Size{W: 80 * mm, H: 140 * mm}, Spine: rule.Spine{Contents: 3 * mm}, Rulers: rule.Rulers{Main: everyNanometre}, Hinge: h,
		Board: stock.Stock{Caliper: mm}, Covering: stock.Stock{Caliper: 3 * mm / 10}, Liner: stock.Stock{Caliper: 4 * mm / 10},
		Mitre: rule.Mitre{Distance: 5 * mm}, Closing: closing.Allowance{Ease: units.None, Adhesive: closing.AdhesiveFilm{Caliper: units.None}},
		Row: boards.Row{Main: boards.Panel1, Boards: []boards.Board{{Role: boards.Panel1, Width: 608 * mm / 10}, {Role: boards.Spine1},
			{Role: boards.Panel2, Width: 638 * mm / 10}, {Role: boards.Spine2}, {Role: boards.Panel3, Width: 31 * mm}, {Role: boards.Spine3}, {Role: boards.Panel4, Width: 35 * mm}}},
		Fittings: []folio.Fitting{{Name: "badge", Panel: boards.Spine3, Outside: true, Place: place.Place{Across: place.Middle, Along: place.Middle},
			Kind: folio.Ornament{Size: units.Size{W: 4 * mm, H: 60 * mm}, Thickness: 23 * mm / 10}}},
	}
	for _, h := range []rule.Hinge{{Rule: rule.HingeLeast, Crease: rule.CreaseRound}, {Width: 10 * mm}, h} {
		s.Row.Joints = append(s.Row.Joints, boards.Joint{Hinge: h}, boards.Joint{Hinge: h})
	}
	// Nor does it come nearer to that than the ease, from beside it either.
	for _, ease := range []units.Length{units.None, mm / 2} {
		s.Closing.Ease = ease
		p, opposite := mustBuild(t, s), 0
		panel, _ := p.Panel(boards.Panel2, false)
		for part := range p.Beside(boards.Panel2, true) {
			at := units.Point{X: part.Min.X - panel.Min.X - mm, Y: part.Min.Y - panel.Min.Y - mm}
			if headroomIs(t, s, p, boards.Panel2, at, units.Size{W: 2 * mm, H: 2 * mm}) {
				opposite++
			}
		}
		if opposite != 1 {
			t.Errorf("%d places across from the badge, with an ease of %v", opposite, ease)
		}
	}
	// What stands on either spine of a pile of four leaves the boards what it leaves: those of
	// its fold, those between them that it is high enough for, and those under and over it.
	for n, on := range []boards.Role{boards.Spine1, boards.Spine1, boards.Spine2, boards.Spine2} {
		s := folio.Spec{
			Cover: units.Size{W: 72 * mm, H: 120 * mm}, Spine: rule.Spine{Contents: 7 * mm}, Board: stock.Stock{Caliper: 2 * mm}, Covering: stock.Stock{Caliper: mm / 4}, Liner: stock.Stock{Caliper: mm / 5},
			Rulers: rule.Rulers{Main: everyNanometre}, Mitre: rule.Mitre{Distance: 4 * mm}, Closing: closing.Allowance{Ease: mm / 2, Adhesive: closing.AdhesiveFilm{Caliper: units.None}}, Hinge: h,
			Row: boards.Row{Main: boards.Panel4,
				Boards: []boards.Board{{Role: boards.Panel1, Width: 53 * mm}, {Role: boards.Spine1, Width: 14 * mm}, {Role: boards.Panel2, Width: 77 * mm}, {Role: boards.Panel3, Width: 77 * mm}, {Role: boards.Spine2, Width: 60 * mm}, {Role: boards.Panel4, Width: 83 * mm}},
				Joints: make([]boards.Joint, 5)},
			Fittings: []folio.Fitting{{Name: "badge", Panel: on, Kind: folio.Ornament{Size: units.Size{W: 3 * mm, H: 60 * mm}, Thickness: [...]units.Length{mm, 6 * mm, 3 * mm, 40 * mm}[n]}, Place: place.Place{Across: place.Right, Along: place.Middle, Offset: units.Point{X: 3 * mm}}}},
		}
		p, held := mustBuild(t, s), 0
		for role := boards.Panel1; role <= boards.Panel4; role++ {
			panel, _ := p.Panel(role, false)
			for part := range p.Beside(role, true) {
				size := units.Size{W: mm / 2, H: 2 * mm}
				at := units.Point{X: part.Min.X - panel.Min.X, Y: part.Min.Y - panel.Min.Y + mm}
				if at.X = at.X.Clamp(0, panel.Size().W-size.W); headroomIs(t, s, p, role, at, size) {
					held++
				}
			}
		}
		if held < 3 {
			t.Errorf("on the %v: only %d places were tried", on, held)
		}
	}
	if tried < proptest.Cases(240) {
		t.Errorf("%d places were tried", tried)
	}
}

// headroomIs holds the headroom at a place of a panel's inside, and reports whether the
// closing folio limits it there.
func headroomIs(t *testing.T, s folio.Spec, p *folio.Plan, role boards.Role, at units.Point, size units.Size) bool {
	t.Helper()
	panel, _ := p.Panel(role, false)
	room := p.Headroom(units.RectAt(units.Point{X: panel.Min.X + at.X, Y: panel.Min.Y + at.Y}, size), role, -1)
	with := func(thick units.Length) error {
		again := s
		again.Fittings = append(slices.Clip(s.Fittings), folio.Fitting{Name: "new", Panel: role, Kind: folio.Ornament{Size: size, Thickness: thick},
			Place: place.Place{Across: place.Left, Along: place.Head, Offset: at}})
		q, err := folio.Build(again)
		if err != nil {
			return err
		}
		if tight, ok := q.Tightest(true); !ok || !tight.Closes() || warned(q, folio.WarnEase) {
			return fmt.Errorf("%v", tight)
		}
		return nil
	}
	if room >= units.Longest-mm || refusedWith(with(units.Shortest), "", folio.Overlaps) {
		return false
	}
	if room >= units.Shortest {
		if err := with(room); err != nil {
			t.Errorf("%+v, %v of the %v: %v: %v", s.Row, at, role, room, err)
		}
	}
	if with(max(room+4, units.Shortest)) == nil {
		t.Errorf("%+v, %v of the %v: it closes over more than %v", s.Row, at, role, room)
	}
	return true
}

// What stands on a board that is folded in first turns with the one that it is folded in
// on: a badge on the outside of the third panel, near its fold, comes past a bar on the
// first beyond the edge of the second, and the other way round in a mirror.
func TestPassingWithWhatIsFoldedIn(t *testing.T) {
	h := rule.Hinge{Rule: rule.HingeLeast}
	s := folio.Spec{
		Cover: units.Size{W: 120 * mm, H: 150 * mm}, Spine: rule.Spine{Width: 40 * mm}, Rulers: rule.Rulers{Main: everyNanometre}, Hinge: h,
		Board: stock.Stock{Caliper: 2 * mm}, Liner: stock.Stock{Caliper: mm / 10}, Covering: stock.Stock{Caliper: mm / 5},
		Mitre: rule.Mitre{Distance: 5 * mm}, Closing: closing.Allowance{Ease: units.None, UnderFlap: 16 * mm},
		Row: boards.Row{
			Boards: []boards.Board{{Role: boards.Panel1}, {Role: boards.Spine1}, {Role: boards.Panel2, Width: 80 * mm}, {Role: boards.Panel3, Width: 70 * mm}},
			Joints: []boards.Joint{{Hinge: h}, {Hinge: h}, {Hinge: rule.Hinge{Rule: rule.HingeLeast, Crease: rule.CreaseTwo}}}, Main: boards.Panel1,
		},
		Fittings: []folio.Fitting{
			{Name: "bar", Panel: boards.Panel1, Kind: folio.Ornament{Size: units.Size{W: 10 * mm, H: 60 * mm}, Thickness: 20 * mm}, Place: place.Place{Across: place.Left, Along: place.Middle, Offset: units.Point{X: 24 * mm}}},
			{Name: "badge", Panel: boards.Panel3, Outside: true, Kind: folio.Ornament{Size: units.Size{W: 30 * mm, H: 60 * mm}, Thickness: 15 * mm}, Place: place.Place{Across: place.Left, Along: place.Middle}},
		},
	}
	passes := func(s folio.Spec) (got []string) {
		for w := range mustBuild(t, s).Warnings() {
			if w.Code == folio.WarnPassing {
				got = append(got, w.Text)
			}
		}
		return got
	}
	got, mirrored := passes(s), passes(inMirror(s))
	if len(got) != 1 || !strings.Contains(got[0], "badge touches bar") || !slices.Equal(got, mirrored) {
		t.Errorf("%q, in a mirror %q", got, mirrored)
	}
}

// matted is a row with pictures as large as its ornaments, and as thick or of no thickness,
// each on a mat.
func matted(s folio.Spec, thick bool) folio.Spec {
	s.Stocks = []stock.Stock{{Name: "card", Caliper: mm / 5}}
	s.Fittings = slices.Clone(s.Fittings)
	for i := range s.Fittings {
		o := s.Fittings[i].Kind.(folio.Ornament)
		m := folio.Mat{Picture: content(o.Size), Reveal: units.None}
		if thick {
			m.Picture.Thickness = o.Thickness
		}
		s.Fittings[i].Kind = m
	}
	return s
}

// A partBeside is a part of a panel beside which something stands on a spine, and the room there.
type partBeside struct {
	part units.Rect
	room units.Length
}

func besideOf(p *folio.Plan, r boards.Role, full bool) (all []partBeside) {
	for part, room := range p.Beside(r, full) {
		all = append(all, partBeside{part, room})
	}
	return all
}

// A folio that is empty is as tight as one that is filled with things of no thickness, at
// every meeting, and no tighter than a full one.
func TestEmptyIsFilledWithNothing(t *testing.T) {
	rng := rand.New(rand.NewPCG(uint64(proptest.Seed()), 49))
	meetings, more := map[closing.Meeting]int{}, 0
	for trial := range proptest.Cases(1200) {
		s, ok := crowdedRow(rng)
		if trial%2 == 0 {
			s, ok = rolledUp(rng), true
		}
		if !ok {
			continue
		}
		s.Closing.UnderFlap += 6 * mm
		p, err := folio.Build(matted(s, true))
		if err != nil {
			continue
		}
		q, err := folio.Build(matted(s, false))
		if err != nil {
			t.Fatalf("trial %d: with nothing it is refused: %v", trial, err)
		}
		for m := closing.BetweenCovers; m <= closing.BetweenOutsides; m++ {
			full, ok := p.TightestOf(m, true)
			empty, is := p.TightestOf(m, false)
			nothing, was := q.TightestOf(m, true)
			if is != was || is && (empty.Left().Length() != nothing.Left().Length() || empty.String() != nothing.String()) {
				t.Errorf("trial %d, %v: empty %v, filled with nothing %v", trial, m, empty, nothing)
			}
			if ok && is && full.Left().Length() < empty.Left().Length() {
				meetings[m]++
			}
			if ok && is && full.Left().Length() > empty.Left().Length() {
				t.Errorf("trial %d, %v: full %v, empty %v", trial, m, full, empty)
			}
		}
		for _, b := range s.Row.Boards {
			if full, empty, nothing := besideOf(p, b.Role, true), besideOf(p, b.Role, false), besideOf(q, b.Role, true); !slices.Equal(empty, nothing) {
				t.Errorf("trial %d, beside the %v: empty %v, filled with nothing %v", trial, b.Role, empty, nothing)
			} else if len(full) > len(empty) {
				more++
			}
		}
	}
	t.Log(meetings, more)
	if more < proptest.Cases(20) {
		t.Errorf("beside %d boards only more is in the way when full", more)
	}
	for m, few := range map[closing.Meeting]int{closing.BetweenCovers: 30, closing.UnderFlap: 30, closing.BesideSpine: 10} {
		if meetings[m] < proptest.Cases(few) {
			t.Errorf("%v: only %d are tighter when full", m, meetings[m])
		}
	}
}

// What stands on a spine is said to be beside a board only where it reaches over that: a
// part of it, however high the thing is and however far the board comes short of it.
func TestBesideLiesOnItsBoard(t *testing.T) {
	least := boards.Joint{Hinge: rule.Hinge{Rule: rule.HingeLeast, Crease: rule.CreaseRound}}
	var s folio.Spec
	s.Cover, s.Spine, s.Hinge = units.Size{W: 1133 * mm / 10, H: 140 * mm}, rule.Spine{Contents: 3 * mm}, rule.Hinge{Rule: rule.HingeLeast, Crease: rule.CreaseAtEdge}
	s.Board.Caliper, s.Covering.Caliper, s.Liner.Caliper = 14*mm/10, 2*mm/10, 4*mm/10
	s.Rulers, s.Mitre.Distance, s.Closing.Ease, s.Closing.Adhesive.Caliper = all(everyNanometre), 5*mm, units.None, units.None
	s.Row = boards.Row{
		Boards: []boards.Board{
			{Role: boards.Panel1, Width: 1067 * mm / 10}, {Role: boards.Spine1, Width: 185 * mm / 10}, {Role: boards.Panel2, Width: 504 * mm / 10},
			{Role: boards.Spine2}, {Role: boards.Panel3, Width: 442 * mm / 10}, {Role: boards.Panel4, Width: 416 * mm / 10},
		},
		Joints: []boards.Joint{{}, {}, least, least, least},
		Main:   boards.Panel1,
	}
	parts := 0
	for n := range 160 {
		thick, wide := units.Length(n%16)*mm+mm, units.Length(n/16)*mm+2*mm
		s.Fittings = []folio.Fitting{{Panel: boards.Spine1, Kind: folio.Ornament{Size: units.Size{W: wide, H: 56 * mm}, Thickness: thick}, Place: place.Place{Across: place.Left, Along: place.Middle, Offset: units.Point{X: 14 * mm / 10}}}}
		p, err := folio.Build(s)
		if err != nil {
			continue
		}
		for b := range p.Boards() {
			for part := range p.Beside(b.Role(), true) {
				if parts++; part.Empty() || part.Intersect(b.Rect()) != part {
					t.Errorf("%v wide, %v high: %v of the %v, which lies at %v", wide, thick, part, b.Name(), b.Rect())
				}
			}
		}
	}
	if parts == 0 {
		t.Error("nothing is beside anything")
	}
}
