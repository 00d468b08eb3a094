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
	axes  map[string]packing.Use
}

func newBench(kerf int64) *bench {
	return &bench{kerf, map[string][]stripe{}, map[string]packing.Use{}}
}

type stripe struct {
	long  int64
	waste bool
	then  string // the part that it is, empty for one that is finished
}

// part names a part that is cut into stripes along an axis; their order does not
// count.
func (b *bench) part(axis packing.Use, list []stripe) string {
	if len(list) == 1 {
		return list[0].then
	}
	texts := make([]string, len(list))
	for i, s := range list {
		texts[i] = fmt.Sprint(s.long, s.waste, "[", s.then, "]")
	}
	sort.Strings(texts)
	name := fmt.Sprint(axis, strings.Join(texts, " "))
	b.parts[name], b.axes[name] = list, axis
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
	return b.part(n.Use, list)
}

// What a cut is told by: where it is the same as that of the cut before, it costs
// nothing.
type told func(before int64, axis packing.Use, fence int64) int64

func byFence(_ int64, _ packing.Use, fence int64) int64 { return fence }

func byAxis(_ int64, axis packing.Use, _ int64) int64 { return int64(axis) }

func byCut(before int64, _ packing.Use, _ int64) int64 { return before + 1 }

// fewest tries everything and returns the least cost, or −1 beyond so many heaps.
func (b *bench) fewest(start []string, most int, by told) int {
	type heap struct {
		key  string
		last int64
	}
	start = slices.DeleteFunc(slices.Clone(start), func(s string) bool { return s == "" })
	sort.Strings(start)
	first := heap{strings.Join(start, "\n"), -1}
	level, lists := []heap{first}, map[heap][]string{first: start}
	known := map[heap]bool{}
	for cost := 0; ; cost++ {
		// All heaps that so much leads to, in one order: what is found before there
		// are too many of them depends on it.
		var queue, next []heap
		for _, h := range level {
			if !known[h] {
				known[h] = true
				queue = append(queue, h)
			}
		}
		for len(queue) > 0 {
			h := queue[0]
			queue = queue[1:]
			list := lists[h]
			if len(list) == 0 {
				return cost
			}
			if len(known) > most {
				return -1
			}
			b.moves(list, func(after []string, axis packing.Use, fence int64) {
				g := heap{strings.Join(after, "\n"), by(h.last, axis, fence)}
				if known[g] {
					return
				}
				if g.last == h.last {
					known[g] = true
					queue = append(queue, g)
					lists[g] = after
				} else {
					next = append(next, g)
					lists[g] = after
				}
			})
		}
		level = next
	}
}

// moves makes every cut that can be made.
func (b *bench) moves(list []string, found func(after []string, axis packing.Use, fence int64)) {
	for i, name := range list {
		if i > 0 && list[i-1] == name {
			continue
		}
		strips, axis := b.parts[name], b.axes[name]
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
			for _, p := range [2]string{b.part(axis, off), b.part(axis, stay)} {
				if p != "" {
					after = append(after, p)
				}
			}
			sort.Strings(after)
			found(after, axis, long)
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

// The fewest settings of small jobs are what trying every cut finds, and no way to
// cut them up takes fewer turns or cuts than are said to be the least.
func TestBruteForce(t *testing.T) { bruteForce(t, 80) }

func bruteForce(t *testing.T, cases int) {
	t.Helper()
	r := rand.New(rand.NewSource(proptest.Seed()))
	proved, tried, counted, least, turned := 0, 0, 0, 0, 0
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
			b := newBench(kerf)
			var start []string
			for k := range sheets {
				start = append(start, b.read(&sheets[k], 0))
			}
			return b.fewest(start, 4_000, byFence), start
		}
		want, start := fewest(o.Sheets)
		if before, start := fewest(sheets); before >= 0 && before < o.Settings {
			t.Errorf("case %d: %d settings; as given the sheets take %d: %q", i, o.Settings, before, start)
		}
		if cuts, ok := fewestCuts(o.Sheets, kerf); ok {
			counted++
			if o.LeastCuts > cuts || o.Cuts < cuts {
				t.Errorf("case %d: %d cuts, at least %d; trying everything finds %d: %q", i, o.Cuts, o.LeastCuts, cuts, start)
			}
			if o.LeastCuts == cuts {
				least++
			}
		}
		if o.Passes == 1 {
			b := newBench(kerf)
			var start []string
			for k := range o.Sheets {
				start = append(start, b.read(&o.Sheets[k], 0))
			}
			if turns := b.fewest(start, 4_000, byAxis) - 1; turns >= 0 && (o.LeastTurns > turns || o.Turns < turns) {
				t.Errorf("case %d: %d turns, at least %d; trying everything finds %d: %q", i, o.Turns, o.LeastTurns, turns, start)
			} else if turns >= 0 && o.LeastTurns == turns {
				turned++
			}
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
	if t.Logf("of %d jobs %d take as few cuts as said and %d as few turns", counted, least, turned); counted == 0 || least*10 < counted*9 || turned*2 < counted {
		t.Errorf("of %d jobs the least number of cuts is told for %d; of turns %d times", counted, least, turned)
	}
}

// fewestCuts is how many cuts all sheets take, each cut up by itself as often as it
// is there; false where there is too much to try.
func fewestCuts(sheets []packing.Sheet, kerf int64) (int64, bool) {
	cuts := int64(0)
	for k := range sheets {
		b := newBench(kerf)
		n := b.fewest([]string{b.read(&sheets[k], 0)}, 4_000, byCut)
		if n < 0 {
			return 0, false
		}
		cuts += int64(n) * int64(sheets[k].Times)
	}
	return cuts, true
}
