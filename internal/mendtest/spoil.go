package mendtest

import (
	"math"
	"math/rand"
	"reflect"
)

// Spoil returns a copy of a value with one to three of its numbers, choices,
// texts and lists changed to something that is most likely wrong: below, above
// or far above what makes sense, of no kind, of another name, empty or longer.
func Spoil[T any](v T, from int64) T {
	rng := rand.New(rand.NewSource(from))
	v = Copy(v)
	for range 1 + rng.Intn(3) {
		all := leaves(reflect.ValueOf(&v).Elem(), nil)
		if len(all) == 0 {
			return v
		}
		spoil(all[rng.Intn(len(all))], rng)
	}
	return v
}

// leaves gathers the fields that can be set, lists too, but not what lies behind
// interfaces and pointers.
func leaves(v reflect.Value, out []reflect.Value) []reflect.Value {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				out = leaves(v.Field(i), out)
			}
		}
	case reflect.Slice:
		out = append(out, v)
		for i := range v.Len() {
			out = leaves(v.Index(i), out)
		}
	case reflect.Array:
		for i := range v.Len() {
			out = leaves(v.Index(i), out)
		}
	case reflect.Int, reflect.Int64, reflect.Uint8, reflect.String, reflect.Bool:
		out = append(out, v)
	}
	return out
}

func spoil(f reflect.Value, rng *rand.Rand) {
	switch f.Kind() {
	case reflect.Bool:
		f.SetBool(!f.Bool())
	case reflect.String:
		f.SetString([]string{"", "another", "\xff", f.String() + " again"}[rng.Intn(4)])
	case reflect.Uint8:
		f.SetUint(uint64([]int{0, 1, 2, 3, 7, 255}[rng.Intn(6)]))
	case reflect.Slice:
		switch n := f.Len(); {
		case rng.Intn(3) == 0:
			f.SetZero()
		case n > 0:
			f.Set(reflect.AppendSlice(f.Slice3(0, n, n), f.Slice(0, 1+rng.Intn(n))))
		}
	default:
		was := f.Int()
		n := []int64{0, 1, -1, -was, was / 2, was * 3, was + 1, was - 1, rng.Int63n(1 << 34), rng.Int63n(1 << 44), -rng.Int63n(1 << 34), math.MaxInt64, math.MinInt64}[rng.Intn(13)]
		if f.OverflowInt(n) {
			n = math.MaxInt32
		}
		f.SetInt(n)
	}
}
