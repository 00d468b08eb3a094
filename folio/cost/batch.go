package cost

import (
	"cmp"
	"iter"
	"slices"

	"boardwrap.example/internal/inorder"
	"boardwrap.example/units"
	"boardwrap.example/units/money"
)

// A BatchCost is what all the folios of a layout cost, with the working of every amount.
type BatchCost struct {
	charges []Charge
	total   money.Amount
	folios  []FolioCost
	loose   money.Amount
	fee     money.Amount
}

// Charges walks what the batch costs: the sheets by material and kind, the
// supplies, labour, the fee. Every charge is rounded up once, for the whole
// batch.
func (b *BatchCost) Charges() iter.Seq[Charge] { return slices.Values(b.charges) }

// Total is the sum of the charges.
func (b *BatchCost) Total() money.Amount { return b.total }

// Loose is the share of the pieces by hand, by area in each material. Together
// with the totals of the folios it makes up the total.
func (b *BatchCost) Loose() money.Amount { return b.loose }

// Folios walks the folios of which copies are made, in the order of the Job.
func (b *BatchCost) Folios() iter.Seq[FolioCost] { return slices.Values(b.folios) }

// A FolioCost is the share of one folio in a batch.
type FolioCost struct {
	folio  int
	name   string
	copies int
	shares []Charge
	total  money.Amount
	each   Charge
	price  Charge
	// What one copy takes besides the fee, rounded up.
	variable money.Amount
}

// Index is that of the folio in Job.Folios.
func (f FolioCost) Index() int { return f.folio }

// Name is the folio's name, or the title of its plan.
func (f FolioCost) Name() string { return f.name }

// Copies is how many are made.
func (f FolioCost) Copies() int { return f.copies }

// Shares walks what all copies together take of each charge: materials by the
// area of their pieces, supplies by amount, labour by minutes, the fee by
// copies. The shares of a charge add up to it.
func (f FolioCost) Shares() iter.Seq[Charge] { return slices.Values(f.shares) }

// Total is what all copies cost together.
func (f FolioCost) Total() money.Amount { return f.total }

// Each is what one copy costs: the total over the copies, rounded up.
func (f FolioCost) Each() Charge { return f.each }

// Price is the price of one copy: as asked, or its cost over what the wanted
// margin leaves, rounded up.
func (f FolioCost) Price() Charge { return f.price }

// leastMargin is the least that FolioCost.Margin tells.
const leastMargin = -1_000_000

// Margin returns the part of the price that is left over the cost, in
// hundredths of a per cent, rounded down and not below −1,000,000; 0 for no
// price.
func (f FolioCost) Margin() int {
	p := f.price.amount.Minor
	if p <= 0 {
		return 0
	}
	left, err := money.Amount{Minor: p - f.each.amount.Minor}.Scale(10_000, p, units.Down)
	if err != nil {
		return leastMargin // what is lost is more than can be told
	}
	return int(max(left.Minor, leastMargin))
}

// BreakEven returns how many folios must be made and sold, in the mix of the
// batch, before the fee has come in: each brings its price less what it costs
// besides the fee, and those that bring least are counted first. It is 0 without
// a fee, and false where some folio's price does not exceed that cost, and for a
// batch of none.
func (b *BatchCost) BreakEven() (n int64, ok bool) {
	if len(b.folios) == 0 {
		return 0, false
	}
	type lot struct{ brings, copies int64 }
	var lots []lot
	var batch money.Amount
	folios := int64(0)
	for _, f := range b.folios {
		l := lot{f.price.amount.Minor - f.variable.Minor, int64(f.copies)}
		if l.brings <= 0 {
			return 0, false
		}
		lots = append(lots, l)
		all, err := money.Amount{Minor: l.brings}.Times(l.copies)
		if err == nil {
			batch, err = batch.Plus(all)
		}
		if err != nil {
			return 0, false
		}
		folios += l.copies
	}
	inorder.Sort(lots, func(a, b lot) int { return cmp.Compare(a.brings, b.brings) })
	rest := b.fee.Minor
	n = rest / batch.Minor * folios
	rest %= batch.Minor
	for _, l := range lots {
		if rest <= 0 {
			break
		}
		need := min((rest-1)/l.brings+1, l.copies)
		n += need
		rest -= need * l.brings
	}
	return n, true
}

// Recovers returns how many of the batch must be sold before everything that
// was spent on it has come in, the cheapest counted first. It is false where
// even the whole batch does not bring that much.
func (b *BatchCost) Recovers() (n int64, ok bool) {
	folios := slices.Clone(b.folios)
	inorder.Sort(folios, func(a, b FolioCost) int {
		return cmp.Compare(a.price.amount.Minor, b.price.amount.Minor)
	})
	rest := b.total.Minor
	for _, f := range folios {
		p := f.price.amount.Minor
		if rest <= 0 {
			break
		}
		if p <= 0 {
			n += int64(f.copies)
			continue
		}
		need := min((rest-1)/p+1, int64(f.copies))
		n += need
		rest -= need * p
	}
	return n, rest <= 0
}
