package folio_test

import (
	"context"
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stick"
	"boardwrap.example/folio/stock"
	"boardwrap.example/folio/weigh"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// shelved is a folio with a shelf on its right cover.
func shelved(t *testing.T) (*folio.Plan, pocket.Content) {
	t.Helper()
	tag := pocket.Content{Name: "locker tag", Size: units.Size{W: 30 * mm, H: 50 * mm}, Thickness: mm}
	p, err := folio.Build(folio.Spec{
		Cover: units.Size{W: 100 * mm, H: 150 * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
		Stocks: []stock.Stock{{Name: "grey card", Caliper: mm / 2, Grammage: 300 * units.GramPerSquareMetre}},
		Fittings: []folio.Fitting{
			{Name: "rack", Kind: folio.Shelf{Tag: tag}, Stock: "grey card", Place: place.Place{Across: place.Right}},
			{Name: "badge", Kind: folio.Ornament{Size: units.Size{W: 10 * mm, H: 10 * mm}, Thickness: mm}, StandsOn: "rack"},
		},
	})
	if err != nil {
		t.Fatal(err)
	}
	return p, tag
}

// A kind that nobody else has heard of comes out right everywhere.
func TestANewKindIsOneFileAndOneLine(t *testing.T) {
	if !slices.Contains(slices.Collect(folio.Kinds()), folio.Kind(folio.Shelf{})) {
		t.Error("it is not walked among the kinds")
	}
	p, tag := shelved(t)
	spec := p.Spec()
	film := spec.Closing.Adhesive.Caliper
	var fitted []folio.Fitted
	for f := range p.Fittings() {
		fitted = append(fitted, f)
	}

	heights := map[bool]units.Length{}
	for _, full := range []bool{false, true} {
		for h := range p.Heights(full) {
			if i, _ := h.Fitting(); i == 0 {
				heights[full] += h.Height()
			}
		}
	}
	if heights[false] != mm+film || heights[true] != 2*mm+film {
		t.Errorf("it stands %v high empty and %v full", heights[false], heights[true])
	}

	found := false
	for w := range fit.Of(p).Where(context.Background(), fit.Budget{}, tag) {
		i, _ := w.Room().Fitting()
		found = found || i == 0 && w.Rect() == fitted[0].Rect()
	}
	tag.Thickness++
	for w := range fit.Of(p).Where(context.Background(), fit.Budget{}, tag) {
		if i, _ := w.Room().Fitting(); i == 0 {
			t.Errorf("a thicker tag goes in too")
		}
	}
	if !found {
		t.Error("its tag goes nowhere")
	}

	// 2 x 30 x 50 mm of 300 g/m² are 0.9 g; the tag is 30 x 50 x 1 mm.
	var card, held units.Mass
	for part := range partsOf(p, weigh.Options{Filled: true, Density: 1000}) {
		if part.Part() == "rack" && part.Stock() == "grey card" {
			card += part.Mass()
		} else if part.Part() == "rack" {
			held += part.Mass()
		}
	}
	if card != 900*units.Milligram || held != 1500*units.Milligram {
		t.Errorf("the shelf weighs %v, its tag %v", card, held)
	}

	taped := units.Length(0)
	for tape := range stick.Of(p).Tapes() {
		for term := range tape.Length().Terms() {
			if term.Label == "rack" {
				taped += units.Length(term.Count) * term.Length
			}
		}
	}
	// Tape runs along all four edges of both cards, once round: less four
	// corners.
	if w := spec.Closing.Adhesive.TapeWidth; taped != 2*(2*(50*mm)+2*(30*mm-2*w)) {
		t.Errorf("it takes %v of tape", taped)
	}

	if s := fitted[1]; s.Rect().Size().W != 10*mm || !s.Rect().In(fitted[0].Rect()) {
		t.Errorf("the badge does not stand on it: %v", s.Rect())
	}
	var names []string
	for q := range p.Pieces() {
		names = append(names, q.Name())
	}
	placed := 0
	for q := range fitted[0].Placed() {
		if i, copy := q.Piece(); q.Rect() != fitted[0].Rect() || names[i] != "shelf" || copy != placed {
			t.Errorf("placed %+v", q)
		}
		placed++
	}
	if placed != 2 {
		t.Errorf("%d copies placed", placed)
	}
}
