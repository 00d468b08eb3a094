package units

import "boardwrap.example/internal/word"

// The text forms: AppendText and MarshalText write what String writes, exactly,
// and UnmarshalText reads it, and all else that the Parse function of the type
// reads. Reading allocates nothing for a text of up to 32 bytes.

// AppendText appends the text of [Length.String]. It never fails.
func (l Length) AppendText(dst []byte) ([]byte, error) { return Format{}.Append(dst, l), nil }

// MarshalText returns the text of [Length.String].
func (l Length) MarshalText() ([]byte, error) { return l.AppendText(nil) }

// UnmarshalText reads a length with its unit, as [Parse] does.
func (l *Length) UnmarshalText(text []byte) error { return unmarshal(l, text, Parse) }

// MarshalText returns the text of [Ruler.String], or ErrRuler for an invalid
// ruler.
func (r Ruler) MarshalText() ([]byte, error) {
	text, err := r.AppendText(nil)
	if err != nil {
		return nil, err
	}
	return text, nil
}

// UnmarshalText reads a ruler as [ParseRuler] does.
func (r *Ruler) UnmarshalText(text []byte) error { return unmarshal(r, text, ParseRuler) }

// unmarshal sets *v to what parse reads, or leaves it as it is.
func unmarshal[T any](v *T, text []byte, parse func(string) (T, error)) error {
	read, err := parse(string(text))
	if err == nil {
		*v = read
	}
	return err
}

// AppendText appends the text of [Size.String]. It never fails.
func (s Size) AppendText(dst []byte) ([]byte, error) { return Format{}.AppendSize(dst, s), nil }

// MarshalText returns the text of [Size.String].
func (s Size) MarshalText() ([]byte, error) { return s.AppendText(nil) }

// UnmarshalText reads two lengths with their unit, as [ParseSize] does.
func (s *Size) UnmarshalText(text []byte) error { return unmarshal(s, text, ParseSize) }

// AppendText appends the text of [Area.String]. It never fails.
func (a Area) AppendText(dst []byte) ([]byte, error) { return a.Append(dst), nil }

// MarshalText returns the text of [Area.String].
func (a Area) MarshalText() ([]byte, error) { return a.AppendText(nil) }

// UnmarshalText reads an area with its unit, as [ParseArea] does.
func (a *Area) UnmarshalText(text []byte) error { return unmarshal(a, text, ParseArea) }

// AppendText appends the text of [Mass.String]. It never fails.
func (m Mass) AppendText(dst []byte) ([]byte, error) { return m.Append(dst), nil }

// MarshalText returns the text of [Mass.String].
func (m Mass) MarshalText() ([]byte, error) { return m.AppendText(nil) }

// UnmarshalText reads a mass with its unit, as [ParseMass] does.
func (m *Mass) UnmarshalText(text []byte) error { return unmarshal(m, text, ParseMass) }

// AppendText appends the text of [Grammage.String]. It never fails.
func (g Grammage) AppendText(dst []byte) ([]byte, error) { return g.Append(dst), nil }

// MarshalText returns the text of [Grammage.String].
func (g Grammage) MarshalText() ([]byte, error) { return g.AppendText(nil) }

// UnmarshalText reads a grammage with its unit, as [ParseGrammage] does.
func (g *Grammage) UnmarshalText(text []byte) error { return unmarshal(g, text, ParseGrammage) }

var directions = word.List{What: "direction", Words: []string{Nearest: "nearest", Up: "up", Down: "down"}}

// String returns "nearest", "up" or "down".
func (d Direction) String() string { return directions.String(uint8(d)) }

// AppendText appends the text of [Direction.String]. The error matches
// [ErrUnknown].
func (d Direction) AppendText(dst []byte) ([]byte, error) { return directions.Append(dst, uint8(d)) }

// MarshalText returns the text of [Direction.String], with the error of
// [Direction.AppendText].
func (d Direction) MarshalText() ([]byte, error) { return directions.Marshal(uint8(d)) }

// UnmarshalText reads what [Direction.String] writes. The error matches
// [ErrSyntax].
func (d *Direction) UnmarshalText(text []byte) error { return word.Unmarshal(directions, d, text) }

var notations = word.List{What: "notation", Words: []string{MetricDecimal: "millimetres", InchFraction: "inch fractions", InchDecimal: "inch decimals"}}

// String returns "millimetres", "inch fractions" or "inch decimals".
func (n Notation) String() string { return notations.String(uint8(n)) }

// AppendText appends the text of [Notation.String]. The error matches
// [ErrUnknown].
func (n Notation) AppendText(dst []byte) ([]byte, error) { return notations.Append(dst, uint8(n)) }

// MarshalText returns the text of [Notation.String], with the error of
// [Notation.AppendText].
func (n Notation) MarshalText() ([]byte, error) { return notations.Marshal(uint8(n)) }

// UnmarshalText reads what [Notation.String] writes. The error matches
// [ErrSyntax].
func (n *Notation) UnmarshalText(text []byte) error { return word.Unmarshal(notations, n, text) }

var basicSizes = word.List{What: "basic size", Words: []string{Bond: "bond", Text: "text", Cover: "cover", Index: "index", Bristol: "bristol", Tag: "tag"}}

// String returns the name, as in "cover".
func (b BasicSize) String() string { return basicSizes.String(uint8(b)) }

// AppendText appends the text of [BasicSize.String]. The error matches
// [ErrUnknown].
func (b BasicSize) AppendText(dst []byte) ([]byte, error) { return basicSizes.Append(dst, uint8(b)) }

// MarshalText returns the text of [BasicSize.String], with the error of
// [BasicSize.AppendText].
func (b BasicSize) MarshalText() ([]byte, error) { return basicSizes.Marshal(uint8(b)) }

// UnmarshalText reads what [BasicSize.String] writes. The error matches
// [ErrSyntax].
func (b *BasicSize) UnmarshalText(text []byte) error { return word.Unmarshal(basicSizes, b, text) }
