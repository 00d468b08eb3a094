package folio_test

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// full is a plan with something of everything: pockets, a frame and a mat, what stands
// on another one and on a spine board, a flap, magnets, a label that follows its board,
// as measured.
func full(t *testing.T) *folio.Plan {
	t.Helper()
	s := plainCase()
	s.Form, s.Closing.UnderFlap, s.FlapWidth, s.Spine.Width = boards.ForeEdgeFlap, 20*mm, 40*mm, 40*mm
	s.Lining.Rule, s.Quarter.Rule = rule.LiningPanels, rule.QuarterAlways
	s.Magnets = closing.Magnets{Diameter: 5 * mm, Thickness: mm}
	s.Stocks = append(s.Stocks, stock.Stock{Name: "film", Caliper: mm / 10})
	card := pocket.Content{Name: "card", Size: units.Size{W: 60 * mm, H: 40 * mm}, Thickness: mm / 2}
	tall := folio.Ornament{Size: units.Size{W: 6 * mm, H: 30 * mm}, Thickness: 8 * mm}
	s.Fittings = []folio.Fitting{
		{Name: "pocket", Panel: boards.LeftCover, Kind: folio.Folded{Kind: pocket.Gusset{Content: card, Count: 3}}, Place: place.Place{Along: place.Head}},
		{Name: "frame", Panel: boards.RightCover, Kind: folio.Frame{Picture: card, Film: "film"}, Place: place.Place{Along: place.Tail}},
		{Name: "mat", Panel: boards.LeftCover, Kind: folio.Mat{Picture: card}, Place: place.Place{Along: place.Tail}},
		{Name: "bar", Panel: boards.Spine1, Kind: tall},
		{Name: "pin", Panel: boards.Spine2, Kind: tall},
		{Name: "badge", Panel: boards.LeftCover, Outside: true, Kind: tall},
		{Name: "label", Panel: boards.Flap, Outside: true, Kind: folio.Mat{}, Size: place.Filling(place.OfPanel, 5*mm)},
	}
	p := mustBuild(t, s)
	w, h := p.AsMade()
	q, err := p.Refit(refit.Measured{Width: w.Length() + mm, Height: h.Length() + mm})
	if err != nil {
		t.Fatal(err)
	}
	return q
}

// Every walk can be left at any element, and comes to no more then; walked again it begins
// anew, and is as long as before.
func TestWalksCanBeLeft(t *testing.T) {
	walks := map[string]bool{}
	p := full(t)
	leave(t, reflect.ValueOf(p), "Plan", 3, walks)
	for _, want := range []string{"Plan.Changes", "Plan.Beside", "Plan.Overheads", "Plan.Heights", "Fitted.Layers", "Piece.CornerCuts", "Piece.Openings", "Tight.Things", "Overhead.Heights", "Fastening.Places"} {
		if !walks[want] {
			t.Errorf("%s walks nothing here", want)
		}
	}
}

// leave calls the methods of a value that walk something, and leaves each of the walks
// at every element; and so for what they walk and what the other methods return.
func leave(t *testing.T, v reflect.Value, of string, deep int, walks map[string]bool) {
	for i := range v.NumMethod() {
		m, name := v.Method(i), of+"."+v.Type().Method(i).Name
		for _, in := range asking(m.Type()) {
			for _, out := range m.Call(in) {
				walk := out.Type()
				if walk.Kind() != reflect.Func || walk.NumIn() != 1 || walk.IsVariadic() || out.IsNil() {
					if deep > 0 && out.Kind() == reflect.Struct && walk.PkgPath() == reflect.TypeFor[folio.Plan]().PkgPath() {
						leave(t, out, walk.Name(), deep-1, walks)
					}
					continue
				}
				var first []reflect.Value
				all := count(out, -1, &first)
				walks[name] = walks[name] || all > 0
				for at := range min(all, 40) {
					if got := count(out, at, nil); got != at+1 {
						t.Errorf("%s%v left at element %d comes to %d", name, in, at, got)
					}
				}
				if again := count(out, -1, nil); again != all {
					t.Errorf("%s%v is %d long, and walked again %d", name, in, all, again)
				}
				for _, e := range first {
					if deep > 0 && e.Kind() == reflect.Struct && e.Type().PkgPath() == reflect.TypeFor[folio.Plan]().PkgPath() {
						leave(t, e, e.Type().Name(), deep-1, walks)
					}
				}
			}
		}
	}
}

