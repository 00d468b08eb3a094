package propose

import (
	"cmp"

	"boardwrap.example/internal/inorder"
	"boardwrap.example/units"
)

// A candidate is the row laid out.
type candidate struct {
	cover       units.Size
	parts       []*shape     // of each leaf; nil where nothing lies
	least, most units.Length // stacks: of the thickest by itself, of the thickest on two leaves
	high        units.Length // how thick what lies elsewhere than on the table is
}

func sortCovers(list []candidate) {
	inorder.Sort(list, func(a, b candidate) int {
		if c := order(a.cover, b.cover); c != 0 {
			return c
		}
		if c := cmp.Compare(a.most, b.most); c != 0 {
			return c
		}
		return cmp.Compare(a.high, b.high)
	})
}

// order puts covers in the order in which they are tried for the aim [Smallest].
func order(a, b units.Size) int {
	if c := a.Area().Compare(b.Area()); c != 0 {
		return c
	}
	return cmp.Compare(a.W, b.W)
}
