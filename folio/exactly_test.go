package folio_test

import (
	"errors"
	"regexp"
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/folio/view"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// The area of a piece is not less than what is there, and more by less than a
// nanometre along each mitre: on a ruler of 1/64 in legs are odd.
func TestAreaIsNotLess(t *testing.T) {
	odd := 0
	for n := range 12 {
		s := unruledCase(n)
		s.Rulers.Wrap = units.SixtyFourths
		p := mustBuild(t, s)
		for pc := range p.Pieces() {
			twice, legs := pc.Size().Area().Times(2), units.Length(0)
			for c := range pc.CornerCuts() {
				l := c.Leg().Length()
				twice = twice.Minus(l.By(l))
				if legs += l; l%2 != 0 {
					odd++
				}
			}
			if got := pc.Area().Times(2); got.Compare(twice) < 0 || got.Minus(twice).Compare(legs.By(1)) > 0 {
				t.Errorf("%d: twice the area of the %s is %v, exactly %v", n, pc.Name(), got, twice)
			}
		}
	}
	if odd == 0 {
		t.Error("no leg is odd")
	}
}

// Of what an open cover measures more, by an odd number of nanometres, the halves
// of less than a covering go to its edges, so that no board comes out smaller; the
// rest of what the gaps share goes to the last.
func TestMeasuredToTheNanometre(t *testing.T) {
	for more := units.Length(1); more < 12; more++ {
		s := unruledCase(0)
		p := mustBuild(t, s)
		q, err := p.Refit(measuredBy(p, more, more))
		if err != nil {
			t.Fatal(err)
		}
		planned, _ := p.Board(boards.LeftCover)
		for b := range q.Boards() {
			if high := b.Rect().Size().H; high < planned.Size().H || high > planned.Size().H+1 {
				t.Errorf("%d more: the %v is %v high, planned %v", more, b.Role(), high, planned.Size().H)
			}
		}
		// The inside seen from the corner of the cover: its edges.
		edge := q.View(view.Cover).Point(units.Point{})
		if 2*edge.X > more || 2*edge.X < more-1 || 2*edge.Y > more || 2*edge.Y < more-1 {
			t.Errorf("%d more: edges of %d and %d", more, edge.X, edge.Y)
		}
		// With both edges full, what is left is in the gaps.
		q, err = p.Refit(measuredBy(p, 2*s.Covering.Caliper+more, 0))
		if err != nil {
			t.Fatal(err)
		}
		var gaps []units.Length
		for g := range q.Gaps() {
			gaps = append(gaps, g.Width()-g.Planned().Length())
		}
		if len(gaps) != 2 || gaps[0] != more/2 || gaps[1] != more-more/2 {
			t.Errorf("%d more: the gaps are %d wider", more, gaps)
		}
		// It lies on its wrap with as much more on either side, the odd one at the right.
		for x := range q.Placed() {
			if i, _ := x.Piece(); pieceName(q, i) == "wrap" {
				w := q.Wrap()
				left, right := -x.Rect().Min.X, x.Rect().Max.X-(q.OpenWidth().Length()-2*s.Covering.Caliper)
				near, far := w.Across().Near().Length(), w.Across().Far().Length()
				if d := (near - left) - (far - right); d < -1 || d > 1 {
					t.Errorf("%d more: of margins of %v and %v, %v and %v are left", more, near, far, left, right)
				}
			}
		}
	}
}

// pieceName is what a piece is called.
func pieceName(p *folio.Plan, index int) string {
	i := 0
	for pc := range p.Pieces() {
		if i == index {
			return pc.Name()
		}
		i++
	}
	return ""
}

// Placed evenly on a ruler of nanometres, each thing begins where the gaps before it
// end, rounded down: its number times what is left over their number and one.
func TestEvenToTheNanometre(t *testing.T) {
	for free := range units.Length(9) {
		s := unruledCase(0)
		s.Rulers.Fitting, s.Rulers.Liner = everyNanometre, everyNanometre
		for range 3 {
			f := mat(20*mm+1, 30*mm+1)
			f.Name, f.Place = "", place.Place{Across: place.Even, Along: place.Even}
			s.Fittings = append(s.Fittings, f)
		}
		s.Cover.W += mm * free / 7
		p := mustBuild(t, s)
		panel, _ := p.Panel(boards.RightCover, false)
		k := units.Length(0)
		for f := range p.Fittings() {
			k++
			for axis, at := range map[string][2]units.Length{
				"across": {f.Rect().Min.X - panel.Min.X, (panel.Size().W-3*(20*mm+1))*k/4 + (k-1)*(20*mm+1)},
				"along":  {f.Rect().Min.Y - panel.Min.Y, (panel.Size().H-3*(30*mm+1))*k/4 + (k-1)*(30*mm+1)},
			} {
				if at[0] != at[1] {
					t.Errorf("%s, number %d begins at %d, want %d", axis, k, at[0], at[1])
				}
			}
		}
	}
}

// A magnet as wide as what its inset leaves of a flap lies on it; half of an odd
// nanometre beyond the edge is beyond it.
func TestMagnetsAtBothEdges(t *testing.T) {
	for n := range units.Length(2) {
		s := unruledCase(0)
		flapped(&s)
		s.Rulers.Board, s.FlapWidth = everyNanometre, 40*mm+n
		s.Magnets = closing.Magnets{Diameter: 30*mm + n, Thickness: mm, Pairs: 2, Inset: 10 * mm}
		_, refused := refusal(s, "magnets.diameter", folio.OffPanel)
		if refused != (n == 1) {
			t.Errorf("a magnet of %v, %v in on a flap of %v: refused %v", s.Magnets.Diameter, s.Magnets.Inset, s.FlapWidth, refused)
		}
	}
}

// Of two sheets that leave as much in all, 80 mm, the one is taken that leaves more
// at the narrower side, though it is the larger one: 40 and 40 mm, not 50 and 30. Of two
// that leave as much there, 40 mm, the one that leaves more at the other: 45 mm.
func TestSheetWithTheWiderMargin(t *testing.T) {
	sheet := func(w, h units.Length) stock.Sheet {
		return stock.Sheet{Size: units.Size{W: w * mm, H: h * mm}, Grain: stock.GrainAlongHeight}
	}
	for _, c := range []struct{ better, worse stock.Sheet }{
		{sheet(317, 210), sheet(327, 200)}, {sheet(317, 215), sheet(317, 210)}, {sheet(322, 210), sheet(317, 210)},
	} {
		for _, sheets := range [][]stock.Sheet{{c.better, c.worse}, {c.worse, c.better}} {
			s := plainCase()
			s.Covering.Sheets = sheets
			if size, _, ok := mustBuild(t, s).Wrap().Source(); !ok || size != c.better.Size {
				t.Errorf("of %v the wrap is cut from %v", sheets, size)
			}
		}
	}
}

// A cover that was measured is told by how much it is too far from what was planned.
func TestMeasuredTooFar(t *testing.T) {
	p := mustBuild(t, plainCase())
	if m, ok := p.Measured(); ok || m.Width != 0 {
		t.Errorf("as planned it measures %v", m)
	}
	for by := range units.Length(3) {
		for path, m := range map[string]refit.Measured{
			"measured.width":  {Width: 289400*units.Micrometre + by, Height: 170 * mm},
			"measured.height": {Width: 277 * mm, Height: 164*mm - by},
		} {
			_, err := p.Refit(m)
			var bad *check.Error
			if !errors.As(err, &bad) {
				if by > 0 {
					t.Errorf("%s off by %v is taken", path, by)
				}
				continue
			}
			limit := map[string]units.Length{"measured.width": 289400 * units.Micrometre, "measured.height": 164 * mm}[path]
			if v, ok := bad.Find(path, folio.MeasuredFar); !ok || v.By != by || by == 0 || v.Limit != limit {
				t.Errorf("%s off by %v: by %v, limit %v", path, by, v.By, v.Limit)
			}
		}
	}
}

// Of two gaps that came out too narrow each is told by the board left of it.
func TestNarrowGapsAreNamed(t *testing.T) {
	q, err := mustBuild(t, plainCase()).Refit(refit.Measured{Width: 269 * mm, Height: 170 * mm})
	if err != nil {
		t.Fatal(err)
	}
	var told []string
	for w := range q.Warnings() {
		if w.Code == folio.GapNarrow {
			of, _, _ := strings.Cut(w.Text, " came out as ")
			told = append(told, of)
		}
	}
	if want := []string{"the gap right of the left cover", "the gap right of the spine"}; !slices.Equal(told, want) {
		t.Errorf("told of %q", told)
	}
}

// What lies on one cover comes to lie on the other as in a mirror in the middle of the
// spine board, also where what the gaps came out wider does not divide by two.
func TestFacingAcrossTheMiddleOfTheSpine(t *testing.T) {
	for crease := rule.CreaseAtEdge; crease <= rule.CreaseRound; crease++ {
		s := plainCase()
		if s.Hinge = (rule.Hinge{Width: 9 * mm, Crease: crease}); crease == rule.CreaseAtOffset {
			s.Hinge.Offset = 4 * mm
		}
		p := mustBuild(t, s)
		w, h := p.AsMade()
		for more := range units.Length(4) {
			q, err := p.Refit(refit.Measured{Width: w.Length() + mm + more, Height: h.Length()})
			if err != nil {
				t.Fatal(err)
			}
			spine, _ := q.Board(boards.Spine1)
			left, _ := q.Panel(boards.LeftCover, false)
			at := units.RectAt(left.Min.Plus(units.Point{X: 20 * mm, Y: 10 * mm}), units.Size{W: 30 * mm, H: 40 * mm})
			want, sum := at, spine.Rect().Min.X+spine.Rect().Max.X
			want.Min.X, want.Max.X = sum-at.Max.X, sum-at.Min.X
			if got, ok := q.Facing(at, boards.LeftCover, boards.RightCover); !ok || got != want {
				t.Errorf("creased %v, %v wider: %v comes to lie at %v, want %v", crease, mm+more, at, got, want)
			}
		}
	}
}

// A cover that measures just what was planned has been measured all the same: it is made.
func TestMeasuredAsPlanned(t *testing.T) {
	p := mustBuild(t, plainCase())
	m := refit.Measured{Width: p.OpenWidth().Length(), Height: p.OpenHeight().Length()}
	q, err := p.Refit(m)
	if err != nil {
		t.Fatal(err)
	}
	if got, ok := q.Measured(); !ok || got.Width != m.Width || got.Height != m.Height || !q.Made(stock.BoardPiece) || p.Made(stock.BoardPiece) {
		t.Errorf("measured %v, %t; made %t", got, ok, q.Made(stock.BoardPiece))
	}
}

// What a measured cover may be from and to is told in numbers that may be: a width or a
// height as told is taken, and one a ten-thousandth of an inch further from it is not.
func TestMeasuredAsTold(t *testing.T) {
	bounds := regexp.MustCompile(`or from ([0-9./ ]+ in) to ([0-9./ ]+ in)`)
	for k := range units.Length(6) {
		s := plainCase()
		s.Rulers = all(everyNanometre)
		s.Rulers.Main = units.Sixteenths
		s.Cover = s.Cover.Plus(7919*k, 104_729*k)
		p := mustBuild(t, s)
		good := refit.Measured{Width: p.OpenWidth().Length(), Height: p.OpenHeight().Length()}
		for path, field := range map[string]func(*refit.Measured) *units.Length{
			"measured.width":  func(m *refit.Measured) *units.Length { return &m.Width },
			"measured.height": func(m *refit.Measured) *units.Length { return &m.Height },
		} {
			for side, by := range []units.Length{-50 * mm, 50 * mm} {
				m := good
				*field(&m) += by
				_, err := p.Refit(m)
				var bad *check.Error
				if !errors.As(err, &bad) {
					t.Fatalf("%s off by %v is taken", path, by)
				}
				v, ok := bad.Find(path, folio.MeasuredFar)
				if bound := []check.Bound{check.AtLeast, check.AtMost}[side]; v.Bound != bound {
					t.Errorf("%s off by %v: bound %v", path, by, v.Bound)
				}
				told := bounds.FindStringSubmatch(v.Want)
				if !ok || told == nil {
					t.Fatalf("%v", err)
				}
				// Beyond the bound that it is beyond; a cover within both has its covering elsewhere.
				for i, text := range told[1:] {
					beyond := []units.Length{-units.Thou / 10, units.Thou / 10}[i]
					for more, refused := range map[units.Length]bool{0: false, beyond: true} {
						m := good
						*field(&m) = units.MustParse(text) + more
						if _, err := p.Refit(m); (err != nil) != refused && (i == side || !refused) {
							t.Errorf("%s: %q, of %v: %v", path, v.Want, *field(&m), err)
						}
					}
				}
			}
		}
	}
}

// Board by board the liner of a cover of 120 x 170 mm, with the covering of 0.2 mm at
// its fore edge, at head and at tail, and insets of 3 mm, takes a sheet of 114 x 164 mm:
// what is left on the ruler of 114.2 and 164.4; with 0.7 mm, of 114.7 and 165.4.
func TestSheetsOfLinerPanels(t *testing.T) {
	for _, c := range []struct {
		w, h, covering units.Length
		taken          bool
	}{
		{114 * mm, 164 * mm, mm / 5, true}, {114*mm - nm, 164 * mm, mm / 5, false}, {114 * mm, 164*mm - nm, mm / 5, false},
		{114 * mm, 165 * mm, 7 * mm / 10, true}, {114*mm - nm, 165 * mm, 7 * mm / 10, false}, {114 * mm, 165*mm - nm, 7 * mm / 10, false},
		{114 * mm, 164 * mm, 35 * mm / 100, true}, {114 * mm, 164*mm - nm, 35 * mm / 100, false}, // of 164.7 mm
	} {
		s := plainCase()
		s.Covering.Caliper = c.covering
		s.Liner.Sheets, s.Lining.Rule = sheetOf(c.w, c.h), rule.LiningPanels
		if _, refused := refusal(s, "liner.sheets", folio.SheetSmall); refused == c.taken {
			t.Errorf("a sheet of %v x %v is refused: %v", c.w, c.h, refused)
		}
	}
}

// With insets of 84 mm a cover of 170 mm that came out 168 mm high leaves no liner; a
// nanometre more leaves one of a nanometre, which laps turn-ins of 85.8 mm.
func TestLeastLiner(t *testing.T) {
	s := plainCase()
	s.Rulers.Liner, s.Lining.Inset, s.Margin.Ideal = everyNanometre, 84*mm, 87*mm
	p := mustBuild(t, s)
	for more := range units.Length(2) {
		q, err := p.Refit(measuredBy(p, 0, more-2*mm))
		if more == 0 {
			if !refusedWith(err, "lining.inset", folio.LinerNone) {
				t.Errorf("no liner: %v", err)
			}
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		var high []units.Length
		for l := range q.Liner() {
			high = append(high, l.Size().H)
		}
		if !slices.Equal(high, []units.Length{more}) {
			t.Errorf("liners %v high", high)
		}
	}
}
