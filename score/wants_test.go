package score_test

import (
	"errors"
	"fmt"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/internal/proptest"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// field finds the field that a path names in a value, as Go calls it but for
// upper case.
func field(v reflect.Value, path string) (reflect.Value, error) {
	for _, part := range strings.Split(path, ".") {
		name, index, indexed := strings.Cut(strings.TrimSuffix(part, "]"), "[")
		v = v.FieldByNameFunc(func(s string) bool { return strings.ToLower(s) == name })
		if !v.IsValid() {
			return v, fmt.Errorf("%s: no field %s", path, name)
		}
		if indexed {
			i, err := strconv.Atoi(index)
			if err != nil || i >= v.Len() {
				return v, fmt.Errorf("%s: no element %s", path, index)
			}
			v = v.Index(i)
		}
	}
	return v, nil
}

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
			changed := reflect.New(reflect.TypeFor[score.Drawing]()).Elem()
			changed.Set(reflect.ValueOf(d))
			for v := range bad.All() {
				f, err := field(changed, v.Path)
				if err != nil {
					return err.Error()
				}
				if v.Bound != check.NoBound {
					l, is := f.Addr().Interface().(*units.Length)
					if !is || v.By <= 0 {
						return v.Path + " is no length"
					}
					*l = v.Limit
				}
			}
			_, err = score.NewBlank(changed.Interface().(score.Drawing))
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
