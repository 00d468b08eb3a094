package place_test

import (
	"reflect"
	"testing"

	"boardwrap.example/folio/place"
)

// A sizing that says anything at all is not empty.
func TestSizingEmpty(t *testing.T) {
	var s place.Sizing
	if !s.Empty() {
		t.Error("the zero Sizing is not empty")
	}
	fields := 0
	var each func(v reflect.Value, path string)
	each = func(v reflect.Value, path string) {
		switch v.Kind() {
		case reflect.Struct:
			for i := range v.NumField() {
				each(v.Field(i), path+"."+v.Type().Field(i).Name)
			}
			return
		case reflect.String:
			v.SetString("frame")
		case reflect.Bool:
			v.SetBool(true)
		case reflect.Int, reflect.Int64:
			v.SetInt(1)
		case reflect.Uint8:
			v.SetUint(1)
		default:
			t.Fatalf("%s: a field of kind %s", path, v.Kind())
		}
		fields++
		if s.Empty() {
			t.Errorf("empty with %s set", path)
		}
		v.SetZero()
	}
	each(reflect.ValueOf(&s).Elem(), "Sizing")
	if fields < 19 {
		t.Errorf("%d fields set", fields)
	}
}
