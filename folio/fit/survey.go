package fit

import (
	"iter"
	"slices"
	"strconv"
	"strings"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Survey is what of a plan takes contents. It cannot be changed and may be
// shared between goroutines.
type Survey struct {
	plan   *folio.Plan
	ruler  units.Ruler
	reveal units.Length
	card   units.Length // of a mat of one's own
	film   units.Length
	ease   units.Length
	rooms  []Room
	bare   int      // how many of the rooms are panels, which come first
	panels []ground // of the boards that are surveyed
}

// Of surveys a plan: the panels inside but the spines and those that look out when
// the folio is shut, left to right, then the spots of the fittings inside, in their
// order. Where the folio does not shut,
// closing limits no thickness.
func Of(p *folio.Plan) *Survey {
	if p == nil {
		p = new(folio.Plan) // which takes nothing
	}
	spec := p.Spec()
	card, _ := p.Stock("") // what a mat without a stock is cut from
	s := &Survey{
		plan: p, ruler: spec.Rulers.Fitting, reveal: reveal(p.Notation()),
		card: card.Caliper, film: max(spec.Closing.Adhesive.Caliper, 0), ease: max(spec.Closing.Ease, 0), // none is −1
	}
	for b := range p.Boards() {
		role := b.Role()
		if _, room, shuts := p.Over(role, true); role.Spine() || shuts && room >= units.Longest {
			continue
		}
		area, _ := p.Panel(role, false)
		area = area.Grow(-spec.Clearance)
		s.panels = append(s.panels, s.ground(role, area))
		r := Room{kind: OnPanel, panel: role, fitting: -1, spot: -1, rect: area, size: area.Size().Grow(-s.reveal)}
		if r.size.Empty() {
			continue
		}
		r.thickness = max(0, p.Headroom(area, role, -1)-s.card-s.film)
		s.rooms = append(s.rooms, r)
	}
	s.bare = len(s.rooms)
	i := 0
	for f := range p.Fittings() {
		if !f.Outside() {
			s.spots(f, i)
		}
		i++
	}
	return s
}

// reveal is what shows of a mat round its picture: 1/8 in or 3 mm (common
// practice, no published source).
func reveal(n units.Notation) units.Length {
	if n == units.MetricDecimal {
		return 3 * units.Millimetre
	}
	return units.Inch / 8
}

// spots adds the rooms of a fitting.
func (s *Survey) spots(f folio.Fitted, index int) {
	for k, spot := range f.Spots() {
		c := spot.Capacity()
		r := Room{
			kind: Slipped, panel: f.Panel(), fitting: index, spot: k, name: f.Label(),
			size: c.Size, least: spot.Least(), rect: spot.Rect(), thickness: c.Thickness, count: c.Count,
		}
		r.content, _ = spot.Content()
		if _, mouth := spot.Mouth(); !mouth {
			r.kind = Mounted
			if _, folded := f.Design(); !folded { // what lies in corners has no film under it
				r.film = s.film
			}
		}
		if r.thickness >= units.Longest {
			r.thickness = s.plan.Headroom(r.rect, r.panel, index)
		}
		s.rooms = append(s.rooms, r)
	}
}

// Plan returns the plan.
func (s *Survey) Plan() *folio.Plan {
	if s.plan == nil {
		return new(folio.Plan)
	}
	return s.plan
}

// Rooms walks the places that take something, each with its number.
func (s *Survey) Rooms() iter.Seq2[int, Room] { return slices.All(s.rooms) }

// Takes reports whether a content goes into a room, by its number, as it lies or
// turned, and how. On a panel it must find a free place for itself and the reveal
// of its mat, rounded up on the ruler of fittings, beside the fittings that are
// there and clear of what faces it when the folio is closed: of those, the one
// nearest to the panel's head and then to its left edge. What goes in both ways is
// given as it lies. A plan so crowded that the look takes more than
// [DefaultSteps] takes nothing.
func (s *Survey) Takes(room int, c pocket.Content) (Berth, bool) {
	if room < 0 || room >= len(s.rooms) {
		return Berth{}, false
	}
	return s.takes(newMeter(nil, Budget{}), room, c)
}

func (s *Survey) takes(m *meter, room int, c pocket.Content) (Berth, bool) {
	r := s.rooms[room]
	for _, turned := range [...]bool{false, true} {
		if turned {
			c = c.Turned()
		}
		if r.kind != OnPanel {
			if r.takes(c) {
				return Berth{r, c, turned, middle(r.rect, c.Size)}, true
			}
			continue
		}
		if !sound(c) {
			continue
		}
		l := s.load(c)
		if at, ok := s.panelOf(r.panel).place(m, l); ok {
			return Berth{r, c, turned, units.RectAt(at.Min.Plus(l.in), c.Size)}, true
		}
	}
	return Berth{}, false
}

// load is a content on a mat of its own, which is put on the ruler.
func (s *Survey) load(c pocket.Content) load {
	mat := c.Size.Grow(s.reveal)
	mat = units.Size{W: s.ruler.Up(mat.W), H: s.ruler.Up(mat.H)}
	low := s.card + s.film
	return load{mat: mat, picture: c.Size, in: middle(units.RectAt(units.Point{}, mat), c.Size).Min, low: low, high: low + c.Thickness + s.film}
}

func (s *Survey) panelOf(r boards.Role) *ground {
	for i := range s.panels {
		if s.panels[i].role == r {
			return &s.panels[i]
		}
	}
	return &ground{}
}

// middle returns the rectangle of a size in the middle of another one, rounded
// down to a nanometre.
func middle(in units.Rect, s units.Size) units.Rect {
	room := in.Size()
	return units.RectAt(in.Min.Plus(units.Point{X: (room.W - s.W).Half(units.Down), Y: (room.H - s.H).Half(units.Down)}), s)
}

// Where walks every way in which a content goes into the plan, room by room, as
// long as the Stopper and the budget last: with one of less than nothing there is
// no walk. Else a walk without a step means that it goes nowhere.
func (s *Survey) Where(until score.Stopper, b Budget, c pocket.Content) iter.Seq[Berth] {
	return func(yield func(Berth) bool) {
		m := newMeter(until, b)
		for i := range s.rooms {
			if m.spend(1); m.over() {
				return
			}
			if way, ok := s.takes(m, i, c); ok && !yield(way) {
				return
			}
		}
	}
}

// With returns the plan with what lies on panels in it, each on the mat of its own
// that a survey counts with: its warnings tell what would touch something while the
// folio is folded over, its steps how it is mounted. What goes into fittings is in
// the plan already, as they were designed for it. Of a cover as measured it is the
// plan with that in it, refitted.
//
// The error is a *[check.Error], for ways that do not lie beside each other or are
// of another plan, and for what there is room for as measured, but not as planned.
func (s *Survey) With(ways ...Berth) (*folio.Plan, error) {
	plan := s.Plan()
	spec := plan.Spec()
	spec.Fittings = s.mats(spec.Fittings, ways)
	p, err := plan.Again(spec)
	if m, ok := plan.Measured(); ok && err == nil {
		return p.Refit(m)
	}
	return p, err
}

// mats appends the mats of what lies on panels.
func (s *Survey) mats(to []folio.Fitting, ways []Berth) []folio.Fitting {
	for _, w := range ways {
		if w.room.kind != OnPanel {
			continue
		}
		at := s.load(w.content).under(w.rect).Min.Plus(units.Point{X: -w.room.rect.Min.X, Y: -w.room.rect.Min.Y})
		to = append(to, folio.Fitting{
			Kind: folio.Mat{Picture: w.content, Reveal: s.reveal}, Panel: w.room.panel,
			Place: place.Place{Across: place.Left, Along: place.Head, Offset: at},
		})
	}
	return to
}

// UsualPhotos walks the photographic prints of [pocket.UsualContents].
func UsualPhotos() iter.Seq[pocket.Content] {
	return func(yield func(pocket.Content) bool) {
		for u := range pocket.UsualContents() {
			if strings.HasPrefix(u.Content.Name, "photo ") && !yield(u.Content) {
				return
			}
		}
	}
}

// Largest returns the content with the largest area that goes into a room, by its
// number, in either direction: the first of equal ones. With [UsualPhotos] it is
// the largest usual photograph. Of nil nothing goes in.
func (s *Survey) Largest(contents iter.Seq[pocket.Content], room int) (Berth, bool) {
	var best Berth
	found := false
	if contents == nil {
		return best, false
	}
	for c := range contents {
		if found && c.Size.Area().Compare(best.content.Size.Area()) <= 0 {
			continue
		}
		if way, ok := s.Takes(room, c); ok {
			best, found = way, true
		}
	}
	return best, found
}

// MostContents bounds the contents that a search is asked for.
const MostContents = 256

func checkContents(bad *check.List, contents []pocket.Content) {
	for i, c := range contents {
		bad.Size(check.Index("contents", i)+".size", c.Size)
		bad.Allowance(check.Index("contents", i)+".thickness", c.Thickness)
	}
}

// shared matches contents with rooms that take several, each content no thicker
// than its share. With beside, a thicker one may lie beside others, as it may not: how
// many are held then is no fewer than can be, some of them alone in their rooms.
func (s *Survey) shared(ways [][]Berth, where [][]int, beside bool) (chosen []int, held, first int) {
	from := make([]int, 1) // the first share of each room
	for k, r := range s.rooms {
		from = append(from, from[k]+min(r.Count(), MostContents))
	}
	shares := make([][]int, len(where))
	of := make([][]int, len(where)) // which of its ways a share is
	for i := range where {
		for n, k := range where[i] {
			to := from[k+1]
			if r := s.rooms[k]; r.Count() > 1 && ways[i][n].content.Thickness > r.share() {
				if !beside {
					continue
				}
				to = from[k] + 1
			}
			for j := from[k]; j < to; j++ {
				shares[i], of[i] = append(shares[i], j), append(of[i], n)
			}
		}
	}
	chosen, held, first = match(shares, from[len(s.rooms)])
	for i := range chosen {
		if len(of[i]) > 0 {
			chosen[i] = of[i][chosen[i]]
		}
	}
	return chosen, held, first
}

func many(n int, what string) string {
	if n != 1 && what == "content" {
		what += "s"
	}
	return strconv.Itoa(n) + " " + what
}

// match gives each thing one of the rooms where it goes, by augmenting paths, so
// that as many as can be get one of their own. It returns which of its rooms each
// got, how many got one and how many of the first can all get one.
func match(where [][]int, rooms int) (chosen []int, held, first int) {
	taken := make([]int, rooms) // 1 + the thing
	chosen = make([]int, len(where))
	seen := make([]bool, rooms) // for this thing
	var place func(i int) bool
	place = func(i int) bool {
		for k, j := range where[i] {
			if seen[j] {
				continue
			}
			seen[j] = true
			if taken[j] == 0 || place(taken[j]-1) {
				taken[j], chosen[i] = i+1, k
				return true
			}
		}
		return false
	}
	for i := range where {
		clear(seen)
		if place(i) {
			if held++; first == i {
				first++
			}
		}
	}
	return chosen, held, first
}
