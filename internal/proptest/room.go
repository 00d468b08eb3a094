package proptest

import (
	"os"
	"runtime/debug"
	"slices"
	"strings"
)

// Tests make much and keep little of it, so a heap that is collected when it has
// doubled is collected all the time: a fifth of what the tests of all rooms took.
// Theirs may grow to five times what is live. Benchmarks, and whoever sets GOGC,
// measure what everybody else has.
func init() {
	measured := func(arg string) bool { return strings.HasPrefix(arg, "-test.bench=") }
	if os.Getenv("GOGC") == "" && !slices.ContainsFunc(os.Args, measured) {
		debug.SetGCPercent(400)
	}
}
