package guide

import (
	"bytes"
	"fmt"
	"math/rand"
	"runtime"
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/pocket/worktop"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

func planOf(t *testing.T, fittings ...folio.Fitting) *folio.Plan {
	t.Helper()
	mm := units.Millimetre
	p, err := folio.Build(folio.Spec{
		Cover: units.Size{W: 1000 * mm, H: 1000 * mm}, Spine: rule.Spine{Width: 100 * mm},
		Rulers: rule.Rulers{Main: units.WholeMillimetres}, Fittings: fittings,
	})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func runOf(pockets int) folio.Fitting {
	card := pocket.Content{Name: "ticket", Size: units.MustParseSize("86 x 54 mm"), Thickness: units.Millimetre / 100}
	return folio.Fitting{Name: "tickets", Panel: boards.LeftCover, Kind: folio.Folded{Kind: pocket.GussetRun{Content: card, Pockets: pockets}}}
}

// What is on the table has no more scores than can be told apart, how many more there
// are is said, and the section through it is as long as it is however many panels it has.
func TestManyScoresOnTheTable(t *testing.T) {
	for _, pockets := range []int{2, mostDrawn/2 - 1, mostDrawn / 2, mostDrawn} {
		w := newWorkshop(planOf(t, runOf(pockets)))
		i := slices.IndexFunc(w.pieces, func(p folio.Piece) bool { return p.Name() == "foot gusset run" })
		b, ok := w.pieces[i].Blank()
		if !ok {
			t.Fatal("no blank")
		}
		scores := 0
		for range b.Lines() {
			scores++
		}
		h := worktop.New(w.blanks()).Heap(i, 0)
		f := newFigure(trueScale())
		f.heap(w, subject{}, h, func(worktop.Stretch) lineKind { return there })
		drawn := 0
		for _, l := range f.lines {
			if l.kind == valley || l.kind == mountain {
				drawn++
			}
		}
		want := []string(nil)
		if left := scores - mostDrawn; left > 0 {
			want = []string{"and " + plural(left, "score") + " more"}
		}
		if scores < 2*pockets || drawn != min(scores, mostDrawn) || !slices.Equal(f.says, want) {
			t.Errorf("%d pockets: %d of %d scores are drawn, said %q", pockets, drawn, scores, f.says)
		}
		f = newFigure(trueScale())
		f.cutThrough(w, h, score.Upright, middleOf(h.Bounds()), false)
		long, lines := units.Length(0), 0
		for _, l := range f.lines {
			if l.kind == outline {
				long += l.pts[1].X - l.pts[0].X
				lines++
			}
		}
		if long != b.Size().W || lines != min(scores+1, mostDrawn+1) {
			t.Errorf("%d pockets: a section of %d lines is %v long, the strip %v", pockets, lines, long, b.Size().W)
		}
	}
}

// The topmost of a high stack are drawn, and that others are left out is said.
func TestHighStack(t *testing.T) {
	for _, n := range []int{MostDrawn, MostDrawn + 1, 3 * MostDrawn} {
		var list []folio.Fitting
		for i := range n {
			side := units.Length(900-i) * units.Millimetre
			f := folio.Fitting{Name: fmt.Sprintf("medal %d", i), Panel: boards.LeftCover, Kind: folio.Ornament{Size: units.Size{W: side, H: side}, Thickness: units.Millimetre / 10}}
			if i > 0 {
				f.Panel, f.StandsOn = boards.MainPanel, list[i-1].Name
			}
			list = append(list, f)
		}
		p := planOf(t, list...)
		all := slices.Collect(p.Steps())
		for k := len(all) - 1; ; k-- {
			if all[k].For.Index != n-1 || all[k].For.Name != list[n-1].Name {
				continue
			}
			pic, ok := Steps{p, all, newWorkshop(p)}.draw(k, Options{}, new(tabletop))
			svg := pic.AppendSVG(nil)
			drawn := 0
			for i := range n {
				is := bytes.Contains(svg, fmt.Appendf(nil, `data-fitting="%d"`, i))
				if is != (i >= n-MostDrawn) {
					t.Errorf("%d in a stack: number %d is drawn: %t", n, i, is)
				}
				if is {
					drawn++
				}
			}
			if said := bytes.Contains(svg, []byte("other fittings are left out")); !ok || drawn != MostDrawn || said != (n > MostDrawn) {
				t.Errorf("%d in a stack: %d are drawn; that others are left out is said: %t", n, drawn, said)
			}
			break
		}
	}
}

// A step is drawn as by itself whatever steps were drawn before it, in whichever order.
func TestStepsGoOnFromTheTable(t *testing.T) {
	p := planOf(t, runOf(3), folio.Fitting{Name: "strip", Panel: boards.RightCover, Kind: folio.Folded{Kind: pocket.FoldedStrip{Content: pocket.IDCard()}}})
	all := slices.Collect(p.Steps())
	order := make([]int, 0, 2*len(all))
	for i := range all {
		order = append(order, i)
	}
	for i := range all {
		order = append(order, len(all)-1-i)
	}
	alone := make([][]byte, len(all))
	var last tabletop
	for _, i := range order {
		if alone[i] == nil {
			pic, _ := Steps{p, all, newWorkshop(p)}.draw(i, Options{}, new(tabletop))
			alone[i] = pic.AppendSVG(nil)
		}
		pic, _ := Steps{p, all, newWorkshop(p)}.draw(i, Options{}, &last)
		if !bytes.Equal(pic.AppendSVG(nil), alone[i]) {
			t.Errorf("step %d is drawn otherwise than alone", all[i].Number)
		}
	}
}

// So is a step of the fitting after one of which the parts are too many to be followed.
func TestStepsGoOnAfterTooManyParts(t *testing.T) {
	mm := units.Millimetre
	p, err := folio.Build(folio.Spec{Cover: units.Size{W: 300 * mm, H: 300 * mm}, Spine: rule.Spine{Width: 300 * mm}, Stocks: []stock.Stock{{Name: "thin", Caliper: mm / 50, TwoSided: true}}, Fittings: []folio.Fitting{
		{Name: "cards", Panel: boards.LeftCover, Stock: "thin", Kind: folio.Folded{Kind: pocket.FoldedAccordion{Content: pocket.IDCard(), Panels: 130}}},
		{Name: "strip", Panel: boards.RightCover, Stock: "thin", Kind: folio.Folded{Kind: pocket.FoldedStrip{Content: pocket.IDCard()}}}}})
	if err != nil {
		t.Fatal(err)
	}
	var last tabletop
	steps, lost, after := StepsOf(p), false, 0
	for i, s := range steps.all {
		if own := s.For.Kind == work.PartFitting && s.For.Index == 1; !own && (i+1 == len(steps.all) || steps.all[i+1].For.Index != 1) {
			continue // one step of the first will do
		}
		alone, _ := steps.draw(i, Options{}, new(tabletop))
		pic, _ := steps.draw(i, Options{}, &last)
		if !bytes.Equal(pic.AppendSVG(nil), alone.AppendSVG(nil)) {
			t.Errorf("step %d is drawn otherwise than alone", s.Number)
		}
		if s.For.Index == 1 {
			after++
		} else {
			lost = lost || last.lost
		}
	}
	if !lost || after < 5 {
		t.Errorf("too many parts: %t; %d steps after that", lost, after)
	}
}

// Of a pile one leaf hides what all that are as large do, however its corners are
// listed: so a picture of many leaves takes no time for each two of them, and a stranger
// who asks for a hand-out of a run of pockets does not keep a service busy.
func TestAlikeHideAsOne(t *testing.T) {
	rnd := rand.New(rand.NewSource(proptest.Seed()))
	for range proptest.Cases(200) {
		kinds := make([][]units.Point, 1+rnd.Intn(4))
		for i := range kinds {
			at := units.Point{X: units.Length(rnd.Intn(9)), Y: units.Length(rnd.Intn(9))}
			kinds[i] = corners(units.RectAt(at, units.Size{W: units.Length(1 + rnd.Intn(9)), H: units.Length(1 + rnd.Intn(9))}))
			if rnd.Intn(3) == 0 {
				kinds[i] = kinds[rnd.Intn(i+1)][:3] // half of one of them
			}
		}
		list := make([]sheetlet, 60)
		for i := range list {
			k := kinds[rnd.Intn(len(kinds))]
			at := rnd.Intn(len(k))
			list[i].pts = slices.Concat(k[at:], k[:at])
			if rnd.Intn(2) == 0 {
				slices.Reverse(list[i].pts)
			}
			if rnd.Intn(4) == 0 {
				list[i].holes = [][]units.Point{corners(units.RectAt(k[0], units.Size{W: units.Length(1 + rnd.Intn(2)), H: 1}))}
			}
		}
		above, over := outlines(list)
		if len(above) > 3*len(kinds) {
			t.Fatalf("%d of %d kinds, each with no hole or one of two", len(above), len(kinds))
		}
		for range 40 {
			n, q := rnd.Intn(len(list)), units.Point{X: units.Length(rnd.Intn(18)), Y: units.Length(rnd.Intn(18))}
			hides := func(s sheetlet) bool { return s.hides(q) }
			if got, want := slices.ContainsFunc(above[:over[n]], hides), slices.ContainsFunc(list[n+1:], hides); got != want {
				t.Fatalf("%v under what lies over sheet %d: hidden %v, want %v", q, n, got, want)
			}
		}
	}
}

// What has three corners of a sheet one after the other may lie beside it, in a notch: it
// hides what the sheet does not.
func TestWhatLiesInANotchHides(t *testing.T) {
	at := func(x, y units.Length) units.Point { return units.Point{X: x, Y: y} }
	notched := []units.Point{at(0, 0), at(40, 0), at(40, 10), at(10, 10), at(10, 40), at(0, 40)}
	list := []sheetlet{{pts: corners(units.RectAt(at(1, 1), units.Size{W: 38, H: 38}))}, {pts: notched[2:5]}, {pts: notched}}
	above, over := outlines(list)
	for _, q := range []units.Point{at(5, 5), at(15, 15)} {
		if !slices.ContainsFunc(above[:over[0]], func(s sheetlet) bool { return s.hides(q) }) {
			t.Errorf("nothing hides %v", q)
		}
	}
	if slices.ContainsFunc(above[:over[0]], func(s sheetlet) bool { return s.hides(at(30, 30)) }) {
		t.Error("something hides what nothing lies over")
	}
}

// A picture of a pile of many leaves does not ask of each two of them again and again:
// it allocates no more than a few mebibytes, where it once took up to sixty.
func TestPicturesOfPilesAreCheap(t *testing.T) {
	p := planOf(t, runOf(24))
	all := slices.Collect(p.Steps())
	folds := 0
	for i := len(all) - 1; i > 0 && folds < 3; i-- { // the last ones: slipping in, and folds where all leaves are glued on
		if slices.ContainsFunc(all[i].Do, func(a work.Action) bool { _, ok := a.(work.FoldAt); return ok }) {
			folds++
		} else if i < len(all)-1 {
			continue
		}
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, ok := Steps{p, all, newWorkshop(p)}.draw(i, Options{Fit: units.Size{W: 88 * units.Millimetre, H: 62 * units.Millimetre}}, new(tabletop))
		runtime.ReadMemStats(&after)
		if n := after.TotalAlloc - before.TotalAlloc; !ok || n > 8<<20 {
			t.Errorf("step %d: drawn %t, %d KiB", all[i].Number, ok, n>>10)
		}
	}
}
