package propose

import (
	"boardwrap.example/internal/stop"
	"boardwrap.example/score"
	"cmp"
	"slices"
	"sort"
	"strconv"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/inorder"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Folios searches for the folios that hold what a request asks for: for each aim
// the best one, of the form with which it is best, or why there is none.
//
// The error is a *[check.Error] of what is wrong with the request, paths as in
// the Request, or that of the Stopper where it ended the search before there was
// any folio; a nil one never ends. A folio that cannot be, because a thing is too large or a limit too
// narrow, is no error: [Proposals.Lacking] says why. Nor is one of several forms in
// which no case can be built: [Proposal.OtherForms] says why.
func Folios(until score.Stopper, r Request, b Budget) (*Proposals, error) {
	var bad check.List
	if b.Steps < 0 {
		bad.Malformed("budget.steps", check.Negative, strconv.FormatInt(b.Steps, 10), "0 for the default, or more")
	}
	r.check(&bad)
	if err := bad.Err(); err != nil {
		return nil, err
	}
	until = stop.Of(until)
	trials, err := tried(until, &r, b)
	if err != nil {
		return nil, err
	}
	out := &Proposals{forms: len(trials)}
	for _, t := range trials {
		if t.err == nil {
			out.notation, out.steps = t.notation, out.steps+t.steps
		}
	}
	for aim := Aim(0); aim < aims; aim++ {
		if p, lacking := choose(aim, trials); p != nil {
			out.list = append(out.list, *p)
		} else {
			out.lacking = append(out.lacking, lacking)
		}
	}
	if err := until.Err(); err != nil && len(out.list) == 0 {
		return nil, err
	}
	return out, nil
}

// tried searches for folios of each form. The error is of cases none of which can
// be built.
func tried(until score.Stopper, r *Request, b Budget) ([]*trial, error) {
	if b.Steps == 0 {
		b.Steps = DefaultSteps
	}
	requests, forms := r.among()
	b.Steps = max(1, b.Steps/int64(len(requests)))
	trials := make([]*trial, len(requests))
	some := false
	for i := range requests {
		at := ""
		if len(r.Forms) > 0 {
			at = check.Index("forms", i)
		}
		trials[i] = begun(until, requests[i], forms[i], i, at, b)
		some = some || trials[i].err == nil
	}
	if !some {
		return nil, allWrong(trials)
	}
	for _, t := range trials {
		switch {
		case t.err != nil:
		case until.Err() != nil: // what one more form comes to nobody waits for
			for aim := range t.got {
				t.got[aim].why = []Reason{ofAll(Reason{Cause: NotTried})}
			}
		default:
			t.search(until)
		}
	}
	return trials, nil
}

// search searches for the best folio of the form for each aim.
func (t *trial) search(until score.Stopper) {
	for i := range t.request.Things {
		t.options(i)
	}
	for aim := Aim(0); aim < aims; aim++ {
		t.meter = &meter{until: until, left: t.share}
		got := t.propose(aim)
		if got.proposal == nil && t.meets && t.least == (units.Size{}) && t.grow() {
			got = t.propose(aim)
		}
		if got.proposal != nil {
			got.proposal.form, got.proposal.index = t.form, t.index
		} else if aim != AllInView && aim != Smallest { // what has a folio has a smallest one
			got.complete = t.got[Smallest].complete && t.got[Smallest].proposal == nil || t.noSheets(aim)
		}
		t.got[aim], t.steps = got, t.steps+t.done
	}
	for aim := Aim(0); aim < aims; aim++ {
		t.keep(aim)
	}
}

// keep gives an aim, of which the search ended early, what was found for others
// where that is better than its own, or all that there is.
func (t *trial) keep(aim Aim) {
	got := t.got[aim]
	if got.complete || t.noSheets(aim) {
		return
	}
	best := got.proposal
	for other := range t.got {
		p := t.got[other].proposal
		if p != nil && t.serves(p, aim) && (best == nil || aim.order(p, best) < 0) {
			best = p
		}
	}
	if best == got.proposal {
		return
	}
	t.meter = &meter{until: t.until}
	q := t.quest(aim)
	q.usableAll(units.Longest)
	f := *best.found // whose reasons are another's
	q.best, q.least, q.low, q.complete = &f, got.least, got.low, false
	kept := q.told()
	kept.proposal.form, kept.proposal.index = t.form, t.index
	t.got[aim], t.steps = kept, t.steps+t.done
}

// serves reports whether a folio that was found for another aim does for this one.
func (t *trial) serves(p *Proposal, aim Aim) bool {
	return aim != AllInView || !slices.ContainsFunc(p.found.held, func(h Held) bool {
		return !h.Way.InView() && t.request.Things[h.Thing].Sight != TuckedAway
	})
}

// noSheets reports whether sheets are to be counted and there are none.
func (s *searcher) noSheets(aim Aim) bool { return aim == FewestSheets && !s.anySheets() }

// A searcher carries the search.
type searcher struct {
	*meter
	share     int64 // of the budget, for one aim
	steps     int64 // that were taken for all aims
	request   Request
	full      folio.Spec // the case, with its sheets
	bare      folio.Spec // without those of boards, covering and liner
	stock     string     // of the fittings
	notation  units.Notation
	ruler     units.Ruler // of boards
	fitting   units.Ruler
	clear     units.Length // the case's clearance
	margin    units.Length
	between   units.Length
	grip      units.Length
	ease      units.Length
	leaves    []leaf       // that carry fittings, left to right
	main      int          // the one that stays on the table
	trial     int          // the one on which ways are tried
	soft      bool         // no board of the row stands
	layered   bool         // something lies over an outside
	roomy     units.Length // a cover and a spine larger than what anyone folds
	meets     bool         // there was a cover on which the turn-ins or their mitres meet
	least     units.Size   // no smaller cover is tried; set where all that are just large enough are such
	narrowest units.Length // of a cover, whatever lies on it: the widest board where none is as wide as the cover
	extra     units.Length // of a cover's height, beyond what lies on it, at the least
	more      units.Length // by how much that is more on some covers
	phases    int          // how many spines in a row leave all that any leaves of the boards; 0 where all leave the same
	rough     bool         // it is counted with the least that is left of the boards
	slack     units.Length // a spine is so much wider than the room it leaves
	slacker   units.Length // likewise of the room under what lies over an outside
	thick     units.Length // of the closed folio, beyond the spines
	bySpine   units.Length // how often the spine counts in that
	byUnder   units.Length // how often the room under what lies over an outside does
	closed    units.Size   // of the closed folio, beyond the cover
	follows   bool         // whether it is so much more whatever the cover
	smallest  units.Size   // the proved smallest cover, zero where there is none
	anyCover  bool         // the limits do not count, for once
	first     *found       // the smallest that was found
	last      *folio.Plan  // whose designs are used again
	all       [][]option   // of each thing
	out       []RuledOut
}

// plainCard is what fittings are made of where the request does not say.
const plainCard = "plain card"

func newSearcher(until score.Stopper, r Request, b Budget) *searcher {
	s := &searcher{meter: &meter{until: until, left: b.Steps}, share: b.Steps / aims, request: r, full: owned(r.Case), stock: r.Stock}
	s.request.Things = slices.Clone(r.Things)
	if s.stock == "" {
		s.stock = plainCard
		has := func(k stock.Stock) bool { return k.Name == plainCard }
		if c := &s.full; !slices.ContainsFunc(c.Stocks, has) && !slices.ContainsFunc([]stock.Stock{c.Board, c.Covering, c.SpineCovering, c.Liner}, has) {
			rulers := s.full.Rulers
			rulers.Fill()
			card := stock.DefaultCard(rulers.Main.Notation())
			card.Name, card.TwoSided = plainCard, true
			s.full.Stocks = append(s.full.Stocks, card)
		}
	}
	s.sheetsAtHand()
	s.bare = s.full
	for _, k := range [...]*stock.Stock{&s.bare.Board, &s.bare.Covering, &s.bare.SpineCovering, &s.bare.Liner} {
		k.Sheets = nil
	}
	filled := s.full.WithDefaults()
	s.notation = filled.Rulers.Main.Notation()
	s.ruler, s.fitting = filled.Rulers.Board, filled.Rulers.Fitting
	s.clear = filled.Clearance
	s.margin, s.between = orUsual(r.Taste.Margin, s.notation), orUsual(r.Taste.Between, s.notation)
	s.margin, s.between = s.fitting.Up(s.margin), s.fitting.Up(s.between)
	s.grip = s.fitting.Up(s.notation.Choose(units.Inch/4, 6*units.Millimetre))
	s.ease = max(filled.Closing.Ease, 0)
	s.all = make([][]option, len(r.Things))
	return s
}

// build builds a trial plan, with what was worked out before.
func (s *searcher) build(spec folio.Spec) (*folio.Plan, error) {
	s.spend(StepsOfFitting * (1 + len(spec.Fittings)))
	p, err := s.last.Again(spec)
	if err == nil && (s.last == nil || len(spec.Fittings) > len(s.bare.Fittings)) {
		s.last = p
	}
	return p, err
}

// spineFor returns the narrowest spine for a stack between the covers, and
// stackFor the thickest stack for a spine.
func (s *searcher) spineFor(stack units.Length) units.Length {
	return s.ruler.Up(max(stack+s.ease+s.slack, units.Shortest))
}

func (s *searcher) stackFor(spine units.Length) units.Length { return spine - s.slack - s.ease }

// A candidate is the row laid out.
type candidate struct {
	cover       units.Size
	parts       []*shape     // of each leaf; nil where nothing lies
	least, most units.Length // stacks: of the thickest by itself, of the thickest on two leaves
	high        units.Length // how thick what lies elsewhere than on the table is
}

// boxesOf returns the boxes of options.
func boxesOf(opts []option) []box {
	boxes := make([]box, len(opts))
	for i := range opts {
		boxes[i] = opts[i].box
	}
	return boxes
}

// covers lists the covers that a choice of options can lie on, the smallest
// first, and reports whether it is all of them: of too many it gives some, and
// none where the search ends.
func (s *searcher) covers(opts []option, useful func(units.Size) bool) (list []candidate, whole bool) {
	boxes := boxesOf(opts)
	p, ok := newPacker(s.meter, boxes, s.between, s.grip, s.largest())
	if !ok {
		return s.rows(boxes), false
	}
	p.useful = func(w, h units.Length) bool { return useful(s.around(w, h)) }
	if !p.all() {
		return nil, false
	}
	d := dealer{s: s, p: p, opts: opts, sets: make([]int, len(s.leaves)), useful: useful}
	d.least, d.most = s.stacks(p)
	whole = d.deal(0, p.sets-1)
	if s.least != (units.Size{}) {
		whole = false // what lies between the two is not tried
		for i := range d.list {
			d.list[i].cover = d.list[i].cover.Max(s.least)
		}
	}
	sortCovers(d.list)
	return d.list, whole
}

// grow finds how large a cover must be so that neither turn-ins nor mitres meet on
// it with a narrow spine, however little it holds: the lowest and then the narrowest
// within the smallest square that does. It reports whether there is one.
func (s *searcher) grow() bool {
	step := s.ruler.Step()
	least := func(most units.Length, cover func(units.Length) units.Size) (units.Length, bool) {
		n := int(most / step)
		i := sort.Search(n, func(i int) bool { return !s.meetOn(cover(units.Length(i+1) * step)) })
		return units.Length(i+1) * step, i < n
	}
	side, ok := least(s.roomy, func(l units.Length) units.Size { return units.Size{W: l, H: l} })
	if !ok {
		return false
	}
	high, _ := least(side, func(l units.Length) units.Size { return units.Size{W: side, H: l} })
	wide, _ := least(side, func(l units.Length) units.Size { return units.Size{W: l, H: high} })
	s.least = units.Size{W: wide, H: high}
	return true
}

// meetOn reports whether turn-ins or mitres meet on a cover with a narrow spine.
func (s *searcher) meetOn(cover units.Size) bool {
	spec := s.full
	spec.Cover = cover
	s.deepen(&spec, s.spineFor(0), 0)
	_, err := s.build(spec)
	return meet(err)
}

// meet reports whether turn-ins or mitres are said to meet.
func meet(err error) bool {
	bad, ok := err.(*check.Error)
	if !ok {
		return false
	}
	_, mitres := bad.Find("", folio.MitresMeet)
	_, edges := bad.Find("", folio.TurnInsMeet)
	return mitres || edges
}

func sortCovers(list []candidate) {
	inorder.Sort(list, func(a, b candidate) int {
		if c := order(a.cover, b.cover); c != 0 {
			return c
		}
		if c := cmp.Compare(a.most, b.most); c != 0 {
			return c
		}
		return cmp.Compare(a.high, b.high)
	})
}

// order puts covers in the order of the aim [Smallest].
func order(a, b units.Size) int {
	if c := a.Area().Compare(b.Area()); c != 0 {
		return c
	}
	return cmp.Compare(a.W, b.W)
}

// stacks returns the height of the thickest box of all, and of the thickest in
// each set.
func (s *searcher) stacks(p *packer) (least units.Length, most []units.Length) {
	most = make([]units.Length, p.sets)
	for set := range most {
		for i, b := range p.boxes {
			if p.digit(set, i) > 0 {
				most[set] = max(most[set], b.height)
			}
		}
	}
	return most[p.sets-1], most
}

// mostCover returns the largest cover within the limits that do not depend on
// what lies on it.
func (s *searcher) mostCover() units.Size {
	most := units.Size{W: s.roomy, H: s.roomy}
	if s.anyCover {
		return most
	}
	if c := s.request.Limits.Cover; c.W > 0 {
		most.W = min(most.W, c.W)
	}
	if c := s.request.Limits.Cover; c.H > 0 {
		most.H = min(most.H, c.H)
	}
	if in := s.request.Limits.Into; s.follows && (in.Size != units.Size{}) {
		long := max(in.Size.W, in.Size.H) - 2*in.Padding
		most = most.Min(units.Size{W: long - s.closed.W, H: long - s.closed.H})
	}
	return most
}

// A found is a folio that does.
type found struct {
	opts  []option
	cover units.Size
	spine units.Length
	under units.Length
	thick units.Length // closed, with that spine
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

// goes reports whether a cover is no worse than the best so far.
func (q *quest) goes(c units.Size) bool { return q.best == nil || order(c, q.best.cover) <= 0 }

// useful reports whether a cover may be the best, and is no larger than one that
// does not come out of the sheets.
func (q *quest) useful(c units.Size) bool { return q.smallEnough(c) && q.goes(c) }

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
		if q.best != nil {
			switch same := c.cover == q.best.cover; {
			case same && !q.plainer(q.thickOf(q.spineFor(c.least), 0), opts):
				continue
			case same:
				if equal++; equal > mostEqual {
					return
				}
			}
		}
		if i > 0 && q.over() {
			q.complete = false
			return
		}
		if c.least > limit {
			q.note(ofAll(Reason{Cause: OverThick, Thick: q.thickOf(q.spineFor(c.least), 0), ThanThick: q.most, AtLeast: true}))
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
		case q.best == nil || order(f.cover, q.best.cover) < 0 || order(f.cover, q.best.cover) == 0 && q.plainer(f.thick, opts):
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

// plainer reports whether so thin a folio, and then such ways to hold things, are
// better than those of the best so far.
func (q *quest) plainer(thick units.Length, opts []option) bool {
	return cmp.Or(cmp.Compare(thick, q.best.thick), rank(opts)-rank(q.best.opts)) < 0
}

// rank says how far the ways are from the plainest ones, and those without a
// turn.
func rank(opts []option) int {
	n := 0
	for _, o := range opts {
		n += 2 * int(o.way)
		if o.turned {
			n++
		}
	}
	return n
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

// thickest is how thick the limits allow the closed folio to be.
func (s *searcher) thickest() units.Length {
	most := s.thickOf(s.ample(), s.roomy)
	if s.anyCover {
		return most
	}
	if t := s.request.Limits.Thickness; t > 0 {
		most = min(most, t)
	}
	if in := s.request.Limits.Into; in.Depth > 0 {
		most = min(most, in.Depth-2*in.Padding)
	}
	return most
}

// fits checks the limits on a cover that do not depend on what lies on it.
func (s *searcher) fits(cover units.Size) (Reason, bool) {
	c := s.request.Limits.Cover
	if c.W > 0 && cover.W > c.W || c.H > 0 && cover.H > c.H {
		return ofAll(Reason{Cause: OverCover, Size: cover, Than: units.Size{W: orElse(c.W, cover.W), H: orElse(c.H, cover.H)}}), false
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
	q.deepen(&spec, q.narrow, 0)
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

// orElse returns a limit, or what there is where there is none.
func orElse(limit, is units.Length) units.Length {
	if limit == 0 {
		return is
	}
	return limit
}
