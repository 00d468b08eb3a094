package rule_test

import (
	"testing"

	"boardwrap.example/folio/rule"
	"boardwrap.example/internal/fuzztest"
)

// everything is each function and type of the package.
func everything() []any {
	return []any{rule.LeastGap, rule.SpineFor, rule.ContentsFor, rule.Hinge{}, rule.Margin{}, rule.Mitre{}, rule.Lining{}, rule.Quarter{}, rule.Spine{},
		rule.Turning(0), rule.Rulers{}, rule.Limit(0)}
}

// FuzzEverything calls every function and method with any values at all.
func FuzzEverything(f *testing.F) { fuzztest.Everything(f, 1500, everything()...) }

// Nothing that the package exports is left out of that.
func TestEverythingIsCalled(t *testing.T) { fuzztest.Complete(t, ".", everything()...) }
