package place_test

import (
	"slices"
	"testing"

	"boardwrap.example/folio/place"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

const mm = units.Millimetre

func box(x0, y0, x1, y1 units.Length) units.Rect {
	return units.Rect{Min: units.Point{X: x0 * mm, Y: y0 * mm}, Max: units.Point{X: x1 * mm, Y: y1 * mm}}
}

// A thing of 30 x 20 on a panel that lies from 10, 5 to 110, 75: its free room is 70
// across and 50 along.
func TestWithin(t *testing.T) {
	panel, size := box(10, 5, 110, 75), units.Size{W: 30 * mm, H: 20 * mm}
	for _, c := range []struct {
		name string
		at   place.Place
		want units.Rect
	}{
		{"in the middle", place.Place{}, box(45, 30, 75, 50)},
		{"from the middle, right and towards the tail", place.Place{Offset: units.Point{X: 2 * mm, Y: 3 * mm}}, box(47, 33, 77, 53)},
		{"left at the head", place.Place{Across: place.Left, Along: place.Head}, box(10, 5, 40, 25)},
		{"away from left and head", place.Place{Across: place.Left, Along: place.Head, Offset: units.Point{X: 2 * mm, Y: 3 * mm}}, box(12, 8, 42, 28)},
		{"right at the tail", place.Place{Across: place.Right, Along: place.Tail}, box(80, 55, 110, 75)},
		{"away from right and tail", place.Place{Across: place.Right, Along: place.Tail, Offset: units.Point{X: 2 * mm, Y: 3 * mm}}, box(78, 52, 108, 72)},
	} {
		if got := c.at.Within(panel, size, units.WholeMillimetres); got != c.want {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
	// 70.5 left over: 35.25 before it is 35 on a ruler of whole millimetres.
	odd := units.Size{W: 30*mm - mm/2, H: 20 * mm}
	if got := (place.Place{}).Within(panel, odd, units.WholeMillimetres).Min.X; got != 45*mm {
		t.Errorf("what is put in the middle begins at %v, want 45 mm", got)
	}
}

// Beside a thing of 40 that begins at 0, one of 30 begins at -30 before it and at 40
// after it, and the offset moves it away.
func TestBeside(t *testing.T) {
	for _, c := range []struct {
		align place.Align
		want  units.Length
		back  bool
	}{{place.Before, -35, true}, {place.After, 45, false}, {place.Middle, 10, false}} {
		for _, along := range []bool{false, true} {
			p := place.Place{Across: c.align, AcrossOf: "mat", Offset: units.Point{X: 5 * mm}}
			if along {
				p = place.Place{Along: c.align, AlongOf: "mat", Offset: units.Point{Y: 5 * mm}}
			}
			if got := p.Start(along, 40*mm, 30*mm, units.WholeMillimetres); got != c.want*mm || p.Back(along) != c.back || !p.Lined() {
				t.Errorf("%v, along %t: begins at %v, moves back %t, lined up %t", c.align, along, got, p.Back(along), p.Lined())
			}
		}
	}
	if !(&place.Place{Across: place.Right}).Back(false) || !(&place.Place{Along: place.Tail}).Back(true) || (&place.Place{Across: place.Left}).Back(false) {
		t.Error("away from the right or the tail is back, from the left it is not")
	}
	for p, want := range map[place.Place]bool{{}: false, {Across: place.Even}: true, {Along: place.Even}: true, {AlongOf: "mat"}: true, {Across: place.Left}: false} {
		if p.Lined() != want {
			t.Errorf("%v lined up: %t", p, !want)
		}
	}
}

// pathsOf are the paths of what is wrong.
func pathsOf(err error) (paths []string) {
	if bad, ok := err.(*check.Error); ok {
		for v := range bad.All() {
			paths = append(paths, v.Path+": "+string(v.Code))
		}
	}
	return paths
}

func TestCheck(t *testing.T) {
	far := units.Longest + 1
	for _, c := range []struct {
		name string
		at   place.Place
		want []string
	}{
		{"the middle", place.Place{}, nil},
		{"as far as goes", place.Place{Offset: units.Point{X: units.Longest, Y: -units.Longest}}, nil},
		{"too far", place.Place{Offset: units.Point{X: far, Y: -far}}, []string{"offset.x: out-of-range", "offset.y: out-of-range"}},
		{"head across", place.Place{Across: place.Head, Along: place.Right}, []string{"across: unknown", "along: unknown"}},
		{"before nothing", place.Place{Across: place.Before, Along: place.After}, []string{"across: missing", "along: missing"}},
		{"even and beside", place.Place{Across: place.Even, AcrossOf: "mat"}, []string{"acrossof: conflict"}},
	} {
		if got := pathsOf(c.at.Check(units.MetricDecimal)); !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
	for _, c := range []struct {
		name string
		by   place.Relation
		want []string
	}{
		{"none", place.Relation{}, nil},
		{"the whole", place.By(place.OfPanel), nil},
		{"all that goes", place.Relation{Of: place.OfFitting, Fitting: "mat", Turned: true, Margin: mm, Less: mm, Shares: place.MaxShares, Gap: mm}, nil},
		{"to nothing", place.Relation{Less: mm}, []string{"of: missing"}},
		{"unknown", place.Relation{Of: 9}, []string{"of: unknown"}},
		{"to no fitting", place.By(place.OfFitting), []string{"fitting: missing"}},
		{"to a panel with a name", place.Relation{Of: place.OfPanel, Fitting: "mat"}, []string{"fitting: conflict"}},
		{"less and more", place.Relation{Of: place.OfPanel, Less: mm, More: mm}, []string{"more: conflict"}},
		{"below nothing", place.Relation{Of: place.OfPanel, Margin: -mm, Shares: -1}, []string{"margin: negative", "shares: negative"}},
		{"too many shares", place.Relation{Of: place.OfPanel, Shares: place.MaxShares + 1}, []string{"shares: too-many"}},
		{"a gap and no shares", place.Relation{Of: place.OfPanel, Gap: mm}, []string{"gap: conflict"}},
	} {
		if got := pathsOf(c.by.Check(units.MetricDecimal)); !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
	for p, want := range map[place.Proportions]string{{}: "", {W: 2, H: 3}: "", {W: place.MaxProportion, H: 1}: "",
		{W: 2}: "h: not-positive", {W: -1, H: 3}: "w: not-positive", {W: 1, H: place.MaxProportion + 1}: "h: too-many"} {
		got := pathsOf(p.Check())
		if len(got) > 1 || len(got) == 1 != (want != "") || len(got) == 1 && got[0] != want {
			t.Errorf("%v: %q, want %q", p, got, want)
		}
	}
}

// 200 less twice 3 of clearance, twice 10 of margin and 4 less, with two gaps of 5
// between three shares, leaves 160 to share; more instead of less leaves 168.
func TestTerms(t *testing.T) {
	r := place.Relation{Of: place.OfPanel, Margin: 10 * mm, Less: 4 * mm, Shares: 3, Gap: 5 * mm}
	sum := func(r place.Relation) units.Length {
		return units.Sum("left", 0, units.Nearest, r.Terms("panel", 200*mm, 3*mm)...).Length()
	}
	if got := sum(r); got != 160*mm || r.Direction() != units.Down {
		t.Errorf("%v is left, rounded %v", got, r.Direction())
	}
	r.Less, r.More = 0, 4*mm
	if got := sum(r); got != 168*mm || r.Direction() != units.Up {
		t.Errorf("with more %v is left, rounded %v", got, r.Direction())
	}
	if got := sum(place.By(place.OfGround)); got != 194*mm {
		t.Errorf("the whole less its clearance is %v", got)
	}
}

func TestProportions(t *testing.T) {
	for p, want := range map[place.Proportions]place.Proportions{{W: 10, H: 15}: {W: 2, H: 3}, {W: 7, H: 5}: {W: 7, H: 5}, {W: 4, H: 4}: {W: 1, H: 1}, {}: {}} {
		if got := p.Lowest(); got != want {
			t.Errorf("%v in lowest terms: %v, want %v", p, got, want)
		}
	}
	if got := place.Filling(place.OfGround, 3*mm); got != (place.Sizing{W: place.Relation{Of: place.OfGround, Margin: 3 * mm}, H: place.Relation{Of: place.OfGround, Margin: 3 * mm}}) {
		t.Errorf("filling is %v", got)
	}
}
