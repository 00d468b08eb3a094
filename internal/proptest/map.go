package proptest

import (
	"reflect"
	"sync"

	"github.com/leanovate/gopter"
)

// Map returns a generator of what f makes of the values of g. Unlike the Map of
// gopter, which drops the shrinker where f changes the type, its values shrink:
// a value remembers what it was made of, that is shrunk, and f is applied
// again. So f need not have an inverse; it must give the same for the same
// value. Combined generators give an A of []any.
func Map[A, B any](g gopter.Gen, f func(A) B) gopter.Gen {
	m := &mapped[A, B]{f: f}
	return func(p *gopter.GenParameters) *gopter.GenResult {
		r := g(p)
		out := &gopter.GenResult{Labels: r.Labels, ResultType: reflect.TypeFor[B](), Shrinker: m.shrink}
		if v, ok := r.Retrieve(); ok {
			out.Result = m.remember(origin[A, B]{from: v.(A), shrinker: r.Shrinker, sieve: r.Sieve})
		}
		return out
	}
}

// An origin is a value of f with what it was made of. The shrinker and the
// sieve belong to the result that from came with: those of a generator may
// differ from value to value.
type origin[A, B any] struct {
	from     A
	to       B
	shrinker gopter.Shrinker
	sieve    func(any) bool
}

// mapped remembers the origins of the last values. They belong to the generator
// and not to one value because gopter shrinks every element of a slice by the
// shrinker of one of them.
type mapped[A, B any] struct {
	f    func(A) B
	mu   sync.Mutex
	last []origin[A, B]
	next int
}

// remembered is how many origins are kept: more than the elements of a
// generated slice and the candidates of one step of shrinking together.
const remembered = 4096

func (m *mapped[A, B]) remember(o origin[A, B]) B {
	o.to = m.f(o.from)
	m.mu.Lock()
	defer m.mu.Unlock()
	if len(m.last) < remembered {
		m.last = append(m.last, o)
	} else {
		m.last[m.next%remembered] = o
	}
	m.next++
	return o.to
}

// recall returns the latest origin of a value.
func (m *mapped[A, B]) recall(v any) (origin[A, B], bool) {
	m.mu.Lock()
	defer m.mu.Unlock()
	for i := m.next - 1; i >= 0 && i >= m.next-remembered; i-- {
		if o := m.last[i%remembered]; reflect.DeepEqual(any(o.to), v) {
			return o, true
		}
	}
	return origin[A, B]{}, false
}

func (m *mapped[A, B]) shrink(v any) gopter.Shrink {
	o, ok := m.recall(v)
	if !ok {
		return gopter.NoShrink
	}
	smaller := o.shrinker(o.from).Filter(o.sieve)
	return func() (any, bool) {
		v, ok := smaller()
		if !ok {
			return nil, false
		}
		return m.remember(origin[A, B]{from: v.(A), shrinker: o.shrinker, sieve: o.sieve}), true
	}
}
