package folio

import (
	"boardwrap.example/folio/boards"
	"boardwrap.example/internal/word"
	"boardwrap.example/score"
	"boardwrap.example/units/check"
)

// checkRow checks a row that is given as data as far as it can be wrong by itself,
// and reports whether there is nothing to find.
func (b *builder) checkRow() bool {
	s := b.spec
	before := b.bad.Len()
	r := &s.Row
	if !r.Given() {
		if s.Form == boards.OwnRow {
			b.bad.Malformed("form", check.Conflict, boards.OwnRow.String()+" without boards", `"`+boards.SpineBoard.String()+`" or another form, or the boards of a row`)
		}
		if len(r.Joints) > 0 {
			b.bad.Malformed("row.joints", check.Conflict, count(len(r.Joints))+" without boards", "none, or the boards of a row")
		}
		if r.Main != boards.MainPanel {
			b.bad.Malformed("row.main", check.Conflict, r.Main.String()+" without boards", "none, or the boards of a row")
		}
		return b.bad.Len() == before
	}
	if s.Form != boards.OwnRow && s.Form.Known() {
		b.bad.Malformed("form", check.Conflict, s.Form.String()+" and a row of its own", "none, or no row")
	}
	switch n := len(r.Boards); {
	case n > boards.MaxBoards:
		b.bad.Malformed("row.boards", check.TooMany, count(n), "at most "+count(boards.MaxBoards))
		return false
	case n < 2:
		b.bad.Malformed("row.boards", check.Conflict, count(n), "none, or at least two boards that lie on each other")
		return false
	case len(r.Joints) != n-1:
		b.bad.Malformed("row.joints", check.Conflict, count(len(r.Joints)), "none, or "+count(n-1)+", one between each two boards")
		return false
	}
	for i := range r.Boards {
		b.checkBoard(i)
	}
	if b.bad.Len() > before {
		return false // what the joints join is not known
	}
	for i := range r.Joints {
		b.checkJoint(i)
	}
	row := &b.plan.shape
	if i := row.index(r.Main); r.Main != boards.MainPanel && (i < 0 || row.stands(i)) {
		b.bad.Malformed("row.main", check.Unknown, r.Main.String(), "a board of the row that lies")
	}
	return b.bad.Len() == before
}

// freeRole names the first panel that the row has not.
func (b *builder) freeRole() string {
	for r := boards.Panel1; r < boards.Panel9; r++ {
		if b.plan.shape.index(r) < 0 {
			return r.String()
		}
	}
	return boards.Panel9.String()
}

// checkBoard checks one board of the row.
func (b *builder) checkBoard(i int) {
	all := b.spec.Row.Boards
	board, row := all[i], &b.plan.shape
	path := check.Index("row.boards", i)
	if board.Role == boards.MainPanel || !board.Role.Known() {
		b.bad.Malformed(path+".role", check.Unknown, count(int(board.Role)), b.freeRole()+", or another board that the row has not")
	}
	for _, other := range all[:i] {
		if other.Role == board.Role {
			b.bad.Malformed(path+".role", check.Conflict, board.Role.String()+" again", b.freeRole()+", or another board that the row has not")
			break
		}
	}
	stands := row.stands(i)
	if stands && (i == 0 || i == len(all)-1) {
		b.bad.Malformed(path+".role", check.Conflict, board.Role.String()+" at the end of the row", b.freeRole()+", or another board that lies: a spine stands between two")
	} else if stands && row.stands(i-1) {
		b.bad.Malformed(path+".role", check.Conflict, board.Role.String()+" beside the "+all[i-1].Role.String(), b.freeRole()+", or another board that lies: a spine stands between two")
	}
	switch width := row.rule(i); {
	case !width.Known():
		b.bad.Malformed(path+".rule", check.Unknown, count(int(width)), word.OneOf[boards.WidthRule]())
	case width == boards.WidthFixed:
		b.bad.Length(path+".width", board.Width)
	case board.Width != 0:
		b.bad.Malformed(path+".width", check.Conflict, b.bad.Text(board.Width)+" with the rule "+width.String(), "no width, or the rule "+boards.WidthFixed.String())
	case stands && width != boards.WidthAround:
		b.bad.Malformed(path+".rule", check.Conflict, width.String()+" of a spine", boards.WidthAround.String()+" or "+boards.WidthFixed.String())
	case !stands && width == boards.WidthAround:
		b.bad.Malformed(path+".rule", check.Conflict, width.String()+" of a board that lies", boards.WidthCover.String()+", "+boards.WidthHalf.String()+", "+boards.WidthShared.String()+" or "+boards.WidthFixed.String())
	}
	if over := row.index(board.Over); board.Over != boards.MainPanel && (stands || over < 0 || over == i || row.stands(over)) {
		b.bad.Malformed(path+".over", check.Unknown, board.Over.String(), "none, or another board of the row that lies, of a board that lies")
	}
}

// checkJoint checks one joint of the row.
func (b *builder) checkJoint(i int) {
	j, row := b.spec.Row.Joints[i], &b.plan.shape
	path := check.Index("row.joints", i)
	switch {
	case j.Fold > score.Mountain:
		b.bad.Malformed(path+".fold", check.Unknown, count(int(j.Fold)), "valley or mountain")
	case row.stands(i) && j.Fold != row.folds[i-1]:
		b.bad.Malformed(path+".fold", check.Conflict, j.Fold.String()+" right of the "+row.role(i).String()+", and another left of it", row.folds[i-1].String()+", as on its other side")
	}
	if j.Hinge != b.spec.Hinge { // said once
		b.soundAt(path+".hinge", j.Hinge.Check(b.notation()))
	}
}
