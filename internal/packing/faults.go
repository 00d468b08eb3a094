package packing

import "strconv"

// Fault is one thing wrong with a [Problem].
type Fault struct {
	// Field is a path as in "Items[3].W"; Code one of the Bad… constants.
	Field, Code string
	// Got is the value; Min and Max are what would do.
	Got, Min, Max int64
}

// Codes of a [Fault].
const (
	BadRange = "range" // the value is not from Min to Max
	BadTotal = "total" // the pieces add up to more than MaxPieces
	BadCount = "count" // too many kinds
)

// Faults is the error of [Solve]: everything wrong with the problem, in the
// order of its fields.
type Faults []Fault

// Error lists the faults.
func (f Faults) Error() string {
	s := "packing: "
	for i, x := range f {
		if i > 0 {
			s += "; "
		}
		s += x.Field + " is " + strconv.FormatInt(x.Got, 10) + ", not from " +
			strconv.FormatInt(x.Min, 10) + " to " + strconv.FormatInt(x.Max, 10)
	}
	return s
}

// in adds a fault where v is not from lo to hi.
//
//go:noinline
func (f *Faults) in(field, code string, v, lo, hi int64) {
	if v < lo || v > hi {
		*f = append(*f, Fault{field, code, v, lo, hi})
	}
}

// Validate returns nil or [Faults].
func (p Problem) Validate() error {
	var fs Faults
	fs.in("len(Items)", BadCount, int64(len(p.Items)), 0, MaxKinds)
	fs.in("len(Stock)", BadCount, int64(len(p.Stock)), 0, MaxKinds)
	total := int64(0)
	for i, it := range p.Items {
		at := "Items[" + strconv.Itoa(i) + "]."
		fs.in(at+"W", BadRange, it.W, 1, MaxSide)
		fs.in(at+"H", BadRange, it.H, 1, MaxSide)
		fs.in(at+"Copies", BadRange, int64(it.Copies), 0, MaxPieces)
		if it.Copies > 0 && total <= MaxPieces {
			total += int64(it.Copies)
		}
	}
	fs.in("sum of Copies", BadTotal, total, 0, MaxPieces)
	for i, s := range p.Stock {
		at := "Stock[" + strconv.Itoa(i) + "]."
		fs.in(at+"W", BadRange, s.W, 1, MaxSide)
		fs.in(at+"H", BadRange, s.H, 1, MaxSide)
		fs.in(at+"Count", BadRange, int64(s.Count), Unlimited, 1<<31-1)
		fs.in(at+"Cost", BadRange, s.Cost, 0, MaxCost)
		fs.in(at+"Trim", BadRange, s.Trim, 0, MaxSide)
	}
	fs.in("Kerf", BadRange, p.Kerf, 0, MaxSide)
	fs.in("LongestCut", BadRange, p.LongestCut, 0, MaxSide)
	fs.in("KeepShort", BadRange, p.KeepShort, 0, MaxSide)
	fs.in("KeepLong", BadRange, p.KeepLong, 0, MaxSide)
	if fs == nil {
		return nil
	}
	return fs
}
