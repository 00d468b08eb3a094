package units

import (
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"boardwrap.example/internal/quote"
)

// A ParseCode says in a word why a text cannot be read. The codes do not change.
type ParseCode string

// Codes of a [ParseError].
const (
	BadSyntax    ParseCode = "syntax"       // not written as it has to be; matches ErrSyntax
	NoUnit       ParseCode = "no-unit"      // a unit is missing or unknown; matches ErrSyntax
	Inexact      ParseCode = "inexact"      // marked as rounded, or between two of the least units; matches ErrInexact
	BeyondLimits ParseCode = "out-of-range" // more than an int64 holds; matches ErrRange
)

// A ParseError says what in a text cannot be read, and where. It matches one of
// [ErrSyntax], [ErrInexact] and [ErrRange] by errors.Is.
type ParseError struct {
	Input   string    // the whole text
	Offset  int       // the byte at which it stops being readable
	Code    ParseCode // why, for a program
	Problem string    // why, for a person
}

// Error quotes the input and the place.
func (e *ParseError) Error() string {
	dst := append(make([]byte, 0, 128), "units: cannot read "...)
	dst = quote.Append(dst, e.Input)
	dst = append(dst, " at byte "...)
	dst = strconv.AppendInt(dst, int64(e.Offset), 10)
	if 0 <= e.Offset && e.Offset < len(e.Input) {
		dst = append(dst, " ("...)
		dst = quote.Append(dst, e.Input[e.Offset:])
		dst = append(dst, ')')
	}
	dst = append(dst, ": "...)
	return string(append(dst, e.Problem...))
}

// Unwrap returns ErrInexact, ErrRange or ErrSyntax.
func (e *ParseError) Unwrap() error {
	switch e.Code {
	case Inexact:
		return ErrInexact
	case BeyondLimits:
		return ErrRange
	}
	return ErrSyntax
}

// Parse reads a length with its unit. It reads
//
//	5 3/4 in   5-3/4"   5¾″   1/2 in   .5in   5.75 inches   1 IN
//	1' 2 1/2"  1'-2 1/2"  10'6  2 ft 6 in
//	140.5 mm   14.05cm  0.1405 m  250 µm  100 nm  2 centimeters  140,5 mm
//	24 pt      31 thou   31 mil
//
// with Unicode fractions (½), the fraction slash (1⁄2), primes (′ ″) and
// typographic quotes used as primes, and a sign in front. Names of units may be
// in upper case, in British or American spelling, and in the plural. A point
// (pt), a thou and a mil are a thousandth of an inch, as the caliper of board is
// sold; the printer's point, 1/72 in, is not read. A fraction beside a whole
// number must be below one, and inches beside feet fewer than 12; a bare number
// of up to two digits beside feet is inches. "none" is [None].
//
// The decimal sign is a point or a comma, as ISO 80000-1 has it. Three figures after
// a comma, as in 1,250 mm, may be thousands to the one who wrote them, and are refused
// unless no thousands are written so: 0,125 in and 1250,125 mm are clear.
//
// The result is exact: a text that is not a whole number of nanometres (1/3 in)
// is refused, as is one without a unit, with a slip such as 4⁄½, or marked as
// rounded. The error is a *[ParseError].
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
// "6 x 8 in". A number without a unit has the other one's, which must
// then be one unit, not feet and inches. Each length is read as by [Parse].
func ParseSize(s string) (Size, error) { return parseSize(s, 0) }

// ParseSizeIn reads two lengths as [ParseSize] does, but takes the numbers to be
// counts of the given unit where both are bare.
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
	l := p.resolve(p.whole(), bare)
	if p.err != nil {
		return 0, p.err
	}
	return l, nil
}

func parseSize(s string, bare Length) (Size, error) {
	p := parser{in: s}
	p.space()
	w := p.amount()
	p.space()
	if p.err == nil && !p.word("x") && !p.take("×") && !p.word("by") {
		// In "4 1/2 furlong x 6" the unit is what is wrong.
		if r, _ := p.peek(); w.unit == 0 && isLetter(r) {
			p.fail(p.at, NoUnit, noUnit)
		}
		p.fail(p.at, BadSyntax, "a size is two lengths with x between them")
	}
	p.space()
	h := p.amount()
	p.end()
	switch {
	case p.err != nil:
		return Size{}, p.err
	case w.unit == 0 && h.unit == 0:
		w.unit, h.unit = bare, bare
	case w.unit == 0 && !h.feetAndInches:
		w.unit = h.unit
	case h.unit == 0 && !w.feetAndInches:
		h.unit = w.unit
	}
	size := Size{p.resolve(w, 0), p.resolve(h, 0)}
	if p.err != nil {
		return Size{}, p.err
	}
	return size, nil
}

