package guide_test

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/guide"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/folio/view"
	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// A stepReader compares what the picture of a step shows with what the step says,
// the places of the plan and, for what is folded, the layers of package score.
type stepReader struct {
	p      *folio.Plan
	r      *reading
	s      work.Step
	before []work.Action
	pieces []folio.Piece
}

// stepReads names what is wrong with the picture of a step; empty if nothing is.
func stepReads(p *folio.Plan, s work.Step, before []work.Action, look eye) string {
	r, bad := look(fmt.Sprintf("step %d", s.Number))
	if bad != "" {
		return fmt.Sprintf("step %d: %s", s.Number, bad)
	}
	t := &stepReader{p: p, r: r, s: s, before: before}
	for piece := range p.Pieces() {
		t.pieces = append(t.pieces, piece)
	}
	for i, a := range s.Do {
		if bad := t.action(a, i); bad != "" {
			return fmt.Sprintf("step %d, %s: %s", s.Number, s.Text(units.Format{}), bad)
		}
	}
	return ""
}

// all returns the lines of a copy of a piece, of all its panels.
func (t *stepReader) all(piece, copy int) []readLine {
	return slices.DeleteFunc(slices.Clone(t.r.lines), func(l readLine) bool {
		return l.legend || l.of["piece"] != strconv.Itoa(piece) || l.of["copy"] != copyText(max(copy, 0))
	})
}

// hasLine reports whether there is a straight line from a to b, either way round.
func hasLine(lines []readLine, kind string, a, b point) bool {
	near := func(p, q point) bool { return within(p.x, q.x) && within(p.y, q.y) }
	return slices.ContainsFunc(lines, func(l readLine) bool {
		n := len(l.pts) - 1
		return l.kind == kind && (near(l.pts[0], a) && near(l.pts[n], b) || near(l.pts[0], b) && near(l.pts[n], a))
	})
}

func hasBox(lines []readLine, want box, kinds ...string) bool {
	return slices.ContainsFunc(lines, func(l readLine) bool {
		b, _ := round([]readLine{l})
		return slices.Contains(kinds, l.kind) && b.near(want)
	})
}

// moved returns a box moved.
func (b box) moved(dx, dy int64) box { return box{b.x0 + dx, b.y0 + dy, b.x1 + dx, b.y1 + dy} }

func (t *stepReader) covering(piece int) bool {
	r := t.pieces[piece].Role()
	return r == stock.CoveringPiece || r == stock.StripPiece
}

// action reads what one action shows.
func (t *stepReader) action(a work.Action, i int) string {
	switch a := a.(type) {
	case work.Cut:
		got, ok := round(t.r.of(strconv.Itoa(a.What.Index), "", "", ""))
		if !ok || !within(got.x1-got.x0, nanos(a.Size.W)) || !within(got.y1-got.y0, nanos(a.Size.H)) {
			return fmt.Sprintf("the %s is cut %v; want %v", a.What.Name, got, a.Size)
		}
	case work.Open:
		return t.onFlat(a.What.Index, a.Area)
	case work.NotchOut:
		return t.onFlat(a.What.Index, a.Notch.Area(t.pieces[a.What.Index].Size()))
	case work.Trim:
		return t.trim(a)
	case work.Draw:
		return t.drawn(a)
	case work.ScoreAt:
		return t.scored(a)
	case work.FoldAt:
		return t.folded(a, i)
	case work.Stick:
		return t.field(a.What.Index, a.Area, a.Side == score.Back) + t.stands(a)
	case work.Fix:
		return t.put(a.What, a.On, a.At, a.Size) + t.coated(a)
	case work.Lay:
		return t.put(a.What, a.On, a.At, a.Size)
	case work.MarkPlace:
		return t.put(a.What, a.On, a.At, a.Size)
	case work.TurnIn:
		return t.turnedIn(a)
	case work.Insert:
		if a.Into.Kind == work.PartFitting {
			return t.content(a)
		}
	case work.Measure, work.Refit:
		if cover, ok := t.coverBox(); !ok || !within(cover.x1-cover.x0, nanos(t.p.OpenWidth().Length())) || !within(cover.y1-cover.y0, nanos(t.p.OpenHeight().Length())) {
			return fmt.Sprintf("the cover that is measured is %v", cover)
		}
	case work.Dry:
		return t.dries(a)
	case work.Close:
		return t.closes()
	}
	return ""
}

// closes looks at the folio that is closed, in section; one that does not shut lies open,
// with all that is on its inside.
func (t *stepReader) closes() string {
	if t.p.Shuts() == nil {
		return sectionReads(t.p, t.r)
	}
	for q := range t.p.Placed() {
		i, n := q.Piece()
		want, open := t.seen(q.Rect(), false)
		if !open {
			return "what does not shut is not drawn open"
		}
		got, _ := round(t.all(i, n))
		if _, fitted := q.Fitting(); fitted && !q.Outside() && !got.near(want) {
			if _, folded := q.Panel(); !folded {
				return fmt.Sprintf("piece %d lies at %v; want %v", i, got, want)
			}
		}
	}
	return ""
}

// flatAt returns where a flat piece lies in the picture.
func (t *stepReader) flatAt(piece int) (box, bool) {
	size := t.pieces[piece].Size()
	for _, l := range t.r.of(strconv.Itoa(piece), "", "", "") {
		if b, _ := round([]readLine{l}); within(b.x1-b.x0, nanos(size.W)) && within(b.y1-b.y0, nanos(size.H)) {
			return b, true
		}
	}
	return box{}, false
}

