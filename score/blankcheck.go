package score

import (
	"slices"
	"strconv"

	"boardwrap.example/internal/inorder"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Codes of a draft's violations.
const (
	OffSheet check.Code = "off-sheet" // reaches beyond the edges of the blank
	Overlap  check.Code = "overlap"   // lies on another of its kind
	NoPaper  check.Code = "no-paper"  // lies in a cut-out or a notch, or nothing is left
	InPieces check.Code = "in-pieces" // cuts the blank apart
)

// checkDrawing checks d, fills in the ends of lines and tabs that run from
// edge to edge.
func checkDrawing(d *Draft) error {
	var list check.List
	if !list.Size("size", d.Size) {
		return list.Err()
	}
	for _, part := range []struct {
		name string
		n    int
	}{{"lines", len(d.Lines)}, {"cutouts", len(d.CutOuts)}, {"notches", len(d.Notches)}, {"slants", len(d.Slants)}, {"glue", len(d.Glue)}, {"tabs", len(d.Tabs)}} {
		if part.n > MaxParts {
			list.Malformed(part.name, check.TooMany, strconv.Itoa(part.n), "at most "+strconv.Itoa(MaxParts))
		}
	}
	if err := list.Err(); err != nil {
		return err
	}
	for i := range d.Lines {
		checkLine(&list, d, i)
	}
	before := list.Len()
	var unsound map[[2]int]bool // parts by list and index; only looked up
	note := func(by cutList, i int, sound bool) {
		if !sound {
			if unsound == nil {
				unsound = map[[2]int]bool{}
			}
			unsound[[2]int{int(by), i}] = true
		}
	}
	for i := range d.CutOuts {
		note(byCutOut, i, checkCutOut(&list, d, i))
	}
	for i := range d.Notches {
		note(byNotch, i, checkNotch(&list, d, i))
	}
	for i := range d.Slants {
		note(bySlant, i, checkSlant(&list, d, i))
	}
	for i := range d.Tabs {
		note(byTaper, i, checkTab(&list, d, i))
	}
	all := cuts(d, func(by cutList, i int) bool { return !unsound[[2]int{int(by), i}] })
	checkOverlaps(&list, d, all)
	if list.Len() == before { // otherwise it is not known what is left
		checkWhole(&list, d, all)
	}
	for i := range d.Glue {
		checkGlue(&list, d, i)
	}
	return list.Err()
}

// MaxParts is how many lines, cut-outs, notches, slants, glue areas or tabs a
// drawing may have of each. All that is cut may have as many corners as a
// polygon, units.MaxCorners: a round notch has 25, a rounded cut-out 52.
const MaxParts = 2000

func checkLine(list *check.List, d *Draft, i int) {
	l := &d.Lines[i]
	at := func(field string) string { return check.Index("lines", i) + field }
	if l.Axis > Level || l.Fold > Mountain {
		if l.Axis > Level {
			list.Malformed(at(".axis"), check.Unknown, strconv.Itoa(int(l.Axis)), "upright or level")
		}
		if l.Fold > Mountain {
			list.Malformed(at(".fold"), check.Unknown, strconv.Itoa(int(l.Fold)), "valley or mountain")
		}
		return
	}
	along := acrossOf(d.Size, l.Axis)
	over := d.Size.W
	if l.Axis == Level {
		over = d.Size.H
	}
	if l.From == 0 && l.To == 0 {
		l.To = along
	}
	if l.At <= 0 || l.At >= over {
		list.Malformed(at(".at"), OffSheet, l.At.String(), "a place above 0 and below "+over.String())
	}
	if l.From < 0 || l.To > along || l.From >= l.To {
		list.Malformed(at(""), OffSheet, span(l.From, l.To), "an extent between 0 and "+along.String())
	}
	for j, m := range d.Lines[:i] {
		if m.Axis == l.Axis && m.At == l.At && m.From < l.To && l.From < m.To {
			addLineOverlap(list, d, i, j)
			break // one is enough: a draft of equal parts stays readable
		}
	}
}

// checkArea checks that an area has one and lies on the sheet.
func checkArea(list *check.List, d *Draft, path string, r units.Rect) bool {
	if r.Empty() {
		list.Malformed(path, check.NotPositive, rectText(r), "an area")
		return false
	}
	if !r.In(units.RectAt(units.Point{}, d.Size)) {
		list.Malformed(path, OffSheet, rectText(r), "an area on the blank of "+d.Size.String())
		return false
	}
	return true
}

func checkCutOut(list *check.List, d *Draft, i int) bool {
	path, c := check.Index("cutouts", i), d.CutOuts[i]
	if !checkArea(list, d, path+".area", c.Area) {
		return false
	}
	size := c.Area.Size()
	if size == d.Size && c.Radius == 0 {
		list.Malformed(path, NoPaper, rectText(c.Area), leftOut("nothing is left of the blank"))
	}
	if most := min(size.W, size.H).Half(units.Down); c.Radius < 0 || c.Radius > most {
		v := check.Violation{Path: path + ".radius", Code: check.OutOfRange, Nature: check.Malformed, Got: c.Radius.String(),
			Want: "0 to half the shorter side, " + most.String(), Bound: check.AtMost, Limit: most, By: c.Radius - most}
		if c.Radius < 0 {
			v.Bound, v.Limit, v.By = check.AtLeast, 0, c.Radius.Abs()
		}
		list.Add(v)
		return false
	}
	return true
}

func checkNotch(list *check.List, d *Draft, i int) bool {
	path, n := check.Index("notches", i), d.Notches[i]
	if n.Edge > Right {
		list.Malformed(path+".edge", check.Unknown, strconv.Itoa(int(n.Edge)), "head, tail, left or right")
		return false
	}
	sound := list.Length(path+".width", n.Width)
	sound = list.Length(path+".depth", n.Depth) && sound
	sound = list.Allowance(path+".middle", n.Middle) && sound
	if !sound {
		return false
	}
	edge, into := edgeLength(d.Size, n.Edge)
	if n.Depth >= into {
		code := NoPaper
		if n.Depth > into {
			code = OffSheet
		}
		list.Long(path+".depth", code, units.MetricDecimal, n.Depth, into-units.Nanometre, "or no paper is left behind it")
		sound = false
	}
	half := n.Width.Half(units.Down)
	switch least, most := half, edge-n.Width+half; {
	case n.Width > edge:
		list.Long(path+".width", OffSheet, units.MetricDecimal, n.Width, edge, "")
	case n.Middle < least:
		list.Short(path+".middle", OffSheet, units.MetricDecimal, n.Middle, least, "")
	case n.Middle > most:
		list.Long(path+".middle", OffSheet, units.MetricDecimal, n.Middle, most, "")
	default:
		return sound
	}
	return false
}

func checkSlant(list *check.List, d *Draft, i int) bool {
	path, t, before := check.Index("slants", i), d.Slants[i], list.Len()
	if t.Corner > TailLeft {
		list.Malformed(path+".corner", check.Unknown, strconv.Itoa(int(t.Corner)), "head left, head right, tail left or tail right")
	}
	if list.Length(path+".along", t.Along) && t.Along > d.Size.W {
		list.Long(path+".along", OffSheet, units.MetricDecimal, t.Along, d.Size.W, "")
	}
	if list.Length(path+".down", t.Down) && t.Down > d.Size.H {
		list.Long(path+".down", OffSheet, units.MetricDecimal, t.Down, d.Size.H, "")
	}
	return list.Len() == before
}

func checkTab(list *check.List, d *Draft, i int) bool {
	path, t := check.Index("tabs", i), &d.Tabs[i]
	if t.Edge > Right || t.Side > Back {
		if t.Edge > Right {
			list.Malformed(path+".edge", check.Unknown, strconv.Itoa(int(t.Edge)), "head, tail, left or right")
		}
		if t.Side > Back {
			list.Malformed(path+".side", check.Unknown, strconv.Itoa(int(t.Side)), "face or back")
		}
		return false
	}
	edge, into := edgeLength(d.Size, t.Edge)
	if t.From == 0 && t.To == 0 {
		t.To = edge
	}
	sound := list.Length(path+".depth", t.Depth)
	sound = list.Allowance(path+".taper", t.Taper) && sound
	if t.From < 0 || t.To > edge || t.From >= t.To {
		list.Malformed(path, OffSheet, span(t.From, t.To), "an extent between 0 and "+edge.String())
		sound = false
	}
	if t.Depth > into {
		list.Long(path+".depth", OffSheet, units.MetricDecimal, t.Depth, into, "")
		sound = false
	}
	if !sound {
		return false
	}
	if 2*t.Taper >= t.To-t.From {
		most := (t.To - t.From - units.Nanometre).Half(units.Down)
		list.Long(path+".taper", check.TooLarge, units.MetricDecimal, t.Taper, most, "or nothing is left of the tab")
		sound = false
	}
	for j, o := range d.Tabs[:i] {
		if o.Area(d.Size).Overlaps(t.Area(d.Size)) {
			addTabOverlap(list, d, i, j)
			return false // one is enough: a draft of equal parts stays readable
		}
	}
	return sound
}

func checkGlue(list *check.List, d *Draft, i int) {
	g := &d.Glue[i]
	// A path is put together only where something is wrong.
	at := func(field string) string { return check.Index("glue", i) + field }
	if g.Side > Back {
		list.Malformed(at(".side"), check.Unknown, strconv.Itoa(int(g.Side)), "face or back")
	}
	if !g.Area.In(units.RectAt(units.Point{}, d.Size)) || g.Area.Empty() {
		checkArea(list, d, at(".area"), g.Area)
		return
	}
	for j := range d.Glue[:i] {
		if o := &d.Glue[j]; o.Side == g.Side && o.Area.Overlaps(g.Area) {
			addGlueOverlap(list, d, i, j)
			break
		}
	}
	for j, n := range d.Notches {
		if n.Edge <= Right && g.Area.In(n.Area(d.Size)) {
			list.Malformed(at(""), NoPaper, rectText(g.Area), leftOut(check.Index("notches", j)+" takes the paper away"))
			break
		}
	}
	for j, c := range d.CutOuts {
		if g.Area.In(c.Area) {
			list.Malformed(at(""), NoPaper, rectText(g.Area), leftOut(check.Index("cutouts", j)+" takes the paper away"))
			break
		}
	}
}

// checkWhole checks that cuts that share no area leave one piece of paper.
func checkWhole(list *check.List, d *Draft, all []cut) {
	corners := 0
	for _, c := range all {
		corners += c.corners()
	}
	if most := units.MaxCorners - 4; corners > most {
		list.Malformed("", check.TooMany, strconv.Itoa(corners)+" corners of all that is cut", "at most "+strconv.Itoa(most))
		return
	}
	if clearlyWhole(d.Size, all) {
		return
	}
	shapes := shapes(d, all)
	left := func(n int) int {
		pieces, _ := outline(d.Size, shapes[:n])
		return len(pieces)
	}
	if left(len(shapes)) == 1 {
		return
	}
	// A cut that leaves more or less than one piece where there was one.
	one, not := 0, len(shapes)
	for not-one > 1 {
		if m := (one + not) / 2; left(m) == 1 {
			one = m
		} else {
			not = m
		}
	}
	path, want := all[one].whole(), "it left out, or made smaller, so that one piece is left"
	if all[one].by >= byTaper {
		path, want = all[one].path(), "0, which cuts nothing off, or so little that one piece is left"
	}
	if n := left(not); n == 0 {
		list.Malformed(path, NoPaper, "a cut that leaves nothing", want)
	} else {
		list.Malformed(path, InPieces, "a cut that leaves "+count(n, "piece"), want)
	}
}

// checkOverlaps reports the cuts that share an area with an earlier one, in the
// order of the draft's lists, each once.
func checkOverlaps(list *check.List, d *Draft, all []cut) {
	type hit struct{ late, early cut }
	var hits []hit
	for i, c := range all {
		for _, o := range all[i+1:] {
			if o.box.Min.X >= c.box.Max.X {
				break
			}
			if !share(d, c, o) {
				continue
			}
			if order(c, o) > 0 {
				hits = append(hits, hit{c, o})
			} else {
				hits = append(hits, hit{o, c})
			}
		}
		if len(hits) > 4*MaxParts { // everything lies on everything
			break
		}
	}
	inorder.Sort(hits, func(a, b hit) int {
		if n := order(a.late, b.late); n != 0 {
			return n
		}
		return order(a.early, b.early)
	})
	hits = slices.CompactFunc(hits, func(a, b hit) bool { return a.late == b.late })
	for _, h := range hits {
		addOverlap(list, d, all, h.late, h.early)
	}
}
