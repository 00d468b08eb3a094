//go:build !long

package proptest

// Long says whether the tests were built with the tag long, for searches that
// take too long to wait for at every change.
const Long = false
