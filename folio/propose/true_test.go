package propose_test

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/propose"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// but are all ways to hold things but some.
func but(some ...propose.Holder) []propose.Holder {
	var out []propose.Holder
	for w := propose.Corners; w <= propose.FoldedFlap; w++ {
		if !slices.Contains(some, w) {
			out = append(out, w)
		}
	}
	return out
}

// oddRuler is a ruler that nothing in the trade is on.
func oddRuler(tb testing.TB) units.Ruler {
	tb.Helper()
	r, err := units.NewRuler(1_009_000, units.MetricDecimal)
	if err != nil {
		tb.Fatal(err)
	}
	return r
}

// alone are the requests of TestRuledOutIsTrue: one thing whose ways are compared, and
// maybe a second that is held in corners whatever comes.
func aloneRequests(tb testing.TB) []propose.Request {
	var out []propose.Request
	for k, c := range [...]struct {
		w, h, thick units.Length
		n           int
		second      bool
	}{
		{90_011_000, 131_003_000, 300_000, 1, false},
		{131_003_000, 90_011_000, 300_000, 2, false},
		{55_500_001, 80_700_003, 120_007, 3, false},
		{70_100_000, 70_100_000, 410_000, 1, false},
		{40_000_007, 63_000_001, 3_300_007, 2, false},
		{61_000_000, 99_000_000, 250_000, 1, true},
		{120_300_000, 60_010_000, 90_000, 2, true},
	} {
		for i, rulers := range [...]rule.Rulers{{}, {Main: units.WholeMillimetres}, {Main: oddRuler(tb)}} {
			if i == k%3 {
				continue
			}
			r := propose.Request{Case: folio.Spec{Rulers: rulers}, Things: []propose.Thing{{
				Content: pocket.Content{Name: "ticket", Size: units.Size{W: c.w, H: c.h}, Thickness: c.thick}, Count: c.n, Sticks: i == 1,
			}}}
			if c.second {
				r.Things[0].Sight = propose.TuckedAway
				r.Things = append(r.Things, propose.Thing{Content: pocket.Content{Name: "print", Size: units.Size{W: 51 * mm, H: 67 * mm}, Thickness: mm / 5}, Sight: propose.InView, Upright: true})
				r.Without = []propose.Holder{propose.Frame}
			}
			r.Case.Board.Sheets = []stock.Sheet{{Size: units.Size{W: 290 * mm, H: 190 * mm}}}
			out = append(out, r)
		}
	}
	return out
}

// What is proposed is compared with what is proposed where a thing may be held in
// one way only: the best of an aim is no worse than the best of each way, of equal
// ones the plainest; and what is said of a way that was ruled out is what comes of it
// then.
func TestRuledOutIsTrue(t *testing.T) {
	met, bounds := map[propose.Cause]int{}, 0
	for k, r := range aloneRequests(t) {
		all := asked(t, r)
		alone := map[propose.Holder]*propose.Proposals{}
		for w := propose.Corners; w <= propose.FoldedFlap; w++ {
			one := r
			if one.Without = but(w); len(r.Things) > 1 {
				one.Without = but(w, propose.Corners)
			}
			alone[w] = asked(t, one)
		}
		for p := range all.All() {
			name := fmt.Sprintf("%d, %v", k, p.Aim())
			taken := slices.Collect(p.Held())
			way := taken[slices.IndexFunc(taken, func(h propose.Held) bool { return h.Thing == 0 })]
			for o := range p.RuledOut() {
				if o.Thing != 0 {
					continue
				}
				met[o.Why.Cause]++
				if o.Why.AtLeast {
					bounds++
				}
				q, is := alone[o.Way].Of(p.Aim())
				if bad := untrue(r, p, o, q, is); bad != "" {
					t.Errorf("%s: %v: %v: %s", name, o.Way, o.Why.Cause, bad)
				}
				if o.Why.Cause == propose.LessWork {
					slip, takes := alone[propose.Slip].Of(p.Aim())
					if n, m := len(slices.Collect(slip.Plan().Steps())), len(slices.Collect(q.Plan().Steps())); !takes || n >= m {
						t.Errorf("%s: a slip pocket takes it: %v, in %d steps, and gussets in %d", name, takes, n, m)
					}
					continue
				}
				if !is {
					continue
				}
				worst := worse(p.Aim(), q, p)
				if p.Aim() == propose.FewestSheets {
					n, _ := q.Sheets()
					m, _ := p.Sheets()
					worst = cmp.Or(n-m, q.Cover().Area().Compare(p.Cover().Area()))
				}
				if worst < 0 || worst == 0 && o.Way < way.Way && p.Aim() != propose.FewestSheets {
					t.Errorf("%s: %v, a cover of %v and %v; with a %v %v and %v", name, way.Way, p.Cover(), p.Closed().Thickness().Length(), o.Way, q.Cover(), q.Closed().Thickness().Length())
				}
			}
			same, is := alone[way.Way].Of(p.Aim())
			if !is || worse(p.Aim(), same, p) != 0 && p.Aim() != propose.FewestSheets {
				t.Errorf("%s: %v by itself is another one", name, way.Way)
			}
		}
	}
	for _, c := range []propose.Cause{propose.WouldStick, propose.WouldHide, propose.WouldShow, propose.OneIsNoRow, propose.CannotBe, propose.Unwise, propose.Larger, propose.Thicker, propose.NoBetter} {
		if met[c] == 0 {
			t.Errorf("lopsided: never %v", c)
		}
	}
	if n := met[propose.Larger] + met[propose.Thicker]; bounds == 0 || bounds > n/4 {
		t.Errorf("lopsided: %d of %d are bounds", bounds, n)
	}
}