// onFlat looks for an area that is cut out of a flat piece.
func (t *stepReader) onFlat(piece int, area units.Rect) string {
	at, ok := t.flatAt(piece)
	want := boxOfRect(area, at.x0, at.y0)
	if !ok || !hasBox(t.r.lines, want, "knife") {
		return fmt.Sprintf("nothing is cut out at %v", want)
	}
	return ""
}

func (t *stepReader) trim(a work.Trim) string {
	at, ok := t.flatAt(a.What.Index)
	if t.covering(a.What.Index) {
		at, ok = round(t.r.of(strconv.Itoa(a.What.Index), copyText(max(a.What.Copy, 0)), "", ""))
	}
	from, to := point{at.x0 + nanos(a.From.X), at.y0 + nanos(a.From.Y)}, point{at.x0 + nanos(a.To.X), at.y0 + nanos(a.To.Y)}
	if !ok || !hasLine(t.r.lines, "knife", from, to) {
		return fmt.Sprintf("no corner is cut off from %v to %v", from, to)
	}
	return ""
}

func (t *stepReader) drawn(a work.Draw) string {
	at, ok := round(t.all(a.On.Index, a.On.Copy))
	from, to := point{at.x0, at.y0 + nanos(a.At)}, point{at.x1, at.y0 + nanos(a.At)}
	if a.Axis == score.Upright {
		from, to = point{at.x0 + nanos(a.At), at.y0}, point{at.x0 + nanos(a.At), at.y1}
	}
	if !ok || !hasLine(t.r.lines, "drawn", from, to) {
		return fmt.Sprintf("no line is drawn at %v of %v", a.At, at)
	}
	return ""
}

// scored looks for a line on the side that is scored, as one looks at it.
func (t *stepReader) scored(a work.ScoreAt) string {
	size := t.pieces[a.What.Index].Size()
	from, to := nanos(a.Line.From), nanos(a.Line.To)
	if to == 0 {
		if to = nanos(size.H); a.Line.Axis == score.Level {
			to = nanos(size.W)
		}
	}
	p, q := point{from, nanos(a.Line.At)}, point{to, nanos(a.Line.At)}
	if a.Line.Axis == score.Upright {
		p, q = point{p.y, from}, point{p.y, to}
	}
	kind := map[score.Fold]string{score.Valley: "valley", score.Mountain: "mountain"}[a.Line.Fold]
	if a.On == score.Back {
		kind = "score"
		p.x, q.x = nanos(size.W)-p.x, nanos(size.W)-q.x
	}
	for _, l := range t.r.of(strconv.Itoa(a.What.Index), "", "", "") {
		at, _ := round([]readLine{l})
		if within(at.x1-at.x0, nanos(size.W)) && within(at.y1-at.y0, nanos(size.H)) &&
			hasLine(t.r.lines, kind, point{at.x0 + p.x, at.y0 + p.y}, point{at.x0 + q.x, at.y0 + q.y}) {
			return ""
		}
	}
	return fmt.Sprintf("no line is scored from %v to %v", p, q)
}

// field looks for what takes adhesive on a flat piece, its face up.
func (t *stepReader) field(piece int, area units.Rect, behind bool) string {
	at, ok := t.flatAt(piece)
	want := boxOfRect(area, at.x0, at.y0)
	if !ok || !slices.ContainsFunc(t.r.fields, func(f readField) bool { return f.box.near(want) && f.behind == behind }) {
		return fmt.Sprintf("no adhesive is drawn at %v", want)
	}
	return ""
}

// stands looks for the last tab of a guard beyond the first one and what its folds take
// between them, which stand up: two layers a fold, and the paper between folds.
func (t *stepReader) stands(a work.Stick) string {
	if !a.Standing {
		return ""
	}
	blank, _ := t.pieces[a.What.Index].Blank()
	folds, from := units.Length(0), units.Length(0)
	was := score.Mountain
	for _, l := range blank.Lines() {
		switch {
		case l.Fold == score.Mountain:
			folds += 2 * t.pieces[a.What.Index].Caliper()
		case was == score.Valley && from > 0:
			folds += l.At - from
		}
		was, from = l.Fold, l.At
	}
	for _, b := range t.before {
		first, ok := b.(work.Fix)
		if !ok || first.What.Kind != work.Piece || first.What.Index != a.What.Index || first.On.Kind != work.OnBoard {
			continue
		}
		board := slices.Collect(t.p.Boards())[first.On.Index].Rect()
		r := first.At.Rect(first.Size, board.Size()).Moved(board.Min)
		r = units.RectAt(units.Point{X: r.Max.X + folds, Y: r.Min.Y}, units.Size{W: a.Area.Size().W, H: r.Size().H})
		if want, ok := t.seen(r, false); !ok || !hasBox(t.r.lines, want, "new") {
			return fmt.Sprintf("the last tab of the %s is not at %v", a.What.Name, want)
		}
	}
	return ""
}

