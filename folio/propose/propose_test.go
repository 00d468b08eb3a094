package propose_test

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/post"
	"boardwrap.example/folio/propose"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"
)

const mm = units.Millimetre

// asked proposes, with a tenth of the default budget, and fails the test on an
// error.
func asked(t *testing.T, r propose.Request) *propose.Proposals {
	t.Helper()
	a, err := propose.Folios(context.Background(), r, propose.Budget{Steps: 10_000_000})
	if err != nil {
		t.Fatal(err)
	}
	if bad := missaid(r, a); bad != "" {
		t.Error(bad)
	}
	return a
}

// metric is a case for a maker with a ruler of millimetres.
func metric() folio.Spec { return folio.Spec{Rulers: rule.Rulers{Main: units.WholeMillimetres}} }

// sound says what is wrong with a proposal: what the library's own rooms say of
// it, asked anew.
func sound(r propose.Request, p propose.Proposal) string {
	plan, err := folio.Build(p.Spec())
	if err != nil {
		return "it does not build: " + err.Error()
	}
	for w := range plan.Warnings() {
		switch w.Code {
		case pocket.NarrowEdge, folio.WarnRuler, folio.WarnMargin, folio.WarnQuarter, folio.WarnPanels:
		default:
			return "it has a warning: " + w.String()
		}
	}
	if t, ok := plan.Tightest(true); !ok || !t.Closes() {
		return "it does not close"
	}
	for m := closing.BetweenCovers; m <= closing.BetweenOutsides; m++ {
		if t, ok := plan.TightestOf(m, true); ok && !t.Eased() {
			return "it closes without its ease: " + t.String()
		}
	}
	var contents []pocket.Content
	for _, t := range r.Things {
		for range max(t.Count, 1) {
			contents = append(contents, t.Content)
		}
	}
	if ways, err := fit.Of(plan).InFittings(context.Background(), fit.Budget{}, contents...); err != nil || len(ways) != len(contents) {
		return fmt.Sprint("not everything has its spot: ", err)
	}
	steps := 0
	for range plan.Steps() {
		steps++
	}
	if steps == 0 {
		return "it has no order of work"
	}
	return wishes(r, p)
}

// wishes says which wish of a request a proposal does not keep.
func wishes(r propose.Request, p propose.Proposal) string {
	spec := p.Spec()
	held := make([]int, len(r.Things))
	fittings := make([]int, len(r.Things))
	groups := map[string]boards.Role{}
	for h := range p.Held() {
		t := r.Things[h.Thing]
		held[h.Thing] += h.Copies
		fittings[h.Thing]++
		f := spec.Fittings[h.Fitting]
		_, stuck := f.Kind.(folio.Mat)
		switch {
		case slices.Contains(r.Without, h.Way):
			return "it uses a " + h.Way.String()
		case f.Panel != h.Panel:
			return "it says another cover"
		case stuck && !t.Sticks:
			return t.Content.Name + " is stuck down"
		case t.Sight == propose.InView && !h.Way.InView(), t.Sight == propose.TuckedAway && h.Way.InView():
			return t.Content.Name + " is to be " + t.Sight.String() + " and is in a " + h.Way.String()
		case p.Aim() == propose.AllInView && t.Sight != propose.TuckedAway && !h.Way.InView():
			return t.Content.Name + " is not in view"
		case h.Turned && t.Upright:
			return t.Content.Name + " is turned"
		}
		if t.Group != "" {
			if on, ok := groups[t.Group]; ok && on != h.Panel {
				return "the group " + t.Group + " is parted"
			}
			groups[t.Group] = h.Panel
		}
		for why := range h.Why() {
			if text := why.Text(units.MetricDecimal); text == "" || strings.Contains(text, "%") || !strings.HasSuffix(text, ".") {
				return fmt.Sprintf("the reason %v says %q", why.Cause, text)
			}
		}
	}
	for i, t := range r.Things {
		switch n := max(t.Count, 1); {
		case held[i] != n:
			return fmt.Sprintf("%d of %d %s are held", held[i], n, t.Content.Name)
		case t.Keeping == propose.Together && fittings[i] != 1:
			return t.Content.Name + " is not together"
		}
	}
	return ""
}

