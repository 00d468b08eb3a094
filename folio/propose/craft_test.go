package propose_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/post"
	"boardwrap.example/folio/propose"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// uneven says which board of a plan has unequal margins round what lies on it: by
// more than two graduations of the ruler, one for each side.
func uneven(p *folio.Plan) string {
	for b := range p.Boards() {
		role := b.Role()
		var all units.Rect
		for f := range p.Fittings() {
			if f.Panel() == role && !f.Outside() {
				all = all.Union(f.Rect())
			}
		}
		if all.Empty() {
			continue
		}
		panel, _ := p.Panel(role, false)
		left, right := all.Min.X-panel.Min.X, panel.Max.X-all.Max.X
		head, tail := all.Min.Y-panel.Min.Y, panel.Max.Y-all.Max.Y
		if step := 2 * p.Spec().Rulers.Fitting.Step(); (left-right).Abs() > step || (head-tail).Abs() > step || min(left, right, head, tail) < 0 {
			return fmt.Sprintf("on the %v margins of %v, %v, %v and %v", role, left, right, head, tail)
		}
	}
	return ""
}

// crafted says what a craftsperson would not like: margins that are not equal, a
// mouth that opens to the fore edge, and what does not stay in the middle of a
// larger cover.
func crafted(p propose.Proposal) string {
	if bad := uneven(p.Plan()); bad != "" {
		return bad
	}
	boards := slices.Collect(p.Plan().Boards())
	for f := range p.Plan().Fittings() {
		for _, s := range f.Spots() {
			mouth, slips := s.Mouth()
			if slips && (mouth == score.Left && f.Panel() == boards[0].Role() || mouth == score.Right && f.Panel() == boards[len(boards)-1].Role()) {
				return f.Label() + " opens to the fore edge"
			}
		}
	}
	if bad := unread(p.Plan()); bad != "" {
		return bad
	}
	larger := p.Spec()
	step := larger.WithDefaults().Rulers.Board.Step()
	larger.Cover = larger.Cover.Plus(20*step, 10*step)
	plan, err := folio.Build(larger)
	if err != nil {
		return "on a larger cover: " + err.Error()
	}
	return uneven(plan)
}

// unread says which fittings of a board do not come in the order in which one reads,
// from the head down and from left to right: those that lie by themselves, and after
// them those that lie in line with another.
func unread(p *folio.Plan) string {
	at := p.Spec().Fittings
	last := map[boards.Role]folio.Fitted{}
	for f := range p.Fittings() {
		if f.Outside() {
			continue
		}
		before, ok := last[f.Panel()]
		last[f.Panel()] = f
		if !ok {
			continue
		}
		inLine := func(f folio.Fitted) bool {
			l := at[f.Index()].Place
			return l.AcrossOf != "" || l.AlongOf != ""
		}
		a, b := before.Rect().Min, f.Rect().Min
		if inLine(before) && !inLine(f) || inLine(before) == inLine(f) && (a.Y > b.Y || a.Y == b.Y && a.X > b.X) {
			return fmt.Sprintf("%s comes after %s", f.Label(), before.Label())
		}
	}
	return ""
}

// At the spine and at the tail lies what is thick: a card beside a ticket of its
// size, and over it.
func TestThickAtSpineAndTail(t *testing.T) {
	size := units.Size{W: 60 * mm, H: 40 * mm}
	thick := propose.Thing{Content: pocket.Content{Name: "token", Size: size, Thickness: mm}, Group: "crew", Upright: true, Sight: propose.InView}
	thin := propose.Thing{Content: pocket.Content{Name: "ticket", Size: size, Thickness: mm / 10}, Group: "crew", Upright: true, Sight: propose.InView}
	high := thin
	high.Content.Size.H += 8 * mm
	for _, c := range []struct {
		name   string
		things []propose.Thing
		limit  units.Size
		beside bool
		anyhow bool
	}{
		{"beside", []propose.Thing{thick, thin}, units.Size{H: 80 * mm}, true, false},
		{"beside, the other way", []propose.Thing{thin, thick}, units.Size{H: 80 * mm}, true, false},
		{"beside a higher one", []propose.Thing{thick, high}, units.Size{H: 80 * mm}, true, false},
		{"beside a higher one, the other way", []propose.Thing{high, thick}, units.Size{H: 80 * mm}, true, false},
		{"over it", []propose.Thing{thick, thin}, units.Size{W: 100 * mm}, false, false},
		{"over it, the other way", []propose.Thing{thin, thick}, units.Size{W: 100 * mm}, false, false},
		{"anyhow", []propose.Thing{thin, thick}, units.Size{W: 100 * mm}, false, true},
	} {
		a := asked(t, propose.Request{Things: c.things, Case: metric(), Limits: propose.Limits{Cover: c.limit}, Taste: propose.Taste{Anyhow: c.anyhow}})
		p, ok := a.Of(propose.Smallest)
		if !ok {
			t.Fatalf("%s: none", c.name)
		}
		var rects [2]units.Rect // of the thick one, of the thin one
		i := 0
		for h := range p.Held() {
			n := 0
			if c.things[h.Thing].Content.Name == "ticket" {
				n = 1
			}
			for f := range p.Plan().Fittings() {
				if f.Index() == h.Fitting {
					rects[n] = f.Rect()
				}
			}
			if h.Panel != boards.RightCover && !c.anyhow {
				t.Errorf("%s: on the %v, which does not lie on the table", c.name, h.Panel)
			}
			i++
		}
		switch {
		case i != 2:
			t.Errorf("%s: %d fittings", c.name, i)
		case c.anyhow:
		case c.beside && rects[0].Min.X >= rects[1].Min.X:
			t.Errorf("%s: the thick one lies at %v, the thin one at %v", c.name, rects[0], rects[1])
		case !c.beside && rects[0].Min.Y <= rects[1].Min.Y:
			t.Errorf("%s: the thick one lies at %v, the thin one at %v", c.name, rects[0], rects[1])
		}
	}
}

