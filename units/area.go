package units

import (
	"math"
	"math/bits"
	"strconv"
)

// An Area is a whole number of square nanometres in 128 bits, so that the
// product of any two lengths and the sum of millions of sheets fit exactly.
// The zero value is no area; areas may be compared with ==.
type Area struct {
	hi int64
	lo uint64
}

// By returns the area of a rectangle l by m. The sign is that of the product.
func (l Length) By(m Length) Area {
	hi, lo := bits.Mul64(magnitude(int64(l)), magnitude(int64(m)))
	a := Area{int64(hi), lo}
	if (l < 0) != (m < 0) {
		return a.neg()
	}
	return a
}

func (a Area) neg() Area {
	lo, borrow := bits.Sub64(0, a.lo, 0)
	return Area{int64(-uint64(a.hi) - borrow), lo}
}

func magnitude(n int64) uint64 {
	if n < 0 {
		return -uint64(n)
	}
	return uint64(n)
}

// Plus returns a + b.
func (a Area) Plus(b Area) Area {
	lo, carry := bits.Add64(a.lo, b.lo, 0)
	hi, _ := bits.Add64(uint64(a.hi), uint64(b.hi), carry)
	return Area{int64(hi), lo}
}

// Minus returns a − b.
func (a Area) Minus(b Area) Area { return a.Plus(b.neg()) }

// Times returns n areas. The result is exact up to 1.7·10³⁸ nm², which is
// 1.7·10¹⁴ km².
func (a Area) Times(n int64) Area {
	m := magnitude(n)
	p := a
	negative := n < 0
	if p.hi < 0 {
		p, negative = p.neg(), !negative
	}
	carry, lo := bits.Mul64(p.lo, m)
	r := Area{int64(uint64(p.hi)*m + carry), lo}
	if negative {
		return r.neg()
	}
	return r
}

// Scale returns a·num/den rounded to a whole square nanometre in direction d,
// and whether nothing was lost. A den of 0 or a result out of range gives 0 and
// false. The product is held in 192 bits.
func (a Area) Scale(num, den int64, d Direction) (scaled Area, exact bool) {
	negative := (a.hi < 0) != (num < 0) != (den < 0)
	if a.hi < 0 {
		a = a.neg() // the lowest value stays as it is and is read unsigned
	}
	m, div := magnitude(num), magnitude(den)
	carry, t0 := bits.Mul64(a.lo, m)
	t2, t1 := bits.Mul64(uint64(a.hi), m)
	t1, c := bits.Add64(t1, carry, 0)
	t2 += c
	if t2 >= div { // a den of 0 too
		return Area{}, false
	}
	q1, rem := bits.Div64(t2, t1, div)
	q0, rem := bits.Div64(rem, t0, div)
	if rem != 0 && awayFromZero(d, negative, rem, div) {
		q0, c = bits.Add64(q0, 1, 0)
		q1 += c // 2⁶⁴−1 would not fit below either
	}
	if q1 > math.MaxInt64 && !(negative && q1 == 1<<63 && q0 == 0) {
		return Area{}, false
	}
	scaled = Area{int64(q1), q0}
	if negative {
		scaled = scaled.neg()
	}
	return scaled, rem == 0
}

// Compare returns −1, 0 or +1 as a is smaller than, equal to or larger than
// b.
//
//go:noinline
func (a Area) Compare(b Area) int {
	switch {
	case a == b:
		return 0
	case a.hi < b.hi, a.hi == b.hi && a.lo < b.lo:
		return -1
	}
	return 1
}

// Sign returns −1, 0 or +1.
func (a Area) Sign() int { return a.Compare(Area{}) }

// SquareMillimetres returns the area in mm² as a float64, rounded.
func (a Area) SquareMillimetres() float64 { return a.float() / 1e12 }

// SquareInches returns the area in square inches as a float64, rounded.
func (a Area) SquareInches() float64 { return a.float() / (float64(Inch) * float64(Inch)) }

// SquareMetres returns the area in m² as a float64, rounded.
func (a Area) SquareMetres() float64 { return a.float() / 1e18 }

func (a Area) float() float64 {
	if a.hi < 0 {
		// Negated first: the two halves of a small negative area would cancel.
		a = a.neg()
		return -(float64(uint64(a.hi))*(1<<64) + float64(a.lo))
	}
	return float64(a.hi)*(1<<64) + float64(a.lo)
}

// Quotient returns how many times b goes into a, as a float64 for ratios such
// as the share of a sheet that is used. A zero b gives 0.
func (a Area) Quotient(b Area) float64 {
	if b.Sign() == 0 {
		return 0
	}
	return a.float() / b.float()
}

// String returns the area in mm², exactly: at most twelve decimals, without
// trailing zeros, as in "12.5 mm²".
func (a Area) String() string { return string(a.Append(make([]byte, 0, 48))) }

// Append appends the text of [Area.String] to dst.
func (a Area) Append(dst []byte) []byte {
	if a.hi < 0 {
		dst = append(dst, '-')
		a = a.neg() // the lowest value stays as it is; divide reads it unsigned
	}
	// 10¹² nm² make a mm²: twelve digits to a group, the first group from the
	// right being the decimals.
	var groups [4]uint64
	n := 0
	for n < 2 || a != (Area{}) {
		a, groups[n] = a.divide(1_000_000_000_000)
		n++
	}
	dst = strconv.AppendUint(dst, groups[n-1], 10)
	for i := n - 2; i > 0; i-- {
		dst = appendPadded(dst, groups[i], 12)
	}
	if groups[0] > 0 {
		dst = append(dst, '.')
		dst = trimZeros(appendPadded(dst, groups[0], 12))
	}
	return append(dst, " mm²"...)
}

// divide returns the quotient and the remainder by d of an area read as
// unsigned.
func (a Area) divide(d uint64) (Area, uint64) {
	hi := uint64(a.hi) / d
	lo, rem := bits.Div64(uint64(a.hi)%d, a.lo, d)
	return Area{int64(hi), lo}, rem
}

func appendPadded(dst []byte, n uint64, width int) []byte {
	for limit := uint64(10); width > 1; width-- {
		if n < limit {
			for ; width > 1; width-- {
				dst = append(dst, '0')
			}
			break
		}
		limit *= 10
	}
	return strconv.AppendUint(dst, n, 10)
}

func trimZeros(dst []byte) []byte {
	n := len(dst)
	for n > 0 && dst[n-1] == '0' {
		n--
	}
	return dst[:n]
}
