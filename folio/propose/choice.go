package propose

import (
	"cmp"
	"slices"

	"boardwrap.example/internal/inorder"
	"boardwrap.example/units"
)

// options of a thing for an aim, in the order of the area that they take.
// Those that another one is as good as in everything that counts are left out.
func (s *searcher) usable(aim Aim, thing int, most units.Length) []option {
	var list []option
	for _, o := range s.all[thing] {
		if aim == AllInView && s.request.Things[thing].Sight != TuckedAway && !o.way.InView() || o.box.height > most {
			continue
		}
		list = append(list, o)
	}
	var out []option
	for i := range list {
		beaten := false
		for j := range list {
			beaten = beaten || s.beats(&list[j], &list[i], aim == FewestSheets) && (j < i || !s.beats(&list[i], &list[j], aim == FewestSheets))
		}
		if !beaten {
			out = append(out, list[i])
		}
	}
	inorder.Sort(out, func(a, b option) int { return cmp.Compare(s.takes(&a), s.takes(&b)) })
	return out
}

// beats reports whether an option is at least as good as another one of its
// thing in all that counts.
func (s *searcher) beats(a, b *option, sheets bool) bool {
	return a.box.w <= b.box.w && a.box.h <= b.box.h && a.number <= b.number && a.box.height <= b.box.height &&
		(!a.box.mouth || b.box.mouth || s.grip <= s.between) &&
		(!sheets || a.cards.Times(int64(a.number)).Compare(b.cards.Times(int64(b.number))) <= 0)
}

// micro returns a length in whole micrometres, downwards: areas in their squares
// stay within 64 bits.
func micro(l units.Length) int64 { return int64(l / units.Micrometre) }

// takes is the least area that an option takes of the covers, with what must be
// between fittings.
func (s *searcher) takes(o *option) int64 {
	return int64(o.number) * micro(o.box.w+s.between) * micro(o.box.h+s.between)
}

// A choice is an option for each thing, by its place among the usable ones.
type choice struct {
	of    []int
	takes int64
	moved int // the last thing whose option was moved on
}

// choices yields every choice of an option for each thing, those that take the
// least area first.
type choices struct {
	s       *searcher
	opts    [][]option
	waiting *inorder.Queue[choice]
}

// newChoices begins with the option of each thing that takes the least; where one has no
// option that is thin enough there is no choice.
func newChoices(s *searcher, opts [][]option) *choices {
	c := &choices{s: s, opts: opts}
	begin := choice{of: make([]int, len(opts))}
	for i := range opts {
		if len(opts[i]) == 0 {
			c.waiting = inorder.NewQueue[choice](nil)
			return c
		}
		begin.takes += s.takes(&opts[i][0])
	}
	c.waiting = inorder.NewQueue(func(a, b choice) bool {
		return cmp.Or(cmp.Compare(a.takes, b.takes), slices.Compare(a.of, b.of)) < 0
	}, begin)
	return c
}

// mostWaiting bounds the choices that wait for their turn.
const mostWaiting = 1 << 16

// next returns the next choice, and false when there are no more. It says as
// well whether any were dropped, because too many wait.
func (c *choices) next() (out choice, ok, dropped bool) {
	if c.waiting.Len() == 0 {
		return choice{}, false, false
	}
	out = c.waiting.Pop()
	for i := out.moved; i < len(c.opts); i++ {
		if out.of[i]+1 >= len(c.opts[i]) {
			continue
		}
		if c.waiting.Len() >= mostWaiting {
			return out, true, true
		}
		more := choice{of: slices.Clone(out.of), moved: i}
		more.of[i]++
		more.takes = out.takes - c.s.takes(&c.opts[i][out.of[i]]) + c.s.takes(&c.opts[i][more.of[i]])
		c.waiting.Push(more)
	}
	return out, true, false
}

// picked returns the options of a choice.
func (c *choices) picked(of choice) []option {
	out := make([]option, len(of.of))
	for i, k := range of.of {
		out[i] = c.opts[i][k]
	}
	return out
}
