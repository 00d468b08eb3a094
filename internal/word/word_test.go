package word_test

import (
	"errors"
	"strings"
	"testing"

	"boardwrap.example/internal/word"
)

type hour uint8

var hours = word.List{What: "hour", Words: []string{"dawn", "noon", "dusk"}}

func TestWords(t *testing.T) {
	for v, want := range hours.Words {
		if got := hours.String(uint8(v)); got != want {
			t.Errorf("%d is %q; want %q", v, got, want)
		}
		text, err := hours.Append([]byte("at "), uint8(v))
		if err != nil || string(text) != "at "+want {
			t.Errorf("%d appends %q, %v", v, text, err)
		}
		text, err = hours.Marshal(uint8(v))
		var h hour = 99
		if err2 := word.Unmarshal(hours, &h, text); err != nil || err2 != nil || h != hour(v) {
			t.Errorf("%d reads back as %d, %v, %v", v, h, err, err2)
		}
	}
}

// A comma inside a word is told from one between words.
func TestWant(t *testing.T) {
	for want, words := range map[string][]string{
		"": nil, "dawn": {"dawn"}, "dawn or dusk": {"dawn", "dusk"}, "dawn, noon or dusk": hours.Words,
		`"cover, spine" or "two covers"`: {"cover, spine", "two covers"},
	} {
		if got := (word.List{What: "hour", Words: words}).Want(); got != want {
			t.Errorf("%q: %q, want %q", words, got, want)
		}
	}
}

func TestNoWord(t *testing.T) {
	if got := hours.String(3); got != "unknown hour" {
		t.Errorf("%q", got)
	}
	text, err := hours.Append([]byte("at "), 3)
	if string(text) != "at " || !errors.Is(err, word.ErrUnknown) || err.Error() != "unknown hour" {
		t.Errorf("%q, %v", text, err)
	}
	if text, err := hours.Marshal(3); text != nil || !errors.Is(err, word.ErrUnknown) {
		t.Errorf("%q, %v", text, err)
	}
	h := hour(1)
	for _, text := range []string{"", "midnight", "Noon", "noon ", strings.Repeat("noon", 1e6)} {
		err := word.Unmarshal(hours, &h, []byte(text))
		if !errors.Is(err, word.ErrSyntax) || h != 1 || len(err.Error()) > 150 {
			t.Errorf("%.20q: %d, %v", text, h, err)
		}
	}
	if err := word.Unmarshal(hours, &h, []byte("midnight")); err.Error() != `no hour is called "midnight": want dawn, noon or dusk` {
		t.Error(err)
	}
}
