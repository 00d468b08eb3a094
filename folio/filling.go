package folio

import (
	"strings"

	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A bordered kind takes more of a side by relation than its picture has.
type bordered interface {
	border(by place.PictureRule, r *rule.Rulers) units.Length
}

// unsized gives a picture, for a size that is not known because something is wrong, what
// is left to the relation or to a print: fit says what is wrong.
func (f *fitter) unsized(picture *pocket.Content) (ok bool) {
	size := units.Size{W: units.Metre, H: units.Metre}
	if f.want.picture == place.PictureAny {
		return f.fill(".kind.picture.size", "picture", &picture.Size, size)
	}
	*picture, ok = f.print(".kind.picture", *picture, size)
	return ok
}

// bySize blames what the fitting is too large for on its relation; a usual print
// has both sides from there.
func (f *fitter) bySize() {
	size := &f.given.Size
	both := f.want.picture != place.PictureAny || f.want.proportions != place.Proportions{}
	if f.want.w != nil || both {
		f.wide = side{field: ".size.w", relation: &size.W, working: f.want.w}
	}
	if f.want.h != nil || both {
		f.tall = side{field: ".size.h", relation: &size.H, working: f.want.h}
	}
}

// past says that a side by relation is larger than its room, and how much more
// must be taken off, or less added.
func (f *fitter) past(s side, code check.Code, got, room units.Length, on string) {
	n, w, r := f.notation(), s.working, f.ruler()
	if w != nil && f.want.picture == place.PictureAny && f.want.proportions == (place.Proportions{}) {
		least := r.Down(r.Down(room) - max(got-w.Length(), 0))
		if least >= f.least(f.border) {
			what := "to be at most " + n.Bound(room, units.Down) + " " + on
			all, more, most := w.Total(), s.relation.More, times(least, w.Shares())
			if more > 0 {
				all -= min(all-most, more)
				f.b.bad.Long(f.at(s.field+".more"), code, n, more, more-(w.Total()-all), what)
			}
			// Without more it is rounded down: all that is less than the next step would do.
			less, enough := s.relation.Less+all-most, s.relation.Less+all-most-times(r.Step(), w.Shares())+units.Nanometre
			if enough > s.relation.Less {
				f.b.bad.Short(f.at(s.field+".less"), code, n, s.relation.Less, plainer(n, less, enough), what)
			}
			return
		}
	}
	f.b.bad.Impossible(f.at(s.field), code, n.Text(got)+" in all", "a relation that leaves at most "+n.Bound(room, units.Down)+" "+on)
}

// least returns the least side that leaves something within a border, which is a step of
// the ruler where there is none.
//
//go:noinline
func (f *fitter) least(border units.Length) units.Length {
	r := f.ruler()
	return r.Up(r.Up(units.Shortest) + border + min(border, 1))
}

// lacking says that a side by relation is too small for what a design wants in it,
// and how much less must be taken off for it to be at least so large.
func (f *fitter) lacking(tall bool, r *place.Relation, w *units.Working, v check.Violation, least units.Length) {
	got := v.Got + " of room"
	if _, what, _ := strings.Cut(v.Want, " for "); v.Bound == check.AtLeast {
		least = f.ruler().Up(max(least, w.Length()+v.By))
		f.b.lessOff(f.index, r, w, tall, RoomSmall, least, least, got, "for "+what)
		return
	}
	v.Path, v.Code, v.Got = f.at(axisTextOf(tall).size), RoomSmall, got
	f.b.bad.Add(v)
}

// lessOff says what must be taken off less, or added, for a side by relation to come to
// the least that would do: at one field where that does, else at each that it takes; and
// where none does, how much more there must be than is got. More than there is of what
// the fitting lies on is not to be had.
func (b *builder) lessOff(i int, r *place.Relation, w *units.Working, tall bool, code check.Code, least, most units.Length, got, what string) {
	n, path := b.notation(), fittingPath(i)+axisTextOf(tall).size
	room, known := b.roomOf(i)
	there, gaps := *sideOf(&room, tall), max(r.Shares-1, 0)
	lack := times(least, w.Shares()) - w.Total()
	more := r.More + lack
	enough := max(more-times(b.spec.Rulers.Fitting.Step(), w.Shares()), 0) + units.Nanometre // with more it is rounded up
	off := [...]struct {
		field string
		l     units.Length
		n     int
	}{{".margin", r.Margin, 2}, {".less", r.Less, 1}, {".gap", r.Gap, gaps}}
	switch {
	case known && least > there:
		if most = least; there > 0 {
			got = n.Text(there) + " where it lies"
		}
	case 2*r.Margin+r.Less+times(r.Gap, gaps) >= lack:
		for one := true; lack > 0; one = false {
			for _, o := range off {
				cut, _ := lack.Scale(1, int64(max(o.n, 1)), units.Up)
				if o.n == 0 || o.l == 0 || one && o.l < cut || lack <= 0 {
					continue
				}
				cut = min(cut, o.l)
				lack -= times(cut, o.n)
				b.bad.Long(path+o.field, code, n, o.l, o.l-cut, what)
			}
		}
		return
	case known && least < there && r.Less == 0 && check.InBounds(more):
		b.bad.Short(path+".more", code, n, r.More, plainer(n, more, enough), what)
		return
	}
	if strings.HasPrefix(what, "or ") {
		what = ", " + what
	} else {
		what = " " + what
	}
	b.bad.Impossible(path, code, got, "at least "+n.Bound(most, units.Up)+what)
}

// plainer returns a length that would do, or the ten-thousandth of an inch below it where
// so much less is enough: in inches more would be told, which comes to a step more.
func plainer(n units.Notation, l, enough units.Length) units.Length {
	const tenth = units.Thou / 10
	if n == units.MetricDecimal || units.SixtyFourths.Has(l) || l-enough < tenth {
		return l
	}
	return l - l%tenth
}

// An axisText is what is said of a side of a fitting across or along its ground.
type axisText struct {
	code               check.Code
	wide, size, offset string
	edges              [2]string
}

var axisTexts = [2]axisText{
	{TooWide, "wide on ", ".size.w", ".place.offset.x", [2]string{"left", "right"}},
	{TooTall, "high on ", ".size.h", ".place.offset.y", [2]string{"head", "tail"}},
}

func axisTextOf(tall bool) *axisText {
	if tall {
		return &axisTexts[1]
	}
	return &axisTexts[0]
}

// anyPicture refuses a rule for pictures where there are none.
func (f *fitter) anyPicture() bool {
	if f.want.picture == place.PictureAny {
		return true
	}
	f.b.bad.Malformed(f.at(".size.picture"), check.Conflict, f.want.picture.String()+" in a "+f.given.Kind.String(), "any size, or a mat or a frame with a picture")
	return false
}

// free reports whether a field is left for the relation to give.
func (f *fitter) free(field string, l units.Length, by string) bool {
	if l == 0 {
		return true
	}
	f.b.bad.Malformed(f.at(field), check.Conflict, f.notation().Text(l)+" and a "+by+" by relation", "one of the two")
	return false
}

// fill gives the sides of a size that are wanted, in its proportions; path is that
// of the size, what what it is.
func (f *fitter) fill(path, what string, s *units.Size, most units.Size) bool {
	ok, both := true, f.want.proportions != place.Proportions{}
	if both {
		most, ok = f.proportioned(what, most)
	}
	if f.want.w != nil || both {
		ok = f.free(path+".w", s.W, "width") && ok
		s.W = most.W
	}
	if f.want.h != nil || both {
		ok = f.free(path+".h", s.H, "height") && ok
		s.H = most.H
	}
	return ok
}

// proportioned returns the largest size on the ruler in the proportions that are
// wanted, no larger than most in the sides that are. The width is rounded down, and
// the height that follows from it too. Their workings are those of a mat then.
func (f *fitter) proportioned(what string, most units.Size) (units.Size, bool) {
	p, r := f.want.proportions.Lowest(), f.ruler()
	size := most
	if f.want.w == nil {
		size.W = units.Longest
	}
	if f.want.h != nil {
		if f.want.w == nil || times(most.H, p.W) < times(most.W, p.H) {
			f.want.w = f.b.share(what+" width in proportion", p.H, r, units.Down, units.N(p.W, "height there is", most.H))
			size.W = f.want.w.Length()
		}
	}
	f.want.h = f.b.share(what+" height in proportion", p.W, r, units.Down, units.N(p.H, "width", size.W))
	size.H = f.want.h.Length()
	if check.InBounds(size.W) && check.InBounds(size.H) {
		return size, true
	}
	f.b.bad.Malformed(f.at(".size.proportions"), check.OutOfRange, count(p.W)+" to "+count(p.H)+", which makes "+sizeText(f.notation(), size), "no proportions, or others")
	return size, false
}

// A wanted is what a Sizing comes to: the working of each side that it gives.
type wanted struct {
	w, h        *units.Working
	picture     place.PictureRule
	proportions place.Proportions
}

func (w *wanted) any() bool { return w.w != nil || w.h != nil }

// size returns the sides that are wanted, 0 where one is not.
func (w *wanted) size() units.Size { return units.Size{W: lengthOf(w.w), H: lengthOf(w.h)} }

// sides calls work for each side that is wanted, with what it comes to, and
// reports whether it did so each time.
func (w *wanted) sides(work func(tall bool, l units.Length) bool) bool {
	ok := true
	if w.w != nil {
		ok = work(false, w.w.Length())
	}
	if w.h != nil {
		ok = work(true, w.h.Length()) && ok
	}
	return ok
}

// sideOf returns a side of a size.
func sideOf(s *units.Size, tall bool) *units.Length {
	if tall {
		return &s.H
	}
	return &s.W
}

// axisName returns what a side is called.
func axisName(tall bool) string {
	if tall {
		return "height"
	}
	return "width"
}

// nothingLeft says that a field takes all that there is of a side, or more: so much of
// it on either side leaves something, or less taken off by the relation, where it must
// be at least so much.
func (f *fitter) nothingLeft(tall bool, field string, got, atLeast units.Length, what string) bool {
	code, r, w := axisTextOf(tall).code, &f.given.Size.W, f.want.w
	if tall {
		r, w = &f.given.Size.H, f.want.h
	}
	l, step := w.Length(), f.ruler().Up(units.Shortest)
	if most := (l - step).Half(units.Down); most >= max(atLeast, units.Shortest) {
		f.b.bad.Long(f.at(field), code, f.notation(), got, most, what)
	} else {
		least := f.ruler().Up(step + 2*max(got, atLeast))
		f.b.lessOff(f.index, r, w, tall, code, least, least, f.notation().Text(l)+" in all", what)
	}
	return false
}

// print takes the largest usual print that is no larger than most in the sides
// that are wanted.
func (f *fitter) print(path string, picture pocket.Content, most units.Size) (pocket.Content, bool) {
	if picture.Size != (units.Size{}) {
		f.b.bad.Malformed(f.at(path+".size"), check.Conflict, sizeText(f.notation(), picture.Size)+" and a "+f.want.picture.String(), "one of the two")
		return picture, false
	}
	if f.want.w == nil {
		most.W = units.Longest
	}
	if f.want.h == nil {
		most.H = units.Longest
	}
	best, least, ok := usualPrint(f.want.picture, f.notation(), most)
	if !ok {
		f.b.bad.Impossible(f.at(".size.picture"), NoPrint, "room for a picture of "+f.roomText(units.Size{W: f.ruler().Down(most.W), H: f.ruler().Down(most.H)}), "any size, or room for one of "+sizeText(f.notation(), least.Size))
		return picture, false
	}
	if picture.Name == "" {
		picture.Name = best.Name
	}
	if picture.Thickness == 0 {
		picture.Thickness = best.Thickness
	}
	picture.Size = best.Size
	return picture, true
}

// roomText tells the sides of a size that are wanted.
func (f *fitter) roomText(s units.Size) string {
	n := f.notation()
	switch {
	case f.want.h == nil:
		return n.Text(s.W) + " in width"
	case f.want.w == nil:
		return n.Text(s.H) + " in height"
	}
	return sizeText(n, s)
}

// usualPrint returns the largest print of a notation that is no larger than most and
// the least one there is, and whether there is one.
func usualPrint(r place.PictureRule, n units.Notation, most units.Size) (best, least pocket.Content, ok bool) {
	for c := range pocket.Prints(n) {
		if r == place.PictureUsualLying {
			c = c.Turned()
		}
		area := c.Size.Area()
		if least.Size.Empty() || area.Compare(least.Size.Area()) < 0 {
			least = c
		}
		if c.Size.FitsIn(most) && (!ok || area.Compare(best.Size.Area()) > 0) {
			best, ok = c, true
		}
	}
	return best, least, ok
}
