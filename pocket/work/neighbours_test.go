package work_test

import (
	"slices"
	"strings"
	"testing"

	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// Neighbours are told in one sentence only where all that the sentence does not
// list is the same: of two that differ in one thing, each has a sentence of its
// own.
func TestNeighboursThatDiffer(t *testing.T) {
	card, note := work.Object{Name: "card"}, work.Object{Name: "note", Index: 1}
	point := func(x, y units.Length) units.Point { return units.Point{X: x * mm, Y: y * mm} }
	trim := func(what work.Object, x, y units.Length) work.Trim {
		return work.Trim{What: what, From: point(x, 0), To: point(0, y)}
	}
	fold := work.FoldAt{What: card, At: 10 * mm, Moves: score.Left, Way: work.Towards, Flat: true}
	open := fold
	open.Open = true
	with := func(f work.FoldAt, change func(*work.FoldAt)) work.FoldAt {
		change(&f)
		return f
	}
	stick := work.Stick{What: card, Area: area(0, 0, 5, 10), To: work.Base{Name: "base"}}
	insert := work.Insert{What: note, Into: work.Part{Kind: work.PartFitting, Name: "pocket"}, Count: 1}
	put := func(change func(*work.Insert)) work.Insert {
		i := insert
		change(&i)
		return i
	}
	glued := func(change func(*work.Stick)) work.Stick {
		s := stick
		change(&s)
		return s
	}
	leaf := work.Fix{What: work.Object{Kind: work.Content, Name: "print"}, On: work.Base{Kind: work.OnPiece, Index: 2, Name: "leaf 1"}, By: work.Tape, Size: units.Size{W: 90 * mm, H: 60 * mm},
		At: work.At{Across: score.Left, X: 5 * mm}, Areas: []units.Rect{area(0, 0, 10, 60)}, Panel: work.All}
	taped := func(change func(*work.Fix)) work.Fix {
		f := leaf
		f.What.Copy, f.On.Copy, f.On.Name = 1, 1, "leaf 2"
		change(&f)
		return f
	}
	part := func(axis score.Axis, fold score.Fold, at, from, to units.Length) work.ScoreAt {
		return work.ScoreAt{What: card, Line: score.Line{Axis: axis, Fold: fold, At: at * mm, From: from * mm, To: to * mm}}
	}
	// Lines of one extent on another axis, or for another fold, are lines of
	// their own.
	scores := work.Step{Do: []work.Action{part(score.Upright, score.Valley, 7, 2, 9), part(score.Level, score.Valley, 8, 2, 9), part(score.Upright, score.Mountain, 6, 3, 9), part(score.Level, score.Mountain, 5, 3, 9)}}
	if got := scores.Text(units.Format{}); strings.Count(got, ";") != 3 || strings.Count(got, " from 2 mm to 9 mm") != 2 || strings.Count(got, " from 3 mm to 9 mm") != 2 {
		t.Error(got)
	}
	for name, pair := range map[string][2]work.Action{
		"trim: another piece":   {trim(card, 3, 4), trim(note, 3, 4)},
		"trim: another width":   {trim(card, 3, 4), trim(card, 5, 4)},
		"trim: another height":  {trim(card, 3, 4), trim(card, 3, 5)},
		"trim: the other way":   {trim(card, 3, 4), trim(card, 4, 3)},
		"fold: another piece":   {fold, with(fold, func(f *work.FoldAt) { f.What = note })},
		"fold: another axis":    {fold, with(fold, func(f *work.FoldAt) { f.Axis, f.Moves = score.Level, score.Head })},
		"fold: the other part":  {fold, with(fold, func(f *work.FoldAt) { f.Moves = score.Right })},
		"fold: the other way":   {fold, with(fold, func(f *work.FoldAt) { f.Way = work.Away })},
		"fold: not flat":        {fold, with(fold, func(f *work.FoldAt) { f.Flat = false })},
		"fold: laid open":       {fold, open},
		"crease: another piece": {open, with(open, func(f *work.FoldAt) { f.What = note })},
		"crease: then folded":   {open, fold},
		"stick: another piece":  {stick, glued(func(s *work.Stick) { s.What = note })},
		"stick: by tape":        {stick, glued(func(s *work.Stick) { s.By = work.Tape })},
		"stick: elsewhere":      {stick, glued(func(s *work.Stick) { s.To.Name = "flap" })},
		"stick: standing":       {stick, glued(func(s *work.Stick) { s.Standing = true })},
		"stick: the other side": {stick, glued(func(s *work.Stick) { s.Side = score.Back })},
		"tape: another thing":   {leaf, taped(func(f *work.Fix) { f.What.Name = "card" })},
		"tape: a piece":         {leaf, taped(func(f *work.Fix) { f.What.Kind = work.Piece })},
		"tape: another piece":   {leaf, taped(func(f *work.Fix) { f.On.Index = 3 })},
		"tape: on a board":      {leaf, taped(func(f *work.Fix) { f.On.Kind = work.OnBoard })},
		"tape: elsewhere":       {leaf, taped(func(f *work.Fix) { f.At.X = 6 * mm })},
		"tape: turned":          {leaf, taped(func(f *work.Fix) { f.Quarters = 1 })},
		"tape: the other side":  {leaf, taped(func(f *work.Fix) { f.Up = score.Back })},
		"tape: by glue":         {leaf, taped(func(f *work.Fix) { f.By = work.Glue })},
		"tape: marked":          {leaf, taped(func(f *work.Fix) { f.Marked = true })},
		"tape: another size":    {leaf, taped(func(f *work.Fix) { f.Size.W = 10 * mm })},
		"tape: a known blank":   {leaf, taped(func(f *work.Fix) { f.Flat = f.Size })},
		"tape: another edge":    {leaf, taped(func(f *work.Fix) { f.Areas = []units.Rect{area(0, 0, 90, 10)} })},
		"insert: another thing": {insert, put(func(i *work.Insert) { i.What.Name = "card" })},
		"insert: another index": {insert, put(func(i *work.Insert) { i.What.Index = 2 })},
		"insert: more of them":  {insert, put(func(i *work.Insert) { i.Count = 2 })},
		"insert: elsewhere":     {insert, put(func(i *work.Insert) { i.Into.Name = "frame" })},
		"insert: from the tail": {insert, put(func(i *work.Insert) { i.From = score.Tail })},
		"insert: under corners": {insert, put(func(i *work.Insert) { i.Corners = true })},
	} {
		one := work.Step{Do: pair[:1]}.Text(units.Format{}) + " " + work.Step{Do: pair[1:]}.Text(units.Format{})
		if got := (work.Step{Do: pair[:]}).Text(units.Format{}); got != one {
			t.Errorf("%s:\n got %s\nwant %s", name, got, one)
		}
	}
	// A print that is taped on one leaf as on the other is told of once, with both.
	if got := (work.Step{Do: []work.Action{leaf, taped(func(*work.Fix) {})}}).Text(units.Format{}); !strings.HasPrefix(got, "Tape the print on each of leaf 1 and leaf 2: 5 mm from the left edge") || strings.Count(got, "tape") != 1 {
		t.Error(got)
	}
	// Those that are alike are one sentence.
	for _, pair := range [][2]work.Action{
		{trim(card, 3, 4), trim(card, 3, 4)}, {fold, with(fold, func(f *work.FoldAt) { f.At = 20 * mm })}, {open, with(open, func(f *work.FoldAt) { f.At = 20 * mm })},
		{stick, glued(func(s *work.Stick) { s.Area = area(5, 0, 5, 10) })}, {insert, put(func(i *work.Insert) { i.What.Copy = 1 })},
	} {
		if got := (work.Step{Do: pair[:]}).Text(units.Format{}); strings.Count(got, ".") != 1 {
			t.Errorf("alike, but told in more than one sentence: %s", got)
		}
	}
}

// Creases of several ways are each told once, with all that are like them.
func TestCreasesOfSeveralWays(t *testing.T) {
	crease := func(at units.Length, way work.Way) work.FoldAt {
		return work.FoldAt{What: work.Object{Name: "strip"}, At: at * mm, Moves: score.Right, Way: way, Open: true}
	}
	s := work.Step{Do: []work.Action{crease(10, work.Towards), crease(21, work.Away), crease(32, work.Towards), crease(43, work.Away), crease(54, work.Towards)}}
	got := s.Text(units.Format{})
	if strings.Count(got, "10 mm, 32 mm and 54 mm") != 1 || strings.Count(got, "21 mm and 43 mm") != 1 {
		t.Error(got)
	}
	for _, at := range []string{"10 mm", "21 mm", "32 mm", "43 mm", "54 mm"} {
		if strings.Count(got, at) != 1 {
			t.Errorf("%s is told %d times: %s", at, strings.Count(got, at), got)
		}
	}
}

// A step writes lengths on its own ruler unless the format has one.
func TestStepsWriteOnTheirRuler(t *testing.T) {
	s := work.Step{Ruler: units.Sixteenths, Do: []work.Action{work.Lay{What: work.Object{Name: "mat"}, On: work.Base{Kind: work.OnRow}, At: at(score.Left, 0, score.Head, 0)}}}
	s.Do = []work.Action{work.MarkPlace{What: work.Object{Name: "mat"}, On: work.Base{Kind: work.OnRow}, At: work.At{Across: score.Left, X: units.Inch / 2, Along: score.Head, Y: units.Inch / 4}, Size: units.Size{W: units.Inch, H: 2 * units.Inch}}}
	if got := s.Text(units.Format{}); !strings.Contains(got, "1 x 2 in") || !strings.Contains(got, "1/2 in") {
		t.Errorf("on its own ruler: %s", got)
	}
	if got := s.Text(units.Format{Ruler: units.TenthMillimetres}); !strings.Contains(got, "25.4 x 50.8 mm") {
		t.Errorf("on another: %s", got)
	}
	beyond := work.MarkPlace{What: work.Object{Name: "mat"}, On: work.Base{Kind: work.OnRow}, At: work.At{Across: score.Left, X: -3 * mm, Along: score.Head}, Size: size(10, 20)}
	got := work.Step{Do: []work.Action{beyond}}.Text(units.Format{})
	if !strings.Contains(got, "3 mm beyond the left edge") || !strings.Contains(got, "on the head edge") {
		t.Error(got)
	}
}

// Cautions stand in the order of their constants, each once, whatever is done
// first.
func TestCautionsInOrder(t *testing.T) {
	card := work.Object{Name: "card"}
	cut := work.Cut{What: card, Size: size(10, 10), From: work.Source{Stock: "kraft", Index: -1}}
	fix := work.Fix{What: card, On: work.Base{Kind: work.Under}, Size: size(10, 10)}
	for _, do := range [][]work.Action{{cut, fix}, {fix, cut}, {fix, cut, fix, cut}} {
		care := work.Step{Do: do}.Care()
		if !slices.IsSorted(care) || len(slices.Compact(slices.Clone(care))) != len(care) || len(care) < 2 {
			t.Errorf("%v", care)
		}
	}
	for _, s := range []work.PaperSide{work.RightSide, work.WrongSide} {
		if s.Other() == s || s.Other().Other() != s || s.Other() > work.WrongSide {
			t.Errorf("the other side of the %v is the %v", s, s.Other())
		}
	}
	if work.All >= 0 {
		t.Error("all copies are one of them")
	}
}

// Bands along the edges cover what is no further than the band from an edge, no
// place twice; of what is too small for two of them it is the middle, and of what
// is too small for one it is all.
func TestEdges(t *testing.T) {
	for _, c := range []struct {
		size units.Size
		want []units.Rect
	}{
		{size(100, 60), []units.Rect{area(0, 0, 100, 6), area(0, 54, 100, 6), area(0, 6, 6, 48), area(94, 6, 6, 48)}},
		{size(12, 60), []units.Rect{area(0, 0, 12, 6), area(0, 54, 12, 6), area(0, 6, 6, 48), area(6, 6, 6, 48)}},
		{size(60, 12), []units.Rect{area(0, 0, 60, 6), area(0, 6, 60, 6)}},
		{size(10, 60), []units.Rect{area(2, 0, 6, 60)}},
		{size(60, 10), []units.Rect{area(0, 2, 60, 6)}},
		{size(10, 10), []units.Rect{area(2, 0, 6, 10)}},
		{size(5, 60), []units.Rect{area(0, 0, 5, 60)}},
		{size(60, 5), []units.Rect{area(0, 0, 60, 5)}},
		{size(6, 60), []units.Rect{area(0, 0, 6, 60)}},
		// Half of an odd number of nanometres: the band lies the nearer to the left
		// or the head.
		{units.Size{W: 10*mm + 1, H: 60 * mm}, []units.Rect{area(2, 0, 6, 60)}},
		{units.Size{W: 60 * mm, H: 10*mm + 1}, []units.Rect{area(0, 2, 60, 6)}},
		{units.Size{W: 60 * mm, H: 12*mm + 1}, []units.Rect{area(0, 0, 60, 6), area(0, 6, 60, 6).Moved(units.Point{Y: 1}), units.RectAt(units.Point{Y: 6 * mm}, units.Size{W: 6 * mm, H: 1}), units.RectAt(units.Point{X: 54 * mm, Y: 6 * mm}, units.Size{W: 6 * mm, H: 1})}},
	} {
		if got := work.Edges(c.size, 6*mm); !slices.Equal(got, c.want) {
			t.Errorf("%v: %v; want %v", c.size, got, c.want)
		}
	}
}

// Numbers are decimal, and a nanometre beyond an edge is beyond it.
func TestNumbersAsWritten(t *testing.T) {
	many := work.Cut{What: work.Object{Name: "label"}, Count: 1090, Size: size(10, 10), From: work.Source{Stock: "kraft", Index: -1}}
	if got := (work.Step{Do: []work.Action{many}}).Text(units.Format{}); !strings.Contains(got, "1090 x label") {
		t.Error(got)
	}
	beyond := work.MarkPlace{What: work.Object{Name: "mat"}, On: work.Base{Kind: work.OnRow}, At: work.At{Across: score.Left, X: -1, Along: score.Head, Y: 1}, Size: size(10, 20)}
	if got := (work.Step{Do: []work.Action{beyond}}).Text(units.Format{}); !strings.Contains(got, "0.000001 mm beyond the left edge") || !strings.Contains(got, "0.000001 mm from the head edge") {
		t.Error(got)
	}
}
