package stock_test

import (
	"testing"

	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/texttest"
)

// Every enumeration writes texts that it reads back.
func TestTextsOfEnumerations(t *testing.T) {
	texttest.ReadsBack(t, stock.GrainAlongHeight)
	texttest.ReadsBack(t, stock.GrainAny)
	texttest.ReadsBack(t, stock.EdgeStripPiece)
}
