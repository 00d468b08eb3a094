package packing

import "math/bits"

// Area is an exact area: Hi × 2⁶⁴ + Lo square units.
type Area struct{ Hi, Lo uint64 }

// mulArea returns a × b for a and b not negative.
func mulArea(a, b int64) Area {
	hi, lo := bits.Mul64(uint64(a), uint64(b))
	return Area{hi, lo}
}

// Add returns a + b modulo 2¹²⁸.
func (a Area) Add(b Area) Area {
	lo, c := bits.Add64(a.Lo, b.Lo, 0)
	hi, _ := bits.Add64(a.Hi, b.Hi, c)
	return Area{hi, lo}
}

// Sub returns a − b modulo 2¹²⁸.
func (a Area) Sub(b Area) Area {
	lo, c := bits.Sub64(a.Lo, b.Lo, 0)
	hi, _ := bits.Sub64(a.Hi, b.Hi, c)
	return Area{hi, lo}
}

// Times returns n × a modulo 2¹²⁸.
func (a Area) Times(n uint64) Area {
	hi, lo := bits.Mul64(a.Lo, n)
	return Area{hi + a.Hi*n, lo}
}

// Cmp returns −1, 0 or +1 as a is less than, equal to or greater than b.
func (a Area) Cmp(b Area) int {
	switch {
	case a.Hi < b.Hi || a.Hi == b.Hi && a.Lo < b.Lo:
		return -1
	case a == b:
		return 0
	}
	return 1
}
