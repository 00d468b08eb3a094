package layout_test

import (
	"context"
	"errors"
	"fmt"
	"testing"

	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units/check"
)

// As many are made as can be laid out one by one, and what one more lacks is told.
// Of small jobs each layout is found whole.
func TestHowManyAgainstLayouts(t *testing.T) {
	jobs := map[string]layout.Job{}
	for _, size := range []string{"12 x 17", "17 x 12", "12 x 12", "25 x 19"} {
		for _, grain := range []stock.SheetGrain{stock.GrainUnknown, stock.GrainAlongWidth, stock.GrainAlongHeight} {
			for n := range 4 {
				jobs[fmt.Sprint(size, " ", grain, " ", n)] = wraps(t, []int{1}, sheets(size, n, grain))
				jobs[fmt.Sprint(size, " ", grain, " ", n, " beside two")] = wraps(t, []int{1, 2}, sheets(size, n, grain))
			}
		}
	}
	for i := range 4 { // one material after the other is scarce
		job := keepsakeJob(t, 1)
		for k := range job.Materials {
			for s := range job.Materials[k].Sheets {
				job.Materials[k].Sheets[s].Count = 9
				if k == i {
					job.Materials[k].Sheets[s].Count = 1
				}
			}
		}
		jobs["little of "+job.Materials[i].Name] = job
		// Only a piece by hand is cut from a further material.
		job.Materials = append(job.Materials[:4:4], layout.Material{Name: "felt", Sheets: []layout.SheetKind{sheets("5 x 5", 1, stock.GrainAlongHeight)}})
		job.Pieces = []layout.LoosePiece{{Name: "pad", Material: "felt", Size: inches("3 x 3"), Quantity: 1 + i%2, Grain: stock.GrainAny}}
		jobs["with a pad, little of "+job.Materials[i].Name] = job
	}
	some, none := 0, 0
	for name, job := range jobs {
		y, err := layout.HowMany(t.Context(), job, 0, layout.Budget{})
		var bad *check.Error
		if errors.As(err, &bad) {
			if _, ok := bad.Find("", layout.SheetSmall); !ok {
				if _, ok = bad.Find("", layout.GrainCross); !ok {
					t.Errorf("%s: %v", name, err)
				}
			}
			continue
		}
		lies := func(n int) (lacks map[string]bool) {
			j := job.More(0, n-1)
			_, err := layout.Lay(t.Context(), j, layout.Budget{})
			var bad *check.Error
			if !errors.As(err, &bad) {
				return nil
			}
			lacks = map[string]bool{}
			for i, m := range j.Materials {
				if _, ok := bad.Find(check.Index("materials", i)+".sheets", layout.NotEnough); ok {
					lacks[m.Name] = true
				}
			}
			return lacks
		}
		n := 0
		lacks := lies(n + 1)
		for ; lacks == nil && n < 40; lacks = lies(n + 1) {
			n++
		}
		if n == 40 {
			t.Fatalf("%s: there is no end of it", name)
		}
		if y.Copies() != n || y.Unlimited() || y.Stopped() || !lacks[y.Limit()] {
			t.Errorf("%s: %d come out, want %d; limit %q, of %v", name, y.Copies(), n, y.Limit(), lacks)
		}
		// Who is stopped sooner has made no more, and does not call less the most.
		for _, k := range [...]int{0, 1, 2, 4, 8} {
			until := endsAfter(k)
			if y, err := layout.HowMany(&until, job, 0, layout.Budget{}); err == nil && (y.Copies() > n || y.Copies() < n && y.Most()) {
				t.Errorf("%s, asked %d times whether to go on: %d come out, the most: %v; want %d", name, k, y.Copies(), y.Most(), n)
			}
		}
		if n == 0 {
			none++
		} else {
			some++
		}
	}
	if some < 30 || none < 10 {
		t.Errorf("some in %d jobs, none in %d", some, none)
	}
}

// An endsAfter has ended once it was asked so often.
type endsAfter int

func (e *endsAfter) Err() error {
	if *e--; *e < 0 {
		return context.Canceled
	}
	return nil
}
