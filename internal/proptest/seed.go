package proptest

import (
	"flag"
	"testing"
	"time"

	"github.com/leanovate/gopter"
)

// fixed is the seed where nobody asks for another; any number does.
const fixed = 20261

var seedFlag = flag.Int64("seed", fixed, "`seed` of the property tests; 0 takes one from the clock")

// Seed returns the seed that this run of the tests was asked for. It is the
// same for all of them, also where it comes from the clock, and not 0.
func Seed() int64 {
	if *seedFlag == 0 {
		*seedFlag = time.Now().UnixNano()
	}
	return *seedFlag
}

// Cases returns how many cases a property tries that needs n in a whole run, with
// the build tag whole: a quarter of them at every change, half with the tag half,
// twenty times as many with the build tag long, and a tenth, but at least one, under
// the race detector and in WebAssembly, which are slow and look for something else.
// What a test expects to have met by then is a number of cases too.
func Cases(n int) int {
	switch {
	case slow:
		return max(n/10, 1)
	case Long:
		return 20 * n
	}
	return (n*quarters + 3) / 4
}

// Parameters returns the settings of properties with at least [Cases] of n
// cases each, and the seed of this run.
func Parameters(n int) *gopter.TestParameters {
	p := gopter.DefaultTestParametersWithSeed(Seed())
	p.MinSuccessfulTests = Cases(n)
	return p
}

// Run checks the properties that add adds, each with at least [Cases] of n
// cases. A property that fails prints its counterexample as it was found and as
// it was shrunk, and the seed.
func Run(t *testing.T, n int, add func(p *gopter.Properties)) {
	t.Helper()
	p := gopter.NewProperties(Parameters(n))
	add(p)
	p.TestingRun(t)
}
