package cost

import (
	"boardwrap.example/folio/layout"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
	"boardwrap.example/units/money"
)

// Of works out what a layout costs. The error is an *[check.Error] with
// everything that is wrong with the basis; an amount that does not fit, and
// a layout that is nil, is an error too. A layout with pieces that have no place is costed as far as it
// goes: the sheets that it uses, all copies as wanted.
func Of(l *layout.Layout, on Basis) (*BatchCost, error) {
	var bad check.List
	if l == nil {
		bad.Malformed("layout", check.Missing, "no layout", "a layout made by layout.Lay")
		return nil, bad.Err()
	}
	job := l.Job()
	common := currency(job)
	on.check(&bad, len(job.Folios), common)
	if err := bad.Err(); err != nil {
		return nil, err
	}
	k := &coster{l: l, job: job, common: common, on: on, out: &BatchCost{fee: on.Fee}, bad: &bad}
	k.run()
	if err := bad.Err(); err != nil {
		return nil, err
	}
	return k.out, nil
}

// entry returns the entry of a list for a folio.
func entry[T any](list []T, i int) T {
	var zero T
	switch {
	case len(list) == 1:
		return list[0]
	case i < len(list):
		return list[i]
	}
	return zero
}

// coster works out one BatchCost.
type coster struct {
	l      *layout.Layout
	job    layout.Job
	common money.Currency
	on     Basis
	out    *BatchCost
	bad    *check.List
	row    []int // by index of Job.Folios: the index in out.folios of what has copies
}

func (k *coster) run() {
	k.folios()
	for m := range k.l.Materials() {
		k.sheets(m)
	}
	for _, s := range k.on.Supplies {
		k.used(check.Clip(s.Name), s.Price, s.Contents, func(i int) int64 { return entry(s.Amounts, i) })
	}
	if len(k.on.Minutes) > 0 {
		k.used("labour", k.on.Rate, 60, func(i int) int64 { return int64(entry(k.on.Minutes, i)) })
	}
	if k.on.Fee != (money.Amount{}) {
		ch := k.add(charge("fee", k.on.Fee, 1, 1))
		weights, _ := k.weights(func(int) int64 { return 1 })
		k.share("fee", ch.amount, weights, true)
	}
	k.out.loose.Currency = k.out.total.Currency
	for at := range k.out.folios {
		k.price(&k.out.folios[at])
	}
}

// folios lists the folios of which copies are made.
func (k *coster) folios() {
	k.row = make([]int, len(k.job.Folios))
	for i, f := range k.job.Folios {
		if f.Copies > 0 {
			k.row[i] = len(k.out.folios)
			name := f.Name
			if name == "" {
				name = f.Plan.Spec().Title
			}
			k.out.folios = append(k.out.folios, FolioCost{folio: i, name: name, copies: f.Copies})
		}
	}
}

// add puts a charge on the bill.
func (k *coster) add(c Charge, err error) Charge {
	if err == nil {
		var sum money.Amount
		if sum, err = k.out.total.Plus(c.amount); err == nil {
			k.out.total = sum
		}
	}
	if err != nil {
		k.tooMuch(c.label, err)
	}
	k.out.charges = append(k.out.charges, c)
	return c
}

func (k *coster) tooMuch(label string, err error) {
	k.bad.Malformed("", check.OutOfRange, label+": "+err.Error(), "smaller amounts")
}

// weights are how much all copies of each folio take of something of which one
// copy takes of(i), and the sum of it.
func (k *coster) weights(of func(i int) int64) (list []units.Area, all int64) {
	list = make([]units.Area, len(k.out.folios))
	for at, f := range k.out.folios {
		n := of(f.folio) * int64(f.copies)
		list[at] = weight(n)
		all += n
	}
	return list, all
}

// share shares a charge out among the folios, and what weighs more, the pieces by
// hand.
func (k *coster) share(label string, m money.Amount, weights []units.Area, once bool) {
	left := m.Minor
	for at, s := range split("share of "+label, m, weights) {
		if at == len(k.out.folios) {
			break
		}
		left -= s.amount.Minor
		f := &k.out.folios[at]
		f.shares = append(f.shares, s)
		f.total.Minor += s.amount.Minor
		if !once {
			f.variable.Minor += s.amount.Minor
		}
	}
	k.out.loose.Minor += left
}

// used charges what is used up by the folios, one of which takes of(i) of it.
func (k *coster) used(label string, price money.Amount, contents int64, of func(i int) int64) {
	weights, all := k.weights(of)
	ch := k.add(charge(label, price, all, contents))
	k.share(label, ch.amount, weights, false)
}

// sheets charges the sheets of one material and shares them out by area.
func (k *coster) sheets(m layout.Laid) {
	var kept []units.Area // by kind of sheet
	if k.on.Sheets == LessOffcuts {
		kept = keptOf(m)
	}
	sum := money.Amount{}
	i := -1
	for kind, used := range m.Used() {
		i++
		if used == 0 {
			continue
		}
		label := check.Clip(m.Name()) + ", " + units.Format{Ruler: k.l.Notation().Exact()}.Size(kind.Size)
		if kind.Offcut {
			label += " offcut"
		}
		if kind.Price == (money.Amount{}) {
			kind.Price.Currency = k.common
		}
		less := units.Area{}
		if i < len(kept) {
			less = kept[i]
		}
		ch := k.add(without(label, kind.Price, int64(used), less, kind.Size.Area().Times(int64(used))))
		sum.Minor += ch.amount.Minor
		sum.Currency = ch.amount.Currency
	}
	weights, loose := make([]units.Area, len(k.out.folios)), units.Area{}
	for p := range k.l.Pieces() {
		if p.Material() != m.Name() {
			continue
		}
		to := &loose
		if i, ok := p.Folio(); ok {
			to = &weights[k.row[i]]
		}
		*to = to.Plus(p.Size().Area().Times(int64(p.Quantity())))
	}
	k.share(check.Clip(m.Name()), sum, append(weights, loose), false)
}

// keptOf adds up the leftovers worth keeping by kind of sheet.
func keptOf(m layout.Laid) []units.Area {
	var kept []units.Area
	for s := range m.Sheets() {
		_, at := s.Kind()
		for len(kept) <= at {
			kept = append(kept, units.Area{})
		}
		for _, p := range s.Parts() {
			if p.Use() == layout.Offcut {
				kept[at] = kept[at].Plus(p.Rect().Size().Area().Times(int64(s.Times())))
			}
		}
	}
	return kept
}

// price works out what one copy costs and is sold for.
func (k *coster) price(f *FolioCost) {
	f.total.Currency = k.out.total.Currency
	var err error
	if f.each, err = charge("cost of one", f.total, 1, int64(f.copies)); err == nil {
		f.variable, err = f.variable.Scale(1, int64(f.copies), units.Up)
	}
	if err == nil {
		if asked := entry(k.on.Prices, f.folio); asked != (money.Amount{}) {
			f.price = Charge{label: "price as asked", each: asked, times: 1, over: 1, amount: asked}
		} else {
			if f.price, err = charge("price", f.each.amount, 10_000, int64(10_000-k.on.Margin)); err == nil {
				f.price, err = f.price.onStep(k.on.RoundTo)
			}
		}
	}
	if err != nil {
		k.tooMuch(f.name, err)
	}
}
