package units

import (
	"errors"
	"math"
)

// A Notation is the way a length is written down.
type Notation uint8

// Notations.
const (
	MetricDecimal Notation = iota // 140.5 mm
	InchFraction                  // 5 3/4 in
	InchDecimal                   // 5.75 in
)

// A Ruler is a graduation together with the notation its lengths are written
// in. The zero Ruler has graduations of 1 nm and writes millimetres: on it
// every length is exact. Rulers are comparable.
type Ruler int64

const (
	notationShift       = 56
	stepMask      Ruler = 1<<notationShift - 1
	inFractions         = Ruler(InchFraction) << notationShift
	inDecimals          = Ruler(InchDecimal) << notationShift
)

// The usual rulers.
const (
	Eighths          = Ruler(Inch/8) | inFractions  // 1/8 in
	Sixteenths       = Ruler(Inch/16) | inFractions // 1/16 in
	ThirtySeconds    = Ruler(Inch/32) | inFractions // 1/32 in
	SixtyFourths     = Ruler(Inch/64) | inFractions // 1/64 in
	Thousandths      = Ruler(Thou) | inDecimals     // 0.001 in
	WholeMillimetres = Ruler(Millimetre)            // 1 mm
	HalfMillimetres  = Ruler(Millimetre / 2)        // 0.5 mm
	TenthMillimetres = Ruler(Millimetre / 10)       // 0.1 mm
)

// Exact returns the ruler of the notation on which every length is a
// graduation: it rounds nothing. A length that the notation has no exact text
// for is written in millimetres; see [Notation.Append]. MetricDecimal gives the
// zero Ruler.
//
//go:noinline
func (n Notation) Exact() Ruler { return Ruler(n) << notationShift }

// Fine returns the ruler on which the notation tells what is cut to none, as the size
// of a closed folio that follows from calipers: 1/64 in, 0.001 in or 0.1 mm.
func (n Notation) Fine() Ruler {
	switch n {
	case MetricDecimal:
		return TenthMillimetres
	case InchDecimal:
		return Thousandths
	}
	return SixtyFourths
}

// Choose returns what goes with the notation: a number of inches, or with
// [MetricDecimal] the one of millimetres that is taken in its place.
func (n Notation) Choose(inch, metric Length) Length {
	if n == MetricDecimal {
		return metric
	}
	return inch
}

// ErrRuler is returned for a step that cannot be a graduation: not between 1
// nm and [Longest], or one that the notation cannot write exactly.
var ErrRuler = errors.New("units: no such ruler")

// NewRuler returns a ruler with the given step. In InchFraction the step must
// divide an inch, or an inch the step, without remainder; in InchDecimal the
// step must be a whole number of millionths of an inch, or 1 nm. A step of 1 nm
// in inches gives the exact ruler of the notation, [Notation.Exact], and there is
// no other; in millimetres it gives a ruler that rounds as little as the zero
// Ruler does and can be told from it, for a field where zero means a default.
func NewRuler(step Length, n Notation) (Ruler, error) {
	if step < 1 || step > Longest || n > InchDecimal {
		return 0, ErrRuler
	}
	if step == 1 && n != MetricDecimal {
		return n.Exact(), nil
	}
	if n == InchFraction && Inch%step != 0 && step%Inch != 0 {
		return 0, ErrRuler
	}
	if n == InchDecimal && (step*1_000_000)%Inch != 0 {
		return 0, ErrRuler
	}
	return Ruler(step) | Ruler(n)<<notationShift, nil
}

// Valid reports whether r could have come from [NewRuler] or [Notation.Exact].
// A ruler made by a plain conversion may not.
func (r Ruler) Valid() bool {
	if r&stepMask == 0 {
		return r.Notation() <= InchDecimal
	}
	made, err := NewRuler(Length(r&stepMask), Notation(uint8(r>>notationShift)))
	return err == nil && made == r
}

// Step returns the distance between two graduations; 1 nm on an exact ruler.
func (r Ruler) Step() Length { return max(Length(r&stepMask), 1) }

// Notation returns the way lengths on r are written.
func (r Ruler) Notation() Notation { return Notation(uint8(r >> notationShift)) }

// Finer returns the next finer ruler of the same notation, or r itself where there is
// none: that with half the step, and in millimetres that with a fifth of one that is five
// of a decimal unit, so that 1 mm is followed by 0.5, 0.1, 0.05 and 0.01 mm.
func (r Ruler) Finer() Ruler {
	parts := Length(2)
	if r.Notation() == MetricDecimal {
		five := r.Step()
		for five%10 == 0 {
			five /= 10
		}
		if five == 5 {
			parts = 5
		}
	}
	if r.Step()%parts == 0 {
		if f, err := NewRuler(r.Step()/parts, r.Notation()); err == nil {
			return f
		}
	}
	return r
}