// coated looks for what takes adhesive of a folded piece, on the side that comes to lie
// down: each fold turns what lies beyond it, and whoever turns the piece over all of it.
func (t *stepReader) coated(a work.Fix) string {
	if a.What.Kind != work.Piece || a.By == work.SelfSticky {
		return ""
	}
	if !t.foldedBefore(a.What.Index) {
		over, ok := round(slices.DeleteFunc(t.all(a.What.Index, a.What.Copy), func(l readLine) bool { return l.kind != "new" }))
		if _, open := t.coverBox(); open || !ok || a.On.Kind != work.OnPiece || a.Quarters != 0 || t.covering(a.On.Index) || over.x1-over.x0 != nanos(a.Size.W) {
			return ""
		}
		for _, area := range a.Areas {
			if a.Up == score.Back {
				area.Min.X, area.Max.X = a.Size.W-area.Max.X, a.Size.W-area.Min.X
			}
			if want := boxOfRect(area, over.x0, over.y0); !slices.ContainsFunc(t.r.fields, func(f readField) bool { return f.behind && f.box.near(want) }) {
				return fmt.Sprintf("no adhesive is drawn at %v", want)
			}
		}
		return ""
	}
	if a.Panel != work.All && a.On.Kind == work.OnBoard && !slices.ContainsFunc(t.r.texts, func(x readText) bool { return x.s == "what opens is drawn closed" }) {
		return "it still lies open, and the picture does not say that it shows it closed"
	}
	for _, area := range a.Areas {
		face := true // lies up
		for _, b := range t.before {
			switch b := b.(type) {
			case work.TurnOver:
				if b.What.Index == a.What.Index && (b.What.Copy == work.All || b.What.Copy == a.What.Copy) {
					face = !face
				}
			case work.FoldAt:
				turns := b.Moves == score.Left && area.Max.X <= b.At || b.Moves == score.Right && area.Min.X >= b.At ||
					b.Moves == score.Head && area.Max.Y <= b.At || b.Moves == score.Tail && area.Min.Y >= b.At
				if !b.Open && b.What.Index == a.What.Index && (b.What.Copy == work.All || b.What.Copy == a.What.Copy) && turns {
					face = !face
				}
			}
		}
		if bad := t.field(a.What.Index, area, face); bad != "" {
			return bad
		}
	}
	return ""
}

// taped looks for a content that is stuck on a piece, as the piece lies.
func (t *stepReader) taped(what work.Object, on work.Base, at work.At, size units.Size) string {
	is := func(l readLine) bool { return l.kind != "there" }
	under, ok := round(slices.DeleteFunc(t.all(on.Index, on.Copy), is))
	if last := t.s.Do[len(t.s.Do)-1]; !ok && slices.ContainsFunc(t.r.texts, func(x readText) bool { return x.s == "alike up to "+last.(work.Fix).On.Name }) {
		under, ok = round(slices.DeleteFunc(t.all(on.Index, 0), is)) // one is drawn for all
	}
	if !ok || on.Kind != work.OnPiece {
		return fmt.Sprintf("what the %s is stuck on is not drawn", what.Name)
	}
	base := units.Size{W: units.Length(under.x1 - under.x0), H: units.Length(under.y1 - under.y0)}
	if want := boxOfRect(at.Rect(size, base), under.x0, under.y0); !hasBox(t.r.lines, want, "new") {
		return fmt.Sprintf("the %s is not drawn at %v", what.Name, want)
	}
	return ""
}

// coverBox returns the cover in a picture of the open folio.
func (t *stepReader) coverBox() (box, bool) {
	w, h := nanos(t.p.OpenWidth().Length()), nanos(t.p.OpenHeight().Length())
	b, ok := round(slices.DeleteFunc(t.r.kind("outline", "there", "hidden", "new"), func(l readLine) bool { return len(l.of) > 1 }))
	return b, ok && within(b.x1-b.x0, w) && within(b.y1-b.y0, h)
}

// seen returns where a rectangle of the row is seen in a picture of the open folio.
func (t *stepReader) seen(r units.Rect, outside bool) (box, bool) {
	cover, ok := t.coverBox()
	origin := t.p.View(view.Cover).Point(units.Point{})
	b := boxOfRect(r, nanos(origin.X), nanos(origin.Y))
	if outside {
		w := nanos(t.p.OpenWidth().Length())
		b.x0, b.x1 = w-b.x1, w-b.x0
	}
	return b.moved(cover.x0, cover.y0), ok
}

// put looks for a thing where the plan has it.
func (t *stepReader) put(what work.Object, on work.Base, at work.At, size units.Size) string {
	switch {
	case what.Kind == work.Bought:
		for g := range t.p.Fittings() {
			if want, ok := t.seen(g.Rect(), g.Outside()); g.Index() == what.Index {
				if got, _ := round(t.r.of("", "", "", strconv.Itoa(what.Index))); !ok || !got.near(want) {
					return fmt.Sprintf("the %s lies at %v; want %v", what.Name, got, want)
				}
			}
		}
		return ""
	case what.Kind == work.Content:
		return t.taped(what, on, at, size)
	case what.Kind != work.Piece:
		return ""
	case t.pieces[what.Index].Role() == stock.BoardPiece:
		return t.board(what)
	case t.pieces[what.Index].Role() == stock.StiffenerPiece:
		got, ok := round(t.r.of(strconv.Itoa(what.Index), "", "", ""))
		paper, _ := round(t.r.of(strconv.Itoa(on.Index), copyText(max(on.Copy, 0)), "", ""))
		if want := boxOfRect(at.Rect(size, t.pieces[on.Index].Size()), paper.x0, paper.y0); !ok || !got.near(want) {
			return fmt.Sprintf("the %s lies at %v; want %v", what.Name, got, want)
		}
		return ""
	case on.Kind == work.OnPiece && !t.covering(on.Index) && len(t.r.of("", "", "", "")) > 0:
		if _, open := t.coverBox(); !open {
			return t.onPiece(what, on, at, size)
		}
	}
	for q := range t.p.Placed() {
		i, n := q.Piece()
		fitting, fitted := q.Fitting()
		if i != what.Index || n != max(what.Copy, 0) && what.Copy != work.All || t.covering(i) {
			continue
		}
		panel, of := "", ""
		if k, ok := q.Panel(); ok {
			panel = strconv.Itoa(k)
		}
		if fitted {
			of = strconv.Itoa(fitting)
		}
		want, open := t.seen(q.Rect(), q.Outside())
		if got, ok := round(t.r.of(strconv.Itoa(i), copyText(n), panel, of)); open && (!ok || !got.near(want)) {
			return fmt.Sprintf("the %s, panel %q, lies at %v; want %v", what.Name, panel, got, want)
		}
	}
	return ""
}

