package slab_test

import (
	"slices"
	"testing"

	"boardwrap.example/internal/slab"
)

// Whatever is kept, appended to or changed later, every list stays what it was when
// it was kept.
func TestKeptListsStay(t *testing.T) {
	s := slab.Of[int](5)
	var kept, want [][]int
	for n := range 200 {
		list := make([]int, n%70)
		for i := range list {
			list[i] = 1000*n + i
		}
		kept, want = append(kept, s.Keep(list...)), append(want, slices.Clone(list))
		for i := range list {
			list[i] = -1
		}
		_ = append(kept[n], -2)
	}
	for n := range want {
		if !slices.Equal(kept[n], want[n]) {
			t.Errorf("list %d: %v, want %v", n, kept[n], want[n])
		}
	}
	if s.Keep() != nil {
		t.Error("of an empty list something is kept")
	}
}

// Room that is made at the beginning is what lists are kept in.
func TestRoomFromTheBeginning(t *testing.T) {
	s := slab.Of[int](6)
	if n := testing.AllocsPerRun(1, func() { s.Keep(1); s.Keep(2) }); n > 0 { // it runs once more than it says
		t.Errorf("%v allocations", n)
	}
}

// A hundred lists of three take far fewer than a hundred allocations.
func TestKeptListsShareRoom(t *testing.T) {
	if n := testing.AllocsPerRun(10, func() {
		var s slab.Slab[int]
		for i := range 100 {
			s.Keep(i, i, i)
		}
	}); n > 5 {
		t.Errorf("%v allocations", n)
	}
}
