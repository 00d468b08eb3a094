package wire_test

import (
	"encoding/json"
	"errors"
	"math"
	"math/rand"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"boardwrap.example/folio"
	"boardwrap.example/folio/cost"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/folio/wire"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
	"boardwrap.example/units/money"
)

func TestReadBatch(t *testing.T) {
	got, err := wire.ReadBatch([]byte(`{"version": 1, "batch": {
		"folios": [{"spec": {"cover": "6 x 8 in", "spine": {"width": "5/8 in"}}, "copies": 12}],
		"materials": [{"name": "covering", "caliper": "0.006 in", "cutter": {"longestCut": "none"},
			"sheets": [{"size": "18 x 24 in", "grain": "along the height", "count": -1, "price": "4.50 USD", "trim": "1/8 in"}]}],
		"except": ["card"],
		"cutter": {"kerf": "1 mm", "stack": "3 mm"},
		"keep": {"short": "2 in", "long": "5 in"},
		"costs": {"sheets": "less offcuts", "minutes": [25], "rate": "18 USD", "margin": 3000, "roundTo": 9223372036854775807,
			"supplies": [{"name": "glue", "price": "6 USD", "contents": 500, "measure": "g", "amounts": [20]}]}
	}}`))
	if err != nil {
		t.Fatal(err)
	}
	usd := func(text string) money.Amount {
		var a money.Amount
		if err := a.UnmarshalText([]byte(text)); err != nil {
			t.Fatal(err)
		}
		return a
	}
	want := wire.Batch{
		Folios: []wire.Copies{{Spec: folio.Spec{Cover: units.MustParseSize("6 x 8 in"), Spine: rule.Spine{Width: 5 * units.Inch / 8}}, Copies: 12}},
		Materials: []layout.Material{{Name: "covering", Caliper: 6 * units.Inch / 1000, Cutter: layout.Cutter{LongestCut: units.None}, Sheets: []layout.SheetKind{
			{Size: units.MustParseSize("18 x 24 in"), Grain: stock.GrainAlongHeight, Count: layout.Unlimited, Price: usd("4.50 USD"), Trim: units.Inch / 8},
		}}},
		Except: []string{"card"},
		Cutter: layout.Cutter{Kerf: units.Millimetre, Stack: 3 * units.Millimetre},
		Keep:   layout.Keep{Short: 2 * units.Inch, Long: 5 * units.Inch},
		Costs: cost.Basis{Sheets: cost.LessOffcuts, Minutes: []int{25}, Rate: usd("18 USD"), Margin: 3000, RoundTo: math.MaxInt64,
			Supplies: []cost.Supply{{Name: "glue", Price: usd("6 USD"), Contents: 500, Measure: "g", Amounts: []int64{20}}}},
	}
	if d := cmp.Diff(want, got, cmp.Comparer(func(a, b money.Amount) bool { return a == b })); d != "" {
		t.Error(d)
	}
	for doc, pointer := range map[string]string{
		`{"version": 1, "batch": {"folios": [{"copies": "12"}]}}`:                "/batch/folios/0/copies",
		`{"version": 1, "batch": {"folios": [{"spec": {"cover": 6}}]}}`:          "/batch/folios/0/spec/cover",
		`{"version": 1, "batch": {"costs": {"rate": 18}}}`:                       "/batch/costs/rate",
		`{"version": 1, "batch": {"costs": {"roundTo": 9223372036854775808}}}`:   "/batch/costs/roundTo",
		`{"version": 1, "batch": {"materials": [{"sheets": [{"price": "4"}]}]}}`: "/batch/materials/0/sheets/0/price",
		`{"version": 1, "batch": {"Folios": []}}`:                                "/batch/Folios",
		`{"version": 1}`: "",
	} {
		b, err := wire.ReadBatch([]byte(doc))
		var bad *wire.Error
		if !errors.As(err, &bad) || bad.Len() != 1 || b.Folios != nil {
			t.Errorf("%s: %v", doc, err)
			continue
		}
		for f := range bad.All() {
			if f.Pointer != pointer {
				t.Errorf("%s: at %q; want %q", doc, f.Pointer, pointer)
			}
		}
	}
}

