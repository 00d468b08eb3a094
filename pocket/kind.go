package pocket

import (
	"iter"

	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Kind is a way to hold something, or to hinge it: one of the types of this
// package, listed by [Kinds]. Its values are plain and comparable.
type Kind interface {
	// Name returns the name of the kind in the words of the trade.
	Name() string
	// Design works the kind out in the given paper, on the ruler that pieces
	// are measured with. The error is a *check.Error with all violations, and
	// the design is then the zero Design.
	Design(Paper, units.Ruler) (Design, error)

	// designed is Design for a kind that is in an interface already: own is itself.
	designed(own Kind, p Paper, r units.Ruler) (Design, error)
	// at returns the kind with the sides of the room at hand that are not 0 in
	// the fields that take them, and the paths of these; those that are set
	// already are violations.
	at(room units.Size, l *check.List) (Kind, [2]string)
	// holds returns the content that is asked for, the zero Content for none.
	holds() Content
	// steps writes the order of work after all pieces are cut and scored.
	steps(*design, *order)
	// seen adds what can be seen of the panels.
	seen(panels, []seen) []seen
}

// kinds lists all kinds there are, one line a kind. Nothing changes it.
var kinds = [...]entry{
	kindOf[Slip](),
	kindOf[Corners](),
	kindOf[Flap](),
	kindOf[FoldedStrip](),
	kindOf[Gusset](),
	kindOf[GussetRun](),
	kindOf[FoldedAccordion](),
	kindOf[Concertina](),
	kindOf[Pleat](),
}

// An entry is a kind in the list.
type entry struct {
	zero   Kind
	accept func(Kind) (Kind, bool)
	told   func(Kind, func(*Content)) (Kind, bool)
	filled func(Kind, defaults) (Kind, bool)
}

// A defaulter is a kind that fills in its defaults.
type defaulter[T any] interface {
	Kind
	// filled returns the kind with the defaults filled in that depend on nothing
	// else.
	filled(defaults) T
}

// A holder is a pointer to a kind.
type holder[T any] interface {
	*T
	held() *Content
}

func kindOf[T defaulter[T], P holder[T]]() entry {
	var zero T
	return entry{zero, accept[T], told[T, P], filled[T]}
}

// filled fills in the defaults of a T.
func filled[T defaulter[T]](k Kind, u defaults) (Kind, bool) {
	v, ok := k.(T)
	if !ok {
		return k, false
	}
	return v.filled(u), true
}

// told lets change change what a T holds.
func told[T Kind, P holder[T]](k Kind, change func(*Content)) (Kind, bool) {
	v, ok := k.(T)
	if !ok {
		return k, false
	}
	change(P(&v).held())
	return v, true
}

// Holding returns the kind with what it holds changed; a kind that [Accept] does
// not take comes back as it is.
func Holding(k Kind, change func(*Content)) Kind {
	k, err := Accept(k)
	if err != nil {
		return k
	}
	for _, e := range kinds {
		if v, ok := e.told(k, change); ok {
			return v
		}
	}
	return k
}

// accept takes a T or a pointer to one, which it copies. Anything else it
// refuses: nil, a nil pointer, and types that only embed a kind.
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

// Kinds walks the zero values of all kinds, in a fixed order.
func Kinds() iter.Seq[Kind] {
	return func(yield func(Kind) bool) {
		for _, e := range kinds {
			if !yield(e.zero) {
				return
			}
		}
	}
}

// Accept returns a kind as a value: what [Kinds] lists, given by value or by a
// pointer. Nil, a nil pointer and a type of another package that embeds a kind
// are one violation, of no field.
func Accept(k Kind) (Kind, error) { return accepted(k, kinds[:]) }

// Holds returns the content that a kind is asked to hold, and whether there is
// one.
func Holds(k Kind) (Content, bool) {
	k, err := Accept(k)
	if err != nil {
		return Content{}, false
	}
	c := k.holds()
	return c, c != Content{}
}

// Make is [Kind.Design] of a kind that [Accept] takes.
func Make(k Kind, p Paper, r units.Ruler) (Design, error) {
	k, err := Accept(k)
	if err != nil {
		return Design{}, err
	}
	return k.designed(k, p, r)
}

// AtHand returns the kind with the width and the height at hand for it, closed
// and with what stands out of it, in the fields that take them: Place, Panel or
// Leaf, and of a [FoldedStrip] the Base and the height of the Strip. A side of 0
// leaves the kind's own. It returns the paths of these fields as well, that of
// the width first. The error is a *check.Error for fields that are set already,
// and for what [Accept] refuses.
func AtHand(k Kind, room units.Size) (with Kind, fields [2]string, err error) {
	if with, err = Accept(k); err != nil {
		return nil, fields, err
	}
	var l check.List
	with, fields = with.at(room, &l)
	return with, fields, l.Err()
}

// WithDefaults returns a kind with the defaults filled in that depend on nothing
// else but the ruler, so that a front end can show them; [units.None] stays where it
// was given. It checks nothing. [Make] makes the same of the kind as of the filled
// one; a kind that [Accept] does not take comes back as it is.
func WithDefaults(k Kind, r units.Ruler) Kind {
	plain, err := Accept(k)
	if err != nil {
		return k
	}
	for _, e := range kinds {
		if v, ok := e.filled(plain, defaultsOn(r)); ok {
			return v
		}
	}
	return plain
}

func accepted(k Kind, list []entry) (Kind, error) {
	for i := range list {
		if v, ok := list[i].accept(k); ok {
			return v, nil
		}
	}
	want := ""
	for i, e := range list {
		if i > 0 {
			want += ", "
		}
		want += e.zero.Name()
	}
	got := "no kind"
	if k != nil {
		got = "a nil pointer, or a type that is none of this package's"
	}
	var l check.List
	code := check.Unknown
	if k == nil {
		code = check.Missing
	}
	l.Malformed("", code, got, "one of "+want)
	return nil, l.Err()
}
