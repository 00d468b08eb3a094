package place_test

import (
	"testing"

	"boardwrap.example/folio/place"
	"boardwrap.example/internal/texttest"
)

// Every enumeration writes texts that it reads back.
func TestTextsOfEnumerations(t *testing.T) {
	texttest.ReadsBack(t, place.Even)
	texttest.ReadsBack(t, place.OfFitting)
	texttest.ReadsBack(t, place.PictureUsualLying)
}
