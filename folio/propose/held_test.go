package propose_test

import (
	"context"
	"flag"
	"fmt"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/propose"
	"boardwrap.example/folio/rule"
	"boardwrap.example/internal/texttest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

var write = flag.Bool("write", false, "write testdata/proposals.txt, to be read before it is kept")

// requests are what a rowing club asks for.
func requests() map[string]propose.Request {
	race := pocket.Content{Name: "race card", Size: units.MustParseSize("100 x 150 mm"), Thickness: 300 * units.Micrometre}
	chart := pocket.Content{Name: "chart", Size: units.MustParseSize("148 x 210 mm"), Thickness: 120 * units.Micrometre}
	medal := pocket.Content{Name: "medal", Size: units.MustParseSize("45 x 45 mm"), Thickness: 3 * mm}
	inches := pocket.Content{Name: "crew", Size: units.MustParseSize("5 x 7 in"), Thickness: 260 * units.Micrometre}
	return map[string]propose.Request{
		"one print in inches":       {Things: []propose.Thing{{Content: inches, Sight: propose.InView}}},
		"prints and cards":          {Case: metric(), Things: []propose.Thing{{Content: race, Count: 3, Sight: propose.InView, Keeping: propose.Apart}, {Content: pocket.IDCard(), Count: 2, Sight: propose.TuckedAway}}},
		"kept together, lined up":   {Case: metric(), Things: []propose.Thing{{Content: chart, Count: 4, Keeping: propose.Together}, {Content: race, Upright: true}}, Taste: propose.Taste{Order: propose.LinedUp}},
		"stuck down, in groups":     {Case: metric(), Things: []propose.Thing{{Content: medal, Sticks: true, Group: "a"}, {Content: race, Count: 2, Group: "a"}, {Content: pocket.IDCard(), Group: "b"}}},
		"thin":                      {Case: metric(), Things: []propose.Thing{{Content: race, Count: 6}}, Limits: propose.Limits{Thickness: 12 * mm}},
		"into a box":                {Case: metric(), Things: []propose.Thing{{Content: chart, Count: 2}}, Limits: propose.Limits{Into: propose.Space{Size: units.MustParseSize("250 x 300 mm"), Depth: 15 * mm, Padding: 3 * mm}}},
		"too much for a cover":      {Case: metric(), Things: []propose.Thing{{Content: chart, Count: 9, Sight: propose.InView}}, Limits: propose.Limits{Cover: units.MustParseSize("160 x 220 mm")}},
		"a form among three":        {Case: metric(), Forms: []propose.Form{{Form: boards.SpineBoard}, {Form: boards.SoftSpine}, {Form: boards.DoubleSpineGate}}, Things: []propose.Thing{{Content: race, Count: 2, Sight: propose.InView}}},
		"off the ruler":             {Case: metric(), Things: []propose.Thing{{Content: race, Count: 3, Sight: propose.InView}, {Content: medal, Count: 2}}, Taste: propose.Taste{Margin: 2300 * units.Micrometre, Between: 3100 * units.Micrometre}},
		"under a flap":              {Case: folio.Spec{Rulers: metric().Rulers, Form: boards.ForeEdgeFlap}, Things: []propose.Thing{{Content: race, Count: 4}, {Content: medal, Sticks: true, Sight: propose.InView}}},
		"a flap of a width":         {Case: folio.Spec{Rulers: metric().Rulers, Form: boards.ForeEdgeFlap, FlapWidth: 90 * mm}, Things: []propose.Thing{{Content: race, Count: 2}, {Content: medal}}, Limits: propose.Limits{Into: propose.Space{Size: units.MustParseSize("240 x 330 mm"), Depth: 40 * mm}}},
		"doors with a gap":          {Case: folio.Spec{Rulers: metric().Rulers, Form: boards.DoubleSpineGate, DoorGap: 5 * mm}, Things: []propose.Thing{{Content: medal, Count: 3, Sticks: true}, {Content: race, Sight: propose.InView}}},
		"four panels":               {Case: folio.Spec{Rulers: metric().Rulers, Form: boards.FourPanelZ}, Things: []propose.Thing{{Content: race, Count: 4, Sight: propose.InView}}},
		"from few sheets":           {Case: metric(), Things: []propose.Thing{{Content: race, Count: 3}, {Content: chart}}, Limits: propose.Limits{Materials: materials(1)}},
		"from sheets too small":     {Case: metric(), Things: []propose.Thing{{Content: chart}}, Limits: propose.Limits{Materials: []layout.Material{{Name: "board", Sheets: []layout.SheetKind{{Size: units.MustParseSize("160 x 200 mm"), Count: 4}}}}}},
		"from sheets just so large": {Case: metric(), Things: []propose.Thing{{Content: race, Count: 2}, {Content: medal}}, Limits: propose.Limits{Materials: []layout.Material{{Name: "board", Sheets: []layout.SheetKind{{Size: units.MustParseSize("180 x 200 mm"), Count: 4}}}}}},
		"a cover just too small":    {Case: metric(), Things: []propose.Thing{{Content: race, Count: 2, Sight: propose.InView}}, Limits: propose.Limits{Cover: units.MustParseSize("111 x 400 mm")}},
		"all on one ruler":          {Case: folio.Spec{Rulers: rule.Rulers{Main: units.Eighths}}, Things: []propose.Thing{{Content: inches, Count: 2}, {Content: pocket.IDCard(), Keeping: propose.Apart, Count: 3}}, Limits: propose.Limits{Thickness: units.Inch}},
		"close together and anyhow": {Case: metric(), Things: []propose.Thing{{Content: medal, Count: 5, Sticks: true}, {Content: race}}, Taste: propose.Taste{Margin: units.None, Between: mm, Anyhow: true}},
	}
}

// What is proposed can be made, holds all and keeps the wishes; how it is laid out,
// what is said of it, and how many steps the search took, is as it was read.
func TestProposalsAreHeld(t *testing.T) {
	var dst strings.Builder
	asked := requests()
	names := make([]string, 0, len(asked))
	for name := range asked {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		r := asked[name]
		all, err := propose.Folios(context.Background(), r, propose.Budget{Steps: 2_000_000})
		if err != nil {
			t.Fatal(name, err)
		}
		n := all.Notation()
		fmt.Fprintf(&dst, "%s: %d steps\n", name, all.Steps())
		about := func(w propose.Reason) string { // in the words that are said, and which thing it is about
			if w.Thing < -1 || w.Thing >= len(r.Things) {
				t.Errorf("%s: %q is about thing %d", name, w.Text(n), w.Thing)
			}
			if w.Thing < 0 {
				return w.Text(n)
			}
			return fmt.Sprintf("%s [%d]", w.Text(n), w.Thing)
		}
		for p := range all.All() {
			if bad := sound(r, p); bad != "" {
				t.Errorf("%s, %v: %s", name, p.Aim(), bad)
			}
			sheets, counted := p.Sheets()
			form, index := p.Form()
			fmt.Fprintf(&dst, "\t%v: cover %v, spine %v, closed %v, sheets %d %t, form %v %d, complete %t\n", p.Aim(), p.Cover(), p.Spec().Spine.Width, p.Closed().Size(), sheets, counted, form.Form, index, p.Complete())
			var placed []folio.Fitted
			for f := range p.Plan().Fittings() {
				placed = append(placed, f)
			}
			for h := range p.Held() {
				fmt.Fprintf(&dst, "\t\t%d of thing %d, %v, turned %t, on the %v at %v\n", h.Copies, h.Thing, h.Way, h.Turned, h.Panel, placed[h.Fitting].Rect())
				for w := range h.Why() {
					fmt.Fprintf(&dst, "\t\t\t%s\n", about(w))
				}
			}
			for o := range p.RuledOut() {
				fmt.Fprintf(&dst, "\t\tnot thing %d, %v: %s\n", o.Thing, o.Way, about(o.Why))
			}
			for o := range p.OtherForms() {
				fmt.Fprintf(&dst, "\t\tanother form: %+v\n", o.Form().Form)
				for w := range o.Why() {
					fmt.Fprintf(&dst, "\t\t\t%s\n", about(w))
				}
			}
		}
		for l := range all.Lacking() {
			fmt.Fprintf(&dst, "\tlacking %v, complete %t\n", l.Aim(), l.Complete())
			for w := range l.Why() {
				fmt.Fprintf(&dst, "\t\t%s\n", about(w))
			}
		}
	}
	texttest.Kept(t, "testdata/proposals.txt", dst.String(), *write)
}
