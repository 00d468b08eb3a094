package schemas_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"math/rand"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"boardwrap.example/folio"
	"boardwrap.example/folio/cost"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/post"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/folio/wire"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
	"boardwrap.example/units/money"
)

// schema compiles the schema, which also checks it by that of JSON Schema
// 2020-12.
func schema(tb testing.TB) *jsonschema.Schema {
	tb.Helper()
	return compiled(tb, wire.SpecSchema())
}

func compiled(tb testing.TB, text []byte) *jsonschema.Schema {
	tb.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		tb.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("schema.json", doc); err != nil {
		tb.Fatal(err)
	}
	s, err := c.Compile("schema.json")
	if err != nil {
		tb.Fatal(err)
	}
	if got := s.DraftVersion; got != 2020 {
		tb.Fatalf("draft %d", got)
	}
	return s
}

// taken says who takes a document.
func taken(s *jsonschema.Schema, data []byte) (bySchema, byReader bool) {
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	bySchema = err == nil && s.Validate(doc) == nil
	_, err = wire.ReadSpec(data)
	return bySchema, err == nil
}

// examples are the documents of version 1.
func examples(tb testing.TB) map[string][]byte {
	tb.Helper()
	names, err := filepath.Glob("../../folio/wire/testdata/v1/*.json")
	if err != nil {
		tb.Fatal(err)
	}
	all := map[string][]byte{}
	for _, name := range names {
		if filepath.Base(name) == "schema.json" {
			continue
		}
		if all[filepath.Base(name)], err = os.ReadFile(name); err != nil {
			tb.Fatal(err)
		}
	}
	if len(all) < 4 {
		tb.Fatalf("%d examples", len(all))
	}
	return all
}

// parts are small documents with a member of an example each, or one element of
// its lists: what is wrong with them is found sooner.
func parts(tb testing.TB) map[string][]byte {
	tb.Helper()
	all := map[string][]byte{}
	for name, data := range examples(tb) {
		spec, ok := read(tb, data).(map[string]any)["spec"].(map[string]any)
		if !ok {
			tb.Fatalf("%s has no spec", name)
		}
		for member, v := range spec {
			values := []any{v}
			if list, ok := v.([]any); ok {
				values = nil
				for _, e := range list {
					values = append(values, []any{e})
				}
			}
			for i, v := range values {
				all[fmt.Sprintf("%s/%s/%d", name, member, i)] = write(tb, map[string]any{"version": 1, "spec": map[string]any{member: v}})
			}
		}
	}
	return all
}

// Every example is valid, and so it is written with its defaults.
func TestExamples(t *testing.T) {
	s := schema(t)
	for name, data := range examples(t) {
		if a, b := taken(s, data); !a || !b {
			t.Errorf("%s: schema %t, reader %t", name, a, b)
		}
		spec, err := wire.ReadSpec(data)
		if err != nil {
			t.Fatal(err)
		}
		full, err := wire.AppendSpec(nil, spec, wire.Options{Defaults: true})
		if a, b := taken(s, full); err != nil || !a || !b {
			t.Errorf("%s with its defaults: %v, schema %t, reader %t\n%s", name, err, a, b, full)
		}
	}
}

