package wire_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/post"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/wire"
	"boardwrap.example/units"
)

// at is the value at a path of a document, written out.
func at(t *testing.T, doc any, path string) string {
	t.Helper()
	for _, part := range strings.Split(path, ".") {
		switch v := doc.(type) {
		case map[string]any:
			doc = v[part]
		case []any:
			i, err := strconv.Atoi(part)
			if err != nil || i >= len(v) {
				return fmt.Sprintf("nothing at %s of %d", part, len(v))
			}
			doc = v[i]
		default:
			return "nothing at " + part
		}
	}
	return fmt.Sprint(doc)
}

// A plain folio by hand: covers of 6 x 8 in and a spine of 5/8 in, with gaps of
// twice the board of 1/16 in, turned in by 1 in all round; the liner stays 1/8 in
// inside. Each figure stands where it belongs.
func TestPlanByHand(t *testing.T) {
	p, err := folio.Build(folio.Spec{Title: "Bow pair", Cover: units.MustParseSize("6 x 8 in"), Spine: rule.Spine{Width: 5 * units.Inch / 8}})
	if err != nil {
		t.Fatal(err)
	}
	data, err := wire.AppendPlan(nil, p, wire.Options{})
	if err != nil {
		t.Fatal(err)
	}
	var doc any
	if err := json.Unmarshal(data, &doc); err != nil {
		t.Fatal(err)
	}
	for path, want := range map[string]string{
		"open.width.length.text": "12 7/8 in", "open.height.length.text": "8 in",
		"wrap.quarter":                       "false",
		"wrap.across.blank.length.text":      "14 7/8 in",
		"wrap.across.near.length.text":       "1 in",
		"wrap.across.far.length.text":        "1 in",
		"wrap.along.blank.length.text":       "10 in",
		"wrap.along.near.length.text":        "1 in",
		"wrap.along.far.length.text":         "1 in",
		"boards.0.role":                      "left cover",
		"boards.0.width.length.text":         "6 in",
		"boards.0.height.length.text":        "8 in",
		"boards.0.piece":                     "0",
		"boards.0.copy":                      "0",
		"boards.2.copy":                      "1",
		"boards.1.width.length.text":         "5/8 in",
		"boards.1.rect.min.x.mm":             "155.575",
		"boards.1.rect.max.x.mm":             "171.45",
		"boards.1.rect.min.y.mm":             "0",
		"boards.1.rect.max.y.mm":             "203.2",
		"gaps.0.left":                        "left cover",
		"gaps.0.right":                       "spine",
		"gaps.1.left":                        "spine",
		"gaps.1.right":                       "right cover",
		"gaps.0.planned.length.text":         "1/8 in",
		"gaps.0.planned.shares":              "1",
		"gaps.0.planned.terms.0.count":       "2",
		"gaps.0.planned.terms.0.length.text": "1/16 in",
		"gaps.0.width.text":                  "1/8 in",
		"pieces.0.name":                      "cover board",
		"pieces.0.quantity":                  "2",
		"pieces.0.width.length.text":         "6 in",
		"pieces.0.height.length.text":        "8 in",
		"pieces.0.size.w.text":               "6 in",
		"pieces.0.size.h.text":               "8 in",
		"pieces.2.width.length.mm":           "377.825",
		"pieces.2.height.length.mm":          "254",
		"pieces.3.size.w.text":               "12 5/8 in",
		"pieces.3.size.h.text":               "7 3/4 in",
	} {
		if got := at(t, doc, "plan."+path); got != want {
			t.Errorf("%s: %s; want %s", path, got, want)
		}
	}
	// What belongs to the case is on no fitting, and what lies on it all on no panel.
	plan := doc.(map[string]any)["plan"].(map[string]any)
	for i, v := range plan["placed"].([]any) {
		q := v.(map[string]any)
		if q["fitting"] != -1.0 {
			t.Errorf("placed %d is on fitting %v", i, q["fitting"])
		}
		if whole := q["first"] != q["last"]; whole && q["panel"] != -1.0 {
			t.Errorf("placed %d, from board %v to %v, is on panel %v", i, q["first"], q["last"], q["panel"])
		}
	}
}

