package wire_test

import (
	"encoding/json"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"boardwrap.example/folio/wire"
)

// An answer reads back with encoding/json as what it was put together of.
func TestAppendAnswer(t *testing.T) {
	got, err := wire.AppendAnswer([]byte("before "), map[string]any{
		"title": "What to <buy> & \"why\"\n\xff", "yes": true, "count": -7, "grams": 1e-7, "large": 1e300, "share": 0.1234567890123456, "plan": []byte(`{"version":1}`),
		"names": []string{"bow", "stern"}, "documents": [][]byte{[]byte("{}"), []byte("1")}, "none": []string{}, "nothing": map[string]any{},
		"list": []any{"a", 1, map[string]any{"b": false}},
	})
	if err != nil {
		t.Fatal(err)
	}
	var read map[string]any
	rest, ok := strings.CutPrefix(string(got), "before ")
	if err := json.Unmarshal([]byte(rest), &read); err != nil || !ok {
		t.Fatalf("%v: %s", err, got)
	}
	want := map[string]any{
		"version": 1., "title": "What to <buy> & \"why\"\n\uFFFD", "yes": true, "count": -7., "grams": 1e-7, "large": 1e300, "share": 0.1234567890123456, "plan": map[string]any{"version": 1.},
		"names": []any{"bow", "stern"}, "documents": []any{map[string]any{}, 1.}, "none": []any{}, "nothing": map[string]any{},
		"list": []any{"a", 1., map[string]any{"b": false}},
	}
	if diff := cmp.Diff(want, read); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// What is no answer is refused, and what was there before is left as it was.
func TestAppendAnswerRefuses(t *testing.T) {
	round := map[string]any{}
	for i := range 100 {
		round["round "+strconv.Itoa(i)] = round
	}
	in := func(deep int) map[string]any {
		var v any = 1
		for range deep {
			v = []any{v}
		}
		return map[string]any{"in": v}
	}
	for want, members := range map[string]map[string]any{
		"not its own": {"version": 2}, "of the types": {"size": struct{}{}}, "a value that is not": {"list": []any{nil}}, "is infinite": {"mass": math.Inf(1)}, "or none": {"mass": math.NaN()},
		"in more than 16": round, "more than 16 others": in(wire.MostDepth), "16": in(4 * wire.MostDepth),
	} {
		got, err := wire.AppendAnswer([]byte("before"), members)
		if string(got) != "before" || err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, %s", want, err, got)
		}
	}
	if _, err := wire.AppendAnswer(nil, in(wire.MostDepth-1)); err != nil {
		t.Errorf("values in %d others: %v", wire.MostDepth, err)
	}
}

func TestReadAsked(t *testing.T) {
	got, err := wire.ReadAsked([]byte(`{"version":1,"anyForm":true,"contents":"1 ID-1 card"}`))
	if want := (wire.Asked{Contents: "1 ID-1 card", AnyForm: true}); err != nil || got != want {
		t.Errorf("%+v, %v", got, err)
	}
	for _, text := range []string{`{}`, `[]`, `{"version":2}`, `{"version":1,"contents":1}`, `{"version":1,"anyForm":"yes"}`, `{"version":1,"anyform":true}`} {
		if got, err := wire.ReadAsked([]byte(text)); err == nil || got != (wire.Asked{}) {
			t.Errorf("%s: %+v, %v", text, got, err)
		}
	}
}
