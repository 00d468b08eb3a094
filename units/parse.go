package units

import (
	"math"
	"strconv"
	"unicode/utf8"
)

// A ParseError says what in a text is not a length, and where.
type ParseError struct {
	Input   string // the whole text
	Offset  int    // the byte at which it stops being a length
	Problem string
}

// Error quotes the input and the place.
func (e *ParseError) Error() string {
	dst := append(make([]byte, 0, 128), "units: cannot read "...)
	dst = strconv.AppendQuote(dst, clip(e.Input))
	dst = append(dst, " at byte "...)
	dst = strconv.AppendInt(dst, int64(e.Offset), 10)
	if e.Offset < len(e.Input) {
		dst = append(dst, " ("...)
		dst = strconv.AppendQuote(dst, clip(e.Input[e.Offset:]))
		dst = append(dst, ')')
	}
	dst = append(dst, ": "...)
	return string(append(dst, e.Problem...))
}

func clip(s string) string {
	const most = 64
	if len(s) <= most {
		return s
	}
	return s[:most] + "..."
}

// Parse reads a length with its unit. It reads
//
//	4 1/2 in   4-1/2"   4½″   1/2 in   .5in   4.5 inches
//	1' 2 1/2"  2 ft 6 in
//	114.3 mm   11.43cm  0.1143 m  250 µm
//
// with Unicode fractions (½), the fraction slash (1⁄2), primes (′ ″) and
// typographic quotes used as primes, and a sign in front. A fraction beside a
// whole number must be below one. The result is exact: a text that is not a
// whole number of nanometres (1/3 in) is refused, as is one without a unit,
// with a decimal comma, with a slip such as 4⁄½, or marked as rounded. The
// error is a *[ParseError].
func Parse(s string) (Length, error) { return parse(s, 0) }

// ParseIn reads a length as [Parse] does, but takes a bare number to be a
// count of the given unit.
func ParseIn(s string, unit Length) (Length, error) { return parse(s, unit) }

// MustParse is [Parse] for texts in source code; it panics where Parse gives
// an error.
func MustParse(s string) Length {
	l, err := Parse(s)
	if err != nil {
		panic(err)
	}
	return l
}

// ParseSize reads two lengths with x, × or "by" between them, width first:
// "4 1/2 x 6 1/4 in". A first number without a unit has the second one's.
func ParseSize(s string) (Size, error) { return parseSize(s, 0) }

// ParseSizeIn reads two lengths as [ParseSize] does, but takes bare numbers to
// be counts of the given unit.
func ParseSizeIn(s string, unit Length) (Size, error) { return parseSize(s, unit) }

// MustParseSize is [ParseSize] for texts in source code; it panics where
// ParseSize gives an error.
func MustParseSize(s string) Size {
	size, err := ParseSize(s)
	if err != nil {
		panic(err)
	}
	return size
}

func parse(s string, bare Length) (Length, error) {
	p := parser{in: s}
	p.space()
	l := p.length(bare)
	p.space()
	if p.err == nil && p.at < len(s) {
		p.fail(p.at, "nothing may follow a length")
	}
	if p.err != nil {
		return 0, p.err
	}
	return l, nil
}

func parseSize(s string, bare Length) (Size, error) {
	p := parser{in: s}
	p.space()
	start := p.at
	w := p.length(bare)
	if p.err != nil && p.missingUnit {
		// The unit stands behind the second number only: read that first.
		first := p
		first.at, first.err, first.missingUnit = start, nil, false
		first.quantity()
		first.space()
		if first.err != nil || !first.by() {
			return Size{}, p.err
		}
		first.space()
		first.length(0)
		if first.err != nil {
			return Size{}, first.err
		}
		p = parser{in: s, at: start}
		w = p.length(first.lastUnit)
	}
	p.space()
	if p.err == nil && !p.by() {
		p.fail(p.at, "a size is two lengths with x between them")
	}
	p.space()
	h := p.length(bare)
	p.space()
	if p.err == nil && p.at < len(s) {
		p.fail(p.at, "nothing may follow a size")
	}
	if p.err != nil {
		return Size{}, p.err
	}
	return Size{w, h}, nil
}

type parser struct {
	in          string
	at          int
	err         *ParseError
	missingUnit bool
	lastUnit    Length
}

