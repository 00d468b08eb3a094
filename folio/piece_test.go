package folio_test

import (
	"math"
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/rule"
	"boardwrap.example/internal/foliotest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// Notches and cut-outs come off, to the square nanometre.
func TestAreaOfPieces(t *testing.T) {
	s := foliotest.Weighed()
	s.Fittings = []folio.Fitting{
		{Name: "frame", Kind: folio.Frame{Picture: content(units.Size{W: 60 * mm, H: 90 * mm}), Lap: 3 * mm, Rail: 12 * mm, FoamWidth: 6 * mm, Ease: mm}},
	}
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	for piece := range p.Pieces() {
		if piece.Name() != "frame" {
			continue
		}
		// Outside 54 + 24 by 84 + 24, opening 54 by 84.
		if got := piece.Area().SquareMillimetres(); got != 78*108-54*84 {
			t.Errorf("the frame has %v mm²", got)
		}
	}
	s.Fittings = []folio.Fitting{{Name: "slip", Kind: folio.Folded{Kind: pocket.Slip{
		Content: pocket.IDCard().Turned(), Notch: pocket.ThumbNotch{Width: 20 * mm, Depth: 10 * mm}}}}}
	if p, err = folio.Build(s); err != nil {
		t.Fatal(err)
	}
	for piece := range p.Pieces() {
		blank, ok := piece.Blank()
		if !ok {
			continue
		}
		cut := 0.0
		for range blank.Notches() {
			cut += math.Pi / 2 * 10 * 10
		}
		for range blank.CutOuts() {
			cut += 20*20 - (4-math.Pi)*100
		}
		if cut == 0 {
			t.Error("no notch to try")
		}
		full := piece.Size().Area().SquareMillimetres()
		if got := full - piece.Area().SquareMillimetres(); math.Abs(got-cut) > 1e-3 {
			t.Errorf("%v mm² come off, want %v", got, cut)
		}
	}
}

// Every copy of every piece that is cut lies somewhere, and no other; what is not folded
// lies as large as it is cut.
func TestEveryCopyLiesSomewhere(t *testing.T) {
	full := fullCase()
	quarter := plainCase()
	quarter.Quarter.Rule, quarter.Lining.Rule = rule.QuarterAlways, rule.LiningPanels
	for _, s := range []folio.Spec{full, quarter} {
		p := mustBuild(t, s)
		pieces := slices.Collect(p.Pieces())
		lie := make([][]bool, len(pieces))
		for i := range pieces {
			lie[i] = make([]bool, pieces[i].Quantity())
		}
		for l := range p.Placed() {
			i, copy := l.Piece()
			if copy < 0 || copy >= len(lie[i]) {
				t.Errorf("copy %d lies of %d x %s", copy, len(lie[i]), pieces[i].Name())
				continue
			}
			lie[i][copy] = true
			if _, folded := l.Panel(); !folded && l.Rect().Size() != pieces[i].Size() {
				t.Errorf("%s, %v, lies at %v", pieces[i].Name(), pieces[i].Size(), l.Rect())
			}
		}
		for i := range pieces {
			if slices.Contains(lie[i], false) {
				t.Errorf("of %d x %s not all lie anywhere: %v", len(lie[i]), pieces[i].Name(), lie[i])
			}
		}
	}
}
