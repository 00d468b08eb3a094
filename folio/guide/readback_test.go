package guide_test

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/folio/view"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// within reports whether two lengths differ by at most 1 µm.
func within(a, b int64) bool { return a-b <= 1000 && b-a <= 1000 }

func nanos(l units.Length) int64 { return l.Nanometres() }

// boxOfRect is a rectangle of a plan, moved.
func boxOfRect(r units.Rect, dx, dy int64) box {
	return box{nanos(r.Min.X) + dx, nanos(r.Min.Y) + dy, nanos(r.Max.X) + dx, nanos(r.Max.Y) + dy}
}

func (b box) near(c box) bool {
	return within(b.x0, c.x0) && within(b.y0, c.y0) && within(b.x1, c.x1) && within(b.y1, c.y1)
}

func (b box) String() string {
	return fmt.Sprintf("[%.6f %.6f %.6f %.6f]", float64(b.x0)/1e6, float64(b.y0)/1e6, float64(b.x1)/1e6, float64(b.y1)/1e6)
}

// round returns the box round lines, and false without any.
func round(lines []readLine) (box, bool) {
	b := box{math.MaxInt64, math.MaxInt64, math.MinInt64, math.MinInt64}
	for _, l := range lines {
		for _, p := range l.pts {
			b = box{min(b.x0, p.x), min(b.y0, p.y), max(b.x1, p.x), max(b.y1, p.y)}
		}
	}
	return b, len(lines) > 0
}

// of returns the lines that belong to a piece, its copy and panel; "" for none.
func (r *reading) of(piece, copy, panel, fitting string) []readLine {
	var list []readLine
	for _, l := range r.lines {
		if !l.legend && l.of["piece"] == piece && l.of["copy"] == copy && l.of["panel"] == panel && l.of["fitting"] == fitting {
			list = append(list, l)
		}
	}
	return list
}

// kind returns the lines of kinds that are not in the legend.
func (r *reading) kind(kinds ...string) []readLine {
	var list []readLine
	for _, l := range r.lines {
		if !l.legend && slices.Contains(kinds, l.kind) {
			list = append(list, l)
		}
	}
	return list
}

// copyText is a number as data-copy says it: 0 is left out.
func copyText(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}

// readPicture draws and reads a picture.
func readPicture(pic guide.Picture, ok bool) (*reading, string) {
	if !ok {
		return nil, "no picture"
	}
	r, err := read(pic.AppendSVG(nil))
	if err != nil {
		return nil, err.Error()
	}
	return r, ""
}

// pieceReads compares the picture of a piece with the piece.
func pieceReads(i int, piece folio.Piece, look eye) string {
	r, bad := look(fmt.Sprintf("piece %d", i))
	if bad != "" {
		return bad
	}
	lines := r.of(strconv.Itoa(i), "", "", "")
	around, _ := round(lines)
	dx, dy := around.x0, around.y0
	var loops, folds []readLine
	for _, l := range lines {
		if l.kind == "outline" {
			loops = append(loops, l)
		} else {
			folds = append(folds, l)
		}
	}
	edge, openings := piece.Outline(), []units.Polygon(nil)
	var glue []score.Glue
	var want []score.Line
	if b, ok := piece.Blank(); ok {
		edge, openings = b.Outline()
		for _, g := range b.Glue() {
			glue = append(glue, g)
		}
		for _, l := range b.Lines() {
			want = append(want, l)
		}
	} else {
		for w := range piece.Openings() {
			openings = append(openings, w.Polygon())
		}
	}
	for k, poly := range append([]units.Polygon{edge}, openings...) {
		if k >= len(loops) || !sameLoop(loops[k], poly, dx, dy) {
			return fmt.Sprintf("outline %d of %s differs", k, piece.Name())
		}
	}
	if len(loops) != 1+len(openings) || len(folds) != len(want) {
		return fmt.Sprintf("%d loops, %d folds of %s; want %d, %d", len(loops), len(folds), piece.Name(), 1+len(openings), len(want))
	}
	for k, l := range want {
		if !sameFold(folds[k], l, piece.Size(), dx, dy) {
			return fmt.Sprintf("fold %d of %s differs", k, piece.Name())
		}
	}
	var fields []readField
	for _, f := range r.fields {
		if !f.legend {
			fields = append(fields, f)
		}
	}
	if len(fields) != len(glue) {
		return "other areas of glue"
	}
	for k, g := range glue {
		if !fields[k].box.near(boxOfRect(g.Area, dx, dy)) || fields[k].behind != (g.Side == score.Back) {
			return "an area of glue differs"
		}
	}
	return ""
}

