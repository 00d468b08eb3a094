package wire_test

import (
	"context"
	"encoding/json"
	"errors"
	"math/rand"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/propose"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/wire"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"
	"boardwrap.example/units/money"

	"github.com/google/go-cmp/cmp"
)

// Whatever a request holds comes back.
func TestRequestRoundTrip(t *testing.T) {
	r := rand.New(rand.NewSource(proptest.Seed()))
	var price money.Amount
	if err := price.UnmarshalText([]byte("12.50 USD")); err != nil {
		t.Fatal(err)
	}
	for range proptest.Cases(300) {
		var q propose.Request
		for i := range reflect.TypeOf(q).NumField() {
			fill(r, reflect.ValueOf(&q).Elem().Field(i), 0)
		}
		complete(&q.Case)
		for i := range q.Limits.Materials {
			for k := range q.Limits.Materials[i].Sheets { // an amount has a currency
				q.Limits.Materials[i].Sheets[k].Price = price
			}
		}
		data, err := wire.AppendRequest(nil, q, wire.Options{Indent: r.Intn(3)})
		if err != nil {
			t.Fatalf("%+v: %v", q, err)
		}
		back, err := wire.ReadRequest(data)
		if err != nil {
			t.Fatalf("%s\n%v", data, err)
		}
		if d := cmp.Diff(q, back); d != "" {
			t.Fatalf("%s\n%s", data, d)
		}
	}
}

// requests are the documents of version 1 that must stay readable for ever, and those
// with members that came to it later.
func requests(t *testing.T) map[string][]byte {
	t.Helper()
	names, err := filepath.Glob("testdata/v1/request/*.json")
	later, err2 := filepath.Glob("testdata/v1/added/request-*.json")
	if err != nil || err2 != nil || len(names) < 2 || len(later) == 0 {
		t.Fatalf("%v, %v: %d requests, %d later", err, err2, len(names), len(later))
	}
	names = append(names, later...)
	all := map[string][]byte{}
	for _, name := range names {
		if all[filepath.Base(name)], err = os.ReadFile(name); err != nil {
			t.Fatal(err)
		}
	}
	return all
}

// A request of version 1 keeps its meaning: the crew's six prints go into a
// folio that fits the box, and each folio of the answer builds from its own
// document as it was proposed.
func TestProposalsDocument(t *testing.T) {
	for name, data := range requests(t) {
		r, err := wire.ReadRequest(data)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		answer, err := propose.Folios(context.Background(), r, propose.Budget{})
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		whole, err := wire.AppendRequest(nil, r, wire.Options{Defaults: true})
		if err != nil {
			t.Fatal(err)
		}
		// With its defaults written out it asks for the same.
		if r, err = wire.ReadRequest(whole); err != nil {
			t.Fatal(err)
		}
		if again, err := propose.Folios(context.Background(), r, propose.Budget{}); err != nil || again.Steps() != answer.Steps() {
			t.Errorf("%s: with its defaults %v, and something else", name, err)
		}
		out, err := wire.AppendProposals(nil, answer, wire.Options{})
		if err != nil {
			t.Fatal(err)
		}
		var doc struct {
			Version   int
			Proposals struct {
				Steps     int64
				Proposals []struct {
					Aim      string
					Complete bool
					Cover    struct{ W, H struct{ MM float64 } }
					Spec     json.RawMessage
					Held     []struct {
						Way, Panel string
						Copies     int
						Why        []struct{ Cause, Text string }
					}
					RuledOut []struct{ Why struct{ Text string } }
					Chosen   []struct {
						Index  int
						Form   string
						Others []struct {
							Index    int
							Form     string
							Complete bool
							Best     []struct {
								Cover struct{ W, H struct{ MM float64 } }
							}
							Why []struct{ Text string }
						}
					}
				}
				Lacking []struct {
					Aim string
					Why []struct{ Text string }
				}
			}
		}
		if err := json.Unmarshal(out, &doc); err != nil {
			t.Fatalf("%v\n%s", err, out)
		}
		d := doc.Proposals
		if doc.Version != 1 || d.Steps != answer.Steps() || len(d.Proposals)+len(d.Lacking) != 4 || len(d.Proposals) == 0 {
			t.Errorf("%s: version %d, %d steps, %d proposals, %d lacking", name, doc.Version, d.Steps, len(d.Proposals), len(d.Lacking))
		}
		i := 0
		for p := range answer.All() {
			q := d.Proposals[i]
			i++
			spec, err := wire.ReadSpec([]byte(`{"version":1,"spec":` + string(q.Spec) + `}`))
			if err != nil {
				t.Errorf("%s, %s: %v", name, q.Aim, err)
				continue
			}
			plan, err := folio.Build(spec)
			if err != nil {
				t.Errorf("%s, %s: %v", name, q.Aim, err)
				continue
			}
			one, _ := wire.AppendPlan(nil, plan, wire.Options{})
			other, _ := wire.AppendPlan(nil, p.Plan(), wire.Options{})
			if string(one) != string(other) || q.Aim != p.Aim().String() || q.Complete != p.Complete() || q.Cover.W.MM != p.Cover().W.Millimetres() {
				t.Errorf("%s, %s: read back it is another folio", name, q.Aim)
			}
			if len(q.Held) == 0 || len(q.Held[0].Why) == 0 || q.Held[0].Why[0].Text == "" || len(q.RuledOut) == 0 || q.RuledOut[0].Why.Text == "" {
				t.Errorf("%s, %s: no reasons", name, q.Aim)
			}
			// Of several forms the document says which was taken and what the others come to.
			if len(q.Chosen) != min(len(r.Forms), 1) {
				t.Errorf("%s, %s: %d forms chosen of %d", name, q.Aim, len(q.Chosen), len(r.Forms))
				continue
			}
			for _, c := range q.Chosen {
				if f, k := p.Form(); c.Index != k || c.Form != f.String() || len(c.Others) != len(r.Forms)-1 {
					t.Errorf("%s, %s: %s of %d, %d others", name, q.Aim, c.Form, c.Index, len(c.Others))
					continue
				}
				k := 0
				for o := range p.OtherForms() {
					was, is := o.Proposal()
					of := c.Others[k]
					if k++; of.Index != o.Index() || of.Form != o.Form().String() || of.Complete != o.Complete() || len(of.Why) == 0 || of.Why[0].Text == "" ||
						is != (len(of.Best) == 1) || is && of.Best[0].Cover.H.MM != was.Cover().H.Millimetres() {
						t.Errorf("%s, %s: %+v", name, q.Aim, of)
					}
				}
			}
		}
		for _, l := range d.Lacking {
			if len(l.Why) == 0 || l.Why[0].Text == "" {
				t.Errorf("%s: no reason why there is no %s", name, l.Aim)
			}
		}
		few, err := wire.AppendProposals(nil, answer, wire.Options{Only: []string{"proposals.aim", "proposals.spec"}})
		if err != nil || strings.Contains(string(few), "ruledOut") || !strings.Contains(string(few), `"fittings":[`) {
			t.Errorf("%s: %v\n%s", name, err, few)
		}
		if _, err := wire.AppendProposals(nil, answer, wire.Options{Only: []string{"proposals.spec.cover"}}); err == nil || !strings.HasSuffix(err.Error(), "want one of none: it is taken whole") {
			t.Error("a part of a Spec is taken, or not refused as such:", err)
		}
	}
}