// Lined up, two of unequal height beside each other have their heads in a line;
// centred, their middles.
func TestOrder(t *testing.T) {
	r := propose.Request{Case: metric(), Limits: propose.Limits{Cover: units.Size{H: 110 * mm}}}
	for i, h := range []units.Length{40 * mm, 60 * mm} {
		r.Things = append(r.Things, propose.Thing{Group: "crew", Upright: true, Sight: propose.InView,
			Content: pocket.Content{Name: string(rune('a' + i)), Size: units.Size{W: 50 * mm, H: h}}})
	}
	for _, order := range []propose.Order{propose.Centred, propose.LinedUp} {
		r.Taste.Order = order
		p, ok := asked(t, r).Of(propose.Smallest)
		if !ok {
			t.Fatal("none")
		}
		var rects []units.Rect
		for f := range p.Plan().Fittings() {
			rects = append(rects, f.Rect())
		}
		heads := (rects[0].Min.Y - rects[1].Min.Y).Abs()
		middles := (rects[0].Min.Y + rects[0].Max.Y - rects[1].Min.Y - rects[1].Max.Y).Abs()
		if order == propose.Centred && middles > 2*mm || order == propose.LinedUp && heads != 0 {
			t.Errorf("%v: %v and %v", order, rects[0], rects[1])
		}
	}
}

