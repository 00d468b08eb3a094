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
// refused, or with -short 1,000. It ends with [Tally.Check], where most values of a
// hundred may have only advice, and twice as many in a short run.
func Many(t *testing.T, cases, most int, advice []check.Code, one func(tally *Tally, from int64)) {
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
	last := 20 * least // else hardly anything that is tried is refused
	for i := 0; i < proptest.Cases(cases) || tally.Refused() < least && i < last; i++ {
		one(&tally, rng.Int63())
	}
	if tally.Refused() < max(least, proptest.Cases(cases)/10) {
		t.Errorf("only %d were refused", tally.Refused())
	}
	if least == 0 {
		most *= 2 // a few hundred are few
	}
	tally.Check(t, most, advice...)
	if t.Failed() {
		t.Logf("seed %d", proptest.Seed())
	}
}
