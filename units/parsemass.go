package units

import "math/bits"

const noMassUnit = "a unit must stand here: g, kg, mg, µg, oz or lb"

// massUnits are the names of units, those first that begin with another one.
var massUnits = [...]struct {
	name string // in lower case
	unit Mass
}{
	{"grammes", Gram}, {"gramme", Gram}, {"grams", Gram}, {"gram", Gram}, {"g", Gram},
	{"kilograms", Kilogram}, {"kilogram", Kilogram}, {"kg", Kilogram},
	{"milligrams", Milligram}, {"milligram", Milligram}, {"mg", Milligram},
	{"micrograms", Microgram}, {"microgram", Microgram}, {"µg", Microgram}, {"μg", Microgram}, {"ug", Microgram},
	{"ounces", Ounce}, {"ounce", Ounce}, {"oz.", Ounce}, {"oz", Ounce},
	{"pounds", Pound}, {"pound", Pound}, {"lbs", Pound}, {"lb.", Pound}, {"lb", Pound},
}

// ParseMass reads a mass with its unit: "12.5 g", "0.2 kg", "350 mg", "3 1/2 oz",
// "1 lb". Numbers are written as for [Parse], and so are names of units. A mass
// in grams is exact, and one that is not a whole number of micrograms is
// refused; one in avoirdupois ounces or pounds, which seldom are, is rounded to
// the nearest microgram, halves away from zero, from the exact ounce of
// 28.349523125 g. The error is a *[ParseError].
func ParseMass(s string) (Mass, error) {
	p := parser{in: s}
	m := p.mass()
	p.end()
	if p.err != nil {
		return 0, p.err
	}
	return m, nil
}

// mass reads a mass up to what stands behind its unit.
func (p *parser) mass() Mass {
	p.space()
	negative := p.sign()
	p.space()
	start := p.at
	q := p.quantity()
	p.space()
	at := p.at
	if p.err != nil {
		return 0
	}
	for i := range massUnits {
		u := massUnits[i]
		if !p.word(u.name) {
			continue
		}
		if r, _ := p.peek(); isLetter(r) {
			break
		}
		den, rounds := q.den, false
		switch u.unit {
		case Ounce: // a pound has 16 of them and is a whole number of micrograms
			u.unit, rounds = Pound, true
			den *= 16 // which at most 10¹² below the line leave room for
		case Pound:
			rounds = true
		}
		m, exact, ok := ratio(negative, magnitude(int64(u.unit)), q.num, den, Nearest)
		switch {
		case !ok:
			p.fail(start, BeyondLimits, "too heavy")
		case !exact && !rounds:
			p.fail(start, Inexact, "not a whole number of micrograms; the nearest is "+Mass(m).String())
		default:
			return Mass(m)
		}
		return 0
	}
	p.fail(at, NoUnit, noMassUnit)
	return 0
}

// ParseGrammage reads a grammage: "120 g/m²", "120 g/m2", "120 gsm", or a basis
// weight of the United States with the name of its basic size, "65 lb cover" or
// "65# cover", which [BasisWeight] converts and rounds. A grammage by the square
// metre is exact, and one that is not a whole number of milligrams is refused.
// Numbers are written as for [Parse]. The error is a *[ParseError].
func ParseGrammage(s string) (Grammage, error) {
	p := parser{in: s}
	g := p.grammage()
	p.end()
	if p.err != nil {
		return 0, p.err
	}
	return g, nil
}

func (p *parser) grammage() Grammage {
	p.space()
	negative := p.sign()
	p.space()
	start := p.at
	q := p.quantity()
	p.space()
	switch {
	case p.err != nil:
		return 0
	case p.word("g/m²"), p.word("g/m2"), p.word("g/m^2"), p.word("gsm"):
		g, exact, ok := ratio(negative, uint64(GramPerSquareMetre), q.num, q.den, Nearest)
		switch {
		case !ok:
			p.fail(start, BeyondLimits, "too heavy")
		case !exact:
			p.fail(start, Inexact, "not a whole number of milligrams; the nearest is "+Grammage(g).String())
		default:
			return Grammage(g)
		}
		return 0
	case p.word("lbs"), p.word("lb."), p.word("lb"), p.take("#"):
		return p.basisWeight(start, negative, q)
	}
	p.fail(p.at, NoUnit, "a unit must stand here: g/m², gsm, or lb with a basic size, as in 65 lb cover")
	return 0
}