// At a limit there is the same folio as without it, a step below it another one
// or none, and the reason says what is over.
func TestLimits(t *testing.T) {
	base := propose.Request{Things: usualThings(t), Case: metric()}
	base.Things[0].Count = 3
	free := asked(t, base)
	small, _ := free.Of(propose.Smallest)
	thin, _ := free.Of(propose.Thinnest)
	closed := small.Closed()
	for _, c := range []struct {
		name     string
		aim      propose.Aim
		at, over propose.Limits
	}{
		{"cover", propose.Smallest, propose.Limits{Cover: small.Cover()}, propose.Limits{Cover: small.Cover().Plus(-mm, 0)}},
		{"cover height", propose.Smallest, propose.Limits{Cover: units.Size{H: small.Cover().H}}, propose.Limits{Cover: units.Size{H: small.Cover().H - mm}}},
		{"thickness", propose.Thinnest, propose.Limits{Thickness: thin.Closed().Thickness().Length()}, propose.Limits{Thickness: thin.Closed().Thickness().Length() - 1}},
		{"envelope", propose.Smallest, propose.Limits{Into: propose.Space{Size: closed.Size().Turned()}}, propose.Limits{Into: propose.Space{Size: closed.Size().Turned(), Padding: units.Shortest}}},
		{"depth", propose.Thinnest, propose.Limits{Into: propose.Space{Depth: thin.Closed().Thickness().Length() + 2*mm, Padding: mm}}, propose.Limits{Into: propose.Space{Depth: thin.Closed().Thickness().Length() + 2*mm - 1, Padding: mm}}},
	} {
		r := base
		r.Limits = c.at
		p, ok := asked(t, r).Of(c.aim)
		want := small.Cover()
		if c.aim == propose.Thinnest {
			want = thin.Cover()
		}
		if !ok || p.Cover() != want {
			t.Errorf("%s: at the limit %v, %v; want %v", c.name, p, ok, want)
		}
		r.Limits = c.over
		a := asked(t, r)
		if q, ok := a.Of(c.aim); ok && (within(r, q) != "" || c.aim == propose.Smallest && q.Cover() == want || c.aim == propose.Thinnest) {
			t.Errorf("%s: over the limit a cover of %v", c.name, q.Cover())
		}
		// What is too thick is said to be so for what asks for it.
		cause, ok := map[string]propose.Cause{"thickness": propose.OverThick, "depth": propose.OverDepth}[c.name]
		for l := range a.Unmet() {
			for why := range l.Why() {
				if thick := why.Cause == propose.OverThick || why.Cause == propose.OverDepth; ok && thick && why.Cause != cause {
					t.Errorf("%s: %v", c.name, why.Cause)
				} else if thick {
					ok = false // it was said
				}
			}
		}
		if ok {
			t.Errorf("%s: it is not said what is too thick", c.name)
		}
	}
	// What a thing takes by itself is as thin as that may be, and proved to be the thinnest.
	one := propose.Request{Things: []propose.Thing{{Content: pocket.IDCard()}}, Without: but(propose.Slip)}
	alone, ok := asked(t, one).Of(propose.Thinnest)
	one.Limits.Thickness = alone.Closed().Thickness().Length()
	if again, is := asked(t, one).Of(propose.Thinnest); !ok || !is || !alone.Complete() || !again.Complete() || again.Cover() != alone.Cover() {
		t.Errorf("a card by itself: %v, %v, proved %v; no thicker than that %v, proved %v", alone.Cover(), ok, alone.Complete(), again.Cover(), again.Complete())
	}
	// Far below what a thing takes by itself, that is said of whatever is asked for.
	// No folio is built for that, so that it is a bound that is told.
	thick := thin.Closed().Thickness().Length() - 3*mm/2
	for _, most := range [...]units.Length{thin.Closed().Thickness().Length() / 2, thick} {
		r := base
		r.Limits.Thickness = most
		for l := range asked(t, r).Unmet() {
			if l.Aim() == propose.FewestSheets { // none are at hand
				continue
			}
			if !slices.ContainsFunc(slices.Collect(l.Why()), func(why propose.Reason) bool {
				return why.Cause == propose.OverThick && why.ThanThick == most && (why.AtLeast || most == thick)
			}) {
				t.Errorf("%v, at most %v thick: not said to be too thick: %v", l.Aim(), most, slices.Collect(l.Why()))
			}
		}
	}
}

// Small enough for a small parcel; no flat, which must bend; two sheets of board
// do where one is needed, and none do not.
func TestPostAndSheets(t *testing.T) {
	r := propose.Request{Things: usualThings(t), Case: metric(), Limits: propose.Limits{Post: propose.Post{Service: "Royal Mail", Format: "small parcel"}}}
	r.Things[0].Count = 3
	if _, ok := asked(t, r).Of(propose.Smallest); !ok {
		t.Error("no small parcel")
	}
	causes := func(a *propose.Proposals, c propose.Cause) int {
		n := 0
		for l := range a.Unmet() {
			for why := range l.Why() {
				if why.Cause == c {
					n++
				}
			}
		}
		return n
	}
	r.Limits.Post = propose.Post{Service: "USPS", Format: "flat"}
	flat := asked(t, r)
	if n := causes(flat, propose.OverPost); n < 3 {
		t.Errorf("a flat is refused %d times", n)
	}
	// Boards do not bend, whatever their size, and a packing of 1 kg is more than a
	// large letter's 750 g, however thin the folio may be: that comes first.
	r.Limits.Post = propose.Post{Service: "Royal Mail", Format: "large letter", Packing: post.Packing{Mass: units.Kilogram, Padding: 20 * mm}}
	heavy, err := propose.Folios(t.Context(), r, propose.Budget{Steps: 20_000})
	if err != nil || causes(heavy, propose.OverPost) == 0 {
		t.Fatal("a letter of a kilogram", err)
	}
	for _, c := range []struct {
		a    *propose.Proposals
		want string
	}{{flat, "it is rigid"}, {heavy, "is more than 750 g"}} {
		for l := range c.a.Unmet() {
			for why := range l.Why() {
				if first, _, _ := strings.Cut(why.Detail, "; "); why.Cause == propose.OverPost && !strings.HasSuffix(first, c.want) {
					t.Errorf("%q, want %q first", why.Detail, c.want)
				}
			}
		}
	}
	r.Limits.Post = propose.Post{}
	r.Limits.Materials = materials(2)
	a := asked(t, r)
	p, ok := a.Of(propose.FewestSheets)
	if n, counted := p.Sheets(); !ok || !counted || n != 1 || !p.Complete() {
		t.Errorf("%d sheets of board, %v", n, ok)
	}
	r.Limits.Materials[0].Sheets[0].Size = units.Size{W: 100 * mm, H: 100 * mm}
	a = asked(t, r)
	if n := causes(a, propose.OverSheets) + causes(a, propose.CannotBe); n < 3 {
		t.Errorf("sheets too small are refused %d times", n)
	}
}

