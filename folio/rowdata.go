package folio

import (
	"slices"

	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/score"
)

// A shape is the row of a Spec.
type shape struct {
	Boards []boards.Board                   // left to right; of a form they are shared by all plans
	folds  [boards.MaxBoards - 1]score.Fold // at the joints between them
	Main   boards.Role                      // the board that stays on the table
	usual  *rule.Hinge                      // of all joints; nil where each has its own
	own    []boards.Joint                   // with their hinges, of a row of the Spec's own
}

// hinge returns the hinge of a joint.
//
//go:noinline
func (s *shape) hinge(joint int) rule.Hinge {
	switch {
	case s.usual != nil:
		return *s.usual
	case joint < len(s.own):
		return s.own[joint].Hinge
	}
	return rule.Hinge{} // of joints that are not given, which is refused
}

// role returns what a board is.
func (s *shape) role(i int) boards.Role { return s.Boards[i].Role }

// name returns what a board is called in the row: the spine is the first one where
// there are others.
func (s *shape) name(i int) string {
	role := s.role(i)
	for k := range s.Boards {
		if other := s.role(k); role == boards.Spine1 && other.Spine() && other != boards.Spine1 {
			return "first spine"
		}
	}
	return role.String()
}

// index returns the place of a board in the row, −1 where there is none.
func (s *shape) index(r boards.Role) int {
	for i := range s.Boards {
		if s.Boards[i].Role == r {
			return i
		}
	}
	return -1
}

// stands reports whether a board stands on edge when the folio is shut.
func (s *shape) stands(i int) bool { return s.Boards[i].Role.Spine() }

// rule returns the rule for the width of a board.
func (s *shape) rule(i int) boards.WidthRule {
	switch r := s.Boards[i].Rule; {
	case r == boards.WidthDefault && s.Boards[i].Width != 0:
		return boards.WidthFixed
	case r == boards.WidthDefault && s.stands(i):
		return boards.WidthAround
	case r == boards.WidthDefault:
		return boards.WidthCover
	default:
		return r
	}
}

// soft reports whether no spine board is on either side of a joint.
func (s *shape) soft(joint int) bool { return !s.stands(joint) && !s.stands(joint+1) }

// spined reports whether there is a spine board.
func (s *shape) spined() bool {
	for i := range s.Boards {
		if s.stands(i) {
			return true
		}
	}
	return false
}

// ruled returns how many boards have a rule for their width.
func (s *shape) ruled(r boards.WidthRule) int {
	n := 0
	for i := range s.Boards {
		if s.rule(i) == r {
			n++
		}
	}
	return n
}

// layered reports whether the outside of a board may come to lie on another one.
func (s *shape) layered() bool {
	n := 0
	for i := range s.Boards {
		if s.Boards[i].Over != boards.MainPanel || i < len(s.Boards)-1 && s.folds[i] == score.Mountain {
			return true
		}
		if !s.stands(i) && s.rule(i) != boards.WidthShared {
			n++
		}
	}
	return n > 2
}

// ofForm are the rows of the forms.
var ofForm = func() (all [boards.OwnRow + 1]shape) {
	for f := range all {
		form := boards.Form(f).Shape()
		all[f] = shape{Boards: slices.Clone(form.Boards[:form.N]), Main: form.Main}
		for i := range form.Joints {
			all[f].folds[i] = form.Joints[i].Fold
		}
	}
	return all
}()

// shape returns the row of the Spec: its own, or that of its form. What is beyond
// the limits is refused elsewhere.
func (s *Spec) shape() shape {
	if !s.Row.Given() {
		out := ofForm[min(s.Form, boards.OwnRow)]
		out.usual = &s.Hinge
		return out
	}
	out := shape{Boards: s.Row.Boards[:min(len(s.Row.Boards), boards.MaxBoards)], Main: s.Row.Main, own: s.Row.Joints}
	for i := range min(len(out.folds), len(out.own)) {
		out.folds[i] = out.own[i].Fold
	}
	return out
}

// fillRow fills in the hinges of the row, and returns it.
func (s *Spec) fillRow() shape {
	own := s.Row.Given()
	if own && s.Form == boards.SpineBoard {
		s.Form = boards.OwnRow
	}
	row := s.shape()
	if n := len(s.Row.Boards); own && len(s.Row.Joints) == 0 && n >= 2 && n <= boards.MaxBoards {
		s.Row.Joints = make([]boards.Joint, n-1)
	}
	for i := 0; own && i < min(len(s.Row.Joints), len(row.Boards)-1); i++ {
		h, soft := &s.Row.Joints[i].Hinge, row.soft(i)
		if *h == (rule.Hinge{}) && !(soft && row.spined()) {
			*h = s.Hinge
		}
		h.Fill(soft, rule.HingeTwoCalipers)
	}
	usual := rule.HingeTwoCalipers
	if s.Form == boards.TwoFlaps {
		usual = rule.HingeLeast // a flap lies inside the other one's fold
	}
	s.Hinge.Fill(!row.spined(), usual)
	if own {
		row.own = s.Row.Joints
	}
	return row
}

// lying returns how many boards of the row lie on each other when it is shut.
func (s *Spec) lying() int {
	row, n := s.shape(), 0
	for i := range row.Boards {
		if !row.stands(i) {
			n++
		}
	}
	return n
}
