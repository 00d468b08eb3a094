package folio

import (
	"slices"

	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/rule"
	"boardwrap.example/units"
)

// A shut is the way in which the hinges of a plan are bent when it is shut, joint by
// joint.
type shut struct {
	p *Plan
	j [boards.MaxBoards - 1]bent
	// Bare says that only how tight it is counts, and not what lies there.
	bare bool
	// Singly says that boards that lie equally high over another meet it one by one.
	singly bool
}

// joints returns how the hinges on both sides of a fold are bent.
//
//go:noinline
func (s *shut) joints(fold int) (left, right *bent) {
	l, r := s.p.folded.between(fold)
	return &s.j[l], &s.j[r]
}

// expected returns the hinges with gaps as wide as they may come out, so that a
// cover as it is expected closes too.
//
//go:noinline
func (s *shut) expected() shut {
	out := *s
	for i := range s.p.gaps {
		out.j[i].wide = max(s.j[i].wide, s.p.gaps[i].planned.Length()+s.p.spec.Placing)
	}
	return out
}

// outOf returns how far a fold lies beyond the board on one side of it.
func (s *shut) outOf(fold, side int, d units.Direction) units.Length {
	left, right := s.joints(fold)
	if side == 0 {
		return left.out(0, d)
	}
	return right.out(1, d)
}

// A stretch counts how often hinges that are bent alike add to a way.
type stretch struct {
	of    bent
	count int
}

// A passage leads from one board that lies to another, fold by fold.
type passage struct {
	s       *shut
	up      [boards.MaxBoards - 1]int // of each fold with a spine board: +1 where it rises, −1 where it falls
	bends   [2 * (boards.MaxBoards - 1)]stretch
	n       int
	between units.Length // what the spine boards add up to
}

// passage returns the way from one board that lies to another.
func (s *shut) passage(from, to int) (w passage) {
	w.s = s
	f := &s.p.folded
	sign := 1
	if from > to {
		from, to, sign = to, from, -1
	}
	for k := from; k < to; k++ {
		rises := sign
		if f.rank[k+1] < f.rank[k] {
			rises = -sign
		}
		left, right := s.joints(k)
		if left.soft {
			w.add(left, rises)
			continue
		}
		w.add(left, rises)
		w.add(right, rises)
		w.up[k] = rises
		w.between += times(s.p.panelWidth(f.inRow(k)+1), rises)
	}
	return w
}

func (w *passage) add(b *bent, count int) {
	for i := range w.bends[:w.n] {
		if w.bends[i].of == *b {
			w.bends[i].count += count
			return
		}
	}
	w.bends[w.n] = stretch{*b, count}
	w.n++
}

// length returns how far the way rises, from wrong side to wrong side of the
// covering. Hinges that are bent alike, and that it passes once up and once down,
// take nothing from each other.
func (w *passage) length(d units.Direction) units.Length {
	sum := w.between
	for i := range w.bends[:w.n] {
		b := &w.bends[i]
		dir := d
		if b.count < 0 {
			dir = units.Down + units.Up - d
		}
		one := b.of.in(dir)
		if b.of.soft {
			one = b.of.span(dir)
		}
		sum += times(one, b.count)
	}
	return sum
}

// level reports whether the way ends as high as it begins, whatever parts of a nanometre
// its bends come to.
func (w *passage) level() bool {
	return w.length(units.Down) == 0 && w.length(units.Up) == 0
}

// terms appends what the way adds up: what rises first.
func (w *passage) terms(terms []units.Term, d units.Direction) []units.Term {
	p := w.s.p
	for _, rises := range [...]int{1, -1} {
		for k, up := range w.up {
			if up == rises {
				spine := p.folded.inRow(k) + 1
				terms = append(terms, units.N(up, p.boards[spine].role.String(), p.panelWidth(spine)))
			}
		}
	}
	for i := range w.bends[:w.n] {
		b := &w.bends[i]
		if b.count != 0 {
			terms = b.terms(terms, d)
		}
	}
	return slices.DeleteFunc(terms, func(t units.Term) bool { return t.Count == 0 })
}

