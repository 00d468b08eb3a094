package inorder

// A Queue gives back what was put into it in order, whatever comes in between: a heap, of
// which each is before the two below it.
type Queue[T any] struct {
	before func(a, b T) bool
	heap   []T
}

// NewQueue returns a queue of some, of which one is before another as before says it.
func NewQueue[T any](before func(a, b T) bool, some ...T) *Queue[T] {
	q := &Queue[T]{before: before}
	for _, v := range some {
		q.Push(v)
	}
	return q
}

// Len is how many wait.
func (q *Queue[T]) Len() int { return len(q.heap) }

// Push puts one in.
func (q *Queue[T]) Push(v T) {
	q.heap = append(q.heap, v)
	for at := len(q.heap) - 1; at > 0; {
		above := (at - 1) / 2
		if !q.before(q.heap[at], q.heap[above]) {
			break
		}
		q.swap(at, above)
		at = above
	}
}

// Pop takes out one that no other is before. There must be one.
func (q *Queue[T]) Pop() T {
	last := len(q.heap) - 1
	q.swap(0, last)
	v := q.heap[last]
	q.heap = q.heap[:last]
	for at := 0; ; {
		below := 2*at + 1
		if below >= last {
			return v
		}
		if below+1 < last && q.before(q.heap[below+1], q.heap[below]) {
			below++
		}
		if !q.before(q.heap[below], q.heap[at]) {
			return v
		}
		q.swap(at, below)
		at = below
	}
}

func (q *Queue[T]) swap(i, j int) { q.heap[i], q.heap[j] = q.heap[j], q.heap[i] }
