package layout_test

import (
	"errors"
	"testing"

	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// One thing that is wrong with a job is enough for whoever asks about it: all say the
// same of it.
func TestEverybodyRefusesTheSame(t *testing.T) {
	for name, spoil := range map[string]func(j *layout.Job){
		"fewer than none":      func(j *layout.Job) { j.Folios[1].Copies = -2 },
		"no plan":              func(j *layout.Job) { j.Folios[1].Plan = nil },
		"a piece of nothing":   func(j *layout.Job) { j.Pieces[0].Size.W = 0 },
		"a piece without end":  func(j *layout.Job) { j.Pieces[0].Quantity = layout.MostPieces + 1 },
		"a material twice":     func(j *layout.Job) { j.Materials = append(j.Materials, j.Materials[0]) },
		"a material nowhere":   func(j *layout.Job) { j.Pieces[0].Material = "velvet" },
		"sheets of nothing":    func(j *layout.Job) { j.Materials[0].Sheets[0].Size.H = -1 },
		"a trim without end":   func(j *layout.Job) { j.Materials[0].Sheets[0].Trim = 2 * units.Longest },
		"a kerf below nothing": func(j *layout.Job) { j.Cutter.Kerf = -1 },
	} {
		job := keepsakeJob(t, 1)
		job.Folios = append(job.Folios, layout.Folio{Plan: keepsake(t), Copies: 1})
		job.Pieces = []layout.Piece{{Name: "pad", Material: "card", Size: inches("3 x 3"), Quantity: 1, Grain: stock.GrainAny}}
		spoil(&job)
		where := ""
		for asked, err := range map[string]error{
			"layout": second(layout.Lay(t.Context(), job, layout.Budget{Steps: 1})), "how many": second(layout.HowMany(t.Context(), job, 0, layout.Budget{Steps: 1})),
			"one more": second(layout.OneMore(t.Context(), job, 0, layout.Budget{Steps: 1})), "savings": third(layout.Savings(t.Context(), job, layout.Tolerance{}, layout.Budget{Steps: 1})),
		} {
			var bad *check.Error
			if !errors.As(err, &bad) || bad.Len() != 1 {
				t.Errorf("%s, %s: %v", name, asked, err)
				continue
			}
			for v := range bad.All() {
				if at := v.Path + " " + string(v.Code); where != "" && at != where {
					t.Errorf("%s, %s: %s, another one %s", name, asked, at, where)
				} else {
					where = at
				}
			}
		}
	}
}

func second[T any](_ T, err error) error { return err }

func third[T, U any](_ T, _ U, err error) error { return err }
