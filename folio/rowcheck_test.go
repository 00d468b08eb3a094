package folio_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/internal/mendtest"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// soundRow is a row of five: cover, spine, cover, panel, panel.
func soundRow() folio.Spec {
	s := plainCase()
	s.Spine, s.Hinge = rule.Spine{Contents: 4 * mm}, rule.Hinge{}
	s.Row = boards.Row{
		Boards: []boards.Board{{Role: boards.LeftCover}, {Role: boards.Spine1}, {Role: boards.RightCover}, {Role: boards.Panel2, Width: 60 * mm}, {Role: boards.Panel3, Width: 60 * mm}},
		Joints: []boards.Joint{{}, {}, {Fold: score.Mountain}, {}},
	}
	return s
}

// Of a row that is sound but for one thing, that is said and nothing else: at its field,
// with what there is and what would do.
func TestRowsAreSound(t *testing.T) {
	if err := builds(soundRow()); err != nil {
		t.Fatal(err)
	}
	const another = ", or another board that the row has not"
	for _, c := range []struct {
		change     func(s *folio.Spec, r *boards.Row)
		path       string
		code       check.Code
		got, would string
	}{
		{change: func(s *folio.Spec, r *boards.Row) { s.Form = boards.SoftSpine }, path: "form", code: check.Conflict, got: "two covers, soft spine and a row of its own", would: "none, or no row"},
		{change: func(s *folio.Spec, r *boards.Row) { r.Boards = nil }, path: "row.joints", code: check.Conflict, got: "4 without boards", would: "none, or the boards of a row"},
		{change: func(s *folio.Spec, r *boards.Row) { r.Boards, r.Joints, r.Main = nil, nil, boards.LeftCover }, path: "row.main", code: check.Conflict, got: "left cover without boards", would: "none, or the boards of a row"},
		{change: func(s *folio.Spec, r *boards.Row) { *r, s.Form = boards.Row{}, boards.OwnRow }, path: "form", code: check.Conflict, got: "row of its own without boards", would: `"cover, spine, cover" or another form, or the boards of a row`},
		{change: func(s *folio.Spec, r *boards.Row) { r.Boards, r.Joints = r.Boards[:1], nil }, path: "row.boards", code: check.Conflict, got: "1", would: "none, or at least two boards that lie on each other"},
		{change: func(s *folio.Spec, r *boards.Row) { r.Joints = r.Joints[:3] }, path: "row.joints", code: check.Conflict, got: "3", would: "none, or 4, one between each two boards"},
		{change: func(s *folio.Spec, r *boards.Row) { r.Joints = append(r.Joints, boards.Joint{}) }, path: "row.joints", code: check.Conflict, got: "5", would: "none, or 4, one between each two boards"},
		{change: func(s *folio.Spec, r *boards.Row) { r.Boards[3].Role = boards.Spine2 }, path: "row.joints[3].fold", code: check.Conflict, got: "valley right of the second spine, and another left of it", would: "mountain, as on its other side"},
		{change: func(s *folio.Spec, r *boards.Row) { r.Boards[4].Role = boards.Spine2 }, path: "row.boards[4].role", code: check.Conflict, got: "second spine at the end of the row", would: "first panel, or another board that lies: a spine stands between two"},
		{change: func(s *folio.Spec, r *boards.Row) { r.Boards[2].Role = boards.Spine2 }, path: "row.boards[2].role", code: check.Conflict, got: "second spine beside the spine", would: "first panel, or another board that lies: a spine stands between two"},
		{change: func(s *folio.Spec, r *boards.Row) { r.Boards[4].Role = boards.Panel2 }, path: "row.boards[4].role", code: check.Conflict, got: "second panel again", would: "first panel" + another},
		{change: func(s *folio.Spec, r *boards.Row) { r.Boards[3].Role = boards.MainPanel }, path: "row.boards[3].role", code: check.Unknown, got: "0", would: "first panel" + another},
		{change: func(s *folio.Spec, r *boards.Row) { r.Boards[3].Role = 200 }, path: "row.boards[3].role", code: check.Unknown, got: "200", would: "first panel" + another},
		{change: func(s *folio.Spec, r *boards.Row) { r.Boards[3].Width = -nm }, path: "row.boards[3].width", code: check.NotPositive, got: "-0.000001 mm", would: "a length from 0.01 mm to 10 m"},
		{change: func(s *folio.Spec, r *boards.Row) { r.Boards[3].Rule = 99 }, path: "row.boards[3].rule", code: check.Unknown, got: "99", would: "default, cover, what it goes round, half of the cover, share of the cover or fixed"},
		{change: func(s *folio.Spec, r *boards.Row) { r.Boards[3].Rule = boards.WidthHalf }, path: "row.boards[3].width", code: check.Conflict, got: "60 mm with the rule half of the cover", would: "no width, or the rule fixed"},
		{change: func(s *folio.Spec, r *boards.Row) { r.Boards[3].Rule, r.Boards[3].Width = boards.WidthAround, 0 }, path: "row.boards[3].rule", code: check.Conflict, got: "what it goes round of a board that lies", would: "cover, half of the cover, share of the cover or fixed"},
		{change: func(s *folio.Spec, r *boards.Row) { r.Boards[1].Rule = boards.WidthHalf }, path: "row.boards[1].rule", code: check.Conflict, got: "half of the cover of a spine", would: "what it goes round or fixed"},
		{change: func(s *folio.Spec, r *boards.Row) { r.Boards[1].Rule = boards.WidthCover }, path: "row.boards[1].rule", code: check.Conflict, got: "cover of a spine", would: "what it goes round or fixed"},
		{change: func(s *folio.Spec, r *boards.Row) { r.Boards[3].Over = boards.Panel9 }, path: "row.boards[3].over", code: check.Unknown, got: "ninth panel", would: "none, or another board of the row that lies, of a board that lies"},
		{change: func(s *folio.Spec, r *boards.Row) { r.Boards[3].Over = boards.Panel2 }, path: "row.boards[3].over", code: check.Unknown, got: "second panel", would: "none, or another board of the row that lies, of a board that lies"},
		{change: func(s *folio.Spec, r *boards.Row) { r.Boards[3].Over = boards.Spine1 }, path: "row.boards[3].over", code: check.Unknown, got: "spine", would: "none, or another board of the row that lies, of a board that lies"},
		{change: func(s *folio.Spec, r *boards.Row) { r.Boards[1].Over = boards.RightCover }, path: "row.boards[1].over", code: check.Unknown, got: "right cover", would: "none, or another board of the row that lies, of a board that lies"},
		{change: func(s *folio.Spec, r *boards.Row) { r.Main = boards.Panel9 }, path: "row.main", code: check.Unknown, got: "ninth panel", would: "a board of the row that lies"},
		{change: func(s *folio.Spec, r *boards.Row) { r.Main = boards.Spine1 }, path: "row.main", code: check.Unknown, got: "spine", would: "a board of the row that lies"},
		{change: func(s *folio.Spec, r *boards.Row) { r.Joints[3].Fold = score.Mountain + 1 }, path: "row.joints[3].fold", code: check.Unknown, got: "2", would: "valley or mountain"},
		{change: func(s *folio.Spec, r *boards.Row) { r.Joints[1].Fold = score.Mountain }, path: "row.joints[1].fold", code: check.Conflict, got: "mountain right of the spine, and another left of it", would: "valley, as on its other side"},
		{change: func(s *folio.Spec, r *boards.Row) { r.Joints[3].Hinge.Width = -nm }, path: "row.joints[3].hinge.width", code: check.NotPositive, got: "-0.000001 mm", would: "a length from 0.01 mm to 10 m"},
	} {
		s := soundRow()
		c.change(&s, &s.Row)
		var bad *check.Error
		if !errors.As(builds(s), &bad) {
			t.Errorf("%s, %s: was taken", c.path, c.got)
			continue
		}
		v, ok := bad.Find(c.path, c.code)
		if !ok || bad.Len() != 1 || v.Got != c.got || v.Want != c.would {
			t.Errorf("%s, %s, %q: %v", c.path, c.code, c.got, bad)
		}
	}
	first := soundRow()
	first.Row.Boards[0].Role = boards.Spine2 // so that two spines stand beside each other too
	if v, ok := refusal(first, "row.boards[0].role", check.Conflict); !ok || !strings.Contains(v.Got, "second spine at the end") {
		t.Errorf("a spine at the left end: %v", builds(first))
	}
	// A sound choice in each of those fields is taken.
	for i, change := range []func(s *folio.Spec, r *boards.Row){
		func(s *folio.Spec, r *boards.Row) { s.Form = boards.OwnRow },
		func(s *folio.Spec, r *boards.Row) { r.Main = boards.LeftCover },
		func(s *folio.Spec, r *boards.Row) { r.Boards[3].Rule, r.Boards[3].Width = boards.WidthHalf, 0 },
		func(s *folio.Spec, r *boards.Row) { r.Boards[1].Rule = boards.WidthAround },
		func(s *folio.Spec, r *boards.Row) { r.Boards[1].Rule, r.Boards[1].Width = boards.WidthFixed, 14*mm },
		func(s *folio.Spec, r *boards.Row) { r.Boards[0].Over = boards.RightCover },
		func(s *folio.Spec, r *boards.Row) { r.Joints[3].Hinge = rule.Hinge{Width: 9 * mm} },
	} {
		s := soundRow()
		if change(&s, &s.Row); builds(s) != nil {
			t.Errorf("sound change %d: %v", i, builds(s))
		}
	}
}