// bodies of a Spec that are wrong, by hand.
var bodies = []string{
	`null`, `[]`, `"cover"`, `7`, `true`, `{"":1}`, `{"Cover":"6 x 8 in"}`, `{"COVER":"6 x 8 in"}`, `{"covers":"6 x 8 in"}`, `{"cover ":"6 x 8 in"}`,
	`{"cover":6}`, `{"cover":"6"}`, `{"cover":"6 x 8"}`, `{"cover":"6 x 8 x 1 in"}`, `{"cover":"six by eight"}`, `{"cover":["6 in","8 in"]}`, `{"cover":{"w":"6 in","h":"8 in"}}`,
	`{"cover":null}`, `{"cover":true}`, `{"cover":" x "}`, `{"cover":"6 x 8 parsecs"}`, `{"cover":"6in x 8in","cover":"6in x 8in"}`,
	`{"spine":"1 in"}`, `{"spine":{"width":1}}`, `{"spine":{"width":1.5}}`, `{"spine":{"width":"1"}}`, `{"spine":{"width":"1 1 in"}}`, `{"spine":{"width":"1/0 in"}}`,
	`{"spine":{"width":"1 in","Width":"1 in"}}`, `{"spine":{"wide":"1 in"}}`, `{"spine":{"width":"none at all"}}`, `{"spine":{"rule":0}}`, `{"spine":{"rule":"some"}}`, `{"spine":{"width":"1e999999999 in"}}`,
	`{"form":0}`, `{"form":"tent"}`, `{"form":["cover, spine, cover"]}`, `{"title":1}`, `{"title":null}`, `{"title":["a"]}`, `{"title":{}}`,
	`{"board":"2 mm"}`, `{"board":{"caliper":2}}`, `{"board":{"caliper":"2 mm","thickness":"2 mm"}}`, `{"board":{"grammage":120}}`, `{"board":{"grammage":"120"}}`, `{"board":{"grammage":"heavy"}}`, `{"board":{"grammage":"120 mm"}}`,
	`{"board":{"oneWay":"yes"}}`, `{"board":{"oneWay":1}}`, `{"board":{"twoSided":null}}`, `{"board":{"sheets":{}}}`, `{"board":{"sheets":"a4"}}`, `{"board":{"sheets":[1]}}`, `{"board":{"sheets":[{"grain":"both"}]}}`, `{"board":{"sheets":[{"size":"20 in"}]}}`,
	`{"stocks":{}}`, `{"stocks":"card"}`, `{"stocks":[[]]}`, `{"stocks":[null]}`, `{"stocks":[{"weight":"1 g"}]}`,
	`{"hinge":{"angle":"90"}}`, `{"hinge":{"angle":1.5}}`, `{"hinge":{"angle":1e400}}`, `{"hinge":{"angle":3000000000}}`, `{"hinge":{"rule":"loose"}}`, `{"hinge":[]}`,
	`{"margin":{"ideal":"1"}}`, `{"margin":{"rule":"20 mm"}}`, `{"margin":"1 in"}`, `{"mitre":{"distance":{}}}`, `{"mitre":{"angle":"45"}}`, `{"turning":"any"}`, `{"turning":1}`,
	`{"quarter":true}`, `{"quarter":{"rule":true}}`, `{"quarter":{"reach":"far"}}`, `{"lining":{"inset":-1}}`, `{"lining":{"rule":"none such"}}`, `{"grain":"odd"}`, `{"groove":"top"}`,
	`{"placing":0}`, `{"placing":"0"}`, `{"rulers":"mm"}`, `{"rulers":{"main":"mm"}}`, `{"rulers":{"main":16}}`, `{"rulers":{"main":"1/0 in"}}`, `{"rulers":{"minor":"1 mm"}}`, `{"clearance":false}`,
	`{"fittings":{}}`, `{"fittings":[1]}`, `{"fittings":[{"kind":"mat"}]}`, `{"fittings":[{"kind":null}]}`, `{"fittings":[{"kind":{}}]}`, `{"fittings":[{"kind":{"type":1}}]}`, `{"fittings":[{"kind":{"type":"Mat"}}]}`,
	`{"fittings":[{"kind":{"type":"mat","type":"mat"}}]}`, `{"fittings":[{"kind":{"type":"mat","type":"frame"}}]}`, `{"fittings":[{"kind":{"type":"kite"}}]}`, `{"fittings":[{"kind":{"type":"mat","kind":{"type":"pleats"}}}]}`,
	`{"fittings":[{"kind":{"type":"folded","kind":{"type":"mat"}}}]}`, `{"fittings":[{"kind":{"type":"folded","kind":{"type":"slip"}}}]}`, `{"fittings":[{"kind":{"type":"folded","kind":"flap"}}]}`, `{"fittings":[{"kind":{"type":"pleats"}}]}`,
	`{"fittings":[{"kind":{"type":"folded","kind":{"type":"pleats","count":"3"}}}]}`, `{"fittings":[{"kind":{"type":"folded","kind":{"type":"pleats","count":3.5}}}]}`, `{"fittings":[{"kind":{"type":"folded","kind":{"type":"pleats","ease":"1 in"}}}]}`,
	`{"fittings":[{"kind":{"type":"mat"},"panel":"roof"}]}`, `{"fittings":[{"kind":{"type":"mat"},"panel":1}]}`, `{"fittings":[{"kind":{"type":"mat"},"outside":"no"}]}`, `{"fittings":[{"kind":{"type":"mat"},"place":"middle"}]}`,
	`{"fittings":[{"kind":{"type":"mat"},"place":{"across":"up"}}]}`, `{"fittings":[{"kind":{"type":"mat"},"place":{"offset":"1 in"}}]}`, `{"fittings":[{"kind":{"type":"mat"},"standsOn":0}]}`, `{"fittings":[{"Kind":{"type":"mat"}}]}`, `{"fittings":[{"kind":{"type":"mat"},"kind":{"type":"mat"}}]}`,
	`{"closing":{"ease":3}}`, `{"closing":{"adhesive":"glue"}}`, `{"closing":{"adhesive":{"glue":"yes"}}}`, `{"magnets":{"pairs":"2"}}`, `{"magnets":{"pairs":2.0}}`, `{"magnets":{"pairs":1e1}}`, `{"magnets":{"diameter":8}}`, `{"magnets":[]}`, `{"magnets":{"pairs":-3000000000}}`,
	`{"block":{"page":"a5 or so"}}`, `{"block":{"square":"none","square":"none"}}`, `{"block":"a5"}`, `{"doorGap":"nothing"}`, `{"doorGap":"None at all"}`, `{"flapWidth":"half"}`, `{"version":1}`, `{"spec":{}}`,
	// A fitting, and what is folded, say what they are.
	`{"fittings":[{}]}`, `{"fittings":[{"name":"crew"}]}`, `{"fittings":[{"kind":{"type":"folded"}}]}`, `{"fittings":[{"kind":{"type":"folded","matStock":"card"}}]}`, `{"fittings":[{"kind":{"type":"mat"}},{}]}`,
	`{"fittings":[{"kind":{"type":"mat","Type":"mat"}}]}`, `{"fittings":[{"kind":{"type":""}}]}`, `{"fittings":[{"kind":{"type":"none"}}]}`, `{"fittings":[{"kind":[{"type":"mat"}]}]}`, `{"fittings":[{"kind":{"type":["mat"]}}]}`,
	`{"fittings":[{"kind":{"type":"frame","rail":12}}]}`, `{"fittings":[{"kind":{"type":"frame","rail":"12"}}]}`, `{"fittings":[{"kind":{"type":"frame","lap":"-"}}]}`, `{"fittings":[{"kind":{"type":"frame","mouth":"foot"}}]}`, `{"fittings":[{"kind":{"type":"frame","mouth":1}}]}`,
	`{"fittings":[{"kind":{"type":"frame","film":true}}]}`, `{"fittings":[{"kind":{"type":"ornament","mass":3}}]}`, `{"fittings":[{"kind":{"type":"ornament","mass":"3"}}]}`, `{"fittings":[{"kind":{"type":"ornament","mass":"3 mm"}}]}`, `{"fittings":[{"kind":{"type":"ornament","reveal":"3 mm"}}]}`,
	`{"fittings":[{"kind":{"type":"mat","picture":"4 x 6 in"}}]}`, `{"fittings":[{"kind":{"type":"mat","picture":{"size":"4 + 6 in"}}}]}`, `{"fittings":[{"kind":{"type":"mat","picture":{"thickness":0.2}}}]}`, `{"fittings":[{"kind":{"type":"mat","picture":{"name":7}}}]}`, `{"fittings":[{"kind":{"type":"mat","reveal":null}}]}`,
	`{"fittings":[{"kind":{"type":"folded","kind":{"type":"pleats","pleats":"7"}}}]}`, `{"fittings":[{"kind":{"type":"folded","kind":{"type":"pleats","pleats":7e0}}}]}`, `{"fittings":[{"kind":{"type":"folded","kind":{"type":"pleats","ease":{"w":1}}}}]}`, `{"fittings":[{"kind":{"type":"folded","kind":{"type":"pleats","ease":{"x":"1 mm"}}}}]}`,
	`{"fittings":[{"kind":{"type":"mat"},"place":{"offset":{"x":1}}}]}`, `{"fittings":[{"kind":{"type":"mat"},"place":{"offset":{"z":"1 mm"}}}]}`, `{"fittings":[{"kind":{"type":"mat"},"place":{"along":"left of it"}}]}`, `{"fittings":[{"kind":{"type":"mat"},"name":null}]}`, `{"fittings":[{"kind":{"type":"mat"},"stock":{"name":"card"}}]}`,
	`{"fittings":[{"kind":{"type":"mat"},"wrongSide":"false"}]}`, `{"fittings":[{"kind":{"type":"mat"},"wrongSide":0}]}`, `{"fittings":[{"kind":{"type":"mat"},"size":"4 x 6 in"}]}`, `{"fittings":[{"kind":{"type":"mat"},"size":{"w":"half"}}]}`, `{"fittings":[{"kind":{"type":"mat"},"size":{"w":{"share":"1/2"}}}]}`,
	`{"board":{"caliper":"2"}}`, `{"board":{"caliper":"2 mm 3"}}`, `{"board":{"caliper":"1e3 mm"}}`, `{"board":{"caliper":"0x10 mm"}}`, `{"board":{"caliper":"∞ mm"}}`, `{"board":{"caliper":"99999999999999999999 m"}}`, `{"board":{"name":[]}}`, `{"board":[{"caliper":"2 mm"}]}`, `{"covering":{"sheets":[null]}}`, `{"covering":{"sheets":[{"size":"a4","size":"a4"}]}}`,
	`{"liner":{"grammage":{"value":120,"unit":"g/m2"}}}`, `{"liner":0}`, `{"spineCovering":false}`, `{"magnets":{"pairs":1,"pairs":1}}`, `{"hinge":{"angle":true}}`, `{"hinge":{"width":{"text":"7 mm","mm":7}}}`, `{"rulers":{"main":{"step":"1 mm"}}}`, `{"rulers":{"main":"-1 mm"}}`, `{"rulers":{"main":""}}`, `{"rulers":["1 mm"]}`,
}

