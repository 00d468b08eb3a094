package folio_test

import (
	"errors"
	"fmt"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

var pathPart = regexp.MustCompile(`^([a-z0-9]+)((?:\[\d+\])*)$`)

// errPath says where a path leaves a value.
type errPath struct{ path, at string }

func (e errPath) Error() string { return e.path + " leaves the Spec at " + e.at }

// field follows a path from a value, every part the name of an exported field in
// lower case, and calls do with what is there. Where the way leads through an
// interface, its value is copied, changed and put back.
func field(v reflect.Value, path string, do func(reflect.Value)) error {
	whole := path
	var follow func(v reflect.Value, rest string) error
	follow = func(v reflect.Value, rest string) error {
		if v.Kind() == reflect.Interface {
			if v.IsNil() {
				return errPath{whole, rest}
			}
			own := reflect.New(v.Elem().Type()).Elem()
			own.Set(v.Elem())
			err := follow(own, rest)
			v.Set(own)
			return err
		}
		if rest == "" {
			do(v)
			return nil
		}
		part, after, _ := strings.Cut(rest, ".")
		m := pathPart.FindStringSubmatch(part)
		if m == nil || v.Kind() != reflect.Struct {
			return errPath{whole, part}
		}
		var found reflect.Value
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() && strings.ToLower(f.Name) == m[1] {
				found = v.Field(i)
			}
		}
		if !found.IsValid() {
			return errPath{whole, part}
		}
		for _, n := range strings.Split(strings.Trim(m[2], "[]"), "][") {
			if n == "" {
				continue
			}
			i, err := strconv.Atoi(n)
			if err != nil || found.Kind() != reflect.Slice || i >= found.Len() {
				return errPath{whole, part}
			}
			found = found.Index(i)
		}
		return follow(found, after)
	}
	return follow(v, path)
}

// trials are kinds with sizes that often cannot be made, on a cover of 114 x 159
// mm or so.
func trials() gopter.Gen {
	length := func() gopter.Gen {
		return gen.OneGenOf(gen.OneConstOf(int64(0), int64(0), int64(3*mm), int64(25*mm)), gen.Int64Range(0, 40_000_000), gen.Int64Range(0, 40_000_000), gen.Int64Range(0, 40_000_000),
			gen.OneGenOf(gen.Int64Range(-2, 2), gen.Int64Range(0, 4_000_000_000)))
	}
	size := func() gopter.Gen {
		return gen.OneGenOf(gen.Int64Range(5_000_000, 150_000_000), gen.Int64Range(5_000_000, 150_000_000), gen.Int64Range(5_000_000, 150_000_000), length())
	}
	return gopter.CombineGens(gen.IntRange(0, 5), size(), size(), length(), length(), length(), length(), length(),
		gen.IntRange(0, 4), gen.IntRange(0, 4), gen.IntRange(0, 3), gen.IntRange(0, 3))
}

// trial makes a fitting of what trials gave.
func trial(v []any) folio.Fitting {
	l := func(i int) units.Length { return units.Length(v[i].(int64)) }
	size := units.Size{W: l(1), H: l(2)}
	pic := pocket.Content{Size: size, Thickness: l(3) / 100}
	var k folio.Kind
	switch v[0].(int) {
	case 0:
		k = folio.Mat{Size: size}
	case 1:
		k = folio.Mat{Picture: pic, Reveal: l(4)}
	case 2:
		k = folio.Frame{Picture: pic, Lap: l(4) / 4, Rail: l(5) / 4, FoamWidth: l(6) / 4, Ease: l(7) / 4, Mouth: score.Edge(v[10].(int))}
	case 3:
		k = folio.Frame{Picture: pic, Mouth: score.Edge(v[10].(int))}
	case 4:
		k = folio.Ornament{Size: size, Thickness: l(3) / 10, Mass: units.Mass(l(7)) * 1000}
	default:
		k = folio.Frame{Picture: pic, Foam: l(6) / 10, FoamStock: "foam", Film: "film"}
	}
	return folio.Fitting{Name: "crew", Kind: k, Place: folio.Place{
		Across: folio.Align(v[8].(int) % 3), Along: []folio.Align{folio.AlignMiddle, folio.AlignHead, folio.AlignTail}[v[9].(int)%3],
		Offset: units.Point{X: l(6) / 8, Y: l(7) / 8},
	}}
}

// trialRulers are rulers coarse and fine.
func trialRulers() []units.Ruler {
	half, err := units.NewRuler(units.Inch/2, units.InchFraction)
	if err != nil {
		panic(err)
	}
	return []units.Ruler{units.Sixteenths, units.WholeMillimetres, units.Eighths, half}
}

// Every violation of a fitting names a field of the Spec as it is called, and
// the fitting as its user did; and the length that would do, put there, mends
// that violation.
func TestViolationsOfFittingsCanBeMended(t *testing.T) {
	seen, rulers := map[string]int{}, trialRulers()
	proptest.Run(t, 4000, func(p *gopter.Properties) {
		p.Property("paths lead to fields, and what would do does", prop.ForAll(func(v []any) string {
			s := good()
			s.Rulers.Fitting = rulers[v[11].(int)]
			s.Spine.Width = 60 * mm
			s.Stocks = []folio.Stock{{Name: "foam", Caliper: 2 * mm}, {Name: "film", Caliper: mm / 10}}
			s.Fittings = []folio.Fitting{trial(v)}
			_, err := folio.Build(s)
			var bad *check.Error
			if !errors.As(err, &bad) {
				seen["sound"]++
				return ""
			}
			for x := range bad.All() {
				kind := reflect.TypeOf(s.Fittings[0].Kind).Name()
				seen[kind+" "+x.Path+" "+string(x.Code)]++
				if err := field(reflect.ValueOf(&s).Elem(), x.Path, func(reflect.Value) {}); err != nil {
					return err.Error()
				}
				if strings.HasPrefix(x.Path, "fittings[0]") && x.Of != "crew" {
					return x.Error() + " does not name the fitting"
				}
				if x.Got == "" || x.Want == "" {
					return x.Error() + " says too little"
				}
				if x.Bound == check.NoBound {
					continue
				}
				mended := s
				mended.Fittings = append([]folio.Fitting(nil), s.Fittings...)
				if err := field(reflect.ValueOf(&mended).Elem(), x.Path, func(f reflect.Value) { f.SetInt(x.Limit.Nanometres()) }); err != nil {
					return err.Error()
				}
				_, err := folio.Build(mended)
				var still *check.Error
				if errors.As(err, &still) {
					for y := range still.All() {
						if y.Path == x.Path && y.Code == x.Code {
							return fmt.Sprintf("%v; with %v: %v", x, x.Limit, y)
						}
					}
				}
			}
			return ""
		}, trials()))
	})
	if len(seen) < 30 || seen["sound"] < 100 {
		t.Errorf("lopsided: %v", seen)
	}
	t.Log(seen)
}
