//go:build !race

package packing_test

// share divides the number of random cases; see raceon_test.go.
const share = 1