// A folio of more area can take fewer sheets: of the smallest, 232 x 126 mm, no
// two boards come out of a sheet of 200 x 400 mm, since 2 x 126 is more than 200 and
// 2 x 232 more than 400; of covers of up to 200 x 195 mm two and a spine do.
func TestFewestSheets(t *testing.T) {
	r := propose.Request{Things: usualThings(t), Case: metric()}
	r.Case.Board.Sheets = []stock.Sheet{{Size: units.Size{W: 200 * mm, H: 400 * mm}}}
	a := asked(t, r)
	small, ok := a.Of(propose.Smallest)
	few, ok2 := a.Of(propose.FewestSheets)
	if !ok || !ok2 {
		t.Fatal("none")
	}
	if n, _ := small.Sheets(); n != 2 || small.Cover() != (units.Size{W: 232 * mm, H: 126 * mm}) {
		t.Errorf("the smallest, %v, takes %d sheets of board", small.Cover(), n)
	}
	if n, _ := few.Sheets(); n != 1 || !few.Complete() {
		t.Errorf("the fewest sheets are %d with a cover of %v", n, few.Cover())
	}
	more := false
	for o := range few.RuledOut() {
		more = more || o.Why.Cause == propose.MoreSheets && o.Why.Sheets > o.Why.ThanSheets
	}
	if !more {
		t.Error("nothing was ruled out because it takes more sheets")
	}
}

// Of the smallest folio for a token, which comes out of an offcut of card, other ways
// are ruled out because they are larger or thicker, not for the sheet that they take.
func TestSheetsAreNoReasonForTheSmallest(t *testing.T) {
	token := pocket.Content{Name: "token", Size: units.Size{W: 30 * mm, H: 30 * mm}, Thickness: 400 * units.Micrometre}
	r := propose.Request{Case: metric(), Things: []propose.Thing{{Content: token, Count: 1, Sight: propose.TuckedAway, Sticks: true}}}
	r.Case.Stocks, r.Stock = []stock.Stock{{Name: "card", Caliper: mm / 4, TwoSided: true}}, "card"
	r.Limits.Materials = []layout.Material{{Name: "card", Caliper: mm / 4, Sheets: []layout.SheetKind{
		{Size: units.Size{W: 60 * mm, H: 70 * mm}, Count: 1, Offcut: true}, {Size: units.Size{W: 200 * mm, H: 280 * mm}, Count: 1},
	}}}
	a, out := asked(t, r), 0
	for p := range a.All() {
		for o := range p.RuledOut() {
			if out++; o.Why.Cause == propose.MoreSheets && p.Aim() != propose.FewestSheets {
				t.Errorf("%v: %s", p.Aim(), o.Why.Text(units.MetricDecimal))
			}
		}
	}
	if p, _ := a.Of(propose.Smallest); out == 0 || p.Plan() == nil {
		t.Error("nothing is proposed, or nothing is ruled out")
	} else if n, counted := p.Sheets(); n != 0 || !counted {
		t.Errorf("the smallest takes %d sheets", n)
	}
}

// Two mats of 66 x 66 mm do not come out of one sheet of 70 x 70 mm: that two are the
// fewest is proved by their area, and three of three.
func TestFewestByTheCard(t *testing.T) {
	for n := 1; n <= 3; n++ {
		r := propose.Request{Case: metric(), Without: but(propose.Mat), Things: []propose.Thing{{Content: pocket.Content{Name: "picture", Size: units.Size{W: 60 * mm, H: 60 * mm}}, Count: n, Sticks: true}}}
		r.Case.Stocks, r.Stock = []stock.Stock{{Name: "card", Caliper: mm / 4, TwoSided: true, Sheets: []stock.Sheet{{Size: units.Size{W: 70 * mm, H: 70 * mm}}}}}, "card"
		p, ok := asked(t, r).Of(propose.FewestSheets)
		if sheets, _ := p.Sheets(); !ok || sheets != n || !p.Complete() {
			t.Errorf("%d mats: %d sheets, complete %v", n, sheets, p.Complete())
		}
	}
}

// materials are so many sheets of board.
func materials(n int) []layout.Material {
	return []layout.Material{{Name: "board", Sheets: []layout.SheetKind{{Size: units.Size{W: 600 * mm, H: 500 * mm}, Count: n}}}}
}
