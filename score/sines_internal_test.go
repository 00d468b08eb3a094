package score

import (
	"math"
	"testing"
)

// The table of sines is that of the mathematical library, to the last figure.
func TestSines(t *testing.T) {
	for k, s := range sines {
		if want := int64(math.Round(1e15 * math.Sin(float64(k)*math.Pi/24))); s != want {
			t.Errorf("sine of %d x 7.5°: %d, want %d", k, s, want)
		}
	}
}
