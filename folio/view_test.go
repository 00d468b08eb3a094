package folio_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/view"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// measuredOr refits a plan to something measured for every other case, so that
// what is said about the row is tried on both.
func measuredOr(p *folio.Plan, more units.Length) (*folio.Plan, string) {
	if more%2 == 0 {
		return p, ""
	}
	q, err := p.Refit(refit.Measured{Width: p.OpenWidth().Length() + more, Height: p.OpenHeight().Length() + more/3})
	if err != nil {
		return p, "" // the liner does not go on, which is tested elsewhere
	}
	return q, ""
}

// Every copy of every piece of the case lies in one place; boards and gaps tile
// the row; the liner lies inside the cover and the wrap reaches past it on all
// sides.
func TestPlaced(t *testing.T) {
	props := runs()
	props.Property("each copy once, boards and gaps in a row, liner inside, wrap all round", prop.ForAll(func(s folio.Spec, more units.Length) string {
		built, err := folio.Build(s)
		if err != nil {
			return err.Error()
		}
		p, why := measuredOr(built, more)
		if why != "" {
			return why
		}
		var quantity []int
		for pc := range p.Pieces() {
			quantity = append(quantity, pc.Quantity())
		}
		var x, high units.Length
		var gaps []folio.Gap
		for g := range p.Gaps() {
			gaps = append(gaps, g)
		}
		i := 0
		for b := range p.Boards() {
			if r := b.Rect(); r.Min.X != x || r.Min.Y != 0 {
				return "the " + b.Role().String() + " does not begin where the gap before it ends"
			}
			x, high = b.Rect().Max.X, b.Rect().Max.Y
			if i < len(gaps) {
				if r := gaps[i].Rect(); r.Min.X != x || r.Size().W != gaps[i].Width() || r.Size().H != high {
					return "a gap does not begin where its board ends"
				}
				x = gaps[i].Rect().Max.X
			}
			i++
		}
		row := units.Rect{Max: units.Point{X: x, Y: high}}
		seen := map[[2]int]bool{}
		var wrap units.Rect
		for pl := range p.Placed() {
			piece, copy := pl.Piece()
			if seen[[2]int{piece, copy}] {
				return "one copy lies in two places"
			}
			seen[[2]int{piece, copy}] = true
			quantity[piece]--
			if pl.Outside() {
				wrap = wrap.Union(pl.Rect())
				if pl.Up() != work.WrongSide {
					return "the wrap shows its right side inside"
				}
			} else if pl.Up() != work.RightSide {
				return "a board or liner shows its wrong side"
			}
			if first, last := pl.Boards(); first < 0 || last < first || last > len(gaps) {
				return "it lies on no board"
			}
		}
		for i, n := range quantity {
			if n != 0 {
				return "a copy of a piece has no place, or has too many: " + list(p)[i].Name
			}
		}
		cover := p.View(view.Cover).Inverse().Rect(units.Rect{Max: units.Point{X: p.OpenWidth().Length(), Y: p.OpenHeight().Length()}})
		if !row.In(cover) {
			return "the boards lie outside the cover"
		}
		if !cover.In(wrap) {
			return "the wrap does not reach round the boards"
		}
		for pl := range p.Placed() {
			piece, _ := pl.Piece()
			if list(p)[piece].Part == "liner" && !pl.Rect().In(cover.Grow(-p.Spec().Lining.Inset)) {
				return "the liner comes nearer to the cover's edge than its inset"
			}
		}
		return ""
	}, anySpec(), within(0, 4*mm)))
	props.TestingRun(t)
}

