package units

import "strconv"

// A Format says how lengths are written: on which ruler, in its notation, in
// plain ASCII (5 3/4 in) or with typographic signs (5¾″). The zero Format
// writes millimetres exactly.
//
// A length that is not a graduation of the ruler is written as the nearest
// one, halves away from zero, and marked as rounded: ~5 3/4 in, or ≈5¾″. A
// text without the mark is exact, and [Parse] ([ParseIn] for a bare one) reads
// it back to the same length. On an exact ruler for inches ([Notation.Exact]) a
// length without an exact text in inches is written in millimetres, with the
// unit even if Bare. An invalid ruler counts as the zero Ruler.
// [None] is "none" on every ruler.
//
// With a Second ruler the length follows once more in parentheses, for people
// who share a plan and not a ruler: 6 in (152.4 mm). Such a text is for reading
// only.
type Format struct {
	Ruler       Ruler // on whose graduations lengths are written, and in whose notation
	Second      Ruler // on whose graduations they are written once more; 0 for not at all
	Typographic bool  // ½, ″, ×, − and ≈ instead of ASCII
	Bare        bool  // leave the unit out
}

// halves returns the format without the second ruler, and that for the text in
// parentheses.
func (f Format) halves() (first, second Format) {
	second = Format{Ruler: f.Second, Typographic: f.Typographic, Bare: f.Bare}
	f.Second = 0
	return f, second
}

// Text returns l written by the format.
func (f Format) Text(l Length) string {
	var buf [48]byte
	return string(f.Append(buf[:0], l))
}

// Append appends l written by the format. It allocates only to grow dst.
func (f Format) Append(dst []byte, l Length) []byte { return f.rounded(dst, l, Nearest) }

// AppendAtMost appends l as [Format.Append] does, but of a length that is no
// graduation the one below it, marked as rounded: what is to spare is so never told as
// more than there is. What is less than a graduation is told on a finer ruler; see
// [Ruler.Finer].
func (f Format) AppendAtMost(dst []byte, l Length) []byte { return f.rounded(dst, l, Down) }

// AppendAtLeast is [Format.AppendAtMost] the other way: of a length that is no
// graduation it appends the one above it, so that what is lacking is never told as less
// than it is.
func (f Format) AppendAtLeast(dst []byte, l Length) []byte { return f.rounded(dst, l, Up) }

// rounded appends l rounded in direction d.
func (f Format) rounded(dst []byte, l Length, d Direction) []byte {
	if l == None {
		return append(dst, "none"...)
	}
	if f.Second != 0 {
		first, second := f.halves()
		return append(second.rounded(append(first.rounded(dst, l, d), " ("...), l, d), ')')
	}
	if f.fallsBack(l) {
		f.Ruler, f.Bare = 0, false
	}
	if f.Ruler.Notation() != MetricDecimal {
		switch {
		case !f.Ruler.Valid():
			f.Ruler = 0 // no text of another notation need be exact on it
		case f.Ruler&stepMask != 0:
		case f.Ruler.Notation() == InchFraction && SixtyFourths.Has(l):
			f.Ruler = SixtyFourths
		default:
			return f.appendInches(dst, l)
		}
	}
	r := f.Ruler.Round(l, d)
	for d != Nearest && l > 0 && f.Ruler.Down(l) <= 0 {
		finer := f.Ruler.Finer()
		if finer == f.Ruler {
			break
		}
		f.Ruler = finer
		r = finer.Round(l, d)
	}
	if !r.Exact() {
		dst = appendRoundedMark(dst, f.Typographic)
	}
	if f.Ruler.Notation() == InchDecimal {
		return f.appendInches(dst, r.To)
	}
	dst = f.appendSign(dst, r.To)
	n := magnitude(int64(r.To))
	if f.Ruler.Notation() == InchFraction {
		dst = f.appendFraction(dst, n)
	} else {
		dst = appendDecimal(dst, n, uint64(Millimetre))
	}
	return f.appendUnit(dst)
}

// String returns the length in millimetres, exactly: "140.5 mm". [None] is
// "none".
//
//go:noinline
func (l Length) String() string { return Format{}.Text(l) }

// fallsBack reports whether a format for inches writes l in millimetres, with
// its unit, because inches have no exact text for it.
func (f Format) fallsBack(l Length) bool {
	return f.Ruler.Notation() != MetricDecimal && f.Ruler&stepMask == 0 && f.Ruler.Valid() && !exactMillionths(l)
}

// exactMillionths reports whether a length is a whole number of millionths of an
// inch, as every 64th is.
func exactMillionths(l Length) bool {
	_, exact := l.Scale(1_000_000, int64(Inch), Down)
	return exact
}

// appendInches appends l in decimals.
func (f Format) appendInches(dst []byte, l Length) []byte {
	dst = f.appendSign(dst, l)
	return f.appendUnit(appendDecimal(dst, magnitude(int64(l)), uint64(Inch)))
}

func (f Format) appendSign(dst []byte, l Length) []byte {
	switch {
	case l >= 0:
		return dst
	case f.Typographic:
		return append(dst, "−"...)
	}
	return append(dst, '-')
}

func appendRoundedMark(dst []byte, typographic bool) []byte {
	if typographic {
		return append(dst, "≈"...)
	}
	return append(dst, '~')
}

func (f Format) appendUnit(dst []byte) []byte {
	switch inches := f.Ruler.Notation() != MetricDecimal; {
	case f.Bare:
		return dst
	case inches && f.Typographic:
		return append(dst, "″"...)
	case inches:
		return append(dst, " in"...)
	case f.Typographic:
		return append(dst, "\u00a0mm"...)
	}
	return append(dst, " mm"...)
}

