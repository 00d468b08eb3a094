package wire_test

import (
	"context"
	"encoding/json"
	"errors"
	"flag"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"boardwrap.example/folio"
	"boardwrap.example/folio/cost"
	"boardwrap.example/folio/fit"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/post"
	"boardwrap.example/folio/propose"
	"boardwrap.example/folio/wire"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

var writeV1 = flag.Bool("writev1", false, "write the documents and schemas of version 1 that testdata has not got; none is changed")

// schemas are those of every document.
func schemas() map[string][]byte {
	return map[string][]byte{
		"spec": wire.SpecSchema(), "request": wire.RequestSchema(), "batch": wire.BatchSchema(), "plan": wire.PlanSchema(), "layout": wire.LayoutSchema(), "costs": wire.CostsSchema(),
		"closing": wire.ClosingSchema(), "holding": wire.HoldingSchema(), "posting": wire.PostingSchema(), "proposals": wire.ProposalsSchema(), "error": wire.ErrorSchema(),
	}
}

// outgoing are documents of today, one of every kind that goes out, made of the
// documents of version 1 that come in.
func outgoing(t *testing.T) map[string][]byte {
	t.Helper()
	must := func(data []byte, err error) []byte {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return append(data, '\n')
	}
	ctx := context.Background()
	spec, err := wire.ReadSpec(v1(t)["rowing-crew.json"])
	if err != nil {
		t.Fatal(err)
	}
	p, err := folio.Build(spec)
	if err != nil {
		t.Fatal(err)
	}
	batch, err := wire.ReadBatch(v1file(t, "batch/regatta.json"))
	if err != nil {
		t.Fatal(err)
	}
	laid, err := layout.Lay(ctx, jobOf(t, batch), layout.Budget{Steps: 1_000_000})
	if err != nil {
		t.Fatal(err)
	}
	costs, err := cost.Of(laid, batch.Costs)
	if err != nil {
		t.Fatal(err)
	}
	survey := fit.Of(p)
	ways, err := survey.All(ctx, fit.Budget{}, pocket.Content{Name: "race card", Size: units.MustParseSize("2 x 3 in")})
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
	request, err := wire.ReadRequest(requests(t)["rowing-crew.json"])
	if err != nil {
		t.Fatal(err)
	}
	proposed, err := propose.Folios(ctx, request, propose.Budget{Steps: 500_000})
	if err != nil {
		t.Fatal(err)
	}
	_, fault := wire.ReadSpec([]byte("{\"version\": 1,\n \"spec\": {\"cover\": 7}}"))
	_, violation := folio.Build(folio.Spec{Cover: units.MustParseSize("6 x 8 in")})
	o := wire.Options{}
	return map[string][]byte{
		"plan/rowing-crew": must(wire.AppendPlan(nil, p, o)), "closing/rowing-crew": must(wire.AppendClosing(nil, p, o)),
		"layout/regatta": must(wire.AppendLayout(nil, laid, o)), "costs/regatta": must(wire.AppendCosts(nil, costs, o)),
		"holding/rowing-crew": must(wire.AppendHolding(nil, survey, ways, o)), "posting/rowing-crew": must(wire.AppendPosting(nil, report, o)),
		"proposals/rowing-crew": must(wire.AppendProposals(nil, proposed, o)),
		"error/fault":           must(wire.AppendError(nil, fault, units.InchFraction, wire.Options{Line: 7})),
		"error/violation":       must(wire.AppendError(nil, violation, units.InchFraction, o)),
	}
}

// jobOf is a batch as a job; what it has no sheets of is left out.
func jobOf(t *testing.T, b wire.Batch) layout.Job {
	t.Helper()
	job := layout.Job{Materials: b.Materials, Except: b.Except, Cutter: b.Cutter, Keep: b.Keep}
	for _, f := range b.Folios {
		p, err := folio.Build(f.Spec)
		if err != nil {
			t.Fatal(err)
		}
		job.Folios = append(job.Folios, layout.Folio{Plan: p, Copies: f.Copies})
	}
	return job
}

func v1file(t *testing.T, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("testdata/v1", filepath.FromSlash(name)))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// keep writes what testdata has not got.
func keep(t *testing.T, name string, data []byte) {
	t.Helper()
	name = filepath.Join("testdata/v1", filepath.FromSlash(name))
	if _, err := os.Stat(name); !errors.Is(err, fs.ErrNotExist) {
		return
	}
	if err := os.MkdirAll(filepath.Dir(name), 0o777); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, data, 0o666); err != nil {
		t.Fatal(err)
	}
}

