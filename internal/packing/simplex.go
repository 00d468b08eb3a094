package packing

import "slices"

// master is the linear program of column generation: the fewest sheets, whole
// or not, whose patterns make up the demand. It is solved by the revised
// simplex method with an explicit inverse. Its floating point only suggests
// prices and patterns; nothing is proved by it. Products are converted before
// they are added, which keeps them from being fused and so the answer the same
// on every machine.
type master struct {
	m     int
	inv   [][]float64
	x     []float64
	cost  []float64
	name  []int // pattern in the basis; −1: surplus
	over  []int // row of which it is the surplus; −1: pattern
	price []float64
	age   int // columns since price was worked out
}

// newMaster starts from patterns that make unit[i] of part i only.
func newMaster(need, unit []float64, names []int) *master {
	m := len(need)
	l := &master{m: m, price: make([]float64, m)}
	for i := 0; i < m; i++ {
		inv := make([]float64, m)
		inv[i] = 1 / unit[i]
		l.inv, l.over = append(l.inv, inv), append(l.over, -1)
		l.x = append(l.x, need[i]/unit[i])
		l.cost = append(l.cost, 1)
		l.name = append(l.name, names[i])
	}
	return l
}

// prices are the dual prices. They are carried along from column to column and
// worked out anew now and then, so that errors do not add up.
//
//go:noinline
func (l *master) prices() []float64 {
	if l.age++; l.age < 64 && l.age > 1 {
		return l.price
	}
	l.age = 1
	clear(l.price)
	for i, c := range l.cost {
		if c != 0 {
			for j, v := range l.inv[i] {
				l.price[j] += v
			}
		}
	}
	return l.price
}

// value of the program.
//
//go:noinline
func (l *master) value() float64 {
	s := 0.0
	for i, c := range l.cost {
		if c != 0 {
			s += l.x[i]
		}
	}
	return s
}

// enter brings a pattern into the basis; false if it cannot.
//
//go:noinline
func (l *master) enter(a []float64, name int) bool { return l.bring(a, 1, name) >= 0 }

// exceed brings the surplus of row r into the basis; false if it cannot.
func (l *master) exceed(r int) bool {
	a := make([]float64, l.m)
	a[r] = -1
	at := l.bring(a, 0, -1)
	if at >= 0 {
		l.over[at] = r
	}
	return at >= 0
}

// bring brings a column into the basis and returns its place there, −1 if it
// cannot.
func (l *master) bring(a []float64, cost float64, name int) int {
	const tiny = 1e-9
	d := make([]float64, l.m)
	for i := range d {
		s := 0.0
		for j, v := range a {
			if v != 0 {
				s += float64(l.inv[i][j] * v)
			}
		}
		d[i] = s
	}
	r, least := -1, 0.0
	for i, v := range d {
		if v > tiny {
			if q := max(0, l.x[i]) / v; r < 0 || q < least-1e-12 || q <= least && v > d[r] {
				r, least = i, q
			}
		}
	}
	if r < 0 {
		return -1
	}
	for i, v := range d {
		l.x[i] -= float64(v * least)
	}
	l.pivot(r, d, a, cost, name)
	l.x[r] = least
	return r
}

// pivot puts a column at place r of the basis; d is the column in terms of the
// basis so far.
func (l *master) pivot(r int, d, a []float64, cost float64, name int) {
	lack := cost
	for j, v := range a {
		if v != 0 {
			lack -= float64(l.price[j] * v)
		}
	}
	p := 1 / d[r]
	rr := l.inv[r]
	for j := range rr {
		rr[j] = float64(rr[j] * p)
	}
	for i, f := range d {
		if i != r && f != 0 {
			ri := l.inv[i]
			for j, v := range rr {
				ri[j] -= float64(f * v)
			}
		}
	}
	for j, v := range rr {
		l.price[j] += float64(lack * v)
	}
	l.cost[r], l.name[r], l.over[r] = cost, name, -1
}

// lessen takes n off what is needed of row r, and keeps the solution feasible.
func (l *master) lessen(r int, n float64) {
	s := l.slack(r)
	if s.in < 0 && s.least < n {
		n -= s.least
		l.slacken(r, &s)
	}
	if s.in >= 0 {
		l.x[s.in] += n
		return
	}
	for i, v := range s.d {
		l.x[i] += float64(n * v)
	}
}

// drop leaves row r out: nothing is needed of it any more. Where its surplus is in
// the basis, what is left when both are left out is a basis again, and the rest
// of the inverse is its inverse.
func (l *master) drop(r int) {
	s := l.slack(r)
	if s.in < 0 {
		l.slacken(r, &s)
	}
	l.m--
	l.price = slices.Delete(l.price, r, r+1)
	l.inv, l.x = slices.Delete(l.inv, s.in, s.in+1), slices.Delete(l.x, s.in, s.in+1)
	l.cost, l.name = slices.Delete(l.cost, s.in, s.in+1), slices.Delete(l.name, s.in, s.in+1)
	l.over = slices.Delete(l.over, s.in, s.in+1)
	for i, row := range l.inv {
		l.inv[i] = slices.Delete(row, r, r+1)
	}
	for i, o := range l.over {
		if o > r {
			l.over[i]--
		}
	}
}

// A slack is the surplus of a row in terms of the basis.
type slack struct {
	d  []float64
	in int // its place in the basis, −1 for none
	// If it has none: how much less may be needed until one of the basis gets to
	// nothing, and which. There is always one: a row of which nothing that makes it
	// is in the basis has its surplus there.
	out   int
	least float64
}

func (l *master) slack(r int) slack {
	const tiny = 1e-9
	s := slack{d: make([]float64, l.m), in: slices.Index(l.over, r), out: -1}
	for i := range s.d {
		s.d[i] = -l.inv[i][r]
		if q := max(0, l.x[i]); s.d[i] < -tiny && (s.out < 0 || q < s.least*-s.d[i]) {
			s.out, s.least = i, q/-s.d[i]
		}
	}
	return s
}

// slacken has so much less needed of row r that one of the basis gets to nothing,
// and puts the row's surplus in its place.
func (l *master) slacken(r int, s *slack) {
	for i, v := range s.d {
		l.x[i] += float64(s.least * v)
	}
	a := make([]float64, l.m)
	a[r] = -1
	l.pivot(s.out, s.d, a, 0, -1)
	l.over[s.out], l.x[s.out] = r, 0
	s.in = s.out
}

// clone copies the program.
func (l *master) clone() *master {
	n := *l
	n.x, n.cost = slices.Clone(l.x), slices.Clone(l.cost)
	n.over, n.name, n.price = slices.Clone(l.over), slices.Clone(l.name), slices.Clone(l.price)
	n.inv = make([][]float64, l.m)
	for i, r := range l.inv {
		n.inv[i] = slices.Clone(r)
	}
	return &n
}