// count walks up to an element, to the end for −1, and counts how many it met, also after
// it has asked to leave; the first three are kept.
func count(walk reflect.Value, leave int, kept *[]reflect.Value) (n int) {
	walk.Call([]reflect.Value{reflect.MakeFunc(walk.Type().In(0), func(in []reflect.Value) []reflect.Value {
		if n++; kept != nil && n <= 6 {
			*kept = append(*kept, in...)
		}
		return []reflect.Value{reflect.ValueOf(leave < 0 || n <= leave)}
	})})
	return n
}

// asking returns what a method is asked: of boards and of meetings each, filled and
// empty; nothing for one that takes anything else.
func asking(m reflect.Type) [][]reflect.Value {
	all := [][]reflect.Value{nil}
	for i := range m.NumIn() {
		var values []any
		switch m.In(i) {
		case reflect.TypeFor[boards.Role]():
			for r := boards.MainPanel; r <= boards.Flap; r++ {
				values = append(values, r)
			}
		case reflect.TypeFor[closing.Meeting]():
			for k := closing.BetweenCovers; k <= closing.AtForeEdge; k++ {
				values = append(values, k)
			}
		case reflect.TypeFor[bool]():
			values = []any{false, true}
		}
		var next [][]reflect.Value
		for _, in := range all {
			for _, v := range values {
				next = append(next, append(in[:len(in):len(in)], reflect.ValueOf(v)))
			}
		}
		all = next
	}
	return all
}

// Of a board that the row has not there is nothing to tell, nor of a place that is none.
func TestAskedOfNoBoard(t *testing.T) {
	p := full(t)
	has := map[boards.Role]bool{boards.MainPanel: true}
	for b := range p.Boards() {
		has[b.Role()] = true
	}
	r := units.RectAt(units.Point{}, units.Size{W: 10 * mm, H: 10 * mm})
	for role := boards.MainPanel; role <= boards.Panel9+2; role++ {
		if has[role] {
			continue
		}
		_, board := p.Board(role)
		_, panel := p.Panel(role, false)
		_, on := p.OnWrap(role)
		_, _, over := p.Over(role, true)
		_, from := p.Facing(r, role, boards.LeftCover)
		_, to := p.Facing(r, boards.LeftCover, role)
		if board || panel || on || over || from || to || p.LargestPicture(role, 0, 0) != (units.Size{}) || p.Headroom(r, role, -1) != 0 {
			t.Errorf("something is told of the %v, which there is not", role)
		}
		for range p.Beside(role, true) {
			t.Errorf("something is beside the %v, which there is not", role)
		}
		for range p.Overheads(role, true) {
			t.Errorf("something is over the %v, which there is not", role)
		}
	}
}

// By hand: a panel of 120 less an inset of 3 at each side on whole millimetres, 114 wide
// and 164 high, takes 104 x 154 with 3 and 2 round it. What is less than nothing, or more
// than there is in the world, leaves nothing.
func TestLargestPictureOfNoRoom(t *testing.T) {
	p := mustBuild(t, plainCase())
	for _, c := range []struct {
		reveal, clearance units.Length
		want              units.Size
	}{
		{3 * mm, 2 * mm, units.Size{W: 104 * mm, H: 154 * mm}}, {0, 0, units.Size{W: 114 * mm, H: 164 * mm}},
		{-nm, 2 * mm, units.Size{}}, {2 * mm, -nm, units.Size{}}, {units.Longest, 0, units.Size{}}, {0, units.Longest, units.Size{}},
		{math.MaxInt64, 0, units.Size{}}, {0, math.MaxInt64, units.Size{}}, {57 * mm, 0, units.Size{}}, {0, 57 * mm, units.Size{}},
	} {
		if got := p.LargestPicture(boards.RightCover, c.reveal, c.clearance); got != c.want {
			t.Errorf("with %v and %v round it: %v, want %v", c.reveal, c.clearance, got, c.want)
		}
	}
}

