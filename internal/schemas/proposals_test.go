package schemas_test

import (
	"os"
	"path/filepath"
	"testing"

	"boardwrap.example/folio/propose"
	"boardwrap.example/folio/wire"
)

// The requests of version 1 are valid, also those with members that came later, and written anew; every document of
// proposals is, and nothing in it may be just anything: one site in twenty-nine is
// tried.
func TestProposals(t *testing.T) {
	requests, answers := compiled(t, wire.RequestSchema()), compiled(t, wire.ProposalsSchema())
	names, err := filepath.Glob("../../folio/wire/testdata/v1/request/*.json")
	later, err2 := filepath.Glob("../../folio/wire/testdata/v1/added/request-*.json")
	if err != nil || err2 != nil || len(names) < 2 || len(later) == 0 {
		t.Fatalf("%v, %v: %d requests, %d later", err, err2, len(names), len(later))
	}
	for _, name := range append(names, later...) {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		r, err := wire.ReadRequest(data)
		if err != nil {
			t.Fatal(err)
		}
		again, err := wire.AppendRequest(nil, r, wire.Options{Defaults: true})
		if err != nil {
			t.Fatal(err)
		}
		for _, doc := range [][]byte{data, again} {
			if err := requests.Validate(read(t, doc)); err != nil {
				t.Errorf("%s: %v\n%s", name, err, doc)
			}
		}
		answer, err := propose.Folios(t.Context(), r, propose.Budget{})
		if err != nil {
			t.Fatal(err)
		}
		out, err := wire.AppendProposals(nil, answer, wire.Options{})
		if err != nil {
			t.Fatal(err)
		}
		doc := read(t, out)
		if err := answers.Validate(doc); err != nil {
			t.Errorf("%s: %v\n%s", name, err, out)
		}
		n := 0
		sites(doc, "", func(any) {}, func(at site) {
			if n++; at.path == "" || n%29 != 0 {
				return
			}
			at.set(map[string]any{"wings": []any{}})
			if answers.Validate(doc) == nil {
				t.Errorf("%s may be anything", at.path)
			}
			at.set(at.get)
		})
	}
}
