package score_test

import (
	"context"
	"errors"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// TestLimits tries every limit of the package at it, above it and far above it.
func TestLimits(t *testing.T) {
	ctx := context.Background()
	even := func(n int) score.Strip {
		s, err := score.NewStrip(slices.Repeat([]units.Length{mm}, min(n, score.MaxPanels)), score.Alternate(min(n, score.MaxPanels)-1, score.Valley)...)
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	folded := func(n int) score.Folding {
		f, err := even(n).Fold()
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	blank := func(n int, set func(d *score.Draft, n int)) error {
		d := score.Draft{Size: units.Size{W: 9 * units.Metre, H: 9 * units.Metre}}
		set(&d, n)
		return second(score.NewBlank(d))
	}
	at := func(i int) units.Length { return units.Length(2*i+1) * mm }
	for name, c := range map[string]struct {
		limit int
		path  string
		code  check.Code
		try   func(n int) error
	}{
		"MaxPanels of a strip": {score.MaxPanels, "panels", check.TooMany, func(n int) error {
			return second(score.NewStrip(slices.Repeat([]units.Length{mm}, n), score.Repeat(n-1, score.Valley)...))
		}},
		"MaxPanels of a division": {score.MaxPanels, "parts", check.TooMany, func(n int) error {
			return second(score.Divide(9*units.Metre, n, 0, score.Repeat(n-1, score.Valley)...))
		}},
		"MaxPanels of an accordion": {score.MaxPanels, "parts", check.TooMany, func(n int) error { return second(score.Accordion(9*units.Metre, n, 0, score.Valley)) }},
		"MaxRoll":                   {score.MaxRoll, "panels", check.OutOfRange, func(n int) error { return second(score.Roll(9*units.Metre, n, score.TuckIn{Less: mm})) }},
		"MaxRoll of tucks":          {score.MaxRoll - 2, "tucks", check.TooMany, func(n int) error { return second(score.RollBy(9*units.Metre, 0, make([]units.Length, n)...)) }},
		"MaxLayers":                 {score.MaxLayers, "panels", check.TooMany, func(n int) error { return second(even(n).CountFoldings(ctx, 1)) }},
		"MaxTurnsTo":                {score.MaxTurnsTo, "panels", check.TooMany, func(n int) error { return second(even(n).TurnsTo(ctx, folded(n))) }},
		"MaxSnap":                   {score.MaxSnap, "strip", check.TooMany, func(n int) error { return second(score.Grooves{Pitch: mm}.Snap(even(n))) }},
		"MaxParts of lines": {score.MaxParts, "lines", check.TooMany, func(n int) error {
			return blank(n, func(d *score.Draft, n int) {
				for i := range n {
					d.Lines = append(d.Lines, score.Line{At: at(i % score.MaxParts)})
				}
			})
		}},
		"MaxParts of cut-outs": {score.MaxParts, "cutouts", check.TooMany, func(n int) error {
			return blank(n, func(d *score.Draft, n int) {
				for i := range n {
					d.CutOuts = append(d.CutOuts, score.CutOut{Area: units.RectAt(units.Point{X: at(i % score.MaxParts), Y: mm}, units.Size{W: mm, H: mm})})
				}
			})
		}},
		"MaxParts of notches": {score.MaxParts, "notches", check.TooMany, func(n int) error {
			return blank(n, func(d *score.Draft, n int) {
				for i := range n {
					d.Notches = append(d.Notches, score.Notch{Middle: at(i % score.MaxParts), Width: mm, Depth: mm})
				}
			})
		}},
		"MaxParts of glue": {score.MaxParts, "glue", check.TooMany, func(n int) error {
			return blank(n, func(d *score.Draft, n int) {
				for i := range n {
					d.Glue = append(d.Glue, score.Glue{Area: units.RectAt(units.Point{X: at(i % score.MaxParts), Y: mm}, units.Size{W: mm, H: mm})})
				}
			})
		}},
		"MaxParts of tabs": {score.MaxParts, "tabs", check.TooMany, func(n int) error {
			return blank(n, func(d *score.Draft, n int) {
				for i := range n {
					d.Tabs = append(d.Tabs, score.Tab{From: at(i % score.MaxParts), To: at(i%score.MaxParts) + mm, Depth: mm})
				}
			})
		}},
		"MaxParts of slants": {score.MaxParts, "slants", check.TooMany, func(n int) error {
			err := blank(n, func(d *score.Draft, n int) {
				d.Slants = slices.Repeat([]score.Slant{{Along: mm, Down: mm}}, n)
			})
			var bad *check.Error
			if errors.As(err, &bad) {
				if _, many := bad.Find("slants", check.TooMany); !many { // a sheet has but four corners
					return nil
				}
			}
			return err
		}},
		"MaxCorners of all that is cut": {(units.MaxCorners - 4) / 25, "", check.TooMany, func(n int) error {
			return blank(n, func(d *score.Draft, n int) {
				for i := range min(n, score.MaxParts) {
					d.Notches = append(d.Notches, score.Notch{Middle: at(i), Width: mm, Depth: mm, Round: true})
				}
			})
		}},
	} {
		if err := c.try(c.limit); err != nil {
			t.Errorf("%s: at the limit: %v", name, err)
		}
		for _, n := range []int{c.limit + 1, 10 * c.limit} {
			if err := c.try(n); err == nil {
				t.Errorf("%s: %d are taken", name, n)
			} else {
				violation(t, err, c.path, c.code)
			}
		}
	}
}

// Results compare by what they say, with go-cmp too.
func TestResultsCompare(t *testing.T) {
	tuck := score.TuckIn{Ruler: units.Sixteenths}
	a, _ := score.CFold(11*units.Inch, tuck)
	b, _ := score.CFold(11*units.Inch, tuck)
	c, _ := score.CFold(12*units.Inch, tuck)
	if !cmp.Equal(a, b) || cmp.Equal(a, c) || cmp.Equal(a, a.Reversed()) || !cmp.Equal(a, a.Reversed().Reversed()) {
		t.Error("patterns")
	}
	fa, _ := a.Fold()
	fb, _ := b.Fold()
	fc, _ := c.Fold()
	if !cmp.Equal(fa, fb) || cmp.Equal(fa, fc) {
		t.Error("folded strips")
	}
	if !cmp.Equal(across(t, score.Level, fa, fc), across(t, score.Level, fb, fc)) || cmp.Equal(across(t, score.Level, fa, fc), across(t, score.Upright, fa, fc)) || cmp.Equal(across(t, score.Level, fa, fc), across(t, score.Level, fc, fa)) {
		t.Error("sheets")
	}
	ta, _ := fa.Thick(mm, 0)
	tb, _ := fb.Thick(mm, 0)
	tc, _ := fa.Thick(mm, 0, score.Enclosure{Panel: 1, To: mm, Thickness: 5 * mm})
	if !cmp.Equal(ta, tb) || cmp.Equal(ta, tc) {
		t.Error("thick strips")
	}
	d := aPocket()
	one, err := score.NewBlank(d)
	two, err2 := score.NewBlank(d)
	d.Notches[0].Depth += mm
	other, err3 := score.NewBlank(d)
	if err != nil || err2 != nil || err3 != nil || !cmp.Equal(one, two) || cmp.Equal(one, other) {
		t.Error("blanks")
	}
	g := score.Grooves{Pitch: units.Inch / 8}
	sa, err := g.Snap(a.Strip())
	sb, err2 := g.Snap(b.Strip())
	sc, err3 := g.Snap(c.Strip())
	if err != nil || err2 != nil || err3 != nil || !cmp.Equal(sa, sb) || cmp.Equal(sa, sc) {
		t.Error("snapped strips")
	}
}
