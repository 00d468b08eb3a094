// Package units holds exact lengths and what a maker does with them: reading
// a ruler, rounding on it, writing a size down, dividing it into equal parts.
//
// # Lengths
//
// A [Length] counts nanometres in an int64 and is used as a time.Duration is:
//
//	liner := 5*units.Inch + 3*units.Inch/4 // 5 3/4 in, exactly
//	board := 2 * units.Millimetre
//
// One inch is 25.4 mm exactly (NIST SP 811, appendix B), that is 25,400,000
// nm, so every binary fraction of an inch down to 1/64, every thousandth of
// an inch and every micrometre is a whole number of nanometres. Adding,
// subtracting and multiplying by whole numbers is therefore exact. To count
// whole units, divide; to convert a number to a Length, multiply:
//
//	n := int64(l / units.Millimetre) // whole millimetres, truncated
//	l := 7 * units.Millimetre
//
// Floating point only leaves ([Length.Inches], [Length.Millimetres], for
// drawing) or enters through constructors that round to the nearest nanometre
// and refuse what is not a number ([Inches], [Millimetres], [Of]).
//
// # Rulers
//
// A [Ruler] is a graduation: eighths of an inch, whole millimetres, any step.
// Rounding on a ruler gives a [Rounded], which remembers the exact length and
// says whether anything was lost. A [Format] writes a length on a ruler and
// marks a text that is not exact.
//
// # Texts
//
// Lengths, sizes, areas, masses, grammages, rulers and the small enumerations
// have a text form: String, AppendText and MarshalText write it, exactly, and
// UnmarshalText reads it back to the same value, as the Parse function of the
// type does ([Parse], [ParseSize], [ParseArea], [ParseMass], [ParseGrammage],
// [ParseRuler]). Those functions read more than is written: what people write.
//
// # Working
//
// A [Working] is a sum with its terms and its rounding, so that a size can
// show how it came about; it prints as one line.
//
// # Conventions
//
// Lengths, sizes, rectangles, areas, masses and rulers are small values that
// may be compared with ==. Reading, rounding and appending allocate nothing,
// but for an error and for an UnmarshalText of more than 32 bytes; a function
// that returns a string or a slice allocates that.
// Nothing here prints, reads files or keeps state, and only the functions
// named Must panic.
package units
