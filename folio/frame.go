package folio

import (
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Frame is a window a little smaller than the picture, raised on foam strips
// at three sides so that the picture slips in from the fourth. The strips lie
// where they keep the picture behind the window: the two at the sides, equally far
// from the frame's edges, leave it its ease, and the far one stops it with its lap
// there and at the mouth. On the ruler of fittings the opening is rounded down and the
// outside up, so that laps and rails are no narrower than asked for, and so are, down,
// the distances of the strips from the frame's edges, so that the picture has no less
// room than asked for. Where on the ruler the picture's edge could show in the window,
// a strip lies off it: those at the sides where they leave the ease exactly, the far one
// where the lap is the same at the mouth.
type Frame struct {
	// Picture is what the frame is made for. A frame always has one.
	Picture pocket.Content
	// Lap is how far the frame covers the picture on each side; 0 means 1/8 in,
	// or 3 mm where plans are metric (common practice, no published source).
	Lap units.Length
	// Rail is the width of the frame on each side; 0 means 1/2 in, or 12 mm
	// where plans are metric (common practice, no published source).
	Rail units.Length
	// Mouth is the side from which the picture slips in; the default is the
	// head.
	Mouth score.Edge
	// Foam is the thickness of the foam strips; 0 means the caliper of FoamStock,
	// or without one 1/16 in, and 1/8 in for a picture thicker than that, of the
	// usual 1/32, 1/16 and 1/8 in (Shurtape, foam mounting tapes); where plans are
	// metric, 2 mm and 3 mm (common practice, no published source).
	Foam units.Length
	// FoamWidth is the width of the strips, taken as it is; 0 means 1/4 in, or
	// 6 mm where plans are metric (common practice, no published source). The
	// rail must cover a strip beside the picture: lap, half the ease and strip.
	FoamWidth units.Length
	// Ease is what the picture has at least between the strips beyond its own width; 0
	// means 1/16 in, or 2 mm where plans are metric (common practice, no
	// published source), [units.None] nothing.
	Ease units.Length
	// Film is the name of the stock of a window film behind the opening; empty
	// means none.
	Film string
	// FoamStock names the stock of the foam strips; empty means a foam that is
	// bought by the strip, a material called "foam", or, where it is not of the
	// usual 1/16 in or 2 mm or the Spec has another foam of that name, as in "foam
	// 3 mm thick".
	FoamStock string
}

// String returns "frame".
func (Frame) String() string { return "frame" }

// withDefaults fills in what is not given, for plans in a notation.
func (fr Frame) withDefaults(n units.Notation) Frame {
	const in, mm = units.Inch, units.Millimetre
	fr.Lap = filled(fr.Lap, n.Choose(in/8, 3*mm))
	fr.Rail = filled(fr.Rail, n.Choose(in/2, 12*mm))
	foam := usualFoam(n)
	if fr.Picture.Thickness > foam {
		foam = n.Choose(in/8, 3*mm)
	}
	fr.Foam = filled(fr.Foam, foam)
	fr.FoamWidth = filled(fr.FoamWidth, n.Choose(in/4, 6*mm))
	fr.Ease = filled(fr.Ease, n.Choose(in/16, 2*mm))
	return fr
}

// usualFoam is the thickness of the foam that is called that and no more.
func usualFoam(n units.Notation) units.Length {
	return n.Choose(units.Inch/16, 2*units.Millimetre)
}

func (fr Frame) withUsual(r rule.Rulers) Kind {
	foam := fr.Foam
	if fr = fr.withDefaults(r.Main.Notation()); fr.FoamStock != "" {
		fr.Foam = foam // the stock says it
	}
	return fr
}

// A frameSize is a frame worked out: its outside and its opening, and how the
// foam lies under it.
type frameSize struct {
	openW, openH, w, h *units.Working
	// across runs from one side strip to the other, along from the mouth to the
	// far strip.
	across, along       *units.Working
	picAcross, picAlong units.Length
	sideAt, farAt       units.Length // a strip's inner edge from the frame's
	clear               units.Length // between the side strips
	film                units.Length // its caliper
}

func (s *frameSize) outside() units.Size {
	return units.Size{W: s.w.Length(), H: s.h.Length()}
}

func (s *frameSize) opening() units.Rect {
	o := units.Size{W: s.openW.Length(), H: s.openH.Length()}
	return place.Place{}.Within(units.RectAt(units.Point{}, s.outside()), o, 1)
}

func (fr Frame) fit(f *fitter) bool {
	bad := &f.b.bad
	before := bad.Len()
	foam, known := "foam", true // how thick the foam is
	if fr.FoamStock != "" {
		foam = fr.FoamStock
		switch of := f.b.stock(foam); {
		case of == nil:
			bad.Malformed(f.at(".kind.foamstock"), check.Unknown, check.Quote(foam), "the name of one of the stocks")
			known = false
		case !check.InBounds(of.Caliper): // said where the stock is
			known = false
		default:
			if fr.Foam = filled(fr.Foam, of.Caliper); fr.Foam != of.Caliper && check.InBounds(fr.Foam) {
				bad.Malformed(f.at(".kind.foam"), check.Conflict, f.notation().Text(fr.Foam)+" of "+check.Quote(foam),
					"nothing, or its caliper of "+f.notation().Text(of.Caliper))
				known = false
			}
		}
	}
	fr = fr.withDefaults(f.notation())
	film := fr.check(f, known)
	if !known || bad.Len() > before {
		return false
	}
	fr.Ease = given(fr.Ease)
	var s frameSize
	s.film = film.Caliper
	if !fr.sized(f, &s) {
		return false
	}
	f.footprint = s.outside()
	f.wide = side{field: ".kind.picture.size.w", given: fr.Picture.Size.W, more: 2*fr.Rail - 2*fr.Lap, around: ".kind.rail", by: fr.Rail}
	f.tall = side{field: ".kind.picture.size.h", given: fr.Picture.Size.H, more: 2*fr.Rail - 2*fr.Lap, around: ".kind.rail", by: fr.Rail}
	f.empty = f.stock.Caliper + fr.Foam
	f.full = f.empty
	opening := s.opening()
	frame := f.piece(&Piece{name: "frame", width: s.w, height: s.h, quantity: 1, opening: &opening})
	f.lay(frame, 0, units.RectAt(units.Point{}, f.footprint))
	if other := f.b.stock(foam); fr.FoamStock == "" && (fr.Foam != usualFoam(f.notation()) || other != nil && other.Caliper != fr.Foam) {
		foam = f.thick(foam, fr.Foam)
	}
	fr.cutStrips(f, &s, foam)
	if fr.Film != "" {
		fr.cutFilm(f, &s, film)
	}
	fr.tell(f, &s, frame, opening)
	return true
}

// border is what the rails take of a side.
func (fr Frame) border(_ place.PictureRule, r *rule.Rulers) units.Length {
	given := fr.withDefaults(r.Main.Notation())
	return 2 * max(given.Rail, given.leastRail(r.Fitting))
}

// leastRail returns the least rail that covers the foam beside a picture that is lapped
// as asked for, on the ruler; 0 where it follows from something wrong.
func (fr *Frame) leastRail(r units.Ruler) units.Length {
	ease := given(fr.Ease)
	if !check.InBounds(fr.Lap) || !check.InBounds(fr.FoamWidth) || ease < 0 || ease > units.Longest {
		return 0
	}
	return r.Up((r.Up(2*fr.Lap) + ease).Half(units.Up) + fr.FoamWidth)
}

// filling gives the frame the largest picture on the ruler with which it is no
// larger than is wanted: with an opening that leaves its rails, and a picture that
// is lapped as asked for.
func (fr Frame) filling(f *fitter) (Kind, bool) {
	given := fr.withDefaults(f.notation())
	lap, rail, ruler := given.Lap, given.Rail, f.ruler()
	if !check.InBounds(lap) || !check.InBounds(rail) {
		ok := f.unsized(&fr.Picture)
		return fr, ok
	}
	var picture, most units.Size
	ok := f.want.sides(func(tall bool, l units.Length) bool {
		step := ruler.Up(units.Shortest)
		opening := ruler.Down(l - 2*rail)
		if opening < step {
			return f.nothingLeft(tall, ".kind.rail", rail, given.leastRail(ruler), "or no opening is left")
		}
		if f.want.picture == place.PictureAny {
			f.sum("opening "+axisName(tall)+" that the rails leave", units.Down, units.T("frame", l), units.N(-2, "rail", rail))
			f.sum("picture "+axisName(tall), units.Up, units.T("opening", opening), units.N(2, "lap", lap))
		}
		*sideOf(&picture, tall) = ruler.Up(opening + 2*lap)
		// With the next opening the frame would be too large.
		*sideOf(&most, tall) = opening + ruler.Step() + 2*lap - units.Nanometre
		return true
	})
	if !ok {
		return fr, false
	}
	if f.want.picture != place.PictureAny {
		fr.Picture, ok = f.print(".kind.picture", fr.Picture, most)
		if side := min(fr.Picture.Size.W, fr.Picture.Size.H); ok && side < ruler.Step()+2*lap {
			_, least, _ := usualPrint(f.want.picture, f.notation(), most) // another lap may take another print
			f.b.bad.Long(f.at(".kind.lap"), TooWide, f.notation(), lap, (min(least.Size.W, least.Size.H) - ruler.Step()).Half(units.Down), "or no opening is left")
			return fr, false
		}
		return fr, ok
	}
	ok = f.fill(".kind.picture.size", "picture", &fr.Picture.Size, picture)
	if side := min(fr.Picture.Size.W, fr.Picture.Size.H); ok && f.want.proportions != (place.Proportions{}) && side < ruler.Step()+2*lap {
		f.b.bad.Impossible(f.at(".size.proportions"), TooNarrow, "a picture of "+sizeText(f.notation(), fr.Picture.Size), "no proportions, or others, or no opening is left")
		return fr, false
	}
	return fr, ok
}

// check checks the fields one by one, and finds the stock of the film. How thick the
// foam is may not be known.
func (fr Frame) check(f *fitter, foamKnown bool) (film stock.Stock) {
	bad := &f.b.bad
	before := bad.Len()
	f.content(".kind.picture", fr.Picture)
	f.length(".kind.lap", fr.Lap)
	f.length(".kind.rail", fr.Rail)
	f.length(".kind.foam", fr.Foam)
	f.length(".kind.foamwidth", fr.FoamWidth)
	f.allowance(".kind.ease", fr.Ease)
	if fr.Mouth > score.Right {
		bad.Malformed(f.at(".kind.mouth"), check.Unknown, count(int(fr.Mouth)), "head, tail, left or right")
	}
	if fr.Film != "" {
		if s := f.b.stock(fr.Film); s != nil {
			film = *s
		} else {
			bad.Malformed(f.at(".kind.film"), check.Unknown, check.Quote(fr.Film), "the name of one of the stocks")
		}
	}
	if bad.Len() > before {
		return film
	}
	n, ruler := f.notation(), f.ruler()
	lies := "for the picture"
	if fr.Film != "" {
		lies = "for the picture and the film"
	}
	switch within := fr.Picture.Thickness + film.Caliper; {
	case !foamKnown || within <= fr.Foam || fr.Film != "" && !check.InBounds(film.Caliper):
	case fr.FoamStock != "": // foam of its own thickness would be another one than that
		bad.Impossible(f.at(".kind.foamstock"), TooThin, check.Quote(fr.FoamStock)+" of "+n.Text(fr.Foam),
			"a stock of at least "+n.Bound(within, units.Up)+" "+lies+", or none and foam as thick")
	default:
		bad.Short(f.at(".kind.foam"), TooThin, n, fr.Foam, within, lies)
	}
	// The lap may have to be less for the sake of an opening.
	lap := fr.Lap
	if most := fr.mostLap(ruler); lap > most && most >= units.Shortest {
		lap = most
	}
	if ease := given(fr.Ease); ease >= 2*lap {
		const why = "or the picture's edge can show in the window"
		most, least := ruler.Down(2*lap-1), ruler.Up(ease.Half(units.Down)+1)
		if most < units.Shortest && least > fr.mostLap(ruler) { // no lap leaves an opening and so much ease
			most = 2*lap - 1
		}
		if most >= units.Shortest {
			bad.Long(f.at(".kind.ease"), TooWide, n, ease, most, why)
		} else {
			bad.Short(f.at(".kind.lap"), TooNarrow, n, fr.Lap, least, why)
		}
	}
	fr.checkOpening(f)
	return film
}

// mostLap returns the greatest lap that leaves a step of the ruler of the opening.
func (fr *Frame) mostLap(r units.Ruler) units.Length {
	return (min(fr.Picture.Size.W, fr.Picture.Size.H) - r.Step()).Half(units.Down)
}

// checkOpening checks that a step of the ruler at least is left of the opening,
// both ways.
func (fr *Frame) checkOpening(f *fitter) {
	const why = "or no opening is left"
	n, pic, step := f.notation(), fr.Picture.Size, f.ruler().Step()
	least := step + 2*fr.Lap
	if pic.W >= least && pic.H >= least {
		return
	}
	if most := fr.mostLap(f.ruler()); most >= units.Shortest {
		f.b.bad.Long(f.at(".kind.lap"), TooWide, n, fr.Lap, most, why)
		return
	}
	if pic.W < least {
		f.b.bad.Short(f.at(".kind.picture.size.w"), TooNarrow, n, pic.W, least, why)
	}
	if pic.H < least {
		f.b.bad.Short(f.at(".kind.picture.size.h"), TooNarrow, n, pic.H, least, why)
	}
}

// sized works out the sizes, and checks that the rail covers the foam.
func (fr Frame) sized(f *fitter, s *frameSize) bool {
	pic := fr.Picture.Size
	// The opening is rounded down, so that the lap is never less than asked
	// for; the outside follows from it with whole rails.
	s.openW = f.sum("frame opening width", units.Down, units.T("picture", pic.W), units.N(-2, "lap", fr.Lap))
	s.openH = f.sum("frame opening height", units.Down, units.T("picture", pic.H), units.N(-2, "lap", fr.Lap))
	s.w = f.sum("frame width", units.Up, units.T("opening", s.openW.Length()), units.N(2, "rail", fr.Rail))
	s.h = f.sum("frame height", units.Up, units.T("opening", s.openH.Length()), units.N(2, "rail", fr.Rail))

	// The strips stop the picture where its edge is hidden: those beside the
	// mouth leave it its ease, and the far one stops it in the middle of the
	// window.
	s.across, s.along = s.w, s.h
	s.picAcross, s.picAlong = pic.W, pic.H
	if upright(fr.Mouth) {
		s.across, s.along = s.h, s.w
		s.picAcross, s.picAlong = pic.H, pic.W
	}
	openAcross, openAlong := s.openW.Length(), s.openH.Length()
	if upright(fr.Mouth) {
		openAcross, openAlong = openAlong, openAcross
	}
	across, along := s.across.Length(), s.along.Length()
	clear := s.picAcross + fr.Ease
	if inner := min(across-clear, along-s.picAlong).Half(units.Down); inner < fr.FoamWidth {
		// A frame of opening and two rails, before it is put on the ruler, that has
		// room for two strips beside what lies between them.
		rail := f.ruler().Up(max(clear-openAcross, s.picAlong-openAlong).Half(units.Up) + fr.FoamWidth)
		const beside = "for the foam strips beside the picture"
		if inner >= f.ruler().Step() && !fr.takes(f, s, rail) {
			f.b.bad.Long(f.at(".kind.foamwidth"), TooWide, f.notation(), fr.FoamWidth, inner, "to lie beside the picture under the rail")
			return false
		}
		f.b.bad.Short(f.at(".kind.rail"), TooNarrow, f.notation(), fr.Rail, rail, beside)
		return false
	}

	// From the frame's edge to the strip, which is what hands set.
	ruler := f.ruler()
	side := ruler.Down((across - clear).Half(units.Down) - fr.FoamWidth)
	if across-2*(side+fr.FoamWidth)-s.picAcross >= s.picAcross-openAcross {
		ruler = f.b.exact() // pushed to one strip it would bare the window at the other
	}
	s.sideAt = fr.FoamWidth + f.b.share("side strip from the frame's edge", 2, ruler, units.Down, units.T("frame", across), units.N(-1, "picture", s.picAcross),
		units.N(-1, "ease", fr.Ease), units.N(-2, "foam strip", fr.FoamWidth)).Length()
	s.clear = across - 2*s.sideAt

	// Lapped there as asked for, it has what the opening was rounded by more at the
	// mouth. The opening lies in the middle, of an odd rest nearer to head and left.
	const label = "far strip from the frame's edge"
	ruler = f.ruler()
	end := units.Up
	if fr.Mouth == score.Tail || fr.Mouth == score.Right {
		end = units.Down
	}
	rail := (along - openAlong).Half(end)
	far := ruler.Down((along - openAlong).Half(units.Down) - fr.Lap - fr.FoamWidth)
	if atMouth := s.picAlong - openAlong - (rail - far - fr.FoamWidth); atMouth >= fr.Lap {
		far = f.b.share(label, 2, ruler, units.Down, units.T("frame", along), units.N(-1, "opening", openAlong), units.N(-2, "lap", fr.Lap), units.N(-2, "foam strip", fr.FoamWidth)).Length()
	} else {
		far = f.b.share(label, 2, f.b.exact(), end, units.T("frame", along), units.N(-1, "picture", s.picAlong), units.N(-2, "foam strip", fr.FoamWidth)).Length()
	}
	s.farAt = far + fr.FoamWidth

	lap := rail - s.farAt // at the far end
	f.comesTo(".kind.lap", "lap", "opening and the foam strips", fr.Lap, (s.picAcross - openAcross).Half(units.Up), lap, s.picAlong-openAlong-lap)
	f.comesTo(".kind.rail", "rail", "frame and its opening", fr.Rail, (along - openAlong).Half(units.Up)) // across as well
	f.comesTo(".kind.ease", "ease", "foam strips", fr.Ease, s.clear-s.picAcross)
	return true
}

// takes reports whether other rails go: of a side by relation they must leave an
// opening, and else the frame must go on what it lies on.
func (fr *Frame) takes(f *fitter, s *frameSize, rail units.Length) bool {
	least, most := units.Size{W: s.openW.Length(), H: s.openH.Length()}, units.Size{W: units.Longest, H: units.Longest}
	if room, known := f.b.roomOf(f.index); known {
		most = room
	}
	_ = f.want.sides(func(tall bool, l units.Length) bool {
		*sideOf(&least, tall), *sideOf(&most, tall) = f.ruler().Step(), l
		return true
	})
	return least.Grow(rail).FitsIn(most)
}

// cutStrips adds the foam and lays it: one strip along each side beside the
// mouth, the full length, and one between them at the far end.
func (fr Frame) cutStrips(f *fitter, s *frameSize, foam string) {
	width := f.b.exactly("foam strip width", units.T("as given", fr.FoamWidth))
	length := f.sum("foam strip at the sides", units.Down, units.T("frame", s.along.Length()))
	// It begins and ends on the ruler, too, where that leaves something of it.
	inner := s.sideAt
	if on := f.ruler().Up(inner); s.across.Length()-2*on >= f.ruler().Step() {
		inner = on
	}
	end := f.sum("foam strip at the far end", units.Down, units.T("frame", s.across.Length()), units.N(-2, "beside it", inner))
	side := Piece{name: "side foam strip", role: stock.FoamPiece, stock: foam, caliper: fr.Foam, width: width, height: length, quantity: 2}
	far := Piece{name: "far foam strip", role: stock.FoamPiece, stock: foam, caliper: fr.Foam, width: end, height: width, quantity: 1}
	if upright(fr.Mouth) {
		side.width, side.height = side.height, side.width
		far.width, far.height = far.height, far.width
	}
	sides, ends := f.piece(&side), f.piece(&far)
	from, to, depth := s.sideAt, s.sideAt+s.clear, s.along.Length()
	at := depth - s.farAt
	f.lay(sides, 0, fr.box(f, from-fr.FoamWidth, 0, from, depth))
	f.lay(sides, 1, fr.box(f, to, 0, to+fr.FoamWidth, depth))
	mid := from + (s.clear - end.Length()).Half(units.Down)
	f.lay(ends, 0, fr.box(f, mid, at, mid+end.Length(), at+fr.FoamWidth))
}

// cutFilm adds the window film and lays it. It laps the rails as far as the
// picture does, between the strips.
func (fr Frame) cutFilm(f *fitter, s *frameSize, film stock.Stock) {
	w := f.sum("film width", units.Down, units.T("opening", s.openW.Length()), units.N(2, "lap", fr.Lap))
	h := f.sum("film height", units.Down, units.T("opening", s.openH.Length()), units.N(2, "lap", fr.Lap))
	at := f.piece(&Piece{name: "window film", role: stock.FilmPiece, stock: film.Name, caliper: film.Caliper, width: w, height: h, quantity: 1})
	size := units.Size{W: w.Length(), H: h.Length()}
	f.lay(at, 0, place.Place{}.Within(units.RectAt(units.Point{}, f.footprint), size, 1))
}

// tell writes layers, spot, load and surfaces down; o is the opening.
func (fr Frame) tell(f *fitter, s *frameSize, frame int, o units.Rect) {
	// Foam sticks by itself. In the opening there is the film of the window, or
	// only the picture that lies below.
	r := units.RectAt(units.Point{}, f.footprint)
	rails := around(o, f.footprint)
	for _, rail := range rails {
		f.layers = append(f.layers, Layer{name: "rail", rect: rail, height: f.full})
	}
	on := Surface{name: "rail", height: f.full, piece: int32(frame), panel: -1}
	if fr.Film != "" {
		f.layers = append(f.layers, Layer{name: "window film", rect: o, height: fr.Foam})
		on.name, on.rect = "frame", r
		f.surfaces = append(f.surfaces, on)
	} else {
		f.layers = append(f.layers, Layer{name: "picture", rect: o, height: fr.Picture.Thickness, held: true})
		// A rail by itself carries what lies on it from edge to edge.
		rails[2].Min.Y, rails[2].Max.Y = r.Min.Y, r.Max.Y
		rails[3].Min.Y, rails[3].Max.Y = r.Min.Y, r.Max.Y
		for _, rail := range rails {
			on.rect = rail
			f.surfaces = append(f.surfaces, on)
		}
	}

	from, far, clear := s.sideAt, s.along.Length()-s.farAt, s.clear
	long := s.picAlong + fr.Ease
	room := fr.box(f, from, max(far-long, 0), from+clear, far)
	in := from + (clear - s.picAcross).Half(units.Down)
	size := room.Size()
	spot := Spot{
		rect: room, lies: fr.box(f, in, far-s.picAlong, in+s.picAcross, far), clear: size,
		capacity: pocket.Capacity{Size: size.Plus(-fr.Ease, -fr.Ease), Thickness: fr.Foam - s.film, Count: 1},
		content:  fr.Picture, mouth: fr.Mouth, seen: o,
	}
	spot.wayIn = wayIn(room, f.footprint, fr.Mouth, grip(f.notation()))
	// Its own picture stays where the ease is more than the lap, too: it rests
	// on the far strip.
	spot.least = units.Size{
		W: max(o.Max.X-room.Min.X, room.Max.X-o.Min.X),
		H: max(o.Max.Y-room.Min.Y, room.Max.Y-o.Min.Y),
	}.Min(fr.Picture.Size)
	f.spots = append(f.spots, spot)
	f.loads = append(f.loads, Load{name: fr.Picture.Name, content: fr.Picture, count: 1, held: true})
}

// around returns the rectangles of which what lies round a part of a sheet of the given
// size consists: those at the head and the tail from edge to edge, and those at the left
// and the right between them.
func around(o units.Rect, sheet units.Size) [4]units.Rect {
	return [...]units.Rect{
		{Max: units.Point{X: sheet.W, Y: o.Min.Y}},
		{Min: units.Point{Y: o.Max.Y}, Max: units.Point{X: sheet.W, Y: sheet.H}},
		{Min: units.Point{Y: o.Min.Y}, Max: units.Point{X: o.Min.X, Y: o.Max.Y}},
		{Min: units.Point{X: o.Max.X, Y: o.Min.Y}, Max: units.Point{X: sheet.W, Y: o.Max.Y}},
	}
}

// box returns a rectangle of the footprint that is given as it would be with the
// mouth at the head: x counts across, y from the mouth.
func (fr Frame) box(f *fitter, x0, y0, x1, y1 units.Length) units.Rect {
	return fr.turned(units.Rect{Min: units.Point{X: x0, Y: y0}, Max: units.Point{X: x1, Y: y1}}, f.footprint)
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

// upright reports whether an edge runs from head to tail.
func upright(e score.Edge) bool { return e == score.Left || e == score.Right }

func (fr Frame) holds() pocket.Content { return fr.Picture }

// work cuts the frame and its foam, sticks film and foam on its back, which is
// turned up for that, and fixes it in its place by the foam; the picture slips
// in in the end.
func (fr Frame) work(o *order, f *Fitted) {
	p := o.p
	t := p.object(int(f.first))
	cut := o.cutFitting(f)
	var buf [usual]work.Action
	back := append(buf[:0], work.TurnOver{What: t})
	by := work.Glue
	for _, role := range [...]stock.PieceRole{stock.FilmPiece, stock.FoamPiece} {
		for _, q := range f.lain {
			piece := &p.pieces[q.piece]
			if piece.role != role {
				continue
			}
			// With the back up, what lies near the left edge lies near the right.
			what, lies := work.Object{Index: int(q.piece), Copy: int(q.copy), Name: p.pieceName(int(q.piece))}, f.seen(q.rect)
			if piece.quantity > 1 {
				what.Name = ordinal(int(q.copy)) + " " + what.Name
			}
			fix := work.Fix{
				What: what, Panel: work.All, On: onPiece(t), By: by, Size: q.rect.Size(), Up: score.Back,
				At: work.At{Across: score.Right, X: lies.Min.X, Along: score.Head, Y: lies.Min.Y},
			}
			// From the nearer edge: so both at the sides lie equally far from theirs.
			if x := f.rect.Size().W - lies.Max.X; x < lies.Min.X {
				fix.At.Across, fix.At.X = score.Left, x
			}
			if y := f.rect.Size().H - lies.Max.Y; y < lies.Min.Y {
				fix.At.Along, fix.At.Y = score.Tail, y
			}
			if role == stock.FilmPiece {
				fix.Flat, fix.Areas = fix.Size, round(fix.Size, *p.pieces[f.first].opening, lies)
			}
			back = append(back, fix)
		}
		if role == stock.FilmPiece && len(back) > 1 {
			cut = o.step(work.TaskGlue, o.part, 0, []int{cut}, back...)
			cut = o.dry(o.part, cut, work.Dry{What: "the window film"})
			back = buf[:0]
		}
		by = work.SelfSticky
	}
	back = append(back, work.TurnOver{What: t, Again: true})
	foamed := o.step(work.TaskGlue, o.part, 0, []int{cut}, back...)
	fixed := o.fix(f, t, f.rect, work.SelfSticky, nil, foamed)
	on, seat := p.seat(f)
	for i, s := range f.spots {
		c, _ := s.Content() // it is made for one
		o.fill([]int{fixed}, work.Insert{
			What: work.Object{Kind: work.Content, Index: o.part.Index, Copy: i, Name: contentName(c)}, Into: o.part, From: fr.Mouth,
			On: on, At: p.where(f, s.lies, seat), Size: s.lies.Size(),
		})
	}
}

// round returns the areas of a film of the given size that lie round a window,
// where the film and the window lie on the frame as given.
func round(film units.Size, window, at units.Rect) []units.Rect {
	hole := window.Moved(units.Point{X: -at.Min.X, Y: -at.Min.Y})
	var areas []units.Rect
	for _, r := range around(hole, film) {
		if !r.Empty() {
			areas = append(areas, r)
		}
	}
	return areas
}
