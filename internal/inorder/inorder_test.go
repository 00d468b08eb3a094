package inorder_test

import (
	"cmp"
	"slices"
	"testing"

	"boardwrap.example/internal/inorder"
	"boardwrap.example/internal/proptest"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"
)

// What is equal stays in its order, as in package slices.
func TestSort(t *testing.T) {
	type one struct{ key, place int }
	compare := func(a, b one) int { return cmp.Compare(a.key, b.key) }
	proptest.Run(t, 2000, func(p *gopter.Properties) {
		p.Property("as slices.SortStableFunc sorts", prop.ForAll(func(keys []int) bool {
			list := make([]one, len(keys))
			for i, k := range keys {
				list[i] = one{k, i}
			}
			want := slices.Clone(list)
			slices.SortStableFunc(want, compare)
			inorder.Sort(list, compare)
			return slices.Equal(list, want)
		}, gen.SliceOf(gen.IntRange(-9, 9))))
	})
}

// A hostile list is sorted with n log n comparisons.
func TestSortCompares(t *testing.T) {
	for _, n := range []int{0, 1, 24, 25, 1 << 16} {
		for name, at := range map[string]func(i int) int{
			"rising": func(i int) int { return i }, "falling": func(i int) int { return -i },
			"saw": func(i int) int { return i % 7 }, "organ": func(i int) int { return min(i, n-i) },
		} {
			list := make([]int, n)
			for i := range list {
				list[i] = at(i)
			}
			compared := 0
			inorder.Sort(list, func(a, b int) int { compared++; return cmp.Compare(a, b) })
			if !slices.IsSorted(list) || compared > 24*n {
				t.Errorf("%s of %d: sorted %t with %d comparisons", name, n, slices.IsSorted(list), compared)
			}
		}
	}
}

// Numbers added one by one, in any order, are those there are, rising and each once.
func TestAdd(t *testing.T) {
	p := gopter.NewProperties(proptest.Parameters(200))
	p.Property("as sorted and compacted", prop.ForAll(func(all []int) bool {
		var list []int
		for _, n := range all {
			list = inorder.Add(list, n)
		}
		slices.Sort(all)
		return slices.Equal(list, slices.Compact(all))
	}, gen.SliceOf(gen.IntRange(-5, 5))))
	p.TestingRun(t)
}

// What was put in comes out in order, whatever is put in in between, and each once.
func TestQueue(t *testing.T) {
	p := gopter.NewProperties(proptest.Parameters(500))
	p.Property("as the least of a list", prop.ForAll(func(begin, all []int) bool {
		q := inorder.NewQueue(func(a, b int) bool { return a < b }, begin...)
		waiting := slices.Clone(begin)
		take := func() bool {
			least := slices.Min(waiting)
			at := slices.Index(waiting, least)
			waiting = slices.Delete(waiting, at, at+1)
			return q.Pop() == least && q.Len() == len(waiting)
		}
		for _, n := range all {
			if n%3 == 0 && len(waiting) > 0 {
				if !take() {
					return false
				}
				continue
			}
			q.Push(n)
			waiting = append(waiting, n)
		}
		for len(waiting) > 0 {
			if !take() {
				return false
			}
		}
		return q.Len() == 0
	}, gen.SliceOf(gen.IntRange(-9, 9)), gen.SliceOf(gen.IntRange(-99, 99))))
	p.TestingRun(t)
}

// Each value stays once, in order.
func TestSet(t *testing.T) {
	proptest.Run(t, 500, func(p *gopter.Properties) {
		p.Property("as slices.Sort and slices.Compact", prop.ForAll(func(list []int) bool {
			want := slices.Clone(list)
			slices.Sort(want)
			return slices.Equal(inorder.Set(list), slices.Compact(want))
		}, gen.SliceOf(gen.IntRange(-9, 9))))
	})
}
