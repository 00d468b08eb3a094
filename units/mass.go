package units

import (
	"math"
	"math/bits"
	"strconv"
)

// A Mass is a weight in whole micrograms.
type Mass int64

// Units of mass. The avoirdupois pound is 0.45359237 kg exactly and has 16
// ounces (NIST SP 811, appendix B.8); an ounce is therefore rounded here to
// the microgram, from 28.349523125 g.
const (
	Microgram Mass = 1                       // 10⁻⁶ g, the least mass
	Milligram      = 1000 * Microgram        // 10⁻³ g
	Gram           = 1000 * Milligram        // 1 g
	Kilogram       = 1000 * Gram             // 1000 g
	Pound          = 453_592_370 * Microgram // avoirdupois, 453.59237 g
	Ounce          = 28_349_523 * Microgram  // avoirdupois, 28.349523 g: a sixteenth of a pound, rounded
)

// Grams returns the mass in grams as a float64.
func (m Mass) Grams() float64 { return float64(m) / float64(Gram) }

// Ounces returns the mass in avoirdupois ounces as a float64.
func (m Mass) Ounces() float64 { return float64(m) * 16 / float64(Pound) }

// String returns the mass in grams, exactly: "12.5 g".
func (m Mass) String() string { return string(m.Append(make([]byte, 0, 24))) }

// Append appends the text of [Mass.String].
func (m Mass) Append(dst []byte) []byte {
	if m < 0 {
		dst = append(dst, '-')
	}
	return append(appendDecimal(dst, magnitude(int64(m)), uint64(Gram)), " g"...)
}

// A Grammage is the mass of a sheet material by area, in whole milligrams per
// square metre.
type Grammage int64

// GramPerSquareMetre is 1 g/m².
const GramPerSquareMetre Grammage = 1000

// String returns the grammage in g/m², exactly: "120 g/m²".
func (g Grammage) String() string { return string(g.Append(make([]byte, 0, 24))) }

// Append appends the text of [Grammage.String].
func (g Grammage) Append(dst []byte) []byte {
	if g < 0 {
		dst = append(dst, '-')
	}
	n := magnitude(int64(g))
	dst = strconv.AppendUint(dst, n/1000, 10)
	if n%1000 != 0 {
		dst = append(dst, '.')
		dst = trimZeros(appendPadded(dst, n%1000, 3))
	}
	return append(dst, " g/m²"...)
}

// Mass returns the mass of an area of the material, rounded to the nearest
// microgram, halves away from zero. A mass that does not fit, above 9.2
// million tonnes, becomes the largest.
func (g Grammage) Mass(a Area) Mass {
	negative := (g < 0) != (a.hi < 0)
	if a.hi < 0 {
		a = a.neg()
	}
	// mg/m² × nm² = 10⁻¹⁸ mg = 10⁻¹⁵ µg. The product has up to 191 bits: its
	// upper 128 are divided first.
	const unit = 1_000_000_000_000_000
	m := magnitude(int64(g))
	carry, low := bits.Mul64(a.lo, m)
	top, middle := bits.Mul64(uint64(a.hi), m)
	middle, c := bits.Add64(middle, carry, 0)
	top += c
	q := uint64(math.MaxInt64)
	if top == 0 && middle < unit {
		n, rem := bits.Div64(middle, low, unit)
		if rem >= unit-rem && n < math.MaxUint64 {
			n++
		}
		q = min(n, q)
	}
	if negative {
		return -Mass(q)
	}
	return Mass(q)
}

// Basic sizes, in which the trade of the United States states the weight of a
// ream of 500 sheets (PrintWiki, "Basic size").
const (
	Bond    BasicSize = iota // 17 x 22 in, writing papers
	Text                     // 25 x 38 in, book papers
	Cover                    // 20 x 26 in
	Index                    // 25 1/2 x 30 1/2 in
	Bristol                  // 22 1/2 x 28 1/2 in
	Tag                      // 24 x 36 in
)

// A BasicSize is the sheet size that a basis weight refers to.
type BasicSize uint8

// Size returns the sheet; an unknown basic size has none.
func (b BasicSize) Size() Size {
	half := Inch / 2
	switch b {
	case Bond:
		return Size{17 * Inch, 22 * Inch}
	case Text:
		return Size{25 * Inch, 38 * Inch}
	case Cover:
		return Size{20 * Inch, 26 * Inch}
	case Index:
		return Size{25*Inch + half, 30*Inch + half}
	case Bristol:
		return Size{22*Inch + half, 28*Inch + half}
	case Tag:
		return Size{24 * Inch, 36 * Inch}
	}
	return Size{}
}

// BasisWeight converts the weight of a ream of 500 sheets of the given size
// to a grammage: g/m² = lb × 45359237/32258 ÷ (w·h in square inches), which
// follows from the pound and the inch (PrintWiki, "Grammage"). The result is
// rounded to the nearest mg/m². Mills round their nominal values further, by
// up to 1.5 % (US Government Paper Specification Standards No. 11, 1999). It
// is 0 when the ream weighs nothing, the sheet is empty or more than 18 m²,
// or the result does not fit.
func BasisWeight(ream Mass, sheet Size) Grammage {
	a := sheet.Area()
	if ream <= 0 || sheet.Empty() || a.hi != 0 {
		return 0
	}
	// µg ÷ (500 × nm²) = ream × 2·10¹² / area mg/m².
	hi, lo := bits.Mul64(uint64(ream), 2_000_000_000_000)
	lo, carry := bits.Add64(lo, a.lo/2, 0)
	hi += carry
	if hi >= a.lo {
		return 0
	}
	q, _ := bits.Div64(hi, lo, a.lo)
	if q > math.MaxInt64 {
		return 0
	}
	return Grammage(q)
}
