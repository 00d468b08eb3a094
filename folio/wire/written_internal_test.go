package wire

import (
	"encoding"
	"encoding/json"
	"math/rand"
	"reflect"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"boardwrap.example/folio"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
	"boardwrap.example/units/money"
)

// A saying says what the document of a value is: it walks the value by
// reflection, and everything that JSON has rules for is written by encoding/json.
type saying struct {
	note    units.Notation
	mm, all bool
}

func (s saying) member(b *strings.Builder, name string, value string) {
	if b.Len() > 1 {
		b.WriteByte(',')
	}
	b.WriteString(s.json(name) + ":" + value)
}

func (saying) json(v any) string {
	text, err := json.Marshal(v)
	if err != nil {
		panic(err)
	}
	return string(text)
}

func (s saying) length(l units.Length) string {
	text := s.note.Text(l)
	if back, err := units.Parse(text); err != nil || back != l {
		text = l.String()
	}
	if !s.mm {
		return s.json(text)
	}
	return `{"text":` + s.json(text) + `,"mm":` + strconv.FormatFloat(float64(l)/1e6, 'g', -1, 64) + `}`
}

func (s saying) size(z units.Size) string {
	if s.mm {
		return `{"w":` + s.length(z.W) + `,"h":` + s.length(z.H) + `}`
	}
	text := units.Format{Ruler: s.note.Exact()}.Size(z)
	if back, err := units.ParseSize(text); err != nil || back != z {
		text = z.String()
	}
	return s.json(text)
}

// object is what the fields of a struct are, behind the type of what has one.
func (s saying) object(v reflect.Value, kind string) string {
	var b strings.Builder
	b.WriteByte('{')
	if kind != "" {
		s.member(&b, "type", s.json(kind))
	}
	for i := range v.NumField() {
		f, name := v.Field(i), []rune(v.Type().Field(i).Name)
		name[0] = unicode.ToLower(name[0])
		if nothing(f) && !s.all || f.Kind() == reflect.Slice && f.Len() == 0 {
			continue
		}
		s.member(&b, string(name), s.value(f))
	}
	return b.String() + "}"
}

// nothing reports whether a value says nothing: it is zero but for lists that are
// there and empty.
func nothing(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Slice:
		return v.Len() == 0
	case reflect.Struct:
		for i := range v.NumField() {
			if !nothing(v.Field(i)) {
				return false
			}
		}
		return true
	}
	return v.IsZero()
}

func (s saying) value(v reflect.Value) string {
	switch x := v.Interface().(type) {
	case units.Length:
		return s.length(x)
	case units.Size:
		return s.size(x)
	case folio.Spec:
		s.mm, s.all = false, false
		return s.object(v, "")
	case units.Working:
		var terms []term
		for t := range x.Terms() {
			terms = append(terms, term{t.Count, t.Label, t.Length})
		}
		return s.object(reflect.ValueOf(struct {
			Label         string
			Length, Exact units.Length
			Shares        int
			Terms         []term
			Text          string
		}{x.Label(), x.Length(), x.Rounded().From, x.Shares(), terms, x.String()}), "")
	case sentence:
		return s.json(x.step.Text(units.Format{}))
	case workingLine:
		return s.json(x.w.String())
	case encoding.TextMarshaler:
		text, err := x.MarshalText()
		if err != nil {
			panic(err)
		}
		return s.json(string(text))
	case pocket.Kind:
		name := x.Name()
		if name == "hinged leaf" {
			name = "flap"
		}
		return s.object(reflect.ValueOf(x), name)
	case folio.Kind:
		return s.object(reflect.ValueOf(x), map[reflect.Type]string{
			reflect.TypeFor[folio.Mat](): "mat", reflect.TypeFor[folio.Frame](): "frame", reflect.TypeFor[folio.Ornament](): "ornament", reflect.TypeFor[folio.Folded](): "folded",
		}[reflect.TypeOf(x)])
	case work.Action:
		name := []rune(reflect.TypeOf(x).Name())
		name[0] = unicode.ToLower(name[0])
		return s.object(reflect.ValueOf(x), string(name))
	}
	switch v.Kind() {
	case reflect.Struct:
		return s.object(v, "")
	case reflect.Slice, reflect.Array:
		n := v.Len()
		for v.Kind() == reflect.Array && n > 0 && v.Index(n-1).IsZero() {
			n--
		}
		var all []string
		for i := range n {
			all = append(all, s.value(v.Index(i)))
		}
		return "[" + strings.Join(all, ",") + "]"
	}
	return s.json(v.Interface())
}

