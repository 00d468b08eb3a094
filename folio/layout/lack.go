package layout

import (
	"slices"

	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/packing"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// lacker says what lacks where pieces have no place.
type lacker struct {
	*meter
	l    *Layout
	bad  *check.List
	left int64             // steps for finding out how many more sheets would do
	cuts []check.Violation // a cutter each, of the piece that asks for most of it
}

// complain adds a violation for each piece that fits no sheet, and one for all
// that lack sheets.
func (c *lacker) complain(i int, s *solved) {
	lack := 0
	more := packing.Problem{Stock: slices.Clone(s.Stock), Items: slices.Clone(s.Items), Kerf: s.Kerf, LongestCut: s.LongestCut}
	for k := range more.Items {
		more.Items[k].Copies = 0
	}
	for _, sh := range s.result.Short {
		if sh.Fits || s.fits(s.Items[sh.Item]) {
			lack += sh.Copies
			more.Items[sh.Item].Copies = sh.Copies
			continue
		}
		if v := c.unfit(s, sh); !c.cutter(v) {
			c.bad.Add(v)
		}
	}
	if lack == 0 {
		return
	}
	got := "too few sheets of " + check.Quote(s.material.Name) + ": no place for " + count(lack) + " of " + plural(lack+s.placed(), "piece") + ":"
	at := slices.IndexFunc(c.l.materials, func(m Laid) bool { return m.index == i })
	const most = 8
	n := 0
	for sh := range c.l.materials[at].Short() {
		if sh.Fits() {
			if n++; n > most {
				got += " and others"
				break
			}
			if n > 1 {
				got += ","
			}
			got += " " + count(sh.Copies()) + " x " + check.Clip(sh.Piece().name) + c.whose(sh.Piece())
		}
	}
	c.bad.Add(check.Violation{Path: check.Index("materials", i) + ".sheets", Code: NotEnough, Nature: check.Impossible, Got: got, Want: c.enough(s, more)})
}

// cutter keeps a violation of a cutter, which cuts every piece, until all are known:
// what would do does for all of them.
func (c *lacker) cutter(v check.Violation) bool {
	if v.Code != CutShort {
		return false
	}
	for i := range c.cuts {
		if o := &c.cuts[i]; o.Path == v.Path {
			if v.Limit > o.Limit {
				*o = v
			}
			return true
		}
	}
	c.cuts = append(c.cuts, v)
	return true
}

// unfit is the violation of a piece that comes out of no kind of sheet.
func (c *lacker) unfit(s *solved, sh packing.Short) check.Violation {
	n := c.l.job.notation()
	w := c.l.wants[s.wants[sh.Item][0]]
	size, turn := w.size, s.Items[sh.Item].Turn
	got := check.Quote(w.name) + c.whose(w) + " " + sizeText(n, size) + " out of " + check.Quote(s.material.Name)
	v := check.Violation{Path: w.path, Nature: check.Impossible, Got: got}
	cut, large := s.leastCut(size, turn)
	switch {
	case len(s.kinds) == 0:
		v.Path = check.Index("materials", w.at) + ".sheets"
		v.Code, v.Got = GrainCross, got+", grain and pattern crosswise on every sheet"
		v.Want = "a sheet of at least " + c.withTrim(s, size) + ", grain along the height of the pattern, or a piece with the grain either way"
	case large:
		v.Path = "cutter.longestcut"
		if s.material.Cutter != (Cutter{}) {
			v.Path = check.Index("materials", w.at) + ".cutter.longestcut"
		}
		v.Code, v.Got = CutShort, got+" with a longest cut of "+n.Text(length(s.LongestCut))
		v.Want, v.Bound, v.Limit, v.By = "at least "+n.Bound(cut, units.Up), check.AtLeast, cut, cut-length(s.LongestCut)
	default:
		need := units.Size{W: length(sh.NeedW), H: length(sh.NeedH)}
		v.Path = check.Index("materials", w.at) + ".sheets"
		v.Code, v.Want = SheetSmall, "a sheet of at least "+c.withTrim(s, need)
		if w.grain == stock.GrainParallel {
			v.Want += ", grain along the height"
		}
		if turn {
			v.Want += ", or the other way round"
		}
	}
	return v
}

// whose says of which folio a piece is, where there are several.
func (c *lacker) whose(w Wanted) string {
	all := c.l.job.Folios
	if len(all) < 2 || w.folio < 0 {
		return ""
	}
	name := all[w.folio].Name
	if name == "" {
		name = all[w.folio].Plan.Spec().Title
	}
	if name == "" {
		return ""
	}
	return " of " + check.Quote(name)
}

// withTrim is the text of a sheet out of which a size comes, with the widest trim
// of the sheets there are.
func (c *lacker) withTrim(s *solved, size units.Size) string {
	var trim units.Length
	for _, k := range s.material.Sheets {
		trim = max(trim, k.Trim)
	}
	n, whole := c.l.job.notation(), size.Plus(2*trim, 2*trim)
	switch {
	case trim == 0:
		return n.BoundSize(size, units.Up)
	case max(whole.W, whole.H) > units.Longest: // no sheet may be that large
		return n.BoundSize(size, units.Up) + " without trim"
	}
	return n.BoundSize(whole, units.Up) + " with its trim of " + n.Text(trim)
}

// enough says how many more sheets would do for what has no place: as few as a short
// search finds, or without one a sheet for each piece.
func (c *lacker) enough(s *solved, more packing.Problem) string {
	used, each := c.few(more, s), ""
	if used == nil {
		used, each = oneEach(s, more), ", a sheet for each"
	}
	text := ""
	for k, used := range used {
		if used > 0 {
			if text != "" {
				text += " and "
			}
			text += count(used) + " more of " + sizeText(c.l.job.notation(), s.material.Sheets[s.kinds[k].index].Size)
		}
	}
	if text == "" {
		return "more sheets"
	}
	return text + each + ", which will do, or fewer pieces"
}

// few returns how many more sheets of each kind would do, as a search finds it; nil
// where it does not.
func (c *lacker) few(more packing.Problem, s *solved) []int {
	if c.left <= 0 || c.until.Err() != nil {
		return nil
	}
	for k := range more.Stock {
		more.Stock[k].Count = packing.Unlimited
		if more.Stock[k].First {
			more.Stock[k].Count = 0
		}
	}
	r, err := c.solve(more, s.material.Name, min(c.left, 2_000_000))
	if err != nil {
		return nil
	}
	c.left -= r.Steps
	if shorts(r) > 0 {
		return nil
	}
	return r.Used
}

// oneEach returns how many sheets of each kind there are with one for each piece that
// has no place, of the first kind that takes it; nil where none does.
func oneEach(s *solved, more packing.Problem) []int {
	used := make([]int, len(s.Stock))
	for _, it := range more.Items {
		if it.Copies == 0 {
			continue
		}
		k := 0
		for k < len(used) && (s.Stock[k].First || !s.fitsOn(k, it)) {
			k++
		}
		if k == len(used) {
			return nil
		}
		used[k] += it.Copies
	}
	return used
}

// placed is how many pieces have a place.
func (s *solved) placed() int {
	n := -shorts(s.result)
	for _, it := range s.Items {
		n += it.Copies
	}
	return n
}
