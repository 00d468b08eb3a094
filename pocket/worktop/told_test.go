package worktop_test

import (
	"testing"

	"boardwrap.example/pocket/work"
	"boardwrap.example/pocket/worktop"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// bench is a table with sheets of 100 x 60 mm, scored upright at 50 mm, of 40 x 30
// and of 20 x 20 mm, and a piece that is none.
func bench(t *testing.T, copies int) *worktop.Bench {
	t.Helper()
	return worktop.New([]worktop.Workpiece{{Blank: sheetOf(t, size(100, 60), 50), Quantity: copies}, {Blank: sheetOf(t, size(40, 30)), Quantity: copies}, {Blank: sheetOf(t, size(20, 20)), Quantity: copies}, {}})
}

func laidOn(i int, base work.Base, x, y units.Length) work.Fix {
	return work.Fix{What: thing(i), Panel: work.All, On: base, At: work.At{X: x * mm, Y: y * mm, Across: score.Left, Along: score.Head}}
}

// Which copies there are, and which is meant.
func TestCopies(t *testing.T) {
	all := fold(50)
	all.What.Copy = work.All
	for _, n := range []int{0, 1} { // none is one
		b := bench(t, n)
		if !b.Do(all) || b.Heap(0, 0).AsCut() || b.Heap(0, work.All).AsCut() || !b.Heap(0, 1).Bounds().Empty() {
			t.Errorf("of %d copies the only one is not folded", n)
		}
	}
	b := bench(t, 2)
	b.Do(all)
	base := on(0, 1)
	base.Copy = work.All // the first
	second := laidOn(1, base, 5, 10)
	second.What.Copy = 1
	if !b.Do(second) {
		t.Fatal("it cannot be followed")
	}
	lies(t, b.Heap(0, 0), lain{0, rect(0, 0, 50, 60), score.Face}, lain{0, rect(0, 0, 50, 60), score.Back}, lain{1, rect(5, 10, 40, 30), score.Face})
	if len(b.Panel(1, 1, work.All)) != 1 || len(b.Panel(0, work.All, 0)) != 1 || b.Panel(0, 1, 0)[0].Rect() != rect(0, 0, 50, 60) {
		t.Error("a panel of a copy is not found")
	}
	if index, copy := b.Panel(1, 1, work.All)[0].Piece(); index != 1 || copy != 1 {
		t.Error("another copy is found")
	}
	if h := b.Heap(0, 0); h.Of(1, 1) != rect(5, 10, 40, 30) || h.Of(0, 0) != rect(0, 0, 50, 60) || !h.Of(1, 0).Empty() || !h.Of(0, 1).Empty() {
		t.Error("what lies flat of a piece is another rectangle")
	}
	if _, _, ok := b.Turning(work.All, fold(30)); !ok {
		t.Error("what turns of the first copy is not known")
	}
}

// What there is not is neither done nor looked into.
func TestNoSuchThing(t *testing.T) {
	for _, i := range []int{-1, 4, 1000} {
		b := bench(t, 1)
		none := work.Object{Kind: work.Piece, Index: i, Copy: work.All}
		a := fold(50)
		a.What = none
		if !b.Do(a, work.TurnOver{What: none}, work.Fix{What: none, On: on(0, work.All)}, work.Stick{What: thing(0), Area: rect(0, 0, 9, 9), To: on(i, work.All)}, work.Stick{What: thing(0), Area: rect(500, 0, 9, 9), To: on(0, work.All)}) {
			t.Errorf("%d: what moves nothing cannot be followed", i)
		}
		if !b.Heap(0, 0).AsCut() {
			t.Errorf("%d: something has moved", i)
		}
	}
	third := fold(50)
	third.What.Copy = 2
	missing := laidOn(1, on(0, 0), 5, 5)
	missing.What.Copy = 7
	base := on(0, 0)
	base.Copy = 7
	for name, list := range map[string][]work.Action{
		"a fold of a copy that there is not":    {third},
		"a fold where it is folded already":     {fold(50), fold(50)},
		"a copy laid that there is not":         {missing},
		"something laid on no copy":             {laidOn(1, base, 5, 5)},
		"something laid on no paper":            {laidOn(1, on(3, work.All), 5, 5)},
		"no paper laid on something":            {laidOn(3, on(0, work.All), 5, 5)},
		"no paper laid on a panel of something": {laidOn(3, on(0, 1), 5, 5)},
	} {
		b := bench(t, 1)
		if b.Do(list...) || b.Do(laidOn(2, on(1, work.All), 1, 1)) {
			t.Errorf("%s is followed", name)
		}
		if !b.Heap(2, 0).AsCut() || len(b.Panel(1, 0, work.All)) != 1 {
			t.Errorf("%s: something is done afterwards", name)
		}
	}
	h := bench(t, 1).Heap(0, 0)
	cut := h.Section(score.Upright, units.Point{})[0]
	empty := worktop.Heap{}
	if at, ok := empty.Fold(cut, cut, score.Upright); ok || at != 0 {
		t.Error("a fold of nothing")
	}
	two := bench(t, 1)
	two.Do(fold(50))
	far := two.Heap(0, 0).Section(score.Upright, units.Point{})[1]
	if at, ok := h.Fold(cut, far, score.Upright); ok || at != 0 {
		t.Error("a fold into a part that there is not")
	}
	for _, part := range []int{-1, 0, 1} {
		if at, ok := h.End(cut, part, score.Upright); ok || at != 0 {
			t.Errorf("a cut goes on in part %d", part)
		}
		if h.GoesOn(part, units.Point{X: 50 * mm, Y: 9 * mm}) {
			t.Errorf("part %d goes on", part)
		}
	}
	if way, stood := h.Wall(); stood || way != work.Towards {
		t.Error("something stands")
	}
}

// The table of limits in DEVELOPERS.md says 240: so many parts are followed, whether
// they come by folding or by laying heaps on each other, and none more.
func TestMostParts(t *testing.T) {
	const most = 240
	if worktop.MaxStretches != most {
		t.Errorf("at most %d parts", worktop.MaxStretches)
	}
	strip := func(parts int) *worktop.Bench {
		b := worktop.New([]worktop.Workpiece{{Blank: sheetOf(t, size(900, 20)), Quantity: 2}})
		for k, n := range []int{parts, most - parts} {
			for i := range n - 1 {
				a := fold(units.Length(899 - i))
				if a.What.Copy = k; !b.Do(a) {
					t.Fatalf("%d parts are not followed", i+2)
				}
			}
		}
		return b
	}
	b := strip(most - 1)
	for i, want := range []bool{true, false} {
		if _, _, ok := b.Turning(0, fold(units.Length(899-most+2-i))); ok != want {
			t.Errorf("%d parts would be followed: %t", most+i, ok)
		}
		b.Do(fold(units.Length(899 - most + 2)))
	}
	upper := laidOn(0, on(0, 0), 0, 0)
	upper.What.Copy = 1
	b = strip(121)
	if !b.Do(upper) {
		t.Errorf("%d parts in one heap are not followed", most)
	}
	if !b.Do(upper) { // what hangs together already becomes no more
		t.Error("what lies there already cannot be laid there")
	}
	b = strip(121)
	if b.Do(fold(500), upper) {
		t.Errorf("%d parts in one heap are followed", most+1)
	}
}

// A sheet of 100 x 60 mm is folded up and back at right angles along two lines 8 mm
// apart, whichever is folded first, along either axis and from either edge: the wall
// stands on the nearer line, the rest lies flat again beginning there.
func TestWallsAllWays(t *testing.T) {
	for name, c := range map[string]struct {
		axis        score.Axis
		moves       score.Edge
		near, far   units.Length
		stays, rest units.Rect
	}{
		"from the right": {score.Upright, score.Right, 50, 58, rect(0, 0, 50, 60), rect(8, 0, 42, 60)},
		"from the left":  {score.Upright, score.Left, 50, 42, rect(50, 0, 50, 60), rect(50, 0, 42, 60)},
		"from the tail":  {score.Level, score.Tail, 31, 39, rect(0, 0, 100, 31), rect(0, 10, 100, 21)},
		"from the head":  {score.Level, score.Head, 31, 23, rect(0, 31, 100, 29), rect(0, 31, 100, 23)},
	} {
		for _, order := range [][2]units.Length{{c.near, c.far}, {c.far, c.near}} {
			for _, way := range []work.Way{work.Towards, work.Away} {
				b := worktop.New([]worktop.Workpiece{{Blank: sheetOf(t, size(100, 60))}})
				for _, at := range order {
					if !b.Do(work.FoldAt{What: thing(0), Axis: c.axis, At: at * mm, Moves: c.moves, Way: way}) {
						t.Fatalf("%s: it cannot be followed", name)
					}
					if stood, ok := b.Heap(0, 0).Wall(); ok != (at == order[0]) || ok && stood != way {
						t.Errorf("%s: after the line at %v stands %v, %t", name, at, stood, ok)
					}
				}
				var flat []units.Rect
				h, standing := b.Heap(0, 0), 0
				for _, p := range h.Stretches() {
					if p.Stands() {
						standing++
						continue
					}
					if flat = append(flat, p.Rect()); p.Turned() != (p.Rect() == c.rest) {
						t.Errorf("%s: what lies at %v is turned: %t", name, p.Rect(), p.Turned())
					}
				}
				want := []units.Rect{c.stays, c.rest}
				if way == work.Away {
					want = []units.Rect{c.rest, c.stays}
				}
				if standing != 1 || len(flat) != 2 || flat[0] != want[0] || flat[1] != want[1] {
					t.Errorf("%s: %d stand; flat lie %v, want %v", name, standing, flat, want)
				}
			}
		}
	}
	// What stands covers nothing, though it would reach beyond the rest.
	b := worktop.New([]worktop.Workpiece{{Blank: sheetOf(t, size(100, 60))}, {Blank: sheetOf(t, size(20, 20))}})
	a := fold(30)
	a.Flat = false
	if !b.Do(laidOn(1, on(0, 0), 3, 4), a) {
		t.Fatal("it cannot be followed")
	}
	if h := b.Heap(0, 0); h.Bounds() != rect(0, 0, 30, 60) || h.Of(0, 0) != rect(0, 0, 30, 60) || h.Of(1, 0) != rect(3, 4, 20, 20) {
		t.Errorf("it covers %v", h.Bounds())
	}
}

// Lines that do not run from edge to edge, along either axis and of either side:
// what lies beyond them and beside their ends stays where it is, and where nothing
// is left of it there is no part.
func TestShortLinesAllWays(t *testing.T) {
	const nm = units.Nanometre
	for name, c := range map[string]struct {
		size     units.Size
		cuts     []units.Rect
		fold     work.FoldAt
		want     []lain
		from, to units.Point // of the fold
	}{
		"right, between two slits": {size(100, 60), []units.Rect{rect(50, 20, 50, 1), rect(50, 40, 50, 1)}, work.FoldAt{Axis: score.Upright, At: 50, From: 21, To: 40, Moves: score.Right},
			[]lain{{0, rect(0, 0, 50, 60), score.Face}, {0, rect(50, 0, 50, 20), score.Face}, {0, rect(50, 41, 50, 19), score.Face}, {0, rect(0, 21, 50, 19), score.Back}}, units.Point{X: 50, Y: 21}, units.Point{X: 50, Y: 40}},
		"left, up to a slit": {size(100, 60), []units.Rect{rect(0, 20, 40, 1)}, work.FoldAt{Axis: score.Upright, At: 40, To: 20, Moves: score.Left},
			[]lain{{0, rect(40, 0, 60, 60), score.Face}, {0, rect(0, 21, 40, 39), score.Face}, {0, rect(40, 0, 40, 20), score.Back}}, units.Point{X: 40}, units.Point{X: 40, Y: 20}},
		"tail, between two slits": {size(60, 100), []units.Rect{rect(20, 50, 1, 50), rect(40, 50, 1, 50)}, work.FoldAt{Axis: score.Level, At: 50, From: 21, To: 40, Moves: score.Tail},
			[]lain{{0, rect(0, 0, 60, 50), score.Face}, {0, rect(0, 50, 20, 50), score.Face}, {0, rect(41, 50, 19, 50), score.Face}, {0, rect(21, 0, 19, 50), score.Back}}, units.Point{X: 21, Y: 50}, units.Point{X: 40, Y: 50}},
		"head, up to a slit": {size(60, 100), []units.Rect{rect(20, 0, 1, 40)}, work.FoldAt{Axis: score.Level, At: 40, To: 20, Moves: score.Head},
			[]lain{{0, rect(0, 40, 60, 60), score.Face}, {0, rect(21, 0, 39, 40), score.Face}, {0, rect(0, 40, 20, 40), score.Back}}, units.Point{Y: 40}, units.Point{X: 20, Y: 40}},
		"right, nothing beside it": {size(100, 60), []units.Rect{rect(50, 0, 50, 20)}, work.FoldAt{Axis: score.Upright, At: 50, From: 20, To: 60, Moves: score.Right},
			[]lain{{0, rect(0, 0, 50, 60), score.Face}, {0, rect(0, 20, 50, 40), score.Back}}, units.Point{X: 50, Y: 20}, units.Point{X: 50, Y: 60}},
		"a tongue past the middle": {size(100, 60), []units.Rect{rect(50, 0, 50, 40)}, work.FoldAt{Axis: score.Upright, At: 50, From: 40, To: 60, Moves: score.Right},
			[]lain{{0, rect(0, 0, 50, 60), score.Face}, {0, rect(0, 40, 50, 20), score.Back}}, units.Point{X: 50, Y: 40}, units.Point{X: 50, Y: 60}},
	} {
		d := score.Draft{Size: c.size}
		for _, r := range c.cuts {
			d.CutOuts = append(d.CutOuts, score.CutOut{Area: r})
		}
		blank, err := score.NewBlank(d)
		if err != nil {
			t.Fatal(name, err)
		}
		a := c.fold
		a.At, a.From, a.To, a.Flat = a.At*mm, a.From*mm, a.To*mm, true
		b := worktop.New([]worktop.Workpiece{{Blank: blank}})
		if !b.Do(a) {
			t.Errorf("%s: it cannot be followed", name)
			continue
		}
		h := b.Heap(0, 0)
		t.Run(name, func(t *testing.T) { lies(t, h, c.want...) })
		// The turned part and what stays are joined by the fold, along all of it.
		last := len(c.want) - 1
		for i, p := range h.Stretches() {
			if i == last {
				from, to, ok := p.EdgeOn(a.Axis, a.At)
				if !ok || from != (units.Point{X: c.from.X * mm, Y: c.from.Y * mm}) || to != (units.Point{X: c.to.X * mm, Y: c.to.Y * mm}) {
					t.Errorf("%s: the fold runs from %v to %v, %t", name, from, to, ok)
				}
			}
			if _, _, ok := p.EdgeOn(a.Axis, a.At+nm); ok {
				t.Errorf("%s: part %d has an edge where it has none", name, i)
			}
		}
		through := units.Point{X: (c.from.X + c.to.X) * mm / 2, Y: (c.from.Y + c.to.Y) * mm / 2}
		cuts := h.Section(a.Axis, through)
		top, joined := cuts[len(cuts)-1], 0
		for _, low := range cuts[:len(cuts)-1] {
			if at, ok := h.Fold(low, top, a.Axis); ok {
				if joined++; at != a.At {
					t.Errorf("%s: they are joined at %v", name, at)
				}
			}
		}
		if joined != 1 {
			t.Errorf("%s: the turned part is joined to %d", name, joined)
		}
	}
	// One nanometre of a line is a line.
	b := worktop.New([]worktop.Workpiece{{Blank: sheetOf(t, size(100, 60))}})
	tiny := fold(50)
	tiny.To = nm
	if !b.Do(tiny) {
		t.Fatal("it cannot be followed")
	}
	lies(t, b.Heap(0, 0), lain{0, rect(0, 0, 50, 60), score.Face}, lain{0, units.Rect{Min: units.Point{X: 50 * mm, Y: nm}, Max: units.Point{X: 100 * mm, Y: 60 * mm}}, score.Face},
		lain{0, units.Rect{Max: units.Point{X: 50 * mm, Y: nm}}, score.Back})
}

// A leg that a cut parts from the rest of what turns is not followed; what was glued
// to it stays, and everything else goes on.
func TestPartedLeg(t *testing.T) {
	blank, err := score.NewBlank(score.Draft{Size: size(100, 60), CutOuts: []score.CutOut{{Area: rect(30, 20, 20, 40)}}})
	if err != nil {
		t.Fatal(err)
	}
	b := worktop.New([]worktop.Workpiece{{Blank: blank}, {Blank: sheetOf(t, size(20, 20))}})
	up := work.FoldAt{What: thing(0), Axis: score.Level, At: 20 * mm, Moves: score.Tail, Flat: true}
	if !b.Do(laidOn(1, on(0, work.All), 5, 30), up, work.TurnOver{What: thing(0)}) {
		t.Fatal("it cannot be followed")
	}
	across := fold(80)
	across.Way = work.Away
	if !b.Do(across) {
		t.Error("a fold of the rest cannot be followed")
	}
}

// What is glued to what is glued to what turns, turns too, whichever was glued first.
func TestGluedInARow(t *testing.T) {
	b := bench(t, 1)
	if !b.Do(laidOn(2, on(1, work.All), 3, 4), laidOn(1, on(0, 1), 5, 10), fold(50)) {
		t.Fatal("it cannot be followed")
	}
	lies(t, b.Heap(2, 0), lain{0, rect(0, 0, 50, 60), score.Face}, lain{2, rect(22, 14, 20, 20), score.Back}, lain{1, rect(5, 10, 40, 30), score.Back}, lain{0, rect(0, 0, 50, 60), score.Back})
	// It is laid on another sheet now, the sheet's back up: it is turned over as a whole.
	other := worktop.New([]worktop.Workpiece{{Blank: sheetOf(t, size(100, 60), 50)}, {Blank: sheetOf(t, size(40, 30))}, {Blank: sheetOf(t, size(300, 200))}})
	down := laidOn(1, on(2, work.All), 7, 9)
	if !other.Do(laidOn(1, on(0, 1), 5, 10), fold(50), down) { // every part of the card is turned
		t.Fatal("it cannot be followed")
	}
	lies(t, other.Heap(2, 0), lain{2, rect(0, 0, 300, 200), score.Face}, lain{0, rect(2, -1, 50, 60), score.Face}, lain{1, rect(7, 9, 40, 30), score.Face}, lain{0, rect(2, -1, 50, 60), score.Back})
}

// A card that is glued to nothing is glued afterwards, by a strip of its drawing, to
// a copy of another one under it that is glued to what turns: then it turns with
// them, else not, nor when it is its upper side that takes the glue, over which nothing
// lies. The strip's middle lies on that copy, though its ends do not.
func TestGluedAfterwards(t *testing.T) {
	for _, c := range []struct {
		copy, to int
		by       score.Side
		turns    bool
	}{{0, 0, score.Back, true}, {0, work.All, score.Back, true}, {1, 1, score.Back, true}, {1, 0, score.Back, false}, {0, 1, score.Back, false}, {0, 0, score.Face, false}} {
		b := worktop.New([]worktop.Workpiece{{Blank: sheetOf(t, size(100, 60), 50)}, {Blank: sheetOf(t, size(30, 10)), Quantity: 2}, {Blank: sheetOf(t, size(80, 50))}})
		low := laidOn(1, on(0, 1), 5, 3)
		low.What.Copy = c.copy
		loose := laidOn(2, on(0, work.All), -10, 0)
		loose.Areas = []units.Rect{rect(0, 0, 5, 5)} // over nothing
		stick := work.Stick{What: thing(2), Area: rect(60, 5, 18, 4), Side: c.by, To: on(1, work.All)}
		stick.To.Copy = c.to
		if !b.Do(low, loose, stick, fold(50)) {
			t.Fatal("it cannot be followed")
		}
		want, side := rect(-10, 0, 80, 50), score.Face
		if c.turns {
			want, side = rect(30, 0, 80, 50), score.Back
		}
		got := b.Panel(2, 0, work.All)[0]
		if got.Rect() != want || got.Lies().Up() != side {
			t.Errorf("copy %d, glued to %d by its %v: it lies at %v with its %v up", c.copy, c.to, c.by, got.Rect(), got.Lies().Up())
		}
	}
}

// What is laid on a panel comes over all that lies no higher than the panel, and
// under what lies higher, also where it reaches beyond the panel.
func TestHeightOfWhatIsLaid(t *testing.T) {
	strip := sheetOf(t, size(90, 40), 30, 60)
	card := sheetOf(t, size(20, 20))
	pieces := []worktop.Workpiece{{Blank: strip}, {Blank: card}, {Blank: card}, {Blank: card}, {Blank: card}}
	b := worktop.New(pieces)
	// The last panel lies on the second, and the card reaches over it from the first.
	if !b.Do(fold(60), laidOn(1, on(0, 0), 20, 5)) {
		t.Fatal("it cannot be followed")
	}
	lies(t, b.Heap(0, 0), lain{0, rect(0, 0, 60, 40), score.Face}, lain{1, rect(20, 5, 20, 20), score.Face}, lain{0, rect(30, 0, 30, 40), score.Back})
	// The first panel lies on the second; on the third one card and on that another;
	// on the head of the third a fourth. The last is laid on the first panel, which lies
	// as high as the cards on the third, and reaches over them: under the second card.
	left := fold(30)
	left.Moves = score.Left
	b = worktop.New(pieces)
	if !b.Do(left, laidOn(1, on(0, 2), 2, 0), laidOn(2, on(1, work.All), 1, 0), laidOn(3, on(0, 2), 8, 20)) {
		t.Fatal("it cannot be followed")
	}
	last := laidOn(4, on(0, 0), 15, 10)
	if !b.Do(last) {
		t.Fatal("it cannot be followed")
	}
	var order []int
	for _, p := range b.Heap(0, 0).Stretches() {
		i, _ := p.Piece()
		order = append(order, i)
	}
	place := func(piece int) int {
		for i, p := range order {
			if p == piece {
				return i
			}
		}
		return -1
	}
	if len(order) != 6 || place(4) < place(1) || place(4) > place(2) {
		t.Errorf("from the lowest up lie %v", order)
	}
	// The first 20 mm lie folded on the first panel, and the last panel on it beside
	// them: what is laid on the panel comes under the last panel, which was folded over it.
	b = worktop.New([]worktop.Workpiece{{Blank: sheetOf(t, size(80, 40), 60)}, {Blank: card}})
	first := fold(20)
	first.Moves = score.Left
	if !b.Do(first, fold(60), laidOn(1, on(0, 0), 30, 5)) {
		t.Fatal("it cannot be followed")
	}
	order = order[:0]
	for _, p := range b.Heap(0, 0).Stretches() {
		i, _ := p.Piece()
		order = append(order, i)
	}
	if len(order) != 4 || order[3] != 0 || order[2] != 1 {
		t.Errorf("from the lowest up lie %v", order)
	}
}

// A part goes on in the first one at just the points of squared paper by which the
// corners of that one are joined.
func TestGoesOnAtSlants(t *testing.T) {
	const u = 10_007 * units.Nanometre
	at := func(x, y units.Length) units.Point { return units.Point{X: x * u, Y: y * u} }
	s := units.Size{W: 24 * u, H: 18 * u}
	blank, err := score.NewBlank(score.Draft{Size: s, CutOuts: []score.CutOut{{Area: units.Rect{Min: at(12, 9), Max: at(24, 10)}}},
		Slants: []score.Slant{{Corner: score.HeadLeft, Along: 6 * u, Down: 4 * u}, {Corner: score.TailLeft, Along: 3 * u, Down: 6 * u}}})
	if err != nil {
		t.Fatal(err)
	}
	b := worktop.New([]worktop.Workpiece{{Blank: blank}})
	if !b.Do(work.FoldAt{What: thing(0), Axis: score.Upright, At: 12 * u, From: 10 * u, To: 18 * u, Moves: score.Right, Flat: true}) {
		t.Fatal("it cannot be followed")
	}
	h := b.Heap(0, 0)
	outline := map[units.Point]bool{}
	corners := []units.Point{{X: 6}, {X: 12}, {X: 12, Y: 18}, {X: 3, Y: 18}, {Y: 12}, {Y: 4}}
	for i, a := range corners {
		z := corners[(i+1)%len(corners)]
		n := gcd(int(z.X-a.X), int(z.Y-a.Y))
		for k := range n + 1 {
			outline[units.Point{X: a.X + (z.X-a.X)/units.Length(n)*units.Length(k), Y: a.Y + (z.Y-a.Y)/units.Length(n)*units.Length(k)}] = true
		}
	}
	for x := units.Length(-2); x < 28; x++ {
		for y := units.Length(-2); y < 22; y++ {
			if q := (units.Point{X: x, Y: y}); h.GoesOn(1, at(x, y)) != outline[q] {
				t.Errorf("at %d, %d it goes on: %t", x, y, !outline[q])
			}
		}
	}
}

func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return max(a, -a)
}

