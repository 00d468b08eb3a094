package pocket_test

import (
	"math/rand"
	"reflect"
	"testing"

	"boardwrap.example/internal/makertest"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// optioned sets some options of a kind that are not set, and of its mat, ease and
// notch, to lengths of a few millimetres, on and off the ruler.
func optioned(r *rand.Rand, k pocket.Kind) pocket.Kind {
	v := reflect.New(reflect.TypeOf(k)).Elem()
	v.Set(reflect.ValueOf(k))
	some := func() units.Length {
		return []units.Length{mm, 2 * mm, 3 * mm, 5 * mm, 6 * mm, 8 * mm, 12 * mm, 20 * mm, 4321 * units.Micrometre}[r.Intn(9)]
	}
	for i := range v.NumField() {
		f := v.Field(i)
		if !f.IsZero() || r.Intn(3) > 0 {
			continue
		}
		switch f.Interface().(type) {
		case units.Length:
			f.Set(reflect.ValueOf(some()))
		case pocket.Ease:
			f.Set(reflect.ValueOf(pocket.Ease{W: some() / 2, H: some() / 2}))
		case pocket.Notch:
			f.Set(reflect.ValueOf(pocket.Notch{Width: 10*mm + some(), Depth: 2*mm + some()/2}))
		case pocket.Mat:
			f.Set(reflect.ValueOf(pocket.Mat{Size: units.MustParseSize("60 x 80 mm"), Caliper: some() / 4}))
		}
	}
	return v.Interface().(pocket.Kind)
}

// Lengths that a kind leaves to its maker, its mat, its ease and its notch are set by
// themselves and together, on sheets that need joints too: a maker makes that.
func TestMadeWithOptions(t *testing.T) {
	r := rand.New(rand.NewSource(proptest.Seed()))
	made := map[string]int{}
	papers := []pocket.Paper{
		{}, {Caliper: 200 * units.Micrometre, Groove: pocket.GrooveInside}, {MatCaliper: mm},
		{Sheet: units.MustParseSize("300 x 420 mm")}, {Caliper: mm / 10, Sheet: units.MustParseSize("8 1/2 x 11 in"), TwoSided: true},
		{Sheet: units.MustParseSize("100 x 150 mm")}, {Sheet: units.MustParseSize("150 x 210 mm"), TwoSided: true},
	}
	kinds, cases := workbench(), proptest.Cases(1000)
	for n := range cases {
		plain := kinds[n%len(kinds)]
		k := optioned(r, plain)
		ruler := []units.Ruler{units.WholeMillimetres, units.HalfMillimetres, units.Sixteenths}[r.Intn(3)]
		d, err := k.Design(papers[r.Intn(len(papers))], ruler)
		if err != nil {
			continue // not all options go together, which other tests look at
		}
		if err := makertest.Follow(jobOf(d)); err != nil {
			t.Fatalf("%T%+v on %v in %+v: %v", k, k, ruler, d.Paper(), err)
		}
		v := reflect.ValueOf(k)
		for i := range v.NumField() {
			if !v.Field(i).IsZero() {
				made[v.Type().Name()+"."+v.Type().Field(i).Name]++
			}
		}
	}
	for _, name := range []string{
		"Slip.StandOut", "Slip.Glue", "Corner.Leg", "Corner.Turn", "Flap.Spine", "Flap.Tab", "FoldedStrip.StandOut", "FoldedStrip.Overhang", "FoldedStrip.Hem", "FoldedStrip.Mat", "FoldedStrip.Spine",
		"Gusset.Opening", "Gusset.Half", "Gusset.Notch", "GussetRun.Spine", "GussetRun.Notch", "GussetRun.Tab", "GussetRun.Glue", "GussetRun.Land", "GussetRun.Half", "GussetRun.Opening", "GussetRun.JointTab", "FoldedAccordion.Glue", "FoldedAccordion.Notch", "FoldedAccordion.Spine",
		"Concertina.JointTab", "Concertina.Spine", "Concertina.Land", "Pleat.Fold", "Pleat.Ease",
	} {
		if made[name] == 0 && cases >= 500 {
			t.Errorf("%s is never made", name)
		}
	}
}