// any1 sets a value, and all that it holds, to something that documents can hold.
func any1(r *rand.Rand, v reflect.Value) {
	switch t := v.Type(); {
	case t == reflect.TypeFor[folio.Kind]():
		anyKind(r, v, folio.Kinds())
	case t == reflect.TypeFor[pocket.Kind]():
		anyKind(r, v, pocket.Kinds())
	case t == reflect.TypeFor[work.Action]():
		anyKind(r, v, work.Actions())
	case r.Intn(4) == 0 && !needsKind(t): // the zero value
	case t == reflect.TypeFor[units.Working]():
		terms := []units.Term{units.N(r.Intn(5)-1, "caliper < 2", units.Length(r.Int63n(1<<33))), units.T("", 3*units.Inch)}
		v.Set(reflect.ValueOf((&units.Ledger{}).Share("width", r.Intn(3)+1, units.Sixteenths, units.Up, terms[:r.Intn(3)]...)))
	case t == reflect.TypeFor[sentence]():
		var a work.Action
		anyKind(r, reflect.ValueOf(&a).Elem(), work.Actions())
		v.Set(reflect.ValueOf(sentence{work.Step{Do: []work.Action{a}}}))
	case t == reflect.TypeFor[units.Length]():
		some := []units.Length{units.None, 1, -63500 * 7, 12 * units.Inch, units.Inch / 16, 1_234_567_891_234, units.Length(r.Int63n(1 << 40)), units.Longest}
		v.SetInt(int64(some[r.Intn(len(some))]))
	case t == reflect.TypeFor[units.Ruler]():
		v.Set(reflect.ValueOf(units.TenthMillimetres))
	case t == reflect.TypeFor[units.Area]():
		v.Set(reflect.ValueOf(units.Length(r.Int63n(1 << 40)).By(210 * units.Millimetre)))
	case t == reflect.TypeFor[money.Amount]():
		usd, _ := money.CurrencyOf("USD")
		v.Set(reflect.ValueOf(money.Amount{Minor: r.Int63n(100_000), Currency: usd}))
	case t.Kind() == reflect.Uint8:
		v.SetUint(uint64(r.Intn(4)))
		if m, ok := v.Interface().(encoding.TextMarshaler); ok {
			if _, err := m.MarshalText(); err != nil {
				v.SetUint(0)
			}
		}
	case t.Kind() == reflect.String:
		some := []string{"crew", `"<a> & \ b"`, "tab\t, \x00, \x7f, ½, \u2028", "\xff", ""}
		v.SetString(some[r.Intn(len(some))])
	case t.Kind() == reflect.Int, t.Kind() == reflect.Int64:
		v.SetInt(r.Int63n(5000) - 1)
	case t.Kind() == reflect.Bool:
		v.SetBool(true)
	case t.Kind() == reflect.Struct:
		for i := range t.NumField() {
			any1(r, v.Field(i))
		}
	case t.Kind() == reflect.Slice:
		v.Set(reflect.MakeSlice(t, r.Intn(3), 3))
		fallthrough
	case t.Kind() == reflect.Array:
		for i := range v.Len() {
			any1(r, v.Index(i))
		}
	default:
		panic(t.String())
	}
}

// needsKind reports whether a struct has a kind, which none is no kind of.
func needsKind(t reflect.Type) bool {
	if t.Kind() != reflect.Struct {
		return false
	}
	f, ok := t.FieldByName("Kind")
	return ok && f.Type.Kind() == reflect.Interface
}

func anyKind[K any](r *rand.Rand, v reflect.Value, kinds func(func(K) bool)) {
	var all []K
	kinds(func(k K) bool { all = append(all, k); return true })
	k := reflect.New(reflect.TypeOf(all[r.Intn(len(all))])).Elem()
	for i := range k.NumField() {
		any1(r, k.Field(i))
	}
	v.Set(k)
}

// same compares what is written of values at random with what is said of them.
func same[T any](t *testing.T, drawn bool, write func(*encoder, *T)) {
	t.Helper()
	r := rand.New(rand.NewSource(proptest.Seed()))
	long := 0
	for i := range proptest.Cases(150) {
		var v T
		for f := range reflect.TypeFor[T]().NumField() {
			any1(r, reflect.ValueOf(&v).Elem().Field(f))
		}
		s := saying{note: units.Notation(i % 3), mm: drawn, all: drawn}
		e := newEncoder([]byte("["), s.note)
		e.mm, e.all = s.mm, s.all
		writeObject(e, &v, write)
		got, want := string(e.out[1:]), s.object(reflect.ValueOf(v), "")
		if got != want || e.err != nil {
			at := 0
			for at < min(len(got), len(want)) && got[at] == want[at] {
				at++
			}
			t.Fatalf("%T: %v; from %d on\n%.200s\nwant\n%.200s", v, e.err, at, got[max(0, at-60):], want[max(0, at-60):])
		}
		if !json.Valid([]byte(got)) {
			t.Fatalf("%T is written as no JSON: %s", v, got)
		}
		long = max(long, len(got))
	}
	if long < 80 {
		t.Errorf("%T: the longest document has %d bytes", *new(T), long)
	}
}

// Every document is what its types say, to the byte.
func TestWrittenAsTheTypesSay(t *testing.T) {
	same(t, true, (*encoder).writePlan)
	same(t, true, (*encoder).writeLaidOut)
	same(t, true, (*encoder).writeClosingVerdict)
	same(t, true, (*encoder).writeHolding)
	same(t, true, (*encoder).writePosting)
	same(t, true, (*encoder).writeCosts)
	same(t, true, (*encoder).writeProposals)
	same(t, true, (*encoder).writeProblems)
	same(t, false, (*encoder).writeFolioSpec)
	same(t, false, (*encoder).writeRefitMeasured)
	same(t, false, (*encoder).writeProposeRequest)
	same(t, false, (*encoder).writeBatch)
}

// What goes out as proposals comes back whole, and is written as the same bytes.
func TestProposalsAreRead(t *testing.T) {
	r := rand.New(rand.NewSource(proptest.Seed()))
	for range proptest.Cases(60) {
		var v proposals
		for f := range reflect.TypeFor[proposals]().NumField() {
			any1(r, reflect.ValueOf(&v).Elem().Field(f))
		}
		once, err := document(drawing(nil, units.InchFraction, nil), "proposals", &v, (*encoder).writeProposals, Options{})
		if err != nil {
			t.Fatal(err)
		}
		back, err := readProposals(once)
		if strings.Contains(string(once), "\\ufffd") {
			continue // bytes that are no UTF-8 do not come back
		}
		if err != nil {
			t.Fatalf("%v\n%.3000s", err, once)
		}
		again, err := document(drawing(nil, units.InchFraction, nil), "proposals", &back, (*encoder).writeProposals, Options{})
		if err != nil || string(again) != string(once) {
			t.Fatalf("%v: %.3000s\nand then\n%.3000s", err, once, again)
		}
	}
}
