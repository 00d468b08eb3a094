package folio_test

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/mendtest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// numbersIn calls visit with the path of every number and every name of a material in a
// value.
func numbersIn(v reflect.Value, path string, visit func(path string, v reflect.Value)) {
	switch v.Kind() {
	case reflect.Interface:
		if !v.IsNil() {
			numbersIn(v.Elem(), path, visit)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			f := v.Type().Field(i)
			switch {
			case !f.IsExported():
			case f.Anonymous:
				numbersIn(v.Field(i), path, visit)
			default:
				numbersIn(v.Field(i), strings.TrimPrefix(path+"."+strings.ToLower(f.Name), "."), visit)
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			numbersIn(v.Index(i), fmt.Sprintf("%s[%d]", path, i), visit)
		}
	case reflect.Bool, reflect.Func, reflect.Pointer:
	default:
		visit(path, v)
	}
}

// fullCase is a folio with every field of its fittings set; a block, a row of boards
// and magnets are in others.
func fullCase() folio.Spec {
	s := plainCase()
	s.Stocks = []stock.Stock{
		{Name: "card", Caliper: mm / 4, Grammage: 200 * units.GramPerSquareMetre, Sheets: []stock.Sheet{{Size: units.Size{W: 700 * mm, H: 500 * mm}, Grain: stock.GrainAlongHeight}}},
		{Name: "felt", Caliper: 2 * mm}, {Name: "glass", Caliper: mm / 10}, {Name: "grey", Caliper: 3 * mm / 2},
	}
	s.Covering.Sheets = sheetOf(900*mm, 400*mm)
	s.Placing, s.Clearance = mm/5, mm
	at := func(x, y units.Length) place.Place {
		return place.Place{Across: place.Left, Along: place.Head, Offset: units.Point{X: x, Y: y}}
	}
	picture := func(w, h units.Length) pocket.Content {
		return pocket.Content{Name: "print", Size: units.Size{W: w, H: h}, Thickness: mm / 4}
	}
	s.Fittings = []folio.Fitting{
		{Name: "a", Panel: boards.LeftCover, Stock: "card", Place: at(0, 0), Kind: folio.Mat{Picture: picture(20*mm, 30*mm), Reveal: 3 * mm}},
		{Name: "b", Panel: boards.LeftCover, Stock: "card", Place: at(0, 80*mm), Kind: folio.Mat{Size: units.Size{H: 20 * mm}},
			Size: place.Sizing{W: place.Relation{Of: place.OfPanel, Margin: 5 * mm, Less: 20 * mm, Shares: 3, Gap: 4 * mm}}},
		{Name: "c", Panel: boards.LeftCover, Stock: "card", Place: at(40*mm, 0), Kind: folio.Frame{Picture: picture(30*mm, 40*mm), Lap: 3 * mm, Rail: 12 * mm,
			Foam: 2 * mm, FoamWidth: 6 * mm, Ease: 2 * mm, Film: "glass", FoamStock: "felt"}},
		{Name: "d", Panel: boards.LeftCover, Stock: "card", Place: at(0, 50*mm), Kind: folio.Ornament{Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: mm, Mass: 5 * units.Gram}},
		{Name: "e", Panel: boards.RightCover, Stock: "card", Place: at(0, 10*mm), Kind: folio.Folded{Kind: pocket.Slip{Content: picture(40*mm, 50*mm)}}},
		{Name: "f", Panel: boards.RightCover, Stock: "card", Place: at(0, 90*mm), Kind: folio.Folded{MatStock: "grey",
			Kind: pocket.FoldedStrip{Content: picture(40*mm, 50*mm), Mat: pocket.Mat{Size: units.Size{W: 20 * mm, H: 30 * mm}}}}},
		{Name: "h", Panel: boards.RightCover, Stock: "card", Place: at(60*mm, 0), Kind: folio.Frame{Rail: 9 * mm, Lap: 3 * mm, FoamWidth: 4 * mm, Picture: pocket.Content{Name: "crew"}},
			Size: place.Sizing{W: place.Relation{Of: place.OfPanel, Less: 70 * mm}, H: place.Relation{Of: place.OfPanel, Less: 100 * mm}}},
		{Name: "g", StandsOn: "a", Stock: "card", Place: place.Place{Along: place.Tail}, Kind: folio.Ornament{Size: units.Size{W: mm, H: mm}}},
	}
	return s
}

// Every number of a Spec that cannot be, and every name of a material that is not
// there, is refused where it is given, once, and nothing else is: what follows from
// it is not told as well.
func TestEveryFieldIsCheckedByItself(t *testing.T) {
	specs := map[string]func() folio.Spec{
		"full": fullCase,
		"block": func() folio.Spec {
			s := plainCase()
			s.Cover, s.Spine = units.Size{}, rule.Spine{}
			s.Block = boards.Block{Page: units.Size{W: 120 * mm, H: 170 * mm}, Thickness: 15 * mm, Setback: 2 * mm, Square: 3 * mm}
			return s
		},
		"flap": func() folio.Spec {
			s := plainCase()
			flapped(&s)
			s.FlapWidth = 40 * mm
			return s
		},
		"gate": func() folio.Spec {
			s := plainCase()
			s.Form, s.DoorGap = boards.DoubleSpineGate, mm
			s.Closing = closing.Allowance{Ease: mm, Adhesive: closing.AdhesiveFilm{Caliper: mm / 10, TapeWidth: 6 * mm}}
			return s
		},
		"soft": func() folio.Spec {
			s := plainCase()
			s.Form, s.Spine, s.Hinge = boards.SoftSpine, rule.Spine{Contents: 20 * mm, Stiffener: "card"}, rule.Hinge{}
			return s
		},
	}
	for name, of := range specs {
		if err := builds(of()); err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		s := of()
		numbersIn(reflect.ValueOf(s), "", func(path string, v reflect.Value) {
			var absurd []any
			switch v.Kind() {
			case reflect.Int64, reflect.Int:
				if strings.Contains(path, ".offset.") {
					absurd = []any{int64(math.MinInt64), int64(math.MaxInt64)} // it may be less than nothing
					break
				}
				absurd = []any{int64(-1), int64(math.MinInt64 + 1), int64(math.MaxInt64)}
			case reflect.Uint8, reflect.Uint16:
				absurd = []any{uint64(255)}
			case reflect.String:
				if v.String() != "" && !strings.HasSuffix(path, "name") {
					absurd = []any{"nowhere"}
				}
			default:
				t.Fatalf("%s: %v is no number", path, v.Type())
			}
			if v.IsZero() {
				absurd = absurd[:min(len(absurd), 1)]
			}
			for _, to := range absurd {
				s := of()
				if err := mendtest.At(reflect.ValueOf(&s).Elem(), path, func(v reflect.Value) { v.Set(reflect.ValueOf(to).Convert(v.Type())) }); err != nil {
					t.Fatal(err)
				}
				var bad *check.Error
				if errors.As(builds(s), &bad); bad == nil {
					t.Errorf("%s, %s: %v is taken", name, path, to)
					continue
				}
				if v.IsZero() {
					continue // where nothing is given something may be wrong with there being any
				}
				if bad.Len() != 1 || only(bad).Path != path {
					t.Errorf("%s, %s: %v: %v", name, path, to, bad)
				}
			}
		})
	}
}
