package packing

import "testing"

// On a sheet of 10 by 10 a piece of 4 by 3 lies beside one of 4 by 9: beside both there
// is room for 2 more, and above the lower one for 7. Turned about, it is the other way
// round.
func TestRoomOnASheet(t *testing.T) {
	k := kind{w: 10, h: 10}
	for d, want := range map[dir][2]int64{row: {2, 7}, col: {7, 2}} {
		var b bin
		b.clear(0)
		first, second := [2]int64{4, 3}, [2]int64{4, 9}
		if d == col {
			first, second = [2]int64{3, 4}, [2]int64{9, 4}
		}
		x := b.insert(-1, d, 0, first[0], first[1], false, 1)
		b.insert(x, d, 1, second[0], second[1], false, 1)
		b.refresh(&k)
		if got := [2]int64{b.gapX, b.gapY}; got != want {
			t.Errorf("two pieces in direction %d leave %v; want %v", d, got, want)
		}
	}
}
