package folio_test

import (
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket/work"
	"boardwrap.example/units"
)

// flat is a folio in whole millimetres whose numbers can be worked in the head:
// boards 100 x 150 x 2, spine 20, gaps 4, liner inset 5.
func flat() folio.Spec {
	return folio.Spec{
		Cover: units.Size{W: 100 * mm, H: 150 * mm}, Spine: rule.Spine{Width: 20 * mm},
		Board: stock.Stock{Caliper: 2 * mm}, Covering: stock.Stock{Caliper: mm / 5}, Liner: stock.Stock{Caliper: mm / 5},
		Margin: rule.Margin{Ideal: 20 * mm, Least: 15 * mm, Tolerated: 10 * mm},
		Lining: rule.Lining{Inset: 5 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
	}
}

func box(x0, y0, x1, y1 units.Length) units.Rect {
	return units.Rect{Min: units.Point{X: x0 * mm, Y: y0 * mm}, Max: units.Point{X: x1 * mm, Y: y1 * mm}}
}

func mustBuild(t *testing.T, s folio.Spec) *folio.Plan {
	t.Helper()
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// The right cover runs from 100 + 4 + 20 + 4 = 128 to 228, its panel from 133
// to 223 and from 5 to 145; a mat of 30 x 40 on it, by every alignment.
func TestPlaces(t *testing.T) {
	mat := folio.Mat{Size: units.Size{W: 30 * mm, H: 40 * mm}}
	for name, c := range map[string]struct {
		f         folio.Fitting
		clearance units.Length
		want      units.Rect
	}{
		"middle":                    {folio.Fitting{Kind: mat}, 0, box(163, 55, 193, 95)},
		"left and head":             {folio.Fitting{Kind: mat, Place: place.Place{Across: place.Left, Along: place.Head}}, 0, box(133, 5, 163, 45)},
		"right and tail":            {folio.Fitting{Kind: mat, Place: place.Place{Across: place.Right, Along: place.Tail}}, 0, box(193, 105, 223, 145)},
		"left and head, moved":      {folio.Fitting{Kind: mat, Place: place.Place{Across: place.Left, Along: place.Head, Offset: units.Point{X: 7 * mm, Y: 9 * mm}}}, 0, box(140, 14, 170, 54)},
		"right and tail, moved":     {folio.Fitting{Kind: mat, Place: place.Place{Across: place.Right, Along: place.Tail, Offset: units.Point{X: 7 * mm, Y: 9 * mm}}}, 0, box(186, 96, 216, 136)},
		"middle, moved":             {folio.Fitting{Kind: mat, Place: place.Place{Offset: units.Point{X: 3 * mm, Y: -2 * mm}}}, 0, box(166, 53, 196, 93)},
		"left cover":                {folio.Fitting{Kind: mat, Panel: boards.LeftCover, Place: place.Place{Across: place.Left}}, 0, box(5, 55, 35, 95)},
		"outside: the whole board":  {folio.Fitting{Kind: mat, Outside: true, Place: place.Place{Across: place.Right, Along: place.Tail}}, 0, box(198, 110, 228, 150)},
		"clear of the panel's edge": {folio.Fitting{Kind: mat, Place: place.Place{Across: place.Left, Along: place.Tail}}, 4 * mm, box(137, 101, 167, 141)},
	} {
		s := flat()
		s.Clearance = c.clearance
		s.Fittings = []folio.Fitting{c.f}
		for f := range mustBuild(t, s).Fittings() {
			if f.Rect() != c.want {
				t.Errorf("%s: at %v, want %v", name, f.Rect(), c.want)
			}
		}
	}
}

// Lines on the wrap: margins of 20, so boards at 20 to 120, 124 to 144 and 148
// to 248, head 20 and tail 170.
func TestPlacementLines(t *testing.T) {
	var level, upright []units.Length
	for l := range mustBuild(t, flat()).Placement() {
		if l.Upright() {
			upright = append(upright, l.At())
		} else {
			level = append(level, l.At())
		}
	}
	same := func(got []units.Length, want ...units.Length) bool {
		if len(got) != len(want) {
			return false
		}
		for i := range got {
			if got[i] != want[i]*mm {
				return false
			}
		}
		return true
	}
	if !same(level, 20, 170) || !same(upright, 20, 120, 124, 144, 148, 248) {
		t.Errorf("level %v, upright %v", level, upright)
	}
}

// As made: 228 + 2 x 0.2 of covering + 2 gaps x 0.5 of placing; the height has
// no gap.
func TestAsMade(t *testing.T) {
	s := flat()
	s.Placing = mm / 2
	w, h := mustBuild(t, s).AsMade()
	if w.Length() != 229*mm+2*mm/5 || h.Length() != 150*mm+2*mm/5 {
		t.Errorf("as made %v x %v", w.Length(), h.Length())
	}
}

// No liner sheet of 218 x 140 is at hand, only one that takes 90 x 140: each
// board is lined by itself, 10 less than the board both ways.
func TestLinerInPanels(t *testing.T) {
	s := flat()
	s.Liner.Sheets = []stock.Sheet{{Size: units.Size{W: 100 * mm, H: 145 * mm}}}
	p := mustBuild(t, s)
	var got []units.Size
	for l := range p.Liner() {
		got = append(got, l.Size())
	}
	want := []units.Size{{W: 90 * mm, H: 140 * mm}, {W: 10 * mm, H: 140 * mm}, {W: 90 * mm, H: 140 * mm}}
	if p.LiningStyle() != rule.LiningPanels || len(got) != 3 || got[0] != want[0] || got[1] != want[1] || got[2] != want[2] {
		t.Errorf("%v: %v, want %v", p.LiningStyle(), got, want)
	}
}

// Measured board by board: 101, 21 and 102 in a cover of 233 leave 9 for two
// gaps of 4: 4 and 5, to the half nanometre. The covering of 0.2 goes round the
// outer edges, so the boards by themselves are 100.8, 21 and 101.8. On the row,
// which begins at the left board, the right one begins at 100.8 + 4.5 + 21 + 4.5
// = 130.8 and its covered edge lies at 232.8; its panel ends the inset of 5
// before that.
func TestRefitByPanels(t *testing.T) {
	s := flat()
	s.Fittings = []folio.Fitting{{Kind: folio.Mat{Size: units.Size{W: 92 * mm, H: 100 * mm}}}}
	if _, err := folio.Build(s); err == nil {
		t.Fatal("92 goes on a panel of 90")
	}
	s.Fittings = nil
	p := mustBuild(t, s)
	q, err := p.Refit(refit.Measured{Width: 233 * mm, Height: 151 * mm, Panels: []units.Length{101 * mm, 21 * mm, 102 * mm}})
	if err != nil {
		t.Fatal(err)
	}
	const tenth = mm / 10
	at := []units.Length{}
	for b := range q.Boards() {
		at = append(at, b.Rect().Min.X, b.Rect().Max.X)
	}
	for g := range q.Gaps() {
		at = append(at, g.Width())
		if g.Planned().Length() != 4*mm {
			t.Errorf("a gap planned %v, want 4", g.Planned())
		}
	}
	if want := []units.Length{0, 1008 * tenth, 1053 * tenth, 1263 * tenth, 1308 * tenth, 2326 * tenth, 45 * tenth, 45 * tenth}; !slices.Equal(at, want) {
		t.Errorf("boards and gaps at %v, want %v", at, want)
	}
	right, _ := q.Panel(boards.RightCover, false)
	if right.Max.X != 2278*tenth || right.Min.X != 1358*tenth {
		t.Errorf("right panel %v, want 135.8 to 227.8", right)
	}
	for l := range q.Liner() {
		if l.Size() != (units.Size{W: 223 * mm, H: 141 * mm}) {
			t.Errorf("liner %v, want 10 less than 233 x 151", l.Size())
		}
	}
	// The wrap of 268 x 190 lies round boards of 232.6 x 150.6 with their gaps:
	// (268 - 232.6)/2 = 17.7 and (190 - 150.6)/2 = 19.7 to turn in, less board
	// and covering of 2.2. The liner begins 5 from the covered edge, 4.8 from the
	// boards'.
	sides, ends := q.TurnInLap()
	if sides.Length() != 107*tenth || ends.Length() != 127*tenth {
		t.Errorf("laps %v and %v, want 10.7 and 12.7", sides.Length(), ends.Length())
	}
}

// A one-way pattern keeps a sheet upright; grain along its width turns it;
// GrainAny lets it lie as it will.
func TestHowSheetsLie(t *testing.T) {
	for name, c := range map[string]struct {
		sheet  stock.Sheet
		oneWay bool
		grain  stock.GrainRule
		fits   bool
		turned bool
	}{
		"upright, grain not known":      {stock.Sheet{Size: units.Size{W: 280 * mm, H: 200 * mm}}, false, 0, true, false},
		"lying, turned":                 {stock.Sheet{Size: units.Size{W: 200 * mm, H: 280 * mm}}, false, 0, true, true},
		"lying, one-way pattern":        {stock.Sheet{Size: units.Size{W: 200 * mm, H: 280 * mm}}, true, 0, false, false},
		"lying, grain along its width":  {stock.Sheet{Size: units.Size{W: 200 * mm, H: 280 * mm}, Grain: stock.GrainAlongWidth}, false, 0, true, true},
		"lying, grain along its height": {stock.Sheet{Size: units.Size{W: 200 * mm, H: 280 * mm}, Grain: stock.GrainAlongHeight}, false, 0, false, false},
		"upright, grain along width":    {stock.Sheet{Size: units.Size{W: 280 * mm, H: 200 * mm}, Grain: stock.GrainAlongWidth}, false, 0, false, false},
		"the same, any grain":           {stock.Sheet{Size: units.Size{W: 280 * mm, H: 200 * mm}, Grain: stock.GrainAlongWidth}, false, stock.GrainAny, true, false},
		"square":                        {stock.Sheet{Size: units.Size{W: 280 * mm, H: 280 * mm}, Grain: stock.GrainAlongHeight}, false, 0, true, false},
		"square, grain along width":     {stock.Sheet{Size: units.Size{W: 280 * mm, H: 280 * mm}, Grain: stock.GrainAlongWidth}, false, 0, true, true},
		"square, one-way pattern":       {stock.Sheet{Size: units.Size{W: 280 * mm, H: 280 * mm}, Grain: stock.GrainAlongWidth}, true, 0, false, false},
	} {
		s := flat()
		s.Grain = c.grain
		s.Covering.OneWay = c.oneWay
		s.Covering.Sheets = []stock.Sheet{c.sheet}
		p, err := folio.Build(s)
		if (err == nil) != c.fits {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if c.fits {
			if _, turned, ok := p.Wrap().Source(); !ok || turned != c.turned {
				t.Errorf("%s: turned %v", name, turned)
			}
			for pc := range p.Pieces() {
				if pc.Part() == "wrap" && pc.OneWay() != c.oneWay {
					t.Errorf("%s: one-way %v", name, pc.OneWay())
				}
			}
		}
	}
}

// The strip of quarter style is of the spine's covering, whose caliper counts
// at head and tail: 20 - 2 - 1 - 5 = 12 under the liner there.
func TestSpineCovering(t *testing.T) {
	s := flat()
	s.Quarter.Rule = rule.QuarterAlways
	s.Covering.Name = "marbled paper"
	s.SpineCovering = stock.Stock{Name: "cloth", Caliper: mm}
	p := mustBuild(t, s)
	for w := range p.Wrap().Pieces() {
		if want := map[bool]string{true: "cloth", false: "marbled paper"}[w.Strip()]; w.Piece().Stock() != want {
			t.Errorf("%s is of %s, want %s", w.Piece().Name(), w.Piece().Stock(), want)
		}
	}
	if sides, ends := p.TurnInLap(); sides.Length() != 12*mm+4*mm/5 || ends.Length() != 12*mm {
		t.Errorf("laps %v and %v, want 12.8 and 12", sides.Length(), ends.Length())
	}
}

// The order of turning in, and the face that shows, as the maker is told.
func TestStepsSay(t *testing.T) {
	s := flat()
	s.Turning = rule.SidesFirst
	s.Margin.Ideal = 20 * mm
	s.Covering.Sheets = []stock.Sheet{{Size: units.Size{W: 258 * mm, H: 300 * mm}, Grain: stock.GrainAlongHeight}} // 15 at the sides
	s.Stocks = []stock.Stock{{Name: "duplex", Caliper: mm / 4, TwoSided: true}}
	s.Fittings = []folio.Fitting{{Name: "crew", Stock: "duplex", WrongSide: true, Kind: folio.Mat{Size: units.Size{W: 30 * mm, H: 40 * mm}}}}
	text := ""
	n := 0
	for st := range mustBuild(t, s).Steps() {
		n++
		if st.Number != n {
			t.Errorf("step %d is numbered %d", n, st.Number)
		}
		if st.Task == work.TaskCut && !slices.Contains(st.Care(), work.CareBlade) {
			t.Errorf("%q comes without the caution for blades", st.Text(units.Format{}))
		}
		wet := st.Task == work.TaskTurnIn || st.Task == work.TaskFix && st.For.Kind != work.PartFitting
		if wet && !slices.Contains(st.Care(), work.CareGlue) {
			t.Errorf("%q comes without the caution for glue", st.Text(units.Format{}))
		}
		text += st.Text(units.Format{}) + "\n"
	}
	for _, want := range []string{
		"from the head edge 20 mm and 170 mm; from the left edge 15 mm, 115 mm, 119 mm, 139 mm, 143 mm and 243 mm",
		"the left cover 15 mm from the left edge, the spine 119 mm from the left edge and the right cover 143 mm from the left edge; 20 mm from the head edge",
		"turn in the wrap over the boards: 15 mm at the left and 15 mm at the right. Tuck all four corners",
		"turn in the wrap over the boards: 20 mm at the head and 20 mm at the tail",
		"From duplex cut the mat 30 x 40 mm, grain along the height, wrong side up",
		"Glue the liner on the inside of the open case: 5 mm from the left edge and 5 mm from the head edge of the cover",
		// The board is 100 x 150 mm: (100 - 30) / 2 and (150 - 40) / 2.
		"on the inside of the right cover the place of the mat, 30 x 40 mm: 35 mm from the right edge and 55 mm from the head edge of the board",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is missing from:\n%s", want, text)
		}
	}
}
