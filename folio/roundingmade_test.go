package folio_test

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// A row that came out longer takes half of that from each margin. Of an odd number of
// nanometres that is half a nanometre more than a length can say: what is left to turn
// in is told as no more than it is, and as less by half a nanometre at most.
func TestTurnedInOfAnOddRow(t *testing.T) {
	s := plainCase()
	s.Margin = rule.Margin{Ideal: 10 * mm, Least: 9 * mm, Tolerated: 9 * mm}
	p := mustBuild(t, s)
	for more := units.Length(1); more < 8; more++ {
		// As planned it is 277.4 mm wide, and 2 mm more leave 9 mm.
		q, err := p.Refit(refit.Measured{Width: 279_400*units.Micrometre + more, Height: 170_400 * units.Micrometre})
		if err != nil {
			t.Fatal(err)
		}
		told := 0
		for w := range q.Warnings() {
			if w.Code == folio.MarginSmall {
				told++
				if twice := 18*mm - more; 2*w.Got > twice || 2*w.Got < twice-1 {
					t.Errorf("%v more: %d nm are left to turn in, twice that is %d", more, w.Got, twice)
				}
			}
		}
		if told != 1 {
			t.Errorf("%v more: told %d times", more, told)
		}
	}
}

// Margins beside a pocket that leave too little for its card are told how much less would
// do: half of what the panel is wider than the pocket, put down where that is odd.
func TestMarginsOfAnOddRoom(t *testing.T) {
	slip := folio.Fitting{Name: "card", Kind: folio.Folded{Kind: pocket.Slip{Content: pocket.IDCard()}}}
	wide := func(f folio.Fitting, odd units.Length) units.Length {
		s := unruledCase(0)
		s.Rulers, s.Fittings = all(everyNanometre), []folio.Fitting{f}
		s.Cover.W += odd
		for f := range mustBuild(t, s).Fittings() {
			return f.Rect().Size().W
		}
		return 0
	}
	for odd := range units.Length(4) {
		by := slip
		by.Size.W = place.Relation{Of: place.OfPanel, Margin: 30 * mm}
		s := unruledCase(0)
		s.Rulers, s.Fittings = all(everyNanometre), []folio.Fitting{by}
		s.Cover.W += odd
		room := wide(folio.Fitting{Kind: folio.Mat{Size: units.Size{H: 9 * mm}}, Size: place.Sizing{W: place.By(place.OfPanel)}}, odd)
		v, ok := refusal(s, "fittings[0].size.w.margin", folio.RoomSmall)
		if twice := room - wide(slip, odd); !ok || 2*v.Limit > twice || 2*v.Limit < twice-1 {
			t.Errorf("a panel of %v: a margin of %v would do, twice that is %v: %v", room, v.Limit, twice, builds(s))
		}
		s.Fittings[0].Size.W.Margin = v.Limit
		if err := builds(s); err != nil {
			t.Errorf("a panel of %v: what would do does not: %v", room, err)
		}
	}
}

// A lap takes as much of a print at both sides, and leaves an opening of a graduation at
// least. So by rulers of 1 µm and of an odd number of nanometres more, twice the lap that
// would do and a graduation are the narrow side of the least print, or a nanometre less.
func TestLapOfAnOddPrint(t *testing.T) {
	var least units.Length
	for c := range pocket.Prints(units.MetricDecimal) {
		if side := min(c.Size.W, c.Size.H); least == 0 || side < least {
			least = side
		}
	}
	for more := range units.Length(4) {
		step := 10*units.Micrometre + more
		ruler, err := units.NewRuler(step, units.MetricDecimal)
		if err != nil {
			t.Fatal(err)
		}
		s := plainCase()
		s.Rulers = all(ruler)
		size := place.Filling(place.OfPanel, 49*mm)
		size.Picture = place.PictureUsual
		s.Fittings = []folio.Fitting{{Name: "crew", Kind: folio.Frame{Picture: pocket.Content{Name: "print"}, Rail: 3 * mm, Lap: 52 * mm}, Size: size}}
		v, ok := refusal(s, "fittings[0].kind.lap", folio.TooWide)
		if twice := least - step; !ok || 2*v.Limit > twice || 2*v.Limit < twice-1 {
			t.Errorf("by %v a lap of %v would do, twice that is %v: %v", ruler, v.Limit, twice, builds(s))
		}
	}
}
