package propose_test

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/propose"
	"boardwrap.example/folio/rule"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// room is the panels of a form, in cells, with a cover so wide and high: what the
// library leaves free of each board whose inside does not look out, however thick
// the folio.
func room(tb testing.TB, f boards.Form, w, h int) []tile {
	tb.Helper()
	s := cells(tb)
	s.Form, s.Cover = f, units.Size{W: cell * units.Length(w), H: cell * units.Length(h)}
	if f == boards.SoftSpine {
		s.Spine.Contents = 10 * cell
	} else {
		s.Spine.Width = 10 * cell
	}
	plan, err := folio.Build(s)
	if err != nil {
		return nil // too narrow for the form
	}
	var all []tile
	for _, role := range f.Roles() {
		if role.Spine() {
			continue
		}
		panel, _ := plan.Panel(role, false)
		size := panel.Size()
		all = append(all, tile{int(size.W / cell), int(size.H / cell)})
	}
	return all
}

// Up to three mats, and of four forms one to be chosen: the smallest folio is as
// small as the smallest of all layouts on all covers of all these forms, and every
// form that was not taken is said to need the cover that the smallest of all
// layouts of that form needs.
func TestFormsByExhaustion(t *testing.T) {
	forms := []boards.Form{boards.SpineBoard, boards.SoftSpine, boards.DoubleSpineGate, boards.ThreePanels}
	taken := map[boards.Form]int{}
	larger := 0
	proptest.Run(t, 30, func(ps *gopter.Properties) {
		ps.Property("no layout in any form is smaller", prop.ForAll(func(p puzzle) string {
			p.panels = 2 // no groups
			r := p.request(t)
			for _, f := range forms {
				r.Forms = append(r.Forms, propose.Form{Form: f})
			}
			answer, err := propose.Folios(context.Background(), r, propose.Budget{})
			if err != nil {
				return err.Error()
			}
			best, ok := answer.Of(propose.Smallest)
			if !ok || !best.Complete() {
				return "none, or it is not said to be proved"
			}
			least := make([]units.Size, len(forms))
			for i, f := range forms {
				if least[i], ok = smallestOf(t, p, f); !ok {
					return "the brute force finds none of " + f.String()
				}
			}
			area := func(a, b units.Size) int {
				if c := a.Area().Compare(b.Area()); c != 0 {
					return c
				}
				return int(a.W - b.W)
			}
			form, index := best.Form()
			taken[form.Form]++
			switch {
			case best.Cover() != slices.MinFunc(least, area):
				return fmt.Sprintf("a cover of %v, and the forms do with %v", best.Cover(), least)
			case best.Cover() != least[index] || form.Form != forms[index] || best.Spec().Form != form.Form:
				return fmt.Sprintf("a cover of %v as %v, which does with %v", best.Cover(), form, least[index])
			}
			others := 0
			for o := range best.OtherForms() {
				others++
				q, _ := o.Proposal()
				why := slices.Collect(o.Why())
				switch need := least[o.Index()]; {
				case q.Cover() != need || !o.Complete() || len(why) != 1:
					return fmt.Sprintf("%v: a cover of %v, and it does with %v; %v", o.Form(), q.Cover(), need, why)
				case need == best.Cover():
					if c := why[0].Cause; c != propose.Thicker && c != propose.NoBetter {
						return fmt.Sprintf("%v: as small, and ruled out as %v", o.Form(), c)
					}
				case why[0].Cause != propose.Larger || why[0].Size != need || why[0].Than != best.Cover():
					return fmt.Sprintf("%v: ruled out as %q", o.Form(), why[0].Text(units.MetricDecimal))
				default:
					larger++
				}
			}
			if others != len(forms)-1 {
				return fmt.Sprintf("%d other forms", others)
			}
			return sound(r, best)
		}, anyPuzzle(3, 5)))
	})
	if len(taken) < 2 || larger < proptest.Cases(30)/2 {
		t.Errorf("lopsided: %v are taken, %d larger", taken, larger)
	}
}

// smallestOf tries every layout on every cover of a form, the smallest covers
// first.
func smallestOf(tb testing.TB, p puzzle, f boards.Form) (units.Size, bool) {
	tb.Helper()
	const most = 26
	var covers []tile
	for w := 3; w <= most; w++ {
		for h := 3; h <= most; h++ {
			covers = append(covers, tile{w, h})
		}
	}
	slices.SortStableFunc(covers, func(a, b tile) int {
		if d := a.w*a.h - b.w*b.h; d != 0 {
			return d
		}
		return a.w - b.w
	})
	for _, c := range covers {
		panels := room(tb, f, c.w, c.h)
		if p.layoutsOn(panels, func([]spot) bool { return true }) {
			return units.Size{W: cell * units.Length(c.w), H: cell * units.Length(c.h)}, true
		}
	}
	return units.Size{}, false
}

