package packing

// A memo keeps the best spot of each part on each sheet, as long as the sheet
// stays as it is: most do in a round of a search.
type memo struct {
	spots []known // by sheet and part
	parts int
	state int64 // the last given to a sheet
}

// known is the best spot on a sheet in a state.
type known struct {
	state int64
	spot
}

// mostSpots bounds what a memo holds.
const mostSpots = 1 << 17

// remember starts a memo, if it is not too large.
func (s *search) remember() {
	n := len(s.bins) * len(s.t.parts)
	if n > mostSpots {
		s.memo.spots = nil
		return
	}
	s.memo.parts = len(s.t.parts)
	if n > len(s.memo.spots) {
		s.memo.spots = make([]known, n)
	}
	for i := range s.bins {
		s.touch(&s.bins[i])
	}
	s.m.work(int64(n)/8 + 1)
}

// touch says that a sheet has changed.
func (s *search) touch(b *bin) {
	s.memo.state++
	b.state = s.memo.state
}

func (m *memo) at(bin, part int32) *known { return &m.spots[int(bin)*m.parts+int(part)] }
