package makertest_test

import (
	"strconv"
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

func l(n int) units.Length       { return units.Length(n) * mm }
func size(w, h int) units.Size   { return units.Size{W: l(w), H: l(h)} }
func point(x, y int) units.Point { return units.Point{X: l(x), Y: l(y)} }
func piece(i, copy int) work.Object {
	return work.Object{Index: i, Copy: copy, Name: "piece " + strconv.Itoa(i)}
}
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

func cut(what work.Object, count int, s units.Size, stock string, g work.Grain, up work.PaperSide) work.Cut {
	return work.Cut{What: what, Count: count, Size: s, From: work.Source{Stock: stock, Index: -1}, Grain: g, Up: up}
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
	for name, j := range map[string]makertest.Job{
		"plain case": plainCase(), "quarter style": quarterStyle(), "slip pocket": slipPocket(), "slip pocket of one sheet": foldedSlip(),
		"folded strip": foldedStrip(), "accordion": accordion(), "corners": cornerPockets(), "frame": frame(), "outsides together": outsidesTogether(),
	} {
		t.Run(name, func(t *testing.T) {
			mustFollow(t, j)
			changed(t, j)
		})
	}
}
