package score_test

import (
	"context"
	"errors"
	"fmt"
	"reflect"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/internal/mendtest"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// badDrawings are drawings with a few parts whose lengths are on and off the
// sheet, at its edges, negative and far out.
func badDrawings() gopter.Gen {
	length := gen.OneGenOf(gen.Int64Range(-5, 130), gen.Int64Range(0, 60), gen.OneConstOf(int64(0), int64(-1), int64(60), int64(100), int64(1e7)))
	return proptest.Map(gen.SliceOfN(40, length), func(ns []int64) score.Draft {
		next := func() units.Length {
			n := ns[0]
			ns = append(ns[1:], n)
			return units.Length(n) * mm
		}
		edge := func() score.Edge { return score.Edge(next() / mm & 3) }
		d := score.Draft{Size: units.Size{W: 100 * mm, H: 60 * mm}}
		for range 1 + next()/mm&1 {
			d.Lines = append(d.Lines, score.Line{At: next(), From: next(), To: next()})
			d.CutOuts = append(d.CutOuts, score.CutOut{Area: units.RectAt(units.Point{X: next(), Y: next()}, units.Size{W: next(), H: next()}), Radius: next()})
			d.Notches = append(d.Notches, score.Notch{Edge: edge(), Middle: next(), Width: next(), Depth: next()})
			d.Slants = append(d.Slants, score.Slant{Corner: score.Corner(edge()), Along: next(), Down: next()})
			d.Tabs = append(d.Tabs, score.Tab{Edge: edge(), From: next(), To: next(), Depth: next(), Taper: next()})
			d.Glue = append(d.Glue, score.Glue{Area: units.RectAt(units.Point{X: next(), Y: next()}, units.Size{W: next(), H: next()})})
		}
		return d
	})
}

// TestWantsDo: every path names a field of the drawing, and setting each length
// to the limit that its violation names mends that violation.
func TestWantsDo(t *testing.T) {
	mended := 0
	proptest.Run(t, 1500, func(p *gopter.Properties) {
		p.Property("what would do does", prop.ForAll(func(d score.Draft) string {
			_, err := score.NewBlank(d)
			var bad *check.Error
			if !errors.As(err, &bad) {
				return ""
			}
			changed := mendtest.Copy(d)
			for v := range bad.All() {
				said := ""
				err := mendtest.At(reflect.ValueOf(&changed).Elem(), v.Path, func(f reflect.Value) {
					if v.Bound == check.NoBound {
						return
					}
					l, is := f.Addr().Interface().(*units.Length)
					if !is || v.By <= 0 {
						said = v.Path + " is no length"
						return
					}
					*l = v.Limit
				})
				if err != nil || said != "" {
					return fmt.Sprint(err, said)
				}
			}
			_, err = score.NewBlank(changed)
			var still *check.Error
			errors.As(err, &still)
			for v := range bad.All() {
				if v.Bound == check.NoBound {
					continue
				}
				mended++
				if still != nil {
					if again, ok := still.Find(v.Path, v.Code); ok && again.Bound != check.NoBound {
						return "again: " + again.Error()
					}
				}
			}
			return ""
		}, badDrawings()))
	})
	if mended < proptest.Cases(1500)*2/3 {
		t.Errorf("only %d lengths mended", mended)
	}
}

// What is asked of the package, with fields that are called as errors call
// them.
type (
	panelled struct {
		Panels []units.Length
		Folds  []score.Fold
	}
	scored struct {
		Length units.Length
		Scores []units.Length
		Folds  []score.Fold
	}
	divided struct {
		Length units.Length
		Parts  int
		Ruler  units.Ruler
		Folds  []score.Fold
	}
	tucked struct {
		Length units.Length
		Panels int
		Tuck   score.TuckIn
		Rule   uint8 // which pattern
	}
	rolled struct {
		Length units.Length
		Ruler  units.Ruler
		Tucks  []units.Length
	}
	snapped struct {
		Grooves score.Grooves
		Keep    []score.NoWider
	}
	filled struct {
		Caliper units.Length
		Ruler   units.Ruler
		Inserts []score.Enclosure
	}
	turned     struct{ Turns []score.Turn }
	acrossAxis struct{ Axis score.Axis }
	limited    struct{ Limit int }
)

func (a tucked) pattern() error {
	switch a.Rule % 5 {
	case 0:
		return second(score.Roll(a.Length, a.Panels, a.Tuck))
	case 1:
		return second(score.CFold(a.Length, a.Tuck))
	case 2:
		return second(score.Gate(a.Length, a.Tuck))
	case 3:
		return second(score.DoubleGate(a.Length, a.Tuck))
	}
	return second(score.DoubleParallel(a.Length, a.Tuck))
}

// spoiltAsk spoils one of the things that can be asked, and tries what its
// violations say.
func spoiltAsk(tally *mendtest.Tally, which int, from int64) {
	strip, _ := score.NewStrip([]units.Length{40 * mm, 40 * mm, 39 * mm, 30 * mm}, score.Valley, score.Valley, score.Valley)
	folded, _ := strip.Fold()
	switch which {
	case 0, 1, 2: // most of what can be wrong is wrong with drawings
		try(tally, aPocket(), from, func(d score.Draft) error { return second(score.NewBlank(d)) })
	case 3:
		try(tally, panelled{[]units.Length{9 * mm, 8 * mm, 7 * mm}, score.Repeat(2, score.Valley)}, from, func(a panelled) error {
			return second(score.NewStrip(a.Panels, a.Folds...))
		})
	case 4:
		try(tally, scored{90 * mm, []units.Length{20 * mm, 50 * mm, 70 * mm}, score.Repeat(3, score.Valley)}, from, func(a scored) error {
			return second(score.ScoredStrip(a.Length, a.Scores, a.Folds...))
		})
	case 5:
		try(tally, divided{297 * mm, 4, units.WholeMillimetres, score.Repeat(3, score.Valley)}, from, func(a divided) error {
			return second(score.Divide(a.Length, a.Parts, a.Ruler, a.Folds...))
		})
	case 6:
		try(tally, tucked{297 * mm, 4, score.TuckIn{Less: 2 * mm, Caliper: mm / 4, Ruler: units.WholeMillimetres}, uint8(from & 7)}, from, tucked.pattern)
	case 7:
		try(tally, rolled{17 * units.Inch, units.ThirtySeconds, []units.Length{3 * units.Inch / 32, units.Inch / 16}}, from, func(a rolled) error {
			return second(score.RollBy(a.Length, a.Ruler, a.Tucks...))
		})
	case 8:
		try(tally, snapped{score.Grooves{Pitch: 5 * mm, Origin: 2 * mm}, []score.NoWider{{Panel: 2, Than: 0}, {Panel: 3, Than: 2}}}, from, func(a snapped) error {
			return second(a.Grooves.Snap(strip, a.Keep...))
		})
	case 9:
		try(tally, filled{mm / 4, units.WholeMillimetres, []score.Enclosure{{Panel: 1, From: mm, To: 20 * mm, Thickness: mm}, {To: 30 * mm, Side: score.Back}}}, from, func(a filled) error {
			if from%2 == 0 {
				a.Ruler = 0
				return second(folded.Profile(a.Caliper, a.Inserts...))
			}
			return second(folded.Thick(a.Caliper, a.Ruler, a.Inserts...))
		})
	case 10:
		try(tally, turned{[]score.Turn{{Score: 2}, {Score: 1, Way: score.Towards}, {Score: 0, Part: score.Before}}}, from, func(a turned) error {
			return second(strip.FoldBy(context.Background(), a.Turns...))
		})
	case 11:
		try(tally, acrossAxis{score.Level}, from, func(a acrossAxis) error { return second(score.FoldAcross(a.Axis, folded, folded)) })
	case 12:
		try(tally, limited{2}, from, func(a limited) error { return second(strip.CountFoldings(context.Background(), a.Limit)) })
	}
}

func try[T any](tally *mendtest.Tally, sound T, from int64, again func(T) error) {
	bad := mendtest.Spoil(sound, from)
	mendtest.Value(tally, bad, again(bad), []any{20 * mm}, again)
}

// Whatever the package is asked that it refuses, what its violations say would do,
// does.
func TestWhatWouldDoDoes(t *testing.T) { whatWouldDoDoes(t, 1500) }

func whatWouldDoDoes(t *testing.T, cases int) *mendtest.Tally {
	t.Helper()
	var tally mendtest.Tally
	proptest.Run(t, cases, func(p *gopter.Properties) {
		p.Property("what is spoilt is asked for", prop.ForAll(func(which int, from int64) bool {
			spoiltAsk(&tally, which, from)
			return true
		}, gen.IntRange(0, 12), gen.Int64()))
	})
	tally.Check(t, 1, mendtest.AdviceOf(t, ".", "../units/check")...)
	return &tally
}
