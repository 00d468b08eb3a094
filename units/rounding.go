package units

// A Direction is the way a length is rounded.
type Direction uint8

// Directions. Up and Down mean towards more and towards less, for negative
// lengths too.
const (
	Nearest Direction = iota // halves away from zero; so is any unknown direction
	Up                       // to the least graduation that is not smaller
	Down                     // to the greatest graduation that is not larger
)

// awayFromZero reports whether a quotient with a remainder is rounded away from
// zero.
func awayFromZero(d Direction, negative bool, rem, den uint64) bool {
	switch d {
	case Up:
		return !negative
	case Down:
		return negative
	}
	return rem >= den-rem
}
