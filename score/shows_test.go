package score_test

import (
	"slices"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/internal/proptest"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A scrap is a square millimetre of paper: where it lies, and which way up.
type scrap struct {
	panel  int
	faceUp bool
	x      int // where on the panel it comes from, from the panel's left end
}

// A tableTop is paper lying about in piles, a millimetre of the table each; a
// pile goes from the bottom to the top.
type tableTop map[int][]scrap

// laidFlat cuts a strip of whole millimetres into scraps.
func laidFlat(s score.Strip) tableTop {
	t, at := tableTop{}, 0
	for p, w := range s.Panels() {
		for x := range int(w / mm) {
			t[at] = []scrap{{p, true, x}}
			at++
		}
	}
	return t
}

// turnOver turns the scraps of some panels over a line, pile by pile, and puts
// them on the piles there, or under them.
func (t tableTop) turnOver(line int, moves []bool, up bool) tableTop {
	out := tableTop{}
	for x, pile := range t {
		for _, s := range pile {
			if !moves[s.panel] {
				out[x] = append(out[x], s)
			}
		}
	}
	for x, pile := range t {
		var turned []scrap
		for _, s := range pile {
			if moves[s.panel] {
				s.faceUp = !s.faceUp
				turned = append([]scrap{s}, turned...)
			}
		}
		to := 2*line - 1 - x
		if up {
			out[to] = append(out[to], turned...)
		} else {
			out[to] = append(turned, out[to]...)
		}
	}
	for x, pile := range out {
		if len(pile) == 0 {
			delete(out, x)
		}
	}
	return out
}

// follow makes a turn as its words say, on the table as it lies before the
// maker, and says what lies in the way.
func (t tableTop) follow(s score.Strip, m score.Made) (tableTop, string) {
	moves := make([]bool, s.Len())
	for p := range moves {
		moves[p] = m.Turn.Part == score.Before
		for _, sc := range m.Scores {
			if p > sc {
				moves[p] = !moves[p]
			}
		}
	}
	up, line := m.Turn.Way == score.Towards, t.lineOf(s, m.Turn.Score)
	right := false // the turned part rises on the right of the line
	for _, s := range t[line] {
		right = right || moves[s.panel] && (s.panel == m.Turn.Score || s.panel == m.Turn.Score+1)
	}
	for x, pile := range t {
		rises := (x >= line) == right // what reaches back over the line sinks
		for k, s := range pile {
			for _, over := range pile[k+1:] {
				if moves[s.panel] != moves[over.panel] && moves[s.panel] == (up == rises) {
					return t, "what is turned has to pass through what stays"
				}
			}
		}
	}
	return t.turnOver(line, moves, up), ""
}

// asDescribed returns the piles as a folded strip describes them, turned over
// if it says so.
func (t tableTop) asDescribed(f score.Folding) tableTop {
	if !f.TurnedOver() {
		return t
	}
	return t.turnOver(0, slices.Repeat([]bool{true}, f.Strip().Len()), true)
}

// lineOf returns where the right end of the panel before a score lies.
func (t tableTop) lineOf(s score.Strip, sc int) int {
	last := int(s.Panel(sc)/mm) - 1
	for x, pile := range t {
		for _, p := range pile {
			if p.panel == sc && p.x == last {
				if p.faceUp {
					return x + 1
				}
				return x
			}
		}
	}
	panic("a panel is lost")
}

// differs says how a folded strip differs from the piles.
func (t tableTop) differs(f score.Folding) string {
	left := 1 << 30
	for x := range t {
		left = min(left, x)
	}
	if int(f.Width()/mm) != len(t) {
		return "width"
	}
	shows := map[bool]map[score.Side]units.Length{true: {}, false: {}}
	side := func(s scrap, above bool) score.Side {
		if s.faceUp == above {
			return score.Face
		}
		return score.Back
	}
	tops, bottoms := f.Top(), f.Bottom()
	seen := func(list []score.Shown, x units.Length) (int, score.Side) {
		i := slices.IndexFunc(list, func(s score.Shown) bool { return s.From <= x && x < s.To })
		return list[i].Panel, list[i].Side
	}
	panels := map[int]score.FoldedPanel{}
	for i, l := range f.Panels() {
		panels[i] = l
	}
	for x := range len(t) {
		pile := t[left+x]
		at := units.Length(x)*mm + mm/2
		var order []int
		for k, s := range pile {
			order = append(order, s.panel)
			l := panels[s.panel]
			if l.Panel != s.panel || l.FaceUp != s.faceUp || f.FaceUp(s.panel) != s.faceUp || at < l.From || at > l.To {
				return "how a panel lies"
			}
			if k > 0 && panels[pile[k-1].panel].Layer >= l.Layer {
				return "layers of two panels"
			}
		}
		if !slices.Equal(order, f.At(at)) {
			return "layers at a place"
		}
		bottom, top := pile[0], pile[len(pile)-1]
		if p, s := seen(tops, at); p != top.panel || s != side(top, true) {
			return "what is seen from above"
		}
		if p, s := seen(bottoms, at); p != bottom.panel || s != side(bottom, false) {
			return "what is seen from below"
		}
		shows[true][side(top, true)] += mm
		shows[false][side(bottom, false)] += mm
	}
	for _, s := range []score.Side{score.Face, score.Back} {
		if f.TopShows(s) != shows[true][s] || f.BottomShows(s) != shows[false][s] {
			return "how much shows of a side"
		}
	}
	return ""
}

// TestFoldedByTurningScraps: cut into square millimetres that are turned over
// one by one, a strip comes to lie as the folded strip says, side by side and
// layer by layer.
func TestFoldedByTurningScraps(t *testing.T) {
	made := 0
	properties(t, func(p *gopter.Properties) {
		p.Property("scraps turned over lie as the folded strip says", prop.ForAll(
			func(d draft, turns []score.Turn) string {
				s, fault := d.strip(), ""
				table, n := laidFlat(s), 0
				carryOut(s, turns, func(f score.Folding, err error) bool {
					if err != nil {
						return true
					}
					m := slices.Collect(f.Made())[n]
					n++
					made++
					table, fault = table.follow(s, m)
					if fault == "" {
						fault = table.asDescribed(f).differs(f)
					}
					return fault == ""
				})
				return fault
			},
			drafts(7, smallWidths(4)), anyTurnsOf(6)))
	})
	if made < proptest.Cases(1000) {
		t.Errorf("only %d folds", made)
	}
}

// What shows of the usual folds, as anyone sees who folds them: a letter hides
// its face, as a gate does; an accordion of three panels shows its face on top
// and its back below; a strip whose end is turned up shows both on top.
func TestWhatShows(t *testing.T) {
	inch := units.Inch
	letter, err := score.CFold(11*inch, score.TuckIn{Ruler: units.Sixteenths})
	if err != nil {
		t.Fatal(err)
	}
	f, err := letter.Fold()
	if err != nil || f.TopShows(score.Face) != 0 || f.BottomShows(score.Face) != 0 || f.TopShows(score.Back) != f.Width() {
		t.Errorf("a letter shows its face over %v and %v, %v", f.TopShows(score.Face), f.BottomShows(score.Face), err)
	}
	fan, err := score.Accordion(9*inch, 3, 0, score.Valley)
	if err != nil {
		t.Fatal(err)
	}
	f, err = fan.Fold()
	if err != nil || f.TopShows(score.Face) != f.Width() || f.BottomShows(score.Back) != f.Width() {
		t.Errorf("an accordion: top %v, bottom %v, %v", f.Top(), f.Bottom(), err)
	}
	hem := mustStrip(t, []units.Length{90 * mm, 10 * mm}, score.Valley)
	f, err = hem.Fold()
	if err != nil || f.TopShows(score.Face) != 80*mm || f.TopShows(score.Back) != 10*mm || f.BottomShows(score.Back) != 90*mm {
		t.Errorf("a turned-up end: top %v, bottom %v, %v", f.Top(), f.Bottom(), err)
	}
}

// TestCrossFoldedShows compares with the top and bottom layer of every square
// millimetre, whose side is told by how often it was turned over.
func TestCrossFoldedShows(t *testing.T) {
	properties(t, func(p *gopter.Properties) {
		p.Property("the sides that show are those of the outer layers", prop.ForAll(
			func(a, b draft, level bool) string {
				axis := score.Axis(bit(level))
				first, err1 := a.strip().Fold()
				second, err2 := b.strip().Fold()
				if err1 != nil || err2 != nil {
					return ""
				}
				s, err := score.FoldAcross(axis, first, second)
				if err != nil {
					return err.Error()
				}
				shows := map[bool][2]int64{}
				size := s.Size()
				for x := range int(size.W / mm) {
					for y := range int(size.H / mm) {
						layers := s.At(units.Point{X: units.Length(x) * mm, Y: units.Length(y) * mm})
						if len(layers) == 0 {
							continue
						}
						for _, above := range []bool{true, false} {
							l := layers[0]
							if above {
								l = layers[len(layers)-1]
							}
							turned := l.First + l.Second // every fold turns what lies beyond it
							if s.FaceUp(l) != (turned%2 == 0) {
								return "face up"
							}
							n := shows[above]
							n[bit((turned%2 == 0) != above)]++
							shows[above] = n
						}
					}
				}
				for i, side := range []score.Side{score.Face, score.Back} {
					if s.TopShows(side) != mm.By(mm).Times(shows[true][i]) || s.BottomShows(side) != mm.By(mm).Times(shows[false][i]) {
						return "area of the " + side.String()
					}
				}
				return ""
			},
			drafts(4, smallWidths(3)), drafts(4, smallWidths(3)), gen.Bool()))
	})
}

// TestPatternsByHand follows the turns of every pattern, either way round, with
// scraps of paper and nothing but the turns' words: the sheet lies face up, the
// part named is turned over the score, towards the maker. Nothing may lie in the
// way, and what comes out must be the fold of the printers' name.
func TestPatternsByHand(t *testing.T) {
	tuck := score.TuckIn{Less: 2 * mm, Ruler: units.WholeMillimetres}
	for name, make := range map[string]func(units.Length) (score.Pattern, error){
		"letter":          func(l units.Length) (score.Pattern, error) { return score.CFold(l, tuck) },
		"roll":            func(l units.Length) (score.Pattern, error) { return score.Roll(l, 5, tuck) },
		"gate":            func(l units.Length) (score.Pattern, error) { return score.Gate(l, tuck) },
		"double gate":     func(l units.Length) (score.Pattern, error) { return score.DoubleGate(l, tuck) },
		"double parallel": func(l units.Length) (score.Pattern, error) { return score.DoubleParallel(l, tuck) },
		"accordion":       func(l units.Length) (score.Pattern, error) { return score.Accordion(l, 5, tuck.Ruler, score.Valley) },
	} {
		for l := 120 * mm; l < 132*mm; l += mm {
			one, err := make(l)
			if err != nil {
				t.Fatal(err)
			}
			for way, p := range map[string]score.Pattern{"": one, " reversed": one.Reversed()} {
				f, err := p.Fold()
				if err != nil {
					t.Fatalf("%s%s: %v", name, way, err)
				}
				table, fault := laidFlat(p.Strip()), ""
				for _, turn := range p.Turns() {
					if turn.Way != score.Towards {
						t.Errorf("%s%s: %v", name, way, turn)
					}
					if table, fault = table.follow(p.Strip(), score.Made{Turn: turn, Scores: []int{turn.Score}}); fault != "" {
						t.Fatalf("%s%s: %v: %s", name, way, turn, fault)
					}
				}
				if fault := table.asDescribed(f).differs(f); fault != "" {
					t.Errorf("%s%s: %s", name, way, fault)
				}
				if fault := namedFold(name, table, p.Strip()); fault != "" {
					t.Errorf("%s%s of %v: %s", name, way, l, fault)
				}
			}
		}
	}
}

// namedFold says how piles differ from the fold that a name stands for: a fan
// shows both ends; all others hide the face, but for what outer halves differ on
// the ruler, and a gate's leaves lie side by side on its middle.
func namedFold(name string, t tableTop, s score.Strip) string {
	face, panels, halves := 0, s.Len(), units.Length(0)
	switch name {
	case "double gate":
		halves = (s.Panel(1) - s.Panel(2)).Abs()
	case "double parallel":
		halves = max((s.Panel(0) - s.Panel(1)).Abs(), (s.Panel(2) - s.Panel(3)).Abs())
	}
	for _, pile := range t {
		top, bottom := pile[len(pile)-1], pile[0]
		if top.faceUp {
			face++
		}
		if !bottom.faceUp {
			face++
		}
		if name == "gate" && (len(pile) > 2 || bottom.panel != 1 || len(pile) == 2 && top.panel == 1) {
			return "the leaves do not lie on the middle"
		}
	}
	switch {
	case name == "accordion":
		for _, pile := range t {
			if len(pile) == panels && (pile[0].panel+pile[len(pile)-1].panel != panels-1 || pile[0].panel%(panels-1) != 0) {
				return "the ends do not lie outside"
			}
		}
	case name == "gate": // its middle is seen between the leaves
	case units.Length(face)*mm > halves:
		return "the face shows"
	}
	return ""
}

// A pattern reversed has the same panels from the other end, with workings that
// say so, and folds into the same layers.
func TestReversedPatterns(t *testing.T) {
	p, err := score.CFold(11*units.Inch, score.TuckIn{Ruler: units.ThirtySeconds})
	if err != nil {
		t.Fatal(err)
	}
	r := p.Reversed()
	var lines []string
	for i, w := range r.Workings() {
		if w.Length() != r.Strip().Panel(i) || w.Length() != p.Strip().Panel(2-i) {
			t.Errorf("panel %d is %v", i, w.Length())
		}
		lines = append(lines, w.String())
	}
	want := []string{
		"panel 1 3 5/8 in = length 11 in - 2 x panel 3 3 11/16 in",
		"panel 2 3 11/16 in = panel 3 3 11/16 in",
		"panel 3 3 11/16 in = (length 11 in + tuck 1/16 in) / 3",
	}
	if !slices.Equal(lines, want) {
		t.Errorf("%q", lines)
	}
	if f, err := r.Fold(); err != nil || f.MostLayers() != 3 || f.TopShows(score.Face) != 0 || f.BottomShows(score.Face) != 0 {
		t.Errorf("%v, %v", f.Order(), err)
	}
	again := r.Reversed()
	if !again.Strip().Equal(p.Strip()) || !slices.Equal(again.Turns(), p.Turns()) {
		t.Error("reversed twice it is another pattern")
	}
	if turns := r.Turns(); turns[0].String() != "fold what lies before score 1 towards you" {
		t.Errorf("%v", turns)
	}
}

func TestRollsOfTheirOwnTucks(t *testing.T) {
	// 4 x 4 5/16 less 3/32 and 3/32 + 1/16 are 17 in.
	p, err := score.RollBy(17*units.Inch, units.ThirtySeconds, 3*units.Inch/32, units.Inch/16)
	if err != nil || p.Strip().String() != "109.5375 v 109.5375 v 107.15625 v 105.56875 mm" {
		t.Errorf("%v, %v", p.Strip(), err)
	}
	var lines []string
	for _, w := range p.Workings() {
		lines = append(lines, w.String())
	}
	if want := "panel 4 4 5/32 in = length 17 in - 2 x panel 1 4 5/16 in - panel 3 4 7/32 in"; lines[3] != want {
		t.Errorf("%q", lines)
	}
	// On whole millimetres 263 in 12 used to leave 1 mm for the last panel.
	p, err = score.Roll(263*mm, 12, score.TuckIn{Ruler: units.WholeMillimetres})
	if err != nil {
		t.Fatal(err)
	}
	// Exactly, each is (263 + 2·55)/12 = 31 1/12 mm less 2 mm a tuck.
	for i, panel := range p.Strip().Panels() {
		want := 31.083 - 2*float64(max(i-1, 0))
		if off := panel.Millimetres() - want; off > 1 || off < -2 {
			t.Errorf("panel %d is %v, exactly %.1f mm", i, panel, want)
		}
	}
	violation(t, second(score.RollBy(0, -1, make([]units.Length, 63)...)), "tucks", check.TooMany)
	violation(t, second(score.RollBy(mm, 0, -1)), "tucks[0]", check.Negative)
	violation(t, second(score.RollBy(mm, 0, units.Metre, units.Metre, units.Metre)), "length", check.TooSmall)
	violation(t, second(score.RollBy(mm, 0, 9*units.Metre, 9*units.Metre)), "tucks", check.TooLarge)
}

// The length that an error of a roll asks for makes one, also where a longer
// length than one that works does not.
func TestRollsWantWhatDoes(t *testing.T) {
	refused := 0
	properties(t, func(p *gopter.Properties) {
		p.Property("the length wanted is taken", prop.ForAll(
			func(n int, steps int64, off int64, tucks []int64) string {
				r := units.WholeMillimetres
				own := make([]units.Length, n-2)
				sum := units.Length(0)
				for i := range own {
					own[i] = units.Length(tucks[i]) * mm
					sum += own[i] * units.Length(n-2-i)
				}
				l := units.Length(steps)*mm + units.Length(off)
				_, err := score.RollBy(l, r, own...)
				if err == nil {
					return ""
				}
				refused++
				v := violation(t, err, "length", check.TooSmall)
				if v.Limit <= l {
					return "asks for less"
				}
				if _, err := score.RollBy(v.Limit, r, own...); err != nil {
					return err.Error()
				}
				return ""
			}, gen.IntRange(2, 8), gen.Int64Range(1, 150), gen.Int64Range(0, 999_999), gen.SliceOfN(8, gen.Int64Range(0, 6))))
	})
	if refused < proptest.Cases(100) {
		t.Errorf("only %d refused", refused)
	}
}
