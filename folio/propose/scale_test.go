package propose_test

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/propose"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// free measures what is free on each board that carries something: the least
// margin, and the least distance between two fittings.
func free(p *folio.Plan) (margins, gaps map[boards.Role]units.Length) {
	margins, gaps = map[boards.Role]units.Length{}, map[boards.Role]units.Length{}
	all := slices.DeleteFunc(slices.Collect(p.Fittings()), folio.Fitted.Outside)
	for i, f := range all {
		panel, _ := p.Panel(f.Panel(), false)
		r := f.Rect()
		least := min(r.Min.X-panel.Min.X, panel.Max.X-r.Max.X, r.Min.Y-panel.Min.Y, panel.Max.Y-r.Max.Y)
		if was, ok := margins[f.Panel()]; !ok || least < was {
			margins[f.Panel()] = least
		}
		for _, o := range all[:i] {
			if o.Panel() != f.Panel() {
				continue
			}
			q := o.Rect()
			gap := max(q.Min.X-r.Max.X, r.Min.X-q.Max.X, q.Min.Y-r.Max.Y, r.Min.Y-q.Max.Y)
			if was, ok := gaps[f.Panel()]; !ok || gap < was {
				gaps[f.Panel()] = gap
			}
		}
	}
	return margins, gaps
}

// A design for one cover is one for every larger cover: everything goes in, closes
// and is held there, and no margin and no distance is less. For a smaller cover the
// family names what goes in no longer, or the case that cannot be.
func TestProposalsScale(t *testing.T) {
	grew, related, named := 0, 0, 0
	proptest.Run(t, 60, func(ps *gopter.Properties) {
		ps.Property("what is proposed scales", prop.ForAll(func(r propose.Request) string {
			r.Limits = propose.Limits{}
			a, err := propose.Folios(context.Background(), r, propose.Budget{Steps: 2_000_000})
			if err != nil {
				return err.Error()
			}
			for p := range a.All() {
				spec := p.Spec()
				step := spec.WithDefaults().Rulers.Board.Step()
				if step < mm {
					step = mm
				}
				margin, between := r.Taste.Margin, r.Taste.Between
				if margin == 0 && between == 0 {
					margin, between = 6*mm, 6*mm
				}
				margins, gaps := free(p.Plan())
				for role, m := range margins {
					if gap, ok := gaps[role]; m < max(margin, 0) || ok && gap < max(between, 0) {
						return fmt.Sprintf("on the %v a margin of %v and %v between", role, m, gap)
					}
				}
				for _, f := range spec.Fittings {
					if f.Place.Across == place.Even || f.Place.Along == place.Even {
						related++
						break
					}
				}
				covers := []units.Size{spec.Cover.Plus(10*step, 6*step), spec.Cover.Plus(spec.Cover.W/step/2*step, spec.Cover.H/step/2*step), spec.Cover.Plus(-4*step, -4*step)}
				family, err := fit.FamilyOf(context.Background(), spec, covers...)
				if err != nil {
					return err.Error()
				}
				for i, row := range family.Rows() {
					if i == 2 {
						if row.Plan() == nil && row.Err() == nil {
							return "no plan and no reason"
						}
						for m := range row.Misfits() {
							if _, ok := m.Content(); !ok {
								return "no content of " + m.String()
							}
							named++
						}
						continue
					}
					if row.Plan() == nil {
						return fmt.Sprintf("a cover of %v instead of %v: %v", row.Cover(), spec.Cover, row.Err())
					}
					ms, gs := free(row.Plan())
					for role := range margins {
						// A place is even but for a step of the ruler.
						slack := row.Plan().Spec().Rulers.Fitting.Step()
						if ms[role] < margins[role]-slack || gs[role] < gaps[role]-slack {
							return fmt.Sprintf("a cover of %v instead of %v: on the %v margins of %v instead of %v, between %v instead of %v", row.Cover(), spec.Cover, role, ms[role], margins[role], gs[role], gaps[role])
						}
						if gs[role] > gaps[role]+slack {
							grew++
						}
					}
				}
			}
			return ""
		}, anyRequest()))
	})
	if least := proptest.Cases(60); related < least/2 || grew < least/2 || named < least/4 {
		t.Errorf("only %d with even places, %d distances that grew, %d named", related, grew, named)
	}
}

// What touches because nothing has to be between does not overlap on any larger cover,
// however the middles of what is odd and what is even are rounded.
func TestTouchingStaysApart(t *testing.T) {
	for _, order := range []propose.Order{propose.Centred, propose.LinedUp} {
		// Two mats of 30 x 36 mm over one of 60 x 51, and beside them one of 47 x 87.
		r := propose.Request{Case: metric(), Without: but(propose.Mat), Taste: propose.Taste{Between: units.None, Margin: units.None, Order: order}}
		for i, size := range [...]units.Size{{W: 24 * mm, H: 30 * mm}, {W: 24 * mm, H: 30 * mm}, {W: 54 * mm, H: 45 * mm}, {W: 41 * mm, H: 81 * mm}} {
			r.Things = append(r.Things, propose.Thing{Content: pocket.Content{Name: string(rune('a' + i)), Size: size}, Upright: true, Group: "crew", Sticks: true})
		}
		p, ok := asked(t, r).Of(propose.Smallest)
		if !ok || !p.Complete() {
			t.Fatal("none")
		}
		for more := range units.Length(16) {
			s := p.Spec()
			s.Cover = s.Cover.Plus(more%4*mm, more/4*mm)
			if plan, err := folio.Build(s); err != nil {
				t.Errorf("%v, a cover of %v instead of %v: %v", order, s.Cover, p.Cover(), err)
			} else if _, gaps := free(plan); gaps[boards.LeftCover] < 0 || gaps[boards.RightCover] < 0 {
				t.Errorf("%v, a cover of %v: %v between", order, s.Cover, gaps)
			}
		}
	}
}

// Where what may be covered of a board is reckoned too small, what lies there still has its
// margins and what must be between, 6 mm, on the board that there is.
func TestRoughLeavesWhatMustBeFree(t *testing.T) {
	some := 0
	for k := range units.Length(proptest.Cases(16)) {
		r := propose.Request{Case: lined(3*mm, 0), Things: []propose.Thing{
			{Content: pocket.Content{Name: "bow badge", Size: units.Size{W: 22*mm + k*mm/4, H: 22*mm + mm/4}}, Group: "crew"},
			{Content: pocket.Content{Name: "cox badge", Size: units.Size{W: 22*mm + mm/4, H: 29*mm + k*mm/4}, Thickness: 9 * mm / 10}, Sticks: true, Upright: true},
		}}
		r.Case.Form = [...]boards.Form{boards.ThreePanels, boards.FourPanelZ}[k%2]
		a, err := propose.Folios(context.Background(), r, propose.Budget{Steps: 100_000})
		if err != nil {
			t.Fatal(err)
		}
		for p := range a.All() {
			margins, gaps := free(p.Plan())
			for role, gap := range gaps {
				if some++; gap < 6*mm {
					t.Errorf("%d, %v: %v between on the %v", k, p.Aim(), gap, role)
				}
			}
			for role, margin := range margins {
				if margin < 6*mm {
					t.Errorf("%d, %v: a margin of %v on the %v", k, p.Aim(), margin, role)
				}
			}
			if bad := crafted(p); bad != "" {
				t.Errorf("%d, %v: %s", k, p.Aim(), bad)
			}
		}
	}
	if some < proptest.Cases(16)/4 {
		t.Errorf("only %d lie beside each other", some)
	}
}
