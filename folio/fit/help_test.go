package fit_test

import (
	"errors"
	"fmt"
	"strings"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

const mm = units.Millimetre

// content is something thin of a size.
func content(s units.Size) pocket.Content { return pocket.Content{Name: "picture", Size: s} }

// refusedWith reports whether err lists a violation at path with the code.
func refusedWith(err error, path string, code check.Code) bool {
	var bad *check.Error
	if !errors.As(err, &bad) {
		return false
	}
	_, ok := bad.Find(path, code)
	return ok
}

// strip is a folded strip of 12 x 6 in for a card, with scores at the given places.
func strip(scores ...string) folio.Kind {
	s := pocket.FoldedStrip{Strip: units.MustParseSize("12 x 6 in"), Content: pocket.IDCard().Turned()}
	for i, at := range scores {
		s.Scores[i] = units.MustParse(at)
	}
	return folio.Folded{Kind: s}
}

// keepsake is a folio with a strip, a mat on it, a frame and a badge.
func keepsake() folio.Spec {
	return folio.Spec{
		Cover: units.MustParseSize("4 1/2 x 6 1/4 in"), Spine: rule.Spine{Width: units.Inch},
		Covering: stock.Stock{Sheets: []stock.Sheet{{Size: units.MustParseSize("12 x 12 in")}}},
		Liner:    stock.Stock{Sheets: []stock.Sheet{{Size: units.MustParseSize("8 1/2 x 11 in")}}},
		Stocks:   []stock.Stock{{Name: "card stock", Caliper: 12 * units.Thou, Sheets: []stock.Sheet{{Size: units.MustParseSize("12 x 12 in")}}}},
		Fittings: []folio.Fitting{
			{Name: "strip", Panel: boards.LeftCover, Stock: "card stock", Kind: strip("3 7/8 in", "7 7/8 in", "10 1/2 in")},
			{Name: "mat", StandsOn: "strip", Kind: folio.Mat{Size: units.MustParseSize("3 1/2 x 5 3/4 in")}},
			{Name: "frame", Stock: "card stock", Kind: folio.Frame{Picture: pocket.Content{Size: units.MustParseSize("3 1/2 x 5 in"), Thickness: 260 * units.Micrometre}}},
			{Name: "badge", Panel: boards.LeftCover, Outside: true, Kind: folio.Ornament{Size: units.MustParseSize("1 x 1 in"), Thickness: units.Inch / 32}},
		},
	}
}

// tells is what a plan tells, as one text.
func tells(p *folio.Plan) string {
	var b strings.Builder
	for q := range p.Pieces() {
		fmt.Fprintln(&b, q.Quantity(), q.Name(), q.Part(), q.Stock(), q.Size(), q.Grain(), q.Width(), q.Height())
	}
	for q := range p.Placed() {
		fmt.Fprintln(&b, q.Rect())
	}
	for h := range p.Heights(true) {
		fmt.Fprintln(&b, h)
	}
	for w := range p.Workings() {
		fmt.Fprintln(&b, w)
	}
	for w := range p.Warnings() {
		fmt.Fprintln(&b, w)
	}
	return b.String()
}
