package packing_test

import (
	"context"
	"encoding/json"
	"os"
	"slices"
	"testing"

	"boardwrap.example/internal/packing"
	"boardwrap.example/internal/packing/cutcheck"
	"boardwrap.example/internal/proptest"
)

// instance is one record of testdata; see testdata/README.md for the sources.
type instance struct {
	Name                string
	Cls, N, K           int
	Sheet               [2]int64
	Items               [][]int64
	Fewest, Bound, Best [2]int
}

func (in *instance) UnmarshalJSON(b []byte) error {
	var raw struct {
		Name      string
		Cls, N, K int
		Sheet     [2]int64
		Items     [][]int64
		FF        int `json:"fewest_fixed"`
		FT        int `json:"fewest_turned"`
		BF        int `json:"bound_fixed"`
		BT        int `json:"bound_turned"`
		SF        int `json:"best_fixed"`
		ST        int `json:"best_turned"`
		RT        int `json:"reached_turned"`
	}
	if err := json.Unmarshal(b, &raw); err != nil {
		return err
	}
	*in = instance{Name: raw.Name, Cls: raw.Cls, N: raw.N, K: raw.K, Sheet: raw.Sheet, Items: raw.Items,
		Fewest: [2]int{raw.FF, raw.FT}, Bound: [2]int{raw.BF, raw.BT}, Best: [2]int{raw.SF, max(raw.ST, raw.RT)}}
	return nil
}

// problem makes a Problem of an instance; turned is 1 where pieces may turn.
func (in *instance) problem(turned int) packing.Problem {
	p := packing.Problem{Stock: []packing.Stock{{W: in.Sheet[0], H: in.Sheet[1], Count: packing.Unlimited, Cost: 1}}}
	for _, it := range in.Items {
		n := 1
		if len(it) > 2 {
			n = int(it[2])
		}
		p.Items = append(p.Items, packing.Item{W: it[0], H: it[1], Copies: n, Turn: turned == 1})
	}
	return p
}

func load(t testing.TB, file string) []instance {
	t.Helper()
	b, err := os.ReadFile("testdata/" + file)
	if err != nil {
		t.Fatal(err)
	}
	var ins []instance
	if err := json.Unmarshal(b, &ins); err != nil {
		t.Fatal(err)
	}
	if len(ins) == 0 {
		t.Fatal("no instances in " + file)
	}
	return ins
}

// solve solves and has every layout checked by the independent checker.
func solve(t testing.TB, p packing.Problem, steps int64) *packing.Result {
	t.Helper()
	r, err := packing.Solve(context.Background(), p, packing.Budget{Steps: steps})
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range cutcheck.Check(p, r) {
		t.Error(w)
	}
	return r
}

var direction = [2]string{"fixed", "turned"}

// Every set of 8, 10 and 12 pieces has a known fewest number of sheets.
func TestFewEveryOptimum(t *testing.T) {
	for i, in := range load(t, "few.json") {
		for turned := range direction {
			if !proptest.Whole && (i+turned)%2 != 0 {
				continue
			}
			r := solve(t, in.problem(turned), packing.DefaultSteps)
			if r.Ordinary != in.Fewest[turned] || !r.Proved {
				t.Errorf("class %d number %d, %d pieces, %s: %d sheets (proved %v), fewest %d",
					in.Cls, in.K, len(in.Items), direction[turned], r.Ordinary, r.Proved, in.Fewest[turned])
			}
		}
	}
}

// A small budget on one in 25 (long: five) of the published instances: never below the
// proven bound, never a bound above a known solution, never more than a sheet
// in ten above the best known.
func TestClassesSample(t *testing.T) {
	ins := load(t, "classes.json")
	every := 25
	if proptest.Long {
		every = 5
	}
	for turned := range direction {
		for i := turned; i < len(ins); i += every {
			in := &ins[i]
			r := solve(t, in.problem(turned), 2_000_000)
			if r.Ordinary < in.Bound[turned] || r.Bound > in.Best[turned] {
				t.Errorf("class %d n %d number %d %s: %d sheets, bound %d; known bound %d, best %d", in.Cls, in.N, in.K,
					direction[turned], r.Ordinary, r.Bound, in.Bound[turned], in.Best[turned])
			}
			if r.Ordinary > in.Best[turned]+1+in.Best[turned]/10 {
				t.Errorf("class %d n %d number %d %s: %d sheets, best known %d", in.Cls, in.N, in.K,
					direction[turned], r.Ordinary, in.Best[turned])
			}
		}
	}
}

func TestSameInputSameBytes(t *testing.T) {
	ins := load(t, "classes.json")
	for i := 3; i < len(ins); i += 60 {
		p := ins[i].problem(i % 2)
		a, b := solve(t, p, 1_000_000), solve(t, p, 1_000_000)
		x, _ := json.Marshal(a)
		y, _ := json.Marshal(b)
		if !slices.Equal(x, y) {
			t.Errorf("instance %d: two runs differ", i)
		}
		// Who only counts gets the same but for the sheets.
		c, err := packing.Solve(context.Background(), p, packing.Budget{Steps: 1_000_000, Count: true})
		if err != nil || len(c.Sheets) > 0 || c.Areas != (packing.Areas{}) {
			t.Fatalf("instance %d: counted with %d sheets: %v", i, len(c.Sheets), err)
		}
		c.Sheets, c.Areas = a.Sheets, a.Areas
		if z, _ := json.Marshal(c); !slices.Equal(x, z) {
			t.Errorf("instance %d: counted it differs", i)
		}
	}
}

// Many copies of few kinds. Fixed: the proved optimum, proved again. Turned: no
// more than a sheet above the bound. Each proof is checked.
func TestBatch(t *testing.T) {
	steps := packing.DefaultSteps / 14 // with less, prices do not always come to their end
	if proptest.Long {
		steps = packing.DefaultSteps
	}
	for _, in := range load(t, "batch.json") {
		for turned := range direction {
			r := prove(t, in.problem(turned), steps)
			t.Logf("%s %s: %d sheets, bound %d, %d patterns, %d steps", in.Name, direction[turned], r.Ordinary, r.Bound, len(r.Sheets), r.Steps)
			if r.Bound > in.Bound[turned] || r.Bound < in.Bound[turned] && (proptest.Long || turned == 0) {
				t.Errorf("%s %s: bound %d, known %d", in.Name, direction[turned], r.Bound, in.Bound[turned])
			}
			if turned == 0 && (r.Ordinary != in.Best[0] || !r.Proved) {
				t.Errorf("%s: %d sheets (proved %v), fewest %d", in.Name, r.Ordinary, r.Proved, in.Best[0])
			}
			if r.Ordinary > in.Bound[turned]+1 {
				t.Errorf("%s %s: %d sheets, bound %d", in.Name, direction[turned], r.Ordinary, in.Bound[turned])
			}
		}
	}
}
