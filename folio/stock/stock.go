// Package stock describes materials, the sheets that are at hand, and the direction of
// their grain.
package stock

import (
	"slices"
	"strconv"

	"boardwrap.example/internal/word"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Stock is a material: a board, a paper, a foam or a film. It is plain data.
type Stock struct {
	// Name is how pieces refer to the material. Empty means "board", "covering" or
	// "liner" in the materials of the case; any other material must have one.
	Name string
	// Caliper is its thickness. 0 stands for the usual one in the materials of the
	// case; any other material must give it.
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
	Size  units.Size // as the pattern stands upright; both sides above 0
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
	sheetGrainEnd
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

// Known reports whether it is one of the constants.
func (g SheetGrain) Known() bool { return g < sheetGrainEnd }

// AppendText appends the text of [SheetGrain.String]. The error matches
// units.ErrUnknown.
func (g SheetGrain) AppendText(dst []byte) ([]byte, error) {
	return word.Append(dst, g, "direction of the grain")
}

// MarshalText returns the text of [SheetGrain.String], with the error of
// [SheetGrain.AppendText].
func (g SheetGrain) MarshalText() ([]byte, error) { return g.AppendText(nil) }

// UnmarshalText reads what [SheetGrain.String] writes. The error matches
// units.ErrSyntax.
func (g *SheetGrain) UnmarshalText(text []byte) error {
	return word.Read(g, "direction of the grain", text)
}

// GrainRule is the direction that the grain of the pieces must run.
type GrainRule uint8

// Grain rules.
const (
	// GrainParallel runs the grain parallel to the spine.
	GrainParallel GrainRule = iota
	// GrainAny lets the grain run either way.
	GrainAny
	grainRuleEnd
)

// String returns "parallel to the spine" or "either way".
func (g GrainRule) String() string {
	if g == GrainParallel {
		return "parallel to the spine"
	}
	return "either way"
}

// MaxSheets is how many sheets of one stock may be given.
const MaxSheets = 1000

// Known reports whether it is one of the constants.
func (g GrainRule) Known() bool { return g < grainRuleEnd }

// AppendText appends the text of [GrainRule.String]. The error matches
// units.ErrUnknown.
func (g GrainRule) AppendText(dst []byte) ([]byte, error) { return word.Append(dst, g, "grain rule") }

// MarshalText returns the text of [GrainRule.String], with the error of
// [GrainRule.AppendText].
func (g GrainRule) MarshalText() ([]byte, error) { return g.AppendText(nil) }

// UnmarshalText reads what [GrainRule.String] writes. The error matches
// units.ErrSyntax.
func (g *GrainRule) UnmarshalText(text []byte) error { return word.Read(g, "grain rule", text) }

// DefaultBoard returns the board that stands for none given: chipboard of 1/16
// in, or greyboard of 1.5 mm where plans are metric (common practice, no published
// source), weighing 640 g/m² per mm of caliper, the middle of the 615 to 665 that
// one maker's table gives for greyboard (a weak source).
func DefaultBoard(n units.Notation) Stock {
	if n == units.MetricDecimal {
		return Stock{Name: "board", Caliper: 3 * units.Millimetre / 2, Grammage: 960 * units.GramPerSquareMetre}
	}
	return Stock{Name: "board", Caliper: units.Inch / 16, Grammage: 1016 * units.GramPerSquareMetre}
}

// DefaultCovering returns the covering that stands for none given: a paper of
// 80 lb text, nominally 120 g/m² and 0.0063 in (US Government Paper
// Specification Standards No. 11, 1999), which is 0.16 mm where plans are metric.
func DefaultCovering(n units.Notation) Stock {
	return Stock{Name: "covering", Caliper: n.Choose(63*units.Inch/10000, 16*units.Millimetre/100), Grammage: 120 * units.GramPerSquareMetre}
}

// DefaultLiner returns the liner that stands for none given: the paper of
// [DefaultCovering].
func DefaultLiner(n units.Notation) Stock {
	s := DefaultCovering(n)
	s.Name = "liner"
	return s
}

// DefaultCard returns the card that fittings are cut from unless they name a
// stock or there is one called "card": 110 lb index, nominally 200 g/m² and 0.0091 in (US Government Paper
// Specification Standards No. 11, 1999), which is 0.23 mm where plans are metric.
func DefaultCard(n units.Notation) Stock {
	return Stock{Name: "card", Caliper: n.Choose(91*units.Inch/10000, 23*units.Millimetre/100), Grammage: 200 * units.GramPerSquareMetre}
}

// Fill fills the empty fields of s from standard. The grammage is filled only
// with the caliper: a board of another thickness has another mass.
func (s *Stock) Fill(standard *Stock) {
	if standard == nil {
		return
	}
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

// Empty reports whether nothing is said of it.
func (s Stock) Empty() bool {
	return s.Name == "" && s.Caliper == 0 && s.Grammage == 0 && !s.OneWay && !s.TwoSided && len(s.Sheets) == 0
}

// Same reports whether two stocks are alike in all but their names. In which order
// their sheets stand does not matter, nor how often.
func (s *Stock) Same(t *Stock) bool {
	return s.CanBe(t) && s.Grammage == t.Grammage && s.hasSheetsOf(t) && t.hasSheetsOf(s)
}

// CanBe reports whether two stocks of one name can be one material, of which not
// the same may be known or at hand here and there: a grammage that is unknown can
// be any, and their sheets can be others.
func (s *Stock) CanBe(t *Stock) bool {
	return t != nil && s.Caliper == t.Caliper && s.OneWay == t.OneWay && s.TwoSided == t.TwoSided &&
		(s.Grammage == t.Grammage || s.Grammage == 0 || t.Grammage == 0)
}

func (s *Stock) hasSheetsOf(t *Stock) bool {
	for i := range t.Sheets {
		if !slices.Contains(s.Sheets, t.Sheets[i]) {
			return false
		}
	}
	return true
}

// Sound reports whether the numbers of a stock can be.
func (s *Stock) Sound() bool {
	return check.InBounds(s.Caliper) && 0 <= s.Grammage && s.Grammage <= mostGrammage
}

const mostGrammage = 10_000 * units.GramPerSquareMetre

// Check returns what is wrong with a stock once defaults are filled in, with lengths
// written in the notation, or nil. The error is a *check.Error.
func (s Stock) Check(n units.Notation) error {
	var bad check.List
	bad.In(n)
	if !check.InBounds(s.Caliper) {
		bad.Length("caliper", s.Caliper)
	}
	if s.Grammage < 0 || s.Grammage > mostGrammage {
		bad.Malformed("grammage", check.OutOfRange, s.Grammage.String(), "0 for unknown, or up to 10,000 g/m²")
	}
	if len(s.Sheets) > MaxSheets {
		bad.Malformed("sheets", check.TooMany, strconv.Itoa(len(s.Sheets)), "at most "+strconv.Itoa(MaxSheets))
		return bad.Err()
	}
	for i, sheet := range s.Sheets {
		if check.InBounds(sheet.Size.W) && check.InBounds(sheet.Size.H) && sheet.Grain.Known() {
			continue // a path is put together only where something is wrong
		}
		at := check.Index("sheets", i)
		bad.Size(at+".size", sheet.Size)
		if !sheet.Grain.Known() {
			bad.Malformed(at+".grain", check.Unknown, strconv.Itoa(int(sheet.Grain)), word.OneOf[SheetGrain]())
		}
	}
	return bad.Err()
}
