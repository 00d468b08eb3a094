package fit

import (
	"iter"
	"slices"
	"strconv"

	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// NotFinished is the code of a search that its budget ended before anything was
// known.
const NotFinished check.Code = "not-finished"

// All finds a room for each of the contents at once, so that the folio closes
// over all of them with its ease: on each panel one, in each spot of a fitting
// one, or as many as the spot was designed for, each of them no thicker than its
// share of the room. The ways stand in the order of the contents.
//
// Rooms are given out first; where what lies there meets when the folio is
// closed, every way to lay the contents beside each other is tried.
//
// The error is a *[check.Error] of the code [NotHeld] that says for how many
// room was found, of [NotFinished] where the budget ended the search, of too many
// contents or a budget of less than nothing, or that of the Stopper.
func (s *Survey) All(until score.Stopper, b Budget, contents ...pocket.Content) ([]Berth, error) {
	return s.within(until, b, 0, contents)
}

// InFittings is All without the panels: it finds a spot of a fitting for each of
// the contents.
func (s *Survey) InFittings(until score.Stopper, b Budget, contents ...pocket.Content) ([]Berth, error) {
	return s.within(until, b, s.bare, contents)
}

func (s *Survey) within(until score.Stopper, b Budget, from int, contents []pocket.Content) ([]Berth, error) {
	var bad check.List
	if b.check(&bad); bad.Len() > 0 {
		return nil, bad.Err()
	}
	return s.all(newMeter(until, b), from, contents)
}

// all finds a room for each of the contents, among those from one number on.
func (s *Survey) all(m *meter, from int, contents []pocket.Content) ([]Berth, error) {
	var bad check.List
	if len(contents) > MostContents {
		bad.Malformed("contents", check.TooMany, strconv.Itoa(len(contents)), "at most "+strconv.Itoa(MostContents))
		return nil, bad.Err()
	}
	bad.In(s.Plan().Notation())
	checkContents(&bad, contents)
	if err := bad.Err(); err != nil {
		return nil, err
	}
	ways := make([][]Berth, len(contents))
	where := make([][]int, len(contents))
	for i, c := range contents {
		// Equal contents go where the first of them goes.
		if j := slices.Index(contents[:i], c); j >= 0 {
			ways[i], where[i] = ways[j], where[j]
			continue
		}
		for k := from; k < len(s.rooms); k++ {
			if m.over() {
				return nil, m.ending()
			}
			way, ok := s.takes(m, k, c)
			switch {
			case !ok:
			case s.rooms[k].content == c, s.rooms[k].content == c.Turned(): // the room made for it first
				ways[i], where[i] = append([]Berth{way}, ways[i]...), append([]int{k}, where[i]...)
			default:
				ways[i], where[i] = append(ways[i], way), append(where[i], k)
			}
		}
	}
	t := together{s: s, m: m, contents: contents, where: where}
	chosen, held, first := match(where, len(s.rooms))
	if held < len(contents) {
		shared, more, most := s.shared(ways, where, false)
		chosen, held, first = shared, max(held, more), max(first, most)
	}
	if held < len(contents) {
		// One may have a spot to itself, and others share another one.
		if _, most, _ := s.shared(ways, where, true); most == len(contents) && t.search() {
			return t.ways, nil
		}
		if m.over() {
			return nil, m.ending()
		}
		most := "none of them"
		if first > 0 {
			most = "at most the first " + strconv.Itoa(first)
		}
		bad.Impossible("contents", NotHeld, many(len(contents), "content")+" and room for "+many(held, "of them"), most+", a fitting for each that finds no room, or a larger cover")
		return nil, bad.Err()
	}
	out := make([]Berth, len(contents))
	for i := range contents {
		out[i] = ways[i][chosen[i]]
	}
	switch {
	case t.fit(out):
		return out, nil
	case t.search():
		return t.ways, nil
	case m.over():
		return nil, m.ending()
	}
	bad.Impossible("contents", NotHeld, "room for each of "+many(len(contents), "content")+" by itself, but none in which the folio closes over all of them", "a wider spine, or a larger cover")
	return nil, bad.Err()
}

// ending is the error of a search that has to end.
func (m *meter) ending() error {
	if err := m.until.Err(); err != nil {
		return err
	}
	var bad check.List
	bad.Impossible("budget", NotFinished, "steps spent before an answer was found", "more than "+strconv.FormatInt(m.done, 10)+" steps")
	return bad.Err()
}

// A together looks for ways to lay contents so that none meets another where the
// folio has no room for both.
type together struct {
	s        *Survey
	m        *meter
	contents []pocket.Content
	where    [][]int // the rooms of each by itself
	ways     []Berth // found
	used     []int   // how many lie in each room
	in       []int   // the room of each
}

// fit reports whether the ways do beside each other.
func (t *together) fit(ways []Berth) bool {
	grounds := t.grounds(ways)
	for _, w := range ways {
		if !t.clear(grounds, w) {
			return false
		}
		grounds = t.with(grounds, w)
	}
	return true
}

// grounds are those of the survey, without what the fittings hold that the ways
// use.
func (t *together) grounds(ways []Berth) []ground {
	out := copied(t.s.panels)
	for _, w := range ways {
		if w.room.kind == Mounted {
			out = t.s.emptied(out, w.room)
		}
	}
	return out
}

func copied(grounds []ground) []ground {
	out := slices.Clone(grounds)
	for i := range out {
		out[i].fillers = slices.Clone(out[i].fillers)
	}
	return out
}

// emptied takes off what a spot holds as it was designed.
func (s *Survey) emptied(grounds []ground, r Room) []ground {
	n := 0
	for f := range s.plan.Fittings() {
		if n != r.fitting {
			n++
			continue
		}
		for l := range f.Layers() {
			if l.Held() && l.Rect().Overlaps(r.rect) {
				s.over(grounds, r, l.Rect(), -l.Height(true))
			}
		}
		return grounds
	}
	return grounds
}

// over adds a height on a room's panel to all grounds that it comes to lie on.
func (s *Survey) over(grounds []ground, r Room, at units.Rect, h units.Length) {
	for i := range grounds {
		g := &grounds[i]
		if g.role == r.panel {
			g.with(at, h, g.role)
		} else if on, ok := s.plan.Facing(at, r.panel, g.role); ok {
			g.with(on, h, r.panel)
		}
	}
}

// with adds what a way lays down. Nothing else comes to lie on its panel beside it.
func (t *together) with(grounds []ground, w Berth) []ground {
	s := t.s
	out := copied(grounds)
	switch w.room.kind {
	case OnPanel:
		l := s.load(w.content)
		s.over(out, w.room, l.under(w.rect), l.low)
		s.over(out, w.room, w.rect, l.high-l.low)
	case Mounted:
		s.over(out, w.room, w.rect, w.content.Thickness+w.room.film)
	case Slipped: // counted with its fitting
	}
	return out
}

// clear reports whether a way lays its content, clear of the fittings, where there is
// room for it.
func (t *together) clear(grounds []ground, w Berth) bool {
	for i := range grounds {
		g := &grounds[i]
		if g.role != w.room.panel {
			continue
		}
		switch w.room.kind {
		case OnPanel:
			l := t.s.load(w.content)
			return g.takes(t.m, l.under(w.rect), l.low) && g.takes(t.m, w.rect, l.high)
		case Mounted:
			return g.takes(t.m, w.rect, w.content.Thickness+w.room.film)
		case Slipped:
		}
	}
	return true
}

// search tries everything: which content goes into which room and which way round,
// and then, on the panels, which is laid next and where.
func (t *together) search() bool {
	t.used = make([]int, len(t.s.rooms))
	t.in = make([]int, len(t.contents))
	t.ways = make([]Berth, len(t.contents))
	return t.assign(t.s.panels, 0)
}

// assign gives content i and those after it rooms. What goes into fittings lies
// there at once.
func (t *together) assign(grounds []ground, i int) bool {
	if i == len(t.contents) {
		return t.lay(grounds, t.onPanels())
	}
	c := t.contents[i]
	from := 0 // equal contents take rooms in their order
	for j, before := range t.contents[:i] {
		if before == c {
			from = slices.Index(t.where[i], t.in[j])
		}
	}
	for _, k := range t.where[i][from:] {
		if !t.shares(i, k) {
			continue
		}
		t.used[k]++
		t.in[i] = k
		if t.into(grounds, i) {
			return true
		}
		t.used[k]--
	}
	return false
}

// shares reports whether content i may go into a room with what lies there: as
// many as the spot was designed for, each no thicker than its share.
func (t *together) shares(i, k int) bool {
	r := t.s.rooms[k]
	if t.used[k] == 0 || t.used[k] == r.Count() {
		return t.used[k] == 0
	}
	for j := range i + 1 {
		if (j == i || t.in[j] == k) && t.contents[j].Thickness > r.share() {
			return false
		}
	}
	return true
}

// into lays content i into its room, if that is of a fitting, and goes on with the
// next.
func (t *together) into(grounds []ground, i int) bool {
	r := t.s.rooms[t.in[i]]
	if t.m.spend(1); t.m.over() {
		return false
	}
	if r.kind == OnPanel {
		return t.assign(grounds, i+1)
	}
	if r.kind == Mounted {
		grounds = t.s.emptied(copied(grounds), r)
	}
	for turned, c := range t.turns(i) {
		if !r.takes(c) {
			continue
		}
		w := Berth{r, c, turned, middle(r.rect, c.Size)}
		if !t.clear(grounds, w) {
			continue
		}
		if t.ways[i] = w; t.assign(t.with(grounds, w), i+1) {
			return true
		}
		if r.kind == Slipped {
			break // it takes the same room either way
		}
	}
	return false
}

// turns walks a content as it lies and turned.
func (t *together) turns(i int) iter.Seq2[bool, pocket.Content] {
	return func(yield func(bool, pocket.Content) bool) {
		c := t.contents[i]
		if yield(false, c) && c.Size.W != c.Size.H {
			yield(true, c.Turned())
		}
	}
}

// onPanels lists the contents that were given panels.
func (t *together) onPanels() []int {
	var out []int
	for i, k := range t.in {
		if t.s.rooms[k].kind == OnPanel {
			out = append(out, i)
		}
	}
	return out
}

// lay lays contents on their panels, in every order.
func (t *together) lay(grounds []ground, left []int) bool {
	for n, i := range left {
		rest := slices.Delete(slices.Clone(left), n, n+1)
		r := t.s.rooms[t.in[i]]
		for turned, c := range t.turns(i) {
			for at := range t.places(grounds, r, c) {
				if t.m.spend(1); t.m.over() {
					return false
				}
				t.ways[i] = Berth{r, c, turned, at}
				if t.lay(t.with(grounds, t.ways[i]), rest) {
					return true
				}
			}
		}
	}
	return len(left) == 0
}
