package propose

import (
	"iter"
	"slices"
	"strconv"

	"boardwrap.example/folio/boards"
	"boardwrap.example/internal/word"
	"boardwrap.example/units/check"
)

// A Form is a row of boards that a folio may have: one of the forms of case, or a
// row of your own, as in a Spec.
type Form struct {
	Form boards.Form // the form of case
	Row  boards.Row  // with boards, the row of your own
}

// String returns the form in words; a row of your own is told by its boards.
func (f Form) String() string {
	if len(f.Row.Boards) == 0 {
		return f.Form.String()
	}
	text := "a row of your own: "
	for i, b := range f.Row.Boards {
		if i == boards.MaxBoards {
			return text + " and more"
		}
		if i > 0 {
			text += ", "
		}
		text += b.Role.String()
	}
	return text
}

// owned returns the form with lists of its own.
func (f Form) owned() Form {
	f.Row.Boards, f.Row.Joints = slices.Clone(f.Row.Boards), slices.Clone(f.Row.Joints)
	return f
}

// AnyForm returns every form of case, for [Request].Forms.
func AnyForm() []Form {
	var all []Form
	for f := boards.Form(0); f.Known(); f++ {
		if f != boards.OwnRow {
			all = append(all, Form{Form: f})
		}
	}
	return all
}

// An OtherForm is a form that was asked for and not taken.
type OtherForm struct {
	index    int
	form     Form
	proposal *Proposal
	complete bool
	why      []Reason
}

// Index is the place of the form in Request.Forms.
func (o OtherForm) Index() int { return o.index }

// Form returns the form.
func (o OtherForm) Form() Form { return o.form.owned() }

// Proposal returns the best folio of that form for the aim, and whether there is
// one.
func (o OtherForm) Proposal() (Proposal, bool) {
	if o.proposal == nil {
		return Proposal{}, false
	}
	return *o.proposal, true
}

// Complete reports that no folio of the form is better than that one, or that
// there is none.
func (o OtherForm) Complete() bool { return o.complete }

// Why walks the reasons: what is worse than in the form that was taken, or what
// ruled out the first folios of the form where none does.
func (o OtherForm) Why() iter.Seq[Reason] { return slices.Values(o.why) }

// among returns a request for each form that is asked for, and these forms.
func (r *Request) among() ([]Request, []Form) {
	if len(r.Forms) == 0 {
		return []Request{*r}, []Form{Form{Form: r.Case.Form, Row: r.Case.Row}.owned()}
	}
	list, forms := make([]Request, len(r.Forms)), make([]Form, len(r.Forms))
	for i, f := range r.Forms {
		forms[i] = f.owned()
		list[i] = *r
		list[i].Forms, list[i].Case.Form, list[i].Case.Row = nil, forms[i].Form, forms[i].Row
	}
	return list, forms
}

// checkForms checks the forms to choose among.
func (r *Request) checkForms(bad *check.List) {
	if len(r.Forms) == 0 {
		return
	}
	if r.Case.Form != 0 {
		bad.Malformed("case.form", check.Conflict, r.Case.Form.String(), "none beside forms to choose among")
	}
	if len(r.Case.Row.Boards) > 0 {
		bad.Malformed("case.row", check.Conflict, "a row", "none beside forms to choose among")
	}
	if len(r.Forms) > MostForms {
		bad.Malformed("forms", check.TooMany, strconv.Itoa(len(r.Forms)), "at most "+strconv.Itoa(MostForms))
		return
	}
	for i, f := range r.Forms {
		if !f.Form.Known() {
			bad.Malformed(check.Index("forms", i)+".form", check.Unknown, strconv.Itoa(int(f.Form)), word.OneOf[boards.Form]())
		}
	}
}
