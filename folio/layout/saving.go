package layout

import (
	"iter"
	"slices"

	"boardwrap.example/score"

	"boardwrap.example/folio"
	"boardwrap.example/internal/inorder"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
	"boardwrap.example/units/money"
)

// A Tolerance is how far a folio may be changed to save sheets.
type Tolerance struct {
	// Width and Height are how much narrower and lower the covers may become;
	// 0 leaves them as they are.
	Width, Height units.Length
	// Margin lets the ideal margin of the wrap go down as far as the least.
	Margin bool
	// Panels lets the liner be a piece a board.
	Panels bool
	// Quarter lets the covering change between one piece and quarter style.
	Quarter bool
}

// A Saving is a change to one folio of a job, or two together, in all its
// copies, with which the job takes fewer bought sheets.
type Saving struct {
	folio    int
	changes  []Adjustment
	workings []units.Working
	plan     *folio.Plan
	diff     Difference
	names    []string
	less     []int
	most     int // no layout with the change saves more
}

// Folio is the index in Job.Folios.
func (s Saving) Folio() int { return s.folio }

// Adjustments walks what changes, one thing or two that only save together, in the
// order of the constants. With each comes what the changed length becomes, as a
// sum of what it was and what it loses: the cover's width, its height or the
// ideal margin; for a change of style the zero Working.
func (s Saving) Adjustments() iter.Seq2[Adjustment, units.Working] {
	return func(yield func(Adjustment, units.Working) bool) {
		for i, c := range s.changes {
			if !yield(c, s.workings[i]) {
				return
			}
		}
	}
}

// Plan is the folio as changed.
func (s Saving) Plan() *folio.Plan { return s.plan }

// Sheets is how many bought sheets are saved, over all materials.
func (s Saving) Sheets() int { return -s.diff.bought }

