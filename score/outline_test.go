package score_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/internal/proptest"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A latticework is a blank on whole millimetres whose slants and tapers are cut
// at 45°. Each square millimetre is divided into four by its diagonals, so that
// every cut takes whole quarters away: what is left can be counted.
const (
	latticeW = 9
	latticeH = 7
)

// onLattice are drawings with some cut-outs, notches, slants and tapered tabs,
// many of them in each other's way.
func onLattice() gopter.Gen {
	n := func(most int) gopter.Gen { return gen.SliceOf(gen.IntRange(0, most-1)) }
	return proptest.Map(gopter.CombineGens(n(1<<14), n(1<<14), n(1<<14), n(1<<14)), func(v []any) score.Draft {
		d := score.Draft{Size: units.Size{W: latticeW * mm, H: latticeH * mm}}
		digit := func(from *int, base int) units.Length {
			k := *from % base
			*from /= base
			return units.Length(k)
		}
		first := func(list any, most int) []int { l := list.([]int); return l[:min(len(l)%(most+1), len(l))] }
		for _, k := range first(v[0], 4) {
			x, y := digit(&k, latticeW), digit(&k, latticeH)
			w, h := 1+digit(&k, 4), 1+digit(&k, 4)
			d.CutOuts = append(d.CutOuts, score.CutOut{Area: rect(x, y, min(x+w, latticeW), min(y+h, latticeH))})
		}
		for _, k := range first(v[1], 3) {
			e, at := score.Edge(digit(&k, 4)), digit(&k, 5)
			d.Notches = append(d.Notches, score.Notch{Edge: e, Middle: (1 + at) * mm, Width: 2 * mm, Depth: (1 + digit(&k, latticeH-1)) * mm})
		}
		for _, k := range first(v[2], 3) {
			c, leg := score.Corner(digit(&k, 4)), (1+digit(&k, latticeH))*mm
			d.Slants = append(d.Slants, score.Slant{Corner: c, Along: leg, Down: leg})
		}
		for _, k := range first(v[3], 3) {
			e, from, depth := score.Edge(digit(&k, 4)), digit(&k, 3), 1+digit(&k, 2)
			d.Tabs = append(d.Tabs, score.Tab{Edge: e, From: from * mm, To: (from + 5) * mm, Depth: depth * mm, Taper: depth * mm})
		}
		return d
	})
}

// A quarter is one of the four parts of a square millimetre: the one at its
// head, right, tail or left.
type quarter struct{ x, y, side int }

// centre returns six times the coordinates of its middle, in millimetres.
func (q quarter) centre() (x, y int) {
	d := [...][2]int{{3, 1}, {5, 3}, {3, 5}, {1, 3}}[q.side]
	return 6*q.x + d[0], 6*q.y + d[1]
}

// beside returns the quarters that share an edge with it.
func (q quarter) beside() []quarter {
	out := []quarter{{q.x, q.y, (q.side + 1) % 4}, {q.x, q.y, (q.side + 3) % 4}}
	d := [...][2]int{{0, -1}, {1, 0}, {0, 1}, {-1, 0}}[q.side]
	return append(out, quarter{q.x + d[0], q.y + d[1], (q.side + 2) % 4})
}

