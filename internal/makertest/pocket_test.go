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

// slipPocket is a front glued along three sides over a place of 80 by 110 mm.
func slipPocket() makertest.Job {
	front := piece(0, 0)
	return makertest.Job{
		Stocks: []makertest.Stock{{Name: "card"}},
		Pieces: []makertest.Piece{{Name: "front", Quantity: 1, Size: size(80, 60), Stock: "card", Caliper: mm / 4,
			Notches: []score.Notch{{Edge: score.Head, Middle: 40 * mm, Width: 20 * mm, Depth: 10 * mm, Round: true}},
			Glue:    []score.Glue{{Area: rect(0, 0, 6, 54), Side: score.Back}, {Area: rect(74, 0, 6, 54), Side: score.Back}, {Area: rect(0, 54, 80, 6), Side: score.Back}}}},
		Others: []makertest.Other{{Kind: work.Content, Size: size(66, 96), Place: rect(7, 8, 66, 96)}},
		Closed: size(80, 110),
		Want:   []makertest.Placed{{Panel: work.All, Rect: rect(0, 50, 80, 60)}},
		Steps: steps(
			do(cut(front, 1, size(80, 60), "card", 0, 0)),
			do(work.NotchOut{What: front, Notch: score.Notch{Edge: score.Head, Middle: 40 * mm, Width: 20 * mm, Depth: 10 * mm, Round: true}}),
			do(work.MarkPlace{What: front, On: under, At: work.At{Along: score.Tail, Across: score.Left}, Size: size(80, 60)},
				work.Lay{What: front, On: under, At: work.At{Along: score.Tail, Across: score.Left}, Size: size(80, 60)}),
			do(work.Fix{What: front, Panel: work.All, On: under, At: work.At{Along: score.Tail, Across: score.Left}, Size: size(80, 60),
				Areas: []units.Rect{rect(0, 0, 6, 54), rect(74, 0, 6, 54), rect(0, 54, 80, 6)}}),
			dry,
			do(insert(0, score.Head, 7, 8, 66, 96)),
		),
	}
}

func insert(spot int, from score.Edge, x, y, w, h int) work.Insert {
	return work.Insert{On: under, At: at(x, y), Size: size(w, h), What: work.Object{Kind: work.Content, Copy: spot, Name: "card"}, Into: work.Part{Kind: work.PartFitting}, From: from}
}

func fold(what work.Object, axis score.Axis, at int, moves score.Edge, way work.Way) work.FoldAt {
	return work.FoldAt{What: what, Axis: axis, At: l(at), Moves: moves, Way: way, Flat: true}
}

// foldedSlip is one sheet with its foot folded.
func foldedSlip() makertest.Job {
	p := piece(0, 0)
	line := score.Line{Axis: score.Level, At: 104 * mm}
	notch := score.Notch{Edge: score.Tail, Middle: 40 * mm, Width: 20 * mm, Depth: 8 * mm}
	glue := func(x int) work.Stick {
		return work.Stick{What: p, Area: rect(x, 104, 6, 60), Side: score.Face, To: onPanel(0, 0, 0)}
	}
	return makertest.Job{
		Stocks: []makertest.Stock{{Name: "card"}},
		Pieces: []makertest.Piece{{Name: "pocket", Quantity: 1, Size: size(80, 164), Stock: "card", Caliper: mm / 4, Notches: []score.Notch{notch},
			Lines: []makertest.Line{{Line: line, Scored: true}}, Glue: []score.Glue{{Area: rect(0, 104, 6, 60)}, {Area: rect(74, 104, 6, 60)}}, Panels: []units.Rect{rect(0, 0, 80, 104), rect(0, 104, 80, 60)}, Up: work.WrongSide}},
		Others: []makertest.Other{{Kind: work.Content, Size: size(66, 96), Place: rect(7, 8, 66, 96)}},
		Closed: size(80, 104), Groove: makertest.GrooveOutside,
		Want: []makertest.Placed{{Panel: 0, Rect: rect(0, 0, 80, 104)}, {Panel: 1, Rect: rect(0, 44, 80, 60), Up: score.Back}},
		// Wrong side up, so that the right one shows at the front; that of the
		// back shows as well.
		WrongSides: []int{0},
		Steps: steps(
			do(cut(p, 1, size(80, 164), "card", 0, work.WrongSide)),
			do(work.NotchOut{What: p, Notch: notch}),
			do(work.TurnOver{What: p}, work.ScoreAt{What: p, Line: line, On: score.Back}, work.TurnOver{What: p, Again: true}),
			do(fold(p, score.Level, 104, score.Tail, work.Towards)),
			do(glue(0), glue(74)),
			dry,
			do(work.MarkPlace{What: p, On: under, At: at(0, 0), Size: size(80, 104)}, work.Lay{What: p, On: under, At: at(0, 0), Size: size(80, 104)}),
			do(work.Fix{What: p, Panel: work.All, On: under, At: at(0, 0), Size: size(80, 104)}),
			dry,
			do(insert(0, score.Head, 7, 8, 66, 96)),
		),
	}
}

