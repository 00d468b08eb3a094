package score

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"boardwrap.example/internal/inorder"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Codes of what stands in the way of a turn.
const (
	// InTheWay: a panel lies where the turning part has to pass.
	InTheWay check.Code = "in-the-way"
	// HeldBack: the part to be turned is held on both sides of the score.
	HeldBack check.Code = "held-back"
	// WrongWay: a layer folded along would get the other kind of fold than
	// its score has.
	WrongWay check.Code = "wrong-way"
	// FoldedAlready: the score is no longer flat.
	FoldedAlready check.Code = "folded-already"
)

// A Blocked is the error of a turn that cannot be made.
type Blocked struct {
	Index int        // of the turn in the sequence
	Turn  Turn       // with the way that it would have had
	Code  check.Code // why
	By    int        // the panel that blocks it, -1 if none does
}

// Error says which fold is blocked and by which panel, counting from 1.
func (e *Blocked) Error() string {
	dst := []byte("turn ")
	dst = strconv.AppendInt(dst, int64(e.Index+1), 10)
	dst = append(dst, ", "...)
	dst = append(dst, e.Turn.String()...)
	dst = append(dst, ": "...)
	panel := "panel " + strconv.Itoa(e.By+1)
	switch e.Code {
	case InTheWay:
		dst = append(dst, panel+" lies in the way"...)
	case HeldBack:
		dst = append(dst, panel+" is held on the other side of the fold line"...)
	case WrongWay:
		dst = append(dst, panel+" lies on it and would be folded against its score"...)
	case FoldedAlready:
		dst = append(dst, "it is folded already"...)
	default:
		dst = append(dst, e.Code...)
	}
	return string(dst)
}

// FoldBy makes single folds one after the other, starting from the flat strip,
// and returns the strip as it then lies; scores that no turn folds stay flat.
// The error is a [*Blocked] with the first turn that cannot be made, or an
// error that lists the turns without a score. The result then is the strip as
// it lay before that turn.
//
// A turn whose way is [Towards] or [Away] may fold a score the other way than
// the strip has it; the strip of the result has the kinds as they were made.
//
// A fold is made by turning everything on one side of the score as it is, in
// one piece, half a turn about the fold line. Layers that it would have to
// pass through block it. A turn takes time little more than in proportion to the
// number of panels: the most there may be, [MaxPanels], are all folded in about
// a second. When until ends, the error is its own, and the result is the
// strip as far as it was folded.
func (s Strip) FoldBy(until Stopper, turns ...Turn) (Folding, error) {
	var list check.List
	for i, st := range turns {
		if st.Score < 0 || st.Score >= len(s.folds) {
			list.Malformed(check.Index("turns", i)+".score", check.Unknown, strconv.Itoa(st.Score), upTo(len(s.folds), "score"))
		}
		if st.Way > Away {
			list.Malformed(check.Index("turns", i)+".way", check.Unknown, strconv.Itoa(int(st.Way)), AsScored.String()+", "+Towards.String()+" or "+Away.String())
		}
		if st.Part > Before {
			list.Malformed(check.Index("turns", i)+".part", check.Unknown, strconv.Itoa(int(st.Part)), Beyond.String()+" or "+Before.String())
		}
	}
	t := newTable(s)
	if err := list.Err(); err != nil {
		return t.folded(), err
	}
	for i, st := range turns {
		if err := ended(until); err != nil {
			return t.folded(), err
		}
		if blocked := t.fold(st); blocked != nil {
			blocked.Index = i
			return t.folded(), blocked
		}
	}
	return t.folded(), nil
}

// A table is a strip on the maker's table, folded at some of its scores.
type table struct {
	strip Strip // with the kinds as made
	flat  []bool
	order []int // bottom to top
	rank  []int
	from  []units.Length // panel 0 begins at 0 and stays
	up    []bool
	made  []Made
	over  bool // the first panel lies face down before the maker

	places []units.Length // room for clear
	near   []stretchOf
}

// A stretchOf is a part of a panel on the table.
type stretchOf struct {
	panel    int
	from, to units.Length
}

