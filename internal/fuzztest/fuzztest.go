// Package fuzztest calls functions and methods with whatever bytes make of
// their parameters, to see that nothing panics, hangs or says what is no text.
// Fields that nobody would think of are set too: that is the point.
//
// It is for tests only and knows nothing of the rooms.
package fuzztest

import (
	"context"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"
	"time"
	"unicode/utf8"
)

// Limits of one call of [Call].
const (
	calls    = 400                   // functions and methods called in all
	elements = 6                     // of a slice
	depth    = 3                     // results of results
	patience = 50 * time.Millisecond // of a context
	walked   = 50                    // elements of an iterator
)

var (
	contextType = reflect.TypeFor[context.Context]()
	errorType   = reflect.TypeFor[error]()
)

// A caller takes its choices from bytes; when they run out all that is left is
// zero.
type caller struct {
	t    testing.TB
	ctx  context.Context
	data []byte
	left int
	said string // what is being called, for a failure
	// choices are what interfaces are filled with, by their types.
	choices map[reflect.Type][]any
}

// A Choice is one of the types that an interface may hold, and Except a function
// that is not called, with the reason: both stand among the functions of [Call].
type (
	Choice struct {
		Of    reflect.Type
		Value any
	}
	Except struct{ Name, Because string }
)

// Choices are values of the types that an interface I may hold.
func Choices[I any](values ...I) []any {
	var all []any
	for _, v := range values {
		all = append(all, Choice{reflect.TypeFor[I](), v})
	}
	return all
}

// choose takes the choices out of the functions.
func (c *caller) choose(functions []any) []any {
	c.choices = map[reflect.Type][]any{}
	var rest []any
	for _, f := range functions {
		switch f := f.(type) {
		case Choice:
			c.choices[f.Of] = append(c.choices[f.Of], f.Value)
		case Except:
		default:
			rest = append(rest, f)
		}
	}
	return rest
}

// Call calls each function with arguments made from data, and then the methods
// of what it returns, and of what those return. It fails the test where
// something panics or a text is not UTF-8.
func Call(t testing.TB, data []byte, functions ...any) {
	t.Helper()
	ctx, stop := context.WithTimeout(context.Background(), patience)
	defer stop()
	c := &caller{t: t, ctx: ctx, data: data, left: calls}
	defer func() {
		if r := recover(); r != nil {
			t.Fatalf("%s panics: %v", c.said, r)
		}
	}()
	if functions = c.choose(functions); len(functions) == 0 {
		return
	}
	// Which is called first is up to the data, so that each gets its bytes.
	first := c.number(len(functions))
	for i := range functions {
		f := reflect.ValueOf(functions[(first+i)%len(functions)])
		if f.Kind() == reflect.Func {
			c.call(f, fmt.Sprint(f.Type()), depth)
		} else {
			v := reflect.New(f.Type()).Elem()
			c.fill(v, 0)
			c.methods(v, depth)
		}
	}
}

func (c *caller) byte() byte {
	if len(c.data) == 0 {
		return 0
	}
	b := c.data[0]
	c.data = c.data[1:]
	return b
}

// seldom reports one time in eight that something rare is to be, each of its kind
// at times of its own. It takes no byte, so that all others make what they made.
func (c *caller) seldom(kind byte) bool { return len(c.data) > 0 && c.data[0]%8 == kind }

func (c *caller) number(n int) int { return int(c.byte()) % n }

// ends are numbers at which arithmetic breaks.
var ends = [...]int64{0, 1, -1, 2, math.MaxInt64, math.MinInt64, math.MinInt64 + 1, math.MaxInt32, math.MinInt32, 1 << 40, -1 << 40, 1 << 62, 10_000_000_000, 10_000_000_001, 9_999, 10_000}

// integer returns any number, often one at an end, often one of a size that
// makes sense.
func (c *caller) integer() int64 {
	switch b := c.byte(); b % 4 {
	case 0:
		return ends[int(b/4)%len(ends)]
	case 1:
		return int64(b / 4)
	case 2:
		return int64(int8(c.byte())) * 793_750 // thirty-seconds of an inch in nanometres
	}
	n := int64(0)
	for range 8 {
		n = n<<8 | int64(c.byte())
	}
	return n >> (c.byte() % 64)
}

