package pocket

import (
	"iter"
	"slices"

	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A Design is a kind worked out: every piece, size, place and step of it. It
// cannot be changed; the zero Design is empty. Designs are values that may be
// copied and used by several goroutines at once.
type Design struct {
	_  [0]func()      // designs are not compared
	d  *design        // nil of the zero Design
	up work.PaperSide // the side of the paper that lies up where pieces are cut
}

var nothing design

// of returns what was worked out, which nobody may change.
func (d Design) of() *design {
	if d.d == nil {
		return &nothing
	}
	return d.d
}

// A design is what is worked out of a kind.
type design struct {
	kind         Kind
	content      Content // that it was designed for
	paper        Paper
	ruler        units.Ruler
	closed, open units.Size
	empty, full  units.Length
	pieces       []Piece
	panels       []Panel
	joints       []Splice
	chains       [][]link // of strips that are folded to and fro
	places       []Spot   // the last one stands for all further pockets
	stack        []sheet
	half         units.Length // of a gusset: the width of a half panel
	opens        units.Length // how far each pocket opens
	land, tab    units.Length // of a guard
	across       units.Length // what it takes across a spine that it stands on; 0: its thickness
	pockets      int32
	carrier      int16        // 1 + the panel that carries a mat
	guarded      bool         // leaves on a guard
	margin       units.Length // round a mat
	matAt        units.Rect   // in the closed footprint
	workings     []units.Working
	warnings     []unwise
	seen         []seen // what can be seen of the panels
}

// A StockKind says what a piece is cut from.
type StockKind uint8

// Stocks.
const (
	PaperStock StockKind = iota // the paper of the design
	MatStock                    // whatever the maker takes for the mat
)

// A Piece is something to be cut.
type Piece struct {
	name          string
	stock         StockKind
	caliper       units.Length
	blank         score.Blank
	quantity      int
	width, height *units.Working // those of the design, or of the piece alone

	folds []crease // in the order in which they are made
	over  bool     // it lies turned over
}

// Name returns what the piece is, as in "pocket front"; strips that are joined
// have names of their own.
func (p Piece) Name() string { return p.name }

// StockKind returns what the piece is cut from.
func (p Piece) StockKind() StockKind { return p.stock }

// Caliper returns the thickness of its stock.
func (p Piece) Caliper() units.Length { return p.caliper }

// Blank returns the piece as it is cut, scored, cut out and notched, its face
// up. Its lines stand in the order in which they are folded, and
// [score.Blank.Outline] is its outline.
func (p Piece) Blank() score.Blank { return p.blank }

// Quantity returns how many there are, at least 1.
func (p Piece) Quantity() int { return p.quantity }

// Width returns the working of the blank's width as it lies before the maker.
func (p Piece) Width() units.Working { return of(p.width) }

// Height returns the working of the blank's height as it lies before the
// maker.
func (p Piece) Height() units.Working { return of(p.height) }

// of returns what a working says, the zero Working for none.
func of(w *units.Working) units.Working {
	if w == nil {
		return units.Working{}
	}
	return *w
}

// Grain returns the way the grain of the piece should run: along its folds,
// or along most of them where they run both ways. It returns false for a piece
// without folds, whose grain does not matter here.
func (p Piece) Grain() (score.Axis, bool) {
	var along [2]int
	for _, l := range p.blank.Lines() {
		along[l.Axis]++
	}
	if along[score.Level] > along[score.Upright] {
		return score.Level, true
	}
	return score.Upright, along[score.Upright] > 0
}

// A Panel is a named part between folds, as flat on its blank and as it lies
// in the closed footprint.
type Panel struct {
	name        string
	piece, copy int
	blank       units.Rect
	closed      units.Rect

	number  int // of the panels along the folds of its piece, or chain, from the left or the head
	lift    int // layers of other pieces under it
	chain   int // 1 + the chain that it is part of, 0 for none
	side    score.Side
	fixed   bool // lift is all
	crossed bool // its piece is folded along its tail and then to and fro
	front   bool // it is the part along the tail, turned up
	slanted bool // half of its square, with the right angle at the corner of the footprint
}

// Name returns what the panel is, as in "flap"; alike panels have one name.
func (p Panel) Name() string { return p.name }

// Piece returns which of [Design.Pieces] the panel is part of.
func (p Panel) Piece() int { return p.piece }

// Copy returns which copy of its piece it is part of, from 0.
func (p Panel) Copy() int { return p.copy }

// Blank returns where the panel is on the flat piece.
func (p Panel) Blank() units.Rect { return p.blank }

// Closed returns where the panel lies in the closed footprint. One that stands
// upright has no area there.
func (p Panel) Closed() units.Rect { return p.closed }

// Side returns the side of the drawing that lies up when closed, as the folds
// bring it there.
func (p Panel) Side() score.Side { return p.side }

// Base returns which panel of its piece it is as [work.Base] counts them, 0 where that has
// no folds, and [work.All] where it is none by itself: on a piece that is folded along both
// axes, and on a strip that is folded to and fro as one with those that are joined to it.
func (p Panel) Base() int {
	if p.crossed || p.slanted || p.chain > 0 {
		return work.All
	}
	return p.number
}

// Size returns the width and height of the panel.
func (p Panel) Size() units.Size { return p.blank.Size() }

// Outline returns the outline of a panel in the closed footprint: its rectangle
// less what is cut into its edges, as notches, as the folds bring it there; of a
// corner the triangle that its slant leaves.
func (d Design) Outline(p Panel) units.Polygon {
	if p.slanted {
		return p.triangle()
	}
	if p.piece >= len(d.of().pieces) {
		return units.Polygon{}
	}
	piece := &d.of().pieces[p.piece]
	edge, _ := piece.blank.Part(p.blank)
	if _, plain := edge.Rect(); plain || edge.Empty() {
		return p.closed.Polygon()
	}
	axis := score.Upright
	if len(piece.folds) > 0 && !p.crossed {
		axis = piece.folds[0].axis
	}
	turned := p.side == score.Back
	if p.front { // about its foot, and perhaps with its panel
		edge = edge.Flipped(p.blank.Size().H)
		turned = !turned
	}
	switch {
	case turned && axis == score.Upright:
		edge = edge.Mirrored(p.blank.Size().W)
	case turned:
		edge = edge.Flipped(p.blank.Size().H)
	}
	return edge.Moved(p.closed.Min)
}

// triangle returns what its slant leaves of a corner.
func (p Panel) triangle() units.Polygon {
	r := p.closed
	all := []units.Point{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}}
	away := 1 // from a foot at the left, the corner above at the right
	switch atLeft, atHead := r.Min.X == 0, r.Min.Y == 0; {
	case atLeft && atHead:
		away = 2
	case atHead:
		away = 3
	case !atLeft:
		away = 0
	}
	out, _ := units.NewPolygon(slices.Delete(all, away, away+1)...)
	return out
}

