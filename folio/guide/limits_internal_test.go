package guide

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

func trueScale() pen {
	return pen{shrink: 1000, keys: new([]letterKey), write: Options{}.figures(units.MetricDecimal)}
}

// The arrow of the grain runs either way, with a head at each end that points away from
// the other, over nothing that is drawn; a piece without room for it has none.
func TestGrainEitherWay(t *testing.T) {
	mm := units.Millimetre
	for g, want := range map[work.Grain]units.Point{work.GrainAlongWidth: {X: 1}, work.GrainAlongHeight: {Y: 1}} {
		// Where it is too long it is not drawn, be there lines that it would cross or not.
		for _, room := range []units.Size{{W: 8 * mm, H: 40 * mm}, {W: 40 * mm, H: 8 * mm}} {
			f := newFigure(trueScale())
			f.grain(units.RectAt(units.Point{}, room), g)
			if fits := (room.W > room.H) == (want.X > 0); (len(f.lines) == 1) != fits || len(f.lines) > 1 {
				t.Errorf("grain %v in %v: %d lines", g, room, len(f.lines))
			}
		}
		for _, side := range []units.Length{8 * mm, 40 * mm} {
			f := newFigure(trueScale())
			whole := units.RectAt(units.Point{X: 3 * mm}, units.Size{W: side, H: side})
			f.rect(outline, nothing, whole)
			f.grain(whole, g)
			if side < 14*mm { // the arrow's length
				if len(f.lines) != 1 || len(f.dots) != 0 {
					t.Errorf("grain %v is drawn in %v", g, side)
				}
				continue
			}
			if len(f.lines) != 2 || len(f.dots) != 2 {
				t.Fatalf("grain %v: %d lines, %d heads", g, len(f.lines), len(f.dots))
			}
			a, b := f.lines[1].pts[0], f.lines[1].pts[1]
			if b.X-a.X != want.X*14*mm || b.Y-a.Y != want.Y*14*mm || !boundsOf(f.lines[1].pts).In(whole) {
				t.Errorf("grain %v runs from %v to %v", g, a, b)
			}
			for i, tip := range []units.Point{a, b} {
				pts := f.dots[i].pts
				in := boundsOf([]units.Point{a, b})
				if mid := halfway(pts[1], pts[2]); pts[0] != tip || mid == tip || !touches(in, units.Rect{Min: mid, Max: mid}) {
					t.Errorf("grain %v has a head %v at %v", g, pts, tip)
				}
			}
		}
	}
}

// Next to nothing between two faces is told from outside of them: an arrow comes to the
// upper one from above and one to the lower from below, and what is left stands over both.
func TestSqueezedFromOutside(t *testing.T) {
	mm := units.Millimetre
	f := newFigure(trueScale())
	upper, lower := -12*mm, -9*mm
	f.rect(outline, nothing, units.Rect{Min: units.Point{Y: upper}, Max: units.Point{X: 26 * mm}})
	f.squeezed(upper, lower, 26*mm)
	if len(f.dots) != 2 || len(f.texts) != 1 {
		t.Fatalf("%d arrows, %d texts", len(f.dots), len(f.texts))
	}
	for i, face := range []units.Length{upper, lower} {
		tip, foot := f.dots[i].pts[0], halfway(f.dots[i].pts[1], f.dots[i].pts[2])
		if tip.Y != face || foot.X != tip.X || (foot.Y < tip.Y) != (face == upper) || tip.X <= 26*mm {
			t.Errorf("an arrow from %v to %v at a face at %v", foot, tip, face)
		}
	}
	if x := f.texts[0]; x.s != "room left 3" || x.box(f.pen).Max.Y > upper || x.box(f.pen).Min.X <= f.dots[0].pts[0].X {
		t.Errorf("%q stands at %v", x.s, x.box(f.pen))
	}
}

