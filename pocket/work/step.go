package work

import (
	"math/bits"
	"slices"

	"boardwrap.example/internal/word"
	"boardwrap.example/units"
)

// A Task is a kind of work, as a heading for a step.
type Task uint8

// Tasks.
const (
	TaskPrepare Task = iota // find and mark the grain
	TaskCut                 // cut pieces, windows, notches, slants and mitres
	TaskScore               // score lines
	TaskFold                // fold and crease
	TaskMark                // draw lines and marks to lay by
	TaskLay                 // lay dry, to see that it goes
	TaskGlue                // glue a piece to itself or to another, before it goes into the folio
	TaskFix                 // stick something in its place
	TaskTurnIn              // turn edges of the wrap in over the boards
	TaskDry                 // let glue dry
	TaskMeasure             // measure the open cover
	TaskRefit               // derive the inside from what was measured
	TaskFill                // put contents in
	TaskCheck               // close the folio
)

var tasks = word.List{What: "task", Words: []string{"prepare", "cut", "score", "fold", "mark", "lay", "glue", "fix", "turn in", "dry", "measure", "refit", "fill", "check"}}

// String returns the task as a verb.
func (t Task) String() string { return tasks.String(uint8(t)) }

// AppendText appends the text of [Task.String] to dst. The error matches
// units.ErrUnknown.
func (t Task) AppendText(dst []byte) ([]byte, error) { return tasks.Append(dst, uint8(t)) }

// MarshalText returns the task as String does. The error matches units.ErrUnknown.
func (t Task) MarshalText() ([]byte, error) { return tasks.Marshal(uint8(t)) }

// UnmarshalText reads what MarshalText wrote. The error matches
// units.ErrSyntax.
func (t *Task) UnmarshalText(text []byte) error { return word.Unmarshal(tasks, t, text) }

// A Step is one step of an order of work. It is plain data: whoever walks steps
// gets them to keep.
type Step struct {
	// Number counts from 1 through the whole order of work.
	Number int
	// Task is what kind of work it is.
	Task Task
	// For says which part of the folio it makes.
	For Part
	// Do is what is done, in this order. It is never empty. Of a step put together
	// elsewhere, nil is nothing to do.
	Do []Action
	// After are the numbers of the steps that must be done before, rising. A
	// step that nothing leads to can be done at any time.
	After []int
	// Ruler is the ruler that the lengths of the step were put on; 0 means that
	// they are exact.
	Ruler units.Ruler
}

// Care returns the cautions that belong to the step, each once, in the order of
// their constants. They follow from what is done, so that no step can lose
// them.
func (s Step) Care() []Care {
	taken := s.cautions()
	if taken == 0 {
		return nil
	}
	all := make([]Care, 0, bits.OnesCount8(uint8(taken)))
	for c := CareBlade; c <= CareMagnet; c++ {
		if taken.have(c) {
			all = append(all, c)
		}
	}
	return all
}

// Takes reports whether a caution belongs to the step.
func (s Step) Takes(c Care) bool { return s.cautions().have(c) }

func (s Step) cautions() cautions {
	var all cautions
	for _, a := range s.Do {
		if a != nil {
			all |= a.care()
		}
	}
	return all
}

// cautions are a set of them, a bit each.
type cautions uint8

func (all cautions) have(c Care) bool { return all>>c&1 > 0 }

// Sides says what sentences call the two sides of a piece, for whoever reads a step
// that is [Step.Sided].
const Sides = "The face of a piece is the side that lies up as it is cut, right side or wrong, either where both look alike; its back is the other."

// Sided reports whether the step's sentence speaks of the face or the back of a piece.
func (s Step) Sided() bool {
	return slices.ContainsFunc(s.Do, func(a Action) bool {
		switch a := a.(type) {
		case ScoreAt, Stick:
			return true
		case Fix:
			return !a.Lines && a.backUp()
		}
		return false
	})
}

// A Part is a part of the folio that steps make.
type Part struct {
	Kind PartKind // what it is a part of
	// Index is the fitting's place in the plan, 0 for other kinds.
	Index int
	// Name is what the maker called it, or its name in words of the trade.
	Name string
}

// A PartKind says which part of a folio is meant.
type PartKind uint8

// Kinds of part. In the order of work of a pocket by itself all is PartFitting.
const (
	PartCase     PartKind = iota // boards and what holds them
	PartWrap                     // the covering, in quarter style strips and side papers
	PartLiner                    // what lines the inside
	PartFitting                  // one of the fittings
	PartContents                 // the block, and what is put into fittings
	PartMagnets                  // magnets and their holes
)

var parts = word.List{What: "part", Words: []string{"case", "wrap", "liner", "fitting", "contents", "magnets"}}

// String returns the kind in words of the trade.
func (k PartKind) String() string { return parts.String(uint8(k)) }

// AppendText appends the text of [PartKind.String] to dst. The error matches
// units.ErrUnknown.
func (k PartKind) AppendText(dst []byte) ([]byte, error) { return parts.Append(dst, uint8(k)) }

// MarshalText returns the kind as String does. The error matches units.ErrUnknown.
func (k PartKind) MarshalText() ([]byte, error) { return parts.Marshal(uint8(k)) }

// UnmarshalText reads what MarshalText wrote. The error matches
// units.ErrSyntax.
func (k *PartKind) UnmarshalText(text []byte) error { return word.Unmarshal(parts, k, text) }

// A Care is a caution that goes with a step. They are the usual ones and no
// substitute for the tools' manuals and the rules that hold where the work is
// done.
type Care uint8

// Cautions.
const (
	CareBlade  Care = iota // HSE, Information sheet PPS12, on hand knives; OSHA letter of 30 June 1976 on trimmers
	CareGlue               // common practice, no published source
	CareMagnet             // 16 CFR 1262
)

var cares = word.List{What: "caution", Words: []string{"blade", "glue", "magnet"}}

// String returns the caution in one word.
func (c Care) String() string { return cares.String(uint8(c)) }

// AppendText appends the text of [Care.String] to dst. The error matches
// units.ErrUnknown.
func (c Care) AppendText(dst []byte) ([]byte, error) { return cares.Append(dst, uint8(c)) }

// MarshalText returns the caution as String does. The error matches units.ErrUnknown.
func (c Care) MarshalText() ([]byte, error) { return cares.Marshal(uint8(c)) }

// UnmarshalText reads what MarshalText wrote. The error matches
// units.ErrSyntax.
func (c *Care) UnmarshalText(text []byte) error { return word.Unmarshal(cares, c, text) }

// Text returns the caution as it is to be read before the work.
func (c Care) Text() string {
	switch c {
	case CareBlade:
		return "Blade: metal straightedge, many light passes, a sharp blade, away from the holding hand; put it away when idle; a trimmer's barrier and latch in use. Your own judgement, the tool's manual and local rules come first."
	case CareGlue:
		return "Glue: follow its label; spray glue only where the air is changed, and away from flames. Local rules come first."
	case CareMagnet:
		return "Magnets: small strong magnets are dangerous when swallowed and must not come loose: sink them in the board, cover them with wrap or liner, and keep them from children and from anyone with a pacemaker. If one is swallowed, get medical help at once. Local rules come first."
	}
	return ""
}
