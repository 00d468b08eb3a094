package folio_test

import (
	"encoding/binary"
	"encoding/json"
	"errors"
	"math"
	"math/rand"
	"reflect"
	"testing"

	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A feeder turns bytes into numbers; when they run out, into zeros.
type feeder struct{ data []byte }

func (f *feeder) next() uint64 {
	var b [8]byte
	n := copy(b[:], f.data)
	f.data = f.data[n:]
	return binary.LittleEndian.Uint64(b[:])
}

// number gives small ones, plausible lengths, and ends of the range.
func (f *feeder) number() int64 {
	v := f.next()
	switch v % 8 {
	case 0:
		return int64(v>>3) % 5
	case 1:
		return -int64(v>>3) % 5
	case 2:
		return math.MaxInt64 - int64(v>>3)%3
	case 3:
		return math.MinInt64 + int64(v>>3)%3
	case 4:
		return int64(v >> 3)
	default:
		return int64(v>>3) % int64(400*units.Millimetre)
	}
}

// kinds are one of each fitting, to be filled with garbage.
func kinds() []folio.Kind {
	out := []folio.Kind{folio.Mat{}, folio.Frame{}, folio.Ornament{}}
	for k := range pocket.Kinds() {
		out = append(out, folio.Folded{Kind: k})
	}
	return out
}

// fill sets every field that can be set.
func (f *feeder) fill(v reflect.Value, depth int) {
	switch v.Kind() {
	case reflect.Int, reflect.Int64, reflect.Int32:
		if v.Type() == reflect.TypeFor[units.Ruler]() && f.next()%4 > 0 {
			v.SetInt(int64([]units.Ruler{0, units.Sixteenths, units.HalfMillimetres, units.Thousandths}[f.next()%4]))
			return
		}
		n := f.number()
		if v.OverflowInt(n) {
			n = int64(int32(n))
		}
		v.SetInt(n)
	case reflect.Uint8:
		n := f.next()
		if n%4 > 0 {
			n %= 6
		}
		v.SetUint(n % 256)
	case reflect.Bool:
		v.SetBool(f.next()%2 == 0)
	case reflect.String:
		v.SetString([]string{"", "a", "b", "card", "liner", "\xff\xfe"}[f.next()%6])
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Field(i).CanSet() {
				f.fill(v.Field(i), depth)
			}
		}
	case reflect.Array:
		for i := range v.Len() {
			f.fill(v.Index(i), depth)
		}
	case reflect.Slice:
		n := int(f.next() % 4)
		v.Set(reflect.MakeSlice(v.Type(), n, n))
		for i := range n {
			f.fill(v.Index(i), depth+1)
		}
	case reflect.Interface:
		all := kinds()
		i := int(f.next() % uint64(len(all)+1))
		if i == len(all) || depth > 3 {
			return // nil
		}
		if v.Type() == reflect.TypeFor[folio.Kind]() {
			k := reflect.New(reflect.TypeOf(all[i])).Elem()
			k.Set(reflect.ValueOf(all[i]))
			if folded, ok := all[i].(folio.Folded); ok {
				inner := reflect.New(reflect.TypeOf(folded.Kind)).Elem()
				f.fill(inner, depth+1)
				v.Set(reflect.ValueOf(folio.Folded{Kind: inner.Interface().(pocket.Kind)}))
				return
			}
			f.fill(k, depth+1)
			v.Set(k)
			return
		}
		if folded, ok := all[i].(folio.Folded); ok {
			v.Set(reflect.ValueOf(folded.Kind))
		}
	default:
		panic("a Spec holds a " + v.Kind().String())
	}
}

