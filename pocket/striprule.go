package pocket

import (
	"slices"

	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// stripPanels are the widths of a folded strip.
type stripPanels struct{ flap, spine, base, front, hem units.Length }

func (p stripPanels) sum() units.Length { return p.flap + p.spine + p.base + p.front + p.hem }

// A stripRule says that panel a of a folded strip may be no wider than panel b
// and over.
type stripRule struct {
	a, b int
	over units.Length
	why  string
}

// The panels of a strip in order, counted without its spine.
const (
	flapPanel = iota
	basePanel
	frontPanel
	hemPanel
)

func panelName(i int) string {
	return [...]string{"flap", "base", "pocket front", "hem"}[i]
}

func stripRules(overhang units.Length) [3]stripRule {
	return [...]stripRule{
		{frontPanel, basePanel, 0, "the pocket front lies over the base and must not reach beyond the flap's fold"},
		{hemPanel, frontPanel, 0, "the hem lies inside the pocket front"},
		{flapPanel, basePanel, overhang, "the flap closes over the base"},
	}
}

// stripEdges are the ends and scores of a strip. With a spine the panels are
// not all neighbours: panel i runs from at[from[i]] to at[from[i]+1].
type stripEdges struct {
	at   []units.Length
	from [4]int
}

//go:noinline
func (e *stripEdges) width(panel int) units.Length {
	return e.at[e.from[panel]+1] - e.at[e.from[panel]]
}

// excess returns by how much a rule is broken, or, below 0, how much it has
// left.
func (e *stripEdges) excess(r *stripRule) units.Length { return e.width(r.a) - e.width(r.b) - r.over }

// repair returns between which places score i would have to be for all rules
// to hold while the others stay, on the ruler, and whether there are any.
func (e *stripEdges) repair(i int, rules []stripRule, r units.Ruler) (low, high units.Length, ok bool) {
	low, high = r.Up(e.at[i-1]+units.Shortest), r.Down(e.at[i+1]-units.Shortest)
	for _, rule := range rules {
		// The excess is slope·x + rest in the place x of the score.
		slope := 0
		for _, end := range [...]struct{ edge, sign int }{
			{e.from[rule.a] + 1, 1}, {e.from[rule.a], -1}, {e.from[rule.b] + 1, -1}, {e.from[rule.b], 1},
		} {
			if end.edge == i {
				slope += end.sign
			}
		}
		rest := e.excess(&rule) - times(slope, e.at[i])
		switch {
		case slope > 0:
			most, _ := (-rest).Scale(1, int64(slope), units.Down)
			high = min(high, r.Down(most))
		case slope < 0:
			least, _ := rest.Scale(1, int64(-slope), units.Up)
			low = max(low, r.Up(least))
		case rest > 0:
			return 0, 0, false
		}
	}
	return low, high, low <= high
}

// stripFromScores reads the panels off the scores. A strip that breaks a rule
// is refused with the one score that puts it right, if one does.
func (m *maker) stripFromScores(s FoldedStrip) stripPanels {
	n := 3
	if s.Scores[3] != 0 {
		n = 4
	}
	e := stripEdges{at: make([]units.Length, 1, 6), from: [4]int{0, 1, 2, 3}}
	var last units.Length
	for i, at := range s.Scores[:n] {
		path := func() string { return check.Index("scores", i) }
		switch {
		case at == 0:
			m.Malformed(path(), check.Missing, "0", "a place above 0 and below "+m.n.Bound(s.Strip.W, units.Down))
		case at < 0 || at >= s.Strip.W:
			m.Malformed(path(), check.OutOfRange, m.text(at), "a place above 0 and below "+m.n.Bound(s.Strip.W, units.Down))
		case at-last < units.Shortest:
			m.Short(path(), check.Conflict, m.n, at, last+units.Shortest, "beyond the score before it")
		case s.Strip.W-at < units.Shortest:
			m.Long(path(), check.Conflict, m.n, at, s.Strip.W-units.Shortest, "before the end of the strip")
		}
		last = max(last, at)
		e.at = append(e.at, at)
	}
	e.at = append(e.at, s.Strip.W)
	var p stripPanels
	switch {
	case n == 4:
		e.from = [4]int{0, 2, 3, 4}
		p.spine = s.Scores[1] - s.Scores[0]
		if s.Spine != 0 && s.Spine != p.spine {
			m.Malformed("spine", check.Conflict, m.text(s.Spine)+", and "+m.text(p.spine)+" between the first two scores", "one of the two")
		}
	case s.Spine != 0 || s.OwnSpine:
		m.Malformed("scores", check.Missing, "three", "four scores for a strip with a spine of its own")
	}
	if m.Len() > 0 {
		return p
	}
	p.flap, p.base, p.front, p.hem = e.width(flapPanel), e.width(basePanel), e.width(frontPanel), e.width(hemPanel)
	rules := stripRules(s.Overhang)
	broken := 0
	for i := range rules {
		if e.excess(&rules[i]) > 0 {
			broken++
		}
	}
	if broken == 0 {
		m.stripFolds(s, p)
		return p
	}
	if !m.repairScore(e, rules[:]) && !m.repairScores(e, rules[:], s) {
		for _, r := range rules {
			if e.excess(&r) > 0 { // nothing mends it
				got, want := m.broken(r, e.width(r.a), e.width(r.b))
				m.Impossible(check.Index("scores", min(e.from[r.a], n-1)), DoesNotFold, got, want)
			}
		}
	}
	return p
}

// repairScore reports the score that puts all rules right by moving least.
func (m *maker) repairScore(e stripEdges, rules []stripRule) bool {
	best := 0
	var low, high, move units.Length
	for i := 1; i < len(e.at)-1; i++ {
		l, h, ok := e.repair(i, rules, m.r)
		if !ok {
			continue
		}
		if way := (e.at[i].Clamp(l, h) - e.at[i]).Abs(); best == 0 || way < move {
			best, low, high, move = i, l, h, way
		}
	}
	if best == 0 {
		return false
	}
	got := m.text(e.at[best]) + ", which makes "
	said, first := [4]bool{}, true
	for _, r := range rules {
		if e.excess(&r) <= 0 {
			continue
		}
		for _, p := range [...]int{r.a, r.b} {
			if !said[p] {
				said[p] = true
				if !first {
					got += ", "
				}
				got += "the " + panelName(p) + " " + m.text(e.width(p)) + " wide"
				first = false
			}
		}
	}
	want := "a score at " + m.text(low)
	if high > low {
		want = "a score from " + m.text(low) + " to " + m.text(high)
	}
	for _, r := range rules {
		if e.excess(&r) > 0 {
			want += "; " + r.why
		}
	}
	bound := check.AtLeast
	if e.at[best] > high {
		bound = check.AtMost
	}
	m.Add(check.Violation{Path: check.Index("scores", best-1), Code: DoesNotFold, Nature: check.Impossible,
		Got: got, Want: want, Bound: bound, Limit: e.at[best].Clamp(low, high), By: move})
	return true
}

// repairScores reports scores that put all rules right, where no single one does: the
// panels that are too wide as wide as they may be, what they give for the base.
func (m *maker) repairScores(e stripEdges, rules []stripRule, s FoldedStrip) bool {
	base := e.width(basePanel)
	front := m.r.Down(min(e.width(frontPanel), base))
	hem := min(e.width(hemPanel), front)
	last := len(e.at) - 2
	spine := s.Spine
	if spine == 0 { // of four scores the strip has one all the same
		spine = m.r.Down(e.at[e.from[basePanel]] - e.at[1])
	}
	put := stripEdges{at: slices.Clone(e.at), from: e.from}
	put.at[1] = m.r.Down(min(e.width(flapPanel), base+s.Overhang))
	put.at[e.from[basePanel]] = put.at[1] + spine
	put.at[last] = m.r.Up(e.at[last+1] - hem)
	put.at[last-1] = put.at[last] - front
	for i := 1; i < len(put.at); i++ {
		if put.at[i]-put.at[i-1] < units.Shortest {
			return false
		}
	}
	var got, why string
	for _, r := range rules {
		if e.excess(&r) > 0 {
			is, _ := m.broken(r, e.width(r.a), e.width(r.b))
			if got != "" {
				got += ", "
			}
			got, why = got+is, why+"; "+r.why
		}
	}
	want := "scores at "
	for i, at := range put.at[1 : last+1] {
		switch {
		case i == last-1:
			want += " and "
		case i > 0:
			want += ", "
		}
		want += m.text(at)
	}
	m.Impossible("scores", DoesNotFold, got, want+why)
	return true
}

// breaks reports a rule that is broken.
func (m *maker) breaks(r *stripRule, path string, a, b units.Length) {
	if a <= b+r.over {
		return
	}
	got, want := m.broken(*r, a, b)
	m.Add(check.Violation{Path: path, Code: DoesNotFold, Nature: check.Impossible, Got: got, Want: want,
		Bound: check.AtMost, Limit: b + r.over, By: a - b - r.over})
}

// broken says how a rule is broken.
func (m *maker) broken(r stripRule, a, b units.Length) (got, want string) {
	return panelName(r.a) + " " + m.text(a) + " wide beside a " + panelName(r.b) + " of " + m.text(b),
		panelName(r.a) + " at most " + m.n.Bound(b+r.over, units.Down) + ": " + r.why
}

// stripFolds checks the rules for panels. A spine stands upright between its two
// scores and takes no part in that.
func (m *maker) stripFolds(s FoldedStrip, p stripPanels) {
	width := [...]units.Length{p.flap, p.base, p.front, p.hem}
	path := [...]string{"flap", "base", "front", "hem"}
	for i := range width {
		if width[i] < units.Shortest || width[i] > units.Longest {
			m.Impossible(path[i], check.OutOfRange, m.text(width[i]), "a panel from "+m.n.Bound(units.Shortest, units.Up)+" to "+m.longest())
		}
	}
	if m.Len() > 0 {
		return
	}
	for _, r := range stripRules(s.Overhang) { // by which it folds flat, hem first and flap last
		m.breaks(&r, path[r.a], width[r.a], width[r.b])
	}
}
