package word_test

import (
	"testing"

	"boardwrap.example/internal/word"
)

// English has no article before what a number or a letter names.
func TestArticles(t *testing.T) {
	for name, want := range map[string]string{
		"mat": "the mat", "corner 2": "corner 2", "strip A2": "strip A2", "accordion strip B": "accordion strip B",
		"fold 2 of the guard": "fold 2 of the guard", "first magnet of pair 1": "the first magnet of pair 1",
		"first tab of strip A2": "the first tab of strip A2", "ABC": "the ABC", "A": "the A", "": "the ",
	} {
		if got := word.The(name); got != want {
			t.Errorf("%q: %q, want %q", name, got, want)
		}
	}
	for name, want := range map[string]string{"corner": "corner 2", "strip A": "strip A2"} {
		if got := word.Numbered(name, "2"); got != want {
			t.Errorf("%q: %q, want %q", name, got, want)
		}
	}
}
