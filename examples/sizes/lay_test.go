package main

import (
	"encoding/json"
	"io"
	"strconv"
	"strings"
	"testing"
)

// regatta is what a club wants for a regatta, and the sheets it can get.
const regatta = `title,cover,spine.width,copies,minutes,sheet.material,sheet.size,sheet.grain,sheet.count,sheet.price,sheet.trim,sheet.offcut
Bow pair,6 x 8 in,5/8 in,3,25,,,,,,,
Stern pair,5 x 7 in,1/2 in,2,20,,,,,,,
,,,,,board,20 x 30 in,along the height,,1.85 USD,,
,,,,,covering,18 x 24 in,along the height,,4.50 USD,,
,,,,,liner,19 x 25 in,along the height,,0.60 USD,,
`

// laid is what the two documents say that matters here.
type laid struct {
	Layout struct {
		Complete  bool
		Materials []struct {
			Name                string
			Bought, FromOffcuts int
			Proved              bool
		}
		Warnings []struct{ Code string }
	}
	Costs struct {
		Total  string
		Folios []struct {
			Name, Total string
			Copies      int
			Price       struct{ Amount string }
		}
	}
	Error *struct {
		Message  string
		Faults   []struct{ Pointer string }
		Problems []struct{ Path string }
	}
	Line int
}

func lay(t *testing.T, in string, args ...string) (docs []laid, bad string, status int) {
	t.Helper()
	out, bad, status := sizes(in, append([]string{"-lay"}, args...)...)
	for line := range strings.Lines(out) {
		var d laid
		if err := json.Unmarshal([]byte(line), &d); err != nil {
			t.Fatalf("%v in %s", err, line)
		}
		docs = append(docs, d)
	}
	return docs, bad, status
}

// By hand: wraps are 14 7/8 x 10 and 12 3/4 x 9 in, their grain along the height.
// A sheet of 18 x 24 in takes one across and two down, so five take three sheets.
// Liners are 12 5/8 x 7 3/4 and 10 1/2 x 6 3/4 in: one across 19 in and three down
// 25 in, four would be 27 in at least, so five take two. All boards go into one
// sheet: three of 6 x 8 with three spines of 5/8 in are 19 7/8 in wide, twice; four
// of 5 x 7 are 20 in. Sheets cost 1.85 + 3 · 4.50 + 2 · 0.60 = 16.55 USD; 3 · 25 +
// 2 · 20 minutes at 18 USD an hour 34.50 USD.
func TestLay(t *testing.T) {
	docs, bad, status := lay(t, regatta, "-in", "csv", "-rate", "18 USD")
	if len(docs) != 2 || bad != "" || status != allDone {
		t.Fatalf("%d: %s, %+v", status, bad, docs)
	}
	want := map[string]int{"board": 1, "covering": 3, "liner": 2}
	for _, m := range docs[0].Layout.Materials {
		if m.Bought != want[m.Name] || !m.Proved {
			t.Errorf("%+v; want %d", m, want[m.Name])
		}
		delete(want, m.Name)
	}
	if c := docs[1].Costs; len(want) > 0 || !docs[0].Layout.Complete || c.Total != "51.05 USD" || len(c.Folios) != 2 || c.Folios[0].Copies != 3 {
		t.Errorf("without %v; %+v", want, c)
	}
	// A fee of 10 more for the batch; a margin of half the price doubles it.
	docs, _, _ = lay(t, regatta, "-in", "csv", "-rate", "18 USD", "-fee", "10 USD", "-margin", "50")
	cents := func(amount string) int {
		n, err := strconv.Atoi(strings.Replace(strings.TrimSuffix(amount, " USD"), ".", "", 1))
		if err != nil {
			t.Fatal(err)
		}
		return n
	}
	if c := docs[1].Costs; cents(c.Total) != 6105 {
		t.Errorf("with a fee: %+v", c)
	} else if each, price := cents(c.Folios[1].Total)/2, cents(c.Folios[1].Price.Amount); price < 2*each || price > 2*each+2 {
		t.Errorf("a folio that costs %d for %d", each, price)
	}
	// A document says the same as a table.
	const doc = `{"version": 1, "batch": {
		"folios": [{"spec": {"title": "Bow pair", "cover": "6 x 8 in", "spine": {"width": "5/8 in"}}, "copies": 3}],
		"materials": [{"name": "covering", "sheets": [{"size": "18 x 24 in", "grain": "along the height", "count": -1, "price": "4.50 USD"}]}],
		"costs": {"minutes": [25], "rate": "18 USD"}
	}}`
	docs, bad, status = lay(t, doc+doc)
	if len(docs) != 4 || docs[3].Costs.Total != "31.50 USD" || status != allDone || strings.Count(bad, "is left out") != 4 {
		t.Errorf("%d: %s, %+v", status, bad, docs)
	}
}

