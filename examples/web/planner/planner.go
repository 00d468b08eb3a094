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

// summary answers with what a front end shows of a plan while somebody types.
func (d *Desk) summary(texts [3]string) ([]byte, error) {
	p, err := d.Build(texts[0])
	if err != nil {
		return nil, err
	}
	return wire.AppendSummary(nil, p), nil
}