// foldedStrip has four panels: a flap, a base, a pocket front with a hem. Its
// paper is cut wrong side up, so that all that folds towards the maker shows
// the right side; the pocket's base shows the wrong one.
func foldedStrip() makertest.Job {
	p := piece(0, 0)
	line := func(at int) score.Line { return score.Line{At: l(at)} }
	glue := func(x, y, w, h int, side score.Side, to int) work.Stick {
		return work.Stick{What: p, Area: rect(x, y, w, h), Side: side, To: onPanel(0, 0, to)}
	}
	lines := []makertest.Line{{Line: line(162), Scored: true}, {Line: line(122), Scored: true}, {Line: line(60), Scored: true}}
	scores := do(work.TurnOver{What: p})
	for _, at := range []int{162, 122, 60} {
		scores = append(scores, work.ScoreAt{What: p, Line: line(at), On: score.Back})
	}
	scores = append(scores, work.TurnOver{What: p, Again: true})
	return makertest.Job{
		Stocks: []makertest.Stock{{Name: "card"}},
		Pieces: []makertest.Piece{{Name: "strip", Quantity: 1, Size: size(187, 100), Stock: "card", Caliper: mm / 4, Up: work.WrongSide, Grain: work.GrainAlongHeight,
			Glue:  []score.Glue{{Area: rect(162, 0, 25, 100)}, {Area: rect(122, 0, 15, 6)}, {Area: rect(122, 94, 15, 6)}, {Area: rect(162, 0, 25, 6), Side: score.Back}, {Area: rect(162, 94, 25, 6), Side: score.Back}},
			Lines: lines, Panels: []units.Rect{rect(0, 0, 60, 100), rect(60, 0, 62, 100), rect(122, 0, 40, 100), rect(162, 0, 25, 100)}}},
		Others: []makertest.Other{{Kind: work.Content, Size: size(50, 80), Place: rect(10, 10, 50, 80)}},
		Closed: size(62, 100), Groove: makertest.GrooveOutside, WrongSides: []int{0},
		Want: []makertest.Placed{
			{Panel: 0, Rect: rect(0, 0, 60, 100), Up: score.Back}, {Panel: 1, Rect: rect(0, 0, 62, 100)},
			{Panel: 2, Rect: rect(22, 0, 40, 100), Up: score.Back}, {Panel: 3, Rect: rect(22, 0, 25, 100)},
		},
		Steps: steps(
			do(work.FindGrain{Stocks: []string{"card"}}),
			do(cut(p, 1, size(187, 100), "card", work.GrainAlongHeight, work.WrongSide)),
			scores,
			do(fold(p, score.Upright, 162, score.Right, work.Towards)),
			do(glue(162, 0, 25, 100, score.Face, 2)),
			dry,
			do(fold(p, score.Upright, 122, score.Right, work.Towards)),
			do(glue(122, 0, 15, 6, score.Face, 1), glue(122, 94, 15, 6, score.Face, 1), glue(162, 0, 25, 6, score.Back, 1), glue(162, 94, 25, 6, score.Back, 1)),
			dry,
			do(fold(p, score.Upright, 60, score.Left, work.Towards)),
			do(work.MarkPlace{What: p, On: under, At: at(0, 0), Size: size(62, 100)}, work.Lay{What: p, On: under, At: at(0, 0), Size: size(62, 100)}),
			do(work.Fix{What: p, Panel: work.All, On: under, At: at(0, 0), Size: size(62, 100)}),
			dry,
			do(insert(0, score.Left, 10, 10, 50, 80)),
		),
	}
}

