package wire_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/cost"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/post"
	"boardwrap.example/folio/propose"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/stock"
	"boardwrap.example/folio/wire"
	"boardwrap.example/internal/fuzztest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// A refusal is an error of any kind that a document can be written of: of a
// document, of a Spec, of neither, and the zero ones.
type refusal struct{ Of uint8 }

func (r refusal) Error() string { return "refused: " + r.Unwrap().Error() }

func (r refusal) Unwrap() error {
	switch r.Of {
	case 0:
		_, err := wire.ReadSpec([]byte(`{"version":1,"spec":{"cover":7,"wings":"two","spine":{"width":"wide"}}}`))
		return err
	case 1:
		_, err := folio.Build(folio.Spec{Cover: units.Size{W: -units.Inch}})
		return err
	case 2:
		return new(wire.Error)
	}
	return context.Canceled
}

// written is a document as a text, and a panic where it is none.
func written(data []byte, err error) (string, error) {
	if err == nil && !json.Valid(data) {
		panic(fmt.Sprintf("no JSON: %q", data))
	}
	return string(data), err
}

// again is what is written of any value, and a panic where the reader takes that
// and it is written otherwise then.
func again[T any](v T, o wire.Options, write func([]byte, T, wire.Options) ([]byte, error), read func([]byte) (T, error)) (string, error) {
	data, err := write(nil, v, o)
	if err != nil {
		return "", err
	}
	if back, err := read(data); err == nil {
		if twice, err := write(nil, back, o); err != nil || !bytes.Equal(data, twice) {
			panic(fmt.Sprintf("%s is read and written as %s: %v", data, twice, err))
		}
	}
	return written(data, nil)
}

// everything is each function and type of the package.
func everything() []any {
	fail := func(err error) {
		if err != nil {
			panic(err) // others test this
		}
	}
	spec := folio.Spec{Cover: units.MustParseSize("6 x 8 in"), Fittings: []folio.Fitting{{Name: "mat", Kind: folio.Mat{Picture: pocket.Content{Size: units.MustParseSize("4 x 6 in")}}}}}
	spec.Spine.Width = units.Inch
	plan, err := folio.Build(spec)
	fail(err)
	job := layout.Job{Folios: []layout.Folio{{Plan: plan, Copies: 2}}, Materials: layout.MaterialsOf(plan)}
	for i := range job.Materials {
		job.Materials[i].Sheets = []layout.SheetKind{{Size: units.MustParseSize("20 x 30 in"), Grain: stock.GrainAlongHeight, Count: layout.Unlimited}}
	}
	laid, err := layout.Lay(context.Background(), job, layout.Budget{Steps: 10_000})
	fail(err)
	costs, err := cost.Of(laid, cost.Basis{})
	fail(err)
	item, err := post.Pack(plan, post.Packing{})
	fail(err)
	report, err := post.USPS().Judge(item, units.InchFraction)
	fail(err)
	survey := fit.Of(plan)
	ways, err := survey.All(context.Background(), fit.Budget{}, pocket.IDCard())
	fail(err)
	found, err := propose.Folios(context.Background(), propose.Request{Things: []propose.Thing{{Content: pocket.IDCard()}}}, propose.Budget{Steps: 100_000})
	fail(err)
	all := []any{
		wire.AppendAnswer, wire.AppendBatch, wire.AppendClosing, wire.AppendCosts, wire.AppendDrawn, wire.AppendError, wire.AppendHolding, wire.AppendLayout, wire.AppendMade,
		wire.AppendPlan, wire.AppendPosting, wire.AppendProposals, wire.AppendRequest, wire.AppendSpec, wire.AppendSummary,
		wire.ReadAsked, wire.ReadBatch, wire.ReadProposed, wire.ReadMade, wire.ReadRequest, wire.ReadSpec, wire.ReadPicturesWanted, wire.NewColumns,
		wire.Fault{}, wire.Error{}, wire.Columns{}, func() *wire.Error { return new(wire.Error) },
		// What is written of any values is JSON, in UTF-8.
		func(b wire.Batch, o wire.Options) (string, error) {
			return again(b, o, wire.AppendBatch, wire.ReadBatch)
		},
		func(r propose.Request, o wire.Options) (string, error) {
			return again(r, o, wire.AppendRequest, wire.ReadRequest)
		},
		func(s folio.Spec, o wire.Options) (string, error) { return again(s, o, wire.AppendSpec, wire.ReadSpec) },
		func(s folio.Spec, m refit.Measured, o wire.Options) (string, error) {
			return written(wire.AppendMade(nil, s, m, o))
		},
		func(names []string, all []wire.Drawn) (string, error) {
			return written(wire.AppendDrawn(nil, names, all), nil)
		},
		func(text, name string, b bool, i int, f float64, list []string, deep uint8) (string, error) {
			if name == "version" || math.IsNaN(f) || math.IsInf(f, 0) {
				return "", nil
			}
			var in any = []any{text, b, i, f, list, []byte("{}")}
			for range deep % 20 {
				in = map[string]any{name: in}
			}
			return written(wire.AppendAnswer(nil, map[string]any{name: in, "other": map[string]any{}}))
		},
		func(r refusal, n units.Notation, o wire.Options) (string, error) {
			return written(wire.AppendError(nil, r, n, o))
		},
		// A header of fields that there are, and a row of any texts.
		func(which []uint8, row []string) (folio.Spec, error) {
			there := []string{"cover.w", "cover.h", "spine.width", "title", "fittings[0].kind.type", "fittings[0].name", "rulers.main", "covering.sheets[0].size", "block"}
			var header []string
			for _, i := range which {
				header = append(header, there[int(i)%len(there)])
			}
			c, err := wire.NewColumns(header)
			if err != nil {
				return folio.Spec{}, err
			}
			return c.Read(row)
		},
	}
	for _, p := range []*folio.Plan{plan, new(folio.Plan)} {
		all = append(all, fuzztest.Choice{Of: reflect.TypeFor[*folio.Plan](), Value: p},
			func(o wire.Options) (string, error) { return written(wire.AppendPlan(nil, p, o)) },
			func(o wire.Options) (string, error) { return written(wire.AppendClosing(nil, p, o)) },
			func() (string, error) { return written(wire.AppendSummary(nil, p), nil) })
	}
	for _, v := range []any{laid, costs, survey, found, new(propose.Proposals), ways, report} {
		all = append(all, fuzztest.Choice{Of: reflect.TypeOf(v), Value: v})
	}
	for _, name := range []string{"Batch", "Closing", "Costs", "Error", "Holding", "Layout", "Plan", "Posting", "Proposals", "Request", "Spec"} {
		all = append(all, fuzztest.Except{Name: name + "Schema", Because: "it takes nothing, so that it is always the same"})
	}
	all = append(all, fuzztest.Choices[error](refusal{})...)
	all = append(all, fuzztest.Choices(slices.Collect(folio.Kinds())...)...)
	return append(all, fuzztest.Choices(slices.Collect(pocket.Kinds())...)...)
}

// FuzzEverything calls every function and method with any values at all.
func FuzzEverything(f *testing.F) { fuzztest.Everything(f, 6000, everything()...) }

// Nothing that the package exports is left out of that.
func TestEverythingIsCalled(t *testing.T) { fuzztest.Complete(t, ".", everything()...) }
