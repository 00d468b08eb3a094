package wire_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"boardwrap.example/folio"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/wire"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// lines are the faults of an error, each as one line.
func lines(err error) []string {
	var all []string
	if bad, ok := errors.AsType[*wire.Error](err); ok {
		for f := range bad.All() {
			all = append(all, f.String())
		}
	}
	return all
}

// What is wrong with a document is said where it stands, in words worked out by hand:
// columns are counted in bytes, from 1.
func TestFaultsInWords(t *testing.T) {
	kinds := "mat, frame, ornament, folded"
	for _, c := range []struct {
		doc  string
		want []string
	}{
		{"null", []string{`line 1, column 1: wrong-form: got null; want an object with a version and what it is about`}},
		{`{"version":2,"wings":1}`, []string{`line 1, column 12, /version: bad-version: got a number "2"; want 1`}},
		{`{"version":"1","wings":1}`, []string{`line 1, column 12, /version: bad-version: got a text "1"; want 1`}},
		{`{"wings":1}`, []string{`line 1, column 1: bad-version: got no version; want 1`}},
		{`{"version":1,"spec":{},"wings":1,"spec":{}}`, []string{
			`line 1, column 24, /wings: no-member: got "wings"; want one of version, spec`, `line 1, column 34, /spec: twice: got "spec" again; want each member once`}},
		{"{\"version\":1,\n\"spec\":{\"spine\":{\"a/b~c\":1}}}", []string{
			`line 2, column 18, /spec/spine/a~1b~0c: no-member: got "a/b~c"; want one of width, contents, rule, stiffener`}},
		{`{"version":1,"spec":{"fittings":[{"kind":{"type":"mat","type":"frame"}}]}}`, []string{`line 1, column 56, /spec/fittings/0/kind/type: twice: got "type" again; want each member once`}},
		{`{"version":1,"spec":{"fittings":[{"kind":{"type":"sail"}}]}}`, []string{`line 1, column 50, /spec/fittings/0/kind/type: unknown: got "sail"; want one of ` + kinds}},
		{`{"version":1,"spec":{"fittings":[{"kind":{"type":"mat"},"outside":"false"}]}}`, []string{`line 1, column 67, /spec/fittings/0/outside: wrong-form: got a text; want true or false`}},
		{`{"version":1,"spec":{"title":[7]}}`, []string{`line 1, column 30, /spec/title: wrong-form: got a list; want a text`}},
		{`{"version":1,"spec":{"title":7}}`, []string{`line 1, column 30, /spec/title: wrong-form: got a number, "7"; want a text`}},
		// The replacement character itself, three bytes, and two of é are sound.
		{"{\"version\":1,\"title\":\"\ufffd\u00e9\xff\"}", []string{`line 1, column 28: not-json: got bytes that are no UTF-8; want a text in UTF-8`}},
		// A byte order mark, which some editors write, is no part of JSON (RFC 8259, 8.1).
		{"\ufeff{}", []string{`line 1, column 1: not-json: got a byte order mark; want the document without it`}},
		{strings.Repeat(" ", 1_048_577), []string{`line 1, column 1: too-large: got 1048577 bytes; want at most 1048576`}},
	} {
		_, err := wire.ReadSpec([]byte(c.doc))
		if d := cmp.Diff(c.want, lines(err)); d != "" {
			t.Errorf("%.80s: %s", c.doc, d)
		}
	}
	s, err := wire.ReadSpec([]byte(`{"version":1,"spec":{"fittings":[],"stocks":[{"sheets":[]}]}}`))
	if err != nil || s.Fittings != nil || s.Stocks[0].Sheets != nil {
		t.Errorf("lists that are there and empty: %#v, %v", s, err)
	}
	if wire.MostBytes != 1_048_576 || wire.MostDepth != 16 || wire.MostMembers != 50_000 || wire.MostFaults != 100 || wire.MostColumns != 1000 {
		t.Error("the limits are others")
	}
}

