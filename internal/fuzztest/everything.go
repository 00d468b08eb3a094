package fuzztest

import (
	"math/rand"
	"testing"
)

// Everything fuzzes [Call] of all that a package exports, beginning with thirty
// inputs of so many random bytes, which is to be enough for what the functions
// take.
func Everything(f *testing.F, size int, functions ...any) {
	f.Helper()
	for seed := range int64(30) {
		data := make([]byte, size)
		rand.New(rand.NewSource(seed)).Read(data)
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) { Call(t, data, functions...) })
}
