package folio_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
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

// A turn-in is what lies on the boards when the flat covering is folded over their
// edges: the outline as cut, what goes round the edge taken off, laid over about the
// middle of that; what stands past the boards' other edges is not part of it, as it is
// turned in there itself.
func TestTurnInsByFolding(t *testing.T) {
	props := runs()
	slanted, short := 0, 0
	props.Property("the turn-ins are the covering folded over", prop.ForAll(func(s folio.Spec, more units.Length, far bool) string {
		if s.Rulers.Wrap = s.Rulers.Main; far { // by a cut that leaves hardly more than goes round the corner
			s.Mitre = rule.Mitre{Distance: s.Board.Caliper + s.Covering.Caliper}
		}
		built, err := folio.Build(s)
		if err != nil {
			return err.Error()
		}
		p, why := measuredOr(built, more+101)
		if why != "" {
			return why
		}
		var row units.Rect
		for b := range p.Boards() {
			row = row.Union(b.Rect())
		}
		spec := p.Spec()
		caliper := map[string]units.Length{spec.Covering.Name: spec.Covering.Caliper, spec.SpineCovering.Name: spec.SpineCovering.Caliper}
		var pieces []folio.Piece
		for pc := range p.Pieces() {
			pieces = append(pieces, pc)
		}
		type place struct {
			piece, copy int
			edge        score.Edge
		}
		want, depth := map[place][]units.Point{}, map[place]units.Length{}
		for pl := range p.Placed() {
			piece, copy := pl.Piece()
			if pieces[piece].Part() != "wrap" {
				continue
			}
			round := spec.Board.Caliper + caliper[pieces[piece].Stock()]
			for edge, half := range map[score.Edge]units.Rect{
				score.Head:  {Min: units.Point{Y: -units.Metre}, Max: units.Point{X: row.Max.X, Y: -round}},
				score.Tail:  {Min: units.Point{Y: row.Max.Y + round}, Max: units.Point{X: row.Max.X, Y: row.Max.Y + units.Metre}},
				score.Left:  {Min: units.Point{X: -units.Metre}, Max: units.Point{X: -round, Y: row.Max.Y}},
				score.Right: {Min: units.Point{X: row.Max.X + round}, Max: units.Point{X: row.Max.X + units.Metre, Y: row.Max.Y}},
			} {
				var flap []units.Point
				for _, q := range trimmed(pl.Outline(), half) {
					switch at := (place{piece, copy, edge}); edge {
					case score.Head:
						q.Y = -round - q.Y
						depth[at] = max(depth[at], q.Y)
					case score.Tail:
						q.Y = 2*row.Max.Y + round - q.Y
						depth[at] = max(depth[at], row.Max.Y-q.Y)
					case score.Left:
						q.X = -round - q.X
						depth[at] = max(depth[at], q.X)
					default:
						q.X = 2*row.Max.X + round - q.X
						depth[at] = max(depth[at], row.Max.X-q.X)
					}
					flap = append(flap, q)
				}
				if len(flap) > 2 {
					want[place{piece, copy, edge}] = flap
				}
			}
		}
		for in := range p.TurnIns() {
			piece, copy := in.Piece()
			at := place{piece, copy, in.Edge()}
			folded := units.Polygon{}
			if flap := want[at]; len(flap) > 2 {
				if folded, err = units.NewPolygon(flap...); err != nil {
					return err.Error()
				}
			}
			if !in.Outline().Equal(folded) || in.Depth() != depth[at] {
				return fmt.Sprintf("%v deep at the %v of %v, %v; folded over it is %v deep, %v", in.Depth(), in.Edge(), pieces[piece].Name(), in.Outline(), depth[at], folded)
			}
			if in.Outline().Len() > 4 {
				slanted++
			} else if _, upright := in.Outline().Rect(); !upright {
				short++
			}
			delete(want, at)
		}
		for at := range want {
			return "nothing is turned in at the " + at.edge.String() + " of " + pieces[at.piece].Name()
		}
		return ""
	}, anySpec(), within(0, 4*mm), gen.Bool()))
	props.TestingRun(t)
	if slanted < proptest.Cases(1500) || short < proptest.Cases(300) {
		t.Errorf("only %d turn-ins with ends that are straight and slant, %d that slant from the edge", slanted, short)
	}
}

// trimmed returns the corners of what of a polygon lies in a rectangle. The polygon has
// edges that are upright, level or slant by 45 degrees, so they are whole.
func trimmed(p units.Polygon, r units.Rect) (left []units.Point) {
	for _, at := range p.Corners() {
		left = append(left, at)
	}
	for _, past := range []func(units.Point) units.Length{
		func(q units.Point) units.Length { return r.Min.X - q.X }, func(q units.Point) units.Length { return q.X - r.Max.X },
		func(q units.Point) units.Length { return r.Min.Y - q.Y }, func(q units.Point) units.Length { return q.Y - r.Max.Y },
	} {
		var kept []units.Point
		for i, a := range left {
			b := left[(i+1)%len(left)]
			if past(a) <= 0 {
				kept = append(kept, a)
			}
			if past(a) < 0 && past(b) > 0 || past(a) > 0 && past(b) < 0 {
				along := func(from, to units.Length) units.Length { // as far as past changes, or not at all
					switch to - from {
					case 0:
						return from
					case past(a) - past(b):
						return from + past(a)
					}
					return from - past(a)
				}
				kept = append(kept, units.Point{X: along(a.X, b.X), Y: along(a.Y, b.Y)})
			}
		}
		left = kept
	}
	return left
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