// Price is what the saved sheets cost; it is negative where the sheets that
// are used instead cost more.
func (s Saving) Price() money.Amount {
	m := s.diff.price
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
func (s Saving) Certain() bool { return s.diff.certain }

// Savings looks for changes to the folios of a job, within the tolerance, with
// which it takes fewer bought sheets. Of a length it gives the least change that
// saves a sheet, and the least that saves as many as the whole tolerance does
// where that is more; lengths change by steps of the plan's main ruler. Two
// changes at once are given where they save more than either does within the
// tolerance. Every change that is given saves more than any smaller one: less of
// it, or one of two. A folio that was refitted to its made-up cover is not
// changed at all, and one that is built around a block keeps its covers. What
// could no longer be built is passed over.
//
// The savings come in the order of the folios and of the Adjustment constants. The
// error is that of [Lay] for the job as it is. The search ends early when the
// budget is spent or the Stopper has ended; complete is then false.
func Savings(until score.Stopper, job Job, within Tolerance, budget Budget) (found []Saving, complete bool, err error) {
	var bad check.List
	bad.In(job.notation())
	bad.Allowance("tolerance.width", within.Width)
	bad.Allowance("tolerance.height", within.Height)
	budget.check(&bad)
	m := newMeter(until, budget, leastSearch)
	m.counting = true
	defer m.end()
	s := &saver{meter: m, job: job.clone()}
	s.base = m.all(job, &bad, m.total/4)
	if err := bad.Err(); err != nil {
		return nil, false, err
	}
	s.each = m.left / 128
	for i, f := range job.Folios {
		if f.Copies <= 0 {
			continue
		}
		if a, ok := newAlterer(f.Plan, within); ok {
			s.folio(i, a)
		}
		if s.over() {
			break
		}
	}
	return s.found, !s.cut, nil
}

// saver looks for savings.
type saver struct {
	*meter
	job   Job
	base  *Layout
	each  int64 // steps for a layout
	cut   bool  // the search ended early
	found []Saving

	// Of the folio in hand:
	at     int
	a      *alterer
	trials map[alteration]*Saving // nil for what cannot be laid out
}

func (s *saver) over() bool {
	s.cut = s.cut || s.spent()
	return s.cut
}

// folio looks for savings by changes to one folio.
func (s *saver) folio(i int, a *alterer) {
	s.at, s.a, s.trials = i, a, map[alteration]*Saving{}
	var list []alteration
	var single [ways]int // what each way saves at most
	for w := range ways {
		most := s.farthest(w)
		a.most[w] = most[w]
		if most[w] == 0 {
			continue
		}
		single[w] = s.saves(most)
		list = s.least(list, w, most, 1, single[w])
	}
	for w := range ways {
		for v := w + 1; v < ways; v++ {
			if a.most[w] == 0 || a.most[v] == 0 || s.over() {
				continue
			}
			list = s.pair(list, w, v, max(single[w], single[v]))
		}
	}
	s.report(list)
}

// farthest is the greatest change in one way: up to it everything can be built.
func (s *saver) farthest(w int) alteration {
	var by alteration
	for by[w] < s.a.most[w] && s.until.Err() == nil {
		by[w]++
		if s.a.build(by) == nil {
			by[w]--
			break
		}
	}
	return by
}

// saves is how many sheets an alteration saves; below 0 if it takes more, or
// cannot be made.
func (s *saver) saves(by alteration) int {
	t, known := s.trials[by]
	if !known {
		if plan := s.a.build(by); plan != nil && !s.over() {
			t = s.try(plan, s.each)
		}
		s.trials[by] = t
	}
	if t == nil {
		return -1
	}
	return t.Sheets()
}

// closely is as saves, but searches longer where a layout may still be found that
// saves more.
func (s *saver) closely(by alteration) int {
	n := s.saves(by)
	t := s.trials[by]
	if t == nil || t.most <= n || s.over() {
		return n
	}
	if u := s.try(t.plan, 16*s.each); u != nil && u.Sheets() > n {
		t, s.trials[by] = u, u
	}
	t.most = t.Sheets() // no longer search is made
	return t.most
}

// least adds the least change in one way that saves so many sheets, and so many,
// within another change.
func (s *saver) least(list []alteration, w int, within alteration, goals ...int) []alteration {
	for _, goal := range goals {
		if goal < 1 || s.saves(within) < goal {
			continue
		}
		by := within
		if by[w] = s.halve(w, within, goal); !s.over() {
			list = append(list, by)
		}
	}
	return list
}

// halve finds the least change in one way with which an alteration still saves
// so many sheets.
func (s *saver) halve(w int, by alteration, goal int) int16 {
	low, high := int16(0), by[w]
	for high-low > 1 && !s.over() {
		by[w] = low + (high-low)/2
		if s.saves(by) >= goal {
			high = by[w]
		} else {
			low = by[w]
		}
	}
	return high
}

// pair looks for two changes that save more together than either does alone.
func (s *saver) pair(list []alteration, w, v, single int) []alteration {
	var by alteration
	by[w], by[v] = s.a.most[w], s.a.most[v]
	less := &by[v]
	if Adjustment(v) > SmallerMargin { // a style is changed or it is not
		less = &by[w]
	}
	for *less > 0 && s.a.build(by) == nil && s.until.Err() == nil {
		*less--
	}
	if *less == 0 {
		return list
	}
	all := s.saves(by)
	for _, goal := range [...]int{max(single, 0) + 1, all} {
		if all < goal {
			break
		}
		least := by
		least[w] = s.halve(w, least, goal)
		if least[v] = s.halve(v, least, goal); !s.over() {
			list = append(list, least)
		}
	}
	return list
}

// report adds what was found, each thing once, and only what saves more than
// every smaller change that was tried.
func (s *saver) report(list []alteration) {
	for i := range list {
		list[i] = s.smaller(list[i])
	}
	order := func(a, b alteration) int {
		for w := range ways {
			if less := min(b[w], 1) - min(a[w], 1); less != 0 {
				return int(less)
			}
		}
		return slices.Compare(a[:], b[:])
	}
	singles := func(a alteration) int {
		n := 0
		for _, k := range a {
			if k > 0 {
				n++
			}
		}
		return n
	}
	inorder.Sort(list, func(a, b alteration) int {
		if d := singles(a) - singles(b); d != 0 {
			return d
		}
		return order(a, b)
	})
	for _, by := range slices.Compact(list) {
		t := *s.trials[by]
		for w, k := range by {
			if k > 0 {
				t.changes = append(t.changes, s.a.changes[w])
				t.workings = append(t.workings, s.a.working(w, by))
			}
		}
		s.found = append(s.found, t)
	}
}

// smaller returns a smaller change that saves as much, or the change itself
// where there is none among those that were tried and its neighbours.
func (s *saver) smaller(by alteration) alteration {
	for again := true; again; {
		again = false
		goal := s.saves(by)
		for w := range ways {
			if less := by; less[w] > 0 {
				less[w]--
				if less != (alteration{}) {
					s.closely(less)
				}
			}
		}
		least := by
		for t, saving := range s.trials {
			if saving != nil && t.within(by) && saving.Sheets() >= goal &&
				slices.Compare(t[:], least[:]) < 0 {
				least, again = t, true
			}
		}
		by = least
	}
	return by
}

// try lays out the job with another plan for the folio. Only the materials of
// which the pieces change are laid out again. It returns nil where that cannot
// be placed.
func (s *saver) try(plan *folio.Plan, steps int64) *Saving {
	job := s.job
	job.Folios = slices.Clone(job.Folios)
	job.Folios[s.at].Plan = plan
	var bad check.List
	wants := job.gather(&bad)
	if bad.Len() > 0 {
		return nil
	}
	var sum tally
	saving := &Saving{folio: s.at, plan: plan}
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
			r, err := s.lay(&job, m, wants, of, steps)
			if err != nil || len(r.result.Short) > 0 {
				return nil
			}
			sum.bought += r.result.Ordinary
			sum.bound += r.result.Bound
			sum.price.Minor += r.result.Cost
			bought = r.result.Ordinary
		}
		if d := old.bought - bought; d != 0 {
			saving.names = append(saving.names, m.Name)
			saving.less = append(saving.less, d)
		}
	}
	was := s.base.tally()
	saving.diff = sum.minus(was)
	saving.diff.certain = sum.bought < was.bound
	saving.most = was.bought - sum.bound
	return saving
}

// sameWants reports whether two lists want the same pieces of a material. How they
// may be turned is not asked: that is the material's, or as it was said by hand.
func sameWants(a []Wanted, of []int, b []Wanted, to []int) bool {
	if len(of) != len(to) {
		return false
	}
	for k := range of {
		x, y := a[of[k]], b[to[k]]
		if x.size != y.size || x.quantity != y.quantity || x.grain != y.grain {
			return false
		}
	}
	return true
}
