package folio_test

import (
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"

	"github.com/google/go-cmp/cmp"
)

// A thing of which there are several is called so that one can be told from the
// others: boards, and pieces that are not cut alike.
func TestNamesTellApart(t *testing.T) {
	row := boards.Row{Boards: []boards.Board{
		{Role: boards.LeftCover, Width: 100 * mm}, {Role: boards.Spine1, Width: 20 * mm}, {Role: boards.Panel1, Width: 104 * mm},
		{Role: boards.Spine2, Width: 45 * mm}, {Role: boards.Panel2, Width: 80 * mm}, {Role: boards.Spine3, Width: 24 * mm}, {Role: boards.RightCover, Width: 60 * mm},
	}}
	for _, s := range []folio.Spec{
		{Form: boards.SpineBoard}, {Form: boards.ForeEdgeFlap}, {Form: boards.DoubleSpineGate}, {Form: boards.TwoFlaps}, {Form: boards.FourPanelZ}, {Row: row},
	} {
		for _, lining := range []rule.LiningRule{rule.LiningAuto, rule.LiningPanels} {
			s.Cover, s.Lining.Rule, s.Rulers.Main = units.Size{W: 150 * mm, H: 180 * mm}, lining, units.WholeMillimetres
			if s.Form != boards.FourPanelZ {
				s.Spine.Width = 20 * mm
			}
			p, err := folio.Build(s)
			if err != nil {
				t.Errorf("%v: %v", s.Form, err)
				continue
			}
			called, spines := map[string]bool{}, 0
			for b := range p.Boards() {
				if called[b.Name()] {
					t.Errorf("%v: two boards are called %q", s.Form, b.Name())
				}
				called[b.Name()] = true
				if b.Role().Spine() {
					spines++
				}
			}
			if called["spine"] && spines > 1 {
				t.Errorf("%v: one of %d spines is just called spine", s.Form, spines)
			}
			pieces := map[string]bool{}
			for q := range p.Pieces() {
				if name := q.Part() + ": " + q.Name(); pieces[name] {
					t.Errorf("%v: two pieces are called %q", s.Form, name)
				} else {
					pieces[name] = true
				}
			}
		}
	}
}

// valued is a folio with something worth keeping in fittings of most kinds.
func valued(glue bool) folio.Spec {
	print := pocket.Content{Name: "print", Size: units.Size{W: 60 * mm, H: 90 * mm}, Thickness: mm / 4}
	s := folio.Spec{Cover: units.Size{W: 240 * mm, H: 300 * mm}, Spine: rule.Spine{Width: 60 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}}
	s.Closing.Adhesive.Glue = glue
	add := func(panel boards.Role, across, along place.Align, k folio.Kind) {
		s.Fittings = append(s.Fittings, folio.Fitting{Panel: panel, Place: place.Place{Across: across, Along: along}, Kind: k})
	}
	add(boards.LeftCover, place.Left, place.Head, folio.Mat{Picture: print})
	add(boards.LeftCover, place.Right, place.Head, folio.Folded{Kind: pocket.Flap{Content: print}})
	add(boards.LeftCover, place.Left, place.Tail, folio.Folded{Kind: pocket.Concertina{Content: print, Leaves: 2}})
	add(boards.LeftCover, place.Right, place.Tail, folio.Ornament{Size: units.Size{W: 30 * mm, H: 30 * mm}, Thickness: mm})
	add(boards.RightCover, place.Left, place.Head, folio.Folded{Kind: pocket.Flap{Content: print, Over: 4 * mm, Mat: pocket.Mat{Size: units.Size{W: 66 * mm, H: 96 * mm}}}})
	return s
}

