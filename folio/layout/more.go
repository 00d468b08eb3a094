package layout

import (
	"boardwrap.example/score"

	"boardwrap.example/folio/stock"
	"boardwrap.example/units/check"
	"boardwrap.example/units/money"
)

// A Difference is what another layout takes beside a first one.
type Difference struct {
	bought, offcuts int
	price           money.Amount
	certain         bool
}

// Bought is how many more bought sheets it takes; negative for fewer.
func (d Difference) Bought() int { return d.bought }

// Offcuts is how many more offcuts at hand it takes; negative for fewer.
func (d Difference) Offcuts() int { return d.offcuts }

// Price is how much more the whole sheets cost; negative for less.
func (d Difference) Price() money.Amount { return d.price }

// Certain says that the difference in bought sheets is proved not to come from
// one of the two layouts being less than the best.
func (d Difference) Certain() bool { return d.certain }

// tally is what is counted of a layout.
type tally struct {
	bought, offcuts, bound int
	price                  money.Amount
}

// minus returns what a takes more than b.
func (t tally) minus(b tally) Difference {
	d := Difference{bought: t.bought - b.bought, offcuts: t.offcuts - b.offcuts, price: t.price}
	d.price.Minor -= b.price.Minor
	if d.price.Currency == (money.Currency{}) {
		d.price.Currency = b.price.Currency
	}
	d.certain = t.bound == t.bought && b.bound == b.bought
	return d
}

// OneMore returns what one more copy of a folio takes beside the job as it is:
// half of the budget goes to the first. Where the larger job comes out of fewer
// sheets than were found for the smaller one, the smaller can be cut from
// those, and the difference is none. The error is an *[check.Error], also when
// either cannot be placed in full.
func OneMore(until score.Stopper, job Job, folio int, budget Budget) (Difference, error) {
	var bad check.List
	if folio < 0 || folio >= len(job.Folios) {
		noFolio(&bad, folio, job)
		return Difference{}, bad.Err()
	}
	budget.check(&bad)
	m := newMeter(until, budget, leastSearch)
	m.counting = true
	defer m.end()
	before := m.all(job, &bad, m.total/2)
	if err := bad.Err(); err != nil {
		return Difference{}, err
	}
	after := m.all(job.More(folio, 1), &bad, m.left)
	if err := bad.Err(); err != nil {
		return Difference{}, err
	}
	a, b := after.tally(), before.tally()
	if a.bought < b.bought || a.bought == b.bought && a.price.Minor < b.price.Minor {
		bound := b.bound
		b = a
		b.bound = bound
	}
	return a.minus(b), nil
}

// noFolio says that a job has no folio of an index.
func noFolio(bad *check.List, index int, job Job) {
	if len(job.Folios) == 0 {
		bad.Malformed("folios", check.Missing, "no folio "+count(index)+" in the job", "the folio that is asked about")
		return
	}
	bad.Malformed("folio", check.OutOfRange, count(index), "from 0 to "+count(len(job.Folios)-1)+", an index of the folios")
}

func (l *Layout) tally() tally {
	var t tally
	if l == nil {
		return t
	}
	for _, m := range l.materials {
		t.bought += m.bought
		t.bound += m.bound
		t.offcuts += m.FromOffcuts()
		t.price.Minor += m.cost.Minor
		if m.cost.Currency != (money.Currency{}) {
			t.price.Currency = m.cost.Currency
		}
	}
	return t
}

// Against returns what this layout takes more than a first one; nil takes nothing.
func (l *Layout) Against(first *Layout) Difference { return l.tally().minus(first.tally()) }

// Yield is how many copies of a folio come out of the sheets at hand.
type Yield struct {
	copies                   int
	unlimited, most, stopped bool
	limit                    string
}

// Copies is how many can be made.
func (y Yield) Copies() int { return y.copies }

// Unlimited says that the sheets set no limit: whatever the folio is cut from
// can be had as needed, up to the limits of a Job.
func (y Yield) Unlimited() bool { return y.unlimited }

// Most says that no layout makes more: one more copy is proved not to fit.
func (y Yield) Most() bool { return y.most }

// Stopped says that the search ended, for the budget or the Stopper, before it
// had tried what it would try: more may be made.
func (y Yield) Stopped() bool { return y.stopped }

// Limit is the material that one more copy lacks, as far as is known.
func (y Yield) Limit() string { return y.limit }