// Up returns the side of the paper that lies up at a panel when closed.
func (d Design) Up(p Panel) work.PaperSide {
	if p.side == score.Back {
		return d.up.Other()
	}
	return d.up
}

// A Splice is where two strips of paper are glued into a longer one.
type Splice struct {
	fold int
	at   units.Length
	tab  units.Length
}

// Fold returns the fold of the whole strip that hides the splice, counted from
// 1.
func (j Splice) Fold() int { return j.fold }

// At returns how far the fold is from the strip's beginning.
func (j Splice) At() units.Length { return j.at }

// Tab returns how deep the tab is that the earlier strip reaches under the
// later one.
func (j Splice) Tab() units.Length { return j.tab }

// Kind returns what was designed, as it was given; nil for the zero Design.
func (d Design) Kind() Kind { return d.of().kind }

// Content returns what each place was designed for, and whether anything was
// given; how many of it is the count of the place's capacity.
func (d Design) Content() (Content, bool) {
	w := d.of()
	return w.content, w.content != Content{}
}

// Paper returns the paper of the design, with its defaults filled in.
func (d Design) Paper() Paper {
	p := d.of().paper
	p.Up = d.up
	return p
}

// Ruler returns the ruler of the design.
func (d Design) Ruler() units.Ruler { return d.of().ruler }

// Pieces walks the pieces in the order in which they are cut.
func (d Design) Pieces() iter.Seq2[int, Piece] { return slices.All(d.of().pieces) }

// Panels walks the panels, piece by piece.
func (d Design) Panels() iter.Seq2[int, Panel] { return slices.All(d.of().panels) }

// Panel returns the first panel with the given name and whether there is one.
func (d Design) Panel(name string) (Panel, bool) {
	p := d.of().panel(name)
	return p, p.name != ""
}

func (d *design) panel(name string) Panel { return panels(d.panels).called(name) }

// panels are those of a design.
type panels []Panel

// called returns the first one of a name, the zero Panel for none.
func (p panels) called(name string) Panel {
	for i := range p {
		if p[i].name == name {
			return p[i]
		}
	}
	return Panel{}
}

// Carrier returns the panel that carries mats (see [Design.Carry]) and whether
// there is one.
func (d Design) Carrier() (Panel, bool) {
	w := d.of()
	if w.carrier == 0 {
		return Panel{}, false
	}
	return w.panels[w.carrier-1], true
}

// Guarded reports whether its panels are leaves on a guard, so that between them are
// parts that are no panels.
func (d Design) Guarded() bool { return d.of().guarded }

// Splices walks the splices of a strip that is longer than its sheet.
func (d Design) Splices() iter.Seq[Splice] { return slices.Values(d.of().joints) }

// Closed returns the footprint when closed, contents that stand out included.
func (d Design) Closed() units.Size { return d.of().closed }

// Open returns the footprint when everything that opens is laid open; it is
// never smaller than the closed one.
func (d Design) Open() units.Size { return d.of().open }

// Thickness returns the greatest height over the closed footprint, empty or
// full: with what it was designed for, or with the most that it takes where no
// content was given.
func (d Design) Thickness(full bool) units.Length {
	if full {
		return d.of().full
	}
	return d.of().empty
}

// Workings walks the working of every size, in the order of computing.
func (d Design) Workings() iter.Seq[units.Working] { return slices.Values(d.of().workings) }
