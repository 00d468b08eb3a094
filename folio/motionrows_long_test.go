//go:build long

package folio_test

import "testing"

func TestOwnRowsByMotionLong(t *testing.T) {
	trials := 3000
	if testing.Short() {
		trials = 400
	}
	ownRowsByMotion(t, trials)
}
