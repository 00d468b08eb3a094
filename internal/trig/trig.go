// Package trig writes irrational parts, such as sines, as fractions of whole numbers.
package trig

import "math"

// scale is that of the whole numbers. A float64 carries a sine to better than
// 10⁻¹⁵, so a part of any length of a plan is right to the nanometre, and the
// rounding to the scale makes the sine of a right angle and its like exact.
const scale = 1_000_000_000_000_000

// Fraction returns a part as a fraction.
func Fraction(part float64) (num, den int64) { return int64(math.Round(part * scale)), scale }
