package layout

import (
	"context"
	"errors"

	"boardwrap.example/folio"
	"boardwrap.example/internal/packing"
	"boardwrap.example/units/check"
	"boardwrap.example/units/money"
)

// A Difference is what another layout takes beside a first one.
type Difference struct {
	// Bought is how many more bought sheets, Offcuts how many more offcuts at
	// hand; negative for fewer.
	Bought, Offcuts int
	// Price is how much more the whole sheets cost.
	Price money.Amount
	// Certain says that the difference in bought sheets is proved not to come
	// from one of the two layouts being less than the best.
	Certain bool
}

// tally is what is counted of a layout.
type tally struct {
	bought, offcuts, bound int
	price                  money.Amount
	short                  int
}

func (t *tally) add(r *packing.Result, price money.Amount) {
	t.bought += r.Ordinary
	t.bound += r.Bound
	for _, s := range r.Sheets {
		t.offcuts += s.Times
	}
	t.offcuts -= r.Ordinary
	t.short += shorts(r)
	t.price.Minor += price.Minor
	if price.Currency != (money.Currency{}) {
		t.price.Currency = price.Currency
	}
}

// minus returns what a takes more than b.
func (t tally) minus(b tally) Difference {
	d := Difference{Bought: t.bought - b.bought, Offcuts: t.offcuts - b.offcuts, Price: t.price}
	d.Price.Minor -= b.price.Minor
	if d.Price.Currency == (money.Currency{}) {
		d.Price.Currency = b.price.Currency
	}
	d.Certain = t.bound == t.bought && b.bound == b.bought
	return d
}

// price returns what an answer's sheets cost.
func (s *solved) price() money.Amount {
	m := money.Amount{Minor: s.result.Cost}
	for _, k := range s.material.Sheets {
		if k.Price.Currency != (money.Currency{}) {
			m.Currency = k.Price.Currency
			break
		}
	}
	return m
}