// Designs come back from what was proposed: each Spec is the one that was
// proposed, in order.
func TestDesignsComeBack(t *testing.T) {
	for name, data := range requests(t) {
		r, err := wire.ReadRequest(data)
		if err != nil {
			t.Fatal(err)
		}
		answer, err := propose.Folios(context.Background(), r, propose.Budget{Steps: 2_000_000})
		if err != nil {
			t.Fatal(err)
		}
		out, err := wire.AppendProposals(nil, answer, wire.Options{Indent: 1})
		if err != nil {
			t.Fatal(err)
		}
		var want []wire.Proposed
		for p := range answer.All() {
			want = append(want, wire.Proposed{Aim: p.Aim(), Complete: p.Complete(), Spec: p.Spec()})
		}
		got, err := wire.ReadProposed(out)
		if d := cmp.Diff(want, got); err != nil || d != "" || len(got) == 0 {
			t.Errorf("%s: %v, %s", name, err, d)
		}
	}
}

// A document of proposals is read strictly, and nothing of it is half taken.
func TestDesignsRefused(t *testing.T) {
	const good = `{"version":1,"proposals":{"proposals":[{"aim":"smallest","complete":true,"title":"","cover":{"w":{"text":"6 in","mm":152.4},"h":{"text":"8 in","mm":203.2}},` +
		`"spine":{"text":"0 in","mm":0},"closed":{"size":{"w":{"text":"6 in","mm":152.4},"h":{"text":"8 in","mm":203.2}},"thickness":{"text":"1/4 in","mm":6.35}},"spec":{"cover":"6 x 8 in"}}],"steps":7}}`
	if d, err := wire.ReadProposed([]byte(good)); err != nil || len(d) != 1 || d[0].Aim != propose.Smallest || d[0].Spec.Cover != units.MustParseSize("6 x 8 in") {
		t.Fatalf("%v, %v", d, err)
	}
	for _, c := range []struct{ old, new, pointer, code string }{
		{`"mm":6.35`, `"mm":6.36`, "/proposals/proposals/0/closed/thickness/mm", "conflict"},
		{`"mm":6.35`, `"mm":"6.35"`, "/proposals/proposals/0/closed/thickness/mm", "wrong-form"},
		{`,"mm":6.35`, ``, "/proposals/proposals/0/closed/thickness", "missing"},
		{`"text":"1/4 in",`, ``, "/proposals/proposals/0/closed/thickness", "missing"},
		{`{"text":"1/4 in","mm":6.35}`, `"1/4 in"`, "/proposals/proposals/0/closed/thickness", "wrong-form"},
		{`"1/4 in"`, `0.25`, "/proposals/proposals/0/closed/thickness/text", "wrong-form"},
		{`,"spec":{"cover":"6 x 8 in"}`, ``, "/proposals/proposals/0", "missing"},
		{`"6 x 8 in"`, `{"w":{"text":"6 in","mm":152.4},"h":{"text":"8 in","mm":203.2}}`, "/proposals/proposals/0/spec/cover", "wrong-form"},
		{`"smallest"`, `"prettiest"`, "/proposals/proposals/0/aim", "bad-text"},
		{`"steps":7`, `"steps":7,"steps":7`, "/proposals/steps", "twice"},
		{`"steps":7`, `"steps":7,"Steps":7`, "/proposals/Steps", "no-member"},
		{`"steps":7`, `"steps":7.5`, "/proposals/steps", "wrong-form"},
		{`"version":1`, `"version":2`, "/version", "bad-version"},
	} {
		if strings.Count(good, c.old) != 1 {
			t.Fatalf("%s is not there once", c.old)
		}
		d, err := wire.ReadProposed([]byte(strings.Replace(good, c.old, c.new, 1)))
		var bad *wire.Error
		if !errors.As(err, &bad) || bad.Len() != 1 || d != nil {
			t.Errorf("%s: %v", c.new, err)
			continue
		}
		for f := range bad.All() {
			if f.Pointer != c.pointer || string(f.Code) != c.code || f.Want == "" {
				t.Errorf("%s: %v", c.new, f)
			}
		}
	}
	// The order of members means nothing.
	turned := strings.Replace(good, `{"text":"1/4 in","mm":6.35}`, `{"mm":6.35,"text":"1/4 in"}`, 1)
	if _, err := wire.ReadProposed([]byte(turned)); err != nil {
		t.Error(err)
	}
}