func (p *parser) fail(at int, problem string) {
	if p.err == nil {
		p.err = &ParseError{Input: p.in, Offset: at, Problem: problem}
	}
}

func (p *parser) peek() (rune, int) { return utf8.DecodeRuneInString(p.in[p.at:]) }

// take steps over any of the words, the longest first, and reports whether
// there was one.
func (p *parser) take(words ...string) bool {
	for _, w := range words {
		if len(p.in)-p.at >= len(w) && p.in[p.at:p.at+len(w)] == w {
			p.at += len(w)
			return true
		}
	}
	return false
}

func (p *parser) space() bool {
	start := p.at
	for p.take(" ", "\t", "\u00a0", "\u202f", "\u2009") {
	}
	return p.at > start
}

func (p *parser) by() bool { return p.take("x", "X", "×", "by") }

// A quantity is a whole number of 1/den, before its unit is known.
type quantity struct{ num, den uint64 }

func (p *parser) length(bare Length) Length {
	if p.take("~", "≈") {
		p.fail(0, "marked as rounded, so the exact length is not known")
		return 0
	}
	negative := false
	if p.take("-", "−") {
		negative = true
	} else {
		p.take("+")
	}
	p.space()
	start := p.at
	q := p.quantity()
	if p.err != nil {
		return 0
	}
	mark := p.at
	p.space()
	unit := p.unit()
	if unit == 0 {
		p.at = mark
		unit = bare
	}
	if unit == 0 {
		p.missingUnit = true
		p.fail(p.at, "the unit is missing: in, \", ft, ', mm, cm, m or µm")
		return 0
	}
	total := p.scale(start, q, unit)
	if unit == Foot && p.err == nil {
		total = p.inchesAfterFeet(total)
	}
	p.lastUnit = unit
	if negative {
		return -total
	}
	return total
}

// inchesAfterFeet adds the inches of 1' 2 1/2".
func (p *parser) inchesAfterFeet(feet Length) Length {
	mark := p.at
	p.space()
	if r, _ := p.peek(); r == '.' || isDigit(r) || vulgar(r) != nil {
		start := p.at
		q := p.quantity()
		p.space()
		at := p.at
		if p.err == nil && p.unit() != Inch {
			p.fail(at, "after feet only inches may follow")
		}
		if p.err != nil {
			return 0
		}
		if q.num >= 12*q.den {
			p.fail(start, "inches after feet must be fewer than 12")
			return 0
		}
		sum, ok := feet.Plus(p.scale(start, q, Inch))
		if !ok {
			p.fail(start, "too long")
		}
		return sum
	}
	p.at = mark
	return feet
}

func isDigit(r rune) bool { return '0' <= r && r <= '9' }

func vulgar(r rune) *quantity {
	for _, v := range vulgarFractions {
		if v.sign == r {
			return &quantity{v.num, v.den}
		}
	}
	return nil
}

// quantity reads a whole number, a decimal, a fraction, or a whole number
// with a fraction.
func (p *parser) quantity() quantity {
	start := p.at
	if r, n := p.peek(); vulgar(r) != nil {
		p.at += n
		return p.ended(*vulgar(r))
	}
	whole, digits := p.digits()
	if p.err != nil {
		return quantity{}
	}
	if p.take(".") {
		return p.decimals(start, whole, digits)
	}
	if digits == 0 {
		p.fail(p.at, "a number must stand here")
		return quantity{}
	}
	if p.take(",") {
		p.fail(p.at-1, "a comma is not read: write a decimal point")
		return quantity{}
	}
	if p.take("/", "\u2044") {
		q := p.below(start, whole)
		return p.ended(q)
	}
	if r, n := p.peek(); vulgar(r) != nil {
		p.at += n
		return p.ended(p.mixed(start, whole, *vulgar(r)))
	}
	// A hyphen or a space may join a fraction to the whole number, but both
	// may also end it, so look before stepping.
	mark := p.at
	joined := p.take("-") || p.space()
	if r, n := p.peek(); joined && vulgar(r) != nil {
		p.at += n
		return p.ended(p.mixed(start, whole, *vulgar(r)))
	} else if joined && isDigit(r) {
		at := p.at
		num, _ := p.digits()
		if p.take("/", "\u2044") {
			f := p.below(at, num)
			if p.err == nil && f.num >= f.den {
				p.fail(at, "a fraction beside a whole number must be below one")
			}
			return p.ended(p.mixed(start, whole, f))
		}
		p.fail(at, "a fraction must follow a whole number, as in 4 1/2")
		return quantity{}
	}
	p.at = mark
	return p.ended(quantity{whole, 1})
}

