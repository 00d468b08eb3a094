package folio_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/planetest"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A fold turns everything on one side of a place of the row by an angle.
type fold struct{ at, angle float64 }

// A shutting folds a row of boards flat on its main panel by rigid turns about
// the creases, one after another, and knows nothing of any formula.
type shutting struct {
	left, right []fold // from the main panel outwards
}

// place returns where a point of the row, z above the wrong side of the
// covering, comes to lie.
func (s shutting) place(x, z float64) vec {
	p := vec{X: x, Y: z}
	// The outermost crease turns first, as everything lies flat.
	for i := len(s.left) - 1; i >= 0; i-- {
		if f := s.left[i]; x < f.at {
			dx, sin, cos := p.X-f.at, math.Sin(f.angle), math.Cos(f.angle)
			p = vec{X: f.at + dx*cos + p.Y*sin, Y: -dx*sin + p.Y*cos}
		}
	}
	for i := len(s.right) - 1; i >= 0; i-- {
		if f := s.right[i]; x > f.at {
			dx, sin, cos := p.X-f.at, math.Sin(f.angle), math.Cos(f.angle)
			p = vec{X: f.at + dx*cos - p.Y*sin, Y: dx*sin + p.Y*cos}
		}
	}
	return p
}

// closedRow is a plan's row in millimetres.
type closedRow struct {
	plan    *folio.Plan
	boards  map[boards.Role][2]float64 // from, to
	t, l, c float64
}

func rowOf(p *folio.Plan) closedRow {
	s := p.Spec()
	r := closedRow{plan: p, boards: map[boards.Role][2]float64{},
		t: s.Board.Caliper.Millimetres(), l: s.Liner.Caliper.Millimetres(), c: s.Covering.Caliper.Millimetres()}
	for b := range p.Boards() {
		r.boards[b.Role()] = [2]float64{b.Rect().Min.X.Millimetres(), b.Rect().Max.X.Millimetres()}
	}
	return r
}

// creases appends the folds of one hinge: from is the edge of the spine board
// or, with a soft spine, of the cover, to the other edge of the gap.
func creases(out []fold, from, to float64, bend rule.CreasePlace, x, angle float64, reverse bool) []fold {
	dir := math.Copysign(1, to-from)
	var here []fold
	switch bend {
	case rule.CreaseTwo:
		here = []fold{{from + dir*x, angle / 2}, {to - dir*x, angle / 2}}
	case rule.CreaseRound:
		const n = 400
		for i := range n {
			here = append(here, fold{from + (to-from)*(float64(i)+0.5)/n, angle / n})
		}
	default:
		here = []fold{{from + dir*x, angle}}
	}
	if reverse {
		for i, j := 0, len(here)-1; i < j; i, j = i+1, j-1 {
			here[i], here[j] = here[j], here[i]
		}
	}
	return append(out, here...)
}

// shutBy folds the row with every hinge bent in the same way.
func (r closedRow) shutBy(bend rule.CreasePlace, x float64) shutting {
	const quarter = math.Pi / 2
	var s shutting
	b := r.boards
	if _, ok := b[boards.Spine1]; !ok {
		return shutting{left: creases(nil, b[boards.RightCover][0], b[boards.LeftCover][1], bend, x, math.Pi, false)}
	}
	main, left := boards.RightCover, boards.LeftCover
	if _, ok := b[boards.Back]; ok {
		main, left = boards.Back, boards.LeftDoor
	}
	// From the main panel to the left: its gap, whose spine edge is at the far
	// side, the spine, the next gap.
	s.left = creases(nil, b[boards.Spine1][1], b[main][0], bend, x, quarter, true)
	s.left = creases(s.left, b[boards.Spine1][0], b[left][1], bend, x, quarter, false)
	if sp, ok := b[boards.Spine2]; ok {
		right := boards.Flap
		if main == boards.Back {
			right = boards.RightDoor
		}
		s.right = creases(nil, sp[0], b[main][1], bend, x, quarter, true)
		s.right = creases(s.right, sp[1], b[right][0], bend, x, quarter, false)
	}
	return s
}

