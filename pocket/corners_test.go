package pocket_test

import (
	"math/rand"
	"testing"

	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// A leg is a third of the shorter side, or more where edges of 3 mm, three of which are 9,
// find room for that on half of the side; of what is so small that nothing could be cut, it
// is as much as can be.
func TestLegsByTheShorterSide(t *testing.T) {
	on := func(step units.Length) units.Ruler {
		r, err := units.NewRuler(step, units.MetricDecimal)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	exact, four := on(nm), on(4*mm)
	// Three edges of 3 mm are 12 on a ruler of four, which two legs that meet have room for
	// on 24; one of 10 is too coarse for what 14 have room for.
	for _, c := range []struct {
		ruler     units.Ruler
		side, leg units.Length
	}{
		{four, 24 * mm, 12 * mm}, {four, 24*mm - nm, 4 * mm}, {four, 25 * mm, 12 * mm}, {on(10 * mm), 14 * mm, 7 * mm},
		{units.WholeMillimetres, 17 * mm, 5 * mm}, {units.WholeMillimetres, 18 * mm, 9 * mm}, {units.WholeMillimetres, 24 * mm, 9 * mm},
		{units.WholeMillimetres, 27 * mm, 9 * mm}, {units.WholeMillimetres, 30 * mm, 10 * mm}, {units.WholeMillimetres, 33 * mm, 11 * mm}, {units.WholeMillimetres, 36 * mm, 12 * mm},
		{units.WholeMillimetres, 80 * um, 40 * um}, {exact, 89 * um, 30 * um}, {exact, 90 * um, 30 * um}, {exact, 105 * um, 35 * um}, {exact, 120 * um, 40 * um},
	} {
		k := pocket.Corners{Place: units.Size{W: c.side, H: 2 * c.side}, Ease: pocket.Ease{W: units.None}}
		d := design(t, k, pocket.Paper{Caliper: mm / 10}, c.ruler)
		if leg, _ := d.Panel("corner"); leg.Size().W != c.leg {
			t.Errorf("of %v: legs of %v; want %v", c.side, leg.Size().W, c.leg)
		}
	}
	// One corner may take the whole side, but not for its edges more than half of it.
	for side, want := range map[units.Length]units.Length{24 * mm: 12 * mm, 24*mm - nm: 4 * mm} {
		d := design(t, pocket.Corners{Place: units.Size{W: side, H: 2 * side}, Corners: 1, Ease: pocket.Ease{W: units.None}}, pocket.Paper{Caliper: mm / 10}, four)
		if leg, _ := d.Panel("corner"); leg.Size().W != want {
			t.Errorf("one corner of %v: a leg of %v; want %v", side, leg.Size().W, want)
		}
	}
}

// Where the ruler shows nothing that a third of the leg has room for, the edges turned under
// are the usual ones, if these find room there, and else that third.
func TestTurnedEdgesOffTheRuler(t *testing.T) {
	for _, c := range []struct {
		step            units.Length
		n               units.Notation
		leg, turn, than units.Length
	}{
		{4 * mm, units.MetricDecimal, 20 * mm, 4 * mm, 0}, {10 * mm, units.MetricDecimal, 20 * mm, 6 * mm, 0}, {10 * mm, units.MetricDecimal, 15 * mm, 5 * mm, 0}, {10 * mm, units.MetricDecimal, 30 * mm, 10 * mm, 0},
		{in / 2, units.InchFraction, in, in / 4, 0}, {in / 2, units.InchFraction, in / 2, in / 6, 1},
	} {
		r, err := units.NewRuler(c.step, c.n)
		if err != nil {
			t.Fatal(err)
		}
		d := design(t, pocket.Corners{Place: units.Size{W: 100 * mm, H: 100 * mm}, Leg: c.leg}, pocket.Paper{}, r)
		if got := piece(t, d, "corner").Blank().Size().W - c.leg; got > c.turn || got < c.turn-c.than {
			t.Errorf("on %v: a leg of %v has edges of %v; want %v", r, c.leg, got, c.turn)
		}
	}
}

// Every length of a corner that is not given is a graduation wherever the ruler shows
// one that its legs have room for, and has its working: the leg and the turned edge that
// the blank is made of are results of workings above it.
func TestCornersOnTheRuler(t *testing.T) {
	r := rand.New(rand.NewSource(11))
	warned, between := 0, 0
	for range 500 {
		ruler := []units.Ruler{units.Eighths, units.Sixteenths, units.WholeMillimetres, units.HalfMillimetres}[r.Intn(4)]
		c := pocket.Corners{Content: pocket.Content{
			Size:      units.Size{W: 12*mm + units.Length(r.Int63n(int64(90*mm))), H: 12*mm + units.Length(r.Int63n(int64(90*mm)))},
			Thickness: []units.Length{0, mm / 2, 2 * mm}[r.Intn(3)],
		}, Corners: []int{1, 2, 4}[r.Intn(3)]}
		d, err := c.Design(pocket.Paper{}, ruler)
		if err != nil {
			continue // nothing reaches over what is thick for its size
		}
		made := map[units.Length]bool{}
		var leg, turn units.Length
		for w := range d.Workings() {
			for term := range w.Terms() {
				if w.Label() != "corner blank" {
					continue
				}
				if term.Label == "leg" {
					leg = term.Length
				} else {
					turn = term.Length
				}
				if !made[term.Length] {
					t.Fatalf("%v, %v: no working of the %s %v in %v", ruler, c, term.Label, term.Length, w)
				}
			}
			made[w.Length()] = true
		}
		at := d.Closed()
		off := (at.W - c.Content.Size.W + at.H - c.Content.Size.H) / 2 // the content's corner from the place's, both ways
		room := min(at.W, at.H)
		switch c.Corners {
		case 4:
			room /= 2
		case 2:
			room = min(at.W/2, at.H)
		}
		narrow := units.Inch / 8
		if ruler.Notation() == units.MetricDecimal {
			narrow = 3 * mm
		}
		switch {
		case 3*turn > leg:
			t.Fatalf("%v, %v: edges of %v of a leg of %v", ruler, c, turn, leg)
		case !ruler.Has(leg) && (leg != room || ruler.Down(room) > off+10*um): // room for no more, and the graduation below holds nothing
			t.Fatalf("%v, %v: a leg of %v", ruler, c, leg)
		case !ruler.Has(turn) && 3*ruler.Step() <= leg:
			t.Fatalf("%v, %v: a leg of %v with edges of %v", ruler, c, leg, turn)
		case !ruler.Has(turn):
			between++
		}
		said := false
		for w := range d.Warnings() {
			said = said || w.Path == "turn" && w.Got == turn && w.Want == narrow
		}
		if said != (turn < narrow) {
			t.Fatalf("%v, %v: edges of %v, warned of: %v", ruler, c, turn, said)
		}
		if said {
			warned++
		}
	}
	if warned < 10 || between < 1 {
		t.Errorf("%d are narrow, %d off the ruler", warned, between)
	}
	// Of a card as small as this, edges of 3 mm would take a leg longer than its side.
	if d, err := (pocket.Corners{Content: pocket.Content{Size: units.MustParseSize("5.5 x 8.5 mm")}, Corners: 1}).Design(pocket.Paper{}, units.WholeMillimetres); err != nil {
		t.Error(err)
	} else if got := piece(t, d, "corner").Blank().Size().W; got >= 9*mm {
		t.Errorf("a blank of %v for a card of 5.5 mm", got)
	}
	// By hand: a third of 1 in is 1/3 in, of which a third leaves 1/9 in; with 3/8 in,
	// which the place of 1 1/8 in has room for twice, there is 1/8 in.
	for _, ruler := range []units.Ruler{units.Eighths, units.Sixteenths} {
		d, err := pocket.Corners{Content: pocket.Content{Size: units.MustParseSize("2 1/2 x 1 in")}}.Design(pocket.Paper{}, ruler)
		if err != nil {
			t.Fatal(err)
		}
		if got := piece(t, d, "corner").Blank().Size().W; got != units.Inch/2 {
			t.Errorf("%v: a blank of %v, want 3/8 in and 1/8 in", ruler, got)
		}
	}
}
