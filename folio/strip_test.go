package folio_test

import (
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/rule"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// strip is the folded strip of common practice (no published source): 12 in
// long and 6 in high, with three scores.
func strip(scores ...string) folio.Folded {
	k := pocket.FoldedStrip{Strip: units.MustParseSize("12 x 6 in"), Content: pocket.IDCard().Turned()}
	for i, s := range scores {
		k.Scores[i] = units.MustParse(s)
	}
	return folio.Folded{Kind: k}
}

func withStrip(fittings ...folio.Fitting) folio.Spec {
	return folio.Spec{
		Cover:    units.MustParseSize("4 1/2 x 6 1/4 in"),
		Spine:    rule.Spine{Width: units.Inch},
		Fittings: fittings,
	}
}

// Common practice, no published source: scored at 3 7/8, 7 7/8 and 10 1/2 the
// strip has panels 3 7/8, 4, 2 5/8 and 1 1/2, folds to 4 x 6 and goes into a
// 4 1/2 x 6 1/4 cover; its pocket takes an ID-1 card and a mat of 5 3/4 x
// 3 1/2 sits on its flap of 6 x 3 7/8.
func TestFoldedStripOfPractice(t *testing.T) {
	plan, err := folio.Build(withStrip(
		folio.Fitting{Name: "strip", Kind: strip("3 7/8 in", "7 7/8 in", "10 1/2 in")},
		folio.Fitting{Name: "mat", StandsOn: "strip", Kind: folio.Mat{Size: units.MustParseSize("3 1/2 x 5 3/4 in")}},
	))
	if err != nil {
		t.Fatal(err)
	}
	for f := range plan.Fittings() {
		if f.Name() != "strip" {
			continue
		}
		if got := f.Rect().Size(); got != units.MustParseSize("4 x 6 in") {
			t.Errorf("the strip folds to %v, want 4 x 6 in", got)
		}
		d, ok := f.Design()
		if !ok {
			t.Fatal("the strip is not folded")
		}
		want := map[string]string{"flap": "3 7/8 in", "base": "4 in", "pocket front": "2 5/8 in", "hem": "1 1/2 in"}
		seen := 0
		for _, p := range d.Panels() {
			if w, ok := want[p.Name()]; ok {
				seen++
				if p.Size().W != units.MustParse(w) || p.Size().H != 6*units.Inch {
					t.Errorf("the %s is %v, want %s x 6 in", p.Name(), p.Size(), w)
				}
			}
		}
		if seen != len(want) {
			t.Errorf("%d of %d panels are there", seen, len(want))
		}
		if err := d.Accepts(pocket.IDCard().Turned()); err != nil {
			t.Errorf("the pocket does not take an ID-1 card: %v", err)
		}
	}
}

// The same strip with its second score at 4 7/8, a slip that is easily made in
// passing sizes on, has a panel of 5 5/8 in and must be refused, saying so.
func TestFoldedStripWithTheSlip(t *testing.T) {
	_, err := folio.Build(withStrip(folio.Fitting{Name: "strip", Kind: strip("3 7/8 in", "4 7/8 in", "10 1/2 in")}))
	if err == nil {
		t.Fatal("a strip scored at 3 7/8, 4 7/8 and 10 1/2 was taken")
	}
	if !strings.Contains(err.Error(), "5 5/8 in") {
		t.Errorf("the refusal does not name the panel of 5 5/8 in: %v", err)
	}
	if !strings.Contains(err.Error(), "fittings[0].") {
		t.Errorf("the refusal does not name the field: %v", err)
	}
}

// A mat a ruler step too wide or too high for the flap is refused.
func TestMatOnTheFlap(t *testing.T) {
	for _, size := range []string{"3 15/16 x 5 3/4 in", "3 1/2 x 6 1/16 in"} {
		_, err := folio.Build(withStrip(
			folio.Fitting{Name: "strip", Kind: strip("3 7/8 in", "7 7/8 in", "10 1/2 in")},
			folio.Fitting{StandsOn: "strip", Kind: folio.Mat{Size: units.MustParseSize(size)}},
		))
		if err == nil {
			t.Errorf("a mat of %s sits on a flap of 3 7/8 x 6 in", size)
		}
	}
}
