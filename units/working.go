package units

import (
	"iter"
	"math"
	"slices"
	"strconv"
)

// A Term is one summand of a [Working]: Count times Length. A negative count
// takes away.
type Term struct {
	Label  string // what is added, as in "inset"; may be empty
	Count  int    // how many times; 0 adds nothing, negative takes away
	Length Length // of one; 0 adds nothing
}

// T returns a term that counts once.
func T(label string, l Length) Term { return Term{label, 1, l} }

// N returns a term that counts n times; a negative n takes away.
func N(n int, label string, l Length) Term { return Term{label, n, l} }

// sum returns the term as it adds up, which is exact within the bounds of a plan.
func (t *Term) sum() Length { return Length(t.Count) * t.Length }

// A Working is a length with the sum it came from: terms, how many equal
// shares the sum was divided into, and the rounding. Its fields cannot be set
// from outside, so what it shows is how the length was computed. The zero
// Working is a length of 0 without terms.
type Working struct {
	outcome
	label string
	terms []Term
	ruler Ruler
	over  int32
	dir   Direction
	// inexact marks a share between two nanometres, and the ends of int64.
	inexact bool
}

// An outcome is what a [Working] comes to. It has a type of its own because that is asked
// for more often than all else: so its method copies one length, and not the Working.
type outcome struct {
	to Length // the result; what it was before rounding follows from the terms
}

// Length returns the result, rounded.
func (w outcome) Length() Length { return w.to }

// A Ledger computes workings and keeps their terms together in few
// allocations. The zero Ledger is ready for use; it must not be copied after
// first use.
type Ledger struct{ buf []Term }

// Reserve makes room for so many terms more, so that a caller who knows how many
// there will be takes one allocation.
func (g *Ledger) Reserve(terms int) {
	if cap(g.buf)-len(g.buf) < terms {
		g.buf = make([]Term, 0, terms)
	}
}

// Within makes the ledger write its terms into a list that nobody else writes to, as
// long as there is room behind what is in it.
func (g *Ledger) Within(room []Term) { g.buf = room }

// Sum returns the working of a sum, rounded on the ruler in direction d.
// Terms that add nothing (a zero count or length) are kept: that a caliper is
// zero is part of the working. Sums are exact within the bounds of a plan.
func (g *Ledger) Sum(label string, r Ruler, d Direction, terms ...Term) Working {
	return g.Share(label, 1, r, d, terms...)
}

// Share returns the working of a sum divided into equal shares. An n below 1
// counts as 1, one above [math.MaxInt32] as that. The share is rounded on the
// ruler once, from its exact value; where that is no whole number of nanometres,
// the From of the [Rounded] is it rounded to one in direction d, and Exact is
// false.
func (g *Ledger) Share(label string, n int, r Ruler, d Direction, terms ...Term) Working {
	var w Working
	g.Put(&w, label, n, r, d, terms...)
	return w
}

// Put is [Ledger.Share] for a working that is kept somewhere: it writes it there.
func (g *Ledger) Put(w *Working, label string, n int, r Ruler, d Direction, terms ...Term) {
	if w == nil {
		return
	}
	n = min(max(n, 1), math.MaxInt32)
	if cap(g.buf)-len(g.buf) < len(terms) {
		g.buf = make([]Term, 0, max(24, len(terms)))
	}
	from := len(g.buf)
	g.buf = g.buf[:from+len(terms)]
	own := g.buf[from:len(g.buf):len(g.buf)]
	var total Length
	for i := range own { // there are few
		t := &terms[i]
		own[i] = *t
		total += t.sum()
	}
	w.label, w.terms, w.over = label, own, int32(n)
	share, exact := total, true
	if n > 1 {
		share, exact = total.Scale(1, int64(n), d)
	}
	to, inexact := r.round(share, d)
	w.to, w.ruler, w.dir, w.inexact = to, r, d, inexact || !exact
	if !exact && d != Up && d != Down {
		// The share was rounded to a nanometre, and rounding that again
		// could take a share just below a half for a half.
		w.to = r.nearestOfShares(total, int64(n))
	}
}

