package packing_test

import (
	"context"
	"math/rand"
	"testing"

	"boardwrap.example/internal/packing"
	"boardwrap.example/internal/packing/cutcheck"
	"boardwrap.example/internal/proptest"
)

// randomProblem draws a problem from all that a Problem can say. big makes the
// lengths nanometres without a common divisor.
func randomProblem(r *rand.Rand, kinds int, big bool) packing.Problem {
	unit := func(lo, hi int64) int64 {
		v := lo + r.Int63n(hi-lo+1)
		if big {
			v = v*10_000_019 + r.Int63n(9_999_991)
		}
		return v
	}
	p := packing.Problem{}
	if r.Intn(2) == 0 {
		p.Kerf = unit(1, 3)
	}
	if r.Intn(3) == 0 {
		p.LongestCut = unit(30, 110)
	}
	if r.Intn(2) == 0 {
		p.KeepShort, p.KeepLong = unit(5, 10), unit(10, 30)
	}
	for i := 1 + r.Intn(4); i > 0; i-- {
		s := packing.Stock{W: unit(20, 100), H: unit(20, 100), Count: packing.Unlimited, Cost: r.Int63n(100), First: r.Intn(3) == 0}
		if r.Intn(2) == 0 {
			s.Count = r.Intn(10)
		}
		if r.Intn(3) == 0 {
			s.Trim = unit(1, 8)
		}
		p.Stock = append(p.Stock, s)
	}
	for i := 0; i < kinds; i++ {
		n := 1
		switch r.Intn(4) {
		case 0:
			n = r.Intn(6)
		case 1:
			n = r.Intn(60)
		}
		p.Items = append(p.Items, packing.Item{W: unit(1, 60), H: unit(1, 60), Copies: n, Turn: r.Intn(2) == 0})
	}
	return p
}

func TestRandomProblemsPassTheChecker(t *testing.T) {
	r := rand.New(rand.NewSource(7))
	cases := proptest.Cases(100)
	for n := 0; n < cases; n++ {
		p := randomProblem(r, 1+r.Intn(30), n%3 == 0)
		res, err := packing.Solve(context.Background(), p, packing.Budget{Steps: 200_000})
		if err != nil {
			t.Fatal(err)
		}
		for _, w := range cutcheck.Check(p, res) {
			t.Fatalf("case %d: %s\n%+v", n, w, p)
		}
	}
}