type parser struct {
	in  string
	at  int
	err *ParseError
}

// fail keeps the first thing that is wrong. The input is copied, so that a text
// read from bytes need not be kept for an error that does not come.
//
//go:noinline
func (p *parser) fail(at int, code ParseCode, problem string) {
	if p.err == nil {
		p.err = &ParseError{Input: strings.Clone(p.in), Offset: at, Code: code, Problem: problem}
	}
}

func (p *parser) peek() (rune, int) { return utf8.DecodeRuneInString(p.in[p.at:]) }

// take steps over the first of the words that stands here, and reports whether
// there was one.
func (p *parser) take(words ...string) bool {
	for _, w := range words {
		if strings.HasPrefix(p.in[p.at:], w) {
			p.at += len(w)
			return true
		}
	}
	return false
}

// word steps over a word in lower or upper case, and reports whether it stood
// here.
func (p *parser) word(w string) bool {
	if len(p.in)-p.at < len(w) {
		return false
	}
	for i := range len(w) {
		c := p.in[p.at+i]
		if 'A' <= c && c <= 'Z' {
			c += 'a' - 'A'
		}
		if c != w[i] {
			return false
		}
	}
	p.at += len(w)
	return true
}

// space steps over spaces: blank, tab, no-break, narrow no-break and thin.
func (p *parser) space() bool {
	start := p.at
	for p.take(" ", "\t", "\u00a0", "\u202f", "\u2009") {
	}
	return p.at > start
}

// end refuses what stands behind everything that was wanted.
func (p *parser) end() {
	p.space()
	if p.at < len(p.in) {
		p.fail(p.at, BadSyntax, "nothing may follow here")
	}
}

// A quantity is num/den, before its unit is known.
type quantity struct {
	num, den uint64
	point    bool // written with a decimal sign
}

// An amount is a length as it was read: with feet, a second quantity in inches
// may follow.
type amount struct {
	none     bool // the word for None
	start    int  // where its number starts
	end      int  // where its unit is missing, if it is
	negative bool
	quantity
	unit          Length // 0 if none was written
	feetAndInches bool
	inches        quantity
}

const noUnit = "a unit must stand here: in, \", ft, ', mm, cm, m, µm, nm, pt, thou or mil"

// whole reads an amount that takes up all of the text.
func (p *parser) whole() amount {
	p.space()
	a := p.amount()
	if r, _ := p.peek(); a.unit == 0 && isLetter(r) {
		p.fail(p.at, NoUnit, noUnit)
	}
	p.end()
	return a
}

// amount reads a length, its unit being optional.
func (p *parser) amount() (a amount) {
	if p.err != nil {
		return a
	}
	if p.word("none") {
		a.none = true
		return a
	}
	a.negative = p.sign()
	p.space()
	a.start = p.at
	a.quantity = p.quantity()
	a.end = p.at
	p.space()
	a.unit = p.unit()
	if a.unit == Foot && p.err == nil {
		p.inchesAfterFeet(&a)
	}
	return a
}

// sign reads a sign and reports whether it is a minus. A mark of rounding is
// refused.
func (p *parser) sign() (negative bool) {
	at := p.at
	if p.take("~", "≈") {
		p.fail(at, Inexact, "marked as rounded, so the exact value is not known")
		return false
	}
	if p.take("-", "−") {
		return true
	}
	p.take("+")
	return false
}

// inchesAfterFeet reads the inches of 1' 2 1/2", 1'-2 1/2", 1' - 2 1/2" and
// 1'2.
func (p *parser) inchesAfterFeet(a *amount) {
	mark := p.at
	spaced := p.space()
	if p.take("-") && p.space() != spaced { // 1' -2" is no way to write it
		p.at = mark
		return
	}
	r, _ := p.peek()
	if _, is := vulgar(r); !is && !isDigit(r) && r != '.' {
		p.at = mark
		return
	}
	start := p.at
	a.feetAndInches = true
	a.inches = p.quantity()
	end := p.at
	p.space()
	at := p.at
	unit := p.unit()
	if unit == 0 && p.err == nil {
		// A bare number is inches, unless it may be thousands: 1'000.
		if next, _ := p.peek(); (!isLetter(next) || beginsBy(next)) && digitsFrom(p.in[start:end]) <= 2 {
			unit, p.at = Inch, end
		}
	}
	switch {
	case p.err != nil:
	case unit != Inch:
		p.fail(at, BadSyntax, "after feet only inches may follow")
	case a.den != 1:
		p.fail(a.start, BadSyntax, "feet with inches must be a whole number")
	case a.inches.num/a.inches.den >= 12:
		p.fail(start, BadSyntax, "inches after feet must be fewer than 12")
	}
}

