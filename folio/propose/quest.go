package propose

import (
	"cmp"
	"slices"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/fit"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A found is a folio that does.
type found struct {
	opts  []option
	cover units.Size
	spine units.Length
	under units.Length
	thick units.Length // closed, with that spine
	small bool         // whether sheets are too small for it
	plan  *folio.Plan
	spec  folio.Spec
	held  []Held
	ways  []fit.Berth
	// Counts of sheets, where any are at hand.
	sheets  int
	counted bool
}

// A quest is one search for an aim among choices of options.
type quest struct {
	*searcher
	aim      Aim
	opts     [][]option
	most     units.Length // the greatest thickness that counts
	spine    units.Length // the widest spine with it
	best     *found
	complete bool
	least    int          // how many sheets no folio can do without
	low      units.Length // than which none is thinner, where the thinnest is sought
	unsure   int          // how many covers were built that seemed too thick
	narrow   units.Length // a spine than which none is narrower
	bare     *folio.Plan  // the case with the last cover, where it can be made
	tooLarge []units.Size // covers that do not come out of the sheets even so
	why      []Reason     // the first of each cause that ruled a cover out
	builds   *meter       // of what is built to say what ruled other ways out
}

// goes reports whether a cover is no larger than that of the best so far.
func (q *quest) goes(c units.Size) bool {
	return q.best == nil || c.Area().Compare(q.best.cover.Area()) <= 0
}

// useful reports whether a cover may be the best, and is no larger than one that
// does not come out of the sheets.
func (q *quest) useful(c units.Size) bool { return q.smallEnough(c) && q.goes(c) }

// smallEnough reports whether a cover is no larger than one that does not come
// out of the sheets.
func (q *quest) smallEnough(c units.Size) bool {
	return !slices.ContainsFunc(q.tooLarge, func(over units.Size) bool { return over.FitsIn(c) })
}

// run goes through the choices, those that take the least area first.
func (q *quest) run() {
	q.complete = !q.rough
	list := newChoices(q.searcher, q.opts)
	for n := 0; ; n++ {
		next, ok, dropped := list.next()
		if !ok {
			return
		}
		q.complete = q.complete && !dropped
		if n > 0 && q.over() {
			q.complete = false
			return
		}
		if q.best != nil && q.area(next.takes) > microArea(q.best.cover) {
			return // and so is every choice after it
		}
		opts := list.picked(next)
		q.spend(len(opts))
		if !q.goes(q.floor(opts)) {
			continue
		}
		if n == 0 {
			q.plain(opts)
		}
		covers, whole := q.covers(opts, q.useful)
		q.complete = q.complete && whole
		q.tryCovers(opts, covers)
	}
}

// plain tries plain rows first, so that there is a folio whatever the budget; that
// they do not do says nothing of the rest.
func (q *quest) plain(opts []option) {
	complete := q.complete
	q.tryCovers(opts, q.rows(boxesOf(opts)))
	q.complete, q.unsure = complete, 0
}

// area returns the least area of a cover, in square micrometres, for what takes
// so much of all boards with what must be between: on a panel so much wider and
// higher, boxes so much wider and higher do not overlap.
func (q *quest) area(takes int64) int64 {
	for i := range q.leaves {
		if l := &q.leaves[i]; l.rule == boards.WidthFixed || min(l.inset.W, l.inset.H)+2*q.margin < q.between {
			return 0
		}
	}
	return takes / int64(len(q.leaves)) // none is larger than the cover
}

// microArea is an area of a cover in square micrometres, upwards.
func microArea(c units.Size) int64 { return (micro(c.W) + 1) * (micro(c.H) + 1) }

// floor returns a cover than which none is smaller: it takes each of the boxes.
func (q *quest) floor(opts []option) units.Size {
	var least units.Size
	for i := range opts {
		least = least.Max(units.Size{W: opts[i].box.w, H: opts[i].box.h})
	}
	return q.around(least.W, least.H)
}

const (
	// mostUnsure bounds how many covers are built that seem too thick and may turn
	// out not to be, mostEqual how many of a choice that are as large as the best so
	// far.
	mostUnsure = 64
	mostEqual  = 8
)

// tryCovers builds the covers of a choice, smallest first, as long as they may
// be better than the best so far.
func (q *quest) tryCovers(opts []option, covers []candidate) {
	equal := 0
	limit := q.stackFor(q.spine)
	for i := range covers {
		c := &covers[i]
		if !q.useful(c.cover) {
			continue
		}
		if q.best != nil && !q.better(c.cover, q.thinOf(q.spineFor(c.least)), opts) {
			continue
		}
		if q.best != nil && c.cover.Area() == q.best.cover.Area() {
			if equal++; equal > mostEqual {
				return
			}
		}
		if i > 0 && q.over() {
			q.complete = false
			return
		}
		if c.least > limit {
			q.note(ofAll(Reason{Cause: OverThick, Thick: q.thinOf(q.spineFor(c.least)), ThanThick: q.most, AtLeast: true}))
			return
		}
		if r, ok := q.fits(c.cover); !ok {
			q.note(r)
			continue
		}
		if r, ok := q.comesOut(c.cover); !ok {
			q.note(r)
			continue
		}
		if q.seemsThick(opts, c) {
			if q.unsure++; q.unsure > mostUnsure {
				q.complete = false
				continue
			}
		}
		f, why, sure := q.verify(opts, c, q.most)
		switch {
		case f == nil:
			q.note(why)
			q.complete = q.complete && sure
		case q.best == nil || q.better(f.cover, f.thick, opts):
			q.best = f
		}
	}
}

// seemsThick reports whether what lies on each other may be more than the widest spine
// takes.
func (q *quest) seemsThick(opts []option, c *candidate) bool {
	limit := q.stackFor(q.spine)
	return c.most > limit && q.stack(opts, c) > limit
}

// stack is how much lies between the insides at most: everything counts with its
// full height over all of its footprint. Where it is not known what faces what, it
// is the most that may be.
func (q *quest) stack(opts []option, c *candidate) units.Length {
	if q.bare == nil {
		return c.most
	}
	all := q.arrange(opts, c, q.panels(c.cover))
	q.spend(len(all) * len(all))
	rect := func(l laid) units.Rect {
		panel, _ := q.bare.Panel(q.leaves[l.leaf].role, false)
		b := opts[l.kind].box
		return units.RectAt(panel.Grow(-q.clear).Min.Plus(l.at), units.Size{W: b.w, H: b.h})
	}
	var most units.Length
	for i, a := range all {
		one := opts[a.kind].box
		most = max(most, one.height)
		for _, b := range all[i+1:] {
			if a.leaf == b.leaf {
				continue
			}
			on, faces := q.bare.Facing(rect(a), q.leaves[a.leaf].role, q.leaves[b.leaf].role)
			if faces && on.Overlaps(rect(b)) {
				most = max(most, one.height+opts[b.kind].box.height)
			}
		}
	}
	return most
}

// better reports whether a folio is better than the best so far, whatever the sheets.
func (q *quest) better(cover units.Size, thick units.Length, opts []option) bool {
	return q.against(cover, thick, opts) < 0
}

// against compares a folio with the best so far, less than 0 where it is better: by the
// area of its cover and by the work that its ways are, and then the narrower, the thinner
// one, in which less is turned. So nobody makes a strip with a flap where a slip pocket
// takes no more of the cover, only to have the folio upright.
func (q *quest) against(cover units.Size, thick units.Length, opts []option) int {
	b := q.best
	work, turns := plainness(opts)
	than, turned := plainness(b.opts)
	return cmp.Or(cover.Area().Compare(b.cover.Area()), work-than, cmp.Compare(cover.W, b.cover.W), cmp.Compare(thick, b.thick), turns-turned)
}

// plainness says how much work ways to hold things are, each fitting more the later its
// kind comes among [Holder]s, and how many of them are turned.
func plainness(opts []option) (work, turns int) {
	for _, o := range opts {
		work += o.number * (int(o.way) + 1)
		if o.turned {
			turns++
		}
	}
	return work, turns
}

// note keeps the first reason of each cause.
func (q *quest) note(r Reason) {
	l := &q.request.Limits
	if room := l.Into.Depth - 2*l.Into.Padding; r.Cause == OverThick && l.Into.Depth > 0 && r.ThanThick == room && (l.Thickness == 0 || l.Thickness > room) {
		r.Cause = OverDepth // it is the box that asks for it
	}
	if !slices.ContainsFunc(q.why, func(o Reason) bool { return o.Cause == r.Cause }) {
		q.why = append(q.why, r)
	}
}

// fits checks the limits on a cover that do not depend on what lies on it.
func (s *searcher) fits(cover units.Size) (Reason, bool) {
	c := s.request.Limits.Cover
	if most := (units.Size{W: cmp.Or(c.W, cover.W), H: cmp.Or(c.H, cover.H)}); !cover.FitsIn(most) {
		return ofAll(Reason{Cause: OverCover, Size: cover, Than: most}), false
	}
	in := s.request.Limits.Into
	shut := cover.Plus(s.closed.W, s.closed.H)
	if (in.Size != units.Size{}) && s.follows && !shut.Grow(in.Padding).FitsTurned(in.Size) {
		return ofAll(Reason{Cause: OverSpace, Size: shut, Than: in.Size}), false
	}
	return Reason{}, true
}

// comesOut builds the case of a cover by itself, with a narrow spine, and says why
// it does not come out of the sheets at hand: nor does any that is filled then,
// or larger.
func (q *quest) comesOut(cover units.Size) (Reason, bool) {
	spec := q.full
	spec.Cover = cover
	q.widen(&spec, q.narrow)
	p, err := q.build(spec)
	q.bare = p
	bad, ok := err.(*check.Error)
	if !ok {
		return Reason{}, true
	}
	q.meets = q.meets || meet(err)
	if _, small := bad.Find("", folio.SheetSmall); !small {
		return Reason{}, true
	}
	q.tooLarge = append(q.tooLarge, cover)
	return cannot(err), false
}
