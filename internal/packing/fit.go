package packing

// fit picks contents that hold all pieces on so many sheets, nil if it comes to
// none before limit. It picks what the program is least sure about first: what it
// takes whole, or nearly, can still give way to that, and the other way round a few
// pieces are left in the end that go together badly. As soon as what is left takes
// more than the sheets that are left, it is given up. It makes do with what was
// seen, so that it can be tried often.
func (c *cover) fit(sheets int, limit int64) []int {
	v := c.v
	c = c.branch(1 - c.spare(sheets))
	var chosen []int
	for len(chosen) < sheets && c.lp.m > 0 {
		if len(chosen) > 0 && !c.run(false, limit) {
			return nil
		}
		if !c.narrow(sheets - len(chosen)) {
			return nil
		}
		at, most := -1, 0.0
		for i, name := range c.lp.name {
			x := c.lp.x[i]
			if name < 0 || x < 1e-6 {
				continue
			}
			unsure := float64(x * max(0.15, 1.15-x))
			if unsure = float64(unsure * float64(24+v.chance.below(56))); unsure > most {
				at, most = name, unsure
			}
		}
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

// spare is how much of so many sheets the program does not take; less than nothing
// if it takes more.
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