func newTable(s Strip) *table {
	n := s.Len()
	t := &table{strip: Strip{s.edges, slices.Clone(s.folds)}, flat: make([]bool, len(s.folds))}
	for i := range t.flat {
		t.flat[i] = true
	}
	t.order, t.rank = make([]int, n), make([]int, n)
	for i := range t.order {
		t.order[i], t.rank[i] = i, i
	}
	t.from, t.up = layOut(t.strip, t.flat)
	return t
}

func (t *table) folded() Folding {
	f := newFolded(t.strip, t.flat, t.order)
	f.made, f.over = t.made, t.over
	return f
}

// line returns the place of a score on the table.
func (t *table) line(score int) units.Length {
	if t.up[score] {
		return t.from[score] + t.strip.Panel(score)
	}
	return t.from[score]
}

// fold makes one turn or says what blocks it.
func (t *table) fold(st Turn) *Blocked {
	s, asScored := st.Score, st.Way == AsScored
	if asScored {
		// A valley brings the next panel on to the face of this one.
		st.Way = Away
		if (t.strip.folds[s] == Valley) == (t.up[s] != t.over) {
			st.Way = Towards
		}
	}
	// Here the first panel stays face up. What closes on the maker's upper side
	// closes on its upper side, unless it lies face down before the maker; which
	// part was turned only changes how it lies after.
	up := (st.Way == Towards) != t.over
	blocked := func(code check.Code, by int) *Blocked { return &Blocked{Turn: st, Code: code, By: by} }
	if !t.flat[s] {
		return blocked(FoldedAlready, -1)
	}
	along := t.along(s, up)
	m := motion{x: t.line(s), up: up, moving: make([]bool, t.strip.Len())}
	kinds := make([]Fold, len(along))
	turning, k := false, 0 // whether the part now looked at turns
	for p := range m.moving {
		if k < len(along) && along[k] == p-1 {
			turning = !turning
			onRight := t.from[p] >= m.x // panel p-1 lies on the other side
			if k == 0 {
				m.right = onRight
			}
			if turning != (onRight == m.right) {
				return blocked(HeldBack, p-1)
			}
			stays := p - 1
			if !turning {
				stays = p
			}
			kinds[k] = Mountain
			if t.up[stays] == m.up {
				kinds[k] = Valley
			}
			k++
		}
		m.moving[p] = turning
	}
	if by := t.obstacle(m); by >= 0 {
		return blocked(InTheWay, by)
	}
	if asScored {
		for i, a := range along {
			if kinds[i] != t.strip.folds[a] {
				return blocked(WrongWay, a)
			}
		}
	}
	for i, a := range along {
		t.strip.folds[a] = kinds[i]
		t.flat[a] = false
	}
	t.turn(m)
	t.over = t.over != (st.Part == Before)
	t.made = append(t.made, Made{st, along})
	return nil
}

// along returns the scores that are folded together with s, in rising order:
// s and the flat ones in the same place in the layers towards which it turns.
func (t *table) along(s int, up bool) []int {
	var out []int
	x := t.line(s)
	for c, flat := range t.flat {
		if !flat || t.line(c) != x {
			continue
		}
		// Both score lines are crossed by paper on either side; compare the
		// panels on the right.
		above := t.rank[t.rightOf(c)] > t.rank[t.rightOf(s)]
		if c == s || above == up {
			out = append(out, c)
		}
	}
	return out
}

// rightOf returns the panel to the right of a flat score.
func (t *table) rightOf(score int) int {
	if t.up[score] {
		return score + 1
	}
	return score
}

// A motion turns some panels half a turn about a fold line.
type motion struct {
	x      units.Length
	up     bool // over the rest, not under it
	right  bool // the panels at the line turn from its right to its left
	moving []bool
}

// obstacle returns a staying panel that the turning ones would have to pass
// through, -1 if there is none. On the side of the line from which they rise
// nothing that stays may lie over them; what reaches back over the line sinks
// on the other side, and there nothing that stays may lie under it.
func (t *table) obstacle(m motion) int {
	if len(t.order) > fewPanels && t.clear(m) {
		return -1
	}
	return t.firstObstacle(m)
}