// Sheets of which there are too few, offcuts and trims are those of the table.
func TestLayWhatThereIs(t *testing.T) {
	few := strings.Replace(regatta, "covering,18 x 24 in,along the height,,", "covering,18 x 24 in,along the height,2,", 1)
	docs, _, status := lay(t, few, "-in", "csv")
	if status != oneFailed || len(docs) != 3 || docs[0].Error == nil || docs[1].Layout.Complete {
		t.Errorf("two sheets of three: %d, %+v", status, docs)
	}
	// 1 9/16 in off each edge leave 14 7/8 in of 18, which the larger wrap just takes;
	// 1/16 in more is too much.
	for trim, complete := range map[string]bool{"1 9/16 in": true, "1 5/8 in": false} {
		trimmed := strings.Replace(regatta, "4.50 USD,,", "4.50 USD,"+trim+",", 1)
		docs, _, status := lay(t, trimmed, "-in", "csv")
		if d := docs[len(docs)-2]; d.Layout.Complete != complete || (status == allDone) != complete || complete && d.Layout.Materials[1].Bought != 3 {
			t.Errorf("trim %s: %d, %+v", trim, status, docs)
		}
	}
	offcut := regatta + ",,,,,covering,15 x 10 in,along the height,1,,,true\n"
	docs, _, _ = lay(t, offcut, "-in", "csv", "-fields", "layout.materials.bought,layout.materials.fromOffcuts,layout.materials.proved")
	if m := docs[0].Layout.Materials[1]; m.Bought != 2 || !m.Proved {
		t.Errorf("an offcut for one of five: %+v", m)
	}
}

// What is wrong with a table is said with its lines, all at once, and then nothing
// is laid out.
func TestLayRefused(t *testing.T) {
	docs, _, status := lay(t, regatta+`Broken,6,1 in,many,,,,,,,,
Both,6 x 8 in,1 in,1,,board,20 x 30 in,,,,,
,,,,,,20 x 30,up,none,4.5,wide,yes
Short,6 x 8 in
No spine,6 x 8 in,,1,x,,,,,,,
"Quote,6 x 8 in,,,,,,,,,,
No spine,6 x 8 in,,1,,,,,,,,
`, "-in", "csv")
	if status != oneFailed || len(docs) != 7 {
		t.Fatalf("%d: %+v", status, docs)
	}
	for i, want := range [][]string{
		{"copies: got \"many\"; want a whole number from 1", "/spec/cover"},
		{"this is both"},
		{"sheet.size: got", "sheet.grain: got", "sheet.count: got", "sheet.price: got", "sheet.trim: got", "sheet.offcut: got", "sheet.material: nothing is there"},
		{"2 cells; want 12"},
		{`minutes: got "x"`},
		{"byte"},
		{"spine"},
	} {
		d := docs[i]
		if d.Line != 7+i || d.Error == nil {
			t.Errorf("%+v in place of %s", d, want)
			continue
		}
		for _, w := range want {
			if !strings.Contains(d.Error.Message, w) {
				t.Errorf("%s is missing in %s", w, d.Error.Message)
			}
		}
	}
	const spec = `{"cover": "6 x 8 in"}`
	docs, _, status = lay(t, `{"version": 1, "batch": {"folios": [{"spec": `+spec+`, "copies": 1}, {"spec": `+spec+`}]}}
{"version": 1, "batch": {"folios": [{"copies": "1"}]}}
{"version": 1, "batch": {"folios": [{"spec": {"cover": "6 x 8 in", "spine": {"width": "1 in"}}, "copies": 1}], "costs": {"margin": -1}}}
`, "-line", "11")
	if status != oneFailed || len(docs) != 4 || docs[0].Line != 11 || len(docs[0].Error.Problems) != 2 || docs[0].Error.Problems[1].Path != "folios[1].spec.spine" ||
		docs[1].Line != 12 || docs[1].Error.Faults[0].Pointer != "/batch/folios/0/copies" || docs[3].Line != 13 || docs[3].Error.Problems[0].Path != "margin" {
		t.Errorf("%d: %+v", status, docs)
	}
}

