package layout_test

import (
	"context"
	"fmt"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"
)

// genEighths makes lengths of so many eighths of an inch.
func genEighths(low, high int) gopter.Gen {
	return proptest.Map(gen.IntRange(low, high), func(n int) units.Length {
		l, _ := (units.Inch / 8).Times(int64(n))
		return l
	})
}

func genSize(low, high int) gopter.Gen {
	return proptest.Map(gopter.CombineGens(genEighths(low, high), genEighths(low, high)), func(v []any) units.Size {
		return units.Size{W: v[0].(units.Length), H: v[1].(units.Length)}
	})
}

// genKind makes a kind of sheet, from 6 to 26 in.
func genKind(most int) gopter.Gen {
	return proptest.Map(gopter.CombineGens(genSize(48, 208), gen.IntRange(-1, most), gen.IntRange(0, 2), gen.Bool(), gen.IntRange(0, 3), gen.Int64Range(0, 500)), func(v []any) layout.SheetKind {
		trim, _ := (units.Inch / 16).Times(int64(v[4].(int)))
		return layout.SheetKind{Size: v[0].(units.Size), Count: v[1].(int), Grain: stock.SheetGrain(v[2].(int)),
			Offcut: v[3].(bool) && v[1].(int) >= 0, Trim: trim, Price: usd(v[5].(int64))}
	})
}

// genPiece makes a piece by hand, from 1/2 to 14 in.
func genPiece(most int) gopter.Gen {
	return proptest.Map(gopter.CombineGens(genSize(4, 112), gen.IntRange(0, most), gen.Bool(), gen.IntRange(0, 2)), func(v []any) layout.LoosePiece {
		p := layout.LoosePiece{Name: "piece", Material: "paper", Size: v[0].(units.Size), Quantity: v[1].(int), Turn: layout.TurnRule(v[3].(int))}
		if v[2].(bool) {
			p.Grain = stock.GrainAny
		}
		return p
	})
}

// genJob makes a job of one material: everything that a job can say about it.
func genJob(kinds, pieces, most int) gopter.Gen {
	return proptest.Map(gopter.CombineGens(gen.SliceOfN(kinds, genKind(4)), gen.SliceOfN(pieces, genPiece(most)), gen.IntRange(0, 4), gen.IntRange(0, 3), genEighths(40, 210)), func(v []any) layout.Job {
		kerf, _ := (units.Inch / 32).Times(int64(v[2].(int)))
		c := layout.Cutter{Kerf: kerf}
		if v[3].(int) == 0 {
			c.LongestCut = v[4].(units.Length)
		}
		return layout.Job{Pieces: v[1].([]layout.LoosePiece), Materials: []layout.Material{{Name: "paper", Sheets: v[0].([]layout.SheetKind)}},
			Cutter: c, Ruler: units.Eighths}
	})
}

// quick lays out with a small budget; the job may be impossible in part.
func quick(job layout.Job) (*layout.Layout, error) {
	return layout.Lay(context.Background(), job, layout.Budget{Steps: 50_000})
}

func TestLayoutProperties(t *testing.T) { layoutProperties(t, 500, 100) }