// extent returns the least and the most of points in both directions.
func extent(points []vec) (low, high vec) {
	low, high = vec{X: math.Inf(1), Y: math.Inf(1)}, vec{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, p := range points {
		low = vec{X: min(low.X, p.X), Y: min(low.Y, p.Y)}
		high = vec{X: max(high.X, p.X), Y: max(high.Y, p.Y)}
	}
	return low, high
}

// compare checks a Closed against the boards as they come to lie.
func (r closedRow) compare(t *testing.T, c folio.Closed, why string) {
	t.Helper()
	s := r.shutBy(c.Bend(), c.Crease().Millimetres())
	var points []vec
	first, last := math.Inf(1), math.Inf(-1)
	for _, b := range r.boards {
		first, last = min(first, b[0]), max(last, b[1])
	}
	// The covering lies c outside the row along its whole length, and goes
	// round both ends.
	for i := range 801 {
		x := first + (last-first)*float64(i)/800
		points = append(points, s.place(x, -r.c))
	}
	for _, b := range r.boards {
		points = append(points, s.place(b[0], -r.c), s.place(b[1], -r.c))
	}
	points = append(points, s.place(first-r.c, r.t), s.place(first-r.c, 0), s.place(last+r.c, 0), s.place(last+r.c, r.t))
	low, high := extent(points)

	const tolerance = 2e-3
	near := func(what string, got units.Length, want float64) {
		if math.Abs(got.Millimetres()-want) > tolerance {
			t.Errorf("%s: %s is %v, by folding %.4f mm", why, what, got, want)
		}
	}
	main, left := boards.RightCover, boards.LeftCover
	if _, ok := r.boards[boards.Back]; ok {
		main, left = boards.Back, boards.LeftDoor
	}
	face := s.place(r.boards[main][0]+1e-6, r.t+r.l).Y
	for _, end := range r.boards[left] {
		mid := (r.boards[left][0] + r.boards[left][1]) / 2
		if y := s.place(end+math.Copysign(1e-6, mid-end), r.t+r.l).Y; math.Abs(y-face-c.Room().Length().Millimetres()) > tolerance {
			t.Errorf("%s: room is %v, by folding %.4f mm", why, c.Room().Length(), y-face)
		}
	}
	if under, ok := c.UnderFlap(); ok {
		outside := s.place(r.boards[boards.LeftCover][0], -r.c).Y
		flap := s.place(r.boards[boards.Flap][1], r.t+r.l).Y
		near("room under the flap", under.Length(), flap-outside)
	}
	near("thickness", c.Thickness().Length(), high.Y-low.Y)
	near("width", c.Width().Length(), high.X-low.X)
	want := r.plan.OpenHeight().Length() + 2*r.plan.Spec().Covering.Caliper
	if c.Height().Length() != want {
		t.Errorf("%s: height is %v, want %v", why, c.Height().Length(), want)
	}
}

// meet reports whether two boards, with a turn-in and the liner on the inside, as
// at head and tail, overlap.
func (r closedRow) meet(s shutting) bool {
	var all [][]vec
	for _, b := range r.boards {
		const e = 1e-6 // boards that touch do not overlap
		a, z := b[0]+e, b[1]-e
		top := r.t + r.l + r.c - e
		all = append(all, []vec{s.place(a, e), s.place(z, e), s.place(z, top), s.place(a, top)})
	}
	for i := range all {
		for j := range i {
			if planetest.Overlap(all[i], all[j]) {
				return true
			}
		}
	}
	return false
}

func randomRow(r *rand.Rand, form boards.Form, crease rule.CreasePlace) folio.Spec {
	um := func(low, high int) units.Length { return units.Length(low+r.IntN(high-low)) * units.Micrometre }
	ruler := nanometres()
	s := folio.Spec{
		Form: form, Cover: units.Size{W: um(60_000, 200_000), H: um(80_000, 250_000)},
		Board: stock.Stock{Caliper: um(500, 3500)}, Liner: stock.Stock{Caliper: um(50, 400)}, Covering: stock.Stock{Caliper: um(50, 600)},
		Hinge:  rule.Hinge{Crease: crease},
		Rulers: rule.Rulers{Main: ruler, Board: ruler, Gap: ruler, Wrap: ruler, Liner: ruler, Fitting: ruler},
		Mitre:  rule.Mitre{Distance: 5 * mm},
	}
	thick := s.Board.Caliper + s.Liner.Caliper + s.Covering.Caliper
	if form == boards.ForeEdgeFlap {
		// The front cover's fore edge clears the second spine's turn-ins too.
		s.Hinge.Width = 2 * s.Covering.Caliper
	}
	if form == boards.SoftSpine {
		s.Spine.Contents = um(500, 15_000)
		s.Hinge.Width = 4*thick + s.Spine.Contents + um(1000, 20_000)
	} else {
		s.Spine.Width = 3*thick + um(1000, 30_000)
		s.Hinge.Width += 2*thick + um(10, 8000)
	}
	if crease == rule.CreaseAtOffset {
		s.Hinge.Offset = s.Hinge.Width / units.Length(2+r.IntN(5))
	}
	return s
}

// Derived in the documentation of Closed; proved again here by folding the
// boards about their creases as rigid rectangles, for every form and bend.
func TestClosedByFolding(t *testing.T) {
	r := rand.New(rand.NewPCG(uint64(proptest.Seed()), 1))
	forms := []boards.Form{boards.SpineBoard, boards.SoftSpine, boards.ForeEdgeFlap, boards.DoubleSpineGate}
	bends := []rule.CreasePlace{rule.CreaseAtEdge, rule.CreaseMidGap, rule.CreaseAtOffset, rule.CreaseTwo, rule.CreaseRound}
	tried := 0
	for _, form := range forms {
		for _, bend := range bends {
			if form == boards.SoftSpine && bend != rule.CreaseTwo && bend != rule.CreaseRound {
				continue
			}
			for range 12 {
				spec := randomRow(r, form, bend)
				p, err := folio.Build(spec)
				if err != nil {
					t.Fatalf("%v, %v: %v", form, bend, err)
				}
				row := rowOf(p)
				why := form.String() + ", " + bend.String()
				c, ok := p.Closed()
				if !ok {
					t.Fatalf("%s: does not shut", why)
				}
				row.compare(t, c, why)
				least, most, ok := p.ClosedRange()
				if !ok {
					t.Fatalf("%s: no range", why)
				}
				row.compare(t, least, why+", least of the range")
				row.compare(t, most, why+", most of the range")
				if least.Room().Length() > most.Room().Length() {
					t.Errorf("%s: the range is upside down", why)
				}
				at, err := p.ClosedAt(most.Crease() / 3)
				if err != nil {
					t.Fatalf("%s: %v", why, err)
				}
				row.compare(t, at, why+", a third of the way")
				tried++
			}
		}
	}
	if tried < 200 {
		t.Errorf("only %d plans were tried", tried)
	}
}

// Of a cover that came out wider, or narrower, nobody knows at which gap: closed, it has no
// more room than its gaps leave, and is no thinner and no narrower than they make it. By
// hand, with what a hinge adds to the thickness, and to the width, of its gap as planned
// or as it may be.
func TestClosedAsMeasured(t *testing.T) {
	for crease, adds := range map[rule.CreasePlace]func(gap float64) (in, out float64){
		rule.CreaseAtEdge:   func(gap float64) (in, out float64) { return 0, gap },
		rule.CreaseAtOffset: func(gap float64) (in, out float64) { return 1e6, gap - 1e6 },
		rule.CreaseMidGap:   func(gap float64) (in, out float64) { return gap / 2, gap / 2 },
		rule.CreaseTwo:      func(gap float64) (in, out float64) { return gap / math.Sqrt2, gap / math.Sqrt2 },
		rule.CreaseRound:    func(gap float64) (in, out float64) { return gap * 2 / math.Pi, gap * 2 / math.Pi },
	} {
		for _, more := range []units.Length{0, 2*mm + 2, 2*mm + 3, -mm - 2, -mm - 3} {
			s := unruledCase(0)
			s.Rulers = all(everyNanometre)
			s.Hinge = rule.Hinge{Width: 9*mm + 1, Crease: crease}
			if crease == rule.CreaseAtOffset {
				s.Hinge.Offset = mm
			}
			p := mustBuild(t, s)
			w, h := p.AsMade()
			made, err := p.Refit(refit.Measured{Width: w.Length() + more, Height: h.Length()})
			if err != nil {
				t.Fatal(err)
			}
			least, most := s.Hinge.Width, units.Length(0)
			for g := range made.Gaps() {
				least, most = min(least, g.Width()), max(most, g.Width())
			}
			if (most > s.Hinge.Width) != (more > 0) || (least < s.Hinge.Width) != (more < 0) {
				t.Fatalf("%v, %v wider: gaps of %v to %v", crease, more, least, most)
			}
			c := mustClosed(t, made)
			narrow, _ := adds(float64(least))
			wide, out := adds(float64(most))
			spine, over := float64(s.Spine.Width), 2*float64(s.Covering.Caliper)
			for what, d := range map[string]float64{
				"room":      spine + 2*narrow - 2*float64(s.Board.Caliper+s.Liner.Caliper) - float64(c.Room().Length()),
				"thickness": float64(c.Thickness().Length()) - (spine + 2*wide + over),
				"width":     float64(c.Width().Length()) - (float64(s.Cover.W) + out + over),
			} {
				if d < -1e-3 || d > 2 {
					t.Errorf("%v, %v wider: the %s errs to the safe side by %.4f nm: %v, %v, %v", crease, more, what, d, c.Room(), c.Thickness(), c.Width())
				}
			}
		}
	}
}

// Of a gap that came out wider nobody knows how much of it lies on which side of the crease,
// so the range goes from the gap as planned to the gap as made; what is expected by Placing
// is as wide. By hand, with gaps of 4 and 4.5 mm, boards of 2 and a liner and turn-ins of
// 0.2: 20 − 2 · 2.2 with the crease at the edges, and 20 + 2 · (4.5 − 2.4) − 2 · 2.2.
func TestClosedRangeOfWiderGaps(t *testing.T) {
	s := flat()
	p := mustBuild(t, s)
	made, err := p.Refit(refit.Measured{Width: p.OpenWidth().Length() + mm, Height: p.OpenHeight().Length(), Panels: []units.Length{100 * mm, 20 * mm, 100 * mm}})
	if err != nil {
		t.Fatal(err)
	}
	s.Placing = mm / 2
	for what, p := range map[string]*folio.Plan{"as made": made, "as expected": mustBuild(t, s)} {
		least, most, ok := p.ClosedRange()
		if !ok || least.Room().Length() != 156*mm/10 || most.Room().Length() != 198*mm/10 || most.Crease() != 21*mm/10 {
			t.Errorf("%s: from %v to %v, creased at %v", what, least.Room(), most.Room(), most.Crease())
		}
	}
	// On a soft spine of 8.4 mm that comes out as 9.4, a flat back spans all of that.
	s = folio.Spec{Form: boards.SoftSpine, Cover: units.Size{W: 100 * mm, H: 150 * mm}, Spine: rule.Spine{Contents: 4 * mm}, Placing: mm,
		Board: stock.Stock{Caliper: 2 * mm}, Covering: stock.Stock{Caliper: mm / 5}, Liner: stock.Stock{Caliper: mm / 5}, Rulers: rule.Rulers{Main: units.TenthMillimetres}}
	if _, most, ok := mustBuild(t, s).ClosedRange(); !ok || most.Room().Length() != 5*mm {
		t.Errorf("of a soft spine: %v", most.Room())
	}
}

// The range ends where the boards would meet: with a gap between one and two
// thicknesses (board, turn-in and liner) a crease further out than gap − thickness does
// not close, although it is short of mid-gap.
func TestClosedRangeEndsWhereBoardsMeet(t *testing.T) {
	r := rand.New(rand.NewPCG(uint64(proptest.Seed()), 2))
	for range 300 {
		spec := randomRow(r, boards.SpineBoard, rule.CreaseAtEdge)
		thick := spec.Board.Caliper + spec.Liner.Caliper + spec.Covering.Caliper
		spec.Hinge.Width = thick + units.Length(r.IntN(int(thick/units.Micrometre)))*units.Micrometre
		p, err := folio.Build(spec)
		if err != nil {
			t.Fatal(err)
		}
		_, most, ok := p.ClosedRange()
		if !ok {
			t.Fatal("no range")
		}
		row := rowOf(p)
		x := most.Crease()
		if row.meet(row.shutBy(rule.CreaseAtOffset, x.Millimetres())) {
			t.Fatalf("boards meet within the range: crease %v, gap %v, thickness %v", x, spec.Hinge.Width, thick)
		}
		if beyond := x + 20*units.Micrometre; beyond < spec.Hinge.Width/2 && !row.meet(row.shutBy(rule.CreaseAtOffset, beyond.Millimetres())) {
			t.Fatalf("the range could reach beyond %v: gap %v, thickness %v", x, spec.Hinge.Width, thick)
		}
		if _, err := p.ClosedAt(x + 1); !refusedWith(err, "crease", check.TooLarge) {
			t.Fatalf("a crease beyond the range is not refused: %v", err)
		}
	}
}

// The room of the closed folio is that between the board on the table and the one left of it,
// 45 mm wide, as long as that lies on it beside what is folded in under it; over 50 mm it does
// not, and the room is that under the right one. By hand, spine boards of 30 and of 24 less
// two boards of 2 and liners of 0.2.
func TestRoomUnderTheRightBoard(t *testing.T) {
	for wide, spine := range map[units.Length]units.Length{40 * mm: 30 * mm, 50 * mm: 24 * mm} {
		s := flat()
		s.Rulers, s.Spine, s.Hinge = all(everyNanometre), rule.Spine{Contents: 3 * mm}, rule.Hinge{Rule: rule.HingeLeast, Crease: rule.CreaseAtEdge}
		s.Row = boards.Row{
			Boards: []boards.Board{{Role: boards.Panel1, Width: wide}, {Role: boards.Spine1, Width: 12 * mm}, {Role: boards.Panel2, Width: 45 * mm}, {Role: boards.Spine2, Width: 30 * mm},
				{Role: boards.Panel3, Width: 100 * mm}, {Role: boards.Spine3, Width: 24 * mm}, {Role: boards.Panel4, Width: 40 * mm}},
			Joints: make([]boards.Joint, 6), Main: boards.Panel3,
		}
		s.Row.Joints[2].Hinge = rule.Hinge{Width: 25 * mm, Crease: rule.CreaseAtEdge}
		s.Row.Joints[3].Hinge = s.Row.Joints[2].Hinge
		c, ok := mustBuild(t, s).Closed()
		if room := c.Room().Length(); !ok || room != spine-44*mm/10 {
			t.Errorf("with %v folded in: %v", wide, c.Room())
		}
	}
}

func TestClosedNumbers(t *testing.T) {
	in := units.Inch
	p, err := folio.Build(folio.Spec{
		Cover: units.MustParseSize("4 1/2 x 6 1/4 in"), Spine: rule.Spine{Width: in},
		Liner: stock.Stock{Name: "liner", Caliper: units.Inch / 100}, Covering: stock.Stock{Name: "cloth", Caliper: units.Inch / 64},
	})
	if err != nil {
		t.Fatal(err)
	}
	least, most, ok := p.ClosedRange()
	if !ok {
		t.Fatal("does not shut")
	}
	for _, c := range []struct {
		name      string
		got, want units.Length
	}{
		// By hand, from the formulas of Closed: 1 − 1/8 − 2/100; a crease may
		// lie no further out than the gap less board, liner and turn-in, 1/8 −
		// 1/16 − 1/100 − 1/64.
		{"room, crease at the board's edge", least.Room().Length(), 855 * in / 1000},
		{"crease furthest out", most.Crease(), 36_875 * in / 1_000_000},
		{"room, crease furthest out", most.Room().Length(), 928_750 * in / 1_000_000},
		{"thickness", least.Thickness().Length(), in + in/32},
		{"width", least.Width().Length(), 9*in/2 + in/8 + in/32},
		{"height", least.Height().Length(), 25*in/4 + in/32},
		{"spine for 1/2 in", rule.SpineFor(in/2, in/16, 0, 0, units.Sixteenths).Length(), 5 * in / 8},
		{"spine for 0.51 in", rule.SpineFor(51*in/100, in/16, 0, 0, units.Sixteenths).Length(), 11 * in / 16},
		{"contents of 1 in", rule.ContentsFor(in, in/16, 0, in/16, units.Sixteenths).Length(), in},
		// University of Brighton, Hard Cover for Multi-section: block plus both
		// boards, with 2 mm board.
		{"spine of a block of 20 mm", rule.SpineFor(20*mm, 2*mm, 0, 0, units.WholeMillimetres).Length(), 24 * mm},
	} {
		if c.got != c.want {
			t.Errorf("%s: got %v, want %v", c.name, c.got, c.want)
		}
	}
}

func TestStaysOpen(t *testing.T) {
	s := folio.Spec{
		Cover: units.Size{W: 100 * mm, H: 150 * mm}, Spine: rule.Spine{Width: 20 * mm},
		Board: stock.Stock{Caliper: 2 * mm}, Liner: stock.Stock{Caliper: mm / 10}, Covering: stock.Stock{Caliper: mm / 50},
		Hinge:  rule.Hinge{Width: 15 * mm / 10, Angle: 45},
		Rulers: rule.Rulers{Main: units.HalfMillimetres},
	}
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	if _, ok := p.Closed(); ok {
		t.Error("a gap of less than a board's caliper cannot close to 90 degrees at its edge")
	}
	if _, _, ok := p.ClosedRange(); ok {
		t.Error("nor anywhere else")
	}
	if _, ok := p.Tightest(true); ok {
		t.Error("so there is no tightest place")
	}
	if _, err := p.ClosedAt(0); !refusedWith(err, "hinge.width", folio.GapNarrow) {
		t.Errorf("ClosedAt says %v", err)
	}
	if section, ok := p.Section(); ok || len(slices.Collect(section)) > 0 {
		t.Error("nor a section of what is shut")
	}
	for _, role := range []boards.Role{boards.LeftCover, boards.RightCover, boards.MainPanel} {
		over, room, ok := p.Over(role, true)
		if ok || room != 0 || len(slices.Collect(over)) > 0 || len(slices.Collect(p.Overheads(role, true))) > 0 {
			t.Errorf("and over the %v lies nothing", role)
		}
		for part := range p.Beside(role, true) {
			t.Errorf("nor beside a spine: %v", part)
		}
		panel, _ := p.Panel(role, false)
		if got := p.Headroom(panel, role, -1); got != units.Longest {
			t.Errorf("closing sets no limit there: %v", got)
		}
	}
	if room := p.Headroom(units.Rect{Max: units.Point{X: mm, Y: mm}}, boards.MainPanel, -1); room != units.Longest {
		t.Errorf("what does not shut leaves %v over its panels", room)
	}
	if err := p.Shuts(); !refusedWith(err, "hinge.angle", folio.WarnOpen) {
		t.Errorf("Shuts says %v", err)
	}
	if !warned(p, folio.WarnOpen) {
		t.Error("no warning that it stays open")
	}
}

// A hinge creased anywhere in its gap turns by a right angle if of the spine board and the cover,
// 2.3 mm thick with liner and turn-in, one is as far from the crease: that it is planned for less
// does not keep it from that.
func TestCreaseNearerToTheCover(t *testing.T) {
	const thick = 23 * mm / 10
	s := plainCase()
	s.Rulers.Gap = nanometres()
	for gap := 25 * mm / 10; gap < 5*mm; gap += mm / 4 {
		for x := mm / 20; x < gap; x += mm / 10 {
			s.Hinge = rule.Hinge{Width: gap, Crease: rule.CreaseAtOffset, Offset: x, Angle: 45}
			p, err := folio.Build(s)
			if err != nil {
				t.Fatalf("%v, creased at %v: %v", gap, x, err)
			}
			if _, ok := p.Closed(); ok != (max(x, gap-x) >= thick) {
				t.Errorf("%v, creased at %v: shuts %v", gap, x, ok)
			}
		}
	}
}

// A soft spine that is too narrow for its covers to lie parallel must be as wide as both
// are thick, creased at their edges.
func TestSoftSpineTooNarrow(t *testing.T) {
	s := plainCase()
	s.Form, s.Spine, s.Rulers.Gap = boards.SoftSpine, rule.Spine{}, units.TenthMillimetres
	s.Hinge = rule.Hinge{Width: 3 * mm, Angle: 60}
	_, err := mustBuild(t, s).ClosedAt(0)
	v := only(err)
	// Boards of 2 mm, liners of 0.1 mm and a turn-in of 0.2 mm at head and tail of each.
	if v.Path != "hinge.width" || v.Code != folio.GapNarrow || v.Limit != 46*mm/10 {
		t.Fatalf("%v", err)
	}
	s.Hinge.Width = v.Limit - mm/10
	if _, err := mustBuild(t, s).ClosedAt(0); only(err).Limit != v.Limit {
		t.Errorf("%v wide: %v", s.Hinge.Width, err)
	}
	// So wide nothing lies between, not even the turn-ins, that count by themselves.
	s.Hinge.Width = v.Limit
	if v := only(builds(s)); v.Code != folio.NotClosing {
		t.Errorf("%v wide: %v", s.Hinge.Width, v)
	}
	s.Hinge.Width = v.Limit + mm
	if _, err := mustBuild(t, s).ClosedAt(0); err != nil {
		t.Errorf("%v wide: %v", s.Hinge.Width, err)
	}
}

// A soft joint whose creases lie at unequal distances, as the one board must go past what lies
// inside and the other need not, shuts as long as there is room between them for what leans into
// it from both sides: boards, liners and turn-ins. A cover whose gaps come out so much narrower
// shuts, and a nanometre more is too much.
func TestSoftJointAsMade(t *testing.T) {
	wide := boards.Joint{Hinge: rule.Hinge{Width: 10 * mm}}
	s := folio.Spec{
		Cover: units.Size{W: 90 * mm, H: 120 * mm}, Spine: rule.Spine{Contents: mm}, Rulers: rule.Rulers{Main: everyNanometre}, Mitre: rule.Mitre{Distance: 5 * mm},
		Board: stock.Stock{Caliper: 2 * mm}, Liner: stock.Stock{Caliper: mm / 10}, Covering: stock.Stock{Caliper: mm / 5},
		Closing: closing.Allowance{Ease: units.None, UnderFlap: mm},
		Row: boards.Row{Main: boards.Panel3,
			Boards: []boards.Board{{Role: boards.Panel1}, {Role: boards.Spine1}, {Role: boards.Panel2}, {Role: boards.Panel3}},
			Joints: []boards.Joint{wide, wide, {Hinge: rule.Hinge{Rule: rule.HingeLeast, Crease: rule.CreaseTwo}}},
		},
	}
	for _, mirrored := range []bool{false, true} {
		if mirrored {
			s = inMirror(s)
		}
		p := mustBuild(t, s)
		var spare units.Length
		for g := range p.Gaps() {
			if left, right := folio.SoftCreases(g); left != right {
				spare = g.Width() - left - right - 2*(2*mm+mm/10+mm/5)
			}
		}
		if spare <= 0 {
			t.Fatalf("mirrored %v: no soft joint with room to spare", mirrored)
		}
		w, h := p.AsMade()
		for _, more := range []units.Length{0, 1} {
			made, err := p.Refit(refit.Measured{Width: w.Length() - 2*s.Covering.Caliper - 3*(spare+more), Height: h.Length()})
			if err != nil {
				t.Fatal(err)
			}
			_, closed := made.Closed()
			_, _, anyway := made.ClosedRange()
			if _, err := made.ClosedAt(0); closed != (more == 0) || anyway != closed || (err == nil) != closed {
				t.Errorf("mirrored %v: each gap %v narrower, closed %v, anyway %v, at the edge %v", mirrored, spare+more, closed, anyway, err)
			}
		}
	}
}

func warned(p *folio.Plan, code check.Code) bool {
	for w := range p.Warnings() {
		if w.Code == code {
			return true
		}
	}
	return false
}

// nanometres is a ruler on which every length is exact. It is not the zero
// Ruler, which a Spec takes for none given.
func nanometres() units.Ruler {
	r, err := units.NewRuler(units.Nanometre, units.MetricDecimal)
	if err != nil {
		panic(err)
	}
	return r
}

// Of two flaps the spine of the left one lies within that of the right one, which needs more
// gap to clear it: no rule that gives all gaps one width does, nor any width, however wide.
// What would do is none of them, and that does.
func TestTwoFlapsNeedGapsOfTheirOwn(t *testing.T) {
	var hinges []rule.Hinge
	for r := rule.HingeOneCaliper; r.Known(); r++ {
		if r != rule.HingeFixed && r != rule.HingeLeast {
			hinges = append(hinges, rule.Hinge{Rule: r})
		}
	}
	for w := 3 * mm; w < 100*mm; w += 7*mm + 1 {
		hinges = append(hinges, rule.Hinge{Width: w})
	}
	for _, h := range hinges {
		s := folio.Spec{Form: boards.TwoFlaps, Cover: units.Size{W: 187 * mm, H: 148 * mm}, Spine: rule.Spine{Width: 16 * mm}, Hinge: h, Rulers: rule.Rulers{Main: units.WholeMillimetres}}
		path, want := "hinge.rule", "no rule"
		if h.Width > 0 {
			path, want = "hinge.width", "no width"
		}
		_, err := folio.Build(s)
		var bad *check.Error
		if !errors.As(err, &bad) {
			t.Fatalf("%+v: %v", h, err)
		}
		v, ok := bad.Find(path, folio.NotClosing)
		if !ok || bad.Len() != 1 || v.Bound != check.NoBound || !strings.HasPrefix(v.Want, want+",") {
			t.Errorf("%+v: %v", h, err)
		}
		s.Hinge = rule.Hinge{}
		mustBuild(t, s)
	}
}

// What is wrong with the one hinge that all joints share is said once; with hinges of their
// own, of more than one.
func TestSharedHingeIsToldOnce(t *testing.T) {
	s := folio.Spec{Form: boards.FourPanelZ, Cover: units.Size{W: 143 * mm, H: 176 * mm}, Spine: rule.Spine{Contents: 5 * mm}, Rulers: rule.Rulers{Main: units.HalfMillimetres}}
	s.Hinge.Crease = rule.CreaseMidGap
	told := func(s folio.Spec) (n int) {
		_, err := folio.Build(s)
		var bad *check.Error
		if !errors.As(err, &bad) {
			t.Fatal(err)
		}
		for v := range bad.All() {
			if v.Code == folio.NeverCloses {
				n++
			}
		}
		return n
	}
	if n := told(s); n != 1 {
		t.Errorf("told %d times", n)
	}
	s.Row, s.Form = s.Form.Row(), boards.OwnRow
	for i := range s.Row.Joints {
		s.Row.Joints[i].Hinge.Crease = rule.CreaseMidGap
	}
	if n := told(s); n < 2 {
		t.Errorf("of a row with hinges of their own told %d times", n)
	}
}
