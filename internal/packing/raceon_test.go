//go:build race

package packing_test

// share divides the number of random cases: the race detector makes each many
// times slower, and the package starts no goroutines.
const share = 8
