package folio

import (
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Band is a belly band: a strip of paper round the closed folio.
type Band struct {
	// Breadth of the strip; 0 means a third of the folio's height, or of its
	// width for a band that runs along (common practice, no published source).
	Breadth units.Length
	// Lap is how far its ends lie over each other; 0 means 1 in (common
	// practice, no published source).
	Lap units.Length
	// Caliper is that of its paper; 0 means that of the covering.
	Caliper units.Length
	// Along runs it from head to tail instead of across from spine to fore
	// edge.
	Along bool
}

// A Strap is something cut to go round the closed folio: a band or a ribbon.
type Strap struct{ length, breadth units.Working }

// Length returns the length to cut, rounded up on Rulers.Main.
func (s Strap) Length() units.Working { return s.length }

// Breadth returns the breadth; a ribbon has none here.
func (s Strap) Breadth() units.Working { return s.breadth }

// Band returns the strip to cut for a belly band: the girth of the closed and
// filled folio, with what sits on its outside, and the lap. The band bends
// round four corners at its middle, which takes π of its calipers; four are
// given. The error is a *[check.Error].
func (p *Plan) Band(b Band) (Strap, error) {
	var bad check.List
	bad.Allowance("band.breadth", b.Breadth)
	bad.Allowance("band.lap", b.Lap)
	bad.Allowance("band.caliper", b.Caliper)
	o := p.overallOr(&bad)
	if err := bad.Err(); err != nil {
		return Strap{}, err
	}
	b.Lap = orDefault(b.Lap, units.Inch)
	b.Caliper = orDefault(b.Caliper, p.spec.Covering.Caliper)
	around, beside := o.width, o.height
	if b.Along {
		around, beside = beside, around
	}
	var g units.Ledger
	var out Strap
	out.length = g.Sum("band length", p.spec.Rulers.Main, units.Up, units.N(2, around.Label(), around.Length()),
		units.N(2, o.thickness.Label(), o.thickness.Length()), units.N(4, "band caliper", b.Caliper), units.T("lap", b.Lap))
	if b.Breadth == 0 {
		out.breadth = g.Share("band breadth", 3, p.spec.Rulers.Main, units.Down, units.T(beside.Label(), beside.Length()))
	} else {
		out.breadth = g.Sum("band breadth", p.spec.Rulers.Main, units.Down, units.T("as given", b.Breadth))
	}
	if most := beside.Length(); out.breadth.Length() > most {
		bad.Long("band.breadth", check.TooLarge, p.Notation(), out.breadth.Length(), most, "of the folio's side")
		return Strap{}, bad.Err()
	}
	return out, nil
}

// A Tie is a ribbon that goes once round the closed folio and is tied.
type Tie struct {
	// Tail is what each end has for the bow; 0 means 8 in (common practice, no
	// published source).
	Tail units.Length
	// Along runs it from head to tail.
	Along bool
}

// Ribbon returns the length of ribbon to cut: the girth and two tails. The
// error is a *[check.Error].
func (p *Plan) Ribbon(t Tie) (Strap, error) {
	var bad check.List
	bad.Allowance("tie.tail", t.Tail)
	o := p.overallOr(&bad)
	if err := bad.Err(); err != nil {
		return Strap{}, err
	}
	around := o.width
	if t.Along {
		around = o.height
	}
	return Strap{length: units.Sum("ribbon length", p.spec.Rulers.Main, units.Up, units.N(2, around.Label(), around.Length()),
		units.N(2, o.thickness.Label(), o.thickness.Length()), units.N(2, "tail", orDefault(t.Tail, 8*units.Inch)))}, nil
}

// overallOr returns the filled folio's outside, or adds that it does not shut.
func (p *Plan) overallOr(bad *check.List) Overall {
	o, ok := p.Overall(true)
	if !ok {
		bad.Impossible("hinge.angle", WarnOpen, "hinges that turn by "+count(p.spec.Hinge.Angle)+" degrees", "a folio that shuts")
	}
	return o
}
