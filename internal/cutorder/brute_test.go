package cutorder_test

import (
	"fmt"
	"math/rand"
	"slices"
	"sort"
	"strings"
	"testing"

	"context"

	"boardwrap.example/internal/cutorder"
	"boardwrap.example/internal/packing"
	"boardwrap.example/internal/proptest"
)

// A heap of paper, told by a text: for each part that must still be cut, the
// strips it is cut into. Every cut is tried, one part at a time.
type bench struct {
	kerf  int64
	parts map[string][]stripe // by text
}

type stripe struct {
	long  int64
	waste bool
	then  string // the part that it is, empty for one that is finished
}

// part names a part that is cut into stripes; their order does not count.
func (b *bench) part(list []stripe) string {
	if len(list) == 1 {
		return list[0].then
	}
	texts := make([]string, len(list))
	for i, s := range list {
		texts[i] = fmt.Sprint(s.long, s.waste, "[", s.then, "]")
	}
	sort.Strings(texts)
	name := strings.Join(texts, " ")
	b.parts[name] = list
	return name
}

// read names the part at node i of a sheet.
func (b *bench) read(s *packing.Sheet, i int) string {
	n := s.Nodes[i]
	if n.Use != packing.CutX && n.Use != packing.CutY {
		return ""
	}
	var list []stripe
	lost := int64(-1)
	var walk func(i int)
	walk = func(i int) {
		m := s.Nodes[i]
		long := m.W
		if n.Use == packing.CutY {
			long = m.H
		}
		switch {
		case m.Use == n.Use:
			if m.A >= 0 {
				walk(m.A)
			}
			if m.B >= 0 {
				walk(m.B)
			} else {
				lost = 0 // the kerf runs off the edge
			}
		case m.Use == packing.Waste || m.Use == packing.Offcut:
			lost = max(lost, 0) + long
		default:
			list = append(list, stripe{long: long, then: b.read(s, i)})
		}
	}
	walk(i)
	if lost >= 0 {
		list = append(list, stripe{long: lost, waste: true})
	}
	return b.part(list)
}

// fewest tries everything and returns the fewest settings, or −1 beyond so many
// heaps.
func (b *bench) fewest(start []string, most int) int {
	type heap struct {
		key   string
		fence int64
	}
	start = slices.DeleteFunc(slices.Clone(start), func(s string) bool { return s == "" })
	sort.Strings(start)
	level := map[heap][]string{{strings.Join(start, "\n"), -1}: start}
	known := map[heap]bool{}
	for settings := 0; ; settings++ {
		// All heaps that so many settings lead to.
		var queue []heap
		lists := map[heap][]string{}
		for h, l := range level {
			if !known[h] {
				known[h] = true
				queue = append(queue, h)
				lists[h] = l
			}
		}
		next := map[heap][]string{}
		for len(queue) > 0 {
			h := queue[0]
			queue = queue[1:]
			list := lists[h]
			if len(list) == 0 {
				return settings
			}
			if len(known) > most {
				return -1
			}
			b.moves(list, func(after []string, fence int64) {
				g := heap{strings.Join(after, "\n"), fence}
				if known[g] {
					return
				}
				if fence == h.fence {
					known[g] = true
					queue = append(queue, g)
					lists[g] = after
				} else {
					next[g] = after
				}
			})
		}
		level = next
	}
}

// moves makes every cut that can be made.
func (b *bench) moves(list []string, found func(after []string, fence int64)) {
	for i, name := range list {
		if i > 0 && list[i-1] == name {
			continue
		}
		strips := b.parts[name]
		for mask := 1; mask < 1<<len(strips)-1; mask++ {
			var off, stay []stripe
			long, waste := -b.kerf, false
			for k, s := range strips {
				if mask>>k&1 == 1 {
					off = append(off, s)
					long += s.long + b.kerf
					waste = waste || s.waste
				} else {
					stay = append(stay, s)
				}
			}
			if waste { // what is cut off is measured, not what is left
				continue
			}
			after := append(slices.Clone(list[:i]), list[i+1:]...)
			for _, p := range [2]string{b.part(off), b.part(stay)} {
				if p != "" {
					after = append(after, p)
				}
			}
			sort.Strings(after)
			found(after, long)
		}
	}
}

