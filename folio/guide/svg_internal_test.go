package guide

import (
	"fmt"
	"math/big"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"boardwrap.example/units"
)

// A name is drawn whole up to 40 signs; of a longer one come 39 and a sign that says so.
func TestLongNamesAreCut(t *testing.T) {
	for n, want := range map[int]int{0: 0, 39: 39, 40: 40, 41: 39, 400: 39} {
		name := strings.Repeat("é", n)
		got := short(name)
		whole, cut := strings.CutSuffix(got, "…")
		if cut != (n > 40) || utf8.RuneCountInString(whole) != want {
			t.Errorf("of %d signs come %q", n, got)
		}
	}
}

// The bar of a family's drawing is as long as a round number of inches or of centimetres,
// the longest of 1, 2, 5, 10, 20, 50 and 100 that is drawn no longer than 45 mm, if any is.
func TestBarIsRound(t *testing.T) {
	for n, unit := range map[units.Notation]units.Length{units.MetricDecimal: units.Centimetre, units.InchFraction: units.Inch, units.InchDecimal: units.Inch} {
		for _, times := range []int64{1, 3, 8, 30, 400} { // so many times smaller
			s := scaler{num: units.Millimetre, den: units.Length(times) * units.Millimetre}
			want := unit
			for _, k := range []units.Length{100, 50, 20, 10, 5, 2} {
				if (k * unit).Nanometres() <= 45*units.Millimetre.Nanometres()*times {
					want = k * unit
					break
				}
			}
			if got := barLength(s, n); got != want {
				t.Errorf("%v, %d times smaller: %v; want %v", n, times, got, want)
			}
		}
	}
}

// A coordinate is a decimal number as SVG has it (SVG 1.1, section 4.2: a sign,
// digits, a point and digits) and read as one it is the length in millimetres exactly.
func TestCoordinatesAreExact(t *testing.T) {
	number := regexp.MustCompile(`^-?(0|[1-9][0-9]*)(\.[0-9]*[1-9])?$`)
	for _, n := range []int64{0, 1, 9, 10, 100_000, 123_456, 999_999, 1_000_000, 1_000_001, 1_050_000, 25_400_000, 987_654_321_000} {
		for _, n := range []int64{n, -n} {
			s := string((&encoder{}).mm(units.Length(n)).dst)
			got, ok := new(big.Rat).SetString(s)
			if want := big.NewRat(n, 1_000_000); !ok || !number.MatchString(s) || got.Cmp(want) != 0 {
				t.Errorf("%d nm are written %q", n, s)
			}
		}
	}
}

// A ruler held against the bars agrees: a mark at each centimetre of 100 mm and at each
// quarter of 4 in, a longer one at the halves and the ends and at each inch, and
// nothing beyond.
func TestBarsAreTrue(t *testing.T) {
	svg := string(appendBars(nil))
	for _, bar := range []struct {
		long, every, longer *big.Rat
		name                string
	}{{big.NewRat(100, 1), big.NewRat(10, 1), big.NewRat(50, 1), "100 mm"}, {big.NewRat(1016, 10), big.NewRat(635, 100), big.NewRat(254, 10), "4 in"}} {
		before, _, ok := strings.Cut(svg, ">"+bar.name+"</text>")
		if !ok {
			t.Fatalf("no bar of %s in %s", bar.name, svg)
		}
		_, d, _ := strings.Cut(before[strings.LastIndex(before, "<path"):], ` d="M0 `)
		d, _, _ = strings.Cut(d, `"`)
		line, ticks, _ := strings.Cut(d, "M")
		y, end, _ := strings.Cut(line, "H")
		if long, ok := new(big.Rat).SetString(end); !ok || long.Cmp(bar.long) != 0 {
			t.Errorf("the bar of %s is %s long", bar.name, end)
		}
		at := new(big.Rat)
		for _, tick := range strings.Split(ticks, "M") {
			var x, from string
			where, high, _ := strings.Cut(tick, "v")
			if _, err := fmt.Sscan(where, &x, &from); err != nil {
				t.Fatal(err)
			}
			got, _ := new(big.Rat).SetString(x)
			if got.Cmp(at) != 0 || from != y {
				t.Errorf("%s: a mark at %s, %s; want one at %s", bar.name, x, from, at.FloatString(3))
			}
			if long := new(big.Rat).Quo(at, bar.longer).IsInt(); long != (high == "3.5") || !long && high != "2" {
				t.Errorf("%s: the mark at %s is %s long", bar.name, x, high)
			}
			at.Add(at, bar.every)
		}
		if at.Sub(at, bar.every).Cmp(bar.long) != 0 {
			t.Errorf("%s: the last mark is at %s", bar.name, at.FloatString(3))
		}
	}
}
