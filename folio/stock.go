package folio

import (
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Stock is a material: a board, a paper, a foam or a film. It is plain data.
type Stock struct {
	// Name is how pieces refer to the material.
	Name string
	// Caliper is its thickness.
	Caliper units.Length
	// Grammage is its mass by area; 0 means unknown.
	Grammage units.Grammage
	// OneWay says that the pattern has an up and a down, so that pieces must
	// not be turned on the sheet.
	OneWay bool
	// TwoSided says that both faces may show; otherwise only the right side
	// does.
	TwoSided bool
	// Sheets are the sizes at hand. With none, any size can be had.
	Sheets []Sheet
}

// A Sheet is a size in which a stock is at hand. Width and height are as the
// pattern stands upright; the grain is along one of them or not known.
type Sheet struct {
	Size  units.Size // as the pattern stands upright
	Grain SheetGrain // along which of its sides the grain runs
}

// SheetGrain is the direction of the grain in a sheet.
type SheetGrain uint8

// Directions of the grain in a sheet. Where it is unknown, both are tried and
// the order of work says to find it before cutting.
const (
	GrainUnknown     SheetGrain = iota // both ways are tried
	GrainAlongWidth                    // across the upright pattern
	GrainAlongHeight                   // up and down the upright pattern
)

// String returns "unknown", "along the width" or "along the height".
func (g SheetGrain) String() string {
	switch g {
	case GrainUnknown:
		return "unknown"
	case GrainAlongWidth:
		return "along the width"
	case GrainAlongHeight:
		return "along the height"
	}
	return "no such grain"
}

// GrainRule is the direction that the grain of the pieces must run.
type GrainRule uint8

// Grain rules.
const (
	// GrainParallel runs the grain parallel to the spine.
	GrainParallel GrainRule = iota
	// GrainAny lets the grain run either way.
	GrainAny
)

// String returns "parallel to the spine" or "either way".
func (g GrainRule) String() string {
	if g == GrainParallel {
		return "parallel to the spine"
	}
	return "either way"
}

// DefaultBoard returns the board that stands for none given: chipboard of 1/16
// in (common practice, no published source) weighing 640 g/m² per mm of
// caliper, the middle of the 615 to 665 that one maker's table gives for
// greyboard (a weak source).
func DefaultBoard() Stock {
	return Stock{Name: "board", Caliper: units.Inch / 16, Grammage: 1016 * units.GramPerSquareMetre}
}

// DefaultCovering returns the covering that stands for none given: a paper of
// 80 lb text, nominally 120 g/m² and 0.0063 in (US Government Paper
// Specification Standards No. 11, 1999).
func DefaultCovering() Stock {
	return Stock{Name: "covering", Caliper: 63 * units.Inch / 10000, Grammage: 120 * units.GramPerSquareMetre}
}

// DefaultLiner returns the liner that stands for none given: the paper of
// [DefaultCovering].
func DefaultLiner() Stock {
	s := DefaultCovering()
	s.Name = "liner"
	return s
}

// DefaultCard returns the card that fittings are cut from unless they name a
// stock: 110 lb index, nominally 200 g/m² and 0.0091 in (US Government Paper
// Specification Standards No. 11, 1999).
func DefaultCard() Stock {
	return Stock{Name: "card", Caliper: 91 * units.Inch / 10000, Grammage: 200 * units.GramPerSquareMetre}
}

// fill fills the empty fields of s from standard. The grammage is filled only
// with the caliper: a board of another thickness has another mass.
func (s *Stock) fill(standard *Stock) {
	if s.Name == "" {
		s.Name = standard.Name
	}
	if s.Caliper == 0 {
		s.Caliper = standard.Caliper
		if s.Grammage == 0 {
			s.Grammage = standard.Grammage
		}
	}
}

func (s Stock) empty() bool {
	return s.Name == "" && s.Caliper == 0 && s.Grammage == 0 && !s.OneWay && !s.TwoSided && len(s.Sheets) == 0
}

// same reports whether two stocks of one name can be one material.
func (s *Stock) same(t *Stock) bool {
	return s.Caliper == t.Caliper && s.Grammage == t.Grammage && s.OneWay == t.OneWay && s.TwoSided == t.TwoSided
}

// sound reports whether the numbers of a stock can be.
func (s *Stock) sound() bool {
	return check.InBounds(s.Caliper) && 0 <= s.Grammage && s.Grammage <= mostGrammage
}

const mostGrammage = 10_000 * units.GramPerSquareMetre

func (s Stock) check(bad *check.List, path string) bool {
	before := bad.Len()
	if !check.InBounds(s.Caliper) {
		bad.Length(path+".caliper", s.Caliper)
	}
	if s.Grammage < 0 || s.Grammage > mostGrammage {
		bad.Malformed(path+".grammage", check.OutOfRange, s.Grammage.String(), "0 for unknown, or up to 10,000 g/m²")
	}
	if len(s.Sheets) > MaxSheets {
		bad.Malformed(path+".sheets", check.TooMany, count(len(s.Sheets)), "at most "+count(MaxSheets))
		return false
	}
	for i, sheet := range s.Sheets {
		if check.InBounds(sheet.Size.W) && check.InBounds(sheet.Size.H) && sheet.Grain <= GrainAlongHeight {
			continue // a path is put together only where something is wrong
		}
		at := check.Index(path+".sheets", i)
		bad.Size(at+".size", sheet.Size)
		if sheet.Grain > GrainAlongHeight {
			bad.Malformed(at+".grain", check.Unknown, count(int(sheet.Grain)), oneOf(GrainAlongHeight+1))
		}
	}
	return bad.Len() == before
}

// Limits on the lists of a Spec, so that no input takes unbounded time or
// memory; a longer list is refused with check.TooMany.
const (
	MaxSheets   = 1000 // sheets of one stock
	MaxStocks   = 1000 // further stocks
	MaxFittings = 256  // fittings
	MaxPockets  = 1000 // pockets, pleats, panels and leaves of all that is folded, together
)

// A lie is one way to lay a sheet before the maker.
type lie struct {
	size   units.Size
	index  int32 // in Stock.Sheets
	turned bool
}

// lies yields the ways in which the sheets may lie for a piece with the given
// grain, unturned first.
func (s Stock) lies(grain GrainRule, yield func(lie) bool) {
	for i, sheet := range s.Sheets {
		upright := grain == GrainAny || sheet.Grain != GrainAlongWidth
		turned := (grain == GrainAny || sheet.Grain != GrainAlongHeight) && !s.OneWay
		if upright && !yield(lie{sheet.Size, int32(i), false}) {
			return
		}
		if turned && sheet.Size.W != sheet.Size.H && !yield(lie{sheet.Size.Turned(), int32(i), true}) {
			return
		}
		if turned && !upright && sheet.Size.W == sheet.Size.H && !yield(lie{sheet.Size, int32(i), true}) {
			return
		}
	}
}

// holds reports whether a piece of the given size comes out of one of the
// sheets, and which is the smallest.
func (s Stock) holds(size units.Size, grain GrainRule) (best lie, ok bool) {
	s.lies(grain, func(l lie) bool {
		if size.FitsIn(l.size) && (!ok || l.size.Area().Compare(best.size.Area()) < 0) {
			best, ok = l, true
		}
		return true
	})
	return best, ok
}
