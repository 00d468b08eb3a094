package wire_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/wire"
)

// v1 returns the documents of version 1 that must stay readable for ever. Files
// are added there, none is changed or taken away.
func v1(tb testing.TB) map[string][]byte {
	tb.Helper()
	names, err := filepath.Glob("testdata/v1/*.json")
	if err != nil || len(names) < 5 {
		tb.Fatalf("%v: %d documents", err, len(names))
	}
	all := map[string][]byte{}
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			tb.Fatal(err)
		}
		if base := filepath.Base(name); base != "schema.json" {
			all[base] = data
		}
	}
	return all
}

// What was a document of version 1 is one, and what is read of it is written as
// a document that says the same.
func TestVersion1IsRead(t *testing.T) {
	for name, data := range v1(t) {
		s, err := wire.ReadSpec(data)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		once, err := wire.AppendSpec(nil, s, wire.Options{Indent: 1})
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if name == "every-member.json" && string(once)+"\n" != string(data) {
			t.Errorf("%s reads as\n%s", name, once)
		}
	}
}

// A document of version 1 keeps its meaning. A fixed hinge gap of 7 mm makes the
// walkers' case 2·148 + 18 + 2·7 = 328 mm wide; the crew's is
// 2·6 + 5/8 + 2·1/8 = 12 7/8 in.
func TestVersion1KeepsItsMeaning(t *testing.T) {
	docs := v1(t)
	for _, c := range []struct {
		name, title, open string
		fittings          string
	}{
		{"rowing-crew.json", "Eastwater bow pair", "12 7/8 in", "mat, slip pocket"},
		{"walking-club.json", "Moorland walkers", "328 mm", ""},
	} {
		s, err := wire.ReadSpec(docs[c.name])
		if err != nil {
			t.Fatal(err)
		}
		p, err := folio.Build(s)
		if err != nil {
			t.Fatal(err)
		}
		var kinds []string
		for f := range p.Fittings() {
			kinds = append(kinds, f.Kind().String())
		}
		if open := p.Notation().Text(p.OpenWidth().Length()); p.Spec().Title != c.title || open != c.open || strings.Join(kinds, ", ") != c.fittings {
			t.Errorf("%s: %s, %s, %q", c.name, p.Spec().Title, open, kinds)
		}
	}
}

// Version 1 only grows: every member, word and kind of the schema that stands in
// testdata is in today's.
func TestSchemaOnlyGrows(t *testing.T) {
	old, err := os.ReadFile("testdata/v1/schema.json")
	if err != nil {
		t.Fatal(err)
	}
	var before, now any
	if err := json.Unmarshal(old, &before); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(wire.SpecSchema(), &now); err != nil {
		t.Fatal(err)
	}
	for _, lost := range lacking(before, now, "") {
		t.Error("no longer in the schema: " + lost)
	}
	// The test notices what it is for.
	if n := len(lacking(map[string]any{"enum": []any{"a", "b"}, "x": true}, map[string]any{"enum": []any{"c", "a"}}, "")); n != 2 {
		t.Errorf("%d losses of 2 were noticed", n)
	}
}

// lacking lists what of one schema another has not; texts of description may
// change, and what must be there may become less, never more.
func lacking(old, now any, at string) []string {
	switch o := old.(type) {
	case map[string]any:
		n, ok := now.(map[string]any)
		if !ok {
			return []string{at}
		}
		var lost []string
		if len(list(n["required"])) > len(list(o["required"])) {
			lost = append(lost, at+"/required")
		}
		for name, v := range o {
			if name == "description" || name == "required" || name == "title" {
				continue
			}
			lost = append(lost, lacking(v, n[name], at+"/"+name)...)
		}
		return lost
	case []any:
		var lost []string
		for _, v := range o {
			found := false
			for _, w := range list(now) {
				found = found || len(lacking(v, w, "")) == 0
			}
			if !found {
				text, _ := json.Marshal(v)
				lost = append(lost, at+" "+string(text[:min(len(text), 60)]))
			}
		}
		return lost
	}
	if old != now {
		return []string{at}
	}
	return nil
}

func list(v any) []any {
	l, _ := v.([]any)
	return l
}

// FuzzReadSpec: no document makes the reader panic, and what it takes is written
// as bytes that are read and written as the same again.
func FuzzReadSpec(f *testing.F) {
	for _, data := range v1(f) {
		f.Add(data)
	}
	for _, s := range []string{``, `{`, `{"version":1,"spec":{"cover":6,"Cover":"","cover":"6 x 8"}} x`, `{"version":1,"spec":{"fittings":[{"kind":{"type":"folded","kind":{"type":"pleats"}}}]}}`, `{"version":1,"spec":{"doorGap":"none","rulers":{"main":"1/64 in"}}}`} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		s, err := wire.ReadSpec(data)
		if err != nil {
			if _, failed := wire.AppendError(nil, err, 0, wire.Options{Line: 7}); failed != nil {
				t.Fatal(failed)
			}
			return
		}
		once, err := wire.AppendSpec(nil, s, wire.Options{})
		if err != nil {
			t.Fatalf("%q was read and cannot be written: %v", data, err)
		}
		back, err := wire.ReadSpec(once)
		if err != nil {
			t.Fatalf("%q is written as %q: %v", data, once, err)
		}
		if again, err := wire.AppendSpec(nil, back, wire.Options{}); err != nil || string(again) != string(once) {
			t.Fatalf("%q, then %q: %v", once, again, err)
		}
	})
}

// FuzzColumns: no table makes the reader panic, and what it takes can be written.
func FuzzColumns(f *testing.F) {
	f.Add("cover,spine.width", "6 x 8 in,1 in")
	f.Add("fittings[0].kind.kind.type,fittings[0].kind.type,fittings[3].name", "slip pocket,folded,x")
	f.Add("fittings[0].kind.type,stocks[999].sheets[999].size", "mat,1 x 1 in")
	f.Fuzz(func(t *testing.T, header, row string) {
		c, err := wire.NewColumns(strings.Split(header, ","))
		if err != nil {
			return
		}
		s, err := c.Read(strings.Split(row, ","))
		if err != nil {
			return
		}
		if _, err := wire.AppendSpec(nil, s, wire.Options{}); err != nil {
			t.Fatalf("%q, %q: %v", header, row, err)
		}
	})
}
