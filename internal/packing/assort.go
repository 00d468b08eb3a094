package packing

// An assortment is what goes together on a rectangle, no piece more often than it is
// there: by rectangle of a grid the worthiest few sets of pieces, put together from
// those of the two parts that a cut makes. A grid alone comes by patterns that hold a
// dear piece twice; these can all be laid, but as only a few are kept, better ones may
// be missed. It proves nothing.
type assortment struct {
	t      *task
	mt     *meter
	g      *grid // exact, counting no copies
	need   []int
	price  []int64
	first  []int // by part: the number of its first piece
	copies []int // parts of more than one piece
	keep   int   // sets that a rectangle keeps
	least  int64
	all    []set
	// By [y][x]: places of pieces as large as a rectangle, the sets that it keeps, and
	// what a sheet may hold beside it.
	lone [][]int32
	kept [][]ranking
	rest []int64
	// What the worthiest set is worth, by [y][x] and by [x][y].
	topX, topY []int64
	// Where more goes on a rectangle than on the one that is a point shorter, cuts are
	// tried: by y the points of x, and by x those of y.
	stepX, stepY [][]int32
	lessX, lessY [][]int16 // points of what one point leaves of another
	moreX, moreY [][]int16 // points of the sum of two
}

// set is a set of pieces that lie together: two that a cut puts apart, or a piece.
type set struct {
	of   pieces
	a, b int32 // in all; the number of a place of the grid and −1
	dir  dir
}

// pieces is a set of pieces by number. Those of a part are numbered one after the
// other, and the first so many of them stand for so many.
type pieces [pieceBits / 64]uint64

func (p *pieces) has(i int) bool { return p[i>>6]>>(i&63)&1 != 0 }
func (p *pieces) add(i int)      { p[i>>6] |= 1 << (i & 63) }

// ranking is a set among others on a rectangle.
type ranking struct {
	worth int64
	at    int32 // in all
	dear  int32 // its dearest part
}

// pieceBits is how many pieces an assortment has room for.
const pieceBits = 256

var _ [pieceBits - weaveMost]struct{} // there is room for all

// mostKept bounds the sets that all rectangles of an assortment keep.
const mostKept = 1 << 21

// keptWhole is the number of sets of which a whole sheet keeps the worthiest.
const keptWhole = 16

func newAssortment(t *task, mt *meter, g *grid) *assortment {
	s := &assortment{t: t, mt: mt, g: g, first: make([]int, len(t.parts))}
	n := 0
	for q := range t.parts {
		s.first[q] = n
		if n += t.parts[q].n; t.parts[q].n > 1 {
			s.copies = append(s.copies, q)
		}
	}
	nx, ny := len(g.xs), len(g.ys)
	s.lone, s.kept, s.rest = make([][]int32, nx*ny), make([][]ranking, nx*ny), make([]int64, nx*ny)
	s.topX, s.topY = make([]int64, nx*ny), make([]int64, nx*ny)
	for i, p := range g.at {
		at := int(p.y)*nx + int(p.x)
		s.lone[at] = append(s.lone[at], int32(i))
	}
	s.stepX, s.stepY = make([][]int32, ny), make([][]int32, nx)
	s.lessX, s.lessY = remainders(g.xs), remainders(g.ys)
	s.moreX, s.moreY = sums(g.xs, g.mx), sums(g.ys, g.my)
	mt.work(int64(nx*nx+ny*ny)/2 + int64(nx*ny)/4)
	return s
}

// remainders are the points that one point leaves of another.
//
//go:noinline
func remainders(ps []int64) [][]int16 {
	less := make([][]int16, len(ps))
	for i := range ps {
		k := i
		for j := range ps[:i+1] {
			for ps[k] > ps[i]-ps[j] {
				k--
			}
			less[i] = append(less[i], int16(k))
		}
	}
	return less
}

// sums are the points of the sums of two points, as far as they are no more than most.
//
//go:noinline
func sums(ps []int64, most int64) [][]int16 {
	more := make([][]int16, len(ps))
	for i := range ps {
		k := i
		for _, p := range ps {
			if ps[i]+p > most {
				break
			}
			for k+1 < len(ps) && ps[k+1] <= ps[i]+p {
				k++
			}
			more[i] = append(more[i], int16(k))
		}
	}
	return more
}

