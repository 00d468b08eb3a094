package layout_test

import (
	"context"
	"errors"
	"fmt"
	"testing"

	"boardwrap.example/folio/refit"

	"github.com/google/go-cmp/cmp"

	"boardwrap.example/folio"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

func TestOneMore(t *testing.T) {
	kind := sheets("12 x 17", layout.Unlimited, stock.GrainAlongHeight)
	kind.Price = usd(200)
	// Two wraps of 12 x 8 1/4 come out of each sheet.
	for copies, want := range map[int]int{1: 0, 2: 1, 3: 0, 4: 1} {
		d, err := layout.OneMore(t.Context(), wraps(t, []int{copies}, kind), 0, layout.Budget{})
		if err != nil || d.Bought() != want || d.Price() != usd(200*int64(want)) || !d.Certain() {
			t.Errorf("one more than %d: %+v, %v", copies, d, err)
		}
	}
	if _, err := layout.OneMore(t.Context(), wraps(t, []int{1}, kind), 1, layout.Budget{}); err == nil {
		t.Error("one more of no folio")
	}
}

func TestHowMany(t *testing.T) {
	kind := sheets("12 x 17", 3, stock.GrainAlongHeight)
	job := wraps(t, []int{1}, kind)
	y, err := layout.HowMany(t.Context(), job, 0, layout.Budget{})
	if err != nil || y.Copies() != 6 || !y.Most() || y.Unlimited() || y.Stopped() || y.Limit() != "marbled paper" {
		t.Errorf("%+v, %v", y, err)
	}
	// Five of the other folio take the better part of it: 8 1/4 + 7 1/4 go
	// on one sheet, so two sheets hold 4 of the other and the third one each.
	job = wraps(t, []int{1, 5}, kind)
	y, err = layout.HowMany(t.Context(), job, 0, layout.Budget{})
	if err != nil || y.Copies() != 1 || !y.Most() {
		t.Errorf("beside five others: %+v, %v", y, err)
	}
	job.Materials[0].Sheets[0].Count = layout.Unlimited
	if y, err = layout.HowMany(t.Context(), job, 0, layout.Budget{}); err != nil || !y.Unlimited() {
		t.Errorf("unlimited: %+v, %v", y, err)
	}
	// Unlimited sheets that are too small do not help.
	job = wraps(t, []int{1}, kind)
	job.Materials[0].Sheets = append(job.Materials[0].Sheets, sheets("8 x 8", layout.Unlimited, stock.GrainAlongHeight))
	if y, err = layout.HowMany(t.Context(), job, 0, layout.Budget{}); err != nil || y.Copies() != 6 || y.Unlimited() {
		t.Errorf("small ones unlimited: %+v, %v", y, err)
	}
	// Too small altogether is an error that says so.
	job.Materials[0].Sheets = job.Materials[0].Sheets[1:]
	job.Materials[0].Sheets[0].Count = 4
	_, err = layout.HowMany(t.Context(), job, 0, layout.Budget{})
	var bad *check.Error
	if !errors.As(err, &bad) {
		t.Fatalf("a wrap out of 8 x 8: %v", err)
	}
	if _, ok := bad.Find("", layout.SheetSmall); !ok {
		t.Error(err)
	}
}

// said writes down savings, one a line.
func said(list []layout.Saving) []string {
	var out []string
	for _, s := range list {
		text := ""
		for c, w := range s.Adjustments() {
			if text != "" {
				text += " and "
			}
			text += c.String()
			if w.Label() != "" {
				text += " (" + w.String() + ")"
			}
		}
		text += fmt.Sprintf(": %d", s.Sheets())
		if s.Certain() {
			text += ", certain"
		}
		out = append(out, text)
	}
	return out
}

func TestSavings(t *testing.T) {
	ctx, within := t.Context(), layout.Tolerance{Width: units.Inch / 4, Height: units.Inch / 2, Margin: true, Panels: true, Quarter: true}
	// Wraps of 12 x 8 1/4 in on sheets of 12 x 16: one a sheet. Two go when
	// the wrap is 8 in high: 1/4 in less of cover, or an ideal margin of 7/8.
	// Each change that saves is told once: less of it saves nothing, more of it
	// saves no more, and neither does any other thing beside it.
	kind := sheets("12 x 16", layout.Unlimited, stock.GrainAlongHeight)
	kind.Price = usd(150)
	job := wraps(t, []int{10}, kind)
	want := func(job layout.Job, within layout.Tolerance, want ...string) []layout.Saving {
		t.Helper()
		list, whole, err := layout.Savings(ctx, job, within, layout.Budget{})
		if err != nil || !whole {
			t.Fatal(whole, err)
		}
		if diff := cmp.Diff(want, said(list)); diff != "" {
			t.Error(diff)
		}
		return list
	}
	list := want(job, within,
		"lower covers (cover height 6 in = as it is 6 1/4 in - 1/4 in): 5, certain",
		"a smaller margin (ideal margin 7/8 in = as it is 1 in - 1/8 in): 5, certain")
	s := list[1]
	if s.Price() != usd(750) {
		t.Errorf("saved %v", s.Price())
	}
	try := job
	// The plan that comes with a saving really saves as much.
	try.Folios = []layout.Folio{{Plan: s.Plan(), Copies: 10}}
	if l := lay(t, try); l.Bought() != 5 {
		t.Errorf("the smaller margin takes %d sheets", l.Bought())
	}
	// Of two copies one sheet is saved, by no more of a change than of ten.
	want(job.More(0, -8), within,
		"lower covers (cover height 6 in = as it is 6 1/4 in - 1/4 in): 1, certain",
		"a smaller margin (ideal margin 7/8 in = as it is 1 in - 1/8 in): 1, certain")
	// Wraps of 12 x 8 1/4 on 35 1/4 x 24: four a sheet. Either 1/4 in off the
	// width of a cover (of the 1/2 off the wrap the margins take 1/4, for they
	// may be 1 in again) or 1/4 off its height makes it six, both nine. Seven take two sheets, and one only if both change.
	big := wraps(t, []int{7}, sheets("35 1/4 x 24", layout.Unlimited, stock.GrainAlongHeight))
	want(big, layout.Tolerance{Width: units.Inch / 2, Height: units.Inch / 2},
		"narrower covers (cover width 4 1/4 in = as it is 4 1/2 in - 1/4 in) and lower covers (cover height 6 in = as it is 6 1/4 in - 1/4 in): 1, certain")
	// Thirteen take four; three with either change, two with both.
	want(big.More(0, 6), layout.Tolerance{Width: units.Inch / 2, Height: units.Inch / 2},
		"narrower covers (cover width 4 1/4 in = as it is 4 1/2 in - 1/4 in): 1, certain",
		"lower covers (cover height 6 in = as it is 6 1/4 in - 1/4 in): 1, certain",
		"narrower covers (cover width 4 1/4 in = as it is 4 1/2 in - 1/4 in) and lower covers (cover height 6 in = as it is 6 1/4 in - 1/4 in): 2, certain")
	// Without tolerance there is nothing.
	if list, _, err := layout.Savings(ctx, job, layout.Tolerance{}, layout.Budget{}); err != nil || len(list) != 0 {
		t.Errorf("%d savings without tolerance, %v", len(list), err)
	}
	// A refitted folio is left alone.
	made, err := job.Folios[0].Plan.Refit(refit.Measured{Width: units.MustParse("10 3/8 in"), Height: units.MustParse("6 1/4 in")})
	if err != nil {
		t.Fatal(err)
	}
	try.Folios[0].Plan = made
	if list, _, err := layout.Savings(ctx, try, within, layout.Budget{}); err != nil || len(list) != 0 {
		t.Errorf("%d savings for a made-up cover, %v", len(list), err)
	}
	if _, _, err := layout.Savings(ctx, job, layout.Tolerance{Width: -1}, layout.Budget{}); err == nil {
		t.Error("a negative tolerance")
	}
}

// Liners of 10 x 6 in on sheets of 10 x 12: two a sheet. A liner a board is
// 4 1/4 x 6 in twice (the spine's is bare or its own piece): more go on one.
func TestSavingsByPanels(t *testing.T) {
	job := keepsakeJob(t, 12)
	job.Except = []string{"chipboard", "marbled paper", "card"}
	job.Materials = []layout.Material{{Name: "cream paper", Sheets: []layout.SheetKind{sheets("10 x 9", layout.Unlimited, stock.GrainAlongHeight)}}}
	list, _, err := layout.Savings(t.Context(), job, layout.Tolerance{Panels: true}, layout.Budget{})
	if err != nil {
		t.Fatal(err)
	}
	panels := build(t, func() folio.Spec { s := keepsakeSpec(); s.Lining.Rule = rule.LiningPanels; return s }())
	job2 := job
	job2.Folios = []layout.Folio{{Plan: panels, Copies: 12}}
	a, b := lay(t, job).Bought(), lay(t, job2).Bought()
	if a-b > 0 != (len(list) == 1) || len(list) == 1 && list[0].Sheets() != a-b {
		t.Errorf("%d and %d sheets, savings %v", a, b, list)
	}
}

// Narrower covers and lower ones are each within a tolerance of its own: of the two
// that save a sheet of thirteen wraps (see TestSavings) only that is given for which
// there is leave.
func TestToleranceIsOfItsOwnSide(t *testing.T) {
	job := wraps(t, []int{13}, sheets("35 1/4 x 24", layout.Unlimited, stock.GrainAlongHeight))
	for want, within := range map[layout.Adjustment]layout.Tolerance{layout.Narrower: {Width: units.Inch / 2}, layout.Lower: {Height: units.Inch / 2}} {
		list, whole, err := layout.Savings(t.Context(), job, within, layout.Budget{})
		if err != nil || !whole || len(list) != 1 {
			t.Fatalf("%v: %q, %v, %v", want, said(list), whole, err)
		}
		for c := range list[0].Adjustments() {
			if c != want {
				t.Errorf("%v is given where only %v may be", c, want)
			}
		}
	}
}

// What a sheet costs more than one without a price has the currency of the one that
// has one, whichever comes first.
func TestAgainstUnpriced(t *testing.T) {
	priced := sheets("12 x 12", 1, 0)
	priced.Price = usd(100)
	one := piece("6 x 6", 1, stock.GrainAny, 0)
	dear, free := lay(t, hand(layout.Material{Sheets: []layout.SheetKind{priced}}, one)), lay(t, hand(layout.Material{Sheets: []layout.SheetKind{sheets("12 x 12", 1, 0)}}, one))
	if more, less := dear.Against(free).Price(), free.Against(dear).Price(); more != usd(100) || less != usd(-100) {
		t.Errorf("%v more, and %v the other way round", more, less)
	}
}

// Where every piece fits sheets of which there are as many as needed nothing has to be
// searched: a context that is done is no matter, wherever those sheets stand among
// the others.
func TestHowManyWithoutASearch(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	few, endless := sheets("12 x 17", 3, stock.GrainAlongHeight), sheets("12 x 17", layout.Unlimited, stock.GrainAlongHeight)
	small := sheets("8 x 8", layout.Unlimited, stock.GrainAlongHeight)
	for _, c := range []struct {
		kinds     []layout.SheetKind
		unlimited bool
	}{
		{[]layout.SheetKind{endless}, true}, {[]layout.SheetKind{endless, few}, true}, {[]layout.SheetKind{few, endless}, true},
		{[]layout.SheetKind{few, small}, false}, {[]layout.SheetKind{small, few}, false}, {[]layout.SheetKind{small, endless}, true},
	} {
		job := wraps(t, []int{1}, few)
		job.Materials[0].Sheets = c.kinds
		y, err := layout.HowMany(ctx, job, 0, layout.Budget{})
		if err != nil || y.Unlimited() != c.unlimited || y.Stopped() == c.unlimited || c.unlimited && y.Copies() != layout.MostPieces {
			t.Errorf("%v: %+v, %v", c.kinds, y, err)
		}
	}
}
