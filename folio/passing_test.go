package folio_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// besides is a folio with two things side by side, together thicker than the room, so
// far apart and so far from the hinge, which bends anywhere.
func besides(crease rule.CreasePlace, soft bool, from, apart, lower units.Length) folio.Spec {
	j := boards.Joint{Hinge: rule.Hinge{Rule: rule.HingeLeast, Crease: crease}}
	if crease == rule.CreaseAtOffset {
		j.Hinge.Offset = mm / 3
	}
	s := folio.Spec{
		Cover: units.Size{W: 120 * mm, H: 150 * mm}, Spine: rule.Spine{Width: 18 * mm},
		Board: stock.Stock{Caliper: 2 * mm}, Liner: stock.Stock{Caliper: mm / 10}, Covering: stock.Stock{Caliper: mm / 5},
		Rulers: rule.Rulers{Main: nanometres()}, Mitre: rule.Mitre{Distance: 5 * mm}, Closing: closing.Allowance{Ease: units.None},
		Lining: rule.Lining{Inset: mm}, Clearance: units.Micrometre,
		Row: boards.Row{Boards: []boards.Board{{Role: boards.Panel1}, {Role: boards.Spine1}, {Role: boards.Panel2}}, Joints: []boards.Joint{j, j}},
	}
	switch { // as thick a room with each
	case soft:
		s.Spine = rule.Spine{Contents: 14 * mm}
		s.Row.Boards, s.Row.Joints = []boards.Board{{Role: boards.Panel1}, {Role: boards.Panel2}}, s.Row.Joints[:1]
	case crease == rule.CreaseMidGap:
		s.Spine.Width = 16 * mm
	case crease == rule.CreaseTwo || crease == rule.CreaseRound:
		s.Spine.Width = 15 * mm
	}
	block := func(thick units.Length) folio.Ornament {
		return folio.Ornament{Size: units.Size{W: 8 * mm, H: 20 * mm}, Thickness: thick}
	}
	s.Fittings = []folio.Fitting{
		{Name: "bar", Panel: boards.Panel1, Kind: block(9 * mm), Place: place.Place{Along: place.Head, Across: place.Right, Offset: units.Point{X: from, Y: 40 * mm}}},
		{Name: "badge", Panel: boards.Panel2, Kind: block(8*mm - lower), Place: place.Place{Along: place.Head, Across: place.Left, Offset: units.Point{X: from + 8*mm + apart, Y: 40 * mm}}},
	}
	return s
}

// widerMade returns the warning of what touches in passing that asks for most in a cover
// that came out wider in its gaps. What is measured there is the whole cover: that adds no
// room, and moves nothing nearer on the boards.
func widerMade(t *testing.T, s folio.Spec) (worst check.Warning) {
	t.Helper()
	p := mustBuild(t, s)
	w, h := p.AsMade()
	made, err := p.Refit(refit.Measured{Width: w.Length() + mm, Height: h.Length()})
	if err != nil {
		t.Fatal(err)
	}
	for w := range made.Warnings() {
		if w.Code == folio.WarnPassing && w.Want-w.Got > worst.Want-worst.Got {
			worst = w
		}
	}
	return worst
}

