package pocket_test

import (
	"errors"
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
	mended, bounded := 0, 0
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
	if most := proptest.Cases(600); mended < most/4 || bounded < most/100 {
		t.Errorf("%d mended, %d of them up to the score beside", mended, bounded)
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
			mended++
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
			return ""
		}, gen.SliceOfN(5, gen.Int64Range(100, 900)), gen.Int64Range(0, 60), gen.Bool()))
	})
	if mended < proptest.Cases(400)/20 {
		t.Errorf("only %d mended", mended)
	}
}

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
}
