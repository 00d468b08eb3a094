package fit_test

import (
	"context"
	"math/rand/v2"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// misplaced says which berth is not of its content: turned if it is said to be, in
// its own size, within its room.
func misplaced(ways []fit.Berth, contents []pocket.Content) string {
	for i, w := range ways {
		c := contents[i]
		if w.Turned() {
			c = c.Turned()
		}
		switch {
		case w.Content() != c:
			return "a content of " + w.Content().Size.String() + " for one of " + contents[i].Size.String()
		case w.Rect().Size() != c.Size:
			return "a content of " + c.Size.String() + " over " + w.Rect().Size().String()
		case w.Room().Kind() == fit.OnPanel && !w.Rect().In(w.Room().Rect()):
			return "it lies beyond its panel"
		case w.Room().Kind() != fit.OnPanel && (!w.Content().Size.FitsIn(w.Room().Size()) || !w.Room().Least().FitsIn(w.Content().Size)):
			return "it does not go into its fitting as it lies"
		}
	}
	return ""
}

// Each berth is of its content, whether everything was found a place by itself or
// only together, turned or as it is.
func TestBerthsAreOfTheirContents(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 8))
	turned, held := 0, 0
	n := proptest.Cases(400)
	for range n {
		p, err := folio.Build(small(r, 22, 20))
		if err != nil {
			t.Fatal(err)
		}
		var contents []pocket.Content
		for range 1 + r.IntN(3) {
			contents = append(contents, trial(r))
		}
		ways, err := fit.Of(p).All(context.Background(), fit.Budget{Steps: 2000}, contents...)
		if err != nil {
			continue
		}
		held++
		if bad := misplaced(ways, contents); bad != "" {
			t.Fatalf("%v: %s", contents, bad)
		}
		for _, w := range ways {
			if w.Turned() {
				turned++
			}
		}
	}
	if held < n/8 || turned < n/40 {
		t.Errorf("lopsided: %d held, %d turned", held, turned)
	}
}

// What the smallest folio holds on its panels lies there as it says: each picture in
// the middle of a mat of its own, off the ruler or on it, to the nanometre below.
func TestSmallestLaysWhatItSays(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 12))
	onPanel, covers := 0, 0
	for range proptest.Cases(40) {
		var contents []pocket.Content
		for range 1 + r.IntN(2) {
			contents = append(contents, pocket.Content{Name: "print", Thickness: units.Length(r.IntN(900)) * units.Micrometre, Size: units.Size{
				W: 30*mm + units.Length(r.IntN(30_000_000)), H: 30*mm + units.Length(r.IntN(30_000_000)),
			}})
		}
		l, err := fit.Smallest(context.Background(), folio.Spec{Rulers: rule.Rulers{Main: units.WholeMillimetres}}, fit.Budget{}, contents...)
		if err != nil {
			t.Fatal(err)
		}
		if bad := misplaced(l.Ways(), contents); bad != "" {
			t.Fatal(bad)
		}
		for _, w := range l.Ways() {
			if w.Room().Kind() != fit.OnPanel {
				continue
			}
			onPanel++
			found := false
			for f := range l.Plan().Fittings() {
				// A picture that is in no frame has its rectangle in the middle of its mat.
				if mat := f.Rect(); f.Panel() == w.Room().Panel() {
					in := w.Rect()
					left, right := in.Min.X-mat.Min.X, mat.Max.X-in.Max.X
					head, tail := in.Min.Y-mat.Min.Y, mat.Max.Y-in.Max.Y
					found = found || (right-left == 0 || right-left == 1) && (tail-head == 0 || tail-head == 1) && left >= 3*mm && left < 4*mm && head >= 3*mm && head < 4*mm
				}
			}
			if !found {
				t.Errorf("a print of %v is said to lie at %v, and no mat lies round it", w.Content().Size, w.Rect())
			}
		}
		narrower, lower, thinner := l.Proof()
		step, cover, n := l.Plan().Spec().Rulers.Board.Step(), l.Plan().Spec().Cover, l.Plan().Notation()
		for size, err := range map[units.Size]error{cover.Plus(-step, 0): narrower, cover.Plus(0, -step): lower} {
			text := " in a cover of " + n.Text(size.W) + " x " + n.Text(size.H)
			if _, more, ok := strings.Cut(err.Error(), " in a cover of "); ok && !strings.Contains(err.Error(), text) {
				t.Errorf("proof of %v: … in a cover of %s", size, more)
			} else if ok {
				covers++
			}
		}
		for _, err := range []error{narrower, lower, thinner} {
			if err == nil {
				t.Error("no proof")
			} else if refusedWith(err, "cover.w", folio.WarnRuler) {
				t.Error(err)
			}
		}
	}
	if onPanel == 0 || covers == 0 {
		t.Error("nothing lies on a panel, or no proof says in which cover nothing does")
	}
}

