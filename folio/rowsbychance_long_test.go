//go:build long

package folio_test

import (
	"math/rand"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/refit"
	"boardwrap.example/internal/makertest"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/units"
)

// Every row by chance that builds, builds as it is expected to come out.
func TestRowsAsMadeLong(t *testing.T) {
	r := rand.New(rand.NewSource(proptest.Seed()))
	rows, built := 24000, 0
	if testing.Short() {
		rows = 2400
	}
	for i := range rows {
		s := anyRow(r)
		if i%2 == 1 {
			s.Placing = units.Length(r.Int63n(int64(mm)))
		}
		p, err := folio.Build(s)
		if err != nil {
			continue
		}
		built++
		w, h := p.AsMade()
		if _, err := p.Refit(refit.Measured{Width: w.Length(), Height: h.Length()}); err != nil {
			t.Errorf("row %d of seed %d: %v", i, proptest.Seed(), err)
		}
	}
	if built < rows/3 {
		t.Errorf("%d of %d rows build", built, rows)
	}
}

// The maker makes rows by chance, and closes them as told.
func TestRowsByHandLong(t *testing.T) {
	r := rand.New(rand.NewSource(proptest.Seed()))
	rows, built := 6000, 0
	if testing.Short() {
		rows = 400
	}
	for i := range rows {
		p, err := folio.Build(anyRow(r))
		if err != nil {
			continue
		}
		built++
		if err := makertest.Follow(makerJob(p, p)); err != nil {
			t.Errorf("row %d of seed %d: %v", i, proptest.Seed(), err)
		}
	}
	if built < rows/3 {
		t.Errorf("%d of %d rows build", built, rows)
	}
}