// within says which limit a proposal does not keep.
func within(r propose.Request, p propose.Proposal) string {
	l, c, o := r.Limits, p.Cover(), p.Closed()
	switch {
	case l.Cover.W > 0 && c.W > l.Cover.W, l.Cover.H > 0 && c.H > l.Cover.H:
		return fmt.Sprintf("a cover of %v", c)
	case l.Thickness > 0 && o.Thickness().Length() > l.Thickness:
		return fmt.Sprintf("a thickness of %v", o.Thickness())
	case l.Into.Size.W > 0 && !o.Size().Grow(l.Into.Padding).FitsTurned(l.Into.Size):
		return fmt.Sprintf("it does not go into %v", l.Into.Size)
	case l.Into.Depth > 0 && o.Thickness().Length() > l.Into.Depth-2*l.Into.Padding:
		return fmt.Sprintf("it is %v deep", o.Thickness())
	}
	for s := range post.Services() {
		if l.Post.Service != s.Name {
			continue
		}
		s.Formats = slices.DeleteFunc(slices.Clone(s.Formats), func(f post.ItemFormat) bool { return f.Name != l.Post.Format })
		item, err := post.Pack(p.Plan(), l.Post.Packing)
		if err != nil {
			return "it cannot be sent: " + err.Error()
		}
		report, err := s.Judge(item, units.MetricDecimal)
		if err != nil {
			return "it cannot be judged: " + err.Error()
		}
		for v := range report.Verdicts() {
			for f := range v.All() {
				if f.Treatment() == post.Refused {
					return "the post refuses it: " + f.Text()
				}
			}
		}
	}
	return ""
}

// usualThings are six prints, a card and a note.
func usualThings(t testing.TB) []propose.Thing {
	t.Helper()
	things, err := propose.ParseThings("6 photo 10 x 15 cm, 1 ID-1 card, 1 note")
	if err != nil {
		t.Fatal(err)
	}
	return things
}

// The usual case in inches and in millimetres: every proposal is sound, each is
// the best of all at its own aim, and the search is complete.
func TestUsual(t *testing.T) {
	for _, spec := range []folio.Spec{{}, metric(), {Form: boards.SoftSpine}} {
		r := propose.Request{Things: usualThings(t), Case: spec}
		r.Case.Covering.Sheets = []stock.Sheet{{Size: units.MustParseSize("700 x 1000 mm")}}
		a := asked(t, r)
		small, ok := a.Of(propose.Smallest)
		thin, ok2 := a.Of(propose.Thinnest)
		few, ok3 := a.Of(propose.FewestSheets)
		view, ok4 := a.Of(propose.AllInView)
		if !ok || !ok2 || !ok3 || !ok4 {
			t.Fatalf("%v: not every aim has a folio", spec.Form)
		}
		fewest, _ := few.Sheets()
		for p := range a.All() {
			if bad := sound(r, p); bad != "" {
				t.Errorf("%v, %v: %s", spec.Form, p.Aim(), bad)
			}
			if !p.Complete() {
				t.Errorf("%v, %v: not complete", spec.Form, p.Aim())
			}
			n, counted := p.Sheets()
			switch {
			case p.Cover().Area().Compare(small.Cover().Area()) < 0:
				t.Errorf("the %v is smaller than the smallest", p.Aim())
			case p.Closed().Thickness().Length() < thin.Closed().Thickness().Length():
				t.Errorf("the %v is thinner than the thinnest", p.Aim())
			case !counted || n < fewest:
				t.Errorf("the %v takes %d sheets, %v, the fewest %d", p.Aim(), n, counted, fewest)
			}
			out := 0
			for o := range p.RuledOut() {
				if text := o.Why.Text(a.Notation()); text == "" || strings.Contains(text, "%") {
					t.Errorf("%v: %q", o.Why.Cause, text)
				}
				out++
			}
			if out != 3*7 {
				t.Errorf("%v: %d other ways, want 7 for each of 3 things", p.Aim(), out)
			}
		}
		if view.Cover().Area().Compare(small.Cover().Area()) <= 0 {
			t.Error("six prints in view are no larger than in a pocket")
		}
	}
}

