package makertest_test

import (
	"testing"

	"boardwrap.example/internal/makertest"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

const mm = units.Millimetre

func rect(x, y, w, h int) units.Rect {
	return units.RectAt(units.Point{X: l(x), Y: l(y)}, size(w, h))
}

func l(n int) units.Length         { return units.Length(n) * mm }
func size(w, h int) units.Size     { return units.Size{W: l(w), H: l(h)} }
func point(x, y int) units.Point   { return units.Point{X: l(x), Y: l(y)} }
func piece(i, copy int) work.Thing { return work.Thing{Index: i, Copy: copy, Name: "piece"} }
func onPiece(i, copy int) work.Base {
	return work.Base{Kind: work.OnPiece, Index: i, Copy: copy, Panel: work.All, Name: "piece"}
}
func onPanel(i, copy, panel int) work.Base {
	return work.Base{Kind: work.OnPiece, Index: i, Copy: copy, Panel: panel, Name: "piece"}
}

var (
	under = work.Base{Kind: work.Under, Name: "base"}
	onRow = work.Base{Kind: work.OnRow, Name: "cover"}
)

func onBoard(i int) work.Base { return work.Base{Kind: work.OnBoard, Index: i, Name: "board"} }

func at(x, y int) work.At {
	return work.At{Across: score.Left, X: l(x), Along: score.Head, Y: l(y)}
}

// steps numbers steps, each resting on all before.
func steps(all ...[]work.Action) []work.Step {
	var out []work.Step
	for i, do := range all {
		s := work.Step{Number: i + 1, Do: do}
		if i > 0 {
			s.After = []int{i}
		}
		out = append(out, s)
	}
	return out
}

func do(all ...work.Action) []work.Action { return all }

func cut(what work.Thing, count int, s units.Size, stock string, g work.Grain, up work.PaperSide) work.Cut {
	return work.Cut{What: what, Count: count, Size: s, From: work.Sheet{Stock: stock, Index: -1}, Grain: g, Up: up}
}

var dry = do(work.Dry{What: "it", Weight: true})

func mustFollow(t *testing.T, j makertest.Job) {
	t.Helper()
	if err := makertest.Follow(j); err != nil {
		t.Fatal(err)
	}
	for k := range j.Steps {
		if err := makertest.FollowEarly(j, k); err != nil {
			t.Errorf("with step %d as early as it may be: %v", k+1, err)
		}
	}
}

// changed carries out every change of an order of work, and lists those that
// nobody objects to although they make something else.
func changed(t *testing.T, j makertest.Job) {
	t.Helper()
	judge, err := makertest.NewJudge(j)
	if err != nil {
		t.Fatal(err)
	}
	var counts [3]int
	for c := range makertest.Changes(j.Steps, mm/10) {
		v := judge.Of(c.Steps)
		counts[v]++
		if v == makertest.Unnoticed {
			t.Log(c.What)
		}
	}
	t.Log(counts)
	if all := counts[makertest.Objected] + counts[makertest.Unnoticed]; 100*counts[makertest.Unnoticed] > 2*all {
		t.Errorf("%d of %d changes are not objected to", counts[makertest.Unnoticed], all)
	}
}

func TestExamples(t *testing.T) {
	for name, j := range map[string]makertest.Job{"plain case": plainCase()} {
		t.Run(name, func(t *testing.T) {
			mustFollow(t, j)
			changed(t, j)
		})
	}
}

func plainCase() makertest.Job {
	const hg = work.GrainAlongHeight
	boards := []makertest.Board{
		{Piece: 0, Copy: 0, Laid: rect(0, 0, 100, 150)}, {Piece: 1, Laid: rect(106, 0, 20, 150)}, {Piece: 0, Copy: 1, Laid: rect(132, 0, 100, 150)},
	}
	for i := range boards {
		boards[i].Made = boards[i].Laid
	}
	wrap := piece(2, 0)
	trim := func(c work.Corner, x0, y0, x1, y1 int) work.Trim {
		return work.Trim{What: wrap, Corner: c, From: point(x0, y0), To: point(x1, y1)}
	}
	lines := func(axis score.Axis, all ...int) (out []work.Action) {
		for _, at := range all {
			out = append(out, work.Draw{On: onPiece(2, 0), Axis: axis, At: l(at)})
		}
		return out
	}
	lay := func(i, copy, x, w int) work.Fix {
		return work.Fix{What: piece(i, copy), Panel: work.All, On: onPiece(2, 0), At: at(x, 20), Lines: true, Size: size(w, 150)}
	}
	return makertest.Job{
		Stocks: []makertest.Stock{{Name: "board", Caliper: 2 * mm}, {Name: "paper", Sheets: []makertest.Sheet{{Size: size(200, 300), Grain: work.GrainAlongWidth}}}, {Name: "liner"}},
		Pieces: []makertest.Piece{
			{Name: "cover", Role: makertest.BoardRole, Quantity: 2, Size: size(100, 150), Stock: "board", Caliper: 2 * mm, Grain: hg},
			{Name: "spine", Role: makertest.BoardRole, Quantity: 1, Size: size(20, 150), Stock: "board", Caliper: 2 * mm, Grain: hg},
			{Name: "wrap", Role: makertest.Covering, Quantity: 1, Size: size(272, 190), Stock: "paper", Caliper: mm / 5, Grain: hg, Up: work.WrongSide,
				Outline: []units.Point{point(37, 0), point(235, 0), point(272, 37), point(272, 153), point(235, 190), point(37, 190), point(0, 153), point(0, 37)}},
			{Name: "liner", Role: makertest.Liner, Quantity: 1, Size: size(226, 144), Stock: "liner", Caliper: mm / 5, Grain: hg, Inside: true},
		},
		Row: boards,
		Want: []makertest.Placed{
			{Piece: 2, Panel: work.All, Rect: rect(-20, -20, 272, 190)},
			{Piece: 3, Panel: work.All, Rect: rect(3, 3, 226, 144)},
		},
		Planned: size(232, 150), Expected: size(233, 151), Left: 3 * mm,
		Steps: steps(
			do(work.FindGrain{Stocks: []string{"board", "paper", "liner"}}),
			do(cut(piece(0, work.All), 2, size(100, 150), "board", hg, 0), cut(piece(1, 0), 1, size(20, 150), "board", hg, 0)),
			do(work.Cut{What: wrap, Count: 1, Size: size(272, 190), From: work.Sheet{Stock: "paper", Size: size(300, 200), Turned: true}, Grain: hg, Up: work.WrongSide}),
			append(lines(score.Upright, 20, 120, 126, 146, 152, 252), lines(score.Level, 20, 170)...),
			do(lay(0, 0, 20, 100), lay(1, 0, 126, 20), lay(0, 1, 152, 100)),
			dry,
			do(trim(work.HeadLeft, 37, 0, 0, 37), trim(work.HeadRight, 235, 0, 272, 37), trim(work.TailRight, 272, 153, 235, 190), trim(work.TailLeft, 37, 190, 0, 153)),
			do(work.TurnIn{What: wrap, Edge: score.Head, Depth: 20 * mm}, work.TurnIn{What: wrap, Edge: score.Tail, Depth: 20 * mm}),
			do(work.Tuck{What: wrap, Corners: []work.Corner{work.HeadLeft, work.HeadRight, work.TailRight, work.TailLeft}}),
			do(work.TurnIn{What: wrap, Edge: score.Left, Depth: 20 * mm}, work.TurnIn{What: wrap, Edge: score.Right, Depth: 20 * mm}),
			dry,
			do(work.Measure{Planned: size(232, 150), Expected: size(233, 151)}),
			do(work.Refit{}),
			do(cut(piece(3, 0), 1, size(226, 144), "liner", hg, 0)),
			do(work.Lay{What: piece(3, 0), On: onRow, At: at(3, 3), Size: size(226, 144)}),
			do(work.Fix{What: piece(3, 0), Panel: work.All, On: onRow, At: at(3, 3), Size: size(226, 144)}, work.Rub{What: piece(3, 0), Gaps: []int{0, 1}}),
			dry,
			do(work.Close{Turns: []work.Turned{{Board: 1, Over: -1}, {Board: 0, Over: 2}}, Left: 3 * mm}),
		),
	}
}