// layoutProperties lays out many jobs, and a few with the whole budget.
func layoutProperties(t *testing.T, many, few int) {
	t.Helper()
	p := gopter.NewProperties(proptest.Parameters(many))
	p.Property("every layout passes the independent checker", prop.ForAll(func(job layout.Job) string {
		l, err := quick(job)
		if l == nil {
			return "no layout: " + err.Error()
		}
		if (err == nil) != l.Complete() {
			return fmt.Sprint("complete ", l.Complete(), " but error ", err)
		}
		return strings.Join(faults(job, l), "; ")
	}, genJob(3, 5, 9)))
	p.TestingRun(t)
	p = gopter.NewProperties(proptest.Parameters(few))
	p.Property("the same job gives the same bytes", prop.ForAll(func(job layout.Job) string {
		a, errA := quick(job)
		b, errB := quick(job)
		if dump(a) != dump(b) || fmt.Sprint(errA) != fmt.Sprint(errB) {
			return "two runs differ"
		}
		return ""
	}, genJob(2, 3, 5)))
	p.Property("more stock is never worse for a handful of pieces", prop.ForAll(func(job layout.Job, more layout.SheetKind) string {
		more.Offcut = false
		a, _ := layout.Lay(context.Background(), job, layout.Budget{})
		job = apart(job)
		job.Materials[0].Sheets = append(job.Materials[0].Sheets, more)
		b, _ := layout.Lay(context.Background(), job, layout.Budget{})
		switch x, y := short(a), short(b); {
		case y > x:
			return fmt.Sprintf("%d pieces short with more stock, %d before", y, x)
		case y == x && b.Bought() > a.Bought():
			return fmt.Sprintf("%d sheets with more stock, %d before", b.Bought(), a.Bought())
		}
		return ""
	}, genPlain(4), proptest.Map(genKind(3), func(k layout.SheetKind) layout.SheetKind { k.Grain = stock.GrainAlongHeight; return k })))
	p.Property("one piece less never takes more sheets, for a handful", prop.ForAll(func(job layout.Job) string {
		a, errA := layout.Lay(context.Background(), job, layout.Budget{})
		less := job
		less.Pieces = job.Pieces[1:]
		b, errB := layout.Lay(context.Background(), less, layout.Budget{})
		if errA == nil && (errB != nil || b.Bought() > a.Bought()) {
			return fmt.Sprint(b.Bought(), " sheets for less, ", a.Bought(), " for more: ", errB)
		}
		return ""
	}, genPlain(5)))
	p.TestingRun(t)
}

// genPlain makes a job of single pieces without pattern, on sheets of known
// grain.
func genPlain(pieces int) gopter.Gen {
	return proptest.Map(genJob(2, pieces, 1), func(job layout.Job) layout.Job {
		job = apart(job)
		for i := range job.Pieces {
			job.Pieces[i].Turn = layout.QuarterTurn
			job.Pieces[i].Quantity = 1
		}
		for i := range job.Materials[0].Sheets {
			job.Materials[0].Sheets[i].Grain = stock.GrainAlongHeight
		}
		return job
	})
}

// apart is a job that can be changed without another: what a job was made of
// must stay as it is, to be shrunk.
func apart(job layout.Job) layout.Job {
	job.Pieces, job.Materials = slices.Clone(job.Pieces), slices.Clone(job.Materials)
	for i := range job.Materials {
		job.Materials[i].Sheets = slices.Clone(job.Materials[i].Sheets)
	}
	return job
}

func short(l *layout.Layout) int {
	n := 0
	for m := range l.Materials() {
		for s := range m.Short() {
			n += s.Copies()
		}
	}
	return n
}

// cutUp cuts a sheet in edge-to-edge cuts on whole eighths until there are n
// pieces.
func cutUp(r *rand.Rand, s units.Size, n int) []units.Size {
	parts := []units.Size{s}
	for len(parts) < n {
		i := r.Intn(len(parts))
		p := parts[i]
		turn := r.Intn(2) == 0
		if turn {
			p = p.Turned()
		}
		eighths := int64(p.W / (units.Inch / 8))
		if eighths < 2 {
			n-- // too narrow for another cut
			continue
		}
		at, _ := (units.Inch / 8).Times(1 + r.Int63n(eighths-1))
		a, b := units.Size{W: at, H: p.H}, units.Size{W: p.W - at, H: p.H}
		if turn {
			a, b = a.Turned(), b.Turned()
		}
		parts[i] = a
		parts = append(parts, b)
	}
	return parts
}