// Of pockets, panels, layers and distances as many are drawn and written as may be;
// of one more and of very many as many, and it is said that others are left out.
func TestMostOfAKind(t *testing.T) {
	mm := units.Millimetre
	if mostDrawn != 60 {
		t.Errorf("%d; DEVELOPERS.md says 60", mostDrawn)
	}
	outlines := func(f *figure) int {
		n := 0
		for _, l := range f.lines {
			if l.kind == outline {
				n++
			}
		}
		return n
	}
	places := func(n int, step func(i int) units.Length) []units.Length {
		at := []units.Length{0}
		for i := range n {
			at = append(at, at[i]+step(i))
		}
		return at
	}
	for name, c := range map[string]struct {
		draw func(f *figure, n int) (shown int)
		said func(left int) string
	}{
		"pockets of a run": {func(f *figure, n int) int {
			f.gussets(fan{pockets: n, width: 100 * mm, half: 10 * mm, opening: 15 * mm, standIn: 6 * mm}, 0)
			return (outlines(f) - 1) / 3 // a leaf and two gussets, and the last leaf
		}, func(left int) string { return "and " + strconv.Itoa(left) + " pockets more" }},
		"panels of a strip": {func(f *figure, n int) int {
			z := zigzag{panels: slices.Repeat([]units.Length{80 * mm}, n)}
			for i := range n {
				z.slant = append(z.slant, 1-2*(i%2))
			}
			f.zigzag(z, 0, 0, pocket.Design{}, nil)
			return outlines(f)
		}, func(left int) string { return "and " + strconv.Itoa(left) + " panels more" }},
		"panels in a section": {func(f *figure, n int) int {
			r := run{}
			for i := range n {
				r.panels = append(r.panels, lain{index: i, name: "panel", to: 80 * mm, level: i})
			}
			f.layers([]run{r}, 0, 0)
			return outlines(f)
		}, func(left int) string { return "and " + strconv.Itoa(left) + " panels more" }},
		"distances of their own": {func(f *figure, n int) int {
			f.chain(score.Head, places(n, func(i int) units.Length { return mm + units.Length(i)*units.Micrometre }))
			return len(f.texts)
		}, func(int) string { return "not every distance is written" }},
	} {
		for _, n := range []int{mostDrawn, mostDrawn + 1, 10 * mostDrawn} {
			f := newFigure(trueScale())
			shown := c.draw(f, n)
			if said := slices.Contains(f.says, c.said(n-mostDrawn)); shown != mostDrawn || said != (n > mostDrawn) {
				t.Errorf("%d %s: %d are drawn, and it is said: %q", n, name, shown, f.says)
			}
		}
	}
	// Places in a running dimension are written evenly, the first of them but as the
	// origin, and the last in any case.
	for n, every := range map[int]int{mostDrawn: 1, mostDrawn + 1: 2, 10 * mostDrawn: 10, 100*mostDrawn + 1: 101} {
		f := newFigure(trueScale())
		f.running(score.Tail, places(n-1, func(int) units.Length { return 10 * mm }), false)
		want := (n - 1) / every
		if (n-1)%every != 0 {
			want++
		}
		if len(f.texts) != want || want > mostDrawn || slices.Contains(f.says, "not every place is written") != (every > 1) {
			t.Errorf("%d places: %d are written, said %q", n, len(f.texts), f.says)
		}
	}
}

// Names that found no room are listed up to so many, and then how many more.
func TestMostNotes(t *testing.T) {
	for _, n := range []int{1, mostNotes, mostNotes + 1, 100 * mostNotes} {
		f := newFigure(trueScale())
		f.line(outline, nothing, false, units.Point{}, units.Point{X: units.Metre})
		for i := range n {
			f.notes = append(f.notes, "crew "+strconv.Itoa(i))
		}
		pic := arrange(f.pen, []*figure{f}, Options{})
		listed, more := 0, ""
		for _, x := range pic.texts {
			switch {
			case x.s == "no room to name: crew 0" || len(x.s) > 5 && x.s[:5] == "crew ":
				listed++
			case len(x.s) > 4 && x.s[:4] == "and ":
				more = x.s
			}
		}
		want := ""
		if n > mostNotes {
			want = "and " + strconv.Itoa(n-mostNotes) + " more"
		}
		if listed != min(n, mostNotes) || more != want {
			t.Errorf("%d names: %d are listed, %q", n, listed, more)
		}
	}
}

