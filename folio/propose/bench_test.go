package propose_test

import (
	"context"
	"testing"

	"boardwrap.example/folio/propose"
)

// The usual case, six prints, a card and a note, for all aims.
func BenchmarkUsual(b *testing.B) {
	things, err := propose.ParseThings("6 photo 10 x 15 cm, 1 ID-1 card, 1 note")
	if err != nil {
		b.Fatal(err)
	}
	r := propose.Request{Things: things}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := propose.Folios(context.Background(), r, propose.Budget{}); err != nil {
			b.Fatal(err)
		}
	}
}
