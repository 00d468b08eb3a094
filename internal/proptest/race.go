//go:build race

package proptest

// raced says whether the race detector is in the test.
const raced = true
