package wire_test

import (
	"encoding"
	"errors"
	"math/rand"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"boardwrap.example/folio"
	"boardwrap.example/folio/wire"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// fill sets every field of a value at random, to what a document can hold.
func fill(r *rand.Rand, v reflect.Value, depth int) {
	t := v.Type()
	if r.Intn(3) == 0 {
		return // left out
	}
	switch {
	case t == reflect.TypeFor[units.Length]():
		lengths := []units.Length{units.None, 1, 63500 * units.Length(r.Intn(4000)), units.Length(r.Int63n(int64(units.Longest))), -units.Length(r.Intn(1_000_000)), 17 * units.Inch / 64}
		v.Set(reflect.ValueOf(lengths[r.Intn(len(lengths))]))
	case t == reflect.TypeFor[units.Size]():
		v.Set(reflect.ValueOf(units.Size{W: units.Length(r.Int63n(int64(units.Longest))), H: 3 * units.Inch / 8 * units.Length(r.Intn(90)+1)}))
	case t == reflect.TypeFor[units.Ruler]():
		rulers := []units.Ruler{units.Sixteenths, units.ThirtySeconds, units.WholeMillimetres, units.TenthMillimetres, units.Thousandths}
		v.Set(reflect.ValueOf(rulers[r.Intn(len(rulers))]))
	case t == reflect.TypeFor[folio.Kind]():
		pick(r, v, slicesOf(folio.Kinds()), depth)
	case t == reflect.TypeFor[pocket.Kind]():
		pick(r, v, slicesOf(pocket.Kinds()), depth)
	case t.Kind() == reflect.String:
		names := []string{"crew", "blue card", `"quoted" <b>`, "ünïcode ½", "", "a\tb\n"}
		v.SetString(names[r.Intn(len(names))])
	case t.Kind() == reflect.Uint8:
		old := v.Uint()
		v.SetUint(uint64(r.Intn(16)))
		if m, ok := v.Interface().(encoding.TextMarshaler); ok {
			if _, err := m.MarshalText(); err != nil {
				v.SetUint(old)
			}
		}
	case t.Kind() == reflect.Int64:
		v.SetInt(r.Int63n(1_000_000_000))
	case t.Kind() == reflect.Int:
		v.SetInt(int64(r.Intn(2000) - 1000))
	case t.Kind() == reflect.Bool:
		v.SetBool(true)
	case t.Kind() == reflect.Struct:
		for i := range t.NumField() {
			fill(r, v.Field(i), depth)
		}
	case t.Kind() == reflect.Slice:
		n := r.Intn(4)
		if n == 0 {
			return
		}
		v.Set(reflect.MakeSlice(t, n, n))
		fallthrough
	case t.Kind() == reflect.Array:
		for i := range v.Len() {
			fill(r, v.Index(i), depth)
		}
	default:
		panic(t.String())
	}
	if t == reflect.TypeFor[folio.Fitting]() && v.FieldByName("Kind").IsNil() {
		v.FieldByName("Kind").Set(reflect.ValueOf(folio.Mat{}))
	}
	if t == reflect.TypeFor[folio.Folded]() && v.FieldByName("Kind").IsNil() {
		v.FieldByName("Kind").Set(reflect.ValueOf(pocket.Slip{}))
	}
}

func slicesOf[T any](seq func(func(T) bool)) []T {
	var all []T
	seq(func(v T) bool { all = append(all, v); return true })
	return all
}

func pick[T any](r *rand.Rand, v reflect.Value, kinds []T, depth int) {
	k := reflect.New(reflect.TypeOf(kinds[r.Intn(len(kinds))])).Elem()
	for i := range k.NumField() {
		fill(r, k.Field(i), depth+1)
	}
	if k.Type() == reflect.TypeFor[folio.Folded]() && k.FieldByName("Kind").IsNil() {
		k.FieldByName("Kind").Set(reflect.ValueOf(pocket.Slip{}))
	}
	v.Set(k)
}

// complete gives every fitting a kind, which a document cannot leave out.
func complete(s *folio.Spec) {
	for i := range s.Fittings {
		if s.Fittings[i].Kind == nil {
			s.Fittings[i].Kind = folio.Mat{}
		}
	}
}

// Whatever a Spec holds comes back, and is written as the same bytes again.
func TestRoundTrip(t *testing.T) {
	r := rand.New(rand.NewSource(proptest.Seed()))
	for range proptest.Cases(1000) {
		var s folio.Spec
		for i := range reflect.TypeOf(s).NumField() {
			fill(r, reflect.ValueOf(&s).Elem().Field(i), 0)
		}
		complete(&s)
		data, err := wire.AppendSpec(nil, s, wire.Options{Indent: r.Intn(3)})
		if err != nil {
			t.Fatalf("%+v: %v", s, err)
		}
		back, err := wire.ReadSpec(data)
		if err != nil {
			t.Fatalf("%s\n%v", data, err)
		}
		if d := cmp.Diff(s, back); d != "" {
			t.Fatalf("%s\n%s", data, d)
		}
		again, _ := wire.AppendSpec(nil, back, wire.Options{})
		once, _ := wire.AppendSpec(nil, s, wire.Options{})
		if string(again) != string(once) {
			t.Fatalf("%s\n%s", once, again)
		}
	}
}

// Everything that is wrong is said at once, and where.
func TestRefused(t *testing.T) {
	for _, c := range []struct {
		doc  string
		want []string // pointer code
	}{
		{`{"version":1,"spec":{"cover":6}}`, []string{"/spec/cover wrong-form"}},
		{`{"version":1,"spec":{"Cover":"6 x 8 in"}}`, []string{"/spec/Cover no-member"}},
		{`{"version":1,"spec":{"cover":"6 x 8 in","cover":"6 x 9 in"}}`, []string{"/spec/cover twice"}},
		{`{"version":2,"spec":{}}`, []string{"/version bad-version"}},
		{`{"spec":{}}`, []string{" bad-version"}},
		{`{"version":1}`, []string{" missing"}},
		{`{"version":1,"spec":{}} x`, []string{" not-json"}},
		{`{"version":1,"spec":{}}{}`, []string{" not-json"}},
		{`{"version":1,"spec":{"title":"` + "\xff" + `"}}`, []string{" not-json"}},
		{`{"version":1,"spec":{"cover":"6 x 8","spine":{"width":"wide"},"wings":1}}`, []string{"/spec/cover bad-text", "/spec/spine/width bad-text", "/spec/wings no-member"}},
		{`{"version":1,"spec":{"form":"round"}}`, []string{"/spec/form bad-text"}},
		{`{"version":1,"spec":{"fittings":[{"kind":{"type":"sail"}},{"kind":{"type":"mat","rig":1}},{"kind":{}},{"kind":null}]}}`,
			[]string{"/spec/fittings/0/kind/type unknown", "/spec/fittings/1/kind/rig no-member", "/spec/fittings/2/kind missing", "/spec/fittings/3/kind wrong-form"}},
		{`{"version":1,"spec":{"stocks":[{"grammage":120}]}}`, []string{"/spec/stocks/0/grammage wrong-form"}},
		{strings.Repeat("[", 100), []string{"/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0 too-many"}},
		{`{"version":1,"spec":` + strings.Repeat("[", 100), []string{"/spec/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0 too-many"}},
		{``, []string{" not-json"}},
		{`null`, []string{" wrong-form"}},
		{strings.Repeat(" ", wire.MostBytes+1), []string{" too-large"}},
		{`{"version":1,"spec":{"stocks":[` + strings.Repeat(`{},`, wire.MostMembers) + `{}]}}`, []string{"/spec/stocks/49996 too-many"}},
	} {
		_, err := wire.ReadSpec([]byte(c.doc))
		var bad *wire.Error
		if !errors.As(err, &bad) {
			t.Errorf("%.80s: %v", c.doc, err)
			continue
		}
		var got []string
		for f := range bad.All() {
			got = append(got, f.Pointer+" "+string(f.Code))
		}
		if d := cmp.Diff(c.want, got); d != "" {
			t.Errorf("%.80s: %s\n%v", c.doc, d, err)
		}
	}
}

// A bare number where a text with a unit or a word is meant is told what such a text
// is, and so is one in quotation marks: whatever follows as an example is taken.
func TestBareNumbers(t *testing.T) {
	read := func(doc string) error {
		_, err := wire.ReadBatch([]byte(`{"version":1,"batch":` + doc + `}`))
		return err
	}
	for _, c := range []struct{ doc, bare string }{
		{`{"folios":[{"spec":{"spine":{"width":%}}}]}`, "4.5"},
		{`{"folios":[{"spec":{"cover":%}}]}`, "6"},
		{`{"folios":[{"spec":{"board":{"grammage":%}}}]}`, "120"},
		{`{"folios":[{"spec":{"rulers":{"main":%}}}]}`, "16"},
		{`{"folios":[{"spec":{"fittings":[{"kind":{"type":"ornament","mass":%}}]}}]}`, "40"},
		{`{"costs":{"rate":%}}`, "18"},
		{`{"folios":[{"spec":{"form":%}}]}`, "2"},
		{`{"folios":[{"spec":{"hinge":{"rule":%}}}]}`, "2"},
		{`{"folios":[{"spec":{"grain":%}}]}`, "2"},
		{`{"folios":[{"spec":{"fittings":[{"panel":%,"kind":{"type":"mat"}}]}}]}`, "2"},
	} {
		for i, code := range []check.Code{wire.WrongForm, wire.BadText} {
			value := [...]string{c.bare, `"` + c.bare + `"`}[i]
			var bad *wire.Error
			if err := read(strings.Replace(c.doc, "%", value, 1)); !errors.As(err, &bad) || bad.Len() != 1 {
				t.Errorf("%s as %s: %v", c.doc, value, err)
				continue
			}
			for f := range bad.All() {
				want, _, _ := strings.Cut(f.Want, " (at byte ")
				var would []string
				for i, part := range strings.Split(want, `"`) {
					if i%2 == 1 {
						would = append(would, part)
					}
				}
				if would == nil {
					would = strings.Split(strings.ReplaceAll(want, " or ", ", "), ", ")
				}
				if f.Code != code || !strings.Contains(f.Got, c.bare) {
					t.Errorf("%s: %v", c.doc, f)
				}
				for _, w := range would {
					if err := read(strings.Replace(c.doc, "%", `"`+w+`"`, 1)); err != nil {
						t.Errorf("%s, of which %v, as %q: %v", c.doc, f, w, err)
					}
				}
			}
		}
	}
}

// Line and column are those of the value, and the path is that of the Spec.
func TestWhere(t *testing.T) {
	_, err := wire.ReadSpec([]byte("{\"version\": 1,\n \"spec\": {\n  \"fittings\": [{\"kind\": {\"type\": \"mat\",\n    \"picture\": {\"size\": 7}}}]}}"))
	var bad *wire.Error
	if !errors.As(err, &bad) || bad.Len() != 1 {
		t.Fatal(err)
	}
	for f := range bad.All() {
		if f.Line != 4 || f.Column != 25 || f.Path != "fittings[0].kind.picture.size" || f.Pointer != "/spec/fittings/0/kind/picture/size" {
			t.Errorf("%+v", f)
		}
	}
}

// A fitting and what is folded say which kind they are: none of them is a
// default, in a document or in a row of a table.
func TestKindIsNeeded(t *testing.T) {
	for doc, want := range map[string]string{
		`{"version":1,"spec":{"fittings":[{"name":"crew"}]}}`:                                   "/spec/fittings/0 fittings[0] missing",
		`{"version":1,"spec":{"fittings":[{}]}}`:                                                "/spec/fittings/0 fittings[0] missing",
		`{"version":1,"spec":{"fittings":[{"kind":{"type":"folded"}}]}}`:                        "/spec/fittings/0/kind fittings[0].kind missing",
		`{"version":1,"spec":{"fittings":[{"kind":{"type":"folded","matStock":"card"}}]}}`:      "/spec/fittings/0/kind fittings[0].kind missing",
		`{"version":1,"spec":{"fittings":[{"kind":{"type":"folded","kind":{"type":"flap"}}}]}}`: "",
	} {
		s, err := wire.ReadSpec([]byte(doc))
		got := ""
		var bad *wire.Error
		if errors.As(err, &bad) {
			for f := range bad.All() {
				got += f.Pointer + " " + f.Path + " " + string(f.Code)
				if !strings.Contains(f.Want, "type: one of") {
					t.Errorf("%s: want %s", doc, f.Want)
				}
			}
		}
		if got != want || want != "" && len(s.Fittings) > 0 {
			t.Errorf("%s: %q, want %q", doc, got, want)
		}
	}
	c, err := wire.NewColumns([]string{"cover", "fittings[0].name", "fittings[1].kind.type"})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := c.Read([]string{"6 x 8 in", "crew", "ornament"}); err == nil || !strings.Contains(err.Error(), "fittings/0") {
		t.Errorf("a row without a kind: %v", err)
	}
}
