package wire_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/place"
	"boardwrap.example/folio/wire"
	"boardwrap.example/units"
)

// v1 returns the documents of version 1 that must stay readable for ever. Files
// are added there, none is changed or taken away.
func v1(tb testing.TB) map[string][]byte {
	tb.Helper()
	names, err := filepath.Glob("testdata/v1/*.json")
	if err != nil || len(names) < 5 {
		tb.Fatalf("%v: %d documents", err, len(names))
	}
	later, err := filepath.Glob("testdata/v1/added/spec-*.json")
	if err != nil || len(later) == 0 {
		tb.Fatalf("%v: %d documents with what was added", err, len(later))
	}
	all := map[string][]byte{}
	for _, name := range append(names, later...) {
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
		again, err := wire.ReadSpec(once)
		if d := cmp.Diff(s, again); err != nil || d != "" {
			t.Errorf("%s is written as another: %v\n%s", name, err, d)
		}
		// Sizes are in millimetres there and are now written as the Spec's ruler has
		// it; the rest is the same to the byte.
		sizes := regexp.MustCompile(`"[0-9./ ]+ x [0-9./ ]+ (in|mm)"`)
		if name == "every-member.json" && sizes.ReplaceAllString(string(once)+"\n", "") != sizes.ReplaceAllString(string(data), "") {
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

// A document by relation keeps its meaning, and so does a row of a table. On panels
// of 148 − 2·3 by 210 − 2·3 mm the strip is 142 by 194, its flap 3 mm narrower than
// its base; the mat 139 − 2·4 by 194 − 6.35, down to a whole millimetre; the frame
// 142 − 2·10 by (204 − 2·8 − 8) / 2; the mat below it 20 mm narrower. A picture is
// 2·12 − 2·3 less than its frame, or 2·3 less than its mat; what is over of the
// height, 204 − 2·90, is shared by three.
func TestByRelation(t *testing.T) {
	s, err := wire.ReadSpec(v1(t)["ridge-walkers.json"])
	if err != nil {
		t.Fatal(err)
	}
	const mm = units.Millimetre
	want := map[string]units.Size{
		"strip": {W: 142 * mm, H: 194 * mm}, "mat": {W: 131 * mm, H: 187 * mm}, "summit": {W: 122 * mm, H: 90 * mm}, "hut": {W: 102 * mm, H: 90 * mm},
	}
	pictures := map[string]units.Size{"summit": {W: 104 * mm, H: 72 * mm}, "hut": {W: 96 * mm, H: 84 * mm}}
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	panel, _ := p.Panel(boards.RightCover, false)
	for f := range p.Fittings() {
		if got := f.Rect().Size(); got != want[f.Name()] {
			t.Errorf("%s: %v, want %v", f.Name(), got, want[f.Name()])
		}
		from := f.Rect().Min.Plus(units.Point{X: -panel.Min.X, Y: -panel.Min.Y})
		switch k := f.Kind().(type) {
		case folio.Frame:
			if k.Picture.Size != pictures[f.Name()] || from != (units.Point{X: 10 * mm, Y: 8 * mm}) {
				t.Errorf("%s: %v at %v", f.Name(), k.Picture, from)
			}
		case folio.Mat:
			if f.Name() == "hut" && (k.Picture.Size != pictures[f.Name()] || from != (units.Point{X: 10 * mm, Y: 106 * mm})) {
				t.Errorf("%s: %v at %v", f.Name(), k.Picture, from)
			}
		}
	}

	columns, err := wire.NewColumns([]string{
		"cover", "spine.width", "rulers.main", "fittings[0].kind.type", "fittings[0].kind.picture.name", "fittings[0].kind.rail", "fittings[0].size.w.of", "fittings[0].size.w.margin",
		"fittings[0].size.h.of", "fittings[0].size.h.less", "fittings[0].size.picture",
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		row  string
		want units.Size
	}{
		{"148 x 210 mm|20 mm|1 mm|frame|x|12 mm|panel|10 mm|panel|1/4 in|", units.Size{W: 122 * mm, H: 197 * mm}},
		{"148 x 210 mm|20 mm|1 mm|frame||12 mm|panel|0 mm|panel||usual print", units.Size{W: (102 - 6 + 24) * mm, H: (152 - 6 + 24) * mm}},
		{"160 x 220 mm|20 mm|1 mm|mat|x||panel|10 mm|panel|1/4 in|", units.Size{W: 134 * mm, H: 207 * mm}},
	} {
		s, err := columns.Read(strings.Split(c.row, "|"))
		if err != nil {
			t.Errorf("%s: %v", c.row, err)
			continue
		}
		p, err := folio.Build(s)
		if err != nil {
			t.Errorf("%s: %v", c.row, err)
			continue
		}
		for f := range p.Fittings() {
			if f.Rect().Size() != c.want {
				t.Errorf("%s: %v, want %v", c.row, f.Rect().Size(), c.want)
			}
		}
	}
	// A row that says by how much less, and not than what, is no size left out.
	s, err = columns.Read(strings.Split("148 x 210 mm|20 mm|1 mm|mat|||||||", "|"))
	if s.Fittings[0].Size != (place.Sizing{}) || err != nil {
		t.Errorf("empty cells: %+v, %v", s.Fittings[0].Size, err)
	}
	s, _ = columns.Read(strings.Split("148 x 210 mm|20 mm|1 mm|mat||||10 mm|||", "|"))
	if _, err := folio.Build(s); err == nil || !strings.Contains(err.Error(), "size.w.of") {
		t.Errorf("a margin of nothing: %v", err)
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