// The least thing that stays in a frame, wherever it is pushed to, covers the window in
// any place; a nanometre less and one edge would show, unless it is the picture itself.
func TestLeastThingInAFrame(t *testing.T) {
	for mouth := score.Head; mouth <= score.Right; mouth++ {
		s := plainCase()
		print := pocket.Content{Name: "print", Size: units.Size{W: 50 * mm, H: 81 * mm}, Thickness: mm / 4}
		s.Fittings = []folio.Fitting{{Name: "frame", Kind: folio.Frame{Picture: print, Mouth: mouth, Ease: 4 * mm, Lap: 5 * mm, Rail: 14 * mm}, Place: place.Place{Across: place.Left, Along: place.Tail, Offset: units.Point{X: 2 * mm, Y: 9 * mm}}}}
		p := mustBuild(t, s)
		for f := range p.Fittings() {
			var window units.Rect
			for x := range p.Pieces() {
				for o := range x.Openings() {
					window = o.Moved(f.Rect().Min)
				}
			}
			var room units.Rect
			var least units.Size
			for _, spot := range f.Spots() {
				room, least = spot.Rect(), spot.Least()
			}
			shows := func(l, roomLow, roomHigh, low, high units.Length) bool { return roomLow+l < high || roomHigh-l > low }
			for _, axis := range []struct {
				least, picture, roomLow, roomHigh, low, high units.Length
			}{
				{least.W, print.Size.W, room.Min.X, room.Max.X, window.Min.X, window.Max.X},
				{least.H, print.Size.H, room.Min.Y, room.Max.Y, window.Min.Y, window.Max.Y},
			} {
				a := axis
				if a.least < a.picture && (shows(a.least, a.roomLow, a.roomHigh, a.low, a.high) || !shows(a.least-nm, a.roomLow, a.roomHigh, a.low, a.high)) || a.least > a.picture {
					t.Errorf("mouth at the %v: the least is %v in %v behind %v", mouth, least, room, window)
				}
			}
		}
	}
}

// What is put into a pocket rests at its end: away from the mouth, in the middle across.
func TestContentRestsAwayFromTheMouth(t *testing.T) {
	met := map[score.Edge]bool{}
	card := pocket.Content{Name: "card", Size: units.Size{W: 41 * mm, H: 30 * mm}, Thickness: mm / 2}
	for _, k := range []pocket.Kind{
		pocket.Slip{Content: card}, pocket.Slip{Content: card, Build: pocket.FoldedFoot}, pocket.FoldedStrip{Content: card}, pocket.FoldedStrip{Content: card, OpensRight: true},
		pocket.Gusset{Content: card}, pocket.Gusset{Content: card, At: 1}, pocket.GussetRun{Content: card}, pocket.FoldedAccordion{Content: card}, pocket.Pleat{Content: card},
	} {
		s := plainCase()
		s.Cover, s.Spine.Width = units.Size{W: 240 * mm, H: 240 * mm}, 60*mm
		for _, outside := range []bool{false, true} {
			s.Fittings = []folio.Fitting{{Name: "pocket", Outside: outside, Kind: folio.Folded{Kind: k}}}
			p, err := folio.Build(s)
			if err != nil {
				t.Errorf("%v: %v", k.Name(), err)
				continue
			}
			for f := range p.Fittings() {
				for _, spot := range f.Spots() {
					at, in := spot.Lies(), spot.Rect()
					mouth, ok := spot.Mouth()
					if !ok {
						continue
					}
					met[mouth] = true
					touches := map[score.Edge]bool{score.Head: at.Max.Y == in.Max.Y, score.Tail: at.Min.Y == in.Min.Y, score.Left: at.Max.X == in.Max.X, score.Right: at.Min.X == in.Min.X}[mouth]
					across := (at.Min.X - in.Min.X) - (in.Max.X - at.Max.X)
					if mouth == score.Left || mouth == score.Right {
						across = (at.Min.Y - in.Min.Y) - (in.Max.Y - at.Max.Y)
					}
					if !touches || across.Abs() > nm {
						t.Errorf("%v, outside %v, mouth at the %v: %v lies at %v in %v", k.Name(), outside, mouth, spot.Index(), at, in)
					}
				}
			}
		}
	}
	t.Log(met)
}

// Beside the right one of two covers whose edges were measured with more and less of the
// covering at them a panel ends the inset from the covered edge, and at the hinge the
// inset from the board's edge, or what the liner leaves, if that is more.
func TestPanelsBesideUnlikeEdges(t *testing.T) {
	um := units.Micrometre
	s := plainCase()
	s.Rulers.Liner = everyNanometre
	p := mustBuild(t, s)
	for _, c := range [][2]units.Length{{200 * um, 0}, {0, 200 * um}, {150 * um, 40 * um}} {
		q, err := p.Refit(refit.Measured{Width: 277*mm + c[0] + c[1], Height: 170 * mm, Panels: []units.Length{120*mm + c[0], 25 * mm, 120*mm + c[1]}})
		if err != nil {
			t.Fatal(err)
		}
		for i, role := range []boards.Role{boards.LeftCover, boards.RightCover} {
			board, _ := q.Board(role)
			panel, _ := q.Panel(role, false)
			fore, hinge := panel.Min.X-board.Rect().Min.X, board.Rect().Max.X-panel.Max.X
			if i == 1 {
				fore, hinge = hinge, fore
			}
			if fore != 3*mm-c[i] || hinge != 3*mm {
				t.Errorf("%v: the panel of the %v is %v from its fore edge and %v from its hinge, want %v and 3 mm", c, role, fore, hinge, 3*mm-c[i])
			}
		}
		// Of 25 mm turned in, what lies on the board is what board and covering leave; the
		// liner laps it by that less the inset, from the covered edge; the least is told.
		sides, _ := q.TurnInLap()
		least := units.Longest
		for in := range q.TurnIns() {
			if in.Edge() == score.Left {
				least = min(least, in.Depth()-(3*mm-c[0]))
			}
			if in.Edge() == score.Right {
				least = min(least, in.Depth()-(3*mm-c[1]))
			}
		}
		if d := least - sides.Length(); d != 0 {
			t.Errorf("%v: the liner laps the turn-ins at the sides by %v, told is %v", c, least, sides.Length())
		}
	}
}

