package layout_test

import (
	"context"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/mendtest"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"
)

// soundJob is a job with everything that can be said in one.
func soundJob() layout.Job {
	in := units.Inch
	return layout.Job{
		Pieces: []layout.Piece{
			{Name: "wrap", Material: "cloth", Size: units.Size{W: 12 * in, H: 8 * in}, Quantity: 3, Turn: layout.HalfTurn},
			{Name: "liner", Material: "paper", Size: units.Size{W: 9 * in, H: 6 * in}, Quantity: 4, Grain: stock.GrainAny},
		},
		Materials: []layout.Material{
			{Name: "cloth", Sheets: []layout.SheetKind{{Size: units.Size{W: 20 * in, H: 30 * in}, Count: layout.Unlimited, Price: usd(900), Trim: in / 8}}},
			{Name: "paper", Caliper: in / 100, Sheets: []layout.SheetKind{{Size: units.Size{W: 12 * in, H: 12 * in}, Count: 6, Grain: stock.GrainAlongHeight, Price: usd(60)}}, Cutter: layout.Cutter{LongestCut: 15 * in, Stack: in / 4}},
		},
		Cutter: layout.Cutter{Kerf: in / 32, LongestCut: 36 * in},
		Keep:   layout.Keep{Short: in, Long: 3 * in},
		Ruler:  units.Sixteenths,
	}
}

// A sound job is spoilt: paths lead to its fields, and what its violations say
// would do does.
func TestWhatWouldDoDoes(t *testing.T) {
	if _, err := layout.Lay(context.Background(), soundJob(), layout.Budget{Steps: 1000}); err != nil {
		t.Fatal(err)
	}
	var tally mendtest.Tally
	again := func(j layout.Job) error {
		_, err := layout.Lay(context.Background(), j, layout.Budget{Steps: 1000})
		return err
	}
	proptest.Run(t, 500, func(p *gopter.Properties) {
		p.Property("a spoilt job is laid out", prop.ForAll(func(from int64) bool {
			j := mendtest.Spoil(soundJob(), from)
			offers := []any{layout.SheetKind{Size: units.Size{W: 20 * units.Inch, H: 30 * units.Inch}, Count: layout.Unlimited}, soundJob().Materials[0]}
			for _, m := range j.Materials {
				offers = append(offers, m.Name)
			}
			mendtest.Value(&tally, j, again(j), offers, again)
			return true
		}, gen.Int64()))
	})
	tally.Check(t, 1, mendtest.AdviceOf(t, ".", "../../units/check")...)
}