// accordion has four panels with the foot turned up, glued at both ends.
func accordion() makertest.Job {
	p := piece(0, 0)
	lines := []makertest.Line{{Line: score.Line{Axis: score.Level, At: 90 * mm}, Scored: true}}
	panels := []units.Rect{}
	kind := score.Valley
	for i := range 4 {
		panels = append(panels, rect(60*i, 0, 60, 90), rect(60*i, 90, 60, 40))
		if i == 0 {
			continue
		}
		// Seen from the face, the fold of the foot goes the other way.
		lines = append(lines, makertest.Line{Line: score.Line{At: l(60 * i), To: 90 * mm, Fold: kind}, Scored: true},
			makertest.Line{Line: score.Line{At: l(60 * i), From: 90 * mm, To: 130 * mm, Fold: kind.Other()}, Scored: true})
		kind = kind.Other()
	}
	var face, back []work.Action
	for _, s := range lines {
		if s.Fold == score.Valley {
			face = append(face, work.ScoreAt{What: p, Line: s.Line, On: score.Face})
		} else {
			back = append(back, work.ScoreAt{What: p, Line: s.Line, On: score.Back})
		}
	}
	back = append(append([]work.Action{work.TurnOver{What: p}}, back...), work.TurnOver{What: p, Again: true})
	glue := func(x int) work.Stick { return work.Stick{What: p, Area: rect(x, 90, 6, 40), To: onPiece(0, 0)} }
	j := makertest.Job{
		Stocks: []makertest.Stock{{Name: "card", TwoSided: true}},
		Pieces: []makertest.Piece{{Name: "accordion", Quantity: 1, Size: size(240, 130), Stock: "card", Caliper: mm / 4, Lines: lines, Panels: panels, Glue: []score.Glue{{Area: rect(0, 90, 6, 40)}, {Area: rect(234, 90, 6, 40)}}, Grain: work.GrainAlongHeight}},
		Closed: size(60, 90), Groove: makertest.GrooveInside,
		Steps: steps(
			do(work.FindGrain{Stocks: []string{"card"}}),
			do(cut(p, 1, size(240, 130), "card", work.GrainAlongHeight, 0)),
			append(face, back...),
			do(fold(p, score.Level, 90, score.Tail, work.Towards)),
			do(glue(0), glue(234)),
			dry,
			do(fold(p, score.Upright, 180, score.Right, work.Towards), fold(p, score.Upright, 120, score.Right, work.Away), fold(p, score.Upright, 60, score.Right, work.Towards)),
			do(work.MarkPlace{What: p, On: under, At: at(0, 0), Size: size(60, 90)}, work.Lay{What: p, On: under, At: at(0, 0), Size: size(60, 90)}),
			do(work.Fix{What: p, Panel: work.All, On: under, At: at(0, 0), Size: size(60, 90)}),
			dry,
			do(insert(0, score.Head, 8, 5, 50, 85), insert(1, score.Head, 8, 5, 50, 85), insert(2, score.Head, 8, 5, 50, 85), insert(3, score.Head, 8, 5, 50, 85)),
		),
	}
	for i := range 4 {
		j.Others = append(j.Others, makertest.Other{Kind: work.Content, Copy: i, Size: size(50, 85), Place: rect(8, 5, 50, 85)})
		j.Want = append(j.Want, makertest.Placed{Panel: 2 * i, Rect: rect(0, 0, 60, 90), Up: score.Side(i % 2)},
			makertest.Placed{Panel: 2*i + 1, Rect: rect(0, 50, 60, 40), Up: score.Side(1 - i%2)})
	}
	return j
}

