package pocket

import "boardwrap.example/units"

// defaults are where defaults come from: a ruler and its notation.
type defaults struct {
	n units.Notation
	r units.Ruler
}

// defaultsOn returns the defaults on a ruler; those of a ruler that is none are metric
// and exact.
func defaultsOn(r units.Ruler) defaults {
	if !r.Valid() {
		return defaults{n: units.MetricDecimal}
	}
	return defaults{r.Notation(), r}
}

// usual returns the given length, which may be an explicit none, or for 0 the
// default for the notation: the nearest graduation to it, but never nothing.
func (u defaults) usual(given, inch, metric units.Length) units.Length {
	if given != 0 {
		return given
	}
	l := inch
	if u.n == units.MetricDecimal {
		l = metric
	}
	if on := u.r.Nearest(l); on >= units.Shortest {
		return on
	}
	return l
}

// or is usual with nothing for an explicit none.
func (u defaults) or(given, inch, metric units.Length) units.Length {
	if given == units.None {
		return 0
	}
	return u.usual(given, inch, metric)
}

// edge is the width of a glued edge: 1/4 in or 6 mm.
func (u defaults) edge(given units.Length) units.Length { return u.usual(given, in/4, 6*mm) }

// tab is the depth of a glue tab at the end of a strip: 1/2 in or 10 mm, as of
// a joint (Korger, Handbook of Type and Lettering).
func (u defaults) tab(given units.Length) units.Length { return u.usual(given, in/2, 10*mm) }

// margin is what shows of a leaf round what it carries: 1/8 in or 3 mm (common
// practice, no published source).
func (u defaults) margin(given units.Length) units.Length { return u.usual(given, in/8, 3*mm) }

// countOf returns how many of a content there are, where there is one.
func countOf(count int, c Content) int {
	if count == 0 && c != (Content{}) {
		return 1
	}
	return count
}

// pockets returns how many there are by default, where no spine says it.
func pockets(n int, spine units.Length) int {
	if n == 0 && spine == 0 {
		return pocketsDefault
	}
	return n
}

// usualDepth is how much of its content a pocket covers where nothing else says it
// (common practice, no published source).
func usualDepth() Share { return Share{2, 3} }

// covers returns the share of a content that a pocket covers, unless another
// field says how deep it is.
func covers(s Share, others ...units.Length) Share {
	for _, l := range others {
		if l != 0 {
			return s
		}
	}
	return s.or(usualDepth())
}