// takes returns how many parts of a drawing take a quarter away, said by
// inequalities for each part.
func takes(d score.Draft, q quarter) int {
	n, six := 0, func(l units.Length) int { return 6 * int(l/mm) }
	x, y := q.centre()
	w, h := six(d.Size.W), six(d.Size.H)
	in := func(yes bool) {
		if yes {
			n++
		}
	}
	for _, c := range d.CutOuts {
		in(x > six(c.Area.Min.X) && x < six(c.Area.Max.X) && y > six(c.Area.Min.Y) && y < six(c.Area.Max.Y))
	}
	into := func(e score.Edge) (along, deep int) {
		return [...]int{x, x, y, y}[e], [...]int{y, h - y, x, w - x}[e]
	}
	for _, c := range d.Notches {
		along, deep := into(c.Edge)
		in(deep < six(c.Depth) && along > six(c.Middle-c.Width/2) && along < six(c.Middle+c.Width/2))
	}
	for _, c := range d.Slants {
		fromX := [...]int{score.HeadLeft: x, score.HeadRight: w - x, score.TailLeft: x, score.TailRight: w - x}[c.Corner]
		fromY := [...]int{score.HeadLeft: y, score.HeadRight: y, score.TailLeft: h - y, score.TailRight: h - y}[c.Corner]
		in(fromX+fromY < six(c.Along))
	}
	for _, t := range d.Tabs {
		along, deep := into(t.Edge)
		in(along > six(t.From) && along-six(t.From)+deep < six(t.Depth))
		in(along < six(t.To) && six(t.To)-along+deep < six(t.Depth))
	}
	return n
}

// counted returns the quarters that are left, how many pieces they make, and
// whether something is taken away twice.
func counted(d score.Draft) (left map[quarter]bool, pieces int, twice bool) {
	left = map[quarter]bool{}
	for x := range latticeW {
		for y := range latticeH {
			for side := range 4 {
				switch takes(d, quarter{x, y, side}) {
				case 0:
					left[quarter{x, y, side}] = true
				case 1:
				default:
					twice = true
				}
			}
		}
	}
	seen := map[quarter]bool{}
	for q := range left {
		if seen[q] {
			continue
		}
		pieces++
		for todo := []quarter{q}; len(todo) > 0; {
			q := todo[len(todo)-1]
			todo = todo[:len(todo)-1]
			if !seen[q] && left[q] {
				seen[q] = true
				todo = append(todo, q.beside()...)
			}
		}
	}
	return left, pieces, twice
}

func bit(yes bool) int {
	if yes {
		return 1
	}
	return 0
}

// inside reports whether the middle of a quarter lies in a polygon whose
// corners are whole millimetres.
func (q quarter) inside(p units.Polygon) bool {
	x, y := q.centre()
	return p.Contains(units.Point{X: units.Length(x) * mm / 6, Y: units.Length(y) * mm / 6})
}

// TestBlanksByCounting: what a blank is refused for, its outline, its openings
// and its area, compared with counting the quarters of every square millimetre.
func TestBlanksByCounting(t *testing.T) {
	var whole, apart, openings, none int
	proptest.Run(t, 3000, func(p *gopter.Properties) {
		p.Property("a blank is what is left of the sheet", prop.ForAll(func(d score.Draft) string {
			b, err := score.NewBlank(d)
			says := map[check.Code]bool{}
			if bad := (*check.Error)(nil); errors.As(err, &bad) {
				for v := range bad.All() {
					if ofTab := strings.HasPrefix(v.Path, "tabs") && !strings.Contains(v.Path, "taper"); ofTab || v.Code == score.OffSheet {
						return "" // of tabs as such and of the edges of the sheet the counting knows nothing
					}
					says[v.Code] = true
				}
			}
			left, pieces, twice := counted(d)
			apart, none = apart+bit(pieces > 1 && !twice), none+bit(pieces == 0 && !twice)
			for code, want := range map[check.Code]bool{score.Overlap: twice, score.InPieces: !twice && pieces > 1, score.NoPaper: !twice && pieces == 0} {
				if says[code] != want {
					return string(code) + " is wrong"
				}
			}
			if twice || pieces != 1 {
				return ""
			}
			if err != nil {
				return err.Error()
			}
			whole++
			edge, holes := b.Outline()
			openings += len(holes)
			area := edge.Area(units.Nearest)
			for _, h := range holes {
				area = area.Minus(h.Area(units.Nearest))
			}
			if want := (mm / 2).By(mm / 2).Times(int64(len(left))); area != want || b.Area(units.Down) != want || b.Area(units.Up) != want {
				return "area " + area.String() + " and " + b.Area(units.Down).String() + ", counted " + want.String()
			}
			for x := range latticeW {
				for y := range latticeH {
					for side := range 4 {
						q := quarter{x, y, side}
						paper := q.inside(edge) && !slices.ContainsFunc(holes, q.inside)
						if paper != left[q] {
							return "paper is shown in the wrong place"
						}
					}
				}
			}
			return partsByCounting(b, left)
		}, onLattice()))
	})
	t.Logf("%d whole with %d openings, %d in pieces, %d nothing", whole, openings, apart, none)
	if n := proptest.Cases(3000); whole < n/15 || n >= 3000 && openings < 40 || openings == 0 || apart < n/150 {
		t.Errorf("too few of some kind: %d whole with %d openings, %d in pieces", whole, openings, apart)
	}
}

