package fit

import (
	"slices"
	"strconv"
	"strings"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/stop"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
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
// is false when the budget or the Stopper ended the search, and where the size of a
// fitting that stands on no other follows something: then each side of the cover is
// made smaller as far as it goes, and with the spine for that a step at a time.
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
// or that of the Stopper where it ended the search before there was a folio.
func Smallest(until score.Stopper, s folio.Spec, b Budget, contents ...pocket.Content) (Least, error) {
	var bad check.List
	noBlock(&bad, s)
	soundRuler(&bad, s.WithDefaults().Rulers.Board)
	if len(contents) > MostContents {
		bad.Malformed("contents", check.TooMany, strconv.Itoa(len(contents)), "at most "+strconv.Itoa(MostContents))
		return Least{}, bad.Err()
	}
	bad.In(s.WithDefaults().Rulers.Main.Notation())
	b.check(&bad)
	checkContents(&bad, contents)
	if err := bad.Err(); err != nil {
		return Least{}, err
	}
	q := seeker{meter: newMeter(until, b), trial: trialSteps, given: s, contents: contents}
	return q.seek()
}

// A seeker carries the search.
type seeker struct {
	*meter
	trial    int64 // what each trial may take at the least
	given    folio.Spec
	contents []pocket.Content
	step     units.Length
	ruler    units.Ruler
	spine    bool         // to be found
	soft     bool         // no board of the row stands
	sheets   bool         // of the case, which limit the result alone
	roomy    units.Length // larger than what anyone folds, with a row within bounds
	wide     units.Length // a spine as wide, or as wide as boards with a width of their own let it be
	last     *folio.Plan  // whose designs are used again
	unsure   bool         // a trial ended before it was known
	kept     laid         // the last that does, which is the best so far
}

// laid is a cover and a spine with which everything has its place.
type laid struct {
	cover    units.Size
	spine    units.Length
	fittings []folio.Fitting // with those for what lies on panels
	ways     []Berth
}

// build builds a trial plan, with what was worked out before.
func (q *seeker) build(s folio.Spec) (*folio.Plan, error) {
	q.spend(1 + len(s.Fittings))
	p, err := q.last.Again(s)
	if q.last == nil {
		q.last = p
	}
	return p, err
}

// try builds a plan that holds everything. Contents that lie on panels become
// fittings.
func (q *seeker) try(cover units.Size, spine units.Length) (*folio.Plan, laid, error) {
	s := q.at(cover, spine)
	p, err := q.build(s)
	if err != nil || len(q.contents) == 0 {
		return p, laid{cover, spine, s.Fittings, nil}, err
	}
	q.spend(len(q.contents))
	survey := Of(p)
	ways, err := q.all(survey)
	if err != nil {
		return nil, laid{}, q.inCover(err, p.Notation(), cover)
	}
	s.Fittings = survey.mats(s.Fittings[:len(s.Fittings):len(s.Fittings)], ways)
	p, err = q.build(s)
	return p, laid{cover, spine, s.Fittings, ways}, err
}

// again builds what was found last.
func (q *seeker) again() (*folio.Plan, []Berth, error) {
	s := q.at(q.kept.cover, q.kept.spine)
	s.Fittings = q.kept.fittings
	p, err := q.build(s)
	return q.keep(p, q.kept, err)
}

// unfinished reports whether a trial ended before anything was known.
func unfinished(err error) bool {
	bad, ok := err.(*check.Error)
	if !ok {
		return false
	}
	_, ended := bad.Find("", NotFinished)
	return ended
}

// at is the Spec of a trial plan.
func (q *seeker) at(cover units.Size, spine units.Length) folio.Spec {
	s := q.given
	s.Cover = cover
	if q.spine {
		if q.soft {
			s.Spine.Contents = spine
		} else {
			s.Spine.Width = spine
		}
	}
	if !q.sheets {
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
	m := newMeter(q.until, Budget{Steps: max(q.left, q.trial)})
	ways, err := s.all(m, 0, q.contents)
	q.spend(int(m.done))
	q.unsure = q.unsure || unfinished(err)
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
			n, ease, left := p.Notation(), p.Spec().Closing.Ease, t.Left().Length()
			v := check.Violation{Path: "closing.ease", Code: folio.WarnEase, Nature: check.Impossible, Got: t.String(), Want: "no ease, explicitly none, for the " + n.Text(ease) + " asked for"}
			if left > 0 {
				v.Want = "at most " + n.Bound(left, units.Down) + " of ease, for the " + n.Text(ease) + " asked for"
				v.Bound, v.Limit, v.By = check.AtMost, left, ease-left
			}
			bad.Add(v)
			return bad.Err()
		}
	}
	return nil
}

// holds is try with the ease asked for.
func (q *seeker) holds(cover units.Size, spine units.Length) (*folio.Plan, []Berth, error) {
	p, as, err := q.try(cover, spine)
	return q.keep(p, as, err)
}

// keep keeps what was built, if it closes with the ease asked for.
func (q *seeker) keep(p *folio.Plan, as laid, err error) (*folio.Plan, []Berth, error) {
	if err == nil && q.spine {
		err = q.eased(p)
	}
	if err != nil {
		return nil, nil, err
	}
	q.kept = as
	return p, as.ways, nil
}

