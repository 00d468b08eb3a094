package pocket

import (
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// over sets the sides of a size that are given, and returns their paths.
func over(l *check.List, path string, s *units.Size, room units.Size) [2]string {
	fields := [2]string{path + ".w", path + ".h"}
	hand(l, fields[0], &s.W, room.W)
	hand(l, fields[1], &s.H, room.H)
	return fields
}

// hand sets a field to a side of the room at hand, if that is given.
func hand(l *check.List, path string, field *units.Length, room units.Length) {
	if room == 0 {
		return
	}
	if *field != 0 {
		l.Malformed(path, check.Conflict, "a size of its own and room at hand", "one of the two")
	}
	*field = room
}
