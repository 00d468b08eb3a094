package folio_test

import (
	"fmt"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
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

var named = regexp.MustCompile(`^a place beside it, such as left and head with an offset of (\S+ mm) and (\S+ mm), or standing on it$`)

// The place that is named for what lies over others is free, and of all places on the
// ruler none that is free is nearer; where none is named there is none. By trying them
// all, on a panel, on a plate that leaves a part of a millimetre at its edges, and on the
// rails of a frame, of which one must carry it.
func TestPlaceBesideIsTheNearest(t *testing.T) {
	r := rand.New(rand.NewPCG(uint64(proptest.Seed()), 6))
	var found, full [3]int
	for trial := range proptest.Cases(600) {
		n, on := 2+r.IntN(5), trial%3
		s := badged(n, func(i int) (units.Size, units.Point) {
			size := units.Size{W: units.Length(60+r.IntN(240)) * mm / 10, H: units.Length(60+r.IntN(200)) * mm / 10}
			at := units.Point{X: units.Length(r.IntN(160)) * mm / 10, Y: units.Length(r.IntN(100)) * mm / 10}
			if on == 2 {
				size = units.Size{W: units.Length(20+r.IntN(180)) * mm / 10, H: units.Length(20+r.IntN(90)) * mm / 10}
				at.Y /= 5
			}
			if on == 0 && trial%2 == 0 { // one above the other
				size.H /= 2
				at = units.Point{X: at.Y, Y: at.X}
			}
			if i == n-1 {
				at.X, at.Y = at.X-4*mm, at.Y-units.Length(r.IntN(30))*mm/10
			}
			return size, at
		})
		if on > 0 {
			base := folio.Fitting{Name: "base", Kind: folio.Ornament{Size: units.Size{W: 394 * mm / 10, H: 297 * mm / 10}, Thickness: mm}}
			if on == 2 {
				base.Kind = folio.Frame{Picture: content(units.Size{W: 18 * mm, H: 8 * mm}), Rail: 113 * mm / 10}
			}
			for i := range s.Fittings {
				s.Fittings[i].StandsOn = base.Name
			}
			s.Fittings = append([]folio.Fitting{base}, s.Fittings...)
			n++
		}
		last := s.Fittings[n-1]
		s.Fittings = s.Fittings[:n-1]
		p, err := folio.Build(s)
		if err != nil {
			s.Fittings = s.Fittings[:min(on, 1)+1] // one of those before lies over another
			if p, err = folio.Build(s); err != nil {
				continue
			}
		}
		size := last.Kind.(folio.Ornament).Size
		var taken, carriers []units.Rect
		area, _ := p.Panel(boards.RightCover, false)
		carriers = append(carriers, area)
		for f := range p.Fittings() {
			if f.Name() != "base" {
				taken = append(taken, f.Rect())
				continue
			}
			area, carriers = f.Rect(), nil
			for s := range f.Surfaces() {
				carriers = append(carriers, s.Rect())
			}
		}
		s.Fittings = append(s.Fittings, last)
		v, ok := refusal(s, check.Index("fittings", len(s.Fittings)-1)+".place", folio.Overlaps)
		if !ok {
			continue
		}
		way := func(at units.Point) units.Length {
			return (at.X - last.Place.Offset.X).Abs() + (at.Y - last.Place.Offset.Y).Abs()
		}
		best := units.Longest
		for x := units.Length(0); x < area.Size().W; x += mm {
			for y := units.Length(0); y < area.Size().H; y += mm {
				at := units.Point{X: x, Y: y}
				r := units.RectAt(area.Min.Plus(at), size)
				if !slices.ContainsFunc(taken, r.Overlaps) && slices.ContainsFunc(carriers, r.In) {
					best = min(best, way(at))
				}
			}
		}
		m := named.FindStringSubmatch(v.Want)
		if m == nil {
			if full[on]++; best < units.Longest || !strings.Contains(v.Want, "no place beside it is as large") {
				t.Errorf("trial %d: %v; there is one %v away", trial, v, best)
			}
			continue
		}
		if found[on]++; way(units.Point{X: units.MustParse(m[1]), Y: units.MustParse(m[2])}) != best {
			t.Errorf("trial %d, at %v: %v; there is one %v away", trial, last.Place.Offset, v, best)
		}
	}
	for on := range found {
		if found[on] < proptest.Cases(60) || on < 2 && full[on] < proptest.Cases(5) { // on a rail there always is one
			t.Errorf("on %d only %d have a place, %d none", on, found[on], full[on])
		}
	}
}

// Places are looked for among 262,144 pairs of rectangles (mostBeside): of those that
// lie over others on a board full of badges, with no place free, the first three are looked
// at whole; then a folio is still refused, and at once, but no place is named.
func TestPlacesBesideAreBounded(t *testing.T) {
	const columns, full = 16, 16 * 12
	for n, want := range map[int]bool{full + 1: true, full + 2: true, full + 3: true, full + 4: false, folio.MaxFittings: false} {
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

// Of 256 fittings that lie on one another 256 x 255 / 2 pairs overlap: all are counted, but
// for most of them no words are put together and no places are looked for.
func TestManyPairsThatOverlap(t *testing.T) {
	s := badged(folio.MaxFittings, func(i int) (units.Size, units.Point) {
		return units.Size{W: 20 * mm, H: 20 * mm}, units.Point{X: units.Length(i%16) * mm, Y: units.Length(i/16) * mm / 2}
	})
	_, err := folio.Build(s)
	bad, ok := err.(*check.Error)
	if !ok || bad.Len() != folio.MaxFittings*(folio.MaxFittings-1)/2 {
		t.Fatalf("%.200v", err)
	}
	if n := testing.AllocsPerRun(1, func() { _, _ = folio.Build(s) }); n > folio.MaxFittings*20 {
		t.Errorf("%v allocations", n)
	}
}
