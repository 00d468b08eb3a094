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
	err = word.Unmarshal(hours, &h, []byte("midnight"))
	if err.Error() != `no hour is called "midnight": want dawn, noon or dusk` {
		t.Error(err)
	}
	var wants interface{ Want() string }
	if !errors.As(err, &wants) || wants.Want() != "dawn, noon or dusk" {
		t.Errorf("%v does not say by itself what would do", err)
	}
	if _, err := hours.Marshal(3); !errors.As(err, &wants) || wants.Want() != "" {
		t.Errorf("what has no word says that %q would do", wants.Want())
	}
}

// A tide is an enumeration of its own.
type tide uint8

const (
	ebb tide = iota
	flood
	tideEnd
)

func (t tide) Known() bool { return t < tideEnd }

func (t tide) String() string {
	switch t {
	case ebb:
		return "ebb"
	case flood:
		return "flood"
	}
	return "no such tide"
}

func TestEnum(t *testing.T) {
	if got := word.OneOf[tide](); got != "ebb or flood" {
		t.Errorf("one of %q", got)
	}
	for v, want := range map[tide]string{ebb: "ebb", flood: "flood"} {
		text, err := word.Append([]byte("the "), v, "tide")
		back := tideEnd
		if err != nil || string(text) != "the "+want || word.Read(&back, "tide", text[4:]) != nil || back != v {
			t.Errorf("%d: %q, %v, back %d", v, text, err, back)
		}
	}
	if text, err := word.Append([]byte("the "), tideEnd, "tide"); string(text) != "the " || !errors.Is(err, word.ErrUnknown) || err.Error() != "unknown tide" {
		t.Errorf("%q, %v", text, err)
	}
	back := flood
	if err := word.Read(&back, "tide", []byte("slack")); !errors.Is(err, word.ErrSyntax) || back != flood || err.Error() != `no tide is called "slack": want ebb or flood` {
		t.Errorf("%d, %v", back, err)
	}
}
