package layout_test

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"boardwrap.example/folio/layout"
	"boardwrap.example/internal/mendtest"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Each limit of the package is taken at it, and refused above it. What makes a
// long layout at the limit is not made: it is laid out elsewhere, in long runs.
func TestLimitsOfJobs(t *testing.T) {
	try := func(change func(j *layout.Job, n int)) func(n int64) error {
		return func(n int64) error {
			j := soundJob()
			change(&j, int(n))
			ctx, stop := context.WithCancel(context.Background())
			stop() // what is wrong is found before anything is laid out
			_, err := layout.Lay(ctx, j, layout.Budget{Steps: 1})
			return err
		}
	}
	other := func(err error) error { // the end of the context, or sheets that lack
		if refusedWith(err, check.TooMany) {
			return err
		}
		return nil
	}
	bare := keepsake(t)
	one := layout.LoosePiece{Name: "slip", Material: "cloth", Size: units.Size{W: units.Inch, H: units.Inch}, Quantity: layout.NoCopies}
	sheet := soundJob().Materials[0].Sheets[0]
	mendtest.Limits(t, map[string]mendtest.Limit{
		"MostPieces of one": {At: layout.MostPieces, Path: "pieces[0].quantity", Code: check.TooMany, Also: other, Try: try(func(j *layout.Job, n int) { j.Pieces = j.Pieces[:1]; j.Pieces[0].Quantity = n })},
		"MostPieces in all": {At: layout.MostPieces, Path: "", Code: check.TooMany, Also: other, Try: try(func(j *layout.Job, n int) {
			j.Pieces[0].Quantity, j.Pieces[1].Quantity = min(n, layout.MostPieces), n-min(n, layout.MostPieces)
		}), Far: 2 * layout.MostPieces},
		"MostKinds of pieces": {At: layout.MostKinds, Path: "pieces", Code: check.TooMany, Also: other, Try: try(func(j *layout.Job, n int) { j.Pieces = slices.Repeat([]layout.LoosePiece{one}, n) })},
		"MostKinds of names":  {At: layout.MostKinds, Path: "except", Code: check.TooMany, Also: other, Try: try(func(j *layout.Job, n int) { j.Except = make([]string, n) })},
		"MostKinds of materials": {At: layout.MostKinds, Path: "materials", Code: check.TooMany, Also: other, Try: try(func(j *layout.Job, n int) {
			for i := len(j.Materials); i < n; i++ {
				j.Materials = append(j.Materials, layout.Material{Name: fmt.Sprint(i)})
			}
		})},
		"MostKinds of folios": {At: layout.MostKinds, Path: "folios", Code: check.TooMany, Also: other, Try: try(func(j *layout.Job, n int) {
			*j = layout.Job{Folios: slices.Repeat([]layout.Folio{{Plan: bare, Copies: layout.NoCopies}}, n)}
		})},
		"MostKinds of sheets of one": {At: layout.MostKinds, Path: "materials[0].sheets", Code: check.TooMany, Also: other, Far: 5 * layout.MostKinds, Try: try(func(j *layout.Job, n int) {
			j.Materials[0].Sheets = slices.Repeat([]layout.SheetKind{sheet}, n)
		})},
		"MostSheetKinds": {At: layout.MostSheetKinds, Path: "materials.sheets", Code: check.TooMany, Also: other, Try: try(func(j *layout.Job, n int) {
			j.Materials[1].Sheets = nil
			j.Pieces = nil
			for n > 0 {
				k := min(n, layout.MostKinds)
				j.Materials = append(j.Materials, layout.Material{Name: fmt.Sprint("cloth ", n), Sheets: slices.Repeat([]layout.SheetKind{sheet}, k)})
				n -= k
			}
			j.Materials = j.Materials[2:]
		})},
	})
}

func refusedWith(err error, code check.Code) bool {
	list, ok := err.(*check.Error)
	if !ok {
		return false
	}
	_, found := list.Find("", code)
	return found
}