// cornerPockets are four triangles with their turned edges glued down.
func cornerPockets() makertest.Job {
	all := piece(0, work.All)
	lines := []score.Line{{At: 6 * mm, Fold: score.Mountain}, {Axis: score.Level, At: 30 * mm, Fold: score.Mountain}}
	j := makertest.Job{
		Stocks: []makertest.Stock{{Name: "card"}},
		Pieces: []makertest.Piece{{Name: "corner", Quantity: 4, Size: size(36, 36), Stock: "card", Caliper: mm / 4,
			Outline:  []units.Point{point(0, 6), point(6, 0), point(36, 30), point(30, 36), point(0, 36)},
			Openings: []score.CutOut{{Area: rect(0, 30, 6, 6)}},
			Glue:     []score.Glue{{Area: rect(0, 6, 6, 18)}, {Area: rect(6, 30, 24, 6)}},
			Lines:    []makertest.Line{{Line: lines[0], Scored: true}, {Line: lines[1], Scored: true}}}},
		Closed: size(100, 140), Groove: makertest.GrooveOutside,
		Others: []makertest.Other{{Kind: work.Content, Size: size(98, 138), Place: rect(1, 1, 98, 138)}},
	}
	var marks, lays, fixes []work.Action
	for i := range 4 {
		a := work.At{Across: []score.Edge{score.Left, score.Right}[i%2], Along: []score.Edge{score.Tail, score.Head}[i/2]}
		marks = append(marks, work.MarkPlace{What: piece(0, i), On: under, At: a, Size: size(30, 30)})
		lays = append(lays, work.Lay{What: piece(0, i), On: under, At: a, Size: size(30, 30)})
		fixes = append(fixes, work.Fix{What: piece(0, i), Panel: work.All, On: under, At: a, Size: size(30, 30), Quarters: []int{0, 3, 1, 2}[i],
			Areas: []units.Rect{rect(0, 6, 6, 18), rect(6, 30, 24, 6)}})
		j.Want = append(j.Want, makertest.Placed{Copy: i, Panel: work.All, Rect: rect(70*(i%2), 110*(1-i/2), 30, 30), Polygon: [][]units.Point{
			{point(0, 110), point(30, 140), point(0, 140)}, {point(100, 110), point(100, 140), point(70, 140)},
			{point(0, 0), point(30, 0), point(0, 30)}, {point(70, 0), point(100, 0), point(100, 30)}}[i]})
	}
	into := insert(0, score.Head, 1, 1, 98, 138)
	into.Corners = true
	j.Steps = steps(
		do(cut(all, 4, size(36, 36), "card", 0, 0)),
		do(work.Open{What: all, Area: rect(0, 30, 6, 6)}),
		do(work.Trim{What: all, Corner: score.HeadRight, From: point(6, 0), To: point(36, 30)},
			work.Trim{What: all, Corner: score.HeadLeft, From: point(0, 6), To: point(6, 0)}, work.Trim{What: all, Corner: score.TailRight, From: point(36, 30), To: point(30, 36)}),
		do(work.ScoreAt{What: all, Line: lines[0], On: score.Face}, work.ScoreAt{What: all, Line: lines[1], On: score.Face}),
		do(fold(all, score.Upright, 6, score.Left, work.Away), fold(all, score.Level, 30, score.Tail, work.Away)),
		marks, lays, fixes, dry, do(into),
	)
	return j
}

