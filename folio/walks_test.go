package folio_test

import (
	"bytes"
	"encoding"
	"flag"
	"fmt"
	"math/rand"
	"reflect"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/texttest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

var writeWalks = flag.Bool("writewalks", false, "write what TestWalksAreHeld compares with, to be read before it is kept")

// TestPlansAreHeld sets one field at a time. Here fields come together: folios of every
// form go from one to the next by a change of one field, by chance, of the Spec, of a
// fitting or of its kind, and by a fitting more or less; what cannot be made is held too,
// and the walk goes on from before it. What is kept is held as there, and is no more of a
// proof: each line says what changed, so that a result that changes can be judged by its
// neighbours.
func TestWalksAreHeld(t *testing.T) {
	var got bytes.Buffer
	r := rand.New(rand.NewSource(15))
	for form := boards.SpineBoard; form <= boards.OwnRow; form++ {
		for n := range 2 {
			s := walkFrom(r, form, n)
			fmt.Fprintf(&got, "%v, walk %d: ", form, n+1)
			holdPlan(&got, s, "as it begins")
			for step := range 24 {
				next, what := stepped(r, s)
				fmt.Fprintf(&got, "%d. ", step+1)
				holdPlan(&got, next, what)
				if _, err := folio.Build(next); err == nil {
					s = next
				}
			}
		}
	}
	texttest.Kept(t, "testdata/walks.txt", got.String(), *writeWalks)
}

// walkFrom returns where a walk begins: a folio with lengths off the rulers, every second
// one with sheets that rule, and stocks for fittings.
func walkFrom(r *rand.Rand, form boards.Form, n int) folio.Spec {
	length := func(low, high units.Length) units.Length { return low + units.Length(r.Int63n(int64(high-low))) }
	for {
		s := anyRow(r)
		if form != boards.OwnRow {
			s = folio.Spec{
				Form: form, Cover: units.Size{W: length(110*mm, 190*mm), H: length(120*mm, 240*mm)}, Spine: rule.Spine{Width: length(14*mm, 40*mm)},
				Board:    stock.Stock{Caliper: length(mm, 3*mm)},
				Covering: stock.Stock{Caliper: length(mm/20, mm/2)}, Liner: stock.Stock{Caliper: length(mm/20, mm/3)},
				Closing: closing.Allowance{Ease: [...]units.Length{0, units.None, mm}[n]},
			}
			row := form.Row()
			if !slices.ContainsFunc(row.Boards, func(b boards.Board) bool { return b.Role.Spine() }) {
				s.Spine = rule.Spine{Contents: length(2*mm, 7*mm)}
			} else if len(row.Boards) > 3 && r.Intn(2) == 0 {
				s.Closing.UnderFlap = length(mm, 4*mm)
			}
		}
		s.Rulers = rule.Rulers{Main: [...]units.Ruler{units.WholeMillimetres, units.ThirtySeconds, everyNanometre}[n], Fitting: units.HalfMillimetres}
		s.Stocks = []stock.Stock{
			{Name: "thin", Caliper: mm / 8, TwoSided: true}, {Name: "thick", Caliper: mm / 3}, {Name: "foam", Caliper: 2 * mm}, {Name: "film", Caliper: mm / 10},
			{Name: "sheets", Caliper: mm / 5, TwoSided: true, Sheets: []stock.Sheet{{Size: units.MustParseSize("210 x 297 mm"), Grain: stock.GrainAlongHeight}, {Size: units.MustParseSize("700 x 500 mm")}}},
		}
		if n == 1 {
			s.Covering.Sheets = []stock.Sheet{{Size: units.MustParseSize("500 x 700 mm"), Grain: stock.GrainAlongHeight}, {Size: units.MustParseSize("620 x 300 mm")}}
		}
		if _, err := folio.Build(s); err == nil {
			return s
		}
	}
}

// stepped returns a folio that differs from another one by a field or a fitting.
func stepped(r *rand.Rand, s folio.Spec) (next folio.Spec, what string) {
	s.Fittings, s.Stocks = slices.Clone(s.Fittings), slices.Clone(s.Stocks)
	s.Row.Boards, s.Row.Joints = slices.Clone(s.Row.Boards), slices.Clone(s.Row.Joints)
	switch n := len(s.Fittings); {
	case n < 2, n < 6 && r.Intn(4) == 0:
		var v []any
		for _, most := range [...]int{12, 4, 3, 3, 50, 50, 16, 5, 12} {
			v = append(v, r.Intn(most))
		}
		f := oneFitting(1, v, s)
		if s.Row.Given() && r.Intn(9) > 0 {
			f.Panel = s.Row.Boards[r.Intn(len(s.Row.Boards))].Role
		}
		if f.Panel.Spine() && r.Intn(4) > 0 { // few things go there
			f.Panel = boards.MainPanel
		}
		for slices.ContainsFunc(s.Fittings, func(o folio.Fitting) bool { return o.Name == f.Name }) {
			f.Name += "'"
		}
		if f.StandsOn != "" {
			f.Panel, f.Outside = boards.MainPanel, false // it is where that one is
		}
		s.Fittings = append(s.Fittings, f)
		return s, fmt.Sprintf("with %v %s on the %v", f.Kind, f.Name, f.Panel)
	case n > 1 && r.Intn(9) == 0:
		i := r.Intn(n)
		what = "without " + s.Fittings[i].Name
		s.Fittings = slices.Delete(s.Fittings, i, i+1)
		return s, what
	}
	var fields []leaf
	if n := len(s.Fittings); n > 0 && r.Intn(3) > 0 {
		f := &s.Fittings[r.Intn(n)]
		kind := reflect.New(reflect.TypeOf(f.Kind)).Elem()
		kind.Set(reflect.ValueOf(f.Kind))
		of := f.Name + "."
		if fields = leaves(kind, of+"Kind.", nil); r.Intn(2) == 0 {
			fields = leaves(reflect.ValueOf(f).Elem(), of, nil)
		}
		defer func() { f.Kind = kind.Interface().(folio.Kind) }()
	} else {
		fields = leaves(reflect.ValueOf(&s).Elem(), "", nil)
	}
	l := fields[r.Intn(len(fields))]
	l.set(r, s)
	return s, fmt.Sprintf("%s %v", l.path, l.Interface())
}

// A leaf is a field that holds no others.
type leaf struct {
	path string
	reflect.Value
}

// leaves gathers the fields of a struct, and of structs and lists in it.
func leaves(v reflect.Value, path string, all []leaf) []leaf {
	for i := range v.NumField() {
		f, at := v.Field(i), path+v.Type().Field(i).Name
		switch {
		case f.Kind() == reflect.Struct && f.Type() != reflect.TypeFor[pocket.Content]() && f.Type() != reflect.TypeFor[place.Relation]():
			all = leaves(f, at+".", all)
		case f.Kind() == reflect.Slice && f.Type().Elem().Kind() == reflect.Struct && f.Type().Elem().PkgPath() == reflect.TypeFor[boards.Row]().PkgPath():
			for k := range f.Len() {
				all = leaves(f.Index(k), fmt.Sprintf("%s[%d].", at, k), all)
			}
		case f.Kind() != reflect.Interface && (f.Kind() != reflect.Slice || f.Type() == reflect.TypeFor[[]stock.Sheet]()):
			all = append(all, leaf{at, f})
		}
	}
	return all
}

// set gives a field another value: a length that is near or far, one that there is of a
// choice, the name of a fitting or a stock.
func (l leaf) set(r *rand.Rand, s folio.Spec) {
	mostly := func(v any) { l.Set(reflect.ValueOf(v).Convert(l.Type())) }
	switch was := l.Interface().(type) {
	case units.Length:
		by := units.Length(r.Int63n(int64([...]units.Length{3, mm, 9 * mm, 60 * mm}[r.Intn(4)])))
		mostly([...]units.Length{by, was + by, max(was-by, 0), units.None}[r.Intn(19)*3/18])
	case units.Mass:
		mostly(r.Intn(40) * int(units.Gram))
	case pocket.Content:
		size := units.Size{W: 20*mm + units.Length(r.Int63n(int64(80*mm))), H: 20*mm + units.Length(r.Int63n(int64(110*mm)))}
		mostly(pocket.Content{Name: "print", Size: size, Thickness: units.Length(r.Int63n(int64(2 * mm)))})
	case place.Relation:
		of := place.Relation{Of: place.OfPanel, Less: units.Length(r.Int63n(int64(20 * mm))), Shares: r.Intn(3)}
		switch r.Intn(4) {
		case 0:
			of.Of, of.Margin = place.OfGround, 3*mm
		case 1:
			of.Of, of.Fitting, of.Turned, of.Less, of.More = place.OfFitting, s.Fittings[r.Intn(len(s.Fittings))].Name, r.Intn(2) == 0, 0, of.Less
		case 2:
			of.Gap = of.Less
		}
		mostly(of)
	case string:
		names := []string{"", "thin", "foam", "film", "sheets", "thick"}
		if strings.HasSuffix(l.path, "Of") || strings.HasSuffix(l.path, "StandsOn") {
			for names = names[:1]; len(names) <= len(s.Fittings); {
				names = append(names, s.Fittings[len(names)-1].Name)
			}
		}
		mostly(names[r.Intn(len(names))])
	case bool:
		mostly(!was)
	case int:
		mostly([...]int{0, 1, 2, 3, 4, 120, 180}[r.Intn(7)])
	case []stock.Sheet:
		mostly([]stock.Sheet{{Size: units.Size{W: 100*mm + units.Length(r.Int63n(int64(300*mm))), H: 200*mm + units.Length(r.Int63n(int64(300*mm)))}}})
	case units.Ruler:
		mostly([...]units.Ruler{units.WholeMillimetres, units.Sixteenths, units.TenthMillimetres, units.SixtyFourths, everyNanometre}[r.Intn(5)])
	default:
		if l.Kind() != reflect.Uint8 {
			return
		}
		n := 0 // as many as there are
		for ; n < 16; n++ {
			if _, err := reflect.ValueOf(n).Convert(l.Type()).Interface().(encoding.TextMarshaler).MarshalText(); err != nil {
				break
			}
		}
		mostly(r.Intn(n + r.Intn(2)))
	}
}
