package guide

import (
	"cmp"
	"iter"
	"slices"
	"strconv"

	"boardwrap.example/folio"
	"boardwrap.example/internal/inorder"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/pocket/worktop"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// Strip draws a folded fitting, by its place in [folio.Plan.Fittings], in
// section across its folds as it lies closed: each panel as long as it is, the
// layers drawn apart so that they can be told, joined at their folds. It returns
// false if there is no such fitting or nothing of it is folded.
func Strip(p *folio.Plan, fitting int, o Options) (Picture, bool) {
	return stripPicture(p, p.Steps(), fitting, o)
}

// stripPicture draws a folded fitting by the plan's steps.
func stripPicture(p *folio.Plan, steps iter.Seq[work.Step], fitting int, o Options) (Picture, bool) {
	g, d, ok := folded(p, fitting)
	if !ok {
		return Picture{}, false
	}
	runs := sectionOf(d)
	if !lifted(runs) || d.Guarded() {
		return throughFitting(p, steps, g, o)
	}
	write := o.figures(p.Notation())
	first := firstPiece(g)
	describe := "The " + g.Label() + " in section across its folds, closed, its layers drawn apart: " + strconv.Itoa(layersOf(runs)) + " where there are most."
	return compose(g.Label()+", folded", describe, o, write, func(q pen) []*figure {
		f := newFigure(q)
		f.layers(runs, first, g.Index())
		return []*figure{f}
	}), true
}

// throughFitting draws the section of a fitting of which not every layer is a panel
// with a name, as pleats and corners, from the folds of the order of work.
func throughFitting(p *folio.Plan, steps iter.Seq[work.Step], g folio.Fitted, o Options) (Picture, bool) {
	w, first := newWorkshop(p), firstPiece(g)
	w.part = work.Part{Kind: work.PartFitting, Index: g.Index()}
	for s := range steps {
		w.done = append(w.done, s.Do...)
	}
	t := w.before()
	if t == nil {
		return Picture{}, false
	}
	h := t.Heap(first, 0)
	if !slices.ContainsFunc(partsOf(h), worktop.Stretch.Turned) {
		return Picture{}, false
	}
	describe := "The " + g.Label() + " in section across its folds, closed, its layers drawn apart."
	return compose(g.Label()+", folded", describe, o, o.figures(p.Notation()), func(q pen) []*figure {
		f := newFigure(q)
		f.cutThrough(w, h, w.lastFold(subject{piece: first}), middleOf(h.Bounds()), true)
		return []*figure{f}
	}), true
}

// folded returns a fitting that is folded from sheet, and its design.
func folded(p *folio.Plan, fitting int) (folio.Fitted, pocket.Design, bool) {
	if !drawable(p) {
		return folio.Fitted{}, pocket.Design{}, false
	}
	for g := range p.Fittings() {
		if g.Index() == fitting {
			d, ok := g.Design()
			return g, d, ok
		}
	}
	return folio.Fitted{}, pocket.Design{}, false
}

// firstPiece returns the place of the first piece of a fitting in the plan.
func firstPiece(g folio.Fitted) (first int) {
	for i := range g.Pieces() {
		first = i
		break
	}
	return first
}

// A run is the panels of one copy of a piece that follow each other across its
// folds.
type run struct {
	piece, copy int
	panels      []lain
}

// A lain is a panel as it lies in the section: from and to are the places of
// its edges that lie first and last on the flat piece.
type lain struct {
	index       int
	name        string
	from, to    units.Length
	level       int
	first, last units.Length // where these edges lie on the flat piece
}

// sectionOf lists the panels of a design that lie flat, by piece.
func sectionOf(d pocket.Design) []run {
	axis, found := score.Upright, false
	for _, piece := range d.Pieces() {
		if a, ok := piece.Grain(); ok && !found {
			axis, found = a, true
		}
	}
	if !found {
		return nil
	}
	levels := d.Levels()
	var runs []run
	for i, panel := range d.Panels() {
		if panel.Closed().Empty() || i >= len(levels) {
			continue
		}
		n := len(runs) - 1
		if n < 0 || runs[n].piece != panel.Piece() || runs[n].copy != panel.Copy() {
			runs = append(runs, run{piece: panel.Piece(), copy: panel.Copy()})
			n++
		}
		r, blank := panel.Closed(), panel.Blank()
		l := lain{index: i, name: panel.Name(), from: r.Min.X, to: r.Max.X, level: levels[i], first: blank.Min.X, last: blank.Max.X}
		if axis == score.Level {
			l.from, l.to, l.first, l.last = r.Min.Y, r.Max.Y, blank.Min.Y, blank.Max.Y
		}
		if panel.Side() == score.Back { // turned over, its first edge lies last
			l.from, l.to = l.to, l.from
		}
		runs[n].panels = append(runs[n].panels, l)
	}
	return runs
}

// layersOf returns how many layers there are.
func layersOf(runs []run) int {
	most := 0
	for _, r := range runs {
		for _, l := range r.panels {
			most = max(most, l.level+1)
		}
	}
	return most
}

// lifted reports whether some panels lie higher than others.
func lifted(runs []run) bool {
	for _, r := range runs {
		for _, l := range r.panels {
			if l.level != runs[0].panels[0].level {
				return true
			}
		}
	}
	return false
}

// layers draws the section: what lies highest at the head.
func (f *figure) layers(runs []run, first, fitting int) {
	apart := f.pen.mm(3500)
	at := func(l lain, x units.Length) units.Point {
		y, _ := apart.Times(int64(-l.level))
		return units.Point{X: x, Y: y}
	}
	var xs []units.Length
	named := map[string]bool{} // only looked up
	n := 0
	for _, r := range runs {
		for k, l := range r.panels {
			if n++; n > mostDrawn {
				continue
			}
			of := ref{first + r.piece, r.copy, l.index, fitting}
			a, b := at(l, l.from), at(l, l.to)
			f.line(outline, of, false, a, b)
			xs = append(xs, l.from, l.to)
			if !named[l.name] {
				named[l.name] = true
				f.name(l.name, boundsOf([]units.Point{a, b}), of)
			}
			of.panel = none
			for _, before := range r.panels[:k] {
				if x, ok := foldOf(before, l); ok {
					f.turn(of, at(before, x), at(l, x), apart.Half(units.Down), x <= min(l.from, l.to))
				}
			}
		}
	}
	if n > mostDrawn {
		f.says = append(f.says, "and "+strconv.Itoa(n-mostDrawn)+" panels more")
	}
	f.chain(score.Head, sortedPlaces(xs...))
}

// foldOf returns where the fold between two panels lies in the section, and
// whether they are neighbours on the flat piece.
func foldOf(a, b lain) (units.Length, bool) {
	if b.first < a.first {
		a, b = b, a
	}
	return a.to, a.last == b.first && a.to == b.from && a.level != b.level
}

// Accordion draws a fitting that opens like an accordion, by its place in
// [folio.Plan.Fittings], opened and seen from the head: of pockets with gussets
// the leaves as far apart as each pocket opens, with the gusset between them;
// of a strip folded to and fro the panels, each at its length. It returns false
// if there is no such fitting or it does not open like that.
func Accordion(p *folio.Plan, fitting int, o Options) (Picture, bool) {
	return accordionPicture(p, p.Steps(), fitting, o)
}

// accordionPicture draws a fitting opened, by the plan's steps.
func accordionPicture(p *folio.Plan, steps iter.Seq[work.Step], fitting int, o Options) (Picture, bool) {
	g, d, ok := folded(p, fitting)
	if !ok {
		return Picture{}, false
	}
	write := o.figures(p.Notation()).rounded()
	first := firstPiece(g)
	gussets, opens := openedGussets(d)
	zigzags := openedStrips(d)
	if !opens && len(zigzags) == 0 {
		return Picture{}, false
	}
	describe := "The " + g.Label() + ", opened, from the head."
	if opens {
		describe = "The " + g.Label() + ", opened, from the head: " + strconv.Itoa(d.Pockets()) + " x " + write.whole().Text(gussets.opening) + "."
	}
	leaves := make([][]leafOn, len(zigzags))
	for i, z := range zigzags {
		leaves[i] = leavesOn(steps, first+z.piece)
	}
	return compose(g.Label()+", opened", describe, o, write, func(q pen) []*figure {
		if opens {
			f := newFigure(q)
			f.gussets(gussets, g.Index())
			return []*figure{f}
		}
		var figs []*figure
		for i, z := range zigzags {
			f := newFigure(q)
			f.zigzag(z, first, g.Index(), d, leaves[i])
			figs = append(figs, f)
		}
		return figs
	}), true
}

// A fan is a run of pockets with gussets, opened.
type fan struct {
	pockets                       int
	width, half, opening, standIn units.Length
}

// openedGussets returns the gussets of a design, and false if it has none at its
// sides.
func openedGussets(d pocket.Design) (fan, bool) {
	f := fan{pockets: d.Pockets(), width: d.Closed().W, half: d.Gusset(), opening: d.Opening()}
	in, err := d.StandIn(f.opening)
	f.standIn = in
	return f, f.half != 0 && err == nil
}

// mostDrawn is how many pockets or panels of one kind a drawing shows; the
// others are alike.
const mostDrawn = 60

// gussets draws leaves and gussets from the head.
func (f *figure) gussets(g fan, fitting int) {
	of := ofFitting(fitting)
	n := min(g.pockets, mostDrawn)
	for k := range n + 1 {
		y, _ := g.opening.Times(int64(-k))
		f.line(outline, of, false, units.Point{Y: y}, units.Point{X: g.width, Y: y})
		if k == n {
			break
		}
		if k < mostNotes {
			f.name("pocket "+strconv.Itoa(k+1), units.Rect{Min: units.Point{X: g.standIn, Y: y - g.opening}, Max: units.Point{X: g.width - g.standIn, Y: y}}, of)
		}
		mid := y - g.opening.Half(units.Down)
		next := y - g.opening
		f.line(outline, of, false, units.Point{Y: y}, units.Point{X: g.standIn, Y: mid}, units.Point{Y: next})
		f.line(outline, of, false, units.Point{X: g.width, Y: y}, units.Point{X: g.width - g.standIn, Y: mid}, units.Point{X: g.width, Y: next})
	}
	if g.pockets > n {
		f.say("and " + strconv.Itoa(g.pockets-n) + " pockets more")
	}
	top, _ := g.opening.Times(int64(-n))
	f.name("leaf", units.Rect{Min: units.Point{Y: 0}, Max: units.Point{X: g.width, Y: 0}}, of)
	f.name("gusset, half panel "+f.pen.write.text(g.half), units.Rect{Min: units.Point{X: g.width - g.standIn, Y: -g.opening}, Max: units.Point{X: g.width}}, of)
	xs := []units.Length{0, g.width}
	if 2*g.standIn < g.width {
		xs = append(xs, g.standIn, g.width-g.standIn)
	}
	f.chain(score.Head, sortedPlaces(xs...))
	ys := []units.Length{top}
	for k := range n {
		y, _ := g.opening.Times(int64(-k))
		ys = append(ys, y)
	}
	f.chain(score.Left, sortedPlaces(ys...))
}

// A zigzag is a strip with its panels in order, and how each slants: up, down or
// level.
type zigzag struct {
	piece  int
	panels []units.Length
	slant  []int
}

// openedStrips lists the strips of a design that are folded to and fro: no panel
// but a level land lies between two folds of a kind, as seen from the face.
func openedStrips(d pocket.Design) []zigzag {
	var list []zigzag
	for i, piece := range d.Pieces() {
		z := zigzag{piece: i}
		widths, folds := acrossFolds(piece.Blank())
		if len(folds) < 2 {
			continue
		}
		alternates := false
		for k, panel := range widths {
			slant, inner := 1, k > 0 && k < len(folds)
			switch {
			case inner && folds[k-1] == folds[k]:
				slant = 0
			case k == 0 && folds[0] == score.Valley, k > 0 && folds[k-1] == score.Mountain:
				slant = -1
			}
			alternates = alternates || inner && slant != 0
			z.panels, z.slant = append(z.panels, panel), append(z.slant, slant)
		}
		if alternates {
			list = append(list, z)
		}
	}
	return list
}

// acrossFolds returns the panels of a blank from left to right, and the folds
// between them as they are at the head.
func acrossFolds(b score.Blank) (panels []units.Length, folds []score.Fold) {
	var lines []score.Line
	for _, l := range b.Lines() {
		if l.Axis == score.Upright && l.From == 0 {
			lines = append(lines, l)
		}
	}
	inorder.Sort(lines, func(a, b score.Line) int { return cmp.Compare(a.At, b.At) })
	var from units.Length
	for _, l := range lines {
		panels, folds = append(panels, l.At-from), append(folds, l.Fold)
		from = l.At
	}
	return append(panels, b.Size().W-from), folds
}

// fronts lists the panels of a strip, from the left, on whose face a pocket lies that
// was turned up from its tail.
func fronts(d pocket.Design, piece int) (at []units.Rect) {
	for _, panel := range d.Panels() {
		if panel.Piece() == piece && panel.Blank().Min.Y > 0 {
			at = append(at, panel.Blank())
		}
	}
	return at
}

// A leafOn is a leaf that is glued to the face of a panel of a strip, from its left
// end on.
type leafOn struct {
	panel, piece, copy int
	long               units.Length
}

// leavesOn lists the pieces that are glued to single panels of a strip.
func leavesOn(steps iter.Seq[work.Step], strip int) []leafOn {
	var list []leafOn
	for s := range steps {
		for _, a := range s.Do {
			fix, ok := a.(work.Fix)
			if ok && fix.What.Kind == work.Piece && fix.On.Kind == work.OnPiece && fix.On.Index == strip && fix.On.Panel != work.All {
				list = append(list, leafOn{fix.On.Panel, fix.What.Index, fix.What.Copy, fix.Size.W})
			}
		}
	}
	return list
}

// slanted returns how far something of a length reaches along a panel that slants,
// by four along to three up.
func slanted(long units.Length, slant int) units.Point {
	if slant == 0 {
		return units.Point{X: long}
	}
	x, _ := long.Scale(4, 5, units.Nearest)
	y, _ := long.Scale(3, 5, units.Nearest)
	if slant > 0 {
		y = -y
	}
	return units.Point{X: x, Y: y}
}

// zigzag draws a strip opened so far that its panels slant by four along to
// three up: a panel is then five. With it its pockets, a little open, and the
// leaves that are glued to it.
func (f *figure) zigzag(z zigzag, first, fitting int, d pocket.Design, leaves []leafOn) {
	gap := f.pen.mm(1600)
	pockets := fronts(d, z.piece)
	at, along := units.Point{}, units.Length(0)
	for k, panel := range z.panels {
		if k == mostDrawn {
			f.says = append(f.says, "and "+strconv.Itoa(len(z.panels)-k)+" panels more")
			break
		}
		by := slanted(panel, z.slant[k])
		next := at.Plus(by)
		of := ofPiece(first + z.piece)
		of.panel, of.fitting = k, fitting
		f.line(outline, of, false, at, next)
		if !slices.Contains(z.panels[:k], panel) {
			f.name(f.pen.write.text(panel), boundsOf([]units.Point{at, next}), of)
		}
		of.panel = none
		off := slanted(gap, z.slant[k]) // from the panel to where its face looks
		off = units.Point{X: off.Y, Y: -off.X}
		if slices.ContainsFunc(pockets, func(r units.Rect) bool { return r.Min.X <= along && along+panel <= r.Max.X }) {
			in := slanted(panel.Half(units.Down).Half(units.Down).Half(units.Down), z.slant[k])
			f.line(layer, of, false, at, at.Plus(off).Plus(in), next.Plus(off).Plus(units.Point{X: -in.X, Y: -in.Y}), next)
			f.wantOnce("pocket", boundsOf([]units.Point{at.Plus(off), next.Plus(off)}), of)
		}
		for _, l := range leaves {
			if l.panel != k {
				continue
			}
			from := at.Plus(off)
			end := from.Plus(slanted(l.long, z.slant[k]))
			leaf := ref{l.piece, l.copy, none, fitting}
			f.line(layer, leaf, false, from, end)
			f.wantOnce("leaf", units.Rect{Min: end, Max: end}, leaf)
		}
		at, along = next, along+panel
	}
}

// wantOnce names the first thing of a name.
func (f *figure) wantOnce(s string, at units.Rect, of ref) {
	if !slices.ContainsFunc(f.wants, func(w want) bool { return w.s == s }) {
		f.name(s, at, of)
	}
}
