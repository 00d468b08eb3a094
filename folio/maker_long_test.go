//go:build long

package folio_test

import "testing"

// Two thousand folios.
func TestMadeByHandLong(t *testing.T) { madeByHand(t) }

// Eight thousand mistakes in five hundred of them.
func TestMistakesAreNoticedLong(t *testing.T) { mistakesAreNoticed(t) }
