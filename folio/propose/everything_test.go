package propose_test

import (
	"context"
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/propose"
	"boardwrap.example/internal/fuzztest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// allOfIt is each function and type of the package.
func allOfIt() []any {
	all := []any{
		propose.Folios, propose.AnyForm, propose.ParseThings,
		propose.Request{}, propose.Form{}, propose.Reason{}, propose.Budget{},
		propose.Proposal{}, propose.Unmet{}, propose.OtherForm{}, propose.Held{}, func() *propose.Proposals { return new(propose.Proposals) },
		propose.Aim(0), propose.Cause(0), propose.Holder(0), propose.Keeping(0), propose.Order(0), propose.Sight(0),
		// A request that is sound but for one of its parts, of things of any size
		// that lies on a folio: any values would hardly ever make one.
		func(ctx context.Context, part uint8, any propose.Request, sides [][2]uint8, things []propose.Thing, forms []bool) (*propose.Proposals, error) {
			r := soundRequest()
			r.Things, r.Without, r.Limits.Materials = r.Things[:0], nil, nil
			for i, s := range sides[:min(len(sides), 3)] {
				x := propose.Thing{Content: pocket.Content{Size: units.Size{W: (units.Length(s[0]) + 10) * mm, H: (units.Length(s[1]) + 10) * mm}}}
				if i < len(things) {
					t := things[i]
					x.Count, x.Sight, x.Keeping, x.Sticks, x.Upright, x.Group = 1+t.Count&3, t.Sight&1, t.Keeping&1, t.Sticks, t.Upright, t.Group
				}
				r.Things = append(r.Things, x)
			}
			for i, f := range propose.AnyForm() {
				if i < len(forms) && forms[i] && len(r.Forms) < 2 {
					r.Forms = append(r.Forms, f)
				}
			}
			switch part {
			case 0:
				r.Limits = any.Limits
			case 1:
				r.Taste = any.Taste
			case 2:
				r.Case = any.Case
			case 3:
				r.Things = append(r.Things, any.Things...)
			case 4:
				r.Forms = append(r.Forms, any.Forms...)
			case 5:
				r.Stock, r.Without = any.Stock, any.Without
			}
			return propose.Folios(ctx, r, propose.Budget{Steps: 20_000})
		},
	}
	all = append(all, fuzztest.Choices(slices.Collect(folio.Kinds())...)...)
	return append(all, fuzztest.Choices(slices.Collect(pocket.Kinds())...)...)
}

// FuzzEverything calls every function and method with any values at all.
func FuzzEverything(f *testing.F) { fuzztest.Everything(f, 6000, allOfIt()...) }

// Nothing that the package exports is left out of that.
func TestEverythingIsCalled(t *testing.T) { fuzztest.Complete(t, ".", allOfIt()...) }