// The smallest format that takes an item is named, and none where none does: a
// folio round a spine of an inch is no letter, which is 1/4 in thick at most (USPS,
// Domestic Mail Manual 101.1.1), and a parcel may be of any thickness.
func TestSmallestFormat(t *testing.T) {
	p, err := folio.Build(folio.Spec{Cover: units.MustParseSize("6 x 8 in"), Spine: rule.Spine{Width: units.Inch}})
	if err != nil {
		t.Fatal(err)
	}
	item, err := post.Pack(p, post.Packing{})
	if err != nil {
		t.Fatal(err)
	}
	service := post.USPS()
	for formats, want := range map[int]string{1: "", len(service.Formats): "parcel"} {
		some := service
		some.Formats = service.Formats[:formats]
		report, err := some.Judge(item, units.InchFraction)
		if err != nil {
			t.Fatal(err)
		}
		data, err := wire.AppendPosting(nil, report, wire.Options{Only: []string{"smallest"}})
		if err != nil || string(data) != `{"version":1,"posting":{"smallest":"`+want+`"}}` {
			t.Errorf("%d formats: %v, %s; want %q", formats, err, data, want)
		}
	}
}

// Full and empty are told apart: a card of 0.76 mm (ISO/IEC 7810, ID-1) in a folded
// strip makes it so much thicker, and the stack at the tightest place no thinner.
func TestEmptyAndFull(t *testing.T) {
	s := crew()
	s.Fittings = s.Fittings[:1]
	p, err := folio.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	plan, err := wire.AppendPlan(nil, p, wire.Options{})
	if err != nil {
		t.Fatal(err)
	}
	closing, err := wire.AppendClosing(nil, p, wire.Options{})
	if err != nil {
		t.Fatal(err)
	}
	var made, shut any
	if err := errors.Join(json.Unmarshal(plan, &made), json.Unmarshal(closing, &shut)); err != nil {
		t.Fatal(err)
	}
	mm := func(doc any, path string) float64 {
		t.Helper()
		f, err := strconv.ParseFloat(at(t, doc, path+".mm"), 64)
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	if more := mm(made, "plan.fittings.0.full") - mm(made, "plan.fittings.0.empty"); math.Abs(more-0.76) > 1e-9 {
		t.Errorf("a card of 0.76 mm makes the strip %v mm thicker", more)
	}
	if empty, full := mm(shut, "closing.empty.0.stack.length"), mm(shut, "closing.full.0.stack.length"); full <= empty {
		t.Errorf("a stack of %v mm empty, %v full", empty, full)
	}
}

// With its defaults a Spec says the same: what it leaves out stands there, and it is
// built to the same plan.
func TestDefaultsAreWritten(t *testing.T) {
	s := folio.Spec{Title: "Bow pair", Cover: units.MustParseSize("6 x 8 in"), Spine: rule.Spine{Width: units.Inch}}
	full, err := wire.AppendSpec(nil, s, wire.Options{Defaults: true})
	if err != nil {
		t.Fatal(err)
	}
	short, err := wire.AppendSpec(nil, s, wire.Options{})
	if err != nil || string(short) != `{"version":1,"spec":{"title":"Bow pair","cover":"6 x 8 in","spine":{"width":"1 in"}}}` {
		t.Errorf("%v: %s", err, short)
	}
	for _, want := range []string{`"board":{"name":"board","caliper":"1/16 in"`, `"ideal":"1 in"`, `"inset":"1/8 in"`} {
		if !strings.Contains(string(full), want) {
			t.Errorf("no %s in %s", want, full)
		}
	}
	var plans [2]string
	for i, doc := range [][]byte{full, short} {
		back, err := wire.ReadSpec(doc)
		if err != nil {
			t.Fatal(err)
		}
		p, err := folio.Build(back)
		if err != nil {
			t.Fatal(err)
		}
		plan, err := wire.AppendPlan(nil, p, wire.Options{})
		if err != nil {
			t.Fatal(err)
		}
		plans[i] = string(plan)
	}
	if plans[0] != plans[1] {
		t.Error("with its defaults it is another plan")
	}
}
