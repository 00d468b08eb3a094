package folio

import (
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// short adds a length that is too small, and long one that is too large. Where
// the field at the path is a rule and not a length, the limit is only told in
// words.
func (b *builder) short(path string, code check.Code, got, limit units.Length, what string) {
	if !isRule(path) {
		b.bad.Short(path, code, b.notation(), got, limit, what)
		return
	}
	n := b.notation()
	b.bad.Impossible(path, code, n.Text(got), "a rule or a length that gives at least "+n.Text(limit)+" "+what)
}

func (b *builder) long(path string, code check.Code, got, limit units.Length, what string) {
	if !isRule(path) {
		b.bad.Long(path, code, b.notation(), got, limit, what)
		return
	}
	n := b.notation()
	b.bad.Impossible(path, code, n.Text(got), "a rule or a length that gives at most "+n.Text(limit)+" "+what)
}

// isRule reports whether a path ends in a rule.
func isRule(path string) bool {
	const rule = ".rule"
	return len(path) > len(rule) && path[len(path)-len(rule):] == rule
}
