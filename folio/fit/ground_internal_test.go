package fit

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"boardwrap.example/folio/boards"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"
)

// A board is a ground of a few whole lengths each way, on which everything can be
// counted square by square.
type board struct {
	ground
	w, h int
}

func chance(r *rand.Rand, w, h int) units.Rect {
	x, y := r.IntN(w), r.IntN(h)
	return box(x, y, x+1+r.IntN(w-x), y+1+r.IntN(h-y))
}

func box(x0, y0, x1, y1 int) units.Rect {
	l := func(n int) units.Length { return units.Length(n) }
	return units.Rect{Min: units.Point{X: l(x0), Y: l(y0)}, Max: units.Point{X: l(x1), Y: l(y1)}}
}

func anyBoard(r *rand.Rand) board {
	b := board{w: 5 + r.IntN(9), h: 5 + r.IntN(9)}
	b.area = box(2, 3, 2+b.w, 3+b.h)
	inside := func() units.Rect { return chance(r, b.w, b.h).Moved(b.area.Min) }
	taken, fillers, heights := r.IntN(3), r.IntN(3), 4
	if r.IntN(3) == 0 { // so little that most places are no corners
		taken, fillers, heights = 0, 1, 2
	}
	for range taken {
		b.taken = append(b.taken, inside())
	}
	for range fillers {
		f := filler{part: inside(), room: units.Length(3 + r.IntN(9))}
		for range r.IntN(heights) {
			f.heights = append(f.heights, height{inside(), units.Length(1 + r.IntN(4))})
		}
		b.fillers = append(b.fillers, f)
	}
	return b
}

// holds reports whether something so high may lie on every square of a rectangle.
func (b board) holds(r units.Rect, high units.Length) bool {
	for x := r.Min.X; x < r.Max.X; x++ {
		for y := r.Min.Y; y < r.Max.Y; y++ {
			square := units.RectAt(units.Point{X: x, Y: y}, units.Size{W: 1, H: 1})
			for _, f := range b.fillers {
				sum := high
				for _, h := range f.heights {
					if square.In(h.rect) {
						sum += h.height
					}
				}
				if square.In(f.part) && sum > f.room {
					return false
				}
			}
		}
	}
	return true
}

// lies reports whether a load may lie at a place.
func (b board) lies(l load, at units.Point) bool {
	mat := units.RectAt(at, l.mat)
	return mat.In(b.area) && !slices.ContainsFunc(b.taken, mat.Overlaps) &&
		b.holds(mat, l.low) && b.holds(units.RectAt(at.Plus(l.in), l.picture), l.high)
}

// The first place, the corners and what may be laid anywhere are those that are
// found by counting squares.
func TestGroundByCounting(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 1))
	found, not, corners := 0, 0, 0
	m := func() *meter { return newMeter(context.Background(), Budget{}) }
	for range proptest.Cases(5000) {
		b := anyBoard(r)
		l := load{mat: units.Size{W: units.Length(2 + r.IntN(6)), H: units.Length(2 + r.IntN(6))}, low: units.Length(r.IntN(4))}
		inner := chance(r, int(l.mat.W), int(l.mat.H))
		l.in, l.picture, l.high = inner.Min, inner.Size(), l.low+units.Length(r.IntN(4))
		var want []units.Point // from the head down, from left to right
		for y := range units.Length(30) {
			for x := range units.Length(30) {
				if p := (units.Point{X: x, Y: y}); b.lies(l, p) {
					want = append(want, p)
				}
			}
		}
		at, ok := b.place(m(), l)
		if ok != (len(want) > 0) || ok && at != units.RectAt(want[0], l.mat) {
			t.Fatalf("%+v on %+v: at %v, %t; counted %v", l, b, at, ok, want)
		}
		if ok {
			found++
		} else {
			not++
		}
		shown := slices.Collect(b.corners(m(), l))
		for _, p := range shown {
			if !slices.Contains(want, p) {
				t.Fatalf("%+v on %+v: no place at the corner %v", l, b, p)
			}
		}
		for _, p := range want {
			held := func(x, y units.Length) bool { return !slices.Contains(want, p.Plus(units.Point{X: x, Y: y})) }
			if (held(-1, 0) || held(1, 0)) && (held(0, -1) || held(0, 1)) {
				if corners++; !slices.Contains(shown, p) {
					t.Fatalf("%+v on %+v: %v is held both ways, but no corner", l, b, p)
				}
			}
		}
		part, high := chance(r, b.w, b.h).Moved(b.area.Min), units.Length(r.IntN(9))
		if got := b.takes(m(), part, high); got != b.holds(part, high) {
			t.Fatalf("%v more over %v on %+v: %t", high, part, b, got)
		}
	}
	if n := proptest.Cases(5000); found < n/4 || not < n/10 || corners < n {
		t.Errorf("%d found, %d not, %d corners", found, not, corners)
	}
}

