package folio_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/boards"
	"boardwrap.example/internal/proptest"
	"boardwrap.example/score"
	"boardwrap.example/units"
)

// shutBoards returns where the boards of a plan come to lie when it is shut, each from
// where to where across, and how a place on the row gets there.
func shutBoards(t *testing.T, p *folio.Plan) (lie map[boards.Role][2]float64, at func(boards.Role, units.Rect) [2]float64) {
	t.Helper()
	main, turns := turnings(t, p)
	parts, list := sections(p, 0), roles(p)
	angles := make([]float64, len(parts)-1)
	for _, u := range turns {
		angles[u.joint] = u.by
	}
	s := rowTurned(p, main, angles)
	at = func(r boards.Role, on units.Rect) [2]float64 {
		move := s.board(slices.Index(list, r), parts)
		a, b := move(vec{X: on.Min.X.Millimetres()}).X, move(vec{X: on.Max.X.Millimetres()}).X
		return [2]float64{min(a, b), max(a, b)}
	}
	lie = map[boards.Role][2]float64{}
	for b := range p.Boards() {
		lie[b.Role()] = at(b.Role(), b.Rect())
	}
	return lie, at
}

// overFourth folds a row of five so that the first panel lies over the fourth, beside or over the
// fifth, which is narrow, with the second on the table.
func overFourth(s folio.Spec) folio.Spec {
	s.Row.Main = boards.Panel2
	lies := 0
	for i := range s.Row.Boards {
		if b := &s.Row.Boards[i]; b.Role.Spine() {
			s.Row.Joints[i].Fold = s.Row.Joints[i-1].Fold
			continue
		} else if b.Role == boards.Panel5 {
			b.Width = 10*mm + b.Width/4
		}
		if i < len(s.Row.Joints) {
			s.Row.Joints[i].Fold = [...]score.Fold{score.Valley, score.Valley, score.Mountain, score.Valley}[lies]
		}
		lies++
	}
	return s
}

// What comes to lie over a panel lies there when the boards are turned as the order of work
// says, worked out from the row and the creases alone: wherever a board that faces it lies,
// there is a part that names it; and a part that is not all of the panel ends where what it
// names does, with its covering and its hinges.
func TestOverheadsLieThere(t *testing.T) {
	r := rand.New(rand.NewPCG(uint64(proptest.Seed()), 41))
	parts, some := 0, 0
	for trial := range proptest.Cases(2000) {
		row := ownRow(r, 5)
		if trial%2 == 0 {
			row = overFourth(row)
		}
		p, err := folio.Build(row)
		if err != nil {
			continue
		}
		lie, at := shutBoards(t, p)
		c := p.Spec().Covering.Caliper.Millimetres()
		past := c
		for g := range p.Gaps() {
			past = max(past, c+g.Width().Millimetres())
		}
		for role := range lie {
			panel, ok := p.Panel(role, false)
			if !ok || role.Spine() {
				continue
			}
			named := map[boards.Role][][2]float64{}
			for o := range p.Overheads(role, false) {
				part := at(role, o.Part())
				parts++
				if !o.Part().In(panel) {
					t.Errorf("trial %d: over the %v lies %v, and its inside ends at %v\n%+v", trial, role, o.Part(), panel, p.Spec().Row)
				}
				low, high := 1e9, -1e9
				for _, f := range o.Facing() {
					named[f] = append(named[f], part)
					low, high = min(low, lie[f][0]), max(high, lie[f][1])
				}
				if o.Part() == panel || len(o.Facing()) == 0 {
					continue
				}
				some++
				if part[0] < low-past-1e-3 || part[1] > high+past+1e-3 {
					t.Errorf("trial %d: over the %v %v of %v, where %v lie from %v to %v\n%+v", trial, role, part, at(role, panel), o.Facing(), low, high, p.Spec().Row)
				}
			}
			whole := at(role, panel)
			for f := range lie { // whatever lies over a good part of it is named
				if _, faces := p.Facing(panel, f, role); faces && f != role && min(whole[1], lie[f][1])-max(whole[0], lie[f][0]) > 1 && named[f] == nil {
					t.Errorf("trial %d: over the %v from %v to %v lies the %v from %v to %v, not said\n%+v", trial, role, whole[0], whole[1], f, lie[f][0], lie[f][1], p.Spec().Row)
				}
			}
			for f, list := range named {
				low, high := max(whole[0], lie[f][0]), min(whole[1], lie[f][1])
				if low < high && !slices.ContainsFunc(list, func(part [2]float64) bool { return part[0] <= low+1e-3 && part[1] >= high-1e-3 }) {
					t.Errorf("trial %d: the %v faces the %v from %v to %v, said of %v\n%+v", trial, f, role, low, high, list, p.Spec().Row)
				}
			}
		}
	}
	if parts < proptest.Cases(4000) || some < proptest.Cases(160) {
		t.Errorf("only %d parts, of which %d are not all of a panel", parts, some)
	}
}

// The main panel of a row is the one that stays on the table, by whichever name it is asked for.
func TestMainPanelIsTheOneOnTheTable(t *testing.T) {
	r := rand.New(rand.NewPCG(uint64(proptest.Seed()), 43))
	asked := 0
	for trial := range proptest.Cases(200) {
		s := ownRow(r, 3+trial%3)
		s.Row.Main = boards.Panel2
		p, err := folio.Build(s)
		if err != nil {
			continue
		}
		asked++
		byName, room, ok := p.Over(boards.Panel2, true)
		main, same, closed := p.Over(boards.MainPanel, true)
		if ok != closed || room != same || !slices.Equal(slices.Collect(byName), slices.Collect(main)) {
			t.Errorf("trial %d: over the main panel %v, over the second panel %v", trial, same, room)
		}
		panel, _ := p.Panel(boards.Panel2, false)
		beside := func(role boards.Role) (all []units.Rect) {
			for o := range p.Overheads(role, true) {
				all = append(all, o.Part())
			}
			for part := range p.Beside(role, true) {
				all = append(all, part)
			}
			on, _ := p.Facing(panel, role, boards.Panel1)
			back, _ := p.Facing(panel, boards.Panel1, role)
			return append(all, on, back)
		}
		if a, b := beside(boards.MainPanel), beside(boards.Panel2); !slices.Equal(a, b) || p.Headroom(panel, boards.MainPanel, -1) != p.Headroom(panel, boards.Panel2, -1) {
			t.Errorf("trial %d: beside the main panel %v, beside the second panel %v", trial, a, b)
		}
	}
	if asked < proptest.Cases(20) {
		t.Errorf("only %d rows shut", asked)
	}
}