// digitsFrom returns how many digits a text begins with.
func digitsFrom(s string) int {
	for i := range len(s) {
		if !isDigit(rune(s[i])) {
			return i
		}
	}
	return len(s)
}

// resolve turns an amount into nanometres, which must come out whole.
func (p *parser) resolve(a amount, bare Length) Length {
	if a.none {
		return None
	}
	unit := a.unit
	if unit == 0 {
		unit = bare
	}
	if unit == 0 {
		p.fail(a.end, NoUnit, noUnit)
	}
	l := p.scale(a.start, a.negative, a.quantity, unit)
	if a.feetAndInches {
		sum, ok := l.Plus(p.scale(a.start, a.negative, a.inches, Inch))
		if !ok {
			p.fail(a.start, BeyondLimits, "too long")
		}
		l = sum
	}
	return l
}

func (p *parser) scale(start int, negative bool, q quantity, unit Length) Length {
	if p.err != nil {
		return 0
	}
	l, exact, ok := ratio(negative != (unit < 0), magnitude(int64(unit)), q.num, q.den, Nearest)
	switch {
	case !ok:
		p.fail(start, BeyondLimits, "too long")
	case !exact:
		p.fail(start, Inexact, "not a whole number of nanometres; the nearest is "+l.String())
	default:
		return l
	}
	return 0
}

func isDigit(r rune) bool { return '0' <= r && r <= '9' }

func vulgar(r rune) (quantity, bool) {
	if r < 0x80 {
		return quantity{}, false
	}
	for i := range vulgarFractions {
		if v := &vulgarFractions[i]; v.sign == r {
			return quantity{num: v.num, den: v.den}, true
		}
	}
	return quantity{}, false
}

// quantity reads a whole number, a decimal, a fraction, or a whole number
// with a fraction.
func (p *parser) quantity() quantity {
	start := p.at
	if f, ok := p.vulgar(); ok {
		return p.ended(f)
	}
	whole, digits := p.digits()
	if p.err != nil {
		return quantity{}
	}
	if p.take(".") {
		return p.decimals(start, whole, digits)
	}
	if digits == 0 {
		p.fail(p.at, BadSyntax, "a number must stand here")
		return quantity{}
	}
	if p.take(",") {
		switch n := digitsFrom(p.in[p.at:]); {
		case n == 0:
			p.fail(p.at-1, BadSyntax, "after a comma there must be decimals, as in 4,5")
			return quantity{}
		case n == 3 && digits <= 3 && p.in[start] != '0':
			p.fail(p.at-1, BadSyntax, "three figures after a comma may be thousands or decimals: write a decimal point, or no comma")
			return quantity{}
		}
		return p.decimals(start, whole, digits)
	}
	if p.take("/", "\u2044") {
		q := p.below(start, whole)
		return p.ended(q)
	}
	if f, ok := p.vulgar(); ok {
		return p.ended(p.mixed(start, whole, f))
	}
	// A hyphen or a space may join a fraction to the whole number, but both
	// may also end it, so look before stepping.
	mark := p.at
	joined := p.take("-") || p.space()
	if !joined {
		return p.ended(quantity{num: whole, den: 1})
	}
	if f, ok := p.vulgar(); ok {
		return p.ended(p.mixed(start, whole, f))
	}
	if r, _ := p.peek(); isDigit(r) {
		at := p.at
		num, _ := p.digits()
		if p.take("/", "\u2044") {
			f := p.below(at, num)
			if p.err == nil && f.num >= f.den {
				p.fail(at, BadSyntax, "a fraction beside a whole number must be below one")
			}
			return p.ended(p.mixed(start, whole, f))
		}
		p.fail(at, BadSyntax, "a fraction must follow a whole number, as in 4 1/2")
		return quantity{}
	}
	p.at = mark
	return p.ended(quantity{num: whole, den: 1})
}

// vulgar reads a fraction that is one sign.
func (p *parser) vulgar() (quantity, bool) {
	r, n := p.peek()
	f, ok := vulgar(r)
	if ok {
		p.at += n
	}
	return f, ok
}

