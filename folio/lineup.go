package folio

import (
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// lineUp puts a fitting in line with the others that its place names, or evenly
// among those on the same ground, and reports whether it can be.
func (b *builder) lineUp(f *fitter, out *Fitted, area units.Rect, on string, places []int16) bool {
	p := &f.given.Place
	at, ok := out.rect.Min, true
	if p.AcrossOf != "" {
		var to *Fitted
		if to, ok = b.lined(f, ".place.acrossof", p.AcrossOf, places); to != nil {
			if to.panel != out.panel || to.outside != out.outside {
				b.bad.Malformed(f.at(".place.acrossof"), check.Conflict, check.Quote(p.AcrossOf)+" on another board, or on its other side", "no name, or that of a fitting on the same side of the same board")
				ok = false
			}
			at.X = to.rect.Min.X + p.Start(false, to.rect.Size().W, f.footprint.W, f.ruler())
		}
	}
	if p.AlongOf != "" {
		to, found := b.lined(f, ".place.alongof", p.AlongOf, places)
		if to != nil {
			at.Y = to.rect.Min.Y + p.Start(true, to.rect.Size().H, f.footprint.H, f.ruler())
		}
		ok = ok && found
	}
	if p.Across == place.Even {
		x, found := b.even(f, false, area.Size().W, on)
		at.X = area.Min.X + x + p.Offset.X
		ok = ok && found
	}
	if p.Along == place.Even {
		y, found := b.even(f, true, area.Size().H, on)
		at.Y = area.Min.Y + y + p.Offset.Y
		ok = ok && found
	}
	out.rect = units.RectAt(at, f.footprint)
	return ok
}

// lined finds the fitting with which another one is lined up; nil for one that
// cannot be.
func (b *builder) lined(f *fitter, field, name string, places []int16) (*Fitted, bool) {
	if at := b.standing(name, f.index, places); at >= 0 {
		return &b.plan.fitted[at], true
	}
	if j := b.named(name); j < 0 || j >= f.index {
		b.bad.Malformed(f.at(field), check.Unknown, check.Quote(name), b.earlier(f.index))
	}
	return nil, false
}

// standing returns the place in the plan of the fitting with a name.
func (b *builder) standing(name string, index int, places []int16) int {
	for j := range index {
		if b.spec.Fittings[j].Name == name && places[j] >= 0 {
			return int(places[j])
		}
	}
	return -1
}

// even returns where a fitting begins among those that share their ground
// evenly, from the ground's edge.
func (b *builder) even(f *fitter, tall bool, room units.Length, on string) (units.Length, bool) {
	var sum, before units.Length // of all of them, and of those before this one
	n, k, first := 0, 0, -1
	for j := range b.spec.Fittings {
		if !b.shares(f.index, j, tall) {
			continue
		}
		if first < 0 {
			first = j
		}
		at := &b.footings[j]
		if j != f.index && at.state != footingFound && at.state != footingLarge {
			return 0, false // said of that one
		}
		if n++; j == f.index {
			k, before = n, sum
		}
		sum += *sideOf(&at.size, tall)
	}
	if sum > room {
		if first == f.index {
			field, code, what := ".place.across", TooWide, " in width "
			if tall {
				field, code, what = ".place.along", TooTall, " in height "
			}
			who := "for what is"
			if n > 1 {
				who = "for the " + count(n) + " that are"
			}
			b.bad.Impossible(f.at(field), code, b.notation().Text(sum)+what+who+" placed evenly", "at most "+b.notation().Bound(room, units.Down)+" on "+on)
		}
		return 0, false
	}
	gaps, _ := (room - sum).Scale(int64(k), int64(n+1), units.Down)
	return before + f.ruler().Down(gaps), true
}

// shares reports whether two fittings share the same ground evenly on an axis.
func (b *builder) shares(i, j int, tall bool) bool {
	f, g := &b.spec.Fittings[i], &b.spec.Fittings[j]
	align := g.Place.Across
	if tall {
		align = g.Place.Along
	}
	if align != place.Even || f.StandsOn != g.StandsOn {
		return false
	}
	role := func(f *Fitting) boards.Role {
		if f.Panel == boards.MainPanel {
			return b.plan.shape.Main
		}
		return f.Panel
	}
	return role(f) == role(g) && f.Outside == g.Outside
}
