package propose_test

import (
	"context"
	"errors"
	"reflect"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/post"
	"boardwrap.example/folio/propose"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/mendtest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// soundRequest is a request with everything that can be said in one.
func soundRequest() propose.Request {
	c := metric()
	c.Stocks = []stock.Stock{{Name: "card", Caliper: mm / 4, Sheets: []stock.Sheet{{Size: units.MustParseSize("500 x 700 mm")}}}}
	c.Covering.Sheets = []stock.Sheet{{Size: units.MustParseSize("500 x 700 mm"), Grain: stock.GrainAlongHeight}}
	c.Fittings = []folio.Fitting{{Name: "crest", Panel: boards.LeftCover, Outside: true, Kind: folio.Ornament{Size: units.MustParseSize("20 x 20 mm"), Thickness: mm}}}
	return propose.Request{
		Things: []propose.Thing{
			{Content: pocket.Content{Name: "race card", Size: units.MustParseSize("100 x 150 mm"), Thickness: mm / 4}, Count: 2, Sight: propose.InView, Group: "a"},
			{Content: pocket.IDCard(), Keeping: propose.Together},
		},
		Case: c, Stock: "card", Without: []propose.Holder{propose.Holder(1)},
		Limits: propose.Limits{
			Cover: units.MustParseSize("300 x 400 mm"), Thickness: 40 * mm, Into: propose.Space{Size: units.MustParseSize("400 x 500 mm"), Depth: 60 * mm, Padding: 2 * mm},
			Post:      propose.Post{Service: post.RoyalMail().Name, Format: post.RoyalMail().Formats[2].Name, Packing: post.Packing{Padding: 5 * mm, Wall: mm, Mass: 50 * units.Gram}},
			Materials: []layout.Material{{Name: "card", Caliper: mm / 4, Sheets: []layout.SheetKind{{Size: units.MustParseSize("500 x 700 mm"), Count: 9}}}},
		},
		Taste: propose.Taste{Margin: 5 * mm, Between: 4 * mm},
	}
}

// A sound request is spoilt, and one for the best of several forms: paths lead to
// their fields, and what violations say would do does.
func TestWhatWouldDoDoes(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop() // what is wrong with a request is said all the same
	again := func(r propose.Request) error {
		if _, err := propose.Folios(ctx, r, propose.Budget{Steps: 1}); err != context.Canceled {
			return err
		}
		return nil
	}
	forms := soundRequest()
	forms.Forms = []propose.Form{{Form: boards.SoftSpine}, {Form: boards.ForeEdgeFlap}}
	for _, r := range []propose.Request{soundRequest(), forms} {
		if err := again(r); err != nil {
			t.Fatal(err)
		}
	}
	mendtest.Many(t, 400, 1, mendtest.AdviceOf(t, ".", "..", "../layout", "../../units/check"), func(tally *mendtest.Tally, from int64) {
		r := soundRequest()
		if from%4 == 0 {
			r = forms
		}
		r = mendtest.Spoil(r, from)
		offers := []any{propose.Thing{Content: pocket.IDCard()}, stock.Stock{Caliper: mm / 4}, "card"}
		var names mendtest.Names
		for _, f := range r.Case.Fittings {
			offers, names = append(offers, f.Name), append(names, f.Name)
		}
		offers = append(offers, names)
		mendtest.Value(tally, r, again(r), offers, again)
	})
}

// A case of which every folio would be warned of is refused where the warning points,
// by a code that says that it is advice how to do without.
func TestUnwiseCase(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	r := soundRequest()
	r.Case.Form, r.Case.Closing.Ease = boards.ForeEdgeFlap, 3*units.Metre // no case leaves as much
	_, err := propose.Folios(ctx, r, propose.Budget{Steps: 1})
	var bad *check.Error
	if !errors.As(err, &bad) || bad.Len() != 1 {
		t.Fatal(err)
	}
	if v, ok := bad.Find("", propose.CaseUnwise); !ok || v.Path == "case.hinge" || mendtest.At(reflect.ValueOf(&r).Elem(), v.Path, func(reflect.Value) {}) != nil {
		t.Error(err)
	}
}