func sameLoop(l readLine, p units.Polygon, dx, dy int64) bool {
	if len(l.pts) != p.Len()+1 {
		return false
	}
	for k, c := range p.Corners() {
		if !within(l.pts[k].x, nanos(c.X)+dx) || !within(l.pts[k].y, nanos(c.Y)+dy) {
			return false
		}
	}
	return l.pts[0] == l.pts[p.Len()]
}

func sameFold(l readLine, want score.Line, size units.Size, dx, dy int64) bool {
	kind := map[score.Fold]string{score.Valley: "valley", score.Mountain: "mountain"}[want.Fold]
	a, b := point{nanos(want.From) + dx, nanos(want.At) + dy}, point{nanos(want.To) + dx, nanos(want.At) + dy}
	if want.Axis == score.Upright {
		a, b = point{nanos(want.At) + dx, nanos(want.From) + dy}, point{nanos(want.At) + dx, nanos(want.To) + dy}
	}
	if want.From == 0 && want.To == 0 {
		b.x = dx + nanos(size.W)
		if want.Axis == score.Upright {
			b = point{a.x, dy + nanos(size.H)}
		}
	}
	return l.kind == kind && len(l.pts) == 2 && within(l.pts[0].x, a.x) && within(l.pts[0].y, a.y) && within(l.pts[1].x, b.x) && within(l.pts[1].y, b.y)
}

// wrapReads compares the picture of the wrap.
func wrapReads(p *folio.Plan, look eye) string {
	r, bad := look("wrap")
	if bad != "" {
		return bad
	}
	all, _ := round(r.kind("outline", "hidden"))
	for part := range p.Wrap().Pieces() {
		i, n := part.Index()
		got, _ := round(r.of(strconv.Itoa(i), copyText(n), "", ""))
		want := units.RectAt(units.Point{X: part.X()}, part.Piece().Size())
		if p.Wrap().Size().H != part.Piece().Size().H { // a side paper as high as the rest
			want.Min.Y, want.Max.Y = 0, p.Wrap().Size().H
		}
		if !got.near(boxOfRect(want, all.x0, all.y0)) {
			return fmt.Sprintf("%s lies at %v; want %v", part.Piece().Name(), got, boxOfRect(want, all.x0, all.y0))
		}
	}
	for b := range p.Boards() {
		i, n := b.Piece()
		at, _ := p.OnWrap(b.Role())
		if got, _ := round(r.of(strconv.Itoa(i), copyText(n), "", "")); !got.near(boxOfRect(at, all.x0, all.y0)) {
			return fmt.Sprintf("the %v lies at %v; want %v", b.Role(), got, boxOfRect(at, all.x0, all.y0))
		}
	}
	return ""
}

