package folio

import (
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// short adds a length that is too small, and long one that is too large. Where
// the field at the path is a rule and not a length, the limit is only told in
// words.
func short(bad *check.List, path string, code check.Code, n units.Notation, got, limit units.Length, what string) {
	if isRule(path) {
		bad.Impossible(path, code, n.Text(got), "a rule or a length that gives at least "+n.Text(limit)+" "+what)
		return
	}
	bad.Short(path, code, n, got, limit, what)
}

func long(bad *check.List, path string, code check.Code, n units.Notation, got, limit units.Length, what string) {
	if isRule(path) {
		bad.Impossible(path, code, n.Text(got), "a rule or a length that gives at most "+n.Text(limit)+" "+what)
		return
	}
	bad.Long(path, code, n, got, limit, what)
}

// isRule reports whether a path ends in a rule.
func isRule(path string) bool {
	const rule = ".rule"
	return len(path) > len(rule) && path[len(path)-len(rule):] == rule
}
