package score_test

import (
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
	return proptest.Map(gen.SliceOfN(40, length), func(ns []int64) score.Drawing {
		next := func() units.Length {
			n := ns[0]
			ns = append(ns[1:], n)
			return units.Length(n) * mm
		}
		edge := func() score.Edge { return score.Edge(next() / mm & 3) }
		d := score.Drawing{Size: units.Size{W: 100 * mm, H: 60 * mm}}
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
		p.Property("what would do does", prop.ForAll(func(d score.Drawing) string {
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

// A sound drawing is spoilt, and what its violations say would do is done.
func TestWhatWouldDoDoes(t *testing.T) {
	var tally mendtest.Tally
	again := func(d score.Drawing) error {
		_, err := score.NewBlank(d)
		return err
	}
	proptest.Run(t, 1000, func(p *gopter.Properties) {
		p.Property("a spoilt drawing is asked for", prop.ForAll(func(from int64) bool {
			d := mendtest.Spoil(aPocket(), from)
			mendtest.Value(&tally, d, again(d), nil, again)
			return true
		}, gen.Int64()))
	})
	// Where else to put what lies on another part is for the one who draws.
	tally.Check(t, 25, mendtest.AdviceOf(t, ".", "../units/check")...)
}
