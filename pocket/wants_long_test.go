//go:build long

package pocket_test

import "testing"

// Of 20,000 impossible pockets at least 99 in 100 are mended by what their
// violations say.
func TestLongWhatTheTextSaysDoes(t *testing.T) {
	if n := whatTheTextSaysDoes(t, 1400).Refused(); n < 20_000 {
		t.Errorf("only %d were refused", n)
	}
}
