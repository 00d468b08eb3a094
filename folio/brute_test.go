package folio_test

import (
	"math"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/planetest"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

type vec = planetest.Vec

// The mitre again by sampling: the wrap's corner is cut along the plan's line
// and both flaps are folded over the edge; no place of the board near its
// corner may stay bare, and the strip where the flaps lie double is as wide as
// the plan says.
func TestMitreBySampling(t *testing.T) {
	for _, width := range []rule.MitreRule{rule.MitreOneCaliper, rule.MitreOneAndHalfCalipers, rule.MitreEighth} {
		for _, caliper := range []string{"0.8 mm", "1/16 in", "2 mm", "3 mm"} {
			for _, ruler := range []units.Ruler{units.SixtyFourths, units.TenthMillimetres} {
				plan, err := folio.Build(folio.Spec{
					Cover:    units.MustParseSize("100 x 140 mm"),
					Spine:    rule.Spine{Width: 20 * units.Millimetre},
					Board:    stock.Stock{Caliper: units.MustParse(caliper)},
					Covering: stock.Stock{Caliper: 150 * units.Micrometre, Sheets: []stock.Sheet{{Size: units.MustParseSize("270 x 200 mm")}}},
					Margin:   rule.Margin{Ideal: 22 * units.Millimetre},
					Mitre:    rule.Mitre{Rule: width},
					Rulers:   rule.Rulers{Main: ruler},
				})
				if err != nil {
					t.Fatal(err)
				}
				for _, c := range plan.Wrap().Corners() {
					sampleMitre(t, plan, c)
				}
			}
		}
	}
	// A cut nearer than the edge needs leaves board bare and must be refused.
	_, err := folio.Build(folio.Spec{
		Cover: units.MustParseSize("100 x 140 mm"), Spine: rule.Spine{Width: 20 * units.Millimetre},
		Mitre: rule.Mitre{Distance: units.Millimetre}, // 1.41 mm of reach for an edge of 1.75 mm
	})
	if !refusedWith(err, "mitre.distance", folio.MitreClose) {
		t.Errorf("a mitre too close to the corner: %v", err)
	}
}

func sampleMitre(t *testing.T, plan *folio.Plan, c folio.CornerCut) {
	t.Helper()
	wrap := plan.Wrap()
	left, _ := plan.OnWrap(boards.LeftCover)
	right, _ := plan.OnWrap(boards.RightCover)
	board := left.Union(right)
	mm := func(l units.Length) float64 { return l.Millimetres() }

	// Coordinates from the board's corner: u outwards across, v outwards
	// along; on the board both are negative.
	corner := units.Point{X: board.Min.X, Y: board.Min.Y}
	su, sv := -1.0, -1.0
	if c.Corner() == score.HeadRight || c.Corner() == score.TailRight {
		corner.X, su = board.Max.X, 1
	}
	if c.Corner() == score.TailRight || c.Corner() == score.TailLeft {
		corner.Y, sv = board.Max.Y, 1
	}
	at := func(p units.Point) vec {
		return vec{X: su * mm(p.X-corner.X), Y: sv * mm(p.Y-corner.Y)}
	}
	a, b := at(c.Cut().From), at(c.Cut().To)
	if math.Abs(math.Abs((b.Y-a.Y)/(b.X-a.X))-1) > 1e-9 {
		t.Fatalf("%v: the cut does not run at 45 degrees", c.Corner())
	}
	// Which side of the cut is kept: that of the board's corner.
	side := func(p vec) float64 { return (b.X-a.X)*(p.Y-a.Y) - (b.Y-a.Y)*(p.X-a.X) }
	keep := side(vec{X: -1, Y: -1})
	blank := units.RectAt(units.Point{}, wrap.Size())
	lowX, highX := at(blank.Min), at(blank.Max)
	there := func(p vec) bool {
		if side(p)*keep < -1e-9 {
			return false
		}
		return p.X <= max(lowX.X, highX.X)+1e-9 && p.Y <= max(lowX.Y, highX.Y)+1e-9
	}
	edge := mm(c.Edge())
	// A point of the board lies under the flap that is edge further out on the
	// other side of the board's edge.
	coveredAcross := func(u, v float64) bool { return there(vec{X: edge - u, Y: v}) }
	coveredAlong := func(u, v float64) bool { return there(vec{X: u, Y: edge - v}) }
	lap := min(mm(wrap.Across().Smaller()), mm(wrap.Along().Smaller())) - edge
	const step = 0.05
	widest := 0.0
	for du := step / 2; du < lap/2; du += step {
		for dv := step / 2; dv < lap/2; dv += step {
			x, y := coveredAcross(-du, -dv), coveredAlong(-du, -dv)
			if !x && !y {
				t.Fatalf("%v: bare board %.2f and %.2f mm from the corner's edges", c.Corner(), du, dv)
			}
			if x && y {
				widest = max(widest, math.Abs(du-dv))
			}
		}
	}
	// The double strip lies along the diagonal, |du − dv| ≤ half its width
	// times √2, and is cut square to the diagonal.
	if got, want := widest*math.Sqrt2, mm(c.Overlap()); math.Abs(got-want) > 2*step {
		t.Errorf("%v: the flaps overlap by %.2f mm, the plan says %.2f", c.Corner(), got, want)
	}
	// The faces of the board's edge at its corner are covered as well.
	for h := 0.0; h <= edge; h += edge / 16 {
		if !there(vec{X: h, Y: 0}) || !there(vec{X: 0, Y: h}) {
			t.Fatalf("%v: the edge is bare %.2f mm up", c.Corner(), h)
		}
	}
}
