package score_test

import (
	"encoding"
	"errors"
	"fmt"
	"testing"

	"boardwrap.example/score"
	"boardwrap.example/units"
)

// wordsOf checks that the values from 0 on have these words, written and read
// alike, and that there are no more.
func wordsOf[T interface {
	~uint8
	fmt.Stringer
	encoding.TextAppender
	encoding.TextMarshaler
}, P interface {
	*T
	encoding.TextUnmarshaler
}](t *testing.T, words ...string) {
	t.Helper()
	for i, want := range words {
		v, back := T(i), T(99)
		text, err := v.MarshalText()
		appended, err2 := v.AppendText([]byte("a "))
		err3 := P(&back).UnmarshalText(text)
		if err != nil || err2 != nil || err3 != nil || v.String() != want || string(text) != want || string(appended) != "a "+want || back != v {
			t.Errorf("%T %d is %q, %q, %q, read back as %d: %v, %v, %v; want %q", v, i, v, text, appended, back, err, err2, err3, want)
		}
	}
	beyond := T(len(words))
	if _, err := beyond.MarshalText(); !errors.Is(err, units.ErrUnknown) {
		t.Errorf("%T %d: %v", beyond, beyond, err)
	}
	v := T(1)
	if err := P(&v).UnmarshalText([]byte("sideways")); !errors.Is(err, units.ErrSyntax) || v != 1 {
		t.Errorf("%T: %v, %v", v, v, err)
	}
}

// The words are part of what others store, so they do not change.
func TestWords(t *testing.T) {
	wordsOf[score.Fold](t, "valley", "mountain")
	wordsOf[score.Side](t, "face", "back")
	wordsOf[score.TurnWay](t, "as scored", "towards you", "away from you")
	wordsOf[score.Axis](t, "upright", "level")
	wordsOf[score.Edge](t, "head", "tail", "left", "right")
	wordsOf[score.Corner](t, "head left", "head right", "tail right", "tail left")
	wordsOf[score.End](t, "no end", "left end", "right end")
	wordsOf[score.FoldGrain](t, "unknown grain", "with the grain", "across the grain")
}
