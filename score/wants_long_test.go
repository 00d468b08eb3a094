//go:build long

package score_test

import "testing"

// Of 20,000 bad requests at least 99 in 100 are mended by what their violations
// say.
func TestLongWhatWouldDoDoes(t *testing.T) {
	if n := whatWouldDoDoes(t, 1400).Refused(); n < 20_000 {
		t.Errorf("only %d were refused", n)
	}
}