// Two things side by side are warned of exactly where the one meets the other on its
// way, by a motion that knows nothing of circles, however the hinge bends; and further
// apart by what would do, or lower, they pass each other.
func TestPassing(t *testing.T) {
	passing := func(s folio.Spec) (w check.Warning, meets bool) {
		p, err := folio.Build(s)
		if err != nil {
			t.Fatal(err)
		}
		for o := range p.Warnings() {
			if o.Code == folio.WarnPassing {
				w = o
			}
		}
		return w, collides(t, p, filledAt(p, 50*mm, 1e-4), 200) != ""
	}
	hundredth := mm / 100
	for _, soft := range []bool{false, true} {
		for crease := rule.CreaseAtEdge; crease <= rule.CreaseRound; crease++ {
			if soft && crease < rule.CreaseTwo {
				continue
			}
			for _, from := range []units.Length{2 * mm} {
				first, meets := passing(besides(crease, soft, from, hundredth, 0))
				switch {
				case !meets && first.Code == "" && soft: // their two creases carry it clear of what it passes
					continue
				case !meets || first.Code == "" || first.Got != hundredth || first.Path != "fittings[1].place":
					t.Errorf("%v, soft %v: meets %v, warned %v", crease, soft, meets, first)
					continue
				}
				there := besides(crease, soft, from, hundredth, 0)
				there.Row.Main = boards.Panel2
				if w, meets := passing(there); !meets || w.Got != first.Got || w.Want != first.Want {
					t.Errorf("%v, soft %v: with the second panel on the table meets %v, warned %v, before %v", crease, soft, meets, w, first)
				}
				if w, meets := passing(inMirror(there)); !meets || w.Got != first.Got || w.Want != first.Want {
					t.Errorf("%v, soft %v: in a mirror meets %v, warned %v, before %v", crease, soft, meets, w, first)
				}
				if made := widerMade(t, besides(crease, soft, from, hundredth, 0)); made.Got != first.Got || made.Want != first.Want {
					t.Errorf("%v, soft %v: as made warned %v, as planned %v", crease, soft, made, first)
				}
				// Only 0.01 mm deep, with adhesive of 0.1 mm under both, it is up and away before it comes 0.05 mm nearer.
				room := mustClosed(t, mustBuild(t, there)).Room().Length()
				if w, meets := passing(besides(crease, soft, from, mm/20, 17*mm+mm/5-room-hundredth)); meets || w.Code != "" {
					t.Errorf("%v, soft %v: hardly deeper than it is far, meets %v, warned %v", crease, soft, meets, w)
				}
				w, meets := passing(besides(crease, soft, from, first.Want-mm/10, 0))
				if !soft && (!meets || w.Code == "" || (w.Want-first.Want).Abs() > units.Micrometre) {
					t.Errorf("%v: 0.1 mm nearer meets %v, warned %v", crease, meets, w)
				}
				if w, meets := passing(besides(crease, soft, from, first.Want, 0)); meets || w.Code != "" {
					t.Errorf("%v: as far as would do meets %v, warned %v", crease, meets, w)
				}
				if w, meets := passing(besides(crease, soft, from, hundredth, 4*mm)); meets || w.Code != "" {
					t.Errorf("%v: much lower meets %v, warned %v", crease, meets, w)
				}
			}
		}
	}
}

// Of two that meet a thing alike the first is told.
func TestFirstOfTwoIsToldToPass(t *testing.T) {
	s := someBesides(besides(rule.CreaseAtEdge, false, 2*mm, mm/100, 0), 2, 1, units.Size{W: 8 * mm, H: 20 * mm}, 0, 21*mm)
	long := s.Fittings[1].Kind.(folio.Ornament)
	long.Size.H = 50 * mm
	s.Fittings[1].Kind = long
	var told []string
	for w := range mustBuild(t, s).Warnings() {
		if w.Code == folio.WarnPassing {
			told = append(told, w.Text)
		}
	}
	if len(told) != 1 || !strings.Contains(told[0], ", bar 0 touches badge 0,") && !strings.Contains(told[0], ", badge 0 touches bar 0,") {
		t.Errorf("%q", told)
	}
}

// Where the two hinges of a spine board bend in different ways, the one at the board that turns
// carries it, to the left as to the right: what is told meets in motion, and as far apart as would do it passes.
func TestPassingAtUnlikeHinges(t *testing.T) {
	touched := 0
	for n := range 8 {
		s := besides(rule.CreaseAtEdge, false, 2*mm, mm/100, 0)
		s.Spine.Width = 33 * mm / 2
		s.Row.Joints = slices.Clone(s.Row.Joints)
		s.Row.Joints[n%2].Hinge.Crease = rule.CreaseTwo
		s.Row.Joints[1-n%2].Hinge = rule.Hinge{Width: 7 * mm / 2}
		further := 12 * mm / 10 // than it needs for board, liner and a turn-in
		if n%2 == 0 {
			further = -further
		}
		s.Row.Main = boards.Panel1 + boards.Role(n/2%2)
		if n >= 4 {
			s = inMirror(s)
		}
		meets := func(apart units.Length) (w check.Warning, meets bool) {
			s.Fittings[1].Place.Offset.X = 2*mm + 8*mm + further + apart
			p := mustBuild(t, s)
			for o := range p.Warnings() {
				if o.Code == folio.WarnPassing {
					w = o
				}
			}
			return w, collides(t, p, filledAt(p, 50*mm, 1e-4), 400) != ""
		}
		first, met := meets(mm / 100)
		if met != (first.Code != "") {
			t.Errorf("%d: meets %v, warned %v", n, met, first)
		}
		if !met {
			continue
		}
		touched++
		for _, nearer := range []units.Length{0, mm / 20} {
			if w, met := meets(first.Want - nearer); met != (nearer > 0) || (w.Code != "") != met {
				t.Errorf("%d: of %v, %v apart meets %v, warned %v", n, first.Want, first.Want-nearer, met, w)
			}
		}
	}
	if touched < 4 {
		t.Errorf("only %d touch", touched)
	}
}