// openReads compares a picture of the open folio: the cover, the edges of the
// boards at the hinges, the liner, the parts of the fittings.
func openReads(p *folio.Plan, outside bool, look eye) string {
	name := "inside"
	if outside {
		name = "outside"
	}
	r, bad := look(name)
	if bad != "" {
		return bad
	}
	cover, ok := round(slices.DeleteFunc(r.kind("outline", "hidden"), func(l readLine) bool { return len(l.of) > 1 }))
	w, h := nanos(p.OpenWidth().Length()), nanos(p.OpenHeight().Length())
	if !ok || !within(cover.x1-cover.x0, w) || !within(cover.y1-cover.y0, h) {
		return fmt.Sprintf("the cover is %v", cover)
	}
	// The row's corner, from the inside: the cover's edge at the left and head.
	inverse := p.View(view.Cover)
	origin := inverse.Point(units.Point{})
	seen := func(q units.Rect) box {
		b := boxOfRect(q, nanos(origin.X), nanos(origin.Y))
		if outside {
			b.x0, b.x1 = w-b.x1, w-b.x0
		}
		return box{b.x0 + cover.x0, b.y0 + cover.y0, b.x1 + cover.x0, b.y1 + cover.y0}
	}
	for g := range p.Gaps() {
		want := seen(g.Rect())
		for _, x := range [...]int64{want.x0, want.x1} {
			found := slices.ContainsFunc(r.lines, func(l readLine) bool {
				return l.kind == "hidden" && l.of["piece"] != "" && within(l.pts[0].x, x) && within(l.pts[1].x, x)
			})
			if !found {
				return fmt.Sprintf("no board ends at %d, beside a hinge", x)
			}
		}
	}
	pieces := slices.Collect(p.Pieces())
	for q := range p.Placed() {
		i, n := q.Piece()
		fitting, fitted := q.Fitting()
		if q.Outside() != outside || !fitted {
			continue
		}
		panel := ""
		if k, ok := q.Panel(); ok {
			panel = strconv.Itoa(k)
		}
		got, ok := round(r.of(strconv.Itoa(i), copyText(n), panel, strconv.Itoa(fitting)))
		if !ok || !got.near(seen(q.Rect())) {
			return fmt.Sprintf("piece %d of fitting %d, panel %q, lies at %v; want %v", i, fitting, panel, got, seen(q.Rect()))
		}
		var edges []box
		for _, c := range q.Outline().Corners() { // of notches and slants too
			edges = append(edges, seen(units.Rect{Min: c, Max: c}))
		}
		for opening := range pieces[i].Openings() { // its face is seen, inside and outside
			for _, c := range opening.Polygon().Corners() {
				edges = append(edges, boxOfRect(units.Rect{Min: c, Max: c}, got.x0, got.y0))
			}
		}
		for _, at := range edges {
			if !slices.ContainsFunc(r.of(strconv.Itoa(i), copyText(n), panel, strconv.Itoa(fitting)), func(l readLine) bool {
				return slices.ContainsFunc(l.pts, func(p point) bool { return within(p.x, at.x0) && within(p.y, at.y0) })
			}) {
				return fmt.Sprintf("piece %d of fitting %d, panel %q, has no corner at %v", i, fitting, panel, at)
			}
		}
	}
	return ""
}

// closedReads compares the picture of the closed folio: boards in section, the
// box round the covering, and the enlarged stack.
func closedReads(p *folio.Plan, look eye) string {
	r, bad := look("closed")
	if p.Shuts() != nil {
		if r != nil {
			return "a folio that does not shut is drawn shut"
		}
		return ""
	}
	if bad != "" {
		return bad
	}
	if bad := sectionReads(p, r); bad != "" {
		return bad
	}
	tight, ok := p.Tightest(true)
	if !ok {
		return ""
	}
	// The detail: rectangles as high as the things, times the enlargement.
	var high []int64
	for t := range tight.Things() {
		high = append(high, nanos(t.Height()))
	}
	for _, times := range []int64{1, 2, 5, 10, 20, 50} {
		all := true
		for _, h := range high {
			all = all && slices.ContainsFunc(r.kind("outline"), func(l readLine) bool {
				b, _ := round([]readLine{l})
				return len(l.pts) == 5 && within(b.y1-b.y0, h*times)
			})
		}
		if all {
			return ""
		}
	}
	return "the detail does not show the heights"
}

