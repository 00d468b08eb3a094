package packing

import (
	"math"
	"math/rand"
	"testing"

	"boardwrap.example/internal/proptest"
)

// solved brings columns in as long as one gains: column names count from 0, behind
// the columns of one row each that the program starts with.
func solved(t *testing.T, l *master, cols [][]float64) {
	t.Helper()
	for range 100_000 {
		pi := l.prices()
		best, top := -1, 1e-9
		for r, p := range pi {
			if -p > top {
				best, top = r, -p
			}
		}
		if best >= 0 {
			if !l.exceed(best) {
				t.Fatal("a surplus cannot enter")
			}
			continue
		}
		for i, a := range cols {
			if g := worthOf(a, pi) - 1; g > top {
				best, top = i, g
			}
		}
		if best < 0 {
			return
		}
		if !l.enter(cols[best], best) {
			t.Fatal("a column cannot enter")
		}
	}
	t.Fatal("no end")
}

func worthOf(a, pi []float64) float64 {
	s := 0.0
	for r, v := range a {
		s += float64(v * pi[r])
	}
	return s
}

// without is a list without place r.
func without(a []float64, r int) []float64 {
	return append(append([]float64{}, a[:r]...), a[r+1:]...)
}

// best holds that a program has the least value for what is needed: as much is
// made as that, nothing gains, and the prices are worth the value (strong duality;
// Dantzig, Linear Programming and Extensions, 1963, chapter 6).
func best(t *testing.T, l *master, need []float64, cols [][]float64) {
	t.Helper()
	made := make([]float64, len(need))
	for i, name := range l.name {
		if l.x[i] < -1e-6 {
			t.Errorf("a pattern %v times", l.x[i])
		}
		if name >= 0 {
			for r, v := range cols[name] {
				made[r] += float64(v * l.x[i])
			}
		}
	}
	pi := l.prices()
	for r, n := range need {
		if made[r] < n-1e-6 {
			t.Errorf("row %d: made %v of %v", r, made[r], n)
		}
		if pi[r] < -1e-6 {
			t.Errorf("row %d has the price %v", r, pi[r])
		}
	}
	for i, a := range cols {
		if g := worthOf(a, pi); g > 1+1e-6 {
			t.Errorf("column %d is worth %v", i, g)
		}
	}
	if w := worthOf(need, pi); math.Abs(w-l.value()) > 1e-5 {
		t.Errorf("worth %v, value %v", w, l.value())
	}
}

// exactly holds that patterns less surpluses are just what is needed.
func exactly(t *testing.T, l *master, need []float64, cols [][]float64) {
	t.Helper()
	made := make([]float64, len(need))
	for i, name := range l.name {
		if name < 0 {
			made[l.over[i]] -= l.x[i]
			continue
		}
		for r, v := range cols[name] {
			made[r] += float64(v * l.x[i])
		}
	}
	for r, n := range need {
		if math.Abs(made[r]-n) > 1e-6 {
			t.Errorf("row %d: made %v of %v", r, made[r], n)
		}
	}
}

// A program of which rows are left out, or of which less is needed, goes on from
// where it was to what is best for the rest, and the one that it was cloned from
// stays as it is.
func TestProgramsGoOnWithLess(t *testing.T) {
	r := rand.New(rand.NewSource(31))
	drops, surpluses, lessened := 0, 0, 0
	for range proptest.Cases(300) {
		m := 1 + r.Intn(9)
		var need, unit []float64
		var cols [][]float64
		var names []int
		for i := range m {
			need, unit, names = append(need, float64(1+r.Intn(4))), append(unit, 1), append(names, i)
			a := make([]float64, m)
			a[i] = 1
			cols = append(cols, a)
		}
		for range r.Intn(3 * m) {
			a := make([]float64, m)
			for range 1 + r.Intn(4) {
				a[r.Intn(m)] = float64(1 + r.Intn(2))
			}
			cols = append(cols, a)
		}
		whole := newMaster(append([]float64{}, need...), unit, names)
		if solved(t, whole, cols); r.Intn(4) == 0 {
			whole = newMaster(append([]float64{}, need...), unit, names) // not at its best yet
		}
		value := whole.value()
		l := whole.clone()
		left, some := append([]float64{}, need...), append([][]float64{}, cols...)
		for l.m > 0 {
			q := r.Intn(l.m)
			if r.Intn(3) == 0 && left[q] > 1 {
				lessened++
				left[q]--
				l.lessen(q, 1)
			} else {
				drops++
				if l.slack(q).in >= 0 {
					surpluses++
				}
				l.drop(q)
				left = without(left, q)
				for i := range some {
					some[i] = without(some[i], q)
				}
			}
			if l.m != len(left) {
				t.Fatalf("%d rows are left, not %d", l.m, len(left))
			}
			exactly(t, l, left, some)
			if r.Intn(2) == 0 {
				solved(t, l, some)
				best(t, l, left, some)
			}
		}
		if l.value() != 0 || whole.value() != value || len(whole.inv) != m {
			t.Errorf("in the end %v; the whole was worth %v and is %v", l.value(), value, whole.value())
		}
	}
	if n := proptest.Cases(300); drops < n || surpluses < n/10 || lessened < n/10 {
		t.Errorf("%d rows left out, %d of them with a surplus in the basis; %d times less", drops, surpluses, lessened)
	}
}
