package wire_test

import (
	"errors"
	"strconv"
	"strings"
	"testing"

	"boardwrap.example/folio/wire"
	"boardwrap.example/units/check"
)

// Each limit on a document is taken at it, and refused above it and far above.
func TestLimits(t *testing.T) {
	read := func(body string) error {
		_, err := wire.ReadSpec([]byte(body))
		return err
	}
	spec := func(members string) string { return `{"version":1,"spec":{` + members + `}}` }
	for name, c := range map[string]struct {
		most int
		code check.Code // that there is only beyond the limit
		try  func(n int) error
	}{
		"MostBytes": {wire.MostBytes, check.TooLarge, func(n int) error {
			doc := spec(`"title":""`)
			return read(doc + strings.Repeat(" ", n-len(doc)))
		}},
		// The document, the Spec and its list of stocks are three.
		"MostDepth": {wire.MostDepth, check.TooMany, func(n int) error {
			return read(spec(`"stocks":` + strings.Repeat("[", n-2) + strings.Repeat("]", n-2)))
		}},
		// The document, its version, the Spec and its list are four.
		"MostMembers": {wire.MostMembers, check.TooMany, func(n int) error {
			return read(spec(`"stocks":[` + strings.TrimSuffix(strings.Repeat(`{},`, n-4), ",") + `]`))
		}},
	} {
		has := func(err error) bool {
			var bad *wire.Error
			if errors.As(err, &bad) {
				for f := range bad.All() {
					if f.Code == c.code {
						return true
					}
				}
			}
			return false
		}
		if err := c.try(c.most); has(err) {
			t.Errorf("%s: at the limit: %v", name, err)
		}
		for _, n := range []int{c.most + 1, 5 * c.most} {
			if err := c.try(n); !has(err) {
				t.Errorf("%s: %d: %v", name, n, err)
			}
		}
	}
	// Of very many faults the first hundred are listed.
	var bad *wire.Error
	for _, n := range []int{wire.MostFaults, wire.MostFaults + 1, 10 * wire.MostFaults} {
		err := read(spec(strings.TrimSuffix(strings.Repeat(`"oar":1,`, n), ",")))
		listed := 0
		if errors.As(err, &bad) {
			for range bad.All() {
				listed++
			}
		}
		if listed != wire.MostFaults || bad.Len() != n {
			t.Errorf("MostFaults: %d listed of %d, want %d of %d", listed, bad.Len(), wire.MostFaults, n)
		}
	}
	for _, n := range []int{1, 2, 10} {
		header := make([]string, n*wire.MostColumns)
		for i := range header {
			header[i] = "stocks[" + strconv.Itoa(i%wire.MostColumns) + "]." + []string{"name", "caliper", "grammage"}[i/wire.MostColumns%3]
		}
		_, err := wire.NewColumns(header)
		if (err == nil) != (n == 1) {
			t.Errorf("MostColumns: %d: %v", len(header), err)
		}
	}
	if _, err := wire.NewColumns(make([]string, wire.MostColumns+1)); err == nil || !strings.Contains(err.Error(), "columns; want at most") {
		t.Errorf("MostColumns: one more: %v", err)
	}
}