// anyThing makes things of numbers.
func anyThing(n []int) propose.Thing {
	return propose.Thing{
		Content: pocket.Content{Name: "thing", Size: units.Size{
			W: 20*mm + mm/4*units.Length(n[0]), H: 20*mm + mm/4*units.Length(n[1]),
		}, Thickness: mm / 20 * units.Length(n[2])},
		Count: n[3], Sight: propose.Sight(n[4]), Keeping: propose.Keeping(n[5]),
		Sticks: n[6]%2 == 1, Upright: n[6]/2%2 == 1, Group: [...]string{"", "", "crew", "boat"}[n[6]/4],
	}
}

// rowsOfAll are a case of each form, and some rows as data: three boards to and
// fro, of which one looks out; a cover with a pocket board of its own width, behind
// a spine; five boards with spines.
func rowsOfAll() []folio.Spec {
	var out []folio.Spec
	for f := boards.SpineBoard; f < boards.OwnRow; f++ {
		out = append(out, folio.Spec{Form: f})
	}
	mountain := boards.Joint{Fold: score.Mountain}
	return append(out,
		folio.Spec{Row: boards.Row{Boards: []boards.Board{{Role: boards.Panel1}, {Role: boards.Panel2}, {Role: boards.Panel3}}, Joints: []boards.Joint{{}, mountain}}},
		folio.Spec{Row: boards.Row{Boards: []boards.Board{{Role: boards.LeftCover}, {Role: boards.Spine1}, {Role: boards.RightCover}, {Role: boards.Spine2}, {Role: boards.Flap, Width: 60 * mm, Over: boards.LeftCover}}}},
		folio.Spec{Row: boards.Row{Boards: []boards.Board{
			{Role: boards.Panel1}, {Role: boards.Spine1}, {Role: boards.Panel2}, {Role: boards.Spine2}, {Role: boards.Panel3}, {Role: boards.Spine3}, {Role: boards.Panel4}, {Role: boards.Spine4}, {Role: boards.Panel5},
		}, Joints: []boards.Joint{{}, {}, mountain, mountain, {}, {}, mountain, mountain}}},
	)
}

// anyRequest generates requests: one to four things, inches or millimetres, half
// of them of any row, some with limits.
func anyRequest() gopter.Gen {
	thing := proptest.Map(gopter.CombineGens(gen.IntRange(0, 400), gen.IntRange(0, 400), gen.IntRange(0, 40),
		gen.IntRange(0, 3), gen.IntRange(0, 2), gen.IntRange(0, 2), gen.IntRange(0, 15)), func(v []any) propose.Thing {
		n := make([]int, len(v))
		for i := range v {
			n[i] = v[i].(int)
		}
		return anyThing(n)
	})
	return proptest.Map(gopter.CombineGens(proptest.List(1, 4, thing), gen.IntRange(0, 255), gen.IntRange(0, 300), gen.IntRange(0, 300), gen.IntRange(0, 30), gen.IntRange(0, 19), gen.IntRange(0, 255)),
		func(v []any) propose.Request {
			r := propose.Request{Things: slices.Clone(v[0].([]propose.Thing))}
			for i := range r.Things {
				r.Things[i].Content.Name += string(rune('a' + i))
			}
			bits := v[1].(int)
			w, h, d := units.Length(v[2].(int)), units.Length(v[3].(int)), units.Length(v[4].(int))
			if bits&1 != 0 {
				r.Case = metric()
			}
			if bits&2 != 0 {
				rows := rowsOfAll()
				row := rows[v[5].(int)%len(rows)]
				r.Case.Form, r.Case.Row = row.Form, row.Row
			}
			if bits&4 != 0 {
				r.Limits.Cover = units.Size{W: 60*mm + w*mm, H: 60*mm + h*mm}
			}
			if bits&8 != 0 {
				r.Limits.Thickness = 5*mm + d*mm/2
			}
			if bits&16 != 0 {
				r.Limits.Into = propose.Space{Size: units.Size{W: 80*mm + h*mm, H: 80*mm + w*mm}, Depth: 5*mm + d*mm, Padding: 0}
			}
			if bits&32 != 0 {
				r.Taste = propose.Taste{Order: propose.LinedUp, Margin: units.None, Between: units.None, Anyhow: bits&64 != 0}
			}
			if bits&128 != 0 {
				r.Without = []propose.Holder{propose.Holder(w % 8), propose.Holder(h % 8)}
			}
			more(&r, v[6].(int))
			return r
		})
}