// board looks for a board on the covering that is laid flat.
func (t *stepReader) board(what work.Object) string {
	for b := range t.p.Boards() {
		if i, n := b.Piece(); i != what.Index || n != max(what.Copy, 0) {
			continue
		}
		want, _ := t.p.OnWrap(b.Role())
		for part := range t.p.Wrap().Pieces() {
			i, n := part.Index()
			paper, ok := round(t.r.of(strconv.Itoa(i), copyText(n), "", ""))
			if !ok {
				continue
			}
			got, _ := round(t.r.of(strconv.Itoa(what.Index), copyText(max(what.Copy, 0)), "", ""))
			if at := boxOfRect(want, paper.x0-nanos(part.X()), paper.y0); !got.near(at) {
				return fmt.Sprintf("the %s lies at %v; want %v", what.Name, got, at)
			}
			return ""
		}
	}
	return "no covering is drawn"
}

// onPiece looks for a piece on another one that lies flat as it was cut.
func (t *stepReader) onPiece(what work.Object, on work.Base, at work.At, size units.Size) string {
	base := units.RectAt(units.Point{}, t.pieces[on.Index].Size())
	if on.Panel != work.All || t.foldedBefore(on.Index) || t.foldedBefore(what.Index) {
		return "" // that is read from the finished fitting
	}
	under, ok := round(t.all(on.Index, on.Copy))
	over, okToo := round(t.all(what.Index, what.Copy))
	if !ok || !okToo {
		return fmt.Sprintf("the %s is not drawn on the %s", what.Name, on.Name)
	}
	piece := t.pieces[what.Index].Size()
	if piece != size && piece.Turned() != size { // a panel is measured
		return ""
	}
	if want := boxOfRect(at.Rect(size, base.Size()), under.x0, under.y0); !over.near(want) {
		return fmt.Sprintf("the %s lies at %v; want %v", what.Name, over, want)
	}
	return ""
}

func (t *stepReader) foldedBefore(piece int) bool {
	return slices.ContainsFunc(t.before, func(a work.Action) bool {
		fold, ok := a.(work.FoldAt)
		return ok && fold.What.Index == piece && !fold.Open
	})
}

func (t *stepReader) turnedIn(a work.TurnIn) string {
	cover, ok := t.coverBox()
	origin := t.p.View(view.Cover).Point(units.Point{})
	for in := range t.p.TurnIns() {
		i, n := in.Piece()
		if i != a.What.Index || n != max(a.What.Copy, 0) {
			continue
		}
		var want box
		for k, c := range in.Outline().Corners() {
			x, y := nanos(c.X+origin.X)+cover.x0, nanos(c.Y+origin.Y)+cover.y0
			if k == 0 {
				want = box{x, y, x, y}
			}
			want = box{min(want.x0, x), min(want.y0, y), max(want.x1, x), max(want.y1, y)}
		}
		got, _ := round(slices.DeleteFunc(t.r.kind("new"), func(l readLine) bool {
			b, _ := round([]readLine{l})
			return b.x0 < want.x0-1000 || b.x1 > want.x1+1000 || b.y0 < want.y0-1000 || b.y1 > want.y1+1000
		}))
		if !ok || !got.near(want) {
			return fmt.Sprintf("nothing is turned in at %v: %v", want, got)
		}
	}
	return ""
}

// content looks for what is put into a fitting, where it is seen.
func (t *stepReader) content(a work.Insert) string {
	for g := range t.p.Fittings() {
		if g.Index() != a.Into.Index {
			continue
		}
		for _, s := range g.Spots() {
			if _, ok := s.Content(); !ok || s.Hidden() {
				continue
			}
			want, open := t.seen(s.Lies(), g.Outside())
			got, ok := round(t.r.of("", "", "", strconv.Itoa(g.Index())))
			if open && (!ok || got.x0 > want.x0+1000 || got.y0 > want.y0+1000 || got.x1 < want.x1-1000 || got.y1 < want.y1-1000) {
				return fmt.Sprintf("what is put in lies at %v; want %v", got, want)
			}
		}
	}
	return ""
}

// dries looks at what lies pressed: each board that was laid by then as wide as it is
// and no other, over the sheets that hold them.
func (t *stepReader) dries(a work.Dry) string {
	there := t.r.kind("there")
	switch t.s.For.Kind {
	case work.PartFitting:
		if bad := t.fittingDries(); bad != "" {
			return bad
		}
	case work.PartMagnets:
		return t.magnetsDry(there)
	default:
		if bad := t.caseDries(there) + t.weighed(a, there); bad != "" {
			return bad
		}
	}
	for _, want := range [...]struct {
		s     string
		there bool
	}{{"weight", a.Weight}, {"waste sheet", a.Apart}} {
		if got := slices.ContainsFunc(t.r.texts, func(r readText) bool { return r.s == want.s }); got != want.there {
			return fmt.Sprintf("%s: %t; want %t", want.s, got, want.there)
		}
	}
	return ""
}

