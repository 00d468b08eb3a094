package rule_test

import (
	"testing"

	"boardwrap.example/folio/rule"
	"boardwrap.example/internal/texttest"
)

// Every enumeration writes texts that it reads back.
func TestTextsOfEnumerations(t *testing.T) {
	texttest.ReadsBack(t, rule.HingeLeast)
	texttest.ReadsBack(t, rule.CreaseRound)
	texttest.ReadsBack(t, rule.MitreFixed)
	texttest.ReadsBack(t, rule.MarginSeventeen)
	texttest.ReadsBack(t, rule.LiningRuns)
	texttest.ReadsBack(t, rule.SidesFirst)
	texttest.ReadsBack(t, rule.QuarterAlways)
	texttest.ReadsBack(t, rule.SpineBlock)
	texttest.ReadsBack(t, rule.LimitSheet)
}
