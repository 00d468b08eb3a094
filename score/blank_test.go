package score_test

import (
	"context"
	"errors"
	"maps"
	"slices"
	"testing"

	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

func rect(x0, y0, x1, y1 units.Length) units.Rect {
	return units.Rect{Min: units.Point{X: x0 * mm, Y: y0 * mm}, Max: units.Point{X: x1 * mm, Y: y1 * mm}}
}

// aPocket is a blank with something of everything: a card pocket for a rowing
// crew's log, two glue tabs beside its turned-up front.
func aPocket() score.Draft {
	return score.Draft{
		Size: units.Size{W: 120 * mm, H: 160 * mm},
		Lines: []score.Line{
			{Axis: score.Level, At: 100 * mm, Fold: score.Valley},
			{Axis: score.Upright, At: 10 * mm, From: 100 * mm, To: 160 * mm, Fold: score.Mountain},
			{Axis: score.Upright, At: 110 * mm, From: 100 * mm, To: 160 * mm, Fold: score.Mountain},
		},
		CutOuts: []score.CutOut{
			{Area: rect(0, 0, 10, 100)},
			{Area: rect(110, 0, 120, 100)},
			{Area: rect(30, 20, 90, 80), Radius: 5 * mm},
		},
		Notches: []score.Notch{{Edge: score.Tail, Middle: 60 * mm, Width: 20 * mm, Depth: 10 * mm, Round: true}},
		Glue:    []score.Glue{{Area: rect(10, 0, 110, 10), Side: score.Back}},
		Tabs: []score.Tab{
			{Edge: score.Left, Depth: 10 * mm, From: 100 * mm, To: 160 * mm, Taper: 3 * mm, Side: score.Face},
			{Edge: score.Right, Depth: 10 * mm, From: 100 * mm, To: 160 * mm, Taper: 3 * mm, Side: score.Face},
		},
	}
}

func TestBlank(t *testing.T) {
	d := aPocket()
	b, err := score.NewBlank(d)
	if err != nil {
		t.Fatal(err)
	}
	// A copy is taken on the way in and on the way out.
	d.Lines[0].At = mm
	b.Draft().Tabs[0].Depth = mm
	if got := b.Draft(); got.Lines[0].At != 100*mm || got.Tabs[0].Depth != 10*mm {
		t.Error("the blank is shared with the caller")
	}
	lines := maps.Collect(b.Lines())
	if l := lines[0]; l.From != 0 || l.To != 120*mm || !b.Whole(l) || b.Whole(lines[1]) {
		t.Errorf("lines %v", lines)
	}
	// Only the line from edge to edge folds the whole blank.
	down, err := b.Strip(score.Level)
	if err != nil || down.String() != "100 v 60 mm" {
		t.Errorf("%v, %v", down, err)
	}
	across, err := b.Strip(score.Upright)
	if err != nil || across.String() != "120 mm" {
		t.Errorf("%v, %v", across, err)
	}
	for _, n := range b.Notches() {
		if got := n.Area(b.Size()); got != rect(50, 150, 70, 160) {
			t.Errorf("notch at %v", got)
		}
	}
	var tabs []units.Rect
	for _, tab := range b.Tabs() {
		tabs = append(tabs, tab.Area(b.Size()))
	}
	if !slices.Equal(tabs, []units.Rect{rect(0, 100, 10, 160), rect(110, 100, 120, 160)}) {
		t.Errorf("tabs at %v", tabs)
	}
	if n := len(maps.Collect(b.CutOuts())) + len(maps.Collect(b.Glue())); n != 4 {
		t.Errorf("%d cut-outs and glue areas", n)
	}
	again, err := score.NewBlank(b.Draft())
	if err != nil || again.Size() != b.Size() {
		t.Errorf("the drawing of a blank does not make it again: %v", err)
	}
}

// However few or many there are of each, a blank has the lines and the glue that it was
// drawn with, and does not share them.
func TestBlankKeepsLinesAndGlue(t *testing.T) {
	for lines := range 5 {
		for glue := range 7 {
			d := score.Draft{Size: units.Size{W: 90 * mm, H: 60 * mm}}
			for i := range lines {
				d.Lines = append(d.Lines, score.Line{Axis: score.Upright, At: units.Length(i+1) * 10 * mm, Fold: score.Valley})
			}
			for i := range glue {
				d.Glue = append(d.Glue, score.Glue{Area: rect(units.Length(i)*10, 0, units.Length(i)*10+5, 60)})
			}
			b, err := score.NewBlank(d)
			if err != nil {
				t.Fatal(err)
			}
			want := score.Draft{Lines: slices.Clone(d.Lines), Glue: slices.Clone(d.Glue)}
			for i := range d.Lines {
				d.Lines[i].At = mm
			}
			for i := range d.Glue {
				d.Glue[i].Area = units.Rect{}
			}
			got := b.Draft()
			if !slices.EqualFunc(got.Lines, want.Lines, func(a, b score.Line) bool { return a.At == b.At && a.Fold == b.Fold }) || !slices.Equal(got.Glue, want.Glue) {
				t.Errorf("%d lines and %d glue areas: %v and %v", lines, glue, got.Lines, got.Glue)
			}
		}
	}
}

func TestStripBlank(t *testing.T) {
	s := mustStrip(t, []units.Length{30 * mm, 40 * mm, 20 * mm}, score.Valley, score.Mountain)
	for axis, size := range map[score.Axis]units.Size{score.Upright: {W: 90 * mm, H: 50 * mm}, score.Level: {W: 50 * mm, H: 90 * mm}} {
		b, err := score.StripBlank(s, axis, 50*mm)
		if err != nil || b.Size() != size {
			t.Fatalf("%v: %v, %v", axis, b.Size(), err)
		}
		if got, err := b.Strip(axis); err != nil || !got.Equal(s) {
			t.Errorf("%v: %v comes back as %v, %v", axis, s, got, err)
		}
	}
	violation(t, second(score.StripBlank(s, score.Level, 0)), "size.w", check.NotPositive)
}

func TestBlankErrors(t *testing.T) {
	d := aPocket()
	d.Lines = append(d.Lines,
		score.Line{Axis: score.Level, At: 0},
		score.Line{Axis: score.Level, At: 160 * mm},
		score.Line{Axis: score.Upright, At: 10 * mm, From: 150 * mm, To: 170 * mm},
		score.Line{Axis: 4})
	d.CutOuts = append(d.CutOuts,
		score.CutOut{Area: rect(80, 70, 100, 90)},
		score.CutOut{Area: rect(100, 150, 130, 155)},
		score.CutOut{Area: rect(100, 150, 90, 155)},
		score.CutOut{Area: rect(12, 120, 20, 124), Radius: 3 * mm},
		score.CutOut{Area: rect(0, 0, 120, 160)})
	d.Notches = append(d.Notches,
		score.Notch{Edge: 9},
		score.Notch{Edge: score.Left, Middle: 2 * mm, Width: 10 * mm, Depth: 5 * mm},
		score.Notch{Edge: score.Left, Middle: 20 * mm, Width: 10 * mm, Depth: 120 * mm},
		score.Notch{Edge: score.Tail, Middle: 70 * mm, Width: 10 * mm, Depth: 5 * mm},
		score.Notch{Edge: score.Head, Middle: -mm, Width: 0, Depth: -mm})
	d.Glue = append(d.Glue,
		score.Glue{Area: rect(20, 5, 30, 12), Side: score.Back},
		score.Glue{Area: rect(20, 5, 30, 12), Side: score.Face},
		score.Glue{Area: rect(35, 25, 40, 30)},
		score.Glue{Area: rect(35, 125, 40, 230), Side: 3},
		score.Glue{Area: rect(55, 152, 65, 158)})
	d.Tabs = append(d.Tabs,
		score.Tab{Edge: score.Left, Depth: 5 * mm, From: 90 * mm, To: 110 * mm},
		score.Tab{Edge: score.Head, Depth: 5 * mm, From: 20 * mm, To: 130 * mm},
		score.Tab{Edge: score.Head, Depth: 170 * mm},
		score.Tab{Edge: score.Head, Depth: mm, From: 10 * mm, To: 20 * mm, Taper: 5 * mm},
		score.Tab{Edge: 4})
	_, err := score.NewBlank(d)
	for _, want := range []struct {
		path string
		code check.Code
	}{
		{"lines[3].at", score.OffSheet}, {"lines[4].at", score.OffSheet}, {"lines[5]", score.OffSheet}, {"lines[5]", score.Overlap}, {"lines[6].axis", check.Unknown},
		{"cutouts[3].area", score.Overlap}, {"cutouts[4].area", score.OffSheet}, {"cutouts[5].area", check.NotPositive},
		{"cutouts[6].radius", check.OutOfRange}, {"cutouts[7]", score.NoPaper}, {"cutouts[7].area", score.Overlap},
		{"notches[1].edge", check.Unknown}, {"notches[2].middle", score.OffSheet}, {"notches[3].depth", score.NoPaper},
		{"notches[4]", score.Overlap}, {"notches[5].width", check.NotPositive}, {"notches[5].depth", check.NotPositive}, {"notches[5].middle", check.Negative},
		{"glue[1].area", score.Overlap}, {"glue[3]", score.NoPaper}, {"glue[4].area", score.OffSheet}, {"glue[4].side", check.Unknown}, {"glue[5]", score.NoPaper},
		{"tabs[2]", score.Overlap}, {"tabs[3]", score.OffSheet}, {"tabs[4].depth", score.OffSheet}, {"tabs[5].taper", check.TooLarge}, {"tabs[6].edge", check.Unknown},
	} {
		violation(t, err, want.path, want.code)
	}
	var e *check.Error
	if !errors.As(err, &e) {
		t.Fatal(err)
	}
	if _, found := e.Find("glue[2].area", score.Overlap); found {
		t.Error("glue on the face overlaps glue on the back")
	}
	d = aPocket()
	d.Glue = append(d.Glue, score.Glue{Area: rect(55, 152, 65, 158)}) // in the thumb notch
	v := violation(t, second(score.NewBlank(d)), "glue[1]", score.NoPaper)
	if want := "it left out; notches[0] takes the paper away"; v.Want != want {
		t.Errorf("want %q, not %q", v.Want, want)
	}
	violation(t, second(score.NewBlank(score.Draft{})), "size.w", check.NotPositive)
	many := score.Draft{Size: units.Size{W: mm, H: mm}, Lines: make([]score.Line, score.MaxParts+1)}
	violation(t, second(score.NewBlank(many)), "lines", check.TooMany)
}

// TestFoldSheet: a folded-up accordion of four panels with its foot turned up
// by the pocket depth; the walk of a hiking club's four tours. Worked by hand.
func TestFoldSheet(t *testing.T) {
	foot := mustStrip(t, []units.Length{100 * mm, 60 * mm}, score.Valley)
	panels := mustStrip(t, slices.Repeat([]units.Length{70 * mm}, 4), score.Alternate(3, score.Valley)...)
	first, err := foot.Fold()
	if err != nil {
		t.Fatal(err)
	}
	fan, err := panels.Fold()
	if err != nil {
		t.Fatal(err)
	}
	s := across(t, score.Level, first, fan)
	if got, want := s.Size(), (units.Size{W: 70 * mm, H: 100 * mm}); got != want {
		t.Errorf("size %v, want %v", got, want)
	}
	if s.MostLayers() != 8 || s.Thickness(mm/4) != 2*mm {
		t.Errorf("%d layers", s.MostLayers())
	}
	// The pockets are 60 mm deep, so the upper 40 mm have one layer a panel.
	var patches []score.Patch
	for p := range s.Patches() {
		patches = append(patches, p)
	}
	if want := []score.Patch{{Area: rect(0, 0, 70, 40), Layers: 4}, {Area: rect(0, 40, 70, 100), Layers: 8}}; !slices.Equal(patches, want) {
		t.Errorf("patches %v, want %v", patches, want)
	}
	// In the pockets: leaf then front in the first panel, front then leaf in
	// the second, which lies face down.
	want := []score.CrossPanel{{0, 0}, {1, 0}, {1, 1}, {0, 1}, {0, 2}, {1, 2}, {1, 3}, {0, 3}}
	if got := s.At(units.Point{X: 30 * mm, Y: 50 * mm}); !slices.Equal(got, want) {
		t.Errorf("layers %v, want %v", got, want)
	}
	if got := s.At(units.Point{X: 30 * mm, Y: 20 * mm}); len(got) != 4 {
		t.Errorf("layers %v above the pockets", got)
	}
	// On the flat sheet the scores of the foot are folded the other way than
	// those of the leaves, since the foot is turned over.
	b, err := score.NewBlank(s.Draft())
	if err != nil {
		t.Fatal(err)
	}
	wantLines := []score.Line{{Axis: score.Level, At: 100 * mm, To: 280 * mm}}
	for i, f := range score.Alternate(3, score.Valley) {
		at := []units.Length{70 * mm, 140 * mm, 210 * mm}[i]
		wantLines = append(wantLines,
			score.Line{Axis: score.Upright, At: at, To: 100 * mm, Fold: f},
			score.Line{Axis: score.Upright, At: at, From: 100 * mm, To: 160 * mm, Fold: f.Other()})
	}
	var lines []score.Line
	for _, l := range b.Lines() {
		lines = append(lines, l)
	}
	if !slices.Equal(lines, wantLines) {
		t.Errorf("lines\n%v, want\n%v", lines, wantLines)
	}
	if b.Size() != (units.Size{W: 280 * mm, H: 160 * mm}) {
		t.Errorf("blank %v", b.Size())
	}
	// The other way round on the other axis.
	turned := across(t, score.Upright, first, fan)
	if turned.Size() != s.Size().Turned() || len(turned.At(units.Point{X: 50 * mm, Y: 30 * mm})) != 8 {
		t.Errorf("turned %v", turned.Size())
	}
	// A foot that is scored but left flat changes nothing in the lines across.
	flat, err := foot.FoldBy(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if got := across(t, score.Level, flat, fan).Draft(); len(got.Lines) != 3 || got.Lines[0].To != 160*mm {
		t.Errorf("lines %v", got.Lines)
	}
}

// across is FoldAcross where it must succeed.
func across(t *testing.T, axis score.Axis, first, second score.Folding) score.CrossFolded {
	t.Helper()
	s, err := score.FoldAcross(axis, first, second)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestFoldAcrossIsBounded(t *testing.T) {
	long := mustStrip(t, slices.Repeat([]units.Length{mm}, score.MaxPanels), score.Alternate(score.MaxPanels-1, score.Valley)...)
	f, err := long.Fold()
	if err != nil {
		t.Fatal(err)
	}
	violation(t, second(score.FoldAcross(score.Level, f, f)), "panels", check.TooMany) // 4,000,000
	eleven, err := mustStrip(t, slices.Repeat([]units.Length{mm}, score.MaxParcels/score.MaxPanels+1), score.Repeat(score.MaxParcels/score.MaxPanels, score.Valley)...).Fold()
	if err != nil {
		t.Fatal(err)
	}
	violation(t, second(score.FoldAcross(score.Level, f, eleven)), "panels", check.TooMany)
	// 113 x 177 parts are one more than there may be.
	folded := func(n int) score.Folding {
		f, err := mustStrip(t, slices.Repeat([]units.Length{mm}, n), score.Alternate(n-1, score.Valley)...).Fold()
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	violation(t, second(score.FoldAcross(score.Level, folded(113), folded(177))), "panels", check.TooMany) // 20,001
	if _, err := score.FoldAcross(score.Level, folded(113), folded(176)); err != nil {
		t.Error(err)
	}
	violation(t, second(score.FoldAcross(7, f, f)), "axis", check.Unknown)
	ten, err := mustStrip(t, slices.Repeat([]units.Length{mm}, score.MaxParcels/score.MaxPanels), score.Repeat(score.MaxParcels/score.MaxPanels-1, score.Valley)...).Fold()
	if err != nil {
		t.Fatal(err)
	}
	most := across(t, score.Level, f, ten)
	if n := len(most.Draft().Lines); n != score.MaxPanels-1+score.MaxPanels*9 {
		t.Errorf("%d lines", n)
	}
}
