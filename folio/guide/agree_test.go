package guide_test

import (
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/rule"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

// A length that lies between the graduations of the ruler is the same in the words
// of a step, in its picture and in the hand-out: magnets 64.65 mm in from an edge and a
// window's 24.75 mm, on a ruler of half millimetres, are not told as 5 and 25.
func TestWordsSayWhatPicturesSay(t *testing.T) {
	metric := folio.Spec{Cover: units.Size{W: 150 * mm, H: 200 * mm}, Spine: rule.Spine{Width: 18 * mm}, Form: boards.ForeEdgeFlap,
		Rulers: rule.Rulers{Main: units.HalfMillimetres}, Magnets: closing.Magnets{Diameter: 8 * mm, Thickness: mm, Inset: 635 * mm / 100},
		Fittings: []folio.Fitting{{Name: "strip", Kind: folio.Folded{Kind: pocket.FoldedStrip{Content: pocket.IDCard(), Notch: pocket.ThumbNotch{Width: 20 * mm, Depth: 10 * mm}}}}}}
	inches := metric
	inches.Cover, inches.Spine.Width, inches.Rulers.Main = units.MustParseSize("6 x 8 in"), 3*inch/4, units.Sixteenths
	inches.Magnets = closing.Magnets{Diameter: 5 * inch / 16, Thickness: inch / 16, Inset: 17 * inch / 64}
	inches.Fittings = []folio.Fitting{{Name: "strip", Kind: folio.Folded{Kind: pocket.FoldedStrip{Content: pocket.IDCard(), Notch: pocket.ThumbNotch{Width: 3 * inch / 4, Depth: 25 * inch / 64}}}}}
	wordsSayWhatPicturesSay(t, metric, "mm")
	wordsSayWhatPicturesSay(t, inches, "in")
}

func wordsSayWhatPicturesSay(t *testing.T, s folio.Spec, unit string) {
	t.Helper()
	p := build(t, s)
	sheet := squeezed(guide.HandOut(p, guide.PrintOptions{}).AppendPlain(nil))
	between := 0
	for st := range p.Steps() {
		if st.Task == work.TaskMeasure || st.Task == work.TaskCheck {
			continue
		}
		pic, ok := guide.Step(p, st.Number, guide.Options{})
		r, bad := readPicture(pic, ok)
		if bad != "" {
			t.Fatal(bad)
		}
		if strings.Contains(pic.Description(), "~") || !strings.Contains(sheet, squeezed([]byte(pic.Description()))) {
			t.Errorf("step %d is told as %q", st.Number, pic.Description())
		}
		var at []units.Length // what is bored or cut, from the left
		for _, a := range st.Do {
			switch a := a.(type) {
			case work.Sink:
				at = append(at, a.Middle.X)
			case work.Open:
				at = append(at, a.Area.Min.Y)
			}
		}
		for _, x := range at {
			if !s.Rulers.Main.Has(x) {
				between++
			}
			i := slices.IndexFunc(r.texts, func(r readText) bool { v, ok := figureOf(r.s, unit); return ok && v == nanos(x) })
			if i < 0 {
				t.Errorf("the picture of step %d does not say %v", st.Number, x)
			} else if !strings.Contains(pic.Description(), " "+r.texts[i].s+" "+unit) {
				t.Errorf("step %d does not say %s %s: %q", st.Number, r.texts[i].s, unit, pic.Description())
			}
		}
	}
	if between < 3 {
		t.Errorf("only %d places between graduations", between)
	}
}