// frame is a window raised on three strips of foam.
func frame() makertest.Job {
	f := piece(0, 0)
	stick := func(i, copy, x, y, w, h int) work.Fix {
		return work.Fix{What: piece(i, copy), Panel: work.All, On: onPiece(0, 0), At: at(x, y), By: work.SelfSticky, Size: size(w, h)}
	}
	return makertest.Job{
		Stocks: []makertest.Stock{{Name: "card"}, {Name: "foam", TwoSided: true}},
		Pieces: []makertest.Piece{
			{Name: "frame", Quantity: 1, Size: size(100, 120), Stock: "card", Caliper: mm / 4, Openings: []score.CutOut{{Area: rect(15, 16, 70, 88)}}},
			{Name: "side foam", Quantity: 2, Size: size(5, 120), Stock: "foam", Caliper: 2 * mm},
			{Name: "far foam", Quantity: 1, Size: size(90, 5), Stock: "foam", Caliper: 2 * mm},
		},
		Others: []makertest.Other{{Kind: work.Content, Size: size(88, 110), Place: rect(6, 5, 88, 110)}},
		Closed: size(100, 120),
		Want: []makertest.Placed{
			{Panel: work.All, Rect: rect(0, 0, 100, 120)}, {Piece: 1, Panel: work.All, Rect: rect(95, 0, 5, 120), Up: score.Back},
			{Piece: 1, Copy: 1, Panel: work.All, Rect: rect(0, 0, 5, 120), Up: score.Back}, {Piece: 2, Panel: work.All, Rect: rect(5, 115, 90, 5), Up: score.Back},
		},
		Steps: steps(
			do(cut(f, 1, size(100, 120), "card", 0, 0), cut(piece(1, work.All), 2, size(5, 120), "foam", 0, 0), cut(piece(2, 0), 1, size(90, 5), "foam", 0, 0)),
			do(work.Open{What: f, Area: rect(15, 16, 70, 88)}),
			do(work.TurnOver{What: f}),
			do(stick(1, 0, 0, 0, 5, 120), stick(1, 1, 95, 0, 5, 120), stick(2, 0, 5, 115, 90, 5)),
			do(work.TurnOver{What: f, Again: true}),
			do(work.MarkPlace{What: f, On: under, At: at(0, 0), Size: size(100, 120)}, work.Lay{What: f, On: under, At: at(0, 0), Size: size(100, 120)}),
			do(work.Fix{What: f, Panel: work.All, On: under, At: at(0, 0), By: work.SelfSticky, Size: size(100, 120)}),
			do(insert(0, score.Head, 6, 5, 88, 110)),
		),
	}
}

// onNotch is a slip pocket with a label on its front, over the thumb notch, through which
// that sticks to the card.
func onNotch() makertest.Job {
	j := slipPocket()
	label := piece(1, 0)
	on, at, s := onPiece(0, 0), at(25, 0), size(30, 20)
	j.Pieces = append(j.Pieces, makertest.Piece{Name: "label", Quantity: 1, Size: s, Stock: "card", Caliper: mm / 4, Fitting: 1})
	j.Want = append(j.Want, makertest.Placed{Piece: 1, Panel: work.All, Rect: rect(25, 50, 30, 20)})
	j.Covering = []int{1}
	j.Closed = size(80, 110)
	var all [][]work.Action
	for _, s := range j.Steps {
		all = append(all, s.Do)
	}
	j.Steps = steps(append(all,
		do(cut(label, 1, s, "card", 0, 0)),
		do(work.MarkPlace{What: label, On: on, At: at, Size: s}, work.Lay{What: label, On: on, At: at, Size: s}),
		do(work.Fix{What: label, Panel: work.All, On: on, At: at, Size: s, Marked: true}),
		dry)...)
	return j
}

// What lies over a notch sticks to what is seen in it, which is an objection where the
// plan does not warn of it.
func TestOverANotch(t *testing.T) {
	j := onNotch()
	mustFollow(t, j)
	j.Covering = nil
	if err := makertest.Follow(j); err == nil || !strings.Contains(err.Error(), "adhesive meets") {
		t.Errorf("unwarned: %v", err)
	}
}