// documents that are wrong round the Spec, by hand.
var documents = []string{
	``, ` `, `{`, `}`, `[]`, `null`, `1`, `"spec"`, `{}`, `{"version":1}`, `{"spec":{}}`, `{"version":2,"spec":{}}`, `{"version":0,"spec":{}}`, `{"version":"1","spec":{}}`, `{"version":1.0,"spec":{},"x":1}`, `{"version":true,"spec":{}}`,
	`{"version":null,"spec":{}}`, `{"Version":1,"spec":{}}`, `{"version":1,"Spec":{}}`, `{"version":1,"spec":{}}{}`, `{"version":1,"spec":{}},`, `{"version":1,"spec":{}} 1`, `{"version":1,"version":1,"spec":{}}`, `{"version":1,"spec":{},"spec":{}}`,
	`{"version":1,"spec":{},}`, `{"version":1,"spec":{,}}`, `{'version':1,'spec':{}}`, `{version:1,spec:{}}`, `{"version":1 "spec":{}}`, `{"version":1,"spec":{"title":"a` + "\n" + `b"}}`, `{"version":1,"spec":{"title":"\x"}}`, `{"version":01,"spec":{}}`,
	`{"version":1,"spec":{"title":"` + "\xff" + `"}}`, "\xef\xbb\xbf" + `{"version":1,"spec":{}}`, `{"version":1,"spec":{}} // end`, `/* */{"version":1,"spec":{}}`, `{"version":1,"spec":{},"plan":{}}`, `{"version":1,"spec":NaN}`, `{"version":+1,"spec":{}}`, `[{"version":1,"spec":{}}]`,
}

