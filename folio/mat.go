package folio

import (
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A Mat is a backing a little larger than the picture on it; what shows round
// the picture is the reveal. Give the picture, or the mat's own Size when it
// carries none. Width and height are put on the ruler of fittings, upwards.
type Mat struct {
	// Picture is what is mounted in the middle of the mat.
	Picture pocket.Content
	// Reveal shows on each side of the picture; 0 means 1/8 in, or 3 mm where
	// plans are metric (common practice, no published source), [units.None] nothing.
	Reveal units.Length
	// Size is that of a mat without a picture; zero takes it from the picture, or by
	// relation.
	Size units.Size
}

// usualReveal is what shows of a mat round its picture: 1/8 in or 3 mm (common
// practice, no published source).
func usualReveal(n units.Notation) units.Length {
	return n.Choose(units.Inch/8, 3*units.Millimetre)
}

// String returns "mat".
func (Mat) String() string { return "mat" }

func (m Mat) withUsual(r rule.Rulers) Kind {
	m.Reveal = filled(m.Reveal, usualReveal(r.Main.Notation()))
	return m
}

func (m Mat) fit(f *fitter) bool {
	bad := &f.b.bad
	before := bad.Len()
	reveal := orDefault(m.Reveal, usualReveal(f.notation()))
	bare := m.Picture == pocket.Content{}
	switch {
	case bare:
		f.size(".kind.size", m.Size)
	case m.Size != units.Size{}:
		bad.Malformed(f.at(".kind.size"), check.Conflict, "a size and a picture", "a size or a picture, not both")
	default:
		f.content(".kind.picture", m.Picture)
	}
	f.allowance(".kind.reveal", m.Reveal)
	if bad.Len() > before {
		return false
	}
	var w, h *units.Working
	if bare {
		if w = f.want.w; w == nil {
			w = f.sum("mat width", units.Up, units.T("as given", m.Size.W))
			f.comesTo(".kind.size.w", w.Label(), "", m.Size.W, w.Length())
		}
		if h = f.want.h; h == nil {
			h = f.sum("mat height", units.Up, units.T("as given", m.Size.H))
			f.comesTo(".kind.size.h", h.Label(), "", m.Size.H, h.Length())
		}
		f.wide, f.tall = side{field: ".kind.size.w", given: m.Size.W}, side{field: ".kind.size.h", given: m.Size.H}
	} else {
		w = f.sum("mat width", units.Up, units.T("picture", m.Picture.Size.W), units.N(2, "reveal", reveal))
		h = f.sum("mat height", units.Up, units.T("picture", m.Picture.Size.H), units.N(2, "reveal", reveal))
		f.wide = side{field: ".kind.picture.size.w", given: m.Picture.Size.W, more: 2 * reveal, around: ".kind.reveal", by: reveal}
		f.tall = side{field: ".kind.picture.size.h", given: m.Picture.Size.H, more: 2 * reveal, around: ".kind.reveal", by: reveal}
		f.comesTo(".kind.reveal", "reveal", "mat", reveal, (w.Length() - m.Picture.Size.W).Half(units.Up), (h.Length() - m.Picture.Size.H).Half(units.Up))
	}
	f.footprint = units.Size{W: w.Length(), H: h.Length()}
	whole := units.RectAt(units.Point{}, f.footprint)
	f.empty, f.full = f.stock.Caliper, f.stock.Caliper+m.Picture.Thickness
	at := f.piece(&Piece{name: "mat", width: w, height: h, quantity: 1})
	f.lay(at, 0, whole)
	f.layers = append(f.layers, Layer{name: "mat", rect: whole, height: f.empty + f.film()})
	f.surfaces = append(f.surfaces, Surface{name: "mat", rect: whole, height: f.empty, piece: int32(at), panel: -1})

	room := whole.Grow(-reveal)
	s := Spot{rect: room, lies: room, wayIn: room, clear: room.Size(), content: m.Picture, mounted: true,
		capacity: pocket.Capacity{Size: room.Size(), Thickness: units.Longest, Count: 1}}
	if !bare {
		s.lies = place.Place{}.Within(whole, m.Picture.Size, 1)
		s.seen = s.lies
		f.layers = append(f.layers, Layer{name: "picture", rect: s.lies, height: m.Picture.Thickness + f.film(), held: true})
		f.loads = append(f.loads, Load{name: m.Picture.Name, content: m.Picture, count: 1, held: true})
	}
	if !room.Empty() {
		f.spots = append(f.spots, s)
	}
	return true
}

// border is what is taken off a side of a mat with a picture.
func (m Mat) border(by place.PictureRule, r *rule.Rulers) units.Length {
	if m.Picture == (pocket.Content{}) && by == place.PictureAny {
		return 0
	}
	return 2 * orDefault(m.Reveal, usualReveal(r.Main.Notation()))
}

// filling gives a mat without a picture its size, and any other the largest
// picture on the ruler that goes on it with the reveal round it.
func (m Mat) filling(f *fitter) (Kind, bool) {
	if m.Picture == (pocket.Content{}) && f.want.picture == place.PictureAny {
		return m, f.fill(".kind.size", "mat", &m.Size, f.want.size())
	}
	reveal, ruler := orDefault(m.Reveal, usualReveal(f.notation())), f.ruler()
	if reveal != 0 && !check.InBounds(reveal) {
		ok := f.unsized(&m.Picture)
		return m, ok
	}
	var picture units.Size
	ok := f.want.sides(func(tall bool, l units.Length) bool {
		most := ruler.Down(l - 2*reveal)
		if most < units.Shortest {
			return f.nothingLeft(tall, ".kind.reveal", reveal, 0, "or nothing is left of the picture")
		}
		if f.want.picture == place.PictureAny {
			f.sum("picture "+axisName(tall), units.Down, units.T("mat", l), units.N(-2, "reveal", reveal))
		}
		*sideOf(&picture, tall) = most
		return true
	})
	if !ok {
		return m, false
	}
	if f.want.picture != place.PictureAny {
		// Not put on the ruler: a print is as large as it is.
		size := f.want.size()
		m.Picture, ok = f.print(".kind.picture", m.Picture, size.Grow(-reveal))
		return m, ok
	}
	return m, f.fill(".kind.picture.size", "picture", &m.Picture.Size, picture)
}

func (m Mat) holds() pocket.Content { return m.Picture }

// work cuts the mat, fixes it in its place, and its picture on it in the end.
func (m Mat) work(o *order, f *Fitted) {
	t := o.p.object(int(f.first))
	cut := o.cutFitting(f)
	fixed := o.fix(f, t, f.rect, o.adhesive(), o.sticky(f.rect.Size()), cut)
	on := onPiece(t)
	for i, s := range f.spots {
		c, ok := s.Content()
		if !ok {
			continue
		}
		lies := f.seen(s.lies)
		at := work.At{Across: score.Left, X: lies.Min.X, Along: score.Head, Y: lies.Min.Y}
		o.fill([]int{fixed}, work.Fix{
			What: work.Object{Kind: work.Content, Index: o.part.Index, Copy: i, Name: contentName(c)}, Panel: work.All,
			On: on, At: at, By: o.adhesive(), Areas: o.sticky(s.lies.Size()), Flat: s.lies.Size(), Size: s.lies.Size(),
		})
		if o.hides(s.lies) { // put on before something else lies over it
			last := len(o.fillings) - 1
			fixed = o.put(o.fillings[last])
			o.fillings = o.fillings[:last]
			o.stands[o.part.Index] = fixed
		}
	}
}
