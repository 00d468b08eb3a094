package propose

import (
	"slices"
	"strconv"
	"strings"

	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// MostBytes bounds the text that [ParseThings] reads.
const MostBytes = 10_000

// ParseThings reads a list of things as one says it:
//
//	6 photo 10 x 15 cm, 1 ID-1 card, 1 note
//	2 photo 4 x 6 in in view, 12 tag 40 x 80 mm 0.3 mm thick together
//
// Each is a count, in figures ("6", "6x") or up to twelve in words, which may be left out,
// a name and a size. Photographs, prints, notes and the like are read as the one of which there
// are several, and "10x15cm" as 10 x 15 cm. A name of
// [pocket.UsualContents] needs no size and no thickness: "photo 4 x 6 in", "note
// card 3 x 5 in", "ID-1 card"; a "note" by itself is of A6, a "postcard" of 105 x
// 148 mm, as is common practice, no published source. Paper of ISO 216 is named A0 to
// A10 or B0 to B10, as in "menu A5", and a card of ISO/IEC 7810 as in "membership card
// ID-1". A third length is how thick a thing is, as in "booklet 148 x 210 x 4 mm". What
// follows the size: "0.5 mm thick",
// "in view", "tucked away", "together", "apart", "may be stuck", "upright".
// Without a thickness a thing of another name is taken as so thin that it does
// not count. A comma parts things unless it is that of decimals, as in "print 10,5 x 15 cm".
//
// The error is a *[check.Error] with a violation for each thing that cannot be
// read, paths as in [Request].Things.
func ParseThings(text string) ([]Thing, error) {
	var bad check.List
	if len(text) > MostBytes {
		bad.Malformed("things", check.TooLarge, strconv.Itoa(len(text))+" bytes", "at most "+strconv.Itoa(MostBytes))
		return nil, bad.Err()
	}
	var out []Thing
	for i, part := range parted(text) {
		part = strings.Join(strings.Fields(part), " ")
		if part == "" {
			bad.Malformed(check.Index("things", i), check.Missing, "nothing", `a thing, as in "1 ID-1 card"`)
			continue
		}
		t, got, want := parseThing(part)
		if want != "" {
			bad.Malformed(check.Index("things", i), check.Unknown, check.Quote(got), want)
			continue
		}
		out = append(out, t)
	}
	if err := bad.Err(); err != nil {
		return nil, err
	}
	return out, nil
}

// parted parts a text at its commas, but for those of decimals, as in 10,5 x 15 cm.
func parted(text string) []string {
	var list []string
	from := 0
	for i := range len(text) {
		if text[i] == ',' && !(i > from && digits(text[i-1:i]) && decimals(text[i+1:])) {
			list = append(list, text[from:i])
			from = i + 1
		}
	}
	return append(list, text[from:])
}

// decimals reports whether what stands behind a comma is the rest of a number: figures
// before an x with another number, or before a unit. The count of a thing is before neither.
func decimals(text string) bool {
	rest := strings.TrimLeft(text, "0123456789")
	if rest == text {
		return false
	}
	rest = strings.TrimLeft(rest, " ")
	for _, x := range [...]string{"x", "×"} {
		if more, ok := strings.CutPrefix(rest, x); ok {
			more = strings.TrimLeft(more, " ")
			return more != "" && digits(more[:1])
		}
	}
	unit, _, _ := strings.Cut(rest, ",")
	unit, _, _ = strings.Cut(unit, " ")
	_, err := units.Parse("1" + unit)
	return err == nil
}

// wishes are the words that may follow a thing.
var wishes = [...]struct {
	words string
	set   func(*Thing)
}{
	{"in view", func(t *Thing) { t.Sight = InView }},
	{"tucked away", func(t *Thing) { t.Sight = TuckedAway }},
	{"together", func(t *Thing) { t.Keeping = Together }},
	{"apart", func(t *Thing) { t.Keeping = Apart }},
	{"may be stuck", func(t *Thing) { t.Sticks = true }},
	{"upright", func(t *Thing) { t.Upright = true }},
}

// parseThing reads one thing; want is not empty where it cannot.
func parseThing(part string) (t Thing, got, want string) {
	whole, ok := part, false
	if t.Count, part, ok = counted(part); !ok {
		word, _, _ := strings.Cut(part, " ")
		return t, word, "a count from 1 to " + strconv.Itoa(MostCopies) + " in figures"
	}
	for again := true; again; {
		again = false
		for _, w := range wishes {
			if rest, ok := strings.CutSuffix(part, " "+w.words); ok {
				w.set(&t)
				part, again = rest, true
			}
		}
	}
	var thickness units.Length
	thick := false
	if rest, ok := strings.CutSuffix(part, " thick"); ok {
		if rest, thickness, ok = lastLength(rest); !ok {
			return t, whole, `a thickness before "thick", as in "0.5 mm thick"`
		}
		part, thick = rest, true
	}
	part = plainly(part)
	content, ok := namedContent(part)
	if ok && thick && thrice(part) {
		return t, whole, `one thickness, as in "booklet 148 x 210 x 4 mm" or "booklet 148 x 210 mm 4 mm thick"`
	}
	if !ok {
		if _, ok = namedContent(part + " cm"); ok {
			return t, whole, `a unit after the size, as in "photo 10 x 15 cm"`
		}
		return t, whole, `a name with a size, as in "ticket 70 x 150 mm 0.2 mm thick" or "menu A5", or ` + usualNames(part)
	}
	t.Content = content
	if thick {
		t.Content.Thickness = thickness
	}
	return t, "", ""
}

// counted takes the count off the beginning of a thing, 0 where there is none; it is not
// ok where there is one that is not read.
func counted(part string) (n int, rest string, ok bool) {
	words := strings.Fields(strings.ToLower(part))
	if len(words) < 2 {
		return 0, part, true
	}
	if slices.Contains(uncounted[:], words[0]) || slices.Contains(words[:min(3, len(words))], "dozen") {
		return 0, part, false
	}
	times := strings.TrimRight(words[0], "x×")
	switch n = slices.Index(counts[:], words[0]) + 1; {
	case n > 0:
	case words[0] == "a", words[0] == "an":
		n = 1
	case !digits(times):
		return 0, part, true
	default:
		if n, _ = strconv.Atoi(times); n < 1 || n > MostCopies { // what overflows is read as the largest int
			return 0, part, false
		}
	}
	rest = part[len(words[0])+1:]
	for _, x := range [...]string{"x ", "× "} {
		rest = strings.TrimPrefix(rest, x)
	}
	return n, rest, true
}

// digits reports whether a word is a whole number.
func digits(word string) bool {
	for _, r := range word {
		if r < '0' || r > '9' {
			return false
		}
	}
	return word != ""
}

// lastLength takes a length off the end of a text.
func lastLength(text string) (rest string, l units.Length, ok bool) {
	words := strings.Fields(text)
	for n := min(3, len(words)); n > 0; n-- {
		from := len(words) - n
		if l, err := units.Parse(strings.Join(words[from:], " ")); err == nil && l > 0 {
			return strings.Join(words[:from], " "), l, true
		}
	}
	return "", 0, false
}

// spoken are names that stand for one of the usual contents.
var spoken = [...][2]string{{"note", "note A6"}, {"postcard", "postcard 105 x 148 mm"}, {"card", "ID-1 card"}, {"ID-1", "ID-1 card"}}

// counts are the numbers that have a word, from 1 on.
var counts = [...]string{"one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}

// uncounted are words for numbers that are not read, and that no name begins with.
var uncounted = [...]string{"thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty", "thirty", "forty", "fifty",
	"sixty", "seventy", "eighty", "ninety", "hundred", "some", "several", "many", "few", "both", "no", "zero"}

// plainly returns a thing in the words that its kind goes by: 10x15cm with spaces, and
// its name as that of one.
func plainly(text string) string {
	isDigit := func(r byte) bool { return r-'0' <= 9 }
	var b []byte
	text = strings.ReplaceAll(text, "×", "x")
	for i := range len(text) {
		rest, after := text[i:], i+1
		for after < len(text) && text[after] == ' ' {
			after++
		}
		k := len(b) - 1
		for k >= 0 && b[k] == ' ' {
			k--
		}
		switch number := k >= 0 && isDigit(b[k]); {
		case number && rest[0] == 'x' && after < len(text) && isDigit(text[after]):
			b = append(b, " x "...)
			continue
		case number && (rest == "cm" || rest == "mm" || rest == "in"):
			b = append(b, ' ')
		}
		b = append(b, rest[0])
	}
	words := strings.Fields(string(b))
	for i, w := range words {
		for _, s := range several {
			if strings.ToLower(w) == s[0] {
				words[i] = s[1]
			}
		}
	}
	return strings.Join(words, " ")
}

// several are words for more than one of a usual content, and other words for one.
var several = [...][2]string{{"photo", "photo"}, {"photos", "photo"}, {"photograph", "photo"}, {"photographs", "photo"}, {"prints", "print"},
	{"notes", "note"}, {"postcards", "postcard"}, {"tags", "tag"}, {"cards", "card"}}

// namedContent reads a name with its size.
func namedContent(text string) (pocket.Content, bool) {
	for _, s := range spoken {
		if text == s[0] {
			text = s[1]
		}
	}
	if u, ok := pocket.UsualContent(text); ok {
		return u.Content, true
	}
	words := strings.Fields(text)
	if n := len(words); n > 1 {
		if u, ok := pocket.UsualContent(words[n-1] + " card"); ok {
			u.Content.Name = text
			return u.Content, true
		}
		if size, ok := isoSize(words[n-1]); ok {
			return pocket.Content{Name: text, Size: size}, true
		}
	}
	// The size is the longest end of the text that is one.
	for from := 1; from < len(words); from++ {
		size, thickness, ok := lengths(words[from:])
		if !ok {
			continue
		}
		if words[from-1] == "x" {
			break // what stands before is one of its lengths
		}
		c := pocket.Content{Name: text, Size: size, Thickness: thickness}
		// The print of that size is as thick as prints are.
		if name := words[0]; from == 1 && thickness == 0 && (name == "photo" || name == "print") {
			if u, ok := pocket.UsualContent("photo 4 x 6 in"); ok {
				c.Thickness = u.Content.Thickness
			}
		}
		return c, !size.Empty()
	}
	return pocket.Content{}, false
}

// lengths reads a size, and how thick what is of that size is where there is a third
// length. A unit that stands once, at the end, is that of all.
func lengths(words []string) (size units.Size, thickness units.Length, ok bool) {
	last := len(words) - 1
	for last >= 0 && words[last] != "x" {
		last--
	}
	if !slices.Contains(words[:max(last, 0)], "x") {
		size, err := units.ParseSize(strings.Join(words, " "))
		return size, 0, err == nil
	}
	size, err := units.ParseSize(strings.Join(words[:last], " "))
	if err != nil {
		size, err = units.ParseSize(strings.Join(append(words[:last:last], words[len(words)-1]), " "))
	}
	thickness, wrong := units.Parse(strings.Join(words[last+1:], " "))
	return size, thickness, err == nil && wrong == nil && thickness > 0
}

// thrice reports whether a text ends in three lengths.
func thrice(text string) bool {
	words := strings.Fields(text)
	for from := range words {
		if _, thickness, ok := lengths(words[from:]); ok {
			return thickness > 0
		}
	}
	return false
}

// isoSize returns a size of ISO 216:2007, upright: A0 is 841 x 1189 mm and B0
// 1000 x 1414 mm, and each next one has the long side halved, downwards to the
// millimetre.
func isoSize(name string) (units.Size, bool) {
	const mm = units.Millimetre
	if len(name) < 2 || !digits(name[1:]) {
		return units.Size{}, false
	}
	n, err := strconv.Atoi(name[1:])
	size := units.Size{W: 841 * mm, H: 1189 * mm}
	switch {
	case err != nil || n > 10 || name[0] != 'A' && name[0] != 'B':
		return units.Size{}, false
	case name[0] == 'B':
		size = units.Size{W: 1000 * mm, H: 1414 * mm}
	}
	for range n {
		size = units.Size{W: units.WholeMillimetres.Down(size.H.Half(units.Down)), H: size.W}
	}
	return size, true
}

// usualNames lists the names that need no size: those that begin with the first
// word of a text, or else some of each kind.
func usualNames(text string) string {
	word, _, _ := strings.Cut(text, " ")
	list := ""
	for u := range pocket.UsualContents() {
		if name := u.Content.Name; strings.HasPrefix(name, word+" ") && !strings.Contains(name, ",") {
			list = listed(list, name)
		}
	}
	if list == "" {
		list = "note, postcard, ID-1 card, photo 4 x 6 in, photo 10 x 15 cm, tag 40 x 80 mm"
	}
	return "one of: " + list
}