// added returns the sum of terms, which is exact within the bounds of a plan.
func added(terms []Term) Length {
	var total Length
	for i := range terms {
		total += terms[i].sum()
	}
	return total
}

// nearestOfShares returns the graduation nearest to total/n, halves away from
// zero, for a share that is no whole number of nanometres.
func (r Ruler) nearestOfShares(total Length, n int64) Length {
	floor, _ := total.Scale(1, n, Down)
	low := r.Down(floor)
	high := r.Up(floor + 1)
	// Compare 2·total with n·(low + high) in full width.
	switch twice := total.By(2); twice.Compare(low.By(Length(n)).Plus(high.By(Length(n)))) {
	case -1:
		return low
	case 0:
		if total < 0 {
			return low
		}
	}
	return high
}

// Sum is [Ledger.Sum] for a single working.
func Sum(label string, r Ruler, d Direction, terms ...Term) Working {
	var g Ledger
	return g.Share(label, 1, r, d, terms...)
}

// Label says what the length is.
func (w Working) Label() string { return w.label }

// Rounded returns the exact result and what rounding made of it.
func (w Working) Rounded() Rounded {
	from := added(w.terms)
	if w.over > 1 {
		from, _ = from.Scale(1, int64(w.over), w.dir)
	}
	return Rounded{From: from, To: w.to, Ruler: w.ruler, Direction: w.dir, inexact: w.inexact}
}

// Shares returns into how many equal shares the total was divided.
func (w Working) Shares() int { return int(max(w.over, 1)) }

// Total returns the terms added up, before shares and rounding. A sum that does
// not fit, which cannot be within the bounds of a plan, becomes the length next
// to it that does.
func (w Working) Total() Length {
	var sum Area // 128 bits: terms of one sign may run over before others take it back
	for _, t := range w.terms {
		sum = sum.Plus(t.Length.By(Length(t.Count)))
	}
	switch l := Length(sum.lo); {
	case sum.hi == int64(l)>>63:
		return l
	case sum.hi < 0:
		return math.MinInt64 + 1 // the lowest is None
	}
	return math.MaxInt64
}

// Terms walks the terms in order.
func (w Working) Terms() iter.Seq[Term] {
	return func(yield func(Term) bool) {
		for _, t := range w.terms {
			if !yield(t) {
				return
			}
		}
	}
}

// Equal reports whether two workings say the same. It makes workings
// comparable with go-cmp.
func (w Working) Equal(v Working) bool {
	return w.label == v.label && w.Shares() == v.Shares() && w.to == v.to && w.ruler == v.ruler && w.dir == v.dir && w.inexact == v.inexact &&
		slices.Equal(w.terms, v.terms) // of which follows what it was before rounding
}

// String prints the working as one line of ASCII:
//
//	liner width 12 5/8 in = open width 12 7/8 in - 2 x inset 1/8 in
func (w Working) String() string { return string(w.AppendLine(make([]byte, 0, 160), false)) }

