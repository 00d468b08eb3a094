package folio_test

import (
	"errors"
	"iter"

	"boardwrap.example/folio"
	"boardwrap.example/folio/stock"
	"boardwrap.example/folio/weigh"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// content is something thin of a size.
func content(s units.Size) pocket.Content { return pocket.Content{Name: "picture", Size: s} }

// foamOf walks where the foam strips of a fitting lie.
func foamOf(f folio.Fitted) iter.Seq[units.Rect] {
	return func(yield func(units.Rect) bool) {
		for p := range f.Placed() {
			for i, piece := range f.Pieces() {
				if at, _ := p.Piece(); i == at && piece.Role() == stock.FoamPiece && !yield(p.Rect()) {
					return
				}
			}
		}
	}
}

// massOf is what a plan weighs in all, with options that are sound.
func massOf(p *folio.Plan, o weigh.Options) (units.Mass, weigh.Certainty) {
	w, err := weigh.Of(p, o)
	if err != nil {
		panic(err)
	}
	return w.Total()
}

// partsOf walks the parts of a plan's weight, with options that are sound.
func partsOf(p *folio.Plan, o weigh.Options) iter.Seq[weigh.Entry] {
	w, err := weigh.Of(p, o)
	if err != nil {
		panic(err)
	}
	return w.Entries()
}

// refusedWith reports whether err lists a violation at path with the code.
func refusedWith(err error, path string, code check.Code) bool {
	var bad *check.Error
	if !errors.As(err, &bad) {
		return false
	}
	_, ok := bad.Find(path, code)
	return ok
}
