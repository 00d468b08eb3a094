package layout

import (
	"cmp"
	"iter"
	"slices"

	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// SheetRule says what of a sheet is paid for.
type SheetRule uint8

// Sheet rules.
const (
	// WholeSheets charges every sheet that is used whole: an offcut that is
	// kept is a gift to the next job.
	WholeSheets SheetRule = iota
	// LessOffcuts charges a sheet less the share, by area, of its offcuts that
	// are worth keeping. Waste is paid for.
	LessOffcuts
)

// A Costing is what a layout does not know. Amounts must be in one currency,
// that of the sheets' prices. Lists with one entry for each folio follow the
// order of Job.Folios; a list of one entry goes for all of them, an empty one
// stands for zero.
type Costing struct {
	// Sheets says what of a sheet is paid for.
	Sheets SheetRule
	// Supplies are adhesive, ribbon and whatever else is used up.
	Supplies []Supply
	// Minutes of work on one folio, and what an hour of it costs.
	Minutes []int
	Rate    Money
	// Fee is paid once for the batch, as for a booth, and spread over all
	// folios alike.
	Fee Money
	// Margin is what is wanted of the price, in hundredths of a per cent: 4000
	// is 40 % of the price, so that the price is cost ÷ 0.6. From 0 to 9999.
	Margin int
	// RoundTo rounds prices up to a multiple of so many minor units.
	RoundTo int64
	// Prices are asked for the folios, in place of those from Margin.
	Prices []Money
}

// A Supply is something used up that is no sheet: glue by weight, tape by
// length.
type Supply struct {
	Name string
	// Price is that of one pack, and Contents how much is in it, in whole
	// numbers of any measure; Measure names it in print.
	Price    Money
	Contents int64
	Measure  string
	// Amounts is how much one folio takes, in the same measure.
	Amounts []int64
}

// Limits of a Costing.
const (
	mostSupplies = 1000
	mostAmount   = 1_000_000_000_000
	mostMinutes  = 1_000_000
)

// Costs is what a batch costs, with the working of every amount.
type Costs struct {
	charges []Charge
	total   Money
	folios  []FolioCost
	loose   Money
	fee     Money
}

// Charges walks what the batch costs: the sheets by material and kind, the
// supplies, labour, the fee. Every charge is rounded up once, for the whole
// batch.
func (c *Costs) Charges() iter.Seq[Charge] { return walk(c.charges) }

// Total is the sum of the charges.
func (c *Costs) Total() Money { return c.total }

// Loose is the share of the pieces by hand, by area in each material. Together
// with the totals of the folios it makes up the total.
func (c *Costs) Loose() Money { return c.loose }

// Folios walks the folios of which copies are made, in the order of the Job.
func (c *Costs) Folios() iter.Seq[FolioCost] { return walk(c.folios) }

// FolioCost is the share of one folio in a batch.
type FolioCost struct {
	folio  int
	name   string
	copies int
	shares []Charge
	total  Money
	each   Charge
	price  Charge
	// What one copy takes besides the fee, rounded up.
	variable Money
}

// Folio is the index in Job.Folios.
func (f FolioCost) Folio() int { return f.folio }

// Name is the folio's name, or the title of its plan.
func (f FolioCost) Name() string { return f.name }

// Copies is how many are made.
func (f FolioCost) Copies() int { return f.copies }

// Shares walks what all copies together take of each charge: materials by the
// area of their pieces, supplies by amount, labour by minutes, the fee by
// copies. The shares of a charge add up to it.
func (f FolioCost) Shares() iter.Seq[Charge] { return walk(f.shares) }

// Total is what all copies cost together.
func (f FolioCost) Total() Money { return f.total }

// Each is what one copy costs: the total over the copies, rounded up.
func (f FolioCost) Each() Charge { return f.each }

// Price is the price of one copy: as asked, or its cost over what the wanted
// margin leaves, rounded up.
func (f FolioCost) Price() Charge { return f.price }

// Margin returns the part of the price that is left over the cost, in
// hundredths of a per cent, rounded down and not below −1,000,000; 0 for no
// price.
func (f FolioCost) Margin() int {
	p := f.price.amount.Minor
	if p <= 0 {
		return 0
	}
	left, err := mulDiv(p-f.each.amount.Minor, 10_000, p, units.Down)
	if err != nil {
		return 0
	}
	return int(max(left, -1_000_000))
}

// BreakEven returns how many folios must be made and sold, in the mix of the
// batch, before the fee has come in: each brings its price less what it costs
// besides the fee, and those that bring least are counted first. It is false
// where some folio's price does not exceed that cost, and for a batch of none.
func (c *Costs) BreakEven() (n int64, ok bool) {
	if len(c.folios) == 0 {
		return 0, false
	}
	type lot struct{ brings, copies int64 }
	var lots []lot
	batch, folios := int64(0), int64(0)
	for _, f := range c.folios {
		l := lot{f.price.amount.Minor - f.variable.Minor, int64(f.copies)}
		if l.brings <= 0 {
			return 0, false
		}
		lots = append(lots, l)
		all, err := mulDiv(l.brings, l.copies, 1, units.Down)
		if err != nil || batch+all < 0 {
			return 0, false
		}
		batch += all
		folios += l.copies
	}
	slices.SortStableFunc(lots, func(a, b lot) int { return cmp.Compare(a.brings, b.brings) })
	rest := c.fee.Minor
	n = rest / batch * folios
	rest %= batch
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
func (c *Costs) Recovers() (n int64, ok bool) {
	folios := slices.Clone(c.folios)
	slices.SortStableFunc(folios, func(a, b FolioCost) int {
		return cmp.Compare(a.price.amount.Minor, b.price.amount.Minor)
	})
	rest := c.total.Minor
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

// Costs works out what the layout costs. The error is an *[check.Error] with
// everything that is wrong with the costing; an amount that does not fit is an
// error too. A layout with pieces that have no place is costed as far as it
// goes: the sheets that it uses, all copies as wanted.
func (l *Layout) Costs(c Costing) (*Costs, error) {
	var bad check.List
	l.checkCosting(c, &bad)
	if err := bad.Err(); err != nil {
		return nil, err
	}
	k := &coster{l: l, c: c, out: &Costs{fee: c.Fee}, bad: &bad}
	k.run()
	if err := bad.Err(); err != nil {
		return nil, err
	}
	return k.out, nil
}

func (l *Layout) checkCosting(c Costing, bad *check.List) {
	common := l.currency()
	per := func(path string, n int) {
		if n > 1 && n != len(l.job.Folios) {
			bad.Malformed(path, check.OutOfRange, count(n)+" entries", "none, one, or one for each of the "+count(len(l.job.Folios))+" folios")
		}
	}
	if c.Sheets > LessOffcuts {
		bad.Malformed("sheets", check.Unknown, count(int(c.Sheets)), "WholeSheets or LessOffcuts")
	}
	if len(c.Supplies) > mostSupplies {
		bad.Malformed("supplies", check.TooMany, count(len(c.Supplies)), "at most "+count(mostSupplies))
		return
	}
	for i, s := range c.Supplies {
		at := check.Index("supplies", i)
		checkMoney(bad, at+".price", s.Price, &common)
		amount(bad, at+".contents", s.Contents, 1, mostAmount)
		per(at+".amounts", len(s.Amounts))
		for k, a := range s.Amounts {
			amount(bad, check.Index(at+".amounts", k), a, 0, mostAmount)
		}
	}
	per("minutes", len(c.Minutes))
	for k, m := range c.Minutes {
		amount(bad, check.Index("minutes", k), int64(m), 0, mostMinutes)
	}
	checkMoney(bad, "rate", c.Rate, &common)
	checkMoney(bad, "fee", c.Fee, &common)
	amount(bad, "margin", int64(c.Margin), 0, 9999)
	amount(bad, "roundto", c.RoundTo, 0, MostPrice)
	per("prices", len(c.Prices))
	for k, p := range c.Prices {
		checkMoney(bad, check.Index("prices", k), p, &common)
	}
}

// currency is that of the sheets' prices.
func (l *Layout) currency() Currency {
	for _, m := range l.job.Materials {
		for _, k := range m.Sheets {
			if k.Price.Currency != (Currency{}) {
				return k.Price.Currency
			}
		}
	}
	return Currency{}
}

func amount(bad *check.List, path string, n, low, high int64) {
	switch {
	case n < low && n < 0:
		bad.Malformed(path, check.Negative, Money{Minor: n}.String(), "from "+Money{Minor: low}.String()+" to "+Money{Minor: high}.String())
	case n < low || n > high:
		bad.Malformed(path, check.OutOfRange, Money{Minor: n}.String(), "from "+Money{Minor: low}.String()+" to "+Money{Minor: high}.String())
	}
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

// coster works out one Costs.
type coster struct {
	l   *Layout
	c   Costing
	out *Costs
	bad *check.List
}

func (k *coster) add(c Charge, err error) Charge {
	if err == nil {
		var sum Money
		if sum, err = k.out.total.Plus(c.amount); err == nil {
			k.out.total = sum
		}
	}
	if err != nil {
		k.bad.Malformed("", check.OutOfRange, c.label+": "+err.Error(), "smaller amounts")
	}
	k.out.charges = append(k.out.charges, c)
	return c
}

func (k *coster) run() {
	l, c := k.l, k.c
	var made []int // folios of which copies are made
	for i, f := range l.job.Folios {
		if f.Copies > 0 {
			made = append(made, i)
			name := f.Name
			if name == "" {
				name = f.Plan.Spec().Title
			}
			k.out.folios = append(k.out.folios, FolioCost{folio: i, name: name, copies: f.Copies})
		}
	}
	row := make([]int, len(l.job.Folios))
	for at, i := range made {
		row[i] = at
	}
	// Weights end with the pieces by hand.
	weights := func(of func(i, copies int) int64) []units.Area {
		w := make([]units.Area, len(made)+1)
		for at, i := range made {
			w[at] = weight(of(i, l.job.Folios[i].Copies))
		}
		return w
	}
	shareOut := func(label string, m Money, w []units.Area, once bool) {
		left := m.Minor
		for at, s := range split("share of "+label, m, w) {
			if at == len(made) {
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
	for _, m := range l.materials {
		sum := Money{}
		offcuts := make([]units.Area, len(m.material.Sheets))
		for _, s := range m.sheets {
			for _, p := range s.parts {
				if p.use == Offcut {
					offcuts[s.kindIndex] = offcuts[s.kindIndex].Plus(p.rect.Size().Area().Times(int64(s.times)))
				}
			}
		}
		for i, used := range m.used {
			if used == 0 {
				continue
			}
			kind := m.material.Sheets[i]
			label := m.material.Name + ", " + sizeText(l.Notation(), kind.Size)
			if kind.Offcut {
				label += " offcut"
			}
			if kind.Price == (Money{}) {
				kind.Price.Currency = l.currency()
			}
			kept := units.Area{}
			if c.Sheets == LessOffcuts {
				kept = offcuts[i]
			}
			ch := k.add(without(label, kind.Price, int64(used), kept, kind.Size.Area().Times(int64(used))))
			sum.Minor += ch.amount.Minor
			sum.Currency = ch.amount.Currency
		}
		w := make([]units.Area, len(made)+1)
		for _, p := range l.wants {
			if p.at != m.index {
				continue
			}
			at := len(made)
			if p.folio >= 0 {
				at = row[p.folio]
			}
			w[at] = w[at].Plus(p.size.Area().Times(int64(p.quantity)))
		}
		shareOut(m.material.Name, sum, w, false)
	}
	for _, s := range c.Supplies {
		of := func(i, copies int) int64 { return entry(s.Amounts, i) * int64(copies) }
		w, all := weights(of), int64(0)
		for _, i := range made {
			all += of(i, l.job.Folios[i].Copies)
		}
		ch := k.add(charge(s.Name, s.Price, all, s.Contents, 1))
		shareOut(s.Name, ch.amount, w, false)
	}
	if len(c.Minutes) > 0 {
		of := func(i, copies int) int64 { return int64(entry(c.Minutes, i)) * int64(copies) }
		w, all := weights(of), int64(0)
		for _, i := range made {
			all += of(i, l.job.Folios[i].Copies)
		}
		ch := k.add(charge("labour", c.Rate, all, 60, 1))
		shareOut("labour", ch.amount, w, false)
	}
	if c.Fee != (Money{}) {
		ch := k.add(charge("fee", c.Fee, 1, 1, 1))
		shareOut("fee", ch.amount, weights(func(i, copies int) int64 { return int64(copies) }), true)
	}
	k.out.loose.Currency = k.out.total.Currency
	for at := range k.out.folios {
		k.price(&k.out.folios[at])
	}
}

func (k *coster) price(f *FolioCost) {
	f.total.Currency = k.out.total.Currency
	f.variable.Currency = f.total.Currency
	var err error
	if f.each, err = charge("cost of one", f.total, 1, int64(f.copies), 1); err == nil {
		f.variable, err = f.variable.Scale(1, int64(f.copies), units.Up)
	}
	if err == nil {
		if asked := entry(k.c.Prices, f.folio); asked != (Money{}) {
			f.price = Charge{label: "price as asked", each: asked, times: 1, over: 1, amount: asked}
		} else {
			f.price, err = charge("price", f.each.amount, 10_000, int64(10_000-k.c.Margin), k.c.RoundTo)
		}
	}
	if err != nil {
		k.bad.Malformed("", check.OutOfRange, f.name+": "+err.Error(), "smaller amounts")
	}
}
