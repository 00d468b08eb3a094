package layout_test

import (
	"context"
	"errors"
	"fmt"
	"math/rand"
	"testing"

	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Inputs meant to hang or to swell: they come back whole, checked, at the
// least budget. (How long they take is for the benchmarks.)
func TestWorstInputs(t *testing.T) {
	r := rand.New(rand.NewSource(9))
	between := func(low, high units.Length) units.Length {
		l, _ := units.Of(low.Nanometres()+r.Int63n((high-low).Nanometres()), units.Nanometre)
		return l
	}
	big := layout.SheetKind{Size: units.Size{W: units.Longest, H: units.Longest}, Count: layout.Unlimited}
	paper := func(k ...layout.SheetKind) []layout.Material {
		return []layout.Material{{Name: "paper", Sheets: k}}
	}
	one := func(s units.Size, n int) layout.LoosePiece {
		return layout.LoosePiece{Name: "piece", Material: "paper", Size: s, Quantity: n, Grain: stock.GrainAny}
	}
	jobs := map[string]layout.Job{
		"nothing":                   {},
		"most pieces, the smallest": {Materials: paper(big), Pieces: []layout.LoosePiece{one(units.Size{W: units.Shortest, H: units.Shortest}, layout.MostPieces)}},
		"pieces as large as the sheet": {Materials: paper(big), Pieces: []layout.LoosePiece{one(big.Size, layout.MostPieces-1),
			one(units.Size{W: units.Millimetre, H: units.Longest}, 1)}},
		"strips of 1 mm": {Materials: paper(layout.SheetKind{Size: inches("12 x 12"), Count: layout.Unlimited}),
			Pieces: []layout.LoosePiece{one(units.Size{W: units.Millimetre, H: 12 * units.Inch}, layout.MostPieces)}},
		"none of very many": {Materials: paper(layout.SheetKind{Size: inches("12 x 12")}), Pieces: []layout.LoosePiece{one(inches("6 x 6"), layout.MostPieces)}},
	}
	many := layout.Job{Materials: paper(big), Cutter: layout.Cutter{Kerf: units.Millimetre + 1}}
	for range layout.MostKinds {
		many.Pieces = append(many.Pieces, one(units.Size{W: between(units.Metre/10, units.Metre), H: between(units.Metre/10, units.Metre)}, 2))
	}
	jobs["most kinds of piece"] = many
	kinds := layout.Job{Materials: paper(), Pieces: many.Pieces[:200], Ruler: units.Sixteenths}
	for range layout.MostKinds {
		kinds.Materials[0].Sheets = append(kinds.Materials[0].Sheets, layout.SheetKind{Count: r.Intn(3), Offcut: r.Intn(2) == 0, Trim: between(0, units.Inch),
			Size: units.Size{W: between(units.Metre/5, 2*units.Metre), H: between(units.Metre/5, 2*units.Metre)}, Grain: stock.SheetGrain(r.Intn(3))})
	}
	jobs["most kinds of sheet"] = kinds
	for name, job := range jobs {
		t.Run(name, func(t *testing.T) {
			l, err := layout.Lay(context.Background(), job, layout.Budget{Steps: 1})
			var bad *check.Error
			if l == nil || err != nil && !errors.As(err, &bad) {
				t.Fatal(err)
			}
			mustHold(t, job, l)
			if name == "none of very many" {
				// There are sheets of that kind, just none left.
				if v, ok := bad.Find("materials[0].sheets", layout.NotEnough); !ok || bad.Len() != 1 {
					t.Errorf("%v: %v", v, err)
				}
			}
		})
	}
}

// One piece too many, one kind too many: an error, and no work.
func TestLimits(t *testing.T) {
	job := hand(layout.Material{Sheets: []layout.SheetKind{sheets("12 x 12", layout.Unlimited, 0)}},
		piece("1 x 1", layout.MostPieces, stock.GrainAny, 0), piece("1 x 2", 1, stock.GrainAny, 0))
	for _, job := range []layout.Job{job, {Pieces: make([]layout.LoosePiece, layout.MostKinds+1)}, {Materials: make([]layout.Material, layout.MostKinds+1)},
		{Folios: []layout.Folio{{Plan: keepsake(t), Copies: layout.MostPieces}}, Materials: keepsakeJob(t, 1).Materials}} {
		l, err := layout.Lay(context.Background(), job, layout.Budget{})
		var bad *check.Error
		if l != nil || !errors.As(err, &bad) {
			t.Fatalf("no error beyond the limits: %v", err)
		}
		if _, ok := bad.Find("", check.TooMany); !ok {
			t.Error(err)
		}
	}
}

func BenchmarkLay(b *testing.B) {
	for _, copies := range []int{1, 50} {
		job := keepsakeJob(b, copies)
		b.Run(fmt.Sprint("keepsakes=", copies), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				l, err := layout.Lay(context.Background(), job, layout.Budget{})
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(float64(l.Bought()), "sheets")
				b.ReportMetric(float64(l.Bound()), "bound")
			}
		})
	}
}

func BenchmarkSteps(b *testing.B) {
	l := lay(b, keepsakeJob(b, 50))
	b.ReportAllocs()
	for b.Loop() {
		for s := range l.Steps() {
			_ = s.Text(units.Format{})
		}
	}
}

func BenchmarkSavings(b *testing.B) {
	job := wraps(b, []int{50}, sheets("12 x 16", layout.Unlimited, stock.GrainAlongHeight))
	for b.Loop() {
		if _, _, err := layout.Savings(context.Background(), job, layout.Tolerance{Width: units.Inch / 2, Height: units.Inch / 2, Margin: true}, layout.Budget{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkHowMany(b *testing.B) {
	job := keepsakeJob(b, 1)
	for i := range job.Materials {
		for k := range job.Materials[i].Sheets {
			job.Materials[i].Sheets[k].Count = 20
		}
	}
	for b.Loop() {
		y, err := layout.HowMany(context.Background(), job, 0, layout.Budget{})
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(y.Copies()), "copies")
	}
}
