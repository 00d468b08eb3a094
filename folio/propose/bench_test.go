package propose_test

import (
	"context"
	"testing"

	"boardwrap.example/folio/propose"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
)

// The usual case, six prints, a card and a note, for all aims but that of sheets.
func BenchmarkUsual(b *testing.B) { bench(b, propose.Request{Things: usualThings(b)}) }

// The usual case with sheets at hand, which are counted.
func BenchmarkUsualSheets(b *testing.B) {
	r := propose.Request{Things: usualThings(b), Case: metric()}
	r.Case.Board.Sheets = []stock.Sheet{{Size: units.MustParseSize("500 x 700 mm")}}
	r.Case.Covering.Sheets, r.Case.Liner.Sheets = r.Case.Board.Sheets, r.Case.Board.Sheets
	bench(b, r)
}

func bench(b *testing.B, r propose.Request) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := propose.Folios(context.Background(), r, propose.Budget{}); err != nil {
			b.Fatal(err)
		}
	}
}