// The row whose ends nearly meet is the same from both sides of the table: taken and
// refused at the same widths, and by as much.
func TestBesideEachOtherFromBothSides(t *testing.T) {
	met := map[bool]int{}
	for w := 60 * mm; w <= 90*mm; w += mm / 2 {
		s := besideRow(w)
		s.Row.Main = boards.Panel3
		met[builds(s) == nil]++
		if was, is := only(builds(s)), only(builds(halfRound(s))); was.Code != is.Code || was.By != is.By || was.Want != is.Want {
			t.Errorf("%v: %v, and from the other side %v", w, was, is)
		}
	}
	if met[true] < 30 || met[false] < 3 {
		t.Errorf("%d are taken, %d refused", met[true], met[false])
	}
}

// Where a fitting is put on a board that the row has not, all that it has are named, and
// each of them is one: of a form and of a row of one's own.
func TestPanelsOfARowAreNamed(t *testing.T) {
	own := soundRow()
	for _, s := range []folio.Spec{plainCase(), own} {
		s.Fittings = []folio.Fitting{{Name: "badge", Panel: boards.Panel9, Kind: folio.Ornament{Size: units.Size{W: 2 * mm, H: 2 * mm}, Thickness: mm / 10}}}
		v, ok := refusal(s, "fittings[0].panel", check.Unknown)
		names, one := strings.CutPrefix(v.Want, "one of ")
		if !ok || !one {
			t.Fatalf("on the ninth panel: %v", builds(s))
		}
		s.Fittings = nil
		there := []string{boards.MainPanel.String()}
		for b := range mustBuild(t, s).Boards() {
			there = append(there, b.Role().String())
		}
		if got := strings.Split(names, ", "); !slices.Equal(got, there) {
			t.Errorf("named are %q, and there are %q", got, there)
		}
	}
}

