package wire

import (
	"errors"
	"strings"

	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// problems are the members of an error's document.
type problems struct {
	Message  string
	Faults   []Fault     // of the document
	Problems []violation // of the folio
	More     int         // that are not listed
}

type violation struct {
	Path, Code, Fault, Of string
	Got, Want             string
	Bound                 string
	Limit, By             units.Length
}

// AppendError appends the document of an error to dst: the faults of a document
// ([Error]), the violations of a Spec (check.Error), or just what another error
// says. Lengths are written as in a plan of the given notation.
func AppendError(dst []byte, err error, n units.Notation, o Options) ([]byte, error) {
	if err == nil {
		return dst, ErrNothing
	}
	out := problems{Message: err.Error()}
	if bad, ok := errors.AsType[*Error](err); ok {
		there := bad.from(o.Line)
		out.Message = strings.ReplaceAll(out.Message, bad.Error(), there.Error())
		out.Faults, out.More = there.faults, there.more
	} else if wrong, ok := errors.AsType[*check.Error](err); ok {
		for v := range wrong.All() {
			out.Problems = append(out.Problems, violation{v.Path, string(v.Code), v.Nature.String(), v.Of, v.Got, v.Want, v.Bound.String(), v.Limit, v.By})
		}
		out.More = wrong.Len() - len(out.Problems)
	}
	return document(drawing(dst, n, nil), "error", &out, (*encoder).writeProblems, Options{Indent: o.Indent, Line: o.Line})
}
