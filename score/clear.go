package score

import (
	"cmp"

	"boardwrap.example/internal/inorder"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// leftOut says of a part that it has to go, since something else lies there.
func leftOut(why string) string { return "it left out; " + why }

// counted counts one more violation where no more are kept, and reports whether
// it did: what would do is worked out only for those that are.
func counted(list *check.List) bool {
	if list.Len() < check.MaxViolations {
		return false
	}
	list.Add(check.Violation{})
	return true
}

// An extent is a part of an edge or a line.
type extent struct{ from, to units.Length }

func span(from, to units.Length) string { return from.String() + " to " + to.String() }

func rectText(r units.Rect) string {
	return "x " + span(r.Min.X, r.Max.X) + ", y " + span(r.Min.Y, r.Max.Y)
}

// longestFree returns the longest part of an extent that is clear of all that
// is taken, the first of those that are equally long; an empty one where none is
// left.
func longestFree(s extent, taken []extent) extent {
	var free extent
	inorder.Sort(taken, func(a, b extent) int { return cmp.Compare(a.from, b.from) })
	at := s.from
	for _, t := range append(taken, extent{s.to, s.to}) {
		if to := min(t.from, s.to); to-at > free.to-free.from {
			free = extent{at, to}
		}
		at = max(at, t.to)
	}
	return free
}

// nearestFree returns where an extent of the given width may begin within all,
// clear of what is taken and as near to from as can be.
func nearestFree(all extent, width, from units.Length, taken []extent) (units.Length, bool) {
	inorder.Sort(taken, func(a, b extent) int { return cmp.Compare(a.from, b.from) })
	var best units.Length
	found := false
	at := all.from
	for _, t := range append(taken, extent{all.to, all.to}) {
		if last := min(t.from, all.to) - width; last >= at {
			if x := from.Clamp(at, last); !found || (x-from).Abs() < (best-from).Abs() {
				best, found = x, true
			}
		}
		at = max(at, t.to)
	}
	return best, found
}

// clearOf returns a part of an area that keeps clear of all that is taken: of
// what lies beside each of them, above or below, the largest. It is empty where
// nothing is left.
func clearOf(r units.Rect, taken []units.Rect) units.Rect {
	for _, t := range taken {
		if !r.Overlaps(t) {
			continue
		}
		left, right, above, below := r, r, r, r
		left.Max.X, right.Min.X, above.Max.Y, below.Min.Y = t.Min.X, t.Max.X, t.Min.Y, t.Max.Y
		r = units.Rect{}
		for _, part := range [...]units.Rect{left, right, above, below} {
			if !part.Empty() && part.Size().Area().Minus(r.Size().Area()).Sign() > 0 {
				r = part
			}
		}
	}
	return r
}

// along returns an area's extent along an edge.
func along(r units.Rect, e Edge) extent {
	if e == Head || e == Tail {
		return extent{r.Min.X, r.Max.X}
	}
	return extent{r.Min.Y, r.Max.Y}
}

// addOverlap reports a cut that shares an area with an earlier one, and where
// it would not.
func addOverlap(list *check.List, d *Draft, all []cut, late, early cut) {
	if counted(list) {
		return
	}
	path, want := late.whole(), leftOut(early.whole()+" lies there")
	switch late.by {
	case byCutOut:
		var taken []units.Rect
		for _, o := range all {
			if order(o, late) < 0 && share(d, o, late) {
				taken = append(taken, o.box)
			}
		}
		if part := clearOf(late.box, taken); !part.Empty() {
			path, want = late.path(), "an area clear of "+early.whole()+", such as "+rectText(part)
		}
	case byNotch:
		n := d.Notches[late.index]
		edge, _ := edgeLength(d.Size, n.Edge)
		band := edgeRect(d.Size, n.Edge, 0, edge, n.Depth)
		var taken []extent
		for _, o := range all {
			if (o.by != late.by || o.index != late.index) && o.box.Overlaps(band) {
				taken = append(taken, along(o.box, n.Edge))
			}
		}
		if from, ok := nearestFree(extent{0, edge}, n.Width, along(late.box, n.Edge).from, taken); ok {
			path, want = path+".middle", (from+n.Width.Half(units.Down)).String()+", clear of "+early.whole()
		}
	case byTaper, byTaperEnd:
		path, want = late.path(), "0, which cuts nothing off; "+early.whole()+" lies there"
	}
	list.Malformed(path, Overlap, rectText(late.box), want)
}

// addGlueOverlap reports glue on an earlier area of glue, and where it would not
// be.
func addGlueOverlap(list *check.List, d *Draft, i, on int) {
	if counted(list) {
		return
	}
	g, path, early := d.Glue[i], check.Index("glue", i), check.Index("glue", on)
	var taken []units.Rect
	for _, o := range d.Glue[:i] {
		if o.Side == g.Side {
			taken = append(taken, o.Area)
		}
	}
	want := leftOut(early + " lies there")
	if part := clearOf(g.Area, taken); !part.Empty() {
		path, want = path+".area", "an area clear of "+early+", such as "+rectText(part)
	}
	list.Malformed(path, Overlap, rectText(g.Area), want)
}

// addLineOverlap reports a line on an earlier one, and how much of it is not.
func addLineOverlap(list *check.List, d *Draft, i, on int) {
	if counted(list) {
		return
	}
	l := d.Lines[i]
	var taken []extent
	for _, m := range d.Lines[:i] {
		if m.Axis == l.Axis && m.At == l.At {
			taken = append(taken, extent{m.From, m.To})
		}
	}
	addExtentOverlap(list, check.Index("lines", i), check.Index("lines", on), extent{l.From, l.To}, taken)
}

// addTabOverlap reports a tab on an earlier one, and how much of it is not.
func addTabOverlap(list *check.List, d *Draft, i, on int) {
	if counted(list) {
		return
	}
	t := d.Tabs[i]
	var taken []extent
	for _, o := range d.Tabs[:i] {
		if o.Edge <= Right && o.Area(d.Size).Overlaps(t.Area(d.Size)) {
			taken = append(taken, along(o.Area(d.Size), t.Edge))
		}
	}
	addExtentOverlap(list, check.Index("tabs", i), check.Index("tabs", on), extent{t.From, t.To}, taken)
}

func addExtentOverlap(list *check.List, path, early string, s extent, taken []extent) {
	want := leftOut(early + " lies there")
	if free := longestFree(s, taken); free.to > free.from {
		want = "an extent from " + span(free.from, free.to) + ", clear of " + early
	}
	list.Malformed(path, Overlap, span(s.from, s.to), want)
}
