package packing_test

import (
	"context"
	"fmt"

	"boardwrap.example/internal/packing"
)

// Seven cards for a rowing crew from sheets of 120 × 100.
func ExampleSolve() {
	res, err := packing.Solve(context.Background(), packing.Problem{
		Items: []packing.Item{{W: 60, H: 40, Copies: 7, Turn: true}},
		Stock: []packing.Stock{{W: 120, H: 100, Count: packing.Unlimited, Cost: 90}},
	}, packing.Budget{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("sheets:", res.Ordinary, "bound:", res.Bound, "proved:", res.Proved, "cost:", res.Cost)
	pieces := 0
	for _, s := range res.Sheets {
		for _, n := range s.Nodes {
			if n.Use == packing.Piece {
				pieces += s.Times
			}
		}
	}
	fmt.Println("pieces:", pieces)
	// Output:
	// sheets: 2 bound: 2 proved: true cost: 180
	// pieces: 7
}
