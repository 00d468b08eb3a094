// Package texttest tries the texts of enumerations, and keeps texts, for tests.
package texttest

import (
	"encoding"
	"errors"
	"testing"

	"boardwrap.example/units"
)

// texted is an enumeration that writes and reads its values.
type texted interface {
	~uint8
	String() string
	encoding.TextMarshaler
	encoding.TextAppender
}

// ReadsBack tries every value up to the last: what it writes it reads, no two
// write the same, and the next value has no text.
func ReadsBack[E texted, P interface {
	*E
	encoding.TextUnmarshaler
}](t *testing.T, last E) {
	t.Helper()
	seen := map[string]bool{}
	for v := E(0); v <= last; v++ {
		text, err := v.MarshalText()
		var back E
		if err != nil || string(text) != v.String() || seen[string(text)] || P(&back).UnmarshalText(text) != nil || back != v {
			t.Errorf("%T %d: %q, %v, back %d", v, v, text, err, back)
		}
		if appended, err := v.AppendText([]byte("x")); err != nil || string(appended) != "x"+string(text) {
			t.Errorf("%T %d: appended %q, %v", v, v, appended, err)
		}
		seen[string(text)] = true
	}
	if _, err := (last + 1).MarshalText(); !errors.Is(err, units.ErrUnknown) {
		t.Errorf("%T %d: %v", last, last+1, err)
	}
	back := last
	if err := P(&back).UnmarshalText([]byte("no such word")); !errors.Is(err, units.ErrSyntax) || back != last {
		t.Errorf("%T: %v, became %d", last, err, back)
	}
}
