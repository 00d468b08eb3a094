package worktop_test

import (
	"testing"

	"boardwrap.example/pocket/work"
	"boardwrap.example/pocket/worktop"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

func size(w, h units.Length) units.Size { return units.Size{W: w * mm, H: h * mm} }

func rect(x, y, w, h units.Length) units.Rect {
	return units.RectAt(units.Point{X: x * mm, Y: y * mm}, size(w, h))
}

// sheetOf is a sheet with upright lines, all of them valleys.
func sheetOf(t *testing.T, s units.Size, at ...units.Length) score.Blank {
	t.Helper()
	d := score.Draft{Size: s}
	for _, x := range at {
		d.Lines = append(d.Lines, score.Line{Axis: score.Upright, At: x * mm, To: s.H})
	}
	b, err := score.NewBlank(d)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func thing(i int) work.Object   { return work.Object{Kind: work.Piece, Index: i} }
func on(i, panel int) work.Base { return work.Base{Kind: work.OnPiece, Index: i, Panel: panel} }
func fold(at units.Length) work.FoldAt {
	return work.FoldAt{What: thing(0), Axis: score.Upright, At: at * mm, Moves: score.Right, Way: work.Towards, Flat: true}
}

// lain is where a part must lie, told from the lowest up.
type lain struct {
	piece int
	at    units.Rect
	up    score.Side
}

func lies(t *testing.T, h worktop.Heap, want ...lain) {
	t.Helper()
	n := 0
	for i, p := range h.Stretches() {
		piece, _ := p.Piece()
		if got := (lain{piece, p.Rect(), p.Lies().Up()}); i >= len(want) || got != want[i] {
			t.Errorf("part %d lies %v", i, got)
		}
		n++
	}
	if n != len(want) {
		t.Errorf("%d parts; want %d", n, len(want))
	}
}

// A card of 40 x 30 mm is laid on the right panel of a sheet of 100 x 60 mm, 5 mm in
// from its left and 10 mm from its head, and folded in with it about x = 50 mm: it
// turns with the panel, and comes to lie under it, on the other.
func TestWhatIsStuckTurnsToo(t *testing.T) {
	table := worktop.New([]worktop.Workpiece{{Blank: sheetOf(t, size(100, 60), 50), Quantity: 1}, {Blank: sheetOf(t, size(40, 30)), Quantity: 2}})
	fix := work.Fix{What: thing(1), Panel: work.All, On: on(0, 1), At: work.At{X: 5 * mm, Y: 10 * mm, Across: score.Left, Along: score.Head}, Size: size(40, 30)}
	if !table.Do(fix) {
		t.Fatal("it cannot be followed")
	}
	lies(t, table.Heap(0, 0), lain{0, rect(0, 0, 100, 60), score.Face}, lain{1, rect(55, 10, 40, 30), score.Face})
	if !table.Do(fold(50)) {
		t.Fatal("the fold cannot be followed")
	}
	lies(t, table.Heap(1, 0),
		lain{0, rect(0, 0, 50, 60), score.Face}, lain{1, rect(5, 10, 40, 30), score.Back}, lain{0, rect(0, 0, 50, 60), score.Back})
	// The other copy still lies by itself, and goes on top, turned a quarter.
	if h := table.Heap(1, 1); !h.AsCut() {
		t.Error("the second card has moved")
	}
	second := fix
	second.What.Copy, second.On.Panel, second.Quarters = 1, work.All, 1
	second.At, second.Size = work.At{X: 2 * mm, Y: 3 * mm, Across: score.Right, Along: score.Tail}, size(30, 40)
	if !table.Do(second, work.TurnOver{What: thing(0)}) {
		t.Fatal("it cannot be followed")
	}
	lies(t, table.Heap(0, 0),
		lain{1, rect(2, 17, 30, 40), score.Back}, lain{0, rect(0, 0, 50, 60), score.Face}, lain{1, rect(5, 10, 40, 30), score.Face}, lain{0, rect(0, 0, 50, 60), score.Back})
}

// A flap is folded down over what was put on a panel, and glued to it: then both
// turn with the panel.
func TestStuckFlap(t *testing.T) {
	table := worktop.New([]worktop.Workpiece{{Blank: sheetOf(t, size(90, 40), 30, 60), Quantity: 1}, {Blank: sheetOf(t, size(20, 20)), Quantity: 1}})
	put := work.Fix{What: thing(1), Panel: work.All, On: on(0, 1), At: work.At{X: 5 * mm, Y: 5 * mm, Across: score.Left, Along: score.Head}, Size: size(20, 20)}
	stick := work.Stick{What: thing(0), Area: rect(60, 0, 30, 40), To: on(1, work.All)}
	if !table.Do(put, fold(60), stick) {
		t.Fatal("it cannot be followed")
	}
	lies(t, table.Heap(0, 0), lain{0, rect(0, 0, 60, 40), score.Face}, lain{1, rect(35, 5, 20, 20), score.Face}, lain{0, rect(30, 0, 30, 40), score.Back})
	back := fold(30)
	back.Way = work.Away
	if !table.Do(back) {
		t.Fatal("the fold cannot be followed")
	}
	lies(t, table.Heap(1, 0),
		lain{0, rect(0, 0, 30, 40), score.Face}, lain{1, rect(5, 5, 20, 20), score.Back}, lain{0, rect(0, 0, 30, 40), score.Back}, lain{0, rect(0, 0, 30, 40), score.Face})
}

// What is laid on a panel on which something lies folded comes between them; all
// copies of a piece are done alike.
func TestBetweenLayers(t *testing.T) {
	table := worktop.New([]worktop.Workpiece{{Blank: sheetOf(t, size(90, 40), 30), Quantity: 2}, {Blank: sheetOf(t, size(20, 20)), Quantity: 1}})
	all := fold(30)
	all.What.Copy = work.All
	put := work.Fix{What: thing(1), Panel: work.All, On: on(0, 0), At: work.At{X: 5 * mm, Y: 5 * mm, Across: score.Left, Along: score.Head}, Size: size(20, 20)}
	if !table.Do(all, put) {
		t.Fatal("it cannot be followed")
	}
	lies(t, table.Heap(1, 0), lain{0, rect(0, 0, 30, 40), score.Face}, lain{1, rect(5, 5, 20, 20), score.Face}, lain{0, rect(-30, 0, 60, 40), score.Back})
	lies(t, table.Heap(0, 1), lain{0, rect(0, 0, 30, 40), score.Face}, lain{0, rect(-30, 0, 60, 40), score.Back})
	if got := table.Panel(0, 0, 1); len(got) != 1 || got[0].Area() != rect(30, 0, 60, 40) {
		t.Errorf("the second panel is %v", got)
	}
	if table.Heap(0, 2).Bounds() != (units.Rect{}) || table.Panel(9, 0, 0) != nil {
		t.Error("there are more pieces than there are")
	}
}

// Two folds at right angles, at 50 and 58 mm: the wall between them stands, and the
// rest of 42 mm lies flat again beginning at the nearer one.
func TestWall(t *testing.T) {
	table := worktop.New([]worktop.Workpiece{{Blank: sheetOf(t, size(100, 60), 50, 58), Quantity: 1}})
	first, second := fold(50), fold(58)
	first.Flat, second.Flat = false, false
	if !table.Do(first) {
		t.Fatal("it cannot be followed")
	}
	// A clone goes on by itself: on the first table the wall still stands.
	clone, still := table.Clone(), table.Clone()
	if !table.Do(second) {
		t.Fatal("it cannot be followed")
	}
	for name, one := range map[string]*worktop.Bench{"clone": clone, "clone of a clone": still.Clone()} {
		if way, stands := one.Heap(0, 0).Wall(); !stands || way != work.Towards {
			t.Errorf("%s: nothing stands", name)
		}
		if !one.Do(second) {
			t.Fatalf("%s: it cannot be followed", name)
		}
		wallIsLaidDown(t, one.Heap(0, 0))
	}
	if _, stands := still.Heap(0, 0).Wall(); !stands {
		t.Error("nothing stands where nothing was done")
	}
	wallIsLaidDown(t, table.Heap(0, 0))
}

func wallIsLaidDown(t *testing.T, h worktop.Heap) {
	t.Helper()
	if _, stands := h.Wall(); stands {
		t.Error("the wall is to be laid down")
	}
	upright := 0
	var flat []units.Rect
	for _, p := range h.Stretches() {
		if p.Stands() {
			upright++
			continue
		}
		flat = append(flat, p.Rect())
	}
	if upright != 1 || len(flat) != 2 || flat[0] != rect(0, 0, 50, 60) || flat[1] != rect(8, 0, 42, 60) {
		t.Errorf("%d stand, flat lie %v", upright, flat)
	}
	cuts := h.Section(score.Upright, units.Point{Y: 30 * mm})
	if len(cuts) != 2 || cuts[0].Level() != 0 || cuts[1].Level() != 1 {
		t.Errorf("the section is %v", cuts)
	}
	for i, p := range h.Stretches() {
		if !p.Stands() {
			continue
		}
		for k, want := range [...]units.Length{50 * mm, 50 * mm} {
			if at, ok := h.End(cuts[k], i, score.Upright); !ok || at != want {
				t.Errorf("cut %d goes on at %v, %t", k, at, ok)
			}
		}
	}
}

// A round hole of 20 mm through a fold is a recess of both parts; the fold runs
// from edge to edge, beside it.
func TestHoleThroughAFold(t *testing.T) {
	b, err := score.NewBlank(score.Draft{Size: size(100, 60), Lines: []score.Line{{Axis: score.Upright, At: 50 * mm, To: 60 * mm}},
		CutOuts: []score.CutOut{{Area: rect(40, 20, 20, 20), Radius: 10 * mm}, {Area: rect(5, 5, 10, 10)}}})
	if err != nil {
		t.Fatal(err)
	}
	table := worktop.New([]worktop.Workpiece{{Blank: b, Quantity: 1}})
	if !table.Do(fold(50)) {
		t.Fatal("it cannot be followed")
	}
	h := table.Heap(0, 0)
	openings := 0
	for i, p := range h.Stretches() {
		edge, holes := p.Outline()
		openings += len(holes)
		for _, x := range [...]units.Length{45, 55} {
			if edge.Contains(units.Point{X: x * mm, Y: 30 * mm}) {
				t.Errorf("part %d has paper in the hole", i)
			}
		}
		from, to, ok := p.EdgeOn(score.Upright, 50*mm)
		if !ok || from != (units.Point{X: 50 * mm}) || to != (units.Point{X: 50 * mm, Y: 60 * mm}) {
			t.Errorf("the fold runs from %v to %v", from, to)
		}
		if h.GoesOn(i, units.Point{X: 50 * mm, Y: 10 * mm}) || p.Turned() != (i == 1) {
			t.Errorf("part %d lies flat with the other", i)
		}
	}
	if openings != 1 {
		t.Errorf("%d openings", openings)
	}
	cuts := h.Section(score.Upright, units.Point{Y: 10 * mm})
	if at, ok := h.Fold(cuts[0], cuts[1], score.Upright); !ok || at != 50*mm {
		t.Errorf("they are joined at %v, %t", at, ok)
	}
}

// Only a part of the sheet turns where a line does not run from edge to edge.
func TestShortLine(t *testing.T) {
	b, err := score.NewBlank(score.Draft{Size: size(100, 60), CutOuts: []score.CutOut{{Area: rect(50, 20, 50, 1)}},
		Lines: []score.Line{{Axis: score.Upright, At: 50 * mm, From: 21 * mm, To: 60 * mm}}})
	if err != nil {
		t.Fatal(err)
	}
	table := worktop.New([]worktop.Workpiece{{Blank: b, Quantity: 1}})
	a := fold(50)
	a.From, a.To = 21*mm, 60*mm
	if !table.Do(a) {
		t.Fatal("it cannot be followed")
	}
	h := table.Heap(0, 0)
	lies(t, h, lain{0, rect(0, 0, 50, 60), score.Face}, lain{0, rect(50, 0, 50, 20), score.Face}, lain{0, rect(0, 21, 50, 39), score.Back})
	if !h.GoesOn(0, units.Point{X: 50 * mm, Y: 10 * mm}) || h.GoesOn(0, units.Point{X: 50 * mm, Y: 40 * mm}) {
		t.Error("it goes on where it is folded, or does not where it is not")
	}
}

// What cannot be followed is said, then and from then on.
func TestLost(t *testing.T) {
	holed, err := score.NewBlank(score.Draft{Size: size(100, 60), CutOuts: []score.CutOut{{Area: rect(40, 0, 20, 50)}}})
	if err != nil {
		t.Fatal(err)
	}
	level := fold(55)
	level.Axis, level.Moves, level.Flat = score.Level, score.Tail, false
	stood := fold(20)
	stood.Flat = false
	for name, list := range map[string][]work.Action{
		"a fold in the air":        {fold(120)},
		"no such piece":            {work.FoldAt{What: thing(7), Flat: true}, fold(10), work.Fix{What: thing(0), On: on(7, work.All)}},
		"nothing of it":            {work.FoldAt{What: thing(1), At: mm, Flat: true}},
		"walls that run crosswise": {stood, level},
		"no such base":             {work.Fix{What: thing(0), Panel: work.All, On: on(9, work.All)}},
		"no such copy":             {work.Stick{What: work.Object{Kind: work.Piece, Copy: 3}, To: on(0, 0)}},
	} {
		table := worktop.New([]worktop.Workpiece{{Blank: holed, Quantity: 1}, {}})
		if table.Do(list...) || table.Do() {
			t.Errorf("%s is followed", name)
		}
	}
	wide := sheetOf(t, size(900, 20))
	table := worktop.New([]worktop.Workpiece{{Blank: wide, Quantity: 1}})
	n := 0
	for ; n < 2*worktop.MaxStretches && table.Do(fold(units.Length(899-n))); n++ {
	}
	if n != worktop.MaxStretches-1 {
		t.Errorf("%d folds are followed; want one less than there may be parts", n)
	}
	// Of more copies than are followed the first ones are, however many there are.
	for _, copies := range []int{worktop.MaxStretches, worktop.MaxStretches + 1, 10 * worktop.MaxStretches, 1<<31 - 1} {
		table := worktop.New([]worktop.Workpiece{{Blank: sheetOf(t, size(100, 60), 50), Quantity: copies}})
		all := fold(50)
		all.What.Copy = work.All
		if !table.Do(all) {
			t.Errorf("%d copies cannot be followed", copies)
		}
		for i, folded := range map[int]bool{0: true, worktop.MaxStretches - 1: true, worktop.MaxStretches: false, copies - 1: copies == worktop.MaxStretches} {
			if h := table.Heap(0, i); i < copies && h.AsCut() == folded {
				t.Errorf("of %d copies the %dth is folded: %v", copies, i+1, !folded)
			}
		}
	}
	if h := worktop.New(nil).Heap(0, 0); !h.Bounds().Empty() || h.AsCut() {
		t.Error("there is something on an empty table")
	}
}

// A strip of 30, 8, 52 and 30 mm whose last panel lies folded over the one before: a
// crease at 38 mm would turn the first two panels, one at 30 mm the first alone, and
// neither the two layers.
func TestTurning(t *testing.T) {
	table := worktop.New([]worktop.Workpiece{{Blank: sheetOf(t, size(120, 40), 30, 38, 90), Quantity: 1}})
	if !table.Do(fold(90)) {
		t.Fatal("it cannot be followed")
	}
	outer, inner := fold(30), fold(38)
	outer.Moves, inner.Moves = score.Left, score.Left
	h, turns, ok := table.Turning(0, outer, inner)
	if !ok || len(turns) != 2 {
		t.Fatal(turns, ok)
	}
	for i, p := range h.Stretches() {
		left := p.Rect().Min.X
		if turns[0][i] != (left < 30*mm) || turns[1][i] != (left < 38*mm) {
			t.Errorf("what lies at %v is turned: %t and %t", p.Rect(), turns[0][i], turns[1][i])
		}
	}
	lies(t, h, lain{0, rect(38, 0, 52, 40), score.Face}, lain{0, rect(30, 0, 8, 40), score.Face}, lain{0, rect(0, 0, 30, 40), score.Face}, lain{0, rect(60, 0, 30, 40), score.Back})
	lies(t, table.Heap(0, 0), lain{0, rect(0, 0, 90, 40), score.Face}, lain{0, rect(60, 0, 30, 40), score.Back})
	other := outer
	other.What.Index = 3
	for _, list := range [][]work.FoldAt{nil, {other}, {outer, other}, {fold(200)}} {
		if _, _, ok := table.Turning(0, list...); ok {
			t.Errorf("%v would turn something", list)
		}
	}
}
