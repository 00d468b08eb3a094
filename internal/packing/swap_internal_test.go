package packing

import (
	"context"
	"math/rand"
	"slices"
	"testing"
)

// held lists the parts on a sheet and in a pool, sorted.
func (s *search) held() []int32 {
	all := slices.Clone(s.pool)
	for i := range s.bins {
		for _, h := range s.bins[i].contents() {
			for range h.n {
				all = append(all, int32(h.part))
			}
		}
	}
	slices.Sort(all)
	return all
}

// within reports whether a sheet, sized anew, holds what is on it.
func (s *search) within(b *bin) bool {
	k := &s.t.kinds[b.kind]
	b.refresh(k)
	return b.root < 0 || b.nodes[b.root].w <= k.w && b.nodes[b.root].h <= k.h
}

// cheapest tries every swap of a leaf of sheet i for a larger piece, by making it and
// sizing the sheets anew: how far the cost falls at most, with the pool or without it.
func (s *search) cheapest(i int32, pool bool) (fall int64) {
	s.begin()
	defer s.revert()
	s.save(i)
	ways := func(p *part) []bool {
		if p.turn {
			return []bool{false, true}
		}
		return []bool{false}
	}
	for x := range s.bins[i].nodes {
		n := s.bins[i].nodes[x]
		if n.dir != leaf {
			continue
		}
		had := &s.t.parts[n.piece]
		fits := func(j int32, x int, q int32) (bin, bool) {
			for _, turned := range ways(&s.t.parts[q]) {
				var b bin
				b.copyFrom(&s.bins[j])
				if b.put(s.t, int32(x), q, turned); s.within(&b) {
					return b, true
				}
			}
			return bin{}, false
		}
		for _, q := range s.pool {
			if _, ok := fits(i, x, q); pool && ok && s.t.parts[q].score > had.score {
				fall = max(fall, s.poolCost([]int32{q})-s.poolCost([]int32{n.piece}))
			}
		}
		for j := range s.bins {
			if pool || int32(j) == i {
				continue
			}
			for y := range s.bins[j].nodes {
				m := s.bins[j].nodes[y]
				if m.dir != leaf || s.t.parts[m.piece].score <= had.score {
					continue
				}
				a, ok := fits(i, x, m.piece)
				b, ok2 := fits(int32(j), y, n.piece)
				if ok && ok2 {
					fall = max(fall, s.lonely(&a)+s.lonely(&b)-s.lonely(&s.bins[i])-s.lonely(&s.bins[j]))
				}
			}
		}
	}
	return fall
}

// The swap that is made is as good as the best of all that there are, found by trying
// each; where there is none, none is made.
func TestSwapsAreTheBest(t *testing.T) {
	r := rand.New(rand.NewSource(5))
	seen := [4]int{}
	for range 60 {
		p := Problem{Stock: []Stock{{W: 100, H: 90, Count: Unlimited, Cost: 1}}}
		for range 25 {
			p.Items = append(p.Items, Item{W: 10 + r.Int63n(60), H: 10 + r.Int63n(60), Copies: 1, Turn: r.Intn(2) == 0})
		}
		v := newSolver(context.Background(), p, noLimit/4)
		v.first()
		v.settleOn()
		s := v.resume()
		for n := r.Intn(4); n > 0; n-- {
			s.dissolve()
		}
		if r.Intn(2) == 0 {
			s.begin()
			s.recreate(64, noLimit)
			s.commit()
			s.remind()
		}
		s.remember()
		all := s.held()
		for i := range s.bins {
			byPool, bySheets := s.cheapest(int32(i), true), s.cheapest(int32(i), false)
			pool, state := slices.Clone(s.pool), s.memo.state
			s.savedPool = s.savedPool[:0]
			made := s.swap(int32(i))
			fall := -s.change(s.pool)
			switch {
			case !made:
				seen[0]++
				if byPool > 0 || bySheets > 4 { // squares are rounded four times
					t.Fatalf("no swap, though cost may fall by %d, %d with the pool", bySheets, byPool)
				}
				continue
			case byPool > 0:
				seen[1]++
				if got := s.poolCost(s.savedPool) - s.poolCost(s.pool); got != byPool {
					t.Fatalf("the pool is cheaper by %d, might be by %d", got, byPool)
				}
			default:
				seen[2]++
				if fall < bySheets-4 || fall > bySheets {
					t.Fatalf("cost falls by %d, might by %d", fall, bySheets)
				}
			}
			for i := range s.bins {
				b := &s.bins[i]
				nodes := slices.Clone(b.nodes)
				used := int64(0)
				for _, h := range b.contents() {
					used += s.t.parts[h.part].score * int64(h.n)
				}
				if !s.within(b) || used != b.used {
					t.Fatalf("sheet %d does not hold what is on it, or counts %d for %d", i, b.used, used)
				}
				if changed := s.mark[i]; !slices.Equal(nodes, b.nodes) || changed != (b.state > state) {
					t.Fatalf("sheet %d is not sized anew, or it is not said that it changed", i)
				}
			}
			if !slices.Equal(all, s.held()) {
				t.Fatal("other pieces than before")
			}
			if s.r.chance(1, 2) {
				seen[3]++
				if s.revert(); !slices.Equal(pool, s.pool) || !slices.Equal(all, s.held()) {
					t.Fatal("a swap that is undone leaves something behind")
				}
			} else {
				s.commit()
			}
		}
	}
	if t.Logf("none, with the pool, with sheets, undone: %v", seen); slices.Min(seen[:]) < 20 {
		t.Errorf("the sample is too tame: %v", seen)
	}
}