// What is laid on a ground fills it as much higher as it is high, where it lies on the
// board, over it or over what faces it, by counting squares; what has no height changes
// nothing, and neither does what lies elsewhere.
func TestWithByCounting(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 13))
	nothing := 0
	n := proptest.Cases(400)
	for range n {
		b := anyBoard(r)
		b.role = boards.LeftCover
		for i := range b.fillers {
			b.fillers[i].facing = [][]boards.Role{nil, {boards.RightCover}, {boards.Flap, boards.RightCover}}[r.IntN(3)]
		}
		before := board{ground: copied([]ground{b.ground})[0], w: b.w, h: b.h}
		on := []boards.Role{boards.LeftCover, boards.RightCover, boards.Flap}[r.IntN(3)]
		at, high := chance(r, b.w+4, b.h+4), units.Length(r.IntN(3))
		b.with(at, high, on)
		added := 0
		for i, f := range b.fillers {
			added += len(f.heights) - len(before.fillers[i].heights)
		}
		if added == 0 {
			nothing++
		}
		if high == 0 && added > 0 {
			t.Fatalf("nothing on %v of %+v is added", at, before)
		}
		for x := b.area.Min.X; x < b.area.Max.X; x++ {
			for y := b.area.Min.Y; y < b.area.Max.Y; y++ {
				square := units.RectAt(units.Point{X: x, Y: y}, units.Size{W: 1, H: 1})
				for i := range b.fillers {
					was, f := before.fillers[i], b.fillers[i]
					more := units.Length(0)
					if square.In(at) && (on == b.role || slices.Contains(f.facing, on)) {
						more = high
					}
					old, now := board{ground: ground{fillers: []filler{was}}}, board{ground: ground{fillers: []filler{f}}}
					for add := range units.Length(12) {
						if now.holds(square, add) != old.holds(square, add+more) {
							t.Fatalf("%v high on %v of the %v, on %+v: %v more at %v", high, at, on, before, add, square)
						}
					}
				}
			}
		}
	}
	if nothing < n/5 || nothing > n*4/5 {
		t.Errorf("%d of %d times nothing is added", nothing, n)
	}
}

// A search that is over finds nothing.
func TestGroundWhenOver(t *testing.T) {
	gone, cancel := context.WithCancel(context.Background())
	cancel()
	f := filler{part: box(0, 0, 9, 9), room: 3, heights: []height{{box(0, 0, 4, 4), 3}, {box(2, 2, 9, 9), 3}}}
	g := ground{area: box(0, 0, 9, 9), fillers: []filler{f}}
	m := newMeter(gone, Budget{})
	l := load{mat: units.Size{W: 2, H: 2}, picture: units.Size{W: 1, H: 1}, low: 1, high: 2}
	if at, ok := g.place(m, l); ok {
		t.Errorf("a place at %v", at)
	}
	if all := slices.Collect(g.corners(m, l)); len(all) > 0 {
		t.Errorf("corners at %v", all)
	}
	if g.takes(m, box(0, 0, 2, 2), 1) {
		t.Error("it takes something")
	}
}

