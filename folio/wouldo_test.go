package folio_test

import (
	"errors"
	"fmt"
	"math/rand"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// at finds the field of v that a path names, every name as the field is called in
// lower case, and calls f with it; what f sets inside an interface is set there.
// It reports whether there is such a field.
func at(v reflect.Value, path string, f func(reflect.Value)) bool {
	if v.Kind() == reflect.Interface {
		if v.IsNil() {
			return path == "" && visit(v, f)
		}
		if path == "" {
			return visit(v, f)
		}
		inner := reflect.New(v.Elem().Type()).Elem()
		inner.Set(v.Elem())
		ok := at(inner, path, f)
		v.Set(inner)
		return ok
	}
	if path == "" {
		return visit(v, f)
	}
	if path[0] == '[' {
		end := strings.IndexByte(path, ']')
		i, err := strconv.Atoi(path[1:max(end, 1)])
		if err != nil || v.Kind() != reflect.Slice && v.Kind() != reflect.Array || i < 0 || i >= v.Len() {
			return false
		}
		return at(v.Index(i), path[end+1:], f)
	}
	path = strings.TrimPrefix(path, ".")
	end := strings.IndexAny(path, ".[")
	if end < 0 {
		end = len(path)
	}
	if v.Kind() != reflect.Struct {
		return false
	}
	for i := range v.NumField() {
		if v.Type().Field(i).IsExported() && strings.ToLower(v.Type().Field(i).Name) == path[:end] {
			return at(v.Field(i), path[end:], f)
		}
	}
	return false
}

func visit(v reflect.Value, f func(reflect.Value)) bool {
	f(v)
	return true
}

// A twist is a change to one number of a Spec.
type twist struct{ Field, How, By int }

func twists() gopter.Gen {
	one := proptest.Map(gopter.CombineGens(gen.IntRange(0, 1_000_000), gen.IntRange(0, 7), gen.IntRange(1, 1000)), func(v []any) twist {
		return twist{v[0].(int), v[1].(int), v[2].(int)}
	})
	return gen.SliceOfN(3, one)
}

// numbers gathers the fields of a value that are numbers and can be set.
func numbers(v reflect.Value, out []reflect.Value) []reflect.Value {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				out = numbers(v.Field(i), out)
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			out = numbers(v.Index(i), out)
		}
	case reflect.Int, reflect.Int64, reflect.Uint8:
		out = append(out, v)
	}
	return out
}

// twisted makes a folio that can be made into one that most likely cannot: one
// to three of its numbers are made smaller, larger, or another choice.
func twisted(s folio.Spec, list []twist) folio.Spec {
	s = s.WithDefaults()
	if len(list) > 0 && list[0].Field%3 > 0 {
		s.SpineCovering = folio.Stock{} // else it is one of its own from now on
	}
	kinds := make([]reflect.Value, len(s.Fittings))
	var fields []reflect.Value
	for i := range s.Fittings {
		kinds[i] = reflect.New(reflect.TypeOf(s.Fittings[i].Kind)).Elem()
		kinds[i].Set(reflect.ValueOf(s.Fittings[i].Kind))
		fields = numbers(kinds[i], fields)
	}
	fields = numbers(reflect.ValueOf(&s).Elem(), fields)
	for _, t := range list {
		f := fields[t.Field%len(fields)]
		if f.Kind() == reflect.Uint8 {
			f.SetUint(uint64(t.By % 8))
			continue
		}
		was := f.Int()
		step := int64(t.By) * int64(units.Millimetre) / 50
		switch t.How {
		case 0:
			f.SetInt(was / int64(t.By%20+2))
		case 1:
			f.SetInt(was + was/1000*int64(t.By))
		case 2:
			f.SetInt(was * int64(t.By%8+2))
		case 3:
			f.SetInt(was + step)
		case 4:
			f.SetInt(was - step)
		case 5:
			f.SetInt(step)
		case 6:
			f.SetInt(-int64(t.By))
		case 7:
			f.SetInt(0)
		}
	}
	for i, k := range kinds {
		s.Fittings[i].Kind = k.Interface().(folio.Kind)
	}
	return s
}

// pointed asks for something that no folio of a size takes: it is tried beside
// chance, which seldom comes upon it.
func pointed(s folio.Spec, t twist) folio.Spec {
	l := units.Length(t.By) * units.Millimetre / 8
	switch t.Field % 9 {
	case 0:
		s.Hinge = folio.Hinge{Width: l / 8, Crease: folio.CreaseAtOffset, Offset: l / 20, Angle: 20 + t.By%160}
	case 1:
		s.Hinge = folio.Hinge{Width: l / 8, Crease: folio.Crease(t.By % 5), Angle: 20 + t.By%160}
	case 2:
		s.Quarter = folio.Quarter{Rule: folio.QuarterAlways, Reach: 2 * l, Lap: s.Quarter.Lap}
	case 3:
		s.Mitre = folio.Mitre{Distance: l / 3}
	case 4:
		s.Form, s.FlapWidth, s.DoorGap = folio.DoubleSpineGate, 0, 2*l
	case 5:
		s.Block = folio.Block{Page: s.Cover, Setback: 3 * l, Thickness: l / 10}
		s.Cover, s.Spine = units.Size{}, folio.Spine{Rule: folio.SpineBlockAndBoardsLess}
	case 6:
		s.Form, s.DoorGap, s.Spine = folio.ForeEdgeFlap, 0, folio.Spine{Width: 30 * mm}
		s.Fittings = []folio.Fitting{{Panel: folio.LeftCover, Outside: true, Kind: folio.Ornament{Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: l / 10}, Place: folio.Place{Across: folio.AlignLeft}}}
	case 7:
		s.Form, s.Spine, s.Hinge = folio.SoftSpine, folio.Spine{Contents: l / 10}, folio.Hinge{}
		if t.How%2 == 0 {
			s.Hinge = folio.Hinge{Width: l / 5}
		}
		s.Fittings = []folio.Fitting{{Kind: folio.Ornament{Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: 9 * mm}}}
	case 8:
		s.Placing, s.Lining.Inset = l/40, l/5
	}
	return s
}