// A turn-in is what lies on the boards when the flat covering is folded over
// their edges: a point of it, carried back to the flat sheet by the way round
// the edge, lies in the outline as cut, and any other does not.
func TestTurnInsByFoldingBack(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 3))
	props := runs()
	tried := 0
	props.Property("a place is in the turn-in exactly when the flat sheet has it", prop.ForAll(func(s folio.Spec, more units.Length) string {
		built, err := folio.Build(s)
		if err != nil {
			return err.Error()
		}
		p, why := measuredOr(built, more)
		if why != "" {
			return why
		}
		var row units.Rect
		for b := range p.Boards() {
			row = row.Union(b.Rect())
		}
		flat := map[[2]int]units.Polygon{}
		for pl := range p.Placed() {
			piece, copy := pl.Piece()
			flat[[2]int{piece, copy}] = pl.Outline()
		}
		spec := p.Spec()
		caliper := map[string]units.Length{spec.Covering.Name: spec.Covering.Caliper, spec.SpineCovering.Name: spec.SpineCovering.Caliper}
		var pieces []folio.Piece
		for pc := range p.Pieces() {
			pieces = append(pieces, pc)
		}
		for in := range p.TurnIns() {
			piece, copy := in.Piece()
			round := spec.Board.Caliper + caliper[pieces[piece].Stock()]
			sheet := flat[[2]int{piece, copy}]
			for range 40 {
				// A place on the boards, a little beyond the turn-in too.
				deep := units.Length(r.Int64N(int64(in.Depth()) * 5 / 4))
				var on, was units.Point
				switch in.Edge() {
				case score.Head:
					on = units.Point{X: units.Length(r.Int64N(int64(row.Max.X))), Y: deep}
					was = units.Point{X: on.X, Y: -round - deep}
				case score.Tail:
					on = units.Point{X: units.Length(r.Int64N(int64(row.Max.X))), Y: row.Max.Y - deep}
					was = units.Point{X: on.X, Y: row.Max.Y + round + deep}
				case score.Left:
					on = units.Point{X: deep, Y: units.Length(r.Int64N(int64(row.Max.Y)))}
					was = units.Point{X: -round - deep, Y: on.Y}
				case score.Right:
					on = units.Point{X: row.Max.X - deep, Y: units.Length(r.Int64N(int64(row.Max.Y)))}
					was = units.Point{X: row.Max.X + round + deep, Y: on.Y}
				}
				tried++
				if got, want := in.Outline().Contains(on), sheet.Contains(was); got != want {
					return "at " + on.String() + " of the " + in.Edge().String() + " of " + pieces[piece].Name() + " the sheet says otherwise"
				}
			}
		}
		return ""
	}, anySpec(), within(0, 4*mm)))
	props.TestingRun(t)
	if tried < proptest.Cases(100_000) {
		t.Errorf("only %d places tried", tried)
	}
}

// Each board lies in the section where folding the row by rigid turns lays it,
// and the way back leads to where it came from.
func TestSectionByFolding(t *testing.T) {
	props := runs()
	shut := 0
	props.Property("the section agrees with folding", prop.ForAll(holds(func(p *folio.Plan) string {
		section, ok := p.Section()
		closed, shuts := p.Closed()
		if ok != shuts {
			return "a section of what does not shut"
		}
		if !ok {
			return ""
		}
		shut++
		row := rowOf(p)
		folded := row.shutBy(closed.Bend(), closed.Crease().Millimetres())
		main := boards.RightCover
		if _, ok := p.Board(boards.Back); ok {
			main = boards.Back
		}
		board, _ := p.Board(main)
		var at units.Point // where the main panel begins in the section
		for s := range section {
			if s.Board() == indexOf(p, main) {
				at = s.Rect().Min
			}
		}
		for s := range section {
			b := boardAt(p, s.Board())
			thick := p.Spec().Board.Caliper
			for _, x := range []units.Length{b.Rect().Min.X + 1000, b.Rect().Max.X - 1000} {
				for _, h := range []units.Length{-thick, 0, mm} {
					got := s.Point(x, h)
					want := folded.place(x.Millimetres(), (thick + h).Millimetres())
					dx := (got.X - at.X).Millimetres() - (want.X - board.Rect().Min.X.Millimetres())
					dy := (got.Y - at.Y).Millimetres() - want.Y
					if math.Abs(dx) > 3e-3 || math.Abs(dy) > 3e-3 {
						return b.Role().String() + " lies elsewhere: " + got.String()
					}
					if bx, bh := s.Place(got); bx != x || bh != h {
						return "the way back leads elsewhere"
					}
				}
			}
			if b.Rect().Size().W != max(s.Rect().Size().W, s.Rect().Size().H) && b.Rect().Size().W > thick {
				return "a board changed its width"
			}
		}
		return ""
	}), anySpec()))
	props.TestingRun(t)
	if shut < proptest.Cases(500) {
		t.Errorf("only %d folios shut", shut)
	}
}

func boardAt(p *folio.Plan, i int) folio.Board {
	for b := range p.Boards() {
		if i == 0 {
			return b
		}
		i--
	}
	return folio.Board{}
}

func indexOf(p *folio.Plan, r boards.Role) int {
	i := 0
	for b := range p.Boards() {
		if b.Role() == r {
			return i
		}
		i++
	}
	return -1
}

