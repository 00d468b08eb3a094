//go:build !race && !js

package proptest

// slow says whether the test runs where everything takes ten times as long, to
// look for something else than a counterexample: under the race detector, or in
// WebAssembly.
const slow = false
