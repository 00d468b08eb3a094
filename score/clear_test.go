package score

import (
	"math/rand"
	"testing"

	"boardwrap.example/units"
)

// The quick look whether anything is in the way says what comparing each with
// each does.
func TestClearByComparingAll(t *testing.T) {
	r := rand.New(rand.NewSource(3))
	free, blocked := 0, 0
	for range 4000 {
		panels := make([]units.Length, 2+r.Intn(9))
		for i := range panels {
			panels[i] = units.Length(1+r.Intn(4)) * units.Millimetre
		}
		s, err := NewStrip(panels, Repeat(len(panels)-1, Valley)...)
		if err != nil {
			t.Fatal(err)
		}
		tab := newTable(s)
		// Any layers in any places, whether folding leads there or not.
		for i, p := range r.Perm(len(panels)) {
			tab.order[i], tab.rank[p] = p, i
			tab.from[p] = units.Length(r.Intn(8)-4) * units.Millimetre
		}
		m := motion{x: units.Length(r.Intn(8)-4) * units.Millimetre, up: r.Intn(2) == 0, right: r.Intn(2) == 0, moving: make([]bool, len(panels))}
		for i := range m.moving {
			m.moving[i] = r.Intn(2) == 0
		}
		want := tab.firstObstacle(m) < 0
		if got := tab.clear(m); got != want {
			t.Fatalf("clear %t, compared %t: %v, order %v, from %v, %+v", got, want, s, tab.order, tab.from, m)
		}
		if want {
			free++
		} else {
			blocked++
		}
	}
	if free < 100 || blocked < 100 {
		t.Errorf("%d free, %d blocked", free, blocked)
	}
}
