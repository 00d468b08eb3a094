package guide

import (
	"cmp"
	"fmt"
	"math/big"
	"math/rand"
	"slices"
	"strconv"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/units"
)

// A straight line meets a rectangle where some stretch of it, or a point, lies
// between both its sides and both its ends: clipped side by side, in whole fractions,
// after Liang and Barsky (A new concept and method for line clipping, 1984).
func TestCrossesAsClipped(t *testing.T) {
	r := units.Rect{Min: units.Point{X: 2, Y: 3}, Max: units.Point{X: 5, Y: 4}}
	meets := func(a, b units.Point) bool {
		from, to := big.NewRat(0, 1), big.NewRat(1, 1)
		for _, c := range [][2]units.Length{{a.X - b.X, a.X - r.Min.X}, {b.X - a.X, r.Max.X - a.X}, {a.Y - b.Y, a.Y - r.Min.Y}, {b.Y - a.Y, r.Max.Y - a.Y}} {
			p, q := c[0].Nanometres(), c[1].Nanometres()
			switch {
			case p == 0 && q < 0:
				return false
			case p < 0:
				if at := big.NewRat(q, p); at.Cmp(from) > 0 {
					from = at
				}
			case p > 0:
				if at := big.NewRat(q, p); at.Cmp(to) < 0 {
					to = at
				}
			}
		}
		return from.Cmp(to) <= 0
	}
	for i := range 8 * 8 * 8 * 8 {
		a, b := units.Point{X: units.Length(i % 8), Y: units.Length(i / 8 % 8)}, units.Point{X: units.Length(i / 64 % 8), Y: units.Length(i / 512)}
		if crosses(a, b, r) != meets(a, b) {
			t.Errorf("from %d, %d to %d, %d: %t", a.X, a.Y, b.X, b.Y, !meets(a, b))
		}
	}
}

// Two leaders have a point in common where each has its ends on either side of the line
// through the other, or on it, and where all four lie on one line the stretches overlap:
// told here by the areas of triangles (O'Rourke, Computational Geometry in C, 1998, 1.5).
func TestLeadersMeet(t *testing.T) {
	const n = 4
	at := func(i int) units.Point { return units.Point{X: units.Length(i % n), Y: units.Length(i / n)} }
	area := func(a, b, c units.Point) int64 {
		return (b.X-a.X).Nanometres()*(c.Y-a.Y).Nanometres() - (c.X-a.X).Nanometres()*(b.Y-a.Y).Nanometres()
	}
	on := func(a, b, c units.Point) bool { // c on the stretch from a to b
		return area(a, b, c) == 0 && min(a.X, b.X) <= c.X && c.X <= max(a.X, b.X) && min(a.Y, b.Y) <= c.Y && c.Y <= max(a.Y, b.Y)
	}
	apart := func(p, q int64) bool { return p > 0 && q < 0 || p < 0 && q > 0 }
	for i := range n * n * n * n * n * n * n * n {
		a, b, c, d := at(i%(n*n)), at(i/(n*n)%(n*n)), at(i/(n*n*n*n)%(n*n)), at(i/(n*n*n*n*n*n))
		if a == b || c == d {
			continue
		}
		want := apart(area(a, b, c), area(a, b, d)) && apart(area(c, d, a), area(c, d, b)) || on(a, b, c) || on(a, b, d) || on(c, d, a) || on(c, d, b)
		if got := (leader{a, b}).meets(leader{c, d}); got != want {
			t.Fatalf("from %v to %v and from %v to %v: %t", a, b, c, d, got)
		}
	}
}

