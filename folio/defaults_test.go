package folio_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/folio/rule"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

// Folios with fittings of all kinds come out the same with every default filled in,
// step by step.
func TestDefaultsOfKinds(t *testing.T) {
	tells := func(s folio.Spec) (steps []work.Step, texts []string, err error) {
		p, err := folio.Build(s)
		if err != nil {
			return nil, nil, err
		}
		for w := range p.Workings() {
			texts = append(texts, w.String())
		}
		for w := range p.Warnings() {
			texts = append(texts, w.String())
		}
		for h := range p.Heights(true) {
			texts = append(texts, fmt.Sprint(h.Rect(), h.Height()))
		}
		return slices.Collect(p.Steps()), texts, nil
	}
	proptest.Run(t, 60, func(p *gopter.Properties) {
		p.Property("the same with the defaults filled in", prop.ForAll(func(m made) string {
			steps, texts, err := tells(m.spec)
			if err != nil {
				return err.Error()
			}
			filledSteps, filledTexts, err := tells(m.spec.WithDefaults())
			if err != nil {
				return err.Error()
			}
			return cmp.Diff(steps, filledSteps) + cmp.Diff(texts, filledTexts)
		}, anyMade()))
	})
}

// A front end sees what a pocket's glued edges and depth are, on the ruler of
// fittings and not on that of the boards.
func TestDefaultsOfPocketsAreShown(t *testing.T) {
	card := pocket.IDCard()
	s := folio.Spec{
		Rulers:   rule.Rulers{Main: units.WholeMillimetres, Fitting: units.Sixteenths},
		Fittings: []folio.Fitting{{Kind: folio.Folded{Kind: pocket.Slip{Content: card}}}, {Kind: folio.Mat{Picture: card}}},
	}
	filled := s.WithDefaults()
	want := []folio.Kind{
		folio.Folded{Kind: pocket.Slip{Content: card, Count: 1, Depth: pocket.Share{Part: 2, Of: 3}, Glue: units.Inch / 4}},
		folio.Mat{Picture: card, Reveal: 3 * mm},
	}
	for i, f := range filled.Fittings {
		if f.Kind != want[i] {
			t.Errorf("fitting %d is filled in as %+v; want %+v", i, f.Kind, want[i])
		}
	}
	if k := (folio.Spec{Fittings: []folio.Fitting{{Kind: folio.Folded{}}}}).WithDefaults().Fittings[0].Kind; k != (folio.Folded{}) {
		t.Errorf("nothing folded becomes %+v", k)
	}
}