// Each is refused by the reader, which is never laxer than the schema: what a
// text means, and members that come twice, it alone can tell.
func TestByHand(t *testing.T) {
	s := schema(t)
	if n := len(bodies) + len(documents); n < 200 {
		t.Errorf("only %d by hand", n)
	}
	all := slices.Clone(documents)
	for _, b := range bodies {
		all = append(all, `{"version":1,"spec":`+b+`}`)
	}
	for _, doc := range all {
		if a, b := taken(s, []byte(doc)); b {
			t.Errorf("%s: schema %t, reader %t", doc, a, b)
		}
	}
}

// A site is a value within a document that can be replaced.
type site struct {
	path string
	get  any
	set  func(any)
}

// sites walks a document in one order.
func sites(v any, path string, set func(any), visit func(site)) {
	visit(site{path, v, set})
	switch v := v.(type) {
	case map[string]any:
		for _, name := range slices.Sorted(maps.Keys(v)) {
			sites(v[name], path+"/"+name, func(x any) { v[name] = x }, visit)
		}
	case []any:
		for i := range v {
			sites(v[i], fmt.Sprintf("%s/%d", path, i), func(x any) { v[i] = x }, visit)
		}
	}
}

// wrong are values that nothing of the form of old may be replaced by.
func wrong(old any) []any {
	all := []any{nil, []any{[]any{}}, map[string]any{"wings": "2"}}
	switch old.(type) {
	case string:
		all = append(all, 6, 1.5, true, []any{old})
	case bool:
		all = append(all, "true", 1, 0)
	case json.Number, float64:
		all = append(all, "3", 2.5, true, 1e300, 1<<40)
	case map[string]any:
		all = append(all, "6 x 8 in", 1, []any{old})
	case []any:
		all = append(all, "crew", 1, map[string]any{})
	}
	return all
}

