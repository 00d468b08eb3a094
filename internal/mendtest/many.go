package mendtest

import (
	"math/rand"
	"testing"

	"boardwrap.example/internal/proptest"
	"boardwrap.example/units/check"
)

// enough is how many values a long run has refused.
const enough = 20_000

// Many tries values that one makes by chance, of numbers that say which: as many
// as [proptest.Cases] says, and in a long run as many as it takes until 20,000 were
// refused, or with -short 1,000. It ends with [Tally.Check], where a code of advice
// may have a value in a hundred.
func Many(t *testing.T, cases int, advice []check.Code, one func(tally *Tally, from int64)) {
	t.Helper()
	var tally Tally
	rng := rand.New(rand.NewSource(proptest.Seed()))
	least := 0
	if proptest.Long {
		cases, least = 0, enough
		if testing.Short() {
			least = enough / 20
		}
	}
	most := 20 * max(least, 100) // else nothing that is tried is refused
	for i := 0; i < proptest.Cases(cases) || tally.Refused() < least && i < most; i++ {
		one(&tally, rng.Int63())
	}
	if tally.Refused() < max(least, proptest.Cases(cases)/10) {
		t.Errorf("only %d were refused", tally.Refused())
	}
	tally.Check(t, 1, advice...)
	if t.Failed() {
		t.Logf("seed %d", proptest.Seed())
	}
}
