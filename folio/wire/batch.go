package wire

import (
	"reflect"

	"boardwrap.example/folio"
	"boardwrap.example/folio/cost"
	"boardwrap.example/folio/layout"
)

// A Batch is what a document asks to be laid out and priced:
//
//	{"version": 1, "batch": {
//		"folios": [{"spec": {…}, "copies": 12}],
//		"materials": [{"name": "covering", "sheets": [{"size": "18 x 24 in", "count": -1, "price": "4.50 USD"}]}],
//		"costs": {"minutes": [25], "rate": "18 USD"}
//	}}
//
// It is plain data.
type Batch struct {
	// Folios are the folios to be made.
	Folios []Copies
	// Materials are the sheets to cut from, as layout.Job has them.
	Materials []layout.Material
	// Except names materials that are not laid out.
	Except []string
	// Cutter is what cuts where a material does not name another.
	Cutter layout.Cutter
	// Keep is the smallest leftover worth keeping.
	Keep layout.Keep
	// Costs are what the layout does not know.
	Costs cost.Basis
}

// Copies are a folio and how many are made of it, as layout.Folio counts them.
type Copies struct {
	// Spec is the folio.
	Spec folio.Spec
	// Copies is how many are made; 0 makes none and gives a warning.
	Copies int
}

// ReadBatch reads the document of a batch, as strictly as [ReadSpec] reads a
// Spec. Whether it can be made is for folio.Build and layout.Lay to say. The error
// is an *[Error].
func ReadBatch(data []byte) (Batch, error) {
	var b Batch
	if err := read(data, body{name: "batch", read: into(&b, (*decoder).readBatch)}); err != nil {
		return Batch{}, err
	}
	return b, nil
}

// BatchSchema returns the JSON Schema (2020-12) of a batch's document, made from
// the types that read it.
func BatchSchema() []byte {
	return schemaOf("batch", reflect.TypeFor[Batch](), false)
}
