package pocket

import (
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// An Ease is how much larger than its content a pocket is inside. A zero field
// is the envelope practice for something flat, and a quarter inch a side for
// something thick, or on a metric ruler its twin; [units.None] is no ease.
type Ease struct {
	W units.Length // in all across the mouth; 0 is the default
	H units.Length // in all from the foot to the mouth; 0 is the default
}

// EnvelopeEase is 1/8 in over the width and 1/4 in over the height: 3 5/8 x 5 1/8 in
// holds 3 1/2 x 4 7/8 in (envelope practice, Kapasari); in metric 3 and 6 mm (common
// practice, no published source).
func EnvelopeEase(n units.Notation) Ease {
	return Ease{n.Choose(in/8, 3*mm), n.Choose(in/4, 6*mm)}
}

// ThickEase is 1/4 in a side for thick contents (envelope practice, Kapasari); in metric
// 6 mm (common practice, no published source).
func ThickEase(n units.Notation) Ease {
	a := n.Choose(in/2, 12*mm)
	return Ease{a, a}
}

// FlatLimit is how thick the contents of a pocket without gussets may be all
// together before they count as thick: 1 mm, which an ID-1 card keeps
// (common practice, no published source).
const FlatLimit = 1 * units.Millimetre

// A Share is a part of a length, such as 2/3: above 0 and no more than 1. The
// zero Share is the default that the field states.
type Share struct {
	Part int // how many parts count, above 0 where it is no default
	Of   int // how many there are, up to 1000000, above 0 likewise
}

func (s Share) or(d Share) Share {
	if s == (Share{}) {
		return d
	}
	return s
}

func (s Share) check(l *check.List, path string) {
	if s == (Share{}) || s.Part > 0 && s.Part <= s.Of && s.Of <= 1_000_000 {
		return
	}
	l.Malformed(path, check.OutOfRange, itoa(s.Part)+"/"+itoa(s.Of), "nothing for the default, or a share above 0 and up to 1, in whole parts of up to 1000000")
}
