package pocket_test

import (
	"bytes"
	"errors"

	"testing"

	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Each kind with a card takes 120 x 160 mm at hand in the fields that its
// documentation names for a size at hand, and what is made then is that large;
// with the fields set already it is told to take one of the two.
func TestAtHand(t *testing.T) {
	card, room := pocket.IDCard(), units.Size{W: 120 * mm, H: 160 * mm}
	for _, c := range []struct {
		kind, want pocket.Kind
		fields     [2]string
	}{
		{pocket.Slip{Content: card}, pocket.Slip{Content: card, Place: room}, [2]string{"place.w", "place.h"}},
		{pocket.Corners{Content: card}, pocket.Corners{Content: card, Place: room}, [2]string{"place.w", "place.h"}},
		{pocket.Flap{Content: card}, pocket.Flap{Content: card, Leaf: room}, [2]string{"leaf.w", "leaf.h"}},
		{pocket.FoldedStrip{Content: card}, pocket.FoldedStrip{Content: card, Base: room.W, Strip: units.Size{H: room.H}}, [2]string{"base", "strip.h"}},
		{pocket.Gusset{Content: card}, pocket.Gusset{Content: card, Place: room}, [2]string{"place.w", "place.h"}},
		{pocket.GussetRun{Content: card, Pockets: 2}, pocket.GussetRun{Content: card, Pockets: 2, Place: room}, [2]string{"place.w", "place.h"}},
		{pocket.FoldedAccordion{Content: card, Panels: 3}, pocket.FoldedAccordion{Content: card, Panels: 3, Panel: room}, [2]string{"panel.w", "panel.h"}},
		{pocket.Concertina{Content: card, Leaves: 2}, pocket.Concertina{Content: card, Leaves: 2, Leaf: room}, [2]string{"leaf.w", "leaf.h"}},
		{pocket.Pleat{Content: card}, pocket.Pleat{Content: card, Place: room}, [2]string{"place.w", "place.h"}},
	} {
		name := c.kind.Name()
		with, fields, err := pocket.AtHand(c.kind, room)
		if err != nil || with != c.want || fields != c.fields {
			t.Errorf("%s: %+v in %q, %v", name, with, fields, err)
			continue
		}
		closed := design(t, with, pocket.Paper{}, units.WholeMillimetres).Closed()
		switch with.(type) {
		case pocket.Corners: // goes round the card, wherever there is more room
			if !closed.FitsIn(room) || !card.Size.FitsIn(closed) {
				t.Errorf("%s: %v round a card, and %v is at hand", name, closed, room)
			}
		case pocket.Concertina: // the room is a leaf's, which stands on a guard beside its tab of 10 mm
			if closed.W < room.W+10*mm || closed.H != room.H {
				t.Errorf("%s: %v is made with leaves of %v", name, closed, room)
			}
		default:
			if closed != room {
				t.Errorf("%s: %v is made, and %v is at hand", name, closed, room)
			}
		}
		// The room is there once: both sides of it, or the one that is given.
		var list *check.Error
		if _, _, err := pocket.AtHand(with, room); !errors.As(err, &list) || list.Len() != 2 {
			t.Errorf("%s, twice: %v", name, err)
		} else {
			for _, path := range fields {
				if _, ok := list.Find(path, check.Conflict); !ok {
					t.Errorf("%s, twice: %v says nothing of %s", name, err, path)
				}
			}
		}
		if same, _, err := pocket.AtHand(with, units.Size{}); err != nil || same != with {
			t.Errorf("%s, no room at hand: %+v, %v", name, same, err)
		}
		wide, _, err := pocket.AtHand(c.kind, units.Size{W: room.W})
		if err != nil {
			t.Errorf("%s, a width: %v", name, err)
			continue
		}
		if both, _, err := pocket.AtHand(wide, units.Size{H: room.H}); err != nil || both != c.want {
			t.Errorf("%s, the width and then the height: %+v, %v", name, both, err)
		}
	}
	var list *check.Error
	strip := pocket.FoldedAccordion{Strip: units.Size{W: 300 * mm, H: 100 * mm}}
	if _, _, err := pocket.AtHand(strip, room); !errors.As(err, &list) {
		t.Errorf("a flat strip at hand and a panel: %v", err)
	} else if _, ok := list.Find("strip", check.Conflict); !ok {
		t.Errorf("a flat strip at hand and a panel: %v", err)
	}
	if k, _, err := pocket.AtHand(nil, room); !errors.As(err, &list) || k != nil {
		t.Errorf("no kind: %v, %v", k, err)
	}
}

// What a kind is told to hold it holds, given by value or by pointer; what is no
// kind is left as it is and holds nothing.
func TestHolding(t *testing.T) {
	card := pocket.IDCard()
	for k := range pocket.Kinds() {
		if c, ok := pocket.Holds(k); ok || c != (pocket.Content{}) {
			t.Errorf("an empty %s holds %v", k.Name(), c)
		}
		with := pocket.Holding(k, func(c *pocket.Content) { *c = card })
		if c, ok := pocket.Holds(with); !ok || c != card || with.Name() != k.Name() {
			t.Errorf("%s: %v, %v", k.Name(), with, c)
		}
		turned := pocket.Holding(with, func(c *pocket.Content) { *c = c.Turned() })
		if c, _ := pocket.Holds(turned); c.Size != card.Size.Turned() {
			t.Errorf("a turned card in %s is %v", k.Name(), c.Size)
		}
		if c, _ := pocket.Holds(with); c != card {
			t.Errorf("%s: a change of another one made it %v", k.Name(), c)
		}
	}
	slip := &pocket.Slip{}
	if c, ok := pocket.Holds(pocket.Holding(slip, func(c *pocket.Content) { *c = card })); !ok || c != card || slip.Content != (pocket.Content{}) {
		t.Errorf("by a pointer: %v; the one that was given holds %v", c, slip.Content)
	}
	for _, none := range []pocket.Kind{nil, (*pocket.Slip)(nil)} {
		k := pocket.Holding(none, func(*pocket.Content) { t.Error("what is no kind was asked for its content") })
		if c, ok := pocket.Holds(none); k != nil || ok || c != (pocket.Content{}) {
			t.Errorf("%T comes back as %v and holds %v", none, k, c)
		}
	}
}

// A walk that is left early goes no further, and has begun as the whole one.
func TestWalksEnd(t *testing.T) {
	one := func(walk func(func() bool)) (steps int) {
		walk(func() bool { steps++; return false })
		return steps
	}
	d := design(t, pocket.FoldedAccordion{Content: pocket.IDCard(), Panels: 3}, pocket.Paper{}, units.WholeMillimetres)
	for name, walk := range map[string]func(func() bool){
		"kinds":    func(next func() bool) { pocket.Kinds()(func(pocket.Kind) bool { return next() }) },
		"contents": func(next func() bool) { pocket.UsualContents()(func(pocket.Usual) bool { return next() }) },
		"prints": func(next func() bool) {
			pocket.Prints(units.MetricDecimal)(func(pocket.Content) bool { return next() })
		},
		"filling": func(next func() bool) { d.Filling()(func(pocket.Height) bool { return next() }) },
	} {
		if n := one(walk); n != 1 {
			t.Errorf("%s: %d steps after the walk was left", name, n)
		}
	}
}

// A strip at hand is divided without rest, whichever of its panels are given: the flap set
// back by 3 mm from the base and the front two thirds of it, as documented, each to its
// ruler, and the hem 40 mm or an eighth of the strip.
func TestStripAtHandIsDivided(t *testing.T) {
	for given := range 8 {
		for _, long := range []units.Length{200 * mm, 299 * mm, 450*mm + 7} {
			k := pocket.FoldedStrip{Strip: units.Size{W: long, H: 100 * mm}, Spine: units.Length(given%2) * 4 * mm}
			if given&1 != 0 {
				k.Flap = long / 4
			}
			if given&2 != 0 {
				k.Front = long / 6
			}
			if given&4 != 0 {
				k.Overhang = 2 * mm
			}
			d := design(t, k, pocket.Paper{}, units.WholeMillimetres)
			is := map[string]units.Length{}
			var sum units.Length
			for _, p := range d.Panels() {
				is[p.Name()] = p.Blank().Size().W
				sum += is[p.Name()]
			}
			near := func(name string, want, by units.Length) {
				if (is[name] - want).Abs() > by {
					t.Errorf("%+v: the %s is %v, want %v to %v", k, name, is[name], want, by)
				}
			}
			if sum != long || is["spine"] != k.Spine {
				t.Errorf("%+v: %v, %v in all", k, is, sum)
			}
			near("hem", min(40*mm, long/8), 3*mm)
			flap, front := is["base"]-3*mm, 2*is["base"]/3
			if k.Flap != 0 {
				flap = k.Flap
			}
			if k.Front != 0 {
				front = k.Front
			}
			near("flap", flap, mm)
			near("pocket front", front, mm)
		}
	}
}

// How many cards a place takes: as many as are thin enough together, none that is
// too large, and of what counts no thickness as many as it was made for.
func TestHowManyByHand(t *testing.T) {
	// Three cards of 0.76 mm are 2.28 mm: room for that much at least.
	d := design(t, pocket.Slip{Content: pocket.IDCard(), Count: 3}, pocket.Paper{}, units.WholeMillimetres)
	if n := d.HowMany(pocket.IDCard()); n < 3 {
		t.Errorf("made for 3 cards, and takes %d", n)
	}
	thin, large := pocket.IDCard(), pocket.IDCard()
	thin.Thickness, large.Size.W = 0, 200*mm
	if n := d.HowMany(thin); n != 3 {
		t.Errorf("made for 3, and takes %d without thickness", n)
	}
	if n := d.HowMany(large); n != 0 {
		t.Errorf("takes %d that are too large", n)
	}
}

// A gusset stands in as far as its fold is from the line between its edges, by
// Pythagoras: half panels of 13 mm opened to 10 mm, 12 mm, the triangle 5, 12, 13.
// What is less than nothing, and a pocket without a gusset, are refused.
func TestStandInByPythagoras(t *testing.T) {
	d := design(t, pocket.Gusset{Content: pocket.IDCard(), Half: 13 * mm}, pocket.Paper{}, units.WholeMillimetres)
	if got, err := d.StandIn(10 * mm); err != nil || got != 12*mm {
		t.Errorf("opened to 10 mm it stands in %v, %v", got, err)
	}
	var list *check.Error
	if _, err := d.StandIn(-mm); !errors.As(err, &list) {
		t.Errorf("opened by less than nothing: %v", err)
	} else if _, ok := list.Find("opening", check.Negative); !ok {
		t.Errorf("opened by less than nothing: %v", err)
	}
	flat := design(t, pocket.Slip{Content: pocket.IDCard()}, pocket.Paper{}, units.WholeMillimetres)
	if _, err := flat.StandIn(mm); !errors.As(err, &list) {
		t.Errorf("without a gusset: %v", err)
	}
}

// A folded strip carries a mat on its flap, a slip carries none.
func TestCarrier(t *testing.T) {
	strip := design(t, pocket.FoldedStrip{Content: pocket.IDCard()}, pocket.Paper{}, units.WholeMillimetres)
	p, ok := strip.Carrier()
	if on, err := strip.Carry(units.Size{W: 10 * mm, H: 10 * mm}); !ok || p.Name() != "flap" || err != nil || !on.In(p.Closed()) {
		t.Errorf("the mat of a strip lies at %v, %v, on %q", on, err, p.Name())
	}
	slip := design(t, pocket.Slip{Content: pocket.IDCard()}, pocket.Paper{}, units.WholeMillimetres)
	if p, ok := slip.Carrier(); ok {
		t.Errorf("a slip carries mats on its %q", p.Name())
	}
}

// A stock appends the word that reads back as it.
func TestStockAppended(t *testing.T) {
	for _, s := range []pocket.StockKind{pocket.PaperStock, pocket.MatStock} {
		text, err := s.AppendText([]byte("of "))
		var back pocket.StockKind
		if rest, ok := bytes.CutPrefix(text, []byte("of ")); err != nil || !ok || back.UnmarshalText(rest) != nil || back != s {
			t.Errorf("%q, %v, reads back as %v", text, err, back)
		}
	}
}
