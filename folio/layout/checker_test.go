package layout_test

import (
	"fmt"
	"testing"

	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/stock"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// faults returns everything that is wrong with a layout as an answer to its
// job. It uses nothing but what the package shows to its users, and shares no
// code with it.
func faults(job layout.Job, l *layout.Layout) []string {
	c := &checker{job: job, l: l, placed: map[string]int{}}
	c.run()
	return c.wrong
}

func mustHold(t testing.TB, job layout.Job, l *layout.Layout) {
	t.Helper()
	for _, w := range faults(job, l) {
		t.Error(w)
	}
}

type checker struct {
	job    layout.Job
	l      *layout.Layout
	wrong  []string
	placed map[string]int // by path
}

func (c *checker) say(format string, args ...any) {
	if len(c.wrong) < 20 {
		c.wrong = append(c.wrong, fmt.Sprintf(format, args...))
	}
}

func (c *checker) material(name string) layout.Material {
	for _, m := range c.job.Materials {
		if m.Name == name {
			return m
		}
	}
	c.say("no material %q", name)
	return layout.Material{}
}

func (c *checker) cutter(m layout.Material) layout.Cutter {
	k := c.job.Cutter
	if m.Cutter != (layout.Cutter{}) {
		k = m.Cutter
	}
	if k.LongestCut <= 0 {
		k.LongestCut = 1000 * units.Metre
	}
	return k
}

func (c *checker) run() {
	told := 0
	for w := range c.l.Warnings() {
		if w.Code == layout.WarnStopped {
			told++
		}
	}
	if told > 1 || (told > 0) != c.l.Stopped() {
		c.say("stopped %t, and that is told %d times", c.l.Stopped(), told)
	}
	number := 0
	bought := 0
	for m := range c.l.Materials() {
		used := map[int]int{}
		var whole, pieces, offcuts units.Area
		left := map[units.Size]int{}
		for s := range m.Sheets() {
			number++
			if s.Number() != number {
				c.say("sheet number %d, want %d", s.Number(), number)
			}
			k, i := s.Kind()
			used[i] += s.Times()
			if k != c.material(m.Name()).Sheets[i] {
				c.say("sheet %d is no sheet of the job", number)
			}
			p, o := c.sheet(m, s, left)
			whole = whole.Plus(s.Size().Area().Times(int64(s.Times())))
			pieces, offcuts = pieces.Plus(p), offcuts.Plus(o)
		}
		c.follow(m)
		i, ordinary, fromOffcuts, price := 0, 0, 0, int64(0)
		for k, n := range m.Used() {
			if n != used[i] {
				c.say("%s kind %d: %d used, the sheets say %d", m.Name(), i, n, used[i])
			}
			if k.Count != layout.Unlimited && n > k.Count {
				c.say("%s kind %d: %d used of %d", m.Name(), i, n, k.Count)
			}
			if k.Offcut {
				fromOffcuts += n
			} else {
				ordinary += n
			}
			price += k.Price.Minor * int64(n)
			i++
		}
		if ordinary != m.Bought() || fromOffcuts != m.FromOffcuts() || price != m.Price().Minor {
			c.say("%s: bought %d, offcuts %d, price %v; counted %d, %d, %d", m.Name(), m.Bought(), m.FromOffcuts(), m.Price(), ordinary, fromOffcuts, price)
		}
		if m.Bound() > m.Bought() || m.Proved() && m.Bound() != m.Bought() {
			c.say("%s: bound %d of %d, proved %v", m.Name(), m.Bound(), m.Bought(), m.Proved())
		}
		a := m.Areas()
		if a.Sheets() != whole || a.Pieces() != pieces || a.Offcuts() != offcuts || a.Waste() != whole.Minus(pieces).Minus(offcuts) || a.Waste().Sign() < 0 {
			c.say("%s: areas do not add up", m.Name())
		}
		for o := range m.Offcuts() {
			left[o.Size()] -= o.Count()
		}
		for size, n := range left {
			if n != 0 {
				c.say("%s: offcut %v listed %d too few times", m.Name(), size, n)
			}
		}
		var last units.Area
		first := true
		for o := range m.Offcuts() {
			if !first && o.Size().Area().Compare(last) > 0 {
				c.say("%s: offcuts not largest first", m.Name())
			}
			first, last = false, o.Size().Area()
		}
		for s := range m.Short() {
			c.placed[s.Piece().Path()] += s.Copies()
		}
		bought += ordinary
	}
	c.numbers()
	if bought != c.l.Bought() {
		c.say("Bought is %d, counted %d", c.l.Bought(), bought)
	}
	for w := range c.l.Pieces() {
		if n := c.placed[w.Path()]; n != w.Quantity() {
			c.say("%s %s: %d placed or short, %d wanted", w.Path(), w.Name(), n, w.Quantity())
		}
	}
}

func (c *checker) sheet(m layout.Laid, s layout.LaidSheet, left map[units.Size]int) (pieces, offcuts units.Area) {
	kind, _ := s.Kind()
	cutter := c.cutter(c.material(m.Name()))
	keep := c.job.Keep
	if keep == (layout.Keep{}) {
		keep = layout.Keep{Short: units.Inch, Long: 3 * units.Inch}
		if c.l.Notation() == units.MetricDecimal {
			keep = layout.Keep{Short: 25 * units.Millimetre, Long: 75 * units.Millimetre}
		}
	}
	size := kind.Size
	if s.Turned() {
		size = size.Turned()
	}
	if size != s.Size() {
		c.say("sheet %d: size %v", s.Number(), s.Size())
	}
	var parts []layout.CutPart
	for i, p := range s.Parts() {
		if i != len(parts) {
			c.say("sheet %d: part %d out of order", s.Number(), i)
		}
		parts = append(parts, p)
	}
	if len(parts) == 0 || parts[0].Rect() != units.RectAt(units.Point{}, size) {
		c.say("sheet %d does not begin with itself", s.Number())
		return pieces, offcuts
	}
	from := make([]int, len(parts))
	for i, p := range parts {
		r := p.Rect()
		if r.Empty() {
			c.say("sheet %d part %d is empty", s.Number(), i)
		}
		if i > 0 && from[i] == 0 {
			c.say("sheet %d part %d comes from nowhere", s.Number(), i)
		}
		a, b := p.Cuts()
		switch p.Use() {
		case layout.Cut:
			axis, at := p.CutAt()
			one, two, long := r, r, r.Size().H
			if axis == score.Upright {
				one.Max.X = r.Min.X + at
				two.Min.X = r.Min.X + at + cutter.Kerf
			} else {
				long = r.Size().W
				one.Max.Y = r.Min.Y + at
				two.Min.Y = r.Min.Y + at + cutter.Kerf
			}
			if long > cutter.LongestCut {
				c.say("sheet %d part %d: a cut of %v", s.Number(), i, long)
			}
			if at+cutter.Kerf < 0 || one.Empty() && two.Empty() {
				c.say("sheet %d part %d: the cut at %v misses it", s.Number(), i, at)
			}
			for _, half := range [...]struct {
				rect units.Rect
				to   int
			}{{one, a}, {two, b}} {
				switch {
				case half.rect.Empty():
					if half.to >= 0 {
						c.say("sheet %d part %d: something out of nothing", s.Number(), i)
					}
				case half.to <= i || half.to >= len(parts) || parts[half.to].Rect() != half.rect:
					c.say("sheet %d part %d: %v does not follow from the cut", s.Number(), i, half.rect)
				default:
					from[half.to]++
				}
			}
			continue
		case layout.Offcut:
			short, long := min(r.Size().W, r.Size().H), max(r.Size().W, r.Size().H)
			if short < keep.Short || long < keep.Long {
				c.say("sheet %d: offcut %v is not worth keeping", s.Number(), r.Size())
			}
			left[r.Size()] += s.Times()
			offcuts = offcuts.Plus(r.Size().Area().Times(int64(s.Times())))
		}
		if a != -1 || b != -1 {
			c.say("sheet %d part %d: not cut but has parts", s.Number(), i)
		}
	}
	var laid []units.Rect
	inner := units.RectAt(units.Point{}, size).Grow(-kind.Trim)
	for p := range s.Places() {
		r := p.Rect()
		if !r.In(inner) {
			c.say("sheet %d: a piece at %v is outside or in the trim", s.Number(), r)
		}
		if len(laid) < 3000 {
			for _, o := range laid {
				if o.Overlaps(r) {
					c.say("sheet %d: pieces overlap at %v and %v", s.Number(), o, r)
				}
			}
			laid = append(laid, r)
		}
		pieces = pieces.Plus(r.Size().Area().Times(int64(s.Times())))
		copies := 0
		for w, n := range p.Pieces() {
			copies += n
			c.placed[w.Path()] += n
			want := w.Size()
			if p.Turned() {
				want = want.Turned()
			}
			if want != r.Size() || w.Material() != m.Name() || p.Sheet() != s.Number() {
				c.say("sheet %d: %s of %v lies in %v", s.Number(), w.Name(), w.Size(), r.Size())
			}
			c.direction(m, s, p, w)
		}
		if copies != s.Times() {
			c.say("sheet %d: %d pieces at a place, %d sheets", s.Number(), copies, s.Times())
		}
	}
	return pieces, offcuts
}

// direction checks grain and pattern: how the piece lies against the sheet as
// it is listed is the piece's turn and the sheet's turn together.
func (c *checker) direction(m layout.Laid, s layout.LaidSheet, p layout.LaidPiece, w layout.Wanted) {
	kind, _ := s.Kind()
	across := p.Turned() != s.Turned() // the piece's height along the listed width
	if w.Turn() != layout.QuarterTurn && across {
		c.say("sheet %d: %s lies across its pattern", s.Number(), w.Name())
	}
	if w.Grain() == stock.GrainAny {
		return
	}
	grain := kind.Grain
	if grain == stock.GrainUnknown {
		assumed, ok := m.Assumed()
		if !ok {
			c.say("sheet %d: grain unknown and nothing assumed", s.Number())
		}
		grain = assumed
	}
	if across != (grain == stock.GrainAlongWidth) {
		c.say("sheet %d: %s lies across the grain", s.Number(), w.Name())
	}
}

// follow does what the order of work of a material says, with nothing but a heap
// of paper and a fence, and looks whether the pieces come out and the counts are
// right.
func (c *checker) follow(m layout.Laid) {
	k := c.cutter(c.material(m.Name()))
	stack := 1
	if t := c.material(m.Name()).Caliper; t > 0 {
		stack = max(1, int(k.Stack/t))
	}
	heap := map[units.Size]int{}
	number, settings, turns, cuts := 0, 0, 0, 0
	var last layout.CutStep
	taken := map[int]int{}
	first, fresh := true, true
	for step := range m.Steps() {
		number++
		text := step.Text(units.Format{})
		if step.Number() != number || step.Material() != m.Name() || text == "" {
			c.say("%s step %d: number %d, %q", m.Name(), number, step.Number(), text)
		}
		if step.Takes() {
			for n := range step.Sheets() {
				taken[n] += step.Parts()
			}
			heap[step.Part()] += step.Parts()
			fresh = true
			if step.Cuts() != 0 || step.Care() != "" || step.Strokes() != 0 {
				c.say("%s step %d takes and cuts", m.Name(), number)
			}
			continue
		}
		if step.Care() == "" || step.Stack() > 1 && step.Care() != layout.CareStack {
			c.say("%s step %d cuts without its caution", m.Name(), number)
		}
		for n := range step.Sheets() {
			if taken[n] == 0 {
				c.say("%s step %d: sheet %d is not there", m.Name(), number, n)
			}
		}
		turned := !fresh && last.Edge() != step.Edge()
		if step.Same() != (!first && last.Setting() == step.Setting()) || step.Turn() != turned {
			c.say("%s step %d: same %v, turn %v", m.Name(), number, step.Same(), step.Turn())
		}
		if !step.Same() {
			settings++
		}
		if turned {
			turns++
		}
		first, fresh, last = false, false, step
		// A stack is of parts of one size.
		piles := (step.Parts() + stack - 1) / stack
		if step.Stack() != max(1, min(stack, step.Parts())) || step.Strokes() != piles*step.Cuts() {
			c.say("%s step %d: %d cuts to %d parts in stacks of %d make %d", m.Name(), number, step.Cuts(), step.Parts(), step.Stack(), step.Strokes())
		}
		cuts += step.Strokes()
		c.cut(m, step, heap, k)
	}
	for s := range m.Sheets() {
		for p := range s.Places() {
			heap[p.Rect().Size()] -= s.Times()
		}
		if taken[s.Number()] != s.Times() {
			c.say("sheet %d: %d taken of %d", s.Number(), taken[s.Number()], s.Times())
		}
	}
	for o := range m.Offcuts() {
		heap[o.Size()] -= o.Count()
	}
	for size, n := range heap {
		if n < 0 {
			c.say("%s: following the steps leaves %d too few of %v", m.Name(), -n, size)
		}
	}
	c.counts(m, settings, turns, cuts)
}

// cut makes the cuts of a step.
func (c *checker) cut(m layout.Laid, step layout.CutStep, heap map[units.Size]int, k layout.Cutter) {
	long := step.Part().H
	if step.Edge() == score.Head {
		long = step.Part().W
	}
	if long > k.LongestCut {
		c.say("%s step %d: a cut of %v", m.Name(), step.Number(), long)
	}
	if heap[step.Part()] < step.Parts() {
		c.say("%s step %d: %d parts of %v, there are %d", m.Name(), step.Number(), step.Parts(), step.Part(), heap[step.Part()])
		return
	}
	gives := map[units.Size]int{}
	heap[step.Part()] -= step.Parts()
	rest := step.Part()
	for range step.Cuts() {
		off := rest
		if step.Edge() == score.Left {
			off.W = step.Setting()
			rest.W -= step.Setting() + k.Kerf
		} else {
			off.H = step.Setting()
			rest.H -= step.Setting() + k.Kerf
		}
		if !off.Empty() {
			heap[off] += step.Parts()
			gives[off] += step.Parts()
		}
	}
	if !rest.Empty() {
		heap[rest] += step.Parts()
		gives[rest] += step.Parts()
	}
	wastes := 0 // how often waste is told of
	last := layout.PieceUse
	rank := map[layout.Use]int{layout.PieceUse: 0, layout.Cut: 1, layout.Offcut: 2, layout.Waste: 3}
	for y := range step.Gives() {
		if rank[y.Use()] < rank[last] {
			c.say("%s step %d: %v comes after %v", m.Name(), step.Number(), y.Use(), last)
		}
		last = y.Use()
		if y.Use() == layout.Waste {
			wastes++
			if y.Count() != 0 || !y.Size().Empty() || y.Name() != "" {
				c.say("%s step %d: it is said to give %d of waste %v %q", m.Name(), step.Number(), y.Count(), y.Size(), y.Name())
			}
			continue
		}
		if gives[y.Size()] < y.Count() || y.Count() < 1 || (y.Use() == layout.PieceUse) != (y.Name() != "") {
			c.say("%s step %d: it is said to give %d of %v %v %q", m.Name(), step.Number(), y.Count(), y.Use(), y.Size(), y.Name())
		}
		gives[y.Size()] -= y.Count()
	}
	left := 0
	for _, n := range gives {
		left += n
	}
	if wastes > 1 || (wastes > 0) != (left > 0) {
		c.say("%s step %d: %d parts are of no use, and waste is told of %d times", m.Name(), step.Number(), left, wastes)
	}
}

func (c *checker) counts(m layout.Laid, settings, turns, cuts int) {
	for _, x := range []struct {
		what   string
		n      int
		counts func() (n, least int)
	}{{"settings", settings, m.Settings}, {"turns", turns, m.Turns}, {"cuts", cuts, m.Cuts}} {
		if n, least := x.counts(); n != x.n || least > n || least < 0 {
			c.say("%s: %d %s, at least %d; counted %d", m.Name(), n, x.what, least, x.n)
		}
	}
}

// numbers looks at the whole order of work: numbers without a gap, and counts
// that add up.
func (c *checker) numbers() {
	number, settings, turns, cuts := 0, 0, 0, 0
	var last layout.CutStep
	for step := range c.l.Steps() {
		if number++; step.Number() != number {
			c.say("step %d is number %d", number, step.Number())
		}
		if step.Takes() {
			continue
		}
		if !step.Same() {
			settings++
		}
		if step.Same() && last.Setting() != step.Setting() {
			c.say("step %d: not the same setting", number)
		}
		if step.Turn() {
			turns++
		}
		cuts += step.Strokes()
		last = step
	}
	for _, x := range []struct {
		what   string
		n      int
		counts func() (n, least int)
	}{{"settings", settings, c.l.Settings}, {"turns", turns, c.l.Turns}, {"cuts", cuts, c.l.Cuts}} {
		if n, least := x.counts(); n != x.n || least > n || least < 0 {
			c.say("%d %s, at least %d; counted %d", n, x.what, least, x.n)
		}
	}
}
