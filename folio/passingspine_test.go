package folio_test

import (
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// reaching is a row of three panels whose first one is folded over the second one at a
// soft joint and reaches over the place where a spine board turns up after that, and
// with that a bar, so far from its edge and so thick.
func reaching(crease rule.CreasePlace, from, thick units.Length) folio.Spec {
	j := boards.Joint{Hinge: rule.Hinge{Rule: rule.HingeLeast, Crease: crease}}
	if crease == rule.CreaseAtOffset {
		j.Hinge.Offset = mm / 3
	}
	soft := boards.Joint{Hinge: rule.Hinge{Rule: rule.HingeLeast, Crease: rule.CreaseTwo}}
	block := func(w, thick units.Length) folio.Ornament {
		return folio.Ornament{Size: units.Size{W: w, H: 20 * mm}, Thickness: thick}
	}
	return folio.Spec{
		Cover: units.Size{W: 120 * mm, H: 150 * mm}, Spine: rule.Spine{Width: 30 * mm},
		Board: stock.Stock{Caliper: 2 * mm}, Liner: stock.Stock{Caliper: mm / 10}, Covering: stock.Stock{Caliper: mm / 5},
		Rulers: rule.Rulers{Main: nanometres()}, Mitre: rule.Mitre{Distance: 5 * mm}, Closing: closing.Allowance{Ease: units.None},
		Lining: rule.Lining{Inset: mm}, Clearance: units.Micrometre,
		Row: boards.Row{
			Boards: []boards.Board{{Role: boards.Panel1}, {Role: boards.Panel2}, {Role: boards.Spine2}, {Role: boards.Panel3}},
			Joints: []boards.Joint{soft, j, j},
		},
		Fittings: []folio.Fitting{
			{Name: "bar", Panel: boards.Spine2, Kind: block(4*mm, thick), Place: place.Place{Along: place.Head, Across: place.Left, Offset: units.Point{X: from, Y: 40 * mm}}},
			{Name: "plate", Panel: boards.Panel2, Kind: block(40*mm, 3*mm), Place: place.Place{Along: place.Tail, Offset: units.Point{Y: 20 * mm}}},
		},
	}
}

// passedOver builds a folio and returns the warning of what touches in passing that
// asks for most, and whether anything does, moved.
func passedOver(t *testing.T, s folio.Spec) (worst check.Warning, meets bool) {
	t.Helper()
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	for w := range p.Warnings() {
		if w.Code == folio.WarnPassing && w.Want-w.Got > worst.Want-worst.Got {
			worst = w
		}
	}
	return worst, collides(t, p, filledAt(p, 50*mm, 1e-4), 100) != ""
}

// What stands on a spine board that turns up under the edge of what has been folded
// over the board beside it is warned of exactly where the two meet on the way, by a
// motion that knows nothing of circles, however the hinges are creased; and further from
// it by what would do, or lower, it passes.
func TestPassingOnASpine(t *testing.T) {
	const thick = 6 * mm
	for crease := rule.CreaseAtEdge; crease <= rule.CreaseRound; crease++ {
		// As far along the spine as it still lies clear of that edge in the end.
		most := 15 * mm
		for step := 8 * mm; step >= units.Micrometre; step /= 2 {
			if _, err := folio.Build(reaching(crease, most+step, thick)); err == nil {
				most += step
			}
		}
		first, meets := passedOver(t, reaching(crease, most, thick))
		if !meets || first.Code == "" || first.Path != "fittings[0].place" {
			t.Errorf("%v: at %v from the edge meets %v, warned %v", crease, most, meets, first)
			continue
		}
		clear := most - (first.Want - first.Got)
		if w, meets := passedOver(t, reaching(crease, clear+mm/10, thick)); !meets || w.Code == "" || (w.Want-first.Want).Abs() > mm/100 {
			t.Errorf("%v: 0.1 mm nearer meets %v, warned %v, before %v", crease, meets, w, first)
		}
		if w, meets := passedOver(t, reaching(crease, clear, thick)); meets || w.Code != "" {
			t.Errorf("%v: as far as would do meets %v, warned %v", crease, meets, w)
		}
		_, text, _ := strings.Cut(first.Text, "lower by ")
		lower, err := units.Parse(text)
		if err != nil || !strings.Contains(first.Text, ", or bar lower by") {
			t.Fatalf("%v: %q: %v", crease, first.Text, err)
		}
		if w, meets := passedOver(t, reaching(crease, most, thick-lower)); meets || w.Code != "" {
			t.Errorf("%v: lower by %v meets %v, warned %v", crease, lower, meets, w)
		}
		if w, meets := passedOver(t, reaching(crease, most, thick-lower+mm/2)); !meets || w.Code == "" {
			t.Errorf("%v: 0.5 mm higher than that meets %v, warned %v", crease, meets, w)
		}
		if !warnedOf(mustBuild(t, reaching(crease, most, thick-lower+mm/200)), folio.WarnPassing, "") {
			t.Errorf("%v: lower by %v less 0.005 mm would do too", crease, lower)
		}
	}
}

// A stack on the back of a spine lies at its back: where its height at the front would
// stand under the edge of what lies over the board beside it, or in that, the folio
// closes, and nothing touches.
func TestStackOnTheBackOfASpine(t *testing.T) {
	for _, from := range []units.Length{23 * mm, 25 * mm} {
		stack := reaching(rule.CreaseAtEdge, from, 3*mm)
		stack.Fittings[0].Outside = true
		on := stack.Fittings[0]
		on.Name, on.Panel, on.Outside, on.StandsOn, on.Place = "on it", boards.MainPanel, false, "bar", place.Place{}
		stack.Fittings = append(stack.Fittings, on)
		if w, meets := passedOver(t, stack); meets || w.Code != "" {
			t.Errorf("%v from the edge meets %v, warned %v", from, meets, w)
		}
	}
}

// What turns up on a spine board may meet a thing that hangs at the edge of what lies over
// the board beside it, and hangs lower over the turn-ins there: as much lower as it is said,
// or as much further from it, the first of them passes.
func TestPassingOnASpineWhatHangs(t *testing.T) {
	told := func(from, thick units.Length) (w check.Warning, err error) {
		s := reaching(rule.CreaseAtEdge, from, thick)
		s.Fittings = append(s.Fittings, folio.Fitting{Name: "badge", Panel: boards.Panel1, Kind: folio.Ornament{Size: units.Size{W: 10 * mm, H: 20 * mm}, Thickness: mm},
			Place: place.Place{Along: place.Head, Across: place.Left, Offset: units.Point{Y: 40 * mm}}})
		p, err := folio.Build(s)
		if err != nil {
			return w, err
		}
		for o := range p.Warnings() {
			if o.Code == folio.WarnPassing && strings.Contains(o.Text, "bar touches badge,") {
				w = o
			}
		}
		return w, nil
	}
	const thick = 6 * mm
	most := 15 * mm
	for step := 8 * mm; step >= units.Micrometre; step /= 2 {
		if _, err := told(most+step, thick); err == nil {
			most += step
		}
	}
	first, _ := told(most, thick)
	if first.Path != "fittings[0].place" {
		t.Errorf("moved is what hangs: %v", first)
	}
	_, text, ok := strings.Cut(first.Text, ", or the first of them lower by ")
	lower, err := units.Parse(text)
	if !ok || err != nil {
		t.Fatalf("%q: %v", first.Text, err)
	}
	for less, touches := range map[units.Length]bool{0: false, mm / 100: true} {
		if w, err := told(most, thick-lower+less); err != nil || (w.Code != "") != touches {
			t.Errorf("lower by %v: %v, %v", lower-less, w, err)
		}
		further := first.Want - first.Got - less
		if w, err := told(most-further, thick); err != nil || (w.Code != "") != touches {
			t.Errorf("further by %v: %v, %v", further, w, err)
		}
	}
}
