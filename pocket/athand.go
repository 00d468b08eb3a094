package pocket

import (
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// AtHand returns the kind with the width and the height at hand for it, closed
// and with what stands out of it, in the fields that take them: Place, Panel or
// Leaf, and of a [FoldedStrip] the Base and the height of the Strip. A side of 0
// leaves the kind's own. It returns the paths of these fields as well, that of
// the width first. The error is a *check.Error for fields that are set already,
// and for what [Accept] refuses.
func AtHand(k Kind, room units.Size) (with Kind, fields [2]string, err error) {
	if with, err = Accept(k); err != nil {
		return nil, fields, err
	}
	var l check.List
	with, fields = with.at(room, &l)
	return with, fields, l.Err()
}

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
