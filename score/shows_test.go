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
func (t tableTop) differs(f score.Folded) string {
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
	panels := map[int]score.Laid{}
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
				carryOut(s, turns, func(f score.Folded, err error) bool {
					if err != nil {
						return true
					}
					m := slices.Collect(f.Made())[n]
					n++
					made++
					moves := make([]bool, s.Len())
					for p := range moves {
						for _, sc := range m.Scores {
							if p > sc {
								moves[p] = !moves[p]
							}
						}
					}
					table = table.turnOver(table.lineOf(s, m.Turn.Score), moves, m.Turn.Way == score.Towards)
					fault = table.differs(f)
					return fault == ""
				})
				return fault
			},
			drafts(7, smallWidths(4)), turnsOf(6)))
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
	letter, err := score.CFold(11*inch, score.Tuck{Ruler: units.Sixteenths})
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
				s := score.FoldAcross(axis, first, second)
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
