package answers

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"

	"boardwrap.example/folio"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/propose"
	"boardwrap.example/folio/wire"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// proposeSteps bound the search for proposals: some seconds in the browser.
const proposeSteps = 10_000_000

// proposed is one proposal in the answer.
type proposed struct {
	Aim      string          `json:"aim"`
	Cover    string          `json:"cover"`
	Closed   string          `json:"closed"` // over everything, filled
	Complete bool            `json:"complete"`
	Why      []string        `json:"why"`
	Spec     json.RawMessage `json:"spec"`
	Picture  *picture        `json:"picture,omitempty"`
}

type lacking struct {
	Aim string   `json:"aim"`
	Why []string `json:"why"`
}

// proposals answers with folios for what the first text says must go in, a
// document as in {"version": 1, "contents": "2 photo 4 x 6 in, 1 ID-1 card"}. They
// are of the boards and papers, and by the rules, of the Spec in the second text.
func (d *Desk) proposals(texts [2]string) ([]byte, error) {
	var asked struct {
		Version  int    `json:"version"`
		Contents string `json:"contents"`
	}
	dec := json.NewDecoder(bytes.NewReader([]byte(texts[0])))
	dec.DisallowUnknownFields()
	if err := dec.Decode(&asked); err != nil {
		return nil, err
	}
	if asked.Version != wire.Version {
		return nil, errors.New("proposals are asked for by version 1")
	}
	r := propose.Request{}
	if texts[1] != "" {
		s, _, _, err := wire.ReadMade([]byte(texts[1]))
		if err != nil {
			return nil, err
		}
		r.Case = caseOf(s)
	}
	var err error
	if r.Things, err = propose.ParseThings(asked.Contents); err != nil {
		return nil, contents(err)
	}
	found, err := propose.Folios(context.Background(), r, propose.Budget{Steps: proposeSteps})
	if err != nil {
		return nil, contents(err)
	}
	out := struct {
		Version   int        `json:"version"`
		Proposals []proposed `json:"proposals"`
		Lacking   []lacking  `json:"lacking"`
	}{wire.Version, []proposed{}, []lacking{}}
	for p := range found.All() {
		one, err := proposedOf(p, found.Notation())
		if err != nil {
			return nil, err
		}
		out.Proposals = append(out.Proposals, one)
	}
	for l := range found.Lacking() {
		none := lacking{Aim: l.Aim().String(), Why: []string{}}
		for why := range l.Why() {
			none.Why = append(none.Why, why.Text(found.Notation()))
		}
		out.Lacking = append(out.Lacking, none)
	}
	return json.Marshal(out)
}

// caseOf is of a Spec what a search starts from.
func caseOf(s folio.Spec) folio.Spec {
	s.Title, s.Cover, s.Block, s.Spine, s.Fittings, s.Magnets = "", units.Size{}, folio.Block{}, folio.Spine{}, nil, folio.Magnets{}
	s.FlapWidth, s.DoorGap = 0, 0
	if s.Form != folio.SoftSpine {
		s.Form = folio.SpineBoard
	}
	return s
}

// contents is an error about what must go in.
func contents(err error) error {
	var l check.List
	l.Under("contents", err)
	return l.Err()
}

func proposedOf(p propose.Proposal, n units.Notation) (proposed, error) {
	f := units.Format{Ruler: p.Spec().Rulers.Main}
	if f.Ruler == 0 {
		f.Ruler = units.Sixteenths
	}
	over := p.Closed()
	out := proposed{
		Aim: p.Aim().String(), Cover: f.Size(p.Cover()), Complete: p.Complete(), Why: []string{},
		Closed: f.Size(over.Size()) + ", " + f.Text(over.Thickness().Length()) + " thick",
	}
	for h := range p.Held() {
		for why := range h.Why() {
			out.Why = append(out.Why, why.Text(n))
		}
	}
	spec, err := wire.AppendSpec(nil, p.Spec(), wire.Options{})
	if err != nil {
		return out, err
	}
	var doc struct{ Spec json.RawMessage }
	if err := json.Unmarshal(spec, &doc); err != nil {
		return out, err
	}
	out.Spec = doc.Spec
	if pic, ok := draw(p.Plan(), "inside", guide.Options{Fit: units.Size{W: 90 * units.Millimetre, H: 90 * units.Millimetre}}); ok {
		one := pictureOf(pic, "inside", "proposal-"+p.Aim().String(), false)
		out.Picture = &one
	}
	return out, nil
}
