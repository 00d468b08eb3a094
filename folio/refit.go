package folio

import (
	"slices"

	"boardwrap.example/folio/refit"
)

// Refit derives every inside piece again from the cover as measured.
//
// What is made is a fact: boards, gaps and wrap stay as they are. Of what the
// cover measures more than planned, as much as the covering's caliper belongs to
// each outer edge; the rest is in the gaps, shared out equally, and in the height
// of the boards. What is off by more than 1/16 in, or 2 mm where plans are metric,
// is warned about. What is off by more than 1/4 in, or 6 mm, is an error, as another
// cover must have been measured (common practice, no published source). Height, and
// panels if they are given, may each be off by that; the width by that for each gap,
// over Spec.Placing for each.
//
// Sizes by relation follow the panels as measured. A fitting of the same size that
// the measure moves by no more than hands place it, which is the covering at an edge
// and a step of the rulers of liner and fittings, stays where it was planned. What has a size of its own and
// no longer fits inside is an error that says by how much; package fit tells from
// it which fittings, and contents, these are. Errors are an
// *[check.Error] with paths of the Spec or of Measured ("measured.width"). The
// plan itself is not changed. Refitting with the nominal size of the plan gives
// the same plan. [Plan.Changes] tells what a refit changed.
func (p *Plan) Refit(m refit.Measured) (*Plan, error) {
	if p == nil {
		return nil, noPlan()
	}
	m.Panels = slices.Clone(m.Panels)
	planned := p
	if p.planned != nil {
		planned = p.planned
	}
	if len(planned.boards) == 0 { // the zero Plan, of a Spec that is refused
		return Build(planned.spec)
	}
	b := newBuilder(len(planned.fitted))
	b.spec, b.planned, b.before, b.nomW, b.nomH = &planned.spec, planned, planned, planned.openW, planned.openH
	b.bad.In(b.notation())
	if !b.sound(&m) {
		return nil, b.bad.Err()
	}
	if b.nominal(&m) {
		q := *planned
		q.planned, q.measured = planned, &m
		return &q, nil
	}
	b.plan = &Plan{
		spec: planned.spec, nones: planned.nones, spineGiven: planned.spineGiven,
		planned: planned, measured: &m, ofCase: planned.ofCase, shape: planned.shape, folded: planned.folded,
		boards: slices.Clone(planned.boards), gaps: slices.Clone(planned.gaps), wrap: planned.wrap, stiff: planned.stiff,
		madeW: planned.madeW, madeH: planned.madeH,
		pieces:   firstOf(planned.pieces, int(planned.ofCase.pieces), 0),
		workings: firstOf(planned.workings, int(planned.ofCase.workings), 4),
		warnings: firstOf(planned.warnings, int(planned.ofCase.warnings), 0),
	}
	b.ledger.Reserve(24 + termsOfOne*len(planned.fitted))
	b.measure(&m)
	if b.bad.Len() == 0 {
		b.fill()
	}
	if b.bad.Len() == 0 {
		b.closes()
		b.magnetsAsMade()
	}
	if err := b.wrong(); err != nil {
		return nil, err
	}
	return b.plan, nil
}

// firstOf copies the first n of a list, with room for as many as there were, and
// some more.
func firstOf[T any](list []T, n, more int) []T {
	return append(make([]T, 0, len(list)+more), list[:n]...)
}