// sectionReads compares the boards in section, and what lies on them.
func sectionReads(p *folio.Plan, r *reading) string {
	slabs, _ := p.Section()
	var boards []folio.Board
	for b := range p.Boards() {
		boards = append(boards, b)
	}
	var dx, dy int64
	var edges []box
	first := true
	for s := range slabs {
		i, n := boards[s.Board()].Piece()
		got, _ := round(r.of(strconv.Itoa(i), copyText(n), "", ""))
		want := s.Rect()
		want.Min.Y, want.Max.Y = -want.Max.Y, -want.Min.Y
		if first {
			dx, dy, first = got.x0-nanos(want.Min.X), got.y0-nanos(want.Min.Y), false
		}
		if !got.near(boxOfRect(want, dx, dy)) {
			return fmt.Sprintf("board %d lies at %v; want %v", s.Board(), got, boxOfRect(want, dx, dy))
		}
		edges = append(edges, got)
	}
	// The covering goes on round each hinge, from a corner of one board to one of the next.
	ends := 0
	for _, l := range r.kind("layer") {
		for _, p := range [...]point{l.pts[0], l.pts[len(l.pts)-1]} {
			if len(l.of) == 1 && l.pts[0] != l.pts[len(l.pts)-1] && slices.ContainsFunc(edges, func(b box) bool {
				return (within(p.x, b.x0) || within(p.x, b.x1)) && (within(p.y, b.y0) || within(p.y, b.y1))
			}) {
				ends++
			}
		}
	}
	if ends != 2*(len(edges)-1) {
		return fmt.Sprintf("the covering has %d ends at %d boards", ends, len(edges))
	}
	return layersRead(p, r, boards[0])
}

// layersRead compares what stands on the covers in section: of each fitting, how
// wide all its layers of a height are together.
func layersRead(p *folio.Plan, r *reading, first folio.Board) string {
	at := (first.Rect().Min.Y + first.Rect().Max.Y) / 2
	if tight, ok := p.Tightest(true); ok {
		if place, _ := tight.Place(); !place.Empty() {
			at = (place.Min.Y + place.Max.Y) / 2
		}
	}
	type key struct {
		fitting int
		high    int64
	}
	wide := map[key]int64{}
	for h := range p.Heights(true) {
		i, fitted := h.Fitting()
		if b, _ := p.Board(h.Panel()); !b.Role().Spine() && fitted && h.Rect().Min.Y <= at && at < h.Rect().Max.Y {
			wide[key{i, nanos(h.Height())}] += nanos(h.Rect().Size().W)
		}
	}
	for _, l := range r.kind("layer") {
		i, err := strconv.Atoi(l.of["fitting"])
		b, _ := round([]readLine{l})
		if k := (key{i, b.y1 - b.y0}); err == nil && wide[k] != 0 {
			wide[k] -= b.x1 - b.x0
		}
	}
	// The liner lies on each board as far as it reaches over it.
	lined := map[string]int64{}
	for q := range p.Placed() {
		if i, _ := q.Piece(); slices.Collect(p.Pieces())[i].Role() == stock.LinerPiece {
			for b := range p.Boards() {
				if over := q.Rect().Intersect(b.Rect()); !over.Empty() {
					lined[strconv.Itoa(i)] += nanos(over.Size().W)
				}
			}
		}
	}
	for i, want := range lined {
		got := int64(0)
		for _, l := range r.kind("layer") {
			if b, _ := round([]readLine{l}); l.of["piece"] == i && l.of["fitting"] == "" {
				got += max(b.x1-b.x0, b.y1-b.y0) // also where a spine stands upright
			}
		}
		if got-want > 10_000 || want-got > 10_000 {
			return fmt.Sprintf("%d of liner %s is drawn; want %d", got, i, want)
		}
	}
	for k, w := range wide {
		if !within(w, 0) {
			return fmt.Sprintf("of layers of fitting %d that are %d high %d is not drawn", k.fitting, k.high, w)
		}
	}
	return ""
}