// What is wrong with hinges that are alike is told of each joint of a row of its own that has
// such a hinge, and of a form once: done everywhere at once it mends the folio.
func TestHingesThatAreAlikeAreAllTold(t *testing.T) {
	for name, c := range map[string]struct {
		hinge rule.Hinge
		field string
		code  check.Code
	}{
		"too narrow":       {rule.Hinge{Width: 3 * mm}, ".width", folio.GapNarrow},
		"never closes":     {rule.Hinge{Width: 9 * mm, Crease: rule.CreaseMidGap, Angle: 180}, ".angle", folio.NeverCloses},
		"beyond the gap":   {rule.Hinge{Width: 9 * mm, Crease: rule.CreaseAtOffset, Offset: 12 * mm}, ".offset", check.TooLarge},
		"narrow by a rule": {rule.Hinge{Rule: rule.HingeNarrowGroove}, ".rule", folio.GapNarrow},
	} {
		s := plainCase()
		s.Board.Caliper, s.Hinge = 3*mm, c.hinge
		v := only(builds(s))
		if v.Path != "hinge"+c.field || v.Code != c.code {
			t.Errorf("%s: of a form %v", name, builds(s))
		}
		s.Row, s.Hinge = boards.ForeEdgeFlap.Row(), rule.Hinge{Width: 12 * mm}
		s.Form = boards.OwnRow
		for i := range s.Row.Joints {
			if s.Row.Joints[i].Hinge = c.hinge; i == 1 {
				s.Row.Joints[i].Hinge = s.Hinge
			}
		}
		var bad *check.Error
		if !errors.As(builds(s), &bad) {
			t.Errorf("%s: a row is taken", name)
			continue
		}
		for i := range s.Row.Joints {
			if _, told := bad.Find(check.Index("row.joints", i)+".hinge"+c.field, c.code); told != (i != 1) {
				t.Errorf("%s: told of joint %d, %t: %v", name, i, told, bad)
			}
		}
		s, ok := obeyed(s, bad)
		if errors.As(builds(s), &bad) {
			for v := range bad.All() {
				ok = ok && v.Code != c.code
			}
		}
		if !ok {
			t.Errorf("%s: obeyed, %v", name, builds(s))
		}
	}
}