// untrue says where a reason why the first thing is not held in another way is not
// what comes of that way by itself.
func untrue(r propose.Request, p propose.Proposal, o propose.RuledOut, q propose.Proposal, is bool) string {
	thing, why := r.Things[0], o.Why
	thick := p.Closed().Thickness().Length()
	if why.Thing != 0 || why.Name != thing.Content.Name || why.Way != o.Way {
		return fmt.Sprintf("it is about %+v", why)
	}
	switch why.Cause {
	case propose.Unwanted:
		if !slices.Contains(r.Without, o.Way) {
			return "nobody was without it"
		}
	case propose.WouldStick:
		if thing.Sticks || o.Way != propose.Mat {
			return "it may be stuck"
		}
	case propose.WouldHide:
		if o.Way.InView() || thing.Sight != propose.InView && p.Aim() != propose.AllInView {
			return "it may be hidden, or is not"
		}
	case propose.WouldShow:
		if !o.Way.InView() || thing.Sight != propose.TuckedAway {
			return "it may be seen, or is not"
		}
	case propose.OneIsNoRow:
		if o.Way != propose.GussetRun && o.Way != propose.Accordion || thing.Count > 1 {
			return "there are several"
		}
	case propose.LessWork:
		if !is || o.Way != propose.Gusset || slices.Contains(r.Without, propose.Slip) {
			return "it cannot be, or no slip pocket is wanted"
		}
	case propose.CannotBe, propose.Unwise:
		if is {
			return "it can be"
		}
	case propose.Larger:
		byItself := p.Aim() == propose.Smallest || p.Aim() == propose.AllInView // else of a larger cover something else may be better
		switch {
		case !is || why.Than != p.Cover() || byItself && q.Cover() != why.Size:
			return fmt.Sprintf("%v instead of %v; by itself %v, and there is %v", why.Size, why.Than, q.Cover(), p.Cover())
		case why.Size.Area().Compare(why.Than.Area()) < 0:
			return "it would be smaller"
		}
	case propose.Thicker:
		if !is || why.ThanThick != thick || why.Thick <= thick || q.Closed().Thickness().Length() < why.Thick {
			return fmt.Sprintf("%v instead of %v; by itself %v, and there is %v", why.Thick, why.ThanThick, q.Closed().Thickness().Length(), thick)
		}
		if is := q.Closed().Thickness().Length(); !why.AtLeast && p.Aim() == propose.Thinnest && is != why.Thick {
			return fmt.Sprintf("%v, which is no bound; by itself %v", why.Thick, is)
		}
	case propose.NoBetter:
		if !is || worse(p.Aim(), q, p) < 0 {
			return "it is better"
		}
	case propose.MoreSheets:
		n, _ := p.Sheets()
		if m, _ := q.Sheets(); !is || why.ThanSheets != n || why.Sheets <= n || m > why.Sheets {
			return fmt.Sprintf("%d sheets instead of %d; by itself %d", why.Sheets, why.ThanSheets, m)
		}
	default:
		return "no reason of this kind"
	}
	return ""
}

