package propose_test

import (
	"context"
	"fmt"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/propose"
	"boardwrap.example/folio/rule"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// things makes so many kinds of things, so many copies of each.
func things(kinds, copies int, sight propose.Sight) []propose.Thing {
	all := make([]propose.Thing, kinds)
	for i := range all {
		w := 20*mm + mm*units.Length(i)
		all[i] = propose.Thing{Count: copies, Sight: sight, Content: pocket.Content{
			Name: fmt.Sprint("thing ", i+1), Size: units.Size{W: w, H: 90*mm - w.Half(units.Down)}, Thickness: mm / 4,
		}}
	}
	return all
}

// What a stranger may ask for takes no more than its budget and a few plans: at
// each limit there is an answer with its reasons.
func TestHostile(t *testing.T) {
	one := func(w, h, thick units.Length, n int) []propose.Thing {
		return []propose.Thing{{Content: pocket.Content{Name: "thing", Size: units.Size{W: w, H: h}, Thickness: thick}, Count: n}}
	}
	const budget = 100_000
	for name, r := range map[string]propose.Request{
		"as many copies as may be": {Things: things(1, propose.MostCopies, propose.InView)},
		"as many kinds as may be":  {Things: things(propose.MostThings, 1, propose.EitherSight)},
		"many of many":             {Things: things(propose.MostThings, propose.MostCopies/propose.MostThings, propose.InView)},
		"many in one group": {Things: func() []propose.Thing {
			all := things(14, 2, propose.InView)
			for i := range all {
				all[i].Group = "crew"
			}
			return all
		}()},
		"a ruler of nanometres":      {Things: things(3, 2, propose.EitherSight), Case: folio.Spec{Rulers: rule.Rulers{Main: 1}}},
		"as thick as may be":         {Things: one(mm, mm, units.Longest, 1)},
		"as large as may be":         {Things: one(units.Longest, units.Longest, 0, 1)},
		"as long as may be":          {Things: one(units.Longest, units.Shortest, 0, 2)},
		"as small as may be":         {Things: one(units.Shortest, units.Shortest, units.Shortest, 40)},
		"no room":                    {Things: things(2, 1, propose.EitherSight), Limits: propose.Limits{Cover: units.Size{W: units.Shortest, H: units.Shortest}}},
		"no thickness":               {Things: things(2, 1, propose.EitherSight), Limits: propose.Limits{Thickness: units.Shortest}},
		"no box":                     {Things: things(2, 1, propose.EitherSight), Limits: propose.Limits{Into: propose.Space{Size: units.Size{W: mm, H: mm}, Depth: mm, Padding: units.Longest}}},
		"a letter, which must bend":  {Things: things(2, 1, propose.EitherSight), Limits: propose.Limits{Post: propose.Post{Service: "USPS", Format: "flat"}}},
		"no way":                     {Things: things(1, 1, propose.EitherSight), Without: []propose.Holder{0, 1, 2, 3, 4, 5, 6, 7}},
		"margins as wide as may be":  {Things: things(2, 1, propose.EitherSight), Taste: propose.Taste{Margin: units.Longest, Between: units.Longest}},
		"in view and together":       {Things: []propose.Thing{{Content: pocket.IDCard(), Count: 3, Sight: propose.InView, Keeping: propose.Together}}},
		"groups that must be parted": {Things: []propose.Thing{{Content: pocket.IDCard(), Count: 4, Sight: propose.InView, Group: "a"}}, Limits: propose.Limits{Cover: units.Size{W: 120 * mm, H: 200 * mm}}},
	} {
		if name == "many of many" && !proptest.Whole {
			continue // in a whole run
		}
		answer, err := propose.Folios(context.Background(), r, propose.Budget{Steps: budget})
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if bad := missaid(r, answer); bad != "" {
			t.Errorf("%s: %s", name, bad)
		}
		// Of each aim a plain folio is tried, in some plans of all fittings.
		if most := int64(budget + 4*40*propose.StepsOfFitting*(propose.MostCopies+2)); answer.Steps() > most {
			t.Errorf("%s: %d steps", name, answer.Steps())
		}
		n := 0
		for p := range answer.All() {
			if bad := sound(r, p) + within(r, p); bad != "" {
				t.Errorf("%s, %v: %s", name, p.Aim(), bad)
			}
			n++
		}
		for l := range answer.Unmet() {
			n++
			why := 0
			for range l.Why() {
				why++
			}
			if why == 0 {
				t.Errorf("%s: no reason why there is no %v", name, l.Aim())
			}
		}
		if n != 4 {
			t.Errorf("%s: %d aims are answered", name, n)
		}
	}
}