func (b *stretch) terms(terms []units.Term, d units.Direction) []units.Term {
	if b.count < 0 {
		d = units.Down + units.Up - d
	}
	switch {
	case b.of.soft && b.of.bend == rule.CreaseRound:
		return append(terms, units.N(b.count, "width of the round back", b.of.span(d)))
	case b.of.soft:
		terms = append(terms, units.N(b.count, "gap", b.of.across(d)), units.N(-2*b.count, "crease", b.of.x))
		if past := b.of.beside[0] + b.of.beside[1]; past > 0 {
			terms = append(terms, units.N(-b.count, "past what lies inside", past))
		}
		return terms
	case b.of.bend == rule.CreaseTwo:
		return append(terms, units.N(b.count, "gap aslant", b.of.in(d)))
	case b.of.bend == rule.CreaseRound:
		return append(terms, units.N(b.count, "radius of the bend", b.of.in(d)))
	}
	return merge(terms, units.N(b.count, "crease", b.of.in(d)))
}

// face returns what lies between the wrong side of the covering and one of a
// board's faces: board and liner, or the covering.
//
//go:noinline
func (p *Plan) face(inside bool) units.Length {
	if inside {
		return p.spec.Board.Caliper + p.spec.Liner.Caliper
	}
	return p.outer()
}

// A meet is a face that lies up and the faces that come to lie on it, all of them
// equally high.
type meet struct {
	kind  closing.Meeting
	low   int
	highs meets
	high  int // one of them
	// Joined says that nothing but the folds between them keeps them together, so
	// that whatever stands on them meets.
	joined bool
}

// meetings returns which faces meet, those of the board on the table first.
func (s *shut) meetings(all []meet) []meet {
	f := &s.p.folded
	e := s.expected()
	for rank := range f.n {
		for low := range f.n {
			if int(f.rank[low]) != rank {
				continue
			}
			from := len(all)
			for high := range f.n {
				if !f.near[low].has(high) {
					continue
				}
				m := meet{kind: faces(f.up(low), !f.up(high)), low: low, highs: 1 << high, high: high, joined: high == low+1 || low == high+1}
				found := false
				for i := from; i < len(all) && !found; i++ {
					o := &all[i]
					between := e.passage(o.high, high)
					if found = !s.singly && o.kind == m.kind && o.joined == m.joined && between.level(); found {
						o.highs |= m.highs
					}
				}
				if !found {
					all = append(all, m)
				}
			}
		}
	}
	return all
}

// faces returns the meeting of two faces.
func faces(lowInside, highInside bool) closing.Meeting {
	switch {
	case lowInside && highInside:
		return closing.BetweenCovers
	case lowInside || highInside:
		return closing.UnderFlap
	}
	return closing.BetweenOutsides
}

// has reports whether a face of a board that lies is one of those that meet.
func (m *meet) has(f *folding, board int, outside bool) bool {
	if board == m.low {
		return outside == !f.up(board)
	}
	return board >= 0 && m.highs.has(board) && outside == f.up(board)
}

// roomOf returns the clear distance between the faces.
//
//go:noinline
func (s *shut) roomOf(m *meet) units.Length {
	f := &s.p.folded
	e := s.expected()
	w := e.passage(m.low, m.high)
	return w.length(units.Down) - s.p.face(f.up(m.low)) - s.p.face(!f.up(m.high))
}

// roomTerms appends what the clear distance between the faces adds up.
func (s *shut) roomTerms(terms []units.Term, m *meet) []units.Term {
	p, f := s.p, &s.p.folded
	e := s.expected()
	w := e.passage(m.low, m.high)
	terms = w.terms(terms, units.Down)
	insides, outsides := 0, 0
	for _, inside := range [...]bool{f.up(m.low), !f.up(m.high)} {
		if inside {
			insides--
		} else {
			outsides--
		}
	}
	if insides != 0 {
		terms = append(terms, units.N(insides, "board caliper", p.spec.Board.Caliper))
	}
	switch {
	case insides != 0 && outsides != 0:
		return append(terms, units.N(outsides, "covering caliper", p.outer()), units.N(insides, "liner caliper", p.spec.Liner.Caliper))
	case outsides != 0:
		return append(terms, units.N(outsides, "covering caliper", p.outer()))
	}
	return append(terms, units.N(insides, "liner caliper", p.spec.Liner.Caliper))
}

