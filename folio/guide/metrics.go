package guide

import (
	"unicode/utf8"

	"boardwrap.example/units"
)

// family is the font that texts are placed for, and those of the same widths.
const family = "Helvetica,Arial,Liberation Sans,Arimo,sans-serif"

// Heights of the font in thousandths of the text size: how far letters reach
// above the line they stand on and below it. Capitals of Helvetica stand 718
// high and descenders reach 207 down (Adobe's metrics of the core 14 fonts);
// accents over capitals reach higher.
const (
	rise   = 730
	accent = 960
	drop   = 220
)

// widths are the widths of the signs from the space to the tilde, in
// thousandths of the text size: Helvetica, in Adobe's metrics of the core 14
// fonts.
var widths = [...]uint16{
	278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278,
	556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556,
	1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778,
	667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556,
	333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556,
	556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
}

// latin are the widths of the signs from U+00A0 to U+00FF, from the same
// source.
var latin = [...]uint16{
	278, 333, 556, 556, 556, 556, 260, 556, 333, 737, 370, 556, 584, 333, 737, 333,
	400, 584, 333, 333, 333, 556, 537, 278, 333, 333, 365, 556, 834, 834, 834, 611,
	667, 667, 667, 667, 667, 667, 1000, 722, 667, 667, 667, 667, 278, 278, 278, 278,
	722, 722, 778, 778, 778, 778, 778, 584, 778, 722, 722, 722, 722, 667, 667, 611,
	556, 556, 556, 556, 556, 556, 889, 500, 556, 556, 556, 556, 278, 278, 278, 278,
	556, 556, 556, 556, 556, 556, 556, 584, 611, 556, 556, 556, 556, 500, 556, 500,
}

// signWidth returns the width of a sign in thousandths of the text size. One
// that is not in the tables counts as a whole size: it is squeezed to that.
func signWidth(r rune) int64 {
	switch {
	case r >= ' ' && r <= '~':
		return int64(widths[r-' '])
	case r >= 0xA0 && r <= 0xFF:
		return int64(latin[r-0xA0])
	}
	switch r {
	case '–': // en dash
		return 556
	case '‘', '’':
		return 222
	case '“', '”':
		return 333
	case '•':
		return 350
	case '⁄': // fraction slash
		return 167
	case '−':
		return 584
	case '≈': // not in Adobe's tables: as in Arial and Liberation Sans
		return 549
	case '⅛', '⅜', '⅝', '⅞', '⅓', '⅔':
		return 834
	case '″':
		return 355
	}
	return 1000
}

// textWidth returns the width of a text of the given size.
func textWidth(s string, size units.Length) units.Length {
	var sum int64
	for _, r := range s {
		sum += signWidth(r)
	}
	w, _ := size.Scale(sum, 1000, units.Up)
	return w
}

// longestText is how many signs of a foreign name are drawn.
const longestText = 40

// short cuts a foreign name for a drawing.
func short(s string) string {
	if utf8.RuneCountInString(s) <= longestText {
		return s
	}
	n := 0
	for i := range s {
		if n == longestText-1 {
			return s[:i] + "…"
		}
		n++
	}
	return s
}

// rises returns how far a text reaches above its line, in thousandths of its
// size.
func rises(s string) int64 {
	if plain(s) {
		return rise
	}
	return accent
}

// plain reports whether a text has no accents that reach over capitals.
func plain(s string) bool {
	for i := range len(s) {
		if s[i] >= utf8.RuneSelf {
			return false
		}
	}
	return true
}