// appendDecimal writes n/unit with as many decimals as it takes; a graduation
// of a valid ruler never takes more than six.
func appendDecimal(dst []byte, n, unit uint64) []byte {
	dst = strconv.AppendUint(dst, n/unit, 10)
	// The remainder is below an inch, 2.54·10⁷ nm: no overflow.
	millionths := n % unit * 1_000_000 / unit
	if millionths == 0 {
		return dst
	}
	dst = append(dst, '.')
	return trimZeros(appendPadded(dst, millionths, 6))
}

func (f Format) appendFraction(dst []byte, n uint64) []byte {
	whole, rest := n/uint64(Inch), n%uint64(Inch)
	if rest == 0 {
		return strconv.AppendUint(dst, whole, 10)
	}
	g := gcd(rest, uint64(Inch))
	num, den := rest/g, uint64(Inch)/g
	if whole > 0 {
		dst = strconv.AppendUint(dst, whole, 10)
	}
	if f.Typographic {
		for _, v := range vulgarFractions {
			if v.num == num && v.den == den {
				return append(dst, v.text...)
			}
		}
		if whole > 0 {
			dst = append(dst, "\u00a0"...)
		}
		dst = strconv.AppendUint(dst, num, 10)
		dst = append(dst, "\u2044"...)
		return strconv.AppendUint(dst, den, 10)
	}
	if whole > 0 {
		dst = append(dst, ' ')
	}
	dst = strconv.AppendUint(dst, num, 10)
	dst = append(dst, '/')
	return strconv.AppendUint(dst, den, 10)
}

// vulgarFractions are the fractions that Unicode has one sign for.
var vulgarFractions = [...]struct {
	sign     rune
	text     string
	num, den uint64
}{
	{'½', "½", 1, 2}, {'¼', "¼", 1, 4}, {'¾', "¾", 3, 4},
	{'⅛', "⅛", 1, 8}, {'⅜', "⅜", 3, 8}, {'⅝', "⅝", 5, 8}, {'⅞', "⅞", 7, 8},
	{'⅓', "⅓", 1, 3}, {'⅔', "⅔", 2, 3}, {'⅙', "⅙", 1, 6}, {'⅚', "⅚", 5, 6},
	{'⅕', "⅕", 1, 5}, {'⅖', "⅖", 2, 5}, {'⅗', "⅗", 3, 5}, {'⅘', "⅘", 4, 5},
	{'⅐', "⅐", 1, 7}, {'⅑', "⅑", 1, 9}, {'⅒', "⅒", 1, 10},
}

func gcd(a, b uint64) uint64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// Size returns s written by the format, as in "6 x 8 in" or
// "5¾″ × 7¾″". Where the two sides cannot be written in the same unit each has
// its own: "5 3/4 in x 110 mm". [ParseSize] ([ParseSizeIn] for a bare one) reads
// what has no mark of rounding and no second text back to the same size.
//
//go:noinline
func (f Format) Size(s Size) string {
	var buf [96]byte
	return string(f.AppendSize(buf[:0], s))
}

// AppendSize appends the text of [Format.Size].
func (f Format) AppendSize(dst []byte, s Size) []byte {
	if f.Second != 0 {
		first, second := f.halves()
		return append(second.AppendSize(append(first.AppendSize(dst, s), " ("...), s), ')')
	}
	first := f
	switch {
	case f.fallsBack(s.W) != f.fallsBack(s.H):
		f.Bare, first.Bare = false, false
	case !f.Typographic && s.H != None: // the second has the unit of both
		first.Bare = true
	}
	if f.fallsBack(s.W) && f.fallsBack(s.H) { // both in millimetres, the unit once
		first.Ruler, f.Ruler, f.Bare = 0, 0, false
	}
	dst = first.Append(dst, s.W)
	if f.Typographic {
		dst = append(dst, " × "...)
	} else {
		dst = append(dst, " x "...)
	}
	return f.Append(dst, s.H)
}

// Text returns l on the ruler in its notation; see [Format].
func (r Ruler) Text(l Length) string { return Format{Ruler: r}.Text(l) }

// String returns the step in the notation of the ruler: "1/16 in", "0.005 in",
// "0.5 mm". A whole number of inches in decimal notation has a decimal, "1.0
// in", to tell it from "1 in", a ruler for fractions. The exact rulers are
// "exact" (the zero Ruler), "exact inch fractions" and "exact inch decimals";
// an invalid ruler is "invalid ruler".
func (r Ruler) String() string {
	text, err := r.AppendText(make([]byte, 0, 24))
	if err != nil {
		return "invalid ruler"
	}
	return string(text)
}

// AppendText appends the text of [Ruler.String]. The error is ErrRuler for an
// invalid ruler; dst is then returned as it was.
func (r Ruler) AppendText(dst []byte) ([]byte, error) {
	switch {
	case !r.Valid():
		return dst, ErrRuler
	case r&stepMask == 0:
		return append(dst, exactTexts[r.Notation()]...), nil
	case r.Notation() == InchDecimal && r.Step()%Inch == 0:
		return append(Format{Ruler: r, Bare: true}.Append(dst, r.Step()), ".0 in"...), nil
	}
	return Format{Ruler: r}.Append(dst, r.Step()), nil
}

// exactTexts name the exact rulers, by notation.
var exactTexts = [...]string{MetricDecimal: "exact", InchFraction: "exact inch fractions", InchDecimal: "exact inch decimals"}
