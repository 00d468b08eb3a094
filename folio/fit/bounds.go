package fit

import (
	"slices"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/folio/rule"
	"boardwrap.example/units"
)

// least returns a cover that nothing smaller than can do: it holds each
// fitting on its own whose size does not follow from it.
func (q *seeker) least(p *folio.Plan) units.Size {
	spec := p.Spec()
	inside := 2 * (spec.Lining.Inset + spec.Clearance)
	side := max(units.Shortest, 2*spec.Lining.Inset+1)
	low := units.Size{W: units.Shortest, H: side}
	if spec.Lining.Rule == rule.LiningPanels { // else the liner goes on beyond the board
		low.W = side
	}
	for f := range p.Fittings() {
		if _, stands := f.StandsOn(); stands || f.Index() >= len(q.given.Fittings) || follows(q.given.Fittings[f.Index()]) {
			continue
		}
		need := f.Rect().Size()
		if !f.Outside() {
			need = need.Plus(inside, inside)
		} else {
			need = need.Plus(2*spec.Clearance, 2*spec.Clearance)
		}
		low.W = max(low.W, coverFor(spec, f.Panel(), need.W))
		low.H = max(low.H, need.H)
	}
	return units.Size{W: q.ruler.Up(low.W), H: q.ruler.Up(low.H)}
}

// follows reports whether the size of a fitting follows another one: as a rule the
// cover or the spine, so that it says nothing of how small they can be.
func follows(f folio.Fitting) bool { return f.StandsOn == "" && !f.Size.Empty() }

// rowOf returns the boards of the row of a Spec.
func rowOf(s folio.Spec) []boards.Board {
	if s.Row.Given() {
		return s.Row.Boards
	}
	return s.Form.Row().Boards
}

// goesRound reports whether each joint of a row without a standing board goes round
// what the Spec says lies between.
func goesRound(s folio.Spec) bool {
	if !s.Row.Given() {
		return s.Hinge.Rule == rule.HingeRoundContents
	}
	return !slices.ContainsFunc(s.Row.Joints, func(j boards.Joint) bool { return j.Hinge.Rule != rule.HingeRoundContents })
}

// ownWidth reports whether a board has a width of its own, which follows from nothing.
func ownWidth(s folio.Spec, role boards.Role) bool {
	return slices.ContainsFunc(rowOf(s), func(b boards.Board) bool {
		return b.Role == role && (b.Rule == boards.WidthFixed || b.Rule == boards.WidthDefault && b.Width != 0 || b.Rule == boards.WidthHalf && s.FlapWidth != 0)
	})
}

// coverFor returns a width that a cover has at the least with which a board is so
// wide, 0 where the board does not follow from the cover.
func coverFor(s folio.Spec, role boards.Role, wide units.Length) units.Length {
	row := rowOf(s)
	at := slices.IndexFunc(row, func(b boards.Board) bool { return b.Role == role })
	if at < 0 || role.Spine() || ownWidth(s, role) {
		return 0
	}
	switch b := row[at]; {
	case b.Rule == boards.WidthHalf:
		return 2 * wide
	case b.Rule == boards.WidthShared:
		shares := 0
		for _, o := range row {
			if o.Rule == boards.WidthShared {
				shares++
			}
		}
		w, _ := wide.Times(int64(shares))
		return w + max(s.DoorGap, 0)
	}
	return wide
}

// onPanels returns the contents that go nowhere but on a panel, with what is
// round them there.
func (q *seeker) onPanels(p *folio.Plan, ways []Berth) []units.Size {
	var out []units.Size
	survey, spec := Of(p), p.Spec()
	for i, c := range q.contents {
		elsewhere := ways[i].room.kind != OnPanel
		for k, r := range survey.rooms {
			if elsewhere {
				break
			}
			// What lies on a panel in this plan has a mat there, which is not one
			// of the Spec's fittings.
			if r.kind != OnPanel && r.fitting < len(q.given.Fittings) {
				_, elsewhere = survey.Takes(k, c)
			}
		}
		if !elsewhere {
			out = append(out, c.Size.Grow(survey.reveal+spec.Lining.Inset+spec.Clearance))
		}
	}
	return out
}

// lowest returns the least height with which a cover of width w may take each
// of the sizes, in one direction or the other, and whether there is one.
func lowest(w, h units.Length, alone []units.Size) (units.Length, bool) {
	ok := true
	for _, a := range alone {
		long, need := max(a.W, a.H), min(a.W, a.H)
		ok = ok && w >= need
		if w < long {
			need = long
		}
		h = max(h, need)
	}
	return h, ok
}
