package cutorder

import (
	"context"
	"slices"
	"testing"

	"boardwrap.example/internal/packing"
)

// strips is a series of strips of different lengths, each so often.
func stripsOf(t *shapes, often ...int32) int32 {
	s := shape{h: 50, axis: packing.CutX, rest: end{waste, 7}}
	for i, n := range often {
		long := int64(1000 + i)
		s.kids = append(s.kids, kid{t.intern(shape{w: long, h: 50, leaf: true, item: i, use: packing.Piece}), n, long})
	}
	s.large = len(s.kids) > mostKids
	t.stretch(&s)
	return t.intern(s)
}

// Of a series of mostKids different parts each may come off first; of one with more
// only its first. With at most mostGroups groups of parts each of the groups may, and these are
// all ways there are; with more they may one kind after another, and it is said
// that there are others.
func TestMostKidsAndGroups(t *testing.T) {
	once := func(n int) []int32 { return slices.Repeat([]int32{1}, n) }
	for name, c := range map[string]struct {
		often []int32
		moves int
		whole bool
	}{
		"8 parts, 256 groups":                 {once(8), 255, true},
		"63, 1 and 1 parts, 256 groups":       {[]int32{63, 1, 1}, 255, true},
		"42, 2 and 1 parts, 258 groups":       {[]int32{42, 2, 1}, 3, false},
		"9 parts, 512 groups":                 {once(9), 9, false},
		"so many groups that they overflow":   {slices.Repeat([]int32{1 << 30}, mostKids), mostKids, false},
		"as many parts as may be":             {once(mostKids), mostKids, false},
		"a part more":                         {once(mostKids + 1), 1, false},
		"ten times as many parts":             {once(10 * mostKids), 1, false},
		"one part, as often as one can count": {[]int32{1<<31 - 1}, 1, true},
	} {
		s := newShapes(&Options{})
		moves, whole := s.moves(stripsOf(s, c.often...))
		if len(moves) != c.moves || whole != c.whole {
			t.Errorf("%s: %d moves, all there are: %v", name, len(moves), whole)
		}
	}
}

// A part is followed into so many sets of parts of which none is within another;
// that one more is left out is noticed, and less of it in place of more is no more.
func TestMostOutcomes(t *testing.T) {
	for n, all := range map[int]bool{mostOutcomes: true, mostOutcomes + 1: false, 100 * mostOutcomes: false} {
		b := newBook(newShapes(&Options{}))
		o := &outcomes{}
		for i := range n {
			o.add(b, []int32{int32(i), 1 << 20})
		}
		if len(o.sets) != min(n, mostOutcomes) || b.complete != all {
			t.Errorf("%d outcomes: %d are followed, complete %v", n, len(o.sets), b.complete)
		}
		if o.add(b, []int32{0, 1, 1 << 20}); b.complete != all || len(o.sets) != min(n, mostOutcomes) {
			t.Error("one that leaves more is counted")
		}
	}
}

// The least number of settings is searched for up to so many shapes and so many
// lengths; beyond it the settings are chosen one by one, and what they cut is the
// same.
func TestMostShapesAndLengths(t *testing.T) {
	for _, c := range []struct {
		shapes, lengths int
		searched        bool
	}{
		{mostShapes, 0, true}, {mostShapes + 1, 0, false}, {10 * mostShapes, 0, false},
		{0, mostLengths, true}, {0, mostLengths + 1, false}, {0, 10 * mostLengths, false},
	} {
		s := newShapes(&Options{})
		root := stripsOf(s, 1, 1, 1)
		out := &Order{}
		p := &planner{shapes: s, until: context.Background(), out: out, roots: []int32{root}, base: len(s.all)}
		probe := newGreedy(s)
		if !probe.run(p.until, p.open([]int{0})) {
			t.Fatal("it does not come to an end")
		}
		// Others that are on no sheet: leaves, and as many strips of other lengths.
		for i := 0; len(s.all) < c.shapes; i++ {
			s.intern(shape{w: 1, h: 1, leaf: true, item: 1000 + i, use: packing.Piece})
		}
		if c.lengths > 0 {
			more := shape{h: 50, axis: packing.CutX, large: true}
			for i := 3; i < c.lengths; i++ {
				more.kids = append(more.kids, kid{0, 1, int64(1000 + i)})
			}
			s.intern(more)
		}
		passes := p.passes(1_000_000)
		if len(passes) != 1 || len(passes[0].settings) != 3 || (out.Work > 0) != c.searched {
			t.Errorf("%d shapes, %d lengths: %d settings, searched with %d steps", len(s.all), c.lengths, len(passes[0].settings), out.Work)
		}
	}
}
