package folio_test

import (
	"fmt"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// badged is a folio whose right cover has so many small badges, of which the last
// may lie over others.
func badged(n int, badge func(i int) (size units.Size, at units.Point)) folio.Spec {
	s := folio.Spec{
		Cover: units.Size{W: 46 * mm, H: 36 * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Board: stock.Stock{Caliper: 2 * mm}, Lining: rule.Lining{Inset: 3 * mm}, Margin: rule.Margin{Ideal: 12 * mm}, Mitre: rule.Mitre{Distance: 3 * mm},
	}
	for i := range n {
		size, at := badge(i)
		s.Fittings = append(s.Fittings, folio.Fitting{Name: fmt.Sprint("badge ", i), Kind: folio.Ornament{Size: size, Thickness: mm / 10}, Place: place.Place{Across: place.Left, Along: place.Head, Offset: at}})
	}
	return s
}

var named = regexp.MustCompile(`^a place beside it, such as left and head with an offset of (\S+ mm) and (\S+ mm), or StandsOn$`)

// The place that is named for what lies over others is free, and of all places on the
// ruler none that is free is nearer; where none is named there is none. By trying them
// all.
func TestPlaceBesideIsTheNearest(t *testing.T) {
	r := rand.New(rand.NewPCG(uint64(proptest.Seed()), 6))
	found, full := 0, 0
	for trial := range proptest.Cases(400) {
		n := 2 + r.IntN(5)
		s := badged(n, func(int) (units.Size, units.Point) {
			size := units.Size{W: units.Length(60+r.IntN(240)) * mm / 10, H: units.Length(60+r.IntN(200)) * mm / 10}
			return size, units.Point{X: units.Length(r.IntN(20)-4) * mm, Y: units.Length(r.IntN(13)-3) * mm}
		})
		last := s.Fittings[n-1]
		s.Fittings = s.Fittings[:n-1]
		if _, err := folio.Build(s); err != nil {
			s.Fittings = s.Fittings[:1] // one of those before lies over another
		}
		s.Fittings = append(s.Fittings, last)
		v, ok := refusal(s, check.Index("fittings", len(s.Fittings)-1)+".place", folio.Overlaps)
		if !ok {
			continue
		}
		way := func(at units.Point) units.Length {
			return (at.X - last.Place.Offset.X).Abs() + (at.Y - last.Place.Offset.Y).Abs()
		}
		size := last.Kind.(folio.Ornament).Size
		best := units.Longest
		for x := units.Length(0); x+size.W <= 40*mm; x += mm { // as wide as the panel is, and as high
			for y := units.Length(0); y+size.H <= 30*mm; y += mm {
				at := units.Point{X: x, Y: y}
				free := !slices.ContainsFunc(s.Fittings[:len(s.Fittings)-1], func(f folio.Fitting) bool {
					return units.RectAt(at, size).Overlaps(units.RectAt(f.Place.Offset, f.Kind.(folio.Ornament).Size))
				})
				if free {
					best = min(best, way(at))
				}
			}
		}
		m := named.FindStringSubmatch(v.Want)
		if m == nil {
			if full++; best < units.Longest || !strings.Contains(v.Want, "no place beside it is as large") {
				t.Errorf("trial %d: %v; there is one %v away", trial, v, best)
			}
			continue
		}
		if found++; way(units.Point{X: units.MustParse(m[1]), Y: units.MustParse(m[2])}) != best {
			t.Errorf("trial %d, at %v: %v; there is one %v away", trial, last.Place.Offset, v, best)
		}
	}
	if found < proptest.Cases(60) || full < proptest.Cases(10) {
		t.Errorf("only %d have a place, %d none", found, full)
	}
}

// Places are looked for among 262,144 pairs of rectangles (mostBeside): of those that
// lie over others on a board full of badges, with no place free, the first two are looked
// at whole; then a folio is still refused, and at once, but no place is named.
func TestPlacesBesideAreBounded(t *testing.T) {
	const columns, full = 16, 16 * 12
	for n, want := range map[int]bool{full + 1: true, full + 2: true, full + 9: false, folio.MaxFittings: false} {
		s := badged(n, func(i int) (units.Size, units.Point) {
			if i >= full {
				return units.Size{W: 3 * mm, H: 3 * mm}, units.Point{X: units.Length(i-full) * mm / 9, Y: units.Length(i-full) * mm / 9}
			}
			return units.Size{W: 2 * mm, H: 2 * mm}, units.Point{X: units.Length(i%columns) * mm * 5 / 2, Y: units.Length(i/columns) * mm * 5 / 2}
		})
		_, err := folio.Build(s)
		bad, ok := err.(*check.Error)
		if !ok {
			t.Fatal(err)
		}
		whole := true
		for v := range bad.All() {
			if v.Code != folio.Overlaps || named.MatchString(v.Want) {
				t.Fatal(v)
			}
			whole = whole && strings.Contains(v.Want, "no place beside it is as large")
		}
		if whole != want {
			t.Errorf("%d: all were looked at whole: %v: %v", n, whole, err)
		}
	}
}
