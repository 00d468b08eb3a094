package folio_test

import (
	"slices"
	"testing"

	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Spine boards of their own widths that are all too narrow are told at once, each with the
// least that would do with what the others then are: with all of it done the row builds, and
// with a nanometre less of any one it does not.
func TestNarrowSpinesAtOnce(t *testing.T) {
	for _, form := range []boards.Form{boards.ForeEdgeFlap, boards.DoubleSpineGate, boards.ThreePanels, boards.TwoFlaps} {
		for crease := rule.CreaseAtEdge; crease <= rule.CreaseRound; crease++ {
			s := plainCase()
			s.Form, s.Row, s.Rulers = boards.OwnRow, form.Row(), all(everyNanometre)
			s.Spine, s.Hinge = rule.Spine{Contents: 9 * mm}, rule.Hinge{Rule: rule.HingeLeast, Crease: crease}
			if crease == rule.CreaseAtOffset {
				s.Hinge.Offset = mm / 3
			}
			s.Row.Boards = slices.Clone(s.Row.Boards)
			fields := map[string]*units.Length{}
			for i := range s.Row.Boards {
				b := &s.Row.Boards[i]
				if b.Role.Spine() {
					b.Width = mm / 2
					fields[check.Index("row.boards", i)+".width"] = &b.Width
				}
			}
			least := map[string]units.Length{}
			for path := range fields {
				v, ok := refusal(s, path, check.TooSmall)
				if !ok {
					t.Errorf("%v, %v: %s: %v", form, crease, path, builds(s))
				}
				least[path] = v.Limit
			}
			for path, l := range least {
				*fields[path] = l
			}
			if err := builds(s); err != nil {
				t.Errorf("%v, %v: with what would do: %v", form, crease, err)
			}
			for path, l := range least {
				*fields[path]--
				if _, ok := refusal(s, path, check.TooSmall); !ok {
					t.Errorf("%v, %v: with less than %v at %s: %v", form, crease, l, path, builds(s))
				}
				*fields[path]++
			}
		}
	}
}
