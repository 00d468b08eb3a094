package folio

import (
	"strings"

	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// short adds a length that is too small, and long one that is too large. Where
// the field at the path is a rule and not a length, the limit is only told in
// words.
func short(bad *check.List, path string, code check.Code, n units.Notation, got, limit units.Length, what string) {
	if isRule(path) {
		bad.Impossible(path, code, n.Text(got), instead(path)+" of at least "+n.Bound(limit, units.Up)+", or a rule that gives as much, "+what)
		return
	}
	bad.Short(path, code, n, got, limit, what)
}

func long(bad *check.List, path string, code check.Code, n units.Notation, got, limit units.Length, what string) {
	if isRule(path) {
		bad.Impossible(path, code, n.Text(got), instead(path)+" of at most "+n.Bound(limit, units.Down)+", or a rule that gives no more, "+what)
		return
	}
	bad.Long(path, code, n, got, limit, what)
}

// instead says what can be given instead of a rule.
func instead(path string) string {
	if path == "mitre.rule" {
		return "no rule and a distance"
	}
	return "no rule and a width"
}

// isRule reports whether a path ends in a rule.
func isRule(path string) bool { return strings.HasSuffix(path, ".rule") }