// What is given off the ruler is moved up to it and said so, wherever in a row of one's
// own it is given; what is on it is not.
func TestMovedInARow(t *testing.T) {
	for path, set := range map[string]func(s *folio.Spec, l units.Length){
		"row.boards[0].width":       func(s *folio.Spec, l units.Length) { s.Row.Boards[0].Width = l },
		"row.boards[1].width":       func(s *folio.Spec, l units.Length) { s.Row.Boards[1].Width = l },
		"row.boards[2].width":       func(s *folio.Spec, l units.Length) { s.Row.Boards[2].Width = l },
		"row.joints[0].hinge.width": func(s *folio.Spec, l units.Length) { s.Row.Joints[0].Hinge.Width = l },
		"row.joints[1].hinge.width": func(s *folio.Spec, l units.Length) { s.Row.Joints[1].Hinge.Width = l },
	} {
		for by := range units.Length(2) {
			s := plainCase()
			s.Spine, s.Hinge = rule.Spine{Contents: 3 * mm}, rule.Hinge{}
			s.Row = boards.Row{
				Boards: []boards.Board{{Role: boards.LeftCover, Width: 100 * mm}, {Role: boards.Spine1, Width: 21 * mm}, {Role: boards.RightCover, Width: 100 * mm}},
				Joints: []boards.Joint{{Hinge: rule.Hinge{Width: 6 * mm}}, {Hinge: rule.Hinge{Width: 6 * mm}}},
			}
			was := 100 * mm
			switch path {
			case "row.boards[1].width":
				was = 21 * mm
			case "row.joints[0].hinge.width", "row.joints[1].hinge.width":
				was = 6 * mm
			}
			set(&s, was-by*mm/5)
			var said []string
			for w := range mustBuild(t, s).Warnings() {
				if w.Code == folio.WarnRuler {
					said = append(said, fmt.Sprintf("%s: %v to %v", w.Path, w.Got, w.Want))
				}
			}
			if want := fmt.Sprintf("%s: %v to %v", path, was-by*mm/5, was); (by == 0) != (len(said) == 0) || by > 0 && (len(said) != 1 || said[0] != want) {
				t.Errorf("%v, want %s", said, want)
			}
		}
	}
}

// What is too wide or too high is told as it was given, and how much goes on a panel of
// 114 x 164 mm: an ornament as it is, off the ruler too.
func TestOrnamentTooLarge(t *testing.T) {
	for _, c := range []struct {
		size  units.Size
		field string
		code  check.Code
		got   string
		most  units.Length
	}{
		{units.Size{W: 10 * mm, H: 300*mm + 1}, "h", folio.TooTall, "300.000001 mm", 164 * mm},
		{units.Size{W: 200*mm + 1, H: 20 * mm}, "w", folio.TooWide, "200.000001 mm", 114 * mm},
	} {
		s := plainCase()
		s.Fittings = []folio.Fitting{{Kind: folio.Ornament{Size: c.size, Thickness: mm / 10}}}
		if v, ok := refusal(s, "fittings[0].kind.size."+c.field, c.code); !ok || v.Got != c.got || v.Limit != c.most {
			t.Errorf("%v: %v, want %v of %v", c.size, builds(s), c.got, c.most)
		}
	}
}

