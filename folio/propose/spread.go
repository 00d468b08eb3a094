package propose

import (
	"boardwrap.example/folio/place"
	"boardwrap.example/units"
)

// A spreading lays a board out by relation instead of in lengths: what lies in
// rows one over the other, or in columns side by side, shares the board's height or
// width evenly, and what is in a row lies in line with the largest in it. On another
// cover the margins and what is between change alike.
type spreading struct {
	*arranger
	panel units.Size
	rows  [][]*shape // of single fittings
	first []int      // of each row, its first fitting among all that are laid
	large []int      // of each row, its largest
	tall  bool       // the rows lie one over the other
}

// spread puts what was laid at places by relation, where there are such that leave
// what must be free.
func (a *arranger) spread(root *shape, panel units.Size) {
	w := spreading{arranger: a, panel: panel, tall: root.cut == level}
	if root.cut == noCut || !w.gather(root) {
		return
	}
	sizes := make([]units.Length, len(w.rows))
	for i, k := range w.large {
		sizes[i] = w.side(k, w.tall)
	}
	at, ok := w.even(sizes, w.large, w.tall)
	if !ok {
		return
	}
	for i, row := range w.rows {
		rep := w.large[i]
		for k := w.first[i]; k < w.first[i]+len(row); k++ {
			l := &a.all[k]
			l.by[axis(w.tall)] = inLine{how: inLineWith, of: rep, align: a.s.request.Taste.inRow(w.tall, a.s.leaves[a.leaf].toSpine())}
			if k == rep {
				l.by[axis(w.tall)] = inLine{how: evenly}
			}
			*coordinate(&l.at, w.tall) = at[i] + w.start(l.by[axis(w.tall)].align, sizes[i]-w.side(k, w.tall), k == rep)
		}
	}
	w.across()
}

// across spreads a row evenly along itself, where it is the only one of several
// fittings, or the rows are those of a grid of like ones.
func (w *spreading) across() {
	if w.s.request.Taste.Order != Centred {
		return
	}
	several, only, grid := 0, 0, true
	for i, row := range w.rows {
		if len(row) > 1 {
			several, only = several+1, i
		}
		grid = grid && len(row) == len(w.rows[0])
		for _, s := range row {
			grid = grid && s.w == w.rows[0][0].w && s.h == w.rows[0][0].h
		}
	}
	switch {
	case several == 0 || several > 1 && !grid:
		return
	case grid:
		only = 0
	}
	row, from := w.rows[only], w.first[only]
	sizes, which := make([]units.Length, len(row)), make([]int, len(row))
	for k := range row {
		sizes[k], which[k] = w.side(from+k, !w.tall), from+k
	}
	at, ok := w.even(sizes, which, !w.tall)
	if !ok {
		return
	}
	for k := range row {
		w.all[from+k].by[axis(!w.tall)] = inLine{how: evenly}
		*coordinate(&w.all[from+k].at, !w.tall) = at[k]
		for i := range w.rows {
			if grid && i != only {
				l := &w.all[w.first[i]+k]
				l.by[axis(!w.tall)] = inLine{how: inLineWith, of: from + k}
				*coordinate(&l.at, !w.tall) = at[k]
			}
		}
	}
}

// gather lists the rows of a shape, and reports whether it is nothing but rows.
func (w *spreading) gather(root *shape) bool {
	n := 0
	for _, part := range w.flat(nil, root, root.cut) {
		row := w.flat(nil, part, part.cut)
		large := 0
		for k, s := range row {
			if s.cut != noCut {
				return false
			}
			if w.side(n+k, w.tall) > w.side(n+large, w.tall) {
				large = k
			}
		}
		w.rows, w.first, w.large = append(w.rows, row), append(w.first, n), append(w.large, n+large)
		n += len(row)
	}
	return true
}

// flat lists the parts of a shape that lines of one direction leave, in the order in
// which they are laid.
func (a *arranger) flat(list []*shape, s *shape, along cut) []*shape {
	if s.cut == noCut || s.cut != along {
		return append(list, s)
	}
	first, second := a.ordered(s)
	return a.flat(a.flat(list, first, along), second, along)
}

// side returns the height or the width of what is laid.
func (a *arranger) side(k int, tall bool) units.Length {
	b := a.opts[a.all[k].kind].box
	if tall {
		return b.h
	}
	return b.w
}

// even returns where things of some sizes begin that share a side of the board
// evenly, and whether that leaves what must be free.
func (w *spreading) even(sizes []units.Length, which []int, tall bool) ([]units.Length, bool) {
	room := w.panel.W
	if tall {
		room = w.panel.H
	}
	spare := room
	for _, l := range sizes {
		spare -= l
	}
	at := make([]units.Length, len(sizes))
	var before units.Length
	for k, l := range sizes {
		gaps, _ := spare.Scale(int64(k+1), int64(len(sizes)+1), units.Down)
		at[k] = before + w.s.fitting.Down(gaps)
		before += l
		free := at[k]
		least := w.s.margin
		if k > 0 {
			free -= at[k-1] + sizes[k-1]
			least = w.s.between
			if w.mouths(which[k-1]) || w.mouths(which[k]) {
				least = max(least, w.s.grip)
			}
		}
		if free < least {
			return nil, false
		}
	}
	return at, true // and the last margin, which gets what the others were rounded down by, is no less than the first
}

// mouths reports whether something slips into a row of which this is one.
func (w *spreading) mouths(k int) bool {
	for i, row := range w.rows {
		if k < w.first[i] || k >= w.first[i]+len(row) {
			continue
		}
		for j := range row {
			if w.opts[w.all[w.first[i]+j].kind].box.mouth {
				return true
			}
		}
	}
	return false
}

// start returns how far in its row something begins that is so much smaller than
// the largest.
func (w *spreading) start(align place.Align, spare units.Length, largest bool) units.Length {
	switch {
	case largest, align == place.Head, align == place.Left:
		return 0
	case align == place.Right:
		return spare
	}
	return w.s.middle(spare)
}
