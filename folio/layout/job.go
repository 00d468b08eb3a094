package layout

import (
	"slices"

	"boardwrap.example/folio"
	"boardwrap.example/folio/stock"
	"boardwrap.example/internal/word"
	"boardwrap.example/units"
	"boardwrap.example/units/money"
)

// A Job is what is to be cut, from what, and with what. It is plain data.
type Job struct {
	// Folios are the folios to be made, each with a number of copies.
	Folios []Folio
	// Pieces are further pieces, given by hand.
	Pieces []LoosePiece
	// Materials are the sheets to cut from. [MaterialsOf] lists those that
	// plans name.
	Materials []Material
	// Except names materials that are not laid out: bought cut to size, or
	// off a roll. Their pieces are left out of everything.
	Except []string
	// Cutter is what cuts where a material does not name another.
	Cutter Cutter
	// Keep is the smallest leftover worth keeping.
	Keep Keep
	// Ruler decides how lengths are written; the zero Ruler means the main
	// ruler of the first plan or, with no plan, millimetres. Nothing is rounded
	// on it.
	Ruler units.Ruler
}

// A Folio is a plan and how many are made of it.
type Folio struct {
	// Name tells it apart in print; empty means the title of its Spec.
	Name string
	// Plan is how each is built. Of one that was refitted to its cover as measured
	// only what is not in the cover is cut: that is made already.
	Plan *folio.Plan
	// Copies is how many are made, or NoCopies. 0 makes none and gives a
	// warning, for it may have been forgotten.
	Copies int
}

// NoCopies as [Folio.Copies] and [LoosePiece.Quantity] says that none are made.
const NoCopies = -1

// A LoosePiece is something to be cut that belongs to no plan.
type LoosePiece struct {
	// Name says what it is.
	Name string
	// Material is the name of the Material that it is cut from.
	Material string
	// Size is as the piece lies while it is built: width across, height along
	// the spine, each above 0.
	Size units.Size
	// Quantity is how many are wanted, or NoCopies. 0 is none, with a warning.
	Quantity int
	// Grain is how the grain must run in it; the default is along its height.
	Grain stock.GrainRule
	// Turn is how its pattern may lie on the sheet.
	Turn TurnRule
}

// TurnRule is how a piece may be turned on its sheet for the sake of its pattern.
type TurnRule uint8

// Rules of turning. A half turn moves no edge of a rectangle, so HalfTurn and NoTurn
// give the same layouts; the order of work tells which of them it is.
const (
	QuarterTurn TurnRule = iota // any way round: no pattern, or one without direction
	HalfTurn                    // upright or upside down: stripes, a pattern without up and down
	NoTurn                      // upright only: a one-way pattern
	turnEnd
)

var turns = word.List{What: "turn", Words: []string{QuarterTurn: "any way round", HalfTurn: "half turns only", NoTurn: "upright only"}}

// String returns "any way round", "half turns only" or "upright only".
func (t TurnRule) String() string { return turns.String(uint8(t)) }

// AppendText appends the text of [TurnRule.String]. The error matches
// units.ErrUnknown.
func (t TurnRule) AppendText(dst []byte) ([]byte, error) { return turns.Append(dst, uint8(t)) }

// MarshalText returns the text of [TurnRule.String], with the error of
// [TurnRule.AppendText].
func (t TurnRule) MarshalText() ([]byte, error) { return turns.Marshal(uint8(t)) }

// UnmarshalText reads what [TurnRule.String] writes. The error matches
// units.ErrSyntax.
func (t *TurnRule) UnmarshalText(text []byte) error { return word.Unmarshal(turns, t, text) }

// A Material is a stock by the name that pieces use, and the sheets there are
// of it.
type Material struct {
	// Name is that which pieces use.
	Name string
	// Sheets are the kinds of sheet there are of it.
	Sheets []SheetKind
	// Caliper is how thick a sheet is; 0 where it is not known, and then
	// nothing of it is cut in a stack.
	Caliper units.Length
	// Cutter is what cuts this material; the zero Cutter means that of the
	// Job. In it LongestCut of units.None is no limit.
	Cutter Cutter
}