// A batch becomes a job with the sheets that its folios name besides, each material
// once; what there are no sheets of is named, and until it is excepted Lay refuses it.
// What is wrong with several folios is said of each at its place in the batch.
func TestBatchJob(t *testing.T) {
	b, err := wire.ReadBatch([]byte(`{"version":1,"batch":{"folios":[
		{"spec":{"cover":"6 x 8 in","spine":{"width":"5/8 in"},"covering":{"name":"river paper","sheets":[{"size":"18 x 24 in"}]}},"copies":2},
		{"spec":{"cover":"5 x 7 in","spine":{"width":"5/8 in"},"covering":{"name":"river paper","sheets":[{"size":"18 x 24 in"}]},"liner":{"name":"white"}},"copies":3}],
		"materials":[{"name":"board","sheets":[{"size":"20 x 30 in","count":4}]}],"except":["white"],"keep":{"short":"2 in"}}}`))
	if err != nil {
		t.Fatal(err)
	}
	job, lacking, err := b.Job()
	if err != nil || len(job.Folios) != 2 || job.Folios[1].Copies != 3 || job.Folios[1].Plan.Spec().Cover != units.MustParseSize("5 x 7 in") || job.Keep != b.Keep {
		t.Fatalf("%+v, %v", job, err)
	}
	var names []string
	for _, m := range job.Materials {
		names = append(names, m.Name)
	}
	if d := cmp.Diff([]string{"board", "river paper"}, names); d != "" {
		t.Error(d)
	}
	if d := cmp.Diff([]string{"liner"}, lacking); d != "" {
		t.Error(d)
	}
	if _, err := layout.Lay(t.Context(), job, layout.Budget{Steps: 1}); err == nil || !strings.Contains(err.Error(), `"liner"`) {
		t.Errorf("without liner: %v", err)
	}
	job.Except = append(job.Except, lacking...)
	if l, err := layout.Lay(t.Context(), job, layout.Budget{Steps: 1}); err != nil || !l.Complete() {
		t.Errorf("without a word of liner: %v", err)
	}
	if len(b.Except) != 1 || len(b.Materials) != 1 {
		t.Errorf("the batch is another: %+v", b)
	}
	b.Folios[0].Spec.Spine, b.Folios[1].Spec.Cover.W = rule.Spine{}, -units.Inch
	_, _, err = b.Job()
	var bad *check.Error
	if !errors.As(err, &bad) || bad.Len() != 2 {
		t.Fatal(err)
	}
	for _, path := range []string{"folios[0].spec.spine", "folios[1].spec.cover.w"} {
		if _, ok := bad.Find(path, ""); !ok {
			t.Errorf("nothing at %s: %v", path, err)
		}
	}
}

