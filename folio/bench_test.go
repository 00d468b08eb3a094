package folio_test

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// keepsake is the folio of examples/keepsake, in inches.
func keepsake() folio.Spec {
	s := withStrip(
		folio.Fitting{Name: "strip", Panel: boards.LeftCover, Stock: "card stock", Kind: strip("3 7/8 in", "7 7/8 in", "10 1/2 in")},
		folio.Fitting{Name: "mat", StandsOn: "strip", Kind: folio.Mat{Size: units.MustParseSize("3 1/2 x 5 3/4 in")}},
		folio.Fitting{Name: "frame", Stock: "card stock", Kind: folio.Frame{Picture: pocket.Content{Size: units.MustParseSize("3 1/2 x 5 in"), Thickness: 260 * units.Micrometre}}},
		folio.Fitting{Name: "badge", Panel: boards.LeftCover, Outside: true, Kind: folio.Ornament{Size: units.MustParseSize("1 x 1 in"), Thickness: units.Inch / 32}},
	)
	s.Covering.Sheets = []stock.Sheet{{Size: units.MustParseSize("12 x 12 in")}}
	s.Liner.Sheets = []stock.Sheet{{Size: units.MustParseSize("8 1/2 x 11 in")}}
	s.Stocks = []stock.Stock{{Name: "card stock", Caliper: 12 * units.Thou, Sheets: []stock.Sheet{{Size: units.MustParseSize("12 x 12 in")}}}}
	return s
}

func BenchmarkBuildKeepsake(b *testing.B) {
	s := keepsake()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := folio.Build(s); err != nil {
			b.Fatal(err)
		}
	}
}

// The same folio with its sizes by relation, in the order that needs most work:
// everything follows from what comes after it.
func BenchmarkBuildByRelation(b *testing.B) {
	s := keepsake()
	s.Fittings = []folio.Fitting{
		{Name: "label", Kind: folio.Mat{}, Size: place.Sizing{W: place.Relation{Of: place.OfFitting, Fitting: "strip", Less: 3 * units.Inch}, H: place.Relation{Of: place.OfFitting, Fitting: "strip", Less: 5 * units.Inch}}},
		{Name: "strip", Panel: boards.LeftCover, Stock: "card stock", Size: place.Filling(place.OfPanel, 0), Kind: folio.Folded{Kind: pocket.FoldedStrip{Content: pocket.IDCard().Turned(), Hem: units.Inch / 2}}},
		{Name: "mat", StandsOn: "strip", Kind: folio.Mat{}, Size: place.Filling(place.OfGround, units.Inch/8)},
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := folio.Build(s); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkBuildCase(b *testing.B) {
	s := keepsake()
	s.Fittings = nil
	b.ReportAllocs()
	for b.Loop() {
		if _, err := folio.Build(s); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkRefit(b *testing.B) {
	p, err := folio.Build(keepsake())
	if err != nil {
		b.Fatal(err)
	}
	m := refit.Measured{Width: units.MustParse("10 3/8 in"), Height: units.MustParse("6 1/4 in")}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := p.Refit(m); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSteps(b *testing.B) {
	p, err := folio.Build(keepsake())
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		for range p.Steps() {
		}
	}
}

// With all its sentences.
func BenchmarkStepsTold(b *testing.B) {
	p, err := folio.Build(keepsake())
	if err != nil {
		b.Fatal(err)
	}
	var text []byte
	b.ReportAllocs()
	for b.Loop() {
		for s := range p.Steps() {
			text = s.Append(text[:0], units.Format{})
		}
	}
}
