package guide

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/units"
)

// Each gap and each board of a row has the letter of a measure that is as wide as it
// is, also the last one; there is none beyond.
func TestLettersOfRows(t *testing.T) {
	most := 0
	for _, form := range []boards.Form{boards.SpineBoard, boards.ForeEdgeFlap, boards.DoubleSpineGate} {
		p, err := folio.Build(folio.Spec{Title: "Log books", Form: form, Cover: units.MustParseSize("6 x 8 in"), Spine: rule.Spine{Width: units.Inch / 2}})
		if err != nil {
			t.Fatal(err)
		}
		l := lettersOf([]*folio.Plan{p})
		i := 0
		for g := range p.Gaps() {
			if w, ok := l.measures[l.gaps[i]].of(p); !ok || w != g.Width() {
				t.Errorf("%v: gap %d is lettered as %v wide, %t; want %v", form, i, w, ok, g.Width())
			}
			i++
		}
		if w, ok := gapWidth(i)(p); ok || w != 0 || len(l.gaps) != i {
			t.Errorf("%v: there is a gap after %d", form, i)
		}
		most = max(most, i)
		i = 0
		for b := range p.Boards() {
			if w, ok := l.measures[l.boards[i]].of(p); !ok || w != b.Rect().Size().W {
				t.Errorf("%v: board %d is lettered as %v wide, %t; want %v", form, i, w, ok, b.Rect().Size().W)
			}
			i++
		}
		if w, ok := boardWidth(i)(p); ok || w != 0 || len(l.boards) != i {
			t.Errorf("%v: there is a board after %d", form, i)
		}
	}
	if most < 4 {
		t.Errorf("at most %d gaps", most)
	}
}
