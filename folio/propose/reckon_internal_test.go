package propose

import (
	"cmp"
	"context"
	"math"
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/closing"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/pocket"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// cases are a case of each form and some rows of boards, on usual rulers and on ones
// that no measure of the case is on.
func cases() []folio.Spec {
	off := func(step units.Length) units.Ruler {
		r, err := units.NewRuler(step, units.MetricDecimal)
		if err != nil {
			panic(err)
		}
		return r
	}
	mountain := boards.Joint{Fold: score.Mountain}
	rows := []folio.Spec{
		{Row: boards.Row{Boards: []boards.Board{{Role: boards.Panel1}, {Role: boards.Panel2}, {Role: boards.Panel3}}, Joints: []boards.Joint{{}, mountain}}},
		{Row: boards.Row{Boards: []boards.Board{{Role: boards.LeftCover}, {Role: boards.Spine1}, {Role: boards.RightCover}, {Role: boards.Spine2}, {Role: boards.Flap, Width: 61_300_007, Over: boards.LeftCover}}}},
		{Row: boards.Row{Boards: []boards.Board{{Role: boards.LeftCover, Width: 150_700_003}, {Role: boards.Spine1}, {Role: boards.RightCover, Width: 133_300_007}}}},
	}
	for f := boards.SpineBoard; f < boards.OwnRow; f++ {
		rows = append(rows, folio.Spec{Form: f})
	}
	for _, gate := range [...]boards.Form{boards.DoubleSpineGate, boards.SoftGate} {
		rows = append(rows, folio.Spec{Form: gate, DoorGap: units.None}, folio.Spec{Form: gate, DoorGap: 4_700_003}, folio.Spec{Form: gate, DoorGap: 4_000_001})
	}
	rows = append(rows, folio.Spec{Form: boards.ForeEdgeFlap, FlapWidth: 70_300_007}, folio.Spec{Form: boards.TwoFlaps, FlapWidth: 70_300_007})
	// A liner in one piece keeps clear of boards that lie elsewhere than planned, at their sides alone.
	rows = append(rows, folio.Spec{Form: boards.SpineBoard, Placing: 600_000}, folio.Spec{Form: boards.ForeEdgeFlap, Placing: 600_000})
	var all []folio.Spec
	for _, spec := range rows {
		all = append(all, spec)
		spec.Rulers = rule.Rulers{Main: units.WholeMillimetres}
		all = append(all, spec)
		spec.Rulers = rule.Rulers{Main: off(1_009_000), Fitting: off(701_000), Liner: off(1_009_000)}
		spec.Board = stock.Stock{Caliper: 2_113_000}
		spec.Clearance, spec.Closing.Ease = 1_501_000, 907_000
		all = append(all, spec)
	}
	return all
}

// begin is a search in a case for something small, measured; nil where no such case
// can be built.
func begin(t *testing.T, c folio.Spec) *searcher {
	t.Helper()
	r := Request{Case: c, Things: []Thing{{Content: pocket.Content{Name: "ticket", Size: units.Size{W: 40 * units.Millimetre, H: 30 * units.Millimetre}}}}}
	tr := begun(context.Background(), r, Form{Form: c.Form, Row: c.Row}, 0, "", Budget{Steps: 1 << 50})
	if tr.err != nil {
		return nil
	}
	return tr.searcher
}

// What the search reckons of a cover, a spine and a room under a flap without
// building it is what is built: the room between the covers, what may be covered of
// each board, and how large and thick the folio is shut. And each is turned round
// at its edge: the narrowest cover and spine take what is asked for, a graduation
// less does not; the widest spine within a thickness is within, a graduation more is
// not.
func TestReckonedAsBuilt(t *testing.T) {
	const mm = units.Millimetre
	built, layered, parts := 0, 0, 0
	for _, c := range cases() {
		s := begin(t, c)
		if s == nil {
			continue
		}
		name := (&Form{Form: c.Form, Row: c.Row}).String() + ", ruler " + s.ruler.Step().String()
		var beyond []units.Size // the shut folio, beyond its cover
		for k, at := range []struct{ w, h, spine, under units.Length }{{163 * mm, 231 * mm, 23 * mm, 31 * mm}, {240 * mm, 118 * mm, 41 * mm, 17 * mm}} {
			cover := units.Size{W: s.ruler.Up(at.w), H: s.ruler.Up(at.h)}
			spec, spine, under := s.bare, s.ruler.Up(at.spine), s.ruler.Up(at.under)
			spec.Cover = cover
			s.deepen(&spec, spine, under)
			p, err := folio.Build(spec)
			if err != nil {
				continue
			}
			built++
			over, shuts := p.Overall(true)
			tight, _ := p.TightestOf(closing.BetweenCovers, true)
			if !s.layered {
				under = 0
			} else if u, ok := p.TightestOf(closing.UnderFlap, true); ok {
				layered++
				if u.Room().Length() != spec.Closing.UnderFlap-s.slacker {
					t.Errorf("%s: under a flap %v, reckoned %v", name, u.Room(), spec.Closing.UnderFlap-s.slacker)
				}
			}
			switch room := tight.Room().Length(); {
			case !shuts || room != s.stackFor(spine)+s.ease:
				t.Errorf("%s: a room of %v, reckoned %v and %v of ease", name, room, s.stackFor(spine), s.ease)
			case over.Thickness().Length() != s.thickOf(spine, under):
				t.Errorf("%s, %d: %v thick, reckoned %v", name, k, over.Thickness(), s.thickOf(spine, under))
			case s.follows && over.Size() != cover.Plus(s.closed.W, s.closed.H):
				t.Errorf("%s: shut %v, reckoned %v", name, over.Size(), cover.Plus(s.closed.W, s.closed.H))
			}
			beyond = append(beyond, over.Size().Plus(-cover.W, -cover.H))
			for i, panel := range s.panels(cover) {
				r, ok := p.Panel(s.leaves[i].role, false)
				if size := r.Grow(-s.clear).Size(); !ok || size != panel {
					t.Errorf("%s: on the %v %v, reckoned %v", name, s.leaves[i].role, size, panel)
				}
			}
			parts += edgeOfCovers(t, name, s, spec)
			edgeOfHeights(t, name, s, spec)
		}
		if len(beyond) == 2 && s.follows != (beyond[0] == beyond[1]) {
			t.Errorf("%s: shut %v beyond the covers, and it follows: %v", name, beyond, s.follows)
		}
		edgeOfSpines(t, name, s)
	}
	if built < 40 || layered < 8 || parts < 40 {
		t.Errorf("lopsided: %d built, %d with something over an outside, %d covers at their edge", built, layered, parts)
	}
}

// With a liner on another ruler than the boards, or one that may be cut board by
// board, what may be covered of a board is within what is reckoned, on every cover and
// with every spine; and either end is met.
func TestLooseIsBetween(t *testing.T) {
	const mm = units.Millimetre
	for _, c := range []struct {
		liner, placing, inset units.Length
		sheets                []stock.Sheet
		loose                 bool
		board                 units.Length // the step of the boards, a millimetre if it is 0
		gap                   units.Length // that of the gaps, which a soft spine grows by
	}{
		{liner: mm, gap: mm / 2},
		// On boards of which some end on the liner's ruler as they are, a fraction of a
		// micrometre off any of them.
		{liner: 3_000_003, inset: 3_000_003, board: 2_000_002, loose: true},
		{liner: 3 * mm, loose: true},
		{liner: 3 * mm, inset: 3*mm + 333, loose: true},
		{liner: 2_500_000, loose: true},
		{liner: mm / 2},
		{liner: mm},
		// In one piece the liner keeps clear of boards that lie elsewhere than planned.
		{liner: mm, placing: 600 * units.Micrometre, sheets: []stock.Sheet{{Size: units.Size{W: 130 * mm, H: units.Metre}, Grain: stock.GrainAlongHeight}}, loose: true},
		{liner: 7 * mm / 2, sheets: []stock.Sheet{{Size: units.Size{W: 130 * mm, H: units.Metre}, Grain: stock.GrainAlongHeight}}, loose: true},
	} {
		ruler, err := units.NewRuler(c.liner, units.MetricDecimal)
		if err != nil {
			t.Fatal(err)
		}
		step := cmp.Or(c.board, mm)
		main, err := units.NewRuler(step, units.MetricDecimal)
		if err != nil {
			t.Fatal(err)
		}
		for _, form := range []boards.Form{boards.SpineBoard, boards.SoftSpine, boards.DoubleSpineGate} {
			s := begin(t, folio.Spec{Form: form, Rulers: rule.Rulers{Main: main, Liner: ruler, Gap: units.Ruler(c.gap)}, Placing: c.placing, Lining: rule.Lining{Inset: c.inset}, Liner: stock.Stock{Sheets: c.sheets}})
			if s.loose() != (c.loose || c.gap > 0 && form == boards.SoftSpine) {
				t.Fatalf("%v, liner %v: it follows the cover: %v", form, c.liner, s.loose())
			}
			least := make([]units.Size, len(s.leaves)) // how much less than at the most
			for i := range least {
				least[i] = units.Size{W: units.Metre, H: units.Metre}
			}
			for k := range units.Length(48) {
				spec := s.full
				spec.Cover = units.Size{W: (80 + k%7) * step, H: (100 + k/4) * step}
				s.deepen(&spec, (9+k%5)*step+k%2*c.gap, 0)
				p, err := folio.Build(spec)
				if err != nil {
					t.Fatal(err)
				}
				most := s.panels(spec.Cover)
				for i, is := range s.panelsOf(p) {
					less := most[i].Plus(-is.W, -is.H)
					if more := s.leaves[i].more; min(less.W, less.H) < 0 || less.W > more.W || less.H > more.H {
						t.Errorf("%v, liner %v: a cover of %v leaves %v of the %v, reckoned %v or %v less", form, c.liner, spec.Cover, is, s.leaves[i].role, most[i], more)
					}
					least[i] = least[i].Min(less)
				}
			}
			for i, less := range least {
				if less.W > c.liner/2 && less.W > 2 || less.H > c.liner/2 || c.board > 0 && max(less.W, less.H) > 2 {
					t.Errorf("%v, liner %v: never less than %v below the most on the %v", form, c.liner, less, s.leaves[i].role)
				}
			}
		}
	}
}

// Where too many spines would have to be tried, no more is reckoned of a board than may be
// covered on any cover, be it lined in one piece, which keeps clear of boards that lie
// elsewhere than planned, or board by board.
func TestRoughIsTheLeast(t *testing.T) {
	const mm = units.Millimetre
	for _, liner := range []units.Length{mm, 3 * mm} {
		ruler, err := units.NewRuler(liner, units.MetricDecimal)
		if err != nil {
			t.Fatal(err)
		}
		for _, form := range []boards.Form{boards.ForeEdgeFlap, boards.TwoFlaps} {
			s := begin(t, folio.Spec{Form: form, Rulers: rule.Rulers{Main: units.WholeMillimetres, Liner: ruler}, Placing: 600 * units.Micrometre,
				Liner: stock.Stock{Sheets: []stock.Sheet{{Size: units.Size{W: 400 * mm, H: units.Metre}, Grain: stock.GrainAlongHeight}}}})
			if s.loose() || !s.rough {
				t.Fatalf("%v, liner %v: it follows the cover", form, liner)
			}
			styles := map[rule.LiningRule]bool{}
			for k := range units.Length(24) {
				spec := s.full
				spec.Cover = units.Size{W: (80 + 5*k) * mm, H: (100 + k%4) * mm}
				s.deepen(&spec, (9+k%5)*mm, 0)
				p, err := folio.Build(spec)
				if err != nil {
					t.Fatal(err)
				}
				styles[p.LiningStyle()] = true
				reckoned := s.panels(spec.Cover)
				for i, is := range s.panelsOf(p) {
					if !reckoned[i].FitsIn(is) {
						t.Errorf("%v, liner %v: a cover of %v leaves %v of the %v, reckoned %v", form, liner, spec.Cover, is, s.leaves[i].role, reckoned[i])
					}
				}
			}
			if len(styles) < 2 {
				t.Errorf("%v, liner %v: all are lined alike", form, liner)
			}
		}
	}
}

// edgeOfCovers builds the narrowest cover that is reckoned to take what is so wide on
// each board, and one that is a graduation narrower.
func edgeOfCovers(t *testing.T, name string, s *searcher, spec folio.Spec) int {
	n := 0
	for i := range s.leaves {
		for _, wide := range []units.Length{61_234_567, 90_000_001} {
			cover, ok := s.aroundOn(i, wide)
			if s.leaves[i].rule == boards.WidthFixed {
				most := s.panels(spec.Cover)[i].W - 2*s.margin
				_, all := s.aroundOn(i, most)
				if _, more := s.aroundOn(i, most+1); !all || more || ok != (wide <= most) {
					t.Errorf("%s: a board of its own width takes up to %v: %v, more: %v", name, most, all, more)
				}
				continue
			}
			takes := func(w units.Length) bool {
				spec.Cover.W = w
				p, err := folio.Build(spec)
				if err != nil {
					return false
				}
				r, _ := p.Panel(s.leaves[i].role, false)
				return r.Grow(-s.clear).Size().W-2*s.margin >= wide
			}
			if !ok || !takes(cover) || takes(cover-s.ruler.Step()) {
				t.Errorf("%s: on the %v a cover of %v is reckoned the narrowest for %v: it takes it: %v; a graduation less does: %v", name, s.leaves[i].role, cover, wide, takes(cover), takes(cover-s.ruler.Step()))
			}
			n++
		}
	}
	return n
}

// edgeOfHeights builds the lowest cover that is reckoned to take what is so high on any
// board, and one that is a graduation lower, on which one of the boards does not.
func edgeOfHeights(t *testing.T, name string, s *searcher, spec folio.Spec) {
	for _, high := range []units.Length{61_234_567, 90_000_001} {
		takes := func(h units.Length) bool {
			spec.Cover.H = h
			p, err := folio.Build(spec)
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			all := true
			for _, size := range s.panelsOf(p) {
				all = all && size.H-2*s.margin >= high
			}
			return all
		}
		if h := s.around(0, high).H; !takes(h) || takes(h-s.ruler.Step()) {
			t.Errorf("%s: a cover %v high is reckoned the lowest for %v: it takes it: %v; a graduation less does: %v", name, h, high, takes(h), takes(h-s.ruler.Step()))
		}
	}
}

// edgeOfSpines turns the spine for a stack and the one within a thickness round.
func edgeOfSpines(t *testing.T, name string, s *searcher) {
	step := s.ruler.Step()
	for _, stack := range []units.Length{5_000_003, 17_290_001, 40_000_000} {
		spine := s.spineFor(stack)
		if s.stackFor(spine) < stack || s.stackFor(spine-step) >= stack {
			t.Errorf("%s: a spine of %v for a stack of %v", name, spine, stack)
		}
		if low := s.spineWithin(s.thickOf(spine, 0)); low != spine {
			t.Errorf("%s: as thick as with a spine of %v are spines up to %v", name, spine, low)
		}
		if low := s.spineWithin(s.thickOf(spine, 0) - 1); low != spine-step {
			t.Errorf("%s: thinner than with a spine of %v are spines up to %v", name, spine, low)
		}
	}
	if under := s.underFor(7_000_001); under%step != 0 || under-s.slacker-s.ease < 7_000_001 || under-step-s.slacker-s.ease >= 7_000_001 {
		t.Errorf("%s: %v under a flap for 7.000001 mm, of which %v are lost", name, under, s.slacker)
	}
	if s.spineFor(-units.Metre) < units.Shortest {
		t.Errorf("%s: a spine of %v", name, s.spineFor(-units.Metre))
	}
}

// A shape of fittings is laid out with what is thick at the spine and at the tail:
// a thin one of 20 x 30 mm and a thick one of 40 x 10 mm, 6 mm between, by hand. Beside
// each other they take 66 x 30 mm, one over the other 40 x 46.
func TestPutByHand(t *testing.T) {
	const mm = units.Millimetre
	thin, thick := &shape{w: 20 * mm, h: 30 * mm, kind: 0}, &shape{w: 40 * mm, h: 10 * mm, kind: 1}
	beside := func(a, b *shape) *shape { return &shape{w: 66 * mm, h: 30 * mm, cut: upright, a: a, b: b} }
	over := func(a, b *shape) *shape { return &shape{w: 40 * mm, h: 46 * mm, cut: level, a: a, b: b} }
	opts := []option{{box: box{w: 20 * mm, h: 30 * mm, bulk: mm}}, {box: box{w: 40 * mm, h: 10 * mm, bulk: 2 * mm}}}
	pt := func(x, y units.Length) units.Point { return units.Point{X: x * mm, Y: y * mm} }
	spineRight, spineLeft, between := leaf{right: true}, leaf{left: true}, leaf{left: true, right: true}
	for _, c := range []struct {
		name        string
		leaf        leaf
		taste       Taste
		shape       *shape
		thin, thick units.Point
	}{
		{"the spine right", spineRight, Taste{}, beside(thick, thin), pt(0, 0), pt(26, 10)},
		{"the spine right, in order", spineRight, Taste{}, beside(thin, thick), pt(0, 0), pt(26, 10)},
		{"the spine left", spineLeft, Taste{}, beside(thin, thick), pt(46, 0), pt(0, 10)},
		{"the spine left, in order", spineLeft, Taste{}, beside(thick, thin), pt(46, 0), pt(0, 10)},
		{"between two", between, Taste{}, beside(thin, thick), pt(0, 0), pt(26, 10)},
		{"between two, the other way", between, Taste{}, beside(thick, thin), pt(46, 0), pt(0, 10)},
		{"anyhow", spineLeft, Taste{Anyhow: true}, beside(thin, thick), pt(0, 0), pt(26, 10)},
		{"at the tail", spineRight, Taste{}, over(thick, thin), pt(10, 0), pt(0, 36)},
		{"at the tail, in order", between, Taste{}, over(thin, thick), pt(10, 0), pt(0, 36)},
		{"over it anyhow", spineLeft, Taste{Anyhow: true}, over(thick, thin), pt(10, 16), pt(0, 0)},
		{"heads lined up", spineRight, Taste{Order: LinedUp}, beside(thick, thin), pt(0, 0), pt(26, 0)},
		{"lined up at the spine right", spineRight, Taste{Order: LinedUp}, over(thin, thick), pt(20, 0), pt(0, 36)},
		{"lined up between two", between, Taste{Order: LinedUp}, over(thin, thick), pt(0, 0), pt(0, 36)},
		{"lined up at the spine left", spineLeft, Taste{Order: LinedUp}, over(thin, thick), pt(0, 0), pt(0, 36)},
	} {
		s := &searcher{leaves: []leaf{c.leaf}, fitting: units.WholeMillimetres, request: Request{Taste: c.taste}}
		a := arranger{s: s, opts: opts}
		a.put(c.shape, pt(7, 11))
		if len(a.all) != 2 {
			t.Fatal(c.name, a.all)
		}
		for n, l := range a.all {
			want := c.thin
			if l.kind == 1 {
				want = c.thick
			}
			if want = want.Plus(pt(7, 11)); l.at != want || l.nth != n {
				t.Errorf("%s: %d at %v, want %v", c.name, l.kind, l.at, want)
			}
		}
	}
	// A middle that is on no graduation is the one above it, or left of it.
	s := &searcher{leaves: []leaf{spineRight}, fitting: units.WholeMillimetres}
	a := arranger{s: s, opts: opts}
	low := *thick
	low.h = 9 * mm
	a.put(beside(thin, &low), pt(0, 0))
	if i := slices.IndexFunc(a.all, func(l laid) bool { return l.kind == 1 }); a.all[i].at != pt(26, 10) {
		t.Errorf("the middle of 21 mm at %v", a.all[i].at)
	}
}

// Rows share the height of a board evenly, in whole graduations downwards: three of
// 20, 30 and 10 mm on 101 mm leave 41, of which a quarter is 10.25: they begin at 10,
// 20 + 20 and 50 + 30 mm. What is between them and the margins are so 10, 10, 10 and
// 11 mm: a margin or a distance of more is not left, nor a grip where one slips in.
func TestEvenByHand(t *testing.T) {
	const mm = units.Millimetre
	sizes := []units.Length{20 * mm, 30 * mm, 10 * mm}
	for _, c := range []struct {
		name                         string
		margin, between, grip, board units.Length
		mouth                        int
		ok                           bool
	}{
		{"just", 10, 10, 99, 101, -1, true},
		{"the margin", 11, 10, 0, 101, -1, false},
		{"between", 10, 11, 0, 101, -1, false},
		{"a grip that is there", 10, 9, 10, 101, 1, true},
		{"no grip above", 0, 0, 11, 101, 2, false},
		{"no grip below", 0, 0, 11, 101, 0, false},
		{"the last margin", 10, 10, 0, 100, -1, true},
		{"a grip above, where there is one of 11", 10, 10, 11, 102, 0, true},
		{"less than there is", 0, 0, 0, 59, -1, false},
	} {
		s := &searcher{fitting: units.WholeMillimetres, margin: c.margin * mm, between: c.between * mm, grip: c.grip * mm}
		var opts []option
		w := spreading{panel: units.Size{W: 500 * mm, H: c.board * mm}, tall: true}
		w.arranger = &arranger{s: s}
		for i := range sizes {
			opts = append(opts, option{box: box{w: 30 * mm, h: sizes[i], mouth: i == c.mouth}})
			w.all = append(w.all, laid{nth: i, kind: i})
			w.rows, w.first, w.large = append(w.rows, []*shape{{kind: i}}), append(w.first, i), append(w.large, i)
		}
		w.opts = opts
		at, ok := w.even(sizes, w.large, true)
		if ok != c.ok {
			t.Errorf("%s: %v at %v", c.name, ok, at)
		}
		want := []units.Length{10 * mm, 40 * mm, 80 * mm}
		if c.board == 102 { // 42 mm between them, of which half is 21
			want = []units.Length{10 * mm, 41 * mm, 81 * mm}
		}
		if ok && !slices.Equal(at, want) {
			t.Errorf("%s: at %v", c.name, at)
		}
	}
}

// A nanometre less than 104 mm leaves a hair less than 44: a quarter of it is under
// 11 mm, so the first begins at 10, and the others at 41 and 82.
func TestEvenByAHair(t *testing.T) {
	const mm = units.Millimetre
	sizes := []units.Length{20 * mm, 30 * mm, 10 * mm}
	w := spreading{arranger: &arranger{s: &searcher{fitting: units.WholeMillimetres}}, panel: units.Size{W: 104*mm - 1, H: 50 * mm}}
	for i := range sizes {
		w.opts = append(w.opts, option{box: box{w: sizes[i], h: mm}})
		w.all = append(w.all, laid{nth: i, kind: i})
		w.rows, w.first = append(w.rows, []*shape{{kind: i}}), append(w.first, i)
	}
	at, ok := w.even(sizes, []int{0, 1, 2}, false)
	if !ok || !slices.Equal(at, []units.Length{10 * mm, 41 * mm, 82 * mm}) {
		t.Errorf("%v, %v", at, ok)
	}
}

// What is 23 mm smaller than the largest of its row begins 11 mm into it where it
// lies in the middle, on the ruler, and else at the end it is lined up with.
func TestStartByHand(t *testing.T) {
	const mm = units.Millimetre
	w := spreading{arranger: &arranger{s: &searcher{fitting: units.WholeMillimetres}}}
	if at := w.s.middle(22*mm - 1); at != 10*mm { // half is less than 11 mm
		t.Errorf("what leaves a hair less than 22 mm begins at %v", at)
	}
	for _, c := range []struct {
		align   place.Align
		largest bool
		want    units.Length
	}{
		{place.Middle, false, 11 * mm}, {place.Head, false, 0}, {place.Left, false, 0}, {place.Right, false, 23 * mm}, {place.Right, true, 0}, {place.Middle, true, 0},
	} {
		if got := w.start(c.align, 23*mm, c.largest); got != c.want {
			t.Errorf("%v, %v: %v, want %v", c.align, c.largest, got, c.want)
		}
	}
	for _, c := range []struct {
		order   Order
		tall    bool
		toSpine int
		want    place.Align
	}{
		{Centred, true, 1, place.Middle}, {Centred, false, -1, place.Middle}, {LinedUp, true, 1, place.Head},
		{LinedUp, false, 1, place.Right}, {LinedUp, false, -1, place.Left}, {LinedUp, false, 0, place.Left},
	} {
		if got := (&Taste{Order: c.order}).inRow(c.tall, c.toSpine); got != c.want {
			t.Errorf("%v, %v, %d: %v, want %v", c.order, c.tall, c.toSpine, got, c.want)
		}
	}
}

// One way to hold a thing is as good as another in all that counts where it is no
// wider, no higher, no more fittings, no thicker, needs no grip that the other does
// not, and where sheets count takes no more card.
func TestBeatsByHand(t *testing.T) {
	const mm = units.Millimetre
	base := option{number: 2, box: box{w: 50 * mm, h: 40 * mm, height: 3 * mm}, cards: units.Size{W: 50 * mm, H: 40 * mm}.Area()}
	with := func(change func(*option)) option {
		o := base
		change(&o)
		return o
	}
	for _, c := range []struct {
		name         string
		other        option
		grip         units.Length
		beats        bool // the base is as good as the other
		sheets, back bool // likewise where sheets count, and the other as the base
	}{
		{"the same", base, 6 * mm, true, true, true},
		{"wider", with(func(o *option) { o.box.w++ }), 6 * mm, true, true, false},
		{"higher", with(func(o *option) { o.box.h++ }), 6 * mm, true, true, false},
		{"more", with(func(o *option) { o.number++ }), 6 * mm, true, true, false},
		{"thicker", with(func(o *option) { o.box.height++ }), 6 * mm, true, true, false},
		{"gripped", with(func(o *option) { o.box.mouth = true }), 6*mm + 1, true, true, false},
		{"gripped in what is between", with(func(o *option) { o.box.mouth = true }), 6 * mm, true, true, true},
		{"less card", with(func(o *option) { o.cards = units.Size{W: 50 * mm, H: 40*mm - 1}.Area() }), 6 * mm, true, false, true},
		{"less card by fewer", with(func(o *option) { o.number = 1 }), 6 * mm, false, false, true},
	} {
		s := &searcher{between: 6 * mm, grip: c.grip}
		if got := s.beats(&base, &c.other, false); got != c.beats {
			t.Errorf("%s: %v", c.name, got)
		}
		if got := s.beats(&base, &c.other, true); got != c.sheets {
			t.Errorf("%s, sheets: %v", c.name, got)
		}
		if got := s.beats(&c.other, &base, false); got != c.back {
			t.Errorf("%s, the other way: %v", c.name, got)
		}
	}
}

// A folio whose stack is what its spine takes is no thicker than it may be: it does
// not count among those that seem so. A hair more does, whether it is what the search
// reckons of all that may lie on each other or of what does in a case that is built.
func TestUnsureAtItsEdge(t *testing.T) {
	for over, want := range map[units.Length]int{0: 0, 1: 1} {
		for _, built := range [...]bool{false, true} {
			q, opts, one := searched(t, Smallest)
			one.least = 0
			if built { // three mats of which two lie on each other
				q.narrow = q.spineFor(q.leastStack())
				q.comesOut(one.cover)
				one.most = units.Longest
				q.spine = q.stack(opts, &one) + q.slack + q.ease - over
				if twice := 2 * q.leastStack(); q.stack(opts, &one) != twice {
					t.Errorf("a stack of %v, and two mats are %v", q.stack(opts, &one), twice)
				}
			} else {
				q.bare, one.most = nil, q.stackFor(q.spine)+over
			}
			if q.tryCovers(opts, []candidate{one}); q.unsure != want {
				t.Errorf("%v over it: %d seem too thick", over, q.unsure)
			}
			if q.best, q.first = nil, nil; q.layCovers(opts, []candidate{one}) || (q.best != nil) != (over == 0) {
				t.Errorf("%v over it: laid out %v", over, q.best != nil)
			}
		}
	}
}

// What is as thick by itself as a folio may be inside is tried, what is a hair thicker
// is not, and that is said.
func TestThickByItself(t *testing.T) {
	for over, tried := range map[units.Length]bool{0: true, 1: false} {
		q, opts, one := searched(t, Smallest)
		one.least = q.stackFor(q.spine) + over
		if q.tryCovers(opts, []candidate{one}); (q.best != nil) != tried || slices.ContainsFunc(q.why, func(r Reason) bool { return r.Cause == OverThick }) == tried {
			t.Errorf("%v over it: found %v, %+v", over, q.best != nil, q.why)
		}
	}
}

// A case in which nothing lies has its turn-ins between its covers: of less ease than is
// asked for beside them nothing warns, and it is none all the same.
func TestAnEmptyCaseHasItsEase(t *testing.T) {
	q, _, one := searched(t, Smallest)
	spec := q.searcher.bare
	spec.Cover = one.cover
	empty, fine, tight := &found{cover: one.cover}, 0, 0
	for empty.spine = q.spineFor(q.leastStack()); empty.spine > 0; empty.spine -= q.ruler.Step() {
		built := spec
		q.deepen(&built, empty.spine, 0)
		p, err := folio.Build(built)
		if err != nil {
			continue
		}
		_, warned := unwise(p)
		shut, _ := p.TightestOf(closing.BetweenCovers, true)
		why, _ := q.check(empty, spec)
		switch left := shut.Left().Length(); {
		case warned:
		case left >= q.ease:
			if fine++; why.Detail == "it does not close with its ease" {
				t.Errorf("a spine of %v: %+v with %v left", empty.spine, why, left)
			}
		default:
			if tight++; why != (Reason{Cause: CannotBe, Thing: -1, Detail: "it does not close with its ease"}) {
				t.Errorf("a spine of %v: %+v with %v left", empty.spine, why, left)
			}
		}
	}
	if fine == 0 || tight == 0 {
		t.Errorf("%d with their ease, %d without", fine, tight)
	}
}

// A cover as large as the best is built where it may be as thin and its ways are plainer,
// under a flap too.
func TestAsThinAndPlainer(t *testing.T) {
	const mm = units.Millimetre
	r := Request{Case: folio.Spec{Form: boards.ForeEdgeFlap, Rulers: rule.Rulers{Main: units.WholeMillimetres}}}
	r.Things = []Thing{{Content: pocket.Content{Name: "print", Size: units.Size{W: 90 * mm, H: 130 * mm}, Thickness: mm}, Sticks: true, Upright: true}}
	q, opts, one := searchedFor(t, Smallest, r)
	f, why, _ := q.verify(opts, &one, q.most)
	if f == nil || !q.layered {
		t.Fatal(why)
	}
	one.least = q.stackFor(f.spine)
	for turned, taken := range map[bool]bool{true: true, false: false} {
		best := *f
		best.opts = slices.Clone(opts)
		best.opts[0].turned = turned
		if q.best = &best; q.thickOf(f.spine, 0) != best.thick {
			t.Errorf("it is %v thick, reckoned %v", best.thick, q.thickOf(f.spine, 0))
		}
		if q.tryCovers(opts, []candidate{one}); (q.best != &best) != taken {
			t.Errorf("beside one that is turned, %v: taken %v", turned, q.best != &best)
		}
	}
	// What is thicker by itself than may be is told as thick as such a case is built.
	q.best, q.most, q.spine = nil, f.thick-1, f.spine-q.ruler.Step()
	q.tryCovers(opts, []candidate{one})
	spec := q.searcher.bare
	spec.Cover = one.cover
	q.deepen(&spec, f.spine, 0)
	p, err := folio.Build(spec)
	if err != nil {
		t.Fatal(err)
	}
	over, _ := p.Overall(true)
	if len(q.why) != 1 || q.why[0].Cause != OverThick || q.why[0].Thick != over.Thickness().Length() || !q.why[0].AtLeast {
		t.Errorf("%+v; such a case is %v thick", q.why, over.Thickness())
	}
}

// Where the sheets do not give a folio with the narrowest spine, no layout of such a
// cover does; with a wider one another may. A case that comes out of no sheet tells
// that too.
func TestSureOfSheets(t *testing.T) {
	q, opts, one := searched(t, Smallest)
	q.full.Covering.Sheets = []stock.Sheet{{Size: one.cover}} // which a wrap goes round
	one.least = one.most
	if f, why, sure := q.verify(opts, &one, q.most); f != nil || why.Cause != CannotBe || !sure {
		t.Errorf("with the narrowest spine: %v, %+v, sure %v", f, why, sure)
	}
	one.least = 0
	if f, why, sure := q.verify(opts, &one, q.most); f != nil || why.Cause != CannotBe || sure {
		t.Errorf("with a wider spine: %v, %+v, sure %v", f, why, sure)
	}
	// Where what follows cover and spine is tried spine by spine, that is so of the first.
	loose, opts, one := searched(t, Smallest)
	k := slices.IndexFunc(loose.full.Stocks, func(k stock.Stock) bool { return k.Name == plainCard })
	loose.full.Stocks[k].Sheets = []stock.Sheet{{Size: units.Size{W: units.Millimetre, H: units.Millimetre}}}
	loose.phases = 1
	if f, why, sure := loose.verifyLoose(opts, &one, loose.most); f != nil || why.Cause != CannotBe || !sure {
		t.Errorf("spine by spine: %v, %+v, sure %v", f, why, sure)
	}
	q.narrow = q.spineFor(one.least)
	if why, ok := q.comesOut(one.cover); ok || why.Cause != CannotBe || q.smallEnough(one.cover) || !q.smallEnough(one.cover.Plus(-1, 0)) {
		t.Errorf("the case by itself: %v, %+v, too large %v", ok, why, q.tooLarge)
	}
}

// What is laid out lies where it was put when it is built, whatever the rulers of the
// case and of what lies there.
func TestFurnishedAsArranged(t *testing.T) {
	const mm = units.Millimetre
	n := 0
	for _, c := range cases() {
		s := begin(t, c)
		if s == nil {
			continue
		}
		for _, order := range [...]Order{Centred, LinedUp} {
			s.request.Taste.Order, s.margin, s.between = order, 0, 0
			// Two over one, and beside them a fourth.
			opts := []option{{way: Mat}, {way: Mat}, {way: Mat}, {way: Mat}}
			var cells []*shape
			s.request.Things = nil
			for i, size := range [...]units.Size{{W: 11_300_007, H: 9 * mm}, {W: 8 * mm, H: 12_100_001}, {W: 17 * mm, H: 7 * mm}, {W: 9_700_003, H: 31 * mm}} {
				s.request.Things = append(s.request.Things, Thing{Content: pocket.Content{Name: string(rune('a' + i)), Size: size}, Sticks: true})
				o := &opts[i]
				o.thing, o.number, o.each = i, 1, 1
				if _, ok := s.try(o); !ok {
					t.Fatal("no mat")
				}
				cells = append(cells, &shape{w: o.box.w, h: o.box.h, kind: i})
			}
			beside := func(a, b *shape) *shape { return &shape{w: a.w + b.w, h: max(a.h, b.h), cut: upright, a: a, b: b} }
			over := func(a, b *shape) *shape { return &shape{w: max(a.w, b.w), h: a.h + b.h, cut: level, a: a, b: b} }
			parts := []*shape{beside(over(beside(cells[0], cells[1]), cells[2]), cells[3]), over(beside(cells[0], cells[1]), cells[2]), over(over(cells[3], cells[0]), beside(cells[2], cells[1]))}
			for k := range len(s.leaves) * len(parts) {
				leaf, part := k/len(parts), parts[k%len(parts)]
				cover := units.Size{W: s.ruler.Up(211 * mm), H: s.ruler.Up(127 * mm)}
				parts := make([]*shape, len(s.leaves))
				parts[leaf] = part
				spec, panels := s.bare, s.panels(cover)
				spec.Cover = cover
				s.deepen(&spec, s.ample(), s.roomy)
				all := s.arrange(opts, &candidate{cover: cover, parts: parts}, panels)
				f := &found{opts: opts}
				s.furnish(f, &spec, all, panels)
				p, err := folio.Build(spec)
				if err != nil {
					continue // the board is too narrow for them
				}
				if !s.loose() {
					stayTogether(t, s, spec, p, k%3)
				}
				for k, fitted := range slices.Collect(p.Fittings())[len(s.bare.Fittings):] {
					panel, _ := p.Panel(s.leaves[all[k].leaf].role, false)
					if got, want := fitted.Rect().Min, panel.Grow(-s.clear).Min.Plus(all[k].at); got != want || fitted.Panel() != s.leaves[all[k].leaf].role || f.held[k].Panel != fitted.Panel() {
						t.Errorf("%v, %v: %s at %v on the %v, put at %v", (&Form{Form: c.Form, Row: c.Row}).String(), order, fitted.Label(), got, fitted.Panel(), want)
					}
				}
				n++
			}
		}
	}
	if n < 100 {
		t.Errorf("only %d boards", n)
	}
}

// stayTogether builds the same on a larger cover, for each of the parts that
// [TestFurnishedAsArranged] lays out: what is parted in rows keeps together row by row,
// and what is not, all of it.
func stayTogether(t *testing.T, s *searcher, spec folio.Spec, p *folio.Plan, part int) {
	t.Helper()
	at := func(p *folio.Plan) map[string]units.Point {
		out := map[string]units.Point{}
		for f := range p.Fittings() {
			if !f.Outside() {
				panel, _ := p.Panel(f.Panel(), false)
				out[f.Label()[:len("mat for the a")]] = f.Rect().Min.Plus(units.Point{X: -panel.Min.X, Y: -panel.Min.Y})
			}
		}
		return out
	}
	before := at(p)
	spec.Cover = spec.Cover.Plus(40*s.ruler.Step(), 40*s.ruler.Step())
	larger, err := folio.Build(spec)
	if err != nil {
		t.Error(err)
		return
	}
	moved := map[string]units.Point{}
	for name, to := range at(larger) {
		moved[name] = to.Plus(units.Point{X: -before[name].X, Y: -before[name].Y})
	}
	for _, pair := range [...][][2]string{{{"a", "b"}, {"a", "c"}, {"a", "d"}}, {{"a", "b"}}, {{"b", "c"}}}[part] {
		one, other := moved["mat for the "+pair[0]], moved["mat for the "+pair[1]]
		if apart := s.fitting.Step(); (one.Y-other.Y).Abs() > apart || part == 0 && (one.X-other.X).Abs() > apart {
			t.Errorf("%v, part %d: on a larger cover %v by %v and %v", s.full.Form, part, pair, one, other)
		}
	}
}

// A search is over when nothing of its budget is left, and not before. Then the first
// of some covers is tried all the same, so that there is an answer, and no other: that
// the first is beyond a limit proves nothing of those.
func TestOverAtItsEdge(t *testing.T) {
	for left, over := range map[int64]bool{-1: true, 0: true, 1: false} {
		if m := (&meter{until: context.Background(), left: left}); m.over() != over {
			t.Errorf("%d steps left: over %v", left, !over)
		}
	}
	for _, c := range []struct {
		name            string
		first           bool // the first of the covers does, not the second
		left            int64
		found, complete bool
	}{
		{"the second", false, math.MaxInt64, true, true}, {"the second, no budget", false, 0, false, false},
		{"the first", true, math.MaxInt64, true, true}, {"the first, no budget", true, 0, true, false},
	} {
		q, opts, one := searched(t, Smallest)
		wide := one
		wide.cover.W += q.ruler.Step()
		q.request.Limits.Cover.W = one.cover.W
		covers := []candidate{wide, one}
		if c.first {
			covers = []candidate{one, one} // of which the other may be no better
		}
		q.complete, q.left = true, c.left
		if q.tryCovers(opts, covers); (q.best != nil) != c.found || !c.first && q.complete != c.complete {
			t.Errorf("%s: found %v, complete %v", c.name, q.best != nil, q.complete)
		}
		q.best, q.least, q.left = nil, 0, c.left
		if q.layCovers(opts, covers); (q.best != nil) != c.found {
			t.Errorf("%s: laid out %v", c.name, q.best != nil)
		}
		q.best, q.left = nil, min(c.left, 0)
		done := q.done
		if f, _, sure := q.verifyLoose(opts, &one, q.most); f != nil || sure || q.done != done {
			t.Errorf("%d steps are taken where none is left: %v, sure %v", q.done-done, f, sure)
		}
	}
}

// What no folio can do without, by hand, with covers of 100 x 150 mm: two boards of
// them are 30 000 mm², of sheets of 20 000 two, and so much covering likewise, unless a
// strip of another covers a part of it; of the liner one. Of the card the first thing
// takes 200 mm² at the least, the second 2500: three sheets of 900, and no less. Of what
// is at hand anyway none is bought, and nobody knows what else takes.
func TestLeastSheetsByHand(t *testing.T) {
	const mm = units.Millimetre
	size := func(w, h units.Length) units.Size { return units.Size{W: w * mm, H: h * mm} }
	kind := func(w, h units.Length) layout.SheetKind {
		return layout.SheetKind{Size: size(w, h), Count: layout.Unlimited}
	}
	scrap := kind(400, 400)
	scrap.Offcut = true
	for _, c := range []struct {
		name    string
		quarter rule.QuarterRule
		card    []layout.SheetKind
		want    int
	}{
		{"all", rule.QuarterNever, []layout.SheetKind{kind(30, 30)}, 2 + 2 + 1 + 3},
		{"a strip at the spine", rule.QuarterWhenNeeded, []layout.SheetKind{kind(30, 30)}, 2 + 1 + 1 + 3},
		{"a hair less of card", rule.QuarterNever, []layout.SheetKind{{Size: units.Size{W: 30 * mm, H: 30*mm - 1}, Count: 9}}, 2 + 2 + 1 + 4},
		{"the larger of two cards", rule.QuarterNever, []layout.SheetKind{kind(10, 10), kind(50, 27), kind(20, 10)}, 2 + 2 + 1 + 2},
		{"card at hand", rule.QuarterNever, []layout.SheetKind{kind(30, 30), scrap}, 2 + 2 + 1},
	} {
		spec := folio.Spec{Rulers: rule.Rulers{Main: units.WholeMillimetres}, Quarter: rule.Quarter{Rule: c.quarter},
			Stocks:   []stock.Stock{{Name: "velvet", Caliper: mm}},
			Fittings: []folio.Fitting{{Name: "patch", Panel: boards.LeftCover, Outside: true, Stock: "velvet", Kind: folio.Mat{Size: size(20, 20)}}},
		}
		q := begin(t, spec).quest(FewestSheets)
		filled := spec.WithDefaults()
		for name, sheets := range map[string][]layout.SheetKind{filled.Board.Name: {kind(200, 100)}, filled.Covering.Name: {kind(100, 200)}, filled.Liner.Name: {kind(10, 10)}, "velvet": {kind(10, 10)}, plainCard: c.card} {
			q.request.Limits.Materials = append(q.request.Limits.Materials, layout.Material{Name: name, Sheets: sheets})
		}
		q.smallest = size(100, 150)
		q.opts = [][]option{{{number: 2, cards: size(10, 10).Area()}, {number: 1, cards: size(30, 10).Area()}}, {{number: 1, cards: size(100, 50).Area()}, {number: 1, cards: size(50, 50).Area()}}}
		made := q.full
		made.Cover, made.Spine.Width = size(120, 170), 20*mm
		made.Fittings = append(made.Fittings, folio.Fitting{Name: "mat", Panel: boards.LeftCover, Stock: plainCard, Kind: folio.Mat{Size: size(40, 40)}})
		p, err := folio.Build(made)
		if err != nil {
			t.Fatal(err)
		}
		if got := q.leastSheets(p); got != c.want {
			t.Errorf("%s: %d sheets, want %d", c.name, got, c.want)
		}
	}
}

// A cover beyond a limit is not laid out, nor built, and that is said.
func TestOverALimitIsNotLaidOut(t *testing.T) {
	for _, lay := range []func(*quest, []option, candidate){
		func(q *quest, opts []option, c candidate) { q.layCovers(opts, []candidate{c}) },
		func(q *quest, opts []option, c candidate) { q.tryCovers(opts, []candidate{c}) },
	} {
		q, opts, one := searched(t, FewestSheets)
		limit := units.Size{W: one.cover.W - 1, H: one.cover.H}
		q.request.Limits.Cover = limit
		before := q.done
		lay(q, opts, one)
		if want := (Reason{Cause: OverCover, Thing: -1, Size: one.cover, Than: limit}); q.best != nil || !slices.Equal(q.why, []Reason{want}) || q.done != before {
			t.Errorf("%v, %+v, %d steps", q.best, q.why, q.done-before)
		}
	}
}

// The boards that lie, and which way the back of the folio is from each: of two covers
// the left one has it to the right, a board in between on both sides.
func TestLeavesByHand(t *testing.T) {
	for form, want := range map[boards.Form][]int{
		boards.SpineBoard: {1, -1}, boards.SoftSpine: {1, -1}, boards.ForeEdgeFlap: {1, 0, -1}, boards.ThreePanels: {1, 0, -1}, boards.FourPanelZ: {1, 0, 0, -1},
	} {
		var got []int
		for _, l := range leavesOf(folio.Spec{Form: form}.WithDefaults()) {
			got = append(got, l.toSpine())
		}
		if !slices.Equal(got, want) {
			t.Errorf("%v: %v, want %v", form, got, want)
		}
	}
}

// What is gripped has a quarter inch or 6 mm, upwards on the ruler of fittings, and of
// the widest boards that on the table comes last, which is where one begins.
func TestGripAndTable(t *testing.T) {
	five, err := units.NewRuler(5*units.Millimetre, units.MetricDecimal) // to which 6 mm are nearer than to 10
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range append(cases(), folio.Spec{Rulers: rule.Rulers{Main: units.WholeMillimetres, Fitting: five}}) {
		s := begin(t, c)
		if s == nil {
			continue
		}
		usual, step := 6*units.Millimetre, s.fitting.Step()
		if s.notation.String() != units.MetricDecimal.String() {
			usual = units.Inch / 4
		}
		if s.grip%step != 0 || s.grip < usual || s.grip >= usual+step {
			t.Errorf("%v: a grip of %v", c.Form, s.grip)
		}
		on := s.widest()
		for _, i := range on[:len(on)-1] {
			if i == s.main || s.leaves[i].board(s.ample(), s.ruler) != s.leaves[on[len(on)-1]].board(s.ample(), s.ruler) {
				t.Errorf("%v: %v are the widest, %d is on the table", c.Form, on, s.main)
			}
		}
	}
}

// Twenty tickets are laid in plain rows of up to sixteen, so that a search need not try
// every number.
func TestUpToSixteenInARow(t *testing.T) {
	const mm = units.Millimetre
	s := begin(t, folio.Spec{Rulers: rule.Rulers{Main: units.WholeMillimetres}})
	most := 0
	for _, c := range s.rows([]box{{w: 10 * mm, h: 20 * mm, count: 20}}) {
		for _, part := range c.parts {
			across := 1
			for row := part; row != nil && row.cut != noCut; row = row.a {
				if row.cut == upright {
					across++
				}
			}
			most = max(most, across)
		}
	}
	if most != 16 {
		t.Errorf("up to %d in a row", most)
	}
}

// How copies may be kept, by what is wished: one by itself in any fitting but those for
// several; of two all in one pocket, or each in one of its own, as they are to be kept.
func TestUnkeptByHand(t *testing.T) {
	for _, c := range []struct {
		keeping Keeping
		way     Holder
		pooled  bool
		n       int
		cause   Cause
		ok      bool
	}{
		{Together, Slip, false, 1, NoCause, true}, {Apart, Slip, false, 1, NoCause, true}, {EitherKeeping, Mat, false, 1, NoCause, true},
		{Together, Slip, true, 1, NoCause, false}, {EitherKeeping, GussetRun, true, 1, OneIsNoRow, false}, {EitherKeeping, Accordion, false, 1, OneIsNoRow, false},
		{Together, Slip, false, 2, WouldPart, false}, {Together, Slip, true, 2, NoCause, true}, {Apart, Slip, true, 2, WouldPool, false}, {Apart, Slip, false, 2, NoCause, true},
		{Apart, GussetRun, true, 2, NoCause, true}, {EitherKeeping, GussetRun, false, 2, NoCause, false}, {Together, Accordion, true, 2, NoCause, true},
		{EitherKeeping, Frame, true, 2, NoCause, false}, {Together, Frame, false, 2, WouldPart, false}, {EitherKeeping, FoldedFlap, true, 2, NoCause, true},
	} {
		if cause, ok := unkept(&Thing{Keeping: c.keeping}, c.way, c.pooled, c.n); cause != c.cause || ok != c.ok {
			t.Errorf("%+v: %v, %v", c, cause, ok)
		}
	}
}

// Of two folios of as many sheets the smaller is kept, and of two that are as large the
// first.
func TestFewerSheetsByHand(t *testing.T) {
	const mm = units.Millimetre
	q, opts, one := searched(t, FewestSheets)
	f, why, _ := q.verify(opts, &one, q.most)
	if f == nil {
		t.Fatal(why)
	}
	with := func(sheets int, w units.Length) *found {
		o := *f
		o.sheets, o.cover = sheets, units.Size{W: w, H: 100 * mm}
		return &o
	}
	first := with(3, 80*mm)
	for _, c := range []struct {
		next  *found
		taken bool
	}{{with(4, 70*mm), false}, {with(3, 90*mm), false}, {with(3, 80*mm), false}, {with(3, 79*mm), true}, {with(2, 90*mm), true}} {
		q.best = first
		if q.takeFewer(c.next); (q.best == c.next) != c.taken || q.best != first && !c.taken {
			t.Errorf("%d sheets of %v: taken %v", c.next.sheets, c.next.cover, q.best == c.next)
		}
	}
}

// That no folio of a form is better than one of another form is settled where none has
// fewer sheets, or is thinner, than that one has; and where its own search is complete.
func TestSettledByHand(t *testing.T) {
	q, opts, one := searched(t, FewestSheets)
	f, why, _ := q.verify(opts, &one, q.most)
	if f == nil {
		t.Fatal(why)
	}
	f.sheets = 3
	than := &Proposal{found: f}
	thick := thicknessOf(than)
	for _, c := range []struct {
		aim  Aim
		r    result
		than *Proposal
		want bool
	}{
		{FewestSheets, result{proposal: than, least: 3}, than, true}, {FewestSheets, result{proposal: than, least: 2}, than, false}, {FewestSheets, result{proposal: than, least: 2, complete: true}, than, true},
		{Thinnest, result{proposal: than, low: thick}, than, true}, {Thinnest, result{proposal: than, low: thick - 1}, than, false}, {Smallest, result{proposal: than, least: 9, low: 2 * thick}, than, false},
		{FewestSheets, result{least: 9}, than, false}, {Thinnest, result{proposal: than, low: thick}, nil, false}, {Smallest, result{complete: true}, nil, true},
	} {
		if got := c.r.settled(c.aim, c.than); got != c.want {
			t.Errorf("%v, %+v: %v", c.aim, c.r, got)
		}
	}
}

// Of two ways that are as good as each other the first is tried.
func TestTheFirstOfEqualsIsTried(t *testing.T) {
	const mm = units.Millimetre
	one := option{number: 1, box: box{w: 50 * mm, h: 40 * mm}}
	other, better := one, one
	other.way, better.way, better.box.w = Frame, Mat, 49*mm
	s := &searcher{request: Request{Things: make([]Thing, 1)}, all: [][]option{{one, other}}}
	if list := s.usable(Smallest, 0, units.Metre); len(list) != 1 || list[0].way != Corners {
		t.Errorf("of two: %v", list)
	}
	s.all[0] = append(s.all[0], better)
	if list := s.usable(Smallest, 0, units.Metre); len(list) != 1 || list[0].way != Mat {
		t.Errorf("of three: %v", list)
	}
}

// Plain rows go on their boards with the margins round them, on rulers that none of
// their measures is on and where the liner takes more of some covers too; what is wider
// than boards of their own width goes nowhere.
func TestRowsGoOnTheirBoards(t *testing.T) {
	const mm = units.Millimetre
	laid, wide := 0, 0
	for _, c := range cases() {
		s := begin(t, c)
		if s == nil {
			continue
		}
		for _, side := range []units.Length{29 * mm, 37_300_001, 43_900_007, 260 * mm} {
			for _, one := range s.rows([]box{{w: side, h: side + 7*mm, count: 3}}) {
				for i, panel := range s.panels(one.cover) {
					part, more := one.parts[i], s.leaves[i].more
					if part == nil {
						continue
					}
					if laid++; part.w+2*s.margin > panel.W-more.W || part.h+2*s.margin > panel.H-more.H {
						t.Errorf("%v, ruler %v: %v x %v on %v of a cover of %v, of which %v may be covered", c.Form, s.ruler, part.w, part.h, s.leaves[i].role, one.cover, panel)
					}
				}
				if side == 260*mm {
					wide++
				}
			}
		}
	}
	if laid < 100 || wide < 10 {
		t.Errorf("only %d laid, %d of them wide", laid, wide)
	}
}

// The thinnest is no thicker than the smallest: where the search finds none that is as
// thin, the smallest is it. Of two prints of 5 mm that face each other none is.
func TestThinnestIsNoThickerThanTheSmallest(t *testing.T) {
	const mm = units.Millimetre
	r := Request{Case: folio.Spec{Rulers: rule.Rulers{Main: units.WholeMillimetres}}, Limits: Limits{Cover: units.Size{W: 120 * mm, H: 170 * mm}}}
	for range 2 {
		r.Things = append(r.Things, Thing{Content: pocket.Content{Name: "print", Size: units.Size{W: 90 * mm, H: 130 * mm}, Thickness: 5 * mm}, Sticks: true, Upright: true})
	}
	thinnest := func(first *found) *quest {
		q, _, _ := searchedFor(t, Thinnest, r)
		q.narrow, q.first = q.spineFor(q.leastStack()), first
		q.thinnest()
		return q
	}
	q := thinnest(nil)
	if q.best == nil || q.best.thick < 10*mm {
		t.Fatalf("%+v", q.best)
	}
	for less, taken := range map[units.Length]bool{0: false, 1: true, 2 * mm: true} {
		smallest := *q.best
		smallest.thick -= less
		if got := thinnest(&smallest).best; (got == &smallest) != taken || got.thick > smallest.thick {
			t.Errorf("%v beside a smallest of %v: %v", q.best.thick, smallest.thick, got.thick)
		}
	}
}

// When the work that may be done is done, the first choice is laid out on sheets, and of
// others none; and of a choice the first cover is built and no other.
func TestTheFirstIsTriedWhateverTheBudget(t *testing.T) {
	const mm = units.Millimetre
	r := Request{Limits: Limits{Materials: []layout.Material{{Name: plainCard, Sheets: []layout.SheetKind{{Size: units.Size{W: 125 * mm, H: 185 * mm}, Count: layout.Unlimited}}}}}}
	for range 14 { // so many that they are laid in plain rows, without a search
		r.Things = append(r.Things, Thing{Content: pocket.Content{Name: "print", Size: units.Size{W: 90 * mm, H: 130 * mm}}, Sticks: true, Upright: true})
	}
	q, _, many := searchedFor(t, FewestSheets, r)
	q.meter = &meter{until: context.Background()}
	if q.fewest(); q.best == nil || q.best.cover != many.cover {
		t.Errorf("of choices: %+v", q.best)
	}
	_, opts, one := searched(t, Smallest)
	work := func(n int) int64 {
		q, _, _ := searched(t, Smallest)
		q.most, one.least, one.most = units.Nanometre, 0, 0 // than which none is thinner
		q.meter = &meter{until: context.Background()}
		q.complete = true
		if q.tryCovers(opts, slices.Repeat([]candidate{one}, n)); q.best != nil || q.complete {
			t.Errorf("of %d covers %v, complete %v", n, q.best, q.complete)
		}
		return q.done
	}
	if first, more := work(1), work(3); first != more {
		t.Errorf("%d steps for one cover, %d for three", first, more)
	}
}

// With rulers that have nothing in common a liner is cut to everything from nothing to
// nearly a step of its ruler less than its board: what is reckoned is never more than there
// is, in width or height, and on some cover all that there is.
func TestRoughOnOddRulers(t *testing.T) {
	const step, cut = 100_003, 10_007 // nm
	main, err := units.NewRuler(step, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	liner, err := units.NewRuler(cut, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	s := begin(t, folio.Spec{Form: boards.SpineBoard, Rulers: rule.Rulers{Main: main, Liner: liner}})
	if s == nil || !s.rough {
		t.Fatal("it follows the cover")
	}
	least, most := units.Size{W: cut, H: cut}, units.Size{}
	for k := range units.Length(cut) {
		spec := s.full
		spec.Cover = units.Size{W: (800 + k) * step, H: (1000 + k) * step}
		s.deepen(&spec, 90*step, 0)
		p, err := folio.Build(spec)
		if err != nil {
			t.Fatal(err)
		}
		reckoned := s.panels(spec.Cover)
		for i, is := range s.panelsOf(p) {
			spare := is.Plus(-reckoned[i].W, -reckoned[i].H)
			least, most = least.Min(spare), most.Max(spare)
		}
	}
	if (least != units.Size{}) || most != (units.Size{W: cut - 1, H: cut - 1}) {
		t.Errorf("from %v to %v less than there is", least, most)
	}
}

// Of folios the one with the smaller cover is better, of covers of one area that of less
// work, then the narrower, then the thinner, then that in which less is turned; each
// decides whatever all that comes after it says.
func TestBetterByHand(t *testing.T) {
	const mm = units.Millimetre
	way := func(w Holder, n int, turned bool) option { return option{way: w, number: n, turned: turned} }
	type one struct {
		cover units.Size
		thick units.Length
		opts  []option
	}
	size := func(w, h units.Length) units.Size { return units.Size{W: w * mm, H: h * mm} }
	// From the best to the worst.
	list := []one{
		{units.Size{W: 200 * mm, H: 100*mm - 1}, 9 * mm, []option{way(FoldedFlap, 9, true), way(Frame, 1, true)}},
		{size(200, 100), 9 * mm, []option{way(Corners, 1, true), way(Corners, 1, true)}},
		{size(200, 100), 9 * mm, []option{way(Gusset, 1, true), way(Corners, 1, true)}},
		{size(200, 100), 9 * mm, []option{way(Corners, 1, true), way(Gusset, 1, true), way(Corners, 1, true)}},
		{size(100, 200), 9 * mm, []option{way(Slip, 2, true)}}, // two slip pockets are more than a gusset pocket for both
		{size(200, 100), 8 * mm, []option{way(Slip, 2, true)}},
		{size(200, 100), 9*mm - 1, []option{way(Slip, 2, true)}},
		{size(200, 100), 9 * mm, []option{way(Corners, 4, false), way(Slip, 1, false)}},
		{size(200, 100), 9 * mm, []option{way(Corners, 4, true), way(Slip, 1, false)}},
		{size(200, 100), 9 * mm, []option{way(Corners, 4, true), way(Slip, 1, true)}},
		{size(100, 200), 7 * mm, []option{way(FoldedFlap, 2, false)}},
	}
	for i, a := range list {
		for k, b := range list {
			q := &quest{best: &found{cover: b.cover, thick: b.thick, opts: b.opts}}
			if got := q.against(a.cover, a.thick, a.opts); cmp.Compare(got, 0) != cmp.Compare(i, k) || q.better(a.cover, a.thick, a.opts) != (i < k) {
				t.Errorf("%d against %d: %d", i, k, got)
			}
		}
	}
}

// Where no cover is within the limits it is said which one would be the smallest, however
// soon the search ends after it is found.
func TestWithoutACoverItIsSaid(t *testing.T) {
	const mm = units.Millimetre
	var r Request
	for range 14 { // so many that they are laid in plain rows, without a search
		r.Things = append(r.Things, Thing{Content: pocket.Content{Name: "print", Size: units.Size{W: 90 * mm, H: 130 * mm}}, Sticks: true, Upright: true})
	}
	q, _, one := searchedFor(t, Smallest, r)
	s := q.searcher
	s.request.Limits.Cover = units.Size{W: mm, H: mm}
	for left, cause := range map[int64]Cause{1: OverCover, 0: NotTried, math.MaxInt64: OverCover} {
		s.meter = &meter{until: context.Background(), left: left}
		why := s.without(Smallest)
		if why.Cause != cause || cause == OverCover && (why.Size != one.cover || why.Than != s.request.Limits.Cover) || s.anyCover {
			t.Errorf("%d steps left: %+v", left, why)
		}
	}
}

// How much lies between the covers at most is reckoned from what faces what, as it does in
// the case that is built: badges that just touch those opposite, or just do not.
func TestStackIsOfWhatFacesWhat(t *testing.T) {
	const mm = units.Millimetre
	apart, over := 0, 0
	for k := range units.Length(40) {
		var r Request
		r.Case.Rulers, r.Case.Clearance = rule.Rulers{Main: units.WholeMillimetres}, 3*mm
		r.Limits.Cover = units.Size{W: 140 * mm, H: 140 * mm}
		for i, size := range [...]units.Size{{W: (20 + k) * mm, H: (31 + k/3) * mm}, {W: 33 * mm, H: (20 + k) * mm}, {W: (61 - k) * mm, H: 25 * mm}} {
			r.Things = append(r.Things, Thing{Content: pocket.Content{Name: string(rune('a' + i)), Size: size, Thickness: units.Length(i+2) * mm}, Sticks: true, Upright: true})
		}
		q, opts, _ := searchedFor(t, Smallest, r)
		q.narrow = q.spineFor(q.leastStack())
		covers, _ := q.covers(opts, func(units.Size) bool { return true })
		for i := range covers {
			c := &covers[i]
			q.bare = nil
			if _, ok := q.fits(c.cover); !ok {
				continue
			}
			if got := q.stack(opts, c); got != c.most {
				t.Errorf("without a case %v, want %v", got, c.most)
			}
			if _, ok := q.comesOut(c.cover); !ok || q.bare == nil {
				continue
			}
			spec, panels, f := q.searcher.bare, q.panels(c.cover), &found{opts: opts}
			spec.Cover = c.cover
			q.deepen(&spec, q.ample(), q.roomy)
			q.furnish(f, &spec, q.arrange(opts, c, panels), panels)
			p, err := folio.Build(spec)
			if err != nil {
				t.Fatal(err)
			}
			all := slices.Collect(p.Fittings())
			var want units.Length
			for n, a := range all {
				one := opts[f.held[n].Thing].box.height
				want = max(want, one)
				for m, b := range all {
					if a.Panel() == b.Panel() {
						continue
					}
					if on, faces := p.Facing(a.Rect(), a.Panel(), b.Panel()); faces && on.Overlaps(b.Rect()) {
						want = max(want, one+opts[f.held[m].Thing].box.height)
					}
				}
			}
			if got := q.stack(opts, c); got != want {
				t.Errorf("%d, a cover of %v: %v between, want %v", k, c.cover, got, want)
			}
			if want == c.least {
				apart++
			} else {
				over++
			}
		}
	}
	if apart < 10 || over < 10 {
		t.Errorf("lopsided: %d beside each other, %d over", apart, over)
	}
}

// What is told of in another order than it lies in, across or along, does not lie evenly,
// which would have it lie in that order, but as far from the middle as it does; what is in
// line with another stays so.
func TestInTurnByHand(t *testing.T) {
	const mm = units.Millimetre
	for _, c := range []struct {
		at   [3]units.Length
		how  [3]following
		want [3]following
	}{
		{[3]units.Length{1, 2, 3}, [3]following{evenly, evenly, evenly}, [3]following{evenly, evenly, evenly}},
		{[3]units.Length{1, 1, 3}, [3]following{evenly, evenly, evenly}, [3]following{evenly, evenly, evenly}},
		{[3]units.Length{2, 1, 3}, [3]following{evenly, evenly, evenly}, [3]following{fromMiddle, fromMiddle, fromMiddle}},
		{[3]units.Length{1, 3, 2}, [3]following{evenly, evenly, inLineWith}, [3]following{evenly, evenly, inLineWith}},
		{[3]units.Length{2, 3, 1}, [3]following{evenly, inLineWith, evenly}, [3]following{fromMiddle, inLineWith, fromMiddle}},
		{[3]units.Length{3, 2, 1}, [3]following{fromMiddle, inLineWith, evenly}, [3]following{fromMiddle, inLineWith, evenly}},
	} {
		for axis := range 2 {
			a := arranger{}
			for i, at := range c.at {
				l := laid{nth: i, by: [2]inLine{{how: evenly}, {how: evenly}}}
				*coordinate(&l.at, axis == 1) = at * mm
				l.by[axis].how = c.how[i]
				a.all = append(a.all, l)
			}
			a.inTurn()
			for i, l := range a.all {
				if l.by[axis].how != c.want[i] || l.by[1-axis].how != evenly {
					t.Errorf("%v, %v, axis %d: %d lies by %v", c.at, c.how, axis, i, l.by)
				}
			}
		}
	}
}

// Where it is proved that none is thinner, what none is thinner than is as thick as the
// thinnest, but for less than a graduation: of two medals on a cover for one pocket.
func TestLowIsAsThickAsTheThinnest(t *testing.T) {
	const mm = units.Millimetre
	for thick := units.Length(3); thick <= 6; thick++ {
		r := Request{Case: folio.Spec{Rulers: rule.Rulers{Main: units.WholeMillimetres}}, Taste: Taste{Margin: 25 * mm}, Without: []Holder{Corners, Frame, Mat, Slip, GussetRun, Accordion, FoldedFlap}}
		r.Things = []Thing{{Content: pocket.Content{Name: "medal", Size: units.Size{W: 50 * mm, H: 50 * mm}, Thickness: thick * mm}, Count: 2, Group: "crew"}}
		together := r
		together.Things = []Thing{r.Things[0]}
		together.Things[0].Keeping = Together
		a, err := Folios(context.Background(), together, Budget{Steps: 1_000_000})
		if err != nil {
			t.Fatal(err)
		}
		small, ok := a.Of(Smallest)
		if !ok {
			t.Fatal("none in one pocket")
		}
		r.Limits.Cover = small.Cover()
		tr := begun(context.Background(), r, Form{}, 0, "", Budget{Steps: 1 << 50})
		if tr.err != nil {
			t.Fatal(tr.err)
		}
		tr.options(0)
		tr.meter = endless()
		q := tr.quest(Thinnest)
		q.usableAll(units.Longest)
		q.narrow = q.spineFor(q.leastStack())
		first := q.thinOf(q.narrow)
		if q.thinnest(); q.best == nil || !q.complete {
			t.Errorf("%d mm: %v, proved %v", thick, q.best, q.complete)
			continue
		}
		if more := q.best.thick - q.low; more < 0 || more >= q.ruler.Step() || q.low < first+2*q.ruler.Step() {
			t.Errorf("%d mm: %v thick, none is thinner than %v, and one by itself is %v", thick, q.best.thick, q.low, first)
		}
	}
}
