package folio_test

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// turnable is a folio by chance whose lengths are even tenths, so that halves fall on
// the ruler and nothing is left over at the right or at the tail.
func turnable(r *rand.Rand) (folio.Spec, bool) {
	length := func(low, high units.Length) units.Length {
		const fifth = 200 * units.Micrometre
		return (low + units.Length(r.Int64N(int64(high-low)))) / fifth * fifth
	}
	s, ok := crowdedRow(r)
	s.Fittings, s.Rulers.Gap, s.Cover.H = nil, units.TenthMillimetres, length(140*mm, 400*mm)
	if form := boards.Form(r.IntN(int(boards.OwnRow))); r.IntN(3) > 0 {
		s.Row, s.Form = boards.Row{}, form
		s.Spine = rule.Spine{Width: length(14*mm, 40*mm)}
		if !slices.ContainsFunc(form.Row().Boards, func(b boards.Board) bool { return b.Role.Spine() }) {
			s.Spine = rule.Spine{Contents: length(2*mm, 7*mm)}
		}
		s.Hinge = [...]rule.Hinge{{}, {}, {Crease: rule.CreaseTwo}, {Width: length(7*mm, 12*mm)}}[r.IntN(4)]
		if form == boards.ForeEdgeFlap {
			s.FlapWidth = length(20*mm, 60*mm)
		}
		s, ok = asRow(s), true
	}
	for _, j := range s.Row.Joints {
		ok = ok && j.Hinge.Crease != rule.CreaseRound // whose rooms are odd
	}
	if !ok {
		return s, false
	}
	s.Lining.Rule = [...]rule.LiningRule{0, 0, rule.LiningPanels}[r.IntN(3)]
	s.Closing.Ease = [...]units.Length{units.None, mm}[r.IntN(2)]
	if r.IntN(3) == 0 {
		s.Quarter = rule.Quarter{Rule: rule.QuarterAlways, Reach: length(6*mm, 14*mm)}
		s.SpineCovering = stock.Stock{Name: "cloth", Caliper: length(mm/5, mm/2)}
	}
	if r.IntN(3) == 0 {
		s.Placing = length(0, mm)
	}
	if _, err := folio.Build(s); err != nil {
		return s, false
	}
	if r.IntN(4) == 0 {
		with := s
		with.Magnets = closing.Magnets{Diameter: 4 * mm, Thickness: mm / 2}
		if _, err := folio.Build(with); err == nil {
			s = with
		}
	}
	for i := range 1 + r.IntN(6) {
		size := units.Size{W: length(8*mm, 40*mm), H: length(20*mm, 60*mm)}
		f := folio.Fitting{
			Name: string(rune('a' + i)), Panel: s.Row.Boards[r.IntN(len(s.Row.Boards))].Role, Outside: r.IntN(4) == 0,
			Place: place.Place{
				Across: [...]place.Align{place.Middle, place.Left, place.Right}[r.IntN(3)], Along: [...]place.Align{place.Middle, place.Head, place.Tail}[r.IntN(3)],
				Offset: units.Point{X: length(0, 5*mm), Y: length(0, 20*mm)},
			},
		}
		if f.Panel.Spine() {
			size.W = length(2*mm, 9*mm)
		}
		if n := len(s.Fittings); n > 0 {
			switch before := s.Fittings[r.IntN(n)]; r.IntN(8) {
			case 0:
				f.StandsOn, f.Panel, f.Outside = before.Name, boards.MainPanel, false
			case 1:
				f.Panel, f.Outside = before.Panel, before.Outside
				f.Place.AcrossOf, f.Place.Across = before.Name, [...]place.Align{place.Before, place.After}[r.IntN(2)]
			case 2:
				f.Place.AlongOf, f.Place.Along = before.Name, [...]place.Align{place.Before, place.After, place.Head, place.Tail}[r.IntN(4)]
			}
		}
		picture := pocket.Content{Name: "print", Size: size, Thickness: length(mm/5, mm)}
		switch r.IntN(4) {
		case 0:
			f.Kind = folio.Mat{Picture: picture, Reveal: length(mm, 4*mm)}
		case 1:
			f.Kind = folio.Frame{Picture: picture, Mouth: score.Edge(r.IntN(4)), Rail: length(7*mm, 9*mm), Ease: length(mm, 3*mm)}
		default:
			f.Kind = folio.Ornament{Size: size, Thickness: length(mm/5, 5*mm)}
		}
		with := s
		with.Fittings = append(slices.Clip(s.Fittings), f)
		_, err := folio.Build(with)
		if bad, _ := err.(*check.Error); bad == nil || closesNot(bad) && r.IntN(2) == 0 {
			s = with
		}
	}
	return s, true
}

