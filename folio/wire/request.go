package wire

import (
	"reflect"
	"strconv"

	"boardwrap.example/folio/propose"
	"boardwrap.example/units"
)

// ReadRequest reads the document of a request for proposals:
//
//	{"version": 1, "request": {
//		"things": [{"content": {"name": "print", "size": "4 x 6 in"}, "count": 6, "sight": "in view"}],
//		"limits": {"cover": "9 x 12 in"}
//	}}
//
// The case of a request is a Spec as [ReadSpec] reads it. The error is an *[Error]
// with everything that is wrong, and the request is then the zero Request. Whether
// anything can be proposed is for propose.Folios to say.
func ReadRequest(data []byte) (propose.Request, error) {
	var doc struct {
		Version int
		Request propose.Request
	}
	if _, err := read(data, reflect.ValueOf(&doc).Elem(), ""); err != nil {
		return propose.Request{}, err
	}
	return doc.Request, nil
}

// AppendRequest appends the document of a request to dst, with the errors of
// [AppendSpec].
func AppendRequest(dst []byte, r propose.Request, o Options) ([]byte, error) {
	n := r.Case.Rulers.Main.Notation()
	if r.Case.Rulers.Main == 0 {
		n = units.Sixteenths.Notation()
	}
	if o.Defaults {
		r.Case = r.Case.WithDefaults()
	}
	e := newEncoder(dst, n)
	e.raw(`{"version":` + strconv.Itoa(Version) + `,"request":`)
	e.value(reflect.ValueOf(r))
	e.raw("}")
	return e.done(o)
}

// RequestSchema returns the JSON Schema (2020-12) of a request's document, as
// [SpecSchema] is that of a Spec's.
func RequestSchema() []byte {
	return schemaOf("request", reflect.TypeFor[propose.Request](), false)
}
