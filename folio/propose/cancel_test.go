package propose_test

import (
	"context"
	"errors"
	"runtime/metrics"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/propose"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// A watch is a context that ends after it was asked so many times, and notes how
// much is made between two times, and how often it is asked after its end.
type watch struct {
	context.Context
	asked, until, after int
	last, most          uint64 // objects that were made
}

func made() uint64 {
	s := []metrics.Sample{{Name: "/gc/heap/allocs:objects"}}
	metrics.Read(s)
	return s[0].Value.Uint64()
}

func (w *watch) Err() error {
	now := made()
	if w.asked > 0 && now > w.last {
		w.most = max(w.most, now-w.last)
	}
	w.asked++
	over := w.until > 0 && w.asked > w.until
	if over {
		w.after++
	}
	w.last = made()
	if over {
		return context.Canceled
	}
	return nil
}

// Every search asks often whether its context has ended, and ends soon after: no
// more than some plans are worked out in between. Neither is a matter of the clock:
// a plan of a dozen fittings makes some thousand objects in less than a
// millisecond, so 100,000 of them are made in well under 100 ms.
func TestEverySearchStops(t *testing.T) {
	photo := pocket.Content{Name: "photo", Size: units.Size{W: 101 * mm, H: 152 * mm}, Thickness: mm / 4}
	crowd := metric()
	crowd.Cover, crowd.Spine = units.Size{W: 300 * mm, H: 300 * mm}, rule.Spine{Width: 30 * mm}
	plan, err := folio.Build(crowd)
	if err != nil {
		t.Fatal(err)
	}
	sheets := crowd
	sheets.Covering.Sheets = []stock.Sheet{{Size: units.Size{W: 1000 * mm, H: 700 * mm}}}
	large, err := folio.Build(sheets)
	if err != nil {
		t.Fatal(err)
	}
	covers := make([]units.Size, 500)
	for i := range covers {
		covers[i] = crowd.Cover.Plus(mm*units.Length(i), 0)
	}
	var contents []pocket.Content
	for i := range 8 {
		c := photo
		c.Size.W += mm * units.Length(i)
		contents = append(contents, c)
	}
	for name, search := range map[string]func(ctx context.Context) error{
		"smallest": func(ctx context.Context) error {
			s := crowd
			s.Cover, s.Spine = units.Size{}, rule.Spine{}
			_, err := fit.Smallest(ctx, s, fit.Budget{}, photo, pocket.IDCard())
			return err
		},
		"all": func(ctx context.Context) error {
			_, err := fit.Of(plan).All(ctx, fit.Budget{}, contents...)
			return err
		},
		"in fittings": func(ctx context.Context) error {
			_, err := fit.Of(plan).InFittings(ctx, fit.Budget{}, contents...)
			return err
		},
		"where": func(ctx context.Context) error {
			for range fit.Of(plan).Where(ctx, fit.Budget{}, photo) {
			}
			return nil
		},
		"largest": func(ctx context.Context) error {
			_, err := fit.Largest(ctx, sheets, crowd.Cover)
			return err
		},
		"family": func(ctx context.Context) error {
			_, err := fit.FamilyOf(ctx, crowd, covers...)
			return err
		},
		"layout": func(ctx context.Context) error {
			job := layout.Job{Folios: []layout.Folio{{Plan: large, Copies: 20}}, Materials: layout.MaterialsOf(large)}
			for i := range job.Materials {
				job.Materials[i].Sheets = []layout.SheetKind{{Size: units.Size{W: 1000 * mm, H: 1400 * mm}, Count: layout.Unlimited}}
			}
			_, err := layout.Lay(ctx, job, layout.Budget{Steps: 500_000})
			return err
		},
		"proposals": func(ctx context.Context) error {
			r := propose.Request{Things: usualThings(t), Case: metric()}
			r.Case.Board.Sheets = []stock.Sheet{{Size: units.Size{W: 700 * mm, H: 1000 * mm}}}
			_, err := propose.Folios(ctx, r, propose.Budget{Steps: 3_000_000})
			return err
		},
	} {
		whole := &watch{Context: context.Background()}
		if err := search(whole); err != nil && name != "in fittings" && name != "all" {
			t.Errorf("%s: %v", name, err)
		}
		if whole.most > 100_000 {
			t.Errorf("%s: up to %d objects are made before it asks again", name, whole.most)
		}
		for _, until := range []int{1, whole.asked / 3, whole.asked * 9 / 10} {
			if until < 1 {
				continue
			}
			cut := &watch{Context: context.Background(), until: until}
			before := made()
			err := search(cut)
			t.Logf("%s: asked %d times of %d, then %d; up to %d objects between; %v", name, until, whole.asked, cut.after, whole.most, err)
			if cut.after > 200 || made()-before > 400_000 && until == 1 || cut.most > 100_000 {
				t.Errorf("%s: %d times asked after its end, %d objects made between", name, cut.after, cut.most)
			}
			if err != nil && !errors.Is(err, context.Canceled) && name != "in fittings" && name != "all" {
				t.Errorf("%s: %v", name, err)
			}
		}
	}
}

// A context that ends among the forms leaves those that were not begun, and says so of
// them.
func TestContextEndsAmongForms(t *testing.T) {
	r := propose.Request{Things: []propose.Thing{{Content: pocket.IDCard()}}, Forms: propose.AnyForm()}
	w := &watch{Context: t.Context(), until: 20}
	a, err := propose.Folios(w, r, propose.Budget{})
	if err != nil {
		t.Fatal(err)
	}
	best, ok := a.Of(propose.Smallest)
	if !ok || best.Complete() {
		t.Fatal("what was found is not there, or said to be the best of all forms")
	}
	untried := 0
	for o := range best.OtherForms() {
		for why := range o.Why() {
			if _, ok := o.Proposal(); why.Cause == propose.NotTried && !ok && !o.Complete() && why.Text(a.Notation()) == "The search ended before any folio was tried." {
				untried++
			}
		}
	}
	if untried < len(r.Forms)/2 || w.after > 200 {
		t.Errorf("%d of %d forms are left, and it is asked %d times after the end", untried, len(r.Forms), w.after)
	}
}