// base returns the meeting on the board on the table that the room of the closed
// folio is told of: with the board left of it, or else right of it.
func (s *shut) base(all []meet) *meet {
	f := &s.p.folded
	for _, high := range [...]int{f.main - 1, f.main + 1} {
		for i := range all {
			if m := &all[i]; m.kind == closing.BetweenCovers && m.low == f.main && high >= 0 && m.highs.has(high) {
				return m
			}
		}
	}
	return &all[0]
}

// under returns the first meeting of an outside with what folds over it.
func under(all []meet) *meet {
	for i := range all {
		if all[i].kind == closing.UnderFlap {
			return &all[i]
		}
	}
	return nil
}

// lies works out where boards and folds lie across as they leave the least room, which
// is what counts for all that lies inside.
//
//go:noinline
func (s *shut) lies() *sizing { return s.laid(units.Down) }

// laid works out where boards and folds lie across with the narrowest hinges, or with
// the widest.
func (s *shut) laid(d units.Direction) *sizing {
	p := s.p
	z := &sizing{s: &p.spec, row: &p.shape, f: &p.folded}
	for k := range z.f.n {
		z.wide[k] = p.panelWidth(z.f.inRow(k))
	}
	for k := range z.f.n - 1 {
		z.out[k] = [2]units.Length{s.outOf(k, 0, d), s.outOf(k, 1, d)}
	}
	z.lay()
	return z
}

// level returns how high a board lies at the least above the one on the table, from wrong
// side to wrong side of the covering.
//
//go:noinline
func (s *shut) level(board int) units.Length {
	w := s.passage(s.p.folded.main, board)
	return w.length(units.Down)
}

// upright returns from where to where up the spine board of a fold stands, as it is counted
// from the lower one of the boards beside it.
func (s *shut) upright(fold int) [2]units.Length {
	f := &s.p.folded
	low := fold
	hinge, right := s.joints(fold)
	if f.rank[fold+1] < f.rank[fold] {
		low, hinge = fold+1, right
	}
	from := s.level(low) + hinge.in(units.Down)
	return [2]units.Length{from, from + s.p.panelWidth(f.inRow(fold)+1)}
}

// mirror returns what rectangles on a board that lies are mirrored about, twice its
// X, to lie on the next one over a fold: the middle of the spine board or of the
// soft joint, moved where its hinges are not planned alike.
func (p *Plan) mirror(fold int) units.Length {
	l, r := p.folded.between(fold)
	left, right := &p.boards[l].rect, &p.boards[r+1].rect
	if l == r {
		return left.Max.X + right.Min.X + p.gaps[l].crease[0] - p.gaps[l].crease[1]
	}
	if p.gaps[l].planned == p.gaps[r].planned {
		spine := &p.boards[r].rect
		return spine.Min.X + spine.Max.X
	}
	_, a := creased(p.shape.hinge(l), p.gaps[l].Width())
	_, b := creased(p.shape.hinge(r), p.gaps[r].Width())
	return left.Max.X + right.Min.X + a - b
}

// onto returns a rectangle on a board that lies where it comes to lie on the one on
// the table, and back the other way.
func (p *Plan) onto(r units.Rect, board int, back bool) units.Rect {
	f := &p.folded
	flip := func(k int) {
		sum := p.mirror(k)
		r.Min.X, r.Max.X = sum-r.Max.X, sum-r.Min.X
	}
	switch {
	case !back:
		for k := board; k < f.main; k++ {
			flip(k)
		}
		for k := board - 1; k >= f.main; k-- {
			flip(k)
		}
	case board < f.main:
		for k := f.main - 1; k >= board; k-- {
			flip(k)
		}
	default:
		for k := f.main; k < board; k++ {
			flip(k)
		}
	}
	return r
}