// weighed looks at the weight on what dries, which is as wide as all of that, or as the
// waste sheet under it.
func (t *stepReader) weighed(a work.Dry, there []readLine) string {
	top := slices.MinFunc(there, func(l, m readLine) int {
		b, _ := round([]readLine{l})
		c, _ := round([]readLine{m})
		return cmp.Compare(b.y0, c.y0)
	})
	weight, _ := round([]readLine{top})
	under, _ := round(slices.DeleteFunc(t.r.kind("there", "outline"), func(l readLine) bool { return slices.Equal(l.pts, top.pts) }))
	if waste, ok := round(t.r.kind("hidden")); ok && a.Apart {
		if waste.x0 >= under.x0 || waste.x1 <= under.x1 || waste.x0-under.x0 != under.x1-waste.x1 {
			return fmt.Sprintf("the waste sheet lies at %v over %v", waste, under)
		}
		under.x0, under.x1 = waste.x0, waste.x1
	}
	if a.Weight && (len(top.pts) != 5 || !within(weight.x0, under.x0) || !within(weight.x1, under.x1)) {
		return fmt.Sprintf("the weight lies at %v over %v", weight, under)
	}
	return ""
}

// fittingDries looks for what was stuck last, or what it was stuck on if it is held; or for
// the whole fitting, as wide as it is, over its board.
func (t *stepReader) fittingDries() string {
	var what work.Object
	switch a := t.before[len(t.before)-1].(type) {
	case work.Fix:
		if what = a.What; what.Kind == work.Content {
			what = work.Object{Index: a.On.Index, Copy: a.On.Copy, Name: a.On.Name}
		}
	case work.Stick:
		what = a.What
	}
	laid := slices.ContainsFunc(t.before, func(a work.Action) bool {
		fix, ok := a.(work.Fix)
		return ok && t.inFitting(fix.What) && fix.On.Kind != work.OnPiece
	})
	if !laid {
		if len(t.all(what.Index, what.Copy)) == 0 {
			return fmt.Sprintf("the %s that dries is not drawn", what.Name)
		}
		return ""
	}
	for g := range t.p.Fittings() {
		if g.Index() != t.s.For.Index {
			continue
		}
		board, _ := t.p.Board(g.Panel())
		under, _ := round(t.r.of("", "", "", ""))
		over, ok := round(t.r.of("", "", "", strconv.Itoa(g.Index())))
		for _, l := range t.r.of("", "", "", "") {
			if b, _ := round([]readLine{l}); l.kind == "there" && within(b.x1-b.x0, nanos(board.Rect().Size().W)) && within(b.y1-b.y0, nanos(t.p.Spec().Board.Caliper)) {
				under = b
			}
		}
		if from := nanos(g.Rect().Min.X - board.Rect().Min.X); ok && (!within(over.x0-under.x0, from) || !within(over.x1-over.x0, nanos(g.Rect().Size().W))) {
			return fmt.Sprintf("%s lies at %v over its board at %v", g.Label(), over, under)
		} else if !ok && len(t.r.kind("outline", "there")) == 0 {
			return "nothing dries"
		}
	}
	return ""
}

// inFitting reports whether a thing is a piece of the fitting that the step is for.
func (t *stepReader) inFitting(what work.Object) bool {
	for g := range t.p.Fittings() {
		for i := range g.Pieces() {
			if g.Index() == t.s.For.Index && what.Kind == work.Piece && what.Index == i {
				return true
			}
		}
	}
	return false
}

// caseDries looks for the boards and the sheets of the covering that are in the case by
// then, as wide as they are until they are turned in.
func (t *stepReader) caseDries(there []readLine) string {
	var boards, sheets []int64
	var holds []work.Object
	sides := false
	hold := func(what work.Object) {
		if what.Copy = max(what.Copy, 0); t.covering(what.Index) && !slices.ContainsFunc(holds, func(h work.Object) bool { return h.Index == what.Index && h.Copy == what.Copy }) {
			holds, sheets = append(holds, what), append(sheets, nanos(t.pieces[what.Index].Size().W))
		}
	}
	laid := map[[2]int]bool{} // only looked up
	for _, b := range t.before {
		switch b := b.(type) {
		case work.TurnIn:
			sides = sides || b.Edge == score.Left || b.Edge == score.Right
		case work.Fix:
			if b.What.Kind != work.Piece {
				continue
			}
			hold(b.What)
			switch role := t.pieces[b.What.Index].Role(); role {
			case stock.StiffenerPiece:
				sheets = append(sheets, nanos(t.pieces[b.What.Index].Size().W))
			case stock.BoardPiece:
				hold(work.Object{Index: b.On.Index, Copy: b.On.Copy})
				if at := [2]int{b.What.Index, max(b.What.Copy, 0)}; !laid[at] {
					laid[at], boards = true, append(boards, nanos(t.pieces[b.What.Index].Size().W))
				}
			}
		}
	}
	var gotBoards, gotSheets []int64
	for _, l := range there {
		r, _ := round([]readLine{l})
		switch {
		case within(r.y1-r.y0, nanos(t.p.Spec().Board.Caliper)):
			gotBoards = append(gotBoards, r.x1-r.x0)
		case r.y0 == r.y1 && !sides:
			gotSheets = append(gotSheets, r.x1-r.x0)
		}
	}
	slices.Sort(boards)
	slices.Sort(gotBoards)
	if !slices.EqualFunc(boards, gotBoards, within) {
		return fmt.Sprintf("boards %v wide lie pressed; want %v", gotBoards, boards)
	}
	for _, w := range sheets {
		n := slices.IndexFunc(gotSheets, func(got int64) bool { return within(got, w) })
		if n < 0 && !sides {
			return fmt.Sprintf("sheets %v wide lie pressed; want %v", gotSheets, sheets)
		}
		if n >= 0 {
			gotSheets = slices.Delete(gotSheets, n, n+1)
		}
	}
	turned := slices.ContainsFunc(t.before, func(b work.Action) bool { _, ok := b.(work.TurnIn); return ok })
	if len(gotSheets) > 0 && !turned {
		return fmt.Sprintf("sheets %v wide lie pressed besides", gotSheets)
	}
	return ""
}

