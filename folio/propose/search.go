package propose

import (
	"slices"
	"strconv"

	"boardwrap.example/internal/stop"
	"boardwrap.example/score"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// Folios searches for the folios that hold what a request asks for: for each aim
// the best one, of the form with which it is best, or why there is none.
//
// The error is a *[check.Error] of what is wrong with the request, paths as in
// the Request, or that of the Stopper where it ended the search before there was
// any folio; a nil one never ends. A folio that cannot be, because a thing is too large or a limit too
// narrow, is no error: [Proposals.Unmet] says why. Nor is one of several forms in
// which no case can be built: [Proposal.OtherForms] says why.
func Folios(until score.Stopper, r Request, b Budget) (*Proposals, error) {
	var bad check.List
	if b.Steps < 0 {
		bad.Malformed("budget.steps", check.Negative, strconv.FormatInt(b.Steps, 10), "0 for the default, or more")
	}
	r.check(&bad)
	if err := bad.Err(); err != nil {
		return nil, err
	}
	until = stop.Of(until)
	trials, err := tried(until, &r, b)
	if err != nil {
		return nil, err
	}
	out := &Proposals{forms: len(trials)}
	for _, t := range trials {
		if t.err == nil {
			out.notation, out.steps = t.notation, out.steps+t.steps
		}
	}
	for aim := Aim(0); aim < aims; aim++ {
		if p, lacking := choose(aim, trials); p != nil {
			out.list = append(out.list, *p)
		} else {
			out.lacking = append(out.lacking, lacking)
		}
	}
	if err := until.Err(); err != nil && len(out.list) == 0 {
		return nil, err
	}
	return out, nil
}

// tried searches for folios of each form. The error is of cases none of which can
// be built.
func tried(until score.Stopper, r *Request, b Budget) ([]*trial, error) {
	if b.Steps == 0 {
		b.Steps = DefaultSteps
	}
	requests, forms := r.among()
	b.Steps /= int64(len(requests))
	trials := make([]*trial, len(requests))
	some := false
	for i := range requests {
		at := ""
		if len(r.Forms) > 0 {
			at = check.Index("forms", i)
		}
		trials[i] = begun(until, requests[i], forms[i], i, at, b)
		some = some || trials[i].err == nil
	}
	if !some {
		return nil, allWrong(trials)
	}
	for _, t := range trials {
		switch {
		case t.err != nil:
		case until.Err() != nil: // what one more form comes to nobody waits for
			for aim := range t.got {
				t.got[aim].why = []Reason{ofAll(Reason{Cause: NotTried})}
			}
		default:
			t.search(until)
		}
	}
	return trials, nil
}

// search searches for the best folio of the form for each aim.
func (t *trial) search(until score.Stopper) {
	for i := range t.request.Things {
		t.options(i)
	}
	for aim := Aim(0); aim < aims; aim++ {
		t.meter = &meter{until: until, left: t.share}
		got := t.propose(aim)
		if got.proposal == nil && t.meets && t.least == (units.Size{}) {
			t.grow()
			got = t.propose(aim)
		}
		// What has a smallest folio has one for any aim, but with everything in view.
		if got.proposal == nil && (aim == Smallest || aim == AllInView) && t.takeSpare() {
			got = t.propose(aim)
		}
		if got.proposal != nil {
			got.proposal.form, got.proposal.index = t.form, t.index
		} else if aim != AllInView && aim != Smallest { // what has a folio has a smallest one
			got.complete = t.got[Smallest].complete && t.got[Smallest].proposal == nil || t.noSheets(aim)
		}
		t.got[aim], t.steps = got, t.steps+t.done
	}
	for aim := Aim(0); aim < aims; aim++ {
		t.keep(aim)
	}
}

// keep gives an aim, of which the search ended early, what was found for others
// where that is better than its own, or all that there is.
func (t *trial) keep(aim Aim) {
	got := t.got[aim]
	if got.complete {
		return
	}
	best := got.proposal
	for other := range t.got {
		p := t.got[other].proposal
		if p != nil && t.serves(p, aim) && (best == nil || aim.order(p, best) < 0) {
			best = p
		}
	}
	if best == got.proposal {
		return
	}
	t.meter = &meter{until: t.until}
	q := t.quest(aim)
	q.usableAll(units.Longest)
	f := *best.found // whose reasons are another's
	q.best, q.least, q.low, q.complete = &f, got.least, got.low, false
	kept := q.told()
	kept.proposal.form, kept.proposal.index = t.form, t.index
	t.got[aim], t.steps = kept, t.steps+t.done
}

// serves reports whether a folio that was found for another aim does for this one.
func (t *trial) serves(p *Proposal, aim Aim) bool {
	if aim == FewestSheets {
		return p.found.counted
	}
	return aim != AllInView || !slices.ContainsFunc(p.found.held, func(h Held) bool {
		return !h.Way.InView() && t.request.Things[h.Thing].Sight != TuckedAway
	})
}

// noSheets reports whether sheets are to be counted and there are none.
func (s *searcher) noSheets(aim Aim) bool { return aim == FewestSheets && !s.anySheets() }
