package layout

import (
	"strconv"
	"strings"

	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Codes of violations, besides those of package check.
const (
	SheetSmall check.Code = "sheet-small" // no sheet is large enough for the piece
	CutShort   check.Code = "cut-short"   // the cutter cannot cut the piece out of any sheet
	GrainCross check.Code = "grain-cross" // grain and pattern contradict each other on every sheet
	NotEnough  check.Code = "not-enough"  // there are too few sheets; where pieces come out of offcuts only, how many would do is advice
)

// Codes of warnings.
const (
	WarnGrain   check.Code = "grain-unknown" // the grain of a sheet must be found first
	WarnLeftOut check.Code = "sheet-unused"  // a sheet is left out because grain and pattern contradict each other
	WarnStopped check.Code = "stopped"       // the search was cut short
	WarnNone    check.Code = "none-wanted"   // none of a folio or a piece is wanted, which may be a slip
)

// Limits on a Job, so that no input takes unbounded time or memory.
const (
	// MostPieces is the greatest number of pieces, all copies counted.
	MostPieces = 100_000
	// MostKinds is the greatest number of different pieces in a job, and of
	// folios, of materials, and of kinds of sheet of one material.
	MostKinds = 10_000
	// MostSheetKinds is the greatest number of kinds of sheet of all materials
	// together.
	MostSheetKinds = 100_000
)

//go:noinline
func count(n int) string { return strconv.Itoa(n) }

func number(n int64) string { return strconv.FormatInt(n, 10) }

// sizeText writes a size with its unit once, as in "6 x 8 in", unless
// one side can only be written in another unit.
func sizeText(n units.Notation, s units.Size) string {
	w, h := n.Text(s.W), n.Text(s.H)
	w, _ = strings.CutSuffix(w, h[strings.LastIndexByte(h, ' '):])
	return w + " x " + h
}

// length returns n nanometres; every n of a layout is a length of the job.
func length(n int64) units.Length {
	l, _ := units.Of(n, units.Nanometre)
	return l
}

func plural(n int, what string) string {
	if n == 1 {
		return count(n) + " " + what
	}
	return count(n) + " " + what + "s"
}
