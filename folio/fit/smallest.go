package fit

import (
	"context"
	"slices"
	"strconv"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// NotHeld is the code of contents that find no place in a folio.
const NotHeld check.Code = "not-held"

// Least is the smallest folio that holds what it must, with the proof: why a
// cover or a spine that is one step of the ruler smaller does not do.
type Least struct {
	plan              *folio.Plan
	ways              []Berth
	narrow, low, thin error
	complete          bool
	steps             int64
}

// Plan returns the smallest folio. Its Spec has the cover and the spine that
// were found, and a mat for each content that lies on a panel.
func (l Least) Plan() *folio.Plan { return l.plan }

// Ways returns where the contents lie in it, in their order.
func (l Least) Ways() []Berth { return append([]Berth(nil), l.ways...) }

// Proof returns why a cover one step narrower, a cover one step lower, and a
// spine one step narrower fail. The last one is nil where the Spec's rule
// decides on the spine; each is nil where the search ended before it was tried.
func (l Least) Proof() (narrower, lower, thinner error) {
	return l.narrow, l.low, l.thin
}

// Complete reports whether every smaller cover on the ruler was ruled out. It
// is false when the budget or the context ended the search.
func (l Least) Complete() bool { return l.complete }

// Steps returns how many steps of its budget the search took.
func (l Least) Steps() int64 { return l.steps }

// Smallest searches for the smallest folio in which every fitting of the Spec
// finds its place, which takes the contents besides, one in each spot of a
// fitting and one on each panel (see [Survey.All]), and which closes over all of
// it with the ease. Smallest is the cover with the least area, of equal ones the
// narrowest, on the ruler of boards; and then the narrowest spine for it. Cover
// and Spine.Width of the Spec do not count. A rule for the spine is kept; where no
// board stands, soft joints get the least Spine.Contents. Closing.UnderFlap is kept. Sheets limit only the result: if none
// takes it, none takes a larger one.
//
// The error is a *[check.Error], for what no cover could hold or no sheet takes,
// or that of the context where it ended the search before there was a folio.
func Smallest(ctx context.Context, s folio.Spec, b Budget, contents ...pocket.Content) (Least, error) {
	var bad check.List
	noBlock(&bad, s)
	soundRuler(&bad, s.WithDefaults().Rulers.Board)
	if len(contents) > MostContents {
		bad.Malformed("contents", check.TooMany, strconv.Itoa(len(contents)), "at most "+strconv.Itoa(MostContents))
		return Least{}, bad.Err()
	}
	bad.In(s.WithDefaults().Rulers.Main.Notation())
	checkContents(&bad, contents)
	if err := bad.Err(); err != nil {
		return Least{}, err
	}
	q := seeker{meter: newMeter(ctx, b), given: s, contents: contents}
	q.given.Fittings = append([]folio.Fitting(nil), s.Fittings...)
	return q.seek()
}

func checkContents(bad *check.List, contents []pocket.Content) {
	for i, c := range contents {
		bad.Size(check.Index("contents", i)+".size", c.Size)
		bad.Allowance(check.Index("contents", i)+".thickness", c.Thickness)
	}
}

// A seeker carries the search.
type seeker struct {
	*meter
	given    folio.Spec
	contents []pocket.Content
	step     units.Length
	ruler    units.Ruler
	spine    bool         // to be found
	soft     bool         // no board of the row stands
	roomy    units.Length // larger than what anyone folds, with a row within bounds
	last     *folio.Plan  // whose designs are used again
	unsure   bool         // a trial ended before it was known
}

// build builds a trial plan, with what was worked out before.
func (q *seeker) build(s folio.Spec) (*folio.Plan, error) {
	q.spend(1 + len(s.Fittings))
	p, err := q.last.Again(s)
	if err == nil && q.last == nil {
		q.last = p
	}
	return p, err
}

// try builds a plan that holds everything, with the sheets of the case or
// without. Contents that lie on panels become fittings.
func (q *seeker) try(cover units.Size, spine units.Length, sheets bool) (*folio.Plan, []Berth, error) {
	s := q.at(cover, spine, sheets)
	p, err := q.build(s)
	if err != nil || len(q.contents) == 0 {
		return p, nil, err
	}
	q.spend(len(q.contents))
	survey := Of(p)
	ways, err := q.all(survey)
	if err != nil {
		return nil, nil, q.inCover(err, p.Notation(), cover)
	}
	s.Fittings = s.Fittings[:len(s.Fittings):len(s.Fittings)]
	for _, w := range ways {
		if w.room.kind != OnPanel {
			continue
		}
		mat := w.content.Size.Grow(survey.reveal)
		mat = units.Size{W: survey.ruler.Up(mat.W), H: survey.ruler.Up(mat.H)}
		in := middle(units.RectAt(units.Point{}, mat), w.content.Size)
		at := w.rect.Min.Plus(units.Point{X: -in.Min.X - w.room.rect.Min.X, Y: -in.Min.Y - w.room.rect.Min.Y})
		s.Fittings = append(s.Fittings, folio.Fitting{
			Kind: folio.Mat{Picture: w.content, Reveal: survey.reveal}, Panel: w.room.panel,
			Place: place.Place{Across: place.Left, Along: place.Head, Offset: at},
		})
	}
	p, err = q.build(s)
	return p, ways, err
}

// at is the Spec of a trial plan.
func (q *seeker) at(cover units.Size, spine units.Length, sheets bool) folio.Spec {
	s := q.given
	s.Cover = cover
	if q.spine {
		if q.soft {
			s.Spine.Contents = spine
		} else {
			s.Spine.Width = spine
		}
	}
	if !sheets {
		for _, stock := range [...]*stock.Stock{&s.Board, &s.Covering, &s.SpineCovering, &s.Liner} {
			stock.Sheets = nil
		}
	}
	return s
}

// trialSteps is what a trial plan may take to lay its contents at the least, so
// that what was found when the budget ends still gets its spine.
const trialSteps = 2_000

// all lays the contents in a trial plan.
func (q *seeker) all(s *Survey) ([]Berth, error) {
	m := newMeter(q.ctx, Budget{Steps: max(q.left, trialSteps)})
	ways, err := s.all(m, 0, q.contents)
	q.spend(int(m.done))
	if bad, ok := err.(*check.Error); ok {
		_, ended := bad.Find("", NotFinished)
		q.unsure = q.unsure || ended
	}
	return ways, err
}

// inCover says in which cover contents found no room.
func (q *seeker) inCover(err error, n units.Notation, cover units.Size) error {
	bad, ok := err.(*check.Error)
	if !ok {
		return err
	}
	var out check.List
	for v := range bad.All() {
		if v.Code == NotHeld && cover.W < q.roomy {
			v.Got += " in a cover of " + sizeText(n, cover)
		}
		out.Add(v)
	}
	return out.Err()
}

// eased reports, as an error, that a plan closes with less than its ease.
func (q *seeker) eased(p *folio.Plan) error {
	for m := closing.BetweenCovers; m <= closing.BetweenOutsides; m++ {
		if t, ok := p.TightestOf(m, true); ok && !t.Eased() {
			var bad check.List
			bad.Impossible("closing.ease", folio.WarnEase, t.String(), "an ease of "+p.Notation().Text(max(p.Spec().Closing.Ease, 0)))
			return bad.Err()
		}
	}
	return nil
}

// holds is try with the ease asked for.
func (q *seeker) holds(cover units.Size, spine units.Length, sheets bool) (*folio.Plan, []Berth, error) {
	p, ways, err := q.try(cover, spine, sheets)
	if err == nil && q.spine {
		err = q.eased(p)
	}
	if err != nil {
		return nil, nil, err
	}
	return p, ways, nil
}

// roomiest builds a plan with a cover and a spine larger than what anyone folds. A
// row of many boards has them smaller, so that it is not too long.
func (q *seeker) roomiest() (*folio.Plan, []Berth, error) {
	for q.roomy = units.Metre; ; q.roomy = q.roomy.Half(units.Down) {
		p, ways, err := q.try(units.Size{W: q.roomy, H: q.roomy}, q.roomy, false)
		bad, ok := err.(*check.Error)
		if !ok || q.roomy < units.Metre/4 {
			return p, ways, err
		}
		if _, long := bad.Find("cover.w", check.TooLarge); !long {
			return p, ways, err
		}
	}
}

func (q *seeker) seek() (Least, error) {
	full := q.given.WithDefaults()
	q.ruler = full.Rulers.Board
	q.step = q.ruler.Step()
	q.soft = !slices.ContainsFunc(rowOf(full), func(b boards.Board) bool { return b.Role.Spine() })
	q.spine = full.Spine.Rule == rule.SpineDefault
	if q.soft {
		q.spine = goesRound(full)
	}
	p, ways, err := q.roomiest()
	if err != nil {
		return Least{}, err
	}

	// What no cover can be smaller than.
	low := q.least(p)
	cover, complete := q.cover(low, q.onPanels(p, ways))
	out := Least{complete: complete}
	// Where the context has ended, what has been found still gets its spine: that
	// takes some dozens of plans.
	q.ctx, q.ended = context.WithoutCancel(q.ctx), q.ctx.Err() != nil
	spine, err := q.settle(&cover, &out)
	if err != nil {
		return Least{}, err
	}
	out.plan, out.ways, err = q.holds(cover, spine, true)
	out.steps, out.complete = q.done, out.complete && !q.unsure
	if err != nil {
		return Least{}, err
	}
	return out, nil
}

// settle finds the spine for a cover, and proves that one step smaller fails:
// where a place is not what a larger cover would suggest, it may not, and is
// taken.
func (q *seeker) settle(cover *units.Size, out *Least) (units.Length, error) {
	var spine units.Length
	for {
		found, ok := q.spineFor(*cover)
		if !ok {
			_, _, err := q.holds(*cover, q.roomy, false)
			if err == nil {
				var bad check.List
				bad.Impossible("spine", check.TooLarge, "no spine up to "+q.ruler.Notation().Text(q.roomy), "fittings that a spine goes round")
				err = bad.Err()
			}
			return 0, err
		}
		spine = found
		out.narrow, out.low = nil, nil
		if q.over() {
			out.complete = false
			break
		}
		if _, _, out.narrow = q.holds(cover.Plus(-q.step, 0), spine, true); out.narrow == nil {
			cover.W -= q.step
			continue
		}
		if _, _, out.low = q.holds(cover.Plus(0, -q.step), spine, true); out.low == nil {
			cover.H -= q.step
			continue
		}
		break
	}
	switch less := spine - q.step; {
	case !q.spine || q.over():
	case less >= units.Shortest:
		_, _, out.thin = q.holds(*cover, less, true)
	default:
		var bad check.List
		bad.Short("spine.width", check.TooSmall, q.ruler.Notation(), less, units.Shortest, "")
		out.thin = bad.Err()
	}
	return spine, nil
}

// least returns a cover that nothing smaller than can do: it holds each
// fitting on its own.
func (q *seeker) least(p *folio.Plan) units.Size {
	spec := p.Spec()
	inside := 2 * (spec.Lining.Inset + spec.Clearance)
	low := units.Size{W: max(units.Shortest, 2*spec.Lining.Inset+1), H: max(units.Shortest, 2*spec.Lining.Inset+1)}
	for f := range p.Fittings() {
		if _, stands := f.StandsOn(); stands || f.Index() >= len(q.given.Fittings) {
			continue
		}
		need := f.Rect().Size()
		if !f.Outside() {
			need = need.Plus(inside, inside)
		} else {
			need = need.Plus(2*spec.Clearance, 2*spec.Clearance)
		}
		low.W = max(low.W, coverFor(spec, f.Panel(), need.W))
		low.H = max(low.H, need.H)
	}
	return units.Size{W: q.ruler.Up(low.W), H: q.ruler.Up(low.H)}
}

// rowOf returns the boards of the row of a Spec.
func rowOf(s folio.Spec) []boards.Board {
	if len(s.Row.Boards) > 0 {
		return s.Row.Boards
	}
	return s.Form.Row().Boards
}

// goesRound reports whether each joint of a row without a standing board goes round
// what the Spec says lies between.
func goesRound(s folio.Spec) bool {
	if len(s.Row.Boards) == 0 {
		return s.Hinge.Rule == rule.HingeRoundContents
	}
	return !slices.ContainsFunc(s.Row.Joints, func(j boards.Joint) bool { return j.Hinge.Rule != rule.HingeRoundContents })
}

// coverFor returns a width that a cover has at the least with which a board is so
// wide, 0 where the board does not follow from the cover.
func coverFor(s folio.Spec, role boards.Role, wide units.Length) units.Length {
	row := rowOf(s)
	at := slices.IndexFunc(row, func(b boards.Board) bool { return b.Role == role })
	if at < 0 || role.Spine() {
		return 0
	}
	switch b := row[at]; {
	case b.Rule == boards.WidthFixed, b.Rule == boards.WidthDefault && b.Width != 0, b.Rule == boards.WidthHalf && s.FlapWidth != 0:
		return 0
	case b.Rule == boards.WidthHalf:
		return 2 * wide
	case b.Rule == boards.WidthShared:
		shares := 0
		for _, o := range row {
			if o.Rule == boards.WidthShared {
				shares++
			}
		}
		w, _ := wide.Times(int64(shares))
		return w + max(s.DoorGap, 0)
	}
	return wide
}

// onPanels returns the contents that go nowhere but on a panel, with what is
// round them there.
func (q *seeker) onPanels(p *folio.Plan, ways []Berth) []units.Size {
	var out []units.Size
	if len(ways) == 0 {
		return nil
	}
	survey, spec := Of(p), p.Spec()
	for i, c := range q.contents {
		elsewhere := ways[i].room.kind != OnPanel
		for k, r := range survey.rooms {
			if elsewhere {
				break
			}
			// What lies on a panel in this plan has a mat there, which is not one
			// of the Spec's fittings.
			if r.kind != OnPanel && r.fitting < len(q.given.Fittings) {
				_, elsewhere = survey.Takes(k, c)
			}
		}
		if !elsewhere {
			out = append(out, c.Size.Grow(survey.reveal+spec.Lining.Inset+spec.Clearance))
		}
	}
	return out
}

// cover searches every cover on the ruler from the bound up, pruned by the
// least area found so far, and reports whether it got through.
func (q *seeker) cover(low units.Size, alone []units.Size) (units.Size, bool) {
	fits := func(c units.Size) bool {
		for _, a := range alone {
			if !a.FitsTurned(c) {
				return false
			}
		}
		_, _, err := q.try(c, q.roomy, false)
		return err == nil
	}
	if fits(low) {
		return low, true
	}
	best, ok := q.someCover(low, fits)
	if !ok {
		return best, false
	}
	for w := low.W; w.By(low.H).Compare(best.Area()) < 0; w += q.step {
		q.spend(1)
		if q.over() {
			return best, false
		}
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
				break
			}
		}
	}
	return best, true
}

