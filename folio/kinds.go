package folio

import "iter"

// A family is a kind of fitting: its zero value, and what accepts a value of it.
type family struct {
	zero   Kind
	accept func(Kind) (Kind, bool)
}

// kinds are the kinds of fittings, one line a kind. Nothing changes it once the
// program runs.
var kinds = []family{
	{Mat{}, accept[Mat]},
	{Frame{}, accept[Frame]},
	{Ornament{}, accept[Ornament]},
	{Folded{}, accept[Folded]},
}

// accept takes a value of one kind, or a pointer to one, which is copied, so
// that nothing its owner writes later changes a plan. It refuses anything else:
// nil pointers and types that only embed a kind.
func accept[T Kind](k Kind) (Kind, bool) {
	switch v := any(k).(type) {
	case T:
		return k, true // as it is, without another copy
	case *T:
		if v != nil {
			return *v, true
		}
	}
	return nil, false
}

// taken is plain for a look at it: what it holds may still be its owner's.
func taken(k Kind) (Kind, bool) {
	for i := range kinds {
		if v, ok := kinds[i].accept(k); ok {
			return v, true
		}
	}
	return nil, false
}

// Kinds walks the zero values of all kinds of fittings, in a fixed order.
func Kinds() iter.Seq[Kind] {
	return func(yield func(Kind) bool) {
		for i := range kinds {
			if !yield(kinds[i].zero) {
				return
			}
		}
	}
}
