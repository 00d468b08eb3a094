package fit

import "boardwrap.example/units"

// cover searches every cover on the ruler from the bound up that takes each of the
// sizes, pruned by the least area found so far, and reports whether it got through.
func (q *seeker) cover(low units.Size, alone []units.Size, fits func(units.Size) bool) (units.Size, bool) {
	if fits(low) {
		return low, true
	}
	best := q.someCover(low, fits)
	for w := low.W; ; w += q.step {
		if q.over() {
			return best, false
		}
		if w.By(low.H).Compare(best.Area()) >= 0 {
			return best, true
		}
		q.spend(1)
		from, ok := lowest(w, low.H, alone)
		if !ok {
			continue
		}
		for h := q.ruler.Up(from); ; h += q.step {
			c := units.Size{W: w, H: h}
			if order := c.Area().Compare(best.Area()); order > 0 || order == 0 && c.W >= best.W {
				break
			}
			if q.over() {
				return best, false
			}
			if fits(c) {
				best = c
			}
		}
	}
}

// someCover finds a cover that does: growing both sides by doubling steps, then
// each side brought down as far as it goes. Where the search ends before, the cover is
// the roomy one, or one that does all the same.
func (q *seeker) someCover(low units.Size, fits func(units.Size) bool) units.Size {
	best := units.Size{W: q.roomy, H: q.roomy}
	for n := q.step; max(low.W, low.H)+n < q.roomy && !q.over(); n *= 2 {
		if c := low.Plus(n, n); fits(c) {
			best = c
			break
		}
	}
	for _, side := range [...]func(*units.Size) *units.Length{
		func(c *units.Size) *units.Length { return &c.W },
		func(c *units.Size) *units.Length { return &c.H },
	} {
		at, floor := side(&best), *side(&low)
		good, no := *at, floor-q.step
		for good-no > q.step && !q.over() {
			if *at = q.between(no, good); fits(best) {
				good = *at
			} else {
				no = *at
			}
		}
		*at = good
	}
	return best
}

// narrowest returns a spine from the bound up that does while the one a step narrower
// does not: in doubling steps to one that does, and halfway back as long as that does.
// On a ruler of boards finer than the liner's the liner loses less where the row ends
// on both, so that one is asked for beside each.
func (q *seeker) narrowest(low units.Length, liner units.Ruler, does func(units.Length) bool) (units.Length, bool) {
	if does(low) {
		return low, true
	}
	no, good := low, low
	for d := q.step; good == no; d *= 2 {
		at := min(low+d, q.wide)
		switch even := min(q.ruler.Up(liner.Up(at)), q.wide); {
		case does(at):
			good = at
		case even > at && does(even):
			no, good = at, even
		case at == q.wide:
			return 0, false
		default:
			no, good = at, at
		}
	}
	for good-no > q.step {
		if mid := q.between(no, good); does(mid) {
			good = mid
		} else {
			no = mid
		}
	}
	return good, true
}

// between returns a graduation of the ruler about halfway between two that are
// more than a step apart.
func (q *seeker) between(no, good units.Length) units.Length {
	return q.ruler.Down(no + (good - no).Half(units.Down))
}
