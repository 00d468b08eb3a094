// Package quote cuts foreign text short for messages, so that a message stays
// readable, and on one line, whatever the text is that it tells of.
package quote

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// Most is how many characters of a foreign text a message shows, marks and
// dots included.
const Most = 64

const dots = "..."

// Clip returns s as it is shown on one line (see [Shown]), or as much of its beginning
// as leaves it at most n characters with three dots at its end. It cuts between
// characters only; a byte that is not UTF-8 counts as one and becomes U+FFFD. An n
// below 3 counts as 3.
func Clip(s string, n int) string {
	s = clip(s, n)
	for i := range len(s) {
		if s[i] < ' ' || s[i] > '~' {
			return strings.Map(Shown, s)
		}
	}
	return s // as most names are
}

// Shown returns what is shown of a character: what ends a line becomes a space, and
// control characters, those that change the direction of what follows, and what is no
// character at all become U+FFFD.
//
//go:noinline
func Shown(r rune) rune {
	switch {
	case r == '\n', r == '\t', r == '\r', r == '\v', r == '\f', r == '\u2028', r == '\u2029', r == '\u0085':
		return ' '
	case r < ' ', r >= 0x7f && r < 0xa0:
		return utf8.RuneError
	case r >= '\u202a' && r <= '\u202e', r >= '\u2066' && r <= '\u2069':
		return utf8.RuneError
	case r >= 0xfdd0 && r <= 0xfdef, r&0xfffe == 0xfffe:
		return utf8.RuneError
	}
	return r
}

func clip(s string, n int) string {
	if len(s) <= n {
		return s
	}
	n = max(n, len(dots))
	cut, at := 0, 0
	for seen := 0; at < len(s); seen++ {
		if seen == n-len(dots) {
			cut = at
		}
		if seen == n {
			return s[:cut] + dots
		}
		_, size := utf8.DecodeRuneInString(s[at:])
		at += size
	}
	return s
}

// Quote returns s as a Go string literal of at most [Most] characters, with
// three dots behind what is left of a longer one. What is not printed stands
// as an escape, which is never cut.
func Quote(s string) string { return string(Append(make([]byte, 0, 2*Most), s)) }

// Append appends the text of [Quote] to dst.
func Append(dst []byte, s string) []byte {
	dst = append(dst, '"')
	chars, cut := 1, len(dst) // cut: as much as fits with the dots and the mark
	for at := 0; at < len(s); {
		r, size := utf8.DecodeRuneInString(s[at:])
		before := len(dst)
		if r == utf8.RuneError && size == 1 {
			dst = appendByte(dst, s[at])
		} else {
			dst = appendRune(dst, r)
		}
		chars += utf8.RuneCount(dst[before:])
		if chars+1 > Most {
			dst = append(dst[:cut], '"')
			return append(dst, dots...)
		}
		if chars+1+len(dots) <= Most {
			cut = len(dst)
		}
		at += size
	}
	return append(dst, '"')
}

func appendByte(dst []byte, b byte) []byte {
	const hex = "0123456789abcdef"
	return append(dst, '\\', 'x', hex[b>>4], hex[b&15])
}

// appendRune appends a character as it stands between the marks of a literal.
func appendRune(dst []byte, r rune) []byte {
	switch {
	case r == '"' || r == '\\':
		return append(dst, '\\', byte(r))
	case strconv.IsPrint(r):
		return utf8.AppendRune(dst, r)
	}
	quoted := strconv.AppendQuoteRune(nil, r)
	return append(dst, quoted[1:len(quoted)-1]...)
}