// Under a narrow figure what is said stands in rows no wider than 60 mm, and none begins
// a new row that has room in the one before it, a gap away: to the hair.
func TestRowsOfALegend(t *testing.T) {
	const mm = units.Millimetre
	const one = "ooooooooooooooo"
	most, broken := units.Length(0), 0
	const n = 14
	for i := range n * n * n {
		f := newFigure(trueScale())
		f.line(thin, nothing, false, units.Point{}, units.Point{X: mm})
		// Words of all widths about what goes beside the first.
		two := strings.Repeat("|", 4+i%n) + strings.Repeat("*", 4+i/n%n) + strings.Repeat("'", 4+i/n/n)
		f.says = []string{one, two}
		pic := arrange(f.pen, []*figure{f}, Options{})
		a, b := pic.texts[0], pic.texts[1]
		end := b.at.X + b.width - a.at.X
		if same := a.at.Y == b.at.Y; same {
			most = max(most, end)
		} else if broken++; b.at.X != a.at.X || a.width+f.pen.em(1100)+b.width <= 60*mm {
			t.Errorf("%q begins a row", two)
		}
	}
	if most > 60*mm || most < 60*mm-5*units.Micrometre || broken < 100 {
		t.Errorf("rows of up to %v, %d times two", most, broken)
	}
}

// A length that is divided by the thousandths that it takes of a room goes into it, by one
// thousandth less it does not; in a room of 0, which sets no limit, and in one that is
// larger it stays as it is.
func TestOverIsTheLeast(t *testing.T) {
	if n := over(10*units.Metre, units.Millimetre); n != 10_000_000 { // ten thousand times, in thousandths
		t.Errorf("10 m in 1 mm: %d", n)
	}
	for _, l := range []int64{1, 999, 1000, 1001, 123_457, 170_000_000, 331_000_001, 2_000_000_000} {
		for _, room := range []int64{0, 99_991, 1_000_003, 119_999_999, 170_000_000} {
			n := over(units.Length(l), units.Length(room))
			if room == 0 || l <= room {
				if n != 1000 {
					t.Errorf("%d in %d: %d", l, room, n)
				}
			} else if n*room < 1000*l || (n-1)*room >= 1000*l {
				t.Errorf("%d in %d: %d", l, room, n)
			}
		}
	}
}

// A picture that goes in at once is drawn once; one that grows whenever it is drawn
// larger is drawn so many times and no more, and comes out larger than its room.
func TestMostTries(t *testing.T) {
	for name, c := range map[string]struct {
		grows, least, most int
	}{"as large as its room": {0, 1, 1}, "larger": {1, 2, mostTries}, "ever larger": {30, mostTries, mostTries}, "larger than can be": {100_000, 2, mostTries}} {
		tries := 0
		pic := compose("crew", "", Options{Fit: units.Size{W: 200 * units.Millimetre, H: 200 * units.Millimetre}}, trueScale().write, func(p pen) []*figure {
			tries++
			f := newFigure(p)
			long := 100 * units.Millimetre
			for range tries {
				more, _ := (10 * units.Millimetre).Times(int64(c.grows))
				long += more
			}
			if c.grows == 1 {
				long = 300 * units.Millimetre
			}
			f.line(outline, nothing, false, units.Point{}, units.Point{X: long})
			return []*figure{f}
		})
		if tries < c.least || tries > c.most || (pic.Printed().W <= 200*units.Millimetre) != (c.grows <= 1) && c.grows <= 30 {
			t.Errorf("%s: drawn %d times, %v wide", name, tries, pic.Printed().W)
		}
	}
}
