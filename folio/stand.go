package folio

import (
	"strings"

	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Codes of what is impossible, or silly, about what stands on or beside a
// fitting.
const (
	NothingUnder check.Code = "nothing-under" // part of it would stand over nothing: a window, the place where contents stand out
	MouthShut    check.Code = "mouth-shut"    // what stands there shuts a mouth, so that nothing goes in
	WarnMouth    check.Code = "mouth-narrow"  // a neighbour or a hinge leaves less than 1/4 in, or 6 mm where plans are metric, to grip what goes in (common practice, no published source)
	WarnCovered  check.Code = "covered"       // what stands there hides what is to be seen under it, or lies over a thumb notch
)

// inside checks that a footprint stays in its area.
func (b *builder) inside(f *fitter, r, area units.Rect, on string) bool {
	before := b.bad.Len()
	size, room := r.Size(), area.Size()
	if on == "the panel" && b.cramped.told(b, f, size, room) {
		return false
	}
	if !r.Empty() && r.In(area) {
		return true
	}
	b.reaches(f, false, r.Min.X, r.Max.X, area.Min.X, area.Max.X, on)
	b.reaches(f, true, r.Min.Y, r.Max.Y, area.Min.Y, area.Max.Y, on)
	return b.bad.Len() == before
}

// reaches says how a fitting reaches beyond its area from left to right, or from head to
// tail. What is too large must go in where its offset moves it; where nothing does, the
// offset is told of too.
func (b *builder) reaches(f *fitter, tall bool, from, to, low, high units.Length, on string) {
	p, s, text := &f.given.Place, &f.wide, axisTextOf(tall)
	offset := p.Offset.X
	if tall {
		s, offset = &f.tall, p.Offset.Y
	}
	back, room := p.Back(tall), high-low
	before, after := low-from, to-high
	if size := to - from; size > room {
		before, after = 0, 0
		if offset != 0 && !p.Lined() {
			most := room - offset
			if start := p.Start(tall, room, most, f.ruler()); start != 0 && start != offset { // in the middle
				most = room - 2*f.ruler().Up(offset.Abs())
			}
			switch {
			case most < room && f.ruler().Down(most) >= f.least(max(s.more, f.border)):
				room, on = most, on+" with its offset"
			case (offset > 0) == back:
				before = offset.Abs()
			default:
				after = offset.Abs()
			}
		}
		b.large(f, *s, text.code, size, room, text.wide+on)
	}
	b.beyond(f, text.offset, offset, back, before, text.edges[0], on)
	b.beyond(f, text.offset, offset, !back, after, text.edges[1], on)
}

// A cramped is the least clearance that leaves no room for something on a panel that
// would have it with less, told once for all.
type cramped struct {
	most units.Length // that would do
	text string       // of what asks for it
}

// told notes a fitting for which a clearance leaves nothing at all of a panel that it
// goes on without.
func (c *cramped) told(b *builder, f *fitter, size, room units.Size) bool {
	if room.W >= units.Shortest && room.H >= units.Shortest || b.spec.Clearance <= 0 {
		return false
	}
	spare := b.plan.panelArea(f.given.Panel, f.given.Outside).Size().Plus(-size.W, -size.H)
	most := min(spare.W, spare.H).Half(units.Down)
	if most < 0 {
		return false
	}
	if c.text == "" || most < c.most {
		*c = cramped{most, f.label}
	}
	return true
}

// clearance refuses a clearance that leaves no room.
func (b *builder) clearance() {
	if c := &b.cramped; c.text != "" {
		b.bad.Long("clearance", check.TooLarge, b.notation(), b.spec.Clearance, c.most, "for "+c.text+" to have room on its panel")
	}
}

// beyond says that a fitting reaches beyond an edge of its area, and what offset
// would keep it inside: a smaller one, or a larger one.
func (b *builder) beyond(f *fitter, field string, offset units.Length, smaller bool, by units.Length, edge, on string) {
	if by <= 0 {
		return
	}
	n := b.notation()
	what := "or it reaches " + n.Bound(by, units.Up) + " beyond the " + edge + " edge of " + on
	if smaller {
		b.bad.Long(f.at(field), OffPanel, n, offset, offset-by, what)
	} else {
		b.bad.Short(f.at(field), OffPanel, n, offset, offset+by, what)
	}
}

// contained is a kind whose footprint follows from what it holds: it says how
// much less of that goes into the room, and where that is told; a limit of 0
// where it does not know.
type contained interface {
	smaller(f *fitter, wide bool, over, room units.Length) (field string, given, limit units.Length)
}

// large says that a footprint is larger than its area, and which size of the
// field that decides on it would do.
func (b *builder) large(f *fitter, s side, code check.Code, got, room units.Length, on string) {
	n := b.notation()
	limit := f.ruler().Down(room)
	if s.exact {
		limit = room
	}
	limit -= s.more
	relation := s.relation != nil
	if relation && (s.working == nil || got >= s.working.Length() || !f.folded()) {
		f.past(s, code, got, room, on)
		return
	}
	if c, ok := f.given.Kind.(contained); ok { // what it holds is too large for less room too
		if field, given, limit := c.smaller(f, code == TooWide, got-room, room); limit > 0 {
			_, where, _ := strings.Cut(on, " ") // "on the panel", not "wide on the panel"
			b.bad.Long(f.at(field), code, n, given, limit, "or what is round it does not go "+where)
			return
		}
	}
	switch {
	case relation:
		f.past(s, code, got, room, on)
	case s.given == 0:
		b.bad.Impossible(f.at(s.field), code, n.Text(got)+" in all", "at most "+n.Bound(room, units.Down)+" "+on)
	case limit < units.Shortest && s.around != "" && (limit+2*s.by-s.given).Half(units.Down) >= units.Shortest:
		b.bad.Long(f.at(s.around), code, n, s.by, (limit + 2*s.by - s.given).Half(units.Down), "on each side, "+on)
	case limit < units.Shortest:
		b.bad.Impossible(f.at(s.field), code, n.Text(s.given)+", which makes "+n.Text(got), "a place with more than "+n.Bound(room, units.Up)+" "+on)
	default:
		b.bad.Long(f.at(s.field), code, n, s.given, limit, on)
	}
}

// stands finds the surface of what is under a fitting that carries all of it, and reports
// whether there is one.
func (b *builder) stands(f *fitter, out *Fitted) bool {
	under := &b.plan.fitted[out.base]
	found := -1
	for i := range under.surfaces {
		if out.rect.In(under.surfaces[i].rect) {
			found = i
		}
	}
	lies := out.reach(out.rect)
	at := under.seen(lies)
	if found < 0 {
		b.nothingUnder(f, under)
		return false
	}
	out.on = uint16(found)
	on := &under.surfaces[found]
	what := "" // it lies over
	if under.thumb(on).Overlaps(at) {
		what = "thumb notch of " + under.Label() + ", and sticks there to what is in it"
	}
	for i := range under.spots {
		if s := &under.spots[i]; s.content != (pocket.Content{}) && s.seen.Overlaps(lies) {
			what = contentName(s.content) + " on " + under.Label()
		}
	}
	if what != "" {
		b.warn(check.Warning{Path: f.at(".place"), Code: WarnCovered, Text: f.label + " lies over the " + what})
	}
	if !on.behind {
		return true
	}
	for i := range under.spots {
		if s := &under.spots[i]; !s.mounted && !s.hidden && s.rect.Overlaps(lies) {
			want := "a place beside what it holds"
			if top := &under.surfaces[len(under.surfaces)-1]; !top.behind {
				want = "a place on its " + top.name + ", or beside what it holds"
			}
			b.bad.Impossible(f.at(".place"), MouthShut, f.label+" on the "+on.name+" of "+under.Label()+", where its contents go in and stand out", want)
			return true
		}
	}
	if under.overlaid(on, at) {
		b.nothingUnder(f, under)
	}
	return true
}

// nothingUnder refuses what lies over more or less than a part of what it stands on.
func (b *builder) nothingUnder(f *fitter, under *Fitted) {
	want := "a place or a size that lies all on one of its parts"
	if len(under.surfaces) == 0 {
		want = "to stand on something else: nothing stands on a " + under.kind.String()
	}
	b.bad.Impossible(f.at(".place"), NothingUnder, f.label+" over a part of "+under.Label()+" where there is nothing to stand on", want)
}

// thumb returns the room of a thumb on a surface that is the front of a pocket: the
// rectangle round the notch in the middle of its head edge.
func (f *Fitted) thumb(s *Surface) units.Rect {
	if s.panel >= 0 {
		piece, on := &f.plan.pieces[s.piece], f.folds(int(s.panel))
		flat, closed := on.Blank(), on.Closed()
		for _, n := range piece.blank.Notches() {
			edge := n.Edge == score.Head && flat.Min.Y == 0 || n.Edge == score.Tail && flat.Max.Y == piece.height.Length()
			if edge && n.Middle > flat.Min.X && n.Middle < flat.Max.X {
				beside := (closed.Size().W - n.Width).Half(units.Down) // as much of it at each side
				return units.Rect{Min: units.Point{X: closed.Min.X + beside, Y: closed.Min.Y}, Max: units.Point{X: closed.Max.X - beside, Y: closed.Min.Y + n.Depth}}
			}
		}
	}
	return units.Rect{}
}

// overlaid reports whether a panel is folded over a surface at a place of the
// footprint.
func (f *Fitted) overlaid(s *Surface, place units.Rect) bool {
	levels := f.design.Levels()
	for n, p := range f.design.Panels() {
		if levels[n] > levels[s.panel] && p.Closed().Overlaps(place) {
			return true
		}
	}
	return false
}

// mouths warns where a neighbour, or the hinge, leaves no room to grip what goes
// into a fitting.
func (b *builder) mouths() {
	p := b.plan
	for i := range p.fitted {
		f := &p.fitted[i]
		for k := range f.spots {
			s := &f.spots[k]
			if s.mounted {
				continue
			}
			who := b.inTheWay(i, s)
			if who == "" {
				continue
			}
			n := b.notation()
			b.warn(check.Warning{Path: fittingPath(f.index), Code: WarnMouth, Want: grip(n),
				Text: f.Label() + " opens towards the " + s.mouth.String() + ", and " + who + " leaves less than " + n.Text(grip(n)) + " there to get anything in"})
			break
		}
	}
}

// inTheWay names what lies in the way into a spot of a fitting, "" for nothing.
func (b *builder) inTheWay(i int, s *Spot) string {
	p := b.plan
	f := &p.fitted[i]
	for j := range p.fitted {
		o := &p.fitted[j]
		if j != i && o.panel == f.panel && o.outside == f.outside && o.rect.Overlaps(s.wayIn) && !p.over(i, j) && !p.over(j, i) {
			return o.Label()
		}
	}
	if f.outside {
		return ""
	}
	at, area := p.index(f.panel), p.panelArea(f.panel, false)
	if s.mouth == score.Left && at > 0 && s.wayIn.Min.X < area.Min.X || s.mouth == score.Right && at+1 < len(p.boards) && s.wayIn.Max.X > area.Max.X {
		return "the hinge"
	}
	return ""
}

// over reports whether one fitting stands on another, with others between or
// not.
func (p *Plan) over(top, under int) bool {
	for base := p.fitted[top].base; base >= 0; base = p.fitted[base].base {
		if base == under {
			return true
		}
	}
	return false
}
