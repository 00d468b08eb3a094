package score_test

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"
)

// TestAroundRoll: six panels rolled up. The outermost fold goes round panels 2
// to 5, the next one round 3 to 5, and so on; worked by hand. At 0.25 mm a
// stack of more than 0.5 mm wants two scores.
func TestAroundRoll(t *testing.T) {
	p, err := score.Roll(300*mm, 6, score.TuckIn{Ruler: units.HalfMillimetres})
	if err != nil {
		t.Fatal(err)
	}
	f, err := p.Fold()
	if err != nil {
		t.Fatal(err)
	}
	got, err := f.Around(mm/4, units.HalfMillimetres)
	if err != nil {
		t.Fatal(err)
	}
	for i, a := range got {
		want := 4 - i
		if a.Score != i || a.Layers != want || a.Stack != units.Length(want)*mm/4 || a.Double != (want > 2) {
			t.Errorf("score %d: %+v", i, a)
		}
	}
	if apart := got[1].Apart.Length(); apart != mm { // 0.75 mm on a ruler of half millimetres
		t.Errorf("scores %v apart", apart)
	}
}

func TestAroundContent(t *testing.T) {
	f := letter(t)
	card := score.Enclosure{Panel: 0, Side: score.Face, From: 5 * mm, To: 85 * mm, Thickness: mm}
	print := score.Enclosure{Panel: 2, Side: score.Face, From: 5 * mm, To: 85 * mm, Thickness: mm / 2}
	outside := score.Enclosure{Panel: 1, Side: score.Back, From: 5 * mm, To: 85 * mm, Thickness: 9 * mm}
	got, err := f.Around(mm/4, 0, card, print, outside)
	if err != nil {
		t.Fatal(err)
	}
	// Score 1 joins panels 0 and 1: panel 2, the card and the print lie
	// between. Score 2 joins panels 1 and 2: only the print lies between.
	want := []score.Around{{Score: 0, Layers: 1, Stack: mm/4 + mm + mm/2, Double: true}, {Score: 1, Layers: 0, Stack: mm / 2}}
	if diff := cmp.Diff(want, got, cmpopts.IgnoreFields(score.Around{}, "Apart")); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	// Seen with panel 0 face up, panel 0's back looks down: nothing goes round
	// what is stuck there. Panel 2's back is the other side of its room with
	// panel 0, inside score 1 only.
	below := score.Enclosure{Panel: 0, Side: score.Back, From: 5 * mm, To: 85 * mm, Thickness: mm}
	under := score.Enclosure{Panel: 2, Side: score.Back, From: 5 * mm, To: 85 * mm, Thickness: 2 * mm}
	got, err = f.Around(mm/4, 0, below, under)
	if err != nil || len(got) != 2 || got[0].Stack != mm/4+2*mm || got[1].Stack != 0 {
		t.Errorf("%+v, %v", got, err)
	}
	// Panel 1 lies on top with its face down: what is on that lies inside both.
	hung := score.Enclosure{Panel: 1, Side: score.Face, From: 5 * mm, To: 85 * mm, Thickness: 3 * mm}
	got, err = f.Around(mm/4, 0, hung)
	if err != nil || len(got) != 2 || got[0].Stack != mm/4+3*mm || got[1].Stack != 3*mm {
		t.Errorf("%+v, %v", got, err)
	}
	_, err = f.Around(0, -1, score.Enclosure{Panel: 8})
	violation(t, err, "caliper", check.NotPositive)
	violation(t, err, "ruler", check.Unknown)
	violation(t, err, "inserts[0].panel", check.Unknown)
}

func TestAroundProperties(t *testing.T) {
	properties(t, func(p *gopter.Properties) {
		p.Property("layers between two panels are those of the stacks", prop.ForAll(func(d draft) bool {
			f, err := d.strip().Fold()
			if err != nil {
				return false
			}
			most := make([]int, d.strip().Len())
			for st := range f.Stacks() {
				for s := range d.strip().Len() - 1 {
					a, b := slices.Index(st.Panels, s), slices.Index(st.Panels, s+1)
					if a >= 0 && b >= 0 {
						most[s] = max(most[s], a-b-1, b-a-1)
					}
				}
			}
			around, err := f.Around(mm/4, 0)
			for _, a := range around {
				if a.Layers != most[a.Score] || a.Stack != units.Length(a.Layers)*mm/4 || a.Apart.Length() != a.Stack || a.Double != (a.Layers > 2) {
					return false
				}
			}
			return err == nil && len(around) == d.strip().Len()-1
		}, foldableDrafts(24)))
		p.Property("a nested leaf and its creep make the outermost leaf", prop.ForAll(func(w, c units.Length, k int) bool {
			return score.NestedLeaf(w, c, k, 0).Length()+score.Creep(c, k).Length() == w
		}, lengths(50*mm, 300*mm), lengths(units.Shortest, mm), gen.IntRange(1, 40)))
	})
}
