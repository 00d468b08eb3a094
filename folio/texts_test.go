package folio_test

import (
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/internal/texttest"
)

// Every enumeration writes texts that it reads back.
func TestTextsOfEnumerations(t *testing.T) {
	texttest.ReadsBack(t, folio.ChangedFitting)
	texttest.ReadsBack(t, folio.BetweenOutsides)
	texttest.ReadsBack(t, folio.StiffenerPiece)
	texttest.ReadsBack(t, folio.LimitSheet)
}