// Unlimited as [SheetKind].Count says that as many can be had as are needed.
const Unlimited = -1

// A SheetKind is a size of sheet of a material.
type SheetKind struct {
	// Size is as the sheet is listed, its pattern upright; both sides above 0.
	Size units.Size
	// Grain is along the width or along the height of Size, or not known.
	Grain stock.SheetGrain
	// Count is how many there are, or Unlimited; 0 is none.
	Count int
	// Price of one sheet. What was paid long ago, as for an offcut, may be
	// left at zero.
	Price money.Amount
	// Offcut marks what is at hand anyway: it does not count as a sheet and
	// is used up where that saves one.
	Offcut bool
	// Trim is taken off each edge, for sheets whose edges are not square or
	// not clean; 0 takes nothing off.
	Trim units.Length
}

// A Cutter is a trimmer, a guillotine, or a knife along a straightedge.
type Cutter struct {
	// Kerf is what a cut takes away: 0 for a blade.
	Kerf units.Length
	// LongestCut is the longest cut it makes; 0 and units.None are no limit.
	LongestCut units.Length
	// Stack is the thickest stack that it may cut, as its manual says; 0 is for
	// one that cuts sheet by sheet. Parts that are cut alike then lie under the
	// blade together, as many as the material's Caliper lets.
	Stack units.Length
}

// Keep is the least short and long side of a leftover that is worth keeping.
// The zero Keep means 1 in by 3 in, or 25 by 75 mm where the layout is written in
// millimetres (common practice, no published source).
type Keep struct {
	Short, Long units.Length // 0 beside another that is set means any length
}

func (k Keep) withDefaults(n units.Notation) Keep {
	if k == (Keep{}) {
		return Keep{n.Choose(units.Inch, 25*units.Millimetre), n.Choose(3*units.Inch, 75*units.Millimetre)}
	}
	return k
}

// One returns the job of a single copy of one folio: its other folios and the
// pieces by hand are left out, offcuts too, and nothing that is bought is
// limited. It is what that folio takes when it is made alone. An index out of
// range gives a job of no copies.
func (j Job) One(folio int) Job {
	j = j.clone()
	j.Pieces = nil
	for i := range j.Folios {
		j.Folios[i].Copies = NoCopies
		if i == folio {
			j.Folios[i].Copies = 1
		}
	}
	for i := range j.Materials {
		m := &j.Materials[i]
		m.Sheets = slices.DeleteFunc(m.Sheets, func(k SheetKind) bool { return k.Offcut })
		for k := range m.Sheets {
			if m.Sheets[k].Count > 0 {
				m.Sheets[k].Count = Unlimited
			}
		}
	}
	return j
}

// More returns the job with n more copies of one folio; a negative n takes
// away, down to none. An index out of range changes nothing, and neither does
// a number beyond [MostPieces].
func (j Job) More(folio, n int) Job {
	j = j.clone()
	if folio >= 0 && folio < len(j.Folios) {
		f := &j.Folios[folio]
		switch sum := int64(max(f.Copies, 0)) + int64(n); {
		case sum <= 0:
			f.Copies = NoCopies
		case sum <= MostPieces:
			f.Copies = int(sum)
		}
	}
	return j
}

func (j Job) clone() Job {
	j.Folios = slices.Clone(j.Folios)
	j.Pieces = slices.Clone(j.Pieces)
	j.Except = slices.Clone(j.Except)
	j.Materials = slices.Clone(j.Materials)
	for i := range j.Materials {
		j.Materials[i].Sheets = slices.Clone(j.Materials[i].Sheets)
	}
	return j
}

// cutter returns what cuts a material.
func (j Job) cutter(m Material) Cutter {
	c := m.Cutter
	if c == (Cutter{}) {
		c = j.Cutter
	}
	if c.LongestCut == units.None {
		c.LongestCut = 0
	}
	return c
}