// The lengths of every step are on one of the plan's own rulers, or exact; only a cover is
// measured in tenths of a millimetre.
func TestStepsKeepToTheRulers(t *testing.T) {
	p := full(t)
	glued := p.Spec()
	glued.Closing.Adhesive = closing.AdhesiveFilm{Glue: true}
	for _, q := range []*folio.Plan{p, mustBuild(t, glued), mustBuild(t, plainCase())} {
		r := q.Spec().Rulers
		own := map[units.Ruler]bool{r.Main: true, r.Board: true, r.Gap: true, r.Wrap: true, r.Liner: true, r.Fitting: true, q.Notation().Exact(): true}
		for s := range q.Steps() {
			if measures := s.Task == work.TaskMeasure && s.Ruler == units.TenthMillimetres; !own[s.Ruler] && !measures {
				t.Errorf("step %d, %v, is measured in steps of %v", s.Number, s.Task, s.Ruler.Step())
			}
		}
	}
}

// A block takes from the room over it what it is thick, whatever fitting is thought empty.
func TestHeadroomOverABlock(t *testing.T) {
	s := plainCase()
	s.Cover, s.Spine = units.Size{}, rule.Spine{Width: 25 * mm}
	s.Block = boards.Block{Page: units.Size{W: 100 * mm, H: 150 * mm}, Thickness: 6 * mm}
	p := mustBuild(t, s)
	s.Block.Thickness = 0
	bare := mustBuild(t, s)
	main, _ := p.Board(boards.MainPanel)
	for _, without := range []int{-2, -1, 0, 7} {
		with, none := p.Headroom(main.Rect(), boards.MainPanel, without), bare.Headroom(main.Rect(), boards.MainPanel, without)
		if none-with != 6*mm {
			t.Errorf("without %d: %v over a block of 6 mm, %v over none", without, with, none)
		}
	}
}

// Beside what stands on a spine the highest of what lies on the panel takes from the room
// over it, whichever comes first.
func TestHeadroomBesideWhatStandsOnASpine(t *testing.T) {
	s := plainCase()
	s.Fittings = []folio.Fitting{{Name: "post", Panel: boards.Spine1, Kind: folio.Ornament{Size: units.Size{W: 12 * mm, H: 120 * mm}, Thickness: 18 * mm}}}
	badge := func(along place.Align, thick units.Length) folio.Fitting {
		return folio.Fitting{Place: place.Place{Across: place.Left, Along: along}, Kind: folio.Ornament{Size: units.Size{W: 5 * mm, H: 60 * mm}, Thickness: thick}}
	}
	room := func(on ...folio.Fitting) (most units.Length) {
		s := s
		s.Fittings = append(slices.Clip(s.Fittings), on...)
		p := mustBuild(t, s)
		beside := 0
		for part := range p.Beside(boards.MainPanel, true) {
			most = p.Headroom(part, boards.MainPanel, -1)
			beside++
		}
		if beside != 1 || most <= 0 || most > 5*mm {
			t.Fatalf("%d parts beside the post, %v over them", beside, most)
		}
		return most
	}
	low, high := mm/2, 2*mm
	none, want := room(), room(badge(place.Head, high))
	if none-want < high || none-want > high+mm/5 { // and what it is stuck with
		t.Errorf("%v over a badge of %v, %v over none", want, high, none)
	}
	if a, b := room(badge(place.Head, low), badge(place.Tail, high)), room(badge(place.Head, high), badge(place.Tail, low)); a != want || b != want {
		t.Errorf("%v and %v over two badges, %v over the higher one", a, b, want)
	}
}

// What lies over a panel lies over a part of it: of five panels that roll up, the first of
// half their width, the last folded back, two lie over the last one, and it lies two folds
// from the one on the table.
func TestWhatIsOverAPanelLiesOverIt(t *testing.T) {
	s := metric()
	least := rule.Hinge{Rule: rule.HingeLeast}
	s.Spine = rule.Spine{Contents: 4 * mm}
	s.Row = boards.Row{
		Boards: []boards.Board{{Role: boards.Panel1, Rule: boards.WidthHalf}, {Role: boards.Panel2}, {Role: boards.Panel3}, {Role: boards.Panel4}, {Role: boards.Panel5}},
		Joints: []boards.Joint{{Hinge: least}, {Hinge: least}, {}, {Fold: score.Mountain, Hinge: least}},
	}
	p := mustBuild(t, s)
	several := 0
	for b := range p.Boards() {
		area, _ := p.Panel(b.Role(), false)
		parts := 0
		for o := range p.Overheads(b.Role(), true) {
			if parts++; !o.Part().In(area) {
				t.Errorf("over the %v, at %v, something lies at %v", b.Role(), area, o.Part())
			}
		}
		if parts > 1 {
			several++
		}
	}
	if several == 0 {
		t.Error("nothing lies over a part of a panel only")
	}
}
