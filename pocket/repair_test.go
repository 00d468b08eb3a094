package pocket_test

import (
	"errors"
	"strconv"
	"strings"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/internal/proptest"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// A strip whose scores break a rule is refused with the places on the ruler where
// one score puts it right: all of them, which is found by trying every graduation.
func TestScoreThatMends(t *testing.T) {
	step := 3 * mm
	r, err := units.NewRuler(step, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	mended, bounded, folded := 0, 0, 0
	proptest.Run(t, 600, func(p *gopter.Properties) {
		p.Property("all places of one score that mend it, and no others", prop.ForAll(func(panels []int64, overhang int64) string {
			// Strips of 40 to 136 mm, with the scores on tenths of a millimetre.
			var s pocket.FoldedStrip
			var at units.Length
			for i, n := range panels {
				if at += units.Length(n) * mm / 10; i < 3 {
					s.Scores[i] = at
				}
			}
			s.Strip, s.Overhang = units.Size{W: at, H: 120 * mm}, units.Length(overhang)*mm/10
			// The front lies over the base, the hem in the front, the flap over the base and
			// beyond it.
			if folds := panels[0] <= panels[1]+overhang && panels[2] <= panels[1] && panels[3] <= panels[2]; folds == foldsNot(s, r) {
				return "what folds is refused, or the other way round"
			} else if folds {
				folded++
			}
			_, err := s.Design(pocket.Paper{}, r)
			bad := (*check.Error)(nil)
			if !errors.As(err, &bad) {
				return ""
			}
			for i := range 3 {
				v, ok := bad.Find(check.Index("scores", i), pocket.DoesNotFold)
				if !ok || !strings.HasPrefix(v.Want, "a score ") {
					continue
				}
				mended++
				from, to, isRange := strings.Cut(strings.TrimPrefix(strings.TrimPrefix(strings.SplitN(v.Want, ";", 2)[0], "a score at "), "a score from "), " to ")
				if !isRange {
					to = from
				}
				low, err1 := units.Parse(from)
				high, err2 := units.Parse(to)
				if err1 != nil || err2 != nil {
					return "unread: " + v.Want
				}
				try := s
				for x := step; x < at; x += step {
					try.Scores[i] = x
					if folds := !foldsNot(try, r); folds != (low <= x && x <= high) {
						return v.Want + ", but at " + x.String() + " it is otherwise"
					}
				}
				if above := s.Scores[i] > high; above != (v.Bound == check.AtMost) || above == (v.Bound == check.AtLeast) || above != (v.Limit == high && v.By == s.Scores[i]-high) {
					return "the other way round: " + v.Error()
				}
				if low%step != 0 || high%step != 0 || v.Limit != low && v.Limit != high {
					return "off the ruler: " + v.Want
				}
				ends := []units.Length{0, s.Scores[0], s.Scores[1], s.Scores[2], at}
				if low-ends[i] <= step || ends[i+2]-high <= step {
					bounded++
				}
			}
			return ""
		}, gen.SliceOfN(4, gen.Int64Range(100, 340)), gen.Int64Range(0, 60)))
	})
	t.Logf("%d mended, %d of them up to the score beside", mended, bounded)
	if most := proptest.Cases(600); mended < most/4 || bounded < most/100 || folded < most/20 {
		t.Errorf("%d mended, %d of them up to the score beside, %d folded", mended, bounded, folded)
	}
}

// foldsNot reports whether the scores of a strip are refused.
func foldsNot(s pocket.FoldedStrip, r units.Ruler) bool {
	_, err := s.Design(pocket.Paper{}, r)
	bad := (*check.Error)(nil)
	if !errors.As(err, &bad) {
		return false
	}
	for v := range bad.All() {
		if strings.HasPrefix(v.Path, "scores") {
			return true
		}
	}
	return false
}

// A flap of 60 mm over a base that ends a nanometre before 100 mm: folded at 50 mm it
// would be a nanometre wider than the base, so 49 is the last graduation that does. And a
// front that ends a nanometre after 100 mm over a base from 20 mm on: at 60 mm it would be
// a nanometre wider than the base, so 61 is the first.
func TestScoreThatMendsToTheNanometre(t *testing.T) {
	for _, c := range []struct {
		scores [4]units.Length
		i      int
		want   string
		limit  units.Length
	}{
		{[4]units.Length{60 * mm, 100*mm - 1, 125 * mm}, 0, "a score from 1 mm to 49 mm;", 49 * mm},
		{[4]units.Length{20 * mm, 55 * mm, 100*mm + 1}, 1, "a score from 61 mm to 85 mm;", 61 * mm},
	} {
		s := pocket.FoldedStrip{Strip: units.Size{W: c.scores[2] + 15*mm, H: 120 * mm}, Scores: c.scores}
		_, err := s.Design(pocket.Paper{}, units.WholeMillimetres)
		var bad *check.Error
		if !errors.As(err, &bad) {
			t.Fatal(err)
		}
		if v, ok := bad.Find(check.Index("scores", c.i), pocket.DoesNotFold); !ok || !strings.HasPrefix(v.Want, c.want) || v.Limit != c.limit {
			t.Errorf("%v: %v", c.scores, err)
		}
		if s.Scores[c.i] = c.limit; foldsNot(s, units.WholeMillimetres) {
			t.Errorf("%v: with %v it does not fold either", c.scores, c.limit)
		}
	}
}

// Where no single score mends a strip, the scores that are told do: all of them, put as
// told on the ruler, and no panel but the base is then wider.
func TestScoresThatMend(t *testing.T) {
	mended := 0
	proptest.Run(t, 400, func(p *gopter.Properties) {
		p.Property("they mend", prop.ForAll(func(panels []int64, overhang int64, spine bool) string {
			var s pocket.FoldedStrip
			var at units.Length
			if !spine {
				panels = panels[:4]
			}
			for i, n := range panels {
				if at += units.Length(n) * mm / 10; i < len(panels)-1 {
					s.Scores[i] = at
				}
			}
			s.Strip, s.Overhang = units.Size{W: at, H: 120 * mm}, units.Length(overhang)*mm/10
			_, err := s.Design(pocket.Paper{}, units.WholeMillimetres)
			bad := (*check.Error)(nil)
			if !errors.As(err, &bad) {
				return ""
			}
			v, ok := bad.Find("scores", pocket.DoesNotFold)
			if !ok {
				for v := range bad.All() {
					if v.Code == pocket.DoesNotFold && !strings.HasPrefix(v.Want, "a score ") {
						return "neither a score nor scores: " + v.Error()
					}
				}
				return ""
			}
			if mended++; bad.Len() != 1 {
				return "more is told than that: " + bad.Error()
			}
			// What is got are the rules that are broken, and no others.
			var got []string
			flap, back := panels[0], panels[len(panels)-3:]
			for _, c := range []struct {
				name     string
				is, most int64
				beside   string
				of       int64
			}{
				{"pocket front", back[1], back[0], "base", back[0]}, {"hem", back[2], back[1], "pocket front", back[1]}, {"flap", flap, back[0] + overhang, "base", back[0]},
			} {
				if c.is > c.most {
					got = append(got, c.name+" "+tenths(c.is)+" wide beside a "+c.beside+" of "+tenths(c.of))
				}
			}
			if want := strings.Join(got, ", "); v.Got != want {
				return "it says " + v.Got + "; want " + want
			}
			places, _, _ := strings.Cut(strings.TrimPrefix(v.Want, "scores at "), ";")
			try := s
			for i, text := range strings.Split(strings.Replace(places, " and ", ", ", 1), ", ") {
				l, err := units.Parse(text)
				if err != nil || i > 3 || l%mm != 0 {
					return "unread: " + v.Want
				}
				try.Scores[i] = l
			}
			if foldsNot(try, units.WholeMillimetres) {
				return "with " + v.Want + " it does not fold either"
			}
			// The flap and the front are as wide as they may be, on the ruler.
			last := len(panels) - 2
			if got, want := try.Scores[0], units.Length(min(flap, back[0]+overhang)/10)*mm; got != want {
				return "with " + v.Want + " the flap is not " + want.String() + " wide"
			}
			if got, want := try.Scores[last]-try.Scores[last-1], units.Length(min(back[1], back[0])/10)*mm; got != want {
				return "with " + v.Want + " the front is not " + want.String() + " wide"
			}
			base := len(panels) - 3 // the one that takes what the others give
			for i, from, before := 0, units.Length(0), units.Length(0); i < len(panels); i++ {
				to, at := s.Strip.W, s.Strip.W
				if i < len(panels)-1 {
					to, at = try.Scores[i], s.Scores[i]
				}
				if i != base && to-from > at-before {
					return "with " + v.Want + " a panel is wider"
				}
				from, before = to, at
			}
			return ""
		}, gen.SliceOfN(5, gen.Int64Range(100, 900)), gen.Int64Range(0, 60), gen.Bool()))
	})
	if mended < proptest.Cases(400)/20 {
		t.Errorf("only %d mended", mended)
	}
}

// tenths writes tenths of a millimetre.
func tenths(n int64) string { return strconv.FormatFloat(float64(n)/10, 'f', -1, 64) + " mm" }

// On a ruler that is coarser than the panels no scores mend a strip: each rule that is
// broken is told by itself, with the widths that break it, at the score where the panel
// ends. Flap 0.1, base 0.2, front 0.7 and hem 0.3 mm: only the front is wider than what
// it lies over.
func TestScoresThatNothingMends(t *testing.T) {
	s := pocket.FoldedStrip{Strip: units.Size{W: 13 * mm / 10, H: 120 * mm}}
	s.Scores = [4]units.Length{1 * mm / 10, 3 * mm / 10, 10 * mm / 10}
	_, err := s.Design(pocket.Paper{}, units.WholeMillimetres)
	var bad *check.Error
	if !errors.As(err, &bad) {
		t.Fatal(err)
	}
	told := 0
	for v := range bad.All() {
		if v.Code != pocket.DoesNotFold {
			continue
		}
		told++
		if v.Path != "scores[2]" || v.Got != "pocket front 0.7 mm wide beside a base of 0.2 mm" || !strings.HasPrefix(v.Want, "pocket front at most 0.2 mm: ") {
			t.Errorf("%+v", v)
		}
	}
	if told != 1 {
		t.Error(err)
	}
	// Flap 0.1, base 0.2, front 0.1 and hem 0.3 mm: the hem, at the last score.
	hem := s
	hem.Scores[2], hem.Strip.W = 4*mm/10, 7*mm/10
	if !errors.As(foldStrip(hem), &bad) || bad.Len() != 1 {
		t.Error(bad)
	} else if _, ok := bad.Find("scores[2]", pocket.DoesNotFold); !ok {
		t.Error(bad)
	}
	// A hem as wide as the front breaks no rule, so the front alone is told.
	s.Scores[2], s.Strip.W = 7*mm/10, 11*mm/10
	if !errors.As(foldStrip(s), &bad) || bad.Len() != 1 {
		t.Error(bad)
	}
}

func foldStrip(s pocket.FoldedStrip) error {
	_, err := s.Design(pocket.Paper{}, units.WholeMillimetres)
	return err
}

// A flap may be as wide as the base and what it may reach beyond it: 52 + 5 mm.
func TestFlapWiderThanItsOverhang(t *testing.T) {
	s := pocket.FoldedStrip{Flap: 60 * mm, Base: 52 * mm, Front: 30 * mm, Hem: 20 * mm, Overhang: 5 * mm, Strip: units.Size{W: 162 * mm, H: 120 * mm}}
	_, err := s.Design(pocket.Paper{}, units.WholeMillimetres)
	var bad *check.Error
	if !errors.As(err, &bad) {
		t.Fatal(err)
	}
	if v, ok := bad.Find("flap", pocket.DoesNotFold); !ok || !strings.HasPrefix(v.Want, "flap at most 57 mm: ") || v.Limit != 57*mm || v.By != 3*mm {
		t.Error(err)
	}
}

// Of a height at hand five pleats show a seventh each, and a content as high as three of
// them goes in: one of 57.857143 mm takes 7/3 of that, a third of a nanometre more than
// 135 mm, so 136 on a ruler of millimetres.
func TestPleatsTakeAThirdOfANanometreMore(t *testing.T) {
	p := pocket.Pleat{Content: pocket.Content{Name: "card", Size: units.Size{W: 60 * mm, H: 57_857_143}}, Pleats: 5, Place: units.Size{W: 100 * mm, H: 135 * mm}}
	_, err := p.Design(pocket.Paper{}, units.WholeMillimetres)
	var bad *check.Error
	if !errors.As(err, &bad) {
		t.Fatal(err)
	}
	if v, ok := bad.Find("place.h", check.TooSmall); !ok || v.Limit != 136*mm {
		t.Errorf("%+v", v)
	}
	p.Content.Size.H--
	if _, err := p.Design(pocket.Paper{}, units.WholeMillimetres); err != nil {
		t.Error(err)
	}
}
