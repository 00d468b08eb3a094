package guide_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// anyPlan generates folios of all forms with fittings of all kinds, sizes on and
// off the ruler, small and large.
func anyPlan() gopter.Gen {
	length := func(low, high units.Length) gopter.Gen {
		return gen.Int64Range(int64(low), int64(high))
	}
	return proptest.Map(gopter.CombineGens(
		gen.IntRange(0, int(boards.OwnRow)),          // 0 form
		length(60*mm, 330*mm), length(60*mm, 330*mm), // 1, 2 cover
		length(30*mm, 90*mm),                         // 3 spine
		length(mm/2, 3*mm),                           // 4 board
		gen.IntRange(0, 5),                           // 5 ruler
		gen.IntRange(0, 3),                           // 6 lining, quarter
		gen.SliceOfN(3, gen.IntRange(0, kinds)),      // 7 fittings
		length(20*mm, 120*mm), length(20*mm, 120*mm), // 8, 9 content
		gen.IntRange(0, 4), // 10 names
	), func(v []any) folio.Spec {
		l := func(i int) units.Length { return units.Length(v[i].(int64)) }
		rulers := [...]units.Ruler{units.Sixteenths, units.ThirtySeconds, units.SixtyFourths, units.WholeMillimetres, units.TenthMillimetres, units.Thousandths}
		s := folio.Spec{
			Form: boards.Form(v[0].(int)), Cover: units.Size{W: l(1), H: l(2)}, Board: stock.Stock{Caliper: l(4)},
			Rulers: rule.Rulers{Main: rulers[v[5].(int)]},
		}
		rowOf(&s, l(3))
		if v[6].(int)&1 > 0 {
			s.Lining.Rule = rule.LiningPanels
		}
		if v[6].(int)&2 > 0 {
			s.Quarter.Rule = rule.QuarterAlways
		}
		names := [...]string{"", "fitting", "a fitting with a name that goes on and on and does not end", "Schöne Ähre & <Söhne>", "写真"}
		c := pocket.Content{Size: units.Size{W: l(8), H: l(9)}, Thickness: mm / 4}
		for k, kind := range v[7].([]int) {
			f := folio.Fitting{Name: names[v[10].(int)], Panel: [...]boards.Role{boards.MainPanel, boards.LeftCover, boards.MainPanel}[k], Outside: k == 2}
			if s.Form == boards.DoubleSpineGate && k == 1 {
				f.Panel = boards.RightDoor
			}
			if f.Name != "" {
				f.Name += [...]string{"", " 2", " 3"}[k]
			}
			f.Kind = anyKind(kind, c)
			if f.Kind == nil {
				continue
			}
			t := s
			t.Fittings = append(t.Fittings[:len(t.Fittings):len(t.Fittings)], f)
			if _, err := folio.Build(t); err == nil {
				s = t
			}
		}
		return s
	})
}

// rowOf gives a folio of a form the room it asks for.
func rowOf(s *folio.Spec, room units.Length) {
	switch s.Form {
	case boards.SoftSpine, boards.SoftGate, boards.FourPanelZ:
		s.Spine.Contents = min(room, 20*mm)
	case boards.OwnRow:
		s.Spine.Width = room
		s.Row = boards.Row{Boards: []boards.Board{{Role: boards.LeftCover, Rule: boards.WidthCover}, {Role: boards.Spine1, Rule: boards.WidthAround}, {Role: boards.RightCover, Rule: boards.WidthCover}}}
	default:
		s.Spine.Width = room
	}
}

// kinds is how many kinds anyKind knows.
const kinds = 12

// anyKind returns a kind of fitting for a content, nil for none.
func anyKind(n int, c pocket.Content) folio.Kind {
	folded := [...]pocket.Kind{
		pocket.Slip{Content: c}, pocket.Slip{Content: c, Build: pocket.FoldedFoot}, pocket.Corners{Content: c}, pocket.Flap{Content: c},
		pocket.FoldedStrip{Content: c}, pocket.Gusset{Content: c}, pocket.GussetRun{Content: c}, pocket.FoldedAccordion{Content: c, Panels: 4},
		pocket.Concertina{Content: c, Leaves: 3}, pocket.Pleat{Content: c},
	}
	switch {
	case n == 0:
		return folio.Mat{Picture: c}
	case n == 1:
		return folio.Frame{Picture: c}
	case n-2 < len(folded):
		return folio.Folded{Kind: folded[n-2]}
	}
	return nil
}

// A drawing is one picture of a plan that can be asked for.
type drawing struct {
	name string
	draw func(guide.Options) (guide.Picture, bool)
}

