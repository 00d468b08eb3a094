package texttest

import (
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Kept compares a text with what a file keeps of it, line by line. To write is to
// keep what it is now, which somebody has read.
func Kept(t *testing.T, name, got string, write bool) {
	t.Helper()
	if write {
		if err := os.WriteFile(name, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got, "\n")); diff != "" {
		t.Errorf("%s (-want +got):\n%s", name, diff)
	}
}
