package folio

import (
	"errors"
	"strings"

	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// designed works a kind out in the paper of the fitting, cut with that side up
// which brings the wanted one out where it is seen: folds turn a paper over, so
// that for some kinds it is the other one.
func (f *fitter) designed(kind pocket.Kind, paper pocket.Paper) (pocket.Design, error) {
	if d := f.b.known(f, kind, paper); d.Kind() != nil {
		return d, nil
	}
	d, err := pocket.Make(kind, paper, f.ruler())
	if err != nil {
		return pocket.Design{}, err
	}
	return d.Showing(f.up), nil
}

// known returns the design of a folded fitting in an earlier plan, at the same
// place in the Spec, if it was made of the same kind, in the same paper with the
// same side to be seen, and on the same ruler; the zero Design if there is none.
func (b *builder) known(f *fitter, kind pocket.Kind, paper pocket.Paper) pocket.Design {
	if b.footings != nil {
		if d := b.footings[f.index].design; asked(d, kind, paper) { // worked out for one before it, in this plan
			return d
		}
	}
	if b.before == nil {
		return pocket.Design{}
	}
	for i := range b.before.fitted {
		if o := &b.before.fitted[i]; o.index == f.index && asked(o.design, kind, paper) && o.design.Ruler() == f.ruler() && o.wrong == f.given.WrongSide {
			return o.design
		}
	}
	return pocket.Design{}
}

// asked reports whether a design is of a kind, in a paper as it was asked for; the
// zero Design is not.
func asked(d pocket.Design, kind pocket.Kind, paper pocket.Paper) bool {
	paper = paper.WithDefaults()
	paper.Up = d.Paper().Up
	return d.Kind() != nil && d.Kind() == kind && d.Paper() == paper
}

// under adds what is wrong with a design, at the fields of the Spec: those of the
// kind, and for its paper and its ruler those where they come from.
func (f *fitter) under(err error, paper pocket.Paper) {
	all, ok := errors.AsType[*check.Error](err)
	if !ok {
		f.b.bad.Under(f.at(".kind.kind"), err)
		return
	}
	for v := range all.All() {
		rest, ofPaper := strings.CutPrefix(v.Path, "paper.")
		switch {
		case ofPaper && strings.HasPrefix(rest, "sheet"):
			// Another sheet in the list would do as well.
			v.Want = f.largerSheet(rest, v)
			v.Path, v.Code, v.Bound, v.Limit, v.By = f.b.sheetsPath(f.stock.Name), SheetSmall, check.NoBound, 0, 0
			v.Got = "sheets of " + check.Quote(f.stock.Name) + " up to " + sizeText(f.notation(), f.largestSheet())
			f.b.bad.Add(v)
		case v.Path == "ruler":
			v.Path = "rulers.fitting"
			f.b.bad.Add(v)
		case f.want.w != nil && f.handed != nil && v.Path == f.handed.fields[0]:
			f.lacking(false, &f.given.Size.W, f.want.w, v, f.enough(all, paper).W)
		case f.want.h != nil && f.handed != nil && v.Path == f.handed.fields[1]:
			f.lacking(true, &f.given.Size.H, f.want.h, v, f.enough(all, paper).H)
		default:
			f.b.bad.Under(f.at(".kind.kind"), v)
		}
	}
}

// enough returns how large the design is, closed, in all the room that it says it lacks:
// what it reaches past that shows only once it is there. It is zero where other things
// are wrong.
func (f *fitter) enough(lacks *check.Error, paper pocket.Paper) units.Size {
	room := f.want.size()
	for n := 0; lacks != nil && n < 3; n++ {
		for i, field := range f.handed.fields {
			if v, ok := lacks.Find(field, check.TooSmall); ok && *sideOf(&room, i > 0) > 0 {
				*sideOf(&room, i > 0) = v.Limit
			}
		}
		with, _, _ := pocket.AtHand(f.handed.kind, room)
		design, err := f.designed(with, paper)
		if err == nil {
			return design.Closed()
		}
		lacks, _ = errors.AsType[*check.Error](err)
	}
	return units.Size{}
}

// largestSheet returns the sheet with the longest side, of those the one with the
// longest other side; none for a stock that can be had in any size.
func (f *fitter) largestSheet() units.Size {
	var largest units.Size
	lies(f.stock, stock.GrainAny, func(l lie) bool {
		more := max(l.size.W, l.size.H) - max(largest.W, largest.H)
		if more > 0 || more == 0 && min(l.size.W, l.size.H) > min(largest.W, largest.H) {
			largest = l.size
		}
		return true
	})
	return largest
}

// largerSheet says which sheet would do where one side of the largest is too
// small.
func (f *fitter) largerSheet(side string, v check.Violation) string {
	n, sheet := f.notation(), f.largestSheet()
	switch side {
	case "sheet.w":
		sheet.W = v.Limit
	case "sheet.h":
		sheet.H = v.Limit
	default:
		return v.Want
	}
	return "a sheet of at least " + n.BoundSize(sheet, units.Up) + strings.TrimPrefix(v.Want, "at least "+f.ruler().Notation().Bound(v.Limit, units.Up))
}

// owned returns the folded kind as a plain value, so that nothing its owner
// writes later changes it, and whether it was none yet.
func (d Folded) owned() (Kind, bool) {
	plain, err := pocket.Accept(d.Kind)
	if err != nil || plain == d.Kind {
		return nil, false
	}
	d.Kind = plain
	return d, true
}
