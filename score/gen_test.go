package score_test

import (
	"testing"

	"boardwrap.example/internal/proptest"
	"boardwrap.example/score"
	"boardwrap.example/units"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
)

// properties runs properties with at least 1,000 cases each.
func properties(t *testing.T, add func(p *gopter.Properties)) {
	t.Helper()
	proptest.Run(t, 1000, add)
}

// draft is a strip as plain numbers, which gopter can shrink.
type draft struct {
	panels []units.Length
	folds  []score.Fold
}

func (d draft) strip() score.Strip {
	s, err := score.NewStrip(d.panels, d.folds...)
	if err != nil {
		panic(err)
	}
	return s
}

// smallWidths are whole millimetres, so that scores often lie over each other.
func smallWidths(most int64) gopter.Gen {
	return proptest.Map(gen.Int64Range(1, most), func(n int64) units.Length {
		l, _ := units.Millimetre.Times(n)
		return l
	})
}

// anyWidths are lengths to the nanometre.
func anyWidths() gopter.Gen {
	return proptest.Map(gen.Int64Range(int64(units.Shortest), int64(100*units.Millimetre)), func(n int64) units.Length {
		l, _ := units.Nanometre.Times(n)
		return l
	})
}

// drafts are strips of up to most panels with any folds.
func drafts(most int, widths gopter.Gen) gopter.Gen {
	panel := gopter.CombineGens(widths, gen.Bool())
	return proptest.Map(proptest.List(1, most, panel), func(vs [][]any) draft {
		var d draft
		for i, v := range vs {
			d.panels = append(d.panels, v[0].(units.Length))
			if i > 0 {
				kind := score.Valley
				if v[1].(bool) {
					kind = score.Mountain
				}
				d.folds = append(d.folds, kind)
			}
		}
		return d
	})
}
