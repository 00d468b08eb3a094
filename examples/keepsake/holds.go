package main

import (
	"context"
	"errors"
	"flag"
	"fmt"

	"boardwrap.example/folio"
	"boardwrap.example/folio/propose"
	"boardwrap.example/folio/rule"
	"boardwrap.example/units"
)

// A holder proposes a folio for what is to go in.
type holder struct {
	things string
	best   string
	form   string
}

func (h *holder) flags(set *flag.FlagSet) {
	set.StringVar(&h.things, "holds", "", `what goes in, as in "6 photo 10 x 15 cm, 1 ID-1 card, 1 note": a folio is proposed; -cover is then the largest wanted`)
	set.StringVar(&h.best, "best", "smallest", `with -holds: "smallest", "thinnest", "fewest sheets" or "everything in view"`)
	set.StringVar(&h.form, "form", "any", `with -holds: "any" chooses among all forms of case; or one of them, as in "double-spine gate"`)
}

// forms lists the forms to choose among.
func (h *holder) forms() ([]propose.Form, error) {
	if h.form == "any" {
		return propose.AnyForm(), nil
	}
	var f propose.Form
	if err := f.Form.UnmarshalText([]byte(h.form)); err != nil {
		return nil, fmt.Errorf("-form: %w", err)
	}
	return []propose.Form{f}, nil
}

func (h *holder) wanted() bool { return h.things != "" }

// propose finds the folio and prints why it is so.
func (h *holder) propose(s folio.Spec, cover, spine bool, p *printer) (folio.Spec, error) {
	var aim propose.Aim
	if err := aim.UnmarshalText([]byte(h.best)); err != nil {
		return s, fmt.Errorf("-best: %w", err)
	}
	things, err := propose.ParseThings(h.things)
	if err != nil {
		return s, fmt.Errorf("-holds: %w", err)
	}
	if spine {
		return s, errors.New("-spine: the spine follows from what -holds asks for")
	}
	forms, err := h.forms()
	if err != nil {
		return s, err
	}
	r := propose.Request{Things: things, Case: s, Stock: s.Stocks[0].Name, Forms: forms}
	if cover {
		r.Limits.Cover = s.Cover
	}
	r.Case.Cover, r.Case.Spine = units.Size{}, rule.Spine{}
	r.Case.Fittings = nil // the badge: what is its panel in one form is none in others
	answer, err := propose.Folios(context.Background(), r, propose.Budget{})
	if err != nil {
		return s, err
	}
	one, ok := answer.Of(aim)
	if !ok {
		var why []error
		for l := range answer.Unmet() {
			for reason := range l.Why() {
				if l.Aim() == aim {
					why = append(why, errors.New(reason.Text(answer.Notation())))
				}
			}
		}
		return s, fmt.Errorf("no folio is found: %w", errors.Join(why...))
	}
	p.plan = one.Plan()
	p.proposal(answer, one)
	return one.Spec(), nil
}

// proposal prints what was found for each aim, and of one why it is so.
func (p *printer) proposal(answer *propose.Proposals, one propose.Proposal) {
	n := answer.Notation()
	p.head("Proposed")
	for o := range answer.All() {
		this := ""
		if o.Aim() == one.Aim() {
			this = ", this one"
		}
		form, _ := o.Form()
		text := fmt.Sprintf("%s%s: %s; cover %s, %s thick", o.Aim(), this, form, p.size(o.Cover()), p.upTo(o.Closed().Thickness().Length()))
		if sheets, ok := o.Sheets(); ok {
			text += fmt.Sprintf(", sheets: %d", sheets)
		}
		if o.Complete() {
			text += " (proved: none is better)"
		}
		p.para("  ", "      ", text)
	}
	for l := range answer.Unmet() {
		in, head := "  ", l.Aim().String()+": none. "
		for why := range l.Why() {
			p.para(in, "      ", head+why.Text(n))
			in, head = "      ", ""
		}
	}
	p.head("What lies where")
	fittings := one.Spec().Fittings
	last := -1
	for h := range one.Held() {
		turned := ""
		if h.Turned {
			turned = ", turned a quarter"
		}
		p.para("  ", "      ", fmt.Sprintf("%s, on the %s%s", fittings[h.Fitting].Name, h.Panel, turned))
		if h.Thing == last {
			continue // and why is as before
		}
		last = h.Thing
		for why := range h.Why() {
			p.para("      ", "        ", why.Text(n))
		}
	}
	p.head("Ruled out")
	for o := range one.OtherForms() {
		sure := ""
		if !o.Complete() {
			sure = " Not every folio of this form was tried."
		}
		for why := range o.Why() {
			p.para("  ", "      ", fmt.Sprintf("%s: %s%s", o.Form(), why.Text(n), sure))
		}
	}
	for o := range one.RuledOut() {
		p.para("  ", "      ", o.Why.Text(n))
	}
	p.line("")
}