// Whoever reads version 1 goes on reading it: of every kind of document the schema
// only grows, and what once went out has nothing that is no longer known.
func TestVersion1ForEver(t *testing.T) {
	now := schemas()
	if *writeV1 {
		for name, data := range now {
			if name != "spec" {
				keep(t, "schema/"+name+".json", data)
			}
		}
		for name, data := range outgoing(t) {
			keep(t, name+".json", data)
		}
	}
	parsed := func(data []byte) (v map[string]any) {
		t.Helper()
		if err := json.Unmarshal(data, &v); err != nil {
			t.Fatal(err)
		}
		return v
	}
	kept := 0
	for name, data := range now {
		file := "schema/" + name + ".json"
		if name == "spec" {
			file = "schema.json"
		}
		before, today := parsed(v1file(t, file)), parsed(data)
		for _, lost := range lacking(inlined(before, before, out(name)), inlined(today, today, out(name)), "") {
			t.Errorf("%s: no longer in the schema: %s", name, lost)
		}
		for was := range before["$defs"].(map[string]any) { // programs find them by name
			if today["$defs"].(map[string]any)[was] == nil {
				t.Errorf("%s: %s is called otherwise in the schema", name, was)
			}
		}
		files, err := filepath.Glob("testdata/v1/" + name + "/*.json")
		if err != nil || len(files) == 0 && name != "spec" {
			t.Fatalf("%s: %v, no documents", name, err)
		}
		for _, file := range files {
			kept++
			doc := parsed(v1file(t, name+"/"+filepath.Base(file)))
			for _, b := range breaches(before, before, doc, "") {
				t.Errorf("%s is not as its schema: %s", file, b)
			}
			for _, b := range breaches(today, today, doc, "") {
				if strings.HasSuffix(b, ": unknown") {
					t.Errorf("%s: no longer known: %s", file, b)
				}
			}
		}
	}
	if kept < 12 {
		t.Errorf("%d documents", kept)
	}
}

// out reports whether documents of a kind go out: what was always there then is
// always there, and there may be more. Of those that come in no more may be asked.
func out(kind string) bool { return kind != "spec" && kind != "request" && kind != "batch" }

// inlined is a schema with what it refers to in place of the references. What is
// required of a document that
// goes out is a list like any other.
func inlined(root map[string]any, v any, out bool) any {
	switch v := v.(type) {
	case map[string]any:
		if ref, ok := v["$ref"].(string); ok {
			return inlined(root, root["$defs"].(map[string]any)[strings.TrimPrefix(ref, "#/$defs/")], out)
		}
		all := map[string]any{}
		for name, w := range v {
			if name == "required" && out {
				name = "always"
			}
			if name != "$defs" {
				all[name] = inlined(root, w, out)
			}
		}
		return all
	case []any:
		all := make([]any, len(v))
		for i, w := range v {
			all[i] = inlined(root, w, out)
		}
		return all
	}
	return v
}

// shapeOf is a document without its values: the names of members and the forms of
// what they hold.
func shapeOf(v any, at string, to map[string]bool) {
	switch v := v.(type) {
	case map[string]any:
		for name, w := range v {
			shapeOf(w, at+"/"+name, to)
		}
		to[at+" object"] = true
	case []any:
		for _, w := range v {
			shapeOf(w, at+"/*", to)
		}
		to[at+" list"] = true
	case string:
		to[at+" text"] = true
	case float64:
		to[at+" number"] = true
	case bool:
		to[at+" bool"] = true
	default:
		to[at+" null"] = true
	}
}