func write(tb testing.TB, v any) []byte {
	tb.Helper()
	data, err := json.Marshal(v)
	if err != nil {
		tb.Fatal(err)
	}
	return data
}

func read(tb testing.TB, data []byte) any {
	tb.Helper()
	var v any
	if err := json.Unmarshal(data, &v); err != nil {
		tb.Fatal(err)
	}
	return v
}

// At every place of every part of the examples, a value of each other form is refused, by the
// schema and by the reader.
func TestWrongForms(t *testing.T) {
	s := schema(t)
	n := 0
	for name, data := range parts(t) {
		doc := read(t, data)
		sites(doc, "", func(any) {}, func(at site) {
			if at.path == "" {
				return
			}
			for _, bad := range wrong(at.get) {
				at.set(bad)
				n++
				changed := write(t, doc)
				if a, b := taken(s, changed); a || b {
					t.Errorf("%s%s as %v: schema %t, reader %t", name, at.path, bad, a, b)
				}
			}
			at.set(at.get)
		})
	}
	if n < 2000 {
		t.Errorf("only %d were tried", n)
	}
	t.Logf("%d documents", n)
}

// change makes one change at random to a document, which is wrong then if surely
// is true.
func change(r *rand.Rand, doc any) (what string, surely bool) {
	var all []site
	sites(doc, "", func(any) {}, func(at site) { all = append(all, at) })
	at := all[1+r.Intn(len(all)-1)]
	switch o := at.get.(type) {
	case map[string]any:
		names := slices.Sorted(maps.Keys(o))
		if len(names) == 0 || r.Intn(4) == 0 {
			o["wings"] = "2"
			return at.path + "/wings", true
		}
		name := names[r.Intn(len(names))]
		v := o[name]
		delete(o, name)
		switch r.Intn(4) {
		case 0: // left out, which only a type or the version may not be
			return at.path + "/" + name + " left out", name == "type"
		case 1:
			o[strings.ToUpper(name)] = v
		case 2:
			o[name+"s"] = v
		default:
			o[" "+name] = v
		}
		return at.path + "/" + name + " renamed", true
	case []any:
		if r.Intn(2) == 0 && len(o) > 0 {
			at.set(append(o, o[0])) // may be well
			return at.path + " longer", false
		}
		at.set(append(o, 7))
		return at.path + " with a number", true
	case string:
		if r.Intn(3) > 0 { // what a text may be, only the reader knows
			cut := r.Intn(len(o) + 1)
			at.set(o[:cut] + string("x1 /.-½"[r.Intn(7)]) + o[cut:])
			return at.path + " garbled", false
		}
	}
	bad := wrong(at.get)
	at.set(bad[r.Intn(len(bad))])
	return at.path + " of another form", true
}

