package layout_test

import (
	"context"
	"errors"
	"fmt"
	"math/rand"
	"runtime"
	"slices"
	"strings"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A clock is a context that is done after so many looks at it, the same on every
// machine, and counts how often it is looked at afterwards.
type clock struct {
	context.Context
	left, late int
}

func (c *clock) Err() error {
	if c.left--; c.left >= 0 {
		return nil
	}
	c.late++
	return context.DeadlineExceeded
}

// big is a job of so many pieces of so many kinds, from so many kinds of sheet.
func big(pieces, kinds, sheetKinds int) layout.Job {
	r := rand.New(rand.NewSource(4))
	between := func(low, high units.Length) units.Length {
		l, _ := units.Of(low.Nanometres()+r.Int63n((high-low).Nanometres()), units.Nanometre)
		return l
	}
	job := layout.Job{Materials: []layout.Material{{Name: "paper"}}}
	for range sheetKinds {
		job.Materials[0].Sheets = append(job.Materials[0].Sheets, layout.SheetKind{Count: layout.Unlimited,
			Size: units.Size{W: between(units.Metre/2, units.Metre), H: between(units.Metre/2, units.Metre)}})
	}
	for i := range kinds {
		job.Pieces = append(job.Pieces, layout.LoosePiece{Name: "label", Material: "paper", Quantity: pieces / kinds, Grain: stock.GrainRule(i % 2),
			Size: units.Size{W: between(units.Metre/20, units.Metre/4), H: between(units.Metre/20, units.Metre/4)}})
	}
	return job
}

// plain is the work that a job takes whatever its budget: a plain layout in two
// directions of the grain and what lacks, in a fixed measure for each piece.
func plain(job layout.Job) int64 {
	n := len(job.Pieces)
	for _, p := range job.Pieces {
		n += p.Quantity
	}
	for _, m := range job.Materials {
		n += len(m.Sheets)
	}
	return 4*20_000 + 4*200*int64(n) + 2_000_000
}

// A context that ends at any time ends the search, and what is laid out is whole
// and sound.
func TestContextEnds(t *testing.T) {
	for _, job := range []layout.Job{keepsakeJob(t, 17), big(900, 90, 3), big(400, 400, 1)} {
		for _, looks := range []int{0, 1, 5, 60} {
			c := &clock{Context: t.Context(), left: looks}
			l, err := layout.Lay(c, job, layout.Budget{Steps: 1 << 50})
			if err != nil || !l.Complete() || looks == 0 && !l.Stopped() {
				t.Fatalf("%d looks: %v", looks, err)
			}
			mustHold(t, job, l)
			// A search looks every few tens of thousands of steps.
			if most := int64(looks+8)*100_000 + plain(job); l.Work() > most {
				t.Errorf("%d looks: %d steps, at most %d", looks, l.Work(), most)
			}
			if c.late > 100 {
				t.Errorf("%d looks: %d more after the end", looks, c.late)
			}
		}
	}
}

// So do the searches of many layouts, with what they found until then.
func TestSearchesEnd(t *testing.T) {
	kind := sheets("12 x 17", 40, stock.GrainAlongHeight)
	job := wraps(t, []int{10, 10}, kind)
	within := layout.Tolerance{Width: units.Inch, Height: units.Inch, Margin: true, Panels: true, Quarter: true}
	full, err := layout.HowMany(t.Context(), job, 0, layout.Budget{})
	if err != nil || full.Stopped() {
		t.Fatal(full, err)
	}
	found := 0
	for _, looks := range []int{0, 3, 10, 30, 100, 300, 1000} {
		c := &clock{Context: t.Context(), left: looks}
		y, err := layout.HowMany(c, job, 0, layout.Budget{Steps: 1 << 40})
		if err != nil || y.Copies() > full.Copies() || y.Most() && y.Copies() != full.Copies() || looks == 0 && !y.Stopped() {
			t.Errorf("%d looks: %d copies, most %v, stopped %v, %v", looks, y.Copies(), y.Most(), y.Stopped(), err)
		}
		if y.Stopped() && c.late > 100 {
			t.Errorf("%d looks: %d more after the end", looks, c.late)
		}
		c = &clock{Context: t.Context(), left: looks}
		list, whole, err := layout.Savings(c, job, within, layout.Budget{Steps: 1 << 40})
		if err != nil || whole != (c.late == 0) || c.late > 200 {
			t.Errorf("%d looks: whole %v, %d more after the end, %v", looks, whole, c.late, err)
		}
		if len(list) < found && looks > 0 {
			t.Errorf("%d looks: %d savings, %d before", looks, len(list), found)
		}
		found = len(list)
		c = &clock{Context: t.Context(), left: looks}
		if _, err := layout.OneMore(c, job, 0, layout.Budget{Steps: 1 << 40}); err != nil || c.late > 100 {
			t.Errorf("%d looks: %d more after the end, %v", looks, c.late, err)
		}
	}
}

// Nil is a context that never ends: all comes out as with one that does not.
func TestNoContext(t *testing.T) {
	var none context.Context
	job := wraps(t, []int{3}, sheets("12 x 17", 4, stock.GrainAlongHeight))
	within, b := layout.Tolerance{Width: units.Inch}, layout.Budget{Steps: 1000}
	with := func(ctx context.Context) []any {
		l, err := layout.Lay(ctx, job, b)
		if err != nil || l.Stopped() {
			t.Error(err)
		}
		many, err1 := layout.HowMany(ctx, job, 0, b)
		more, err2 := layout.OneMore(ctx, job, 0, b)
		list, whole, err3 := layout.Savings(ctx, job, within, b)
		return []any{l.Bought(), many.Copies(), more.Bought(), len(list), whole, err1, err2, err3}
	}
	if got, want := fmt.Sprint(with(none)), fmt.Sprint(with(t.Context())); got != want {
		t.Errorf("%s without a context; with one %s", got, want)
	}
}

// The work is a small multiple of the budget, whatever the job and the budget.
func TestBudgetProperty(t *testing.T) { budgetProperty(t, 100) }

func budgetProperty(t *testing.T, cases int) {
	t.Helper()
	p := gopter.NewProperties(proptest.Parameters(cases))
	p.Property("a budget is kept", prop.ForAll(func(job layout.Job, labels int, exponent int) string {
		if len(job.Pieces) > 0 {
			job.Pieces[0].Quantity = labels
		}
		budget := int64(1) << exponent
		l, _ := layout.Lay(context.Background(), job, layout.Budget{Steps: budget})
		if l == nil {
			return "no layout"
		}
		// As they lie and turned, and a plain layout whatever the budget.
		if most := 2*2*budget + plain(job); l.Work() > most {
			return fmt.Sprintf("%d steps with a budget of %d; at most %d", l.Work(), budget, most)
		}
		return ""
	}, genJob(3, 4, 9), gen.IntRange(0, 3000), gen.IntRange(0, 22)))
	p.TestingRun(t)
}

// More steps never give a worse layout, whatever the materials leave to each
// other of the budget.
func TestMoreStepsAreNeverWorse(t *testing.T) {
	several := proptest.Map(gopter.CombineGens(genJob(2, 8, 40), genJob(2, 8, 9), genJob(1, 6, 20)), func(v []any) layout.Job {
		job := apart(v[0].(layout.Job))
		for k := 1; k < len(v); k++ {
			other := apart(v[k].(layout.Job))
			name := fmt.Sprint("paper ", k)
			other.Materials[0].Name = name
			for _, p := range other.Pieces {
				p.Material = name
				job.Pieces = append(job.Pieces, p)
			}
			job.Materials = append(job.Materials, other.Materials[0])
		}
		return job
	})
	p := gopter.NewProperties(proptest.Parameters(25))
	p.Property("more steps are never worse", prop.ForAll(func(job layout.Job) string {
		var last *layout.Layout
		for steps := int64(1); steps < 5_000_000; steps = steps*7/2 + 1_000 {
			l, _ := layout.Lay(context.Background(), job, layout.Budget{Steps: steps})
			if l == nil {
				return "no layout"
			}
			if last != nil {
				if s := worseThan(l, last); s != "" {
					return fmt.Sprintf("%d steps: %s", steps, s)
				}
			}
			last = l
		}
		return ""
	}, several))
	p.TestingRun(t)
}

// worseThan says in which material a layout is worse than another.
func worseThan(l, than *layout.Layout) string {
	for m := range l.Materials() {
		o, _ := than.Material(m.Name())
		short := func(m layout.Laid) (n int) {
			for s := range m.Short() {
				n += s.Copies()
			}
			return n
		}
		a, b := [3]int64{int64(short(m)), int64(m.Bought()), m.Price().Minor}, [3]int64{int64(short(o)), int64(o.Bought()), o.Price().Minor}
		if slices.Compare(a[:], b[:]) > 0 {
			return fmt.Sprintf("%s: pieces short, sheets bought and price %v, with fewer %v", m.Name(), a, b)
		}
	}
	return ""
}

// Progress rises from nothing to the whole, names every material, and its last
// count of sheets is that of the layout.
func TestProgress(t *testing.T) {
	job := keepsakeJob(t, 40)
	wrapsJob := wraps(t, []int{9, 4}, sheets("12 x 17", 10, stock.GrainAlongHeight))
	for name, search := range map[string]func(layout.Budget) error{
		"Lay": func(b layout.Budget) error { _, err := layout.Lay(t.Context(), job, b); return err },
		"OneMore": func(b layout.Budget) error {
			_, err := layout.OneMore(t.Context(), wrapsJob, 0, b)
			return err
		},
		"HowMany": func(b layout.Budget) error {
			_, err := layout.HowMany(t.Context(), wrapsJob, 0, b)
			return err
		},
		"Savings": func(b layout.Budget) error {
			_, _, err := layout.Savings(t.Context(), wrapsJob, layout.Tolerance{Width: units.Inch, Margin: true}, b)
			return err
		},
	} {
		var seen []layout.Progress
		err := search(layout.Budget{Steps: 20_000_000, Report: func(p layout.Progress) { seen = append(seen, p) }})
		if err != nil || len(seen) < 2 {
			t.Errorf("%s: %d reports, %v", name, len(seen), err)
			continue
		}
		last := 0.0
		for i, p := range seen {
			n, ok := p.Best()
			if p.Share() < last || p.Share() > 1 || ok && p.Bound() > n || (p.Material() == "") != (i == len(seen)-1) {
				t.Errorf("%s: report %d of %d: %v of %q, best %d, bound %d", name, i, len(seen), p.Share(), p.Material(), n, p.Bound())
			}
			last = p.Share()
		}
		if last != 1 {
			t.Errorf("%s ends at %v", name, last)
		}
	}
	best := map[string]int{}
	l, err := layout.Lay(t.Context(), job, layout.Budget{Report: func(p layout.Progress) {
		if n, ok := p.Best(); ok {
			best[p.Material()] = n
		}
	}})
	if err != nil {
		t.Fatal(err)
	}
	for m := range l.Materials() {
		// Of two directions of an unknown grain the second was the last.
		if _, unknown := m.Assumed(); !unknown && best[m.Name()] != m.Bought() {
			t.Errorf("%s: %d in the last report, %d bought", m.Name(), best[m.Name()], m.Bought())
		}
	}
}

// A negative budget is a slip; so is a folio of which no copies are said.
func TestSlips(t *testing.T) {
	job := keepsakeJob(t, 1)
	for name, search := range map[string]func(layout.Budget) error{
		"Lay":     func(b layout.Budget) error { _, err := layout.Lay(t.Context(), job, b); return err },
		"OneMore": func(b layout.Budget) error { _, err := layout.OneMore(t.Context(), job, 0, b); return err },
		"HowMany": func(b layout.Budget) error { _, err := layout.HowMany(t.Context(), job, 0, b); return err },
		"Savings": func(b layout.Budget) error {
			_, _, err := layout.Savings(t.Context(), job, layout.Tolerance{}, b)
			return err
		},
	} {
		var bad *check.Error
		if err := search(layout.Budget{Steps: -5}); !errors.As(err, &bad) {
			t.Errorf("%s takes a budget of -5", name)
		} else if _, ok := bad.Find("budget.steps", check.Negative); !ok || bad.Len() != 1 {
			t.Errorf("%s: %v", name, err)
		}
	}
	paths := func(job layout.Job) []string {
		l, err := layout.Lay(t.Context(), job, layout.Budget{Steps: 1})
		if err != nil {
			t.Fatal(err)
		}
		var list []string
		for w := range l.Warnings() {
			if w.Code == layout.WarnNone {
				list = append(list, w.Path)
			}
		}
		return list
	}
	job.Folios = append(job.Folios, layout.Folio{Plan: job.Folios[0].Plan})
	job.Pieces = []layout.LoosePiece{{Name: "tag", Material: "card", Size: inches("1 x 2")}}
	if got := fmt.Sprint(paths(job)); got != "[folios[1].copies pieces[0].quantity]" {
		t.Errorf("warned of %s", got)
	}
	job.Folios[1].Copies, job.Pieces[0].Quantity = layout.NoCopies, layout.NoCopies
	if got := paths(job); len(got) > 0 {
		t.Errorf("warned of %v", got)
	}
	if got := paths(job.One(0)); len(got) > 0 {
		t.Errorf("one alone: warned of %v", got)
	}
	if n := job.More(0, -7).Folios[0].Copies; n != layout.NoCopies {
		t.Errorf("seven less than one are %d", n)
	}
	if n := job.More(1, 2).Folios[1].Copies; n != 2 {
		t.Errorf("two more than none are %d", n)
	}
}

// However much is wrong, the error stays short and says how much more there is.
func TestWrongWithoutEnd(t *testing.T) {
	job := func(materials, kinds int) layout.Job {
		var job layout.Job
		for i := range materials {
			m := layout.Material{Name: fmt.Sprint("paper ", i)}
			for range kinds {
				m.Sheets = append(m.Sheets, layout.SheetKind{Size: units.Size{W: -1, H: -1}, Trim: -1, Grain: 9, Count: -7})
			}
			job.Materials = append(job.Materials, m)
		}
		return job
	}
	var bad *check.Error
	_, err := layout.Lay(t.Context(), job(100, 1000), layout.Budget{})
	if !errors.As(err, &bad) || bad.Len() != 500_000 || bad.More() != 500_000-100 || len(err.Error()) > 1<<15 {
		t.Errorf("%d wrong, %d more, %d bytes", bad.Len(), bad.More(), len(err.Error()))
	}
	_, err = layout.Lay(t.Context(), job(1000, 1000), layout.Budget{})
	if !errors.As(err, &bad) || bad.Len() != 1 {
		t.Fatalf("a million kinds of sheet: %v", err)
	}
	if _, ok := bad.Find("materials.sheets", check.TooMany); !ok {
		t.Error(err)
	}
}

// A search that is cut short in one direction of an unknown grain says that it
// does not know about the other.
func TestCutShortInOneDirection(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	job := hand(layout.Material{Sheets: []layout.SheetKind{sheets("12 x 9", 9, stock.GrainUnknown)}}, piece("8 x 8", 3, stock.GrainParallel, layout.QuarterTurn))
	l, err := layout.Lay(ctx, job, layout.Budget{})
	if err != nil || !l.Complete() || !l.Stopped() {
		t.Fatal(err)
	}
	said := ""
	for w := range l.Warnings() {
		if w.Code == layout.WarnGrain {
			said = w.Text
		}
	}
	if !strings.Contains(said, "the same pieces may take more sheets") || strings.Contains(said, "instead of") {
		t.Errorf("warned: %q", said)
	}
}

// 100,000 pieces of 10,000 kinds over ten kinds of sheet, budget 1, cancelled: laid
// out whole, and within 64 MiB all allocations together. What one more copy takes, and
// what changes save, is counted without a sheet being written: it is within as much for
// two layouts, and for the one that there is time for within less.
func TestCancelledLargeJobStaysSmall(t *testing.T) {
	job := big(100_000, 10_000, 10)
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	allocated := func(most uint64, search func() error) {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		err := search()
		runtime.ReadMemStats(&after)
		if n := (after.TotalAlloc - before.TotalAlloc) >> 20; n > most || err != nil {
			t.Errorf("%d MiB allocated, at most %d: %v", n, most, err)
		}
	}
	var l *layout.Layout
	allocated(64, func() (err error) {
		l, err = layout.Lay(ctx, job, layout.Budget{Steps: 1})
		return err
	})
	if !l.Stopped() || !l.Complete() {
		t.Fatalf("stopped %v, complete %v", l.Stopped(), l.Complete())
	}
	pieces := 0
	for s := range l.Sheets() {
		for _, p := range s.Parts() {
			if p.Use() == layout.PieceUse {
				pieces += s.Times()
			}
		}
	}
	if pieces != 100_000 {
		t.Errorf("%d pieces laid", pieces)
	}
	made := wraps(t, []int{2}, sheets("12 x 16", layout.Unlimited, stock.GrainAlongHeight))
	job.Folios, job.Except, job.Materials[0].Name = made.Folios, made.Except, made.Materials[0].Name
	job.Pieces = job.Pieces[:9_990]
	for i := range job.Pieces {
		job.Pieces[i].Material = job.Materials[0].Name
	}
	allocated(64, func() error { _, err := layout.OneMore(ctx, job, 0, layout.Budget{}); return err })
	allocated(40, func() error {
		_, complete, err := layout.Savings(ctx, job, layout.Tolerance{Width: units.Inch}, layout.Budget{})
		if complete {
			t.Error("savings are said to be complete")
		}
		return err
	})
}

func BenchmarkCancelled(b *testing.B) {
	job := big(100_000, 10_000, 10)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := layout.Lay(ctx, job, layout.Budget{Steps: 1}); err != nil {
			b.Fatal(err)
		}
	}
}

// A material of which nothing is cut takes nothing of the budget from the one that is laid
// out.
func TestIdleMaterialsTakeNoSteps(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	job := wraps(t, []int{1}, sheets("40 x 30", 1, stock.GrainAlongHeight))
	for i, s := range append(cutUp(r, inches("12 x 21 3/4"), 8), cutUp(r, inches("28 x 30"), 20)...) {
		job.Pieces = append(job.Pieces, layout.LoosePiece{Name: fmt.Sprint("piece ", i), Material: "marbled paper", Size: s, Quantity: 1})
	}
	searched := func() (shares []float64) {
		_, _ = layout.Lay(t.Context(), job, layout.Budget{Steps: 200_000, Report: func(p layout.Progress) {
			shares = append(shares, p.Share())
		}})
		return shares
	}
	alone := searched()
	job.Materials = append(job.Materials, layout.Material{Name: "tin", Sheets: []layout.SheetKind{sheets("40 x 40", 1, 0)}})
	if with := searched(); !slices.Equal(with, alone) || len(with) < 3 {
		t.Errorf("the search took %v of the budget, and %v beside a material of which nothing is cut", alone, with)
	}
}
