package pocket

import (
	"iter"
	"slices"
	"strings"

	"boardwrap.example/internal/quote"
	"boardwrap.example/units"
)

// A Content is something that is held: a photograph, a card, a note, a tag.
// The size is as it lies, width across. A thickness of 0 stands for something
// so thin that it is not counted. Contents are comparable.
type Content struct {
	Name      string       // what it is called in the order of work; empty is "content"
	Size      units.Size   // as it lies, width across; 0.01 mm to 10 m a side
	Thickness units.Length // of one of them; 0 is not counted
}

// Turned returns the content after a quarter turn.
func (c Content) Turned() Content {
	c.Size = c.Size.Turned()
	return c
}

// name is what the content is called in a sentence.
func (c Content) name() string {
	if c.Name == "" {
		return "content"
	}
	return quote.Clip(c.Name, quote.Most)
}

// A Usual is a content of the table together with where its size is from.
type Usual struct {
	Content Content // with its size as published or as is usual
	Source  string  // a published source, "from memory" or "common practice, no published source"
}

const (
	iso7810  = "ISO/IEC 7810, ID-1 (0.68 to 0.84 mm thick)"
	practice = "common practice, no published source"
	prints   = "print size in common practice, no published source; about 0.26 mm resin-coated paper, common practice"
	iso1008  = "ISO 1008, from memory; about 0.26 mm resin-coated paper, common practice"
	cards    = "size in common practice, no published source; caliper of index 110: US Government Paper Specification Standards No. 11, 1999"
	iso216   = "ISO 216:2007; caliper of text 80: US Government Paper Specification Standards No. 11, 1999"
)

// Calipers of the table: resin-coated photographic paper, index 110 and text
// 80.
const (
	rcPaper  = 260 * units.Micrometre
	index110 = 91 * units.Thou / 10
	text80   = 63 * units.Thou / 10
)

const (
	in = units.Inch
	mm = units.Millimetre
)

// usual returns the table. A print in inches and its twin in millimetres
// differ by up to half a millimetre and are different contents: 4 x 6 in is
// 101.6 x 152.4 mm.
func usual() [21]Usual {
	entry := func(name string, w, h, t units.Length, source string) Usual {
		return Usual{Content{name, units.Size{W: w, H: h}, t}, source}
	}
	return [...]Usual{
		entry("ID-1 card", 8560*mm/100, 5398*mm/100, 760*units.Micrometre, iso7810),
		entry("ID-1 card, inches", 3370*units.Thou, 2125*units.Thou, 760*units.Micrometre, iso7810+"; width and height as published in inches"),
		entry("photo 3.5 x 5 in", 7*in/2, 5*in, rcPaper, prints),
		entry("photo 4 x 6 in", 4*in, 6*in, rcPaper, prints),
		entry("photo 5 x 7 in", 5*in, 7*in, rcPaper, prints),
		entry("photo 8 x 10 in", 8*in, 10*in, rcPaper, prints),
		entry("photo 89 x 127 mm", 89*mm, 127*mm, rcPaper, iso1008),
		entry("photo 102 x 152 mm", 102*mm, 152*mm, rcPaper, iso1008),
		entry("photo 127 x 178 mm", 127*mm, 178*mm, rcPaper, iso1008),
		entry("photo 203 x 254 mm", 203*mm, 254*mm, rcPaper, iso1008),
		entry("photo 10 x 15 cm", 101*mm, 152*mm, rcPaper, "often sold as 101 x 152 mm: "+prints),
		entry("note card 3 x 5 in", 5*in, 3*in, index110, cards),
		entry("note card 4 x 6 in", 6*in, 4*in, index110, cards),
		entry("note card 5 x 8 in", 8*in, 5*in, index110, cards),
		entry("note card 4 1/4 x 5 1/2 in", 11*in/2, 17*in/4, index110, cards),
		entry("note A7", 74*mm, 105*mm, text80, iso216),
		entry("note A6", 105*mm, 148*mm, text80, iso216),
		entry("note A5", 148*mm, 210*mm, text80, iso216),
		entry("postcard 105 x 148 mm", 105*mm, 148*mm, index110, "ISO 216:2007 (A6); caliper of index 110: US Government Paper Specification Standards No. 11, 1999"),
		entry("tag 2 3/8 x 4 3/4 in", 19*in/8, 19*in/4, 13*units.Thou, "from memory"),
		entry("tag 40 x 80 mm", 40*mm, 80*mm, 300*units.Micrometre, practice),
	}
}

// UsualContents walks the table of usual contents: the ID-1 card in
// millimetres and as published in inches, photographic prints in inches and
// in millimetres, note cards and notes, tags. Prints and tags stand upright,
// cards lie.
func UsualContents() iter.Seq[Usual] {
	return func(yield func(Usual) bool) {
		for _, u := range usual() {
			if !yield(u) {
				return
			}
		}
	}
}

// UsualContent returns the content of the table with the given name, exactly
// as [UsualContents] spells it, and whether there is one.
func UsualContent(name string) (Usual, bool) {
	table := usual()
	i := slices.IndexFunc(table[:], func(u Usual) bool { return u.Content.Name == name })
	if i < 0 {
		return Usual{}, false
	}
	return table[i], true
}

// Prints walks the photographic prints of the table for plans in a notation,
// upright: those sold by the millimetre or the centimetre where plans are
// metric, and those sold by the inch elsewhere.
func Prints(n units.Notation) iter.Seq[Content] {
	return func(yield func(Content) bool) {
		for _, u := range usual() {
			name := u.Content.Name
			if strings.HasPrefix(name, "photo ") && strings.HasSuffix(name, " in") == (n != units.MetricDecimal) && !yield(u.Content) {
				return
			}
		}
	}
}

// IDCard returns the ID-1 card of ISO/IEC 7810, 85.60 x 53.98 x 0.76 mm.
func IDCard() Content { return usual()[0].Content }
