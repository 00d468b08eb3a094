package cutorder

import (
	"testing"

	"boardwrap.example/internal/packing"
)

// Three strips of 7 and two of 5 with the same leftover at their ends, and one of 9
// without, cut with a kerf of 1: the five take a cut of 3·7 + 2·5 + 4 = 35, the first
// four of them one of 29, the first three one of 23, two one of 15.
func TestTogether(t *testing.T) {
	for _, c := range []struct {
		long          int64
		known         []int64
		seven, five   int32 // together
		apart7, apart int32
	}{
		{0, nil, 3, 2, 0, 0},
		{35, nil, 3, 2, 0, 0},
		{34, nil, 3, 1, 0, 1},
		{29, nil, 3, 1, 0, 1},
		{28, nil, 3, 0, 0, 2},
		{23, nil, 3, 0, 0, 2},
		{22, nil, 2, 0, 1, 2}, // not two of 7 and one of 5: those that come first
		{15, nil, 2, 0, 1, 2},
		{34, []int64{29, 23, 15}, 3, 1, 0, 1},
		{34, []int64{23, 15}, 3, 0, 0, 2},
		{34, []int64{15, 7}, 2, 0, 1, 2},
		{34, []int64{7}, 3, 1, 0, 1}, // one alone gains nothing
		{15, []int64{35, 29, 23}, 2, 0, 1, 2},
	} {
		s := newShapes(&Options{Kerf: 1, LongestCut: c.long})
		s.known = map[int64]bool{}
		for _, l := range c.known {
			s.known[l] = true
		}
		leaf := func(w, h int64) int32 { return s.intern(shape{w: w, h: h, leaf: true, use: packing.Piece}) }
		rest := end{waste, 3}
		strip := func(w int64) int32 {
			of := shape{w: w, h: 20, axis: packing.CutY}
			return s.series(&of, []kid{{leaf(w, 16), 1, 16}}, end{}, rest)
		}
		row := shape{w: 60, h: 20, axis: packing.CutX, kids: []kid{{leaf(9, 20), 1, 9}, {strip(7), 3, 7}, {strip(5), 2, 5}}}
		in, others, number := s.together(&row, 0, rest)
		got := map[bool]map[int64]int32{true: {}, false: {}}
		for _, k := range in {
			got[true][k.len] += k.n
		}
		for _, k := range others {
			got[false][k.len] += k.n
		}
		if got[true][7] != c.seven || got[true][5] != c.five || number != c.seven+c.five || got[true][9] != 0 ||
			got[false][7] != c.apart7 || got[false][5] != c.apart || got[false][9] != 1 {
			t.Errorf("a longest cut of %d, settings %v: together %v, %d of them, apart %v", c.long, c.known, got[true], number, got[false])
		}
		if in, _, number := s.together(&row, 2, rest); number != 2 || len(in) != 1 || in[0].len != 5 {
			t.Errorf("a longest cut of %d: from the third kid on %v", c.long, in)
		}
	}
}