// grow cuts a random sheet into strips of a few lengths, these in the other
// direction, and so on, until there are so many pieces; what is left over at the
// end of a series is waste.
func grow(r *rand.Rand, kerf int64, pieces int) packing.Sheet {
	lengths := []int64{2, 3, 5, 8}
	s := packing.Sheet{Times: 1 + r.Intn(2)}
	add := func(x, y, w, h int64) int {
		s.Nodes = append(s.Nodes, packing.Node{X: x, Y: y, W: w, H: h, Item: -1, A: -1, B: -1, Use: packing.Waste})
		return len(s.Nodes) - 1
	}
	add(0, 0, 6+r.Int63n(12), 6+r.Int63n(12))
	var cut func(i int, axis packing.Use, depth int)
	cut = func(i int, axis packing.Use, depth int) {
		for first := true; ; first = false {
			n := s.Nodes[i]
			have := n.W
			if axis == packing.CutY {
				have = n.H
			}
			size := lengths[r.Intn(len(lengths))]
			if pieces <= 0 || size+kerf >= have || depth == 0 || !first && r.Intn(4) == 0 {
				// The rest is a piece or waste.
				if pieces > 0 && (first || r.Intn(2) == 0) {
					s.Nodes[i].Use, s.Nodes[i].Item = packing.Piece, int(100*n.W+n.H)
					pieces--
				}
				return
			}
			var a, b int
			if axis == packing.CutX {
				a, b = add(n.X, n.Y, size, n.H), add(n.X+size+kerf, n.Y, n.W-size-kerf, n.H)
			} else {
				a, b = add(n.X, n.Y, n.W, size), add(n.X, n.Y+size+kerf, n.W, n.H-size-kerf)
			}
			m := &s.Nodes[i]
			m.Use, m.At, m.A, m.B = axis, size, a, b
			cut(a, packing.CutX+packing.CutY-axis, depth-1)
			i = b
		}
	}
	cut(0, packing.CutX+packing.Use(r.Intn(2)), 3)
	return s
}

// The fewest settings of small jobs are what trying every cut finds.
func TestBruteForce(t *testing.T) { bruteForce(t, 80) }

func bruteForce(t *testing.T, cases int) {
	t.Helper()
	r := rand.New(rand.NewSource(proptest.Seed()))
	proved, tried := 0, 0
	for i := range proptest.Cases(cases) {
		var sheets []packing.Sheet
		kerf := int64(0)
		if r.Intn(5) == 0 {
			kerf = 1
		}
		for k := range 1 + r.Intn(3) {
			sheets = append(sheets, grow(r, kerf, 2+r.Intn(5)))
			sheets[k].Stock = k
		}
		o := cutorder.Plan(context.Background(), sheets, cutorder.Options{Kerf: kerf, KeepShort: 1000, KeepLong: 1000, Trim: make([]int64, 3), Work: 10_000_000})
		// What is proved is proved of the strips that are cut in the end; the
		// sheets as they were given are not better.
		fewest := func(sheets []packing.Sheet) (int, []string) {
			b := &bench{kerf, map[string][]stripe{}}
			var start []string
			for k := range sheets {
				start = append(start, b.read(&sheets[k], 0))
			}
			return b.fewest(start, 4_000), start
		}
		want, start := fewest(o.Sheets)
		if before, start := fewest(sheets); before >= 0 && before < o.Settings {
			t.Errorf("case %d: %d settings; as given the sheets take %d: %q", i, o.Settings, before, start)
		}
		if want < 0 {
			continue
		}
		tried++
		if o.Settings == o.LeastSettings {
			proved++
		}
		if o.Settings < want || o.LeastSettings > want || o.Settings == o.LeastSettings && o.Settings != want {
			t.Errorf("case %d: %d settings, at least %d; trying everything finds %d", i, o.Settings, o.LeastSettings, want)
			for _, s := range sheets {
				t.Logf("%+v", s)
			}
			t.Log(strings.Join(start, "\n"))
			break
		}
	}
	if tried == 0 || proved*10 < tried*9 {
		t.Errorf("of %d small jobs %d are proved", tried, proved)
	}
}
