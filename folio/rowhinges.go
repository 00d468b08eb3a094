package folio

import (
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// hinges notes the gaps and checks that each closes. Joints that are alike share a
// gap; what is wrong with one in a row of its own is told of each, as each has its hinge.
func (b *builder) hinges(z *sizing) {
	p := b.plan
	own, told, known := b.spec.Row.Given(), 0, -1 // how many gaps are known; −1 for all
	for i := range len(p.shape.Boards) - 1 {
		gap := Gap{left: p.boards[i].role, right: p.boards[i+1].role, angle: int16(p.shape.hinge(i).Angle)}
		fold := z.foldAt(i)
		if p.shape.soft(i) {
			if gap.crease = z.out[fold]; z.round(i) {
				gap.crease = [2]units.Length{} // it has none
			}
		}
		j := b.joining(i)
		like := -1
		for k := range i {
			if other := z.foldAt(k); p.shape.folds[k] == p.shape.folds[i] && p.shape.hinge(k) == p.shape.hinge(i) && p.shape.soft(k) == j.soft && z.gap[k] == z.gap[i] &&
				(!j.soft || z.asks[other] == z.asks[fold] && z.out[other] == z.out[fold]) {
				like = k
				break
			}
		}
		if like >= 0 {
			gap.planned, gap.least = p.gaps[like].planned, p.gaps[like].least
			if told&(1<<like) != 0 {
				if told |= 1 << i; own {
					_, _ = b.closesAt(z, &j, i, fold, gap.planned.Length())
				}
			}
		} else {
			gap.planned = b.gapWorking(z, &j, i, fold)
			before := b.bad.Len()
			least, ok := b.closesAt(z, &j, i, fold, gap.planned.Length())
			if gap.least = least; b.bad.Len() > before {
				told |= 1 << i
			}
			if !ok && known < 0 {
				if known = i; !own {
					break // all have one hinge
				}
			}
		}
		p.gaps = append(p.gaps, gap)
	}
	if known >= 0 {
		p.gaps = p.gaps[:known]
	}
	for i := range p.gaps { // what follows is for gaps that would do
		if g := &p.gaps[i]; told&(1<<i) != 0 && g.least > g.planned.Length() {
			g.planned = b.sum("hinge gap", b.spec.Rulers.Gap, units.Up, units.T("least gap that turns", g.least))
		}
	}
}

// gapWorking notes the width of a gap.
func (b *builder) gapWorking(z *sizing, j *joining, joint, fold int) *units.Working {
	s := b.spec
	const label = "hinge gap"
	nest := z.out[fold][0] + z.out[fold][1]
	var buf [boards.MaxBoards + 8]units.Term
	switch {
	case j.soft && j.hinge.Rule == rule.HingeLeast && j.hinge.Crease == rule.CreaseRound:
		return b.sum(label, s.Rulers.Gap, units.Up, units.T("half of the girth of a round back", b.roundAt(z, fold)))
	case j.soft && (j.hinge.Rule == rule.HingeRoundContents || j.hinge.Rule == rule.HingeLeast):
		all := z.spanTerms(buf[:0], fold)
		if nest > 0 {
			all = append(all, units.T("past what lies inside", nest))
		}
		return b.sum(label, s.Rulers.Gap, units.Up, all...)
	case j.hinge.Rule == rule.HingeLeast:
		least, _ := rule.LeastGap(j.ends, j.hinge.Angle, j.hinge.Crease, j.hinge.Offset)
		all := append(buf[:0], units.T("least gap that turns", least))
		if more := z.gap[joint] - s.Rulers.Gap.Up(least); more > 0 {
			all = append(buf[:0], units.T("least gap that clears what lies inside", z.clear[joint]))
		}
		return b.sum(label, s.Rulers.Gap, units.Up, all...)
	}
	terms := s.hingeTerms(j.hinge)
	width := b.sum(label, s.Rulers.Gap, units.Up, used(terms[:])...)
	if j.hinge.Rule == rule.HingeFixed {
		b.moved(b.plan.hingePath(joint)+".width", width)
	}
	return width
}

// closesAt checks that a gap closes, and returns the least that does; false where
// nothing can be said of it.
func (b *builder) closesAt(z *sizing, j *joining, joint, fold int, g units.Length) (units.Length, bool) {
	s, h := b.spec, j.hinge
	what := "for board, liner and turn-ins"
	switch {
	case z.f.kind[fold] == score.Mountain:
		what = "for the covering"
	case j.thick == s.Board.Caliper:
		what = "for board and turn-ins"
	}
	offset := h.Offset
	if h.Crease == rule.CreaseAtOffset && offset > g {
		b.bad.Long(b.plan.hingePath(joint)+".offset", check.TooLarge, b.notation(), offset, g, "to lie in the gap")
		return 0, false
	}
	least, enough, between, closes := b.turns(z, j, joint, fold, g)
	switch {
	case !closes && joint > 0 && !b.spec.Row.Given(): // the one hinge of all joints was told of at the first
	case !closes:
		b.never(z, j, joint, fold, g)
	case between <= g && g < least && h.Rule != rule.HingeFixed:
		n := b.notation()
		b.warn(check.Warning{Path: b.plan.gapPath(joint), Code: WarnHingeEnds, Got: g, Want: least,
			Text: "the hinge gap of " + n.Text(g) + " is the published one, which does not count the turn-ins at head and tail: with them it takes " + n.Bound(least, units.Up) + ", so it closes there under pressure only"})
	case g < least:
		if h.Rule == rule.HingeFixed {
			g = h.Width // what was given, and not where the ruler puts it
		}
		least = enough
		short(&b.bad, b.plan.gapPath(joint), GapNarrow, b.notation(), g, s.Rulers.Gap.Up(enough), what+" to close to "+count(h.Angle)+" degrees, creased "+h.Crease.String())
	}
	return least, true
}

// never says what closes a joint of the width g that one crease would have to close
// flat: two, or none, which a soft spine's whole turn asks for, and else an angle that
// its gap is wide enough for.
func (b *builder) never(z *sizing, j *joining, joint, fold int, g units.Length) {
	tried := *j
	h, field, want := &tried.hinge, ".crease", "at both edges or round"
	got := count(h.Angle) + " degrees creased " + h.Crease.String()
	for h.Angle--; h.Angle > 0 && !j.soft; h.Angle-- {
		if least, _, _, _ := b.turns(z, &tried, joint, fold, g); least <= g || h.Rule == rule.HingeLeast {
			field, want = ".angle", "at most "+count(h.Angle)+", or a crease "+want
			break
		}
	}
	b.bad.Impossible(b.plan.hingePath(joint)+field, NeverCloses, got, want)
}

// turns returns the least gap with which a joint of the width g turns by its hinge's
// angle: as it is creased, creased as far from the nearer board as is given, and between
// the turn-ins at head and tail; false where none does.
func (b *builder) turns(z *sizing, j *joining, joint, fold int, g units.Length) (least, enough, between units.Length, closes bool) {
	s, h := b.spec, j.hinge
	offset := h.Offset
	least, closes = rule.LeastGap(j.ends, h.Angle, h.Crease, min(offset, g-offset))
	enough, between = least, least
	if g-offset < offset { // in a wider gap the crease may lie nearer to the spine board
		enough, _ = rule.LeastGap(j.ends, h.Angle, h.Crease, offset)
	}
	if j.thick != j.ends {
		between, _ = rule.LeastGap(j.thick, h.Angle, h.Crease, min(offset, g-offset))
	}
	if j.soft && closes {
		// What the covers close over lies between the liners, and turn-ins lie
		// under it or beside it.
		flat := 2 * (s.Board.Caliper + s.Liner.Caliper)
		if z.f.kind[fold] == score.Mountain {
			flat = 2 * j.thick
		}
		nest := z.out[fold][0] + z.out[fold][1]
		if between += z.asks[fold] - flat; z.round(joint) && h.Rule == rule.HingeLeast {
			between, nest = max(between, b.roundAt(z, fold)), 0
		}
		least, enough, between = max(least, between)+nest, max(enough, between)+nest, between+nest
	} else if closes {
		least, between = max(least, z.clear[joint]), max(between, z.clear[joint])
	}
	return least, enough, between, closes
}

// hingePath is where the hinge of a joint is given.
func (p *Plan) hingePath(joint int) string {
	if p.spec.Row.Given() {
		return check.Index("row.joints", joint) + ".hinge"
	}
	return "hinge"
}

// gapPath is where the gap at a joint is given.
func (p *Plan) gapPath(joint int) string {
	if p.shape.hinge(joint).Rule == rule.HingeFixed {
		return p.hingePath(joint) + ".width"
	}
	return p.hingePath(joint) + ".rule"
}