// A Rounded is a length as it was and as it stands on a ruler. It is plain data.
type Rounded struct {
	From      Length    // as it was
	To        Length    // as it stands on the ruler
	Ruler     Ruler     // the ruler
	Direction Direction // the way it was rounded
	inexact   bool      // even where From is To: see Exact
}

// Exact reports whether rounding changed nothing: To is a graduation and equals
// the exact length. It is false, although To equals From, for a share that lies
// between two nanometres ([Ledger.Share]) and at the ends of int64, off the
// last graduation.
func (r Rounded) Exact() bool { return r.From == r.To && !r.inexact }

// Residue returns To − From: what rounding added, negative if it took away.
func (r Rounded) Residue() Length { return r.To - r.From }

// Equal reports whether r == s. It makes the type comparable with go-cmp.
func (r Rounded) Equal(s Rounded) bool { return r == s }

// Round returns l on the ruler, rounded in direction d. Within a step of the
// ends of int64, where the graduation asked for does not exist, the result is
// the last length there is.
func (r Ruler) Round(l Length, d Direction) Rounded {
	to, inexact := r.round(l, d)
	return Rounded{From: l, To: to, Ruler: r, Direction: d, inexact: inexact}
}

// round returns l as [Ruler.Round] rounds it, and whether there is no such
// graduation.
func (r Ruler) round(l Length, d Direction) (to Length, inexact bool) {
	step := r.Step()
	if step == 1 {
		return l, false // no need to divide
	}
	over := l % step // has the sign of l
	if over == 0 {
		return l, false
	}
	if over < 0 {
		over += step
	}
	// over is now the way back to the graduation below, between 1 and step−1.
	up := d == Up
	if d != Up && d != Down {
		back := step - over
		up = over > back || over == back && l > 0
	}
	switch {
	case up && l > math.MaxInt64-(step-over):
		return math.MaxInt64, true
	case up:
		return l + (step - over), false
	case l < math.MinInt64+over:
		return math.MinInt64, true
	}
	return l - over, false
}

// Up returns the least graduation that is not smaller than l.
//
//go:noinline
func (r Ruler) Up(l Length) Length {
	to, _ := r.round(l, Up)
	return to
}

// Down returns the greatest graduation that is not larger than l.
//
//go:noinline
func (r Ruler) Down(l Length) Length {
	to, _ := r.round(l, Down)
	return to
}

// Nearest returns the graduation nearest to l, halves away from zero.
//
//go:noinline
func (r Ruler) Nearest(l Length) Length {
	to, _ := r.round(l, Nearest)
	return to
}

// Has reports whether l is a graduation of r.
func (r Ruler) Has(l Length) bool { return l%r.Step() == 0 }

// ErrSplit is returned by [Ruler.Split] when the parts cannot be made.
var ErrSplit = errors.New("units: cannot split: every part must be at least a step of the ruler")

// Split divides a length into n parts whose inner edges are the graduations
// nearest to i·total/n, halves upwards, so that no edge is off by more than
// half a step and the parts add up to total exactly. 297 mm into 4 on whole
// millimetres gives 74, 75, 74, 74. If total itself is not a graduation, the
// last part carries what is left over, and may be up to half a step short of
// a step. The error is ErrSplit when n is not positive, total is below n steps
// or n is above 1,000,000.
func (r Ruler) Split(total Length, n int) ([]Length, error) {
	if n < 1 || n > 1_000_000 || total <= 0 || total/Length(n) < r.Step() {
		return nil, ErrSplit
	}
	parts := make([]Length, n)
	at := Length(0)
	for i := range parts {
		edge := total
		if i < n-1 {
			edge = r.nearestShare(total, int64(i+1), int64(n))
		}
		parts[i] = edge - at
		at = edge
	}
	return parts, nil
}

// nearestShare returns the graduation nearest to i·total/n, halves upwards,
// for 0 < i < n, without rounding the share to a nanometre first.
func (r Ruler) nearestShare(total Length, i, n int64) Length {
	step := r.Step()
	below, _ := total.Scale(i, n, Down)
	g := below - below%step
	// Which of g and g + step is nearer? Compare i·total with n·(g + step/2),
	// both doubled, in full width.
	share, middle := total.By(Length(i)).Times(2), g.By(Length(2*n)).Plus(step.By(Length(n)))
	if share.Compare(middle) >= 0 {
		return g + step
	}
	return g
}
