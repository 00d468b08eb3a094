package score_test

import (
	"context"
	"encoding/json"
	"errors"
	"os"
	"slices"
	"testing"

	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

func read(t *testing.T, name string, into any) {
	t.Helper()
	data, err := os.ReadFile("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, into); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
}

func TestFlatVectors(t *testing.T) {
	var vectors []struct {
		Panels   []int64
		Folds    string
		Foldings int // -1: at least one
		Source   string
	}
	read(t, "flat.json", &vectors)
	if len(vectors) < 14 {
		t.Fatalf("%d vectors", len(vectors))
	}
	for _, v := range vectors {
		folds, err := score.ParseFolds(v.Folds)
		if err != nil {
			t.Fatal(err)
		}
		var panels []units.Length
		for _, p := range v.Panels {
			l, _ := units.Inch.Times(p)
			panels = append(panels, l)
		}
		s := mustStrip(t, panels, folds...)
		n, err := s.CountFoldings(context.Background(), plenty)
		if err != nil {
			t.Errorf("%v: %v", s, err)
		}
		if v.Foldings >= 0 && n != v.Foldings || v.Foldings < 0 && n == 0 {
			t.Errorf("%v %s: %d layer orders, want %d (%s)", v.Panels, v.Folds, n, v.Foldings, v.Source)
		}
		if s.FoldsFlat() != (v.Foldings != 0) {
			t.Errorf("%v %s: folds flat: %v (%s)", v.Panels, v.Folds, s.FoldsFlat(), v.Source)
		}
	}
}

func ruler(t *testing.T, step string) units.Ruler {
	t.Helper()
	var r units.Ruler
	if step == "" {
		return r
	}
	if err := r.UnmarshalText([]byte(step)); err != nil {
		t.Fatal(err)
	}
	return r
}

func length(t *testing.T, s string) units.Length {
	t.Helper()
	if s == "" {
		return 0
	}
	l, err := units.Parse(s)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func TestPatternVectors(t *testing.T) {
	var vectors []struct {
		Rule, Length, Tuck, Ruler string
		N                         int
		Panels                    []string
		Source                    string
	}
	read(t, "patterns.json", &vectors)
	for _, v := range vectors {
		l, r := length(t, v.Length), ruler(t, v.Ruler)
		tuck := score.TuckIn{Less: length(t, v.Tuck), Ruler: r}
		var p score.Pattern
		var err error
		switch v.Rule {
		case "c-fold":
			p, err = score.CFold(l, tuck)
		case "roll":
			p, err = score.Roll(l, v.N, tuck)
		case "gate":
			p, err = score.Gate(l, tuck)
		case "double-gate":
			p, err = score.DoubleGate(l, tuck)
		case "double-parallel":
			p, err = score.DoubleParallel(l, tuck)
		case "accordion":
			p, err = score.Accordion(l, v.N, r, score.Valley)
		default:
			t.Fatalf("no rule %q", v.Rule)
		}
		if err != nil {
			t.Errorf("%s %s: %v", v.Rule, v.Length, err)
			continue
		}
		var got, want []units.Length
		for _, panel := range p.Strip().Panels() {
			got = append(got, panel)
		}
		for _, panel := range v.Panels {
			want = append(want, length(t, panel))
		}
		if !slices.Equal(got, want) {
			t.Errorf("%s %s: panels %v, want %v (%s)", v.Rule, v.Length, got, want, v.Source)
		}
		if p.Strip().Length() != l {
			t.Errorf("%s: panels add up to %v", v.Rule, p.Strip().Length())
		}
		if !p.Strip().FoldsFlat() {
			t.Errorf("%s: %v does not fold flat", v.Rule, p.Strip())
		}
		addUp(t, p)
	}
}

// addUp adds the workings of a pattern up again.
func addUp(t *testing.T, p score.Pattern) {
	t.Helper()
	n := 0
	for i, w := range p.Workings() {
		n++
		if w.Length() != p.Strip().Panel(i) {
			t.Errorf("panel %d is %v, its working says %v", i, p.Strip().Panel(i), w)
		}
		var sum units.Length
		for term := range w.Terms() {
			l, _ := term.Length.Times(int64(term.Count))
			sum += l
		}
		r := w.Rounded()
		share, _ := sum.Scale(1, int64(w.Shares()), r.Direction)
		if share != r.From || r.Ruler.Round(share, r.Direction).To != w.Length() {
			t.Errorf("panel %d: %v does not add up", i, w)
		}
	}
	if n != p.Strip().Len() {
		t.Errorf("%d workings for %d panels", n, p.Strip().Len())
	}
}

func TestAllowanceVectors(t *testing.T) {
	var v struct {
		Creep []struct {
			Caliper, Want, Source string
			Sheet                 int
		}
		Bend []struct {
			Caliper, Inside, Source string
			Degrees, Neutral        int
			Want                    int64
		}
		DoubleScore []struct {
			Stack, Caliper, Apart, Ruler, Source string
			Needed                               bool
		}
		Channel []struct{ Caliper, Rule, Least, Most, Source string }
		Advise  []struct {
			Grams, Heavy  int
			Grain, Source string
			Score         bool
		}
	}
	read(t, "allowances.json", &v)
	for _, c := range v.Creep {
		if got := score.Creep(length(t, c.Caliper), c.Sheet).Length(); got != length(t, c.Want) {
			t.Errorf("creep of sheet %d: %v, want %v (%s)", c.Sheet, got, c.Want, c.Source)
		}
	}
	for _, c := range v.Bend {
		b := score.Bend{Caliper: length(t, c.Caliper), Inside: length(t, c.Inside), Degrees: c.Degrees, Neutral: c.Neutral}
		if got := b.Length().Nanometres(); got != c.Want {
			t.Errorf("bend %v: %d nm, want %d (%s)", b, got, c.Want, c.Source)
		}
		if w := b.Working("bend"); w.Length() != b.Length() {
			t.Errorf("working %v", w)
		}
	}
	for _, c := range v.DoubleScore {
		apart, needed := score.DoubleScore(length(t, c.Stack), length(t, c.Caliper), ruler(t, c.Ruler))
		if needed != c.Needed || apart.Length() != length(t, c.Apart) {
			t.Errorf("stack %s: %v, %v (%s)", c.Stack, apart, needed, c.Source)
		}
	}
	for _, c := range v.Channel {
		least, most := score.Channel(length(t, c.Caliper), length(t, c.Rule), 0)
		if least.Length() != length(t, c.Least) || most.Length() != length(t, c.Most) {
			t.Errorf("channel: %v; %v (%s)", least, most, c.Source)
		}
	}
	grains := map[string]score.FoldGrain{"with": score.GrainWith, "across": score.GrainAcross, "unknown": score.GrainUnknown}
	for _, c := range v.Advise {
		g := units.GramPerSquareMetre
		heavy := score.Heavy{With: units.Grammage(c.Heavy) * g, Across: units.Grammage(c.Heavy) * g}
		a := score.Advise(units.Grammage(c.Grams)*g, grains[c.Grain], heavy)
		if a.Score != c.Score || a.TurnSheet != (c.Grain != "with") {
			t.Errorf("%d g/m2 %s the grain: %+v (%s)", c.Grams, c.Grain, a, c.Source)
		}
	}
}

func violation(t *testing.T, err error, path string, code check.Code) check.Violation {
	t.Helper()
	var e *check.Error
	if !errors.As(err, &e) {
		t.Fatalf("error %v, want %s at %s", err, code, path)
	}
	v, ok := e.Find(path, code)
	if !ok {
		t.Fatalf("error %v, want %s at %s", err, code, path)
	}
	return v
}
