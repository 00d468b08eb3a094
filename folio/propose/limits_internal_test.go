package propose

import (
	"context"
	"math"
	"slices"
	"testing"

	"boardwrap.example/units"
)

func endless() *meter { return &meter{ctx: context.Background(), left: math.MaxInt64} }

// Twelve different boxes have 3¹² = 531,441 pairs of a set and a part of it, thirteen
// have 3¹³ = 1,594,323: these are laid out in plain rows, as are 32.
func TestMostParts(t *testing.T) {
	if mostParts < 531_441 || mostParts >= 1_594_323 {
		t.Fatal(mostParts)
	}
	for n, ok := range map[int]bool{12: true, 13: false, 32: false} {
		p, is := newPacker(endless(), slices.Repeat([]box{{w: units.Millimetre, h: units.Millimetre, count: 1}}, n), 0, 0, units.Size{W: units.Metre, H: units.Metre})
		if is != ok || ok && p.sets != 1<<n {
			t.Errorf("%d boxes: %v", n, is)
		}
	}
	// Of 200 copies of one kind there are 201 · 202 / 2; of 32 kinds of 200 too many to
	// count.
	for n, ok := range map[int]bool{1: true, 2: false, 32: false} {
		if _, is := newPacker(endless(), slices.Repeat([]box{{w: units.Millimetre, h: units.Millimetre, count: 200}}, n), 0, 0, units.Size{}); is != ok {
			t.Errorf("%d kinds of 200 copies: %v", n, is)
		}
	}
}

// Of so many choices that all can wait each comes once, the least first, and none
// is dropped; of more no more wait than may, and it is said that some are dropped.
func TestMostWaiting(t *testing.T) {
	s := &searcher{meter: endless()}
	options := func(things, ways int) [][]option {
		all := make([][]option, things)
		for i := range all {
			for w := range ways {
				side := units.Millimetre.Half(units.Up) * units.Length(2+w+i)
				all[i] = append(all[i], option{number: 1, box: box{w: side, h: side}})
			}
		}
		return all
	}
	for _, c := range []struct {
		things, ways int
		dropped      bool
	}{{2, 200, false}, {16, 2, false}, {20, 2, true}, {32, 2, true}} {
		list := newChoices(s, options(c.things, c.ways))
		n, most, last, any := 0, 0, int64(0), false
		seen := map[string]bool{}
		for n < 1<<17 && !(any && n%1024 == 0) {
			next, ok, dropped := list.next()
			if !ok {
				break
			}
			n++
			if next.takes < last {
				t.Fatalf("%d things: %d after %d", c.things, next.takes, last)
			}
			last, any, most = next.takes, any || dropped, max(most, list.Len())
			if c.things < 20 {
				key := string(bytesOf(next.of))
				if seen[key] {
					t.Fatalf("%v comes twice", next.of)
				}
				seen[key] = true
			}
		}
		whole := 1
		for range min(c.things, 18) {
			whole *= c.ways
		}
		if any != c.dropped || most > mostWaiting || !c.dropped && n != whole {
			t.Errorf("%d things: %d choices of %d, up to %d wait, dropped %v", c.things, n, whole, most, any)
		}
	}
}

func bytesOf(list []int) []byte {
	out := make([]byte, len(list))
	for i, n := range list {
		out[i] = byte(n)
	}
	return out
}
