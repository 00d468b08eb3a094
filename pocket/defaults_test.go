package pocket_test

import (
	"bytes"
	"reflect"
	"testing"

	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// A kind with its defaults filled in makes the same as without, refusals and all,
// and filling in twice changes nothing more.
func TestDefaultsMakeTheSame(t *testing.T) {
	walkVariants(func(k reflect.Value, what string) {
		var plain, filled bytes.Buffer
		hold(&plain, k, what)
		holdAs(&filled, k, what, pocket.WithDefaults)
		if plain.String() != filled.String() {
			t.Errorf("%T, %s:\n%s\nwith its defaults filled in:\n%s", k.Interface(), what, &plain, &filled)
		}
		for _, on := range heldOn {
			once := pocket.WithDefaults(k.Interface().(pocket.Kind), on.ruler)
			if twice := pocket.WithDefaults(once, on.ruler); twice != once {
				t.Errorf("%T, %s: %+v, filled in again %+v", k.Interface(), what, once, twice)
			}
		}
	})
}

// The defaults that the fields of the kinds document.
func TestDefaultsFilledIn(t *testing.T) {
	card, third := pocket.IDCard(), pocket.Share{Part: 1, Of: 3}
	two := pocket.Share{Part: 2, Of: 3}
	fours, err := units.NewRuler(4*mm, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	fives, err := units.NewRuler(5*mm, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		ruler      units.Ruler
		give, want pocket.Kind
	}{
		{units.Sixteenths, pocket.Slip{Content: card}, pocket.Slip{Content: card, Count: 1, Depth: two, Glue: in / 4}},
		{units.WholeMillimetres, pocket.Slip{Content: card}, pocket.Slip{Content: card, Count: 1, Depth: two, Glue: 6 * mm}},
		{units.InchDecimal.Exact(), pocket.Slip{Depth: third, Glue: mm}, pocket.Slip{Depth: third, Glue: mm}}, // as given; nothing to count
		{units.HalfMillimetres, pocket.Slip{StandOut: 9 * mm}, pocket.Slip{StandOut: 9 * mm, Glue: 6 * mm}},
		{fours, pocket.Slip{}, pocket.Slip{Depth: two, Glue: 8 * mm}}, // the nearest graduation
		{fives, pocket.Slip{}, pocket.Slip{Depth: two, Glue: 5 * mm}},
		{units.WholeMillimetres, pocket.Corners{Content: card}, pocket.Corners{Content: card, Count: 1, Corners: 4}},
		{units.WholeMillimetres, pocket.Corners{Corners: 2}, pocket.Corners{Corners: 2}},
		{units.Sixteenths, pocket.Flap{}, pocket.Flap{Margin: in / 8}},
		{units.WholeMillimetres, pocket.Flap{Margin: units.None}, pocket.Flap{Margin: units.None}},
		{units.WholeMillimetres, pocket.FoldedStrip{}, pocket.FoldedStrip{Depth: two, Glue: 6 * mm, Margin: 3 * mm}},
		{units.WholeMillimetres, pocket.FoldedStrip{Front: 40 * mm}, pocket.FoldedStrip{Front: 40 * mm, Glue: 6 * mm, Margin: 3 * mm}},
		{units.WholeMillimetres, pocket.Gusset{Content: card, Count: 3}, pocket.Gusset{Content: card, Count: 3, Depth: two}},
		{units.Sixteenths, pocket.GussetRun{}, pocket.GussetRun{Depth: two, Glue: in / 8, Pockets: 3}},
		{units.WholeMillimetres, pocket.GussetRun{Spine: 20 * mm}, pocket.GussetRun{Spine: 20 * mm, Depth: two, Glue: 3 * mm}},       // as many as that takes
		{units.WholeMillimetres, pocket.GussetRun{Tab: 2 * mm}, pocket.GussetRun{Depth: two, Tab: 2 * mm, Glue: 2 * mm, Pockets: 3}}, // no wider than the tab
		{units.WholeMillimetres, pocket.FoldedAccordion{Content: card}, pocket.FoldedAccordion{Content: card, Count: 1, Depth: two, Glue: 6 * mm, Panels: 3}},
		{units.Sixteenths, pocket.Concertina{}, pocket.Concertina{Margin: in / 8, Fold: 3 * in / 16, Tab: in / 2, Leaves: 3}},
		{units.HalfMillimetres, pocket.Concertina{Leaves: 5}, pocket.Concertina{Margin: 3 * mm, Fold: 9 * mm / 2, Tab: 10 * mm, Leaves: 5}},
		{units.InchDecimal.Exact(), pocket.Concertina{}, pocket.Concertina{Margin: in / 8, Fold: 3 * in / 16, Tab: in / 2, Leaves: 3}},
		{units.MetricDecimal.Exact(), pocket.Concertina{}, pocket.Concertina{Margin: 3 * mm, Fold: 9 * mm / 2, Tab: 10 * mm, Leaves: 3}},
		{fives, pocket.Concertina{}, pocket.Concertina{Margin: 5 * mm, Fold: 9 * mm / 2, Tab: 10 * mm, Leaves: 3}}, // no fold of 5 mm, which print has not got
		{units.InchDecimal.Exact(), pocket.GussetRun{Pockets: 2}, pocket.GussetRun{Pockets: 2, Depth: two, Glue: in / 8}},
		{units.WholeMillimetres, pocket.GussetRun{Tab: nm}, pocket.GussetRun{Depth: two, Tab: nm, Glue: nm, Pockets: 3}},
		{units.WholeMillimetres, pocket.Pleat{}, pocket.Pleat{Glue: 6 * mm, Pleats: 3}},
		{units.WholeMillimetres, &pocket.Pleat{Glue: mm}, pocket.Pleat{Glue: mm, Pleats: 3}},
		{-1, pocket.Pleat{}, pocket.Pleat{Glue: 6 * mm, Pleats: 3}},
		{units.WholeMillimetres, nil, nil},
	} {
		if got := pocket.WithDefaults(c.give, c.ruler); got != c.want {
			t.Errorf("%T on %v: %+v; want %+v", c.give, c.ruler, got, c.want)
		}
	}
}

// The usual lengths that the fields document, where the ruler shows every length.
func TestUsualLengths(t *testing.T) {
	for _, c := range []struct {
		n                                               units.Notation
		wide, deep, back, hem, tab, half, play, visible units.Length
	}{
		{units.InchDecimal, 3 * in / 4, 3 * in / 8, in / 8, 3 * in / 2, 3 * in / 8, in / 4, in / 8, 3 * in / 4},
		{units.MetricDecimal, 20 * mm, 10 * mm, 3 * mm, 40 * mm, 10 * mm, 6 * mm, 3 * mm, 20 * mm},
	} {
		r := c.n.Exact()
		content := pocket.Content{Size: units.Size{W: 6 * in, H: 8 * in}, Thickness: in / 50}
		same := func(what string, got, want units.Length) {
			t.Helper()
			if got != want {
				t.Errorf("%v: %s %v; want %v", r, what, got, want)
			}
		}
		for _, n := range piece(t, design(t, pocket.Slip{Content: content}, pocket.Paper{}, r), "pocket front").Blank().Notches() {
			same("a notch wide", n.Width, c.wide)
			same("a notch deep", n.Depth, c.deep)
		}
		width := func(d pocket.Design, name string) units.Length {
			p, _ := d.Panel(name)
			return p.Size().W
		}
		d := design(t, pocket.FoldedStrip{Content: content, Ease: pocket.Ease{H: units.None}}, pocket.Paper{}, r)
		same("a base", width(d, "base"), 6*in)
		same("a flap", width(d, "flap"), 6*in-c.back)
		same("a hem", width(d, "hem"), c.hem)
		// Of a strip alone the hem is that too, and two bases and two thirds what is left and
		// what the flap is set back: the base 3/8 of that.
		d = design(t, pocket.FoldedStrip{Strip: units.Size{W: 24 * in, H: 6 * in}}, pocket.Paper{}, r)
		base := (24*in - c.hem + c.back) * 3 / 8
		same("a base of a strip", width(d, "base"), base)
		same("a flap of a strip", width(d, "flap"), base-c.back)
		same("a hem of a strip", width(d, "hem"), 24*in-2*base+c.back-base*2/3)
		// Of a base no wider than that the flap is as wide as the base.
		d = design(t, pocket.FoldedStrip{Content: sized(2*mm, 30*mm), Ease: pocket.Ease{H: units.None}}, pocket.Paper{}, r)
		same("a flap over little", width(d, "flap"), 2*mm)
		d = design(t, pocket.Gusset{Content: content}, pocket.Paper{}, r)
		same("a half panel", d.Gusset(), c.half)
		same("an opening", d.Opening(), in/50+c.play)
		for _, tab := range piece(t, design(t, pocket.Gusset{Content: content, Half: in}, pocket.Paper{}, r), "side gusset").Blank().Tabs() {
			same("a tab", tab.Depth, c.tab)
		}
		p, _ := design(t, pocket.Pleat{Content: content, Pleats: 2}, pocket.Paper{}, r).Panel("visible part")
		same("a visible part", p.Closed().Size().H, c.visible)
	}
}

// Caliper and grammage follow from each other at the bulk of index 110, 200 g/m² to 0.0091
// in, each to the nearest: twice what it is off is no more than the other's whole.
func TestPaperAtTheBulkOfIndex(t *testing.T) {
	for _, l := range []units.Length{1, 2, 115_570, 231_139, 231_140, mm / 10, mm, units.Metre} {
		p := pocket.Paper{Caliper: l}.WithDefaults()
		off := 231_140*int64(p.Grammage) - 200_000*int64(l)
		if p.Caliper != l || p.TwoSided || 2*max(off, -off) > 231_140 {
			t.Errorf("a caliper of %v: %+v", l, p)
		}
		back := pocket.Paper{Grammage: p.Grammage}.WithDefaults()
		if off := 200_000*int64(back.Caliper) - 231_140*int64(p.Grammage); 2*max(off, -off) > 200_000 {
			t.Errorf("%v: %+v", p.Grammage, back)
		}
	}
	for _, l := range []units.Length{-1, units.Longest + 1} {
		if p := (pocket.Paper{Caliper: l}).WithDefaults(); p.Grammage != 0 {
			t.Errorf("a caliper of %v: %+v", l, p)
		}
	}
}