// magnetsDry looks for each magnet in its board, as wide and thick as it is: as far from
// the left edge as it was bored, in the side that it was bored into.
func (t *stepReader) magnetsDry(there []readLine) string {
	m := t.p.Spec().Magnets
	var boxes []box
	for _, l := range there {
		b, _ := round([]readLine{l})
		boxes = append(boxes, b)
	}
	bored := map[[2]int]bool{} // only looked up
	for _, b := range t.before {
		sink, ok := b.(work.Sink)
		if !ok {
			continue
		}
		bored[[2]int{sink.What.Index, max(sink.What.Copy, 0)}] = true
		found := slices.ContainsFunc(boxes, func(board box) bool {
			x, y := board.x0+nanos(sink.Middle.X-m.Diameter/2), board.y0
			if sink.Outside {
				y = board.y1 - nanos(m.Thickness)
			}
			want := box{x, y, x + nanos(m.Diameter), y + nanos(m.Thickness)}
			return within(board.x1-board.x0, nanos(t.pieces[sink.What.Index].Size().W)) && within(board.y1-board.y0, nanos(t.p.Spec().Board.Caliper)) &&
				slices.ContainsFunc(boxes, want.near)
		})
		if !found {
			return fmt.Sprintf("no magnet dries %v from the left edge of the %s", sink.Middle.X, sink.What.Name)
		}
	}
	boards := 0
	for _, b := range boxes {
		if within(b.y1-b.y0, nanos(t.p.Spec().Board.Caliper)) && b.x1-b.x0 > nanos(m.Diameter) { // a magnet may be as thick
			boards++
		}
	}
	for b := range t.p.Boards() {
		if i, n := b.Piece(); bored[[2]int{i, n}] {
			boards--
		}
	}
	if boards != 0 {
		return fmt.Sprintf("%d boards too many dry", boards)
	}
	return ""
}

// folded compares a fold of a piece by itself with the strip that package score
// folds: where the line runs before, and how the panels lie after.
func (t *stepReader) folded(a work.FoldAt, i int) string {
	kind := map[work.Way]string{work.Towards: "fold", work.Away: "foldunder"}[a.Way]
	if len(t.r.kind(kind)) == 0 {
		return "no line is folded"
	}
	strip, ok := t.stripOf(a)
	if !ok {
		return ""
	}
	copied := max(a.What.Copy, 0)
	var earlier []score.Turn
	over := false // panel 0 has its face down
	do := slices.Concat(t.before, t.s.Do[:i])
	for _, b := range do {
		switch b := b.(type) {
		case work.Fix:
			if b.What.Index == a.What.Index || b.On.Kind == work.OnPiece && b.On.Index == a.What.Index {
				return "" // it hangs together with others
			}
		case work.TurnOver:
			if b.What.Index == a.What.Index && (b.What.Copy == work.All || max(b.What.Copy, 0) == copied) {
				over = !over
			}
		case work.FoldAt:
			if b.What.Index != a.What.Index || b.What.Copy != work.All && max(b.What.Copy, 0) != copied || b.Open {
				continue
			}
			if b.Axis != a.Axis || !b.Flat {
				return ""
			}
			turn := strip.turn(b)
			over = over != (turn.Part == score.Before)
			earlier = append(earlier, turn)
		}
	}
	if over || a.Open || !a.Flat || i != len(t.s.Do)-1 || slices.ContainsFunc(t.s.Do[:i], func(b work.Action) bool { f, ok := b.(work.FoldAt); return !ok || f.Open }) {
		return t.creased(a, strip, earlier, over, i)
	}
	turn := strip.turn(a)
	folded, err := strip.FoldBy(context.Background(), append(earlier, turn)...)
	if err != nil {
		return err.Error()
	}
	return t.section(a, folded, over != (turn.Part == score.Before))
}

// A foldable is a piece as a strip along the axis of a fold.
type foldable struct {
	score.Strip
	at []units.Length
}

// turn is a fold as package score says it. Its way is told by the kind of the
// score.
func (f foldable) turn(a work.FoldAt) score.Turn {
	t := score.Turn{Score: slices.Index(f.at, a.At), Part: score.Beyond}
	if a.Moves == score.Left || a.Moves == score.Head {
		t.Part = score.Before
	}
	return t
}

// stripOf returns the piece that is folded as a strip; false where its scores do not
// all run across it.
func (t *stepReader) stripOf(a work.FoldAt) (foldable, bool) {
	b, ok := t.pieces[a.What.Index].Blank()
	if !ok {
		return foldable{}, false
	}
	folds := map[units.Length]score.Fold{}
	var at []units.Length
	for _, l := range b.Lines() {
		if l.Axis == a.Axis {
			if !b.Whole(l) {
				return foldable{}, false
			}
			at, folds[l.At] = append(at, l.At), l.Fold
		}
	}
	slices.Sort(at)
	end := b.Size().W
	if a.Axis == score.Level {
		end = b.Size().H
	}
	var widths []units.Length
	var kinds []score.Fold
	from := units.Length(0)
	for _, x := range at {
		widths, kinds, from = append(widths, x-from), append(kinds, folds[x]), x
	}
	s, err := score.NewStrip(append(widths, end-from), kinds...)
	return foldable{s, at}, err == nil
}

