package pocket

import (
	"testing"

	"boardwrap.example/score"
	"boardwrap.example/units"
)

// The sides that are counted are those that package score finds by folding,
// which also finds every piece to fold as told.
func TestSidesAsFoldedByScore(t *testing.T) {
	card := IDCard()
	list := []Kind{
		Slip{Content: card, Build: FoldedFoot}, Flap{Content: card}, Flap{Content: card, Over: 3 * mm, Hinge: score.Right}, Flap{Content: card, Hinge: score.Tail},
		FoldedStrip{Content: card}, FoldedStrip{Content: card, OpensRight: true}, FoldedStrip{Content: card, OwnSpine: true}, FoldedStrip{Content: card, OwnSpine: true, OpensRight: true},
		Gusset{Content: card, Count: 4}, Gusset{Content: card, At: FootGusset}, GussetRun{Content: card, Pockets: 4}, GussetRun{Content: card, Pockets: 3, Land: 2 * mm},
		Concertina{Content: card, Leaves: 3}, Concertina{Content: card, Leaves: 3, Land: units.None}, Concertina{Content: card, Leaves: 3, Land: 4 * mm}, Concertina{Content: card, Leaves: 40, OnSpine: true}, Pleat{Content: card, Pleats: 5},
	}
	for n := 1; n <= 60; n += 7 {
		list = append(list, FoldedAccordion{Content: card, Panels: n})
	}
	small := Paper{Caliper: 200 * units.Micrometre, Sheet: units.Size{W: 300 * mm, H: 200 * mm}}
	for _, paper := range []Paper{{}, small} {
		for _, k := range list {
			whole, err := k.Design(paper, units.WholeMillimetres)
			if err != nil {
				t.Fatalf("%s: %v", k.Name(), err)
			}
			d := whole.of()
			levels, err := d.levels()
			if err != nil || len(levels) != len(d.panels) {
				t.Fatalf("%s does not fold: %v", k.Name(), err)
			}
			var s folding
			for _, p := range d.panels {
				folds := d.pieces[p.piece].folds
				var l lie
				switch {
				case p.chain > 0:
					l = s.foldChain(d, d.chains[p.chain-1])
				case len(folds) > 0:
					l = s.fold(d.pieces[p.piece].blank, folds[0].axis, folds)
				default:
					continue
				}
				if s.bad.Len() > 0 {
					t.Fatalf("%s: %v", k.Name(), s.bad.Err())
				}
				want := l.side(p.number)
				if p.front {
					want = want.Other()
				}
				if p.side != want && !p.closed.Empty() {
					t.Errorf("%s: the %s lies %v up; folded it is the %v", k.Name(), p.name, p.side, want)
				}
			}
		}
	}
}
