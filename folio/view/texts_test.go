package view_test

import (
	"testing"

	"boardwrap.example/folio/view"
	"boardwrap.example/internal/texttest"
)

// Every enumeration writes texts that it reads back.
func TestTextsOfEnumerations(t *testing.T) {
	texttest.ReadsBack(t, view.Cover)
}
