package propose_test

import (
	"context"
	"errors"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/propose"
	"boardwrap.example/folio/rule"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A joint that what goes in decides on cannot have a rule: that is refused where it is
// given, whatever the rule, and without the rules the case is sound. A joint beside a
// spine board may have one that is wide enough to turn.
func TestJointsThatFollowHaveNoRule(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	asked := func(s folio.Spec) error {
		_, err := propose.Folios(ctx, propose.Request{Case: s, Things: []propose.Thing{{Content: pocket.IDCard()}}}, propose.Budget{Steps: 1})
		if err == context.Canceled {
			return nil
		}
		return err
	}
	row := func(joints []boards.Joint, roles ...boards.Role) folio.Spec {
		s := folio.Spec{Row: boards.Row{Joints: joints}}
		for _, r := range roles {
			s.Row.Boards = append(s.Row.Boards, boards.Board{Role: r})
		}
		return s
	}
	for h := rule.HingeOneCaliper; h <= rule.HingeShoulder; h++ {
		valley, mountain := boards.Joint{Hinge: rule.Hinge{Rule: h}}, boards.Joint{Fold: score.Mountain, Hinge: rule.Hinge{Rule: h}}
		for _, c := range []struct {
			spec  folio.Spec
			wrong []int // joints
		}{
			{row([]boards.Joint{valley}, boards.LeftCover, boards.RightCover), []int{0}},
			{row([]boards.Joint{valley, mountain}, boards.Panel1, boards.Panel2, boards.Panel3), []int{0, 1}},
			{row([]boards.Joint{{}, {}, valley}, boards.LeftCover, boards.Spine1, boards.RightCover, boards.Flap), []int{2}},
			{row([]boards.Joint{valley, valley}, boards.LeftCover, boards.Spine1, boards.RightCover), nil},
		} {
			var bad *check.Error
			errors.As(asked(c.spec), &bad)
			if len(c.wrong) == 0 { // one caliper may be too narrow to turn about
				if bad == nil {
					continue
				}
				if v, ok := bad.Find("", ""); ok && (v.Code != folio.GapNarrow || h != rule.HingeOneCaliper) {
					t.Errorf("%v beside a spine: %v", h, bad)
				}
				continue
			}
			if bad == nil || bad.Len() != len(c.wrong) {
				t.Errorf("%v in %v: %v", h, c.spec.Row.Boards, bad)
				continue
			}
			mended := c.spec
			mended.Row.Joints = append([]boards.Joint(nil), c.spec.Row.Joints...)
			for _, i := range c.wrong {
				if _, ok := bad.Find("case.row."+check.Index("joints", i)+".hinge.rule", check.Conflict); !ok {
					t.Errorf("%v in joint %d of %v: %v", h, i, c.spec.Row.Boards, bad)
				}
				mended.Row.Joints[i].Hinge = rule.Hinge{}
			}
			if err := asked(mended); err != nil {
				t.Errorf("no rule in %v: %v", c.spec.Row.Boards, err)
			}
		}
	}
}

// What the shut folio must go into is kept to where its size does not follow that of the
// cover, as with boards of widths of their own.
func TestIntoWhereTheCoverDoesNotDecide(t *testing.T) {
	r := propose.Request{Things: []propose.Thing{{Content: pocket.IDCard()}}, Case: metric(), Without: []propose.Holder{propose.Gusset}}
	r.Case.Row = boards.Row{Boards: []boards.Board{{Role: boards.LeftCover, Width: 150 * mm}, {Role: boards.Spine1}, {Role: boards.RightCover, Width: 133 * mm}}}
	free, ok := asked(t, r).Of(propose.Smallest)
	if !ok {
		t.Fatal("none")
	}
	shut := free.Closed().Size()
	for _, c := range []struct {
		into units.Size
		ok   bool
	}{{shut, true}, {shut.Turned(), true}, {shut.Plus(-1, 0), false}, {shut.Plus(0, -1), false}} {
		r.Limits.Into = propose.Space{Size: c.into}
		a := asked(t, r)
		for p := range a.All() {
			if bad := within(r, p); bad != "" || p.Plan() == nil {
				t.Errorf("into %v: %v", c.into, bad)
			}
		}
		if p, ok := a.Of(propose.Smallest); ok != c.ok || ok && p.Cover() != free.Cover() {
			t.Errorf("into %v: %v, want %v", c.into, ok, c.ok)
		}
		if c.ok {
			continue
		}
		said := false
		for l := range a.Unmet() {
			for why := range l.Why() {
				said = said || why.Cause == propose.OverSpace && why.Than == c.into
			}
		}
		if !said {
			t.Errorf("into %v: it is not said to be too small", c.into)
		}
	}
}

// Beside a board of its own width the search begins with a cover and a spine of a quarter
// of a metre at the least: where 10 m take no such case, that is said.
func TestBesideAWideBoard(t *testing.T) {
	for wide, ok := range map[units.Length]bool{9400 * mm: true, 9600 * mm: false} {
		r := propose.Request{Things: []propose.Thing{{Content: pocket.IDCard()}}, Case: metric()}
		r.Case.Row = boards.Row{Boards: []boards.Board{{Role: boards.LeftCover, Width: wide}, {Role: boards.Spine1}, {Role: boards.RightCover}}}
		_, err := propose.Folios(context.Background(), r, propose.Budget{Steps: 100_000})
		var bad *check.Error
		errors.As(err, &bad)
		if bad == nil != ok {
			t.Errorf("beside %v: %v", wide, err)
		} else if bad != nil {
			if v, long := bad.Find("", check.TooLarge); !long || v.Bound != check.AtMost {
				t.Errorf("beside %v: %v", wide, bad)
			}
		}
	}
}
