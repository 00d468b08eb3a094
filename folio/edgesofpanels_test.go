package folio_test

import (
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// The inset that is said to do where nothing would be left of the liner does, also where
// each board is lined by itself, and the narrowest wants a piece, as it may where outsides
// come together over the first gap or the last one.
func TestInsetThatLeavesALiner(t *testing.T) {
	covers, out := []boards.Board{{Role: boards.LeftCover}, {Role: boards.Spine1}, {Role: boards.RightCover}}, boards.Joint{Fold: score.Mountain}
	first := boards.Row{Boards: append([]boards.Board{{Role: boards.Panel1}}, covers...), Joints: []boards.Joint{out, {}, {}}}
	last := boards.Row{Boards: append(slices.Clone(covers), boards.Board{Role: boards.Panel1}), Joints: []boards.Joint{{}, {}, out}}
	for _, c := range []struct {
		lining rule.LiningRule
		row    boards.Row
	}{{rule.LiningOnePiece, boards.Row{}}, {rule.LiningPanels, boards.Row{}}, {rule.LiningAuto, first}, {rule.LiningAuto, last}} {
		lining, panels := c.lining, c.lining != rule.LiningOnePiece
		s := folio.Spec{Row: c.row, Cover: units.Size{W: 90 * mm, H: 600 * mm}, Spine: rule.Spine{Width: 11 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}, Lining: rule.Lining{Rule: lining, Inset: 150 * mm}}
		_, err := folio.Build(s)
		bad, ok := err.(*check.Error)
		if !ok {
			t.Fatalf("%v: an inset of 150 mm is taken", lining)
		}
		v, ok := bad.Find("lining.inset", folio.LinerNone)
		if !ok || v.Bound != check.AtMost {
			t.Fatalf("%v: %v", lining, err)
		}
		s.Lining.Inset = v.Limit + s.WithDefaults().Rulers.Liner.Step()
		if _, err := folio.Build(s); err == nil || panels && !refusedWith(err, "lining.inset", folio.LinerNone) {
			t.Errorf("%v: an inset of %v does too, though %v is said to be the most: %v", lining, s.Lining.Inset, v.Limit, err)
		}
		if s.Lining.Inset = v.Limit; s.Lining.Inset > 90*mm/2 && panels {
			t.Errorf("an inset of %v is said to do on boards of 90 mm", v.Limit)
		}
		if _, err := folio.Build(s); err != nil {
			if _, ok := err.(*check.Error).Find("", folio.LinerNone); ok {
				t.Errorf("%v: an inset of %v does not do: %v", lining, v.Limit, err)
			}
		}
	}
}

// Fittings share a board evenly whether they are put on it by its name or as the one
// that stays on the table.
func TestEvenOnTheMainPanelByName(t *testing.T) {
	spec := func(first, second boards.Role) folio.Spec {
		s := folio.Spec{Cover: units.Size{W: 200 * mm, H: 200 * mm}, Spine: rule.Spine{Width: 11 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}}
		for _, role := range []boards.Role{first, second} {
			s.Fittings = append(s.Fittings, folio.Fitting{Panel: role, Place: place.Place{Across: place.Even}, Kind: folio.Mat{Picture: pocket.Content{Size: units.Size{W: 50 * mm, H: 60 * mm}}}})
		}
		return s
	}
	bare := mustBuild(t, folio.Spec{Cover: units.Size{W: 200 * mm, H: 200 * mm}, Spine: rule.Spine{Width: 11 * mm}})
	main := boards.LeftCover
	if a, _ := bare.Panel(boards.MainPanel, false); true {
		if b, _ := bare.Panel(boards.RightCover, false); a == b {
			main = boards.RightCover
		}
	}
	named := mustBuild(t, spec(main, main))
	for _, s := range []folio.Spec{spec(boards.MainPanel, main), spec(main, boards.MainPanel), spec(boards.MainPanel, boards.MainPanel)} {
		p, err := folio.Build(s)
		if err != nil {
			t.Error(err)
			continue
		}
		var want []units.Rect
		for f := range named.Fittings() {
			want = append(want, f.Rect())
		}
		for f := range p.Fittings() {
			if f.Rect() != want[f.Index()] {
				t.Errorf("on the %v and the %v: %v, want %v", s.Fittings[0].Panel, s.Fittings[1].Panel, f.Rect(), want[f.Index()])
			}
		}
	}
}