// anyForms generates two to four forms and rows of one's own, some twice.
func anyForms() gopter.Gen {
	return proptest.Map(proptest.List(2, 4, gen.IntRange(0, 19)), func(n []int) []propose.Form {
		rows := rowsOfAll()
		var out []propose.Form
		for _, i := range n {
			row := rows[i%len(rows)]
			out = append(out, propose.Form{Form: row.Form, Row: row.Row})
		}
		return out
	})
}

// What is chosen among forms is for each aim the best of what each form gives that
// is asked for by itself, and what is said of the others is what they give.
func TestFormsAgree(t *testing.T) {
	chosen := map[int]int{}
	proptest.Run(t, 40, func(ps *gopter.Properties) {
		ps.Property("the best of each by itself", prop.ForAll(func(r propose.Request, forms []propose.Form) string {
			const steps = 500_000
			r.Case.Form, r.Case.Row = 0, boards.Row{}
			r.Forms = forms
			a, err := propose.Folios(context.Background(), r, propose.Budget{Steps: steps * int64(len(forms))})
			alone := make([]*propose.Proposals, len(forms))
			some := false
			for i, f := range forms {
				one := r
				one.Forms, one.Case.Form, one.Case.Row = nil, f.Form, f.Row
				alone[i], _ = propose.Folios(context.Background(), one, propose.Budget{Steps: steps})
				some = some || alone[i] != nil
			}
			if !some || err != nil {
				if some != (err == nil) {
					return fmt.Sprintf("some form can be asked for: %v; together: %v", some, err)
				}
				return ""
			}
			if bad := missaid(r, a); bad != "" {
				return bad
			}
			for aim := propose.Smallest; aim <= propose.AllInView; aim++ {
				if bad := agrees(aim, a, alone, chosen); bad != "" {
					return aim.String() + ": " + bad
				}
			}
			return ""
		}, anyRequest(), anyForms()))
	})
	if len(chosen) < 2 {
		t.Errorf("lopsided: %v", chosen)
	}
}

// worse compares two folios by what an aim is about, the first that differs deciding.
func worse(aim propose.Aim, p, q propose.Proposal) int {
	thick := cmp.Compare(p.Closed().Thickness().Length(), q.Closed().Thickness().Length())
	size := cmp.Or(p.Cover().Area().Compare(q.Cover().Area()), workOf(p)-workOf(q), cmp.Compare(p.Cover().W, q.Cover().W))
	if aim == propose.Thinnest {
		return cmp.Or(thick, size)
	}
	return cmp.Or(size, thick)
}

// workOf says how much work the fittings are, each more the later [propose.Holder] lists
// it.
func workOf(p propose.Proposal) (n int) {
	for h := range p.Held() {
		n += int(h.Way) + 1
	}
	return n
}

// agrees says where a choice among forms is not the best of what each form gives by
// itself.
func agrees(aim propose.Aim, a *propose.Proposals, alone []*propose.Proposals, chosen map[int]int) string {
	p, ok := a.Of(aim)
	if !ok {
		for i, one := range alone {
			if one == nil {
				continue
			}
			if q, is := one.Of(aim); is {
				return fmt.Sprintf("form %d gives a cover of %v by itself", i, q.Cover())
			}
		}
		return ""
	}
	_, index := p.Form()
	chosen[index]++
	all := true
	for i, one := range alone {
		if one == nil {
			continue
		}
		q, is := one.Of(aim)
		switch {
		case !is:
		case worse(aim, q, p) < 0:
			return fmt.Sprintf("form %d is better by itself: %v, and %v", i, q.Cover(), p.Cover())
		case i == index && (q.Cover() != p.Cover() || fmt.Sprint(q.Spec()) != fmt.Sprint(p.Spec())):
			return "by itself it is another one"
		}
		all = all && (!is || q.Complete())
	}
	if all && !p.Complete() {
		for o := range p.OtherForms() {
			if _, is := o.Proposal(); !is && !o.Complete() {
				return "" // nobody knows whether there is none
			}
		}
		return "each is proved, and the choice is not"
	}
	for o := range p.OtherForms() {
		n := 0
		for why := range o.Why() {
			if text := why.Text(units.MetricDecimal); text == "" || strings.Contains(text, "%") {
				return fmt.Sprintf("%v: %q", o.Form(), text)
			}
			n++
		}
		q, is := o.Proposal()
		for why := range o.Why() {
			if is && (why.Thing != -1 || why.Name != "") {
				return fmt.Sprintf("%v: %v of thing %d, %q", o.Form(), why.Cause, why.Thing, why.Name)
			}
		}
		if n == 0 || is && worse(aim, q, p) < 0 {
			return fmt.Sprintf("%v: %d reasons, a cover of %v", o.Form(), n, q.Cover())
		}
	}
	return ""
}

