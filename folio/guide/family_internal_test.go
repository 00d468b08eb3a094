package guide

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/units"
)

// Each gap and each board of a row has the letter of a measure that is as wide as it
// is, also the last one.
func TestLettersOfRows(t *testing.T) {
	most := 0
	for _, form := range []boards.Form{boards.SpineBoard, boards.ForeEdgeFlap, boards.DoubleSpineGate} {
		p, err := folio.Build(folio.Spec{Title: "Log books", Form: form, Cover: units.MustParseSize("6 x 8 in"), Spine: rule.Spine{Width: units.Inch / 2}})
		if err != nil {
			t.Fatal(err)
		}
		l := lettersOf([]*folio.Plan{p}, p)
		i := 0
		for g := range p.Gaps() {
			if w := l.measures[l.gaps[i]].of(p); w != g.Width() {
				t.Errorf("%v: gap %d is lettered as %v wide; want %v", form, i, w, g.Width())
			}
			i++
		}
		if len(l.gaps) != i {
			t.Errorf("%v: %d gaps have letters; want %d", form, len(l.gaps), i)
		}
		most = max(most, i)
		i = 0
		for b := range p.Boards() {
			if w := l.measures[l.boards[i]].of(p); w != b.Rect().Size().W {
				t.Errorf("%v: board %d is lettered as %v wide; want %v", form, i, w, b.Rect().Size().W)
			}
			i++
		}
		if len(l.boards) != i {
			t.Errorf("%v: %d boards have letters; want %d", form, len(l.boards), i)
		}
	}
	if most < 4 {
		t.Errorf("at most %d gaps", most)
	}
}