// Two things side by side by chance, at any hinge and in a mirror: what meets on the way
// even if all is a little smaller is warned of, and what passes even if all is a little
// larger is not. As far apart as would do, or with either of them as much lower as is said,
// they pass; told in inches, which round, what would do is no less than that.
func TestPassingByChance(t *testing.T) {
	rng := rand.New(rand.NewPCG(uint64(proptest.Seed()), 33))
	um := func(low, high int) units.Length { return units.Length(low+rng.IntN(high-low)) * units.Micrometre }
	warns := func(s folio.Spec) (w check.Warning, ok bool) {
		p, err := folio.Build(s)
		if err != nil {
			return w, true
		}
		for o := range p.Warnings() {
			if o.Code == folio.WarnPassing {
				return o, true
			}
		}
		return w, false
	}
	inches, err := units.NewRuler(units.Nanometre, units.InchDecimal)
	if err != nil {
		t.Fatal(err)
	}
	touch, pass := 0, 0
	for trial := range proptest.Cases(120) {
		soft := rng.IntN(3) == 0
		crease := rule.CreasePlace(rng.IntN(5))
		if soft {
			crease = rule.CreaseTwo + crease%2
		}
		apart := um(0, 900)
		if rng.IntN(8) == 0 {
			apart = 0
		}
		thick := [2]units.Length{um(6000, 11_000), um(6000, 11_000)}
		with := func(apart, first, second units.Length) folio.Spec {
			s := besides(crease, soft, 0, apart, 0)
			s.Row.Main = boards.Panel2
			if trial%3 == 0 {
				s.Rulers.Main = inches
			}
			for i, h := range [2]units.Length{first, second} {
				o := s.Fittings[i].Kind.(folio.Ornament)
				o.Thickness = h
				s.Fittings[i].Kind = o
			}
			return s
		}
		from := um(0, 40_000)
		at := func(apart, first, second units.Length) folio.Spec {
			s := with(apart, first, second)
			for i := range s.Fittings {
				s.Fittings[i].Place.Offset.X += from
			}
			if trial%2 == 0 {
				s = inMirror(s)
			}
			return s
		}
		s := at(apart, thick[0], thick[1])
		p, err := folio.Build(s)
		if err != nil {
			continue
		}
		w, ok := warns(s)
		const little = 0.02
		switch solids := func(less float64) string { return collides(t, p, filledAt(p, 50*mm, less), 160) }; {
		case !ok && solids(little) != "":
			t.Errorf("trial %d, %v, soft %v: no warning of %v that meet: %+v", trial, crease, soft, thick, s.Fittings)
		case ok && solids(-2*little) == "":
			t.Errorf("trial %d, %v, soft %v: warned of %v that pass: %v", trial, crease, soft, thick, w)
		}
		if !ok {
			pass++
			continue
		}
		touch++
		if w.Got != apart {
			t.Errorf("trial %d: %v apart, told %v", trial, apart, w)
		}
		before, text, _ := strings.Cut(w.Text, " would do, or either of them lower by ")
		_, before, _ = strings.Cut(before, " too little, ")
		if l, err := units.Parse(before); err != nil || l < w.Want || l > w.Want+units.Thou/10 {
			t.Errorf("trial %d: %q for %v: %v", trial, before, w.Want, err)
		}
		lower, err := units.Parse(text)
		if err != nil || lower <= 0 {
			t.Fatalf("trial %d: %q: %v", trial, w.Text, err)
		}
		for what, s := range map[string]folio.Spec{
			"further apart": at(w.Want, thick[0], thick[1]), "the first lower": at(apart, thick[0]-lower, thick[1]), "the second lower": at(apart, thick[0], thick[1]-lower),
		} {
			if w, ok := warns(s); ok {
				t.Errorf("trial %d, %s: %v", trial, what, w)
			}
		}
		const less = 10 * units.Micrometre // than would do
		_, first := warns(at(apart, thick[0]-lower+less, thick[1]))
		_, second := warns(at(apart, thick[0], thick[1]-lower+less))
		if !first && !second {
			t.Errorf("trial %d: either of them could be higher: %v", trial, w)
		}
		if _, ok := warns(at(w.Want-less, thick[0], thick[1])); !ok && !soft {
			t.Errorf("trial %d: they could be nearer: %v", trial, w)
		}
	}
	t.Logf("%d touch, %d pass", touch, pass)
	if touch < proptest.Cases(20) || pass < proptest.Cases(20) {
		t.Errorf("%d touch, %d pass", touch, pass)
	}
}

