package folio_test

import (
	"errors"
	"math/rand"
	"reflect"
	"strings"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/mendtest"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

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
		s.SpineCovering = stock.Stock{} // else it is one of its own from now on
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
		s.Hinge = rule.Hinge{Width: l / 8, Crease: rule.CreaseAtOffset, Offset: l / 20, Angle: 20 + t.By%160}
	case 1:
		s.Hinge = rule.Hinge{Width: l / 8, Crease: rule.CreasePlace(t.By % 5), Angle: 20 + t.By%160}
	case 2:
		s.Quarter = rule.Quarter{Rule: rule.QuarterAlways, Reach: 2 * l, Lap: s.Quarter.Lap}
	case 3:
		s.Mitre = rule.Mitre{Distance: l / 3}
	case 4:
		s.Form, s.FlapWidth, s.DoorGap = boards.DoubleSpineGate, 0, 2*l
	case 5:
		s.Block = boards.Block{Page: s.Cover, Setback: 3 * l, Thickness: l / 10}
		s.Cover, s.Spine = units.Size{}, rule.Spine{Rule: rule.SpineBlockAndBoardsLess}
	case 6:
		s.Form, s.DoorGap, s.Spine = boards.ForeEdgeFlap, 0, rule.Spine{Width: 30 * mm}
		s.Fittings = []folio.Fitting{{Panel: boards.LeftCover, Outside: true, Kind: folio.Ornament{Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: l / 10}, Place: place.Place{Across: place.Left}}}
	case 7:
		s.Form, s.Spine, s.Hinge = boards.SoftSpine, rule.Spine{Contents: l / 10}, rule.Hinge{}
		if t.How%2 == 0 {
			s.Hinge = rule.Hinge{Width: l / 5}
		}
		s.Fittings = []folio.Fitting{{Kind: folio.Ornament{Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: 9 * mm}}}
	case 8:
		s.Placing, s.Lining.Inset = l/40, l/5
	}
	return s
}

// Every violation names a field by the path that leads to it in the Spec, and
// what it says would do does: that violation is gone, in one go, whether its text
// is read or its limit is taken.
func TestWhatWouldDoDoes(t *testing.T) {
	var tally mendtest.Tally
	bounds := map[string]int{}
	proptest.Run(t, 1000, func(props *gopter.Properties) {
		props.Property("something is asked for", prop.ForAll(func(s folio.Spec, list []twist) bool {
			if s = twisted(s, list); len(list) > 0 && list[0].By%2 == 0 {
				s = pointed(s, list[0])
			}
			err := tried(&tally, s)
			var bad *check.Error
			if errors.As(err, &bad) {
				for v := range bad.All() {
					if v.Bound != check.NoBound {
						bounds[v.Path+" "+string(v.Code)]++
					}
				}
			}
			return true
		}, folios(), twists()))
		props.Property("a fitting is asked for", prop.ForAll(func(v []any) bool {
			s := good()
			s.Rulers.Fitting = trialRulers()[v[11].(int)]
			s.Spine.Width = 60 * mm
			s.Stocks = []stock.Stock{{Name: "foam", Caliper: 2 * mm}, {Name: "film", Caliper: mm / 10}}
			s.Fittings = []folio.Fitting{trial(v)}
			_ = tried(&tally, s)
			return true
		}, trials()))
		props.Property("something folded is asked for", prop.ForAll(func(v []any) bool {
			_ = tried(&tally, foldedTrial(v))
			return true
		}, pocketTrials()))
	})
	if tally.Refused() < proptest.Cases(1500) || len(bounds) < 20 {
		t.Errorf("only %d refused, limits of %v", tally.Refused(), bounds)
	}
	tally.Check(t, 1, mendtest.AdviceOf(t, ".", "../pocket", "../units/check")...)
}

// tried builds a folio and does all that its violations say would do.
func tried(tally *mendtest.Tally, s folio.Spec) error {
	err := builds(s)
	mendtest.Value(tally, s, err, offersOf(s), builds)
	return err
}

// offersOf are the names and kinds that a text may ask for.
func offersOf(s folio.Spec) []any {
	offers := []any{folio.Mat{Size: units.Size{W: 20 * mm, H: 20 * mm}}}
	for _, k := range s.Stocks {
		if k.Caliper > 0 {
			offers = append(offers, k.Name)
		}
	}
	offers = append(offers, s.WithDefaults().Liner.Name)
	var names mendtest.Names
	for _, f := range s.Fittings {
		if names = append(names, f.Name); f.Name != "" {
			offers = append(offers, f.Name)
		}
	}
	return append(offers, names)
}

// Garbage too is answered with paths that lead to fields of what was given, a
// measure among it, and with what would do.
func TestPathsOfGarbage(t *testing.T) {
	type given struct {
		Spec     folio.Spec
		Measured refit.Measured
	}
	var tally mendtest.Tally
	named, seen := 0, 0
	proptest.Run(t, 1000, func(props *gopter.Properties) {
		props.Property("paths lead to fields", prop.ForAll(func(from int64) string {
			data := make([]byte, 4000)
			rand.New(rand.NewSource(from)).Read(data)
			f := &feeder{data}
			var g given
			f.fill(reflect.ValueOf(&g.Spec).Elem(), 0)
			f.fill(reflect.ValueOf(&g.Measured).Elem(), 0)
			p, err := folio.Build(g.Spec)
			if err == nil {
				_, err = p.Refit(g.Measured)
			} else if seen++; proptest.Long || seen%25 == 0 { // it takes long
				_ = tried(&tally, g.Spec)
			}
			var bad *check.Error
			if !errors.As(err, &bad) {
				return ""
			}
			for v := range bad.All() {
				named++
				if mendtest.At(reflect.ValueOf(&g.Spec).Elem(), v.Path, func(reflect.Value) {}) != nil && mendtest.At(reflect.ValueOf(&g).Elem(), v.Path, func(reflect.Value) {}) != nil {
					return "no field has the path of: " + v.Error()
				}
			}
			return ""
		}, gen.Int64()))
	})
	if named < proptest.Cases(3000) {
		t.Errorf("only %d violations", named)
	}
	tally.Check(t, 1, mendtest.AdviceOf(t, ".", "../pocket", "../units/check")...)
}

// A plan in inches says what is wrong in inches.
func TestNotationOfMessages(t *testing.T) {
	in := units.Inch
	for name, change := range map[string]func(*folio.Spec){
		"hinge":     func(s *folio.Spec) { s.Hinge = rule.Hinge{Rule: rule.HingeOneCaliper, Width: in / 4} },
		"offset":    func(s *folio.Spec) { s.Hinge.Offset = in / 4 },
		"margin":    func(s *folio.Spec) { s.Margin = rule.Margin{Ideal: in / 4, Least: in / 2} },
		"tolerated": func(s *folio.Spec) { s.Margin = rule.Margin{Least: in / 4, Tolerated: in / 2} },
		"mitre":     func(s *folio.Spec) { s.Mitre = rule.Mitre{Rule: rule.MitreEighth, Distance: in / 4} },
		"flap":      func(s *folio.Spec) { s.FlapWidth = in },
		"door":      func(s *folio.Spec) { s.DoorGap = in },
		"spine":     func(s *folio.Spec) { s.Spine.Rule = rule.SpineBlock },
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