// So it is where the first joint is sound, and only those after it are alike.
func TestHingesAfterASoundOneAreAllTold(t *testing.T) {
	s := plainCase()
	s.Board.Caliper, s.Hinge = 3*mm, rule.Hinge{}
	s.Row, s.Form = boards.ForeEdgeFlap.Row(), boards.OwnRow
	for i := range s.Row.Joints {
		if s.Row.Joints[i].Hinge.Width = 3 * mm; i == 0 {
			s.Row.Joints[i].Hinge.Width = 5 * mm
		}
	}
	var bad *check.Error
	if !errors.As(builds(s), &bad) {
		t.Fatal("a row is taken")
	}
	for i := range s.Row.Joints {
		if _, told := bad.Find(check.Index("row.joints", i)+".hinge.width", folio.GapNarrow); told != (i > 0) {
			t.Errorf("told of joint %d, %t: %v", i, told, bad)
		}
	}
}

// A joint that one crease would have to close flat is given an angle that its gap is
// wide enough for, or another crease: done, no gap is asked to be a multiple of itself.
func TestAnglesToldSuitTheGap(t *testing.T) {
	angles := 0
	for f := range boards.OwnRow {
		for r := range rule.HingeLeast + 1 {
			for _, crease := range []rule.CreasePlace{rule.CreaseAtEdge, rule.CreaseMidGap, rule.CreaseAtOffset} {
				s := plainCase()
				s.Form, s.Board.Caliper = f, 2*mm
				s.Hinge = rule.Hinge{Rule: r, Crease: crease, Angle: 180}
				if crease == rule.CreaseAtOffset {
					s.Hinge.Offset = mm
				}
				if r == rule.HingeFixed {
					s.Hinge.Width = 7 * mm
				}
				v, told := refusal(s, "hinge.angle", folio.NeverCloses)
				if told {
					angles++
				} else if v, told = refusal(s, "hinge.crease", folio.NeverCloses); !told {
					continue
				}
				if mendtest.Do(&s, v, nil) != mendtest.Mended {
					t.Errorf("%v, %v: %v cannot be done", f, crease, v)
				}
				var bad *check.Error
				if !errors.As(builds(s), &bad) {
					continue
				}
				for w := range bad.All() {
					if w.Code == folio.NeverCloses || w.Code == folio.GapNarrow && v.Path == "hinge.angle" {
						t.Errorf("%v, %v, creased %v: %v\n  done: %v", f, r, crease, v, w)
					}
				}
			}
		}
	}
	if angles == 0 {
		t.Error("no angle was told")
	}
}
