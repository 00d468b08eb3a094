package refit_test

import (
	"testing"

	"boardwrap.example/folio/refit"
	"boardwrap.example/internal/texttest"
)

// Every enumeration writes texts that it reads back.
func TestTextsOfEnumerations(t *testing.T) { texttest.ReadsBack(t, refit.ChangedFitting) }
