package packing

import "slices"

// fit picks contents that hold all pieces on so many sheets, nil if it comes to
// none before limit. It picks what the program is least sure about first: what it
// takes whole, or nearly, can still give way to that, and the other way round a few
// pieces are left in the end that go together badly. As soon as what is left takes
// more than the sheets that are left, it is given up. It makes do with what was
// seen, so that it can be tried often.
func (c *cover) fit(sheets int, limit int64) []int {
	c = c.branch(1 - c.spare(sheets))
	var chosen []int
	for len(chosen) < sheets && c.lp.m > 0 {
		if len(chosen) > 0 && !c.run(false, limit) {
			return nil
		}
		if !c.narrow(sheets - len(chosen)) {
			return nil
		}
		at := c.unsure(nil)
		if at < 0 {
			return nil
		}
		chosen = append(chosen, at)
		c.take(at)
	}
	if c.lp.m > 0 {
		return nil
	}
	return chosen
}

// unsure is about what the program is least sure about, but for what was tried; −1 for
// none.
func (c *cover) unsure(tried []int) int {
	at, most := -1, 0.0
	for i, name := range c.lp.name {
		x := c.lp.x[i]
		if name < 0 || x < 1e-6 || slices.Contains(tried, name) {
			continue
		}
		unsure := float64(x * max(0.15, 1.15-x))
		if unsure = float64(unsure * float64(24+c.v.chance.below(56))); unsure > most {
			at, most = name, unsure
		}
	}
	return at
}

// spare is how much of so many sheets the program does not take; less than nothing
// if it takes more.
//
//go:noinline
func (c *cover) spare(sheets int) float64 {
	const tiny = 1e-3 // more than what is added to the demand comes to
	return float64(sheets) - c.lp.value() + tiny
}

// narrow leaves those contents in that may still be on one of so many sheets: what
// a sheet falls short of its price is no more than the program falls short of the
// number of sheets (as in pick). It reports false if that is less than nothing.
func (c *cover) narrow(sheets int) bool {
	spare := c.spare(sheets)
	if spare < 0 {
		return false
	}
	c.some, c.from = c.near(1-spare), len(c.of.lists)
	c.good = c.good[:0]
	return true
}

// richEach is how many contents enrich makes.
const richEach = 256

// enrich makes contents that gain about a sheet at the prices of the program and
// hold much besides: what there is plenty of room for costs nothing there, and is on
// few of the contents that were made for their price.
func (c *cover) enrich(sheets int, limit int64) {
	v, t, g := c.v, c.v.t, c.v.strict
	if g == nil {
		return
	}
	g.reset()
	pi, least := c.lp.prices(), 1-c.spare(sheets)
	price := make([]int64, len(t.parts))
	for n := 0; n < richEach && !v.mt.spent(limit); n++ {
		share := float64(1+v.chance.below(32)) / 64 // of the area in the price
		for i, q := range c.rows {
			area := float64(t.parts[q].score) / float64(t.kinds[0].score)
			area = float64(area * float64(48+v.chance.below(32)) / 64)
			p := float64(max(0, pi[i])*(1-share)) + float64(area*share)
			price[q] = int64(min(p, priceMost) * priceScale)
		}
		if !g.run(v.mt, price) {
			return
		}
		b := g.cut(0)
		v.drop(&b, c.need)
		rest := slices.Clone(c.need)
		for _, h := range b.contents() {
			rest[h.part] -= h.n
		}
		v.thickBy(&b, rest, ranked(len(price), func(q int) int64 { return price[q] }), true)
		if b.count > 0 && c.gain(b.contents(), pi) >= least {
			c.of.force(v.mt, &b)
		}
	}
}
