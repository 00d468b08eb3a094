package guide

import (
	"strings"
	"unicode/utf8"

	"boardwrap.example/internal/quote"
)

// clean returns a text as it is shown, on one line.
func clean(text string) string { return strings.Map(quote.Shown, text) }

// noBreak is a space at which no line may end.
const noBreak = '\u00a0'

// bound returns a text as it is shown, with a space that cannot be broken at
// where lines may not end: inside a number, between it and its unit, and round
// the sign between two sides.
func bound(text string) string {
	text = clean(text)
	var out []byte
	for i := 0; i < len(text); i++ {
		if text[i] != ' ' || !joins(text[:i], text[i+1:]) {
			if out != nil {
				out = append(out, text[i])
			}
			continue
		}
		if out == nil {
			out = append(make([]byte, 0, len(text)+8), text[:i]...)
		}
		out = append(out, string(noBreak)...)
	}
	if out == nil {
		return text
	}
	return string(out)
}

// joins reports whether what stands before a space and what stands after it
// are one length or one size.
func joins(before, after string) bool {
	if before == "" || after == "" {
		return false
	}
	last := before[len(before)-1]
	number := digit(last) || strings.HasSuffix(before, "″") || strings.HasSuffix(before, "½") || strings.HasSuffix(before, "¼") || strings.HasSuffix(before, "¾")
	switch {
	case number && (startsWith(after, "in") || startsWith(after, "mm") || startsWith(after, "x") || startsWith(after, "×")):
		return true
	case digit(last) && digit(after[0]): // a fraction after whole inches
		slash := strings.IndexAny(after, "/⁄ ")
		return slash > 0 && after[slash] != ' '
	case digit(after[0]) && (strings.HasSuffix(before, " x") || strings.HasSuffix(before, " ×") || before == "x" || before == "×"):
		return true
	}
	return false
}

func digit(c byte) bool { return c >= '0' && c <= '9' }

// startsWith reports whether a text begins with a word and nothing that goes on with
// it.
func startsWith(text, w string) bool {
	rest, ok := strings.CutPrefix(text, w)
	if !ok || rest == "" {
		return ok
	}
	c := rest[0]
	return !digit(c) && !(c >= 'a' && c <= 'z') && !(c >= 'A' && c <= 'Z')
}

// capital returns a text with its first letter in upper case.
//
//go:noinline
func capital(text string) string {
	if text != "" && text[0] >= 'a' && text[0] <= 'z' {
		return string(text[0]-'a'+'A') + text[1:]
	}
	return text
}

// width returns how many columns a text takes.
func width(text string) int { return utf8.RuneCountInString(text) }

// alphabet are letters that are not taken for figures.
const alphabet = "ABCDEFGHJKLMNPQRSTUVWXYZ"

// letter returns the letter of a measure: A to Z, without I and O, which look
// like figures.
func letter(i int) string {
	return alphabet[i%len(alphabet) : i%len(alphabet)+1]
}
