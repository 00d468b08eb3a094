package boards_test

import (
	"testing"

	"boardwrap.example/folio/boards"
	"boardwrap.example/internal/texttest"
)

// Every enumeration writes texts that it reads back.
func TestTextsOfEnumerations(t *testing.T) {
	texttest.ReadsBack(t, boards.OwnRow)
	texttest.ReadsBack(t, boards.Panel9)
	texttest.ReadsBack(t, boards.WidthFixed)
}
