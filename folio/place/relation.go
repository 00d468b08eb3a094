package place

import (
	"strconv"

	"boardwrap.example/internal/word"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Sizing says how large a fitting is by what is there already, so that one
// design serves covers of many sizes. The zero Sizing is none: the sizes are those
// that the kind gives. A side that a Sizing gives must be left 0 in the kind.
//
// It gives the closed footprint. What lies within follows by the rules of the
// kind: a mat with a picture takes the largest picture that its reveal leaves, a
// frame the largest that its rails leave, a folded strip the base and the height
// of its strip, every other folded fitting the room at hand. Fitted.Kind of package folio says
// what came of it.
type Sizing struct {
	// W and H are the width and the height of the footprint; either may be left
	// zero, and is then the kind's.
	W, H Relation
	// Picture says what pictures a mat or a frame may take for it.
	Picture PictureRule
	// Proportions are those that the picture of a mat or a frame keeps, or a mat
	// without one and an ornament themselves: the picture is then the largest of
	// them that goes, and a side without a relation follows from the other one.
	// Zero keeps none.
	Proportions Proportions
}

// Empty reports whether it is none.
func (s *Sizing) Empty() bool {
	return s.W.empty() && s.H.empty() && s.Picture == 0 && s.Proportions == Proportions{}
}

// Proportions are how many times the same length something is wide and high, as in
// 2 and 3, each from 1 to [MaxProportion]. The zero value is none.
type Proportions struct {
	W, H int // across, and along the height; both 0 for none
}

// MaxProportion is the greatest number of [Proportions].
const MaxProportion = 1000

// Lowest returns the proportions in lowest terms, and none as they are.
func (p Proportions) Lowest() Proportions {
	a, b := p.W, p.H
	for b != 0 {
		a, b = b, a%b
	}
	if a == 0 {
		return p
	}
	return Proportions{p.W / a, p.H / a}
}

// Check returns what is wrong with the proportions, or nil.
func (p Proportions) Check() error {
	var bad check.List
	if p == (Proportions{}) {
		return nil
	}
	for _, side := range [...]struct {
		path string
		n    int
	}{{"w", p.W}, {"h", p.H}} {
		switch {
		case side.n <= 0:
			bad.Malformed(side.path, check.NotPositive, strconv.Itoa(side.n), "1 to "+strconv.Itoa(MaxProportion))
		case side.n > MaxProportion:
			bad.Malformed(side.path, check.TooMany, strconv.Itoa(side.n), "at most "+strconv.Itoa(MaxProportion))
		}
	}
	return bad.Err()
}

// A Relation is a length by another one: what it is measured by, less what is
// taken off, in equal shares. It is worked out exactly and then rounded down on
// the ruler of fittings, so that what must go inside is never above what is
// there; with More it is rounded up, so that what must reach past it is never
// below. The zero Relation is none.
type Relation struct {
	// Of is what it is measured by.
	Of Yardstick
	// Fitting is the name of the fitting that it is measured by, with
	// [OfFitting]. It may come later in Spec.Fittings, but must not in turn
	// follow from this one.
	Fitting string
	// Turned takes the other side of it: its height for a width, its width for
	// a height.
	Turned bool
	// Margin is left on either side, so that it is taken off twice; 0 is none.
	Margin units.Length
	// Less is taken off in all; 0 is nothing.
	Less units.Length
	// More is added in all; 0 is nothing. It cannot come with Less.
	More units.Length
	// Shares is how many equal ones share the length, up to [MaxShares]; 0
	// and 1 take the whole of it.
	Shares int
	// Gap is left between the shares; 0 is none.
	Gap units.Length
}

// empty is [Sizing.Empty] for one side.
func (r *Relation) empty() bool {
	return r.Of == OfNothing && r.Fitting == "" && !r.Turned && r.Margin == 0 && r.Less == 0 && r.More == 0 && r.Shares == 0 && r.Gap == 0
}

// MaxShares is how many shares a [Relation] may have.
const MaxShares = 256

// A Yardstick is what a [Relation] is measured by.
type Yardstick uint8

// Yardsticks.
const (
	// OfNothing is no relation.
	OfNothing Yardstick = iota
	// OfPanel is the panel of the board that the fitting is on, less
	// Spec.Clearance, also where it stands on other fittings.
	OfPanel
	// OfGround is what the fitting stands on: the flap of a folded fitting, the
	// whole of another one, or the panel where it stands on none.
	OfGround
	// OfFitting is the footprint of the fitting that is named.
	OfFitting
	measureEnd
)

var measures = word.List{What: "measure", Words: []string{OfNothing: "nothing", OfPanel: "panel", OfGround: "ground", OfFitting: "fitting"}}

// Known reports whether it is one of the constants.
func (m Yardstick) Known() bool { return m < measureEnd }

// String returns what it is in a word.
func (m Yardstick) String() string { return measures.String(uint8(m)) }

// AppendText appends the text of [Yardstick.String]. The error matches
// units.ErrUnknown.
func (m Yardstick) AppendText(dst []byte) ([]byte, error) { return measures.Append(dst, uint8(m)) }

// MarshalText returns the text of [Yardstick.String], with the error of
// [Yardstick.AppendText].
func (m Yardstick) MarshalText() ([]byte, error) { return measures.Marshal(uint8(m)) }

// UnmarshalText reads what [Yardstick.String] writes. The error matches
// units.ErrSyntax.
func (m *Yardstick) UnmarshalText(text []byte) error { return word.Unmarshal(measures, m, text) }

// By returns the relation of a whole length, to be changed field by field.
func By(m Yardstick) Relation { return Relation{Of: m} }

// Filling returns the sizing of what leaves a margin on all sides of what it is
// measured by; 0 fills it.
func Filling(m Yardstick, margin units.Length) Sizing {
	r := Relation{Of: m, Margin: margin}
	return Sizing{W: r, H: r}
}

// Check returns what is wrong with a relation once defaults are filled in, with lengths
// written in the notation, or nil. The error is a *check.Error.
func (r *Relation) Check(n units.Notation) error {
	var bad check.List
	bad.In(n)
	switch {
	case r.Of >= measureEnd:
		bad.Malformed("of", check.Unknown, strconv.Itoa(int(r.Of)), "panel, ground or fitting")
	case r.Of == OfNothing && *r != Relation{}:
		bad.Malformed("of", check.Missing, "a relation to nothing", "panel, ground or fitting, or a zero relation for a size that the kind gives")
	case r.Of == OfFitting && r.Fitting == "":
		bad.Malformed("fitting", check.Missing, "no name", "the name of another fitting")
	case r.Of != OfFitting && r.Fitting != "":
		bad.Malformed("fitting", check.Conflict, check.Quote(r.Fitting)+" and a size by the "+r.Of.String(), "no name, or a size by a fitting")
	}
	bad.Allowance("margin", r.Margin)
	bad.Allowance("less", r.Less)
	bad.Allowance("more", r.More)
	bad.Allowance("gap", r.Gap)
	if r.Less > 0 && r.More > 0 {
		bad.Malformed("more", check.Conflict, "both less and more", "one of the two")
	}
	switch {
	case r.Shares < 0:
		bad.Malformed("shares", check.Negative, strconv.Itoa(r.Shares), "0 for the whole, or up to "+strconv.Itoa(MaxShares))
	case r.Shares > MaxShares:
		bad.Malformed("shares", check.TooMany, strconv.Itoa(r.Shares), "at most "+strconv.Itoa(MaxShares))
	case r.Shares < 2 && r.Gap > 0:
		bad.Malformed("gap", check.Conflict, "a gap and no shares", "no gap, or two shares and more")
	}
	return bad.Err()
}

// Direction is the way in which the length is rounded.
func (r *Relation) Direction() units.Direction {
	if r.More > 0 {
		return units.Up
	}
	return units.Down
}

// Terms are those of the length before it is shared.
func (r *Relation) Terms(what string, whole, clearance units.Length) []units.Term {
	terms := make([]units.Term, 0, 6)
	terms = append(terms, units.T(what, whole))
	if clearance != 0 {
		terms = append(terms, units.N(-2, "clearance", clearance))
	}
	if r.Margin != 0 {
		terms = append(terms, units.N(-2, "margin", r.Margin))
	}
	if r.Less != 0 {
		terms = append(terms, units.N(-1, "less", r.Less))
	}
	if r.More != 0 {
		terms = append(terms, units.T("more", r.More))
	}
	if r.Gap != 0 {
		terms = append(terms, units.N(1-r.Shares, "gap", r.Gap))
	}
	return terms
}