// Twelve covers of 2·6 + 5/8 + 2·1/8 = 12 7/8 in that came out as 13 in are made: of them
// the liners are cut, 1/8 in within the edges, and no board and no wrap. Of two that are
// not, there are two covers, a spine and a wrap each.
func TestBatchOfMadeCovers(t *testing.T) {
	b, err := wire.ReadBatch(v1file(t, "added/batch-made.json"))
	if err != nil {
		t.Fatal(err)
	}
	job, lacking, err := b.Job()
	if err != nil || len(lacking) != 0 {
		t.Fatalf("%v, without %q", err, lacking)
	}
	l, err := layout.Lay(t.Context(), job, layout.Budget{Steps: 1})
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]int{}
	for one := range l.Sheets() {
		for p := range one.Places() {
			size := p.Rect().Size()
			if p.Turned() {
				size.W, size.H = size.H, size.W
			}
			got[one.Material()+" "+units.Format{Ruler: units.Sixteenths}.Size(size)] += one.Times()
		}
	}
	want := map[string]int{"board 6 x 8 in": 4, "board 5/8 x 8 in": 2, "covering 14 7/8 x 10 in": 2, "liner 12 3/4 x 7 3/4 in": 12, "liner 12 5/8 x 7 3/4 in": 2}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
	// Of what is not cut again there need be no sheets.
	only := wire.Batch{Folios: b.Folios[:1]}
	if job, lacking, err := only.Job(); err != nil || len(lacking) != 0 || len(job.Materials) != 1 || job.Materials[0].Name != "liner" {
		t.Errorf("%v, without %q: %v", err, lacking, job.Materials)
	}
	// What cannot be measured is said of the folio whose cover it is.
	b.Folios[0].Measured.Width, b.Folios[1].Measured.Panels = 3*units.Inch, []units.Length{units.Inch}
	_, _, err = b.Job()
	for _, path := range []string{"folios[0].measured.width", "folios[1].measured.panels"} {
		var bad *check.Error
		if !errors.As(err, &bad) {
			t.Fatal(err)
		}
		if _, ok := bad.Find(path, ""); !ok {
			t.Errorf("nothing at %s: %v", path, err)
		}
	}
}

// Whatever a batch holds comes back, and is written as the same bytes again.
func TestBatchRoundTrip(t *testing.T) {
	r := rand.New(rand.NewSource(proptest.Seed()))
	price := money.Amount{Minor: 1250, Currency: money.Currency{Code: "USD", Decimals: 2}}
	for range proptest.Cases(150) {
		var b wire.Batch
		for i := range reflect.TypeOf(b).NumField() {
			fill(r, reflect.ValueOf(&b).Elem().Field(i), 0)
		}
		for i := range b.Folios {
			complete(&b.Folios[i].Spec)
		}
		for i := range b.Materials {
			for k := range b.Materials[i].Sheets { // an amount has a currency
				b.Materials[i].Sheets[k].Price = price
			}
		}
		b.Costs.Rate, b.Costs.Fee = price, price
		for i := range b.Costs.Prices {
			b.Costs.Prices[i] = price
		}
		for i := range b.Costs.Supplies {
			b.Costs.Supplies[i].Price = price
		}
		once, err := wire.AppendBatch(nil, b, wire.Options{Indent: r.Intn(3)})
		if err != nil {
			t.Fatalf("%+v: %v", b, err)
		}
		back, err := wire.ReadBatch(once)
		if err != nil {
			t.Fatalf("%s\n%v", once, err)
		}
		if d := cmp.Diff(b, back); d != "" {
			t.Fatalf("%s\n%s", once, d)
		}
	}
	full, err := wire.AppendBatch(nil, wire.Batch{Folios: []wire.Copies{{Spec: folio.Spec{Rulers: rule.Rulers{Main: units.WholeMillimetres}}}}}, wire.Options{Defaults: true})
	if err != nil || !strings.Contains(string(full), `"inset":"3 mm"`) {
		t.Errorf("%v\n%s", err, full)
	}
}

// The schema has every field of what is read, by its member's name.
func TestBatchSchema(t *testing.T) {
	var s struct {
		Defs map[string]struct{ Properties map[string]any } `json:"$defs"`
	}
	if err := json.Unmarshal(wire.BatchSchema(), &s); err != nil {
		t.Fatal(err)
	}
	for name, members := range map[string][]string{
		"wire.Batch":       {"folios", "materials", "except", "cutter", "keep", "costs"},
		"layout.SheetKind": {"size", "grain", "count", "price", "offcut", "trim"},
		"cost.Basis":       {"sheets", "supplies", "minutes", "rate", "fee", "margin", "roundTo", "prices"},
	} {
		for _, m := range members {
			if s.Defs[name].Properties[m] == nil {
				t.Errorf("%s has no %s", name, m)
			}
		}
		if len(s.Defs[name].Properties) != len(members) {
			t.Errorf("%s has %d members", name, len(s.Defs[name].Properties))
		}
	}
}