// Every form there is takes the usual things, and each that is not taken says why;
// twice the same.
func TestAnyForm(t *testing.T) {
	things, err := propose.ParseThings("2 photo 10 x 15 cm, 1 ID-1 card")
	if err != nil {
		t.Fatal(err)
	}
	r := propose.Request{Things: things, Case: metric(), Forms: propose.AnyForm()}
	if len(r.Forms) != int(boards.OwnRow) {
		t.Errorf("%d forms", len(r.Forms))
	}
	a, b := asked(t, r), asked(t, r)
	if a.Forms() != len(r.Forms) || a.Steps() != b.Steps() {
		t.Errorf("%d forms, %d steps, then %d", a.Forms(), a.Steps(), b.Steps())
	}
	for p := range a.All() {
		if bad := sound(r, p); bad != "" {
			t.Errorf("%v: %s", p.Aim(), bad)
		}
		q, _ := b.Of(p.Aim())
		if fmt.Sprint(p.Spec(), lost(p)) != fmt.Sprint(q.Spec(), lost(q)) {
			t.Errorf("the %v differs", p.Aim())
		}
		n := 0
		for o := range p.OtherForms() {
			n++
			q, ok := o.Proposal()
			if f, i := q.Form(); !ok || i != o.Index() || f.String() != o.Form().String() || q.Complete() != o.Complete() {
				t.Errorf("%v: %v has %v %d, complete %v", p.Aim(), o.Form(), f, i, q.Complete())
			}
		}
		if n != len(r.Forms)-1 {
			t.Errorf("%v: %d other forms", p.Aim(), n)
		}
	}
}

// lost is what is said of the forms that were not taken.
func lost(p propose.Proposal) string {
	text := ""
	for o := range p.OtherForms() {
		text += fmt.Sprintln(o.Index(), o.Form(), o.Complete(), slices.Collect(o.Why()))
	}
	return text
}

// A form that no case can be made in by the rules asked for is one that was not
// taken, with the reason; where that is so of every one, it is an error. A limit that
// nothing keeps to is said for each form.
func TestFormsThatCannotBe(t *testing.T) {
	photo := propose.Thing{Content: pocket.Content{Name: "photo", Size: units.Size{W: 90 * mm, H: 130 * mm}}}
	least := folio.Spec{Hinge: rule.Hinge{Rule: rule.HingeLeast}}
	r := propose.Request{Things: []propose.Thing{photo}, Case: least, Forms: []propose.Form{{Form: boards.SoftSpine}, {Form: boards.SpineBoard}}}
	a := asked(t, r)
	p, ok := a.Of(propose.Smallest)
	if form, i := p.Form(); !ok || form.Form != boards.SpineBoard || i != 1 || !p.Complete() {
		t.Fatalf("%v, %v of index %d, complete %v", ok, form, i, p.Complete())
	}
	for o := range p.OtherForms() {
		why := slices.Collect(o.Why())
		if _, is := o.Proposal(); is || len(why) != 1 || why[0].Cause != propose.CannotBe || !strings.Contains(why[0].Text(units.InchFraction), rule.HingeRoundContents.String()) {
			t.Errorf("%v: %v", o.Form(), why)
		}
	}
	r.Forms = []propose.Form{{Form: boards.SoftSpine}, {Form: boards.SoftGate}}
	_, err := propose.Folios(context.Background(), r, propose.Budget{})
	var bad *check.Error
	if !errors.As(err, &bad) || bad.Len() != 1 {
		t.Fatalf("%v", err)
	}
	if _, ok := bad.Find("case.hinge.rule", check.Conflict); !ok {
		t.Error(err)
	}
	r.Forms, r.Limits.Thickness = []propose.Form{{Form: boards.SpineBoard}, {Form: boards.ThreePanels}}, 3*mm
	for l := range asked(t, r).Unmet() {
		forms := slices.Collect(l.Forms())
		if len(forms) != 2 {
			t.Errorf("%v: %d forms say why", l.Aim(), len(forms))
		}
		for _, f := range forms {
			if why := slices.Collect(f.Why()); len(why) == 0 {
				t.Errorf("%v: %v says nothing", l.Aim(), f.Form())
			}
		}
	}
}