// halfRound is a folio as it lies when the table is turned half round: what was at the
// left is at the right, and what was at the head is at the tail.
func halfRound(s folio.Spec) folio.Spec {
	s = inMirror(s) // left and right
	other := [...]place.Align{place.Middle: place.Middle, place.Head: place.Tail, place.Tail: place.Head, place.Before: place.After, place.After: place.Before, place.Left: place.Right, place.Right: place.Left}
	for i := range s.Fittings {
		f := &s.Fittings[i]
		if p := &f.Place; p.Along == place.Middle {
			p.Offset.Y *= -1
		} else {
			p.Along = other[p.Along]
		}
		if f.Place.Across == place.Before || f.Place.Across == place.After {
			f.Place.Across = other[f.Place.Across]
		}
		if frame, ok := f.Kind.(folio.Frame); ok {
			frame.Mouth = opposite(frame.Mouth)
			f.Kind = frame
		}
	}
	return s
}

func opposite(e score.Edge) score.Edge {
	return [...]score.Edge{score.Head: score.Tail, score.Tail: score.Head, score.Left: score.Right, score.Right: score.Left}[e]
}

// A lookedAt tells what a plan says of what lies where, as one sees it who has not
// walked round the table.
type lookedAt struct {
	all    []string
	turned bool
	row    units.Size
}

func (l *lookedAt) say(format string, args ...any) {
	l.all = append(l.all, fmt.Sprintf(format, args...))
}

// in returns a rectangle of something of a size, turned with it.
func (l *lookedAt) in(r units.Rect, of units.Size) units.Rect {
	if !l.turned {
		return r
	}
	return units.Rect{Min: units.Point{X: of.W - r.Max.X, Y: of.H - r.Max.Y}, Max: units.Point{X: of.W - r.Min.X, Y: of.H - r.Min.Y}}
}

// at returns a rectangle on the row.
func (l *lookedAt) at(r units.Rect) units.Rect { return l.in(r, l.row) }

func (l *lookedAt) edge(e score.Edge) score.Edge {
	if l.turned {
		return opposite(e)
	}
	return e
}

// outline returns the corners of a polygon on the row, whichever comes first.
func (l *lookedAt) outline(p units.Polygon) []units.Point {
	var all []units.Point
	for _, c := range p.Corners() {
		all = append(all, l.at(units.Rect{Min: c, Max: c}).Min)
	}
	slices.SortFunc(all, func(a, b units.Point) int {
		if a.X != b.X {
			return int(a.X - b.X)
		}
		return int(a.Y - b.Y)
	})
	return all
}

func (l *lookedAt) plan(p *folio.Plan) {
	for b := range p.Boards() {
		l.row = l.row.Max(units.Size{W: b.Rect().Max.X, H: b.Rect().Max.Y})
	}
	for b := range p.Boards() {
		l.say("%v: %v", b.Role(), l.at(b.Rect()))
		l.board(p, b)
	}
	for g := range p.Gaps() {
		l.say("gap: %v, %v, %v", l.at(g.Rect()), g.Least(), g.Angle())
	}
	pieces := slices.Collect(p.Pieces())
	for x := range p.Placed() {
		i, _ := x.Piece()
		l.say("%v: %v, %v, outside %v", pieces[i].Role(), l.at(x.Rect()), l.outline(x.Outline()), x.Outside())
	}
	for x := range p.TurnIns() {
		l.say("turned in at the %v: %v, %v", l.edge(x.Edge()), x.Depth(), l.outline(x.Outline()))
	}
	w := p.Wrap()
	margins := []units.Length{w.Across().Near().Length(), w.Across().Far().Length(), w.Along().Near().Length(), w.Along().Far().Length()}
	corners := w.Corners()
	if l.turned {
		margins[0], margins[1], margins[2], margins[3] = margins[1], margins[0], margins[3], margins[2]
		corners[0], corners[1], corners[2], corners[3] = corners[2], corners[3], corners[0], corners[1]
	}
	l.say("wrap %v, margins %v", w.Size(), margins)
	for i, c := range corners {
		l.say("corner %d: %v, %v", i, c.Leg().Length(), c.Overlap())
	}
	for _, full := range []bool{false, true} {
		for m := closing.BetweenCovers; m <= closing.AtForeEdge; m++ {
			if t, ok := p.TightestOf(m, full); ok {
				l.say("%v: %v in %v, %v would do", m, t.Stack().Length(), t.Room().Length(), t.WouldDo().Length())
			}
		}
		if o, ok := p.Overall(full); ok {
			l.say("overall %v x %v x %v", o.Width().Length(), o.Height().Length(), o.Thickness().Length())
		}
		for h := range p.Heights(full) {
			l.say("%v stands up: %v, %v, outside %v", h.Panel(), l.at(h.Rect()), h.Height(), h.Outside())
		}
	}
	for f := range p.Fittings() {
		l.fitting(p, f)
	}
	if f, ok := p.Magnets(); ok {
		for m := range f.Places() {
			at := units.Rect{Min: m.Middle(), Max: m.Middle()}
			l.say("magnet on the %v: %v, outside %v", m.Panel(), l.at(at).Min, m.Outside())
		}
	}
	for c := range p.Changes() {
		if from, to := c.From().Size(), c.To().Size(); from != to { // else it only lies further from the left end
			l.say("%v: from %v to %v", c.What(), from, to)
		}
	}
	for w := range p.Warnings() {
		l.say("warned of %v: %v, %v", w.Code, w.Got, w.Want)
	}
}

