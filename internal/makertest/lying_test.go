package makertest_test

import (
	"testing"

	"boardwrap.example/internal/makertest"
	"boardwrap.example/pocket/work"
)

// What lies on the base at the end, from bottom to top: a card, and the front of
// the pocket over it, with its notch; nothing where the order cannot be followed.
func TestMade(t *testing.T) {
	made, err := makertest.Made(slipPocket())
	if err != nil || len(made) != 2 {
		t.Fatalf("%v, %v", made, err)
	}
	card, front := made[0], made[1]
	if card.Kind != work.Content || card.Rect != rect(7, 8, 66, 96) {
		t.Errorf("under the front lies %+v", card)
	}
	if front.Kind != work.Piece || front.Rect != rect(0, 50, 80, 60) || front.Drawn != rect(0, 0, 80, 60) || front.Thick != mm/4 {
		t.Errorf("over the card lies %+v", front)
	}
	if !front.Covers(rect(0, 60, 80, 50)) || front.Covers(rect(35, 50, 10, 5)) {
		t.Error("the front is not cut as it is drawn")
	}
	if made, err := makertest.Made(plainCase()); err != nil || len(made) < 5 {
		t.Errorf("of a case %d things, %v", len(made), err)
	}
	if made, err := makertest.Made(without(slipPocket(), 2)); err == nil || made != nil {
		t.Errorf("without its notch: %v, %v", made, err)
	}
}