// A leaf that is held at its tab alone is lifted for what is put under it, and one that
// is glued at its foot too is not.
func TestUnderALeaf(t *testing.T) {
	leaf, label := piece(0, 0), piece(1, 0)
	line := score.Line{Axis: score.Level, At: 10 * mm}
	job := func(areas ...units.Rect) makertest.Job {
		stick := work.Fix{What: leaf, Panel: 0, On: under, At: at(0, 0), Size: size(60, 10), Areas: areas}
		return makertest.Job{
			Stocks: []makertest.Stock{{Name: "card", TwoSided: true}},
			Pieces: []makertest.Piece{
				{Name: "leaf", Quantity: 1, Size: size(60, 50), Stock: "card", Caliper: mm / 4, Lines: []makertest.Line{{Line: line, Scored: true}}, Panels: []units.Rect{rect(0, 0, 60, 10), rect(0, 10, 60, 40)}},
				{Name: "label", Quantity: 1, Size: size(20, 10), Stock: "card", Caliper: mm / 4, Fitting: 1},
			},
			Closed: size(60, 50),
			Want:   []makertest.Placed{{Panel: 0, Rect: rect(0, 0, 60, 10)}, {Piece: 1, Panel: work.All, Rect: rect(10, 20, 20, 10)}},
			Steps: steps(
				do(cut(leaf, 1, size(60, 50), "card", 0, 0)),
				do(work.ScoreAt{What: leaf, Line: line}),
				do(work.FoldAt{What: leaf, Axis: score.Level, At: 10 * mm, Moves: score.Tail, Way: work.Towards, Open: true, Flat: true}),
				do(work.MarkPlace{What: leaf, On: under, At: at(0, 0), Size: size(60, 10)}, work.Lay{What: leaf, On: under, At: at(0, 0), Size: size(60, 10)}),
				do(stick),
				dry,
				do(cut(label, 1, size(20, 10), "card", 0, 0)),
				do(work.MarkPlace{What: label, On: under, At: at(10, 20), Size: size(20, 10)}, work.Lay{What: label, On: under, At: at(10, 20), Size: size(20, 10)}),
				do(work.Fix{What: label, Panel: work.All, On: under, At: at(10, 20), Size: size(20, 10), Marked: true}),
				dry,
			),
		}
	}
	if err := makertest.Follow(job(rect(0, 0, 60, 10))); err != nil {
		t.Error(err)
	}
	if err := makertest.Follow(job(rect(0, 0, 60, 10), rect(0, 45, 60, 5))); err == nil {
		t.Error("nobody minds a leaf that is glued at its foot, too")
	}
	j := job(rect(0, 0, 60, 10))
	crease := action[work.FoldAt](j, 3, 0)
	crease.Flat = false
	if err := makertest.Follow(with(j, 3, 0, crease)); err == nil || !strings.Contains(err.Error(), "no wall stands") {
		t.Errorf("creased to a right angle, where no wall is: %v", err)
	}
}

// A flap that is creased and laid open first is folded over all the same, unless it was
// bent to a right angle only.
func TestCreasedBefore(t *testing.T) {
	for _, flat := range [...]bool{true, false} {
		j := foldedStrip()
		over := action[work.FoldAt](j, 10, 0)
		crease := over
		crease.Open, crease.Flat = true, flat
		j.Steps[9].Do = do(crease, over)
		if err := makertest.Follow(j); (err == nil) != flat || err != nil && !strings.Contains(err.Error(), "creased to a right angle") {
			t.Errorf("flat %t: %v", flat, err)
		}
	}
}

// What another fitting puts in front of the mouth is in the way of what is slipped in,
// unless that is in already.
func TestInTheWayIn(t *testing.T) {
	label, s := piece(1, 0), size(10, 4)
	job := func(before bool) makertest.Job {
		j := slipPocket()
		j.Others[0].Way = rect(7, 0, 66, 8)
		j.Pieces = append(j.Pieces, makertest.Piece{Name: "label", Quantity: 1, Size: s, Stock: "card", Caliper: mm / 4, Fitting: 1})
		j.Want = append(j.Want, makertest.Placed{Piece: 1, Panel: work.All, Rect: rect(30, 2, 10, 4)})
		var all [][]work.Action
		for _, s := range j.Steps {
			all = append(all, s.Do)
		}
		last := len(all) - 1
		more := [][]work.Action{
			do(cut(label, 1, s, "card", 0, 0)),
			do(work.MarkPlace{What: label, On: under, At: at(30, 2), Size: s}, work.Lay{What: label, On: under, At: at(30, 2), Size: s}),
			do(work.Fix{What: label, Panel: work.All, On: under, At: at(30, 2), Size: s, Marked: true}),
			dry,
		}
		if before {
			all = slices.Concat(all[:last], more, all[last:])
		} else {
			all = append(all, more...)
		}
		j.Steps = steps(all...)
		return j
	}
	if err := makertest.Follow(job(false)); err != nil {
		t.Error(err)
	}
	if err := makertest.Follow(job(true)); err == nil || !strings.Contains(err.Error(), "in the way") {
		t.Errorf("a label in front of the mouth: %v", err)
	}
}
