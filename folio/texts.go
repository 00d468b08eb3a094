package folio

import "boardwrap.example/internal/word"

// An option is one of the enumerations of the Spec. Its values are written as
// their String and read back by it.
type option interface {
	~uint8
	String() string
}

// appendWord writes a value below end.
func appendWord[E option](dst []byte, v, end E, what string) ([]byte, error) {
	if v >= end {
		return words(end, what).Append(dst, uint8(v)) // which says what is wrong
	}
	return append(dst, v.String()...), nil
}

// unmarshal reads the text of a value below end.
func unmarshal[E option](v *E, end E, what string, text []byte) error {
	return word.Unmarshal(words(end, what), v, text)
}

// oneOf says which values below end would do.
func oneOf[E option](end E) string { return words(end, "").Want() }

// words lists the texts of all values below end.
func words[E option](end E, what string) word.List {
	l := word.List{What: what, Words: make([]string, end)}
	for v := range end {
		l.Words[v] = v.String()
	}
	return l
}

// AppendText appends the text of [Form.String]. The error matches
// units.ErrUnknown.
func (f Form) AppendText(dst []byte) ([]byte, error) { return appendWord(dst, f, formEnd, "form") }

// MarshalText returns the text of [Form.String], with the error of
// [Form.AppendText].
func (f Form) MarshalText() ([]byte, error) { return f.AppendText(nil) }

// UnmarshalText reads what [Form.String] writes. The error matches
// units.ErrSyntax.
func (f *Form) UnmarshalText(text []byte) error { return unmarshal(f, formEnd, "form", text) }

// AppendText appends the text of [Role.String]. The error matches
// units.ErrUnknown.
func (r Role) AppendText(dst []byte) ([]byte, error) { return appendWord(dst, r, roleEnd, "board") }

// MarshalText returns the text of [Role.String], with the error of
// [Role.AppendText].
func (r Role) MarshalText() ([]byte, error) { return r.AppendText(nil) }

// UnmarshalText reads what [Role.String] writes. The error matches
// units.ErrSyntax.
func (r *Role) UnmarshalText(text []byte) error { return unmarshal(r, roleEnd, "board", text) }

// AppendText appends the text of [HingeRule.String]. The error matches
// units.ErrUnknown.
func (r HingeRule) AppendText(dst []byte) ([]byte, error) {
	return appendWord(dst, r, hingeEnd, "hinge rule")
}

// MarshalText returns the text of [HingeRule.String], with the error of
// [HingeRule.AppendText].
func (r HingeRule) MarshalText() ([]byte, error) { return r.AppendText(nil) }

// UnmarshalText reads what [HingeRule.String] writes. The error matches
// units.ErrSyntax.
func (r *HingeRule) UnmarshalText(text []byte) error {
	return unmarshal(r, hingeEnd, "hinge rule", text)
}

// AppendText appends the text of [Crease.String]. The error matches
// units.ErrUnknown.
func (c Crease) AppendText(dst []byte) ([]byte, error) {
	return appendWord(dst, c, creaseEnd, "crease")
}

// MarshalText returns the text of [Crease.String], with the error of
// [Crease.AppendText].
func (c Crease) MarshalText() ([]byte, error) { return c.AppendText(nil) }

// UnmarshalText reads what [Crease.String] writes. The error matches
// units.ErrSyntax.
func (c *Crease) UnmarshalText(text []byte) error { return unmarshal(c, creaseEnd, "crease", text) }

// AppendText appends the text of [MitreRule.String]. The error matches
// units.ErrUnknown.
func (r MitreRule) AppendText(dst []byte) ([]byte, error) {
	return appendWord(dst, r, mitreEnd, "mitre rule")
}

// MarshalText returns the text of [MitreRule.String], with the error of
// [MitreRule.AppendText].
func (r MitreRule) MarshalText() ([]byte, error) { return r.AppendText(nil) }

// UnmarshalText reads what [MitreRule.String] writes. The error matches
// units.ErrSyntax.
func (r *MitreRule) UnmarshalText(text []byte) error {
	return unmarshal(r, mitreEnd, "mitre rule", text)
}

// AppendText appends the text of [MarginRule.String]. The error matches
// units.ErrUnknown.
func (r MarginRule) AppendText(dst []byte) ([]byte, error) {
	return appendWord(dst, r, marginEnd, "margin rule")
}

// MarshalText returns the text of [MarginRule.String], with the error of
// [MarginRule.AppendText].
func (r MarginRule) MarshalText() ([]byte, error) { return r.AppendText(nil) }

// UnmarshalText reads what [MarginRule.String] writes. The error matches
// units.ErrSyntax.
func (r *MarginRule) UnmarshalText(text []byte) error {
	return unmarshal(r, marginEnd, "margin rule", text)
}