// OneMore returns what one more copy of a folio takes beside the job as it is:
// half of the budget goes to each. Where the larger job comes out of fewer
// sheets than were found for the smaller one, the smaller can be cut from
// those, and the difference is none. The error is an *[check.Error], also when
// either cannot be placed in full.
func OneMore(ctx context.Context, job Job, folio int, budget Budget) (Difference, error) {
	var bad check.List
	if folio < 0 || folio >= len(job.Folios) {
		bad.Malformed("folio", check.OutOfRange, count(folio), "an index of Job.Folios")
		return Difference{}, bad.Err()
	}
	half := Budget{max(1, budget.steps()/2)}
	before, err := Lay(ctx, job, half)
	if err != nil {
		return Difference{}, err
	}
	after, err := Lay(ctx, job.More(folio, 1), half)
	if err != nil {
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

func (l *Layout) tally() tally {
	var t tally
	for _, m := range l.materials {
		t.bought += m.bought
		t.bound += m.bound
		t.offcuts += m.FromOffcuts()
		t.price.Minor += m.cost.Minor
		if m.cost.Currency != (money.Currency{}) {
			t.price.Currency = m.cost.Currency
		}
		for _, s := range m.short {
			t.short += s.copies
		}
	}
	return t
}

// Against returns what this layout takes more than a first one.
func (l *Layout) Against(first *Layout) Difference { return l.tally().minus(first.tally()) }

// Yield is how many copies of a folio come out of the sheets at hand.
type Yield struct {
	// Copies can be made.
	Copies int
	// Unlimited says that the sheets set no limit: whatever the folio is cut
	// from can be had as needed, up to the limits of a Job.
	Unlimited bool
	// Most says that no layout makes more: one more copy is proved not to fit.
	Most bool
	// Limit is the material that one more copy lacks.
	Limit string
}

// HowMany returns how many copies of a folio come out of the sheets at hand,
// beside everything else in the job: the other folios with their copies and
// the pieces by hand. Its own Copies do not count. Where even the rest of the
// job finds no place, there are none. It takes some thirty layouts at most,
// whatever the budget; when the context is done the answer is what was found
// until then. The error is an *[check.Error] with what
// is malformed, or a piece that fits no sheet.
func HowMany(ctx context.Context, job Job, index int, budget Budget) (Yield, error) {
	var bad check.List
	if index < 0 || index >= len(job.Folios) {
		bad.Malformed("folio", check.OutOfRange, count(index), "an index of Job.Folios")
		return Yield{}, bad.Err()
	}
	job = job.clone()
	job.Folios[index].Copies = 1
	wants, ok := job.gather(&bad)
	if !ok {
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
	if each == 0 {
		return Yield{Unlimited: true}, nil
	}
	out := Yield{Copies: (MostPieces - rest) / each, Unlimited: true}
	by := byMaterial(&job, wants)
	todo := int64(0)
	for _, of := range by {
		if len(of) > 0 {
			todo++
		}
	}
	left := budget.steps()
	for i, of := range by {
		uses := false
		for _, w := range of {
			uses = uses || wants[w].folio == index
		}
		if len(of) == 0 {
			continue
		}
		y := yielder{ctx: ctx, job: &job, at: i, folio: index, wants: wants, of: of, uses: uses, left: left / max(todo, 1)}
		given := y.left
		n, most, limited := y.most(out.Copies)
		left = max(0, left-(given-y.left))
		todo--
		if limited && (n < out.Copies || out.Unlimited) {
			out = Yield{Copies: n, Most: most, Limit: job.Materials[i].Name}
		} else if limited && n == out.Copies && most {
			out.Most = true
		}
	}
	if out.Copies == 0 {
		// A piece that fits no sheet at all is an error.
		_, err := Lay(ctx, job, Budget{max(1, left)})
		var all *check.Error
		if errors.As(err, &all) {
			for v := range all.All() {
				if v.Code != NotEnough {
					bad.Add(v)
				}
			}
		}
	}
	if err := bad.Err(); err != nil {
		return Yield{}, err
	}
	return out, nil
}

// yielder finds how many copies one material yields.
type yielder struct {
	ctx   context.Context
	job   *Job
	at    int
	folio int
	wants []Wanted
	of    []int
	uses  bool
	left  int64
}

// try lays out n copies and reports whether all have a place and, if not,
// whether that is proved impossible.
func (y *yielder) try(n int) (ok, proved bool) {
	wants := append([]Wanted(nil), y.wants...)
	for _, i := range y.of {
		if wants[i].folio == y.folio {
			wants[i].quantity *= n
		}
	}
	m := y.job.Materials[y.at]
	s, steps, err := solve(y.ctx, y.job, m, wants, y.of, max(1, y.left/8))
	y.left = max(0, y.left-steps)
	if err != nil {
		return false, false
	}
	if len(s.result.Short) == 0 {
		return true, false
	}
	if s.result.Proved && !s.unknown {
		return false, true
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
	u, steps, err := solve(y.ctx, y.job, free, wants, y.of, max(1, y.left/8))
	y.left = max(0, y.left-steps)
	if err != nil || len(u.result.Short) > 0 {
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
	for _, g := range [...]folio.SheetGrain{folio.GrainAlongHeight, folio.GrainAlongWidth} {
		if newProblem(y.job, y.job.Materials[y.at], y.wants, y.of, g).boundless() {
			return limit, false, false
		}
	}
	if limit < 1 {
		return 0, false, true
	}
	// Double, then halve the gap between what fits and what does not.
	low, high := 0, 1
	for high <= limit && y.ctx.Err() == nil {
		ok, p := y.try(high)
		if !ok {
			proved = p
			break
		}
		low = high
		if high > limit/2 && high < limit {
			high = limit
		} else {
			high *= 2
		}
	}
	if low == limit {
		return limit, false, false
	}
	for high-low > 1 && y.ctx.Err() == nil {
		mid := low + (high-low)/2
		if ok, p := y.try(mid); ok {
			low = mid
		} else {
			high, proved = mid, p
		}
	}
	return low, proved, true
}
