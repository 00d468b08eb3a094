package word

import "strings"

// Marked reports whether a number or a letter at the end tells something apart, as
// in "corner 2", "strip A2" and "fold 2 of the guard": it takes no article then.
func Marked(name string) bool {
	head, _, _ := strings.Cut(name, " of ")
	n := len(head)
	if n == 0 {
		return false
	}
	last := head[n-1]
	return '0' <= last && last <= '9' || n > 1 && head[n-2] == ' ' && 'A' <= last && last <= 'Z'
}

// The returns a name with its article where it takes one.
func The(name string) string {
	if Marked(name) {
		return name
	}
	return "the " + name
}

// Numbered returns a name with a number that tells copies apart: "corner 2", and
// "strip A2" of a strip A.
func Numbered(name, number string) string {
	if Marked(name) {
		return name + number
	}
	return name + " " + number
}
