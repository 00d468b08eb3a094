package guide

import (
	"slices"
	"strconv"

	"boardwrap.example/units"
)

// A Picture is a drawing at true scale: a millimetre of it is a millimetre of
// the thing, but in an enlarged detail. Pictures cannot be changed and may be shared between goroutines.
// The zero Picture is empty.
type Picture struct {
	title, description string
	size, printed      units.Size
	pen                pen
	figures            []placedFigure
	keys               []key
	texts              []text // of the legend and the notes
}

// A placedFigure is a figure and by how much it is moved on the picture.
type placedFigure struct {
	*figure
	by units.Point
}

// A key is a sample of a line in the legend.
type key struct {
	kind  lineKind
	field bool // a hatched field instead, on the back if so
	back  bool
	at    units.Rect
}

// Title says what the picture shows, in a few words.
func (p Picture) Title() string { return p.title }

// Description tells what can be seen, for those who cannot.
func (p Picture) Description() string { return p.description }

// Size returns the width and height of the drawing at true scale, with its
// dimensions and its legend.
func (p Picture) Size() units.Size { return p.size }

// Printed returns the width and height at which the picture is meant to be
// printed: Size, or less where Options.Fit asked for it.
func (p Picture) Printed() units.Size { return p.printed }

// Empty reports whether there is nothing to see.
func (p Picture) Empty() bool { return len(p.figures) == 0 }

// A drawer draws the figures of a picture with a pen.
type drawer func(p pen) []*figure

// most times that a picture is drawn to find the scale at which it fits.
const mostTries = 4

// compose draws a picture so that it fits.
func compose(title, description string, o Options, write figures, draw drawer) Picture {
	shrink := int64(1000)
	var pic Picture
	for try := range mostTries {
		p := pen{shrink: shrink, write: write, keys: new([]letterKey)}
		p.widest = p.mm(o.Fit.W.Nanometres() / 1000 / namesShare)
		figs := draw(p)
		for _, f := range figs {
			f.settle()
		}
		pic = arrange(p, figs, o)
		need := max(over(pic.size.W, o.Fit.W), over(pic.size.H, o.Fit.H))
		if need <= shrink || try == mostTries-1 {
			break
		}
		// Words grow with the scale and take room of their own: what is beyond
		// the bodies of the figures grows, these do not.
		body := pic.bodies()
		if try == 0 {
			need = max(need, over(body.W, o.Fit.W-(pic.size.W-body.W)), over(body.H, o.Fit.H-(pic.size.H-body.H)))
		}
		grown := need + need/64
		if try > 0 {
			grown = need + need/12
		}
		// No further than to a quarter of what the bodies need: more words than
		// that do not go in at any scale.
		grown = min(grown, 4*max(over(body.W, o.Fit.W), over(body.H, o.Fit.H)))
		if grown <= shrink {
			break
		}
		shrink = grown
	}
	pic.title, pic.description = title, description
	pic.printed.W, _ = pic.size.W.Scale(1000, pic.pen.shrink, units.Up)
	pic.printed.H, _ = pic.size.H.Scale(1000, pic.pen.shrink, units.Up)
	return pic
}

// namesShare is the part of the room's width that a name beside a drawing may take. A
// longer one goes into the legend, and a letter stands for it: on a telephone the names
// of what lies in a folio would leave the folio no room.
const namesShare = 3

// A letterKey is a name in the legend for which a letter stands in the picture.
type letterKey struct {
	letter, name string
	of           ref
}

// bodies returns the size that figures side by side take without their words.
func (p *Picture) bodies() units.Size {
	var all units.Rect
	for i, f := range p.figures {
		cover(&all, f.body.Moved(f.by), i == 0)
	}
	return all.Size()
}

// dwarfed reports whether a figure comes out so small on paper, less than 15 mm
// along its longer side, that its words dwarf it.
func (p *Picture) dwarfed() bool {
	for _, f := range p.figures {
		size := f.body.Size()
		if long := max(size.W, size.H); long < p.pen.mm(15_000) {
			return true
		}
	}
	return false
}

// over returns how many thousandths of a room a length takes, at least 1000.
func over(l, room units.Length) int64 {
	if room <= 0 || l <= room {
		return 1000
	}
	share, _ := units.Length(1000).Scale(l.Nanometres(), room.Nanometres(), units.Up)
	return min(share, units.Metre).Nanometres() // of a room of next to nothing
}

