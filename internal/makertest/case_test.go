package makertest_test

import (
	"boardwrap.example/internal/makertest"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

func plainCase() makertest.Job {
	const hg = work.GrainAlongHeight
	boards := []makertest.Board{
		{Piece: 0, Copy: 0, Laid: rect(0, 0, 100, 150)}, {Piece: 1, Laid: rect(106, 0, 20, 150)}, {Piece: 0, Copy: 1, Laid: rect(132, 0, 100, 150)},
	}
	for i := range boards {
		boards[i].Made = boards[i].Laid
	}
	wrap := piece(2, 0)
	trim := func(c score.Corner, x0, y0, x1, y1 int) work.Trim {
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
			do(work.Cut{What: wrap, Count: 1, Size: size(272, 190), From: work.Source{Stock: "paper", Size: size(300, 200), Turned: true}, Grain: hg, Up: work.WrongSide}),
			append(lines(score.Upright, 20, 120, 126, 146, 152, 252), lines(score.Level, 20, 170)...),
			do(lay(0, 0, 20, 100), lay(1, 0, 126, 20), lay(0, 1, 152, 100)),
			dry,
			do(trim(score.HeadLeft, 37, 0, 0, 37), trim(score.HeadRight, 235, 0, 272, 37), trim(score.TailRight, 272, 153, 235, 190), trim(score.TailLeft, 37, 190, 0, 153)),
			do(work.TurnIn{What: wrap, Edge: score.Head, Depth: 20 * mm}, work.TurnIn{What: wrap, Edge: score.Tail, Depth: 20 * mm}),
			do(work.Tuck{What: wrap, Corners: []score.Corner{score.HeadLeft, score.HeadRight, score.TailRight, score.TailLeft}}),
			do(work.TurnIn{What: wrap, Edge: score.Left, Depth: 20 * mm}, work.TurnIn{What: wrap, Edge: score.Right, Depth: 20 * mm}),
			dry,
			do(work.Measure{Planned: size(232, 150), Expected: size(233, 151)}),
			do(work.Refit{}),
			do(cut(piece(3, 0), 1, size(226, 144), "liner", hg, 0)),
			do(work.Lay{What: piece(3, 0), On: onRow, At: at(3, 3), Size: size(226, 144)}),
			do(work.Fix{What: piece(3, 0), Panel: work.All, On: onRow, At: at(3, 3), Size: size(226, 144)}, work.Rub{What: piece(3, 0), Gaps: []int{0, 1}}),
			dry,
			do(work.Close{Turns: []work.Turned{{Board: 1, Over: -1, Held: -1}, {Board: 0, Over: 2, Held: -1}}, Left: 3 * mm}),
		),
	}
}

// quarterStyle is the same case with a spine strip that reaches 20 mm on to
// the covers, and side papers that lap it by 3 mm.
func quarterStyle() makertest.Job {
	const hg = work.GrainAlongHeight
	j := plainCase()
	strip, left, right := piece(2, 0), piece(4, 0), piece(5, 0)
	j.Stocks = append(j.Stocks, makertest.Stock{Name: "cloth"})
	j.Pieces[2] = makertest.Piece{Name: "strip", Role: makertest.Strip, Quantity: 1, Size: size(72, 190), Stock: "cloth", Caliper: mm / 5, Grain: hg, Up: work.WrongSide}
	side := makertest.Piece{Name: "side paper", Role: makertest.Covering, Quantity: 1, Size: size(103, 190), Stock: "paper", Caliper: mm / 5, Grain: hg, Up: work.WrongSide}
	side.Outline = []units.Point{point(37, 0), point(103, 0), point(103, 190), point(37, 190), point(0, 153), point(0, 37)}
	j.Pieces = append(j.Pieces, side)
	side.Outline = []units.Point{point(0, 0), point(66, 0), point(103, 37), point(103, 153), point(66, 190), point(0, 190)}
	j.Pieces = append(j.Pieces, side)
	j.Want = []makertest.Placed{
		{Piece: 2, Panel: work.All, Rect: rect(80, -20, 72, 190)},
		{Piece: 3, Panel: work.All, Rect: rect(3, 3, 226, 144)},
		{Piece: 4, Panel: work.All, Rect: rect(-20, -20, 103, 190)},
		{Piece: 5, Panel: work.All, Rect: rect(149, -20, 103, 190)},
	}
	draw := func(axis score.Axis, at int) work.Draw { return work.Draw{On: onPiece(2, 0), Axis: axis, At: l(at)} }
	lay := func(i, copy, x, w int) work.Fix {
		return work.Fix{What: piece(i, copy), Panel: work.All, On: onPiece(2, 0), At: at(x, 20), Lines: true, Size: size(w, 150)}
	}
	paper := func(what work.Object, board, x int) work.Fix {
		return work.Fix{What: what, Panel: work.All, On: work.Base{Kind: work.OnOutside, Index: board}, At: at(x, -20), Up: score.Back, Size: size(103, 190)}
	}
	dryLay := func(f work.Fix) work.Lay { return work.Lay{What: f.What, On: f.On, At: f.At, Size: f.Size} }
	side1 := func(what work.Object) work.Cut {
		return work.Cut{What: what, Count: 1, Size: size(103, 190), From: work.Source{Stock: "paper", Size: size(300, 200), Turned: true}, Grain: hg, Up: work.WrongSide}
	}
	trim := func(what work.Object, c score.Corner, x0, y0, x1, y1 int) work.Trim {
		return work.Trim{What: what, Corner: c, From: point(x0, y0), To: point(x1, y1)}
	}
	turn := func(what work.Object, e score.Edge) work.TurnIn {
		return work.TurnIn{What: what, Edge: e, Depth: 20 * mm}
	}
	first := steps(
		do(work.FindGrain{Stocks: []string{"board", "paper", "liner", "cloth"}}),
		do(cut(piece(0, work.All), 2, size(100, 150), "board", hg, 0), cut(piece(1, 0), 1, size(20, 150), "board", hg, 0)),
		do(cut(strip, 1, size(72, 190), "cloth", hg, work.WrongSide)),
		do(draw(score.Level, 20), draw(score.Level, 170), draw(score.Upright, 20), draw(score.Upright, 26), draw(score.Upright, 46), draw(score.Upright, 52)),
		do(lay(0, 0, -80, 100), lay(1, 0, 26, 20), lay(0, 1, 52, 100)),
		dry,
		do(turn(strip, score.Head), turn(strip, score.Tail), work.Rub{What: strip, Gaps: []int{0, 1}}),
		dry,
		do(side1(left), side1(right)),
		do(dryLay(paper(left, 0, -20)), dryLay(paper(right, 2, 17))),
		do(paper(left, 0, -20), paper(right, 2, 17)),
		dry,
		do(trim(left, score.HeadLeft, 37, 0, 0, 37), trim(left, score.TailLeft, 37, 190, 0, 153),
			trim(right, score.HeadRight, 66, 0, 103, 37), trim(right, score.TailRight, 103, 153, 66, 190)),
		do(turn(left, score.Head), turn(right, score.Head), turn(left, score.Tail), turn(right, score.Tail),
			work.Tuck{What: left, Corners: []score.Corner{score.HeadLeft, score.TailLeft}}, work.Tuck{What: right, Corners: []score.Corner{score.HeadRight, score.TailRight}},
			turn(left, score.Left), turn(right, score.Right)),
	)
	for _, s := range j.Steps[10:] {
		s.Number = len(first) + 1
		s.After = []int{len(first)}
		first = append(first, s)
	}
	j.Steps = first
	return j
}
