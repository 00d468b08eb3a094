//go:build long

package cutorder_test

import "testing"

func TestLongBruteForce(t *testing.T) { bruteForce(t, 100) }
