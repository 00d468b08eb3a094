package wire

import (
	"reflect"
	"slices"

	"boardwrap.example/folio"
	"boardwrap.example/folio/cost"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/refit"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
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
	// Measured is what the covers measured, made already and lying open, as [ReadMade]
	// has it: the insides are refitted to that, and the covers are not cut again. The
	// zero value is covers that are still to be made.
	Measured refit.Measured
	// Copies is how many are made; 0 makes none and gives a warning.
	Copies int
}

// ReadBatch reads the document of a batch, as strictly as [ReadSpec] reads a
// Spec. Whether it can be made is for [Batch.Job] and [layout.Lay] to say. The error
// is an *[Error].
func ReadBatch(data []byte) (Batch, error) {
	var b Batch
	if err := read(data, body{name: "batch", read: into(&b, (*decoder).readBatch)}); err != nil {
		return Batch{}, err
	}
	return b, nil
}

// Job builds the folios of the batch and returns what is to be laid out, as
// [layout.Job.Stocked] does: with the sheets that only their Specs name, and what there
// are no sheets of. The error is a *check.Error of all the folios, its paths from the
// batch on: folios[2].spec.cover, folios[2].measured.width.
func (b Batch) Job() (job layout.Job, lacking []string, err error) {
	job = layout.Job{Materials: b.Materials, Except: b.Except, Cutter: b.Cutter, Keep: b.Keep}
	var bad check.List
	for i, f := range b.Folios {
		p, err := folio.Build(f.Spec)
		bad.Under(check.Index("folios", i)+".spec", err)
		if err == nil && !zeroRefitMeasured(&f.Measured) {
			p, err = p.Refit(f.Measured)
			bad.Under(check.Index("folios", i), err)
		}
		job.Folios = append(job.Folios, layout.Folio{Plan: p, Copies: f.Copies})
	}
	if err := bad.Err(); err != nil {
		return layout.Job{}, nil, err
	}
	job, lacking = job.Stocked()
	return job, lacking, nil
}

// AppendBatch appends the document of a batch to dst, with the errors of
// [AppendSpec]: lengths and sizes are in the notation of its first folio, as the
// Spec's own document has them, or in inches where it has none.
func AppendBatch(dst []byte, b Batch, o Options) ([]byte, error) {
	n := units.InchFraction
	if len(b.Folios) > 0 {
		n = notation(b.Folios[0].Spec.Rulers)
	}
	if o.Defaults {
		b.Folios = slices.Clone(b.Folios)
		for i := range b.Folios {
			b.Folios[i].Spec = b.Folios[i].Spec.WithDefaults()
		}
	}
	return document(newEncoder(dst, n), "batch", &b, (*encoder).writeBatch, Options{Indent: o.Indent})
}

// BatchSchema returns the JSON Schema (2020-12) of a batch's document, made from
// the types that read it.
func BatchSchema() []byte {
	return schemaOf("batch", reflect.TypeFor[Batch](), false)
}