func (l *lookedAt) board(p *folio.Plan, b folio.Board) {
	role := b.Role()
	for _, outside := range []bool{false, true} {
		if area, ok := p.Panel(role, outside); !ok || !area.Empty() {
			l.say("panel: %v, %v", l.at(area), ok)
		}
	}
	l.say("largest picture: %v", p.LargestPicture(role, 2*mm, mm))
	for _, full := range []bool{false, true} {
		for part, room := range p.Beside(role, full) {
			l.say("beside the %v: %v, %v", role, l.at(part), room)
		}
		for o := range p.Overheads(role, full) {
			l.say("over the %v: %v, %v", role, l.at(o.Part()), o.Room())
			for h := range o.Heights() {
				l.say("there: %v, %v", l.at(h.Rect()), h.Height())
			}
		}
	}
	for o := range p.Boards() {
		if r, ok := p.Facing(l.at(units.RectAt(l.at(b.Rect()).Min, units.Size{W: 20 * mm, H: 30 * mm})), role, o.Role()); ok {
			l.say("%v on the %v: %v", role, o.Role(), l.at(r))
		}
	}
}

func (l *lookedAt) fitting(p *folio.Plan, f folio.Fitted) {
	l.say("%s on the %v: %v, outside %v, %v and %v high", f.Name(), f.Panel(), l.at(f.Rect()), f.Outside(), f.Height(false), f.Height(true))
	l.say("headroom: %v", p.Headroom(f.Rect(), f.Panel(), f.Index()))
	for x := range f.Layers() {
		l.say("layer: %v, %v, %v, %v", x.Name(), l.at(x.Rect()), x.Height(false), x.Height(true))
	}
	for x := range f.Surfaces() {
		l.say("surface: %v, %v, %v", x.Name(), l.at(x.Rect()), x.Height())
	}
	for _, x := range f.Spots() {
		mouth, ok := x.Mouth()
		if !ok {
			mouth = l.edge(score.Head) // of no meaning
		}
		l.say("place: %v, %v, %v, %v, %v, %v, %v", l.at(x.Rect()), l.at(x.Lies()), l.at(x.WayIn()), x.Clear(), x.Least(), ok, l.edge(mouth))
	}
	for x := range p.Pieces() {
		if i, ok := x.Fitting(); ok && i == f.Index() {
			l.say("%s: %v, %d", x.Name(), x.Size(), x.Quantity())
			for o := range x.Openings() {
				l.say("opening: %v", l.in(o, x.Size()))
			}
		}
	}
}

// seenFrom tells of a folio and of what it is refitted to, or what is wrong with it.
func seenFrom(s folio.Spec, turned bool) []string {
	l := lookedAt{turned: turned}
	p, err := folio.Build(s)
	var bad *check.Error
	if errors.As(err, &bad) {
		for v := range bad.All() {
			l.say("refused: %v by %v, %v %v", v.Code, v.By, v.Bound, v.Limit)
		}
		slices.Sort(l.all)
		return l.all
	}
	l.plan(p)
	// Measured board by board, with more at the one end than at the other.
	_, h := p.AsMade()
	m := refit.Measured{Height: h.Length()}
	covering := p.Spec().Covering.Caliper
	for b := range p.Boards() {
		m.Panels = append(m.Panels, b.Size().W)
	}
	first, last := 0, len(m.Panels)-1
	if turned {
		first, last = last, first
	}
	m.Panels[first] += covering
	m.Panels[last] += covering / 2
	for _, panel := range m.Panels {
		m.Width += panel
	}
	for g := range p.Gaps() {
		m.Width += g.Width() + mm/5
	}
	q, err := p.Refit(m)
	if l.say("refitted: %v", err != nil); err == nil {
		l.plan(q)
	}
	slices.Sort(l.all)
	return l.all
}

