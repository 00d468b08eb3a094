package pocket_test

import (
	"bytes"
	"flag"
	"fmt"
	"testing"

	"boardwrap.example/internal/texttest"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

var write = flag.Bool("write", false, "write the sentences that TestSentences compares with, to be read before they are kept")

// The sentences of every kind, as they are read at the bench.
func TestSentences(t *testing.T) {
	card, print := pocket.IDCard(), pocket.Content{Name: "print", Size: units.MustParseSize("89 x 127 mm"), Thickness: 260 * units.Micrometre}
	paper := pocket.Paper{Name: "ingres paper", Caliper: 250 * units.Micrometre, Sheet: units.MustParseSize("500 x 650 mm")}
	var got bytes.Buffer
	for _, k := range []pocket.Kind{
		pocket.Slip{Content: card}, pocket.Slip{Content: card, Build: pocket.FoldedFoot}, pocket.Corners{Content: print},
		pocket.Flap{Content: print}, pocket.Flap{Content: print, Hinge: score.Left, Over: 3 * mm, Mat: pocket.Mat{Size: units.MustParseSize("95 x 133 mm"), Caliper: mm}},
		pocket.FoldedStrip{Content: card}, pocket.FoldedStrip{Content: print, OwnSpine: true, Mat: pocket.Mat{Size: units.MustParseSize("60 x 80 mm")}},
		pocket.Gusset{Content: card, Count: 3}, pocket.Gusset{Content: card, At: pocket.FootGusset},
		pocket.GussetRun{Content: card, Pockets: 2}, pocket.GussetRun{Content: card, Pockets: 2, Land: 3 * mm, OpenFoot: true},
		pocket.FoldedAccordion{Content: card, Panels: 3}, pocket.FoldedAccordion{Content: card, Panels: 8},
		pocket.Concertina{Content: print, Leaves: 2}, pocket.Concertina{Content: print, Leaves: 2, OnSpine: true}, pocket.Pleat{Content: card, Pleats: 2},
	} {
		d := design(t, k, paper, units.WholeMillimetres)
		fmt.Fprintf(&got, "%s\n", k.Name())
		for s := range d.Steps() {
			fmt.Fprintf(&got, "%d %s, after %v: %s\n", s.Number, s.Task, s.After, s.Text(units.Format{}))
		}
		for w := range d.Warnings() {
			fmt.Fprintf(&got, "warning: %v\n", w)
		}
		got.WriteByte('\n')
	}
	texttest.Kept(t, "testdata/sentences.txt", got.String(), *write)
}
