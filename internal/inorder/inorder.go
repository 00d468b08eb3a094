// Package inorder sorts, and keeps what waits for its turn. A program holds a copy of what sorts for every type that is
// sorted, and in a browser that copy is fetched: this one has a tenth of the machine
// code of the one in package slices. It is quick where lists are short or nearly in
// order, as those of a folio are.
package inorder

import (
	"cmp"
	"slices"
)

// few is the length up to which a list is sorted without room for a second one.
const few = 24

// Sort sorts a list by how elements compare, as cmp.Compare says it; equal ones stay
// in their order. It takes n log n comparisons, and room for half the list where that
// has more than twenty-four elements.
func Sort[T any](list []T, compare func(a, b T) int) {
	var room []T
	if len(list) > few {
		room = make([]T, len(list)/2)
	}
	sort(list, room, compare)
}

// Set sorts a list and leaves each of its values in it once.
func Set[T cmp.Ordered](list []T) []T {
	Sort(list, cmp.Compare[T])
	return slices.Compact(list)
}

// Add puts a number into a rising list, unless it is there already.
func Add(list []int, n int) []int {
	at := len(list)
	for at > 0 && list[at-1] > n {
		at--
	}
	if at > 0 && list[at-1] == n {
		return list
	}
	if at == len(list) {
		return append(list, n)
	}
	list = append(list, 0)
	copy(list[at+1:], list[at:])
	list[at] = n
	return list
}

// sort has room for half the list, if that is long.
func sort[T any](list, room []T, compare func(a, b T) int) {
	if len(list) <= few {
		for i := range list {
			one, at := list[i], i
			for at > 0 && compare(one, list[at-1]) < 0 {
				list[at] = list[at-1]
				at--
			}
			list[at] = one
		}
		return
	}
	half := len(list) / 2
	sort(list[:half], room, compare)
	sort(list[half:], room, compare)
	left, right := room[:copy(room, list[:half])], list[half:]
	// What is written has been taken from the right or is kept in the room.
	for i := 0; len(left) > 0; i++ {
		if len(right) > 0 && compare(right[0], left[0]) < 0 {
			list[i], right = right[0], right[1:]
		} else {
			list[i], left = left[0], left[1:]
		}
	}
}
