// Package tie works out what goes round a closed folio: belly bands of paper and
// ribbons that are tied.
//
//	strap, err := tie.Band{Lap: units.Inch}.Round(plan)
package tie

import (
	"boardwrap.example/folio"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Band is a belly band: a strip of paper round the closed folio.
type Band struct {
	// Breadth of the strip, taken as it is; 0 means a third of the folio's
	// height, or of its width for a band that runs along, rounded down on
	// Rulers.Main to a graduation at least (common practice, no published
	// source).
	Breadth units.Length
	// Lap is how far its ends lie over each other; 0 means 1 in, or 25 mm where
	// plans are metric (common practice, no published source), [units.None] that
	// they meet.
	Lap units.Length
	// Caliper is that of its paper; 0 means that of the covering.
	Caliper units.Length
	// Along runs it from head to tail instead of across from spine to fore
	// edge.
	Along bool
}

// A Ribbon goes once round the closed folio and is tied.
type Ribbon struct {
	// Tail is what each end has for the bow; 0 means 8 in, or 200 mm where plans
	// are metric (common practice, no published source), [units.None] nothing.
	Tail units.Length
	// Along runs it from head to tail.
	Along bool
}

// A Strap is something cut to go round the closed folio: a band or a ribbon.
type Strap struct{ length, breadth units.Working }

// Length returns the length to cut, rounded up on Rulers.Main.
func (s Strap) Length() units.Working { return s.length }

// Breadth returns the breadth; a ribbon has none here.
func (s Strap) Breadth() units.Working { return s.breadth }

// listOf begins a list of what is wrong with something that goes round a folio, with
// what is wrong with that.
func listOf(p *folio.Plan) *check.List {
	var bad check.List
	if p != nil {
		bad.In(p.Notation())
	}
	bad.Under("", p.Shuts())
	return &bad
}

// allowance checks a length that may be 0 or explicitly none.
func allowance(bad *check.List, path string, l units.Length) {
	if l != units.None {
		bad.Allowance(path, l)
	}
}

// filled returns a length as given, the usual one for 0, and 0 for none.
func filled(l units.Length, n units.Notation, inch, metric units.Length) units.Length {
	switch {
	case l == units.None:
		return 0
	case l != 0:
		return l
	case n == units.MetricDecimal:
		return metric
	}
	return inch
}

// Round returns the strip to cut: the girth of the closed and filled folio, with
// what sits on its outside, and the lap. The band bends round four corners at
// its middle, which takes π of its calipers (derived); four are given. The error is a
// *[check.Error]: of the band's fields, or of a folio that does not shut.
func (b Band) Round(p *folio.Plan) (Strap, error) {
	bad := listOf(p)
	bad.Allowance("breadth", b.Breadth)
	allowance(bad, "lap", b.Lap)
	bad.Allowance("caliper", b.Caliper)
	if err := bad.Err(); err != nil {
		return Strap{}, err
	}
	o, _ := p.Overall(true)
	n, spec := p.Notation(), p.Spec()
	ruler := spec.Rulers.Main
	b.Lap = filled(b.Lap, n, units.Inch, 25*units.Millimetre)
	if b.Caliper == 0 {
		b.Caliper = spec.Covering.Caliper
	}
	around, beside := o.Width(), o.Height()
	if b.Along {
		around, beside = beside, around
	}
	var g units.Ledger
	var out Strap
	out.length = g.Sum("band length", ruler, units.Up, units.N(2, around.Label(), around.Length()),
		units.N(2, o.Thickness().Label(), o.Thickness().Length()), units.N(4, "band caliper", b.Caliper), units.T("lap", b.Lap))
	most := beside.Length()
	switch {
	case b.Breadth != 0:
		out.breadth = g.Sum("band breadth", n.Exact(), units.Nearest, units.T("as given", b.Breadth))
	case 3*ruler.Step() > most:
		// A third is less than a graduation of the ruler.
		out.breadth = g.Sum("band breadth", ruler, units.Nearest, units.T("one graduation", ruler.Step()))
	default:
		out.breadth = g.Share("band breadth", 3, ruler, units.Down, units.T(beside.Label(), most))
	}
	if out.breadth.Length() > most {
		bad.Long("breadth", check.TooLarge, n, out.breadth.Length(), most, ", the side of the folio")
		return Strap{}, bad.Err()
	}
	return out, nil
}

// Round returns the length of ribbon to cut: the girth and two tails. The error
// is a *[check.Error]: of the ribbon's fields, or of a folio that does not shut.
func (r Ribbon) Round(p *folio.Plan) (Strap, error) {
	bad := listOf(p)
	allowance(bad, "tail", r.Tail)
	if err := bad.Err(); err != nil {
		return Strap{}, err
	}
	o, _ := p.Overall(true)
	around := o.Width()
	if r.Along {
		around = o.Height()
	}
	tail := filled(r.Tail, p.Notation(), 8*units.Inch, 200*units.Millimetre)
	return Strap{length: units.Sum("ribbon length", p.Spec().Rulers.Main, units.Up, units.N(2, around.Label(), around.Length()),
		units.N(2, o.Thickness().Label(), o.Thickness().Length()), units.N(2, "tail", tail))}, nil
}
