package pocket

import (
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A hold is what a pocket is asked to hold, with the defaults filled in.
type hold struct {
	given   bool
	content Content
	count   int
	stack   units.Length // thickness of all of it
	ease    Ease
	walls   units.Length // what the walls of a flat pocket take away from the width
}

// hold checks the content fields that kinds share.
//
// A flat pocket whose two walls have the clear width c is a tube of girth 2c,
// which has to go round 2 (width + thickness): so the ease must be at least
// the thickness. What it falls short of that, the width grows; contents beyond
// [FlatLimit] get their thickness on top of the thick ease.
func (m *maker) hold(c Content, count int, e Ease) hold {
	h := hold{given: c != Content{}, content: c, count: max(count, 1), ease: e}
	m.d.content = c
	before := m.Len()
	if h.given {
		m.Size("content.size", c.Size)
		m.Allowance("content.thickness", c.Thickness)
	}
	switch {
	case count < 0:
		m.Malformed("count", check.Negative, itoa(count), "0 for the default or a count up to "+itoa(maxCount))
	case count > maxCount:
		m.Malformed("count", check.TooMany, itoa(count), "at most "+itoa(maxCount))
	case count > 0 && !h.given:
		m.Malformed("content", check.Missing, "nothing", "what is put in, "+itoa(count)+" of it")
	}
	if e.W != units.None {
		m.Allowance("ease.w", e.W)
	}
	if e.H != units.None {
		m.Allowance("ease.h", e.H)
	}
	if m.Len() > before {
		return hold{given: h.given} // nothing is worked out of the rest
	}
	h.stack = times(h.count, c.Thickness)
	usual, thick := EnvelopeEase(m.n), h.stack > FlatLimit
	if thick {
		usual = ThickEase(m.n)
	}
	h.ease = Ease{eased(e.W, usual.W), eased(e.H, usual.H)}
	if thick {
		h.walls = h.stack
	} else {
		h.walls = max(0, h.stack-h.ease.W)
	}
	return h
}

// eased returns the ease given, none, or the usual one, which is not put on the ruler.
func eased(given, usual units.Length) units.Length {
	switch given {
	case units.None:
		return 0
	case 0:
		return usual
	}
	return given
}

// or returns a length of the content, or where none is given the most that there may be.
func (h hold) or(content, most units.Length) units.Length {
	if h.given {
		return content
	}
	return most
}

// capacity returns how thick contents of a flat pocket may be.
func (h hold) capacity() units.Length { return max(h.stack, min(FlatLimit, h.ease.W)) }

// filling returns how thick the contents of a full flat pocket are: what it
// was designed for, or the most that it takes.
func (h hold) filling() units.Length {
	if h.given {
		return h.stack
	}
	return h.capacity()
}

// warnThick warns where a flat pocket is asked for too much.
//
//go:noinline
func (m *maker) warnThick(h hold) {
	if h.stack > FlatLimit {
		m.warn(unwise{path: "content.thickness", code: TooThick, got: h.stack, want: FlatLimit, lengths: [2]units.Length{h.stack, FlatLimit},
			text: [3]string{"contents ", " thick strain a pocket without gussets, which takes ", " with ease; a gusset pocket opens for them"}})
	}
}
