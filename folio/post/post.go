// Package post says how a folio travels: what the formats of a postal service
// say to it, packed, and what box goes round it.
//
//	item, err := post.Pack(plan, post.Packing{Padding: 5 * units.Millimetre})
//	report, err := post.RoyalMail().Judge(item, plan.Notation())
//	verdict, ok := report.Smallest()
//
// Size and rigidity are two verdicts: small enough for a flat, a folio of boards
// is still rigid.
package post

import (
	"iter"
	"math"
	"slices"
	"strconv"

	"boardwrap.example/folio"
	"boardwrap.example/folio/weigh"
	"boardwrap.example/internal/word"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Notice goes with every verdict about the post.
const Notice = "The current rules of the service decide: the table was taken at the date that stands with it, and services change sizes, weights and wording."

// A Treatment is what a format of a service does with something unusual.
type Treatment uint8

// Treatments.
const (
	Unstated  Treatment = iota // the table's source does not say
	Accepted                   // taken as it is
	Surcharge                  // taken, but not handled by machine, which costs more
	Refused                    // not taken in this format
)

var treatments = word.List{What: "treatment", Words: []string{
	Unstated: "not stated", Accepted: "accepted", Surcharge: "accepted with a surcharge", Refused: "refused"}}

// String returns the treatment in words.
func (t Treatment) String() string { return treatments.String(uint8(t)) }

// AppendText appends the text of [Treatment.String]. The error matches
// units.ErrUnknown.
func (t Treatment) AppendText(dst []byte) ([]byte, error) { return treatments.Append(dst, uint8(t)) }

// MarshalText returns the text of [Treatment.String], with the error of
// [Treatment.AppendText].
func (t Treatment) MarshalText() ([]byte, error) { return treatments.Marshal(uint8(t)) }

// UnmarshalText reads what [Treatment.String] writes. The error matches
// units.ErrSyntax.
func (t *Treatment) UnmarshalText(text []byte) error { return word.Unmarshal(treatments, t, text) }

// An ItemFormat is one format of a postal service. Sides are compared longer with
// longer. A limit of 0 is one that the table does not state. It is plain data.
type ItemFormat struct {
	// Name is what the service calls it, as in "letter".
	Name string
	// Most and Least are the largest and the smallest size: longer by shorter
	// side; zero is not stated.
	Most, Least units.Size
	// Thickest and Thinnest bound the thickness; 0 is not stated.
	Thickest, Thinnest units.Length
	// Heaviest bounds the mass; 0 is not stated.
	Heaviest units.Mass
	// LowRatio and HighRatio bound length over height, in tenths; outside
	// them Shape is the treatment. 0 is not stated.
	LowRatio, HighRatio int
	// Shape is the treatment of another shape than the ratios allow.
	Shape Treatment
	// Rigid is the treatment of something that does not bend.
	Rigid Treatment
	// Uneven is the treatment of something whose thickness varies by more than
	// Even.
	Uneven Treatment
	// Even is by how much the thickness may vary; 0 is not at all.
	Even units.Length
	// Box is the treatment of a box.
	Box Treatment
}

// A Service is a dated table of the formats of a postal service, smallest
// first. It is plain data: anyone can write down another one.
type Service struct {
	// Name is what the service is called, Source where the table was taken from
	// and Date when.
	Name, Source, Date string
	// Formats are at most [MostFormats].
	Formats []ItemFormat
}

// MostFormats bounds the formats of a service.
const MostFormats = 1000

// USPS returns the letter, flat and parcel of the United States Postal Service
// as of 24 January 2021: Domestic Mail Manual, section 101, archive of that
// date. That a flat's thickness must not vary by more than 1/4 in is from
// memory of the same section. The parcel's limits are not in that section.
func USPS() Service {
	const in = units.Inch
	return Service{
		Name: "USPS", Source: "USPS Domestic Mail Manual 101, archive 2021-01-24", Date: "2021-01-24",
		Formats: []ItemFormat{
			{
				Name: "letter", Most: units.Size{W: 23 * in / 2, H: 49 * in / 8}, Least: units.Size{W: 5 * in, H: 7 * in / 2},
				Thickest: in / 4, Thinnest: 7 * units.Thou, Heaviest: 7 * units.Ounce / 2,
				LowRatio: 13, HighRatio: 25, Shape: Surcharge, Rigid: Surcharge, Uneven: Surcharge, Box: Refused,
			},
			{
				Name: "flat", Most: units.Size{W: 15 * in, H: 12 * in}, Thickest: 3 * in / 4,
				Rigid: Refused, Uneven: Refused, Even: in / 4, Box: Refused,
			},
			{Name: "parcel", Rigid: Accepted, Uneven: Accepted, Box: Accepted},
		},
	}
}

// RoyalMail returns the letter, large letter and small parcel of Royal Mail: its
// page on format sizes, which bears no date. It says nothing about what bends
// or how even it is.
func RoyalMail() Service {
	const mm = units.Millimetre
	return Service{
		Name: "Royal Mail", Source: "Royal Mail, format sizes", Date: "page without a date",
		Formats: []ItemFormat{
			{Name: "letter", Most: units.Size{W: 240 * mm, H: 165 * mm}, Thickest: 5 * mm, Heaviest: 100 * units.Gram},
			{Name: "large letter", Most: units.Size{W: 353 * mm, H: 250 * mm}, Thickest: 25 * mm, Heaviest: 750 * units.Gram},
			{Name: "small parcel", Most: units.Size{W: 450 * mm, H: 350 * mm}, Thickest: 160 * mm, Heaviest: 2 * units.Kilogram},
		},
	}
}

// An Item is what is handed in, packed. It is plain data.
type Item struct {
	// Size is length and height, in either order, both above 0.
	Size units.Size
	// Thickness is the third side; 0 is taken as it is, thinner than any least.
	Thickness units.Length
	// Mass is what it weighs, up to [MostMass]. 0 is taken as it is: of what nobody
	// has weighed MassUncertain must say so.
	Mass units.Mass
	// MassUncertain says that Mass is only a lower bound.
	MassUncertain bool
	// Flexible says that it bends; anything with boards in it does not.
	Flexible bool
	// Uneven is by how much its thickness varies; 0 is even.
	Uneven units.Length
	// Box says that it is a box.
	Box bool
}

// MostMass is the most that an item may weigh: no post takes a tonne.
const MostMass = 1000 * units.Kilogram

func (i Item) check(n units.Notation) error {
	var bad check.List
	bad.In(n)
	bad.Size("size", i.Size)
	bad.Allowance("thickness", i.Thickness)
	bad.Allowance("uneven", i.Uneven)
	checkMass(&bad, "mass", i.Mass, MostMass)
	return bad.Err()
}

func checkMass(bad *check.List, path string, m, most units.Mass) {
	switch {
	case m < 0:
		bad.Malformed(path, check.Negative, m.String(), "0 or up to "+most.String())
	case m > most:
		bad.Malformed(path, check.OutOfRange, m.String(), "at most "+most.String())
	}
}

// A Finding is what a format says to one property of an item.
type Finding struct {
	treatment Treatment
	text      string
}

// Treatment returns what the format does.
func (f Finding) Treatment() Treatment { return f.treatment }

// Text says why, in one sentence with its numbers: of a size every side that is
// refused.
func (f Finding) Text() string { return f.text }

// A Verdict is what a format says to an item: size with weight, shape,
// rigidity and evenness, each a verdict of its own.
type Verdict struct {
	format                    ItemFormat
	size, mass, shape         Finding
	rigidity, evenness, boxed Finding
}

// Format returns the format.
func (v Verdict) Format() ItemFormat { return v.format }

// Size returns the verdict on length, height and thickness.
func (v Verdict) Size() Finding { return v.size }

// Mass returns the verdict on the weight: [Unstated] for a mass that is only
// known to be no less and does not exceed the limit.
func (v Verdict) Mass() Finding { return v.mass }

// Shape returns the verdict on length over height.
func (v Verdict) Shape() Finding { return v.shape }

// Rigidity returns the verdict on whether it must bend.
func (v Verdict) Rigidity() Finding { return v.rigidity }

// Evenness returns the verdict on the variation of thickness.
func (v Verdict) Evenness() Finding { return v.evenness }

// Box returns the verdict on a box.
func (v Verdict) Box() Finding { return v.boxed }

// All walks the six findings.
func (v Verdict) All() iter.Seq[Finding] {
	return slices.Values([]Finding{v.size, v.mass, v.shape, v.rigidity, v.evenness, v.boxed})
}

// Overall returns the worst of the findings: Refused if one refuses, then
// Surcharge, then Unstated where the table leaves something open, and Accepted
// only if every one accepts.
func (v Verdict) Overall() Treatment {
	out := Accepted
	for f := range v.All() {
		switch {
		case f.treatment == Refused:
			return Refused
		case f.treatment == Surcharge, f.treatment == Unstated && out == Accepted:
			out = f.treatment
		}
	}
	return out
}

// A Report is what a service says to an item, format by format.
type Report struct {
	service  Service
	verdicts []Verdict
}

// Service returns the table that was asked.
func (r Report) Service() Service {
	r.service.Formats = append([]ItemFormat(nil), r.service.Formats...)
	return r.service
}

// Verdicts walks the verdicts, format by format.
func (r Report) Verdicts() iter.Seq[Verdict] { return slices.Values(r.verdicts) }

// Smallest returns the verdict of the first format that does not refuse the
// item, and whether there is one.
func (r Report) Smallest() (Verdict, bool) {
	for _, v := range r.verdicts {
		if v.Overall() != Refused {
			return v, true
		}
	}
	return Verdict{}, false
}

// Notice returns [Notice].
func (r Report) Notice() string { return Notice }

// Judge says what each format of the service makes of an item; lengths in the
// texts are written exactly in the given notation. A limit itself is within
// the limit. The error is a *[check.Error]: of an item of no size or of less
// than nothing, or of a service of too many formats.
func (s Service) Judge(item Item, n units.Notation) (Report, error) {
	var bad check.List
	bad.In(n)
	bad.Under("item", item.check(n))
	if len(s.Formats) > MostFormats {
		bad.Malformed("formats", check.TooMany, strconv.Itoa(len(s.Formats)), "at most "+strconv.Itoa(MostFormats))
	}
	if err := bad.Err(); err != nil {
		return Report{}, err
	}
	s.Formats = append([]ItemFormat(nil), s.Formats...)
	r := Report{service: s, verdicts: make([]Verdict, 0, len(s.Formats))}
	for _, f := range s.Formats {
		r.verdicts = append(r.verdicts, f.judge(item, n))
	}
	return r, nil
}

func longFirst(s units.Size) units.Size {
	return units.Size{W: max(s.W, s.H), H: min(s.W, s.H)}
}

func (f ItemFormat) judge(item Item, n units.Notation) Verdict {
	v := Verdict{format: f}
	size := longFirst(item.Size)
	v.size = f.judgeSize(size, item.Thickness, n)
	switch {
	case f.Heaviest == 0:
		v.mass = Finding{Unstated, "no limit of weight in this table"}
	case item.Mass > f.Heaviest:
		v.mass = Finding{Refused, gramsUp(item.Mass).String() + " is more than " + grams(f.Heaviest).String()}
	case item.MassUncertain:
		v.mass = Finding{Unstated, "it weighs at least " + grams(item.Mass).String() + "; at most " + grams(f.Heaviest).String() + " are taken: weigh it"}
	default:
		v.mass = Finding{Accepted, grams(item.Mass).String() + " of at most " + grams(f.Heaviest).String()}
	}
	v.shape = f.judgeShape(size)
	v.rigidity = Finding{Accepted, "it bends"}
	if !item.Flexible {
		v.rigidity = Finding{f.Rigid, "it is rigid"}
	}
	v.evenness = Finding{Accepted, "its thickness varies by " + n.Text(item.Uneven) + " of at most " + n.Text(f.Even)}
	if item.Uneven > f.Even {
		v.evenness = Finding{f.Uneven, "its thickness varies by " + n.Text(item.Uneven)}
		if f.Uneven != Unstated && f.Uneven != Accepted {
			v.evenness.text += ", more than " + n.Text(f.Even)
		}
	} else if item.Uneven == 0 {
		v.evenness.text = "it is even"
	}
	v.boxed = Finding{Accepted, "it is no box"}
	if item.Box {
		v.boxed = Finding{f.Box, "it is a box"}
	}
	return v
}

// judgeShape compares length over height with tenths.
func (f ItemFormat) judgeShape(size units.Size) Finding {
	wide := tenths(size.W, 10)
	switch {
	case f.LowRatio <= 0 && f.HighRatio <= 0:
		return Finding{Accepted, "any shape"}
	case f.LowRatio > 0 && wide < tenths(size.H, f.LowRatio):
		return Finding{f.Shape, "length over height is less than " + ratio(f.LowRatio)}
	case f.HighRatio > 0 && wide > tenths(size.H, f.HighRatio):
		return Finding{f.Shape, "length over height is more than " + ratio(f.HighRatio)}
	case f.HighRatio <= 0:
		return Finding{Accepted, "length over height is at least " + ratio(f.LowRatio)}
	case f.LowRatio <= 0:
		return Finding{Accepted, "length over height is at most " + ratio(f.HighRatio)}
	}
	return Finding{Accepted, "length over height is within " + ratio(f.LowRatio) + " to " + ratio(f.HighRatio)}
}

// tenths returns so many tenths of a length, times ten; what is too much for a
// length is the longest there is.
func tenths(l units.Length, n int) units.Length {
	if out, ok := l.Times(int64(n)); ok {
		return out
	}
	return math.MaxInt64
}

// ratio writes tenths as a decimal.
func ratio(n int) string { return strconv.Itoa(n/10) + "." + strconv.Itoa(n%10) }

// grams is a mass for reading: down to a tenth of a gram, since scales show no more.
// What is no heavier than a limit stays so, and what is at least so heavy is.
func grams(m units.Mass) units.Mass { return m - m%(units.Gram/10) }

// gramsUp is as grams, but up: what is heavier than a limit stays so.
func gramsUp(m units.Mass) units.Mass {
	if down := grams(m); down < m {
		return down + units.Gram/10
	}
	return m
}

func sizeText(n units.Notation, s units.Size) string { return n.Text(s.W) + " x " + n.Text(s.H) }

func (f ItemFormat) judgeSize(size units.Size, thick units.Length, n units.Notation) Finding {
	most, least := longFirst(f.Most), longFirst(f.Least)
	if f.Most == (units.Size{}) && f.Thickest == 0 {
		return Finding{Unstated, "no limit of size in this table"}
	}
	why := ""
	for _, side := range [...]struct {
		what             string
		got, least, most units.Length
	}{
		{"length", size.W, least.W, most.W}, {"height", size.H, least.H, most.H},
		{"thickness", thick, f.Thinnest, f.Thickest},
	} {
		than := ""
		switch {
		case side.most > 0 && side.got > side.most:
			than = " is more than " + n.Text(side.most)
		case side.got < side.least:
			than = " is less than " + n.Text(side.least)
		default:
			continue
		}
		if why != "" {
			why += ", "
		}
		why += "its " + side.what + " of " + n.Text(side.got) + than
	}
	if why != "" {
		return Finding{Refused, why}
	}
	return Finding{Accepted, sizeText(n, size) + " x " + n.Text(thick) + " of at most " + sizeText(n, most) + " x " + n.Text(f.Thickest)}
}

// Packing is what goes round a folio for the post.
type Packing struct {
	// Padding lies on all six sides; 0 means none.
	Padding units.Length
	// Wall is the caliper of the envelope or of the box outside it; 0 means that
	// it is not counted.
	Wall units.Length
	// Mass of packing and padding, up to [folio.MostMass]; 0 means unknown.
	Mass units.Mass
	// Box says that it is a box, which is even on the outside.
	Box bool
	// Weighing is how the folio is weighed; it is always filled and single.
	Weighing weigh.Options
}

// noPlan notes that a plan is nil.
func noPlan(bad *check.List) {
	bad.Malformed("plan", check.Missing, "no plan", "a plan made by folio.Build")
}

// Pack returns the closed and filled folio in its packing. A folio of boards is
// rigid. Its mass is uncertain where that of a part is unknown. The error is a
// *[check.Error]: of the packing, of a folio that does not shut, or of a plan that is
// nil.
func Pack(p *folio.Plan, k Packing) (Item, error) {
	var bad check.List
	if p == nil {
		noPlan(&bad)
		return Item{}, bad.Err()
	}
	bad.In(p.Notation())
	bad.Allowance("padding", k.Padding)
	bad.Allowance("wall", k.Wall)
	checkMass(&bad, "mass", k.Mass, folio.MostMass)
	k.Weighing.Filled, k.Weighing.Copies = true, 1
	weight, err := weigh.Of(p, k.Weighing)
	bad.Under("weighing", err)
	bad.Under("", p.Shuts())
	if err := bad.Err(); err != nil {
		return Item{}, err
	}
	o, _ := p.Overall(true)
	round := k.Padding + k.Wall
	mass, certainty := weight.Total()
	item := Item{
		Size: o.Size().Grow(round), Thickness: o.Thickness().Length() + 2*round,
		Mass: min(mass, MostMass-k.Mass) + k.Mass, MassUncertain: certainty == weigh.Unknown || k.Mass == 0 || mass > MostMass-k.Mass,
		Uneven: o.Uneven(), Box: k.Box,
	}
	if k.Box {
		item.Uneven = 0
	}
	return item, nil
}

// Services walks the tables that this package brings.
func Services() iter.Seq[Service] {
	return func(yield func(Service) bool) {
		for _, s := range [...]Service{RoyalMail(), USPS()} {
			if !yield(s) {
				return
			}
		}
	}
}
