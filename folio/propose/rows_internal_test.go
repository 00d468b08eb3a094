package propose

import (
	"testing"

	"boardwrap.example/units"
)

// Five fittings of 30 x 20, 30 x 25, 30 x 10, 80 x 15 and 10 x 5 mm in rows of 66 mm
// with 3 mm between them, by hand: two of them take 63 mm, the third would make 96; the
// fourth is wider than a row and has one to itself.
func TestRowsByHand(t *testing.T) {
	const mm = units.Millimetre
	var all []shape
	for _, s := range [][2]units.Length{{30, 20}, {30, 25}, {30, 10}, {80, 15}, {10, 5}} {
		all = append(all, shape{w: s[0] * mm, h: s[1] * mm})
	}
	rows := inRows(all, 66*mm, 3*mm)
	want := [][2]units.Length{{63, 25}, {30, 10}, {80, 15}, {10, 5}}
	if len(rows) != len(want) {
		t.Fatalf("%d rows, want %d", len(rows), len(want))
	}
	for i, w := range want {
		if rows[i].w != w[0]*mm || rows[i].h != w[1]*mm {
			t.Errorf("row %d is %v x %v, want %v mm", i, rows[i].w, rows[i].h, w)
		}
	}
	if r := rows[0]; r.cut != upright || r.a != &all[0] || r.b != &all[1] {
		t.Errorf("the first row: %+v", r)
	}
	// One over the other: as wide as the widest, 25 + 10 + 15 + 5 and three gaps.
	if s := over(rows, 3*mm); s.w != 80*mm || s.h != 64*mm || s.cut != level || s.b != rows[3] || s.a.b != rows[2] || s.a.h != 56*mm {
		t.Errorf("all of them: %+v", s)
	}
	if one := over(rows[:1], 3*mm); one != rows[0] {
		t.Errorf("one row: %+v", one)
	}
	if none := over(nil, mm); none != nil {
		t.Errorf("no row: %+v", none)
	}
	if exact := inRows(all[:2], 63*mm, 3*mm); len(exact) != 1 {
		t.Errorf("a row that is full to its end is parted in %d", len(exact))
	}
}