// more says more in a request than most do: an ornament outside, a liner on another
// ruler, an ease, a padding, sheets at hand, a way to send it.
func more(r *propose.Request, bits int) {
	if bits&3 == 3 {
		row := r.Case.Row.Boards
		if len(row) == 0 {
			row = r.Case.Form.Row().Boards
		}
		crest := folio.Fitting{Name: "crest", Panel: row[bits>>6%2*(len(row)-1)].Role, Outside: true, Kind: folio.Ornament{Size: units.Size{W: 20 * mm, H: 20 * mm}, Thickness: mm}}
		if bits&64 != 0 { // or a pocket with tickets in it
			crest.Kind = folio.Folded{Kind: pocket.Slip{Content: pocket.Content{Name: "ticket", Size: units.Size{W: 15 * mm, H: 15 * mm}, Thickness: mm / 2}}}
		}
		r.Case.Fittings = []folio.Fitting{crest}
	}
	if bits&12 == 12 {
		r.Case.Rulers = rule.Rulers{Main: units.WholeMillimetres, Liner: units.Ruler(3 * mm)}
	}
	if bits&16 != 0 {
		r.Case.Closing.Ease = 2 * mm
		r.Limits.Into.Padding = mm
	}
	if bits&40 == 40 {
		r.Limits.Materials = []layout.Material{{Name: "board", Sheets: []layout.SheetKind{{Size: units.Size{W: 500 * mm, H: 300 * mm}, Count: 1 + bits>>7}}}}
	}
	if bits&84 == 84 {
		r.Limits.Post = propose.Post{Service: post.RoyalMail().Name, Format: post.RoyalMail().Formats[2].Name}
	}
}

// Whatever is asked for, what is proposed is sound, keeps the wishes and the
// limits, says why, and a smaller budget finds nothing better.
func TestProposals(t *testing.T) {
	met := map[propose.Aim]int{}
	lacked := 0
	proptest.Run(t, 100, func(ps *gopter.Properties) {
		ps.Property("what is proposed is sound", prop.ForAll(func(r propose.Request) string {
			a, err := propose.Folios(context.Background(), r, propose.Budget{Steps: 4_000_000})
			if err != nil {
				return err.Error()
			}
			if bad := missaid(r, a); bad != "" {
				return bad
			}
			for p := range a.All() {
				met[p.Aim()]++
				bad := sound(r, p) + within(r, p)
				if r.Taste.Order == propose.Centred {
					bad += crafted(p)
				}
				if bad != "" {
					return p.Aim().String() + ": " + bad
				}
			}
			for l := range a.Unmet() {
				n := 0
				for why := range l.Why() {
					if text := why.Text(units.InchFraction); text == "" || strings.Contains(text, "%") {
						return fmt.Sprintf("lacking %v: %v says %q", l.Aim(), why.Cause, text)
					}
					if why.Thing >= 0 && why.Name != r.Things[why.Thing].Content.Name || why.Thing < 0 && why.Name != "" {
						return fmt.Sprintf("lacking %v: %v is said of %d, %q", l.Aim(), why.Cause, why.Thing, why.Name)
					}
					n++
				}
				if lacked++; n == 0 {
					return "no reason why there is no " + l.Aim().String()
				}
			}
			return better(r, a)
		}, anyRequest()))
	})
	if least := proptest.Cases(100) / 5; met[propose.Smallest] < least || met[propose.Thinnest] < least || met[propose.AllInView] < least/2 || lacked < least {
		t.Errorf("lopsided: %v found, %d lacking", met, lacked)
	}
}

