package folio_test

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/units"
)

// A plan made again from an earlier one is the plan that Build makes, whatever was
// changed, and back again.
func TestAgainIsBuild(t *testing.T) {
	for name, change := range map[string]func(*folio.Spec){
		"the same":        func(*folio.Spec) {},
		"a larger cover":  func(s *folio.Spec) { s.Cover = s.Cover.Plus(mm, 2*mm) },
		"another stock":   func(s *folio.Spec) { s.Stocks[0].Caliper = mm / 2 },
		"another ruler":   func(s *folio.Spec) { s.Rulers.Fitting = units.WholeMillimetres },
		"another strip":   func(s *folio.Spec) { s.Fittings[0].Kind = strip("3 3/4 in", "7 1/2 in", "10 1/4 in") },
		"the wrong side":  func(s *folio.Spec) { s.Stocks[0].TwoSided, s.Fittings[0].WrongSide = true, true },
		"without a strip": func(s *folio.Spec) { s.Fittings = s.Fittings[2:] },
		"one that fails":  func(s *folio.Spec) { s.Cover.W = 40 * mm },
	} {
		s := keepsake()
		change(&s)
		for _, way := range [][2]folio.Spec{{keepsake(), s}, {s, keepsake()}} {
			first, err := folio.Build(way[0])
			if err != nil {
				continue // the one that fails
			}
			want, wantErr := folio.Build(way[1])
			got, gotErr := first.Again(way[1])
			switch {
			case (wantErr == nil) != (gotErr == nil):
				t.Errorf("%s: %v, again %v", name, wantErr, gotErr)
			case wantErr != nil && wantErr.Error() != gotErr.Error():
				t.Errorf("%s: %v, again %v", name, wantErr, gotErr)
			case wantErr == nil && told(got) != told(want):
				t.Errorf("%s: another plan", name)
			}
		}
	}
}
