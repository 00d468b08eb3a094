// Package fields has fields that are read, and some that are not.
package fields

import (
	"fmt"
	"slices"
)

// T is exported, so that others may read Open.
type T struct {
	Open                                            int
	read, written, counted, added, appended, unused int // never: written counted added appended unused
	addressed, onTheWay                             *int
	list                                            []int // never: list
}

type hidden struct {
	Inside int                // never: Inside
	outer  struct{ deep int } // never: deep
}

type compared struct{ a, b int }

type key struct{ k int }

type printed struct{ p int }

type held struct{ h int }

type embedded struct{ promoted, lost int } // never: lost

type holder struct {
	embedded
	tagged int `json:"tagged"`
}

// Use writes and reads.
func Use(t *T, hid hidden, c, d compared, m map[key]int, p printed, hs []held, ho holder) (int, bool) {
	t.written = 3
	t.counted++
	t.added += 2
	t.appended, t.Open = 5, 6
	t.list = append(t.list, 7)
	*t.onTheWay = 4
	q := &t.addressed
	_ = q
	hid.Inside = 2
	hid.outer.deep = 3
	fmt.Println(p, m)
	return t.read + ho.promoted, c == d && slices.Contains(hs, held{})
}