// Why something is held as it is, said by hand for each way: whether it is seen and
// comes out again, whether what is thick needs gussets, how copies are kept, where it
// lies in its part of the cover and which way it opens.
func TestWhyItIsHeldSo(t *testing.T) {
	size := units.Size{W: 60 * mm, H: 90 * mm}
	for _, c := range []struct {
		name  string
		way   propose.Holder
		thick units.Length
		n     int
		keep  propose.Keeping
		taste propose.Taste
		want  []propose.Cause
	}{
		{"corners", propose.Corners, mm / 5, 1, propose.EitherKeeping, propose.Taste{}, []propose.Cause{propose.Shown, propose.ComesOut, propose.InMiddle}},
		{"lined up", propose.Corners, mm / 5, 2, propose.Apart, propose.Taste{Order: propose.LinedUp}, []propose.Cause{propose.Shown, propose.ComesOut, propose.EachItsOwn, propose.AtHead}},
		{"frame", propose.Frame, mm / 5, 1, propose.EitherKeeping, propose.Taste{Anyhow: true}, []propose.Cause{propose.Shown, propose.ComesOut, propose.InMiddle, propose.OpensToHead}},
		{"mats", propose.Mat, mm / 5, 2, propose.EitherKeeping, propose.Taste{}, []propose.Cause{propose.Shown, propose.MayStick, propose.EachItsOwn, propose.InMiddle}},
		{"slip", propose.Slip, mm / 5, 3, propose.Together, propose.Taste{}, []propose.Cause{propose.Hidden, propose.ComesOut, propose.InOne, propose.InMiddle, propose.OpensToHead}},
		{"slips", propose.Slip, mm / 5, 2, propose.Apart, propose.Taste{}, []propose.Cause{propose.Hidden, propose.ComesOut, propose.EachItsOwn, propose.InMiddle, propose.OpensToHead}},
		{"gusset as thick as a pocket takes", propose.Gusset, pocket.FlatLimit, 1, propose.EitherKeeping, propose.Taste{}, []propose.Cause{propose.Hidden, propose.ComesOut, propose.InMiddle, propose.OpensToHead}},
		{"gusset", propose.Gusset, pocket.FlatLimit + 1, 1, propose.EitherKeeping, propose.Taste{}, []propose.Cause{propose.Hidden, propose.ComesOut, propose.TakesThick, propose.InMiddle, propose.OpensToHead}},
		{"gusset for three", propose.Gusset, mm, 3, propose.Together, propose.Taste{}, []propose.Cause{propose.Hidden, propose.ComesOut, propose.TakesThick, propose.InOne, propose.InMiddle, propose.OpensToHead}},
		{"gusset run", propose.GussetRun, mm, 3, propose.Apart, propose.Taste{}, []propose.Cause{propose.Hidden, propose.ComesOut, propose.InOne, propose.EachItsOwn, propose.InMiddle, propose.OpensToHead}},
		{"folded strip", propose.FoldedFlap, mm / 5, 1, propose.EitherKeeping, propose.Taste{}, []propose.Cause{propose.Hidden, propose.ComesOut, propose.InMiddle, propose.OpensToBack}},
	} {
		r := propose.Request{Case: metric(), Without: but(c.way), Taste: c.taste, Things: []propose.Thing{{
			Content: pocket.Content{Name: "ticket", Size: size, Thickness: c.thick}, Count: c.n, Keeping: c.keep, Sticks: true,
		}}}
		p, ok := asked(t, r).Of(propose.Smallest)
		if !ok {
			t.Errorf("%s: none", c.name)
			continue
		}
		for h := range p.Held() {
			var got []propose.Cause
			for why := range h.Why() {
				got = append(got, why.Cause)
				if why.Thing != 0 || why.Name != "ticket" || why.Way != c.way {
					t.Errorf("%s: about %+v", c.name, why)
				}
				if want := c.thick * units.Length(c.n); why.Cause == propose.TakesThick && (why.Thick != want || why.Count != c.n) {
					t.Errorf("%s: %d are %v thick, want %d and %v", c.name, why.Count, why.Thick, c.n, want)
				}
			}
			if !slices.Equal(got, c.want) {
				t.Errorf("%s: %v, want %v", c.name, got, c.want)
			}
		}
	}
}

