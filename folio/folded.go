package folio

import (
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/inorder"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Folded is a fitting folded from sheet: any kind of package pocket, from the
// slip pocket to the accordion. It is designed in the fitting's stock and on
// the ruler of fittings, and sits on the panel with its closed footprint.
type Folded struct {
	// Kind is what is folded.
	Kind pocket.Kind
	// MatStock names the stock of a mat that the kind carries itself: one of
	// Spec.Stocks or of the case's materials. Empty means the fitting's stock, or,
	// where the mat has a caliper of its own, a material called by it, as in "mat
	// 3 mm thick".
	MatStock string
}

// String returns the name of the kind.
func (d Folded) String() string {
	kind, err := pocket.Accept(d.Kind)
	if err != nil {
		return "folded fitting"
	}
	return kind.Name()
}

func (d Folded) withUsual(r rule.Rulers) Kind {
	d.Kind = pocket.WithDefaults(d.Kind, r.Fitting)
	return d
}

// asked checks what a design is asked for in: the kind as a plain value, the
// paper and the stock of a mat that it carries.
func (d Folded) asked(f *fitter) (kind pocket.Kind, paper pocket.Paper, mat *stock.Stock, ok bool) {
	bad := &f.b.bad
	before := bad.Len()
	kind, err := pocket.Accept(d.Kind)
	if err != nil { // else the path is not put together
		bad.Under(f.at(".kind.kind"), err)
	}
	mat = f.stock
	if d.MatStock != "" {
		if mat = f.b.stock(d.MatStock); mat == nil {
			bad.Malformed(f.at(".kind.matstock"), check.Unknown, check.Quote(d.MatStock), "the name of one of the stocks")
		}
	}
	if bad.Len() > before || !f.soundFor(mat) { // said where the paper, the groove or the ruler is given
		return kind, paper, mat, false
	}
	return kind, pocket.Paper{
		Name: f.stock.Name, Caliper: f.stock.Caliper, Grammage: f.stock.Grammage, TwoSided: f.stock.TwoSided,
		Groove: f.b.spec.Groove, Sheet: f.largestSheet(), MatCaliper: mat.Caliper,
	}, mat, true
}

func (d Folded) fit(f *fitter) bool {
	bad := &f.b.bad
	before := bad.Len()
	kind, paper, mat, ok := d.asked(f)
	if !ok {
		return false
	}
	design, err := f.designed(kind, paper)
	if err != nil {
		f.under(err, paper)
		return false
	}
	f.design, f.up = design, design.Paper().Up
	f.footprint = design.Closed()
	f.wide, f.tall = side{field: ".kind.kind"}, side{field: ".kind.kind"}
	f.empty, f.full = design.Thickness(false), design.Thickness(true)
	noted := len(f.b.plan.workings)
	for w := range design.Workings() {
		f.b.plan.workings = append(f.b.plan.workings, w)
	}
	f.warned = int32(len(f.b.plan.warnings))
	var room [24]pocket.Height
	heights := room[:0] // of the empty design
	for h := range design.Heights(false) {
		heights = append(heights, h)
	}
	d.pieces(f, design, f.b.plan.workings[noted:], heights, mat)
	d.layers(f, design, heights)
	d.spots(f, design)
	return bad.Len() == before
}

// filling gives what is folded the room that is wanted, less what it reaches past
// that when it is closed.
func (d Folded) filling(f *fitter) (Kind, bool) {
	if f.want.proportions != (place.Proportions{}) {
		f.b.bad.Malformed(f.at(".size.proportions"), check.Conflict, "proportions of a "+d.String(), "no proportions, or a mat, a frame or an ornament")
		return d, false
	}
	if !f.anyPicture() {
		return d, false
	}
	kind, paper, _, ok := d.asked(f)
	if !ok {
		return d, false
	}
	room := f.want.size()
	with, fields, err := pocket.AtHand(kind, room)
	if err != nil {
		f.b.bad.Under(f.at(".kind.kind"), err)
		return d, false
	}
	f.handed = &handed{kind: kind, fields: fields}
	design, err := f.designed(with, paper)
	if err != nil && (f.want.w == nil || f.want.h == nil) {
		// Some take a place as a whole: the other side is what it is without one.
		if own, alone := f.designed(kind, paper); alone == nil {
			if f.want.w == nil {
				room.W = own.Closed().W
			} else {
				room.H = own.Closed().H
			}
			with, _, _ = pocket.AtHand(kind, room)
			design, err = f.designed(with, paper)
		}
	}
	if d.Kind = with; err != nil {
		return d, true // what is wrong is said where it is worked out for good
	}
	closed := design.Closed()
	f.want.sides(func(tall bool, l units.Length) bool {
		if past := *sideOf(&closed, tall) - l; past > 0 && past < l {
			*sideOf(&room, tall) = f.sum(axisName(tall)+" at hand", units.Down, units.T(f.label, l), units.N(-1, "what it reaches past that", past)).Length()
		}
		return true
	})
	d.Kind, _, _ = pocket.AtHand(kind, room)
	return d, true
}

// smaller tries contents that are smaller by what the footprint is too large, and
// by up to three steps of the ruler more for what is rounded.
func (d Folded) smaller(f *fitter, wide bool, over, room units.Length) (field string, given, limit units.Length) {
	const w, h = ".kind.kind.content.size.w", ".kind.kind.content.size.h"
	side := func(c *pocket.Content) *units.Length {
		if wide {
			return &c.Size.W
		}
		return &c.Size.H
	}
	pocket.Holding(d.Kind, func(c *pocket.Content) { given = *side(c) })
	if field = h; wide {
		field = w
	}
	for i := range 4 {
		limit = f.ruler().Down(given-over) - times(f.ruler().Step(), i)
		if limit < units.Shortest {
			break
		}
		kind := pocket.Holding(d.Kind, func(c *pocket.Content) { *side(c) = limit })
		design, err := pocket.Make(kind, f.design.Paper(), f.ruler())
		if err == nil && (wide && design.Closed().W <= room || !wide && design.Closed().H <= room) {
			return field, given, limit
		}
	}
	return field, given, 0
}

// soundFor reports whether what the Spec says of the paper, the mat's stock and
// the ruler can go into a design.
func (f *fitter) soundFor(mat *stock.Stock) bool {
	sheet := f.largestSheet()
	return f.stock.Sound() && mat.Sound() && f.b.spec.Groove <= pocket.GrooveInside &&
		(sheet == units.Size{} || check.InBounds(sheet.W) && check.InBounds(sheet.H))
}

// among returns where a working of a piece stands among those of its design.
func among(all []units.Working, w units.Working) *units.Working {
	for i := range all {
		if all[i].Length() == w.Length() && all[i].Equal(w) {
			return &all[i]
		}
	}
	own := w // that of a piece is told by itself only
	return &own
}

// pieces adds the pieces, each from its own stock, and where they lie.
func (d Folded) pieces(f *fitter, design pocket.Design, workings []units.Working, heights []pocket.Height, mat *stock.Stock) {
	first := len(f.b.plan.pieces)
	for _, p := range design.Pieces() {
		axis, folds := p.Grain()
		piece := Piece{across: folds && axis == score.Level, name: p.Name(), quantity: p.Quantity(), width: among(workings, p.Width()), height: among(workings, p.Height()), blank: p.Blank()}
		if p.StockKind() == pocket.MatStock {
			piece.stock, piece.caliper = mat.Name, p.Caliper()
			f.up = work.RightSide // of a mat, which no fold turns over
			if p.Caliper() != mat.Caliper {
				if d.MatStock != "" {
					f.b.bad.Malformed(f.at(".kind.matstock"), check.Conflict, check.Quote(mat.Name)+", which is "+f.notation().Text(mat.Caliper)+" thick, for a mat of "+f.notation().Text(p.Caliper()),
						"a mat without a caliper of its own, or the name of a stock so thick")
				}
				piece.stock = f.thick("mat", p.Caliper())
			}
		}
		at := f.piece(&piece)
		f.up = design.Paper().Up
		if p.StockKind() == pocket.MatStock {
			if on, err := design.Carry(p.Blank().Size()); err == nil {
				f.lay(at, 0, on)
			}
		}
	}
	d.surfaces(f, design, first)
	for i := range f.surfaces {
		s := &f.surfaces[i]
		s.height = below(heights, s.rect)
	}
}

// surfaces tells where the panels lie, and which of the piece that lies highest
// others may stand on.
func (d Folded) surfaces(f *fitter, design pocket.Design, first int) {
	_, flapped := design.Carrier()
	highest, lead, flat := 0, 0, 0
	for n, p := range design.Panels() {
		closed := p.Closed()
		if closed.Empty() {
			continue
		}
		l := laying(first+p.Piece(), p.Copy(), closed)
		l.panel, l.over = int32(n+1), p.Side() == score.Back
		f.lain = append(f.lain, l)
		// What stands on a folded fitting stands on its flap where it has one: that comes first.
		if flat++; flat == 1 {
			highest, lead = n, p.Piece()
		}
	}
	var levels []int
	if flat > 1 && !flapped {
		levels = design.Levels()
		for n, p := range design.Panels() {
			if levels[n] > levels[highest] && !p.Closed().Empty() {
				highest, lead = n, p.Piece()
			}
		}
	}
	for n, p := range design.Panels() {
		if n == highest || levels != nil && p.Piece() == lead && !p.Closed().Empty() {
			f.surface(Surface{name: p.Name(), rect: p.Closed(), piece: int32(first + lead), panel: int16(n)}, levels)
			if levels == nil {
				break
			}
		}
	}
	f.stacked(design, levels)
	for i := range f.surfaces {
		f.carrier = f.carrier.Union(f.surfaces[i].rect)
	}
}

// surface adds a surface, unless it is slanted or lies under another one just there.
//
//go:noinline
func (f *fitter) surface(s Surface, levels []int) {
	if f.b.plan.pieces[s.piece].slanted() {
		return
	}
	for i := range f.surfaces {
		if there := &f.surfaces[i]; there.rect == s.rect {
			if levels[s.panel] > levels[there.panel] {
				*there = s
			}
			return
		}
	}
	f.surfaces = append(f.surfaces, s)
}

// stacked puts the surfaces in the order in which they lie, the highest last, and
// says of each whether any panel lies over it: in the order of the layers as they
// are folded, which is not that of the panels along a strip.
func (f *fitter) stacked(design pocket.Design, levels []int) {
	if len(f.surfaces) < 2 {
		return
	}
	inorder.Sort(f.surfaces, func(a, b Surface) int { return levels[a.panel] - levels[b.panel] })
	for i := range f.surfaces {
		s := &f.surfaces[i]
		for n, p := range design.Panels() {
			if levels[n] > levels[s.panel] && p.Closed().Overlaps(s.rect) {
				s.behind = true
			}
		}
	}
	// Of what is no lower a content goes in behind that which is furthest from its
	// mouth; over the rest it stands out. Here mouths are at the head: the others are
	// under flaps, on which alone something stands.
	for _, p := range design.Spots() {
		furthest := -units.Longest
		for upper := f.surfaces; len(upper) > 0; {
			first := len(upper) - 1
			for first > 0 && levels[upper[first-1].panel] == levels[upper[first].panel] {
				first--
			}
			same := upper[first:]
			upper = upper[:first]
			for i := range same {
				if p.Rect().Overlaps(same[i].rect) {
					furthest = max(furthest, same[i].rect.Min.Y)
				}
			}
			for i := range same {
				same[i].behind = same[i].behind || p.Rect().Overlaps(same[i].rect) && same[i].rect.Min.Y < furthest
			}
		}
	}
}

// below returns how high an empty design is at its highest under a rectangle.
func below(heights []pocket.Height, r units.Rect) units.Length {
	var most units.Length
	for _, h := range heights {
		if h.Rect().Overlaps(r) {
			most = max(most, h.Height())
		}
	}
	return most
}

// layers tells the heights: of the empty design, and of what fills it.
func (d Folded) layers(f *fitter, design pocket.Design, heights []pocket.Height) {
	for _, h := range heights {
		height := h.Height()
		if h.Layers() > 0 {
			height += f.film()
		}
		f.layers = append(f.layers, Layer{name: "paper", rect: h.Rect(), height: height})
	}
	for h := range design.Filling() {
		f.layers = append(f.layers, Layer{name: "contents", rect: h.Rect(), height: h.Height(), held: true})
	}
	// The tabs of a guard on a spine lie beside its leaves, which stand up from between them.
	if tab, folds := design.Tabs(); tab > 0 {
		size, height := f.footprint, f.stock.Caliper+f.film()
		for _, x := range [...][2]units.Length{{-tab, 0}, {size.W, folds + tab}} {
			if x[0] < x[1] {
				f.layers = append(f.layers, Layer{name: "tab", rect: units.Rect{Min: units.Point{X: x[0]}, Max: units.Point{X: x[1], Y: size.H}}, height: height, spread: true})
			}
		}
	}
}

// spots tells the places for contents, and what they weigh when they are full.
func (d Folded) spots(f *fitter, design pocket.Design) {
	content, designed := design.Content()
	for i, p := range design.Spots() {
		s := Spot{
			index: int32(i), rect: p.Rect(), lies: p.Turned(), clear: p.Clear(), capacity: p.Capacity(), content: content,
			mouth: p.Mouth(), mounted: p.Mounted(), corners: p.ByCorners(), hidden: p.Hidden(),
		}
		if designed {
			s.lies = resting(p, content.Size)
			if s.mounted && !s.hidden {
				s.seen = s.lies
			}
		}
		s.wayIn = s.rect
		if !s.mounted {
			s.wayIn = wayIn(s.rect, f.footprint, s.mouth, grip(f.notation()))
		}
		f.spots = append(f.spots, s)
		if designed {
			f.loads = append(f.loads, Load{name: content.Name, content: content, count: int32(max(p.Capacity().Count, 1)), held: true})
		} else {
			f.loads = append(f.loads, Load{name: "most that goes in", count: 1, held: true,
				content: pocket.Content{Size: p.Capacity().Size, Thickness: p.Capacity().Thickness}})
		}
	}
}

// resting returns where a content lies in a place: in the middle, or at the end
// away from the mouth.
func resting(p pocket.Spot, size units.Size) units.Rect {
	at := place.Place{}
	if !p.Mounted() {
		switch p.Mouth() {
		case score.Head:
			at.Along = place.Tail
		case score.Tail:
			at.Along = place.Head
		case score.Left:
			at.Across = place.Right
		case score.Right:
			at.Across = place.Left
		}
	}
	return at.Within(p.Turned(), size, 1)
}

func (d Folded) holds() pocket.Content {
	c, _ := pocket.Holds(d.Kind)
	return c
}

// work is the design's own order of work, in the folio: the pieces cut from
// their sheets, and what is fixed to the base fixed to the board or to what the
// fitting stands on, marked and laid dry before. Contents go in in the end, and
// what closes over them is closed after that; both at once where another fitting
// stands on it.
func (d Folded) work(o *order, f *Fitted) {
	w := &within{o: o, f: f, carries: o.carries(o.part.Index)}
	w.on, w.seat = o.p.seat(f)
	w.done, w.ends = w.some[:0], append(w.few[:0], 0)
	for s := range f.design.StepsIn(w) {
		w.step(s)
	}
	o.stood(w.last)
}
