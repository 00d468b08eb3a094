package guide

import (
	"cmp"
	"slices"
	"strings"

	"boardwrap.example/folio"
	"boardwrap.example/internal/inorder"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A template is something to trace at full size.
type template struct {
	name  string
	note  string // how to lay it on
	size  units.Size
	lines []trace
	texts []note
}

// A trace is one line of a template.
type trace struct {
	points []units.Point
	shut   bool
	stroke string
}

// A note is a text of a template.
type note struct {
	at      units.Point
	text    string
	upright bool // read from the right
}

func (t *template) line(stroke string, points ...units.Point) {
	t.lines = append(t.lines, trace{points, false, stroke})
}

func (t *template) polygon(p units.Polygon) {
	var points []units.Point
	for _, c := range p.Corners() {
		points = append(points, c)
	}
	t.lines = append(t.lines, trace{points, true, wideLine})
}

// Templates returns pages to trace from at full size, for what is easier traced
// than measured: the corners of the wrap, notches, slants and round openings of
// folded pieces, the score marks along a strip. What does not go on one page goes
// in several parts that lap each other, with crosses to lay over each other; each
// has bars to hold a ruler against. Parts on which nothing is drawn are left out. A plan that nothing was built of has a document that says so.
func Templates(p *folio.Plan, o PrintOptions) *Document {
	d := &Document{title: "Templates", paper: o.Paper}
	first := Section{Title: d.title}
	d.sections = []Section{first}
	if !drawable(p) {
		d.sections[0].add(Para("There is no plan to print."))
		return d
	}
	o.Format.Bare = false
	if o.Format.Ruler == 0 {
		o.Format.Ruler = p.Notation().Exact()
	}
	if title := clean(p.Spec().Title); strings.TrimSpace(title) != "" {
		d.title = "Templates: " + title
		d.sections[0].Title = d.title
	}
	list := append(cornerTemplates(p), pieceTemplates(p, o.Format)...)
	var names Texts
	for _, t := range list {
		sections := tiles(t, o.Paper)
		parts := 0
		for _, s := range sections {
			parts += len(s.Blocks)
		}
		names = append(names, t.name+": "+plural(parts, "part"))
		d.sections = append(d.sections, sections...)
	}
	d.sections[0].add(Para("To trace at full size. Where a template comes in several parts, lay cross on cross and tape them together. Thick lines are cut; long dashes are valley folds and dashes with dots mountain folds, as one sees the face."), names, Scale{})
	return d
}

// cornerTemplates are the corners of the covering that are cut at 45 degrees:
// one template for all that are alike when it is turned round or over.
func cornerTemplates(p *folio.Plan) []template {
	type shape struct {
		leg   units.Length
		board units.Point
	}
	var order []shape
	turned, over := map[shape][]ofCorner{}, map[shape][]ofCorner{}
	boards := boardsOnWrap(p)
	for w := range p.Wrap().Pieces() {
		piece := w.Piece()
		size := piece.Size()
		for c := range piece.CornerCuts() {
			cut, corner := c.Cut(), c.Corner()
			at := boards.Min
			switch corner {
			case score.HeadRight:
				at.X = boards.Max.X
			case score.TailRight:
				at = boards.Max
			case score.TailLeft:
				at.Y = boards.Max.Y
			}
			at.X -= w.X()
			s := shape{(cut.From.X - cut.To.X).Abs(), toHeadLeft(corner, at, size)}
			if len(turned[s])+len(over[s]) == 0 {
				order = append(order, s)
			}
			of := turned
			if corner == score.HeadRight || corner == score.TailLeft {
				of = over
			}
			of[s] = append(of[s], ofCorner{piece.Name(), corner.String()})
		}
	}
	var out []template
	for _, s := range order {
		const edge = 20 * units.Millimetre
		side := s.leg + edge // the board's corner lies nearer
		t := template{name: capital(cornersText(slices.Concat(turned[s], over[s]))), size: units.Size{W: side, H: side}}
		switch {
		case s.board.X == s.board.Y:
			t.note = "Lay the two edges on those of the paper and trace the slanted line."
		default:
			t.note = "Lay the two edges on those of the paper and trace the slanted line: as it is for the " + cornersText(turned[s]) + ", turned over for the " + cornersText(over[s]) + "."
		}
		t.line(wideLine, units.Point{X: s.leg}, units.Point{Y: s.leg})
		t.line(thinLine, units.Point{Y: side}, units.Point{}, units.Point{X: side})
		t.line(thinLine, units.Point{X: s.board.X, Y: side}, s.board, units.Point{X: side, Y: s.board.Y})
		t.texts = append(t.texts, note{at: units.Point{X: s.board.X + 2*units.Millimetre, Y: s.board.Y + 5*units.Millimetre}, text: "board"})
		out = append(out, t)
	}
	return out
}

// An ofCorner is a corner of a piece.
type ofCorner struct{ piece, corner string }

// cornersText writes a list of corners, piece by piece.
func cornersText(list []ofCorner) string {
	var parts []string
	for i := 0; i < len(list); {
		var corners []string
		n := i
		for ; n < len(list) && list[n].piece == list[i].piece; n++ {
			corners = append(corners, list[n].corner)
		}
		text := listed(corners) + " corner"
		if len(corners) > 1 {
			text += "s"
		}
		if len(corners) == 4 {
			text = "all four corners"
		}
		parts = append(parts, text+" of the "+list[i].piece)
		i = n
	}
	return listed(parts)
}

// boardsOnWrap returns where all the boards lie on the wrap.
func boardsOnWrap(p *folio.Plan) units.Rect {
	var all units.Rect
	for b := range p.Boards() {
		r, _ := p.OnWrap(b.Role())
		if all.Empty() {
			all = r
		}
		all.Max = r.Max
	}
	return all
}

// toHeadLeft returns a point as it lies when its corner is turned or turned over
// to be the head left one.
func toHeadLeft(c score.Corner, p units.Point, size units.Size) units.Point {
	if c == score.HeadRight || c == score.TailRight {
		p.X = size.W - p.X
	}
	if c == score.TailLeft || c == score.TailRight {
		p.Y = size.H - p.Y
	}
	return p
}

// pieceTemplates are those of folded pieces.
func pieceTemplates(p *folio.Plan, f units.Format) []template {
	var out []template
	for piece := range p.Pieces() {
		b, ok := piece.Blank()
		if !ok {
			continue
		}
		name := fullName(piece.Name(), piece.Part())
		_, plain := piece.Outline().Rect()
		t := template{name: capital(name), size: piece.Size()}
		if plain && !rounded(b) {
			t.marks(b, f)
		} else {
			t.whole(piece, b)
		}
		if len(t.lines) > 0 {
			out = append(out, t)
		}
	}
	return out
}

// rounded reports whether a blank has an opening that is not a plain rectangle.
func rounded(b score.Blank) bool {
	for _, c := range b.CutOuts() {
		if c.Radius > 0 {
			return true
		}
	}
	return false
}

// whole draws a piece with all that is cut and scored.
func (t *template) whole(piece folio.Piece, b score.Blank) {
	t.note = "Lay the outline on the paper, trace it, and prick through the ends of the folds."
	t.polygon(piece.Outline())
	_, openings := b.Outline()
	for _, o := range openings {
		t.polygon(o)
	}
	for _, l := range b.Lines() {
		t.line(foldStroke(l.Fold), ends(l, b.Size())...)
	}
}

// marks draws a band along the edge of a strip with a mark for each score, or
// nothing for a strip without scores.
func (t *template) marks(b score.Blank, f units.Format) {
	const band, apart = 22 * units.Millimetre, 4 * units.Millimetre
	level := 0
	var at []score.Line
	for _, l := range b.Lines() {
		at = append(at, l)
		if l.Axis == score.Level {
			level++
		}
	}
	if len(at) == 0 {
		return
	}
	length := t.size.W
	edge := "the head edge of the face, its left end on the left edge"
	if level > 0 {
		length = t.size.H
		edge = "the right edge of the face, its left end on the head edge"
	}
	t.size = units.Size{W: length, H: band}
	t.note = "Lay this edge along " + edge + ", and prick or mark each score."
	t.line(thinLine, units.Point{Y: band}, units.Point{}, units.Point{X: length}, units.Point{X: length, Y: band})
	for _, l := range at {
		t.line(foldStroke(l.Fold), units.Point{X: l.At}, units.Point{X: l.At, Y: band})
	}
	// Where marks lie too near for words each, only some have them.
	inorder.Sort(at, func(a, b score.Line) int { return cmp.Compare(a.At, b.At) })
	last := -apart
	for _, l := range at {
		if l.At-last < apart {
			continue
		}
		t.texts = append(t.texts, note{at: units.Point{X: l.At + 3*units.Millimetre, Y: band - units.Millimetre}, text: f.Text(l.At), upright: true})
		last = l.At
	}
}

func foldStroke(f score.Fold) string {
	if f == score.Mountain {
		return chainLine
	}
	return dashedLine
}
