package folio

import (
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A Frame is a window a little smaller than the picture, raised on foam strips
// at three sides so that the picture slips in from the fourth.
type Frame struct {
	Picture pocket.Content
	// Lap is how far the frame covers the picture on each side; 0 means 1/8 in
	// (common practice, no published source).
	Lap units.Length
	// Rail is the width of the frame on each side; 0 means 1/2 in (common
	// practice, no published source).
	Rail units.Length
	// Mouth is the side from which the picture slips in; the default is the
	// head.
	Mouth score.Edge
	// Foam is the thickness of the foam strips; 0 means 1/16 in, one of the
	// usual 1/32, 1/16 and 1/8 in (Shurtape, foam mounting tapes).
	Foam units.Length
	// FoamWidth is the width of the strips; 0 means 1/4 in. It must not be
	// wider than the rail.
	FoamWidth units.Length
	// Ease is what the picture has between the strips beyond its own width; 0
	// means 1/16 in (common practice, no published source), [None] nothing.
	Ease units.Length
	// Film is the name of the stock of a window film behind the opening; empty
	// means none.
	Film string
	// FoamStock names the stock of the foam strips; empty means a foam that is
	// bought by the strip.
	FoamStock string
}

// String returns "frame".
func (Frame) String() string { return "frame" }

func (fr Frame) withDefaults() Frame {
	fr.Lap = orDefault(fr.Lap, units.Inch/8)
	fr.Rail = orDefault(fr.Rail, units.Inch/2)
	fr.Foam = orDefault(fr.Foam, units.Inch/16)
	fr.FoamWidth = orDefault(fr.FoamWidth, units.Inch/4)
	fr.Ease = orDefault(fr.Ease, units.Inch/16)
	return fr
}

func (fr Frame) fit(f *fitter) bool {
	bad, n := &f.b.bad, f.notation()
	before := bad.Len()
	fr = fr.withDefaults()
	f.content(".picture", fr.Picture)
	f.length(".lap", fr.Lap)
	f.length(".rail", fr.Rail)
	f.length(".foam", fr.Foam)
	f.length(".foamwidth", fr.FoamWidth)
	f.allowance(".ease", fr.Ease)
	if fr.Mouth > score.Right {
		bad.Malformed(f.at(".mouth"), "unknown", count(int(fr.Mouth)), "one of the score.Edge constants")
	}
	var film Stock
	if fr.Film != "" {
		var ok bool
		if film, ok = f.b.stock(fr.Film); !ok {
			bad.Malformed(f.at(".film"), "unknown", quote(fr.Film), "the name of one of the stocks")
		}
	}
	foam := Stock{Name: "foam"}
	if fr.FoamStock != "" {
		var ok bool
		if foam, ok = f.b.stock(fr.FoamStock); !ok {
			bad.Malformed(f.at(".foamstock"), "unknown", quote(fr.FoamStock), "the name of one of the stocks")
		}
	}
	if bad.Len() > before {
		return false
	}

	pic := fr.Picture.Size
	if fr.FoamWidth > fr.Rail {
		bad.Long(f.at(".foamwidth"), TooWide, n, fr.FoamWidth, fr.Rail, "the rail's width, or the foam shows")
	}
	if fr.Picture.Thickness > fr.Foam {
		bad.Short(f.at(".foam"), TooThin, n, fr.Foam, fr.Picture.Thickness, "the picture's thickness")
	}
	if 2*fr.Lap >= min(pic.W, pic.H) {
		bad.Long(f.at(".lap"), TooWide, n, fr.Lap, min(pic.W, pic.H).Half(units.Down)-1, "or no opening is left")
	}
	if bad.Len() > before {
		return false
	}

	// The opening is rounded down, so that the lap is never less than asked
	// for; the outside follows from it with whole rails.
	openW := f.sum("frame opening width", units.Down, units.T("picture", pic.W), units.N(-2, "lap", fr.Lap))
	openH := f.sum("frame opening height", units.Down, units.T("picture", pic.H), units.N(-2, "lap", fr.Lap))
	if openW.Length() <= 0 || openH.Length() <= 0 {
		bad.Long(f.at(".lap"), TooWide, n, fr.Lap, (min(pic.W, pic.H) - f.ruler().Step()).Half(units.Down), "or no opening is left")
		return false
	}
	w := f.sum("frame width", units.Up, units.T("opening", openW.Length()), units.N(2, "rail", fr.Rail))
	h := f.sum("frame height", units.Up, units.T("opening", openH.Length()), units.N(2, "rail", fr.Rail))
	f.footprint = units.Size{W: w.Length(), H: h.Length()}

	// Room between the strips: both sides beside the mouth, and the far end.
	// The mouth's own side is open, so it limits nothing.
	strip := units.N(-2, "foam strip", fr.FoamWidth)
	single := units.N(-1, "foam strip", fr.FoamWidth)
	acrossTerm, alongTerm := strip, single
	if upright(fr.Mouth) {
		acrossTerm, alongTerm = single, strip
	}
	clearW := f.sum("clear width between strips", units.Down, units.T("frame width", w.Length()), acrossTerm)
	clearH := f.sum("clear height between strips", units.Down, units.T("frame height", h.Length()), alongTerm)
	clear := units.Size{W: clearW.Length(), H: clearH.Length()}
	if want := pic.W + fr.Ease; clear.W < want {
		bad.Short(f.at(".rail"), TooNarrow, n, clear.W, want, "clear between the foam strips: the picture with its ease")
	}
	if want := pic.H + fr.Ease; clear.H < want {
		bad.Short(f.at(".rail"), TooNarrow, n, clear.H, want, "clear between the foam strips: the picture with its ease")
	}
	if bad.Len() > before {
		return false
	}

	opening := units.RectAt(units.Point{
		X: (w.Length() - openW.Length()).Half(units.Down),
		Y: (h.Length() - openH.Length()).Half(units.Down),
	}, units.Size{W: openW.Length(), H: openH.Length()})
	f.piece(Piece{name: "frame", width: w, height: h, quantity: 1, openings: []units.Rect{opening}})

	fr.strips(f, foam.Name, w, h)
	if fr.Film != "" {
		// The film laps the rails beside the foam; where the foam leaves no
		// room it goes under it, as far as the frame does.
		lap := min(fr.Lap, fr.Rail-fr.FoamWidth)
		if lap <= 0 {
			lap = fr.Rail
		}
		fw := f.sum("film width", units.Down, units.T("opening", openW.Length()), units.N(2, "lap", lap))
		fh := f.sum("film height", units.Down, units.T("opening", openH.Length()), units.N(2, "lap", lap))
		f.piece(Piece{name: "window film", stock: film.Name, width: fw, height: fh, quantity: 1})
	}
	f.empty = f.stock.Caliper + fr.Foam + film.Caliper
	f.full = f.empty
	f.holdings = append(f.holdings, Holding{
		Content: fr.Picture, Room: clear, Rect: fr.clearRect(clear, f.footprint),
	})
	return true
}

// strips adds the foam: one strip along each side beside the mouth, the full
// length, and one between them at the far end.
func (fr Frame) strips(f *fitter, stock string, w, h units.Working) {
	long, end, label := h, w, "frame height"
	endLabel := "frame width"
	if upright(fr.Mouth) {
		long, end, label, endLabel = w, h, endLabel, label
	}
	width := f.sum("foam strip width", units.Down, units.T("as given", fr.FoamWidth))
	sideLength := f.sum("foam strip at the sides", units.Down, units.T(label, long.Length()))
	endLength := f.sum("foam strip at the far end", units.Down, units.T(endLabel, end.Length()), units.N(-2, "strip at a side", fr.FoamWidth))
	side := Piece{name: "foam strip, side", stock: stock, width: width, height: sideLength, quantity: 2}
	far := Piece{name: "foam strip, far end", stock: stock, width: endLength, height: width, quantity: 1}
	if upright(fr.Mouth) {
		side.width, side.height = side.height, side.width
		far.width, far.height = far.height, far.width
	}
	f.piece(side)
	f.piece(far)
}

// clearRect is where the picture lies: against the strip opposite the mouth
// and between the other two.
func (fr Frame) clearRect(clear, outside units.Size) units.Rect {
	at := units.Point{}
	switch fr.Mouth {
	case score.Head:
		at.X = fr.FoamWidth
	case score.Tail:
		at.X, at.Y = fr.FoamWidth, fr.FoamWidth
	case score.Right:
		at.X, at.Y = fr.FoamWidth, fr.FoamWidth
	case score.Left:
		at.Y = fr.FoamWidth
	}
	return units.RectAt(at, clear).Intersect(units.RectAt(units.Point{}, outside))
}

// upright reports whether an edge runs from head to tail.
func upright(e score.Edge) bool { return e == score.Left || e == score.Right }
