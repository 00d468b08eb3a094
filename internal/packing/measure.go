package packing

// measure is what layouts are compared by.
type measure struct {
	short    int
	ordinary int
	cost     int64
	first    int
	offcut   Area // the largest leftover along a whole side of a sheet
}

func (a measure) less(b measure) bool {
	switch {
	case a.short != b.short:
		return a.short < b.short
	case a.ordinary != b.ordinary:
		return a.ordinary < b.ordinary
	case a.cost != b.cost:
		return a.cost < b.cost
	case a.first != b.first:
		return a.first < b.first
	}
	return a.offcut.Cmp(b.offcut) > 0
}

func (v *solver) measure(sheets []stacked, short []int) measure {
	var m measure
	v.mt.work(int64(len(sheets)+len(short))/4 + 1)
	for _, n := range short {
		m.short += n
	}
	for i := range sheets {
		k := &v.t.kinds[sheets[i].b.kind]
		m.cost += k.cost * int64(sheets[i].times)
		if a := sheets[i].b.offcut(k); a.Cmp(m.offcut) > 0 {
			m.offcut = a
		}
		if k.first {
			m.first += sheets[i].times
		} else {
			m.ordinary += sheets[i].times
		}
	}
	return m
}

// calmer reports whether sheets need fewer settings than the best layout.
func (v *solver) calmer(sheets []stacked) bool {
	nodes := 0
	for i := range sheets {
		nodes += len(sheets[i].b.nodes)
	}
	v.mt.work(int64(2 * settingsEach * nodes))
	now, ok := v.t.settings(v.mt, sheets)
	if !ok {
		return false
	}
	before, ok := v.t.settings(v.mt, v.best)
	return ok && now < before
}

// mixed reports whether layouts of as many sheets can differ in cost.
func (t *task) mixed() bool { return len(t.kinds) > 1 }

// offcut is the largest leftover along a whole side of the sheet.
func (b *bin) offcut(k *kind) Area {
	if b.root < 0 {
		return mulArea(k.w, k.h)
	}
	r := &b.nodes[b.root]
	x, y := mulArea(k.w-r.w, k.h), mulArea(k.w, k.h-r.h)
	if x.Cmp(y) > 0 {
		return x
	}
	return y
}

// settingsEach is the work of counting settings, for each node of a sheet.
const settingsEach = 20

// settings counts the different settings of the fence in a layout, which is charged
// already; false if the Stopper ended it.
func (t *task) settings(mt *meter, sheets []stacked) (n int, ok bool) {
	seen := map[int64]bool{}
	m := maker{t: t, brief: true}
	for i := range sheets {
		m.b, m.nodes = &sheets[i].b, m.nodes[:0]
		m.make()
		if mt.past(settingsEach * int64(len(m.b.nodes))) {
			return 0, false
		}
		for _, n := range m.nodes {
			if n.Use == CutX || n.Use == CutY {
				seen[n.At] = true
			}
		}
	}
	return len(seen), true
}