// Thick doors with thin coverings a hair apart: the turn-ins of the one that is folded over
// last touch the other one on the way, by how wide the gap between them is; as wide as would
// do they do not.
func TestDoorsTouchInPassing(t *testing.T) {
	s := folio.Spec{
		Form: boards.DoubleSpineGate, Cover: units.Size{W: 80 * mm, H: 150 * mm}, Spine: rule.Spine{Width: 18 * mm}, Hinge: rule.Hinge{Rule: rule.HingeLeast},
		Board: stock.Stock{Caliper: 3 * mm}, Liner: stock.Stock{Caliper: mm / 10}, Covering: stock.Stock{Caliper: mm / 20},
		Rulers: rule.Rulers{Main: nanometres()}, Mitre: rule.Mitre{Distance: 6 * mm}, Closing: closing.Allowance{Ease: units.None}, DoorGap: mm / 10,
		Fittings: []folio.Fitting{{Name: "badge", Kind: folio.Ornament{Size: units.Size{W: 2 * mm, H: 2 * mm}, Thickness: 116 * mm / 10},
			Place: place.Place{Across: place.Left, Offset: units.Point{X: 20 * mm}}}}, // so thick that what touches is looked for
	}
	told := func() (w check.Warning) {
		for o := range mustBuild(t, s).Warnings() {
			if o.Code == folio.WarnPassing {
				w = o
			}
		}
		return w
	}
	w := told()
	if w.Path != "doorgap" || w.Got != mm/20 || !strings.Contains(w.Text, "turn-ins on the ") {
		t.Errorf("%v", w)
	}
	s.DoorGap += w.Want - w.Got
	if w := told(); w.Code != "" {
		t.Errorf("%v apart: %v", s.DoorGap, w)
	}
}