// partsByCounting compares what of a blank lies in the rectangles right of some
// place with the quarters that are left there: the largest set of those that hang
// together.
func partsByCounting(b score.Blank, left map[quarter]bool) string {
	size := b.Size()
	for from := range int(size.W / mm) {
		r := rect(units.Length(from), 0, size.W/mm, size.H/mm)
		edge, holes := b.Part(r)
		seen, most := map[quarter]bool{}, 0
		for q := range left {
			if n := hanging(q, left, seen, from); n > most {
				most = n
			}
		}
		shown := 0
		for x := from; x < latticeW; x++ {
			for y := range latticeH {
				for side := range 4 {
					q, moved := quarter{x, y, side}, quarter{x - from, y, side}
					if !moved.inside(edge) || slices.ContainsFunc(holes, moved.inside) {
						continue
					}
					if shown++; !left[q] {
						return "a part shows paper where none is left"
					}
				}
			}
		}
		if shown != most {
			return fmt.Sprintf("the part from %d mm shows %d quarters, counted %d", from, shown, most)
		}
	}
	return ""
}

// hanging counts the quarters not seen yet that hang together with one, none of
// them left of a place.
func hanging(q quarter, left, seen map[quarter]bool, from int) int {
	if q.x < from || !left[q] || seen[q] {
		return 0
	}
	seen[q] = true
	n := 1
	for _, next := range q.beside() {
		n += hanging(next, left, seen, from)
	}
	return n
}

// Slants of unequal legs and tapers as they are drawn, corner by corner.
func TestCornersOfSlantsAndTapers(t *testing.T) {
	at := func(x, y units.Length) units.Point { return units.Point{X: x * mm, Y: y * mm} }
	for name, c := range map[string]struct {
		draw score.Draft
		want []units.Point // clockwise, in millimetres
	}{
		"head left":  {score.Draft{Slants: []score.Slant{{Corner: score.HeadLeft, Along: 30 * mm, Down: 7 * mm}}}, []units.Point{at(30, 0), at(100, 0), at(100, 60), at(0, 60), at(0, 7)}},
		"head right": {score.Draft{Slants: []score.Slant{{Corner: score.HeadRight, Along: 30 * mm, Down: 7 * mm}}}, []units.Point{at(0, 0), at(70, 0), at(100, 7), at(100, 60), at(0, 60)}},
		"tail left":  {score.Draft{Slants: []score.Slant{{Corner: score.TailLeft, Along: 30 * mm, Down: 7 * mm}}}, []units.Point{at(0, 0), at(100, 0), at(100, 60), at(30, 60), at(0, 53)}},
		"tail right": {score.Draft{Slants: []score.Slant{{Corner: score.TailRight, Along: 30 * mm, Down: 7 * mm}}}, []units.Point{at(0, 0), at(100, 0), at(100, 53), at(70, 60), at(0, 60)}},
		"head tab":   {score.Draft{Tabs: []score.Tab{{Edge: score.Head, From: 10 * mm, To: 80 * mm, Depth: 9 * mm, Taper: 4 * mm}}}, []units.Point{at(0, 0), at(10, 0), at(10, 9), at(14, 0), at(76, 0), at(80, 9), at(80, 0), at(100, 0), at(100, 60), at(0, 60)}},
		"left tab":   {score.Draft{Tabs: []score.Tab{{Edge: score.Left, From: 10 * mm, To: 50 * mm, Depth: 9 * mm, Taper: 4 * mm}}}, []units.Point{at(0, 0), at(100, 0), at(100, 60), at(0, 60), at(0, 50), at(9, 50), at(0, 46), at(0, 14), at(9, 10), at(0, 10)}},
	} {
		c.draw.Size = units.Size{W: 100 * mm, H: 60 * mm}
		b, err := score.NewBlank(c.draw)
		if err != nil {
			t.Fatal(name, err)
		}
		want, err := units.NewPolygon(c.want...)
		if err != nil {
			t.Fatal(name, err)
		}
		if edge, holes := b.Outline(); !edge.Equal(want) || len(holes) > 0 {
			t.Errorf("%s: %v; want %v", name, edge, want)
		}
	}
}