// someCover finds a cover that does: growing both sides by doubling steps, then
// each side brought down as far as it goes. It reports whether it got so far; if
// not, the cover is the roomy one, or one that does all the same.
func (q *seeker) someCover(low units.Size, fits func(units.Size) bool) (units.Size, bool) {
	known := units.Size{W: q.roomy, H: q.roomy}
	best := low
	for n := q.step; best.W < q.roomy && best.H < q.roomy; n *= 2 {
		if q.over() {
			return known, false
		}
		if best = low.Plus(n, n); fits(best) {
			known = best
			break
		}
	}
	if best.W >= q.roomy || best.H >= q.roomy {
		known = units.Size{W: q.ruler.Up(q.roomy), H: q.ruler.Up(q.roomy)}
	}
	best = known
	for _, side := range [...]func(*units.Size) *units.Length{
		func(c *units.Size) *units.Length { return &c.W },
		func(c *units.Size) *units.Length { return &c.H },
	} {
		at, floor := side(&best), *side(&low)
		good, no := *at, floor-q.step
		for good-no > q.step {
			if q.over() {
				*at = good
				return best, false
			}
			if *at = q.between(no, good); fits(best) {
				good = *at
			} else {
				no = *at
			}
		}
		*at = good
	}
	return best, true
}

// between returns a graduation of the ruler about halfway between two that are
// more than a step apart.
func (q *seeker) between(no, good units.Length) units.Length {
	mid := q.ruler.Down(no + (good - no).Half(units.Down))
	if mid <= no {
		mid = no + q.step
	}
	return mid
}