// drawings lists the pictures of a plan.
func drawings(p *folio.Plan) []drawing {
	list := []drawing{
		{"wrap", func(o guide.Options) (guide.Picture, bool) { return guide.Wrap(p, o) }},
		{"inside", func(o guide.Options) (guide.Picture, bool) { return guide.Inside(p, o) }},
		{"outside", func(o guide.Options) (guide.Picture, bool) { return guide.Outside(p, o) }},
		{"closed", func(o guide.Options) (guide.Picture, bool) { return guide.Closed(p, o) }},
	}
	for i := range len(slices.Collect(p.Pieces())) {
		list = append(list, drawing{fmt.Sprintf("piece %d", i), func(o guide.Options) (guide.Picture, bool) { return guide.Piece(p, i, o) }})
	}
	for s := range p.Steps() {
		list = append(list, drawing{fmt.Sprintf("step %d", s.Number), func(o guide.Options) (guide.Picture, bool) { return guide.Step(p, s.Number, o) }})
	}
	for f := range p.Fittings() {
		list = append(list,
			drawing{fmt.Sprintf("strip %d", f.Index()), func(o guide.Options) (guide.Picture, bool) { return guide.Strip(p, f.Index(), o) }},
			drawing{fmt.Sprintf("accordion %d", f.Index()), func(o guide.Options) (guide.Picture, bool) { return guide.Accordion(p, f.Index(), o) }})
	}
	return list
}

// options are ways to draw: at true scale, small, on two rulers.
var options = []guide.Options{
	{},
	{Fit: units.Size{W: 170 * mm, H: 110 * mm}},
	{Fit: units.Size{W: 120 * mm}, Format: units.Format{Ruler: units.TenthMillimetres, Second: units.SixtyFourths}},
	{Fit: units.Size{W: 180 * mm, H: 240 * mm}, Format: units.Format{Ruler: units.Sixteenths, Typographic: true}},
}

// picturesPer is how many pictures of each plan are looked at.
var picturesPer = 2

func TestNoWordOverlapsAnything(t *testing.T) {
	met := 0
	proptest.Run(t, 1000, func(ps *gopter.Properties) {
		ps.Property("every picture is well formed and no word of it overlaps another, a line or its edge", prop.ForAll(func(s folio.Spec, turn int) string {
			p, err := folio.Build(s)
			if err != nil {
				return "" // too small for its own margins, say
			}
			met++
			list := drawings(p)
			for k := range min(picturesPer, len(list)) {
				d := list[(turn+k*len(list)/picturesPer)%len(list)]
				o := options[(turn+k)%len(options)]
				pic, ok := d.draw(o)
				if !ok {
					continue
				}
				r, err := read(pic.AppendSVG(nil))
				if err != nil {
					return d.name + ": " + err.Error()
				}
				if bad := r.overlaps(); bad != "" {
					return fmt.Sprintf("%s, options %d: %s", d.name, (turn+k)%len(options), bad)
				}
			}
			return ""
		}, anyPlan(), gen.IntRange(0, 10_000)))
	})
	if met < proptest.Cases(800) {
		t.Errorf("only %d plans could be built", met)
	}
}

// However many words a picture has for its room, what it shows keeps about a quarter of the
// room, along one side at least, and never less than a fifth. What is smaller by itself is
// drawn as large as it is.
func TestWordsLeaveAQuarter(t *testing.T) {
	fits := []guide.Options{{Fit: units.Size{W: 88 * mm, H: 62 * mm}}, {Fit: units.Size{W: 150 * mm, H: 30 * mm}}, {Fit: units.Size{W: 40 * mm, H: 90 * mm}}}
	shrunk, least := 0, 1.0
	for _, s := range samples() {
		for i, d := range drawings(s.plan) {
			if i%2 == 0 {
				continue
			}
			o := fits[i/2%len(fits)]
			pic, ok := d.draw(o)
			if !ok || pic.Printed() == pic.Size() {
				continue
			}
			shrunk++
			r, bad := readPicture(pic, true)
			if bad != "" {
				t.Fatal(bad)
			}
			body, _ := round(slices.DeleteFunc(slices.Clone(r.lines), func(l readLine) bool {
				return l.legend || l.kind == "thin" || l.kind == "mark" || l.kind == "swing" || l.kind == "swingunder" || l.kind == "along" || l.kind == "slide"
			}))
			scale := float64(pic.Printed().W) / float64(pic.Size().W)
			of := max(float64(body.x1-body.x0)*scale/float64(o.Fit.W), float64(body.y1-body.y0)*scale/float64(o.Fit.H))
			if least = min(least, of); of < 0.2 {
				t.Errorf("%s, %s: in %v what is drawn takes %.3f of the room", s.name, d.name, o.Fit, of)
			}
		}
	}
	if shrunk < 50 || least > 0.3 {
		t.Errorf("%d pictures, of which what is drawn takes %.3f of the room at least", shrunk, least)
	}
}
