// Package rule holds what print says of how a case is made, with its sources: how wide
// the gap of a hinge is and where it creases, how much paper is turned in and how its
// corners are mitred, how wide a spine is, how the inside is lined. Makers choose among
// the rules in the Spec of package folio.
package rule

import (
	"math"
	"strconv"

	"boardwrap.example/internal/trig"
	"boardwrap.example/internal/word"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A HingeRule is a published rule for the gap between two boards, in terms of
// the board's caliper t.
type HingeRule uint8

// Hinge rules. Print disagrees; the default is HingeTwoCalipers, with which
// a crease anywhere in the gap lets 90° close.
const (
	HingeDefault            HingeRule = iota // HingeTwoCalipers; of two flaps, HingeLeast; of a soft spine, HingeRoundContents
	HingeOneCaliper                          // t, which a liner across the hinge does not let close: use LiningPanels (P. Adam, Practical Bookbinding, 1903, ch. VI)
	HingeOneAndHalfCalipers                  // 1.5 t, case joint (A. W. Johnson, A Joint Venture, Skin Deep 15, 2003)
	HingeTwoCalipers                         // 2 t (class notes, Casing a tray, 2007)
	HingeNarrowGroove                        // 3 mm (Johnson 2003)
	HingeFlatBackGroove                      // 9 mm (Johnson 2003)
	HingeFrenchJoint                         // 1/8 in (A. L. Bailey, Library Bookbinding, 1916)
	HingeFiveThirtySeconds                   // 5/32 in, with 3/32 in board (S. L. Reese, Basic Drop-Spine Box)
	HingeShoulder                            // 5 mm + t + 1 mm (University of Brighton, Hard Cover for Multi-section)
	HingeRoundContents                       // 2 t + 2 × liner + contents, for two covers face to face, with turn-ins as in SpineContents (derived)
	HingeFixed                               // the width given in Hinge.Width
	HingeLeast                               // the least that lets the hinge turn and what lies inside clear it, see Row of package boards (derived)
	hingeEnd
)

// String returns the rule in words.
func (r HingeRule) String() string {
	switch r {
	case HingeDefault:
		return "default"
	case HingeOneCaliper:
		return "1 caliper"
	case HingeOneAndHalfCalipers:
		return "1.5 calipers"
	case HingeTwoCalipers:
		return "2 calipers"
	case HingeNarrowGroove:
		return "narrow groove, 3 mm"
	case HingeFlatBackGroove:
		return "flat-back groove, 9 mm"
	case HingeFrenchJoint:
		return "French joint, 1/8 in"
	case HingeFiveThirtySeconds:
		return "5/32 in"
	case HingeShoulder:
		return "shoulder 5 mm + caliper + 1 mm"
	case HingeRoundContents:
		return "2 calipers + contents"
	case HingeFixed:
		return "fixed"
	case HingeLeast:
		return "least that closes"
	}
	return "no such rule"
}

// Known reports whether it is one of the constants.
func (r HingeRule) Known() bool { return r < hingeEnd }

// AppendText appends the text of [HingeRule.String]. The error matches
// units.ErrUnknown.
func (r HingeRule) AppendText(dst []byte) ([]byte, error) { return word.Append(dst, r, "hinge rule") }

// MarshalText returns the text of [HingeRule.String], with the error of
// [HingeRule.AppendText].
func (r HingeRule) MarshalText() ([]byte, error) { return r.AppendText(nil) }

// UnmarshalText reads what [HingeRule.String] writes. The error matches
// units.ErrSyntax.
func (r *HingeRule) UnmarshalText(text []byte) error { return word.Read(r, "hinge rule", text) }

// A CreasePlace is where the covering bends between two boards.
type CreasePlace uint8

// Places of the crease. The default is the edge of the spine board, on which
// the published spine rule (contents plus both boards) rests.
const (
	CreaseAtEdge   CreasePlace = iota // one crease, at a board's edge
	CreaseMidGap                      // one crease, in the middle of the gap
	CreaseAtOffset                    // one crease, Hinge.Offset from the spine board's edge
	CreaseTwo                         // two creases, one at each board's edge
	CreaseRound                       // a round bend over the whole gap
	creaseEnd
)

// String returns the place in words.
func (c CreasePlace) String() string {
	switch c {
	case CreaseAtEdge:
		return "at the board's edge"
	case CreaseMidGap:
		return "at mid-gap"
	case CreaseAtOffset:
		return "at an offset from the board's edge"
	case CreaseTwo:
		return "at both edges"
	case CreaseRound:
		return "round"
	}
	return "no such crease"
}

// Known reports whether it is one of the constants.
func (c CreasePlace) Known() bool { return c < creaseEnd }

// AppendText appends the text of [CreasePlace.String]. The error matches
// units.ErrUnknown.
func (c CreasePlace) AppendText(dst []byte) ([]byte, error) { return word.Append(dst, c, "crease") }

// MarshalText returns the text of [CreasePlace.String], with the error of
// [CreasePlace.AppendText].
func (c CreasePlace) MarshalText() ([]byte, error) { return c.AppendText(nil) }

// UnmarshalText reads what [CreasePlace.String] writes. The error matches
// units.ErrSyntax.
func (c *CreasePlace) UnmarshalText(text []byte) error { return word.Read(c, "crease", text) }

// A Hinge says how wide the gaps are and how they bend.
type Hinge struct {
	Rule   HingeRule    // the width of the gaps; the default depends on the form
	Width  units.Length // with HingeFixed, and then above 0; setting it alone chooses HingeFixed
	Crease CreasePlace  // where the covering bends; of a soft spine CreaseAtEdge means CreaseTwo
	Offset units.Length // with CreaseAtOffset, from the spine board's edge; 0 is at the edge
	// Angle is how far each hinge turns from flat, in whole degrees from 1 to
	// 180; 0 is 90, or 180 for a soft spine.
	Angle int
}

// Fill fills in what is left 0: the rule, the angle and the crease. A soft hinge has no
// spine board at either side, turns by 180 degrees about two creases and goes round
// what the folio holds; any other one turns by 90 and takes the usual rule.
func (h *Hinge) Fill(soft bool, usual HingeRule) {
	if h.Rule == HingeDefault {
		switch {
		case h.Width != 0:
			h.Rule = HingeFixed
		case soft:
			h.Rule = HingeRoundContents
		default:
			h.Rule = usual
		}
	}
	if h.Angle == 0 {
		h.Angle = 90
		if soft {
			h.Angle = 180
		}
	}
	if soft && h.Crease == CreaseAtEdge {
		h.Crease = CreaseTwo // one crease never closes at 180°
	}
}

// Check returns what is wrong with a hinge once defaults are filled in, with lengths
// written in the notation, or nil. The error is a *check.Error.
func (h Hinge) Check(n units.Notation) error {
	var bad check.List
	bad.In(n)
	switch {
	case h.Rule >= hingeEnd:
		bad.Malformed("rule", check.Unknown, strconv.Itoa(int(h.Rule)), word.OneOf[HingeRule]())
	case h.Rule == HingeFixed:
		bad.Length("width", h.Width)
	case h.Width != 0:
		bad.Malformed("width", check.Conflict, bad.Text(h.Width)+" with the rule "+h.Rule.String(), "no width, or the rule "+HingeFixed.String())
	}
	switch {
	case h.Crease >= creaseEnd:
		bad.Malformed("crease", check.Unknown, strconv.Itoa(int(h.Crease)), word.OneOf[CreasePlace]())
	case h.Crease == CreaseAtOffset:
		bad.Allowance("offset", h.Offset)
	case h.Offset != 0:
		bad.Malformed("offset", check.Conflict, bad.Text(h.Offset)+" with the crease "+h.Crease.String(), "no offset, or the crease "+CreaseAtOffset.String())
	}
	if h.Angle < 1 || h.Angle > 180 {
		bad.Malformed("angle", check.OutOfRange, strconv.Itoa(h.Angle)+" degrees", "1 to 180 degrees")
	}
	return bad.Err()
}

// Terms returns what the rule adds up for boards of caliper t around contents,
// exactly as published; for HingeFixed and an unknown rule the fixed width.
func (r HingeRule) Terms(t, liner, contents, fixed units.Length) [3]units.Term {
	switch r {
	case HingeOneCaliper:
		return [3]units.Term{units.T("board caliper", t)}
	case HingeOneAndHalfCalipers:
		half := t.Half(units.Up)
		return [3]units.Term{units.T("board caliper", t), units.T("half board caliper", half)}
	case HingeTwoCalipers:
		return [3]units.Term{units.N(2, "board caliper", t)}
	case HingeNarrowGroove:
		return [3]units.Term{units.T("narrow groove", 3*units.Millimetre)}
	case HingeFlatBackGroove:
		return [3]units.Term{units.T("flat-back groove", 9*units.Millimetre)}
	case HingeFrenchJoint:
		return [3]units.Term{units.T("French joint", units.Inch/8)}
	case HingeFiveThirtySeconds:
		return [3]units.Term{units.T("hinge", 5*units.Inch/32)}
	case HingeShoulder:
		return [3]units.Term{units.T("shoulder", 5*units.Millimetre), units.T("board caliper", t), units.T("movement", units.Millimetre)}
	case HingeRoundContents:
		return [3]units.Term{units.N(2, "board caliper", t), units.N(2, "liner caliper", liner), units.T("contents", contents)}
	}
	return [3]units.Term{units.T("hinge", fixed)}
}

func radians(degrees int) float64 { return float64(degrees) * math.Pi / 180 }

// LeastGap returns the narrowest hinge gap with which two boards of caliper t,
// lying on the concave side, can turn by angle degrees from flat without
// meeting, rounded up to the nanometre, and whether there is one: a single
// crease never lets them close to 180°. Count the liner's caliper into t where
// it lies on the hinge side. The offset counts for CreaseAtOffset only and is
// taken from the nearer board's edge; an offset of more than half the gap it
// needs gives the gap of CreaseMidGap.
//
// Derived from two rectangles turned about the crease:
//
//	CreaseAtEdge    t·sin θ up to 90°, t·tan(θ/2) above
//	CreaseMidGap    2t·tan(θ/2)
//	CreaseAtOffset  t·sin θ + x·(1 − cos θ) up to 90°, x + t·tan(θ/2) above
//	CreaseTwo       2t·sin(θ/2)
//	CreaseRound     t·θ, θ in radians
//
// The angle must be 1 to 180; outside it and for an unknown crease the answer
// is 0 and false.
func LeastGap(t units.Length, angle int, c CreasePlace, offset units.Length) (units.Length, bool) {
	if angle < 1 || angle > 180 {
		return 0, false
	}
	times := func(l units.Length, f float64) units.Length {
		num, den := trig.Fraction(f)
		g, _ := l.Scale(num, den, units.Up)
		return g
	}
	theta := radians(angle)
	switch c {
	case CreaseTwo:
		return times(2*t, math.Sin(theta/2)), true
	case CreaseRound:
		return times(t, theta), true
	}
	if angle == 180 || c >= creaseEnd {
		return 0, false
	}
	mid := func() units.Length { return times(2*t, math.Tan(theta/2)) }
	if c == CreaseMidGap {
		return mid(), true
	}
	edge := math.Sin(theta)
	if angle > 90 {
		edge = math.Tan(theta / 2)
	}
	if c == CreaseAtOffset {
		x := max(offset, 0)
		near := x
		if angle <= 90 {
			near = times(x, 1-math.Cos(theta))
		}
		return min(times(t, edge)+near, max(mid(), 0)), true
	}
	return times(t, edge), true
}