// What is wrong with a request is said with its place in the document.
func TestRequestRefused(t *testing.T) {
	for _, c := range []struct{ doc, pointer, path string }{
		{`{"version":1}`, "", ""},
		{`{"version":1,"request":{"things":[{"content":{"size":"4 x 6"}}]}}`, "/request/things/0/content/size", "things[0].content.size"},
		{`{"version":1,"request":{"things":[{"count":"six"}]}}`, "/request/things/0/count", "things[0].count"},
		{`{"version":1,"request":{"things":[{"sight":"seen"}]}}`, "/request/things/0/sight", "things[0].sight"},
		{`{"version":1,"request":{"limits":{"post":{"packing":{"weighing":{"density":"heavy"}}}}}}`, "/request/limits/post/packing/weighing/density", "limits.post.packing.weighing.density"},
		{`{"version":1,"request":{"without":["magnets"]}}`, "/request/without/0", "without[0]"},
		{`{"version":1,"request":{"case":{"cover":7}}}`, "/request/case/cover", "case.cover"},
		{`{"version":1,"request":{"wishes":[]}}`, "/request/wishes", ""},
	} {
		_, err := wire.ReadRequest([]byte(c.doc))
		var bad *wire.Error
		if !errors.As(err, &bad) {
			t.Errorf("%s: %v", c.doc, err)
			continue
		}
		found := false
		for f := range bad.All() {
			found = found || f.Pointer == c.pointer && f.Path == c.path && f.Want != ""
		}
		if !found {
			t.Errorf("%s: %v", c.doc, err)
		}
	}
	full, err := wire.AppendRequest(nil, propose.Request{Case: folio.Spec{Rulers: rule.Rulers{Main: units.WholeMillimetres}}}, wire.Options{Defaults: true})
	if err != nil || !strings.Contains(string(full), `"inset":"3 mm"`) {
		t.Errorf("%v\n%s", err, full)
	}
}

// FuzzReadRequest: no document makes the reader panic, and what it takes is
// written as bytes that are read as the same.
func FuzzReadRequest(f *testing.F) {
	f.Add([]byte(`{"version":1,"request":{"things":[{"content":{"name":"print","size":"4 x 6 in"},"count":6,"sight":"in view","keeping":"apart"}]}}`))
	f.Add([]byte(`{"version":1,"request":{"limits":{"cover":"9 x 12 in","into":{"size":"10 x 13 in","depth":"none"},"materials":[{"name":"board","sheets":[{"size":"1 x 1 m","count":-1}]}]}}}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		r, err := wire.ReadRequest(data)
		if err != nil {
			return
		}
		once, err := wire.AppendRequest(nil, r, wire.Options{})
		if err != nil {
			t.Fatalf("%q was read and cannot be written: %v", data, err)
		}
		back, err := wire.ReadRequest(once)
		if err != nil {
			t.Fatalf("%q is written as %q: %v", data, once, err)
		}
		if again, err := wire.AppendRequest(nil, back, wire.Options{}); err != nil || string(again) != string(once) {
			t.Fatalf("%q, then %q: %v", once, again, err)
		}
	})
}