// AppendText appends the text of [LiningRule.String]. The error matches
// units.ErrUnknown.
func (r LiningRule) AppendText(dst []byte) ([]byte, error) {
	return appendWord(dst, r, liningEnd, "lining rule")
}

// MarshalText returns the text of [LiningRule.String], with the error of
// [LiningRule.AppendText].
func (r LiningRule) MarshalText() ([]byte, error) { return r.AppendText(nil) }

// UnmarshalText reads what [LiningRule.String] writes. The error matches
// units.ErrSyntax.
func (r *LiningRule) UnmarshalText(text []byte) error {
	return unmarshal(r, liningEnd, "lining rule", text)
}

// AppendText appends the text of [Turning.String]. The error matches
// units.ErrUnknown.
func (t Turning) AppendText(dst []byte) ([]byte, error) {
	return appendWord(dst, t, SidesFirst+1, "order of turning in")
}

// MarshalText returns the text of [Turning.String], with the error of
// [Turning.AppendText].
func (t Turning) MarshalText() ([]byte, error) { return t.AppendText(nil) }

// UnmarshalText reads what [Turning.String] writes. The error matches
// units.ErrSyntax.
func (t *Turning) UnmarshalText(text []byte) error {
	return unmarshal(t, SidesFirst+1, "order of turning in", text)
}

// AppendText appends the text of [QuarterRule.String]. The error matches
// units.ErrUnknown.
func (r QuarterRule) AppendText(dst []byte) ([]byte, error) {
	return appendWord(dst, r, quarterEnd, "quarter rule")
}

// MarshalText returns the text of [QuarterRule.String], with the error of
// [QuarterRule.AppendText].
func (r QuarterRule) MarshalText() ([]byte, error) { return r.AppendText(nil) }

// UnmarshalText reads what [QuarterRule.String] writes. The error matches
// units.ErrSyntax.
func (r *QuarterRule) UnmarshalText(text []byte) error {
	return unmarshal(r, quarterEnd, "quarter rule", text)
}

// AppendText appends the text of [SpineRule.String]. The error matches
// units.ErrUnknown.
func (r SpineRule) AppendText(dst []byte) ([]byte, error) {
	return appendWord(dst, r, spineEnd, "spine rule")
}

// MarshalText returns the text of [SpineRule.String], with the error of
// [SpineRule.AppendText].
func (r SpineRule) MarshalText() ([]byte, error) { return r.AppendText(nil) }

// UnmarshalText reads what [SpineRule.String] writes. The error matches
// units.ErrSyntax.
func (r *SpineRule) UnmarshalText(text []byte) error {
	return unmarshal(r, spineEnd, "spine rule", text)
}

// AppendText appends the text of [SheetGrain.String]. The error matches
// units.ErrUnknown.
func (g SheetGrain) AppendText(dst []byte) ([]byte, error) {
	return appendWord(dst, g, GrainAlongHeight+1, "direction of the grain")
}

// MarshalText returns the text of [SheetGrain.String], with the error of
// [SheetGrain.AppendText].
func (g SheetGrain) MarshalText() ([]byte, error) { return g.AppendText(nil) }

// UnmarshalText reads what [SheetGrain.String] writes. The error matches
// units.ErrSyntax.
func (g *SheetGrain) UnmarshalText(text []byte) error {
	return unmarshal(g, GrainAlongHeight+1, "direction of the grain", text)
}

// AppendText appends the text of [GrainRule.String]. The error matches
// units.ErrUnknown.
func (g GrainRule) AppendText(dst []byte) ([]byte, error) {
	return appendWord(dst, g, GrainAny+1, "grain rule")
}

// MarshalText returns the text of [GrainRule.String], with the error of
// [GrainRule.AppendText].
func (g GrainRule) MarshalText() ([]byte, error) { return g.AppendText(nil) }

// UnmarshalText reads what [GrainRule.String] writes. The error matches
// units.ErrSyntax.
func (g *GrainRule) UnmarshalText(text []byte) error {
	return unmarshal(g, GrainAny+1, "grain rule", text)
}

// AppendText appends the text of [Limit.String]. The error matches
// units.ErrUnknown.
func (l Limit) AppendText(dst []byte) ([]byte, error) {
	return appendWord(dst, l, LimitSheet+1, "limit")
}

// MarshalText returns the text of [Limit.String], with the error of
// [Limit.AppendText].
func (l Limit) MarshalText() ([]byte, error) { return l.AppendText(nil) }

// UnmarshalText reads what [Limit.String] writes. The error matches
// units.ErrSyntax.
func (l *Limit) UnmarshalText(text []byte) error { return unmarshal(l, LimitSheet+1, "limit", text) }
