package layout

import (
	"iter"

	"boardwrap.example/internal/cutorder"
	"boardwrap.example/internal/packing"
	"boardwrap.example/score"
)

// plan orders the cuts of a material with at most so much work. A plain order by
// settings may take more, as long as it takes no longer than a few blinks.
func (s *solved) plan(until score.Stopper, work int64) *cutorder.Order {
	o := cutorder.Options{Kerf: s.Kerf, LongestCut: s.LongestCut, KeepShort: s.KeepShort, KeepLong: s.KeepLong,
		Work: work, Least: max(leastSearch, 8*work)}
	for _, k := range s.Stock {
		o.Trim = append(o.Trim, k.Trim)
	}
	return cutorder.Plan(until, s.result.Sheets, o)
}

// orderly takes over the order of a material's cuts.
func (m *Laid) orderly(l *Layout, o *cutorder.Order) {
	m.settings, m.leastSettings, m.turns, m.leastTurns = o.Settings, o.LeastSettings, o.Turns, o.LeastTurns
	c := l.job.cutter(m.material)
	m.stack = 1
	if m.material.Caliper > 0 {
		m.stack = max(1, int(min(c.Stack/m.material.Caliper, MostPieces)))
	}
	m.leastCuts = int((o.LeastCuts + int64(m.stack) - 1) / int64(m.stack))
	m.cutting = o.Steps
	for i := range m.cutting {
		s := m.step(l, i)
		m.cuts += s.Strokes()
	}
}

// step puts a cutting into the words of the trade.
func (m *Laid) step(l *Layout, i int) CutStep {
	st := &m.cutting[i]
	s := CutStep{m: m, l: l, take: -1, cuts: st.Cuts, at: length(st.Setting), refs: st.Parts}
	if st.Axis == packing.CutY {
		s.axis = score.Level
	}
	return s
}

// Steps walks the order of work, material by material. The sheets of a material
// are cut up together where that spares settings of the fence, one after the
// other where it does not.
func (l *Layout) Steps() iter.Seq[CutStep] {
	return func(yield func(CutStep) bool) {
		w := &walker{yield: yield}
		for i := range l.materials {
			if !w.material(l, &l.materials[i]) {
				return
			}
		}
	}
}

// Steps walks the order of work for this material alone, numbered from 1.
func (m Laid) Steps() iter.Seq[CutStep] {
	return func(yield func(CutStep) bool) { (&walker{yield: yield}).material(m.of, &m) }
}

// walker numbers steps and says what changes between them.
type walker struct {
	yield  func(CutStep) bool
	number int
	last   CutStep
	cut    bool // something was cut before
}

func (w *walker) next(s CutStep) bool {
	w.number++
	s.number = w.number
	return w.yield(s)
}

func (w *walker) material(l *Layout, m *Laid) bool {
	// The sheets of a pass are taken before it.
	taken := make([]bool, len(m.sheets))
	take := func(i int) bool {
		if taken[i] {
			return true
		}
		taken[i] = true
		return w.next(CutStep{l: l, m: m, take: i})
	}
	for at := 0; at < len(m.cutting); {
		end := at
		for end < len(m.cutting) && m.cutting[end].Pass == m.cutting[at].Pass {
			end++
		}
		in := make([]bool, len(m.sheets))
		for _, s := range m.cutting[at:end] {
			for _, r := range s.Parts {
				in[r.Sheet] = true
			}
		}
		for i := range in {
			if in[i] && !take(i) {
				return false
			}
		}
		for fresh := true; at < end; at++ {
			s := m.step(l, at)
			s.turn = !fresh && s.axis != w.last.axis
			s.same = w.cut && s.at == w.last.at && l.job.cutter(m.material) == l.job.cutter(w.last.m.material)
			w.last, w.cut, fresh = s, true, false
			if !w.next(s) {
				return false
			}
		}
	}
	for i := range taken {
		if !take(i) {
			return false
		}
	}
	return true
}

// Settings returns how often the fence is set for the whole layout and a number
// that is proved: going through one material after the other, no order of work
// for these sheets takes fewer.
func (l *Layout) Settings() (n, least int) {
	last := CutStep{}
	cut := 0
	for i := range l.materials {
		m := &l.materials[i]
		if len(m.cutting) == 0 {
			continue
		}
		n += m.settings
		least += m.leastSettings
		if cut > 0 {
			// The fence may stand where the material before left it.
			least--
			if first := m.step(l, 0); last.at == first.at && l.job.cutter(m.material) == l.job.cutter(last.m.material) {
				n--
			}
		}
		cut++
		last = m.step(l, len(m.cutting)-1)
	}
	return n, max(0, least)
}

// Turns returns how often the parts are turned a quarter between two steps and a
// number that is proved, as [Layout.Settings] does.
func (l *Layout) Turns() (n, least int) {
	for _, m := range l.materials {
		n += m.turns
		least += m.leastTurns
	}
	return n, least
}

// Cuts returns how often the blade comes down and a number that is proved: no
// order of work for these sheets, cut in stacks where the cutter allows that,
// takes fewer.
func (l *Layout) Cuts() (n, least int) {
	for _, m := range l.materials {
		n += m.cuts
		least += m.leastCuts
	}
	return n, least
}

// Settings is that of the layout for this material alone.
func (m Laid) Settings() (n, least int) { return m.settings, m.leastSettings }

// Turns is that of the layout for this material alone.
func (m Laid) Turns() (n, least int) { return m.turns, m.leastTurns }

// Cuts is that of the layout for this material alone.
func (m Laid) Cuts() (n, least int) { return m.cuts, m.leastCuts }
