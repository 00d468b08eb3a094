package folio_test

import (
	"errors"
	"reflect"
	"strings"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/mendtest"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// relations generates relations that often leave nothing, or too much.
func relations() gopter.Gen {
	length := gen.Weighted([]gen.WeightedGen{
		{Weight: 6, Gen: gen.Const(int64(0))}, {Weight: 4, Gen: gen.Int64Range(0, 20_000_000)}, {Weight: 2, Gen: gen.Int64Range(0, 120_000_000)},
		{Weight: 1, Gen: gen.Int64Range(-2, 2)},
	})
	return proptest.Map(gopter.CombineGens(gen.IntRange(0, 7), length, length, length, length, gen.IntRange(0, 9), gen.Bool()), func(v []any) place.Relation {
		l := func(i int) units.Length { return units.Length(v[i].(int64)) }
		r := place.Relation{
			Of:     [...]place.Yardstick{place.OfPanel, place.OfPanel, place.OfPanel, place.OfGround, place.OfGround, place.OfFitting, place.OfNothing, place.OfPanel}[v[0].(int)],
			Margin: l(1), Less: l(2), Turned: v[6].(bool),
		}
		if r.Of == place.OfFitting {
			r.Fitting = "tag"
		}
		if r.Less == 0 {
			r.More = l(3)
		}
		if n := v[5].(int); n < 5 {
			r.Shares, r.Gap = n, l(4)
		}
		return r
	})
}

// ownSizes takes the sizes out of a kind that a relation gives, and returns the
// paths of the fields.
func ownSizes(k folio.Kind, size place.Sizing) (folio.Kind, []string) {
	var paths []string
	out := func(path string, s *units.Size) {
		print := size.Picture != place.PictureAny && strings.HasSuffix(path, "picture.size") || size.Proportions != (place.Proportions{})
		if size.W != (place.Relation{}) || print {
			s.W = 0
			paths = append(paths, path+".w")
		}
		if size.H != (place.Relation{}) || print {
			s.H = 0
			paths = append(paths, path+".h")
		}
	}
	switch f := k.(type) {
	case folio.Mat:
		if f.Picture == (pocket.Content{}) {
			out(".kind.size", &f.Size)
		} else {
			out(".kind.picture.size", &f.Picture.Size)
			f.Picture.Name = "print"
		}
		return f, paths
	case folio.Frame:
		out(".kind.picture.size", &f.Picture.Size)
		return f, paths
	case folio.Ornament:
		out(".kind.size", &f.Size)
		return f, paths
	case folio.Folded:
		in := reflect.New(reflect.TypeOf(f.Kind)).Elem()
		in.Set(reflect.ValueOf(f.Kind))
		for _, name := range []string{"Place", "Leaf", "Panel"} {
			if field := in.FieldByName(name); field.IsValid() {
				s := field.Interface().(units.Size)
				out(".kind.kind."+strings.ToLower(name), &s)
				field.Set(reflect.ValueOf(s))
			}
		}
		if strip, ok := in.Interface().(pocket.FoldedStrip); ok {
			own := units.Size{W: strip.Base, H: strip.Strip.H}
			out("", &own)
			strip.Base, strip.Strip.H = own.W, own.H
			paths = nil
			if size.W != (place.Relation{}) {
				paths = append(paths, ".kind.kind.base")
			}
			if size.H != (place.Relation{}) {
				paths = append(paths, ".kind.kind.strip.h")
			}
			in.Set(reflect.ValueOf(strip))
		}
		f.Kind = in.Interface().(pocket.Kind)
		return f, paths
	}
	return k, nil
}

// What is wrong with a size by relation, or with what follows from it, names a
// field of the Spec, never one that is left to the relation, and the length that
// would do mends it.
func TestViolationsOfRelationsCanBeMended(t *testing.T) {
	var tally mendtest.Tally
	seen, rulers := map[string]int{}, trialRulers()
	proptest.Run(t, 4000, func(p *gopter.Properties) {
		p.Property("paths lead to fields, and what would do does", prop.ForAll(func(v, in []any, w, h place.Relation, which int) string {
			s := good()
			s.Rulers.Fitting = rulers[v[11].(int)]
			s.Spine.Width = 60 * mm
			s.Stocks = []stock.Stock{{Name: "foam", Caliper: 2 * mm}, {Name: "film", Caliper: mm / 10}, {Name: "card stock", Caliper: mm / 4, Sheets: []stock.Sheet{{Size: units.Size{W: 300 * mm, H: 210 * mm}}}}}
			f := trial(v)
			if which%3 == 0 {
				f.Kind, f.Stock = folio.Folded{Kind: pocketTrial(in)}, "card stock"
			}
			f.Size = place.Sizing{W: w, H: h}
			if which == 4 || which == 7 {
				f.Size.Picture = place.PictureRule(which / 3)
			}
			if which == 5 {
				f.Size.Proportions = place.Proportions{W: 1 + v[10].(int), H: v[9].(int)}
			}
			var left []string
			f.Kind, left = ownSizes(f.Kind, f.Size)
			s.Fittings = []folio.Fitting{f, {Name: "tag", Panel: boards.LeftCover, Kind: folio.Mat{Size: units.Size{W: 30 * mm, H: 45 * mm}}}}
			err := tried(&tally, s)
			var bad *check.Error
			if !errors.As(err, &bad) {
				seen["sound"]++
				if p, err := folio.Build(s); err != nil || len(sizesOf(p)) != 2 {
					return "a plan that leaves fittings out"
				}
				return ""
			}
			for x := range bad.All() {
				seen[x.Path+" "+string(x.Code)]++
				for _, path := range left {
					if x.Path == "fittings[0]"+path && x.Code != check.Missing {
						return "a field that is left to the relation: " + x.Error()
					}
				}
			}
			return ""
		}, trials(), pocketTrials(), relations(), relations(), gen.IntRange(0, 8)))
	})
	if len(seen) < 30 || seen["sound"] < proptest.Cases(4000)/40 {
		t.Errorf("lopsided: %v", seen)
	}
	tally.Check(t, 10, mendtest.AdviceOf(t, ".", "../pocket", "../units/check")...)
}
