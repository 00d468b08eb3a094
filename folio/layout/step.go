package layout

import (
	"cmp"
	"container/heap"
	"iter"
	"strconv"

	"boardwrap.example/folio"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// CareTrimmer is the caution of a step at a trimmer or guillotine: barrier and
// latch follow an OSHA interpretation letter of 30 June 1976, the rest is
// common practice. It is the usual one and not a substitute for the tool's
// manual and the rules that hold where the work is done.
const CareTrimmer = "Trimmer: finger barrier in place, fingers behind it, no stack thicker than the manual allows, latch the blade when idle. The maker's judgement, the tool's manual and local rules come first."

// A Step is one numbered step of cutting. The first step of a sheet takes it in
// hand and has no cuts; each other step is one setting of the fence for parts
// that are cut alike.
type Step struct {
	Number int
	// Sheet is the number of the sheet and Sheets how many are cut alike.
	Sheet, Sheets int
	// Part is the size of the part in hand before it is cut and Parts how many
	// of them there are over all sheets that are cut alike.
	Part  units.Size
	Parts int
	// Turn says that the parts are turned a quarter since the cut before.
	Turn bool
	// Edge is where the setting counts from: score.Left or score.Head of the
	// part as the sheet lay at first.
	Edge score.Edge
	// Setting is that of the fence: what is cut off lies between the edge and
	// the blade. It is 0 or less where a blade with a kerf only takes off the
	// edge itself.
	Setting units.Length
	// Same says that the fence stands as it did in the step before.
	Same bool
	// Cuts is how many cuts each part gets at this setting, one after another.
	Cuts int
	// Text is the step in words and Care the caution that goes with it.
	Text, Care string
}

// Steps walks the order of work: sheet by sheet, on each sheet from the first
// cuts to the last, equal settings of the fence together. Lengths are written
// exactly, or on the ruler of the format if it has one, and are marked there
// if they are not exact.
func (l *Layout) Steps(f units.Format) iter.Seq[Step] {
	return func(yield func(Step) bool) {
		n := 0
		for s := range l.Sheets() {
			for step := range l.stepsOf(s, f) {
				n++
				step.Number = n
				if !yield(step) {
					return
				}
			}
		}
	}
}

// SheetSteps walks the steps of one sheet of this layout, numbered from 1.
func (l *Layout) SheetSteps(s Sheet, f units.Format) iter.Seq[Step] {
	return func(yield func(Step) bool) {
		n := 0
		for step := range l.stepsOf(s, f) {
			n++
			step.Number = n
			if !yield(step) {
				return
			}
		}
	}
}

// Settings counts how often the fence has to be set for the whole layout.
func (l *Layout) Settings() int {
	n := 0
	for s := range l.Steps(units.Format{}) {
		if s.Cuts > 0 && !s.Same {
			n++
		}
	}
	return n
}

// A chain is parts that are cut alike by cuts in one direction.
type chain struct {
	parts []int // of the sheet; all have the same tree of cuts
	ops   []op
}

// An op is one setting of the fence for a chain.
type op struct {
	key  setting
	cuts int
	hand units.Size
	give []int // the parts it leaves, of all parts of the chain
	rest int   // what is cut on at another setting, −1 for nothing
}

type setting struct {
	axis score.Axis
	at   units.Length
}

// A teller writes the steps of one sheet.
type teller struct {
	l     *Layout
	s     Sheet
	f     units.Format
	kerf  units.Length
	care  string
	shape []int
	yield func(Step) bool
	last  setting
	any   bool
}

func (l *Layout) stepsOf(s Sheet, f units.Format) iter.Seq[Step] {
	return func(yield func(Step) bool) {
		t := &teller{l: l, s: s, f: f, yield: yield, care: folio.CareBlade}
		for _, m := range l.materials {
			if m.material.Name == s.material {
				c := l.job.cutter(m.material)
				t.kerf = c.Kerf
				if c.LongestCut > 0 {
					t.care = CareTrimmer
				}
			}
		}
		t.shapes()
		if !t.take() {
			return
		}
		level := []chain{{parts: []int{0}}}
		if len(s.parts) == 0 || s.parts[0].use != Cut {
			return
		}
		for len(level) > 0 {
			next, more := t.level(level)
			if !more {
				return
			}
			level = next
		}
	}
}

// shapes gives parts with the same tree of cuts the same number.
func (t *teller) shapes() {
	type key struct {
		use  Use
		size units.Size
		axis score.Axis
		at   units.Length
		a, b int
	}
	seen := map[key]int{}
	t.shape = make([]int, len(t.s.parts))
	for i := len(t.s.parts) - 1; i >= 0; i-- {
		p := t.s.parts[i]
		k := key{p.use, p.rect.Size(), p.axis, p.at, -1, -1}
		if p.a >= 0 {
			k.a = t.shape[p.a]
		}
		if p.b >= 0 {
			k.b = t.shape[p.b]
		}
		id, ok := seen[k]
		if !ok {
			id = len(seen)
			seen[k] = id
		}
		t.shape[i] = id
	}
}

// take is the step that takes the sheets in hand.
func (t *teller) take() bool {
	s := t.s
	text := "Take " + count(s.times) + " sheet"
	if s.times > 1 {
		text += "s"
	}
	if s.kind.Offcut {
		text = "Take " + count(s.times) + " offcut"
		if s.times > 1 {
			text += "s"
		}
	}
	text += " of " + s.material + ", " + t.size(s.Size())
	switch {
	case s.turned && s.kind.Size.W == s.kind.Size.H:
		text += ", turned a quarter so that the grain runs away from you"
	case s.turned:
		text += ", turned so that the grain and the second of these run away from you"
	case s.oneWay == NoTurn:
		text += ", the pattern upright; every piece keeps its head at the top"
	case s.oneWay == HalfTurn:
		text += ", the pattern up and down; pieces may be upside down"
	}
	text += "."
	if len(s.parts) == 1 && s.parts[0].use == PieceUse {
		text += " It needs no cut: " + t.gives([]int{0}) + "."
	}
	return t.yield(Step{Sheet: s.number, Sheets: s.times, Part: s.Size(), Parts: s.times, Text: text})
}

// level writes the steps of one level of the tree and returns the next.
func (t *teller) level(chains []chain) (next []chain, more bool) {
	for i := range chains {
		t.unroll(&chains[i])
	}
	// All chains wait at their next setting; the fence stays where it is as
	// long as some part needs it there.
	q := &queue{waiting: map[setting][]int{}}
	at := make([]int, len(chains))
	for i := range chains {
		q.add(chains[i].ops[0].key, i)
	}
	groups := map[int]int{}
	for {
		i, ok := q.take(t.last, t.any)
		if !ok {
			break
		}
		c := &chains[i]
		o := c.ops[at[i]]
		if !t.cut(c, o) {
			return nil, false
		}
		for _, g := range o.give {
			if t.s.parts[g].use != Cut {
				continue
			}
			to, seen := groups[t.shape[g]]
			if !seen {
				to = len(next)
				groups[t.shape[g]] = to
				next = append(next, chain{})
			}
			next[to].parts = append(next[to].parts, g)
		}
		at[i]++
		if at[i] < len(c.ops) {
			q.add(c.ops[at[i]].key, i)
		}
	}
	return next, true
}

// unroll follows the cuts of a chain along the rest of each part.
func (t *teller) unroll(c *chain) {
	rest := append([]int(nil), c.parts...)
	axis := t.s.parts[rest[0]].axis
	for {
		p := t.s.parts[rest[0]]
		k := setting{axis, p.at}
		if n := len(c.ops); n == 0 || c.ops[n-1].key != k {
			if n > 0 {
				c.ops[n-1].rest = rest[0]
			}
			c.ops = append(c.ops, op{key: k, hand: p.rect.Size(), rest: -1})
		}
		o := &c.ops[len(c.ops)-1]
		o.cuts++
		for i, r := range rest {
			q := t.s.parts[r]
			if q.a >= 0 {
				o.give = append(o.give, q.a)
			}
			rest[i] = q.b
		}
		if rest[0] < 0 {
			return
		}
		if q := t.s.parts[rest[0]]; q.use != Cut || q.axis != axis {
			o.give = append(o.give, rest...)
			return
		}
	}
}

func (t *teller) cut(c *chain, o op) bool {
	s := Step{Sheet: t.s.number, Sheets: t.s.times, Part: o.hand, Parts: len(c.parts) * t.s.times, Cuts: o.cuts,
		Setting: o.key.at, Edge: score.Left, Care: t.care}
	if o.key.axis == score.Level {
		s.Edge = score.Head
	}
	s.Turn = t.any && t.last.axis != o.key.axis
	s.Same = t.any && t.last == o.key
	t.last, t.any = o.key, true
	text := ""
	if s.Turn {
		text = "Turn; "
	}
	if c.parts[0] != 0 {
		text += count(s.Parts) + " part"
		if s.Parts > 1 {
			text += "s"
		}
		text += " " + t.size(o.hand) + ": "
	}
	switch {
	case o.key.at <= 0:
		text += "from the " + s.Edge.String() + " edge take off " + t.len(o.key.at+t.kerf)
	case s.Same:
		text += "same setting, " + t.len(o.key.at) + " from the " + s.Edge.String() + " edge, cut"
	default:
		text += "from the " + s.Edge.String() + " edge set " + t.len(o.key.at) + ", cut"
	}
	if o.cuts > 1 {
		text += " " + count(o.cuts) + " times"
	}
	if s.Parts > 1 {
		text += " each"
	}
	g := t.gives(o.give)
	if o.rest >= 0 {
		if g != "" {
			g += "; "
		}
		g += "the rest is " + t.size(t.s.parts[o.rest].rect.Size())
	}
	if g != "" {
		text += ": " + g
	}
	s.Text = upper(text) + "."
	return t.yield(s)
}

func upper(s string) string {
	if s != "" && s[0] >= 'a' && s[0] <= 'z' {
		return string(s[0]-'a'+'A') + s[1:]
	}
	return s
}

// gives lists what becomes of parts, pieces first.
func (t *teller) gives(parts []int) string {
	type line struct {
		use  Use
		text string
	}
	var lines []line
	counts := map[line]int{}
	add := func(l line, n int) {
		if counts[l] == 0 {
			lines = append(lines, l)
		}
		counts[l] += n
	}
	for _, i := range parts {
		p := t.s.parts[i]
		switch p.use {
		case PieceUse:
			for _, sh := range t.s.shares[p.from:p.to] {
				name := t.s.wants[sh.want].name
				if name == "" {
					name = "piece"
				}
				if p.turned {
					name += " (turned)"
				}
				add(line{p.use, name}, sh.copies)
			}
		case Offcut:
			add(line{p.use, "offcut " + t.size(p.rect.Size()) + " to keep"}, t.s.times)
		case Cut:
			add(line{p.use, "part " + t.size(p.rect.Size())}, t.s.times)
		case Waste:
			add(line{use: Waste, text: "waste"}, 0)
		}
	}
	out := ""
	for _, use := range [...]Use{PieceUse, Cut, Offcut} {
		for _, l := range lines {
			if l.use != use {
				continue
			}
			if out != "" {
				out += "; "
			}
			if counts[l] > 1 || use == PieceUse {
				out += strconv.Itoa(counts[l]) + " x "
			}
			out += l.text
		}
	}
	if out == "" && len(lines) > 0 {
		out = "waste"
	}
	return out
}

func (t *teller) len(l units.Length) string {
	if t.f.Ruler != 0 {
		return t.f.Text(l)
	}
	return string(t.l.Notation().Append(nil, l, t.f.Typographic))
}

func (t *teller) size(s units.Size) string {
	if t.f.Ruler != 0 {
		return t.f.Size(s)
	}
	if t.f.Typographic {
		return t.len(s.W) + " × " + t.len(s.H)
	}
	return sizeText(t.l.Notation(), s)
}

// A queue holds chains by the setting that they wait for: level cuts after
// upright ones, the largest setting first.
type queue struct {
	keys    []setting
	waiting map[setting][]int
}

func (q *queue) add(k setting, chain int) {
	list, known := q.waiting[k]
	q.waiting[k] = append(list, chain)
	if !known {
		heap.Push(q, k)
	}
}

// take returns the next chain, one that waits for the last setting if there is
// one.
func (q *queue) take(last setting, any bool) (chain int, ok bool) {
	if any {
		if list := q.waiting[last]; len(list) > 0 {
			q.waiting[last] = list[1:]
			return list[0], true
		}
	}
	for len(q.keys) > 0 {
		k := q.keys[0]
		if list := q.waiting[k]; len(list) > 0 {
			q.waiting[k] = list[1:]
			return list[0], true
		}
		heap.Pop(q)
		delete(q.waiting, k)
	}
	return 0, false
}

// Len, Less, Swap, Push and Pop are those of heap.Interface.
func (q *queue) Len() int { return len(q.keys) }

// Less orders the settings.
func (q *queue) Less(i, j int) bool {
	a, b := q.keys[i], q.keys[j]
	return cmp.Or(cmp.Compare(a.axis, b.axis), cmp.Compare(b.at, a.at)) < 0
}

// Swap swaps two settings.
func (q *queue) Swap(i, j int) { q.keys[i], q.keys[j] = q.keys[j], q.keys[i] }

// Push adds a setting.
func (q *queue) Push(x any) { q.keys = append(q.keys, x.(setting)) }

// Pop removes the last setting.
func (q *queue) Pop() any {
	n := len(q.keys) - 1
	k := q.keys[n]
	q.keys = q.keys[:n]
	return k
}
