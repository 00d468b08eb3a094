package main

import (
	"strings"
	"testing"
	"unicode/utf8"
)

// Every way to call the program prints lines of at most 80 columns, and what
// the maker needs stands in them.
func TestOutput(t *testing.T) {
	for name, c := range map[string]struct {
		args []string
		want []string
	}{
		"inches":   {nil, []string{"2  cover board              4 1/2 in x 6 1/4 in", "wrap                     12 in x 8 1/4 in", "liner                    10 in x 6 in", "score 3 7/8 in from the left"}},
		"metric":   {[]string{"-mm"}, []string{"cover board              114 mm x 159 mm", "liner                    253 mm x 153 mm"}},
		"measured": {[]string{"-measured", "10 3/8 x 6 1/4"}, []string{"liner                    10 1/8 in x 6 in", "wrap                     12 in x 8 1/4 in"}},
		"larger":   {[]string{"-cover", "4 5/8 x 7", "-spine", "7/8"}, []string{"cover board              4 5/8 in x 7 in"}},
		"thicker":  {[]string{"-board", "3/32"}, []string{"hinge gap 3/16 in = 2 x board caliper 3/32 in"}},
	} {
		var out strings.Builder
		if err := run(c.args, &out); err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		for line := range strings.Lines(out.String()) {
			if n := utf8.RuneCountInString(strings.TrimSuffix(line, "\n")); n > columns {
				t.Errorf("%s: %d columns in %q", name, n, line)
			}
		}
		for _, w := range c.want {
			if !strings.Contains(out.String(), w) {
				t.Errorf("%s: %q is missing", name, w)
			}
		}
	}
}

func TestRefused(t *testing.T) {
	for name, args := range map[string][]string{
		"too big for the sheet": {"-cover", "8 x 10"},
		"tiny":                  {"-cover", "1 x 1"},
		"no number":             {"-spine", "one"},
		"left over":             {"4", "x", "6"},
		"both at once":          {"-spine", "0,5", "-board", "-1/16"},
	} {
		var out strings.Builder
		if err := run(args, &out); err == nil {
			t.Errorf("%s: printed a plan", name)
		} else if strings.Contains(out.String(), "WORKINGS") {
			t.Errorf("%s: printed part of a plan", name)
		}
	}
}
