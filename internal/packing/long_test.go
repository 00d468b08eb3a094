//go:build long

package packing_test

import "testing"

// The tests that do more where the tag is long, by a name that its runs look
// for.
func TestLong(t *testing.T) {
	for name, test := range map[string]func(*testing.T){
		"batches": TestBatch, "classes": TestClassesSample, "labels and tags": TestLabelsAndTagsEnd, "worst": TestWorstInputsComeBack,
		"stops": TestStopsWhereverItIs, "zero waste": TestZeroWasteMany, "proofs of few": TestProofsOfFew, "proofs of batches": TestProofsOfBatches,
		"ends": TestEveryRunEnds, "more budget": TestMoreBudgetIsNeverWorse, "turns": TestTurnsAreNeverWorse,
	} {
		t.Run(name, test)
	}
}
