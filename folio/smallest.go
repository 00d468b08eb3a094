package folio

import (
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// NotHeld is the code of contents that find no place in a folio.
const NotHeld check.Code = "not-held"

// Least is the smallest folio that holds what it must, with the proof: why a
// cover or a spine that is one step of the ruler smaller does not do.
type Least struct {
	plan              *Plan
	fits              []Fit
	narrow, low, thin error
	complete          bool
	tried             int
}

// Plan returns the smallest folio. Its Spec has the cover and the spine that
// were found, and a mat for each content that lies on a panel.
func (l Least) Plan() *Plan { return l.plan }

// Fits returns how the contents go into it, in their order.
func (l Least) Fits() []Fit { return append([]Fit(nil), l.fits...) }

// Proof returns why a cover one step narrower, a cover one step lower, and a
// spine one step narrower fail. The last one is nil where the Spec's rule
// decides on the spine.
func (l Least) Proof() (narrower, lower, thinner error) {
	return l.narrow, l.low, l.thin
}

// Complete reports whether every smaller cover on the ruler was ruled out. It
// is false when the search was cut short; the proof holds nevertheless.
func (l Least) Complete() bool { return l.complete }

// Tried returns how many plans were built.
func (l Least) Tried() int { return l.tried }

// Bounds of the search: plans built, and widths gone through.
const (
	mostTries = 10_000
	mostTurns = 1_000_000
)

// Smallest searches for the smallest folio in which every fitting of the Spec
// finds its place, which takes the contents besides, one in each frame, pocket
// or mat and one on each panel (see [Plan.HoldsAll]), and which closes over all
// of it with the ease. Smallest is the cover with the least area, of equal ones
// the narrowest, on the ruler of boards; and then the narrowest spine for it.
// Cover and Spine.Width of the Spec do not count. A rule for the spine is
// kept; a soft spine gets the least Spine.Contents. Sheets limit only the
// result: if none takes it, none takes a larger one.
//
// The error is a *[check.Error], for what no cover could hold or no sheet
// takes.
func Smallest(s Spec, contents ...pocket.Content) (Least, error) {
	var bad check.List
	if s.Block.given() {
		bad.Malformed("block.page", check.Conflict, "a block", "no block: the cover round a block is worked out from it")
	}
	if len(contents) > MaxFittings {
		bad.Malformed("contents", check.TooMany, count(len(contents)), "at most "+count(MaxFittings))
	}
	for i, c := range contents {
		if i < MaxFittings {
			bad.Size(check.Index("contents", i)+".size", c.Size)
			bad.Allowance(check.Index("contents", i)+".thickness", c.Thickness)
		}
	}
	if err := bad.Err(); err != nil {
		return Least{}, err
	}
	s.own()
	q := seeker{given: s, contents: contents}
	return q.seek()
}

// A seeker carries the search.
type seeker struct {
	given    Spec
	contents []pocket.Content
	step     units.Length
	ruler    units.Ruler
	spine    bool // to be found
	tried    int
}

// roomy is larger than what anyone folds, and leaves a row within bounds.
const roomy = units.Metre

// try builds a plan that holds everything, with the sheets of the case or
// without. Contents that lie on panels become fittings.
func (q *seeker) try(cover units.Size, spine units.Length, sheets bool) (*Plan, []Fit, error) {
	q.tried++
	s := q.given
	s.Cover = cover
	if q.spine {
		if s.Form == SoftSpine {
			s.Spine.Contents = spine
		} else {
			s.Spine.Width = spine
		}
	}
	if !sheets {
		for _, stock := range [...]*Stock{&s.Board, &s.Covering, &s.SpineCovering, &s.Liner} {
			stock.Sheets = nil
		}
	}
	p, err := Build(s)
	if err != nil || len(q.contents) == 0 {
		return p, nil, err
	}
	fits, ok := p.HoldsAll(q.contents...)
	if !ok {
		var bad check.List
		bad.Impossible("contents", NotHeld, "a cover of "+sizeText(p.Notation(), cover), "a cover that takes them")
		return nil, nil, bad.Err()
	}
	s.Fittings = s.Fittings[:len(s.Fittings):len(s.Fittings)]
	reveal := usualReveal(p.Notation())
	for _, f := range fits {
		if f.Room.Kind != OnPanel {
			continue
		}
		mat := f.Content.Size.Grow(reveal)
		mat = units.Size{W: p.spec.Rulers.Fitting.Up(mat.W), H: p.spec.Rulers.Fitting.Up(mat.H)}
		in := Place{}.within(units.RectAt(units.Point{}, mat), f.Content.Size, 1)
		at := f.Rect.Min.Plus(units.Point{X: -in.Min.X - f.Room.Rect.Min.X, Y: -in.Min.Y - f.Room.Rect.Min.Y})
		s.Fittings = append(s.Fittings, Fitting{
			Kind: Mat{Picture: f.Content, Reveal: reveal}, Panel: f.Room.Panel,
			Place: Place{Across: AlignLeft, Along: AlignHead, Offset: at},
		})
	}
	p, err = Build(s)
	return p, fits, err
}

// eased reports, as an error, that a plan closes with less than its ease.
func eased(p *Plan) error {
	s, ok := p.hinged()
	if !ok {
		return nil
	}
	h := s.between(true)
	if p.spec.Form != SoftSpine {
		h = s.tightest(true)
	}
	if h.left() >= p.spec.Closing.Ease {
		return nil
	}
	var bad check.List
	bad.Add(check.Violation{Path: "closing.ease", Code: WarnEase, Fault: check.Impossible, Got: s.tight(h).where(p),
		Want: "an ease of " + p.Notation().Text(p.spec.Closing.Ease)})
	return bad.Err()
}

// holds is try with the ease asked for.
func (q *seeker) holds(cover units.Size, spine units.Length, sheets bool) (*Plan, []Fit, error) {
	p, fits, err := q.try(cover, spine, sheets)
	if err == nil && q.spine {
		err = eased(p)
	}
	if err != nil {
		return nil, nil, err
	}
	return p, fits, nil
}

func (q *seeker) seek() (Least, error) {
	full := q.given.WithDefaults()
	q.ruler = full.Rulers.Board
	q.step = q.ruler.Step()
	q.spine = full.Spine.Rule == SpineDefault
	if full.Form == SoftSpine {
		q.spine = full.Hinge.Rule == HingeRoundContents
	}
	p, fits, err := q.try(units.Size{W: roomy, H: roomy}, roomy, false)
	if err != nil {
		return Least{}, err
	}

	// What no cover can be smaller than.
	low := q.least(p)
	alone := q.onPanels(p, fits)
	cover, complete := q.cover(p, low, alone)
	out := Least{complete: complete}

	var spine units.Length
	ok := true
	for again := true; again; {
		if spine, ok = q.spineFor(cover); !ok {
			_, _, err := q.holds(cover, roomy, false)
			if err == nil {
				var bad check.List
				bad.Impossible("spine", check.TooLarge, "no spine up to "+p.Notation().Text(roomy), "fittings that a spine goes round")
				err = bad.Err()
			}
			return Least{}, err
		}
		// One step smaller must fail; where a place is not what a larger
		// cover would suggest, it may not, and is taken.
		again = false
		if _, _, out.narrow = q.holds(cover.Plus(-q.step, 0), spine, true); out.narrow == nil {
			cover.W, again = cover.W-q.step, true
			continue
		}
		if _, _, out.low = q.holds(cover.Plus(0, -q.step), spine, true); out.low == nil {
			cover.H, again = cover.H-q.step, true
		}
	}
	if q.spine {
		if less := spine - q.step; less >= units.Shortest {
			_, _, out.thin = q.holds(cover, less, true)
		} else {
			var bad check.List
			bad.Short("spine.width", check.TooSmall, p.Notation(), less, units.Shortest, "")
			out.thin = bad.Err()
		}
	}
	out.plan, out.fits, err = q.holds(cover, spine, true)
	out.tried = q.tried
	if err != nil {
		return Least{}, err
	}
	return out, nil
}

// least returns a cover that nothing smaller than can do: it holds each
// fitting on its own.
func (q *seeker) least(p *Plan) units.Size {
	spec := &p.spec
	inside := 2 * (spec.Lining.Inset + spec.Clearance)
	low := units.Size{W: max(units.Shortest, 2*spec.Lining.Inset+1), H: max(units.Shortest, 2*spec.Lining.Inset+1)}
	for i := range p.fitted[:len(q.given.Fittings)] {
		f := &p.fitted[i]
		if f.base >= 0 {
			continue
		}
		need := f.rect.Size()
		if !f.fitting.Outside {
			need = need.Plus(inside, inside)
		} else {
			need = need.Plus(2*spec.Clearance, 2*spec.Clearance)
		}
		switch f.panel {
		case LeftCover, RightCover, Back:
			low.W = max(low.W, need.W)
		case LeftDoor, RightDoor:
			low.W = max(low.W, 2*need.W+spec.DoorGap)
		}
		low.H = max(low.H, need.H)
	}
	return units.Size{W: q.ruler.Up(low.W), H: q.ruler.Up(low.H)}
}

// onPanels returns the contents that go nowhere but on a panel, with what is
// round them there.
func (q *seeker) onPanels(p *Plan, fits []Fit) []units.Size {
	var out []units.Size
	for _, c := range q.contents {
		elsewhere := false
		for f := range p.WhereFits(c) {
			elsewhere = elsewhere || f.Room.Kind != OnPanel
		}
		if !elsewhere {
			out = append(out, c.Size.Grow(usualReveal(p.Notation())+p.spec.Lining.Inset+p.spec.Clearance))
		}
	}
	return out
}

// cover searches every cover on the ruler from the bound up, pruned by the
// least area found so far, and reports whether it got through.
func (q *seeker) cover(p *Plan, low units.Size, alone []units.Size) (units.Size, bool) {
	fits := func(c units.Size) bool {
		for _, a := range alone {
			if !a.FitsTurned(c) {
				return false
			}
		}
		_, _, err := q.try(c, roomy, false)
		return err == nil
	}
	if fits(low) {
		return low, true
	}
	// Something that does: growing both sides by doubling steps, then each
	// side brought down as far as it goes.
	best := low
	for n := q.step; !fits(best) && best.W < roomy && best.H < roomy; n *= 2 {
		best = low.Plus(n, n)
	}
	if best.W >= roomy || best.H >= roomy {
		best = units.Size{W: q.ruler.Up(roomy), H: q.ruler.Up(roomy)}
	}
	for _, side := range [...]func(*units.Size) *units.Length{
		func(c *units.Size) *units.Length { return &c.W },
		func(c *units.Size) *units.Length { return &c.H },
	} {
		at, floor := side(&best), *side(&low)
		good, no := *at, floor-q.step
		for good-no > q.step {
			mid := q.ruler.Down(no + (good - no).Half(units.Down))
			if mid <= no {
				mid = no + q.step
			}
			*at = mid
			if fits(best) {
				good = mid
			} else {
				no = mid
			}
		}
		*at = good
	}
	turns := 0
	for w := low.W; w.By(low.H).Compare(best.Area()) < 0; w += q.step {
		if turns++; turns > mostTurns {
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
			if q.tried >= mostTries {
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

// spineFor returns the narrowest spine for a cover: from what the closing needs
// at least up to the first that does.
func (q *seeker) spineFor(cover units.Size) (units.Length, bool) {
	if !q.spine {
		_, _, err := q.holds(cover, 0, false)
		return 0, err == nil
	}
	p, _, err := q.try(cover, roomy, false)
	if err != nil {
		return 0, false
	}
	s, ok := p.hinged()
	if !ok {
		return 0, false
	}
	h := s.between(true)
	low := q.ruler.Up(max(roomy-(h.left()-p.spec.Closing.Ease), units.Shortest))
	if p.spec.Form != SoftSpine {
		for i := range p.fitted {
			if f := &p.fitted[i]; f.panel.narrow() && f.base < 0 && !f.fitting.Outside {
				low = max(low, q.ruler.Up(f.rect.Size().W+2*(p.spec.Lining.Inset+p.spec.Clearance)))
			}
		}
	}
	for spine := low; spine < roomy && q.tried < 2*mostTries; spine += q.step {
		if _, _, err := q.holds(cover, spine, false); err == nil {
			return spine, true
		}
	}
	return 0, false
}
