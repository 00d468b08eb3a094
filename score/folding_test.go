package score_test

import (
	"context"
	"slices"
	"testing"

	"boardwrap.example/internal/proptest"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"
)

// A letter folded in three: panel 2 folds in first, panel 0 covers it. Worked
// out by hand.
func letter(t *testing.T) score.Folding {
	t.Helper()
	s := mustStrip(t, []units.Length{100 * mm, 100 * mm, 90 * mm}, score.Valley, score.Valley)
	f, err := s.FoldBy(context.Background(), score.Turn{Score: 1}, score.Turn{Score: 0})
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func TestLetter(t *testing.T) {
	f := letter(t)
	// Seen with panel 0 face up: it lies at the bottom, panel 2 on it, panel 1
	// face down on top.
	if got, want := f.Order(), []int{0, 2, 1}; !slices.Equal(got, want) {
		t.Fatalf("layers %v, want %v", got, want)
	}
	if f.Width() != 100*mm || f.MostLayers() != 3 || f.Thickness(mm/4) != 3*mm/4 {
		t.Errorf("%v wide, %d layers", f.Width(), f.MostLayers())
	}
	if w := f.ThicknessWorking("closed", mm/4); w.Length() != 3*mm/4 {
		t.Error(w)
	}
	var stacks []score.Stack
	for st := range f.Stacks() {
		stacks = append(stacks, st)
	}
	// Panel 2 begins at the fold on the left, score 2, and ends 10 mm before
	// the right edge.
	if len(stacks) != 2 || stacks[0].To != 90*mm || !slices.Equal(stacks[0].Panels, []int{0, 2, 1}) || !slices.Equal(stacks[1].Panels, []int{0, 1}) {
		t.Errorf("stacks %v", stacks)
	}
	if got, want := f.Top(), []score.Shown{{From: 0, To: 100 * mm, Panel: 1, Side: score.Back}}; !slices.Equal(got, want) {
		t.Errorf("top %v, want %v", got, want)
	}
	if got, want := f.Bottom(), []score.Shown{{From: 0, To: 100 * mm, Panel: 0, Side: score.Back}}; !slices.Equal(got, want) {
		t.Errorf("bottom %v, want %v", got, want)
	}
	rooms := []score.Bay{
		{Under: 0, Over: 2, From: 0, To: 90 * mm, Left: -1, Right: -1},
		{Under: 0, Over: 1, From: 90 * mm, To: 100 * mm, Left: -1, Right: 0},
		{Under: 2, Over: 1, From: 0, To: 90 * mm, Left: 1, Right: -1},
	}
	if got := f.Bays(); !slices.Equal(got, rooms) {
		t.Errorf("rooms\n%v, want\n%v", got, rooms)
	}
	creases := []score.Crease{{Score: 1, At: 0, Right: true, Inside: 0}, {Score: 0, At: 100 * mm, Right: false, Inside: 0}}
	if got := f.Creases(); !slices.Equal(got, creases) {
		t.Errorf("creases %v, want %v", got, creases)
	}
	// A card on the face of panel 1, 5 to 80 mm from its left end, score 1.
	// Panel 1 lies face down with its left end on the right, so the card is at
	// 20 to 95 mm from the left edge: under panel 1, over panel 2 as far as
	// that reaches and over panel 0 beyond it.
	lies, err := f.Lies(score.Enclosure{Panel: 1, Side: score.Face, From: 5 * mm, To: 80 * mm, Thickness: mm})
	want := []score.Bay{{Under: 2, Over: 1, From: 20 * mm, To: 90 * mm, Left: -1, Right: -1}, {Under: 0, Over: 1, From: 90 * mm, To: 95 * mm, Left: -1, Right: -1}}
	if err != nil || !slices.Equal(lies, want) {
		t.Errorf("lies %v, want %v, %v", lies, want, err)
	}
	// On the back of panel 1 it lies outside.
	if lies, err := f.Lies(score.Enclosure{Panel: 1, Side: score.Back, To: 80 * mm}); err != nil || len(lies) != 0 {
		t.Errorf("lies %v, %v", lies, err)
	}
	rise, err := f.Profile(mm/4, score.Enclosure{Panel: 1, Side: score.Face, From: 5 * mm, To: 80 * mm, Thickness: mm})
	profile := []score.Rise{
		{From: 0, To: 20 * mm, Layers: 3, Height: 3 * mm / 4},
		{From: 20 * mm, To: 90 * mm, Layers: 3, Enclosures: 1, Height: mm + 3*mm/4},
		{From: 90 * mm, To: 95 * mm, Layers: 2, Enclosures: 1, Height: mm + 2*mm/4},
		{From: 95 * mm, To: 100 * mm, Layers: 2, Height: 2 * mm / 4},
	}
	if err != nil || !slices.Equal(rise, profile) {
		t.Errorf("profile %v, want %v, %v", rise, profile, err)
	}
}

func TestContentErrors(t *testing.T) {
	f := letter(t)
	_, err := f.Profile(-1, score.Enclosure{Panel: 3}, score.Enclosure{Panel: 2, To: 95 * mm}, score.Enclosure{Side: 5, From: 5, To: 5, Thickness: -1})
	violation(t, err, "caliper", check.Negative)
	violation(t, err, "inserts[0].panel", check.Unknown)
	violation(t, err, "inserts[1]", check.OutOfRange)
	violation(t, err, "inserts[2].side", check.Unknown)
	violation(t, err, "inserts[2].thickness", check.Negative)
	violation(t, second(f.Lies(score.Enclosure{Panel: -1})), "insert.panel", check.Unknown)
}

// TestCreaseInside: in the roll fold each fold but the innermost goes round
// the layers rolled up before it.
func TestCreaseInside(t *testing.T) {
	s := mustStrip(t, []units.Length{50 * mm, 49 * mm, 48 * mm, 47 * mm}, score.Repeat(3, score.Valley)...)
	f, err := s.Fold()
	if err != nil {
		t.Fatal(err)
	}
	inside := map[int]int{}
	for _, c := range f.Creases() {
		inside[c.Score] = c.Inside
	}
	// Score 3 joins the innermost panels 3 and 2. Panel 1 covers panel 3:
	// score 2, on the other side, goes round none at its place; panel 0
	// reaches beyond everything, score 1 goes round panel 3, which ends 1 mm
	// before score 1, so nothing is inside it there either.
	if inside[2] != 0 || inside[1] != 0 || inside[0] != 0 {
		t.Errorf("inside %v", inside)
	}
	// Equal panels: score 1 does go round panels 2 and 3.
	s = mustStrip(t, slices.Repeat([]units.Length{50 * mm}, 4), score.Valley, score.Valley, score.Mountain)
	f, err = s.FoldBy(context.Background(), score.Turn{Score: 1}, score.Turn{Score: 0})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range f.Creases() {
		if want := map[int]int{0: 2, 1: 0, 2: 0}[c.Score]; c.Inside != want {
			t.Errorf("score %d goes round %d layers, want %d", c.Score, c.Inside, want)
		}
	}
}

func TestFoldedProperties(t *testing.T) {
	folded := proptest.Map(gen.OneGenOf(foldableDrafts(24), drafts(5, smallWidths(3))), func(d draft) score.Folding {
		s := d.strip()
		f, err := s.Fold()
		if err != nil { // then some of its folds
			turns := make([]score.Turn, 0, s.Len())
			for i := range s.Len() - 1 {
				if _, err := s.FoldBy(context.Background(), append(turns, score.Turn{Score: i})...); err == nil {
					turns = append(turns, score.Turn{Score: i})
				}
			}
			f, _ = s.FoldBy(context.Background(), turns...)
		}
		return f
	})
	properties(t, func(p *gopter.Properties) {
		p.Property("the footprint is between the widest panel and the strip", prop.ForAll(func(f score.Folding) bool {
			return f.Strip().Widest() <= f.Width() && f.Width() <= f.Strip().Length()
		}, folded))
		p.Property("the footprint is the reach of the walk", prop.ForAll(func(f score.Folding) bool {
			spans, _ := walkOf(f.Strip(), f.Flat)
			low, high := spans[0].from, spans[0].to
			for _, s := range spans {
				low, high = min(low, s.from), max(high, s.to)
			}
			for i, s := range spans {
				if from, to := f.Span(i); from != s.from-low || to != s.to-low {
					return false
				}
			}
			return f.Width() == high-low
		}, folded))
		p.Property("stacks tile the footprint and hold all the paper", prop.ForAll(func(f score.Folding) string {
			var at, paper units.Length
			most := 0
			for st := range f.Stacks() {
				if st.From != at || st.To <= st.From || len(st.Panels) == 0 {
					return "a gap"
				}
				if !slices.Equal(st.Panels, f.At(st.From)) || !slices.Equal(st.Panels, f.At(st.To-1)) {
					return "At says something else"
				}
				at = st.To
				for range st.Panels {
					paper += st.To - st.From
				}
				most = max(most, len(st.Panels))
			}
			if at != f.Width() || paper != f.Strip().Length() {
				return "paper is missing"
			}
			if most != f.MostLayers() {
				return "MostLayers"
			}
			return ""
		}, folded))
		p.Property("layers x caliper = thickness", prop.ForAll(func(f score.Folding, n int64) bool {
			caliper, _ := units.Micrometre.Times(n)
			want, _ := caliper.Times(int64(f.MostLayers()))
			var most units.Length
			rises, err := f.Profile(caliper)
			for _, r := range rises {
				if h, _ := caliper.Times(int64(r.Layers)); h != r.Height || r.Layers != len(f.At(r.From)) {
					return false
				}
				most = max(most, r.Height)
			}
			return err == nil && f.Thickness(caliper) == want && most == want && f.ThicknessWorking("", caliper).Length() == want
		}, folded, gen.Int64Range(10, 1000)))
		p.Property("what shows is the outermost layer, face or back by how it lies", prop.ForAll(func(f score.Folding) bool {
			return showsWell(f, f.Top(), true) && showsWell(f, f.Bottom(), false)
		}, folded))
		p.Property("rooms are the gaps between neighbours in every stack", prop.ForAll(func(f score.Folding) bool {
			var gaps, rooms units.Length
			for st := range f.Stacks() {
				for range len(st.Panels) - 1 {
					gaps += st.To - st.From
				}
			}
			for _, r := range f.Bays() {
				rooms += r.To - r.From
				for _, x := range []units.Length{r.From, r.To - 1} {
					at := f.At(x)
					if i := slices.Index(at, r.Under); i < 0 || i+1 >= len(at) || at[i+1] != r.Over {
						return false
					}
				}
			}
			return gaps == rooms
		}, folded))
		p.Property("every fold that was made closes one room or goes round layers", prop.ForAll(func(f score.Folding) bool {
			closing := map[int]bool{}
			for _, r := range f.Bays() {
				closing[r.Left], closing[r.Right] = true, true
			}
			made := 0
			for _, c := range f.Creases() {
				made++
				if (c.Inside == 0) != closing[c.Score] {
					return false
				}
			}
			flat := 0
			for i := range f.Strip().Len() - 1 {
				if f.Flat(i) {
					flat++
				}
			}
			return made+flat == f.Strip().Len()-1
		}, folded))
	})
}

func showsWell(f score.Folding, shown []score.Shown, top bool) bool {
	var at units.Length
	for _, s := range shown {
		layers := f.At(s.From)
		outer := layers[0]
		if top {
			outer = layers[len(layers)-1]
		}
		if s.From != at || outer != s.Panel || (s.Side == score.Face) != (f.FaceUp(s.Panel) == top) {
			return false
		}
		at = s.To
	}
	return at == f.Width()
}
