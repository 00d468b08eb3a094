package propose

import (
	"context"
	"math"
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/rule"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

func endless() *meter { return &meter{until: context.Background(), left: math.MaxInt64} }

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
	if mostWaiting != 65_536 {
		t.Fatal(mostWaiting)
	}
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
			last, any, most = next.takes, any || dropped, max(most, list.waiting.Len())
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

// searched is a search for a folio that holds three prints, for an aim, with the
// sheets at hand on each of which one of their mats goes, and its first cover.
func searched(t *testing.T, aim Aim) (*quest, []option, candidate) {
	t.Helper()
	mm := units.Millimetre
	r := Request{Limits: Limits{Materials: []layout.Material{{Name: plainCard, Sheets: []layout.SheetKind{{Size: units.Size{W: 125 * mm, H: 185 * mm}, Count: layout.Unlimited}}}}}}
	for range 3 {
		r.Things = append(r.Things, Thing{Content: pocket.Content{Name: "print", Size: units.Size{W: 90 * mm, H: 130 * mm}}, Sticks: true, Upright: true})
	}
	return searchedFor(t, aim, r)
}

// searchedFor is a search for what is asked for, all of it on mats, and its first cover.
func searchedFor(t *testing.T, aim Aim, r Request) (*quest, []option, candidate) {
	t.Helper()
	for w := Corners; w <= FoldedFlap; w++ {
		if w != Mat {
			r.Without = append(r.Without, w)
		}
	}
	tr := begun(context.Background(), r, Form{}, 0, "", Budget{Steps: 1 << 50})
	if tr.err != nil {
		t.Fatal(tr.err)
	}
	for i := range r.Things {
		tr.options(i)
	}
	tr.meter = endless()
	q := tr.quest(aim)
	if why := q.usableAll(units.Longest); len(why) > 0 {
		t.Fatal(why)
	}
	list := newChoices(q.searcher, q.opts)
	next, _, _ := list.next()
	opts := list.picked(next)
	covers, _ := q.covers(opts, q.useful)
	if len(covers) == 0 {
		t.Fatal("no cover")
	}
	return q, opts, covers[0]
}

// Of the covers of a choice so many are built that seem too thick, that are as large
// as the best, or that are laid out on sheets: one less is less work, one more and
// ten times as many are no more work than the most.
func TestMostCovers(t *testing.T) {
	for name, c := range map[string]struct {
		most, documented int
		work             func(t *testing.T, n int) int64
	}{
		// None is as thin as is asked for, which shows when it is built.
		"mostUnsure": {mostUnsure, 64, func(t *testing.T, n int) int64 {
			q, opts, one := searched(t, Smallest)
			q.bare, q.most, one.least, one.most = nil, units.Nanometre, 0, units.Longest
			q.tryCovers(opts, slices.Repeat([]candidate{one}, n))
			if q.best != nil || q.unsure != n {
				t.Errorf("%d covers seem too thick, and one is taken: %v", q.unsure, q.best != nil)
			}
			return q.done - int64(n)*StepsOfFitting // but for the case of each, with nothing in it
		}},
		// The first is the best, and each after it promises to be thinner.
		"mostEqual": {mostEqual, 8, func(t *testing.T, n int) int64 {
			q, opts, one := searched(t, Smallest)
			one.least = 0
			q.tryCovers(opts, slices.Repeat([]candidate{one}, n+1))
			if q.best == nil || q.best.cover != one.cover {
				t.Error("none is taken")
			}
			return q.done
		}},
		// Three mats take a sheet each, though their area would go on two.
		"mostLaid": {mostLaid, 6, func(t *testing.T, n int) int64 {
			q, opts, one := searched(t, FewestSheets)
			var covers []candidate
			for range n {
				covers = append(covers, one)
				one.cover.W += q.ruler.Step()
			}
			if q.layCovers(opts, covers) || q.best == nil || q.best.sheets != 3 || q.best.cover != covers[0].cover {
				t.Errorf("of %d covers the first is not taken as the best of 3 sheets", n)
			}
			return q.done
		}},
	} {
		if c.most != c.documented {
			t.Errorf("%s: %d, DEVELOPERS.md says %d", name, c.most, c.documented)
		}
		most := c.work(t, c.most)
		if less := c.work(t, c.most-1); less >= most {
			t.Errorf("%s: %d steps at the bound, %d with one less", name, most, less)
		}
		for _, n := range []int{c.most + 1, 10 * c.most} {
			if more := c.work(t, n); more > most {
				t.Errorf("%s: %d steps at the bound, %d with %d", name, most, more, n)
			}
		}
	}
}

// ruled is a search in a case whose boards are on one ruler and whose liner is on
// another.
func ruled(t *testing.T, form boards.Form, board, liner units.Length) *searcher {
	t.Helper()
	r, err := units.NewRuler(board, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	l, err := units.NewRuler(liner, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	return begin(t, folio.Spec{Form: form, Rulers: rule.Rulers{Main: r, Liner: l}})
}

// Spines are tried for what they leave of the boards where up to 16 of them (mostPhases) leave all
// that any leaves, on rulers down to 0.05 mm; else what is left at the least is counted
// with, and nothing is said to be complete.
func TestMostPhases(t *testing.T) {
	const mm, step, fine = units.Millimetre, units.Millimetre / 10, 50 * units.Micrometre
	for _, c := range []struct {
		form         boards.Form
		board, liner units.Length
		rough        bool
	}{
		{0, step, 2 * step, false}, {0, step, 16 * step, false}, {0, step, 17 * step, true}, {0, step, 320 * step, true},
		{0, fine, 3 * fine, false}, {0, fine - 1, 3 * (fine - 1), true}, {0, 1000, 3000, true}, {boards.ForeEdgeFlap, mm, 3 * mm, true},
	} {
		s := ruled(t, c.form, c.board, c.liner)
		if s.rough != c.rough || s.loose() == c.rough {
			t.Errorf("boards in steps of %v, the liner in %v: counted with the least %v, with what there is %v", c.board, c.liner, s.rough, s.loose())
		}
		s.options(0)
		s.meter = endless()
		q := s.quest(Smallest)
		q.usableAll(units.Longest)
		if q.run(); q.best == nil || q.complete == c.rough {
			t.Errorf("boards in steps of %v, the liner in %v: %v, complete %v", c.board, c.liner, q.best, q.complete)
		}
	}
}
