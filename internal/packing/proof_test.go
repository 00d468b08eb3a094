package packing_test

import (
	"context"
	"math/rand"
	"testing"

	"boardwrap.example/internal/packing"
	"boardwrap.example/internal/packing/cutcheck"
	"boardwrap.example/internal/proptest"
)

// prove solves, and has every proof that comes with the result checked.
func prove(t *testing.T, p packing.Problem, steps int64) *packing.Result {
	t.Helper()
	r := solve(t, p, steps)
	for _, w := range cutcheck.CheckProof(p, r) {
		t.Errorf("%s: %+v", w, p)
	}
	return r
}

// Every bound on the published instances is proved by data that an independent
// program finds right.
func TestProofsOfClasses(t *testing.T) {
	ins := load(t, "classes.json")
	every, steps := 25, int64(1_000_000)
	if proptest.Long {
		every, steps = 1, 20_000_000
	}
	for turned := range direction {
		for i := 0; i < len(ins); i += every {
			prove(t, ins[i].problem(turned), steps)
		}
	}
}

func TestProofsOfFew(t *testing.T) {
	every := 10
	if proptest.Long {
		every = 1
	}
	ins := load(t, "few.json")
	for turned := range direction {
		for i := 0; i < len(ins); i += every {
			if r := prove(t, ins[i].problem(turned), packing.DefaultSteps); !r.Proved || r.Proof == nil {
				t.Errorf("case %d: proved %v, proof %v", i, r.Proved, r.Proof)
			}
		}
	}
}

// Problems with everything that there is: kerf, trim, longest cut, offcuts,
// too little stock.
func TestProofsOfRandomProblems(t *testing.T) {
	r := rand.New(rand.NewSource(9))
	seen := [4]int{}
	for n := proptest.Cases(100); n > 0; n-- {
		p := randomProblem(r, 1+r.Intn(8), n%3 == 0)
		res, err := packing.Solve(context.Background(), p, packing.Budget{Steps: 300_000})
		if err != nil {
			t.Fatal(err)
		}
		for _, w := range cutcheck.CheckProof(p, res) {
			t.Fatalf("%s\n%+v\n%+v", w, p, res.Proof)
		}
		for i, yes := range []bool{res.Proof != nil && res.Proof.Root > 0, res.Proof != nil && res.Proof.Price != nil, res.NoMore != nil, res.Proof != nil && res.Proof.X.C > 0} {
			if yes {
				seen[i]++
			}
		}
	}
	t.Logf("by trial, by prices, that no more can be placed, by functions: %v", seen)
	for i, n := range seen {
		if n == 0 && proptest.Cases(100) >= 100 { // fewer cases may miss a sort
			t.Errorf("no proof of sort %d: the generator is too tame", i)
		}
	}
}

// Where each piece is there once, bounds that let a sheet hold it twice are too
// low by one on these; with the copies counted they reach the best known number
// of sheets, which is so proved fewest.
func TestProofsThatCountCopies(t *testing.T) {
	counted := 0
	for _, in := range load(t, "classes.json") {
		switch [3]int{in.Cls, in.N, in.K} {
		case [3]int{1, 40, 3}, [3]int{9, 40, 1}:
		default:
			continue
		}
		r := prove(t, in.problem(0), packing.DefaultSteps)
		if r.Bound != in.Best[0] || r.Bound != in.Bound[0]+1 || !r.Proved {
			t.Errorf("class %d n %d number %d: %d sheets, bound %d; best known %d, bound without counting %d",
				in.Cls, in.N, in.K, r.Ordinary, r.Bound, in.Best[0], in.Bound[0])
		}
		if counted++; len(r.Proof.Once) == 0 {
			t.Errorf("class %d n %d number %d is proved without counting", in.Cls, in.N, in.K)
		}
		r.Proof.Once = nil
		if len(cutcheck.CheckProof(in.problem(0), r)) == 0 {
			t.Error("the same proof passes without counting")
		}
	}
	if counted != 2 {
		t.Errorf("%d of 2 instances", counted)
	}
}