// creased compares where the line of a fold runs on the piece as it lies before.
func (t *stepReader) creased(a work.FoldAt, strip foldable, earlier []score.Turn, over bool, i int) string {
	if slices.ContainsFunc(t.s.Do[:i], func(b work.Action) bool { f, ok := b.(work.FoldAt); return ok && !f.Open }) {
		return "" // the picture shows it as it lay before the first fold
	}
	lies, err := strip.FoldBy(context.Background(), earlier...)
	if err != nil {
		return err.Error()
	}
	n := slices.Index(strip.at, a.At)
	from, to := lies.Span(n)
	nextFrom, nextTo := lies.Span(n + 1)
	want := from
	if to == nextFrom || to == nextTo {
		want = to
	}
	kind := map[work.Way]string{work.Towards: "fold", work.Away: "foldunder"}[a.Way]
	edges, _ := round(slices.DeleteFunc(t.all(a.What.Index, a.What.Copy), func(l readLine) bool { return l.kind != "there" && l.kind != "hidden" }))
	for _, l := range t.all(a.What.Index, a.What.Copy) {
		got, width, level := l.pts[0].x-edges.x0, edges.x1-edges.x0, l.pts[0].y == l.pts[1].y
		if level {
			got, width = l.pts[0].y-edges.y0, edges.y1-edges.y0
		}
		if mirrored := over && a.Axis == score.Upright; mirrored {
			got = width - got
		}
		if l.kind == kind && level == (a.Axis == score.Level) && within(width, nanos(lies.Width())) && within(got, nanos(want)) {
			return ""
		}
	}
	return fmt.Sprintf("no fold %v from the edge of %v", want, edges)
}

// section compares the section after a fold: each panel where package score has it,
// those over others drawn higher.
func (t *stepReader) section(a work.FoldAt, folded score.Folding, over bool) string {
	type seam struct {
		panel        int
		from, to, up int64
	}
	var seams []seam
	left := int64(math.MaxInt64)
	for _, l := range t.all(a.What.Index, a.What.Copy) {
		n, err := strconv.Atoi(l.of["panel"])
		if err != nil || l.kind != "outline" {
			continue
		}
		b, _ := round([]readLine{l})
		if b.y0 != b.y1 {
			return fmt.Sprintf("panel %d lies aslant", n)
		}
		seams = append(seams, seam{n, b.x0, b.x1, b.y0})
		left = min(left, b.x0)
	}
	if len(seams) != folded.Strip().Len() && len(seams) < 60 {
		return fmt.Sprintf("%d panels in section; want %d", len(seams), folded.Strip().Len())
	}
	for _, s := range seams {
		from, to := folded.Span(s.panel)
		if over {
			from, to = folded.Width()-to, folded.Width()-from
		}
		if !within(s.from-left, nanos(from)) || !within(s.to-left, nanos(to)) {
			return fmt.Sprintf("panel %d lies from %d to %d; want %v to %v", s.panel, s.from-left, s.to-left, from, to)
		}
		for _, u := range seams {
			if above, overlap := folded.Over(s.panel, u.panel); overlap && s.panel != u.panel && (s.up < u.up) != (above != over) {
				return fmt.Sprintf("panel %d is drawn over panel %d: %t", s.panel, u.panel, s.up < u.up)
			}
		}
	}
	return ""
}

// In quarter style with two strips each picture has the lengths that its step tells:
// lines and boards from the edge of the strip that they are on, papers from the edge of
// their board as one looks at its outside. The second strip is not there before its turn.
func TestStripsAsTold(t *testing.T) {
	p := build(t, folio.Spec{Form: boards.DoubleSpineGate, Cover: units.Size{W: 200 * mm, H: 150 * mm}, Spine: rule.Spine{Width: 20 * mm},
		Quarter: rule.Quarter{Rule: rule.QuarterAlways}, Rulers: rule.Rulers{Main: units.WholeMillimetres}})
	second, laid := false, 0
	for st := range p.Steps() {
		var told []units.Length
		tell := func(at work.At, size units.Size) {
			if at.X < 0 {
				at.X = -at.X
				if at.Across == score.Left {
					at.X = size.W - at.X
				}
			}
			told = append(told, at.X, max(at.Y, -at.Y))
		}
		for _, a := range st.Do {
			switch a := a.(type) {
			case work.Draw:
				told, second = append(told, a.At), second || a.On.Copy == 1
			case work.Lay:
				if a.On.Kind == work.OnOutside {
					tell(a.At, a.Size)
				}
			case work.Fix:
				if a.On.Kind == work.OnOutside || a.Lines {
					tell(a.At, a.Size)
				}
			}
		}
		if len(told) == 0 {
			continue
		}
		laid++
		pic, ok := guide.Step(p, st.Number, guide.Options{})
		r, bad := readPicture(pic, ok)
		if bad != "" {
			t.Fatal(bad)
		}
		strips := 0
		var got []units.Length
		for _, x := range r.texts {
			if strings.HasSuffix(x.s, "spine strip") {
				strips++
			}
			if l, err := units.Parse(x.s + " mm"); err == nil {
				got = append(got, l)
			}
		}
		for _, l := range told {
			if !slices.Contains(got, l) {
				t.Errorf("step %d: the picture has %v, and not %v: %s", st.Number, got, l, st.Text(units.Format{Ruler: units.WholeMillimetres}))
			}
		}
		if second != (strips == 2) {
			t.Errorf("step %d: %d strips", st.Number, strips)
		}
	}
	if laid != 6 {
		t.Errorf("%d steps", laid)
	}
}

