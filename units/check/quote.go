package check

import "boardwrap.example/internal/quote"

// Limits of an error, so that it stays readable and small.
const (
	// MaxViolations is how many violations a [List] and an [Error] keep; the
	// rest are counted.
	MaxViolations = 100
	// MaxQuote is how many characters of a foreign text a message shows, marks
	// and dots included; see [Quote].
	MaxQuote = quote.Most
	// MaxText is how many characters each text of a violation may have; a
	// longer one is cut when the violation is added.
	MaxText = 512
)

// Quote returns a text that someone else has written, a name say, as messages
// show it: between double quotes, with escapes for what is not printed, in at
// most [MaxQuote] characters. A longer one ends in three dots behind the
// closing quote. It is cut between characters.
func Quote(s string) string { return quote.Quote(s) }

// Clip returns s on one line, or its beginning with three dots at the end where it
// has more than [MaxQuote] characters: for names inside a sentence, and texts of other
// packages that need no quotes, as an error's. What ends a line becomes a space;
// control characters, those that turn the direction round and what is no UTF-8 become
// U+FFFD.
func Clip(s string) string { return quote.Clip(s, MaxQuote) }

func clip(s string) string { return quote.Clip(s, MaxText) }