// A name that a text bars from its own row stands in the next row above or below that its
// leader is clear of it in, up to the eighth; else among what could not be named.
func TestNamesMoveByRows(t *testing.T) {
	if mostRows != 8 {
		t.Errorf("%d; the eighth row is the last that is tried here", mostRows)
	}
	mm := units.Millimetre
	p := trueScale()
	row, pad := p.em(rise+drop+350), p.em(150)
	for n := int64(0); n <= 9; n++ {
		f := newFigure(p)
		here := units.RectAt(units.Point{}, units.Size{W: mm / 100, H: mm / 100})
		f.rect(outline, nothing, here)
		// It ends halfway between where the leaders to the rows before and to this one pass.
		share := func(l units.Length) units.Length { x, _ := l.Scale(n, 1, units.Nearest); return x }
		high := share(row) - row.Half(units.Down)
		if n == 0 {
			high = 0
		}
		if high > 0 {
			f.write(text{s: "buoy", at: units.Point{X: 2 * units.Metre, Y: 0}, upright: true, width: 2 * max(high-pad, mm)})
		}
		f.name("boat", here, nothing)
		f.settle()
		at := slices.IndexFunc(f.texts, func(x text) bool { return x.s == "boat" })
		if placed := at >= 0; placed != (n <= 8) {
			t.Errorf("%d rows away: placed %t", n, placed)
		} else if placed {
			if off := f.leaders[0][1].Y - f.leaders[0][0].Y; (off.Abs() - share(row)).Abs() > mm {
				t.Errorf("%d rows away: by %v, a row is %v", n, off, row)
			}
		}
	}
}

// A leader keeps fifteen hundredths of the size of the text from a text that it passes, to
// the hair: nearer, the name stands in another row.
func TestLeadersKeepClearOfTexts(t *testing.T) {
	p := trueScale()
	// In whole numbers, as the size of the text has them.
	size := p.em(1000)
	for off := units.Length(-1); off <= 1; off++ {
		for _, above := range []bool{true, false} {
			f := newFigure(p)
			here := units.RectAt(units.Point{}, units.Size{W: 16, H: 16})
			f.rect(outline, nothing, here)
			f.write(text{s: "buoy", at: units.Point{X: 30 * units.Millimetre}})
			far := size/100*15 + off
			x := &f.texts[0]
			by := here.Max.Y/2 + far - x.covers.Min.Y
			if above {
				by = here.Max.Y/2 - far - x.covers.Max.Y
			}
			x.covers = x.covers.Moved(units.Point{Y: by})
			f.name("boat", here, nothing)
			f.settle()
			l := f.leaders[0]
			if own := l[0].Y == here.Max.Y/2 && l[1].Y == l[0].Y; own != (off > 0) {
				t.Errorf("%v past a text, %d nm off, above it %t: in its own row %t", far, off, !above, own)
			}
		}
	}
}

// A leader may begin at either side of what is named alike, and at its head as at its tail:
// mirrored, the places are the same. All lie in it, and some on each of its edges.
func TestLeadersBeginAlikeAtAllSides(t *testing.T) {
	f := newFigure(trueScale())
	const w, h = 160, 320
	f.name("boat", units.RectAt(units.Point{}, units.Size{W: w, H: h}), nothing)
	places := map[units.Point]bool{}
	edges := [4]int{}
	for _, q := range f.anchors(0) {
		if places[q] {
			t.Errorf("%d, %d is tried twice", q.X, q.Y)
		}
		places[q] = true
		for i, on := range [...]bool{q.X == 0, q.X == w, q.Y == 0, q.Y == h} {
			if on {
				edges[i]++
			}
		}
	}
	for q := range places {
		if q.X < 0 || q.X > w || q.Y < 0 || q.Y > h {
			t.Errorf("%d, %d lies outside", q.X, q.Y)
		}
		if !places[units.Point{X: w - q.X, Y: q.Y}] || !places[units.Point{X: q.X, Y: h - q.Y}] {
			t.Errorf("%d, %d has no like at the other side", q.X, q.Y)
		}
	}
	if slices.Min(edges[:]) == 0 || slices.Max(edges[:]) != slices.Min(edges[:]) {
		t.Errorf("on the edges are %v places", edges)
	}
}

