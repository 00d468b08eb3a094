package folio

import (
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Frame is a window a little smaller than the picture, raised on foam strips
// at three sides so that the picture slips in from the fourth. The strips lie
// where they keep the picture behind the window: the two at the sides leave it
// its ease, and the far one stops it with an equal lap at the mouth.
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
	// FoamWidth is the width of the strips; 0 means 1/4 in (common practice, no
	// published source). The rail must cover a strip beside the picture: lap,
	// half the ease and strip.
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
			bad.Malformed(f.at(".film"), "unknown", check.Quote(fr.Film), "the name of one of the stocks")
		}
	}
	foam := Stock{Name: "foam"}
	if fr.FoamStock != "" {
		var ok bool
		if foam, ok = f.b.stock(fr.FoamStock); !ok {
			bad.Malformed(f.at(".foamstock"), "unknown", check.Quote(fr.FoamStock), "the name of one of the stocks")
		}
	}
	if bad.Len() > before {
		return false
	}

	pic := fr.Picture.Size
	if fr.FoamWidth > fr.Rail {
		bad.Long(f.at(".foamwidth"), TooWide, n, fr.FoamWidth, fr.Rail, "the rail's width, or the foam shows")
	}
	if within := fr.Picture.Thickness + film.Caliper; within > fr.Foam {
		bad.Short(f.at(".foam"), TooThin, n, fr.Foam, within, "the thickness of the picture and the film")
	}
	if fr.Ease >= 2*fr.Lap {
		bad.Long(f.at(".ease"), TooWide, n, fr.Ease, 2*fr.Lap-1, "or the picture's edge can show in the window")
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

	// The strips stop the picture where its edge is hidden: those beside the
	// mouth leave it its ease, and the far one stops it in the middle of the
	// window.
	across, along := w, h // across is from strip to strip
	picAcross, picAlong := pic.W, pic.H
	if upright(fr.Mouth) {
		across, along = h, w
		picAcross, picAlong = pic.H, pic.W
	}
	clear := f.b.sum("clear between the side strips", f.b.exact(), units.Nearest, units.T("picture", picAcross), units.T("ease", fr.Ease))
	side := f.b.share("side strip's inner edge from the frame's", 2, f.b.exact(), units.Down, units.T("frame", across.Length()), units.N(-1, "clear between the side strips", clear.Length()))
	far := f.b.share("far strip's inner edge from the frame's", 2, f.b.exact(), units.Down, units.T("frame", along.Length()), units.N(-1, "picture", picAlong))
	if inner := min(side.Length(), far.Length()); inner < fr.FoamWidth {
		bad.Short(f.at(".rail"), TooNarrow, n, fr.Rail, fr.Rail+fr.FoamWidth-inner, "for the foam strips beside the picture")
		return false
	}

	opening := units.RectAt(units.Point{
		X: (w.Length() - openW.Length()).Half(units.Down),
		Y: (h.Length() - openH.Length()).Half(units.Down),
	}, units.Size{W: openW.Length(), H: openH.Length()})
	f.piece(Piece{name: "frame", width: w, height: h, quantity: 1, openings: []units.Rect{opening}})
	f.strips = fr.place(f.footprint, side.Length(), far.Length(), clear.Length())
	fr.cutStrips(f, foam.Name, across, along, clear)
	if fr.Film != "" {
		// The film laps the rails as far as the picture does, between the
		// strips.
		fw := f.sum("film width", units.Down, units.T("opening", openW.Length()), units.N(2, "lap", fr.Lap))
		fh := f.sum("film height", units.Down, units.T("opening", openH.Length()), units.N(2, "lap", fr.Lap))
		f.piece(Piece{name: "window film", stock: film.Name, width: fw, height: fh, quantity: 1})
	}
	f.empty = f.stock.Caliper + fr.Foam
	f.full = f.empty
	room := fr.room(f.footprint, side.Length(), far.Length(), clear.Length(), picAlong+fr.Ease)
	f.holdings = append(f.holdings, Holding{Content: fr.Picture, Room: room.Size(), Rect: room})
	return true
}

// cutStrips adds the foam: one strip along each side beside the mouth, the full
// length, and one between them at the far end.
func (fr Frame) cutStrips(f *fitter, stock string, across, along, clear units.Working) {
	width := f.sum("foam strip width", units.Down, units.T("as given", fr.FoamWidth))
	length := f.sum("foam strip at the sides", units.Down, units.T("frame", along.Length()))
	end := f.sum("foam strip at the far end", units.Down, units.T("clear between the side strips", clear.Length()))
	side := Piece{name: "foam strip, side", stock: stock, width: width, height: length, quantity: 2}
	far := Piece{name: "foam strip, far end", stock: stock, width: end, height: width, quantity: 1}
	if upright(fr.Mouth) {
		side.width, side.height = side.height, side.width
		far.width, far.height = far.height, far.width
	}
	f.piece(side)
	f.piece(far)
}

// turned returns a rectangle that is drawn for a mouth at the head as it lies
// in a frame of the given size: x counts across, y from the mouth.
func (fr Frame) turned(r units.Rect, frame units.Size) units.Rect {
	switch fr.Mouth {
	case score.Tail:
		r.Min.Y, r.Max.Y = frame.H-r.Max.Y, frame.H-r.Min.Y
	case score.Left:
		r.Min.X, r.Min.Y, r.Max.X, r.Max.Y = r.Min.Y, r.Min.X, r.Max.Y, r.Max.X
	case score.Right:
		r.Min.X, r.Min.Y, r.Max.X, r.Max.Y = frame.W-r.Max.Y, r.Min.X, frame.W-r.Min.Y, r.Max.X
	}
	return r
}

// depth returns how long the frame is from its mouth to the far end.
func (fr Frame) depth(frame units.Size) units.Length {
	if upright(fr.Mouth) {
		return frame.W
	}
	return frame.H
}

// place returns where the strips lie: the two at the sides, then the far one.
func (fr Frame) place(frame units.Size, side, far, clear units.Length) []units.Rect {
	depth := fr.depth(frame)
	box := func(x0, y0, x1, y1 units.Length) units.Rect {
		return fr.turned(units.Rect{Min: units.Point{X: x0, Y: y0}, Max: units.Point{X: x1, Y: y1}}, frame)
	}
	return []units.Rect{
		box(side-fr.FoamWidth, 0, side, depth),
		box(side+clear, 0, side+clear+fr.FoamWidth, depth),
		box(side, depth-far, side+clear, depth-far+fr.FoamWidth),
	}
}

// room returns where the picture has its room: between the side strips, from
// the far strip towards the mouth, as long as the picture and its ease.
func (fr Frame) room(frame units.Size, side, far, clear, long units.Length) units.Rect {
	end := fr.depth(frame) - far
	return fr.turned(units.Rect{
		Min: units.Point{X: side, Y: max(end-long, 0)},
		Max: units.Point{X: side + clear, Y: end},
	}, frame)
}

// upright reports whether an edge runs from head to tail.
func upright(e score.Edge) bool { return e == score.Left || e == score.Right }