// fill puts together, of the copies that are needed, what may be part of a sheet that
// is worth no less than least at prices by part. It reports false if it did not come
// to its end before limit.
func (s *assortment) fill(need []int, price []int64, keep int, least, limit int64) bool {
	g := s.g
	s.need, s.price, s.keep, s.least, s.all = need, price, keep, least, s.all[:0]
	if !g.run(s.mt, price) {
		return false
	}
	s.beside()
	for i := range s.kept {
		s.kept[i] = s.kept[i][:0]
	}
	for y := range s.stepX {
		s.stepX[y] = s.stepX[y][:0]
	}
	for x := range s.stepY {
		s.stepY[x] = s.stepY[x][:0]
	}
	s.mt.work(int64(len(s.kept))/4 + 1)
	for y := 1; y <= g.ky[0]; y++ {
		for x := 1; x <= g.kx[0]; x++ {
			s.mt.work(s.rectangle(x, y))
			if s.mt.spent(limit) {
				return false
			}
		}
	}
	return true
}

// nothing is what is on a rectangle that holds no set.
const nothing int64 = -priceScale << 20

// cutsEach is how many cuts of which nothing comes take a step.
const cutsEach = 8

// rectangle fills one rectangle, and returns its work.
func (s *assortment) rectangle(x, y int) int64 {
	nx, ny := len(s.g.xs), len(s.g.ys)
	at := y*nx + x
	for _, i := range s.lone[at] {
		if q := s.g.at[i].part; s.need[q] > 0 && s.price[q] > 0 {
			n := set{a: i, b: -1}
			n.of.add(s.first[q])
			s.offer(at, s.price[q], q, n)
		}
	}
	work := 4 + s.inherit(at, at-1) + s.inherit(at, at-nx)
	low, cuts := s.low(at), int64(0)
	top, less := s.topX[y*nx:(y+1)*nx], s.lessX[x]
	for _, a := range s.stepX[y] {
		b := int32(less[a])
		if b < a {
			break
		}
		cuts++
		if top[a]+top[b] >= low {
			work += s.join(at, y*nx+int(a), y*nx+int(b), row)
			low = s.low(at)
		}
	}
	top, less = s.topY[x*ny:(x+1)*ny], s.lessY[y]
	for _, a := range s.stepY[x] {
		b := int32(less[a])
		if b < a {
			break
		}
		cuts++
		if top[a]+top[b] >= low {
			work += s.join(at, int(a)*nx+x, int(b)*nx+x, col)
			low = s.low(at)
		}
	}
	work += cuts / cutsEach
	best := nothing
	if k := s.kept[at]; len(k) > 0 {
		best = k[0].worth
	}
	s.topX[at], s.topY[x*ny+y] = best, best
	if s.gains(at, at-1) {
		s.stepX[y] = append(s.stepX[y], int32(x))
	}
	if s.gains(at, at-nx) {
		s.stepY[x] = append(s.stepY[x], int32(y))
	}
	return work
}

// gains reports whether something goes on a rectangle that a smaller one does not keep.
//
//go:noinline
func (s *assortment) gains(at, from int) bool {
	a, b := s.kept[at], s.kept[from]
	if len(a) > len(b) {
		return true
	}
	for i := range a {
		if a[i].at != b[i].at {
			return true
		}
	}
	return false
}

// beside works out from what the grid says of rectangles, each piece as often as one
// likes, what a sheet may hold beside one that lies in its corner.
func (s *assortment) beside() {
	g := s.g
	nx, ny := len(g.xs), len(g.ys)
	stepX, stepY := make([][]int, ny), make([][]int, nx)
	for y := 1; y < ny; y++ {
		for x := 1; x < nx; x++ {
			v := g.f[y*nx+x]
			if v > g.f[y*nx+x-1] {
				stepX[y] = append(stepX[y], x)
			}
			if v > g.f[(y-1)*nx+x] {
				stepY[x] = append(stepY[x], y)
			}
		}
	}
	s.mt.work(int64(nx*ny) / 4)
	for y := g.ky[0]; y >= 0 && !s.mt.stopped; y-- {
		work := int64(1)
		for x := g.kx[0]; x >= 0; x-- {
			best := int64(0)
			if x < g.kx[0] {
				best = s.rest[y*nx+x+1]
			}
			if y < g.ky[0] {
				best = max(best, s.rest[(y+1)*nx+x])
			}
			for _, p := range stepX[y] {
				if p >= len(s.moreX[x]) {
					break
				}
				work++
				best = max(best, g.f[y*nx+p]+s.rest[y*nx+int(s.moreX[x][p])])
			}
			for _, p := range stepY[x] {
				if p >= len(s.moreY[y]) {
					break
				}
				work++
				best = max(best, g.f[p*nx+x]+s.rest[int(s.moreY[y][p])*nx+x])
			}
			s.rest[y*nx+x] = best
		}
		s.mt.work(work / 4)
	}
}

