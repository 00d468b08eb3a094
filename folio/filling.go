package folio

import (
	"strings"

	"boardwrap.example/folio/place"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A bordered kind takes more of a side by relation than its picture has.
type bordered interface {
	border(by place.PictureRule, n units.Notation) units.Length
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
	n, w := f.notation(), s.working
	if w != nil && f.want.picture == place.PictureAny && f.want.proportions == (place.Proportions{}) {
		least := f.ruler().Down(room) - (got - w.Length())
		cut := w.Total() - times(least, w.Shares())
		switch {
		case least < f.ruler().Up(units.Shortest):
		case s.relation.More >= cut:
			f.b.bad.Long(f.at(s.field+".more"), code, n, s.relation.More, s.relation.More-cut, "to be at most "+n.Bound(room, units.Down)+" "+on)
			return
		case s.relation.More == 0:
			f.b.bad.Short(f.at(s.field+".less"), code, n, s.relation.Less, s.relation.Less+cut, "to be at most "+n.Bound(room, units.Down)+" "+on)
			return
		}
	}
	f.b.bad.Impossible(f.at(s.field), code, n.Text(got)+" in all", "a relation that leaves at most "+n.Bound(room, units.Down)+" "+on)
}

// lacking says that a side by relation is too small for what a design wants in it,
// and how much less must be taken off.
func (f *fitter) lacking(s side, v check.Violation) {
	n, w := f.notation(), s.working
	_, what, _ := strings.Cut(v.Want, " for ")
	if v.Bound == check.AtLeast {
		cut := times(w.Length()+v.By, w.Shares()) - w.Total()
		each, what := cut.Half(units.Up), "for "+what
		switch {
		case s.relation.Less >= cut:
			f.b.bad.Long(f.at(s.field+".less"), RoomSmall, n, s.relation.Less, s.relation.Less-cut, what)
			return
		case s.relation.Margin >= each:
			f.b.bad.Long(f.at(s.field+".margin"), RoomSmall, n, s.relation.Margin, s.relation.Margin-each, what)
			return
		}
	}
	v.Path, v.Code, v.Got, v.Bound, v.Limit, v.By = f.at(s.field), RoomSmall, v.Got+" of room", check.NoBound, 0, 0
	f.b.bad.Add(v)
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

// nothingLeft says that a field takes all that there is of a side, or more: so
// much of it on either side leaves something.
func (f *fitter) nothingLeft(tall bool, field string, got, most, room units.Length, what string) bool {
	code, at := TooWide, ".size.w"
	if tall {
		code, at = TooTall, ".size.h"
	}
	if most >= units.Shortest {
		f.b.bad.Long(f.at(field), code, f.notation(), got, most, what)
	} else {
		f.b.bad.Impossible(f.at(at), code, f.notation().Text(room)+" in all", "more than that, "+what)
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