// What is thicker is said to lie at the spine where there is another thing on its
// board that is not as thick, and only there.
func TestAtSpineIsSaid(t *testing.T) {
	for name, c := range map[string]struct {
		group  string
		anyhow bool
		second units.Length // its thickness; the first is 0.2 mm thick
		want   int
	}{"on one cover": {"crew", false, mm / 2, 2}, "as thick": {"crew", false, mm / 5, 0}, "anyhow": {"crew", true, mm / 2, 0}, "on two": {"", false, mm / 2, 0}} {
		r := propose.Request{Case: metric(), Without: but(propose.Corners), Taste: propose.Taste{Anyhow: c.anyhow}}
		for n, thick := range []units.Length{mm / 5, c.second} {
			r.Things = append(r.Things, propose.Thing{Content: pocket.Content{Name: string(rune('a' + n)), Size: units.Size{W: 80 * mm, H: 110 * mm}, Thickness: thick}, Group: c.group})
		}
		p, ok := asked(t, r).Of(propose.Smallest)
		n := 0
		for h := range p.Held() {
			for why := range h.Why() {
				if why.Cause == propose.AtSpine {
					n++
				}
			}
		}
		if !ok || n != c.want {
			t.Errorf("%s: said of %d, want %d", name, n, c.want)
		}
	}
}

// What slips in can be gripped: where nothing has to be between fittings, there are
// 6 mm above a pocket, 1/4 in where plans are in inches, and nothing between what
// does not open.
func TestGrip(t *testing.T) {
	for _, c := range []struct {
		rulers units.Ruler
		way    propose.Holder
		want   units.Length
	}{
		{units.WholeMillimetres, propose.Slip, 6 * mm}, {0, propose.Slip, units.Inch / 4},
		{units.WholeMillimetres, propose.Corners, 0}, {0, propose.Corners, 0},
	} {
		r := propose.Request{Case: folio.Spec{Rulers: rule.Rulers{Main: c.rulers}}, Without: but(c.way), Taste: propose.Taste{Between: units.None, Margin: units.None, Order: propose.LinedUp}}
		for _, n := range []string{"a", "b"} {
			r.Things = append(r.Things, propose.Thing{Content: pocket.Content{Name: n, Size: units.Size{W: 60 * mm, H: 40 * mm}, Thickness: mm / 5}, Group: "crew", Upright: true})
		}
		p, ok := asked(t, r).Of(propose.Smallest)
		if !ok {
			t.Fatal("none")
		}
		_, gaps := free(p.Plan())
		for _, gap := range gaps {
			// The cover is on a ruler: what is left of it is shared.
			if gap < c.want || gap >= c.want+p.Plan().Spec().Rulers.Board.Step() {
				t.Errorf("%v, %v: %v between, want %v", c.rulers.Notation(), c.way, gap, c.want)
			}
		}
	}
}

// What is wrong with a case that several forms share is said of the case, once, and
// what is wrong with a row of one of them of that one.
func TestFormsShareACase(t *testing.T) {
	r := propose.Request{Stock: "velvet", Case: metric(), Things: []propose.Thing{{Content: pocket.IDCard()}}, Forms: []propose.Form{{Form: boards.SpineBoard}, {Form: boards.SoftSpine}}}
	_, err := propose.Folios(context.Background(), r, propose.Budget{})
	if paths := pathsOf(err); !slices.Equal(paths, []string{"case.stocks"}) {
		t.Errorf("%v: %v", paths, err)
	}
}

// pathsOf lists where something is wrong.
func pathsOf(err error) []string {
	var paths []string
	if bad, ok := err.(*check.Error); ok {
		for v := range bad.All() {
			paths = append(paths, v.Path)
		}
	}
	return paths
}
