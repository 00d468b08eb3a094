package folio_test

import (
	"slices"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// Fittings that would be called the same are counted, one word for one thing: what
// is slipped in at the end goes into one that can be told from the others.
func TestEqualFittingsAreToldApart(t *testing.T) {
	frame := func(name string, on boards.Role) folio.Fitting {
		return folio.Fitting{Name: name, Panel: on, Kind: folio.Frame{Picture: pocket.Content{Size: units.Size{W: 60 * units.Millimetre, H: 90 * units.Millimetre}}}}
	}
	for _, c := range []struct {
		fittings []folio.Fitting
		labels   []string
	}{
		{[]folio.Fitting{frame("", boards.LeftCover)}, []string{"frame"}},
		{[]folio.Fitting{frame("", boards.LeftCover), frame("", boards.RightCover)}, []string{"first frame", "second frame"}},
		{[]folio.Fitting{frame("bow", boards.LeftCover), frame("", boards.RightCover)}, []string{"bow", "frame"}},
		{[]folio.Fitting{frame("frame", boards.LeftCover), frame("", boards.RightCover)}, []string{"frame", "second frame"}},
	} {
		s := plainCase()
		s.Cover, s.Fittings = units.Size{W: 120 * units.Millimetre, H: 170 * units.Millimetre}, c.fittings
		p := mustPlan(s)
		var labels []string
		for f := range p.Fittings() {
			labels = append(labels, f.Label())
		}
		if !slices.Equal(labels, c.labels) {
			t.Errorf("they are called %q, want %q", labels, c.labels)
		}
		var fills []string
		for s := range p.Steps() {
			if text := s.Text(units.Format{}); strings.HasPrefix(text, "Slip ") {
				fills = append(fills, text)
			}
		}
		for i, label := range c.labels {
			if i >= len(fills) || !strings.Contains(fills[i], "into the "+label+" ") {
				t.Errorf("the content of the %s is put in by %q", label, fills)
			}
		}
	}
}

// Many are counted in words as far as nine, then in figures as one says them.
func TestManyFittingsAreCounted(t *testing.T) {
	s := plainCase()
	s.Cover = units.Size{W: 120 * units.Millimetre, H: 300 * units.Millimetre}
	for i := range 23 {
		s.Fittings = append(s.Fittings, folio.Fitting{
			Panel: boards.LeftCover, Kind: folio.Ornament{Size: units.Size{W: 20 * units.Millimetre, H: 10 * units.Millimetre}},
			Place: place.Place{Across: place.Left, Along: place.Head, Offset: units.Point{X: 10 * units.Millimetre, Y: units.Length(12*i+6) * units.Millimetre}},
		})
	}
	want := map[int]string{0: "first", 8: "ninth", 9: "10th", 10: "11th", 11: "12th", 12: "13th", 20: "21st", 21: "22nd", 22: "23rd"}
	for f := range mustPlan(s).Fittings() {
		if w, ok := want[f.Index()]; ok && f.Label() != w+" ornament" {
			t.Errorf("fitting %d is called %q, want %q", f.Index(), f.Label(), w+" ornament")
		}
	}
}

// A pocket that is called like what goes into it is told from that by its kind, and not
// twice by the same word.
func TestPocketsAreToldFromContents(t *testing.T) {
	for name, want := range map[string]string{
		"token": "into the token slip pocket from", "tokens": "into the tokens slip pocket from",
		"token pocket": "into the token pocket from", "purse": "into the purse from",
	} {
		s := plainCase()
		s.Fittings = []folio.Fitting{{Name: name, Panel: boards.LeftCover, Kind: folio.Folded{Kind: pocket.Slip{
			Content: pocket.Content{Name: "token", Size: units.Size{W: 40 * units.Millimetre, H: 50 * units.Millimetre}}}}}}
		var all strings.Builder
		for s := range mustPlan(s).Steps() {
			all.WriteString(s.Text(units.Format{}))
		}
		if !strings.Contains(all.String(), want) {
			t.Errorf("%s: no step puts the token %q", name, want)
		}
	}
}
