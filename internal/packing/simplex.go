package packing

// master is the linear program of column generation: the fewest sheets, whole
// or not, whose patterns make up the demand. It is solved by the revised
// simplex method with an explicit inverse. Its floating point only suggests
// prices and patterns; nothing is proved by it. Products are converted before
// they are added, which keeps them from being fused and so the answer the same
// on every machine.
type master struct {
	m     int
	need  []float64
	inv   [][]float64
	x     []float64
	col   [][]float64 // of the basis
	cost  []float64
	name  []int // pattern in the basis; −1: surplus
	price []float64
	age   int // columns since price was worked out
}

// newMaster starts from patterns that make unit[i] of part i only.
func newMaster(need, unit []float64, names []int) *master {
	m := len(need)
	l := &master{m: m, need: need, price: make([]float64, m)}
	for i := 0; i < m; i++ {
		inv, c := make([]float64, m), make([]float64, m)
		inv[i], c[i] = 1/unit[i], unit[i]
		l.inv, l.col = append(l.inv, inv), append(l.col, c)
		l.x = append(l.x, need[i]/unit[i])
		l.cost = append(l.cost, 1)
		l.name = append(l.name, names[i])
	}
	return l
}

// prices are the dual prices. They are carried along from column to column and
// worked out anew now and then, so that errors do not add up.
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
func (l *master) value() float64 {
	s := 0.0
	for i, c := range l.cost {
		if c != 0 {
			s += l.x[i]
		}
	}
	return s
}

// enter brings a column into the basis; false if it cannot.
func (l *master) enter(a []float64, cost float64, name int) bool {
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
		return false
	}
	lack := cost
	for j, v := range a {
		if v != 0 {
			lack -= float64(l.price[j] * v)
		}
	}
	p := 1 / d[r]
	for j := range l.inv[r] {
		l.inv[r][j] *= p
	}
	for i := range d {
		if f := d[i]; i != r && f != 0 {
			l.x[i] -= float64(f * least)
			ri, rr := l.inv[i], l.inv[r]
			for j, v := range rr {
				ri[j] -= float64(f * v)
			}
		}
	}
	for j, v := range l.inv[r] {
		l.price[j] += float64(lack * v)
	}
	l.x[r] = least
	l.col[r], l.cost[r], l.name[r] = a, cost, name
	return true
}
