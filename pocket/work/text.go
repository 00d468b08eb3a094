package work

import "strconv"

// An UnknownText is the error for a word, or a value, that is none of an
// enumeration's.
type UnknownText struct {
	// Of is the enumeration, as in "task".
	Of string
	// Got is the word, at most 64 bytes of it, or the value as a number.
	Got string
}

// Error returns "no such task: \"glueing\"".
func (e *UnknownText) Error() string { return "no such " + e.Of + ": " + strconv.Quote(e.Got) }

func named(names []string, i int, none string) string {
	if i < 0 || i >= len(names) {
		return none
	}
	return names[i]
}

func marshal(names []string, i int, of string) ([]byte, error) {
	if i < 0 || i >= len(names) {
		return nil, &UnknownText{of, strconv.Itoa(i)}
	}
	return []byte(names[i]), nil
}

func unmarshal[E ~uint8](names []string, text []byte, of string, to *E) error {
	for i, name := range names {
		if name == string(text) {
			*to = E(i)
			return nil
		}
	}
	return &UnknownText{of, string(text[:min(len(text), 64)])}
}
