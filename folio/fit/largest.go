package fit

import (
	"boardwrap.example/score"
	"errors"

	"boardwrap.example/folio"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Most is the largest folio that comes out of the sheets at hand, with the
// proof: why one step of the ruler more does not.
type Most struct {
	plan   *folio.Plan
	larger error
}

// Plan returns the largest folio.
func (m Most) Plan() *folio.Plan { return m.plan }

// Proof returns why a cover that is one step of the ruler wider, at the same
// proportions, does not come out of the sheets.
func (m Most) Proof() error { return m.larger }

// Largest searches for the largest folio whose case comes out of the sheets of
// the Spec, its cover at the given proportions: the width is on the ruler of
// boards, the height is the nearest on it. Of the proportions only the ratio of the
// sides counts. Cover does not count; spine, rules
// and fittings are kept. The error is that of the Stopper, or a *[check.Error]:
// for a Spec without sheets, which set no limit, and for what else is wrong with
// the largest folio, as fittings that are too large for it.
func Largest(until score.Stopper, s folio.Spec, proportions units.Size) (Most, error) {
	var bad check.List
	bad.Size("proportions", proportions)
	noBlock(&bad, s)
	full := s.WithDefaults()
	if len(full.Board.Sheets) == 0 && len(full.Covering.Sheets) == 0 && len(full.Liner.Sheets) == 0 {
		bad.Malformed("covering.sheets", check.Missing, "no sheets of board, covering or liner", "the sheets at hand: without them there is no largest folio")
	}
	ruler := full.Rulers.Board
	soundRuler(&bad, ruler)
	if err := bad.Err(); err != nil {
		return Most{}, err
	}
	step := ruler.Step()
	at := func(n int64) folio.Spec {
		out := s
		w, _ := step.Times(n)
		out.Cover = units.Size{W: w, H: scaled(w, proportions.H.Nanometres(), proportions.W.Nanometres(), ruler)}
		return out
	}
	// A larger case needs larger sheets, so the limit is found by halving.
	comesOut := func(n int64) bool {
		spec := at(n)
		if spec.Cover.H > units.Longest {
			return false
		}
		spec.Fittings = nil
		_, err := folio.Build(spec)
		e, ok := errors.AsType[*check.Error](err)
		if !ok {
			return true
		}
		_, small := e.Find("", folio.SheetSmall)
		_, wide := e.Find("cover.w", check.TooLarge)
		_, tall := e.Find("cover.h", check.TooLarge)
		return !small && !wide && !tall
	}
	m := newMeter(until, Budget{})
	low, high := int64(1), units.Longest.Nanometres()/step.Nanometres() // of which no row is
	for high-low > 1 {
		if err := m.until.Err(); err != nil {
			return Most{}, err
		}
		if mid := (low + high) / 2; comesOut(mid) {
			low = mid
		} else {
			high = mid
		}
	}
	plan, err := folio.Build(at(low))
	if err != nil {
		return Most{}, err
	}
	_, larger := plan.Again(at(high))
	return Most{plan, larger}, nil
}

// noBlock refuses a block where the cover is searched for.
func noBlock(bad *check.List, s folio.Spec) {
	if s.Block.Page != (units.Size{}) {
		bad.Malformed("block.page", check.Conflict, "a block", "no block: the cover round a block is worked out from it")
	}
}

// soundRuler refuses a ruler that a search cannot step along.
func soundRuler(bad *check.List, r units.Ruler) {
	if !r.Valid() || r.Step() > units.Metre {
		bad.Malformed("rulers.board", check.Unknown, "no such ruler", "one of the rulers of package units, with a step of up to 1 m")
	}
}
