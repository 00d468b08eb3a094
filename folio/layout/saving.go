package layout

import (
	"context"
	"iter"
	"slices"

	"boardwrap.example/folio"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
	"boardwrap.example/units/money"
)

// A Tolerance is how far a folio may be changed to save sheets.
type Tolerance struct {
	// Width and Height are how much narrower and lower the covers may become.
	Width, Height units.Length
	// Margin lets the ideal margin of the wrap go down as far as the least.
	Margin bool
	// Panels lets the liner be a piece a board.
	Panels bool
	// Quarter lets the covering change between one piece and quarter style.
	Quarter bool
}

// A Change is one way to change a folio.
type Change uint8

// Changes.
const (
	Narrower      Change = iota // the covers narrower
	Lower                       // the covers lower
	SmallerBoth                 // the covers narrower and lower by the same
	SmallerMargin               // the ideal margin smaller
	LinerInPanels               // the liner a piece a board
	InQuarter                   // covered in quarter style
	InOnePiece                  // covered in one piece
)

// String returns the change in words.
func (c Change) String() string {
	switch c {
	case Narrower:
		return "narrower covers"
	case Lower:
		return "lower covers"
	case SmallerBoth:
		return "narrower and lower covers"
	case SmallerMargin:
		return "a smaller margin"
	case LinerInPanels:
		return "the liner a piece a board"
	case InQuarter:
		return "quarter style"
	case InOnePiece:
		return "a wrap in one piece"
	}
	return "no such change"
}

// A Saving is a change to one folio of a job, in all its copies, with which
// the job takes fewer bought sheets.
type Saving struct {
	folio  int
	change Change
	by     units.Working
	plan   *folio.Plan
	diff   Difference
	names  []string
	less   []int
}

// Folio is the index in Job.Folios.
func (s Saving) Folio() int { return s.folio }

// Change says what changes.
func (s Saving) Change() Change { return s.change }

// By returns what the changed length becomes, as a sum of what it was and what
// it loses: the cover's width, its height (for SmallerBoth the height, and the
// width loses as much) or the ideal margin. It is false for a change of style.
func (s Saving) By() (units.Working, bool) {
	return s.by, s.change <= SmallerMargin
}

// Plan is the folio as changed.
func (s Saving) Plan() *folio.Plan { return s.plan }

// Sheets is how many bought sheets are saved, over all materials.
func (s Saving) Sheets() int { return -s.diff.Bought }

// Price is what the saved sheets cost; it is negative where the sheets that
// are used instead cost more.
func (s Saving) Price() money.Amount {
	m := s.diff.Price
	m.Minor = -m.Minor
	return m
}

// Materials walks the materials of which the number of bought sheets changes,
// and by how many it falls: a negative number is more.
func (s Saving) Materials() iter.Seq2[string, int] {
	return func(yield func(string, int) bool) {
		for i, name := range s.names {
			if !yield(name, s.less[i]) {
				return
			}
		}
	}
}

// Certain reports whether the job as it was is proved to need more sheets than
// the changed one takes. If not, a longer search may save them without the
// change.
func (s Saving) Certain() bool { return s.diff.Certain }

// Savings looks for changes to the folios of a job, one at a time and within
// the tolerance, with which it takes fewer bought sheets. Of a length it gives
// the least change that saves a sheet, and the least that saves as many as the
// whole tolerance does where that is more; lengths change by steps of the
// plan's main ruler. A folio that was refitted to its made-up cover, and one
// that is built around a block, keep their covers; a refitted one is not
// changed at all. What could no longer be built is passed over.
//
// The savings come in the order of the folios and of the Change constants. The
// error is that of [Lay] for the job as it is. The search ends early when the
// budget is spent or the context is done; complete is then false.
func Savings(ctx context.Context, job Job, within Tolerance, budget Budget) (found []Saving, complete bool, err error) {
	var bad check.List
	bad.Allowance("tolerance.width", within.Width)
	bad.Allowance("tolerance.height", within.Height)
	if err := bad.Err(); err != nil {
		return nil, false, err
	}
	s := &saver{ctx: ctx, job: job.clone(), within: within, left: budget.steps()}
	base, err := Lay(ctx, job, Budget{max(1, s.left/4)})
	if err != nil {
		return nil, false, err
	}
	s.left = max(0, s.left-base.steps)
	s.each = max(1, s.left/64)
	s.base = base
	for i, f := range job.Folios {
		if f.Copies == 0 {
			continue
		}
		if _, measured := f.Plan.Measured(); measured {
			continue
		}
		s.folio(i)
		if s.spent() {
			break
		}
	}
	return s.found, !s.spent(), nil
}

// saver looks for savings.
type saver struct {
	ctx        context.Context
	job        Job
	within     Tolerance
	base       *Layout
	left, each int64
	over       bool
	found      []Saving
}

func (s *saver) spent() bool {
	s.over = s.over || s.left <= 0 || s.ctx.Err() != nil
	return s.over
}

// mostTries is how many lengths are built, at most, to find how far a length
// can shrink.
const mostTries = 256

