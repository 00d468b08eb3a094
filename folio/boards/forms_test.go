package boards_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/score"
)

// told is a row in words, left to right: the board on the table in brackets, what is
// not as wide as the cover with its rule, what lies over another with that, and a
// joint that brings outsides together as a slash.
func told(r boards.Row) string {
	var b strings.Builder
	for i, x := range r.Boards {
		if i > 0 {
			b.WriteString(map[score.Fold]string{score.Valley: ", ", score.Mountain: " / "}[r.Joints[i-1].Fold])
		}
		name := x.Role.String()
		if x.Role == r.Main {
			name = "[" + name + "]"
		}
		b.WriteString(name)
		if x.Rule != boards.WidthDefault {
			fmt.Fprintf(&b, " (%v)", x.Rule)
		}
		if x.Over != boards.MainPanel {
			fmt.Fprintf(&b, " over %v", x.Over)
		}
	}
	return b.String()
}

// The rows of the forms, as the folios are made: the right cover, or the back of a
// gate, stays on the table; flaps close over the front, half as wide, doors share
// the back; a Z is folded to and fro.
func TestRowsOfForms(t *testing.T) {
	want := map[boards.Form]string{
		boards.SpineBoard:      "left cover, spine, [right cover]",
		boards.SoftSpine:       "left cover, [right cover]",
		boards.ForeEdgeFlap:    "left cover, spine, [right cover], second spine, flap (half of the cover) over left cover",
		boards.DoubleSpineGate: "left door (share of the cover), spine, [back], second spine, right door (share of the cover)",
		boards.SoftGate:        "left door (share of the cover), [back], right door (share of the cover)",
		boards.ThreePanels:     "first panel, spine, [second panel], second spine, third panel over first panel",
		boards.TwoFlaps: "left flap (half of the cover), spine, left cover over left flap, second spine, [right cover], third spine, " +
			"flap (half of the cover) over left cover",
		boards.FourPanelZ: "first panel, second panel / third panel, [fourth panel]",
	}
	for f := boards.SpineBoard; f < boards.OwnRow; f++ {
		row := f.Row()
		if got := told(row); got != want[f] {
			t.Errorf("%v: %s; want %s", f, got, want[f])
		}
		if len(row.Joints) != len(row.Boards)-1 || !row.Given() {
			t.Errorf("%v: %d boards and %d joints, given %v", f, len(row.Boards), len(row.Joints), row.Given())
		}
		roles := f.Roles()
		if !slices.EqualFunc(roles, row.Boards, func(r boards.Role, b boards.Board) bool { return r == b.Role }) {
			t.Errorf("%v: %v", f, roles)
		}
		// Spines are counted from the left, as hands meet them in the row.
		spines := slices.DeleteFunc(f.Roles(), func(r boards.Role) bool { return !r.Spine() })
		if !slices.Equal(spines, []boards.Role{boards.Spine1, boards.Spine2, boards.Spine3}[:len(spines)]) {
			t.Errorf("%v: spines %v, from the left", f, spines)
		}
		// With two flaps every gap is as wide as what turns in it; all others follow
		// the hinge of the Spec.
		for _, j := range row.Joints {
			if least := j.Hinge.Rule == rule.HingeLeast; least != (f == boards.TwoFlaps) {
				t.Errorf("%v: a hinge by the rule %v", f, j.Hinge.Rule)
			}
		}
		shape := f.Shape()
		for _, j := range shape.Joints[len(row.Joints):] {
			if j != (boards.Joint{}) {
				t.Errorf("%v: a joint beyond the last board", f)
			}
		}
		for _, b := range shape.Boards[len(row.Boards):] {
			if b != (boards.Board{}) {
				t.Errorf("%v: a board beyond the last", f)
			}
		}
		// A row is the caller's own.
		row.Boards[0].Role = boards.Panel9
		if f.Row().Boards[0].Role == boards.Panel9 {
			t.Errorf("%v is written to", f)
		}
	}
	if one := (boards.Row{Boards: make([]boards.Board, 1)}); !one.Given() || (boards.Row{Joints: make([]boards.Joint, 1)}).Given() {
		t.Error("a row is given by its boards")
	}
	if boards.MaxBoards != 9 {
		t.Errorf("a row has up to %d boards", boards.MaxBoards)
	}
	for _, f := range []boards.Form{boards.OwnRow, boards.OwnRow + 1, 200} {
		if row := f.Row(); row.Given() || row.Joints != nil || row.Main != boards.MainPanel {
			t.Errorf("%v: %v", f, row)
		}
		if s := f.Shape(); s.N != 3 {
			t.Errorf("%v has the shape %v", f, s)
		}
	}
}

// A spine is what is called one.
func TestSpines(t *testing.T) {
	for r := boards.MainPanel; r <= boards.Panel9; r++ {
		if want := strings.HasSuffix(r.String(), "spine"); r.Spine() != want {
			t.Errorf("%v: a spine %v", r, r.Spine())
		}
		if !r.Known() {
			t.Errorf("%v is not known", r)
		}
	}
	if (boards.Panel9 + 1).Known() || (boards.OwnRow + 1).Known() || !boards.OwnRow.Known() || (boards.WidthFixed + 1).Known() || !boards.WidthFixed.Known() {
		t.Error("what there is not is known, or what there is is not")
	}
}
