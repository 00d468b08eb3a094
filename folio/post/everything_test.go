package post_test

import (
	"reflect"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/post"
	"boardwrap.example/folio/rule"
	"boardwrap.example/internal/fuzztest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// everything is each function and type of the package.
func everything() []any {
	plan, err := folio.Build(folio.Spec{Cover: units.MustParseSize("6 x 8 in"), Spine: rule.Spine{Width: units.Inch},
		Fittings: []folio.Fitting{{Name: "mat", Kind: folio.Mat{Picture: pocket.Content{Size: units.MustParseSize("4 x 6 in")}}}}})
	if err != nil {
		panic(err) // others test this
	}
	return []any{
		post.BoxFor, post.USPS, post.RoyalMail, post.Pack, post.Services, post.Service{}, post.Packing{}, post.Item{}, post.ItemFormat{},
		fuzztest.Choice{Of: reflect.TypeFor[*folio.Plan](), Value: plan},
	}
}

// FuzzEverything calls every function and method with any values at all.
func FuzzEverything(f *testing.F) { fuzztest.Everything(f, 1500, everything()...) }

// Nothing that the package exports is left out of that.
func TestEverythingIsCalled(t *testing.T) { fuzztest.Complete(t, ".", everything()...) }