// roomiest builds a plan with a cover and a spine larger than what anyone folds. A
// row of many boards has them smaller, so that it is not too long.
func (q *seeker) roomiest() (*folio.Plan, laid, error) {
	for q.roomy = units.Metre; ; q.roomy = q.roomy.Half(units.Down) {
		p, as, err := q.widest()
		bad, ok := err.(*check.Error)
		if !ok || q.roomy < units.Metre/4 {
			return p, as, err
		}
		if _, long := bad.Find("cover.w", check.TooLarge); !long {
			return p, as, err
		}
	}
}

// widest builds a plan with the roomy cover and the widest spine that goes with it.
func (q *seeker) widest() (*folio.Plan, laid, error) {
	for q.wide = q.roomy; ; {
		p, as, err := q.try(units.Size{W: q.roomy, H: q.roomy}, q.wide)
		bad, ok := err.(*check.Error)
		if !ok {
			return p, as, err
		}
		var less units.Length
		for v := range bad.All() {
			if v.Code == check.TooSmall && strings.HasPrefix(v.Path, "row.boards[") {
				less = max(less, v.By)
			}
		}
		spine := q.ruler.Down(q.wide - less)
		if less <= 0 || spine <= 0 {
			return p, as, err
		}
		q.wide = spine
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
	p, as, err := q.roomiest()
	if err != nil {
		return Least{}, err
	}
	q.kept = as

	// What no cover can be smaller than.
	low := q.least(p)
	q.roomy, q.wide = q.ruler.Up(q.roomy), q.ruler.Up(q.wide)
	alone := q.onPanels(p, as.ways)
	fits := func(c units.Size) bool {
		for _, a := range alone {
			if !a.FitsTurned(c) {
				return false
			}
		}
		_, as, err := q.try(c, q.wide)
		if err == nil {
			q.kept = as
		}
		return err == nil
	}
	var cover units.Size
	var out Least
	if slices.ContainsFunc(q.given.Fittings, follows) {
		// With what follows the spine every cover is ruled out while that is roomy.
		cover = q.someCover(low, fits)
	} else {
		cover, out.complete = q.cover(low, alone, fits)
	}
	// Where the Stopper has ended, what has been found still gets its spine: that
	// takes some dozens of plans.
	q.until, q.ended = stop.Never{}, q.until.Err() != nil
	searched := cover
	spine, err := q.settle(&cover, &out)
	q.sheets = true
	if err == nil {
		out.plan, out.ways, err = q.holds(cover, spine)
	}
	if unfinished(err) { // what it had found before does
		out.plan, out.ways, err = q.again()
	}
	out.steps, out.complete = q.done, out.complete && !q.unsure && cover == searched
	if err != nil {
		return Least{}, err
	}
	return out, nil
}

// settle finds the spine for a cover, and proves that one step smaller fails: where
// something follows the spine, or its place is not what a larger cover would suggest,
// it may not, and is taken.
func (q *seeker) settle(cover *units.Size, out *Least) (units.Length, error) {
	spine, err := q.spineFor(*cover)
	if err != nil {
		return spine, err
	}
	for {
		if q.over() {
			out.complete = false
			return spine, nil
		}
		_, _, narrow := q.holds(cover.Plus(-q.step, 0), spine)
		if narrow == nil {
			cover.W -= q.step
			continue
		}
		_, _, low := q.holds(cover.Plus(0, -q.step), spine)
		if low == nil {
			cover.H -= q.step
			continue
		}
		var thin error
		if q.spine && !q.over() {
			if thin = q.thinner(*cover, spine-q.step); thin == nil {
				spine -= q.step
				continue
			}
		}
		out.narrow, out.low, out.thin = narrow, low, thin
		return spine, nil
	}
}

// thinner returns why a spine does not do.
func (q *seeker) thinner(cover units.Size, spine units.Length) error {
	var bad check.List
	if spine < units.Shortest {
		bad.Short("spine.width", check.TooSmall, q.ruler.Notation(), spine, units.Shortest, "")
		return bad.Err()
	}
	_, _, err := q.holds(cover, spine)
	return err
}

// spineFor returns the narrowest spine for a cover. What the fittings leave of a roomy
// one, between the covers and on a spine that is wide with it, is all that it can be
// narrower; an ease is asked for beside some of them only.
func (q *seeker) spineFor(cover units.Size) (units.Length, error) {
	does := func(spine units.Length) error {
		_, _, err := q.holds(cover, spine)
		return err
	}
	if !q.spine { // what is said of it here is not asked for
		return q.wide, does(q.wide)
	}
	// Of the fittings alone: how the contents come to lie depends on the spine.
	p, err := q.build(q.at(cover, q.wide))
	if err != nil {
		return q.wide, err
	}
	spec := p.Spec()
	low := units.Shortest
	if t, ok := p.TightestOf(closing.BetweenCovers, true); ok {
		low = max(low, q.wide-t.Left().Length())
	}
	for f := range p.Fittings() {
		b, _ := p.Board(f.Panel())
		given := q.given.Fittings[f.Index()]
		if f.Panel().Spine() && !ownWidth(spec, f.Panel()) && !f.Outside() && given.StandsOn == "" && !follows(given) {
			low = max(low, q.wide-(b.Width().Length()-f.Rect().Size().W-2*(spec.Lining.Inset+spec.Clearance)))
		}
	}
	spine, ok := q.narrowest(q.ruler.Up(low), spec.Rulers.Liner, func(spine units.Length) bool { return does(spine) == nil })
	if !ok {
		return spine, does(q.wide)
	}
	return spine, nil
}
