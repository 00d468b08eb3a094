package score_test

import (
	"context"
	"errors"
	"math"
	"math/big"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/internal/proptest"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// The letter of TestLetter lies with panel 0 at the bottom, panel 2 on it and
// panel 1 on top: by hand.
func TestOverByHand(t *testing.T) {
	f := letter(t)
	type answer struct{ Over, Overlap bool }
	for _, c := range []struct {
		a, b int
		want answer
	}{
		{0, 1, answer{false, true}}, {1, 0, answer{true, true}}, {2, 0, answer{true, true}}, {0, 2, answer{false, true}},
		{1, 2, answer{true, true}}, {2, 1, answer{false, true}}, {0, 0, answer{}}, {3, 0, answer{}}, {0, -1, answer{}},
	} {
		over, overlap := f.Over(c.a, c.b)
		if diff := cmp.Diff(c.want, answer{over, overlap}); diff != "" {
			t.Errorf("panel %d over %d:\n%s", c.a, c.b, diff)
		}
	}
	for _, none := range []int{-1, 3} {
		if from, to := f.Span(none); from != 0 || to != 0 || f.FaceUp(none) || f.BaysOn(none, score.Face) != nil || f.Flat(none) {
			t.Errorf("there is no panel %d", none)
		}
	}
}

// A panel lies over another where the two share a stretch and it comes later in
// the order from bottom to top.
func TestOverFollowsTheOrder(t *testing.T) {
	together, apart := 0, 0
	properties(t, func(p *gopter.Properties) {
		p.Property("over is later in the order", prop.ForAll(func(d draft) string {
			f, err := d.strip().Fold()
			if err != nil {
				return err.Error()
			}
			place := map[int]int{}
			for i, panel := range f.Order() {
				place[panel] = i
			}
			spans, _ := walkOf(f.Strip(), f.Flat)
			for a := range spans {
				for b := range spans {
					over, overlap := f.Over(a, b)
					meet := a != b && spans[a].from < spans[b].to && spans[b].from < spans[a].to
					if overlap != meet || over != (meet && place[a] > place[b]) {
						return "panels " + strconv.Itoa(a) + " and " + strconv.Itoa(b)
					}
					if meet {
						together++
					} else {
						apart++
					}
				}
			}
			return ""
		}, foldableDrafts(12)))
	})
	if together < proptest.Cases(1000) || apart < proptest.Cases(1000) {
		t.Errorf("%d met, %d did not", together, apart)
	}
}

// What is not folded is flat, and only that.
func TestFlatScores(t *testing.T) {
	s := mustStrip(t, []units.Length{10 * mm, 10 * mm, 10 * mm, 10 * mm}, score.Repeat(3, score.Valley)...)
	f, err := s.FoldBy(context.Background(), score.Turn{Score: 1})
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range map[int]bool{-1: false, 0: true, 1: false, 2: true, 3: false} {
		if f.Flat(i) != want {
			t.Errorf("score %d flat: %t", i, f.Flat(i))
		}
	}
	g, err := s.FoldBy(context.Background(), score.Turn{Score: 2})
	if err != nil {
		t.Fatal(err)
	}
	if f.Equal(g) || !f.Equal(f) {
		t.Error("folded at another score it is not the same")
	}
	other, err := mustStrip(t, []units.Length{10 * mm, 10 * mm, 10 * mm, 11 * mm}, score.Repeat(3, score.Valley)...).FoldBy(context.Background(), score.Turn{Score: 1})
	if err != nil {
		t.Fatal(err)
	}
	if f.Equal(other) || other.Equal(f) {
		t.Error("another strip is not the same")
	}
}

func TestStripByHand(t *testing.T) {
	s := mustStrip(t, []units.Length{50 * mm, 50 * mm, 30 * mm, 60 * mm}, score.Repeat(3, score.Valley)...)
	if s.Widest() != 60*mm {
		t.Errorf("widest %v", s.Widest())
	}
	if got, want := s.Working("strip").String(), "strip 190 mm = 2 x panel 50 mm + panel 3 30 mm + panel 4 60 mm"; got != want {
		t.Errorf("%s; want %s", got, want)
	}
	for n, want := range map[int][]score.Fold{3: {score.Mountain, score.Mountain, score.Mountain}, 0: {}, -2: {}} {
		if got := score.Repeat(n, score.Mountain); !slices.Equal(got, want) {
			t.Errorf("%d times: %v", n, got)
		}
	}
}

func found(t *testing.T, err error) []check.Violation {
	t.Helper()
	e := new(check.Error)
	if !errors.As(err, &e) {
		t.Fatalf("%v is no list of violations", err)
	}
	return slices.Collect(e.All())
}

// The bounds of a strip: a plan's longest length in all, and its shortest
// between scores and before the ends.
func TestStripAtItsBounds(t *testing.T) {
	half := units.Longest / 2
	if _, err := score.NewStrip([]units.Length{half, half}, score.Valley); err != nil {
		t.Error(err)
	}
	if v := found(t, second(score.NewStrip([]units.Length{half, half + 1}, score.Valley))); len(v) != 1 || v[0].Path != "panels" || v[0].Want != "only the first of them, or narrower ones" {
		t.Errorf("%+v", v)
	}
	// What is wrong with a panel says nothing of the length, and the other way
	// round, and every wrong panel is named.
	v := found(t, second(score.NewStrip([]units.Length{units.Longest, units.Longest, 0, -1}, score.Repeat(3, score.Valley)...)))
	if len(v) != 2 || v[0].Path != "panels[2]" || v[1].Path != "panels[3]" {
		t.Errorf("%+v", v)
	}
	const least = units.Shortest
	for _, c := range []struct {
		at    []units.Length
		wrong string
	}{
		{[]units.Length{least}, ""}, {[]units.Length{least, 2 * least}, ""}, {[]units.Length{50*mm - least}, ""},
		{[]units.Length{least - 1}, "scores[0]"}, {[]units.Length{least, 2*least - 1}, "scores[1]"}, {[]units.Length{50*mm - least + 1}, "scores[0]"},
		{[]units.Length{0}, "scores[0]"}, {[]units.Length{50 * mm}, "scores[0]"},
	} {
		_, err := score.ScoredStrip(50*mm, c.at, score.Repeat(len(c.at), score.Valley)...)
		if c.wrong == "" && err != nil {
			t.Errorf("%v: %v", c.at, err)
		}
		if c.wrong != "" {
			if v := found(t, err); len(v) != 1 || v[0].Path != c.wrong {
				t.Errorf("%v: %+v", c.at, v)
			}
		}
	}
	// All at once.
	if v := found(t, second(score.ScoredStrip(50*mm, []units.Length{0, 60 * mm}, score.Valley))); len(v) != 3 || v[2].Path != "folds" {
		t.Errorf("%+v", v)
	}
	for _, c := range []struct {
		panels    int
		folds     int
		got, want string
	}{{2, 0, "0 folds", "1 fold, one between each two panels"}, {3, 1, "1 fold", "2 folds, one between each two panels"}, {1, 2, "2 folds", "0 folds, one between each two panels"}} {
		v := found(t, second(score.NewStrip(slices.Repeat([]units.Length{mm}, c.panels), score.Repeat(c.folds, score.Valley)...)))
		if len(v) != 1 || v[0].Got != c.got || v[0].Want != c.want {
			t.Errorf("%+v", v)
		}
	}
}

// listed is how a person lists scores: all of them up to thirteen, twelve and
// how many more beyond that.
func listed(scores []int) string {
	var names []string
	for _, s := range scores {
		names = append(names, strconv.Itoa(s+1))
	}
	n := len(names)
	switch {
	case n > 13:
		return strings.Join(names[:12], ", ") + " and " + strconv.Itoa(n-12) + " more"
	case n > 1:
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
	return strings.Join(names, "")
}

// A narrow panel between two wide ones cannot be folded over from both sides.
func TestUnfoldableText(t *testing.T) {
	lengths := map[int]bool{}
	for pairs := 1; pairs <= 12; pairs++ {
		panels := []units.Length{100 * mm}
		for range pairs {
			panels = append(panels, 10*mm, 100*mm)
		}
		_, err := mustStrip(t, panels, score.Repeat(2*pairs, score.Valley)...).Fold()
		e := new(score.Unfoldable)
		if !errors.As(err, &e) {
			t.Fatalf("%d narrow panels: %v", pairs, err)
		}
		lengths[len(e.Scores())] = true
		if want := "the strip cannot be folded flat: scores " + listed(e.Scores()) + " block each other"; e.Error() != want {
			t.Errorf("%s; want %s", e, want)
		}
	}
	if !lengths[2] || !lengths[12] || !lengths[14] {
		t.Errorf("lists of %v scores only", lengths)
	}
	// By hand, too.
	_, err := mustStrip(t, []units.Length{100 * mm, 10 * mm, 100 * mm}, score.Valley, score.Valley).Fold()
	if want := "the strip cannot be folded flat: scores 1 and 2 block each other"; err == nil || err.Error() != want {
		t.Errorf("%v; want %s", err, want)
	}
}

func TestBlockedText(t *testing.T) {
	turn := score.Turn{Score: 4, Way: score.Towards}
	for code, what := range map[check.Code]string{
		score.InTheWay: "panel 3 lies in the way", score.HeldBack: "panel 3 is held on the other side of the fold line",
		score.WrongWay: "panel 3 lies on it and would be folded against its score", score.FoldedAlready: "it is folded already", check.Missing: "missing",
	} {
		e := &score.Blocked{Index: 10, Turn: turn, Code: code, By: 2}
		if want := "turn 11, " + turn.String() + ": " + what; e.Error() != want {
			t.Errorf("%s; want %s", e, want)
		}
	}
	s := mustStrip(t, []units.Length{10 * mm, 10 * mm}, score.Valley)
	_, err := s.FoldBy(context.Background(), score.Turn{Score: 0}, score.Turn{Score: 0})
	b := new(score.Blocked)
	if !errors.As(err, &b) || b.Index != 1 || b.Code != score.FoldedAlready || b.By != -1 {
		t.Errorf("%+v", err)
	}
	for _, at := range []int{-1, 1} {
		if v := found(t, second(s.FoldBy(context.Background(), score.Turn{Score: 0}, score.Turn{Score: at}))); len(v) != 1 || v[0].Path != "turns[1].score" || v[0].Code != check.Unknown {
			t.Errorf("%+v", v)
		}
	}
}

// A leaf is cut down, never up; a channel is at least as narrow and at most as
// wide as its rule says; the first sheet has no creep.
func TestAllowancesRoundTheirWay(t *testing.T) {
	ten := units.TenthMillimetres
	for sheet, want := range map[int]units.Length{-5: 100 * mm, 0: 100 * mm, 1: 100 * mm, 2: 99 * mm, 3: 99 * mm, 11: 99 * mm, 12: 98 * mm} {
		if got := score.NestedLeaf(100*mm, mm/10, sheet, units.WholeMillimetres).Length(); got != want {
			t.Errorf("leaf %d is %v; want %v", sheet, got, want)
		}
	}
	for sheet, want := range map[int]units.Length{-5: 0, 0: 0, 1: 0, 2: mm / 10, 3: mm / 5} {
		if got := score.Creep(mm/10, sheet).Length(); got != want {
			t.Errorf("creep %d is %v; want %v", sheet, got, want)
		}
	}
	// 1.3 × 0.45 + 0.7 = 1.285 and 1.5 × 0.45 + 0.7 = 1.375.
	least, most := score.Channel(45*mm/100, 7*mm/10, ten)
	if least.Length() != 12*mm/10 || most.Length() != 14*mm/10 {
		t.Errorf("channel %v to %v; want 1.2 mm to 1.4 mm", least, most)
	}
	// 1.3 × 0.5 + 0.72 = 1.37 and 1.5 × 0.5 + 0.72 = 1.47.
	least, most = score.Channel(mm/2, 72*mm/100, ten)
	if least.Length() != 13*mm/10 || most.Length() != 15*mm/10 {
		t.Errorf("channel %v to %v; want 1.3 mm to 1.5 mm", least, most)
	}
	// 1.3 × 0.5 + 0.68 = 1.33 and 1.5 × 0.5 + 0.68 = 1.43, nearer to 1.4.
	least, most = score.Channel(mm/2, 68*mm/100, ten)
	if least.Length() != 13*mm/10 || most.Length() != 15*mm/10 {
		t.Errorf("channel %v to %v; want 1.3 mm to 1.5 mm", least, most)
	}
}

// What a step cannot halve makes the second half the wider one, by a step.
func TestHalvesByHand(t *testing.T) {
	// 401 mm, a tuck of 2 mm: leaves of 99 and 201 or so between them.
	for length := units.Length(395) * mm; length <= 410*mm; length += mm {
		p, err := score.DoubleGate(length, score.TuckIn{Less: 2 * mm, Ruler: units.WholeMillimetres})
		if err != nil {
			t.Fatal(err)
		}
		var panels []units.Length
		for _, w := range p.Strip().Panels() {
			panels = append(panels, w)
		}
		first, second := panels[1], panels[2]
		if panels[0] != panels[3] || first+second+2*panels[0] != length || second < first || second-first > mm || first < panels[0]+2*mm {
			t.Errorf("%v: %v", length, panels)
		}
	}
}

// π to 40 decimals (OEIS A000796).
var pi, _ = new(big.Rat).SetString("3.1415926535897932384626433832795028841971")

// A bend is as long as its neutral line, in rational numbers with π to 40
// decimals, to the nearest nanometre but for the thousandth by which the
// package's π may be off; what is out of range is brought into it.
func TestBendLengthIsExact(t *testing.T) {
	rng := rand.New(rand.NewPCG(uint64(proptest.Seed()), 0))
	clamp := func(n, low, high int64) int64 { return min(max(n, low), high) }
	for range 30_000 {
		b := score.Bend{
			Caliper: units.Length(rng.Int64N(12_000_000_000) - 1_000_000_000), Inside: units.Length(rng.Int64N(12_000_000_000) - 1_000_000_000),
			Degrees: rng.IntN(370) - 4, Neutral: rng.IntN(1010) - 4,
		}
		neutral := clamp(int64(b.Neutral), 0, 1000)
		if neutral == 0 {
			neutral = 500
		}
		r := big.NewRat(neutral*clamp(int64(b.Caliper), 0, 10_000_000_000), 1000)
		r.Add(r, big.NewRat(clamp(int64(b.Inside), 0, 10_000_000_000), 1))
		r.Mul(r, pi).Mul(r, big.NewRat(clamp(int64(b.Degrees), 0, 360), 180))
		got := new(big.Rat).SetInt64(int64(b.Length()))
		if off := got.Sub(got, r); off.Abs(off).Cmp(big.NewRat(501, 1000)) > 0 {
			t.Fatalf("%+v: %v; want %s nm", b, b.Length(), r.FloatString(4))
		}
		if w := b.Working("bend"); w.Length() != b.Length() || !w.Rounded().Exact() {
			t.Fatalf("%v", w)
		}
	}
}

// The figures in the doc of Heavy, on both sides of each.
func TestAdviseAtItsBounds(t *testing.T) {
	gsm := units.GramPerSquareMetre
	for _, c := range []struct {
		g     units.Grammage
		grain score.FoldGrain
		heavy score.Heavy
		want  score.Advice
	}{
		{170 * gsm, score.GrainWith, score.Heavy{}, score.Advice{Score: true, From: 170 * gsm}},
		{170*gsm - 1, score.GrainWith, score.Heavy{}, score.Advice{From: 170 * gsm}},
		{150 * gsm, score.GrainAcross, score.Heavy{}, score.Advice{Score: true, From: 150 * gsm, TurnSheet: true}},
		{150*gsm - 1, score.GrainAcross, score.Heavy{}, score.Advice{From: 150 * gsm, TurnSheet: true}},
		{150 * gsm, score.GrainUnknown, score.Heavy{}, score.Advice{Score: true, From: 150 * gsm, TurnSheet: true}},
		{5, score.GrainWith, score.Heavy{With: 1, Across: 9}, score.Advice{Score: true, From: 1}},
		{5, score.GrainAcross, score.Heavy{With: 9, Across: 1}, score.Advice{Score: true, From: 1, TurnSheet: true}},
		{170 * gsm, score.GrainWith, score.Heavy{With: -1, Across: -1}, score.Advice{Score: true, From: 170 * gsm}},
		{150 * gsm, score.GrainAcross, score.Heavy{With: -1, Across: -1}, score.Advice{Score: true, From: 150 * gsm, TurnSheet: true}},
	} {
		if diff := cmp.Diff(c.want, score.Advise(c.g, c.grain, c.heavy)); diff != "" {
			t.Errorf("%v, %v, %+v:\n%s", c.g, c.grain, c.heavy, diff)
		}
	}
}

// Where an insert lies in the letter, by hand: panel 1 lies face down, so that
// what begins at its left lies at the right; panel 2 under it ends at 90 mm.
func TestLiesByHand(t *testing.T) {
	f := letter(t)
	under := func(under, over int, from, to units.Length, left, right int) score.Bay {
		return score.Bay{Under: under, Over: over, From: from, To: to, Left: left, Right: right}
	}
	for name, c := range map[string]struct {
		insert score.Enclosure
		want   []score.Bay
	}{
		"in the middle":     {score.Enclosure{Panel: 0, Side: score.Face, From: 20 * mm, To: 40 * mm}, []score.Bay{under(0, 2, 20*mm, 40*mm, -1, -1)}},
		"the other way":     {score.Enclosure{Panel: 1, Side: score.Face, From: 20 * mm, To: 40 * mm}, []score.Bay{under(2, 1, 60*mm, 80*mm, -1, -1)}},
		"across an edge":    {score.Enclosure{Panel: 1, Side: score.Face, From: 5 * mm, To: 15 * mm}, []score.Bay{under(2, 1, 85*mm, 90*mm, -1, -1), under(0, 1, 90*mm, 95*mm, -1, -1)}},
		"up to an edge":     {score.Enclosure{Panel: 1, Side: score.Face, From: 10 * mm, To: 30 * mm}, []score.Bay{under(2, 1, 70*mm, 90*mm, -1, -1)}},
		"from an edge":      {score.Enclosure{Panel: 1, Side: score.Face, From: 5 * mm, To: 10 * mm}, []score.Bay{under(0, 1, 90*mm, 95*mm, -1, -1)}},
		"all of the panel":  {score.Enclosure{Panel: 1, Side: score.Face, From: 0, To: 100 * mm}, []score.Bay{under(2, 1, 0, 90*mm, 1, -1), under(0, 1, 90*mm, 100*mm, -1, 0)}},
		"outside":           {score.Enclosure{Panel: 0, Side: score.Back, From: 20 * mm, To: 40 * mm}, nil},
		"outside, on top":   {score.Enclosure{Panel: 1, Side: score.Back, From: 20 * mm, To: 40 * mm}, nil},
		"all of the inside": {score.Enclosure{Panel: 2, Side: score.Back, From: 0, To: 90 * mm}, nil},
	} {
		got, err := f.Lies(c.insert)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if name == "all of the inside" { // it lies between panels 0 and 2 or 2 and 1
			if len(got) != 1 || got[0].From != 0 || got[0].To != 90*mm {
				t.Errorf("%s: %v", name, got)
			}
			continue
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%s:\n%s", name, diff)
		}
	}
	for name, c := range map[string]score.Enclosure{
		"left of it": {From: -1, To: mm}, "nothing": {From: mm, To: mm}, "turned round": {From: 2 * mm, To: mm}, "right of it": {Panel: 2, From: 0, To: 90*mm + 1},
	} {
		if v := found(t, second(f.Lies(c))); len(v) != 1 || v[0].Path != "insert" || v[0].Code != check.OutOfRange {
			t.Errorf("%s: %+v", name, v)
		}
	}
	for _, panel := range []int{-1, 3} {
		if v := found(t, second(f.Lies(score.Enclosure{Panel: panel, To: mm}))); len(v) != 1 || v[0].Path != "insert.panel" {
			t.Errorf("panel %d: %+v", panel, v)
		}
	}
}

// Of fold lines in one place those come first whose panels lie to the left, and
// on one side the inner ones first.
func TestCreasesInOnePlace(t *testing.T) {
	// To and fro: 0...100, back to 60, on to 160, back to 100, on to 160.
	s := mustStrip(t, []units.Length{100 * mm, 40 * mm, 100 * mm, 60 * mm, 60 * mm}, score.Alternate(4, score.Valley)...)
	f, err := s.Fold()
	if err != nil {
		t.Fatal(err)
	}
	type line struct {
		Score int
		At    units.Length
		Right bool
	}
	var got []line
	for _, c := range f.Creases() {
		got = append(got, line{c.Score, c.At, c.Right})
	}
	want := []line{{1, 60 * mm, true}, {0, 100 * mm, false}, {3, 100 * mm, true}, {2, 160 * mm, false}}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	// Folded in half and in half again, either way: scores 1 and 3 of three come
	// to lie in one place, one inside the other.
	inner := map[int]bool{}
	for _, last := range []score.Turn{{Score: 0, Way: score.Towards}, {Score: 0, Way: score.Away}, {Score: 2, Way: score.Towards}, {Score: 2, Way: score.Away}} {
		f, err := mustStrip(t, slices.Repeat([]units.Length{50 * mm}, 4), score.Repeat(3, score.Valley)...).FoldBy(context.Background(), score.Turn{Score: 1}, last)
		if err != nil {
			t.Fatal(err)
		}
		var inside []score.Crease
		for _, c := range f.Creases() {
			if c.Score != 1 {
				inside = append(inside, c)
			}
		}
		if len(inside) == 1 { // the turn took one layer only
			continue
		}
		if len(inside) != 2 || inside[0].At != inside[1].At || inside[0].Inside != 0 || inside[1].Inside != 2 {
			t.Errorf("%v: %+v", last, inside)
			continue
		}
		inner[inside[0].Score] = true
	}
	if len(inner) != 2 {
		t.Errorf("the inner one was always %v", inner)
	}
}

// The blank keeps what it was made of, whatever becomes of the drawing's lists.
func TestBlankIsApart(t *testing.T) {
	d := score.Draft{
		Size: units.Size{W: 100 * mm, H: 80 * mm}, Lines: []score.Line{{Axis: score.Upright, At: 50 * mm, To: 80 * mm}},
		CutOuts: []score.CutOut{{Area: units.RectAt(units.Point{X: 20 * mm, Y: 20 * mm}, units.Size{W: 10 * mm, H: 10 * mm})}},
		Notches: []score.Notch{{Edge: score.Head, Middle: 25 * mm, Width: 10 * mm, Depth: 5 * mm}},
		Slants:  []score.Slant{{Along: 3 * mm, Down: 3 * mm}},
		Glue:    []score.Glue{{Area: units.RectAt(units.Point{X: 60 * mm, Y: 20 * mm}, units.Size{W: 10 * mm, H: 10 * mm})}},
	}
	b, err := score.NewBlank(d)
	if err != nil {
		t.Fatal(err)
	}
	before := b.Area(units.Down)
	d.Lines[0].At, d.CutOuts[0].Area, d.Notches[0].Depth, d.Slants[0].Along, d.Glue[0].Area = 1, units.Rect{}, 1, 1, units.Rect{}
	for _, n := range b.Notches() {
		if n.Depth != 5*mm {
			t.Errorf("notch %+v", n)
		}
	}
	for _, c := range b.CutOuts() {
		if c.Area.Empty() {
			t.Errorf("cut-out %+v", c)
		}
	}
	for _, s := range b.Slants() {
		if s.Along != 3*mm {
			t.Errorf("slant %+v", s)
		}
	}
	for _, g := range b.Glue() {
		if g.Area.Empty() {
			t.Errorf("glue %+v", g)
		}
	}
	for _, l := range b.Lines() {
		if l.At != 50*mm {
			t.Errorf("line %+v", l)
		}
	}
	if b.Area(units.Down) != before {
		t.Error("the area changed")
	}
	if edge, openings := (score.Blank{}).Outline(); !edge.Equal(units.Polygon{}) || openings != nil {
		t.Errorf("the zero blank: %v, %v", edge, openings)
	}
}

// Rounded openings of metres: the area lies between what rounding down and up
// say, with π to 40 decimals, and those lie within what 18 decimals of π/4
// leave open.
func TestBlankAreaBracketsPi(t *testing.T) {
	m := units.Metre
	for _, radius := range []units.Length{mm, 17 * mm, m, 4*m + 1, 4*m + 123_456_789} {
		d := score.Draft{Size: units.Size{W: 10 * m, H: 10 * m}, CutOuts: []score.CutOut{{Area: units.RectAt(units.Point{X: m / 2, Y: m / 2}, units.Size{W: 9 * m, H: 9 * m}), Radius: radius}}}
		b, err := score.NewBlank(d)
		if err != nil {
			t.Fatal(err)
		}
		square := new(big.Rat).SetInt(new(big.Int).Mul(big.NewInt(int64(radius)), big.NewInt(int64(radius))))
		exact := new(big.Rat).SetInt(new(big.Int).Mul(big.NewInt(19), new(big.Int).Exp(big.NewInt(10), big.NewInt(18), nil)))
		exact.Add(exact, new(big.Rat).Mul(square, new(big.Rat).Sub(big.NewRat(4, 1), pi)))
		read := func(d units.Direction) *big.Rat {
			r, ok := new(big.Rat).SetString(strings.TrimSuffix(b.Area(d).String(), " mm²"))
			if !ok {
				t.Fatal(b.Area(d))
			}
			return r.Mul(r, big.NewRat(1_000_000_000_000, 1))
		}
		down, up := read(units.Down), read(units.Up)
		if down.Cmp(exact) > 0 || up.Cmp(exact) < 0 {
			t.Errorf("radius %v: %v to %v does not hold %v", radius, down.FloatString(0), up.FloatString(0), exact.FloatString(3))
		}
		open := new(big.Rat).Mul(square, big.NewRat(4, 1_000_000_000_000_000_000))
		open.Add(open, big.NewRat(2, 1))
		if new(big.Rat).Sub(up, down).Cmp(open) > 0 {
			t.Errorf("radius %v: %v to %v is wider than %v", radius, down.FloatString(0), up.FloatString(0), open.FloatString(3))
		}
	}
}

// Half of an odd number of nanometres is rounded so that what is refused is
// refused and what is said would do.
func TestHalvesOfOddSides(t *testing.T) {
	odd := 10*mm + 1
	for radius, good := range map[units.Length]bool{5 * mm: true, 5*mm + 1: false, -1: false, 0: true} {
		d := score.Draft{Size: units.Size{W: 50 * mm, H: 50 * mm}, CutOuts: []score.CutOut{{Area: units.RectAt(units.Point{X: mm, Y: mm}, units.Size{W: 20 * mm, H: odd}), Radius: radius}}}
		_, err := score.NewBlank(d)
		if good != (err == nil) {
			t.Errorf("radius %v: %v", radius, err)
		}
		if err != nil {
			if v := found(t, err); len(v) != 1 || v[0].Path != "cutouts[0].radius" || !strings.HasSuffix(v[0].Want, " 5 mm") {
				t.Errorf("%+v", v)
			}
		}
	}
}

// Orders name panels that there are, and as many panels as the doc says go on
// grooves.
func TestSnapAtItsBounds(t *testing.T) {
	s := mustStrip(t, slices.Repeat([]units.Length{10 * mm}, 3), score.Repeat(2, score.Valley)...)
	g := score.Grooves{Pitch: mm}
	for _, k := range []score.NoWider{{Panel: -1, Than: 1}, {Panel: 3, Than: 1}, {Panel: 1, Than: -1}, {Panel: 1, Than: 3}} {
		if v := found(t, second(g.Snap(s, k))); len(v) != 1 || !strings.HasPrefix(v[0].Path, "keep[0].") || v[0].Code != check.Unknown {
			t.Errorf("%+v: %+v", k, v)
		}
	}
	if _, err := g.Snap(s, score.NoWider{Panel: 0, Than: 2}, score.NoWider{Panel: 2, Than: 0}); err != nil {
		t.Error(err)
	}
	most := mustStrip(t, slices.Repeat([]units.Length{mm}, 256), score.Repeat(255, score.Valley)...)
	if _, err := g.Snap(most); err != nil {
		t.Error(err)
	}
}

// The corners of a rounded opening lie on its quarters of a circle, to the
// nanometre: each side of a corner is off by half of one at the most, so its
// distance from the middle by less than 3/4.
func TestRoundCornersLieOnTheirCircle(t *testing.T) {
	for k := range units.Length(40) {
		radius := 3*mm + 1 + k*173_911
		area := units.RectAt(units.Point{X: 10 * mm, Y: 10 * mm}, units.Size{W: 40 * mm, H: 30 * mm})
		b, err := score.NewBlank(score.Draft{Size: units.Size{W: 60 * mm, H: 50 * mm}, CutOuts: []score.CutOut{{Area: area, Radius: radius}}})
		if err != nil {
			t.Fatal(err)
		}
		_, openings := b.Outline()
		if len(openings) != 1 {
			t.Fatal(openings)
		}
		round := 0
		for _, c := range openings[0].Corners() {
			x := min(c.X-area.Min.X, area.Max.X-c.X)
			y := min(c.Y-area.Min.Y, area.Max.Y-c.Y)
			if x >= radius || y >= radius {
				continue
			}
			round++
			dx, dy := float64(radius-x), float64(radius-y)
			if off := math.Hypot(dx, dy) - float64(radius); math.Abs(off) > 0.75 {
				t.Errorf("radius %v: the corner at %v is %.2f nm off", radius, c, off)
			}
		}
		if round < 20 {
			t.Errorf("only %d corners on the round", round)
		}
	}
}

// A notch of an odd number of nanometres lies half a nanometre before its
// middle, as its area says and as it is cut.
func TestNotchOfOddWidth(t *testing.T) {
	for _, round := range []bool{false, true} {
		n := score.Notch{Edge: score.Head, Middle: 25 * mm, Width: 10*mm + 1, Depth: 5 * mm, Round: round}
		size := units.Size{W: 60 * mm, H: 50 * mm}
		want := units.RectAt(units.Point{X: 20 * mm}, units.Size{W: 10*mm + 1, H: 5 * mm})
		if got := n.Area(size); got != want {
			t.Errorf("round %t: %v; want %v", round, got, want)
		}
		b, err := score.NewBlank(score.Draft{Size: size, Notches: []score.Notch{n}})
		if err != nil {
			t.Fatal(err)
		}
		edge, _ := b.Outline()
		low, high := size.W, units.Length(0)
		for _, c := range edge.Corners() {
			if c.Y == 0 && c.X > 0 && c.X < size.W {
				low, high = min(low, c.X), max(high, c.X)
			}
		}
		if low != want.Min.X || high != want.Max.X {
			t.Errorf("round %t: cut from %v to %v; want %v", round, low, high, want)
		}
	}
}

// Half of an odd tab is rounded down in what would do.
func TestTaperOfOddTab(t *testing.T) {
	tab := score.Tab{Edge: score.Head, From: 10 * mm, To: 20*mm + 1, Depth: 10 * mm, Taper: 5*mm + 1}
	v := found(t, second(score.NewBlank(score.Draft{Size: units.Size{W: 60 * mm, H: 50 * mm}, Tabs: []score.Tab{tab}})))
	i := slices.IndexFunc(v, func(v check.Violation) bool { return v.Path == "tabs[0].taper" })
	if i < 0 || !strings.Contains(v[i].Want, " 5 mm") {
		t.Errorf("%+v", v)
	}
}

// There is no part of the sheet before the first or behind the last panel.
func TestFaceUpOfCrossFolded(t *testing.T) {
	var folded []score.Folding
	for _, s := range []score.Strip{
		mustStrip(t, []units.Length{50 * mm, 50 * mm}, score.Valley),
		mustStrip(t, []units.Length{30 * mm, 30 * mm, 30 * mm}, score.Valley, score.Mountain),
	} {
		f, err := s.Fold()
		if err != nil {
			t.Fatal(err)
		}
		folded = append(folded, f)
	}
	s := across(t, score.Upright, folded[0], folded[1])
	for _, l := range []score.CrossPanel{{First: -1}, {First: 2}, {Second: -1}, {Second: 3}, {First: 2, Second: 3}, {First: -1, Second: -1}} {
		if s.FaceUp(l) {
			t.Errorf("%+v looks up", l)
		}
	}
	up := 0
	for i := range 2 {
		for k := range 3 {
			if s.FaceUp(score.CrossPanel{First: i, Second: k}) {
				up++
			}
		}
	}
	if up != 3 {
		t.Errorf("%d of six parts look up; want half of them", up)
	}
}

func TestOtherSides(t *testing.T) {
	if score.Face.Other() != score.Back || score.Back.Other() != score.Face {
		t.Error("the other side of the face is the back, and the other way round")
	}
}

// An expiring context ends when it is looked at for the second time.
type expiring struct {
	context.Context
	looks int
}

func (e *expiring) Err() error {
	if e.looks++; e.looks > 1 {
		return context.Canceled
	}
	return nil
}

// The search for layer orders looks at its context on the way and ends with its
// error, long before it has found them all.
func TestFoldingsLookAtTheirContext(t *testing.T) {
	folds := slices.Repeat([]score.Fold{score.Valley, score.Valley, score.Mountain, score.Mountain}, 8)[:31]
	s := mustStrip(t, slices.Repeat([]units.Length{10 * mm}, 32), folds...)
	if n, err := s.CountFoldings(context.Background(), 20_000); !errors.Is(err, score.ErrLimit) || n != 20_000 {
		t.Fatalf("%d orders, %v: too few to show anything", n, err)
	}
	ctx := &expiring{Context: context.Background()}
	n, err := s.CountFoldings(ctx, math.MaxInt)
	if !errors.Is(err, context.Canceled) || n > 5000 || ctx.looks > 2 {
		t.Errorf("%d orders, %v, after %d looks", n, err, ctx.looks)
	}
	ctx = &expiring{Context: context.Background(), looks: 1}
	if n, err := s.CountFoldings(ctx, math.MaxInt); !errors.Is(err, context.Canceled) || n != 0 {
		t.Errorf("a context that has ended: %d orders, %v", n, err)
	}
}

// Each panel of a roll is narrower than the one before it by its tuck at least,
// also where the tuck is no graduation, and what is said to be long enough for a
// roll is.
func TestRollByAtItsBounds(t *testing.T) {
	tried := 0
	for _, r := range []units.Ruler{units.WholeMillimetres, units.Sixteenths, units.HalfMillimetres, 0} {
		for _, tucks := range [][]units.Length{{24 * mm / 10}, {24 * mm / 10, 32 * mm / 10}, {mm / 10, 0, 77 * mm / 10}, {5 * mm, 5 * mm}, {1}} {
			try := func(length units.Length) (limit units.Length) {
				p, err := score.RollBy(length, r, tucks...)
				if err != nil {
					v := found(t, err)
					if len(v) != 1 || v[0].Path != "length" || v[0].Limit <= length {
						t.Fatalf("%v of %v on %v: %+v", tucks, length, r, v)
					}
					limit = v[0].Limit
					if p, err = score.RollBy(limit, r, tucks...); err != nil {
						t.Fatalf("%v of %v on %v: %v was to be long enough: %v", tucks, length, r, limit, err)
					}
				}
				tried++
				for i, tuck := range tucks {
					if d := p.Strip().Panel(i+1) - p.Strip().Panel(i+2); d < tuck {
						t.Errorf("%v of %v on %v: panel %d is only %v narrower", tucks, length, r, i+3, d)
					}
				}
				return limit
			}
			for length := mm / 3; length < 60*mm; length += 2_345_679 {
				if limit := try(length); limit > 0 {
					for _, near := range []units.Length{-1, 1, 2, 3} { // a nanometre more need not do
						try(limit + near)
					}
				}
			}
			// Just beyond what makes panels on the ruler.
			step := r.Step()
			for k := range units.Length(400) {
				for d := range units.Length(3) {
					if length := k*step + d; length > units.Shortest {
						try(length)
					}
				}
			}
		}
	}
	if tried < 400 {
		t.Errorf("only %d were tried", tried)
	}
}

// The corners of a half round notch lie on its circle, to the nanometre.
func TestRoundNotchLiesOnItsCircle(t *testing.T) {
	for k := range units.Length(40) {
		radius := 3*mm + k*173_911
		n := score.Notch{Edge: score.Head, Middle: 30 * mm, Width: 2 * radius, Depth: radius, Round: true}
		b, err := score.NewBlank(score.Draft{Size: units.Size{W: 60 * mm, H: 50 * mm}, Notches: []score.Notch{n}})
		if err != nil {
			t.Fatal(err)
		}
		edge, _ := b.Outline()
		round := 0
		for _, c := range edge.Corners() {
			if c.X <= 0 || c.X >= 60*mm || c.Y >= 50*mm {
				continue
			}
			round++
			if off := math.Hypot(float64(c.X-n.Middle), float64(c.Y)) - float64(radius); math.Abs(off) > 0.75 {
				t.Errorf("radius %v: the corner at %v is %.2f nm off", radius, c, off)
			}
		}
		if round < 20 {
			t.Errorf("only %d corners on the round", round)
		}
	}
}
