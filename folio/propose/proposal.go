package propose

import (
	"iter"
	"slices"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/fit"
	"boardwrap.example/units"
)

// Proposals are the folios that were found for a request.
type Proposals struct {
	list     []Proposal
	lacking  []Unmet
	notation units.Notation
	steps    int64
	forms    int
}

// All walks the proposals, in the order of their aims.
func (p *Proposals) All() iter.Seq[Proposal] { return slices.Values(p.list) }

// Of returns the proposal for an aim, and whether there is one.
func (p *Proposals) Of(a Aim) (Proposal, bool) {
	for _, o := range p.list {
		if o.aim == a {
			return o, true
		}
	}
	return Proposal{}, false
}

// Unmet walks the aims for which there is no folio, with the reasons.
func (p *Proposals) Unmet() iter.Seq[Unmet] { return slices.Values(p.lacking) }

// Notation is the way in which the request writes lengths.
func (p *Proposals) Notation() units.Notation { return p.notation }

// Steps returns how many steps of its budget the search took.
func (p *Proposals) Steps() int64 { return p.steps }

// Forms returns how many forms there were to choose among, 1 for that of the case.
func (p *Proposals) Forms() int { return p.forms }

// Unmet says why there is no folio for an aim.
type Unmet struct {
	aim      Aim
	why      []Reason
	others   []OtherForm
	complete bool
}

// Aim returns the aim.
func (l Unmet) Aim() Aim { return l.aim }

// Why walks the reasons: what ruled out the first folio that each of them ruled
// out.
func (l Unmet) Why() iter.Seq[Reason] { return slices.Values(l.why) }

// Forms walks the forms that were asked for, or the one of the case, each with its
// own reasons.
func (l Unmet) Forms() iter.Seq[OtherForm] { return slices.Values(l.others) }

// Complete reports that there is none in the design space. It is false where the
// budget or the Stopper ended the search, and where a folio was ruled out that would
// have done laid out otherwise.
func (l Unmet) Complete() bool { return l.complete }

// A Proposal is one folio, worked out. The zero Proposal is of a plan without
// anything.
type Proposal struct {
	aim      Aim
	found    *found
	complete bool
	out      []RuledOut
	form     Form
	index    int
	others   []OtherForm
}

// work is what was found, or nothing of the zero plan.
func (p Proposal) work() *found {
	if p.found == nil {
		return &found{plan: new(folio.Plan)}
	}
	return p.found
}

// Aim returns what it is best at.
func (p Proposal) Aim() Aim { return p.aim }

// Spec returns the design: [folio.Build] makes the plan of it.
func (p Proposal) Spec() folio.Spec { return owned(p.work().spec) }

// Plan returns the plan of the design.
func (p Proposal) Plan() *folio.Plan { return p.work().plan }

// Held walks what lies where, fitting by fitting.
func (p Proposal) Held() iter.Seq[Held] {
	return slices.Values(p.work().held) // whose reasons nobody but this package can change
}

// Ways returns where each copy of each thing goes, in the order of the request.
func (p Proposal) Ways() []fit.Berth { return slices.Clone(p.work().ways) }

// Cover returns the size of one cover board.
func (p Proposal) Cover() units.Size { return p.work().cover }

// Closed returns the closed folio with everything in it.
func (p Proposal) Closed() folio.Overall {
	o, _ := p.work().plan.Overall(true)
	return o
}

// Sheets returns how many bought sheets it takes, and whether any are at hand
// that could be counted.
func (p Proposal) Sheets() (n int, counted bool) { w := p.work(); return w.sheets, w.counted }

// Form returns its form, and the place of that in Request.Forms, 0 where the form
// was given.
func (p Proposal) Form() (f Form, index int) { return p.form.owned(), p.index }

// OtherForms walks the forms that were asked for and not taken, each with the best
// of its folios and why it is not better.
func (p Proposal) OtherForms() iter.Seq[OtherForm] { return slices.Values(p.others) }

// Complete reports that nothing in the design space, of whatever form that was asked
// for, is better by the measure of the aim. It is false where the budget or the Stopper
// ended the search, and where a folio was ruled out that would have done laid out
// otherwise.
func (p Proposal) Complete() bool { return p.complete }

// RuledOut walks the other ways to hold each thing, with why they were not taken.
func (p Proposal) RuledOut() iter.Seq[RuledOut] { return slices.Values(p.out) }

// A Held is one fitting of a proposal with what it holds. It is plain data: what is
// changed in it changes no proposal.
type Held struct {
	Thing   int         // the place of the thing in the Request
	Copies  int         // how many copies of it
	Way     Holder      // what fitting it is
	Turned  bool        // whether it is turned a quarter
	Fitting int         // its place in Spec.Fittings
	Panel   boards.Role // the cover it lies on
	why     []Reason
}

// Why walks the reasons why it is held so and lies there.
func (h Held) Why() iter.Seq[Reason] { return slices.Values(h.why) }

// A RuledOut is a way to hold a thing that was not taken. It is plain data.
type RuledOut struct {
	Thing int    // the place of the thing in the Request
	Way   Holder // how it would be held
	Why   Reason // why it is not
}
