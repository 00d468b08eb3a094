package packing

// A Proof is why no layout that places as many pieces needs fewer ordinary
// sheets than Bound. It is data that another program can check in integers:
// package cutcheck does.
//
// By worth: each copy of an item is worth something, and no sheet of a stock
// holds more worth than its cap; so many pieces are worth more than Bound − 1
// sheets hold. Either X and Y make the worth, or Price does.
//
// By trial: every split of Root pieces into sheets was tried, over all Size
// subsets of them; or, where all sheets are alike, over the Size subsets, the
// empty one not counted, that a sheet holds.
type Proof struct {
	// Bound is what is proved; for a proof that no more pieces can be placed it
	// is 0.
	Bound int
	// X and Y are functions of lengths along x and y. They are superadditive
	// and never fall, so a sheet holds no more worth X(w)·Y(h) of pieces than
	// X and Y of its own sides give. With Both, Y(w)·X(h) is added.
	X, Y Function
	Both bool
	// Price is the worth by item, and Cap the greatest worth on a sheet by
	// stock: of all that can be cut at sums of the lengths of the pieces, or, if
	// Raster is not 0, when a length v is rounded down to v·(Raster−1)/Wide
	// along x and v·(Raster−1)/High along y; items that have nothing left then
	// may all be on it. Lengths include the kerf.
	//
	// Of the items in Once no more copies are on a sheet than there are; of the
	// others any number.
	Price, Cap []int64
	Once       []int
	Raster     int
	Wide, High int64
	// Root and Size are those of a proof by trial, else 0.
	Root, Size int
}

// A Function maps lengths from 0 to C to numbers.
type Function struct {
	Shape Shape
	C, K  int64
}

// A Shape is a family of dual feasible functions.
type Shape uint8

// The families, with what they make of x: Fekete & Schepers, Mathematical
// Programming 91, 2001, for thresholds and steps; Carlier, Clautiaux & Moukrim,
// Computers & Operations Research 34, 2007, for folds.
const (
	Plain     Shape = iota // x
	Threshold              // 0 below K, C above C − K, else x
	Steps                  // K·x if (K+1)·x/C is whole, else C times that rounded down
	Fold                   // ⌊x/K⌋ doubled, mirrored at C/2
)

// certificate makes the proof of a worth.
func (t *task) certificate(w *worth, bound int) *Proof {
	p := &Proof{Bound: bound, X: Function(w.x), Y: Function(w.y), Both: w.both, Raster: w.raster}
	if !w.priced {
		return p
	}
	p.Price, p.Cap = make([]int64, len(t.p.Items)), make([]int64, len(t.p.Stock))
	for q := range t.parts {
		p.Price[t.parts[q].item] = int64(w.part[q].Lo)
	}
	for i := range t.kinds {
		p.Cap[t.kinds[i].stock] = int64(w.cap[i].Lo)
	}
	for _, q := range w.once {
		p.Once = append(p.Once, t.parts[q].item)
	}
	if w.raster > 0 {
		for i := range t.kinds {
			p.Wide, p.High = max(p.Wide, t.kinds[i].w), max(p.High, t.kinds[i].h)
		}
	}
	return p
}

// prove puts what proves the result's bound into it.
func (v *solver) prove(r *Result) {
	t := v.t
	switch {
	case v.size > 0:
		r.Proof = &Proof{Bound: r.Bound, Root: t.total, Size: v.size}
		return
	case v.exact:
		r.Proof = &Proof{Bound: r.Bound, Root: t.total, Size: 1 << t.total}
		if v.m.short > 0 {
			r.NoMore = &Proof{Root: t.total, Size: 1 << t.total}
		}
		return
	case r.Bound > 0 && v.why != nil:
		r.Proof = t.certificate(v.why, r.Bound)
	}
	if v.m.short > 0 && v.allShow && v.noMore != nil {
		r.NoMore = t.certificate(v.noMore, 0)
	}
}
