package folio

import (
	"iter"

	"boardwrap.example/units"
)

// PostNotice goes with every verdict about the post.
const PostNotice = "The current rules of the service decide: the table was taken at the date that stands with it, and services change sizes, weights and wording."

// A Treatment is what a format of a service does with something unusual.
type Treatment uint8

// Treatments.
const (
	Unstated  Treatment = iota // the table's source does not say
	Accepted                   // taken as it is
	Surcharge                  // taken, but not handled by machine, which costs more
	Refused                    // not taken in this format
)

// String returns the treatment in words.
func (t Treatment) String() string {
	switch t {
	case Unstated:
		return "not stated"
	case Accepted:
		return "accepted"
	case Surcharge:
		return "accepted with a surcharge"
	case Refused:
		return "refused"
	}
	return "no such treatment"
}

// A PostFormat is one format of a postal service. Sides are compared longer with
// longer. A limit of 0 is one that the table does not state. It is plain data.
type PostFormat struct {
	Name               string
	Most, Least        units.Size // longer by shorter side
	Thickest, Thinnest units.Length
	Heaviest           units.Mass
	// LowRatio and HighRatio bound length over height, in tenths; outside
	// them Shape is the treatment.
	LowRatio, HighRatio int
	Shape               Treatment
	Rigid               Treatment // of something that does not bend
	// Uneven is the treatment of something whose thickness varies by more than
	// Even.
	Uneven Treatment
	Even   units.Length
	Box    Treatment // of a box
}

// A PostService is a dated table of the formats of a postal service, smallest
// first. It is plain data: anyone can write down another one.
type PostService struct {
	Name, Source, Date string
	Formats            []PostFormat
}

