package guide

import (
	"slices"
	"strconv"
	"testing"

	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

func trueScale() pen { return pen{1000, Options{}.figures(units.MetricDecimal)} }

// Of pockets, panels, layers and distances as many are drawn and written as may be;
// of one more and of very many as many, and it is said that others are left out.
func TestMostOfAKind(t *testing.T) {
	mm := units.Millimetre
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
			f.settle()
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

// A picture that goes in at once is drawn once; one that grows whenever it is drawn
// larger is drawn so many times and no more, and comes out larger than its room.
func TestMostTries(t *testing.T) {
	for name, c := range map[string]struct {
		grows, least, most int
	}{"as large as its room": {0, 1, 1}, "larger": {1, 2, mostTries}, "ever larger": {30, mostTries, mostTries}, "larger than can be": {100_000, 2, mostTries}} {
		tries := 0
		pic, ok := compose("crew", "", Options{Fit: units.Size{W: 200 * units.Millimetre, H: 200 * units.Millimetre}}, trueScale().write, func(p pen) []*figure {
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
			f.settle()
			return []*figure{f}
		})
		if !ok || tries < c.least || tries > c.most || (pic.Printed().W <= 200*units.Millimetre) != (c.grows <= 1) && c.grows <= 30 {
			t.Errorf("%s: drawn %d times, %v wide", name, tries, pic.Printed().W)
		}
	}
}
