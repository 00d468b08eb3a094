package units

import (
	"errors"
	"math"
	"math/bits"

	"boardwrap.example/internal/word"
	"golang.org/x/exp/constraints"
)

// A Length is a distance in whole nanometres. The range is that of int64,
// about ±9.2 million km; plans bound every length by [Shortest] and
// [Longest], so that sums of lengths cannot wrap.
type Length int64

// Units of length. The inch is 25.4 mm exactly (NIST SP 811, appendix B.8);
// a thou, a thousandth of an inch, is also called a point where the caliper
// of board is meant.
const (
	Nanometre  Length = 1                 // 10⁻⁹ m, the least length
	Micrometre        = 1000 * Nanometre  // 10⁻⁶ m
	Millimetre        = 1000 * Micrometre // 10⁻³ m
	Centimetre        = 10 * Millimetre   // 10⁻² m
	Metre             = 1000 * Millimetre // 1 m
	Thou              = 25400 * Nanometre // 0.001 in, 25.4 µm: a point of board caliper, a mil
	Inch              = 1000 * Thou       // 25.4 mm
	Foot              = 12 * Inch         // 12 in
)

// Bounds of the lengths that a plan takes as input: 10 µm, thinner than any
// paper, to 10 m.
const (
	Shortest = 10 * Micrometre // 10 µm
	Longest  = 10 * Metre      // 10 m
)

// Errors of the constructors, matched with errors.Is.
var (
	// ErrNotANumber is returned for a NaN.
	ErrNotANumber = errors.New("units: not a number")
	// ErrRange is returned for a length that int64 nanometres cannot hold,
	// infinities included.
	ErrRange = errors.New("units: length out of range")
	// ErrInexact is returned where a fraction of a unit is not a whole
	// number of nanometres, or of the least unit of another measure.
	ErrInexact = errors.New("units: not a whole number of nanometres")
)

// Errors of the text forms, matched with errors.Is.
var (
	// ErrSyntax is matched by the error of reading a text that is not written
	// as it has to be.
	ErrSyntax = word.ErrSyntax
	// ErrUnknown is matched by the error of writing a value that has no text.
	ErrUnknown = word.ErrUnknown
)

// None stands for an explicit nothing in a field where 0 means a default: a
// square of None is a cover cut flush with its block. It is the only length
// below 0 that such a field takes: the lowest int64, which nothing that is
// measured or computed is. Its text is "none".
const None Length = math.MinInt64

// Number is any integer or floating-point type.
type Number interface {
	constraints.Integer | constraints.Float
}

// Of returns n units. With an integer n the result is exact; a floating-point
// n is rounded to the nearest nanometre, halves away from zero. The error is
// ErrNotANumber or ErrRange, and the length is then 0.
func Of[N Number](n N, unit Length) (Length, error) {
	if N(1)/N(2) != 0 { // a floating-point type
		return ofFloat(float64(n), unit)
	}
	m, negative := signed(n)
	l, _, ok := ratio(negative != (unit < 0), magnitude(int64(unit)), m, 1, Down)
	if !ok {
		return 0, ErrRange
	}
	return l, nil
}

// signed splits an integer of any type into magnitude and sign.
func signed[N Number](n N) (magnitude uint64, negative bool) {
	if n < 0 {
		return -uint64(n), true
	}
	return uint64(n), false
}

func ofFloat(f float64, unit Length) (Length, error) {
	if math.IsNaN(f) {
		return 0, ErrNotANumber
	}
	if math.IsInf(f, 0) {
		return 0, ErrRange
	}
	if unit == 0 || f == 0 {
		return 0, nil
	}
	negative := (f < 0) != (unit < 0)
	// f is mantissa × 2^exp exactly, with a mantissa of 53 bits, so that the
	// product with the unit fits 128 bits and is rounded only once.
	frac, exp := math.Frexp(math.Abs(f))
	mantissa := uint64(math.Ldexp(frac, 53))
	exp -= 53
	switch {
	case exp > 11: // 2⁶⁴ or more units
		return 0, ErrRange
	case exp >= 0:
		l, _, ok := ratio(negative, magnitude(int64(unit)), mantissa<<exp, 1, Down)
		if !ok {
			return 0, ErrRange
		}
		return l, nil
	case exp < -117: // less than half of 1 nm, whatever the unit
		return 0, nil
	}
	hi, lo := bits.Mul64(magnitude(int64(unit)), mantissa)
	product := Area{int64(hi), lo}.Plus(powerOfTwo(-exp - 1)) // half of the divisor 2^−exp
	q := product.shifted(-exp)
	if q.hi != 0 {
		return 0, ErrRange
	}
	l, _, ok := ratio(negative, q.lo, 1, 1, Down)
	if !ok {
		return 0, ErrRange
	}
	return l, nil
}

func powerOfTwo(n int) Area {
	if n >= 64 {
		return Area{1 << (n - 64), 0}
	}
	return Area{0, 1 << n}
}

// shifted returns a >> n for an a that is not negative.
func (a Area) shifted(n int) Area {
	if n >= 64 {
		return Area{0, uint64(a.hi) >> (n - 64)}
	}
	return Area{a.hi >> n, a.lo>>n | uint64(a.hi)<<(64-n)}
}

// Inches returns n inches, exactly for an integer n and for a floating-point
// n that is a binary fraction down to 1/64; otherwise rounded as by [Of].
func Inches[N Number](n N) (Length, error) { return Of(n, Inch) }

// Millimetres returns n millimetres, exactly for an integer n, otherwise
// rounded to the nearest nanometre as by [Of].
func Millimetres[N Number](n N) (Length, error) { return Of(n, Millimetre) }

