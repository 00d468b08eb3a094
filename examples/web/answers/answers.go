// Package answers answers a front end: JSON text in, JSON text out, in the
// documents of folio/wire. It is what the page in the browser and programs in
// JavaScript call; what it says about a folio is all from the library.
//
// No answer is an error of Go's or a panic: what cannot be done is answered by the
// document of an error.
package answers

import (
	"errors"
	"strings"

	"boardwrap.example/folio"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/wire"
	"boardwrap.example/units"
)

// A Desk answers. It keeps the last plan, since a front end asks for several
// things about one; it is not safe to share. [New] makes one that answers
// everything, [Planner] one that answers what is asked while somebody types.
type Desk struct {
	questions [][]question
	step      func(*folio.Plan, int, guide.Options) (guide.Picture, bool) // draws a step; nil draws none
	asked     string
	plan      *folio.Plan
}

// A question is one thing that a desk can be asked.
type question struct {
	name   string
	answer func(d *Desk, texts [3]string) ([]byte, error)
}

// soon are the questions that are asked at every change, later those whose answers
// take their time or are seldom wanted. They are two lists so that a program which
// names only one of them holds only what that needs. Nothing changes them.
var (
	soon = []question{
		{"plan", (*Desk).planned},
		{"spec", (*Desk).spec},
		{"tidy", (*Desk).tidy},
		{"pictures", (*Desk).pictures},
		{"verdicts", (*Desk).verdicts},
	}
	later = []question{
		{"handout", (*Desk).handout},
		{"templates", (*Desk).templates},
		{"batch", (*Desk).batch},
		{"lists", (*Desk).lists},
		{"request", (*Desk).request},
		{"proposals", (*Desk).proposals},
		{"schema", (*Desk).schema},
	}
)

// New returns a desk that answers everything.
func New() *Desk { return &Desk{questions: [][]question{soon, later}, step: guide.Step} }

// Planner returns a desk that answers with plans, Specs, pictures and verdicts, and
// not with what is laid out, proposed or printed, nor with pictures of steps.
func Planner() *Desk { return &Desk{questions: [][]question{soon}} }

// Names are the names of everything that the desk can be asked.
func (d *Desk) Names() []string {
	var names []string
	for _, list := range d.questions {
		for _, q := range list {
			names = append(names, q.name)
		}
	}
	return names
}

// Ask answers a question by its name. What texts stand for depends on the
// question; those that are left out are empty.
func (d *Desk) Ask(name string, texts ...string) (answer string) {
	defer func() {
		if recover() != nil {
			d.asked, d.plan = "", nil
			answer = fault(errors.New("this cannot be worked out: a mistake in boardwrap itself"), units.InchFraction)
		}
	}()
	for _, list := range d.questions {
		for _, q := range list {
			if q.name != name {
				continue
			}
			var three [3]string
			copy(three[:], texts)
			b, err := q.answer(d, three)
			if err != nil {
				return fault(err, notation(three[0]))
			}
			return string(b)
		}
	}
	return fault(errors.New("there is no question "+name+"; there are "+strings.Join(d.Names(), ", ")), units.InchFraction)
}

// fault is the document of an error.
func fault(err error, n units.Notation) string {
	b, err := wire.AppendError(nil, err, n, wire.Options{})
	if err != nil {
		return `{"version":1,"error":{"message":"an error that cannot be written","faults":[],"problems":[],"more":0}}`
	}
	return string(b)
}

// notation is how lengths are written about the document of a Spec.
func notation(text string) units.Notation {
	s, _, _, err := wire.ReadMade([]byte(text))
	if err != nil || s.Rulers.Main == 0 {
		return units.Sixteenths.Notation()
	}
	return s.Rulers.Main.Notation()
}

// build works out the plan of a document, or takes the last one.
func (d *Desk) build(text string) (*folio.Plan, error) {
	if d.plan != nil && d.asked == text {
		return d.plan, nil
	}
	d.plan = nil
	s, m, made, err := wire.ReadMade([]byte(text))
	if err != nil {
		return nil, err
	}
	p, err := folio.Build(s)
	if err == nil && made {
		p, err = p.Refit(m)
	}
	if err != nil {
		return nil, err
	}
	d.asked, d.plan = text, p
	return p, nil
}

// planned answers with the plan of a folio: of all its members, or of those that
// the second text names, with commas between.
func (d *Desk) planned(texts [3]string) ([]byte, error) {
	p, err := d.build(texts[0])
	if err != nil {
		return nil, err
	}
	var o wire.Options
	if texts[1] != "" {
		o.Only = strings.Split(texts[1], ",")
	}
	return wire.AppendPlan(nil, p, o)
}

// spec answers with the Spec, every default filled in.
func (d *Desk) spec(texts [3]string) ([]byte, error) {
	s, _, _, err := wire.ReadMade([]byte(texts[0]))
	if err != nil {
		return nil, err
	}
	return wire.AppendSpec(nil, s, wire.Options{Defaults: true})
}

// tidy answers with the Spec as it is, written in its own notation.
func (d *Desk) tidy(texts [3]string) ([]byte, error) {
	s, _, _, err := wire.ReadMade([]byte(texts[0]))
	if err != nil {
		return nil, err
	}
	return wire.AppendSpec(nil, s, wire.Options{})
}

// schema answers with the JSON Schema of a document.
func (d *Desk) schema(texts [3]string) ([]byte, error) {
	switch texts[0] {
	case "spec":
		return wire.SpecSchema(), nil
	case "closing":
		return wire.ClosingSchema(), nil
	case "posting":
		return wire.PostingSchema(), nil
	case "plan":
		return wire.PlanSchema(), nil
	case "batch":
		return wire.BatchSchema(), nil
	case "request":
		return wire.RequestSchema(), nil
	case "proposals":
		return wire.ProposalsSchema(), nil
	case "layout":
		return wire.LayoutSchema(), nil
	case "costs":
		return wire.CostsSchema(), nil
	case "error":
		return wire.ErrorSchema(), nil
	}
	return nil, errors.New("there is no schema of that name; there are spec, plan, closing, posting, batch, request, proposals, layout, costs, error")
}
