package cost

import (
	"strconv"

	"boardwrap.example/units"
	"boardwrap.example/units/money"
)

// A Charge is one amount with how it came about:
//
//	amount = each × times ÷ over × part ÷ whole
//
// where over and part ÷ whole are 1 unless they matter. Its fields cannot be
// set from outside.
type Charge struct {
	label       string
	each        money.Amount
	times, over int64
	part, whole units.Area
	rule        charging
	step        int64
	amount      money.Amount
}

// charging is how a charge was rounded.
type charging uint8

const (
	chargedUp charging = iota // up to a minor unit, or to step
	shared                    // with the other shares of one amount, so that they add up
)

// Label says what it is for.
func (c Charge) Label() string { return c.label }

// Amount is the result.
func (c Charge) Amount() money.Amount { return c.amount }

// Terms returns the amount that is charged times ÷ over times.
func (c Charge) Terms() (each money.Amount, times, over int64) { return c.each, c.times, c.over }

// Portion returns the part of a whole that is charged: two areas, or two
// counts given as areas of so many square nanometres. Both are zero where the
// whole is charged.
func (c Charge) Portion() (part, whole units.Area) { return c.part, c.whole }

// Rounding says how the amount was rounded: "up" to a minor unit or to the step
// of a price, or "shared": down or up by less than one minor unit, so that all
// the shares of one amount add up to it.
func (c Charge) Rounding() string {
	if c.rule == shared {
		return "shared"
	}
	return "up"
}

// String prints the charge as one line of ASCII:
//
//	labour 54.00 USD = 270 x 12.00 USD / 60
//	glue 1.07 USD = 8 x 3.20 USD / 24, up
//	share of labour 20.00 USD of 54.00 USD
func (c Charge) String() string {
	dst := append(make([]byte, 0, 96), c.label...)
	dst = append(dst, ' ')
	dst = c.amount.Append(dst)
	if c.rule == shared {
		dst = append(dst, " of "...)
		return string(c.each.Append(dst))
	}
	dst = append(dst, " = "...)
	if c.times != 1 {
		dst = strconv.AppendInt(dst, c.times, 10)
		dst = append(dst, " x "...)
	}
	dst = c.each.Append(dst)
	if c.over != 1 {
		dst = append(dst, " / "...)
		dst = strconv.AppendInt(dst, c.over, 10)
	}
	if c.whole.Sign() > 0 {
		dst = append(dst, ", less the share of the offcuts"...)
	}
	if c.whole.Sign() > 0 || !c.exact() {
		dst = append(dst, ", up"...)
		if c.step > 1 {
			dst = append(dst, " on "...)
			dst = money.Amount{Minor: c.step, Currency: c.amount.Currency}.Append(dst)
		}
	}
	return string(dst)
}

// exact reports whether each × times ÷ over is the amount to the minor unit.
func (c Charge) exact() bool {
	down, err := c.each.Scale(c.times, c.over, units.Down)
	return err == nil && down.Minor == c.amount.Minor
}

// charge works out each × times ÷ over, up to a minor unit.
func charge(label string, each money.Amount, times, over int64) (Charge, error) {
	m, err := each.Scale(times, over, units.Up)
	return Charge{label: label, each: each, times: times, over: over, amount: m}, err
}

// onStep takes a charge up to a multiple of step.
func (c Charge) onStep(step int64) (Charge, error) {
	var err error
	c.step = step
	c.amount, err = c.amount.UpTo(step)
	return c, err
}

// without charges each × times less the share of what is kept, rounded up.
func without(label string, each money.Amount, times int64, kept, all units.Area) (Charge, error) {
	c, err := charge(label, each, times, 1)
	if err != nil || kept.Sign() <= 0 {
		return c, err
	}
	c.part, c.whole = all.Minus(kept), all
	c.amount.Minor -= c.amount.Share(kept, all).Minor
	return c, nil
}

// split shares an amount out by weights so that the shares add up to it: each
// share is rounded together with those before it.
func split(label string, m money.Amount, weights []units.Area) []Charge {
	var whole, sum units.Area
	for _, w := range weights {
		whole = whole.Plus(w)
	}
	out := make([]Charge, len(weights))
	before := int64(0)
	for i, w := range weights {
		sum = sum.Plus(w)
		upTo := m.Share(sum, whole).Minor
		out[i] = Charge{label: label, each: m, times: 1, over: 1, part: w, whole: whole, rule: shared,
			amount: money.Amount{Minor: upTo - before, Currency: m.Currency}}
		before = upTo
	}
	return out
}

// weight is a count as a weight for split.
func weight(n int64) units.Area { return units.Nanometre.By(units.Nanometre).Times(n) }
