package layout

import (
	"math/rand/v2"
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// tenWraps is the search for savings of ten folios out of sheets of covering and liner, of
// which each takes one: two wraps come out of a sheet where covers are 3 mm lower.
func tenWraps(t *testing.T) *saver {
	t.Helper()
	mm := units.Millimetre
	plan, err := folio.Build(folio.Spec{
		Cover: units.Size{W: 100 * mm, H: 150 * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Margin: rule.Margin{Ideal: 20 * mm, Least: 19 * mm}, Covering: stock.Stock{Name: "cloth"}, Liner: stock.Stock{Name: "paper"},
	})
	if err != nil {
		t.Fatal(err)
	}
	job := Job{Folios: []Folio{{Plan: plan, Copies: 10}}}
	for _, m := range MaterialsOf(plan) {
		switch m.Name {
		case "cloth":
			size := plan.Wrap().Size()
			size.H = 2 * (size.H - 3*mm)
			m.Sheets = []SheetKind{{Size: size, Grain: stock.GrainAlongHeight, Count: Unlimited}}
		case "paper":
			m.Sheets = []SheetKind{{Size: units.Size{W: 250 * mm, H: 200 * mm}, Grain: stock.GrainAlongHeight, Count: Unlimited}}
		default:
			job.Except = append(job.Except, m.Name)
			continue
		}
		job.Materials = append(job.Materials, m)
	}
	m := newMeter(t.Context(), Budget{}, leastSearch)
	m.counting = true
	s := &saver{meter: m, job: job.clone(), trials: map[alteration]*Saving{}}
	var bad check.List
	if s.base = m.all(job, &bad, m.total/4); bad.Len() > 0 || s.base.Bought() != 20 {
		t.Fatalf("%v: %v", s.base, bad.Err())
	}
	s.each = m.left / 128
	ok := false
	if s.a, ok = newAlterer(plan, Tolerance{Width: 20 * mm, Height: 20 * mm, Margin: true}); !ok {
		t.Fatal("it cannot be changed")
	}
	return s
}

// A change is made smaller for as long as that saves as much: whatever saves five sheets
// of wraps, down to 3 mm of height.
func TestSmallerAsFarAsItGoes(t *testing.T) {
	for _, by := range []alteration{{Lower: 3}, {Lower: 9}, {Narrower: 5, Lower: 7}, {Narrower: 1, Lower: 3}} {
		s := tenWraps(t)
		if n := s.saves(by); n != 5 {
			t.Fatalf("%v saves %d", by, n)
		}
		if got := s.smaller(by); got != (alteration{Lower: 3}) {
			t.Errorf("%v is made as small as %v", by, got)
		}
	}
}

// Where the layout of what changes is proved, no layout saves more than it does, also where
// the other materials stay as they are. It is certain where the job is proved to take more
// sheets than it does with the change, be it proved to take as many as it does or not.
func TestWhatATrialSaves(t *testing.T) {
	for _, bound := range []int{10, 8, 6, 5, 4} { // of the wraps as they are
		s := tenWraps(t)
		for i := range s.base.materials {
			if m := &s.base.materials[i]; m.Name() == "cloth" {
				m.bound = bound
			}
		}
		for _, by := range []alteration{{Lower: 3}, {SmallerMargin: 1}, {Lower: 4, SmallerMargin: 1}} {
			saving := s.try(s.a.build(by), s.each)
			want := 5
			if by[Lower] == 0 { // 2 mm are too little
				want = 0
			}
			if saving == nil || saving.Sheets() != want || saving.most != want || saving.Certain() != (10-want < bound) {
				t.Errorf("%v, where wraps are proved to take %d of 10 sheets: %+v", by, bound, saving)
			}
		}
	}
}

// Two changes are given together only where they save a sheet, whatever each of them takes
// by itself, and more than either saves.
func TestPairSavesSomething(t *testing.T) {
	for _, c := range []struct{ single, both int }{{-1, -1}, {-1, 0}, {-2, 0}, {0, 0}, {-1, 1}, {0, 1}, {1, 1}, {1, 2}, {-3, 2}} {
		s := tenWraps(t)
		by := alteration{Narrower: 1, Lower: 1}
		s.a.most = by
		s.trials[by] = &Saving{diff: Difference{bought: -c.both}}
		list := s.pair(nil, int(Narrower), int(Lower), c.single)
		if (len(list) > 0) != (c.both > 0 && c.both > c.single) || len(list) > 0 && list[0] != by {
			t.Errorf("%d alone, %d together: %v", c.single, c.both, list)
		}
	}
}

// What is found is reported one change before two, and those in the order of the ways,
// however it was found, each once.
func TestSavingsInOrder(t *testing.T) {
	want := []alteration{{Narrower: 1}, {Lower: 1}, {SmallerMargin: 1}, {Narrower: 1, Lower: 1}, {Narrower: 1, SmallerMargin: 1}, {Lower: 1, SmallerMargin: 1}}
	r := rand.New(rand.NewPCG(16, 2))
	for range 6 {
		s := tenWraps(t)
		var list []alteration
		for _, i := range append(r.Perm(len(want)), r.Perm(len(want))...) {
			list = append(list, want[i])
			n := 1
			if i > 2 { // more than each by itself
				n = 2
			}
			s.trials[want[i]] = &Saving{diff: Difference{bought: -n}, most: n, less: []int{i}}
		}
		s.report(list)
		var got []int
		for _, f := range s.found {
			got = append(got, f.less[0])
		}
		if !slices.Equal(got, []int{0, 1, 2, 3, 4, 5}) {
			t.Errorf("%v comes in the order %v", list, got)
		}
	}
}