// A piece that is creased and laid open again is drawn half open, each panel as
// long as it is.
func TestHalfOpened(t *testing.T) {
	seen := 0
	for _, s := range everyForm() {
		var pieces []folio.Piece
		for piece := range s.plan.Pieces() {
			pieces = append(pieces, piece)
		}
		for st := range s.plan.Steps() {
			var at []units.Length
			var first work.FoldAt
			for _, a := range st.Do {
				if f, ok := a.(work.FoldAt); ok && f.Open {
					first = f
					at = append(at, f.At)
				}
			}
			r, bad := s.look(0)(fmt.Sprintf("step %d", st.Number))
			if bad != "" {
				t.Fatal(bad)
			}
			if at == nil || !slices.ContainsFunc(r.texts, func(x readText) bool { return strings.HasSuffix(x.s, "half opened") }) {
				continue
			}
			seen++
			size := pieces[first.What.Index].Size()
			end := size.W
			if first.Axis == score.Level {
				end = size.H
			}
			at = append(at, 0, end)
			slices.Sort(at)
			var got, want []int64
			for k := 1; k < len(at); k++ {
				want = append(want, nanos(at[k]-at[k-1]))
			}
			for _, l := range r.kind("outline") {
				if len(l.pts) == 2 && l.of["piece"] == strconv.Itoa(first.What.Index) {
					got = append(got, int64(math.Round(math.Hypot(float64(l.pts[0].x-l.pts[1].x), float64(l.pts[0].y-l.pts[1].y)))))
				}
			}
			same := slices.EqualFunc(got, want, within)
			slices.Reverse(got)
			if !same && !slices.EqualFunc(got, want, within) {
				t.Errorf("%s, step %d: panels of %v; want %v", s.name, st.Number, got, want)
			}
		}
	}
	if seen == 0 {
		t.Error("nothing is half opened")
	}
}

// Whatever is drawn half opened, in whatever plan, lies level or slants by three up or
// down to four along.
func TestHalfOpenedByThreeToFour(t *testing.T) {
	level, slant := 0, 0
	for _, s := range slices.Concat(samples(), everyForm(), wide()) {
		for v := range s.pictures(0) {
			if !slices.ContainsFunc(v.texts, func(x readText) bool { return strings.HasSuffix(x.s, "half opened") }) {
				continue
			}
			for _, l := range v.kind("outline") {
				if l.of["piece"] == "" || len(l.pts) != 2 {
					continue
				}
				switch dx, dy := l.pts[1].x-l.pts[0].x, l.pts[1].y-l.pts[0].y; {
				case dy == 0:
					level++
				case !within(max(3*dx, -3*dx)/4, max(dy, -dy)):
					t.Errorf("%s, %s: a panel runs %d along and %d down", s.name, v.name, dx, dy)
				default:
					slant++
				}
			}
		}
	}
	if level < 10 || slant < 10 {
		t.Errorf("%d lie level, %d slant", level, slant)
	}
}

// A piece in layers that is creased and laid open again is drawn half opened too: its
// panels keep their lengths, those that the crease turns lie aslant by three up to
// four along, about the crease, and the layers that it leaves stay level.
func TestHalfOpenedInLayers(t *testing.T) {
	p := build(t, folio.Spec{Cover: units.Size{W: 150 * mm, H: 200 * mm}, Spine: rule.Spine{Width: 18 * mm}, Rulers: rule.Rulers{Main: units.HalfMillimetres},
		Fittings: []folio.Fitting{{Name: "strip", Panel: boards.RightCover, Kind: folio.Folded{Kind: pocket.FoldedStrip{Content: pocket.IDCard()}}}}})
	seen := 0
	for st := range p.Steps() {
		fold, ok := st.Do[0].(work.FoldAt)
		if !ok || !fold.Open {
			continue
		}
		seen++
		r, bad := readPicture(guide.Step(p, st.Number, guide.Options{}))
		if bad != "" {
			t.Fatal(bad)
		}
		// The flap lies at the left; base, front and hem in layers right of the crease.
		var aslant, level []int64
		for _, l := range r.kind("outline") {
			if l.of["panel"] == "" || len(l.pts) != 2 {
				continue
			}
			dx, dy := l.pts[1].x-l.pts[0].x, l.pts[1].y-l.pts[0].y
			switch {
			case dy == 0:
				level = append(level, max(dx, -dx))
			case within(max(3*dx, -3*dx), max(4*dy, -4*dy)):
				aslant = append(aslant, int64(math.Round(math.Hypot(float64(dx), float64(dy)))))
			}
		}
		d := designOf(p, 0)
		for _, panel := range d.Panels() {
			w := nanos(panel.Size().W)
			list := level
			if panel.Name() == "flap" {
				list = aslant
			}
			if w != 0 && !slices.ContainsFunc(list, func(n int64) bool { return within(n, w) }) {
				t.Errorf("no %s %d long: level %v, aslant %v", panel.Name(), w, level, aslant)
			}
		}
		if len(aslant) != 1 || len(level) != 3 {
			t.Errorf("level are %v, aslant %v", level, aslant)
		}
	}
	if seen != 1 {
		t.Errorf("%d creases", seen)
	}
}

// designOf returns the design of a fitting.
func designOf(p *folio.Plan, fitting int) pocket.Design {
	for f := range p.Fittings() {
		if d, ok := f.Design(); ok && f.Index() == fitting {
			return d
		}
	}
	return pocket.Design{}
}
