package guide_test

import (
	"testing"

	"boardwrap.example/folio/guide"
)

// A hand-out of a usual folio with its layout: 50 ms and 1 MB would be too much.
func BenchmarkHandOut(b *testing.B) {
	p := build(b, crewSpec())
	o := guide.PrintOptions{Layout: laid(b, p)}
	for _, w := range []struct {
		name  string
		write func(*guide.Document, []byte) []byte
	}{
		{"HTML", (*guide.Document).AppendHTML}, {"Markdown", (*guide.Document).AppendMarkdown}, {"plain", (*guide.Document).AppendPlain},
	} {
		b.Run(w.name, func(b *testing.B) {
			b.ReportAllocs()
			var dst []byte
			for b.Loop() {
				dst = w.write(guide.HandOut(p, o), dst[:0])
			}
			b.ReportMetric(float64(len(dst)), "bytes")
		})
	}
}

func BenchmarkTemplates(b *testing.B) {
	p := build(b, crewSpec())
	b.ReportAllocs()
	var dst []byte
	for b.Loop() {
		dst = guide.Templates(p, guide.PrintOptions{}).AppendHTML(dst[:0])
	}
}