// stripReads compares a folded strip in section: every panel as long as it
// lies.
func stripReads(p *folio.Plan, g folio.Fitted, look eye) string {
	r, _ := look(fmt.Sprintf("strip %d", g.Index()))
	if r == nil {
		return ""
	}
	d, _ := g.Design()
	switch d.Kind().(type) {
	case pocket.Pleat, pocket.Corners, pocket.Concertina:
		return foldsRead(p, g, r)
	}
	first := -1
	for i := range g.Pieces() {
		first = i
		break
	}
	var axis score.Axis
	for _, piece := range d.Pieces() {
		if a, ok := piece.Grain(); ok {
			axis = a
			break
		}
	}
	for i, panel := range d.Panels() {
		if panel.Closed().Empty() {
			continue
		}
		lines := r.of(strconv.Itoa(first+panel.Piece()), copyText(panel.Copy()), strconv.Itoa(i), strconv.Itoa(g.Index()))
		if len(lines) == 0 && i >= 60 {
			continue // said to be left out
		}
		want := panel.Closed().Size().W
		if axis == score.Level {
			want = panel.Closed().Size().H
		}
		if b, ok := round(lines); !ok || !within(b.x1-b.x0, nanos(want)) || b.y0 != b.y1 {
			return fmt.Sprintf("panel %d of %s is %v; want %v long", i, g.Label(), b, want)
		}
	}
	return joinsRead(g, d, axis, r, first)
}

// joinsRead looks for the paper round each fold of a strip in section: from the end of
// the one panel by way of a point halfway up to the end of the other, and nowhere else.
func joinsRead(g folio.Fitted, d pocket.Design, axis score.Axis, r *reading, first int) string {
	span := func(r units.Rect) (from, to units.Length) {
		if axis == score.Level {
			return r.Min.Y, r.Max.Y
		}
		return r.Min.X, r.Max.X
	}
	var arcs []readLine
	for _, l := range r.kind("outline") {
		if len(l.pts) == 7 && l.of["panel"] == "" {
			arcs = append(arcs, l)
		}
	}
	joins := 0
	panels := d.Panels()
	for i, a := range panels {
		for k, b := range panels {
			if k >= i || a.Piece() != b.Piece() || a.Copy() != b.Copy() || a.Closed().Empty() || b.Closed().Empty() {
				continue
			}
			lineOf := func(i int) (box, bool) {
				return round(r.of(strconv.Itoa(first+a.Piece()), copyText(a.Copy()), strconv.Itoa(i), strconv.Itoa(g.Index())))
			}
			one, drawn := lineOf(i)
			two, drawnToo := lineOf(k)
			from, to := span(a.Blank())
			otherFrom, otherTo := span(b.Blank())
			beside := a.Blank().Min.X < b.Blank().Max.X && b.Blank().Min.X < a.Blank().Max.X // along the folds
			if axis == score.Upright {
				beside = a.Blank().Min.Y < b.Blank().Max.Y && b.Blank().Min.Y < a.Blank().Max.Y
			}
			if from != otherTo && to != otherFrom || !beside || one.y0 == two.y0 || !drawn || !drawnToo {
				continue
			}
			// Its face up, its first edge lies at the left.
			x, out := one.x1, int64(1)
			if (to == otherFrom) != (a.Side() == score.Face) {
				x, out = one.x0, -1
			}
			half := (one.y0 + two.y0) / 2
			ends := func(y int64) bool {
				return slices.ContainsFunc(arcs, func(l readLine) bool {
					ends := []point{l.pts[0], l.pts[6]}
					return slices.ContainsFunc(ends, func(q point) bool { return within(q.x, x) && within(q.y, y) }) &&
						slices.ContainsFunc(ends, func(q point) bool { return (q.x-x)*out > 0 && within(q.y, half) })
				})
			}
			if joins++; !ends(one.y0) || !ends(two.y0) {
				return fmt.Sprintf("panels %d and %d of %s are not joined round their fold at %d", k, i, g.Label(), x)
			}
		}
	}
	if len(arcs) != 2*joins {
		return fmt.Sprintf("%d quarters of rounds for %d folds of %s", len(arcs), joins, g.Label())
	}
	return ""
}