// basisWeight reads the basic size behind the pounds of a ream.
func (p *parser) basisWeight(start int, negative bool, q quantity) Grammage {
	p.space()
	for b, name := range basicSizes.Words {
		if !p.word(name) {
			continue
		}
		ream, _, ok := ratio(false, uint64(Pound), q.num, q.den, Nearest)
		if g := BasisWeight(Mass(ream), BasicSize(b).Size()); ok && !negative && g > 0 {
			return g
		}
		p.fail(start, BeyondLimits, "a ream cannot weigh this")
		return 0
	}
	p.fail(p.at, NoUnit, "a basic size must stand here: bond, text, cover, index, bristol or tag")
	return 0
}

// areaUnits are the names of units, those first that begin with another one.
var areaUnits = [...]struct {
	name string // in lower case
	unit int64  // square nanometres
}{
	{"mm²", 1e12}, {"mm2", 1e12}, {"mm^2", 1e12}, {"cm²", 1e14}, {"cm2", 1e14}, {"cm^2", 1e14}, {"m²", 1e18}, {"m2", 1e18}, {"m^2", 1e18},
	{"in²", int64(Inch * Inch)}, {"in2", int64(Inch * Inch)}, {"in^2", int64(Inch * Inch)}, {"sq in", int64(Inch * Inch)},
}

// ParseArea reads an area with its unit, mm², cm², m² or in² (also mm2 and
// mm^2, and sq in): "12.5 mm²". The number is a whole one or a decimal with a
// point, and the result is exact: an area that is not a whole number of square
// nanometres is refused. The error is a *[ParseError].
func ParseArea(s string) (Area, error) {
	p := parser{in: s}
	a := p.area()
	p.end()
	if p.err != nil {
		return Area{}, p.err
	}
	return a, nil
}

func (p *parser) area() Area {
	p.space()
	negative := p.sign()
	p.space()
	start := p.at
	digits, decimals := p.longDecimal()
	p.space()
	if p.err != nil {
		return Area{}
	}
	for i := range areaUnits {
		u := areaUnits[i]
		if !p.word(u.name) {
			continue
		}
		den := int64(1)
		for range decimals {
			den *= 10
		}
		if negative {
			digits = digits.neg()
		}
		a, exact := digits.Scale(u.unit, den, Nearest)
		switch {
		case digits != (Area{}) && a == (Area{}) && !exact && decimals == 0, digits.hi < 0 != negative:
			p.fail(start, BeyondLimits, "too large")
		case !exact:
			p.fail(start, Inexact, "not a whole number of square nanometres")
		default:
			return a
		}
		return Area{}
	}
	p.fail(p.at, NoUnit, "a unit must stand here: mm², cm², m² or in²")
	return Area{}
}

// longDecimal reads a decimal of up to 38 digits and returns it without its
// point, read as unsigned, and how many decimals it has.
func (p *parser) longDecimal() (digits Area, decimals int) {
	start, seen, point, zeros := p.at, 0, false, 0
	for p.at < len(p.in) {
		c := p.in[p.at]
		if c == '.' && !point {
			point = true
			p.at++
			continue
		}
		if !isDigit(rune(c)) {
			break
		}
		p.at++
		seen++
		if point && c == '0' { // carries nothing unless another digit follows
			zeros++
			continue
		}
		for ; zeros >= 0; zeros-- {
			d := uint64(0)
			if zeros == 0 {
				d = uint64(c - '0')
			}
			next, ok := digits.shift10(d)
			if !ok || decimals > 18 {
				p.fail(start, BeyondLimits, "too many digits")
				return Area{}, 0
			}
			digits = next
			if point {
				decimals++
			}
		}
		zeros = 0
	}
	if seen == 0 {
		p.fail(start, BadSyntax, "a number must stand here")
	}
	return digits, decimals
}

// shift10 returns 10·a + d for an a read as unsigned, and whether it fits.
func (a Area) shift10(d uint64) (Area, bool) {
	carry, lo := bits.Mul64(a.lo, 10)
	over, hi := bits.Mul64(uint64(a.hi), 10)
	hi, c1 := bits.Add64(hi, carry, 0)
	lo, c := bits.Add64(lo, d, 0)
	hi, c2 := bits.Add64(hi, c, 0)
	return Area{int64(hi), lo}, over == 0 && c1 == 0 && c2 == 0
}
