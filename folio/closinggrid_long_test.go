//go:build long

package folio_test

import "testing"

func TestClosingByGridLong(t *testing.T) { closingByGrid(t, 3300) }
