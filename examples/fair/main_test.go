package main

import (
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"boardwrap.example/folio/layout"
)

// The whole table fits a plain terminal and says everything that it promises.
func TestFair(t *testing.T) {
	var out strings.Builder
	if err := run([]string{"-steps", "2000000"}, &out, nil); err != nil {
		t.Fatal(err)
	}
	text := out.String()
	for _, head := range []string{"WHAT IS WANTED", "SHEETS", "OFFCUTS LEFT", "ORDER OF CUTTING", "COSTS OF THE BATCH", "COST AND PRICE OF ONE", "ONE MORE", "WHAT WOULD SAVE A SHEET", "Trimmer: "} {
		if !strings.Contains(text, head) {
			t.Errorf("%s is missing", head)
		}
	}
	for _, line := range strings.Split(text, "\n") {
		if utf8.RuneCountInString(line) > columns {
			t.Errorf("too wide: %s", line)
		}
	}
	var again strings.Builder
	if err := run([]string{"-steps", "2000000"}, &again, nil); err != nil || again.String() != text {
		t.Errorf("two runs differ: %v", err)
	}
}

// Far too many for the cupboard: what lacks is said and the rest is laid out.
func TestTooMany(t *testing.T) {
	var out strings.Builder
	err := run([]string{"-small", "60", "-large", "30", "-steps", "200000", "-cuts=false"}, &out, nil)
	if err == nil || !strings.Contains(out.String(), "WHAT LACKS") || !strings.Contains(out.String(), "more of 16 x 20 in") {
		t.Errorf("error %v, printed\n%s", err, out.String())
	}
}

// The table of 16 small and 8 large folios is cut with at most 60 settings of
// the fence and at most 255 cuts; printed numbers do not skip.
func TestFewSettings(t *testing.T) {
	job, err := table(16, 8, 0)
	if err != nil {
		t.Fatal(err)
	}
	laid, err := layout.Lay(t.Context(), job, layout.Budget{})
	if err != nil {
		t.Fatal(err)
	}
	settings, leastSettings := laid.Settings()
	cuts, leastCuts := laid.Cuts()
	if settings > 60 || settings < leastSettings || cuts > 255 || cuts < leastCuts {
		t.Errorf("%d settings, at least %d; %d cuts, at least %d", settings, leastSettings, cuts, leastCuts)
	}
	var out strings.Builder
	p := printer{out: &out, laid: laid, job: job}
	p.cuts()
	n := 0
	for _, line := range strings.Split(out.String(), "\n") {
		var number int
		if _, err := fmt.Sscanf(line, "%d. ", &number); err == nil && strings.HasPrefix(line, "   ") {
			if n++; number != n {
				t.Errorf("number %d is printed as %d", n, number)
			}
		}
	}
	if p.err != nil || n < 20 {
		t.Errorf("%d numbers, %v", n, p.err)
	}
}

// On a terminal one line tells how far the search is, and is wiped in the end.
func TestProgress(t *testing.T) {
	var out, shown strings.Builder
	if err := run([]string{"-steps", "2000000", "-cuts=false"}, &out, &shown); err != nil {
		t.Fatal(err)
	}
	text := shown.String()
	if !strings.Contains(text, "marbled paper: 12 to buy, never fewer than 12") || !strings.HasSuffix(text, "\r") || strings.Contains(text, "\n") {
		t.Errorf("shown: %q", text)
	}
	lines := strings.Split(text, "\r")
	for _, line := range lines {
		if len(line) >= columns {
			t.Errorf("%q does not fit a line", line)
		}
	}
	if n := len(lines); n < 5 || strings.TrimSpace(lines[n-2]) != "" {
		t.Errorf("the line is left as %q", lines[n-2])
	}
}

func TestFlags(t *testing.T) {
	for _, args := range [][]string{{"-steps", "-5"}, {"-small", "-3"}, {"left over"}, {"-nothing"}, {"-stack", "an inch or so"}, {"-stack", "-1 in"}} {
		var out strings.Builder
		if err := run(args, &out, nil); err == nil {
			t.Errorf("%q passes", args)
		}
	}
	// None of the small ones is a table too.
	var out strings.Builder
	if err := run([]string{"-small", "0", "-large", "3", "-cuts=false", "-steps", "200000"}, &out, nil); err != nil || strings.Contains(out.String(), "NoCopies") {
		t.Errorf("%v in\n%s", err, out.String())
	}
}

// A cutter that takes 1/8 in cuts two boards of 1/16 in at once, with the caution
// for stacks, and comes down less often.
func TestStacks(t *testing.T) {
	var single, stacked strings.Builder
	for out, args := range map[*strings.Builder][]string{&single: {"-steps", "2000000"}, &stacked: {"-steps", "2000000", "-stack", "1/8 in"}} {
		if err := run(args, out, nil); err != nil {
			t.Fatal(err)
		}
	}
	cuts := func(text string) (n int) {
		_, after, _ := strings.Cut(strings.Join(strings.Fields(text), " "), "times and cut ")
		if _, err := fmt.Sscanf(after, "%d times", &n); err != nil {
			t.Fatal(err)
		}
		return n
	}
	a, b := cuts(single.String()), cuts(stacked.String())
	if b*4 > a*3 || !strings.Contains(stacked.String(), "in stacks of up to 2") || !strings.Contains(stacked.String(), "Stack: ") || strings.Contains(single.String(), "Stack: ") {
		t.Errorf("%d cuts, %d in stacks\n%s", a, b, stacked.String())
	}
}