func TestLayMisuse(t *testing.T) {
	for _, c := range []struct {
		in   string
		args []string
		want string
	}{
		{regatta, []string{"-rate", "18 USD"}, "a document has its costs"},
		{regatta, []string{"-in", "csv", "-rate", "much"}, "-rate: "},
		{regatta, []string{"-in", "csv", "-fee", "1,500 USD"}, "-fee: "},
		{regatta, []string{"-in", "csv", "-margin", "100"}, "from 0 to 99"},
		{regatta, []string{"-in", "csv", "-csv", "pieces"}, "without -lay"},
		{regatta, []string{"-in", "csv", "-fields", "pieces.name"}, "neither of the layout nor of the costs"},
		{regatta, []string{"-in", "csv", "-fields", "layout.boughts"}, `no member "boughts"`},
		{regatta, []string{"-in", "csv", "-fields", "costs.sum"}, `no member "sum"`},
		{"", []string{"-in", "csv"}, "no header"},
		{"cover,copies,Copies\n", []string{"-in", "csv"}, "there is such a column already"},
		{"cover,wings\n", []string{"-in", "csv"}, "there is no field"},
	} {
		out, bad, status := sizes(c.in, append([]string{"-lay"}, c.args...)...)
		if out != "" || status != misuse || !strings.Contains(bad, c.want) {
			t.Errorf("%q: %d, %s, %s", c.args, status, out, bad)
		}
	}
	if out, bad, status := sizes(bow, "-rate", "18 USD"); out != "" || status != misuse || !strings.Contains(bad, "of -lay") {
		t.Errorf("%d, %s, %s", status, out, bad)
	}
	pretty, _, _ := sizes(regatta, "-lay", "-in", "csv", "-pretty", "-fields", "costs.total")
	if pretty != "{\n  \"version\": 1,\n  \"costs\": {\n    \"total\": \"16.55 USD\"\n  }\n}\n" {
		t.Errorf("pretty: %s", pretty)
	}
	// No table grows without end, and nobody has to read it all.
	var bad strings.Builder
	long := "cover,spine.width\n" + strings.Repeat("6 x 8 in,1 in\n", mostRows+1)
	if status := run([]string{"-lay", "-in", "csv"}, strings.NewReader(long), io.Discard, &bad, nil); status != oneFailed || !strings.Contains(bad.String(), "at most 10000 rows") {
		t.Errorf("%d, %s", status, &bad)
	}
	for _, n := range []int{mostRows, mostRows + 1, 10 * mostRows} { // of rows that are no folio
		bad.Reset()
		status := run([]string{"-lay", "-in", "csv"}, strings.NewReader("cover,spine.width\n"+strings.Repeat("0,0\n", n)), io.Discard, &bad, nil)
		if status != oneFailed || strings.Contains(bad.String(), "at most 10000 rows") != (n > mostRows) {
			t.Errorf("%d rows: %d, %.300s", n, status, &bad)
		}
	}
	bad.Reset()
	if status := run([]string{"-lay", "-in", "csv"}, strings.NewReader(regatta), &closing{100}, &bad, nil); status != allDone || bad.String() != "" {
		t.Errorf("a closed pipe: %d, %s", status, &bad)
	}
	if status := run([]string{"-lay"}, broken{}, io.Discard, &bad, nil); status != oneFailed || !strings.Contains(bad.String(), "cable is out") {
		t.Errorf("%d, %s", status, &bad)
	}
}
