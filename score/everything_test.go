package score_test

import (
	"context"
	"testing"

	"boardwrap.example/internal/fuzztest"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// everything is each function and type of the package. Foldings are listed up to
// a few: a caller may ask for as many as memory holds.
var everything = []any{
	score.NewStrip, score.ScoredStrip, score.Divide, score.NewBlank, score.StripBlank, score.ParseFolds, score.Repeat, score.Alternate,
	score.CFold, score.Roll, score.RollBy, score.Gate, score.DoubleGate, score.DoubleParallel, score.Accordion,
	score.Creep, score.NestedLeaf, score.DoubleScore, score.Channel, score.Advise,
	score.Strip{}, score.Folding{}, score.CrossFolded{}, score.Pattern{}, score.Blank{}, score.Snapped{}, score.Thick{}, score.Bend{}, score.Grooves{}, score.Heavy{},
	score.Turn{}, score.Fold(0), score.Side(0), score.TurnWay(0), score.TurnedPart(0), score.Axis(0), score.Edge(0), score.Corner(0), score.End(0), score.FoldGrain(0),
	score.Tab{}, score.Notch{}, score.Snap{}, score.Unfoldable{}, score.Blocked{},
	fuzztest.Except{Name: "FoldAcross", Because: "called below, with strips that fold"},
	// Strips that hold and are folded as the data says: few data make one.
	func(widths []uint8, folds []bool) score.Strip {
		var panels []units.Length
		var kinds []score.Fold
		for i, w := range widths {
			panels = append(panels, (units.Length(w)+1)*mm)
			if i > 0 {
				kinds = append(kinds, score.Fold(bit(len(folds) > 0 && folds[i%len(folds)])))
			}
		}
		s, err := score.NewStrip(panels, kinds...)
		if err != nil && len(widths) > 0 {
			panic(err)
		}
		return s
	},
	func(ctx context.Context, widths []uint8, turns []score.Turn, r units.Ruler, inserts []score.Enclosure, level bool) (score.CrossFolded, error) {
		var panels []units.Length
		for _, w := range widths {
			panels = append(panels, (units.Length(w)+1)*mm)
		}
		s, err := score.NewStrip(panels, score.Alternate(len(panels)-1, score.Valley)...)
		if err != nil {
			return score.CrossFolded{}, err
		}
		f, _ := s.FoldBy(context.Background(), turns...) // as far as they go
		g, err := s.Fold()
		if err != nil {
			return score.CrossFolded{}, err
		}
		_, _ = f.Thick(mm/10, r, inserts...)
		return score.FoldAcross(score.Axis(bit(level)), f, g)
	},
}

// FuzzEverything calls every function and method with any values at all.
func FuzzEverything(f *testing.F) { fuzztest.Everything(f, 600, everything...) }

// Nothing that the package exports is left out of that.
func TestEverythingIsCalled(t *testing.T) { fuzztest.Complete(t, ".", everything...) }