// What is said of a case that names a form beside forms to choose among, and of
// forms that are none or too many.
func TestFormsRefused(t *testing.T) {
	photo := propose.Thing{Content: pocket.Content{Name: "photo", Size: units.Size{W: 90 * mm, H: 130 * mm}}}
	two := []propose.Form{{Form: boards.SoftSpine}, {Form: boards.SpineBoard}}
	row := boards.Row{Boards: []boards.Board{{Role: boards.LeftCover}, {Role: boards.Spine1}, {Role: boards.RightCover}}}
	stiff := boards.Row{Boards: slices.Clone(row.Boards)}
	stiff.Boards[1].Width = 20 * mm
	soft := boards.Row{Boards: []boards.Board{{Role: boards.LeftCover}, {Role: boards.RightCover}}, Joints: []boards.Joint{{Hinge: rule.Hinge{Width: 20 * mm}}}}
	for _, c := range []struct {
		path string
		code check.Code
		r    propose.Request
	}{
		{"case.form", check.Conflict, propose.Request{Forms: two, Case: folio.Spec{Form: boards.SoftGate}}},
		{"case.row", check.Conflict, propose.Request{Forms: two, Case: folio.Spec{Row: row}}},
		{"forms", check.TooMany, propose.Request{Forms: make([]propose.Form, propose.MostForms+1)}},
		{"forms[1].form", check.Unknown, propose.Request{Forms: []propose.Form{{}, {Form: 99}}}},
		// A spine board or a soft spine of a width of its own leaves what it does, whatever goes in.
		{"case.row.boards[1].width", check.Conflict, propose.Request{Case: folio.Spec{Row: stiff}}},
		{"case.row.joints[0].hinge.width", check.Conflict, propose.Request{Case: folio.Spec{Row: soft}}},
		// Of doors 1.1 m apart nothing is left on a cover of 1 m, though on one of 2 m it is.
		{"case.doorgap", check.TooSmall, propose.Request{Case: folio.Spec{Form: boards.DoubleSpineGate, DoorGap: 1100 * mm}}},
	} {
		c.r.Things = []propose.Thing{photo}
		_, err := propose.Folios(context.Background(), c.r, propose.Budget{})
		var bad *check.Error
		if !errors.As(err, &bad) {
			t.Errorf("%s: %v", c.path, err)
			continue
		}
		if _, ok := bad.Find(c.path, c.code); !ok {
			t.Errorf("%s, %s: %v", c.path, c.code, err)
		}
	}
	// What is wrong with a row of one's own is said of that row.
	short, twice := row, row
	short.Boards, twice.Boards = row.Boards[:1], []boards.Board{row.Boards[0], row.Boards[1], row.Boards[0]}
	_, err := propose.Folios(context.Background(), propose.Request{Things: []propose.Thing{photo}, Forms: []propose.Form{{Row: short}, {Row: twice}}}, propose.Budget{})
	said := pathsOf(err)
	for i, path := range said {
		if !strings.HasPrefix(path, "forms[0].row") && !strings.HasPrefix(path, "forms[1].row") || len(said) < 2 {
			t.Errorf("%d: %q", i, path)
		}
	}
	if len(said) == 0 {
		t.Error("bad rows are taken")
	}
	if text := (propose.Form{Row: row}).String(); text != "a row of your own: left cover, spine, right cover" {
		t.Error(text)
	}
	row.Boards = slices.Repeat(row.Boards, 3) // as many as a row may have, and one more
	nine := "a row of your own: " + strings.TrimSuffix(strings.Repeat("left cover, spine, right cover, ", 3), ", ")
	if text := (propose.Form{Row: row}).String(); text != nine {
		t.Error(text)
	}
	row.Boards = append(row.Boards, row.Boards[0])
	if text := (propose.Form{Row: row}).String(); text != nine+" and more" {
		t.Error(text)
	}
}
