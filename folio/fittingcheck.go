package folio

import (
	"boardwrap.example/folio/boards"
	"boardwrap.example/units/check"
)

// plain returns the kind as a plain value, and whether it is one of the kinds.
func plain(k Kind) (Kind, bool) {
	v, ok := taken(k)
	if o, holds := v.(owner); holds {
		if own, differs := o.owned(); differs {
			v = own
		}
	}
	return v, ok
}

// An owner is a kind that holds something which its user may give by a pointer.
type owner interface {
	owned() (own Kind, differs bool)
}

func (b *builder) checkFitting(index int, f *Fitting) bool {
	before := b.bad.Len()
	at := func(field string) string { return fittingPath(index) + field }
	switch kind, ok := plain(f.Kind); {
	case ok && b.planned != nil:
		// It is plain already, and the plan that is refitted is others' to read.
	case ok:
		f.Kind = kind
	case f.Kind == nil:
		b.bad.Malformed(at(".kind"), check.Missing, "no kind", "one of the kinds of fittings")
	default:
		b.bad.Malformed(at(".kind"), check.Unknown, "a kind of another package, or a nil pointer", "one of the kinds of fittings")
		f.Kind = nil
	}
	switch {
	case !f.Panel.Known():
		b.bad.Malformed(at(".panel"), check.Unknown, count(int(f.Panel)), b.panelNames())
	case !b.hasPanel(f.Panel):
		b.bad.Malformed(at(".panel"), check.Unknown, f.Panel.String()+" of the form "+b.spec.Form.String(), b.panelNames())
	}
	if f.StandsOn != "" && (f.Panel != boards.MainPanel || f.Outside) {
		b.bad.Malformed(at(".standson"), check.Conflict, check.Quote(f.StandsOn)+" with a panel of its own", "no panel and no outside: it is where what it stands on is")
	}
	if err := f.Place.Check(b.notation()); err != nil { // else the path is not put together
		b.soundAt(at(".place"), err)
	}
	return b.bad.Len() == before
}

// notUnder says that what a fitting stands on is not there.
func (b *builder) notUnder(i int) {
	b.bad.Malformed(fittingPath(i)+".standson", check.Unknown, check.Quote(b.spec.Fittings[i].StandsOn), b.earlier(i))
}

// earlier says what would do where a fitting must name one before it.
func (b *builder) earlier(i int) string {
	for j := range i {
		if b.spec.Fittings[j].Name != "" {
			return "the name of a fitting before this one"
		}
	}
	return "no name: no fitting before this one has one"
}
