package main

import (
	"strings"
	"testing"
	"unicode/utf8"
)

// The whole table fits a plain terminal and says everything that it promises.
func TestFair(t *testing.T) {
	var out strings.Builder
	if err := run([]string{"-steps", "2000000"}, &out); err != nil {
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
	if err := run([]string{"-steps", "2000000"}, &again); err != nil || again.String() != text {
		t.Errorf("two runs differ: %v", err)
	}
}

// Far too many for the cupboard: what lacks is said and the rest is laid out.
func TestTooMany(t *testing.T) {
	var out strings.Builder
	err := run([]string{"-small", "60", "-large", "30", "-steps", "200000", "-cuts=false"}, &out)
	if err == nil || !strings.Contains(out.String(), "WHAT LACKS") || !strings.Contains(out.String(), "more of 16 x 20 in") {
		t.Errorf("error %v, printed\n%s", err, out.String())
	}
}