// AppendLine appends the working as one line, with typographic signs if asked
// for. Lengths stand in the notation of the ruler, as [Notation.Append] writes
// them; if rounding changed the sum, the line ends with the sum before rounding,
// the ruler and the direction:
//
//	wrap width 12 1/4 in = open width 10 3/16 in + 2 x margin 1 in = 12 3/16 in, up on 1/8 in
//
// A share that is no whole number of nanometres is marked as rounded there.
func (w Working) AppendLine(dst []byte, typographic bool) []byte {
	n, rounded := w.ruler.Notation(), w.Rounded()
	minus, times, over := " - ", " x ", " / "
	if typographic {
		minus, times, over = " − ", " × ", " ÷ "
	}
	dst = append(dst, w.label...)
	dst = append(dst, ' ')
	dst = n.Append(dst, rounded.To, typographic)
	dst = append(dst, " = "...)
	if w.Shares() > 1 && len(w.terms) > 1 {
		dst = append(dst, '(')
	}
	for i, t := range w.terms {
		switch {
		case i == 0 && t.Count < 0:
			dst = append(dst, minus[1:]...)
		case t.Count < 0:
			dst = append(dst, minus...)
		case i > 0:
			dst = append(dst, " + "...)
		}
		if count := magnitude(int64(t.Count)); count != 1 {
			dst = strconv.AppendUint(dst, count, 10)
			dst = append(dst, times...)
		}
		if t.Label != "" {
			dst = append(dst, t.Label...)
			dst = append(dst, ' ')
		}
		dst = n.Append(dst, t.Length, typographic)
	}
	if len(w.terms) == 0 {
		dst = n.Append(dst, 0, typographic)
	}
	if w.Shares() > 1 {
		if len(w.terms) > 1 {
			dst = append(dst, ')')
		}
		dst = append(dst, over...)
		dst = strconv.AppendInt(dst, int64(w.Shares()), 10)
	}
	if !rounded.Exact() && w.single() {
		dst = appendRounding(dst, n, rounded, typographic)
	} else if !rounded.Exact() {
		dst = append(dst, " = "...)
		if _, exact := w.Total().Scale(1, int64(w.Shares()), Down); !exact && !n.rounds(rounded.From) {
			dst = appendRoundedMark(dst, typographic)
		}
		dst = n.Append(dst, rounded.From, typographic)
		dst = appendRounding(dst, n, rounded, typographic)
	}
	return dst
}

// single reports whether the sum is one length, which needs no adding up.
func (w Working) single() bool {
	return len(w.terms) == 1 && w.terms[0].Count == 1 && w.Shares() == 1
}

func appendRounding(dst []byte, n Notation, r Rounded, typographic bool) []byte {
	dst = append(dst, ", "...)
	dst = append(dst, r.Direction.String()...)
	dst = append(dst, " on "...)
	return n.Append(dst, r.Ruler.Step(), typographic)
}

// Append appends l in the notation, for a reader who works with one ruler: as a
// fraction of an inch down to 1/64 or, failing that, a decimal of six digits.
// Where inches have neither, the nearest ten-thousandth follows the mark of a
// rounded text: ~0.1326 in. Millimetres are always exact.
func (n Notation) Append(dst []byte, l Length, typographic bool) []byte {
	f := Format{Ruler: n.Exact(), Typographic: typographic}
	if n.rounds(l) {
		f.Ruler = Ruler(Thou/10) | inDecimals
	}
	return f.Append(dst, l)
}

// rounds reports whether l has no exact text in the notation.
func (n Notation) rounds(l Length) bool {
	if n != InchFraction && n != InchDecimal || SixtyFourths.Has(l) {
		return false
	}
	_, millionths := l.Scale(1_000_000, int64(Inch), Down)
	return !millionths
}

// Bound returns l as a bound that is to be kept is told: as [Notation.Text] writes
// it where that is exact, and else the nearest ten-thousandth of an inch in
// direction d, without a mark. So what stands there lies on the right side of the
// bound: Up for the least that would do, Down for the most.
func (n Notation) Bound(l Length, d Direction) string {
	if n.rounds(l) {
		l = (Ruler(Thou/10) | inDecimals).Round(l, d).To
	}
	return n.Text(l)
}

// BoundSize returns a size each of whose sides is a bound, with the unit once.
func (n Notation) BoundSize(s Size, d Direction) string {
	w, h := n.Bound(s.W, d), n.Bound(s.H, d)
	if unit := len(" in"); len(w) > unit && len(h) > unit && w[len(w)-unit:] == h[len(h)-unit:] {
		w = w[:len(w)-unit]
	}
	return w + " x " + h
}

// Text returns l as [Notation.Append] writes it, in ASCII.
//
//go:noinline
func (n Notation) Text(l Length) string {
	var buf [48]byte
	return string(n.Append(buf[:0], l, false))
}
