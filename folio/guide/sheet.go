package guide

import (
	"strconv"

	"boardwrap.example/folio/layout"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// Sheet draws the sheet of a layout that has a number, see
// [layout.LaidSheet.Number]: the cuts with the numbers of the steps of cutting that
// make them, the pieces with their sizes, the offcuts worth keeping. It returns
// false if the layout has no such sheet.
func Sheet(l *layout.Layout, number int, o Options) (Picture, bool) {
	if l == nil {
		return Picture{}, false
	}
	for s := range l.Sheets() {
		if s.Number() != number {
			continue
		}
		write := o.figures(l.Notation())
		title := "Sheet " + strconv.Itoa(number) + ", " + s.Material()
		describe := "A sheet of " + s.Material() + ", " + write.size(s.Size()) + ", with its cuts numbered in the order of work"
		if s.Times() > 1 {
			describe = strconv.Itoa(s.Times()) + " sheets of " + s.Material() + ", " + write.size(s.Size()) + ", cut alike, with their cuts numbered in the order of work"
		}
		cuts := numbered(l, s)
		return compose(title, describe+".", o, write, func(q pen) []*figure {
			f := newFigure(q)
			f.sheet(s, cuts, write)
			return []*figure{f}
		}), true
	}
	return Picture{}, false
}

// numbered returns the number of the step that makes the cut of each part of a
// sheet that is cut.
func numbered(l *layout.Layout, s layout.LaidSheet) map[int]int {
	cuts := map[int]int{} // only looked up
	for step := range l.Steps() {
		if step.Material() != s.Material() {
			continue
		}
		for part := range step.CutsOn(s.Number()) {
			cuts[part] = step.Number()
		}
	}
	return cuts
}

// sheet draws a sheet with its cuts.
func (f *figure) sheet(s layout.LaidSheet, cuts map[int]int, write figures) {
	whole := units.RectAt(units.Point{}, s.Size())
	f.rect(outline, nothing, whole)
	for i, part := range s.Parts() {
		if part.Use() == layout.Cut {
			f.line(knife, nothing, false, cutLine(part)...)
			f.balloon(strconv.Itoa(cuts[i]), part)
		}
	}
	for _, part := range s.Parts() {
		if part.Use() == layout.Offcut {
			f.rect(offcut, nothing, part.Rect())
			f.name("offcut "+write.text2(part.Rect().Size()), part.Rect(), nothing)
		}
	}
	for place := range s.Places() {
		text, of := "", nothing
		for w := range place.Pieces() {
			if _, ok := w.Folio(); ok && of == nothing {
				of = ofPiece(w.Piece())
			}
			if text == "" {
				text = w.Name()
			} else if text != w.Name() {
				text = w.Name() + " and others"
			}
		}
		f.rect(outline, of, place.Rect())
		f.name(text+" "+write.text2(place.Rect().Size()), place.Rect(), of)
	}
	f.chain(score.Head, []units.Length{0, whole.Max.X})
	f.chain(score.Left, []units.Length{0, whole.Max.Y})
}

// text2 writes a size without its unit.
func (f figures) text2(s units.Size) string { return f.bare.Size(s) }

// cutLine returns where the cut of a part runs; one that only takes off the
// edge runs along it.
func cutLine(p layout.CutPart) []units.Point {
	r := p.Rect()
	axis, at := p.CutAt()
	if axis == score.Upright {
		x := max(r.Min.X+at, r.Min.X)
		return []units.Point{{X: x, Y: r.Min.Y}, {X: x, Y: r.Max.Y}}
	}
	y := max(r.Min.Y+at, r.Min.Y)
	return []units.Point{{X: r.Min.X, Y: y}, {X: r.Max.X, Y: y}}
}

// balloon asks for the number of a cut in a circle beside its line.
func (f *figure) balloon(s string, part layout.CutPart) {
	f.balloons = append(f.balloons, balloon{s, cutLine(part)})
}
