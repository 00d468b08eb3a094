package packing_test

import (
	"context"
	"errors"
	"testing"

	"boardwrap.example/internal/packing"
)

// Everything wrong is said at once, in the order of the fields.
func TestFaultsAllAtOnce(t *testing.T) {
	p := packing.Problem{
		Items:      []packing.Item{{W: 0, H: packing.MaxSide + 1, Copies: -1}, {W: 1, H: 1, Copies: packing.MaxPieces}, {W: 1, H: 1, Copies: 1}},
		Stock:      []packing.Stock{{W: -5, H: 1, Count: -2, Cost: -1, Trim: -1}},
		Kerf:       -1,
		LongestCut: packing.MaxSide + 1,
		KeepShort:  -7,
		KeepLong:   -8,
	}
	r, err := packing.Solve(context.Background(), p, packing.Budget{})
	var fs packing.Faults
	if r != nil || !errors.As(err, &fs) {
		t.Fatalf("result %v, error %v", r, err)
	}
	want := []string{"Items[0].W", "Items[0].H", "Items[0].Copies", "sum of Copies", "Stock[0].W", "Stock[0].Count",
		"Stock[0].Cost", "Stock[0].Trim", "Kerf", "LongestCut", "KeepShort", "KeepLong"}
	if len(fs) != len(want) {
		t.Fatalf("%d faults, want %d: %v", len(fs), len(want), err)
	}
	for i, f := range fs {
		if f.Field != want[i] {
			t.Errorf("fault %d is of %s, want %s", i, f.Field, want[i])
		}
	}
}

// Pieces that fit no sheet are all named, with the least sheet that would do;
// the others are laid out.
func TestUnfitAllNamed(t *testing.T) {
	p := packing.Problem{
		Items: []packing.Item{{W: 30, H: 10, Copies: 2}, {W: 5, H: 5, Copies: 3}, {W: 10, H: 30, Copies: 1, Turn: true}, {W: 12, H: 25, Copies: 4, Turn: true}},
		Stock: []packing.Stock{{W: 26, H: 12, Count: packing.Unlimited, Trim: 1}},
	}
	r := solve(t, p, 1_000_000)
	want := []packing.Short{
		{Item: 0, Copies: 2, NeedW: 30, NeedH: 10},
		{Item: 2, Copies: 1, NeedW: 30, NeedH: 10, Turned: true},
		{Item: 3, Copies: 4, NeedW: 25, NeedH: 12, Turned: true},
	}
	if len(r.Short) != len(want) {
		t.Fatalf("short %+v, want %+v", r.Short, want)
	}
	for i := range want {
		if r.Short[i] != want[i] {
			t.Errorf("short %+v, want %+v", r.Short[i], want[i])
		}
	}
	if r.Ordinary != 1 {
		t.Errorf("%d sheets for three small pieces", r.Ordinary)
	}
}

// Two sheets hold eight of ten quarter-sheet pieces.
func TestNotEnoughStock(t *testing.T) {
	for _, copies := range []int{10, 200} {
		p := packing.Problem{Items: []packing.Item{{W: 50, H: 50, Copies: copies}}, Stock: []packing.Stock{{W: 100, H: 100, Count: 2}}}
		r := solve(t, p, 1_000_000)
		if len(r.Short) != 1 || r.Short[0] != (packing.Short{Item: 0, Copies: copies - 8, Fits: true}) || !r.Proved {
			t.Errorf("%d copies: short %+v, proved %v", copies, r.Short, r.Proved)
		}
	}
}

// Offcuts are used up first, and cheaper stock is taken where it does.
func TestFirstStockThenCheaper(t *testing.T) {
	p := packing.Problem{
		Items: []packing.Item{{W: 40, H: 40, Copies: 20}},
		Stock: []packing.Stock{
			{W: 100, H: 100, Count: packing.Unlimited, Cost: 100},
			{W: 80, H: 80, Count: packing.Unlimited, Cost: 60},
			{W: 85, H: 45, Count: 2, First: true},
		},
	}
	r := solve(t, p, 5_000_000)
	// 20 pieces, 4 on either kind of sheet: 4 on the two offcuts, 16 on four of the cheaper.
	if r.Used[0] != 0 || r.Used[1] != 4 || r.Used[2] != 2 || r.Cost != 240 || !r.Proved {
		t.Errorf("used %v, cost %d, proved %v", r.Used, r.Cost, r.Proved)
	}
}

// An offcut that saves no sheet stays whole.
func TestFirstStockNotTouchedForNothing(t *testing.T) {
	for _, copies := range []int{4, 16} {
		p := packing.Problem{
			Items: []packing.Item{{W: 50, H: 50, Copies: copies}},
			Stock: []packing.Stock{{W: 100, H: 100, Count: packing.Unlimited, Cost: 5}, {W: 50, H: 60, Count: 3, First: true, Cost: 1}},
		}
		r := solve(t, p, 5_000_000)
		if r.Ordinary != copies/4 || r.Used[1] != 0 {
			t.Errorf("%d copies: used %v", copies, r.Used)
		}
	}
}

// Whoever reads the error alone learns of each fault where it is, what was
// given, and from where to where it may be.
func TestFaultsInWords(t *testing.T) {
	err := packing.Problem{
		Items: []packing.Item{{W: -3, H: 1, Copies: 1}},
		Stock: []packing.Stock{{W: 1, H: 1, Count: 1, Cost: 1<<40 + 1}},
	}.Validate()
	if want := "packing: Items[0].W is -3, not from 1 to 1099511627776; Stock[0].Cost is 1099511627777, not from 0 to 1099511627776"; err == nil || err.Error() != want {
		t.Errorf("%v, want %s", err, want)
	}
}

// A kind of sheet of which there is none is as good as none; one that is used
// up is not.
func TestStockOfNone(t *testing.T) {
	p := packing.Problem{
		Items: []packing.Item{{W: 50, H: 50, Copies: 2}},
		Stock: []packing.Stock{{W: 40, H: 90, Count: 1}, {W: 60, H: 60, Count: 0}},
	}
	if r := prove(t, p, 1_000_000); len(r.Short) != 1 || r.Short[0] != (packing.Short{Item: 0, Copies: 2, NeedW: 50, NeedH: 50}) {
		t.Errorf("no sheet: short %+v", r.Short)
	}
	p.Stock[1].Count = 1
	if r := prove(t, p, 1_000_000); len(r.Short) != 1 || r.Short[0] != (packing.Short{Item: 0, Copies: 1, Fits: true}) || !r.Proved {
		t.Errorf("one sheet: short %+v, proved %v", r.Short, r.Proved)
	}
}
