package folio_test

import (
	"context"
	"errors"
	"math/rand"
	"testing"

	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/post"
	"boardwrap.example/folio/stick"
	"boardwrap.example/folio/tie"
	"boardwrap.example/folio/weigh"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// ask asks a plan everything, with garbage for options.
func ask(p *folio.Plan, f *feeder) string {
	listed := func(err error) bool {
		var bad *check.Error
		return err == nil || errors.As(err, &bad) && bad.Len() > 0
	}
	l := func() units.Length { return units.Length(f.number()) }
	var all []units.Working
	for _, full := range []bool{false, true} {
		if t, ok := p.Tightest(full); ok {
			all = append(all, t.Stack(), t.Room(), t.Left(), t.WouldDo())
			if t.String() == "" {
				return "nothing to say"
			}
			if !t.Closes() && full && !warned(p, folio.WarnCrease) && !warned(p, folio.WarnSpine) {
				return "a plan that does not close"
			}
		}
		if o, ok := p.Overall(full); ok {
			all = append(all, o.Width(), o.Height(), o.Thickness())
		}
		for h := range p.Heights(full) {
			if h.Height() <= 0 || h.Rect().Empty() {
				return "a height of nothing"
			}
		}
	}
	if c, ok := p.Closed(); ok {
		all = append(all, c.Room(), c.Thickness(), c.Width(), c.Height())
	}
	p.ClosedRange()
	if c, err := p.ClosedAt(l()); !listed(err) {
		return "ClosedAt: an error that is no list"
	} else if err == nil {
		all = append(all, c.Room(), c.Width())
	}
	c := pocket.Content{Size: units.Size{W: l(), H: l()}, Thickness: l()}
	survey := fit.Of(p)
	for range survey.Where(context.Background(), fit.Budget{}, c) {
	}
	for i := range survey.Rooms() {
		survey.Largest(fit.UsualPhotos(), i)
	}
	if _, err := survey.All(context.Background(), fit.Budget{}, c, pocket.IDCard(), pocket.IDCard()); !listed(err) {
		return "All: an error that is no list"
	}
	w := weigh.Options{Filled: true, Copies: int(f.number()), Estimate: true, Density: f.number(), Block: units.Mass(f.number())}
	if weight, err := weigh.Of(p, w); !listed(err) {
		return "weigh: an error that is no list"
	} else if mass, _ := weight.Total(); mass < 0 {
		return "a negative mass"
	}
	for tape := range stick.Of(p).Tapes() {
		all = append(all, tape.Length())
	}
	if b, err := (tie.Band{Breadth: l(), Lap: l(), Caliper: l()}).Round(p); !listed(err) {
		return "Band: an error that is no list"
	} else if err == nil {
		all = append(all, b.Length(), b.Breadth())
	}
	if _, err := (tie.Ribbon{Tail: l()}).Round(p); !listed(err) {
		return "Ribbon: an error that is no list"
	}
	if _, err := post.BoxFor(p, l()); !listed(err) {
		return "BoxFor: an error that is no list"
	}
	item, err := post.Pack(p, post.Packing{Padding: l(), Wall: l(), Mass: units.Mass(f.number()), Weighing: w})
	if !listed(err) {
		return "Pack: an error that is no list"
	}
	for _, s := range []post.Service{post.USPS(), post.RoyalMail()} {
		r, err := s.Judge(item, units.Notation(f.number()))
		if !listed(err) {
			return "Judge: an error that is no list"
		}
		for v := range r.Verdicts() {
			v.Overall()
		}
	}
	for _, w := range all {
		if bad := addUp(w); bad != "" {
			return bad
		}
	}
	return ""
}

func TestGarbageIsAsked(t *testing.T) {
	asked := 0
	p := runs()
	p.Property("any plan that garbage gives answers every question", prop.ForAll(func(seed int64) string {
		data := make([]byte, 4096)
		rand.New(rand.NewSource(seed)).Read(data)
		s, f := garbage(data)
		plan, err := folio.Build(s)
		if err != nil {
			return ""
		}
		asked++
		return ask(plan, f)
	}, gen.Int64()))
	p.Property("any sound plan answers every question, however absurd", prop.ForAll(func(s folio.Spec, seed int64) string {
		data := make([]byte, 1024)
		rand.New(rand.NewSource(seed)).Read(data)
		plan, err := folio.Build(s)
		if err != nil {
			return err.Error()
		}
		return ask(plan, &feeder{data})
	}, anySpec(), gen.Int64()))
	p.TestingRun(t)
	if asked < proptest.Cases(20) {
		t.Errorf("only %d plans were asked", asked)
	}
}

// The searches end with an answer or a list, on any garbage.
func TestGarbageIsSearched(t *testing.T) {
	p := runs()
	p.Property("smallest, largest and family end with an answer or a list of violations", prop.ForAll(func(seed int64) string {
		data := make([]byte, 4096)
		rand.New(rand.NewSource(seed)).Read(data)
		s, f := garbage(data)
		var bad *check.Error
		least, err := fit.Smallest(context.Background(), s, fit.Budget{Steps: 2000}, pocket.Content{Size: units.Size{W: units.Length(f.number()), H: units.Length(f.number())}})
		if err == nil && least.Plan() == nil || err != nil && !errors.As(err, &bad) {
			return "Smallest: neither a plan nor a list"
		}
		most, err := fit.Largest(context.Background(), s, units.Size{W: units.Length(f.number()), H: units.Length(f.number())})
		if err == nil && most.Plan() == nil || err != nil && !errors.As(err, &bad) {
			return "Largest: neither a plan nor a list"
		}
		cover := units.Size{W: units.Length(f.number()), H: units.Length(f.number())}
		family, err := fit.FamilyOf(context.Background(), s, append(fit.ScaledCovers(cover, units.Ruler(f.number()), f.number(), f.number()), cover)...)
		if err != nil || family.String() == "" {
			return "no table"
		}
		return ""
	}, gen.Int64()))
	p.TestingRun(t)
}

// Where nothing lies over a panel, because it is none of an inside or the folio
// stays open, there is an empty walk: ranging over it ends at once.
func TestOverNothing(t *testing.T) {
	p, err := folio.Build(good())
	if err != nil {
		t.Fatal(err)
	}
	for _, role := range []boards.Role{boards.Spine1, boards.Flap, boards.Role(200)} {
		heights, room, ok := p.Over(role, true)
		for h := range heights {
			t.Errorf("%v: %v", role, h)
		}
		if ok || room != 0 {
			t.Errorf("%v: %v, %t", role, room, ok)
		}
	}
}
