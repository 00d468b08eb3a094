package answers

import (
	"boardwrap.example/examples/web/planner"
	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/propose"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/wire"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// proposeSteps bound the search for proposals: some seconds in the browser.
const proposeSteps = 10_000_000

// request answers with the request for proposals that somebody says in words, a
// document as in {"version": 1, "contents": "2 photo 4 x 6 in, 1 ID-1 card"}. It is
// of the form, the boards and papers, and by the rules, of the Spec in the second text;
// with "anyForm": true it is for the best of all forms of case.
func request(_ *planner.Desk, texts [3]string) ([]byte, error) {
	asked, err := wire.ReadAsked([]byte(texts[0]))
	if err != nil {
		return nil, err
	}
	var r propose.Request
	if texts[1] != "" {
		s, _, _, err := wire.ReadMade([]byte(texts[1]))
		if err != nil {
			return nil, err
		}
		r.Case = caseOf(s)
	}
	if asked.AnyForm {
		r.Forms, r.Case.Form, r.Case.Row = propose.AnyForm(), 0, boards.Row{}
	}
	if r.Things, err = propose.ParseThings(asked.Contents); err != nil {
		return nil, contents(err)
	}
	return wire.AppendRequest(nil, r, wire.Options{})
}

// proposals answers with the folios for a request.
func proposals(_ *planner.Desk, texts [3]string) ([]byte, error) {
	r, err := wire.ReadRequest([]byte(texts[0]))
	if err != nil {
		return nil, err
	}
	found, err := propose.Folios(nil, r, propose.Budget{Steps: proposeSteps})
	if err != nil {
		return nil, contents(err)
	}
	return wire.AppendProposals(nil, found, wire.Options{})
}

// caseOf is of a Spec what a search starts from.
func caseOf(s folio.Spec) folio.Spec {
	s.Title, s.Cover, s.Block, s.Spine, s.Fittings, s.Magnets = "", units.Size{}, boards.Block{}, rule.Spine{}, nil, closing.Magnets{}
	s.FlapWidth, s.DoorGap = 0, 0
	return s
}

// contents is an error about what must go in.
func contents(err error) error {
	var l check.List
	l.Under("contents", err)
	return l.Err()
}
