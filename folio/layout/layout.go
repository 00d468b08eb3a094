package layout

import (
	"boardwrap.example/score"
	"cmp"
	"iter"
	"slices"

	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/cutorder"
	"boardwrap.example/internal/inorder"
	"boardwrap.example/internal/packing"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
	"boardwrap.example/units/money"
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
func (l *Layout) Sheets() iter.Seq[Sheet] {
	return func(yield func(Sheet) bool) {
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

// Laid is the layout of one material.
type Laid struct {
	index    int
	material Material
	assumed  stock.SheetGrain
	sheets   []Sheet
	used     []int // by index of Material.Sheets
	bought   int
	bound    int
	proved   bool
	cost     money.Amount
	areas    Areas
	offcuts  []Left
	short    []Lacking

	of                                                          *Layout
	cutting                                                     []cutorder.Step // the steps, but for those that take sheets
	stack                                                       int             // sheets under the blade at once
	cuts, leastCuts, settings, leastSettings, turns, leastTurns int
}

// Areas sums up where the area of the sheets in use went: Sheets = Pieces +
// Offcuts + Waste. Trim and kerf are waste.
type Areas struct{ sheets, pieces, offcuts, waste units.Area }

// Sheets is the area of the sheets in use.
func (a Areas) Sheets() units.Area { return a.sheets }

// Pieces is the area of the pieces.
func (a Areas) Pieces() units.Area { return a.pieces }

// Offcuts is the area of the leftovers worth keeping.
func (a Areas) Offcuts() units.Area { return a.offcuts }

// Waste is the rest.
func (a Areas) Waste() units.Area { return a.waste }

// newLaid puts an engine's answer into the words of the trade.
func newLaid(l *Layout, index int, s *solved, number int, o *cutorder.Order) Laid {
	m := Laid{index: index, material: s.material, assumed: s.assumed, used: make([]int, len(s.material.Sheets)),
		bought: s.result.Ordinary, bound: s.result.Bound, proved: s.result.Proved}
	d := newDealer(s.problem, l.wants)
	for k, n := range s.result.Used {
		m.used[s.kinds[k].index] += n
	}
	m.cost.Minor = s.result.Cost
	for _, k := range s.material.Sheets {
		if k.Price.Currency != (money.Currency{}) {
			m.cost.Currency = k.Price.Currency
			break
		}
	}
	m.sheets = make([]Sheet, 0, len(o.Sheets))
	for i, sh := range o.Sheets {
		sheet := newSheet(s.problem, sh, number+i, d)
		m.sheets = append(m.sheets, sheet)
		var pieces, offcuts units.Area
		for k := range sh.Nodes {
			switch n := &sh.Nodes[k]; n.Use {
			case packing.Piece:
				pieces = pieces.Plus(length(n.W).By(length(n.H)))
			case packing.Offcut:
				size := units.Size{W: length(n.W), H: length(n.H)}
				offcuts = offcuts.Plus(size.Area())
				m.offcuts = append(m.offcuts, newLeft(sheet, size))
			case packing.Waste, packing.CutX, packing.CutY:
			}
		}
		m.areas.pieces, m.areas.offcuts = m.areas.pieces.Plus(pieces.Times(int64(sheet.times))), m.areas.offcuts.Plus(offcuts.Times(int64(sheet.times)))
		m.areas.sheets = m.areas.sheets.Plus(sheet.kind.Size.Area().Times(int64(sheet.times)))
	}
	m.of = l
	m.orderly(l, o)
	m.areas.waste = m.areas.sheets.Minus(m.areas.pieces).Minus(m.areas.offcuts)
	// Those that compare equal are equal: of one size, of one sheet.
	inorder.Sort(m.offcuts, func(a, b Left) int {
		if c := b.size.Area().Compare(a.size.Area()); c != 0 {
			return c
		}
		return cmp.Or(cmp.Compare(b.size.W, a.size.W), cmp.Compare(a.sheet, b.sheet))
	})
	for _, sh := range s.result.Short {
		if len(o.Sheets) == 0 { // what lies on sheets that are only counted comes first
			d.deal(nil, sh.Item, s.Items[sh.Item].Copies-sh.Copies)
		}
		for _, p := range d.deal(nil, sh.Item, sh.Copies) {
			m.short = append(m.short, Lacking{l.wants[p.want], p.copies, sh.Fits || s.fits(s.Items[sh.Item])})
		}
	}
	return m
}

// Name is the name of the material.
func (m Laid) Name() string { return m.material.Name }

// Sheets walks the sheets to cut.
func (m Laid) Sheets() iter.Seq[Sheet] { return slices.Values(m.sheets) }

// Used walks the kinds of sheet in the order of Material.Sheets with how many
// of each are used.
func (m Laid) Used() iter.Seq2[SheetKind, int] {
	return func(yield func(SheetKind, int) bool) {
		for i, n := range m.used {
			if !yield(m.material.Sheets[i], n) {
				return
			}
		}
	}
}

// Bought is the number of sheets used that are not offcuts at hand.
func (m Laid) Bought() int { return m.bought }

// FromOffcuts is the number of offcuts at hand that are used.
func (m Laid) FromOffcuts() int {
	n := 0
	for i, used := range m.used {
		if m.material.Sheets[i].Offcut {
			n += used
		}
	}
	return n
}

// Bound is the proven lower bound: no layout in edge-to-edge cuts that places
// as many pieces takes fewer bought sheets.
func (m Laid) Bound() int { return m.bound }

// Proved reports whether Bought is proved the fewest, and no layout places more
// pieces.
func (m Laid) Proved() bool { return m.proved }

// Assumed returns the direction in which sheets of unknown grain are taken to
// run, and whether that mattered.
func (m Laid) Assumed() (g stock.SheetGrain, ok bool) {
	return m.assumed, m.assumed != stock.GrainUnknown
}

// Areas returns where the area of the sheets went.
func (m Laid) Areas() Areas { return m.areas }

// Price is the price of all sheets used, whole.
func (m Laid) Price() money.Amount { return m.cost }

// Offcuts walks the leftovers worth keeping, largest first.
func (m Laid) Offcuts() iter.Seq[Left] { return slices.Values(m.offcuts) }

// Short walks the pieces that have no place.
func (m Laid) Short() iter.Seq[Lacking] { return slices.Values(m.short) }

// Lacking is a piece of which some copies have no place.
type Lacking struct {
	piece  Wanted
	copies int
	fits   bool
}

// Piece is the piece.
func (l Lacking) Piece() Wanted { return l.piece }

// Copies is how many have no place.
func (l Lacking) Copies() int { return l.copies }

// Fits reports whether the piece fits some kind of sheet, of which there are
// just too few.
func (l Lacking) Fits() bool { return l.fits }

// Left is a leftover worth keeping.
type Left struct {
	size  units.Size // as its sheet lies
	grain stock.SheetGrain
	sheet int
	times int
	turn  bool
}

func newLeft(s Sheet, size units.Size) Left {
	return Left{size, s.kind.Grain, s.number, s.times, s.turned}
}

// Size is the size as the sheet lay when it was cut.
func (l Left) Size() units.Size { return l.size }

// Sheet is the number of the sheet that it comes from.
func (l Left) Sheet() int { return l.sheet }

// Count is how many there are: one for each sheet that is cut alike.
func (l Left) Count() int { return l.times }

// Kind returns the leftover as an offcut for another job, listed the way its
// sheet was, with the grain of that sheet and without a price.
func (l Left) Kind() SheetKind {
	size := l.size
	if l.turn {
		size = size.Turned()
	}
	return SheetKind{Size: size, Grain: l.grain, Count: l.times, Offcut: true}
}
