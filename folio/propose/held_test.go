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
	"boardwrap.example/folio/stock"
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
		"a cover just large enough": {Case: metric(), Things: []propose.Thing{{Content: race, Sight: propose.InView}}, Limits: propose.Limits{Cover: units.MustParseSize("122 x 172 mm")}},
		"too few sheets":            {Case: metric(), Without: but(propose.Mat), Things: []propose.Thing{{Content: race, Sticks: true}}, Limits: propose.Limits{Materials: []layout.Material{{Name: "board", Sheets: []layout.SheetKind{{Size: units.MustParseSize("150 x 200 mm"), Count: 1}}}}}},
		"far apart":                 {Case: metric(), Things: []propose.Thing{{Content: race, Count: 2, Sight: propose.InView}, {Content: pocket.IDCard(), Sticks: true, Count: 2}}, Without: but(propose.Mat, propose.Corners, propose.Frame), Taste: propose.Taste{Margin: units.None, Between: 30 * mm}},
		"a cover just too small, and sheets": {Case: func() folio.Spec {
			s := metric()
			s.Board.Sheets = []stock.Sheet{{Size: units.MustParseSize("700 x 1000 mm")}}
			return s
		}(), Without: but(propose.Corners), Things: []propose.Thing{{Content: race, Count: 2}}, Limits: propose.Limits{Cover: units.MustParseSize("111 x 400 mm")}},
		"all on one ruler":                           {Case: folio.Spec{Rulers: rule.Rulers{Main: units.Eighths}}, Things: []propose.Thing{{Content: inches, Count: 2}, {Content: pocket.IDCard(), Keeping: propose.Apart, Count: 3}}, Limits: propose.Limits{Thickness: units.Inch}},
		"a liner on its ruler":                       {Case: lined(3*mm, 0), Things: []propose.Thing{{Content: race, Sight: propose.InView}, {Content: medal, Count: 2, Sticks: true}}},
		"a liner on its ruler, hardly thin enough":   {Case: lined(5*mm, 0), Without: but(propose.Mat, propose.Gusset), Things: []propose.Thing{{Content: medal, Count: 3, Sticks: true}}, Limits: propose.Limits{Thickness: 11 * mm}},
		"thick on both covers, a liner on its ruler": {Case: lined(3*mm, 0), Without: but(propose.Mat), Things: []propose.Thing{{Content: pocket.Content{Name: "cup", Size: units.MustParseSize("45 x 45 mm"), Thickness: 21 * mm}, Count: 2, Sticks: true}}},
		"by post, a liner on its ruler":              {Case: lined(3*mm, 0), Without: but(propose.Mat), Things: []propose.Thing{{Content: medal, Sticks: true}}, Limits: propose.Limits{Post: propose.Post{Service: "Royal Mail", Format: "letter"}}},
		"boards of two widths":                       {Case: folio.Spec{Rulers: metric().Rulers, Row: boards.Row{Boards: []boards.Board{{Role: boards.LeftCover, Width: 190 * mm}, {Role: boards.Spine1}, {Role: boards.RightCover, Width: 130 * mm}}}}, Without: but(propose.Mat), Things: []propose.Thing{{Content: medal, Count: 6, Sticks: true, Upright: true}}},
		"boards in steps of five, no thickness": {Case: folio.Spec{Rulers: rule.Rulers{Main: units.WholeMillimetres, Board: units.Ruler(5 * mm), Liner: units.WholeMillimetres, Gap: units.WholeMillimetres}}, Without: but(propose.Mat, propose.Corners), Things: []propose.Thing{
			{Content: pocket.Content{Name: "ticket", Size: units.MustParseSize("43 x 61 mm")}, Count: 3, Sticks: true}, {Content: pocket.Content{Name: "stamp", Size: units.MustParseSize("22 x 27 mm")}, Count: 2, Sticks: true}, {Content: pocket.Content{Name: "label", Size: units.MustParseSize("71 x 18 mm")}, Sticks: true}}},
		"a liner out of narrow sheets":         {Case: lined(mm/2, 130*mm), Without: but(propose.Corners, propose.Mat), Things: []propose.Thing{{Content: race, Sight: propose.InView}, {Content: medal, Sticks: true}}},
		"a soft spine, the liner on its ruler": {Case: func() folio.Spec { s := lined(2_500_000, 0); s.Form = boards.SoftSpine; return s }(), Without: but(propose.Mat), Things: []propose.Thing{{Content: medal, Count: 2, Sticks: true}}},
		"smaller than a case":                  {Case: metric(), Without: but(propose.Mat, propose.Corners), Things: []propose.Thing{{Content: pocket.Content{Name: "pin", Size: units.MustParseSize("6 x 9 mm")}, Sticks: true}}},
		"touching, lined up":                   {Case: metric(), Without: but(propose.Mat), Things: []propose.Thing{{Content: medal, Count: 3, Sticks: true, Group: "a"}, {Content: race, Sticks: true, Group: "a", Upright: true}}, Taste: propose.Taste{Margin: units.None, Between: units.None, Order: propose.LinedUp}},
		"by post":                              {Case: metric(), Things: []propose.Thing{{Content: race, Sight: propose.InView, Count: 2}}, Limits: propose.Limits{Post: propose.Post{Service: "Royal Mail", Format: "large letter"}}},
		"too thick for the post":               {Case: metric(), Without: but(propose.Gusset), Things: []propose.Thing{{Content: medal}}, Limits: propose.Limits{Post: propose.Post{Service: "Royal Mail", Format: "letter"}}},
		"boards of a width":                    {Case: folio.Spec{Rulers: metric().Rulers, Row: boards.Row{Boards: []boards.Board{{Role: boards.LeftCover, Width: 130 * mm}, {Role: boards.Spine1}, {Role: boards.RightCover, Width: 130 * mm}}}}, Without: but(propose.Corners), Things: []propose.Thing{{Content: race, Count: 2}}},
		"boards of a width that is just so much": {Case: func() folio.Spec {
			s := lined(3*mm, 0)
			s.Row = boards.Row{Boards: []boards.Board{{Role: boards.LeftCover, Width: 122 * mm}, {Role: boards.Spine1}, {Role: boards.RightCover, Width: 122 * mm}}}
			return s
		}(), Without: but(propose.Corners), Things: []propose.Thing{{Content: race, Upright: true}}},
		"boards of a width that is too little": {Case: folio.Spec{Rulers: metric().Rulers, Row: boards.Row{Boards: []boards.Board{{Role: boards.LeftCover, Width: 90 * mm}, {Role: boards.Spine1}, {Role: boards.RightCover, Width: 90 * mm}}}}, Without: but(propose.Corners), Things: []propose.Thing{{Content: race, Upright: true}}},
		"on a flap alone":                      {Case: folio.Spec{Rulers: metric().Rulers, Form: boards.ForeEdgeFlap, FlapWidth: 90 * mm}, Without: but(propose.Mat), Things: []propose.Thing{{Content: medal, Sticks: true}}},
		"a thick crest under a flap":           {Case: folio.Spec{Rulers: metric().Rulers, Form: boards.ForeEdgeFlap, Fittings: []folio.Fitting{{Name: "crest", Panel: boards.LeftCover, Outside: true, Kind: folio.Ornament{Size: units.MustParseSize("30 x 30 mm"), Thickness: 12 * mm}}}}, Without: but(propose.Mat), Things: []propose.Thing{{Content: medal, Count: 3, Sticks: true}}, Limits: propose.Limits{Cover: units.MustParseSize("130 x 110 mm")}},
		"fewest sheets under a flap": {Case: func() folio.Spec {
			s := metric()
			s.Form = boards.ForeEdgeFlap
			s.Board.Sheets = []stock.Sheet{{Size: units.MustParseSize("150 x 290 mm")}}
			return s
		}(), Without: but(propose.Mat), Things: []propose.Thing{{Content: medal, Count: 3, Sticks: true}, {Content: race, Sticks: true}}},
		"thinner than can be": {Case: func() folio.Spec {
			s := metric()
			s.Board.Sheets = []stock.Sheet{{Size: units.MustParseSize("150 x 290 mm")}}
			return s
		}(), Without: but(propose.Mat, propose.Gusset), Things: []propose.Thing{{Content: medal, Count: 3, Sticks: true}}, Limits: propose.Limits{Thickness: 9 * mm}},
		"no way to hold": {Case: metric(), Things: []propose.Thing{{Content: medal, Sight: propose.InView}, {Content: race}}, Without: but(propose.Slip)},
		"sheets of all kinds": {Case: func() folio.Spec {
			s := metric()
			s.Covering.Sheets = []stock.Sheet{{Size: units.MustParseSize("200 x 300 mm")}}
			return s
		}(), Without: but(propose.Mat, propose.Frame), Things: []propose.Thing{{Content: race, Count: 2, Sticks: true}}, Limits: propose.Limits{Materials: []layout.Material{
			{Name: "board", Sheets: []layout.SheetKind{{Size: units.MustParseSize("180 x 400 mm"), Count: layout.Unlimited}, {Size: units.MustParseSize("120 x 200 mm"), Count: 1, Offcut: true}}},
			{Name: "plain card", Sheets: []layout.SheetKind{{Size: units.MustParseSize("130 x 180 mm"), Count: layout.Unlimited}}}}}},
		"close together and anyhow": {Case: metric(), Things: []propose.Thing{{Content: medal, Count: 5, Sticks: true}, {Content: race}}, Taste: propose.Taste{Margin: units.None, Between: mm, Anyhow: true}},
	}
}

// lined is a case whose liner is cut on a ruler of its own, and out of sheets of a
// width where that is not 0.
func lined(step, sheet units.Length) folio.Spec {
	s := metric()
	s.Rulers.Liner = units.Ruler(step)
	if sheet > 0 {
		s.Liner.Sheets = []stock.Sheet{{Size: units.Size{W: sheet, H: units.Metre}, Grain: stock.GrainAlongHeight}}
	}
	return s
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
		for l := range all.Unmet() {
			fmt.Fprintf(&dst, "\tlacking %v, complete %t\n", l.Aim(), l.Complete())
			for w := range l.Why() {
				fmt.Fprintf(&dst, "\t\t%s\n", about(w))
			}
		}
	}
	texttest.Kept(t, "testdata/proposals.txt", dst.String(), *write)
}
