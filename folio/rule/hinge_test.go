package rule_test

import (
	"encoding/json"
	"math"
	"math/rand"
	"os"
	"testing"

	"boardwrap.example/folio/rule"
	"boardwrap.example/internal/planetest"
	"boardwrap.example/units"
)

const mm = units.Millimetre

type vec = planetest.Vec

// hingeOverlaps turns two boards of caliper t about the crease of a gap g by
// angle and reports whether they run into each other. The left board lies
// along −x with its thickness upwards, on the concave side; the covering bends
// upwards.
func hingeOverlaps(t, g, offset, angle float64, c rule.CreasePlace) bool {
	const long = 60
	theta := angle * math.Pi / 180
	turn := func(p vec, by float64) vec {
		return vec{X: p.X*math.Cos(by) - p.Y*math.Sin(by), Y: p.X*math.Sin(by) + p.Y*math.Cos(by)}
	}
	// place puts a board whose near edge is at distance d from a point at
	// where, in direction by.
	place := func(at vec, d, by float64) []vec {
		out := []vec{{X: d, Y: 0}, {X: d + long*t, Y: 0}, {X: d + long*t, Y: t}, {X: d, Y: t}}
		for i := range out {
			out[i] = turn(out[i], by)
			out[i].X += at.X
			out[i].Y += at.Y
		}
		return out
	}
	left := func(d float64) []vec {
		return []vec{{X: -d, Y: 0}, {X: -d - long*t, Y: 0}, {X: -d - long*t, Y: t}, {X: -d, Y: t}}
	}
	switch c {
	case rule.CreaseAtEdge:
		return planetest.Overlap(left(0), place(vec{}, g, theta))
	case rule.CreaseMidGap:
		return planetest.Overlap(left(g/2), place(vec{}, g/2, theta))
	case rule.CreaseAtOffset:
		return planetest.Overlap(left(offset), place(vec{}, g-offset, theta))
	case rule.CreaseTwo:
		// The covering between the creases turns by half the angle.
		return planetest.Overlap(left(0), place(turn(vec{X: g, Y: 0}, theta/2), 0, theta))
	case rule.CreaseRound:
		r := g / theta
		return planetest.Overlap(left(0), place(vec{X: r * math.Sin(theta), Y: r * (1 - math.Cos(theta))}, 0, theta))
	}
	panic("no such crease")
}

// The least gap again by brute force: 40,000 random pairs of boards turned
// about every kind of crease either run into each other or not, and the rule
// must say which. Pairs within a millionth of the border are left out, where
// floating point cannot tell.
func TestHingeByBruteForce(t *testing.T) {
	rng := rand.New(rand.NewSource(7))
	creases := []rule.CreasePlace{rule.CreaseAtEdge, rule.CreaseMidGap, rule.CreaseAtOffset, rule.CreaseTwo, rule.CreaseRound}
	tried, collided := 0, 0
	for range 40_000 {
		c := creases[rng.Intn(len(creases))]
		caliper := units.Length(200_000 + rng.Int63n(5_000_000))
		angle := 1 + rng.Intn(180)
		gap := units.Length(float64(caliper) * (0.05 + 3.5*rng.Float64()))
		offset := units.Length(0)
		if c == rule.CreaseAtOffset {
			offset = units.Length(rng.Int63n(int64(gap)/2 + 1))
		}
		least, closes := rule.LeastGap(caliper, angle, c, offset)
		single := c == rule.CreaseAtEdge || c == rule.CreaseMidGap || c == rule.CreaseAtOffset
		if closes != (angle < 180 || !single) {
			t.Fatalf("%v at %d degrees: closes = %v", c, angle, closes)
		}
		if !closes {
			continue
		}
		if d := float64(gap-least) / float64(caliper); math.Abs(d) < 1e-6 {
			continue
		}
		tried++
		hit := hingeOverlaps(float64(caliper), float64(gap), float64(offset), float64(angle), c)
		if hit {
			collided++
		}
		if hit == (gap >= least) {
			t.Fatalf("caliper %v, gap %v, offset %v, %d degrees, crease %v: least gap %v, but boards run into each other: %v",
				caliper, gap, offset, angle, c, least, hit)
		}
	}
	if tried < 30_000 || collided < tried/10 || collided > tried*9/10 {
		t.Errorf("%d pairs tried, %d ran into each other: the sample says little", tried, collided)
	}
}

// The least gap by motion, for every crease and every whole angle: two boards
// turned from flat to the angle never meet on the way with it, and do with 3 %
// less.
func TestLeastGapByMotion(t *testing.T) {
	const caliper = 2 * mm
	for _, c := range []rule.CreasePlace{rule.CreaseAtEdge, rule.CreaseMidGap, rule.CreaseAtOffset, rule.CreaseTwo, rule.CreaseRound} {
		for angle := 1; angle <= 180; angle++ {
			for _, offset := range []units.Length{0, mm / 5, mm / 2} {
				if offset > 0 && c != rule.CreaseAtOffset {
					continue
				}
				least, ok := rule.LeastGap(caliper, angle, c, offset)
				if !ok {
					continue
				}
				if least > 20*caliper {
					continue // longer than the boards are here
				}
				if c == rule.CreaseAtOffset && offset > least/2 {
					continue // then it is the crease at mid-gap
				}
				meet := func(gap float64, thick float64) bool {
					for k := 1; k <= 90; k++ {
						if hingeOverlaps(thick, gap, offset.Millimetres(), float64(angle)*float64(k)/90, c) {
							return true
						}
					}
					return false
				}
				gap := least.Millimetres()
				if meet(gap, caliper.Millimetres()*(1-1e-6)) {
					t.Fatalf("%v, %d degrees, offset %v: boards meet on the way with a gap of %v", c, angle, offset, least)
				}
				if less := gap * 0.97; less > 2*offset.Millimetres() && !meet(less, caliper.Millimetres()) {
					t.Fatalf("%v, %d degrees, offset %v: a gap of 3 %% less than %v does too", c, angle, offset, least)
				}
			}
		}
	}
}

// creaseNamed returns the crease that has a text.
func creaseNamed(t *testing.T, text string) (c rule.CreasePlace) {
	t.Helper()
	if err := c.UnmarshalText([]byte(text)); err != nil {
		t.Fatal(err)
	}
	return c
}

// The least gap at 90, 120 and 180 degrees for every crease.
func TestLeastGapTable(t *testing.T) {
	var table struct {
		Source string
		T      units.Length
		Rows   []struct {
			Crease string
			Angle  int
			MM     *float64
		}
	}
	data, err := os.ReadFile("testdata/leastgaps.json")
	if err == nil {
		err = json.Unmarshal(data, &table)
	}
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range table.Rows {
		got, ok := rule.LeastGap(table.T, row.Angle, creaseNamed(t, row.Crease), 0)
		if ok != (row.MM != nil) {
			t.Errorf("%s, %d degrees: closes = %v, want %v", row.Crease, row.Angle, ok, row.MM != nil)
			continue
		}
		if row.MM != nil && math.Abs(got.Millimetres()-*row.MM) > 1e-6 {
			t.Errorf("%s, %d degrees: %v, want %v mm", row.Crease, row.Angle, got, *row.MM)
		}
	}
}
