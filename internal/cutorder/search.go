package cutorder

import (
	"boardwrap.example/internal/stop"
	"cmp"
	"encoding/binary"
	"slices"

	"boardwrap.example/internal/inorder"
)

// A state is what lies on the table when the fence is about to be set.
type state struct {
	parts    []int32 // shapes of the parts that are still to be cut, sorted
	from     int32   // index of the state before, −1 for none
	setting  int64   // the fence that led here
	settings int     // so far
	guess    int     // of what follows
	hidden   int     // lengths of strips in parts that are still to come
}

// A searcher looks for the fewest settings for parts of some shapes.
type searcher struct {
	*book
	needs  *needs
	until  stop.Stopper
	limit  int64 // of work
	states []state
	key    []byte
}

func (s *searcher) spent() bool { return s.work > s.limit || s.until.Err() != nil }

// name is a key of a set of parts.
func (s *searcher) name(parts []int32) []byte {
	s.key = s.key[:0]
	for _, id := range parts {
		s.key = binary.AppendUvarint(s.key, uint64(id))
	}
	return s.key
}

// fences lists the settings at which some part can be cut. Known ones only
// means those at which a single kid comes off somewhere.
func (s *searcher) fences(parts []int32, known bool) []int64 {
	var list []int64
	for _, id := range parts {
		for _, m := range s.ways(id) {
			if known {
				if _, ok := s.needs.lengths[m.setting]; !ok {
					continue
				}
			}
			list = append(list, m.setting)
		}
	}
	return inorder.Set(list)
}

// next returns the sets of parts that may be left when the fence has stood at a
// setting, at most so many.
func (s *searcher) next(parts []int32, setting int64, most int) [][]int32 {
	sets := [][]int32{nil}
	for _, id := range parts {
		o := s.outcome(id, setting)
		list := o.sets
		if len(list)*len(sets) > most {
			if len(sets) > most/2 || most < 2 {
				// The one that leaves the least.
				s.complete = false
				list = list[:1]
			} else {
				s.complete = false
				list = list[:max(1, most/len(sets))]
			}
		}
		out := make([][]int32, 0, len(sets)*len(list))
		for _, a := range sets {
			for _, b := range list {
				out = append(out, union(a, b))
			}
		}
		sets = out
		s.work += int64(len(sets)) * 6
	}
	return sets
}

// path returns the settings that led to a state.
func (s *searcher) path(i int32) []int64 {
	var list []int64
	for ; s.states[i].from >= 0; i = s.states[i].from {
		list = append(list, s.states[i].setting)
	}
	slices.Reverse(list)
	return list
}

// sooner says which of two states is gone on from first: what takes the least at least
// in all, then the later.
func (s *searcher) sooner(i, j int32) bool {
	a, b := &s.states[i], &s.states[j]
	if x, y := a.settings+a.guess, b.settings+b.guess; x != y {
		return x < y
	}
	if a.settings != b.settings {
		return a.settings > b.settings
	}
	return i < j
}

// exact searches best first. It returns the fewest settings if it gets to the
// end, and what no order can do without in any case; below a number that is
// known it need not look.
func (s *searcher) exact(parts []int32, known int) (path []int64, least int, found bool) {
	s.complete = true
	least = s.needs.least(parts)
	s.states = []state{{parts: parts, from: -1, guess: least}}
	open := inorder.NewQueue(s.sooner, 0)
	best := map[string]int{string(s.name(parts)): 0}
	for open.Len() > 0 {
		i := open.Pop()
		at := s.states[i]
		if at.settings > best[string(s.name(at.parts))] {
			continue
		}
		least = max(least, min(known, at.settings+at.guess))
		if len(at.parts) == 0 {
			return s.path(i), at.settings, true
		}
		if at.settings+at.guess >= known {
			return nil, known, false
		}
		for _, f := range s.fences(at.parts, false) {
			for _, set := range s.next(at.parts, f, 256) {
				if slices.Equal(set, at.parts) {
					continue
				}
				s.work += 40
				name := s.name(set)
				if g, ok := best[string(name)]; ok && g <= at.settings+1 {
					continue
				}
				best[string(name)] = at.settings + 1
				guess := s.needs.least(set)
				s.work += int64(len(set)+1) * int64(s.needs.words+2) * 4
				s.states = append(s.states, state{set, i, f, at.settings + 1, guess, 0})
				open.Push(int32(len(s.states) - 1))
			}
			if s.spent() || !s.complete {
				return nil, least, false
			}
		}
	}
	return nil, least, false
}

// beam keeps the most hopeful sets of parts after each setting, at most so many,
// and returns an order with fewer settings than are known, if it finds one.
func (s *searcher) beam(parts []int32, width, known int) (path []int64, found bool) {
	s.states = []state{{parts: parts, from: -1, guess: s.needs.guess(parts)}}
	level := []int32{0}
	for len(level) > 0 {
		var next []int32
		seen := map[string]bool{}
		for _, i := range level {
			at := s.states[i]
			if len(at.parts) == 0 {
				return s.path(i), true
			}
			fences := s.fences(at.parts, true)
			if f, ok := s.sure(at.parts, fences); ok {
				fences = []int64{f}
			}
			for _, f := range fences {
				if s.spent() {
					return nil, false
				}
				for _, set := range s.next(at.parts, f, 4) {
					s.work += 40
					if name := s.name(set); seen[string(name)] || slices.Equal(set, at.parts) {
						continue
					} else {
						seen[string(name)] = true
					}
					guess := s.needs.guess(set)
					s.work += int64(len(set)+1) * int64(s.needs.words+2) * 4
					if at.settings+1+guess >= known && len(set) > 0 && at.settings+1+s.needs.least(set) >= known {
						continue
					}
					s.states = append(s.states, state{set, i, f, at.settings + 1, guess, s.needs.hidden(set)})
					next = append(next, int32(len(s.states)-1))
				}
			}
		}
		inorder.Sort(next, func(a, b int32) int {
			x, y := &s.states[a], &s.states[b]
			return cmp.Or(cmp.Compare(x.guess+2*x.hidden, y.guess+2*y.hidden), cmp.Compare(len(x.parts), len(y.parts)))
		})
		level = next[:min(len(next), width)]
	}
	return nil, false
}

// sure returns a setting that is needed whatever else is done and that no part
// needs which is still to come, if there is one: it may as well be next.
func (s *searcher) sure(parts []int32, fences []int64) (int64, bool) {
	below, must := s.needs.set(), s.needs.set()
	for _, id := range parts {
		below.join(s.needs.of(id).below)
		sh := &s.all[id]
		switch {
		case sh.lead.kind != noEnd:
			must.put(s.needs.lengths[sh.lead.size])
			// Its own kids are still to come.
			s.needs.own(id, below)
		case sh.large:
			s.needs.own(id, below)
			must.put(s.needs.lengths[sh.kids[0].len])
		case sh.rest.kind != noEnd || len(sh.kids) == 1:
			s.needs.own(id, must)
		}
	}
	s.work += int64(len(parts)) * int64(s.needs.words+2) * 2
	for _, f := range fences {
		if i, ok := s.needs.lengths[f]; ok && must.has(i) && !below.has(i) {
			return f, true
		}
	}
	return 0, false
}
