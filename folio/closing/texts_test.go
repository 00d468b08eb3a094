package closing_test

import (
	"testing"

	"boardwrap.example/folio/closing"
	"boardwrap.example/internal/texttest"
)

// Every enumeration writes texts that it reads back.
func TestTextsOfEnumerations(t *testing.T) { texttest.ReadsBack(t, closing.BetweenOutsides) }