// Sheets that were cut up without waste are known optima: by area no fewer
// will do, and a handful of pieces must be found and proved.
func TestZeroWaste(t *testing.T) {
	p := gopter.NewProperties(proptest.Parameters(200))
	p.Property("a cut-up sheet goes together again", prop.ForAll(func(seed int64, size units.Size, sheetsUsed, n int) string {
		r := rand.New(rand.NewSource(seed))
		job := layout.Job{Materials: []layout.Material{{Name: "paper", Sheets: []layout.SheetKind{{Size: size, Count: layout.Unlimited, Grain: stock.GrainAlongHeight}}}}, Ruler: units.Eighths}
		for range sheetsUsed {
			for _, s := range cutUp(r, size, max(n/sheetsUsed, 1)) {
				job.Pieces = append(job.Pieces, layout.LoosePiece{Name: "piece", Material: "paper", Size: s, Quantity: 1})
			}
		}
		l, err := layout.Lay(context.Background(), job, layout.Budget{Steps: 20_000_000})
		if err != nil {
			return err.Error()
		}
		if f := faults(job, l); len(f) > 0 {
			return strings.Join(f, "; ")
		}
		m, _ := l.Material("paper")
		if m.Bought() != sheetsUsed || m.Bound() != sheetsUsed || !m.Proved() || m.Areas().Waste().Sign() != 0 || m.Areas().Offcuts().Sign() != 0 {
			return fmt.Sprintf("%d sheets cut into %d pieces: %d used, bound %d, proved %v, waste %v", sheetsUsed, len(job.Pieces), m.Bought(), m.Bound(), m.Proved(), m.Areas().Waste())
		}
		return ""
	}, gen.Int64(), genSize(48, 160), gen.IntRange(1, 3), gen.IntRange(1, 12)))
	p.TestingRun(t)
}

// More tolerance never saves fewer sheets, and what is called certain, or the
// most, holds against a longer search.
func TestToleranceProperties(t *testing.T) { toleranceProperties(t, 40) }

func toleranceProperties(t *testing.T, cases int) {
	t.Helper()
	p := gopter.NewProperties(proptest.Parameters(cases))
	long := layout.Budget{Steps: 3_000_000}
	p.Property("what is called the most is the most, and it can be made", prop.ForAll(func(size units.Size, sheetsThere, others int) string {
		job := wraps(t, []int{0, others}, layout.SheetKind{Size: size, Count: sheetsThere, Grain: stock.GrainAlongHeight})
		y, err := layout.HowMany(context.Background(), job, 0, layout.Budget{Steps: 1000})
		if err != nil {
			return err.Error()
		}
		_, one := layout.Lay(context.Background(), job.More(0, y.Copies()), long)
		_, more := layout.Lay(context.Background(), job.More(0, y.Copies()+1), long)
		switch {
		case y.Unlimited() || y.Limit() != "marbled paper":
			return fmt.Sprintf("%+v", y)
		case y.Copies() > 0 && one != nil:
			return fmt.Sprint(y.Copies(), " cannot be made: ", one)
		case y.Most() && more == nil:
			return fmt.Sprint(y.Copies()+1, " can be made")
		}
		return ""
	}, genSize(98, 260), gen.IntRange(0, 6), gen.IntRange(0, 6)))
	p.Property("a saving is worth more than every smaller change, and certain where it says so", prop.ForAll(func(copies, others int, size units.Size, budget int64) string {
		job := wraps(t, []int{copies, others}, layout.SheetKind{Size: size, Count: layout.Unlimited, Grain: stock.GrainAlongHeight})
		list, whole, err := layout.Savings(context.Background(), job, layout.Tolerance{Width: units.Inch / 4, Height: units.Inch / 4, Margin: true}, layout.Budget{Steps: budget})
		if err != nil {
			return err.Error()
		}
		base, err := layout.Lay(context.Background(), job, long)
		if err != nil {
			return err.Error()
		}
		for i, s := range list {
			if i > 0 && outOfOrder(list[i-1], s) {
				return fmt.Sprintf("%v: %d before %d", said(list), i-1, i)
			}
			with := func(plan *folio.Plan) (int, error) {
				changed := job
				changed.Folios = slices.Clone(job.Folios)
				changed.Folios[s.Folio()].Plan = plan
				l, err := layout.Lay(context.Background(), changed, long)
				return l.Bought(), err
			}
			n, err := with(s.Plan())
			if err != nil {
				return err.Error()
			}
			if s.Certain() && n >= base.Bought() {
				return fmt.Sprintf("%v is certain, but takes %d sheets, %d before", said(list), n, base.Bought())
			}
			if !whole || !base.Proved() {
				continue
			}
			// A step less in any one of the lengths saves less.
			for c := range s.Adjustments() {
				spec := s.Plan().Spec()
				step := spec.Rulers.Main.Step()
				switch c {
				case layout.Narrower:
					spec.Cover.W += step
				case layout.Lower:
					spec.Cover.H += step
				case layout.SmallerMargin:
					spec.Margin.Ideal += step
				}
				less, err := folio.Build(spec)
				if err != nil {
					continue
				}
				if n, err := with(less); err != nil || base.Bought()-n >= s.Sheets() {
					return fmt.Sprintf("%v, but a step less of %v saves %d, %v", said(list), c, base.Bought()-n, err)
				}
			}
		}
		return ""
	}, gen.IntRange(1, 12), gen.IntRange(0, 12), genSize(98, 260), gen.Int64Range(1_000_000, 5_000_000)))
	p.Property("more tolerance never saves less", prop.ForAll(func(copies int, size units.Size, a, b units.Length) string {
		job := wraps(t, []int{copies}, layout.SheetKind{Size: size, Count: layout.Unlimited, Grain: stock.GrainAlongHeight})
		most := func(tolerance units.Length) (int, string) {
			list, whole, err := layout.Savings(context.Background(), job, layout.Tolerance{Width: tolerance, Height: tolerance}, layout.Budget{Steps: 50_000_000})
			if err != nil || !whole {
				return 0, fmt.Sprint("not whole: ", err)
			}
			n := 0
			for _, s := range list {
				n = max(n, s.Sheets())
				if s.Sheets() < 1 {
					return 0, "a saving of nothing"
				}
			}
			return n, ""
		}
		x, bad := most(min(a, b))
		if bad != "" {
			return bad
		}
		y, bad := most(max(a, b))
		if bad == "" && y < x {
			bad = fmt.Sprintf("%d sheets saved within %v, %d within %v", x, min(a, b), y, max(a, b))
		}
		return bad
	}, gen.IntRange(1, 6), genSize(98, 160), genEighths(0, 4), genEighths(0, 4)))
	p.TestingRun(t)
}