// Of a figure no more is looked at for a place than what may be in the way in its region,
// and no less: a place is free of both or of neither.
func TestPartOfAFigure(t *testing.T) {
	const mm = units.Millimetre
	r := rand.New(rand.NewSource(5))
	at := func() units.Point {
		return units.Point{X: units.Length(r.Intn(60)) * mm, Y: units.Length(r.Intn(60)) * mm}
	}
	var part figure
	free := map[bool]int{}
	for range 100 {
		f := newFigure(trueScale())
		for range r.Intn(4) {
			f.line(outline, nothing, r.Intn(2) > 0, at(), at(), at())
			f.arrow(at(), 1, 0)
			f.dot(at(), false)
			f.write(text{s: "oar", at: at(), upright: r.Intn(2) > 0})
		}
		if r.Intn(4) == 0 {
			f.fields = append(f.fields, field{rect: spanned(at(), at())})
		}
		region := spanned(at(), at())
		f.part(region, &part)
		if len(part.lines)+len(part.texts)+len(part.dots) > len(f.lines)+len(f.texts)+len(f.dots) {
			t.Fatal("more than the figure has")
		}
		for range 20 {
			a, b := at(), at()
			place := spanned(a, b)
			place = units.Rect{Min: units.Point{X: max(place.Min.X, region.Min.X), Y: max(place.Min.Y, region.Min.Y)}, Max: units.Point{X: min(place.Max.X, region.Max.X), Y: min(place.Max.Y, region.Max.Y)}}
			if place.Min.X > place.Max.X || place.Min.Y > place.Max.Y {
				continue
			}
			is := f.free(place)
			free[is]++
			if part.free(place) != is {
				t.Errorf("%v is free: %t, of what may be in the way in %v: %t", place, is, region, !is)
			}
		}
	}
	if free[true] < 50 || free[false] < 50 {
		t.Errorf("looked at %v", free)
	}
}

// Of texts that find no room in a figure that is flat a dozen are called out, of
// those in a high one more; every other one is in the notes, and none is lost.
func TestNoTextIsLost(t *testing.T) {
	for _, high := range []units.Length{0, 40 * units.Millimetre, 400 * units.Millimetre} {
		for _, n := range []int{0, 1, 11, 12, 13, 14, 40, 500} {
			f := newFigure(trueScale())
			f.all.Max.Y = high
			var list []int
			for i := range n {
				f.wants = append(f.wants, want{s: fmt.Sprintf("text %d", i)})
				list = append(list, i)
			}
			out := f.most(list)
			var all []string
			for _, i := range out {
				all = append(all, f.wants[i].s)
			}
			all = append(all, f.notes...)
			slices.Sort(all)
			if len(all) != n || len(slices.Compact(all)) != n {
				t.Errorf("%d called out and %d noted of %d", len(out), len(f.notes), n)
			}
			if len(out) < min(n, 12) || high == 0 && len(out) > 12 || high > 300*units.Millimetre && len(out) < min(n, 20) {
				t.Errorf("%v high: %d of %d called out", high, len(out), n)
			}
		}
	}
}

// A name goes into a region that is just as large as it and the same room round it,
// level or read from the right, and into none that is a nanometre narrower or lower.
func TestNamesFitToTheHair(t *testing.T) {
	for _, upright := range []bool{false, true} {
		in := func(size units.Size) (units.Rect, bool) {
			f := newFigure(trueScale())
			f.name("crew", units.RectAt(units.Point{}, size), nothing)
			f.settle()
			return f.texts[0].box(f.pen), len(f.lines) == 0 && f.texts[0].upright == upright
		}
		least := func(of func(l units.Length) units.Size) units.Length { // by halving
			low, high := units.Length(0), 60*units.Millimetre
			for low+1 < high {
				if mid := (low + high) / 2; mid > 0 {
					if _, ok := in(of(mid)); ok {
						high = mid
					} else {
						low = mid
					}
				}
			}
			return high
		}
		const wide = 60 * units.Millimetre
		var size units.Size
		if upright { // too narrow to be read level
			size.W = least(func(l units.Length) units.Size { return units.Size{W: min(l, 7*units.Millimetre), H: wide} })
			size.H = least(func(l units.Length) units.Size { return units.Size{W: 7 * units.Millimetre, H: l} })
		} else {
			size.W = least(func(l units.Length) units.Size { return units.Size{W: l, H: 6 * units.Millimetre} })
			size.H = least(func(l units.Length) units.Size { return units.Size{W: wide, H: l} })
		}
		box, ok := in(size)
		room := [...]units.Length{box.Min.X, box.Min.Y, size.W - box.Max.X, size.H - box.Max.Y}
		if !ok || slices.Max(room[:]) != slices.Min(room[:]) || room[0] <= 0 {
			t.Errorf("upright %t: round the name in %v are %v", upright, size, room)
		}
		for _, less := range []units.Size{{W: size.W - 1, H: size.H}, {W: size.W, H: size.H - 1}} {
			if _, ok := in(less); ok {
				t.Errorf("upright %t: a name that needs %v goes into %v", upright, size, less)
			}
		}
	}
}