// An outline, an opening and an edge with a gap in it are told as drawn, and lie
// where their points do.
func TestToldOnTheDrawing(t *testing.T) {
	blank, err := score.NewBlank(score.Draft{Size: size(100, 60), Notches: []score.Notch{{Edge: score.Right, Middle: 20 * mm, Width: 10 * mm, Depth: 7 * mm}, {Edge: score.Tail, Middle: 80 * mm, Width: 6 * mm, Depth: 5 * mm}},
		CutOuts: []score.CutOut{{Area: rect(62, 31, 10, 6)}}})
	if err != nil {
		t.Fatal(err)
	}
	b := worktop.New([]worktop.Workpiece{{Blank: blank}})
	level := work.FoldAt{What: thing(0), Axis: score.Level, At: 9 * mm, Moves: score.Head, Flat: true}
	if !b.Do(fold(50), level) {
		t.Fatal("it cannot be followed")
	}
	found := 0
	for _, p := range b.Heap(0, 0).Stretches() {
		if p.Area() != rect(50, 9, 50, 51) {
			continue
		}
		found++
		edge, holes := p.Outline()
		if len(holes) != 1 || holes[0].Bounds() != rect(62, 31, 10, 6) || edge.Bounds() != p.Area() {
			t.Errorf("outline %v, openings %v", edge, holes)
		}
		for _, c := range []struct {
			axis     score.Axis
			at       units.Length
			from, to units.Point
		}{
			{score.Upright, 100, units.Point{X: 100, Y: 9}, units.Point{X: 100, Y: 60}},
			{score.Level, 60, units.Point{X: 50, Y: 60}, units.Point{X: 100, Y: 60}},
			{score.Upright, 50, units.Point{X: 50, Y: 9}, units.Point{X: 50, Y: 60}},
			{score.Level, 9, units.Point{X: 50, Y: 9}, units.Point{X: 100, Y: 9}},
			{score.Upright, 93, units.Point{X: 93, Y: 15}, units.Point{X: 93, Y: 25}},
		} {
			from, to, ok := p.EdgeOn(c.axis, c.at*mm)
			if !ok || from != (units.Point{X: c.from.X * mm, Y: c.from.Y * mm}) || to != (units.Point{X: c.to.X * mm, Y: c.to.Y * mm}) {
				t.Errorf("the edge on %v at %d mm runs from %v to %v, %t", c.axis, c.at, from, to, ok)
			}
		}
		there := p.Lies().Polygon(edge)
		if there.Len() != edge.Len() {
			t.Fatalf("%d corners; want %d", there.Len(), edge.Len())
		}
		if there.Bounds() != p.Rect() || there.DoubleArea().Compare(edge.DoubleArea()) != 0 {
			t.Errorf("the outline lies at %v; want %v", there.Bounds(), p.Rect())
		}
		for _, corner := range edge.Corners() {
			q, met := p.Lies().Point(corner), false
			for _, c := range there.Corners() {
				met = met || c == q
			}
			if !met {
				t.Errorf("no corner lies at %v", q)
			}
		}
	}
	if found != 1 {
		t.Errorf("the part is there %d times", found)
	}
}