// Equal contents are one question: which of them goes where makes no difference, so
// that seven of which six pockets take six, beside two slabs of which the folio closes
// over one, are known not to go in after a few steps, not after 6! orders of them.
func TestEqualContentsAreOneQuestion(t *testing.T) {
	ticket := pocket.Content{Name: "ticket", Size: units.Size{W: 40 * mm, H: 50 * mm}, Thickness: mm / 5}
	s := folio.Spec{Cover: units.Size{W: 250 * mm, H: 250 * mm}, Spine: rule.Spine{Width: 16 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres}}
	for i := range 6 {
		s.Fittings = append(s.Fittings, folio.Fitting{
			Panel: [...]boards.Role{boards.LeftCover, boards.RightCover}[i%2], Kind: folio.Folded{Kind: pocket.Slip{Content: ticket}},
			Place: place.Place{Across: place.Left, Along: place.Head, Offset: units.Point{X: 10*mm + 70*mm*units.Length(i/2), Y: 10 * mm}},
		})
	}
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	slab := pocket.Content{Name: "slab", Size: units.Size{W: 200 * mm, H: 120 * mm}, Thickness: 7 * mm}
	contents := []pocket.Content{ticket, ticket, ticket, ticket, ticket, ticket, slab}
	if ways, err := fit.Of(p).All(context.Background(), fit.Budget{Steps: 400}, contents...); err != nil || misplaced(ways, contents) != "" {
		t.Errorf("one slab: %v", err)
	}
	if _, err := fit.Of(p).All(context.Background(), fit.Budget{Steps: 400}, append(contents, slab)...); !refusedWith(err, "contents", fit.NotHeld) {
		t.Error(err)
	}
	// Of different ones too: of thick tickets there are two more than pockets, each for
	// three thin ones, and thin ones go in at once, as many as there is room for.
	for i := range s.Fittings {
		s.Fittings[i].Kind = folio.Folded{Kind: pocket.Slip{Content: ticket, Count: 3}}
	}
	if p, err = folio.Build(s); err != nil {
		t.Fatal(err)
	}
	var thick, thin []pocket.Content
	for i := range units.Length(18) {
		c := ticket
		c.Size.W -= i
		if thin = append(thin, c); i < 8 {
			c.Thickness *= 2
			thick = append(thick, c)
		}
	}
	if _, err := fit.Of(p).InFittings(context.Background(), fit.Budget{Steps: 50}, thick...); !refusedWith(err, "contents", fit.NotHeld) {
		t.Errorf("thick tickets: %v", err)
	}
	if ways, err := fit.Of(p).InFittings(context.Background(), fit.Budget{Steps: 5}, thin...); err != nil || misplaced(ways, thin) != "" {
		t.Errorf("thin tickets: %v", err)
	}
	// What lies in a fitting is turned where that is how it goes in.
	chest, ticket := chest(t)
	medal := pocket.Content{Name: "medal", Size: units.Size{W: 70 * mm, H: 30 * mm}, Thickness: 9 * mm / 2}
	for _, contents := range [][]pocket.Content{{ticket.Turned(), medal, medal}, {ticket, medal, medal}} {
		ways, err := fit.Of(chest).All(context.Background(), fit.Budget{}, contents...)
		if err != nil || misplaced(ways, contents) != "" {
			t.Errorf("%v: %v, %s", contents[0].Size, err, misplaced(ways, contents))
		}
	}
}

// What is wrong with a content is told in the notation of the folio.
func TestContentsAreToldInTheirNotation(t *testing.T) {
	wide := pocket.Content{Name: "print", Size: units.Size{W: units.Longest + 1, H: 90 * mm}}
	for _, c := range []struct {
		ruler     units.Ruler
		unit, not string
	}{{units.WholeMillimetres, " mm", " in"}, {units.Sixteenths, " in", " mm"}} {
		s := folio.Spec{Rulers: rule.Rulers{Main: c.ruler}}
		_, smallest := fit.Smallest(context.Background(), s, fit.Budget{}, wide)
		s.Cover, s.Spine.Width = units.Size{W: 6 * units.Inch, H: 8 * units.Inch}, units.Inch
		p, err := folio.Build(s)
		if err != nil {
			t.Fatal(err)
		}
		_, all := fit.Of(p).All(context.Background(), fit.Budget{}, wide)
		for _, err := range []error{smallest, all} {
			if err == nil || !strings.Contains(err.Error(), c.unit) || strings.Contains(err.Error(), c.not) {
				t.Errorf("in%s: %v", c.unit, err)
			}
		}
	}
}
