package wire

import (
	"reflect"

	"boardwrap.example/folio/propose"
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
	var r propose.Request
	if err := read(data, body{name: "request", read: into(&r, (*decoder).readProposeRequest)}); err != nil {
		return propose.Request{}, err
	}
	return r, nil
}

// AppendRequest appends the document of a request to dst, with the errors of
// [AppendSpec]. Of a request with forms to choose among no defaults are filled in:
// they follow from the form.
func AppendRequest(dst []byte, r propose.Request, o Options) ([]byte, error) {
	n := notation(r.Case.Rulers)
	if o.Defaults && len(r.Forms) == 0 {
		r.Case = r.Case.WithDefaults()
	}
	return document(newEncoder(dst, n), "request", &r, (*encoder).writeProposeRequest, Options{Indent: o.Indent})
}

// Asked is what somebody says in words that proposals are wanted for.
type Asked struct {
	// Contents are as propose.ParseThings reads them.
	Contents string
	// AnyForm asks for the best of all forms of case.
	AnyForm bool
}

// ReadAsked reads the document that says in words what must go in:
//
//	{"version": 1, "contents": "2 photo 4 x 6 in, 1 ID-1 card", "anyForm": true}
//
// Every member but the version may be left out. The error is an *[Error].
func ReadAsked(data []byte) (Asked, error) {
	var a Asked
	err := read(data,
		body{name: "contents", path: "contents", mayLack: true, read: into(&a.Contents, (*decoder).string)},
		body{name: "anyForm", path: "anyform", mayLack: true, read: into(&a.AnyForm, (*decoder).bool)},
	)
	if err != nil {
		return Asked{}, err
	}
	return a, nil
}

// RequestSchema returns the JSON Schema (2020-12) of a request's document, as
// [SpecSchema] is that of a Spec's.
func RequestSchema() []byte {
	return schemaOf("request", reflect.TypeFor[propose.Request](), false)
}