// foldsRead compares the section of a fitting, across the axis that was folded last,
// with the strip that package score folds by the same turns.
func foldsRead(p *folio.Plan, g folio.Fitted, r *reading) string {
	t := &stepReader{p: p, r: r}
	for piece := range p.Pieces() {
		t.pieces = append(t.pieces, piece)
	}
	var folds []work.FoldAt
	for s := range p.Steps() {
		for _, a := range s.Do {
			if fold, ok := a.(work.FoldAt); ok && !fold.Open && s.For.Kind == work.PartFitting && s.For.Index == g.Index() {
				if len(folds) > 0 && folds[0].Axis != fold.Axis {
					folds = nil
				}
				folds = append(folds, fold)
			}
		}
	}
	if len(folds) == 0 {
		return "no folds"
	}
	last := folds[len(folds)-1]
	last.What.Copy = 0
	strip, ok := t.stripOf(last)
	if !ok {
		return "no strip"
	}
	var turns []score.Turn
	over := false
	for _, f := range folds {
		turn := strip.turn(f)
		over = over != (turn.Part == score.Before)
		turns = append(turns, turn)
	}
	folded, err := strip.FoldBy(context.Background(), turns...)
	if err != nil {
		return err.Error()
	}
	return t.section(last, folded, over)
}

// accordionReads compares an accordion opened: leaves, half panels and openings,
// or every panel of the strip along its slant.
func accordionReads(g folio.Fitted, look eye) string {
	r, _ := look(fmt.Sprintf("accordion %d", g.Index()))
	if r == nil {
		return ""
	}
	d, _ := g.Design()
	length := func(a, b point) int64 { return int64(math.Round(math.Hypot(float64(b.x-a.x), float64(b.y-a.y)))) }
	if d.Gusset() > 0 && d.Opening() > 0 {
		leaves, gussets := 0, 0
		for _, l := range r.of("", "", "", strconv.Itoa(g.Index())) {
			switch len(l.pts) {
			case 2:
				if leaves++; !within(length(l.pts[0], l.pts[1]), nanos(d.Closed().W)) {
					return "a leaf is not as wide as it is"
				}
			case 3:
				gussets++
				if !within(length(l.pts[0], l.pts[1]), nanos(d.Gusset())) || !within(l.pts[0].y-l.pts[2].y, nanos(d.Opening())) {
					return fmt.Sprintf("a half panel is %d; want %d", length(l.pts[0], l.pts[1]), nanos(d.Gusset()))
				}
			}
		}
		if leaves != d.Pockets()+1 || gussets != 2*d.Pockets() {
			return fmt.Sprintf("%d leaves and %d gussets of %d pockets", leaves, gussets, d.Pockets())
		}
		return ""
	}
	first := -1
	for i := range g.Pieces() {
		first = i
		break
	}
	drawn := 0
	for i, piece := range d.Pieces() {
		at := []units.Length{0, piece.Blank().Size().W}
		for _, l := range piece.Blank().Lines() {
			if l.Axis == score.Upright {
				at = append(at, l.At)
			}
		}
		slices.Sort(at)
		at = slices.Compact(at)
		for k := 1; k < len(at); k++ {
			lines := r.of(strconv.Itoa(first+i), "", strconv.Itoa(k-1), strconv.Itoa(g.Index()))
			if len(lines) == 0 && (k == 1 || k > 60) {
				break // it is not folded to and fro; it is said to be left out
			}
			if len(lines) == 0 {
				return fmt.Sprintf("panel %d is not drawn", k-1)
			}
			drawn++
			dx, dy := lines[0].pts[1].x-lines[0].pts[0].x, lines[0].pts[1].y-lines[0].pts[0].y
			if aslant := within(3*dx, 4*max(dy, -dy)); dx <= 0 || dy != 0 && !aslant {
				return fmt.Sprintf("panel %d runs %d along and %d down", k-1, dx, dy)
			}
			if got := length(lines[0].pts[0], lines[0].pts[1]); !within(got, nanos(at[k]-at[k-1])) {
				return fmt.Sprintf("panel %d is %d long; want %d", k-1, got, nanos(at[k]-at[k-1]))
			}
		}
	}
	if drawn == 0 {
		return "no panel is drawn"
	}
	return hungReads(d, r, first)
}