// Every violation names a field by the path that leads to it in the Spec, and
// where it says that a length would do, setting that field to it does: the
// violation is gone, in one go.
func TestWhatWouldDoDoes(t *testing.T) {
	bounds, refused := map[string]int{}, 0
	proptest.Run(t, 1000, func(props *gopter.Properties) {
		props.Property("paths lead to fields, and what would do does", prop.ForAll(func(s folio.Spec, list []twist) string {
			if s = twisted(s, list); len(list) > 0 && list[0].By%2 == 0 {
				s = pointed(s, list[0])
			}
			_, err := folio.Build(s)
			var bad *check.Error
			if !errors.As(err, &bad) {
				return ""
			}
			refused++
			for v := range bad.All() {
				mended := s
				mended.Fittings = append([]folio.Fitting(nil), s.Fittings...)
				mended.Stocks = append([]folio.Stock(nil), s.Stocks...)
				length := false
				if !at(reflect.ValueOf(&mended).Elem(), v.Path, func(f reflect.Value) {
					if length = f.Type() == reflect.TypeFor[units.Length](); length && v.Bound != check.NoBound {
						f.SetInt(int64(v.Limit))
					}
				}) {
					return "no field has the path of: " + v.Error()
				}
				if v.Bound == check.NoBound {
					continue
				}
				if !length {
					return "a limit for what is no length: " + v.Error()
				}
				if v.By <= 0 {
					return fmt.Sprintf("it is off by %v: %v", v.By, v)
				}
				bounds[v.Path+" "+string(v.Code)]++
				_, err := folio.Build(mended)
				var still *check.Error
				if errors.As(err, &still) {
					if w, ok := still.Find(v.Path, v.Code); ok {
						return "doing what would do does not: " + v.Error() + "\n" + w.Error()
					}
				}
			}
			return ""
		}, folios(), twists()))
	})
	if refused < proptest.Cases(500) || len(bounds) < 20 {
		t.Errorf("only %d refused, limits of %v", refused, bounds)
	}
}

// Garbage too is answered with paths that lead to fields of what was given, a
// measure among it.
func TestPathsOfGarbage(t *testing.T) {
	named := 0
	proptest.Run(t, 1000, func(props *gopter.Properties) {
		props.Property("paths lead to fields", prop.ForAll(func(from int64) string {
			data := make([]byte, 4000)
			rand.New(rand.NewSource(from)).Read(data)
			f := &feeder{data}
			var given struct {
				Spec     folio.Spec
				Measured folio.Measured
			}
			f.fill(reflect.ValueOf(&given.Spec).Elem(), 0)
			f.fill(reflect.ValueOf(&given.Measured).Elem(), 0)
			p, err := folio.Build(given.Spec)
			if err == nil {
				_, err = p.Refit(given.Measured)
			}
			var bad *check.Error
			if !errors.As(err, &bad) {
				return ""
			}
			for v := range bad.All() {
				named++
				if !at(reflect.ValueOf(&given.Spec).Elem(), v.Path, func(reflect.Value) {}) && !at(reflect.ValueOf(&given).Elem(), v.Path, func(reflect.Value) {}) {
					return "no field has the path of: " + v.Error()
				}
			}
			return ""
		}, gen.Int64()))
	})
	if named < proptest.Cases(3000) {
		t.Errorf("only %d violations", named)
	}
}

// A plan in inches says what is wrong in inches.
func TestNotationOfMessages(t *testing.T) {
	in := units.Inch
	for name, change := range map[string]func(*folio.Spec){
		"hinge":     func(s *folio.Spec) { s.Hinge = folio.Hinge{Rule: folio.HingeOneCaliper, Width: in / 4} },
		"offset":    func(s *folio.Spec) { s.Hinge.Offset = in / 4 },
		"margin":    func(s *folio.Spec) { s.Margin = folio.Margin{Ideal: in / 4, Least: in / 2} },
		"tolerated": func(s *folio.Spec) { s.Margin = folio.Margin{Least: in / 4, Tolerated: in / 2} },
		"mitre":     func(s *folio.Spec) { s.Mitre = folio.Mitre{Rule: folio.MitreEighth, Distance: in / 4} },
		"flap":      func(s *folio.Spec) { s.FlapWidth = in },
		"door":      func(s *folio.Spec) { s.DoorGap = in },
		"spine":     func(s *folio.Spec) { s.Spine.Rule = folio.SpineBlock },
		"setback":   func(s *folio.Spec) { s.Block.Setback = in },
		"under":     func(s *folio.Spec) { s.Closing.UnderFlap = in },
		"length":    func(s *folio.Spec) { s.Cover.W = -in },
		"allowance": func(s *folio.Spec) { s.Placing = -in },
		"gap":       func(s *folio.Spec) { s.Hinge.Width = in / 32 },
		"inset":     func(s *folio.Spec) { s.Lining.Inset = 4 * in },
	} {
		s := good()
		change(&s)
		_, err := folio.Build(s)
		if err == nil {
			t.Errorf("%s: was taken", name)
		} else if text := err.Error(); strings.Contains(text, " mm") || !strings.Contains(text, " in") {
			t.Errorf("%s: %s", name, text)
		}
	}
}