// The views of a folio with boards 100, 20 and 100 wide and 150 high, gaps of 4
// and margins of 20: seen from outside the left cover lies at the right; on the
// covering it begins at 20.
func TestViews(t *testing.T) {
	p := mustBuild(t, flat())
	left, _ := p.Board(boards.LeftCover)
	for v, want := range map[view.View]units.Rect{
		view.Inside:  box(0, 0, 100, 150),
		view.Outside: box(128, 0, 228, 150),
		view.Wrap:    box(20, 20, 120, 170),
		view.Cover:   box(0, 0, 100, 150),
	} {
		to := p.View(v)
		if got := to.Rect(left.Rect()); got != want {
			t.Errorf("%v: the left cover at %v, want %v", v, got, want)
		}
		if got := to.Polygon(left.Rect().Polygon()); !got.Equal(want.Polygon()) {
			t.Errorf("%v: its outline %v, want %v", v, got, want)
		}
		if got := to.Inverse().Rect(want); got != left.Rect() {
			t.Errorf("%v: back at %v, want %v", v, got, left.Rect())
		}
		corner := units.Point{X: 3 * mm, Y: 7 * mm}
		if got := to.Inverse().Point(to.Point(corner)); got != corner {
			t.Errorf("%v: there and back is %v, want %v", v, got, corner)
		}
		if over := v == view.Outside; to.Over() != over || (to.Edge(score.Left) == score.Right) != over || to.Edge(score.Head) != score.Head {
			t.Errorf("%v: turned over %v", v, to.Over())
		}
	}
	for b := range p.Boards() {
		if on, _ := p.OnWrap(b.Role()); on != p.View(view.Wrap).Rect(b.Rect()) {
			t.Errorf("the %v is laid at %v and seen at %v", b.Role(), on, p.View(view.Wrap).Rect(b.Rect()))
		}
	}
	// Covered, 0.2 all round: the cover as measured begins 0.2 before the row,
	// and the wrap stays where it was glued.
	q, err := p.Refit(refit.Measured{Width: 228*mm + 2*mm/5, Height: 150*mm + 2*mm/5})
	if err != nil {
		t.Fatal(err)
	}
	if got := q.View(view.Cover).Point(units.Point{}); got != (units.Point{X: mm / 5, Y: mm / 5}) {
		t.Errorf("the boards begin at %v of the cover, want 0.2", got)
	}
	if got := q.View(view.Wrap).Point(units.Point{}); got != (units.Point{X: 20 * mm, Y: 20 * mm}) {
		t.Errorf("the boards begin at %v of the wrap, want 20", got)
	}
}

// A wrap of 268 x 190 with mitres that cross the boards' edge lines 1.5 x 2 x √2
// = 4.24, on the ruler 5 from the corner: legs of 20 + 20 - 5 = 35. Turned in over
// board and covering of 2.2, 17.8 lie on the boards, straight for 5 - 2.2 = 2.8.
func TestOutlines(t *testing.T) {
	p := mustBuild(t, flat())
	for pl := range p.Placed() {
		if !pl.Outside() {
			continue
		}
		want := corners(t, -20, 15, 15, -20, 213, -20, 248, 15, 248, 135, 213, 170, 15, 170, -20, 135)
		if !pl.Outline().Equal(want) {
			t.Errorf("the wrap lies at %v, want %v", pl.Outline(), want)
		}
	}
	want := map[score.Edge]units.Polygon{
		score.Head:  corners(t, 0, 0, 228, 0, 228, 2.8, 213, 17.8, 15, 17.8, 0, 2.8),
		score.Tail:  corners(t, 0, 150, 0, 147.2, 15, 132.2, 213, 132.2, 228, 147.2, 228, 150),
		score.Left:  corners(t, 0, 0, 2.8, 0, 17.8, 15, 17.8, 135, 2.8, 150, 0, 150),
		score.Right: corners(t, 228, 0, 228, 150, 225.2, 150, 210.2, 135, 210.2, 15, 225.2, 0),
	}
	n := 0
	for in := range p.TurnIns() {
		n++
		if !in.Outline().Equal(want[in.Edge()]) || in.Depth() != 178*mm/10 {
			t.Errorf("%v lies at %v, %v deep; want %v", in.Edge(), in.Outline(), in.Depth(), want[in.Edge()])
		}
	}
	if n != 4 {
		t.Errorf("%d turn-ins, want 4", n)
	}
}

// corners makes a polygon of coordinates in millimetres.
func corners(t *testing.T, xy ...float64) units.Polygon {
	t.Helper()
	var points []units.Point
	for i := 0; i < len(xy); i += 2 {
		x, _ := units.Millimetres(xy[i])
		y, _ := units.Millimetres(xy[i+1])
		points = append(points, units.Point{X: x, Y: y})
	}
	p, err := units.NewPolygon(points...)
	if err != nil {
		t.Fatal(err)
	}
	return p
}