// better says what a tenth of the budget finds where there is said to be nothing, or
// that is better than what is said to be the best.
func better(r propose.Request, a *propose.Proposals) string {
	less, err := propose.Folios(context.Background(), r, propose.Budget{Steps: 400_000})
	if err != nil {
		return err.Error()
	}
	if bad := missaid(r, less); bad != "" {
		return "with a smaller budget: " + bad
	}
	for q := range less.All() {
		p, ok := a.Of(q.Aim())
		switch {
		case !ok:
			return "a smaller budget finds a folio: " + q.Aim().String()
		case p.Complete() && q.Aim() != propose.FewestSheets && beyond(q.Aim(), q, p) < 0:
			return fmt.Sprintf("a smaller budget finds a better one than the %v: %v, %v", q.Aim(), q.Cover(), q.Closed().Thickness())
		}
	}
	return ""
}

// beyond compares two folios by the measure of an aim alone.
func beyond(aim propose.Aim, p, q propose.Proposal) int {
	switch aim {
	case propose.Thinnest:
		return cmp.Compare(p.Closed().Thickness().Length(), q.Closed().Thickness().Length())
	case propose.FewestSheets:
		n, _ := p.Sheets()
		m, _ := q.Sheets()
		return n - m
	}
	return cmp.Or(p.Cover().Area().Compare(q.Cover().Area()), cmp.Compare(p.Cover().W, q.Cover().W))
}

