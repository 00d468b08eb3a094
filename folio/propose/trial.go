package propose

import (
	"cmp"
	"slices"
	"strings"

	"boardwrap.example/folio/post"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A trial is the search for folios of one form.
type trial struct {
	*searcher
	form   Form
	index  int // of the form in the request
	boards int
	err    error // why no case of the form can be built
	got    [aims]result
}

// A result is what a search for an aim came to: a folio, or why there is none.
type result struct {
	proposal *Proposal
	complete bool
	why      []Reason
	least    int          // of the aim FewestSheets, how many no folio can do without
	low      units.Length // of the aim Thinnest, than which none is thinner
}

// settled reports whether no folio of a form is better for an aim than one that is
// known.
func (r *result) settled(aim Aim, than *Proposal) bool {
	switch {
	case r.complete:
		return true
	case than == nil || r.proposal == nil:
		return false
	case aim == FewestSheets:
		return r.least >= than.found.sheets
	}
	return aim == Thinnest && r.low >= thicknessOf(than)
}

// begun measures a case of one form, which is said at a path, if it is one of several.
// The error is that of the form.
func begun(until score.Stopper, r Request, f Form, index int, at string, b Budget) *trial {
	t := &trial{form: f, index: index}
	if t.boards = len(f.Row.Boards); t.boards == 0 {
		t.boards = len(f.Form.Row().Boards)
	}
	var bad check.List
	if r.checkHinge(&bad); bad.Len() > 0 {
		t.err = bad.Err()
		return t
	}
	if err := soundMaterials(until, &r); err != nil {
		bad.Under("limits", err)
		r.Limits.Materials = nil // their sheets would be complained about as those of the case
	}
	t.searcher = newSearcher(until, r, b)
	if err := t.measure(); err != nil {
		underCase(&bad, err, at)
	} else if r.Limits.Post.Service != "" {
		_, err := post.Pack(t.last, r.Limits.Post.Packing)
		bad.Under("limits.post.packing", err)
	}
	t.err = bad.Err()
	return t
}

// underCase says what is wrong with a case; what is so with its form or its row, where
// those are of one of several forms, is said there.
func underCase(bad *check.List, err error, at string) {
	list, is := err.(*check.Error)
	if !is || at == "" {
		bad.Under("case", err)
		return
	}
	for v := range list.All() {
		if v.Path == "form" || v.Path == "row" || strings.HasPrefix(v.Path, "row.") {
			bad.Under(at, v)
		} else {
			bad.Under("case", v)
		}
	}
}

// allWrong returns what is wrong with every case, each thing once.
func allWrong(trials []*trial) error {
	var list check.List
	said := map[[2]string]bool{}
	for _, t := range trials {
		bad, _ := t.err.(*check.Error)
		for v := range bad.All() {
			if key := [2]string{v.Path, string(v.Code)}; !said[key] {
				said[key] = true
				list.Add(v)
			}
		}
	}
	return list.Err()
}

// ahead reports whether the folio of a form is better for an aim than another
// form's, of equal ones that with fewer boards. Of equal ones the first stays.
func (t *trial) ahead(aim Aim, than *trial) bool {
	c := aim.order(t.got[aim].proposal, than.got[aim].proposal)
	return c < 0 || c == 0 && t.boards < than.boards
}

// order compares folios for an aim, the better one first: by the aim's own measure,
// then by area, work, width and thickness.
func (a Aim) order(p, than *Proposal) int {
	own, thick := 0, cmp.Compare(thicknessOf(p), thicknessOf(than))
	switch a {
	case Thinnest:
		own = thick
	case FewestSheets:
		own = p.found.sheets - than.found.sheets
	}
	work, _ := plainness(p.found.opts)
	less, _ := plainness(than.found.opts)
	return cmp.Or(own, p.Cover().Area().Compare(than.Cover().Area()), work-less, cmp.Compare(p.Cover().W, than.Cover().W), thick)
}

// lost says why a form was not taken for an aim.
func (t *trial) lost(aim Aim, to *trial) OtherForm {
	o := OtherForm{index: t.index, form: t.form, complete: true}
	if t.err != nil {
		o.why = []Reason{ofAll(Reason{Cause: CannotBe, Detail: firstAsked(t.err)})}
		return o
	}
	got := t.got[aim]
	o.proposal, o.complete, o.why = got.proposal, got.complete, got.why
	if got.proposal == nil || to == nil {
		return o
	}
	a, b := got.proposal, to.got[aim].proposal
	why := ofAll(Reason{})
	thicker := thicknessOf(a) > thicknessOf(b)
	switch larger := a.Cover().Area().Compare(b.Cover().Area()) > 0; {
	case aim == FewestSheets && a.found.sheets > b.found.sheets:
		why.Cause, why.Sheets, why.ThanSheets = MoreSheets, a.found.sheets, b.found.sheets
	case larger && (aim != Thinnest || !thicker):
		why.Cause, why.Size, why.Than = Larger, a.Cover(), b.Cover()
	case thicker:
		why.Cause, why.Thick, why.ThanThick = Thicker, thicknessOf(a), thicknessOf(b)
	default:
		why.Cause = NoBetter
	}
	o.why = []Reason{why}
	return o
}

// choose takes of all forms the best folio for an aim, and says of the others why
// they were not taken.
func choose(aim Aim, trials []*trial) (*Proposal, Unmet) {
	best := -1
	for i, t := range trials {
		if t.err == nil && t.got[aim].proposal != nil && (best < 0 || t.ahead(aim, trials[best])) {
			best = i
		}
	}
	var to *trial
	var taken *Proposal
	if best >= 0 {
		to = trials[best]
		taken = to.got[aim].proposal
	}
	complete := true
	var others []OtherForm
	var why []Reason
	for i, t := range trials {
		if t.err == nil {
			complete = complete && t.got[aim].settled(aim, taken)
		}
		if i == best {
			continue
		}
		o := t.lost(aim, to)
		others = append(others, o)
		for _, r := range o.why {
			if !slices.Contains(why, r) {
				why = append(why, r)
			}
		}
	}
	if to == nil {
		return nil, Unmet{aim: aim, why: why, others: others, complete: complete}
	}
	p := *taken
	p.others, p.complete = others, complete
	return &p, Unmet{}
}

// thicknessOf is how thick a proposal is when it is closed.
func thicknessOf(p *Proposal) units.Length { return p.Closed().Thickness().Length() }