// hungReads counts the pockets that an accordion opened shows, and measures the
// leaves that are hung on it.
func hungReads(d pocket.Design, r *reading, first int) string {
	pockets := 0
	leaves := map[[2]string]bool{}
	for _, l := range r.kind("layer") {
		piece, _ := strconv.Atoi(l.of["piece"])
		switch long := math.Hypot(float64(l.pts[0].x-l.pts[1].x), float64(l.pts[0].y-l.pts[1].y)); {
		case len(l.pts) == 4:
			pockets++
		case piece-first > 0:
			for i, q := range d.Pieces() {
				if i == piece-first && math.Abs(long-float64(nanos(q.Blank().Size().W))) > 1000 {
					return fmt.Sprintf("a leaf is %.0f long; want %v", long, q.Blank().Size().W)
				}
			}
			leaves[[2]string{l.of["piece"], l.of["copy"]}] = true
		}
	}
	want := 0
	switch k := d.Kind().(type) {
	case pocket.FoldedAccordion:
		if want = d.Pockets(); pockets != want {
			return fmt.Sprintf("%d pockets; want %d", pockets, want)
		}
	case pocket.Concertina:
		if want = k.Leaves; want == 0 {
			want = 3 // as its documentation says
		}
		if len(leaves) != want {
			return fmt.Sprintf("%d leaves; want %d", len(leaves), want)
		}
	}
	return ""
}

// readPlans is how many plans are drawn and read back.
var readPlans = 10

func TestLengthsReadBack(t *testing.T) {
	reads := func(p *folio.Plan, look eye, step int) string { // one step of four, or all
		i := 0
		for piece := range p.Pieces() {
			if bad := pieceReads(i, piece, look); bad != "" {
				return bad
			}
			i++
		}
		for _, bad := range [...]string{wrapReads(p, look), openReads(p, false, look), openReads(p, true, look), closedReads(p, look)} {
			if bad != "" {
				return bad
			}
		}
		for g := range p.Fittings() {
			if bad := stripReads(p, g, look) + accordionReads(g, look); bad != "" {
				return bad
			}
		}
		var before []work.Action
		for s := range p.Steps() {
			if s.Number%4 == step || step < 0 {
				if bad := stepReads(p, s, before, look); bad != "" {
					return bad
				}
			}
			before = append(before, s.Do...)
		}
		return ""
	}
	for i, s := range slices.Concat(samples(), everyForm(), wide()) {
		if bad := reads(s.plan, s.look(0), -1); bad != "" {
			t.Errorf("%s: %s", s.name, bad)
		}
		k := 1 + i%3
		if bad := reads(s.plan, s.look(k), k); bad != "" {
			t.Errorf("%s, options %d: %s", s.name, k, bad)
		}
	}
	proptest.Run(t, readPlans, func(ps *gopter.Properties) {
		ps.Property("lengths read back from every kind of picture are those of the plan", prop.ForAll(func(s folio.Spec) string {
			p, err := folio.Build(s)
			if err != nil {
				return ""
			}
			turn := int(s.Cover.W.Nanometres() % 4)
			return reads(p, looking(p, options[turn]), int(s.Cover.H.Nanometres()%4))
		}, anyPlan()))
	})
}

func TestSheetsReadBack(t *testing.T) {
	for _, s := range samples() {
		for _, o := range options[:2] {
			l := s.laid(t)
			if l == nil {
				continue
			}
			for sheet := range l.Sheets() {
				sheetReads(t, l, sheet, o)
			}
		}
	}
	// A job of many small pieces, cut with a kerf.
	l, err := layout.Lay(context.Background(), layout.Job{
		Pieces:    []layout.LoosePiece{{Name: "card", Material: "card", Quantity: 37, Size: units.MustParseSize("55 x 85 mm")}, {Name: "tag", Material: "card", Quantity: 12, Size: units.MustParseSize("30 x 41 mm")}},
		Materials: []layout.Material{{Name: "card", Sheets: []layout.SheetKind{{Size: units.MustParseSize("450 x 640 mm"), Count: layout.Unlimited}}}},
		Cutter:    layout.Cutter{Kerf: mm / 2},
	}, layout.Budget{Steps: 100_000})
	if err != nil {
		t.Fatal(err)
	}
	for sheet := range l.Sheets() {
		sheetReads(t, l, sheet, guide.Options{})
	}
	if _, ok := guide.Sheet(l, 99, guide.Options{}); ok {
		t.Error("a sheet that is not there is drawn")
	}
	if _, ok := guide.Sheet(nil, 1, guide.Options{}); ok {
		t.Error("a sheet of no layout is drawn")
	}
}

