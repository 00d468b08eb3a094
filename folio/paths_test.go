package folio_test

import (
	"errors"
	"reflect"
	"strings"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/mendtest"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// trials are kinds with sizes that often cannot be made, on a cover of 114 x 159
// mm or so.
func trials() gopter.Gen {
	length := func() gopter.Gen {
		return gen.OneGenOf(gen.OneConstOf(int64(0), int64(0), int64(3*mm), int64(25*mm)), gen.Int64Range(0, 40_000_000), gen.Int64Range(0, 40_000_000), gen.Int64Range(0, 40_000_000),
			gen.OneGenOf(gen.Int64Range(-2, 2), gen.Int64Range(0, 4_000_000_000)))
	}
	size := func() gopter.Gen {
		return gen.OneGenOf(gen.Int64Range(5_000_000, 150_000_000), gen.Int64Range(5_000_000, 150_000_000), gen.Int64Range(5_000_000, 150_000_000), length())
	}
	return gopter.CombineGens(gen.IntRange(0, 5), size(), size(), length(), length(), length(), length(), length(),
		gen.IntRange(0, 4), gen.IntRange(0, 4), gen.IntRange(0, 3), gen.IntRange(0, 3))
}

// trial makes a fitting of what trials gave.
func trial(v []any) folio.Fitting {
	l := func(i int) units.Length { return units.Length(v[i].(int64)) }
	size := units.Size{W: l(1), H: l(2)}
	pic := pocket.Content{Size: size, Thickness: l(3) / 100}
	var k folio.Kind
	switch v[0].(int) {
	case 0:
		k = folio.Mat{Size: size}
	case 1:
		k = folio.Mat{Picture: pic, Reveal: l(4)}
	case 2:
		k = folio.Frame{Picture: pic, Lap: l(4) / 4, Rail: l(5) / 4, FoamWidth: l(6) / 4, Ease: l(7) / 4, Mouth: score.Edge(v[10].(int))}
	case 3:
		k = folio.Frame{Picture: pic, Mouth: score.Edge(v[10].(int))}
	case 4:
		k = folio.Ornament{Size: size, Thickness: l(3) / 10, Mass: units.Mass(l(7)) * 1000}
	default:
		k = folio.Frame{Picture: pic, Foam: l(6) / 10, FoamStock: "foam", Film: "film"}
	}
	return folio.Fitting{Name: "crew", Kind: k, Place: place.Place{
		Across: place.Align(v[8].(int) % 3), Along: []place.Align{place.Middle, place.Head, place.Tail}[v[9].(int)%3],
		Offset: units.Point{X: l(6) / 8, Y: l(7) / 8},
	}}
}

// trialRulers are rulers coarse and fine.
func trialRulers() []units.Ruler {
	half, err := units.NewRuler(units.Inch/2, units.InchFraction)
	if err != nil {
		panic(err)
	}
	return []units.Ruler{units.Sixteenths, units.WholeMillimetres, units.Eighths, half}
}

// Every violation of a fitting names a field of the Spec as it is called, and
// the fitting as its user did.
func TestViolationsOfFittingsPoint(t *testing.T) {
	seen, rulers := map[string]int{}, trialRulers()
	proptest.Run(t, 4000, func(p *gopter.Properties) {
		p.Property("paths lead to fields", prop.ForAll(func(v []any) string {
			s := good()
			s.Rulers.Fitting = rulers[v[11].(int)]
			s.Spine.Width = 60 * mm
			s.Stocks = []stock.Stock{{Name: "foam", Caliper: 2 * mm}, {Name: "film", Caliper: mm / 10}}
			s.Fittings = []folio.Fitting{trial(v)}
			_, err := folio.Build(s)
			var bad *check.Error
			if !errors.As(err, &bad) {
				seen["sound"]++
				return ""
			}
			for x := range bad.All() {
				kind := reflect.TypeOf(s.Fittings[0].Kind).Name()
				seen[kind+" "+x.Path+" "+string(x.Code)]++
				if said := points(s, x); said != "" {
					return said
				}
			}
			return ""
		}, trials()))
	})
	if len(seen) < 30 || seen["sound"] < proptest.Cases(4000)/40 {
		t.Errorf("lopsided: %v", seen)
	}
	t.Log(seen)
}

// pocketTrials are what pocketTrial takes: which kind, lengths that are often
// absurd, counts.
func pocketTrials() gopter.Gen {
	length := gen.Weighted([]gen.WeightedGen{
		{Weight: 40, Gen: gen.Const(int64(0))}, {Weight: 1, Gen: gen.Int64Range(-2, 2)},
		{Weight: 4, Gen: gen.Int64Range(1_000_000, 30_000_000)}, {Weight: 3, Gen: gen.Int64Range(0, 300_000_000)},
	})
	content := gen.Int64Range(10_000_000, 130_000_000)
	gens := []gopter.Gen{gen.IntRange(0, 8), content, content, gen.Int64Range(0, 3_000_000)}
	for range 12 {
		gens = append(gens, length)
	}
	for range 5 {
		gens = append(gens, gen.IntRange(1, 5))
	}
	return gopter.CombineGens(gens...)
}

func pocketTrial(v []any) pocket.Kind {
	l := func(i int) units.Length { return units.Length(v[i].(int64)) }
	n := func(i int) int { return v[16+i].(int) }
	size := func(i int) units.Size { return units.Size{W: l(i), H: l(i + 1)} }
	var c pocket.Content
	if n(0) > 1 {
		c = pocket.Content{Size: size(1), Thickness: l(3)}
	}
	var share pocket.Share
	if n(1) == 1 {
		share = pocket.Share{Part: n(1), Of: n(2)}
	}
	var ease pocket.Ease
	if n(3) == 5 {
		ease = pocket.Ease{W: l(4), H: l(5)}
	}
	var notch pocket.ThumbNotch
	switch n(4) {
	case 1:
		notch = pocket.ThumbNotch{Width: units.None, Depth: units.None}
	case 5:
		notch = pocket.ThumbNotch{Width: l(6), Depth: l(7)}
	}
	switch v[0].(int) {
	case 0:
		return pocket.Slip{Content: c, Count: n(2) % 3, Ease: ease, StandOut: l(8), Depth: share, Place: size(9), Build: pocket.Build(n(3) % 3), Glue: l(11), Notch: notch}
	case 1:
		return pocket.Corners{Content: c, Count: n(2) % 3, Ease: ease, Corners: n(3), Leg: l(8), Turn: l(9), Place: size(10)}
	case 2:
		return pocket.Flap{Content: c, Mat: pocket.Mat{Size: size(4), Caliper: l(6)}, Margin: l(7), Leaf: size(8), Hinge: score.Edge(n(2)), Tab: l(10), Over: l(11), Spine: l(12)}
	case 3:
		return pocket.FoldedStrip{Content: c, Count: n(2) % 3, Ease: ease, Depth: share, Strip: size(4), Flap: l(8), Base: l(9), Front: l(10), Hem: l(11), Spine: l(12), Overhang: l(13), Glue: l(14), Margin: l(15)}
	case 4:
		return pocket.Gusset{Content: c, Count: n(2) % 3, Ease: ease, StandOut: l(8), Depth: share, At: pocket.GussetAt(n(3) % 3), Opening: l(9), Half: l(10), Tab: l(11), Place: size(12), Notch: notch}
	case 5:
		return pocket.GussetRun{Content: c, Ease: ease, StandOut: l(8), Depth: share, Pockets: n(3) - 1, Opening: l(9), Half: l(10), Tab: l(11), Land: l(12), JointTab: l(13), Spine: l(14), Place: size(4), Notch: notch}
	case 6:
		return pocket.FoldedAccordion{Content: c, Ease: ease, StandOut: l(8), Depth: share, Panels: n(3) - 1, Panel: size(9), Strip: size(11), Tab: l(13), JointTab: l(14), Glue: l(15), Notch: notch, Spine: l(4)}
	case 7:
		return pocket.Concertina{Content: c, Margin: l(4), Leaves: n(3) - 1, Leaf: size(5), Fold: l(7), Land: l(8), Tab: l(9), JointTab: l(10), Spine: l(11)}
	}
	return pocket.Pleat{Content: c, Ease: ease, Pleats: n(3) - 1, Visible: l(8), Fold: l(9), Glue: l(10), Place: size(11)}
}

// foldedTrial is a folio with something folded, whose paper comes from a stock
// with small sheets.
func foldedTrial(v []any) folio.Spec {
	s := arranged(folio.Fitting{Name: "crew", Kind: folio.Folded{Kind: pocketTrial(v)}, Stock: "card stock"})
	s.Stocks = append(s.Stocks, stock.Stock{Name: "card stock", Caliper: mm / 4, Sheets: []stock.Sheet{{Size: units.Size{W: 150 * mm, H: 210 * mm}}}})
	return s
}

// The same for everything that is folded, whose paper comes from a stock with
// small sheets; and warnings name fields as well.
func TestViolationsOfFoldedFittingsPoint(t *testing.T) {
	seen := map[string]int{}
	proptest.Run(t, 4000, func(p *gopter.Properties) {
		p.Property("paths lead to fields", prop.ForAll(func(v []any) string {
			s := foldedTrial(v)
			plan, err := folio.Build(s)
			var bad *check.Error
			if !errors.As(err, &bad) {
				seen["sound"]++
				for w := range plan.Warnings() {
					if err := mendtest.At(reflect.ValueOf(&s).Elem(), w.Path, func(reflect.Value) {}); err != nil {
						return "a warning: " + err.Error()
					}
				}
				return ""
			}
			for x := range bad.All() {
				seen[string(x.Code)]++
				if said := points(s, x); said != "" {
					return said
				}
			}
			return ""
		}, pocketTrials()))
	})
	if len(seen) < 10 || seen["sound"] < proptest.Cases(4000)/40 {
		t.Errorf("lopsided: %v", seen)
	}
}

// points reports, unless it is "", that a violation leads to no field of a Spec,
// does not name the fitting, or says too little.
func points(s folio.Spec, x check.Violation) string {
	if err := mendtest.At(reflect.ValueOf(&s).Elem(), x.Path, func(reflect.Value) {}); err != nil {
		return err.Error()
	}
	if strings.HasPrefix(x.Path, "fittings[0]") && x.Of != "crew" {
		return x.Error() + " does not name the fitting"
	}
	if x.Got == "" || x.Want == "" {
		return x.Error() + " says too little"
	}
	return ""
}