// Changes at random: what is surely wrong is refused by one or the other, and
// whatever the reader takes, the schema takes.
func TestChanges(t *testing.T) {
	s := schema(t)
	r := rand.New(rand.NewSource(1))
	docs := parts(t)
	names := slices.Sorted(maps.Keys(docs))
	refused, both := 0, 0
	for tries := 0; refused < 20_000 && tries < 60_000; tries++ {
		doc := read(t, docs[names[r.Intn(len(names))]])
		what, surely := change(r, doc)
		data := write(t, doc)
		a, b := taken(s, data)
		switch {
		case b && !a:
			t.Errorf("%s: the reader takes it, the schema does not\n%.500s", what, data)
		case surely && b:
			t.Errorf("%s is taken", what)
		case a && b:
			both++
		default:
			refused++
		}
	}
	if refused < 20_000 || both < 500 {
		t.Errorf("%d refused, %d taken", refused, both)
	}
	t.Logf("%d refused, %d taken", refused, both)
}

// What goes out is as its schema says, and a value of another form at any place
// is not.
func TestOut(t *testing.T) {
	plans, faults := compiled(t, wire.PlanSchema()), compiled(t, wire.ErrorSchema())
	made, failed := 0, 0
	docs := examples(t)
	docs["broken"] = []byte(`{"version":1,"spec":{"cover":6,"wings":2}}`)
	docs["thin"] = []byte(`{"version":1,"spec":{"cover":"6 x 8 in"}}`)
	for _, name := range slices.Sorted(maps.Keys(docs)) { // each failure is of the same line in every run
		data := docs[name]
		spec, err := wire.ReadSpec(data)
		var p *folio.Plan
		if err == nil {
			p, err = folio.Build(spec)
		}
		s := plans
		var out []byte
		if err == nil {
			made++
			out, err = wire.AppendPlan(nil, p, wire.Options{})
		} else {
			failed++
			s = faults
			out, err = wire.AppendError(nil, err, units.InchFraction, wire.Options{Line: failed - 1})
		}
		if err != nil {
			t.Fatal(err)
		}
		if err := s.Validate(read(t, out)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		n := 0
		doc := read(t, out)
		sites(doc, "", func(any) {}, func(at site) {
			// Every 50th place: whole plans are long.
			if n++; n%50 != 2 {
				return
			}
			at.set(map[string]any{"wings": []any{}})
			if s.Validate(doc) == nil {
				t.Errorf("%s%s may be anything", name, at.path)
			}
			at.set(at.get)
		})
	}
	if made < 2 || failed < 3 {
		t.Errorf("%d plans, %d errors", made, failed)
	}
}

// Costs are as their schema says too.
func TestCosts(t *testing.T) {
	p, err := folio.Build(folio.Spec{Cover: units.MustParseSize("6 x 8 in"), Spine: rule.Spine{Width: units.Inch}})
	if err != nil {
		t.Fatal(err)
	}
	usd, _ := money.CurrencyOf("USD")
	job := layout.Job{Folios: []layout.Folio{{Plan: p, Copies: 2}}, Materials: layout.MaterialsOf(p)}
	for i := range job.Materials {
		job.Materials[i].Sheets = []layout.SheetKind{{Size: units.MustParseSize("20 x 30 in"), Grain: stock.GrainAlongHeight, Count: layout.Unlimited, Price: money.Amount{Minor: 100, Currency: usd}}}
	}
	laid, err := layout.Lay(t.Context(), job, layout.Budget{Steps: 10_000})
	if err != nil {
		t.Fatal(err)
	}
	s := compiled(t, wire.CostsSchema())
	for _, margin := range []int{0, 3000} {
		b, err := cost.Of(laid, cost.Basis{Fee: money.Amount{Minor: 500, Currency: usd}, Margin: margin})
		if err != nil {
			t.Fatal(err)
		}
		out, err := wire.AppendCosts(nil, b, wire.Options{})
		if err != nil {
			t.Fatal(err)
		}
		doc := read(t, out)
		if err := s.Validate(doc); err != nil {
			t.Errorf("%v\n%s", err, out)
		}
		sites(doc, "", func(any) {}, func(at site) {
			if at.path == "" {
				return
			}
			at.set(map[string]any{"wings": []any{}})
			if s.Validate(doc) == nil {
				t.Errorf("%s may be anything", at.path)
			}
			at.set(at.get)
		})
	}
}

// Layouts and verdicts are as their schemas say, and a value of another form at
// any place is not.
func TestLayoutsAndVerdicts(t *testing.T) {
	p, err := folio.Build(folio.Spec{Cover: units.MustParseSize("6 x 8 in"), Spine: rule.Spine{Width: units.Inch},
		Fittings: []folio.Fitting{{Name: "mat", Kind: folio.Mat{Size: units.MustParseSize("4 x 6 in")}}}})
	if err != nil {
		t.Fatal(err)
	}
	job := layout.Job{Folios: []layout.Folio{{Plan: p, Copies: 2}}, Materials: layout.MaterialsOf(p), Pieces: []layout.LoosePiece{{Name: "long", Material: p.Spec().Liner.Name, Size: units.MustParseSize("8 x 31 in"), Quantity: 1}}}
	for i := range job.Materials {
		job.Materials[i].Sheets = []layout.SheetKind{{Size: units.MustParseSize("20 x 30 in"), Count: layout.Unlimited}}
	}
	laid, _ := layout.Lay(t.Context(), job, layout.Budget{Steps: 10_000}) // what has no place is in the document
	if laid == nil {
		t.Fatal("no layout")
	}
	survey := fit.Of(p)
	ways, err := survey.All(t.Context(), fit.Budget{}, pocket.Content{Name: "card", Size: units.MustParseSize("2 x 3 in")})
	if err != nil {
		t.Fatal(err)
	}
	item, err := post.Pack(p, post.Packing{})
	if err != nil {
		t.Fatal(err)
	}
	report, err := post.USPS().Judge(item, units.InchFraction)
	if err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		schema []byte
		write  func() ([]byte, error)
	}{
		"layout":  {wire.LayoutSchema(), func() ([]byte, error) { return wire.AppendLayout(nil, laid, wire.Options{}) }},
		"closing": {wire.ClosingSchema(), func() ([]byte, error) { return wire.AppendClosing(nil, p, wire.Options{}) }},
		"holding": {wire.HoldingSchema(), func() ([]byte, error) { return wire.AppendHolding(nil, survey, ways, wire.Options{}) }},
		"posting": {wire.PostingSchema(), func() ([]byte, error) { return wire.AppendPosting(nil, report, wire.Options{}) }},
	} {
		s := compiled(t, c.schema)
		out, err := c.write()
		if err != nil {
			t.Fatal(err)
		}
		doc := read(t, out)
		if err := s.Validate(doc); err != nil {
			t.Errorf("%s: %v\n%.2000s", name, err, out)
		}
		n := 0
		sites(doc, "", func(any) {}, func(at site) {
			if n++; at.path == "" || n > 500 && n%50 != 2 { // layouts are long
				return
			}
			at.set(map[string]any{"wings": []any{}})
			if s.Validate(doc) == nil {
				t.Errorf("%s: %s may be anything", name, at.path)
			}
			at.set(at.get)
		})
	}
}