// What goes out today for what came in then has every member that it had, in the
// same form, and the figures that can be worked out by hand: a spine of 5/8 in
// between covers of 6 x 8 in with gaps of 1/8 in, and turn-ins of 1 in, is a wrap of
// 14 7/8 x 10 in; of the regatta's sheets 1.85 + 3 · 4.50 + 2 · 0.60 USD are bought,
// and 115 minutes cost 34.50 USD.
func TestVersion1KeepsItsForms(t *testing.T) {
	today := outgoing(t)
	for name, data := range today {
		if of, _, _ := strings.Cut(name, "/"); of == "layout" || of == "proposals" {
			continue // what a search finds may get better
		}
		var before, now any
		if err := errors.Join(json.Unmarshal(v1file(t, name+".json"), &before), json.Unmarshal(data, &now)); err != nil {
			t.Fatal(err)
		}
		had, has := map[string]bool{}, map[string]bool{}
		shapeOf(before, "", had)
		shapeOf(now, "", has)
		for _, what := range slices.Sorted(maps.Keys(had)) {
			if !has[what] {
				t.Errorf("%s: %s is no longer there", name, what)
			}
		}
	}
	for _, docs := range []func(name string) []byte{
		func(name string) []byte { return v1file(t, name+".json") },
		func(name string) []byte { return today[name] },
	} {
		var doc struct {
			Plan struct {
				Pieces []struct {
					Name string
					Size struct{ W, H struct{ Text string } }
				}
			}
			Costs     struct{ Total string }
			Proposals struct{ Proposals []struct{ Aim string } }
			Line      int
			Error     struct {
				Faults   []struct{ Pointer, Path, Code string }
				Problems []struct{ Path, Code string }
			}
		}
		for _, name := range []string{"plan/rowing-crew", "costs/regatta", "proposals/rowing-crew", "error/fault"} {
			if err := json.Unmarshal(docs(name), &doc); err != nil {
				t.Fatal(err)
			}
		}
		wrap := ""
		for _, q := range doc.Plan.Pieces {
			if q.Name == "wrap" {
				wrap = q.Size.W.Text + " by " + q.Size.H.Text
			}
		}
		f := doc.Error.Faults
		if wrap != "14 7/8 in by 10 in" || doc.Costs.Total != "51.05 USD" || len(doc.Proposals.Proposals) == 0 || doc.Line != 7 ||
			len(f) != 1 || f[0].Pointer != "/spec/cover" || f[0].Path != "cover" || f[0].Code != "wrong-form" {
			t.Errorf("%s, %+v", wrap, doc)
		}
		designs, err := wire.ReadProposed(docs("proposals/rowing-crew"))
		if err != nil || len(designs) != len(doc.Proposals.Proposals) || designs[0].Spec.Title != "Eastwater bow pair" {
			t.Errorf("designs: %v, %d", err, len(designs))
		}
	}
}

// Batches and measured covers of version 1 stay readable, and are written as what
// says the same.
func TestVersion1BatchesAndMade(t *testing.T) {
	b, err := wire.ReadBatch(v1file(t, "batch/regatta.json"))
	if err != nil {
		t.Fatal(err)
	}
	if len(b.Folios) != 2 || b.Folios[0].Copies != 3 || len(b.Materials) != 3 || b.Materials[1].Sheets[0].Count != layout.Unlimited || b.Costs.Rate.String() != "18.00 USD" {
		t.Errorf("%+v", b)
	}
	once, err := wire.AppendBatch(nil, b, wire.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if again, err := wire.ReadBatch(once); err != nil || cmp.Diff(b, again) != "" {
		t.Errorf("%v: %s", err, once)
	}
	s, m, ok, err := wire.ReadMade(v1file(t, "made/rowing-crew.json"))
	if err != nil || !ok || m.Width != 13*units.Inch || m.Height != 203*units.Millimetre || len(m.Panels) != 3 || s.Cover != units.MustParseSize("6 x 8 in") {
		t.Errorf("%v, %v, %+v", err, ok, m)
	}
}
