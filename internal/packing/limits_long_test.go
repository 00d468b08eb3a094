//go:build long

package packing

import "testing"

// Layers are worked out, one for each sheet that is cheaper than those before, as
// long as there is room for one more; then the search gives up. It takes some
// seconds to get there.
func TestLongMostLayers(t *testing.T) {
	for sheets, goes := range map[int]bool{mostLayers >> MaxExact: true, mostLayers>>MaxExact + 1: false, MaxKinds: false} {
		e := twelve()
		k := e.t.kinds[0]
		e.t.kinds = nil
		for i := range sheets {
			k.n, k.cost = 1, int64(2*MaxKinds-i)
			e.t.kinds = append(e.t.kinds, k)
		}
		best, left, ok := e.solve()
		if ok != goes || ok && (len(best) != MaxExact || left != 0) {
			t.Errorf("%d sheets: %d are taken, %b is left, proved %v", sheets, len(best), left, ok)
		}
		for _, s := range best {
			if s.kind < sheets-MaxExact {
				t.Errorf("of %d sheets, each cheaper than the one before, the %dth is taken", sheets, s.kind)
			}
		}
	}
}