// low is the worth from which on a set is offered to a rectangle.
//
//go:noinline
func (s *assortment) low(at int) int64 {
	low := s.least - s.rest[at]
	if k := s.kept[at]; len(k) == s.most(at) {
		low = max(low, k[len(k)-1].worth+1)
	}
	return low
}

// most is how many sets a rectangle keeps.
func (s *assortment) most(at int) int {
	if at == s.whole() {
		return max(s.keep, keptWhole)
	}
	return s.keep
}

// whole is the rectangle of a sheet.
func (s *assortment) whole() int { return s.g.ky[0]*len(s.g.xs) + s.g.kx[0] }

// inherit takes over what goes on a smaller rectangle, and returns its work.
func (s *assortment) inherit(at, from int) int64 {
	for _, r := range s.kept[from] {
		if r.worth < s.low(at) {
			break
		}
		s.rank(at, r, &s.all[r.at].of)
	}
	return int64(len(s.kept[from]))
}

// join puts together what goes on two rectangles, and returns its work.
func (s *assortment) join(at, a, b int, d dir) int64 {
	as, bs := s.kept[a], s.kept[b]
	low, work := s.low(at), int64(1)
	for _, p := range as {
		if p.worth+bs[0].worth < low {
			break
		}
		for _, o := range bs {
			if p.worth+o.worth < low {
				break
			}
			work++
			if of, ok := s.union(&s.all[p.at].of, &s.all[o.at].of); ok {
				dear := p.dear
				if s.price[o.dear] > s.price[dear] {
					dear = o.dear
				}
				s.offer(at, p.worth+o.worth, dear, set{of, p.at, o.at, d})
				low = s.low(at)
			}
		}
	}
	return work
}

// union is what is in two sets; false if that is more than is needed.
//
//go:noinline
func (s *assortment) union(a, b *pieces) (u pieces, ok bool) {
	clash := false
	for i := range u {
		u[i] = a[i] | b[i]
		clash = clash || a[i]&b[i] != 0
	}
	if !clash {
		return u, true
	}
	var both pieces
	for i := range u {
		both[i] = a[i] & b[i]
	}
	for _, q := range s.copies {
		one := s.first[q]
		if !both.has(one) {
			continue
		}
		n := 0
		for i := one; i < one+s.t.parts[q].n; i++ {
			if a.has(i) {
				n++
			}
			if b.has(i) {
				n++
			}
			both[i>>6] &^= 1 << (i & 63)
		}
		if n > s.need[q] {
			return u, false
		}
		for i := one; i < one+n; i++ {
			u.add(i)
		}
	}
	return u, both == pieces{}
}

// offer ranks a new set among what goes on a rectangle, if it is worth that.
func (s *assortment) offer(at int, worth int64, dear int32, n set) {
	if worth < s.low(at) {
		return
	}
	if s.rank(at, ranking{worth, int32(len(s.all)), dear}, &n.of) {
		s.all = append(s.all, n)
	}
}

// rank puts a set where it belongs among what goes on a rectangle; false if it is there
// already, or if there are enough of the same dearest part: sets that differ in little
// would leave no place for others.
func (s *assortment) rank(at int, r ranking, of *pieces) bool {
	k := s.kept[at]
	i := len(k)
	for ; i > 0 && k[i-1].worth <= r.worth; i-- {
		if k[i-1].worth == r.worth && s.all[k[i-1].at].of == *of {
			return false
		}
	}
	same, last := 0, len(k)
	for j := range k {
		if k[j].dear == r.dear {
			same, last = same+1, j
		}
	}
	switch {
	case same >= (s.most(at)+1)/2:
		if last < i {
			return false
		}
	case len(k) < s.most(at):
		k = append(k, r)
		last = len(k) - 1
	default:
		last = len(k) - 1
	}
	copy(k[i+1:last+1], k[i:last])
	k[i] = r
	s.kept[at] = k
	return true
}

// bin is the tree of a set.
func (s *assortment) bin(at int32) bin {
	var b bin
	b.clear(0)
	b.root = s.tree(&b, at)
	b.refresh(&s.t.kinds[0])
	return b
}

func (s *assortment) tree(b *bin, at int32) int32 {
	n := &s.all[at]
	if n.b >= 0 {
		return b.join(n.dir, s.tree(b, n.a), s.tree(b, n.b))
	}
	p := &s.g.at[n.a]
	q := &s.t.parts[p.part]
	w, h := q.w, q.h
	if p.turned {
		w, h = h, w
	}
	b.used += q.score
	b.count++
	return b.alloc(node{w: w, h: h, up: -1, down: -1, next: -1, piece: p.part, dir: leaf, turned: p.turned})
}