// A folio that is turned half round on the table is the same folio: whatever lies
// somewhere lies there still, fits, meets what it met and measures what it measured, as
// planned and as it came out.
func TestTurnedHalfRound(t *testing.T) {
	r := rand.New(rand.NewPCG(uint64(proptest.Seed()), 9))
	built, other := 0, 0
	for i := range proptest.Cases(1000) {
		s, ok := turnable(r)
		if !ok {
			continue
		}
		round := halfRound(s)
		if _, was := facts(s); was == "" && s.Row.Main == boards.MainPanel {
			continue
		} else if _, piled := facts(round); piled != was { // of two boards as near the left one turns first
			other++
			continue
		}
		want, got := seenFrom(s, false), seenFrom(round, true)
		built++
		if d := cmp.Diff(want, got); d != "" {
			t.Errorf("folio %d: %+v\n%s", i, s, d)
			if built > 3 {
				break
			}
		}
	}
	if built < proptest.Cases(300) {
		t.Errorf("%d built, %d in another order", built, other)
	}
}

// A mitre of a side paper stays on its half of it, at whichever end of the row the narrow
// board is: one of the two is refused as long as the other is.
func TestMitresAtBothEnds(t *testing.T) {
	met := map[bool]int{}
	for wide := 20 * mm; wide < 60*mm; wide += mm {
		s := plainCase()
		s.Row = boards.Row{
			Boards: []boards.Board{{Role: boards.LeftCover, Width: wide}, {Role: boards.Spine1, Width: 21 * mm}, {Role: boards.RightCover, Width: 100 * mm}},
			Joints: make([]boards.Joint, 2),
		}
		s.Spine, s.Quarter = rule.Spine{Contents: 3 * mm}, rule.Quarter{Rule: rule.QuarterAlways, Reach: 6 * mm}
		round := halfRound(s)
		met[builds(s) == nil]++
		if d := cmp.Diff(seenFrom(s, false), seenFrom(round, true)); d != "" {
			t.Errorf("a board of %v at the left, or at the right: %s", wide, d)
		}
	}
	if met[true] == 0 || met[false] == 0 {
		t.Errorf("of all widths %d are taken, %d refused", met[true], met[false])
	}
}

// Rolled up, a row ends inside: of three boards the third is folded in on the second, and
// both on the first. Magnets in boards at the ends would hold nothing shut, and are refused.
func TestMagnetsOfARowThatEndsInside(t *testing.T) {
	s := plainCase()
	s.Spine, s.Magnets = rule.Spine{Contents: 3 * mm}, closing.Magnets{Diameter: 5 * mm, Thickness: mm}
	s.Hinge = rule.Hinge{Rule: rule.HingeLeast}
	s.Row = boards.Row{
		Boards: []boards.Board{{Role: boards.Panel1, Width: 80 * mm}, {Role: boards.Panel2, Width: 70 * mm}, {Role: boards.Panel3, Width: 40 * mm}},
		Joints: make([]boards.Joint, 2), Main: boards.Panel1,
	}
	if v, ok := refusal(s, "magnets", folio.OffPanel); !ok {
		t.Errorf("magnets that hold nothing: %v", v)
	}
	if s.Magnets = (closing.Magnets{}); builds(s) != nil {
		t.Errorf("the row without magnets: %v", builds(s))
	}
}

// The contents that a spine is made for include their ease; what stands on the covers and
// is nearly as thick does not, and is warned of: by hand, 2.6 mm with a film of 0.2 leave
// 0.2 of the 3 mm, and 1 is asked for.
func TestEaseBesideContents(t *testing.T) {
	s := plainCase()
	s.Rulers.Board, s.Spine, s.Closing = everyNanometre, rule.Spine{Contents: 3 * mm}, closing.Allowance{Ease: mm, Adhesive: closing.AdhesiveFilm{Caliper: mm / 5}}
	s.Hinge = rule.Hinge{}
	for thick, want := range map[units.Length]bool{2600 * units.Micrometre: true, 1800*units.Micrometre + nm: true, 1800 * units.Micrometre: false} {
		s.Fittings = []folio.Fitting{{Name: "badge", Panel: boards.RightCover, Kind: folio.Ornament{Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: thick}}}
		p := mustBuild(t, s)
		if got := warnedOf(p, folio.WarnEase, "spine"); got != want {
			t.Errorf("%v in 3 mm is warned of: %v", thick, got)
		}
	}
}
