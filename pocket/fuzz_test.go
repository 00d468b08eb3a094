package pocket_test

import (
	"errors"
	"reflect"
	"testing"

	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// FuzzDesign gives every kind any fields at all: it must come back with a
// list of violations or with a design that can be read.
func FuzzDesign(f *testing.F) {
	f.Add(uint8(3), uint32(0x10), int64(12*in), int64(6*in), int64(31*in/8), int64(63*in/8), int64(21*in/2), int64(0))
	f.Add(uint8(0), uint32(1), int64(85600000), int64(53980000), int64(760000), int64(1), int64(0), int64(0))
	f.Add(uint8(6), uint32(3), int64(85600000), int64(53980000), int64(760000), int64(1), int64(7), int64(-1))
	var kinds []pocket.Kind
	for k := range pocket.Kinds() {
		kinds = append(kinds, k)
	}
	f.Fuzz(func(t *testing.T, which uint8, mask uint32, a, b, c, d, e, g int64) {
		v := reflect.New(reflect.TypeOf(kinds[int(which)%len(kinds)])).Elem()
		lengths := []units.Length{units.Length(g), units.Length(a), units.Length(b), units.Length(c), units.Length(d), units.Length(e)}
		at := 0
		fill(v, lengths, &at)
		for i := range v.NumField() {
			if mask>>(i%32)&1 == 0 {
				v.Field(i).SetZero()
			}
		}
		design, err := v.Interface().(pocket.Kind).Design(pocket.Paper{}, rulers[int(mask>>24)%len(rulers)])
		if err != nil {
			var list *check.Error
			if !errors.As(err, &list) || design.Pockets() != 0 {
				t.Fatalf("%v with %d pockets", err, design.Pockets())
			}
			return
		}
		if broke := sound(design); broke != "" {
			t.Fatalf("%+v: %s", v.Interface(), broke)
		}
	})
}
