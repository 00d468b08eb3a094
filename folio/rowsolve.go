package folio

import (
	"math"

	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A joining is what is known of the hinge at a joint before its gap is.
type joining struct {
	hinge       rule.Hinge
	soft        bool
	thick, ends units.Length // what of a board leans into it, and with the turn-ins at head and tail
}

// leans returns what of a board leans into a hinge on the side that it closes, and
// the same at head and tail: with outsides together the covering alone.
func (s *Spec) leans(h rule.Hinge, fold score.Fold) (thick, ends units.Length) {
	if fold == score.Mountain {
		c := s.overEdge(s.Quarter.Rule != rule.QuarterNever)
		return c, c
	}
	thick = s.thick(h)
	ends = thick + s.atHinge(false)
	if s.Quarter.Rule != rule.QuarterNever {
		ends = max(ends, thick+s.atHinge(true))
	}
	return thick, ends
}

// joining returns what is known of a joint.
func (b *builder) joining(joint int) joining {
	s, row := b.spec, &b.plan.shape
	j := joining{hinge: row.hinge(joint), soft: row.soft(joint)}
	j.thick, j.ends = s.leans(j.hinge, row.folds[joint])
	return j
}

// hingeTerms returns what the rule of a hinge adds up.
func (s *Spec) hingeTerms(h rule.Hinge) [4]units.Term {
	var terms [4]units.Term
	for i, term := range h.Rule.Terms(s.Board.Caliper, s.Liner.Caliper, s.contents(), h.Width) {
		terms[i] = term
	}
	if h.Rule == rule.HingeRoundContents {
		f := s.filling()
		terms[2], terms[3] = f[0], f[1]
	}
	return terms
}

// byRule returns the gap that a hinge's rule gives at a spine board.
func (b *builder) byRule(j joining) units.Length {
	s := b.spec
	if j.hinge.Rule == rule.HingeLeast {
		least, _ := rule.LeastGap(j.ends, j.hinge.Angle, j.hinge.Crease, j.hinge.Offset)
		return s.Rulers.Gap.Up(least)
	}
	terms := s.hingeTerms(j.hinge)
	return s.Rulers.Gap.Up(total(terms[:]))
}

// sizes works out the row, and says what keeps it from shutting, as it was folded
// then. Where nobody says which board stays on the table, and it does not shut about
// the first choice, the others are tried.
func (b *builder) sizes(z *sizing) (*flat, refusal) {
	p := b.plan
	asked := p.shape
	row, r := b.sizesAbout(z)
	if r.why == shuts || asked.Main != boards.MainPanel {
		return row, r
	}
	for _, main := range (&turner{row: &asked, flat: row, f: p.folded}).mains() {
		p.shape = asked
		p.shape.Main = asked.role(p.folded.inRow(main))
		if row, r := b.sizesAbout(z); r.why == shuts {
			return row, r
		}
	}
	if p.shape = asked; r.why == notMain {
		r.why = noTurns // about the first choice
	}
	return row, r
}

// sizesAbout works out the row about the board that stays on the table, or the first
// choice.
func (b *builder) sizesAbout(z *sizing) (*flat, refusal) {
	p := b.plan
	wide, spine := z.wide, z.spine
	*z = sizing{}
	z.s, z.row, z.f, z.wide, z.spine = b.spec, &p.shape, &p.folded, wide, spine
	p.folded = folding{}
	p.folded.lay(&p.shape)
	for k := range p.folded.n - 1 {
		for side, joint := range z.joints(k) {
			j := b.joining(joint)
			if j.soft {
				continue
			}
			z.gap[joint] = b.byRule(j)
			_, z.out[k][side] = creased(j.hinge, z.gap[joint])
		}
	}
	if f, ok := p.shape.oneTurn(); ok {
		p.folded = f
		p.shape.Main = p.shape.role(f.inRow(f.main))
		b.spans(z)
		return nil, refusal{} // nothing lies inside the one fold
	}
	// Where folds lie further out, other boards may come to lie on each other, and
	// run into others: it is folded again until it lies as it was folded.
	row := &flat{n: p.folded.n, wide: z.wide}
	for range rounds {
		was := row.out
		for k := range row.n - 1 {
			row.out[k] = [2]units.Length{z.beyond(k, 0), z.beyond(k, 1)}
		}
		f, r := p.shape.fold(row)
		if r.why != shuts {
			return row, r
		}
		p.shape.Main = p.shape.role(f.inRow(f.main))
		if f == p.folded && row.out == was {
			return row, refusal{}
		}
		p.folded = f
		if !b.clears(z) || !b.spans(z) {
			break
		}
	}
	return row, refusal{why: noTurns}
}

// wouldShut reports whether another row of the same boards would shut.
func (b *builder) wouldShut(z *sizing, s shape) bool {
	p := b.plan
	shape, folded := p.shape, p.folded
	p.shape = s
	_, r := b.sizes(&sizing{wide: z.wide, spine: z.spine})
	p.shape, p.folded = shape, folded
	return r.why == shuts
}

// rounds is how often what is wanted of the gaps and spans of a row is gone through
// before it is taken to have no end.
const rounds = 16 * boards.MaxBoards

// clears widens gaps until every edge inside a fold clears it: those of HingeLeast
// and of soft joints.
func (b *builder) clears(z *sizing) bool {
	for range rounds {
		z.lay()
		done := true
		z.clearings(func(c clearing) {
			if done && c.short > 0 && z.yields(z.joints(c.fold)[c.side]) {
				b.widen(z, c)
				done = false
			}
		})
		if done {
			b.narrows(z)
			return true
		}
	}
	return false
}

// yields reports whether a joint may be widened. What is given otherwise is held
// against what lies inside when the folio is closed, see [closing.AtForeEdge].
func (z *sizing) yields(joint int) bool {
	return z.row.soft(joint) || z.row.hinge(joint).Rule == rule.HingeLeast
}

// widen makes room for what does not clear a fold.
func (b *builder) widen(z *sizing, c clearing) {
	joint := z.joints(c.fold)[c.side]
	if z.row.soft(joint) {
		z.out[c.fold][c.side] = z.beyond(c.fold, c.side) + c.short
		return
	}
	z.clear[joint] = gapFor(z.row.hinge(joint), z.out[c.fold][c.side]+c.short)
	z.setGap(c.fold, c.side, b.spec.Rulers.Gap.Up(z.clear[joint]))
}

// narrows takes back what later gaps made needless.
func (b *builder) narrows(z *sizing) {
	for k := range z.f.n - 1 {
		for side, joint := range z.joints(k) {
			h := z.row.hinge(joint)
			if z.row.soft(joint) || h.Rule != rule.HingeLeast {
				continue
			}
			slack := units.Longest
			z.clearings(func(c clearing) {
				if c.fold == k && c.side == side {
					slack = min(slack, -c.short)
				}
			})
			least := b.byRule(b.joining(joint))
			if slack == units.Longest || slack == 0 || z.gap[joint] <= least {
				continue
			}
			was := *z
			z.clear[joint] = gapFor(h, max(0, z.out[k][side]-slack))
			z.setGap(k, side, max(least, b.spec.Rulers.Gap.Up(z.clear[joint])))
			z.lay()
			z.clearings(func(c clearing) {
				if c.short > 0 {
					*z = was
				}
			})
		}
	}
	z.lay()
}

// setGap lays a gap at a spine board.
func (z *sizing) setGap(fold, side int, gap units.Length) {
	joint := z.joints(fold)[side]
	z.gap[joint] = gap
	_, z.out[fold][side] = creased(z.row.hinge(joint), gap)
}

// spans works out how far each fold spans: spine boards and soft gaps are widened
// until everything has room that lies inside. Of those that are given it notes
// what they lack.
func (b *builder) spans(z *sizing) bool {
	n := z.f.n
	for k := range n - 1 {
		z.begin(b, k)
	}
	for range rounds {
		var bad layer
		done := true
		z.f.layers(func(l layer) bool {
			if z.rises(l.low, l.high) < z.need(l) {
				bad, done = l, false
			}
			return done
		})
		if done {
			b.unwiden(z)
			return true
		}
		if !b.spread(z, bad) {
			return false
		}
	}
	return false
}

// begin gives a fold the span that it has by itself.
func (z *sizing) begin(b *builder, k int) {
	joints := z.joints(k)
	if joints[0] != joints[1] {
		left, _ := creased(z.row.hinge(joints[0]), z.gap[joints[0]])
		right, _ := creased(z.row.hinge(joints[1]), z.gap[joints[1]])
		z.in[k] = left + right
	}
	b.respan(z, k, 0)
}

// spineAt returns the width of the spine board of a fold that spans at least so
// much.
func (b *builder) spineAt(z *sizing, k int, span units.Length) units.Length {
	i := z.f.inRow(k) + 1
	board := &z.row.Boards[i]
	r := b.spec.Rulers.Board
	if z.row.rule(i) == boards.WidthFixed {
		w := r.Up(board.Width)
		if span-z.in[k] > w {
			z.lacks[i] = max(z.lacks[i], span-z.in[k])
			return r.Up(span - z.in[k])
		}
		return w
	}
	if z.f.kind[k] == score.Valley {
		return max(z.spine, r.Up(span-z.in[k]))
	}
	return r.Up(max(units.Shortest, span-z.in[k]))
}

// softAt returns the span of a soft joint that spans at least so much.
func (b *builder) softAt(z *sizing, k int, span units.Length) units.Length {
	joint := z.joints(k)[0]
	h := z.row.hinge(joint)
	nest := z.out[k][0] + z.out[k][1]
	if h.Rule == rule.HingeRoundContents || h.Rule == rule.HingeLeast {
		if z.f.kind[k] == score.Valley {
			span = max(span, z.plain())
		}
		z.asks[k] = max(span, 0)
		if h.Rule == rule.HingeLeast && h.Crease == rule.CreaseRound {
			z.gap[joint] = b.spec.Rulers.Gap.Up(b.roundAt(z, k))
			return max(z.asks[k], portion(z.gap[joint], 2/math.Pi, units.Down))
		}
		z.gap[joint] = b.spec.Rulers.Gap.Up(z.asks[k] + nest)
	} else {
		z.asks[k] = max(z.asks[k], span)
		z.gap[joint] = max(b.byRule(b.joining(joint)), b.spec.Rulers.Gap.Up(span+nest))
		if z.round(joint) { // with less it is flatter than a half circle
			return max(span, portion(z.gap[joint], 2/math.Pi, units.Down))
		}
	}
	return z.gap[joint] - nest
}

// roundAt returns the gap of a soft joint that bends in a half circle: so wide that
// the boards turn, that it spans what it goes round and that it reaches past what
// lies inside.
func (b *builder) roundAt(z *sizing, fold int) units.Length {
	least, _ := rule.LeastGap(b.joining(z.joints(fold)[0]).ends, 180, rule.CreaseRound, 0)
	past := max(z.out[fold][0], z.out[fold][1])
	return max(least, roundBack(z.asks[fold]), portion(past, math.Pi, units.Up))
}

// spread makes room in a layer: of the folds that the way from one board to the
// other rises at, in the one that most lies inside.
func (b *builder) spread(z *sizing, l layer) bool {
	best, most := 0, int8(0) // a way up rises somewhere
	for k := min(l.low, l.high); k < max(l.low, l.high); k++ {
		if inside := z.f.rank[k+1] - z.f.rank[k]; z.rising(l, k) && max(inside, -inside) > most {
			best, most = k, max(inside, -inside)
		}
	}
	b.respan(z, best, z.span[best]+z.need(l)-z.rises(l.low, l.high))
	return z.span[best] <= units.Longest
}

// rising reports whether the way from the lower to the higher board of a layer
// rises at a fold.
func (z *sizing) rising(l layer, k int) bool {
	return k >= min(l.low, l.high) && k < max(l.low, l.high) && (z.f.rank[k+1] > z.f.rank[k]) == (l.high > l.low)
}

// respan gives a fold a span of at least so much.
func (b *builder) respan(z *sizing, k int, span units.Length) {
	if joints := z.joints(k); joints[0] != joints[1] {
		z.span[k] = z.in[k] + b.spineAt(z, k, span)
		return
	}
	z.span[k] = b.softAt(z, k, span)
}

// unwiden takes back what later spans made needless.
func (b *builder) unwiden(z *sizing) {
	for range z.f.n {
		for k := range z.f.n - 1 {
			_, span := z.binding(k)
			b.respan(z, k, span)
		}
	}
}

// binding returns the layer that asks the most of a fold's span, and how much: that of its
// two boards, or one that lies between. Where hinges reach so far that neither of the two lies
// over anything, it is as if they did over each other.
func (z *sizing) binding(k int) (layer, units.Length) {
	at := layer{k, k + 1}
	if z.f.rank[k] > z.f.rank[k+1] {
		at = layer{k + 1, k}
	}
	most := -units.Longest
	z.f.layers(func(l layer) bool {
		if z.rising(l, k) {
			if asks := z.need(l) - z.rises(l.low, l.high) + z.span[k]; asks > most {
				at, most = l, asks
			}
		}
		return true
	})
	if most == -units.Longest {
		most = z.need(at)
	}
	return at, most
}