// build builds, refits and walks everything; it must not panic, and an error
// must be a list of violations without a plan.
func build(s folio.Spec, f *feeder) string {
	p, err := folio.Build(s)
	if err != nil {
		var bad *check.Error
		if p != nil || !errors.As(err, &bad) || bad.Len() == 0 || bad.Error() == "" {
			return "an error that is no list of violations"
		}
		return ""
	}
	held := 0
	for range p.Fittings() {
		held++
	}
	if held != len(s.Fittings) {
		return "a plan that leaves fittings out"
	}
	for range p.Steps() {
	}
	for w := range p.Workings() {
		if s := addUp(w); s != "" {
			return s
		}
	}
	p.LargestPicture(boards.MainPanel, units.Length(f.number()), units.Length(f.number()))
	m := refit.Measured{Width: units.Length(f.number()), Height: units.Length(f.number())}
	if q, err := p.Refit(m); err == nil {
		for range q.Steps() {
		}
	}
	return ""
}

func garbage(data []byte) (folio.Spec, *feeder) {
	f := &feeder{data}
	var s folio.Spec
	if f.next()%2 == 0 {
		f.fill(reflect.ValueOf(&s).Elem(), 0)
		return s, f
	}
	// A sound case with a few garbled fields gets further.
	s = furnished()[f.next()%2]
	v := reflect.ValueOf(&s).Elem()
	for range 1 + f.next()%3 {
		f.fill(v.Field(int(f.next()%uint64(v.NumField()))), 0)
	}
	return s, f
}

func TestGarbageNeverPanics(t *testing.T) {
	p := runs()
	p.Property("any garbage Spec gives a plan or a list of violations", prop.ForAll(func(seed int64) string {
		data := make([]byte, 4096)
		rand.New(rand.NewSource(seed)).Read(data)
		s, f := garbage(data)
		return build(s, f)
	}, gen.Int64()))
	p.TestingRun(t)
}

// decodeGarbage is a Spec written as JSON with some of its bytes replaced, most
// of them by what keeps it JSON.
func decodeGarbage(seed int64) []byte {
	rng := rand.New(rand.NewSource(seed))
	s := furnished()[rng.Intn(2)]
	s.Fittings = nil // of several types, so not decoded by the names of fields
	s.Covering.Sheets = []stock.Sheet{{Size: units.MustParseSize("12 x 12 in")}}
	data, err := json.Marshal(s)
	if err != nil {
		panic(err)
	}
	for range 1 + rng.Intn(8) {
		at := rng.Intn(len(data))
		if rng.Intn(4) == 0 {
			data[at] = byte(rng.Intn(256))
			continue
		}
		for ; at < len(data); at++ { // the next digit
			if '0' <= data[at] && data[at] <= '9' {
				data[at] = "0123456789-. "[rng.Intn(13)]
				break
			}
		}
	}
	return data
}

func TestDecodedGarbageNeverPanics(t *testing.T) {
	decoded := 0
	p := runs()
	p.Property("any garbage that decodes gives a plan or a list of violations", prop.ForAll(func(seed int64) string {
		data := decodeGarbage(seed)
		var s folio.Spec
		if json.Unmarshal(data, &s) != nil {
			return ""
		}
		decoded++
		return build(s, &feeder{data})
	}, gen.Int64()))
	p.TestingRun(t)
	if decoded < proptest.Cases(200) {
		t.Errorf("only %d Specs decoded: the sample says little", decoded)
	}
}

func FuzzBuild(f *testing.F) {
	rng := rand.New(rand.NewSource(1))
	for range 20 {
		data := make([]byte, 2048)
		rng.Read(data)
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		s, feed := garbage(data)
		if why := build(s, feed); why != "" {
			t.Error(why)
		}
	})
}

// Decoding garbage into a Spec and building what came of it never panics.
// Fittings cannot be decoded this way, as their kinds are of several types.
func FuzzDecode(f *testing.F) {
	for _, s := range []string{
		`{"Cover":{"W":"114.3 mm","H":"6 1/4 in"},"Spine":{"Width":"1 in"}}`,
		`{"Cover":{"W":"9999999 m","H":""}}`, `{"Rulers":{"Main":"1/16 in"},"Form":3}`, `[]`, `{"Stocks":[{},{}]}`,
		`{"Fittings":[{"Kind":{}}]}`, `{"Hinge":{"Angle":-1}}`,
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		var s folio.Spec
		if json.Unmarshal(data, &s) != nil {
			return
		}
		if why := build(s, &feeder{data}); why != "" {
			t.Error(why)
		}
	})
}