// fill sets a value from the data and reports whether it can be.
func (c *caller) fill(v reflect.Value, deep int) bool {
	if v.Kind() == reflect.Interface && v.NumMethod() > 0 && contextType.Implements(v.Type()) {
		if !c.seldom(0) { // else nil
			v.Set(reflect.ValueOf(c.ctx))
		}
		return true
	}
	if all := c.choices[v.Type()]; len(all) > 0 && v.Kind() != reflect.Interface { // as it is
		v.Set(reflect.ValueOf(all[c.number(len(all))]))
		if v.Kind() == reflect.Pointer && c.seldom(1) {
			v.Set(reflect.New(v.Type().Elem())) // that of nothing
		} else if v.Kind() == reflect.Pointer && c.seldom(2) {
			v.SetZero()
		}
		return true
	}
	switch v.Kind() {
	case reflect.Bool:
		v.SetBool(c.byte()%2 == 1)
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		v.SetInt(c.integer())
	case reflect.Uint8: // most are enumerations of a few values
		if v.SetUint(uint64(c.byte() % 8)); c.byte() == 255 {
			v.SetUint(255)
		}
	case reflect.Uint, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		v.SetUint(uint64(c.integer()))
	case reflect.Float32, reflect.Float64:
		v.SetFloat([...]float64{0, 1, -1, 0.1, math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64}[c.number(8)])
	case reflect.String:
		b := make([]byte, c.number(12))
		for i := range b {
			b[i] = c.byte()
		}
		v.SetString(strings.ToValidUTF8(string(b), "½")) // what goes in broken may come out so
	case reflect.Slice:
		n := c.number(elements + 1)
		v.Set(reflect.MakeSlice(v.Type(), n, n))
		for i := range n {
			if !c.fill(v.Index(i), deep+1) {
				return false
			}
		}
	case reflect.Array:
		for i := range v.Len() {
			if !c.fill(v.Index(i), deep+1) {
				return false
			}
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Field(i).CanSet() && !c.fill(v.Field(i), deep+1) && deep == 0 {
				return false
			}
		}
	case reflect.Pointer:
		if c.byte()%2 == 0 || deep > 3 {
			return true // nil
		}
		v.Set(reflect.New(v.Type().Elem()))
		return c.fill(v.Elem(), deep+1)
	case reflect.Interface:
		all := c.choices[v.Type()]
		if len(all) == 0 || deep > 4 {
			return len(all) > 0 // nil
		}
		k := reflect.New(reflect.TypeOf(all[c.number(len(all))])).Elem()
		c.fill(k, deep+1)
		v.Set(k)
	default: // functions, channels: nil
		return false
	}
	return true
}

// call calls a function with arguments made from the data.
func (c *caller) call(f reflect.Value, name string, deep int) {
	if c.left == 0 {
		return
	}
	c.left--
	var args []reflect.Value
	for i := range f.Type().NumIn() {
		arg := reflect.New(f.Type().In(i)).Elem()
		if !c.fill(arg, 0) {
			return
		}
		args = append(args, arg)
	}
	c.said = fmt.Sprintf("%s(%v)", name, args)
	var results []reflect.Value
	if f.Type().IsVariadic() {
		results = f.CallSlice(args)
	} else {
		results = f.Call(args)
	}
	failed := false
	for _, r := range results {
		if r.Type() == errorType && !r.IsNil() {
			failed = true
			c.text(r.Interface().(error).Error())
		}
	}
	for _, r := range results {
		if r.Type() != errorType && (!failed || deep == depth) {
			c.look(r, deep)
		}
	}
}

// look asks a result for all it can say.
func (c *caller) look(r reflect.Value, deep int) {
	switch {
	case r.Kind() == reflect.String:
		c.text(r.String())
	case r.Kind() == reflect.Func && r.Type().CanSeq():
		n := 0
		for v := range r.Seq() {
			c.methods(v, deep-1)
			if n++; n >= walked {
				break
			}
		}
	case r.Kind() == reflect.Func && r.Type().CanSeq2():
		n := 0
		for _, v := range r.Seq2() {
			c.methods(v, deep-1)
			if n++; n >= walked {
				break
			}
		}
	case r.Kind() == reflect.Slice:
		for i := range min(r.Len(), 4) {
			c.methods(r.Index(i), deep-1)
		}
	default:
		c.methods(r, deep-1)
	}
}

// methods calls the methods of a value.
func (c *caller) methods(v reflect.Value, deep int) {
	if deep <= 0 || !v.IsValid() || v.Kind() == reflect.Pointer && v.IsNil() || v.Kind() == reflect.Interface {
		return
	}
	for i := range v.NumMethod() {
		c.call(v.Method(i), v.Type().String()+"."+v.Type().Method(i).Name, deep)
	}
}

func (c *caller) text(s string) {
	if !utf8.ValidString(s) {
		c.t.Errorf("%s says %q", c.said, s)
	}
}