// ended refuses what may not follow a complete number.
func (p *parser) ended(q quantity) quantity {
	if p.err != nil {
		return quantity{}
	}
	r, _ := p.peek()
	_, fraction := vulgar(r)
	switch {
	case fraction, isDigit(r), r == '/', r == '\u2044', r == '.', r == ',':
		p.fail(p.at, BadSyntax, "the number is complete before this")
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
		p.fail(at, BadSyntax, "a fraction needs a whole number below the line")
	case den == 0:
		p.fail(at, BadSyntax, "a fraction must not have 0 below the line")
	case den > 1_000_000_000:
		p.fail(start, BeyondLimits, "too many digits in a fraction")
	}
	if p.err != nil {
		return quantity{}
	}
	return quantity{num: num, den: den}
}

func (p *parser) mixed(start int, whole uint64, f quantity) quantity {
	if p.err != nil {
		return quantity{}
	}
	if whole > (math.MaxUint64-f.num)/f.den {
		p.fail(start, BeyondLimits, "too long")
		return quantity{}
	}
	return quantity{num: whole*f.den + f.num, den: f.den}
}

// digits reads a whole number and says how many digits it had.
func (p *parser) digits() (n uint64, count int) {
	start := p.at
	for p.at < len(p.in) && isDigit(rune(p.in[p.at])) {
		d := uint64(p.in[p.at] - '0')
		if n > (math.MaxUint64-d)/10 {
			p.fail(start, BeyondLimits, "too many digits")
			return 0, 0
		}
		n = n*10 + d
		p.at++
	}
	return n, p.at - start
}

func (p *parser) decimals(start int, whole uint64, before int) quantity {
	q := quantity{num: whole, den: 1, point: true}
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
			if q.den >= 1_000_000_000_000 || q.num > (math.MaxUint64-9)/10 {
				p.fail(start, Inexact, "more digits than can be kept exactly")
				return quantity{}
			}
			q.num, q.den = q.num*10, q.den*10
		}
		q.num += d
		zeros = 0
	}
	if before+after == 0 {
		p.fail(start, BadSyntax, "a number must stand here")
		return quantity{}
	}
	return p.ended(q)
}

// lengthUnits are the names of units, those first that begin with another one.
var lengthUnits = [...]struct {
	name string // in lower case
	unit Length
}{
	{"inches", Inch}, {"inch", Inch}, {"in.", Inch}, {"in", Inch},
	{"\"", Inch}, {"″", Inch}, {"”", Inch}, {"''", Inch}, {"′′", Inch},
	{"feet", Foot}, {"foot", Foot}, {"ft.", Foot}, {"ft", Foot}, {"'", Foot}, {"′", Foot}, {"’", Foot},
	{"millimetres", Millimetre}, {"millimeters", Millimetre}, {"millimetre", Millimetre}, {"millimeter", Millimetre}, {"mm", Millimetre},
	{"centimetres", Centimetre}, {"centimeters", Centimetre}, {"centimetre", Centimetre}, {"centimeter", Centimetre}, {"cm", Centimetre},
	{"micrometres", Micrometre}, {"micrometers", Micrometre}, {"micrometre", Micrometre}, {"micrometer", Micrometre},
	{"µm", Micrometre}, {"μm", Micrometre}, {"um", Micrometre}, // the micro sign and the Greek letter
	{"nanometres", Nanometre}, {"nanometers", Nanometre}, {"nanometre", Nanometre}, {"nanometer", Nanometre}, {"nm", Nanometre},
	{"points", Thou}, {"point", Thou}, {"pts", Thou}, {"pt.", Thou}, {"pt", Thou}, {"thou", Thou}, {"mils", Thou}, {"mil", Thou},
	{"metres", Metre}, {"meters", Metre}, {"metre", Metre}, {"meter", Metre}, {"m", Metre},
}

// unit reads a unit of length; 0 if none stands here.
func (p *parser) unit() Length {
	at := p.at
	for i := range lengthUnits {
		if !p.word(lengthUnits[i].name) {
			continue
		}
		// "inn" or "mmm" is a slip, not a unit with something behind it; "x" and
		// "by" may follow a unit in a size.
		if r, _ := p.peek(); isLetter(r) && !beginsBy(r) {
			break
		}
		return lengthUnits[i].unit
	}
	p.at = at
	return 0
}

// beginsBy reports whether a letter may begin the x or by of a size.
func beginsBy(r rune) bool { return r|0x20 == 'x' || r|0x20 == 'b' }

func isLetter(r rune) bool { return 'a' <= r && r <= 'z' || 'A' <= r && r <= 'Z' }
