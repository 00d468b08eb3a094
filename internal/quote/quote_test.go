package quote_test

import (
	"strconv"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/leanovate/gopter"
	"github.com/leanovate/gopter/gen"
	"github.com/leanovate/gopter/prop"

	"boardwrap.example/internal/proptest"
	"boardwrap.example/internal/quote"
)

func TestClip(t *testing.T) {
	for _, c := range []struct {
		in   string
		n    int
		want string
	}{
		{"", 5, ""}, {"board", 5, "board"}, {"boards", 5, "bo..."}, {"ééééé", 5, "ééééé"}, {"éééééé", 5, "éé..."},
		{"\xff\xff\xff\xff\xff\xff", 5, "\ufffd\ufffd..."}, {"a\r\nb", 9, "a  b"}, {"a\x00\u202eb\xff", 9, "a\ufffd\ufffdb\ufffd"}, {"board", 0, "..."},
	} {
		if got := quote.Clip(c.in, c.n); got != c.want {
			t.Errorf("Clip(%q, %d) = %q; want %q", c.in, c.n, got, c.want)
		}
	}
}

// Of all characters that there are, those come through as they are that are neither
// control characters nor ends of lines or paragraphs, nor noncharacters (The Unicode
// Standard 15.0, 23.7: U+FDD0 to U+FDEF and the last two of each plane), nor embeddings,
// overrides and isolates of direction (Unicode Standard Annex 9, 2.1 to 2.5). What ends a
// line is shown as a space, so is a tab; all others as the replacement character.
func TestWhatIsShownOfCharacters(t *testing.T) {
	const directions = "\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
	const spaces = "\t\n\v\f\r\u0085\u2028\u2029"
	for r := rune(0); r <= unicode.MaxRune; r++ {
		want := r
		switch {
		case strings.ContainsRune(spaces, r):
			want = ' '
		case unicode.IsControl(r), strings.ContainsRune(directions, r), r >= 0xfdd0 && r <= 0xfdef, r%0x10000 >= 0xfffe, !utf8.ValidRune(r):
			want = utf8.RuneError
		}
		if got := quote.Shown(r); got != want && utf8.ValidRune(r) {
			t.Errorf("%U is shown as %U; want %U", r, got, want)
		}
	}
}

func TestQuote(t *testing.T) {
	for in, want := range map[string]string{
		"":                       `""`,
		"side paper":             `"side paper"`,
		"a \"b\"\\\n":            `"a \"b\"\\\n"`,
		strings.Repeat("a", 62):  `"` + strings.Repeat("a", 62) + `"`,
		strings.Repeat("a", 63):  `"` + strings.Repeat("a", 59) + `"...`,
		strings.Repeat("a", 1e6): `"` + strings.Repeat("a", 59) + `"...`,
		strings.Repeat("½", 63):  `"` + strings.Repeat("½", 59) + `"...`,
		strings.Repeat("\n", 40): `"` + strings.Repeat(`\n`, 29) + `"...`,
	} {
		if got := quote.Quote(in); got != want {
			t.Errorf("Quote(%q) = %s; want %s", in, got, want)
		}
	}
}

// A quote of any text at all is a literal that strconv reads, of a beginning of
// the text, and of all of it where it has no dots.
func TestQuotesOfAnyText(t *testing.T) {
	properties := gopter.NewProperties(proptest.Parameters(400))
	texts := gen.OneGenOf(gen.AnyString(), proptest.Map(gen.SliceOf(gen.UInt8()), func(b []uint8) string { return string(b) }),
		proptest.Map(gen.SliceOfN(300, gen.OneConstOf("a", "½", "\n", "\xff", `"`, "\U0001f9ed", "\u202e")), func(s []string) string { return strings.Join(s, "") }))
	properties.Property("a quote is short, cut between characters and reads back", prop.ForAll(func(s string) string {
		q := quote.Quote(s)
		literal, cut := strings.CutSuffix(q, "...")
		back, err := strconv.Unquote(literal)
		switch {
		case utf8.RuneCountInString(q) > quote.Most:
			return "too long: " + q
		case err != nil:
			return err.Error()
		case !strings.HasPrefix(s, back), !cut && s != back:
			return "another text: " + back
		case cut && len(strconv.Quote(s)) <= quote.Most:
			return "cut though it fits"
		}
		return ""
	}, texts))
	properties.Property("a clip is short, as it is shown and cut between characters", prop.ForAll(func(s string) bool {
		c, all := quote.Clip(s, quote.Most), strings.Map(quote.Shown, s)
		if c == all {
			return utf8.RuneCountInString(s) <= quote.Most
		}
		return utf8.RuneCountInString(c) == quote.Most && strings.HasPrefix(all, strings.TrimSuffix(c, "...")) && utf8.ValidString(c)
	}, texts))
	properties.TestingRun(t)
}

func TestAppendAllocates(t *testing.T) {
	buf := make([]byte, 0, 1024)
	long := strings.Repeat("½ board ", 1000)
	if n := testing.AllocsPerRun(100, func() { buf = quote.Append(buf[:0], long) }); n != 0 {
		t.Errorf("%v allocations", n)
	}
}