// USPS returns the letter, flat and parcel of the United States Postal Service
// as of 24 January 2021: Domestic Mail Manual, section 101, archive of that
// date. That a flat's thickness must not vary by more than 1/4 in is from
// memory of the same section. The parcel's limits are not in that section.
func USPS() PostService {
	const in = units.Inch
	return PostService{
		Name: "USPS", Source: "USPS Domestic Mail Manual 101, archive 2021-01-24", Date: "2021-01-24",
		Formats: []PostFormat{
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
func RoyalMail() PostService {
	const mm = units.Millimetre
	return PostService{
		Name: "Royal Mail", Source: "Royal Mail, format sizes", Date: "page without a date",
		Formats: []PostFormat{
			{Name: "letter", Most: units.Size{W: 240 * mm, H: 165 * mm}, Thickest: 5 * mm, Heaviest: 100 * units.Gram},
			{Name: "large letter", Most: units.Size{W: 353 * mm, H: 250 * mm}, Thickest: 25 * mm, Heaviest: 750 * units.Gram},
			{Name: "small parcel", Most: units.Size{W: 450 * mm, H: 350 * mm}, Thickest: 160 * mm, Heaviest: 2 * units.Kilogram},
		},
	}
}

// A PostItem is what is handed in, packed. It is plain data.
type PostItem struct {
	Size      units.Size
	Thickness units.Length
	// Mass is a lower bound only if MassUncertain.
	Mass          units.Mass
	MassUncertain bool
	Flexible      bool         // it bends; anything with boards in it does not
	Uneven        units.Length // by how much its thickness varies
	Box           bool
}

// A Finding is what a format says to one property of an item.
type Finding struct {
	Treatment Treatment
	Text      string // one sentence, with its numbers
}

// A PostVerdict is what a format says to an item: size with weight, shape,
// rigidity and evenness, each a verdict of its own.
type PostVerdict struct {
	format                    PostFormat
	size, mass, shape         Finding
	rigidity, evenness, boxed Finding
}

// Format returns the format.
func (v PostVerdict) Format() PostFormat { return v.format }

// Size returns the verdict on length, height and thickness.
func (v PostVerdict) Size() Finding { return v.size }

// Mass returns the verdict on the weight: [Unstated] for a mass that is only
// known to be no less and does not exceed the limit.
func (v PostVerdict) Mass() Finding { return v.mass }

// Shape returns the verdict on length over height.
func (v PostVerdict) Shape() Finding { return v.shape }

// Rigidity returns the verdict on whether it must bend.
func (v PostVerdict) Rigidity() Finding { return v.rigidity }

// Evenness returns the verdict on the variation of thickness.
func (v PostVerdict) Evenness() Finding { return v.evenness }

// Box returns the verdict on a box.
func (v PostVerdict) Box() Finding { return v.boxed }

// All walks the six findings.
func (v PostVerdict) All() iter.Seq[Finding] {
	return walk([]Finding{v.size, v.mass, v.shape, v.rigidity, v.evenness, v.boxed})
}

// Overall returns the worst of the findings: Refused if one refuses, then
// Surcharge, then Unstated where the table leaves something open, and Accepted
// only if every one accepts.
func (v PostVerdict) Overall() Treatment {
	out := Accepted
	for f := range v.All() {
		switch {
		case f.Treatment == Refused:
			return Refused
		case f.Treatment == Surcharge, f.Treatment == Unstated && out == Accepted:
			out = f.Treatment
		}
	}
	return out
}

// A PostReport is what a service says to an item, format by format.
type PostReport struct {
	service  PostService
	verdicts []PostVerdict
}

// Service returns the table that was asked.
func (r PostReport) Service() PostService {
	r.service.Formats = append([]PostFormat(nil), r.service.Formats...)
	return r.service
}

// Verdicts walks the verdicts, format by format.
func (r PostReport) Verdicts() iter.Seq[PostVerdict] { return walk(r.verdicts) }

// Smallest returns the verdict of the first format that does not refuse the
// item, and whether there is one.
func (r PostReport) Smallest() (PostVerdict, bool) {
	for _, v := range r.verdicts {
		if v.Overall() != Refused {
			return v, true
		}
	}
	return PostVerdict{}, false
}

// Notice returns [PostNotice].
func (r PostReport) Notice() string { return PostNotice }

// Judge says what each format of the service makes of an item; lengths in the
// texts are written exactly in the given notation. A limit itself is within
// the limit.
func (s PostService) Judge(item PostItem, n units.Notation) PostReport {
	s.Formats = append([]PostFormat(nil), s.Formats...)
	r := PostReport{service: s, verdicts: make([]PostVerdict, 0, len(s.Formats))}
	for _, f := range s.Formats {
		r.verdicts = append(r.verdicts, f.judge(item, n))
	}
	return r
}

func longFirst(s units.Size) units.Size {
	return units.Size{W: max(s.W, s.H), H: min(s.W, s.H)}
}

func (f PostFormat) judge(item PostItem, n units.Notation) PostVerdict {
	v := PostVerdict{format: f}
	size := longFirst(item.Size)
	v.size = f.judgeSize(size, item.Thickness, n)
	switch {
	case f.Heaviest == 0:
		v.mass = Finding{Unstated, "no limit of weight in this table"}
	case item.Mass > f.Heaviest:
		v.mass = Finding{Refused, item.Mass.String() + " is more than " + f.Heaviest.String()}
	case item.MassUncertain:
		v.mass = Finding{Unstated, "it weighs at least " + item.Mass.String() + "; at most " + f.Heaviest.String() + " are taken: weigh it"}
	default:
		v.mass = Finding{Accepted, item.Mass.String() + " of at most " + f.Heaviest.String()}
	}
	switch low, high := times(size.H, f.LowRatio), times(size.H, f.HighRatio); {
	case f.LowRatio == 0 && f.HighRatio == 0:
		v.shape = Finding{Accepted, "any shape"}
	case f.LowRatio > 0 && times(size.W, 10) < low:
		v.shape = Finding{f.Shape, "length over height is less than " + tenths(f.LowRatio)}
	case f.HighRatio > 0 && times(size.W, 10) > high:
		v.shape = Finding{f.Shape, "length over height is more than " + tenths(f.HighRatio)}
	default:
		v.shape = Finding{Accepted, "length over height is within " + tenths(f.LowRatio) + " to " + tenths(f.HighRatio)}
	}
	v.rigidity = Finding{Accepted, "it bends"}
	if !item.Flexible {
		v.rigidity = Finding{f.Rigid, "it is rigid"}
	}
	v.evenness = Finding{Accepted, "its thickness varies by " + n.Text(item.Uneven) + " of at most " + n.Text(f.Even)}
	if item.Uneven > f.Even {
		v.evenness = Finding{f.Uneven, "its thickness varies by " + n.Text(item.Uneven)}
		if f.Uneven != Unstated && f.Uneven != Accepted {
			v.evenness.Text += ", more than " + n.Text(f.Even)
		}
	} else if item.Uneven == 0 {
		v.evenness.Text = "it is even"
	}
	v.boxed = Finding{Accepted, "it is no box"}
	if item.Box {
		v.boxed = Finding{f.Box, "it is a box"}
	}
	return v
}

func (f PostFormat) judgeSize(size units.Size, thick units.Length, n units.Notation) Finding {
	most, least := longFirst(f.Most), longFirst(f.Least)
	if f.Most == (units.Size{}) && f.Thickest == 0 {
		return Finding{Unstated, "no limit of size in this table"}
	}
	for _, side := range [...]struct {
		what             string
		got, least, most units.Length
	}{
		{"length", size.W, least.W, most.W}, {"height", size.H, least.H, most.H},
		{"thickness", thick, f.Thinnest, f.Thickest},
	} {
		switch {
		case side.most > 0 && side.got > side.most:
			return Finding{Refused, "its " + side.what + " of " + n.Text(side.got) + " is more than " + n.Text(side.most)}
		case side.got < side.least:
			return Finding{Refused, "its " + side.what + " of " + n.Text(side.got) + " is less than " + n.Text(side.least)}
		}
	}
	return Finding{Accepted, sizeText(n, size) + " x " + n.Text(thick) + " of at most " + sizeText(n, most) + " x " + n.Text(f.Thickest)}
}

func tenths(n int) string { return count(n/10) + "." + count(n%10) }

// Packing is what goes round a folio for the post.
type Packing struct {
	// Padding lies on all six sides, Wall is the caliper of the envelope or of
	// the box outside it. Both default to 0.
	Padding, Wall units.Length
	// Mass of packing and padding; 0 means unknown.
	Mass units.Mass
	// Box says that it is a box, which is even on the outside.
	Box bool
	// Weighing is how the folio is weighed; it is always filled and single.
	Weighing Weighing
}

// PostItem returns the closed and filled folio in its packing, and whether the
// folio shuts. A folio of boards is rigid. Its mass is uncertain where that of
// a part is unknown.
func (p *Plan) PostItem(k Packing) (PostItem, bool) {
	o, ok := p.Overall(true)
	if !ok {
		return PostItem{}, false
	}
	round := min(max(k.Padding, 0), units.Longest) + min(max(k.Wall, 0), units.Longest)
	k.Weighing.Filled, k.Weighing.Copies = true, 1
	mass, certainty := p.Weigh(k.Weighing).Total()
	item := PostItem{
		Size: o.Size().Grow(round), Thickness: o.thickness.Length() + 2*round,
		Mass: mass + max(k.Mass, 0), MassUncertain: certainty == Unknown || k.Mass <= 0,
		Uneven: o.uneven, Box: k.Box,
	}
	if k.Box {
		item.Uneven = 0
	}
	return item, true
}
