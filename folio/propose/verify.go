package propose

import (
	"boardwrap.example/score"
	"cmp"
	"slices"

	"boardwrap.example/folio"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/post"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/inorder"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A laid is a fitting where it lies on its cover.
type laid struct {
	leaf int
	nth  int // of those laid on its board
	kind int
	at   units.Point // from the corner of what may be covered of the panel
	by   [2]inLine   // how that follows, across and along
}

// An inLine says how the place of a fitting follows on one axis.
type inLine struct {
	how   following
	of    int // the fitting it lies in line with, as they were laid on their board
	align place.Align
	off   units.Length // from there
}

// A following is what the place of a fitting follows from.
type following uint8

const (
	fromMiddle following = iota // of its board, a length away
	evenly                      // its board, with others
	inLineWith                  // another fitting
)

// bulk is how thick all that lies in a shape is together.
func bulk(s *shape, opts []option) units.Length {
	if s.cut == noCut {
		return opts[s.kind].box.bulk
	}
	return bulk(s.a, opts) + bulk(s.b, opts)
}

// arrange lays the boards of a candidate out: of two that are alike the thicker
// half on the one that lies on the table.
func (s *searcher) arrange(opts []option, c *candidate, panels []units.Size) []laid {
	parts := c.parts
	if len(parts) == 2 && s.leaves[0].like(&s.leaves[1]) {
		table, other := parts[s.main], parts[1-s.main]
		if table == nil || other != nil && !s.request.Taste.Anyhow && bulk(other, opts) > bulk(table, opts) {
			parts = []*shape{parts[1], parts[0]}
		}
	}
	var all []laid
	for i, part := range parts {
		if part == nil {
			continue
		}
		a := arranger{s: s, opts: opts, leaf: i}
		spare := panels[i].Plus(-part.w, -part.h)
		at := units.Point{X: s.middle(spare.W), Y: s.middle(spare.H)}
		a.put(part, at)
		a.spread(part, panels[i])
		a.touch()
		// What others lie in line with is a fitting before them.
		leads := func(l laid) int {
			if l.by[0].how == inLineWith || l.by[1].how == inLineWith {
				return 1
			}
			return 0
		}
		inorder.Sort(a.all, func(a, b laid) int {
			return cmp.Or(leads(a)-leads(b), cmp.Compare(a.at.Y, b.at.Y), cmp.Compare(a.at.X, b.at.X))
		})
		a.inTurn()
		all = append(all, a.all...)
	}
	return all
}

// inTurn lets what would lie evenly lie as far from the middle instead, where it is
// told of in another order than it lies in: evenly what is told of first lies first.
func (a *arranger) inTurn() {
	for axis := range 2 {
		var last units.Length
		turned := false
		for i := range a.all {
			if l := &a.all[i]; l.by[axis].how == evenly {
				at := *coordinate(&l.at, axis == 1)
				turned, last = turned || at < last, at
			}
		}
		for i := range a.all {
			if turned && a.all[i].by[axis].how == evenly {
				a.all[i].by[axis] = inLine{}
			}
		}
	}
}

// middle returns where something lies in the middle that leaves so much free.
func (s *searcher) middle(spare units.Length) units.Length {
	return s.fitting.Down(spare.Half(units.Down))
}

// touch lets what may touch follow a neighbour instead of the middle of the board: on
// another cover two middles may be rounded a step towards each other.
func (a *arranger) touch() {
	if a.s.between >= a.s.fitting.Step() {
		return
	}
	for axis, near := range [...]place.Align{place.Left, place.Head} {
		for k := range a.all {
			l, of := &a.all[k], 0
			if row := l.by[1-axis]; row.how == inLineWith {
				of = row.of
			} else if row.how == evenly {
				of = k
			}
			to := &a.all[of]
			if of == k || l.by[axis].how != fromMiddle || to.by[axis].how != fromMiddle {
				continue
			}
			l.by[axis] = inLine{how: inLineWith, of: of, align: near, off: *coordinate(&l.at, axis == 1) - *coordinate(&to.at, axis == 1)}
		}
	}
}

// An arranger lays one board out.
type arranger struct {
	s    *searcher
	opts []option
	leaf int
	all  []laid
}

// put lays a shape with its corner at a place.
func (a *arranger) put(s *shape, at units.Point) {
	if s.cut == noCut {
		a.all = append(a.all, laid{leaf: a.leaf, nth: len(a.all), kind: s.kind, at: at})
		return
	}
	first, second := a.ordered(s)
	middle := func(spare units.Length, far bool) units.Length {
		switch {
		case a.s.request.Taste.Order == Centred:
			return a.s.middle(spare)
		case far:
			return spare
		}
		return 0
	}
	if s.cut == upright {
		a.put(first, at.Plus(units.Point{Y: middle(s.h-first.h, false)}))
		a.put(second, at.Plus(units.Point{X: s.w - second.w, Y: middle(s.h-second.h, false)}))
		return
	}
	spineRight := a.s.leaves[a.leaf].toSpine() > 0
	a.put(first, at.Plus(units.Point{X: middle(s.w-first.w, spineRight)}))
	a.put(second, at.Plus(units.Point{X: middle(s.w-second.w, spineRight), Y: s.h - second.h}))
}

// ordered returns the two parts of a shape, the thicker one nearer to the spine, or
// to the tail.
func (a *arranger) ordered(s *shape) (first, second *shape) {
	spine := a.s.leaves[a.leaf].toSpine()
	one, other := bulk(s.a, a.opts), bulk(s.b, a.opts)
	if a.s.request.Taste.Anyhow || one == other || s.cut == upright && spine == 0 {
		return s.a, s.b
	}
	if thickFirst := s.cut == upright && spine < 0; (one > other) != thickFirst {
		return s.b, s.a
	}
	return s.a, s.b
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

// verify builds a candidate no thicker than what counts, and checks it: what was
// found, or why not, and whether no other layout of such a cover would do.
func (s *searcher) verify(opts []option, c *candidate, most units.Length) (f *found, why Reason, sure bool) {
	if s.loose() {
		return s.verifyLoose(opts, c, most)
	}
	spec := s.bare
	spec.Cover = c.cover
	s.deepen(&spec, s.ample(), s.roomy)
	panels := s.panels(c.cover)
	f = &found{opts: opts, cover: c.cover}
	s.furnish(f, &spec, s.arrange(opts, c, panels), panels)
	p, err := s.build(spec)
	if err != nil {
		return nil, cannot(err), false
	}
	t, _ := p.TightestOf(closing.BetweenCovers, true) // that a case does not shut was said
	for _, k := range [...]struct{ to, from *stock.Stock }{
		{&spec.Board, &s.full.Board}, {&spec.Covering, &s.full.Covering}, {&spec.SpineCovering, &s.full.SpineCovering}, {&spec.Liner, &s.full.Liner},
	} {
		k.to.Sheets = k.from.Sheets
	}
	f.spine = s.spineFor(t.Stack().Length())
	if u, ok := p.TightestOf(closing.UnderFlap, true); ok && s.layered && carries(u) {
		f.under = s.underFor(u.Stack().Length())
	}
	// Where the liner is on another ruler than the boards, a step or two more may be
	// needed.
	for range 3 {
		if f.thick = s.thickOf(f.spine, f.under); f.thick > most {
			return nil, ofAll(Reason{Cause: OverThick, Thick: f.thick, ThanThick: most}), false
		}
		if s.rough { // places are counted from the middles that there are
			s.deepen(&spec, f.spine, f.under)
			bare := spec
			bare.Fittings = s.bare.Fittings
			if p, err := s.build(bare); err == nil {
				panels = s.panelsOf(p)
				spec.Fittings, f.held = s.bare.Fittings, nil
				s.furnish(f, &spec, s.arrange(opts, c, panels), panels)
			}
		}
		var small, ok bool
		if why, small, ok = s.check(f, spec); ok {
			return f, why, true
		}
		// A narrower spine may come out of the sheets.
		sure = small && f.spine <= s.spineFor(c.least) && f.under == 0
		if small || why.Cause != CannotBe && why.Cause != Unwise {
			break
		}
		f.spine += s.ruler.Step()
		if f.under > 0 {
			f.under += s.ruler.Step()
		}
	}
	return nil, why, sure
}

// carries reports whether a fitting lies at a tight place.
func carries(t folio.Tight) bool {
	for thing := range t.Things() {
		if _, ok := thing.Fitting(); ok {
			return true
		}
	}
	return false
}

// furnish puts the fittings of a layout into a spec. Places that follow from nothing
// else are counted from the middle of the panel, so that on another cover what lies
// there stays together, and in the middle.
func (s *searcher) furnish(f *found, spec *folio.Spec, all []laid, panels []units.Size) {
	numbers := make([]int, len(f.opts))
	names := map[[2]int]string{}
	for _, l := range all {
		o := &f.opts[l.kind]
		numbers[l.kind]++
		leaf := &s.leaves[l.leaf]
		fitting := s.fittingOf(o, leaf)
		fitting.Name = s.nameOf(o, numbers[l.kind])
		names[[2]int{l.leaf, l.nth}] = fitting.Name
		panel, at := panels[l.leaf], &fitting.Place
		for axis, by := range l.by {
			align, of := &at.Across, &at.AcrossOf
			if axis == 1 {
				align, of = &at.Along, &at.AlongOf
			}
			switch by.how {
			case evenly:
				*align = place.Even
			case inLineWith:
				*align, *of = by.align, names[[2]int{l.leaf, by.of}]
				*coordinate(&at.Offset, axis == 1) = by.off
			case fromMiddle:
				spare := units.Point{X: panel.W - o.box.w, Y: panel.H - o.box.h}
				*coordinate(&at.Offset, axis == 1) = *coordinate(&l.at, axis == 1) - s.middle(*coordinate(&spare, axis == 1))
			}
		}
		f.held = append(f.held, Held{
			Thing: o.thing, Copies: o.each, Way: o.way, Turned: o.turned, Fitting: len(spec.Fittings), Panel: leaf.role,
		})
		spec.Fittings = append(spec.Fittings, fitting)
	}
}

// check builds the folio with a spine and with its sheets, and checks all that
// is asked of it. It says as well whether the sheets are too small for it.
func (s *searcher) check(f *found, spec folio.Spec) (why Reason, small, ok bool) {
	s.deepen(&spec, f.spine, f.under)
	p, err := s.build(spec)
	if err != nil {
		bad, is := err.(*check.Error)
		_, small := bad.Find("", folio.SheetSmall)
		return cannot(err), is && small, false
	}
	if w, bad := unwise(p); bad {
		return ofAll(Reason{Cause: Unwise, Detail: w.Text}), false, false
	}
	if !s.eased(p) {
		return ofAll(Reason{Cause: CannotBe, Detail: "it does not close with its ease"}), false, false
	}
	over, _ := p.Overall(true)
	if most := s.thickest(); over.Thickness().Length() > most {
		return ofAll(Reason{Cause: OverThick, Thick: over.Thickness().Length(), ThanThick: most}), false, false
	}
	in := s.request.Limits.Into
	if (in.Size != units.Size{}) && !over.Size().Grow(in.Padding).FitsTurned(in.Size) {
		return ofAll(Reason{Cause: OverSpace, Size: over.Size(), Than: in.Size}), false, false
	}
	if why, bad := s.posted(p); bad {
		return why, false, false
	}
	s.spend(StepsOfFitting * (1 + len(spec.Fittings)))
	f.ways, err = fit.Of(p).InFittings(s.until, fit.Budget{Steps: stepsToLay}, s.contents()...)
	if err != nil {
		return cannot(err), false, false
	}
	if why, bad := s.outOfSheets(f, p); bad {
		return why, false, false
	}
	f.plan, f.spec = p, spec
	return Reason{}, true, true
}

// eased reports whether a plan shuts, with the ease between its covers even where nothing
// asks for it. That of all else that meets is a matter of warnings.
func (s *searcher) eased(p *folio.Plan) bool {
	t, shuts := p.TightestOf(closing.BetweenCovers, true)
	return shuts && t.Left().Length() >= s.ease
}

// contents lists every copy of every thing.
func (s *searcher) contents() []pocket.Content {
	var all []pocket.Content
	for _, t := range s.request.Things {
		for range max(t.Count, 1) {
			all = append(all, t.Content)
		}
	}
	return all
}

// posted says why the format asked for does not take a folio: everything that it
// refuses of it.
func (s *searcher) posted(p *folio.Plan) (Reason, bool) {
	service, ok := s.request.Limits.Post.format()
	if !ok {
		return Reason{}, false
	}
	item, err := post.Pack(p, s.request.Limits.Post.Packing)
	var report post.Report
	if err == nil {
		report, err = service.Judge(item, s.notation)
	}
	if err != nil {
		return ofAll(Reason{Cause: OverPost, Detail: first(err)}), true
	}
	// All of it, that first which a folio of another size would mend least: who is told
	// of a height, and not that what goes in is too heavy for any, would try in vain.
	why := ""
	for v := range report.Verdicts() {
		for _, f := range [...]post.Finding{v.Rigidity(), v.Box(), v.Mass(), v.Size(), v.Shape(), v.Evenness()} {
			if f.Treatment() != post.Refused {
				continue
			}
			if why != "" {
				why += "; "
			}
			why += sentence(f.Text())
		}
	}
	return ofAll(Reason{Cause: OverPost, Detail: why}), why != ""
}

// layoutSteps is the budget of a layout.
const layoutSteps = 100_000

// outOfSheets lays the pieces out on the sheets at hand, and says why they do
// not do.
func (s *searcher) outOfSheets(f *found, p *folio.Plan) (Reason, bool) {
	if len(s.request.Limits.Materials) == 0 {
		return Reason{}, false
	}
	if why, bad := s.layOut(f, p); bad {
		return why, true
	}
	return Reason{}, false
}

// layOut counts the sheets that a folio takes, of the materials of which any are
// at hand.
func (s *searcher) layOut(f *found, p *folio.Plan) (Reason, bool) {
	job := layout.Job{Folios: []layout.Folio{{Plan: p, Copies: 1}}, Ruler: p.Spec().Rulers.Main, Materials: s.materials(p)}
	for _, m := range layout.MaterialsOf(p) {
		if !slices.ContainsFunc(job.Materials, func(h layout.Material) bool { return h.Name == m.Name }) {
			job.Except = append(job.Except, m.Name)
		}
	}
	if len(job.Materials) == 0 {
		return ofAll(Reason{Cause: NoSheets}), true
	}
	s.spend(layoutSteps)
	laid, err := layout.Lay(s.until, job, layout.Budget{Steps: layoutSteps})
	if err != nil {
		return ofAll(Reason{Cause: OverSheets, Detail: first(err)}), true
	}
	f.sheets, f.counted = laid.Bought(), true
	return Reason{}, false
}

// materials lists the materials of a plan of which sheets are at hand.
func (s *searcher) materials(p *folio.Plan) []layout.Material {
	var out []layout.Material
	for _, m := range layout.MaterialsOf(p) {
		if k := slices.IndexFunc(s.request.Limits.Materials, func(h layout.Material) bool { return h.Name == m.Name }); k >= 0 {
			m = s.request.Limits.Materials[k]
		}
		if len(m.Sheets) > 0 {
			out = append(out, m)
		}
	}
	return out
}

// soundMaterials checks the materials at hand by laying nothing out on them.
func soundMaterials(until score.Stopper, r *Request) error {
	if len(r.Limits.Materials) == 0 {
		return nil
	}
	job := layout.Job{Materials: r.Limits.Materials}
	if ruler := r.Case.WithDefaults().Rulers.Board; ruler.Valid() { // else that is said of the case
		job.Ruler = ruler
	}
	_, err := layout.Lay(until, job, layout.Budget{Steps: 1})
	return err
}

// sheetsAtHand gives a material of the case without sheets those that are at
// hand, so that its sizes keep to them.
func (s *searcher) sheetsAtHand() {
	filled := s.full.WithDefaults()
	give := func(name string, k *stock.Stock) {
		for _, m := range s.request.Limits.Materials {
			if m.Name != name || len(k.Sheets) > 0 || len(m.Sheets) > stock.MaxSheets {
				continue
			}
			for _, sheet := range m.Sheets {
				k.Sheets = append(k.Sheets, stock.Sheet{Size: sheet.Size, Grain: sheet.Grain})
			}
		}
	}
	give(filled.Board.Name, &s.full.Board)
	give(filled.Covering.Name, &s.full.Covering)
	give(filled.Liner.Name, &s.full.Liner)
	for i := range s.full.Stocks {
		give(s.full.Stocks[i].Name, &s.full.Stocks[i])
	}
}
