// Package planner answers what a front end asks at every change: JSON text in, JSON
// text out. What takes its time, or is seldom wanted, package answers adds to it; a
// program in a browser that holds no more than this is there sooner.
//
// No answer is an error of Go's or a panic: what cannot be done is answered by the
// document of an error.
package planner

import (
	"errors"
	"strings"

	"boardwrap.example/folio"
	"boardwrap.example/folio/wire"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Desk answers. It keeps the last plan, or why there is none, since a front end asks
// for several things about one; it is not safe to share.
type Desk struct {
	questions []Question
	more      Pictures
	asked     string
	plan      *folio.Plan
	err       error
	written   units.Notation
}

// A Question is one thing that a desk can be asked. What its texts stand for depends
// on it; those that are left out are empty.
type Question struct {
	Name   string
	Answer func(d *Desk, texts [3]string) ([]byte, error)
}

// New returns a desk that answers with summaries and with pictures of a folio, and
// with what is added to that.
func New(more Pictures, questions ...Question) *Desk {
	return &Desk{questions: append([]Question{{"summary", (*Desk).summary}, {"pictures", (*Desk).pictures}}, questions...), more: more, written: units.InchFraction}
}

// Names are the names of everything that the desk can be asked.
func (d *Desk) Names() []string {
	var names []string
	for _, q := range d.questions {
		names = append(names, q.Name)
	}
	return names
}

// Ask answers a question by its name.
func (d *Desk) Ask(name string, texts ...string) (answer string) {
	defer func() {
		if recover() != nil {
			answer = Fault(errors.New("this cannot be worked out: a mistake in boardwrap itself"), units.InchFraction)
		}
	}()
	for _, q := range d.questions {
		if q.Name != name {
			continue
		}
		var three [3]string
		copy(three[:], texts)
		b, err := q.Answer(d, three)
		if err != nil {
			return Fault(err, d.notation(three[0]))
		}
		return string(b)
	}
	return Fault(errors.New("there is no question "+check.Quote(name)+"; there are "+strings.Join(d.Names(), ", ")), units.InchFraction)
}

// Fault is the document of an error.
func Fault(err error, n units.Notation) string {
	b, _ := wire.AppendError(nil, err, n, wire.Options{}) // there is nothing in it that cannot be written
	return string(b)
}

// notation is how lengths are written about the document of a Spec.
func (d *Desk) notation(text string) units.Notation {
	if d.asked != text {
		s, _, _, _ := wire.ReadMade([]byte(text)) // nothing is said of a length where there is no Spec
		return notation(s)
	}
	return d.written
}

func notation(s folio.Spec) units.Notation {
	if s.Rulers.Main == 0 {
		return units.InchFraction
	}
	return s.Rulers.Main.Notation()
}

// Build works out the plan of a document, refitted if that holds the cover as
// measured, or takes the last one.
func (d *Desk) Build(text string) (*folio.Plan, error) {
	if d.asked != text || d.plan == nil && d.err == nil {
		d.asked, d.plan, d.err = "", nil, nil // and so they stay where making it ends in a panic
		d.plan, d.written, d.err = built(text)
		d.asked = text
	}
	return d.plan, d.err
}

func built(text string) (*folio.Plan, units.Notation, error) {
	s, m, made, err := wire.ReadMade([]byte(text))
	n := notation(s)
	if err != nil {
		return nil, n, err
	}
	p, err := folio.Build(s)
	if err == nil && made {
		p, err = p.Refit(m)
	}
	return p, n, err
}

// summary answers with what a front end shows of a plan while somebody types.
func (d *Desk) summary(texts [3]string) ([]byte, error) {
	p, err := d.Build(texts[0])
	if err != nil {
		return nil, err
	}
	return wire.AppendSummary(nil, p), nil
}
