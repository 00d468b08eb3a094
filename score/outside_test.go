package score_test

import (
	"context"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Each drawing has the violations that stand beside it and no others, so that
// what is unsound by itself is not blamed for lying on something as well, and
// what would do is where there is room.
func TestWrongDrawings(t *testing.T) {
	window := score.CutOut{Area: rect(40, 0, 60, 20)}
	sheet := units.Size{W: 100 * mm, H: 60 * mm}
	line := func(from, to int) score.Line {
		return score.Line{At: 50 * mm, From: units.Length(from) * mm, To: units.Length(to) * mm}
	}
	level := func(from, to int) score.Line {
		l := line(from, to)
		l.Axis = score.Level
		l.At = 30 * mm
		return l
	}
	glue := func(x0, y0, x1, y1 units.Length) score.Glue { return score.Glue{Area: rect(x0, y0, x1, y1)} }
	for name, c := range map[string]struct {
		d    score.Draft
		want []string
	}{
		"lines that touch":        {score.Draft{Lines: []score.Line{line(10, 20), line(20, 30), line(0, 10)}}, nil},
		"lines elsewhere":         {score.Draft{Lines: []score.Line{line(10, 20), level(10, 20)}}, nil},
		"a line at the end":       {score.Draft{Lines: []score.Line{line(10, 20), line(15, 25)}}, []string{"lines[1]: overlap: got 15 mm to 25 mm; want an extent from 20 mm to 25 mm, clear of lines[0]"}},
		"a line at the beginning": {score.Draft{Lines: []score.Line{line(10, 20), line(5, 15)}}, []string{"lines[1]: overlap: got 5 mm to 15 mm; want an extent from 5 mm to 10 mm, clear of lines[0]"}},
		"a line over two": {score.Draft{Lines: []score.Line{level(50, 60), level(20, 30), level(0, 100)}},
			[]string{"lines[2]: overlap: got 0 mm to 100 mm; want an extent from 60 mm to 100 mm, clear of lines[0]"}},
		"a line longer at its end": {score.Draft{Lines: []score.Line{level(20, 30), level(10, 60)}},
			[]string{"lines[1]: overlap: got 10 mm to 60 mm; want an extent from 30 mm to 60 mm, clear of lines[0]"}},
		"a line over nested ones": {score.Draft{Lines: []score.Line{level(10, 90), level(20, 30), level(0, 100)}}, []string{
			"lines[1]: overlap: got 20 mm to 30 mm; want it left out; lines[0] lies there",
			"lines[2]: overlap: got 0 mm to 100 mm; want an extent from 0 mm to 10 mm, clear of lines[0]"}},
		"glue on glue": {score.Draft{Glue: []score.Glue{glue(0, 0, 30, 60), glue(80, 0, 100, 60), glue(10, 10, 90, 50)}},
			[]string{"glue[2].area: overlap: got x 10 mm to 90 mm, y 10 mm to 50 mm; want an area clear of glue[0], such as x 30 mm to 80 mm, y 10 mm to 50 mm"}},
		"glue over glue": {score.Draft{Glue: []score.Glue{glue(40, 20, 60, 30), glue(30, 10, 70, 58)}},
			[]string{"glue[1].area: overlap: got x 30 mm to 70 mm, y 10 mm to 58 mm; want an area clear of glue[0], such as x 30 mm to 70 mm, y 30 mm to 58 mm"}},
		"glue under glue": {score.Draft{Glue: []score.Glue{glue(40, 20, 60, 30), glue(42, 22, 58, 28)}}, []string{"glue[1]: overlap: got x 42 mm to 58 mm, y 22 mm to 28 mm; want it left out; glue[0] lies there"}},
		"a window on a window": {score.Draft{CutOuts: []score.CutOut{window, {Area: rect(50, 10, 90, 25)}}},
			[]string{"cutouts[1].area: overlap: got x 50 mm to 90 mm, y 10 mm to 25 mm; want an area clear of cutouts[0], such as x 60 mm to 90 mm, y 10 mm to 25 mm"}},
		"a radius too large, over a window": {score.Draft{CutOuts: []score.CutOut{window, {Area: rect(50, 10, 90, 25), Radius: 9 * mm}}},
			[]string{"cutouts[1].radius: out-of-range: got 9 mm; want 0 to half the shorter side, 7.5 mm"}},
		"a notch at no edge":      {score.Draft{CutOuts: []score.CutOut{window}, Notches: []score.Notch{{Edge: 9, Middle: 50 * mm, Width: 10 * mm, Depth: 5 * mm}}}, []string{"notches[0].edge: unknown: got 9; want head, tail, left or right"}},
		"a notch without a width": {score.Draft{CutOuts: []score.CutOut{window}, Notches: []score.Notch{{Middle: 50 * mm, Depth: 5 * mm}}}, []string{"notches[0].width: not-positive: got 0 mm; want a length from 0.01 mm to 10 m"}},
		"a notch too deep":        {score.Draft{CutOuts: []score.CutOut{window}, Notches: []score.Notch{{Middle: 50 * mm, Width: 10 * mm, Depth: 61 * mm}}}, []string{"notches[0].depth: off-sheet: got 61 mm; want at most 59.999999 mm, or no paper is left behind it"}},
		"a notch too wide":        {score.Draft{Notches: []score.Notch{{Edge: score.Left, Middle: 30 * mm, Width: 61 * mm, Depth: 5 * mm}}}, []string{"notches[0].width: off-sheet: got 61 mm; want at most 60 mm"}},
		"a notch off the end":     {score.Draft{Notches: []score.Notch{{Edge: score.Left, Middle: 58 * mm, Width: 10*mm + 1, Depth: 5 * mm}}}, []string{"notches[0].middle: off-sheet: got 58 mm; want at most 54.999999 mm"}},
		"a notch off the head":    {score.Draft{Notches: []score.Notch{{Edge: score.Left, Middle: mm, Width: 10*mm + 1, Depth: 5 * mm}}}, []string{"notches[0].middle: off-sheet: got 1 mm; want at least 5 mm"}},
		"a notch in a window": {score.Draft{CutOuts: []score.CutOut{window}, Notches: []score.Notch{{Middle: 55 * mm, Width: 10 * mm, Depth: 5 * mm}}},
			[]string{"notches[0].middle: overlap: got x 50 mm to 60 mm, y 0 mm to 5 mm; want 65 mm, clear of cutouts[0]"}},
		"a notch between windows": {score.Draft{CutOuts: []score.CutOut{{Area: rect(50, 0, 100, 20)}, window0(0, 30)}, Notches: []score.Notch{{Middle: 52 * mm, Width: 16 * mm, Depth: 5 * mm}}},
			[]string{"notches[0].middle: overlap: got x 44 mm to 60 mm, y 0 mm to 5 mm; want 42 mm, clear of cutouts[0]"}},
		"a notch without room": {score.Draft{CutOuts: []score.CutOut{{Area: rect(50, 0, 100, 20)}, window0(0, 30)}, Notches: []score.Notch{{Middle: 52 * mm, Width: 21 * mm, Depth: 5 * mm}}},
			[]string{"notches[0]: overlap: got x 41.5 mm to 62.5 mm, y 0 mm to 5 mm; want it left out; cutouts[0] lies there"}},
		"a slant too long": {score.Draft{Slants: []score.Slant{{Along: 101 * mm, Down: 61 * mm}}}, []string{"slants[0].along: off-sheet: got 101 mm; want at most 100 mm", "slants[0].down: off-sheet: got 61 mm; want at most 60 mm"}},
		"a tab on no side": {score.Draft{Tabs: []score.Tab{{Edge: score.Right, Depth: mm, Side: 2}}}, []string{"tabs[0].side: unknown: got 2; want face or back"}},
		"glue where nothing is left": {score.Draft{CutOuts: []score.CutOut{{Area: rect(10, 10, 40, 40)}, {Area: rect(12, 12, 50, 50)}}, Glue: []score.Glue{{Area: rect(20, 20, 30, 30)}}}, []string{
			"cutouts[1].area: overlap: got x 12 mm to 50 mm, y 12 mm to 50 mm; want an area clear of cutouts[0], such as x 40 mm to 50 mm, y 12 mm to 50 mm",
			"glue[0]: no-paper: got x 20 mm to 30 mm, y 20 mm to 30 mm; want it left out; cutouts[0] takes the paper away"}},
		"a slant on a slant":            {score.Draft{Slants: []score.Slant{{Along: 10 * mm, Down: 10 * mm}, {Along: 5 * mm, Down: 20 * mm}}}, []string{"slants[1]: overlap: got x 0 mm to 5 mm, y 0 mm to 20 mm; want it left out; slants[0] lies there"}},
		"a tab at no edge":              {score.Draft{CutOuts: []score.CutOut{window}, Tabs: []score.Tab{{Edge: 4, Depth: 10 * mm, From: 40 * mm, To: 60 * mm, Taper: 2 * mm}}}, []string{"tabs[0].edge: unknown: got 4; want head, tail, left or right"}},
		"a tab at no edge, by its back": {score.Draft{Tabs: []score.Tab{{Edge: 4, Depth: 10 * mm, Side: score.Back}}}, []string{"tabs[0].edge: unknown: got 4; want head, tail, left or right"}},
		"glue as wide beside as before": {score.Draft{Glue: []score.Glue{glue(40, 0, 60, 60), glue(20, 0, 80, 60)}},
			[]string{"glue[1].area: overlap: got x 20 mm to 80 mm, y 0 mm to 60 mm; want an area clear of glue[0], such as x 20 mm to 40 mm, y 0 mm to 60 mm"}},
		"glue in a notch at the right": {score.Draft{Notches: []score.Notch{{Edge: score.Right, Middle: 30 * mm, Width: 20 * mm, Depth: 10 * mm}}, Glue: []score.Glue{glue(92, 25, 98, 35)}},
			[]string{"glue[0]: no-paper: got x 92 mm to 98 mm, y 25 mm to 35 mm; want it left out; notches[0] takes the paper away"}},
		"a tab on one at the right": {score.Draft{Tabs: []score.Tab{{Edge: score.Right, Depth: 20 * mm}, {Edge: score.Tail, Depth: 10 * mm}}}, []string{"tabs[1]: overlap: got 0 mm to 100 mm; want an extent from 0 mm to 80 mm, clear of tabs[0]"}},
		"a tab of no side":          {score.Draft{Tabs: []score.Tab{{Side: 2, Depth: 10 * mm}}}, []string{"tabs[0].side: unknown: got 2; want face or back"}},
		"a tab too deep":            {score.Draft{CutOuts: []score.CutOut{window}, Tabs: []score.Tab{{Depth: 61 * mm, From: 38 * mm, To: 62 * mm, Taper: 5 * mm}}}, []string{"tabs[0].depth: off-sheet: got 61 mm; want at most 60 mm"}},
		"a tab too long":            {score.Draft{Tabs: []score.Tab{{Edge: score.Right, Depth: 5 * mm, From: 10 * mm, To: 61 * mm}}}, []string{"tabs[0]: off-sheet: got 10 mm to 61 mm; want an extent between 0 and 60 mm"}},
		"a tab of no length":        {score.Draft{Tabs: []score.Tab{{Edge: score.Tail, Depth: 5 * mm, From: 10 * mm, To: 10 * mm}}}, []string{"tabs[0]: off-sheet: got 10 mm to 10 mm; want an extent between 0 and 100 mm"}},
		"tapers that meet":          {score.Draft{Tabs: []score.Tab{{Edge: score.Tail, Depth: 5 * mm, From: 10 * mm, To: 20 * mm, Taper: 5 * mm}}}, []string{"tabs[0].taper: too-large: got 5 mm; want at most 4.999999 mm, or nothing is left of the tab"}},
		"a negative taper":          {score.Draft{Tabs: []score.Tab{{Edge: score.Tail, Depth: 5 * mm, From: 10 * mm, To: 20 * mm, Taper: -1}}}, []string{"tabs[0].taper: negative: got -0.000001 mm; want 0 or a length up to 10 m"}},
		"a taper in a window": {score.Draft{CutOuts: []score.CutOut{window}, Tabs: []score.Tab{{Depth: 10 * mm, From: 55 * mm, To: 90 * mm, Taper: 8 * mm}}},
			[]string{"tabs[0].taper: overlap: got x 55 mm to 63 mm, y 0 mm to 10 mm; want 0, which cuts nothing off; cutouts[0] lies there"}},
		"a tab on a tab":                   {score.Draft{Tabs: []score.Tab{{Edge: score.Left, Depth: 20 * mm}, {Depth: 10 * mm, Taper: mm}}}, []string{"tabs[1]: overlap: got 0 mm to 100 mm; want an extent from 20 mm to 100 mm, clear of tabs[0]"}},
		"cut across":                       {score.Draft{CutOuts: []score.CutOut{{Area: rect(0, 20, 100, 30)}}}, []string{"cutouts[0]: in-pieces: got a cut that leaves 2 pieces; want it left out, or made smaller, so that one piece is left"}},
		"cut through":                      {score.Draft{CutOuts: []score.CutOut{{Area: rect(20, 0, 30, 60)}}}, []string{"cutouts[0]: in-pieces: got a cut that leaves 2 pieces; want it left out, or made smaller, so that one piece is left"}},
		"cut round the corner, head left":  {score.Draft{CutOuts: []score.CutOut{{Area: rect(0, 0, 20, 20), Radius: 5 * mm}}}, []string{"cutouts[0]: in-pieces: got a cut that leaves 2 pieces; want it left out, or made smaller, so that one piece is left"}},
		"cut round the corner, tail right": {score.Draft{CutOuts: []score.CutOut{{Area: rect(80, 40, 100, 60), Radius: 5 * mm}}}, []string{"cutouts[0]: in-pieces: got a cut that leaves 2 pieces; want it left out, or made smaller, so that one piece is left"}},
		"a rounded window in the middle":   {score.Draft{CutOuts: []score.CutOut{{Area: rect(30, 20, 70, 40), Radius: 5 * mm}}}, nil},
		"a rounded window at the head":     {score.Draft{CutOuts: []score.CutOut{{Area: rect(30, 0, 70, 20)}}}, nil},
	} {
		c.d.Size = sheet
		var got []string
		if err := second(score.NewBlank(c.d)); err != nil {
			for _, v := range found(t, err) {
				got = append(got, v.Error())
			}
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%s: (-want +got):\n%s", name, diff)
		}
	}
	// More than are listed are counted.
	d := score.Draft{Size: sheet}
	for range 150 {
		d.Lines = append(d.Lines, line(0, 10))
		d.Glue = append(d.Glue, glue(0, 0, 10, 10))
		d.CutOuts = append(d.CutOuts, score.CutOut{Area: rect(20, 20, 30, 30)})
		d.Tabs = append(d.Tabs, score.Tab{Edge: score.Tail, Depth: 5 * mm})
	}
	if err, ok := second(score.NewBlank(d)).(*check.Error); !ok || err.Len() != 4*149 || len(slices.Collect(err.All())) != check.MaxViolations {
		t.Errorf("of 150 of everything in one place, %d violations", err.Len())
	}
}

// window0 is a window at the head.
func window0(from, to units.Length) score.CutOut { return score.CutOut{Area: rect(from, 0, to, 20)} }

// What is told of other things than drawings: which numbers there are, and how
// many of what is too much.
func TestWrongNumbers(t *testing.T) {
	ctx := context.Background()
	s := mustStrip(t, []units.Length{30 * mm, 20 * mm, 20 * mm}, score.Valley, score.Valley)
	g := score.Grooves{Pitch: mm}
	for name, c := range map[string]struct {
		err  error
		want []string
	}{
		"no such score":       {second(s.FoldBy(ctx, score.Turn{Score: 2})), []string{"turns[0].score: unknown: got 2; want 0 to 1, since there are 2 scores"}},
		"no such way":         {second(s.FoldBy(ctx, score.Turn{Way: 3})), []string{"turns[0].way: unknown: got 3; want as scored, towards you or away from you"}},
		"no such part":        {second(s.FoldBy(ctx, score.Turn{Part: 2})), []string{"turns[0].part: unknown: got 2; want beyond or before"}},
		"no score at all":     {second(mustStrip(t, []units.Length{mm}).FoldBy(ctx, score.Turn{})), []string{"turns[0].score: unknown: got 0; want none, where there is no score"}},
		"one score":           {second(mustStrip(t, []units.Length{mm, mm}, score.Valley).FoldBy(ctx, score.Turn{Score: 1})), []string{"turns[0].score: unknown: got 1; want 0 to 0, since there is 1 score"}},
		"no such panel":       {second(g.Snap(s, score.NoWider{Panel: 0, Than: 3})), []string{"keep[0].than: unknown: got 3; want 0 to 2, since there are 3 panels"}},
		"none before it":      {second(g.Snap(s, score.NoWider{Panel: -1, Than: 0})), []string{"keep[0].panel: unknown: got -1; want 0 to 2, since there are 3 panels"}},
		"wider already":       {second(g.Snap(s, score.NoWider{Panel: 0, Than: 1})), []string{"keep[0]: conflict: got 30 mm; want it left out; the strip itself has no more than 20 mm for the other panel"}},
		"a nanometre":         {second(score.ScoredStrip(mm, []units.Length{1}, score.Valley)), []string{"scores[0]: conflict: got 0.000001 mm; want at least 0.01 mm beyond the score before it"}},
		"too near the end":    {second(score.ScoredStrip(mm, []units.Length{mm - 1}, score.Valley)), []string{"scores[0]: conflict: got 0.999999 mm; want at most 0.99 mm before the right end"}},
		"at the end":          {second(score.ScoredStrip(mm, []units.Length{mm}, score.Valley)), []string{"scores[0]: out-of-range: got 1 mm; want a place above 0 and below 1 mm"}},
		"too many parts":      {second(score.Divide(2*units.Metre, 2001, units.WholeMillimetres)), []string{"parts: too-many: got 2001; want at most 2000"}},
		"parts of a step":     {second(score.Divide(3*mm, 4, units.WholeMillimetres)), []string{"parts: too-many: got 4; want at most 3, each of them a step of the ruler, 1 mm, or more"}},
		"parts beyond both":   {second(score.Divide(3*mm, 4000, units.WholeMillimetres)), []string{"parts: too-many: got 4000; want at most 3, each of them a step of the ruler, 1 mm, or more"}},
		"shorter than a step": {second(score.Divide(mm-1, 1, units.WholeMillimetres)), []string{"ruler: too-large: got a step of 1 mm; want a finer ruler, of 0.999999 mm at most"}},
		"tucks beyond all":    {second(score.RollBy(mm, 0, units.Metre, 9*units.Metre)), []string{"tucks: too-large: got 9000 mm; want only the first of them, or smaller ones: no length up to 10 m would do"}},
		"a tuck beyond all":   {second(score.RollBy(mm, 0, 9*units.Metre)), []string{"tucks: too-large: got 9000 mm; want none of them, or smaller ones: no length up to 10 m would do"}},
		"a tuck too large":    {second(score.Roll(mm, 3, score.TuckIn{Less: 9 * units.Metre, Ruler: units.WholeMillimetres})), []string{"tuck.less: too-large: got 9000 mm; want at most 4998 mm, or no length up to 10 m would do"}},
		"a gate's tuck":       {second(score.Gate(mm, score.TuckIn{Less: 9 * units.Metre, Ruler: units.WholeMillimetres})), []string{"tuck.less: too-large: got 9000 mm; want at most 4998 mm, or no length up to 10 m would do"}},
	} {
		var got []string
		for _, v := range found(t, c.err) {
			got = append(got, v.Error())
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%s: (-want +got):\n%s", name, diff)
		}
	}
	coarse, err := units.NewRuler(5*units.Metre, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	for name, err := range map[string]error{
		"gate": second(score.Gate(10*units.Metre, score.TuckIn{Less: units.Metre, Ruler: coarse})), "roll": second(score.Roll(10*units.Metre, 3, score.TuckIn{Less: units.Metre, Ruler: coarse})),
	} {
		violation(t, err, "tuck.ruler", check.TooLarge)
		if len(found(t, err)) != 1 {
			t.Errorf("%s: %v", name, err)
		}
	}
	coarsest, err := units.NewRuler(10*units.Metre, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	violation(t, second(score.RollBy(10*units.Metre, coarsest, mm, mm)), "ruler", check.TooLarge)
}

// The limits are those of the documentation.
func TestLimitsAsDocumented(t *testing.T) {
	for name, l := range map[string][2]int{
		"panels": {score.MaxPanels, 2000}, "parcels": {score.MaxParcels, 20_000}, "parts": {score.MaxParts, 2000}, "a roll": {score.MaxRoll, 64},
		"layer orders": {score.MaxLayers, 64}, "turns to": {score.MaxTurnsTo, 16}, "grooves": {score.MaxSnap, 256},
	} {
		if l[0] != l[1] {
			t.Errorf("%s: %d; documented %d", name, l[0], l[1])
		}
	}
}

// Stretches of a profile are told apart by all that they say, and joined where
// they say the same.
func TestProfileByHand(t *testing.T) {
	f, err := mustStrip(t, []units.Length{50 * mm}).Fold()
	if err != nil {
		t.Fatal(err)
	}
	got, err := f.Profile(mm, score.Enclosure{From: 10 * mm, To: 20 * mm, Thickness: 2 * mm}, score.Enclosure{From: 20 * mm, To: 25 * mm, Thickness: 2 * mm}, score.Enclosure{From: 40 * mm, To: 45 * mm})
	want := []score.Rise{
		{From: 0, To: 10 * mm, Layers: 1, Height: mm},
		{From: 10 * mm, To: 25 * mm, Layers: 1, Enclosures: 1, Height: 3 * mm},
		{From: 25 * mm, To: 40 * mm, Layers: 1, Height: mm},
		{From: 40 * mm, To: 45 * mm, Layers: 1, Enclosures: 1, Height: mm},
		{From: 45 * mm, To: 50 * mm, Layers: 1, Height: mm},
	}
	if diff := cmp.Diff(want, got); err != nil || diff != "" {
		t.Errorf("%v (-want +got):\n%s", err, diff)
	}
	sheet := across(t, score.Upright, f, f)
	if sheet.Thickness(-mm) != 0 || sheet.Thickness(mm) != mm || sheet.Thickness(20*units.Metre) != 10*units.Metre {
		t.Errorf("%v, %v, %v thick", sheet.Thickness(-mm), sheet.Thickness(mm), sheet.Thickness(20*units.Metre))
	}
	thick, err := f.Thick(mm, 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, i := range []int{-1, 1} {
		if from, to := thick.Panel(i); from != 0 || to != 0 {
			t.Errorf("panel %d from %v to %v", i, from, to)
		}
	}
}

// Strips with the same scores in the same places are told apart by the grooves
// that those lie on.
func TestSnappedByOtherGrooves(t *testing.T) {
	s := mustStrip(t, []units.Length{10 * mm, 10 * mm, 10 * mm}, score.Valley, score.Valley)
	five, err := score.Grooves{Pitch: 5 * mm, NoTurn: true}.Snap(s)
	ten, err2 := score.Grooves{Pitch: 10 * mm, NoTurn: true}.Snap(s)
	if err != nil || err2 != nil || !five.Strip().Equal(ten.Strip()) || cmp.Equal(five, ten) {
		t.Errorf("%v, %v: %v", err, err2, cmp.Equal(five, ten))
	}
}

// Tapers have three corners each, of which all that is cut may have 9,996.
func TestCornersOfTapers(t *testing.T) {
	tabs := func(n int) error {
		d := score.Draft{Size: units.Size{W: 9 * units.Metre, H: units.Metre}}
		for i := range n {
			at := units.Length(5*i) * mm
			d.Tabs = append(d.Tabs, score.Tab{Depth: 5 * mm, From: at, To: at + 4*mm, Taper: mm})
		}
		return second(score.NewBlank(d))
	}
	if err := tabs(1666); err != nil {
		t.Error(err)
	}
	violation(t, tabs(1667), "", check.TooMany)
}

// What is out of range is brought into it, and a ruler that is none is named by
// its number.
func TestOutOfRange(t *testing.T) {
	if w := score.NestedLeaf(-mm, mm, 1, 0); w.Length() != 0 {
		t.Errorf("a leaf of -1 mm is %v wide", w.Length())
	}
	v := violation(t, second(score.Divide(mm, 1, units.Ruler(77)<<56|99)), "ruler", check.Unknown)
	if v.Got != "5548434740920451171" {
		t.Errorf("%v", v)
	}
	// Of a double gate the leaves are turned in, and then the right half over the
	// left one.
	p, err := score.DoubleGate(17*units.Inch, score.TuckIn{Ruler: units.ThirtySeconds})
	var got []string
	for _, turn := range p.Turns() {
		got = append(got, turn.String())
	}
	want := []string{"fold what lies before score 1 towards you", "fold what lies beyond score 3 towards you", "fold what lies beyond score 2 towards you"}
	if diff := cmp.Diff(want, got); err != nil || diff != "" {
		t.Errorf("%v (-want +got):\n%s", err, diff)
	}
}

// Two inserts of one thickness side by side at the left edge are one rise.
func TestProfileBeginsEven(t *testing.T) {
	f, err := mustStrip(t, []units.Length{40 * mm, 40 * mm}, score.Valley).Fold()
	if err != nil {
		t.Fatal(err)
	}
	got, err := f.Profile(mm, score.Enclosure{To: 10 * mm, Thickness: 2 * mm}, score.Enclosure{From: 10 * mm, To: 25 * mm, Thickness: 2 * mm})
	want := []score.Rise{{To: 25 * mm, Layers: 2, Enclosures: 1, Height: 4 * mm}, {From: 25 * mm, To: 40 * mm, Layers: 2, Height: 2 * mm}}
	if diff := cmp.Diff(want, got); err != nil || diff != "" {
		t.Errorf("%v (-want +got):\n%s", err, diff)
	}
}

// A mountain fold is a fold: of one along an axis that is none only the axis is
// refused.
func TestMountainAlongNoAxis(t *testing.T) {
	_, err := score.NewBlank(score.Draft{Size: units.Size{W: 40 * mm, H: 40 * mm}, Lines: []score.Line{{Axis: score.Level + 1, At: 10 * mm, Fold: score.Mountain}}})
	violation(t, err, "lines[0].axis", check.Unknown)
	if e, ok := err.(*check.Error); !ok || e.Len() != 1 {
		t.Errorf("%v", err)
	}
}
