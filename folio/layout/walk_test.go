package layout_test

import (
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// Of two keepsakes every piece that is wanted is one of the plan's, as often as two
// folios need it; what the walks give adds up to the whole, and a walk may be left.
func TestWalks(t *testing.T) {
	job := keepsakeJob(t, 2)
	job.Pieces = []layout.LoosePiece{{Name: "bookmark", Material: "card", Size: inches("2 x 6"), Quantity: 3}}
	l := lay(t, job)
	of := slices.Collect(job.Folios[0].Plan.Pieces())
	seen := 0
	for w := range l.Pieces() {
		i, ok := w.Folio()
		if !ok {
			if w.Piece() != 0 || w.Name() != "bookmark" || w.Part() != "" || w.Quantity() != 3 {
				t.Errorf("a piece by hand is %d, %s, of %q", w.Piece(), w.Name(), w.Part())
			}
			continue
		}
		p := of[w.Piece()]
		if seen++; i != 0 || p.Name() != w.Name() || p.Part() != w.Part() || p.Size() != w.Size() || 2*p.Quantity() != w.Quantity() {
			t.Errorf("%s is not piece %d of folio %d", w.Name(), w.Piece(), i)
		}
	}
	if seen != len(of) {
		t.Errorf("%d pieces of a folio of %d", seen, len(of))
	}

	times, bought := map[string]int{}, 0
	for s := range l.Sheets() {
		times[s.Material()] += s.Times()
	}
	for m := range l.Materials() {
		if times[m.Name()] != m.Bought() {
			t.Errorf("%s: %d sheets to cut, %d bought", m.Name(), times[m.Name()], m.Bought())
		}
		bought += m.Bought()
	}
	// A proved layout takes no more than the bound.
	if len(times) != 4 || l.Bought() != bought || !l.Proved() || l.Bound() != bought {
		t.Errorf("%d sheets of %d materials, at least %d, proved %t", l.Bought(), len(times), l.Bound(), l.Proved())
	}
	first := 0
	for s := range l.Sheets() {
		first = s.Number()
		break
	}
	for range l.Steps() {
		break
	}
	if first != 1 {
		t.Errorf("the first sheet is number %d", first)
	}
}

// What is done to the job that a layout gives does not reach the layout.
func TestJobIsACopy(t *testing.T) {
	l := lay(t, keepsakeJob(t, 2))
	job := l.Job()
	job.Folios[0].Copies, job.Materials[0].Name, job.Materials[0].Sheets[0].Count = 9, "tin", 0
	if again := l.Job(); again.Folios[0].Copies != 2 || again.Materials[0].Name != "chipboard" || again.Materials[0].Sheets[0].Count != layout.Unlimited {
		t.Errorf("the layout's job was changed: %+v", again)
	}
}

// The steps together make every cut of every sheet once, and none before the cut
// that frees its part; the axis and the edge of a step are those of its cuts.
func TestCutsOn(t *testing.T) {
	l := lay(t, keepsakeJob(t, 5))
	for s := range l.Sheets() {
		parts := map[int]layout.CutPart{}
		free := map[int]bool{0: true}
		for i, p := range s.Parts() {
			parts[i] = p
		}
		made := map[int]bool{}
		for step := range l.Steps() {
			n := 0
			for at := range step.CutsOn(s.Number()) {
				p := parts[at]
				if n++; p.Use() != layout.Cut || made[at] || !free[at] {
					t.Errorf("step %d, sheet %d: part %d is %v, cut before %t, free %t", step.Number(), s.Number(), at, p.Use(), made[at], free[at])
				}
				made[at] = true
				if axis, _ := p.CutAt(); (axis == score.Level) != (step.Edge() == score.Head) {
					t.Errorf("step %d counts from the %v edge for a cut along %v", step.Number(), step.Edge(), axis)
				}
				a, b := p.Cuts()
				free[a], free[b] = true, true
			}
			if on := slices.Contains(slices.Collect(step.Sheets()), s.Number()); n > 0 && !on || n == 0 && on && !step.Takes() {
				t.Errorf("step %d: %d cuts on sheet %d, named %t", step.Number(), n, s.Number(), on)
			}
			for range step.CutsOn(s.Number()) {
				break
			}
		}
		for at, p := range parts {
			if made[at] != (p.Use() == layout.Cut) {
				t.Errorf("sheet %d: part %d is %v, cut %t", s.Number(), at, p.Use(), made[at])
			}
		}
	}
}

// A piece of 10 x 4 in goes on a sheet of 5 x 11 in only a quarter turn round, and
// on one of 11 x 5 in only as it is.
func TestYieldedTurned(t *testing.T) {
	for size, turned := range map[string]bool{"5 x 11": true, "11 x 5": false} {
		l := lay(t, hand(layout.Material{Sheets: []layout.SheetKind{sheets(size, 1, stock.GrainAlongHeight)}}, piece("10 x 4", 1, stock.GrainAny, layout.QuarterTurn)))
		n := 0
		for step := range l.Steps() {
			for y := range step.Gives() {
				if y.Use() != layout.PieceUse {
					continue
				}
				if n += y.Count(); y.Turned() != turned || turned && y.Size() != inches("4 x 10") {
					t.Errorf("%s: %v, turned %t", size, y.Size(), y.Turned())
				}
				if said := strings.Contains(step.Text(units.Format{}), "(turned)"); said != turned {
					t.Errorf("%s: %s", size, step.Text(units.Format{}))
				}
			}
		}
		if n != 1 {
			t.Errorf("%s: %d pieces", size, n)
		}
	}
}

// Two mats of 5 x 7 in come out of a sheet, or out of an offcut of 12 x 7 in, 10 of
// whose 12 in they take: with it a sheet of 1.00 less is bought.
func TestAgainst(t *testing.T) {
	whole := sheets("12 x 12", layout.Unlimited, stock.GrainAlongHeight)
	whole.Price = usd(100)
	job := hand(layout.Material{Sheets: []layout.SheetKind{whole}}, piece("5 x 7", 2, stock.GrainParallel, layout.NoTurn))
	first := lay(t, job)
	offcut := sheets("12 x 7", 1, stock.GrainAlongHeight)
	offcut.Offcut = true
	job.Materials[0].Sheets = append(job.Materials[0].Sheets, offcut)
	l := lay(t, job)
	for _, c := range []struct {
		d               layout.Difference
		bought, offcuts int
		cents           int64
	}{{l.Against(first), -1, 1, -100}, {first.Against(l), 1, -1, 100}, {l.Against(l), 0, 0, 0}} {
		if c.d.Bought() != c.bought || c.d.Offcuts() != c.offcuts || c.d.Price() != usd(c.cents) || !c.d.Certain() {
			t.Errorf("%+v; want %d sheets, %d offcuts, %d cents more", c.d, c.bought, c.offcuts, c.cents)
		}
	}
	for m := range l.Materials() {
		for range m.Used() {
			break
		}
		// 2 x 7 in, left of the offcut's 12 x 7 in, is more than 1 x 3 in.
		for left := range m.Offcuts() {
			if left.Sheet() != 1 || left.Size() != inches("2 x 7") || left.Kind().Size != inches("2 x 7") {
				t.Errorf("%v is left of sheet %d", left.Size(), left.Sheet())
			}
		}
	}
}

// A sheet whose grain runs along its width is laid a quarter round for pieces with
// the grain along their height: of 12 x 9 in a strip of 9 x 4 in is left beside one
// of 9 x 8 in, and is listed for another job as the sheet was, 4 x 9 in.
func TestTurnedLeft(t *testing.T) {
	l := lay(t, hand(layout.Material{Sheets: []layout.SheetKind{sheets("12 x 9", 1, stock.GrainAlongWidth)}}, piece("9 x 8", 1, stock.GrainParallel, layout.QuarterTurn)))
	n := 0
	for m := range l.Materials() {
		for left := range m.Offcuts() {
			if n++; left.Size() != inches("9 x 4") || left.Kind().Size != inches("4 x 9") || left.Kind().Grain != stock.GrainAlongWidth {
				t.Errorf("%v is left, listed %v with the grain %v", left.Size(), left.Kind().Size, left.Kind().Grain)
			}
		}
	}
	if n != 1 {
		t.Errorf("%d offcuts", n)
	}
}

// Ten wraps, 12 x 8 3/8 in with a margin of 1 in all round, come one out of a sheet
// of 12 x 16 in; with a margin of 13/16 in they are 8 in high, and two do.
func TestSavingMaterials(t *testing.T) {
	plan := build(t, folio.Spec{
		Cover:    inches("4 3/8 x 6 3/8"),
		Spine:    rule.Spine{Width: units.Inch},
		Covering: stock.Stock{Name: "marbled paper", Sheets: []stock.Sheet{{Size: inches("12 x 16"), Grain: stock.GrainAlongHeight}}},
	})
	job := layout.Job{Folios: []layout.Folio{{Plan: plan, Copies: 10}}, Materials: layout.MaterialsOf(plan), Except: []string{"board", "liner"}}
	list, _, err := layout.Savings(t.Context(), job, layout.Tolerance{Margin: true}, layout.Budget{})
	if err != nil || len(list) != 1 {
		t.Fatalf("%d savings, %v", len(list), err)
	}
	n := 0
	for name, less := range list[0].Materials() {
		if n++; name != "marbled paper" || less != 5 || list[0].Sheets() != 5 {
			t.Errorf("%d sheets of %s less, %d in all", less, name, list[0].Sheets())
		}
	}
	for range list[0].Materials() {
		break
	}
	for c := range list[0].Adjustments() {
		if c != layout.SmallerMargin {
			t.Errorf("it is %v", c)
		}
		break
	}
	if n != 1 {
		t.Errorf("%d materials", n)
	}
}

// Where the first job cannot be placed, one more of it cannot either; of a folio
// none of whose pieces are laid out any number can be made.
func TestCounted(t *testing.T) {
	small := wraps(t, []int{1}, sheets("8 x 8", 4, stock.GrainAlongHeight))
	d, err := layout.OneMore(t.Context(), small, 0, layout.Budget{})
	if !refusedWith(err, layout.SheetSmall) || d != (layout.Difference{}) {
		t.Errorf("one more of none: %+v, %v", d, err)
	}
	if _, alone := layout.Lay(t.Context(), small, layout.Budget{}); err == nil || alone == nil || err.Error() != alone.Error() {
		t.Errorf("the job cannot be placed: %v; one more of it: %v", alone, err)
	}
	small.Except = append(small.Except, "marbled paper")
	small.Materials = nil
	if y, err := layout.HowMany(t.Context(), small, 0, layout.Budget{}); err != nil || !y.Unlimited() {
		t.Errorf("how many without a sheet: %+v, %v", y, err)
	}
}
