package folio_test

import (
	"flag"
	"fmt"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/internal/texttest"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"

	"github.com/google/go-cmp/cmp"
)

var writeOrders = flag.Bool("writeorders", false, "keep the orders of work as they are now")

// ordered are the fittings whose work is kept: one of each kind, a frame with each
// mouth.
func ordered() []folio.Fitting {
	print := pocket.Content{Name: "print", Size: units.MustParseSize("60 x 90 mm"), Thickness: mm / 4}
	card := pocket.Content{Name: "card", Size: units.MustParseSize("50 x 70 mm"), Thickness: mm / 4}
	folded := func(name string, k pocket.Kind) folio.Fitting {
		return folio.Fitting{Name: name, Kind: folio.Folded{Kind: k}}
	}
	all := []folio.Fitting{
		{Name: "mat", Kind: folio.Mat{Picture: print}},
		{Name: "badge", Kind: folio.Ornament{Size: units.Size{W: 30 * mm, H: 30 * mm}, Thickness: 2 * mm}},
	}
	for _, e := range [...]score.Edge{score.Head, score.Tail, score.Left, score.Right} {
		all = append(all, folio.Fitting{Name: "frame, " + e.String(), Kind: folio.Frame{Picture: print, Mouth: e}})
	}
	return append(all,
		folded("slip", pocket.Slip{Content: card}),
		folded("corners", pocket.Corners{Content: print}),
		folded("leaf", pocket.Flap{Content: print, Hinge: score.Left}),
		folded("strip", pocket.FoldedStrip{Content: card}),
		folded("gusset", pocket.Gusset{Content: card}),
		folded("run", pocket.GussetRun{Content: card, Pockets: 2}),
		folded("accordion", pocket.FoldedAccordion{Content: card, Panels: 3}),
		folded("guard", pocket.Concertina{Content: card, Leaves: 2}),
		folded("pleats", pocket.Pleat{Content: card, Pleats: 2}),
	)
}

// The order of work of every form, and in it that of every kind of fitting. It is
// kept to be read: a change that is meant is written with -writeorders, and read as
// somebody would who has to do it. What it makes, TestMadeByHand makes. Of the
// fittings of further forms only those sentences are kept that those of the first
// have not.
func TestOrdersOfWork(t *testing.T) {
	var got strings.Builder
	first := map[string][]string{}
	for form := boards.Form(0); form.Known(); form++ {
		s := orderedIn(form)
		p, err := folio.Build(s)
		if err != nil {
			t.Errorf("%v: %v", form, err)
			continue
		}
		fmt.Fprintf(&got, "== %v\n", form)
		for i, text := range sentences(p, false) {
			fmt.Fprintf(&got, "%2d %s\n", i+1, text)
		}
		for _, f := range ordered() {
			f.Panel = boards.MainPanel
			s.Fittings = []folio.Fitting{f}
			p, err := folio.Build(s)
			if err != nil {
				t.Errorf("%v, %s: %v", form, f.Name, err)
				continue
			}
			texts := sentences(p, true)
			for i := range texts {
				texts[i] = strings.ReplaceAll(texts[i], "the inside of "+mainPanel(p), "the inside of the main panel")
			}
			before, again := first[f.Name]
			if again {
				texts = slices.DeleteFunc(texts, func(text string) bool { return slices.Contains(before, text) })
			} else {
				first[f.Name] = texts
			}
			if len(texts) > 0 {
				fmt.Fprintf(&got, "-- %s\n   %s\n", f.Name, strings.Join(texts, "\n   "))
			}
		}
		fmt.Fprintln(&got)
	}
	texttest.Kept(t, "testdata/orders.txt", got.String(), *writeOrders)
}

// mainPanel is what the board is called on which fittings are laid.
func mainPanel(p *folio.Plan) string {
	for f := range p.Fittings() {
		for b := range p.Boards() {
			if b.Role() == f.Panel() {
				return "the " + b.Name()
			}
		}
	}
	return ""
}

// orderedIn is the folio of a form whose order of work is kept.
func orderedIn(form boards.Form) folio.Spec {
	s := folio.Spec{
		Form: form, Cover: units.Size{W: 150 * mm, H: 200 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}, Spine: rule.Spine{Width: 40 * mm},
	}
	switch form {
	case boards.SoftSpine, boards.SoftGate, boards.FourPanelZ:
		s.Spine = rule.Spine{Contents: 20 * mm}
	case boards.TwoFlaps:
		s.Closing.UnderFlap = 3 * mm
	case boards.OwnRow:
		s.Row = boards.Row{Boards: []boards.Board{{Role: boards.LeftCover, Width: 150 * mm}, {Role: boards.Spine1}, {Role: boards.RightCover, Width: 150 * mm}}}
	}
	return s
}

// sentences returns those of an order of work, or those of its fittings.
func sentences(p *folio.Plan, fittings bool) (all []string) {
	for s := range p.Steps() {
		if !fittings || s.For.Kind == work.PartFitting || s.For.Kind == work.PartContents {
			all = append(all, s.Text(units.Format{Ruler: s.Ruler}))
		}
	}
	return all
}

// What is done in a step, and what it rests on, is the walker's to change: the steps after
// it stay what they are.
func TestAStepIsTheWalkers(t *testing.T) {
	told := func(p *folio.Plan, spoil func(s *work.Step)) (all []string) {
		for s := range p.Steps() {
			all = append(all, s.Text(units.Format{})+fmt.Sprint(s.After))
			spoil(&s)
		}
		return all
	}
	for _, f := range ordered() {
		for _, glue := range []bool{false, true} {
			s := orderedIn(boards.SpineBoard)
			s.Fittings, s.Closing.Adhesive.Glue = []folio.Fitting{f}, glue
			p := mustBuild(t, s)
			want := told(p, func(*work.Step) {})
			got := told(p, func(s *work.Step) {
				_, _ = append(s.Do, work.Dry{}), append(s.After, 1)
				clear(s.Do)
				clear(s.After)
			})
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("%s, glue %v (-want +got):\n%s", f.Name, glue, diff)
			}
		}
	}
}
