package folio_test

import (
	"strings"
	"testing"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/folio"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Mitres that would leave the sheet or the side paper, or cross each other, are
// refused in one violation, and what it says would do does.
func TestMitresStayOnTheirPaper(t *testing.T) {
	in := units.Inch
	for name, c := range map[string]struct {
		spec  folio.Spec
		limit units.Length
		path  string
	}{
		// Margins of 100 at the sides and 7 at head and tail of a sheet 54 mm high: legs of 103
		// and more end outside it. With √2 x 1.5 x 1.5875 = 3.37, on the
		// ruler 4, of reach half the height and the reach is 24.
		"a low cover with wide margins": {folio.Spec{
			Cover: units.Size{W: 300 * mm, H: 40 * mm}, Spine: rule.Spine{Width: 20 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
			Margin: rule.Margin{Ideal: 100 * mm}, Covering: stock.Stock{Sheets: []stock.Sheet{{Size: units.Size{W: 1000 * mm, H: 54 * mm}}}},
		}, 24 * mm, "margin.ideal"},
		// 2 in at the sides of a 2 in high cover: half of it and 3/16 in of reach.
		"legs longer than half the height": {folio.Spec{
			Cover: units.MustParseSize("6 x 2 in"), Spine: rule.Spine{Width: in}, Margin: rule.Margin{Ideal: 2 * in},
			Covering: stock.Stock{Sheets: []stock.Sheet{{Size: units.MustParseSize("40 x 3 1/2 in")}}},
		}, 19 * in / 16, "margin.ideal"},
		// 90 mm at the sides of a row 112 mm wide are no matter of the mitres, with 13 at head
		// and tail: they meet inside, as 56 mm and the edge of 2.2 would.
		"wide margins on a narrow row": {folio.Spec{
			Cover: units.Size{W: 40 * mm, H: 250 * mm}, Spine: rule.Spine{Width: 20 * mm}, Hinge: rule.Hinge{Width: 6 * mm}, Rulers: rule.Rulers{Main: units.WholeMillimetres},
			Board: stock.Stock{Caliper: 2 * mm}, Covering: stock.Stock{Caliper: mm / 5, Sheets: []stock.Sheet{{Size: units.Size{W: 1000 * mm, H: 276 * mm}, Grain: stock.GrainAlongHeight}}},
			Margin: rule.Margin{Ideal: 90 * mm, Least: 13 * mm, Tolerated: 13 * mm},
		}, 58 * mm, "margin.ideal"},
		// A strip that reaches 4 in over covers of 4 1/2 leaves 1/2 and the lap
		// of 1/8 to the side paper, and 3/16 in of reach.
		"a narrow side paper": {folio.Spec{
			Cover: units.MustParseSize("4 1/2 x 6 1/4 in"), Spine: rule.Spine{Width: in},
			Quarter: rule.Quarter{Rule: rule.QuarterAlways, Reach: 4 * in},
		}, 13 * in / 16, "margin.ideal"},
		// Nothing to cut: margins of 1/2 in leave at most 15/16 of reach, √2
		// times the distance.
		"a mitre beyond the corner": {folio.Spec{
			Cover: units.MustParseSize("4 1/2 x 6 1/4 in"), Spine: rule.Spine{Width: in},
			Margin: rule.Margin{Ideal: in / 2}, Mitre: rule.Mitre{Distance: in},
		}, units.Diagonal(15*in/32, 15*in/32, units.Down), "mitre.distance"},
	} {
		_, err := folio.Build(c.spec)
		bad, ok := err.(*check.Error)
		if !ok || bad.Len() != 1 {
			t.Errorf("%s: want one violation, got %v", name, err)
			continue
		}
		for v := range bad.All() {
			if v.Path != c.path || v.Bound != check.AtMost || v.Limit != c.limit {
				t.Errorf("%s: %+v, want at most %v for %s", name, v, c.limit, c.path)
			}
		}
		mended := c.spec
		if c.path == "mitre.distance" {
			mended.Mitre.Distance = c.limit
		} else {
			mended.Margin.Ideal = c.limit
		}
		if _, err := folio.Build(mended); err != nil {
			t.Errorf("%s: what would do does not: %v", name, err)
		}
	}
}

// Steps of 25 mm put the reach at 25 mm, and cuts beside a row 20 mm high meet with any margin
// on such a ruler: then it is the cover that is too small.
func TestNoMarginKeepsTheMitres(t *testing.T) {
	coarse, _ := units.NewRuler(25*mm, units.MetricDecimal)
	s := plainCase()
	s.Cover, s.Spine.Width, s.Rulers.Wrap = units.Size{W: 40 * mm, H: 20 * mm}, 20*mm, coarse
	s.Margin = rule.Margin{Ideal: 50 * mm, Least: mm, Tolerated: mm}
	if v, ok := refusal(s, "cover", folio.MitresMeet); !ok || v.Bound != check.NoBound || !strings.HasPrefix(v.Want, "a larger cover") {
		t.Errorf("%+v: %v", v, builds(s))
	}
	for s.Margin.Ideal = 25 * mm; s.Margin.Ideal < 200*mm; s.Margin.Ideal += 25 * mm {
		if builds(s) == nil {
			t.Errorf("a margin of %v does", s.Margin.Ideal)
		}
	}
}

// Whatever the margins, the cover and the style: every cut that is accepted ends
// on the edges of its piece, the area of the outline is that of the piece less
// its four triangles, and nothing is left of size 0 on the coarsest ruler.
func TestCutsOnThePiece(t *testing.T) {
	coarse, _ := units.NewRuler(25*mm, units.MetricDecimal)
	ten, _ := units.NewRuler(10*mm, units.MetricDecimal)
	half, _ := units.NewRuler(units.Inch/2, units.InchFraction)
	built, small := 0, 0
	proptest.Run(t, 1500, func(props *gopter.Properties) {
		props.Property("cuts on the piece, nothing rounds to nothing", prop.ForAll(func(s folio.Spec, w, h, ideal units.Length, r, sheet int, mitre, reach units.Length) string {
			s.Cover = units.Size{W: w, H: h}
			s.Margin = rule.Margin{Ideal: ideal, Tolerated: min(ideal, 4*mm)}
			s.Mitre = rule.Mitre{Distance: mitre}
			s.Quarter.Reach = reach
			s.Covering.Sheets = nil
			if sheet > 0 {
				s.Covering.Sheets = []stock.Sheet{{Size: units.Size{W: 2 * units.Metre, H: h + 20*mm}}}
			}
			s.Lining.Inset = 3 * mm
			s.Rulers = rule.Rulers{Main: []units.Ruler{units.Sixteenths, units.WholeMillimetres, coarse, ten, half}[r]}
			p, err := folio.Build(s)
			if err != nil {
				return ""
			}
			built++
			for x := range p.Pieces() {
				if x.Size().Empty() {
					return x.Name() + " has no size"
				}
				area := x.Size().Area()
				var legs [4]units.Length
				for c := range x.CornerCuts() {
					leg := c.Leg().Length()
					if legs[c.Corner()] = leg; leg <= 0 {
						return "a leg of " + leg.String()
					}
					if 3*leg > x.Size().H {
						small++
					}
					cut := c.Cut()
					for _, end := range []units.Point{cut.From, cut.To} {
						if end.X < 0 || end.Y < 0 || end.X > x.Size().W || end.Y > x.Size().H || end.X != 0 && end.Y != 0 && end.X != x.Size().W && end.Y != x.Size().H {
							return "a cut ends at " + end.String() + " of a piece of " + x.Size().String()
						}
					}
					triangle, _ := leg.By(leg).Scale(1, 2, units.Up)
					area = area.Minus(triangle)
				}
				if max(legs[0], legs[3])+max(legs[1], legs[2]) > x.Size().W || legs[0]+legs[3] > x.Size().H || legs[1]+legs[2] > x.Size().H {
					return "mitres cross on a piece of " + x.Size().String()
				}
				if part := x.Part(); (part == "wrap" || part == "case" || part == "liner") && x.Outline().Area(units.Down).Compare(area) < 0 {
					return "the outline of " + x.Name() + " lacks area"
				}
			}
			for _, a := range []folio.Extent{p.Wrap().Across(), p.Wrap().Along()} {
				if a.Smaller() < p.Spec().Margin.Tolerated {
					return "a margin below what is tolerated"
				}
			}
			for g := range p.Gaps() {
				if g.Width() <= 0 {
					return "a gap without width"
				}
			}
			return ""
		}, anySpec(), within(20*mm, 200*mm), within(20*mm, 200*mm), within(5*mm, 90*mm), gen.IntRange(0, 4), gen.IntRange(0, 1), within(2*mm, 12*mm), within(0, 150*mm)))
	})
	if built < proptest.Cases(300) || small < proptest.Cases(40) {
		t.Errorf("only %d built, %d cuts near their limits", built, small)
	}
}

// A mitre that leaves nothing to cut is told by the distance that was given, and the
// greatest that would do does.
func TestMitreTooFar(t *testing.T) {
	s := plainCase()
	s.Mitre = rule.Mitre{Rule: rule.MitreFixed, Distance: 60 * mm}
	v := only(builds(s))
	if v.Path != "mitre.distance" || v.Code != check.TooLarge || v.Bound != check.AtMost || v.Limit+v.By != 60*mm {
		t.Fatalf("%+v", v)
	}
	for more, does := range map[units.Length]bool{0: true, units.Millimetre: false} {
		if s.Mitre.Distance = v.Limit + more; (builds(s) == nil) != does {
			t.Errorf("%v from the corner: %v", s.Mitre.Distance, builds(s))
		}
	}
}

// No cut goes beyond the middle of its edge, also where the margin at the left is put up to
// the ruler: of 181.3 mm at the sides 91 are at the left, as half would be more than the usual
// least and 90 less. With half the height, 85.7 mm, and 5 of reach, it may be 90.7.
func TestMitresMeetAtTheWiderMargin(t *testing.T) {
	s := plainCase()
	s.Cover.H, s.Rulers.Board, s.Mitre.Distance = 171400*units.Micrometre, everyNanometre, 3*mm
	s.Margin = rule.Margin{Ideal: 95 * mm, Least: 90300 * units.Micrometre, Tolerated: 6 * mm}
	for _, c := range []struct {
		both units.Length
		meet bool
	}{{181300*units.Micrometre - nm, false}, {181300 * units.Micrometre, true}} {
		s.Covering.Sheets = []stock.Sheet{{Size: units.Size{W: 277*mm + c.both, H: 221400 * units.Micrometre}, Grain: stock.GrainAlongHeight}}
		if _, refused := refusal(s, "margin.ideal", folio.MitresMeet); refused != c.meet || !c.meet && builds(s) != nil {
			t.Errorf("%v at the sides: %v", c.both, builds(s))
		}
	}
}
