package wire_test

import (
	"encoding/json"
	"errors"
	"testing"

	"github.com/google/go-cmp/cmp"

	"boardwrap.example/folio/wire"
	"boardwrap.example/units"
)

// What asks for pictures is read, and refused with a pointer where it is something else.
func TestReadWanted(t *testing.T) {
	in := units.Inch
	for text, want := range map[string]wire.PicturesWanted{
		`{"version":1}`:            {},
		`{"version":1,"names":[]}`: {Names: []string{}},
		`{"version":1,"names":["inside","piece 0"],"fit":"4 x 5 in"}`:    {Names: []string{"inside", "piece 0"}, Fit: units.Size{W: 4 * in, H: 5 * in}},
		` { "list" : true , "alone" : true , "version" : 1 } `:           {Alone: true, List: true},
		`{"version":1,"alone":false,"list":false,"names":["\u0041\n<"]}`: {Names: []string{"A\n<"}},
	} {
		got, err := wire.ReadPicturesWanted([]byte(text))
		if diff := cmp.Diff(want, got); err != nil || diff != "" {
			t.Errorf("%s: %v (-want +got):\n%s", text, err, diff)
		}
	}
	for text, pointer := range map[string]string{
		`{`: "", `[]`: "", `{}`: "", `{"version":2}`: "/version", `{"version":1,"names":"inside"}`: "/names", `{"version":1,"names":["a",7]}`: "/names/1",
		`{"version":1,"fit":7}`: "/fit", `{"version":1,"fit":"wide"}`: "/fit", `{"version":1,"alone":1}`: "/alone", `{"version":1,"list":"yes"}`: "/list",
		`{"version":1,"colour":"red"}`: "/colour", `{"version":1,"list":true,"list":true}`: "/list",
	} {
		got, err := wire.ReadPicturesWanted([]byte(text))
		var bad *wire.Error
		if !errors.As(err, &bad) || !cmp.Equal(got, wire.PicturesWanted{}) {
			t.Errorf("%s: %+v, %v", text, got, err)
			continue
		}
		for f := range bad.All() {
			if f.Pointer != pointer {
				t.Errorf("%s: %v; want it at %q", text, f, pointer)
			}
			break
		}
	}
}

// What is drawn goes out as JSON, whatever stands in it.
func TestAppendDrawn(t *testing.T) {
	const hostile = "</script>\x00\"\\\xff"
	size := units.Size{W: 905 * units.Millimetre / 10, H: 64 * units.Millimetre}
	got := wire.AppendDrawn([]byte("before"), []string{"inside", hostile}, []wire.Drawn{{Name: "inside", Title: hostile, Description: "d", Size: size, SVG: []byte("<svg/>")}, {}})
	var doc struct {
		Version  int
		Names    []string
		Pictures []struct {
			Name, Title, Description, SVG string
			Width, Height                 float64
		}
	}
	if err := json.Unmarshal(got[len("before"):], &doc); err != nil || string(got[:6]) != "before" {
		t.Fatal(err, string(got))
	}
	if len(doc.Pictures) != 2 || doc.Version != 1 || len(doc.Names) != 2 || doc.Names[1] != "</script>\x00\"\\\ufffd" {
		t.Fatalf("%+v", doc)
	}
	if p := doc.Pictures[0]; p.Width != 90.5 || p.Height != 64 || p.SVG != "<svg/>" || p.Title != doc.Names[1] || p.Description != "d" {
		t.Errorf("%+v", p)
	}
	if got := string(wire.AppendDrawn(nil, nil, nil)); got != `{"version":1,"pictures":[]}` {
		t.Error(got)
	}
}