// Turn-ins that touch in passing are told of as what they are, many, and whose: where
// no fitting and no block is one of the two, the path is that of how wide the board is
// that they come to lie beside, and so much narrower it passes.
func TestTurnInsTouchInPassing(t *testing.T) {
	um := units.Micrometre
	two := boards.Joint{Hinge: rule.Hinge{Rule: rule.HingeLeast, Crease: rule.CreaseTwo}}
	edge := boards.Joint{Hinge: rule.Hinge{Rule: rule.HingeLeast}}
	s := folio.Spec{
		Cover: units.Size{W: 119536 * um, H: 131531 * um}, Spine: rule.Spine{Width: 23154 * um}, Rulers: rule.Rulers{Main: nanometres()}, Mitre: rule.Mitre{Distance: 5 * mm},
		Board: stock.Stock{Caliper: 1521 * um}, Covering: stock.Stock{Caliper: 120 * um}, Liner: stock.Stock{Caliper: 386 * um},
		Closing:  closing.Allowance{Ease: units.None, UnderFlap: 566 * um},
		Fittings: []folio.Fitting{{Panel: boards.Panel1, Kind: folio.Ornament{Size: units.Size{W: 2 * mm, H: 2 * mm}, Thickness: mm / 10}}},
		Row: boards.Row{
			Boards: []boards.Board{{Role: boards.Panel1, Width: 61352 * um}, {Role: boards.Spine1}, {Role: boards.Panel2, Width: 63555 * um},
				{Role: boards.Spine2}, {Role: boards.Panel3}, {Role: boards.Spine3}, {Role: boards.Panel4, Width: 51846 * um}},
			Joints: []boards.Joint{two, two, two, two, edge, edge},
		},
	}
	told := func() (all []check.Warning) {
		p, err := folio.Build(s)
		if err != nil {
			t.Fatal(err)
		}
		for w := range p.Warnings() {
			if w.Code == folio.WarnPassing {
				all = append(all, w)
			}
		}
		return all
	}
	all := told()
	if len(all) != 2 {
		t.Fatal(all)
	}
	for i, want := range []string{
		"the turn-ins on the first spine touch the fourth panel, beside which they come to lie: 3.895 mm between them is too little, ",
		"the first spine touches the turn-ins on the fourth panel, beside which it comes to lie: 1.988 mm between them is too little, ",
	} {
		if w := all[i]; w.Path != "row.boards[6].width" || !strings.Contains(w.Text, want) || strings.Contains(w.Text, "lower") {
			t.Errorf("%v", w)
		}
	}
	s.Row.Boards[6].Width -= all[1].Want - all[1].Got
	if all := told(); len(all) != 0 {
		t.Errorf("as much narrower: %v", all)
	}
}

// manyBesides has so many bars and as many badges, each a little further in a direction than
// the last one of its kind.
func manyBesides(s folio.Spec, n int, size units.Size, x, y units.Length) folio.Spec {
	return someBesides(s, n, n, size, x, y)
}

// someBesides has so many bars and so many badges.
func someBesides(s folio.Spec, bars, badges int, size units.Size, x, y units.Length) folio.Spec {
	of := s.Fittings
	s.Fittings = nil
	for i := range max(bars, badges) {
		for k, n := range []int{bars, badges} {
			if i >= n {
				continue
			}
			f := of[k]
			o := f.Kind.(folio.Ornament)
			o.Size = size
			f.Kind, f.Name = o, fmt.Sprint(f.Name, " ", i)
			f.Place.Offset.X += x * units.Length(i)
			f.Place.Offset.Y += y * units.Length(i)
			s.Fittings = append(s.Fittings, f)
		}
	}
	return s
}

// Twenty pairs are told of one by one (mostPassings), and how many more there are. Up to
// 2,000 (mostSampled) are followed on their way where a hinge bends in two creases; beyond
// that a board is taken to turn about its edge, and more is said than need be.
func TestManyPass(t *testing.T) {
	told := func(s folio.Spec) []string {
		p, err := folio.Build(s)
		if err != nil {
			t.Fatal(err)
		}
		var out []string
		for w := range p.Warnings() {
			if w.Code == folio.WarnPassing {
				out = append(out, w.Text)
			}
		}
		return out
	}
	for n, last := range map[int]string{20: "lower by", 21: " 1 more things ", 60: " 40 more things "} {
		rows := besides(rule.CreaseAtEdge, false, 0, mm/100, 0)
		for i := range rows.Fittings {
			rows.Fittings[i].Place.Offset.Y = 16 * mm
		}
		all := told(manyBesides(rows, n, units.Size{W: 8 * mm, H: mm}, 0, 2*mm))
		if len(all) != min(n, 21) || !strings.Contains(all[len(all)-1], last) {
			t.Errorf("%d pairs: %d warnings, at the end %q", n, len(all), all[len(all)-1:])
		}
	}
	for _, c := range []struct {
		bars, badges int
		some         bool
	}{{40, 50, false}, {29, 69, true}, {120, 120, true}} {
		s := besides(rule.CreaseTwo, true, 5*mm, 0, 0)
		s.Fittings[1].Place.Offset.X = 7 * mm
		all := told(someBesides(s, c.bars, c.badges, units.Size{W: mm / 100, H: 20 * mm}, mm*12/1000, 0))
		if (len(all) > 0) != c.some || len(all) > 21 {
			t.Errorf("%d by %d pairs: %d warnings", c.bars, c.badges, len(all))
		}
	}
}
