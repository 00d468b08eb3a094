package propose

import (
	"slices"
	"strconv"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/post"
	"boardwrap.example/folio/rule"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Request says what a folio must hold, what it is made of and how large it may
// be. It is plain data.
type Request struct {
	// Things are what goes in.
	Things []Thing
	// Case is the folio without what is searched for: its materials with the
	// sheets at hand, its rulers, its rules for hinge, wrap and liner, and its form
	// or a row of its own. Cover, Block, Spine and Magnets stay zero; its fittings
	// are on the outside. Closing.UnderFlap is the least there is.
	Case folio.Spec
	// Forms are forms and rows of boards to choose among, instead of the one of
	// Case, whose Form and Row stay zero then; [AnyForm] lists every form there is.
	// For each aim the form with the best folio is taken, and the others say why
	// they were not.
	Forms []Form
	// Stock is the name of the material of the fittings, of Case.Stocks or of the
	// case; empty means a plain card that is alike on both sides: that of
	// [stock.DefaultCard].
	Stock string
	// Without are ways to hold things that are not wanted.
	Without []Holder
	// Limits bound the folio.
	Limits Limits
	// Taste is how a cover is laid out.
	Taste Taste
}

// A Thing is something to be held, in a number of copies.
type Thing struct {
	// Content is one of it; thickness 0 is not counted.
	Content pocket.Content
	// Count is how many there are; 0 means 1.
	Count int
	// Sight says whether it is to be seen.
	Sight Sight
	// Keeping says whether its copies are kept together.
	Keeping Keeping
	// Sticks says that it may be stuck down for good.
	Sticks bool
	// Upright says that it is not to be turned a quarter.
	Upright bool
	// Group is a name: things of one group lie on one cover. Empty is none.
	Group string
}

// Limits bound a folio. A zero field is no limit.
type Limits struct {
	// Cover is the largest cover board, its width and its height; a side of 0 is
	// not limited.
	Cover units.Size
	// Thickness is the most that the closed folio measures, filled; 0 is no limit.
	Thickness units.Length
	// Into is the inside of a box or an envelope that the closed folio goes into.
	Into Space
	// Post is a format in which it is to be sent.
	Post Post
	// Materials are the sheets at hand, so many of each, out of which all pieces
	// of these materials must come.
	Materials []layout.Material
}

// A Space is the inside of a box or an envelope. The folio lies flat in it,
// either way round.
type Space struct {
	// Size is its width and height; the zero Size is no limit.
	Size units.Size
	// Depth is how thick what lies in it may be; 0 is not limited.
	Depth units.Length
	// Padding lies round the folio, on all six sides; 0 is none.
	Padding units.Length
}

// Post names a format of one of the services of [post.Services].
type Post struct {
	// Service is the name of the service; empty is no limit.
	Service string
	// Format is the name of the format.
	Format string
	// Packing is what goes round the folio.
	Packing post.Packing
}

// Taste is how a cover is laid out: common practice, no published source.
type Taste struct {
	// Margin is left at least between the edge of a panel and what lies on it; 0
	// means 1/4 in, or 6 mm where plans are metric, [units.None] nothing.
	Margin units.Length
	// Between is left at least between two fittings; 0 means 1/4 in, or 6 mm
	// where plans are metric, [units.None] nothing. Where a pocket opens there is
	// room to grip in any case.
	Between units.Length
	// Order is how parts lie to each other.
	Order Order
	// Anyhow leaves what is thick where it comes, instead of at the spine and
	// towards the tail.
	Anyhow bool
}

// Limits on a request, so that none takes unbounded time or memory.
const (
	MostThings    = 32  // different things
	MostCopies    = 200 // copies of all of them together
	MostMaterials = 100 // materials at hand
	MostForms     = 16  // forms to choose among
)

// check finds what is wrong with a request.
func (r *Request) check(bad *check.List) {
	full := r.Case.WithDefaults()
	bad.In(full.Rulers.Main.Notation())
	r.checkThings(bad)
	r.checkCase(bad)
	r.checkForms(bad)
	if len(r.Without) > ways {
		bad.Malformed("without", check.TooMany, strconv.Itoa(len(r.Without)), "each way once, at most "+strconv.Itoa(ways))
	} else {
		for i, w := range r.Without {
			if w >= ways {
				bad.Malformed(check.Index("without", i), check.Unknown, strconv.Itoa(int(w)), wayWords.Want())
			}
		}
	}
	r.Limits.check(bad)
	if r.Taste.Margin != units.None {
		bad.Allowance("taste.margin", r.Taste.Margin)
	}
	if r.Taste.Between != units.None {
		bad.Allowance("taste.between", r.Taste.Between)
	}
	if r.Taste.Order > LinedUp {
		bad.Malformed("taste.order", check.Unknown, strconv.Itoa(int(r.Taste.Order)), "centred or lined up")
	}
}

func (r *Request) checkThings(bad *check.List) {
	switch {
	case len(r.Things) == 0:
		bad.Malformed("things", check.Missing, "nothing to hold", "at least one thing")
	case len(r.Things) > MostThings:
		bad.Malformed("things", check.TooMany, strconv.Itoa(len(r.Things)), "at most "+strconv.Itoa(MostThings))
		return
	}
	copies := 0
	for i, t := range r.Things {
		at := check.Index("things", i)
		bad.Size(at+".content.size", t.Content.Size)
		bad.Allowance(at+".content.thickness", t.Content.Thickness)
		switch {
		case t.Count < 0:
			bad.Malformed(at+".count", check.Negative, strconv.Itoa(t.Count), "0 for one, or up to "+strconv.Itoa(MostCopies))
		case t.Count > MostCopies:
			bad.Malformed(at+".count", check.TooMany, strconv.Itoa(t.Count), "at most "+strconv.Itoa(MostCopies))
		default:
			copies += max(t.Count, 1)
		}
		if t.Sight > TuckedAway {
			bad.Malformed(at+".sight", check.Unknown, strconv.Itoa(int(t.Sight)), "either, in view or tucked away")
		}
		if t.Keeping > Apart {
			bad.Malformed(at+".keeping", check.Unknown, strconv.Itoa(int(t.Keeping)), "either, together or apart")
		}
	}
	if copies > MostCopies {
		bad.Malformed("things", check.TooMany, strconv.Itoa(copies)+" copies in all", "at most "+strconv.Itoa(MostCopies))
	}
}

// checkCase checks that the case leaves open what is searched for, and that it
// can be built around something.
func (r *Request) checkCase(bad *check.List) {
	c := &r.Case
	for _, f := range [...]struct {
		path  string
		given bool
	}{
		{"case.cover", c.Cover != units.Size{}},
		{"case.block", c.Block != boards.Block{}},
		{"case.spine", c.Spine != rule.Spine{}},
		{"case.magnets", c.Magnets != closing.Magnets{}},
	} {
		if f.given {
			bad.Malformed(f.path, check.Conflict, "a value", "none: it is what is searched for, or follows from it")
		}
	}
	if len(c.Fittings) > folio.MaxFittings-MostCopies {
		bad.Malformed("case.fittings", check.TooMany, strconv.Itoa(len(c.Fittings)), "at most "+strconv.Itoa(folio.MaxFittings-MostCopies))
		return
	}
	for i, f := range c.Fittings {
		if !f.Outside && f.StandsOn == "" {
			bad.Malformed(check.Index("case.fittings", i)+".outside", check.Conflict, "a fitting inside", "one on the outside: the inside is what is searched for")
		}
	}
}

// checkHinge checks that joints without a board between them follow what lies in
// the folio.
func (r *Request) checkHinge(bad *check.List) {
	c, is := &r.Case, r.Case.WithDefaults().Hinge.Rule
	if soft := c.Form == boards.SoftSpine || c.Form == boards.SoftGate || c.Form == boards.FourPanelZ; soft && is != rule.HingeRoundContents {
		bad.Malformed("case.hinge.rule", check.Conflict, is.String()+" of soft spines", rule.HingeRoundContents.String())
	}
}

func (l *Limits) check(bad *check.List) {
	side := func(path string, v units.Length) {
		if v != 0 {
			bad.Length(path, v)
		}
	}
	side("limits.cover.w", l.Cover.W)
	side("limits.cover.h", l.Cover.H)
	side("limits.thickness", l.Thickness)
	if (l.Into.Size != units.Size{}) {
		bad.Size("limits.into.size", l.Into.Size)
	}
	side("limits.into.depth", l.Into.Depth)
	bad.Allowance("limits.into.padding", l.Into.Padding)
	if l.Post.Service != "" {
		l.Post.check(bad)
	} else if l.Post.Format != "" {
		bad.Malformed("limits.post.service", check.Missing, "a format and no service", "one of "+servicesWith(l.Post.Format))
	}
	if len(l.Materials) > MostMaterials {
		bad.Malformed("limits.materials", check.TooMany, strconv.Itoa(len(l.Materials)), "at most "+strconv.Itoa(MostMaterials))
	}
}

// check checks that there is such a format.
func (p *Post) check(bad *check.List) {
	services := ""
	for s := range post.Services() {
		if s.Name != p.Service {
			services = listed(services, s.Name)
			continue
		}
		formats := ""
		for _, f := range s.Formats {
			if f.Name == p.Format {
				return
			}
			formats = listed(formats, f.Name)
		}
		bad.Malformed("limits.post.format", check.Unknown, check.Quote(p.Format), "one of "+formats)
		return
	}
	bad.Malformed("limits.post.service", check.Unknown, check.Quote(p.Service), "one of "+services)
}

// servicesWith names the services that have a format, all where none has it.
func servicesWith(format string) string {
	all, have := "", ""
	for s := range post.Services() {
		all = listed(all, s.Name)
		if slices.ContainsFunc(s.Formats, func(f post.ItemFormat) bool { return f.Name == format }) {
			have = listed(have, s.Name)
		}
	}
	if have == "" {
		return all
	}
	return have
}

// listed adds a name to a list of names.
func listed(list, name string) string {
	if list == "" {
		return name
	}
	return list + ", " + name
}

// format returns the service with the one format that is asked for, and whether
// one is.
func (p *Post) format() (post.Service, bool) {
	for s := range post.Services() {
		if s.Name != p.Service {
			continue
		}
		for _, f := range s.Formats {
			if f.Name == p.Format {
				s.Formats = []post.ItemFormat{f}
				return s, true
			}
		}
	}
	return post.Service{}, false
}

// orUsual returns what is given: the usual 1/4 in or 6 mm for 0, and nothing for
// units.None.
func orUsual(l units.Length, n units.Notation) units.Length {
	switch l {
	case 0:
		return n.Choose(units.Inch/4, 6*units.Millimetre)
	case units.None:
		return 0
	}
	return l
}