// Wherever the budget ends a search, what it says is true: what is found is sound, why
// there is nothing is so, and what is said to be the best, or not to be there, is no
// other than what an endless search finds.
func TestAnyBudget(t *testing.T) {
	card := propose.Thing{Content: pocket.IDCard(), Count: 2}
	photo := propose.Thing{Content: pocket.Content{Name: "photo", Size: units.Size{W: 90 * mm, H: 130 * mm}, Thickness: mm / 4}, Sight: propose.InView}
	medal := propose.Thing{Content: pocket.Content{Name: "medal", Size: units.Size{W: 45 * mm, H: 45 * mm}, Thickness: 4 * mm}}
	coarse := metric()
	coarse.Rulers.Liner = units.Ruler(3 * mm)
	sheets := metric()
	sheets.Board.Sheets = []stock.Sheet{{Size: units.Size{W: 150 * mm, H: 290 * mm}}}
	elsewhere := metric()
	elsewhere.Stocks = []stock.Stock{{Name: "velvet", Caliper: mm, Sheets: []stock.Sheet{{Size: units.Size{W: mm, H: mm}}}}}
	things := []propose.Thing{card, photo, medal}
	more := int64(20) // times from one budget to the next
	if proptest.Whole {
		more = 3
	}
	for name, r := range map[string]propose.Request{
		"a case":                  {Case: metric()},
		"too small a cover":       {Case: metric(), Limits: propose.Limits{Cover: units.Size{W: 100 * mm, H: 140 * mm}}},
		"a low cover":             {Case: metric(), Limits: propose.Limits{Cover: units.Size{H: 50 * mm}}},
		"too thin":                {Case: metric(), Limits: propose.Limits{Thickness: 8 * mm}},
		"hardly thin enough":      {Case: metric(), Limits: propose.Limits{Thickness: 23 * mm / 2}},
		"a narrow box":            {Case: metric(), Limits: propose.Limits{Into: propose.Space{Size: units.Size{W: 250 * mm, H: 150 * mm}, Depth: 13 * mm, Padding: mm}}},
		"a liner on its ruler":    {Case: coarse},
		"few sheets":              {Case: sheets},
		"sheets that nobody uses": {Case: elsewhere},
		"forms":                   {Case: metric(), Forms: []propose.Form{{Form: boards.SoftSpine}, {Form: boards.ThreePanels}}},
	} {
		r.Things = things
		endless := asked(t, r)
		for b := int64(1); b < endless.Steps(); b *= more {
			a, err := propose.Folios(context.Background(), r, propose.Budget{Steps: b})
			if err != nil {
				t.Fatal(err)
			}
			bad := missaid(r, a)
			for p := range a.All() {
				bad += sound(r, p) + within(r, p)
				if best, ok := endless.Of(p.Aim()); !ok || p.Complete() && beyond(p.Aim(), p, best) != 0 || best.Complete() && beyond(p.Aim(), p, best) < 0 {
					bad += fmt.Sprintf("the %v is %v, %v, complete %v; an endless search finds %v, %v", p.Aim(), p.Cover(), p.Closed().Thickness(), p.Complete(), best.Cover(), best.Closed().Thickness())
				}
			}
			for l := range a.Unmet() {
				best, ok := endless.Of(l.Aim())
				if ok && name == "a case" {
					bad += "no plain folio is tried" // as is promised whatever the budget
				}
				if ok && l.Complete() {
					bad += fmt.Sprintf("there is said to be no %v, and an endless search finds a cover of %v", l.Aim(), best.Cover())
				}
			}
			if bad != "" {
				t.Errorf("%s, %d steps: %s", name, b, bad)
			}
		}
	}
}

// Where the budget ends before any thin folio is looked at, that is said, and not that none
// can be: of fourteen prints of 1.5 m in a group a plain row is longer than 10 m.
func TestNotTriedIsSaid(t *testing.T) {
	r := propose.Request{Case: metric()}
	for range 14 {
		r.Things = append(r.Things, propose.Thing{Sticks: true, Upright: true, Group: "crew", Content: pocket.Content{Name: "banner", Size: units.Size{W: 1500 * mm, H: 1500 * mm}}})
	}
	a, err := propose.Folios(context.Background(), r, propose.Budget{Steps: 1})
	if err != nil {
		t.Fatal(err)
	}
	said := false
	for l := range a.Unmet() {
		for why := range l.Why() {
			said = said || l.Aim() == propose.Thinnest && why.Cause == propose.NotTried && !l.Complete()
		}
	}
	if !said {
		t.Error("nothing is said of the thinnest")
	}
}

// The same request gives the same answer.
func TestSameAgain(t *testing.T) {
	r := propose.Request{Things: usualThings(t)}
	a, b := asked(t, r), asked(t, r)
	if a.Steps() != b.Steps() {
		t.Errorf("%d steps, then %d", a.Steps(), b.Steps())
	}
	for p := range a.All() {
		q, _ := b.Of(p.Aim())
		if fmt.Sprint(p.Spec(), slices.Collect(p.RuledOut())) != fmt.Sprint(q.Spec(), slices.Collect(q.RuledOut())) {
			t.Errorf("the %v differs", p.Aim())
		}
	}
}

