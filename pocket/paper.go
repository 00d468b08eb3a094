package pocket

import (
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Paper is the stock that a pocket is made of. The zero Paper is index 110:
// 0.0091 in and 200 g/m² (US Government Paper Specification Standards No. 11,
// 1999). Where only one of caliper and grammage is given, the other follows
// at the bulk of that paper, rounded to the nearest nanometre or mg/m².
type Paper struct {
	// Name is what the paper is called where it is cut; empty is "paper".
	Name string
	// Caliper is its thickness, 0.01 mm to 10 m; 0 follows from Grammage.
	Caliper units.Length
	// Grammage is its weight, up to 10000 g/m²; 0 follows from Caliper.
	Grammage units.Grammage
	// TwoSided says that both sides may be seen; otherwise only the right side
	// is good, and a design whose folds bring the other one out gets a warning
	// ([WrongSideShows]). The zero Paper is two-sided.
	TwoSided bool
	// Up is the side of the paper that lies up where a piece is cut and drawn:
	// the face of its drawing.
	Up work.PaperSide
	// Groove is the side of a fold that is scored; zero is the outside.
	Groove Groove
	// Sheet is the largest sheet there is; a side of 0 is no limit. A strip
	// that is longer is joined from several. A piece may be turned on the
	// sheet.
	Sheet units.Size
	// MatCaliper is that of a mat that gives none of its own; 0 means that of
	// the paper.
	MatCaliper units.Length
}

const index110Grammage = 200 * units.GramPerSquareMetre

// WithDefaults returns the paper with its zero fields filled in, as designs are made
// in it; that of a mat stays as it is.
func (p Paper) WithDefaults() Paper {
	if p.Name == "" {
		p.Name = "paper"
	}
	switch {
	case p.Caliper == 0 && p.Grammage == 0:
		p.Caliper, p.Grammage, p.TwoSided = index110, index110Grammage, true
	case p.Caliper == 0:
		p.Caliper, _ = index110.Scale(int64(p.Grammage), int64(index110Grammage), units.Nearest)
	case p.Grammage == 0 && p.Caliper > 0 && p.Caliper <= units.Longest:
		// 200 000 mg/m² x caliper / 231 140 nm: at most 10¹⁰ x 2·10⁵.
		p.Grammage = (index110Grammage*units.Grammage(p.Caliper.Nanometres()) + units.Grammage(index110.Nanometres()/2)) / units.Grammage(index110.Nanometres())
	}
	return p
}

const maxGrammage = 10_000 * units.GramPerSquareMetre

// thinnestGrammage is that of the thinnest paper at the bulk of index 110.
const thinnestGrammage = (index110Grammage*units.Grammage(units.Shortest) + units.Grammage(index110) - 1) / units.Grammage(index110)

func (p Paper) check(l *check.List) {
	switch {
	case p.Grammage < 0:
		l.Malformed("paper.grammage", check.Negative, p.Grammage.String(), "0 or a grammage up to 10000 g/m²")
	case p.Grammage > maxGrammage:
		l.Malformed("paper.grammage", check.OutOfRange, p.Grammage.String(), "0 or a grammage up to 10000 g/m²")
	case p.Caliper != 0:
		l.Length("paper.caliper", p.Caliper)
	}
	l.Allowance("paper.matcaliper", p.MatCaliper)
	if p.Up > work.WrongSide {
		l.Malformed("paper.up", check.Unknown, itoa(int(p.Up)), "right side or wrong side")
	}
	if p.Groove > GrooveInside {
		l.Malformed("paper.groove", check.Unknown, itoa(int(p.Groove)), "outside or inside")
	}
	l.Allowance("paper.sheet.w", p.Sheet.W)
	l.Allowance("paper.sheet.h", p.Sheet.H)
}

// longestSheet returns the longest piece of the given breadth that the sheet
// yields, turned if need be, and whether one fits across it at all. Without a
// limit it is units.Longest.
func (p Paper) longestSheet(breadth units.Length) (units.Length, bool) {
	w, h := p.Sheet.W, p.Sheet.H
	if w == 0 {
		w = units.Longest
	}
	if h == 0 {
		h = units.Longest
	}
	var longest units.Length
	if breadth <= h {
		longest = w
	}
	if breadth <= w {
		longest = max(longest, h)
	}
	return longest, longest > 0
}
