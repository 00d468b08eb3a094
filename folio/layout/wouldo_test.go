package layout_test

import (
	"context"
	"testing"

	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/mendtest"
	"boardwrap.example/units"
)

// soundJob is a job with everything that can be said in one.
func soundJob() layout.Job {
	in := units.Inch
	return layout.Job{
		Pieces: []layout.LoosePiece{
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
	again := func(j layout.Job) error {
		_, err := layout.Lay(context.Background(), j, layout.Budget{Steps: 1000})
		return err
	}
	mendtest.Many(t, 500, 1, mendtest.AdviceOf(t, ".", "../../units/check"), func(tally *mendtest.Tally, from int64) {
		j := mendtest.Spoil(soundJob(), from)
		offers := []any{layout.SheetKind{Size: units.Size{W: 20 * units.Inch, H: 30 * units.Inch}, Count: layout.Unlimited}, soundJob().Materials[0]}
		for _, m := range j.Materials {
			offers = append(offers, m.Name)
		}
		mendtest.Value(tally, j, again(j), offers, again)
	})
}

// What is asked about a job besides is spoilt: which folio of it, how far its
// lengths may change, how long it may take.
func TestWhatWouldDoOfQuestions(t *testing.T) {
	type asked struct {
		layout.Job
		Folio     int
		Tolerance layout.Tolerance
		Budget    layout.Budget
	}
	bounded := func(b layout.Budget) layout.Budget {
		if b.Steps > 0 {
			b.Steps = 1
		}
		return b
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	for name, ask := range map[string]func(asked) error{
		"one more": func(a asked) error {
			_, err := layout.OneMore(ctx, a.Job, a.Folio, bounded(a.Budget))
			return err
		},
		"how many": func(a asked) error {
			_, err := layout.HowMany(ctx, a.Job, a.Folio, bounded(a.Budget))
			return err
		},
		"savings": func(a asked) error {
			_, _, err := layout.Savings(ctx, a.Job, a.Tolerance, bounded(a.Budget))
			return err
		},
	} {
		t.Run(name, func(t *testing.T) {
			sound := asked{Job: keepsakeJob(t, 1), Folio: 0, Tolerance: layout.Tolerance{Width: units.Inch / 8, Height: units.Inch / 8}, Budget: layout.Budget{Steps: 1}}
			if err := ask(sound); err != nil {
				t.Fatal(err)
			}
			mendtest.Many(t, 100, 1, mendtest.AdviceOf(t, ".", "../../units/check"), func(tally *mendtest.Tally, from int64) {
				a := mendtest.Spoil(sound, from)
				offers := []any{layout.SheetKind{Size: inches("20 x 30"), Count: layout.Unlimited}, layout.Material{Name: "cloth", Sheets: []layout.SheetKind{sheets("20 x 30", layout.Unlimited, stock.GrainUnknown)}}}
				for _, m := range a.Materials {
					offers = append(offers, m.Name)
				}
				offers = append(offers, sound.Folios[0])
				mendtest.Value(tally, a, ask(a), offers, ask)
			})
		})
	}
}