// arrange puts figures beside each other and the legend below them.
func arrange(p pen, figs []*figure, o Options) Picture {
	pic := Picture{pen: p, figures: make([]placedFigure, 0, len(figs))}
	margin, gap := p.mm(2000), p.mm(8000)
	var widest units.Length
	for _, f := range figs {
		widest = max(widest, f.all.Size().W)
	}
	limit := max(widest, p.mm(rowWidth))
	if o.Fit.W > 0 {
		limit = max(widest, p.mm(o.Fit.W.Nanometres()/1000)-2*margin)
	}
	x, y := margin, margin
	var right, row units.Length
	for _, f := range figs {
		size := f.all.Size()
		if x > margin && x+size.W > margin+limit {
			x, y, row = margin, y+row+gap, 0
		}
		pic.figures = append(pic.figures, placedFigure{f, units.Point{X: x - f.all.Min.X, Y: y - f.all.Min.Y}})
		row = max(row, size.H)
		right = max(right, x+size.W)
		x += size.W + gap
	}
	pic.legend(y+row, max(right-margin, p.mm(legendWidth), p.mm(o.Fit.W.Nanometres()/1000)-2*margin), &right)
	pic.size.W = right + margin
	return pic
}

// mostNotes is how many names that found no room are listed.
const mostNotes = 20

// Widths in thousandths of a millimetre on paper: of a row of figures where no
// room is given, and of a narrow picture's legend.
const (
	rowWidth    = 260_000
	legendWidth = 60_000
)

// legend writes the legend and the notes below y, within a width, and says how
// far right it reaches.
func (p *Picture) legend(y, width units.Length, right *units.Length) {
	q := p.pen
	margin := q.mm(2000)
	sample, gap, step := q.mm(10000), q.em(1100), q.em(1350)
	x := margin
	y += q.em(1500)
	put := func(s string, before units.Length) (units.Length, units.Length) {
		w := textWidth(s, q.mm(textSize))
		if x > margin && x+before+w > margin+width {
			x, y = margin, y+step
		}
		at := x
		p.texts = append(p.texts, text{s: s, at: units.Point{X: at + before, Y: y}, anchor: atStart, width: w, of: nothing})
		x += before + w + gap
		*right = max(*right, at+before+w)
		return at, y - q.em(350)
	}
	say := func(s string) { put(s, 0) }
	used, face, back := p.kinds()
	for k := range thin {
		if used[k] && styles[k].legend != "" {
			at, line := put(styles[k].legend, sample+q.em(400))
			p.keys = append(p.keys, key{kind: k, at: units.Rect{Min: units.Point{X: at, Y: line}, Max: units.Point{X: at + sample, Y: line}}})
		}
	}
	for i, there := range [...]bool{face, back} {
		if there {
			at, line := put([...]string{"takes adhesive", "takes adhesive behind"}[i], sample+q.em(400))
			p.keys = append(p.keys, key{field: true, back: i == 1, at: units.Rect{Min: units.Point{X: at, Y: line - q.em(300)}, Max: units.Point{X: at + sample, Y: line + q.em(300)}}})
		}
	}
	if p.measured() {
		say(q.write.units())
	}
	var said []string
	for _, f := range p.figures {
		if f.times > 1 {
			say("detail " + strconv.Itoa(int(f.times)) + ":1")
		}
		for _, s := range f.says {
			if !slices.Contains(said, s) {
				said = append(said, s)
				say(s)
			}
		}
	}
	for _, k := range *q.keys {
		say(k.letter + ": " + k.name)
		p.texts[len(p.texts)-1].of = k.of
	}
	before, n := "no room to name: ", 0
	for _, f := range p.figures {
		for _, note := range f.notes {
			if n++; n <= mostNotes {
				say(before + note)
			}
			before = ""
		}
	}
	if n > mostNotes {
		say("and " + strconv.Itoa(n-mostNotes) + " more")
	}
	p.size.H = y + q.em(drop) + margin
}

// kinds returns which kinds of line and of hatching there are.
func (p *Picture) kinds() (used [lineKinds]bool, face, back bool) {
	for _, f := range p.figures {
		for i := range f.lines {
			used[f.lines[i].kind] = true
		}
		for i := range f.fields {
			face = face || !f.fields[i].back
			back = back || f.fields[i].back
		}
	}
	return used, face, back
}

// measured reports whether there are dimensions.
func (p *Picture) measured() bool {
	for _, f := range p.figures {
		if f.measures {
			return true
		}
	}
	return false
}
