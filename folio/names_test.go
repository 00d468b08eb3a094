package folio_test

import (
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/place"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// However long names are, sentences stay short: of a megabyte each, of fittings and what
// they hold, no step's text has more than some 64 characters a time. The names themselves
// are kept whole.
func TestNamesInSentences(t *testing.T) {
	long := strings.Repeat("n", 1<<20)
	s := metric()
	s.Cover, s.Spine.Width = units.Size{W: 700 * mm, H: 700 * mm}, 60*mm
	print := pocket.Content{Name: long + "c", Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: mm / 10}
	for i := range 64 {
		var k folio.Kind = folio.Ornament{Size: print.Size, Thickness: mm / 10}
		switch i % 4 {
		case 1:
			k = folio.Mat{Picture: print}
		case 2:
			k = folio.Folded{Kind: pocket.Slip{Content: print}}
		case 3:
			k = folio.Frame{Picture: print}
		}
		s.Fittings = append(s.Fittings, folio.Fitting{Name: long + string(rune('0'+i)), Kind: k, Place: place.Place{Across: place.Left, Along: place.Head,
			Offset: units.Point{X: units.Length(i%8) * 80 * mm, Y: units.Length(i/8) * 80 * mm}}})
	}
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	told := false
	for step := range p.Steps() {
		text := step.Text(units.Format{Ruler: units.WholeMillimetres})
		if len(text) > 4096 {
			t.Fatalf("a step of %d characters: %.200s", len(text), text)
		}
		told = told || strings.Contains(text, "nnn...")
	}
	if !told {
		t.Error("no step tells a name")
	}
	for f := range p.Fittings() {
		if len(f.Name()) != len(long)+1 || len(f.Label()) > 64 {
			t.Fatalf("a name of %d, told as %d characters", len(f.Name()), len(f.Label()))
		}
	}
}