// HowMany returns how many copies of a folio come out of the sheets at hand,
// beside everything else in the job: the other folios with their copies and
// the pieces by hand. Its own Copies do not count. Where even the rest of the
// job finds no place, there are none. When the budget is spent or the Stopper
// done, the answer is what was found until then. The error is an *[check.Error]
// with what is malformed, or a piece that fits no sheet.
func HowMany(until score.Stopper, job Job, index int, budget Budget) (Yield, error) {
	var bad check.List
	budget.check(&bad)
	if index < 0 || index >= len(job.Folios) {
		noFolio(&bad, index, job)
		return Yield{}, bad.Err()
	}
	job = job.clone()
	job.Folios[index].Copies = 1
	wants := job.gather(&bad)
	if bad.Len() > 0 {
		return Yield{}, bad.Err()
	}
	// The other pieces leave room for so many of the folio's.
	each, rest := 0, 0
	for _, w := range wants {
		if w.folio == index {
			each += w.quantity
		} else {
			rest += w.quantity
		}
	}
	m := newMeter(until, budget, leastSearch)
	m.counting = true
	defer m.end()
	if each == 0 {
		return Yield{unlimited: true}, nil
	}
	out := Yield{copies: (MostPieces - rest) / each, unlimited: true}
	by := byMaterial(&job, wants)
	todo := int64(0)
	for _, of := range by {
		if len(of) > 0 {
			todo++
		}
	}
	var lacks lacker
	for i, of := range by {
		if len(of) == 0 {
			continue
		}
		y := yielder{meter: m, job: &job, at: i, folio: index, wants: wants, of: of, left: m.left / todo}
		todo--
		for _, w := range of {
			y.uses = y.uses || wants[w].folio == index
		}
		n, most, limited := y.most(out.copies)
		out.stopped = out.stopped || y.stopped
		if n == 0 {
			// A piece that fits no sheet at all is an error.
			for _, v := range y.unfit {
				if !lacks.cutter(v) {
					bad.Add(v)
				}
			}
		}
		if limited && (n < out.copies || out.unlimited) {
			out.copies, out.most, out.limit, out.unlimited = n, most, job.Materials[i].Name, false
		} else if most { // of as many
			out.most = true
		}
	}
	for _, v := range lacks.cuts {
		bad.Add(v)
	}
	if err := bad.Err(); err != nil {
		return Yield{}, err
	}
	return out, nil
}

// yielder finds how many copies one material yields.
type yielder struct {
	*meter
	job     *Job
	at      int
	folio   int
	wants   []Wanted
	of      []int
	uses    bool
	left    int64 // of the budget for this material
	stopped bool
	unfit   []check.Violation // of the last layout
}

// over reports whether the search must end here.
func (y *yielder) over() bool {
	y.stopped = y.stopped || y.left <= 0 || y.spent()
	return y.stopped
}

// layTimes lays out a material with the folio's pieces n times.
func (y *yielder) layTimes(m Material, n int) (*solved, bool) {
	wants := append([]Wanted(nil), y.wants...)
	for _, i := range y.of {
		if wants[i].folio == y.folio {
			wants[i].quantity *= n
		}
	}
	before := y.meter.left
	s, err := y.meter.lay(y.job, m, wants, y.of, max(1, y.left/8))
	y.left -= before - y.meter.left
	y.unfit = nil
	if err != nil {
		return nil, false
	}
	c := &lacker{l: &Layout{job: *y.job, wants: y.wants}}
	for _, sh := range s.result.Short {
		if !sh.Fits && !s.fits(s.Items[sh.Item]) {
			y.unfit = append(y.unfit, c.unfit(s, sh))
		}
	}
	return s, true
}

// try lays out n copies and reports whether all have a place and, if not,
// whether that is proved impossible.
func (y *yielder) try(n int) (ok, proved bool) {
	m := y.job.Materials[y.at]
	s, sound := y.layTimes(m, n)
	switch {
	case !sound:
		return false, false
	case len(s.result.Short) == 0:
		return true, false
	case s.result.Proved && !s.unknown:
		return false, true
	case y.over():
		return false, false
	}
	// Or: as many sheets as are wanted would not do with those there are.
	free, there := m, 0
	free.Sheets = append([]SheetKind(nil), m.Sheets...)
	for k := range free.Sheets {
		if f := &free.Sheets[k]; !f.Offcut {
			if f.Count == Unlimited {
				return false, false
			}
			there += f.Count
			f.Count = Unlimited
		}
	}
	u, sound := y.layTimes(free, n)
	if !sound || u.unknown && u.other == nil {
		return false, false
	}
	least := u.result.Bound
	if u.other != nil {
		least = min(least, u.other.Bound)
	}
	return false, least > there
}

// most returns the greatest number of copies found, up to a limit, and whether
// one more is proved impossible.
func (y *yielder) most(limit int) (n int, proved, limited bool) {
	if !y.uses {
		// Only the rest of the job is cut from it.
		ok, proved := y.try(1)
		return 0, proved, !ok
	}
	for _, g := range [...]stock.SheetGrain{stock.GrainAlongHeight, stock.GrainAlongWidth} {
		if newProblem(y.job, y.job.Materials[y.at], y.wants, y.of, g).boundless() {
			return limit, false, false
		}
	}
	// Double, then halve the gap between what fits and what does not.
	low, high := 0, 1
	for low < limit && !y.over() {
		ok, p := y.try(high)
		if !ok {
			proved = p
			break
		}
		low, high = high, min(high+high, limit)
	}
	if low == limit {
		return limit, false, false
	}
	for high-low > 1 && !y.over() {
		mid := low + (high-low)/2
		if ok, p := y.try(mid); ok {
			low = mid
		} else {
			high, proved = mid, p
		}
	}
	return low, proved && high == low+1, true
}
