package guide_test

import (
	"testing"

	"boardwrap.example/folio/guide"
	"boardwrap.example/units"
)

// Each picture of the crew's folio, drawn to go on a page and written.
func BenchmarkPictures(b *testing.B) {
	p := build(b, crewSpec())
	fit := guide.Options{Fit: units.Size{W: 180 * mm, H: 120 * mm}}
	for _, d := range drawings(p) {
		if _, ok := d.draw(fit); !ok {
			continue
		}
		b.Run(d.name, func(b *testing.B) {
			b.ReportAllocs()
			var dst []byte
			for b.Loop() {
				pic, _ := d.draw(fit)
				dst = pic.AppendSVG(dst[:0])
			}
		})
	}
}

func BenchmarkSheet(b *testing.B) {
	p := build(b, crewSpec())
	l := laid(b, p)
	b.ReportAllocs()
	for b.Loop() {
		if _, ok := guide.Sheet(l, 1, guide.Options{}); !ok {
			b.Fatal("no picture")
		}
	}
}
