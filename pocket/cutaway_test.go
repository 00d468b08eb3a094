package pocket_test

import (
	"errors"
	"reflect"
	"slices"
	"testing"

	"boardwrap.example/pocket"
	"boardwrap.example/pocket/work"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Each corner that is cut off is cut along an edge of the outline of its blank,
// at the corner that it is called by.
func TestCutsAreEdgesOfTheOutline(t *testing.T) {
	met := map[score.Corner]int{}
	walkVariants(func(k reflect.Value, what string) {
		d, err := k.Interface().(pocket.Kind).Design(pocket.Paper{Caliper: mm / 4, TwoSided: true}, units.WholeMillimetres)
		if err != nil {
			return
		}
		var pieces []pocket.Piece
		for _, p := range d.Pieces() {
			pieces = append(pieces, p)
		}
		for s := range d.Steps() {
			for _, a := range s.Do {
				cut, ok := a.(work.Trim)
				if !ok || cut.What.Kind != work.Piece {
					continue
				}
				met[cut.Corner]++
				b := pieces[cut.What.Index].Blank()
				outline, _ := b.Outline()
				corners := []units.Point{}
				for _, c := range outline.Corners() {
					corners = append(corners, c)
				}
				size := b.Size()
				right := cut.Corner == score.HeadRight || cut.Corner == score.TailRight
				low := cut.Corner == score.TailLeft || cut.Corner == score.TailRight
				near := func(l, far units.Length, end bool) bool { return end == (l > far-l) }
				if !slices.Contains(corners, cut.From) || !slices.Contains(corners, cut.To) {
					t.Errorf("%T, %s: a cut from %v to %v is no edge of %v", k.Interface(), what, cut.From, cut.To, outline)
				}
				if !near(cut.To.X, size.W, right) || !near(cut.From.Y, size.H, low) {
					t.Errorf("%T, %s: the %v corner is cut from %v to %v", k.Interface(), what, cut.Corner, cut.From, cut.To)
				}
			}
		}
	})
	for _, c := range []score.Corner{score.HeadLeft, score.HeadRight, score.TailRight} {
		if met[c] == 0 {
			t.Errorf("no %v corner is cut", c)
		}
	}
}

// What does not fold is a fault of what is to be made, not of a field that
// could not be written.
func TestWhatDoesNotFoldCannotBeMade(t *testing.T) {
	tried := 0
	for _, s := range []pocket.FoldedStrip{
		{Strip: units.Size{W: 230 * mm, H: 100 * mm}, Scores: [4]units.Length{60 * mm, 120 * mm, 190 * mm}},
		{Content: sized(50*mm, 80*mm), Ease: loose, Front: 90 * mm},
		{Content: sized(50*mm, 80*mm), Ease: loose, Flap: 90 * mm},
		{Content: sized(50*mm, 80*mm), Ease: loose, Hem: 90 * mm},
	} {
		_, err := s.Design(pocket.Paper{}, units.WholeMillimetres)
		bad := (*check.Error)(nil)
		if !errors.As(err, &bad) {
			t.Fatalf("%+v folds", s)
		}
		for v := range bad.All() {
			if v.Code == pocket.DoesNotFold {
				if tried++; v.Nature != check.Impossible {
					t.Errorf("%v is %v", v, v.Nature)
				}
			}
		}
	}
	if tried < 4 {
		t.Errorf("only %d tried", tried)
	}
}
