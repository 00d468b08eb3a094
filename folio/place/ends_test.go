package place_test

import (
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio/place"
	"boardwrap.example/units"
)

// A nanometre of each is a term, nothing is none; what is added, though a nanometre,
// is rounded up.
func TestTermsOfANanometre(t *testing.T) {
	labels := func(r place.Relation, clearance units.Length) (all []string) {
		for _, term := range r.Terms("panel", 200*mm, clearance) {
			all = append(all, term.Label)
		}
		return all
	}
	if got := labels(place.By(place.OfPanel), 0); !slices.Equal(got, []string{"panel"}) {
		t.Errorf("the whole adds up %q", got)
	}
	for _, by := range []units.Length{1, mm} {
		r := place.Relation{Of: place.OfPanel, Margin: by, Less: by, More: by, Shares: 2, Gap: by}
		if got := labels(r, by); !slices.Equal(got, []string{"panel", "clearance", "margin", "less", "more", "gap"}) {
			t.Errorf("with %v of each it adds up %q", by, got)
		}
	}
	if d := (&place.Relation{Of: place.OfPanel, More: 1}).Direction(); d != units.Up {
		t.Errorf("a nanometre more is rounded %v", d)
	}
	if d := (&place.Relation{Of: place.OfPanel}).Direction(); d != units.Down {
		t.Errorf("the whole is rounded %v", d)
	}
}

// The limits are those that the docs name, and what lies at one goes.
func TestEnds(t *testing.T) {
	if place.MaxShares != 256 || place.MaxProportion != 1000 {
		t.Errorf("up to %d shares and %d in proportions", place.MaxShares, place.MaxProportion)
	}
	for r, want := range map[place.PictureRule]bool{place.PictureAny: true, place.PictureUsualLying: true, place.PictureUsualLying + 1: false} {
		if r.Known() != want {
			t.Errorf("%v is known: %v", r, r.Known())
		}
	}
	for m, want := range map[place.Yardstick]bool{place.OfNothing: true, place.OfFitting: true, place.OfFitting + 1: false} {
		if m.Known() != want {
			t.Errorf("%v is known: %v", m, m.Known())
		}
	}
	metric := units.MetricDecimal
	for _, c := range []struct {
		by   place.Relation
		want []string
	}{
		{place.Relation{Of: place.OfFitting + 1}, []string{"of: unknown"}},
		{place.Relation{Of: place.OfPanel, Less: 1}, nil},
		{place.Relation{Of: place.OfPanel, More: 1}, nil},
		{place.Relation{Of: place.OfPanel, Less: 1, More: 1}, []string{"more: conflict"}},
		{place.Relation{Of: place.OfPanel, Shares: 2, Gap: 1}, nil},
		{place.Relation{Of: place.OfPanel, Shares: 1, Gap: 1}, []string{"gap: conflict"}},
		{place.Relation{Of: place.OfPanel, Shares: 1}, nil},
		{place.Relation{Of: place.OfPanel, Less: -1}, []string{"less: negative"}},
		{place.Relation{Of: place.OfPanel, More: -1}, []string{"more: negative"}},
		{place.Relation{Of: place.OfPanel, Shares: 2, Gap: -1}, []string{"gap: negative"}},
		{place.Relation{Turned: true}, []string{"of: missing"}},
	} {
		if got := pathsOf(c.by.Check(metric)); !slices.Equal(got, c.want) {
			t.Errorf("%+v: %q, want %q", c.by, got, c.want)
		}
	}
}

// What would do names the ends of the axis that it is about, and lengths are told as
// the plan writes them.
func TestTextsOfPlaces(t *testing.T) {
	for _, c := range []struct {
		at   place.Place
		want string
	}{
		{place.Place{Across: place.Head}, "across: unknown: got head; want middle, left, right or even"},
		{place.Place{Along: place.Left}, "along: unknown: got left; want middle, head, tail or even"},
		{place.Place{Across: place.Before}, "across: missing: got a place before nothing; want left, middle or right, or the name of a fitting that it lies before"},
		{place.Place{Along: place.Even, AlongOf: "mat"}, `alongof: conflict: got "mat" and an even place`},
	} {
		if err := c.at.Check(units.MetricDecimal); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v; want %s", err, c.want)
		}
	}
	far := units.Longest + 1
	for n, want := range map[units.Notation]string{units.InchFraction: " in", units.MetricDecimal: " mm"} {
		at, by := place.Place{Offset: units.Point{X: far}}, place.Relation{Of: place.OfPanel, Less: far}
		for _, err := range []error{at.Check(n), by.Check(n)} {
			if err == nil || !strings.Contains(err.Error(), want) {
				t.Errorf("in %v: %v", n, err)
			}
		}
	}
	for _, at := range []place.Place{{Across: place.Left, Along: place.Head}, {Across: place.Right, Along: place.Tail}, {Across: place.Even, Along: place.Even}} {
		if err := at.Check(units.MetricDecimal); err != nil {
			t.Errorf("%v, %v: %v", at.Across, at.Along, err)
		}
	}
	// Across is lined up by one name, along by another.
	if at := (place.Place{Across: place.After, AcrossOf: "a", Along: place.Before, AlongOf: "b"}); at.Check(units.MetricDecimal) != nil || !at.Lined() {
		t.Errorf("%+v: %v, lined %v", at, at.Check(units.MetricDecimal), at.Lined())
	}
	if at := (place.Place{Along: place.Before, AcrossOf: "a"}); at.Check(units.MetricDecimal) == nil {
		t.Error("a place before nothing is taken, with a name for the other axis")
	}
}

// In the middle of an odd rest the nanometre is at the right and at the tail; on a
// ruler the place is the graduation below.
func TestMiddleOfOddRests(t *testing.T) {
	area := units.RectAt(units.Point{X: 10, Y: 20}, units.Size{W: 100, H: 101})
	one, err := units.NewRuler(units.Nanometre, units.MetricDecimal)
	if err != nil {
		t.Fatal(err)
	}
	if got := (place.Place{}).Within(area, units.Size{W: 51, H: 50}, one).Min; got != (units.Point{X: 10 + 24, Y: 20 + 25}) {
		t.Errorf("the middle of rests of 49 and 51 begins at %v", got)
	}
	at := place.Place{}
	if got := at.Start(false, 100*mm, 60*mm-2*mm/10, units.WholeMillimetres); got != 20*mm {
		t.Errorf("half of 40.2 mm is put at %v", got)
	}
	if got := at.Start(true, 100*mm, 60*mm-18*mm/10, units.WholeMillimetres); got != 20*mm {
		t.Errorf("half of 41.8 mm is put at %v", got)
	}
}
