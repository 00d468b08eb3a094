package makertest_test

import (
	"slices"
	"strings"
	"testing"

	"boardwrap.example/internal/makertest"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// outsidesTogether is a case of three panels of which the first two come to lie outside to
// outside: between them a strip goes round the edges, 3 mm under the liner at both ends.
func outsidesTogether() makertest.Job {
	const hg = work.GrainAlongHeight
	j := plainCase()
	wrap, strip, one, two := piece(2, 0), piece(3, 0), piece(4, 0), piece(5, 0)
	j.Row = nil
	for i := range 3 {
		at := rect(106*i, 0, 100, 150)
		j.Row = append(j.Row, makertest.Board{Piece: 0, Copy: i, Laid: at, Made: at})
	}
	j.Stocks[1].Sheets = []makertest.Sheet{{Size: size(400, 500), Grain: hg}}
	j.Pieces[0].Quantity = 3
	j.Pieces[1] = makertest.Piece{Name: "label", Role: makertest.Liner, Quantity: 0}
	j.Pieces[2].Size, j.Pieces[2].Outline = size(352, 190), []units.Point{point(37, 0), point(315, 0), point(352, 37), point(352, 153), point(315, 190), point(37, 190), point(0, 153), point(0, 37)}
	paper := j.Pieces[3]
	strips := paper
	strips.Name, strips.Role, strips.Size, strips.Stock = "edge strip", makertest.Edging, size(22, 144), "paper"
	paper.Name, paper.Size = "first liner", size(94, 144)
	more := paper
	more.Name, more.Size = "second liner", size(200, 144)
	j.Pieces = append(j.Pieces[:3:3], strips, paper, more)
	j.Want = []makertest.Placed{
		{Piece: 2, Panel: work.All, Rect: rect(-20, -20, 352, 190)}, {Piece: 3, Panel: work.All, Rect: rect(94, 3, 18, 144)},
		{Piece: 4, Panel: work.All, Rect: rect(3, 3, 94, 144)}, {Piece: 5, Panel: work.All, Rect: rect(109, 3, 200, 144)},
	}
	j.Planned, j.Expected, j.Lap = size(312, 150), size(313, 151), 3*mm
	var lines []work.Action
	for _, at := range []int{20, 120, 126, 226, 232, 332} {
		lines = append(lines, work.Draw{On: onPiece(2, 0), Axis: score.Upright, At: l(at)})
	}
	for _, at := range []int{20, 170} {
		lines = append(lines, work.Draw{On: onPiece(2, 0), Axis: score.Level, At: l(at)})
	}
	lay := func(copy, x int) work.Fix {
		return work.Fix{What: piece(0, copy), Panel: work.All, On: onPiece(2, 0), At: at(x, 20), Lines: true, Size: size(100, 150)}
	}
	trim := func(c score.Corner, x0, y0, x1, y1 int) work.Trim {
		return work.Trim{What: wrap, Corner: c, From: point(x0, y0), To: point(x1, y1)}
	}
	sheet := func(what work.Object, s units.Size, up work.PaperSide) work.Cut {
		return work.Cut{What: what, Count: 1, Size: s, From: work.Source{Stock: "paper", Size: size(400, 500)}, Grain: hg, Up: up}
	}
	liner := func(what work.Object, x, w int) (work.Lay, work.Fix) {
		return work.Lay{What: what, On: onRow, At: at(x, 3), Size: size(w, 144)}, work.Fix{What: what, Panel: work.All, On: onRow, At: at(x, 3), Size: size(w, 144)}
	}
	layOne, fixOne := liner(one, 3, 94)
	layTwo, fixTwo := liner(two, 109, 200)
	j.Steps = steps(
		do(work.FindGrain{Stocks: []string{"board", "paper", "liner"}}),
		do(cut(piece(0, work.All), 3, size(100, 150), "board", hg, 0)),
		do(sheet(wrap, size(352, 190), work.WrongSide)),
		lines,
		do(lay(0, 20), lay(1, 126), lay(2, 232)),
		dry,
		do(trim(score.HeadLeft, 37, 0, 0, 37), trim(score.HeadRight, 315, 0, 352, 37), trim(score.TailRight, 352, 153, 315, 190), trim(score.TailLeft, 37, 190, 0, 153)),
		do(work.TurnIn{What: wrap, Edge: score.Head, Depth: 20 * mm}, work.TurnIn{What: wrap, Edge: score.Tail, Depth: 20 * mm}),
		do(work.Tuck{What: wrap, Corners: []score.Corner{score.HeadLeft, score.HeadRight, score.TailRight, score.TailLeft}}),
		do(work.TurnIn{What: wrap, Edge: score.Left, Depth: 20 * mm}, work.TurnIn{What: wrap, Edge: score.Right, Depth: 20 * mm}),
		dry,
		do(work.Measure{Planned: j.Planned, Expected: j.Expected}),
		do(work.Refit{}),
		do(sheet(strip, size(22, 144), 0)),
		do(work.Fix{What: strip, Panel: work.All, On: work.Base{Kind: work.OnBoard, Index: 0, Panel: work.All}, At: work.At{Across: score.Right, X: -16 * mm, Y: 3 * mm}, Size: size(22, 144)},
			work.Rub{What: strip, Gaps: []int{0}, Deep: []int{0}}),
		dry,
		do(cut(one, 1, size(94, 144), "liner", hg, 0), cut(two, 1, size(200, 144), "liner", hg, 0)),
		do(layOne, layTwo),
		do(fixOne, fixTwo, work.Rub{What: two, Gaps: []int{1}}),
		dry,
		do(work.Close{Turns: []work.Turned{{Board: 1, Over: 2, Held: 0}, {Board: 0, Over: 1, Held: -1}}, Left: 3 * mm}),
	)
	return j
}

// Where outsides come together the edges of boards are covered: by a strip that is worked
// round them, as high as the liner and so far under it as planned.
func TestRoundTheEdges(t *testing.T) {
	mustFollow(t, outsidesTogether())
	fix := action[work.Fix](outsidesTogether(), 15, 0)
	stripped := func(change func(f *work.Fix)) makertest.Job {
		f := fix
		change(&f)
		return with(outsidesTogether(), 15, 0, f)
	}
	rubbed := func(r work.Rub) makertest.Job { return with(outsidesTogether(), 15, 1, r) }
	// Without the strip, as if nobody had planned one.
	bare := outsidesTogether()
	bare.Steps = slices.Delete(bare.Steps, 13, 16)
	for i := range bare.Steps {
		if bare.Steps[i].Number = i + 1; i > 0 {
			bare.Steps[i].After = []int{i}
		}
	}
	bare.Pieces = slices.Clone(bare.Pieces)
	bare.Pieces[3].Quantity = 0
	bare.Want = slices.Delete(bare.Want, 1, 2)
	less := outsidesTogether()
	less.Lap = 4 * mm
	thin := outsidesTogether()
	thin.Pieces = slices.Clone(thin.Pieces)
	thin.Pieces[3].Caliper = 31 * mm / 10
	for name, c := range map[string]struct {
		job  makertest.Job
		want string
	}{
		"no strip":                  {bare, "are bare at gap 0"},
		"less under the liner":      {less, "under the liner at its left; planned at least 4 mm"},
		"not worked down":           {rubbed(work.Rub{What: fix.What, Gaps: []int{0}}), "goes round the edges"},
		"into another gap":          {rubbed(work.Rub{What: fix.What, Gaps: []int{1}, Deep: []int{1}}), "does not begin on the board left of gap 1"},
		"into no gap":               {rubbed(work.Rub{What: fix.What, Gaps: []int{7}, Deep: []int{7}}), "the row has no gap 7"},
		"too far left":              {stripped(func(f *work.Fix) { f.At.X += 14 * mm }), "does not reach round both edges"},
		"thicker than half the gap": {thin, "is twice 3.1 mm in gap 0"},
		"over a board that is under another": {with(outsidesTogether(), 21, 0, work.Close{Turns: []work.Turned{{Board: 1, Over: 2, Held: 0}, {Board: 0, Over: 2, Held: -1}}, Left: 3 * mm}),
			"board 0 comes to lie over board 1, not 2"},
		"the wrong way up and turned": {stripped(func(f *work.Fix) { f.Quarters = 2 }), "lies turned where it is worked down"},
	} {
		if err := makertest.Follow(c.job); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v; want something of %q", name, err, c.want)
		}
	}
}