// lowest returns the least height with which a cover of width w may take each
// of the sizes, in one direction or the other, and whether there is one.
func lowest(w, h units.Length, alone []units.Size) (units.Length, bool) {
	for _, a := range alone {
		long, short := max(a.W, a.H), min(a.W, a.H)
		switch {
		case w < short:
			return 0, false
		case w < long:
			h = max(h, long)
		default:
			h = max(h, short)
		}
	}
	return h, true
}

// spineFor returns the narrowest spine for a cover that does while the one a step
// narrower does not: from what the closing needs at least, in doubling steps to
// one that does, and halfway back as long as that does.
func (q *seeker) spineFor(cover units.Size) (units.Length, bool) {
	if !q.spine {
		_, _, err := q.holds(cover, 0, false)
		return 0, err == nil
	}
	if _, _, err := q.try(cover, q.roomy, false); err != nil {
		return 0, false
	}
	// Of the fittings alone: how the contents come to lie depends on the spine.
	p, err := q.build(q.at(cover, q.roomy, false))
	if err != nil {
		return 0, false
	}
	t, ok := p.TightestOf(closing.BetweenCovers, true)
	if !ok {
		return 0, false
	}
	spec := p.Spec()
	low := q.ruler.Up(max(q.roomy-(t.Left().Length()-max(spec.Closing.Ease, 0)), units.Shortest))
	if !q.soft {
		for f := range p.Fittings() {
			if _, stands := f.StandsOn(); f.Panel().Spine() && !stands && !f.Outside() {
				low = max(low, q.ruler.Up(f.Rect().Size().W+2*(spec.Lining.Inset+spec.Clearance)))
			}
		}
	}
	does := func(spine units.Length) bool {
		_, _, err := q.holds(cover, spine, false)
		return err == nil
	}
	if does(low) {
		return low, true
	}
	// On a board ruler finer than the liner's the liner loses less where the row
	// ends on both.
	no, good := low, low
	for d := q.step; good == no; d *= 2 {
		at := low + d
		if at >= q.roomy {
			return 0, false
		}
		switch even := q.ruler.Up(spec.Rulers.Liner.Up(at)); {
		case does(at):
			good = at
		case even > at && even < q.roomy && does(even):
			no, good = at, even
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
