package propose

import (
	"cmp"
	"slices"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// propose searches for the best folio of an aim.
func (s *searcher) propose(aim Aim) result {
	q := s.quest(aim)
	if why := q.usableAll(units.Longest); len(why) > 0 {
		return result{why: why, complete: true}
	}
	q.narrow = q.spineFor(q.leastStack())
	switch aim {
	case Thinnest:
		q.thinnest()
	case FewestSheets:
		if !s.anySheets() {
			return result{why: []Reason{ofAll(Reason{Cause: NoSheets})}} // which is all there is to say: search knows
		}
		q.fewest()
	default:
		q.run()
		if aim == Smallest && q.best != nil {
			first := *q.best // whose reasons are another's
			if s.first = &first; q.complete {
				s.smallest = q.best.cover
			}
		}
	}
	if q.best == nil {
		complete := q.complete
		if len(q.why) == 0 {
			q.note(s.without(aim))
		}
		return result{why: q.why, complete: complete}
	}
	return q.told()
}

// told gives the best folio its reasons.
func (q *quest) told() result {
	f := q.best
	if !f.counted {
		q.layOut(f, f.plan)
	}
	f.held = slices.Clone(f.held)
	for i := range f.held {
		f.held[i].why = q.reasons(f.held, i)
	}
	return result{proposal: &Proposal{aim: q.aim, found: f, complete: q.complete, out: q.others()}, complete: q.complete, least: q.least, low: q.low}
}

// quest begins a search for an aim within the limits.
func (s *searcher) quest(aim Aim) *quest {
	q := &quest{searcher: s, aim: aim, most: s.thickest()}
	q.spine = s.spineWithin(q.most)
	return q
}

// without says which limit left nothing to try: what the cover would be, and the
// thickness, if none of them were.
func (s *searcher) without(aim Aim) Reason {
	s.anyCover = true
	q := s.quest(aim)
	q.usableAll(units.Longest)
	least, any := q.smallestCover()
	s.anyCover = false
	if !any && s.over() {
		return ofAll(Reason{Cause: NotTried})
	}
	if why, ok := s.fits(least); any && !ok {
		return why
	}
	return ofAll(Reason{Cause: CannotBe, Detail: "no cover within the limits, or up to " + s.notation.Text(s.roomy) + ", takes all of it"})
}

// smallestCover returns the smallest cover that takes everything, whatever comes
// of it, and whether there is one.
func (q *quest) smallestCover() (least units.Size, ok bool) {
	list := newChoices(q.searcher, q.opts)
	useful := func(c units.Size) bool { return !ok || order(c, least) < 0 }
	for next, more, _ := list.next(); more && !q.over() && !(ok && q.area(next.takes) > microArea(least)); next, more, _ = list.next() {
		covers, _ := q.covers(list.picked(next), useful)
		for _, c := range covers {
			if useful(c.cover) {
				least, ok = c.cover, true
			}
		}
	}
	return least, ok
}

// usableAll takes the options of each thing, and says which thing has none.
func (q *quest) usableAll(most units.Length) []Reason {
	var why []Reason
	q.opts = make([][]option, len(q.all))
	for i := range q.all {
		if q.opts[i] = q.usable(q.aim, i, most); len(q.opts[i]) > 0 {
			continue
		}
		t := &q.request.Things[i]
		why = append(why, Reason{Cause: NothingHolds, Thing: i, Name: t.Content.Name, Count: max(t.Count, 1)})
		for _, o := range q.out {
			if o.Thing == i {
				why = append(why, o.Why)
			}
		}
	}
	return why
}

// leastStack returns a stack than which none is lower: each thing is held by
// itself in some way.
func (q *quest) leastStack() units.Length {
	var least units.Length
	for i := range q.opts {
		low := q.opts[i][0].box.height
		for _, o := range q.opts[i] {
			low = min(low, o.box.height)
		}
		least = max(least, low)
	}
	return least
}

// thinnest goes from the thickness that each thing by itself needs to greater ones,
// a step at a time.
func (q *quest) thinnest() {
	widest := q.most
	if q.low = q.thinOf(q.narrow); q.low > widest {
		q.note(ofAll(Reason{Cause: OverThick, Thick: q.low, ThanThick: widest, AtLeast: true}))
		return
	}
	var thick units.Length
	for i := range q.opts {
		for _, o := range q.opts[i] {
			thick = max(thick, o.box.height)
		}
	}
	var under units.Length
	if q.layered {
		under = q.underFor(2 * thick)
	}
	most := min(widest, q.thickOf(q.spineFor(2*thick), under))
	if q.first != nil {
		most = min(most, q.first.thick)
	}
	q.spend(StepsOfFitting)
	sure := true
	for at := q.low; !q.over(); at = min(at+q.ruler.Step(), most) {
		q.upTo(at)
		if q.best != nil || at == most {
			break
		}
		if sure = sure && q.complete; sure {
			q.low = at + q.ruler.Step()
		}
		q.spend(StepsOfFitting)
	}
	switch {
	case q.best != nil:
	case q.first != nil:
		q.best = q.first
		sure = sure && !q.over()
	case q.over():
		q.allow(widest)
	case most < widest: // it is thicker than what lies in it
		sure = false
		q.upTo(widest)
	}
	q.complete = sure
}

// allow sets how thick a folio may be; what was too thick for less is not said any
// more.
func (q *quest) allow(thick units.Length) {
	q.most, q.spine = thick, q.spineWithin(thick)
	q.why = slices.DeleteFunc(q.why, func(r Reason) bool { return r.Cause == OverThick || r.Cause == OverDepth })
}

// upTo searches among the folios that are no thicker.
func (q *quest) upTo(thick units.Length) {
	q.allow(thick)
	q.usableAll(q.stackFor(q.spine))
	q.run()
}

// mostLaid bounds how many covers of a choice are laid out on sheets.
const mostLaid = 6

// fewest lays the smallest covers of each choice out on sheets, until no fewer
// can do.
func (q *quest) fewest() {
	if f := q.first; f != nil {
		if _, bad := q.layOut(f, f.plan); !bad && q.takeFewer(f) {
			return
		}
	}
	list := newChoices(q.searcher, q.opts)
	for n := 0; ; n++ {
		next, ok, _ := list.next()
		if !ok || n > 0 && q.over() {
			return
		}
		opts := list.picked(next)
		covers, _ := q.covers(opts, q.smallEnough)
		if q.layCovers(opts, covers) {
			return
		}
	}
}

// layCovers builds the covers of a choice and lays them out, smallest first, and
// reports whether one takes as few sheets as can be.
func (q *quest) layCovers(opts []option, covers []candidate) bool {
	laid := 0
	var last units.Size
	for i := range covers {
		c := &covers[i]
		if laid == mostLaid || i > 0 && q.over() {
			return false
		}
		if c.cover == last || !q.smallEnough(c.cover) || q.seemsThick(opts, c) {
			continue
		}
		if why, ok := q.fits(c.cover); !ok {
			q.note(why)
			continue
		}
		if why, ok := q.comesOut(c.cover); !ok {
			q.note(why)
			continue
		}
		f, why, _ := q.verify(opts, c, q.most)
		if f == nil {
			q.note(why)
			continue
		}
		last = c.cover
		laid++
		if why, bad := q.layOut(f, f.plan); bad {
			q.note(why)
			continue
		}
		if q.takeFewer(f) {
			return true
		}
	}
	return false
}

// takeFewer keeps a folio that takes fewer sheets than the best so far, or as
// many and is better else, and reports whether the best takes as few as can be.
func (q *quest) takeFewer(f *found) bool {
	if q.best == nil || cmp.Or(f.sheets-q.best.sheets, q.against(f.cover, f.thick, f.opts)) < 0 {
		q.best = f
	}
	q.least = q.leastSheets(f.plan)
	q.complete = q.best.sheets <= q.least
	return q.complete
}

// leastSheets is how many bought sheets no folio can do without: of each
// material one, and as many as the least area that is needed of it fills: every
// board as wide as the smallest cover, of the board and of the covering, and of the fittings'
// material what the ways that need the least of it take.
func (q *quest) leastSheets(p *folio.Plan) int {
	full := 0
	for i := range q.leaves {
		if q.leaves[i].rule == boards.WidthCover {
			full++
		}
	}
	covers := q.smallest.Area().Times(int64(full))
	var cards units.Area
	for _, list := range q.opts {
		var least units.Area
		for i, o := range list {
			if a := o.cards.Times(int64(o.number)); i == 0 || a.Compare(least) < 0 {
				least = a
			}
		}
		cards = cards.Plus(least)
	}
	filled := q.full.WithDefaults()
	total := 0
	for _, m := range q.materials(p) {
		var needs units.Area
		switch m.Name {
		case filled.Board.Name:
			needs = covers
		case filled.Covering.Name:
			if filled.Quarter.Rule == rule.QuarterNever { // or the spine strip covers a part
				needs = covers
			}
		case filled.Liner.Name:
		case q.stock:
			needs = cards
		default:
			continue
		}
		var sheet units.Size
		offcuts := false
		for _, k := range m.Sheets {
			if offcuts = offcuts || k.Offcut; k.Size.Area().Compare(sheet.Area()) > 0 {
				sheet = k.Size
			}
		}
		if offcuts {
			continue // which are not bought
		}
		n := int64(1)
		for sheet.Area().Times(n).Compare(needs) < 0 {
			n++
		}
		total += int(n)
	}
	return total
}

// others says of each way that was not taken why it was not.
func (q *quest) others() []RuledOut {
	before := q.meter
	q.meter, q.builds = &meter{until: q.until, left: q.share / 4}, &meter{until: q.until, left: q.share / 2}
	defer func() {
		before.done += q.done + q.builds.done
		q.meter = before
	}()
	f := q.best
	var out []RuledOut
	for i := range q.request.Things {
		taken := f.opts[i].way
		for w := Holder(0); w < ways; w++ {
			if w == taken {
				continue
			}
			if k := slices.IndexFunc(q.out, func(o RuledOut) bool { return o.Thing == i && o.Way == w }); k >= 0 {
				out = append(out, q.out[k])
				continue
			}
			out = append(out, RuledOut{Thing: i, Way: w, Why: q.instead(i, w)})
		}
	}
	return out
}

// instead says what would come of holding one thing in another way.
func (q *quest) instead(thing int, w Holder) Reason {
	f, t := q.best, &q.request.Things[thing]
	why := Reason{Cause: NotTried, Thing: thing, Way: w, Count: max(t.Count, 1), Name: t.Content.Name}
	if q.aim == AllInView && !w.InView() && t.Sight != TuckedAway {
		why.Cause = WouldHide
		return why
	}
	if !slices.ContainsFunc(q.all[thing], func(o option) bool { return o.way == w }) {
		why.Cause = LessWork // of all that can be made a plainer one takes the same
		return why
	}
	opts := slices.Clone(f.opts)
	var best *candidate
	var with option
	var all []candidate
	low := units.Longest // of what lies between the covers
	for _, o := range q.all[thing] {
		if o.way != w {
			continue
		}
		opts[thing], low = o, min(low, o.box.height)
		list, whole := q.covers(opts, func(c units.Size) bool { return best == nil || order(c, best.cover) <= 0 })
		if !whole {
			return why
		}
		if len(list) > 0 && (best == nil || order(list[0].cover, best.cover) < 0) {
			best, with, all = &list[0], o, list
		}
	}
	for i := range opts {
		if i != thing {
			low = max(low, opts[i].box.height)
		}
	}
	thick := q.thinOf(q.spineFor(low))
	opts[thing] = with
	larger := best != nil && best.cover.Area().Compare(f.cover.Area()) > 0 && (q.aim != Thinnest || thick <= f.thick)
	var built *found
	switch {
	case best == nil:
	case q.aim == Thinnest && !larger && thick > f.thick:
		built = q.firstOf(opts, all, thick)
	case larger, thick > f.thick, q.aim == FewestSheets:
		built = q.firstOf(opts, all, units.Longest)
	}
	if built != nil && q.aim == FewestSheets {
		q.layOut(built, built.plan) // of what does not come out of the sheets none are counted
	}
	switch {
	case built != nil && q.aim == FewestSheets && built.sheets > f.sheets:
		why.Cause, why.Sheets, why.ThanSheets = MoreSheets, built.sheets, f.sheets
	case best == nil:
		why.Cause = CannotBe
		why.Detail = "no cover within the limits takes it"
	case larger:
		why.Cause, why.Size, why.Than, why.AtLeast = Larger, best.cover, f.cover, built == nil || built.cover != best.cover
	case thick > f.thick:
		why.Cause, why.Thick, why.ThanThick, why.AtLeast = Thicker, thick, f.thick, built == nil || built.thick != thick
	default:
		why.Cause = NoBetter
	}
	return why
}

// firstOf builds the first that does of the smallest covers of a choice, or of all of
// them one that is no thicker than that.
func (q *quest) firstOf(opts []option, covers []candidate, thin units.Length) *found {
	looked := q.meter
	q.meter = q.builds
	defer func() { q.meter = looked }()
	for i := range min(len(covers), mostEqual) {
		c := &covers[i]
		if q.over() || thin == units.Longest && c.cover != covers[0].cover {
			break
		}
		if f, _, _ := q.verify(opts, c, min(thin, q.thickest())); f != nil {
			return f
		}
	}
	return nil
}

// reasons says why something is held as it is, and lies where it does.
func (s *searcher) reasons(held []Held, i int) []Reason {
	h := &held[i]
	t := &s.request.Things[h.Thing]
	n := t.Count
	var all []Reason
	add := func(c Cause, count int) {
		r := Reason{Cause: c, Thing: h.Thing, Name: t.Content.Name, Way: h.Way, Count: count}
		if c == TakesThick {
			r.Thick = s.thickness(h)
		}
		all = append(all, r)
	}
	if h.Way.InView() {
		add(Shown, 1)
	} else {
		add(Hidden, h.Copies)
	}
	if h.Way == Mat {
		add(MayStick, 1)
	} else {
		add(ComesOut, h.Copies)
	}
	if h.Way == Gusset && s.thickness(h) > pocket.FlatLimit {
		add(TakesThick, h.Copies)
	}
	switch {
	case n > 1 && h.Copies == n:
		add(InOne, n)
	case n > 1:
		add(EachItsOwn, n)
	}
	if h.Way == GussetRun || h.Way == Accordion {
		add(EachItsOwn, n)
	}
	if s.request.Taste.Order == Centred {
		add(InMiddle, 1)
	} else {
		add(AtHead, 1)
	}
	beside := slices.ContainsFunc(held, func(o Held) bool {
		return o.Panel == h.Panel && o.Thing != h.Thing && (o.Way != h.Way || s.thickness(&o) != s.thickness(h))
	})
	if !s.request.Taste.Anyhow && beside {
		add(AtSpine, 1)
	}
	switch h.Way {
	case FoldedFlap:
		add(OpensToBack, 1)
	case Corners, Mat:
	default:
		add(OpensToHead, 1)
	}
	return all
}

// thickness is how thick all of what a fitting holds is together.
func (s *searcher) thickness(h *Held) units.Length {
	l, _ := s.request.Things[h.Thing].Content.Thickness.Times(int64(h.Copies))
	return l
}