// Where a slant meets the edge of a part, at any place along it: to the nearest
// nanometre on the straight line, which is checked by cross products of whole
// numbers.
func TestSlantMeetsAPart(t *testing.T) {
	size := units.Size{W: 100 * mm, H: 60 * mm}
	tried := 0
	for _, leg := range [][2]units.Length{{30*mm + 7, 20*mm + 1}, {19_999_999, 33_333_333}, {7_654_321, 9_876_543}} {
		b, err := score.NewBlank(score.Draft{Size: size, Slants: []score.Slant{{Along: leg[0], Down: leg[1]}}})
		if err != nil {
			t.Fatal(err)
		}
		// Of the line from (along, 0) to (0, down), x·down + y·along = along·down.
		near := func(x, y, of units.Length) bool {
			off := x.By(leg[1]).Plus(y.By(leg[0])).Minus(leg[0].By(leg[1]))
			if off.Sign() < 0 {
				off = units.Area{}.Minus(off)
			}
			return off.Plus(off).Compare(of.By(1)) <= 0
		}
		for k := range units.Length(40) {
			cut := leg[0] * (k + 1) / 42
			right, _ := b.Part(units.Rect{Min: units.Point{X: cut}, Max: units.Point{X: size.W, Y: size.H}})
			for _, c := range right.Corners() {
				if c.X == 0 && c.Y < size.H {
					tried++
					if !near(cut, c.Y, leg[0]) {
						t.Errorf("a slant of %v meets x = %v at %v", leg, cut, c.Y)
					}
				}
			}
			cut = leg[1] * (k + 1) / 42
			below, _ := b.Part(units.Rect{Min: units.Point{Y: cut}, Max: units.Point{X: size.W, Y: size.H}})
			for _, c := range below.Corners() {
				if c.Y == 0 && c.X < size.W {
					tried++
					if !near(c.X, cut, leg[1]) {
						t.Errorf("a slant of %v meets y = %v at %v", leg, cut, c.X)
					}
				}
			}
		}
	}
	if tried != 240 {
		t.Errorf("%d of 240 points were found", tried)
	}
}

// Half an oval of 20 mm by 10 mm deep is 50π mm², four corners of 5 mm radius
// lack (100 − 25π) mm²: π to 20 places, from any table.
func TestAreaOfRounds(t *testing.T) {
	const pi = 3.14159265358979323846
	b, err := score.NewBlank(score.Draft{
		Size:    units.Size{W: 100 * mm, H: 80 * mm},
		Notches: []score.Notch{{Edge: score.Head, Middle: 50 * mm, Width: 20 * mm, Depth: 10 * mm, Round: true}},
		CutOuts: []score.CutOut{{Area: rect(30, 30, 70, 60), Radius: 5 * mm}},
	})
	if err != nil {
		t.Fatal(err)
	}
	want := 8000 - 50*pi - (1200 - 100 + 25*pi)
	down, up := b.Area(units.Down), b.Area(units.Up)
	if gap := up.Minus(down); gap.Sign() <= 0 || gap.Compare(units.Nanometre.By(200)) > 0 {
		t.Errorf("between %v and %v", down, up)
	}
	if got := down.SquareMillimetres(); math.Abs(got-want) > 1e-9 {
		t.Errorf("%.12f mm²; want %.12f", got, want)
	}
	// The outline shows a little more paper, by less than 1/200 of the rounds.
	edge, holes := b.Outline()
	area := edge.Area(units.Down)
	for _, h := range holes {
		area = area.Minus(h.Area(units.Up))
	}
	if len(holes) != 1 || area.Compare(up) <= 0 || area.Minus(up).SquareMillimetres() > (50*pi+25*pi)/200 {
		t.Errorf("the outline holds %v, the blank %v", area, up)
	}
}