// Of many names that find no room in a low figure a dozen stand beside it at the most,
// the others are listed.
func TestADozenBesideALowFigure(t *testing.T) {
	f := newFigure(trueScale())
	mm := units.Millimetre
	for i := range 40 {
		r := units.RectAt(units.Point{X: units.Length(i) * 5 * mm}, units.Size{W: 4 * mm, H: 2 * mm})
		f.rect(outline, nothing, r)
		f.name("part "+strconv.Itoa(i), r, nothing)
	}
	f.settle()
	if len(f.texts) < 3 || len(f.texts) > 12 || len(f.texts)+len(f.notes) != 40 {
		t.Errorf("%d names stand beside the figure, %d are listed", len(f.texts), len(f.notes))
	}
}

// Every name stands once: in what it names, and in nothing smaller that lies there, nor
// over a line or another name; or at a leader with a dot that begins in what it names,
// or on its edge, and ends at the name; or among what could not be named.
func TestNamesStandAtWhatTheyName(t *testing.T) {
	rnd := rand.New(rand.NewSource(15))
	mm := units.Millimetre
	in, out, noted := 0, 0, 0
	for range 40 {
		f := newFigure(trueScale())
		regions := map[string]units.Rect{}
		for i := range 3 + rnd.Intn(14) {
			r := units.RectAt(units.Point{X: units.Length(rnd.Intn(150)) * mm, Y: units.Length(rnd.Intn(60)) * mm},
				units.Size{W: units.Length(3+rnd.Intn(60)) * mm, H: units.Length(2+rnd.Intn(40)) * mm})
			name := fmt.Sprintf("name %d", i)
			if i%5 == 4 { // lies where the one before it does
				r = regions[fmt.Sprintf("name %d", i-1)]
			}
			regions[name] = r
			f.rect(outline, ofPiece(i), r)
			f.name(name, r, ofPiece(i))
		}
		drawn := len(f.lines)
		f.settle()
		smaller := func(name string, at units.Rect) bool {
			for other, r := range regions {
				if other != name && touches(r, at) && r.Size().Area().Compare(regions[name].Size().Area()) < 0 {
					return true
				}
			}
			return false
		}
		stands := map[string]int{}
		for i, x := range f.texts {
			stands[x.s]++
			r, box := regions[x.s], x.box(f.pen)
			if x.of != ofPiece(int(x.s[5]-'0')) && len(x.s) == 6 {
				t.Errorf("%q is marked as of %v", x.s, x.of)
			}
			for _, other := range f.texts[:i] {
				if touches(box, other.box(f.pen)) {
					t.Errorf("%q lies over %q", x.s, other.s)
				}
			}
			for _, l := range f.lines[:drawn] {
				if !l.segments(func(a, b units.Point) bool { return !crosses(a, b, box) }) {
					t.Errorf("%q lies over a line", x.s)
				}
			}
			if box.In(r) && !smaller(x.s, box) {
				in++
				continue
			}
			out++
			led := slices.ContainsFunc(f.lines[drawn:], func(l line) bool {
				foot, end := l.pts[0], l.pts[len(l.pts)-1]
				on := units.Rect{Min: foot, Max: foot}
				dotted := slices.ContainsFunc(f.dots, func(d dot) bool { return d.at == foot && d.radius > 0 })
				edge := foot.X == r.Min.X || foot.X == r.Max.X || foot.Y == r.Min.Y || foot.Y == r.Max.Y
				return dotted && touches(r, on) && (edge || !smaller(x.s, on)) && touches(grown(box, mm*3/2), units.Rect{Min: end, Max: end})
			})
			if !led {
				t.Errorf("no leader runs from %v to %q at %v", r, x.s, box)
			}
		}
		for _, n := range f.notes {
			stands[n]++
			noted++
		}
		for name := range regions {
			if stands[name] != 1 {
				t.Errorf("%q stands %d times", name, stands[name])
			}
		}
	}
	if in < 60 || out < 60 {
		t.Errorf("lopsided: %d names in what they name, %d at leaders, %d noted", in, out, noted)
	}
}

