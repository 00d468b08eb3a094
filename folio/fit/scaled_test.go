package fit_test

import (
	"testing"

	"boardwrap.example/folio/fit"
	"boardwrap.example/units"
)

// A scaled cover is put on the nearest graduation, and on a ruler of nanometres on
// the nearest of those, half of one away from zero.
func TestScaledToTheNearest(t *testing.T) {
	const mm = units.Millimetre
	one, err := units.NewRuler(units.Nanometre, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		w, h     units.Length
		r        units.Ruler
		of, part int64
		want     units.Size
	}{
		{101300 * units.Micrometre, 151700 * units.Micrometre, units.WholeMillimetres, 100, 75, units.Size{W: 76 * mm, H: 114 * mm}}, // 75.975 and 113.775
		{101300 * units.Micrometre, 151700 * units.Micrometre, units.WholeMillimetres, 100, 40, units.Size{W: 41 * mm, H: 61 * mm}},  // 40.52 and 60.68
		{100100 * units.Micrometre, 150300 * units.Micrometre, units.WholeMillimetres, 100, 33, units.Size{W: 33 * mm, H: 50 * mm}},  // 33.033 and 49.599
		// 5556249.6 and 5556250.4 nm about the middle between 3/16 and 1/4 in, 5556250;
		// 2976562.6 and 2976562.4 nm about that between 7/64 and 8/64 in, 2976562.5.
		{55_562_496, 55_562_504, units.Sixteenths, 10, 1, units.Size{W: 3 * units.Inch / 16, H: units.Inch / 4}},
		{29_765_626, 29_765_624, units.SixtyFourths, 10, 1, units.Size{W: units.Inch / 8, H: 7 * units.Inch / 64}},
		{10*mm + 1, 20*mm + 2, one, 2, 1, units.Size{W: 5*mm + 1, H: 10*mm + 1}},
		{10*mm + 2, 20*mm + 1, one, 3, 1, units.Size{W: 3_333_334, H: 6_666_667}}, // 3333334 and 6666667 exactly
		{10 * mm, 20 * mm, one, 3, 1, units.Size{W: 3_333_333, H: 6_666_667}},     // thirds of one below and above
	} {
		got := fit.ScaledCovers(units.Size{W: c.w, H: c.h}, c.r, c.of, c.part)
		if len(got) != 1 || got[0] != c.want {
			t.Errorf("%v x %v by %d of %d: %v, want %v", c.w, c.h, c.part, c.of, got, c.want)
		}
	}
}
