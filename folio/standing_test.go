package folio_test

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/makertest"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// everyKind has a fitting of each kind for a content, in each way in which its
// pieces lie differently.
func everyKind(c pocket.Content) []folio.Kind {
	folded := func(k pocket.Kind) folio.Kind { return folio.Folded{Kind: k} }
	return []folio.Kind{
		folio.Mat{Picture: c}, folio.Mat{Size: c.Size}, folio.Frame{Picture: c, Rail: max(c.Size.W/2, 12*mm)}, folio.Frame{Picture: c, Film: "film"},
		folio.Ornament{Size: c.Size, Thickness: mm},
		folded(pocket.Slip{Content: c}), folded(pocket.Slip{Content: c, Build: pocket.FoldedFoot}), folded(pocket.Corners{Content: c}),
		folded(pocket.Flap{Content: c, Hinge: score.Left}), folded(pocket.Flap{Content: c, Over: mm}),
		folded(pocket.FoldedStrip{Content: c}), folded(pocket.FoldedStrip{Content: c, OwnSpine: true, OpensRight: true}),
		folded(pocket.Gusset{Content: c}), folded(pocket.Gusset{Content: c, At: pocket.FootGusset}), folded(pocket.GussetRun{Content: c, Pockets: 2}),
		folded(pocket.FoldedAccordion{Content: c, Panels: 3}), folded(pocket.FoldedAccordion{Content: c, Panels: 4}), folded(pocket.Pleat{Content: c, Pleats: 2, Visible: max(c.Size.H/2, 12*mm)}),
		folded(pocket.Concertina{Content: c, Leaves: 2}),
	}
}

