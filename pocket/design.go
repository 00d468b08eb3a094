package pocket

import (
	"iter"
	"slices"

	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Design is a kind worked out: every piece, size, place and step of it. It
// cannot be changed; the zero Design is empty. Designs are values that may be
// copied and used by several goroutines at once.
type Design struct {
	kind         Kind
	content      Content // that it was designed for
	paper        Paper
	ruler        units.Ruler
	closed, open units.Size
	empty, full  units.Length
	pieces       []Piece
	panels       []Panel
	joints       []Joint
	chains       [][]link // of strips that are folded to and fro
	places       []Place  // the last one stands for all further pockets
	pockets      int
	stack        []sheet
	half         units.Length // of a gusset: the width of a half panel
	opens        units.Length // how far each pocket opens
	land         units.Length // of a guard
	across       units.Length // what it takes across a spine that it stands on; 0: its thickness
	carrier      int          // 1 + the panel that carries a mat
	margin       units.Length // round a mat
	matAt        units.Rect   // in the closed footprint
	workings     []units.Working
	warnings     []check.Warning
}

// A Stock says what a piece is cut from.
type Stock uint8

// Stocks.
const (
	PaperStock Stock = iota // the paper of the design
	MatStock                // whatever the maker takes for the mat
)

// A Piece is something to be cut. The score lines of its blank stand in the
// order in which they are folded.
type Piece struct {
	Name    string
	Stock   Stock
	Caliper units.Length // of the stock
	// Blank is the piece as it is cut, scored, cut out and notched, its face
	// up.
	Blank score.Blank
	// Quantity is how many there are, at least 1.
	Quantity int
	// Width and Height are the working of the blank's size as it lies before
	// the maker.
	Width, Height units.Working

	folds []crease // in the order in which they are made
	over  bool     // it lies turned over
}

// Grain returns the way the grain of the piece should run: along its folds,
// or along most of them where they run both ways. It returns false for a piece
// without folds, whose grain does not matter here.
func (p Piece) Grain() (score.Axis, bool) {
	var along [2]int
	for _, l := range p.Blank.Lines() {
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
	Name string
	// Piece is which of the pieces it is part of, and Copy which copy of it,
	// both from 0.
	Piece, Copy int
	// Blank is where it is on the flat piece.
	Blank units.Rect
	// Closed is where it lies in the closed footprint; without area for one
	// that stands upright.
	Closed units.Rect
	// Side is the side of the drawing that lies up when closed, as its folds
	// bring it there.
	Side    score.Side
	number  int  // of the panels along the folds of its piece, or chain, from the left or the head
	lift    int  // layers of other pieces under it
	fixed   bool // lift is all
	chain   int  // 1 + the chain that it is part of, 0 for none
	crossed bool // its piece is folded along its tail and then to and fro
	front   bool // it is the part along the tail, turned up
}

// Size returns the width and height of the panel.
func (p Panel) Size() units.Size { return p.Blank.Size() }

// Up returns the side of the paper that lies up at a panel when closed.
func (d Design) Up(p Panel) work.PaperSide {
	if p.Side == score.Back {
		return d.paper.Up.Other()
	}
	return d.paper.Up
}

// A Joint is where two strips of paper are glued into a longer one: at fold
// Fold of the whole strip, counted from 1, which hides it; At is the fold's
// distance from the strip's beginning, Tab the tab that the earlier strip
// reaches under the later one.
type Joint struct {
	Fold int
	At   units.Length
	Tab  units.Length
}

// Kind returns what was designed, as it was given; nil for the zero Design.
func (d Design) Kind() Kind { return d.kind }

// Content returns what each place was designed for, and whether anything was
// given; how many of it is the count of the place's capacity.
func (d Design) Content() (Content, bool) { return d.content, d.content != Content{} }

// Paper returns the paper of the design, with its defaults filled in.
func (d Design) Paper() Paper { return d.paper }

// Ruler returns the ruler of the design.
func (d Design) Ruler() units.Ruler { return d.ruler }

// Pieces walks the pieces in the order in which they are cut.
func (d Design) Pieces() iter.Seq[Piece] { return slices.Values(d.pieces) }

// Panels walks the panels, piece by piece.
func (d Design) Panels() iter.Seq[Panel] { return slices.Values(d.panels) }

// Panel returns the first panel with the given name and whether there is one.
func (d Design) Panel(name string) (Panel, bool) {
	p := d.panel(name)
	return p, p.Name != ""
}

func (d *Design) panel(name string) Panel {
	i := slices.IndexFunc(d.panels, func(p Panel) bool { return p.Name == name })
	if i < 0 {
		return Panel{}
	}
	return d.panels[i]
}

// Carrier returns the panel that carries mats (see [Design.Carry]) and whether
// there is one.
func (d Design) Carrier() (Panel, bool) {
	if d.carrier == 0 {
		return Panel{}, false
	}
	return d.panels[d.carrier-1], true
}

// Joints walks the joints of a strip that is longer than its sheet.
func (d Design) Joints() iter.Seq[Joint] { return slices.Values(d.joints) }

// Closed returns the footprint when closed, contents that stand out included.
func (d Design) Closed() units.Size { return d.closed }

// Open returns the footprint when everything that opens is laid open; it is
// never smaller than the closed one.
func (d Design) Open() units.Size { return d.open }

// Thickness returns the greatest height over the closed footprint, empty or
// full: with what it was designed for, or with the most that it takes where no
// content was given.
func (d Design) Thickness(full bool) units.Length {
	if full {
		return d.full
	}
	return d.empty
}

// Workings walks the working of every size, in the order of computing.
func (d Design) Workings() iter.Seq[units.Working] { return slices.Values(d.workings) }

// Warnings walks what can be made but is unwise.
func (d Design) Warnings() iter.Seq[check.Warning] { return slices.Values(d.warnings) }
