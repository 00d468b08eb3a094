package fit_test

import (
	"context"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/fit"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// BenchmarkSmallestPrintAndCard is the smallest folio for a print and a card.
func BenchmarkSmallestPrintAndCard(b *testing.B) {
	b.ReportAllocs()
	print := pocket.Content{Name: "print", Size: units.MustParseSize("4 x 6 in"), Thickness: units.Millimetre / 4}
	for b.Loop() {
		if l, err := fit.Smallest(context.Background(), folio.Spec{}, fit.Budget{}, print, pocket.IDCard()); err != nil || !l.Complete() {
			b.Fatal(err)
		}
	}
}

// BenchmarkWhere is where a card goes in the keepsake.
func BenchmarkWhere(b *testing.B) {
	b.ReportAllocs()
	p, err := folio.Build(keepsake())
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		for range fit.Of(p).Where(context.Background(), fit.Budget{}, pocket.IDCard()) {
		}
	}
}

// BenchmarkAll lays a print and a card into the keepsake.
func BenchmarkAll(b *testing.B) {
	b.ReportAllocs()
	p, err := folio.Build(keepsake())
	if err != nil {
		b.Fatal(err)
	}
	print := pocket.Content{Size: units.MustParseSize("2 x 3 in"), Thickness: units.Millimetre / 4}
	for b.Loop() {
		if _, err := fit.Of(p).All(context.Background(), fit.Budget{}, print, pocket.IDCard()); err != nil {
			b.Fatal(err)
		}
	}
}
