package folio_test

import (
	"fmt"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// What stands on the back of a left flap's spine lies inside the right flap's fold.
// Creased at the spine boards' edges, that fold comes one gap past the right cover,
// with spine board and liner inside it, and the left flap's one gap past the left
// cover, which is as wide, with the covering outside it. What is left goes to what
// stands there, and no more.
func TestBackOfAFlapsSpine(t *testing.T) {
	spec := func(thick units.Length) folio.Spec {
		return folio.Spec{
			Form: boards.TwoFlaps, Cover: units.Size{W: 120 * mm, H: 170 * mm}, Spine: rule.Spine{Width: 20 * mm},
			Board: stock.Stock{Caliper: 2 * mm}, Covering: stock.Stock{Caliper: mm / 2}, Liner: stock.Stock{Caliper: mm / 4},
			Rulers: rule.Rulers{Main: nanometres()}, Mitre: rule.Mitre{Distance: 4 * mm}, Hinge: rule.Hinge{Rule: rule.HingeLeast},
			Closing: closing.Allowance{Ease: units.None, Adhesive: closing.AdhesiveFilm{Caliper: units.None}},
			Fittings: []folio.Fitting{{Name: "badge", Panel: boards.Spine1, Outside: true,
				Kind: folio.Ornament{Size: units.Size{W: 4 * mm, H: 30 * mm}, Thickness: thick}, Place: place.Place{Across: place.Middle}}},
		}
	}
	p, err := folio.Build(spec(mm / 100))
	if err != nil {
		t.Fatal(err)
	}
	var left, right units.Length
	for g := range p.Gaps() {
		switch a, b := g.Between(); {
		case a == boards.Spine1 && b == boards.LeftCover:
			left = g.Width()
		case a == boards.RightCover && b == boards.Spine3:
			right = g.Width()
		}
	}
	room := right - left - (2*mm + mm/4) - mm/2
	if room <= 0 {
		t.Fatalf("gaps of %v and %v leave no room", left, right)
	}
	if p, err = folio.Build(spec(room)); err != nil {
		t.Fatalf("%v thick: %v", room, err)
	}
	if at, ok := p.Tightest(true); !ok || at.Left().Length() != 0 {
		t.Errorf("%v thick leaves %v", room, at)
	}
	_, err = folio.Build(spec(room + mm/10))
	if v := only(err); v.Code != folio.NotClosing || v.Path != "fittings" || !strings.Contains(v.Want, "lower by 0.1 mm than badge") || v.Bound != check.NoBound || v.Limit != 0 || v.By != 0 {
		t.Errorf("%v thick: %v", room+mm/10, err)
	}
}

// A bar on the back of a spine, with a plate on its one end, lies against the spine of the flap
// that is folded over it, where a badge stands across from the other end: the bar and the plate
// have the room, and the bar with the badge. With more than 16 things on the spine (manyOnSpine)
// the plate counts as lying all over the bar, so that no less is asked for.
func TestStacksAcross(t *testing.T) {
	const bar, plate, badge = 5 * mm, 3 * mm, 4 * mm
	for tags := 13; tags <= 15; tags++ {
		s := folio.Spec{
			Form: boards.TwoFlaps, Cover: units.Size{W: 120 * mm, H: 170 * mm}, Spine: rule.Spine{Width: 20 * mm},
			Board: stock.Stock{Caliper: 2 * mm}, Covering: stock.Stock{Caliper: mm / 2}, Liner: stock.Stock{Caliper: mm / 4},
			Rulers: rule.Rulers{Main: nanometres()}, Mitre: rule.Mitre{Distance: 4 * mm}, Clearance: mm / 100,
			Closing: closing.Allowance{Ease: units.None, UnderFlap: 12 * mm, Adhesive: closing.AdhesiveFilm{Caliper: units.None}},
		}
		s.Row, s.Form = s.Form.Row(), boards.SpineBoard
		for i := range s.Row.Joints {
			s.Row.Joints[i].Hinge = rule.Hinge{Rule: rule.HingeLeast}
			if i >= 4 {
				s.Row.Joints[i].Hinge = rule.Hinge{Width: 25 * mm}
			}
		}
		put := func(name, on string, role boards.Role, wide, high, thick, x, y units.Length) {
			s.Fittings = append(s.Fittings, folio.Fitting{Name: name, Panel: role, StandsOn: on, Outside: role == boards.Spine1,
				Kind:  folio.Ornament{Size: units.Size{W: wide, H: high}, Thickness: thick},
				Place: place.Place{Across: place.Middle, Along: place.Head, Offset: units.Point{X: x, Y: y}}})
		}
		put("bar", "", boards.Spine1, 9*mm, 100*mm, bar, 0, 30*mm)
		put("plate", "bar", boards.MainPanel, 9*mm, 20*mm, plate, 0, 80*mm)
		put("badge", "", boards.Spine3, 9*mm, 20*mm, badge, 0, 40*mm)
		put("second badge", "", boards.Spine3, 9*mm, 16*mm, badge, 0, 62*mm)
		for i := range units.Length(tags) {
			put(fmt.Sprint("tag ", int(i)), "", boards.Spine1, mm, mm, mm/10, 0, i*2*mm)
		}
		p := mustBuild(t, s)
		var left, right units.Length
		for g := range p.Gaps() {
			switch a, b := g.Between(); {
			case a == boards.Spine1 && b == boards.LeftCover:
				left = g.Width()
			case a == boards.RightCover && b == boards.Spine3:
				right = g.Width()
			}
		}
		want := right - left - (2*mm + mm/4) - mm/2 - bar - badge
		if tags+2 > 16 {
			want -= plate
		}
		if tight, ok := p.TightestOf(closing.BesideSpine, true); !ok || tight.Left().Length() != want {
			t.Errorf("%d things: %v, want %v left", tags+2, tight, want)
		} else if to := termOf(tight.Room()); to != "from there to the badge" { // of two that are as near, the first
			t.Errorf("%d things: %v", tags+2, tight.Room())
		}
	}
}

// termOf returns what the one term of a working is called.
func termOf(w units.Working) (label string) {
	for term := range w.Terms() {
		label += term.Label
	}
	return label
}

// What stands on a spine board as high as the panels are wide comes to lie against the
// edge of a third panel, folded in beyond the first one and higher: creased at the spine boards'
// edges, that lies a gap, the second panel and another gap from the back of the spine, less
// the third gap, the third panel and the covering at its edge, and board and liner of the
// spine lie between. So much goes there, and no more; with an ease, so much less.
func TestAcrossFromASpine(t *testing.T) {
	spec := func(thick, ease units.Length) folio.Spec {
		j := boards.Joint{Hinge: rule.Hinge{Rule: rule.HingeLeast}}
		return folio.Spec{
			Cover: units.Size{W: 58 * mm, H: 140 * mm}, Spine: rule.Spine{Contents: 3 * mm}, Board: stock.Stock{Caliper: 2 * mm}, Covering: stock.Stock{Caliper: mm / 2}, Liner: stock.Stock{Caliper: mm / 4},
			Rulers: rule.Rulers{Main: nanometres()}, Mitre: rule.Mitre{Distance: 4 * mm}, Closing: closing.Allowance{Ease: ease, Adhesive: closing.AdhesiveFilm{Caliper: units.None}},
			Row: boards.Row{
				Boards: []boards.Board{{Role: boards.Panel1}, {Role: boards.Spine1, Width: 18 * mm}, {Role: boards.Panel2, Width: 107 * mm}, {Role: boards.Spine2}, {Role: boards.Panel3, Width: 47 * mm}},
				Joints: []boards.Joint{j, j, j, j}, Main: boards.Panel1,
			},
			Fittings: []folio.Fitting{{Name: "badge", Panel: boards.Spine1,
				Kind: folio.Ornament{Size: units.Size{W: 4 * mm, H: 30 * mm}, Thickness: thick}, Place: place.Place{Across: place.Middle}}},
		}
	}
	p := mustBuild(t, spec(mm/100, units.None))
	var gaps []units.Length
	for g := range p.Gaps() {
		gaps = append(gaps, g.Width())
	}
	room := gaps[1] + 107*mm + gaps[2] - gaps[3] - 47*mm - mm/2 - 2*mm - mm/4
	for _, ease := range []units.Length{units.None, mm} {
		if tight, ok := mustBuild(t, spec(room-mm, ease)).TightestOf(closing.BesideSpine, true); !ok || !tight.Eased() || tight.Left().Length() != mm {
			t.Errorf("1 mm less, ease %v: %v", ease, tight)
		}
		p := mustBuild(t, spec(room, ease))
		if tight, ok := p.Tightest(true); !ok || tight.Left().Length() != 0 || tight.Room().Length() != room || tight.Room().Label() != "room across from the first spine" {
			t.Errorf("%v thick, ease %v: %v", room, ease, tight)
		}
		tight, _ := p.Tightest(true)
		for th := range tight.Things() {
			if at, ok := th.Fitting(); ok != (th.Name() == "badge") || ok && (at != 0 || th.Height() != room) {
				t.Errorf("%v is fitting %d, %v", th, at, ok)
			}
		}
		if warned(p, folio.WarnEase) != (ease == mm) {
			t.Errorf("%v thick, ease %v: warned %v", room, ease, warned(p, folio.WarnEase))
		}
		v := only(builds(spec(room+mm/10, ease)))
		if v.Code != folio.NotClosing || v.Path != "fittings" || !strings.Contains(v.Want, "lower by 0.1 mm than badge") || v.Bound != check.NoBound || v.Limit != 0 || v.By != 0 {
			t.Errorf("%v thick: %v", room+mm/10, v)
		}
	}
	// Where the badge ends so near to that edge that the ease reaches over it, nothing may be
	// laid there: unless the badge lies lower than the face on which it would be.
	below, beside := 0, 0
	atEdge := func(thick, wide units.Length, at place.Place) units.Length {
		s := spec(thick, 5*mm/2)
		s.Lining.Inset, s.Row.Boards[3].Width = mm/2, 9*mm
		s.Fittings[0].Kind = folio.Ornament{Size: units.Size{W: wide, H: 30 * mm}, Thickness: thick}
		s.Fittings[0].Place = at
		p := mustBuild(t, s)
		for b := range p.Boards() {
			if third := b.Rect(); b.Role() == boards.Panel3 {
				return p.Headroom(units.Rect{Min: units.Point{X: third.Max.X - 3*mm/2, Y: third.Max.Y/2 - mm}, Max: units.Point{X: third.Max.X - mm, Y: third.Max.Y/2 + mm}}, boards.Panel3, -1)
			}
		}
		return 0
	}
	for wide := 2 * mm; wide <= 12*mm; wide += mm {
		free := (18*mm + wide).Half(units.Up) <= 18*mm-9*mm+2*mm+mm/4
		if got := atEdge(room-mm/2, wide, place.Place{Across: place.Middle}); (got > 0) != free {
			t.Errorf("beside a badge %v wide: %v may be laid at the edge", wide, got)
		}
		if free {
			below++
		} else {
			beside++
		}
	}
	// So much lower, it may reach under the third panel, from 4 to 8 mm up where that begins at 8.5.
	if got := atEdge(room+5*mm, 4*mm, place.Place{Across: place.Left, Offset: units.Point{X: 4 * mm}}); got <= 0 {
		t.Error("over a badge nothing may be laid at the edge")
	}
	if below == 0 || beside == 0 {
		t.Errorf("%d below, %d beside", below, beside)
	}
}

// What stands on a spine board and reaches in under the third panel, 8.5 mm up, may touch that,
// but not be a nanometre higher. From a plate of 2 mm under that panel it keeps the ease in
// whichever direction it is further from it: beside it, or before it where it ends first.
func TestUnderAPlateAcross(t *testing.T) {
	j := boards.Joint{Hinge: rule.Hinge{Rule: rule.HingeLeast}}
	s := folio.Spec{
		Cover: units.Size{W: 58 * mm, H: 140 * mm}, Spine: rule.Spine{Contents: 3 * mm}, Board: stock.Stock{Caliper: 2 * mm}, Covering: stock.Stock{Caliper: mm / 2}, Liner: stock.Stock{Caliper: mm / 4},
		Rulers: rule.Rulers{Main: everyNanometre}, Mitre: rule.Mitre{Distance: 4 * mm}, Clearance: mm / 10, Lining: rule.Lining{Inset: mm}, Closing: closing.Allowance{Ease: mm, Adhesive: closing.AdhesiveFilm{Caliper: units.None}},
		Row: boards.Row{
			Boards: []boards.Board{{Role: boards.Panel1}, {Role: boards.Spine1, Width: 18 * mm}, {Role: boards.Panel2, Width: 107 * mm}, {Role: boards.Spine2, Width: 9 * mm}, {Role: boards.Panel3, Width: 47 * mm}},
			Joints: []boards.Joint{j, j, j, j}, Main: boards.Panel1,
		},
	}
	var gaps []units.Length
	for g := range mustBuild(t, s).Gaps() {
		gaps = append(gaps, g.Width())
	}
	edge := gaps[1] + 107*mm + gaps[2] - gaps[3] - 47*mm - mm/2 - 2*mm - mm/4 // of the third panel, from the liner of the spine
	const up = 85 * mm / 10
	with := func(from, to, thick, plate units.Length) folio.Spec {
		s := s
		s.Fittings = []folio.Fitting{{Name: "badge", Panel: boards.Spine1, Kind: folio.Ornament{Size: units.Size{W: to - from, H: 30 * mm}, Thickness: thick},
			Place: place.Place{Across: place.Left, Offset: units.Point{X: from - s.Lining.Inset - s.Clearance}}}}
		if plate > 0 {
			s.Fittings = append(s.Fittings, folio.Fitting{Name: "plate", Panel: boards.Panel3, Outside: true, Kind: folio.Ornament{Size: units.Size{W: 4 * mm, H: 20 * mm}, Thickness: plate},
				Place: place.Place{Across: place.Right, Offset: units.Point{X: mm}}})
		}
		return s
	}
	for higher, fits := range map[units.Length]bool{-mm: true, -nm: true, 0: true, nm: false, mm: false} {
		for _, s := range []folio.Spec{with(4*mm, up+higher, edge+5*mm, 0), inMirror(with(4*mm, up+higher, edge+5*mm, 0))} {
			if err := builds(s); (err == nil) != fits || err != nil && only(err).Code != folio.NotClosing {
				t.Errorf("%v higher than the third panel: %v", higher, err)
			}
		}
	}
	// Above that it reaches 4.5 mm over the board, past the covering at its edge, and as far again as the ease.
	for n, s := range []folio.Spec{with(12*mm, 14*mm, edge+5*mm, 0), inMirror(with(12*mm, 14*mm, edge+5*mm, 0))} {
		p := mustBuild(t, s)
		var role boards.Role
		for b := range p.Boards() {
			if b.Size().W == 47*mm {
				role = b.Role()
			}
		}
		third, _ := p.Board(role)
		want := third.Rect()
		if want.Min.X = want.Max.X - 45*mm/10 - mm; n == 1 {
			want.Min.X, want.Max.X = third.Rect().Min.X, third.Rect().Min.X+45*mm/10+mm
		}
		parts := 0
		for part := range p.Beside(role, true) {
			if parts++; part.Min.X != want.Min.X || part.Max.X != want.Max.X {
				t.Errorf("mirrored %d: it reaches over %v, want %v", n, part, want)
			}
		}
		if parts != 1 {
			t.Errorf("mirrored %d: %d parts", n, parts)
		}
	}
	plate := edge + mm/2 + mm + s.Clearance // where it begins
	for _, c := range []struct{ apart, thick, left units.Length }{
		{mm, edge + 5*mm, mm}, // as far as the ease: no more is asked
		{mm - nm, edge + 5*mm, mm - nm}, {mm / 2, edge + 5*mm, mm / 2}, {nm, edge + 5*mm, nm}, {0, edge + 5*mm, 0}, {-nm, edge + 5*mm, plate - edge - 5*mm},
		{mm / 2, plate - mm/4, mm / 2}, {mm / 2, plate - 3*mm/4, 3 * mm / 4}, {-nm, plate - 3*mm/4, 3 * mm / 4}, {mm / 2, plate - mm, mm}, {-mm / 2, plate, 0},
	} {
		for n, s := range []folio.Spec{with(4*mm, up-2*mm-c.apart, c.thick, 2*mm), inMirror(with(4*mm, up-2*mm-c.apart, c.thick, 2*mm))} {
			p, err := folio.Build(s)
			if c.left < 0 {
				if v := only(err); v.Code != folio.NotClosing || v.Path != "fittings" {
					t.Errorf("%v under the plate, %v thick, mirrored %d: %v", c.apart, c.thick, n, err)
				}
				continue
			}
			if err != nil {
				t.Errorf("%v under the plate, %v thick, mirrored %d: %v", c.apart, c.thick, n, err)
				continue
			}
			if tight, ok := p.TightestOf(closing.BesideSpine, true); !ok || c.left < mm && tight.Left().Length() != c.left || tight.Left().Length() < min(c.left, mm) || tight.Eased() != (c.left >= mm) || warned(p, folio.WarnEase) != (c.left < mm) {
				t.Errorf("%v under the plate, %v thick, mirrored %d: %v, want %v left", c.apart, c.thick, n, tight, c.left)
			}
		}
	}
}

// Under the second panel of that row a third one is joined without a board between, and leaves the
// joint to be seen from the spine: from its liner with the turn-in there, which lie on it as far
// as the gap lets it, the width of the second panel and the gap at the spine, less board and liner
// of that. At the head its own turn-in takes from that, and what stands on it has the rest.
func TestAcrossFromASoftJoint(t *testing.T) {
	spec := func(thick units.Length) folio.Spec {
		j := boards.Joint{Hinge: rule.Hinge{Rule: rule.HingeLeast}}
		return folio.Spec{
			Cover: units.Size{W: 58 * mm, H: 140 * mm}, Spine: rule.Spine{Contents: 3 * mm}, Board: stock.Stock{Caliper: 2 * mm}, Covering: stock.Stock{Caliper: mm / 2}, Liner: stock.Stock{Caliper: mm / 4},
			Rulers: rule.Rulers{Main: nanometres()}, Mitre: rule.Mitre{Distance: 4 * mm}, Closing: closing.Allowance{Ease: units.None, Adhesive: closing.AdhesiveFilm{Caliper: units.None}},
			Row: boards.Row{
				Boards: []boards.Board{{Role: boards.Panel1}, {Role: boards.Spine1, Width: 30 * mm}, {Role: boards.Panel2, Width: 107 * mm}, {Role: boards.Panel3, Width: 30 * mm}},
				Joints: []boards.Joint{j, j, {Hinge: rule.Hinge{Width: 20 * mm}}}, Main: boards.Panel1,
			},
			Fittings: []folio.Fitting{{Name: "badge", Panel: boards.Spine1, Kind: folio.Ornament{Size: units.Size{W: 2 * mm, H: 8 * mm}, Thickness: thick},
				Place: place.Place{Across: place.Right, Along: place.Head, Offset: units.Point{X: 6 * mm}}}},
		}
	}
	var gaps []units.Length
	for g := range mustBuild(t, spec(mm)).Gaps() {
		gaps = append(gaps, g.Width())
	}
	room := gaps[1] + 107*mm - (mm/4 + mm/2) - (2*mm + mm/4)
	if p, err := folio.Build(spec(room - mm/2)); err != nil {
		t.Error(err)
	} else if tight, ok := p.Tightest(true); !ok || tight.Left().Length() != 0 || tight.Room().Length() != room {
		t.Errorf("%v", tight)
	}
	if v := only(builds(spec(room - mm/2 + 1))); !strings.Contains(v.Want, "lower by 0.000001 mm than badge") {
		t.Errorf("a nanometre more: %v", v)
	}
}

// What stands on a spine board and reaches as far as the fold of boards that lie inside must pass
// it. These hang at the third panel, so that a wider spine board makes room between them and the
// fourth one: all that it is wider for what is laid from the fourth, a half for what stands in the
// middle, by its ruler, and none for what is laid from the third. Where it is told how wide a one
// would do, that does, and a narrower one does not.
func TestPastAFoldWithin(t *testing.T) {
	least := boards.Joint{Hinge: rule.Hinge{Rule: rule.HingeLeast}}
	for n := range 48 {
		lined := n >= 24 // up with another one along
		inner, across, main, mirrored := units.Length(n%2)*20*mm, [...]place.Align{place.Left, place.Right, place.Middle}[n/2%3], [...]boards.Role{boards.Panel3, boards.Panel4}[n/6%2], n/12%2 == 1
		if lined && across != place.Middle {
			continue
		}
		spec := func(spine units.Length) folio.Spec {
			s := folio.Spec{
				Cover: units.Size{W: 72 * mm, H: 120 * mm}, Spine: rule.Spine{Contents: 7 * mm}, Board: stock.Stock{Caliper: 2 * mm}, Covering: stock.Stock{Caliper: mm / 4}, Liner: stock.Stock{Caliper: mm / 5},
				Rulers: rule.Rulers{Main: units.TenthMillimetres}, Mitre: rule.Mitre{Distance: 4 * mm}, Closing: closing.Allowance{Ease: units.None, Adhesive: closing.AdhesiveFilm{Caliper: units.None}},
				Row: boards.Row{Main: main,
					Boards: []boards.Board{{Role: boards.Panel1, Width: 53 * mm}, {Role: boards.Spine1, Width: inner}, {Role: boards.Panel2, Width: 77 * mm}, {Role: boards.Panel3, Width: 77 * mm},
						{Role: boards.Spine2, Width: spine}, {Role: boards.Panel4, Width: 83 * mm}},
					Joints: []boards.Joint{least, least, least, least, least}},
				Fittings: []folio.Fitting{{Name: "badge", Panel: boards.Spine2, Kind: folio.Ornament{Size: units.Size{W: 9 * mm, H: 60 * mm}, Thickness: 12 * mm}, Place: place.Place{Across: across, Along: place.Middle}}},
			}
			if across == place.Right {
				s.Rulers.Board = everyNanometre
			}
			if lined {
				s.Rulers.Main = nanometres()
				badge := s.Fittings[0]
				badge.Place.Along, badge.Place.AlongOf = place.After, "dot"
				s.Fittings = []folio.Fitting{{Name: "dot", Panel: boards.Spine2, Kind: folio.Ornament{Size: units.Size{W: mm, H: mm}, Thickness: mm / 100}, Place: place.Place{Along: place.Head, Offset: units.Point{Y: 20 * mm}}}, badge}
			}
			if mirrored {
				s = inMirror(s)
			}
			return s
		}
		narrow := 26 * mm
		v := only(builds(spec(narrow)))
		would := asks(t, v.Want)
		if across == place.Left {
			if wide := only(builds(spec(narrow + 60*mm))); v.Want != "something lower or narrower on the second spine, or nearer to its middle" || v.Got != wide.Got {
				t.Errorf("%d: %v, with a wider spine %v", n, v, wide)
			}
			continue
		}
		if !strings.HasPrefix(v.Want, "something lower or narrower on the second spine, or a second spine of at least ") || len(would) != 1 {
			t.Errorf("%d: %v", n, v)
			continue
		}
		less := nm
		switch {
		case lined && mirrored:
			less = 2 * nm // an odd one is at the right, where it is tight
		case lined:
		case across == place.Middle:
			less = 3 * mm / 10 // one before that may do as it happens to fall on the ruler
		}
		for _, wide := range [...]units.Length{would[0], would[0] + mm/10, would[0] + mm} {
			if err := builds(spec(wide)); err != nil {
				t.Errorf("%d: of %v, %v: %v", n, would[0], wide, err)
			}
		}
		if builds(spec(would[0]-less)) == nil {
			t.Errorf("%d: %v would do, and %v does", n, would[0], would[0]-less)
		}
	}
}

// only returns the violation of an error that has one.
func only(err error) check.Violation {
	var out check.Violation
	if bad, ok := err.(*check.Error); ok && bad.Len() == 1 {
		for v := range bad.All() {
			out = v
		}
	}
	return out
}

// besideRow is a row whose first and fourth panels nearly meet end to end.
func besideRow(fourth units.Length) folio.Spec {
	least := func(c rule.CreasePlace, f score.Fold) boards.Joint {
		return boards.Joint{Fold: f, Hinge: rule.Hinge{Rule: rule.HingeLeast, Crease: c}}
	}
	out, in := least(rule.CreaseAtEdge, score.Mountain), least(rule.CreaseAtEdge, score.Valley)
	return folio.Spec{
		Cover: units.Size{W: 72 * mm, H: 107 * mm}, Spine: rule.Spine{Width: 22 * mm},
		Board: stock.Stock{Caliper: 1798 * units.Micrometre}, Covering: stock.Stock{Caliper: 360 * units.Micrometre}, Liner: stock.Stock{Caliper: 136 * units.Micrometre},
		Rulers: rule.Rulers{Main: nanometres()}, Mitre: rule.Mitre{Distance: 5 * mm}, Closing: closing.Allowance{Ease: units.None},
		Row: boards.Row{
			Boards: []boards.Board{{Role: boards.Panel1, Width: 46 * mm}, {Role: boards.Spine1}, {Role: boards.Panel2, Width: 45 * mm},
				{Role: boards.Panel3, Width: 118 * mm}, {Role: boards.Spine3}, {Role: boards.Panel4, Width: fourth}},
			Joints: []boards.Joint{out, out, least(rule.CreaseTwo, score.Valley), in, in},
		},
	}
}

// A board that ends beside another one, nearer than the thickness of its own fold
// there, would run into it: the first panel lies folded to and fro on the third, the
// fourth turns over that from the other side, and their ends nearly meet. Narrower it
// lies clear of it, wider over it.
func TestBoardsBesideEachOther(t *testing.T) {
	built, refused := 0, 0
	for w := 60 * mm; w <= 90*mm; w += mm / 4 {
		p, err := folio.Build(besideRow(w))
		if err != nil {
			v := only(err)
			if v.Code != folio.NotClosing {
				t.Fatalf("%v: %v", w, err)
			}
			if strings.HasPrefix(v.Path, "row.boards[") {
				refused++
			}
			continue
		}
		built++
		if bad := collides(t, p, atHead(p, 2e-3), 45); bad != "" {
			t.Errorf("%v: %s", w, bad)
		}
	}
	t.Logf("%d built, %d refused", built, refused)
	if built < 80 || refused == 0 || refused > 20 {
		t.Errorf("%d built, %d refused", built, refused)
	}
	// In inches it is told by how much, and how much further apart would do: no less.
	told := 0
	for w := 60 * mm; w <= 90*mm; w += 250_617 {
		s := besideRow(w)
		s.Rulers.Board, s.Rulers.Gap = s.Rulers.Main, s.Rulers.Main
		exact := only(builds(s))
		if s.Rulers.Main = units.Sixteenths; !strings.Contains(exact.Want, "further apart") {
			continue
		}
		in, mm := asks(t, only(builds(s)).Want), asks(t, exact.Want)
		if len(in) != 1 || len(mm) != 1 || in[0] < mm[0] || in[0] >= mm[0]+units.Inch/10_000 {
			t.Errorf("%v: %v and %v", w, in, mm)
		}
		told++
	}
	if told < 4 {
		t.Errorf("only %d are told", told)
	}
}

// The second and the fourth panel lie on the third one, end to end where they are as wide as that
// together: 45 mm and 73 of 118. By hand, the fold over the second one's end reaches past it by
// its spine board, with liner, turn-in and covering, or without one by liner and covering, and
// the fourth panel by the covering at its edge. From there on the one touches the other, until
// the boards themselves lie over each other, by a nanometre.
func TestEndsThatNearlyMeet(t *testing.T) {
	for _, soft := range []bool{false, true} {
		row := func(fourth units.Length) folio.Spec {
			s := besideRow(fourth)
			if soft {
				s.Row.Boards = append(s.Row.Boards[:1:1], s.Row.Boards[2:]...)
				s.Row.Joints = append([]boards.Joint{{Fold: score.Mountain, Hinge: rule.Hinge{Rule: rule.HingeLeast, Crease: rule.CreaseTwo}}}, s.Row.Joints[2:]...)
			}
			return s
		}
		s := row(mm)
		const meet = 73 * mm
		c := s.Covering.Caliper
		past, name := s.Board.Caliper+s.Liner.Caliper+2*c, "the first spine "
		if soft {
			past, name = s.Liner.Caliper+c, "the fold between the first panel and the second panel "
		}
		for fourth, got := range map[units.Length]string{
			meet - past - c:     "",
			meet - past - c + 1: name + "0.000001 mm over the edge of the fourth panel",
			meet - 2*c:          name,
			meet - 2*c + 1:      "the edge of the first panel 0.000001 mm over the edge of the fourth panel",
			meet:                "the edge of the first panel 0.72 mm over",
			meet + 1:            "",
			meet + 9*mm:         "",
		} {
			err := builds(row(fourth))
			if (err == nil) != (got == "") || err != nil && !strings.HasPrefix(only(err).Got, got) {
				t.Errorf("soft %v, a fourth panel of %v: want %q, got %v", soft, fourth, got, err)
			}
		}
	}
}

// Of three boards rolled up the third comes to lie beside the first, no board of it over it
// and their covered edges over each other: it passes above that as long as its outside lies
// no lower than the liner there with a turn-in, by hand 30 − 27.4 mm up with 2 of board,
// 0.2 of liner and two coverings of 0.2.
func TestBesideAndAbove(t *testing.T) {
	for second, passes := range map[units.Length]bool{274 * mm / 10: true, 274*mm/10 - nm: true, 274*mm/10 + nm: false, 28 * mm: false} {
		s := flat()
		s.Rulers, s.Spine, s.Hinge = all(everyNanometre), rule.Spine{Contents: 3 * mm}, rule.Hinge{Rule: rule.HingeLeast}
		s.Row = boards.Row{
			Boards: []boards.Board{{Role: boards.Panel1, Width: 50 * mm}, {Role: boards.Spine1, Width: 30 * mm}, {Role: boards.Panel2, Width: 100 * mm}, {Role: boards.Spine2, Width: second}, {Role: boards.Panel3, Width: 50 * mm}},
			Joints: make([]boards.Joint, 4), Main: boards.Panel1,
		}
		for _, s := range []folio.Spec{s, inMirror(s)} {
			if err := builds(s); (err == nil) != passes || err != nil && (only(err).Code != folio.NotClosing || !strings.HasPrefix(only(err).Path, "row.boards[")) {
				t.Errorf("%v: %v", second, err)
			}
		}
	}
}

// A first panel of 2 mm, creased at its edge, ends nearer to the fold there than the spine board
// with liner and turn-in is thick, by hand 2.4 mm: the third panel, beside it on the second one,
// with 0.2 mm of covering at its edge, comes as near to the fold as that and no nearer.
func TestBesideASpineOfANarrowBoard(t *testing.T) {
	for third, fits := range map[units.Length]bool{96 * mm: true, 974 * mm / 10: true, 974*mm/10 + nm: false, 975 * mm / 10: false} {
		s := flat()
		s.Rulers, s.Spine, s.Lining.Inset = all(everyNanometre), rule.Spine{Contents: 3 * mm}, mm/10
		s.Hinge = rule.Hinge{Width: 5 * mm, Crease: rule.CreaseAtOffset, Offset: 5 * mm}
		s.Row = boards.Row{
			Boards: []boards.Board{{Role: boards.Panel1, Width: 2 * mm}, {Role: boards.Spine1, Width: 20 * mm}, {Role: boards.Panel2, Width: 100 * mm}, {Role: boards.Spine2, Width: 12 * mm}, {Role: boards.Panel3, Width: third}},
			Joints: make([]boards.Joint, 4), Main: boards.Panel2,
		}
		for _, s := range []folio.Spec{s, inMirror(s)} {
			err := builds(s)
			if v := only(err); (err == nil) != fits || err != nil && (v.Code != folio.NotClosing || !strings.HasPrefix(v.Path, "row.boards[") || !strings.Contains(v.Got, " spine ")) {
				t.Errorf("%v: %v", third, err)
			}
		}
	}
}
