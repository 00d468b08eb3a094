package main

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

func loadFixture(t *testing.T, root string) (*subject, []*mutant) {
	t.Helper()
	subjects, err := load(root, []string{"."})
	if err != nil {
		t.Fatal(err)
	}
	return subjects[0], find(subjects[0], false)
}

func ids(mutants []*mutant) []string {
	var all []string
	for _, m := range mutants {
		all = append(all, m.id())
	}
	return all
}

// A mutant keeps its name when lines are added above it, and no two have the
// same.
func TestNamesStay(t *testing.T) {
	_, before := loadFixture(t, fixture)
	moved := t.TempDir()
	if err := os.CopyFS(moved, os.DirFS(fixture)); err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(moved, "fixture.go")
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	more := strings.Replace(string(text), "// Scale is", "// More is more.\nfunc More(n int) int { return n }\n\n// Scale is", 1)
	if err := os.WriteFile(name, []byte(more), 0o666); err != nil {
		t.Fatal(err)
	}
	_, after := loadFixture(t, moved)
	names := ids(before)
	if !slices.Equal(names, ids(after)) {
		t.Error("the names changed with the lines")
	}
	if after[len(after)-1].line() == before[len(before)-1].line() {
		t.Error("the lines did not change: nothing was shown")
	}
	slices.Sort(names)
	if len(slices.Compact(names)) != len(before) {
		t.Error("two mutants have the same name")
	}
}

func TestSample(t *testing.T) {
	sample := func(seed uint64) []string {
		_, found := loadFixture(t, fixture)
		chosen, err := options{n: 20, seed: seed}.choose(found)
		if err != nil {
			t.Fatal(err)
		}
		return ids(chosen)
	}
	one := sample(1)
	if len(one) != 20 || !slices.Equal(one, sample(1)) {
		t.Error("the same seed gave another sample")
	}
	if slices.Equal(one, sample(2)) {
		t.Error("another seed gave the same sample")
	}
}

func TestDiff(t *testing.T) {
	_, found := loadFixture(t, fixture)
	i := slices.IndexFunc(found, func(m *mutant) bool { return m.function == "Small" && m.op == boundary })
	var out bytes.Buffer
	root, err := filepath.Abs(fixture)
	if err != nil {
		t.Fatal(err)
	}
	diff(&out, root, found[i])
	for _, line := range []string{
		"--- fixture.go", "+++ fixture.go",
		"-func Small(n int) bool { return n < 10 } // comparison n boundary n off-by-one n",
		"+func Small(n int) bool { return (n <= 10) } // comparison n boundary n off-by-one n",
		" // Small is tried near its bounds, Medium far from them.",
	} {
		if !slices.Contains(strings.Split(out.String(), "\n"), line) {
			t.Errorf("the line %q is missing in\n%s", line, &out)
		}
	}
}

// The copies of a unit with a label each have a label of their own, or the
// package would not type-check; and what does not type-check is no mutant.
func TestLabelsAndIllegalMutants(t *testing.T) {
	s, found := loadFixture(t, fixture)
	in, err := instrument(s, found)
	if err != nil {
		t.Fatal(err)
	}
	text := in.files[s.files[0].name]
	if n := strings.Count(text, "outer_"); n < 4 {
		t.Errorf("%d labels of copies", n)
	}
	legal := slices.DeleteFunc(slices.Clone(found), func(m *mutant) bool { return m.outcome == illegal })
	if len(legal) < 100 {
		t.Errorf("only %d mutants are left", len(legal))
	}
	bad := slices.DeleteFunc(slices.Clone(found), func(m *mutant) bool { return m.outcome != illegal })
	// Nobody can break out of the loop that does not type-check any more.
	for _, m := range bad {
		if m.by == "" {
			t.Errorf("%s without a reason", m.describe("."))
		}
	}
}

func TestVerdict(t *testing.T) {
	made := func(op operator, o outcome, reason string) *mutant {
		return &mutant{op: op, outcome: o, reason: reason}
	}
	list := []*mutant{
		made(boundary, noticed, ""), made(rounding, hung, ""), made(rounding, survived, ""), made(drop, survived, "nobody sees it"),
		made(drop, illegal, ""), made(drop, uncovered, ""),
	}
	if total := count(list, all); total != (tally{tried: 4, noticed: 2, survived: 2, uncovered: 1, equivalent: 1}) {
		t.Errorf("%+v", total)
	}
	var out bytes.Buffer
	if err := (options{floor: 50, roundings: 50}).verdict(&out, ".", list, nil); err != nil {
		t.Errorf("%v: %s", err, &out)
	}
	for _, o := range []options{{floor: 50.1}, {roundings: 50.1}} {
		if err := o.verdict(&out, ".", list, nil); !errors.Is(err, errFloor) {
			t.Errorf("%+v: %v", o, err)
		}
	}
	if err := (options{}).verdict(&out, ".", nil, []judgement{{}}); !errors.Is(err, errFloor) {
		t.Error("a judgement about no mutant passed")
	}
}

// What is judged by name is read back, and fits the mutant it was about.
func TestJudge(t *testing.T) {
	_, found := loadFixture(t, fixture)
	name := filepath.Join(t.TempDir(), "equivalent.json")
	if err := addJudgements(name, nil, nil, found[3:5], " "); err == nil {
		t.Error("a judgement without a reason was written")
	}
	if err := addJudgements(name, nil, nil, found[3:5], "because a < b"); err != nil {
		t.Fatal(err)
	}
	list, err := judgements(name)
	if err != nil || len(list) != 2 {
		t.Fatal(list, err)
	}
	s, again := loadFixture(t, fixture)
	if stale := judge(list, []*subject{s}, again); len(stale) != 0 {
		t.Errorf("%v fit nothing", stale)
	}
	gone := list[0]
	gone.Line += " x"
	if err := addJudgements(name, append(list, gone), []judgement{gone}, nil, "because"); err != nil {
		t.Fatal(err)
	}
	if after, err := judgements(name); err != nil || !slices.Equal(after, list) {
		t.Errorf("what fits nothing was kept: %v, %v", after, err)
	}
	for i, m := range again {
		if judged := m.reason == "because a < b"; judged != (i == 3 || i == 4) {
			t.Errorf("mutant %d: judged %t", i, judged)
		}
	}
}

func TestOtherNames(t *testing.T) {
	for name, want := range map[string][]string{
		"W": {"H"}, "maxW": {"minW", "maxH"}, "LeftCover": {"RightCover"}, "x0": {"y0"}, "MinX": {"MaxX", "MinY"}, "cover": nil,
	} {
		if got := otherNames(name); !slices.Equal(got, want) {
			t.Errorf("%s: %v; want %v", name, got, want)
		}
	}
}

func TestProfile(t *testing.T) {
	blocks, err := readProfile([]byte("mode: set\na.example/b/c.go:3.10,5.2 1 1\na.example/b/c.go:6.10,7.2 1 0\n"))
	if err != nil || len(blocks) != 1 {
		t.Fatal(blocks, err)
	}
	for _, c := range []struct {
		line, col int
		want      bool
	}{{3, 9, false}, {3, 10, true}, {4, 1, true}, {5, 1, true}, {5, 2, false}} {
		if got := blocks[0].holds("c.go", c.line, c.col); got != c.want {
			t.Errorf("%d.%d: %t", c.line, c.col, got)
		}
	}
	if blocks[0].holds("d.go", 4, 1) {
		t.Error("another file")
	}
	if _, err := readProfile([]byte("c.go 3\n")); err == nil {
		t.Error("a line that is none was read")
	}
}