// What is done to a request or to what was handed out changes no proposal.
func TestNothingShared(t *testing.T) {
	r := propose.Request{Things: usualThings(t), Case: metric()}
	r.Case.Covering.Sheets = []stock.Sheet{{Size: units.MustParseSize("700 x 1000 mm")}}
	r.Case.Stocks = []stock.Stock{{Name: "blue card", Caliper: mm / 4, TwoSided: true, Sheets: []stock.Sheet{{Size: units.MustParseSize("450 x 640 mm")}}}}
	r.Stock = "blue card"
	p, ok := asked(t, r).Of(propose.Smallest)
	if !ok {
		t.Fatal("none")
	}
	for range p.Held() {
		break // who has seen enough hears no more
	}
	before := fmt.Sprint(p.Spec())
	r.Case.Covering.Sheets[0], r.Case.Stocks[0].Sheets[0], r.Things[0].Content.Name = stock.Sheet{}, stock.Sheet{}, "other"
	s := p.Spec()
	s.Covering.Sheets[0], s.Stocks[0].Sheets[0], s.Fittings[0] = stock.Sheet{}, stock.Sheet{}, folio.Fitting{}
	p.Ways()[0] = fit.Berth{}
	if after := fmt.Sprint(p.Spec()); after != before || p.Ways()[0] == (fit.Berth{}) {
		t.Errorf("%s\nthen\n%s", before, after)
	}
}

// A context that has ended gives its error, and asks nothing of anyone.
func TestContextEnded(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	a, err := propose.Folios(ctx, propose.Request{Things: usualThings(t)}, propose.Budget{})
	if a != nil || !errors.Is(err, context.Canceled) {
		t.Error(a, err)
	}
}

// Nil is a context that never ends.
func TestNoContext(t *testing.T) {
	var none context.Context
	a, err := propose.Folios(none, propose.Request{Things: []propose.Thing{{Content: pocket.IDCard()}}}, propose.Budget{Steps: 100_000})
	if err != nil {
		t.Fatal(err)
	}
	if _, ok := a.Of(propose.Smallest); !ok {
		t.Error("nothing holds a card")
	}
}