// Fraction returns num/den of a unit, exactly. The error is ErrInexact when
// that is not a whole number of nanometres (1/3 in), ErrNotANumber when den
// is 0, ErrRange when the result does not fit.
func Fraction[N constraints.Integer](num, den N, unit Length) (Length, error) {
	if den == 0 {
		return 0, ErrNotANumber
	}
	n, nNegative := signed(num)
	d, dNegative := signed(den)
	negative := nNegative != dNegative != (unit < 0)
	l, exact, ok := ratio(negative, magnitude(int64(unit)), n, d, Down)
	switch {
	case !ok:
		return 0, ErrRange
	case !exact:
		return 0, ErrInexact
	}
	return l, nil
}

// Inches returns the length in inches, for drawing and for other programs;
// the conversion to floating point rounds to the nearest float64.
func (l Length) Inches() float64 { return float64(l) / float64(Inch) }

// Millimetres returns the length in millimetres as the nearest float64.
func (l Length) Millimetres() float64 { return float64(l) / float64(Millimetre) }

// Nanometres returns the length as a count of nanometres.
func (l Length) Nanometres() int64 { return int64(l) }

// Abs returns the length without its sign. The lowest int64, which has no
// positive twin, becomes the highest.
//
//go:noinline
func (l Length) Abs() Length {
	switch {
	case l >= 0:
		return l
	case l == math.MinInt64:
		return math.MaxInt64
	}
	return -l
}

// Plus returns l + m and whether the sum fits; if not, it returns 0. Inside
// the bounds of a plan the + operator is enough.
func (l Length) Plus(m Length) (sum Length, ok bool) {
	sum = l + m
	if (l > 0 && m > 0 && sum <= 0) || (l < 0 && m < 0 && sum >= 0) {
		return 0, false
	}
	return sum, true
}

// Times returns n·l and whether the product fits; if not, it returns 0.
func (l Length) Times(n int64) (product Length, ok bool) {
	const long, many = 1 << 40, 1 << 20 // within these no product is too large
	if -long < l && l < long && -many < n && n < many {
		return l * Length(n), true
	}
	product, _, ok = mulDiv(l, n, 1, Down)
	return product, ok
}

// Scale returns l·num/den rounded to a whole nanometre in the given
// direction, and whether nothing was lost. A den of 0 or a result out of
// range gives 0 and false. The product is held in 128 bits.
func (l Length) Scale(num, den int64, d Direction) (scaled Length, exact bool) {
	scaled, exact, ok := mulDiv(l, num, den, d)
	return scaled, exact && ok
}

// Half returns half of l, rounded to a whole nanometre in the given
// direction.
func (l Length) Half(d Direction) Length {
	h := l >> 1 // down
	if l&1 != 0 && (d == Up || d != Down && l > 0) {
		h++
	}
	return h
}

// Clamp returns l, or the nearer of the two bounds when l lies outside them;
// with low above high it returns high.
func (l Length) Clamp(low, high Length) Length { return min(max(l, low), high) }

// mulDiv returns l·num/den rounded in direction d, whether it was exact and
// whether it fits.
func mulDiv(l Length, num, den int64, d Direction) (q Length, exact, ok bool) {
	negative := (l < 0) != (num < 0) != (den < 0)
	return ratio(negative, magnitude(int64(l)), magnitude(num), magnitude(den), d)
}

// ratio is mulDiv on magnitudes, with the sign of the result apart.
func ratio(negative bool, a, b, den uint64, d Direction) (q Length, exact, ok bool) {
	hi, lo := bits.Mul64(a, b)
	if hi >= den { // a den of 0 too
		return 0, false, false
	}
	quo, rem := bits.Div64(hi, lo, den)
	exact = rem == 0
	if !exact {
		if awayFromZero(d, negative, rem, den) {
			if quo == math.MaxUint64 {
				return 0, false, false
			}
			quo++
		}
	}
	if negative {
		if quo > 1<<63 {
			return 0, false, false
		}
		return Length(-quo), exact, true
	}
	if quo > math.MaxInt64 {
		return 0, false, false
	}
	return Length(quo), exact, true
}

// Diagonal returns the diagonal of a rectangle with sides a and b, the root
// of a² + b², rounded to a whole nanometre in the given direction. The
// squares are held in 128 bits; a result that does not fit becomes the
// largest length.
func Diagonal(a, b Length, d Direction) Length {
	const most Length = math.MaxInt64
	sum := a.By(a).Plus(b.By(b))
	if sum.hi < 0 || sum.Compare(most.By(most)) >= 0 { // 2¹²⁷ turns negative
		return most
	}
	// The float is off by a few units in its last place at most; the exact
	// integer root is found from there by comparing squares.
	r := most
	if guess := math.Sqrt(float64(a)*float64(a) + float64(b)*float64(b)); guess < math.MaxInt64 {
		r = Length(guess)
	}
	step := Length(1)
	if r >= 1<<50 {
		step <<= 12
	}
	for ; step > 0; step >>= 1 {
		for r.By(r).Compare(sum) > 0 {
			r -= step
		}
		for r <= most-step && (r+step).By(r+step).Compare(sum) <= 0 {
			r += step
		}
	}
	below := r.By(r)
	if below == sum || d == Down {
		return r
	}
	if d == Up {
		return r + 1
	}
	// The nearest: r + 1/2 squared is r² + r + 1/4, so a sum of r² + r or
	// less lies nearer to r.
	if sum.Minus(below).Compare(r.By(1)) > 0 {
		return r + 1
	}
	return r
}
