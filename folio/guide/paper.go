package guide

import (
	"boardwrap.example/internal/word"
	"boardwrap.example/units"
)

// A PaperSize is the paper that a document is printed on.
type PaperSize uint8

// Sizes of paper.
const (
	// AnyPaper leaves it to the printer: A4 and letter both do.
	AnyPaper PaperSize = iota
	A4                 // 210 x 297 mm (ISO 216)
	Letter             // 8 1/2 x 11 in (ANSI/ASME Y14.1)
)

var papers = word.List{What: "paper", Words: []string{"any", "A4", "letter"}}

// String returns "any", "A4" or "letter".
func (p PaperSize) String() string { return papers.String(uint8(p)) }

// AppendText appends the text of [PaperSize.String]. The error matches
// units.ErrUnknown.
func (p PaperSize) AppendText(dst []byte) ([]byte, error) { return papers.Append(dst, uint8(p)) }

// MarshalText returns the text of [PaperSize.String], with the error of
// [PaperSize.AppendText].
func (p PaperSize) MarshalText() ([]byte, error) { return papers.Marshal(uint8(p)) }

// UnmarshalText reads what [PaperSize.String] writes. The error matches
// units.ErrSyntax.
func (p *PaperSize) UnmarshalText(text []byte) error { return word.Unmarshal(papers, p, text) }

// Size returns the sheet upright; of AnyPaper it is what A4 and letter have in
// common.
func (p PaperSize) Size() units.Size {
	a4 := units.Size{W: 210 * units.Millimetre, H: 297 * units.Millimetre}
	letter := units.Size{W: 17 * units.Inch / 2, H: 11 * units.Inch}
	switch p {
	case A4:
		return a4
	case Letter:
		return letter
	}
	return units.Size{W: a4.W, H: letter.H} // A4 is narrower, letter lower
}

// margin is left free round a page: more than printers at home cannot reach,
// which 10 mm keeps clear of (common practice, no published source).
const margin = 15 * units.Millimetre
