package layout

import (
	"iter"
	"slices"

	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/cutorder"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Layout is a job laid out on its sheets. It cannot be changed and may be
// shared between goroutines; [Lay] makes one.
type Layout struct {
	job       Job
	wants     []Wanted
	materials []Laid
	warnings  []check.Warning
	steps     int64
	stopped   bool
}

// Lay lays out a job. The error is an *[check.Error] with everything that is
// wrong; if all of that is impossible rather than malformed, the layout of
// what can be placed comes with it.
func Lay(until score.Stopper, job Job, budget Budget) (*Layout, error) {
	var bad check.List
	budget.check(&bad)
	m := newMeter(until, budget, 1)
	l := m.all(job, &bad, m.total)
	m.end()
	return l, bad.Err()
}

// all lays out all materials of a job with at most so many steps; what is wrong
// goes to bad. It returns nil for a job that is malformed.
func (m *meter) all(job Job, bad *check.List, share int64) *Layout {
	job = job.clone()
	wants := job.gather(bad)
	if bad.Len() > 0 {
		return nil
	}
	l := &Layout{job: job, wants: wants, warnings: job.idle()}
	by := byMaterial(&job, wants)
	todo := int64(0)
	for _, of := range by {
		if len(of) > 0 {
			todo++
		}
	}
	end := m.left - share // what must be left in the end
	// All searches come before all orders of cutting: what one material leaves
	// of the budget goes to the next, and more budget never leaves it less.
	found := make([]*solved, len(by))
	for i, of := range by {
		if len(of) == 0 {
			continue
		}
		steps := max(0, m.left-end) / todo
		s, err := m.lay(&job, job.Materials[i], wants, of, steps-steps/32)
		if err != nil {
			bad.Malformed(check.Index("materials", i), check.OutOfRange, err.Error(), "")
			return nil
		}
		found[i] = s
		todo--
	}
	lacks := lacker{meter: m, l: l, bad: bad, left: max(share/16, leastSearch/4)}
	sheets := 1
	for i, s := range found {
		if s == nil {
			continue
		}
		o := &cutorder.Order{}
		if !m.counting {
			// A small order by settings is worth its while even with a small
			// budget, and a longer search with what the others left over.
			work := max(leastSearch/10/int64(len(by)), min((m.left-end)/2, 12_000_000))
			o = s.plan(m.until, work)
			m.use(o.Work, work)
		}
		laid := newLaid(l, i, s, sheets, o)
		sheets += len(laid.sheets)
		l.materials = append(l.materials, laid)
		l.stopped = l.stopped || s.result.Stopped
		l.warn(i, s)
		lacks.complain(i, s)
	}
	for _, v := range lacks.cuts {
		bad.Add(v)
	}
	l.steps = m.done
	if l.stopped {
		l.warnings = append(l.warnings, check.Warning{Code: WarnStopped, Text: "the search was cut short; the layout holds, but a longer search may need fewer sheets"})
	}
	return l
}

// byMaterial lists the indices of the pieces of each material.
func byMaterial(j *Job, wants []Wanted) [][]int {
	by := make([][]int, len(j.Materials))
	for i, w := range wants {
		by[w.at] = append(by[w.at], i)
	}
	return by
}

func (l *Layout) warn(i int, s *solved) {
	path := check.Index("materials", i)
	m := s.material
	for _, k := range s.leftOut {
		l.warnings = append(l.warnings, check.Warning{Path: check.Index(path+".sheets", k), Code: WarnLeftOut,
			Text: "a sheet of " + check.Quote(m.Name) + " is left out: its grain runs across an upright pattern"})
	}
	if s.unknown && len(s.result.Sheets) > 0 {
		text := "find the grain of " + check.Quote(m.Name) + " before cutting: the layout takes it to run " + s.assumed.String() +
			"; if it runs " + crosswise(s.assumed).String() + ", "
		if s.other == nil {
			text += "the same pieces may take more sheets: for that the search was cut short"
		} else if n := shorts(s.other); n > shorts(s.result) {
			if text += plural(n, "piece"); n == 1 {
				text += " finds no place"
			} else {
				text += " find no place"
			}
		} else if s.other.Ordinary == s.result.Ordinary {
			text += "the same pieces take as many bought sheets"
		} else {
			text += "the same pieces take " + plural(s.other.Ordinary, "bought sheet") + " instead of " + count(s.result.Ordinary)
		}
		l.warnings = append(l.warnings, check.Warning{Path: path + ".sheets", Code: WarnGrain, Text: text})
	}
}

func crosswise(g stock.SheetGrain) stock.SheetGrain {
	if g == stock.GrainAlongHeight {
		return stock.GrainAlongWidth
	}
	return stock.GrainAlongHeight
}

// Job returns a copy of what was laid out.
func (l *Layout) Job() Job { return l.job.clone() }

// Materials walks the materials of which pieces are wanted, in the order of the
// Job.
func (l *Layout) Materials() iter.Seq[Laid] { return slices.Values(l.materials) }

// Material returns the layout of a material by its name, and whether pieces of
// it are wanted.
func (l *Layout) Material(name string) (Laid, bool) {
	for _, m := range l.materials {
		if m.material.Name == name {
			return m, true
		}
	}
	return Laid{}, false
}

// Pieces walks everything that is wanted: the folios in the order of the Job,
// then the pieces by hand.
func (l *Layout) Pieces() iter.Seq[Wanted] { return slices.Values(l.wants) }

// Sheets walks the sheets to cut, material by material.
func (l *Layout) Sheets() iter.Seq[LaidSheet] {
	return func(yield func(LaidSheet) bool) {
		for _, m := range l.materials {
			for _, s := range m.sheets {
				if !yield(s) {
					return
				}
			}
		}
	}
}

// Bought is the number of sheets used that are not offcuts at hand.
func (l *Layout) Bought() int {
	n := 0
	for _, m := range l.materials {
		n += m.Bought()
	}
	return n
}

// Bound is the sum of the proven bounds of the materials: no layout that
// places as many pieces of each takes fewer bought sheets.
func (l *Layout) Bound() int {
	n := 0
	for _, m := range l.materials {
		n += m.Bound()
	}
	return n
}

// Proved reports whether every material is proved to take the fewest sheets.
func (l *Layout) Proved() bool {
	for _, m := range l.materials {
		if !m.Proved() {
			return false
		}
	}
	return true
}

// Complete reports whether every piece has its place.
func (l *Layout) Complete() bool {
	for _, m := range l.materials {
		if len(m.short) > 0 {
			return false
		}
	}
	return true
}

// Stopped reports whether the Stopper cut the search short.
func (l *Layout) Stopped() bool { return l.stopped }

// Work is the number of steps that the search took.
func (l *Layout) Work() int64 { return l.steps }

// Warnings walks what can be done but is unwise, and what must be found out.
func (l *Layout) Warnings() iter.Seq[check.Warning] { return slices.Values(l.warnings) }

// Notation is the way the layout writes lengths: that of Job.Ruler, of the first
// plan, or millimetres.
func (l *Layout) Notation() units.Notation { return l.job.notation() }

// Left returns what is left of the materials when the job is done: the sheets
// that were not used, and the offcuts, largest first, as offcuts for the next
// job. Offcuts are listed as the sheet that they come from was.
func (l *Layout) Left() []Material {
	out := l.job.clone().Materials
	for _, m := range l.materials {
		to := &out[m.index]
		for k, used := range m.used {
			if to.Sheets[k].Count > 0 {
				to.Sheets[k].Count -= used
			}
		}
		for _, o := range m.offcuts {
			to.Sheets = append(to.Sheets, o.Kind())
		}
	}
	for i := range out {
		out[i].Sheets = slices.DeleteFunc(out[i].Sheets, func(k SheetKind) bool { return k.Count == 0 })
	}
	return out
}
