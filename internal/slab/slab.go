// Package slab keeps many short lists in few allocations.
package slab

// A Slab keeps lists of one type, one behind the other. The zero Slab is ready for
// use.
type Slab[T any] struct{ room []T }

// Of returns a slab that begins with room for n elements.
func Of[T any](n int) Slab[T] { return Slab[T]{make([]T, 0, n)} }

// usual is for how many elements room is made at a time.
const usual = 64

// Keep returns a copy of a list: nothing that is kept later lies in it, and
// appending to it changes nothing else. Of an empty list it is nil.
func (s *Slab[T]) Keep(list ...T) []T {
	if len(list) == 0 {
		return nil
	}
	if cap(s.room)-len(s.room) < len(list) {
		s.room = make([]T, 0, max(usual, len(list)))
	}
	from := len(s.room)
	s.room = append(s.room, list...)
	return s.room[from:len(s.room):len(s.room)]
}
