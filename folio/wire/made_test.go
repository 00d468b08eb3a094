package wire_test

import (
	"errors"
	"strings"
	"testing"

	"boardwrap.example/folio/refit"
	"boardwrap.example/folio/wire"
	"boardwrap.example/units"

	"github.com/google/go-cmp/cmp"
)

func TestReadMade(t *testing.T) {
	const spec = `"version": 1, "spec": {"cover": "6 x 8 in", "spine": {"width": "5/8 in"}}`
	s, m, ok, err := wire.ReadMade([]byte(`{` + spec + `, "measured": {"width": "13 in", "height": "203 mm", "panels": ["6 in", "5/8 in", "6 in"]}}`))
	if err != nil || !ok || s.Cover != units.MustParseSize("6 x 8 in") {
		t.Fatalf("got %v, %v, %v", s.Cover, ok, err)
	}
	want := refit.Measured{Width: 13 * units.Inch, Height: 203 * units.Millimetre, Panels: []units.Length{6 * units.Inch, 5 * units.Inch / 8, 6 * units.Inch}}
	if d := cmp.Diff(want, m); d != "" {
		t.Error(d)
	}
	if _, m, ok, err = wire.ReadMade([]byte(`{` + spec + `}`)); err != nil || ok || m.Width != 0 {
		t.Errorf("without a measured cover: %v, %v, %v", m, ok, err)
	}
	for _, c := range []struct{ doc, pointer, path string }{
		{`{` + spec + `, "measured": {"width": 13}}`, "/measured/width", "measured.width"},
		{`{` + spec + `, "measured": {"panels": ["6 in", "wide"]}}`, "/measured/panels/1", "measured.panels[1]"},
		{`{` + spec + `, "measured": {}, "measured": {}}`, "/measured", "measured"},
		{`{` + spec + `, "measured": {"depth": "1 in"}}`, "/measured/depth", "measured"},
		{`{"version": 1, "measured": {}}`, "", ""},
	} {
		_, m, ok, err := wire.ReadMade([]byte(c.doc))
		var bad *wire.Error
		if !errors.As(err, &bad) || bad.Len() != 1 || ok || m.Panels != nil {
			t.Errorf("%s: %v, %v, %v", c.doc, m, ok, err)
			continue
		}
		for f := range bad.All() {
			if f.Pointer != c.pointer || f.Path != c.path {
				t.Errorf("%s: %q, %q: %v", c.doc, f.Pointer, f.Path, f)
			}
		}
	}
	again, err := wire.AppendMade(nil, s, want, wire.Options{})
	if err != nil || string(again) != `{"version":1,"spec":{"cover":"6 x 8 in","spine":{"width":"5/8 in"}},"measured":{"width":"13 in","height":"203 mm","panels":["6 in","5/8 in","6 in"]}}` {
		t.Errorf("%v: %s", err, again)
	}
	if full, err := wire.AppendMade(nil, s, want, wire.Options{Defaults: true}); err != nil || !strings.Contains(string(full), `"turning":`) && !strings.Contains(string(full), `"margin":`) {
		t.Errorf("%v: %s", err, full)
	} else if back, m, ok, err := wire.ReadMade(full); err != nil || !ok || m.Width != want.Width || back.Title != "" {
		t.Errorf("%v, %v, %v", m, ok, err)
	}
	// What only ReadMade takes ReadSpec refuses.
	if _, err := wire.ReadSpec([]byte(`{` + spec + `, "measured": {}}`)); err == nil || !strings.Contains(err.Error(), "no-member") {
		t.Errorf("ReadSpec: %v", err)
	}
}