// sheetReads compares the picture of a sheet: where pieces and offcuts lie, and
// that each cut has its line.
func sheetReads(t *testing.T, l *layout.Layout, s layout.LaidSheet, o guide.Options) {
	t.Helper()
	pic, ok := guide.Sheet(l, s.Number(), o)
	r, bad := readPicture(pic, ok)
	if bad != "" {
		t.Fatal(bad)
	}
	if bad := r.overlaps(); bad != "" {
		t.Error(bad)
	}
	all, _ := round(r.kind("outline"))
	has := func(kind string, want box) bool {
		return slices.ContainsFunc(r.kind(kind), func(l readLine) bool { b, _ := round([]readLine{l}); return b.near(want) })
	}
	for place := range s.Places() {
		if !has("outline", boxOfRect(place.Rect(), all.x0, all.y0)) {
			t.Errorf("no piece is drawn at %v", place.Rect())
		}
	}
	cuts := 0
	for _, part := range s.Parts() {
		switch part.Use() {
		case layout.Offcut:
			if !has("offcut", boxOfRect(part.Rect(), all.x0, all.y0)) {
				t.Errorf("no offcut is drawn at %v", part.Rect())
			}
		case layout.Cut:
			cuts++
			axis, at := part.CutAt()
			line := part.Rect()
			if axis == score.Upright {
				line.Min.X += max(at, 0)
				line.Max.X = line.Min.X
			} else {
				line.Min.Y += max(at, 0)
				line.Max.Y = line.Min.Y
			}
			if !has("knife", boxOfRect(line, all.x0, all.y0)) {
				t.Errorf("no cut is drawn at %v", line)
			}
		}
	}
	if n := len(r.kind("knife")); n != cuts {
		t.Errorf("%d cuts are drawn; want %d", n, cuts)
	}
	// Numbers rise with the steps that make the cuts.
	numbers := map[string]bool{}
	for step := range l.Steps() {
		for range step.CutsOn(s.Number()) {
			numbers[strconv.Itoa(step.Number())] = true
		}
	}
	for _, text := range r.texts {
		delete(numbers, text.s)
	}
	for n := range numbers {
		if !slices.ContainsFunc(r.texts, func(t readText) bool { return strings.HasSuffix(t.s, "cut "+n) }) {
			t.Errorf("no cut has the number %s", n)
		}
	}
}

// Corners keep what they hold under them, and what is slipped in lies under what
// holds it.
func TestWhatHoldsLiesOver(t *testing.T) {
	p := build(t, folio.Spec{Cover: units.Size{W: 150 * mm, H: 210 * mm}, Spine: rule.Spine{Width: 20 * mm}, Fittings: []folio.Fitting{
		{Name: "corners", Kind: folio.Folded{Kind: pocket.Corners{Content: pocket.IDCard()}}},
	}})
	pic, ok := guide.Inside(p, guide.Options{})
	r, bad := readPicture(pic, ok)
	if bad != "" {
		t.Fatal(bad)
	}
	card, _ := round(r.of("", "", "", "0"))
	if !within(card.x1-card.x0, 85_600_000) || !within(card.y1-card.y0, 53_980_000) {
		t.Errorf("the card is %v", card)
	}
	if !slices.ContainsFunc(r.of("", "", "", "0"), func(l readLine) bool { return l.kind == "hidden" }) {
		t.Error("no corner of the card is hidden")
	}
}
