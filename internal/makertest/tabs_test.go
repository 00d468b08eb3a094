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

// guarded is the plain case with a guard of one fold on its spine. The strip is 1 mm thick,
// so that its second tab, which as it lies folded ends 1 mm short of the right hinge, lies
// 1 mm over that when the fold stands up.
func guarded(by work.Adhesive) makertest.Job {
	const hg = work.GrainAlongHeight
	j := plainCase()
	strip, spine := piece(4, 0), work.Base{Kind: work.OnBoard, Index: 1}
	j.Stocks = append(j.Stocks, makertest.Stock{Name: "card", Caliper: mm, TwoSided: true})
	j.Pieces = append(j.Pieces, makertest.Piece{Name: "guard", Quantity: 1, Size: size(40, 100), Stock: "card", Caliper: mm, Grain: hg, Inside: true, Stands: 2 * mm,
		Lines: []makertest.Line{
			{Line: score.Line{Axis: score.Upright, At: 16 * mm, Fold: score.Valley}}, {Line: score.Line{Axis: score.Upright, At: 20 * mm, Fold: score.Mountain}},
			{Line: score.Line{Axis: score.Upright, At: 24 * mm, Fold: score.Valley}},
		}})
	j.Tabbed = []int{0}
	j.Want = append(j.Want, makertest.Placed{Piece: 4, Panel: work.All, Rect: rect(93, 20, 32, 100)})
	fold := func(at int, open bool) work.FoldAt {
		f := work.FoldAt{What: strip, Axis: score.Upright, At: l(at), Moves: score.Right, Way: work.Away, Flat: true}
		if open {
			f.Way, f.Open = work.Towards, true
		}
		return f
	}
	place, tab := at(-13, 20), size(16, 100)
	all := [][]work.Action{do(work.FindGrain{Stocks: []string{"board", "paper", "liner", "card"}})}
	end := len(j.Steps) - 1
	for _, s := range j.Steps[1:end] {
		all = append(all, s.Do)
	}
	all = append(all,
		do(cut(strip, 1, size(40, 100), "card", hg, 0)),
		do(fold(16, true), fold(20, false), fold(24, false)),
		do(work.MarkPlace{What: strip, On: spine, At: place, Size: tab}, work.Lay{What: strip, On: spine, At: place, Size: tab}),
		do(work.Fix{What: strip, On: spine, At: place, Size: tab, By: by, Areas: []units.Rect{rect(0, 0, 16, 100)}, Marked: true}, work.Rub{What: strip, Gaps: []int{0}}),
		do(work.Stick{What: strip, Area: rect(24, 0, 16, 100), Side: score.Back, By: by, To: spine, Standing: true}, work.Rub{What: strip, Gaps: []int{1}}))
	if by == work.Glue {
		all = append(all, dry)
	}
	j.Steps = steps(append(all, j.Steps[end].Do)...)
	return j
}

// Tabs reach over hinges where the plan says so, and are rubbed down there by whoever
// sticks them down, each in its step.
func TestTabsOverHinges(t *testing.T) {
	good, glued := guarded(work.Tape), guarded(work.Glue)
	for _, j := range []makertest.Job{good, glued} {
		if err := makertest.Follow(j); err != nil {
			t.Fatal(err)
		}
	}
	const first, second = 21, 22
	rub := func(step int, r work.Rub) makertest.Job { r.What = piece(4, 0); return with(good, step, 1, r) }
	unrubbed := func(j makertest.Job, step int) makertest.Job {
		j.Steps = slices.Clone(j.Steps)
		j.Steps[step-1].Do = j.Steps[step-1].Do[:1]
		return j
	}
	unwarned, narrow := good, guarded(work.Tape)
	unwarned.Tabbed, narrow.Pieces[4].Stands = nil, 0
	for name, c := range map[string]struct {
		job  makertest.Job
		want string
	}{
		"the left tab is not rubbed down":      {unrubbed(good, first), "at the end: guard (piece 4, copy 0) is stuck over gap 0"},
		"the right tab is not rubbed down":     {unrubbed(good, second), "at the end: guard (piece 4, copy 0) is stuck over gap 1"},
		"it dries before":                      {unrubbed(glued, second), "step 23: guard (piece 4, copy 0) is stuck over gap 1"},
		"both are said to be":                  {rub(first, work.Rub{Gaps: []int{0, 1}}), "over the gaps [0]"},
		"later than it is stuck":               {rub(second, work.Rub{Gaps: []int{0, 1}}), "over the gaps [1]"},
		"to the bottom":                        {rub(second, work.Rub{Gaps: []int{1}, Deep: []int{1}}), "to the bottom of [1]"},
		"folds that take nothing":              {narrow, "over the gaps []"},
		"tabs of which the plan does not warn": {unwarned, "beyond the edges of the board"},
	} {
		if err := makertest.Follow(c.job); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", name, err, c.want)
		}
	}
}
