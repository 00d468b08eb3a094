//go:build long

package packing_test

import "testing"

// Some of the tests that do more where the tag is long, by a name that its runs
// look for. The properties of ends_test.go, with twenty times as many cases and
// budgets up to the default, take hours, and are run by hand.
func TestLong(t *testing.T) {
	for name, test := range map[string]func(*testing.T){
		"batches": TestBatch, "classes": TestClassesSample, "labels and tags": TestLabelsAndTagsEnd, "worst": TestWorstInputsComeBack,
		"zero waste": TestZeroWasteMany,
	} {
		t.Run(name, test)
	}
}
