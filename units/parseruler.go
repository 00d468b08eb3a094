package units

// ParseRuler reads what [Ruler.String] writes: a step whose form also tells the
// notation, or the name of an exact ruler. It reads what [Parse] reads; inches
// with a decimal point, points, thou and mils make a ruler for decimals, other
// inches one for fractions, and feet are refused. The error is a *[ParseError].
func ParseRuler(s string) (Ruler, error) {
	for n, text := range exactTexts {
		if s == text {
			return Ruler(n) << notationShift, nil
		}
	}
	p := parser{in: s}
	a := p.whole()
	step := p.resolve(a, 0)
	if p.err != nil {
		return 0, p.err
	}
	n := MetricDecimal
	switch {
	case a.unit == Inch && a.point, a.unit == Thou:
		n = InchDecimal
	case a.unit == Inch:
		n = InchFraction
	}
	r, err := NewRuler(step, n)
	if err != nil || a.unit == Foot {
		p.fail(a.start, BeyondLimits, "no ruler can have this step")
		return 0, p.err
	}
	return r, nil
}
