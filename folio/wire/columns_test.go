package wire_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"boardwrap.example/folio"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/folio/wire"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// A row says what a document says, in any form of the paths' names and in any
// order of the columns.
func TestColumns(t *testing.T) {
	c, err := wire.NewColumns([]string{
		"Cover", "spine.WIDTH", "title", "flapwidth", "fittings[1].kind.type", "fittings[0].kind.type", "fittings[0].kind.kind.type",
		"fittings[0].kind.kind.content.size", "fittings[1].outside", "board.caliper",
	})
	if err != nil {
		t.Fatal(err)
	}
	got, err := c.Read([]string{"6 x 8 in", " 5/8 in ", "1984", "", "mat", "folded", "slip pocket", "4 x 6 in", "true", "none"})
	if err != nil {
		t.Fatal(err)
	}
	want := folio.Spec{
		Title: "1984", Cover: units.MustParseSize("6 x 8 in"), Spine: rule.Spine{Width: units.MustParse("5/8 in")}, Board: stock.Stock{Caliper: units.None},
		Fittings: []folio.Fitting{
			{Kind: folio.Folded{Kind: pocket.Slip{Content: pocket.Content{Size: units.MustParseSize("4 x 6 in")}}}},
			{Kind: folio.Mat{}, Outside: true},
		},
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
}

// What is wrong with a row is said at once, with the number of the cell.
func TestBadRow(t *testing.T) {
	c, err := wire.NewColumns([]string{"cover", "form", "fittings[1].kind.type", "fittings[0].kind.type", "fittings[0].outside"})
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range []struct {
		row, want string
	}{
		{"6|round|mat|mat|yes", "1 /spec/cover bad-text; 2 /spec/form bad-text; 5 /spec/fittings/0/outside wrong-form"},
		{"6 x 8 in|||sail|", "4 /spec/fittings/0/kind/type unknown"},
		{"6 x 8 in", "1  wrong-form"},
	} {
		s, err := c.Read(strings.Split(r.row, "|"))
		var bad *wire.Error
		if !errors.As(err, &bad) {
			t.Errorf("%s: %v", r.row, err)
			continue
		}
		var got []string
		for f := range bad.All() {
			got = append(got, string(rune('0'+f.Column))+" "+f.Pointer+" "+string(f.Code))
		}
		if g := strings.Join(got, "; "); g != r.want || s.Cover != (units.Size{}) {
			t.Errorf("%s: %s; want %s", r.row, g, r.want)
		}
	}
}

func TestBadHeader(t *testing.T) {
	for name, want := range map[string]string{
		"": "no field", "wings": `no field "wings"`, "spine": "holds others", "fittings": "holds others", "fittings[0]": "holds others",
		"fittings[0].kind": "holds others", "fittings[-1].name": "no element", "fittings[1000].name": "no element", "fittings[0.name": "no element",
		"cover[0]": "no element", "cover.w": "no field", "fittings.name": "no field", "spine.width.": "no field", "COVER": "already",
	} {
		_, err := wire.NewColumns([]string{"cover", name})
		if err == nil || !strings.Contains(err.Error(), want) || !strings.Contains(err.Error(), "column 2") {
			t.Errorf("%q: %v; want %s", name, err, want)
		}
	}
	if _, err := wire.NewColumns(make([]string, wire.MostColumns+1)); err == nil {
		t.Error("too many columns pass")
	}
	var far []string
	for i := range 60 {
		far = append(far, fmt.Sprintf("stocks[%d].sheets[999].size", i))
	}
	if _, err := wire.NewColumns(far); err == nil || !strings.Contains(err.Error(), "60060 elements") {
		t.Errorf("lists of 60,000 elements: %v", err)
	}
	if _, err := wire.NewColumns(far[:40]); err != nil {
		t.Error(err)
	}
}

// As many columns and elements as there may be are taken, and one more of either is
// refused; an index is written in tens.
func TestHeaderAtItsLimits(t *testing.T) {
	names := make([]string, wire.MostColumns)
	for i := range names {
		names[i] = fmt.Sprintf("stocks[%d].name", i)
	}
	if _, err := wire.NewColumns(names); err != nil {
		t.Error("as many columns as there may be:", err)
	}
	// 49 stocks with a list of 1,000 sheets each, and so many fittings that there are
	// 50,000 elements.
	var lists []string
	for i := range 49 {
		lists = append(lists, fmt.Sprintf("stocks[%d].sheets[999].size", i))
	}
	rest := wire.MostMembers - 49*1001
	for _, c := range []struct {
		header []string
		ok     bool
	}{
		{append(lists[:49:49], fmt.Sprintf("fittings[%d].name", rest-1)), true},
		{append(lists[:49:49], fmt.Sprintf("fittings[%d].name", rest)), false},
		{[]string{"fittings[999].name", "fittings[9].name", "fittings[10].name"}, true},
		{[]string{"fittings[1000].name"}, false},
		{[]string{"fittings[a].name"}, false},
		{[]string{"fittings[1a].name"}, false},
		{[]string{"fittings[4294967296].name"}, false},
		{[]string{"fittings[].name"}, false},
		{[]string{"fittings[0][0].name"}, false},
		{[]string{"title[0]"}, false},
	} {
		last := c.header[len(c.header)-1]
		switch _, err := wire.NewColumns(c.header); {
		case c.ok && err != nil:
			t.Errorf("%s: %v", last, err)
		case !c.ok && err == nil:
			t.Errorf("%s passes", last)
		}
	}
}

// Cells of one element may stand in any order, and what lies between two elements
// that columns speak of is there too: it is an element that says nothing.
func TestElementsOfARow(t *testing.T) {
	c, err := wire.NewColumns([]string{"stocks[2].caliper", "cover", "stocks[0].name", "stocks[2].name", "stocks[2].sheets[1].size", "stocks[0].caliper"})
	if err != nil {
		t.Fatal(err)
	}
	s, err := c.Read([]string{"0.3 mm", "6 x 8 in", "card", "felt", "12 x 12 in", "0.5 mm"})
	if err != nil {
		t.Fatal(err)
	}
	want := []stock.Stock{
		{Name: "card", Caliper: 500 * units.Micrometre}, {},
		{Name: "felt", Caliper: 300 * units.Micrometre, Sheets: []stock.Sheet{{}, {Size: units.MustParseSize("12 x 12 in")}}},
	}
	if d := cmp.Diff(want, s.Stocks); d != "" {
		t.Error(d)
	}
	// An empty cell speaks of nothing.
	if s, err = c.Read([]string{"", "6 x 8 in", "card", "", "", ""}); err != nil || len(s.Stocks) != 1 {
		t.Errorf("%v, %v", s.Stocks, err)
	}
}

// Members on demand are those of the whole document.
func TestOnly(t *testing.T) {
	p, err := folio.Build(crew())
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ only, want string }{
		{"title", `{"version":1,"plan":{"title":"Eastwater crew"}}`},
		{"notation,title", `{"version":1,"plan":{"title":"Eastwater crew","notation":"inch fractions"}}`},
		{"boards.role,boards.rect.max.x.text", `{"version":1,"plan":{"boards":[{"role":"left cover","rect":{"max":{"x":{"text":"6 in"}}}},{"role":"spine","rect":{"max":{"x":{"text":"7 1/8 in"}}}},{"role":"right cover","rect":{"max":{"x":{"text":"13 1/4 in"}}}}]}}`},
		{"closed.crease.mm", ""},
		{"fittings.kind", ""},
	} {
		got, err := wire.AppendPlan(nil, p, wire.Options{Only: strings.Split(c.only, ",")})
		if err != nil || c.want != "" && string(got) != c.want {
			t.Errorf("%s: %v, %s", c.only, err, got)
		}
	}
	whole, _ := wire.AppendPlan(nil, p, wire.Options{})
	for _, member := range []string{"open", "asMade", "boards", "gaps", "wrap", "lines", "pieces", "placed", "turnIns", "fittings", "magnets", "closed", "steps", "workings"} {
		got, err := wire.AppendPlan(nil, p, wire.Options{Only: []string{member}})
		inner := strings.TrimSuffix(strings.TrimPrefix(string(got), `{"version":1,"plan":{`), "}}")
		if err != nil || len(inner) < 20 || !strings.Contains(string(whole), inner) {
			t.Errorf("%s: %v, %.200s", member, err, got)
		}
	}
	// Parts of what is wanted whole change nothing.
	both, err := wire.AppendPlan(nil, p, wire.Options{Only: []string{"boards", "boards.role"}})
	one, _ := wire.AppendPlan(nil, p, wire.Options{Only: []string{"boards"}})
	if err != nil || string(both) != string(one) {
		t.Errorf("%v: %s is not %s", err, both, one)
	}
	for _, only := range []string{"", "wings", "boards.wings", "title.text", "steps.do.type", "boards.rect.min.x.inch", "Title"} {
		if got, err := wire.AppendPlan([]byte("x"), p, wire.Options{Only: []string{"boards", only}}); err == nil || string(got) != "x" {
			t.Errorf("%q passes", only)
		}
	}
	// What somebody else wrote is quoted short (DEVELOPERS.md, Limits).
	if _, err := wire.AppendPlan(nil, p, wire.Options{Only: []string{strings.Repeat("x.", 1<<19)}}); err == nil || len(err.Error()) > 1000 {
		t.Errorf("an error of %d bytes", len(fmt.Sprint(err)))
	}
}
