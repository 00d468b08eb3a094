// Package answers answers everything that a front end asks: JSON text in, JSON text
// out, in the documents of folio/wire. It is what the page in the browser and programs
// in JavaScript call; what it says about a folio is all from the library. What is
// asked at every change package planner answers.
package answers

import (
	"strconv"
	"strings"

	"boardwrap.example/examples/web/planner"
	"boardwrap.example/folio"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/wire"
)

// New returns a desk that answers everything.
func New() *planner.Desk {
	return planner.New(planner.Pictures{Names: names, Draw: drawer()},
		planner.Question{Name: "plan", Answer: planned},
		planner.Question{Name: "spec", Answer: spec},
		planner.Question{Name: "tidy", Answer: tidy},
		planner.Question{Name: "verdicts", Answer: verdicts},
		planner.Question{Name: "handout", Answer: handout},
		planner.Question{Name: "templates", Answer: templates},
		planner.Question{Name: "batch", Answer: batch},
		planner.Question{Name: "lists", Answer: lists},
		planner.Question{Name: "request", Answer: request},
		planner.Question{Name: "proposals", Answer: proposals},
	)
}

// names are the names of the pictures that the planner does not draw.
func names(p *folio.Plan) []string {
	var names []string
	for f := range p.Fittings() {
		for _, kind := range [...]string{"strip", "accordion"} {
			if _, ok := draw(p, kind, f.Index(), guide.Options{}); ok {
				names = append(names, kind+" "+strconv.Itoa(f.Index()))
			}
		}
	}
	i := 0
	for range p.Pieces() {
		names = append(names, "piece "+strconv.Itoa(i))
		i++
	}
	return names
}

// drawer draws them, many steps of a folio with one order of work.
func drawer() func(*folio.Plan, string, int, guide.Options) (guide.Picture, bool) {
	var of *folio.Plan
	var steps guide.Steps
	return func(p *folio.Plan, kind string, i int, o guide.Options) (guide.Picture, bool) {
		if kind == "step" {
			if p != of {
				of, steps = p, guide.StepsOf(p)
			}
			return steps.Draw(i, o)
		}
		return draw(p, kind, i, o)
	}
}

func draw(p *folio.Plan, kind string, i int, o guide.Options) (guide.Picture, bool) {
	switch kind {
	case "strip":
		return guide.Strip(p, i, o)
	case "accordion":
		return guide.Accordion(p, i, o)
	case "piece":
		return guide.Piece(p, i, o)
	}
	return guide.Picture{}, false
}

// planned answers with the plan of a folio: of all its members, or of those that
// the second text names, with commas between.
func planned(d *planner.Desk, texts [3]string) ([]byte, error) {
	p, err := d.Build(texts[0])
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
func spec(_ *planner.Desk, texts [3]string) ([]byte, error) {
	s, _, _, err := wire.ReadMade([]byte(texts[0]))
	if err != nil {
		return nil, err
	}
	return wire.AppendSpec(nil, s, wire.Options{Defaults: true})
}

// tidy answers with the Spec as it is, written in its own notation.
func tidy(_ *planner.Desk, texts [3]string) ([]byte, error) {
	s, _, _, err := wire.ReadMade([]byte(texts[0]))
	if err != nil {
		return nil, err
	}
	return wire.AppendSpec(nil, s, wire.Options{})
}