// In no form does a leader run from one end of the closed folio to the other: what lies
// in its left half is named below it.
func TestNoLeaderCrossesTheClosedFolio(t *testing.T) {
	leaders, below := 0, 0
	for form := boards.SpineBoard; form < boards.OwnRow; form++ {
		s := folio.Spec{Form: form, Cover: units.Size{W: 150 * units.Millimetre, H: 210 * units.Millimetre}}
		if s.Spine.Width = 16 * units.Millimetre; form == boards.SoftSpine || form == boards.SoftGate || form == boards.FourPanelZ {
			s.Spine = rule.Spine{Contents: 6 * units.Millimetre}
		}
		plan, err := folio.Build(s)
		if err != nil {
			t.Fatal(err)
		}
		pic, ok := Closed(plan, Options{})
		if !ok {
			continue
		}
		f := pic.figures[0].figure
		for _, l := range f.lines {
			from, to := l.pts[0], l.pts[len(l.pts)-1]
			if l.kind != thin || len(l.pts) != 2 || !slices.ContainsFunc(f.dots, func(d dot) bool { return d.at == from && len(d.pts) == 0 }) {
				continue
			}
			leaders++
			switch mid := f.body.Min.X + f.body.Size().W.Half(units.Down); {
			case from.X == to.X && from.X < mid && to.Y > f.body.Max.Y:
				below++
			case from.X < mid:
				t.Errorf("%v: a leader from %v to %v, across a folio from %v to %v", form, from, to, f.body.Min.X, f.body.Max.X)
			}
		}
	}
	if leaders < 20 || below < 4 {
		t.Errorf("lopsided: %d leaders, %d of them down", leaders, below)
	}
}

// Names in a legend go by the letters but I and O, 24 of them, then by those with a 1, and
// so on; a name that comes again has the letter it had.
func TestLettersOfALegend(t *testing.T) {
	p := trueScale()
	for i := range 60 {
		p.keyOf(strconv.Itoa(i), ref{})
	}
	for i, want := range map[int]string{0: "A", 8: "J", 23: "Z", 24: "A1", 47: "Z1", 48: "A2"} {
		if got := p.keyOf(strconv.Itoa(i), ref{}); got != want {
			t.Errorf("name %d goes by %s; want %s", i, got, want)
		}
	}
}

// segments calls visit with every straight part until it returns false.
func (l *line) segments(visit func(a, b units.Point) bool) bool {
	for i := 1; i < len(l.pts); i++ {
		if !visit(l.pts[i-1], l.pts[i]) {
			return false
		}
	}
	return !l.shut || len(l.pts) < 2 || visit(l.pts[len(l.pts)-1], l.pts[0])
}

// Which way a line turns does not depend on how large all is drawn, nor on where.
func TestTurnAtEveryScale(t *testing.T) {
	least := []units.Length{-3, -2, -1, 0, 1, 2, 3}
	for _, scale := range []units.Length{1, 1<<29 - 1, 1 << 29, 1<<31 - 1, 1 << 31, 1<<32 + 1, 3_333_333_333} {
		for _, x := range least {
			for _, y := range least {
				b, c := units.Point{X: 2 * scale, Y: scale}, units.Point{X: x * scale, Y: y * scale}
				want := cmp.Compare(2*(y-1), x-2)
				if got := turn(units.Point{}, b, c); got != want {
					t.Fatalf("from 0 by %v to %v: %d; want %d", b, c, got, want)
				}
				// And turned by half a circle about 0.
				back := func(q units.Point) units.Point { return units.Point{X: -q.X, Y: -q.Y} }
				if got := turn(units.Point{}, back(b), back(c)); got != want {
					t.Fatalf("from 0 by %v to %v: %d; want %d", back(b), back(c), got, want)
				}
				// Off the line by no more than a nanometre.
				if got := turn(units.Point{}, b, units.Point{X: 2 * b.X, Y: 2*b.Y + y}); got != cmp.Compare(y, 0) {
					t.Fatalf("from 0 by %v, and %v off: %d", b, y, got)
				}
			}
		}
	}
}