// roundBlanks are blanks with round notches and rounded cut-outs of any size,
// off every ruler.
func roundBlanks() gopter.Gen {
	l := func(low, high units.Length) gopter.Gen { return gen.Int64Range(int64(low), int64(high)) }
	return proptest.Map(gopter.CombineGens(l(units.Shortest, 90*mm), l(units.Shortest, 90*mm), l(1, 90*mm), l(1, 90*mm), l(0, 45*mm), gen.IntRange(0, 3)), func(v []any) score.Draft {
		at := func(i int) units.Length { return units.Length(v[i].(int64)) }
		d := score.Draft{Size: units.Size{W: 200 * mm, H: 200 * mm}}
		d.Notches = []score.Notch{{Edge: score.Edge(v[5].(int)), Middle: 50 * mm, Width: at(0), Depth: at(1), Round: true}}
		d.CutOuts = []score.CutOut{{Area: units.RectAt(units.Point{X: 100 * mm, Y: 100 * mm}, units.Size{W: at(2), H: at(3)}),
			Radius: min(at(4), at(2)/2, at(3)/2)}}
		return d
	})
}

func TestRoundsInOutlines(t *testing.T) {
	proptest.Run(t, 1000, func(p *gopter.Properties) {
		p.Property("corners lie on the rounds, chords lie in what is cut", prop.ForAll(func(d score.Draft) string {
			b, err := score.NewBlank(d)
			if err != nil {
				return err.Error()
			}
			edge, holes := b.Outline()
			if len(holes) != 1 {
				return "no opening"
			}
			n, c := d.Notches[0], d.CutOuts[0]
			for _, corner := range edge.Corners() {
				// Of the oval x²/a² + y²/b² = 1, as far as it is not the sheet's edge.
				along := [...]units.Length{corner.X, corner.X, corner.Y, corner.Y}[n.Edge]
				deep := [...]units.Length{corner.Y, 200*mm - corner.Y, corner.X, 200*mm - corner.X}[n.Edge]
				if deep == 0 || deep > n.Depth || (along-n.Middle).Abs() > n.Width {
					continue
				}
				x, y := (along-n.Middle).Millimetres()*2/n.Width.Millimetres(), deep.Millimetres()/n.Depth.Millimetres()
				// Half a nanometre of rounding each way, and half of one where the
				// width is odd and the middle with it, over half the width.
				if off := math.Abs(math.Hypot(x, y) - 1); off > 2.5/float64(min(n.Width, n.Depth)) {
					return "a corner off the oval by " + units.Length(off*1e9).String()
				}
			}
			for _, corner := range holes[0].Corners() {
				if corner.X < c.Area.Min.X || corner.X > c.Area.Max.X || corner.Y < c.Area.Min.Y || corner.Y > c.Area.Max.Y {
					return "a corner beyond the cut-out"
				}
			}
			exact := b.Area(units.Down)
			shown := edge.Area(units.Up).Minus(holes[0].Area(units.Down))
			// A quarter of a round of radii r and s is cut by chords too little by
			// less than 0.0025 r·s, and rounded by a nanometre along its edge.
			most := n.Width.By(n.Depth).SquareMillimetres()*0.0025 + c.Radius.By(c.Radius).SquareMillimetres()*0.01 + 1e-3
			if more := shown.Minus(exact).SquareMillimetres(); more < -1e-3 || more > most {
				return "the outline shows more paper than there is"
			}
			return ""
		}, roundBlanks()))
	})
}
