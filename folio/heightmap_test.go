package folio_test

import (
	"errors"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A slab is something that stands up from a panel, in millimetres on the row.
type slab struct {
	x0, x1, y0, y1 float64
	height         units.Length
}

func (s slab) over(x, y float64) bool { return s.x0 < x && x < s.x1 && s.y0 < y && y < s.y1 }

func slabOf(r units.Rect, h units.Length) slab {
	return slab{r.Min.X.Millimetres(), r.Max.X.Millimetres(), r.Min.Y.Millimetres(), r.Max.Y.Millimetres(), h}
}

// slabs says again, from the kind of a fitting, what of it stands where.
func slabs(p *folio.Plan, f folio.Fitted, full bool, card, film units.Length) []slab {
	r := f.Rect()
	switch k := f.Kind().(type) {
	case folio.Ornament:
		return []slab{slabOf(r, k.Thickness+film)}
	case folio.Mat:
		out := []slab{slabOf(r, card+film)}
		if full && !k.Picture.Size.Empty() {
			for _, s := range f.Spots() {
				out = append(out, slabOf(s.Lies(), k.Picture.Thickness+film))
			}
		}
		return out
	case folio.Frame:
		// All of it at the height of the rails, and the opening taken away
		// again.
		rails := card + k.Foam
		w := k.Picture.Size.W - 2*k.Lap
		h := k.Picture.Size.H - 2*k.Lap
		at := r.Min.Plus(units.Point{X: k.Rail, Y: k.Rail})
		opening := units.RectAt(at, units.Size{W: w, H: h})
		out := []slab{slabOf(r, rails), slabOf(opening, -rails)}
		if full {
			out = append(out, slabOf(opening, k.Picture.Thickness))
		}
		return out
	}
	d, _ := f.Design()
	var out []slab
	for h := range d.Heights(full) {
		height := h.Height()
		if h.Layers() > 0 {
			height += film
		}
		out = append(out, slabOf(h.Rect().Moved(r.Min), height))
	}
	return out
}

// anyFitting returns a fitting for a panel of about 60 x 40 mm, on whole
// millimetres.
func anyFitting(r *rand.Rand) folio.Kind {
	um := func(low, high int) units.Length { return units.Length(low+r.IntN(high-low)) * units.Micrometre }
	size := func(w, h int) units.Size {
		return units.Size{W: units.Length(4+r.IntN(w)) * mm, H: units.Length(4+r.IntN(h)) * mm}
	}
	switch r.IntN(6) {
	case 0, 1:
		return folio.Ornament{Size: size(20, 15), Thickness: um(100, 3000)}
	case 2:
		return folio.Mat{Size: size(20, 15)}
	case 3:
		return folio.Mat{Picture: pocket.Content{Size: size(12, 10), Thickness: um(0, 500)}, Reveal: 2 * mm}
	case 4:
		return folio.Frame{
			Picture: pocket.Content{Size: size(8, 6).Plus(4*mm, 4*mm), Thickness: um(50, 500)},
			Lap:     mm, Rail: 4 * mm, Foam: mm, FoamWidth: 2 * mm, Ease: mm, Mouth: score.Edge(r.IntN(4)),
		}
	}
	return folio.Folded{Kind: pocket.Slip{
		Place: units.Size{W: 25 * mm, H: 18 * mm}, Glue: 2 * mm, Ease: pocket.Ease{W: 2 * mm, H: 2 * mm}, Notch: pocket.ThumbNotch{Width: units.None, Depth: units.None},
	}}
}

// crowded returns a plan with random fittings, or nil where they do not go on
// their panels.
func crowded(r *rand.Rand, form boards.Form) *folio.Plan {
	s := folio.Spec{
		Form: form, Cover: units.Size{W: 66 * mm, H: 46 * mm}, Spine: rule.Spine{Width: 80 * mm},
		Board: stock.Stock{Caliper: 2 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Liner: stock.Stock{Caliper: mm / 4}, Lining: rule.Lining{Inset: 3 * mm},
		Hinge: rule.Hinge{Width: 5 * mm, Crease: rule.CreasePlace(r.IntN(5))}, DoorGap: 2 * mm, FlapWidth: 40 * mm,
		Mitre: rule.Mitre{Distance: 3 * mm}, Margin: rule.Margin{Rule: rule.MarginTenToFifteen}, Closing: closing.Allowance{UnderFlap: 60 * mm},
	}
	if form != boards.ForeEdgeFlap {
		s.Closing.UnderFlap, s.FlapWidth = 0, 0
	}
	if form != boards.DoubleSpineGate {
		s.DoorGap = 0
	}
	if s.Hinge.Crease == rule.CreaseAtOffset {
		s.Hinge.Offset = 2 * mm
	}
	panels := []boards.Role{boards.LeftCover, boards.RightCover}
	switch form {
	case boards.SoftSpine:
		s.Spine = rule.Spine{Contents: 80 * mm}
		s.Hinge.Width, s.Hinge.Crease, s.Hinge.Offset = 160*mm, rule.CreaseTwo, 0
		if r.IntN(2) == 0 {
			s.Hinge.Crease = rule.CreaseRound
		}
	case boards.ForeEdgeFlap:
		panels = append(panels, boards.Flap)
	case boards.DoubleSpineGate:
		panels = []boards.Role{boards.LeftDoor, boards.Back, boards.RightDoor}
	}
	aligns := [...]place.Align{place.Middle, place.Left, place.Right}
	levels := [...]place.Align{place.Middle, place.Head, place.Tail}
	for i := range 1 + r.IntN(9) {
		f := folio.Fitting{
			Name: string(rune('a' + i)), Kind: anyFitting(r), Panel: panels[r.IntN(len(panels))],
			Outside: r.IntN(3) == 0,
			Place:   place.Place{Across: aligns[r.IntN(3)], Along: levels[r.IntN(3)], Offset: units.Point{X: units.Length(r.IntN(4)) * mm}},
		}
		if i > 0 && r.IntN(4) == 0 {
			f.StandsOn = s.Fittings[r.IntN(i)].Name
			f.Place = place.Place{}
		}
		with := s
		with.Fittings = append(append([]folio.Fitting(nil), s.Fittings...), f)
		if _, err := folio.Build(with); err == nil {
			s = with
		} else {
			// Keep the names in step with the places.
			f.StandsOn, f.Kind = "", folio.Ornament{Size: units.Size{W: mm, H: mm}, Thickness: mm / 2}
			f.Place = place.Place{Across: place.Left, Along: place.Head, Offset: units.Point{X: units.Length(2*i) * mm}}
			with.Fittings[i] = f
			if _, err := folio.Build(with); err != nil {
				return nil
			}
			s = with
		}
	}
	p, err := folio.Build(s)
	if err != nil {
		return nil
	}
	return p
}

// faced is what meets what, worked out by folding the row about its creases.
func faced(p *folio.Plan, full bool) (between, under []slab) {
	row := rowOf(p)
	c, _ := p.Closed()
	shut := row.shutBy(c.Bend(), c.Crease().Millimetres())
	film, card := p.Spec().Closing.Adhesive.Caliper, stock.DefaultCard(p.Notation()).Caliper
	for role, turned := range turnedIn(p) {
		for _, s := range turned {
			a, b := shut.place(s.x0, row.t).X, shut.place(s.x1, row.t).X
			s.x0, s.x1 = min(a, b), max(a, b)
			switch role {
			case boards.Spine1, boards.Spine2:
			case boards.Flap:
				under = append(under, s)
			default:
				between = append(between, s)
			}
		}
	}
	for f := range p.Fittings() {
		for _, s := range slabs(p, f, full, card, film) {
			z := row.t + row.l
			if f.Outside() {
				z = -row.c
			}
			a, b := shut.place(s.x0, z).X, shut.place(s.x1, z).X
			s.x0, s.x1 = min(a, b), max(a, b)
			switch {
			case !f.Outside() && f.Panel() != boards.Flap:
				between = append(between, s)
			case !f.Outside(), f.Panel() == boards.LeftCover && p.Spec().Form == boards.ForeEdgeFlap:
				// Only where the flap and its covering reach.
				flap := row.boards[boards.Flap][1]
				s.x0 = max(s.x0, shut.place(flap+row.c, row.t).X)
				if s.x0 < s.x1 {
					under = append(under, s)
				}
			}
		}
	}
	return between, under
}

// tallest tries a fine grid over the main panel and what lies beyond it: all
// edges lie on halves of a millimetre, so a sample in the middle of each
// quarter finds every place.
func tallest(all []slab) units.Length {
	if len(all) == 0 {
		return 0
	}
	low, high, tail := all[0].x0, all[0].x1, all[0].y1
	for _, s := range all {
		low, high, tail = min(low, s.x0), max(high, s.x1), max(tail, s.y1)
	}
	most := units.Length(0)
	// Creases may lie on a quarter of a millimetre, so samples start just
	// inside of the leftmost edge.
	for x := low + 0.13; x < high; x += 0.25 {
		for y := 0.13; y < tail; y += 0.5 {
			sum := units.Length(0)
			for _, s := range all {
				if s.over(x, y) {
					sum += s.height
				}
			}
			most = max(most, sum)
		}
	}
	return most
}

// The greatest sum by the sweep equals the greatest of a fine grid, for random
// plans of every form, closed by folding the row about its creases.
func TestHeightMapByGrid(t *testing.T) {
	r := rand.New(rand.NewPCG(uint64(proptest.Seed()), 4))
	seen := map[closing.Meeting]int{}
	for trial := range 160 {
		form := boards.Form(trial % 4)
		p := crowded(r, form)
		if p == nil {
			continue
		}
		for _, full := range []bool{false, true} {
			tight, ok := p.Tightest(full)
			if !ok {
				t.Fatal("does not shut")
			}
			if tight.Meeting() == closing.AtForeEdge { // which this does not measure
				tight, _ = p.TightestOf(closing.BetweenCovers, full)
				if under, ok := p.TightestOf(closing.UnderFlap, full); ok && under.Left().Length() < tight.Left().Length() {
					tight = under
				}
			}
			c, _ := p.Closed()
			between, under := faced(p, full)
			stack := tallest(between)
			if p.Spec().Form == boards.SoftSpine && full {
				stack = max(stack, p.Spec().Spine.Contents)
			}
			left := c.Room().Length() - stack
			meeting := closing.BetweenCovers
			if room, ok := c.UnderFlap(); ok {
				if other := room.Length() - tallest(under); other < left {
					left, meeting = other, closing.UnderFlap
				}
			}
			if tight.Left().Length() != left || tight.Meeting() != meeting {
				t.Fatalf("trial %d, %v, full %v: %v left %v; by the grid %v left %v", trial, form, full, tight.Left().Length(), tight.Meeting(), left, meeting)
			}
			seen[meeting]++
			checkTight(t, p, tight, between, under)
		}
	}
	if seen[closing.BetweenCovers] < 100 || seen[closing.UnderFlap] < 10 {
		t.Errorf("too few of some meetings: %v", seen)
	}
}

// checkTight checks what a tight place says about itself.
func checkTight(t *testing.T, p *folio.Plan, tight folio.Tight, between, under []slab) {
	t.Helper()
	sum := units.Length(0)
	for th := range tight.Things() {
		sum += th.Height()
	}
	if sum != tight.Stack().Length() {
		t.Errorf("things add up to %v, the stack is %v", sum, tight.Stack().Length())
	}
	for _, w := range []units.Working{tight.Stack(), tight.Room(), tight.Left(), tight.WouldDo()} {
		if bad := addUp(w); bad != "" {
			t.Error(bad)
		}
	}
	place, _ := tight.Place()
	if place.Empty() {
		return
	}
	all := between
	if tight.Meeting() == closing.UnderFlap {
		all = under
	}
	// Beside the middle, where no two slabs of one thing join.
	x := (place.Min.X+place.Max.X).Millimetres()/2 + 1e-3
	y := (place.Min.Y+place.Max.Y).Millimetres()/2 + 1e-3
	at := units.Length(0)
	for _, s := range all {
		if s.over(x, y) {
			at += s.height
		}
	}
	if at != tight.Stack().Length() {
		t.Errorf("in the middle of the place %v stand, the stack is %v", at, tight.Stack().Length())
	}
}

// thin returns a folio whose covers leave exactly the given room: one board with
// its liner and its turn-in of gap, so that the crease can only lie at the spine board's edge.
func thin(room units.Length, kinds ...folio.Kind) folio.Spec {
	ruler := nanometres()
	s := folio.Spec{
		Cover: units.Size{W: 100 * mm, H: 140 * mm}, Board: stock.Stock{Caliper: 2 * mm}, Liner: stock.Stock{Caliper: mm / 4},
		Covering: stock.Stock{Caliper: mm / 10},
		Rulers:   rule.Rulers{Main: units.HalfMillimetres, Board: ruler, Gap: ruler, Liner: ruler},
		Spine:    rule.Spine{Width: room + 4*mm + mm/2},
		Hinge:    rule.Hinge{Width: 2*mm + mm/4 + mm/10},
		Closing:  closing.Allowance{Ease: mm / 2}, Lining: rule.Lining{Inset: 3 * mm},
	}
	panels := []boards.Role{boards.LeftCover, boards.RightCover}
	for i, k := range kinds {
		s.Fittings = append(s.Fittings, folio.Fitting{Name: string(rune('a' + i)), Kind: k, Panel: panels[i%2]})
	}
	return s
}

// Medals of 3 and 4 mm, each on a film of 0.1 mm, meet in the middle: 7.2 mm.
func TestClosingAtTheEdge(t *testing.T) {
	size := units.Size{W: 30 * mm, H: 30 * mm}
	medals := []folio.Kind{folio.Ornament{Size: size, Thickness: 3 * mm}, folio.Ornament{Size: size, Thickness: 4 * mm}}
	const stack = 72 * mm / 10
	for _, c := range []struct {
		name     string
		room     units.Length
		closes   bool
		warnings bool
	}{
		{"with the ease", stack + mm/2, true, false},
		{"just less than the ease", stack + mm/2 - 1, true, true},
		{"just closing", stack, true, true},
		{"just not closing", stack - 1, false, false},
	} {
		p, err := folio.Build(thin(c.room, medals...))
		if (err == nil) != c.closes {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if c.closes {
			if got := warned(p, folio.WarnEase); got != c.warnings {
				t.Errorf("%s: warning %v, want %v", c.name, got, c.warnings)
			}
			continue
		}
		var bad *check.Error
		if !errors.As(err, &bad) {
			t.Fatal(err)
		}
		v, ok := bad.Find("spine.width", folio.NotClosing)
		if !ok || v.By != 1 {
			t.Fatalf("%s: %v", c.name, err)
		}
		// The spine that would do leaves the ease: 7.2 + 0.5 + 4.5.
		if want := 122 * mm / 10; v.Limit != want {
			t.Errorf("would do: %v, want %v", v.Limit, want)
		}
		// It names place, things and numbers.
		for _, part := range []string{"a 3.1 mm", "b 4.1 mm", "together 7.2 mm", "35 mm to 65 mm from the left", "55 mm to 85 mm from the head", "right cover"} {
			if !strings.Contains(v.Got, part) {
				t.Errorf("%q does not say %q", v.Got, part)
			}
		}
		s := thin(c.room, medals...)
		s.Spine.Width = v.Limit
		if p, err := folio.Build(s); err != nil || warned(p, folio.WarnEase) {
			t.Errorf("what would do does not: %v", err)
		}
		s.Spine.Width = v.Limit - 1
		if p, err := folio.Build(s); err != nil || !warned(p, folio.WarnEase) {
			t.Errorf("a nanometre less leaves no ease: %v", err)
		}
	}
	// The sum is not that of the two thickest anywhere: side by side they do
	// not meet.
	s := thin(45*mm/10, medals...)
	s.Fittings[0].Place.Across = place.Left
	s.Fittings[1].Place.Across = place.Left
	if _, err := folio.Build(s); err != nil {
		t.Errorf("medals at opposite sides when closed: %v", err)
	}
}

// Where only the crease decides, it is a warning that names the crease.
func TestCreaseDecides(t *testing.T) {
	size := units.Size{W: 30 * mm, H: 30 * mm}
	s := thin(6*mm, folio.Ornament{Size: size, Thickness: 3 * mm}, folio.Ornament{Size: size, Thickness: 4 * mm})
	s.Hinge.Width = 6 * mm
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	creased := func(p *folio.Plan) string {
		for w := range p.Warnings() {
			if w.Code == folio.WarnCrease {
				return w.Text
			}
		}
		return "no warning"
	}
	// 7.2 in 6: 0.6 mm at each hinge.
	if text := creased(p); !strings.Contains(text, "at least 0.6 mm") {
		t.Errorf("the warning names another crease: %s", text)
	}
	if c, err := p.ClosedAt(6 * mm / 10); err != nil || c.Room().Length() != 72*mm/10 {
		t.Errorf("creased so far out the room is %v, %v", c.Room().Length(), err)
	}
	// A soft spine of 20 mm goes round in a half circle across 12.7 mm, and creased at
	// the covers' edges across 20 mm: two boards and liners are 4.5 mm, and 10 mm go in.
	s.Form, s.Spine, s.Hinge = boards.SoftSpine, rule.Spine{}, rule.Hinge{Width: 20 * mm, Crease: rule.CreaseRound}
	s.Fittings = s.Fittings[:1]
	s.Fittings[0].Kind = folio.Ornament{Size: size, Thickness: 10 * mm}
	if text := creased(mustBuild(t, s)); !strings.HasSuffix(text, "; in the same gap, a flat back, creased at the covers' edges, has it") {
		t.Errorf("at a soft spine: %s", text)
	}
}

// Something on the spine board reaches between the covers; there it must clear
// what they carry. Worked by hand: cover boards begin 2.25 mm from the
// covering of the spine, the liner on the spine is as far up. A ridge 10 mm
// high reaches to 12.25 mm, 10 mm over the covers.
func TestFittingOnTheSpine(t *testing.T) {
	ridge := func(width, height units.Length) folio.Fitting {
		return folio.Fitting{Name: "ridge", Panel: boards.Spine1, Kind: folio.Ornament{Size: units.Size{W: width, H: 60 * mm}, Thickness: height}}
	}
	medal := func(x, thickness units.Length) folio.Fitting {
		return folio.Fitting{Name: "medal", Panel: boards.RightCover, Kind: folio.Ornament{Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: thickness},
			Place: place.Place{Across: place.Left, Offset: units.Point{X: x}}}
	}
	base := thin(305 * mm / 10)
	base.Closing.Adhesive.Caliper = units.None
	for _, c := range []struct {
		name     string
		fittings []folio.Fitting
		closes   bool
		left     units.Length // beside the spine, if that is tightest
	}{
		// In a spine of 35 mm a ridge of 20 mm has 7.5 mm at each side, less
		// the board and liner of 2.25 mm: 5.25 mm.
		{"ridge alone", []folio.Fitting{ridge(20*mm, 10*mm)}, true, 525 * mm / 100},
		{"medal beside it", []folio.Fitting{ridge(20*mm, 10*mm), medal(0, 4*mm)}, true, 125 * mm / 100},
		{"medal too thick beside it", []folio.Fitting{ridge(20*mm, 10*mm), medal(0, 525*mm/100+1)}, false, 0},
		// The medal begins 3 + 7 mm from the board's edge, where the ridge
		// ends.
		{"medal beyond it", []folio.Fitting{ridge(20*mm, 10*mm), medal(7*mm, 20*mm)}, true, 525 * mm / 100},
		{"medal just in its way", []folio.Fitting{ridge(20*mm, 10*mm), medal(65*mm/10, 20*mm)}, false, 0},
	} {
		s := base
		s.Fittings = c.fittings
		p, err := folio.Build(s)
		if (err == nil) != c.closes {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if err != nil {
			if !refusedWith(err, "fittings", folio.NotClosing) {
				t.Errorf("%s: %v", c.name, err)
			}
			continue
		}
		tight, _ := p.Tightest(true)
		if tight.Meeting() != closing.BesideSpine || tight.Left().Length() != c.left {
			t.Errorf("%s: %v %v left, want %v beside the spine", c.name, tight.Meeting(), tight.Left().Length(), c.left)
		}
	}
}

// The flap's spine leaves what UnderFlap asks for, and no more is taken.
func TestUnderFlap(t *testing.T) {
	badge := folio.Ornament{Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: 2 * mm}
	s := thin(20 * mm)
	s.Form, s.FlapWidth = boards.ForeEdgeFlap, 90*mm
	s.Hinge.Width += mm / 10 // the turn-ins of the second spine stand before the front cover
	s.Fittings = []folio.Fitting{
		{Name: "badge", Kind: badge, Panel: boards.LeftCover, Outside: true},
		{Name: "label", Kind: badge, Panel: boards.Flap, Place: place.Place{Across: place.Left}},
	}
	// The label lies near the spine of the flap, the badge in the middle of the
	// cover: they do not meet, and 2.1 mm is what the badge alone takes. Where two
	// turn-ins of the flap lie on each other, it is not.
	s.Closing.UnderFlap = 19 * mm / 10
	if _, err := folio.Build(s); err != nil {
		t.Error(err)
	}
	s.Closing.UnderFlap--
	_, err := folio.Build(s)
	if !refusedWith(err, "closing.underflap", folio.NotClosing) {
		t.Fatalf("want a refusal under the flap, got %v", err)
	}
	var bad *check.Error
	errors.As(err, &bad)
	v, _ := bad.Find("closing.underflap", "")
	// The badge meets the flap on the outside of the front cover; nobody is to look for
	// it on the inside of the right one.
	if !strings.HasSuffix(v.Got, "of the right cover, which lies beneath") {
		t.Errorf("told as %q", v.Got)
	}
	s.Closing.UnderFlap = v.Limit
	if p, err := folio.Build(s); err != nil || warned(p, folio.WarnEase) {
		t.Errorf("%v would do, but does not: %v", v.Limit, err)
	}
	// In the middle of the flap they meet.
	s.Fittings[1].Place = place.Place{Across: place.Left, Offset: units.Point{X: 35 * mm}}
	if _, err := folio.Build(s); !refusedWith(err, "closing.underflap", folio.NotClosing) {
		t.Errorf("the two meet under the flap: %v", err)
	}
}

// A block that the spine's published rule goes round is at most a warning.
func TestSpineRulesOfPrint(t *testing.T) {
	for _, on := range []rule.SpineRule{rule.SpineContents, rule.SpineBlockAndBoards, rule.SpineBlockAndBoardsLess, rule.SpineBlock} {
		s := folio.Spec{
			Block: boards.Block{Page: units.Size{W: 100 * mm, H: 150 * mm}, Thickness: 20 * mm}, Spine: rule.Spine{Rule: on},
			Board: stock.Stock{Caliper: 2 * mm}, Rulers: rule.Rulers{Main: units.HalfMillimetres},
			Hinge: rule.Hinge{Width: 3 * mm}, Liner: stock.Stock{Caliper: mm / 10},
		}
		p, err := folio.Build(s)
		if err != nil {
			t.Errorf("%v: %v", on, err)
			continue
		}
		c, _ := p.Closed()
		// At the corners the turn-ins of both covers lie under the block as
		// well, two of each.
		turned := 4 * stock.DefaultCovering(units.MetricDecimal).Caliper
		short := c.Room().Length() < 20*mm+turned
		if got := warned(p, folio.WarnSpine) || warned(p, folio.WarnCrease); got != short {
			t.Errorf("%v: room %v for 20 mm, warned %v", on, c.Room().Length(), got)
		}
		tight, _ := p.Tightest(true)
		for th := range tight.Things() {
			want := map[string]units.Length{"block": 20 * mm, "turn-ins": turned}
			if at, ok := th.Fitting(); th.Height() != want[th.Name()] || ok || at != -1 {
				t.Errorf("%v: the thing is %v", on, th)
			}
		}
	}
	s := thin(10 * mm)
	s.Spine.Contents = 12 * mm
	if _, err := folio.Build(s); !refusedWith(err, "spine.width", folio.NotClosing) {
		t.Errorf("a spine given too narrow for contents given: %v", err)
	}
}

// What lies at the tightest place is told from the turn-ins to the block to the fittings in
// their order, each with all that it adds there: also where the paper that is thicker than the
// strip beside it, on the outside of a cover under a flap, lies under a badge.
func TestThingsInOrder(t *testing.T) {
	is := func(s folio.Spec, m closing.Meeting, names []string, heights []units.Length) {
		t.Helper()
		tight, ok := mustBuild(t, s).TightestOf(m, true)
		if !ok {
			t.Fatal(m)
		}
		var called []string
		var high []units.Length
		for th := range tight.Things() {
			called, high = append(called, th.Name()), append(high, th.Height())
		}
		if !slices.Equal(called, names) || !slices.Equal(high, heights) {
			t.Errorf("%v: %v, %v, want %v, %v", m, called, high, names, heights)
		}
	}
	round := func(name string, on boards.Role, outside bool, thick units.Length, at units.Point) folio.Fitting {
		return folio.Fitting{Name: name, Panel: on, Outside: outside, Kind: folio.Ornament{Size: units.Size{W: 10 * mm, H: 10 * mm}, Thickness: thick},
			Place: place.Place{Across: place.Left, Along: place.Head, Offset: at}}
	}
	under := plainCase()
	under.Form, under.FlapWidth, under.Quarter.Rule, under.Closing.UnderFlap = boards.ForeEdgeFlap, 100*mm, rule.QuarterAlways, 4*mm
	under.Covering.Caliper, under.SpineCovering = 3*mm/10, stock.Stock{Name: "cloth", Caliper: mm / 10}
	under.Closing.Adhesive.Glue = true
	under.Fittings = []folio.Fitting{round("badge", boards.LeftCover, true, mm, units.Point{X: 40 * mm, Y: 80 * mm}), round("ring", boards.Flap, false, mm/2, units.Point{X: 42 * mm, Y: 80 * mm})}
	is(under, closing.UnderFlap, []string{"turn-ins", "badge", "ring"}, []units.Length{mm / 5, mm, mm / 2})
	inside := plainCase()
	inside.Closing.Adhesive.Glue = true
	inside.Fittings = []folio.Fitting{round("left", boards.LeftCover, false, mm, units.Point{X: 100 * mm}), round("right", boards.RightCover, false, 2*mm, units.Point{X: 4 * mm})}
	is(inside, closing.BetweenCovers, []string{"turn-ins", "left", "right"}, []units.Length{2 * mm / 5, mm, 2 * mm})
}
