package propose

import (
	"strconv"
	"strings"

	"boardwrap.example/internal/word"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Cause is what a [Reason] says: why something is as it is, or why it is not.
type Cause uint8

// Causes.
const (
	NoCause Cause = iota // of the zero Reason: nothing is said
	// Of what was chosen.
	Shown       // it is in view
	Hidden      // it is tucked away, as was asked or as suits the aim
	ComesOut    // nothing is stuck to it
	MayStick    // it may be stuck down
	TakesThick  // gussets open for what is thick
	InOne       // all copies are in one fitting
	EachItsOwn  // each copy has a place of its own
	AtSpine     // what is thick lies at the spine and towards the tail
	InMiddle    // it lies in the middle of its part of the cover
	AtHead      // it lies at the head and the spine side of its part
	OpensToHead // its mouth is away from the fore edge
	OpensToBack // it opens towards the spine, away from the fore edge
	// Of what was ruled out.
	Unwanted     // the request is without it
	WouldStick   // it would be stuck down for good
	WouldHide    // it would not be in view
	WouldShow    // it would be in view
	WouldPart    // the copies would not be together
	WouldPool    // the copies would not be apart
	OneIsNoRow   // there is only one of it
	CannotBe     // it cannot be made
	Unwise       // it can be made, with a warning
	Larger       // the cover would be larger
	Thicker      // the folio would be thicker
	NoBetter     // it would be as large and as thick
	MoreSheets   // it would take more sheets
	NotTried     // the budget or the Stopper ended the search
	OverCover    // the cover would be larger than the limit
	OverThick    // it would be thicker than the limit
	OverSpace    // it would not go into the box or the envelope
	OverDepth    // it would be thicker than the box or the envelope takes
	OverPost     // the postal format does not take it
	OverSheets   // the sheets at hand do not give it
	NoSheets     // no sheets are at hand, so that none can be counted
	NothingHolds // no way to hold it is left
	LessWork     // a slip pocket takes it too
)

var causeWords = word.List{What: "cause", Words: []string{NoCause: "none", Shown: "shown", Hidden: "hidden", ComesOut: "comes out",
	MayStick: "may stick", TakesThick: "takes thick", InOne: "in one", EachItsOwn: "each its own", AtSpine: "at the spine", InMiddle: "in the middle",
	AtHead: "at the head", OpensToHead: "opens to the head", OpensToBack: "opens to the spine", Unwanted: "unwanted", WouldStick: "would stick",
	WouldHide: "would hide", WouldShow: "would show", WouldPart: "would part", WouldPool: "would pool", OneIsNoRow: "one is no row",
	CannotBe: "cannot be", Unwise: "unwise", Larger: "larger", Thicker: "thicker", NoBetter: "no better", MoreSheets: "more sheets",
	NotTried: "not tried", OverCover: "over the cover", OverThick: "over the thickness", OverSpace: "over the space", OverDepth: "over the depth", OverPost: "over the post",
	OverSheets: "over the sheets", NoSheets: "no sheets", NothingHolds: "nothing holds", LessWork: "less work"}}

// String returns the cause in a few words; [Reason.Text] is a sentence.
func (c Cause) String() string { return causeWords.String(uint8(c)) }

// AppendText appends the text of [Cause.String]. The error matches
// units.ErrUnknown.
func (c Cause) AppendText(dst []byte) ([]byte, error) { return causeWords.Append(dst, uint8(c)) }

// MarshalText returns the text of [Cause.String], with the error of
// [Cause.AppendText].
func (c Cause) MarshalText() ([]byte, error) { return causeWords.Marshal(uint8(c)) }

// UnmarshalText reads what [Cause.String] writes. The error matches
// units.ErrSyntax.
func (c *Cause) UnmarshalText(text []byte) error { return word.Unmarshal(causeWords, c, text) }

// A Reason says why, as plain data; its sentence is [Reason.Text].
type Reason struct {
	Cause Cause  // what is said
	Thing int    // the place of the thing in the Request, −1 for none
	Name  string // what the thing is called
	Way   Holder // how it is or would be held
	Count int    // how many copies it is about
	// Size and Thick are what would come of it, Than and ThanThick what there is
	// instead or the limit; 0 where it is not about that.
	Size, Than       units.Size
	Thick, ThanThick units.Length
	// AtLeast says that Size or Thick is a bound: none is smaller or thinner, and one
	// that is just so was not built.
	AtLeast bool
	// Sheets and ThanSheets are counts of sheets.
	Sheets, ThanSheets int
	// Detail is what another room of the library says: a violation, a warning, a
	// finding of the post.
	Detail string
}

// ofAll is a reason that is about no thing in particular.
func ofAll(r Reason) Reason {
	r.Thing = -1
	return r
}

// cannot is the reason that it cannot be made, of something that nobody has seen.
func cannot(err error) Reason { return ofAll(Reason{Cause: CannotBe, Detail: first(err)}) }

// first is the first thing that is wrong, in one line, of a Spec that nobody has
// seen.
func first(err error) string { return firstAs(err, check.Violation.Words) }

// firstAsked is the first thing that is wrong with what was asked, in one line.
func firstAsked(err error) string { return firstAs(err, check.Violation.Error) }

func firstAs(err error, text func(check.Violation) string) string {
	if bad, ok := err.(*check.Error); ok {
		for v := range bad.All() {
			return text(v)
		}
	}
	return err.Error()
}

// sentence is a text as part of a sentence, without its full stop.
func sentence(text string) string { return strings.TrimSuffix(text, ".") }

// sentences of the causes: %n is the thing, %w the way with its article, %m says "at
// least" of a bound, %s and %t are sizes, %a and %b thicknesses, %k so many sheets and %l a count of them, %d the detail.
var sentences = [...]string{
	Shown:       "%n is in view when the folio is open.",
	Hidden:      "%n is out of sight until it is taken out.",
	ComesOut:    "%n comes out again: nothing is stuck to it.",
	MayStick:    "%n is stuck down for good, as it may be.",
	TakesThick:  "%n is %a thick in all and needs gussets that open for it.",
	InOne:       "All copies of %n are in one fitting.",
	EachItsOwn:  "Each copy of %n has a place of its own.",
	AtSpine:     "What is thicker lies nearer to the spine and to the tail.",
	InMiddle:    "It lies in the middle of its part of the cover, with equal margins.",
	AtHead:      "It lies at the head of its part of the cover, lined up with its neighbours.",
	OpensToHead: "It opens towards the head, away from the fore edge, which opens first.",
	OpensToBack: "It opens towards the spine, away from the fore edge, which opens first.",

	Unwanted:     "The request is without %w for %n.",
	WouldStick:   "On %w %n would be stuck down for good, and nobody said that it may be.",
	WouldHide:    "In %w %n would not be in view, and it is to be.",
	WouldShow:    "In %w %n would be in view, and it is to be tucked away.",
	WouldPart:    "In %w the copies of %n would not be together, and they are to be.",
	WouldPool:    "In %w the copies of %n would not be apart, and they are to be.",
	OneIsNoRow:   "There is one of %n, and %w is for several.",
	CannotBe:     "With %w for %n it cannot be made: %d.",
	Unwise:       "With %w for %n it would be unwise: %d.",
	Larger:       "With %w for %n the cover would be %m%s instead of %t.",
	Thicker:      "With %w for %n the folio would be %m%a thick instead of %b.",
	NoBetter:     "With %w for %n the folio would be no better.",
	MoreSheets:   "With %w for %n it would take %k instead of %l.",
	NotTried:     "The search ended before %w for %n was tried.",
	OverCover:    "The cover would be %s, and at most %t is wanted.",
	OverThick:    "The folio would be %m%a thick, and at most %b is wanted.",
	OverSpace:    "Closed, the folio would be %s, which does not go into %t.",
	OverDepth:    "Closed, the folio would be %m%a thick, and there is room for %b.",
	OverPost:     "The post does not take it so: %d.",
	OverSheets:   "The sheets at hand do not give it: %d.",
	NoSheets:     "No sheets are said to be at hand, so that none can be counted.",
	NothingHolds: "No way is left to hold %n.",
	LessWork:     "A slip pocket takes %n as well as %w, with less work.",
}

// general are the sentences of causes that are about no thing in particular.
var general = [...]string{
	CannotBe:   "It cannot be made: %d.",
	Unwise:     "It would be unwise: %d.",
	Larger:     "The cover would be %m%s instead of %t.",
	Thicker:    "The folio would be %m%a thick instead of %b.",
	NoBetter:   "The folio would be no better, and its boards no fewer.",
	MoreSheets: "It would take %k instead of %l.",
	NotTried:   "The search ended before any folio was tried.",
}

// Text returns the reason as one sentence in the given notation. What follows from
// calipers is told in 64ths or thousandths of an inch, or tenths of a millimetre:
// what would come of it rounded up, at least how much and a limit rounded down, and
// both exactly where they would read alike. It is empty for [NoCause].
func (r Reason) Text(n units.Notation) string {
	if int(r.Cause) >= len(sentences) {
		return ""
	}
	f := units.Format{Ruler: n.Exact()}
	var dst []byte
	text := sentences[r.Cause]
	if r.Thing < 0 && int(r.Cause) < len(general) && general[r.Cause] != "" {
		text = general[r.Cause]
	}
	for i := 0; i < len(text); i++ {
		if text[i] != '%' {
			dst = append(dst, text[i])
			continue
		}
		i++
		switch text[i] {
		case 'n':
			dst = append(dst, r.named(len(dst) == 0)...)
		case 'w':
			dst = append(dst, withArticle(r.Way)...)
		case 'm':
			if r.AtLeast {
				dst = append(dst, "at least "...)
			}
		case 's':
			dst = f.AppendSize(dst, r.sizes(n).Size)
		case 't':
			dst = f.AppendSize(dst, r.sizes(n).Than)
		case 'a':
			a, _ := r.thicknesses(n)
			dst = append(dst, a...)
		case 'b':
			_, b := r.thicknesses(n)
			dst = append(dst, b...)
		case 'k':
			dst = strconv.AppendInt(dst, int64(r.Sheets), 10)
			if dst = append(dst, " sheet"...); r.Sheets != 1 {
				dst = append(dst, 's')
			}
		case 'l':
			dst = strconv.AppendInt(dst, int64(r.ThanSheets), 10)
		case 'd':
			dst = append(dst, r.Detail...)
		}
	}
	return string(dst)
}

// limited reports whether what it compares with is a limit.
func (r Reason) limited() bool {
	return r.Cause == OverCover || r.Cause == OverThick || r.Cause == OverSpace || r.Cause == OverDepth
}

// told is how what would come of it is rounded.
func (r Reason) told() units.Direction {
	if r.AtLeast {
		return units.Down
	}
	return units.Up
}

// sizes returns the reason with its sizes rounded to be told.
func (r Reason) sizes(n units.Notation) Reason {
	exact, ruler := r, n.Fine()
	round := func(s units.Size, d units.Direction) units.Size {
		return units.Size{W: ruler.Round(s.W, d).To, H: ruler.Round(s.H, d).To}
	}
	r.Size, r.Than = round(r.Size, r.told()), round(r.Than, units.Up)
	if r.limited() {
		r.Than = round(exact.Than, units.Down)
	}
	if r.Size == r.Than {
		return exact
	}
	return r
}

// thicknesses returns the texts of what it would be thick, and of what that is
// compared with.
func (r Reason) thicknesses(n units.Notation) (is, than string) {
	ruler, down := n.Fine(), units.Up
	if r.limited() {
		down = units.Down
	}
	a, b := ruler.Round(r.Thick, r.told()).To, ruler.Round(r.ThanThick, down).To
	if a == b && r.Thick != r.ThanThick {
		return n.Text(r.Thick), n.Text(r.ThanThick)
	}
	return n.Text(a), n.Text(b)
}

// named is the thing with its count.
func (r Reason) named(begins bool) string {
	name := r.Name
	if name == "" {
		name = "content"
	}
	if name = "the " + name; begins {
		name = "T" + name[1:]
	}
	if r.Count > 1 {
		name += " (" + strconv.Itoa(r.Count) + ")"
	}
	return name
}

// withArticle is a way as part of a sentence.
func withArticle(w Holder) string {
	if w == Corners {
		return w.String()
	}
	return "a " + w.String()
}
