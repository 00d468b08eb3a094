package propose

import (
	"boardwrap.example/folio"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/post"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

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
	if u, _ := p.TightestOf(closing.UnderFlap, true); carries(u) {
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
		var ok bool
		if why, ok = s.check(f, spec); ok {
			return f, why, true
		}
		// A narrower spine may come out of the sheets.
		sure = f.small && f.spine <= s.spineFor(c.least) && f.under == 0
		if f.small || why.Cause != CannotBe && why.Cause != Unwise {
			break
		}
		f.spine += s.ruler.Step()
	}
	return nil, why, sure
}

// verifyLoose is verify where what may be covered follows cover and spine: it tries
// the spines one after the other.
func (s *searcher) verifyLoose(opts []option, c *candidate, most units.Length) (f *found, why Reason, sure bool) {
	f = &found{opts: opts, cover: c.cover, spine: s.spineFor(c.least)}
	turnedIn := max(s.full.WithDefaults().Covering.Caliper, s.full.SpineCovering.Caliper)
	least, last := f.spine, s.spineFor(c.most+8*turnedIn)+units.Length(s.phases+2)*s.ruler.Step()
	why = ofAll(Reason{Cause: CannotBe, Detail: "what is left of the boards inside the liner's edge does not take it"})
	var ok bool
	for narrow := 0; f.spine <= last && !s.over(); f.spine += s.ruler.Step() {
		if f.thick = s.thinOf(f.spine); f.thick > most {
			return nil, ofAll(Reason{Cause: OverThick, Thick: f.thick, ThanThick: most}), false
		}
		spec := s.full
		spec.Cover = c.cover
		s.widen(&spec, f.spine)
		p, err := s.build(spec)
		if err != nil {
			return nil, cannot(err), false
		}
		panels := s.panelsOf(p)
		all, high := s.goOn(c.parts, panels)
		if !high {
			return nil, why, true // whatever the spine
		}
		if !all {
			if narrow++; narrow == s.phases {
				return nil, why, s.linedAlike(spec, p, most)
			}
			continue
		}
		spec.Fittings, f.held = s.bare.Fittings, nil
		s.furnish(f, &spec, s.arrange(opts, c, panels), panels)
		if why, ok = s.check(f, spec); ok {
			return f, why, true
		}
		if f.small || why.Cause != CannotBe && why.Cause != Unwise {
			break
		}
	}
	return nil, why, f.small && f.spine == least
}

// linedAlike reports whether the case is lined in the same way with the widest spine
// that counts.
func (s *searcher) linedAlike(spec folio.Spec, p *folio.Plan, most units.Length) bool {
	if len(s.full.Liner.Sheets) == 0 {
		return true
	}
	s.widen(&spec, min(s.spineWithin(most), s.ample()))
	wide, err := s.build(spec)
	return err == nil && wide.LiningStyle() == p.LiningStyle()
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
// is asked of it.
func (s *searcher) check(f *found, spec folio.Spec) (why Reason, ok bool) {
	s.deepen(&spec, f.spine, f.under)
	p, err := s.build(spec)
	if err != nil {
		bad, _ := err.(*check.Error)
		_, f.small = bad.Find("", folio.SheetSmall)
		return cannot(err), false
	}
	if w, bad := unwise(p); bad {
		return ofAll(Reason{Cause: Unwise, Detail: w.Text}), false
	}
	if !s.eased(p) {
		return ofAll(Reason{Cause: CannotBe, Detail: "it does not close with its ease"}), false
	}
	over, _ := p.Overall(true)
	if most := s.thickest(); over.Thickness().Length() > most {
		return ofAll(Reason{Cause: OverThick, Thick: over.Thickness().Length(), ThanThick: most}), false
	}
	in := s.request.Limits.Into
	if (in.Size != units.Size{}) && !over.Size().Grow(in.Padding).FitsTurned(in.Size) {
		return ofAll(Reason{Cause: OverSpace, Size: over.Size(), Than: in.Size}), false
	}
	if why, bad := s.posted(p); bad {
		return why, false
	}
	s.spend(StepsOfFitting * (1 + len(spec.Fittings)))
	f.ways, err = fit.Of(p).InFittings(s.until, fit.Budget{Steps: stepsToLay}, s.contents()...)
	if err != nil {
		return cannot(err), false
	}
	if why, bad := s.outOfSheets(f, p); bad {
		return why, false
	}
	f.plan, f.spec = p, spec
	return Reason{}, true
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