// What is worth keeping must come off again: it is glued only where that is asked
// for, and then it dries before it is covered.
func TestWhatIsWorthKeepingIsTaped(t *testing.T) {
	for _, glue := range []bool{false, true} {
		p, err := folio.Build(valued(glue))
		if err != nil {
			t.Fatal(err)
		}
		stuck, wet := 0, false
		for s := range p.Steps() {
			for _, a := range s.Do {
				switch a := a.(type) {
				case work.Fix:
					if a.What.Kind != work.Content && a.What.Kind != work.Bought {
						continue
					}
					stuck++
					if wet = a.By == work.Glue; wet != glue {
						t.Errorf("glue asked for: %t; step %d: %s", glue, s.Number, s.Text(units.Format{}))
					}
				case work.Dry:
					wet = false
				case work.TurnOver, work.Close:
					if wet {
						t.Errorf("step %d comes before what has been glued is dry", s.Number)
					}
				}
			}
		}
		if stuck != 6 {
			t.Errorf("%d things worth keeping are stuck down, want 6", stuck)
		}
	}
}

// A flap that closes over what it holds is folded over when that is in, not before,
// and before the folio is closed.
func TestFlapsCloseOverWhatIsIn(t *testing.T) {
	letter := pocket.Content{Name: "letter", Size: units.Size{W: 60 * mm, H: 90 * mm}, Thickness: mm / 4}
	for _, c := range []struct {
		kind  pocket.Kind
		folds int // that close it
	}{
		{pocket.FoldedStrip{Content: letter}, 1}, {pocket.FoldedStrip{Content: letter, Count: 4, OwnSpine: true}, 2},
		{pocket.FoldedStrip{Content: letter, Spine: 6 * mm, OpensRight: true}, 2},
		{pocket.Flap{Content: letter, Over: 5 * mm, Hinge: score.Left}, 2}, {pocket.Flap{Content: letter, Over: 5 * mm}, 2},
	} {
		for _, carries := range []bool{false, true} {
			s := folio.Spec{Cover: units.Size{W: 200 * mm, H: 240 * mm}, Spine: rule.Spine{Width: 30 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
				Fittings: []folio.Fitting{{Name: "wallet", Panel: boards.RightCover, Kind: folio.Folded{Kind: c.kind}}}}
			if carries {
				s.Fittings = append(s.Fittings, folio.Fitting{StandsOn: "wallet", Kind: folio.Ornament{Size: units.Size{W: 10 * mm, H: 10 * mm}}})
			}
			p, err := folio.Build(s)
			if err != nil {
				t.Fatal(err)
			}
			in, fixed, closing, shut := false, false, 0, false
			for step := range p.Steps() {
				for _, a := range step.Do {
					switch a := a.(type) {
					case work.Insert:
						in = true
						if closing > 0 {
							t.Errorf("%#v: closed before the letter is in", c.kind)
						}
					case work.Fix:
						if a.What.Kind == work.Content {
							in = true
						}
						if a.What.Kind == work.Bought && closing != c.folds {
							t.Errorf("%#v: something is put on a flap that lies open", c.kind)
						}
						fixed = fixed || a.On.Kind == work.OnBoard && a.What.Kind == work.Piece
					case work.FoldAt:
						if fixed && !a.Open {
							closing++
						}
					case work.Close:
						shut = true
						if !in || closing != c.folds {
							t.Errorf("%#v: the folio is closed with the letter in %t and %d of %d folds made", c.kind, in, closing, c.folds)
						}
					}
				}
			}
			if !shut {
				t.Error("never closed")
			}
		}
	}
}

// Of two like fittings that are closed when all is in, one can tell which is meant.
func TestWhatClosesIsToldApart(t *testing.T) {
	note := pocket.Content{Name: "note", Size: units.Size{W: 60 * mm, H: 40 * mm}}
	leaf := folio.Folded{Kind: pocket.Flap{Content: note, Over: 3 * mm}}
	p, err := folio.Build(folio.Spec{
		Cover: units.Size{W: 150 * mm, H: 200 * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Fittings: []folio.Fitting{{Name: "upstream", Kind: leaf, Place: place.Place{Along: place.Head}}, {Name: "downstream", Kind: leaf, Place: place.Place{Along: place.Tail}}},
	})
	if err != nil {
		t.Fatal(err)
	}
	var closed []string // after their grain was found
	for step := range p.Steps() {
		for _, a := range step.Do {
			switch a := a.(type) {
			case work.FindGrain:
				for _, t := range a.Either {
					closed = append(closed, t.Name)
				}
			case work.FoldAt:
				if !a.Open {
					closed = append(closed, a.What.Name)
				}
			}
		}
	}
	want := []string{"leaf of the upstream", "leaf of the downstream", "leaf of the upstream", "leaf of the upstream", "leaf of the downstream", "leaf of the downstream"}
	if d := cmp.Diff(want, closed); d != "" {
		t.Error(d)
	}
}

// A front end can show what a mat and a frame take by default, in inches and in
// millimetres, and shows what was given as it was.
func TestDefaultsOfKindsAreShown(t *testing.T) {
	in := units.Inch
	s := folio.Spec{Cover: units.Size{W: 6 * in, H: 8 * in}, Stocks: []stock.Stock{{Name: "foam", Caliper: 3 * mm}}, Fittings: []folio.Fitting{
		{Kind: folio.Mat{}}, {Kind: folio.Mat{Reveal: units.None}}, {Kind: folio.Frame{}}, {Kind: &folio.Frame{Rail: in, FoamStock: "foam"}},
	}}
	want := map[units.Ruler][4]folio.Kind{
		units.Sixteenths: {folio.Mat{Reveal: in / 8}, folio.Mat{Reveal: units.None}, folio.Frame{Lap: in / 8, Rail: in / 2, Foam: in / 16, FoamWidth: in / 4, Ease: in / 16},
			folio.Frame{Lap: in / 8, Rail: in, FoamWidth: in / 4, Ease: in / 16, FoamStock: "foam"}},
		units.WholeMillimetres: {folio.Mat{Reveal: 3 * mm}, folio.Mat{Reveal: units.None}, folio.Frame{Lap: 3 * mm, Rail: 12 * mm, Foam: 2 * mm, FoamWidth: 6 * mm, Ease: 2 * mm},
			folio.Frame{Lap: 3 * mm, Rail: in, FoamWidth: 6 * mm, Ease: 2 * mm, FoamStock: "foam"}},
	}
	for ruler, kinds := range want {
		s.Rulers.Main = ruler
		for i, f := range s.WithDefaults().Fittings {
			if f.Kind != kinds[i] {
				t.Errorf("%v: %+v, want %+v", ruler, f.Kind, kinds[i])
			}
		}
	}
	if s.Fittings[0].Kind != (folio.Mat{}) {
		t.Error("the Spec that was given has changed")
	}
}

// A block lies over what its board carries, so it is put in last.
func TestBlockIsPutInLast(t *testing.T) {
	s := folio.Spec{Block: boards.Block{Page: units.Size{W: 140 * mm, H: 200 * mm}, Thickness: 12 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}, Fittings: []folio.Fitting{
		{Kind: folio.Mat{Picture: pocket.Content{Name: "map", Size: units.Size{W: 100 * mm, H: 140 * mm}, Thickness: mm / 4}}},
		{Panel: boards.LeftCover, Kind: folio.Folded{Kind: pocket.Slip{Content: pocket.IDCard()}}},
	}}
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	last := work.Step{}
	for step := range p.Steps() {
		if step.Task == work.TaskCheck {
			if put, ok := last.Do[0].(work.Put); !ok || put.What.Kind != work.Block || len(last.After) == 0 {
				t.Errorf("before the folio is closed: %s", last.Text(units.Format{}))
			}
			return
		}
		last = step
	}
	t.Error("never closed")
}

// What goes in is told from what it goes into, also where both are called alike: "slip
// the note under the notes" sends hands looking for other notes.
func TestContentsAndTheirPlacesAreToldApart(t *testing.T) {
	for _, c := range []struct{ content, fitting, want string }{
		{"note", "notes", "Slip the note under the notes corner pocket, one corner after the other."},
		{"crew", "crew", "Slip the crew under the crew corner pocket, one corner after the other."},
		{"chart of the river", "chart", "Slip the chart of the river under the chart corner pocket, one corner after the other."},
		{"note", "note corner pocket", "Slip the note under the note corner pocket, one corner after the other."},
		{"note", "", "Slip the note under the corner pocket, one corner after the other."},
		{"note", "river", "Slip the note under the river, one corner after the other."},
	} {
		p := mustBuild(t, related(folio.Fitting{Name: c.fitting, Stock: "card", Kind: folio.Folded{Kind: pocket.Corners{Content: pocket.Content{Name: c.content, Size: units.Size{W: 50 * mm, H: 80 * mm}}}}}))
		said := false
		for s := range p.Steps() {
			said = said || s.Task == work.TaskFill && s.Text(units.Format{}) == c.want
		}
		if !said {
			t.Errorf("of a %q in %q no step says %q", c.content, c.fitting, c.want)
		}
	}
}

// On which of several mats a picture goes is told when others have been worked on since;
// with one mat nothing needs telling.
func TestMatsAreToldApart(t *testing.T) {
	for _, c := range []struct {
		names []string
		want  []string
	}{
		{[]string{""}, []string{"the mat"}},
		{[]string{"bow"}, []string{"the mat"}},
		{[]string{"", ""}, []string{"the first mat", "the second mat"}},
		{[]string{"bow", "stern mat"}, []string{"the mat of the bow", "the stern mat"}},
	} {
		var s folio.Spec
		s.Cover = units.Size{W: 200 * mm, H: 150 * mm}
		s.Spine.Width = 9 * mm
		for i, name := range c.names {
			s.Fittings = append(s.Fittings, folio.Fitting{Name: name, Kind: folio.Mat{Picture: pocket.Content{Name: "print", Size: units.Size{W: 50 * mm, H: units.Length(80+i) * mm}}},
				Place: place.Place{Across: place.Left, Offset: units.Point{X: units.Length(10+90*i) * mm}}})
		}
		var got []string
		for step := range mustBuild(t, s).Steps() {
			if text, ok := strings.CutPrefix(step.Text(units.Format{}), "Tape the print on "); ok {
				on, _, _ := strings.Cut(text, ":")
				got = append(got, on)
			}
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("mats called %q (-want +got):\n%s", c.names, diff)
		}
	}
}

// What lies on one of its panels is taped as what lies on a whole piece is: along the
// edges of that panel, wherever it is on the piece.
func TestPanelsAreTapedAlongTheirEdges(t *testing.T) {
	p, err := folio.Build(folio.Spec{
		Cover: units.Size{W: 140 * mm, H: 200 * mm}, Spine: rule.Spine{Width: 18 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Fittings: []folio.Fitting{{Name: "map", Kind: folio.Folded{Kind: pocket.FoldedStrip{Content: pocket.Content{Size: units.Size{W: 90 * mm, H: 130 * mm}}}}}},
	})
	if err != nil {
		t.Fatal(err)
	}
	for s := range p.Steps() {
		for _, a := range s.Do {
			fix, ok := a.(work.Fix)
			if !ok || fix.What.Name != "base of the strip" {
				continue
			}
			design, _ := slices.Collect(p.Fittings())[0].Design()
			var base units.Rect
			for _, panel := range design.Panels() {
				if panel.Name() == "base" {
					base = panel.Blank()
				}
			}
			const w = 6 * mm
			inner := base.Grow(-w)
			want := []units.Rect{
				{Min: base.Min, Max: units.Point{X: base.Max.X, Y: inner.Min.Y}}, {Min: units.Point{X: base.Min.X, Y: inner.Max.Y}, Max: base.Max},
				{Min: units.Point{X: base.Min.X, Y: inner.Min.Y}, Max: units.Point{X: inner.Min.X, Y: inner.Max.Y}},
				{Min: units.Point{X: inner.Max.X, Y: inner.Min.Y}, Max: units.Point{X: base.Max.X, Y: inner.Max.Y}},
			}
			if d := cmp.Diff(want, fix.Areas); d != "" || base.Min.X == 0 {
				t.Errorf("base at %v: %s", base, d)
			}
			if text := s.Text(units.Format{Ruler: units.WholeMillimetres}); !strings.HasSuffix(text, "in the marked place; double-sided tape 6 mm wide along all four edges.") {
				t.Error(text)
			}
			return
		}
	}
	t.Error("the strip is fixed nowhere")
}