// What cannot be asked is said at once, with paths.
func TestRefused(t *testing.T) {
	photo := propose.Thing{Content: pocket.Content{Size: units.Size{W: 90 * mm, H: 130 * mm}}}
	many := photo
	many.Count = 1_000_000
	for _, c := range []struct {
		path string
		code check.Code
		r    propose.Request
	}{
		{"things", check.Missing, propose.Request{}},
		{"things", check.TooMany, propose.Request{Things: make([]propose.Thing, propose.MostThings+1)}},
		{"things[1].count", check.TooMany, propose.Request{Things: []propose.Thing{photo, many}}},
		{"things", check.TooMany, propose.Request{Things: []propose.Thing{{Content: photo.Content, Count: propose.MostCopies}, photo}}},
		{"things[0].count", check.Negative, propose.Request{Things: []propose.Thing{{Content: photo.Content, Count: -1}}}},
		{"things[0].content.size.w", check.NotPositive, propose.Request{Things: []propose.Thing{{}}}},
		{"things[0].content.size.h", check.OutOfRange, propose.Request{Things: []propose.Thing{{Content: pocket.Content{Size: units.Size{W: mm, H: 1 << 62}}}}}},
		{"things[0].content.thickness", check.Negative, propose.Request{Things: []propose.Thing{{Content: pocket.Content{Size: photo.Content.Size, Thickness: -1 << 63}}}}},
		{"things[0].sight", check.Unknown, propose.Request{Things: []propose.Thing{{Content: photo.Content, Sight: 9}}}},
		{"things[0].keeping", check.Unknown, propose.Request{Things: []propose.Thing{{Content: photo.Content, Keeping: 9}}}},
		{"case.form", check.Unknown, propose.Request{Things: []propose.Thing{photo}, Case: folio.Spec{Form: 99}}},
		{"case.form", check.Conflict, propose.Request{Things: []propose.Thing{photo}, Case: folio.Spec{Form: boards.OwnRow}}},
		{"case.cover", check.Conflict, propose.Request{Things: []propose.Thing{photo}, Case: folio.Spec{Cover: photo.Content.Size}}},
		{"case.spine", check.Conflict, propose.Request{Things: []propose.Thing{photo}, Case: folio.Spec{Spine: rule.Spine{Width: mm}}}},
		{"case.fittings[0].outside", check.Conflict, propose.Request{Things: []propose.Thing{photo}, Case: folio.Spec{Fittings: []folio.Fitting{{Kind: folio.Mat{}}}}}},
		{"case.rulers.main", check.Unknown, propose.Request{Things: []propose.Thing{photo}, Case: folio.Spec{Rulers: rule.Rulers{Main: -1}}}},
		{"case.board.caliper", check.NotPositive, propose.Request{Things: []propose.Thing{photo}, Case: folio.Spec{Board: stock.Stock{Caliper: -mm}}}},
		{"case.stocks", check.Missing, propose.Request{Things: []propose.Thing{photo}, Stock: "velvet"}},
		{"case.hinge", folio.WarnOpen, propose.Request{Things: []propose.Thing{photo}, Case: folio.Spec{Hinge: rule.Hinge{Angle: 45, Width: 3 * mm / 2}}}},
		{"without[0]", check.Unknown, propose.Request{Things: []propose.Thing{photo}, Without: []propose.Holder{99}}},
		{"without", check.TooMany, propose.Request{Things: []propose.Thing{photo}, Without: make([]propose.Holder, 9)}},
		{"limits.cover.w", check.NotPositive, propose.Request{Things: []propose.Thing{photo}, Limits: propose.Limits{Cover: units.Size{W: -1}}}},
		{"limits.thickness", check.NotPositive, propose.Request{Things: []propose.Thing{photo}, Limits: propose.Limits{Thickness: -1}}},
		{"limits.into.size.h", check.NotPositive, propose.Request{Things: []propose.Thing{photo}, Limits: propose.Limits{Into: propose.Space{Size: units.Size{W: mm}}}}},
		{"limits.post.service", check.Unknown, propose.Request{Things: []propose.Thing{photo}, Limits: propose.Limits{Post: propose.Post{Service: "pigeon", Format: "letter"}}}},
		{"limits.post.service", check.Missing, propose.Request{Things: []propose.Thing{photo}, Limits: propose.Limits{Post: propose.Post{Format: "letter"}}}},
		{"limits.post.format", check.Unknown, propose.Request{Things: []propose.Thing{photo}, Limits: propose.Limits{Post: propose.Post{Service: "Royal Mail", Format: "barrel"}}}},
		{"limits.materials[0].sheets[0].size.w", check.NotPositive, propose.Request{Things: []propose.Thing{photo}, Limits: propose.Limits{Materials: []layout.Material{{Name: "board", Sheets: make([]layout.SheetKind, 1)}}}}},
		{"taste.order", check.Unknown, propose.Request{Things: []propose.Thing{photo}, Taste: propose.Taste{Order: 7}}},
	} {
		_, err := propose.Folios(context.Background(), c.r, propose.Budget{})
		var bad *check.Error
		if !errors.As(err, &bad) {
			t.Errorf("%s, %s: %v", c.path, c.code, err)
			continue
		}
		if _, ok := bad.Find(c.path, c.code); !ok {
			t.Errorf("%s, %s: %v", c.path, c.code, err)
		}
	}
	// A liner called as the fittings' paper is called is that.
	lined := propose.Request{Things: []propose.Thing{photo}, Case: folio.Spec{Liner: stock.Stock{Name: "plain card", Caliper: mm / 5}}}
	if got, err := propose.Folios(context.Background(), lined, propose.Budget{Steps: 200_000}); err != nil || got == nil {
		t.Errorf("a liner of plain card: %v", err)
	}
	if _, err := propose.Folios(context.Background(), propose.Request{Things: []propose.Thing{photo}}, propose.Budget{Steps: -1}); err == nil {
		t.Error("a budget of less than nothing")
	}
}
