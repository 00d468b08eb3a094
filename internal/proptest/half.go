//go:build half && !whole && !long

package proptest

// Whole says whether the tests were built with the tag whole, or long, for samples
// that are four times as large as those of a run at every change.
const Whole = false

const quarters = 2 // of the cases that a property needs
