package propose_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/propose"
	"boardwrap.example/internal/mendtest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Each limit on a request is taken at it, and refused above it and far above.
func TestLimitsOfRequests(t *testing.T) {
	with := func(change func(r *propose.Request, n int)) func(n int64) error {
		return func(n int64) error {
			r := propose.Request{Things: []propose.Thing{{Content: pocket.IDCard()}}}
			change(&r, int(n))
			_, err := propose.Folios(context.Background(), r, propose.Budget{Steps: 1})
			return err
		}
	}
	mendtest.Limits(t, map[string]mendtest.Limit{
		"MostThings": {At: propose.MostThings, Path: "things", Code: check.TooMany, Try: with(func(r *propose.Request, n int) {
			r.Things = things(n, 1, propose.EitherSight)
		})},
		"MostCopies": {At: propose.MostCopies, Path: "things", Code: check.TooMany, Try: with(func(r *propose.Request, n int) {
			r.Things = nil
			for ; n > 0; n -= 100 {
				r.Things = append(r.Things, propose.Thing{Content: pocket.IDCard(), Count: min(n, 100)})
			}
		})},
		"MostMaterials": {At: propose.MostMaterials, Path: "limits.materials", Code: check.TooMany, Try: with(func(r *propose.Request, n int) {
			for i := range n {
				r.Limits.Materials = append(r.Limits.Materials, layout.Material{
					Name: fmt.Sprint("paper ", i), Caliper: mm / 5, Sheets: []layout.SheetKind{{Size: units.Size{W: 900 * mm, H: 900 * mm}, Count: layout.Unlimited}},
				})
			}
		})},
		"MostForms": {At: propose.MostForms, Path: "forms", Code: check.TooMany, Try: with(func(r *propose.Request, n int) {
			r.Forms = make([]propose.Form, n)
		})},
		"MostBytes": {At: propose.MostBytes, Path: "things", Code: check.TooLarge, Try: func(n int64) error {
			_, err := propose.ParseThings("ID-1 card" + strings.Repeat(" ", int(n)-len("ID-1 card")))
			return err
		}},
	})
}
