package guide

import (
	"strings"
	"testing"
)

// A line may not end inside a number, between it and its unit, or round the sign between
// two sides; anywhere else it may.
func TestWhereLinesEnd(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"cut 5 3/4 in from it", "cut 5_3/4_in from it"}, {"5 in", "5_in"}, {"5 inches", "5 inches"}, {"12 mm.", "12_mm."}, {"12 mmx", "12 mmx"}, {"12 mm2", "12 mm2"}, {"12 mmA", "12 mmA"},
		{"5 x 7 in", "5_x_7_in"}, {"5 xylophones", "5 xylophones"}, {"x 7", "x_7"}, {"× 7", "×_7"}, {"Max 7", "Max 7"}, {"box 7", "box 7"}, {"a x b", "a x b"},
		{"7″ × 5½″ × 3", "7″_×_5½″_×_3"}, {"5½ in", "5½_in"}, {"5¼ in", "5¼_in"}, {"5¾ x", "5¾_x"}, {"5⅛", "5⅛"},
		{"steps 3 4 5", "steps 3 4 5"}, {"5 3⁄4", "5_3⁄4"}, {"5 3 /4", "5 3 /4"}, {"5 34", "5 34"}, {"sheet 5, 3/4", "sheet 5, 3/4"}, {"and 3/4 in", "and 3/4_in"},
		{" in", " in"}, {"5 ", "5 "}, {"in 5", "in 5"}, {"0 in 9 mm", "0_in 9_mm"}, {"A in", "A in"}, {"", ""},
	} {
		if got := strings.ReplaceAll(bound(c.text), "\u00a0", "_"); got != c.want {
			t.Errorf("%q is bound as %q; want %q", c.text, got, c.want)
		}
	}
}

// The first letter is put in upper or lower case where it is one of A to Z.
func TestFirstLetters(t *testing.T) {
	for text, want := range map[string][2]string{"a": {"A", "a"}, "z b": {"Z b", "z b"}, "A": {"A", "a"}, "Zb": {"Zb", "zb"}, "": {"", ""}, "`a": {"`a", "`a"}, "{": {"{", "{"}, "@a": {"@a", "@a"}, "[a": {"[a", "[a"}, "écru": {"écru", "écru"}} {
		if got := [2]string{capital(text), lower(text)}; got != want {
			t.Errorf("%q: %q; want %q", text, got, want)
		}
	}
}