// firstObstacle compares each panel that turns with each that stays.
func (t *table) firstObstacle(m motion) int {
	for p, moves := range m.moving {
		if !moves {
			continue
		}
		p0, p1 := t.from[p], t.from[p]+t.strip.Panel(p)
		for q, moves := range m.moving {
			if moves {
				continue
			}
			low, high := max(p0, t.from[q]), min(p1, t.from[q]+t.strip.Panel(q))
			over := t.rank[q] > t.rank[p]
			if max(low, m.x) < high && over == (m.up == m.right) {
				return q
			}
			if low < min(high, m.x) && over != (m.up == m.right) {
				return q
			}
		}
	}
	return -1
}

// fewPanels is from how many panels on it pays to look whether anything is in
// the way before looking what.
const fewPanels = 48

// clear reports whether nothing that stays is in the way of a motion. In every
// stretch of the table where both lie, on the side that rises the lowest of what
// turns has to lie over the highest of what stays, and on the other side the
// other way round; if it turns down, everything the other way round.
func (t *table) clear(m motion) bool {
	// Only where both kinds lie can anything be in the way.
	var low, high [2]units.Length
	for i := range low {
		low[i], high[i] = math.MaxInt64, math.MinInt64
	}
	for p, from := range t.from {
		k := 0
		if m.moving[p] {
			k = 1
		}
		low[k], high[k] = min(low[k], from), max(high[k], from+t.strip.Panel(p))
	}
	from, to := max(low[0], low[1]), min(high[0], high[1])
	if from >= to {
		return true
	}
	at := append(t.places[:0], from, to)
	if from < m.x && m.x < to {
		at = append(at, m.x)
	}
	t.near = t.near[:0]
	for _, p := range t.order { // from the bottom to the top
		a, b := max(t.from[p], from), min(t.from[p]+t.strip.Panel(p), to)
		if a < b {
			at = append(at, a, b)
			t.near = append(t.near, stretchOf{p, a, b})
		}
	}
	inorder.Sort(at, cmp.Compare)
	t.places = slices.Compact(at)
	for _, onRight := range [...]bool{true, false} {
		// Whether what stays must not lie over what turns, or not under it.
		overBlocks := (m.up == m.right) == onRight
		turns := t.outermost(m, true, !overBlocks)
		stays := t.outermost(m, false, overBlocks)
		for i, x := range t.places[:len(t.places)-1] {
			if (x >= m.x) != onRight || turns[i] < 0 || stays[i] < 0 {
				continue
			}
			if (stays[i] > turns[i]) == overBlocks {
				return false
			}
		}
	}
	return true
}

// outermost returns for each stretch between two places which of the panels near
// is the highest or the lowest of those that turn or those that stay, -1 for
// none.
func (t *table) outermost(m motion, moving, highest bool) []int {
	n := len(t.places) - 1
	out := make([]int, n)
	next := make([]int, n+1) // the first stretch from here on that has none yet
	for i := range next {
		next[i] = i
		if i < n {
			out[i] = -1
		}
	}
	find := func(i int) int {
		for next[i] != i {
			next[i] = next[next[i]]
			i = next[i]
		}
		return i
	}
	for k := range t.near {
		if highest {
			k = len(t.near) - 1 - k
		}
		n := t.near[k]
		if m.moving[n.panel] != moving {
			continue
		}
		from, _ := slices.BinarySearch(t.places, n.from)
		to, _ := slices.BinarySearch(t.places, n.to)
		for i := find(from); i < to; i = find(i) {
			out[i] = k
			next[i] = i + 1
		}
	}
	return out
}

// turn carries a motion out that nothing blocks. What turns comes to lie on
// (or under) all that stays: it could only pass to the other side of it where
// both reach across the fold line, and there each would block the other.
func (t *table) turn(m motion) {
	var turned, stayed []int
	for _, p := range t.order {
		if !m.moving[p] {
			stayed = append(stayed, p)
			continue
		}
		turned = append(turned, p)
		t.from[p] = 2*m.x - (t.from[p] + t.strip.Panel(p))
		t.up[p] = !t.up[p]
	}
	slices.Reverse(turned)
	if m.up {
		t.order = append(stayed, turned...)
	} else {
		t.order = append(turned, stayed...)
	}
	for at, p := range t.order {
		t.rank[p] = at
	}
}
