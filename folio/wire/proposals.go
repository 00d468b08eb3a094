package wire

import (
	"iter"
	"reflect"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/propose"
	"boardwrap.example/units"
)

// The members of a document of proposals.
type proposals struct {
	Proposals []proposal
	Lacking   []lacking
	Steps     int64
}

type proposal struct {
	Aim      propose.Aim
	Complete bool
	Chosen   []chosen // one, or none where the form was given
	Title    string
	Cover    units.Size
	Spine    units.Length // 0 for a soft spine
	Closed   outside
	Sheets   []int // bought, one number, or none where none are at hand
	Spec     folio.Spec
	Held     []held
	RuledOut []ruledOut
}

// chosen is a form that was taken, by its place in the request and in words, and
// those that were not.
type chosen struct {
	Index  int
	Form   string
	Others []otherForm
}

// otherForm is a form that was not taken, with what its best folio measures where
// there is one.
type otherForm struct {
	Index    int
	Form     string
	Complete bool
	Best     []measures // one or none
	Why      []reason
}

type measures struct {
	Cover  units.Size
	Spine  units.Length
	Closed outside
	Sheets []int
}

// outside is the closed folio with everything in it.
type outside struct {
	Size      units.Size
	Thickness units.Length
}

type held struct {
	Thing, Copies int
	Way           propose.Holder
	Turned        bool
	Fitting       int
	Name          string // of the fitting
	Panel         boards.Role
	Rect          units.Rect // on the row, as in a plan's document
	Why           []reason
}

type ruledOut struct {
	Thing int
	Way   propose.Holder
	Why   reason
}

type lacking struct {
	Aim   propose.Aim
	Why   []reason
	Forms []otherForm // each that was asked for
}

type reason struct {
	Cause              propose.Cause
	Thing              int // −1 for none
	Name               string
	Way                propose.Holder
	Count              int
	Size, Than         units.Size
	Thick, ThanThick   units.Length
	AtLeast            []string // which of these are bounds: size or thick
	Sheets, ThanSheets int
	Detail             string
	Text               string
}

// AppendProposals appends the document of what was proposed to dst: each folio
// with its measures, what lies where and why, and what ruled the rest out. The
// member spec of each is a Spec as [ReadSpec] reads it; all other lengths are
// objects with their text and their millimetres, as in a plan's document. The
// error is for [Options].Only naming what there is not.
func AppendProposals(dst []byte, p *propose.Proposals, o Options) ([]byte, error) {
	if p == nil {
		return dst, ErrNothing
	}
	m, err := maskOf(shapeProposals, o.Only)
	if err != nil {
		return dst, err
	}
	note := p.Notation()
	out := proposals{Steps: p.Steps(), Proposals: gather(p.All(), func(q propose.Proposal) proposal { return proposalOf(q, note) })}
	out.Lacking = gather(p.Unmet(), func(l propose.Unmet) lacking {
		return lacking{l.Aim(), gather(l.Why(), func(r propose.Reason) reason { return reasonOf(r, note) }), othersOf(l.Forms(), note)}
	})
	return document(drawing(dst, note, m), "proposals", &out, (*encoder).writeProposals, Options{Indent: o.Indent})
}

// A Proposed is a folio that was proposed.
type Proposed struct {
	// Aim is what it is best at.
	Aim propose.Aim
	// Complete says that nothing in the design space is better.
	Complete bool
	// Spec is the folio.
	Spec folio.Spec
}

// ReadProposed reads the designs of a document that [AppendProposals] wrote whole,
// in its order, as strictly as [ReadSpec] reads a Spec: a length whose millimetres
// are not those of its text is refused too. The error is an *[Error].
func ReadProposed(data []byte) ([]Proposed, error) {
	p, err := readProposals(data)
	if err != nil {
		return nil, err
	}
	all := make([]Proposed, len(p.Proposals))
	for i, q := range p.Proposals {
		all[i] = Proposed{q.Aim, q.Complete, q.Spec}
	}
	return all, nil
}

func readProposals(data []byte) (proposals, error) {
	var p proposals
	drawn := func(d *decoder, n *node) {
		d.mm = true
		d.readProposals(n, &p)
	}
	if err := read(data, body{name: "proposals", read: drawn}); err != nil {
		return proposals{}, err
	}
	return p, nil
}

// ProposalsSchema returns the JSON Schema (2020-12) of the document that
// [AppendProposals] writes whole.
func ProposalsSchema() []byte {
	return schemaOf("proposals", reflect.TypeFor[proposals](), true)
}

func proposalOf(p propose.Proposal, n units.Notation) proposal {
	plan, spec, size := p.Plan(), p.Spec(), sizeOf(p)
	out := proposal{
		Aim: p.Aim(), Complete: p.Complete(), Title: spec.Title,
		Cover: size.Cover, Spine: size.Spine, Closed: size.Closed, Sheets: size.Sheets, Spec: spec,
		RuledOut: gather(p.RuledOut(), func(r propose.RuledOut) ruledOut { return ruledOut{r.Thing, r.Way, reasonOf(r.Why, n)} }),
	}
	if others := othersOf(p.OtherForms(), n); len(others) > 0 {
		form, index := p.Form()
		out.Chosen = []chosen{{index, form.String(), others}}
	}
	rects := gather(plan.Fittings(), folio.Fitted.Rect)
	out.Held = gather(p.Held(), func(h propose.Held) held {
		return held{
			h.Thing, h.Copies, h.Way, h.Turned, h.Fitting, spec.Fittings[h.Fitting].Name, h.Panel, rects[h.Fitting],
			gather(h.Why(), func(r propose.Reason) reason { return reasonOf(r, n) }),
		}
	})
	return out
}

// sizeOf is what a proposal measures.
func sizeOf(p propose.Proposal) measures {
	closed := p.Closed()
	out := measures{p.Cover(), p.Spec().Spine.Width, outside{closed.Size(), closed.Thickness().Length()}, nil}
	if sheets, ok := p.Sheets(); ok {
		out.Sheets = []int{sheets}
	}
	return out
}

func othersOf(all iter.Seq[propose.OtherForm], n units.Notation) []otherForm {
	return gather(all, func(o propose.OtherForm) otherForm {
		out := otherForm{Index: o.Index(), Form: o.Form().String(), Complete: o.Complete(), Why: gather(o.Why(), func(r propose.Reason) reason { return reasonOf(r, n) })}
		if p, ok := o.Proposal(); ok {
			out.Best = []measures{sizeOf(p)}
		}
		return out
	})
}

func reasonOf(r propose.Reason, n units.Notation) reason {
	var bounds []string
	if r.AtLeast && r.Thick != 0 {
		bounds = []string{"thick"}
	} else if r.AtLeast {
		bounds = []string{"size"}
	}
	return reason{r.Cause, r.Thing, r.Name, r.Way, r.Count, r.Size, r.Than, r.Thick, r.ThanThick, bounds, r.Sheets, r.ThanSheets, r.Detail, r.Text(n)}
}
