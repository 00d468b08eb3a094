package rooms_test

import (
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"boardwrap.example/internal/rooms"
)

// uncalled are packages that promise something and whose functions are called
// with any values in another way.
var uncalled = map[string]string{
	"units/check":   "called with package units",
	"pocket/work":   "its actions are written by pocket and folio, whose steps are walked",
	"folio/wire":    "reads any bytes: FuzzReadSpec; writes what others give",
	"folio/guide":   "writes what plans give",
	"folio/propose": "FuzzParseThings; requests by its hostile tests",
}

// Every room that strangers call has a fuzz target that calls all that it exports
// with any values, and a test that nothing is left out.
func TestEverythingIsFuzzed(t *testing.T) {
	packages, err := rooms.List(root, "./units/...", "./score/...", "./pocket/...", "./folio/...")
	if err != nil {
		t.Fatal(err)
	}
	complete := regexp.MustCompile(`func FuzzEverything\((?s:.*)fuzztest\.Everything\(`)
	listed := regexp.MustCompile(`fuzztest\.Complete\(t, "\."`)
	n := 0
	for _, p := range packages {
		room, _ := rooms.Room(p.ImportPath)
		if uncalled[room] != "" {
			continue
		}
		text, err := os.ReadFile(filepath.Join(p.Dir, "everything_test.go"))
		if err != nil || !complete.Match(text) || !listed.Match(text) {
			t.Errorf("%s has no everything_test.go that calls everything and says so: %v", room, err)
		}
		n++
	}
	if n < 10 {
		t.Errorf("only %d rooms", n)
	}
}
