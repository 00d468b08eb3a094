package guide

import "boardwrap.example/units"

// A lineKind is what a line says by the way it is drawn.
type lineKind uint8

// Kinds of line, in the order of the legend.
const (
	outline     lineKind = iota // a cut edge, an outline that is seen
	fresh                       // what is new in a step
	knife                       // where the knife goes
	crease                      // what is folded up and over in a step
	creaseUnder                 // what is folded under in a step
	scored                      // what is scored in a step on the back
	swing                       // the way of a part that turns up and over
	swingUnder                  // the way of a part that turns under
	slide                       // the way of what is slipped in
	there                       // what lies there already
	hidden                      // an edge under something
	valley                      // a valley fold
	mountain                    // a mountain fold
	drawn                       // a line drawn to lay something by
	offcut                      // the edge of a part worth keeping
	layer                       // a layer of paper, card or contents in section
	along                       // the way of the grain
	centre                      // a centre line: where the tightest place is
	thin                        // dimensions and leaders: not in the legend
	lineKinds
)

// absent is the kind of what is not drawn.
const absent = lineKinds

// A style is how a kind of line is drawn: its width and its dashes, in
// thousandths of a millimetre on paper.
type style struct {
	name   string
	legend string
	width  int64
	dashes []int64
}

var styles = [lineKinds]style{
	outline:     {"outline", "cut edge or visible outline", 350, nil},
	fresh:       {"new", "new", 500, nil},
	knife:       {"knife", "cut", 500, nil},
	crease:      {"fold", "fold now, up and over", 500, []int64{4000, 1500}},
	creaseUnder: {"foldunder", "fold now, under (dashed arrow)", 500, []int64{4000, 1000, 350, 1000}},
	scored:      {"score", "score now", 500, []int64{1800, 1000}},
	swing:       {"swing", "", 250, nil},
	swingUnder:  {"swingunder", "", 250, []int64{1200, 800}},
	slide:       {"slide", "slips in (arrow)", 250, nil},
	there:       {"there", "there already", 180, nil},
	hidden:      {"hidden", "hidden edge", 180, []int64{1200, 800}},
	valley:      {"valley", "valley fold", 350, []int64{4000, 1500}},
	mountain:    {"mountain", "mountain fold", 350, []int64{4000, 1000, 350, 1000}},
	drawn:       {"drawn", "drawn line", 180, []int64{350, 900}},
	offcut:      {"offcut", "offcut to keep", 350, []int64{6000, 1000, 350, 800, 350, 1000}},
	layer:       {"layer", "layer in section", 130, nil},
	along:       {"along", "grain", 180, nil},
	centre:      {"centre", "tightest place", 180, []int64{6000, 800, 350, 800}},
	thin:        {"thin", "", 180, nil},
}

// A ref says what a part of a picture belongs to.
type ref struct {
	piece, copy int // none for no piece
	panel       int // none for the whole piece
	fitting     int
}

// none stands where something belongs to no piece, panel or fitting.
const none = -1

var nothing = ref{none, 0, none, none}

// ofPiece is the ref of a whole piece, ofCopy of one of its copies.
//
//go:noinline
func ofPiece(i int) ref { return ref{piece: i, panel: none, fitting: none} }

//go:noinline
func ofCopy(i, copy int) ref { return ref{i, copy, none, none} }

// ofFitting is the ref of a whole fitting.
func ofFitting(i int) ref { return ref{none, 0, none, i} }

// A line is a line of a figure.
type line struct {
	kind lineKind
	of   ref
	pts  []units.Point
	shut bool
	box  units.Rect // round it
}

// crosses reports whether a line passes through a rectangle or touches it.
func (l *line) crosses(r units.Rect) bool {
	if !touches(r, l.box) {
		return false
	}
	last := len(l.pts) - 1
	for i := range last {
		if crosses(l.pts[i], l.pts[i+1], r) {
			return true
		}
	}
	return l.shut && crosses(l.pts[last], l.pts[0], r)
}