// With a kerf, with turns, with copies, 13 to 17 pieces: whatever is proved by
// going through the sets that a sheet holds, the checker finds so too. In so many
// steps all of them come to their end.
func TestProofsByListingAtRandom(t *testing.T) {
	r := rand.New(rand.NewSource(14))
	listed := 0
	cases := proptest.Cases(120)
	for n := cases; n > 0; n-- {
		p := packing.Problem{Kerf: int64(r.Intn(2)), Stock: []packing.Stock{{W: 20, H: 20, Count: packing.Unlimited, Cost: 1}}}
		for left := 13 + r.Intn(5); left > 0; {
			it := packing.Item{W: 2 + int64(r.Intn(16)), H: 2 + int64(r.Intn(16)), Copies: min(left, 1+r.Intn(2)), Turn: r.Intn(4) == 0}
			left -= it.Copies
			p.Items = append(p.Items, it)
		}
		res := prove(t, p, 20_000_000)
		if !res.Proved {
			t.Errorf("not proved: %+v", p)
		}
		if res.Proof != nil && res.Proof.Root > 0 {
			listed++
		}
	}
	if listed < cases/60 {
		t.Errorf("%d of %d are proved by listing: the generator is too tame", listed, cases)
	}
}

// A proof that is tampered with does not pass: of one sheet more, with a price
// raised, with a cap lowered, with a set left out.
func TestWrongProofsAreFound(t *testing.T) {
	refuse := func(what string, p packing.Problem, r *packing.Result, change func(r *packing.Result)) {
		q, pr := *r, *r.Proof
		pr.Price, pr.Cap = append([]int64(nil), pr.Price...), append([]int64(nil), pr.Cap...)
		if r.Proof.Price == nil {
			pr.Price, pr.Cap = nil, nil
		}
		q.Proof = &pr
		change(&q)
		if len(cutcheck.CheckProof(p, &q)) == 0 {
			t.Errorf("%s passes", what)
		}
	}
	ins := load(t, "classes.json")
	priced, plain := 0, 0
	for i := 0; i < len(ins) && (priced == 0 || plain == 0); i += 7 {
		p := ins[i].problem(0)
		r := solve(t, p, 2_000_000)
		more := func(r *packing.Result) { r.Bound++; r.Ordinary++; r.Proof.Bound++ }
		switch {
		case r.Proof.Price != nil:
			priced++
			refuse("a bound by prices that is one too high", p, r, more)
			refuse("a cap that is too low", p, r, func(r *packing.Result) { r.Proof.Cap[0] /= 2 })
		case r.Proof.Root == 0:
			plain++
			refuse("a bound by functions that is one too high", p, r, more)
		}
		refuse("no proof", p, r, func(r *packing.Result) { r.Proof = nil })
	}
	p := load(t, "few.json")[0].problem(0)
	r := solve(t, p, packing.DefaultSteps)
	r.Proof = &packing.Proof{Bound: r.Bound, Root: len(p.Items), Size: 1 << len(p.Items)}
	refuse("a bound by trial that is one too high", p, r, func(r *packing.Result) { r.Bound++; r.Ordinary++; r.Proof.Bound++ })
	refuse("a trial of half the sets", p, r, func(r *packing.Result) { r.Proof.Size /= 2 })
}

// The twenty first pieces, all large, of which no bound shows that they need as
// many sheets as they do: the sets that a sheet holds are gone through, and the
// checker comes to the same, with its own sets.
func TestProofsByListing(t *testing.T) {
	listed := 0
	for _, in := range load(t, "classes.json") {
		switch [3]int{in.Cls, in.N, in.K} {
		case [3]int{1, 20, 3}, [3]int{3, 20, 3}, [3]int{5, 20, 1}, [3]int{8, 20, 9}:
		default:
			continue
		}
		r := prove(t, in.problem(0), 5_000_000)
		if r.Ordinary != in.Best[0] || r.Bound != in.Bound[0]+1 || !r.Proved || r.Proof.Root != in.N {
			t.Errorf("class %d number %d: %d sheets, bound %d, proof %+v; best known %d, bound by prices %d",
				in.Cls, in.K, r.Ordinary, r.Bound, r.Proof, in.Best[0], in.Bound[0])
			continue
		}
		listed++
		for _, wrong := range []func(){func() { r.Proof.Size++ }, func() { r.Proof.Size = 1 << 20 }} {
			keep := *r.Proof
			if wrong(); len(cutcheck.CheckProof(in.problem(0), r)) == 0 {
				t.Error("a proof over the wrong number of sets passes")
			}
			*r.Proof = keep
		}
		r.Bound, r.Ordinary, r.Proof.Bound = r.Bound+1, r.Ordinary+1, r.Bound+1
		if len(cutcheck.CheckProof(in.problem(0), r)) == 0 {
			t.Error("a bound that is one too high passes")
		}
	}
	if listed != 4 {
		t.Errorf("%d of 4", listed)
	}
}