// ended refuses what may not follow a complete number.
func (p *parser) ended(q quantity) quantity {
	if p.err != nil {
		return quantity{}
	}
	r, _ := p.peek()
	switch {
	case vulgar(r) != nil, isDigit(r), r == '/', r == '\u2044', r == '.', r == ',':
		p.fail(p.at, "the number is complete before this")
		return quantity{}
	}
	return q
}

// below reads a denominator.
func (p *parser) below(start int, num uint64) quantity {
	at := p.at
	den, digits := p.digits()
	switch {
	case p.err != nil:
	case digits == 0:
		p.fail(at, "a fraction needs a whole number below the line")
	case den == 0:
		p.fail(at, "a fraction must not have 0 below the line")
	case den > 1_000_000 || num > math.MaxInt64:
		p.fail(start, "too many digits in a fraction")
	}
	if p.err != nil {
		return quantity{0, 1}
	}
	return quantity{num, den}
}

func (p *parser) mixed(start int, whole uint64, f quantity) quantity {
	if p.err != nil {
		return quantity{}
	}
	if whole > (math.MaxInt64-f.num)/f.den {
		p.fail(start, "too long")
		return quantity{}
	}
	return quantity{whole*f.den + f.num, f.den}
}

// digits reads a whole number and says how many digits it had.
func (p *parser) digits() (n uint64, count int) {
	start := p.at
	for p.at < len(p.in) && isDigit(rune(p.in[p.at])) {
		d := uint64(p.in[p.at] - '0')
		if n > (math.MaxInt64-d)/10 {
			p.fail(start, "too many digits")
			return 0, 0
		}
		n = n*10 + d
		p.at++
	}
	return n, p.at - start
}

func (p *parser) decimals(start int, whole uint64, before int) quantity {
	q := quantity{whole, 1}
	after := 0
	zeros := 0 // trailing zeros carry nothing, so they may be many
	for p.at < len(p.in) && isDigit(rune(p.in[p.at])) {
		d := uint64(p.in[p.at] - '0')
		p.at++
		after++
		if d == 0 {
			zeros++
			continue
		}
		for ; zeros >= 0; zeros-- {
			if q.den >= 1_000_000_000_000 || q.num > math.MaxInt64/10-1 {
				p.fail(start, "more decimals than a nanometre has")
				return quantity{}
			}
			q.num, q.den = q.num*10, q.den*10
		}
		q.num += d
		zeros = 0
	}
	if before+after == 0 {
		p.fail(start, "a number must stand here")
		return quantity{}
	}
	return p.ended(q)
}

func (p *parser) unit() Length {
	at := p.at
	unit := Length(0)
	switch {
	case p.take("inches", "inch", "in.", "in", "\"", "″", "”", "''", "′′"):
		unit = Inch
	case p.take("feet", "foot", "ft.", "ft", "'", "′", "’"):
		unit = Foot
	case p.take("millimetres", "millimeters", "millimetre", "millimeter", "mm"):
		unit = Millimetre
	case p.take("cm"):
		unit = Centimetre
	case p.take("µm", "μm", "um"):
		unit = Micrometre
	case p.take("nm"):
		unit = Nanometre
	case p.take("m"):
		unit = Metre
	}
	// "inn" or "mmm" is a slip, not a unit with something behind it; "x" and
	// "by" may follow a unit in a size.
	if r, _ := p.peek(); unit != 0 && isLetter(r) && r != 'x' && r != 'X' && r != 'b' {
		p.at = at
		return 0
	}
	return unit
}

func isLetter(r rune) bool { return 'a' <= r && r <= 'z' || 'A' <= r && r <= 'Z' }

// scale turns a count of units into nanometres, which must come out whole.
func (p *parser) scale(start int, q quantity, unit Length) Length {
	if p.err != nil {
		return 0
	}
	l, exact, ok := mulDiv(unit, int64(q.num), int64(q.den), Nearest)
	switch {
	case !ok:
		p.fail(start, "too long")
	case !exact:
		p.fail(start, "not a whole number of nanometres; the nearest is "+l.String())
	default:
		return l
	}
	return 0
}
