package folio

import (
	"boardwrap.example/folio/boards"
	"boardwrap.example/units/check"
)

// sized works out the row: how it shuts, and what gaps and spines it needs for
// that. It reports whether it shuts.
func (b *builder) sized(z *sizing) bool {
	row, r := b.sizes(z)
	if r.why != shuts {
		b.cannotShut(z, r, row)
	}
	return r.why == shuts
}

// cannotShut says what keeps a row from shutting, at one joint or board, and what
// would do. The row is the one that was folded.
func (b *builder) cannotShut(z *sizing, r refusal, row *flat) {
	s := &b.plan.shape
	v := check.Violation{Code: NeverShuts, Nature: check.Impossible}
	if !b.spec.Row.Given() { // no board or joint of it has a field
		v.Path, v.Got, v.Want = "form", b.spec.Form.String()+", which does not shut", `"`+boards.SpineBoard.String()+`" or another form`
		b.bad.Add(v)
		return
	}
	if s.Main != boards.MainPanel && (r.why == notMain || r.why == noTurns) {
		if v.Want = b.otherMain(z); v.Want != "" {
			r.why = notMain
		} else {
			open := *s
			// It shuts about no board: that is what is wrong with it first.
			open.Main = boards.MainPanel
			_, r = open.fold(row)
		}
	}
	switch r.why {
	case notOver:
		board := s.Boards[r.board]
		v.Path = check.Index("row.boards", r.board) + ".over"
		v.Got = "the " + board.Role.String() + " over the " + board.Over.String()
		v.Want = "no board to lie over: the row does not shut in that way"
	case notMain:
		v.Path = "row.main"
		v.Got = "the " + s.Main.String() + " on the table"
	default:
		joint, want := b.otherFold(z, r.folds)
		v.Path = check.Index("row.joints", joint) + ".fold"
		v.Got = "a " + s.folds[joint].String() + " between the " + s.role(joint).String() + " and the " + s.role(joint+1).String() +
			", with which the row does not shut"
		v.Want = want
	}
	b.bad.Add(v)
}

// otherMain says which board could stay on the table; empty where none could.
func (b *builder) otherMain(z *sizing) string {
	open := b.plan.shape
	open.Main = boards.MainPanel
	if !b.wouldShut(z, open) {
		return ""
	}
	for i := range open.Boards {
		if open.Main = open.role(i); !open.stands(i) && b.wouldShut(z, open) {
			return "none, or the " + open.Main.String()
		}
	}
	return "none"
}

// otherFold returns the first of some joints, or else of all, that would let the
// row shut if it folded the other way, and says so. Where one joint alone does not
// do, all must be folded in turn.
func (b *builder) otherFold(z *sizing, folds []int) (joint int, want string) {
	s := &b.plan.shape
	var f folding
	f.lay(s)
	all := folds
	for k := range f.n - 1 {
		all = append(all[:len(all):len(all)], k)
	}
	for _, k := range all {
		left, right := f.between(k)
		other := *s
		kind := s.folds[left].Other()
		other.folds[left], other.folds[right] = kind, kind
		if b.wouldShut(z, other) {
			return left, `"` + kind.String() + `" there`
		}
	}
	left, _ := f.between(all[0])
	return left, "valley and mountain in turn, with a valley at the right end, and no board given for the table or to lie over"
}