// A cell is what a document's member is: true, false, a whole number up to the
// greatest there is, and a list's element in any order.
func TestCellsInWords(t *testing.T) {
	header := []string{"fittings[1].outside", "fittings[0].kind.type", "fittings[0].kind.kind.type", "fittings[0].kind.kind.count", "fittings[1].kind.type", "fittings[0].kind.kind.scores[1]", "fittings[0].kind.kind.scores[0]"}
	c, err := wire.NewColumns(header)
	if err != nil {
		t.Fatal(err)
	}
	s, err := c.Read([]string{"false", "folded", "folded strip", "2147483647", "mat", "2 in", "1 in"})
	if err != nil {
		t.Fatal(err)
	}
	strip := s.Fittings[0].Kind.(folio.Folded).Kind.(pocket.FoldedStrip)
	if s.Fittings[1].Outside || strip.Count != 2147483647 || strip.Scores[0] != units.Inch || strip.Scores[1] != 2*units.Inch {
		t.Errorf("%+v", s.Fittings)
	}
	_, err = c.Read([]string{"yes", "folded", "folded strip", "2147483648", "mat", "", "wide"})
	want := []string{
		`line 1, column 4, /spec/fittings/0/kind/kind/count: wrong-form: got a cell, "2147483648"; want a whole number, up to 2147483647`,
		`line 1, column 1, /spec/fittings/1/outside: wrong-form: got a cell, "yes"; want true or false`,
	}
	got := slices.DeleteFunc(lines(err), func(s string) bool { return !strings.Contains(s, "a cell, ") })
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
	titles, err := wire.NewColumns([]string{"cover", "title"})
	if err != nil {
		t.Fatal(err)
	}
	_, err = titles.Read([]string{"6 x 8 in", "a\xff"})
	if d := cmp.Diff([]string{`line 1, column 2: bad-text: got "a\xff"; want a text in UTF-8`}, lines(err)); d != "" {
		t.Error(d)
	}
	for name, want := range map[string]string{
		"fittings[1000].name":             `"[1000]" is no element of a list; want a number from 0 to 999 in brackets`,
		"fittings[0].kind.kind.scores":    "this holds others; want the path of one of them",
		"fittings[0].kind.kind.content":   "this holds others; want the path of one of them",
		"fittings[0].kind.kind.scores[0]": "",
		"fittings[0].kind.oar":            `there is no field "oar"`,
		"fittings[0].kind.kind.oar":       `there is no field "oar"`,
	} {
		if _, err := wire.NewColumns([]string{name}); want == "" && err != nil || want != "" && (err == nil || err.Error() != `wire: column 1, "`+name+`": `+want) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// foreign is a kind of another package.
type foreign struct{ folio.Mat }

// Of nothing there is no document.
func TestNothingIsWritten(t *testing.T) {
	o := wire.Options{}
	for what, write := range map[string]func(dst []byte) ([]byte, error){
		"plan":      func(dst []byte) ([]byte, error) { return wire.AppendPlan(dst, nil, o) },
		"closing":   func(dst []byte) ([]byte, error) { return wire.AppendClosing(dst, nil, o) },
		"holding":   func(dst []byte) ([]byte, error) { return wire.AppendHolding(dst, nil, nil, o) },
		"layout":    func(dst []byte) ([]byte, error) { return wire.AppendLayout(dst, nil, o) },
		"costs":     func(dst []byte) ([]byte, error) { return wire.AppendCosts(dst, nil, o) },
		"proposals": func(dst []byte) ([]byte, error) { return wire.AppendProposals(dst, nil, o) },
		"error":     func(dst []byte) ([]byte, error) { return wire.AppendError(dst, nil, units.InchFraction, o) },
	} {
		if data, err := write([]byte("x")); !errors.Is(err, wire.ErrNothing) || string(data) != "x" {
			t.Errorf("%s: %s, %v", what, data, err)
		}
	}
}

// What no document can hold is an error that says why, and nothing is written.
func TestCannotBeWritten(t *testing.T) {
	for want, s := range map[string]folio.Spec{
		"wire: wire_test.foreign is none of the kinds that documents know": {Fittings: []folio.Fitting{{Kind: foreign{}}, {Kind: folio.Folded{}, Panel: 99}}},
		"wire: there is no kind":                                    {Fittings: []folio.Fitting{{Name: "of no kind"}}},
		"wire: *folio.Mat is none of the kinds that documents know": {Fittings: []folio.Fitting{{Kind: (*folio.Mat)(nil)}}},
	} {
		if data, err := wire.AppendSpec([]byte("x"), s, wire.Options{}); err == nil || err.Error() != want || string(data) != "x" {
			t.Errorf("%v, %s; want %s", err, data, want)
		}
	}
	if data, err := wire.AppendSpec([]byte("x"), folio.Spec{Fittings: []folio.Fitting{{Kind: folio.Folded{}}}}, wire.Options{}); err == nil || string(data) != "x" {
		t.Errorf("nothing folded: %v, %s", err, data)
	}
	if data, err := wire.AppendSpec([]byte("x"), folio.Spec{Form: 99}, wire.Options{}); !errors.Is(err, units.ErrUnknown) || string(data) != "x" {
		t.Errorf("a form 99: %v, %s", err, data)
	}
	if data, err := wire.AppendSpec(nil, folio.Spec{Title: "a"}, wire.Options{Indent: 40}); err != nil || !strings.Contains(string(data), "\n"+strings.Repeat(" ", 8)+`"version"`) {
		t.Errorf("%v: %s", err, data)
	}
}

// An error goes out with the line of the stream, and with as much of it as there is.
func TestErrorDocuments(t *testing.T) {
	type doc struct {
		Line  int
		Error struct {
			Message  string
			Faults   []struct{ Line, Column int }
			Problems []struct{ Path, Code, Fault, Got, Want string }
			More     int
		}
	}
	out := func(err error, line int) (d doc) {
		data, failed := wire.AppendError(nil, err, units.MetricDecimal, wire.Options{Line: line})
		if failed == nil {
			failed = json.Unmarshal(data, &d)
		}
		if failed != nil {
			t.Fatal(failed)
		}
		return d
	}
	_, bad := wire.ReadSpec([]byte("{\"version\":1,\n\"spec\":{\"title\":7}}"))
	for line, at := range map[int]int{0: 2, 1: 2, 2: 3, 7: 8} {
		d := out(fmt.Errorf("row: %w", bad), line)
		if d.Line != line || len(d.Error.Faults) != 1 || d.Error.Faults[0].Line != at || d.Error.Message != fmt.Sprintf(`row: line %d, column 17, /spec/title: wrong-form: got a number, "7"; want a text`, at) || d.Error.More != 0 {
			t.Errorf("from line %d: %+v", line, d)
		}
	}
	if lines(bad)[0][:6] != "line 2" {
		t.Error("the error itself was changed")
	}
	s := folio.Spec{Cover: units.MustParseSize("6 x 8 in"), Spine: rule.Spine{Width: units.Inch}}
	for range 150 {
		s.Fittings = append(s.Fittings, folio.Fitting{})
	}
	_, err := folio.Build(s)
	wrong, _ := errors.AsType[*check.Error](err)
	if d := out(err, 0); wrong == nil || wrong.Len() <= 100 || len(d.Error.Problems) != 100 || d.Error.More != wrong.Len()-100 || d.Error.Problems[0].Fault != "malformed" {
		t.Errorf("%d problems of %v, and %d more", len(d.Error.Problems), wrong.Len(), d.Error.More)
	}
	if _, ok := properties(t, wire.ErrorSchema())["line"]; !ok || !strings.Contains(string(wire.ErrorSchema()), `"minimum": 1,`) {
		t.Error("lines are counted from 1")
	}
}

func properties(t *testing.T, schema []byte) map[string]any {
	t.Helper()
	var doc struct{ Properties map[string]any }
	if err := json.Unmarshal(schema, &doc); err != nil {
		t.Fatal(err)
	}
	return doc.Properties
}

// Each word of an enumeration stands in a schema once, and what is said of lengths and
// sizes has examples that are read.
func TestSchemasInWords(t *testing.T) {
	var doc any
	if err := json.Unmarshal(wire.SpecSchema(), &doc); err != nil {
		t.Fatal(err)
	}
	enums, examples := 0, map[string]int{}
	var walk func(v any)
	walk = func(v any) {
		switch v := v.(type) {
		case map[string]any:
			seen := map[any]bool{}
			for _, word := range list(v["enum"]) {
				if seen[word] {
					t.Errorf("%v stands twice in %v", word, v["enum"])
				}
				seen[word] = true
				enums++
			}
			if text, ok := v["description"].(string); ok {
				for i, example := range strings.Split(text, `"`) {
					if i%2 == 0 {
						continue
					}
					_, notLength := units.Parse(example)
					_, notSize := units.ParseSize(example)
					switch {
					case strings.HasPrefix(text, "a length") && (notLength == nil || example == "none"):
						examples["length"]++
					case strings.HasPrefix(text, "a width and a height") && notSize == nil:
						examples["size"]++
					default:
						t.Errorf("%s: %q is none", text, example)
					}
				}
			}
			for _, w := range v {
				walk(w)
			}
		case []any:
			for _, w := range v {
				walk(w)
			}
		}
	}
	walk(doc)
	if schema := string(wire.SpecSchema()); !strings.HasPrefix(schema, "{\n \"$defs\": {\n  \"") || !strings.HasSuffix(schema, "\n}\n") {
		t.Errorf("%.40q: members do not stand one space further in", schema)
	}
	if enums < 20 || examples["length"] == 0 || examples["size"] == 0 {
		t.Errorf("%d words, %v", enums, examples)
	}
}

// A batch is in the notation of its first folio, and in inches where it has none.
func TestBatchNotation(t *testing.T) {
	b := wire.Batch{Keep: layout.Keep{Short: units.Inch / 2, Long: 3 * units.Inch}}
	for want, folios := range map[string][]wire.Copies{
		`"short":"1/2 in"`:  nil,
		`"short":"12.7 mm"`: {{Spec: folio.Spec{Rulers: rule.Rulers{Main: units.WholeMillimetres}}}, {Spec: folio.Spec{Rulers: rule.Rulers{Main: units.Sixteenths}}}},
	} {
		b.Folios = folios
		if data, err := wire.AppendBatch(nil, b, wire.Options{}); err != nil || !strings.Contains(string(data), want) {
			t.Errorf("%v: %s has no %s", err, data, want)
		}
		if data, err := wire.AppendBatch(nil, b, wire.Options{Defaults: true}); err != nil || folios != nil && !strings.Contains(string(data), `"caliper"`) {
			t.Errorf("%v: %s has no defaults", err, data)
		}
		for _, f := range b.Folios {
			if f.Spec.Board.Caliper != 0 {
				t.Error("the batch itself was changed")
			}
		}
	}
}

// A picture goes out with its one name; an answer of a survey about rooms that are none
// of its own says so.
func TestSmallDocuments(t *testing.T) {
	const mm = units.Millimetre
	got := wire.AppendDrawn(nil, []string{"inside"}, []wire.Drawn{{Name: "inside", Title: "a", Description: "b", Size: units.Size{W: 905 * mm / 10, H: 64 * mm}, SVG: []byte("<svg/>")}})
	var doc, want any
	text := `{"version": 1, "names": ["inside"], "pictures": [{"name": "inside", "title": "a", "description": "b", "width": 90.5, "height": 64, "svg": "<svg/>"}]}`
	if json.Unmarshal(got, &doc) != nil || json.Unmarshal([]byte(text), &want) != nil || !cmp.Equal(doc, want) {
		t.Errorf("%s", got)
	}
	plans := plansToAgree(t)
	small, large := fit.Of(plans[3]), fit.Of(plans[0])
	ways, err := small.All(t.Context(), fit.Budget{}, pocket.Content{Name: "card", Size: units.MustParseSize("50 x 80 mm")})
	if err != nil {
		t.Fatal(err)
	}
	data, err := wire.AppendHolding(nil, large, ways, wire.Options{Only: []string{"ways.room"}})
	if err != nil || string(data) != `{"version":1,"holding":{"ways":[{"room":-1}]}}` {
		t.Errorf("%v: %s", err, data)
	}
	if _, err := wire.AppendClosing(nil, plans[0], wire.Options{Only: []string{"shuts", "oars"}}); err == nil || !strings.Contains(err.Error(), "shuts, closed, empty, full, least, most") {
		t.Errorf("oars: %v", err)
	}
	for only, want := range map[string]string{
		"title.text": `wire: "title.text": there is no member "text"; want one of none: it is taken whole`,
		"boards.oar": `wire: "boards.oar": there is no member "oar"; want one of role, piece, copy, width, height, rect`,
	} {
		if _, err := wire.AppendPlan(nil, plans[0], wire.Options{Only: []string{only}}); err == nil || err.Error() != want {
			t.Errorf("%s: %v", only, err)
		}
	}
}

// What is written in part does not stand for what is written whole, nor the other way
// round, though they are the same lengths.
func TestPartAndWhole(t *testing.T) {
	p := plansToAgree(t)[0]
	whole, err := wire.AppendPlan(nil, p, wire.Options{})
	if err != nil {
		t.Fatal(err)
	}
	part := func(only ...string) string {
		data, err := wire.AppendPlan(nil, p, wire.Options{Only: only})
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	// Boards come before pieces: their parts first.
	both, parts := part("boards.width.text", "boards.rect.max.x.text", "pieces"), part("boards.width.text", "boards.rect.max.x.text")
	pieces, ok := strings.CutPrefix(both, strings.TrimSuffix(parts, "}}")+",")
	if !ok || !strings.Contains(string(whole), strings.TrimSuffix(pieces, "}}")) {
		t.Errorf("%.300s", both)
	}
	both, parts = part("boards", "pieces.width.text", "pieces.size.w.mm"), part("pieces.width.text", "pieces.size.w.mm")
	if got, ok := strings.CutSuffix(both, ","+strings.TrimPrefix(parts, `{"version":1,"plan":{`)); !ok || !strings.Contains(string(whole), strings.TrimPrefix(got, `{"version":1,"plan":{`)) {
		t.Errorf("%.300s", both)
	}
}

// A summary names boards, fittings and warnings, and how large the open folio is.
func TestSummaryAgrees(t *testing.T) {
	for _, p := range plansToAgree(t) {
		var doc struct {
			Summary struct {
				Open     struct{ Width, Height string }
				Boards   []string
				Fittings []struct {
					Index        int
					Label, Panel string
					Outside      bool
					Pieces       []int
				}
				Warnings []string
				Closed   *struct{ Width, Height, Thickness string }
			}
		}
		if err := json.Unmarshal(wire.AppendSummary(nil, p), &doc); err != nil {
			t.Fatal(err)
		}
		d, text := doc.Summary, func(w units.Working) string { return p.Notation().Text(w.Length()) }
		if d.Open.Width != text(p.OpenWidth()) || d.Open.Height != text(p.OpenHeight()) {
			t.Errorf("open %v", d.Open)
		}
		var names, warnings []string
		for b := range p.Boards() {
			names = append(names, b.Role().String())
		}
		for w := range p.Warnings() {
			warnings = append(warnings, w.Text)
		}
		if !slices.Equal(names, d.Boards) || !slices.Equal(warnings, d.Warnings) {
			t.Errorf("boards %q, warnings %q", d.Boards, d.Warnings)
		}
		i := 0
		for f := range p.Fittings() {
			var pieces []int
			for k := range f.Pieces() {
				pieces = append(pieces, k)
			}
			if g := d.Fittings[i]; g.Index != f.Index() || g.Label != f.Label() || g.Panel != f.Panel().String() || g.Outside != f.Outside() || !slices.Equal(g.Pieces, pieces) {
				t.Errorf("%+v is %s", g, f.Label())
			}
			i++
		}
		c, ok := p.Closed()
		if ok != (d.Closed != nil) { // what it says, TestClosedIsToldAtMost knows
			t.Errorf("closed %v of %v", d.Closed, c)
		}
	}
	if !slices.ContainsFunc(plansToAgree(t), func(p *folio.Plan) bool { return len(slices.Collect(p.Warnings())) > 1 }) {
		t.Error("no plan has two warnings")
	}
}