// Of every kind one can stand on every other, inside and outside, taped and glued, and
// hands can make it as the steps say: where it is refused at one place there is
// another, but on corners, whose blanks carry nothing.
func TestEverythingStandsOnEverything(t *testing.T) {
	print := pocket.Content{Name: "print", Size: units.Size{W: 80 * mm, H: 100 * mm}, Thickness: mm / 4}
	ticket := pocket.Content{Name: "ticket", Size: units.Size{W: 11 * mm, H: 7 * mm}, Thickness: mm / 4}
	n := 0
	for _, under := range everyKind(print) {
		for _, top := range everyKind(ticket) {
			n++
			s := folio.Spec{
				Cover: units.Size{W: 220 * mm, H: 260 * mm}, Spine: rule.Spine{Width: 50 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
				Stocks:  arranged().Stocks,
				Closing: closing.Allowance{Adhesive: closing.AdhesiveFilm{Glue: n%2 == 0}},
			}
			built := false
			for at := range 9 {
				s.Fittings = []folio.Fitting{
					{Name: "lower", Panel: boards.LeftCover, Kind: under, Outside: n%3 == 0},
					{Name: "upper", StandsOn: "lower", Kind: top, Place: place.Place{Across: [...]place.Align{place.Middle, place.Left, place.Right}[(at+n)%3], Along: [...]place.Align{place.Tail, place.Middle, place.Head}[at/3]}},
				}
				p, err := folio.Build(s)
				if err != nil {
					continue
				}
				built = true
				if err := makertest.Follow(makerJob(p, p)); err != nil {
					t.Errorf("%v on %v at place %d: %v", top, under, at, err)
				}
				break
			}
			_, corners := under.(folio.Folded)
			if corners = corners && under.String() == "corner pocket"; built == corners {
				t.Errorf("%v on %v: built %t", top, under, built)
			}
		}
	}
}

// A leaf that lies open over the place of something else is lifted for that, and nothing
// comes along that lies under what it is lifted from: not the card in the pocket that a
// flap closes over, and not the pockets that stick through a thumb notch to a card. Nor is
// a leaf lifted that lies under the one on which something goes.
func TestWhatIsLifted(t *testing.T) {
	card := func(w, h, thick units.Length) pocket.Content {
		return pocket.Content{Name: "card", Size: units.Size{W: w, H: h}, Thickness: thick}
	}
	for name, c := range map[string]struct {
		form     boards.Form
		wide     units.Length
		fittings []folio.Fitting
	}{
		"a flap over the flap of another's pocket": {boards.SpineBoard, 131 * mm, []folio.Fitting{
			{Name: "leaf", Panel: boards.RightCover, Place: place.Place{Across: place.Left}, Kind: folio.Folded{Kind: pocket.Flap{Content: card(40*mm, 26*mm, 3*mm/4)}}},
			{Name: "pocket", Panel: boards.LeftCover, Place: place.Place{Across: place.Right}, Kind: folio.Folded{Kind: pocket.FoldedStrip{Content: card(15*mm, 15*mm, mm/4), OwnSpine: true, OpensRight: true}}},
			{Name: "label", StandsOn: "pocket", Kind: folio.Mat{Size: units.Size{W: 10 * mm, H: 10 * mm}}},
			{Name: "strip", StandsOn: "leaf", Kind: folio.Folded{Kind: pocket.FoldedStrip{Content: card(33*mm, 6*mm, 5*mm/4), OwnSpine: true}}},
		}},
		"a pocket on a leaf, over the end of another": {boards.SpineBoard, 110 * mm, []folio.Fitting{
			{Name: "mat", Panel: boards.LeftCover, Place: place.Place{Across: place.Right}, Kind: folio.Mat{Picture: card(15*mm, 15*mm, mm/4)}},
			{Name: "leaf", Panel: boards.LeftCover, Place: place.Place{Across: place.Left}, Kind: folio.Folded{Kind: pocket.Flap{Content: card(60*mm, 15*mm, mm/4)}}},
			{Name: "flap", StandsOn: "mat", Kind: folio.Folded{Kind: pocket.Flap{Content: card(13*mm, 5*mm, mm/4), Hinge: score.Left, Over: 3 * mm / 5}}},
			{Name: "strip", StandsOn: "leaf", Place: place.Place{Across: place.Right}, Kind: folio.Folded{Kind: pocket.FoldedStrip{Content: card(5*mm, 5*mm, mm/4), OwnSpine: true, OpensRight: true}}},
		}},
		"leaves on a guard on a leaf, over the end of another": {boards.SpineBoard, 110 * mm, []folio.Fitting{
			{Name: "mat", Panel: boards.LeftCover, Place: place.Place{Across: place.Right}, Kind: folio.Mat{Picture: card(15*mm, 15*mm, mm/4)}},
			{Name: "leaf", Panel: boards.LeftCover, Place: place.Place{Across: place.Left}, Kind: folio.Folded{Kind: pocket.Flap{Content: card(60*mm, 15*mm, mm/4)}}},
			{Name: "flap", StandsOn: "mat", Kind: folio.Folded{Kind: pocket.Flap{Content: card(13*mm, 5*mm, mm/4), Hinge: score.Left, Over: 3 * mm / 5}}},
			{Name: "guard", StandsOn: "leaf", Place: place.Place{Across: place.Right}, Kind: folio.Folded{Kind: pocket.Concertina{Content: card(5*mm, 5*mm, mm/4), Leaves: 1}}},
		}},
		"a leaf over corners on a thumb notch": {boards.ThreePanels, 110 * mm, []folio.Fitting{
			{Name: "slip", Panel: boards.Panel1, Kind: folio.Folded{Kind: pocket.Slip{Content: card(15*mm, 17*mm, 7*mm/4)}}},
			{Name: "corners", StandsOn: "slip", Kind: folio.Folded{Kind: pocket.Corners{Content: card(5500000, 13600000, mm/4)}}},
			{Name: "leaf", Panel: boards.Panel2, Place: place.Place{Across: place.Left}, Kind: folio.Folded{Kind: pocket.Flap{Content: card(77*mm, 15*mm, mm/4), Hinge: score.Left, Over: 3 * mm / 5}}},
		}},
	} {
		p := mustBuild(t, folio.Spec{
			Form: c.form, Cover: units.Size{W: c.wide, H: 110 * mm}, Spine: rule.Spine{Width: 25 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
			Board: stock.Stock{Caliper: mm}, Closing: closing.Allowance{Adhesive: closing.AdhesiveFilm{Glue: true}}, Fittings: c.fittings,
		})
		if err := makertest.Follow(makerJob(p, p)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}