// Each rectangle that is looked at is counted, by hand: two heights beside each other
// that begin and end at four levels make three strips, in each of which their
// four sides are gone along; round a thing in the middle there are four by four corners,
// each of which is compared with it.
func TestWorkOfAGround(t *testing.T) {
	count := func(work func(m *meter)) int {
		m := newMeter(context.Background(), Budget{})
		work(m)
		return m.rest + ofAStep*int(m.done)
	}
	g := ground{area: box(0, 0, 10, 10), fillers: []filler{{part: box(0, 0, 10, 10), room: 3, heights: []height{{box(1, 1, 4, 5), 2}, {box(5, 3, 8, 8), 2}}}}}
	if n := count(func(m *meter) { g.takes(m, box(0, 0, 10, 10), 1) }); n != 2+3*(1+4) {
		t.Errorf("what may lie there: %d", n)
	}
	// What lies beside the part is not gone along, and where all heights together are low
	// enough nothing is.
	f := filler{part: box(0, 0, 10, 10), room: 3, heights: []height{{box(1, 1, 4, 5), 2}, {box(12, 12, 14, 14), 2}}}
	if n := count(func(m *meter) { f.full(m, 1) }); n != 1+2 {
		t.Errorf("what is filled too high: %d", n)
	}
	for over := range units.Length(2) {
		f.room = 5 - over
		if n := count(func(m *meter) { f.full(m, 1) }); (n > 0) != (over > 0) {
			t.Errorf("heights of 4 and 1 more in a room of %v: %d", f.room, n)
		}
	}
	g = ground{area: box(0, 0, 10, 10), taken: []units.Rect{box(4, 4, 6, 6)}}
	l := load{mat: units.Size{W: 2, H: 2}, picture: units.Size{W: 2, H: 2}}
	if n := count(func(m *meter) { g.place(m, l) }); n != 1+1 {
		t.Errorf("the first place: %d", n)
	}
	corners := 0
	if n := count(func(m *meter) {
		for range g.corners(m, l) {
			corners++
		}
	}); n != 4*4*(1+1) || corners != 16 {
		t.Errorf("%d corners: %d", corners, n)
	}
}

// What is filled too high is each square that is, and no other, in rectangles clear of each
// other: on four by four squares, filled by up to four things.
func TestFullByCounting(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 11))
	some, none := 0, 0
	for range proptest.Cases(4000) {
		f := filler{part: chance(r, 4, 4), room: units.Length(2 + r.IntN(4))}
		for range r.IntN(5) {
			f.heights = append(f.heights, height{chance(r, 4, 4), units.Length(1 + r.IntN(3))})
		}
		high := units.Length(r.IntN(4))
		got, ok := f.full(newMeter(context.Background(), Budget{}), high)
		if !ok {
			t.Fatal("it was not finished")
		}
		b := board{ground: ground{fillers: []filler{f}}}
		for x := range units.Length(4) {
			for y := range units.Length(4) {
				square := units.RectAt(units.Point{X: x, Y: y}, units.Size{W: 1, H: 1})
				in := 0
				for _, r := range got {
					if square.In(r) {
						in++
					}
				}
				want := 0
				if !b.holds(square, high) {
					want = 1
				}
				if in != want {
					t.Fatalf("%v more on %+v: %v, where %v lies in %d of them, want %d", high, f, got, square, in, want)
				}
			}
		}
		if len(got) > 0 {
			some++
		} else {
			none++
		}
	}
	if n := proptest.Cases(4000); some < n/4 || none < n/4 {
		t.Errorf("%d times something, %d times nothing", some, none)
	}
}

// What is filled too high, by hand: strips right under each other that are filled alike
// are one, those with something free between them are two.
func TestFullByHand(t *testing.T) {
	f := filler{part: box(0, 0, 10, 10), room: 3, heights: []height{{box(1, 0, 4, 2), 3}, {box(1, 4, 4, 6), 3}, {box(1, 6, 4, 7), 4}, {box(6, 6, 8, 7), 1}}}
	got, ok := f.full(newMeter(context.Background(), Budget{}), 1)
	if want := []units.Rect{box(1, 0, 4, 2), box(1, 4, 4, 7)}; !ok || !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}