func (s *saver) folio(i int) {
	plan := s.job.Folios[i].Plan
	spec := plan.Spec()
	again, err := folio.Build(spec)
	if err != nil || !alike(again, plan) {
		// The Spec with its defaults filled in is another folio; nothing that
		// is built from it can be compared.
		return
	}
	step := spec.Rulers.Main.Step()
	if (spec.Block.Page == units.Size{}) {
		s.shrink(i, Narrower, s.within.Width, step, spec.Cover.W, spec, func(t *folio.Spec, by units.Length) { t.Cover.W -= by })
		s.shrink(i, Lower, s.within.Height, step, spec.Cover.H, spec, func(t *folio.Spec, by units.Length) { t.Cover.H -= by })
		s.shrink(i, SmallerBoth, min(s.within.Width, s.within.Height), step, spec.Cover.H, spec, func(t *folio.Spec, by units.Length) {
			t.Cover.W -= by
			t.Cover.H -= by
		})
	}
	if s.within.Margin {
		s.shrink(i, SmallerMargin, spec.Margin.Ideal-spec.Margin.Least, step, spec.Margin.Ideal, spec, func(t *folio.Spec, by units.Length) { t.Margin.Ideal -= by })
	}
	if s.within.Panels && plan.LiningStyle() != folio.LiningPanels {
		t := spec
		t.Lining.Rule = folio.LiningPanels
		s.style(i, LinerInPanels, t)
	}
	if s.within.Quarter {
		t, c := spec, InQuarter
		t.Quarter.Rule = folio.QuarterAlways
		if plan.Wrap().Quarter() {
			t.Quarter.Rule, c = folio.QuarterNever, InOnePiece
		}
		s.style(i, c, t)
	}
}

// trial is a change that has been laid out.
type trial struct {
	plan   *folio.Plan
	saving Saving
	sheets int
}

// shrink looks for the least change of a length that saves a sheet, and the
// least that saves as many as the greatest change.
func (s *saver) shrink(i int, c Change, within, step, from units.Length, spec folio.Spec, apply func(*folio.Spec, units.Length)) {
	n := min(int64(within/step), mostTries)
	if n < 1 || s.spent() {
		return
	}
	plans := make([]*folio.Plan, 0, n)
	for k := int64(1); k <= n; k++ {
		t := spec
		by, _ := step.Times(k)
		apply(&t, by)
		p, err := folio.Build(t)
		if err != nil {
			break
		}
		plans = append(plans, p)
	}
	if len(plans) == 0 {
		return
	}
	trials := make([]*trial, len(plans))
	saves := func(k int) int {
		if trials[k] == nil {
			trials[k] = s.try(i, c, plans[k])
		}
		return trials[k].sheets
	}
	all := saves(len(plans) - 1)
	if all < 1 {
		return
	}
	last := -1
	for _, goal := range [...]int{1, all} {
		low, high := -1, len(plans)-1
		for high-low > 1 {
			mid := low + (high-low)/2
			if saves(mid) >= goal {
				high = mid
			} else {
				low = mid
			}
		}
		if high != last && !s.over {
			last = high
			found := trials[high].saving
			by, _ := step.Times(int64(high + 1))
			label := "cover width"
			switch c {
			case Lower, SmallerBoth:
				label = "cover height"
			case SmallerMargin:
				label = "ideal margin"
			}
			found.by = units.Sum(label, spec.Rulers.Main.Notation().Exact(), units.Nearest, units.T("as it is", from), units.N(-1, "", by))
			s.found = append(s.found, found)
		}
		if trials[high].sheets >= all {
			break
		}
	}
}

func (s *saver) style(i int, c Change, spec folio.Spec) {
	if s.spent() {
		return
	}
	p, err := folio.Build(spec)
	if err != nil {
		return
	}
	if t := s.try(i, c, p); t.sheets > 0 {
		s.found = append(s.found, t.saving)
	}
}

// try lays out the job with another plan for one folio. Only the materials of
// which the pieces change are laid out again.
func (s *saver) try(i int, c Change, plan *folio.Plan) *trial {
	out := &trial{plan: plan}
	if s.spent() {
		return out
	}
	job := s.job
	job.Folios = slices.Clone(job.Folios)
	job.Folios[i].Plan = plan
	var bad check.List
	wants, ok := job.gather(&bad)
	if !ok {
		return out
	}
	var sum, was tally
	saving := Saving{folio: i, change: c, plan: plan}
	before := byMaterial(&job, s.base.wants)
	for at, of := range byMaterial(&job, wants) {
		m := job.Materials[at]
		old, _ := s.base.Material(m.Name)
		bought := 0
		switch {
		case len(of) == 0:
		case sameWants(wants, of, s.base.wants, before[at]):
			sum.bought += old.bought
			sum.bound += old.bound
			sum.price.Minor += old.cost.Minor
			bought = old.bought
		default:
			r, steps, err := solve(s.ctx, &job, m, wants, of, s.each)
			s.left = max(0, s.left-steps)
			if err != nil || len(r.result.Short) > 0 {
				return out
			}
			sum.add(r.result, r.price())
			bought = r.result.Ordinary
		}
		if d := old.bought - bought; d != 0 {
			saving.names = append(saving.names, m.Name)
			saving.less = append(saving.less, d)
		}
	}
	was = s.base.tally()
	sum.price.Currency = was.price.Currency
	saving.diff = sum.minus(was)
	saving.diff.Certain = sum.bought < was.bound
	out.saving, out.sheets = saving, saving.Sheets()
	return out
}

// sameWants reports whether two lists want the same pieces of a material.
func sameWants(a []Wanted, of []int, b []Wanted, to []int) bool {
	if len(of) != len(to) {
		return false
	}
	for k := range of {
		x, y := a[of[k]], b[to[k]]
		if x.size != y.size || x.quantity != y.quantity || x.grain != y.grain || x.turn != y.turn {
			return false
		}
	}
	return true
}