// outOfOrder reports whether two savings are not told in the order of the folios and of the
// constants.
func outOfOrder(a, b layout.Saving) bool {
	changes := func(s layout.Saving) (list []layout.Adjustment) {
		for c := range s.Adjustments() {
			list = append(list, c)
		}
		return list
	}
	x, y := changes(a), changes(b)
	return a.Folio() > b.Folio() || a.Folio() == b.Folio() && len(x) == len(y) && slices.Compare(x, y) > 0
}

// Twenty wraps on sheets of 16 7/8 by 29 1/4 in: with a margin of 9/16 in they go
// into a sheet less, as a long search finds too, and no wider one does. A search of a
// million steps has but a few thousand for each layout.
func TestSavingsInFewSteps(t *testing.T) {
	size := units.Size{W: 135 * units.Inch / 8, H: 117 * units.Inch / 4}
	job := wraps(t, []int{8, 12}, layout.SheetKind{Size: size, Count: layout.Unlimited, Grain: stock.GrainAlongHeight})
	within := layout.Tolerance{Width: units.Inch / 4, Height: units.Inch / 4, Margin: true}
	for _, steps := range []int64{1_000_000, 5_000_000, 20_000_000} {
		list, whole, err := layout.Savings(t.Context(), job, within, layout.Budget{Steps: steps})
		if err != nil || !whole || len(list) == 0 {
			t.Fatalf("%d steps: %d savings, whole %t, %v", steps, len(list), whole, err)
		}
		for change, w := range list[0].Adjustments() {
			if change != layout.SmallerMargin || w.Length() != 9*units.Inch/16 {
				t.Errorf("%d steps: %v, %v", steps, change, w)
			}
		}
	}
}
